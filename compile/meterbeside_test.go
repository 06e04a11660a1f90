package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// besideKit is a film whose index is two thirds of a stop from its box speed.
const besideKit = "film stone: ISO 100, EI 64\nfilter red: x8\nday: 2026-11-02\nfilm: stone\nscene: wall\n"

func besideStates(notes string) (states []record.State) {
	season, _ := compileText(besideKit + strings.ReplaceAll(notes, "; ", "\n") + "\n")
	for _, sh := range season.Sheets {
		states = append(states, sh.State)
	}
	return states
}

func allAre(states []record.State, want record.State) bool {
	for _, state := range states {
		if state != want {
			return false
		}
	}
	return len(states) > 0
}

// Words beside a reading that would change it are asked about: the sheet that is right without them is not
// right, and the one that is right by them is not off.
func TestWordsBesideAReading(t *testing.T) {
	for notes := range strings.SplitSeq(`meter: 1/15 f16 (phone at ISO 400)|meter: 1/15 f16 (at 400)|meter: 1/15 f16 -- at EI 400|meter: 1/15 f16 "iso 400"|meter: 1/15 f16 (app set to 400)|meter: at ISO 400; meter: 1/15 f16|`+
		`meter: 1/15 f16, phone at ISO 400`, "|") {
		if got := besideStates(notes + "; 1A: 1/15 f16; 1B: 1/2 f16⅓"); got[0] == record.Right || got[1] == record.Off {
			t.Errorf("%s: %v", notes, got)
		}
	}
	for notes := range strings.SplitSeq(`meter: 1/15 f16 at box speed; 1A: 1/15 f16|meter: 1/15 f16 (box speed); 1A: 1/15 f16|meter: 1/15 f16; 1A: 1/15 f16 (meter was at 400)|meter: 1/15 f16; 1A: 1/15 f16 -- read at EI 400, film is 64|`+
		`meter: 1/15 f16 (white wall, zone 7); 1A: 1/15 f16; 1B: 1/4 f16|meter: 1/15 f16 -- white wall, zone VII; 1A: 1/15 f16; 1B: 1/4 f16|`+
		`meter: 1/15 f16 (through the red); 1A: red, 1/15 f16; 1B: red, 1/2 f16|meter: 1/15 f16 -- red filter was in the reading; 1A: red, 1/15 f16|`+
		`meter: 1/15 f16; 1A: red, 1/15 f16, metered through it; 1B: red, 1/15 f16, filter was in the reading; 2A: red, 1/15 f16 (factor already in)|`+
		`meter: 1/15 f16; 1A: sky EV 15, 1/15 f16; 1B: 1/15 f16, sky EV 15|meter: between 1/15 and 1/30 f16; 1A: 1/15 f16½; 1B: 1/15 f16; 2A: 1/30 f16`, "|") {
		if got := besideStates(notes); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v", notes, got)
		}
	}
	for notes := range strings.SplitSeq(`Meter set to ISO 400|phone was set to ISO 400|oh no the meter was on 400|the meter was set to ISO 400 all day`, "|") {
		for _, where := range []string{notes + "; ; meter: 1/15 f16; 1A: 1/15 f16", "meter: 1/15 f16; ; " + notes + "; ; 1A: 1/15 f16", "meter: 1/15 f16; 1A: 1/15 f16; ; " + notes} {
			if got := besideStates(where); !allAre(got, record.Unchecked) {
				t.Errorf("%s: %v", where, got)
			}
		}
	}
	for head := range strings.SplitSeq("Light meter: 1/60 f16|Phone meter: EV 14|light-meter: 1/60 f16|Spotmeter: 1/60 f16", "|") {
		if got := besideStates("meter: 1/15 f16; " + head + "; 1A: 1/15 f16"); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v", head, got)
		}
	}
	for own := range strings.SplitSeq("My EI: 64|birch EI 64|I always set the meter to 64|EI: 64", "|") {
		season, _ := compileText("film birch: ISO 100\n" + own + "\nday: 2026-11-02\nload 1A: birch\nmeter: 1/15 f16 at EI 100\n1A: 1/15 f16\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked {
			t.Errorf("%s: %s", own, sh.State)
		}
	}
	for _, prose := range []string{"The phone app wants iso 400 for the best pictures.", "Meter at EI 64", "phone at 40", "Light meter: in the bag"} {
		if got := besideStates("meter: 1/15 f16; ; " + prose + "; ; 1A: 1/15 f16"); !allAre(got, record.Right) {
			t.Errorf("%s: %v", prose, got)
		}
	}
	for notes := range strings.SplitSeq(`meter: 1/15 f16 (at the bridge, tree 400 m off)|meter: 1/15 f16 (at EI 64)|meter: 1/15 f16 at EI 64 (phone says 400)|meter: 1/15 f16 (white wall falls on zone 7)|meter: 1/15 f16 (grey card, zone V)|`+
		`meter: 1/15 f16 (seen through the window)|meter: 1/15 f16 (film ISO 100)`, "|") {
		if got := besideStates(notes + "; 1A: 1/15 f16; 1B: red, 1/2 f16"); !allAre(got, record.Right) {
			t.Errorf("%s: %v", notes, got)
		}
	}
}

