package lsp

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// text is a document with its lines as the protocol counts them: they end in
// LF, CR LF or CR, and in nothing else. Columns are UTF-16 code units or bytes,
// as was agreed on.
type text struct {
	src    string
	starts []int // offset of each line's first byte
	bytes  bool  // columns are bytes of UTF-8
}

func newText(src string, bytes bool) *text {
	t := &text{src: src, starts: []int{0}, bytes: bytes}
	for i := 0; i < len(src); i++ {
		switch {
		case src[i] == '\n', src[i] == '\r' && !strings.HasPrefix(src[i+1:], "\n"):
			t.starts = append(t.starts, i+1)
		}
	}
	return t
}

// position is where a byte offset stands.
func (t *text) position(offset int) position {
	offset = min(max(offset, 0), len(t.src))
	line := sort.Search(len(t.starts), func(i int) bool { return t.starts[i] > offset }) - 1
	return position{line, t.units(t.src[t.starts[line]:offset])}
}

func (t *text) span(start, end int) span { return span{t.position(start), t.position(end)} }

// units is the width of a text in columns.
func (t *text) units(s string) int {
	if t.bytes {
		return len(s)
	}
	n := 0
	for _, c := range s {
		n++
		if c > 0xFFFF {
			n++
		}
	}
	return n
}

// offset is the byte that a position means. What lies behind the end of a line
// means its end, and what lies behind the last line the end of the text, as the
// protocol has it.
func (t *text) offset(p position) int {
	if p.Line >= len(t.starts) {
		return len(t.src)
	}
	start, end := t.line(p.Line)
	if t.bytes {
		at := min(start+p.Character, end)
		for at > start && at < end && !utf8.RuneStart(t.src[at]) {
			at--
		}
		return at
	}
	n := 0
	for i, c := range t.src[start:end] {
		width := 1
		if c > 0xFFFF {
			width = 2
		}
		if n+width > p.Character {
			return start + i
		}
		n += width
	}
	return end
}

// line is the stretch of a line without its end; past the last one, of the last.
func (t *text) line(n int) (start, end int) {
	n = min(n, len(t.starts)-1)
	start, end = t.starts[n], len(t.src)
	if n+1 < len(t.starts) {
		end = t.starts[n+1]
	}
	return start, start + len(strings.TrimRight(t.src[start:end], "\r\n"))
}

// replaced is the text with a stretch of it exchanged.
func (t *text) replaced(at span, with string) *text {
	start, end := t.offset(at.Start), t.offset(at.End)
	return newText(t.src[:start]+with+t.src[max(start, end):], t.bytes)
}
