package main

import "math"

// The wharf in the first frost: crane, footbridge, lock gate, poplars, and the heron.

// wharf is the crane at the edge of still water.
func wharf() *Scene {
	// Low and from behind the crane: the timber stands dark against a bright sky, and the frost
	// on the quay catches the light.
	sun := Vec{-.74, .30, .34}.unit()
	sky := &heaven{Zenith: -.15, Horizon: 1.75, Veil: .04, Cloud: 2.7, Cover: .46, Scale: .95, Shift: 12.4, Sun: sun, SunGlow: .5}
	s := &Scene{
		Camera: Camera{Eye: Vec{-3.6, 1.5, -8}, Heading: .13, Wide: .92, Rise: -.015},
		Sun:    sun, SunLight: sunlight.times(2.2), SunSize: .03,
		Fill: clearSky.mix(overcastSky, .5).times(.55), Reach: 5,
		Haze: .0035, HazeLight: overcastSky.stops(1.5), Heaven: sky,
	}
	s.Sky = func(d Vec) Bands {
		if skyline(d, 17, .062, 5, .35) {
			return leaf.times(.6).mix(s.HazeLight, .50)
		}
		if skyline(d, 8, .085, 2, .03) {
			return earth.mix(s.HazeLight, .86)
		}
		return sky.in(d)
	}
	s.add(water(earth.times(.25), .035, 1.6), floor{-.9})
	quay := dusted(ashlar(stone, .42), .8)
	s.add(quay, box(Vec{13.4, -2, 40}, Vec{22, 2.55, 96}, 0))
	s.add(dusted(turf(leaf.times(.8), dryGrass, .05), .7), box(Vec{-24, -2, 50}, Vec{28, 1.75, 130}, 0))
	s.warehouse()
	s.crane(Vec{4.4, .55, 24})
	s.Paint = wharfEdge
	return s
}

func (s *Scene) warehouse() {
	bricks := brickwork(brickRed.times(1.4), .085)
	open := func(u, v float64) bool {
		// Loading doors in rows, one bay of 4.2 m to each.
		fu := math.Mod(u+400, 4.2) - 2.1
		fv := math.Mod(v-.55, 3.1)
		return math.Abs(fu) < .62 && fv > .9 && fv < 2.3 && v < 8
	}
	dark := matt(slate.times(.5), .5, .6)
	s.add(recessed(bricks, dark, open, .35), box(Vec{14.4, .5, 46}, Vec{9, 8.2, 22}, 0))
	s.add(dusted(slates(slate.times(1.3), .36), .75), gable(Vec{14.4, 8.7, 46}, Vec{9.8, 3.9, 22.8}, 0))
	s.add(bricks, box(Vec{12.9, .5, 74}, Vec{7, 5, 18}, 0))
	s.add(dusted(slates(slate.times(1.3), .36), .75), gable(Vec{12.9, 5.5, 74}, Vec{7.6, 3, 18.6}, 0))
	s.add(dusted(boards(cedar.times(1.2), .2), .5), box(Vec{8.2, .55, 14}, Vec{1.4, .9, 1.1}, .2), box(Vec{8.4, .55, 16.2}, Vec{1.2, 1.3, 1.2}, -.15), box(Vec{8.2, 1.45, 14.1}, Vec{.9, .6, .9}, .5))
	bollard := matt(iron.times(1.2), .1, .6)
	for _, z := range []float64{9.5, 18, 31, 42} {
		s.add(bollard, cone{Vec{3, .55, z}, .55, .17, .14}, cone{Vec{3, 1.0, z}, .16, .15, .22})
	}
}

