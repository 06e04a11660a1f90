package sensitometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// AverageGradient is the slope of the straight line from the speed point to the
// point of the curve that lies so much log10 exposure further: 1.30 as in ISO
// 6:1993, or 1.50 as some makers print it (from memory). ok is false where the
// curve ends before.
func AverageGradient(c *Curve, span float64) (g Figure, ok bool) {
	rise, ok := c.rise(SpeedPoint, span)
	return Figure{rise.Value / span, rise.Sd / span}, ok
}

// rise is how much density the curve gains over a stretch of exposure behind the
// point where it reaches d.
func (c *Curve) rise(d, span float64) (rise Figure, ok bool) {
	x, _, ok := c.Exposure(d)
	if !ok {
		return rise, false
	}
	far, ok := c.Density(x + span)
	// What the curve is wrong by at the first point moves the second along it.
	return Figure{far - d, c.sdOfSum([]float64{x + span, x}, []float64{1, -c.Gradient(x+span) / c.slope(x)})}, ok
}

// The arcs of the contrast index.
const (
	nearArc = 0.2
	farArc  = 2.2
)

// ContrastIndex is the slope of the straight line, from a point on the base and
// fog, that meets the curve at a distance of 0.2 and of 2.2 from that point, both
// axes in the same unit (Niederpruem, Nelson and Yule, Contrast Index,
// Photographic Science and Engineering 10 (1966) 35; the arcs from memory). ok is
// false where the curve does not reach both arcs.
func ContrastIndex(c *Curve) (ci Figure, ok bool) {
	// At the slope the two points are as far apart in exposure as their densities
	// ask for; below it the curve's points lie too near one another.
	miss := func(angle float64) (float64, bool) {
		near, _, a := c.Exposure(nearArc * math.Sin(angle))
		far, _, b := c.Exposure(farArc * math.Sin(angle))
		return far - near - (farArc-nearArc)*math.Cos(angle), a && b
	}
	low, high := 0., 0.
	last, found := 0., false
	for angle := 0.02; angle < 1.5; angle += 0.02 {
		m, reached := miss(angle)
		if reached && found && last < 0 && m >= 0 {
			low, high = angle-0.02, angle
			break
		}
		last, found = m, reached
	}
	if high == 0 {
		return ci, false
	}
	for range 50 {
		mid := (low + high) / 2
		if m, _ := miss(mid); m < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	ci.Value = math.Tan(high)
	near, _, _ := c.Exposure(nearArc * math.Sin(high))
	far, _, _ := c.Exposure(farArc * math.Sin(high))
	const little = 0.005
	more, a := miss(high + little)
	less, b := miss(high - little)
	if turn := (more - less) / (2 * little); a && b && turn > 0 { // the error of the two points turns the line
		angle := c.sdOfSum([]float64{near, far}, []float64{1 / c.slope(near), -1 / c.slope(far)}) / turn
		ci.Sd = angle / (math.Cos(high) * math.Cos(high))
	}
	return ci, true
}

// Target is what a negative is to be: two densities over base and fog on two
// zones at N.
type Target struct {
	LowZone, Low   float64
	HighZone, High float64
}

// Usual is the target where the writer has none: 0.10 on Zone I and 1.30 on Zone
// VIII, for an enlarger with diffuse light. Common practice, no source.
var Usual = Target{1, 0.10, 8, 1.30}

// Developed is a curve and the time that its sheets were developed for.
type Developed struct {
	Seconds float64
	Curve   *Curve
}

// Needed is the developing time for one of N−2 to N+2; no time is given outside
// those that were tested.
type Needed struct {
	N       float64
	Seconds float64
	Sd      float64 // seconds
	Known   bool
	Why     string // where it is not known
}

// Times are the developing times at which as many zones as N says fill the
// target: N+1 puts Zone VII where N has VIII. They lie between tested times, with
// the time's logarithm on a monotone curve. curves are in the order of their
// times.
func Times(curves []Developed, t Target) []Needed {
	var all []Needed
	for n := -2.; n <= 2; n++ {
		all = append(all, needed(curves, t, n))
	}
	return all
}

func needed(curves []Developed, t Target, n float64) Needed {
	span := (t.HighZone - t.LowZone - n) * Stop
	var time, high, sd []float64
	for _, c := range curves {
		if rise, ok := c.Curve.rise(t.Low, span); ok {
			time, high, sd = append(time, math.Log(c.Seconds)), append(high, t.Low+rise.Value), append(sd, rise.Sd)
		}
	}
	out := Needed{N: n}
	switch last := len(high) - 1; {
	case last < 1:
		out.Why = "the curves do not reach so far"
	case t.High < high[0]:
		out.Why = "shorter than the shortest time that was tested"
	case t.High > high[last]:
		out.Why = "longer than the longest time that was tested"
	default:
		x, y := monotone(time, high)
		out.Seconds, out.Known = timeAt(x, y, t.High)
		if !out.Known {
			out.Why = "more time gave no more density"
			break
		}
		out.Sd = timeSd(time, high, sd, t.High)
	}
	return out
}

// timeSd is the standard error of a time in seconds: by how much each density's
// own error moves it, as independent as the sheets of different baths are.
func timeSd(time, high, sd []float64, d float64) float64 {
	var moved []float64
	for i := range high {
		for _, way := range []float64{-1, 1} {
			other := slices.Clone(high)
			other[i] += way * sd[i]
			x, y := monotone(time, other)
			lower, upper := y[0], y[len(y)-1]
			if seconds, ok := timeAt(x, y, min(max(d, lower), upper)); ok {
				moved = append(moved, seconds)
			}
		}
	}
	sum := 0.
	for i := 0; i+1 < len(moved); i += 2 {
		sum += (moved[i+1] - moved[i]) * (moved[i+1] - moved[i]) / 4
	}
	return math.Sqrt(sum)
}

// timeAt is where a monotone curve of logarithms of time reaches a density.
func timeAt(time, high []float64, d float64) (seconds float64, ok bool) {
	var line interface {
		Fit(x, y []float64) error
		Predict(float64) float64
	} = new(interp.FritschButland)
	if len(time) < 3 {
		line = new(interp.PiecewiseLinear)
	}
	if line.Fit(time, high) != nil || high[0] == high[len(high)-1] {
		return 0, false
	}
	low, top := time[0], time[len(time)-1]
	for range 60 {
		mid := (low + top) / 2
		if line.Predict(mid) < d {
			low = mid
		} else {
			top = mid
		}
	}
	return math.Exp(top), true
}
