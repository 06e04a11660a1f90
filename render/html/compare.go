package html

import (
	"cmp"
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
}

// compared is a sheet on the page.
type compared struct {
	frame
	Large string // the picture for the wipe
	Words string // what it has different from the first
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
	body := sceneBody{Scene: sc, Rows: differences(sheets)}
	if at := w.outingAt[sc.Outing]; at != "" {
		body.Back = at
	}
	pictures := 0
	for _, s := range sheets {
		c := compared{frame: w.frame(s), Words: apartWords(sc.Sheets[0], s)}
		c.Large = c.Thumb.Name
		for _, x := range s.Scans {
			if v := w.views[x.Path]; v.Name != "" {
				c.Large = v.Name
				break
			}
		}
		if c.Large != "" {
			pictures++
		}
		body.Frames = append(body.Frames, c)
		body.Heading = append(body.Heading, s.Label)
	}
	body.Pairs = pictures > 1
	return body
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

// differences are the facts in which the sheets are not all alike.
func differences(sheets []*record.Sheet) []differing {
	var rows []differing
	for _, f := range facets {
		row, alike := differing{Name: f.name}, true
		for _, s := range sheets {
			row.Values = append(row.Values, cmp.Or(f.of(s), f.none))
			alike = alike && f.of(s) == f.of(sheets[0])
		}
		if !alike {
			rows = append(rows, row)
		}
	}
	return rows
}

// apartWords name what a sheet has different from the first of its scene.
func apartWords(first, s *record.Sheet) string {
	if s == first {
		return "the first of the scene"
	}
	var words []string
	for _, f := range facets {
		if a, b := f.of(first), f.of(s); a != b {
			words = append(words, f.name+" "+cmp.Or(b, f.none)+", not "+cmp.Or(a, f.none))
		}
	}
	if len(words) == 0 {
		return "entered like " + first.Label
	}
	return strings.Join(words, "; ")
}
