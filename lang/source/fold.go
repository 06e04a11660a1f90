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
func (f *Folded) End(offset int, original []byte) int {
	if f.at == nil || offset == 0 {
		return offset
	}
	last := int(f.at[offset-1])
	_, size := utf8.DecodeRune(original[last:])
	return max(last+size, min(last+1, len(original)))
}

// Fold reduces a line. The common case, plain ASCII, costs one look at each
// byte and no map.
func Fold(line []byte) Folded {
	for _, b := range line {
		if b >= utf8.RuneSelf {
			return fold(line)
		}
	}
	return Folded{Text: string(line)}
}

func fold(line []byte) Folded {
	var text strings.Builder
	at := make([]int32, 0, len(line)+8)
	put := func(s string, from int) {
		text.WriteString(s)
		for range len(s) {
			at = append(at, int32(from))
		}
	}
	for i := 0; i < len(line); {
		r, size := utf8.DecodeRune(line[i:])
		switch {
		case r < utf8.RuneSelf:
			put(string(rune(line[i])), i)
		case r >= 0xFF01 && r <= 0xFF5E: // full-width forms stand at a fixed distance
			put(string(r-0xFEE0), i)
		case fractions[r] != "":
			put(fraction(line, i, fractions[r]), i)
		case isDash(r):
			put(dash(line, i, size), i)
		case plain[r] != "":
			put(strings.Trim(plain[r], "\x00"), i)
		default:
			text.Write(line[i : i+size])
			for k := range size {
				at = append(at, int32(i+k))
			}
		}
		i += size
	}
	return Folded{Text: text.String(), at: append(at, int32(len(line)))}
}

// fraction spells ½ as 1/2, and as +1/2 where it follows a figure, arabic or
// roman, so that 16½ is sixteen and a half and III½ half a zone past III.
func fraction(line []byte, at int, spelled string) string {
	if at > 0 && strings.IndexByte("0123456789IVXivx", line[at-1]) >= 0 {
		return "+" + spelled
	}
	return spelled
}

// dash keeps apart the dash between spaces, which opens a remark, and the one
// within a term, which is a minus or a range.
func dash(line []byte, at, size int) string {
	r, _ := utf8.DecodeRune(line[at:])
	before := at == 0 || isBlank(line[:at], true)
	after := at+size == len(line) || isBlank(line[at+size:], false)
	if before && after && r != '−' {
		return "--"
	}
	return "-"
}

// isBlank reports whether the text ends (or begins) with a space of any kind.
func isBlank(text []byte, atEnd bool) bool {
	r, _ := utf8.DecodeRune(text)
	if atEnd {
		r, _ = utf8.DecodeLastRune(text)
	}
	return r == ' ' || r == '\t' || plain[r] == " "
}

func isDash(r rune) bool { return r >= 0x2010 && r <= 0x2015 || r == '−' }

var fractions = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
}

// plain maps a character to its spelling on a typewriter; "\x00" leaves it out.
var plain = map[rune]string{
	'\u00A0': " ", '\u202F': " ", '\u2009': " ", '\u200A': " ", '\u2002': " ", '\u2003': " ", '\u2004': " ",
	'\u2005': " ", '\u2006': " ", '\u2007': " ", '\u2008': " ", '\u205F': " ", '\u3000': " ",
	'\u200B': "\x00", '\u200C': "\x00", '\u200D': "\x00", '\u2060': "\x00", '\uFEFF': "\x00", '\u00AD': "\x00",
	'\u200E': "\x00", '\u200F': "\x00", '\uFE0E': "\x00", '\uFE0F': "\x00",
	'‘': "'", '’': "'", '‚': "'", '′': "'", '“': `"`, '”': `"`, '„': `"`, '″': `"`, '«': `"`, '»': `"`,
	'⁄': "/", '∕': "/", '⅟': "1/", '×': "x", '✕': "x", '✖': "x", '→': "->", '➔': "->", '⇒': "->", '⟶': "->",
	'…': "...", '：': ":", '∶': ":", '，': ",", '、': ",", '；': ";", '＝': "=", '±': "+-", '﹢': "+",
}
