package html

import (
	"cmp"
	"html/template"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// The pages of what lies between the camera and the sleeve: to develop, the
// holders, the negatives, the losses. The first is made to be printed and taken
// along into the dark.

// tick is a sheet in a list to be ticked off.
type tick struct {
	Row  sheetRow
	Note string
	Run  int // heading of a filling before this sheet, 0 for none
	No   int
}

// batch is a record.Batch made ready.
type batch struct {
	*record.Batch
	Continued bool
	Facts     []record.Fact
	Ticks     []tick
}

// Name is the batch's heading.
func (b batch) Name() string {
	return saying.Join(", ", cmp.Or(b.Film, "film not known"), cmp.Or(b.Development, "development not stated"))
}

// heldRow is a sheet that is held back.
type heldRow struct {
	Row sheetRow
	record.HeldSheet
}

// otherRow is a sheet developed otherwise than asked.
type otherRow struct {
	Row sheetRow
	record.Otherwise
}

// developBody is what a part of "To develop" shows.
type developBody struct {
	Part      int
	Batches   []batch
	Held      []heldRow
	Otherwise []otherRow
	Cautions  []string
	Helps     []string
	Nothing   bool
}

// developItem is one line of the page; one field is set.
type developItem struct {
	batch *record.Batch
	sheet *record.BatchSheet
	first bool
	held  *record.HeldSheet
	other *record.Otherwise
}

func (w *site) developItems() []developItem {
	var items []developItem
	page := &w.season.ToDevelop
	for i := range page.Held {
		items = append(items, developItem{held: &page.Held[i]})
	}
	for _, b := range page.Batches {
		for i := range b.Sheets {
			items = append(items, developItem{batch: b, sheet: &b.Sheets[i], first: i == 0})
		}
	}
	for i := range page.Otherwise {
		items = append(items, developItem{other: &page.Otherwise[i]})
	}
	return items
}

func developWeight(it developItem) int {
	if it.first {
		return rowWeight + 1500
	}
	return rowWeight + 150
}

func (w *site) developPages() []*page {
	items := w.developItems()
	return list("develop", "To develop", "develop", cut(items, developWeight), func(part int, items []developItem) any {
		body := developBody{Part: part, Cautions: w.season.ToDevelop.Cautions, Helps: w.season.ToDevelop.Helps, Nothing: len(w.season.ToDevelop.Batches)+len(w.season.ToDevelop.Held) == 0}
		for _, it := range items {
			switch {
			case it.held != nil:
				body.Held = append(body.Held, heldRow{w.row(it.held.Sheet), *it.held})
			case it.other != nil:
				body.Otherwise = append(body.Otherwise, otherRow{w.row(it.other.Sheet), *it.other})
			default:
				w.addTick(&body, it)
			}
		}
		return body
	})
}

// HTML is the line of a sheet to be ticked off, under the heading of its filling.
func (t tick) HTML() template.HTML {
	return piece(func(m *markup) {
		if t.Run > 0 {
			m.put("\n", `<li class="run">Filling `).number(t.Run).put("</li>")
		}
		m.put("\n", `<li><span class="box" aria-hidden="true"></span><div>`)
		if t.No > 0 {
			m.put(`<span class="quiet">`).number(t.No).put(".</span> ")
		}
		m.put("<strong>")
		t.Row.linkAs(m, t.Row.Label) // it lies in its holder
		m.put(`</strong> <span class="quiet">`).text(saying.Join(", ", t.Row.Number, t.Row.When(), t.Row.What())).put("</span>")
		if t.Note != "" {
			m.put("<br>").text(t.Note)
		}
		m.put("</div></li>")
	})
}

// addTick adds a sheet to its batch, which it begins where it is the first on
// the page.
func (w *site) addTick(body *developBody, it developItem) {
	n := len(body.Batches)
	if n == 0 || body.Batches[n-1].Batch != it.batch {
		body.Batches = append(body.Batches, batch{Batch: it.batch, Continued: !it.first, Facts: batchFacts(it.batch)})
		n++
	}
	b := &body.Batches[n-1]
	t := tick{Row: w.row(it.sheet.Sheet), Note: it.sheet.Note, No: it.sheet.Order}
	if it.batch.Sheets[len(it.batch.Sheets)-1].Run > 1 && it.sheet.Order == 1 {
		t.Run = it.sheet.Run
	}
	b.Ticks = append(b.Ticks, t)
}

func batchFacts(b *record.Batch) []record.Fact {
	var out []record.Fact
	add := func(name, value string) {
		if value != "" {
			out = append(out, record.Fact{Name: name, Value: saying.Bind(value)})
		}
	}
	add("Time", saying.Join(" at ", cmp.Or(b.Time, "not known"), b.Temperature))
	add("How known", b.How)
	add("Developer", saying.Join(" ", b.Developer, b.Dilution))
	add("Agitation", b.Agitation)
	add("Capacity", b.Capacity)
	add("Light", b.Safelight)
	add("Film sees", b.Class)
	add("Or", strings.Join(b.Others, ", "))
	return out
}

// side is a holder side made ready.
type side struct {
	*record.HolderSide
	Sheet  *sheetRow
	Events []event
	Found  []finding
}

type event struct {
	record.SideEvent
	Row *sheetRow
}

// Words say what is in the side.
func (s side) Words() string { return saying.Join(", ", string(s.State), s.Film) }

// Row is the side in the table, HTML the side with what happened to it.
func (s side) Row() template.HTML {
	return piece(func(m *markup) {
		m.put("\n", `<tr><th scope="row"><a`).link("href", "#"+escapePath(s.Slug)).put(">").text(s.Name()).put("</a></th>\n<td>").text(s.Words())
		if s.Sheet != nil {
			m.put(", ")
			s.Sheet.link(m)
		}
		if s.Why != "" {
			m.put(`<br><span class="quiet">`).dated(s.Why).put("</span>")
		}
		may := constant("open")
		switch s.May {
		case record.Yes:
			may = "yes"
		case record.No:
			may = "no"
		}
		m.put("</td>\n<td>", `<span class="may may-`, may, `">`).text(string(s.May)).put("</span></td></tr>")
	})
}

func (s side) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n", `<article class="item" id="`).text(s.Slug).put(`">`, "\n<h2>").text(s.Name()).put("</h2>\n<p>").dated(saying.Join("; ", s.Words(), s.Reason))
		if of := saying.Join(", ", s.Format, s.Notch); of != "" {
			m.put(` <span class="quiet">`).text(of).put("</span>")
		}
		m.put("</p>")
		each(m, "\n<ol class=\"events\">", s.Events, func(e event) { e.write(m) }, "\n</ol>")
		each(m, "\n<ul class=\"found\">", s.Found, func(f finding) { f.item(m) }, "\n</ul>")
		m.put("\n</article>")
	})
}

