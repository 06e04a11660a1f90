package html

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// scan is a record.Scan made ready.
type scan struct {
	*record.Scan
	URL   string // of the original, "" where there is nothing to open
	View  string // where it hangs as a large picture, "" where it does not
	Thumb thumb
	site  *site
}

func (w *site) scan(s *record.Scan) scan {
	out := scan{Scan: s, Thumb: w.thumbs[s.Path], View: w.viewAt[s.Path], site: w}
	if s.State != record.Missing && s.State != record.Outside {
		out.URL = w.scanURL(s)
	}
	return out
}

// Words say what is known of the file in one line.
func (s scan) Words() string {
	return saying.Bind(saying.Join(", ", slices.Concat([]string{s.Trouble()}, saying.ScanFacts(s.Scan), []string{saying.Size(s.Bytes)})...))
}

// Trouble says what is wrong with the file, "" where nothing is.
func (s scan) Trouble() string { return saying.Join(", ", s.state(), saying.OtherBytes(s.Scan)) }

// state says why there is no scan to look at, "" where there is.
func (s scan) state() string {
	switch s.State {
	case record.Missing:
		return saying.Join(": ", "missing", s.Why)
	case record.Unreadable:
		return saying.Join(": ", "cannot be read", s.Why)
	case record.Outside:
		return saying.Join(": ", "outside the season’s folder", s.Why)
	}
	return s.Why
}

// link is the file's path, leading to it where it can be opened.
func (s scan) link(m *markup) {
	if s.URL == "" {
		m.text(s.Path)
		return
	}
	m.put("<a").link("href", s.URL).put(">").text(s.Path).put("</a>")
}

// HTML is the file in the list of scans.
func (s scan) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n<li>")
		if s.Thumb.Name != "" {
			m.picture(s.Thumb, "", true)
		}
		m.put("\n<div><p>")
		s.link(m)
		m.put("</p>\n<p>")
		if of := s.Of(); len(of) > 0 {
			m.put("Sheet")
			if len(of) > 1 {
				m.put("s")
			}
			for i, r := range of {
				if i > 0 {
					m.put(",")
				}
				m.put(" ")
				r.link(m)
			}
			m.put(" ")
		}
		m.put(`<span class="quiet">`).text(s.Words()).put("</span></p>")
		if s.SHA256 != "" {
			m.put("\n", `<details class="sha"><summary><abbr title="checksum of the file">SHA-256</abbr></summary> <code>`).text(s.SHA256).put("</code></details>")
		}
		if s.Was != "" {
			m.put("\n", `<p class="sha">`).text(saying.FormerSum).put(" <code>").text(s.Was).put("</code></p>")
		}
		m.put("\n</div></li>")
	})
}

// Of are the sheets that the scan shows.
func (s scan) Of() ledger { return s.site.rows(s.Sheets) }

// scanPlace is where the scans of a state stand in the list of them.
func scanPlace(s record.ScanState) int {
	for i, group := range saying.ScanGroups {
		if group.State == s {
			return i
		}
	}
	return len(saying.ScanGroups) - 1 // as present
}

func scanTitle(s record.ScanState) string { return saying.ScanGroups[scanPlace(s)].Title }

// scansBody is what a part of the list of scans shows.
type scansBody struct {
	Contents []*scanGroup // of all parts; on the first, where there is more than one day
	Groups   []scanGroup
}

// scanGroup is the scans of one state, by the outings that their sheets are of.
type scanGroup struct {
	Title string
	Count int // over all parts
	Days  []*scanDay
}

// scanDay is the scans of one outing, in one state.
type scanDay struct {
	Title     string // "" for those of no sheet
	ID, URL   string
	Count     int  // over all parts
	Continued bool // it began on the part before
	Scans     []scan
	state     record.ScanState
	outing    *record.Outing
}

// outingOf is the outing of the first sheet of a scan, nil where it has none.
func outingOf(s *record.Scan) *record.Outing {
	if len(s.Sheets) == 0 {
		return nil
	}
	return s.Sheets[0].Outing
}

