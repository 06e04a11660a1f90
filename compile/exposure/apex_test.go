package exposure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// APEX values as printed in the Exif 2.3 standard, annex C: f/5.6 is Av 5, 1/125 is
// Tv 7, ISO 100 is Sv 5, and Av + Tv is EV.
func TestApex(t *testing.T) {
	const annex = "Exif 2.3, annex C"
	run(t, []check{
		{"f/1", Av(1), 0, exact, annex}, {"f/5.6", av(5.6), 5, exact, annex}, {"f/32", av(32), 10, exact, annex},
		{"30 s", Tv(32), -5, exact, annex}, {"1/125", Tv(sec(1, 125)), 7, exact, annex},
		{"ISO 100", must(SpeedSv(100)), 5, exact, annex}, {"ISO 3", must(SpeedSv(3)), 0, exact, annex},
		{"a speed off the series", must(SpeedSv(90)), math.Log2(90 / 3.125), exact, annex},
		{"f/11 exactly", FNumber(7), 11.3137, 1e-4, annex},
		{"EV 12 at 1/60 is f/8", AvFor(12, sec(1, 60)), av(8), exact, annex},
	})
}

func TestSpeedShift(t *testing.T) {
	const c = "C: log2(EI film / EI meter)"
	run(t, []check{
		{"meter at 100, film 200", must(SpeedShift(200, 100)), 1, exact, c},
		{"meter at 100, film 64", must(SpeedShift(64, 100)), -2. / 3, 1e-6, c},
		{"EV 12 at ISO 100, film 400", AtSpeed(12, must(SpeedSv(400))), 14, exact, c},
	})
}

func TestMean(t *testing.T) {
	if got, ok := Mean(9, 11, 13); !ok || got != 11 {
		t.Errorf("mean of 9 11 13 is %g", got)
	}
	if _, ok := Mean(); ok {
		t.Error("no reading has a mean")
	}
}

// Zero must come out as plain zero, or it prints as "-0" somewhere.
func TestRound(t *testing.T) {
	for _, c := range [][2]float64{{1. / 3, 0.333333}, {-1e-9, 0}, {0.3333334, 0.333333}, {-2. / 3, -0.666667}} {
		if got := Round(c[0]); got != c[1] || got == 0 && math.Signbit(got) {
			t.Errorf("%g rounded is %g, want %g", c[0], got, c[1])
		}
	}
	if got := Difference(12, 11); got != 1 {
		t.Errorf("needed EV 12, given EV 11: %g, want 1 stop too much", got)
	}
}

// Settings a whole number of stops apart are the same exposure, whichever marks they
// are written with.
func TestEquivalentSettings(t *testing.T) {
	full := []float64{5.6, 8, 11, 16, 22, 32, 45, 64}
	speeds := [][2]float64{{1, 500}, {1, 250}, {1, 125}, {1, 60}, {1, 30}, {1, 15}, {1, 8}, {1, 4}, {1, 2}, {1, 1}, {2, 1}}
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.IntRange(0, len(full)-1).Draw(t, "aperture")
		s := rapid.IntRange(0, len(speeds)-1).Draw(t, "speed")
		n := rapid.IntRange(0, min(len(full)-1-a, len(speeds)-1-s)).Draw(t, "stops")
		before := EV(av(full[a]), sec(speeds[s][0], speeds[s][1]))
		after := EV(av(full[a+n]), sec(speeds[s+n][0], speeds[s+n][1]))
		if Round(before-after) != 0 {
			t.Errorf("%d stops on: EV %g became %g", n, before, after)
		}
	})
}

// A stack owes the same whichever filter is screwed on first.
func TestOrderOfFilters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		factors := rapid.SliceOfN(rapid.Float64Range(1, 64), 1, 4).Draw(t, "factors")
		product, sum, back := 1.0, 0.0, 0.0
		for i := range factors {
			product *= factors[i]
			sum += must(FactorStops(factors[i]))
			back += must(FactorStops(factors[len(factors)-1-i]))
		}
		if math.Abs(sum-back) > 1e-9 || math.Abs(sum-must(FactorStops(product))) > 1e-9 {
			t.Errorf("%v: %g one way, %g the other, %g multiplied", factors, sum, back, must(FactorStops(product)))
		}
	})
}

