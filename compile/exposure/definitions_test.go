package exposure

import (
	"math"
	"slices"
	"testing"
)

// What the arithmetic is by definition, and what is printed elsewhere: nothing here
// is reckoned as the package reckons it.

// Of what is refused no figure is given: a caller that forgets to ask works with 0,
// which changes nothing, and never with something that looks like a result.
func TestWhatIsRefusedGivesNoFigure(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []float64{0, -1, nan, inf, -inf} {
		for name, f := range map[string]func(float64) (float64, bool){
			"FactorStops": FactorStops, "SpeedSv": SpeedSv, "UniformSystemAv": UniformSystemAv,
			"ApertureAv":                func(x float64) (float64, bool) { return ApertureAv(x, 0) },
			"TimeSeconds, numerator":    func(x float64) (float64, bool) { return TimeSeconds(x, 60) },
			"TimeSeconds, denominator":  func(x float64) (float64, bool) { return TimeSeconds(1, x) },
			"SpeedShift, film":          func(x float64) (float64, bool) { return SpeedShift(x, 100) },
			"SpeedShift, meter":         func(x float64) (float64, bool) { return SpeedShift(100, x) },
			"BellowsByExtension":        func(x float64) (float64, bool) { return BellowsByExtension(x, 150) },
			"BellowsByExtension, focal": func(x float64) (float64, bool) { return BellowsByExtension(150, x) },
			"BellowsByFlange":           func(x float64) (float64, bool) { return BellowsByFlange(300, x, 150) },
			"BellowsByFocusDistance":    func(x float64) (float64, bool) { return BellowsByFocusDistance(x, 150) },
			"focal of FocusDistance":    func(x float64) (float64, bool) { return BellowsByFocusDistance(150, x) },
		} {
			if v, ok := f(bad); ok || v != 0 {
				t.Errorf("%s of %g is %g, %t", name, bad, v, ok)
			}
		}
		if bad == 0 {
			continue // no magnification and no density are good ones
		}
		for name, f := range map[string]func(float64) (float64, bool){"DensityStops": DensityStops, "BellowsByMagnification": BellowsByMagnification} {
			if v, ok := f(bad); ok || v != 0 {
				t.Errorf("%s of %g is %g, %t", name, bad, v, ok)
			}
		}
	}
	for _, bad := range []float64{nan, inf, -inf} {
		if v, ok := ApertureAv(16, bad); ok || v != 0 {
			t.Errorf("f/16 and %g is %g, %t", bad, v, ok)
		}
	}
	if v, ok := Mean(); ok || v != 0 {
		t.Errorf("the mean of nothing is %g, %t", v, ok)
	}
	if v, ok := FactorStops(0.99); ok || v != 0 {
		t.Errorf("a filter that brightens is worth %g, %t", v, ok)
	}
	if v, ok := BellowsByFocusDistance(150, 150); ok || v != 0 {
		t.Errorf("a subject at the focal length is worth %g, %t", v, ok)
	}
	// The least that are none.
	for name, v := range map[string]float64{"factor": second(FactorStops(1)), "density": second(DensityStops(0)),
		"magnification": second(BellowsByMagnification(0)), "extension": second(BellowsByExtension(150, 150))} {
		if v != 0 {
			t.Errorf("a %s that changes nothing changes %g stops", name, v)
		}
	}
}

func second(v float64, ok bool) float64 {
	if !ok {
		return math.NaN()
	}
	return v
}

