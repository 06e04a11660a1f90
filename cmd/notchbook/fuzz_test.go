package main

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/html"
	"notchbook/render/pdf"
)

// nowhere is a folder that keeps nothing.
type nowhere struct{}

func (nowhere) Create(string) (io.WriteCloser, error) { return nowhere{}, nil }
func (nowhere) Write(p []byte) (int, error)           { return len(p), nil }
func (nowhere) Close() error                          { return nil }

// FuzzNotes sends any bytes through all of the program but the disk: whatever
// is typed, there is a record, its pages and its book, every finding has a code
// of the catalogue and lies within the file, and every sheet has one state. As a
// test it runs the seeds; go test -fuzz Notes ./cmd/notchbook goes on from them.
func FuzzNotes(f *testing.F) {
	seeds, _ := filepath.Glob("../../examples/aldermoor/2*.*")
	for _, name := range seeds {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	for _, rule := range diag.Rules() {
		f.Add([]byte(rule.Bad))
		f.Add([]byte(rule.Good))
	}
	f.Add([]byte(awkward))
	f.Add([]byte(hostile))
	kit, err := os.ReadFile("../../examples/aldermoor/kit.md")
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		t.Parallel()
		wholeWay(t, text, kit)
	})
}

func wholeWay(t *testing.T, text, kit []byte) {
	t.Helper()
	read := func(name string) ([]byte, error) {
		switch name {
		case "kit.md":
			return kit, nil
		case "notes.md":
			return text, nil
		}
		return nil, fs.ErrNotExist
	}
	season, list := compile.Compile(compile.World{Title: "Notes", Read: read}, "notes.md")
	for _, d := range list {
		if diag.Lookup(d.Code).Title == "" || d.Message == "" {
			t.Errorf("finding %q says %q", d.Code, d.Message)
		}
		if d.Span.File != nil && (d.Span.Start < 0 || d.Span.Start > d.Span.End || d.Span.End > len(d.Span.File.Text)) {
			t.Errorf("%s lies at %d to %d of %d bytes", d.Code, d.Span.Start, d.Span.End, len(d.Span.File.Text))
		}
	}
	exposures, films := 0, map[*record.Sheet]bool{}
	for _, sh := range season.Sheets {
		if sh.State != record.Unexposed {
			exposures++
		}
		films[sh.First()] = true
	}
	if n := season.Tally; n.Exposures() != exposures || n.Sheets != len(films) || n.Sheets > n.Exposures()+n.Unexposed {
		t.Errorf("%d exposures on %d sheets, and the tally is %+v", exposures, len(films), n)
	}
	var said strings.Builder
	if err := (diag.Writer{Out: &said}).Write(list); err != nil || !utf8.ValidString(said.String()) || strings.ContainsFunc(said.String(), drives) {
		t.Errorf("%v: it is said as %q", err, said.String())
	}
	if err := html.Write(nowhere{}, season, html.Options{}); err != nil {
		t.Error(err)
	}
	if err := pdf.Write(nowhere{}, season, pdf.Options{}); err != nil {
		t.Error(err)
	}
}
