package compile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A film whose curve is a straight line of gradient 0.55, tested in whole stops: a
// difference of 0.30 in density is log₂ 10 · 0.30 / 0.55 = 1.81 stops of exposure.
func straight(develop string) string {
	var b strings.Builder
	b.WriteString("film slate: ISO 100, pan\nfilter R25: red, Wratten 25, x8\nday: 2026-11-01\nload T1-T8: slate\nscene: test speed, card\nmeter: EV 12\n")
	for i, setting := range []string{"1/60 f32", "1/60 f22", "1/60 f16", "1/60 f11", "1/60 f8", "1/60 f5.6", "1/30 f5.6", "1/15 f5.6"} {
		fmt.Fprintf(&b, "T%d: film slate, %s\ndensity T%d: base+fog 0.10, card %.4f\n", i+1, setting, i+1, 0.30+0.55*0.30103*float64(i))
	}
	return b.String() + "develop T1-T8: " + develop + "\n"
}

const skyAtKiln = `day: 2026-11-07
scene: Kiln
light: sun
3A: film slate, 1/8 f11
3B: film slate, R25, 1s f11
density 3A: base+fog 0.10, card 0.80, sky 1.00
density 3B: base+fog 0.10, card 0.80, sky 0.70
`

func TestDensitiesBecomeStopsByTheFilmsOwnCurve(t *testing.T) {
	for name, c := range map[string]struct {
		test, develop string
		stops         float64
		how           string
	}{
		"same time":            {"N, 9m, 20C", "N, 9m, 20C", math.Log2(10) * .30 / .55, "characteristic curve of slate after 9m, by the test 2026-11-01 T1-T8"},
		"the test says a time": {"9m", "N, 9m", math.Log2(10) * .30 / .55, "by the test 2026-11-01 T1-T8"},
		"N alone":              {"N", "N", math.Log2(10) * .30 / .55, "slate after N, by the test"},
		"both N−1":             {"N-1, 6m", "N-1, 6m", math.Log2(10) * .30 / .55, "slate after 6m, by the test"},
		"another time":         {"N, 9m", "N, 11m", .30 / .60 * 3, "no characteristic curve known of slate after 11m"},
		"another temperature":  {"N, 9m, 20C", "N, 9m, 24C", .30 / .60 * 3, "no characteristic curve known of slate after 9m"},
		"another dilution":     {"N, 9m, 1+31", "N, 9m, 1+63", .30 / .60 * 3, "no characteristic curve known of slate after 9m"},
	} {
		season, _ := compileText(straight(c.test) + skyAtKiln + "develop 3A 3B: " + c.develop + "\n")
		kiln := season.Outings[len(season.Outings)-1].Scenes[0]
		got := kiln.Compared
		if got == nil || len(got.Sheets) != 1 || len(got.Sheets[0].Spots) != 1 {
			t.Errorf("%s: %+v", name, got)
			continue
		}
		// By what N usually gives, 0.70 over base and fog is V and each 0.20 more a zone;
		// 0.60 lies two thirds of the way from I to V.
		if strings.HasPrefix(c.how, "no") {
			c.stops = (.90-.70)/.20 + 4*(.70-.60)/.60
		}
		if m := got.Sheets[0].Spots[0].Measured.Value; math.Abs(m+c.stops) > 0.02 {
			t.Errorf("%s: the sky went %.3f stops, want %.3f", name, m, -c.stops)
		}
		if !strings.Contains(got.How, c.how) {
			t.Errorf("%s: it says %q, not %q", name, got.How, c.how)
		}
		if known := kiln.Sheets[0].Curve != nil; known != !strings.HasPrefix(c.how, "no") {
			t.Errorf("%s: a curve is known: %v", name, known)
		}
	}
}

// Sheets of a scene are set against each other only by curves with one zero.
func TestCurvesOfOneTestAreSetAgainstEachOther(t *testing.T) {
	season, _ := compileText(straight("N, 9m") + skyAtKiln + "develop 3A: N, 9m\ndevelop 3B: N-1, 6m\n")
	got := season.Outings[len(season.Outings)-1].Scenes[0].Compared
	if got == nil || got.Sheets[0].Spots != nil || !strings.Contains(strings.Join(got.Sheets[0].Says, "\n"), "3B was developed N−1") {
		t.Errorf("%+v", got.Sheets[0])
	}
}
