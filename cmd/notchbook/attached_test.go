package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// The notebooks that poppler takes out of the book are the season's, byte for
// byte, and compile to the same findings.
func TestBookAloneIsCompiledAgain(t *testing.T) {
	dir := aldermoor(t)
	must(t, "compile", dir)
	file, out := filepath.Join(dir, "record", "record.pdf"), t.TempDir()
	kept := 0
	for line := range strings.Lines(ask(t, "pdfdetach", "-list", file)) {
		number, name, found := strings.Cut(strings.TrimSpace(line), ": ")
		if _, err := strconv.Atoi(number); err != nil || !found {
			continue
		}
		kept++
		copied := filepath.Join(out, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(copied), 0o700); err != nil {
			t.Fatal(err)
		}
		ask(t, "pdfdetach", "-save", number, "-o", copied, file)
		got, err := os.ReadFile(copied)
		if err != nil {
			t.Fatal(err)
		}
		if want, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name))); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is not attached as it is in the season: %v", name, err)
		}
	}
	was, now := recordOf(t, dir), recordOf(t, out)
	if kept != len(was.Notebooks) || kept == 0 {
		t.Errorf("%d notebooks are attached of %d", kept, len(was.Notebooks))
	}
	saidOfNotes(t, was, now)
}

// saidOfNotes compares what was found in the notebooks themselves; the scans
// are not in the book, and what is found of them needs the files.
func saidOfNotes(t *testing.T, was, now *record.Season) {
	t.Helper()
	list := func(s *record.Season) (out []string) {
		for _, f := range s.Findings {
			if !strings.HasPrefix(f.Code, "scan-") {
				out = append(out, fmt.Sprint(f.Place, f.Code, f.Message, f.Notes))
			}
		}
		return out
	}
	if a, b := list(was), list(now); !slices.Equal(a, b) || len(a) < 10 {
		t.Errorf("%d findings become %d:\n%q\n%q", len(a), len(b), a, b)
	}
}
