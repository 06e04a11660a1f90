package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/width"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/render/saying"
	"notchbook/render/text"
)

// The plain text holds all that the notes say, and what was made of it, in lines
// that any editor shows. It is read here with another measure of width than it was
// written with (x/text's, of Unicode Standard Annex 11).

func textOf(t *testing.T, dir string) (string, *record.Season, *compile.Checked) {
	t.Helper()
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	r.prepare(newProgress(terminal{}))
	season, _ := r.compile()
	var b strings.Builder
	if err := text.Write(&b, season, text.Options{Generator: "notchbook " + number}); err != nil {
		t.Fatal(err)
	}
	return b.String(), season, compile.Check(r.world(), r.names...)
}

// The record holds just that text, and its first page leads to it.
func TestPlainTextLiesInTheRecord(t *testing.T) {
	dir := compiledSeason(t)
	want, _, _ := textOf(t, dir)
	files := recordIn(t, dir)
	if files[textName] != want {
		t.Errorf("%s holds %d bytes, want %d", textName, len(files[textName]), len(want))
	}
	if !strings.Contains(files["index.html"], `<a href="`+textName+`">`) {
		t.Error("the season's page does not lead to the text")
	}
}

// squeezed is a text without blanks, so that it is the same however its lines are
// broken; lettered, without anything but letters and figures, the same without
// marks of emphasis and lists.
func squeezed(s string) string { return sieved(s, func(r rune) bool { return !unicode.IsSpace(r) }) }
func lettered(s string) string {
	return sieved(s, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) })
}

func sieved(s string, keep func(rune) bool) string {
	return strings.Map(func(r rune) rune {
		if keep(r) {
			return r
		}
		return -1
	}, s)
}

func TestPlainTextHoldsEverything(t *testing.T) {
	logs, err := filepath.Glob(filepath.Join("../..", "testdata/fieldlogs/*/"))
	if err != nil || len(logs) < 15 {
		t.Fatal("the field logs are not there: ", err)
	}
	dirs := []string{aldermoor(t)}
	for _, log := range logs {
		if info, err := os.Stat(log); err == nil && info.IsDir() {
			dirs = append(dirs, log)
		}
	}
	for _, dir := range dirs {
		t.Run(filepath.Base(dir), func(t *testing.T) {
			set, season, checked := textOf(t, dir)
			all, letters := squeezed(set), lettered(shownAddress.ReplaceAllString(set, ""))
			has := func(what string) {
				t.Helper()
				if !strings.Contains(all, squeezed(what)) {
					t.Errorf("%q is not in it", what)
				}
			}
			for _, n := range season.Notebooks {
				holdsLines(t, checked.Notebook(n.Path), all, letters)
				has(n.SHA256)
			}
			for _, s := range season.Sheets {
				holdsSheet(has, s)
			}
			for _, told := range saying.Fold(season.Findings) { // once, with the line of each
				has(told.Message)
				for _, f := range told.Of {
					has(f.Place.String())
					has(f.Excerpt)
				}
			}
			wellSet(t, set)
		})
	}
}

// holdsLines looks for every line of a notebook: log lines as typed, prose by its
// letters.
func holdsLines(t *testing.T, tree *lang.Notebook, all, letters string) {
	t.Helper()
	logged := 0
	for _, l := range tree.Lines {
		text := string(tree.File.Text[l.Start:l.BodyEnd])
		switch l.Kind {
		case lang.Log:
			logged++
			if !strings.Contains(all, squeezed(text)) {
				t.Errorf("%s: the line %q is not in it", tree.File.Name, text)
			}
		case lang.Prose:
			if !strings.Contains(letters, lettered(destination.ReplaceAllString(text, "]"))) {
				t.Errorf("%s: the prose %q is not in it", tree.File.Name, text)
			}
		}
	}
	if logged == 0 {
		t.Errorf("%s: no log line was looked for", tree.File.Name)
	}
}

// destination is where a link of the prose leads in Markdown, shownAddress in the text:
// what may not be followed has none.
var (
	destination  = regexp.MustCompile(`\]\([^)]*\)+`)
	shownAddress = regexp.MustCompile(`(?s)<[^>]*[./][^>]*>|\[picture: `)
)

func holdsSheet(has func(string), s *record.Sheet) {
	has(s.Label)
	has(s.ID)
	if s.Given.Aperture != "" && s.Given.Time != "" {
		has("given" + s.Given.Aperture + "," + s.Given.Time)
	}
	if s.Asked.Aperture != "" && s.Asked.Time != "" {
		has("asked" + s.Asked.Aperture + "," + s.Asked.Time)
	}
	if s.Reading != nil {
		has("read" + s.Reading.Text)
	}
	for _, step := range s.Steps {
		has(step.Name)
	}
	for _, f := range s.Findings {
		has(string(f.Severity) + f.Message)
	}
	for _, c := range s.Scans {
		has(c.Path)
		has(c.SHA256)
	}
	for _, need := range s.Needs {
		has(need)
	}
}

