package html

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"unicode/utf8"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// finding is a record.Finding made ready.
type finding struct {
	*record.Finding
	URL  string // of its entry on the findings page, "" where it has none
	site *site
}

// grave orders severities.
func grave(s record.Severity) int {
	return slices.Index([]record.Severity{record.Note, record.Warning, record.Error}, s)
}

// kindOfFinding is a rule and how often it spoke with one severity.
type kindOfFinding struct {
	Title    string
	Severity record.Severity
	Count    int
	ID       string // of its heading on the findings' pages
	URL      string // that leads there
}

// Mark is its severity as it is set.
func (k *kindOfFinding) Mark() template.HTML {
	return piece(func(m *markup) { m.severity(k.Severity) })
}

type kindKey struct {
	code     string
	severity record.Severity
}

func keyOf(f *record.Finding) kindKey { return kindKey{f.Code, f.Severity} }

// planFindings sorts the season's findings by kind, the gravest and then the most
// frequent first, within a kind by place as the record has them, and decides on
// which part each stands.
func (w *site) planFindings() {
	of := map[kindKey]*kindOfFinding{}
	for _, f := range w.season.Findings {
		k := of[keyOf(f)]
		if k == nil {
			k = &kindOfFinding{Title: f.Title, Severity: f.Severity, ID: "kind." + string(f.Severity) + "." + f.Code}
			of[keyOf(f)] = k
			w.kinds = append(w.kinds, k)
		}
		k.Count++
	}
	slices.SortStableFunc(w.kinds, func(a, b *kindOfFinding) int {
		return cmp.Or(grave(b.Severity)-grave(a.Severity), b.Count-a.Count)
	})
	at := map[*kindOfFinding]int{}
	for i, k := range w.kinds {
		at[k] = i
	}
	sorted := slices.Clone(w.season.Findings)
	slices.SortStableFunc(sorted, func(a, b *record.Finding) int { return at[of[keyOf(a)]] - at[of[keyOf(b)]] })
	folded := sorted[:0:0]
	for _, t := range saying.Fold(sorted) {
		folded = append(folded, t.Of...)
	}
	w.findings = cut(folded, findingBytes)
	for i, part := range w.findings {
		for _, f := range part {
			w.findAt[f] = partName("findings", i)
			if k := of[keyOf(f)]; k.URL == "" {
				k.URL = w.findAt[f] + "#" + escapePath(k.ID)
			}
		}
	}
	w.kindOf = of
}

func findingBytes(f *record.Finding) int {
	n := findingWeight + len(f.Message) + len(f.Excerpt) + 130*len(f.Sheets)
	for _, s := range f.Notes {
		n += 10 + len(s)
	}
	return n
}

func (w *site) finding(f *record.Finding) finding {
	out := finding{Finding: f, site: w}
	if at, ok := w.findAt[f]; ok {
		out.URL = at + "#" + escapePath(f.Anchor)
	}
	return out
}

func (w *site) found(fs []*record.Finding) []finding {
	out := make([]finding, 0, len(fs))
	for _, f := range fs {
		out = append(out, w.finding(f))
	}
	return out
}

// Where is the place of the finding as an editor takes it: "aldermoor.md:31:9".
func (f finding) Where() string {
	p := f.Place
	if p.Path == "" {
		return ""
	}
	return p.Path + ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column)
}

// marks are the three stretches of an excerpt.
type marks struct{ Before, Marked, After string }

// Stretches parts the excerpt at its mark. A mark that does not fit the text, or
// would cut a character in two, marks nothing: the line itself must survive.
func (f finding) Stretches() marks {
	from, to, s := f.Mark[0], f.Mark[1], f.Excerpt
	if from < 0 || to > len(s) || from >= to || !startsRune(s, from) || !startsRune(s, to) {
		return marks{Before: s}
	}
	return marks{s[:from], s[from:to], s[to:]}
}

func startsRune(s string, i int) bool { return i == len(s) || utf8.RuneStart(s[i]) }

// told is findings that say one thing, on one page.
type told struct {
	saying.Told
	site *site
}

