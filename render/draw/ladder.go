package draw

import (
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// The stop ladder
//
// A ladder lying on its side: the rungs are whole stops of light, the reading
// stands at nought, and to the right is more exposure. Each thing that asks for
// exposure is a stride from rung to rung, one below the other, so that the foot
// of the stairs is what was asked for. What was given stands below it, and the
// gap between the two is measured as on a plan. All of it is light on the film;
// where a long time loses light, a broken stride leads to what the clock has to
// show, and from what it showed.

// The words of ladder, strip and calendar, and the rows of the first two: an output
// that has lines of its own sets a row on a line.
const (
	WordSize = 10.
	RowHigh  = 44. / 3
	WordDrop = .34 * WordSize // of the baseline, below the middle of a row
)

// LadderWidth is how wide ladder, strip and calendar are, in points.
const LadderWidth = 280.

const (
	nameRight  = 82.  // names end here
	plotLeft   = 92.  // the first rung that may be
	plotRight  = 196. // the last
	valueRight = LadderWidth
	minStops   = 3.  // a ladder shows at least so many
	maxStride  = 26. // points a stop, at most
)

// rung is one row of the ladder.
type rung struct {
	name, value string
	from, to    float64 // stops past the reading
	kind        RowKind
	step        int // of a Stride, its number
}

// Ladder draws how a sheet's reading becomes its setting; nil where too little
// is known for a way from the one to the other.
func Ladder(s *record.Sheet) *Drawing {
	rungs := ladderRungs(s)
	if len(rungs) < 2 {
		return nil
	}
	d := &Drawing{Width: LadderWidth, Title: "From the reading to the setting", Text: ladderText(s, rungs)}
	scale := scaleOf(rungs)
	rows := 0
	for _, r := range rungs {
		rows += len(r.values())
	}
	d.Height = float64(rows)*RowHigh + RowHigh
	scale.rungs(d, rows)
	above := 0.
	for i, r := range rungs {
		y := RowHigh * (float64(len(d.Rows)) + .5)
		if i > 0 && r.kind != Difference && r.kind != Given { // what was given comes from elsewhere
			d.rule(scale.x(r.from), above, scale.x(r.from), y, .5, Firm, Solid)
		}
		scale.draw(d, r, y, above, s)
		cut := d.label(r, y)
		d.Rows = append(d.Rows, Row{Kind: r.kind, At: r.step, Cut: cut})
		for range r.values()[1:] {
			d.Rows = append(d.Rows, Row{Kind: Further})
		}
		above = y
	}
	return d
}

// values are the lines that a row's figure takes: one, or where its times are several and
// too long for it one below the other. A figure is never shortened.
func (r rung) values() []string {
	if r.wide(r.value) <= valueRoom {
		return []string{r.value}
	}
	var lines []string
	for _, part := range strings.SplitAfter(strings.ReplaceAll(r.value, ", ", ",\n"), " + ") {
		for i, word := range strings.Split(part, "\n") {
			last := len(lines) - 1
			sep := ""
			if i > 0 {
				sep = " "
			}
			if last >= 0 && r.wide(strings.TrimSpace(lines[last]+sep+word)) <= valueRoom {
				lines[last] += sep + word
			} else {
				lines = append(lines, word)
			}
		}
	}
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return lines
}

// valueRoom is how much of the width the figures have.
const valueRoom = valueRight - plotRight - 6

func (r rung) wide(text string) float64 { return Width(text, WordSize, r.bold()) }

func (r rung) bold() bool { return r.kind == Asked || r.kind == Given || r.kind == Difference }

// ladderRungs are the rows that what is known fills.
func ladderRungs(s *record.Sheet) []rung {
	if s.Reading == nil || !s.Reading.EV.Known {
		return nil
	}
	base := s.Reading.EV.Value
	rungs := []rung{{name: "read", value: exposure.FormatEV(base)}}
	at := 0.
	for i, st := range s.Steps {
		rungs = append(rungs, rung{name: stepName(st), value: exposure.FormatStops(st.Stops), from: at, to: at + st.Stops, kind: Stride, step: i})
		at += st.Stops
	}
	if s.Asked.EV.Known {
		at = base - s.Asked.EV.Value
		rungs = append(rungs, rung{name: "asked", value: settingsWords(s.Asked), from: at, to: at, kind: Asked})
		rungs = appendClock(rungs, s.Asked, at, +1)
	}
	if s.Given.EV.Known {
		given := base - s.Given.EV.Value
		clock := given + clockLoss(s.Given)
		rungs = append(rungs, rung{name: "given", value: settingsWords(s.Given), from: clock, to: clock, kind: Given})
		rungs = appendClock(rungs, s.Given, given, -1)
		if s.Difference.Known && s.Asked.EV.Known {
			rungs = append(rungs, rung{name: "difference", value: gapWords(s), from: at, to: given, kind: Difference})
		}
	}
	return rungs
}

// appendClock adds what reciprocity takes of a time, where it takes any: for
// what was asked, on the way to the clock; for what was given, from there.
func appendClock(rungs []rung, x record.Settings, film, way float64) []rung {
	lost := clockLoss(x)
	if lost == 0 {
		return rungs
	}
	r := rung{name: "reciprocity", value: exposure.FormatStops(way * lost), from: film, to: film + lost, kind: Clock}
	if way < 0 {
		r.from, r.to = r.to, r.from
	}
	return append(rungs, r)
}

// clockLoss is the light that reciprocity takes of a time, in stops.
func clockLoss(x record.Settings) float64 {
	if !x.OnFilm.Known || !x.Seconds.Known || x.OnFilm.Value <= 0 || x.Seconds.Value <= 0 {
		return 0
	}
	return math.Log2(x.Seconds.Value / x.OnFilm.Value)
}

func stepName(st record.Step) string {
	if st.Kind == "bellows" || st.Name == "" {
		return st.Kind
	}
	return st.Name
}

func settingsWords(x record.Settings) string {
	words := make([]string, 0, 2)
	for _, w := range []string{x.Time, x.Aperture} {
		if w != "" {
			words = append(words, w)
		}
	}
	return strings.Join(words, ", ")
}

// gapWords say the difference, and that a small one is none to speak of.
func gapWords(s *record.Sheet) string {
	if s.AsOne.Known {
		return exposure.Between(s.AsOne.Value, s.Difference.Value)
	}
	if exposure.FormatAmount(s.Difference.Value) == "0" {
		return "none"
	}
	return exposure.OverUnder(s.Difference.Value)
}

// ladderText says the ladder in words.
func ladderText(s *record.Sheet, rungs []rung) string {
	var b strings.Builder
	for i, r := range rungs {
		switch r.kind {
		case Stride, Clock:
			b.WriteString(", " + r.name + " " + r.value)
			continue
		}
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(strings.TrimSpace(r.name + " " + r.value))
	}
	b.WriteString(".")
	text := b.String()
	return strings.ToUpper(text[:1]) + text[1:]
}

// ladderScale brings stops past the reading onto the drawing.
type ladderScale struct {
	first, last, stride float64 // whole stops, points a stop
}

func scaleOf(rungs []rung) ladderScale {
	least, most := 0., 0.
	for _, r := range rungs {
		least, most = min(least, r.from, r.to), max(most, r.from, r.to)
	}
	first, last := math.Floor(least+.05), math.Ceil(most-.05)
	last = max(last, first+minStops)
	return ladderScale{first, last, min((plotRight-plotLeft)/(last-first), maxStride)}
}

func (l ladderScale) x(stops float64) float64 { return plotLeft + (stops-l.first)*l.stride }

// rungs draws the whole stops, every second or fourth where they are close.
func (l ladderScale) rungs(d *Drawing, rows int) {
	every := 1.
	for every*l.stride < 10 {
		every *= 2
	}
	named := every
	for named*l.stride < 20 {
		named *= 2
	}
	foot := RowHigh * float64(rows)
	for at := math.Ceil(l.first/every) * every; at <= l.last; at += every {
		ink := Hair
		if at == 0 {
			ink = Firm
		}
		d.rule(l.x(at), 2, l.x(at), foot, .5, ink, Solid)
		if math.Mod(at, named) == 0 {
			d.add(Words{At: Point{l.x(at), foot + RowHigh/2 + WordDrop}, Text: exposure.FormatStops(at), Size: WordSize, Anchor: Middle, Ink: Quiet})
		}
	}
	d.add(Words{At: Point{nameRight - 6, foot + RowHigh/2 + WordDrop}, Text: "stops", Size: WordSize, Anchor: End, Ink: Quiet})
}

// draw puts a row's marks on the ladder.
func (l ladderScale) draw(d *Drawing, r rung, y, above float64, s *record.Sheet) {
	from, to := l.x(r.from), l.x(r.to)
	switch r.kind {
	case Read:
		d.add(Dot{At: Point{from, y}, Form: Circle, Size: 6, Ink: Strong, Open: true})
	case Stride:
		d.stride(from, to, y, 2.2, Strong, Solid)
	case Clock:
		d.stride(from, to, y, 1, Strong, Dashed)
	case Asked:
		d.add(Dot{At: Point{from, y}, Form: Diamond, Size: 7, Ink: Strong, Open: true})
	case Given:
		d.add(Dot{At: Point{from, y}, Form: Diamond, Size: 7, Ink: Strong})
	case Difference:
		d.gap(from, to, y, above, gapInk(s))
	}
}

// stride is an arrow from rung to rung.
func (d *Drawing) stride(from, to, y, width float64, ink Ink, dash Dash) {
	const head = 5.
	way := math.Copysign(1, to-from)
	if math.Abs(to-from) < head {
		d.rule(to, y-4, to, y+4, width, ink, Solid)
		return
	}
	d.rule(from, y, to-way*head*.8, y, width, ink, dash)
	form := Right
	if way < 0 {
		form = Left
	}
	d.add(Dot{At: Point{to - way*head/2, y}, Form: form, Size: head, Ink: ink})
}

// gap is a measured distance: a stroke at either end and the line between.
func (d *Drawing) gap(from, to, y, above float64, ink Ink) {
	width := 1.
	if ink != Quiet {
		width = 2.2
	}
	above += RowHigh * .1
	d.rule(from, above, from, y+4.5, .75, ink, Dotted)
	d.rule(to, above, to, y+4.5, .75, ink, Dotted)
	if math.Abs(to-from) > .5 {
		d.stride(from, to, y, width, ink, Solid)
	}
}

// gapInk is quiet for what is within the tolerance.
func gapInk(s *record.Sheet) Ink {
	switch {
	case s.State != record.Off:
		return Quiet
	case s.Difference.Value < 0:
		return Under
	}
	return Over
}

// label writes a row's name before the ladder and its figure after, and reports
// whether it had to shorten the name. A figure that is wider than its room even on lines
// of its own is smaller.
func (d *Drawing) label(r rung, y float64) (cut bool) {
	base := y + WordDrop
	name := Cut(r.name, WordSize, false, nameRight)
	d.add(Words{At: Point{nameRight, base}, Text: name, Size: WordSize, Anchor: End, Ink: Quiet})
	for i, value := range r.values() {
		size := WordSize * min(1, valueRoom/r.wide(value))
		d.add(Words{At: Point{valueRight, base + float64(i)*RowHigh}, Text: value, Size: Snap(size), Bold: r.bold(), Anchor: End, Ink: Strong})
	}
	return name != r.name
}
