package draw

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// The forecast of a filter
//
// One line a subject: it stands at nought without the filter, like the grey card that
// never moves, and a stride leads to where the filter takes it. The pale bar shows how
// far such subjects differ. All of it stands to a third of a stop.

const (
	moveLeft  = 96.
	moveRight = 232.
)

// Forecast draws every filter, one below the other; nil where none has a forecast.
func Forecast(f *record.Forecast) *Drawing {
	d := &Drawing{Width: LadderWidth, Title: "What the filters do on " + f.Film + " in " + f.Light}
	var said []string
	low, high := moveEnds(f.Casts)
	for _, c := range f.Casts {
		if c.Moves == nil {
			continue
		}
		if d.Height > 0 {
			d.Height += RowHigh
		}
		said = append(said, d.cast(f, c, low, high))
	}
	if said == nil {
		return nil
	}
	d.Text = strings.Join(said, " ")
	return d
}

// cast adds a filter at the foot of the drawing, on the scale from low to high, and says it.
func (d *Drawing) cast(f *record.Forecast, c *record.Cast, low, high float64) string {
	top := d.Height
	cost := "costs " + exposure.InStops(exposure.Third(c.Stops.Value))
	d.add(Words{At: Point{0, top + 11}, Text: Cut(c.Name, WordSize, true, moveLeft), Size: WordSize, Bold: true, Ink: Strong})
	d.add(Words{At: Point{LadderWidth, top + 11}, Text: cost, Size: WordSize, Anchor: End, Ink: Strong})
	at := func(stops float64) float64 { return moveLeft + (stops-low)/(high-low)*(moveRight-moveLeft) }
	first := top + 2*RowHigh + 2
	foot := first + float64(len(f.Subjects))*RowHigh
	d.scale(at, low, high, first, foot)
	var said []string
	for i, s := range f.Subjects {
		m := c.Moves[i]
		y := first + (float64(i)+.5)*RowHigh
		d.move(at, m, y)
		text := exposure.FormatStops(exposure.Third(m.Stops))
		d.add(Words{At: Point{moveLeft - 10, y + WordDrop}, Text: Cut(s.Name, WordSize, false, moveLeft-12), Size: WordSize, Anchor: End, Ink: Strong})
		d.add(Words{At: Point{LadderWidth, y + WordDrop}, Text: text, Size: WordSize, Anchor: End, Ink: Strong})
		said = append(said, s.Name+" "+text)
	}
	d.Height = foot + 2
	return fmt.Sprintf("%s %s; it moves, in stops against grey, %s.", c.Name, cost, strings.Join(said, ", "))
}

// scale is a line a stop from the first row to the foot of the last.
func (d *Drawing) scale(at func(float64) float64, low, high, first, foot float64) {
	for s := low; s <= high; s++ {
		ink := Hair
		if s == 0 {
			ink = Firm
		}
		d.rule(at(s), first-2, at(s), foot, .5, ink, Solid)
		d.add(Words{At: Point{at(s), first - 5}, Text: exposure.FormatStops(s), Size: 8.5, Anchor: Middle, Ink: Quiet})
	}
}

func (d *Drawing) move(at func(float64) float64, m record.Move, y float64) {
	to, low, high := exposure.Third(m.Stops), exposure.Third(m.Low), exposure.Third(m.High)
	if low != high {
		d.rule(at(low), y, at(high), y, 6, Hair, Solid)
	}
	if to != 0 {
		d.rule(at(0), y, at(to), y, 1.4, Strong, Solid)
	}
	d.add(Dot{At: Point{at(to), y}, Form: Circle, Size: 5.5, Ink: Strong})
}

// moveEnds are the whole stops between which all moves lie, a stop to either side at
// least: one scale for all filters.
func moveEnds(all []*record.Cast) (low, high float64) {
	low, high = -1, 1
	for _, c := range all {
		for _, m := range c.Moves {
			low, high = min(low, math.Floor(exposure.Third(m.Low))), max(high, math.Ceil(exposure.Third(m.High)))
		}
	}
	return low, high
}
