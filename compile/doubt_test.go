package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// A doubted value never makes a sheet off, and keeps its mark where it fits.
func TestDoubtIsKept(t *testing.T) {
	season, _ := compileText("day: 2026-11-07\nmeter: 1/15 f16\n1A: 1/15 f16?\n1B: 1/60? f16\n2A: 1/15 f16\n")
	for i, want := range []struct {
		state    record.State
		aperture string
		time     string
		doubts   int
	}{{record.Right, "f/16?", "1/15?", 1}, {record.Unchecked, "f/16", "1/60?", 1}, {record.Right, "f/16", "1/15", 0}} {
		sh := season.Sheets[i]
		if sh.State != want.state || sh.Given.Aperture != want.aperture || sh.Given.Time != want.time || len(sh.Doubts) != want.doubts {
			t.Errorf("%s: %s, %s %s, doubts %q", sh.Label, sh.State, sh.Given.Aperture, sh.Given.Time, sh.Doubts)
		}
	}
}