// The marks as they are printed: speeds in ISO 5800:2001 and its forerunners
// (Wikipedia "Film speed", the table of arithmetic speeds); times on shutters in
// halves and in thirds and apertures in halves and thirds (Wikipedia "Shutter
// speed", "f-number").
func TestMarksAreThosePrinted(t *testing.T) {
	printed := func(series []mark, want func(m mark) bool) (all []float64) {
		for _, m := range series {
			if want(m) {
				all = append(all, m.printed)
			}
		}
		return all
	}
	every := func(mark) bool { return true }
	half := func(m mark) bool { return m.sixths%6 == 3 }
	third := func(m mark) bool { return m.sixths%2 == 0 }
	for name, c := range map[string]struct{ got, want []float64 }{
		"speeds": {printed(speedMarks, every), []float64{0.8, 1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160,
			200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400}},
		"times in halves": {printed(timeMarks, half), []float64{1.4, 11, 23, 45, 90, 180, 350, 750}},
		"times in thirds": {printed(timeMarks, third), []float64{1.3, 1.6, 2, 2.5, 3, 4, 6, 8, 13, 15, 20, 30, 40, 60, 80, 125, 160, 250, 320,
			500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000}},
		"decimals":           {printed(decimalMarks, every), []float64{0.3, 0.4, 0.6, 0.7, 0.8}},
		"apertures, full":    {printed(apertureMarks, func(m mark) bool { return m.sixths%6 == 0 }), []float64{1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128}},
		"apertures, halves":  {printed(apertureMarks, half), []float64{1.2, 1.7, 2.4, 3.3, 4.8, 6.7, 9.5, 19, 27, 38, 54, 76, 108}},
		"apertures, a third": {printed(apertureMarks, func(m mark) bool { return m.sixths%6 == 2 }), []float64{1.1, 1.6, 2.2, 3.2, 4.5, 6.3, 9, 13, 18, 25, 36, 51, 72, 102}},
		"apertures, two":     {printed(apertureMarks, func(m mark) bool { return m.sixths%6 == 4 }), []float64{1.3, 1.8, 2.5, 3.5, 5, 7.1, 10, 14, 20, 29, 40, 57, 81, 114}},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s are %g, printed are %g", name, c.got, c.want)
		}
	}
	// A mark names the power of two nearest to it, of those its series holds.
	for name, c := range map[string]struct {
		series []mark
		of     func(printed float64) float64 // in stops
	}{
		"aperture": {apertureMarks, func(n float64) float64 { return math.Log2(n * n) }},
		"time":     {timeMarks, math.Log2},
		"decimal":  {decimalMarks, func(s float64) float64 { return math.Log2(1 / s) }},
		"speed":    {speedMarks, func(s float64) float64 { return math.Log2(s * 32 / 100) }},
	} {
		for _, m := range c.series {
			if off := 6*c.of(m.printed) - float64(m.sixths); math.Abs(off) > 0.75 {
				t.Errorf("%s %g is %.2f sixths from the value it names", name, m.printed, off)
			}
		}
	}
}

// Shutters that print 0.8 0.6 (0.5) 0.4 0.3 go down in thirds; 0.7 stands in the
// middle of 1 s and 1/2.
func TestDecimalsGoDownInThirds(t *testing.T) {
	at := 1.0
	for _, printed := range []float64{0.8, 0.6, 0.5, 0.4, 0.3} {
		at /= math.Cbrt(2)
		if s, ok := TimeSeconds(printed, 1); !ok || math.Abs(s-at) > 1e-9 {
			t.Errorf("%g s is %g s, a third less than the one before is %g s", printed, s, at)
		}
	}
	if s, ok := TimeSeconds(0.7, 1); !ok || math.Abs(s*s-0.5) > 1e-9 {
		t.Errorf("0.7 s is %g s", s)
	}
}

// An index is nearest to a speed from a sixth of a stop below it to a sixth above.
func TestNearestIndexIsWithinASixth(t *testing.T) {
	for third := -6; third <= 33; third++ {
		exact := 3.125 * math.Exp2(float64(third)/3)
		at := NearestIndex(exact)
		for _, off := range []float64{-0.16, -0.1, 0.1, 0.16} {
			if got := NearestIndex(exact * math.Exp2(off)); got != at {
				t.Errorf("%g, %g stops from %g, is taken for %g and not %g", exact*math.Exp2(off), off, exact, got, at)
			}
		}
		if back, ok := SpeedSv(at); !ok || math.Abs(back-float64(third)/3) > 1e-9 {
			t.Errorf("the index of speed value %d/3 is %g, which names %g", third, at, back)
		}
	}
	for _, beyond := range []float64{0.5, 0.6, 8000, 12800} {
		if got := NearestIndex(beyond); got != beyond {
			t.Errorf("%g is beyond the series and is taken for %g", beyond, got)
		}
	}
}

