package draw

import (
	"cmp"
	"math"
	"slices"
)

// Chart is a diagram of figures against figures. Its series are told apart by
// dash and by the form of their dots, and are named at their ends, so that there
// is no key to look up.
type Chart struct {
	Title, Text string
	Width       float64 // of the whole drawing, points
	Height      float64 // of the whole; not used where the chart is Even
	// Even makes a unit of X as long as a unit of Y, as characteristic curves are
	// printed: a gradient of 1 then stands at 45 degrees. The height follows.
	Even   bool
	X, Y   Axis
	Bands  []Band
	Guides []Guide
	Series []Series
	Notes  []Note
}

// Series are figures that belong together, in the order in which they are joined.
type Series struct {
	Name   string  // written at the end; "" for none
	Points []Point // figures, not points of the drawing
	Kind   Kind
	Look   int // from 0: the dash and form; series of one look belong together
	Ink    Ink // None is Strong
}

// Kind is how the figures of a series are shown.
type Kind uint8

// The kinds.
const (
	Curve   Kind = iota // joined by a line
	Stairs              // each figure holds until the next
	Dots                // measured points, not joined
	Chained             // measured points, joined
)

// Band is a stretch of X with a pale ground.
type Band struct {
	From, To float64
	Name     string // written at the top of it
}

// Guide is a straight line across the chart at a figure of one axis.
type Guide struct {
	Across bool // at a figure of Y, from left to right; else at one of X
	At     float64
	Name   string
}

// Note is words beside a point.
type Note struct {
	At   Point // figures
	Text string
	Mark bool // a ring about the point
	Ink  Ink  // None is Strong
}

// Sizes of a chart, points.
const (
	chartWords = 8.5
	lineHigh   = 10.5
	dotSize    = 5.
)

var (
	dashes = [...]Dash{Solid, Dashed, Dotted, DashDot}
	forms  = [...]Form{Circle, Square, Up, Diamond, Cross, Down}
)

// Draw makes the drawing.
func (c Chart) Draw() *Drawing {
	p := newPlot(c)
	p.bands()
	p.grid()
	p.guides()
	for _, s := range c.Series {
		p.series(s)
	}
	p.names()
	p.notes()
	return p.Drawing
}

// plot is a chart in the making.
type plot struct {
	*Drawing
	c     Chart
	frame rect   // of the axes
	taken []rect // where words and dots are
}

func newPlot(c Chart) *plot {
	p := &plot{Drawing: &Drawing{Width: c.Width, Height: c.Height, Title: c.Title, Text: c.Text}, c: c}
	wide := 0.
	for _, t := range c.Y.Ticks {
		wide = max(wide, Width(t.Text, chartWords, false))
	}
	p.frame = rect{left: wide + 6, top: 6, right: c.Width - p.nameRoom() - 4, bottom: c.Height - lineHigh - 5}
	if c.Y.Label != "" {
		p.frame.top += lineHigh
	}
	if c.X.Label != "" {
		p.frame.bottom -= lineHigh
	}
	if c.Even {
		foot := c.Height - p.frame.bottom
		p.frame.bottom = p.frame.top + (p.frame.right-p.frame.left)*(c.Y.To-c.Y.From)/(c.X.To-c.X.From)
		p.Height = p.frame.bottom + foot
	}
	return p
}

// nameRoom is what the names at the ends need beside the frame, a third of the
// drawing at most.
func (p *plot) nameRoom() float64 {
	room := 0.
	for _, s := range p.c.Series {
		if s.Name != "" {
			room = max(room, Width(s.Name, chartWords, false)+12)
		}
	}
	return min(room, p.c.Width/3)
}

// at brings figures onto the drawing.
func (p *plot) at(v Point) Point {
	return Point{
		Snap(p.frame.left + (v.X-p.c.X.From)/(p.c.X.To-p.c.X.From)*(p.frame.right-p.frame.left)),
		Snap(p.frame.bottom - (v.Y-p.c.Y.From)/(p.c.Y.To-p.c.Y.From)*(p.frame.bottom-p.frame.top)),
	}
}