// crane is timber and iron: plinth, mast, jib over the water, tie rods, chain and block.
func (s *Scene) crane(p Vec) {
	timber, metal := dusted(boards(cedar.times(.9), 50), .35), matt(iron, .2, .6)
	at := func(x, y float64) Vec { return p.add(Vec{x, y, 0}) }
	s.add(dusted(ashlar(stone.times(1.1), .4), .8), cone{p, .85, 1.5, 1.35})
	s.add(timber, box(p.add(Vec{0, .85, 0}), Vec{.55, 5.9, .55}, .2))
	tip := at(-5.9, 8.3)
	s.add(timber, beam(at(-.2, 1.7), tip, .34))
	// Pairs of rods: from the mast head out to the jib, and back to the tail.
	for _, z := range []float64{-.16, .16} {
		side := Vec{0, 0, z}
		s.add(metal, beam(at(0, 6.65).add(side), tip.add(side), .07), beam(at(0, 6.6).add(side), at(2.3, 1.2).add(side), .07))
	}
	s.add(timber, beam(at(0, 1.35), at(2.5, 1.15), .34))
	s.add(metal, cone{at(0, 6.7), .25, .36, .30}, box(tip.add(Vec{-.1, -.25, 0}), Vec{.5, .5, .2}, 0))
	s.add(metal, beam(tip.add(Vec{-.28, 0, 0}), tip.add(Vec{-.28, -5.2, 0}), .055), box(tip.add(Vec{-.28, -5.7, 0}), Vec{.3, .5, .16}, .3))
	s.add(metal, beam(tip.add(Vec{-.28, -5.7, 0}), tip.add(Vec{-.12, -6.15, 0}), .07), beam(tip.add(Vec{-.12, -6.15, 0}), tip.add(Vec{.05, -5.95, 0}), .06))
	for i := 0; i < 12; i++ { // the winding wheel, spoke by spoke
		a := float64(i) * math.Pi / 6
		rim := func(a float64) Vec { return at(.75, 2.3).add(Vec{.62 * math.Cos(a), .62 * math.Sin(a), -.42}) }
		s.add(metal, beam(rim(a), rim(a+math.Pi/6), .06))
		if i%2 == 0 {
			s.add(metal, beam(rim(a), at(.75, 2.3).add(Vec{0, 0, -.42}), .04))
		}
	}
	s.add(metal, beam(at(.75, 2.3).add(Vec{0, 0, -.5}), at(.75, 2.3).add(Vec{0, 0, .5}), .22))
}

func wharfEdge(c *Canvas) {
	r := seeded(27)
	for n := 0; n < 2600; n++ {
		z := 4 + 60*math.Pow(r.float(), 2)
		p := Vec{-10 + r.bell()*.35 - .4*math.Abs(r.bell()), -.75, z}
		b := dryGrass.mix(frost, .5*r.float()).times(r.between(.5, 1.2))
		h := r.between(.5, 1.5)
		lean := Vec{r.bell() * .2, h, 0}
		c.stroke(p, p.add(lean), .016, .006, b)
		c.reflected(p, p.add(lean), -.9, .014, b.times(.7))
	}
	for n := 0; n < 1500; n++ {
		p := Vec{r.between(2.7, 8.5), .55, 6 + 30*r.float()*r.float()}
		if clouded(p.X/1.1, 1, p.Z/1.6, 3) > .55 {
			c.tuft(&r, p, r.between(.06, .2), .008, 4, frost.times(r.between(.25, .7)))
		}
	}
}

// reflected draws a stroke's image in still water at height y. The water has no depth of its
// own to hide it: only what stands before the water does.
func (c *Canvas) reflected(a, b Vec, y, w float64, light Bands) {
	a.Y, b.Y = 2*y-a.Y, 2*y-b.Y
	ax, ay, az := c.place(a)
	bx, by, bz := c.place(b)
	if az < 1 || bz < 1 {
		return
	}
	// where the line of sight meets the water is nearer than the image by this share
	eye := c.scene.Camera.Eye.Y - y
	near := az * eye / (eye + math.Max(y-a.Y, 0) + .05) * .93
	k := float64(c.W) / c.scene.Camera.Wide / az
	c.line(ax, ay, bx, by, w*k, w*k*.5, near, light.mix(c.scene.HazeLight, 1-math.Exp(-c.scene.Haze*az)))
}

