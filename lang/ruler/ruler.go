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
