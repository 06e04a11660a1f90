package compile_test

import (
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

const testBench = "../examples/testbench/"

// benchSeason compiles the shipped test series.
func benchSeason(t *testing.T) *record.Season {
	t.Helper()
	season, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) {
		return os.ReadFile(testBench + name)
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
	s := benchSeason(t)
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

// adopted is the shipped kit with the line that names the same thing replaced by
// another, or with the line added.
func adopted(kit, line string) string {
	head, _, _ := strings.Cut(line, ":")
	var all []string
	found := false
	for _, l := range strings.Split(kit, "\n") {
		if strings.HasPrefix(l, head+":") {
			l, found = line, true
		}
		all = append(all, l)
	}
	if !found {
		all = append(all, line)
	}
	return strings.Join(all, "\n") + "\n"
}

// seasonOf compiles notebooks by their names.
func seasonOf(files map[string]string) *record.Season {
	var names []string
	for name := range files {
		if name != "kit.md" {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	s, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) {
		if text, ok := files[name]; ok {
			return []byte(text), nil
		}
		return nil, os.ErrNotExist
	}}, names...)
	return s
}

// testBenchFiles is the shipped test series, and a walk that used its kit.
func testBenchFiles(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{}
	for _, name := range []string{"kit.md", "2026-11-14-speed.md", "2026-11-21-development.md", "2026-11-28-filters.md", "2026-12-05-long-times.md"} {
		text, err := os.ReadFile(testBench + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(text)
	}
	files["2026-12-12-walk.md"] = `use: kit.md
day: 2026-12-12, the weir
load 1A-4B: marl
scene: weir from the bank
light: hazy sun
lens: 210
meter: EV 12
1A: 1/60 f8
1B: 1/60 f8½
2A: R25, 1/8 f8
2B: Y8, 1/30 f8
3A: 1/4 f32
3B: 1/30 f11
4A: ND 3.0, 8s f8 -- still water
4B: 1/60 f5.6
`
	return files
}

// Every line that is offered, taken over one after the other in the place of the
// kit's own, compiles with no finding of the kit that was not there, is what the
// kit then says, leads back to its test, and moves the sheets that were logged by
// what the test said it would.
func TestOffersCanBeAdopted(t *testing.T) {
	files := testBenchFiles(t)
	s := seasonOf(files)
	had := map[string]bool{}
	ofKit := func(s *record.Season) (all []string) {
		for _, f := range s.Findings {
			if f.Place.Path == "kit.md" {
				all = append(all, f.Message)
			}
		}
		return all
	}
	for _, m := range ofKit(s) {
		had[m] = true
	}
	adoptedTests := map[string][]string{} // by the thing of the kit
	tried := map[string]bool{}
	offers := 0
	for {
		test, r := nextOffer(s, tried)
		if test == nil {
			break
		}
		offers++
		tried[test.Name+" "+r.Of] = true
		if len(r.From) == 0 && !strings.Contains(r.How, "2026-12-05-long-times.md:31 to 35") { // meters are compared on lines
			t.Errorf("%s does not say from which sheets it comes", r.Offer)
		}
		for _, o := range test.Odd {
			if slices.Contains(r.From, o.Sheet) {
				t.Errorf("%s is from %s, which does not belong", r.Offer, o.Sheet.Label)
			}
		}
		files["kit.md"] = adopted(files["kit.md"], r.Offer)
		again := seasonOf(files)
		for _, m := range ofKit(again) {
			if !had[m] {
				t.Errorf("%s: %s", r.Offer, m)
			}
		}
		thing, _, _ := strings.Cut(r.Offer, ":")
		adoptedTests[thing] = append(adoptedTests[thing], test.Name)
		for _, it := range again.Kit {
			for _, name := range adoptedTests[it.Kind+" "+it.Name] {
				if !slices.ContainsFunc(it.Tests, func(of *record.Test) bool { return of.Name == name }) {
					t.Errorf("%s leads to %v, not to %s", it.Source, it.Tested, name)
				}
			}
			if it.Kind+" "+it.Name == thing && it.Source != r.Offer {
				t.Errorf("the kit has %q, and %q was offered", it.Source, r.Offer)
			}
		}
		heldAgainst(t, r, s, again, test.Kind)
		s = again
	}
	if offers != 6 {
		t.Errorf("%d lines are offered", offers)
	}
	for _, want := range []string{"EI 64", "N 8:55", "N+1 11:55", "reciprocity t^1.27", "R25: red, Wratten 25, 2⅔ stops", "offset -1/3"} {
		if !strings.Contains(files["kit.md"], want) {
			t.Errorf("the kit lacks %s:\n%s", want, files["kit.md"])
		}
	}
}

// Whatever the kit says of a filter, for which film and which light: the value that a
// test offers is the one by which the sheets of that test are reckoned from then on, and
// what the kit says of others stays.
func TestOfferedValueIsTheOneThatCounts(t *testing.T) {
	for _, c := range []struct{ film, light, values, want string }{
		{"pan", "hazy sun", "x2", "0.9 stop"},
		{"pan", "hazy sun", "pan x2", "pan 0.9 stop"},
		{"pan", "hazy sun", "x2, daylight x2½", "x2, daylight 0.9 stop"},
		{"pan", "hazy sun", "x2, marl x4", "x2, marl 0.9 stop"},
		{"pan", "hazy sun", "x2, ortho x4", "0.9 stop, ortho x4"},
		{"pan", "open shade", "x2, open shade x4", "x2, open shade 0.9 stop"},
		{"pan", "tungsten", "x2", "x2, tungsten 0.9 stop"},
		{"pan", "tungsten", "x2, tungsten x4", "x2, tungsten 0.9 stop"},
		{"pan", "tungsten", "x2, marl x4", "x2, marl x4, marl tungsten 0.9 stop"},
		{"ortho", "hazy sun", "x2", "x2, ortho 0.9 stop"},
		{"ortho", "hazy sun", "x2, ortho x4, marl x5", "x2, ortho x4, marl 0.9 stop"},
		{"ortho", "tungsten", "x2, ortho x4, marl x5", "x2, ortho x4, marl x5, marl tungsten 0.9 stop"},
		{"ortho", "tungsten", "x2, tungsten x3, ortho x4", "x2, tungsten x3, ortho x4, ortho tungsten 0.9 stop"},
	} {
		files := testBenchFiles(t)
		notes := "2026-11-28-filters.md"
		files[notes] = strings.Replace(files[notes], "light: hazy sun", "light: "+c.light, 1)
		files["kit.md"] = strings.Replace(files["kit.md"], "100, pan,", "100, "+c.film+",", 1)
		files["kit.md"] = strings.Replace(files["kit.md"], "Wratten 8, x2", "Wratten 8, "+c.values, 1)
		of := func(files map[string]string) record.TestResult {
			for _, test := range seasonOf(files).Tests {
				for _, r := range test.Results {
					if test.Kind == "filter" && r.Of == "Y8" {
						return r
					}
				}
			}
			t.Fatalf("%+v: no result", c)
			return record.TestResult{}
		}
		offer := of(files).Offer
		if !strings.Contains(offer, "Wratten 8, "+c.want+", test ") {
			t.Errorf("%s film, %s, %q: offered is %q", c.film, c.light, c.values, offer)
		}
		files["kit.md"] = adopted(files["kit.md"], offer)
		if r := of(files); !strings.HasSuffix(r.Declared, "the test finds the same") {
			t.Errorf("%s film, %s: behind %q the kit says %q", c.film, c.light, offer, r.Declared)
		}
	}
}

func nextOffer(s *record.Season, tried map[string]bool) (*record.Test, record.TestResult) {
	for _, test := range s.Tests {
		for _, r := range test.Results {
			if r.Offer != "" && !tried[test.Name+" "+r.Of] {
				return test, r
			}
		}
	}
	return nil, record.TestResult{}
}

// heldAgainst holds what a figure was said to move against the season compiled
// again with it. A meter at the index of the film is set anew by whoever adopts
// another, so of the index what was not moved says nothing.
func heldAgainst(t *testing.T, r record.TestResult, before, after *record.Season, kind string) {
	t.Helper()
	said := map[string]record.Moved{}
	for _, m := range r.Moves {
		said[m.Sheet.ID] = m
	}
	if kind == "development" || kind == "meter" {
		return
	}
	moved := 0
	for i, sh := range after.Sheets {
		was := before.Sheets[i]
		if sh.Test != "" || !sh.Difference.Known || !was.Difference.Known {
			continue
		}
		by := sh.Difference.Value - was.Difference.Value
		m := said[sh.ID]
		if kind == "speed" && by == 0 {
			continue
		}
		if math.Abs(by) > 1e-6 {
			moved++
		}
		if math.Abs(m.By-by) > 1e-6 {
			t.Errorf("%s: %s moves by %.3f, and was said to by %.3f", r.Offer, sh.Label, by, m.By)
		}
		if m.Sheet != nil && m.Now != sh.State {
			t.Errorf("%s: %s is %s, and was said to be %s", r.Offer, sh.Label, sh.State, m.Now)
		}
	}
	if moved == 0 && len(r.Moves) == 0 {
		t.Errorf("%s moves nothing", r.Offer)
	}
}

// What a shutter's figures moved is what the season is without its line; what a
// film's index would is what it is with it, where the meter shows EV at ISO 100.
func TestTestsTellWhatTheyMove(t *testing.T) {
	files := testBenchFiles(t)
	files["kit.md"] += "meter spot: EV at 100\n"
	with := seasonOf(files)
	bare := maps.Clone(files)
	var lines []string
	for _, l := range strings.Split(files["2026-11-14-speed.md"], "\n") {
		if !strings.HasPrefix(l, "shutter 210:") {
			lines = append(lines, l)
		}
	}
	bare["2026-11-14-speed.md"] = strings.Join(lines, "\n")
	without := seasonOf(bare)
	said := map[string]float64{}
	states := map[string][2]record.State{}
	for _, r := range testOf(t, with, "shutter").Results {
		for _, m := range r.Moves {
			said[m.Sheet.ID] = m.By
			states[m.Sheet.ID] = [2]record.State{m.Was, m.Now}
		}
	}
	moved, turned := 0, 0
	for i, sh := range with.Sheets {
		was := without.Sheets[i]
		if !sh.Difference.Known {
			continue
		}
		by := sh.Difference.Value - was.Difference.Value
		if math.Abs(by) < 1./60 {
			by = 0
		} else {
			moved++
		}
		if math.Abs(said[sh.ID]-by) > 1e-6 {
			t.Errorf("%s %s moves by %.3f, and was said to by %.3f", sh.Label, sh.Given.Time, by, said[sh.ID])
		}
		if by != 0 && states[sh.ID] != [2]record.State{was.State, sh.State} {
			t.Errorf("%s goes from %s to %s, and was said to go %v", sh.Label, was.State, sh.State, states[sh.ID])
		}
		if was.State != sh.State {
			turned++
		}
	}
	if moved < 8 || turned == 0 {
		t.Errorf("%d sheets move, %d come out otherwise", moved, turned)
	}

	index := resultOf(t, testOf(t, with, "speed"), "exposure index")
	line := index.Offer
	again := maps.Clone(files)
	again["kit.md"] = adopted(files["kit.md"], line)
	heldAgainst(t, index, with, seasonOf(again), "index")
	if len(index.Effects) != 3 || !strings.HasPrefix(index.Effects[1], "off with it and not without: 2026-12-12 ") || !strings.HasPrefix(index.Effects[2], "right with it, and without: 2026-12-12 ") {
		t.Errorf("%q", index.Effects)
	}
	if len(index.Moves) != 8 || !strings.HasPrefix(index.Effects[0], "needed ⅔ stop more: 2026-12-12 ") {
		t.Errorf("%d sheets move: %q", len(index.Moves), index.Effects)
	}
}

// The reciprocity of a film of which the kit says nothing is what such a test is for:
// the shipped one says the same without the kit's rule.
func TestReciprocityOfAFilmWithoutARule(t *testing.T) {
	files := testBenchFiles(t)
	with := resultOf(t, testOf(t, seasonOf(files), "reciprocity"), "exponent")
	files["kit.md"] = strings.Replace(files["kit.md"], ", reciprocity t^1.31 over 1s", "", 1)
	without := resultOf(t, testOf(t, seasonOf(files), "reciprocity"), "exponent")
	if !without.Value.Known || without.Value != with.Value || without.Text != with.Text {
		t.Errorf("with the kit's rule %s, without it %s (%s)", with.Text, without.Text, without.Why)
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

// A shutter speed timed on two days counts from each on as it was timed then, and both are named.
func TestShutterTimedTwice(t *testing.T) {
	files := testBenchFiles(t)
	files["2026-11-21-development.md"] += "\nshutter 210: 1/60 measured 16 16.2 15.9 ms\n"
	var first, second record.TestResult
	for _, r := range testOf(t, seasonOf(files), "shutter").Results {
		if r.Of == "1/60" {
			first, second = second, r
		}
	}
	if second.Value.Value != 16 || second.Why != "" {
		t.Errorf("the last: %+v", second)
	}
	if !strings.Contains(first.Why, "2026-11-14") || !strings.Contains(first.Why, "2026-11-21") || len(first.Moves) == 0 {
		t.Errorf("the first: %+v", first)
	}
}

// A sheet without a density is named, and takes nothing from what the others tell, be
// it the longest of the times or one among them.
func TestSheetWithoutADensity(t *testing.T) {
	for _, gone := range []string{"L4", "L6"} {
		files := testBenchFiles(t)
		var lines []string
		for _, l := range strings.Split(files["2026-12-05-long-times.md"], "\n") {
			if !strings.HasPrefix(l, "density "+gone+":") {
				lines = append(lines, l)
			}
		}
		files["2026-12-05-long-times.md"] = strings.Join(lines, "\n")
		test := testOf(t, seasonOf(files), "reciprocity")
		if r := resultOf(t, test, "exponent"); !r.Value.Known || math.Abs(r.Value.Value-1.27) > 0.03 {
			t.Errorf("without %s: %+v", gone, r)
		}
		if !strings.Contains(strings.Join(test.Needs, "; "), "the density of "+gone) {
			t.Errorf("without %s it would take %q", gone, test.Needs)
		}
	}
}

// Losses that bend away from any power law are offered as a table, which the kit reads back
// as what the test found: every time then loses by the kit what it lost in the test, to the
// two figures that a table is written to.
func TestLossesWithoutALawAreOfferedAsATable(t *testing.T) {
	files := testBenchFiles(t)
	notes := "2026-12-05-long-times.md"
	seconds := map[string]float64{"L1": 0.5, "L2": 2, "L3": 0.4, "L4": 0.9, "L5": 1.5, "L6": 2.4}
	losses := map[string]float64{"L1": 0, "L2": 0, "L3": 0.4, "L4": 0.9, "L5": 1.5, "L6": 2.4}
	var lines []string
	for _, l := range strings.Split(files[notes], "\n") {
		label, _, ok := strings.Cut(strings.TrimPrefix(l, "density "), ":")
		if !ok || !strings.HasPrefix(l, "density ") {
			lines = append(lines, l)
			continue
		}
		line := "density " + label + ": base+fog 0.08 0.08"
		for step := range 9 { // a straight film of a gradient of 0.6 behind the tablet's steps of a stop
			line += fmt.Sprintf(", step %d %.3f", step+1, 0.08+max(0.6*0.30103*(7-float64(step)-losses[label]), 0))
		}
		lines = append(lines, line)
	}
	files[notes] = strings.Join(lines, "\n")
	exponent := resultOf(t, testOf(t, seasonOf(files), "reciprocity"), "exponent")
	if !strings.Contains(exponent.Why, "follows no power law") || !strings.Contains(exponent.Offer, "reciprocity 8s=") && !strings.Contains(exponent.Offer, "=8s") {
		t.Fatalf("%q, offered %q", exponent.Why, exponent.Offer)
	}
	files["kit.md"] = adopted(files["kit.md"], exponent.Offer)
	again := testOf(t, seasonOf(files), "reciprocity")
	for label, loss := range losses {
		if seconds[label] < 2 {
			continue
		}
		for _, r := range again.Results {
			if r.Of == exposure.FormatTime(seconds[label]) && !strings.Contains(r.Declared, fmt.Sprintf("%.1f", loss)) {
				t.Errorf("at %s the kit says %q, and %.1f stop were lost", r.Of, r.Declared, loss)
			}
		}
	}
}

// What the densities stand over is said: one base and fog where the sheets of a bath agree
// on it, and each sheet's own where they differ by more than their readings.
func TestWhatDensitiesStandOver(t *testing.T) {
	files := testBenchFiles(t)
	const one, own = "the base and fog of sheets that were developed together is one", "each sheet stands over its own"
	notes := func() string { return strings.Join(testOf(t, seasonOf(files), "filter").Notes, "\n") }
	if said := notes(); !strings.Contains(said, one) || strings.Contains(said, own) {
		t.Errorf("%s", said)
	}
	filters := "2026-11-28-filters.md"
	files[filters] = strings.Replace(files[filters], "F5: base+fog 0.09 0.08", "F5: base+fog 0.29 0.28", 1)
	if said := notes(); !strings.Contains(said, own) || strings.Contains(said, one) {
		t.Errorf("with a fogged sheet: %s", said)
	}
}

// A wedge holds from its line to the next in its notebook: what a later test was made through
// says nothing of the one before, and a line that stands below its only test is still its own.
func TestWedgeHoldsToTheNext(t *testing.T) {
	const kit = "film slate: ISO 100, EI 100\nlens 210: 210 mm\n\nday: 2026-11-07\nload T1-T6: slate\n"
	const wedge, other = "wedge: step 1 0.05, step 2 0.50, step 3 1.00, step 4 1.50\n", "wedge: step 1 0.05, step 2 0.30, step 3 0.60, step 4 0.90\n"
	test := "scene: test speed, card\nmeter: EV 12\n" + levelled()
	for name, notes := range map[string]string{
		"ahead": wedge + test, "ahead of the day's next": wedge + test + "\nday: 2026-11-09\n" + other, "below": test + wedge, "behind another": other + wedge + test,
		"within the scene": strings.Replace(test, "T1:", wedge+"T1:", 1), "the day before": wedge + "\nday: 2026-11-08\nload T1-T6: slate\n" + test,
	} {
		ei := resultOf(t, testOf(t, yearsOf(t, kit+notes), "speed"), "exposure index")
		if !ei.Value.Known || math.Abs(math.Log2(ei.Value.Value/100)) > 0.1 {
			t.Errorf("%s: EI %+v", name, ei)
		}
	}
}

// greyCards is a test of reciprocity with grey cards: the film has a toe and a straight line
// of a gradient of 0.6, and follows t^1.30 over 1 s; the densities scatter by 0.01.
func greyCards(settings string) string {
	text := "film slate: ISO 100, EI 100\nlens 210: 210 mm\nmeter spot: EV at EI\n\nday: 2026-11-07\nload T1-T20: slate\nscene: test reciprocity, grey card\nmeter: EV 9\n"
	scatter := []float64{0.4, -1.1, 0.8, -0.3, 1.2, -0.7, 0.1, -0.9, 0.6, 1.0, -0.5, 0.2, -1.2, 0.9}
	for i, set := range strings.Split(settings, ", ") {
		time, aperture, _ := strings.Cut(set, " ")
		seconds := parseTime(time)
		onFilm := seconds
		if seconds > 1 {
			onFilm = math.Pow(seconds, 1/1.3)
		}
		av := 2 * math.Log2(map[string]float64{"f5.6": math.Sqrt(32), "f8": 8, "f11": math.Sqrt(128), "f16": 16, "f22": math.Sqrt(512), "f32": 32, "f45": math.Sqrt(2048)}[aperture])
		stops := 9 - av + math.Log2(onFilm) // from Zone V
		d := 0.1 + 0.6*0.30103*math.Log2(1+math.Exp2(stops+4)) + 0.01*scatter[i%len(scatter)]
		text += fmt.Sprintf("T%d: %s\ndensity T%d: base+fog 0.09 0.10 0.11, card %.2f\n", i+1, set, i+1, d)
	}
	return text
}

// parseTime is the exact seconds of a time as marked: 1/15 is a sixteenth.
func parseTime(text string) float64 {
	if den, ok := strings.CutPrefix(text, "1/"); ok {
		n, _ := strconv.ParseFloat(den, 64)
		return math.Exp2(-math.Round(math.Log2(n)))
	}
	total, _ := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(text, "s"), "m"), 64)
	if strings.HasSuffix(text, "m") {
		total *= 60
	}
	return total
}

// Grey cards at many times make a curve of those at which no film fails, whatever their
// times and apertures; where even those are too few it is said which are lacking.
func TestReciprocityOfGreyCards(t *testing.T) {
	for settings, together := range map[string]bool{
		"1/15 f8, 1/15 f5.6, 1/8 f8, 1/8 f5.6, 1/4 f8, 1/2 f11, 1s f8, 2s f11, 4s f16, 8s f11, 15s f22, 30s f22, 2m f32, 4m f45": true,
		"1/15 f11, 1/15 f5.6, 1/4 f11, 1/2 f11, 1/2 f8, 1s f11, 1s f5.6, 2s f8, 8s f22, 30s f32, 1m f32, 4m f45":                 false,
	} {
		test := testOf(t, yearsOf(t, greyCards(settings)), "reciprocity")
		exponent := resultOf(t, test, "exponent")
		if !exponent.Value.Known || math.Abs(exponent.Value.Value-1.3) > max(2.5*exponent.Error.Value, 0.02) || exponent.Error.Value > 0.05 || !strings.Contains(exponent.Offer, "over 1s") {
			t.Errorf("%s: %s ±%.3f, %s, offered %q, needs %q", settings, exponent.Text, exponent.Error.Value, exponent.Why, exponent.Offer, test.Needs)
		}
		if said := strings.Join(test.Notes, "\n"); strings.Contains(said, "the times from 1/15 to 1 s are taken as one that loses nothing") != together || !strings.Contains(said, "tested from 1/15 to 4m") {
			t.Errorf("%s: %s", settings, said)
		}
	}
	test := testOf(t, yearsOf(t, greyCards("1/2 f8, 2s f11, 4s f16")), "reciprocity")
	if said := strings.Join(test.Needs, "; "); !strings.Contains(said, "four exposures that differ at times of no reciprocity failure") {
		t.Errorf("too few: %s", said)
	}
}

// Two meters of which the kit corrects one or both, in any order, and one that shows light
// values at another index: the line that is offered makes them agree, and then none is.
func TestTheOfferedOffsetMakesMetersAgree(t *testing.T) {
	const scene = "use: kit.md\nday: 2026-12-01, yard\nscene: test meter, grey wall\n"
	for _, c := range []struct{ kit, lines, want string }{
		{"meter spot: EV at 100\nmeter incident: EV at 100\n", "meter: spot EV 11, incident EV 11.5", "meter spot: EV at 100, offset +1/2"},
		{"meter spot: EV at 100, offset +1/2\nmeter incident: EV at 100\n", "meter: spot EV 11, incident EV 11.5", ""},
		{"meter spot: EV at 100, offset +1/2\nmeter incident: EV at 100\n", "meter: spot EV 11, incident EV 11", "meter spot: EV at 100, offset +0"},
		{"meter spot: EV at 100, offset -1/3\nmeter incident: EV at 100, offset +1/3\n", "meter: spot EV 11, incident EV 11", "meter spot: EV at 100, offset +1/3"},
		{"meter spot: EV at 100, offset -1/3\nmeter incident: EV at 100, offset +1/3\n", "meter: incident EV 11, spot EV 11", "meter incident: EV at 100, offset -1/3"},
		{"meter spot: EV at EI 400\nmeter incident: EV at 100\n", "meter: spot EV 13, incident EV 11", ""},
		{"meter spot: EV at EI 400\nmeter incident: EV at 100\n", "meter: spot EV 11, incident EV 11", "meter spot: EV at EI 400, offset +2"},
		{"meter spot: EV at 100\n", "light: sun\nmeter: sunny 16, spot EV 14", "meter spot: EV at 100, offset +1"},
		{"meter spot: EV at 100\n", "light: sun\nmeter: spot EV 14, sunny 16", "meter spot: EV at 100, offset +1"},
	} {
		files := map[string]string{"kit.md": c.kit, "notes.md": scene + c.lines + "\n"}
		offer := func() string {
			test := testOf(t, seasonOf(files), "meter")
			if len(test.Results) != 1 {
				t.Fatalf("%q: %+v", c.lines, test)
			}
			return test.Results[0].Offer
		}
		got := offer()
		if c.want == "" && got != "" || !strings.HasPrefix(got, c.want) {
			t.Errorf("%q with %q: %q, want %q", c.lines, c.kit, got, c.want)
		}
		if got == "" {
			continue
		}
		files["kit.md"] = adopted(c.kit, got)
		if again := offer(); again != "" {
			t.Errorf("%q: %q was adopted, and then %q is offered", c.lines, got, again)
		}
	}
	// One at the film's index beside one at ISO 100 cannot be compared without the index.
	test := testOf(t, seasonOf(map[string]string{
		"kit.md": "meter spot: EV at EI\nmeter incident: EV at 100\n", "notes.md": scene + "meter: spot EV 13, incident EV 11\n",
	}), "meter")
	if len(test.Results) != 0 || len(test.Needs) == 0 {
		t.Errorf("two meters at different indices: %+v", test)
	}
}

// A scene's title names a test where the kind stands by itself: before a comma, a dash or a filter's
// name. A title without its word is asked about, and nobody is blamed below it.
func TestTitlesOfTests(t *testing.T) {
	const kit = "lens 210: 210 mm\nfilm marl: ISO 100\nfilter R25: red, x8\nday: 2026-11-14\nload F1-F4: marl\n\n"
	const sheets = "\n\nmeter: 1/60 f16\nF1: 1/250 f16\nF2: R25, 1/8 f16\n"
	for title, kind := range map[string]string{
		"test speed": "speed", "Test speed - grey card": "speed", "test filter R25": "filter", "filter test R25 – wall": "filter", "test of film speed, card": "speed",
		"test: shutter (the 210)": "shutter", "shutter speeds test 1/60": "shutter", "test film speed: card": "speed",
		"test filter holder": "", "test speed of the stream": "", "speed testing": "", "test": "", "test run - new tripod": "", "tests speed": "", "test speed-card": "",
	} {
		season, list := compileText(kit + "scene: " + title + sheets)
		if season.Sheets[0].Test != kind || (kind != "") == (codes(list)["exposure-off"].Code != "") {
			t.Errorf("scene: %s: test of %q, %v", title, season.Sheets[0].Test, list)
		}
		for _, line := range []string{title, "**" + title + "**", "- " + title} {
			season, list = compileText(kit + line + sheets)
			if asked := (codes(list)["missing-colon"].Code != ""); asked != (kind != "") || asked != (season.Sheets[0].State == record.Unchecked) {
				t.Errorf("%s: %s, %v", line, season.Sheets[0].State, list)
			}
		}
	}
	if _, list := compileText(kit + "Speed test\n\nscene: north wall" + sheets); codes(list)["missing-colon"].Code != "" {
		t.Error("a title above a scene's line", list)
	}
}

// The line that a test offers says of the filter what the writer said, and no number that only its
// name has.
func TestOfferSaysWhatTheWriterSaid(t *testing.T) {
	for said, want := range map[string]string{
		"filter R25: red, Wratten 25, x8": "filter R25: red, Wratten 25, 2⅔ stops",
		"filter R25: red, x8":             "filter R25: red, 2⅔ stops",
		"filter R25: #25, x8":             "filter R25: Wratten 25, 2⅔ stops",
		"filter R25: x8":                  "filter R25: 2⅔ stops",
		"-- no filter is said":            "filter R25: 2⅔ stops",
	} {
		files := testBenchFiles(t)
		files["kit.md"] = strings.Replace(files["kit.md"], "filter R25: red, Wratten 25, x8", said, 1)
		found := false
		for _, test := range seasonOf(files).Tests {
			for _, r := range test.Results {
				found = found || strings.HasPrefix(r.Offer, want)
				if r.Of == "R25" && !strings.HasPrefix(r.Offer, want) {
					t.Errorf("%s: %s", said, r.Offer)
				}
			}
		}
		if !found {
			t.Errorf("%s: nothing is offered", said)
		}
	}
}
