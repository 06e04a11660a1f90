package html

import (
	"strconv"
	"unicode"
	"unicode/utf8"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// dotted joins with middle dots, which stay on the line of what they follow.
func dotted(parts ...string) string { return saying.Bind(saying.Join(middot, parts...)) }

// title writes the first letter large.
func title(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// placeWords says where in the notes: "kit.md, line 12". An editor's column is
// kept for findings, where the smallest wrong stretch is meant.
func placeWords(p record.Place) string {
	if p.Path == "" {
		return ""
	}
	if p.Line < 1 {
		return p.Path
	}
	return p.Path + ", line " + strconv.Itoa(p.Line)
}
