package lang

import (
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

// An example is a line as typed and, behind "    = ", what it means.
func check(t *testing.T, where, text string) (examples int) {
	t.Helper()
	line := ""
	for _, next := range strings.Split(text, "\n") {
		want, isMeaning := strings.CutPrefix(next, "    = ")
		if !isMeaning {
			line = next
			continue
		}
		examples++
		if got := meaning(t, line); got != want {
			t.Errorf("%s: %s\n got %s\nwant %s", where, line, got, want)
		}
	}
	return examples
}

// The tables in testdata/notation hold every term and trap of the notation.
func TestNotation(t *testing.T) {
	files, err := filepath.Glob("testdata/notation/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no tables", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if check(t, filepath.Base(name), string(text)) == 0 {
			t.Errorf("%s holds no example", name)
		}
	}
}

// Every example of the manual means what is written behind it, and those of its
// first page, which show no meaning, are read without a word.
func TestManual(t *testing.T) {
	text, err := os.ReadFile("NOTATION.md")
	if err != nil {
		t.Fatal(err)
	}
	howTo, reference, ok := strings.Cut(string(text), "\n# Reference\n")
	if !ok {
		t.Fatal("no reference")
	}
	for _, block := range blocks(howTo, "```\n") {
		if book, list := parseAfterKit(t, block); len(list) > 0 || len(book.Statements) != strings.Count(block, "\n") {
			t.Errorf("%s\n%d log lines, %v", block, len(book.Statements), list)
		}
	}
	if kit := blocks(reference, "```kit\n"); len(kit) != 1 || kit[0] != kitLines {
		t.Errorf("the manual's kit is %q", kit)
	}
	examples := 0
	for _, block := range blocks(reference, "```\n") {
		if n := check(t, "NOTATION.md", block); n == 0 {
			t.Errorf("no meaning in\n%s", block)
		} else {
			examples += n
		}
	}
	if examples < 100 {
		t.Errorf("%d examples", examples)
	}
}

// blocks are the fenced blocks of a text that open in one way.
func blocks(text, open string) []string {
	var all []string
	for rest := text; ; {
		at := strings.Index(rest, "\n```")
		if at < 0 {
			return all
		}
		rest = rest[at+1:]
		line, after, _ := strings.Cut(rest, "\n")
		body, next, _ := strings.Cut(after, "\n```")
		if line+"\n" == open {
			all = append(all, body+"\n")
		}
		rest = next
	}
}

// Spans point to the bytes as typed, whatever was folded.
func TestSpansAreAsTyped(t *testing.T) {
	for line, want := range map[string]string{
		"3A: f16½, 1⁄30, “frost”, N−1 — wind":           "f16½|1⁄30|“frost”|N−1|— wind",
		"\ufeff３Ａ： Y8×2\u00a0ｆ１６½\u2009⅟15":             "Y8×2|ｆ１６½\u2009⅟15",
		"- sheet\u00a03A: ƒ/16 1/30\u200b, EV 5 on Ⅲ½?": "ƒ/16 1/30|EV 5 on Ⅲ½?",
		"3A:\t20s→45s f32\r":                            "20s|→|45s f32",
		"> 3A: tilt 4º, f5·6 ¹⁄₁₅, ~~“x”~~ 2s\u2028":    "tilt 4º|f5·6 ¹⁄₁₅|“x”|2s",
		"3A: no filter, pol. f16 (the ‘good’ one)":      "no filter|pol|f16|(the ‘good’ one)",
	} {
		book, list := parseAfterKit(t, line)
		var got []string
		for _, s := range book.Statements {
			for _, term := range s.Terms() {
				if term.Kind != comma {
					got = append(got, term.Span.Text())
				}
			}
		}
		if text := strings.Join(got, "|"); text != want {
			t.Errorf("%q\n got %s\nwant %s %v", line, text, want, list)
		}
	}
}
