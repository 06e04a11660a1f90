package lang

import (
	"os"
	"strings"
	"testing"

	"notchbook/lang/source"
)

// Ordinary prose, with all its colons, times, ratios and lists, is neither read
// nor reported, line by line behind a kit and as one text.
func TestProseIsLeftAlone(t *testing.T) {
	text, err := os.ReadFile("testdata/prose.txt")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if len(lines) < 200 {
		t.Errorf("%d lines are no corpus", len(lines))
	}
	for _, line := range lines {
		if got := meaning(t, line); got != "prose" {
			t.Errorf("%s\n    %s", line, got)
		}
	}
	book, list := parseAfterKit(t, string(text))
	if len(book.Statements) != 0 || len(list) != 0 {
		t.Errorf("in one text: %d log lines, %v", len(book.Statements), list)
	}
}

// No line of the example is reported by the reader.
func TestTheExampleIsRight(t *testing.T) {
	names := NewLexicon()
	for _, name := range []string{"kit.md", "2026-10-04-brickworks.md", "2026-10-25-drying-shed.md", "2026-11-07-wharf.txt"} {
		text, err := os.ReadFile("../examples/aldermoor/" + name)
		if err != nil {
			t.Fatal(err)
		}
		book, list := Parse(source.New(name, text), names)
		for _, d := range list {
			t.Errorf("%s:%d: %s", name, book.File.Position(d.Span.Start).Line, d.Message)
		}
	}
}
