package pdf

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// findings writes what the check has to say, in the order of the notes, each
// with the line it is about and the page of its sheet; what many say stands once.
func (b *book) findings() {
	b.beginBelow(findingsTitle, saying.Findings(&b.season.Tally))
	if len(b.season.Findings) == 0 {
		b.set(measure{right: b.width()}, span{text: "Nothing was found.", style: plain})
	}
	for _, t := range saying.Fold(b.season.Findings) {
		if len(t.Of) > 1 {
			b.told(t)
		} else {
			b.finding(t.Of[0])
		}
		b.place()
	}
	b.place()
}

// Columns of a finding: severity, then everything else.
const findingLeft = 52.0

// finding sets one finding; with one sheet its page stands at the right, with
// several they are listed below.
func (b *book) finding(f *record.Finding) {
	first := len(b.lines)
	m := measure{left: findingLeft, first: -findingLeft, right: b.width()}
	to := target{}
	if len(f.Sheets) > 0 {
		to = b.toEntry(f.Sheets[0])
	}
	if len(f.Sheets) == 1 {
		m.page = to.mark
	}
	b.set(m, span{text: string(f.Severity), style: severityStyle(f.Severity)},
		span{text: f.Said(), style: plain, tab: findingLeft, to: to})
	b.lines[first].mark = b.markOf(f)
	inner := measure{left: findingLeft, right: b.width()}
	where := saying.Join(" · ", f.Place.String(), f.Code, f.Title)
	if len(f.Sheets) == 1 {
		where = saying.Join(" · ", saying.Name(f.Sheets[0]), where)
	}
	b.set(inner, span{text: where, style: label})
	if f.Excerpt != "" {
		b.set(inner, excerpt(f)...)
	}
	b.findingNotes(f.Notes)
	b.keepFrom(first)
	if len(f.Sheets) > 1 {
		b.sheetList(f.Sheets, findingLeft)
	}
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}

func (b *book) findingNotes(notes []string) {
	for _, note := range notes {
		b.set(measure{left: findingLeft + 10, first: -10, right: b.width()}, span{text: "– " + note, style: plain})
	}
}

// told sets what many findings say, and below it the line of each with its sheets.
func (b *book) told(t saying.Told) {
	f, first := t.Of[0], len(b.lines)
	b.set(measure{left: findingLeft, first: -findingLeft, right: b.width()},
		span{text: string(f.Severity), style: severityStyle(f.Severity)}, span{text: t.Message, style: plain, tab: findingLeft})
	b.set(measure{left: findingLeft, right: b.width()}, span{text: saying.Join(" · ", t.Times(), f.Code, f.Title), style: label})
	b.findingNotes(t.Notes())
	for i, f := range t.Of {
		at := len(b.lines)
		if i > 0 { // the first line stands below the sentence
			first = at
		}
		spans := append([]span{{text: f.Place.String() + "   ", style: label}}, excerpt(f)...)
		if f.Fix != nil {
			spans = append(spans, span{text: "   write: " + f.Fix.Text, style: label})
		}
		if len(f.Sheets) > 0 {
			spans = append(append(spans, span{text: "   ", style: label}), b.sheetRefs(f.Sheets)...)
		}
		b.set(measure{left: findingLeft + 10, first: -10, right: b.width()}, spans...)
		b.lines[at].mark = b.markOf(f)
		b.keepFrom(first)
		b.lines[len(b.lines)-1].keep = false
	}
	b.space(grid)
}

// excerpt shows the source line with the stretch it is about underlined.
func excerpt(f *record.Finding) []span {
	from := min(max(f.Mark[0], 0), len(f.Excerpt))
	to := min(max(f.Mark[1], from), len(f.Excerpt))
	marked := typed
	marked.under, marked.ink = true, red
	return []span{
		{text: f.Excerpt[:from], style: typed},
		{text: f.Excerpt[from:to], style: marked},
		{text: f.Excerpt[to:], style: typed},
	}
}

// sheetList names sheets with their pages.
func (b *book) sheetList(list []*record.Sheet, left float64) {
	b.set(measure{left: left, right: b.width()}, b.sheetRefs(list)...)
}

// sheetRefs says which sheets: "sheets 3A p. 12  3B p. 13".
func (b *book) sheetRefs(list []*record.Sheet) []span {
	word := "sheet "
	if len(list) > 1 {
		word = "sheets "
	}
	spans := []span{{text: word, style: label}}
	for i, s := range list {
		if i > 0 {
			spans = append(spans, span{text: "   ", style: label})
		}
		spans = append(spans, b.sheetRef(s, saying.Name(s))...)
	}
	return spans
}

// sheetRef is a sheet by a name, its own or that beside its scene's others, with the page
// of its entry.
func (b *book) sheetRef(s *record.Sheet, name string) []span {
	m := b.toEntry(s).mark
	if m == nil {
		return []span{{text: name, style: style{face: bold, size: smallSize}}}
	}
	return []span{
		{text: name, style: style{face: bold, size: smallSize}, to: target{mark: m}},
		{text: " p.\u00a0", style: label},
		{page: m, style: style{size: smallSize}},
	}
}

// unchecked lists what could not be checked or read, and what would settle it.
func (b *book) unchecked() {
	b.beginBelow(uncheckedTitle, "what could not be checked or read, and what would settle it")
	before := len(b.lines)
	for _, s := range b.season.Sheets {
		if s.State == record.Unchecked {
			b.uncheckedSheet(s)
		}
	}
	for _, o := range b.season.Outings {
		for i := range o.Entries {
			if l := o.Entries[i].Unread; l != nil {
				b.unreadRef(l)
			}
		}
	}
	if len(b.lines) == before {
		b.set(measure{right: b.width()}, span{text: "Everything was read and checked.", style: plain})
	}
	b.place()
}

// uncheckedSheet gives what would settle a sheet the most room.
func (b *book) uncheckedSheet(s *record.Sheet) {
	needs := strings.Join(s.Needs, "; ")
	if needs == "" {
		needs = "nothing in the notes says"
	}
	m := measure{left: 2 * findingLeft, first: -2 * findingLeft, right: b.width(), page: b.toEntry(s).mark}
	b.set(m, span{text: s.Label, style: strong, to: b.toEntry(s)},
		span{text: needs, style: plain, tab: 2 * findingLeft})
	b.set(measure{left: 2 * findingLeft, right: b.width()},
		span{text: saying.Join(" · ", s.ID, s.Title), style: label})
	b.lines[len(b.lines)-2].keep = true
}

// unreadRef repeats text that was not understood, with the page it stands on.
func (b *book) unreadRef(l *record.Line) {
	m := measure{left: 2 * findingLeft, first: -2 * findingLeft, right: b.width()}
	if b.has("outings") {
		m.page = b.markOf(l)
	}
	b.set(m, span{text: "not read", style: label},
		span{text: l.Text, style: typed, tab: 2 * findingLeft, to: target{mark: m.page}})
	b.lines[len(b.lines)-1].keep = true
	b.set(measure{left: 2 * findingLeft, right: b.width()}, span{text: l.Place.String(), style: label})
}
