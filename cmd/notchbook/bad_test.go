package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// Notes with mistakes are the normal case. Each bad thing is said once, in a
// way that tells what to do, and what is good beside it is still read.

// goodNotes is a notebook with nothing to say of it.
const goodNotes = "day: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\n"

// One bad thing lies beside a good notebook: its own finding is there, once,
// the good sheet is counted, and the record is written all the same.
func TestBadNotesAreSaidOnce(t *testing.T) {
	cases := []struct {
		name   string
		files  map[string]string
		want   string // starts a line of the findings
		code   string
		status int // of check
	}{
		{"empty file", map[string]string{"b.md": ""}, "b.md:1:1: note: ", "empty-notebook", right},
		{"blank file", map[string]string{"b.md": " \n\t\r\n"}, "b.md:1:1: note: ", "empty-notebook", right},
		{"nothing but a mark", map[string]string{"b.md": "\ufeff"}, "b.md:1:1: note: ", "empty-notebook", right},
		{"binary file", map[string]string{"b.md": "\x89PNG\r\n\x1a\n" + strings.Repeat("\x00\x00\x0d\xff", 40)}, "b.md:1:", "not-text", found},
		{"rich text", map[string]string{"b.txt": "{\\rtf1\\ansi 3A: 1/30 f16\\par}"}, "b.txt:1:1: error: this file is rich text", "not-text", found},
		{"UTF-16, little end first", map[string]string{"b.txt": "\xff\xfe3\x00A\x00:\x00\n\x00"}, "b.txt:1:1: error: ", "not-text", found},
		{"UTF-16, big end first", map[string]string{"b.txt": "\xfe\xff\x003\x00A\x00:\x00\n"}, "b.txt:1:1: error: ", "not-text", found},
		{"unknown word", map[string]string{"b.md": "shet 3A: 1/30 f16\n"}, "b.md:1:1: error: ", "unknown-word", found},
		{"no scan", map[string]string{"b.md": "1A: 1/60 f16\nscan 1A: lost.tif\n"}, "b.md:2:10: warning: ", "scan-missing", right},
		{"scan that is no image", map[string]string{"b.md": "1A: 1/60 f16\nscan 1A: odd.tif\n", "odd.tif": "II and no more"},
			"b.md:2:10: warning: odd.tif ", "scan-unreadable", right},
		{"empty scan", map[string]string{"b.md": "1A: 1/60 f16\nscan 1A: odd.jpg\n", "odd.jpg": ""},
			"b.md:2:10: warning: odd.jpg is empty", "scan-unreadable", right},
		{"scan cut off", map[string]string{"b.md": "1A: 1/60 f16\nscan 1A: odd.jpg\n", "odd.jpg": picture(90, 60)[:300]},
			"b.md:2:10: warning: odd.jpg ", "scan-unreadable", right},
		{"scan outside", map[string]string{"b.md": "1A: 1/60 f16\nscan 1A: ../x.tif\n"}, "b.md:2:10: error: ../x.tif ", "scan-outside", found},
		{"scan of no sheet", map[string]string{"odd.png": "\x89PNG"}, "note: no sheet names odd.png", "scan-orphan", right},
		{"use of nothing", map[string]string{"b.md": "use: lost.md\n"}, "b.md:1:6: error: lost.md is missing", "notebook-unreadable", found},
		{"use of a folder", map[string]string{"b.md": "use: sub\n", "sub/": ""}, "b.md:1:6: error: sub is a folder", "notebook-unreadable", found},
		{"use outside", map[string]string{"b.md": "use: ../kit.md\n"}, "b.md:1:6: error: ../kit.md lies outside", "notebook-unreadable", found},
		{"use of itself", map[string]string{"b.md": "use: b.md\n"}, "b.md:1:6: error: ", "use-in-circles", found},
		{"use in a circle", map[string]string{"b.md": "use: c.md\n", "c.md": "use: d.md\n", "d.md": "use: b.md\n"},
			"d.md:1:6: error: ", "use-in-circles", found},
		{"huge line", map[string]string{"b.md": "3A: " + strings.Repeat("1/30 ", 100_000) + "\n"}, "b.md:1:1: error: ", "line-too-long", found},
		{"huge prose", map[string]string{"b.md": strings.Repeat("fog ", 100_000) + "\n"}, "", "", right},
		{"deep quotes", map[string]string{"b.md": strings.Repeat(">", 20_000) + " fog\n"}, "", "", right},
		{"deep lists", map[string]string{"b.md": strings.Repeat("- ", 5_000) + "fog\n"}, "", "", right},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			c.files["good.md"] = goodNotes
			dir := folder(t, c.files)
			before := tree(t, dir)
			t.Chdir(dir)
			check := notchbook(t, "check", ".")
			if check.status != c.status || check.err != "" {
				t.Errorf("check: status %d, want %d\n%s%s", check.status, c.status, check.out, check.err)
			}
			saidOnce(t, check.out, c.want, c.code)
			compile := must(t, "compile", ".")
			saidOnce(t, compile.out, c.want, c.code)
			sameTree(t, "after both", before, tree(t, dir, "record"))
			if record := recordIn(t, dir); !strings.Contains(record["index.html"], "2026-11-07") || record[pdfName] == "" {
				t.Error("the good notebook is not in the record")
			}
		})
	}
}