// footbridge is the round arch over the water: a minute's exposure has ironed it flat.
func footbridge() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{-1.2, 1.25, -9}, Heading: .085, Wide: .95, Rise: .07},
		Fill:   overcastSky.times(1.25), Reach: 4,
		Sun: Vec{.3, .8, -.5}.unit(), SunLight: overcastSky.times(.5), SunSize: .8,
		Haze: .004, HazeLight: overcastSky.stops(1.7),
	}
	sky := &heaven{Zenith: 1.9, Horizon: 2.5, Veil: .75, Cloud: 2.7, Cover: .5, Scale: 1.2, Shift: 2, Sun: s.Sun}
	s.Sky = func(d Vec) Bands {
		if skyline(d, 21, .17, 4, .4) {
			return leaf.times(.5).mix(s.HazeLight, .42)
		}
		return sky.in(d)
	}
	const half, back = 4.6, 12.2
	open := func(u, v float64) bool { return u*u+(v+.25)*(v+.25) < half*half }
	// A ray that enters the arch and would leave it at the far side goes through; one that would
	// strike the vault stays, and recessed finds where.
	through := func(p, d Vec) bool {
		if !open(-p.X, p.Y) || math.Abs(d.Z) < 1e-6 {
			return false
		}
		out := p.along(d, math.Copysign(2.2, d.Z)/d.Z)
		return open(-out.X, out.Y)
	}
	bricks := brickwork(stone.mix(brickRed, .55).times(1.05), .085)
	s.addHoled(recessed(ringed(bricks, half, -.25), bricks, open, 2.2), through, box(Vec{0, -1, back - 1.1}, Vec{40, 6.9, 2.2}, 0))
	s.add(dusted(ashlar(stone.times(1.15), .26), .6), box(Vec{0, 5.9, back - 1.1}, Vec{40, .22, 2.5}, 0))
	s.add(flowing(water(earth.times(.3), .012, 5)), floor{0})
	s.banks()
	s.Paint = bridgeGrowth
	return s
}

// flowing draws foam out into threads along the stream, as a minute of it does.
func flowing(s Skin) Skin {
	return func(at Point) Surface {
		out := s(at)
		x, z := at.P.X, at.P.Z
		bend := .5 * math.Sin(z/5)
		thread := clouded((x-bend)/.16, 3, z/9, 4)
		// Fastest in the middle, where the thread is whitest; the edges barely move.
		middle := math.Exp(-math.Pow((x-.4-bend)/2.6, 2))
		foam := step(.50, .78, thread+.16*middle) * (.25 + .75*middle)
		out.Mirror *= 1 - .75*foam
		out.Reflect = out.Reflect.mix(frost.times(.62), foam)
		return out
	}
}

// banks are the towpath and the far side, and the weir that whitens the water beyond the arch.
func (s *Scene) banks() {
	grass := dusted(turf(leaf.times(.8), dryGrass, .15), .45)
	s.add(ashlar(stone.times(.8), .3), box(Vec{-8.4, -1, 10}, Vec{7, 1.5, 60}, 0))
	s.add(grass, box(Vec{-8.8, .5, 10}, Vec{7.4, .06, 60}, 0))
	s.add(grass, box(Vec{10.5, -1, 10}, Vec{10, 1.55, 60}, 0))
	foam := func(at Point) Surface {
		m := clouded(at.P.X/.25, at.P.Y/2.5, at.P.Z/1.5, 4)
		return Surface{Reflect: frost.times(1.15).stops((m - .6) * 1.8), N: at.N}
	}
	s.add(foam, slab(Vec{1, .15, 27}, Vec{14, .25, 3}, Vec{1, 0, 0}, Vec{0, .96, -.28}, Vec{0, .28, .96}))
	s.add(foam, box(Vec{1, 0, 24.6}, Vec{12, .03, 2.6}, 0))
}

func bridgeGrowth(c *Canvas) {
	r := seeded(63)
	for n := 0; n < 3000; n++ {
		z := -7 + 20*math.Pow(r.float(), 1.4)
		for _, p := range []Vec{{-5.1 - 2.5*r.float()*r.float(), .55, z}, {5.6 + 3*r.float()*r.float(), .5, z}} {
			c.tuft(&r, p, r.between(.12, .45), .008, 4, dryGrass.mix(leaf, r.float()).mix(frost, .3).times(r.between(.4, 1.0)))
		}
	}
	for n := 0; n < 16; n++ { // ivy hanging from the parapet
		x := -4 + 9*r.float()
		p := Vec{x, 5.9, 9.85}
		for k := 0; k < 60; k++ {
			q := p.add(Vec{r.bell() * .16, -r.float() * (.4 + 1.1*noise(x, 1, 2)), -.05})
			c.stroke(q, q.add(Vec{r.bell() * .05, -.06, 0}), .07, .03, leaf.times(r.between(.25, .7)))
		}
	}
	c.branch(&r, Vec{-8.2, .5, 4}, Vec{.1, 1, 0}, 3.4, .26, 5, grey(.16))
}

