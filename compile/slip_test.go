package compile_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/slip"
)

// Each hypothesis carries a notebook in which it is what happened. It must be
// named there, and for the last sheet only.
func TestHypothesesFitTheirExamples(t *testing.T) {
	for _, h := range slip.Table() {
		t.Run(h.Slug, func(t *testing.T) {
			season, list := compileText(h.Example)
			last := season.Sheets[len(season.Sheets)-1]
			named := false
			for _, f := range season.Findings {
				if f.Code != "exposure-off" {
					continue
				}
				sheets := 1
				if h.Slug == "filter-not-written" {
					sheets = 4 // what is not written shows on a run of sheets
				}
				if len(f.Sheets) != sheets || f.Sheets[sheets-1] != last {
					t.Errorf("another sheet is blamed: %s", f.Message)
				}
				named = named || slices.Contains(f.Causes, h.Slug)
				if !named {
					t.Errorf("named are %v; off by %.2f", f.Causes, last.Difference.Value)
				}
			}
			if !named {
				t.Errorf("not found; what is: %v", list)
			}
		})
	}
}

// runs are sheets in a row off by one lasting mistake. The offered line is
// written into a copy and compiled again.
var runs = map[string]struct{ notes, offer string }{
	"a filter that is not written": {`film slate: ISO 400, EI 200, pan
filter R25: x8
lens 210: 210 mm
meter spot: EV at EI
day: 2026-11-07
scene: the gate
meter: 1/60 f16
3A: R25, 1/8 f16
3B: no filter, 1/8 f16
4A: 1/15 f11
4B: 1/30 f8
`, "amend 3B 4A 4B: R25"},
	"a meter at another index, by settings": {`film slate: ISO 400, EI 200, pan
film plate: EI 25
lens 210: 210 mm
day: 2026-11-07
film: slate
meter: 1/60 f16
3A: 1/8 f16
3B: 1/15 f11
4A: 1/4 f22
`, "amend 3A 3B 4A: EI 25, at EI 200"},
	"a meter at another index, by light values at ISO 100": {`film slate: ISO 400, EI 200, pan
film plate: EI 25
lens 210: 210 mm
meter spot: EV at 100
day: 2026-11-07
film: slate
meter: EV 11
3A: 1/2 f16
3B: 1/4 f11
4A: 1s f22
`, "amend 3A 3B 4A: EI 25"},
	"a shutter that is slow": {`film slate: ISO 400, EI 200, pan
lens 210: 210 mm
day: 2026-11-07
film: slate
3A: metered 1/60 f16, gave 1/30 f16
3B: metered 1/60 f11, gave 1/30 f11
4A: metered 1/60 f8, gave 1/30 f8
`, "shutter 210: 1/30 measured"},
}

var offered = regexp.MustCompile(`write: (amend .*)$|with (shutter .*)$`)

func TestOfferedLinesSettleTheirRuns(t *testing.T) {
	for name, c := range runs {
		t.Run(name, func(t *testing.T) {
			season, _ := compileText(c.notes)
			lines := []string{}
			off := 0
			for _, f := range season.Findings {
				if f.Code != "exposure-off" {
					continue
				}
				if off++; len(f.Sheets) != 3 {
					t.Errorf("%s is one mistake of three sheets", f.Message)
				}
				for _, n := range f.Notes {
					if m := offered.FindStringSubmatch(n); m != nil {
						lines = append(lines, m[1]+m[2])
					}
				}
			}
			if off != 1 || !slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, c.offer) }) {
				t.Fatalf("%d findings, offered %q, want %q", off, lines, c.offer)
			}
			for _, line := range lines {
				after, _ := compileText(c.notes + line + "\n")
				for _, f := range after.Findings {
					if f.Severity != "note" {
						t.Errorf("after %q: %s %v", line, f.Message, f.Notes)
					}
				}
				for _, sh := range after.Sheets {
					if sh.State != "right" {
						t.Errorf("after %q %s is %s", line, sh.Label, sh.State)
					}
				}
			}
		})
	}
}

