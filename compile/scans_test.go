package compile_test

import (
	"strings"
	"testing"
)

// A pattern at the end of the notes, where the scans came last, is for all of them; one
// that would give sheets of two days the same file is not.
func TestPatternAtTheEnd(t *testing.T) {
	days := "day: 2026-11-07\n1A: 1/30 f16\n\nday: 2026-11-08\n1A: 1/30 f16\n"
	for pattern, want := range map[string]string{
		"{day}-{label}.tif": "2026-11-07-1A.tif 2026-11-08-1A.tif",
		"{label}.tif":       " 1A.tif",
	} {
		season, _ := compileText(days + "scan: " + pattern + "\n")
		var got []string
		for _, sh := range season.Sheets {
			name := ""
			for _, s := range sh.Scans {
				name += s.Path
			}
			got = append(got, name)
		}
		if all := strings.Join(got, " "); all != want {
			t.Errorf("%s: %q, want %q", pattern, all, want)
		}
	}
}