// Where the dial of a meter stood is said in many words, by its own name as well: the sheet that is right without them is
// not right, and the one that is right by them is not off.
func TestWhereTheDialStood(t *testing.T) {
	const kit = "film stone: ISO 400, EI 64\nmeter spot: EV at 100\nmeter box: EV at EI\nfilm: stone\nday: 2026-11-02\n"
	states := func(notes string) (states []record.State, found any) {
		season, list := compileText(kit + strings.ReplaceAll(notes, "; ", "\n") + "\n")
		for _, sh := range season.Sheets {
			states = append(states, sh.State)
		}
		return states, list
	}
	const sheets = "; 1A: 1/4 f16; 1B: 1/4 f8⅓"
	for notes := range strings.SplitSeq(`meter box: EV 10 (dial still at 200)#|meter box: EV 10 (set at 200)#|meter box: EV 10 (was still set at 200)#|meter box: EV 10 -- index 200#|meter box: EV 10 -- the index was 200#|meter box: EV 10 (box still at 200)#|`+
		`meter: box -- set at EI 200; meter: EV 10#|meter: box -- dial at 200; meter: EV 10#|meter box: EV 10; ; Box was still set to 200.; #|meter box: EV 10#; ; Box was still set to 200.|Box was still set to 200.; ; meter box: EV 10#|meter box: EV 10 (dial still at two hundred)#`, "|") {
		if got, list := states(strings.Replace(notes, "#", sheets, 1)); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
	for said := range strings.SplitSeq("(dial at EI 200)|(meter was at EI 200)|(box still at 200)|-- the box was at 200", "|") {
		for _, meter := range []string{"meter box: EV 10", "meter box: EV 10 at EI 64"} {
			if got, list := states(meter + "; 1A: 1/4 f16 " + said); !allAre(got, record.Unchecked) {
				t.Errorf("%s, %s: %v; %v", meter, said, got, list)
			}
		}
	}
	if got, list := states("meter box: EV 15; 1A: 1/125 f16 -- dial at 125"); !allAre(got, record.Right) {
		t.Errorf("dial of the shutter: %v; %v", got, list)
	}
	for notes := range strings.SplitSeq(`meter box: EV 10 (dial at 64)|meter spot: EV 10⅔ (dial still at 200)|meter box: EV 10 (letter box, 200 m off)|meter box: EV 10 at EI 64 (set at EI 64)|meter: box -- new cell; meter: EV 10|`+
		`meter box: EV 10; ; The letter box stood at 200 feet.; |meter box: EV 10; ; Spot was in the box.; `, "|") {
		if got, list := states(notes + "; 1A: 1/4 f16 -- box of 25 sheets"); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
}

// A zone in a spelling that no term has leaves open both the sheet that is right on it and the one that is right
// without it.
func TestZonesInOtherSpellings(t *testing.T) {
	for zone := range strings.SplitSeq(`Zn III|*III*|"III"|on lll|on Ill|, raised to III`, "|") {
		if got := besideStates("meter: bark 1/4 f16 " + zone + "; 1A: 1/4 f16; 1B: 1/4 f32"); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v", zone, got)
		}
	}
	if got := besideStates("meter: bark 1/4 f16 → Z.III; 1A: 1/4 f16; 1B: 1/4 f32"); got[0] != record.Off || got[1] != record.Right { // is read
		t.Errorf("Z.III: %v", got)
	}
	if got := besideStates("meter: bark 1/4 f16 on IIII; 1A: 1/4 f16; 1B: 1/4 f22"); !allAre(got, record.Unchecked) {
		t.Errorf("on IIII: %v", got)
	}
	for said := range strings.SplitSeq(`(V)|-- I will wait|-- ill again|-- he'll be back|"falls III"|-- all of it`, "|") {
		if got := besideStates("meter: bark 1/4 f16 " + said + "; 1A: 1/4 f16"); !allAre(got, record.Right) {
			t.Errorf("%s: %v", said, got)
		}
	}
}

// A meter that is said to stand for a film of the kit stood at its index: two stops from the other's.
func TestAMeterThatStoodForAFilm(t *testing.T) {
	const kit = "film slate: ISO 100\nfilm moth: ISO 400\nfilm: slate\nday: 2026-06-01\nscene: gate\nmeter: 1/60 f8"
	for said := range strings.SplitSeq("meter still set for moth|the meter was set to moth|meter stood at moth", "|") {
		stand(t, kit, map[string]record.State{
			" -- " + said + "\n1A: 1/60 f8": record.Unchecked, "\n\n" + said + "\n\n1A: 1/60 f8": record.Unchecked,
			"\n1A: 1/60 f8 -- " + said: record.Unchecked, "\n1A: 1/15 f8 -- " + said: record.Unchecked, "\n1A: 1/60 f8, " + said: record.Unchecked, "\n1A: 1/15 f8, " + said: record.Unchecked,
		})
	}
	for said := range strings.SplitSeq("meter still set for slate|meter set for mothballs|the meter at the gate", "|") {
		stand(t, kit, map[string]record.State{" -- " + said + "\n1A: 1/60 f8": record.Right, "\n1A: 1/60 f8 -- " + said: record.Right})
	}
}
