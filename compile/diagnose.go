package compile

import (
	"fmt"
	"math"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
)

// diagnose assumes that every sheet is assessed. For each sheet that is off it
// tries the mistakes that people make, each as a hypothesis with a predicted
// difference, and leaves the ones that fit. A cause is said to fit, never to be
// what happened; that none fits is an answer too.

// fitWithin is how near a prediction must come, in stops.
const fitWithin = 1. / 6

// cause is a hypothesis that fits a sheet.
type cause struct {
	slug string
	text string
}

// guess is what a hypothesis predicts for a sheet: the difference in stops, or
// that the settings themselves are the evidence.
type guess struct {
	stops float64
	sure  bool // the settings fit, whatever the difference
	text  string
}

// suspect is a sheet that is off, with its neighbours.
type suspect struct {
	*season
	*sheet
	before *sheet // the sheet before in the same scene
}

// hypothesis is a row of the table: a mistake and what it would do.
type hypothesis struct {
	slug  string
	title string
	tries func(s *suspect) []guess
}

// hypotheses stand simplest first; that is their rank.
var hypotheses = []hypothesis{
	{"meter-at-another-ei", "the reading was used as it stood, with the meter at another EI", (*suspect).meterStood},
	{"filter-not-compensated", "the filter was put on and nothing was given for it", (*suspect).notCompensated},
	{"filter-wrong-way", "the filter was compensated the wrong way", (*suspect).wrongWay},
	{"filter-left-in-settings", "the filter came off and its settings stayed", (*suspect).settingsStayed},
	{"setting-left-on", "the time or aperture of the sheet before stayed on the lens", (*suspect).leftOn},
	{"factor-as-stops", "the filter's factor was taken as stops, or its stops as a factor", (*suspect).factorAsStops},
	{"density-as-stops", "the filter's density was taken as stops", (*suspect).densityAsStops},
	{"bellows-forgotten", "nothing was given for the extension", (*suspect).bellowsForgotten},
	{"reciprocity-forgotten", "the time was not corrected for reciprocity", (*suspect).reciprocityForgotten},
	{"not-placed", "the reading was used without placing it", (*suspect).notPlaced},
	{"extension-kept", "the compensation of the extension before was kept", (*suspect).extensionKept},
	{"another-filter", "another filter's compensation was given", (*suspect).anotherFilter},
	{"counted-on", "counted on from the filter before, not from the bare reading", (*suspect).countedOn},
	{"fraction-lost", "a fraction of a stop was dropped or turned round", (*suspect).fractionLost},
	{"meter-left-at-ei", "the meter was left at another EI", (*suspect).meterLeft},
	{"reading-of-earlier-scene", "the reading of an earlier scene was used", (*suspect).earlierReading},
	{"bellows-wrong-way", "the extension was compensated the wrong way", (*suspect).bellowsWrongWay},
	{"one-stop", "one whole stop or speed", (*suspect).oneStop},
}

func (s *season) diagnose() {
	var before *sheet
	for _, sh := range s.sheets {
		if sh.sum.state == record.Off {
			sus := &suspect{season: s, sheet: sh}
			if before != nil && before.outing == sh.outing && before.scene == sh.scene {
				sus.before = before
			}
			sh.sum.causes = sus.causes()
			if sh.sum.habit && len(sh.sum.causes) == 0 {
				sh.sum.state = record.Right
			}
		}
		before = sh
	}
}

// causes is the first two hypotheses that fit. The last of the table explains
// too much to be worth saying beside another.
func (s *suspect) causes() []cause {
	var fits []cause
	for i, h := range hypotheses {
		if i == len(hypotheses)-1 && len(fits) > 0 {
			break
		}
		for _, g := range h.tries(s) {
			if g.sure || math.Abs(exposure.Round(g.stops-s.sum.diff)) <= fitWithin {
				fits = append(fits, cause{h.slug, g.text})
				break
			}
		}
		if len(fits) == 2 {
			break
		}
	}
	return fits
}

// costs is the filters of the sheet that cost something.
func (s *suspect) costs() []*use {
	return slices.DeleteFunc(slices.Clone(s.sum.owes), func(u *use) bool { return u.cost == nil || u.cost.stops < 1./6 || u.always })
}

func (s *suspect) meterStood() []guess {
	rd := s.reading
	if rd == nil || rd.ei == 0 || s.sum.ei == 0 {
		return nil
	}
	shift, _ := exposure.SpeedShift(s.sum.ei, rd.ei)
	if math.Abs(shift) < 1./6 {
		return nil
	}
	return []guess{{stops: shift, text: fmt.Sprintf("the reading at EI %s was used as it stood, for film at EI %s", trim(rd.ei), trim(s.sum.ei))}}
}