// saidOnce wants one finding with a beginning and a code.
func saidOnce(t *testing.T, out, want, code string) {
	t.Helper()
	n := 0
	for line := range strings.Lines(out) {
		if want != "" && strings.HasPrefix(line, want) && strings.HasSuffix(strings.TrimSpace(line), code+"]") {
			n++
		}
	}
	if want != "" && n != 1 {
		t.Errorf("%d findings begin with %q and end in [%s]:\n%s", n, want, code, out)
	}
	if want == "" && strings.Contains(out, "error: ") {
		t.Errorf("an error is found:\n%s", out)
	}
	if longest := 2000; len(out) > longest*4 {
		t.Errorf("%d bytes are said of one bad thing", len(out))
	}
}

// What cannot be run at all: one line to standard error, nothing to standard
// output, status 2, nothing written.
func TestWhatCannotRun(t *testing.T) {
	dir := folder(t, map[string]string{
		"good/a.md": goodNotes, "good/b.md": "sunny\n", "other/c.md": goodNotes, "none/x.pdf": "",
		"full/mine.txt": "mine", "ours/.notchbook": "notchbook record 1\nindex.html\n", "ours/index.html": "",
		"stranger/.notchbook": "notchbook record 1\nindex.html\n", "stranger/index.html": "", "stranger/thesis.doc": "years of work",
		"file": "",
	})
	t.Chdir(dir)
	before := tree(t, dir)
	cases := []struct{ args, want string }{
		{"check missing.md", "missing.md is missing"},
		{"check good/a.md missing.md", "missing.md is missing"},
		{"compile missing", "missing is missing"},
		{"check none", "there is no notebook in this folder"},
		{"compile none", "there is no notebook in this folder"},
		{"compile good other", "several folders need a folder for the record: -o DIR"},
		{"archive good other -o bag", "a bag holds one folder"},
		{"check --watch good other", "name the one that holds them all"},
		{"check good ours", "was written by notchbook"},
		{"check good -", "standard input cannot be read together with other notebooks: it is no file"},
		{"check - good", "standard input cannot be read together with other notebooks: it is no file"},
		{"compile -", "-o DIR"},
		{"check ours", "was written by notchbook"},
		{"check", "expected"},
		{"chekc good", "chekc"},
		{"check good --srict", "--srict"},
		{"compile good -o full", "full exists and was not written by notchbook; nothing was changed"},
		{"compile good -o good", "good exists and was not written by notchbook; nothing was changed"},
		{"compile good -o .", "exists and was not written by notchbook; nothing was changed"},
		{"compile good -o stranger", "stranger/thesis.doc stands in the record and was not written by notchbook; nothing was changed"},
		{"compile good -o file", "file is a file, not a folder"},
		{"compile good -o nowhere/record", "nowhere is missing"},
		{"compile good -o file/record", "file is a file, not a folder"},
		{"explain no-such-thing", `there is no finding "no-such-thing"`},
	}
	for _, c := range cases {
		s := notchbook(t, strings.Fields(c.args)...)
		first, _, _ := strings.Cut(s.err, "\n")
		if s.status != failed || s.out != "" || !strings.HasPrefix(first, "notchbook: ") || !strings.Contains(first, c.want) {
			t.Errorf("notchbook %s: status %d, want %q\n%s%s", c.args, s.status, c.want, s.out, s.err)
		}
	}
	sameTree(t, "after all", before, tree(t, dir))
}

