package lang

import (
	"strings"
	"unicode/utf8"
)

// Pictures among the words, as phones offer them: a term ends before one and may begin behind it, 1/8✅, 🟡yellow.

// inPicture stands in a scanner's line in lower case for each byte of a picture, which is no letter.
const inPicture = '\x01'

// unpictured is a text with inPicture for each byte of its pictures.
func unpictured(s string) string {
	const first = 0xe2 // of the bytes that a picture begins with (Unicode, U+2190 and on, as UTF-8)
	i := strings.IndexFunc(s, isPicture)
	if i < 0 {
		return s
	}
	out := []byte(s)
	for ; i < len(s); i++ {
		if s[i] < first {
			continue
		}
		if c, size := utf8.DecodeRuneInString(s[i:]); isPicture(c) {
			for n := range size {
				out[i+n] = inPicture
			}
			i += size - 1
		}
	}
	return string(out)
}

// isPicture reports whether a character is a picture, or what joins and colours pictures (Unicode blocks from Miscellaneous Technical
// to Dingbats, Miscellaneous Symbols and Arrows, and the planes of emoji).
func isPicture(c rune) bool {
	switch {
	case c < 0x2300:
		return false
	case c <= 0x27bf, c >= 0x2b00 && c <= 0x2bff, c >= 0x1f000 && c <= 0x1faff:
		return true
	}
	return c == 0xfe0f
}

// pictureEnd is the end of the pictures at i, i where none stands.
func pictureEnd(low string, i int) int {
	for i < len(low) && low[i] == inPicture {
		i++
	}
	return i
}