func (s *suspect) notCompensated() []guess {
	var all []guess
	sum := 0.
	for _, u := range s.costs() {
		sum += u.cost.stops
		all = append(all, guess{stops: -u.cost.stops, text: fmt.Sprintf("nothing was given for %s, which asks for %s", u.name, exposure.InStops(u.cost.stops))})
	}
	if len(all) > 1 {
		all = append(all, guess{stops: -sum, text: fmt.Sprintf("nothing was given for the filters, which ask for %s", exposure.InStops(sum))})
	}
	return all
}

func (s *suspect) wrongWay() []guess {
	var all []guess
	for _, u := range s.costs() {
		all = append(all, guess{stops: -2 * u.cost.stops,
			text: fmt.Sprintf("%s was compensated the wrong way: %s less instead of more", u.name, exposure.InStops(u.cost.stops))})
	}
	return all
}

// settingsStayed needs settings equal to those of the sheet before, which wore
// a filter that this one does not.
func (s *suspect) settingsStayed() []guess {
	if s.before == nil || !sameSettings(s.sheet, s.before) {
		return nil
	}
	var all []guess
	for _, u := range s.before.sum.owes {
		if u.cost != nil && !wears(s.sheet, u) {
			all = append(all, guess{stops: u.cost.stops,
				text: fmt.Sprintf("%s came off and the settings of %s stayed", u.name, s.before.label)})
		}
	}
	return all
}

func wears(sh *sheet, u *use) bool {
	for _, on := range sh.sum.owes {
		if on.name == u.name || on.number != "" && on.number == u.number {
			return true
		}
	}
	return false
}

// sameSettings reports whether two sheets got the same marked settings.
func sameSettings(a, b *sheet) bool { return sameAperture(a, b) && sameTime(a, b) }

func sameAperture(a, b *sheet) bool {
	return a.aperture.known && b.aperture.known && a.aperture.v == b.aperture.v
}

func sameTime(a, b *sheet) bool {
	if !a.time.known || !b.time.known {
		return false
	}
	x, ok := exposures(a.time.v)
	y, fine := exposures(b.time.v)
	return ok && fine && slices.Equal(x, y)
}

// leftOn needs one setting equal to that of the sheet before, which was right
// with it and asked for another exposure.
func (s *suspect) leftOn() []guess {
	p := s.before
	if p == nil || p.sum.state != record.Right || !p.sum.known || math.Abs(p.sum.asked-s.sum.asked) < 1./3 {
		return nil
	}
	time, aperture := sameTime(s.sheet, p), sameAperture(s.sheet, p)
	switch {
	case time && aperture:
		return []guess{{sure: len(s.costs()) == 0, stops: math.NaN(), text: fmt.Sprintf("the settings of %s stayed on the lens", p.label)}}
	case time:
		return []guess{{sure: true, text: fmt.Sprintf("the time of %s, %s, stayed on the shutter", p.label, givenTime(p.time.v))}}
	}
	return nil
}

func (s *suspect) factorAsStops() []guess {
	var all []guess
	for _, u := range s.costs() {
		factor := exposure.StopsFactor(u.cost.stops)
		all = append(all, guess{stops: factor - u.cost.stops,
			text: fmt.Sprintf("the factor %s of %s was given as %s stops", exposure.FormatFactor(factor), u.name, exposure.FormatAmount(factor))})
		if u.cost.stops > 1 {
			all = append(all, guess{stops: math.Log2(u.cost.stops) - u.cost.stops,
				text: fmt.Sprintf("the %s of %s were given as the factor %s", exposure.InStops(u.cost.stops), u.name, exposure.FormatFactor(u.cost.stops))})
		}
	}
	return all
}

// densityAsStops takes ND 1.8 as 1.8 stops.
func (s *suspect) densityAsStops() []guess {
	var all []guess
	for _, u := range s.costs() {
		density := u.cost.stops * math.Log10(2)
		if len(u.cost.detail) > 7 && u.cost.detail[:7] == "density" {
			all = append(all, guess{stops: density - u.cost.stops,
				text: fmt.Sprintf("the density %s of %s was given as stops; it is %s", trim(math.Round(density*100)/100), u.name, exposure.InStops(u.cost.stops))})
		}
	}
	return all
}

func (s *suspect) bellowsForgotten() []guess {
	if s.sum.bellows < 1./6 {
		return nil
	}
	return []guess{{stops: -s.sum.bellows, text: "nothing was given for the extension, which asks for " + exposure.InStops(s.sum.bellows)}}
}

func (s *suspect) bellowsWrongWay() []guess {
	if s.sum.bellows < 1./6 {
		return nil
	}
	return []guess{{stops: -2 * s.sum.bellows, text: "the extension was compensated the wrong way"}}
}

// reciprocityForgotten fits where the clock shows what the film should have had.
func (s *suspect) reciprocityForgotten() []guess {
	byClock := exposure.Difference(s.sum.asked, s.sum.clock)
	if math.Abs(byClock-s.sum.diff) < 1./6 || math.Abs(byClock) > fitWithin {
		return nil
	}
	return []guess{{sure: true, text: fmt.Sprintf("%s is the time before reciprocity; on film it was worth %s",
		exposure.FormatTime(s.sum.seconds), exposure.FormatTime(s.sum.onFilm))}}
}

