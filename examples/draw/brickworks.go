package main

import "math"

// The brickworks: the long kiln from the tramway, its mouth in the shade, the stack.

// arched tells whether a place on a wall, across and up, is in one of a row of round arches.
func arched(u, v, pitch, half, spring float64) bool {
	fu := math.Mod(math.Mod(u, pitch)+pitch, pitch) - pitch/2
	if v < spring {
		return math.Abs(fu) < half
	}
	return fu*fu+(v-spring)*(v-spring)*1.2 < half*half
}

// recessed cuts deep arches into a wall skin: the ray is followed to the back of the recess or
// to its side, whichever comes first, by hops that shorten. depth in metres.
func recessed(wall, within Skin, open func(u, v float64) bool, depth float64) Skin {
	return func(at Point) Surface {
		if math.Abs(at.N.Y) > .5 {
			return wall(at)
		}
		if u, v := onWall(at); !open(u, v) {
			return wall(at)
		}
		deep := at
		t, far := 0.0, depth/math.Max(.05, -at.D.dot(at.N))
		for hop := far / 16; hop > far/2000; {
			deep.P = at.P.along(at.D, t+hop)
			if u, v := onWall(deep); open(u, v) && t+hop <= far {
				t += hop
			} else {
				hop /= 4
			}
		}
		in := deep.P.sub(at.P).dot(at.N.times(-1)) / depth
		s := within(deep)
		s.Reflect = s.Reflect.times(math.Exp(-4*in) * .6)
		s.N = at.N
		return s
	}
}

// kiln is the subject of the six-sheet filter comparison: much clear sky above red brick in
// sun and grey slate, so that every filter has something to lift and something to lower.
func kiln() *Scene {
	// The sun a little behind the gable: one wall lit, one in shade, which is what gives the
	// kiln its corner.
	sun := Vec{-.80, .46, .06}.unit()
	sky := &heaven{Zenith: .15, Horizon: 2.0, Veil: .03, Cloud: 3.1, Cover: .6, Scale: 1.15, Shift: 7.7, Sun: sun, SunGlow: .35}
	s := &Scene{
		Camera:   Camera{Eye: Vec{-9, 4.6, -34}, Heading: .30, Wide: .92, Rise: .085},
		Sun:      sun,
		SunLight: sunlight.times(3.8), SunSize: .025,
		Fill: clearSky.mix(overcastSky, .5).times(.55), Reach: 6,
		Haze: .0016, HazeLight: overcastSky.stops(1.7),
	}
	s.Heaven = sky
	s.Sky = func(d Vec) Bands {
		// Trees before, moor behind: each further row has more haze in it.
		if skyline(d, 11, .040, 3, .08) {
			return leaf.mul(Bands{.9, .9, .9, .9}).mix(s.HazeLight, .62)
		}
		if skyline(d, 4, .075, 2, .02) {
			return earth.mix(s.HazeLight, .86)
		}
		return sky.in(d)
	}
	s.add(turf(leaf.times(.85), dryGrass, .12), floor{0})
	s.kilnHouse()
	s.tramway()
	s.hacks()
	s.Paint = kilnVerge
	return s
}

