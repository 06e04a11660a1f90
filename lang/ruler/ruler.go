// Package ruler knows how a text stands in a type of fixed width. It knows nothing of ours.
package ruler

import (
	"strings"

	"github.com/rivo/uniseg"
)

// Width is the number of columns that a text of one line takes: none for a mark that sits on
// the letter before it, two for a wide East Asian character or a pictograph
// (Unicode Standard Annex 11).
func Width(s string) int {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return uniseg.StringWidth(s)
		}
	}
	return len(s)
}

// stop is how far the stops are apart to which a tab goes, as terminals and pages have them.
const stop = 8

// Untab is a text with blanks for its tabs, up to the next stop, so that what was typed in
// columns stands in them. It begins at a column, from 0, and each of its lines behind that at 0.
func Untab(s string, at int) string {
	if !strings.Contains(s, "\t") {
		return s
	}
	var b strings.Builder
	for i, line := range strings.Split(s, "\n") {
		if i > 0 {
			b.WriteByte('\n')
			at = 0
		}
		for j, cell := range strings.Split(line, "\t") {
			if j > 0 {
				blanks := stop - at%stop
				b.WriteString(strings.Repeat(" ", blanks))
				at += blanks
			}
			b.WriteString(cell)
			at += Width(cell)
		}
	}
	return b.String()
}

// Cut is as much of a text as so many columns have room for; no character is cut in two.
func Cut(s string, columns int) string {
	end, width := 0, 0
	for rest, state := s, -1; rest != ""; {
		var piece string
		var wide int
		piece, rest, wide, state = uniseg.FirstGraphemeClusterInString(rest, state)
		if width += wide; width > columns {
			break
		}
		end += len(piece)
	}
	return s[:end]
}