// wellSet looks at the lines: no longer than 72 columns but where one word is, no
// tab, no blank at an end, and a heading's line as long as the heading.
func wellSet(t *testing.T, text string) {
	t.Helper()
	lines := strings.Split(text, "\n")
	if lines[len(lines)-1] != "" || strings.ContainsAny(text, "\t\r") {
		t.Error("the text does not end in a line end, or holds a tab or CR")
	}
	headings := 0
	for i, line := range lines {
		if strings.TrimRight(line, " ") != line {
			t.Errorf("line %d ends in a blank", i+1)
		}
		if n := columns(line); n > 72 && strings.Contains(strings.TrimLeft(line, " >-"), " ") {
			t.Errorf("line %d has %d columns: %q", i+1, n, line)
		}
		if mark := strings.TrimSpace(line); len(mark) > 1 && i > 0 && strings.Trim(mark, mark[:1]) == "" && strings.Contains("=~", mark[:1]) {
			headings++
			if above := strings.TrimLeft(lines[i-1], " >"); columns(above) != len(mark) && columns(lines[i-1]) < 50 {
				t.Errorf("line %d is not as long as %q", i+1, above)
			}
		}
	}
	if headings < 3 {
		t.Errorf("%d headings are underlined", headings)
	}
}

// columns is the width of a text by the East Asian widths of its characters.
func columns(s string) int {
	n := 0
	for _, r := range norm.NFC.String(s) {
		switch k := width.LookupRune(r).Kind(); {
		case unicode.In(r, unicode.Mn, unicode.Me):
		case k == width.EastAsianWide || k == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// Letters with accents, wide characters, very long words and marks that would be
// an editor's commands are set like all others.
func TestPlainTextOfOddNotes(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": "# Küste, 窯場\n\nday: 2026-05-01, " + norm.NFD.String("Ångö") + " " + strings.Repeat("窯場の煙突", 9) +
		"\nscene: " + strings.Repeat("Mündung ", 20) + "\nmeter: EV 12\n1A: 1/30 f16 -- \x1b[31mred\x1b[0m https://example.org/" + strings.Repeat("x", 90) + "\n" +
		"2A:\t1/30\tf16\n\n| a | b |\n|---|---|\n| " + strings.Repeat("long ", 20) + "| 窯 |\n\n> quoted " + strings.Repeat("on and ", 20) + "\n\n1. one\n   - " + strings.Repeat("two ", 30) + "\n"})
	set, season, _ := textOf(t, dir)
	wellSet(t, set)
	if strings.Contains(set, "\x1b") {
		t.Error("a control character reached the text")
	}
	for _, s := range season.Sheets {
		holdsSheet(func(what string) {
			if !strings.Contains(squeezed(set), squeezed(what)) {
				t.Errorf("%q is not in it", what)
			}
		}, s)
	}
	if !strings.Contains(squeezed(set), strings.Repeat("窯場の煙突", 9)) || !strings.Contains(set, "https://example.org/"+strings.Repeat("x", 90)) {
		t.Error("a long word was lost")
	}
}

// However a day is typed, it is written in one way, YYYY-MM-DD, but in its line; where it is
// not whole it stays as typed.
func TestDaysAreWrittenInOneWay(t *testing.T) {
	const notes = "film slate: ISO 400, EI 250, N 9m\nload 1A-4A: slate\n" +
		"day: 14 Dec 2026, Weir\n1A: EV 12, 1/30 f16\n1B: EV 12, 1/30 f16\nneg 1A: 26-1\n" +
		"day: 18/12/26, Weir\n2A: EV 12, 1/30 f16\n3A: EV 12, 1/30 f16, hold\n" +
		"day: Dec., Weir\n4A: EV 12, 1/30 f16\n" +
		"develop 1A: 20 Dec 2026, N\ndevelop 2A: 21.12.2026, N\n"
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "log.md"), []byte(notes), 0o600); err != nil {
		t.Fatal(err)
	}
	whole, _, _ := textOf(t, dir)
	for _, line := range strings.Split(whole, "\n") {
		if !strings.HasPrefix(line, "line ") && regexp.MustCompile(`\d Dec|\d[/.]12[/.]`).MatchString(line) {
			t.Errorf("the record has %q", line)
		}
	}
	for _, want := range []string{"2026-12-14, Weir\n====", "- [ ] 2026-12-18 3A: written hold", "Dec., Weir\n====", "2026-12-20      developed 26-1", "developed       2026-12-21, N"} {
		if !strings.Contains(whole, want) {
			t.Errorf("the record lacks %q", want)
		}
	}
	for query, want := range map[string]string{"developed 20 Dec 2026": "26-1 ", "developed 2026-12-21": "2026-12-18 2A ", "18/12/26 hold": "2026-12-18 3A "} {
		if got := notchbook(t, "find", query, dir); !strings.HasPrefix(got.out, want) {
			t.Errorf("find %s: %+v", query, got)
		}
	}
}
