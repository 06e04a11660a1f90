package query

import (
	"maps"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Folding is how the letters of a query are brought to one form. It is done
// letter by letter from a table, so that a page which carries the table folds
// exactly as this package does: first what the table has, ½ behind a figure as
// +1/2; then compatibility decomposition (NFKD of Unicode), without marks; then
// small letters.

// Plain is the table: characters beyond ASCII and how a typewriter has them, as
// the notation reads them. Apostrophes fall away, that kiln's is found by kilns.
var Plain = sync.OnceValue(func() map[rune]string {
	table := map[rune]string{'\'': "", '\u2032': "", 'ς': "σ"}
	for r := rune(0x80); r < 0x10000; r++ {
		if r >= 0xD800 && r < 0xE000 {
			continue
		}
		folded := source.Fold("x" + string(r) + "x").Text // between letters, where a dash is a minus
		if folded = folded[1 : len(folded)-1]; folded != string(r) && table[r] == "" {
			table[r] = strings.ReplaceAll(folded, "'", "")
		}
	}
	// What decomposition and small letters make of a character may stand in the
	// table itself: Ƒ is ƒ, and a small em dash is an em dash.
	more := map[rune]string{}
	for r := rune(0x80); r < 0x10000; r++ {
		if _, ok := table[r]; ok || r >= 0xD800 && r < 0xE000 {
			continue
		}
		plain, known := "", false
		for _, part := range small(norm.NFKD.String(string(r))) {
			as, ok := table[part]
			if !ok {
				as = string(part)
			}
			plain, known = plain+as, known || ok
		}
		if known {
			more[r] = plain
		}
	}
	maps.Copy(table, more)
	return table
})

// Fold brings a text to the form in which spellings are compared.
func Fold(text string) string {
	if ascii(text) {
		return strings.ReplaceAll(strings.ToLower(text), "'", "")
	}
	var b strings.Builder
	last := rune(0)
	for _, r := range text {
		plain, ok := Plain()[r]
		switch {
		case !ok:
			b.WriteRune(r)
		case last >= '0' && last <= '9' && fraction(plain):
			b.WriteString("+" + plain)
		default:
			b.WriteString(plain)
		}
		last = r
	}
	return small(norm.NFKD.String(b.String()))
}

// fraction reports whether a plain form is one of a fraction: 1/2.
func fraction(plain string) bool {
	return len(plain) >= 3 && plain[0] >= '0' && plain[0] <= '9' && strings.Contains(plain, "/")
}

// small takes the marks off letters and makes them small, one by one.
func small(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.M, r) || r == '\'' {
			return -1
		}
		if r = unicode.ToLower(r); r == 'ς' {
			r = 'σ'
		}
		return r
	}, text)
}

func ascii(text string) bool {
	for i := range len(text) {
		if text[i] >= 0x80 {
			return false
		}
	}
	return true
}

// Words are the words of a text, folded: runs of letters and figures of two and
// more, single figures, what is short for words, with its stroke: w/a, and a word without the
// article that was joined to it: écluse of L'écluse.
func Words(text string) []string {
	folded := Fold(text)
	all := strings.FieldsFunc(folded, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
	kept := all[:0]
	for _, w := range all {
		if len(w) > 1 || w >= "0" && w <= "9" {
			kept = append(kept, w)
		}
	}
	if strings.Contains(folded, "/") {
		kept = append(kept, stroked().FindAllString(folded, -1)...)
	}
	if strings.ContainsAny(text, "'\u2019") {
		for _, m := range elided().FindAllStringSubmatch(text, -1) {
			kept = append(kept, Fold(m[1]))
		}
	}
	return kept
}

var (
	stroked = pattern.Lazily(`\p{L}+(?:/\p{L}+)+`)
	elided  = pattern.Lazily(`(?i)(?:^|[^\p{L}\p{M}\p{N}])(?:l|d|qu)['\x{2019}]((?:\p{L}\p{M}*){2,})`)
)
