package sensitometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"notchbook/compile/sensitometry"
)

// Films that were never made: what a test finds of them can be held against what
// they are. Nothing here comes from the package that is tested, which knows no form
// of a curve: densities follow a toe that bends like a logarithm of sums and a
// shoulder that bends like an exponential, or Weibull's distribution, and what is
// to be found is solved for on them.

// many is how many films are made: a thousand where everything is checked (CI=true),
// else enough to see that nothing broke.
func many() int {
	if os.Getenv("CI") == "true" {
		return 1000
	}
	return 60
}

// film is a made-up film; exposures are log10 of stops from Zone V or of lux
// seconds, densities over base and fog.
type film struct {
	most, from, gradient float64
	toe                  float64
	weibull              bool
}

func (f film) density(x float64) float64 {
	u := x - f.from
	if f.weibull {
		if u <= 0 {
			return 0
		}
		return f.most * (1 - math.Exp(-math.Pow(u*f.gradient/f.most*0.95, 1+f.toe)))
	}
	line := f.gradient * f.toe * math.Log1p(math.Exp(u/f.toe))
	return f.most * (1 - math.Exp(-line/f.most))
}

// exposure is where the film has a density.
func (f film) exposure(d float64) float64 {
	low, high := f.from-20, f.from+40
	for range 200 {
		if mid := (low + high) / 2; f.density(mid) < d {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// someFilm has a speed point near Zone I; the gradient that its straight part
// tends to is 0.6 to 0.9.
func someFilm(r *rand.Rand) film {
	f := film{most: 2.5 + r.Float64(), gradient: 0.6 + 0.3*r.Float64(), weibull: r.IntN(2) == 0}
	f.toe = 0.12 + 0.13*r.Float64()
	if f.weibull {
		f.toe = 0.3 + 0.5*r.Float64()
	}
	f.from -= f.exposure(0.1) + 1.2 + 0.3*(r.Float64()-0.5)
	return f
}

// The densitometer: each patch is read three times, with an error of each.
const (
	times = 3
	noise = 0.02
)

// read is the mean of the readings of one patch, and its error.
func read(r *rand.Rand, d, noise float64) (mean, sd float64) {
	for range times {
		mean += d + noise*r.NormFloat64()
	}
	return mean / times, noise / math.Sqrt(times)
}

// wedge is a step wedge: steps of half a stop, as densities.
func wedge(steps int) []float64 {
	var all []float64
	for i := range steps {
		all = append(all, 0.05+0.15*float64(i))
	}
	return all
}

// sheet is the readings of one sheet behind the wedge: set is what is known of its
// exposure, got what it really got behind the clear part, as log10.
func sheet(r *rand.Rand, f film, index int, set, got float64, steps int, noise float64) []sensitometry.Reading {
	var all []sensitometry.Reading
	for _, w := range wedge(steps) {
		d, sd := read(r, f.density(got-w), noise)
		all = append(all, sensitometry.Reading{Sheet: index, LogH: set - w, D: d, Sd: sd})
	}
	return all
}

const stop = 0.301029995663981

// calibration counts how often a figure lies within its stated error.
type calibration struct {
	n, inside int
	worst     float64
	square    float64
}

func (c *calibration) add(found, sd, truth float64) {
	c.n++
	off := math.Abs(found - truth)
	if off <= sd {
		c.inside++
	}
	c.worst = max(c.worst, off)
	c.square += off * off
}

func (c *calibration) report(t *testing.T, what, unit string, most float64) {
	t.Helper()
	share := 100 * float64(c.inside) / float64(c.n)
	t.Logf("%s: %d figures, rms %.3f %s, worst %.3f %s, %.1f %% within one standard error", what, c.n, math.Sqrt(c.square/float64(c.n)), unit, c.worst, unit, share)
	if c.n >= 1000 && (share < 60 || share > 75) { // of few the share tells little
		t.Errorf("%s: %.1f %% of the figures lie within one standard error; it should be 60 to 75", what, share)
	}
	if c.worst > most {
		t.Errorf("%s: one is off by %.3f %s, more than %.3f", what, c.worst, unit, most)
	}
}

// Nine sheets a stop apart, a grey card on each: without noise the speed is that
// of the film.
func TestSpeedOfFilmsWithoutNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	worst := 0.
	for range many() {
		f := someFilm(r)
		var all []sensitometry.Reading
		for i := range 9 {
			x := stop * (float64(i) - 6 + 0.3*(r.Float64()-0.5))
			all = append(all, sensitometry.Reading{Sheet: i, LogH: x, D: f.density(x)})
		}
		found, err := sensitometry.NewFilm(all, 9, 0)
		if err != nil {
			t.Fatal(err)
		}
		ei, _, ok := sensitometry.Index(found.Curve, 100)
		if !ok {
			t.Fatal("no speed")
		}
		worst = max(worst, math.Abs(math.Log2(ei/100)-(-4-f.exposure(0.1)/stop)))
	}
	t.Logf("%d films, grey cards a stop apart, no noise: the worst speed is off by %.3f stop", many(), worst)
	if worst > 0.1 {
		t.Errorf("a speed is off by %.3f stop", worst)
	}
}

// Nine sheets and three behind a step wedge, noise of the densitometer; with the base
// and fog of the film known, and read three times a sheet with the same noise. At the
// speed point the curve is flat, so that the speed would mostly hang on these readings,
// but that the steps which got nothing tell the base and fog too.
func TestSpeedOfFilmsWithNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 2))
	for _, of := range []struct {
		sheets int
		fogged float64
		most   float64
	}{{9, 0, 0.1}, {9, 1, 0.15}, {3, 0, 0.2}, {3, 1, 0.2}} {
		var c calibration
		within := 0
		for range many() {
			f := someFilm(r)
			base := of.fogged * noise / math.Sqrt(times*float64(of.sheets))
			fog := base * r.NormFloat64()
			var all []sensitometry.Reading
			for i := range of.sheets {
				x := stop * (float64(i%3) + 0.3*r.Float64())
				for _, reading := range sheet(r, f, i, x, x, 21, noise) {
					reading.D -= fog
					all = append(all, reading)
				}
			}
			found, err := sensitometry.NewFilm(all, of.sheets, base)
			if err != nil {
				t.Fatal(err)
			}
			ei, sd, ok := sensitometry.Index(found.Curve, 100)
			if !ok {
				t.Fatal("no speed")
			}
			c.add(math.Log2(ei/100), sd, -4-f.exposure(0.1)/stop)
			if math.Abs(math.Log2(ei/100)+4+f.exposure(0.1)/stop) <= 0.1 {
				within++
			}
		}
		c.report(t, fmt.Sprintf("speed from %d sheets, base and fog known to ±%.3f", of.sheets, of.fogged*noise/math.Sqrt(times*float64(of.sheets))), "stop", of.most)
		t.Logf("%.1f %% of them within a tenth of a stop", 100*float64(within)/float64(many()))
		if of.sheets == 9 && within < many()-max(many()/200, 1) {
			t.Errorf("%d of %d speeds from nine sheets are within a tenth of a stop", within, many())
		}
	}
}

