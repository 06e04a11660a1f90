package compile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// What people write for one thing, in the many ways they do (common practice, no
// source); what it comes to follows from EV = log₂(N²/t) (ISO 2720), and from the
// definitions of a factor, log₂ of it in stops, and of the bellows, 2 log₂ of the
// extension over the focal length.

const wordingKit = "film stone: ISO 100, EI 100\nlens 210: 210 mm, f5.6-f64\nday: 2026-11-02\nfilm: stone\nlens: 210\n"

// Every one of these says that the scene has EV 12 behind a meter at the film's index.
func TestReadingsAsTheyAreWritten(t *testing.T) {
	for _, meter := range strings.Split(`EV 12|1/60 f8|f8 1/60|1/60 at f8|1/60 @ f/8|f/8 @ 1/60|12|EV12|LV 12|EV 12 at ISO 100|EV 12 @ 100|EV 12 (ISO 100)|`+
		`1/60 f8 at ISO 100|ISO 100, 1/60 f8|incident EV 12|incident 1/60 f8|spot 12|spot EV 12|grey card 1/60 f8|average EV 12|sky EV 14, ground EV 10, average|`+
		`average of 14 and 10|shadow EV 10 on III|shadows EV 10 on zone III|shadow EV 10 on zone 3|EV 10 placed on III|shadow EV 10 -> III|rock EV 10 III|rock 10 on III|`+
		`rock 10/III|rock 10 = III|shadow 10 on III, highlight 14|shadow 1/15 f8 on III|zone III EV 10|zone III at EV 10|Z3 EV 10|EV 10 on Z III|EV 10 z3|EV 10, zone III|`+
		`EV 10 (zone III)|EV 10 (III)|zone III EV 10, zone VII EV 14|1/15 f8 (III)|EV 14 on VII|EV 13½ on VI½|EV 11 on IV|1/60 f8 on V|about EV 12|60th f8|1/60, f8|`+
		`1/60 sec at f/8|f8 and 1/60|1/60 / f8|1/60 f8 (grey card)|EV 12 half in shade|EV 12, cloud over the hill|palm EV 13 on VI|my palm 13 on VI|range 9 to 15, 12 average|range 9-15, EV 12|EV twelve|EV ten on zone three|EV ten and a half on zone three and a half|rock EV ten on zone three, sky EV fourteen|EV 12 at ISO one hundred|1 / 60 f8|f8 at 1 / 60|EV 10 (sorry, EV 12)|EV 10 (sorry, 12)|EV 10 – no, EV 12|`+
		`1/15 f8 (sorry, 1/60 f8)|EV 12 – no 2 clouds alike|EV 12 (no, 10 would be the shade)|EV 12, 21 DIN`, "|") {
		season, list := compileText(wordingKit + "scene: wall\nmeter: " + meter + "\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State != record.Right || math.Abs(sh.Difference.Value) > 0.02 {
			t.Errorf("meter: %s: %s, %v\n%v", meter, sh.State, sh.Difference, list)
		}
	}
}

// What leaves a reading open accuses nobody: here the sheet has what the whole line asks
// for, which is not what half of it does.
func TestReadingsThatAreOpenAccuseNobody(t *testing.T) {
	for _, meter := range strings.Split("EV 10 minus 2 stops|EV 10 on V minus 2|EV 10, zone V, minus 2|EV 10, down 2|EV 10 on zone to|EV 10 zone too|EV 10 on a three|EV 10 zones three|EV 10 (-2)|sunny 16 minus 3|EV 13 at 200|9-15, average 12|darkest 9, brightest 15|III = EV 10|EV 12ish|60 f8|"+
		"zone III, EV 10|shadow zone III, EV 10|zone III EV 10 zone VII EV 14|shadow 10, III|EV 10, two zones down|EV 10, placed two below|EV 10, stopped down two|EV 10/14|EV 12, sunny 16|sunny 16, EV 12|"+
		"sunny 16, open shade|sunny 8|sunny 11|2 x 1/125 f8|III EV 10|III 10|III EV 10 VII EV 14|EV 10\nmeter: zone III", "|") {
		season, _ := compileText(wordingKit + "scene: wall\nmeter: " + meter + "\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("meter: %s: off by %v", meter, sh.Difference)
		}
		if season, _ = compileText(wordingKit + "scene: wall\nmeter: " + meter + "\n1A: 1/15 f8\n"); strings.HasPrefix(meter, "EV 10") && season.Sheets[0].State == record.Right {
			t.Errorf("meter: %s: right by half of it", meter)
		}
	}
}

// What a filter, the bellows or a setting is said to be, before the settings and behind
// them, with a comma and without.
func TestAmountsAsTheyAreWritten(t *testing.T) {
	drawn := 2 * math.Log2(300./210)
	for _, c := range []struct {
		stops float64
		said  string
	}{
		{1, "Y8 x2|Y8 (2x)|Y8 ×2|Y8 x 2|Y8 2x|Y8 +1|Y8 +1 stop|Y8 1 stop|Y8 (1 stop)|Y8 -1|Y8 factor 2|Y8 factor of 2|Y8 factor 2x|Y8 = 2x|Y8 = 1 stop|Y8 a stop|Y8 (+1)|Y8 [+1]|Y8, x2|Y8, factor 2|yellow 8 x2"},
		{1.5, "Y8 1 1/2 stops|Y8 1½ stops|Y8 1-1/2 stops|Y8 +1.5|Y8 one and a half stops"},
		{math.Log2(2.5), "Y8 x2½|Y8 x2.5|Y8 2½x"},
		{drawn, "ext 300mm|ext 30 cm|extension 300|bellows 30cm|bellows ext 300mm|bellows draw 300mm|draw 300mm|racked out to 300mm|ext.300mm|ext:300mm|ext300mm|Ausz.300mm|Auszug 300mm|bellows out to 300 mm|bellows scale 300|bellows scale at 300|300 on the rail|300 mm on the rail|standard at 300|pulled out to 300|ext about 300|drawn to 300 mm|bellows three hundred|bellows at three hundred|bellows out to 300 millimetres|bellows out to three hundred millimeters|bellows thirty centimetres|bellows is 30 centimetres|extension three hundred|standard pulled out to three hundred|rail at three hundred|extended to thirty centimetres|lens to film three hundred millimetres|30 centimetres of bellows"},
		{1, "bellows x2|bellows 2x|bellows factor 2|bellows factor x2|bellows +1|bellows 1 stop|extension factor 2"},
		{2 * math.Log2(297./210), "bellows two ninety seven|bellows two ninety seven millimetres"},
		{2 * math.Log2(1.5), "scale one to two|scale 1 to 2|1:2|mag 0.5|half life size"},
		{2 * math.Log2(5./3), "two thirds life size|2/3 life size"},
		{2 * math.Log2(2.5), "1.5:1"},
		{2 * math.Log2(304.8/210), "drawn to twelve inches|bellows twelve inches|bellows at twelve inches|ext 12ins|ext 12 ins|bellows to 12ins.|extended 12ins|bellows 12 ins."},
		{2 * math.Log2(16.5*25.4/210), "bellows sixteen and a half inches|bellows 16 1 / 2 inches"},
		{2, "1:1|life size|life-size|lifesize|at life size|bellows factor four|life size on the ground glass|life size on the film"},
	} {
		for said := range strings.SplitSeq(c.said, "|") {
			for _, form := range []string{"%s, 1/60 f8", "1/60 f8, %s", "%s 1/60 f8", "1/60 f8 %s"} {
				line := fmt.Sprintf(form, said)
				season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + line + "\n")
				if sh := season.Sheets[0]; !sh.Difference.Known || math.Abs(sh.Difference.Value+c.stops) > 0.02 {
					t.Errorf("%s: %s, %v, want %.2f under\n%v", line, sh.State, sh.Difference, c.stops, list)
				}
			}
		}
	}
	for _, subject := range []string{"life-size bronze of a heron", "the larger than life statue", "half an hour's walk", "lighting ratio 3:1", "contrast of 4:1", "standard lens", "half plate"} { // words
		season, _ := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: 1/60 f8, " + subject + "\n")
		if sh := season.Sheets[0]; sh.State != record.Right {
			t.Errorf("%s: %s, %v", subject, sh.State, sh.Difference)
		}
	}
	for said, stops := range map[string]float64{
		"1/8 f22 1/3": -1. / 3, "1/8, f16 2/3": 1. / 3, "1/8 f22 + 1/3": -1. / 3, "1/8 f22 and a third": -1. / 3, "1/8 between f16 and f22": 0.5, "1/8 f16-22": 0.5, "1/8 f16½": 0.5,
	} {
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + "\n")
		if sh := season.Sheets[0]; !sh.Difference.Known || math.Abs(sh.Difference.Value-stops) > 0.02 {
			t.Errorf("%s: %v, want %.2f\n%v", said, sh.Difference, stops, list)
		}
	}
}

