package main

import "math"

// Bands is light, or a reflectance, in four coarse bands of the spectrum: blue 400-490 nm,
// green 500-570, yellow-orange 580-600 and red 610-660. One is what an 18 % grey card sends
// back in the scene's own main light, so a value is its own distance from Zone V: 2 is one
// stop above. The bands are averages of the curves by which compile/spectral forecasts, and
// move tones as those do to a quarter of a stop (TestDrawnTonesMoveAsForecast); no more is
// claimed for them.
type Bands [4]float64

func grey(v float64) Bands { return Bands{v, v, v, v} }

func (b Bands) times(k float64) Bands { return Bands{b[0] * k, b[1] * k, b[2] * k, b[3] * k} }

func (b Bands) mul(c Bands) Bands { return Bands{b[0] * c[0], b[1] * c[1], b[2] * c[2], b[3] * c[3]} }

func (b Bands) add(c Bands) Bands { return Bands{b[0] + c[0], b[1] + c[1], b[2] + c[2], b[3] + c[3]} }

// mix goes from b (t 0) to c (t 1).
func (b Bands) mix(c Bands, t float64) Bands { return b.times(1 - t).add(c.times(t)) }

// stops is the light of b, moved by s stops.
func (b Bands) stops(s float64) Bands { return b.times(math.Exp2(s)) }

// reflecting turns per cent-like reflectances (0 to 1) into bands against the 18 % card.
func reflecting(blue, green, orange, red float64) Bands {
	return Bands{blue / .18, green / .18, orange / .18, red / .18}
}

// Reflectances averaged in the four bands, weighted by the film in daylight, from the USGS
// Spectral Library Version 7 (Kokaly et al. 2017, doi:10.5066/F7RR1WDJ, CC0): red brick, oak
// leaf, golden dry grass, weathered cedar. The others have no measured source; they are greys
// with the slight warmth such things have.
var (
	brickRed = reflecting(.055, .070, .133, .164)
	leaf     = reflecting(.097, .144, .133, .115)
	dryGrass = reflecting(.079, .152, .190, .212)
	cedar    = reflecting(.095, .123, .138, .148)
	slate    = reflecting(.070, .075, .078, .080)
	plaster  = reflecting(.360, .410, .450, .480)
	stone    = reflecting(.190, .220, .240, .250)
	earth    = reflecting(.070, .100, .130, .150)
	frost    = reflecting(.780, .780, .770, .760)
	iron     = reflecting(.040, .045, .055, .065)
)

// Skylight by band, green one: CIE daylight at 20 000 K for the clear sky away from the sun,
// D65 for overcast (CIE 15), each against D55 in the same bands.
var (
	clearSky    = Bands{2.135, 1, .742, .639}
	overcastSky = Bands{1.200, 1, .938, .896}
	sunlight    = Bands{.92, 1, 1.03, 1.05} // the sun alone is warmer than sun and sky
)

// Transmittances by band: "Transmission of Wratten Filters", A. C. Peed Jr. for Eastman Kodak
// (CRC Handbook of Chemistry and Physics), weighted by the film in daylight.
var filters = map[string]Bands{
	"8":  {.044, .837, .898, .906},
	"11": {.063, .527, .278, .138},
	"15": {0, .518, .897, .903},
	"21": {0, .216, .869, .893},
	"25": {0, 0, .207, .820},
}

// response is how a film's sensitivity is shared out among the bands under a light: Kodak
// F-4016 (Feb 2016) p. 8, curve for density 1.0, for panchromatic; a model cut at 585 nm for
// orthochromatic; times CIE D55 or A. Each row sums to one.
var response = map[string]map[bool]Bands{
	"pan":   {false: {.542, .291, .094, .073}, true: {.284, .360, .183, .174}},
	"ortho": {false: {.647, .348, .005, 0}, true: {.438, .550, .012, 0}},
}

// eye is one film behind its filters in one light, ready to weigh bands.
type eye struct{ weight Bands }

// seen returns the eye for a film, and false when next to nothing passes: no exposure makes an
// image then. Unknown filters (a neutral one) change no colour and are passed over.
func seen(film string, names []string, tungsten bool) (eye, bool) {
	w := response[film][tungsten]
	for _, n := range names {
		if t, ok := filters[n]; ok {
			w = w.mul(t)
		}
	}
	sum := w[0] + w[1] + w[2] + w[3]
	if sum < .01 {
		return eye{}, false
	}
	return eye{w.times(1 / sum)}, true
}

// exposure is the light b as this film records it, with a grey card always at one: what the
// filter takes from everything has been given back by its factor, only the differences stay.
func (e eye) exposure(b Bands) float64 {
	return b[0]*e.weight[0] + b[1]*e.weight[1] + b[2]*e.weight[2] + b[3]*e.weight[3]
}