// In reciprocals of the distance the depth of field reaches as far before a subject
// as behind it: 1/near and 1/far are 1/distance more and less 1/h (R. Kingslake,
// "Optics in Photography", 1992, chapter 6, the focal length left out as tables do).
func TestDepthOfFieldIsEvenInReciprocals(t *testing.T) {
	for _, h := range []float64{2, 10, 33} {
		for _, distance := range []float64{0.5, 1, 1.9, 5, 9.99, 40, 1000} {
			near, far := DepthOfField(h, distance)
			if off := 1/near - 1/distance - 1/h; math.Abs(off) > 1e-12 {
				t.Errorf("at %g, hyperfocal %g: near %g", distance, h, near)
			}
			if behind := 1/distance - 1/h; behind <= 0 && !math.IsInf(far, 1) || behind > 0 && math.Abs(1/far-behind) > 1e-12 {
				t.Errorf("at %g, hyperfocal %g: far %g", distance, h, far)
			}
		}
		if near, far := DepthOfField(h, h); near != h/2 || !math.IsInf(far, 1) {
			t.Errorf("at the hyperfocal distance %g all is sharp from %g to %g", h, near, far)
		}
	}
}

// J. Meeus, "Astronomical Algorithms", 2nd ed. 1998, examples 25.a and 28.b: the sun
// on 1992 October 13, 0h dynamical time, by the method that is used here.
func TestSunOfTheBooksExample(t *testing.T) {
	declination, equation := sunPlace(-0.072183436)
	if off := degrees(declination) + 7.78507; math.Abs(off) > 2e-5 {
		t.Errorf("the declination is %.5f degrees, printed −7.78507", degrees(declination))
	}
	if off := equation - 4*3.427351; math.Abs(off) > 0.005 {
		t.Errorf("the equation of time is %.4f minutes, printed 13 m 42.6 s", equation)
	}
}

// What is written can be read by people as it was meant, at the ends of what is
// written so.
func TestWrittenAtTheEnds(t *testing.T) {
	for got, want := range map[string]string{
		FormatAmount(0.049): "0", FormatAmount(0.053): "0.1", FormatAmount(1.053): "1.1", FormatAmount(0.27): "¼", FormatAmount(0.2715): "0.3",
		FormatAmount(0.38): "⅓", FormatAmount(0.387): "0.4", FormatAmount(0.449): "0.4", FormatAmount(0.452): "½", FormatAmount(0.549): "½",
		FormatAmount(0.554): "0.6", FormatAmount(0.77): "¾", FormatAmount(0.7715): "0.8", FormatAmount(0.949): "0.9", FormatAmount(0.951): "1",
		FormatAmount(12.951): "13", FormatEV(0.5): "EV ½", FormatEV(-0.5): "EV −½", FormatEV(-0.02): "EV 0",
		FormatFactor(99.4): "×99.4", FormatFactor(100.4): "×100", FormatFactor(123.4): "×123", FormatFactor(1): "×1",
		FormatAperture(0): "f/1", FormatAperture(0.5): "f/1½", FormatAperture(-0.5): "f/0.84", FormatAperture(-1): "f/0.71", FormatAperture(18): "f/512",
		FormatAperture(18.5): "f/512½", FormatAperture(19): "f/7.2e+02", FormatAperture(15): "f/180", FormatAperture(17): "f/360",
		FormatTime(1. / 5): "1/5", FormatTime(1. / 10): "1/10", FormatTime(1. / 25): "1/25", FormatTime(1. / 50): "1/50", FormatTime(1. / 75): "1/75",
		FormatTime(1. / 100): "1/100", FormatTime(1. / 150): "1/150", FormatTime(1. / 200): "1/200", FormatTime(1. / 300): "1/300", FormatTime(1. / 400): "1/400",
		FormatTime(0.3): "0.3 s", FormatTime(0.29): "1/3.4", FormatTime(1. / 6934): "1/6900", FormatTime(1. / 69.4): "1/69",
		FormatTime(0.994): "1 s", FormatTime(59.4): "59 s", FormatTime(60): "1m", FormatTime(61): "1m 1s", FormatTime(3599): "59m 59s", FormatTime(3600): "1h",
		FormatTime(9.99e8): "277500h", FormatTime(1.05e9): "12153 days",
		InStops(0.5): "½ stop", InStops(1): "1 stop", InStops(0.98): "1 stop", InStops(1.02): "1 stop", InStops(1.5): "1½ stops", InStops(-1.5): "1½ stops",
		InStops(2): "2 stops", OverUnder(0.02): "none", OverUnder(-1): "1 stop under", OverUnder(1. / 3): "⅓ stop over",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for stops, want := range map[float64]bool{0.95: true, -0.95: true, 0.9499: false, 1: true, -3: true, 0: false, 0.94999999: true} {
		if AStop(stops) != want {
			t.Errorf("%g stops are a stop: %t", stops, !want)
		}
	}
	for stops, want := range map[float64]float64{0.4: 0.333333, 1.2: 1.333333, 1.1: 1, -0.6: -0.666667, 0.1: 0, 2.5: 2.666667} {
		if got := Third(stops); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g stops are %g to a third, want %g", stops, got, want)
		}
	}
}

