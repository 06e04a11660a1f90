package diag_test

import (
	"fmt"
	"strings"
	"testing"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// What many lines of a notebook have in common is written once, with the lines, of which no
// more are named than one takes in; few stay where they stand, and so does what differs in more
// than what is marked.
func TestManyAlikeAreWrittenOnce(t *testing.T) {
	for _, c := range []struct {
		lines        int
		message      func(i int) string
		want, absent string
	}{
		{3, func(i int) string { return fmt.Sprintf("a colon is missing behind %q", fmt.Sprintf("%dA", i)) }, `behind "3A"`, "the same"},
		{5, func(i int) string { return fmt.Sprintf("a colon is missing behind %q", fmt.Sprintf("%dA", i)) }, "the same on 4 more lines: 2, 3, 4, 5\n", `behind "2A"`},
		{30, func(i int) string { return fmt.Sprintf("a colon is missing behind %q", fmt.Sprintf("%dA", i)) }, "29 more lines: 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 19 more\n", `behind "2A"`},
		{5, func(i int) string { return fmt.Sprintf("%dA got %d stops under", i, i) }, "5A got 5 stops under", "the same"},
		{5, func(i int) string { return fmt.Sprintf("1%dA is not declared", i) }, "15A is not declared", "the same"},
	} {
		var text strings.Builder
		for i := range c.lines {
			fmt.Fprintf(&text, "%dA f16\n", i+1)
		}
		file, list := source.New("note.txt", []byte(text.String())), diag.List(nil)
		for i, at := 1, 0; i <= c.lines; i++ {
			label := fmt.Sprintf("%dA", i)
			list = append(list, diag.Diagnostic{Code: "x", Span: source.Span{File: file, Start: at, End: at + len(label)}, Message: c.message(i)})
			at += len(label) + len(" f16\n")
		}
		var out strings.Builder
		if err := (diag.Writer{Out: &out}).Write(list); err != nil || !strings.Contains(out.String(), c.want) || strings.Contains(out.String(), c.absent) {
			t.Errorf("%d lines:\n%s%v; want %q and not %q", c.lines, out.String(), err, c.want, c.absent)
		}
		if told, written := list.Told()[diag.Error], strings.Count(out.String(), ": error: "); told != written {
			t.Errorf("%d lines: %d are told, and %d written", c.lines, told, written)
		}
	}
}

// What a finding counts to itself, and others of its kind, are all among the lines.
func TestLinesCountedToAFindingAreNamed(t *testing.T) {
	file, list := source.New("note.txt", []byte(strings.Repeat("1A\n", 12))), diag.List(nil)
	at := func(line int) source.Span { return source.Span{File: file, Start: 3 * line, End: 3*line + 2} }
	for i := 0; i < 12; i += 3 {
		list = append(list, diag.Diagnostic{Code: "x", Span: at(i), Message: fmt.Sprint("two lines from here on line ", i), Many: "are not read", Also: []source.Span{at(i + 1)}})
	}
	var out strings.Builder
	if err := (diag.Writer{Out: &out}).Write(list); err != nil || !strings.Contains(out.String(), "the same on 6 more lines: 4, 5, 7, 8, 10, 11\n") || strings.Count(out.String(), "from here") != 1 {
		t.Errorf("%s%v", out.String(), err)
	}
}

// The line that is shown keeps its columns, and the carets stand under what is marked, whatever
// the width of what stands before it.
func TestCaretsStandUnderWhatIsMarked(t *testing.T) {
	for _, c := range []struct{ line, marked, want string }{
		{"1a: Y8, f16", "f16", " 1 | 1a: Y8, f16\n   |         ^^^\n"},
		{"84-020\tGatepost\t14in\tf16", "14in", " 1 | 84-020  Gatepost        14in    f16\n   |                         ^^^^\n"},
		{"1a:\tY8\tf16", "Y8\tf16", " 1 | 1a:     Y8      f16\n   |         ^^^^^^^^^^^\n"},
		{"1a: 👍🏽 家 e\u0301, f16", "f16", " 1 | 1a: 👍🏽 家 e\u0301, f16\n   |              ^^^\n"},
		{"1a: 👩\u200d👩\u200d👧, f16", "f16", " 1 | 1a: 👩\u200d👩\u200d👧, f16\n   |         ^^^\n"},
		{"1a:\x1b f16", "f16", " 1 | 1a:\uFFFD f16\n   |      ^^^\n"},
	} {
		file := source.New("note.txt", []byte(c.line+"\n"))
		at := strings.Index(c.line, c.marked)
		var out strings.Builder
		err := diag.Writer{Out: &out}.Write(diag.List{{Code: "x", Span: source.Span{File: file, Start: at, End: at + len(c.marked)}, Message: "m"}})
		if _, got, _ := strings.Cut(out.String(), "\n"); err != nil || got != c.want {
			t.Errorf("%q:\n%s%v; want\n%s", c.line, got, err, c.want)
		}
	}
}
