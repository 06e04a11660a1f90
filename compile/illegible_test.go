package compile_test

import (
	"strings"
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

// An editor's prose is none of the sheet's settings, whatever colour or year is in it; what he put into one
// is uncertain in every setting alike.
func TestEditorsNotes(t *testing.T) {
	const kit = "film stone: ISO 100\nfilter Y8: yellow, x2\nlens 210: 210 mm\nday: 2026-11-07\nfilm: stone\nlens: 210\nscene: wall\n"
	for prose := range strings.SplitSeq("in red ink, 1971|yellow tape|orange label on sleeve|note of 3 May|N pencilled over|same ink|fogged edge|2nd hand|neg. broken, 1982|blue pencil|12 lines struck|lens unknown", "|") {
		for _, line := range []string{"meter: EV 13 [" + prose + "]\n1A: 1/30 f16", "meter: EV 13\n1A: 1/30 f16 [" + prose + "]"} {
			season, list := compileText(kit + line + "\n")
			if sh := season.Sheets[0]; sh.State != record.Right {
				t.Errorf("%s: %s\n%v", line, sh.State, list)
			}
		}
	}
	for said := range strings.SplitSeq("EI 1[00], 1/30 f16|EI [100], 1/30 f16|EI 10[0?], 1/30 f16|1/30 f16 at EI 1[00]|1/30 f16 ext 2[10] mm|1/30 f16, ext [210] mm|Y8 x[2], 1/15 f16|Y8 1[½] stops, 1/15 f16|Y[8], 1/15 f16|"+
		"EV 1[3], 1/30 f16|EV [13], 1/30 f16|EV 11 on [III], 1/8 f16|EV 11 on II[I], 1/8 f16|EV 11 on zone [3], 1/8 f16|1/30 f16, N-[1]|1/30 f16, 1:[2]|1/30 f16, bracket +[1]|1/30 f16, lens 2[10]|1/[30?] f16|1/30 f/[16]|[later: Y8] 1/30 f16|1/30 f16 [film stone]|1/30 f16 [lens 300]|1/30 f16 [red filter]", "|") {
		season, _ := compileText(kit + "meter: EV 13\n1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked {
			t.Errorf("1A: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for said := range strings.SplitSeq("film stone: ISO 1[00]|film stone: ISO 100, EI 1[00]|film stone: [100] ASA|filter Y8: yellow, x[2]|filter Y8: x[2]|meter: EV 1[3]|meter: EV 13 at EI 1[00]|meter: EV 11 on [III]", "|") {
		notes := kit + "meter: EV 13 at EI 50\n"
		name, _, _ := strings.Cut(said, ":")
		if before, behind, cut := strings.Cut(notes, name+":"); cut {
			_, behind, _ = strings.Cut(behind, "\n")
			notes = before + said + "\n" + behind
		}
		season, _ := compileText(notes + "1A: Y8, 1/30 f16\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("%s: %s, %v", said, sh.State, sh.Difference)
		}
	}
}
