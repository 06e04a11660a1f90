package draw

import (
	"math"
	"slices"
	"strconv"
)

// Axis is one side of a chart.
type Axis struct {
	Label    string // what it measures, with its unit
	From, To float64
	Ticks    []Tick
}

// Tick is a place on an axis; with words it has a line of the grid that is
// easier to see.
type Tick struct {
	At   float64
	Text string
}

// Steps are ticks at whole multiples of step from one figure to the other, every
// so-manieth with its figure, as the decimals of step ask for.
func Steps(from, to, step float64, every int) []Tick {
	var ticks []Tick
	decimals := 0
	for s := step * float64(every); decimals < 4 && math.Abs(s-math.Round(s)) > 1e-6; decimals++ {
		s *= 10
	}
	first, last := math.Ceil(from/step-1e-6), math.Floor(to/step+1e-6)
	for n := first; n <= last; n++ {
		t := Tick{At: n * step}
		if math.Mod(n, float64(every)) == 0 {
			t.Text = figure(t.At, decimals)
		}
		ticks = append(ticks, t)
	}
	return ticks
}

// figure writes a number with its minus level with the digits.
func figure(x float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	if x < 0 && s != strconv.FormatFloat(0, 'f', decimals, 64) {
		return "\u2212" + s
	}
	return s
}

// Even are ticks at 1, 2 or 5 times a power of ten, at most so many of them with
// figures.
func Even(from, to float64, most int) []Tick {
	if !(to > from) || most < 1 {
		return nil
	}
	step := math.Pow(10, math.Floor(math.Log10((to-from)/float64(most))))
	for _, times := range []float64{1, 2, 5, 10} {
		if (to-from)/(step*times) <= float64(most) {
			return Steps(from, to, step*times, 1)
		}
	}
	return Steps(from, to, step*10, 1)
}

// apart leaves words only to every second tick that has some, every third and so on, where
// else two that follow one another would meet.
func apart(ticks []Tick, meet func(a, b Tick) bool) []Tick {
	var named []int
	for i, t := range ticks {
		if t.Text != "" {
			named = append(named, i)
		}
	}
	every := 1
	for i := every; i < len(named); i += every {
		if meet(ticks[named[i-every]], ticks[named[i]]) {
			every++
			i = 0
		}
	}
	out := slices.Clone(ticks)
	for i, at := range named {
		if i%every != 0 {
			out[at].Text = ""
		}
	}
	return out
}

// Decades are ticks of an axis of common logarithms: the figures 1 to 9 of each
// power of ten, with words at those of the list (1, 2, 5) times the power.
// Words writes a figure; nil writes it plainly.
func Decades(from, to float64, named []float64, words func(float64) string) []Tick {
	if words == nil {
		words = func(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }
	}
	var ticks []Tick
	for power := math.Floor(from); power <= to; power++ {
		for n := 1.; n < 10; n++ {
			t := Tick{At: power + math.Log10(n)}
			if t.At < from-1e-9 || t.At > to+1e-9 {
				continue
			}
			for _, m := range named {
				if m == n {
					t.Text = words(n * math.Pow(10, power))
				}
			}
			ticks = append(ticks, t)
		}
	}
	return ticks
}
