package html

import (
	"html/template"
	"slices"
	"strconv"
	"unicode/utf8"

	"notchbook/compile/record"
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

// planFindings sorts the season's findings, the gravest first and then by place
// as the record has them, and decides on which part each stands.
func (w *site) planFindings() {
	sorted := slices.Clone(w.season.Findings)
	slices.SortStableFunc(sorted, func(a, b *record.Finding) int { return grave(b.Severity) - grave(a.Severity) })
	w.findings = cut(sorted, findingBytes)
	for i, part := range w.findings {
		for _, f := range part {
			w.findAt[f] = partName("findings", i)
		}
	}
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

// Concerns are the sheets that the finding is about.
func (f finding) Concerns() ledger { return f.site.rows(f.Sheets) }

// HTML is the finding in the list of them.
func (f finding) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n", `<article class="finding f-`).text(string(f.Severity)).put(`" id="`).text(f.Anchor).put(`">`, "\n<h3>").text(f.Message).put("</h3>")
		if f.Excerpt != "" {
			x := f.Stretches()
			m.put("\n", `<pre class="excerpt"><code>`).text(x.Before)
			if x.Marked != "" {
				m.put("<mark>").text(x.Marked).put("</mark>")
			}
			m.text(x.After).put("</code></pre>")
		}
		each(m, "\n<ul class=\"remarks\">", f.Notes, func(n string) { m.put("<li>").text(n).put("</li>") }, "</ul>")
		if of := f.Concerns(); len(of) > 0 {
			m.put("\n<p>Sheet")
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
			m.put("</p>")
		}
		m.put("\n", `<p class="quiet">`).severity(f.Severity).put(" ").text(dotted(f.Title, f.Code, f.Where())).put("</p>\n</article>")
	})
}

// SeverityName is the heading over the findings of one severity.
func (f finding) SeverityName() string { return severityName(f.Severity) }

func severityName(s record.Severity) string {
	switch s {
	case record.Error:
		return "Errors"
	case record.Warning:
		return "Warnings"
	}
	return "Notes"
}

// findingGroup is the findings of one severity on one page.
type findingGroup struct {
	Name     string
	Severity record.Severity
	Findings []finding
}

func (w *site) findingPages() []*page {
	return list("findings", "Findings", "findings", w.findings, func(_ int, fs []*record.Finding) any {
		var groups []findingGroup
		for _, f := range fs {
			if len(groups) == 0 || groups[len(groups)-1].Severity != f.Severity {
				groups = append(groups, findingGroup{Name: severityName(f.Severity), Severity: f.Severity})
			}
			g := &groups[len(groups)-1]
			g.Findings = append(g.Findings, w.finding(f))
		}
		return groups
	})
}

// kindOfFinding is a rule and how often it spoke.
type kindOfFinding struct {
	Title    string
	Severity record.Severity
	Count    int
	URL      string // of the first
}

// kindsOfFinding counts the findings by rule and severity, the gravest and then
// the most frequent first: what went wrong, before where.
func (w *site) kindsOfFinding() []kindOfFinding {
	type key struct {
		code string
		sev  record.Severity
	}
	var out []kindOfFinding
	at := map[key]int{}
	for _, part := range w.findings {
		for _, f := range part {
			k := key{f.Code, f.Severity}
			if i, ok := at[k]; ok {
				out[i].Count++
				continue
			}
			at[k] = len(out)
			out = append(out, kindOfFinding{f.Title, f.Severity, 1, w.finding(f).URL})
		}
	}
	slices.SortStableFunc(out, func(a, b kindOfFinding) int {
		if d := grave(b.Severity) - grave(a.Severity); d != 0 {
			return d
		}
		return b.Count - a.Count
	})
	return out
}
