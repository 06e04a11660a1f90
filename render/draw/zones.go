package draw

import (
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// The strip of zones: the eleven tones as a print shows them, and below them a
// row for each metered area, from the zone it was placed on to the one it fell
// on.

const (
	stripTop   = 3. // of the tones, in the first row
	stripFoot  = 2 * RowHigh
	zoneWide   = LadderWidth / zoneCount
	beyondEdge = 5. // marks of what falls off the strip stand so far within
)

// Zones draws where a sheet's metered areas were meant to fall and where
// they fell; nil where no area has a zone.
func Zones(s *record.Sheet) *Drawing {
	if s.Reading == nil {
		return nil
	}
	d := &Drawing{Width: LadderWidth, Height: stripFoot, Title: "Zones", Rows: []Row{{Kind: Tones}, {Kind: Tones}}}
	var said []string
	for i, a := range s.Reading.Areas {
		if !a.Meant.Known && !a.Fell.Known {
			continue
		}
		d.Rows = append(d.Rows, Row{Kind: Spot, At: i, Cut: d.zoneOf(a, d.Height+RowHigh/2)})
		d.Height += RowHigh
		said = append(said, areaName(a)+" "+zoneText(a))
	}
	if said == nil {
		return nil
	}
	d.Marks = append(strip(d.Height), d.Marks...)
	d.Text = strings.Join(said, "; ") + "."
	return d
}

// strip is the tones with their numbers, and the hairlines between them down
// through the rows.
func strip(foot float64) []Mark {
	d := &Drawing{}
	for z := range zoneCount {
		left := float64(z) * zoneWide
		d.add(Area{Points: box(left, stripTop, left+zoneWide, RowHigh), Fill: Zone0 + Ink(z)})
		d.add(Words{At: Point{left + zoneWide/2, RowHigh*3/2 + WordDrop}, Text: exposure.Roman(float64(z)), Size: 9, Anchor: Middle, Ink: Quiet})
		if z > 0 {
			d.rule(left, stripFoot, left, foot, .4, Hair, Solid)
		}
	}
	d.add(Area{Points: box(0, stripTop, LadderWidth, RowHigh), Edge: Firm, Width: .6})
	return d.Marks
}

// zoneX is where a zone stands, and whether it had to be brought in from beyond
// an end of the strip: -1, 0 or +1.
func zoneX(zone float64) (x float64, beyond int) {
	x = (zone + .5) * zoneWide
	switch {
	case x < 0:
		return beyondEdge, -1
	case x > LadderWidth:
		return LadderWidth - beyondEdge, 1
	}
	return x, 0
}

// zoneOf draws an area's row, and reports whether it had to shorten its words.
func (d *Drawing) zoneOf(a record.Area, y float64) (cut bool) {
	least, most := LadderWidth, 0.
	if a.Meant.Known && a.Fell.Known {
		from, _ := zoneX(a.Meant.Value)
		to, _ := zoneX(a.Fell.Value)
		if math.Abs(to-from) > 6 {
			d.rule(from, y, to, y, 1, Strong, Solid)
		}
	}
	mark := func(f record.Figure, open bool, size float64) {
		if !f.Known {
			return
		}
		x, beyond := zoneX(f.Value)
		form := [...]Form{Left, Circle, Right}[beyond+1]
		d.add(Dot{At: Point{x, y}, Form: form, Size: size, Ink: Strong, Open: open})
		least, most = min(least, x), max(most, x)
	}
	mark(a.Meant, true, 9)
	mark(a.Fell, false, 5)
	return d.zoneWords(a, least, most, y)
}

// zoneWords names the row where it has the most room: before its marks, after
// them or between.
func (d *Drawing) zoneWords(a record.Area, least, most, y float64) (cut bool) {
	const off = 8.
	words := strings.TrimSpace(a.Name + " " + zoneText(a))
	w := Words{At: Point{most + off, y + WordDrop}, Text: words, Size: WordSize, Ink: Strong}
	room := LadderWidth - most - off
	if least-off > room {
		room, w.At.X, w.Anchor = least-off, least-off, End
	}
	if between := most - least - 2*off; between > room && room < Width(words, w.Size, false) {
		room, w.At.X, w.Anchor = between, (least+most)/2, Middle
	}
	w.Text = Cut(words, w.Size, false, room-2)
	b := w.bounds()
	d.add(Area{Points: box(b.left, y-WordSize/2, b.right, y+WordSize/2), Fill: Paper}, w)
	return w.Text != words
}

func areaName(a record.Area) string {
	if a.Name == "" {
		return "Reading " + a.Read
	}
	return a.Name
}

// zoneText says both zones: "III, fell on II½".
func zoneText(a record.Area) string {
	var words []string
	if a.Meant.Known {
		words = append(words, "on "+exposure.Roman(a.Meant.Value))
	}
	if a.Fell.Known {
		fell := exposure.Roman(a.Fell.Value)
		if !a.Meant.Known || fell != exposure.Roman(a.Meant.Value) {
			words = append(words, "fell on "+fell)
		}
	}
	return strings.Join(words, ", ")
}