func (p *plot) bands() {
	for _, b := range p.c.Bands {
		from, to := p.at(Point{X: b.From}).X, p.at(Point{X: b.To}).X
		from, to = max(min(from, to), p.frame.left), min(max(from, to), p.frame.right)
		if from >= to {
			continue
		}
		p.add(Area{Points: box(from, p.frame.top, to, p.frame.bottom), Fill: Fill})
		if b.Name != "" {
			p.words(Words{At: Point{(from + to) / 2, p.frame.top + lineHigh}, Text: b.Name, Size: chartWords, Anchor: Middle, Ink: Quiet})
		}
	}
}

// grid draws the axes with what they say.
func (p *plot) grid() {
	f := p.frame
	for _, t := range apart(p.c.X.Ticks, func(a, b Tick) bool {
		const gap = 3
		return p.at(Point{X: b.At}).X-p.at(Point{X: a.At}).X < (Width(a.Text, chartWords, false)+Width(b.Text, chartWords, false))/2+gap
	}) {
		x := p.at(Point{X: t.At}).X
		p.rule(x, f.top, x, f.bottom, gridWidth(t), Hair, Solid)
		p.words(Words{At: Point{x, f.bottom + lineHigh + 1.5}, Text: t.Text, Size: chartWords, Anchor: Middle, Ink: Quiet})
	}
	for _, t := range apart(p.c.Y.Ticks, func(a, b Tick) bool { return p.at(Point{Y: a.At}).Y-p.at(Point{Y: b.At}).Y < chartWords }) {
		y := p.at(Point{Y: t.At}).Y
		p.rule(f.left, y, f.right, y, gridWidth(t), Hair, Solid)
		p.words(Words{At: Point{f.left - 4, y + .3*chartWords}, Text: t.Text, Size: chartWords, Anchor: End, Ink: Quiet})
	}
	p.add(Line{Points: []Point{{f.left, f.top}, {f.left, f.bottom}, {f.right, f.bottom}}, Ink: Firm, Width: .9})
	p.words(Words{At: Point{0, chartWords}, Text: p.c.Y.Label, Size: chartWords, Ink: Quiet})
	p.words(Words{At: Point{f.right, f.bottom + 2*lineHigh + 2}, Text: p.c.X.Label, Size: chartWords, Anchor: End, Ink: Quiet})
}

func gridWidth(t Tick) float64 {
	if t.Text == "" {
		return .3
	}
	return .6
}

// words sets words and keeps others off them.
func (p *plot) words(w Words) {
	if w.Text != "" {
		p.add(w)
		p.taken = append(p.taken, w.bounds())
	}
}

func (p *plot) guides() {
	f := p.frame
	for _, g := range p.c.Guides {
		if g.Across {
			y := p.at(Point{Y: g.At}).Y
			p.rule(f.left, y, f.right, y, .9, Quiet, Dashed)
			p.words(Words{At: Point{f.left + 4, y - 2.5}, Text: g.Name, Size: chartWords, Ink: Quiet})
			continue
		}
		x := p.at(Point{X: g.At}).X
		p.rule(x, f.top, x, f.bottom, .9, Quiet, Dashed)
		p.words(Words{At: Point{x + 3, f.bottom - 3}, Text: g.Name, Size: chartWords, Ink: Quiet})
	}
}

// series draws what of a series lies within the axes.
func (p *plot) series(s Series) {
	var at []Point
	for _, v := range s.Points {
		q := p.at(v)
		if s.Kind == Stairs && len(at) > 0 {
			at = append(at, Point{q.X, at[len(at)-1].Y})
		}
		at = append(at, q)
	}
	ink := cmp.Or(s.Ink, Strong)
	if s.Kind != Dots {
		for _, run := range clip(at, p.frame) {
			p.add(Line{Points: run, Ink: ink, Width: 1.3, Dash: dashes[s.Look%len(dashes)]})
		}
	}
	if s.Kind == Dots || s.Kind == Chained {
		for _, q := range at {
			if p.frame.holds(q) {
				p.dot(Dot{At: q, Form: forms[s.Look%len(forms)], Size: dotSize, Ink: ink, Open: s.Look >= len(forms)})
			}
		}
	}
}

