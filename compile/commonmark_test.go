package compile_test

import (
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
	"golang.org/x/net/html"

	"notchbook/compile"
	"notchbook/compile/record"
)

// Prose is CommonMark: the 652 examples of the specification (testdata/commonmark)
// go through all of the compiler, and the record has the blocks, the emphasis,
// the links and the words that the specification's HTML has. What looks like HTML
// is text with us; those examples are counted, and every word of them must be kept.
func TestProseIsCommonMark(t *testing.T) {
	data, err := os.ReadFile("../testdata/commonmark/spec.json")
	if err != nil {
		t.Fatal(err)
	}
	var examples []struct {
		Markdown, HTML, Section string
		Example                 int
	}
	if err := json.Unmarshal(data, &examples); err != nil {
		t.Fatal(err)
	}
	alike, raw := 0, []int(nil)
	for _, e := range examples {
		got := outline(proseOf(t, e.Markdown))
		if hasHTML(e.Markdown) {
			raw = append(raw, e.Example)
			for _, word := range strings.FieldsFunc(e.Markdown, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
				if !strings.Contains(got, word) && !slices.Contains(unseen[e.Example], word) {
					t.Errorf("example %d, %s:\n%q\nloses %q: %s", e.Example, e.Section, e.Markdown, word, got)
				}
			}
			continue
		}
		if why, other := ours[e.Example]; other {
			if got == outlineHTML(t, e.HTML) {
				t.Errorf("example %d is as the specification has it, though %s", e.Example, why)
			}
			continue
		}
		if want := outlineHTML(t, e.HTML); got != want && got != withoutTitle(want) {
			t.Errorf("example %d, %s:\n%q\n got %s\nwant %s", e.Example, e.Section, e.Markdown, got, want)
			continue
		}
		alike++
	}
	t.Logf("%d examples are as the specification has them; %d hold HTML, which is text: %v; %d differ for another reason", alike, len(raw), raw, len(ours))
	if alike+len(raw)+len(ours) != 652 {
		t.Errorf("%d and %d and %d examples are not 652", alike, len(raw), len(ours))
	}
}

// unseen are the words of those examples that no reader sees in CommonMark either:
// names of characters, what a fence says of its code, where a link leads.
var unseen = map[int][]string{31: {"ouml"}, 161: {"c"}, 524: {"baz"}, 536: {"ref", "uri"}, 630: {"ouml"}}

// ours are the examples that differ because of what we add to Markdown, or leave out.
var ours = map[int]string{
	346: "a host's name has no such character, and leads nowhere",
}

// withoutTitle leaves out the last heading of the first level: as the outing's
// title it stands at the outing's head and not in its prose.
func withoutTitle(outline string) string {
	from := strings.LastIndex(outline, "(h1")
	if from < 0 {
		return outline
	}
	depth := 0
	for i, c := range outline[from:] {
		switch c {
		case '(':
			depth++
		case ')':
			depth--
		}
		if depth == 0 {
			return strings.TrimSpace(outline[:from] + outline[from+i+1:])
		}
	}
	return outline
}

func proseOf(t *testing.T, markdown string) []record.Block {
	t.Helper()
	world := compile.World{Read: func(string) ([]byte, error) { return []byte(markdown), nil }}
	season, _ := compile.Compile(world, "notes.md")
	var all []record.Block
	for _, o := range season.Outings {
		for _, e := range o.Entries {
			if e.Prose != nil {
				all = append(all, *e.Prose)
			}
		}
	}
	return all
}

// hasHTML tells whether Markdown as such takes something for HTML.
func hasHTML(markdown string) bool {
	found := false
	p := parser.NewParser(parser.WithBlockParsers(parser.DefaultBlockParsers()...), parser.WithInlineParsers(parser.DefaultInlineParsers()...),
		parser.WithParagraphTransformers([]util.PrioritizedValue(parser.DefaultParagraphTransformers())...))
	ast.Walk(p.Parse(text.NewReader([]byte(markdown))), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		found = found || n.Kind() == ast.KindHTMLBlock || n.Kind() == ast.KindRawHTML
		return ast.WalkContinue, nil
	})
	return found
}

// outline writes blocks in one form for both sides: names of kinds, words, and no
// difference between a line's end and a blank.
func outline(all []record.Block) string {
	var b strings.Builder
	for _, block := range all {
		outlineBlock(&b, block, false)
	}
	return settled(b.String())
}