// kilnHouse is the long kiln with its roof on posts, a loading shed and the stack at the end.
func (s *Scene) kilnHouse() {
	// Fourteen arches to the side, three across the end; half is half the width.
	const half, long = 6.5, 62.0
	mid := Vec{10, 0, 26}
	bricks := brickwork(brickRed.times(1.25), .085)
	arches := func(u, v float64) bool { return arched(u, v, 4.4, 1.15, 1.5) }
	s.add(recessed(bricks, bricks, arches, 1.6), box(mid, Vec{2 * half, 4.3, long}, 0))
	s.add(bricks, box(mid.add(Vec{0, 4.3, 0}), Vec{2*half + .4, .35, long + .4}, 0))
	s.add(slates(slate.times(1.5), .34), gable(mid.add(Vec{0, 6.3, 0}), Vec{2*half + 2.4, 4.4, long + 2}, 0))
	s.add(boards(cedar, .3), box(mid.add(Vec{0, 10.3, 0}), Vec{2.2, 1, long * .8}, 0))
	s.add(slates(slate.times(1.5), .34), gable(mid.add(Vec{0, 11.3, 0}), Vec{3.2, 1.1, long * .82}, 0))
	// The roof stands clear of the kiln on posts, or it would burn.
	for z := -long / 2; z <= long/2+.1; z += long / 14 {
		s.add(boards(cedar.times(.8), .3), box(mid.add(Vec{-half - .6, 4.5, z}), Vec{.28, 1.9, .28}, 0))
	}
	s.chimney(Vec{19, 0, 63}, 36)
	s.add(boards(cedar, .25), box(Vec{24, 0, 2}, Vec{9, 3.4, 8}, 0))
	s.add(slates(slate, .34), gable(Vec{24, 3.4, 2}, Vec{10.2, 2.6, 9}, 0))
}

// chimney is a tapered stack on a square base, with a corbelled head and iron bands.
func (s *Scene) chimney(at Vec, h float64) {
	bricks := brickwork(brickRed.times(1.15), .085)
	sooty := func(p Point) Surface {
		out := bricks(p)
		// Soot thickens towards the mouth, in runs the rain has made.
		soot := step(.72, 1.05, (p.P.Y-at.Y)/h+.25*(clouded(p.P.X, p.P.Y*.25, p.P.Z, 4)-.5))
		out.Reflect = out.Reflect.stops(-1.3 * soot)
		return out
	}
	// Slenderness and taper as on works chimneys of that height: a tenth of it wide at the foot.
	r := h * .055
	s.add(bricks, box(at, Vec{3 * r, h * .14, 3 * r}, .1))
	s.add(sooty, cone{at, h, r, r * .60}, cone{at.add(Vec{0, h * .945, 0}), h * .02, r * .66, r * .76},
		cone{at.add(Vec{0, h * .965, 0}), h * .035, r * .76, r * .70})
	for _, k := range []float64{.3, .45, .6, .75, .88} {
		s.add(matt(iron, .3, .5), cone{at.add(Vec{0, h * k, 0}), .12, r*(1-.4*k) + .04, r*(1-.4*k) + .04})
	}
}

// trackAt is where the tramway runs, x for z.
func trackAt(z float64) float64 { return -3.6 + 1.1*math.Sin((z+30)/34) }

// hacks are long low stacks of bricks set out to dry, capped with boards.
func (s *Scene) hacks() {
	for i := 0; i < 4; i++ {
		p := Vec{-8.2 - 2.7*float64(i), 0, 8 + 2.5*float64(i%3)}
		s.add(brickwork(brickRed.times(1.9), .085), box(p, Vec{.95, 1.15, 24 + 5*float64(i%2)}, 0))
		s.add(slates(cedar.times(1.4), .5), gable(p.add(Vec{0, 1.15, 0}), Vec{1.5, .42, 25 + 5*float64(i%2)}, 0))
	}
}

// tramway is the narrow track in the foreground, running to the kiln's end.
func (s *Scene) tramway() {
	rail := func(at Point) Surface {
		// Only the running surface is bright; the web of the rail is rust.
		top := step(.6, .95, at.N.Y)
		return Surface{Reflect: iron.mix(grey(2.4), top*.8), N: at.N}
	}
	path := func(z float64) Vec { return Vec{trackAt(z), 0, z} }
	for z := -30.0; z < 60; z += 3 {
		a, b := path(z), path(z+3)
		for _, side := range []float64{-.38, .38} {
			s.add(rail, beam(a.add(Vec{side, .13, 0}), b.add(Vec{side, .13, 0}), .075))
		}
	}
	for z := -29.0; z < 25; z += .8 {
		s.add(boards(cedar.times(.7), .4), box(path(z), Vec{1.3, .1, .24}, .04*math.Sin(z*7)))
	}
}