// What a lens can do, at the ends of it. The standard series of leaf shutters is 1 s
// to 1/500 in whole stops and B (ISO 516).
func TestWhatALensCanDo(t *testing.T) {
	var usual Lens
	for k := range 10 {
		if s := math.Exp2(-float64(k)); !usual.HasSpeed(s) || usual.NearestSpeed(s*1.01) != s {
			t.Errorf("a usual shutter has %g s: %t, nearest to it %g", s, usual.HasSpeed(s), usual.NearestSpeed(s*1.01))
		}
	}
	for s, want := range map[float64]bool{1. / 3: false, 1. / 1024: false, 0.75: false, 1: true, 1.5: true, 100: true} {
		if usual.HasSpeed(s) != want {
			t.Errorf("a usual shutter has %g s: %t", s, !want)
		}
	}
	fixed := Lens{Speeds: []float64{1. / 64, 1. / 32}}
	counted := Lens{Speeds: fixed.Speeds, Bulb: true}
	for s, want := range map[float64][2]bool{1: {false, true}, 7: {false, true}, 0.5: {false, false}, 1. / 32: {true, true}} {
		if fixed.HasSpeed(s) != want[0] || counted.HasSpeed(s) != want[1] {
			t.Errorf("%g s: without B %t, with it %t", s, fixed.HasSpeed(s), counted.HasSpeed(s))
		}
	}
	for seconds, want := range map[float64]float64{3: 3, 3.9: 4, 3.2: 3, 1.1: 1, 0.9: 1, 0.04: 1. / 32} {
		if got := counted.NearestSpeed(seconds); got != want {
			t.Errorf("nearest to %g s is %g, want %g", seconds, got, want)
		}
	}
	// The geometric mean is as near to the one as to the other; the longer is given.
	if got := fixed.NearestSpeed(math.Exp2(-5.5)); got != 1./32 {
		t.Errorf("between 1/64 and 1/32 %g is given", got)
	}
	lens := Lens{Wide: 5, Small: 11}
	const twelfth = 1. / 12
	for av, want := range map[float64]bool{5: true, 5 - twelfth + 1e-6: true, 5 - twelfth - 1e-3: false, 11 + twelfth - 1e-6: true, 11 + twelfth + 1e-3: false, 8: true} {
		if lens.HasAperture(av) != want {
			t.Errorf("f/5.6 to f/45 has Av %g: %t", av, !want)
		}
	}
	for _, open := range []Lens{{}, {Wide: 5}, {Small: 11}} {
		if !open.HasAperture(8) || !(Lens{Wide: 5}).HasAperture(20) || !(Lens{Small: 11}).HasAperture(-2) {
			t.Errorf("an end that is not known allows everything")
		}
	}
	for av, want := range map[float64]float64{8.1: 8, 8.2: 8 + 1./3, 4: 5, 5.1: 5, 11.4: 11, 20: 11, 10.9: 11} {
		if got := lens.NearestAperture(av); math.Abs(got-want) > 1e-9 {
			t.Errorf("nearest to Av %g is %g, want %g", av, got, want)
		}
	}
	for av, want := range map[float64]float64{3: 5, 13: 12, 8.4: 8 + 1./3} {
		if got := usual.NearestAperture(av); math.Abs(got-want) > 1e-9 {
			t.Errorf("of a usual lens nearest to Av %g is %g, want %g", av, got, want)
		}
	}
	halves := Lens{Wide: 5.2, Small: 11, Clicks: 0.5}
	for av, want := range map[float64]float64{8.2: 8, 8.3: 8.5, 5.3: 5.2, 5.4: 5.5} {
		if got := halves.NearestAperture(av); math.Abs(got-want) > 1e-9 {
			t.Errorf("in halves nearest to Av %g is %g, want %g", av, got, want)
		}
	}
	if got := (Lens{Wide: 13}).NearestAperture(12); got != 13 {
		t.Errorf("a pinhole of Av 13 is set to %g", got)
	}
}

