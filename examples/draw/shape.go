package main

import "math"

// Vec is a point or direction in metres: x to the right, y up, z away from the viewer.
type Vec struct{ X, Y, Z float64 }

func (a Vec) add(b Vec) Vec              { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) sub(b Vec) Vec              { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) times(k float64) Vec        { return Vec{a.X * k, a.Y * k, a.Z * k} }
func (a Vec) dot(b Vec) float64          { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vec) length() float64            { return math.Sqrt(a.dot(a)) }
func (a Vec) unit() Vec                  { return a.times(1 / a.length()) }
func (a Vec) along(d Vec, t float64) Vec { return a.add(d.times(t)) }

func (a Vec) cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// turned rotates about the vertical by angle radians, from x towards z.
func (a Vec) turned(angle float64) Vec {
	s, c := math.Sincos(angle)
	return Vec{a.X*c - a.Z*s, a.Y, a.X*s + a.Z*c}
}

// Shape answers where a ray first meets it: the distance (infinite for never) and the outward
// normal there.
type Shape interface {
	meet(o, d Vec) (float64, Vec)
	bounds() (low, high Vec)
}

var never = math.Inf(1)

// tooNear keeps a ray from meeting the surface it starts on.
const tooNear = 1e-4

// convex is the space behind several planes: boxes, roofs and wedges are all this one shape.
type convex struct {
	normals []Vec
	dists   []float64 // n·p of each plane's points
	low     Vec
	high    Vec
}

func (c *convex) bounds() (Vec, Vec) { return c.low, c.high }

// meet clips the ray by each plane (Kay and Kajiya 1986): the last entry before the first exit.
func (c *convex) meet(o, d Vec) (float64, Vec) {
	in, out, face := tooNear, never, -1
	for i, n := range c.normals {
		slope, height := n.dot(d), c.dists[i]-n.dot(o)
		switch {
		case math.Abs(slope) < 1e-12:
			if height < 0 {
				return never, Vec{}
			}
		case slope < 0:
			if t := height / slope; t > in {
				in, face = t, i
			}
		default:
			if t := height / slope; t < out {
				out = t
			}
		}
	}
	if face < 0 || in >= out {
		return never, Vec{}
	}
	return in, c.normals[face]
}

func (c *convex) plane(n, through Vec) *convex {
	n = n.unit()
	c.normals, c.dists = append(c.normals, n), append(c.dists, n.dot(through))
	return c
}

// box is a box of the given size, standing with the middle of its base at p, turned by angle.
func box(p, size Vec, angle float64) *convex {
	mid := p.add(Vec{0, size.Y / 2, 0})
	return slab(mid, size, Vec{1, 0, 0}.turned(angle), Vec{0, 1, 0}, Vec{0, 0, 1}.turned(angle))
}

// slab is a box about its middle, with its three axes given: for things that have fallen.
func slab(mid, size, ax, ay, az Vec) *convex {
	half := size.times(.5)
	reach := Vec{
		math.Abs(ax.X)*half.X + math.Abs(ay.X)*half.Y + math.Abs(az.X)*half.Z,
		math.Abs(ax.Y)*half.X + math.Abs(ay.Y)*half.Y + math.Abs(az.Y)*half.Z,
		math.Abs(ax.Z)*half.X + math.Abs(ay.Z)*half.Y + math.Abs(az.Z)*half.Z,
	}
	c := &convex{low: mid.sub(reach), high: mid.add(reach)}
	for _, side := range []struct {
		axis Vec
		half float64
	}{{ax, half.X}, {ay, half.Y}, {az, half.Z}} {
		c.plane(side.axis, mid.along(side.axis, side.half))
		c.plane(side.axis.times(-1), mid.along(side.axis, -side.half))
	}
	return c
}

