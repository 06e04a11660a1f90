package lang

import (
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What a notebook sets apart from its notes: comments of HTML, and the front matter that other
// tools of Markdown read. No line in them is a log line; one that looks like one is named.

// Of a comment there must be an end before the next begins, so that an unclosed one hides nothing.
var commentMark = regexp.MustCompile(`<!--|-->`)

// commented reports whether the text of a line from start on begins within a comment. Of one
// that opens on the line and does not end there all lines behind it are kept in mind.
func (r *reading) commented(n, start int) bool {
	end := r.lines[n].BodyEnd
	at := start + strings.LastIndex(r.src[start:end], "<!--")
	if at < start || at > start && !isSpace(r.src[at-1]) || strings.Contains(r.src[at:end], "-->") {
		return r.comments[n]
	}
	behind := at + len("<!--")
	if next := commentMark.FindStringIndex(r.src[behind:]); next != nil && r.src[behind+next[0]] == '-' {
		if r.comments == nil {
			r.comments = map[int]bool{}
		}
		for last := r.lineAt(behind + next[0]); last > n; last-- {
			r.comments[last] = true
		}
	}
	return r.comments[n]
}

// commentAt is the end of a comment that begins at i of a line, or i.
func commentAt(line string, i int) int {
	if strings.HasPrefix(line[i:], "<!--") {
		if closes := strings.Index(line[i:], "-->"); closes > 0 {
			return i + closes + len("-->")
		}
	}
	return i
}

// withoutComments is a folded line with blanks for what is in a comment, and the first thing
// that is in one. A line within a comment ends where that does.
func withoutComments(text string, within bool) (outside, inside string) {
	if !within && !strings.Contains(text, "<!--") {
		return text, ""
	}
	for from := 0; ; {
		begin, end := 0, len(text)
		if from > 0 || !within {
			opens := strings.Index(text[from:], "<!--")
			if opens < 0 {
				return text, inside
			}
			begin = from + opens
		}
		closes := strings.Index(text[begin:], "-->")
		if closes >= 0 {
			end = begin + closes + len("-->")
		} else if !within {
			return text, inside // nothing closes it
		}
		if inside == "" {
			inside = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(text[begin:end], "<!--"), "-->"))
		}
		text, from = text[:begin]+strings.Repeat(" ", end-begin)+text[end:], end
		if from == len(text) {
			return text, inside
		}
	}
}

// frontMatter is the block of ---, names with values and --- at the top of a file, as a fenced
// block of Markdown's.
type frontMatter struct{}

func (frontMatter) Trigger() []byte                             { return []byte("-") }
func (frontMatter) CanInterruptParagraph() bool                 { return false }
func (frontMatter) CanAcceptIndentedLine() bool                 { return false }
func (frontMatter) Close(ast.Node, text.Reader, parser.Context) {}

func (frontMatter) Open(_ ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	r := readingOf(pc)
	if _, segment := reader.PeekLine(); segment.Start > 0 || r.front == 0 {
		return nil, parser.NoChildren
	}
	reader.AdvanceToEOL()
	return ast.NewFencedCodeBlock(nil), parser.NoChildren
}

func (frontMatter) Continue(node ast.Node, reader text.Reader, pc parser.Context) parser.State {
	r := readingOf(pc)
	_, segment := reader.PeekLine()
	reader.AdvanceToEOL()
	if r.lineAt(segment.Start+r.base) == r.front {
		return parser.Close
	}
	node.Lines().Append(segment)
	return parser.Continue | parser.NoChildren
}

// named is how a line of front matter begins that gives a name its value.
var named = pattern.Lazily(`^[A-Za-z_][A-Za-z0-9_-]*:($|[ \t])`)

// frontEnd is the line with which front matter ends, 0 where there is none. It is made of names
// with values, lists, comments and what is indented, and one name at least is no word of the
// notation: else they are notes between two rules.
func (r *reading) frontEnd() int {
	if !r.opensFront(0) {
		return 0
	}
	foreign := false
	for n := 1; n < len(r.lines); n++ {
		l := r.lines[n]
		switch text := r.src[l.Body:l.BodyEnd]; {
		case r.opensFront(n):
			if foreign {
				return n
			}
			return 0
		case text == "", l.Body > l.Start, text[0] == '#', text == "-", strings.HasPrefix(text, "- "):
		case named().MatchString(text):
			_, log := readHead(source.Fold(text).Text, r.names)
			foreign = foreign || !log
		default:
			return 0
		}
	}
	return 0
}

// opensFront reports whether a line is nothing but three dashes.
func (r *reading) opensFront(n int) bool {
	l := r.lines[n]
	return r.src[l.Body:l.BodyEnd] == "---" && (l.Body == l.Start || n == 0 && l.Body == r.base)
}

// holdsLog reports whether a folded line that is set apart would be a log line, behind the
// signs of quotes and lists. A private remark is one wherever it stands.
func (r *reading) holdsLog(text string) bool {
	h, ok := readHead(bulleted(strings.TrimLeft(text, "> \t")), r.names)
	return ok && h.how.word != Private
}
