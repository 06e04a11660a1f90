package compile_test

import (
	"math"
	"notchbook/lang/diag"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Which value of a filter counts, and which light a sheet stands in, are rules of the
// notation (lang/NOTATION.md); the stops are log2 of the factors in the kit's lines.

const lamplitKit = `film slate: ISO 400, EI 400, pan, reciprocity none to 100s
film plate: ortho, EI 25, reciprocity none to 100s
film tarn: ISO 100, pan, tungsten EI 50, reciprocity none to 100s
filter Y8: x2, tungsten x1.5, ortho x3, ortho tungsten x2.5, slate tungsten x1.25, slate open shade x4
filter G11: x4, tungsten x3, ortho x2
lens 210: 210 mm
film: slate

day: 2026-11-07
`

func TestWhatAFilterCostsByFilmAndLight(t *testing.T) {
	for _, c := range []struct {
		light, sheet string
		stops        float64
	}{
		{"", "film tarn, Y8", 1},
		{"tungsten", "film tarn, Y8", 0.585},
		{"", "film plate, Y8", 1.585},
		{"two lamps, halogen", "film plate, Y8", 1.3219},
		{"tungsten", "Y8", 0.3219},
		{"open shade, calm", "Y8", 2},
		{"open shade, calm", "film tarn, Y8", 1},
	} {
		src := lamplitKit + "scene: a\nlight: " + c.light + "\nmeter: 4s f16\n1A: 4s f16, " + c.sheet + "\n"
		if c.light == "" {
			src = strings.Replace(src, "light: \n", "", 1)
		}
		season, _ := compileText(src)
		sh := season.Sheets[0]
		if len(sh.Steps) != 1 || math.Abs(sh.Steps[0].Stops-c.stops) > 0.001 {
			t.Errorf("%s, %q: steps %+v, want %g stops", c.sheet, c.light, sh.Steps, c.stops)
		}
	}
}

// A value for the film in any light and one for the light on any film leave open what
// the two together cost: between 1 and 1.585 stops nobody is blamed.
func TestBetweenTwoValuesNobodyIsBlamed(t *testing.T) {
	for given, want := range map[string]record.State{"4s": record.Off, "8s": record.Right, "12s": record.Right, "30s": record.Off} {
		season, _ := compileText(lamplitKit + "scene: a\nlight: tungsten\nmeter: 4s f16\n1A: film plate, G11, f16 " + given)
		if got := season.Sheets[0].State; got != want {
			t.Errorf("%s: %s, want %s", given, got, want)
		}
	}
}

func TestLightAndFiltersOverScenes(t *testing.T) {
	for _, c := range []struct {
		name, notes string
		want        record.State // of the last sheet
	}{
		{"light ahead of the scene", "light: tungsten\nscene: a\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16", record.Right},
		{"filter ahead of the scene", "filter: Y8\nscene: a\nmeter: 4s f16\n1A: 8s f16", record.Right},
		{"filter after the last sheet", "scene: a\nmeter: 4s f16\n1A: 4s f16\nfilter: Y8\nscene: b\nmeter: 4s f16\n1B: 8s f16", record.Right},
		{"filter of a scene without sheets", "scene: a\nfilter: Y8\nscene: b\nmeter: 4s f16\n1B: 4s f16", record.Right},
		{"filter of the scene before", "scene: a\nfilter: Y8\nmeter: 4s f16\n1A: 8s f16\nscene: b\nmeter: 4s f16\n1B: 8s f16", record.Off},
		{"right in the light before", "scene: a\nlight: tungsten\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16\nscene: b\nmeter: 4s f16 at EI 100\n1B: film tarn, 8s f16", record.Unchecked},
		{"right in daylight", "scene: a\nlight: tungsten\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16\nscene: b\nmeter: 4s f16 at EI 100\n1B: film tarn, 4s f16", record.Right},
		{"wrong in both", "scene: a\nlight: tungsten\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16\nscene: b\nmeter: 4s f16 at EI 100\n1B: film tarn, 30s f16", record.Off},
		{"light on the sheet's line", "scene: a\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16, tungsten", record.Right},
		{"light on the meter's line", "scene: a\nmeter: 4s f16 at EI 100, tungsten\n1A: film tarn, 8s f16", record.Right},
		{"a new day", "scene: a\nlight: tungsten\nmeter: 4s f16 at EI 100\n1A: film tarn, 8s f16\nday: 2026-11-08\nscene: b\nmeter: 4s f16 at EI 100\n1B: film tarn, 8s f16", record.Off},
	} {
		season, _ := compileText(lamplitKit + c.notes + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != c.want {
			t.Errorf("%s: %s, want %s (%v)", c.name, sh.State, c.want, sh.Needs)
		}
	}
}

// Several exposures on one sheet of film: light adds up (the reciprocity law), and what
// each was for is the photographer's to say.
func TestExposuresOnOneSheet(t *testing.T) {
	const off, right, unchecked = record.Off, record.Right, record.Unchecked
	for _, c := range []struct {
		notes string
		want  []record.State
	}{
		{"1A: metered 10s f16, gave 5s f16\n1A: again, 5s f16", []record.State{right, right}},
		{"1A: metered 10s f16, gave 5s f16, again, 5s f16", []record.State{right, right}},
		{"1A: metered 10s f16, gave 5s f16\n1A: second exposure, 5s f16", []record.State{right, right}},
		{"1A: metered 10s f16, gave 5s f16, double exposure\n1A: 5s f16", []record.State{right, right}},
		{"1A: metered 10s f16, gave 10s f16\n1A: again, metered 20s f16, gave 20s f16", []record.State{right, right}},
		{"1A: metered 10s f16, gave 10s f16\n1A: again, metered 20s f16, gave 60s f16", []record.State{right, off}},
		{"1A: metered 10s f16, gave 10s f16, again, 17s f16", []record.State{right, unchecked}},
		{"1A: metered 10s f16, gave 2s f16, again, 2s f16", []record.State{unchecked, unchecked}},
		{"1A: metered 10s f16, gave 40s f16, again, 2s f16", []record.State{off, unchecked}}, // nothing takes light away
		{"meter: 12s f16\n1A: 4s f16\n1A: again, 4s f16\n1A: again, 4s f16", []record.State{right, right, right}},
		{"1A: 10s f16, again, 17s f16", []record.State{unchecked, unchecked}},
	} {
		season, list := compileText(lamplitKit + c.notes + "\n")
		var got []record.State
		for _, sh := range season.Sheets {
			got = append(got, sh.State)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s\n\t%v, want %v", c.notes, got, c.want)
		}
		if i := slices.IndexFunc(list, func(d diag.Diagnostic) bool { return d.Code == "exposed-twice" || d.Code == "two-settings" }); i >= 0 {
			t.Errorf("%s\n\t%s", c.notes, list[i].Message)
		}
	}
}