// kilnVerge is the grass at the photographer's feet, some dock gone to seed, and two birches.
func kilnVerge(c *Canvas) {
	r := seeded(41)
	for n := 0; n < 26000; n++ {
		z := -33 + 44*math.Pow(r.float(), 1.5)
		x := r.between(-17, 14)
		// Little grows where the sleepers lie.
		if near := math.Abs(x - trackAt(z)); near < .9 && r.float() < .9 {
			continue
		}
		thick := clouded(x/2.5, z/2.5, 3, 3)
		if thick < .44+.06*step(1, 3, x) {
			continue
		}
		light := leaf.mix(dryGrass, step(.3, .7, clouded(x/5, z/5, 8, 3))).times(2.2 * r.between(.6, 1.2))
		c.tuft(&r, Vec{x, 0, z}, .25+.9*(thick-.4), .013, 5, light)
	}
	for _, at := range []Vec{{-10.4, 0, -11.3}, {-11.6, 0, -8.5}} {
		c.branch(&r, at, Vec{.03, 1, 0}, 4.6, .30, 5, grey(.8))
	}
	for n := 0; n < 26; n++ { // jackdaws about the chimney
		p := Vec{17 + r.bell()*8, 33 + r.bell()*5, 58 + r.bell()*9}
		wing := Vec{.32, r.between(-.05, .25), 0}
		c.stroke(p, p.add(wing), .16, .05, grey(.06))
		c.stroke(p, p.add(Vec{-wing.X, wing.Y, 0}), .16, .05, grey(.06))
	}
}

// mouth is one arch of the shaded side, square on, with what has fallen out of it.
func mouth() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{-.5, 1.5, -6.2}, Wide: .98, Rise: .02},
		// Open shade: no sun, and a short reach so that the heap darkens inside itself.
		Fill: clearSky.mix(overcastSky, .7).times(2.0), Reach: 2.4,
		Sky: func(d Vec) Bands { return overcastSky.times(2.6) },
	}
	const half, spring = 1.45, 1.55
	open := func(u, v float64) bool { return arched(u+20, v, 40, half, spring) }
	courses := brickwork(brickRed.times(1.7), .078)
	s.add(recessed(ringed(courses, half, spring), brickwork(brickRed.times(1.2), .078), open, 3), box(Vec{0, 0, .5}, Vec{16, 6, 1}, 0))
	s.add(courses, box(Vec{-4.4, 0, -.2}, Vec{.9, 6, .7}, 0), box(Vec{3.9, 0, -.2}, Vec{.9, 6, .7}, 0))
	s.add(turf(leaf.times(.7), earth.times(1.2), .3), floor{0})
	iron := matt(iron.times(1.6), .1, .8)
	s.add(iron, beam(Vec{-1.9, 2.9, -.04}, Vec{-1.9, .1, -.04}, .09), beam(Vec{-2, 1.3, -.06}, Vec{2.05, 1.22, -.06}, .05))
	s.fallen(brickRed.times(2.2))
	s.Paint = func(c *Canvas) { weeds(c, -5.6, -.1, 900, leaf.times(1.3)) }
	return s
}

// ringed sets two rings of bricks on end around an arch, the way it holds itself up.
func ringed(wall Skin, half, spring float64) Skin {
	return func(at Point) Surface {
		u, v := onWall(at)
		out := wall(at)
		away := math.Hypot(u, (v-spring)*1.095) - half
		if v < spring || away > .46 || away < 0 {
			return out
		}
		// u and v become turns around the ring and rings outward.
		ring := math.Floor(away / .23)
		turn := math.Atan2(v-spring, u) * (half + .23*ring) / .085
		col := math.Floor(turn)
		edge := math.Min(math.Min(turn-col, col+1-turn), 2.4*math.Min(away/.23-ring, ring+1-away/.23))
		fired := (lattice(int(col), int(ring), 77) - .5) * 1.2
		out.Reflect = brickRed.times(1.8).stops(fired+(clouded(u/.3, v/.3, 9, 4)-.5)).mix(stone.times(.5), 1-step(.06, .16, edge))
		return out
	}
}

