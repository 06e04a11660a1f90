package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// The kit has a film whose index differs by light, one whose does not, and filters of
// both kinds. A stop is twice the exposure; EV 3 at ISO 100 asks for 2 s at f/4, 2^3 = 4²/2
// (ISO 2720:1974). What lamps are called is common practice, no source.
const lampKit = `film ash: ISO 100, EI 100, pan, tungsten EI 50, sodium EI 25, reciprocity none to 60s
film elm: ISO 100, pan, reciprocity none to 60s
filter Y8: x2, tungsten x1.5
filter R25: x8
filter O21: x4, sodium x1
meter spot: EV at 100
scene: gate
`

func TestLampsAreOfTheirOwnKind(t *testing.T) {
	for _, c := range []struct {
		light, lines string
		want         record.State
	}{
		{"lamps", "film: ash\nmeter: EV 3\n1a: 4s f4", record.Right},
		{"halogen lamp", "film: ash\nmeter: EV 3\n1a: 4s f4", record.Right},
		{"hazy sun", "film: ash\nmeter: EV 3\n1a: 2s f4", record.Right},
		{"sodium lamps", "film: ash\nmeter: EV 3\n1a: 8s f4", record.Right},
		{"high pressure sodium lamp", "film: ash\nmeter: EV 3\n1a: 8s f4", record.Right},
		{"sodium street lamps", "film: ash\nmeter: EV 3\n1a: 2s f4", record.Off},
		{"LED street lamps", "film: ash\nmeter: EV 3\n1a: 4s f4", record.Unchecked},
		{"street lamps", "film: ash\nmeter: EV 3\n1a: 4s f4", record.Unchecked},
		{"mercury lamps", "film: elm\nmeter: EV 3\n1a: 2s f4", record.Right},
		{"neon lamps", "film: elm\nmeter: EV 3\n1a: 8s f4", record.Off},
		{"fluorescent lamps", "film: elm\nmeter: EV 3\n1a: Y8, 4s f4", record.Unchecked},
		{"street lamps", "film: elm\nmeter: EV 3\n1a: R25, 16s f4", record.Right},
		{"street lamps", "film: elm\nmeter: EV 3\n1a: O21, 8s f4", record.Unchecked},
		{"sodium lamps", "film: elm\nmeter: EV 3\n1a: O21, 2s f4", record.Right},
		{"street lamps", "film: elm\nmeter: EV 3\n1a: green 58, 2s f4", record.Unchecked},
	} {
		season, _ := compileText(lampKit + "light: " + c.light + "\n" + c.lines + "\n")
		if sh := season.Sheets[0]; sh.State != c.want {
			t.Errorf("%s, %q: %s %v, want %s", c.light, c.lines, sh.State, sh.Needs, c.want)
		}
	}
}

// A lamp that is struck out, denied, off or of another time is none; one that is doubted leaves open what it decides.
func TestLampsThatAreNone(t *testing.T) {
	const day, lamps = record.Right, record.Off // of 2 s f/4
	for light, want := range map[string]record.State{
		"~~tungsten~~ sun": day, "not tungsten": day, "window, tungsten off": day, "sun (tungsten earlier)": day, "tungsten no wait window": day, "sun, no tungsten": day,
		"tungsten, off": day, "lamps not lit": day, "window, lamps switched off": day, "sun; tungsten went out": day, "no longer tungsten": day, "window instead of tungsten": day,
		"tungsten?": record.Unchecked, "[tungsten]": record.Unchecked, "maybe tungsten": record.Unchecked, "tungsten or window": record.Unchecked, "not sure, tungsten": record.Unchecked,
		"no sun, tungsten": lamps, "tungsten, no windows": lamps, "tungsten and window": lamps, "halogen off, tungsten on": lamps, "window no longer, tungsten": lamps, "tungsten instead of window": lamps,
		"tungsten\nlight: same": lamps, "tungsten\nscene: mill\nlight: as before": lamps, "tungsten\nlight: window\nlight: unchanged": day, "tungsten\nscene: mill": day,
	} {
		season, _ := compileText("day: 2026-11-07\n" + lampKit + "light: " + light + "\nfilm: ash\nmeter: EV 3\n1a: 2s f4\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s %v, want %s", light, sh.State, sh.Needs, want)
		}
	}
	season, _ := compileText(lampKit + "film: ash\nlight: tungsten?\nmeter: 1/60 f16\n1a: 1/60 f16\n")
	if sh := season.Sheets[0]; sh.State != record.Right {
		t.Errorf("by any light the same: %s %v", sh.State, sh.Needs)
	}
}

