package exposure

import (
	"cmp"
	"math"
	"slices"
)

// Settings are marks, and marks are rounded names of exact powers of two. Used as
// numbers, f/22 at 1/60 comes to EV 14.83; what the lens and shutter are built to
// give is EV 15. So every mark is turned into its exact value before anything is
// computed, by looking it up in the printed series (ISO 517 for apertures, ISO 516
// for times, ISO 6 for speeds). All three are kept in sixths of a stop, the
// smallest unit that holds halves and thirds without rounding.
//
// What stands in no series is taken at its word: f/6.8 and 1/50 are what they say.
// One exception is how people speak: a decimal after a full stop means the part of
// the next stop, so f/16.5 is half a stop past f/16 and not 2 log2 16.5. Such a
// decimal collides with marks of their own (f/4.5, f/2.5): there the series wins.

// mark is a printed number and the value it names, in sixths of a stop.
type mark struct {
	printed float64
	sixths  int
}

// apertureMarks are the full, half and third stops from f/1 to f/128 in sixths of
// Av (ISO 517; half and third stops as printed in Wikipedia "f-number"). f/13 is
// printed in both series, 1/6 stop apart; the third is nearer to 13.
var apertureMarks = []mark{
	{1, 0}, {1.1, 2}, {1.2, 3}, {1.3, 4}, {1.4, 6}, {1.6, 8}, {1.7, 9}, {1.8, 10},
	{2, 12}, {2.2, 14}, {2.4, 15}, {2.5, 16}, {2.8, 18}, {3.2, 20}, {3.3, 21}, {3.5, 22},
	{4, 24}, {4.5, 26}, {4.8, 27}, {5, 28}, {5.6, 30}, {6.3, 32}, {6.7, 33}, {7.1, 34},
	{8, 36}, {9, 38}, {9.5, 39}, {10, 40}, {11, 42}, {13, 44}, {14, 46},
	{16, 48}, {18, 50}, {19, 51}, {20, 52}, {22, 54}, {25, 56}, {27, 57}, {29, 58},
	{32, 60}, {36, 62}, {38, 63}, {40, 64}, {45, 66}, {51, 68}, {54, 69}, {57, 70},
	{64, 72}, {72, 74}, {76, 75}, {81, 76}, {90, 78}, {102, 80}, {108, 81}, {114, 82},
	{128, 84},
}

// timeMarks are the parts of a second from 1/1.3 to 1/8000 in sixths of Tv (ISO
// 516). 1/5, 1/10, 1/25, 1/50, 1/100, 1/200 and 1/400 are left out on purpose: on
// old shutters they are speeds of their own, and within 1/40 stop of the third.
// 1/3 and 1/6 name a third as well as a half; the third is nearer.
var timeMarks = []mark{
	{1.3, 2}, {1.4, 3}, {1.6, 4}, {2, 6}, {2.5, 8}, {3, 10}, {4, 12}, {6, 16}, {8, 18},
	{11, 21}, {13, 22}, {15, 24}, {20, 26}, {23, 27}, {30, 30}, {40, 32}, {45, 33},
	{60, 36}, {80, 38}, {90, 39}, {125, 42}, {160, 44}, {180, 45}, {250, 48}, {320, 50},
	{350, 51}, {500, 54}, {640, 56}, {750, 57}, {800, 58}, {1000, 60}, {1250, 62},
	{1600, 64}, {2000, 66}, {2500, 68}, {3200, 70}, {4000, 72}, {5000, 74}, {6400, 76},
	{8000, 78},
}

// decimalMarks are the marks below one second that shutters print as decimals, in
// sixths of Tv (0.5 is exact as it stands).
var decimalMarks = []mark{{0.3, 10}, {0.4, 8}, {0.6, 4}, {0.7, 3}, {0.8, 2}}

// speedMarks are the ISO speeds in sixths of Sv (ISO 6).
var speedMarks = []mark{
	{0.8, -12}, {1, -10}, {1.2, -8}, {1.6, -6}, {2, -4}, {2.5, -2}, {3, 0}, {4, 2}, {5, 4},
	{6, 6}, {8, 8}, {10, 10}, {12, 12}, {16, 14}, {20, 16}, {25, 18}, {32, 20}, {40, 22},
	{50, 24}, {64, 26}, {80, 28}, {100, 30}, {125, 32}, {160, 34}, {200, 36}, {250, 38},
	{320, 40}, {400, 42}, {500, 44}, {640, 46}, {800, 48}, {1000, 50}, {1250, 52},
	{1600, 54}, {2000, 56}, {2500, 58}, {3200, 60}, {4000, 62}, {5000, 64}, {6400, 66},
}

