package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whatever the notes hold, each output obeys its own medium's rules: a terminal
// is not driven, a book holds nothing that runs, a shell runs no name.

// everywhere puts a text into every place of a notebook from which something is
// shown.
func everywhere(text string) string {
	return strings.ReplaceAll("# %\n\nfilm p%: ISO 100 -- %\nlens l%: 210 mm -- %\nfilter %: x2\nday: 2026-11-07, %\nscene: % -- %\nlight: %\nmeter: 1/60 f16\n"+
		"1A: 1/60 f16 -- %\n1B: 1/4 f16, lens %, 11 -- %\n2A: 1/60 f16, R25 -- %\nload 3A: %\nneg 1A: 26-%\nsleeve 26-%: %\ndevelop 1A: %, N, 9m\n"+
		"print 1A: %\nspoiled 2A -- %\nscan 1A: s%.tif\nscan 2A: ../%.tif\nuse: %.md\nshet %\n\n[%](https://example.org/% \"%\") ![%](%.jpg) `%`\n", "%", text)
}

// ours are the sequences that the program itself sends to a terminal.
var ours = regexp.MustCompile("\x1b\\[[0-9;]*m|\r\x1b\\[K|\r\n")

func TestNoCommandLetsNotesDriveATerminal(t *testing.T) {
	dir := folder(t, map[string]string{
		"a.md": everywhere(hostile), "b\x1b[2J\u202e.md": everywhere(hostile), "c\nforged.md:1:1: error: x.md": "shet 1A\n", "scans/x\x1b[2J.jpg": picture(30, 20),
	})
	for _, args := range [][]string{
		{"check"}, {"check", "--format", "json"}, {"check", "--format", "sarif"}, {"tidy"}, {"tidy", "--diff"}, {"tidy", "a.md"}, {"find", "1A"},
		{"find", "--format", "csv", "1A"}, {"find", "--format", "json", "1A"}, {"find", hostile}, {"holders"}, {"holders", "--side", "3A"}, {"holders", "--format", "json"}, {"develop"},
		{"develop", "--format", "json"}, {"negatives"}, {"losses"}, {"years"}, {"scans"}, {"scans", "--rename-plan"}, {"explain", "1A"}, {"explain", hostile},
		{"compile"}, {"check", "--fix"}, {"fieldcard", "-o", filepath.Join(dir, "card.html")},
	} {
		path := dir
		if args[len(args)-1] == "a.md" {
			args, path = args[:len(args)-1], filepath.Join(dir, "a.md")
		}
		out := driven(t, append(args, path)...)
		if bad := strings.IndexFunc(ours.ReplaceAllString(out, "\n"), drives); bad >= 0 {
			t.Errorf("%q: %.80q", args, ours.ReplaceAllString(out, "\n")[bad:])
		}
		if strings.Contains(out, "\nforged.md:1:1") {
			t.Errorf("%q: a file's name makes a line of its own", args)
		}
	}
}

// A book from hostile notes is sound, and holds no action but links to the web
// and to files of the season (PDF 32000-1, 12.6.4).
func TestBookFromHostileNotesHoldsNothingThatRuns(t *testing.T) {
	for name, text := range map[string]string{
		"controls": hostile, "delimiters": `)\ >>endobj (<</S/JavaScript/JS(x)>>`, "open": "((((", "close": "))))\\", "high": "\U0001F600\U00010348 \ufffe\u0000 \xff\xfe",
		"uri": "x)/S/JavaScript/JS(app.alert(1)",
	} {
		t.Run(name, func(t *testing.T) {
			dir := folder(t, map[string]string{"a.md": everywhere(text) + "\n<https://example.org/" + text + "> <javascript:app.alert(1)>\n"})
			must(t, "compile", dir)
			book := filepath.Join(dir, "record", pdfName)
			ask(t, "qpdf", "--check", book)
			plain := unpacked(t, book)
			objects := withoutStreams(plain)
			for _, runs := range []string{"/JavaScript", "/JS", "/Launch", "/SubmitForm", "/ImportData", "/GoToR", "/RichMedia", "/AA"} {
				if regexp.MustCompile(runs + `\b`).MatchString(withoutStrings(objects)) {
					t.Errorf("the book has an object with %s", runs)
				}
			}
			for _, m := range regexp.MustCompile(`/URI \(((?:[^()\\]|\\.)*)\)`).FindAllStringSubmatch(objects, -1) {
				if !regexp.MustCompile(`^(https?://|mailto:|\.\./)[!-~]*$`).MatchString(m[1]) {
					t.Errorf("a link leads to %q", m[1])
				}
			}
		})
	}
}

var streams = regexp.MustCompile(`(?s)\nstream\n.*?\nendstream`)

// withoutStreams is the objects of an unpacked PDF without what they carry.
func withoutStreams(pdf string) string { return streams.ReplaceAllString(pdf, "") }

var literals = regexp.MustCompile(`\((?:[^()\\]|\\.|\((?:[^()\\]|\\.)*\))*\)|<[0-9a-fA-F\s]*>`)

func withoutStrings(pdf string) string { return literals.ReplaceAllString(pdf, "()") }

// The plan of renames is run by a shell in a folder of names that a shell could
// take for something else: only what it names is renamed.
func TestShellRunsNoName(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("there is no shell here")
	}
	names := []string{"a$(touch owned).jpg", "b`touch owned`.jpg", "c'; touch owned; '.jpg", "-rf *.jpg", "e\"$HOME\\.jpg", "f\n touch owned #.jpg"}
	files := map[string]string{"notes.md": "day: 2026-11-07\nmeter: 1/60 f16\n"}
	for i, name := range names {
		files[name] = picture(20+i, 20)
		files["notes.md"] += string(rune('1'+i)) + "A: 1/60 f16\nscan " + string(rune('1'+i)) + "A: " + string(rune('a'+i)) + "-new.jpg\n"
	}
	dir := folder(t, files)
	plan := notchbook(t, "scans", "--rename-plan", dir)
	if plan.status != right || strings.Count(plan.out, "mv -n -- ") != len(names) {
		t.Fatalf("the plan is\n%s%s", plan.out, plan.err)
	}
	c := exec.Command(sh)
	c.Dir, c.Stdin = dir, strings.NewReader(plan.out)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	after := tree(t, dir)
	if len(after) != len(files) {
		t.Errorf("%d files are %d", len(files), len(after))
	}
	for name := range after {
		if strings.Contains(name, "owned") {
			t.Errorf("a name was run, or is still there: %q", name)
		}
	}
	if _, err := os.Stat("owned"); err == nil {
		t.Error("a name was run elsewhere")
	}
}
