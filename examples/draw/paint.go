package main

import "math"

// Canvas is a view on which thin things are drawn by stroke: grass, reeds, twigs. They are
// too many and too fine to trace, and only their outline is ever seen.
type Canvas struct{ *View }

// stroke draws a line from a to b in space, tapering from width w0 to w1 (metres), hidden by
// whatever stands before it.
func (c *Canvas) stroke(a, b Vec, w0, w1 float64, light Bands) {
	ax, ay, az := c.place(a)
	bx, by, bz := c.place(b)
	if az < .1 || bz < .1 {
		return
	}
	perMetre := float64(c.W) / c.scene.Camera.Wide
	if s := c.scene; s.Haze > 0 {
		light = light.mix(s.HazeLight, 1-math.Exp(-s.Haze*az))
	}
	c.line(ax, ay, bx, by, w0*perMetre/az, w1*perMetre/bz, math.Min(az, bz), light)
}

// line draws in pixels. Hair thinner than a pixel is drawn a pixel wide and fainter.
func (c *Canvas) line(ax, ay, bx, by, w0, w1, depth float64, light Bands) {
	wide := math.Max(w0, w1)/2 + 1
	x0, x1 := clamp(math.Min(ax, bx)-wide, 0, float64(c.W)), clamp(math.Max(ax, bx)+wide, 0, float64(c.W))
	y0, y1 := clamp(math.Min(ay, by)-wide, 0, float64(c.H)), clamp(math.Max(ay, by)+wide, 0, float64(c.H))
	dx, dy := bx-ax, by-ay
	long := dx*dx + dy*dy + 1e-9
	for y := int(y0); y < int(y1); y++ {
		for x := int(x0); x < int(x1); x++ {
			i := y*c.W + x
			if c.Depth[i] < depth-.05 {
				continue
			}
			px, py := float64(x)+.5-ax, float64(y)+.5-ay
			t := clamp((px*dx+py*dy)/long, 0, 1)
			away := math.Hypot(px-t*dx, py-t*dy)
			w := lerp(w0, w1, t)
			cover := math.Min(w, 1) * clamp(math.Max(w, 1)/2+.5-away, 0, 1)
			c.Light[i] = c.Light[i].mix(light, cover)
		}
	}
}

// tuft draws blades of grass growing from a point, leaning with the wind.
func (c *Canvas) tuft(r *random, root Vec, height, width float64, blades int, light Bands) {
	for n := 0; n < blades; n++ {
		lean := r.bell()*.35 + .12
		foot := root.add(Vec{r.bell() * height * .25, 0, r.bell() * height * .25})
		h := height * r.between(.5, 1.15)
		tip := foot.add(Vec{lean * h, h * (1 - .25*lean*lean), r.bell() * h * .2})
		// A blade bends once: stiff below, limp above.
		knee := foot.add(Vec{lean * h * .28, h * .55, 0})
		shade := light.times(r.between(.45, 1.25))
		c.stroke(foot, knee, width, width*.8, shade.times(.7))
		c.stroke(knee, tip, width*.8, width*.2, shade)
	}
}

// branch grows a bare tree: each piece a little crooked, each fork thinner.
func (c *Canvas) branch(r *random, from, way Vec, length, width float64, forks int, light Bands) {
	for piece := 0; piece < 3; piece++ {
		way = way.add(Vec{r.bell() * .07, .03, r.bell() * .07}).unit()
		to := from.along(way, length/3)
		c.stroke(from, to, width, width*.85, light.times(r.between(.8, 1.2)))
		from, width = to, width*.85
		// Nothing grows from the lowest third of a piece.
		if forks > 0 && piece > 0 {
			side := way.add(Vec{r.bell() * .55, r.between(.1, .5), r.bell() * .55}).unit()
			c.branch(r, from, side, length*r.between(.55, .8), width*.6, forks-1, light)
		}
	}
	if forks > 0 {
		c.branch(r, from, way, length*.7, width*.8, forks-1, light)
	}
}

// patch lays a filled outline, in pixels from a corner and at one depth, over the view: for
// figures that are only a silhouette.
func (c *Canvas) patch(outline [][2]float64, light Bands, opacity float64) {
	for y := 0; y < c.H; y++ {
		for x := 0; x < c.W; x++ {
			if cover := inside(outline, float64(x)+.5, float64(y)+.5); cover > 0 {
				i := y*c.W + x
				c.Light[i] = c.Light[i].mix(light, cover*opacity)
			}
		}
	}
}

// inside is the share of a pixel within an outline, from four places in it (even-odd rule).
func inside(outline [][2]float64, x, y float64) float64 {
	hits := 0.0
	for _, d := range [4][2]float64{{-.25, -.25}, {.25, -.25}, {-.25, .25}, {.25, .25}} {
		in, px, py := false, x+d[0], y+d[1]
		for i, j := 0, len(outline)-1; i < len(outline); j, i = i, i+1 {
			a, b := outline[i], outline[j]
			if (a[1] > py) != (b[1] > py) && px < (b[0]-a[0])*(py-a[1])/(b[1]-a[1])+a[0] {
				in = !in
			}
		}
		if in {
			hits += .25
		}
	}
	return hits
}
