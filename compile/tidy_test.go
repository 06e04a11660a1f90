package compile_test

import (
	"os"
	"path/filepath"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// A tidied season is the same season: every sheet as it was, with the same
// figures, findings and causes.
func TestTidyLeavesTheRecord(t *testing.T) {
	folders, err := filepath.Glob("../testdata/fieldlogs/*/key.csv")
	if err != nil {
		t.Fatal(err)
	}
	for i := range folders {
		folders[i] = filepath.Dir(folders[i])
	}
	respelled := 0
	for _, folder := range append(folders, aldermoor, independent) {
		before, _ := compileFolder(t, folder)
		var names []string
		for _, n := range before.Notebooks {
			names = append(names, n.Path)
		}
		files := map[string][]byte{}
		all, _ := compile.Tidy(compile.World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }}, names...)
		for _, one := range all {
			files[one.Name] = []byte(one.New)
			if one.Old != one.New {
				respelled++
			}
		}
		after, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) { return files[name], nil }}, names...)
		sameSeason(t, folder, before, after)
	}
	if respelled < 15 {
		t.Errorf("only %d notebooks were spelled anew", respelled)
	}
}

func sameSeason(t *testing.T, folder string, a, b *record.Season) {
	t.Helper()
	if len(a.Sheets) != len(b.Sheets) || len(a.Findings) != len(b.Findings) {
		t.Errorf("%s: %d sheets and %d findings became %d and %d", folder, len(a.Sheets), len(a.Findings), len(b.Sheets), len(b.Findings))
		return
	}
	for i, s := range a.Sheets {
		o := b.Sheets[i]
		if s.ID != o.ID || s.State != o.State || s.Difference != o.Difference || s.Asked.EV != o.Asked.EV || s.Given.EV != o.Given.EV ||
			s.Film != o.Film || s.Lens != o.Lens || s.Development != o.Development || len(s.Filters) != len(o.Filters) || len(s.History) != len(o.History) {
			t.Errorf("%s: %s is not what it was: %+v\n%+v", folder, s.ID, s, o)
		}
	}
	for i, f := range a.Findings {
		if o := b.Findings[i]; f.Code != o.Code || f.Severity != o.Severity || f.Place.Line != o.Place.Line || len(f.Causes) != len(o.Causes) {
			t.Errorf("%s: %s became %s", folder, f.Message, o.Message)
		}
	}
}

// What a line comes to hangs on its words as well as on its terms. In all wordings of the corpora, and in
// lines made to be read by their words, what is spelled anew comes to what it came to.
func TestTidyKeepsWhatWordsSay(t *testing.T) {
	notes := map[string]string{}
	paths, err := filepath.Glob("../testdata/wordings/*.md")
	if err != nil || len(paths) < 20 {
		t.Fatalf("%d notebooks, %v", len(paths), err)
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		notes[path] = string(text)
	}
	const kit = "film stone: ISO 100, EI 100\nfilter Y8: yellow, x2\nday: 2026-12-06\nload 1A-9B: stone\nmeter: EV 9\n"
	for _, line := range []string{
		"double exposure, each 1/4 at f16", "double exposure, each 1/4 f16", "double exposure 1/2 at f16", "double 1/2 at f16", "spoilt at f16 1/2", "unexposed sheet, f16 1/2",
		"again, f16 at 1/2", "bracketed +1 stop, 1 sec at f16", "ditto, f16 at 1/4", "no filter at all, 1/2 sec at f16", "as before but 1 sec", "half a second at f16",
		"Gate,EV 8,f16,1 s", "EV 11,R25,x8,1 s,f16", "f16, 1/8, N-1,5 min", "EV 8,2 s", "f8,60", "bellows 29,7cm, f16 1/2", "6h20, f16 1/2",
	} {
		notes[line] = kit + "1A: " + line + "\n1B: same, 1/2\n"
	}
	// Of cells without blanks, what is read and what is written is what stands there.
	season, list := compileText(kit + "1A: Gate,EV 8,f16,1 s\n1B: EV 9,1 s,f22\n2A: EV 8.2 s, f16\n2B: EV 10,III,f16,1/15\n3A: f8,60\n")
	for i, want := range []record.State{record.Right, record.Right, record.Unchecked, record.Right, record.Unchecked} {
		if s := season.Sheets[i]; s.State != want {
			t.Errorf("%s: %s, %v", s.ID, s.State, list)
		}
	}
	for name, text := range notes {
		read := func(text string) compile.World {
			return compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}
		}
		before, _ := compile.Compile(read(text), "notes.md")
		tidied, _ := compile.Tidy(read(text), "notes.md")
		after, _ := compile.Compile(read(tidied[0].New), "notes.md")
		sameSeason(t, name, before, after)
	}
}

// How long somebody waited, told among words, stays as it was typed.
func TestTidyLeavesTimesAmongWords(t *testing.T) {
	const text = "meter: 1/8 f16\n1A: 1/8 f16 waited 20 mins\n1B: 1/8 f16, two deer at 2 hours 10 min\n"
	tidied, _ := compile.Tidy(compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, "notes.md")
	if tidied[0].New != text {
		t.Errorf("%s", tidied[0].New)
	}
}

// A line whose own words are asked about, or which is faulted, may mean something else than what it was read as,
// and stays as it was typed; its neighbours are spelled anew.
func TestTidyLeavesWhatIsAskedAbout(t *testing.T) {
	for _, line := range []string{"f/16 1/4 a stop over", "f/16 1/4 a stop over, wide open", "F16, 1/4, not 1/8 or 1/15", "1/8 sec, f/16 plus two thirds"} {
		text := "meter: 1/8 f16\n1A: " + line + "\n\n1B: F/16, 1/8 sec\n"
		tidied, _ := compile.Tidy(compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, "notes.md")
		if want := "meter: 1/8 f16\n1A: " + line + "\n\n1B: f16, 1/8\n"; tidied[0].New != want {
			t.Errorf("%s", tidied[0].New)
		}
	}
}
