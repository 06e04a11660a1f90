package compile_test

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// A 4x5 holder leaves 94.5 x 120 mm free (measured on one holder: visns, "Half
// framing"), so that 20 mm of rise on an upright frame takes hypot(94.5, 160) mm,
// and 20 mm on one across takes hypot(120, 134.5): the smaller counts.
func TestImageCircleIsOfTheFreeFrame(t *testing.T) {
	need := min(math.Hypot(94.5, 160), math.Hypot(120, 134.5))
	for _, c := range []struct {
		circle float64
		fits   bool
	}{{need + 0.5, true}, {need - 2, false}} {
		kit := strings.Replace(checksKit, "circle 250 mm", "circle "+strconv.FormatFloat(c.circle, 'f', 1, 64)+" mm", 1)
		_, list := compileText(kit + "1A: slate, rise 20 mm, metered 1/60 f16, 1/60 f16\n")
		if _, beyond := codes(list)["beyond-image-circle"]; beyond == c.fits {
			t.Errorf("a circle of %g mm: %v", c.circle, list)
		}
	}
}
