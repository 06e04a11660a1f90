package main

import "math"

// The drying shed and what was found in it, and the gate post outside.

// shed looks down the middle aisle to the far door, a window lighting one bay of the racks.
func shed() *Scene {
	const wide, eaves, ridge, long = 4.2, 2.9, 5.0, 30.0
	s := &Scene{
		Camera: Camera{Eye: Vec{-.35, 1.55, -.6}, Heading: .035, Wide: 1.12, Rise: .06},
		Fill:   overcastSky.times(.62), Reach: 1.2,
		Sky: func(d Vec) Bands {
			if skyline(d, 3, .08, 4, .05) {
				return leaf.mix(overcastSky.stops(2.5), .5)
			}
			return overcastSky.stops(3.6)
		},
	}
	wall, timber := boards(cedar.times(1.5), .19), boards(cedar.times(1.2), .16)
	// Openings are holes in solid walls, so the landscape outside is really seen through them.
	window := func(p, d Vec) bool {
		z := math.Abs(p.Z - 12)
		bars := math.Mod(z+.22, .62) < .055 || math.Abs(p.Y-1.95) < .03
		return p.X > 0 && z < 1.65 && p.Y > 1.15 && p.Y < 2.6 && !bars
	}
	doorway := func(p, d Vec) bool { return math.Abs(p.X) < .85 && p.Y < 2.2 }
	chinks := func(p, d Vec) bool { return lattice(int(p.Z*5), 8, int(p.Y/2.9)) > .90 && math.Mod(p.Z*5, 1) < .10 }
	s.addHoled(wall, chinks, box(Vec{-wide, 0, long / 2}, Vec{.06, eaves, long + 8}, 0))
	s.addHoled(wall, window, box(Vec{wide, 0, long / 2}, Vec{.06, eaves, long + 8}, 0))
	s.addHoled(wall, doorway, box(Vec{0, 0, long}, Vec{2*wide + 1, 6, .06}, 0))
	s.roofing(timber, wide, eaves, ridge, long)
	s.add(trodden(earth.times(1.3)), floor{0})
	s.racks(long)
	// What comes in by the openings, as lamps in their place: a sky would be found by too few
	// rays. The third is the door behind the camera, without which the near racks are black.
	s.Lamps = []Lamp{
		{Mid: Vec{wide - .1, 1.9, 12}, A: Vec{0, 0, 1.6}, B: Vec{0, .7, 0}, Power: overcastSky.times(125)},
		{Mid: Vec{0, 1.1, long - .1}, A: Vec{.85, 0, 0}, B: Vec{0, 1.1, 0}, Power: overcastSky.times(170)},
		{Mid: Vec{-1.2, 2.3, -2.4}, A: Vec{1, 0, 0}, B: Vec{0, .8, 0}, Power: overcastSky.times(21)},
	}
	s.Haze, s.HazeLight = .004, overcastSky.times(.8)
	return s
}

// roofing is two slopes of boards on trusses.
func (s *Scene) roofing(timber Skin, wide, eaves, ridge, long float64) {
	rise := ridge - eaves
	truss := boards(cedar.times(2.2), 50)
	for _, side := range []float64{-1, 1} {
		along := Vec{side * wide, -rise, 0}
		ax := along.unit()
		mid := Vec{side * wide / 2, eaves + rise/2 + .05, long / 2}
		s.add(timber, slab(mid, Vec{along.length() + .3, .05, long + 8}, ax, Vec{0, 0, 1}.cross(ax), Vec{0, 0, 1}))
	}
	for z := 1.6; z < long; z += 3.2 {
		s.add(truss, beam(Vec{-wide, eaves - .1, z}, Vec{wide, eaves - .1, z}, .17),
			beam(Vec{-wide, eaves - .1, z}, Vec{0, ridge - .1, z}, .13), beam(Vec{wide, eaves - .1, z}, Vec{0, ridge - .1, z}, .13),
			beam(Vec{0, eaves, z}, Vec{0, ridge - .1, z}, .12))
	}
}

