package pdf

import (
	"math"
	"slices"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The contact sheet: every picture of a sheet, small, in rows as the negatives
// lie in their sleeves, and of what is not filed as they would.

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

// contactGroup is what lies together: the negatives of a sleeve, or what of an
// outing is not filed yet.
type contactGroup struct {
	title  string
	sheets []*record.Sheet
}

// grouping gathers sheets under titles, in the order of their first.
type grouping struct {
	groups []contactGroup
	at     map[string]int
}

func (g *grouping) add(title string, s *record.Sheet) {
	i, known := g.at[title]
	if !known {
		i = len(g.groups)
		if g.at == nil {
			g.at = map[string]int{}
		}
		g.at[title] = i
		g.groups = append(g.groups, contactGroup{title: title})
	}
	g.groups[i].sheets = append(g.groups[i].sheets, s)
}

// sleeves are the sleeves in the order of the negatives' numbers, with every
// negative that is filed in them.
func sleeves(s *record.Season) []contactGroup {
	var g grouping
	filed := map[*record.Sheet]bool{}
	for _, list := range [][]*record.Sheet{s.Negatives.Numbered, s.Sheets} {
		for _, sh := range list {
			if again := sh.Before != nil && sh.Before.Sleeve == sh.Sleeve; sh.Sleeve != "" && !filed[sh] && !again {
				filed[sh] = true
				g.add(sh.Sleeve, sh)
			}
		}
	}
	return g.groups
}

// contactGroups puts the sleeves first; then by outing what is not filed and has a
// picture.
func (b *book) contactGroups() []contactGroup {
	var g grouping
	for _, s := range b.contactSheets() {
		if s.Sleeve != "" {
			continue
		}
		title := ""
		if s.Outing != nil {
			title = headOf(s.Outing) + ", not filed"
		}
		g.add(title, s)
	}
	return append(sleeves(b.season), g.groups...)
}

// contacts sets the rows, with a heading where a sleeve or an outing begins.
func (b *book) contacts() {
	b.beginBelow(contactsTitle, "in rows as in a sleeve")
	for _, g := range b.contactGroups() {
		if g.title != "" {
			b.subtitle(g.title)
		}
		for group := g.sheets; len(group) > 0; {
			row := min(contactColumns, len(group))
			b.contactRow(group[:row])
			group = group[row:]
		}
		b.place()
	}
	b.place()
}

// contactRow sets pictures side by side on a common foot, number, label and page
// below. A negative without a picture keeps its place.
func (b *book) contactRow(row []*record.Sheet) {
	cell := (b.width()-contactGap*(contactColumns-1))/contactColumns - 0.01
	shown := make([]*picture, len(row))
	for i, s := range row {
		if shown[i] = b.firstPicture(s); shown[i] == nil {
			shown[i] = emptyFrame
		}
	}
	first := len(b.lines)
	b.pictureRow(shown, 0, cell, cell+contactGap)
	columns := make([]*galley, len(row))
	for i, s := range row {
		left := float64(i) * (cell + contactGap)
		columns[i] = &galley{faces: b.faces(), room: b.room}
		spans := b.sheetRef(s, saying.Name(s))
		if beside := saying.Beside(s); beside != "" {
			spans = append(spans, span{text: "   " + beside, style: label})
		}
		columns[i].set(measure{left: left, right: left + cell}, spans...)
	}
	b.beside(columns...)
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}

// emptyFrame keeps the place of a picture that there is not.
var emptyFrame = &picture{w: 1, h: 0.8}

// pictureRow sets pictures, each as large as edge allows, step from one to the next
// from left on, on a common foot; a frame where there is none. Where all are none it sets nothing.
func (b *book) pictureRow(shown []*picture, left, edge, step float64) {
	if !slices.ContainsFunc(shown, func(p *picture) bool { return p != nil }) {
		return
	}
	small := make([]picture, 0, len(shown))
	deep := 0.0
	for i, p := range shown {
		if p == nil {
			p = emptyFrame
		}
		q := *p
		scale := edge / max(q.w, q.h)
		q.w, q.h, q.shiftX = q.w*scale, q.h*scale, left+float64(i)*step
		if q.name == "" { // its words stand on the grid
			q.h = math.Floor(q.h/grid)*grid - 2*descent
		}
		deep = max(deep, q.h)
		small = append(small, q)
	}
	h := math.Ceil((deep+2*descent)/grid) * grid
	for i := range small {
		small[i].shiftY = h - 2*descent - small[i].h
	}
	n := len(b.pieces)
	b.lines = append(b.lines, line{from: n, to: n, h: h, row: small, keep: true})
}