// lock is the bottom gate from the water below it.
func lock() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{.25, 1.7, -8.2}, Wide: .86, Rise: .06},
		Fill:   overcastSky.times(1.5), Reach: 2.2,
		Sun: Vec{-.3, .8, -.5}.unit(), SunLight: overcastSky.times(.45), SunSize: .7,
		Sky: func(d Vec) Bands {
			if skyline(d, 9, .42, 3, .25) {
				return leaf.times(.5).mix(overcastSky.stops(2.1), .35)
			}
			return overcastSky.stops(2.6)
		},
	}
	wall := wet(ashlar(stone.times(.95), .38), 1.0)
	s.add(wall, box(Vec{-4.3, -2, 0}, Vec{3, 6, 14}, 0), box(Vec{4.3, -2, 0}, Vec{3, 6, 14}, 0))
	coping := dusted(ashlar(stone.times(1.3), .5), .9)
	s.add(coping, box(Vec{-4.25, 4, 0}, Vec{3.1, .25, 14}, 0), box(Vec{4.25, 4, 0}, Vec{3.1, .25, 14}, 0))
	s.leaves()
	s.add(water(earth.times(.2), .10, .5), floor{-.35})
	s.Paint = leaks
	return s
}

// leaves are the two halves of the gate, meeting in a mitre that points up the lock.
func (s *Scene) leaves() {
	planks, rail := wet(boards(cedar.times(1.1), .21), .9), dusted(wet(boards(cedar.times(1.9), 50), 1.2), .9)
	for _, side := range []float64{-1, 1} {
		// The mitre points up the lock, so that the water it holds back shuts it.
		heel, mitre := Vec{side * 2.85, 0, 1.1}, Vec{side * .035, 0, 2.0}
		run := mitre.sub(heel)
		ax := run.unit()
		az := ax.cross(Vec{0, 1, 0})
		mid := heel.along(run, .5)
		s.add(planks, slab(mid.add(Vec{0, 1.4, .12}), Vec{run.length(), 4.4, .1}, ax, Vec{0, 1, 0}, az))
		for _, y := range []float64{.1, 1.15, 2.2, 3.35} {
			s.add(rail, slab(mid.add(Vec{0, y, 0}), Vec{run.length(), .26, .30}, ax, Vec{0, 1, 0}, az))
		}
		for _, t := range []float64{.04, .965} {
			s.add(rail, slab(heel.along(run, t).add(Vec{0, 1.3, -.03}), Vec{.25, 5, .33}, ax, Vec{0, 1, 0}, az))
		}
		s.add(rail, beam(heel.add(Vec{side * -.1, .2, -.16}), mitre.add(Vec{side * .15, 3.2, -.2}), .13))
		s.add(dusted(boards(cedar.times(2.0), 50), 1), beam(mitre.add(Vec{side * .1, 4.1, 0}), heel.add(Vec{side * 3.4, 4.55, -.9}), .40))
		s.add(matt(iron.times(1.2), .1, .6), slab(heel.along(run, .93).add(Vec{0, 3.35, -.2}), Vec{.6, .09, .03}, ax, Vec{0, 1, 0}, az))
	}
	s.add(matt(grey(.02), 1, 0), box(Vec{0, -1, 2.3}, Vec{6, 4.4, .05}, 0))
}

// wet darkens a skin towards the waterline, in runs.
func wet(s Skin, line float64) Skin {
	return func(at Point) Surface {
		out := s(at)
		u, _ := onWall(at)
		// Stretched noise makes the stains run down.
		runs := clouded(u/.16, at.P.Y/3, 6, 4) - .5
		low := step(line+.9, line-.6, at.P.Y+runs*2)
		out.Reflect = out.Reflect.stops(-1.5*low + runs*1.3)
		return out
	}
}

// leaks are the threads of water between the planks; a 25th draws them as threads.
func leaks(c *Canvas) {
	r := seeded(88)
	for _, jet := range []struct{ x, y, z, n float64 }{{0, 2.0, 1.75, 70}, {-1.35, 1.1, 1.2, 22}, {1.7, 2.1, 1.1, 16}, {.9, .95, 1.35, 12}} {
		for n := 0.0; n < jet.n; n++ {
			p := Vec{jet.x + r.bell()*.05, jet.y + r.bell()*.06, jet.z - .14}
			// A jet leaves the gate level and falls; g is drawn a little large, to look like weight.
			way := Vec{r.bell() * .10, 0, -.35 - .3*r.float()}
			for t := 0.0; t < .75; t += .06 {
				q := func(t float64) Vec { return p.along(way, t).add(Vec{0, -4.9 * t * t * 1.2, 0}) }
				if q(t).Y < -.35 {
					break
				}
				c.stroke(q(t), q(t+.05), .012, .008, overcastSky.times(r.between(.4, 1.7)*(1-.5*t)))
			}
		}
	}
	for n := 0; n < 260; n++ { // moss and fern on the walls
		side := 1.0
		if n%2 == 0 {
			side = -1
		}
		p := Vec{side * 2.78, r.between(1.2, 3.9), r.between(-4, 1)}
		c.tuft(&r, p, r.between(.08, .22), .012, 4, leaf.times(r.between(.3, .9)))
	}
}

