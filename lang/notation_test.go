package lang

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// kitLines are what the lines of the tables are read after: a filter or two, a
// lens, a loaded holder.
const kitLines = "filter Y8: x2\nfilter R25: x8\nfilter CF: 1 stop\nlens 300: 300 mm\nfilm slate: ISO 400\nload 1A-5B: slate\nload 12: slate\n"

// parseAfterKit reads one line behind the kit.
func parseAfterKit(t testing.TB, line string) (*Notebook, diag.List) {
	t.Helper()
	names := NewLexicon()
	if _, list := Parse(source.New("kit.md", []byte(kitLines)), names); len(list) != 0 {
		t.Fatalf("the kit is reported: %v", list)
	}
	return Parse(source.New("notes.md", []byte(line)), names)
}

// meaning is what a line is read as, "prose" where it is none, and the codes of
// what is reported.
func meaning(t testing.TB, line string) string {
	book, list := parseAfterKit(t, line)
	text := "prose"
	if n := len(book.Statements); n > 0 {
		text = book.Statements[n-1].String()
	}
	for _, d := range list {
		text += " !" + d.Code
	}
	return text
}

// Each table in testdata/notation holds a line as typed, then, indented, what it
// means; a blank line, or one that begins with #, between.
func TestNotation(t *testing.T) {
	files, err := filepath.Glob("testdata/notation/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no tables", err)
	}
	for _, name := range files {
		file, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		line := ""
		for in := bufio.NewScanner(file); in.Scan(); {
			text := in.Text()
			switch {
			case text == "" || strings.HasPrefix(text, "# "):
				line = ""
			case strings.HasPrefix(text, "    = "):
				if got := meaning(t, line); got != strings.TrimPrefix(text, "    = ") {
					t.Errorf("%s: %s\n got %s\nwant %s", filepath.Base(name), line, got, strings.TrimPrefix(text, "    = "))
				}
			default:
				line = text
			}
		}
	}
}
