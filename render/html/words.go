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

// size writes a number of bytes as disks are sold: 1 MB is a million.
func size(n int64) string {
	const kB, MB, GB = 1_000, 1_000_000, 1_000_000_000
	switch {
	case n < kB:
		return strconv.FormatInt(n, 10) + " bytes"
	case n < MB:
		return short(float64(n)/kB) + " kB"
	case n < GB:
		return short(float64(n)/MB) + " MB"
	}
	return short(float64(n)/GB) + " GB"
}

// short writes one decimal below ten, none above.
func short(x float64) string {
	if x < 9.95 {
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return strconv.FormatFloat(x, 'f', 0, 64)
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