// Five sheets of one bath behind a wedge, with a base and fog that is itself read, and
// three baths: gradients, contrast index and the time for N.
func TestGradientsAndTimes(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 6))
	var g, ci, times calibration
	for range many() {
		f := someFilm(r)
		target := sensitometry.Target{LowZone: 1, Low: 0.10, HighZone: 7, High: 0}
		var curves []sensitometry.Developed
		var truth [][2]float64 // of each bath: log of time, density at the high point
		for i, of := range []float64{0.8, 1, 1.25} {
			bath := f
			bath.gradient *= of
			fog := noise / math.Sqrt(10) * r.NormFloat64()
			var all []sensitometry.Reading
			for k := range 5 {
				x := stop * (2 + 0.4*float64(k))
				for _, reading := range sheet(r, bath, k, x, x, 21, noise) {
					reading.D -= fog
					all = append(all, reading)
				}
			}
			found, err := sensitometry.NewFilm(all, 5, noise/math.Sqrt(10))
			if err != nil {
				t.Fatal(err)
			}
			seconds := 300 * math.Pow(1.6, float64(i))
			curves = append(curves, sensitometry.Developed{Seconds: seconds, Curve: found.Curve})
			low := bath.exposure(0.10)
			truth = append(truth, [2]float64{math.Log(seconds), bath.density(low + 6*stop)})
			if got, ok := sensitometry.AverageGradient(found.Curve, 1.3); ok {
				g.add(got.Value, got.Sd, (bath.density(low+1.3)-0.10)/1.3)
			}
			if got, ok := sensitometry.ContrastIndex(found.Curve); ok {
				if want, ok := contrastIndex(bath); ok {
					ci.add(got.Value, got.Sd, want)
				}
			}
		}
		// The target is the density that the middle bath has: its time is then known.
		target.High = truth[1][1]
		for _, n := range sensitometry.Times(curves, target) {
			if n.N == 0 && n.Known {
				times.add(n.Seconds/480, n.Sd/480, 1)
			}
		}
	}
	g.report(t, "average gradient", "", 0.06)
	ci.report(t, "contrast index", "", 0.06)
	times.report(t, "time for N", "of it", 0.2)
}