func (p *plot) dot(d Dot) {
	p.add(d)
	r := d.Size/2 + 1
	p.taken = append(p.taken, rect{d.At.X - r, d.At.Y - r, d.At.X + r, d.At.Y + r})
}

// names writes each series' name beside its end, in the order of the ends from
// above, pushed apart where they would meet and led to where they were moved.
func (p *plot) names() {
	type end struct {
		name   string
		from   Point
		wanted float64
		y      float64
	}
	var ends []end
	for _, s := range p.c.Series {
		if last, ok := p.last(s); ok && s.Name != "" {
			ends = append(ends, end{s.Name, last, last.Y, last.Y})
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.y, b.y) })
	for i := range ends {
		if i > 0 {
			ends[i].y = max(ends[i].y, ends[i-1].y+lineHigh)
		}
	}
	for i := len(ends) - 1; i >= 0; i-- {
		lowest := p.frame.bottom
		if i < len(ends)-1 {
			lowest = ends[i+1].y - lineHigh
		}
		ends[i].y = min(ends[i].y, lowest)
	}
	left := p.frame.right + 10
	for _, e := range ends {
		if math.Abs(e.y-e.wanted) > 2 || left-e.from.X > 14 {
			p.add(Line{Points: []Point{e.from, {left - 2, e.y}}, Ink: Firm, Width: .4})
		}
		p.words(Words{At: Point{left, e.y + .34*chartWords}, Text: Cut(e.name, chartWords, false, p.c.Width-left), Size: chartWords, Ink: Strong})
	}
}

// last is the last point of a series that can be seen.
func (p *plot) last(s Series) (Point, bool) {
	for i := len(s.Points) - 1; i >= 0; i-- {
		if q := p.at(s.Points[i]); p.frame.holds(q) {
			return q, true
		}
	}
	return Point{}, false
}

// notes writes words beside their points, each where it covers least.
func (p *plot) notes() {
	for _, n := range p.c.Notes {
		at := p.at(n.At)
		if !p.frame.holds(at) {
			continue
		}
		ink := cmp.Or(n.Ink, Strong)
		if n.Mark {
			p.add(Dot{At: at, Form: Circle, Size: 9, Ink: ink, Open: true})
		}
		p.words(p.best(at, Words{Text: n.Text, Size: chartWords, Ink: ink}))
	}
}

// best tries the places about a point and takes the first that covers nothing,
// or the one that covers least.
func (p *plot) best(at Point, w Words) Words {
	const off = 7.
	least := math.Inf(1)
	best := w
	for _, place := range []struct {
		x, y   float64
		anchor Anchor
	}{
		{off, .34 * w.Size, Start}, {-off, .34 * w.Size, End}, {0, -off, Middle}, {0, off + .8*w.Size, Middle},
		{off, -off, Start}, {-off, -off, End}, {off, off + .8*w.Size, Start}, {-off, off + .8*w.Size, End},
	} {
		w.At, w.Anchor = Point{at.X + place.x, at.Y + place.y}, place.anchor
		if covers := p.covers(w.bounds()); covers < least {
			least, best = covers, w
		}
	}
	return best
}

// covers is how much of others a rectangle would cover, or lie outside.
func (p *plot) covers(r rect) float64 {
	sum := (r.right-r.left)*(r.bottom-r.top) - r.shared(rect{0, 0, p.Width, p.Height})
	for _, t := range p.taken {
		sum += r.shared(t)
	}
	return Snap(sum)
}