// Two mistakes at once are named only where no single one fits and the two fit
// exactly; where several pairs fit, none is.
func TestTwoSlipsTogether(t *testing.T) {
	const kit = "film slate: ISO 400, EI 200, pan\nfilter Y8: x2\nfilter R25: x8\nlens 210: 210 mm\nmeter spot: EV at EI\nday: 2026-11-07\n"
	for notes, want := range map[string][]string{
		// R25 (3) forgotten and a bracket of -2/3 turned: -3 + 4/3
		"meter: 1/60 f16\n3A: R25, bracket -⅔, 1/30 f16⅓\n": nil,
		// the extension (1.56) and R25 (3): the bare reading, which is a single slip
		"meter: 1/60 f16\n3A: R25, ext 360mm, 1/60 f16\n": {"reading-as-it-stood"},
		// placed on III and given as read (+2), R25 (-3) forgotten and a bracket of +1½ too: -1 is one stop
		"meter: gate EV 9 on III\n3A: R25, bracket +1½, 1/4 f16⅔\n": nil,
		// the extension (1.56) forgotten and the bracket (+½) turned the wrong way: -2.56
		"meter: 1/60 f16\n3A: ext 360mm, bracket +½, 1/60 f16½\n": {"bellows-forgotten", "bracket-wrong-way"},
		// the meter at EI 800 (-2) and R25 (-3); that f/16 stayed from 2B would want f/2.8, which the lens has not
		"lens 300: 300 mm f5.6\nmeter: 1/60 f16, meter at EI 800\n2B: lens 300, 1/15 f16\n3A: lens 300, R25, 1/60 f16\n": {"filter-not-compensated", "meter-at-another-ei"},
	} {
		season, _ := compileText(kit + notes)
		for _, f := range season.Findings {
			if f.Code == "exposure-off" && want != nil && !slices.Equal(f.Causes[:min(len(f.Causes), len(want))], want) {
				t.Errorf("%s%v of %s, want %v", notes, f.Causes, f.Message, want)
			}
		}
	}
}

// Two that fit a sheet alike are both named: f/11½ with the time of f/16½ is the time that was left,
// or the half turned the wrong way.
func TestBothThatFitAreNamed(t *testing.T) {
	season, list := compileText(plantedKit + "meter: EV 14⅙\n1A: f16½ 1/125\n1B: f11½ 1/125\n")
	if f := season.Findings; len(f) == 0 || !slices.Equal(f[0].Causes, []string{"time-left-on", "fraction-wrong-way"}) {
		t.Errorf("%v", list)
	}
}

// What the writer says of his mistake goes before what merely fits.
func TestRemarksAreEvidence(t *testing.T) {
	const kit = "film slate: ISO 400, EI 200, pan\nfilm plate: EI 100\nfilter Y8: x2\nlens 210: 210 mm\nday: 2026-11-07\nfilm: slate\nmeter: 1/60 f16\n"
	first := func(line string) string {
		season, _ := compileText(kit + line)
		for _, f := range season.Findings {
			if f.Code == "exposure-off" {
				return f.Causes[0]
			}
		}
		return ""
	}
	if plain, said := first("3A: 1/30 f16\n"), first("3A: 1/30 f16 -- the meter stood at the other EI all morning\n"); said != "meter-left-at-ei" {
		t.Errorf("without the remark %s, with it %s", plain, said)
	}
	if said := first("3A: 1/30 f16 -- a click off, I think\n"); said != "one-stop" {
		t.Errorf("a click off is %s", said)
	}
}

