package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// says runs a command and reports what of its output is missing, and what should not be
// there, marked with a tilde.
func says(t *testing.T, args []string, want ...string) {
	t.Helper()
	s := notchbook(t, args...)
	for _, w := range want {
		if without, not := strings.CutPrefix(w, "~"); strings.Contains(s.out+s.err, strings.TrimPrefix(w, "~")) == not {
			t.Errorf("%s: %q in\n%s%s", strings.Join(args, " "), without, s.out, s.err)
		}
	}
}

// Who asks for a sheet writes its day in whatever way, and so do the notes.
func TestExplainTakesADayInAnyWay(t *testing.T) {
	dir := folder(t, map[string]string{
		"n.md": "day: Thu 5 Dec 2024, Mill\nmeter: EV 11\n1A: 1/8 f16\n3A: 1/8 f16\nneg 3A: 2024-31\n\nday: 2024-12-06, Weir\nmeter: EV 11\n1A: 1/8 f16\n",
	})
	for name, title := range map[string]string{
		"2024-12-05 1A": "2024-12-05 1A: ", "5 Dec 2024 1A": "2024-12-05 1A: ", "5 Dec 2024, 1a": "2024-12-05 1A: ", "thu 5 dec 2024 1A": "2024-12-05 1A: ",
		"6 Dec 2024 1A": "2024-12-06 1A: ", "2024-12-05 3A": "negative 2024-31, 2024-12-05 3A: ", "2024-31": "negative 2024-31, 2024-12-05 3A: ",
	} {
		if got := notchbook(t, "explain", name, dir); !strings.HasPrefix(got.out, title) {
			t.Errorf("%s:\n%s%s", name, got.out, got.err)
		}
	}
	says(t, []string{"explain", "2024-12-07 1A", dir}, "no sheet and no scene")
}

// Labels go by their figures as numbers, wherever these stand.
func TestLabelsAreSortedByTheirNumbers(t *testing.T) {
	dir := folder(t, map[string]string{
		"n.md": "film sedge: ISO 100\nday: 2026-10-04, Mill\nload S1 S10 S11 S2: sedge\nload 10A 9A: sedge\nmeter: EV 11\nS10: 1/8 f16\nS2: 1/8 f16\nS11: 1/8 f16\nS1: 1/8 f16\n" +
			"neg S10: M10-2\nneg S2: M2-10\nneg S11: M2-9\n",
	})
	follow := func(text string, order ...string) {
		t.Helper()
		for _, word := range order {
			_, rest, ok := strings.Cut(text, word)
			if !ok {
				t.Errorf("%s is not where it should be of %q", word, order)
			}
			text = rest
		}
	}
	follow(must(t, "holders", dir).out, "\n9A ", "\n10A ", "\nS1 ", "\nS2 ", "\nS10 ", "\nS11 ")
	follow(must(t, "negatives", dir).out, "M2-9 ", "M2-10 ", "M10-2 ")
	out := t.TempDir() + "/record"
	notchbook(t, "compile", dir, "-o", out)
	follow(read(t, out, "record.txt"), "\nHolders\n", "\n9A ", "\n10A ", "\nS1 ", "\nS2 ", "\nS10 ", "\nS11 ")
	follow(read(t, out, "holders.html"), ">9A<", ">10A<", ">S1<", ">S2<", ">S10<", ">S11<")
}

// What is typed in columns, with tabs and runs of blanks, is said with one blank, and
// the notebook stays as it is.
func TestWhatIsTypedInColumnsIsSaidEvenly(t *testing.T) {
	const text = "# Mill\twheel   and  weir\n\nday: 2026-10-04,\tLower    Mill\tgoit\n\nscene: Wheel\t from   the  bridge\nlight:  open \t shade\nmeter: EV 11\n3A:\t1/8\tf16\t-- a\tremark   with  tabs\nsleeve 3A: binder\t2,   page 9\n3A: 1/8 f16 1/4\n"
	dir := folder(t, map[string]string{"n.md": text})
	out := t.TempDir() + "/record"
	s := notchbook(t, "compile", dir, "-o", out)
	said := s.out + s.err + notchbook(t, "find", "wheel", dir).out + notchbook(t, "explain", "3A", dir).out + notchbook(t, "holders", dir).out + notchbook(t, "years", dir).out
	if strings.ContainsAny(said, "\t\uFFFD") {
		t.Errorf("a tab was said:\n%s", said)
	}
	record := read(t, out, "record.txt")
	for _, want := range []string{"Mill wheel and weir", "Lower Mill goit", "Wheel from the bridge", "open shade", "a remark with tabs", "binder 2, page 9"} {
		if !strings.Contains(record, want) {
			t.Errorf("record.txt has no %q", want)
		}
		if data := read(t, out, "season.json"); !strings.Contains(data, want) {
			t.Errorf("season.json has no %q", want)
		}
	}
	if got := read(t, dir, "n.md"); got != text {
		t.Errorf("the notebook was changed:\n%s", got)
	}
	if strings.Contains(record, "\uFFFD") {
		t.Error("record.txt has a mark for a tab")
	}
}

// What is private is found by whom it is for, and by nobody else.
func TestPrivateLinesAreFound(t *testing.T) {
	dir := folder(t, map[string]string{
		"n.md": "day: 2026-10-04, Mill\n\nscene: gate\nmeter: EV 11\nprivate: the cooper has the key\n1A: 1/8 f16 -- sluice (private: ask the wheelwright)\n\nscene: weir\nmeter: EV 11\n2A: 1/8 f16\n",
	})
	for _, word := range []string{"cooper", "wheelwright"} {
		says(t, []string{"find", word, dir}, "2026-10-04 1A", "1 sheet of 2")
		says(t, []string{"find", "--public", word, dir}, "~2026-10-04 1A", "0 sheets of 2")
	}
}

// A sheet that is right only because several exposures may count as one long one is
// nowhere said to be off by the other count alone.
func TestSeveralExposuresAreSaidAsASpan(t *testing.T) {
	dir := folder(t, map[string]string{
		"n.md": "film sedge: ISO 100, EI 64, reciprocity t^1.31 over 1s\nlens 150: 150 mm, f5.6-f64\nday: 2026-10-04, Mill\nfilm: sedge\nlens: 150\nmeter: EV 6\n1A: f22, 3 x 9.4s\n2A: f22, 28s\n",
	})
	const span = "0 to 0.4 stop over"
	says(t, []string{"check", dir}, "2 sheets, 2 right")
	says(t, []string{"explain", "1A", dir}, span, "~  0.4 stop over", "as one long one")
	says(t, []string{"develop", dir}, span+", the exposures counted as one", "~– 0.4")
	says(t, []string{"develop", "--format", "json", dir}, `"stops": 0.38`, `"stopsAsOne": 0.01`)
	says(t, []string{"check", "--format", "json", dir}, `"stopsAsOne": 0.01`)
	out := t.TempDir() + "/record"
	notchbook(t, "compile", dir, "-o", out)
	for _, name := range []string{"record.txt", "outing-2026-10-04.html"} {
		if text := strings.Join(strings.Fields(strings.ReplaceAll(read(t, out, name), "\u00a0", " ")), " "); !strings.Contains(text, span) || !strings.Contains(text, "each by itself") || strings.Contains(text, ">0.4 stop over") {
			t.Errorf("%s says it otherwise", name)
		}
	}
}

// read is a file of a folder.
func read(t *testing.T, dir, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
