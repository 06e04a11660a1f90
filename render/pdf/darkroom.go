package pdf

import (
	"fmt"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// develop is the list to take into the darkroom: batches in the order of the
// tray, a box to tick before each sheet.
func (b *book) develop() {
	b.beginBelow(developTitle, "what waits, in batches that may share a tray or tank")
	d := &b.season.ToDevelop
	for _, c := range d.Cautions {
		b.caution(c)
	}
	if len(d.Held) > 0 {
		b.subtitle("Hold back")
		for _, h := range d.Held {
			b.sheetRow("☐", h.Sheet, h.Why, h.Still)
		}
		for _, text := range d.Helps {
			b.caution(text)
		}
	}
	for _, batch := range d.Batches {
		b.batch(batch)
		b.place()
	}
	if len(d.Otherwise) > 0 {
		b.subtitle("Developed otherwise than asked")
		for _, o := range d.Otherwise {
			b.sheetRow("", o.Sheet, "asked "+orNone(o.Asked)+", developed "+orNone(o.Done), o.Date)
		}
	}
	b.place()
}

// caution sets a sentence that must not be overlooked.
func (b *book) caution(text string) {
	b.set(measure{right: min(b.width(), 380)}, span{text: text, style: style{face: italic, size: bodySize}})
	b.space(grid)
}

// batch sets the bath above its sheets.
func (b *book) batch(k *record.Batch) {
	b.subtitle(saying.Join(", ", orWords(k.Film, "film not known"), k.Development))
	first := len(b.lines)
	for _, f := range []record.Fact{
		{Name: "safelight", Value: k.Safelight},
		{Name: "developer", Value: saying.Join(" ", k.Developer, k.Dilution)},
		{Name: "time", Value: saying.Join(" at ", k.Time, k.Temperature)},
		{Name: "as", Value: k.How},
		{Name: "otherwise", Value: strings.Join(k.Others, "; ")},
		{Name: "agitation", Value: k.Agitation},
		{Name: "capacity", Value: k.Capacity},
	} {
		if f.Value != "" {
			b.pair(f.Name, f.Value, 72)
		}
	}
	for _, c := range k.Cautions {
		b.set(measure{left: 72, right: b.width()}, span{text: c, style: style{face: italic, size: bodySize}})
	}
	b.space(grid)
	b.keepFrom(first)
	run := 0
	for _, s := range k.Sheets {
		if s.Run != run && k.Fits > 0 && len(k.Sheets) > k.Fits {
			run = s.Run
			b.set(measure{right: b.width()}, span{text: fmt.Sprint("filling ", run), style: label})
			b.lines[len(b.lines)-1].keep = true
		}
		b.sheetRow("☐", s.Sheet, s.Sheet.Title, s.Note)
	}
}

// sheetRow names a sheet after a mark, with what is to be said of it and its
// page at the right.
func (b *book) sheetRow(mark string, s *record.Sheet, words, more string) {
	const labelLeft, wordsLeft = 18.0, 130.0
	m := measure{left: wordsLeft, first: -wordsLeft, right: b.width()}
	if b.has("outings") {
		m.page = b.markOf(s)
	}
	name, beside := saying.Name(s), orWords(saying.Beside(s), otherThan(s.ID, s.Label))
	if mark != "" { // to be ticked off: it lies in its holder
		name, beside = s.Label, otherThan(s.ID, s.Label)
	}
	spans := []span{{text: mark, style: plain},
		{text: name, style: strong, tab: labelLeft, to: b.toEntry(s)},
		{text: "  " + beside, style: label}}
	// A stop with nothing behind it would leave a long name an empty line.
	if words+more != "" {
		spans = append(spans, span{text: words, style: plain, tab: wordsLeft}, span{text: lead(saying.Given(more)), style: aside})
	}
	b.set(m, spans...)
}

// toEntry leads to a sheet's entry, where the book has entries.
func (b *book) toEntry(s *record.Sheet) target {
	if !b.has("outings") {
		return target{}
	}
	return target{mark: b.markOf(s)}
}

// otherThan is s, or nothing where that was said already.
func otherThan(s, said string) string {
	if s == said {
		return ""
	}
	return s
}

// holders lists how each side stands at the end of the notes.
func (b *book) holders() {
	b.beginBelow(holdersTitle, "as the notes leave them")
	var rows []tableRow
	for _, h := range b.season.Holders {
		why := h.Reason
		if why == "" {
			why = h.Why
		}
		rows = append(rows, tableRow{cells: []cell{words(h.Name()), words(string(h.State)), words(h.Film), words(string(h.May)), words(why)}})
	}
	b.tableOf(rows, "side", "state", "film", "may be loaded", "why")
	b.place()
	right, step := b.halves()
	for _, h := range b.season.Holders {
		b.sideHistory(h, right)
	}
	b.placeColumns(step)
}

// sideHistory is what happened to a holder side, in the order of the notes.
// A sheet is named by its label where the date or the line above tell which of the side's it is.
func (b *book) sideHistory(h *record.HolderSide, right float64) {
	if len(h.Events) == 0 {
		return
	}
	const what = 46.0
	first := len(b.lines)
	b.set(measure{right: right}, span{text: h.Name(), style: strong})
	var last *record.Sheet
	for _, e := range h.Events {
		said := span{text: saying.Join(" ", e.What, e.Film), style: style{size: smallSize}, tab: what}
		if s := e.Sheet; s != nil {
			name := s.ID
			if s == last || s.ID == e.Date+" "+h.Label {
				name = s.Label
			}
			said.text, said.to, last = e.What+" "+name, b.toEntry(s), s
		}
		b.set(measure{left: what, first: -what, right: right}, span{text: e.Date, style: label}, said,
			span{text: lead(saying.Given(e.Place.String())), style: aside})
	}
	for _, f := range h.Conflicts {
		b.set(measure{left: what, right: right}, span{text: string(f.Severity) + "  ", style: severityStyle(f.Severity)}, span{text: f.Message, style: style{size: smallSize}})
	}
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}

// narrow is a column in which the book's own tables are set in small type.
const narrow = 400.0

// tableOf sets rows under a head, without the columns that say nothing.
func (b *book) tableOf(rows []tableRow, names ...string) {
	if len(rows) == 0 {
		return
	}
	rows = filledColumns(append([]tableRow{headRow(rows[0], names...)}, rows...))
	if b.width() < narrow {
		for _, r := range rows {
			for _, c := range r.cells {
				for i := range c.spans {
					c.spans[i].size = smallSize
				}
			}
		}
	}
	b.setTable(rows, 0, b.width())
}

// negatives lists the numbers with their sheets, then what is amiss with them.
func (b *book) negatives() {
	n := &b.season.Negatives
	below := ""
	var next []string
	for _, s := range n.Series {
		next = append(next, s.Next)
	}
	if len(next) > 0 {
		below = "next free number " + strings.Join(next, ", ")
	}
	b.beginBelow(negativesTitle, below)
	for _, s := range n.Numbered {
		b.sheetRow("", s, dayAndSubject(s), orWords(s.Sleeve, "not filed"))
	}
	for _, group := range []struct {
		title  string
		sheets []*record.Sheet
	}{{"Developed without a number", n.Without}, {"Developed without a sleeve", n.Unfiled}} {
		if len(group.sheets) > 0 {
			b.subtitle(group.title)
			for _, s := range group.sheets {
				b.sheetRow("", s, dayAndSubject(s), "")
			}
		}
	}
	if len(n.Unlogged) > 0 {
		b.subtitle("Negatives without an entry")
		for _, u := range n.Unlogged {
			b.set(measure{left: 72, first: -72, right: b.width()}, span{text: u.Number, style: strong},
				span{text: u.Why, style: plain, tab: 72}, span{text: lead(saying.Given(u.Place.String())), style: aside})
		}
	}
	b.place()
}

// dayAndSubject says when a sheet was exposed and of what.
func dayAndSubject(s *record.Sheet) string {
	day := ""
	if s.Outing != nil {
		day = s.Outing.Day()
	}
	return saying.Join(", ", day, saying.Subject(s))
}

// losses lists the lost sheets by what they were lost to.
func (b *book) losses() {
	b.beginBelow(lossesTitle, saying.LostFrom)
	for _, l := range b.season.Losses {
		b.subtitle(l.Cause + ": " + saying.Count(record.Sheets(l.Sheets), "sheet"))
		for _, s := range l.Sheets {
			b.sheetRow("", s, saying.Subject(s), "")
		}
	}
	b.place()
}