// poplars is the avenue in ten minutes of sun, its shadows lying over the path.
func poplars() *Scene {
	sun := Vec{-.80, .36, .30}.unit()
	sky := &heaven{Zenith: .1, Horizon: 2.0, Veil: .03, Cloud: 3.0, Cover: .45, Scale: 1.3, Shift: 31, Sun: sun, SunGlow: .4}
	s := &Scene{
		Camera: Camera{Eye: Vec{1.3, 1.9, -14}, Heading: -.03, Wide: .62, Rise: .17, Portrait: true},
		Sun:    sun, SunLight: sunlight.times(3), SunSize: .02,
		Fill: clearSky.mix(overcastSky, .3).times(.5), Reach: 4,
		Haze: .005, HazeLight: overcastSky.stops(1.9),
	}
	s.Sky = func(d Vec) Bands {
		if skyline(d, 14, .035, 4, .2) {
			return leaf.mix(s.HazeLight, .6)
		}
		return sky.in(d)
	}
	s.add(avenue(turf(leaf.times(.9), dryGrass, 0)), floor{0})
	s.add(water(earth.times(.3), .02, 2), box(Vec{9, -.3, 60}, Vec{7, .32, 180}, 0))
	for n := 0; n < 13; n++ {
		z := -2 + 8.5*float64(n)
		s.poplar(Vec{-3.3 + .2*math.Sin(z), 0, z}, 15+1.5*math.Sin(z*1.3))
		s.poplar(Vec{4.1 + .2*math.Sin(z*2), 0, z + 1}, 14.5+1.5*math.Sin(z*.7))
	}
	s.Paint = pathEdge
	return s
}

// avenue wears a pale path into the turf.
func avenue(s Skin) Skin {
	return func(at Point) Surface {
		out := s(at)
		off := math.Abs(at.P.X - .4 + .5*(clouded(1, 2, at.P.Z/5, 3)-.5))
		worn := step(1.25, .75, off+.5*(clouded(at.P.X/.4, 1, at.P.Z/.4, 3)-.5))
		grit := clouded(at.P.X/.06, 1, at.P.Z/.12, 4) - .5
		out.Reflect = out.Reflect.mix(earth.times(2).stops(grit*1.5), worn)
		return out
	}
}

// poplar is a trunk and three nested shells of leaves, each mostly holes: the sky between
// them, and the shadow they throw, come of themselves.
func (s *Scene) poplar(p Vec, h float64) {
	s.add(brickless(earth.times(.9)), cone{p, h * .8, .24, .05})
	seed := p.X*7 + p.Z
	for i, r := range []float64{1, .72, .45} {
		k := float64(i)
		sparse := func(q, d Vec) bool {
			// Thinner towards the top and on the outermost shell.
			up := (q.Y - p.Y) / h
			return clouded(q.X/.13+seed, q.Y/.26, q.Z/.13+k*5, 3) < .50+.10*up-.05*k
		}
		s.addHoled(leafage(seed+k), sparse, ball{p.add(Vec{0, h * .56, 0}), Vec{1.35 * r, h * .46, 1.35 * r}})
	}
}

// leafage is autumn leaves: every small patch faces its own way and some are pale.
func leafage(seed float64) Skin {
	return func(at Point) Surface {
		q := at.P
		// Each handful of leaves is turned its own way; light through them is their own glow.
		m := clouded(q.X/.10, q.Y/.14, q.Z/.10+seed, 3)
		n := rough(at, .13, .9)
		b := leaf.mix(dryGrass, step(.4, .7, clouded(q.X/.8, q.Y/.8, seed, 3))).times(1.5)
		return Surface{Reflect: b.stops((m - .5) * 2.4), N: n, Glow: b.times(.10)}
	}
}

// brickless is bark: furrowed up and down.
func brickless(b Bands) Skin {
	return func(at Point) Surface {
		m := clouded(at.P.X/.03, at.P.Y/.5, at.P.Z/.03, 4) - .5
		return Surface{Reflect: b.stops(m * 2.2), N: at.N}
	}
}

