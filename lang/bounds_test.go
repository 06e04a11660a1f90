package lang

import (
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang/source"
)

// Beyond a bound the text stands as typed, whole, and one note says so; at the
// bound it is read. The bounds are our own: no source.
func TestBoundsOfProse(t *testing.T) {
	quotes := func(n int) string { return strings.Repeat("> ", n) + "fog" }
	columns := func(n int) string {
		return strings.Repeat("|a", n) + "|\n" + strings.Repeat("|-", n) + "|\n" + strings.Repeat("|b", n) + "|"
	}
	targets := func(n int) string { return strings.Repeat("[a]: /b\n", n) }
	for name, c := range map[string]struct {
		at, beyond string
		kind       string // of node that stands at the bound and not beyond
	}{
		"quotes":   {quotes(deepest), quotes(deepest + 1), ""},
		"lists":    {strings.Repeat("- ", deepest) + "fog", strings.Repeat("- ", deepest+1) + "fog", ""},
		"marks":    {strings.Repeat("*a* ", mostMarks/2), strings.Repeat("*a* ", mostMarks/2+1), "Emphasis"},
		"code":     {strings.Repeat("`a` ", mostMarks/2), strings.Repeat("`a` ", mostMarks/2+1), "CodeSpan"},
		"links":    {strings.Repeat("[a](b)\n", mostMarks/2), strings.Repeat("[a](b)\n", mostMarks/2+1), "Link"},
		"heading":  {"# " + strings.Repeat("*a* ", mostMarks/2), "# " + strings.Repeat("*a* ", mostMarks/2+1), "Emphasis"},
		"columns":  {columns(widestTable - 1), columns(widestTable + 1), "Table"},
		"targets":  {targets(mostTargets), targets(mostTargets + 1), ""},
		"repeated": {"[a]: /" + strings.Repeat("u", 1000) + "\n\n[a]", "[a]: /" + strings.Repeat("u", borrowed) + "\n\n[a] [a] [a]", ""},
	} {
		book, list := Parse(source.New("a.md", []byte(c.at)), NewLexicon())
		if len(list) != 0 || c.kind != "" && count(book.Prose, c.kind) == 0 {
			t.Errorf("%s: at the bound %v, %d of %s", name, list, count(book.Prose, c.kind), c.kind)
		}
		book, list = Parse(source.New("a.md", []byte(c.beyond)), NewLexicon())
		if len(list) != 1 || list[0].Code != "prose-as-typed" || c.kind != "" && count(book.Prose, c.kind) != 0 {
			t.Errorf("%s: beyond the bound %v, %d of %s", name, list, count(book.Prose, c.kind), c.kind)
		}
		var kept strings.Builder
		ast.Walk(book.Prose, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if text, ok := n.(*ast.Text); ok && entering {
				kept.Write(text.Segment.Value(book.File.Text))
			}
			return ast.WalkContinue, nil
		})
		if want := strings.Count(c.beyond, "a") + strings.Count(c.beyond, "fog"); name != "repeated" && strings.Count(kept.String(), "a")+strings.Count(kept.String(), "fog") != want {
			t.Errorf("%s: of %d words %q is kept", name, want, kept.String())
		}
	}
}

func count(n ast.Node, kind string) int {
	found := 0
	ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering && n.Kind().String() == kind {
			found++
		}
		return ast.WalkContinue, nil
	})
	return found
}
