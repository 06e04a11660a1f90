package lang

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// A notebook that teaches nothing new reads ahead of its turn as in its turn; one that
// does waits, and so does one that uses another which was not heard yet.
func TestNotebooksReadAheadAsInTurn(t *testing.T) {
	same := func(early Early, book *Notebook, list diag.List) bool {
		all := append(early.List, early.Late()...)
		slices.SortStableFunc(all, diag.Compare)
		slices.SortStableFunc(list, diag.Compare)
		return reflect.DeepEqual(read(early.Statements), read(book.Statements)) && reflect.DeepEqual(early.Lines, book.Lines) && reflect.DeepEqual(all, list)
	}
	files := NotesIn(t, "../testdata/fieldlogs/*/*.md", "../examples/*/*.md")
	names, uses := NewLexicon(), map[string]bool{}
	for _, f := range files {
		names.Follow = func(source.Span) { uses[f.Name] = true }
		before := names.Lessons()
		early := Ahead([]*source.File{f}, names, func(source.Span) bool { return false })[0]
		if names.Lessons() != before {
			t.Fatalf("%s: reading ahead taught something", f.Name)
		}
		book, list := Parse(f, names)
		waits := names.Lessons() != before || uses[f.Name]
		if waits != (early.Notebook == nil) {
			t.Errorf("%s: waits %v, but was read ahead %v", f.Name, waits, early.Notebook != nil)
		}
		if early.Notebook != nil && !same(early, book, list) {
			t.Errorf("%s reads otherwise ahead of its turn", f.Name)
		}
	}
	heard := func(source.Span) bool { return true } // all were read just now
	read, followed := 0, 0
	for len(files) > 0 {
		before := names.Lessons()
		for i, early := range Ahead(files, names, heard) {
			var use []source.Span
			names.Follow = func(at source.Span) { use = append(use, at) }
			book, list := Parse(files[0], names)
			file, waits := files[0], names.Lessons() != before
			files = files[1:]
			if waits != (early.Notebook == nil) {
				t.Errorf("%s: waits %v, but was read ahead %v", file.Name, waits, early.Notebook != nil)
			}
			if early.Notebook != nil && !(same(early, book, list) && reflect.DeepEqual(early.Uses, use)) {
				t.Errorf("%s reads otherwise beside the others", file.Name)
			}
			followed += len(early.Uses)
			if names.Lessons() != before {
				break // those behind it were read with another lexicon
			}
			read += min(i, 1)
		}
	}
	if read < 20 || followed == 0 {
		t.Errorf("only %d notebooks were read beside others, and %d used one", read, followed)
	}
}

// NotesIn are the notebooks that some patterns name.
func NotesIn(t *testing.T, patterns ...string) (files []*source.File) {
	t.Helper()
	for _, pattern := range patterns {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, source.New(name, text))
		}
	}
	return files
}

// read is lines with all their terms, whenever these were read.
func read(lines []*Statement) (all []*Statement) {
	for _, st := range lines {
		all = append(all, st.With(st.Terms()))
	}
	return all
}