// scanPages lists the scans by what a hand is needed for, then by outing: a season has
// hundreds, and one looks for those of a day.
func (w *site) scanPages() []*page {
	at := map[*record.Outing]int{nil: len(w.season.Outings)}
	for i, o := range w.season.Outings {
		at[o] = i
	}
	sorted := slices.Clone(w.season.Scans)
	slices.SortStableFunc(sorted, func(a, b *record.Scan) int {
		return cmp.Or(cmp.Compare(scanPlace(a.State), scanPlace(b.State)), cmp.Compare(at[outingOf(a)], at[outingOf(b)]))
	})
	weight := func(s *record.Scan) int {
		return rowWeight + 90 + 2*len(s.Path) + 3*(len(s.SHA256)+2*len(s.Was))/2 + 60*len(s.Sheets)
	}
	parts := cut(sorted, weight)
	days, contents := scanDays(parts)
	return list("scans", "Scans", "scans", parts, func(part int, scans []*record.Scan) any {
		var body scansBody
		if part == 0 && len(days) > 1 {
			body.Contents = contents
		}
		var last *scanDay
		for _, s := range scans {
			day := days[dayKey{s.State, outingOf(s)}]
			if last == nil || last.state != s.State {
				body.Groups = append(body.Groups, scanGroup{Title: scanTitle(s.State), Count: countOf(contents, s.State)})
			}
			g := &body.Groups[len(body.Groups)-1]
			if last == nil || last.state != s.State || last.outing != outingOf(s) {
				shown := *day
				shown.Continued = day.URL != partName("scans", part)+"#"+day.ID
				last = &shown
				g.Days = append(g.Days, last)
			}
			last.Scans = append(last.Scans, w.scan(s))
		}
		return body
	})
}

// dayKey is by what a day is found.
type dayKey struct {
	state  record.ScanState
	outing *record.Outing
}

// scanDays are the days of all parts, and the same by state, in their order.
func scanDays(parts [][]*record.Scan) (days map[dayKey]*scanDay, contents []*scanGroup) {
	days = map[dayKey]*scanDay{}
	for part, scans := range parts {
		for _, s := range scans {
			d := days[dayKey{s.State, outingOf(s)}]
			if d == nil {
				d = &scanDay{ID: "day-" + strconv.Itoa(len(days)+1), state: s.State, outing: outingOf(s)}
				d.URL = partName("scans", part) + "#" + d.ID
				if d.outing != nil {
					d.Title = saying.Join(", ", d.outing.Day(), cmp.Or(d.outing.Place, d.outing.Title))
				}
				if n := len(contents); n == 0 || contents[n-1].Days[0].state != s.State {
					contents = append(contents, &scanGroup{Title: scanTitle(s.State)})
				}
				g := contents[len(contents)-1]
				days[dayKey{s.State, d.outing}], g.Days = d, append(g.Days, d)
			}
			d.Count++
			contents[len(contents)-1].Count++
		}
	}
	return days, contents
}

// countOf is how many scans of a state there are.
func countOf(contents []*scanGroup, state record.ScanState) int {
	return contents[slices.IndexFunc(contents, func(g *scanGroup) bool { return g.Days[0].state == state })].Count
}

// kitGroup is the declarations of one kind.
type kitGroup struct {
	Title string
	Items []*record.Item
}

func (w *site) kitPages() []*page {
	weight := func(it *record.Item) int { return rowWeight + len(it.Source) + 80*len(it.Facts) }
	kinds := map[string]int{}
	for _, it := range w.season.Kit {
		if _, ok := kinds[it.Kind]; !ok {
			kinds[it.Kind] = len(kinds)
		}
	}
	sorted := slices.Clone(w.season.Kit)
	slices.SortStableFunc(sorted, func(a, b *record.Item) int { return kinds[a.Kind] - kinds[b.Kind] })
	return list("kit", "Kit", "kit", cut(sorted, weight), func(_ int, items []*record.Item) any {
		var groups []kitGroup
		for _, it := range items {
			name := kitTitle(it.Kind)
			if len(groups) == 0 || groups[len(groups)-1].Title != name {
				groups = append(groups, kitGroup{Title: name})
			}
			g := &groups[len(groups)-1]
			g.Items = append(g.Items, it)
		}
		return groups
	})
}

func kitTitle(kind string) string {
	if kind == "lens" {
		return "Lenses"
	}
	return title(kind) + "s"
}

// notebookRow is a notebook in the colophon.
type notebookRow struct {
	*record.Notebook
	URL string
}

func (w *site) colophonPage() *page {
	body := func() any {
		var rows []notebookRow
		for _, n := range w.season.Files() {
			rows = append(rows, notebookRow{n, w.noteURL(n)})
		}
		return rows
	}
	return &page{Name: "colophon.html", Title: "Colophon", Template: "colophon", body: body}
}

// noteURL leads to a notebook as it was read: its copy in the record, or the
// original where nothing was left out of it.
func (w *site) noteURL(n *record.Notebook) string {
	name, ok := inSeason(n.CopyName())
	switch {
	case w.opt.Notes != "" && ok && !strings.Contains(name, ":"):
		return w.opt.Notes + escapePath(name)
	case n.Redacted:
		return ""
	}
	return w.fileURL(n.Path)
}
