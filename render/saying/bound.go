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
// unit together, or a time of two units, so that no line is to end there: 39 s, EV 11,
// 20 °C, 1m 23s.
func Bound(left, right string) bool {
	left = left[strings.LastIndexAny(left, " (\n")+1:]
	if end := strings.IndexAny(right, " ,;:.)?!\n"); end >= 0 {
		right = right[:end]
	}
	if left == "" || right == "" {
		return false
	}
	if InTime(left, right) {
		return true
	}
	if right == times && isDigit(left[len(left)-1]) || left == times && isDigit(right[0]) {
		return true // 3 × 9.4 s
	}
	last, _ := utf8.DecodeLastRuneInString(left)
	first, _ := utf8.DecodeRuneInString(right)
	return unicode.IsNumber(last) && slices.Contains(units, right) ||
		unicode.IsNumber(first) && slices.Contains(before, left)
}

// times stands between how often and how long.
const times = "×"

// InTime reports whether the blank between two stretches of a text is within a time: 1m 23s,
// 2h 5m, 3 × 9.4 s.
func InTime[T string | []byte](left, right T) bool {
	n := len(left)
	if n > 3 && len(right) > 0 && isDigit(right[0]) && string(left[n-2:]) == times && left[n-3] == ' ' && isFew(left[:n-3]) ||
		len(right) > 3 && string(right[:2]) == times && right[2] == ' ' && isDigit(right[3]) && isFew(left) {
		return true
	}
	if n < 2 || left[n-1] != 'm' && left[n-1] != 'h' || !isDigit(left[n-2]) {
		return false
	}
	i := 0
	for i < len(right) && isDigit(right[i]) {
		i++
	}
	if i == 0 || i == len(right) || right[i] != 's' && right[i] != 'm' {
		return false
	}
	return i+1 == len(right) || !isLetter(right[i+1])
}

// isFew reports whether a text ends with a number of one or two figures: how often, and not
// how many pixels wide.
func isFew[T string | []byte](text T) bool {
	n := len(text)
	return n > 0 && isDigit(text[n-1]) && (n < 3 || !isDigit(text[n-2]) || !isDigit(text[n-3]))
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

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
