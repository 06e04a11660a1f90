package pdf

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/render/draw"
	"notchbook/render/saying"
)

// tests sets the photographer's own tests, each with its curves and figures.
func (b *book) tests() {
	b.beginBelow(testsTitle, "what they give, each figure with its error and the sheets it is from")
	for _, t := range b.season.Tests {
		b.test(t)
		b.place()
	}
	b.place()
}

func (b *book) test(t *record.Test) {
	first := b.subtitle(t.Title)
	b.lines[first].mark = b.markOf(t)
	b.set(measure{right: b.width()}, span{text: saying.Join(", ", t.Name, t.Light, t.Place.String()), style: label})
	b.keepFrom(first)
	for i := range t.Plots {
		b.plot(&t.Plots[i])
	}
	for i := range t.Results {
		b.testResult(t, &t.Results[i])
	}
	for _, o := range t.Odd {
		first := len(b.lines)
		b.sheetRow("", o.Sheet, "does not belong: "+o.Off, strings.Join(o.Known, "; "))
		b.keepFrom(first)
	}
	for _, n := range t.Needs {
		b.pair("it would take", n, testLeft)
	}
	b.testHow(t)
}

// testLeft is where the figures of a test begin.
const testLeft = 132.0

// plot sets a drawing and its title together.
func (b *book) plot(p *record.TestPlot) {
	d := draw.Plot(p, draw.PlotWidth)
	if d == nil {
		return
	}
	first := len(b.lines)
	b.space(grid)
	b.setFigure(d, figureScale, 0, b.width(), make([]string, len(d.Rows)))
	b.set(measure{right: b.width()}, span{text: p.Title, style: label})
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
	b.space(grid)
}

// testResult sets one figure, what the kit says, and the line for it.
func (b *book) testResult(t *record.Test, r *record.TestResult) {
	first := len(b.lines)
	text := r.Text
	switch {
	case text == "":
		text = "not known: " + r.Why
	case r.Why != "":
		text += "; but " + r.Why
	}
	b.pair(r.Of, text, testLeft)
	if r.WithOdd != "" {
		b.pair("", "with the sheets that do not belong: "+r.WithOdd, testLeft)
	}
	if r.Declared != "" {
		b.pair("", "in the kit: "+r.Declared, testLeft)
	}
	for i, effect := range r.Effects {
		if i == 0 {
			b.pair("", "for the sheets already logged:", testLeft)
		}
		b.pair("", effect, testLeft)
	}
	if r.Offer != "" {
		b.set(measure{left: testLeft, right: b.width()}, span{text: r.Offer, style: style{face: mono, size: smallSize}})
		if names := t.Labels(r.From); names != "" {
			b.set(measure{left: testLeft, right: b.width()}, span{text: "from " + names, style: aside})
		}
	}
	b.keepFrom(first)
	b.lines[len(b.lines)-1].keep = false
}

// testHow says each method once.
func (b *book) testHow(t *record.Test) {
	seen := map[string]bool{}
	var all []string
	for _, r := range t.Results {
		if !seen[r.How] {
			seen[r.How] = true
			all = append(all, r.How)
		}
	}
	b.space(grid)
	for _, how := range append(all, t.Notes...) {
		b.set(measure{left: listIndent, right: b.width()}, span{text: how, style: aside})
	}
	b.space(grid)
}
