// Package lang reads the sheet notation: notebook text to a tree in which
// every byte of the text has its place. It knows the words of the notation and
// the shapes of its terms; it knows no arithmetic, no kit and no files.
package lang

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/source"
)

// Notebook is the tree of one file.
type Notebook struct {
	File       *source.File
	Lines      []Line       // they tile the file: every byte once, in order
	Statements []*Statement // the log lines, in order
	Prose      ast.Node     // goldmark's tree; a log line stands in it as a *LogLine

	later []*later
}

// Line is one source line in three stretches that follow one another: what
// stands before the text (indent, list marker), the text, and the line's end.
type Line struct {
	Kind                        LineKind
	Meant                       Word // of an unread line: the log word it was to begin with, FilmSpeed or Drawn; "" where that is open
	Above                       bool // of an unread line: what it says may be of the sheets above, too
	Start, Body, BodyEnd, Close int  // byte offsets
}

// LineKind says what a line was read as.
type LineKind uint8

// The kinds of lines.
const (
	Blank  LineKind = iota
	Prose           // Markdown: paragraphs, headings, lists, code
	Log             // a log line
	Unread          // looks like a log line but is not one; reported
)

// Statement is a log line.
type Statement struct {
	Span   source.Span // from the word to the last character
	Word   Word
	Said   source.Span // the word as typed; empty where a label stood alone
	Labels []Label
	Either bool        // the labels are a choice (develop 1A or 2B)
	Hour   string      // the time of day before a sheet's label, 14:20, where it says which half of the day it is in
	Body   source.Span // behind the colon
	terms  []Term      // what Terms gives
	Text   string      // Body without its remark, for words that take free text

	open  source.Span // a label that may be a run of sheets or a number of a year
	later *later      // with which the terms are read; nil where they are
}

// TextSpan is the stretch of Text.
func (s *Statement) TextSpan() source.Span {
	at := strings.Index(s.Body.Text(), s.Text)
	return s.Body.Sub(at, at+len(s.Text))
}

// Label is a name before the colon: of a sheet, a holder side or a thing.
type Label struct {
	Text string
	Span source.Span
	Day  source.Span // the day of the sheet, as typed before it; none where it is not said
}

// Term is one term of a log line. What was withdrawn stays in the tree.
type Term struct {
	Kind     any // one of the types of term.go
	Span     source.Span
	Struck   bool // between ~~ and ~~
	Doubtful bool // followed by a question mark, or behind "about"
	Sic      bool // followed by [sic]: written so on purpose
	Unread   bool // reported by Parse; the Kind is a Remark or a Bare
	Aside    bool // a figure in prose beside the settings, which may be one: the Kind is Loose
	Second   int  // of an Exposure with two settings: where in Span the second begins
}

// Setting is the stretch of the first or the second of an Exposure's settings.
func (t *Term) Setting(n int) source.Span {
	text := t.Span.Text()
	switch {
	case t.Second <= 0 || t.Second >= len(text):
		return t.Span
	case n == 0:
		return t.Span.Sub(0, len(strings.TrimRight(text[:t.Second], " \t\u00A0@,")))
	}
	return t.Span.Sub(t.Second, len(text))
}

// LogLine stands in goldmark's tree where the statement stood in the text.
type LogLine struct {
	ast.BaseBlock
	Statement *Statement
}

// KindLogLine is the node kind of a LogLine.
var KindLogLine = ast.NewNodeKind("LogLine")

// Kind implements ast.Node.
func (*LogLine) Kind() ast.NodeKind { return KindLogLine }

// Dump implements ast.Node.
func (n *LogLine) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }
