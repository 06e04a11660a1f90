package exposure

import (
	"math"
	"strconv"
)

// How figures are written, for people. Nothing here is read back by the program,
// but everything can be typed into a notebook again and means the same.

// unknown is written for a figure that is no figure.
const unknown = "?"

// minus is the sign that stands level with digits; the hyphen does not.
const minus = "\u2212"

// spokenParts are the parts of a stop people say, each with the stretch around it
// that is said so. Quarters are heard, but only where they are meant exactly.
var spokenParts = [...]struct {
	value, margin float64
	glyph         string
}{
	{0, 1. / 20, ""}, {1. / 4, 1. / 50, "¼"}, {1. / 3, 1. / 20, "⅓"}, {1. / 2, 1. / 20, "½"},
	{2. / 3, 1. / 20, "⅔"}, {3. / 4, 1. / 50, "¾"},
}

// spokenSplit splits stops into whole stops and the spoken part past them: "⅓",
// or "+0.4" where no spoken part is near.
func spokenSplit(stops float64) (whole int, part string) {
	floor := math.Floor(Round(stops))
	rest := Round(stops - floor)
	for _, p := range spokenParts {
		if math.Abs(rest-p.value) <= p.margin+1e-9 {
			return int(floor), p.glyph
		}
	}
	if rest >= 0.95 {
		return int(floor) + 1, ""
	}
	return int(floor), "+" + strconv.FormatFloat(rest, 'f', 1, 64)
}

// FormatAmount writes a number of stops without its sign: "1⅓", "½", "0.4", "0".
func FormatAmount(stops float64) string {
	stops = math.Abs(stops)
	if !finite(stops) {
		return unknown
	}
	whole, part := spokenSplit(stops)
	switch {
	case part != "" && part[0] == '+':
		return strconv.FormatFloat(stops, 'f', 1, 64)
	case whole == 0 && part != "":
		return part
	}
	return strconv.Itoa(whole) + part
}

// FormatStops writes a difference in stops with its sign: "+1⅓", "−½", "0".
func FormatStops(stops float64) string {
	amount := FormatAmount(stops)
	if stops > 0 && amount != "0" {
		return "+" + amount
	}
	return signed(stops, amount)
}

// Third brings stops to the nearest third, as figures are quoted that are worth no more.
func Third(stops float64) float64 { return Round(math.Round(stops*3) / 3) }

// FormatEV writes an exposure value: "EV 11⅓", "EV −2½".
func FormatEV(ev float64) string { return "EV " + signed(ev, FormatAmount(ev)) }

// signed puts the minus before an amount that is negative and not written as 0.
func signed(x float64, amount string) string {
	if x < 0 && amount != "0" && amount != unknown {
		return minus + amount
	}
	return amount
}

// FormatFactor writes a factor to three figures: "×4", "×2.25", "×20.4".
func FormatFactor(factor float64) string {
	if !positive(factor) {
		return unknown
	}
	if factor >= 100 {
		return "×" + strconv.FormatFloat(factor, 'f', 0, 64)
	}
	return "×" + strconv.FormatFloat(factor, 'g', 3, 64)
}

// fullStops are the names of whole aperture values from f/1 on; 180 and up are
// found on pinholes.
var fullStops = [...]string{
	"1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64", "90", "128",
	"180", "256", "360", "512",
}

// FormatAperture writes an aperture value as the full stop and the part past it:
// "f/16", "f/16⅓", "f/5.6½", and in tenths "f/16+0.4". The plus keeps f/4+0.8
// apart from f/4.8, a mark of its own. Off the scale the number is written out.
func FormatAperture(av float64) string {
	if !finite(av) {
		return unknown
	}
	whole, part := spokenSplit(av)
	if whole < 0 || whole >= len(fullStops) {
		return "f/" + strconv.FormatFloat(FNumber(av), 'g', 2, 64)
	}
	return "f/" + fullStops[whole] + part
}

// oldSpeeds are the parts of a second engraved on older shutters, besides the
// marks of the series.
var oldSpeeds = [...]float64{5, 10, 25, 50, 75, 100, 150, 200, 300, 400}

