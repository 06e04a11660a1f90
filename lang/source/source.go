// Package source holds the bytes of a notebook and stretches of them. Offsets
// are bytes of the file as it lies on the disk; lines and columns are computed
// only where a person or another program asks for them.
package source

import (
	"bytes"
	"sort"
	"sync"
	"unicode/utf8"
)

// File is a notebook as read. Text is never changed after New.
type File struct {
	Name string
	Text []byte
	said string // Text, so that a stretch of it costs no copy

	once   sync.Once
	starts []int // offset of each line's first byte

	flatten sync.Once
	flat    []byte
}

// New wraps the text of a file. The text must not change afterwards.
func New(name string, text []byte) *File { return &File{Name: name, Text: text, said: string(text)} }

// Whole is the text as a string.
func (f *File) Whole() string { return f.said }

// Span is a stretch of a file: bytes Start to End, the end exclusive.
type Span struct {
	File       *File
	Start, End int
}

// Text is the stretch as typed.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return s.File.said[s.Start:s.End]
}

// Sub is the stretch from a to b, counted in bytes from the span's start.
func (s Span) Sub(a, b int) Span { return Span{s.File, s.Start + a, s.Start + b} }

// Cover is the smallest stretch that holds both; a span without a file counts
// for nothing.
func (s Span) Cover(t Span) Span {
	if s.File == nil {
		return t
	}
	if t.File != s.File {
		return s
	}
	return Span{s.File, min(s.Start, t.Start), max(s.End, t.End)}
}

// Position is a place as people count it: the first line is 1, the first
// character of a line is 1.
type Position struct{ Line, Column int }

// Position of an offset. Columns count characters; bytes that are not UTF-8
// count as one character each.
func (f *File) Position(offset int) Position {
	n := f.lineAt(offset)
	column := utf8.RuneCount(f.Text[f.starts[n]:offset]) + 1
	return Position{n + 1, column}
}

// Line is the stretch of the line that holds the offset, without its end.
func (f *File) Line(offset int) Span { return f.NthLine(f.lineAt(offset)) }

// NthLine is the stretch of a line by its number, the first being 0, without its
// end.
func (f *File) NthLine(n int) Span {
	f.Lines()
	end := len(f.Text)
	if n+1 < len(f.starts) {
		end = f.starts[n+1]
	}
	return Span{f, f.starts[n], f.starts[n] + len(trimEnd(f.Text[f.starts[n]:end]))}
}

// Lines gives the offset of the first byte of every line, in order. An empty
// file has one line.
func (f *File) Lines() []int {
	f.once.Do(func() { f.starts = lineStarts(f.Text) })
	return f.starts
}

func (f *File) lineAt(offset int) int {
	starts := f.Lines()
	return sort.Search(len(starts), func(i int) bool { return starts[i] > offset }) - 1
}

// lineStarts splits at every sign that some editor shows as a new line: LF,
// CRLF, a lone CR, and Unicode's NEL, LINE and PARAGRAPH SEPARATOR.
func lineStarts(text []byte) []int {
	starts := make([]int, 1, 2+len(text)/48)
	for i := 0; i < len(text); {
		n := lineEnd(text[i:])
		if n == 0 {
			i++
			continue
		}
		i += n
		if i < len(text) {
			starts = append(starts, i)
		}
	}
	return starts
}

// lineEnd is the length of the line end that the text begins with, or 0.
func lineEnd(text []byte) int {
	switch text[0] {
	case '\n':
		return 1
	case '\r':
		if len(text) > 1 && text[1] == '\n' {
			return 2
		}
		return 1
	case 0xC2:
		if len(text) > 1 && text[1] == 0x85 {
			return 2
		}
	case 0xE2:
		if len(text) > 2 && text[1] == 0x80 && (text[2] == 0xA8 || text[2] == 0xA9) {
			return 3
		}
	}
	return 0
}

func trimEnd(line []byte) []byte {
	for _, end := range []string{"\r\n", "\n", "\r", "\u0085", "\u2028", "\u2029"} {
		if bytes.HasSuffix(line, []byte(end)) {
			return line[:len(line)-len(end)]
		}
	}
	return line
}

// Flat is the text with every line end that Markdown does not know turned into
// one that it does, byte for byte at the same offsets, and NUL into a question
// mark. It is the text itself where nothing had to be turned.
func (f *File) Flat() []byte {
	f.flatten.Do(func() { f.flat = flat(f.Text) })
	return f.flat
}

func flat(text []byte) []byte {
	if !foreign(text) {
		return text
	}
	flat := bytes.Clone(text)
	for i := 0; i < len(flat); {
		if flat[i] == 0 {
			flat[i] = '?'
		}
		n := lineEnd(flat[i:])
		if n == 0 {
			i++
			continue
		}
		for j := i; j < i+n-1; j++ {
			flat[j] = ' '
		}
		if n == 2 && flat[i] == ' ' && text[i] == '\r' {
			flat[i] = '\r'
		}
		flat[i+n-1] = '\n'
		i += n
	}
	return flat
}

// foreign is a quick look for the first bytes of what Flat turns.
func foreign(text []byte) bool {
	return bytes.IndexByte(text, '\r') >= 0 || bytes.IndexByte(text, 0) >= 0 ||
		bytes.Contains(text, []byte("\u0085")) || bytes.Contains(text, []byte("\u2028")) || bytes.Contains(text, []byte("\u2029"))
}

// Mark is the length of the byte-order mark that the text begins with, or 0.
func (f *File) Mark() int {
	if bytes.HasPrefix(f.Text, []byte("\uFEFF")) {
		return len("\uFEFF")
	}
	return 0
}
