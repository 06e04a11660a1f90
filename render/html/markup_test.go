package html

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// TestNoTextIsMarkup reads the sources: nothing but what stands in them is put on
// a page as it is, and only markup hands finished HTML to a template.
func TestNoTextIsMarkup(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	set, read := token.NewFileSet(), 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		read++
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) != 1 {
				return true
			}
			_, literal := call.Args[0].(*ast.BasicLit)
			switch f := call.Fun.(type) {
			case *ast.Ident:
				if f.Name == "constant" && !literal {
					t.Errorf("%s: a text is called a constant", set.Position(n.Pos()))
				}
			case *ast.SelectorExpr:
				x, _ := f.X.(*ast.Ident)
				if x != nil && x.Name == "template" && f.Sel.Name != "Must" && !strings.HasSuffix(set.Position(n.Pos()).Filename, "markup.go") && f.Sel.Name != "New" {
					t.Errorf("%s: template.%s outside of markup", set.Position(n.Pos()), f.Sel.Name)
				}
			}
			return true
		})
	}
	if read < 10 {
		t.Errorf("only %d sources were read", read)
	}
}

// TestEscaping: a text is read back by another parser of HTML as it was, in an
// element and in an attribute, but for NUL, which HTML has not.
func TestEscaping(t *testing.T) {
	var all strings.Builder
	for b := range 256 {
		if b != '\r' { // which HTML reads as a line end
			all.WriteString(string(rune(b)))
		}
	}
	for _, text := range []string{hostile, all.String(), "&lt;", "&#34;", "a&b", "½ f/16½ – ‘x’", "</textarea>", "`\u2028"} {
		m := (&markup{}).put(`<p title="`).text(text).put(`">`).text(text).put("</p>")
		doc := parse(t, m.out)
		want := strings.ReplaceAll(text, "\x00", "\uFFFD")
		found := false
		for n := range doc.Descendants() {
			if n.Type == html.ElementNode && n.Data == "p" {
				found = true
				if title, _ := attr(n, "title"); title != want || len(n.Attr) != 1 || n.FirstChild != n.LastChild || n.FirstChild.Data != want {
					t.Errorf("%q is read as %q and %v", text, title, n.FirstChild)
				}
			}
		}
		if !found {
			t.Errorf("%q: no element", text)
		}
	}
	for url, want := range map[string]string{
		"javascript:alert(1)": "#", "JAVASCRIPT:x": "#", "data:text/html,x": "#", "a.html#x:y": "a.html#x:y", "../a:b": "../a:b", "https://example.org/": "https://example.org/", "x": "x",
	} {
		if got := string((&markup{}).link("href", url).out); got != ` href="`+want+`"` {
			t.Errorf("link to %q: %s", url, got)
		}
	}
}
