package lang

import (
	"bytes"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// Tables and struck words are no part of CommonMark (GitHub Flavored Markdown 0.29,
// 4.10 and 6.5). goldmark's package for them makes ready, whenever a program starts,
// what finds bare addresses, which nobody asks it for here: that alone takes longer
// than all else that goldmark needs, and a third of what checking a short note does.
// So they are read here, into goldmark's own nodes, and TestTablesAreReadAsElsewhere
// holds them against that package.

// tables turns a paragraph into a table where its second line, or a later one, is
// the row of dashes; the lines above the head stay a paragraph.
type tables struct{}

func (tables) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	lines := node.Lines()
	for i := 1; i < lines.Len(); i++ {
		line := lines.At(i)
		columns := columnsOf(line.Value(reader.Source()))
		if columns == nil {
			continue
		}
		cells := cellsOf(lines.At(i-1), reader.Source())
		if len(cells) > len(columns) {
			return
		}
		table := east.NewTable()
		table.Alignments = columns
		table.SetPos(node.Pos())
		table.AppendChild(table, east.NewTableHeader(row(lines.At(i-1), cells, columns, pc)))
		for j := i + 1; j < lines.Len(); j++ {
			table.AppendChild(table, row(lines.At(j), cellsOf(lines.At(j), reader.Source()), columns, pc))
		}
		lines.SetSliced(0, i-1)
		parent := node.Parent()
		parent.InsertAfter(parent, node, table)
		if lines.Len() == 0 {
			parent.RemoveChild(parent, node)
			return
		}
		last := lines.At(i - 2)
		last.Stop-- // its line feed
		lines.Set(i-2, last)
		return
	}
}

// columnsOf reads a row of dashes, which says how each column is set; nil where the
// line is none.
func columnsOf(line []byte) (columns []east.Alignment) {
	if width, _ := util.IndentWidth(line, 0); width > 3 || len(bytes.Trim(line, "-")) == 0 {
		return nil
	}
	parts := bytes.Split(line, []byte("|"))
	if util.IsBlank(parts[0]) {
		parts = parts[1:]
	}
	if len(parts) > 0 && util.IsBlank(parts[len(parts)-1]) {
		parts = parts[:len(parts)-1]
	}
	for _, part := range parts {
		part = bytes.Trim(part, "\t\n\f\r ")
		dashes, left := bytes.CutPrefix(part, []byte(":"))
		dashes, right := bytes.CutSuffix(dashes, []byte(":"))
		if len(dashes) == 0 || len(bytes.Trim(dashes, "-")) > 0 {
			return nil
		}
		switch {
		case left && right:
			columns = append(columns, east.AlignCenter)
		case left:
			columns = append(columns, east.AlignLeft)
		case right:
			columns = append(columns, east.AlignRight)
		default:
			columns = append(columns, east.AlignNone)
		}
	}
	return columns
}

// cell is what stands between two bars, and where bars in it are escaped within
// what may be code: there the stroke before the bar is not the code's.
type cell struct {
	begin   int // of the cell, at its bar
	text    text.Segment
	strokes []int
}

// cellsOf cuts a line at its bars.
func cellsOf(line text.Segment, source []byte) (cells []cell) {
	begin := line.Start - line.Padding
	line = line.TrimLeftSpace(source)
	line = line.TrimRightSpace(source)
	value := line.Value(source)
	at, end := 0, len(value)
	if end > 0 && value[0] == '|' {
		at++
	}
	if end > 0 && value[end-1] == '|' {
		end--
	}
	for at < end {
		c := cell{begin: begin + at}
		code := false
		to := at
		for ; to < end; to++ {
			if value[to] == '`' {
				code = true
			}
			if value[to] == '|' {
				if to == 0 || value[to-1] != '\\' {
					break
				}
				if code {
					c.strokes = append(c.strokes, line.Start+to-1)
				}
			}
		}
		c.text = text.NewSegment(line.Start+at, line.Start+to)
		c.text = c.text.TrimLeftSpace(source)
		c.text = c.text.TrimRightSpace(source)
		cells = append(cells, c)
		at = to + 1
	}
	return cells
}

// row is a line of a table: as many cells as there are columns, those that lack
// empty and those beyond left out.
func row(line text.Segment, cells []cell, columns []east.Alignment, pc parser.Context) *east.TableRow {
	r := east.NewTableRow(columns)
	r.SetPos(line.Start)
	for i, column := range columns {
		node := east.NewTableCell()
		if i < len(cells) {
			node.SetPos(cells[i].begin)
			node.Alignment = column
			node.Lines().Append(cells[i].text)
			if len(cells[i].strokes) > 0 {
				all, _ := pc.Get(strokesKey).([]strokes)
				pc.Set(strokesKey, append(all, strokes{node, cells[i].strokes}))
			}
		}
		r.AppendChild(r, node)
	}
	return r
}

// strokes are where a cell has strokes before bars.
type strokes struct {
	cell *east.TableCell
	at   []int
}

var strokesKey = parser.NewContextKey()

// unstroked takes the strokes before bars out of code.
type unstroked struct{}

func (unstroked) Transform(_ *ast.Document, _ text.Reader, pc parser.Context) {
	all, _ := pc.Get(strokesKey).([]strokes)
	pc.Set(strokesKey, nil)
	for _, s := range all {
		_ = ast.Walk(s.cell, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if entering && n.Kind() == ast.KindCodeSpan {
				s.takeOut(n)
			}
			return ast.WalkContinue, nil
		})
	}
}

// takeOut parts the pieces of a code span at the strokes.
func (s strokes) takeOut(code ast.Node) {
	for c := code.FirstChild(); c != nil; c = c.NextSibling() {
		piece, ok := c.(*ast.Text)
		if !ok {
			continue
		}
		for _, at := range s.at {
			if segment := piece.Segment; segment.Start <= at && at < segment.Stop {
				rest := ast.NewRawTextSegment(segment.WithStart(at + 1))
				code.InsertAfter(code, piece, rest)
				before := ast.NewRawTextSegment(segment.WithStop(at))
				code.ReplaceChild(code, piece, before)
				c, piece = rest, rest
			}
		}
	}
}

// struck reads what stands between one or two tildes.
type struck struct{}

func (struck) Trigger() []byte { return []byte("~") }

func (struck) Parse(_ ast.Node, block text.Reader, pc parser.Context) ast.Node {
	before := block.PrecendingCharacter()
	line, segment := block.PeekLine()
	node := parser.ScanDelimiter(line, before, 1, struck{})
	if node == nil || node.OriginalLength > 2 || before == '~' {
		return nil
	}
	node.Segment = segment.WithStop(segment.Start + node.OriginalLength)
	block.Advance(node.OriginalLength)
	pc.PushDelimiter(node)
	return node
}

// What goldmark asks of a reader of marks that stand in pairs.

func (struck) IsDelimiter(b byte) bool                             { return b == '~' }
func (struck) CanOpenCloser(opener, closer *parser.Delimiter) bool { return opener.Char == closer.Char }
func (struck) OnMatch(int) ast.Node                                { return east.NewStrikethrough() }