func pathEdge(c *Canvas) {
	r := seeded(70)
	for n := 0; n < 9000; n++ {
		z := -12.5 + 40*math.Pow(r.float(), 1.7)
		x := .4 + r.bell()*3.2
		if math.Abs(x-.4) < 1.05 {
			continue
		}
		c.tuft(&r, Vec{x, 0, z}, r.between(.06, .24), .007, 4, leaf.mix(dryGrass, r.float()).times(1.8*r.between(.3, 1.2)))
	}
}

// heron is mist, reeds, and the bird already going.
func heron() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{0, 1.5, -10}, Wide: .66, Rise: .02},
		Fill:   overcastSky.times(1.1), Reach: 4,
		Haze: .022, HazeLight: overcastSky.stops(1.5),
	}
	veiled := Vec{-.13, .155, 1}.unit() // the sun, a disc one can look at only through this
	s.Sky = func(d Vec) Bands {
		mist := overcastSky.stops(1.5 + .6*(clouded(d.X*4, d.Y*9, 3, 4)-.5))
		mist = mist.add(overcastSky.times(7 * math.Pow(math.Max(d.dot(veiled), 0), 60)))
		mist = mist.add(grey(9 * step(.99965, .99978, d.dot(veiled))))
		if skyline(d, 33, .075, 6, .5) {
			return leaf.times(.5).mix(mist, .34)
		}
		if skyline(d, 35, .12, 3, .3) {
			return leaf.mix(mist, .70)
		}
		return mist
	}
	s.add(water(earth.times(.3), .02, 1.2), floor{0})
	s.add(turf(leaf.times(.5), dryGrass, 0), box(Vec{-18, -1, 20}, Vec{20, 1.3, 40}, -.12), box(Vec{24, -1, 44}, Vec{26, 1.3, 60}, .1))
	s.Paint = reedsAndBird
	return s
}

func reedsAndBird(c *Canvas) {
	r := seeded(14)
	for n := 0; n < 5200; n++ {
		side := -1.0
		if n%3 == 0 {
			side = 1
		}
		z := 1 + 34*math.Pow(r.float(), 1.3)
		// Two beds that narrow towards the viewer, with bays in them.
		x := side*(2.6+z*.16+1.2*clouded(z/4, side, 1, 3)) + side*math.Abs(r.bell())*1.6
		h := r.between(.9, 2.3)
		p := Vec{x, 0, z}
		tip := p.add(Vec{r.bell()*.28 + .15, h, 0})
		b := dryGrass.times(r.between(.08, .7))
		c.stroke(p, tip, .014, .005, b)
		c.reflected(p, tip, 0, .012, b.times(.8))
		if r.float() < .3 {
			c.stroke(tip, tip.add(Vec{.05, -.22, 0}), .045, .02, b.times(.7))
		}
	}
	c.bird(Vec{1.0, 2.35, 9})
	c.bird(Vec{1.0, -2.35, 9})
}

// bird is a heron in flight, seen from the side: a wing up, a wing half behind it, the neck
// folded, the legs trailing. Under the water (negative height) it is its own reflection.
func (c *Canvas) bird(p Vec) {
	x, y, z := c.place(p)
	k := 1.05 * float64(c.W) / c.scene.Camera.Wide / z
	flip, light, opacity := 1.0, grey(.10), .93
	if p.Y < 0 {
		flip, light, opacity = -1, grey(.35), .55
	}
	put := func(outline [][2]float64) {
		for i, q := range outline {
			outline[i] = [2]float64{x + q[0]*k, y - flip*q[1]*k}
		}
		c.patch(outline, light, opacity)
	}
	// Body with neck and trailing legs; the wing this side; the wing beyond.
	put([][2]float64{{-.36, .02}, {-.22, .07}, {.05, .075}, {.20, .06}, {.27, .10}, {.33, .09}, {.52, .065}, {.34, .055}, {.27, .03}, {.16, -.03}, {-.05, -.045}, {-.24, -.01}, {-.66, -.045}, {-.66, -.06}, {-.3, -.02}})
	put([][2]float64{{.12, .06}, {.10, .25}, {-.02, .48}, {-.20, .66}, {-.38, .73}, {-.34, .58}, {-.28, .40}, {-.20, .20}, {-.16, .05}})
	put([][2]float64{{.10, .05}, {.22, .22}, {.24, .42}, {.18, .58}, {.07, .45}, {-.02, .25}, {-.05, .05}})
}
