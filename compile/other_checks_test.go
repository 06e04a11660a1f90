package compile_test

import (
	"math"
	"strconv"
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

// A 4x5 holder leaves 94.5 x 120 mm free (measured on one holder: visns, "Half
// framing"), so that 20 mm of rise on an upright frame takes hypot(94.5, 160) mm,
// and 20 mm on one across takes hypot(120, 134.5): the smaller counts.
func TestImageCircleIsOfTheFreeFrame(t *testing.T) {
	need := min(math.Hypot(94.5, 160), math.Hypot(120, 134.5))
	for _, c := range []struct {
		circle float64
		fits   bool
	}{{need + 0.5, true}, {need - 2, false}} {
		kit := strings.Replace(checksKit, "circle 250 mm", "circle "+strconv.FormatFloat(c.circle, 'f', 1, 64)+" mm", 1)
		_, list := compileText(kit + "1A: slate, rise 20 mm, metered 1/60 f16, 1/60 f16\n")
		if _, beyond := codes(list)["beyond-image-circle"]; beyond == c.fits {
			t.Errorf("a circle of %g mm: %v", c.circle, list)
		}
	}
}

// A filter that nobody knows may be all that a sheet's difference is: such a
// sheet is asked about, not blamed. Words about filters that name none change
// nothing (common practice, no source).
func TestUnknownFilterIsAskedAbout(t *testing.T) {
	for words, want := range map[string]record.State{
		"filter mauve": record.Unchecked, "with the mauve filter": record.Unchecked, "filter Z99": record.Unchecked,
		"Z99 filter": record.Unchecked, "+ Z99": record.Unchecked, "Z99": record.Unchecked,
		"double extension": record.Unchecked, "bellows out a hand": record.Unchecked, "forgot the bellows": record.Off, "bellows sagged": record.Off,
		"bellows out a hand, ext 210mm": record.Off,
		"forgot the filter":             record.Off, "no filter": record.Off, "filter off": record.Off, "dirty filter": record.Off, "left the filter in the bag": record.Off,
	} {
		if sh := sheetOf(t, checksKit, "1A: slate, "+words+", metered 1/60 f16, 1/15 f16"); sh.State != want {
			t.Errorf("%q, two stops over: %v, want %v", words, sh.State, want)
		}
		if sh := sheetOf(t, checksKit, "1A: slate, "+words+", metered 1/60 f16, 1/60 f16"); sh.State == record.Off {
			t.Errorf("%q: a right sheet is blamed", words)
		}
	}
	// What was copied from a sheet is copied with its doubt, and taken off with it.
	_, list := compileText(checksKit + "1A: slate, filter mauve, metered 1/60 f16, 1/15 f16\n1B: same\n1C: same, no filter\n")
	for _, d := range list {
		if d.Code == "exposure-off" && !strings.HasPrefix(d.Message, "1C got") {
			t.Errorf("blamed: %s", d.Message)
		}
	}
	if _, off := codes(list)["exposure-off"]; !off {
		t.Error("without the filter, 1C is two stops over")
	}
}

// A line that was not read leaves open what it would have said: the sheets that
// rest on it are neither blamed nor called right by what held before it, and only
// the line itself is reported.
func TestUnreadLinesLeaveTheirSheetsOpen(t *testing.T) {
	for _, c := range []struct{ lines, sheets string }{
		{"meter 1/8 f16\n1A: slate, 1/8 f16\n1B: same\n2A: slate, 1/60 f16", "1A 1B 2A"},
		{"metered 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"mter: 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"filter R25\n1A: slate, 1/8 f16", "1A"},
		{"film ortho\n1A: 1/60 f16", "1A"},
		{"1A: slate, 1/8 f16,\nR25", "1A"},
		{"1A: slate, 1/60 f16\nmeter 1/8 f16\n1B: slate, 1/8 f16\nmeter: 1/60 f16\n2A: slate, 1/60 f16", "1B"},
		{"meter 1/8 f16\n1A: slate, metered 1/60 f16, 1/60 f16", ""},
		{"300mm: bellows at 320. fern ev 9 on zone V\n1A: slate, 1/8 f16", "1A"},
	} {
		season, list := compileText(checksKit + "meter: 1/60 f16\n" + c.lines + "\n")
		open := []string{}
		for _, sh := range season.Sheets {
			if sh.State == record.Unchecked {
				open = append(open, sh.Label)
			} else if sh.State == record.Off {
				t.Errorf("%q: %s is blamed", c.lines, sh.Label)
			}
		}
		if got := strings.Join(open, " "); got != c.sheets {
			t.Errorf("%q: unchecked are %s, want %s", c.lines, got, c.sheets)
		}
		for _, d := range list {
			if d.Code == "unchecked" {
				t.Errorf("%q: said a second time: %s", c.lines, d.Message)
			}
		}
	}
}

// A shutter that was held open has a time of its own: none is carried to it.
func TestNoTimeIsCarriedToAShutterHeldOpen(t *testing.T) {
	for _, given := range []string{"f16 B", "f16, T, four minutes", "f16 B4m", "f16 T(4 min)"} {
		season, _ := compileText(checksKit + "meter: 1/60 f16\n1A: slate, 1/60 f16\n1B: slate, " + given + "\n2A: slate, metered 1/8 f16, " + given + "\n")
		for _, sh := range season.Sheets[1:] {
			if sh.State != record.Unchecked {
				t.Errorf("%s: %s is %s", given, sh.Label, sh.State)
			}
		}
	}
}

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

// A film named with its index is exposed at it, in whatever line it is named; a meter at
// EI 100 then reads one stop short for film at EI 50 (ISO 5800: half the speed is twice the
// exposure).
func TestFilmSaidWithItsIndex(t *testing.T) {
	for _, film := range []string{
		"film: curlew, ISO 100, EI 50", "film: curlew EI 50", "film: curlew at EI 50", "film: curlew, ISO 50",
		"load 1: curlew, EI 50", "load 1A-2B: curlew, ISO 100, EI 50 -- the last box",
		"film curlew: ISO 100, EI 100\nload 1-3: curlew, EI 50",
	} {
		season, list := compileText("day: 2026-11-07\n" + film + "\nmeter: 1/15 f16 at EI 100\n1A: 1/8 f16\n1B: 1/30 f16\n")
		if got := season.Sheets[0]; got.State != record.Right || got.Film != "curlew" {
			t.Errorf("%s: %s is %s, on %q", film, got.Label, got.State, got.Film)
		}
		if got := season.Sheets[1]; got.State != record.Off || got.Difference.Value != -2 {
			t.Errorf("%s: %s is %s, by %v", film, got.Label, got.State, got.Difference)
		}
		if d, found := codes(list)["never-loaded"]; found {
			t.Errorf("%s: %s", film, d.Message)
		}
	}
	// What follows the comma is no fact of the film: all of it is its name, and
	// nothing is known of it.
	season, _ := compileText("day: 2026-11-07\nfilm: curlew, EI 50 or so\nmeter: 1/15 f16 at EI 100\n1A: 1/8 f16\n")
	if got := season.Sheets[0]; got.State != record.Unchecked {
		t.Errorf("%s, with an index that is not one", got.State)
	}
}

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

// Light that changed after it was metered makes the reading hold no longer: a sheet is not
// blamed for having followed it, and is for having gone against it. With an amount it is
// reckoned with (one stop less light is twice the exposure: ISO 2720).
func TestLightThatChanged(t *testing.T) {
	for notes, want := range map[string]record.State{
		"1A: 1/8 f16":                                      record.Off,
		"1A: 1/8 f16, light dropped a stop":                record.Right,
		"1A: 1/8 f16, light -1":                            record.Right,
		"1A: 1/8 f16, 1 stop less light":                   record.Right,
		"1A: 1/15 f16, light fell 1 stop":                  record.Off,
		"1A: 1/8 f16, light fading fast":                   record.Unchecked,
		"1A: 1/8 f16 (lost a stop of light)":               record.Unchecked,
		"1A: 1/8 f16 -- sun went in":                       record.Unchecked,
		"1A: 1/30 f16 -- sun went in":                      record.Off,
		"1A: 1/30 f16, sun came out":                       record.Unchecked,
		"1A: 1/8 f16, sun behind the barn":                 record.Off,
		"1A: metered 1/15 f16, 1/8 f16, light going":       record.Off,
		"The sun went in.\n\n1A: 1/8 f16":                  record.Unchecked,
		"The sun went in.\n\nmeter: 1/15 f16\n1A: 1/8 f16": record.Off,
		"The sun went in.\n\n1A: 1/15 f16":                 record.Right,
	} {
		season, _ := compileText("film curlew: EI 50\n\nday: 2026-11-07\nfilm: curlew\nmeter: 1/15 f16\n\n" + notes + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, want %s", notes, sh.State, want)
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

// Two exposures on one sheet of film are developed together, as one of their lines asks;
// two amounts on one line are a slip.
func TestOneDevelopmentForOneSheet(t *testing.T) {
	for notes, want := range map[string]string{
		"7A: N+1, 1/60 f16\n7A: again, 1/60 f16":      "N+1 N+1",
		"7A: 1/60 f16\n7A: again, 1/60 f16, N+1":      "N+1 N+1",
		"7A: N+1, 1/60 f16, again, 1/60 f16":          "N+1 N+1",
		"7A: N, 1/30 f16\namend 7A: dev N+1, was N":   "N+1",
		"7A: N, 1/30 f16\namend 7A: N+1 not N":        "N+1",
		"7A: N, N+1, 1/30 f16":                        "N",
		"7A: N, 1/30 f16\n7A: not again, 1/30 f16, N": "N N",
	} {
		season, list := compileText("film fell: EI 100\n\nday: 2026-11-07\nload 7A: fell\nmeter: 1/30 f16\n" + notes + "\n")
		var got []string
		for _, sh := range season.Sheets {
			got = append(got, sh.Development)
		}
		if all := strings.Join(got, " "); all != want {
			t.Errorf("%s: %q, want %q", notes, all, want)
		}
		if _, two := codes(list)["two-settings"]; two != strings.Contains(notes, "N, N+1") {
			t.Errorf("%s: two-settings %v", notes, two)
		}
	}
}

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

// Innocent words behind a right sheet blame nobody (invented remarks; the sheet is right
// without them).
func TestInnocentRemarks(t *testing.T) {
	for sheet, remarks := range map[string]string{
		"meter: 1/30 f16\n1A: f16 1/30": "the shadow 2 stops darker than the wall|brighter sky 2 stops over|light fell 1 stop after this|light up 2 miles off|light -2 C|" +
			"chapter 3/IV|bus 9/V|EV 13 to I think|changed holder|circular window|cap on afterwards|-- [f16 as before]|path goes off to the left|half an hour's walk|covered bridge",
		"filter: Y8\nmeter: 1/30 f16\n1A: f16 1/15": "took the filter off afterwards|filter off next time|took the filter cap off|dog ran off with the filter case|yellow off white wall|off yellow lichen|no yellow leaves left",
		"meter: 8m f16\n1A: f16 8m":                 "path covered 5m up|gate shut 5 min walk|pause 5 min between sheets|the covered wagon 3m left|closed road 2m wide|- 3m drop|hat on, gloves on",
	} {
		for remark := range strings.SplitSeq(remarks, "|") {
			season, _ := compileText("filter Y8: yellow, x2\nfilm slate: EI 400, reciprocity t^1.0 over 1s\n\nday: 2026-11-07\nfilm: slate\n" + sheet + ", " + remark + "\n")
			if sh := season.Sheets[0]; sh.State == record.Off {
				t.Errorf("%s, %s: %v", sheet, remark, sh.Difference)
			}
		}
	}
}
