package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// A stop is twice the exposure, so that x2 asks for one stop (the yellow 8 by daylight:
// ×2, Wikipedia "Filter factor"); what people write of filters is common practice, no source.
const filterKit = `film ash: ISO 100, pan
filter Y8: yellow, x2
filter 80A: blue 80A, 2 stops
film: ash
scene: gate
meter: 1/4 f16
`

// stateOf is how the last sheet of some lines behind the filter kit stands.
func stateOf(t *testing.T, lines string) record.State {
	t.Helper()
	season, _ := compileText(filterKit + lines + "\n")
	return season.Sheets[len(season.Sheets)-1].State
}

// However it is said that the filter is off, the sheet owes nothing for it.
func TestFilterComesOff(t *testing.T) {
	for _, words := range []string{
		"the same but without the filter,", "same, filter off,", "same minus the yellow,", "same but took the filter off,", "yellow off again",
		"same but no yellow", "same without yellow", "same, no filter,", "same but the filter stayed off,", "same, took off the yellow,",
		"same, filter removed,", "same, took yellow off,", "same, w/o the filter,", "same, less the Y8,", "yellow filter came off,",
		"same, no filer,", "same, no fliter,", "same, no filt,", "same, no filt.,", "same, without filtr,",
	} {
		if got := stateOf(t, "3a: yellow, 1/2 f16\n3b: "+words+" 1/4 f16"); got != record.Right {
			t.Errorf("%q, as metered: %s", words, got)
		}
		if got := stateOf(t, "3a: yellow, 1/2 f16\n3b: "+words+" 1s f16"); got != record.Off {
			t.Errorf("%q, two stops over: %s", words, got)
		}
	}
}

// What leaves open which filter was on, or whether one was, is neither right nor off.
func TestFilterThatIsNotSureIsAskedAbout(t *testing.T) {
	for _, words := range []string{
		"yelow f16 1/2", "yellw filter f16 1/2", "🟡 1/2 f16", "🔴 1/15 f16", "pola 1/2 f16", "with the mauve thing filter 1/2 f16", "mauve filter, 1/4 f16", "same as 80A, 1s f16",
		"filter back on, 1/2 f16", "nf 1/4 f16", "n/f, 1/4 f16",
	} {
		if got := stateOf(t, "3a: "+words); got != record.Unchecked {
			t.Errorf("%q: %s", words, got)
		}
	}
	for _, words := range []string{"same, forgot the filter, 1/4 f16", "same, forgot to take the filter off, 1/4 f16"} {
		if got := stateOf(t, "3a: yellow, 1/2 f16\n3b: "+words); got != record.Unchecked {
			t.Errorf("%q: %s", words, got)
		}
	}
	for _, words := range []string{"Grange farm 1/4 f16", "no filler light 1/4 f16", "cleaned the filter, 1/4 f16", "filter is dusty 1/4 f16"} {
		if got := stateOf(t, "3a: "+words); got != record.Right {
			t.Errorf("%q: %s", words, got)
		}
	}
}

// A filter that the meter looked through owes nothing; where it is not said whether it
// did, nobody is blamed.
func TestMeteredThroughAFilter(t *testing.T) {
	for words, want := range map[string]record.State{
		"metered thru the yellow filter, 1/4 f16, gave 1/4 f16": record.Right, "metered with the yellow on 1/4 f16, gave 1/4 f16": record.Right,
		"metered through Y8 + 80A 1/4 f16, gave 1/4 f16": record.Right, "metered with the filter on, 1/4 f16, yellow, gave 1/4 f16": record.Right,
		"metered thru the yellow filter, 1/4 f16, gave 1/2 f16": record.Off, "metered with the yellow, 1/4 f16, gave 1/4 f16": record.Unchecked,
		"metered with the yellow, 1/4 f16, gave 1/2 f16": record.Right, "metered with the spot 1/4 f16, yellow, gave 1/4 f16": record.Off,
	} {
		if got := stateOf(t, "3a: "+words); got != want {
			t.Errorf("%q: %s, want %s", words, got, want)
		}
	}
}

