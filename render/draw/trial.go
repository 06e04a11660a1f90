package draw

import (
	"fmt"
	"math"

	"notchbook/compile/record"
)

// PlotWidth is how wide a test's plot is where there is room for it, points; the narrowest
// is as a ladder. The words are as large on both.
const PlotWidth = 420.

// Heights of a test's plots, points.
const (
	plotHigh  = 200.
	stepsHigh = 150.
)

// Plot draws the figures of a test: a characteristic curve on the grid of the
// trade, both axes in one unit, steps, residuals about zero, or one figure against
// another. Nil where there is nothing to draw.
func Plot(p *record.TestPlot, width float64) *Drawing {
	b := boundsOf(p)
	if !b.any {
		return nil
	}
	c := Chart{Title: p.Title, Text: plotText(p), Width: width, Height: plotHigh, X: Axis{Label: p.X}, Y: Axis{Label: p.Y}}
	switch p.Kind {
	case record.Characteristic:
		c.Even = true
		c.X.From, c.X.To = math.Floor(b.left/0.3-0.2)*0.3, math.Ceil(b.right/0.3+0.2)*0.3
		c.Y.From, c.Y.To = min(0, b.bottom-0.02), max(math.Ceil(b.top/0.2+0.3)*0.2, 0.6)
		c.X.Ticks, c.Y.Ticks = Steps(c.X.From, c.X.To, 0.3, 1), Steps(0, c.Y.To, 0.2, 1)
		c.Guides = []Guide{{Across: true, At: 0.1}}
	case record.Steps:
		c.Height = stepsHigh
		c.X.From, c.X.To = 0.4, b.right+0.6
		c.Y.From, c.Y.To = roomy(min(b.bottom, 0), max(b.top, 0))
		c.Y.Ticks = Even(c.Y.From, c.Y.To, 6)
		for _, m := range p.Marks {
			c.X.Ticks = append(c.X.Ticks, Tick{At: m.At[0], Text: m.Text})
		}
		if c.Y.From < 0 {
			c.Guides = []Guide{{Across: true, At: 0}}
		}
	default:
		c.X.From, c.X.To = roomy(b.left, b.right)
		c.Y.From, c.Y.To = roomy(min(b.bottom, 0), max(b.top, 0))
		c.X.Ticks, c.Y.Ticks = Even(c.X.From, c.X.To, 6), Even(c.Y.From, c.Y.To, 6)
		if p.X == "N" { // there is none between them
			c.X.From, c.X.To = math.Floor(b.left)-0.4, math.Ceil(b.right)+0.4
			c.X.Ticks = Steps(c.X.From, c.X.To, 1, 1)
		}
		if c.Y.From < 0 {
			c.Guides = []Guide{{Across: true, At: 0}}
		}
		if p.Kind == record.Residuals {
			c.Height = stepsHigh
		}
	}
	c.Series, c.Notes = plotSeries(p), plotNotes(p)
	return c.Draw()
}

// extent is what the figures of a plot reach.
type extent struct {
	left, right, bottom, top float64
	any                      bool
}

func boundsOf(p *record.TestPlot) extent {
	b := extent{left: math.Inf(1), right: math.Inf(-1), bottom: math.Inf(1), top: math.Inf(-1)}
	for _, l := range p.Lines {
		for _, at := range l.Points {
			b.left, b.right = min(b.left, at[0]), max(b.right, at[0])
			b.bottom, b.top = min(b.bottom, at[1]), max(b.top, at[1])
			b.any = true
		}
	}
	return b
}

// roomy is a stretch with a little room at both ends.
func roomy(from, to float64) (float64, float64) {
	room := max((to-from)*0.1, 0.02)
	if from == 0 {
		return 0, to + room
	}
	return from - room, to + room
}

func plotSeries(p *record.TestPlot) []Series {
	var all []Series
	look := 0
	for _, l := range p.Lines {
		if len(l.Points) == 0 {
			continue
		}
		s := Series{Name: l.Name, Kind: Dots, Look: look}
		if l.Joined {
			s.Kind = Curve
			if len(l.Points) < 20 {
				s.Kind = Chained
			}
		}
		for _, at := range l.Points {
			s.Points = append(s.Points, Point{at[0], at[1]})
		}
		look++
		all = append(all, s)
	}
	return all
}

// plotNotes are the marks with words; those of steps name places of the axis.
func plotNotes(p *record.TestPlot) []Note {
	if p.Kind == record.Steps {
		return nil
	}
	var all []Note
	for _, m := range p.Marks {
		n := Note{At: Point{m.At[0], m.At[1]}, Text: m.Text, Mark: true}
		if m.Odd {
			n.Text += ", does not belong"
			n.Ink = Over
		}
		all = append(all, n)
	}
	return all
}

// plotText says the drawing in sentences.
func plotText(p *record.TestPlot) string {
	text := fmt.Sprintf("%s against %s.", orFigure(p.Y), orFigure(p.X))
	for _, l := range p.Lines {
		if n := len(l.Points); n > 0 {
			a, z := l.Points[0], l.Points[n-1]
			name := l.Name
			if name == "" {
				name = "measured points"
			}
			text += fmt.Sprintf(" %s: %d, from %.2f at %.2f to %.2f at %.2f.", name, n, a[1], a[0], z[1], z[0])
		}
	}
	for _, m := range p.Marks {
		if m.Odd {
			text += " " + m.Text + " does not belong to the others."
		}
	}
	return text
}

func orFigure(s string) string {
	if s == "" {
		return "each"
	}
	return s
}