func TestExitStatus(t *testing.T) {
	dir := folder(t, map[string]string{
		"right.md": goodNotes, "note.md": "1A: 1/60 f16\n", "warn.md": "lens a: 210 mm\nlens a: 209 mm\n", "bad.md": "shet 3A: 1/30 f16\n",
	})
	t.Chdir(dir)
	cases := []struct {
		args   string
		status int
	}{
		{"check right.md", right}, {"check note.md", right}, {"check warn.md", right}, {"check bad.md", found}, {"check .", found},
		{"check --strict right.md", right}, {"check --strict note.md", right}, {"check --strict warn.md", found}, {"check --strict bad.md", found},
		{"compile bad.md -o out", right}, {"compile .", right},
		{"explain", right}, {"explain exposure-off", right}, {"--help", right}, {"check --help", right}, {"--version", right}, {"", right},
	}
	for _, c := range cases {
		s := notchbook(t, strings.Fields(c.args)...)
		if s.status != c.status || s.out == "" || s.err != "" {
			t.Errorf("notchbook %s: status %d, want %d\n%s%s", c.args, s.status, c.status, s.out, s.err)
		}
	}
}

// A folder may be named in as many ways as the shell completes it, and a
// notebook twice.
func TestPathsOfOneFolder(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": goodNotes, "b.md": "1B: 1/60 f16\n"})
	t.Chdir(filepath.Dir(dir))
	want := must(t, "check", "season")
	for _, args := range [][]string{
		{"season/"}, {"./season"}, {"season/a.md", "season/b.md"}, {"season/b.md", "./season/a.md"}, {"season/", "season/a.md"},
		{"season/a.md", "season/../season/b.md", dir + "/a.md"},
	} {
		if s := must(t, append([]string{"check"}, args...)...); s != want {
			t.Errorf("check %v says\n%s, not\n%s", args, s.out, want.out)
		}
	}
	if s := must(t, "check", dir); s.out != strings.ReplaceAll(want.out, "season/b.md:", dir+"/b.md:") { // as it was named, so that an editor opens it
		t.Errorf("check %s says\n%s", dir, s.out)
	}
}

// Notes from standard input are read as if they lay in the current folder.
func TestStandardInput(t *testing.T) {
	dir := folder(t, map[string]string{"kit.md": "filter Y8: x2\n", "scans/1A.jpg": picture(60, 40), "other.md": "shet 1A: 1/30 f16\n"})
	t.Chdir(dir)
	text := "use: kit.md\nmeter: 1/60 f16\n1A: Y8, 1/125 f16\nscan 1A: scans/1A.jpg\n"
	check := notchbookReading(t, text, "check", "-")
	if check.status != found || !strings.Contains(check.out, "standard input:3:9: error: 1A got 2 stops under [exposure-off]") {
		t.Errorf("status %d\n%s%s", check.status, check.out, check.err)
	}
	if strings.Contains(check.out, "other.md") || strings.Contains(check.out, "scan-") {
		t.Errorf("the folder was searched:\n%s", check.out)
	}
	s := notchbookReading(t, text, "compile", "-", "-o", "../out")
	if s.status != right {
		t.Errorf("status %d\n%s%s", s.status, s.out, s.err)
	}
	if !strings.Contains(tree(t, "../out")["scans.html"], `href="../season/scans/1A.jpg"`) {
		t.Error("nothing leads to the scan")
	}
}

