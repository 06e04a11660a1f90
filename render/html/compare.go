package html

import (
	"cmp"
	"html/template"
	"strings"
	"unicode/utf8"

	"notchbook/compile/record"
	"notchbook/render/saying"
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
	Rows    []saying.Difference
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

// Table is what differs, PatchTable what was measured.
func (b sceneBody) Table() template.HTML {
	return piece(func(m *markup) { b.table(m, "Fact", b.Rows) })
}

func (b sceneBody) PatchTable() template.HTML {
	rows := b.Patches.Rows
	if b.Patches.Settings != nil {
		rows = append(rows[:len(rows):len(rows)], saying.Difference{Name: "its scan", Values: b.Patches.Settings})
	}
	return piece(func(m *markup) { b.table(m, "Patch", rows) })
}

// table sets facts against sheets; where there are more sheets than facts, a row is
// a sheet, so that a phone shows them all.
func (b sceneBody) table(m *markup, what string, facts []saying.Difference) {
	var names []string
	var values [][]string
	for _, f := range facts {
		names, values = append(names, f.Name), append(values, f.Values)
	}
	if len(b.Heading) <= len(facts) {
		m.grid(append([]string{what}, b.Heading...), names, func(row, column int) string { return values[row][column] })
		return
	}
	m.grid(append([]string{"Sheet"}, names...), b.Heading, func(row, column int) string { return values[column][row] })
}

// grid is a table with a head over each column and before each row.
func (m *markup) grid(heads, rows []string, cell func(row, column int) string) {
	stacked := chars(heads, rows, cell) > onPhone
	if m.put("<table"); stacked {
		m.put(` class="stacked"`)
	}
	m.put(">\n<thead><tr>")
	for _, head := range heads {
		m.put(`<th scope="col">`).text(head).put("</th>")
	}
	m.put("</tr></thead>\n<tbody>")
	for i, head := range rows {
		m.put("\n", `<tr><th scope="row">`).text(head).put("</th>")
		for j := range len(heads) - 1 {
			if m.put("<td"); stacked {
				m.put(` data-head="`).text(heads[j+1]).put(`"`)
			}
			m.put(">").text(cell(i, j)).put("</td>")
		}
		m.put("</tr>")
	}
	m.put("\n</tbody>\n</table>")
}

// onPhone is how many characters of a table's columns, with the gaps between them, a phone
// shows beside one another: where there are more, each cell says its head there.
const onPhone = 46

// chars is how many characters a table is wide at least: heads stand on one line, cells may be
// broken between words.
func chars(heads, rows []string, cell func(row, column int) string) (all int) {
	for j, head := range heads {
		width := utf8.RuneCountInString(head)
		for i, text := range rows {
			if j > 0 {
				text = cell(i, j-1)
			}
			for word := range strings.FieldsSeq(text) {
				width = max(width, utf8.RuneCountInString(word))
			}
		}
		all += width + 2
	}
	return all
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
	rows, apart := saying.Compare(sc.Sheets[0], sheets)
	body := sceneBody{Scene: sc, Back: w.outingAt[sc.Outing], Rows: rows}
	pictures := 0
	for i, s := range sheets {
		c := compared{frame: w.frame(s), Words: apart[i]}
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
