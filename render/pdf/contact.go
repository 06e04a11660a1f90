package pdf

import (
	"math"

	"notchbook/compile/record"
)

// The contact sheet: every picture of a sheet, small, in rows as the negatives
// would lie in a sleeve, those of one outing together.

const (
	contactColumns = 4
	contactGap     = 10.0
)

// contactSheets are the sheets of which there is a picture to show.
func (b *book) contactSheets() []*record.Sheet {
	if b.options.Picture == nil || b.options.Thumbs == NoThumbs {
		return nil
	}
	var out []*record.Sheet
	for _, s := range b.season.Sheets {
		if b.firstPicture(s) != nil {
			out = append(out, s)
		}
	}
	return out
}

// firstPicture is the picture of the first scan that has one.
func (b *book) firstPicture(s *record.Sheet) *picture {
	for _, scan := range s.Scans {
		if p := b.picture(scan); p != nil && p.name != "" {
			return p
		}
	}
	return nil
}

// contacts sets the rows, with a heading where an outing begins.
func (b *book) contacts() {
	b.begin(contactsTitle, contactsTitle, "in rows as in a sleeve", 0)
	sheets := b.contactSheets()
	for len(sheets) > 0 {
		o, n := sheets[0].Outing, 0
		for n < len(sheets) && sheets[n].Outing == o {
			n++
		}
		if o != nil {
			b.subtitle(headOf(o))
		}
		for group := sheets[:n]; len(group) > 0; {
			row := min(contactColumns, len(group))
			b.contactRow(group[:row])
			group = group[row:]
		}
		sheets = sheets[n:]
	}
	b.place()
}

// contactRow sets pictures side by side on a common foot, label and page below.
func (b *book) contactRow(row []*record.Sheet) {
	cell := (b.width()-contactGap*(contactColumns-1))/contactColumns - 0.01
	columns := make([]*galley, len(row))
	deep := 0.0
	small := make([]picture, len(row))
	for i, s := range row {
		small[i] = *b.firstPicture(s)
		scale := cell / max(small[i].w, small[i].h)
		small[i].w, small[i].h = small[i].w*scale, small[i].h*scale
		deep = max(deep, small[i].h)
	}
	h := math.Ceil((deep+6)/grid) * grid
	first := len(b.lines)
	n := len(b.pieces)
	for i := range small {
		small[i].shiftX = float64(i) * (cell + contactGap)
		small[i].shiftY = h - 6 - small[i].h
	}
	b.lines = append(b.lines, line{from: n, to: n, h: h, row: small})
	for i, s := range row {
		left := float64(i) * (cell + contactGap)
		columns[i] = &galley{faces: b.faces(), room: b.room}
		columns[i].set(measure{left: left, right: left + cell}, b.sheetRef(s)...)
	}
	b.beside(columns...)
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}