// racks stand on both sides, five shelves high, some bays still full of bricks.
func (s *Scene) racks(long float64) {
	r := seeded(611)
	post, shelf := boards(cedar.times(2.2), 50), boards(cedar.times(1.5), .12)
	for _, side := range []float64{-1, 1} {
		for z := .4; z < long-3; z += 1.7 {
			// The bays before the window were left out, or it would light nothing.
			if side > 0 && z > 9.5 && z < 14 {
				continue
			}
			for _, x := range []float64{1.55, 2.75} {
				s.add(post, box(Vec{side * x, 0, z}, Vec{.08, 2.35, .09}, 0))
			}
			for y := .30; y < 2.2; y += .42 {
				s.add(shelf, box(Vec{side * 2.15, y, z + .85}, Vec{1.25, .035, 1.72}, 0))
				if r.float() < .72 {
					s.add(setBricks(brickRed.times(2.1).stops(r.bell()*.3)), box(Vec{side * 2.15, y + .035, z + .85 + r.bell()*.05}, Vec{1.05, .115, 1.4 * r.between(.6, 1)}, 0))
				}
			}
		}
	}
}

// setBricks is a row of bricks on edge with air between them.
func setBricks(b Bands) Skin {
	return func(at Point) Surface {
		n := at.P.Z / .105
		gap := step(.36, .5, math.Abs(n-math.Floor(n)-.5))
		own := (lattice(int(math.Floor(n)), int(at.P.Y*9), int(at.P.X*3)) - .5) * 1.2
		m := clouded(at.P.X/.05, at.P.Y/.05, at.P.Z/.05, 4) - .5
		return Surface{Reflect: b.stops(own + m - 2.6*gap), N: rough(at, .04, .3)}
	}
}

// trodden is an earth floor with two barrow tracks worn into a shine.
func trodden(b Bands) Skin {
	return func(at Point) Surface {
		// Two wheels of the barrow, and the feet between them wear nothing.
		track := math.Exp(-math.Pow((math.Abs(at.P.X)-.32)/.16, 2))
		m := clouded(at.P.X/.5, 2, at.P.Z/1.6, 6) - .5
		grit := clouded(at.P.X/.05, 4, at.P.Z/.05, 4) - .5
		return Surface{Reflect: b.stops(m*1.8 + grit*1.6*(1-track) + track*.5), N: rough(at, .12, .5*(1-.7*track))}
	}
}

// thumbprint is one brick close to, on its shelf, the lens wide open enough to let the rest go.
func thumbprint() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{0, .36, -.52}, Wide: .62, Rise: -.47, Blur: .007, Focus: .60},
		Fill:   overcastSky.times(.16), Reach: .25,
		Sky: func(d Vec) Bands { return grey(.12) },
	}
	// Turned out of square so that the light, which comes along the shelf, rakes both faces.
	turn := .30
	at := Vec{-.005, 0, .03}
	s.add(thumbed(brickRed.times(2.6), at, turn), box(at, Vec{.228, .066, .11}, turn))
	r := seeded(31)
	for _, p := range []Vec{{-.27, 0, .14}, {.27, 0, .17}, {.03, 0, .25}, {-.23, 0, .33}, {.30, 0, .39}, {.02, 0, .47}, {-.35, 0, .5}, {.33, 0, -.06}} {
		s.add(thumbed(brickRed.times(2.0).stops(r.bell()*.35), Vec{9, 0, 9}, 0), box(p, Vec{.226, .065, .108}, turn+r.bell()*.1))
	}
	s.add(shelving(cedar.times(1.5)), box(Vec{0, -.03, .2}, Vec{3, .03, 2}, 0))
	s.Lamps = []Lamp{{Mid: Vec{-1.3, .62, .42}, A: Vec{0, 0, .32}, B: Vec{0, .28, 0}, Power: overcastSky.times(9.5)}}
	return s
}

// shelving is planks running across the view.
func shelving(b Bands) Skin {
	return func(at Point) Surface { return plank(b, at.P.Z, at.P.X, .16, at) }
}

