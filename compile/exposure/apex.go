// Package exposure is the arithmetic of an exposure: marks and their exact
// values, exposure values, filters, bellows, reciprocity, zones and the settings
// a lens and shutter can do.
//
// Every quantity is a plain float64 in stops (powers of two) unless its name or
// comment says seconds, millimetres or a factor. The four values add up as in
// APEX (Exif 2.3, annex C):
//
//	Av = 2 log2 N        aperture value of f-number N
//	Tv = -log2 t         time value of t seconds
//	EV = Av + Tv         a larger EV is less light on the film
//	Sv = log2(S/3.125)   speed value of ISO S; ISO 100 is 5
//
// The package does no input or output and keeps no state.
package exposure

import "math"

// speed100 is the speed value of ISO 100, the speed light tables are printed for.
const speed100 = 5

// sun100 is the EV at ISO 100 of a subject in full sun with distinct shadows
// (ANSI PH2.7-1986 as reproduced in Wikipedia "Exposure value").
const sun100 = 15

// Av returns the aperture value of the exact f-number n > 0. Marked numbers go
// through ApertureAv instead.
func Av(n float64) float64 { return 2 * math.Log2(n) }

// FNumber returns the exact f-number of an aperture value.
func FNumber(av float64) float64 { return math.Exp2(av / 2) }

// Tv returns the time value of an exact time in seconds, which must be positive.
func Tv(seconds float64) float64 { return -math.Log2(seconds) }

// EV returns the exposure value of an aperture value and an exact time in seconds.
func EV(av, seconds float64) float64 { return av - math.Log2(seconds) }

// Seconds returns the time that gives ev at av.
func Seconds(ev, av float64) float64 { return math.Exp2(av - ev) }

// AvFor returns the aperture value that gives ev at an exact time in seconds.
func AvFor(ev, seconds float64) float64 { return ev + math.Log2(seconds) }

// Difference returns by how many stops the film got more (+) or less (-) than it
// needed, rounded as Round does.
func Difference(neededEV, givenEV float64) float64 { return Round(neededEV - givenEV) }

// Round rounds stops to a millionth. Every difference is rounded before it is
// compared with a tolerance: some processors fuse a multiplication and an
// addition and keep more digits, and a sheet must not be off on one machine and
// right on another. The explicit conversion forbids the fusing (Go specification,
// "Floating-point operators").
func Round(stops float64) float64 {
	scaled := float64(stops * 1e6)
	return math.Round(scaled)/1e6 + 0 // + 0 turns a negative zero into zero
}

// SpeedShift returns what to add to an EV read with the meter set to ISO meter, so
// that it stands for film of speed film: log2(film/meter), of the exact speeds.
func SpeedShift(film, meter float64) (stops float64, ok bool) {
	f, okFilm := SpeedSv(film)
	m, okMeter := SpeedSv(meter)
	if !okFilm || !okMeter {
		return 0, false
	}
	return Round(f - m), true
}

// AtSpeed turns an EV at ISO 100 into the EV for film of speed value sv.
func AtSpeed(ev100, sv float64) float64 { return ev100 + sv - speed100 }

// Sunny16 returns the EV that the rule "f/16 at 1/EI in full sun" asks of film of
// speed value sv, when the light is steps stops below full sun (hazy 1, cloudy
// bright 2, overcast or open shade 3, sand or snow -1: Kodak F-4017).
func Sunny16(sv, steps float64) float64 { return AtSpeed(sun100-steps, sv) }

// Mean returns the mean of several readings in EV; ok is false for none.
func Mean(evs ...float64) (ev float64, ok bool) {
	if len(evs) == 0 {
		return 0, false
	}
	sum := 0.0
	for _, e := range evs {
		sum += e
	}
	return Round(sum / float64(len(evs))), true
}

// positive reports whether x can be an f-number, a time, a speed or a length.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
