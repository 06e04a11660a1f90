package compile_test

import (
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

func codesOf(s *record.Season) []string {
	var all []string
	for _, f := range s.Findings {
		all = append(all, f.Code)
	}
	return all
}

func labelled(t *testing.T, s *record.Season, label string) *record.Sheet {
	t.Helper()
	for _, sh := range s.Sheets {
		if sh.Label == label {
			return sh
		}
	}
	t.Fatalf("no sheet %s", label)
	return nil
}

// What the lines say is what the record holds; worked out by hand.
func TestWhatIsMeasuredStandsAtItsSheet(t *testing.T) {
	s := yearsOf(t, `lens 210: 210 mm
day: 2026-11-07
load T1-T3: slate
scene: test speed, grey card
patch: card 0.5,0.5, sky 0.30,0.12
meter: EV 11
T1: 1/30 f8, patch sky 0.4,0.2
T2: 1/60 f8
scene: gate
T3: 1/30 f8
test T3: filters, noon
density T1: base+fog 0.07, card 0.72 0.76 0.71
density T2: card 0.5
density T2: Card 0.6
density T9: card 0.6
patch T2: card level 18450
scan T1: t1.tif, linear, same settings
scan T2: t2.tif, settings as T1
scan T3: t3.tif, auto
shutter 210: 1/60 measured 17.1 17.4 16.9 18.0 ms
`)
	t1, t2, t3 := labelled(t, s, "T1"), labelled(t, s, "T2"), labelled(t, s, "T3")
	if d := t1.Densities; len(d) != 2 || d[1].D != 0.73 || len(d[1].Readings) != 3 || d[1].Spot != "card" {
		t.Errorf("densities of T1: %+v", d)
	}
	if d := t2.Densities; len(d) != 1 || d[0].D != 0.6 {
		t.Errorf("densities of T2: %+v", d)
	}
	if p := t1.Patches; len(p) != 2 || p[0].Name != "sky" || p[0].Across != 0.4 || p[1].Name != "card" {
		t.Errorf("patches of T1: %+v", p)
	}
	if p := t2.Patches; len(p) != 2 || p[0].Level.Value != 18450 || p[0].Placed || p[1].Name != "sky" || p[1].Down != 0.12 {
		t.Errorf("patches of T2: %+v", p)
	}
	if t1.Test != "speed" || t1.Scene.Test != "speed" || t3.Test != "filter" || t3.Scene.Test != "" {
		t.Errorf("tests: %q %q %q", t1.Test, t3.Test, t3.Scene.Test)
	}
	if a, b, c := t1.Scans[0], t2.Scans[0], t3.Scans[0]; !a.Linear || a.Settings == "" || a.Settings != b.Settings || b.Linear || !c.Auto || c.Settings != "" {
		t.Errorf("scans: %+v %+v %+v", a, b, c)
	}
	codes := codesOf(s)
	for _, want := range []string{"patch-twice", "negative-without-entry"} {
		if !slices.Contains(codes, want) {
			t.Errorf("%s is not reported: %v", want, codes)
		}
	}
	if given := t2.Given.EV; !given.Known || given.Value < 11.855 || given.Value > 11.865 { // 6 + log2(1000/17.25), the two in the middle
		t.Errorf("T2 was given EV %v", given)
	}
}

// A scene that speaks of a test, with densities of its sheets, is one or is asked about; a title that says of
// what in plain words is one.
func TestScenesThatSpeakOfATest(t *testing.T) {
	const kit = "film harl: ISO 125, EI 64, pan\nfilter R25: red, 2⅔ stops\nmeter spot: EV at 100\nday: 2026-02-28, garage\nload F1-F2: harl\n"
	const sheets = "meter: EV 11 on V\nF1: no filter, 1/4 f16⅓\nF2: R25, 1/4 f5.6⅔\n"
	const measured = "density F1: base+fog 0.08, card 0.72\ndensity F2: base+fog 0.08, card 0.72\n"
	for title, kind := range map[string]string{
		"test filter, grey card": "filter", "filter test, grey card": "filter", "test: filter, grey card": "filter", "Filters test": "filter",
		"test filter R25, grey card": "filter", "filter test R25": "filter", "Test speed - grey card": "speed", "test R25": "", "test reciprocity harl": "", "a test of the R25": "",
		"the contest": "none", "gate": "none",
	} {
		for _, densities := range []string{measured, ""} {
			season, list := compileText(kit + "scene: " + title + "\n" + sheets + densities)
			asked, tested := 0, ""
			for _, d := range list {
				if d.Code == "test-unclear" {
					asked++
				}
			}
			if len(season.Tests) > 0 {
				tested = season.Tests[0].Kind
			}
			want := 0
			if kind == "" && densities != "" {
				want = 1
			}
			if asked != want || tested != strings.TrimSuffix(kind, "none") {
				t.Errorf("%s, densities %q: asked %d, a test of %q: %v", title, densities, asked, tested, list)
			}
		}
	}
}

// A finding about several sheets points to the first, and says on which lines the others stand.
func TestSheetsOfOneFindingAreFound(t *testing.T) {
	const kit = "film harl: EI 64, pan\nmeter spot: EV at 100\nday: 2026-02-28, garage\nload 1A-3B: harl\n"
	for lines, want := range map[string]string{
		"meter: EV 12\n1A: 1/60 f32\n\nwind\n1B: 1/60 f32\n2A: 1/60 f32\n": "also 1B on line 9, 2A on line 10",
		"1A: 1/4 f16\n\n1B: 1/4 f16\n":                                     "",
		"scene: gate\n1A: 1/4 f16\n\n1B: 1/4 f16\n":                        "also 1B on line 8",
		"scene: gate\n1A 1B: 1/4 f16\n":                                    "",
	} {
		_, list := compileText(kit + lines)
		said := ""
		for _, d := range list {
			for _, n := range d.Notes {
				if strings.HasPrefix(n.Text, "also ") {
					said += n.Text
				}
			}
		}
		if said != want {
			t.Errorf("%q: %q, want %q: %v", lines, said, want, list)
		}
	}
}

// A placed reading on a sheet's line in a form that is not read is shown as it is written.
func TestOddlyPlacedReadingsAreShownAsWritten(t *testing.T) {
	for _, said := range []string{"shadow (EV 10) on III", "Zone III = EV 10"} {
		_, list := compileText("film harl: EI 64, pan\nmeter spot: EV at 100\nday: 2026-02-28, garage\nload 1A: harl\n1A: " + said + ", 1/4 f16\n")
		if len(list) != 1 || len(list[0].Notes) != 2 || !strings.HasSuffix(list[0].Notes[1].Text, ": EV 10 on III") {
			t.Errorf("%s: %v", said, list)
		}
	}
}
