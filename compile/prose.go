package compile

import (
	"bufio"
	"bytes"
	"html"
	"math"
	"net/url"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	markup "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"notchbook/compile/record"
)

// Prose leaves goldmark here: what the record holds is structure and plain
// text, so that each output escapes for its own medium and none knows Markdown.

// prose turns goldmark's nodes of one notebook into blocks.
type prose struct {
	src  []byte // what goldmark read
	book string // the notebook's name
}

func proseOf(b *book) prose {
	return prose{src: b.File.Flat()[b.File.Mark():], book: b.name}
}

// evenly is a title, a name or a remark with one blank wherever the notes have several, or
// tabs: they are typed to stand in columns, and an output has columns of its own.
func evenly(text string) string {
	if !strings.Contains(text, "  ") && !strings.ContainsAny(text, "\t\n\r\f\v") {
		return text
	}
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\n\r\f\v", r) }), " ")
}

func allEvenly(texts []string) []string {
	out := slices.Clone(texts)
	for i := range out {
		out[i] = evenly(out[i])
	}
	return out
}

func plainText(n ast.Node, b *book) string {
	var text strings.Builder
	words(&text, proseOf(b).inlines(n))
	return text.String()
}

// typed is the source of a block's own lines, and of what it holds.
func typed(n ast.Node, b *book) string {
	from, to := math.MaxInt, 0
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Type() == ast.TypeInline || !entering {
			return ast.WalkContinue, nil
		}
		if lines := n.Lines(); lines.Len() > 0 {
			from, to = min(from, lines.At(0).Start), max(to, lines.At(lines.Len()-1).Stop)
		}
		return ast.WalkContinue, nil
	})
	if from >= to {
		return ""
	}
	return string(proseOf(b).src[from:to])
}

func words(to *strings.Builder, all []record.Inline) {
	for _, in := range all {
		to.WriteString(in.Text)
		if in.Kind == record.SoftBreak || in.Kind == record.HardBreak {
			to.WriteByte(' ')
		}
		words(to, in.Inlines)
	}
}

// block turns a block node; ok is false for nodes that show nothing.
func (p prose) block(n ast.Node) (b record.Block, ok bool) {
	switch n := n.(type) {
	case *ast.Heading:
		return record.Block{Kind: record.Heading, Level: n.Level, Text: p.inlines(n)}, true
	case *ast.Paragraph, *ast.TextBlock:
		return record.Block{Kind: record.Paragraph, Text: p.inlines(n)}, true
	case *ast.ThematicBreak:
		return record.Block{Kind: record.Rule}, true
	case *ast.Blockquote:
		return record.Block{Kind: record.Quote, Blocks: p.blocks(n)}, true
	case *ast.List:
		return record.Block{Kind: record.List, Ordered: n.IsOrdered(), Start: n.Start, Tight: n.IsTight, Blocks: p.blocks(n)}, true
	case *ast.ListItem:
		return p.item(n), true
	case *ast.FencedCodeBlock:
		info := ""
		if n.Info != nil {
			info = asMeant(n.Info.Segment.Value(p.src))
		}
		return record.Block{Kind: record.Code, Code: p.lines(n), Info: info}, true
	case *ast.CodeBlock:
		return record.Block{Kind: record.Code, Code: p.lines(n)}, true
	case *east.Table:
		return p.table(n), true
	}
	return record.Block{}, false
}

func (p prose) blocks(parent ast.Node) []record.Block {
	var all []record.Block
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		if b, ok := p.block(n); ok {
			all = append(all, b)
		}
	}
	return all
}

// item reads the box of a task, which is not Markdown's own.
func (p prose) item(n *ast.ListItem) record.Block {
	b := record.Block{Kind: record.ListItem, Blocks: p.blocks(n)}
	if len(b.Blocks) == 0 || len(b.Blocks[0].Text) == 0 {
		return b
	}
	first := &b.Blocks[0].Text[0]
	for box, task := range map[string]string{"[ ] ": " ", "[x] ": "x", "[X] ": "x"} {
		if rest, found := strings.CutPrefix(first.Text, box); found && first.Kind == record.Words {
			first.Text, b.Task = rest, task
			return b
		}
	}
	return b
}

func (p prose) lines(n ast.Node) string {
	var text strings.Builder
	for i := range n.Lines().Len() {
		segment := n.Lines().At(i)
		text.Write(segment.Value(p.src))
	}
	return text.String()
}

