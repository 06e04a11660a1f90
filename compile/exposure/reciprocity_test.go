package exposure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPowerLaw(t *testing.T) {
	r, err := PowerLaw(1.31, 0)
	if err != nil {
		t.Fatal(err)
	}
	late, err := PowerLaw(1.3, 4) // T (t/T)^p: continuous at T
	if err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		rule   Rule
		t      float64
		want   float64
		status Status
	}{
		{r, 0.5, 0.5, Below}, {r, 1, 1, Below}, {r, 8, math.Pow(8, 1.31), Corrected},
		{late, 3, 3, Below}, {late, 4, 4, Below}, {late, 16, 4 * math.Pow(4, 1.3), Corrected},
	}
	for _, c := range cases {
		if got, status := c.rule.Corrected(c.t); math.Abs(got-c.want) > exact || status != c.status {
			t.Errorf("%g s: %g %v, want %g %v", c.t, got, status, c.want, c.status)
		}
	}
}

// Between entries the table is straight in log-log; before the first it runs to the
// threshold; past the last it says nothing.
func TestTable(t *testing.T) {
	r := table(t, Point{4, 7}, Point{2, 3}, Point{8, 16})
	early := table(t, Point{1, 2}, Point{10, 50})   // an entry at the threshold itself
	stated := table(t, Point{1, 1}, Point{4, 8})    // says where correction starts
	later := table(t, Point{10, 10}, Point{20, 40}) // and that may be late
	cases := []struct {
		rule   Rule
		t      float64
		want   float64
		status Status
	}{
		{r, 0.9, 0.9, Below}, {r, 1, 1, Below}, {r, 2, 3, Corrected}, {r, 8, 16, Corrected},
		{r, math.Sqrt2, math.Sqrt(3), Corrected}, {r, math.Sqrt(8), math.Sqrt(21), Corrected},
		{r, 8.1, 8.1, Beyond}, {r, 100, 100, Beyond},
		{early, 0.5, 0.5, Below}, {early, 1, 2, Corrected}, {early, math.Sqrt(0.5), 1, Corrected},
		{stated, 1, 1, Below}, {stated, 2, math.Sqrt(8), Corrected},
		{later, 5, 5, Below}, {later, 20, 40, Corrected},
	}
	for _, c := range cases {
		got, status := c.rule.Corrected(c.t)
		if math.Abs(got-c.want) > exact || status != c.status {
			t.Errorf("%g s: %g %v, want %g %v", c.t, got, status, c.want, c.status)
		}
	}
	if _, status := r.Effective(16.1); status != Beyond {
		t.Errorf("16.1 s by the clock is %v, want Beyond", status)
	}
}

func TestTableRefused(t *testing.T) {
	for name, points := range map[string][]Point{
		"empty":       {},
		"shortens":    {{4, 3}},
		"twice":       {{2, 3}, {2, 4}},
		"falls":       {{2, 5}, {4, 5}},
		"no time":     {{0, 3}},
		"not finite":  {{2, math.Inf(1)}},
		"not numbers": {{math.NaN(), math.NaN()}},
	} {
		if _, err := Table(0, points); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
	for _, p := range []float64{0, 0.9, 5, math.NaN()} {
		if _, err := PowerLaw(p, 1); err == nil {
			t.Errorf("exponent %g taken", p)
		}
	}
	if _, err := PowerLaw(1.3, -1); err == nil {
		t.Error("threshold -1 s taken")
	}
}

// "over 10s x2": nothing up to 10 s, then twice as long; with a table before it the
// factor goes on where the table is joined to it.
func TestOver(t *testing.T) {
	plain, err := Rule{}.Over(10, 2)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := table(t, Point{1, 1}, Point{2, 3}).Over(10, 2)
	if err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		rule   Rule
		t      float64
		want   float64
		status Status
	}{
		{plain, 9, 9, Below}, {plain, 10, 10, Below}, {plain, 11, 22, Corrected}, {plain, 600, 1200, Corrected},
		{joined, 2, 3, Corrected}, {joined, 10, 20, Corrected}, {joined, 30, 60, Corrected},
		{joined, math.Sqrt(20), math.Sqrt(60), Corrected},
	}
	for _, c := range cases {
		if got, status := c.rule.Corrected(c.t); math.Abs(got-c.want) > exact || status != c.status {
			t.Errorf("%g s: %g %v, want %g %v", c.t, got, status, c.want, c.status)
		}
	}
	// the jump itself is worth the time at which it happens
	if got, status := plain.Effective(15); got != 10 || status != Corrected {
		t.Errorf("15 s by the clock is %g s %v, want 10", got, status)
	}
	if _, err := table(t, Point{2, 3}, Point{20, 90}).Over(10, 2); err == nil {
		t.Error("a factor within the table was taken")
	}
	if _, err := (Rule{power: 1.3, threshold: 1}).Over(10, 2); err == nil {
		t.Error("a factor over a power law was taken")
	}
}

