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
