package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// A zone away from its reading places the sheet's only one; filters side by side
// are both on (common practice, no source).
func TestWordsApartBelongTogether(t *testing.T) {
	for line, want := range map[string]record.State{
		"metered 1/60 f16, placed shadow on III, 1/250 f16":       record.Right,
		"metered 1/60 f16, placed shadow on III, 1/60 f16":        record.Off,
		"EV 9 rock, EV 13 foam, shadow on III, 1/250 f16":         record.Unchecked,
		"metered 1/60 f16, Y8 x2, pol x4, 1/8 f16":                record.Right,
		"metered 1/60 f16, Y8 x2 pol x4, 1/15 f16":                record.Off,
		"metered 1/60 f16, Y8 x2, gust, pol x4 instead, 1/15 f16": record.Right,
		"1/60 f16, no meter":                                      record.Unchecked,
		"metered 1/60 f16, 1/60 f16, not metered again":           record.Right,
		"1/60 f16, no metered 1/60 f16, 1/60 f16":                 record.Right,
		"metered 1/60 f16, ~~Y8 x2~~ pol x4, 1/15 f16":            record.Right,
		"metered 1/60 f16, Y8 x2 no wait pol x4, 1/15 f16":        record.Right,
	} {
		if sh := sheetOf(t, checksKit, "1A: slate, "+line); sh.State != want {
			t.Errorf("%s: %v (%v), want %v", line, sh.State, sh.Needs, want)
		}
	}
}

// A zone on a sheet's line places what was metered for the scene anew, and so does an
// amendment (Zone System: one zone is one stop; EV 9 on III asks for EV 11, on IV for EV
// 10, on II for EV 12). What was not metered is not placed.
func TestPlacedAnew(t *testing.T) {
	for notes, want := range map[string]record.State{
		"1B: f22 1/4":                                      record.Right,
		"1B: f22 1/4, shadow on II":                        record.Off,
		"1B: f22 1/8, shadow on II":                        record.Right,
		"1B: shadow on IV, f22 1/2":                        record.Right,
		"1B: on IV, f22 1/2":                               record.Right,
		"1B: f22 1/2\namend 1B: on IV not III":             record.Right,
		"1B: f22 1/4\namend 1B: shadow on IV":              record.Off,
		"1B: f22 1/4, cloud on VII":                        record.Right,
		"1B: f22 1/4, hedge on VII":                        record.Unchecked,
		"1B: f22 1/4, shadow on III\n2A: same, on IV, 1/2": record.Right,
	} {
		season, _ := compileText("film fell: EI 100\nmeter spot: EV at 100\n\nday: 2026-11-07\nfilm: fell\nmeter: shadow EV 9 on III, cloud EV 13\n" + notes + "\n")
		for _, sh := range season.Sheets {
			if sh.State != want {
				t.Errorf("%s: %s is %s, want %s", notes, sh.Label, sh.State, want)
			}
		}
	}
}

// Of two zones for one reading on a line neither is taken, unless the words say that the
// second takes the place of the first.
func TestPlacedTwice(t *testing.T) {
	for line, want := range map[string]record.State{
		"shadow EV 9 on III, f22 1/4":                    record.Right,
		"shadow EV 9 on III, on III, f22 1/4":            record.Right,
		"shadow EV 9 on V, zone III, f22 1/4":            record.Unchecked,
		"shadow EV 9 on V, on III, f22 1/2":              record.Unchecked,
		"shadow EV 9 on V, now on III, f22 1/4":          record.Right,
		"shadow EV 9 on III, wall EV 13 on VII, f22 1/4": record.Right,
	} {
		sh := sheetOf(t, "film fell: EI 100\nmeter spot: EV at 100\n", "1A: fell, "+line)
		if sh.State != want || want == record.Unchecked && sh.Needs[0] != "which zone counts, V or III" {
			t.Errorf("%s: %s, needs %q, want %s", line, sh.State, sh.Needs, want)
		}
	}
}

