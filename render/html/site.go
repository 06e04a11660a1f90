package html

import (
	"cmp"
	"slices"
	"strconv"

	"notchbook/compile/record"
)

// site is the plan of the folder: which page holds what. It is complete before
// the first page is drawn and only read afterwards, so that pages can be drawn
// at once and every link is known to lead somewhere.
type site struct {
	season *record.Season
	opt    Options

	outings  []*outingPage
	findings [][]*record.Finding // the parts of findings.html
	kinds    []*kindOfFinding
	kindOf   map[kindKey]*kindOfFinding
	sheetAt  map[*record.Sheet]string
	findAt   map[*record.Finding]string
	outingAt map[*record.Outing]string
	thumbs   map[string]thumb // by the scan's path
	views    map[string]thumb // large pictures, likewise
	viewAt   map[string]string
	levels   map[string]map[spot]float64 // measured on the large pictures, by the scan's path
	walls    []*wall
	scenes   []*scenePage
	sceneAt  map[*record.Scene]string
	testAt   map[*record.Test]string
	nav      []link
	lookup   []link
}

// link is an entry of a list of links.
type link struct {
	URL, Text string
	Count     int  // shown when above 0
	Here      bool // leads to the page it stands on
}

// page is one file of the record.
type page struct {
	Name     string // "outing-brickworks.html"
	Title    string
	Template string
	Prev     *link
	Next     *link
	Parts    []link     // the numbered parts of a list too long for one page
	body     func() any // what the template shows

	site *site
}

func newSite(s *record.Season, o Options) *site {
	o.Season = cmp.Or(o.Season, "../")
	w := &site{
		season: s, opt: o,
		sheetAt:  map[*record.Sheet]string{},
		findAt:   map[*record.Finding]string{},
		outingAt: map[*record.Outing]string{},
		thumbs:   map[string]thumb{},
		views:    map[string]thumb{},
		viewAt:   map[string]string{},
		levels:   map[string]map[spot]float64{},
		sceneAt:  map[*record.Scene]string{},
		testAt:   map[*record.Test]string{},
	}
	w.planOutings()
	w.planScenes()
	w.planFindings()
	w.planTests()
	w.planNav()
	return w
}

// pages lists the record's pages in the order in which they are written.
func (w *site) pages() []*page {
	var all []*page
	all = append(all, w.indexPages()...)
	all = append(all, w.outingPages()...)
	all = append(all, w.findingPages()...)
	all = append(all, w.uncheckedPages()...)
	all = append(all, w.scenePages()...)
	all = append(all, w.wallPages()...)
	all = append(all, w.contactPages()...)
	all = append(all, w.developPages()...)
	all = append(all, w.holderPages()...)
	all = append(all, w.negativePages()...)
	all = append(all, w.lossPages()...)
	all = append(all, w.yearPages()...)
	for _, x := range w.season.Indexes {
		all = append(all, w.lookupPages(x)...)
	}
	all = append(all, w.findPages()...)
	all = append(all, w.scanPages()...)
	all = append(all, w.kitPages()...)
	all = append(all, w.testPages()...)
	all = append(all, w.colophonPage())
	for _, p := range all {
		p.site = w
	}
	return all
}

func (w *site) planNav() {
	unchecked := w.season.Tally.Unchecked + w.season.Tally.UnreadLines
	w.nav = []link{
		{URL: "index.html", Text: "Season"},
		{URL: "findings.html", Text: "Findings", Count: len(w.season.Findings)},
		{URL: "unchecked.html", Text: "Unchecked or unread", Count: unchecked},
		{URL: "contact.html", Text: "Contact sheet"},
		{URL: "develop.html", Text: "To develop"},
		{URL: "holders.html", Text: "Holders"},
		{URL: "index.html#look.up", Text: "Look up"},
		{URL: "scans.html", Text: "Scans"},
		{URL: "kit.html", Text: "Kit"},
	}
	if len(w.season.Tests) > 0 {
		w.nav = append(w.nav, link{URL: "tests.html", Text: "Tests"})
	}
	if w.season.Find != nil {
		w.nav = slices.Insert(w.nav, 1, link{URL: "find.html", Text: "Find"})
	}
	for _, x := range w.season.Indexes {
		w.lookup = append(w.lookup, link{URL: "by-" + x.Kind + ".html", Text: x.Title})
	}
}

// pageBytes is the size at which a list goes on in another page: below a
// megabyte a phone opens a page without a pause.
const pageBytes = 1_000_000

// cut divides items into runs that weigh about pageBytes each; there is always
// one run, if only an empty one, because every page of the record exists.
func cut[T any](items []T, weight func(T) int) [][]T {
	parts := [][]T{nil}
	sum := 0
	for i, it := range items {
		w := weight(it)
		if sum > 0 && sum+w > pageBytes {
			parts = append(parts, nil)
			sum = 0
		}
		last := len(parts) - 1
		start := i - len(parts[last])
		parts[last] = items[start : i+1]
		sum += w
	}
	return parts
}

// partName names the n-th part (from 0) of a page. The dot keeps part 2 of
// outing-a apart from an outing whose slug is a-2: slugs hold no dot.
func partName(base string, n int) string {
	if n == 0 {
		return base + ".html"
	}
	return base + "." + strconv.Itoa(n+1) + ".html"
}

// list makes the pages of a list that was cut into parts.
func list[T any](base, title, tmpl string, parts [][]T, body func(part int, items []T) any) []*page {
	var pages []*page
	for i, items := range parts {
		p := &page{Name: partName(base, i), Title: title, Template: tmpl}
		p.body = func() any { return body(i, items) }
		for j := 0; len(parts) > 1 && j < len(parts); j++ {
			p.Parts = append(p.Parts, link{URL: partName(base, j), Text: strconv.Itoa(j + 1), Here: i == j})
		}
		pages = append(pages, p)
	}
	return pages
}