// gable is a ridged roof over a base of size X by Z, its ridge along Z at height Y.
func gable(p, size Vec, angle float64) *convex {
	c := box(p, size, angle)
	across, ridge := Vec{1, 0, 0}.turned(angle), p.add(Vec{0, size.Y, 0})
	c.plane(across.times(size.Y).add(Vec{0, size.X / 2, 0}), ridge)
	return c.plane(across.times(-size.Y).add(Vec{0, size.X / 2, 0}), ridge)
}

// beam is a square timber of width w from a to b.
func beam(a, b Vec, w float64) *convex {
	run := b.sub(a)
	az := run.unit()
	up := Vec{0, 1, 0}
	if math.Abs(az.Y) > .9 {
		up = Vec{1, 0, 0}
	}
	ax := up.cross(az).unit()
	return slab(a.along(run, .5), Vec{w, w, run.length()}, ax, az.cross(ax), az)
}

// cone is an upright round shape, of radius r0 at its base p and r1 at height h.
type cone struct {
	p         Vec
	h, r0, r1 float64
}

func (c cone) bounds() (Vec, Vec) {
	r := math.Max(c.r0, c.r1)
	return c.p.sub(Vec{r, 0, r}), c.p.add(Vec{r, c.h, r})
}

// meet solves x² + z² = (r0 + ky)² for the wall, and takes the lid where that is nearer.
func (c cone) meet(o, d Vec) (float64, Vec) {
	best, normal := never, Vec{}
	q, k := o.sub(c.p), (c.r1-c.r0)/c.h
	r := c.r0 + k*q.Y
	A := d.X*d.X + d.Z*d.Z - k*k*d.Y*d.Y
	B := q.X*d.X + q.Z*d.Z - k*r*d.Y
	C := q.X*q.X + q.Z*q.Z - r*r
	if disc := B*B - A*C; disc > 0 && math.Abs(A) > 1e-12 {
		root := math.Sqrt(disc)
		for _, t := range [2]float64{(-B - root) / A, (-B + root) / A} {
			y := q.Y + t*d.Y
			if t > tooNear && t < best && y >= 0 && y <= c.h {
				at := q.along(d, t)
				best, normal = t, Vec{at.X, -k * (c.r0 + k*y), at.Z}.unit()
			}
		}
	}
	if t := (c.h - q.Y) / d.Y; t > tooNear && t < best {
		if at := q.along(d, t); at.X*at.X+at.Z*at.Z < c.r1*c.r1 {
			best, normal = t, Vec{0, 1, 0}
		}
	}
	return best, normal
}

// ball is an ellipsoid with half axes r, for foliage and lamps.
type ball struct{ p, r Vec }

func (b ball) bounds() (Vec, Vec) { return b.p.sub(b.r), b.p.add(b.r) }

func (b ball) meet(o, d Vec) (float64, Vec) {
	q := o.sub(b.p)
	q, d = Vec{q.X / b.r.X, q.Y / b.r.Y, q.Z / b.r.Z}, Vec{d.X / b.r.X, d.Y / b.r.Y, d.Z / b.r.Z}
	A, B, C := d.dot(d), q.dot(d), q.dot(q)-1
	disc := B*B - A*C
	if disc <= 0 {
		return never, Vec{}
	}
	root := math.Sqrt(disc)
	t := (-B - root) / A
	if t < tooNear {
		t = (-B + root) / A
	}
	if t < tooNear {
		return never, Vec{}
	}
	at := q.along(d, t)
	return t, Vec{at.X / b.r.X, at.Y / b.r.Y, at.Z / b.r.Z}.unit()
}

// floor is the endless level plane at height y.
type floor struct{ y float64 }

func (f floor) bounds() (Vec, Vec) { return Vec{-1e5, f.y, -1e5}, Vec{1e5, f.y, 1e5} }

func (f floor) meet(o, d Vec) (float64, Vec) {
	t := (f.y - o.Y) / d.Y
	if !(t > tooNear) || math.IsInf(t, 0) {
		return never, Vec{}
	}
	return t, Vec{0, math.Copysign(1, -d.Y), 0}
}
