package pdf

import (
	"math"

	"notchbook/render/draw"
)

// Drawings of render/draw stand in the book as lines and type, not as pictures.
// Their words, ten points high there, come out as small as the book's labels, and
// the rows of ladder and strip as high as its lines, so that they lie on the grid
// like everything else.

// figureScale brings a drawing's points to the book's.
const figureScale = smallSize / draw.WordSize

// figure is a drawing in its place.
type figure struct {
	drawing *draw.Drawing
	scale   float64
	x       float64 // of its left, from the column's left
}

// tallestFigure is in lines. What is taller would be parted from its entry, and
// says no more than the entry's words do.
const tallestFigure = 24

// setFigure leaves room for a drawing, no wider than from left to right, and
// binds its lines together. None is set for none. Notes stand beside its rows,
// one each; those that have no room there, or whose row had to be shortened, are
// left to the caller: their rows come back.
func (g *galley) setFigure(d *draw.Drawing, scale, left, right float64, notes []string) (told []bool) {
	if d == nil {
		return nil
	}
	scale = min(scale, (right-left)/d.Width)
	f := &figure{drawing: d, scale: scale, x: left}
	lines := int(math.Ceil(d.Height*scale/grid - 0.05))
	if lines > tallestFigure {
		return nil
	}
	first := len(g.lines)
	beside := left + d.Width*scale + noteGap
	for i := range lines {
		if i < min(len(d.Rows), len(notes)) {
			fits := notes[i] == "" || scale == figureScale && g.fits(notes[i], aside, right-beside)
			told = append(told, fits && !d.Rows[i].Cut)
			if fits && notes[i] != "" && !d.Rows[i].Cut {
				g.set(measure{left: beside, right: right + grid}, span{text: notes[i], style: aside})
				continue
			}
		}
		n := len(g.pieces)
		g.lines = append(g.lines, line{from: n, to: n, h: grid})
	}
	g.lines[first].figure = f
	g.keepFrom(first)
	return told
}

// noteGap parts a drawing from the notes beside it.
const noteGap = 10.0

// fits reports whether text stands on one line of a width.
func (g *galley) fits(text string, look style, width float64) bool {
	if text == "" {
		return true
	}
	sum := 0.0
	for _, r := range text {
		_, w := g.faces.find(look.face, r)
		if w == missing {
			return false
		}
		sum += float64(w) * look.size / 1000
	}
	return sum <= width
}

// drawFigure sets a drawing's marks, the first at the bottom.
func (b *book) drawFigure(f *figure, x, y float64) {
	const drop = grid - descent - figureScale*(draw.RowHigh/2+draw.WordDrop)
	p := plotter{book: b, scale: f.scale, x: x + f.x, y: y + drop}
	b.out = append(b.out, "/Figure BMC\n"...)
	for _, m := range f.drawing.Marks {
		switch m := m.(type) {
		case draw.Line:
			p.line(m)
		case draw.Area:
			p.area(m)
		case draw.Dot:
			p.dot(m)
		case draw.Words:
			p.words(m)
		}
	}
	b.out = append(b.out, "EMC\n"...)
}

// plotter brings the points of one drawing onto the paper.
type plotter struct {
	*book
	scale, x, y float64 // of a drawing's point, and where its corner stands
}

// inkOf gives a drawing's inks those of the book. What is over and what is under
// is said by the side to which it lies.
func inkOf(i draw.Ink) ink {
	switch i {
	case draw.Quiet:
		return grey
	case draw.Firm:
		return middle
	case draw.Hair:
		return hair
	case draw.Fill:
		return pale
	case draw.Paper:
		return paper
	case draw.Over, draw.Under:
		return red
	}
	if level, toned := i.Grey(); toned {
		return tone + ink(math.Round(level*toneSteps))
	}
	return black
}

// path begins or goes on with the outline through the points.
func (p *plotter) path(points []draw.Point) {
	for i, q := range points {
		p.at(q.X, q.Y)
		if i == 0 {
			p.out = append(p.out, "m "...)
		} else {
			p.out = append(p.out, "l "...)
		}
	}
}

// at writes a place of the drawing.
func (p *plotter) at(x, y float64) {
	p.number(p.x + x*p.scale)
	p.number(p.height - p.y - y*p.scale)
}

func (p *plotter) line(l draw.Line) {
	p.setInk(inkOf(l.Ink))
	p.setWidth(l.Width * p.scale)
	dash := l.Dash.Pattern(l.Width)
	if dash != nil {
		p.out = append(p.out, '[')
		for _, d := range dash {
			p.number(d * p.scale)
		}
		p.out = append(p.out, "] 0 d "...)
	}
	p.path(l.Points)
	p.out = append(p.out, "S\n"...)
	if dash != nil {
		p.out = append(p.out, "[] 0 d\n"...)
	}
}

func (p *plotter) area(a draw.Area) {
	if a.Fill != draw.None {
		p.setInk(inkOf(a.Fill))
		p.path(a.Points)
		p.out = append(p.out, "f\n"...)
	}
	if a.Edge != draw.None {
		p.setInk(inkOf(a.Edge))
		p.setWidth(a.Width * p.scale)
		p.path(a.Points)
		p.out = append(p.out, "s\n"...)
	}
}

// openWidth is that of the edge of a dot that is an outline.
const openWidth = 1.2

func (p *plotter) dot(d draw.Dot) {
	outline := d.Outline()
	if d.Form == draw.Cross {
		p.line(draw.Line{Points: outline[:2], Ink: d.Ink, Width: openWidth})
		p.line(draw.Line{Points: outline[2:], Ink: d.Ink, Width: openWidth})
		return
	}
	shape := func() {
		if outline == nil {
			p.circle(d.At, d.Size/2)
		} else {
			p.path(outline)
		}
	}
	if d.Open {
		p.setInk(paper)
		shape()
		p.out = append(p.out, "f\n"...)
		p.setInk(inkOf(d.Ink))
		p.setWidth(openWidth * p.scale)
		shape()
		p.out = append(p.out, "s\n"...)
		return
	}
	p.setInk(inkOf(d.Ink))
	shape()
	p.out = append(p.out, "f\n"...)
}

// circle is four curves, nowhere further than 0.03 % of the radius from it
// (4/3 (√2 - 1), common practice).
func (p *plotter) circle(at draw.Point, r float64) {
	const handle = 0.5522847
	k := handle * r
	p.at(at.X+r, at.Y)
	p.out = append(p.out, "m "...)
	for _, c := range [4][6]float64{
		{r, k, k, r, 0, r}, {-k, r, -r, k, -r, 0}, {-r, -k, -k, -r, 0, -r}, {k, -r, r, -k, r, 0},
	} {
		for i := 0; i < len(c); i += 2 {
			p.at(at.X+c[i], at.Y+c[i+1])
		}
		p.out = append(p.out, "c "...)
	}
}

// words sets a line of text. What no face has is a dot here; it stands by its
// number where the entry says the same in full.
func (p *plotter) words(w draw.Words) {
	look := style{size: w.Size * p.scale, ink: inkOf(w.Ink)}
	if w.Bold {
		look.face = bold
	}
	text := p.fit(w.Text, look, math.Inf(1))
	x := p.x + w.At.X*p.scale
	switch w.Anchor {
	case draw.Middle:
		x -= p.faces().width(look.face, look.size, text) / 2
	case draw.End:
		x -= p.faces().width(look.face, look.size, text)
	}
	p.say(x, p.y+w.At.Y*p.scale, text, look)
}
