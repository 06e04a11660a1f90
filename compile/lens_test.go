package compile_test

import (
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// rightOf is the right settings that a finding about a sheet offers.
func rightOf(t *testing.T, notes string) []string {
	t.Helper()
	_, list := compileText(notes)
	var all []string
	for _, d := range list {
		for _, n := range d.Notes {
			if rest, ok := strings.CutPrefix(n.Text, "right: "); ok {
				all = append(all, rest)
			}
		}
	}
	return all
}

// The older series of marks, f/6.3 9 12.5 18 25 36, stands a third of a stop below that of ISO 517
// (nominal f-numbers there: f/6.3, f/9, f/13, f/18, f/25, f/36 are thirds between full stops). EV 12 at
// f/9 is 2^12 / 81, 1/50 s; one stop less 1/25 s.
func TestRightSettingsStandOnTheLensAsEngraved(t *testing.T) {
	const notes = "\nfilm tern: ISO 100\nfilter Y8: x2\nlens: old\nmeter: EV 12\n\n"
	for lens, sheets := range map[string]map[string]string{
		"210 mm, f6.3 f9 f12.5 f18 f25 f36, shutter T B 1 1/2 1/5 1/10 1/25 1/50 1/100": {
			"1A: f9 1/100": "1/50 f/9 (aperture kept)", "1A: f25 1/5, Y8": "1/5 f/18⅓ (time kept)",
			"1A: f/11 1/10": "1/25 f/12.5",
		},
		"210 mm, apertures 6.3 9 12.5 18 25 36, clicks none, shutter T B 1 1/2 1/5 1/10 1/25 1/50 1/100": {
			"1A: f18 1/25": "1/25 f/12.5 (time kept",
		},
		"210 mm, f6.3 to f36, shutter to 1/100": {"1A: f12.5 1/50": "1/25 f/12.5 (aperture kept"},
		"210 mm, f8-f64, shutter to 1/100":      {"1A: f12.5 1/50": "1/25 f/12.5 (aperture kept"},
	} {
		for sheet, want := range sheets {
			got := rightOf(t, "lens old: "+lens+"\n"+notes+sheet+"\n")
			if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, want) }) {
				t.Errorf("lens %s, %s: right is %q, want %q", lens, sheet, got, want)
			}
		}
	}
}

func TestEveryWrittenApertureOfALensCounts(t *testing.T) {
	for lens, has := range map[string]map[string]bool{
		"210 mm, f8, f11, f16, f22":            {"f8": true, "f22": true, "f32": false, "f5.6": false},
		"210 mm, f/8 11 16 22 32":              {"f8": true, "f32": true, "f45": false},
		"210 mm, stops 6.8, 9, 12.5, 18":       {"f9": true, "f18": true, "f22": false},
		"210 mm, US 4, 8, 16, 32":              {"f8": true, "f22": true, "f32": false, "f5.6": false}, // U.S. = N²/16
		"210 mm, f9, smallest f64":             {"f9": true, "f64": true, "f90": false},
		"210 mm wide f8-f45":                   {"f8": true, "f45": true, "f64": false},
		"210 mm, f4.5, stops down to f/45":     {"f4.5": true, "f45": true, "f64": false},
		"210 mm, f9, cleanest from f11 to f22": {"f9": true, "f32": true, "f8": false}, // what is told of an aperture is no end
	} {
		for aperture, want := range has {
			_, list := compileText("lens old: " + lens + "\nlens: old\nmeter: EV 12\n\n1A: " + aperture + " 1s\n")
			if _, out := codes(list)["aperture-out-of-range"]; out == want {
				t.Errorf("lens %s has %s: %v; %v", lens, aperture, !out, list)
			}
		}
	}
}

// What a lens line says twice is not chosen from: a sheet whose bellows ask for it is not checked.
// Whole numbers that rise to where no shutter counts seconds are parts of one, as engraved.
func TestSpeedsAsEngraved(t *testing.T) {
	for shutter, lacks := range map[string]map[string]bool{
		"B T 1 2 5 10 25 50 100":      {"1/25": false, "1/100": false, "1/15": true},
		"1, 2, 4, 8, 15, 30, 60, 125": {"1/15": false, "1/60": false, "1/25": true},
		"8 4 2 1 1/2 1/4":             {"1/4": false, "1/8": true},
		"1 1/2 1/5 1/10":              {"1/5": false, "1/8": true},
	} {
		for time, want := range lacks {
			_, list := compileText("lens old: 210 mm, f9, shutter " + shutter + "\nlens: old\n\n1A: f16 " + time + "\n")
			if _, got := codes(list)["speed-lacking"]; got != want {
				t.Errorf("shutter %s has %s: %v; %v", shutter, time, !got, list)
			}
		}
	}
}

