package scan

import (
	"math"
	"sync"
)

// Averages are made in linear light: of a checkerboard of black and white half
// the light comes back, which sRGB writes as 188 and not as 128. Linear light
// is kept as a 16-bit number, 65535 for white, so that sums are whole numbers
// and come out the same on every machine.
//
// Every scan is taken to be written with the sRGB curve; profiles and gamma
// chunks are not read. The pictures are for recognising a sheet, and the curve
// of a grey scan differs little from it.

// srgbToLinear is the curve of IEC 61966-2-1:1999, 5.2: v and the result from
// 0 to 1.
func srgbToLinear(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// linearToSRGB is the inverse, same source, 5.3.
func linearToSRGB(l float64) float64 {
	if l <= 0.0031308 {
		return 12.92 * l
	}
	return 1.055*math.Pow(l, 1/2.4) - 0.055
}

// The tables, made when first needed: light of an 8-bit and of a 16-bit value,
// and the 8-bit and 16-bit value of a light.
var (
	light8 = sync.OnceValue(func() *[1 << 8]uint16 {
		var t [1 << 8]uint16
		for i := range t {
			t[i] = uint16(math.Round(0xffff * srgbToLinear(float64(i)/0xff)))
		}
		return &t
	})
	light16 = sync.OnceValue(func() *[1 << 16]uint16 {
		var t [1 << 16]uint16
		for i := range t {
			t[i] = uint16(math.Round(0xffff * srgbToLinear(float64(i)/0xffff)))
		}
		return &t
	})
	value8 = sync.OnceValue(func() *[1 << 16]uint8 {
		var t [1 << 16]uint8
		for i := range t {
			t[i] = uint8(math.Round(0xff * linearToSRGB(float64(i)/0xffff)))
		}
		return &t
	})
	value16 = sync.OnceValue(func() *[1 << 16]uint16 {
		var t [1 << 16]uint16
		for i := range t {
			t[i] = uint16(math.Round(0xffff * linearToSRGB(float64(i)/0xffff)))
		}
		return &t
	})
)
