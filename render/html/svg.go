package html

import (
	"math"
	"strconv"

	"notchbook/render/draw"
)

// Drawings become SVG within the page. Inks are classes, so that the style sheet
// gives them the colours of the day, the night and the paper; no attribute but
// the description and no element holds text of the notes, and both are escaped.

var inkClass = [...]constant{
	draw.Strong: "strong", draw.Quiet: "quiet", draw.Firm: "firm", draw.Hair: "hair", draw.Fill: "fill",
	draw.Paper: "paper", draw.Over: "over", draw.Under: "under",
}

// drawing writes a drawing; nothing for none.
func (m *markup) drawing(d *draw.Drawing, class constant) {
	if d == nil {
		return
	}
	m.put(`<svg class="drawing `, class, `" viewBox="0 0 `).figure(d.Width).put(" ").figure(d.Height)
	m.put(`" role="img" aria-label="`).text(d.Title).put(": ").text(d.Text).put(`">`)
	for i, mark := range d.Marks {
		switch mark := mark.(type) {
		case draw.Line:
			if i == 0 || !alike(d.Marks[i-1], mark) {
				m.stroke(mark)
			}
			m.path(mark.Points)
			if i+1 == len(d.Marks) || !alike(d.Marks[i+1], mark) {
				m.put(`"/>`)
			}
		case draw.Area:
			m.area(mark)
		case draw.Dot:
			m.dot(mark)
		case draw.Words:
			m.words(mark)
		}
	}
	m.put("</svg>")
}

// alike reports whether a mark is a line that looks like another: the two share
// a path.
func alike(m draw.Mark, l draw.Line) bool {
	o, ok := m.(draw.Line)
	return ok && o.Ink == l.Ink && o.Width == l.Width && o.Dash == l.Dash
}

// figure writes a distance to a tenth of a point.
func (m *markup) figure(v float64) *markup {
	n := int64(math.Round(draw.Snap(v) * 10))
	if n < 0 {
		m.out = append(m.out, '-')
		n = -n
	}
	m.out = strconv.AppendInt(m.out, n/10, 10)
	if n%10 != 0 {
		m.out = append(m.out, '.', byte('0'+n%10))
	}
	return m
}

// width writes a line's width to a hundredth of a point.
func (m *markup) width(v float64) *markup {
	m.put(` stroke-width="`)
	m.out = strconv.AppendFloat(m.out, math.Round(draw.Snap(v)*100)/100, 'f', -1, 64)
	return m.put(`"`)
}

// path writes the points as the data of a path.
func (m *markup) path(points []draw.Point) *markup {
	for i, p := range points {
		switch i {
		case 0:
			m.put("M")
		case 1:
			m.put("L")
		default:
			m.put(" ")
		}
		m.figure(p.X).put(" ").figure(p.Y)
	}
	return m
}

// stroke begins the path of a line.
func (m *markup) stroke(l draw.Line) {
	m.put(`<path class="l `, inkClass[l.Ink], `"`).width(l.Width)
	if dash := l.Dash.Pattern(l.Width); dash != nil {
		m.put(` stroke-dasharray="`)
		for i, v := range dash {
			if i > 0 {
				m.put(" ")
			}
			m.figure(v)
		}
		m.put(`"`)
	}
	m.put(` d="`)
}

func (m *markup) area(a draw.Area) {
	m.put(`<path class="a`)
	if a.Edge != draw.None {
		m.put(" e-", inkClass[a.Edge])
	}
	level, toned := a.Fill.Grey()
	if !toned && a.Fill != draw.None {
		m.put(" f-", inkClass[a.Fill])
	}
	m.put(`"`)
	if a.Fill == draw.None {
		m.put(` fill="none"`)
	}
	if toned {
		m.put(` fill="#`).grey(level).put(`"`)
	}
	if a.Edge != draw.None {
		m.width(a.Width)
	}
	m.put(` d="`).path(a.Points).put(`z"/>`)
}

// grey writes a tone from 0, black, to 1, white, as six digits.
func (m *markup) grey(level float64) *markup {
	const digits = "0123456789abcdef"
	g := int(level*255 + .5)
	for range 3 {
		m.out = append(m.out, digits[g>>4&15], digits[g&15])
	}
	return m
}

func (m *markup) dot(d draw.Dot) {
	outline := d.Outline()
	switch {
	case d.Form == draw.Cross:
		m.stroke(draw.Line{Points: outline[:2], Ink: d.Ink, Width: 1.2})
		m.path(outline[:2]).path(outline[2:]).put(`"/>`)
	case outline != nil:
		m.put(`<path`).dotClass(d).put(` d="`).path(outline).put(`z"/>`)
	default:
		m.put(`<circle`).dotClass(d).put(` cx="`).figure(d.At.X).put(`" cy="`).figure(d.At.Y).put(`" r="`).figure(d.Size / 2).put(`"/>`)
	}
}

func (m *markup) dotClass(d draw.Dot) *markup {
	if d.Open {
		return m.put(` class="a f-paper e-`, inkClass[d.Ink], `"`)
	}
	return m.put(` class="a f-`, inkClass[d.Ink], `"`)
}

func (m *markup) words(t draw.Words) {
	m.put(`<text class="t f-`, inkClass[t.Ink])
	if t.Bold {
		m.put(" b")
	}
	switch t.Anchor {
	case draw.Middle:
		m.put(" mid")
	case draw.End:
		m.put(" end")
	}
	m.put(`" x="`).figure(t.At.X).put(`" y="`).figure(t.At.Y).put(`" font-size="`).figure(t.Size).put(`">`)
	m.text(t.Text).put(`</text>`)
}
