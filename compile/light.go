package compile

import (
	"fmt"
	"math"
	"strings"
	"time"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/lang/pattern"
)

// The light as stated, against the reading and against the sun.

// lightPlausible compares each scene's reading with the light that is stated.
func (s *season) lightPlausible() {
	seen := map[*reading]bool{}
	for _, sh := range s.sheets {
		if sh.light == "" || !sh.sum.hasBase || sh.reading == nil || seen[sh.reading] || sh.reading.kind == "sunny 16" || sh.sum.ei == 0 {
			continue
		}
		light, ok := lightState(sh.light)
		if !ok {
			continue
		}
		seen[sh.reading] = true
		if sh.reading.kind == "spot" {
			continue // a spot reads one area, not the light
		}
		shift, _ := exposure.SpeedShift(100, sh.sum.ei)
		if off := sh.sum.base + shift - light.EV100; math.Abs(off) >= 3 {
			s.report("light-implausible", sh.reading.at, fmt.Sprintf("the reading lies %s %s than %s", exposure.InStops(math.Abs(off)), brighter(off), light.Name), sh).
				note(fmt.Sprintf("%s is about %s at ISO 100 (%s)", light.Name, exposure.FormatEV(light.EV100), light.Source))
		}
	}
}

func brighter(v float64) string {
	if v > 0 {
		return "brighter"
	}
	return "darker"
}

// sunUp questions sun in the notes where there was none in the sky. It needs a
// whole date, a time of day and a place with coordinates. Which zone the
// writer's clock kept is not known, so every zone that is in use at such a
// longitude is tried, and only what none of them allows is questioned.
func (s *season) sunUp(sh *sheet) {
	o := sh.outing
	if sh.light == "" || sh.clock == "" || o.iso == "" || o.doubted {
		return
	}
	light, ok := lightState(sh.light)
	latitude, longitude, placed := coordinates(o.place)
	if !ok || !placed || !sunny(light) {
		return
	}
	at, err := time.Parse("2006-01-02 15:04", o.iso+" "+pad(sh.clock))
	if err != nil {
		return
	}
	best := math.Inf(-1)
	for shift := -2.; shift <= 3; shift++ {
		zone := time.Duration((math.Round(longitude/15) + shift) * float64(time.Hour))
		best = max(best, exposure.SunHeight(at.Add(-zone), latitude, longitude))
	}
	if best < -1 {
		s.report("sun-not-up", sh.at, fmt.Sprintf("%s is stated, but at %s the sun stood below the horizon", light.Name, sh.clock), sh).
			note(fmt.Sprintf("at most %.0f° on this day at %s", best, o.place), o.at)
	}
}

// sunny reports whether a light needs the sun above the horizon.
func sunny(l handbook.LightState) bool {
	return strings.Contains(l.Name, "sun") && !strings.Contains(l.Name, "no sun")
}

func pad(clock string) string {
	if len(clock) == 4 {
		return "0" + clock
	}
	return clock
}

var degreesPattern = pattern.Lazily(`(?i)(\d{1,2}(?:\.\d+)?)\s*°?\s*([NS])[\s,]+(\d{1,3}(?:\.\d+)?)\s*°?\s*([EW])`)

// coordinates reads a latitude and a longitude in degrees out of a place:
// "Aldermoor 52.1N 1.3W".
func coordinates(place string) (latitude, longitude float64, ok bool) {
	m := degreesPattern().FindStringSubmatch(place)
	if m == nil {
		return 0, 0, false
	}
	latitude, longitude = parseFloat(m[1]), parseFloat(m[3])
	if strings.EqualFold(m[2], "S") {
		latitude = -latitude
	}
	if strings.EqualFold(m[4], "W") {
		longitude = -longitude
	}
	return latitude, longitude, math.Abs(latitude) <= 90 && math.Abs(longitude) <= 180
}
