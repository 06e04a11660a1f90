package lang

import (
	"fmt"
	"os"
	"slices"
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
// stands, or all together. A table is one, however short.
func TestManyLinesOfOneKindAreOneFinding(t *testing.T) {
	for n, want := range map[int]int{1: 1, 3: 3, 4: 1, 40: 1} {
		for name, row := range map[string]string{"columns": "%dA   gate   f16   1/60\n", "table": "| %dA | gate | f16 1/60 |\n", "figures": "| %dA | R25 | 22 | 1 |\n"} {
			want := want
			if row[0] == '|' {
				want = 1
			}
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

// What is in a comment, in front matter or in a block of code that ends is no log line: it is
// named in a note, once, and nothing in it is reported.
func TestWhatIsSetApartIsNotRead(t *testing.T) {
	const front = "---\ntitle: Mill\ndate: 2026-01-01\nfilm: other\ntags:\n- fog\n\n# mine\nnotes: >\n  private: one\n  two\n---\n"
	for name, c := range map[string]struct {
		text     string
		log      int // lines
		findings string
	}{
		"a comment of several lines": {"2A: 1/30 f16\n<!--\n2A: R25 1/8 f22\nshet 2B: f16\n\n- 2B: 1/8 f22\n-->\n3A: 1/8 f16\n", 2, "note"},
		"comments of one line":       {"<!-- 2A: R25 1/8 f22 -->\n<!-- 2B: 1/8 f22 -->\n", 0, "note"},
		"behind terms":               {"2A: 1/30 f16 <!-- 1/2 at f22 would be Y8 -->\n", 1, ""},
		"behind terms, going on":     {"> 2A: 1/30 f16 <!-- then\n> 2B: 1/30 f16\n> -->\n> 3A: 1/30 f16\n", 2, "note"},
		"words":                      {"<!-- a remark\nof two lines: the mill -->\n", 0, ""},
		"a comment without an end":   {"<!--\n2A: 1/30 f16\n\n<!-- two -->\n3A: 1/30 f16\n", 2, ""},
		"front matter":               {front + "2A: 1/30 f16\n", 1, "note"},
		"front matter, CRLF":         {"\ufeff" + strings.ReplaceAll(front, "\n", "\r\n") + "2A: 1/30 f16\r\n", 1, "note"},
		"front matter without words": {"---\ntitle: Mill\n---\n2A: 1/30 f16\n", 1, ""},
		"prose behind a rule":        {"---\nday: 2026-10-04\nIt rained.\n\n---\n2A: 1/30 f16\n", 2, ""},
		"notes between rules":        {"---\nday: 2026-10-04\nlens: 300\n---\n2A: 1/30 f16\n", 3, ""},
		"further down":               {"\n" + front, 3, ""},
		"a fence":                    {"```\n2A: 1/30 f16\n```\n", 0, "note"},
		"a fence of tildes":          {"~~~\n2A: 1/30 f16\n~~~\n", 0, "note"},
		"a fence in a quote":         {"> ```\n> 2A: 1/30 f16\n> ```\nwords\n", 0, "note"},
		"a fence without an end":     {"```\n2A: 1/30 f16\n", 0, "error"},
		"a comment in a fence":       {"```\n<!--\n```\n2A: 1/30 f16\n\nso -->\n", 1, ""},
	} {
		book, list := Parse(source.New("n.md", []byte(c.text)), NewLexicon())
		var found []string
		for _, d := range list {
			found = append(found, d.Severity.String())
		}
		if got := strings.Join(found, " "); len(book.Statements) != c.log || got != c.findings {
			t.Errorf("%s: %d log lines and %q, want %d and %q: %v", name, len(book.Statements), got, c.log, c.findings, list)
		}
	}
}

// A log word and a colon in a heading are reported, whatever follows; a sheet's label alone is
// a title.
func TestLogLinesInHeadings(t *testing.T) {
	for line, want := range map[string]string{
		"## scene: Mill":        "scene: Mill",
		"# day: 2026-10-05":     "day: 2026-10-05",
		"### meter: EV 10":      "meter: EV 10",
		"## lens: 300":          "lens: 300",
		"## 3A: the mill race":  "",
		"## Private: hers":      "",
		"## The mill: a walk":   "",
		"## 3A: Y8, 1/30 f16":   "label",
		"## Sheet 3A: the gate": "",
		"## scene: Mill ##":     "scene: Mill",
		"## day: a long one":    "day: a long one",
	} {
		_, list := parseAfterKit(t, line)
		if len(list) > 1 || (len(list) == 1) != (want != "") || want != "" && (list[0].Code != "log-line-in-markup" || !strings.Contains(list[0].Notes[0].Text, want)) {
			t.Errorf("%s: %v", line, list)
		}
		if mend := want != "" && want != "label" && !strings.HasSuffix(want, "a long one"); len(list) == 1 && (list[0].Fix != nil) != mend || mend && list[0].Fix.Text != want {
			t.Errorf("%s: a mend is to be offered: %v", line, mend)
		}
	}
}

// A label that stands out is read as any other; out of the marks of code, or of a whole line, it is
// taken by the mend, and never into the label.
func TestLabelsInMarksOfMarkdown(t *testing.T) {
	const bare = "5A: EV 10 on III, 1/4 f22"
	for line, mended := range map[string]string{
		"*5A*: EV 10 on III, 1/4 f22":     "",
		"*5A:* EV 10 on III, 1/4 f22":     "",
		"_5A_: EV 10 on III, 1/4 f22":     "",
		"__5A__: EV 10 on III, 1/4 f22":   "",
		"__5A:__ EV 10 on III, 1/4 f22":   "",
		"***5A***: EV 10 on III, 1/4 f22": "",
		"`5A: EV 10 on III, 1/4 f22`":     bare,
		"`5A`: EV 10 on III, 1/4 f22":     bare,
		"``5A:`` EV 10 on III, 1/4 f22":   bare,
		"_5A: EV 10 on III, 1/4 f22_":     bare,
		"*5A: EV 10 on III, 1/4 f22*":     bare,
		"`5A: EV 10 on III`, 1/4 f22":     "none",
	} {
		book, list := parseAfterKit(t, line)
		switch {
		case mended == "" && (len(list) > 0 || len(book.Statements) != 1 || len(book.Statements[0].Labels) != 1 || book.Statements[0].Labels[0].Text != "5A"):
			t.Errorf("%s: %d log lines, %v", line, len(book.Statements), list)
		case mended == "none" && (len(list) != 1 || list[0].Fix != nil):
			t.Errorf("%s: %v", line, list)
		case mended == bare && (len(list) != 1 || list[0].Fix == nil || list[0].Fix.Text != bare):
			t.Errorf("%s: %v", line, list)
		}
	}
}

// Rows of a table that begin with labels of sheets are named, whatever the columns hold; an
// index of sheets is none.
func TestTablesOfSheets(t *testing.T) {
	for text, want := range map[string]int{
		"| sheet | glass | stop | time |\n|---|---|---|---|\n| 4A | R25 | 22 | 1 |\n| 4B | R25 | 22 | 2 |\n": 1,
		"|6A|22|1/8|\n":                       1,
		"| 5A | R25 | f22 | 1s |\n":           1,
		"| 4A | mill race | nice |\n":         0,
		"| 4A | mill race | 2 of 3 boxes |\n": 0,
		"| eggs | 2 | 3 |\n":                  0,
		"| 12 | 2 | 3 |\n":                    0,
		"| time | temp | dilution |\n|---|---|---|\n| 9 min | 20C | 1+31 |\n| 7m30 | 24 | 1+31 |\n": 0,
		"| f | time | EV |\n|---|---|---|\n| f16 | 1/15 | 12 |\n| f/22 | 1/8 | EV 12 |\n":           0,
		"| Print no. | Time (s) | f/ |\n|---|---|---|\n| 1 | 18s | f11 |\n| gate | 20s | f8 |\n":    0,
		"| f | time | neg |\n|---|---|---|\n| f16 | 1/15 | 86-041 |\n| f16 | 1/15 | 86-042 |\n":     1,
		"| print | f | time |\n|---|---|---|\n| 1A | f16 | 1/15 |\n| 1B | f16 | 1/8 |\n":            1,
		"| f | time | notes |\n|---|---|---|\n| f16 | 1/15 | 1A, closer |\n":                        1,
		"| no | f | time |\n|---|---|---|\n| 1 | f16 | 1/15 |\n| 2 | f16 | 1/8 |\n":                 1,
		"| 1 | f16 | 1/15 |\n": 1,
	} {
		if _, list := Parse(source.New("n.md", []byte(text)), NewLexicon()); len(list) != want {
			t.Errorf("%q: %v", text, list)
		}
	}
}

// A sheet that is told behind a few words, or behind a message's hour and sender, is reported;
// one that is only set beside another is not.
func TestSheetsToldBehindWordsAreReported(t *testing.T) {
	for line, label := range map[string]string{
		"[14/11/2026, 12:09] Me: 1A R25 1/8 f22":                                        "1A",
		"Then 1B with the R25 at 1/8 f22":                                               "1B",
		"For (2A) I used the R25, 1/8 at f22":                                           "2A",
		"Sheet one, holder 1A, R25, 1/8 at f22":                                         "1A",
		"Unlike 2A of last week this is f22 1/8 all over, by the look of it in the wet": "",
		"In 1987 I would have shot it at f22 1/8.":                                      "",
		"Not much to say of holder 2A, which waits.":                                    "",
	} {
		_, list := Parse(source.New("a.md", []byte(line+"\n")), NewLexicon())
		var said, want []string
		for _, d := range list {
			said = append(said, d.Message)
		}
		if label != "" {
			want = []string{"this tells of " + label + " and is not read"}
		}
		if !slices.Equal(said, want) {
			t.Errorf("%q: %q, want %q", line, said, want)
		}
	}
}

// A label with a word for another exposure behind it is told how that is written.
func TestAnotherExposureIsToldHowItIsWritten(t *testing.T) {
	for _, line := range []string{"2A bis: f/16 1/15", "2A 2nd: f/16 1/15"} {
		_, list := Parse(source.New("n.md", []byte("2A: f/16 1/8\n"+line+"\n")), NewLexicon())
		if len(list) != 1 || len(list[0].Notes) != 1 || !strings.Contains(list[0].Notes[0].Text, "2A: again, ") {
			t.Errorf("%s: %v", line, list)
		}
	}
}