func TestRuleUnknownAndNone(t *testing.T) {
	cases := []struct {
		rule   Rule
		t      float64
		status Status
	}{
		{Rule{}, 1, Below}, {Rule{}, 2, Beyond}, {None(100), 100, Below}, {None(100), 101, Beyond}, {None(0), 1e6, Below},
	}
	for _, c := range cases {
		clock, status := c.rule.Corrected(c.t)
		film, back := c.rule.Effective(c.t)
		if clock != c.t || film != c.t || status != c.status || back != c.status {
			t.Errorf("%g s: %g %v and back %g %v, want it unchanged, %v", c.t, clock, status, film, back, c.status)
		}
	}
	if (Rule{}).IsZero() == None(0).IsZero() {
		t.Error("no rule and no need of one are told alike")
	}
}

// Four exposures of 1 s are each corrected by themselves.
func TestEffectiveEach(t *testing.T) {
	r := table(t, Point{2, 4}, Point{8, 32})
	if got, status := r.EffectiveEach(4, 4); math.Abs(got-8) > exact || status != Corrected {
		t.Errorf("4 x 4 s is %g s %v, want 8", got, status)
	}
	if got, _ := r.Effective(16); got >= 8 {
		t.Errorf("16 s at once is %g s, want less than in four parts", got)
	}
}

// anyRule draws a power law or a table, with or without a constant factor after it.
func anyRule(t *rapid.T) Rule {
	if rapid.Bool().Draw(t, "power") {
		r, err := PowerLaw(rapid.Float64Range(1, 2).Draw(t, "p"), rapid.Float64Range(0.1, 10).Draw(t, "over"))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	var points []Point
	metered, longer := rapid.Float64Range(0.5, 4).Draw(t, "first"), 1.0
	for range rapid.IntRange(1, 5).Draw(t, "entries") {
		longer *= rapid.Float64Range(1, 3).Draw(t, "longer")
		points = append(points, Point{metered, metered * longer})
		metered *= rapid.Float64Range(1.1, 10).Draw(t, "next")
	}
	r, err := Table(0, points)
	if err == nil && rapid.Bool().Draw(t, "tail") {
		r, err = r.Over(metered, longer)
	}
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestReciprocityIsMonotonicAndUndone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRule(t)
		a := rapid.Float64Range(0.001, 3000).Draw(t, "a")
		b := a * rapid.Float64Range(1, 10).Draw(t, "b")
		clockA, statusA := r.Corrected(a)
		clockB, statusB := r.Corrected(b)
		if statusA == Beyond {
			return
		}
		if clockA < a*(1-exact) {
			t.Errorf("%g s is shortened to %g", a, clockA)
		}
		if statusB != Beyond && clockB < clockA*(1-exact) {
			t.Errorf("%g s is %g by the clock, %g s only %g", a, clockA, b, clockB)
		}
		if back, _ := r.Effective(clockA); math.Abs(back/a-1) > 1e-6 {
			t.Errorf("%g s is %g by the clock, which is %g s back", a, clockA, back)
		}
	})
}
