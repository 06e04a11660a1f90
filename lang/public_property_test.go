package lang_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"notchbook/lang/source"
)

// prose is a block of random Markdown, made of words that stand nowhere else.
type prose struct {
	kind  string     // paragraph, heading, list, item, quote, code, table
	lines [][]string // the words of a paragraph, a heading, or of rows
	level int        // of a heading
	inner []*prose
	tight bool // no blank line is above it, or between the items of a list

	line, word int    // where the mark stands, if it does
	mark       string // how
}

// prosing makes random Markdown.
type prosing struct {
	t      *rapid.T
	words  int
	leaves []*prose
	up     map[*prose]*prose
}

func (p *prosing) lines(least, most int) (lines [][]string) {
	for range rapid.IntRange(least, most).Draw(p.t, "lines") {
		var words []string
		for range rapid.IntRange(1, 3).Draw(p.t, "words") {
			words = append(words, fmt.Sprintf("q%c%c%c", 'a'+p.words/676, 'a'+p.words/26%26, 'a'+p.words%26))
			p.words++
		}
		lines = append(lines, words)
	}
	return lines
}

// blocks are some in a row. None is of the kind of the one before, which would go on with it.
func (p *prosing) blocks(up *prose, depth int) {
	last := ""
	for i := range rapid.IntRange(1, 4).Draw(p.t, "blocks") {
		kinds := []string{"paragraph", "paragraph"}
		if i > 0 || up.kind != "item" {
			for _, k := range []string{"heading", "list", "quote", "code", "table"} {
				if k != last && (depth < 3 || k != "list" && k != "quote") {
					kinds = append(kinds, k)
				}
			}
		}
		b := &prose{kind: rapid.SampledFrom(kinds).Draw(p.t, "kind")}
		p.up[b], last = up, b.kind
		up.inner = append(up.inner, b)
		b.tight = (b.kind == "list" || b.kind == "quote" || b.kind == "code") && i > 0 && up.inner[i-1].kind == "paragraph" && rapid.Bool().Draw(p.t, "tight")
		switch b.kind {
		case "paragraph":
			b.lines = p.lines(1, 3)
			p.leaves = append(p.leaves, b)
		case "heading":
			b.lines, b.level = p.lines(1, 1), rapid.IntRange(1, 3).Draw(p.t, "level")
			p.leaves = append(p.leaves, b)
		case "code", "table":
			b.lines = p.lines(2, 3)
			p.leaves = append(p.leaves, b)
		case "quote":
			p.blocks(b, depth+1)
		case "list":
			for range rapid.IntRange(1, 3).Draw(p.t, "items") {
				item := &prose{kind: "item", tight: b.tight}
				p.up[item] = b
				b.inner = append(b.inner, item)
				p.blocks(item, depth+1)
			}
		}
	}
}

// write is the lines of a block.
func (b *prose) write() (lines []string) {
	text := func(i int) string {
		words := b.lines[i]
		switch {
		case b.mark == "" || i != b.line:
			return strings.Join(words, " ")
		case b.word == 0:
			return b.mark + strings.Join(words, " ")
		}
		return strings.Join(words[:b.word], " ") + ". " + b.mark + strings.Join(words[b.word:], " ")
	}
	switch b.kind {
	case "paragraph":
		for i := range b.lines {
			lines = append(lines, text(i))
		}
	case "heading":
		return []string{strings.Repeat("#", b.level) + " " + text(0)}
	case "code":
		lines = append(lines, "```")
		for i := range b.lines {
			lines = append(lines, text(i))
		}
		lines = append(lines, "```")
	case "table":
		for i := range b.lines {
			lines = append(lines, "| a | "+text(i)+" | b |")
			if i == 0 {
				lines = append(lines, "|---|---|---|")
			}
		}
	default:
		for i, inner := range b.inner {
			if i > 0 && !inner.tight {
				lines = append(lines, "")
			}
			lines = append(lines, inner.write()...)
		}
		for i, line := range lines {
			switch {
			case b.kind == "quote":
				lines[i] = strings.TrimRight("> "+line, " ")
			case b.kind == "item" && i == 0:
				lines[i] = "- " + line
			case b.kind == "item" && line != "":
				lines[i] = "  " + line
			}
		}
	}
	return lines
}

