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
	dir := aldermoor(t)
	must(t, "compile", dir)
	want := recordIn(t, dir)
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

// SOURCE_DATE_EPOCH, as reproducible-builds.org specifies it, dates the PDF and
// nothing else; without it the notes' last day does.
func TestSourceDate(t *testing.T) {
	dir := aldermoor(t)
	must(t, "compile", dir)
	without := recordIn(t, dir)
	if d := dateOf(without); d != "D:20261201000000" {
		t.Errorf("without SOURCE_DATE_EPOCH the book is dated %s, not on the notes' last day", d)
	}
	t.Setenv("SOURCE_DATE_EPOCH", "1000000000")
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