func outlineBlock(b *strings.Builder, k record.Block, tight bool) {
	inner := func(name string, tight bool) {
		b.WriteString("(" + name)
		if k.Task != "" {
			b.WriteString("[" + k.Task + "] ")
		}
		outlineInlines(b, k.Text)
		for _, x := range k.Blocks {
			outlineBlock(b, x, tight)
		}
		b.WriteString(")")
	}
	switch k.Kind {
	case record.Paragraph:
		if tight {
			outlineInlines(b, k.Text)
			b.WriteString(" ")
			return
		}
		inner("p ", false)
	case record.Heading:
		inner(fmt.Sprintf("h%d ", k.Level), false)
	case record.List:
		name := "ul "
		if k.Ordered {
			name = fmt.Sprintf("ol %d ", k.Start)
		}
		inner(name, k.Tight)
	case record.ListItem:
		inner("li ", tight)
	case record.Quote:
		inner("blockquote ", false)
	case record.Code:
		fmt.Fprintf(b, "(pre %q)", k.Code)
	case record.Rule:
		b.WriteString("(hr)")
	default:
		inner(fmt.Sprint(k.Kind)+" ", tight)
	}
}

func outlineInlines(b *strings.Builder, all []record.Inline) {
	for _, in := range all {
		inner := func(name string) {
			b.WriteString("(" + name)
			outlineInlines(b, in.Inlines)
			b.WriteString(")")
		}
		switch in.Kind {
		case record.Words:
			b.WriteString(in.Text)
		case record.CodeSpan:
			fmt.Fprintf(b, "(code %q)", in.Text)
		case record.Emphasis:
			inner("em ")
		case record.Strong:
			inner("strong ")
		case record.Link:
			inner("a " + same(in.Target.URL) + fmt.Sprintf("%q ", in.Title))
		case record.Picture:
			fmt.Fprintf(b, "(img %q %q)", in.Text, in.Title)
		case record.SoftBreak:
			b.WriteString(" ")
		case record.HardBreak:
			b.WriteString("(br)")
		default:
			inner(fmt.Sprint(in.Kind) + " ")
		}
	}
}

func outlineHTML(t *testing.T, text string) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader("<body>" + text))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	outlineNodes(&b, doc.LastChild.LastChild)
	return settled(b.String())
}

func outlineNodes(b *strings.Builder, parent *html.Node) {
	attribute := func(n *html.Node, key string) string {
		for _, a := range n.Attr {
			if a.Key == key {
				return a.Val
			}
		}
		return ""
	}
	words := func(n *html.Node) (text string) {
		for d := range n.Descendants() {
			if d.Type == html.TextNode {
				text += d.Data
			}
		}
		return text
	}
	for n := range parent.ChildNodes() {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
			continue
		}
		switch n.Data {
		case "pre":
			fmt.Fprintf(b, "(pre %q)", words(n))
			continue
		case "code":
			fmt.Fprintf(b, "(code %q)", words(n))
			continue
		case "img":
			fmt.Fprintf(b, "(img %q %q)", attribute(n, "alt"), attribute(n, "title"))
			continue
		case "hr", "br":
			b.WriteString("(" + n.Data + ")")
			continue
		case "ol":
			start := attribute(n, "start")
			if start == "" {
				start = "1"
			}
			b.WriteString("(ol " + start + " ")
		case "a":
			to := attribute(n, "href")
			if scheme, rest, ok := strings.Cut(to, ":"); ok { // RFC 3986, 3.1: whatever its case
				to = strings.ToLower(scheme) + ":" + rest
			}
			if !strings.HasPrefix(to, "http://") && !strings.HasPrefix(to, "https://") && !strings.HasPrefix(to, "mailto:") {
				to = "" // where such a link leads is for other tests
			}
			fmt.Fprintf(b, "(a %s%q ", same(to), attribute(n, "title"))
		default:
			b.WriteString("(" + n.Data + " ")
		}
		outlineNodes(b, n)
		b.WriteString(")")
	}
}

// same writes a URI without the encoding of characters, of which some may be
// written either way.
func same(uri string) string {
	plain, err := url.PathUnescape(uri)
	if err != nil {
		return uri
	}
	return plain
}

// settled drops blanks that no page shows.
func settled(s string) string {
	s = strings.NewReplacer("\r", " ", "\n", " ").Replace(s)
	for _, pair := range [][2]string{{"  ", " "}, {" )", ")"}, {") (p", ")(p"}, {") (li", ")(li"}, {") ", ")"}} {
		for strings.Contains(s, pair[0]) {
			s = strings.ReplaceAll(s, pair[0], pair[1])
		}
	}
	for _, block := range []string{"p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "pre", "hr"} {
		s = strings.NewReplacer(" ("+block+" ", "("+block+" ", " ("+block+")", "("+block+")").Replace(s)
	}
	for _, block := range []string{"p", "ul", "ol", "li", "blockquote", "pre", "hr"} {
		s = strings.ReplaceAll(s, ") ("+block, ")("+block)
	}
	return strings.TrimSpace(s)
}