// Times as they are dictated: at f/8 in EV 12 each of these is off by what it says, or is asked about, and none is another's.
func TestTimesAsTheyAreDictated(t *testing.T) {
	const kit = "film slow: ISO 100, reciprocity t^1.2 over 1s\n" + wordingKit + "film: slow\nscene: wall\nmeter: EV 12\n1A: 1/60 f8\n"
	for said, seconds := range map[string]float64{
		"f8 a 30th of a second": 1. / 30, "f8 one 30th": 1. / 30, "f8 one thirtieth": 1. / 30, "f8 an 8th of a second": 1. / 8, "a sixtieth of a second at f8": 1. / 60,
		"f8 three tenths of a second": 0.3, "f8 3 tenths of a second": 0.3, "f8 two fifths of a second": 0.4, "f8 a fifth of a second": 0.2, "f8 one fourth": 0.25, "f8 one quarter": 0.25, "a half at f8": 0.5,
		"f8 one over fifteen of a second": 1. / 15, "f8 one over one twenty five": 1. / 125, "f8 one sixteenth": 1. / 16, "f8 a hundred and twenty fifth": 1. / 125, "f8 one five hundredth of a second": 1. / 500,
		"f8 one full second": 1, "f8 a full second": 1, "f8 thirtieth of a second": 1. / 30, "f8 one fifteenth in the wind": 1. / 15, "f8 1/60 in fog": 1. / 60, "f8 1/8 in full sun": 1. / 8, "f8 1/8 in minus one": 1. / 8, "f8 1/8, 1/2 in rise": 1. / 8, "f8 1 / 15": 1. / 15, "f8 at 1 / 15 of a second": 1. / 15, "f8 and 1 / 8, clouds are coming": 1. / 8, "1 / 30 f8": 1. / 30, "f8 1 1 / 2 seconds": 1.5, "same but at a quarter": 0.25, "same but one thirtieth": 1. / 30,
	} {
		season, list := compileText(kit + "1B: " + said + "\n")
		if sh, want := season.Sheets[1], math.Log2(60*seconds); !sh.Difference.Known || math.Abs(sh.Difference.Value-want) > 0.12 {
			t.Errorf("1B: %s: %s, %v, want %.2f\n%v", said, sh.State, sh.Difference, want, list)
		}
	}
	for said, names := range map[string]string{
		"f8 one twenty fifth of a second": "one twenty fifth of a second", "f8 one fifteen": "one fifteen", "f8 fifteen": "fifteen", "f8, a fifteen": "a fifteen", "one thirty f8": "one thirty", "f8 one": "one",
		"f8 to and a half seconds": "to and a half seconds", "f8 for tenths of a second": "of a second", "f8 for tenths": "tenths", "half a second at f four five": "four five", "f six team one fifteenth": "f six team", "fate one sixtieth": "fate", "sixteen one fifteenth": "sixteen", "one fifteenth, sixteen": "sixteen",
		"f8 1s became one and a half": "became one and a half", "f8 8s fifteen with reciprocity": "fifteen with reciprocity", "f8 8s, corrected fifteen": "corrected fifteen", "f8 15s, gave eight": "gave eight",
	} {
		season, list := compileText(kit + "1B: " + said + "\n")
		if sh := season.Sheets[1]; sh.State != record.Unchecked || len(sh.Needs) == 0 || !strings.Contains(sh.Needs[0], names) {
			t.Errorf("1B: %s: %s, %q, want %q\n%v", said, sh.State, sh.Needs, names, list)
		}
	}
	// So in German and French.
	for said, seconds := range map[string]float64{
		"f8 zwei Sekunden": 2, "f8 deux secondes": 2, "f8, eine halbe Sekunde": 0.5, "f8 une demi-seconde": 0.5, "f8, halbe Sekunde": 0.5, "f8 eine Sekunde": 1, "f8 une seconde": 1, "f8 sechzehn Sekunden": 16, "f8 fünfundzwanzig Sekunden": 25, "f8 vingt-cinq secondes": 25,
		"f8 eine Viertelsekunde": 0.25, "f8, un quart de seconde": 0.25, "f8, ein Achtel": 1. / 8, "f8 un huitième": 1. / 8, "f8 ein Dreißigstel": 1. / 30, "f8, ein Hundertfünfundzwanzigstel": 1. / 125, "cent-vingt-cinquième à f8": 1. / 125, "un soixantième à f8": 1. / 60,
		"f8 anderthalb Sekunden": 1.5, "f8 une seconde et demie": 1.5, "f8 zwei Minuten dreißig": 150, "f8 eine Minute": 60, "Blende acht, ein Sechzigstel": 1. / 60, "1/30 Blende acht": 1. / 30, "1/2 Blende 8": 0.5,
	} {
		season, list := compileText(kit + "1B: " + said + "\n")
		if sh, want := season.Sheets[1], math.Log2(60*seconds); sh.Given.Aperture != "f/8" || !sh.Difference.Known || seconds <= 1 && math.Abs(sh.Difference.Value-want) > 0.12 {
			t.Errorf("1B: %s: %s, %v, want %.2f\n%v", said, sh.State, sh.Difference, want, list)
		}
	}
	for said := range strings.SplitSeq("soixante-dix secondes|zehn|quelques secondes|1/60, zwei Blenden kürzer|1/60, eine Blende mehr|1/60, zwei Stufen weniger|1/60, 2 Blenden mehr|1/60, deux diaphs de moins", "|") {
		if season, list := compileText(kit + "1B: f8, " + said + "\n"); season.Sheets[1].State != record.Unchecked {
			t.Errorf("1B: f8, %s: %s, %v", said, season.Sheets[1].State, list)
		}
	}
	for said := range strings.SplitSeq("drei Kühe|elf Schafe, zwei Hunde|Haus zehn|um halb elf|um zehn Uhr|quai onze|Pont Neuf|die vier Türme|zwei Stufen zum Tor|3 Stufen zum Tor|zwei Minuten später Regen|drei Viertel im Schatten|un quart de lune|Viertel nach drei|un pont|ein Boot", "|") {
		if season, list := compileText(kit + "1B: 1/60 f8, " + said + "\n"); season.Sheets[1].State != record.Right {
			t.Errorf("1B: 1/60 f8, %s: %s, %v", said, season.Sheets[1].State, list)
		}
	}
	// What counts things is no time, and the time of the sheet before stays; one that was corrected was given.
	for line, want := range map[string]string{
		"f8 three cows on the left": "1/60", "f8, two swans": "1/60", "f8 half the bridge in shade": "1/60", "f8, third try": "1/60", "f8, one of the best": "1/60",
		"f8 32s corrected to one minute four": "1m 4s", "f8 32s so with reciprocity one minute four": "1m 4s", "f8 32s after reciprocity one minute four seconds": "1m 4s",
		"f8 32 seconds became one minute four": "1m 4s", "f8 sixty four seconds including reciprocity": "1m 4s",
		"f8 two point five seconds": "2.5 s", "f8 two seconds and a half": "2.5 s", "f8 1 minute thirty four": "1m 34s",
	} {
		season, list := compileText(kit + "1B: " + line + "\n")
		if sh := season.Sheets[1]; sh.Given.Time != want {
			t.Errorf("1B: %s: %s, %v, want %v\n%v", line, sh.State, sh.Given.Time, want, list)
		}
	}
}

// A time that was metered is a reading, or the writer's own sum from that of the scene, filter and all: nobody is off by the
// one who is right by the other.
func TestMeteredTimesBesideReadings(t *testing.T) {
	const kit = "film slow: ISO 100, reciprocity t^1.2 over 1s\nfilter R25: red, x8\n" + wordingKit + "film: slow\nscene: wall\nmeter: EV 5\n1A: 16s f22\n"
	for said, state := range map[string]record.State{
		"R25 f22, 128s metered, gave 338s": record.Unchecked, "R25 f22, metered 128s, gave 338s": record.Unchecked, "R25 f22, 128 seconds metered, gave 338 seconds": record.Unchecked,
		"R25 f22 128s -> 338s": record.Right, "R25 f22 128s so with reciprocity 338s": record.Right, "R25 f22, 128s metered, gave 60s": record.Off, "f22, metered 16s, gave 28s": record.Right,
	} {
		season, list := compileText(kit + "1B: " + said + "\n")
		if sh := season.Sheets[1]; sh.State != state {
			t.Errorf("1B: %s: %s, %v\n%v", said, sh.State, sh.Difference, list)
		}
	}
}

// How a sheet is to be developed in words, which the list for the darkroom must not lose.
func TestDevelopmentsAsTheyAreDictated(t *testing.T) {
	for said, want := range map[string]string{
		"N minus one": "N−1", "normal minus one": "N−1", "minus one development": "N−1", "development minus one": "N−1", "plus one development": "N+1", "normal plus one and a half": "N+1½", "normal -1": "N−1",
		"end minus one": "", "and minus one": "", "minus one": "", "push one": "", "pull one": "", "plus two": "",
		"normal contrast": "N", "pulled one holder from the bag": "N", "minus ten degrees": "N", "push the gate": "N", "three minus one is two": "N",
	} {
		for _, form := range []string{"1/60 f8, %s", "%s, 1/60 f8"} {
			season, list := compileText(wordingKit + "develop: N\nscene: wall\nmeter: EV 12\n1A: " + fmt.Sprintf(form, said) + "\n")
			if sh := season.Sheets[0]; sh.Development != want || sh.State != record.Right || (want == "") != (len(list) == 1 && list[0].Code == "nearly-a-term") {
				t.Errorf("%s: %q, %s, %v", said, sh.Development, sh.State, list)
			}
		}
	}
}

