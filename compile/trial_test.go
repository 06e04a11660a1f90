package compile_test

import (
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

const testBench = "../examples/testbench/"

// benchSeason compiles the shipped test series, with lines added to its kit.
func benchSeason(t *testing.T, more string) *record.Season {
	t.Helper()
	season, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) {
		text, err := os.ReadFile(testBench + name)
		if name == "kit.md" && err == nil {
			text = append(text, more...)
		}
		return text, err
	}}, "2026-11-14-speed.md", "2026-11-21-development.md", "2026-11-28-filters.md", "2026-12-05-long-times.md")
	return season
}

func testOf(t *testing.T, s *record.Season, kind string) *record.Test {
	t.Helper()
	for _, test := range s.Tests {
		if test.Kind == kind {
			return test
		}
	}
	t.Fatalf("no test of %s", kind)
	return nil
}

func resultOf(t *testing.T, test *record.Test, of string) record.TestResult {
	t.Helper()
	for _, r := range test.Results {
		if r.Of == of {
			return r
		}
	}
	t.Fatalf("%s says nothing of %s", test.Name, of)
	return record.TestResult{}
}

// The series was made up from these figures, by a program that shares nothing with
// this one: film of EI 64 with its shutter 0.2 stop slow, R25 of 2.67 stops and Y8
// of 0.85, light that fades by 0.4 stop, reciprocity t^1.27 over 1 s; T5 got 1.4
// stops too much, T8 1.2 too little, F7 a stop too little.
func TestWhatTheTestBenchSays(t *testing.T) {
	s := benchSeason(t, "")
	for _, want := range []struct {
		kind, of   string
		value, off float64
	}{
		{"filter", "R25", 2.67, 0.1}, {"filter", "Y8", 0.85, 0.1}, {"filter", "drift of the light", -0.4, 0.12},
		{"reciprocity", "exponent", 1.27, 0.02}, {"meter", "spot against incident", 1. / 3, 0.01}, {"shutter", "1/60", 17.95, 0.001},
	} {
		r := resultOf(t, testOf(t, s, want.kind), want.of)
		if !r.Value.Known || math.Abs(r.Value.Value-want.value) > want.off {
			t.Errorf("%s: %v (%s), want %v", want.of, r.Value, r.Text, want.value)
		}
	}
	speed := testOf(t, s, "speed")
	if ei := resultOf(t, speed, "exposure index"); math.Abs(math.Log2(ei.Value.Value/64)) > 0.1 || ei.WithOdd == "" || len(ei.From) != 7 {
		t.Errorf("exposure index: %+v", ei)
	}
	if got := oddLabels(speed); !slices.Equal(got, []string{"T5", "T8"}) {
		t.Errorf("odd in the test of speed: %v", got)
	}
	if odd := testOf(t, s, "filter").Odd; len(odd) != 1 || odd[0].Sheet.Label != "F7" || !slices.Contains(odd[0].Known, "a car pulled up beside the wall") {
		t.Errorf("odd in the test of filters: %+v", odd)
	}
	for _, sh := range s.Sheets {
		if sh.State == record.Off {
			t.Errorf("%s is a sheet of a test and blamed", sh.Label)
		}
	}
}

func oddLabels(test *record.Test) []string {
	var all []string
	for _, o := range test.Odd {
		all = append(all, o.Sheet.Label)
	}
	slices.Sort(all)
	return all
}

// A kit that takes a line over compiles, has the figure, and leads back to the test.
func TestOffersCanBeAdopted(t *testing.T) {
	s := benchSeason(t, "")
	offered := 0
	for _, test := range s.Tests {
		for _, r := range test.Results {
			if r.Offer == "" || test.Kind == "meter" {
				continue
			}
			offered++
			again := benchSeason(t, "\n"+r.Offer+"\n")
			for _, f := range again.Findings {
				if f.Code != "declared-twice" && f.Severity != record.Note {
					t.Errorf("%s: %s", r.Offer, f.Message)
				}
			}
			linked := false
			for _, it := range again.Kit {
				linked = linked || it.Test != nil && it.Test.Name == test.Name && strings.Contains(r.Offer, it.Kind+" "+it.Name+":")
			}
			if !linked {
				t.Errorf("%s leads to no test", r.Offer)
			}
			if len(r.From) == 0 {
				t.Errorf("%s does not say from which sheets it comes", r.Offer)
			}
		}
	}
	if offered < 5 {
		t.Errorf("%d lines are offered", offered)
	}
}

// What a test lacks is said.
func TestWhatATestLacks(t *testing.T) {
	for notes, need := range map[string]string{
		"film slate: ISO 100\nmeter: EV 12\nscene: test speed, card\nmeter: EV 12\nT1: 1/60 f8\n":            "densities",
		"scene: test filters, wall\nT1: R25, 1/60 f8\nT2: 1/60 f8\ndensity T1 T2: base+fog 0.07, step 1 0.5": "wedge",
		"scene: test development, card\nmeter: EV 12\nT1: 1/60 f8\ndensity T1: base+fog 0.07, card 0.7":      "developing time",
		"scene: test meters, card\nmeter: EV 12\n":                                                           "two readings",
	} {
		s := yearsOf(t, "film x1: ISO 100\nload T1 T2: x1\n"+notes)
		if len(s.Tests) == 0 || !strings.Contains(strings.Join(s.Tests[0].Needs, "; "), need) {
			t.Errorf("%s\nneeds %+v", notes, s.Tests)
		}
	}
}

// Levels of a linear scan stand for densities through the wedge beside it; the
// levels are made from the densities by 10^(4.8-D).
func TestLevelsBecomeDensities(t *testing.T) {
	s := yearsOf(t, `film slate: ISO 100, EI 100
wedge: step 1 0.05, step 2 0.50, step 3 1.00, step 4 1.50
lens 210: 210 mm
load T1-T6: slate
scene: test speed, card
meter: EV 12
`+levelled())
	ei := resultOf(t, testOf(t, s, "speed"), "exposure index")
	if !ei.Value.Known || math.Abs(math.Log2(ei.Value.Value/100)) > 0.1 {
		t.Errorf("EI %+v", ei)
	}
}

// levelled is six sheets of a film with 0.10 at Zone I and a gradient of 0.6, as
// levels.
func levelled() string {
	text := ""
	for i, set := range []string{"1/125 f32", "1/60 f32", "1/60 f22", "1/60 f16", "1/60 f11", "1/60 f8"} {
		label := "T" + string(rune('1'+i))
		d := 0.07 + 0.10 + 0.6*math.Log10(2)*(float64(i)-1)
		if i == 0 {
			d = 0.07 + 0.02
		}
		text += label + ": " + set + "\n"
		text += "patch " + label + ": base+fog level " + level(0.07) + ", card level " + level(d)
		for step, w := range map[string]float64{"step 1": 0.05, "step 2": 0.5, "step 3": 1, "step 4": 1.5} {
			text += ", " + step + " level " + level(w)
		}
		text += "\n"
	}
	return text
}

func level(d float64) string { return strconv.FormatFloat(math.Pow(10, 4.8-d), 'f', 1, 64) }