// thumbed is brick clay with its pits and drag marks, and in one place a thumb: a shallow bowl
// with the ridges of the skin in it, made by tilting the normal only.
func thumbed(b Bands, mid Vec, turn float64) Skin {
	relief := func(p Vec) float64 {
		// In the brick's own axes, x along it. The bowl has a pushed-up rim; the ridges are .45 mm
		// apart and go round a loop, as they do; the rest is wire cut and stones dragged out.
		q := p.sub(mid).turned(-turn)
		x, z := (q.X-.040)/.0135, (q.Z+.010)/.019
		d := math.Sqrt(x*x + z*z)
		bowl := -.0055*math.Exp(-d*d*1.1) + .0013*math.Exp(-(d-1.45)*(d-1.45)*6)
		loop := math.Sqrt(x*x+(z+.35)*(z+.35)*.8) + .12*(clouded(x*1.5, z*1.5, 3, 2)-.5)
		ridges := .00011 * math.Sin(loop*42) * (1 - step(.75, 1.15, d))
		clay := .0011*clouded(q.X/.012, p.Y/.012, q.Z/.03, 5) + .0009*clouded(q.X/.09, 1, q.Z/.012, 4)
		pit := .0014 * step(.66, .74, clouded(q.X/.009, p.Y/.009, q.Z/.009, 2))
		return bowl + ridges + clay - pit
	}
	return func(at Point) Surface {
		// The slope by differences, at less than the width of a ridge.
		const e = .0004
		h := relief(at.P)
		g := Vec{relief(at.P.add(Vec{e, 0, 0})) - h, relief(at.P.add(Vec{0, e, 0})) - h, relief(at.P.add(Vec{0, 0, e})) - h}
		n := at.N.along(g, -1/e).unit()
		m := clouded(at.P.X/.03, at.P.Y/.03, at.P.Z/.03, 5) - .5
		return Surface{Reflect: b.stops(m * 1.3), N: n}
	}
}

// bench is the setter's bench by lamplight: plaster, a jug, moulds, tools put down one evening.
func bench() *Scene {
	s := &Scene{
		Camera: Camera{Eye: Vec{.05, 1.42, -1.75}, Wide: .96, Rise: -.085},
		Fill:   grey(.11), Reach: .5, Tungsten: true,
		Sky: func(d Vec) Bands { return grey(.04) },
	}
	s.add(cracked(plaster.times(.8)), box(Vec{0, 0, .42}, Vec{6, 4, .1}, 0))
	s.add(shelving(cedar.times(1.9)), box(Vec{0, .86, .02}, Vec{2.6, .07, .72}, 0))
	wood := boards(cedar.times(3.6), 50)
	s.add(wood, box(Vec{0, 1.62, .30}, Vec{1.5, .03, .16}, 0), box(Vec{-.62, 1.46, .33}, Vec{.03, .16, .1}, 0), box(Vec{.62, 1.46, .33}, Vec{.03, .16, .1}, 0))
	s.jug(Vec{-.56, .93, .05})
	s.moulds(wood)
	clay := thumbed(brickRed.times(2.2), Vec{9, 9, 9}, 0)
	for i := 0; i < 4; i++ {
		s.add(clay, box(Vec{.66 + .012*float64(i%2), .93 + .068*float64(i), .16}, Vec{.225, .066, .108}, .12*float64(i%3-1)))
	}
	tin := matt(iron.times(4), .03, .5)
	for i, x := range []float64{-.45, -.25, -.08, .18, .34, .5} {
		h := .10 + .05*math.Mod(float64(i)*1.7, 1)
		s.add(tin, cone{Vec{x, 1.65, .30}, h, .035 + .008*float64(i%3), .035 + .008*float64(i%3)})
	}
	s.Lamps = []Lamp{
		{Mid: Vec{-.95, 2.15, -.55}, A: Vec{.06, 0, 0}, B: Vec{0, 0, .06}, Power: grey(8.5)},
		{Mid: Vec{1.25, 2.25, -.7}, A: Vec{.06, 0, 0}, B: Vec{0, 0, .06}, Power: grey(3.2)},
	}
	return s
}

