package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// A test of a filter of 2 stops on film of which a stop is 0.19 of density, and of a developed shorter half of that: 0.95 is what the card has
// with the settings that were read, and one stop less is 0.76.
const filterTest = `film fell: ISO 100, EI 64, pan
filter O21: orange, 2 stops
day: 2026-12-12
load F1-F9: fell
scene: test filter O21
meter: 1/8 f16
F1: no filter, 1/8 f16
F2: O21, 1/8 f11
F3: O21, 1/8 f8
F4: no filter, 1/8 f22
`

const filterDensities = `density F1: base+fog 0.09, card 0.95
density F2: base+fog 0.09, card 0.76
density F3: base+fog 0.09, card 0.95
density F4: base+fog 0.09, card 0.76
`

func filterTestsOf(t *testing.T, lines string) (all []*record.Test) {
	t.Helper()
	season, list := compileText(filterTest + lines)
	for _, test := range season.Tests {
		if test.Kind == "filter" {
			all = append(all, test)
		}
	}
	if len(all) == 0 || len(all[0].Results) == 0 || !strings.HasPrefix(all[0].Results[0].Text, "2 stops (2.0") {
		t.Errorf("%q: %+v %v", lines, all, list)
	}
	return all
}

// Sheets that were developed in different ways are tests by themselves: no curve is of two developments.
func TestDevelopmentsAreNotMixed(t *testing.T) {
	const six = "F5: O21, 1/8 f8\nF6: O21, 1/8 f8\n" + filterDensities + "density F5: base+fog 0.09, card 0.83\ndensity F6: base+fog 0.09, card 0.83\n"
	for _, lines := range []string{
		"develop F1-F4: 2026-12-13, N, 7m\ndevelop F5 F6: 2026-12-14, N-1, 5:30\n", "develop F1 F2: 2026-12-13, N, 7m\ndevelop F3 F4: 2026-12-13, N, 7m, 20C\ndevelop F5 F6: 2026-12-14, N, 5:30\n",
		"develop F1-F4: 2026-12-13, N\ndevelop F5 F6: 2026-12-14, N-1\n",
	} {
		all := filterTestsOf(t, six+lines)
		if len(all) != 2 || len(all[0].Sheets) != 4 || len(all[1].Sheets) != 2 || !strings.Contains(all[0].Title, "developed N") {
			t.Errorf("%q: %+v", lines, all)
		}
	}
	if all := filterTestsOf(t, filterDensities+"develop F1 F2: 2026-12-13, N, 7m\n"); len(all) != 1 || all[0].Title != "Filters, fell" {
		t.Errorf("of one development: %+v", all)
	}
}

// A light that fell by so much is counted; a sheet whose light changed nobody knows by how much is left out, and that is said.
func TestLightThatChangedDuringATest(t *testing.T) {
	all := filterTestsOf(t, "F5: no filter, 1/8 f11\nF6: O21, 1/8 f11, light fell 1 stop\nF7: no filter, 1/8 f16, light fell 1 stop\n"+filterDensities+
		"density F5: base+fog 0.09, card 1.14\ndensity F6: base+fog 0.09, card 0.57\ndensity F7: base+fog 0.09, card 0.76\n")
	if len(all[0].Needs) > 0 || len(all[0].Results[0].From) != 7 {
		t.Errorf("%+v", all[0])
	}
	for _, words := range []string{"light fading", "light fell 1 stop?", "light fell a stop during exposure"} {
		all := filterTestsOf(t, "F5: no filter, 1/8 f16, "+words+"\n"+filterDensities+"density F5: base+fog 0.09, card 0.30\n")
		if needs := strings.Join(all[0].Needs, "; "); !strings.HasPrefix(needs, "by how much the light changed on F5") || len(all[0].Results[0].From) != 4 {
			t.Errorf("%q: %s, from %d sheets", words, needs, len(all[0].Results[0].From))
		}
	}
}

// A figure that is not told to half a stop is not told, nor a difference that reads as none.
func TestFiguresThatSayNothing(t *testing.T) {
	season, _ := compileText(filterTest + strings.ReplaceAll(filterDensities, "F4: base+fog 0.09, card 0.76", "F4: base+fog 0.09, card 1.60"))
	for _, r := range season.Tests[0].Results {
		if r.Text != "" || r.Value.Known || r.Error.Known || r.Why == "" {
			t.Errorf("%s: %+v", r.Of, r)
		}
	}
	season, _ = compileText("lens 150: 150 mm\nlens: 150\nshutter 150: 1/60 measured 16 ms\nmeter: 1/60 f16\n1A: 1/60 f16\n")
	if r := season.Tests[0].Results[0]; len(r.Effects) > 0 {
		t.Errorf("%+v", r)
	}
}