// A zone told in words may say where the one reading was placed, if it is not of the light on all that is seen (Adams,
// The Negative): with settings that place it there the sheet is right, with others neither right nor wrong. EV 12 is 1/15 s at
// f/16 (16² · 15 ≈ 2¹²), and on VI asks for 1/8 s.
func TestZonesToldInWords(t *testing.T) {
	for want, all := range map[record.State]string{
		record.Right: "EV 12; 1/8 f16, face on zone 6|EV 12; 1/60 f16, shadows on III|EV 12; 1/15 f16, face on V|shadow EV 12; 1/60 f16, shadows on III|wall EV 12; 1/8 f16, face on VI|EV 12; 1/15 f16, highlights fall on VII|" +
			"incident EV 12; 1/15 f16, face on zone 6|incident EV 12, shadows on III; 1/15 f16|grey card EV 12; 1/15 f16 (shadows on III)|shadow EV 10 on III; 1/15 f16 (sky on VIII)|shadow EV 10 on III; 1/8 f16, bracket +1 (shadow then on IV)|" +
			"EV 12; 1/15 f16, gate III in the wall|EV 12; 1/15 f16 -- Henry VIII|shadow EV 12; 1/15 f16 (in zone of the shadows)",
		record.Unchecked: "EV 12; 1/15 f16, face on zone 6|EV 12; 1/15 f16, shadows on III|EV 12; 1/30 f16, face on VI|EV 12; 1/15 f16, sky on VIII|EV 12; 1/15 f16, zone VI for the face|EV 12; 1/15 f16, face VI|EV 12; 1/15 f16, placing the face on six|" +
			"wall EV 12; 1/15 f16, face on VI|wall EV 12, face on VI; 1/15 f16|EV 12; 1/15 f16 (face on VI)|EV 12; 1/15 f16 -- face on VI|EV 12; 1/8 f16 -- face on VI|face EV 12; 1/15 f16 (face on VI)|shadow EV 10 on III; 1/15 f16 -- shadow on IV|" +
			"EV 13; EV 12, 1/15 f16, face on VI|EV 13; EV 12, face on VI, 1/15 f16|EV 12\nface on zone 6; 1/15 f16|face EV 12\nshadows on III, face on VI; 1/15 f16",
		record.Off: "face EV 12; 1/15 f16, face on VI|EV 12; 1/15 f16, on VI|EV 12, face on VI; 1/15 f16|shadow EV 12; 1/15 f16, shadows on III",
	} {
		for notes := range strings.SplitSeq(all, "|") {
			season, list := compileText("film fell: EI 100\nmeter spot: EV at 100\n\nday: 2026-11-07\nfilm: fell\nmeter: " + strings.Replace(notes, "; ", "\n1A: ", 1) + "\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("%s: %s %v, want %s; %v", notes, sh.State, sh.Needs, want, list)
			}
		}
	}
}

// What a sheet's own line places in the highlights, beside a shadow that was placed for the scene, may re-place the
// sheet, or ask for a development. EV 10 is 1/4 s at f/16; EV 14 on VIII is EV 11.
func TestAHighPlacementOnTheSheetsLine(t *testing.T) {
	for line, want := range map[string]record.State{
		"1/4 f16":                       record.Right,
		"snow on VIII, 1/8 f16":         record.Unchecked,
		"snow on VIII, 1/4 f16":         record.Unchecked,
		"snow on VIII, 1/4 f16, N-1":    record.Right,
		"by the snow, on VIII, 1/8 f16": record.Unchecked,
		"shadow on II, 1/8 f16":         record.Right,
		"snow on VIII, 1/60 f16":        record.Off,
	} {
		season, _ := compileText("film slate: ISO 100\nmeter spot: EV at EI\nfilm: slate\nmeter: shadow EV 8 on III, snow EV 14\n1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s", line, sh.State, sh.Needs, want)
		}
	}
}
