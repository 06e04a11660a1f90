package spectral

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// Not covered here, and why:
//   - the filters' luminous transmittance: the tables have transmittances by wavelength
//     only, and no published luminous figure beside them to hold a sum against
//   - how far subjects move behind a filter: nothing is published

// observer is the CIE 1931 observer at ten nanometres, 400 to 700.
func observer(t *testing.T) (x, y, z Curve) {
	t.Helper()
	f, err := os.Open("testdata/observer.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		nm, _ := strconv.Atoi(row[0])
		if nm < From || nm > To {
			continue
		}
		for k, c := range []*Curve{&x, &y, &z} {
			if c[(nm-From)/Step], err = strconv.ParseFloat(row[k+1], 64); err != nil {
				t.Fatal(err)
			}
		}
	}
	return x, y, z
}

func chromaticity(t *testing.T, light Curve) (x, y float64) {
	cx, cy, cz := observer(t)
	a, b, c := light.dot(&cx), light.dot(&cy), light.dot(&cz)
	return a / (a + b + c), b / (a + b + c)
}

// Published chromaticities: D65 and D50 as in CSS Color Module Level 4 (W3C), which
// takes them from CIE 15; read in the npm package colorjs.io 0.7.1, src/adapt.js. Our lights are sums from 400 to 700 nm by ten, where CIE sums
// 380 to 780, hence the margin of a thousandth.
func TestDaylightAgainstPublishedChromaticities(t *testing.T) {
	d := all()
	for _, c := range []struct{ kelvin, x, y float64 }{{6500, 0.3127, 0.3290}, {5000, 0.3457, 0.3585}} {
		x, y := chromaticity(t, d.daylight(c.kelvin))
		fx, fy := daylightChromaticity(c.kelvin * 1.4388 / 1.4380)
		t.Logf("%g K: %.4f %.4f by the spectrum, %.4f %.4f by the formula, published %.4f %.4f", c.kelvin, x, y, fx, fy, c.x, c.y)
		if math.Hypot(x-c.x, y-c.y) > 0.001 || math.Hypot(fx-c.x, fy-c.y) > 0.0002 {
			t.Errorf("%g K is at %.4f %.4f, published %.4f %.4f", c.kelvin, x, y, c.x, c.y)
		}
	}
}

// Illuminant A is the black body of 2856 K (2848 K at the c2 of 1931): the CIE table of
// it, and Planck's formula, give one chromaticity.
func TestPlanckAgainstIlluminantA(t *testing.T) {
	wx, wy := chromaticity(t, all().lights["A"].curve())
	x, y := chromaticity(t, planck(2856))
	t.Logf("2856 K: %.4f %.4f, the table of A: %.4f %.4f", x, y, wx, wy)
	if math.Hypot(x-wx, y-wy) > 0.0002 {
		t.Errorf("a black body of 2856 K is at %.4f %.4f, illuminant A at %.4f %.4f", x, y, wx, wy)
	}
}
