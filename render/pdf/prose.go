package pdf

import (
	"math"
	"net/url"
	"strconv"
	"strings"

	"notchbook/compile/record"
)

const (
	quoteIndent = 14.0
	listIndent  = 16.0
	// Prose nested deeper than this moves no further right: the measure must
	// stay wide enough to read.
	deepest = 8
	// A table with more columns than this is set as lines of text.
	widestTable = 10
)

// prose sets blocks of the writer's own text in a galley. left is the indent
// of the block, bars the number of upright lines of the quotes it is in.
type prose struct {
	*galley
	uri   func(path string) string // of a file of the season
	right float64
	depth int
	// caption says that the text stands below its pictures.
	caption bool
	// picture gives the picture of a file of the season, nil where there is none.
	picture func(path string) *picture
}

// block sets one block at an indent.
func (p prose) block(k *record.Block, left float64) {
	switch k.Kind {
	case record.Heading:
		p.heading(k)
	case record.List:
		p.list(k, left)
	case record.Quote:
		p.quote(k, left)
	case record.Code:
		p.code(k, left)
	case record.Rule:
		p.space(grid)
		n := len(p.pieces)
		p.lines = append(p.lines, line{from: n, to: n, h: grid, rule: true, ink: faint})
	case record.Table:
		p.table(k, left)
	default:
		p.paragraph(k, left)
	}
}

// paragraph also takes blocks of kinds not known here, so that none is lost.
func (p prose) paragraph(k *record.Block, left float64) {
	p.text(measure{left: left, right: p.right}, k.Text, p.inlines(k.Text, style{size: bodySize}))
	for i := range k.Blocks {
		p.block(&k.Blocks[i], left)
	}
	p.space(grid)
}

// text sets a paragraph and below it its pictures; where there is nothing else in
// it, it is their caption and stands below them.
func (p prose) text(m measure, source []record.Inline, spans []span) {
	var shown []picture
	alone := p.pictures(source, &shown)
	first := len(p.lines)
	if !alone || len(shown) == 0 {
		p.set(m, spans...)
	}
	for _, q := range shown {
		n := len(p.pieces)
		q.shiftX = m.left
		p.lines = append(p.lines, line{from: n, to: n, h: math.Ceil((q.h+2*descent)/grid) * grid, row: []picture{q}})
	}
	if len(shown) == 0 {
		return
	}
	if alone && m.first < 0 { // the mark of a list stands before it
		p.set(m, spans...)
	} else if alone {
		p.caption = true
		p.set(m, p.inlines(source, style{face: italic, size: smallSize})...)
	}
	p.keepFrom(first)
	p.lines[len(p.lines)-1].keep = false
}

// pictures gathers the pictures of a text that can be shown, and reports whether
// there is nothing else in it.
func (p prose) pictures(source []record.Inline, shown *[]picture) (alone bool) {
	if p.picture == nil {
		return false
	}
	alone = true
	for i := range source {
		k := &source[i]
		switch k.Kind {
		case record.Picture:
			if k.Target.Path != "" {
				if q := p.picture(k.Target.Path); q != nil {
					*shown = append(*shown, *q)
				}
			}
		case record.SoftBreak, record.HardBreak:
		case record.Link, record.Emphasis, record.Strong, record.Struck:
			alone = p.pictures(k.Inlines, shown) && alone
		default:
			alone = false
		}
	}
	return alone
}

// headingSizes steps down from the chapter's own title, which is larger.
var headingSizes = [...]float64{13, 11.5, 10, 9, 9, 9}

// heading is bound to what follows. It is never indented: a heading within a
// list is a heading all the same.
func (p prose) heading(k *record.Block) {
	size := headingSizes[min(max(k.Level, 1), len(headingSizes))-1]
	p.space(grid)
	first := len(p.lines)
	h := grid
	if size > 10 {
		h = 2 * grid
	}
	p.set(measure{right: p.right, h: h}, p.faces.spare(p.inlines(k.Text, style{face: bold, size: size})...)...)
	p.keepFrom(first)
}

