package compile_test

import (
	"fmt"
	"strings"
	"testing"

	"notchbook/compile/record"
)

const wordsKit = "film fern: ISO 100, EI 64, reciprocity none to 100s\nmeter spot: EV at EI\nfilter red: x8\nfilter pol: +2\nlens 210: 210 mm\nday: 2026-06-01\nfilm: fern\nlens: 210\n"

// wordsStates are those of the sheets of some lines, each in a notebook of its own; "; " stands for a line's end.
func wordsStates(notes string) (states []record.State, list any) {
	season, found := compileText(wordsKit + strings.ReplaceAll(notes, "; ", "\n") + "\n")
	for _, sh := range season.Sheets {
		states = append(states, sh.State)
	}
	return states, found
}

// EV 12 is 1/8 s at f/22, and EV 5 15 s (EV = log₂(N²/t), ISO 2720). What words beside that say was set, or seen, would
// make it wrong.
func TestSettingsToldInWordsAreAskedAbout(t *testing.T) {
	for head, all := range map[string]string{
		"meter: EV 12; 1A: f22 1/8": ", no a half|, but the shutter said a half| with the filter|, pulled out as far as it goes|, E V ten|, double exposed by mistake|, and again because I was not sure|, lens was open when I pulled the slide|, slide still in|, forgot the slide| -- bellows were long|, lens still on eleven|, aperture was at sixteen|, shutter still on thirty|, shutter was on the fifteenth|, shutter was on B|, sorry, a quarter| -- no, a half|, make that a quarter|, still on eleven|, left at eleven after focusing|, aperture eleven|, exposed for a quarter|, still set at sixty|, actually a quarter|, it was a quarter actually|, the aperture was eleven|, shutter speed was thirty|, sixteen not twenty two|, not twenty two but sixteen|" +
			", wall on seven|, on a seven|, I want seven|" +
			", now EV ten|, meter now says ten|, meter still on two fifty|, light dropped two stops|, light is two stops down| read filter| filter read|, with the pole on|" +
			", shutter did not fire| and then I forgot and took it a second time|, pulled the dark slide with the shutter open|, forgot to take it off|, took it twice|, lens cap was on",
		"meter: EV 12; 1A: f22 an eighth":      ", no a half|, wrong, one half| or a quarter| or maybe one half| maybe a half|, but the shutter said a half",
		"meter: EV 5; 1A: f22 fifteen seconds": " but the lens was still on eleven| but the aperture was on sixteen",
		"meter: EV 5; 1A: f22 15s": ", gave eight| but the lens was still on eleven|, closed it after five seconds|, closed it after 8 seconds|, stopped at eight|, shut after eight seconds|, lost count at eight| but counted only eight|" +
			" or was it eight|, only got to eight|, only eight seconds|, it was eight|, timer stopped at eight|, ran to thirty|, lost count around thirty|, then another ten",
		"meter: EV 12; 1A: White wall on zone seven f22 1/8": "",
	} {
		for said := range strings.SplitSeq(all, "|") {
			if got, list := wordsStates(head + said); !allAre(got, record.Unchecked) {
				t.Errorf("%s%s: %v; %v", head, said, got, list)
			}
		}
	}
	for meter := range strings.SplitSeq("White wall EV 12 on a seven|White wall EV 12 zones seven|White wall EV 12 on zone for|White wall EV 12, I want seven|EV 12 no ten|EV 12 sorry ten|EV 12 but it fell to ten|EV 12 at first then ten|EV 12 at EI two hundred fifty", "|") {
		if got, list := wordsStates("meter: " + meter + "; 1A: f22 1/8"); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", meter, got, list)
		}
	}
	for copied := range strings.SplitSeq("Same at half the time|Same but at the quarter|Same but at a quarter|Same but twice as long|Same but double the time|Same, double the time|Same but closed down to thirty two|Same, on eleven|Same but longer|dto., doppelt so lang|dto., viermal so lang|dto., länger|wie oben, eine Stufe mehr|dto., abgeblendet|dto., nächste Blende|dto., Blende weiter auf|dto., doppelt|idem, deux fois plus long|idem, le double|Same but a stop more|Same, shutter on thirty", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: f22 1/8; 1B: " + copied); got[0] != record.Right || got[1] == record.Right {
			t.Errorf("%s: %v; %v", copied, got, list)
		}
	}
	for left := range strings.SplitSeq("the filter is still on|forgot to take it off|, still on|, left it on|, didn't take the filter off", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: red f22 1s; 1B: f22 1/8 " + left); got[0] != record.Right || got[1] != record.Unchecked {
			t.Errorf("%s: %v; %v", left, got, list)
		}
	}
}