// jug is turned from cones; its glaze takes a little of the lamp as shine.
func (s *Scene) jug(p Vec) {
	glaze := func(at Point) Surface {
		m := clouded(at.P.X/.03, at.P.Y/.06, at.P.Z/.03, 4) - .5
		// The lamp in the glaze (Phong 1975): a lamp this small is hardly ever hit by chance.
		shine := math.Pow(math.Max(at.D.along(at.N, -2*at.D.dot(at.N)).dot(Vec{-.55, .72, -.42}), 0), 40)
		return Surface{Reflect: stone.times(1.3).stops(m - 1.2*step(1.10, 1.13, at.P.Y)), N: at.N, Glow: grey(5 * shine)}
	}
	at := 0.0
	for _, part := range [][3]float64{{.05, .075, .105}, {.07, .105, .112}, {.06, .112, .075}, {.05, .075, .058}, {.03, .058, .066}} {
		s.add(glaze, cone{p.add(Vec{0, at, 0}), part[0], part[1], part[2]})
		at += part[0]
	}
	for i := 0; i < 8; i++ {
		a, b := float64(i)*.36-.2, float64(i+1)*.36-.2
		knee := func(t float64) Vec { return p.add(Vec{.09 + .075*math.Sin(t), .225 - .10*(1-math.Cos(t))*.9, 0}) }
		s.add(glaze, beam(knee(a), knee(b), .018))
	}
}

// moulds are two wooden brick moulds, one leaning, and a strike lying across the bench.
func (s *Scene) moulds(wood Skin) {
	frame := func(p Vec, turn float64) {
		for _, side := range []float64{-1, 1} {
			s.add(wood, box(p.add(Vec{0, 0, side * .07}.turned(turn)), Vec{.30, .075, .016}, turn),
				box(p.add(Vec{side * .125, 0, 0}.turned(turn)), Vec{.016, .075, .13}, turn))
		}
	}
	frame(Vec{-.12, .93, .02}, .25)
	frame(Vec{-.10, 1.006, .03}, -.15)
	s.add(wood, beam(Vec{.12, .945, -.18}, Vec{.50, .945, -.10}, .028))
	s.add(matt(iron.times(3), .05, .6), slab(Vec{.33, .937, .03}, Vec{.12, .004, .085}, Vec{1, 0, .3}.unit(), Vec{0, 1, 0}, Vec{-.3, 0, 1}.unit()))
	s.add(wood, beam(Vec{.39, .955, .045}, Vec{.50, .965, .08}, .026))
}

// cracked is plaster on a wall: trowel marks, damp, fine cracks where noise crosses its mean.
func cracked(b Bands) Skin {
	return func(at Point) Surface {
		x, y := at.P.X, at.P.Y
		damp := clouded(x/.7, y/.9, 4, 5)
		// A crack runs where the noise crosses its own mean: a line without ends, never straight.
		crack := math.Abs(clouded(x/.45+clouded(x/.06, y/.06, 1, 3)*.25, y/.45, 7, 3) - .5)
		line := (1 - step(.002, .008, crack)) * step(.5, .6, damp)
		fallen := step(.66, .68, clouded(x/.5, y/.35, 12, 5))
		out := b.stops((damp-.5)*1.7 + (clouded(x/.04, y/.04, 2, 4)-.5)*.5 - 2.2*line)
		return Surface{Reflect: out.mix(brickRed.times(1.6), fallen), N: rough(at, .05, .35+.4*fallen)}
	}
}

