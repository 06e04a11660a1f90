package spectral

import (
	"math"
	"slices"
	"strconv"
)

// Held is a published filter factor with the forecast that stands against it, both in
// stops.
type Held struct {
	Film, Light, Filter string
	Published, Forecast float64
}

// Source is where the published factors are from that the forecasts are held against.
const Source = "Kodak F-4016 and F-4043, Feb 2016"

// drawnFrom are the films whose sensitivity is published too, and stands in the class.
var drawnFrom = []string{"tmax100", "tmax400"}

// Against holds the forecasts for panchromatic film in a light against every factor that
// the makers of the two films print; nil in a light that they do not print.
func Against(light string) []Held {
	s, ok := In(Pan, light)
	if !ok {
		return nil
	}
	return s.against(drawnFrom...)
}

// against holds a setting's forecasts against the factors that are printed for its light
// and some films.
func (s *Setting) against(films ...string) (held []Held) {
	for _, p := range all().factors {
		if p.Light != s.Light || !slices.Contains(films, p.Film) {
			continue
		}
		c, ok := Filter(p.Filter)
		if !ok {
			continue
		}
		p.Forecast = s.Through(&c).Stops
		held = append(held, p)
	}
	return held
}

// Misses is by how much forecasts miss, in stops: the root of the mean square, and the
// farthest of them.
func Misses(all []Held) (rms, farthest float64) {
	for _, h := range all {
		by := h.Forecast - h.Published
		rms += by * by / float64(len(all))
		farthest = max(farthest, math.Abs(by))
	}
	return math.Sqrt(rms), farthest
}

// readFactors reads the printed factors; of factor and stops, of which the second is
// rounded, the factor counts.
func readFactors() (all []Held, err error) {
	rows, err := readRows("factors.csv")
	if err != nil {
		return nil, err
	}
	for _, r := range rows[1:] {
		factor, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			return nil, err
		}
		all = append(all, Held{Film: r[0], Light: r[1], Filter: r[2], Published: math.Log2(factor)})
	}
	return all, nil
}
