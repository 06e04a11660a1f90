package lang

import (
	"fmt"
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

// Forty sheets in columns are one finding, three are three: each can be mended where it
// stands, or all together.
func TestManyLinesOfOneKindAreOneFinding(t *testing.T) {
	for n, want := range map[int]int{1: 1, 3: 3, 4: 1, 40: 1} {
		for name, row := range map[string]string{"columns": "%dA   gate   f16   1/60\n", "table": "| %dA | gate | f16 1/60 |\n"} {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, row, i+1)
			}
			_, list := Parse(source.New("n.md", []byte(b.String()+"\nNothing more that day.\n")), NewLexicon())
			if len(list) != want {
				t.Errorf("%d %s: %d findings, want %d", n, name, len(list), want)
			}
		}
	}
}

// A list in columns that begins with numbers and holds times is told of, with the aperture
// behind @ and without an f. One or two such lines alone are prose, and so are lists of
// other things.
func TestListsOfSheetsAreNoProse(t *testing.T) {
	for _, c := range []struct {
		row  string
		from int // rows from which on there is a finding
	}{
		{"86-0%02d  7.XI.86   Hollow End barn   tarn  210  no filter  read 1/30 @ 16  gave 1/30 @ 16   N  9 min 20C  binder 3 p. 14\n", 1},
		{"86-0%02d  7.XI.86   Hollow End barn   tarn  210  1/30   16   N\n", 3},
		{"%d\tMill race\tK2\t2s\t22\n", 3},
		{"%d   Soup   20 min   1/2 cup\n", 99},
		{"%d   Alder, by the gate   12 m   1986\n", 99},
	} {
		for _, n := range []int{1, 2, 3, 10} {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, c.row, i+41)
			}
			_, list := Parse(source.New("n.txt", []byte(b.String())), NewLexicon())
			if (len(list) > 0) != (n >= c.from) || n == 10 && len(list) > 1 {
				t.Errorf("%d rows of %q: %d findings", n, c.row, len(list))
			}
		}
	}
}

// Rows of which some have dashes or ditto marks in a column are one finding that counts
// every row, and none of them is mended alone.
func TestRowsOfColumnsAreOneFinding(t *testing.T) {
	for name, text := range map[string]string{
		"table":   "| no | filter | set |\n|----|----|----|\n| 1A | K2 | 1/30 f16 |\n| 1B | – | 1/60 f22 |\n| 2A | \" | \" |\n",
		"aligned": "94-001  K2  1/30 f16  N\n94-002  –   1/60 f22  N\n94-003  \"   \"         N\n",
		"sided":   "1A   K2  1/30 f16  N\n1B   -   1/60 f22, dark, cold, wet, none\n2A   \"   1986\n",
	} {
		book, list := Parse(source.New("n.md", []byte(text)), NewLexicon())
		rows := 0
		for _, l := range book.Lines {
			if l.Kind == Unread {
				rows++
			}
		}
		if len(list) != 1 || list[0].Fix != nil || !strings.HasPrefix(list[0].Message, "3 lines from here") || rows != 3 {
			t.Errorf("%s: %d rows unread, %v", name, rows, list)
		}
	}
}

// Ordinary words behind the settings are a remark, however near a term they lie, also
// before a number that is no setting.
func TestOrdinaryWordsAreNoTerms(t *testing.T) {
	for _, word := range strings.Fields("path wall one greek creating breaking headings extensions relative filtered sake note lone gone farm seen sight three steps") {
		for _, line := range []string{word, "the " + word + ".", word + " by the gate"} {
			if _, list := Parse(source.New("n.md", []byte("3A: 1/30 f16, "+line+"\n")), NewLexicon()); len(list) > 0 {
				t.Errorf("%s: %s", line, list[0].Message)
			}
		}
	}
}
