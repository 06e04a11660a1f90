package main

import (
	"image"
	"math"
)

// From light to a picture on a screen there are four steps, and a wrong exposure must go
// through all of them to look as it does on a light table: the exposure of the film, its
// density, the print made from that density, and the grain in it. The print is always made
// the same way, at the settings that suit a right exposure. So two stops too little do not
// merely darken the picture: the shadows slide down the toe, where there is no separation
// left to print, and no lamp brings it back.

// fog is the density of film that has seen no light.
const fog = .10

// density is the characteristic curve: stops from Zone V in, density out. The straight part
// rises .19 a stop (gamma .62, N development), which puts Zone I about .10 over fog as ISO 6
// wants of it; the shoulder bends from five stops over.
func density(stops float64) float64 {
	const gamma, toe, top = .19, .6, 1.95
	x := stops + 4.4
	d := gamma * toe * softplus(x/toe)
	return fog + d/math.Pow(1+math.Pow(d/top, 6), 1./6)
}

// softplus is zero far below nothing, x far above, and smooth between.
func softplus(x float64) float64 {
	if x > 30 {
		return x
	}
	return math.Log1p(math.Exp(x))
}

// printed is the print's brightness, 0 to 1 as shown on a screen, of a density in the film:
// an S, steepest at Zone V, with clear film as black as the paper goes.
func printed(d float64) float64 {
	const black, white, contrast, middle = .022, .965, 4.6, .965
	curve := func(d float64) float64 { return 1 / (1 + math.Exp(-contrast*(d-middle))) }
	clear := curve(fog)
	return black + (white-black)*clamp((curve(d)-clear)/(1-clear), 0, 1)
}

// exposed is a sheet's film plane before development: light in multiples of Zone V.
type exposed struct {
	w, h  int
	light []float64
}

// expose adds one exposure of a view to the film, stops off from the right one.
func (e *exposed) expose(v *View, through eye, stops float64) {
	k := math.Exp2(stops)
	for i, b := range v.Light {
		e.light[i] += k * through.exposure(b)
	}
}

// shake spreads the exposure along a short slanting path, as a knock on the tripod does.
func (e *exposed) shake(reach int) {
	moved := make([]float64, len(e.light))
	for y := 0; y < e.h; y++ {
		for x := 0; x < e.w; x++ {
			sum := 0.0
			for k := -reach; k <= reach; k++ {
				sx := min(max(x+k, 0), e.w-1)
				sy := min(max(y+k/2, 0), e.h-1)
				sum += e.light[sy*e.w+sx]
			}
			moved[y*e.w+x] = sum / float64(2*reach+1)
		}
	}
	e.light = moved
}

// fall darkens the corners by the fourth power of the cosine, half of it, for a lens stopped
// down; and flare lifts the deepest shadows by a small share of the whole.
func (e *exposed) fall() {
	mean := 0.0
	for _, l := range e.light {
		mean += math.Min(l, 8)
	}
	flare := .004 * mean / float64(len(e.light))
	for y := 0; y < e.h; y++ {
		for x := 0; x < e.w; x++ {
			dx, dy := float64(2*x-e.w)/float64(e.w+e.h), float64(2*y-e.h)/float64(e.w+e.h)
			cos2 := 1 / (1 + .34*(dx*dx+dy*dy))
			i := y*e.w + x
			e.light[i] = e.light[i]*cos2 + flare
		}
	}
}

// develop turns the exposure into a print, with grain of its own for every sheet: strongest in
// the middle tones, a little softer than a pixel.
func (e *exposed) develop(id string) *image.Gray16 {
	pic := image.NewGray16(image.Rect(0, 0, e.w, e.h))
	r := seeded(seedOf(id))
	above := make([]float64, e.w+1)
	for y := 0; y < e.h; y++ {
		left := 0.0
		for x := 0; x < e.w; x++ {
			g := r.bell()
			grain := .62*g + .25*left + .25*above[x]
			left, above[x] = g, g
			d := density(math.Log2(e.light[y*e.w+x] + 1e-9))
			v := printed(d + .013*grain*math.Sqrt(d-fog+.04))
			setGray(pic, x, y, v)
		}
	}
	return pic
}

func setGray(pic *image.Gray16, x, y int, v float64) {
	u := uint16(clamp(v, 0, 1)*65535 + .5)
	i := pic.PixOffset(x, y)
	pic.Pix[i], pic.Pix[i+1] = uint8(u>>8), uint8(u)
}
