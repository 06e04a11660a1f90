package source

import (
	"strings"
	"unicode/utf8"
)

// Folded is a line whose typography is reduced to what a typewriter has, with
// the way back: every byte of Text knows the byte of the original from which it
// came. Phones set quotes, dashes, fractions and spaces of their own accord;
// the language is read from the folded line and reported on the original.
type Folded struct {
	Text string
	line string  // the original, where it differs
	at   []int32 // original offset of each byte, one more for the end; nil: the same
}

// At is the original offset of a folded one.
func (f *Folded) At(offset int) int {
	if f.at == nil {
		return offset
	}
	return int(f.at[offset])
}

// End is the original offset behind the folded byte before offset. It differs
// from At where something was left out of the folded line.
func (f *Folded) End(offset int) int {
	if f.at == nil || offset == 0 {
		return offset
	}
	last := int(f.at[offset-1])
	_, size := utf8.DecodeRuneInString(f.line[last:])
	return last + size
}

// Fold reduces a line. The common case, plain ASCII, costs one look at each
// byte, no copy and no map.
func Fold(line string) Folded {
	for i := range len(line) {
		if b := line[i]; b >= utf8.RuneSelf || b == 0 {
			return fold(line)
		}
	}
	return Folded{Text: line}
}

// folding is a line on its way.
type folding struct {
	line string
	text []byte
	at   []int32
}

func fold(line string) Folded {
	f := folding{line: line, text: make([]byte, 0, len(line)+8), at: make([]int32, 0, len(line)+8)}
	for i := 0; i < len(line); {
		r, size := utf8.DecodeRuneInString(line[i:])
		f.rune(r, i, size)
		i += size
	}
	return Folded{Text: string(f.text), line: line, at: append(f.at, int32(len(line)))}
}

func (f *folding) put(s string, from int) {
	f.text = append(f.text, s...)
	for range len(s) {
		f.at = append(f.at, int32(from))
	}
}

// last is the folded byte before, or 0.
func (f *folding) last() byte {
	if len(f.text) == 0 {
		return 0
	}
	return f.text[len(f.text)-1]
}

func (f *folding) rune(r rune, i, size int) {
	if r < utf8.RuneSelf {
		if r == 0 { // what a broken note program leaves
			r = ' '
		}
		f.text, f.at = append(f.text, byte(r)), append(f.at, int32(i))
		return
	}
	spelled, known := plain[r]
	switch {
	case isDash(r):
		f.put(f.dash(r, i, size), i)
	case r >= 0xFF01 && r <= 0xFF5E: // full-width forms stand at a fixed distance
		f.put(string(r-0xFEE0), i)
	case fractions[r] != "":
		f.put(f.fraction(fractions[r]), i)
	case r == '·' || r == '⋅': // a British decimal point
		f.put(f.point(i, size), i)
	case known:
		f.put(spelled, i)
	case f.footnote(r, i, size):
		f.put("*", i)
	case figure(r) != 0:
		f.put(f.small(r, i), i)
	default:
		for k := range size {
			f.text, f.at = append(f.text, f.line[i+k]), append(f.at, int32(i+k))
		}
	}
}

// fraction spells ½ as 1/2, and as +1/2 where it follows a figure, arabic or
// roman, so that 16½ is sixteen and a half and III½ half a zone past III.
func (f *folding) fraction(spelled string) string {
	if strings.IndexByte("0123456789IVXivx", f.last()) >= 0 && f.last() != 0 {
		return "+" + spelled
	}
	return spelled
}

// figure is the plain form of a raised or lowered figure, or 0. Phones set
// 1/30 as ¹⁄₃₀.
func figure(r rune) byte {
	switch {
	case r >= '₀' && r <= '₉':
		return byte(r-'₀') + '0'
	case r == '⁰' || r >= '⁴' && r <= '⁹':
		return byte(r-'⁰') + '0'
	case r == '¹':
		return '1'
	case r == '²' || r == '³':
		return byte(r-'²') + '2'
	}
	return 0
}