// list indents its items, as far as the measure allows.
func (p prose) list(k *record.Block, left float64) {
	if p.depth < deepest {
		p.depth++
	} else {
		left -= listIndent
	}
	for i := range k.Blocks {
		first := len(p.lines)
		p.item(&k.Blocks[i], left, bullet(k, i))
		if k.Tight {
			p.trimGap(first)
		}
	}
	p.space(grid)
}

// trimGap takes off the white that the last paragraph of an item left.
func (p prose) trimGap(first int) {
	if n := len(p.lines); n > first && p.lines[n-1].gap {
		p.lines = p.lines[:n-1]
	}
}

// bullet is a number, a check box or a dash; dots are easily lost in figures.
func bullet(k *record.Block, i int) string {
	switch k.Blocks[i].Task {
	case "x":
		return "☑"
	case " ":
		return "☐"
	}
	if k.Ordered {
		return strconv.Itoa(k.Start+i) + "."
	}
	return "–"
}

// item sets the bullet on the first line of the item's first paragraph.
func (p prose) item(k *record.Block, left float64, mark string) {
	inner := left + listIndent
	look := style{size: bodySize}
	spans := append([]span{{text: mark, style: look}, {tab: inner, style: look}}, p.inlines(k.Text, look)...)
	source, blocks := k.Text, k.Blocks
	if len(k.Text) == 0 && len(blocks) > 0 && blocks[0].Kind == record.Paragraph {
		spans = append(spans, p.inlines(blocks[0].Text, look)...)
		source, blocks = blocks[0].Text, blocks[1:]
	}
	p.text(measure{left: inner, first: left - inner, right: p.right}, source, spans)
	p.space(grid)
	if len(blocks) > 0 && blocks[0].Kind == record.List {
		p.trimGap(0)
	}
	for i := range blocks {
		p.block(&blocks[i], inner)
	}
}

// quote indents and sets a bar beside its lines.
func (p prose) quote(k *record.Block, left float64) {
	first := len(p.lines)
	inner := left
	if p.depth < deepest {
		p.depth++
		inner += quoteIndent
	}
	for i := range k.Blocks {
		p.block(&k.Blocks[i], inner)
	}
	p.trimGap(first)
	// Where the indent is at its end there is no room for another bar.
	for i := first; i < len(p.lines) && inner > left; i++ {
		p.lines[i].bars, p.lines[i].ink = append(p.lines[i].bars, inner-8), faint
	}
	p.space(grid)
}

// code keeps spaces and line ends; long lines wrap, since nothing may be cut off.
func (p prose) code(k *record.Block, left float64) {
	look := style{face: mono, size: smallSize}
	inner := left + listIndent
	p.set(measure{left: inner, right: p.right}, span{text: strings.TrimRight(k.Code, "\r\n"), style: look})
	p.space(grid)
}

// inlines turns inline text into spans.
func (p prose) inlines(list []record.Inline, look style) []span {
	return p.appendInlines(nil, list, look, target{})
}

// appendInlines carries style and link down to the words.
func (p prose) appendInlines(out []span, list []record.Inline, look style, to target) []span {
	for i := range list {
		k, inner := &list[i], look
		switch k.Kind {
		case record.Emphasis:
			if look.face == regular {
				inner.face = italic
			}
			out = p.appendInlines(out, k.Inlines, inner, to)
		case record.Strong:
			inner.face = bold
			out = p.appendInlines(out, k.Inlines, inner, to)
		case record.Struck:
			inner.struck = true
			out = p.appendInlines(out, k.Inlines, inner, to)
		case record.Link:
			at := p.target(k.Target)
			inner.under = at.uri != ""
			out = p.appendInlines(out, k.Inlines, inner, at)
		default:
			out = append(out, p.leaf(k, look, to))
		}
	}
	return out
}

