package html

import (
	"fmt"
	"html/template"
	"strings"

	"notchbook/compile/record"
)

// The pictures, large: one page an outing, on which they hang one below the
// other with their captions. A script turns the page into a wall of one picture
// and its keys; without it the page is a strip to be scrolled.

// viewBase names the page on which a scan hangs: that of its first sheet's
// outing, or the orphans'.
func viewBase(s *record.Scan) string {
	for _, sh := range s.Sheets {
		if sh.Outing != nil {
			return "pictures-" + escapePath(sh.Outing.Slug)
		}
	}
	return "pictures"
}

// viewID is a picture's anchor, and viewName its file.
func viewID(path string) string { return "view." + pathHash(path) }

func viewName(path string) string { return "pictures/" + pathHash(path) + ".jpg" }

// writeViews writes every scan's large picture, and keeps in the site which
// there are.
func (w *site) writeViews(dst Folder) error {
	if w.opt.View == nil {
		return nil
	}
	var scans []*record.Scan
	for _, sc := range w.season.Scans {
		if reachable(sc) && sc.Shown() && w.thumbs[sc.Path].Name != "" && w.views[sc.Path].Name == "" {
			w.views[sc.Path] = thumb{Name: viewName(sc.Path)}
			scans = append(scans, sc)
		}
	}
	wanted := spots(w.season)
	made := func(i int) ([]byte, error) { return w.opt.View(scans[i].Path) }
	return inOrder(len(scans), w.opt.Parallel, made, func(i int, b []byte) error {
		path := scans[i].Path
		delete(w.views, path)
		if len(b) == 0 {
			return nil
		}
		t, err := sized(path, viewName(path), b)
		if err != nil {
			return err
		}
		w.views[path] = t
		if at := wanted[path]; at != nil && !w.turned(path) {
			if w.levels[path], err = measureSpots(b, at); err != nil {
				return fmt.Errorf("picture of %s: %w", path, err)
			}
		}
		return writeFile(dst, t.Name, b)
	})
}

// turned reports whether a scan's picture is no likeness of its levels, because a
// negative was made a positive.
func (w *site) turned(path string) bool { return w.opt.Turned != nil && w.opt.Turned(path) }

// planViews decides on which page each large picture hangs.
func (w *site) planViews() {
	at := map[string]int{}
	for _, sc := range w.season.Scans {
		if w.views[sc.Path].Name == "" || w.viewAt[sc.Path] != "" {
			continue
		}
		base := viewBase(sc)
		i, ok := at[base]
		if !ok {
			i = len(w.walls)
			at[base] = i
			w.walls = append(w.walls, &wall{base: base, title: wallTitle(sc)})
		}
		w.walls[i].scans = append(w.walls[i].scans, sc)
		w.viewAt[sc.Path] = base + ".html"
	}
	for _, x := range w.walls {
		x.parts = cut(x.scans, func(s *record.Scan) int { return 700 + 3*len(s.Path) + 200*len(s.Sheets) })
		for i, part := range x.parts {
			for _, sc := range part {
				w.viewAt[sc.Path] = partName(x.base, i) + "#" + viewID(sc.Path)
			}
		}
	}
}

// wall is the large pictures of an outing.
type wall struct {
	base, title string
	scans       []*record.Scan
	parts       [][]*record.Scan
}

func wallTitle(s *record.Scan) string {
	for _, sh := range s.Sheets {
		if sh.Outing != nil {
			return sh.Outing.Title + ", pictures"
		}
	}
	return "Pictures that no sheet claims"
}

// view is a large picture on its page.
type view struct {
	ID   string
	File thumb
	Scan scan
	Rows ledger
	Alt  string
}

// HTML is the picture with its caption.
func (v view) HTML() template.HTML {
	return piece(func(m *markup) {
		m.put("\n", `<figure class="view" id="`).text(v.ID).put(`">`, "\n")
		m.picture(v.File, v.Alt, true)
		m.put("\n<figcaption>")
		for _, r := range v.Rows {
			m.put("<strong>")
			r.link(m)
			m.put("</strong> ")
			if what := r.What(); what != "" {
				m.text(what).put(" ")
			}
			r.Verdict.write(m)
			m.put(" ")
		}
		if v.Scan.URL != "" {
			m.put("<a").link("href", v.Scan.URL).put(">original scan</a>")
		}
		m.put(` <span class="quiet">`).text(v.Scan.Words()).put("</span></figcaption>\n</figure>")
	})
}

func (w *site) wallPages() []*page {
	var all []*page
	for _, x := range w.walls {
		all = append(all, list(x.base, x.title, "pictures", x.parts, func(_ int, scans []*record.Scan) any {
			views := make([]view, 0, len(scans))
			for _, sc := range scans {
				views = append(views, w.view(sc))
			}
			return views
		})...)
	}
	return all
}

func (w *site) view(sc *record.Scan) view {
	v := view{ID: viewID(sc.Path), File: w.views[sc.Path], Scan: w.scan(sc), Rows: w.rows(sc.Sheets), Alt: "Scan " + sc.Path}
	var names []string
	for _, s := range sc.Sheets {
		names = append(names, sheet{Sheet: s, site: w}.Alt())
	}
	if len(names) > 0 {
		v.Alt = strings.Join(names, "; ")
	}
	return v
}
