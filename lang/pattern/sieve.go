package pattern

import (
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Any is pieces of which a text may hold one: a quick look before one that is dear.
type Any struct{ sieve func() *sieve }

// AnyOf is the pieces between the blanks of a list, in lower case. It is not made before it is
// asked for.
func AnyOf(list string) Any {
	return Any{sync.OnceValue(func() *sieve { return sieveOf(strings.Fields(folded(list)), true) })}
}

// May is words without which none of some patterns matches: where a text holds none of them, there
// is no need to try the patterns on it, on a stretch of it, or on its words put together otherwise.
// Where one of the patterns has no such words, any text may hold them.
func May(patterns ...Lazy) Any {
	return Any{sync.OnceValue(func() *sieve {
		var words []string
		for _, p := range patterns {
			pieces := p().pieces
			if pieces == nil {
				return nil
			}
			for _, piece := range pieces {
				longest := ""
				for _, word := range strings.Fields(folded(piece)) {
					if len(word) >= len(longest) { // the first of equal ones is rather the or by
						longest = word
					}
				}
				if !tells(longest) {
					return nil
				}
				words = append(words, longest)
			}
		}
		slices.Sort(words)
		return sieveOf(slices.Compact(words), true)
	})}
}

// Or is the pieces of both.
func (a Any) Or(b Any) Any {
	return Any{sync.OnceValue(func() *sieve {
		x, y := a.sieve(), b.sieve()
		if x == nil || y == nil {
			return nil
		}
		return sieveOf(slices.Concat(x.all, y.all), true)
	})}
}

// In reports whether a text holds one of the pieces, in lower case or another.
func (a Any) In(text string) bool {
	s := a.sieve()
	if s == nil {
		return true
	}
	if !ascii(text) && strings.IndexFunc(text, isOther) >= 0 {
		text = folded(text)
	}
	return s.holds(text)
}

// isOther reports whether a letter beyond ASCII is another one folded.
func isOther(c rune) bool {
	return c >= utf8.RuneSelf && (c == utf8.RuneError || unicode.ToLower(unicode.ToUpper(c)) != c)
}

// folded is a text in lower case, with one letter for all that differ by no more than that.
func folded(text string) string { return strings.ToLower(strings.ToUpper(text)) }

func ascii(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// sieve finds out in one go whether a text holds one of several pieces. It goes by pairs of
// bytes: at most places of a text stands none with which a piece begins, and only where one
// does are the pieces themselves looked at.
type sieve struct {
	as     *[256]byte         // what each byte of a text counts as: itself, or its small letter, as the pieces are in those
	single []byte             // pieces of one byte
	pairs  [kinds / 64]uint64 // the first two bytes of the others, by their kind
	all    []string
	pieces []string // those of more than one byte, by the kind of their first two
	kinds  []uint16 // of each of these pieces, in rising order
}

var itself, small = func() (itself, small [256]byte) {
	for c := range itself {
		itself[c], small[c] = byte(c), byte(c)
		if 'A' <= c && c <= 'Z' {
			small[c] |= 0x20
		}
	}
	return itself, small
}()

// kinds is how many pairs of bytes are told apart: some ten times as many as begin a piece.
const kinds = 1024

func kind(a, b byte) uint16 { return (uint16(a)*37 ^ uint16(b)) % kinds }

func sieveOf(pieces []string, fold bool) *sieve {
	s := &sieve{as: &itself, all: pieces}
	if fold {
		s.as = &small
	}
	for _, piece := range pieces {
		if len(piece) == 1 {
			s.single = append(s.single, piece[0])
			if c := piece[0]; fold && 'a' <= c && c <= 'z' {
				s.single = append(s.single, c&^0x20)
			}
			continue
		}
		k := kind(piece[0], piece[1])
		s.pairs[k/64] |= 1 << (k % 64)
		n, _ := slices.BinarySearch(s.kinds, k)
		s.pieces, s.kinds = slices.Insert(s.pieces, n, piece), slices.Insert(s.kinds, n, k)
	}
	return s
}

// holds reports whether a text holds one of the pieces.
func (s *sieve) holds(text string) bool {
	for _, c := range s.single {
		if strings.IndexByte(text, c) >= 0 {
			return true
		}
	}
	if text == "" {
		return false
	}
	before := s.as[text[0]]
	for i := 1; i < len(text); i++ {
		c := s.as[text[i]]
		k := kind(before, c)
		before = c
		if s.pairs[k/64]>>(k%64)&1 == 0 {
			continue
		}
		n, _ := slices.BinarySearch(s.kinds, k)
		for ; n < len(s.kinds) && s.kinds[n] == k; n++ {
			if s.begins(text[i-1:], s.pieces[n]) {
				return true
			}
		}
	}
	return false
}

func (s *sieve) begins(text, piece string) bool {
	if len(text) < len(piece) {
		return false
	}
	for i := range len(piece) {
		if s.as[text[i]] != piece[i] {
			return false
		}
	}
	return true
}