// contrastIndex searches for the ray from base and fog that meets the film 0.2 and
// 2.2 from its foot by walking the foot along and turning the ray; ok is false where
// the film does not reach so far.
func contrastIndex(f film) (ci float64, ok bool) {
	// For a foot, the point at a distance from it is where the distance is reached.
	at := func(foot, arc float64) float64 {
		low, high := foot, foot+arc
		for range 60 {
			if mid := (low + high) / 2; math.Hypot(mid-foot, f.density(mid)) < arc {
				low = mid
			} else {
				high = mid
			}
		}
		return low
	}
	turned := func(foot float64) float64 {
		near, far := at(foot, 0.2), at(foot, 2.2)
		return math.Atan2(f.density(near), near-foot) - math.Atan2(f.density(far), far-foot)
	}
	low, high := f.exposure(0.001), f.exposure(0.4)
	if turned(low) >= 0 || turned(high) <= 0 {
		return 0, false
	}
	for range 60 {
		if mid := (low + high) / 2; turned(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	far := at(low, 2.2)
	return f.density(far) / (far - low), true
}

func TestStopsOfFilters(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 3))
	var c, drifts calibration
	for range many() {
		f := someFilm(r)
		truth := []float64{0.3 + 3.7*r.Float64(), 0.3 + 3.7*r.Float64()}
		test, drift := filterTest(r, f, truth, -1, 0)
		found, err := test.Solve()
		if err != nil {
			t.Fatal(err)
		}
		for k, res := range found.Filters {
			c.add(res.Stops.Value, res.Stops.Sd, truth[k])
		}
		drifts.add(found.Drift.Value, found.Drift.Sd, drift)
	}
	c.report(t, "filters", "stop", 1./15)
	drifts.report(t, "drift of the light", "stop", 0.15)
}

// filterTest is nine sheets behind a wedge of 21 steps, every fourth or so a
// control; the light grows or fades evenly by up to half a stop while they are
// exposed. One of them, if it is not -1, got so much more light than is written.
func filterTest(r *rand.Rand, f film, truth []float64, bad int, off float64) (*sensitometry.FilterTest, float64) {
	drift := r.Float64() - 0.5
	test := &sensitometry.FilterTest{Filters: 2}
	for k := range truth {
		test.Declared = append(test.Declared, truth[k]+1.2*(r.Float64()-0.5))
	}
	for i, filter := range []int{-1, 0, 1, 0, -1, 1, 0, 1, -1} {
		at := float64(i)
		if i > 0 && i < 8 {
			at += 0.3 * (r.Float64() - 0.5)
		}
		set, got := 4*stop, 4*stop+stop*drift*at/8
		if filter >= 0 {
			set += stop * test.Declared[filter]
			got += stop * (test.Declared[filter] - truth[filter])
		}
		if i == bad {
			got += stop * off
		}
		test.Filter, test.When = append(test.Filter, filter), append(test.When, at)
		test.Readings = append(test.Readings, sheet(r, f, i, set, got, 21, noise)...)
	}
	return test, drift
}

// Five times from the threshold on, two sheets of each behind a wedge, noise of 0.03.
func TestExponentOfReciprocity(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 4))
	var c calibration
	for range many() {
		f := someFilm(r)
		p := 1.1 + 0.4*r.Float64()
		test := longTest(r, f, p, []float64{1, 1, 6, 6, 40, 40, 250, 250, 1500, 1500})
		law, err := test.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if !law.Known {
			t.Fatalf("p = %.3f: %s", p, law.CannotTell)
		}
		c.add(law.Exponent.Value, law.Exponent.Sd, p)
	}
	c.report(t, "exponent of reciprocity", "", 0.02)
}