// post is the gate post, near enough to be a portrait.
func post() *Scene {
	s := &Scene{
		// Near and wide open: what is behind the post only has to be there.
		Camera: Camera{Eye: Vec{.12, 1.12, -1.45}, Heading: -.04, Wide: .70, Rise: -.02, Blur: .011, Focus: 1.33, Portrait: true},
		Fill:   overcastSky.times(.95), Reach: .8,
		Sun: Vec{-.8, .5, -.35}.unit(), SunLight: overcastSky.times(1.35), SunSize: .5,
	}
	sky := &heaven{Zenith: 1.9, Horizon: 2.5, Veil: .7, Cloud: 2.9, Cover: .5, Scale: 1, Shift: 3, Sun: s.Sun}
	s.Sky = func(d Vec) Bands {
		if skyline(d, 6, .17, 3, .12) {
			return leaf.times(.55).mix(overcastSky.stops(2), .18)
		}
		return sky.in(d)
	}
	s.add(turf(leaf.times(1.1), dryGrass.times(1.2), .05), floor{0})
	s.add(ashlar(stone.times(.9), .3), box(Vec{-6, 0, 14}, Vec{30, 1.25, .6}, .12))
	s.add(granite(stone.times(1.5)), box(Vec{.02, -.1, 0}, Vec{.40, 1.56, .36}, .42),
		slab(Vec{.02, 1.46, 0}, Vec{.36, .07, .32}, Vec{1, 0, 0}.turned(.42), Vec{0, 1, 0}, Vec{0, 0, 1}.turned(.42)))
	rust := matt(iron.times(1.5), .015, 1.2)
	s.hinge(rust)
	wood := boards(cedar.times(1.7), .12)
	for _, y := range []float64{.35, .68, .98} {
		s.add(wood, slab(Vec{1.75, y, 1.6}, Vec{2.4, .10, .04}, Vec{1, 0, .62}.unit(), Vec{0, 1, 0}, Vec{-.62, 0, 1}.unit()))
	}
	s.Paint = func(c *Canvas) { foot(c) }
	return s
}

// hinge is the strap let into the stone and the pin worn to a hook.
func (s *Scene) hinge(rust Skin) {
	face := Vec{0, 0, -1}.turned(.42)
	side := Vec{1, 0, 0}.turned(.42)
	at := func(x, y, out float64) Vec { return Vec{.02, y, 0}.along(side, x).along(face, .18+out) }
	s.add(rust, beam(at(-.17, 1.20, .008), at(.19, 1.20, .008), .045))
	s.add(rust, beam(at(.12, 1.20, 0), at(.12, 1.20, .115), .042))
	last := at(.12, 1.20, .10)
	for i := 1; i <= 7; i++ {
		// A hook is a short chain of ever thinner bars.
		a := float64(i) * .30
		next := at(.12, 1.20+.085*math.Sin(a), .10+.035*(1-math.Cos(a)))
		s.add(rust, beam(last, next, .036-.0028*float64(i)))
		last = next
	}
	for _, x := range []float64{-.12, 0} {
		p := at(x, 1.20, .03)
		s.add(rust, ball{p, Vec{.014, .014, .014}})
	}
}

// granite is worn stone: crystals, lichen in pale rounds, tool marks under it.
func granite(b Bands) Skin {
	return func(at Point) Surface {
		p := at.P
		grain := clouded(p.X/.006, p.Y/.006, p.Z/.006, 3) - .5
		stain := clouded(p.X/.2, p.Y/.55, p.Z/.2, 5) - .5
		spots := clouded(p.X/.05+3*stain, p.Y/.05, p.Z/.05, 4)
		// Lichen keeps to damp patches and is round within them.
		lichen := step(.60, .64, spots) * step(.45, .6, clouded(p.X/.25, p.Y/.25, p.Z/.25+5, 3))
		out := b.stops(grain*1.6+stain*2.6).mix(plaster.times(1.2).stops(grain), .8*lichen)
		n := rough(at, .05, .55)
		return Surface{Reflect: out, N: rough(Point{P: p, N: n}, .012, .35)}
	}
}

// foot is the long grass around the post.
func foot(c *Canvas) {
	r := seeded(12)
	for n := 0; n < 520; n++ {
		p := Vec{r.bell() * .75, 0, r.between(-.45, 1.6)}
		c.tuft(&r, p, r.between(.25, .62), .005, 4, leaf.mix(dryGrass, r.float()).times(1.6*r.between(.5, 1.2)))
	}
}
