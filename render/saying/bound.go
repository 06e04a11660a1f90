package saying

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// units are what stands behind its figure with a blank between (SI Brochure, 9th edition,
// 5.4.3), and words that stand so before theirs.
var (
	units  = []string{"s", "ms", "min", "h", "d", "mm", "cm", "m", "in", "nm", "°C", "°F", "K", "%", "lx", "px", "kB", "KB", "MB", "GB", "bit", "stop", "stops", "TL"}
	before = []string{"EV", "EI", "ISO", "ASA", "DIN", "f", "f/", "N", "Zone", "zone", "p.", "No."}
)

// Bound reports whether the blank between two stretches of a text holds a figure and its
// unit together, so that no line is to end there: 39 s, EV 11, 20 °C.
func Bound(left, right string) bool {
	left = left[strings.LastIndexAny(left, " (\n")+1:]
	if end := strings.IndexAny(right, " ,;:.)?!\n"); end >= 0 {
		right = right[:end]
	}
	if left == "" || right == "" {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(left)
	first, _ := utf8.DecodeRuneInString(right)
	return unicode.IsNumber(last) && slices.Contains(units, right) ||
		unicode.IsNumber(first) && slices.Contains(before, left)
}

// Bind is a text with hard blanks where Bound has it so, for a page that breaks its lines
// by itself.
func Bind(text string) string {
	var b strings.Builder
	from := 0
	for at := 0; at < len(text); at++ {
		if text[at] == ' ' && Bound(text[:at], text[at+1:]) {
			b.WriteString(text[from:at])
			b.WriteString("\u00a0")
			from = at + 1
		}
	}
	if from == 0 {
		return text
	}
	return b.String() + text[from:]
}
