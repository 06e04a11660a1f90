package spectral

import "math"

// Lights that a forecast can be made for.
const (
	Daylight = "daylight"
	Tungsten = "tungsten"
)

// The tables of filter factors name their lights daylight and tungsten and nothing
// more, so that the two colour temperatures are the method's free figures: one a
// light, the same for all filters and films, taken in steps of 100 K where the
// published table as a whole fits best (TestTemperaturesAreWhereTheTablesFitBest).
// They stand for the light together with whatever the printed film curves and the
// lens are wrong by towards the blue; nobody's lamp was measured. By the standards
// alone, D55 and illuminant A (2856 K), the forecast misses by 0.18 and 0.21 stop
// instead of 0.15 and 0.15 (the same test prints it).
const (
	daylightKelvin = 5000
	tungstenKelvin = 2600
)

// light is the relative energy of a light by its name.
func (d *data) light(name string) Curve {
	if name == Tungsten {
		return planck(tungstenKelvin)
	}
	return d.daylight(daylightKelvin)
}

// planck is the light of a black body, 1 at 560 nm: CIE 15, c2 = 1.4388e-2 m K.
func planck(kelvin float64) (c Curve) {
	const c2 = 1.4388e7 // nm K
	one := math.Pow(560, 5) * (math.Exp(c2/(560*kelvin)) - 1)
	for i := range c {
		nm := float64(Nanometres(i))
		c[i] = one / math.Pow(nm, 5) / (math.Exp(c2/(nm*kelvin)) - 1)
	}
	return c
}

// daylight is CIE daylight of 4000 to 25 000 K, about 100 at 560 nm. The nominal
// temperature is brought to the present value of c2 first (CIE 15, in the head of
// illuminants.csv).
func (d *data) daylight(nominal float64) (c Curve) {
	x, y := daylightChromaticity(nominal * 1.4388 / 1.4380)
	m := 0.0241 + float64(0.2562*x) - float64(0.7341*y)
	m1 := thousandths((-1.3515 - float64(1.7703*x) + float64(5.9114*y)) / m)
	m2 := thousandths((0.0300 - float64(31.4424*x) + float64(30.0717*y)) / m)
	s0, s1, s2 := d.lights["S0"].curve(), d.lights["S1"].curve(), d.lights["S2"].curve()
	for i := range c {
		c[i] = s0[i] + float64(m1*s1[i]) + float64(m2*s2[i])
	}
	return c
}

// daylightChromaticity is the place of CIE daylight of a colour temperature in the
// chromaticity diagram (CIE 15, formulas 3.2 to 3.4).
func daylightChromaticity(kelvin float64) (x, y float64) {
	a, b, c, e := -4.6070e9, 2.9678e6, 0.09911e3, 0.244063
	if kelvin > 7000 {
		a, b, c, e = -2.0064e9, 1.9018e6, 0.24748e3, 0.237040
	}
	t := 1 / kelvin
	x = ((a*t+b)*t+c)*t + e
	return x, (-3*x+2.87)*x - 0.275
}

func thousandths(v float64) float64 { return math.Round(v*1000) / 1000 }

// standardLens is what the ISO standard lens lets through: the sensitometric light
// of ISO 7589 is the photographic one times the lens, by the table's two columns.
// At 700 nm, where the table ends, it is as at 690.
func standardLens(lights map[string]column) (c Curve) {
	with, without := lights["ISO7589_sensitometric_daylight"].curve(), lights["ISO7589_photographic_daylight"].curve()
	for i := range c {
		c[i] = 1
		switch {
		case without[i] > 0:
			c[i] = with[i] / without[i]
		case i > 0:
			c[i] = c[i-1]
		}
	}
	return c
}