// What a rule for long times gives where it is applied twice, or another film's is, is no round
// number of stops: where the time is just that, it comes first. By the power law of the kit
// 4 s become 4^1.6 = 9.2 s and these 34.8 s; 10 s become 20.4 s by t^1.31 and 39.8 s by t^1.6.
func TestRulesThatFitExactlyComeFirst(t *testing.T) {
	const kit = "film slate: ISO 400, EI 200, pan, reciprocity t^1.31 over 1s\nfilm slow: ISO 100, EI 200, pan, reciprocity t^1.6 over 1s\nfilm plate: EI 80\nfilter R25: x8\nlens 210: 210 mm\n\nday: 2026-11-07\nfilm: slow\nlens: 210\nscene: gate\n"
	for line, want := range map[string]string{
		"meter: 4s f16\n1A: 35s f16": "reciprocity-twice", "meter: 4s f16\n1A: 34.8s f16": "reciprocity-twice", "meter: 10s f22\n1A: film slate, 40s f22": "rule-of-another-film",
		"meter: 10s f22\n1A: 20s f22": "rule-of-another-film", "meter: 10s f22\n1A: 10s f22": "reciprocity-forgotten",
	} {
		season, list := compileText(kit + line + "\n")
		if f := season.Findings; len(f) == 0 || len(f[0].Causes) == 0 || f[0].Causes[0] != want {
			t.Errorf("%q: first is not %s: %v", line, want, list)
		}
	}
}

// That the aperture of the sheet before stayed fits most sheets with an equal aperture; it is
// not said beside what is plainer and fits exactly.
func TestApertureThatStayedIsNoNoise(t *testing.T) {
	const kit = "film slate: ISO 400, EI 200, pan\nfilter R25: x8\nlens 210: 210 mm, f5.6-f64\nmeter spot: EV at EI\n\nday: 2026-11-07\nfilm: slate\nlens: 210\nscene: gate\nmeter: 1/60 f22\n1A: 1/30 f32\n"
	season, list := compileText(kit + "1B: 1/60 f32\n")
	if f := season.Findings; len(f) == 0 || len(f[0].Causes) == 0 || f[0].Causes[0] != "aperture-left-on" {
		t.Errorf("the aperture that stayed is not said: %v", list)
	}
	season, list = compileText(kit + "scene: barn\nmeter: EV 14\n1B: R25, 1/15 f32\n")
	if f := season.Findings; len(f) == 0 || len(f[0].Causes) == 0 || f[0].Causes[0] != "filter-not-compensated" || slices.Contains(f[0].Causes, "aperture-left-on") {
		t.Errorf("beside the filter that was forgotten: %v", list)
	}
}

// Mistakes that people planted in notes of their own, each with what must be named first, in its
// words where another would have the same slug.
const plantedKit = `film noctil: ISO 400, EI 250, reciprocity t^1.3 over 1s
lens 150: 150 mm, f5.6-f64
meter candela: EV at 100
day: 2024-12-05
film: noctil
lens: 150
scene: a
`

const bellows = "film lune: ISO 100, EI 64, reciprocity t^1.1 over 10s\nlens 240: 240 mm, f5.6-f64\n1A: film lune, lens 240, spot 9 on III ext 480 mm f16 0.8s\n"
const filters = "filter Y8: x2\nfilter G11: x4\nmeter: 1/60 f22\n1A: Y8 1/30 f22\n"

