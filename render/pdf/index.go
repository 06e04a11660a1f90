package pdf

import (
	"slices"
	"strconv"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// indexes writes one index after the other, in two columns. They stand behind
// all sheets, so the pages are known.
func (b *book) indexes() {
	if len(b.season.Indexes) == 0 {
		return
	}
	b.beginBelow(indexesTitle, "numbers are pages")
	for _, x := range b.season.Indexes {
		b.index(x)
	}
}

// Columns of an index, and where the page numbers of a row begin.
const (
	indexGap   = 22.0
	indexPages = 92.0
	keptRows   = 6 // a row of so many lines is not parted
)

// index sets one index below the other; its head is bound to its first rows.
func (b *book) index(x *record.Index) {
	b.space(grid)
	head := b.subtitle(x.Title)
	b.lines[head].mark = b.markOf(x)
	b.lines[head].outline = &outline{title: x.Title, level: 1}
	b.lines[len(b.lines)-1].keep = false
	if b.y+(keptRows+5)*grid > b.bottom() {
		b.newPage()
	}
	b.place()
	for i := range x.Rows {
		b.indexRow(&x.Rows[i])
	}
	b.placeColumns((b.width()-indexGap)/2 + indexGap)
}

// indexRow sets a key and the pages of its sheets.
func (b *book) indexRow(row *record.IndexRow) {
	right := (b.width() - indexGap) / 2
	const apart = "\u00a0" // at the least, between a key and its pages
	look := style{face: bold, size: smallSize}
	spans := append(b.faces().spare(span{text: row.Key, style: look}), span{text: apart, style: look}, span{tab: indexPages, style: label})
	for i, r := range b.pageRuns(row.Sheets) {
		if i > 0 {
			spans = append(spans, span{text: ", ", style: r.style})
		}
		spans = append(spans, r)
	}
	if len(row.Sheets) > 1 && b.width() > narrow {
		spans = append(spans, span{text: "   " + saying.Film(row.Sheets), style: label})
	}
	first := len(b.lines)
	b.set(measure{left: indexPages, first: -indexPages, right: right}, spans...)
	if len(b.lines)-first <= keptRows {
		b.keepFrom(first)
		b.lines[len(b.lines)-1].keep = false
	}
}

// pageRuns names the pages of sheets, each page once, and pages that follow
// one another as a run: an index of a film that was always loaded would else
// be as long as the book.
func (b *book) pageRuns(sheets []*record.Sheet) []span {
	marks := make([]*mark, 0, len(sheets))
	for _, s := range sheets {
		if m := b.markOf(s); m.page > 0 {
			marks = append(marks, m)
		}
	}
	slices.SortStableFunc(marks, func(a, b *mark) int { return a.page - b.page })
	var out []span
	for i := 0; i < len(marks); {
		j := i
		for j+1 < len(marks) && marks[j+1].page <= marks[j].page+1 {
			j++
		}
		text := strconv.Itoa(marks[i].page)
		if marks[j].page > marks[i].page {
			text += "–" + strconv.Itoa(marks[j].page)
		}
		out = append(out, span{text: text, style: style{size: smallSize}, to: target{mark: marks[i]}})
		i = j + 1
	}
	return out
}

// halves are the right edge of the first of two columns, and how far from it the second
// stands. Where the page is too narrow for two there is one.
func (b *book) halves() (right, step float64) {
	if b.width() < narrow {
		return b.width(), 0
	}
	return (b.width() - indexGap) / 2, (b.width()-indexGap)/2 + indexGap
}

// placeColumns places the galley in two columns, step apart: page for page,
// and evenly on the last. Where they do not stand apart it is one.
func (b *book) placeColumns(step float64) {
	if step == 0 {
		b.place()
		return
	}
	rest := height(b.lines)
	for at := b.pastWhite(0); at < len(b.lines); {
		end, h := b.block(at)
		if b.y+max(h, keptRows*grid) > b.bottom()+slack && !b.atTop() {
			b.newPage()
		}
		if b.y+h > b.bottom()+slack { // no page holds it whole
			for i := at; i < end; i++ {
				b.lines[i].keep = false
			}
			h = grid
		}
		// On the last page half of what is left, and as much more as the first
		// rows need that are kept together, or until all is held.
		room := min(b.bottom()-b.y, max(rest/2+grid, keptRows*grid, h))
		for b.y+room < b.bottom()-slack && b.columnEnd(b.columnEnd(at, room), room) < len(b.lines) {
			room = min(room+grid, b.bottom()-b.y)
		}
		top, deepest := b.y, b.y
		for column := range 2 {
			b.y = top
			at = b.placeColumn(at, float64(column)*step, top+room)
			rest -= b.y - top
			deepest = max(deepest, b.y)
		}
		b.y = deepest
	}
	b.reset()
}

// placeColumn fills one column down to bottom and returns the next line. White at its
// top would leave the columns uneven.
func (b *book) placeColumn(at int, shift, bottom float64) int {
	end := b.columnEnd(at, bottom-b.y)
	for at = b.pastWhite(at); at < end; at++ {
		b.drawLine(&b.lines[at], b.left+shift, b.y)
		b.y += b.lines[at].h
	}
	return at
}

// columnEnd is the line behind those that a column of this height holds.
func (b *book) columnEnd(at int, room float64) int {
	for at = b.pastWhite(at); at < len(b.lines); {
		end, h := b.block(at)
		if h > room+slack {
			break
		}
		at, room = end, room-h
	}
	return at
}

// pastWhite is the first line from at on that is not white.
func (b *book) pastWhite(at int) int {
	for at < len(b.lines) && b.lines[at].gap {
		at++
	}
	return at
}
