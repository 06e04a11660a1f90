package main

import (
	"math"
	"sync"
)

// Skin gives a thing its surface where a ray has met it.
type Skin func(at Point) Surface

// Point is where a ray met a thing: place, outward normal, direction of the ray, distance.
type Point struct {
	P, N, D Vec
	T       float64
}

// Surface is what a skin makes of a point. Mirror is the share reflected as by a mirror.
type Surface struct {
	Reflect Bands
	N       Vec
	Mirror  float64
	Glow    Bands // light of its own
}

// Thing is a shape with a skin. Hole, where set, tells the places that let the ray through:
// arches, leaves with sky between them.
type Thing struct {
	Shape Shape
	Skin  Skin
	Hole  func(p, d Vec) bool
}

// Lamp is a rectangle that lights the scene: a window, a lamp. Light falls with distance
// squared, Power being bands at one metre, straight on.
type Lamp struct {
	Mid, A, B Vec // A and B reach from the middle to two edges
	Power     Bands
}

// Camera is a view camera kept level, so that verticals stay parallel; what a tilt would do is
// done by Rise. Wide is the width of the frame at one metre, Rise the upward shift in the same
// measure. Blur is the radius of the lens in metres, sharp at Focus.
type Camera struct {
	Eye         Vec
	Heading     float64 // radians, towards +x
	Wide, Rise  float64
	Blur, Focus float64
	Portrait    bool
}

// Scene is everything in front of the camera.
type Scene struct {
	Camera    Camera
	Things    []Thing
	Sun       Vec   // towards the sun
	SunLight  Bands // on a card facing it
	SunSize   float64
	Sky       func(d Vec) Bands
	Fill      Bands   // light of the whole sky on a level card
	Reach     float64 // metres after which things no longer shade each other
	Lamps     []Lamp
	Haze      float64 // share of the distance light lost in a metre
	HazeLight Bands
	Tungsten  bool
	Heaven    *heaven // behind Sky, where the polarizer can darken it
	glare     float64 // share of reflections the polarizer takes
	Paint     func(*Canvas)
	tree      *grove
	ground    []*Thing
}

// add puts things of one skin into the scene.
func (s *Scene) add(skin Skin, shapes ...Shape) {
	for _, sh := range shapes {
		s.Things = append(s.Things, Thing{Shape: sh, Skin: skin})
	}
}

// addHoled puts one thing with holes into the scene.
func (s *Scene) addHoled(skin Skin, hole func(p, d Vec) bool, shape Shape) {
	s.add(skin, shape)
	s.Things[len(s.Things)-1].Hole = hole
}

// polarise puts a polarizer before the scene, turned for the darkest sky and the least glare.
// It acts on the direction of light, so no colour table can stand for it.
func (s *Scene) polarise() {
	s.glare = .72
	if s.Heaven != nil {
		s.Heaven.Zenith -= 1.1
	}
}

// light is what comes back along a ray, and how far away it started.
func (s *Scene) light(o, d Vec, r *random, depth int) (Bands, float64) {
	at, th := s.first(o, d, 1e5)
	if th == nil {
		return s.Sky(d), 1e5
	}
	// From inside a thing, as under a roof with holes, its faces look inwards.
	if at.N.dot(d) > 0 {
		at.N = at.N.times(-1)
	}
	surf := th.Skin(at)
	b := surf.Glow
	if surf.Mirror < 1 {
		b = b.add(surf.Reflect.mul(s.falling(at, surf.N, r)).times(1 - surf.Mirror))
	}
	if surf.Mirror > 0 && depth > 0 {
		m := d.along(surf.N, -2*d.dot(surf.N)).unit()
		m.Y = math.Max(m.Y, .001) // water shows no light from under itself
		back, _ := s.light(at.P, m, r, depth-1)
		b = b.add(back.times(surf.Mirror * (1 - s.glare)))
	}
	if s.Haze > 0 {
		b = b.mix(s.HazeLight, 1-math.Exp(-s.Haze*at.T))
	}
	return b, at.T
}

// falling is the light on a surface: sun, sky as far as it is open, lamps.
func (s *Scene) falling(at Point, n Vec, r *random) Bands {
	sum := s.Fill.times((.55 + .45*n.Y) * s.open(at.P, n, r))
	if c := n.dot(s.Sun); c > 0 && s.SunLight[1] > 0 {
		to := s.Sun.add(scatter(r).times(s.SunSize)).unit()
		if !s.blocked(at.P.along(n, tooNear), to, 1e4) {
			sum = sum.add(s.SunLight.times(c))
		}
	}
	for i := range s.Lamps {
		sum = sum.add(s.Lamps[i].reach(s, at.P, n, r))
	}
	return sum
}

// open is the share of sky a point sees, judged by one random ray: near things shut out more
// than far ones, and even a closed corner gets a little from its walls.
func (s *Scene) open(p, n Vec, r *random) float64 {
	to := n.add(scatter(r)).unit()
	at, hit := s.first(p.along(n, tooNear), to, s.Reach)
	if hit == nil {
		return 1
	}
	return .10 + .90*step(0, 1, at.T/s.Reach)
}

