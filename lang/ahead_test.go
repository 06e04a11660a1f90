package lang

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"notchbook/lang/source"
)

// A notebook that teaches nothing new reads ahead of its turn as in its turn; one that
// does, or uses another, waits.
func TestNotebooksReadAheadAsInTurn(t *testing.T) {
	var files []*source.File
	for _, pattern := range []string{"../testdata/fieldlogs/*/*.md", "../examples/*/*.md"} {
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
	names, uses := NewLexicon(), map[string]bool{}
	for _, f := range files {
		names.Follow = func(source.Span) { uses[f.Name] = true }
		before := names.Lessons()
		early := Ahead([]*source.File{f}, names)[0]
		if names.Lessons() != before {
			t.Fatalf("%s: reading ahead taught something", f.Name)
		}
		book, list := Parse(f, names)
		waits := names.Lessons() != before || uses[f.Name]
		if waits != (early.Notebook == nil) {
			t.Errorf("%s: waits %v, but was read ahead %v", f.Name, waits, early.Notebook != nil)
		}
		if early.Notebook != nil && !(reflect.DeepEqual(early.Statements, book.Statements) && reflect.DeepEqual(early.Lines, book.Lines) && reflect.DeepEqual(early.List, list)) {
			t.Errorf("%s reads otherwise ahead of its turn", f.Name)
		}
	}
	names.Follow = nil
	read := 0
	for len(files) > 0 {
		before := names.Lessons()
		for i, early := range Ahead(files, names) {
			book, list := Parse(files[0], names)
			file, waits := files[0], names.Lessons() != before || uses[files[0].Name]
			files = files[1:]
			if waits != (early.Notebook == nil) {
				t.Errorf("%s: waits %v, but was read ahead %v", file.Name, waits, early.Notebook != nil)
			}
			if early.Notebook != nil && !(reflect.DeepEqual(early.Statements, book.Statements) && reflect.DeepEqual(early.Lines, book.Lines) && reflect.DeepEqual(early.List, list)) {
				t.Errorf("%s reads otherwise beside the others", file.Name)
			}
			if names.Lessons() != before {
				break // those behind it were read with another lexicon
			}
			read += min(i, 1)
		}
	}
	if read < 20 {
		t.Errorf("only %d notebooks were read beside others", read)
	}
}
