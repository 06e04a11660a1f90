package html

import (
	"html/template"

	"notchbook/compile/record"
	"notchbook/render/draw"
)

// Did is what a scene's filters did beside its control, and what was forecast; nothing
// where it has not both.
func (b sceneBody) Did() template.HTML {
	c := b.Scene.Compared
	if c == nil {
		return ""
	}
	return piece(func(m *markup) {
		m.put("<section>\n<h2>").text(c.Title()).put("</h2>\n")
		m.drawing(draw.Compared(c), "did")
		m.put(`<dl class="did">`)
		for _, f := range c.ByWhatIsSaid() {
			m.put("\n<dt>").text(f.Name).put(", on ").text(f.Labels()).put("</dt>")
			for _, said := range f.Says {
				m.put("<dd>").text(said).put("</dd>")
			}
		}
		m.put("\n</dl>")
		for _, said := range []string{c.Drift, c.How} {
			if said != "" {
				m.put("\n", `<p class="quiet">`).text(said).put("</p>")
			}
		}
		m.forecast(c.Forecast)
		m.put("\n</section>")
	})
}

// forecast is folded away: what filters do to all the subjects that have a curve.
func (m *markup) forecast(f *record.Forecast) {
	if f == nil {
		return
	}
	if d := draw.Forecast(f); d != nil {
		m.put("\n<details><summary>The forecast for sky, leaves, brick and the rest</summary>\n")
		m.drawing(d, "forecast")
		m.put("<ul class=\"quiet\">")
		for _, from := range f.From {
			m.put("<li>").text(from.Name).put(": ").text(from.Value).put("</li>")
		}
		for _, s := range f.Subjects {
			m.put("<li>").text(s.Name).put(": ").text(s.From).put("</li>")
		}
		m.put("</ul>\n</details>")
	}
	m.put("\n", `<p class="quiet">forecast: `).text(f.Said()).put("</p>")
}
