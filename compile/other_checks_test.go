package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

const checksKit = `camera field: 4x5, bellows 80-400 mm
lens 210: 210 mm, f5.6-f64, shutter 1s 1/2 1/4 1/8 1/15 1/30 1/60 1/125, circle 250 mm
film slate: ISO 125, EI 80, pan, reciprocity none to 1 s
film ortho: ISO 80, EI 80, ortho
filter R25: x8
meter spot: EV at EI
lens: 210
camera: field
`

// What is checked besides the arithmetic: each a notebook's lines behind one
// kit, and the rule that must speak. All are common practice, no source. (That a
// scan is claimed twice or has changed is the audit's: see the command scans.)
func TestOtherChecks(t *testing.T) {
	for _, c := range []struct{ what, lines, code string }{
		{"shutter lacks the speed", "1A: slate, metered 1/60 f16, 1/500 f5.6", "speed-lacking"},
		{"aperture outside the lens's range", "1A: slate, metered 1/60 f16, 1s f128", "aperture-out-of-range"},
		{"movement outside the image circle", "1A: slate, rise 90 mm, metered 1/60 f16, 1/60 f16", "beyond-image-circle"},
		{"extension beyond the camera", "1A: slate, ext 450 mm, metered 1/60 f16, 1/15 f16", "extension-out-of-range"},
		{"filter unknown", "1A: slate, filter Z99, metered 1/60 f16, 1/15 f16", "not-declared"},
		{"colour against number", "1A: slate, green 25, metered 1/60 f16, 1/8 f16", "colour-against-number"},
		{"film in the holder against film logged", "load 1A: ortho\n1A: slate, metered 1/60 f16, 1/60 f16", "film-in-holder"},
		{"sheet exposed twice", "1A: slate, metered 1/60 f16, 1/60 f16\n1A: slate, metered 1/60 f16, 1/60 f16", "exposed-twice"},
		{"holder never loaded", "load 2A: slate\n1A: slate, metered 1/60 f16, 1/60 f16", "never-loaded"},
		{"reading far from the light stated", "light: open sun\n1A: slate, metered EV 9, 1/2 f16", "light-implausible"},
		{"settings equal though the filter changed", "meter: 1/60 f16\n1A: slate, 1/60 f16\n1B: same, R25, 1/60 f16", "settings-unchanged exposure-off"},
		{"dates out of order", "day: 2026-11-07\n1A: slate, metered 1/60 f16, 1/60 f16\n\nday: 2026-11-06\n2A: slate, metered 1/60 f16, 1/60 f16", "dates-out-of-order"},
		{"reading missing", "1A: slate, 1/60 f16", "unchecked"},
		{"scan missing", "1A: slate, metered 1/60 f16, 1/60 f16\nscan 1A: lost.tif", "scan-missing"},
		{"developed otherwise than asked", "1A: slate, N-1, metered 1/60 f16, 1/60 f16\ndevelop 1A: N+1", "developed-otherwise"},
		{"N asked but no time known", "film slow: ISO 50, dev broth 1+9 N 8 min at 20C\n1A: slow, N-1, metered 1/60 f16, 1/60 f16", "no-time-for"},
	} {
		_, list := compileText(checksKit + c.lines + "\n")
		found := codes(list)
		spoke := false
		for _, code := range strings.Fields(c.code) {
			_, one := found[code]
			spoke = spoke || one
		}
		if !spoke {
			t.Errorf("%s: nobody says %s; said: %v", c.what, c.code, list)
		}
	}
}

// A filter that is only said to be red lets through what orthochromatic film does not see,
// whatever it costs on other film; a value that is declared for such film is believed.
func TestRedByItsColourBeforeOrthoFilm(t *testing.T) {
	stand(t, "meter box: EV at EI\nload 1A: ort\nday: 7 Oct 1991\nfilm ort: ISO 25, ", map[string]record.State{
		"ortho\nfilter RX: red, x8\n1A: EV 12, RX, 1/2 f16":           record.Unchecked,
		"ortho\nfilter R8: red, x8\n1A: EV 12, R8, 1/2 f16":           record.Unchecked,
		"ortho\nfilter RX: red, x2, ortho x8\n1A: EV 12, RX, 1/2 f16": record.Right,
		"ortho\nfilter RX: orange, x8\n1A: EV 12, RX, 1/2 f16":        record.Right,
		"pan\nfilter RX: red, x8\n1A: EV 12, RX, 1/2 f16":             record.Right,
	})
}

// stand compiles the lines of each behind the same head: the first sheet stands as is said.
func stand(t *testing.T, head string, want map[string]record.State) {
	t.Helper()
	for lines, state := range want {
		season, list := compileText(head + lines + "\n")
		if sh := season.Sheets[0]; sh.State != state {
			t.Errorf("%s: %s %v, want %s", lines, sh.State, list, state)
		}
	}
}

// A number of three figures and more that is typed on two days is one negative's: the later
// sheet is not silently without it. A holder's label of each day is no number.
func TestANumberTypedOnTwoDays(t *testing.T) {
	for label, want := range map[string]bool{"83-118": true, "12-1": false} {
		_, list := compileText("day: 7 Oct 1991\n" + label + ": EV 12, 1/8 f22\nday: 9 May 1992\n" + label + ": EV 12, 1/8 f22\n")
		if _, said := codes(list)["number-reused"]; said != want {
			t.Errorf("%s: %t, want %t: %v", label, said, want, list)
		}
	}
}

// A heading ends the reading above it, and a sheet below it is told so.
func TestTheHeadingThatEndedTheReading(t *testing.T) {
	season, _ := compileText("film P: ISO 100\nload 1A-2B: P\nday: 2026-01-01\n\n## Mill\nmeter: EV 12\n\n### without glass\n1A: 1/8 f22\nscene: weir\n1B: 1/8 f22\n")
	for i, want := range []string{"the reading: that above ended with the heading on line 8", "the reading"} {
		if sh := season.Sheets[i]; len(sh.Needs) != 1 || sh.Needs[0] != want {
			t.Errorf("%s: %q, want %q", sh.Label, sh.Needs, want)
		}
	}
}

// Stops that are said beside the terms are what the sheet was reckoned with, or are asked
// about. Zone VI is a stop above the meter's (Adams, The Negative); R25 costs three.
func TestStopsThatAreSaidBesideTheTerms(t *testing.T) {
	stand(t, "film ash: ISO 100, EI 100, pan\nfilter R25: x8\nmeter spot: EV at EI\nload 1A: ash\nday: 7 Oct 1991\n", map[string]record.State{
		"1A: R25 so three stops, EV 12, 1/2 f16":             record.Right,
		"1A: three stops for the R25, EV 12, 1/2 f16":        record.Right,
		"1A: R25 so two stops, EV 12, 1/2 f16":               record.Unchecked,
		"1A: EV 12, 1/8 f16, +1":                             record.Unchecked,
		"1A: R25 so three stops, EV 12, 1/4 f16":             record.Off,
		"meter: EV 13 on VI so one stop more\n1A: 1/16 f16":  record.Right,
		"meter: EV 13 on VI so two stops more\n1A: 1/16 f16": record.Unchecked,
	})
}