// Of two speeds on one film line neither is taken.
func TestTwoSpeedsOfAFilmAreNone(t *testing.T) {
	const sheet = "\nlight: daylight\nmeter: EV 12\n\n1A: tern, f16 1/125"
	stand(t, "film tern: ", map[string]record.State{
		"ISO 100, EI 64" + sheet: record.Off, "ISO 100, EI 64, EI 50" + sheet: record.Unchecked, "ISO 100, ISO 400" + sheet: record.Unchecked,
		"EI 64, EI 64" + sheet: record.Off, "EI 64, tungsten EI 50" + sheet: record.Off,
	})
}

func TestTwoFocalLengthsAreNone(t *testing.T) {
	want := map[string]string{"210 mm, f9": "off", "210 mm, f9, 240 mm": "unchecked", "210 mm, 210mm, f9": "off"}
	for lens, state := range want {
		season, list := compileText("lens old: " + lens + "\nfilm tern: ISO 100\nlens: old\nmeter: EV 12\n\n1A: f16 1/15, ext 420 mm\n")
		if got := string(season.Sheets[0].State); got != state {
			t.Errorf("lens %s: %s, want %s; %v", lens, got, state, list)
		}
		if _, told := codes(list)["two-settings"]; told != (state == "unchecked") {
			t.Errorf("lens %s: %v", lens, list)
		}
	}
}

// A slash behind an f-number is followed by its neighbour, for the stop between, or by a speed.
func TestASpeedBehindASlash(t *testing.T) {
	for sheet, want := range map[string]string{
		"f16/15": "1/15 f/16", "f16 / 15": "1/15 f/16", "f8/60": "1/60 f/8", "f/8/60": "1/60 f/8", "f22/8": "1/8 f/22", "f22/25": "1/25 f/22",
		"f16/22 1/10": "1/10 f/16–22", "f11/16 1/15": "1/15 f/11–16", "f8/III 1/15": "1/15", "f11/60s": "", "f16.22 1/15": "1/15", "f16.5 1/15": "1/15 f/16.5",
	} {
		season, list := compileText("1A: " + sheet + "\n")
		sh := season.Sheets[0]
		if got := strings.TrimSpace(sh.Given.Time + " " + sh.Given.Aperture); got != want {
			t.Errorf("1A: %s: %q, want %q; %v", sheet, got, want, list)
		}
	}
}

// A lens that is named by its length alone is as long as that says, among others that are declared as
// well: 2 log₂(212/150) is a stop.
func TestALensByItsLength(t *testing.T) {
	stand(t, "lens short: 90 mm\nfilm tern: ISO 100\nday: 2026-05-09\nmeter: EV 12\n", map[string]record.State{
		"lens: 150 mm\n1A: f16 1/8, ext 212 mm": record.Right, "1A: lens 150 mm, f16 1/8, ext 212 mm": record.Right, "lens: 150 mm\n1A: f16 1/15, ext 212 mm": record.Off,
		"lens: middle\n1A: f16 1/8, ext 212 mm": record.Unchecked, "lens: shord\n1A: f16 1/8, ext 212 mm": record.Unchecked,
	})
}

// A lens of the kit that is named beside sheets by its length and words by which one is put on: on a sheet's own line it is
// read, on a line by itself and in a remark it is asked about. 2 log₂(300/210) is a stop.
func TestALensNamedInWords(t *testing.T) {
	const kit = "lens 210: 210 mm\nlens 300: 300 mm\nfilm tern: ISO 100\nday: 2026-05-09\nlens: 210\nscene: gate\nmeter: EV 12\n"
	names := strings.Split("300er|Objektiv 300.|Lens 300.|300 lens|300mm|mit dem 300er|now the 300|Optik 300 mm|objectif de 300|with the 300.|das 300er drauf", "|")
	for _, said := range names {
		stand(t, kit, map[string]record.State{
			"\n" + said + "\n\n1B: f16 1/8, ext 300 mm": record.Unchecked,
			"1B: f16 1/8, ext 300 mm -- " + said:        record.Unchecked,
			"1B: f16 1/15, ext 300 mm, " + said:         record.Right,
		})
	}
	for _, said := range strings.Split("210er|back to the 210|with the 210|300 cows|300 to the gate", "|") {
		stand(t, kit, map[string]record.State{
			"\n" + said + "\n\n1B: f16 1/8, ext 300 mm": record.Right,
			"1B: f16 1/8, ext 300 mm -- " + said:        record.Right,
		})
	}
}
