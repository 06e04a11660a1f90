package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

func contents(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Every catalogue example with a fix: the file is mended, its diff is shown, the
// finding is gone, nothing that counts is new, and a second run changes nothing.
func TestFixMendsTheExamples(t *testing.T) {
	fixes := 0
	for _, rule := range diag.Rules() {
		if rule.Bad == "" || !strings.Contains(notchbookReading(t, rule.Bad, "check", "--format", "json", "-").out, `"fix": {`) {
			continue
		}
		fixes++
		dir := folder(t, map[string]string{"notes.md": rule.Bad})
		first := notchbook(t, "check", "--fix", dir)
		now := contents(t, filepath.Join(dir, "notes.md"))
		if now == rule.Bad || !strings.HasPrefix(first.out, fmt.Sprintf("--- %[1]s\n+++ %[1]s (mended)\n", filepath.Join(dir, "notes.md"))) {
			t.Errorf("%s: %q, and said:\n%s", rule.Code, now, first.out)
		}
		second := notchbook(t, "check", "--fix", dir)
		if strings.Contains(second.out, "+++") || contents(t, filepath.Join(dir, "notes.md")) != now {
			t.Errorf("%s: a second run mends again:\n%s", rule.Code, second.out)
		}
	}
	if fixes < 3 {
		t.Errorf("only %d examples offer a fix", fixes)
	}
}

// What stands around a fix stays byte for byte: the mark at the beginning, the
// ends of lines, what the writer has in prose.
func TestFixKeepsTheRest(t *testing.T) {
	const before = "\ufeffday: 2026-11-07\r\nload 3A 3B: slate\r\n3A Y8 1/3O f16\r\n\r\nIt rained – 3A\u00a0got wet.\r\nshet 3B: 1/30 f16"
	dir := folder(t, map[string]string{"notes.md": before})
	notchbook(t, "check", "--fix", dir)
	now := contents(t, filepath.Join(dir, "notes.md"))
	want := strings.NewReplacer("3A Y8", "3A: Y8", "shet", "sheet").Replace(before)
	if now != want {
		t.Errorf("%q\nwant %q", now, want)
	}
}

func TestFixTakesTheFirstOfTwoThatTouch(t *testing.T) {
	file := source.New("a.md", []byte("one two three"))
	at := func(start, end int, text string) diag.Diagnostic {
		return diag.Diagnostic{Fix: &diag.Fix{Span: source.Span{File: file, Start: start, End: end}, Text: text}}
	}
	all := mend(diag.List{at(8, 13, "3"), at(0, 5, "1"), at(4, 7, "2"), at(0, 5, "1"), {}})
	if len(all) != 1 || string(all[0].text) != "1wo 3" || string(file.Text) != "one two three" {
		t.Errorf("%d files, %q", len(all), all[0].text)
	}
}

// Without --fix nothing is written; with it neither a notebook that another uses
// nor standard input.
func TestFixWritesOnlyWhatWasNamed(t *testing.T) {
	files := map[string]string{"kit.md": "lens 210 210 mm\nflim slate: ISO 400\n", "notes.md": "use: kit.md\nshet 3A: 1/30 f16\n"}
	dir := folder(t, files)
	notchbook(t, "check", dir)
	if contents(t, filepath.Join(dir, "notes.md")) != files["notes.md"] {
		t.Error("check wrote into a notebook")
	}
	s := notchbook(t, "check", "--fix", "--format", "json", filepath.Join(dir, "notes.md"))
	if contents(t, filepath.Join(dir, "kit.md")) != files["kit.md"] {
		t.Error("a notebook that was not named is changed")
	}
	if !strings.Contains(contents(t, filepath.Join(dir, "notes.md")), "\nsheet 3A:") || !strings.HasPrefix(s.out, "{") || !strings.Contains(s.err, "+sheet 3A") {
		t.Errorf("%s\n%s", s.out, s.err)
	}
	if s := notchbookReading(t, files["notes.md"], "check", "--fix", "-"); s.status != failed || s.err == "" {
		t.Errorf("standard input: %+v", s)
	}
}
