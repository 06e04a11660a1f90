package sensitometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/mat"
)

// Curve is a characteristic curve: densities over base and fog against log10
// exposure, inside the exposures that were tested.
type Curve struct {
	From, To float64 // log10 exposure
	Base     float64 // standard error of the base and fog that all densities were taken over
	line     interp.FritschButland
	fit      *solution
	logH, d  []float64 // nodes
}

// NewCurve joins measured points by a monotone curve, as they are: of points out
// of order the mean counts, and so it does of points of one exposure.
func NewCurve(logH, d []float64) (*Curve, error) {
	c := &Curve{}
	x, y := monotone(logH, d)
	return c, c.join(x, y)
}

// curve is the monotone curve through a fit.
func (s *solution) curve() (*Curve, error) {
	c := &Curve{fit: s}
	n := max(int(math.Ceil((s.high-s.low)/(knotStep/3))), 2)
	x, y := make([]float64, n+1), make([]float64, n+1)
	for i := range x {
		x[i] = s.low + (s.high-s.low)*float64(i)/float64(n)
		y[i], _ = s.spline.at(x[i])
	}
	x, y = monotone(x, y)
	return c, c.join(x, y)
}

func (c *Curve) join(x, y []float64) error {
	if len(x) < 3 {
		return ErrTooFew
	}
	c.logH, c.d = x, y
	c.From, c.To = x[0], x[len(x)-1]
	return c.line.Fit(x, y)
}

// monotone orders points and takes the mean of those that go down, the nearest
// rising figures in the sense of least squares (pool adjacent violators: Barlow
// and others, Statistical Inference under Order Restrictions, 1972).
func monotone(logH, d []float64) (x, y []float64) {
	type pool struct{ x, y, n float64 }
	var pools []pool
	index := make([]int, len(logH))
	floats.ArgsortStable(slices.Clone(logH), index)
	for _, i := range index {
		if n := len(pools); n > 0 && pools[n-1].x == logH[i] {
			p := &pools[n-1]
			p.y, p.n = (p.y*p.n+d[i])/(p.n+1), p.n+1
			continue
		}
		pools = append(pools, pool{logH[i], d[i], 1})
	}
	type level struct {
		y, n float64
		of   int
	}
	var levels []level
	for _, p := range pools {
		levels = append(levels, level{p.y, p.n, 1})
		for n := len(levels); n > 1 && levels[n-2].y > levels[n-1].y; n = len(levels) {
			a, b := levels[n-2], levels[n-1]
			levels = append(levels[:n-2], level{(a.y*a.n + b.y*b.n) / (a.n + b.n), a.n + b.n, a.of + b.of})
		}
	}
	i := 0
	for _, l := range levels {
		for range l.of {
			x, y = append(x, pools[i].x), append(y, l.y)
			i++
		}
	}
	return x, y
}

// Density is the density at an exposure; ok is false outside what was tested.
func (c *Curve) Density(logH float64) (d float64, ok bool) {
	return c.line.Predict(logH), logH >= c.From-1e-9 && logH <= c.To+1e-9
}

// Gradient is the slope of the curve at an exposure.
func (c *Curve) Gradient(logH float64) float64 {
	return c.line.PredictDerivative(min(max(logH, c.From), c.To))
}

// Exposure is where the curve first reaches a density, and its standard error, 0
// where it is not known; ok is false where the curve does not reach it.
func (c *Curve) Exposure(d float64) (logH, sd float64, ok bool) {
	if d < c.d[0] || d > c.d[len(c.d)-1] {
		return 0, 0, false
	}
	low, high := c.From, c.To
	for range 60 {
		mid := (low + high) / 2
		if c.line.Predict(mid) < d {
			low = mid
		} else {
			high = mid
		}
	}
	return high, c.sdAt(high), true
}

// sdAt is the standard error of an exposure that was read off the curve.
func (c *Curve) sdAt(logH float64) float64 {
	sd := c.sdOfSum([]float64{logH}, []float64{1}) / c.slope(logH)
	if c.fit == nil {
		return sd
	}
	return math.Hypot(sd, c.fit.place)
}

// ByFog is how much of the standard error of the exposure at a density the base and
// fog makes, in log10 exposure.
func (c *Curve) ByFog(d float64) float64 {
	x, _, ok := c.Exposure(d)
	if !ok {
		return 0
	}
	return c.Base / c.slope(x)
}

// slope is that of the fit, and no less than what can be told from flat.
func (c *Curve) slope(logH float64) float64 {
	if c.fit == nil {
		return max(c.Gradient(logH), leastSlope)
	}
	_, slope := c.fit.spline.at(logH)
	return max(slope, leastSlope)
}

const leastSlope = 0.02

// sdOfSum is the standard error of a weighed sum of the curve's densities at some
// exposures, with the base and fog that all of them were taken over.
func (c *Curve) sdOfSum(logH, weight []float64) float64 {
	if c.fit == nil {
		return 0
	}
	n, _ := c.fit.inverse.Dims()
	v := mat.NewVecDense(n, nil)
	for k, x := range logH {
		i, value, _ := c.fit.spline.basis(x)
		for a := range value {
			v.SetVec(i+a, v.AtVec(i+a)+weight[k]*value[a])
		}
	}
	base := floats.Sum(weight) * c.Base
	return math.Sqrt(max(mat.Inner(v, c.fit.inverse, v), 0)*c.fit.chi + base*base)
}

// Points are the curve as it is drawn.
func (c *Curve) Points(n int) (logH, d []float64) {
	for i := range n + 1 {
		x := c.From + (c.To-c.From)*float64(i)/float64(n)
		logH, d = append(logH, x), append(d, c.line.Predict(x))
	}
	return logH, d
}