// What may not be looked at is said, and the rest is read.
func TestUnreadableParts(t *testing.T) {
	outside := folder(t, map[string]string{"far.md": "far"})
	dir := folder(t, map[string]string{"good.md": goodNotes, "shut/b.md": goodNotes, "use.md": "use: shut.md\n", "shut.md": ""})
	if err := os.Symlink(outside, filepath.Join(dir, "away")); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	s := notchbook(t, "check", filepath.Join(dir, "good.md"))
	if !strings.Contains(s.err, "notchbook: "+filepath.Join(dir, "away")+" lies outside the season's folder\n") || !strings.Contains(s.out, "1 sheet, 1 right") {
		t.Errorf("status %d\n%s%s", s.status, s.out, s.err)
	}
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("the superuser is denied nothing, nor does Windows know these bits")
	}
	for _, name := range []string{"shut", "shut.md"} {
		full := filepath.Join(dir, name)
		if err := os.Chmod(full, 0); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.Chmod(full, 0o755) })
	}
	s = notchbook(t, "check", dir)
	if !strings.Contains(s.err, "notchbook: "+filepath.Join(dir, "shut")+" cannot be opened: permission denied\n") ||
		!strings.Contains(s.out, "shut.md cannot be opened: permission denied [notebook-unreadable]") || !strings.Contains(s.out, "1 sheet, 1 right") {
		t.Errorf("status %d\n%s%s", s.status, s.out, s.err)
	}
}

// A record inside a folder of notes, or of scans, stays out of the next season.
func TestRecordWithinNotes(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": goodNotes + "scan 1A: scans/1A.jpg\n", "scans/1A.jpg": picture(900, 600)})
	for _, dest := range []string{"notes out", "scans/record"} {
		first := must(t, "compile", dir, "-o", filepath.Join(dir, dest))
		if again := must(t, "compile", dir, "-o", filepath.Join(dir, dest)); again.out != first.out {
			t.Errorf("-o %s: first\n%s\nthen\n%s", dest, first.out, again.out)
		}
		if !strings.Contains(first.out, "1 sheet, 1 right; 0 errors, 0 warnings, 0 notes") {
			t.Errorf("-o %s:\n%s", dest, first.out)
		}
	}
}

// A run as an ordinary user would do it: the superuser's tests cannot see what
// is denied.
func TestRecordThatCannotBeWritten(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("the superuser is denied nothing, nor does Windows know these bits")
	}
	dir := folder(t, map[string]string{"a.md": goodNotes})
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	s := notchbook(t, "compile", dir)
	if s.status != failed || s.out != "" || !strings.Contains(s.err, "permission denied") {
		t.Errorf("status %d\n%s%s", s.status, s.out, s.err)
	}
}

// Notes in the form of a word processor are not passed over in silence, where a folder is read.
func TestDocumentsInAFolderAreNamed(t *testing.T) {
	dir := folder(t, map[string]string{"good.md": goodNotes, "1987.rtf": "{\\rtf1}"})
	if got := notchbook(t, "check", dir).err; !strings.Contains(got, "1987.rtf is a document and is not read") {
		t.Errorf("one: said is %q", got)
	}
	if err := os.WriteFile(filepath.Join(dir, "1988.DOC"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if got := notchbook(t, "check", dir).err; !strings.Contains(got, "1987.rtf and 1 more are documents and are not read") {
		t.Errorf("two: said is %q", got)
	}
	for name, text := range map[string]string{"register.csv": "1A;Gate;EV 9", "film.csv": "0.1,0.2", "curve.md": "film slate: ISO 100, curve film.csv\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got := notchbook(t, "check", dir).err; !strings.Contains(got, "register.csv is a table and is not read") || strings.Contains(got, "film.csv") {
		t.Errorf("a table: said is %q", got)
	}
	if got := notchbook(t, "check", filepath.Join(dir, "good.md")).err; got != "" {
		t.Errorf("where a notebook is named: said is %q", got)
	}
}
