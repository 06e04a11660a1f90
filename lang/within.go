package lang

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Inside is a log word with its colon that stands within the text of another line, and what stands
// behind it up to the next such word: lens: 150, filter: Y8.
type Inside struct {
	Word  Word
	Start int // of the word in the text
	Body  int // behind the colon
	End   int
}

// Heads are the log words with a colon that stand in a text, in their order.
func Heads(text string, names *Lexicon) (all []Inside) {
	for colon := 0; ; colon++ {
		next := strings.IndexByte(text[colon:], ':')
		if next < 0 {
			break
		}
		colon += next
		said := strings.TrimRight(text[:colon], " \t")
		start := strings.LastIndexFunc(said, func(c rune) bool { return !unicode.IsLetter(c) })
		if start >= 0 {
			_, size := utf8.DecodeRuneInString(said[start:])
			start += size
		}
		start = max(start, 0)
		how, ok := names.word(said[start:])
		if !ok || start > 0 && isDigit(said[start-1]) {
			continue
		}
		if n := len(all); n > 0 {
			all[n-1].End = start
		}
		all = append(all, Inside{Word: how.word, Start: start, Body: colon + 1, End: len(text)})
	}
	return all
}