// What is a term in words counts as in figures.
func TestTermsInWordsCount(t *testing.T) {
	for said := range strings.SplitSeq("bellows three hundred|bellows twelve inches|bellows thirty centimetres|standard out to three hundred|scale one to two", "|") {
		for time, want := range map[string]record.State{"1/8": record.Off, "1/4": record.Right} { // a stop for 300 mm of a 210, 1.2 for 1:2
			if got, list := wordsStates("meter: EV 12; 1A: f22 " + time + ", " + said); !allAre(got, want) {
				t.Errorf("%s: %v; %v", said, got, list)
			}
		}
	}
}

// A line of prose below the reading tells of what follows it, and one below a sheet of that sheet, or of as many as it
// says; light: is such a line.
func TestSettingsToldInWordsBesideASheet(t *testing.T) {
	for line := range strings.SplitSeq("Light: ten|Light: down to ten|Reading now ten|Light now ten|Bellows now at three hundred|Now it is EV ten|Metre: EV ten|Meter reading: EV ten|Meters: EV ten|Light: now EV 10|Light: EV ten|Meter now says ten|Read filter on|Bellows out to three hundred|The meter was on four hundred|Meter still at four hundred|Put the read filter on|light: fell two stops", "|") {
		if got, list := wordsStates("meter: EV 12; " + line + "; 1A: f22 1/8"); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", line, got, list)
		}
	}
	for line, last := range map[string]int{"The last two had the red on": 2, "Forgot the bellows for that": 1, "Forgot the bellows on the bus": 0, "The last three sheets are for the museum": 0, "Oh no that was with the red filter on": 1, "Both of these with the red": 2, "That last one was at F eleven not twenty two": 1, "All three with the red filter on": 3, "That one I gave a half": 1,
		"I forgot the bellows for that one it was at three hundred": 1, "Wrong aperture for this one, it was f eleven": 1, "Waited an hour for this one, it was worth it": 0, "The tripod was low for that one, it was a foot off the ground": 0,
		"Shutter was on thirty for that one": 1, "Oops left the red on": 1, "Forgot the red was on for that": 1, "The last one had the red on": 1, "Forgot the filter was on": 1, "Forgot the bellows": 1, "Lens was still on eleven": 1,
		"No it was a quarter": 1, "It was at f eleven": 1, "Bellows were at three hundred for that": 1, "Left the dog at the gate": 0, "14:20 left at f8": 0, "Had the wind on my back": 0, "The shutter did not fire": 1, "That last one was a half not an eighth": 1, "That last one was an eighth not a half": 0, "That was a half": 1, "That one should have been a half": 0} {
		got, list := wordsStates("meter: EV 12; 1A: f22 1/8; 1B: f22 1/8; 2A: f22 1/8; " + line)
		for i, state := range got {
			if want := i >= len(got)-last; (state != record.Right) != want {
				t.Errorf("%s: %v; %v", line, got, list)
				break
			}
		}
	}
	for notes := range strings.SplitSeq("meter: EV 12; Now it is EV ten; meter: EV 12; 1A: f22 1/8|meter: EV 12; The reading was fine; 1A: f22 1/8|meter: EV 12; light: EV 12; 1A: f22 1/8|meter: EV 12; light: two lamps; 1A: f22 1/8|meter: EV 12; light: one cloud after the other; 1A: f22 1/8", "|") {
		if got, list := wordsStates(notes); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
}

// A zone that was not heard is not the middle one: nobody is blamed for it.
func TestAZoneThatIsNoNumber(t *testing.T) {
	for time, want := range map[string]record.State{"1/8": record.Unchecked, "1/15": record.Unchecked} { // zone IV is a stop below V
		if got, list := wordsStates("meter: White wall EV 12 on zone for; 1A: f22 " + time); !allAre(got, want) {
			t.Errorf("%s: %v; %v", time, got, list)
		}
	}
}

