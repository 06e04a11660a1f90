package compile

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/pattern"
)

// What the lens can cover. A rule speaks only where the notes give all that it
// needs: the format, the image circle and the movement.

// frames are the image sizes of sheet film, in millimetres, less what the
// holder's rails cover. 4x5 as measured on one holder (visns, "Half framing");
// the others are common practice, no source.
var frames = map[string][2]float64{
	"4x5": {94.5, 120}, "5x7": {120, 170}, "8x10": {194, 245}, "9x12cm": {83, 113}, "13x18cm": {122, 173}, "18x24cm": {173, 233},
}

// covered finds movements that lead out of the image circle. How the camera
// stood, upright or across, is not written, so both are tried, and only what
// neither allows is reported.
func (s *season) covered(sh *sheet) {
	if !sh.lens.known || !sh.camera.known || sh.lens.v.circle == 0 || len(sh.movements) == 0 {
		return
	}
	frame, ok := frames[strings.ReplaceAll(sh.camera.v.format, " ", "")]
	rise, shift, moved := moves(sh.movements)
	if !ok || !moved {
		return
	}
	circle := exposure.CircleAt(magnification(sh), sh.lens.v.circle)
	need := min(exposure.NeededCircle(frame[0], frame[1], shift, rise), exposure.NeededCircle(frame[1], frame[0], shift, rise))
	if need > circle+1 {
		s.report("beyond-image-circle", sh.at, fmt.Sprintf("%s leads out of the image circle of the %s", strings.Join(sh.movements, ", "), sh.lens.v.name), sh).
			note(fmt.Sprintf("it takes %.0f mm for %s; the lens is declared with %s mm%s", math.Ceil(need), sh.camera.v.format,
				trim(sh.lens.v.circle), grown(circle, sh.lens.v.circle)), sh.lens.v.at.Labels[0].Span)
	}
}

func grown(now, atInfinity float64) string {
	if now-atInfinity < 1 {
		return ""
	}
	return fmt.Sprintf(", %.0f mm at this extension", math.Floor(now))
}

// magnification of a sheet as far as its notes tell, else 0.
func magnification(sh *sheet) float64 {
	focal := sh.lens.v.focal
	switch {
	case sh.scale.known:
		return max(sh.scale.v, 0)
	case sh.extension.known && focal > 0:
		return max(sh.extension.v/focal-1, 0)
	case sh.focus.known && sh.focus.v > focal && focal > 0:
		return focal / (sh.focus.v - focal)
	}
	return 0
}

// wavelength of green light in millimetres, for which diffraction is told.
const wavelength = 550e-6

// sharpness is what the notes ask of depth of field, as facts and as the
// aperture value (Av) that it takes; none where they ask nothing or not enough.
func (sh *sheet) sharpness() (facts []record.Fact, takes float64, ok bool) {
	confusion := 0.
	if sh.camera.known {
		confusion = sh.camera.v.confusion
	}
	switch focal := sh.lens.v.focalOr0(); {
	case sh.spread > 0:
		takes, ok = exposure.Av(exposure.SpreadFNumber(sh.spread)), true
		facts = append(facts, fact("focus spread "+trim(exposure.Round(sh.spread))+" mm", "asks for "+exposure.FormatAperture(third(takes))))
	case sh.far > sh.near && sh.near > focal && focal > 0 && confusion > 0:
		// The hyperfocal distance at which the depth of field reaches from near to far:
		// 1/near - 1/far = 2/H.
		h := 2 * sh.near * sh.far / (sh.far - sh.near)
		takes, ok = exposure.Av(focal*focal/(confusion*h)), true
		facts = append(facts, fact("sharp from "+metres(sh.near)+" to "+metres(sh.far),
			fmt.Sprintf("asks for %s, focused at %s", exposure.FormatAperture(third(takes)), metres(2*sh.near*sh.far/(sh.near+sh.far)))))
	}
	if ok && confusion > 0 && sh.sum.av > 0 {
		blur := 2 * exposure.AiryRadius(exposure.FNumber(sh.sum.av), wavelength) * (1 + magnification(sh))
		facts = append(facts, fact("diffraction", fmt.Sprintf("a point is %.2f mm wide at %s; the circle of confusion is %s mm", blur, exposure.FormatAperture(sh.sum.av), trim(confusion))))
	}
	return facts, takes, ok
}

func (l *lens) focalOr0() float64 {
	if l == nil {
		return 0
	}
	return l.focal
}

// third is an aperture value to the third of a stop that a lens can be set to.
func third(av float64) float64 { return math.Round(3*av) / 3 }

func metres(mm float64) string { return trim(math.Round(mm/10)/100) + " m" }

// sharp notes an aperture that holds less than the notes ask to be sharp.
func (s *season) sharp(sh *sheet) {
	facts, takes, ok := sh.sharpness()
	if !ok || !sh.aperture.known || sh.sum.av == 0 || takes-sh.sum.av < 0.5 {
		return
	}
	s.report("depth-short", sh.aperture.at, fmt.Sprintf("%s holds less sharp than was asked for", exposure.FormatAperture(sh.sum.av)), sh).
		note(facts[0].Name + " " + facts[0].Value)
}

var movePattern = pattern.Lazily(`(?i)(front|rear)?\s*(rise|fall|shift)\s*(\d+(?:\.\d+)?)\s*(mm|cm|in)?\s*(front|rear)?`)

// moves adds up the parallel movements in millimetres. The rear moved down does
// what the front moved up does.
func moves(all []string) (rise, shift float64, ok bool) {
	for _, text := range all {
		m := movePattern().FindStringSubmatch(text)
		if m == nil {
			continue
		}
		v := parseFloat(m[3]) * map[string]float64{"": 1, "mm": 1, "cm": 10, "in": 25.4}[strings.ToLower(m[4])]
		rear := strings.EqualFold(m[1], "rear") || strings.EqualFold(m[5], "rear")
		switch kind := strings.ToLower(m[2]); {
		case kind == "shift":
			shift += v
		case (kind == "rise") != rear:
			rise += v
		default:
			rise -= v
		}
		ok = true
	}
	return rise, shift, ok
}
