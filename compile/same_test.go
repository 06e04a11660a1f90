package compile_test

import (
	"strings"
	"testing"
)

// The kit gives the red filter 3 stops, under lamps 2⅓; the yellow one 1. The bellows cost 2 log₂ of the extension over
// the focal length: at 297 mm 2 stops behind 150 mm, 1 behind 210.
const copyingKit = "film moor: EI 250, pan\nfilm tarn: EI 50, pan\nfilter R25: x8, tungsten x5\nfilter Y8: x2\nlens 150: 150 mm\nlens 210: 210 mm\nday: 2026-10-10\nfilm: moor\n"

// becameOf compiles lines written one behind the other and gives what became of their sheets.
func becameOf(lines string) string {
	season, _ := compileText(copyingKit + strings.ReplaceAll(lines, " / ", "\n") + "\n")
	var all []string
	for _, sh := range season.Sheets {
		all = append(all, string(sh.State))
	}
	return strings.Join(all, " ")
}

// What a line chose since the sheet that is copied counts for the copy, but where the sheet is named; where the copy is
// right the other way it is asked about, and so are those that copy it.
func TestACopyWithWhatWasChosenSince(t *testing.T) {
	for lines, want := range map[string]string{
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: same, 1/8":                                  "right right",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: same / 2A: same":                            "right unchecked unchecked",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: same, 1/15":                                 "right off",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: same as 1A":                                 "right unchecked",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B 2A: same as 1A":                              "right unchecked unchecked",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: same as 1A, 1/8":                            "right unchecked",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / 1B: 1/8 f16 / 2A: same as 1A":                   "right right right",
		"filter: R25 / meter: 1/60 f16 / 1A: 1/8 f16 / filter: none / 1B: same, 1/60":                   "right right",
		"filter: R25 / meter: 1/60 f16 / 1A: no filter, 1/60 f16 / 1B: same":                            "right right",
		"meter: 1/60 f16 / 1A: R25, 1/8 f16 / filter: same / 1B: same":                                  "right right",
		"meter: 1/60 f16 / 1A: R25, 1/8 f16 / filter: + Y8 / 1B: same, 1/4":                             "right right",
		"meter: 1/60 f16 / 1A: R25, 1/8 f16 / filter: + Y8 / 1B: same, no Y8, 1/8":                      "right right",
		"meter: 1/60 f16 / 1A: R25 + Y8, 1/4 f16 / filter: Y8 off / 1B: same, 1/8":                      "right right",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: none / filter: Y8 / 1B: same, 1/30":                   "right right",
		"meter: 1/60 f16 / 1A: 1/60 f16 / filter: R25 / scene: B / meter: 1/60 f16 / 1B: same, 1/8":     "right right",
		"lens: 150 / meter: 1/60 f16 / 1A: ext 297mm, 1/15 f16 / lens: 210 / 1B: same, 1/30":            "right right",
		"lens: 150 / meter: 1/60 f16 / 1A: ext 297mm, 1/15 f16 / lens: 210 / 1B: same":                  "right unchecked",
		"lens: 150 / meter: 1/60 f16 / 1A: ext 297mm, 1/15 f16 / lens: 210 / 1B: same, 1/60":            "right off",
		"lens: 150 / meter: 1/60 f16 / 1A: lens 210, ext 297mm, 1/30 f16 / 1B: same":                    "right right",
		"light: tungsten / meter: 1/60 f16 / 1A: R25, 1/13 f16 / light: sun / 1B: same, 1/8":            "right right",
		"light: tungsten / meter: 1/60 f16 / 1A: R25, 1/13 f16 / light: sun / 1B: same":                 "right unchecked",
		"meter: EV 14 at 250 / 1A: 1/60 f16 / film: tarn / 1B: same, 1/12":                              "right right",
		"meter: EV 14 at 250 / 1A: 1/60 f16 / film: tarn / 1B: same":                                    "right unchecked",
		"meter: EV 14 at 250 / 1A: 1/60 f16 / film: moor, EI 125 / 1B: same, 1/30":                      "right right",
		"load 1A: moor / load 1B: tarn / meter: EV 14 at 250 / 1A: EI 125, 1/30 f16 / 1B: same, 1/12":   "right right",
		"load 1A: moor / load 1B: moor at EI 125 / meter: EV 14 at 250 / 1A: 1/60 f16 / 1B: same, 1/30": "right right",
		"load 1A: moor at EI 125 / load 1B: moor / meter: EV 14 at 250 / 1A: 1/30 f16 / 1B: same, 1/60": "right right",
		"load 1A 1B: moor / meter: EV 14 at 250 / 1A: EI 125, 1/30 f16 / 1B: same":                      "right right",
	} {
		if got := becameOf(lines); got != want {
			t.Errorf("%s: %s, want %s", lines, got, want)
		}
	}
}

// A copy may be bracketed as what it copies, or stand in the light to which that one's changed.
func TestACopyOfABracketedSheet(t *testing.T) {
	for lines, want := range map[string]string{
		"1A: bracket +1, 1/30 f16 / 1B: same / 2A: same":                              "right unchecked unchecked",
		"1A: bracket +1, 1/30 f16 / 1B: same, 1/60":                                   "right right",
		"1A: bracket +1, 1/30 f16 / 1B: same, 1/15":                                   "right off",
		"1A: bracket +1, 1/30 f16 / 1B: same, bracket 0, 1/30":                        "right off",
		"1A: bracket +1, 1/30 f16 / filter: Y8 / 1B: same, 1/15":                      "right unchecked",
		"1A: 1/30 f16, light fell 1 stop / 1B: same":                                  "right unchecked",
		"1A: 1/30 f16, light fell 1 stop / 1B: same, 1/60 / 2A: same as 1A, Y8, 1/15": "right right unchecked",
	} {
		if got := becameOf("meter: 1/60 f16 / " + lines); got != want {
			t.Errorf("%s: %s, want %s", lines, got, want)
		}
	}
}