func (p prose) table(n *east.Table) record.Block {
	b := record.Block{Kind: record.Table}
	for row := n.FirstChild(); row != nil; row = row.NextSibling() {
		_, head := row.(*east.TableHeader)
		r := record.Block{Kind: record.Row, Head: head}
		for c := row.FirstChild(); c != nil; c = c.NextSibling() {
			cell, _ := c.(*east.TableCell)
			align := ""
			if cell != nil && cell.Alignment != east.AlignNone {
				align = cell.Alignment.String()
			}
			r.Blocks = append(r.Blocks, record.Block{Kind: record.Cell, Align: align, Text: p.inlines(c)})
		}
		b.Blocks = append(b.Blocks, r)
	}
	return b
}

func (p prose) inlines(parent ast.Node) []record.Inline {
	var all []record.Inline
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		all = p.inline(all, n)
	}
	return all
}

func (p prose) inline(all []record.Inline, n ast.Node) []record.Inline {
	switch n := n.(type) {
	case *ast.Text:
		all = join(all, asMeant(n.Segment.Value(p.src)))
		switch {
		case n.HardLineBreak():
			all = append(all, record.Inline{Kind: record.HardBreak})
		case n.SoftLineBreak():
			all = append(all, record.Inline{Kind: record.SoftBreak})
		}
		return all
	case *ast.String:
		return join(all, string(n.Value))
	case *ast.CodeSpan:
		return append(all, record.Inline{Kind: record.CodeSpan, Text: p.code(n)})
	case *ast.Emphasis:
		kind := record.Emphasis
		if n.Level > 1 {
			kind = record.Strong
		}
		return append(all, record.Inline{Kind: kind, Inlines: p.inlines(n)})
	case *east.Strikethrough:
		return append(all, record.Inline{Kind: record.Struck, Inlines: p.inlines(n)})
	case *ast.Link:
		return append(all, record.Inline{Kind: record.Link, Title: asMeant(n.Title), Target: p.target(destination(n.Destination)), Inlines: p.inlines(n)})
	case *ast.AutoLink:
		label := string(n.Label(p.src))
		to := string(n.URL(p.src))
		if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(to), "mailto:") {
			to = "mailto:" + to
		}
		return append(all, record.Inline{Kind: record.Link, Target: p.target(to),
			Inlines: []record.Inline{{Kind: record.Words, Text: label}}})
	case *ast.Image:
		var text strings.Builder
		words(&text, p.inlines(n))
		return append(all, record.Inline{Kind: record.Picture, Text: text.String(), Title: asMeant(n.Title), Target: p.target(destination(n.Destination))})
	}
	return append(all, p.inlines(n)...)
}

// asMeant is a text with its character references and escapes read as CommonMark
// has them. goldmark reads them on the way to HTML only, so that is where it is
// fetched back from.
func asMeant(text []byte) string {
	if bytes.IndexByte(text, '\\') < 0 && bytes.IndexByte(text, '&') < 0 && bytes.IndexByte(text, 0) < 0 {
		return string(text)
	}
	var b bytes.Buffer
	w := bufio.NewWriter(&b)
	markup.DefaultWriter.Write(w, text)
	w.Flush()
	return html.UnescapeString(b.String())
}

// destination is where a link leads, encoded as a URI is.
func destination(to []byte) string { return string(util.URLEscape(to, true)) }

// code is the text of a code span, in which nothing is read; a line's end is a
// blank.
func (p prose) code(n ast.Node) string {
	var text strings.Builder
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			text.WriteString(strings.ReplaceAll(string(t.Segment.Value(p.src)), "\n", " "))
		}
	}
	return text.String()
}

// join adds words, to the words before where there are any.
func join(all []record.Inline, text string) []record.Inline {
	if text == "" {
		return all
	}
	if n := len(all); n > 0 && all[n-1].Kind == record.Words {
		all[n-1].Text += text
		return all
	}
	return append(all, record.Inline{Kind: record.Words, Text: text})
}

// target is where a link may lead: the open web, a mail address, or a file of
// the season's folder. Anything else leads nowhere.
func (p prose) target(to string) record.Target {
	u, err := url.Parse(to)
	if err != nil {
		return record.Target{}
	}
	switch strings.ToLower(u.Scheme) {
	case "http", "https":
		if u.Host == "" {
			return record.Target{}
		}
		return record.Target{URL: u.String()}
	case "mailto":
		return record.Target{URL: u.String()}
	case "":
		return p.file(u)
	}
	return record.Target{}
}

func (p prose) file(u *url.URL) record.Target {
	if u.Host != "" || u.Path == "" || strings.HasPrefix(u.Path, "/") || strings.Contains(u.Path, `\`) {
		return record.Target{}
	}
	full := path.Join(path.Dir(p.book), u.Path)
	if full == "." || full == ".." || strings.HasPrefix(full, "../") {
		return record.Target{}
	}
	return record.Target{Path: full}
}