// The ends of the rules of reciprocity, as their functions promise them.
func TestRulesAtTheirEnds(t *testing.T) {
	for p, want := range map[float64]bool{1: true, 3: true, 0.999: false, 3.001: false, 0: false, math.NaN(): false} {
		if _, err := PowerLaw(p, 1); (err == nil) != want {
			t.Errorf("the exponent %g is taken: %t", p, err == nil)
		}
	}
	table, err := Table(1, []Point{{10, 20}, {100, 400}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, factor float64 }{
		{0, 2}, {-1, 2}, {math.NaN(), 2}, {math.Inf(1), 2}, {200, 0}, {200, 0.99}, {200, math.NaN()}, {200, math.Inf(1)},
		{50, 20},  // within the table
		{200, 1},  // shorter than the table's last
		{100, 2},  // likewise
		{99.9, 5}, // likewise, by a little
	} {
		if _, err := table.Over(c.from, c.factor); err == nil {
			t.Errorf("times %g over %g s is taken", c.factor, c.from)
		}
	}
	law, _ := PowerLaw(1.3, 1)
	if _, err := law.Over(100, 4); err == nil {
		t.Error("a power law is continued")
	}
	// Where the table ends with the very factor it goes on with, there is no jump.
	for _, from := range []float64{100, 150} {
		rule, err := table.Over(from, 4)
		if err != nil {
			t.Fatal(err)
		}
		for _, metered := range []float64{100, 150, 300} {
			if clock, status := rule.Corrected(metered); math.Abs(clock-4*metered) > 1e-9*clock || status != Corrected {
				t.Errorf("times 4 over %g s makes %g s of %g s", from, clock, metered)
			}
		}
		if clock, _ := rule.Corrected(10); math.Abs(clock-20) > 1e-9 {
			t.Errorf("the table's 10 s have become %g s", clock)
		}
	}
	// A factor of 1 from the start is a film that needs no correction.
	none, err := (Rule{}).Over(1, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []float64{0.5, 1, 2, 100} {
		if clock, _ := none.Corrected(s); clock != s {
			t.Errorf("times 1 makes %g s of %g s", clock, s)
		}
	}
	// A film that needs none up to a time is said no more beyond it.
	upTo := None(30)
	for s, want := range map[float64]Status{30: Below, 30.1: Beyond, 0.1: Below} {
		if clock, status := upTo.Corrected(s); clock != s || status != want {
			t.Errorf("none up to 30 s: %g s is %g s, %v", s, clock, status)
		}
		if onFilm, status := upTo.Effective(s); onFilm != s || status != want {
			t.Errorf("none up to 30 s: %g s by the clock is %g s, %v", s, onFilm, status)
		}
	}
	for _, upTo := range []float64{0, -1} {
		if reach := None(upTo).Reach(); !math.IsInf(reach, 1) {
			t.Errorf("none up to %g s reaches %g s", upTo, reach)
		}
	}
	for _, clock := range []float64{0, -5, math.NaN()} {
		if onFilm, status := table.Effective(clock); status != Below || onFilm != clock && !math.IsNaN(clock) {
			t.Errorf("%g s by the clock is worth %g s, %v", clock, onFilm, status)
		}
	}
}