func (s *suspect) notPlaced() []guess {
	var all []guess
	for _, a := range s.sum.fells {
		if !a.Meant.Known || a.Meant.Value == 5 {
			continue
		}
		name := a.Name
		if name == "" {
			name = "the reading"
		}
		off := 5 - a.Meant.Value
		all = append(all,
			guess{stops: off, text: fmt.Sprintf("%s was given as read and not placed on %s", name, exposure.Roman(a.Meant.Value))},
			guess{stops: 2 * off, text: fmt.Sprintf("%s was placed the wrong way", name)})
	}
	return all
}

func (s *suspect) extensionKept() []guess {
	if s.before == nil || s.before.sum.bellows == s.sum.bellows {
		return nil
	}
	return []guess{{stops: s.before.sum.bellows - s.sum.bellows, text: fmt.Sprintf("the compensation for the extension of %s was kept", s.before.label)}}
}

// anotherFilter tries the declared filters in place of the one on the lens.
func (s *suspect) anotherFilter() []guess {
	var all []guess
	for _, u := range s.costs() {
		for _, f := range s.kit.filters {
			if f.stops != nil && f != u.found {
				all = append(all, guess{stops: f.stops.stops - u.cost.stops,
					text: fmt.Sprintf("%s was compensated as if it were %s", u.name, f.name)})
			}
		}
	}
	return all
}

func (s *suspect) countedOn() []guess {
	if s.before == nil {
		return nil
	}
	var all []guess
	for _, u := range s.before.sum.owes {
		if u.cost != nil && u.cost.stops > 1./6 && !wears(s.sheet, u) {
			all = append(all, guess{stops: u.cost.stops,
				text: fmt.Sprintf("counted on from %s, whose %s is still in the settings", s.before.label, u.name)})
		}
	}
	return all
}

// fractionLost is a fraction of the aperture or of a filter left out.
func (s *suspect) fractionLost() []guess {
	var all []guess
	if p := s.aperture.v.Past; p != 0 {
		all = append(all, guess{stops: 2 * p, text: fmt.Sprintf("the %s of the aperture was turned the wrong way", exposure.FormatAmount(p))})
	}
	for _, u := range s.costs() {
		if f := u.cost.stops - math.Floor(u.cost.stops); f > 1./4 && f < 0.9 {
			all = append(all, guess{stops: -f, text: fmt.Sprintf("the %s of %s was dropped", exposure.FormatAmount(f), u.name)})
		}
	}
	return all
}

// meterLeft tries the other indices of the kit, and the box speed.
func (s *suspect) meterLeft() []guess {
	if s.reading == nil || s.reading.ei != 0 || s.sum.ei == 0 {
		return nil
	}
	var all []guess
	for _, ei := range s.indices() {
		shift, ok := exposure.SpeedShift(s.sum.ei, ei)
		if ok && math.Abs(shift) > 1./6 {
			all = append(all, guess{stops: shift, text: fmt.Sprintf("the meter stood at EI %s, not %s", trim(ei), trim(s.sum.ei))})
		}
	}
	return all
}

// indices is every exposure index that the kit knows.
func (s *season) indices() []float64 {
	var all []float64
	for _, f := range s.kit.films {
		all = append(all, f.ei, f.iso)
		for _, ei := range f.inLight {
			all = append(all, ei)
		}
	}
	slices.Sort(all)
	return slices.DeleteFunc(slices.Compact(all), func(v float64) bool { return v == 0 })
}

// earlierReading is the base of a scene before, on the same day.
func (s *suspect) earlierReading() []guess {
	var all []guess
	for i := s.index - 1; i >= 0 && s.sheets[i].outing == s.outing; i-- {
		other := s.sheets[i]
		if other.scene == s.scene || !other.sum.hasBase || other.reading == s.reading {
			continue
		}
		name := "an earlier scene"
		if other.scene != nil && other.scene.title != "" {
			name = quote(other.scene.title)
		}
		return []guess{{stops: exposure.Difference(s.sum.base, other.sum.base), text: "the reading of " + name + " was used"}}
	}
	return all
}

func (s *suspect) oneStop() []guess {
	return []guess{
		{stops: 1, text: "one whole stop or speed too much"},
		{stops: -1, text: "one whole stop or speed too little"},
	}
}

// givenTime is a sheet's time as people write it.
func givenTime(t lang.Time) string {
	text := ""
	for i, part := range t.Parts {
		if i > 0 {
			text += " + "
		}
		text += timeText(part)
	}
	switch {
	case t.Count != nil:
		text = trim(float64(*t.Count)) + " × " + text
	case t.Again != nil:
		text = trim(float64(*t.Again)) + " × " + text
	}
	if t.Bulb {
		text = "B " + text
	}
	return text
}
