package compile_test

import (
	"fmt"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Zones in words that are no term, behind a reading of EV 10 on its meter's line, in prose below it, on the line of the scene's
// sheet and on that of a sheet's own reading. EV 10 is 1/4 s at f/16, and one zone is one stop (Adams, The Negative): the
// sheet that is right on the zone is never blamed, and the one that is right on V is asked about where something was placed.
func TestZonesAsTheyAreWritten(t *testing.T) {
	onZone := map[string]string{"0": "f90", "1": "f64", "2": "f45", "3": "f32", "3½": "f27", "6": "f11", "7": "f8", "8": "f5.6", "9": "f4", "10": "f2.8"}
	for _, said := range []struct {
		zone  string
		words string
		right bool
	}{
		// The word for a zone with its number, counted or in another tongue.
		{"3", "Zn III|Zone: III|zone three|Zone drei|zone trois|the 3rd zone|dritte Zone|in der dritten Zone|la troisième zone|3. Zone|Z.3|z-3|zona III|zone (III)|zone no. III|zone number 3|shadow III highlights VII|was V, now III|on the third zone", false},
		{"1", "zone one|first zone", false},
		{"7", "bark, zone seven for it", false},
		// A sign behind a word that leads to it, or behind what was placed.
		{"3", "sh. III|shadow [III]|III = shadow|III for the shadow|exposed for III|treated as III|placement: III|print value III|maybe III|ca. III|auf drei|placé en III|on the III|sur III|für III|as III|nach III|on lll|on Ill|ombre sur III|ombres en III|Schatten III|shadows to III|shadow = III|shadow: III|placed it on III, no wind|on III, not V", false},
		{"8", "neige sur VIII|Schnee VIII|highlights = VIII|VIII for the snow and VIII for the sky", false},
		{"6", "Haut VI|face wanted on VI|placed on VI, fell on VIII|placed VI fell VIII|let the skin fall on VI", false},
		{"7", "lifted to VII|raised to VII", false},
		{"3½", "shadow III½|shadow on III.5|shadow between III and IV|shadow III-IV|shadow on III 1/2|between zones 3 and 4|Zonen 3 bis 4|shadow on zone three and a half", false},
		{"3", "two zones below V|two below V|V minus two|V-2|zwei Stufen unter V|zone 5 minus 2", false},
		{"6", "one above V|V+1", false},
		// What fell there, was wished or was not so takes no right sheet's verdict.
		{"8", "snow fell on VIII|sky falls on VIII|snow would be on VIII", true},
		{"3", "not on III|should be on III|next time on III", true},
	} {
		for words := range strings.SplitSeq(said.words, "|") {
			for _, notes := range []string{"meter: EV 10 (%s); 1A: 1/4 f16; 1B: 1/4 #", "meter: EV 10; ; %s; ; 1A: 1/4 f16; 1B: 1/4 #", "meter: EV 10; 1A: 1/4 f16 -- %[1]s; 1B: 1/4 # -- %[1]s", "1A: EV 10 1/4 f16 (%[1]s); 1B: EV 10 1/4 # (%[1]s)"} {
				notes = strings.ReplaceAll(fmt.Sprintf(notes, words), "#", onZone[said.zone])
				season, _ := compileText("film stone: ISO 100, EI 100\nmeter spot: EV at 100\nday: 2026-11-02\nfilm: stone\nscene: wall\n" + strings.ReplaceAll(notes, "; ", "\n") + "\n")
				if right, placed := season.Sheets[0], season.Sheets[1]; (right.State == record.Right) != said.right || right.State == record.Off && placed.State != record.Right || placed.State == record.Off {
					t.Errorf("%s: %s and %s %v, want right %v and not off", notes, right.State, placed.State, placed.Needs, said.right)
				}
			}
		}
	}
}

// Numerals of other things, crosses, the writer's I and figures name no zone: the sheet that is right stays so, and the one
// that is not is blamed.
func TestNumeralsThatAreNoZones(t *testing.T) {
	for words, f := range map[string]string{"I think of the next": "f64", "so I did": "f64", "he'll be back": "f45", "we’ll see": "f45", "2 X 4 timber": "f2.8", "V shaped gully": "f11", "three zones of grass": "f32",
		"the one I came for": "f64", "gate 3": "f32", "waited for two": "f45", "two geese on a post": "f45", "in the dead zone": "f32", "a house of three floors": "f32", "card on three-legged stand": "f32", "Z 1 Sek.": "f64", "face at 0.3 m": "f90", "clouds at 3": "f32", "sky cleared at three": "f32", "wind dropped by three": "f32", "temperature dropped to 4": "f22", "dark by 6": "f11", "high tide at six": "f11", "moved to the left by two": "f45", "put three in the bag": "f32", "on the A 3": "f32"} {
		for _, notes := range []string{"meter: EV 10; 1A: 1/4 f16 -- %[1]s; 1B: 1/4 # -- %[1]s", "1A: EV 10 1/4 f16 (%[1]s); 1B: EV 10 1/4 # (%[1]s)"} {
			notes = strings.ReplaceAll(fmt.Sprintf(notes, words), "#", f)
			season, _ := compileText("film stone: ISO 100, EI 100\nmeter spot: EV at 100\nday: 2026-11-02\nfilm: stone\nscene: wall\n" + strings.ReplaceAll(notes, "; ", "\n") + "\n")
			if right, off := season.Sheets[0], season.Sheets[1]; right.State != record.Right || off.State != record.Off {
				t.Errorf("%s: %s %v and %s %v", notes, right.State, right.Needs, off.State, off.Needs)
			}
		}
	}
}

// A numeral in a remark may be a zone, and most are none: who is right without it stays so, and who is right by it is not blamed.
func TestNumeralsThatMayBeZones(t *testing.T) {
	for words, f := range map[string]string{"bark III": "f32", "plate IV": "f22"} {
		season, _ := compileText("film stone: ISO 100, EI 100\nmeter spot: EV at 100\nday: 2026-11-02\nfilm: stone\nscene: wall\nmeter: EV 10\n1A: 1/4 f16 -- " + words + "\n1B: 1/4 " + f + " -- " + words + "\n")
		if right, placed := season.Sheets[0], season.Sheets[1]; right.State != record.Right || placed.State != record.Unchecked {
			t.Errorf("%s: %s %v and %s %v", words, right.State, right.Needs, placed.State, placed.Needs)
		}
	}
}

// A zone in prose beside a sheet, before its reading, or in small letters in a column of its own. What prose says of the sheet
// above it is asked about also where that one is right.
func TestZonesBesideASheet(t *testing.T) {
	for notes, want := range map[string]record.State{
		"meter: EV 10; 1A: 1/4 f16; ; shadows were on III": record.Right, "meter: EV 10; 1A: 1/4 f32; ; shadows were on III": record.Unchecked, "shadow on III; ; meter: EV 10; 1A: 1/4 f32": record.Unchecked,
		"meter: EV 10; 1A: 1/4 f16; ; That one was on zone III": record.Unchecked, "meter: EV 10; 1A: 1/4 f32; ; That was on III": record.Unchecked, "meter: EV 10; 1A: 1/4 f16; ; That was Henry VIII": record.Right,
		"1A: zone III, EV 10, 1/4 f16": record.Unchecked, "1A: zone III, EV 10, 1/4 f32": record.Unchecked, "1A: EV 10 on zone for, 1/4 f16": record.Unchecked, "1A: EV 10 zone XI, 1/4 f16": record.Unchecked,
		"1A: gate   EV 10   iii   1/4 f16": record.Unchecked, "1A: gate   EV 10   iii   1/4 f32": record.Unchecked, "1A: gate   EV 10   II/III   1/4 f38": record.Unchecked,
		"1B: EV 10 on V, 1/4 f16; 1A: same, shadow III, 1/4 f32": record.Unchecked, "1B: EV 10 on V, 1/4 f16; 1A: same, sur III, 1/4 f32": record.Right,
	} {
		season, _ := compileText("film stone: ISO 100, EI 100\nmeter spot: EV at 100\nday: 2026-11-02\nfilm: stone\nscene: wall\n" + strings.ReplaceAll(notes, "; ", "\n") + "\n")
		for _, sh := range season.Sheets {
			if sh.Label == "1A" && sh.State != want {
				t.Errorf("%s: %s %v, want %s", notes, sh.State, sh.Needs, want)
			}
		}
	}
}

// Where a reading was put is told in French as well, and so is a light value that changed, and another film by mistake in German.
func TestZonesThatAreToldElsewhere(t *testing.T) {
	for said := range strings.SplitSeq("ombres EV 8 placées en III|ombres EV 8, mises en III", "|") {
		season, list := compileText("film g: EI 100, reciprocity none to 99s\nday: 2026-06-01\nfilm: g\n1A: " + said + ", f16, 1s\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked {
			t.Errorf("%s: %s %v; %v", said, sh.State, sh.Needs, list)
		}
	}
	season, list := compileText("film g: EI 100, reciprocity none to 99s\nday: 2026-06-01\nfilm: g\nmeter: EV 10\n1A: f16, 1/4\nLW jetzt 9.\n1B: f16, 1/4\n")
	if a, b := season.Sheets[0], season.Sheets[1]; a.State != record.Right || b.State != record.Unchecked {
		t.Errorf("LW jetzt 9.: %s and %s; %v", a.State, b.State, list)
	}
	season, list = compileText("film grau: EI 40\nfilm rapid: EI 100\nday: 2026-06-01\nfilm: grau\nmeter: 1/4 f16 at EI 40\n1A: f16, 1/4, versehentlich rapid\n")
	if sh := season.Sheets[0]; sh.State != record.Unchecked {
		t.Errorf("versehentlich rapid: %s; %v", sh.State, list)
	}
}

// A figure among the strokes of a zone's sign makes neither a light value nor a zone of it, and a numeral before a name is none:
// they leave the reading open.
func TestFiguresAmongStrokes(t *testing.T) {
	const kit = "film g: EI 100\nmeter spot: EV at 100\nday: 2026-06-01\nfilm: g\nscene: gate\n"
	for said := range strings.SplitSeq("EV 10 on 1II|EV 10 1II|EV 10 on I1I|EV 10 on II1|EV 10 II1|EV 10 III Corps|EV 10 on 111|EV 10 111", "|") {
		season, list := compileText(kit + "meter: " + said + "\n1A: f8, 1/60\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked {
			t.Errorf("meter: %s: %s; %v", said, sh.State, list)
		}
		for _, d := range list {
			if d.Fix != nil {
				t.Errorf("meter: %s: mended to %s", said, d.Fix.Text)
			}
		}
	}
	stand(t, kit, map[string]record.State{
		"meter: EV 10 III\n1A: f8, 1/60": record.Right, "meter: shade 10 III Sky 14 VII\n1A: f8, 1/60": record.Right, "1A: EV 10 III, f8, 1/60": record.Right, "1A: EV 10 III f8 1/60": record.Right,
		"1A: EV 10 1II, f8, 1/60": record.Unchecked, "1A: EV 10 III Corps, f8, 1/60": record.Unchecked, "1A: EV 12, 11 Corps, f8, 1/60": record.Right,
		"meter: EV 12\nscene: Heinrich III am Tor\nmeter: EV 12\n1A: f8, 1/60": record.Right,
	})
}
