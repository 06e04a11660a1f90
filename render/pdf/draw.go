package pdf

import (
	"math"
	"strconv"
	"unicode/utf8"

	"github.com/go-pdf/fpdf"

	"notchbook/render/draw"
)

// ink is one of the few colours of the book.
type ink uint8

const (
	black  ink = iota
	grey       // what accompanies: labels, sources
	faint      // hairlines
	red        // what is off or wrong; prints as a dark grey
	middle     // rules of drawings that carry meaning
	hair       // rules that only guide the eye
	pale       // grounds
	paper      // the paper itself, to keep lines out of words
	noInk      // none chosen yet on this page
	tone       // the first of the tones of the zones
)

// toneSteps is how many tones lie between black and paper white.
const toneSteps = 200

// inkOps choose an ink for filling and for drawing (PDF 32000-1, 8.6.8).
var inkOps = [...]string{
	black: "0.08 g 0.08 G\n", grey: "0.38 g 0.38 G\n", faint: "0.72 g 0.72 G\n",
	red: "0.62 0.11 0.09 rg 0.62 0.11 0.09 RG\n", middle: "0.5 g 0.5 G\n", hair: "0.82 g 0.82 G\n",
	pale: "0.93 g 0.93 G\n", paper: "1 g 1 G\n", noInk: "",
}

// pen draws on the page, and keeps what it has drawn until the file is written:
// the library's own Text costs microseconds and a map entry for every character,
// so it is only told of each character once, for its fonts.
//
// Distances are points from the left and the top of the paper.
type pen struct {
	pdf    *fpdf.Fpdf
	faces  *faces
	height float64 // of the paper
	sheaf  *sheaf
	under  *leaf          // the one that is drawn on; nil before the first
	out    []byte         // what it holds
	images map[string]int // their numbers
	face   faceID
	size   float64
	width  float64 // of lines
	ink    ink
}

// newPen is a pen for a document that has its fonts, on paper of a height.
func newPen(doc *fpdf.Fpdf, faces *faces, height float64) pen {
	doc.SetCompression(false) // of the pages, which are packed here
	return pen{pdf: doc, faces: faces, height: height, sheaf: &sheaf{}, images: map[string]int{}}
}

// addPage begins a page of paper. The one before is packed if whole says that it
// has all that it will ever have.
func (d *pen) addPage(whole bool) {
	d.settle()
	if whole && d.under != nil {
		d.sheaf.packBeside(d.under)
	}
	d.pdf.AddPage()
	d.under = &leaf{}
	d.sheaf.leaves = append(d.sheaf.leaves, d.under)
	d.out = make([]byte, 0, 16<<10)
	d.forget()
	if len(d.sheaf.leaves) == 1 {
		for id := range d.faces.all { // in the order in which they are numbered
			d.pdf.SetFont(d.faces.all[id].family, "", bodySize)
		}
	}
}

// turnTo goes on with a page that was begun before and is not packed.
func (d *pen) turnTo(page int) {
	d.settle()
	d.pdf.SetPage(page)
	d.under = d.sheaf.leaves[page-1]
	d.out = d.under.drawn
	d.forget()
}

// settle lets the page have what was drawn.
func (d *pen) settle() {
	if d.under != nil {
		d.under.drawn = d.out
	}
}

// forget is called when another page is under the pen.
func (d *pen) forget() { d.size, d.width, d.ink = 0, 0, noInk }

// setInk chooses for filling and drawing at once; type is filled.
func (d *pen) setInk(i ink) {
	if d.ink == i {
		return
	}
	d.ink = i
	if i < tone {
		d.out = append(d.out, inkOps[i]...)
		return
	}
	d.number(float64(i-tone) / toneSteps)
	d.out = append(d.out, "g\n"...)
}

// setWidth chooses how wide lines are.
func (d *pen) setWidth(w float64) {
	if d.width != w {
		d.number(w)
		d.out = append(d.out, "w "...)
		d.width = w
	}
}

// setFace changes the font only where it differs.
func (d *pen) setFace(id faceID, size float64) {
	if d.face != id || d.size != size {
		d.out = append(d.out, "/F"...)
		d.out = strconv.AppendInt(d.out, int64(id), 10)
		d.out = append(d.out, ' ')
		d.number(size)
		d.out = append(d.out, "Tf\n"...)
		d.face, d.size = id, size
	}
}

