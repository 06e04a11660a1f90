package main

import (
	"image"
	"math"
)

// A scan shows the whole sheet of film: the picture as the holder's rails leave it, around it
// the rebate no light has reached (black in a positive), the notches cut into one corner so
// that the film can be known by touch, and beyond the edge the white of the scanner's mask.

// Sizes in millimetres: 4x5 film is 127 by 101.6; the gate of 94.5 by 120 was measured on one
// holder (visns, "Half framing").
const (
	filmLong, filmShort = 127.0, 101.6
	gateLong, gateShort = 120.0, 94.5
	perMillimetre       = 8.6
	mask                = 9 // pixels of mask around the film
)

// gate is the size of the picture in pixels, long and short side.
func gate() (long, short int) {
	return int(math.Round(gateLong * perMillimetre)), int(math.Round(gateShort * perMillimetre))
}

// notch is one cut in the edge of the film: its middle from the corner and its half width, mm.
type notch struct {
	at, half float64
	square   bool
}

// codes are invented: no maker's film has them.
var codes = map[string][]notch{
	"pan":   {{9, 1.6, false}, {14.5, 1.6, false}, {21, 2.4, true}},
	"ortho": {{9, 2.4, true}, {16, 2.4, true}, {21.5, 1.3, false}, {25.5, 1.3, false}},
}

const notchDepth = 2.0

// mount lays a developed picture on its sheet of film.
func mount(pic *image.Gray16, film, id string) *image.Gray16 {
	w, h := filmLong, filmShort
	if pic.Rect.Dx() < pic.Rect.Dy() {
		w, h = h, w
	}
	sheet := image.NewGray16(image.Rect(0, 0, int(w*perMillimetre)+2*mask, int(h*perMillimetre)+2*mask))
	r := seeded(seedOf("rebate " + id))
	// A sheet lies in its holder with a little play, never quite in the middle.
	left := (sheet.Rect.Dx()-pic.Rect.Dx())/2 + int(r.between(-6, 6))
	top := (sheet.Rect.Dy()-pic.Rect.Dy())/2 + int(r.between(-5, 5))
	for y := 0; y < sheet.Rect.Dy(); y++ {
		for x := 0; x < sheet.Rect.Dx(); x++ {
			v := printed(fog) + .004*r.bell()
			if in := within(x-left, y-top, pic.Rect); in > 0 {
				p := pic.Gray16At(min(max(x-left, 0), pic.Rect.Dx()-1), min(max(y-top, 0), pic.Rect.Dy()-1))
				v = lerp(v, float64(p.Y)/65535, in)
			}
			v = lerp(.95, v, onFilm(float64(x-mask)/perMillimetre, float64(y-mask)/perMillimetre, w, h, codes[film]))
			setGray(sheet, x, y, v)
		}
	}
	return sheet
}

// within is 1 inside the picture and falls to 0 over a pixel or two beyond its edge, where the
// rails cast a soft shadow.
func within(x, y int, r image.Rectangle) float64 {
	dx := max(-x, x-r.Dx()+1, 0)
	dy := max(-y, y-r.Dy()+1, 0)
	return clamp(1-math.Hypot(float64(dx), float64(dy))/2, 0, 1)
}

// onFilm is how much of the place (mm from the film's top left) is film and not mask. With the
// emulsion towards the viewer the notches of an upright sheet are at the top right.
func onFilm(x, y, w, h float64, code []notch) float64 {
	const corner = 1.5
	cx, cy := math.Max(math.Max(corner-x, x-w+corner), 0), math.Max(math.Max(corner-y, y-h+corner), 0)
	edge := corner - math.Hypot(cx, cy) // positive on film
	for _, n := range code {
		edge = math.Min(edge, n.clear(w-x, y))
	}
	return clamp(edge*perMillimetre+.5, 0, 1)
}

// clear is the distance from the cut, positive outside it; x from the right corner, y from the
// top edge.
func (n notch) clear(x, y float64) float64 {
	dx := math.Abs(x - n.at)
	if n.square {
		return math.Max(dx-n.half, y-notchDepth)
	}
	// a vee, narrowing downwards
	return (dx - n.half*(1-y/notchDepth)) * .7
}