// HTML is a finding in the list of them, or what many say, with the line of each.
func (t told) HTML() template.HTML {
	return piece(func(m *markup) {
		f := t.site.finding(t.Of[0])
		m.put("\n", `<article class="finding f-`).text(string(f.Severity))
		if len(t.Of) == 1 {
			m.put(`" id="`).text(f.Anchor)
		}
		m.put(`">`, "\n<h4>").text(t.Message).put("</h4>")
		if len(t.Of) == 1 && f.Excerpt != "" {
			m.put("\n", `<pre class="excerpt"><code>`)
			f.excerpt(m)
			m.put("</code></pre>")
		}
		each(m, "\n<ul class=\"remarks\">", t.Notes(), func(n string) { m.put("<li>").text(saying.Bind(n)).put("</li>") }, "</ul>")
		where := f.Where()
		if len(t.Of) == 1 {
			f.concerns(m, "\n<p>", "</p>")
		} else {
			where = t.Times()
			t.places(m)
		}
		m.put("\n", `<p class="quiet">`).severity(f.Severity).put(" ").text(dotted(f.Code, where)).put("</p>\n</article>")
	})
}

// places are the lines of many findings.
func (t told) places(m *markup) {
	m.put("\n<ul class=\"typed\">")
	for _, f := range t.site.found(t.Of) {
		m.put("\n<li id=\"").text(f.Anchor).put("\">")
		if f.Excerpt != "" {
			m.put("<code>")
			f.excerpt(m)
			m.put("</code> ")
		}
		m.put(`<span class="quiet">`).text(f.Where()).put("</span>")
		f.concerns(m, " ", "")
		if f.Fix != nil {
			m.put(" write: <code>").text(f.Fix.Text).put("</code>")
		}
		m.put("</li>")
	}
	m.put("\n</ul>")
}

// excerpt is the line with what is marked in it.
func (f finding) excerpt(m *markup) {
	x := f.Stretches()
	m.text(x.Before)
	if x.Marked != "" {
		m.put("<mark>").text(x.Marked).put("</mark>")
	}
	m.text(x.After)
}

// concerns names the sheets that the finding is about.
func (f finding) concerns(m *markup, open, shut constant) {
	of := f.site.rows(f.Sheets)
	if len(of) == 0 {
		return
	}
	m.put(open, "Sheet")
	if len(of) > 1 {
		m.put("s")
	}
	for _, r := range of {
		m.put(" ")
		r.link(m)
		m.put(" ")
		r.Verdict.write(m)
		m.put(`<span class="sep">;</span>`)
	}
	m.put(shut)
}

// severityName is the heading over the findings of one severity.
func severityName(s record.Severity) string {
	switch s {
	case record.Error:
		return "Errors"
	case record.Warning:
		return "Warnings"
	}
	return "Notes"
}

// findingGroup is the findings of one severity on one page, kindGroup those of one
// kind.
type findingGroup struct {
	Name  string
	Kinds []kindGroup
}

type kindGroup struct {
	*kindOfFinding
	Continued bool // it began on the part before
	Findings  []told
}

// findingsBody is what a part of the findings shows.
type findingsBody struct {
	Kinds  []*kindOfFinding // with the way to each; on the first part
	Groups []findingGroup
}

func (w *site) findingPages() []*page {
	return list("findings", "Findings", "findings", w.findings, func(part int, fs []*record.Finding) any {
		var body findingsBody
		if part == 0 && len(w.kinds) > 1 {
			body.Kinds = w.kinds
		}
		var last *kindOfFinding
		for _, t := range saying.Fold(fs) {
			f := t.Of[0]
			k := w.kindOf[keyOf(f)]
			if last == nil || last.Severity != k.Severity {
				body.Groups = append(body.Groups, findingGroup{Name: severityName(f.Severity)})
			}
			g := &body.Groups[len(body.Groups)-1]
			if k != last {
				g.Kinds = append(g.Kinds, kindGroup{kindOfFinding: k, Continued: k.URL != partName("findings", part)+"#"+escapePath(k.ID)})
				last = k
			}
			kind := &g.Kinds[len(g.Kinds)-1]
			kind.Findings = append(kind.Findings, told{t, w})
		}
		return body
	})
}
