package html

import (
	"html/template"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// Weights of what stands on a page, in bytes of HTML beside the texts
// themselves; measured on the benchmark's season.
const (
	sheetWeight   = 2200
	partWeight    = 300  // of each step, finding, change and scan of a sheet
	ladderWeight  = 1300 // and rungWeight for each of its rows
	rungWeight    = 330
	stripWeight   = 3300 // and rungWeight for each of its rows
	findingWeight = 380
	rowWeight     = 260
)

// outingPage is an outing, divided where it is too long for one page.
type outingPage struct {
	outing *record.Outing
	parts  [][]record.Entry
}

// planOutings decides on which page each sheet stands. A sheet that the entries
// left out is added at the end: a sheet of the season has a page, always.
func (w *site) planOutings() {
	for _, o := range w.season.Outings {
		entries := append(o.Entries[:len(o.Entries):len(o.Entries)], strays(o)...)
		op := &outingPage{o, cut(entries, weighEntry)}
		w.outings = append(w.outings, op)
		w.outingAt[o] = op.name(0)
		for i, part := range op.parts {
			for _, e := range part {
				if e.Sheet != nil {
					w.sheetAt[e.Sheet] = op.name(i)
				}
			}
		}
	}
}

func strays(o *record.Outing) []record.Entry {
	logged := map[*record.Sheet]bool{}
	for _, e := range o.Entries {
		logged[e.Sheet] = true
	}
	var out []record.Entry
	for _, s := range o.Sheets {
		if !logged[s] {
			out = append(out, record.Entry{Sheet: s})
		}
	}
	return out
}

func (op *outingPage) base() string      { return "outing-" + escapePath(op.outing.Slug) }
func (op *outingPage) name(i int) string { return partName(op.base(), i) }

func weighEntry(e record.Entry) int {
	switch {
	case e.Sheet != nil:
		return weighSheet(e.Sheet)
	case e.Prose != nil:
		return weighProse(*e.Prose)
	case e.Line != nil:
		return 150 + len(e.Line.Text)
	case e.Unread != nil:
		return 250 + len(e.Unread.Text)
	}
	return 200
}

func weighSheet(s *record.Sheet) int {
	n := sheetWeight + partWeight*(len(s.Steps)+len(s.Findings)+len(s.History)+len(s.Scans)+len(s.Remarks)+len(s.Needs)+len(s.Twins)+len(s.Results)+len(s.Prints)+len(s.Densities))
	if s.Reading != nil {
		n += ladderWeight + rungWeight*(len(s.Steps)+5)
	}
	if s.Reading != nil && len(s.Reading.Areas) > 0 {
		n += stripWeight + rungWeight*len(s.Reading.Areas)
	}
	for _, l := range s.Lines {
		n += 200 + len(l.Text)
	}
	for _, f := range s.Findings {
		n += len(f.Message)
		for _, note := range f.Notes {
			n += 30 + len(note)
		}
	}
	return n
}

func weighProse(b record.Block) int {
	n := 40 + len(b.Code)
	for _, in := range b.Text {
		n += weighInline(in)
	}
	for _, inner := range b.Blocks {
		n += weighProse(inner)
	}
	return n
}

func weighInline(in record.Inline) int {
	n := 20 + len(in.Text) + len(in.Target.URL) + len(in.Target.Path)
	for _, inner := range in.Inlines {
		n += weighInline(inner)
	}
	return n
}

func (w *site) outingPages() []*page {
	var all []*page
	for i, op := range w.outings {
		pages := list(op.base(), op.outing.Title, "outing", op.parts, func(part int, entries []record.Entry) any {
			return w.outingBody(op.outing, part, entries)
		})
		for _, p := range pages {
			p.Prev, p.Next = w.neighbour(i-1), w.neighbour(i+1)
		}
		all = append(all, pages...)
	}
	return all
}

func (w *site) neighbour(i int) *link {
	if i < 0 || i >= len(w.outings) {
		return nil
	}
	op := w.outings[i]
	return &link{URL: op.name(0), Text: op.outing.Title}
}

// outingBody is what an outing's page shows.
type outingBody struct {
	*record.Outing
	Date  string // where the title has not said it
	Place string
	From  string // its notebook, the same
	Part  int
	Rows  ledger        // the sheets of this part at a glance
	Notes template.HTML // everything where it stood
}

func (w *site) outingBody(o *record.Outing, part int, entries []record.Entry) outingBody {
	body := outingBody{Outing: o, Part: part}
	body.Date, body.Place, body.From = saying.BesideTitle(o)
	m := newMarkup()
	defer m.spare()
	heads := headings{last: 1}
	for i, e := range entries {
		if part == 0 && i == 0 && repeatsTitle(e, o) {
			continue
		}
		w.entry(m, e, &heads)
		if e.Sheet != nil {
			body.Rows = append(body.Rows, w.row(e.Sheet))
		}
	}
	body.Notes = m.html()
	return body
}

// repeatsTitle reports whether the outing opens with the heading that has become
// its title; the page has it as its h1 and need not say it twice.
func repeatsTitle(e record.Entry, o *record.Outing) bool {
	return e.Prose != nil && e.Prose.Kind == record.Heading && plain(e.Prose.Text) == o.Title
}

// entry writes one thing of the notes.
func (w *site) entry(m *markup, e record.Entry, heads *headings) {
	switch {
	case e.Prose != nil:
		w.prose(m, *e.Prose, heads, false)
	case e.Scene != nil:
		heads.level(2)
		w.sceneHead(m, e.Scene)
	case e.Sheet != nil:
		sheet{Sheet: e.Sheet, site: w, Level: heads.level(3)}.write(m)
	case e.Line != nil:
		typedLine(m, *e.Line)
	case e.Unread != nil:
		m.put("\n", `<p class="line unread"><span class="tag">Not understood</span> <code>`).text(e.Unread.Text)
		m.put(`</code> <span class="quiet">`).text(placeWords(e.Unread.Place)).put("</span></p>")
	}
}

// sceneHead begins a scene, with the way to its sheets side by side where there
// are several.
func (w *site) sceneHead(m *markup, sc *record.Scene) {
	m.put("\n", `<h2 class="scene" id="scene.`).text(sc.Slug).put(`">`).text(sc.Title).put("</h2>")
	beside := w.sceneAt[sc]
	if sc.Light == "" && beside == "" {
		return
	}
	m.put("\n", `<p class="light">`)
	if sc.Light != "" {
		m.put("Light: ").text(sc.Light).put(" ")
	}
	if beside != "" {
		m.put("<a").link("href", beside).put(">Side by side</a>")
	}
	m.put("</p>")
}

// headings keeps the headings of a page in order: a level is never skipped,
// whatever the writer's own headings do, so that they can be walked by ear.
type headings struct{ last int }

// level returns the level for a heading that would like to be want.
func (h *headings) level(want int) int {
	h.last = min(max(want, 2), h.last+1, 6)
	return h.last
}