// A declared filter that looks like a holder side is the filter behind the colon; two
// stops are four times the exposure.
func TestFilterCalledLikeAHolderSide(t *testing.T) {
	for _, words := range []string{"80A", "filter 80A", "+80A", "+ 80A", "with 80A", "with the 80A", "80A filter", "#80A", "80a"} {
		if got := stateOf(t, "42A: "+words+", 1s f16"); got != record.Right {
			t.Errorf("%q, four times the exposure: %s", words, got)
		}
		if got := stateOf(t, "42A: "+words+", 1/4 f16"); got != record.Off {
			t.Errorf("%q, nothing given for it: %s", words, got)
		}
	}
	if got := stateOf(t, "80A: no filter, 1/4 f16\n42A: same as 80A"); got != record.Right {
		t.Errorf("the sheet 80A, copied: %s", got)
	}
}

// A filter that nobody knows may be all that a sheet's difference is: such a
// sheet is asked about, not blamed. Words about filters that name none change
// nothing (common practice, no source).
func TestUnknownFilterIsAskedAbout(t *testing.T) {
	for words, want := range map[string]record.State{
		"filter mauve": record.Unchecked, "with the mauve filter": record.Unchecked, "filter Z99": record.Unchecked,
		"Z99 filter": record.Unchecked, "+ Z99": record.Unchecked, "Z99": record.Unchecked,
		"double extension": record.Unchecked, "dbl ext": record.Unchecked, "dbl. bellows": record.Unchecked, "bellows out a hand": record.Unchecked, "forgot the bellows": record.Off, "bellows sagged": record.Off,
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

// A colour is the one filter of the kit that has it, by its line or by its Wratten number; of two
// it is neither, and a shade may be that of another. Wratten 25 and 29 are red, 29 deep red (the
// handbook's table of filters).
func TestColourIsTheOnlyFilterThatHasIt(t *testing.T) {
	for _, c := range []struct {
		kit, words string
		want       record.State
	}{
		{"filter R25: x8", "red", record.Right},
		{"filter R: Wratten 25, X8", "red", record.Right},
		{"filter R25: x8", "with the red filter", record.Right},
		{"filter R25: x8\nfilter R29: x16", "red", record.Unchecked},
		{"filter R25: x8", "deep red", record.Unchecked},
		{"filter RX: red, x8\nfilter Y8: x2", "red", record.Right},
		{"filter Y8: x2", "red", record.Unchecked},
	} {
		kit := "film ash: ISO 100, EI 100, pan\nmeter spot: EV at EI\n" + c.kit + "\nload 1A: ash\nday: 7 Oct 1991\n"
		if sh := sheetOf(t, kit, "1A: "+c.words+", EV 12, 1/2 f16"); sh.State != c.want {
			t.Errorf("%q, %q: %s %v, want %s", c.kit, c.words, sh.State, sh.Needs, c.want)
		}
	}
}

// A neutral density comes off by its kind alone, whatever it is called, and each of several does.
func TestNeutralDensityComesOffByItsKind(t *testing.T) {
	for _, c := range []struct{ on, off string }{
		{"nd 3", "no nd"}, {"nd 3", "without the ND"}, {"ND0.9", "no nd"}, {"nd 3", "no nd 3"}, {"nd 3", "no filter"},
	} {
		kit := "film ash: ISO 100, EI 100, pan\nfilter nd 3: 3 stops\nday: 7 Oct 1991\nload 1A-1B: ash\nmeter: 1/30 f22\n1A: " + c.on + ", 1/4 f22\n"
		second := func(given string) *record.Sheet {
			world := compile.World{Read: func(string) ([]byte, error) { return []byte(kit + "1B: same, " + c.off + ", " + given + "\n"), nil }}
			season, _ := compile.Compile(world, "notes.md")
			return season.Sheets[1]
		}
		if sh := second("1/30 f22"); sh.State != record.Right {
			t.Errorf("%q after %q: %s %v, want right", c.off, c.on, sh.State, sh.Needs)
		}
		if sh := second("1/4 f22"); sh.State != record.Off {
			t.Errorf("%q after %q, 3 stops over: %s %v, want off", c.off, c.on, sh.State, sh.Needs)
		}
	}
}

// A filter's name in another language, under one that stayed on, is that one where it has its colour;
// else nobody knows what was on.
func TestAnotherTonguesFilterUnderOneThatStayed(t *testing.T) {
	kit := "film ash: ISO 100, EI 50, pan\nfilter Y8: yellow, x2\nfilter R25: red, x8\nday: 7 Oct 1991\nload 1A: ash\nmeter: 1/30 f16\nfilter: Y8\n"
	for line, want := range map[string]record.State{
		"Rotfilter, 1/4 f16": record.Unchecked, "Rotfilter, 1/15 f16": record.Unchecked, "filtre rouge, 1/15 f16": record.Unchecked,
		"Gelbfilter, 1/15 f16": record.Right, "Gelbfilter, 1/4 f16": record.Off, "Y8, Gelbfilter, 1/15 f16": record.Right,
	} {
		if sh := sheetOf(t, kit, "1A: "+line); sh.State != want {
			t.Errorf("%s: %s %v, want %s", line, sh.State, sh.Needs, want)
		}
	}
}

// A neutral-density filter of so many stops, on a sheet's line and on the filters' own.
func TestNeutralDensityInStops(t *testing.T) {
	for _, said := range []string{"nd 6 stops", "ND6 stops", "nd (6 stops)", "ND filter 6 stops", "neutral density 6 stops", "6 stop nd", "6-stop ND", "6 stops of ND", "6 stop nd filter", "ND 1.8", "Y8 + 5 stop nd"} {
		for _, lines := range []string{"3a: " + said + ", 1/2 f2.8", "3a: 1/2 f2.8, " + said, "3a: " + said + " 1/2 f2.8", "filter: " + said + "\n3a: 1/2 f2.8"} {
			if got := stateOf(t, lines); got != record.Right {
				t.Errorf("%s: %s", lines, got)
			}
		}
		if got := stateOf(t, "3a: "+said+", 1/8 f2.8"); got != record.Off {
			t.Errorf("%s, two stops under: %s", said, got)
		}
	}
	if got := stateOf(t, "filter grey: 6 stop nd\n3a: grey, 1/2 f2.8"); got != record.Right {
		t.Errorf("declared: %s", got)
	}
}

// What is told of filters from one sheet to the next blames no right exposure, whichever comes first, the
// filter or what was done with it; and where something was not done it acquits none.
func TestFiltersComeAndGo(t *testing.T) {
	const kit = "film stone: ISO 100\nfilter R25: red, x8\nfilter O21: orange, x4\nfilter Y8: yellow, x2\nday: 2026-11-07\nfilm: stone\nmeter: EV 12\n"
	for state, lines := range map[record.State]string{
		record.Right: "the red came off and the orange went on: 1/2 s|the red came off and the orange (two stops) went on: 1/2 s|red came off then orange went on, 1/2 s|red off and then the orange screwed on 1/2 s|" +
			"took the red off and put the orange on, 1/2 s|off came the red, on went the orange, 1/2 s|the red off and the orange off, 1/8 s|the red came off, 1/8 s",
		record.Off:       "the red came off and the orange went on: 1 s|the red came off and the orange went on: 1/4 s",
		record.Unchecked: "forgot to take the red off and the orange on, 1/2 s|never took the red off but put the orange on, 1/2 s|the red did not come off and the orange went on 1/2 s",
	} {
		for said := range strings.SplitSeq(lines, "|") {
			season, list := compileText(kit + "1A: R25, 1 s f22\n1B: as 1A; " + said + "\n")
			if sh := season.Sheets[1]; sh.State != state {
				t.Errorf("%s: %s, %v, want %s\n%v", said, sh.State, sh.Difference, state, list)
			}
		}
	}
	for said := range strings.SplitSeq("The yellow filter stays on for the rest of the holder.|The yellow stays on.|Yellow filter left on.|The yellow filter went on for these two and for all the ones of the evening.|Put the yellow on.|The Y8 is on from here.", "|") {
		season, _ := compileText(kit + "1A: R25, 1 s f22\n" + said + "\n1B: 1/4 s f22\n1C: 2 s f22\n")
		if a, b := season.Sheets[1], season.Sheets[2]; a.State == record.Off || b.State == record.Right {
			t.Errorf("%s: %s, %v; four stops over is %s", said, a.State, a.Difference, b.State)
		}
	}
	for said := range strings.SplitSeq("the first one had the yellow on|ok so the first one had the yellow on|both had the yellow on|the last two were with the yellow|1A had the yellow on", "|") {
		season, _ := compileText(kit + "1A: 1/4 s f22\n1B: 1/8 s f22\n" + said + "\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("%s: %v", said, sh.Difference)
		}
	}
	for _, said := range []string{"The red bus went on to the village.", "the other one had the red on", "the first swallow of the year"} {
		season, _ := compileText(kit + "1A: 1/4 s f22\n1B: 1/8 s f22\n" + said + "\n")
		if sh := season.Sheets[0]; sh.State != record.Off {
			t.Errorf("%s: %s", said, sh.State)
		}
	}
}

// A filter by its colour in another language is the kit's of that colour where it has one; where it has two, the
// question names both.
func TestFiltersByColourElsewhere(t *testing.T) {
	check := func(filters, line string) *record.Sheet {
		season, _ := compileText("film stone: ISO 100\n" + filters + "day: 2026-11-07\nfilm: stone\nmeter: EV 12\n1A: " + line + "\n")
		return season.Sheets[0]
	}
	const one, two = "filter G8: yellow, x2\nfilter O: orange, x4\n", "filter G8: yellow, x2\nfilter G15: yellow, x3\n"
	for said := range strings.SplitSeq("Gelbfilter, 1/4 s f22|mit dem Gelbfilter, 1/4 s f22|Gelb-Filter 1/4 s f22|filtre jaune, 1/4 s f22|1/4 s f22, Gelbfilter|Orangefilter, 1/2 s f22|Gelbfilter ab, 1/8 s f22|ohne Gelbfilter, 1/8 s f22", "|") {
		if sh := check(one, said); sh.State != record.Right {
			t.Errorf("%s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for said := range strings.SplitSeq("Gelbfilter?, 1/8 s f22|Rotfilter, 1/8 s f22|Gelb, 1/4 s f22|1/4 s f22 -- Gelbfilter|1/4 s f22 (Gelbfilter)|Gelbfilter vergessen, 1/4 s f22", "|") {
		if sh := check(one, said); sh.State != record.Unchecked {
			t.Errorf("%s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for _, filters := range []string{two, "filter Gelb: x2\nfilter G15: yellow, x3\n", "filter K2: x2\nfilter G15: yellow, x3\n"} {
		for said := range strings.SplitSeq("Gelbfilter, 1/4 s f22|Gelbfilter, 1/8 s f22|filtre jaune, 1/4 s f22", "|") {
			sh := check(filters, said)
			if asks := strings.Join(sh.Needs, "; "); sh.State != record.Unchecked || !strings.Contains(asks, "G15") || !strings.Contains(asks, " or ") {
				t.Errorf("%s%s: %s, %s", filters, said, sh.State, asks)
			}
		}
	}
	if sh := check(two, "yellow, 1/4 s f22"); sh.State != record.Unchecked || !strings.Contains(strings.Join(sh.Needs, "; "), "G8 or G15") {
		t.Errorf("yellow of two: %s, %v", sh.State, sh.Needs)
	}
}

// What a filter costs belongs to it by whatever name it is called, its number too, and a number's sign takes
// nothing back: EV 9 at f/16 asks for 1/2 and what the filter costs.
func TestFiltersWithCostsAndNumbersElsewhere(t *testing.T) {
	const kit = "film tern: EI 80, pan, reciprocity none\nfilter Y8: yellow, x2\nfilter O22: orange, x4\nfilter R25: red, x8\nload 1A 1B: tern\nday: 2026-06-01\n"
	for said, times := range map[string][2]string{
		"Orangefilter x4|Orangefilter 4x|Orangefilter, x4|Orange-Filter (x4)|mit Orangefilter Faktor 4|filtre orange x4|filtre orange facteur 4|Gruenfilter x4|Gelbgrünfilter 4x|Polfilter x4|Graufilter (4x)": {"2s", "1/2"},
		"Rotfilter 8x|Dunkelrotfilter x8|filtre rouge 8x|Filter Nr. 25|no. 25 filter|Wratten No. 25|red no. 25|red filter no. 25 x8|filtre n° 25|Rotfilter Nr. 25":                                             {"4s", "1/2"},
	} {
		for said := range strings.SplitSeq(said, "|") {
			season, list := compileText(kit + "1A: EV 9, " + said + ", f16 " + times[0] + "\n1B: EV 9, " + said + ", f16 " + times[1] + "\n")
			if sheets := season.Sheets; sheets[0].State != record.Right || sheets[1].State != record.Off || len(list) != 1 {
				t.Errorf("%s: %s, %s, %v", said, sheets[0].State, sheets[1].State, list)
			}
		}
	}
	for said := range strings.SplitSeq("no 25 filter|Nr. 25|No. 25|Y8 no. 25|ohne Rotfilter 8x|Kaffeefilter x4|Gelbfilter, 2x 1/60", "|") {
		for _, time := range []string{"1/2", "1s", "4s"} {
			season, _ := compileText(kit + "1A: EV 9, " + said + ", f16 " + time + "\n")
			if sh := season.Sheets[0]; sh.State != record.Unchecked || !sh.Reading.EV.Known {
				t.Errorf("%s: %s, %v", said, sh.State, sh.Difference)
			}
		}
	}
	if season, _ := compileText(kit + "1A: EV 9, Rotfilter 8x vergessen, f16 1/2\n"); season.Sheets[0].State != record.Unchecked {
		t.Errorf("a filter that was forgotten: %s", season.Sheets[0].State)
	}
}

// The filter that was on is the one that took another's place, whatever the other would have cost.
func TestFilterInPlaceOfAnother(t *testing.T) {
	const kit = "film tern: EI 80, pan, reciprocity none\nlens 210: 210 mm\nfilter Y8: yellow, x2\nfilter R25: red, x8\nload 1A: tern\nday: 2026-06-01\nlens: 210\nmeter: EV 9\n"
	for said := range strings.SplitSeq("Y8 instead of R25|Y8 instead of the R25|Y8 rather than R25|Y8 in place of R25|Y8 where R25 had been|Y8 since R25 was too much|the Y8, as R25 is lost|as R25 is lost, Y8|"+
		"Y8 because the R25 was too strong|instead of R25 the Y8|Y8 replacing R25|Y8 and not the R25|Y8 statt R25", "|") {
		season, list := compileText(kit + "1A: " + said + ", f16 1s\n1B: " + said + ", f8 1s\n")
		if a, b := season.Sheets[0], season.Sheets[1]; a.State != record.Right || b.State == record.Right || len(a.Filters) != 1 || a.Filters[0] != "Y8" {
			t.Errorf("%s: %s by %v; with the settings for the other %s; %v", said, a.State, a.Filters, b.State, list)
		}
	}
	for said := range strings.SplitSeq("R25 instead|R25 and not Y8|R25|filter R25 for the sky", "|") {
		season, list := compileText(kit + "1A: " + said + ", f8 1s\n")
		if a := season.Sheets[0]; a.State != record.Right {
			t.Errorf("%s: %s; %v", said, a.State, list)
		}
	}
}

// Behind a reason either of two filters may be meant; the number of a place is no filter, and how far a film was pushed
// no exposure on purpose: what is asked names the thing that it may be.
func TestWhatIsAskedNamesTheThing(t *testing.T) {
	const kit = "film tern: EI 80, pan, reciprocity none\nlens 210: 210 mm\nlens 300: 300 mm\nfilter Y8: yellow, x2\nfilter R25: red, x8\nload 1A: tern\nday: 2026-06-01\nlens: 210\nmeter: EV 9\n"
	for line, asks := range map[string]string{
		"Y8 since R25 is better here, f16 1/2": "which filter", "Y8 since R25 is better here, f16 1s": "which filter", "Y8 because the R25 is better, f16 4s": "which filter",
		"f16 1/2, pushed one stop": "N+1", "f16 1/4, pulled 1 stop": "N+1", "f16 1/2, push +1": "N+1",
		"lens 210 at 300, f16 1/2": "210 or 300", "210, f16 1/2, 300": "210 or 300", "natural size, f16 1/2": "mag 1:1",
		"R25 x8 (forgotten), f16 1/2": "whether the filter was on", "R25 (vergessen), f16 1/2": "whether the filter was on", "post O7, f16 1s": "whether the filter was on",
		"post O7, f16 1/2": "", "bay B1, f16 1/2": "", "Bay B1   f16   1/2": "", "lens 210, the 210, f16 1/2": "",
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		sh := season.Sheets[0]
		said := strings.Join(sh.Needs, "; ")
		if (asks == "") != (sh.State == record.Right) || !strings.Contains(said, asks) || strings.Contains(said, "bracket") || strings.Contains(said, "doubtful") || len(sh.Filters) > 1 {
			t.Errorf("%s: %s, %s; %v", line, sh.State, said, list)
		}
	}
	for line, hint := range map[string]string{"f16 1/2, scale 300": "ext 300mm", "f16 1/2, e. 300": "ext 300mm", "f16 1/2, push 1": "N+1", "with 300 x, f16 1/2": "lens 300"} {
		_, list := compileText(kit + "1A: " + line + "\n")
		if len(list) == 0 || len(list[0].Notes) == 0 || !strings.Contains(list[0].Notes[0].Text, hint) {
			t.Errorf("%s: %v", line, list)
		}
	}
}

// A colour that names what was metered is no filter, and one that may be the subject's is asked about where
// the sheet is right without it. EV 9 at ISO 80 is 1/2 s at f/16 (2^9 = 16² / ½); a value on VII is two
// stops above it, one on III two below.
func TestColoursOfWhatWasMetered(t *testing.T) {
	const kit = "film tern: EI 80, pan\nfilter Y8: yellow, x2\nfilter R25: red, x8\nfilter O21: orange, x4\nfilter B47: blue, x8\nday: 2026-06-01\nfilm: tern\nmeter: EV 9\n"
	for line, want := range map[string]record.State{
		"yellow EV 11 on VII, f16 1/2": record.Right, "red EV 9 on V, f16 1/2": record.Right, "yellow petal EV 11 on VII, blue EV 7 on III, f16 1/2": record.Right,
		"yellow EV 11 on VII, f16 1s": record.Unchecked, "yellow EV 11 on VII, f16 1/8": record.Off,
		"red EV 9, f16 1/2": record.Unchecked, "red EV 9, f5.6 1/2": record.Right, "red EV 9, f16 1/30": record.Off,
		"orange, sliced, f16 1/2": record.Unchecked, "orange, sliced, f8 1/2": record.Right, "Rose, red. f16 1/2": record.Unchecked, "on yellow, f16 1/2": record.Unchecked,
		"yellow, f16 1/2": record.Off,
		// Words before it may own it, but where the notebook has filters in that place.
		"tulips, red, f16 1/2": record.Unchecked, "tulips, red, f5.6 1/2": record.Right, "tulips, red, f16 1/30": record.Off, "EV 9 red, f16 1/2": record.Unchecked, "EV 9 red, f5.6 1/2": record.Right,
		"boats, red and yellow, f16 1/2": record.Unchecked, "boats, red and yellow, f4 1/2": record.Right, "boats, red + yellow, f16 1/2": record.Off, "tulips, red x8, f16 1/2": record.Off,
		"tulips, red, f16 1/2\n1B: gate, no filter, f16 1/2": record.Off, "tulips, red, f16 1/2\n1B: gate, Y8, f16 1s": record.Off, "tulips, red, f16 1/2\n1B: tulips, yellow, f16 1s": record.Off,
		"tulips, red, f16 1/2\n1B: gate, yellow, f16 1s": record.Unchecked, "EV 9 red, f16 1/2\n1B: EV 9 Y8, f16 1s": record.Off, "f16 1/2, red": record.Off, "N, red, f16 1/2": record.Off,
		"with yellow, f16 1/2": record.Off, "yellow on, f16 1/2": record.Off, "yellow   EV 11 on VII   f16   1/2": record.Off,
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", line, sh.State, sh.Needs, want, list)
		}
	}
	// A copy is as open as the line that it copies, and the kit's own name is no colour of a subject.
	season, list := compileText(kit + "1A: tulips, red, f16 1/2\n1B: same\n")
	if got := season.Sheets[1]; got.State != record.Unchecked {
		t.Errorf("same as tulips, red: %s; %v", got.State, list)
	}
	for said, want := range map[string]diag.Severity{"tulips, magenta": diag.Note, "magenta": diag.Error} {
		_, list := compileText(kit + "1A: " + said + ", f16 1/2\n")
		if d := codes(list)["not-declared"]; d.Severity != want {
			t.Errorf("%s: %v, want %v; %v", said, d.Severity, want, list)
		}
	}
	season, list = compileText(kit + "filter red: x8\n1A: tulips, red, f16 1/2\n")
	if got := season.Sheets[0]; got.State != record.Off {
		t.Errorf("tulips, red, where a filter is called so: %s; %v", got.State, list)
	}
}

// A filter cut short, in another language, by its number alone or by no more than that it dims is asked about,
// whether the settings are those with it or without; words of subjects are not.
func TestFiltersCutShort(t *testing.T) {
	const kit = "film tern: EI 80, pan, reciprocity none\nlens 210: 210 mm\nfilter Y8: yellow, x2\nfilter R25: red, x8\nfilter ND3: nd 0.9\nfilter O22: orange, x4\nload 1A-2B: tern\nday: 2026-06-01\nlens: 210\n"
	for want, all := range map[record.State]string{
		record.Unchecked: "EV 9   Or.   |EV 9   Or   |EV 9   Org   |EV 9   Gr.   |EV 9   Rt   |EV 9   hellgelb   |EV 9   dunkelrot   |Gate   EV 9   Or.   |EV 9, No. 25, |EV 9, grey filter, |EV 9   or.   |EV 9, with the mauve filter, ",
		record.Right:     "Mill Rd, EV 9, |Study No. 25, EV 9, |No. 3, EV 9, |hellgelbes Haus, EV 9, |EV 9, filter holder loose, |gr. card, EV 9, ",
		record.Off:       "EV 9, red gelatine, ",
	} {
		for said := range strings.SplitSeq(all, "|") {
			season, list := compileText(kit + "1A: " + said + "f16 1/2\n1B: " + said + "f16 1s\n")
			if a, b := season.Sheets[0], season.Sheets[1]; a.State != want || want == record.Unchecked && b.State != want {
				t.Errorf("%s: %s, %s, want %s; %v", said, a.State, b.State, want, list)
			}
		}
	}
}

// What a meter line says of its index, of the bellows and of a filter in front of the meter is read or asked about.
func TestWhatAReadingWasTakenWith(t *testing.T) {
	const kit = "film tern: EI 80, pan, reciprocity none\nlens 210: 210 mm\nfilter Y8: yellow, x2\nload 1A-2B: tern\nday: 2026-06-01\nlens: 210\n"
	for lines, want := range map[string]record.State{
		"meter at 160: EV 9\n1A: f16 1s": record.Right, "meter at 160: EV 9\n1A: f16 1/2": record.Off, "meter at EI 160: EV 9\n1A: f16 1s": record.Right,
		"meter: EV 9, bellows included\n1A: f16 1/2, ext 297": record.Unchecked, "meter: EV 9, bellows included\n1A: f16 1s, ext 297": record.Unchecked, "meter: EV 9, bellows included\n1A: f16 1/2": record.Right,
		"meter: EV 9 at the ground glass\n1A: f16 1/2, ext 297": record.Unchecked, "meter: EV 9 through the lens\n1A: f16 1/2, ext 297": record.Unchecked, "meter: EV 9 TTL\n1A: f16 1/2, life size": record.Unchecked,
		"meter: EV 9 through the yellow\n1A: f16 1/2, Y8": record.Unchecked, "meter: EV 9 through the lens\n1A: f16 1/2": record.Right, "meter: EV 9 through the window\n1A: f16 1s, ext 297": record.Right,
	} {
		season, list := compileText(kit + lines + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", lines, sh.State, sh.Needs, want, list)
		}
	}
}

// Three filters and more, each with its cost, are a list of what they cost, however a grey one is named.
func TestAListOfFiltersPutsNoneOn(t *testing.T) {
	for line, want := range map[string]record.State{
		"filters: yellow 1 stop, red 3 stops, nd 6 stops": record.Unchecked, "filter: yellow x2, red x8, green x4": record.Unchecked, "filter: yellow x2": record.Off,
	} {
		season, list := compileText(line + "\nday: 2026-05-09\nmeter: 1/15 f16\n1a: 1/15 f16\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", line, sh.State, sh.Needs, want, list)
		}
	}
}

// A filter that is declared with its colour beside its code is found by the code, and one that is called like a factor takes
// nothing from the factors of others. EV 9 at ISO 100 is 1/2 s at f/16.
func TestFiltersByTheirCodes(t *testing.T) {
	for text, filters := range map[string]string{
		"filter X8 green: x2\n|X8, f16 1s": "X8 green", "filter green X8: x2\n|X8, f16 1s": "green X8", "filter X8 (green): x2\n|X8, f16 1s": "X8 (green)", "filter Y8 light yellow: x2\n|Y8, f16 1s": "Y8 light yellow",
		"filter X2: yellow-green, x5\nfilter Y8: x2\n|Y8, f16 1s": "Y8", "filter x2: yellow, x2\n|x2, f16 1s": "x2", "filter X2: yellow-green, x5\nfilter R25: red, x8\n|R25 x2, f16 1s": "R25", "filter X1: green, x2\n|X1, f16 1s": "X1",
	} {
		kit, line, _ := strings.Cut(text, "|")
		season, list := compileText("film tern: EI 100, pan, reciprocity none\n" + kit + "day: 2026-06-01\nfilm: tern\nmeter: EV 9\n1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != record.Right || strings.Join(sh.Filters, "+") != filters {
			t.Errorf("%q: %s, %v, %v", text, sh.State, sh.Filters, list)
		}
	}
}

// A filter that nobody knows is reported once where it is named, however many sheets copy it.
func TestAnUnknownFilterIsReportedOnce(t *testing.T) {
	_, list := compileText("film tern: EI 100, reciprocity none\nday: 2026-06-01\nfilm: tern\n1A: filter Z99, EV 9, f16 1/2\n1B: same\n2A: \"  \"  \"\n2B: filter Z99, EV 9, f16 1/2\n")
	n := 0
	for _, d := range list {
		if d.Code == "not-declared" {
			n++
		}
	}
	if n != 2 {
		t.Errorf("%d times: %v", n, list)
	}
}

// A filter was a glass, and is called so: with the one that is declared of its colour it is read, and else it is asked about.
func TestFiltersThatAreCalledGlasses(t *testing.T) {
	for want, all := range map[record.State]string{
		record.Right:     "Gelbscheibe, 1/2 f16|Gelbglas, 1/2 f16|Gelbfltr., 1/2 f16|1/2 f16, durch die Gelbscheibe|Fensterscheibe, 1/4 f16|Rotf. statt Gelbf., 2s f16|Gelbf. anstelle Rotf., 1/2 f16|Rotf. vierfach, 1s f16|Rotf. 4fach, 1s f16|1/4 f16, dreifach verglast",
		record.Off:       "Gelbscheibe, 1/4 f16|1/4 f16, durch das Gelbglas|Gelbf. anstelle Rotf., 2s f16",
		record.Unchecked: "Grünscheibe, 1/4 f16|Gelbf. oder Rotf., 1/2 f16|Gelbf. oder Rotf., 2s f16|Verlängerung 2fach, 1/2 f16|Rotf. mit Faktor vier, 1s f16|Rotf. - 4fach, 1s f16|EV 10, Gelbf. (included), 1/4 f16|EV 10, Gelbf. (eingerechnet), 1/4 f16|EV 10 after the filter, Gelbf., 1/4 f16|EV 10 (durch das Filter), Gelbf., 1/2 f16",
	} {
		for sheet := range strings.SplitSeq(all, "|") {
			season, list := compileText("film g: EI 100, reciprocity none to 99s\nday: 2026-06-01\nfilm: g\nfilter Gelbf.: yellow, x2\nfilter Rotf.: red, x8\nmeter: EV 10\n1A: " + sheet + "\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("%s: %s %v, want %s; %v", sheet, sh.State, sh.Needs, want, list)
			}
		}
	}
}

// What is off, out or gone and is no filter leaves nothing open of one.
func TestOtherThingsThatCameOut(t *testing.T) {
	for want, remarks := range map[string]string{
		"off":       "sun still out|owl came out|the sun was just out|a big hare ran off|the geese flew away",
		"unchecked": "R25 came off|filter came out|it came off|still out|yellow was off|the red one was off|all off|sun out, filter off",
	} {
		for remark := range strings.SplitSeq(remarks, "|") {
			if got := becameOf("meter: 1/60 f16 / 1A: R25, 1/60 f16 -- " + remark); got != want {
				t.Errorf("%s: %s, want %s", remark, got, want)
			}
		}
	}
}
