package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"notchbook/lang/diag"
)

// What is said on a terminal: where, the line as typed, a mark under the
// smallest wrong stretch, and nothing that a stranger's notes could do to the
// terminal.

var placed = regexp.MustCompile(`^(.+):(\d+):(\d+): (error|warning|note): .+ \[([a-z-]+)\]$`)

// shownFinding is a finding as it was printed.
type shownFinding struct {
	file, code     string
	line, column   int
	source, marked string // the line shown, the stretch over the carets
}

// shownFindings reads the findings of an output whose lines have no wide
// characters.
func shownFindings(out string) []shownFinding {
	var all []shownFinding
	lines := strings.Split(out, "\n")
	for i := range lines {
		m := placed.FindStringSubmatch(lines[i])
		if m == nil {
			continue
		}
		f := shownFinding{file: m[1], code: m[5]}
		f.line, _ = strconv.Atoi(m[2])
		f.column, _ = strconv.Atoi(m[3])
		if i+2 < len(lines) && strings.HasPrefix(lines[i+1], " "+m[2]+" | ") {
			gutter := len(" " + m[2] + " | ")
			f.source = lines[i+1][gutter:]
			f.marked = underCarets(f.source, lines[i+2][gutter:])
		}
		all = append(all, f)
	}
	return all
}

func underCarets(source, carets string) string {
	text := []rune(source)
	from, n := strings.Index(carets, "^"), strings.Count(carets, "^")
	if from < 0 || from >= len(text) {
		return ""
	}
	return string(text[from:min(from+n, len(text))])
}

// Every finding of the shipped season shows the line that its place names, and
// marks something there, at the column that it names.
func TestFindingsShowTheirPlace(t *testing.T) {
	dir := aldermoor(t)
	t.Chdir(dir)
	all := shownFindings(notchbook(t, "check", ".").out)
	if len(all) < 12 {
		t.Fatalf("only %d findings have a place", len(all))
	}
	files := tree(t, dir)
	for _, f := range all {
		lines := strings.Split(files[f.file], "\n")
		if f.line > len(lines) || lines[f.line-1] != f.source || f.source == "" {
			t.Errorf("%s:%d shows %q", f.file, f.line, f.source)
			continue
		}
		if tail := []rune(f.source)[f.column-1:]; f.marked == "" || !strings.HasPrefix(string(tail), f.marked) {
			t.Errorf("%s:%d:%d marks %q", f.file, f.line, f.column, f.marked)
		}
	}
}

// The mark stands under what is wrong and nothing beside it.
func TestMarksAreSmall(t *testing.T) {
	cases := []struct{ text, code, marked string }{
		{"3A: 1/30, 11", "bare-number", "11"},
		{"\t3A: 1/30, 11 -- with a tab", "bare-number", "11"},
		{"shet 3A: 1/30 f16", "unknown-word", "shet"},
		{"lens 210: 210 mm, shutter 1/5 1/10 1/25\n3A: f16, 1/15", "speed-lacking", "1/15"},
		{"lens 210: 210 mm, f5.6-f45\n3A: 1/30, f4", "aperture-out-of-range", "f4"},
		{"camera field: 4x5, ext 75-380 mm\n3A: 1/30 f16 ext 420mm", "extension-out-of-range", "ext 420mm"},
		{"film plate: ortho, EI 12\nmeter: 1/8 f16\n3A: R25, 1s f16", "film-blind", "R25"},
		{"meter: 1/60 f16\n3A: “ö” f16, 1/8", "exposure-off", "f16, 1/8"},
		{"lens 210: 210 mm\n3A: 1/30 f16 lens 310", "not-declared", "lens 310"},
		{"3A: green 25, 1/30 f16", "colour-against-number", "green 25"},
		{"3A: ~~1/30 1/15 f16", "unclosed-strike", "~~"},
		{"1A: 1/30 f16\nscan 1A: gone.tif -- at the lab", "scan-missing", "gone.tif"},
		{"use: gone.md", "notebook-unreadable", "gone.md"},
	}
	for _, c := range cases {
		dir := folder(t, map[string]string{"a.md": c.text + "\n"})
		out := notchbook(t, "check", dir).out
		marked := "no such finding"
		for _, f := range shownFindings(out) {
			if f.code == c.code {
				marked = f.marked
			}
		}
		if marked != c.marked {
			t.Errorf("%q: the mark is under %q, not %q\n%s", c.text, marked, c.marked, out)
		}
	}
}

// A wide character takes two columns of a terminal and a combining mark none
// (Unicode UAX #11), so the carets are counted in columns.
func TestMarksStandUnderWideText(t *testing.T) {
	for text, before := range map[string]int{"3A: “写真”, 1/30, 11": 18, "3A: “e\u0301”, 1/30, 11": 15} {
		dir := folder(t, map[string]string{"a.md": text + "\n"})
		out := notchbook(t, "check", dir).out
		want := "   | " + strings.Repeat(" ", before) + "^^\n"
		if !strings.Contains(out, want) {
			t.Errorf("%q: no line %q in\n%s", text, want, out)
		}
	}
}