// A full stop ends a film's name; what stands behind it is kept as a remark.
func TestFullStopEndsAFilmsName(t *testing.T) {
	for _, line := range []string{"load 1a-2b: ash. Set meter to 400", "load 1a-2b: ash, EI 100. Set meter to 400", "load 1a-2b: ash EI 100. Meter set -- by hand", "film: ash. Set meter to 400"} {
		season, list := compileText(lampKit + line + "\nmeter: EV 3\n1a: 2s f4\n")
		if sh := season.Sheets[0]; sh.State != record.Right || sh.Film != "ash" || len(list) > 0 {
			t.Errorf("%s: %s %v %v", line, sh.State, sh.Needs, list)
		}
	}
	season, _ := compileText("load 1a-2b: oak. Set meter to 400\n1a: metered 2s f4, 2s f4\n")
	if sh := season.Sheets[0]; sh.Film != "oak" {
		t.Errorf("a film that is not declared: %v", sh.Film)
	}
}

// A rule for long times that is not read is reported where it stands.
func TestRuleThatIsNotRead(t *testing.T) {
	for rule, code := range map[string]string{"t1.3": "nearly-a-term", "like ash": "reciprocity-unclear", "1.3": "bare-number"} {
		if _, list := compileText("film fir: ISO 100, reciprocity " + rule + "\n"); len(list) != 1 || list[0].Code != code {
			t.Errorf("reciprocity %s: %v, want %s", rule, list, code)
		}
	}
}

// The range of the subject is no reading, and a range of mountains is one.
func TestSubjectRangeIsARemark(t *testing.T) {
	for _, words := range []string{"; SBR 5", ", range 5", ", contrast 4", ", subject range 4 stops", ", SBR = 6", ", range of 6 stops"} {
		season, list := compileText(lampKit + "film: elm\nmeter: 2s f4" + words + "\n1a: 2s f4\n")
		if sh := season.Sheets[0]; sh.State != record.Right || len(sh.Reading.Areas) > 0 || len(list) > 0 {
			t.Errorf("%s: %s %v %v", strings.Trim(words, ",; "), sh.State, sh.Reading.Areas, list)
		}
	}
	season, _ := compileText(lampKit + "film: elm\nmeter: mountain range 3 on V, sky 5\n1a: 2s f4\n")
	if sh := season.Sheets[0]; sh.State != record.Right || len(sh.Reading.Areas) != 2 {
		t.Errorf("mountain range: %s %v", sh.State, sh.Reading.Areas)
	}
}