// belonging is the words that go with the mark in a block, which is one of those in up.
func (b *prose) belonging(up *prose) map[string]bool {
	set := map[string]bool{}
	from := slices.Index(up.inner, b) + 1
	switch first := b.line == 0 && b.word == 0; {
	case b.kind == "table" && b.line == 0:
		b.all(set)
		return set
	case b.kind == "table":
		(&prose{lines: b.lines[b.line : b.line+1]}).all(set)
		return set
	case b.kind == "heading" && first:
		b.all(set)
		for _, below := range up.inner[from:] {
			if below.kind == "heading" && below.level <= b.level {
				break
			}
			below.all(set)
		}
		return set
	case b.kind == "paragraph" && first && from == 1 && up.kind != "notes":
		up.all(set)
		return set
	case b.kind == "paragraph" && from < len(up.inner) && up.inner[from].kind != "paragraph" && up.inner[from].kind != "heading":
		up.inner[from].all(set)
	}
	(&prose{lines: append([][]string{b.lines[b.line][b.word:]}, b.lines[b.line+1:]...)}).all(set)
	return set
}

// all adds the words of a block to a set.
func (b *prose) all(set map[string]bool) {
	for _, words := range b.lines {
		for _, word := range words {
			set[word] = true
		}
	}
	for _, inner := range b.inner {
		inner.all(set)
	}
}

// scraps are what notes with private remarks are made of, and what should not stand there.
var scraps = []string{
	"private:", "Private ", "private note: ", "**private:**", "## ", "\n", "\n\n", "- ", "  ", "    ", "> ", "1. ", "| ", "|---|---|\n", "```\n", "<!-- ", "-->", "<div>", "</div>", "<p>", "</p>",
	"~~", "**", "`", "(", ")", "[", "]", "![", "](a)", "\"", "“", "’", " – ", ";", ",", ". ", ":", "[^1]: ", "tea ", "\nday: 1991-06-22, Quarry\n", "\n1A: f16, 1/8\n", "\n1B: f22 -- ", "\n1B; f16, 1/8\n", "\r\n", "\u2028", "\ufeff", "\xfe", "<img alt=", "===\n", "\t",
}

// Of any text the lines keep their numbers, and no log line without the mark goes: in code and
// comments there is none.
func TestPublicOfAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(scraps), 0, 60).Draw(t, "scraps"), "") + "\nthe end\n"
		_, got := publicOf(text)
		for _, line := range []string{"\nday: 1991-06-22, Quarry\n", "\n1A: f16, 1/8\n"} {
			if want, have := strings.Count(text, line), strings.Count(got, line); have < want && !strings.Contains(text, "```") && !strings.Contains(text, "<!-- ") {
				t.Fatalf("%q stands %d times in %q, and %d times in %q", line, want, text, have, got)
			}
		}
		if want, have := len(source.New("", []byte(text)).Lines()), len(source.New("", []byte(got)).Lines()); want != have {
			t.Fatalf("%q has %d lines, %q has %d", text, want, got, have)
		}
	})
}

// Wherever in whatever Markdown the mark stands, what belongs to it is gone and all else is
// there.
func TestPublicOfRandomMarkdown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := prosing{t: t, up: map[*prose]*prose{}}
		notes := &prose{kind: "notes"}
		p.blocks(notes, 0)
		if len(p.leaves) == 0 {
			t.Skip()
		}
		marked := rapid.SampledFrom(p.leaves).Draw(t, "marked")
		marked.line = rapid.IntRange(0, len(marked.lines)-1).Draw(t, "line")
		marked.word = rapid.IntRange(0, len(marked.lines[marked.line])-1).Draw(t, "word")
		marked.mark = rapid.SampledFrom([]string{"private: ", "Private note: ", "**private:** ", "privat: "}).Draw(t, "mark")
		if marked.kind == "heading" && marked.word == 0 {
			marked.mark = rapid.SampledFrom([]string{"Private ", "private: ", "*Private* – "}).Draw(t, "mark")
		}
		private := marked.belonging(p.up[marked])

		text := strings.Join(notes.write(), "\n") + "\n"
		_, got := publicOf(text)
		every := map[string]bool{}
		notes.all(every)
		for word := range every {
			if strings.Contains(got, word) == private[word] {
				t.Fatalf("%s: private %v\n%s\nis published as\n%s", word, private[word], text, got)
			}
		}
		if strings.Count(got, "\n") != strings.Count(text, "\n") {
			t.Fatalf("the lines of\n%s\nhave other numbers in\n%s", text, got)
		}
		if again, more := publicOf(got); again.Private {
			t.Fatalf("what is published,\n%s\nis again without something:\n%s", got, more)
		}
	})
}