func (e event) write(m *markup) {
	m.put("\n<li>")
	if e.Date != "" {
		m.put(`<span class="quiet">`).dated(e.Date).put("</span> ")
	}
	m.text(saying.Join(", ", e.What, e.Film))
	if e.Row != nil {
		m.put(", ")
		e.Row.link(m)
	}
	m.put(` <span class="quiet">`).text(placeWords(e.Place)).put("</span></li>")
}

func (w *site) rowOf(s *record.Sheet) *sheetRow {
	if s == nil {
		return nil
	}
	r := w.row(s)
	return &r
}

func (w *site) holderPages() []*page {
	weight := func(h *record.HolderSide) int { return 500 + 260*len(h.Events) + 200*len(h.Conflicts) }
	return list("holders", "Holders", "holders", cut(w.season.Holders, weight), func(_ int, sides []*record.HolderSide) any {
		out := make([]side, 0, len(sides))
		for _, h := range sides {
			s := side{HolderSide: h, Sheet: w.rowOf(h.Sheet), Found: w.found(h.Conflicts)}
			for _, e := range h.Events {
				s.Events = append(s.Events, event{e, w.rowOf(e.Sheet)})
			}
			out = append(out, s)
		}
		return out
	})
}

// negativeItem is a line of the negatives' page; one field is set.
type negativeItem struct {
	Kind     string // heading
	Row      *sheetRow
	Unlogged *record.UnloggedNote
}

// HTML is the line.
func (n negativeItem) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n", `<tr><th scope="row">`)
		if u := n.Unlogged; u != nil {
			m.text(u.Number).put("</th><td>").text(u.Why).put(`</td><td><span class="quiet">`).text(placeWords(u.Place)).put("</span></td></tr>")
			return
		}
		r := n.Row
		if len(r.Number) <= unbroken {
			m.put(`<span class="day">`).text(cmp.Or(r.Number, "–")).put("</span></th><td>")
		} else {
			m.text(r.Number).put("</th><td>")
		}
		r.linkAs(m, r.Label) // its number stands before it
		m.put(` <span class="quiet">`).text(saying.Join(", ", r.When(), r.What())).put("</span>")
		for _, p := range r.Prints {
			m.put("<br><code>").text(p.Text).put("</code>")
		}
		m.put("</td><td>").text(cmp.Or(r.Sleeve, "–")).put("</td></tr>")
	})
}

// negativesBody is what a part of the negatives' page shows.
type negativesBody struct {
	*record.Negatives
	Part   int
	Groups []negativeGroup
}

type negativeGroup struct {
	Title    string
	Unlogged bool // without an entry
	Items    []negativeItem
}

func (w *site) negativePages() []*page {
	n := &w.season.Negatives
	var items []negativeItem
	add := func(kind string, sheets []*record.Sheet) {
		for _, s := range sheets {
			items = append(items, negativeItem{Kind: kind, Row: w.rowOf(s)})
		}
	}
	add("By number", n.Numbered)
	for i := range n.Unlogged {
		items = append(items, negativeItem{Kind: "Negatives without an entry", Unlogged: &n.Unlogged[i]})
	}
	add("Developed, without a number", n.Without)
	add("Developed, without a sleeve", n.Unfiled)
	weight := func(negativeItem) int { return rowWeight + 120 }
	return list("negatives", "Negatives", "negatives", cut(items, weight), func(part int, items []negativeItem) any {
		body := negativesBody{Negatives: n, Part: part}
		for _, it := range items {
			if k := len(body.Groups); k == 0 || body.Groups[k-1].Title != it.Kind {
				body.Groups = append(body.Groups, negativeGroup{Title: it.Kind, Unlogged: it.Unlogged != nil})
			}
			g := &body.Groups[len(body.Groups)-1]
			g.Items = append(g.Items, it)
		}
		return body
	})
}

// lossPages list what was lost, and to what.
func (w *site) lossPages() []*page {
	var items []grouped
	for _, l := range w.season.Losses {
		items = append(items, under(&group{Title: title(l.Cause), ID: "loss-" + l.Slug, Of: l.Sheets}, l.Sheets)...)
	}
	return list("losses", "Lost sheets", "losses", cut(items, groupedWeight), func(_ int, items []grouped) any {
		return w.groups(items)
	})
}

// lossLinks are the causes on the season's page.
func (w *site) lossLinks() (links []link, sheets int) {
	for _, l := range w.season.Losses {
		links = append(links, link{URL: "losses.html#loss-" + escapePath(l.Slug), Text: l.Cause, Count: record.Sheets(l.Sheets)})
	}
	return links, record.Lost(w.season.Losses)
}
