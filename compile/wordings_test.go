package compile_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// Right sheets in wordings of their writers' own (testdata/wordings). What counts: sheets that
// are called off, of which none should be, and those that are asked about. Every sheet that is
// called off or asked about counts; of those that are right, each line once a notebook, so that
// what stands above many of them as their beginning adds nothing. Neither number may rise.
func TestRightSheetsInOtherWords(t *testing.T) {
	const mostBlamed, mostAsked = 0, 58.7 // sheets, %
	names, err := filepath.Glob("../testdata/wordings/*.md")
	if err != nil || len(names) < 20 {
		t.Fatalf("%d notebooks, %v", len(names), err)
	}
	right, asked, blamed := 0, 0, 0
	for _, path := range names {
		if filepath.Base(path) == "README.md" {
			continue
		}
		season, _ := compile.Compile(compile.World{Read: func(string) ([]byte, error) { return os.ReadFile(path) }}, "notes.md")
		seen := map[string]bool{}
		for _, s := range season.Sheets {
			line := s.Lines[0]
			switch s.State {
			case record.Off:
				blamed++
				t.Logf("%s:%d: %s  (%+.1f)", filepath.Base(path), line.Place.Line, line.Text, s.Difference.Value)
			case record.Right:
				_, said, _ := strings.Cut(line.Text, ":")
				if !seen[said] {
					right, seen[said] = right+1, true
				}
			case record.Unchecked:
				asked++
			default:
				t.Errorf("%s:%d is %s", filepath.Base(path), line.Place.Line, s.State)
			}
		}
	}
	all := right + asked + blamed
	share := 100 * float64(asked) / float64(all)
	t.Logf("%d sheets: %d right, %d asked about (%.1f %%), %d called off", all, right, asked, share, blamed)
	if blamed > mostBlamed {
		t.Errorf("%d right sheets are called off, more than %d", blamed, mostBlamed)
	}
	if share > mostAsked {
		t.Errorf("%.1f %% of the right sheets are asked about, more than %.1f %%", share, mostAsked)
	}
}
