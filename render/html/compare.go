package html

import (
	"cmp"
	"html/template"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// Side by side: the sheets of one scene with what their entries have different,
// named in words, and a wipe between two of their scans.

// scenePage is a scene with more than one sheet.
type scenePage struct {
	scene *record.Scene
	parts [][]*record.Sheet
}

// planScenes finds the scenes that have something to compare.
func (w *site) planScenes() {
	for _, o := range w.season.Outings {
		for _, sc := range o.Scenes {
			if len(sc.Sheets) < 2 {
				continue
			}
			sp := &scenePage{sc, cut(sc.Sheets, func(s *record.Sheet) int { return 2500 + len(s.Title) })}
			w.scenes = append(w.scenes, sp)
			w.sceneAt[sc] = partName(sceneBase(sc), 0)
		}
	}
}

func sceneBase(sc *record.Scene) string { return "scene-" + escapePath(sc.Slug) }

// sceneBody is what a side-by-side page shows.
type sceneBody struct {
	Scene   *record.Scene
	Back    string
	Frames  []compared
	Rows    []differing
	Pairs   bool // two pictures or more: there is something to wipe
	Heading []string
	Patches patchTable
}

// compared is a sheet on the page.
type compared struct {
	frame
	Large string // the picture for the wipe
	Words string // what it has different from the first
}

// HTML is the sheet's place on the page.
func (c compared) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n<li")
		if c.Large != "" {
			m.link("data-picture", c.Large)
		}
		m.put(` data-label="`).text(c.Row.Label).put(`">`)
		c.write(m)
		m.put("\n", `<p class="quiet">`).text(c.Words).put("</p></li>")
	})
}

// Table is what differs, PatchTable what was measured, a column a sheet.
func (b sceneBody) Table() template.HTML {
	return piece(func(m *markup) { b.table(m, "Fact", b.Rows) })
}

func (b sceneBody) PatchTable() template.HTML {
	rows := b.Patches.Rows
	if b.Patches.Settings != nil {
		rows = append(rows[:len(rows):len(rows)], differing{"its scan", b.Patches.Settings})
	}
	return piece(func(m *markup) { b.table(m, "Patch", rows) })
}

func (b sceneBody) table(m *markup, what constant, rows []differing) {
	m.put(`<table>`, "\n", `<thead><tr><th scope="col">`, what, "</th>")
	for _, label := range b.Heading {
		m.put(`<th scope="col">`).text(label).put("</th>")
	}
	m.put("</tr></thead>\n<tbody>")
	for _, r := range rows {
		m.put("\n", `<tr><th scope="row">`).text(r.Name).put("</th>")
		for _, v := range r.Values {
			m.put("<td>").text(v).put("</td>")
		}
		m.put("</tr>")
	}
	m.put("\n</tbody>\n</table>")
}

// differing is a fact that is not the same on all sheets.
type differing struct {
	Name   string
	Values []string
}

func (w *site) scenePages() []*page {
	var all []*page
	for _, sp := range w.scenes {
		title := cmp.Or(sp.scene.Title, "A scene without a name") + ", side by side"
		all = append(all, list(sceneBase(sp.scene), title, "scene", sp.parts, func(_ int, sheets []*record.Sheet) any {
			return w.sceneBody(sp.scene, sheets)
		})...)
	}
	return all
}

func (w *site) sceneBody(sc *record.Scene, sheets []*record.Sheet) sceneBody {
	first := sc.Sheets[0]
	body := sceneBody{Scene: sc, Back: w.outingAt[sc.Outing]}
	apart := make([][]string, len(sheets)) // of each sheet, what it has different from the first
	for _, f := range facets {
		norm, alike := f.of(first), true
		row := differing{f.name, make([]string, 0, len(sheets))}
		for i, s := range sheets {
			v := f.of(s)
			row.Values = append(row.Values, cmp.Or(v, f.none))
			alike = alike && row.Values[i] == row.Values[0]
			if v != norm {
				apart[i] = append(apart[i], f.name+" "+row.Values[i]+", not "+cmp.Or(norm, f.none))
			}
		}
		if !alike {
			body.Rows = append(body.Rows, row)
		}
	}
	pictures := 0
	for i, s := range sheets {
		c := compared{frame: w.frame(s), Words: strings.Join(apart[i], "; ")}
		switch {
		case s == first:
			c.Words = "the first of the scene"
		case c.Words == "":
			c.Words = "entered like " + first.Label
		}
		if c.Large = w.large(s); c.Large == "" {
			c.Large = c.Thumb.Name
		}
		if c.Large != "" {
			pictures++
		}
		body.Frames = append(body.Frames, c)
		body.Heading = append(body.Heading, s.Label)
	}
	body.Pairs = pictures > 1
	body.Patches = w.patches(sheets)
	return body
}

// large is a sheet's large picture, "" where there is none.
func (w *site) large(s *record.Sheet) string {
	for _, x := range s.Scans {
		if v := w.views[x.Path]; v.Name != "" {
			return v.Name
		}
	}
	return ""
}

// facet is one thing in which two entries can differ.
type facet struct {
	name string
	of   func(*record.Sheet) string
	none string // what is said where the entry has nothing
}

var facets = []facet{
	{"film", func(s *record.Sheet) string { return s.Film }, "not known"},
	{"exposure index", func(s *record.Sheet) string { return figureWords(s.EI) }, "not known"},
	{"lens", func(s *record.Sheet) string { return s.Lens }, "not known"},
	{"filter", func(s *record.Sheet) string { return strings.Join(s.Filters, " + ") }, "none"},
	{"extension", func(s *record.Sheet) string { return s.Extension }, "not stated"},
	{"movements", func(s *record.Sheet) string { return strings.Join(s.Movements, ", ") }, "none"},
	{"reading", func(s *record.Sheet) string {
		if s.Reading == nil {
			return ""
		}
		return s.Reading.Text
	}, "none"},
	{"bracket", bracketWords, "none"},
	{"time", func(s *record.Sheet) string { return s.Given.Time }, "not known"},
	{"aperture", func(s *record.Sheet) string { return s.Given.Aperture }, "not known"},
	{"development asked", func(s *record.Sheet) string { return s.Development }, "not stated"},
	{"developed", func(s *record.Sheet) string {
		var all []string
		for _, d := range s.Developed {
			all = append(all, joined(", ", d.Date, d.Text))
		}
		return strings.Join(all, "; ")
	}, "not yet"},
	{"check", func(s *record.Sheet) string { return newVerdict(s).Words }, ""},
}

func figureWords(f record.Figure) string {
	if !f.Known {
		return ""
	}
	return number(f.Value)
}

func bracketWords(s *record.Sheet) string {
	for _, st := range s.Steps {
		if st.Kind == "bracket" {
			return exposure.FormatStops(st.Stops)
		}
	}
	return ""
}