// reach is the light of a lamp on a point, from one random place on it.
func (l *Lamp) reach(s *Scene, p, n Vec, r *random) Bands {
	from := l.Mid.along(l.A, r.between(-1, 1)).along(l.B, r.between(-1, 1))
	to := from.sub(p)
	dist := to.length()
	to = to.times(1 / dist)
	c := n.dot(to)
	face := math.Abs(l.A.cross(l.B).unit().dot(to))
	if c <= 0 {
		return Bands{}
	}
	if s.blocked(p.along(n, tooNear), to, dist-.02) {
		return Bands{}
	}
	return l.Power.times(c * face / (dist*dist + .05))
}

// scatter is a random point on the unit sphere.
func scatter(r *random) Vec {
	z, a := r.between(-1, 1), r.between(0, 2*math.Pi)
	s, c := math.Sincos(a)
	k := math.Sqrt(1 - z*z)
	return Vec{k * c, z, k * s}
}

// View is a scene as light on the film plane, row by row from the top left. It is kept apart
// from any film, filter and exposure, because many sheets are made of one scene.
type View struct {
	W, H  int
	Light []Bands
	Depth []float64 // metres
	scene *Scene
}

// look renders a scene. Every pixel has a generator of its own, so that the division of the
// work among processors leaves no trace in the picture.
func look(s *Scene, long, short int) *View {
	v := &View{W: long, H: short, scene: s}
	s.tree, s.ground = plant(s.Things)
	if s.Camera.Portrait {
		v.W, v.H = short, long
	}
	v.Light, v.Depth = make([]Bands, v.W*v.H), make([]float64, v.W*v.H)
	var rows sync.WaitGroup
	const bands = 8
	for b := 0; b < bands; b++ {
		rows.Add(1)
		go func() {
			defer rows.Done()
			for y := b; y < v.H; y += bands {
				v.row(y)
			}
		}()
	}
	rows.Wait()
	if s.Paint != nil {
		s.Paint(&Canvas{View: v})
	}
	v.Depth = nil // only strokes ask for it, and views are kept
	return v
}

func (v *View) row(y int) {
	for x := 0; x < v.W; x++ {
		i := y*v.W + x
		r := seeded(uint64(i))
		v.Light[i], v.Depth[i] = v.pixel(float64(x), float64(y), &r)
	}
}

// cells are the parts of a pixel that are asked, of nine: corners first, so that the first four
// already tell whether the pixel is even. Seven are enough under the grain of the film.
var cells = [7][2]float64{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {1, 1}, {0, 1}, {2, 1}}

// pixel is the light of one pixel and the mean depth. Even ones, most of the sky, are done
// after four rays.
func (v *View) pixel(x, y float64, r *random) (Bands, float64) {
	var sum Bands
	depth, least, most := 0.0, never, 0.0
	for k, cell := range cells {
		if k == 4 && most-least < .03*sum[1]/4 {
			return sum.times(1. / 4), depth / 4
		}
		px, py := x+(cell[0]+r.float())/3, y+(cell[1]+r.float())/3
		o, d := v.scene.Camera.ray(px/float64(v.W)-.5, (.5*float64(v.H)-py)/float64(v.W), r)
		b, t := v.scene.light(o, d, r, 2)
		b = tamed(b)
		sum, depth = sum.add(b), depth+t
		least, most = math.Min(least, b[1]), math.Max(most, b[1])
	}
	return sum.times(1. / float64(len(cells))), depth / float64(len(cells))
}

// tamed keeps one chance ray into a lamp from leaving a white speck.
func tamed(b Bands) Bands {
	if b[1] > 24 {
		return b.times(24 / b[1])
	}
	return b
}

// ray is the ray of a place on the frame, in parts of its width from the middle.
func (c *Camera) ray(x, y float64, r *random) (o, d Vec) {
	d = Vec{x * c.Wide, y*c.Wide + c.Rise, 1}
	if c.Blur > 0 {
		a, k := r.between(0, 2*math.Pi), c.Blur*math.Sqrt(r.float())
		s, cs := math.Sincos(a)
		o = Vec{k * cs, k * s, 0}
		d = d.times(c.Focus).sub(o)
	}
	return c.Eye.add(o.turned(-c.Heading)), d.unit().turned(-c.Heading)
}

// place is the reverse: where a point in space falls on the view, in pixels, and its depth.
func (v *View) place(p Vec) (x, y, depth float64) {
	c := &v.scene.Camera
	q := p.sub(c.Eye).turned(c.Heading)
	fx, fy := q.X/q.Z/c.Wide, (q.Y/q.Z-c.Rise)/c.Wide
	return (fx + .5) * float64(v.W), .5*float64(v.H) - fy*float64(v.W), q.Z
}
