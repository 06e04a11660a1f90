package sensitometry

import "math"

// spline is a cubic B-spline on evenly spaced knots.
type spline struct {
	from, step float64
	coef       []float64
}

// knotStep is the distance of the knots in log10 exposure: half a stop.
const knotStep = 0.15

// newSpline spans a stretch of exposures with room at both ends.
func newSpline(from, to, room float64) spline {
	from, to = from-room, to+room
	n := int(math.Ceil((to - from) / knotStep))
	return spline{from: from, step: knotStep, coef: make([]float64, n+3)}
}

// basis is the four pieces that are not zero at x, the index of the first, and
// their slopes.
func (s *spline) basis(x float64) (first int, value, slope [4]float64) {
	u := (x - s.from) / s.step
	i := min(max(int(math.Floor(u)), 0), len(s.coef)-4)
	t := u - float64(i)
	r := 1 - t
	value = [4]float64{r * r * r / 6, (3*t*t*t - 6*t*t + 4) / 6, (3*r*r*r - 6*r*r + 4) / 6, t * t * t / 6}
	slope = [4]float64{-r * r / 2, (3*t*t - 4*t) / 2, (4*r - 3*r*r) / 2, t * t / 2}
	for k := range slope {
		slope[k] /= s.step
	}
	return i, value, slope
}

// at is the spline's value and slope.
func (s *spline) at(x float64) (value, slope float64) {
	i, v, d := s.basis(x)
	for k := range v {
		value += v[k] * s.coef[i+k]
		slope += d[k] * s.coef[i+k]
	}
	return value, slope
}

// falls is the pieces, as bits, at which the coefficients go down.
func (s *spline) falls() (bits uint64) {
	for i := 0; i+1 < len(s.coef); i++ {
		if s.coef[i+1] < s.coef[i]-1e-9 {
			bits ^= 1 << (i % 64)
		}
	}
	return bits
}
