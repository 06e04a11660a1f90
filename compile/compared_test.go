package compile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// worked is a scene reckoned by hand. By the densities that N usually gives, .55 over base
// and fog is Zone IV, .70 V, .90 VI and 1.10 VII (.10 at I, .70 at V, 1.30 at VIII, straight
// between). The filter costs 3 stops, takes a stop from the sky and gives a stop to the
// brick; from the first sheet to the third the light goes down by a stop, so that half a
// stop is gone on the second: V½ less is .625, VI½ less .80.
const worked = `film slate: ISO 100, pan
filter R25: red, Wratten 25, x8
day: 2026-11-07
scene: Kiln
light: sun
3A: film slate, 1/8 f11
3B: film slate, R25, 1s f11
4A: film slate, 1/8 f11
density 3A: base+fog 0.10, %[1]s0.80, sky 1.20, kiln 0.65
density 3B: base+fog 0.10, %[1]s0.725, sky 0.90, kiln 0.725
density 4A: base+fog 0.10, %[1]s0.65, sky 1.00, kiln 0.50
`

// compared is the one comparison of some notes.
func compared(t *testing.T, notes string) *record.Compared {
	t.Helper()
	season, list := compileText(notes)
	for _, d := range list {
		if d.Code != "unchecked" {
			t.Error(d)
		}
	}
	return season.Outings[len(season.Outings)-1].Scenes[0].Compared
}

func TestWhatTheFilterDid(t *testing.T) {
	c := compared(t, fmt.Sprintf(worked, "card "))
	if c == nil || len(c.Controls) != 2 || len(c.Sheets) != 1 || !strings.Contains(c.Drift, "went down 1 stop") {
		t.Fatalf("%+v", c)
	}
	f := c.Sheets[0]
	if math.Abs(f.Measured.Value-3) > 0.01 || f.Declared.Value != 3 || !f.Forecast.Known {
		t.Errorf("the filter costs %+v by the card, %+v declared, %+v forecast", f.Measured, f.Declared, f.Forecast)
	}
	want := map[string]float64{"sky": -1, "kiln": 1}
	for _, m := range f.Spots {
		if math.Abs(m.Measured.Value-want[m.Spot]) > 0.01 || !m.Forecast.Known {
			t.Errorf("%+v, want %g", m, want[m.Spot])
		}
		delete(want, m.Spot)
	}
	if len(want) > 0 {
		t.Errorf("%v is not compared", want)
	}
	says := strings.Join(f.Says, "\n")
	for _, line := range []string{"costs 3 stops as declared, 3 stops by the card, 2⅔ stops as forecast", "sky went down 1 stop, forecast 1 (clear sky)", "kiln went up 1 stop, forecast 1 (red brick)"} {
		if !strings.Contains(says, strings.TrimSuffix(line, " (clear sky)")) {
			t.Errorf("it is not said that %s:\n%s", line, says)
		}
	}
}

// Without a card the filter is taken to cost what is declared.
func TestWithoutACardTheDeclaredValueCounts(t *testing.T) {
	f := compared(t, fmt.Sprintf(worked, "gable "))
	m := f.Sheets[0]
	if m.Measured.Known || math.Abs(m.Spots[1].Measured.Value+1) > 0.01 || m.Spots[0].Forecast.Known {
		t.Errorf("%+v", m)
	}
}

// Levels of linear scans say the same as densities: a density is the logarithm of how much
// less light comes through than through the clear film.
func TestLevelsOfLinearScansAreDensities(t *testing.T) {
	level := func(over float64) string { return fmt.Sprintf("%.1f", 60000*math.Pow(10, -over)) }
	notes := strings.Split(fmt.Sprintf(worked, "card "), "density 3A")[0] + "scan: scans/{sheet}.tif, linear, same settings\n"
	for _, s := range []struct {
		label           string
		card, sky, kiln float64
	}{{"3A", .70, 1.10, .55}, {"3B", .625, .80, .625}, {"4A", .55, .90, .40}} {
		notes += fmt.Sprintf("patch %s: base level 60000, card level %s, sky level %s, kiln level %s\n", s.label, level(s.card), level(s.sky), level(s.kiln))
	}
	season, _ := compileText(notes)
	c := season.Outings[len(season.Outings)-1].Scenes[0].Compared
	if c == nil || math.Abs(c.Sheets[0].Measured.Value-3) > 0.01 || len(c.Sheets[0].Spots) != 2 || math.Abs(c.Sheets[0].Spots[0].Measured.Value+1) > 0.01 {
		t.Errorf("%+v", c.Sheets[0])
	}
	season, _ = compileText(strings.Replace(notes, "linear, ", "", 1))
	if c := season.Outings[len(season.Outings)-1].Scenes[0].Compared; len(c.Sheets[0].Spots) != 0 {
		t.Error("levels of a scan that is not said to be linear are taken for densities")
	}
}

// What cannot be compared is not.
func TestWhatIsNotCompared(t *testing.T) {
	text := fmt.Sprintf(worked, "card ")
	for name, c := range map[string]struct {
		notes string
		none  bool   // no comparison at all
		says  string // else
	}{
		"other development": {text + "develop 3B: N-1\n", false, "3B was developed N−1"},
		"other film":        {strings.Replace("film plate: ortho\n"+text, "film slate, R25", "film plate, R25", 1), true, ""},
		"no control":        {strings.ReplaceAll(text, "film slate, 1/8", "film slate, R25, 1/8"), true, ""},
		"class not known":   {strings.Replace(text, ", pan", "", 1), false, "sky went down 1 stop"},
		"a test":            {strings.Replace(text, "scene: Kiln", "scene: test filter, kiln", 1), true, ""},
		"under cloud":       {strings.Replace(text, "light: sun", "light: overcast", 1), false, "sky went down 1 stop, forecast 0 (white cloud)"},
		"toe":               {strings.Replace(text, "sky 0.90", "sky 0.15", 1), false, "kiln went up 1 stop"},
	} {
		season, _ := compileText(c.notes)
		got := season.Outings[len(season.Outings)-1].Scenes[0].Compared
		if (got == nil) != c.none {
			t.Errorf("%s: %+v", name, got)
		} else if got != nil {
			if says := strings.Join(got.Sheets[0].Says, "\n"); !strings.Contains(says, c.says) || name == "toe" && strings.Contains(says, "sky") {
				t.Errorf("%s: it says\n%s", name, says)
			}
		}
	}
}

// The caution of the sun stands with the outings that have a dense filter or the sun in
// the picture, and with no others.
func TestCautionsStandWithTheirOuting(t *testing.T) {
	season, _ := compileText("film slate: ISO 100, pan\nfilter grey: nd 1.8\nday: 2026-11-07\nscene: Weir\n3A: film slate, grey, 1s f11\nday: 2026-11-08\nscene: Kiln\n3B: film slate, 1/8 f11\nday: 2026-11-09\nscene: Ridge\nlight: sun in frame\n4A: film slate, 1/8 f11\n")
	var got []int
	for _, o := range season.Outings {
		got = append(got, len(o.Cautions))
		for _, c := range o.Cautions {
			if !strings.Contains(c, "never look at the sun") {
				t.Error(c)
			}
		}
	}
	if fmt.Sprint(got) != "[1 0 1]" {
		t.Errorf("cautions by outing: %v", got)
	}
}
