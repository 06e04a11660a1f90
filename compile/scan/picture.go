package scan

import (
	"image"
	"math"
)

// picture gathers the lines of a reduced image as sRGB values, in the form in
// which they will be written: one byte a pixel for grey, four for colour. Of a
// negative it keeps 16 bits of each value until its levels are known: a scan that
// holds the film's whole range may use a tenth of its own.
type picture struct {
	channels, w, h int
	negative       bool
	tones          []uint8
	deep           []uint16 // of a negative, channels interleaved
}

func newPicture(channels, w, h int, negative bool) *picture {
	p := &picture{channels: channels, w: w, h: h, negative: negative}
	if negative {
		p.deep = make([]uint16, 0, w*h*channels)
	} else {
		p.tones = make([]uint8, 0, w*h*p.bytes())
	}
	return p
}

// bytes is what a pixel takes.
func (p *picture) bytes() int {
	if p.channels == 1 {
		return 1
	}
	return 4
}

// take implements sink.
func (p *picture) take(light []uint16) {
	table := value8()
	switch {
	case p.negative:
		for _, l := range light {
			p.deep = append(p.deep, value16()[l])
		}
	case p.channels == 1:
		for _, l := range light {
			p.tones = append(p.tones, table[l])
		}
	default:
		for ; len(light) >= 3; light = light[3:] {
			p.tones = append(p.tones, table[light[0]], table[light[1]], table[light[2]], 0xff)
		}
	}
}

// turned is the picture as it is shown: upright as stored without a copy.
func (p *picture) turned(o orientation, width, height int) image.Image {
	tones, n := p.tones, p.bytes()
	if o != upright {
		tones = make([]uint8, 0, len(p.tones))
		for y := range height {
			for x := range width {
				sx, sy := o.source(x, y, p.w, p.h)
				tones = append(tones, p.tones[(sy*p.w+sx)*n:][:n]...)
			}
		}
	}
	rect := image.Rect(0, 0, width, height)
	if n == 1 {
		return &image.Gray{Pix: tones, Stride: width, Rect: rect}
	}
	return &image.RGBA{Pix: tones, Stride: 4 * width, Rect: rect}
}

// A negative is shown as a positive by one rule, the same for every scan: the
// tones are turned over, and what lies between the darkest and the lightest of
// them fills the range. A hundredth at either end is left out of account, for
// dust, the rebate and the holder's edge. Each channel has its own levels, which
// also takes the colour of the base away. So tones can be told apart in every
// scan; how dense a negative is, as against another, cannot be seen.

// levels are the ends of the range of each channel, as 16-bit sRGB values.
type levels [3]struct{ low, high uint16 }

// leftOut is the share of the pixels at either end, one in so many.
const leftOut = 100

// findLevels measures the picture that holds the most pixels, so that the small
// one shows the same tones.
func findLevels(p *picture) (l levels) {
	for c := range p.channels {
		var counts [1 << 16]int
		for i := c; i < len(p.deep); i += p.channels {
			counts[p.deep[i]]++
		}
		spare := p.w * p.h / leftOut
		l[c].low = uint16(firstBeyond(spare, func(i int) int { return counts[i] }))
		l[c].high = uint16(math.MaxUint16 - firstBeyond(spare, func(i int) int { return counts[math.MaxUint16-i] }))
	}
	return l
}

// firstBeyond gives the first value at which the counts come to more than n.
func firstBeyond(n int, count func(int) int) int {
	for i := range 1 << 16 {
		if n -= count(i); n < 0 {
			return i
		}
	}
	return 0
}

// invert makes the tones of the positive. Where all is one tone, it is turned
// over as it is.
func (p *picture) invert(l levels) {
	p.tones = make([]uint8, 0, p.w*p.h*p.bytes())
	for i, v := range p.deep {
		c := i % p.channels
		low, high := int(l[c].low), int(l[c].high)
		if high <= low {
			low, high = 0, math.MaxUint16
		}
		spread := high - low
		p.tones = append(p.tones, uint8((max(0, min(spread, high-int(v)))*0xff+spread/2)/spread))
		if c == 2 {
			p.tones = append(p.tones, 0xff)
		}
	}
	p.deep = nil
}
