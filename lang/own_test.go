package lang

import (
	"strings"
	"testing"

	"notchbook/lang/source"
)

// The writer's own words are read like the notation's, from the line on that
// makes them; calls hold in the whole notebook and in those after it.
func TestOwnWords(t *testing.T) {
	names := NewLexicon()
	parse := func(text string) string {
		book, list := Parse(source.New("notes.md", []byte(text)), names)
		var all []string
		for _, s := range book.Statements {
			all = append(all, s.String())
		}
		for _, d := range list {
			all = append(all, "!"+d.Code)
		}
		return strings.Join(all, "\n")
	}
	for _, c := range [][2]string{
		{"word: leaf = sheet, seen = scene\nleaf 3A: f16\nseen: Gate post", "word: leaf = sheet, seen = scene\nsheet 3A: f/16\nscene: Gate post"},
		{"Leafs 4A: f16", ""}, // only the word itself
		{"3A: the orange one, f16\ncall: the orange one = O21 x4, usual = 1/30 f16\n3B: Usual, N", "sheet 3A: filter O21 ×4 | f/16\ncall: the orange one = O21 x4, usual = 1/30 f16\nsheet 3B: 1/30 f/16 | N"},
		{"leaf 5A: usual", "sheet 5A: 1/30 f/16"},
		{"filter orange: orange 21, 2 stops.\n3A: orange, f16\n3B: orange 21 f16\nfilter: orange",
			"filter orange: filter orange 21 | 2 stops\nsheet 3A: filter orange | f/16\nsheet 3B: filter orange 21 | f/16\nfilter: filter orange"},
		{"call: loop = loop", "call: loop = loop\n!own-word-unclear"},
		{"word: sheet = scene", "word: sheet = scene\n!own-word-unclear"},
		{"word: two words = scene", "word: two words = scene\n!own-word-unclear"},
		{"call: nothing =", "call: nothing =\n!own-word-unclear"},
	} {
		if got := parse(c[0]); got != c[1] {
			t.Errorf("%s\n got %s\nwant %s", c[0], got, c[1])
		}
	}
	for text, want := range map[string]string{"word: nil = no filter": "another way to write a term is a call: call: nil = no filter", "word: plate = shet": `"sheet" is near`} {
		_, list := Parse(source.New("notes.md", []byte(text)), NewLexicon())
		if len(list) != 1 || len(list[0].Notes) != 2 || list[0].Notes[1].Text != want {
			t.Errorf("%s: %v, want %q", text, list, want)
		}
	}
	other := NewLexicon()
	other.Add(names)
	if other.Words["leaf"] != Sheet || other.Calls["usual"] != "1/30 f16" {
		t.Error("own words are not handed on")
	}
}

// A notebook's lines in every place where Markdown would swallow them.
func TestWhereLogLinesAreRead(t *testing.T) {
	for _, text := range []string{
		"3A: f16\n---\n", "3A: f16\n===\n", "    3A: f16\n", "\t3A: f16\n", "> 3A: f16\n", "- a\n3A: f16\n", "<!-- note\n3A: f16\n",
		"prose\n3A: f16\nprose\n", "*3A*\n\n3A: f16", "\xef\xbb\xbf3A: f16\r", "x\u2028" + "3A: f16\u2028y", "    - 3A: f16", "1. a\n   - 3A: f16\n", "a | b\n3A: f16\n",
	} {
		book, list := Parse(source.New("notes.md", []byte(text)), NewLexicon())
		if len(book.Statements) != 1 || len(list) != 0 || book.Statements[0].String() != "sheet 3A: f/16" {
			t.Errorf("%q: %v %v", text, book.Statements, list)
		}
	}
}
