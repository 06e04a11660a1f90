package lang

import (
	"bytes"
	"fmt"
	"reflect"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"notchbook/lang/diag"
)

// What nobody writes by hand takes goldmark more than linear time: thousands of
// marks in one paragraph, lists within lists within lists, tables of a thousand
// columns. Beyond these bounds the text stands as it was typed, and one note says
// so. Within them the work for a byte is bounded, and with it the whole.
const (
	deepest     = 64       // lists and quotes within one another
	widestTable = 256      // columns
	mostMarks   = 500      // of emphasis, code and links in one paragraph, heading or cell
	mostTargets = 1000     // lines of a paragraph that begins as a link's target, [a]: b
	borrowed    = 64 << 10 // bytes of targets and titles that uses of them may repeat, beyond the size of the notebook
)

// typed remembers where the first stretch stands that is beyond a bound, and why.
func (r *reading) typed(at int, why string) {
	if r.beyond == "" {
		r.beyond, r.beyondAt = why, at+r.base
	}
}

// bounds notes that something was beyond one.
func (r *reading) bounds() diag.List {
	if r.beyond == "" {
		return nil
	}
	line := r.lines[r.lineAt(min(r.beyondAt, len(r.src)-1))]
	return diag.List{{
		Code: "prose-as-typed", Severity: diag.Note, Span: r.span(line.Body, min(line.BodyEnd, line.Body+longestHead)),
		Message: "from here on some prose stands as typed: " + r.beyond,
	}}
}

func readingOf(pc parser.Context) *reading { return pc.Get(readingKey).(*reading) }

// nested keeps a list or a quote from being opened too deep.
type nested struct{ parser.BlockParser }

func (n nested) Open(parent ast.Node, reader text.Reader, pc parser.Context) (ast.Node, parser.State) {
	depth := 0
	for p := parent; p != nil; p = p.Parent() {
		if k := p.Kind(); k == ast.KindList || k == ast.KindBlockquote {
			depth++
		}
	}
	if depth < deepest || parent.Kind() == ast.KindList { // in a list itself only its items are opened
		return n.BlockParser.Open(parent, reader, pc)
	}
	_, at := reader.Position()
	readingOf(pc).typed(at.Start, fmt.Sprintf("lists and quotes are read %d deep", deepest))
	return nil, parser.NoChildren
}

// narrow leaves alone what would become a table too wide.
type narrow struct{ parser.ParagraphTransformer }

func newNarrow() narrow { return narrow{tables{}} }

func (n narrow) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	lines := node.Lines()
	for i := 1; i < lines.Len(); i++ {
		line := lines.At(i)
		value := line.Value(reader.Source())
		if len(value) <= 2*widestTable || bytes.Count(value, []byte("|")) <= widestTable || len(bytes.Trim(value, "|-: \t\r\n")) > 0 {
			continue
		}
		readingOf(pc).typed(line.Start, fmt.Sprintf("tables are read to %d columns", widestTable))
		return
	}
	n.ParagraphTransformer.Transform(node, reader, pc)
}

// few leaves alone paragraphs of too many link targets.
type few struct{ parser.ParagraphTransformer }

func (f few) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	if lines := node.Lines(); lines.Len() > mostTargets {
		first := lines.At(0)
		if bytes.HasPrefix(bytes.TrimLeft(first.Value(reader.Source()), " "), []byte("[")) {
			readingOf(pc).typed(first.Start, fmt.Sprintf("link targets are read from paragraphs of up to %d lines", mostTargets))
			return
		}
	}
	f.ParagraphTransformer.Transform(node, reader, pc)
}

// unmarked reads a block as plain text that has more marks than are read. It is
// asked before any other reader of marks.
type unmarked struct{}

const marks = "*_~[]`"

func (unmarked) Trigger() []byte { return []byte(marks + "!") }

func (unmarked) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	r := readingOf(pc)
	if r.counted != parent {
		r.counted, r.crowded = parent, crowded(parent, block.Source())
	}
	if !r.crowded {
		return nil
	}
	_, at := block.Position()
	r.typed(at.Start, fmt.Sprintf("of a paragraph up to %d marks are read", mostMarks))
	var last *ast.Text
	for {
		line, segment := block.PeekLine()
		if line == nil {
			return last
		}
		if last != nil {
			parent.AppendChild(parent, last)
		}
		last = ast.NewTextSegment(segment.TrimRightSpace(block.Source()))
		last.SetSoftLineBreak(bytes.HasSuffix(line, []byte("\n")))
		block.AdvanceLine()
	}
}

// crowded tells whether a block has more marks than are read.
func crowded(block ast.Node, source []byte) bool {
	n := 0
	lines := block.Lines()
	for i := range lines.Len() {
		line := lines.At(i)
		for _, c := range line.Value(source) {
			if bytes.IndexByte([]byte(marks), c) >= 0 {
				if n++; n > mostMarks {
					return true
				}
			}
		}
	}
	return false
}

// lender is goldmark's memory, which lends out each link's target as often as it
// is named, but not without end: a long target named by three bytes, over and
// over, would make of a small notebook a huge record.
type lender struct {
	parser.Context
	left int // bytes
}

func (l *lender) Reference(label string) (parser.Reference, bool) {
	ref, ok := l.Context.Reference(label)
	if !ok {
		return ref, ok
	}
	l.left -= len(ref.Destination()) + len(ref.Title())
	if l.left < 0 {
		readingOf(l.Context).typed(0, "link targets are repeated up to the size of the notebook")
	}
	return ref, l.left >= 0
}

// boundedBlocks are goldmark's readers of blocks, held to the bounds.
func boundedBlocks(all []util.PrioritizedValue) []util.PrioritizedValue {
	for i, p := range all {
		switch reflect.TypeOf(p.Value) {
		case reflect.TypeOf(parser.NewListParser()), reflect.TypeOf(parser.NewBlockquoteParser()):
			all[i] = util.Prioritized(nested{p.Value.(parser.BlockParser)}, p.Priority)
		}
	}
	return all
}
