package sensitometry

import (
	"math"
	"slices"
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
	Fog   Fog

	problem *problem
	found   *solution
}

// Fog is the base and fog that all densities of a film were taken over.
type Fog struct {
	Sd     float64 // standard error
	Off    float64 // density by which it is more than it was taken for
	Steps  int     // readings too dark for any exposure, which were counted as more of it
	Differ bool    // these have another density than it: they were not
}

// noExposure is how far below the speed point nothing is left of an exposure, in
// log10: four stops, Zone -III, with the toes of all films tried under a hundredth of
// density (common practice, no source).
var noExposure = 4 * Stop

// NewFilm fits the curve of sheets that were developed together. sheets is how
// many there are, fog the standard error of the one base and fog that their
// densities were taken over: 0 where it is in that of each reading, NaN where no
// base and fog was read. What lies four stops and more below the speed point has
// got the base and fog and no more, so that steps there tell it as well as readings
// of it do, and the curve comes from there.
func NewFilm(readings []Reading, sheets int, fog float64) (*Film, error) {
	p := &problem{readings: readings, sheets: sheets, effects: make([][]float64, sheets)}
	f := &Film{problem: p, Fog: Fog{Sd: fog}}
	if math.IsNaN(fog) {
		f.Fog.Sd = 0
	} else if first, err := p.first(); err != nil {
		return nil, err
	} else if x, _, ok := first.Exposure(SpeedPoint); ok {
		p.readings = f.pool(readings, x-noExposure)
		p.dark = append(p.dark, x-noExposure, x-noExposure-knotStep)
	}
	with, without, odd, err := p.robust()
	if err != nil {
		return nil, err
	}
	f.Odd, f.found = odd, without
	if f.Curve, err = without.curve(); err != nil {
		return nil, err
	}
	f.With = f.Curve
	if len(odd) > 0 {
		if f.With, err = with.curve(); err != nil {
			return nil, err
		}
		f.With.Base = f.Fog.Sd
	}
	f.Curve.Base = f.Fog.Sd
	return f, nil
}

// first is the curve before anything is known of the toe.
func (p *problem) first() (*Curve, error) {
	s, _, err := p.huber(make([]bool, p.sheets))
	if err != nil {
		return nil, err
	}
	return s.curve()
}

// pool takes the readings below an exposure for base and fog, and gives all
// readings over what both together make it.
func (f *Film) pool(readings []Reading, below float64) []Reading {
	var sum, weight float64
	for _, r := range readings {
		if r.LogH <= below {
			w := 1 / (sdOf(r) * sdOf(r))
			sum, weight = sum+w*r.D, weight+w
			f.Fog.Steps++
		}
	}
	if f.Fog.Sd == 0 || f.Fog.Steps == 0 {
		return readings
	}
	off, own := sum/weight, f.Fog.Sd*f.Fog.Sd
	if math.Abs(off) > 4*math.Sqrt(own+1/weight) {
		f.Fog.Differ = true
		return readings
	}
	f.Fog.Off = off * own / (own + 1/weight)
	f.Fog.Sd = 1 / math.Sqrt(1/own+weight)
	over := slices.Clone(readings)
	for i := range over {
		over[i].D -= f.Fog.Off
	}
	return over
}

// Without is the curve with one sheet more left out: what hangs on it alone. nil
// where there is then none.
func (f *Film) Without(sheet int) *Curve {
	v := view{weight: make([]float64, f.problem.sheets), free: -1}
	for i := range v.weight {
		v.weight[i] = 1
	}
	v.weight[sheet] = 0
	for _, s := range OutOf(f.Odd) {
		v.weight[s] = 0
	}
	s, err := f.problem.solve(v, f.found)
	if err != nil {
		return nil
	}
	c, err := s.curve()
	if err != nil {
		return nil
	}
	c.Base = f.Fog.Sd
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
