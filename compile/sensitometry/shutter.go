package sensitometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Timed is how a shutter stood at one marked speed.
type Timed struct {
	Marked, Median float64 // seconds
	Spread         float64 // seconds from the shortest to the longest
	Off            float64 // stops by which it gives more than marked
	Sd             float64 // standard deviation of one opening, stops; 0 of fewer than three
	Count          int
}

// Shutter sums the readings of one marked speed up; all are seconds.
func Shutter(marked float64, real []float64) Timed {
	t := Timed{Marked: marked, Median: Median(real), Count: len(real)}
	t.Spread = slices.Max(real) - slices.Min(real)
	t.Off = math.Log2(t.Median / marked)
	if len(real) > 2 {
		t.Sd = stat.StdDev(real, nil) / t.Median / math.Ln2
	}
	return t
}

// Offset is how two meters stand to one another.
type Offset struct {
	Median Figure // EV by which the first shows more
	Spread float64
	Odd    []int // pairs that do not belong
	Count  int
}

// Meters compares pairs of readings of the same light, in EV: by the median, whose
// error is that of a normal sample's (√(π/2)·s/√n), and with s from the median
// distance so that one odd pair does not move it.
func Meters(first, second []float64) Offset {
	d := make([]float64, len(first))
	for i := range d {
		d[i] = first[i] - second[i]
	}
	o := Offset{Median: Figure{Value: Median(d)}, Count: len(d), Spread: slices.Max(d) - slices.Min(d)}
	away := make([]float64, len(d))
	for i := range d {
		away[i] = math.Abs(d[i] - o.Median.Value)
	}
	s := Median(away) / 0.6745
	if len(d) > 2 {
		o.Median.Sd = math.Sqrt(math.Pi/2) * max(s, 0.1/math.Sqrt(12)) / math.Sqrt(float64(len(d)))
	}
	for i := range d {
		if len(d) > 3 && away[i] > max(3.5*s, 1./3) {
			o.Odd = append(o.Odd, i)
		}
	}
	return o
}
