package pdf

import (
	"slices"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// chapters writes the outings with the writer's prose where it stood, each on a page of
// its own, or below the one before where that leaves a quarter of a page.
func (b *book) chapters() {
	for i, o := range b.season.Outings {
		b.outing(o, i == 0)
	}
	b.otherSheets()
}

// outing writes one chapter. Notes, log lines and entries come as they stood.
func (b *book) outing(o *record.Outing, first bool) {
	date, place, notebook := saying.BesideTitle(o)
	below := saying.Join(" · ", date, place, notebook)
	level := 1
	if isPapers(o) {
		level = 0
	}
	b.beginWhere(b.form.top+(b.bottom()-b.form.top)*3/4, o, o.Title, below, level)
	if first && level == 1 { // the outings have a bookmark in common, which leads to the first
		i := slices.IndexFunc(b.lines, func(l line) bool { return l.outline != nil })
		b.lines[i+1].outline = b.lines[i].outline
		b.lines[i].outline = &outline{title: outingsTitle, level: 0}
	}
	b.head, b.path = headOf(o), o.Path
	p := prose{galley: &b.galley, uri: b.uri, right: b.width(), picture: b.prosePicture}
	for _, c := range o.Cautions {
		b.caution(c)
	}
	run := 0 // of log lines, below a heading
	for i := range o.Entries {
		first := len(b.lines)
		e := &o.Entries[i]
		b.outingEntry(p, e)
		if e.Line != nil && (sheetFollows(o.Entries[i+1:]) || run+1 < leastLines && i+1 < len(o.Entries) && o.Entries[i+1].Line != nil) {
			b.keepFrom(first)
		}
		if run++; e.Line == nil {
			run = 0
			if e.Sheet != nil || e.Prose != nil && e.Prose.Kind != record.Heading {
				run = leastLines
			}
		}
	}
	b.placeEnd()
}

// leastLines is how many of the log lines below a heading stay with it.
const leastLines = 3

// sheetFollows reports whether a sheet comes next, or behind a few more lines:
// what was chosen for it stays on its page.
func sheetFollows(entries []record.Entry) bool {
	for i := 0; i < len(entries) && i < 8; i++ {
		if entries[i].Sheet != nil {
			return true
		}
		if entries[i].Line == nil {
			return false
		}
	}
	return false
}

// isPapers reports what is no outing: a kit, notes without a day.
func isPapers(o *record.Outing) bool { return o.Date == "" && len(o.Sheets) == 0 }

// headOf is the running head of an outing: its date and place.
func headOf(o *record.Outing) string {
	head := saying.Join(", ", o.Day(), o.Place)
	if head == "" {
		return o.Title
	}
	return head
}

// outingEntry sets one thing of the outing.
func (b *book) outingEntry(p prose, e *record.Entry) {
	switch {
	case e.Prose != nil:
		p.block(e.Prose, 0)
	case e.Scene != nil:
		b.scene(e.Scene)
	case e.Sheet != nil:
		b.entryOnce(e.Sheet)
	case e.Line != nil:
		b.typedLine(&b.galley, e.Line, 0, grey)
	case e.Unread != nil:
		b.unread(e.Unread)
	}
}

// entryOnce sets a sheet where it is met first; the record names each once,
// and a book with a sheet twice would have two pages for it.
func (b *book) entryOnce(s *record.Sheet) {
	if b.markOf(s).page == 0 {
		b.entry(s)
	}
}

// scene sets a heading that is bound to the first sheet below it.
func (b *book) scene(s *record.Scene) {
	b.space(grid)
	first := len(b.lines)
	b.set(measure{right: b.width(), h: 2 * grid}, b.faces().spare(span{text: s.Title, style: style{face: bold, size: 12}})...)
	b.lines[first].outline = &outline{title: s.Title, level: 2}
	b.lines[first].mark = b.markOf(s)
	if s.Light != "" {
		b.set(measure{right: b.width()}, span{text: "light  ", style: label}, span{text: s.Light, style: plain})
	}
	b.keepFrom(first)
	b.did(s)
	// What stands below it parts a heading from the lines of its first sheet.
	if height(b.lines[first:]) <= (b.bottom()-b.form.top)/4 {
		b.keepFrom(first)
	}
}

// unread sets text that was not understood, so that nobody takes it for prose.
func (b *book) unread(l *record.Line) {
	first := len(b.lines)
	b.set(measure{left: quoteIndent, right: b.width()},
		span{text: "not understood  ", style: warning}, span{text: b.lineOf(l.Place), style: label})
	b.set(measure{left: quoteIndent, right: b.width()}, span{text: l.Text, style: typed})
	b.lines[first].keep = true
	b.lines[first].mark = b.markOf(l)
	for i := first; i < len(b.lines); i++ {
		b.lines[i].bars, b.lines[i].ink = []float64{quoteIndent - 8}, red
	}
	b.space(grid)
}

// loose finds the sheets that no outing shows.
func (b *book) loose() []*record.Sheet {
	shown := map[*record.Sheet]bool{}
	for _, o := range b.season.Outings {
		for i := range o.Entries {
			shown[o.Entries[i].Sheet] = true
		}
	}
	var out []*record.Sheet
	for _, s := range b.season.Sheets {
		if !shown[s] {
			out = append(out, s)
		}
	}
	return out
}

// otherSheets sets the sheets that no outing shows: every sheet has a page.
func (b *book) otherSheets() {
	loose := b.loose()
	if len(loose) == 0 {
		return
	}
	b.beginBelow(looseTitle, "")
	for _, s := range loose {
		b.entryOnce(s)
	}
	b.place()
}