// Numbers of the scene and of the day, and those that say what was set, leave a right sheet right.
func TestNumbersInWordsOfTheScene(t *testing.T) {
	for said := range strings.SplitSeq(", three cows on the left|, light now better| with the filter coffee in hand|, pulled out of the lane|, but three cows|, the slide of the playground|, said the farmer twice|, maybe two more tomorrow| but two boats in front|, and again the swans| -- wait a second there was a bird|, at half past four|, two boats|, one of three| (two boats moored on four ropes)|, car stopped at the gate|, church clock stopped at ten|"+
		", no two clouds alike|, house number twelve|, lens still wet|, lens on twenty two|, aperture still on twenty two|, sorry about the two dogs|, shutter cocked twice before it fired|, half the field in shadow|"+
		", quarter to seven|, bus at ten past eight|, meter says the same|, meter says twelve|, wall on five|, bellows three years old|, standard lens|, scale of the wall is one to three men|, nine swans and two cygnets|"+
		", dark slide sticks| -- forgot the slide rule|, read the filter notes|, light dropped after this one|; 1B: same, two cows now|; 1B: Same but closer|; 1B: Same but three people in the door|; 1B: Same with a longer lens|; 1B: same -- one more for luck|"+
		"; 1B: Same, twenty minutes later|; 1B: Same but upright|; That was a good one, two hares ran by|; Both of these with the river behind|; That last one was at the eleven oclock bell|; That was with the red barn|"+
		"; Shutter sounded fine on all three|; Ten past eight and the boats come in|; That was the last of ten|; This one for the two brothers|; These three were on the quay at six|; Both were at the gate by ten|; That took five minutes|; Last one on the left is the sixth house|; That is the house with the red|, the clock was still at eleven| -- gave two boys a lift| -- sorry to leave by four| -- no, two of them are swans|, make that three swans|, aperture in the hedge, ten feet wide|, lens changed at the second gate|, lens two ten|, two or three|, a day or two|, half or a quarter of the wall| two ten lens|, standing on one leg for ten seconds| -- light went at ten past five|, I want two prints of this|, put it on the second shelf|, rail on the left has ten bars|, street lamps still on|, with the fog on|, zone of silence in the wood|; 1B: same, the lens was wiped twice|; 1B: same, walked twice as long as yesterday|; 1B: same, gave up at three|; 1B: dto., Hund im Bild|; 1B: dto., die Sonne etwas höher|; 1B: dto., länger gewartet|; 1B: idem, plus près", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: f22 1/8" + said); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(", stopped at the lock for ten|, gave fifteen|, counted fifteen|, closed it after fifteen seconds|, shop closed after five years|, church clock stopped at ten|, a bird came after five| -- left at ten|, lost count of the swans| -- closed the gate after five sheep", "|") {
		if got, list := wordsStates("meter: EV 5; 1A: f22 15s" + said); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq("Light now over the hill|Light now at its best|The last two miles on foot|Reading now in the hut, ten pages|Now it is ten and the fog lifts|Read for an hour, filter coffee|Two fishermen, one in red|Walked on to the second lock|The first bus was on time, the second ten minutes late|Waited for three cars to go by|This lane has three gates|All the boats are in by six|That hill is two miles off|Both banks are steep here|Last of the light at half past five|The filter beds lie behind the wall|With two friends and a dog on a lead|Left the shutter of the barn open", "|") {
		if got, list := wordsStates("meter: EV 12; " + said + "; 1A: f22 1/8"); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(", two metres off| at ten in the morning|, three spots alike|, now ten minutes later the same|, the second house", "|") {
		if got, list := wordsStates("meter: White wall EV 12" + said + "; 1A: f22 1/8"); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
}

// A sheet that copies one which was amended below it is as it was logged, or as the amendment has it: neither is blamed
// by the other.
func TestACopyOfWhatWasAmendedLater(t *testing.T) {
	for notes := range strings.SplitSeq("1A: f22 1/15; 1B: same, f16; amend 1A: 1/8 not 1/15|1A: f22 1/8; 1B: same; amend 1A: 1/15 not 1/8|1A: f22 1/8; 1B: same; 2A: same; amend 1A: f16 not f22|1A: f22 1/8; 1B: same; amend 1A: red on", "|") {
		if got, list := wordsStates("meter: EV 12; " + notes); !allAre(got[1:], record.Unchecked) && !allAre(got[1:], record.Right) {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
	if got, list := wordsStates("meter: EV 12; 1A: f22 1/30; 1B: same; amend 1A: 1/15 not 1/30"); !allAre(got, record.Off) || strings.Count(fmt.Sprint(list), "before it was amended") != 2 {
		t.Errorf("%v; %v", got, list)
	}
	if got, list := wordsStates("meter: EV 12; 1A: f22 1/8; amend 1A: 1/15 not 1/8; 1B: same"); !allAre(got, record.Off) {
		t.Errorf("%v; %v", got, list)
	}
}

// What a remark owns to is asked about in the words for having forgotten it as well, and a factor with a star is one.
func TestSettingsThatWereForgotten(t *testing.T) {
	for said := range strings.SplitSeq(" minus a half| -- R25 on, forgot it| -- R25 on and I forgot", "|") {
		if got, list := wordsStates("filter R25: x8; meter: EV 12; 1A: f22 1/8" + said); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(" -- forgot R25| -- R25 left at home|, one less sheep than before", "|") {
		if got, list := wordsStates("filter R25: x8; meter: EV 12; 1A: f22 1/8" + said); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	if got, list := wordsStates("meter: EV 12; 1A: pol *2, f22 1/4; 1B: pol * 2, f22 1/4"); !allAre(got, record.Right) {
		t.Errorf("pol *2: %v; %v", got, list)
	}
	for filters, want := range map[string]record.State{"red and then pol": record.Unchecked, "red then pol": record.Unchecked, "red off, then pol": record.Right, "no red, then pol": record.Right} {
		if got, list := wordsStates("meter: EV 12; 1A: " + filters + ", f22 1/2"); !allAre(got, want) {
			t.Errorf("%s: %v; %v", filters, got, list)
		}
	}
	if got, list := wordsStates("meter: EV 12; 1A: red and then pol, f22 4s"); !allAre(got, record.Unchecked) && !allAre(got, record.Right) {
		t.Errorf("red and then pol: %v; %v", got, list)
	}
	if got, list := wordsStates("meter spot: dial at 200; 1A: f22 1/4"); !allAre(got, record.Unchecked) {
		t.Errorf("dial at 200: %v; %v", got, list)
	}
}

// A film that a line of prose changes to, or that a holder is said to have, is asked about where the sheet is logged with
// another.
func TestFilmsToldInWords(t *testing.T) {
	for notes, want := range map[string]record.State{"; Changed to the heath film; 1A: f22 1/8": record.Unchecked, "; 1A: f22 1/8, oops this holder has the heath": record.Unchecked,
		"; Moved to the heath; 1A: f22 1/8": record.Right, "; Changed to the fern film; 1A: f22 1/8": record.Right, "; 1A: f22 1/8, the holder has a heath sticker on the back": record.Right, "; 1A: f22 1/8 -- wind on the heath": record.Right} {
		if got, list := wordsStates("film heath: ISO 400, EI 250; meter spot: EV at 100; load 1A-2B: fern; meter: EV 12⅔" + notes); !allAre(got, want) {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
}

// What a line of prose above a sheet says of what follows, in the ways and the languages of tired people, is held against
// it: EV 10 is two stops less than EV 12, R25 takes three, 300 mm of bellows behind 210 mm one.
func TestWhatIsToldAheadOfASheet(t *testing.T) {
	const kit = "film heath: ISO 100, EI 100\nlens 210: 210 mm\nfilter R25: red, x8\nmeter spot: EV at 100\nday: 2026-11-02\nlens: 210\nfilm: heath\nscene: wall\nmeter: EV 12\n"
	for want, all := range map[record.State]string{
		record.Unchecked: "Next the mill, EV ten on the door|The mill next, EV ten on the door|Lichtwert jetzt 10|dropped the meter, now it shows 11|Balgen jetzt auf 30 cm|Balgen auf 300|soufflet à 30 cm|Licht zwei Stufen weg|Licht 2 Blenden weniger|la lumière a baissé de deux diaphs|" +
			"now with the red|put the red on|red on|jetzt mit Rotfilter|Rotfilter drauf|maintenant le filtre rouge|filtre rouge mis|Then red|then the red one|changing over to the red|popped the red on|stuck the red on|red this time|the red filter this time",
		record.Right: "Then red clouds|the red barn this time|changing over to the red line|stuck in the red mud|stuck the red one back in the bag|put the red back in its case|Next time try EV ten|the red|red now|red again|red on the hills|now with the red barn|Balgen seit 30 Jahren dicht|Licht gut, 2 Stunden gewartet|dropped the meter but it still works|waited an hour, light the same|le soleil de deux heures",
	} {
		for above := range strings.SplitSeq(all, "|") {
			season, list := compileText(kit + "1A: 1/60 f8\n" + above + "\n1B: 1/60 f8\n")
			if a, b := season.Sheets[0], season.Sheets[1]; a.State != record.Right || b.State != want {
				t.Errorf("%s: %s and %s %v, want %s; %v", above, a.State, b.State, b.Needs, want, list)
			}
		}
	}
	for _, below := range [...]string{"red off", "Rotfilter wieder ab", "took the red filter off"} { // and the next copies it, or not
		season, list := compileText(kit + "1A: R25, 1/8 f8\n" + below + "\n1B: same\n")
		if sh := season.Sheets[1]; sh.State != record.Unchecked {
			t.Errorf("%s: %s; %v", below, sh.State, list)
		}
	}
}

// That a holder had another film in it is said with its side, or with its number for both, above the sheets or below them. What
// is called as a film is and belongs to something else says nothing.
func TestFilmsToldWithTheirHolders(t *testing.T) {
	const kit = "film dun: ISO 100\nfilm flint: ISO 400\nmeter spot: EV at 100\nday: 2026-11-02\nload 1A-2B: dun\n"
	const logged = "meter: EV 11\n1A: f16 1/8\n2A: f16 1/8\n"
	for want, all := range map[string]string{
		"ur": "Oh 1A is flint|1A is really flint|1A has flint in it|Holder 1 had flint in|flint in holder 1",
		"rr": "Holder 1 has a flint chip in|1A is by the flint wall|Flint in 1A would be faster|Holder 3 had flint in",
	} {
		for said := range strings.SplitSeq(all, "|") {
			for _, notes := range [...]string{said + "\n" + logged, logged + said + "\n"} {
				season, list := compileText(kit + notes)
				if got := string(season.Sheets[0].State[0]) + string(season.Sheets[1].State[0]); got != want {
					t.Errorf("%s: %s, want %s; %v", notes, got, want, list)
				}
			}
		}
	}
}

// Another lens or a filter that a title or a line above the sheets names is asked about: 300 mm is two stops of a 150, and one
// of a 210. Figures and colours of other things are not.
func TestThingsToldBeforeTheirSheets(t *testing.T) {
	const kit = "lens 150: 150 mm\nlens 210: 210 mm\nfilter yellow: x2\nday: 2026-11-02\nlens: 150\n"
	for want, all := range map[record.State]string{
		record.Unchecked: "scene: fern, 210 lens|scene: fern (210 lens)|scene: fern, yellow filter|scene: fern with the yellow|lens - 210; scene: fern|Switched lens, 210 now; scene: fern|Put the 210 on; scene: fern|Went to the 210.",
		record.Right:     "scene: fern, 210 steps up|scene: fern, yellow door|scene: fern with yellow door|scene: still life with yellow|scene: fern, 150 lens|Saw 210 geese; scene: fern|Put the 210 back in the case; scene: fern|Sold the 210 last week|lens - 150|lens cap lost",
	} {
		for above := range strings.SplitSeq(all, "|") {
			season, list := compileText(kit + strings.ReplaceAll(above, "; ", "\n") + "\nmeter: 1/8 f16\n1A: 1/2 f16, ext 300\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("%s: %s %v, want %s; %v", above, sh.State, sh.Needs, want, list)
			}
		}
	}
	season, list := compileText(kit + "meter: 1/8 f16\n1A: 1/2 f16, ext 300\nLens was the 210\n")
	if sh := season.Sheets[0]; sh.State != record.Unchecked {
		t.Errorf("%s %v; %v", sh.State, sh.Needs, list)
	}
}

// A stop over is not blamed where a line above says that a stop was added, or that the light went; nor is a reading kept that was
// taken anew. A right sheet stays so.
func TestALineAboveThatAccountsForAStop(t *testing.T) {
	for line := range strings.SplitSeq("Gone gloomy, added a stop|Murky, added a stop|clouded right over|Gone grey.|Gave it a stop", "|") {
		if got, list := wordsStates("meter: EV 12; " + line + "; 1A: f22 1/4; 1B: f22 1/8"); got[0] != record.Unchecked || got[1] != record.Right {
			t.Errorf("%s: %v; %v", line, got, list)
		}
	}
	if got, list := wordsStates("meter: EV 12; Added a jumper, gone grey with dust; 1A: f22 1/4"); !allAre(got, record.Off) {
		t.Error(got, list)
	}
	for line := range strings.SplitSeq("re-metered 10|remetered, 10 now", "|") {
		if got, list := wordsStates("meter: EV 12; " + line + "; 1A: f22 1/8"); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", line, got, list)
		}
	}
	if got, list := wordsStates("meter: EV 12; Re-metered the wall, as before; 1A: f22 1/8"); !allAre(got, record.Right) {
		t.Error(got, list)
	}
}

// f/16 for f/22 is a stop over, and 4 s for 15 s two under: a setting that a remark or a line right below says stood
// otherwise is asked about where the sheet looks right, and where it looks wrong; words of the subject and of other times are not.
func TestSettingsThatStoodOtherwise(t *testing.T) {
	for _, c := range []struct{ right, wrong, value, number, said string }{
		{"f22 1/8", "f16 1/8", "f16", "16", " -- edit: V| -- corr. V| -- really N| -- later: V| (V on closer look)| -- ring stood at N|, ring on N after all|; amend: V|; EDIT V|; scrap that, V|; 1A scrap: V|; 1A, scrap that: V|; The ring stood at N.|; the aperture ring had slipped to V|; Lens was at V the whole time."},
	} {
		for said := range strings.SplitSeq(c.said, "|") {
			told := strings.NewReplacer("V", c.value, "N", c.number).Replace(said)
			if got, list := wordsStates("meter: EV 12; 1A: " + c.right + told); !allAre(got, record.Unchecked) {
				t.Errorf("%s%s: %v; %v", c.right, told, got, list)
			}
			told = strings.NewReplacer("V", "f22", "N", "22").Replace(said)
			if got, list := wordsStates("meter: EV 12; 1A: " + c.wrong + told); !allAre(got, record.Unchecked) {
				t.Errorf("%s%s: %v; %v", c.wrong, told, got, list)
			}
		}
	}
	for said := range strings.SplitSeq(" (no, 4)| -- no, 4| -- only 4 in fact| (only 4 of it open)|, but the release slipped after four or so|; Scrap that, 4 s|; Only had it open for 4 of them.|; Release let go after four seconds.|; Opened it again for another 48s.", "|") {
		if got, list := wordsStates("meter: EV 5; 1A: f22 15s" + said); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(", hat for the cars|, lens cap for the cars|, lens was capped half of it|, the cap off for a third of that| -- hand over lens 12s|; Capped for two cars.|; Walked in with the torch and painted the steps.|; Lamp went out halfway.|; card in front for the tram|; Twelve of those seconds the lens was capped.|; 1B: f22, half that", "|") {
		if got, list := wordsStates("meter: EV 5; 1A: f22 15s" + said); got[len(got)-1] != record.Unchecked {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(" -- next time f16| -- f16 would do| -- print 4s| -- waited 4s| -- no 4 on the gate| -- metered at f16| -- diffraction from f45 on|; The lens is best at f16.|; Viewed at f5.6.|; 14:20 left at f8|; Four of them were herons.|; 1/4 of a mile to the car.|; Lens cloth, 2 of them.|, hat of felt|, half of it in shade|; Half of the time went by on the bus.|; The red hat was for the boy.", "|") {
		if got, list := wordsStates("meter: EV 5; 1A: f22 15s" + said); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
}

// The red asks for 8 times the exposure, and zone III for a quarter of that of V: what a remark or the line right below
// says of a filter, of the reading or its zone is asked about.
func TestThingsThatWereOtherwise(t *testing.T) {
	for said := range strings.SplitSeq("; (w/ red)|; the red was on|; Through the red.|; Red was still on, damn.|; I forgot to take off the red.|; That 12 was a 9.|; the 12 should be 9|; scrap the reading, it was 9|; It was on III not V.|; Scrap that, III.", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: f22 1/8" + said); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq(" -- no filter in fact| -- red not on, he kept it| (lent, no, she kept it)| -- Anna has the red now", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: red f22 1/8" + said); !allAre(got, record.Unchecked) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
	for said := range strings.SplitSeq("; The red was for the door.|; the red boat| -- forgot the red| -- red door|; The 12 was late.|; Without the red.|; The 9 was full.", "|") {
		if got, list := wordsStates("meter: EV 12; 1A: f22 1/8" + said); !allAre(got, record.Right) {
			t.Errorf("%s: %v; %v", said, got, list)
		}
	}
}

// A filter is named by the colour that the trade calls it by as by its own name, and as a glass or in another language: a
// Wratten 25 is red. The subject has colours too.
func TestFiltersByWhatTheyAreCalled(t *testing.T) {
	const kit = "film fern: ISO 100, EI 64, reciprocity none to 100s\nmeter spot: EV at EI\nfilter Y8: Wratten 8, x2\nfilter R25: Wratten 25, x8\nlens 210: 210 mm\nlens wide: 90 mm\nday: 2026-06-01\nfilm: fern\nlens: 210\nmeter: EV 12\n"
	for want, all := range map[record.State]string{
		record.Unchecked: " -- no, the red| -- the red was on| -- with the red glass on| -- red glass still on| -- mit dem Rotfilter|\nThe red was on.|\nThrough the red glass.|\nThat was the red, not the yellow.",
		record.Right:     " -- red glass in the church window| -- not the red| -- the red one of the two barns|\nThe red glass of the lamp.|\nThe red was for the door.| -- wide view",
	} {
		for said := range strings.SplitSeq(all, "|") {
			season, list := compileText(kit + "1A: f22 1/8" + said + "\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("%s: %s; %v", said, sh.State, list)
			}
		}
	}
}

// What is told beside the sheets of one scene: of a setting by what it was seen on, of the bellows that a copy has of the sheet
// before, of how large the thing was, and of a filter put on between two sheets. 300 mm of a 210 is a stop, and life size two;
// each sheet is given as its states, r for right and u for unchecked.
func TestToldBetweenTheSheetsOfAScene(t *testing.T) {
	for notes, want := range map[string]string{
		"1A: f22 1/8; [1A: aperture probably f16, see print]": "u", "1A: f16 1/8; [1A: aperture probably f22, see print]": "u", "1A: f22 1/8; Zu 1A: Blende wohl 16": "u", "1A: f16 1/8; Zu 1A: Blende wohl 22": "u", "1A: f22 1/8; [1A: aperture probably f22, see print]": "r",
		"1A: f22 1/4, ext 297; Back to infinity.; 1B: same; 2A: same": "ruu", "1A: f22 1/4, ext 297; Focused on infinity; 1B: f22 1/8": "rr", "1A: f22 1/8; Back to infinity.; 1B: f22 1/4, ext 297; 2A: same": "rrr", "1A: f22 1/4, ext 297; Back to the infinity pool.; 1B: same": "rr",
		"Moved in till life size.; 1A: f22 1/8": "u", "Nearly life size.; 1A: f22 1/8": "u", "1A: f22 1/8; That was nearly life size.": "u", "Now half life size; 1A: f22 1/8": "u", "Moved in till life size.; 1A: f22 1/2, 1:1": "r", "A life size statue of the duke.; 1A: f22 1/8": "r", "The print to be life size.; 1A: f22 1/8": "r", "A hare of some size; 1A: f22 1/8": "r",
		"1A: f22 1/8; Then I put the red on.; 1B: f22 1/8; scene: b; meter: EV 12; 2A: f22 1/8": "rur", "1A: f22 1/8; Then I put the red on.; 1B: red f22 1s": "rr", "1A: f22 1/8; Then the red boat put out.; 1B: f22 1/8": "rr", "1A: f22 1/8; Put the red boat on the left.; 1B: f22 1/8": "rr",
		"1A: f22 1/8; 1B: f22 1/8; holder 1A: the red was on": "ur", "1A: f22 1/8; 1B: f22 1/8; holder 1A: the red one leaks": "rr",
		"filter: red for 1A; 1A: f22 1s; 1B: f22 1/8; 2A: red f22 1s": "rur", "filter: red for 1A and 1B only; 1A: f22 1s; 1B: f22 1s; 2A: f22 1/8": "rru", "filter: red, not for 1A; 1A: f22 1/8": "u", "filter: red for 1A; 1A: f22 1/8": "o", "filter: red for 1A; 1A: f22 1s; filter: none; 1B: f22 1/8": "rr",
		// below the last sheets of a scene also what is told ahead is of those above, and a thing named alone is of the sheet that is named
		"1A: f22 1/8; bellows 300mm": "u", "1A: f22 1/8; bellows 300mm; 1B: f22 1/4": "ru", "1A: f22 1/8; 1A bellows was 300 forgot to say": "u", "1A: f22 1/8; bellows was 210": "r", "1A: f22 1/8; bellows is leaking, patch it": "r",
		"1A: f22 1/8; 1B: f22 1/8; red on 1A": "ur", "1A: f22 1/8; 1B: f22 1/8; red leaves on the path below 1A": "rr", "1A: f22 1/8; with red": "u", "1A: f22 1/8; 1B: f22 1/8; all with red": "uu", "1A: f22 1/8; red btw": "u", "1A: f22 1/8; red lichen btw": "r", "1A: f22 1/8; 1B: f22 1/8; both had red": "uu", "1A: f22 1/8; 1B: f22 1/8; both had lunch": "rr", "1A: f22 1/8; 1B: f22 1/8; both were red": "rr",
		"1A: f22 1/8; 1A wants to be f32": "u", "1A: f22 1/8; 1A wants to be f22": "r", "1A: f22 1/8; 1A wants to be printed on grade 3": "r", "1A: f22 1/8; 1B: f22 1/8; Last was at 16 not 22": "ru", "1A: f22 1/8; Last was at 22 not 16": "r", "1A: f22 1/8; Last bus was at 16 not 22": "r",
		"1A: f22 1/8; blast, 1/15 that was": "u", "1A: f22 1/8; damn, 3 swans that was": "r", "1A: f22 1/8; was on 15th not 8th": "u", "1A: f22 1/8; was on 8th not 15th": "r", "1A: f22 1/8; the fair was on the 15th not the 8th": "r",
		"1A: f22 1/8; 1B: f22 1/8; 2A: f22 1/8; The two above at f16": "ruu", "1A: f22 1/8; 1B: f22 1/8; The one before that was f16": "ur", "1A: f22 1/8; 1B: f22 1/8; Last but one was on f16": "ur", "1A: f22 1/8; 1B: f22 1/8; The one before that was better": "rr", "1A: f22 1/8; 1B: f22 1/8; The two above the gate are swans": "rr",
		"1A: f22 1/8; 1B: f22 1/8; The reading was 10 actually": "uu", "1A: f22 1/8; meter: EV 13; 1B: f22 1/15; meter was on 10 not 13": "ru", "1A: f22 1/8; Reading was 12 not 11": "r", "1A: f22 1/8; reading should have been 10": "u", "1A: f22 1/8; The reading room was shut, 10 waited": "r",
		"1A: f22 1/8, once more the same on top": "u", "1A: f22 1/8; 1B: again the same": "rr",
	} {
		got, list := wordsStates("scene: a; meter: EV 12; " + notes)
		states := ""
		for _, state := range got {
			states += string(state)[:1]
		}
		if states != want {
			t.Errorf("%s: %v; %v", notes, got, list)
		}
	}
}
