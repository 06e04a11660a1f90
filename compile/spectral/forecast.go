package spectral

import "math"

// Darkest is the part of the light below which a filter, or a stack, leaves none:
// 1/4000, twelve stops. The published transmittances are zero below a thousandth,
// so that less is not known; and no practice reaches for a factor of 4000.
const Darkest = 1. / 4096

// Forecast is what a filter does on a film in a light.
type Forecast struct {
	Stops float64        // the filter costs, log2 of its factor
	Dark  bool           // so little passes that no factor is right; the rest is then unknown
	Moves [Subjects]Move // by subject, in the order of List
}

// Move is how far a subject goes on film, in stops, when the filter's factor was
// given, against a grey card that then stays where it was. The one figure, and the
// least and the most of the curves that stand for the subject.
type Move struct{ Stops, Low, High float64 }

// Through makes the forecast for a filter of a transmittance. It allocates nothing.
func (s *Setting) Through(filter *Curve) (f Forecast) {
	behind, alone := s.light.Through(*filter), s.self.Through(*filter)
	open, left := s.light.sum(), behind.sum()
	if !(left > open*Darkest) {
		return Forecast{Dark: true}
	}
	f.Stops = math.Log2(open / left)
	for i := range s.curves {
		c := &s.curves[i]
		b, a := &behind, &s.light
		if c.glows {
			b, a = &alone, &s.self
		}
		// What the filter leaves of the subject, over what it leaves of the card.
		move := math.Log2(c.curve.dot(b)/c.curve.dot(a)) + f.Stops
		f.Moves[c.subject].take(move, c.first)
	}
	return f
}

func (m *Move) take(v float64, first bool) {
	if first {
		*m = Move{v, v, v}
		return
	}
	m.Low, m.High = min(m.Low, v), max(m.High, v)
}