func TestWhatWasDoneIsNamedFirst(t *testing.T) {
	for _, c := range []struct{ notes, slug, words string }{
		// EV -2 on III at EI 250 is EV 1 1/3: 25.4 s at f/8 and t^1.3 of them, 67 s; f/16 and f/11 want the time moved as well
		{"meter: wall EV -2 on III\n1A: f8 1m08\n1B: f16 1m08\n", "time-left-on", "changed from f/8 and the time of 1A, 1m 8s,"},
		{"meter: wall EV -2 on III\n1A: f8 1m08\n1B: f11 1m08\n", "time-left-on", "changed from f/8"},
		{"meter: wall EV -2 on III\n1A: f8 1m08\n1B: same, f16\n", "time-left-on", "changed from f/8"},
		{"meter: EV 9⅔\n1A: f8 1/30\n1B: f16 1/30\n", "time-left-on", "the time of 1A, 1/30,"},
		{"meter: EV 9⅔\n1A: f8⅓ 1/30\n1B: f16 1/30\n", "time-left-on", "changed from f/8⅓"}, // a third of a stop was 1A's own
		// f/8 for 67 s is the time of zone III; 6 times as long is that of V
		{"1A: wall EV -2 on V, f8, 1m08\n", "wrong-zone", "placed on III, not V"},
		{"1A: wall EV -2 on III, f8, 7m\n", "not-placed", "not placed on III"},
		// 16 s are 27.9 s by t^1.2, what EI 50 asks for; 32 s before reciprocity nobody writes as 28 s
		{"film lune: ISO 100, EI 50, tungsten EI 25, reciprocity t^1.2 over 1s\nlight: tungsten\n1A: film lune, EV 4 on IV f16, 28s\n", "another-index", "EI 50, not 25"},
		// 25.4 s are 67 s by t^1.3 and those 237 s; an index of a film that no sheet is on is on nobody's mind
		{"film plate: EI 80\n1A: EV 0 on IV, f11, 4m\n", "reciprocity-twice", "25 s was corrected"},
		{"film plate: EI 80\n1A: EV 0 on IV, f11, 4m15\n", "reciprocity-twice", "25 s was corrected"},
		{"film plate: EI 80\n1A: EV 0 on IV, f11, 4m30\n", "reciprocity-twice", "25 s was corrected"},
		{"1B: EV 2 on III f32, 1m08\n2A: EV 2 on III f32, 4m30\n", "reciprocity-twice", "25 s was corrected"},
		{"1A: EV 2 on IV f16, 28s\n2A: EV 2 on IV f16, 3 x 28s\n", "each-in-full", "each of the 3 exposures"},
		{"1A: EV 2 on IV f16, 28s+28s\n", "each-in-full", "each of the 2 exposures"},
		// ext 480 mm before 240 mm are 2 stops; III with the same reading was right on the sheet before
		{bellows + "1B: same f8 0.8s -- opened twice for the bellows\n", "compensated-twice", "the extension was compensated twice"},
		{bellows + "1B: same f8 0.8s\n", "time-left-on", "the time of 1A, 0.8 s,"},
		{bellows + "1B: same f16 3s\n", "factor-as-stops", "×4 of the extension"},
		// 25.6 s are 68 s by the other film's t^1.3; the aperture would be 0.87 stop wider, which no lens is marked with
		{"film fern: ISO 400, EI 250, reciprocity t^1.6 over 1s\nfilm: fern\nmeter: 1/8 f16\n1A: f16 1/8\nscene: b\nmeter: EV 2\n1B: f16 1m08\n", "rule-of-another-film", "noctil"},
		// what a remark names goes first
		{filters + "1B: G11 1/30 f22\n", "settings-left", "settings of 1A"},
		{filters + "1B: G11 1/30 f22 -- took G for a 2x\n", "stops-as-factor", "G11 were given as the factor ×2"},
		{filters + "1B: G11 1/30 f22 (thought it was x2)\n", "stops-as-factor", "G11 were given as the factor ×2"},
		{filters + "1B: G11 1/30 f22 -- reckoned with the Y8, not G11\n", "another-filter", "as if it were Y8"},
		{filters + "1B: G11 1/30 f22 -- 4x5 film, gusts\n", "settings-left", "settings of 1A"},
		{filters + "1B: G11 1/4 f22 -- the factor twice\n", "compensated-twice", "G11 was compensated twice"},
		{filters + "1B: G11 1/60 f22 -- forgot the G\n", "filter-not-compensated", "nothing was given for G11"},
	} {
		season, list := compileText(plantedKit + c.notes)
		named := false
		for _, f := range season.Findings {
			if f.Code == "exposure-off" {
				named = true
				if len(f.Causes) == 0 || f.Causes[0] != c.slug || !slices.ContainsFunc(f.Notes, func(n string) bool { return strings.HasPrefix(n, "fits: ") && strings.Contains(n, c.words) }) {
					t.Errorf("%sfirst is not %s (%s): %v %q", c.notes, c.slug, c.words, f.Causes, f.Notes)
				}
			}
		}
		if !named {
			t.Errorf("%sis not found off: %v", c.notes, list)
		}
	}
}

