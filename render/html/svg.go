package html

import (
	"html/template"
	"strconv"

	"notchbook/render/draw"
)

// Drawings become SVG within the page. Inks are classes, so that the style sheet
// gives them the colours of the day, the night and the paper; no attribute but
// the description and no element holds text of the notes, and both are escaped.

var inkClass = [...]string{
	draw.Strong: "strong", draw.Quiet: "quiet", draw.Firm: "firm", draw.Hair: "hair", draw.Fill: "fill",
	draw.Paper: "paper", draw.Over: "over", draw.Under: "under",
}

// svg writes a drawing; nothing for none.
func svg(d *draw.Drawing, class string) template.HTML {
	if d == nil {
		return ""
	}
	w := svgWriter{make([]byte, 0, 256+96*len(d.Marks))}
	w.text(`<svg class="drawing `, class, `" viewBox="0 0 `).figure(d.Width).text(" ").figure(d.Height)
	w.text(`" role="img" aria-label="`, template.HTMLEscapeString(d.Title+": "+d.Text), `">`)
	for _, m := range d.Marks {
		switch m := m.(type) {
		case draw.Line:
			w.line(m)
		case draw.Area:
			w.area(m)
		case draw.Dot:
			w.dot(m)
		case draw.Words:
			w.words(m)
		}
	}
	w.text("</svg>")
	return template.HTML(w.out)
}

type svgWriter struct{ out []byte }

func (w *svgWriter) text(parts ...string) *svgWriter {
	for _, p := range parts {
		w.out = append(w.out, p...)
	}
	return w
}

// figure writes a distance to a tenth of a point.
func (w *svgWriter) figure(v float64) *svgWriter {
	w.out = strconv.AppendFloat(w.out, v, 'f', 1, 64)
	if n := len(w.out); string(w.out[n-2:]) == ".0" {
		w.out = w.out[:n-2]
	}
	if n := len(w.out); n > 1 && string(w.out[n-2:]) == "-0" {
		w.out = append(w.out[:n-2], '0')
	}
	return w
}

// path writes the points as the data of a path.
func (w *svgWriter) path(points []draw.Point) *svgWriter {
	for i, p := range points {
		switch i {
		case 0:
			w.text("M")
		case 1:
			w.text("L")
		default:
			w.text(" ")
		}
		w.figure(p.X).text(" ").figure(p.Y)
	}
	return w
}

func (w *svgWriter) line(l draw.Line) {
	w.text(`<path class="l `, inkClass[l.Ink], `" stroke-width="`).figure2(l.Width).text(`"`)
	if dash := l.Dash.Pattern(l.Width); dash != nil {
		w.text(` stroke-dasharray="`)
		for i, v := range dash {
			if i > 0 {
				w.text(" ")
			}
			w.figure(v)
		}
		w.text(`"`)
	}
	w.text(` d="`).path(l.Points).text(`"/>`)
}

// figure2 writes a width to a hundredth of a point.
func (w *svgWriter) figure2(v float64) *svgWriter {
	w.out = strconv.AppendFloat(w.out, float64(int(v*100+.5))/100, 'f', -1, 64)
	return w
}

func (w *svgWriter) area(a draw.Area) {
	w.text(`<path class="a`)
	if a.Edge != draw.None {
		w.text(" e-", inkClass[a.Edge])
	}
	level, toned := a.Fill.Grey()
	if !toned && a.Fill != draw.None {
		w.text(" f-", inkClass[a.Fill])
	}
	w.text(`"`)
	if a.Fill == draw.None {
		w.text(` fill="none"`)
	}
	if toned {
		g := int64(level*255 + .5)
		hex := strconv.FormatInt(0x100|g, 16)[1:]
		w.text(` fill="#`, hex, hex, hex, `"`)
	}
	if a.Edge != draw.None {
		w.text(` stroke-width="`).figure2(a.Width).text(`"`)
	}
	w.text(` d="`).path(a.Points).text(`z"/>`)
}

func (w *svgWriter) dot(d draw.Dot) {
	class := " f-" + inkClass[d.Ink]
	if d.Open {
		class = " f-paper e-" + inkClass[d.Ink]
	}
	if d.Form == draw.Cross {
		p := d.Outline()
		w.line(draw.Line{Points: p[:2], Ink: d.Ink, Width: 1.2})
		w.line(draw.Line{Points: p[2:], Ink: d.Ink, Width: 1.2})
		return
	}
	if outline := d.Outline(); outline != nil {
		w.text(`<path class="a`, class, `" d="`).path(outline).text(`z"/>`)
		return
	}
	w.text(`<circle class="a`, class, `" cx="`).figure(d.At.X).text(`" cy="`).figure(d.At.Y).text(`" r="`).figure(d.Size / 2).text(`"/>`)
}

func (w *svgWriter) words(t draw.Words) {
	w.text(`<text class="t f-`, inkClass[t.Ink])
	if t.Bold {
		w.text(" b")
	}
	switch t.Anchor {
	case draw.Middle:
		w.text(" mid")
	case draw.End:
		w.text(" end")
	}
	w.text(`" x="`).figure(t.At.X).text(`" y="`).figure(t.At.Y).text(`" font-size="`).figure(t.Size).text(`">`)
	w.text(template.HTMLEscapeString(t.Text), `</text>`)
}
