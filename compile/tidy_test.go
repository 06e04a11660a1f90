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
