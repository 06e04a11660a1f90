package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Six stops lie between ISO 100 and EI 6400 (64 = 2^6), so that EV 9 there is EV 3 at
// ISO 100, which is 2 s at f/4: 2^3 = 4²/2 (ISO 2720:1974).
const meterKit = `film ash: ISO 100, pan, reciprocity none to 60s
lens 210: 210 mm
lens 300: 300 mm
filter Y8: yellow, x2
meter spot: EV at 100
meter slr: EV at EI 6400
film: ash
scene: gate
`

func TestEachMeterHasItsOwnSense(t *testing.T) {
	for lines, want := range map[string]record.State{
		"1a: slr EV 9, 2s f4": record.Right, "1a: slr EV 3, 2s f4": record.Off, "1a: spot EV 3, 2s f4": record.Right, "1a: spot EV 9, 2s f4": record.Off,
		"meter slr: EV 9\n1a: 2s f4": record.Right, "meter spot: EV 3\n1a: 2s f4": record.Right, "meter slr: 1/32 f4\n1a: 2s f4": record.Right,
		"meter: EV 3\n1a: 2s f4": record.Unchecked, "meter: EV 9\n1a: 2s f4": record.Unchecked, "meter: EV 9, slr\n1a: 2s f4": record.Right, "meter: EV 9 by the slr\n1a: 2s f4": record.Right, "meter: EV 9 (slr)\n1a: 2s f4": record.Right, "meter: EV 3 (spot)\n1a: 2s f4": record.Right, "1a: EV 9 (with the slr), 2s f4": record.Right, "meter: EV 3 (by the slr)\n1a: 2s f4": record.Off, "meter: EV 9 (slr in the bag)\n1a: 2s f4": record.Unchecked, "meter: slr 9\n1a: 2s f4": record.Right,
		"meter: shadow by slr EV 7 on III, sky by spot EV 5\n1a: 2s f4": record.Right, "meter: EV 9 at EI 6400\n1a: 2s f4": record.Right, "meter: 2s f4\n1a: 2s f4": record.Right,
	} {
		season, list := compileText(meterKit + lines + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s %v %v, want %s", lines, sh.State, sh.Needs, list, want)
		}
	}
	// A meter that a line chooses is that of the readings that follow and name none, up to the next day.
	for lines, want := range map[string]record.State{
		"meter: spot\nmeter: EV 3\n1a: 2s f4": record.Right, "meter: slr\nmeter: EV 9\n1a: 2s f4": record.Right, "meter: the spot meter -- new\n1a: EV 3, 2s f4": record.Right,
		"meter: spot\n1a: slr EV 9, 2s f4": record.Right, "meter: spot\nmeter slr: EV 9\n1a: 2s f4": record.Right, "meter: spot\nscene: hut\nmeter: EV 3\n1a: 2s f4": record.Right,
		"meter: spot\nmeter: EV 9\n1a: 2s f4": record.Off, "meter: spot?\nmeter: EV 3\n1a: 2s f4": record.Unchecked,
		"meter: spot\nday: 2026-11-07\nmeter: EV 3\n1a: 2s f4": record.Right, "day: 2026-11-07\nmeter: spot\nday: 2026-11-08\nmeter: EV 3\n1a: 2s f4": record.Unchecked,
		"meter spot: EV 3\nmeter: spot\n1a: 2s f4": record.Right, "meter spot: EV 3\nmeter: slr\n1a: 2s f4": record.Unchecked, "meter: spot\nmeter: EV 3 from the phone\n1a: 2s f4": record.Unchecked,
	} {
		season, list := compileText(meterKit + lines + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s %v %v, want %s", lines, sh.State, sh.Needs, list, want)
		}
	}
	// A meter may be called as a kind of reading is.
	season, list := compileText("film ash: ISO 100, EI 50, reciprocity none to 60s\nmeter spot: EV at 100\nmeter incident: EV at EI\nfilm: ash\nmeter: spot\n1a: incident EV 3, 2s f4\nmeter: incident\nmeter: EV 3\n2a: 2s f4\n")
	for _, sh := range season.Sheets {
		if sh.State != record.Right {
			t.Errorf("%s: %s %v %v", sh.Label, sh.State, sh.Needs, list)
		}
	}
	// Where all meters show the same, none need be named.
	season, _ = compileText("film ash: ISO 400, reciprocity none to 60s\nmeter a: EV at 100\nmeter b: EV at 100\nmeter: EV 3\n1a: 1/2 f4\n")
	if sh := season.Sheets[0]; sh.State != record.Right {
		t.Errorf("two meters alike: %s %v", sh.State, sh.Needs)
	}
}