// A light that is said before the first scene of a day ends with that scene, and may have
// been meant for the day: whoever is right in one of the two and off in the other is asked.
// EI 50 against EI 100 is one stop.
func TestTheLightOfADayIsAskedFor(t *testing.T) {
	const kit = "film ash: ISO 100, EI 100, pan, tungsten EI 50, reciprocity none to 60s\nday: 2026-11-01, studio\n"
	for lines, want := range map[string]record.State{
		"light: tungsten\nscene: one\nscene: two\nmeter: 1s f8 at EI 100\n1A: 1s f8\n":                        record.Unchecked,
		"light: tungsten\nscene: one\nscene: two\nmeter: 1s f8 at EI 100\n1A: 2s f8\n":                        record.Unchecked,
		"light: tungsten\nscene: one\nscene: two\nmeter: 1s f8 at EI 100\n1A: 4s f8\n":                        record.Off,
		"light: tungsten\nscene: one\nscene: two\nlight: sun\nmeter: 1s f8 at EI 100\n1A: 1s f8\n":            record.Right,
		"scene: one\nlight: tungsten\nscene: two\nmeter: 1s f8 at EI 100\n1A: 1s f8\n":                        record.Right,
		"light: tungsten\nscene: one\nscene: two\nmeter: 1s f8 at EI 100\nlight: tungsten\n1A: 1s f8\n":       record.Off,
		"light: sun\nscene: one\nscene: two\nmeter: 1s f8 at EI 100\n1A: 1s f8\n":                             record.Right,
		"light: tungsten\nscene: one\nday: 2026-11-02, yard\nscene: two\nmeter: 1s f8 at EI 100\n1A: 1s f8\n": record.Right,
	} {
		season, list := compileText(kit + lines)
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%q: %s %v %v, want %s", lines, sh.State, sh.Needs, list, want)
		}
	}
}

// Words for lamplight where nothing chose the light leave a sheet open whose film or filter takes another
// value by lamps than by day: x16 is a stop more than x8. What stands by a lamp is lit as it was.
func TestLamplightOnTheSheetsLine(t *testing.T) {
	const kit = "film tern: EI 80, pan\nfilm ash: EI 80, tungsten EI 40, pan\nfilter B47: blue, x8, tungsten x16\nfilter Y8: x2\nday: 2026-06-01\nfilm: tern\nscene: hall\nmeter: EV 9\n"
	for line, want := range map[string]record.State{
		"under the lamps, B47, f4 1/2": record.Unchecked, "by candlelight, B47, f4 1/2": record.Unchecked, "by lamplight, B47, f4 1/2": record.Unchecked, "B47, f4 1/2 -- by artificial light": record.Unchecked, "lamplit, B47, f4 1/2": record.Unchecked,
		"by lamplight, B47, f5.6 1/2": record.Unchecked, "bei Kunstlicht, B47, f4 1/2": record.Unchecked, "film ash, meter EV 9 at EI 80, by lamplight, f11 1/2": record.Unchecked,
		"by lamplight, f16 1/2": record.Right, "by lamplight, Y8, f11 1/2": record.Right, "by lamplight, f11 1/2": record.Off, "by lamplight, Y8, f16 1/2": record.Off,
		"by the lamp in the lane, B47, f5.6 1/2": record.Right, "the lamp in the lane, B47, f4 1/2": record.Off, "light tungsten, by lamplight, B47, f4 1/2": record.Right,
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s; %v", line, sh.State, sh.Needs, want, list)
		}
	}
	for light, want := range map[string]record.State{"artificial": record.Unchecked, "artificial light": record.Unchecked, "candles": record.Unchecked, "lamps": record.Right, "sun": record.Off} {
		season, _ := compileText(kit + "light: " + light + "\n1A: B47, f4 1/2\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("light: %s: %s %v, want %s", light, sh.State, sh.Needs, want)
		}
	}
}

// A film's index in brackets for artificial light is that by lamps: at EI 10 a reading at EI 25 asks for 1⅓ stops more, 1/25 s
// for 1/60 s (25/10 is 1⅓ stops).
func TestIndexByArtificialLight(t *testing.T) {
	for said, want := range map[string]record.State{"EI 25 (artificial light 10)": record.Off, "EI 25 (10 by lamplight)": record.Off, "EI 25 (tungsten 10)": record.Off, "EI 25 (box 10)": record.Right} {
		season, list := compileText("film tern: " + said + "\nday: 2026-11-07\nfilm: tern\nlight: tungsten\nmeter: 1/60 f16 at EI 25\n1A: 1/60 f16\n1B: 1/25 f16\n")
		if a, b := season.Sheets[0], season.Sheets[1]; a.State != want || want == record.Off && b.State != record.Right {
			t.Errorf("film tern: %s: %s, %s; %v", said, a.State, b.State, list)
		}
	}
}