// lookUp finds a printed number in a series and returns its value in stops.
func lookUp(series []mark, printed float64) (stops float64, ok bool) {
	i, ok := slices.BinarySearchFunc(series, printed, func(m mark, p float64) int {
		if math.Abs(m.printed-p) < 1e-9 {
			return 0
		}
		return cmp.Compare(m.printed, p)
	})
	if !ok {
		return 0, false
	}
	return float64(series[i].sixths) / 6, true
}

// How tells how a written f-number was read.
type How int

// The ways to read an f-number.
const (
	OnMark    How = iota // printed in a series of marks: its exact value
	PastMark             // a full stop and a decimal: that part of a stop past it
	AsWritten            // in no series: the number itself
)

// Aperture is a written f-number as it was read.
type Aperture struct {
	Av   float64 // exact aperture value
	How  How
	Mark float64 // the number as marked; of PastMark the full stop before the decimal
	Past float64 // stops past Mark; 0 unless How is PastMark
}

// ReadAperture reads an f-number as it is marked, and tells how it was read, so
// that "f16.5" can be shown as half a stop past f/16. ok is false for a number
// that is not positive and finite.
func ReadAperture(marked float64) (a Aperture, ok bool) {
	if !positive(marked) {
		return Aperture{}, false
	}
	if av, ok := lookUp(apertureMarks, marked); ok {
		return Aperture{Av: av, How: OnMark, Mark: marked}, true
	}
	whole := math.Floor(marked)
	if av, ok := lookUp(apertureMarks, whole); ok && av == math.Trunc(av) {
		past := spokenPart(Round(marked - whole))
		return Aperture{Av: av + past, How: PastMark, Mark: whole, Past: past}, true
	}
	return Aperture{Av: Av(marked), How: AsWritten, Mark: marked}, true
}

// ApertureAv returns the exact aperture value of a marked f-number and the stops
// written past it (f22⅓, f/5.6.6; a past of .3 or .7 is a third or two). ok is
// false for a number that is not positive and finite.
func ApertureAv(marked, past float64) (av float64, ok bool) {
	a, ok := ReadAperture(marked)
	if !ok || math.IsNaN(past) || math.IsInf(past, 0) {
		return 0, false
	}
	return a.Av + spokenPart(past), true
}

// spokenPart reads the decimal part of stops as it is spoken: .3 and .33 are a
// third, .7 and .67 two thirds, anything else is what it says.
func spokenPart(stops float64) float64 {
	whole, part := math.Modf(stops)
	for _, third := range [...]float64{1. / 3, 2. / 3} {
		if math.Abs(math.Abs(part)-third) < 0.035 {
			return whole + math.Copysign(third, part)
		}
	}
	return stops
}

// TimeSeconds returns the exact seconds of a marked time num/den: 1/60 is 1/64 s,
// 0.7 (num 0.7, den 1) is 2^-½ s. Fractions in no series and times of a second or
// more are taken at their word. ok is false unless both are positive and finite.
func TimeSeconds(num, den float64) (seconds float64, ok bool) {
	if !positive(num) || !positive(den) || !positive(num/den) {
		return 0, false
	}
	if tv, ok := lookUp(timeMarks, den); ok && num == 1 {
		return math.Exp2(-tv), true
	}
	if tv, ok := lookUp(decimalMarks, num); ok && den == 1 {
		return math.Exp2(-tv), true
	}
	return num / den, true
}

// SpeedSv returns the exact speed value of an ISO speed or exposure index: marks
// of the series are thirds of a stop (64 is 4⅓), others are taken at their word.
// ok is false unless iso is positive and finite.
func SpeedSv(iso float64) (sv float64, ok bool) {
	if !positive(iso) {
		return 0, false
	}
	if sv, ok := lookUp(speedMarks, iso); ok {
		return sv, true
	}
	return math.Log2(iso / 3.125), true
}

// UniformSystemAv returns the aperture value of a number on a lens marked in the
// Uniform System, US = N²/16 (Kodakery 1913, as printed in sizes.com "Uniform
// System"): U.S. 16 is f/16, U.S. 4 is f/8.
func UniformSystemAv(us float64) (av float64, ok bool) {
	if !positive(us) {
		return 0, false
	}
	return 4 + math.Log2(us), true
}

// NearestIndex is the mark of the series of film speeds, in thirds of a stop, that
// lies nearest to a speed: 92 is 100. A speed beyond the series stays as it is.
func NearestIndex(iso float64) float64 {
	sv, best, away := math.Log2(iso/3.125), iso, 1./6+1e-6
	for _, m := range speedMarks {
		if d := math.Abs(float64(m.sixths)/6 - sv); d < away {
			best, away = m.printed, d
		}
	}
	return best
}
