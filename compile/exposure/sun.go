package exposure

import (
	"math"
	"time"
)

// SunHeight returns the sun's true height above the horizon in degrees, without
// refraction, at a moment and a place: latitude north and longitude east in
// degrees. It is NOAA's solar calculator (after J. Meeus, "Astronomical
// Algorithms", chapter 25, low accuracy), good to a few hundredths of a degree
// between 1900 and 2100.
func SunHeight(at time.Time, latitude, longitude float64) float64 {
	days := at.Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
	century := days / 36525
	declination, equation := sunPlace(century)
	minutes := math.Mod(days+0.5, 1) * 1440 // of the day, UTC
	if minutes < 0 {
		minutes += 1440
	}
	solar := minutes + equation + 4*longitude // true solar time
	hour := radians(solar/4 - 180)
	lat := radians(latitude)
	return degrees(math.Asin(math.Sin(lat)*math.Sin(declination) + math.Cos(lat)*math.Cos(declination)*math.Cos(hour)))
}

// sunPlace returns the sun's declination in radians and the equation of time in
// minutes, for Julian centuries since 2000.
func sunPlace(t float64) (declination, equation float64) {
	mean := radians(math.Mod(280.46646+t*(36000.76983+t*0.0003032), 360))
	anomaly := radians(357.52911 + t*(35999.05029-0.0001537*t))
	eccentricity := 0.016708634 - t*(0.000042037+0.0000001267*t)
	center := math.Sin(anomaly)*(1.914602-t*(0.004817+0.000014*t)) +
		math.Sin(2*anomaly)*(0.019993-0.000101*t) + math.Sin(3*anomaly)*0.000289
	node := radians(125.04 - 1934.136*t)
	longitude := mean + radians(center-0.00569-0.00478*math.Sin(node))
	obliquity := radians(23 + (26+(21.448-t*(46.815+t*(0.00059-t*0.001813)))/60)/60 + 0.00256*math.Cos(node))
	declination = math.Asin(math.Sin(obliquity) * math.Sin(longitude))
	y := math.Pow(math.Tan(obliquity/2), 2)
	e := y*math.Sin(2*mean) - 2*eccentricity*math.Sin(anomaly) + 4*eccentricity*y*math.Sin(anomaly)*math.Cos(2*mean) -
		0.5*y*y*math.Sin(4*mean) - 1.25*eccentricity*eccentricity*math.Sin(2*anomaly)
	return declination, 4 * degrees(e)
}

func radians(d float64) float64 { return d * math.Pi / 180 }
func degrees(r float64) float64 { return r * 180 / math.Pi }
