package html

import (
	"html/template"

	"notchbook/compile/record"
	"notchbook/render/draw"
)

// The page of the photographer's own tests. A record without a test has none.

// testItem is a test made ready.
type testItem struct {
	*record.Test
	Results []testResult
	Odd     []oddRow
	Plots   []template.HTML
	Offers  []testResult
	Sheets  ledger
}

// testResult is one figure with links to the sheets that it is from.
type testResult struct {
	record.TestResult
	From template.HTML
}

// oddRow is a sheet that does not belong.
type oddRow struct {
	record.OddSheet
	Row sheetRow
}

func (w *site) planTests() {
	for i, part := range w.testParts() {
		for _, t := range part {
			w.testAt[t] = partName("tests", i) + "#" + escapePath(t.Slug)
		}
	}
}

func (w *site) testParts() [][]*record.Test {
	return cut(w.season.Tests, func(t *record.Test) int {
		n := 4000 + rowWeight*len(t.Sheets)
		for _, p := range t.Plots {
			for _, l := range p.Lines {
				n += 2000 + 60*len(l.Points)
			}
		}
		for _, r := range t.Results {
			n += 800 + len(r.How) + 60*len(r.From)
		}
		return n
	})
}

func (w *site) testPages() []*page {
	if len(w.season.Tests) == 0 {
		return nil
	}
	return list("tests", "Tests", "tests", w.testParts(), func(_ int, tests []*record.Test) any {
		var items []testItem
		for _, t := range tests {
			items = append(items, w.testItem(t))
		}
		return items
	})
}

func (w *site) testItem(t *record.Test) testItem {
	item := testItem{Test: t, Sheets: w.rows(t.Sheets)}
	for _, r := range t.Results {
		res := testResult{TestResult: r, From: w.sheetLinks(r.From)}
		item.Results = append(item.Results, res)
		if r.Offer != "" {
			item.Offers = append(item.Offers, res)
		}
	}
	for _, o := range t.Odd {
		item.Odd = append(item.Odd, oddRow{OddSheet: o, Row: w.row(o.Sheet)})
	}
	for i := range t.Plots {
		if d := draw.Plot(&t.Plots[i], draw.LadderWidth); d != nil { // to be read on a phone
			item.Plots = append(item.Plots, piece(func(m *markup) {
				m.put("\n<figure class=\"plot\">").drawing(d, "chart")
				m.put("<figcaption class=\"quiet\">").text(t.Plots[i].Title).put("</figcaption></figure>")
			}))
		}
	}
	return item
}

// Hows is each method once.
func (t testItem) Hows() []string {
	var all []string
	seen := map[string]bool{}
	for _, r := range t.Results {
		if !seen[r.How] {
			seen[r.How] = true
			all = append(all, r.How)
		}
	}
	return append(all, t.Notes...)
}

// sheetLinks is sheets by their labels, each leading to its entry.
func (w *site) sheetLinks(sheets []*record.Sheet) template.HTML {
	return piece(func(m *markup) {
		for i, s := range sheets {
			if i > 0 {
				m.put(" ")
			}
			m.put("<a").link("href", w.sheetAt[s]).put(">").text(s.Label).put("</a>")
		}
	})
}

// TestURL leads from a thing of the kit to the test that its figures are from.
func (p *page) TestURL(t *record.Test) string { return p.site.testAt[t] }