// What a meter line names besides the reading is in use, or is reported. At 424 mm a
// lens of 300 mm owes one stop, 2 log₂(424/300) (the square of the extension).
func TestWhatAMeterLineChooses(t *testing.T) {
	for lines, want := range map[string]struct {
		state record.State
		code  string
	}{
		"meter: 2s f4, lens 300\n1a: ext 424mm, 4s f4": {record.Right, ""},
		"meter: 2s f4, lens 300\n1a: ext 424mm, 2s f4": {record.Off, "exposure-off"},
		"meter: 2s f4, film ash\n1a: 2s f4":            {record.Right, ""},
		"meter: 2s f4, lens 240\n1a: ext 424mm, 4s f4": {record.Unchecked, "not-declared"},
		"meter: 2s f4, Y8\n1a: 4s f4":                  {record.Unchecked, "unknown-term"},
		"meter: Y8 2s f4\n1a: Y8, 2s f4":               {record.Unchecked, "unknown-term"},
		"meter: 2s f4, filter Y8\n1a: 2s f4":           {record.Unchecked, "unknown-term"},
		"meter: 2s f4, yellow\n1a: 4s f4":              {record.Unchecked, "unknown-term"},
		"meter: yellow wall 2s f4\n1a: 2s f4":          {record.Right, ""},
	} {
		season, list := compileText(meterKit + lines + "\n")
		_, said := codes(list)[want.code]
		if sh := season.Sheets[0]; sh.State != want.state || said != (want.code != "") {
			t.Errorf("%q: %s %v %v, want %v", lines, sh.State, sh.Needs, list, want)
		}
	}
}

// A meter of which its line says that it is off, but not how much is to be added, is not trusted.
func TestAMeterThatIsSaidToBeOff(t *testing.T) {
	for line, want := range map[string]record.State{
		"EV at 100": record.Right, "EV at 100, offset 0": record.Right, "EV at 100, reads 1/3 low": record.Unchecked, "EV at 100, 2/3 too high": record.Unchecked,
		"EV at 100, reads high by 1/2": record.Unchecked, "reads 1/2 under": record.Unchecked, "EV at 100, reads 1/3 stop high": record.Unchecked,
	} {
		season, list := compileText("film ash: ISO 100, reciprocity none to 60s\nmeter dial: " + line + "\nfilm: ash\nscene: gate\nmeter: EV 3\n1a: 2s f4\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("meter dial: %s: %s %v %v, want %s", line, sh.State, sh.Needs, list, want)
		}
	}
	for _, reading := range []string{"1/4 f8 under the arch", "wall over the gate 1/4 f8", "high cloud 1/4 f8"} {
		season, list := compileText("film ash: ISO 100\nmeter dial: EV at 100\nfilm: ash\nscene: gate\nmeter dial: " + reading + "\n1a: 1/4 f8\n")
		if sh := season.Sheets[0]; sh.State != record.Right {
			t.Errorf("meter dial: %s: %s %v %v", reading, sh.State, sh.Needs, list)
		}
	}
}

// A zone behind a reading by its settings, or of the scene's reading on a sheet's line, and what a line says to open or
// close by, are asked about; numerals of subjects are not.
func TestZonesThatAreNotPlaced(t *testing.T) {
	const kit = "film tern: EI 80, pan\nlens 210: 210 mm\nload 1A: tern\nday: 2026-06-01\nlens: 210\n"
	for want, all := range map[record.State]string{
		record.Unchecked: "f16 1/8 shadow III>f16 1/8|f16 1/8 shadow III>f16 1/30|shadow 1/8 f16 = III>f16 1/8|shadow 1/8 f16 = III>f16 1/30|palm EV 10 so open one>f16 1/2|shadow EV 7, close two>f16 1/30|" +
			"shadow EV 7, close two>f8 1/2|EV 9, close one>f16 1/2|card EV 9>for IV, f16 1/4|card EV 9>III f16 1/8|card EV 9>f16 1/8, III|card EV 9>for III, f16 1/2",
		record.Right: "shadow 1/8 f16 (III)>f16 1/30|card EV 9>III f16 1/2|card EV 9>Study III, f16 1/2|card EV 9>on IV, f16 1/4|EV 9, gate open one side>f16 1/2|EV 9 close to the wall>f16 1/2|EV 9, portrait of Henry VIII>f16 1/2",
	} {
		for both := range strings.SplitSeq(all, "|") {
			meter, sheet, _ := strings.Cut(both, ">")
			season, list := compileText(kit + "meter: " + meter + "\n1A: " + sheet + "\n")
			if sh := season.Sheets[0]; sh.State != want {
				t.Errorf("meter: %s, 1A: %s: %s %v, want %s; %v", meter, sheet, sh.State, sh.Needs, want, list)
			}
		}
	}
}