// fallen is a heap of bricks on the ground before the mouth, every one lying its own way.
func (s *Scene) fallen(b Bands) {
	r := seeded(505)
	for n := 0; n < 170; n++ {
		out := math.Abs(r.bell())
		p := Vec{1.1 + r.bell()*1.25, 0, -.5 - out*1.0}
		// High at the arch, thinning outwards; the nearer the top, the more they tumble.
		heap := .62 * math.Exp(-((p.X-1.1)*(p.X-1.1) + (p.Z+.5)*(p.Z+.5)*.8))
		p.Y = .045 + heap*r.float()
		ax := scatter(&r)
		ax.Y *= .25 + heap
		ax = ax.unit()
		az := ax.cross(Vec{r.bell() * .25, 1, r.bell() * .25}).unit()
		s.add(matt(b.stops(r.bell()*.45), .06, .9), slab(p, Vec{.225, .07, .108}, ax, az.cross(ax), az))
	}
}

// weeds draws grass between two distances, thickest where nobody walks.
func weeds(c *Canvas, near, far float64, count int, light Bands) {
	r := seeded(99)
	for n := 0; n < count; n++ {
		p := Vec{r.bell() * 4, 0, r.between(near, far)}
		if clouded(p.X/1.2, 3, p.Z/1.2, 3) > .46 {
			c.tuft(&r, p, r.between(.08, .30), .006, 7, light.times(r.between(.5, 1.3)))
		}
	}
}

// stack is the chimney from nearly underneath, everything the camera shifts.
func stack() *Scene {
	sun := Vec{-.75, .55, -.40}.unit()
	sky := &heaven{Zenith: -.05, Horizon: 1.9, Veil: .02, Cloud: 3.3, Cover: .58, Scale: 1.5, Shift: 21.3, Sun: sun, SunGlow: .3}
	s := &Scene{
		Camera: Camera{Eye: Vec{-1.5, 1.6, -24}, Heading: .02, Wide: .98, Rise: .56, Portrait: true},
		Sun:    sun, SunLight: sunlight.times(3.2), SunSize: .02,
		Fill: clearSky.mix(overcastSky, .3).times(.5), Reach: 5,
		Sky: sky.in, Heaven: sky, Haze: .0008, HazeLight: overcastSky.stops(1.6),
	}
	s.chimney(Vec{.6, 0, 8}, 30)
	s.add(turf(leaf, dryGrass, .1), floor{0})
	s.add(brickwork(brickRed.times(1.3), .085), box(Vec{9.5, 0, 4}, Vec{12, 4.4, 16}, 0))
	s.add(slates(slate.times(1.5), .34), gable(Vec{9.5, 4.4, 4}, Vec{13.5, 4.4, 17.5}, 0))
	s.add(boards(cedar, .24), box(Vec{-9, 0, 3}, Vec{6, 3.2, 7}, .1))
	s.add(slates(slate, .34), gable(Vec{-9, 3.2, 3}, Vec{7, 2.2, 8}, .1))
	s.Paint = func(c *Canvas) {
		r := seeded(7)
		for n := 0; n < 12; n++ {
			p := Vec{.6 + r.bell()*5, 30 + r.bell()*4, 8 + r.bell()*3}
			c.stroke(p, p.add(Vec{.33, r.between(-.05, .3), 0}), .13, .04, grey(.08))
			c.stroke(p, p.add(Vec{-.33, r.between(-.05, .3), 0}), .13, .04, grey(.08))
		}
	}
	return s
}