// text sets text with its baseline at y.
func (d *pen) text(x, y float64, text string, look style) {
	if text == "" {
		return
	}
	d.setInk(look.ink)
	d.setFace(look.face, look.size)
	if d.faces.teach(look.face, text) {
		d.pdf.SetFont(d.faces.all[look.face].family, "", look.size)
		d.pdf.Text(x, y, text)
	}
	d.out = append(d.out, "BT "...)
	d.number(x)
	d.number(d.height - y)
	d.out = append(d.out, "Td ("...)
	d.out = appendUTF16(d.out, text)
	d.out = append(d.out, ") Tj ET\n"...)
}

// number writes a distance.
func (d *pen) number(v float64) { d.out = appendNumber(d.out, v) }

// appendNumber writes a distance to a hundredth of a point, finer than any printer.
func appendNumber(out []byte, v float64) []byte {
	n := int64(math.Round(draw.Snap(v) * 100))
	if n < 0 {
		out = append(out, '-')
		n = -n
	}
	out = strconv.AppendInt(out, n/100, 10)
	if n %= 100; n > 0 {
		out = append(out, '.', byte('0'+n/10))
		if n%10 > 0 {
			out = append(out, byte('0'+n%10))
		}
	}
	return append(out, ' ')
}

// appendUTF16 writes text as the library does: big-endian UTF-16 in a literal
// string, with what would end the string escaped. All text given here is of
// the basic plane.
func appendUTF16(out []byte, text string) []byte {
	for at := 0; at < len(text); at++ {
		if c := text[at]; c < utf8.RuneSelf {
			out = appendEscaped(append(out, 0), c)
			continue
		}
		r, n := utf8.DecodeRuneInString(text[at:])
		out = appendEscaped(appendEscaped(out, byte(r>>8)), byte(r))
		at += n - 1
	}
	return out
}

// appendEscaped escapes a byte as PDF 32000-1, 7.3.4.2 asks: a bare carriage
// return would be read as a line feed.
func appendEscaped(out []byte, c byte) []byte {
	switch c {
	case '(', ')', '\\':
		return append(out, '\\', c)
	case '\r':
		return append(out, '\\', 'r')
	}
	return append(out, c)
}

// stroke draws a straight line, width points wide.
func (d *pen) stroke(x1, y1, x2, y2, width float64, i ink) {
	d.setInk(i)
	d.setWidth(width)
	d.number(x1)
	d.number(d.height - y1)
	d.out = append(d.out, "m "...)
	d.number(x2)
	d.number(d.height - y2)
	d.out = append(d.out, "l S\n"...)
}

// frame draws the outline of a box.
func (d *pen) frame(x, y, w, h, width float64, i ink) {
	d.setInk(i)
	d.setWidth(width)
	d.number(x)
	d.number(d.height - y - h)
	d.number(w)
	d.number(h)
	d.out = append(d.out, "re S\n"...)
}

// image places a registered JPEG.
func (d *pen) image(name string, x, y, w, h float64) {
	n, placed := d.images[name]
	if !placed {
		n = len(d.images)
		d.images[name] = n
		d.pdf.ImageOptions(name, x, y, w, h, false, fpdf.ImageOptions{ImageType: "jpg"}, 0, "")
	}
	d.out = append(d.out, "q "...)
	d.number(w)
	d.out = append(d.out, "0 0 "...)
	d.number(h)
	d.number(x)
	d.number(d.height - y - h)
	d.out = append(d.out, "cm /I"...)
	d.out = strconv.AppendInt(d.out, int64(n), 10)
	d.out = append(d.out, " Do Q\n"...)
}

// link makes a box of the page lead to y on another page.
func (d *pen) link(x, y, w, h float64, page int, top float64) {
	links := append(d.linkBox(x, y, w, h), "/Dest ["...)
	links = append(strconv.AppendInt(links, int64(pageObject(page)), 10), " 0 R /XYZ 0 "...)
	d.under.links = append(appendNumber(links, d.height-top), "null]>>\n"...)
}

// linkURI makes a box of the page lead out of the book.
func (d *pen) linkURI(x, y, w, h float64, uri string) {
	links := append(d.linkBox(x, y, w, h), "/A <</S /URI /URI ("...)
	for i := range len(uri) {
		links = appendEscaped(links, uri[i])
	}
	d.under.links = append(links, ")>>>>\n"...)
}

// linkBox begins a link (PDF 32000-1, 12.5.6.5).
func (d *pen) linkBox(x, y, w, h float64) []byte {
	links := append(d.under.links, "<</Type /Annot /Subtype /Link /Border [0 0 0] /Rect ["...)
	for _, at := range [...]float64{x, d.height - y - h, x + w, d.height - y} {
		links = appendNumber(links, at)
	}
	return append(links, "] "...)
}
