package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// What was written and cannot be read is not carried from the sheet before, and blames
// and acquits nobody.
func TestIllegibleValues(t *testing.T) {
	for line, want := range map[string]record.State{
		"f[illegible], 1/30": record.Unchecked, "f16, 1/[illegible]": record.Unchecked, "f16, 1/?": record.Unchecked, "f?, 1/60": record.Unchecked,
		"[?], 1/60": record.Unchecked, "f__, 1/60": record.Unchecked, "f16, ?": record.Unchecked, "f16, ...": record.Unchecked, "f1[?], 1/30": record.Unchecked,
		"f16 1/8 (?)": record.Unchecked, "f16 1/8 [?]": record.Unchecked, "f16 1/15 [in another hand: 1/30]": record.Unchecked,
		"f16 [windy]": record.Right, "[north wall] f16 1/30": record.Right, "f16 1/30 (?)": record.Right, "f16 -- is that a hare?": record.Right,
		"f16 (was it windy?)": record.Right, "f16": record.Right, "f16 1/8 [windy]": record.Off,
		"1/8 f16 O[21]": record.Unchecked, "O[21], 1/30 f16": record.Unchecked, "[O21], 1/8 f16": record.Unchecked, "[O21], 1/30 f16": record.Unchecked, "1/8 f16 [orange]": record.Unchecked,
		"1/8 f16 (orange)": record.Unchecked, "1/8 f16 [illegible]": record.Unchecked, "1/8 f16 (illegible)": record.Unchecked, "[filter illegible] 1/30 f16": record.Unchecked,
		"[2 words lost], 1/8 f16": record.Unchecked, "1/8 f16 …": record.Unchecked, "1/30 f16 [illegible]": record.Right, "1/30 f16 …": record.Right, "1/8 f16 … fingers frozen": record.Off, "1/8 f16 ... fingers frozen": record.Off, "… 1/8 f16": record.Unchecked, "1/30 f16 (orange)": record.Unchecked,
		"O21 1/30 f16 [O21]": record.Off, "1/30 f16, lych[gate]": record.Right, "1/8 f16 (orange lichen)": record.Off, "1/8 f16, R25 [x4]": record.Right, "[1/30] f16 1/30 [sic]": record.Right,
	} {
		season, list := compileText("day: 2026-11-07\nmeter: 1/30 f16\n1A: 1/30 f16\n1B: " + line + "\n")
		if sh := season.Sheets[1]; sh.State != want {
			t.Errorf("%s: %s (%v), want %s", line, sh.State, sh.Needs, want)
		}
		if _, told := codes(list)["unchecked"]; told != (want == record.Unchecked) {
			t.Errorf("%s: told that it is unchecked: %v", line, told)
		}
	}
}

// The development that an editor has filled in is not the one that stands before the bracket.
func TestSuppliedDevelopment(t *testing.T) {
	season, _ := compileText("day: 2026-11-07\nmeter: 1/30 f16\n1A: 1/30 f16 N[-1]\n1B: 1/30 f16 N-1\n")
	if a, b := season.Sheets[0], season.Sheets[1]; a.Development != "" || a.State != record.Unchecked || b.Development == "" {
		t.Errorf("%s %q, %q", a.State, a.Development, b.Development)
	}
}

// What an editor has completed within a value is no value, nor is the stump before the bracket.
func TestCompletedValues(t *testing.T) {
	for line, given := range map[string]string{
		"1/2[5] f16": "f/16", "1/2[5?] f16": "f/16", "[1/]25 f16": "f/16", "1[/]25 f16": "f/16", "1/30 f1[6]": "1/30", "1/30 f1[...]": "1/30",
		"1/30 f12[.5]": "1/30", "1/2[5] f1[2.5]": "",
	} {
		season, list := compileText("day: 2026-11-07\nlens: 180 mm, f6.3-f36\nmeter: 1/30 f16\n1A: 1/30 f16\n1B: " + line + "\n")
		sh, found := season.Sheets[1], codes(list)
		if sh.State != record.Unchecked || sh.Given.Aperture+sh.Given.Time != given {
			t.Errorf("%s: %s, %q %q", line, sh.State, sh.Given.Aperture, sh.Given.Time)
		}
		if _, told := found["unchecked"]; !told || len(found) != 1 {
			t.Errorf("%s: %v", line, found)
		}
	}
}
