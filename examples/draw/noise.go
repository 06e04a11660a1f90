package main

import "math"

// random is a small generator of our own (xorshift64*, Vigna 2016), so that the pictures never
// change with the standard library.
type random uint64

func seeded(s uint64) random { return random(scramble(s) | 1) }

// float is uniform in [0, 1).
func (r *random) float() float64 {
	x := uint64(*r)
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	*r = random(x)
	return float64((x*0x2545F4914F6CDD1D)>>11) / (1 << 53)
}

// between is uniform in [a, b).
func (r *random) between(a, b float64) float64 { return a + (b-a)*r.float() }

// bell is about normal, mean 0 and deviation 1: four uniforms added, no logarithm needed.
func (r *random) bell() float64 {
	return (r.float() + r.float() + r.float() + r.float() - 2) * 1.7320508
}

// scramble is the finisher of splitmix64: neighbouring inputs give unrelated outputs.
func scramble(x uint64) uint64 {
	x += 0x9E3779B97F4A7C15
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	return x ^ x>>31
}

// seedOf turns a name into a seed (FNV-1a).
func seedOf(name string) uint64 {
	h := uint64(14695981039346656037)
	for i := 0; i < len(name); i++ {
		h = (h ^ uint64(name[i])) * 1099511628211
	}
	return h
}

// lattice is the fixed random value, 0 to 1, of a point with whole coordinates.
func lattice(x, y, z int) float64 {
	return spot(uint32(x)*0x8da6b343 ^ uint32(y)*0xd8163841 ^ uint32(z)*0xcb1ab31f)
}

func spot(h uint32) float64 {
	h = (h ^ h>>15) * 0x2c1b3c6d
	h = (h ^ h>>12) * 0x297a2d39
	return float64(h^h>>15) / (1 << 32)
}

// noise is smooth value noise, 0 to 1, of unit wavelength. The products of lattice are taken
// once for each side, not for each corner.
func noise(x, y, z float64) float64 {
	fx, fy, fz := math.Floor(x), math.Floor(y), math.Floor(z)
	u, v, w := fade(x-fx), fade(y-fy), fade(z-fz)
	x0, y0, z0 := uint32(int(fx))*0x8da6b343, uint32(int(fy))*0xd8163841, uint32(int(fz))*0xcb1ab31f
	x1, y1, z1 := x0+0x8da6b343, y0+0xd8163841, z0+0xcb1ab31f
	front := lerp(lerp(spot(x0^y0^z0), spot(x1^y0^z0), u), lerp(spot(x0^y1^z0), spot(x1^y1^z0), u), v)
	back := lerp(lerp(spot(x0^y0^z1), spot(x1^y0^z1), u), lerp(spot(x0^y1^z1), spot(x1^y1^z1), u), v)
	return lerp(front, back, w)
}

// clouded is fractal noise (fBm): octaves of halving size and weight, 0 to 1, mean one half.
// The odd offsets keep the octaves' lattices apart, whose joints would show as a grid.
func clouded(x, y, z float64, octaves int) float64 {
	sum, weight, total := 0.0, 1.0, 0.0
	for n := 0; n < octaves; n++ {
		sum += weight * noise(x, y, z)
		total += weight
		weight *= .5
		x, y, z = x*2.03+17.1, y*2.03+31.7, z*2.03+5.3
	}
	return sum / total
}

func lerp(a, b, t float64) float64 { return a + (b-a)*t }

func fade(t float64) float64 { return t * t * t * (t*(t*6-15) + 10) }

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// step goes smoothly from 0 at a to 1 at b; a may be the larger.
func step(a, b, v float64) float64 {
	t := clamp((v-a)/(b-a), 0, 1)
	return t * t * (3 - 2*t)
}