// The four ways to note an extension are one rule.
func TestBellowsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(47, 600).Draw(t, "focal")
		m := rapid.Float64Range(0.01, 3).Draw(t, "m")
		want := must(BellowsByMagnification(m))
		for name, got := range map[string]float64{
			"extension": must(BellowsByExtension(ExtensionFor(m, f), f)),
			"flange":    must(BellowsByFlange(0.6*f+m*f, 0.6*f, f)),
			"distance":  must(BellowsByFocusDistance(f+f/m, f)),
		} {
			if math.Abs(got-want) > 1e-9 {
				t.Errorf("%g mm at %g by %s: %g stops, want %g", f, m, name, got, want)
			}
		}
	})
}

func TestFactorsRefused(t *testing.T) {
	refused := map[string]bool{}
	note := func(name string, _ float64, ok bool) { refused[name] = !ok }
	add := func(name string) func(float64, bool) {
		return func(x float64, ok bool) { note(name, x, ok) }
	}
	add("factor 0.5")(FactorStops(0.5))
	add("factor 0")(FactorStops(0))
	add("density -0.3")(DensityStops(-0.3))
	add("extension 0")(BellowsByExtension(0, 210))
	add("focal 0")(BellowsByExtension(210, 0))
	add("focus within the focal length")(BellowsByFocusDistance(200, 210))
	add("m -1")(BellowsByMagnification(-1))
	add("m NaN")(BellowsByMagnification(math.NaN()))
	for name, was := range refused {
		if !was {
			t.Errorf("%s was taken", name)
		}
	}
	if got, ok := BellowsByExtension(200, 210); !ok || got != 0 {
		t.Errorf("an extension short of the focal length owes %g, %v; want nothing", got, ok)
	}
}

func TestCircle(t *testing.T) {
	run(t, []check{
		{"a frame without movement needs its diagonal", NeededCircle(120, 94.5, 0, 0), math.Hypot(120, 94.5), exact, "C"},
		{"falls need as much as rises", NeededCircle(120, 94.5, 0, -20), NeededCircle(120, 94.5, 0, 20), exact, "C"},
		{"the circle doubles at life size", CircleAt(1, 210), 420, exact, "C"},
	})
	if _, far := DepthOfField(554, 600); !math.IsInf(far, 1) {
		t.Errorf("beyond the hyperfocal distance sharpness ends at %g", far)
	}
}

// A filter and its compensation leave the film what it had without them, whether the
// aperture or the time compensates.
func TestCompensationUndoesTheFilter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ev := rapid.Float64Range(-6, 20).Draw(t, "EV")
		stop := rapid.Float64Range(0, 14).Draw(t, "Av")
		factor := rapid.Float64Range(1, 1024).Draw(t, "factor")
		asked := ev - must(FactorStops(factor))
		if off := Round(Difference(asked, EV(stop, Seconds(ev, stop)*factor))); off != 0 {
			t.Errorf("x%g by the time leaves %g stops", factor, off)
		}
		if off := Round(Difference(asked, EV(stop-must(FactorStops(factor)), Seconds(ev, stop)))); off != 0 {
			t.Errorf("x%g by the aperture leaves %g stops", factor, off)
		}
	})
}

// Inches and millimetres (25.4 to the inch, by definition) give the same bellows factor.
func TestInchesAgreeWithMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		focal := rapid.Float64Range(2, 24).Draw(t, "focal, in")
		extension := focal * rapid.Float64Range(1, 4).Draw(t, "drawn")
		inches, mm := must(BellowsByExtension(extension, focal)), must(BellowsByExtension(25.4*extension, 25.4*focal))
		if Round(inches-mm) != 0 {
			t.Errorf("%g in at %g in: %g stops, in mm %g", focal, extension, inches, mm)
		}
	})
}