// hostile is what could clear a screen, ring, hide or turn text around.
const hostile = "\x1b[2J\x1b]0;owned\x07\x08\x7f\u009b31m\u202e\u2066\u200f"

func TestNotesCannotDriveTheTerminal(t *testing.T) {
	dir := folder(t, map[string]string{
		"a.md":          "shet 3A: 1/30 " + hostile + "\n3B: 11 -- " + hostile + "\nlens " + hostile + ": f4-\nuse: " + hostile + "\n",
		"b\x1b[31m.txt": "shet 3A: 1/30 f16\nscan 3A: x" + hostile + ".tif\n",
		"c.md":          hostile + ": 1/30 f16\n1A: lens " + hostile + "\nday: 2026-11-07, " + hostile + "\n# " + hostile + "\n",
	})
	runs := []said{notchbook(t, "check", dir), notchbook(t, "compile", dir)}
	if err := os.Symlink(os.TempDir(), filepath.Join(dir, "away\x1b[31m.md")); err == nil {
		runs = append(runs, notchbook(t, "check", dir))
	}
	runs = append(runs, notchbook(t, "check", "no\x1b[31m.md"), notchbook(t, "explain", "no\x1b[31m"),
		notchbook(t, "compile", dir, "-o", filepath.Join(dir, "x\x1b[31m")))
	for i, s := range runs {
		if s.out+s.err == "" {
			t.Errorf("run %d says nothing", i)
		}
		if bad := strings.IndexFunc(s.out+s.err, drives); bad >= 0 {
			t.Errorf("run %d says %.80q", i, (s.out + s.err)[bad:])
		}
	}
}

// drives tells the characters that a terminal obeys and does not show.
func drives(r rune) bool { return r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) }

func TestColours(t *testing.T) {
	dir := aldermoor(t)
	plain := notchbook(t, "check", dir)
	var out strings.Builder
	run([]string{"check", dir}, terminal{out: &out, err: &out, colour: true})
	if !strings.Contains(out.String(), "\x1b[1;31merror\x1b[0m") || !strings.Contains(out.String(), "\x1b[1;33mwarning\x1b[0m") {
		t.Error("nothing is coloured")
	}
	bare := regexp.MustCompile(`\x1b\[[0-9;]*m`).ReplaceAllString(out.String(), "")
	if bare != plain.out {
		t.Error("colours change more than colours")
	}
	if strings.Contains(plain.out, "\x1b") {
		t.Error("there are colours where there is no terminal")
	}
}

func TestExplainKnowsEveryCode(t *testing.T) {
	list := must(t, "explain").out
	for _, rule := range diag.Rules() {
		s := must(t, "explain", rule.Code)
		if !strings.HasPrefix(s.out, rule.Code+": "+rule.Title+"\n") || len(s.out) < 80 || strings.IndexFunc(s.out, drives) >= 0 {
			t.Errorf("explain %s says %q", rule.Code, s.out)
		}
		if !strings.Contains(list, rule.Code+" ") {
			t.Errorf("explain does not list %s", rule.Code)
		}
		for line := range strings.Lines(s.out) {
			if len([]rune(line)) > 100 {
				t.Errorf("explain %s has a line of %d characters", rule.Code, len(line))
			}
		}
	}
	for given, near := range map[string]string{
		"exposure-of": "exposure-off", "exposre-off": "exposure-off", "Exposure-Offf": "exposure-off", "bellows": "", "reciprocity": "reciprocity-unclear",
		"scan-orphans": "scan-orphan", "film-blnd": "film-blind",
	} {
		s := notchbook(t, "explain", given)
		want := "; " + near + " is near"
		if near == "" {
			want = "; notchbook explain lists them"
		}
		if s.status != failed || !strings.Contains(s.err, want) {
			t.Errorf("explain %s says %q, not %q", given, s.err, want)
		}
	}
	for _, code := range []string{"[exposure-off]", "EXPOSURE-OFF"} {
		must(t, "explain", code)
	}
}

// A number that the kit has as a name is told how the name is written; a lens needs that
// only where the settings do not stand beside it.
func TestBareNumberThatIsAName(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "film 100: ISO 100\nlens 210: 210 mm\nfilter 25: x8\n3A: 100, 25, 1/30 f16\n3B: 210, f16\n"})
	out := notchbook(t, "check", dir).out
	for _, want := range []string{"the film 100 is written film 100", "the lens 210 is written lens 210", "the filter 25 is written #25"} {
		if !strings.Contains(out, want) {
			t.Errorf("it does not say that %s:\n%s", want, out)
		}
	}
}
