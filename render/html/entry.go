package html

import (
	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// The entry of a sheet: what it is on the left, what became of it on the right.

// write writes the whole entry.
func (s sheet) write(m *markup) {
	m.put("\n", `<article class="sheet s-`).text(string(s.State)).put(`" id="`).text(s.Slug).put(`" aria-label="Sheet `).text(s.ID).put(`">`)
	s.head(m)
	s.picture(m)
	s.facts(m)
	m.put("\n", `<div class="body">`)
	m.drawing(draw.Ladder(s.Sheet), "ladder")
	s.sum(m)
	s.areas(m)
	m.drawing(draw.Zones(s.Sheet), "zones")
	s.found(m)
	s.back(m)
	s.needs(m)
	s.twins(m)
	for _, l := range s.Results {
		typedLine(m, l)
	}
	for _, l := range s.Prints {
		typedLine(m, l)
	}
	each(m, "\n<ul class=\"remarks\">", s.Remarks, func(r string) { m.put("<li>").text(r).put("</li>") }, "</ul>")
	s.history(m)
	s.files(m)
	s.typed(m)
	m.put("\n</div>\n</article>")
}

// head is the label and the verdict.
func (s sheet) head(m *markup) {
	open, shut := constant("<h3>"), constant("</h3>")
	if s.Level == 2 {
		open, shut = "<h2>", "</h2>"
	}
	m.put("\n", open, `<span class="name">`).text(s.Label).put("</span>")
	if s.Title != "" {
		m.put(` <span class="title">`).text(s.Title).put("</span>")
	}
	m.put(shut, "\n", `<p class="hero">`)
	newVerdict(s.Sheet).write(m)
	m.put("</p>")
}

// picture is the thumbnail, leading to the large picture or the scan.
func (s sheet) picture(m *markup) {
	t := s.Thumb()
	if t == nil {
		return
	}
	m.put("\n", `<p class="picture">`)
	to := t.View
	if to == "" {
		to = t.URL
	}
	if to != "" {
		m.put("<a").link("href", to).put(">")
	}
	m.picture(t.Thumb, s.Alt(), false)
	if to != "" {
		m.put("</a>")
	}
	m.put("</p>")
}

// picture sets a picture of the record's folder, to be fetched when it is come
// near to, where there are many.
func (m *markup) picture(t thumb, alt string, lazy bool) {
	m.put("<img").link("src", t.Name).put(` width="`).number(t.Width).put(`" height="`).number(t.Height)
	if lazy {
		m.put(`" loading="lazy`)
	}
	m.put(`" alt="`).text(alt).put(`">`)
}

func (s sheet) facts(m *markup) {
	each(m, "\n<dl class=\"facts\">", s.Facts(), func(f record.Fact) {
		m.put("\n<div><dt>").text(f.Name).put("</dt><dd>").text(f.Value).put("</dd></div>")
	}, "\n</dl>")
}

func (s sheet) sum(m *markup) {
	each(m, sumHead, s.Sum(), func(r sumRow) {
		m.put("\n<tr")
		if r.Total {
			m.put(` class="total"`)
		}
		m.put(`><th scope="row">`).text(r.Name).put("</th><td>").text(r.Text)
		if r.Small != "" {
			m.put(` <span class="quiet">`).text(r.Small).put("</span>")
		}
		m.put(`</td><td class="fig">`).text(r.Figure).put("</td></tr>")
	}, "\n</tbody>\n</table>")
}

const (
	sumHead = `
<table class="sum">
<thead class="heard"><tr><th scope="col">Step</th><th scope="col">Setting</th><th scope="col">Figure</th></tr></thead>
<tbody>`
	areasHead = `
<table class="sum areas">
<thead><tr><th scope="col">Area</th><th scope="col">Read</th><th scope="col">Placed</th><th scope="col">Fell</th></tr></thead>
<tbody>`
)

func (s sheet) areas(m *markup) {
	each(m, areasHead, s.Areas(), func(a areaRow) {
		m.put("\n", `<tr><th scope="row">`).text(a.Name).put("</th><td>").text(a.Read)
		if a.Brought != "" {
			m.put(` <span class="quiet">`).text(a.Brought).put("</span>")
		}
		m.put("</td><td>").text(a.Meant).put("</td><td>").text(a.Fell).put("</td></tr>")
	}, "\n</tbody>\n</table>")
}

func (s sheet) found(m *markup) {
	each(m, "\n<ul class=\"found\">", s.Found(), func(f finding) { f.item(m) }, "\n</ul>")
}

// item is a finding where it is about what stands there.
func (f finding) item(m *markup) {
	m.put("\n<li>").severity(f.Severity).put(" ").text(f.Message)
	for _, n := range f.Notes {
		m.put(`<br><span class="quiet">`).text(n).put("</span>")
	}
	if f.URL != "" {
		m.put(` <a class="more"`).link("href", f.URL).put(">see the line</a>")
	}
	m.put("</li>")
}

// severity sets a severity in the margin of a sentence.
func (m *markup) severity(s record.Severity) *markup {
	return m.put(`<span class="sev sev-`).text(string(s)).put(`">`).text(string(s)).put("</span>")
}

func (s sheet) back(m *markup) {
	each(m, "\n<div class=\"back\"><p class=\"label\">Right, for going back</p><ul>", s.Right(), func(c choiceRow) {
		m.put("\n<li><strong>").text(c.Settings).put(`</strong> <span class="quiet">`).text(c.Kind).put(", ").text(c.Left).put("</span></li>")
	}, "\n</ul></div>")
}

func (s sheet) needs(m *markup) {
	each(m, "\n<div class=\"needs\"><p class=\"label\">Would settle it</p><ul>", s.Needs, func(n string) {
		m.put("<li>").text(n).put("</li>")
	}, "</ul></div>")
}

func (s sheet) twins(m *markup) {
	sep := constant(" ")
	each(m, "\n<p>Duplicate of", s.Twins(), func(r sheetRow) {
		m.put(sep)
		r.linkAs(m, r.Label)
		m.put(" ")
		r.Verdict.write(m)
		sep = ", "
	}, "</p>")
}

// typedLine is a line as typed, where it is all that is to be said.
func typedLine(m *markup, l record.Line) {
	m.put("\n", `<p class="line"><code>`).typed(l.Text).put("</code></p>")
}

func (s sheet) history(m *markup) {
	each(m, "\n<div class=\"history\"><p class=\"label\">Written first</p><ul>", s.History, func(c record.Change) {
		m.put("\n<li><s>").text(c.Was).put("</s>")
		if c.Now != "" {
			m.put(` <span aria-hidden="true">→</span><span class="heard"> then </span> `).text(c.Now)
		}
		m.put(` <span class="quiet">`).text(saying.Join(", ", c.How, placeWords(c.Place))).put("</span></li>")
	}, "\n</ul></div>")
}

func (s sheet) files(m *markup) {
	each(m, "\n<ul class=\"files\">", s.Pictures(), func(x scan) {
		m.put("\n<li>")
		x.link(m)
		m.put(` <span class="quiet">`).text(x.Words()).put("</span></li>")
	}, "\n</ul>")
}

func (s sheet) typed(m *markup) {
	if len(s.Lines) == 0 {
		return
	}
	m.put("\n<details><summary>As typed, ").text(saying.Count(len(s.Lines), "line")).put("</summary>\n<ul class=\"typed\">")
	for _, l := range s.Lines {
		m.put("\n<li><code>").typed(saying.Typed(&l, s.Sheet)).put(`</code> <span class="quiet">`).text(placeWords(l.Place)).put("</span></li>")
	}
	m.put("\n</ul></details>")
}
