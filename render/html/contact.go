package html

import (
	"html/template"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// frame is a sheet on the contact sheet.
type frame struct {
	Row   sheetRow
	Thumb thumb
	Alt   string
}

// contactPages show every sheet as it would lie on a contact print, also those
// that have no scan: a gap on the page is a gap in the scanning.
func (w *site) contactPages() []*page {
	weight := func(*record.Sheet) int { return 480 }
	return list("contact", "Contact sheet", "contact", cut(w.season.Sheets, weight), func(_ int, sheets []*record.Sheet) any {
		var groups []contactGroup
		for _, s := range sheets {
			if k := len(groups); k == 0 || groups[k-1].outing != s.Outing {
				groups = append(groups, w.contactGroup(s.Outing))
			}
			g := &groups[len(groups)-1]
			g.Frames = append(g.Frames, w.frame(s))
		}
		return groups
	})
}

// contactGroup is an outing's frames.
type contactGroup struct {
	URL, Title string
	Frames     []frame
	outing     *record.Outing
}

func (w *site) contactGroup(o *record.Outing) contactGroup {
	if o == nil {
		return contactGroup{Title: "Without an outing"}
	}
	return contactGroup{URL: w.outingAt[o], Title: o.Title, outing: o}
}

func (w *site) frame(s *record.Sheet) frame {
	f := frame{Row: w.row(s), Alt: sheet{Sheet: s, site: w}.Alt()}
	for _, sc := range s.Scans {
		if t := w.thumbs[sc.Path]; t.Name != "" {
			f.Thumb = t
			break
		}
	}
	return f
}

// HTML is the frame with its verdict.
func (f frame) HTML() template.HTML { return piece(f.write) }

func (f frame) write(m *markup) {
	if f.Row.URL != "" {
		m.put("<a").link("href", f.Row.URL).put(">")
	}
	if f.Thumb.Name != "" {
		m.picture(f.Thumb, f.Alt, true)
	} else {
		m.put(`<span class="blank">no scan</span>`)
	}
	m.put(`<span class="no">`).text(saying.Name(f.Row.Sheet)).put("</span>")
	if f.Row.URL != "" {
		m.put("</a>")
	}
	m.put(" ")
	f.Row.Verdict.write(m)
}
