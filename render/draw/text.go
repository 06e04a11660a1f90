package draw

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Words are measured with the face in which all outputs set them, so that no two
// of a drawing meet, wherever it is shown.

// advances are the widths of the characters of one weight in ems, by their
// code point.
type advances [0x2600]float32

// lacking is the width taken for what the face does not have; another face
// stands in for it, and none that is likely is wider.
const lacking = 0.95

var faces = sync.OnceValue(func() *[2]advances {
	var f [2]advances
	for i, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		parsed, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err) // the face is part of the program
		}
		f[i].measure(parsed)
	}
	return &f
})

// measure asks the face for every character up to the mathematical signs.
func (a *advances) measure(face *sfnt.Font) {
	var buffer sfnt.Buffer
	em := fixed.I(int(face.UnitsPerEm()))
	for r := range a {
		a[r] = lacking
		glyph, err := face.GlyphIndex(&buffer, rune(r))
		if err != nil || glyph == 0 {
			continue
		}
		if w, err := face.GlyphAdvance(&buffer, glyph, em, font.HintingNone); err == nil {
			a[r] = float32(w) / float32(em)
		}
	}
}

// Width measures text set at a size, in points.
func Width(text string, size float64, bold bool) float64 {
	table := &faces()[0]
	if bold {
		table = &faces()[1]
	}
	sum := 0.
	for _, r := range text {
		if int(r) < len(table) {
			sum += float64(table[r])
		} else {
			sum += lacking
		}
	}
	return sum * size
}

// Cut shortens text to a width, at a word where one ends near, and says so with
// an ellipsis.
func Cut(text string, size float64, bold bool, width float64) string {
	if Width(text, size, bold) <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		kept := strings.TrimRight(string(runes[:n]), " ,·")
		if Width(kept+"…", size, bold) <= width {
			return kept + "…"
		}
	}
	return "…"
}

// bounds are the corners that words cover, a little generously.
func (w Words) bounds() rect {
	wide := Width(w.Text, w.Size, w.Bold)
	left := w.At.X
	switch w.Anchor {
	case Middle:
		left -= wide / 2
	case End:
		left -= wide
	}
	return rect{left - 1, w.At.Y - .8*w.Size, left + wide + 1, w.At.Y + .25*w.Size}
}

type rect struct{ left, top, right, bottom float64 }

// shared is the area that two rectangles have in common.
func (r rect) shared(o rect) float64 {
	w := min(r.right, o.right) - max(r.left, o.left)
	h := min(r.bottom, o.bottom) - max(r.top, o.top)
	return max(w, 0) * max(h, 0)
}