// leaf is an inline that holds no others.
func (p prose) leaf(k *record.Inline, look style, to target) span {
	switch k.Kind {
	case record.CodeSpan:
		look.face, look.size = mono, look.size*0.9
	case record.SoftBreak:
		return span{text: " ", style: look, to: to}
	case record.HardBreak:
		return span{text: "\n", style: look}
	case record.Picture:
		if at := p.target(k.Target); at.uri != "" {
			to, look.under = at, !p.caption
		}
		if p.caption {
			return span{text: k.Text, style: look, to: to}
		}
		return span{text: "▣ " + k.Text, style: look, to: to}
	}
	if k.Kind != record.CodeSpan {
		return span{text: oneBlank(k.Text), style: look, to: to}
	}
	return span{text: k.Text, style: look, to: to}
}

// oneBlank sets white space of prose as one blank, as pages do.
func oneBlank(text string) string {
	if !strings.Contains(text, "  ") && !strings.Contains(text, "\t") {
		return text
	}
	var out []byte
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c != ' ' && c != '\t':
			out = append(out, c)
		case len(out) == 0 || out[len(out)-1] != ' ':
			out = append(out, ' ')
		}
	}
	return string(out)
}

// target resolves where a link of the prose leads.
func (p prose) target(t record.Target) target {
	if t.URL != "" {
		return target{uri: asciiURI(t.URL)}
	}
	if t.Path != "" {
		return target{uri: p.uri(t.Path)}
	}
	return target{}
}

// escapePath percent-encodes a path with slashes for a relative URI.
func escapePath(path string) string {
	parts := strings.Split(path, "/")
	for i := range parts {
		parts[i] = url.PathEscape(parts[i])
	}
	return strings.Join(parts, "/")
}

// asciiURI percent-encodes what a URI may not hold and leaves the rest, which
// may be encoded already.
func asciiURI(uri string) string {
	const hex = "0123456789ABCDEF"
	var out []byte
	for _, c := range []byte(uri) {
		if c <= ' ' || c >= 0x7F || strings.IndexByte(`"<>\^{}|()`+"`", c) >= 0 {
			out = append(out, '%', hex[c>>4], hex[c&15])
			continue
		}
		out = append(out, c)
	}
	return string(out)
}

// table sets a table of the prose.
func (p prose) table(k *record.Block, left float64) {
	columns := 0
	for i := range k.Blocks {
		columns = max(columns, len(k.Blocks[i].Blocks))
	}
	if columns == 0 {
		return
	}
	if columns > widestTable {
		p.wideTable(k, left)
		return
	}
	rows := make([]tableRow, len(k.Blocks))
	for i := range k.Blocks {
		r := &k.Blocks[i]
		rows[i].head = r.Head
		for j := range r.Blocks {
			rows[i].cells = append(rows[i].cells, cell{p.inlines(r.Blocks[j].Text, cellStyle(r.Head)), r.Blocks[j].Align})
		}
	}
	p.setTable(rows, left, p.right)
}

// wideTable sets a table of many columns as text, one line to a row.
func (p prose) wideTable(k *record.Block, left float64) {
	for i := range k.Blocks {
		var spans []span
		for j := range k.Blocks[i].Blocks {
			if j > 0 {
				spans = append(spans, span{text: " | ", style: style{size: smallSize, ink: grey}})
			}
			spans = append(spans, p.inlines(k.Blocks[i].Blocks[j].Text, style{size: smallSize})...)
		}
		if len(spans) > 0 {
			p.set(measure{left: left + listIndent, first: -listIndent, right: p.right}, spans...)
		}
	}
	p.space(grid)
}

// sourceLine sets a line as typed, after the place where it stands.
func (g *galley) sourceLine(at, text string, left, right float64, i ink) {
	look := style{face: mono, size: smallSize, ink: i}
	g.set(measure{left: left + 24, first: -24, right: right},
		span{text: at + "  ", style: style{size: smallSize, ink: grey}},
		span{text: text, style: look})
}
