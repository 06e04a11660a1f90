package pdf

import (
	_ "embed" // the second face
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The Go fonts set the book. They have no thirds, check boxes or thin spaces,
// so DejaVu Sans Condensed (licence in fonts/) stands in for single
// characters, in two weights.
var (
	//go:embed fonts/DejaVuSansCondensed.ttf
	dejaVu []byte
	//go:embed fonts/DejaVuSansCondensed-Bold.ttf
	dejaVuBold []byte
)

// faceID names a font. Bold italic is not among them: strong wins.
type faceID uint8

const (
	regular faceID = iota
	bold
	italic
	mono
	second
	secondBold
	faceCount
)

// standIn is the face that is asked where a face lacks a character.
var standIn = [faceCount]faceID{regular: second, bold: secondBold, italic: second, mono: second}

// missing is the advance of a character that a face does not have.
const missing = -1

// face is one font with what is known of its characters. Advances are in
// thousandths of the type size, rounded as the PDF library rounds them in the
// widths it writes, so that what is measured here is what a viewer sets.
type face struct {
	family string
	ttf    []byte
	font   *sfnt.Font
	pages  [256]*[256]int16 // by the character's high and low byte, on demand
	taught [1024]uint64     // characters the PDF library was told to embed
}

// sources are the fonts; the names must be in lower case for the library.
var sources = [faceCount]struct {
	family string
	ttf    []byte
}{
	regular: {"goregular", goregular.TTF}, bold: {"gobold", gobold.TTF},
	italic: {"goitalic", goitalic.TTF}, mono: {"gomono", gomono.TTF},
	second: {"dejavusanscondensed", dejaVu}, secondBold: {"dejavusanscondensedbold", dejaVuBold},
}

// faces are the fonts of one book.
type faces struct {
	all      [faceCount]face
	buffer   sfnt.Buffer
	lacked   []lacking       // characters that no face has, in the order in which they came
	lackedAt map[rune]int    // where of lacked
	spared   map[string]bool // headings that were counted
	trying   bool            // what is set is only measured
}

// lacking is a character that no face has, and how often it was set.
type lacking struct {
	r rune
	n int
}

// lack counts a character that no face has.
func (f *faces) lack(r rune) {
	if f.trying {
		return
	}
	at, known := f.lackedAt[r]
	if !known {
		if f.lackedAt == nil {
			f.lackedAt = map[rune]int{}
		}
		at = len(f.lacked)
		f.lackedAt[r] = at
		f.lacked = append(f.lacked, lacking{r: r})
	}
	f.lacked[at].n++
}

// spare leaves out of a heading the pictures that no face has, and counts them: a heading is
// read at a glance, and stands in full in the notes. Letters and figures are none, and have
// their mark. One of which nothing is left stays as it is.
func (f *faces) spare(spans ...span) []span {
	out := slices.Clone(spans)
	left := ""
	for i := range out {
		out[i].text = f.without(out[i])
		left += strings.TrimSpace(out[i].text)
	}
	if left == "" {
		return spans
	}
	for i, sp := range spans {
		if out[i].text != sp.text && !f.spared[sp.text] {
			f.spared[sp.text] = true // it comes in the contents and the indexes again
			for _, r := range sp.text {
				if f.spares(sp.face, r) {
					f.lack(r)
				}
			}
		}
	}
	return out
}

// lacks reports whether neither a face nor its stand-in has a character.
func (f *faces) lacks(id faceID, r rune) bool {
	_, w := f.find(id, r)
	return w == missing && r >= ' '
}

// spares reports whether a character that a face lacks is none that a word is spelled with.
func (f *faces) spares(id faceID, r rune) bool {
	return f.lacks(id, r) && !unicode.In(r, unicode.Letter, unicode.Number, unicode.Mark)
}

// without is the text of a span without the pictures that no face has, and the blanks that are over.
func (f *faces) without(sp span) string {
	var out []byte
	left := false // a character was left out here
	for _, r := range sp.text {
		if f.spares(sp.face, r) || left && joins(r) {
			left = true
		} else if !left || r != ' ' || len(out) > 0 && out[len(out)-1] != ' ' {
			out, left = utf8.AppendRune(out, r), left && r == ' '
		}
	}
	if left {
		return strings.TrimRight(string(out), " ")
	}
	return string(out)
}

// loadFaces parses the fonts. They belong to one book, as what is known of their
// characters grows while it is set, and two books may be set at a time.
func loadFaces() (*faces, error) {
	f := &faces{spared: map[string]bool{}}
	for id, source := range sources {
		parsed, err := sfnt.Parse(source.ttf)
		if err != nil {
			return nil, fmt.Errorf("pdf: font %s: %w", source.family, err)
		}
		f.all[id] = face{family: source.family, ttf: source.ttf, font: parsed}
	}
	return f, nil
}

// register hands the fonts to the PDF library. It writes into the bytes it is
// given while it makes the subset, so it gets its own copy of each.
func (f *faces) register(doc *fpdf.Fpdf) {
	for i := range f.all {
		doc.AddUTF8FontFromBytes(f.all[i].family, "", slices.Clone(f.all[i].ttf))
	}
	doc.SetFont(f.all[regular].family, "", bodySize)
}

// advance returns the width of r in one face, or missing.
func (f *faces) advance(id faceID, r rune) int {
	if r > 0xFFFF {
		return missing // the library knows only the basic plane
	}
	page := f.all[id].pages[r>>8]
	if page == nil {
		page = f.load(id, r&^0xFF)
		f.all[id].pages[r>>8] = page
	}
	return int(page[r&0xFF])
}

// load asks the font for the 256 characters from first.
func (f *faces) load(id faceID, first rune) *[256]int16 {
	page := new([256]int16)
	for i := range page {
		page[i] = f.measure(f.all[id].font, first+rune(i))
	}
	return page
}

// measure asks the font for one advance. Control characters have none, whatever
// the font says: they are shown by their numbers.
func (f *faces) measure(sf *sfnt.Font, r rune) int16 {
	glyph, err := sf.GlyphIndex(&f.buffer, r)
	if err != nil || glyph == 0 || r < 0x20 || r >= 0x7F && r < 0xA0 {
		return missing
	}
	// At a size of one em per unit the advance comes in the font's own units.
	em := fixed.I(int(sf.UnitsPerEm()))
	advance, err := sf.GlyphAdvance(&f.buffer, glyph, em, font.HintingNone)
	if err != nil {
		return missing
	}
	return int16(math.Round(1000 * float64(advance) / float64(em)))
}

// find chooses the face that shows r for text set in want, with its advance.
func (f *faces) find(want faceID, r rune) (faceID, int) {
	if w := f.advance(want, r); w != missing {
		return want, w
	}
	other := standIn[want]
	return other, f.advance(other, r)
}

// width measures text in points where every character is in the face or its
// stand-in; it is for the book's own words.
func (f *faces) width(id faceID, size float64, text string) float64 {
	sum := 0
	for _, r := range text {
		_, w := f.find(id, r)
		sum += max(w, 0)
	}
	return float64(sum) * size / 1000
}

// teach reports whether the PDF library has yet to be told of a character of
// text, and takes it as told from then on.
func (f *faces) teach(id faceID, text string) bool {
	fresh := false
	taught := &f.all[id].taught
	for _, r := range text {
		if bit := uint64(1) << (r & 63); taught[r>>6&1023]&bit == 0 {
			taught[r>>6&1023] |= bit
			fresh = true
		}
	}
	return fresh
}
