package main

import (
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// The same notes give the same record, to the byte: whoever compiles, wherever
// the folder lies, whatever the machine is set to. And the user's files are
// read, never written.

func recordIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	return tree(t, filepath.Join(dir, "record"))
}

func TestSameNotesSameRecord(t *testing.T) {
	want := recordIn(t, compiledSeason(t))
	if len(want) < 15 || want["record.pdf"] == "" || want["index.html"] == "" {
		t.Fatalf("the record has %d files", len(want))
	}

	t.Run("one processor", func(t *testing.T) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
		dir := aldermoor(t)
		must(t, "compile", dir)
		sameTree(t, "with one processor", want, recordIn(t, dir))
	})
	for _, env := range [][]string{
		{"TZ=Pacific/Auckland", "LANG=de_DE.UTF-8", "LC_ALL=de_DE.UTF-8"},
		{"TZ=America/St_Johns", "LANG=tr_TR.UTF-8", "GOMAXPROCS=7", "HOME=/nowhere"},
	} {
		dir := aldermoor(t)
		if out, err := process(env, "compile", dir).CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", env, err, out)
		}
		sameTree(t, strings.Join(env, " "), want, recordIn(t, dir))
	}
}

// A second run must not take the first one's record for notes or scans, nor
// touch anything else.
func TestCompilingAgainChangesNothing(t *testing.T) {
	dir := aldermoor(t)
	before := tree(t, dir)
	first := must(t, "compile", dir)
	record := recordIn(t, dir)
	sameTree(t, "after compile", before, tree(t, dir, "record"))

	second := must(t, "compile", dir)
	sameTree(t, "the record, compiled again", record, recordIn(t, dir))
	sameTree(t, "after compiling again", before, tree(t, dir, "record"))
	if first != second {
		t.Errorf("the second run says\n%s%s\nand the first\n%s%s", second.out, second.err, first.out, first.err)
	}
	check := notchbook(t, "check", dir)
	if a, b := tallyOf(t, first.out), tallyOf(t, check.out); a != b {
		t.Errorf("compile counts %q, check %q", a, b)
	}
	sameTree(t, "after check", before, tree(t, dir, "record"))
}

// Whatever is done to a season between two runs, what is kept of the first shows in
// no byte of the second: the record is that of a folder never compiled before.
func TestAgainIsAsForTheFirstTime(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	notebook := func(name string) string { return filepath.Join(dir, name) }
	must(t, "compile", dir)
	later := "# Later\n\nday: 2026-11-20, Mere\n\n![the gate](gate.png)\n\nmeter: 1/60 f16\n7A: 1/60 f16\n7B: 1/15 f16\n"
	for _, change := range []struct {
		what string
		do   func() error
		args []string
	}{
		{"nothing", func() error { return nil }, nil},
		{"an outing is added", func() error { return os.WriteFile(notebook("later.md"), []byte(later), 0o644) }, nil},
		{"a sheet is added", func() error { return os.WriteFile(notebook("later.md"), []byte(later+"8A: 1/60 f22\n"), 0o644) }, nil},
		{"a picture comes", func() error { return os.WriteFile(notebook("gate.png"), []byte(tinyScan(t, 77)), 0o644) }, nil},
		{"a scan is another", func() error { return os.WriteFile(notebook("scans/neg-#34.png"), []byte(tinyScan(t, 78)), 0o644) }, nil},
		{"a scan is gone", func() error { return os.Remove(notebook("scans/neg-#35.png")) }, nil},
		{"no pictures in the book", func() error { return nil }, []string{"--thumbs", "none", "--paper", "a5"}},
		{"a record that was changed by hand", func() error {
			return os.WriteFile(notebook("record/index.html"), []byte("mine"), 0o644)
		}, nil},
		{"a picture in it that was cut off", func() error {
			all, err := filepath.Glob(notebook("record/pictures/*.jpg"))
			if err != nil || len(all) == 0 {
				t.Fatal(all, err)
			}
			return os.Truncate(all[0], 100)
		}, nil},
		{"an outing is gone", func() error { return os.Remove(notebook("later.md")) }, nil},
	} {
		if err := change.do(); err != nil {
			t.Fatal(change.what, err)
		}
		must(t, append([]string{"compile", dir}, change.args...)...)
		fresh := filepath.Join(t.TempDir(), filepath.Base(dir))
		copyNotes(t, fresh, dir)
		must(t, append([]string{"compile", fresh}, change.args...)...)
		if os.Remove(filepath.Join(dir, "record", formerName)) == nil { // only a record that follows others knows what scans were
			must(t, append([]string{"compile", dir}, change.args...)...)
		}
		sameTree(t, change.what, recordIn(t, fresh), recordIn(t, dir))
	}
}

