package draw

import (
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// What filters did, beside the forecast: the forecast's drawing with the places of the
// picture for rows, and a ring where each was measured.

// Compared draws the places that were measured behind each filter; nil where none was.
func Compared(c *record.Compared) *Drawing {
	d := &Drawing{Width: LadderWidth, Title: "What the filters did"}
	low, high := spotEnds(c)
	var said []string
	for _, f := range c.Sheets {
		if f.Spots == nil {
			continue
		}
		if d.Height > 0 {
			d.Height += RowHigh
		}
		d.filtered(f, low, high)
		said = append(said, f.Name+" on "+f.Sheet.Label+": "+strings.Join(f.Says, "; ")+".")
	}
	if said == nil {
		return nil
	}
	d.key()
	d.Text = strings.Join(said, " ")
	return d
}

func (d *Drawing) filtered(f *record.Filtered, low, high float64) {
	top := d.Height
	at := func(stops float64) float64 { return moveLeft + (stops-low)/(high-low)*(moveRight-moveLeft) }
	d.add(Words{At: Point{0, top + 11}, Text: Cut(f.Name, WordSize, true, moveLeft), Size: WordSize, Bold: true, Ink: Strong})
	d.add(Words{At: Point{LadderWidth, top + 11}, Text: f.Sheet.Label, Size: WordSize, Anchor: End, Ink: Strong})
	first := top + 2*RowHigh + 2
	foot := first + float64(len(f.Spots))*RowHigh
	d.scale(at, low, high, first, foot)
	for i, s := range f.Spots {
		y := first + (float64(i)+.5)*RowHigh
		if s.Forecast.Known {
			v := exposure.Third(s.Forecast.Value)
			d.move(at, record.Move{Stops: v, Low: v, High: v}, y)
		}
		text := "not known"
		if s.Measured.Known {
			d.add(Dot{At: Point{at(math.Max(low, math.Min(high, s.Measured.Value))), y}, Form: Circle, Size: 9, Ink: Strong, Open: true})
			if s.Forecast.Known { // the ring's ground hides no dot
				d.add(Dot{At: Point{at(exposure.Third(s.Forecast.Value)), y}, Form: Circle, Size: 5, Ink: Strong})
			}
			text = figure(math.Round(s.Measured.Value*10)/10, 1)
			if s.Measured.Value >= .05 {
				text = "+" + text
			}
		}
		d.add(Words{At: Point{moveLeft - 10, y + WordDrop}, Text: Cut(s.Spot, WordSize, false, moveLeft-12), Size: WordSize, Anchor: End, Ink: Strong})
		d.add(Words{At: Point{LadderWidth, y + WordDrop}, Text: text, Size: WordSize, Anchor: End, Ink: Strong})
	}
	d.Height = foot + 2
}

// key says which sign is which.
func (d *Drawing) key() {
	y := d.Height + 12
	d.add(Dot{At: Point{moveLeft, y}, Form: Circle, Size: 9, Ink: Strong, Open: true}, Words{At: Point{moveLeft + 8, y + WordDrop}, Text: "measured", Size: WordSize, Ink: Quiet})
	d.add(Words{At: Point{0, y + WordDrop}, Text: "stops against grey", Size: WordSize, Ink: Quiet})
	right := moveLeft + 16 + Width("measured", WordSize, false) + 8
	d.add(Dot{At: Point{right, y}, Form: Circle, Size: 5, Ink: Strong}, Words{At: Point{right + 8, y + WordDrop}, Text: "forecast", Size: WordSize, Ink: Quiet})
	d.Height = y + 8
}

// spotEnds are the whole stops between which all places lie, a stop to either side at
// least and four at most.
func spotEnds(c *record.Compared) (low, high float64) {
	low, high = -1, 1
	for _, f := range c.Sheets {
		for _, s := range f.Spots {
			for _, v := range []record.Figure{s.Measured, s.Forecast} {
				if v.Known {
					low, high = min(low, math.Floor(v.Value)), max(high, math.Ceil(v.Value))
				}
			}
		}
	}
	return max(low, -4), min(high, 4)
}
