package spectral

import (
	"math"
	"slices"
)

// The stretch of the spectrum that is computed, and its step, in nanometres. The
// published filter curves begin at 400 nm, and panchromatic film ends before 700.
const (
	From, To, Step = 400, 700, 10
	count          = (To-From)/Step + 1
)

// Curve is a value for every ten nanometres from 400 to 700: a transmittance or
// reflectance (0 to 1), a sensitivity or a light (relative).
type Curve [count]float64

// Nanometres returns the wavelength of a curve's i-th value.
func Nanometres(i int) int { return From + i*Step }

// flat is the same value throughout.
func flat(v float64) (c Curve) {
	for i := range c {
		c[i] = v
	}
	return c
}

// Neutral is the transmittance of a neutral filter of a density.
func Neutral(density float64) Curve { return flat(math.Pow(10, -density)) }

// Through is the light that is left of c behind a filter, or two filters as one.
func (c Curve) Through(filter Curve) Curve {
	for i := range c {
		c[i] *= filter[i]
	}
	return c
}

// dot is the sum of the products.
func (c *Curve) dot(d *Curve) (sum float64) {
	for i := range c {
		// The conversion keeps machines from fusing the two steps into one, so that
		// all of them round alike.
		sum += float64(c[i] * d[i])
	}
	return sum
}

func (c *Curve) sum() (sum float64) {
	for _, v := range c {
		sum += v
	}
	return sum
}

// Reading is one measured point of a curve.
type Reading struct{ NM, Value float64 }

// Between draws straight lines from reading to reading, in order of wavelength.
// missing is the part of 400 to 700 nm, in nanometres, that the readings do not
// span; there the curve is zero, for a curve is never drawn further than it was
// measured. Two readings at one wavelength are averaged.
func Between(readings []Reading) (c Curve, missing int) {
	sorted := slices.Clone(readings)
	slices.SortStableFunc(sorted, func(a, b Reading) int {
		switch {
		case a.NM < b.NM:
			return -1
		case a.NM > b.NM:
			return 1
		}
		return 0
	})
	for i := range c {
		v, ok := at(sorted, float64(Nanometres(i)))
		if !ok {
			missing += Step
		}
		c[i] = v
	}
	return c, missing
}

// at is the value of sorted readings at a wavelength, and whether they span it.
func at(sorted []Reading, nm float64) (v float64, ok bool) {
	var same []float64
	for i, r := range sorted {
		switch {
		case r.NM == nm:
			same = append(same, r.Value)
		case r.NM > nm && len(same) == 0:
			if i == 0 {
				return 0, false
			}
			l := sorted[i-1]
			return l.Value + float64((r.Value-l.Value)*(nm-l.NM)/(r.NM-l.NM)), true
		}
	}
	for _, s := range same {
		v += s / float64(len(same))
	}
	return v, len(same) > 0
}