// A film's index in the ways it is written on its line; where a number may be the index and
// may not, the sheet is not taken to be at the box speed.
func TestIndicesAsTheyAreWritten(t *testing.T) {
	const rest = "\nlens 210: 210 mm\nmeter spot: EV at 100\nday: 2026-11-02\nload 1A: %s\nscene: wall\nlens: 210\nmeter: EV 12\n1A: 1/60 f8\n"
	check := func(film, load string) *record.Sheet {
		season, _ := compileText(film + fmt.Sprintf(rest, load))
		return season.Sheets[0]
	}
	for _, said := range strings.Split("ISO 100, EI 50|ISO 100, EI50|ISO100 EI50|ISO 100, EI: 50|ISO 100 EI = 50|ISO 100 (EI 50)|E.I. 50|ISO 100, exposure index 50|ISO 100 rated 50|"+
		"ISO 100, rated at 50|ISO 100, rated at EI 50|ISO 100 shot at 50|ISO 100, I rate it at EI 50|ISO 100/21°, EI 50|100ASA, EI 50|iso 50|ISO one hundred, EI fifty", "|") {
		if sh := check("film stone: "+said, "stone"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
			t.Errorf("film stone: %s: %s, %v, want a stop under", said, sh.State, sh.Difference)
		}
	}
	for _, said := range strings.Split("stone, EI 50|stone EI 50|stone at 50|stone @ 50|stone @50|stone at 50 -- new box|stone, EI50|stone rated 50|stone rated at 50|stone shot at 50|stone shot at EI 50|stone at EI 50|stone (EI 50)|stone EI50|stone E.I. 50|stone, EI fifty", "|") {
		if sh := check("film stone: ISO 100", said); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
			t.Errorf("load 1A: %s: %s, %v, want a stop under", said, sh.State, sh.Difference)
		}
	}
	// Speeds as boxes and old notes have them: S° = 1 + 10 lg S (ISO 6:1993), in tenths until 1957 (DIN 4512).
	for said := range strings.SplitSeq("50 ASA|50 ISO|ASA 50|(50 ASA)|at 50 ASA|18 DIN|18° DIN|DIN 18|18/10 DIN|18/10° DIN|DIN 18/10|ISO 50/18°|50/18°|50 ASA/18 DIN|50 ASA / 18° DIN|ASA 50/18 DIN|100 ASA, EI 50|21/10 DIN, EI 50|100 ASA, 50 EI", "|") {
		if sh := check("film stone: "+said, "stone"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
			t.Errorf("film stone: %s: %s, %v, want a stop under", said, sh.State, sh.Difference)
		}
	}
	for said := range strings.SplitSeq("23° Sch.|23 Sch|Scheiner 23|23/10° Scheiner|400 H&D|H. & D. 400|8/10 DIN|ISO 100/18°|100 ASA/18 DIN", "|") {
		if sh := check("film stone: "+said, "stone"); sh.State != record.Unchecked {
			t.Errorf("film stone: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	// Beside a box speed in degrees an index without a sign may be in degrees too (24° is ISO 200, ISO 5800:1987); a
	// number in brackets behind the box speed, and one that the film is said to be used at, may be its index.
	for said := range strings.SplitSeq("27 DIN, rated 24|27 DIN rated at 24|27/10 DIN, rated 24|400/27°, rated 24|27 DIN, EI 24|27 DIN, rated 25|27 DIN, I rate it 24|27 DIN, 24|27 DIN (24)|27 DIN, shot at 24|"+
		"400 ASA (200)|ISO 400 (200)|400 ASA [200]|400 ASA (200 for me)|400 ASA, 200 in practice|400 ASA, used at 200|ISO 400, actual speed 200|ISO 400 -- I shoot it at 200", "|") {
		if sh := check("film stone: "+said, "stone"); sh.State != record.Unchecked {
			t.Errorf("film stone: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for said := range strings.SplitSeq("21 DIN, rated at 18 DIN|21 DIN, rated 18°|21 DIN, EI 50|21 DIN, rated 50|100/21°, rated 50|50 ASA (18)|18 DIN (50)|50 ASA (25 sheets)|50 ASA (new box)|50 ASA (50)", "|") {
		if sh := check("film stone: "+said, "stone"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
			t.Errorf("film stone: %s: %s, %v, want a stop under", said, sh.State, sh.Difference)
		}
	}
	for said := range strings.SplitSeq("stone, rated 18|stone rated at 18|stone, 18|stone (18)|stone, EI 18", "|") {
		if sh := check("film stone: 21 DIN", said); sh.State != record.Unchecked {
			t.Errorf("load 1A: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	// A speed behind the film's name that is none of the film's may be its index.
	for said := range strings.SplitSeq("stone, ISO 50|stone 50 ASA|stone, 50 ASA|stone (50 ASA)|stone 18/10 DIN|stone, 28° Sch.", "|") {
		if sh := check("film stone: ISO 100", said); sh.State != record.Unchecked {
			t.Errorf("load 1A: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for _, said := range []string{"stone, ISO 100", "stone 100 ASA", "stone, 21 DIN", "stone, new box of 50", "stone, 25 sheets ISO 100", "stone -- the last was rated 50 ASA"} {
		if sh := check("film stone: ISO 100", said); sh.State != record.Right {
			t.Errorf("load 1A: %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	// A log word in another language is reported, and what it would have chosen is open; a filter's number may have its sign.
	for lines, want := range map[string]record.State{
		"lens 300: 300 mm\nscene: wall\nObjektiv: 300": record.Unchecked, "lens 300: 300 mm\nscene: wall\nobjectif: 300": record.Unchecked, "scene: wall\nObjektiv: muss gereinigt werden": record.Right,
		"filter Y8: x2\nscene: wall\nfilter: Nr. 8": record.Off, "filter Y8: x2\nscene: wall\nfilter: no 8": record.Unchecked,
	} {
		season, list := compileText(wordingKit + lines + "\nmeter: EV 12\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s, %v", lines, sh.State, list)
		}
	}
	// Words in brackets behind a name are not of it; an index among them is asked about.
	for said, want := range map[string]record.State{"stone [old box]": record.Right, "stone (in the bag)": record.Right, "stone [EI 50]": record.Unchecked, "stone (50?)": record.Unchecked, "stone, at 50": record.Unchecked, "stone [ash?]": record.Unchecked} {
		const kit = "film stone: ISO 100\nfilm ash: ISO 25"
		season, _ := compileText(kit + strings.Replace(fmt.Sprintf(rest, "stone"), "load 1A:", "film:", 1) + "film: " + said + "\n1B: 1/60 f8\n")
		if a, b := check(kit, said), season.Sheets[1]; a.State != want || b.State != want || want == record.Right && (a.Film != "stone" || b.Film != "stone") {
			t.Errorf("%s: loaded %s, %s, in use %s, %s", said, a.Film, a.State, b.Film, b.State)
		}
	}
	for said, want := range map[string]record.State{"210 [the old one]": record.Right, "210 (with Y8)": record.Unchecked, "210 [ext 300]": record.Unchecked} {
		season, _ := compileText(wordingKit + "filter Y8: x2\nscene: wall\nlens: " + said + "\nmeter: EV 12\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State != want || sh.Lens != "210" {
			t.Errorf("lens: %s: %s, %s", said, sh.Lens, sh.State)
		}
	}
	if sh := check("film stone: ISO 100", "stone at 50 ASA"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
		t.Errorf("load 1A: stone at 50 ASA: %s, %v, want a stop under", sh.State, sh.Difference)
	}
	// What is loaded and not understood is no other film that is in use.
	season, _ := compileText(wordingKit + "load 1A: stone at 50 yards\nscene: wall\nmeter: EV 12 at EI 100\n1A: 1/30 f8\n1B: rated at EI 50, 1/30 f8\n")
	if a, b := season.Sheets[0], season.Sheets[1]; a.State != record.Unchecked || b.State != record.Right {
		t.Errorf("loaded at 50 yards: %s; rated at EI 50 on its line: %s, %v", a.State, b.State, b.Difference)
	}
	for _, said := range []string{"stone, at 50", "stone, one stop over", "stone, 50", "stone, EI 64?"} {
		if sh := check("film stone: ISO 100", said); sh.State == record.Off {
			t.Errorf("load 1A: %s: off by %v", said, sh.Difference)
		}
		season, _ := compileText(wordingKit + "film: " + said + "\nscene: wall\nmeter: EV 12 at EI 100\n1A: 1/30 f8\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("film: %s: off by %v", said, sh.Difference)
		}
	}
	for _, said := range []string{"ISO 100, speed 50", "ISO 100, -1", "100 at 50", "ISO 100, shot at 12", "ISO 100, EI 50/64", "ISO 100/50"} {
		if sh := check("film stone: "+said, "stone"); sh.State != record.Unchecked {
			t.Errorf("film stone: %s: %s", said, sh.State)
		}
	}
	for _, said := range []string{"box of 25 sheets", "shot 50 sheets", "exposed 12 sheets", "shot at 7 in the morning", "rated 5 stars", "emulsion 32", "EI 50 in tungsten", "rated 50 by tungsten", "N EI 100, N-1 EI 50"} {
		if sh := check("film stone: ISO 100, "+said, "stone"); sh.State != record.Right {
			t.Errorf("film stone: ISO 100, %s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	if sh := check("film stone: ISO 200, N EI 50", "stone"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
		t.Errorf("with an index for N alone: %s, %v", sh.State, sh.Difference)
	}
}

// A speed on a sheet's line that is the film's and the meter's says nothing new; one that may be either's is
// asked about, and one that is no remark alone is never passed over.
func TestSpeedsOnSheets(t *testing.T) {
	for state, lines := range map[record.State]string{
		record.Right: "1/60 f8, 100 ASA|1/60 f8 ISO 100|1/60 f8, 21/10° DIN|1/30 f8, rated at 50 ASA|1/30 f8, exposed at 18 DIN|1/30 f8, 50 EI|1/30 f8, stone at 50 ASA|" +
			"metered 1/125 f8 at 200 ASA, gave 1/60 f8|metered 1/125 f8 (24 DIN), gave 1/60 f8|metered 1/125 f8 24/10 DIN, gave 1/60 f8",
		record.Unchecked: "1/60 f8, 125 ASA|1/60 f8, ISO 125/22°|1/60 f8, 22/10 DIN|1/60 f8, 28° Sch.|1/60 f8, Scheiner 28|1/60 f8, 250 H&D|1/30 f8, film at 50 ASA|1/30 f8 (50 ASA)|1/30 f8 (EI 50)|1/30 f8 (18/10 DIN)",
	} {
		for said := range strings.SplitSeq(lines, "|") {
			for _, line := range []string{said, "same, " + said} {
				season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12 at EI 100\n1A: 1/60 f8\n1B: " + line + "\n")
				if sh := season.Sheets[1]; sh.State != state {
					t.Errorf("1B: %s: %s, %v, want %s\n%v", line, sh.State, sh.Difference, state, list)
				}
			}
		}
	}
	// A meter that shows light values at ISO 100 shows them there whatever stands beside: the speed may be the film's.
	season, _ := compileText("film stone: ISO 50\nmeter spot: EV at 100\nday: 2026-11-02\nmeter: EV 13, 18 DIN\n1A: 1/60 f8\n1B: 1/125 f8\n1C: 1/250 f8\n")
	for i, want := range []record.State{record.Unchecked, record.Right, record.Off} {
		if sh := season.Sheets[i]; sh.State != want {
			t.Errorf("EV 13, 18 DIN: %s is %s, want %s", sh.Label, sh.State, want)
		}
	}
}

// What a filter costs in the ways it is declared; of two amounts that nothing tells apart
// neither blames.
func TestCostsAsTheyAreDeclared(t *testing.T) {
	check := func(said, light string) *record.Sheet {
		season, _ := compileText("filter Z: " + said + "\n" + wordingKit + "scene: wall\nlight: " + light + "\nmeter: EV 12\n1A: Z, 1/60 f8\n")
		return season.Sheets[0]
	}
	for said := range strings.SplitSeq("x4|4x|×4|x 4|2 stops|two stops|+2|-2|factor 4|factor of 4|red, x4|orange 21, x4|x4 (2 stops)|2 stops (x4)|x4 = 2 stops|nd 0.6|ND 0.6|density 0.6|"+
		"x4, tungsten x2|daylight x4, tungsten x2|x4 daylight, x2 tungsten|tungsten x2, daylight x4|x2 tungsten, x4 daylight", "|") {
		if sh := check(said, "sun"); !sh.Difference.Known || math.Abs(sh.Difference.Value+2) > 0.02 {
			t.Errorf("filter Z: %s: %s, %v, want 2 stops under", said, sh.State, sh.Difference)
		}
	}
	for _, said := range []string{"x4 daylight, x2 tungsten", "x4, tungsten x2", "x4, x2 tungsten"} {
		if sh := check(said, "tungsten"); !sh.Difference.Known || math.Abs(sh.Difference.Value+1) > 0.02 {
			t.Errorf("filter Z: %s: %s, %v, want a stop under by tungsten", said, sh.State, sh.Difference)
		}
	}
	for _, said := range []string{"x4 in daylight, x2 in tungsten", "x4 for daylight, x2 for tungsten"} {
		if sh := check(said, "sun"); !sh.Difference.Known || math.Abs(sh.Difference.Value+2) > 0.02 {
			t.Errorf("filter Z: %s: %s, %v, want 2 stops under", said, sh.State, sh.Difference)
		}
	}
	// Here the sheet has what the other reading of the line asks for.
	for said, settings := range map[string]string{"x4 or x8": "1/8 f8", "x4 to x8": "1/8 f8", "2-3 stops": "1/15 f8", "x4 daylight x2 tungsten": "1/15 f8", "x8?": "1/15 f8", "x4 = 3 stops": "1/8 f8", "x8 no x4": "1/15 f8"} {
		season, list := compileText("filter Z: " + said + "\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: Z, " + settings + "\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("filter Z: %s: off by %v\n%v", said, sh.Difference, list)
		}
	}
	season, list := compileText("filter Z: x4, x2\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: Z, 1/30 f8\n1B: Z, 1/15 f8\n")
	if season.Sheets[0].State == record.Off || season.Sheets[1].State == record.Off || len(list) == 0 || list[0].Code != "two-settings" {
		t.Errorf("%s, %s, %v", season.Sheets[0].State, season.Sheets[1].State, list)
	}
}

// Who says in words of their own that a stop more was meant has made no mistake, and
// whether all of it was meant is not known; who owns to a slip, or speaks of less than
// there is, is told.
func TestMoreOnPurpose(t *testing.T) {
	for _, c := range []struct {
		settings, said string
		state          record.State
	}{
		{"1/30 f8", "plus one|bracket|bracketed|bracket over|on purpose|to be safe|insurance|gave one extra stop|opened up for the shadows|-- a stop more on purpose|-- one stop more for the shadows|-- one stop more for the shadows, no wind|-- a stop over for the shadows|-- overexposed a stop for the shadows|(+1)|+1 for the shadows", record.Unchecked},
		{"1/30 f8", "-- oops, one stop over|-- gave a stop more by mistake|-- should have been a stop less|birch in the gap|" +
			"-- bus stop over the bridge|-- pulled one holder from the bag|-- sun half above the ridge|-- a third up the hill|-- on the safe side of the fence|-- wall bracket in the corner|-- no bracket|-- not on purpose|-- plus one heron|-- a generous gift|-- overexposed!|-- one stop over, my fault", record.Off},
		{"1/8 f8", "-- one stop more for the shadows|-- to be safe", record.Off},
		{"1/125 f8", "-- a stop less on purpose|-- underexposed a stop, to push it|push one|-- to be pushed a stop|-- pushed in development", record.Unchecked},
		{"1/125 f8", "-- one stop more for the shadows|-- to be safe", record.Off},
		{"1/60 f8", "to be safe|bracket|on purpose", record.Right},
	} {
		for said := range strings.SplitSeq(c.said, "|") {
			sep := ", "
			if said[0] == '-' {
				sep = " "
			}
			season, _ := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + c.settings + sep + said + "\n")
			if sh := season.Sheets[0]; sh.State != c.state {
				t.Errorf("%s%s%s: %s, %v", c.settings, sep, said, sh.State, sh.Difference)
			}
		}
	}
}

// A lens is known by its name alone, with its unit or without, where the settings stand
// beside it; what makes more of a time without saying how leaves it open.
func TestLensByItsName(t *testing.T) {
	for _, said := range []string{"210, 1/60 f8", "210mm, 1/60 f8", "210 mm 1/60 f8", "with the 210, 1/60 f8", "1/60 f8 on the 210",
		"two ten lens, 1/60 f8", "Two ten, 1/60 f8", "with the two ten, 1/60 f8", "1/60 f8 on the two ten", "lens two ten, 1/60 f8"} {
		season, list := compileText("lens 300: 300 mm\n" + wordingKit + "lens: 300\nscene: wall\nmeter: EV 12\n1A: " + said + ", ext 210mm\n")
		if sh := season.Sheets[0]; sh.State != record.Right || sh.Lens != "210" {
			t.Errorf("%s: %s, %v, %v\n%v", said, sh.State, sh.Lens, sh.Difference, list)
		}
	}
	for line, name := range map[string]string{"lens: three hundred\n": "300", "lens: the three hundred\n": "300", "lens: 210\n": "210"} {
		season, list := compileText("lens 300: 300 mm\n" + wordingKit + line + "scene: wall\nmeter: EV 12\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.Lens != name || len(list) > 0 {
			t.Errorf("%s: %s, %v", line, sh.Lens, list)
		}
	}
	for _, said := range []string{"one fifty lens, 1/60 f8", "lens one fifty, 1/60 f8"} { // the kit has none
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.Lens == "150" || len(list) == 0 {
			t.Errorf("%s: %s, %v", said, sh.Lens, list)
		}
	}
	for _, said := range []string{"wide lens, 1/30 f8", "with the short lens 1/30 f8", "1/30 f8, the wide-angle"} { // which of the kit is meant is asked
		season, _ := compileText("lens 150: 150 mm\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + ", bellows 210 mm\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked {
			t.Errorf("%s: %s, %v", said, sh.State, sh.Difference)
		}
	}
	for _, said := range []string{"14in lens, 1/60 f8", "1/60 f8, 14 inch lens", "the 14 inch, 1/60 f8", "14\" lens, 1/60 f8", "14\" lens 1/60 f8", "lens 14 in, 1/60 f8", "14in, 1/60 f8", "355mm lens, 1/60 f8"} {
		season, list := compileText("lens 14in: 14in\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + ", ext 14in\n")
		if sh := season.Sheets[0]; sh.State != record.Right || sh.Lens != "14in" || len(list) > 0 {
			t.Errorf("%s: %s, %v, %v\n%v", said, sh.State, sh.Lens, sh.Difference, list)
		}
	}
	for _, said := range []string{"12in lens, 1/60 f8", "the 14 inch pipe, 1/60 f8", "1/60 f8, 14in ext", "14\", 1/60 f8", "1/60 f8, lens 300 in shade"} {
		season, _ := compileText("lens 14in: 14in\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.Lens == "14in" {
			t.Errorf("%s: taken for the lens of 14 in", said)
		}
	}
	for _, said := range []string{"schnuck 210 mm, 1/60 f8", "1/60 f8, schnuck 210", "1/60 f8 from 210 mm away", "1/60 f8, soffietto 210mm", "1/60 f8, rail at 210 mm", "1/60 f8 back out 210 mm", "1/60 f8, 210 crates"} {
		season, _ := compileText("lens 300: 300 mm\n" + wordingKit + "lens: 300\nscene: wall\nmeter: EV 12\n1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.Lens == "210" || sh.State == record.Off {
			t.Errorf("%s: %s, %s", said, sh.Lens, sh.State)
		}
	}
	for _, said := range []string{"1/120 f8 twice", "1/120 f8, doubled", "two exposures of 1/120, f8"} {
		season, _ := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.State == record.Off {
			t.Errorf("%s: %v", said, sh.Difference)
		}
	}
}

// Prose behind the settings, commas and all, asks for nothing: a right sheet stays right,
// one that is off stays off, and where a figure or a filter in it may be one of the sheet's
// neither is said.
func TestProseBesideSettings(t *testing.T) {
	state := func(settings, remark string) record.State {
		season, _ := compileText("filter Y8: yellow, x2\nfilter R25: red, x8\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: " + settings + ", " + remark + "\n")
		return season.Sheets[0].State
	}
	for remark := range strings.SplitSeq("wind dropped at last|clouds from the west, 3 layers|three swans on the left|tripod legs at 3rd notch|camera 1.2 m above the ground|standing on the bank 2m below the road|"+
		"from the 2nd gate|gate 4|temperature 4C|minus 2 and windy|cold hands, 2 gloves|focused on the third post|focus on hinge at 2m|front tilt 5 degrees|rear swing 2, front rise 15|dark slide pulled 1/3 too early, pushed back|"+
		"recocked shutter|sun behind me|three cows on the left|wait a second there was a bird|just a second before the bird|two minutes after the rain|waited ten minutes for the cloud|at half past four|at ten past three|third try|second try|five minutes walk from the car|"+
		"a quarter of the frame is sky|one third from the left|half the bridge|with twenty two degrees tilt|on the tripod by the second gate|the fifteenth of May|f22 would have been better|should have used f32|wanted f16 but wind|1/30 would blur the grass|see 3A|compare with 2B|"+
		"same spot as last year|back at 16:40|sunset 16:02|6 sheets left|last sheet of box 12|3 people watching|bus 36 passed|2 miles from the car|frame 2/3 full|upper 1/3 sky|1/3 sky 2/3 land|"+
		"half in shade|N side of the church|normal contrast|no wind|no filter needed|yellow leaves|yellow door|red brick|green moss|blue hour|orange lichen on stone|deep shadow under eaves|light mist over water|"+
		"flat light|side light|ND in the other bag|print at grade 3|8x10 print wanted|16x20 print|4x5 holder stiff|EV 12 on the wall as well|metered the wall|highlights fall on VII|range 5 stops|contrast 1:8|"+
		"stopped down after focusing|focus wide open|viewed at f5.6|diffraction beyond f32|hyperfocal 12 m|near 3 m far infinity|dof from 2 to 8 m|for the exhibition|insurance copy", "|") {
		if got := state("1/60 f8", remark); got != record.Right && !strings.HasPrefix(remark, "dof") && !strings.HasPrefix(remark, "ND") {
			t.Errorf("1/60 f8, %s: %s", remark, got)
		}
	}
	for _, remark := range []string{"pol would kill the reflection", "pol left at home", "R25 in the other bag", "Y8 tried, not used", "thought of Y8", "reading steady for 5 min", "sky 2 stops brighter than the hill"} {
		if got := state("1/60 f8", remark); got == record.Off {
			t.Errorf("1/60 f8, %s: off", remark)
		}
	}
	for _, remark := range []string{"wind dropped at last", "three swans on the left", "camera on the bank", "no wind", "sunset behind the mill", "half in shade"} {
		if got := state("1/250 f8", remark); got != record.Off {
			t.Errorf("1/250 f8, %s: %s", remark, got)
		}
	}
	for _, remark := range []string{"1/60 would have been too slow", "red brick", "sky on VIII"} { // and may be the sheet's after all
		if got := state("1/250 f8", remark); got == record.Right {
			t.Errorf("1/250 f8, %s: right", remark)
		}
	}
	// What takes something back, or gives another setting, is no prose.
	for _, said := range []string{"rather 1/125", "gave 1/125", "actually 1/125", "now f11", "shutter 1/125", "meant f11", "wall 12"} {
		if _, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: 1/60 f8, " + said + "\n"); len(list) == 0 {
			t.Errorf("1/60 f8, %s: nothing is said", said)
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

// A filter line puts on, takes off or keeps what it says; one that says neither leaves open
// what is on, as a line does that speaks of a filter and is not read. A filter that was on
// is not carried on in silence.
func TestFilterLines(t *testing.T) {
	last := func(lines string) (*record.Sheet, int) {
		season, list := compileText("filter Y8: yellow, x2\nfilter R25: red, x8\nlens 90: 90 mm\n" + wordingKit + "scene: wall\nmeter: EV 12\n" + lines)
		return season.Sheets[len(season.Sheets)-1], len(list)
	}
	for _, on := range strings.Split("Y8|yellow|Y8 on|yellow 8|Wratten 8|#8|K2|Y8 (x2)|Y8, x2|Y8 x2|Y8 1 stop|the yellow|yellow filter", "|") {
		if sh, _ := last("filter: " + on + "\n1A: 1/30 f8\n"); sh.State != record.Right {
			t.Errorf("filter: %s: %s, %v", on, sh.State, sh.Difference)
		}
	}
	for _, off := range strings.Split("none|off|no|-|removed|without|bare|taken off|took it off again|off again|Y8 off|took off the Y8|no filter", "|") {
		if sh, _ := last("filter: Y8\n1A: 1/30 f8\nfilter: " + off + "\n1B: 1/60 f8\n"); sh.State != record.Right {
			t.Errorf("filter: Y8, then filter: %s: %s, %v", off, sh.State, sh.Difference)
		}
	}
	for _, kept := range []string{"same", "as before", "still Y8"} {
		if sh, _ := last("filter: Y8\n1A: 1/30 f8\nfilter: " + kept + "\n1B: 1/30 f8\n"); sh.State != record.Right {
			t.Errorf("filter: Y8, then filter: %s: %s, %v", kept, sh.State, sh.Difference)
		}
	}
	for _, settings := range []string{"+ R25, 1/8 f8", "+R25, 1/4 f8"} {
		if sh, _ := last("filter: Y8\nfilter: mauve\n1A: " + settings + "\n"); sh.State != record.Unchecked {
			t.Errorf("filter: mauve, then 1A: %s: %s", settings, sh.State)
		}
	}
	for _, other := range strings.Split("Y8 off, R25 on|R25, Y8 off|Y8 out and R25 in|changed from Y8 to R25|off, R25|R25 on, dark cloth off|R25 in, nothing else|R25 with no hood", "|") {
		if sh, _ := last("filter: Y8\n1A: 1/30 f8\nfilter: " + other + "\n1B: 1/8 f8\n"); sh.State != record.Right {
			t.Errorf("filter: Y8, then filter: %s: %s, %v", other, sh.State, sh.Difference)
		}
	}
	if sh, _ := last("filter: Y8, R25\n1A: 1/4 f8\n"); sh.State != record.Right {
		t.Errorf("filter: Y8, R25: %s, %v", sh.State, sh.Difference)
	}
	for _, once := range []string{"filter: Y8, yellow\n1A: 1/30 f8\n", "filter: yellow, Y8\n1A: 1/30 f8\n", "1A: Y8, yellow, 1/30 f8\n"} {
		if sh, _ := last(once); sh.State != record.Right {
			t.Errorf("%s: %s, %v", once, sh.State, sh.Difference)
		}
	}
	for _, kept := range []string{"no change", "nothing changed", "unchanged, nothing else"} {
		if sh, _ := last("filter: Y8\n1A: 1/30 f8\nfilter: " + kept + "\n1B: 1/30 f8\n"); sh.State != record.Right {
			t.Errorf("filter: Y8, then filter: %s: %s, %v", kept, sh.State, sh.Difference)
		}
	}
	for _, open := range strings.Split("not removed|forgot to remove|did not take it off|Y8?|none?|R25 instead of Y8|- Y8|taken care of|Y8, R25 later", "|") {
		for _, settings := range []string{"1/60", "1/30", "1/8"} {
			if sh, said := last("filter: Y8\n1A: 1/30 f8\nfilter: " + open + "\n1B: " + settings + " f8\n"); sh.State != record.Unchecked || said == 0 {
				t.Errorf("filter: Y8, then filter: %s, %s: %s, %d findings", open, settings, sh.State, said)
			}
		}
	}
	for _, kept := range []string{"same", "still on", "R25 off", "+ Y8"} {
		if sh, _ := last("filter: mauve\nfilter: " + kept + "\n1B: 1/60 f8\n"); sh.State != record.Unchecked {
			t.Errorf("filter: mauve, then filter: %s: %s", kept, sh.State)
		}
	}
	for _, open := range []string{"filter: mauve", "filter:", "no filter", "filter off", "R25 on", "using the R25", "Filter = R25"} {
		if sh, said := last("filter: Y8\n1A: 1/30 f8\n" + open + "\n1B: 1/60 f8\n"); sh.State != record.Unchecked || said == 0 {
			t.Errorf("filter: Y8, then %s: %s, %d findings", open, sh.State, said)
		}
	}
	for _, prose := range []string{"No filters of any kind for this one.", "The red filter case is lost.", "Filters", "The filters", "My filters", "Next, the filters", "With filters", "With and without filters", "Filters and no filters", "All filters:", "Walked on and thought about\nthe R25", "Yellow."} {
		if sh, said := last("filter: Y8\n1A: 1/30 f8\n\n" + prose + "\n\n1B: 1/30 f8\n"); sh.State != record.Right || said > 0 {
			t.Errorf("%s: %s, %d findings", prose, sh.State, said)
		}
	}
	for _, lens := range []string{"90", "90mm", "90 mm", "the 90", "90 f8", "90mm lens"} {
		if sh, said := last("lens: " + lens + "\n1A: 1/60 f8, ext 90mm\n"); sh.State != record.Right || sh.Lens != "90" || said > 0 {
			t.Errorf("lens: %s: %s, %s", lens, sh.State, sh.Lens)
		}
	}
	// A factor behind the comma is the filter's, whatever the kit says.
	for line, right := range map[string]string{"Y8, x4": "1/15 f8", "Y8 x4": "1/15 f8", "Y8, x4, R25": "1/2 f8", "Y8, x4, R25, x4": "1/4 f8", "Y8 off, R25, x4": "1/15 f8"} {
		if sh, said := last("filter: " + line + "\n1A: " + right + "\n"); sh.State != record.Right || said > 0 {
			t.Errorf("filter: %s: %s, %v, %d findings", line, sh.State, sh.Difference, said)
		}
	}
	// Behind two filters it may be of both: it is said once, and nobody is blamed or acquitted.
	for _, line := range []string{"Y8, R25, x16", "Y8 and R25, x16", "Y8 + R25, x16", "Y8, 2 stops"} {
		if sh, said := last("filter: " + line + "\n1A: 1/60 f8\n"); sh.State != record.Unchecked || said != 1 {
			t.Errorf("filter: %s: %s, %d findings", line, sh.State, said)
		}
	}
}

// A meter line without a reading that is understood takes the one before it away, unless it
// says that it still holds; so does a line that tells of a reading and is not read. The old
// reading is not carried on in silence.
func TestMeterLines(t *testing.T) {
	last := func(line, settings string) (*record.Sheet, int) {
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: 1/60 f8\n" + line + "\n1B: " + settings + "\n")
		return season.Sheets[1], len(list)
	}
	for _, now := range strings.Split("meter: 13|meter: EV 13 now|meter: EV ~~12~~ 13|meter: EV 13 (was 12)|meter: about EV 13|meter: 1/60 f8 no wait 1/125 f8|meter: EV 12½/13½ no wait EV 13", "|") {
		if sh, _ := last(now, "1/125 f8"); sh.State != record.Right {
			t.Errorf("%s: %s, %v", now, sh.State, sh.Difference)
		}
	}
	for _, still := range []string{"meter: same", "meter: as before", "meter: unchanged", "meter: still EV 12", "meter: steady", "meter: no change", "meter: same again", "meter: reading as above"} {
		if sh, _ := last(still, "1/60 f8"); sh.State != record.Right {
			t.Errorf("%s: %s, %v", still, sh.State, sh.Difference)
		}
	}
	for _, between := range []string{"EV 12/13", "EV 13/12"} { // halfway
		if sh, _ := last("meter: "+between, "1/90 f8"); sh.State != record.Right {
			t.Errorf("%s: %s, %v", between, sh.State, sh.Difference)
		}
	}
	for _, open := range strings.Split("meter: none|meter:|meter: EV 12 at 400 yards|meter: EV 10/15|meter: EV 15/10|meter: EV 12 at 50 paces|meter: EV 13 at 125 f8|meter: not the same|meter: no longer the same|meter: different from before|meter: read again before the rain|meter: battery still dead|meter: hazy\nmeter: same|meter: no|meter: forgot|meter: not taken|meter: dropped a stop|meter: down 1|meter: up 2|now EV 13|EV 13 now|EV 13|EV 13:|LW 13:|reading now 1/125 f8|meter now 1/125 f8|metered EV 13", "|") {
		if sh, said := last(open, "1/125 f8"); sh.State != record.Unchecked || said == 0 {
			t.Errorf("%s: %s, %v, %d findings", open, sh.State, sh.Difference, said)
		}
	}
	for _, prose := range []string{"The meter is in the car.", "It was EV 12 in my notes of last year, and\nEV 13 at noon.", "Waited for the light."} {
		if sh, _ := last("\n"+prose+"\n", "1/60 f8"); sh.State != record.Right {
			t.Errorf("%s: %s", prose, sh.State)
		}
	}
}

// A line that leaves out a setting has that of the sheet before. Where no slip explains what comes of it, it may have had
// its own, and nobody is blamed; where one does, a slip is told.
func TestASettingOfTheSheetBeforeBlamesForASlipAlone(t *testing.T) {
	for lines, want := range map[string]record.State{
		"1A: 1/60 f8\n1B: f8": record.Right, "1A: 1/60 f8\n1B: f5.6": record.Off, // the time was not changed with it
		"1A: 1/8 f13\n1B: f13": record.Unchecked, "1A: 1/8 f13\n1B: 1/8 f13": record.Off,
	} {
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12\n" + lines + "\n")
		if got := season.Sheets[len(season.Sheets)-1].State; got != want {
			t.Errorf("%s: %s, want %s; %v", lines, got, want, list)
		}
	}
}

// Marks of the Uniform System (Photographic Society of Great Britain, 1881: U.S. 16 is f/16, and each mark halves the
// light) with a sign of the aperture beside theirs, halves that are marks themselves, and zones behind a full stop.
func TestMarksAsOldLensesHaveThem(t *testing.T) {
	for line, stops := range map[string]float64{
		"EV 9, f32 US, 1s": 0, "EV 9, f/32 (US), 1s": 0, "EV 9, f32 U.S., 1s": 0, "EV 9, US f/32, 1s": 0, "EV 9, U.S. f32 1s": 0, "EV 9, US 32, 1s": 0, "EV 11, f32, 1/2": 0, "EV 11, f32 us, 1/2": 0,
		"EV 9, f12½, 1/4": math.Log2(16 * 16 / 12.5 / 12.5 / 2), "EV 9, f12+1/2, 1/4": math.Log2(16 * 16 / 12.5 / 12.5 / 2), "EV 9, f11½, 1/4": -0.5,
		"EV 7 z.3, f16 1/2": 0, "EV 7 Z.III, f16 1/2": 0, "EV 7 z. 3, f16 1/2": 0, "EV 7 zone.3, f16 1/2": 0, "EV 11 on z.VII, f16 1/2": 0,
	} {
		season, list := compileText(wordingKit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; !sh.Difference.Known || math.Abs(sh.Difference.Value-stops) > 0.05 {
			t.Errorf("%s: %s, %v, want %.2f; %v", line, sh.State, sh.Difference, stops, list)
		}
	}
}

// A factor behind the word filter is that of one which is not named, a ratio beside a development or in its column
// may be how the developer is thinned, and what is none of these is not read as them.
func TestFactorsAndRatiosThatAreOpen(t *testing.T) {
	for notes, want := range map[string]record.State{
		"1A: EV 9, Filter x8, f16 4s": record.Unchecked, "1A: EV 9, filter ×8, f16 1/2": record.Unchecked, "1A: EV 9, filter 8x, f16 1/2": record.Unchecked, "1A: EV 9, f16 1/2 filter x2": record.Unchecked,
		"filter X1: x4\n1A: EV 12, filter X1, f16 1/4":                        record.Right,
		"1A:  Gate  EV 9  1/2  f16  1:1  N":                                   record.Unchecked,
		"1A:  Gate  EV 9  1/2  f16  N\n1B:  Weir  EV 9  1/2  f16  1:1":        record.Unchecked,
		"1A:  Gate  EV 9  1/2  f16  N\n1B:  Weir  EV 9  1:1  1/2  f16":        record.Off,
		"1A:  Gate  EV 9  1/2  f16\n1B:  Weir  EV 9  1/2  f16  1:1":           record.Off,
		"1A:  Gate  EV 9  1/2  f16  N-1\n1B:  Weir  EV 9  1/2  f16   1:1   x": record.Unchecked,
	} {
		season, list := compileText(wordingKit + notes + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
			t.Errorf("%s: %s %v, %v, want %s; %v", notes, sh.State, sh.Difference, sh.Needs, want, list)
		}
	}
}

// What may as well be something else is not read as one of the two: where the sheet is right
// by the other, it is not off, and where only the first makes it right, it is not right.
func TestWhatMayBeSomethingElse(t *testing.T) {
	state := func(notes string) record.State {
		season, _ := compileText("filter Y8: yellow, x2\nfilter R25: red, x8\nfilter pol: x2\n" + wordingKit + "scene: wall\nmeter: EV 12\n" + strings.ReplaceAll(notes, "; ", "\n") + "\n")
		return season.Sheets[len(season.Sheets)-1].State
	}
	for notes := range strings.SplitSeq(`1A: 1/60 f8 2/3 sky|1A: 1/60 f8 1/3 of it sky|1A: 1/60 f8 + 2/3 sky|`+
		`1A: R25 and pol, x16, 1/4 f8|1A: R25, pol, x4, 1/15 f8|1A: Y8, 2x 1/60 f8|1A: Y8 factor 2 stops, 1/15 f8|1A: Y8 x2 stops, 1/30 f8|1A: Y8 2x stops, 1/15 f8|1A: Y8 x1/2, 1/30 f8|meter: 2 x 1/60 f8; 1A: 1/30 f8|`+
		`1A: metered 1/15 f8 (III), gave 1/60 f8|1A: 1/60 f8, zone III shadow|meter: sunny 11; 1A: 1/100 f11|1A: ?, 1/15 f8|1A: 1/60 f8, statue, life size|1A: 1/60 f8, half life size, the bronze horse|`+
		`1A: 1/60 f8, slope 1:4|1A: score 2:1, 1/60 f8|1A: 1/60 f8 - 11/2026|1A: 1/60 f8; 1B: same, f22 would have been better|1A: 1/60 f8; 1B: same, next one at 1/15|1A: red deer 1/60 f8|1A: yellow field of rape 1/60 f8|1A: red filter at home 1/60 f8|1A: yellow filter would help 1/60 f8`, "|") {
		if got := state(notes); got == record.Off {
			t.Errorf("%s: off", notes)
		}
	}
	for notes := range strings.SplitSeq(`1A: 1/8 f16 + 1/8|1A: 1/8 f22 1/3 stop more|1A: 1/8 f22 1/3 of a stop more|`+
		`1A: Y8 factor 2 stops, 1/30 f8|1A: Y8 x2 stops, 1/30 f8|1A: Y8, f8 1/60 x2 for Y8|1A: f8 1/125 x2 factor|1A: 1/60 f8, zone III shadow|1A: 1/60 f8 twice|1A: 1/60 f8, exposed twice|1A: 1/60 f8, doubled|1A: 1/60 f8, two exposures|1A: twice 1/60 f8|1A: two exposures of 1/60 f8|`+
		`1A: 1/60 f8, fired at 1/15|1A: 1/60 f8, in fact 1/15|1A: 1/60 f8, lens left at f16|1A: 1/60 f8, it turned out f16|1A: 1/60 f8, and 1/15 for the sky|1A: 1/60 f8, used 1/15|1A: 1/60 f8, ended up at f16`, "|") {
		if got := state(notes); got == record.Right {
			t.Errorf("%s: right", notes)
		}
	}
}

// A tolerance in the ways it is written; a sheet within it is right, one beyond it is not.
func TestTolerancesAsTheyAreWritten(t *testing.T) {
	state := func(tolerance, settings string) record.State {
		season, _ := compileText("tolerance: " + tolerance + "\n" + wordingKit + "scene: wall\nmeter: EV 12\n1A: " + settings + "\n")
		return season.Sheets[0].State
	}
	for said := range strings.SplitSeq("1/2 stop|½|half a stop|±1/2|+- 1/2 stop|+/- 1/2|0.5|0.5 stop|up to half a stop|+1/3 -1/2|1/3 stop over, 1/2 under|1 stop over, 1/2 stop under", "|") {
		if got := state(said, "1/60 f8½"); got != record.Right {
			t.Errorf("tolerance: %s, half a stop under: %s", said, got)
		}
		if got := state(said, "1/60 f11"); got != record.Off {
			t.Errorf("tolerance: %s, a stop under: %s", said, got)
		}
	}
	for said := range strings.SplitSeq("+1/2 -1/3|1/2 stop over, 1/3 under", "|") {
		if got := state(said, "1/60 f8½"); got != record.Off {
			t.Errorf("tolerance: %s, half a stop under: %s", said, got)
		}
	}
}

// A light value behind a sheet's whole settings may be its reading, or one more that was
// read: a sheet that is right by the scene's is not off by it. Before the settings it is the
// sheet's own, and what is off by both is off.
func TestLightValueBehindTheSettings(t *testing.T) {
	for line, want := range map[string]record.State{
		"1/60 f8, sky EV 15": record.Unchecked, "1/60 f8, EV 10 by the door": record.Unchecked, "1/60 f8 EV 13": record.Unchecked,
		"1/250 f8, EV 14": record.Right, "EV 14, 1/250 f8": record.Right, "EV 14, 1/60 f8": record.Off, "1/8 f8, sky EV 15": record.Off, "1/60 f8, metered EV 14": record.Off,
	} {
		season, _ := compileText(wordingKit + "scene: wall\nmeter: EV 12\n1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, %v, want %s", line, sh.State, sh.Difference, want)
		}
	}
}

// An index for the light of lamps in the ways it stands on a film's line; a remark of another matter is none.
func TestIndexByLamps(t *testing.T) {
	for said, want := range map[string]record.State{
		"EI 100, tungsten EI 50": record.Right, "EI 100 (50 in tungsten)": record.Right, "EI 100 (tungsten 50)": record.Right, "EI 100 (EI 50 by lamplight)": record.Right, "EI 100, in lamp light EI 50": record.Right,
		"EI 100, lamps EI 50": record.Right, "EI 100 -- 50 by lamplight": record.Right, "EI 100 (50 sheets left)": record.Off, "EI 100 (tested in tungsten)": record.Off, "EI 100 (box of 50)": record.Off,
	} {
		season, list := compileText("film stone: " + said + "\nlens 210: 210 mm\nday: 2026-11-02\nload 1A: stone\nscene: wall\nlight: tungsten\nmeter: EV 12 at EI 50\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("film stone: %s: %s, %v; %v", said, sh.State, sh.Difference, list)
		}
	}
}

// A long time right behind the development asked for may be its own, and words may make another time of one: both are asked about where
// the sheet looks wrong by it. 8 min at f/16 is EV −1 (16² / 480 ≈ 2⁻¹), 1 s EV 8.
func TestTimesThatMayBeNoExposure(t *testing.T) {
	for want, all := range map[record.State]string{
		record.Right: "EV -1; N, 8 min, f16|EV -1; f16, 8 min, N|EV 9; N, 8 min, f16 1/2|EV 8; f16, 1/2 became 1s|EV 9; f16 1/2, became dark",
		record.Unchecked: "EV 9; N, 8 min, f16|EV 9; f16, N-1, 8 min|EV 9; f16, N, dev 8 min|EV -1; N 8 min, f16|EV 8; f16, half a second became one|EV 8; with nothing on it at f16, the meter's half second became one|EV 8; f16, half a second became two|" +
			"EV 9; N, 1:1, f16 1/2|EV 9; N 1:3, f16 1/2",
		record.Off: "EV 9; f16, 8 min|EV 9; N, 1:1, f16 1/2\n1B: 1:2, f8 1/2|EV -2; N, 8 min, f16|EV 9; 1:1, f16 1/2|EV 9; f16 1/8, became dark",
	} {
		for notes := range strings.SplitSeq(all, "|") {
			season, list := compileText("film stone: ISO 100, EI 100, reciprocity none\nlens 210: 210 mm\nday: 2026-11-02\nfilm: stone\nlens: 210\nmeter: " + strings.Replace(notes, "; ", "\n1A: ", 1) + "\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("%s: %s %v, want %s; %v", notes, sh.State, sh.Needs, want, list)
			}
		}
	}
}

// A heading that names a test leaves the sheets below it open, up to the next of its level, where no scene does: a test
// is exposed otherwise than asked on purpose.
func TestHeadingsThatNameATest(t *testing.T) {
	for notes, want := range map[string]struct {
		state record.State
		told  bool
	}{
		"# Test speed": {record.Unchecked, true}, "# Speed test, stone": {record.Unchecked, true}, "# Test speed\n\n## card": {record.Unchecked, true}, "# Test speed\nscene: test speed, card": {record.Right, false},
		"# Test speed\nscene: card": {record.Off, false}, "# Test speed\n\nleft for another day\n\n# Gate": {record.Off, false}, "# Test of patience": {record.Off, false},
	} {
		season, list := compileText(wordingKit + notes + "\nmeter: EV 9\n1A: f16 1/4\n1B: f16 1/4\n")
		if _, told := codes(list)["test-unclear"]; season.Sheets[0].State != want.state || told != want.told {
			t.Errorf("%s: %s, told %v, want %v; %v", notes, season.Sheets[0].State, told, want, list)
		}
	}
}

// What a remark or a line of prose between a reading and its sheets puts in the place of its value or its zone is asked about,
// both where it would make the sheet right and where it would make it wrong.
func TestReadingsPutRightInWordsBesideThemAreAskedAbout(t *testing.T) {
	for _, c := range []struct{ meter, said, before, behind string }{
		{"EV 12", "no, 10|Make that 10.|Scrap that, 10.|Measured once more, 10.|It has dropped to 10.|hm, 10 now|wait, 10|10 on second look|10 I mean", "1/60", "1/15"},
		{"EV 12 on V", "No, III|Scrap that, III.|III I mean|on III I meant|make that zone III", "1/60", "1/250"},
		{"EV 12 on III", "Scrap that, V.|no, V", "1/250", "1/60"},
	} {
		for _, said := range strings.Split(c.said, "|") {
			for _, beside := range []string{" -- " + said, "\n" + said} {
				for time, never := range map[string]record.State{c.before: record.Right, c.behind: record.Off} { // unchecked, or as it was put right
					season, list := compileText(wordingKit + "scene: wall\nmeter: " + c.meter + beside + "\n1A: " + time + " f8\n")
					if sh := season.Sheets[0]; sh.State == never {
						t.Errorf("%s%s, %s: %s\n%v", c.meter, beside, time, sh.State, list)
					}
				}
			}
		}
	}
	for _, beside := range strings.Split(" -- 7 clouds|\nNo 7 clouds alike.|\nWe waited, 7 of us.|\nIt was 7 in the morning.|\nNo V formation of geese.| -- wall 2", "|") {
		season, list := compileText(wordingKit + "scene: wall\nmeter: EV 12" + beside + "\n1A: 1/60 f8\n")
		if sh := season.Sheets[0]; sh.State != record.Right {
			t.Errorf("%s: %s\n%v", beside, sh.State, list)
		}
	}
}

// What a remark on a line that chooses, or a line of prose above its sheets, says of another thing of the kit leaves open what
// was chosen for the sheets below.
func TestOtherThingsNamedBesideWhatIsChosenAreAskedAbout(t *testing.T) {
	const kit = "film stone: ISO 100, EI 100\nfilm moth: EI 25\nlens 210: 210 mm\nlens 150: 150 mm\nfilter Y8: yellow x2\nfilter R25: red x8\nmeter spot: EV at 100\nmeter grey: EV at EI\nday: 2026-11-02\nload 1A-2B: moth\nlens: 210\n"
	compiled := func(lines string) (record.State, int) {
		season, list := compileText(kit + "scene: wall\n" + lines)
		return season.Sheets[0].State, len(list)
	}
	const sheet = "\n1A: ext 210mm f8 1/15\n"
	for _, lines := range strings.Split("lens: 210 -- no, the 150\nmeter: EV 12|lens: 210 (out at 420)\nmeter: EV 12|lens: 210 -- bellows at 420\nmeter: EV 12|filter: none -- scrap that, Y8\nmeter: EV 12|filter: Y8 -- for the first one only\nmeter: EV 12|filter: Y8 for 1A\nmeter: EV 12|"+
		"filter: Y8 -- no, the red\nmeter: EV 12|filter: Y8 -- scrap that, a friend has it\nmeter: EV 12|meter: EV 12 -- Y8 in front|meter: grey -- scrap that, spot\nmeter: EV 12|meter: spot EV 12 -- that was with the grey one|load 1A-1B: moth -- except 1A which is stone\nmeter: EV 12|load 1A: moth (not 1A, that is stone)\nmeter: EV 12|"+
		"meter: grey\nSpot for this one.\nmeter: EV 12|meter: grey\nI have the spot again.\nmeter: EV 12|meter: grey\nA friend took the grey one home.\nmeter: EV 12|meter: spot\nmeter: EV 12\nby a friend's grey one, mine is in the car|meter: spot EV 12\ngrey: 12|"+
		"meter: EV 12\nPut my red on.|meter: EV 12\nY8 for the sky|meter: EV 12\nA friend lent me the R25 for the bricks.|filter: Y8\nmeter: EV 12\nswapped it for the red one|filter: Y8\nmeter: EV 12\nScrap that, no filter after all.|filter: Y8\nmeter: EV 12\nA friend needs it, so off it comes.", "|") {
		if state, found := compiled(lines + sheet); state != record.Unchecked || found == 0 {
			t.Errorf("%s: %s, %d findings", lines, state, found)
		}
	}
	for _, lines := range strings.Split("lens: 210 -- the old one\nmeter: spot EV 12|filter: none -- red barn\nmeter: spot EV 12|filter: none -- left the Y8 in the bag\nmeter: spot EV 12|meter: spot EV 12 -- the grey wall|meter: spot EV 12\nThe red barn and a spot of sun.|meter: spot EV 12 -- stone wall|load 1A: moth -- stone wall\nmeter: spot EV 12|meter: spot EV 12\nYellow leaves on the moth.|meter: spot EV 12\nRed on the hills, lovely.", "|") {
		if state, found := compiled(lines + sheet); state != record.Right {
			t.Errorf("%s: %s, %d findings", lines, state, found)
		}
	}
}

// A line that chooses or loads a thing and takes it back has the one that is named then; words that only go on have not.
func TestThingsNamedAnew(t *testing.T) {
	for _, no := range strings.Split("moor, sorry tarn|moor sorry, tarn|moor (sorry, tarn)|moor no wait tarn|moor, oops tarn|moor, I mean tarn|moor, I mean the tarn|moor, actually tarn|moor, rather tarn|moor, scratch that, tarn|moor, nein, tarn|moor, correction: tarn|moor, sorry tarn EI 50|moor, sorry tarn, EI 50", "|") {
		for _, line := range []string{"film: " + no, "load 1A: " + no} {
			if got := becameOf(line + " / meter: EV 14 at EI 250 / 1A: 1/12 f16"); got != "right" {
				t.Errorf("%s: %s", line, got)
			}
		}
	}
	for _, on := range strings.Split("moor|moor, sorry it is late|moor, rather like tarn|moor, sorry no tarn left|moor, oops the last one", "|") {
		for _, line := range []string{"film: " + on, "load 1A: " + on} {
			if got := becameOf(line + " / meter: EV 14 at EI 250 / 1A: 1/60 f16"); got != "right" && !(got == "unchecked" && strings.Contains(on, "tarn")) {
				t.Errorf("%s: %s", line, got)
			}
		}
	}
	for _, no := range strings.Split("150, sorry 210|150 sorry 210|150 (no, 210)|150 no wait 210|150, oops, the 210|150, I mean 210 mm|150 correction 210 lens", "|") {
		if got := becameOf("lens: " + no + " / meter: 1/60 f16 / 1A: ext 297mm, 1/30 f16"); got != "right" {
			t.Errorf("lens: %s: %s", no, got)
		}
	}
}
