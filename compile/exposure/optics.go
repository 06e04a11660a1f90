package exposure

import "math"

// What the lens draws beside how bright it draws it. Lengths are in one unit of the
// caller's choice unless a comment names one.

// NeededCircle returns the diameter of the image circle that covers a frame whose
// lens is moved by shift along the width and rise along the height (either sign):
// the farthest corner stands twice as far out as it moved.
func NeededCircle(width, height, shift, rise float64) float64 {
	return math.Hypot(width+2*math.Abs(shift), height+2*math.Abs(rise))
}

// CircleAt returns the image circle of a lens at magnification m, from the one
// declared for infinity: it grows with the extension.
func CircleAt(m, atInfinity float64) float64 { return ExtensionFor(m, atInfinity) }

// Hyperfocal returns the distance beyond half of which all is sharp to a circle of
// confusion c at f-number n: f²/(N c), the focal length itself left out as the
// printed tables do.
func Hyperfocal(focal, n, c float64) float64 { return focal * focal / (n * c) }

// DepthOfField returns where sharpness begins and ends when a lens of hyperfocal
// distance h is focused at a distance; far is +Inf from h on.
func DepthOfField(h, distance float64) (near, far float64) {
	if distance >= h {
		return h * distance / (h + distance), math.Inf(1)
	}
	return h * distance / (h + distance), h * distance / (h - distance)
}

// SpreadFNumber returns the f-number at which defocus and diffraction balance for a
// focus spread in millimetres, the way the rear standard moves between the nearest
// and the farthest point: N = sqrt(375 D) (Q. T. Luong, "How to select the f-stop",
// after P. Hansma).
func SpreadFNumber(spreadMM float64) float64 { return math.Sqrt(375 * spreadMM) }

// AiryRadius returns the radius of the diffraction disk at f-number n for light of
// a wavelength: 1.22 λ N (Rayleigh), in the unit of the wavelength.
func AiryRadius(n, wavelength float64) float64 { return 1.22 * wavelength * n }
