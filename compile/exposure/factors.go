package exposure

import "math"

// FactorStops returns the stops of a filter or bellows factor: log2 f. A factor
// below 1 would brighten; it and anything not finite gives ok false. Published
// pairs of factor and stops are rounded (3 is printed beside 1⅔, log2 3 is 1.585),
// so a published factor is computed from, and stops only where stops were given.
func FactorStops(factor float64) (stops float64, ok bool) {
	if !positive(factor) || factor < 1 {
		return 0, false
	}
	return math.Log2(factor), true
}

// StopsFactor returns the factor by which stops lengthen a time: 2^stops.
func StopsFactor(stops float64) float64 { return math.Exp2(stops) }

// DensityStops returns the stops of a neutral density: d/log10 2, so that 0.3 is
// 0.997 stops. ok is false for a density that is negative or not finite.
func DensityStops(density float64) (stops float64, ok bool) {
	if density < 0 || math.IsNaN(density) || math.IsInf(density, 0) {
		return 0, false
	}
	return density / math.Log10(2), true
}

// Drawing the lens away from the film dims the image by the square of the
// distance: 2 log2(extension/focal length) stops, which is 2 log2(1+m) at
// magnification m. All four ways below are this one rule; they differ in what was
// noted. Lengths may be in any unit, the same for both.

// BellowsByExtension returns the stops for an extension measured from lens board
// to film. An extension shorter than the focal length owes nothing: it is the far
// distance measured roughly, or a telephoto lens without its flange distance.
func BellowsByExtension(extension, focal float64) (stops float64, ok bool) {
	return BellowsByFlange(extension, focal, focal)
}

// BellowsByFlange returns the stops for a telephoto lens, whose board stands
// nearer to the film than its focal length: m = (extension-flange)/focal, where
// flange is the extension at infinity.
func BellowsByFlange(extension, flange, focal float64) (stops float64, ok bool) {
	if !positive(extension) || !positive(flange) || !positive(focal) {
		return 0, false
	}
	return BellowsByMagnification(max(0, (extension-flange)/focal))
}

// BellowsByMagnification returns the stops at magnification m >= 0 (1:2 is 0.5).
func BellowsByMagnification(m float64) (stops float64, ok bool) {
	if m < 0 || math.IsNaN(m) || math.IsInf(m, 0) {
		return 0, false
	}
	return 2 * math.Log2(1+m), true
}

// BellowsByFocusDistance returns the stops for a subject at a distance from the
// lens, by the thin lens: m = f/(u-f). ok is false for a subject within the focal
// length, which no screen can show.
func BellowsByFocusDistance(distance, focal float64) (stops float64, ok bool) {
	if !positive(distance) || !positive(focal) || distance <= focal {
		return 0, false
	}
	return BellowsByMagnification(focal / (distance - focal))
}

// ExtensionFor returns the extension of a lens at magnification m: f(1+m).
func ExtensionFor(m, focal float64) float64 { return focal + float64(m*focal) }
