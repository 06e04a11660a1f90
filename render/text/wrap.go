package text

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/rivo/uniseg"

	"notchbook/lang/ruler"
)

// Width is the longest line, in columns of a type of fixed width.
const Width = 72

// wrapped breaks a text at its blanks into lines: the first may take so many
// columns, the others so many. A word that is longer than a line is broken
// between wide characters, as Chinese and Japanese are written; any other, a
// path or an address, stands whole on a line that is too long, so that it can be
// copied. Blanks within a line stay as they are.
func wrapped(s string, columns, further int) []string {
	var lines []string
	from, to := 0, 0 // of the line in s
	for to < len(s) {
		word, end := nextWord(s, to)
		if word == end {
			break
		}
		if to > 0 && ruler.Width(s[from:end]) > columns {
			lines = append(lines, s[from:to])
			from, columns = word, further
		}
		to = end
		for ruler.Width(s[from:to]) > columns {
			head, tail := cut(s[from:to], columns)
			if tail == "" {
				break
			}
			lines = append(lines, head)
			from, columns = from+len(head), further
		}
	}
	return append(lines, s[from:to])
}

// nextWord finds the word behind the blanks that stand at a place of s.
func nextWord(s string, at int) (from, to int) {
	word := strings.TrimLeftFunc(s[at:], isBlank)
	from = len(s) - len(word)
	if length := strings.IndexFunc(word, isBlank); length >= 0 {
		return from, from + length
	}
	return from, len(s)
}

// isBlank reports blanks at which a line may be broken; a no-break space is none.
func isBlank(r rune) bool { return r == ' ' || r == '\u2009' || r == '\u3000' }

// cut parts a word that is too long: as much of it as fits and may be parted, and
// the rest. Where it may be parted nowhere there is no rest. Which characters may
// not end or begin a line is the Unicode line breaking algorithm's (Annex 14).
func cut(word string, columns int) (head, tail string) {
	for rest, state := word, -1; rest != ""; {
		var piece string
		piece, rest, _, state = uniseg.FirstLineSegmentInString(rest, state)
		if head != "" && ruler.Width(head+piece) > columns && (isWide(utf8.DecodeLastRuneInString(head)) || isWide(utf8.DecodeRuneInString(piece))) {
			return head, word[len(head):]
		}
		head += piece
	}
	return head, ""
}

func isWide(r rune, _ int) bool { return ruler.Width(string(r)) == 2 }

// cleaned is a text of one line without what an editor would not show as a
// character: a tab is a blank, and a control character is shown to have been one.
func cleaned(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unicode.IsPrint(r) || r == '\u00A0' || r == '\u202F' || r == '\u2009' || r == '\u3000' || r == '\u200D' || r == '\uFE0F':
			return r
		}
		return utf8.RuneError
	}, s)
}
