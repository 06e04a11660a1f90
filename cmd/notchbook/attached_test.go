package main

import (
	"bytes"
	"crypto/sha256"
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
	withCurve(t, dir)
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
	if kept != len(was.Files()) || len(was.Curves) != 1 {
		t.Errorf("%d files are attached of %d", kept, len(was.Files()))
	}
	saidOfNotes(t, was, now)
}

// withCurve gives the season's kit a filter with a curve of its own.
func withCurve(t *testing.T, dir string) {
	t.Helper()
	kit := filepath.Join(dir, "kit.md")
	text, err := os.ReadFile(kit)
	if err != nil {
		t.Fatal(err)
	}
	const curve = "nm,transmittance\n400,0.02\n500,0.30\n550,0.85\n600,0.88\n700,0.90\n"
	for name, text := range map[string]string{kit: string(text) + "\nfilter gg1: curve gg1.csv\n", filepath.Join(dir, "gg1.csv"): curve} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// The record holds each curve that the kit names as it was read, and all pages and lists
// of what was read know it.
func TestCurvesOfTheKitAreInTheRecord(t *testing.T) {
	dir := aldermoor(t)
	withCurve(t, dir)
	must(t, "compile", dir)
	want, err := os.ReadFile(filepath.Join(dir, "gg1.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(filepath.Join(dir, "record", "notes", "gg1.csv")); err != nil || !bytes.Equal(got, want) {
		t.Errorf("the curve's copy: %q, %v", got, err)
	}
	sum := fmt.Sprintf("%x", sha256.Sum256(want))
	for _, name := range []string{"colophon.html", "season.json", "record.txt"} {
		text, err := os.ReadFile(filepath.Join(dir, "record", name))
		if err != nil {
			t.Fatal(err)
		}
		if plain := strings.Join(strings.Fields(string(text)), ""); !strings.Contains(plain, sum) || !strings.Contains(plain, "gg1.csv") {
			t.Errorf("%s does not name the curve and its digest", name)
		}
	}
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
