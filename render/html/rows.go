package html

import (
	"cmp"
	"html/template"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// A sheet in a list: its label with the way to its entry, what it shows, what it
// was made with, and what the check says.

// sheetRow is a sheet in a list.
type sheetRow struct {
	*record.Sheet
	URL     string
	Verdict verdict
}

func (w *site) row(s *record.Sheet) sheetRow {
	return sheetRow{s, w.sheetURL(s), newVerdict(s)}
}

// sheetURL leads to a sheet, "" for one that no outing holds.
func (w *site) sheetURL(s *record.Sheet) string {
	at, ok := w.sheetAt[s]
	if !ok {
		return ""
	}
	return at + "#" + escapePath(s.Slug)
}

// What is what the sheet shows, for a list.
func (r sheetRow) What() string { return saying.Subject(r.Sheet) }

// How is what the sheet was made with, for a list.
func (r sheetRow) How() string {
	return dotted(r.Film, r.Lens, r.filters(), r.settings(), r.Development)
}

func (r sheetRow) filters() string  { return strings.Join(r.Filters, " + ") }
func (r sheetRow) settings() string { return saying.Join(",\u00a0", r.Given.Time, r.Given.Aperture) }

// WhenAndHow is the same for a list that goes across outings.
func (r sheetRow) WhenAndHow() string { return dotted(saying.Beside(r.Sheet), r.When(), r.How()) }

// When is the outing, for a list that goes across outings.
func (r sheetRow) When() string {
	if r.Outing == nil {
		return ""
	}
	return cmp.Or(r.Outing.Day(), r.Outing.Title)
}

// Link is the sheet's name, leading to the entry where there is one.
func (r sheetRow) Link() template.HTML { return piece(r.link) }

func (r sheetRow) link(m *markup) { r.linkAs(m, saying.Name(r.Sheet)) }

// InHolder is the label with the same way, for a list by which holders are emptied.
func (r sheetRow) InHolder() template.HTML {
	return piece(func(m *markup) { r.linkAs(m, r.Label) })
}

// unbroken is the length of names that stay on one line, however narrow the page.
const unbroken = len("1991-051'2")

// linkAs leads to the entry from other words.
func (r sheetRow) linkAs(m *markup, words string) {
	if r.URL == "" {
		m.text(words)
		return
	}
	m.put("<a")
	if len(words) <= unbroken && strings.ContainsAny(words, "- ") {
		m.put(` class="day"`)
	}
	m.link("href", r.URL).put(">").text(words).put("</a>")
}

// Check is the verdict as it is set.
func (r sheetRow) Check() template.HTML { return piece(r.Verdict.write) }

// ledger is a table of sheets.
type ledger []sheetRow

const ledgerHead = `<table class="ledger sheets">
<thead><tr><th scope="col">Sheet</th><th scope="col">What and how</th><th scope="col">Check</th></tr></thead>
<tbody>`

// Across is the table for a list that goes across outings: it says of each sheet
// when it was made.
func (l ledger) Across() template.HTML {
	m := l.begin()
	for _, r := range l {
		r.write(m, saying.Name(r.Sheet), r.What(), saying.Beside(r.Sheet), r.When())
	}
	return m.put(ledgerFoot).html()
}

// Here is the table on the page of an outing, in which each scene is named once.
func (l ledger) Here() template.HTML {
	m := l.begin()
	for i, r := range l {
		if r.Scene != nil && (i == 0 || r.Scene != l[i-1].Scene) {
			if i > 0 {
				m.put("\n</tbody>\n<tbody>")
			}
			m.put("\n", `<tr><th scope="rowgroup" colspan="3">`).text(r.Scene.Title).put("</th></tr>")
		}
		r.write(m, r.Label, r.Title, "", "")
	}
	return m.put(ledgerFoot).html()
}

const ledgerFoot = "\n</tbody>\n</table>"

func (l ledger) begin() *markup {
	m := &markup{make([]byte, 0, 300+rowWeight*len(l))}
	return m.put(ledgerHead)
}

// write sets the row.
func (r sheetRow) write(m *markup, name, what, beside, when string) {
	m.put("\n", `<tr><th scope="row">`)
	r.linkAs(m, name)
	m.put("</th>\n<td>")
	if what != "" {
		m.text(what).put("<br>")
	}
	m.put(`<span class="quiet">`).joined(middot, beside, when, r.Film, r.Lens, r.filters(), r.settings(), r.Development).put("</span></td>\n<td>")
	r.Verdict.write(m)
	m.put("</td></tr>")
}

// verdict is the answer of the check in one glance: words first, and a shape
// that says the same without colour.
type verdict struct {
	Words string // "right", "2 stops under"
	Class string // for the style: "right", "off", "unchecked", "no-image", "unexposed"
	Sign  string // "▾" under, "▴" over, "" neither
	Error bool   // a stop or more, or no image: set heavier
}

func newVerdict(s *record.Sheet) verdict {
	v := verdict{Words: saying.Verdict(s), Class: string(s.State)}
	switch {
	case s.State == record.NoImage:
		v.Error = true
	case s.Standing() == record.Doubled:
		v.Class, v.Error = string(record.Off), true
	case s.State == record.Off && s.Difference.Known:
		v.Sign, v.Error = sign(s.Difference.Value), exposure.AStop(s.Difference.Value)
	}
	return v
}

func sign(d float64) string {
	if d < 0 {
		return "▾"
	}
	return "▴"
}

// write sets the verdict.
func (v verdict) write(m *markup) {
	m.put(`<span class="v v-`).text(v.Class)
	if v.Error {
		m.put(" v-error")
	}
	m.put(`">`)
	if v.Sign != "" {
		m.put(`<span class="sign" aria-hidden="true">`).text(v.Sign).put("</span> ")
	}
	m.text(v.Words).put("</span>")
}
