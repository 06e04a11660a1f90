package exposure

import "math"

// middle is the zone a meter reading asks for by itself.
const middle = 5

// Place returns the EV to expose at so that an area reading ev falls on a zone
// (0 to 10, halves allowed): ev + (5 - zone).
func Place(ev, zone float64) float64 { return ev + middle - zone }

// Falls returns the zone an area reading areaEV falls on when the film is exposed
// at settingsEV, filters and bellows taken off both.
func Falls(areaEV, settingsEV float64) float64 { return Round(middle + areaEV - settingsEV) }

var romans = [...]string{"0", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X"}

// Roman writes a zone as printed in the books, with the part of a stop past it:
// "III½", "VIII", "II⅔", else in tenths "II+0.4". Zones off the scale are "below
// 0" and "above X".
func Roman(zone float64) string {
	whole, part := spokenSplit(zone)
	switch {
	case math.IsNaN(zone):
		return unknown
	case whole < 0:
		return "below 0"
	case whole >= len(romans) || whole == len(romans)-1 && part != "":
		return "above X"
	case whole == 0 && part != "":
		return "0" + part
	}
	return romans[whole] + part
}
