package main

import "math"

// Skins of the season's things. All are made of noise at the size the thing has in the world,
// so that they need no drawing and look the same from near and far.

// onWall gives a wall point its place across and up. Level faces are taken from above.
func onWall(at Point) (u, v float64) {
	if math.Abs(at.N.Y) > .7 {
		return at.P.X, at.P.Z
	}
	return at.P.X*at.N.Z - at.P.Z*at.N.X, at.P.Y
}

// matt is a plain surface with mottling of the given size (metres) and strength (stops).
func matt(b Bands, size, strength float64) Skin {
	return func(at Point) Surface {
		m := clouded(at.P.X/size, at.P.Y/size, at.P.Z/size, 5)
		return Surface{Reflect: b.stops((m - .5) * 2 * strength), N: at.N}
	}
}

// rough tilts a normal by noise of the given size, as if the surface had small hills.
func rough(at Point, size, amount float64) Vec {
	const e = .31
	p := at.P.times(1 / size)
	f := func(x, y, z float64) float64 { return clouded(x, y, z, 2) }
	m := f(p.X, p.Y, p.Z)
	slope := Vec{f(p.X+e, p.Y, p.Z) - m, f(p.X, p.Y+e, p.Z) - m, f(p.X, p.Y, p.Z+e) - m}
	return at.N.along(slope, -amount/e).unit()
}

// brickwork is a wall in stretcher bond of courses h metres high: mortar set back, no two
// bricks fired alike, rain and soot over all of it. Far off the joints melt into one tone
// before they can turn into a pattern of the sampling.
func brickwork(b Bands, h float64) Skin {
	mortar := stone.times(.75)
	return func(at Point) Surface {
		u, v := onWall(at)
		row := math.Floor(v / h)
		fu, fv := u/(3*h)+.5*math.Mod(math.Abs(row), 2), v/h-row
		col := math.Floor(fu)
		fu -= col
		// Distances at which a course is about two pixels high, and less than one.
		far := step(700*h, 1800*h, at.T)
		edge := math.Min(math.Min(fu, 1-fu)*3, math.Min(fv, 1-fv))
		joint := (1 - step(.05, .11, edge+.04*(noise(u/.01, v/.01, 3)-.5))) * (1 - far)
		fired := (lattice(int(row), int(col), 7) - .5) * 1.1
		weather := (clouded(u/2.5, v/5, 1, 5)-.5)*2.2 + (clouded(u/.35, v/.12, 2, 4)-.5)*.9
		n := rough(at, .03, .25)
		// The mortar is set back: the brick above shades it, the one below catches light.
		if joint > .5 {
			n = at.N.add(Vec{0, -.35 * math.Copysign(1, fv-.5), 0}).unit()
		}
		return Surface{Reflect: b.stops(fired*(1-.6*far)+weather).mix(mortar.stops(weather-.4), joint), N: n}
	}
}

// boards is planking of the given width across u, grain running up.
func boards(b Bands, width float64) Skin {
	return func(at Point) Surface {
		u, v := onWall(at)
		return plank(b, u, v, width, at)
	}
}

// plank is one point of planking: tone by board, grain along it, a gap between two boards.
func plank(b Bands, u, v, width float64, at Point) Surface {
	col := math.Floor(u / width)
	fu := u/width - col
	own := lattice(int(col), 11, 5)
	grain := clouded(u/.012+own*40, v/.5, own*9, 4)
	gap := 1 - step(0, .05, math.Min(fu, 1-fu))
	tone := (own-.5)*1.1 + (grain-.5)*1.5 + (clouded(u, v*.5, own, 3)-.5)*.8
	return Surface{Reflect: b.stops(tone - 3.2*gap), N: at.N.add(Vec{(grain - .5) * .4, 0, 0}).unit()}
}

// slates is a roof in courses: each slate casts a line below its edge. Gable ends are boarded.
func slates(b Bands, size float64) Skin {
	end := boards(cedar.times(1.2), .2)
	return func(at Point) Surface {
		if math.Abs(at.N.Y) < .1 {
			return end(at)
		}
		u := at.P.X*at.N.Z - at.P.Z*at.N.X
		v := at.P.Y / math.Max(.2, math.Hypot(at.N.X, at.N.Z))
		row := math.Floor(v / size)
		fu := u/size*1.4 + .5*math.Mod(math.Abs(row), 2)
		col := math.Floor(fu)
		far := step(600*size, 1500*size, at.T)
		line := (1 - step(0, .14, v/size-row)) + .6*(1-step(0, .07, math.Min(fu-col, 1-fu+col)))
		own := (lattice(int(row), int(col), 23) - .5) * .9
		moss := clouded(u/3, v/3, 4, 5)
		tone := own*(1-.7*far) - 1.1*math.Min(line, 1)*(1-far) + (moss-.5)*1.4
		return Surface{Reflect: b.stops(tone).mix(leaf.times(.8), .5*step(.6, .8, moss)), N: rough(at, .06, .12)}
	}
}