// An outing's pages are the same files when another one comes, so that programs
// that copy folders leave them alone.
func TestPagesStayWhenTheSeasonGoesOn(t *testing.T) {
	dir := folder(t, map[string]string{"one.md": "# One\n\nday: 2026-11-07, Mere\nmeter: 1/60 f16\n1A: 1/60 f16\n1B: 1/15 f16\n"})
	must(t, "compile", dir)
	pages, err := filepath.Glob(filepath.Join(dir, "record", "outing-*.html"))
	if err != nil || len(pages) != 1 {
		t.Fatal(pages, err)
	}
	if os.Link(pages[0], filepath.Join(dir, "link")) != nil {
		t.Skip("this disk knows no second names")
	}
	// It is the last one's neighbour that leads on to the next.
	fill(t, dir, map[string]string{"two.md": "# Two\n\nday: 2026-11-08, Fell\nmeter: 1/60 f16\n2A: 1/60 f16\n"})
	must(t, "compile", dir)
	fill(t, dir, map[string]string{"three.md": "# Three\n\nday: 2026-11-09, Weir\nmeter: 1/60 f16\n3A: 1/60 f16\n3B: 1/8 f16\n"})
	before, err := os.Stat(pages[0])
	if err != nil {
		t.Fatal(err)
	}
	must(t, "compile", dir)
	if after, err := os.Stat(pages[0]); err != nil || !os.SameFile(before, after) {
		t.Errorf("the first outing's page was written anew when a third came: %v", err)
	}
}

// SOURCE_DATE_EPOCH, as reproducible-builds.org specifies it, dates the PDF and
// nothing else; without it the notes' last day does.
func TestSourceDate(t *testing.T) {
	without := recordIn(t, compiledSeason(t))
	if d := dateOf(without); d != "D:20261201000000" {
		t.Errorf("without SOURCE_DATE_EPOCH the book is dated %s, not on the notes' last day", d)
	}
	t.Setenv("SOURCE_DATE_EPOCH", "1000000000")
	dir := aldermoor(t)
	must(t, "compile", dir)
	with := recordIn(t, dir)
	if d := dateOf(with); d != "D:20010909014640" {
		t.Errorf("the book is dated %s", d)
	}
	delete(with, pdfName)
	delete(without, pdfName)
	sameTree(t, "with SOURCE_DATE_EPOCH", without, with)

	kept := recordIn(t, dir)
	for _, bad := range []string{"yesterday", "1e9", "99999999999999999999"} {
		os.Setenv("SOURCE_DATE_EPOCH", bad)
		s := notchbook(t, "compile", dir)
		if s.status != failed || !strings.Contains(s.err, "SOURCE_DATE_EPOCH") || s.out != "" {
			t.Errorf("%s: status %d, %q, %q", bad, s.status, s.out, s.err)
		}
	}
	sameTree(t, "after a bad SOURCE_DATE_EPOCH", kept, recordIn(t, dir))
}

var creation = regexp.MustCompile(`/CreationDate \(([^)]*)\)`)

func dateOf(files map[string]string) string {
	m := creation.FindStringSubmatch(files[pdfName])
	if m == nil {
		return "not at all"
	}
	return m[1]
}

// A moved folder is still whole: the record's links are relative, and its bytes
// do not know where it lies.
func TestRecordMovesWithItsFolder(t *testing.T) {
	dir := aldermoor(t)
	must(t, "compile", dir)
	moved := filepath.Join(t.TempDir(), "a b", "season")
	if err := os.MkdirAll(filepath.Dir(moved), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(dir, moved); err != nil {
		t.Fatal(err)
	}
	readPages(t, moved, filepath.Join(moved, "record")).followAll(t)
	for name, text := range recordIn(t, moved) {
		if strings.Contains(text, filepath.Dir(dir)) {
			t.Errorf("%s says where the folder lay", name)
		}
	}
}
