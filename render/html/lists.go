package html

import (
	"cmp"
	"html/template"
	"math"
	"slices"

	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// outingRow is an outing in the season's list.
type outingRow struct {
	*record.Outing
	URL string
	record.Counts
}

// Beside is its date and place, where its title has not said them.
func (r outingRow) Beside() string {
	date, place, _ := saying.BesideTitle(r.Outing)
	return saying.Join(", ", date, place)
}

// Check is how its exposures stand, a line for each way but the right one.
func (r outingRow) Check() template.HTML {
	var wrong []string
	for _, w := range []string{
		saying.Counted([]int{r.Off}, "off"), saying.Counted([]int{r.Doubled}, "exposed twice"), saying.Counted([]int{r.NoImage}, "no image"),
	} {
		wrong = append(wrong, saying.Given(w)...)
	}
	return piece(func(m *markup) {
		for i, w := range wrong {
			if i > 0 {
				m.put("<br>")
			}
			m.put("<strong>").text(w).put("</strong>")
		}
		switch {
		case r.Unchecked > 0 && len(wrong) > 0:
			m.put("<br>")
			fallthrough
		case r.Unchecked > 0:
			m.number(r.Unchecked).put(" unchecked")
		case len(wrong) > 0:
		case r.Right > 0:
			m.put("all right")
		default:
			m.put("–")
		}
	})
}

// indexBody is the first page: the season at a glance.
type indexBody struct {
	Part    int
	Kinds   []*kindOfFinding
	Worst   ledger
	Outings []outingRow
	Others  []link // notebooks without a day or a sheet: kits
	Losses  []link
	Lost    int
	Strip   template.HTML // the calendar of outings
	Tally   *record.Tally
}

// worstShown is how many sheets the first page names; the rest is a click away.
const worstShown = 12

func (w *site) indexPages() []*page {
	weight := func(op *outingPage) int { return 350 + 2*len(op.outing.Title) + len(op.outing.Place) }
	parts := cut(w.outings, weight)
	return list("index", w.season.Title, "index", parts, func(part int, ops []*outingPage) any {
		body := indexBody{Part: part, Tally: &w.season.Tally}
		if part == 0 {
			body.Kinds, body.Worst = w.kinds, w.worst()
			body.Losses, body.Lost = w.lossLinks()
			body.Strip = piece(func(m *markup) { m.drawing(draw.Calendar(w.season), "calendar") })
		}
		for _, op := range ops {
			if o := op.outing; len(o.Sheets) == 0 && o.Date == "" {
				body.Others = append(body.Others, link{URL: op.name(0), Text: o.Title})
				continue
			}
			body.Outings = append(body.Outings, outingRow{op.outing, op.name(0), record.CountOf(op.outing.Sheets)})
		}
		return body
	})
}

// worst lists the sheets furthest off, those without an image before all.
func (w *site) worst() ledger {
	var bad []*record.Sheet
	for _, s := range w.season.Sheets {
		if s.State == record.NoImage || s.State == record.Off {
			bad = append(bad, s)
		}
	}
	slices.SortStableFunc(bad, func(a, b *record.Sheet) int { return cmp.Compare(farOff(b), farOff(a)) })
	return w.rows(bad[:min(len(bad), worstShown)])
}

func farOff(s *record.Sheet) float64 {
	if s.State == record.NoImage {
		return math.Inf(1)
	}
	return math.Abs(s.Difference.Value)
}

func (w *site) rows(sheets []*record.Sheet) ledger {
	out := make(ledger, 0, len(sheets))
	for _, s := range sheets {
		out = append(out, w.row(s))
	}
	return out
}

// uncheckedItem is a sheet that could not be checked, or text that could not be
// read; exactly one field is set.
type uncheckedItem struct {
	Sheet  *record.Sheet
	Unread *unreadLine
}

type unreadLine struct {
	*record.Line
	URL, Outing string
}

// uncheckedBody parts a page's items again into the two lists shown.
type uncheckedBody struct {
	Part   int
	Sheets ledger
	Unread []unreadLine
	Else   string // what is said where neither is
}

func (w *site) uncheckedPages() []*page {
	parts := cut(w.uncheckedItems(), func(it uncheckedItem) int {
		if it.Unread != nil {
			return rowWeight + len(it.Unread.Text)
		}
		n := rowWeight
		for _, s := range it.Sheet.Needs {
			n += 20 + len(s)
		}
		return n
	})
	return list("unchecked", "Unchecked or unread", "unchecked", parts, func(part int, items []uncheckedItem) any {
		body := uncheckedBody{Part: part, Else: "Everything could be read and checked."}
		if t := &w.season.Tally; t.UnreadLines > 0 || t.ProseLines > 0 && t.LogLines == 0 {
			body.Else = "No sheet lacks a fact, but not every line could be read."
		}
		for _, it := range items {
			if it.Unread != nil {
				body.Unread = append(body.Unread, *it.Unread)
			} else {
				body.Sheets = append(body.Sheets, w.row(it.Sheet))
			}
		}
		return body
	})
}

func (w *site) uncheckedItems() []uncheckedItem {
	var items []uncheckedItem
	for _, s := range w.season.Sheets {
		if s.State == record.Unchecked || len(s.Needs) > 0 {
			items = append(items, uncheckedItem{Sheet: s})
		}
	}
	for _, op := range w.outings {
		for i, part := range op.parts {
			for _, e := range part {
				if e.Unread != nil {
					items = append(items, uncheckedItem{Unread: &unreadLine{e.Unread, op.name(i), op.outing.Title}})
				}
			}
		}
	}
	return items
}

// group is a run of sheets under one heading of a list.
type group struct {
	Title     string
	ID        string
	Of        []*record.Sheet // of the whole group, over all parts
	Continued bool            // the group began on the part before
	Rows      ledger
}

// Film says how many sheets the whole group has.
func (g group) Film() string { return saying.Film(g.Of) }

// grouped is a sheet in a list with headings.
type grouped struct {
	head  *group // shared by the sheets of a group
	sheet *record.Sheet
	first bool
}

// groups draws the part of a list with headings that stands on one page.
func (w *site) groups(items []grouped) []group {
	var out []group
	var head *group
	for _, it := range items {
		if it.head != head {
			head = it.head
			g := *head
			g.Continued = !it.first
			out = append(out, g)
		}
		if it.sheet != nil {
			g := &out[len(out)-1]
			g.Rows = append(g.Rows, w.row(it.sheet))
		}
	}
	return out
}

// under lists sheets under a heading, or the heading alone.
func under(head *group, sheets []*record.Sheet) []grouped {
	if len(sheets) == 0 {
		return []grouped{{head: head, first: true}}
	}
	var out []grouped
	for i, s := range sheets {
		out = append(out, grouped{head, s, i == 0})
	}
	return out
}

func groupedWeight(g grouped) int {
	n := rowWeight
	if g.sheet != nil {
		n += len(g.sheet.Slug) + len(g.sheet.Title)
	}
	if g.first {
		n += 100 + 2*len(g.head.Title)
	}
	return n
}

// lookupBody is an index by one thing. Keys are the headings of all parts, with
// the part each begins on; they are left out where they would fill a page
// of their own.
type lookupBody struct {
	Part   int
	Film   string // how many of the season's sheets are listed
	Keys   []link
	Groups []group
}

// keysShown bounds the list of keys at the top of an index.
const keysShown = 1500

func (w *site) lookupPages(x *record.Index) []*page {
	var items []grouped
	listed := map[*record.Sheet]bool{}
	for _, r := range x.Rows {
		head := &group{Title: cmp.Or(r.Key, "not stated"), ID: r.Slug, Of: r.Sheets}
		items = append(items, under(head, r.Sheets)...)
		for _, s := range r.Sheets {
			listed[s] = true
		}
	}
	all := w.season.Sheets
	film := saying.FilmOf(slices.DeleteFunc(slices.Clone(all), func(s *record.Sheet) bool { return !listed[s] }), all)
	parts := cut(items, groupedWeight)
	keys := lookupKeys("by-"+x.Kind, parts)
	return list("by-"+x.Kind, x.Title, "lookup", parts, func(part int, items []grouped) any {
		body := lookupBody{Part: part, Film: film, Groups: w.groups(items)}
		if part == 0 && len(keys) <= keysShown {
			body.Keys = keys
		}
		return body
	})
}

func lookupKeys(base string, parts [][]grouped) []link {
	var keys []link
	for i, part := range parts {
		for _, g := range part {
			if !g.first {
				continue
			}
			url := "#" + escapePath(g.head.ID)
			if i > 0 {
				url = partName(base, i) + url
			}
			keys = append(keys, link{URL: url, Text: g.head.Title, Count: record.Sheets(g.head.Of)})
		}
	}
	return keys
}
