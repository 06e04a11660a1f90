package pdf

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/render/draw"
)

// did sets what a scene's filters did beside its control, below the scene's heading.
func (b *book) did(c *record.Compared) {
	if c == nil {
		return
	}
	b.space(grid)
	first := len(b.lines)
	b.set(measure{right: b.width()}, span{text: strings.ToLower(c.Title()), style: label})
	b.setFigure(draw.Compared(c), figureScale, 0, b.width(), nil)
	for _, f := range c.ByWhatIsSaid() {
		b.set(measure{right: b.width()}, span{text: f.Name + ", on " + f.Labels(), style: plain})
		b.lines[len(b.lines)-1].keep = true
		for _, said := range f.Says {
			b.set(measure{left: quoteIndent, right: b.width()}, span{text: said, style: plain})
		}
	}
	said := []string{c.Drift, c.How}
	if c.Forecast != nil {
		said = append(said, "forecast: "+c.Forecast.Said())
	}
	for _, text := range said {
		if text != "" {
			b.set(measure{right: b.width()}, span{text: text, style: aside})
		}
	}
	b.lines[first].keep = true
	b.space(grid)
}