// Where nothing says what light values mean, a sheet that is right by only one sense of them is not right; where two
// sheets more are right by the one, it is taken, and said once. At EI 25 the senses lie 2 stops apart: EV 12 is 1/15 s at f/16 at the
// index and 1/4 s at ISO 100; at EI 80 they lie ⅓ stop apart.
func TestWhatLightValuesAreTakenFor(t *testing.T) {
	for notes, want := range map[string]struct {
		states string
		taken  bool
	}{
		"25; 1A: 1/15 f16": {"unchecked", false}, "25; 1A: 1/4 f16": {"unchecked", false}, "25; 1A: 1/60 f16": {"off", false}, "80; 1A: 1/15 f16": {"right", false},
		"25; 1A: 1/4 f16; 1B: 1/15 f16": {"unchecked unchecked", false}, "25; 1A: 1/4 f16; 1B: 1/4 f16; 2A: 1/15 f16": {"unchecked unchecked unchecked", false},
		"25; 1A: 1/4 f16; 1B: 1/4 f16": {"right right", true}, "25; 1A: 1/15 f16; meter: EV 10; 1B: 1/4 f16; meter: EV 9; 2A: 1/60 f16": {"right right off", true},
		"25; meter spot: EV at 100; 1A: 1/4 f16; 1B: 1/15 f16": {"right off", false}, "25; 1A: metered EV 12 at EI 100, gave 1/4 f16": {"right", false},
	} {
		season, list := compileText("film tern: ISO 100, EI " + strings.NewReplacer("25; ", "25\nday: 2026-11-07\nfilm: tern\nmeter: EV 12\n", "80; ", "80\nday: 2026-11-07\nfilm: tern\nmeter: EV 12\n", "; ", "\n").Replace(notes) + "\n")
		var states []string
		for _, sh := range season.Sheets {
			states = append(states, string(sh.State))
		}
		if _, taken := codes(list)["light-values-taken"]; strings.Join(states, " ") != want.states || taken != want.taken {
			t.Errorf("%s: %v, said: %v, want %v; %v", notes, states, taken, want, list)
		}
	}
}

// What was metered may be called as a meter is, and lie by, under or on something.
func TestWhatIsMeteredIsCalledAsAMeter(t *testing.T) {
	for notes, want := range map[string]record.State{
		"meter: box\nmeter: bright spot EV 10 on V\n1A: 1/4 f16":            record.Right,
		"meter: spot\nmeter: letter box EV 10⅔ on V\n1A: 1/4 f16":           record.Right,
		"meter: spot\nmeter: hole under the root EV 10⅔ on V\n1A: 1/4 f16":  record.Right,
		"meter: spot\nmeter: shadow by the box EV 10 on V\n1A: 1/4 f16":     record.Right,
		"meter: spot\nmeter: shadow by the gadget EV 10⅔ on V\n1A: 1/4 f16": record.Unchecked, // another meter
		"meter: bright spot EV 10 on V\n1A: 1/4 f16":                        record.Unchecked,
		"meter box: EI 200\nmeter: EV 10\n1A: 1/4 f8⅓":                      record.Unchecked,
		"meter box: EI 200\nmeter box: EV 10\n1A: 1/4 f16":                  record.Unchecked,
		"meter box: EI 200\nmeter spot: EV 10⅔\n1A: 1/4 f16":                record.Right,
	} {
		season, list := compileText("film slate: ISO 100, EI 64\nload 1A-2A: slate\nmeter spot: EV at 100\nmeter box: EV at EI\n" + notes + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", notes, sh.State, sh.Needs, want, list)
		}
	}
}
