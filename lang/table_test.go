package lang

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// withTables is goldmark with a reader of tables and one of struck words.
func withTables(tables parser.ParagraphTransformer, codes parser.ASTTransformer, struck parser.InlineParser) parser.Parser {
	return parser.NewParser(
		parser.WithBlockParsers(parser.DefaultBlockParsers()...),
		parser.WithInlineParsers(append(parser.DefaultInlineParsers(), util.Prioritized(struck, 500))...),
		parser.WithParagraphTransformers(append(parser.DefaultParagraphTransformers(), util.Prioritized(tables, 200))...),
		parser.WithASTTransformers(util.Prioritized(codes, 0)))
}

// shape writes a tree with every place in it.
func shape(b *strings.Builder, n ast.Node, depth int) {
	fmt.Fprintf(b, "%*s%s %d", 2*depth, "", n.Kind(), n.Pos())
	switch n := n.(type) {
	case *ast.Text:
		fmt.Fprintf(b, " %v %t %t %t", n.Segment, n.IsRaw(), n.SoftLineBreak(), n.HardLineBreak())
	case *east.Table:
		fmt.Fprint(b, " ", n.Alignments)
	case *east.TableCell:
		fmt.Fprint(b, " ", n.Alignment)
	}
	if n.Type() == ast.TypeBlock {
		for i := range n.Lines().Len() {
			fmt.Fprint(b, " ", n.Lines().At(i))
		}
	}
	b.WriteByte('\n')
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		shape(b, c, depth+1)
	}
}

// Tables and struck words come out as goldmark's own package for them has them, to
// the last offset, in texts that are made of nothing but what can matter.
func TestTablesAreReadAsElsewhere(t *testing.T) {
	ours := withTables(tables{}, unstroked{}, struck{})
	theirs := withTables(extension.NewTableParagraphTransformer(), extension.NewTableASTTransformer(), extension.NewStrikethroughParser())
	pieces := []string{"|", "|", "|", "-", "--", ":-", "-:", ":-:", ":", " ", " ", "a", "b c", "`", "`x\\|y`", "\\|", "\\", "~", "~~", "~~~", "*", "\t", "\n", "\n", "> ", "- ", "    ", "é"}
	rows := []string{"a | b\n--|--\n", "|a|\n|:-|\n", "a|b|c\n:-:|-:|-\n", "text\na|b\n-|-\n1|2|3\n4\n", "> a|b\n> -|-\n", "- a|b\n  -|-\n  c|`d\\|e`\n"}
	random := rand.New(rand.NewPCG(10, 4))
	made := 0
	n := 60_000
	if testing.Short() {
		n = 15_000
	}
	for range n {
		var in strings.Builder
		for range random.IntN(3) {
			in.WriteString(rows[random.IntN(len(rows))])
		}
		for range random.IntN(20) {
			in.WriteString(pieces[random.IntN(len(pieces))])
		}
		source := []byte(in.String())
		var a, b strings.Builder
		shape(&a, ours.Parse(text.NewReader(source)), 0)
		shape(&b, theirs.Parse(text.NewReader(source)), 0)
		if a.String() != b.String() {
			t.Fatalf("%q is read as\n%s\nand elsewhere as\n%s", source, &a, &b)
		}
		if strings.Contains(b.String(), east.KindTable.String()) {
			made++
		}
	}
	if made < n/3 {
		t.Errorf("only %d of %d texts had a table", made, n)
	}
}