// turf is grazed ground: green where it is wet, straw where it is dry, trodden bare in places.
func turf(wet, dry Bands, bare float64) Skin {
	return func(at Point) Surface {
		x, z := at.P.X, at.P.Z
		big := clouded(x/7, 1, z/7, 4)
		fine := clouded(x/.12, 2, z/.3, 5)
		b := wet.mix(dry, step(.35, .65, big+.5*(fine-.5)))
		b = b.mix(earth, step(.62-bare, .72-bare, clouded(x/2.2, 5, z/4, 4)))
		fine = .6*fine + .4*clouded(x/.035, 7, z/.07, 3)
		ruts := (clouded(x/.9, 4, z/9, 4) - .5) * 1.2
		return Surface{Reflect: b.stops((fine-.5)*2.2 + ruts), N: rough(at, .5, .35)}
	}
}

// ashlar is squared stone in courses h metres high.
func ashlar(b Bands, h float64) Skin {
	return func(at Point) Surface {
		u, v := onWall(at)
		row := math.Floor(v / h)
		long := h * (1.6 + 1.1*lattice(int(row), 3, 1))
		fu := u/long + lattice(int(row), 9, 2)
		col := math.Floor(fu)
		edge := math.Min(math.Min(fu-col, 1-fu+col)*long, math.Min(v/h-row, 1-v/h+row)*h)
		joint := 1 - step(.004, .022, edge+.012*(noise(u/.04, v/.04, 8)-.5))
		own := (lattice(int(row), int(col), 31) - .5) * .8
		worn := (clouded(u/.5, v/.5, 6, 6)-.5)*1.5 + (clouded(u*1.1, v*.25, 3, 4)-.5)*1.6
		return Surface{Reflect: b.stops(own + worn - 2*joint), N: rough(at, .09, .5)}
	}
}

// water is nearly a mirror at a grazing view (Schlick 1994), still or with the given ripple.
func water(body Bands, ripple, size float64) Skin {
	return func(at Point) Surface {
		n := at.N
		if ripple > 0 {
			// Far ripples are smaller than a pixel and average to a flat mirror.
			near := 1 / (1 + at.T/40)
			dx := clouded(at.P.X/size, at.P.Z/size*.6, 1, 3) - .5
			dz := clouded(at.P.X/size+40, at.P.Z/size*.6, 9, 3) - .5
			n = Vec{dx * ripple * near, 1, dz * ripple * near}.unit()
		}
		c := clamp(-at.D.dot(n), 0, 1)
		k := 1 - c
		return Surface{Reflect: body, N: n, Mirror: clamp(.03+.97*k*k*k*k*k, 0, .96)}
	}
}

// dusted lays frost or snow on whatever of a skin faces upwards.
func dusted(s Skin, amount float64) Skin {
	return func(at Point) Surface {
		out := s(at)
		grain := clouded(at.P.X/.05, at.P.Y/.05, at.P.Z/.05, 4)
		cover := step(.35, .8, at.N.Y+(grain-.5)*.9) * amount
		out.Reflect = out.Reflect.mix(frost.stops((grain-.6)*.8), cover)
		return out
	}
}

// heaven is a sky: clear at the top, hazed at the horizon, clouds as flat layers of noise seen
// in perspective and lit from one side. Levels are in stops.
type heaven struct {
	Zenith, Horizon float64 // clear sky and haze
	Veil            float64 // share of haze even overhead
	Cloud           float64 // brightest cloud
	Cover           float64 // 0 none, 1 closed
	Scale, Shift    float64
	Sun             Vec
	SunGlow         float64 // light of the haze around the sun, times the horizon's
}

// in is the sky in a direction.
func (h *heaven) in(d Vec) Bands {
	up := math.Max(d.Y, 0)
	haze := math.Exp(-up*8)*(1-h.Veil) + h.Veil
	low := overcastSky.mix(grey(1), .6).stops(h.Horizon)
	b := clearSky.stops(h.Zenith).mix(low, haze)
	glow := math.Pow(math.Max(d.dot(h.Sun), 0), 12)
	b = b.add(low.times(glow * h.SunGlow))
	cover, lit := h.cloud(d)
	white := grey(1).mix(overcastSky, .25).stops(h.Cloud + (lit-1)*1.5)
	return b.mix(white, cover*step(-.02, .10, up)*(1-.45*haze))
}

// cloud is the cover in a direction and how bright it is there, 0 to 1. The bright side is
// found by a second look a little towards the sun: thinner there means light comes through.
func (h *heaven) cloud(d Vec) (cover, lit float64) {
	if h.Cover <= 0 {
		return 0, 0
	}
	// Clouds lie in a flat layer, seen in perspective; .12 keeps the horizon finite.
	k := h.Scale / (math.Max(d.Y, 0) + .12)
	x, z := d.X*k+h.Shift, d.Z*k
	thick := func(x, z float64) float64 {
		warp := clouded(x*1.7, z*1.7, 2, 3) - .5
		return clouded(x+warp*.7, z+warp*.5, h.Shift, 6)
	}
	a := thick(x, z)
	b := thick(x-.12*math.Copysign(1, -h.Sun.X), z-.10)
	edge := .68 - .42*h.Cover
	return step(edge, edge+.16, a), clamp(.62+(a-b)*3.2-(a-edge)*.5, 0, 1)
}

// skyline is a far row of hills or trees: its height in slope at a heading. crag is how uneven.
func skyline(d Vec, seed, height, size, crag float64) bool {
	x := math.Atan2(d.X, d.Z)
	h := height * (.55 + .9*(clouded(x*size, seed, 0, 2)-.2) + crag*(clouded(x*size*14, seed, 3, 4)-.5))
	return d.Y/math.Hypot(d.X, d.Z) < h
}
