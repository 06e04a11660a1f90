package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
)

// Small tables of the writer's own that declarations hold: what a scale on the
// bed says of the bellows, and by how much development is shortened at long times.

// bellowsScale is the marks of a scale on the camera's bed, shortest first.
type bellowsScale []scaleMark

type scaleMark struct{ mm, stops float64 }

func (s *season) scaleFrom(k *lang.BellowsScale, t *lang.Term) bellowsScale {
	var scale bellowsScale
	for _, row := range k.Rows {
		mark := scaleMark{mm: float64(row.MM)}
		if row.Stops != nil {
			mark.stops = float64(*row.Stops)
		} else {
			mark.stops, _ = exposure.FactorStops(float64(*row.Factor))
		}
		scale = append(scale, mark)
	}
	slices.SortFunc(scale, func(a, b scaleMark) int { return cmp.Compare(a.mm, b.mm) })
	for i := 1; i < len(scale); i++ {
		if scale[i].mm == scale[i-1].mm || scale[i].stops < scale[i-1].stops {
			s.report("scale-unclear", t.Span, fmt.Sprintf("the scale says %s at %s mm and %s at %s mm", exposure.InStops(scale[i-1].stops), trim(scale[i-1].mm),
				exposure.InStops(scale[i].stops), trim(scale[i].mm)))
			return nil
		}
	}
	return scale
}

// at is what the scale says at an extension: between two of its marks as the
// bellows go, with the logarithm of the extension (a stop of bellows is 2 log2 of
// it), and nothing beyond its ends.
func (b bellowsScale) at(mm float64) (stops float64, ok bool) {
	i, exact := slices.BinarySearchFunc(b, mm, func(m scaleMark, mm float64) int { return cmp.Compare(m.mm, mm) })
	switch {
	case exact:
		return b[i].stops, true
	case i == 0 || i == len(b):
		return 0, false
	}
	low, high := b[i-1], b[i]
	part := math.Log2(mm/low.mm) / math.Log2(high.mm/low.mm)
	return low.stops + float64(part*(high.stops-low.stops)), true
}

// shorter is one row of a film's table of development at long times.
type shorter struct{ from, percent float64 }

func (s *season) shortenFrom(k *lang.Shorten, t *lang.Term) []shorter {
	var rows []shorter
	for _, r := range k.Rows {
		rows = append(rows, shorter{from: r.From.Num / r.From.Den, percent: float64(r.Percent)})
	}
	slices.SortFunc(rows, func(a, b shorter) int { return cmp.Compare(a.from, b.from) })
	for i, r := range rows {
		if !(r.percent > 0 && r.percent < 100) || i > 0 && r.from == rows[i-1].from {
			s.report("scale-unclear", t.Span, "development cannot be shortened so")
			return nil
		}
	}
	return rows
}

// shortened is by how much a film's table shortens development for a metered
// time in seconds: the last row that it reaches, within the rounding of marks. Between two rows nothing is
// made up.
func (f *film) shortened(metered float64) (row shorter, ok bool) {
	for _, r := range f.shorten {
		if metered >= r.from*0.98 {
			row, ok = r, true
		}
	}
	return row, ok
}

// longDevelopment says of sheets that were exposed long what their film's table
// asks of development, once a film and row.
func (s *season) longDevelopment() {
	type key struct {
		film *film
		row  shorter
	}
	found := map[key][]*sheet{}
	var order []key
	for _, sh := range s.sheets {
		f := s.filmOf(sh)
		if f == nil || !sh.sum.known || sh.sum.state == record.Unexposed {
			continue
		}
		row, ok := f.shortened(exposure.Seconds(sh.sum.asked, sh.sum.av))
		if !ok || len(sh.developed) > 0 {
			continue
		}
		k := key{f, row}
		if found[k] == nil {
			order = append(order, k)
		}
		found[k] = append(found[k], sh)
	}
	for _, k := range order {
		sheets := found[k]
		s.report("long-development", sheets[0].at, fmt.Sprintf("%s: the table of %s asks for %s %% less development from %s on", these(sheets), k.film.name,
			trim(k.row.percent), exposure.FormatTime(k.row.from)), sheets...).
			note("as declared", k.film.at.Span)
	}
}