// A grey card on each of fourteen sheets, at seven apertures and times of a second or less and
// at seven longer: the short ones are a curve together. Nearly all tell the exponent, and as
// well as they say.
func TestExponentOfGreyCards(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 9))
	var c calibration
	told := 0
	seconds := []float64{1. / 16, 1. / 16, 1. / 8, 1. / 4, 1. / 4, 1. / 2, 1, 2, 4, 8, 15, 30, 60, 240}
	stops := []float64{-2, -1, 0, 1, 2, 3, 4, 0, 1, 2, 3, 1, 2, 3}
	for range many() {
		f := someFilm(r)
		p := 1.15 + 0.35*r.Float64()
		test := &sensitometry.LongTest{Seconds: seconds, Short: 1}
		for i, clock := range seconds {
			set, counts := stop*stops[i], min(clock, math.Pow(clock, 1/p))
			if clock < 1 {
				counts = clock
			}
			d, sd := read(r, f.density(set-math.Log10(clock/counts)), 0.02)
			test.Readings = append(test.Readings, sensitometry.Reading{Sheet: i, LogH: set, D: d, Sd: sd})
		}
		law, err := test.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if law.Known {
			told++
			c.add(law.Exponent.Value, law.Exponent.Sd, p)
		} else {
			t.Logf("p %.2f ± %.2f: %s", p, law.Exponent.Sd, law.CannotTell)
		}
	}
	c.report(t, "exponent of grey cards", "", 0.3)
	if told < many()*9/10 {
		t.Errorf("%d of %d are told", told, many())
	}
}

// longTest is sheets that a law t = (m)^p above one second shortens; what it takes
// from the aperture keeps the densities on the wedge.
func longTest(r *rand.Rand, f film, p float64, seconds []float64) *sensitometry.LongTest {
	test := &sensitometry.LongTest{Seconds: seconds}
	for i, clock := range seconds {
		counts := clock
		if clock > 1 {
			counts = math.Pow(clock, 1/p)
		}
		set := 4*stop + 0.15*math.Log10(clock) // a little more for the long ones, as one does
		test.Readings = append(test.Readings, sheet(r, f, i, set, set-math.Log10(clock/counts), 21, 0.03)...)
	}
	return test
}

func TestReciprocityThatCannotBeTold(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 5))
	for range 50 {
		f := someFilm(r)
		for _, seconds := range [][]float64{{1. / 8, 60}, {1. / 60, 1. / 15, 1. / 4, 1. / 2, 1}} {
			law, err := longTest(r, f, 1.3, seconds).Solve()
			if err != nil {
				t.Fatal(err)
			}
			if law.Known || law.CannotTell == "" {
				t.Fatalf("%v: exponent %v ± %v", seconds, law.Exponent.Value, law.Exponent.Sd)
			}
		}
	}
}

// One sheet of nine got half a stop to three stops more or less than is written.
func TestOddSheetAmongNine(t *testing.T) {
	named, none, most := 0, 0, 0.
	n := many()
	for k := range n {
		r := rand.New(rand.NewPCG(12, 100+uint64(k)))
		f := someFilm(r)
		truth := []float64{1 + 2*r.Float64(), 1 + 2*r.Float64()}
		bad, off := r.IntN(9), 0.5+2.5*r.Float64()
		if r.IntN(2) == 0 {
			off = -off
		}
		again := rand.New(rand.NewPCG(13, uint64(k)))
		clean, _ := filterTest(rand.New(rand.NewPCG(13, uint64(k))), f, truth, -1, 0)
		spoiled, _ := filterTest(again, f, truth, bad, off)
		want, err := clean.Solve()
		if err != nil {
			t.Fatal(err)
		}
		found, err := spoiled.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if len(found.Odd) > 0 && found.Odd[0].Sheet == bad {
			named++
		} else if len(found.Odd) == 0 {
			none++
		}
		for k := range truth {
			most = max(most, math.Abs(found.Filters[k].Stops.Value-want.Filters[k].Stops.Value))
		}
	}
	t.Logf("one odd sheet in nine of a filter test: named in %.1f %%, nothing said in %d, the result moves by at most %.3f stop", 100*float64(named)/float64(n), none, most)
	if named*100 < 95*n || most > 1./6 {
		t.Errorf("named in %d of %d, moved by %.3f stop", named, n, most)
	}
}

// Losses that bend far from any power law are said to follow none; those of a law hardly
// ever.
func TestLossesThatFollowNoLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 8))
	seconds := []float64{1, 4, 16, 64, 256}
	blamed := 0
	for range 50 {
		f := someFilm(r)
		test := &sensitometry.LongTest{Seconds: seconds}
		for i, loss := range []float64{0, 0.1, 0.3, 1.6, 3.5} {
			test.Readings = append(test.Readings, sheet(r, f, i, 4*stop, 4*stop-stop*loss, 21, 0.03)...)
		}
		law, err := test.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if !law.Misses {
			t.Errorf("%+v", law.Losses)
		}
		law, err = longTest(r, f, 1.3, seconds).Solve()
		if err != nil {
			t.Fatal(err)
		}
		if law.Misses {
			blamed++
		}
	}
	if blamed > 3 {
		t.Errorf("%d of 50 laws are said to be none", blamed)
	}
}
