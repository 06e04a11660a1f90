package sensitometry

import (
	"math"
)

// SpeedPoint is the density over base and fog that speed is measured at (ISO
// 6:1993; and the Zone I of Ansel Adams, The Negative, 1981).
const SpeedPoint = 0.10

// Film is a film's curve from one test, with and without the sheets that do not
// belong.
type Film struct {
	Curve *Curve
	With  *Curve // of all sheets; Curve itself where none is odd
	Odd   []Odd

	problem *problem
	found   *solution
}

// NewFilm fits the curve of sheets that were developed together. sheets is how
// many there are.
func NewFilm(readings []Reading, sheets int) (*Film, error) {
	p := &problem{readings: readings, sheets: sheets, effects: make([][]float64, sheets)}
	with, without, odd, err := p.robust()
	if err != nil {
		return nil, err
	}
	f := &Film{Odd: odd, problem: p, found: without}
	if f.Curve, err = without.curve(); err != nil {
		return nil, err
	}
	f.With = f.Curve
	if len(odd) > 0 {
		if f.With, err = with.curve(); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// Without is the curve with one sheet more left out: what hangs on it alone. nil
// where there is then none.
func (f *Film) Without(sheet int) *Curve {
	v := view{weight: make([]float64, f.problem.sheets), free: -1}
	for i := range v.weight {
		v.weight[i] = 1
	}
	v.weight[sheet] = 0
	for _, o := range f.Odd {
		v.weight[o.Sheet] = 0
	}
	s, err := f.problem.solve(v, f.found)
	if err != nil {
		return nil
	}
	c, err := s.curve()
	if err != nil {
		return nil
	}
	return c
}

// Index is the exposure index by the density at Zone I: exposures are log10 of
// stops from Zone V, where the meter stood at index. The error is in stops. ok is
// false where the curve does not reach the density.
func Index(c *Curve, index float64) (ei float64, sd float64, ok bool) {
	x, sd, ok := c.Exposure(SpeedPoint)
	if !ok {
		return 0, 0, false
	}
	return index * math.Exp2(-4-x/Stop), sd / Stop, true // Zone I is four stops below Zone V
}

// The criterion of ISO 6:1993: a curve that rises by 0.80 over the 1.30 of log10
// exposure behind the speed point, within 0.05.
const (
	isoSpan   = 1.30
	isoRise   = 0.80
	isoWithin = 0.05
	isoSpeed  = 0.8 // S = 0.8/Hm, Hm in lux seconds
)

// ISO is what the criterion of ISO 6:1993 says of a curve.
type ISO struct {
	Hm    Figure  // log10 exposure at the speed point
	Rise  float64 // of density over the next 1.30 of log10 exposure
	Meets bool    // the rise is 0.80 within 0.05
	Speed float64 // 0.8/Hm, arithmetic; of exposures in lux seconds only
}

// Criterion applies ISO 6:1993 to a curve; ok is false where the curve does not
// reach both points.
func Criterion(c *Curve) (iso ISO, ok bool) {
	x, sd, ok := c.Exposure(SpeedPoint)
	if !ok {
		return iso, false
	}
	d, ok := c.Density(x + isoSpan)
	if !ok {
		return iso, false
	}
	iso = ISO{Hm: Figure{x, sd}, Rise: d - SpeedPoint, Speed: isoSpeed / math.Pow(10, x)}
	iso.Meets = math.Abs(iso.Rise-isoRise) <= isoWithin+1e-9
	return iso, true
}
