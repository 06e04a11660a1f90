package pdf

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// did sets what a scene's filters did beside its control, below the scene's heading.
// How well the forecast does is said where it is first met.
func (b *book) did(scene *record.Scene) {
	c := scene.Compared
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
	asides := len(b.lines)
	for _, text := range saying.Given(c.Drift, c.How) {
		b.set(measure{right: b.width()}, span{text: text, style: aside})
	}
	if f := c.Forecast; f != nil {
		spans := []span{{text: "forecast: " + f.Said(), style: aside}}
		if first, said := b.forecasts[f.Held]; said {
			to := b.markOf(first)
			spans = []span{{text: "forecast: " + f.Of() + "; how well it does is said on ", style: aside},
				{text: "p.\u00a0", style: aside}, {page: to, style: aside}}
		} else {
			b.forecasts[f.Held] = scene
		}
		b.set(measure{right: b.width()}, spans...)
	}
	b.lines[first].keep = true
	for i := asides; i < len(b.lines)-1; i++ {
		b.lines[i].keep = true // none of them stands alone over a page
	}
	b.space(grid)
}