// A slip of the pen in the time is named where the sheet is right by what the figures may have
// been written for, and behind every mistake in what was done.
func TestTimesThatWereMiswritten(t *testing.T) {
	const kit = "film tern: ISO 100, reciprocity 2s=3s 4s=7s 8s=16s 240s=1000s\nfilter red: 3 stops\nlens 150: 150 mm\nday: 2026-11-01\n"
	for lines, want := range map[string]string{
		"meter: 1/30 f11\n1A: red 4s f11": "perhaps 1/4 was meant",
		"meter: 1/30 f11\n1A: 1/300 f11":  "perhaps 1/30 was meant",
		"meter: 1/8 f11\n1A: 1/80 f11":    "perhaps 1/8 was meant",
		"meter: 1/60 f11\n1A: 1/6 f11":    "perhaps 1/60 was meant",
		"meter: 4s f11\n1A: 1/7 f11":      "perhaps 7 s was meant",
		"film slow: ISO 100, reciprocity none\nmeter: 240s f11\n1A: film slow, 4s f11": "perhaps 4m was meant",
		"meter: 1/30 f11\n1A: red 5s f11":                                              "",
	} {
		season, _ := compileText(kit + lines + "\n")
		got := ""
		for _, f := range season.Findings {
			if i := slices.Index(f.Causes, "time-miswritten"); i >= 0 && i == len(f.Causes)-1 {
				for _, note := range f.Notes {
					if _, text, ok := strings.Cut(note, "perhaps "); ok {
						got = "perhaps " + text
					}
				}
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q: %v", lines, got, want, season.Findings)
		}
	}
}

// A shutter that is off by less than a sheet may be is no second slip beside the one that was made.
func TestShutterWithinToleranceIsNoSlip(t *testing.T) {
	for tested, want := range map[string]string{"1/50": "filter-not-compensated", "1/45": "filter-not-compensated tested-speed-forgotten"} {
		season, _ := compileText("lens 210: 210 mm, tested 1/60=" + tested + "\nlens: 210\nfilter R25: x8\nday: 2026-11-14\nmeter: 1/60 f16\n6B: R25, 1/60 f16\n")
		if got := strings.Join(season.Findings[0].Causes, " "); got != want {
			t.Errorf("tested %s: %s", tested, got)
		}
	}
}

// An older shutter has 1/10 where 1/8 is meant (ISO 516 has 1/8): a third of a stop that hides no slip.
func TestASlipBehindAnOlderShutter(t *testing.T) {
	const kit = "film heath: ISO 100\nlens 210: 210 mm, f6.3-f45, shutter to 1/100\nfilter Y8: yellow, x2\nfilter O22: orange, x4\nfilm: heath\nlens: 210\n"
	for sheet, want := range map[string]string{
		"EV 11, Y8, f16 1/10": "filter-not-compensated", "EV 11, O22, f16 1/10": "filter-not-compensated", "EV 11, ext 297 mm, f16 1/10": "bellows-forgotten",
		"EV 13, O22, f16 1/25": "filter-not-compensated", "EV 11, f16 1/10": "", "EV 11, Y8, f16 1/4": "",
	} {
		season, list := compileText(kit + "1A: " + sheet + "\n")
		got := ""
		for _, f := range season.Findings {
			if len(f.Causes) > 0 {
				got = f.Causes[0]
			}
		}
		if got != want {
			t.Errorf("%s: first is %q, want %q; %v", sheet, got, want, list)
		}
	}
}

// A title that two sheets have in common says nothing of their settings.
func TestARepeatedTitleHidesNoSlip(t *testing.T) {
	const kit = "film heath: ISO 100\nfilter Y8: yellow, x2\nfilm: heath\n"
	for second, want := range map[string]string{
		"1B: Crane   EV 11   Y8   f16   1/8": "off", "1B: wieder   EV 11   Y8   f16   1/8": "unchecked", "1B: f16 1/4": "unchecked",
	} {
		season, list := compileText(kit + "1A: Crane   EV 11   -   f16   1/8\n" + second + "\n")
		if len(season.Sheets) > 1 && string(season.Sheets[1].State) != want {
			t.Errorf("%s: %s, want %s; %v", second, season.Sheets[1].State, want, list)
		}
	}
}
