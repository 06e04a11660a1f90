package main

import (
	"cmp"
	"math"
	"slices"
)

// grove is the tree of a scene's things, so that a ray is tried against the few it may meet:
// each knot holds the box around all below it, leaves hold up to three things.
type grove struct {
	corner      [2]Vec // lowest and highest
	axis        int    // across which the halves were split: x, z, y
	left, right *grove
	things      []*Thing
}

// plant makes the tree. The endless floor would swell every box it shares, so it stays out.
func plant(things []Thing) (tree *grove, ground []*Thing) {
	var all []*Thing
	for i := range things {
		if _, endless := things[i].Shape.(floor); endless {
			ground = append(ground, &things[i])
		} else {
			all = append(all, &things[i])
		}
	}
	return split(all), ground
}

// split halves the things across the longest side of the box around their middles.
func split(things []*Thing) *grove {
	lo, hi := Vec{never, never, never}, Vec{-never, -never, -never}
	for _, th := range things {
		low, high := th.Shape.bounds()
		lo = Vec{math.Min(lo.X, low.X), math.Min(lo.Y, low.Y), math.Min(lo.Z, low.Z)}
		hi = Vec{math.Max(hi.X, high.X), math.Max(hi.Y, high.Y), math.Max(hi.Z, high.Z)}
	}
	const skin = 1e-6 // so that a flat box is not missed by rounding
	g := &grove{corner: [2]Vec{lo.sub(Vec{skin, skin, skin}), hi.add(Vec{skin, skin, skin})}}
	// Fewer than four are tried one by one as quickly as a box.
	if len(things) <= 3 {
		g.things = things
		return g
	}
	axis := longest(things)
	// Stable, so that equal things keep the order they were built in, on every machine.
	slices.SortStableFunc(things, func(a, b *Thing) int { return cmp.Compare(middle(a, axis), middle(b, axis)) })
	g.axis = axis
	half := len(things) / 2
	g.left, g.right = split(things[:half:half]), split(things[half:])
	return g
}

func longest(things []*Thing) int {
	best, widest := 0, -1.0
	for axis := 0; axis < 3; axis++ {
		low, high := never, -never
		for _, th := range things {
			low, high = math.Min(low, middle(th, axis)), math.Max(high, middle(th, axis))
		}
		if high-low > widest {
			best, widest = axis, high-low
		}
	}
	return best
}

func middle(th *Thing, axis int) float64 {
	low, high := th.Shape.bounds()
	sum := low.add(high)
	return [3]float64{sum.X, sum.Z, sum.Y}[axis]
}

// ray is a line from o along d, with what the boxes need of it: its direction turned over,
// and for each axis which side of a box it meets first.
type ray struct {
	o, d, over Vec
	x, y, z    int
}

func aim(o, d Vec) ray {
	r := ray{o: o, d: d, over: Vec{1 / d.X, 1 / d.Y, 1 / d.Z}}
	if d.X < 0 {
		r.x = 1
	}
	if d.Y < 0 {
		r.y = 1
	}
	if d.Z < 0 {
		r.z = 1
	}
	return r
}

// entered tells whether a ray passes the box before limit (Williams and others 2005). This is
// where the program spends its time, hence no min and max, which must mind NaN.
func (g *grove) entered(r *ray, limit float64) bool {
	in, out := (g.corner[r.x].X-r.o.X)*r.over.X, (g.corner[1-r.x].X-r.o.X)*r.over.X
	if a, b := (g.corner[r.y].Y-r.o.Y)*r.over.Y, (g.corner[1-r.y].Y-r.o.Y)*r.over.Y; a > out || b < in {
		return false
	} else {
		if a > in {
			in = a
		}
		if b < out {
			out = b
		}
	}
	if a, b := (g.corner[r.z].Z-r.o.Z)*r.over.Z, (g.corner[1-r.z].Z-r.o.Z)*r.over.Z; a > out || b < in {
		return false
	} else {
		if a > in {
			in = a
		}
		if b < out {
			out = b
		}
	}
	return in < limit && out > 0
}

// first is the nearest thing a ray meets within limit.
func (s *Scene) first(o, d Vec, limit float64) (Point, *Thing) {
	best, found := Point{T: limit}, (*Thing)(nil)
	r := aim(o, d)
	for _, th := range s.ground {
		if at, ok := th.met(o, d, best.T); ok {
			best, found = at, th
		}
	}
	s.tree.seek(&r, &best, &found)
	return best, found
}

// blocked tells whether anything at all stands within limit; any will do, which is quicker.
func (s *Scene) blocked(o, d Vec, limit float64) bool {
	for _, th := range s.ground {
		if _, ok := th.met(o, d, limit); ok {
			return true
		}
	}
	r := aim(o, d)
	return s.tree.stops(&r, limit)
}

// seek goes down the nearer half first: what it finds there often spares the other.
func (g *grove) seek(r *ray, best *Point, found **Thing) {
	if !g.entered(r, best.T) {
		return
	}
	for _, th := range g.things {
		if at, ok := th.met(r.o, r.d, best.T); ok {
			*best, *found = at, th
		}
	}
	if g.left == nil {
		return
	}
	near, far := g.left, g.right
	if [3]float64{r.d.X, r.d.Z, r.d.Y}[g.axis] < 0 {
		near, far = far, near
	}
	near.seek(r, best, found)
	far.seek(r, best, found)
}

func (g *grove) stops(r *ray, limit float64) bool {
	if !g.entered(r, limit) {
		return false
	}
	for _, th := range g.things {
		if _, ok := th.met(r.o, r.d, limit); ok {
			return true
		}
	}
	return g.left != nil && (g.left.stops(r, limit) || g.right.stops(r, limit))
}

// met is where a ray meets a thing before limit. A hole is left behind by starting again just
// past it, a few times.
func (th *Thing) met(o, d Vec, limit float64) (Point, bool) {
	start, gone := o, 0.0
	for tries := 0; tries < 6; tries++ {
		t, n := th.Shape.meet(start, d)
		if gone+t >= limit {
			break
		}
		at := start.along(d, t)
		if th.Hole == nil || !th.Hole(at, d) {
			return Point{at, n, d, gone + t}, true
		}
		start, gone = at.along(d, tooNear), gone+t+tooNear
	}
	return Point{}, false
}
