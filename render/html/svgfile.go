package html

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"notchbook/render/draw"
)

// SVG is a drawing as a file of its own: with a ground, a margin and the inks of the
// pages, by day and by night.
func SVG(d *draw.Drawing) []byte {
	const margin, scale = 12, 2
	wide, high := d.Width+2*margin, d.Height+2*margin
	var drawn markup
	drawn.drawing(d, "")
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s viewBox=\"%d %d %s %s\" width=\"%s\" height=\"%s\">\n", svgMark, -margin, -margin, whole(wide), whole(high), whole(scale*wide), whole(scale*high))
	fmt.Fprintf(&b, "<style>%s</style>\n<rect class=\"f-paper\" x=\"%d\" y=\"%d\" width=\"100%%\" height=\"100%%\"/>\n", drawingStyle(), -margin, -margin)
	fmt.Fprintf(&b, "<svg width=\"%s\" height=\"%s\"%s\n</svg>\n", whole(d.Width), whole(d.Height), strings.TrimPrefix(string(drawn.out), `<svg class="drawing "`))
	return b.Bytes()
}

// svgMark is how a drawing that was written begins.
const svgMark = `<svg xmlns="http://www.w3.org/2000/svg" data-by="notchbook"`

// IsSVG tells a drawing that was written from any other file.
func IsSVG(text []byte) bool { return bytes.HasPrefix(text, []byte(svgMark)) }

func whole(v float64) string { return strconv.Itoa(int(v + .5)) }

// drawingStyle is what of the pages' style sheet drawings need: the inks and the
// classes of marks.
func drawingStyle() string {
	style := string(styleSheet)
	inks := between(style, ":root {", "* { box-sizing")
	marks := between(style, ".l { fill", ".did dt")
	return "\n" + inks + "text { font-family: Go, \"DejaVu Sans\", sans-serif; }\n" + marks
}

// between is the stretch of a text from one word to another, the other left out.
func between(text, from, to string) string {
	_, rest, _ := strings.Cut(text, from)
	part, _, _ := strings.Cut(rest, to)
	return from + part
}