// small spells a raised figure: behind a plain one, and before a fraction's
// stroke, it begins a fraction as ½ does.
func (f *folding) small(r rune, i int) string {
	before, _ := utf8.DecodeLastRuneInString(f.line[:i])
	if f.last() >= '0' && f.last() <= '9' && figure(before) == 0 && (r < '₀' || r > '₉') {
		return "+" + string(rune(figure(r)))
	}
	return string(rune(figure(r)))
}

// footnote reports whether a sign refers to a note below: a dagger behind a word or a value, a raised figure behind a
// number, or its s, that begins no fraction.
func (f *folding) footnote(r rune, i, size int) bool {
	before, rest := f.last(), f.line[i+size:]
	number := before >= '0' && before <= '9' || before == 's' && len(f.text) > 1 && f.text[len(f.text)-2] >= '0' && f.text[len(f.text)-2] <= '9'
	switch {
	case r == '†' || r == '‡' || r == '§':
		return number || before|0x20 >= 'a' && before|0x20 <= 'z' || before == '*' || before == '-' || before == '"'
	case r != '¹' && r != '²' && r != '³' && (r < '⁴' || r > '⁹') || !number:
		return false
	}
	if last, _ := utf8.DecodeLastRuneInString(f.line[:i]); figure(last) != 0 {
		return false // of a fraction: ¹²
	}
	next := strings.IndexFunc(rest, func(c rune) bool { return figure(c) == 0 })
	return next < 0 || !strings.HasPrefix(rest[next:], "⁄") && !strings.HasPrefix(rest[next:], "/")
}

// point is a decimal point between figures, and a bullet elsewhere.
func (f *folding) point(i, size int) string {
	next := i + size
	if l := f.last(); l >= '0' && l <= '9' && next < len(f.line) && f.line[next] >= '0' && f.line[next] <= '9' {
		return "."
	}
	return f.line[i:next]
}

// dash keeps apart the dash between spaces, which opens a remark, and the one
// within a term, which is a minus or a range.
func (f *folding) dash(r rune, i, size int) string {
	before := i == 0 || isBlank(utf8.DecodeLastRuneInString(f.line[:i]))
	after := i+size == len(f.line) || isBlank(utf8.DecodeRuneInString(f.line[i+size:]))
	if before && after && r != '−' {
		return "--"
	}
	return "-"
}

// isBlank reports whether a character is a space of any kind.
func isBlank(r rune, _ int) bool { return r == ' ' || r == '\t' || r == 0 || plain[r] == " " }

func isDash(r rune) bool { return r >= 0x2010 && r <= 0x2015 || r == '−' || r == '－' || r == '﹣' }

var fractions = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
}

// plain maps a character to its spelling on a typewriter; an empty one leaves
// it out.
var plain = map[rune]string{
	'\u00A0': " ", '\u202F': " ", '\u2009': " ", '\u200A': " ", '\u2002': " ", '\u2003': " ", '\u2004': " ",
	'\u2005': " ", '\u2006': " ", '\u2007': " ", '\u2008': " ", '\u205F': " ", '\u3000': " ", '\u2000': " ", '\u2001': " ", '\u1680': " ",
	'\u200B': "", '\u200C': "", '\u200D': "", '\u2060': "", '\uFEFF': "", '\u00AD': "",
	'\u200E': "", '\u200F': "", '\u202A': "", '\u202B': "", '\u202C': "", '\u202D': "", '\u202E': "", '\uFE0E': "", '\uFE0F': "",
	'‘': "'", '’': "'", '‚': "'", '′': "'", '´': "'", '“': `"`, '”': `"`, '„': `"`, '″': `"`, '«': `"`, '»': `"`, '〃': `"`,
	'⁄': "/", '∕': "/", '⅟': "1/", '×': "x", '✕': "x", '✖': "x", '→': "->", '➔': "->", '⇒': "->", '⟶': "->", '➡': "->", '➜': "->",
	'…': "...", '∶': ":", '、': ",", '。': ".", '±': "+-", '﹢': "+", 'ƒ': "f", 'º': "°", '≈': "~", '∼': "~",
	'Ⅰ': "I", 'Ⅱ': "II", 'Ⅲ': "III", 'Ⅳ': "IV", 'Ⅴ': "V", 'Ⅵ': "VI", 'Ⅶ': "VII", 'Ⅷ': "VIII", 'Ⅸ': "IX", 'Ⅹ': "X",
}
