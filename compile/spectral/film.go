package spectral

import (
	"math"
	"slices"
)

// Film classes that have a sensitivity.
const (
	Pan   = "pan"   // the mean of two measured films
	Ortho = "ortho" // a model: green-sensitive to 585 nm
	Blue  = "blue"  // a measured blue-sensitive film
)

// speedPoint is the density above base and fog at which film is rated, and so the
// density at which the exposures through a filter and without it are compared: ISO 6.
// The sheets print sensitivity for 0.3 and 1.0 above the minimum; the straight line
// through the two leads down to 0.10.
const speedPoint = 0.10

// class is the sensitivity of a film class, relative. Panchromatic is the mean of
// the logarithms of the films whose sensitivity is published: a reading of a printed
// curve is worth a tenth, and what the notes call pan is neither of the two films.
// One film by itself does no better: of the two, the sheets print the bluer one with
// the greater factor of No. 47 in tungsten light.
func (d *data) class(name string) Curve {
	switch name {
	case Ortho:
		return sensitive(d.films["MODEL_ortho_cut585"])
	case Blue:
		return sensitive(d.films["blue_kodak2302"])
	}
	return sensitive(mean(d.atSpeedPoint("tmax100"), d.atSpeedPoint("tmax400")))
}

// atSpeedPoint brings a film's log sensitivity for densities 0.3 and 1.0 to 0.10.
// At the ends, where only the lower density is plotted, the distance between the two
// is as at the last wavelength that has both.
func (d *data) atSpeedPoint(film string) column {
	low, high := d.films[film+"_d03"], d.films[film+"_d10"]
	out := column{}
	apart := 0.0
	for i := range count {
		nm := Nanometres(i)
		l, ok := low[nm]
		if !ok {
			continue
		}
		if h, ok := high[nm]; ok {
			apart = l - h
		}
		out[nm] = l + float64(apart*(0.3-speedPoint)/(1.0-0.3))
	}
	return out
}

// mean is the mean of two films where both are plotted: a film whose curve has
// ended does not see, and half of nothing is not worth a tenth.
func mean(a, b column) column {
	out := column{}
	for nm, v := range a {
		if w, ok := b[nm]; ok {
			out[nm] = (v + w) / 2
		}
	}
	return out
}

// sensitive turns log sensitivities into sensitivities, the greatest one; where none
// is plotted the film is blind.
func sensitive(logs column) (c Curve) {
	top := math.Inf(-1)
	for i := range c {
		if v, ok := logs[Nanometres(i)]; ok {
			top = max(top, v)
		}
	}
	for i := range c {
		if v, ok := logs[Nanometres(i)]; ok {
			c[i] = math.Pow(10, v-top)
		}
	}
	return c
}

// Classes are the film classes, in order.
func Classes() []string { return []string{Pan, Ortho, Blue} }

// Lights are the lights, in order.
func Lights() []string { return []string{Daylight, Tungsten} }

// weight is what a film makes of a light that meets a grey card: for a class and a
// light, once for all forecasts.
type weight struct {
	light Curve // of the light, through the lens, on the film: what a reflectance is weighed by
	self  Curve // of the lens and film alone: what a subject's own light is weighed by
}

func weights(d *data) map[[2]string]weight {
	out := map[[2]string]weight{}
	for _, class := range Classes() {
		for _, light := range Lights() {
			out[[2]string{class, light}] = d.weigh(d.class(class), light)
		}
	}
	return out
}

func (d *data) weigh(film Curve, light string) weight {
	self := film.Through(d.lens)
	return weight{light: self.Through(d.light(light)), self: self}
}

// Setting is a film in a light: all that a forecast needs besides the filter.
type Setting struct {
	Film, Light string // as named
	Own         bool   // the film's sensitivity is the writer's own
	weight
	curves []subjectCurve // what moves
}

// In is a film class in a light. ok is false where either is none of those known;
// empty for either takes panchromatic film and daylight.
func In(film, light string) (s Setting, ok bool) {
	if film == "" {
		film = Pan
	}
	if light == "" {
		light = Daylight
	}
	w, ok := all().weights[[2]string{film, light}]
	return Setting{Film: film, Light: light, weight: w, curves: all().curves}, ok
}

// Own is a film whose sensitivity (relative, per energy) the writer gives, in a light.
func Own(film string, sensitivity Curve, light string) (s Setting, ok bool) {
	if light == "" {
		light = Daylight
	}
	if !slices.Contains(Lights(), light) {
		return s, false
	}
	return Setting{Film: film, Light: light, Own: true, weight: all().weigh(sensitivity, light), curves: all().curves}, true
}