// FormatTime writes a time as it is marked or counted: "1/30", "0.7 s", "2 s",
// "2.5 s", "20 s", "1m 30s", "1h 8m".
func FormatTime(seconds float64) string {
	switch {
	case !positive(seconds):
		return unknown
	case seconds < 0.995:
		return formatFraction(seconds)
	case seconds < 9.95:
		return trimmed(seconds) + " s"
	}
	whole := math.Round(seconds)
	switch {
	case whole < 60:
		return strconv.Itoa(int(whole)) + " s"
	case whole < 3600:
		return pair(int(whole)/60, "m", int(whole)%60, "s")
	case whole < 1e9:
		minutes := int(math.Round(whole / 60))
		return pair(minutes/60, "h", minutes%60, "m")
	}
	return strconv.FormatFloat(whole/86400, 'f', 0, 64) + " days"
}

// formatFraction writes a part of a second as the nearest speed printed anywhere,
// if one is within 1/20 stop, else as 1/n to two figures or tenths of a second.
func formatFraction(seconds float64) string {
	if den, off := nearestSpeed(seconds); off <= 1./20 {
		return speedName(den)
	}
	if seconds >= 0.3 {
		return trimmed(seconds) + " s"
	}
	n := 1 / seconds
	if n < 9.95 {
		return "1/" + trimmed(n)
	}
	step := math.Pow(10, math.Floor(math.Log10(n))-1)
	return "1/" + strconv.FormatFloat(math.Round(n/step)*step, 'f', 0, 64)
}

// nearestSpeed returns the printed denominator whose time is nearest to seconds and
// how many stops it is off: the series by its exact values, old speeds as printed.
func nearestSpeed(seconds float64) (den, best float64) {
	best = math.Inf(1)
	tv := Tv(seconds)
	for _, m := range timeMarks {
		if off := math.Abs(float64(m.sixths)/6 - tv); off < best {
			best, den = off, m.printed
		}
	}
	for _, d := range oldSpeeds {
		if off := math.Abs(math.Log2(d) - tv); off < best {
			best, den = off, d
		}
	}
	return den, best
}

// speedName writes a printed denominator, or its decimal where shutters and
// meters print one.
func speedName(den float64) string {
	tv, ok := lookUp(timeMarks, den)
	for _, d := range decimalMarks {
		if ok && float64(d.sixths)/6 == tv && den != math.Trunc(den) {
			return trimmed(d.printed) + " s"
		}
	}
	return "1/" + strconv.FormatFloat(den, 'f', -1, 64)
}

// trimmed writes one decimal, and none where it is 0.
func trimmed(x float64) string {
	return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
}

// pair writes two units, the second only where it is not 0: "1m 30s", "2m".
func pair(a int, unitA string, b int, unitB string) string {
	s := strconv.Itoa(a) + unitA
	if b != 0 {
		s += " " + strconv.Itoa(b) + unitB
	}
	return s
}

// finite reports whether x is a number within reason to print.
func finite(x float64) bool { return !math.IsNaN(x) && math.Abs(x) < 1e6 }

// InStops writes an amount with its noun, without its sign: "½ stop", "1 stop",
// "1⅓ stops".
func InStops(stops float64) string {
	amount := FormatAmount(stops)
	if math.Abs(stops) < 1 || amount == "1" {
		return amount + " stop"
	}
	return amount + " stops"
}

// OverUnder says a difference as it is spoken: "2 stops under", "⅔ stop over",
// and "none" where it rounds to nothing.
func OverUnder(stops float64) string {
	switch {
	case FormatAmount(stops) == "0":
		return "none"
	case stops < 0:
		return InStops(stops) + " under"
	}
	return InStops(stops) + " over"
}

// Between says a difference of which it is open how the film counts it, from the least to
// the most: "0 to 0.4 stop over". Where both are spoken alike it is one.
func Between(least, most float64) string {
	low, high := FormatAmount(least), FormatAmount(most)
	switch {
	case OverUnder(least) == OverUnder(most):
		return OverUnder(most)
	case low == "0":
		return "0 to " + OverUnder(most)
	case least < 0:
		return low + " under to " + OverUnder(most)
	}
	return low + " to " + high + OverUnder(most)[len(high):]
}

// AStop reports whether a difference is a stop or more as it is spoken: what
// rounds to one counts as one.
func AStop(stops float64) bool { return math.Abs(Round(stops)) >= 0.95 }
