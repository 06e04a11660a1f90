package slip

import (
	"fmt"
	"math"
	"strings"
	"time"

	"notchbook/compile/exposure"
)

// kit stands above every example.
const kit = `film slate: ISO 400, EI 200, pan, reciprocity t^1.31 over 1s
filter Y8: x2
filter O21: x4
filter R25: x8
filter pol: 1½ stops
lens 210: 210 mm
meter spot: EV at EI
day: 2026-11-07
scene: the gate
`

// table holds the hypotheses. The order is that of the subjects; which comes
// first in a diagnosis is said by Plain and the evidence.
var table []Hypothesis

func init() {
	table = []Hypothesis{
		{"filter-not-compensated", "a filter was put on and nothing was given for it", "what the filter costs", 1,
			kit + "meter: 1/60 f16\n3A: R25, 1/60 f16\n", notCompensated},
		{"bellows-forgotten", "nothing was given for the extension", "extension and focal length", 1,
			kit + "meter: 1/60 f16\n3A: ext 360mm, 1/60 f16\n", bellowsForgotten},
		{"reciprocity-forgotten", "a long time was not corrected for reciprocity", "the film's rule", 1,
			kit + "meter: 8s f16\n3A: 8s f16\n", reciprocityForgotten},
		{"value-for-another", "a filter's value for another film or light was given", "the filter's values", 3,
			kit + "film plate: ISO 25, EI 25, ortho\nfilter Y15: x2.5, ortho x5\nmeter: 1/15 f16\n3A: film plate, Y15, 1/8 f11⅔\n", otherValue},
		{"not-placed", "a reading was given as read and not placed on its zone", "the zone it was placed on", 1,
			kit + "meter: gate EV 9 on III\n3A: 1/2 f16\n", notPlaced},
		{"reading-as-it-stood", "the reading was given as it stood, nothing added for what is before the film or for a long time", "the reading", 1,
			kit + "meter: 2s f16\n3A: ext 360mm, 2s f16\n", asItStood},
		{"meter-at-another-ei", "a reading at another EI was used as it stood", "the EI that the meter stood at", 1,
			kit + "meter: 1/60 f16 at EI 50\n3A: 1/60 f16\n", meterAtAnother},
		{"wrong-way", "a filter or the extension was compensated the wrong way", "what it costs", 2,
			kit + "meter: 1/30 f16\n3A: R25, 1/250 f16\n", wrongWay},
		{"settings-left", "the filter came off, or the extension went back, and the settings stayed", "the sheet before", 2,
			kit + "meter: 1/60 f16\n3A: R25, 1/8 f16\n3B: no filter, 1/8 f16\n", settingsLeft},
		{"time-left-on", "the time of the sheet before stayed on the shutter", "the sheet before", 3,
			kit + "meter: 1/60 f16\n3A: R25, 1/8 f16\n3B: no filter, 1/8 f22\n", timeLeft},
		{"aperture-left-on", "the aperture of the sheet before stayed on the lens", "the sheet before", 5,
			kit + "meter: 1/60 f16\n3A: 1/15 f32\n3B: 1/60 f32\n", apertureLeft},
		{"factor-as-stops", "a factor was given as stops", "the filter's factor", 3,
			kit + "meter: 1/125 f16\n3A: O21, 1/8 f16\n", factorAsStops},
		{"stops-as-factor", "stops were given as a factor", "what the filter costs", 3,
			kit + "filter nd: 4 stops\nmeter: 1/125 f16\n3A: nd, 1/30 f16\n", stopsAsFactor},
		{"density-as-stops", "a density was given as stops", "the filter's density", 2,
			kit + "meter: 1/30 f16\n3A: ND 1.8, 1/15 f11⅓\n", densityAsStops},
		{"placed-wrong-way", "a reading was placed the wrong way", "the zone it was placed on", 2,
			kit + "meter: gate EV 9 on III\n3A: 1s f11\n", placedWrongWay},
		{"reciprocity-too-early", "reciprocity was applied before filter or bellows", "the film's rule", 4,
			kit + "film slow: ISO 100, EI 50, reciprocity t^1.6 over 1s\nmeter: 2s f16\n3A: film slow, R25, 24s f16\n", reciprocityTooEarly},
		{"reciprocity-twice", "a time was corrected for reciprocity twice", "the film's rule", 5,
			kit + "film slow: ISO 100, EI 50, reciprocity t^1.6 over 1s\nmeter: 4s f16\n3A: film slow, 34s f16\n", reciprocityTwice},
		{"each-in-full", "each of several exposures on a sheet was given in full", "how many there were", 2,
			kit + "meter: 8s f16\n3A: 3 x 15s f16\n", eachInFull},
		{"rule-of-another-film", "a time was corrected for reciprocity by another film's rule", "the kit's rules", 5,
			kit + "film slow: ISO 100, EI 50, reciprocity t^1.6 over 1s\nmeter: 8s f16\n3A: film slow, 15s f16\n", otherRule},
		{"extension-of-another-lens", "the extension was compensated as for another lens", "the lenses of the sheets before", 5,
			kit + "lens 150: 150 mm\nmeter: 1/60 f16\n2A: lens 150, 1/60 f16\n3A: ext 360mm, lens 210, 1/15 f11½\n", otherLens},
		{"another-filter", "another filter's compensation was given", "the kit's filters", 5,
			kit + "meter: 1/60 f16\n3A: R25, 1/15 f16\n", anotherFilter},
		{"extension-kept", "the compensation of an earlier extension was kept", "the sheet before", 4,
			kit + "meter: 1/60 f16\n3A: ext 300mm, 1/30 f16\n3B: ext 420mm, 1/30 f16\n", extensionKept},
		{"counted-on", "counted on from the sheet before, whose filter was still in the settings", "the sheet before", 4,
			kit + "meter: 1/60 f16\n3A: Y8, 1/30 f16\n3B: R25, 1/4 f16\n", countedOn},
		{"fraction-lost", "a fraction of a stop was dropped", "the fraction", 4,
			kit + "filter G11: 1½ stops\nmeter: 1/60 f16\n3A: G11, 1/30 f16\n", fractionLost},
		{"fraction-wrong-way", "a fraction of a stop on the aperture was turned the wrong way", "the aperture as marked", 5,
			kit + "meter: 1/60 f11½\n3A: 1/60 f16½\n", fractionWrongWay},
		{"meter-left-at-ei", "the meter was left at another EI", "the kit's indices", 5,
			kit + "film plate: EI 25\nmeter: EV 12\n3A: film slate, 1/2 f16\n", meterLeft},
		{"another-index", "it was reckoned at another EI", "the kit's indices", 5,
			strings.Replace(kit, "EV at EI", "EV at 100", 1) + "film plate: EI 25\nmeter: EV 11\n3A: film slate, 1/2 f16\n", anotherIndex},
		{"wrong-zone", "a reading was placed on another zone", "the zone it was placed on", 5,
			kit + "meter: gate EV 9 on III\n3A: 1/4 f16\n", wrongZone},
		{"earlier-reading", "the reading of an earlier scene was used", "the scenes before", 5,
			kit + "meter: 1/60 f16\n3A: 1/60 f16\nscene: the barn\nmeter: 1/4 f16\n3B: 1/60 f16\n", earlierReading},
		{"tested-speed-forgotten", "the tested speed of the shutter was not allowed for", "the tested speed", 2,
			kit + "lens 300: 300 mm, tested 1/60=1/30\nmeter: 1/60 f16\n3A: lens 300, 1/60 f16\n", testedForgotten},
		{"bracket-forgotten", "nothing was given for the bracket", "the bracket", 2,
			kit + "meter: 1/60 f16\n3A: 1/60 f16, bracket +1\n", bracketForgotten},
		{"bracket-wrong-way", "the bracket was turned the wrong way", "the bracket", 3,
			kit + "meter: 1/60 f16\n3A: 1/125 f16, bracket +1\n", bracketWrongWay},
		{"compensated-twice", "a filter was compensated twice", "what it costs", 4,
			kit + "meter: 1/60 f16\n3A: O21, 1/4 f16\n", compensatedTwice},
		{"filter-not-written", "a filter stayed on the lens, was allowed for, and is not written", "the sheets before in the scene", 6,
			kit + "meter: 1/60 f16\n3A: R25, 1/8 f16\n3B: no filter, 1/8 f16\n4A: no filter, 1/15 f11\n4B: no filter, 1/30 f8\n5A: no filter, ½ f32\n", filterNotWritten},
		{"one-stop", "one whole stop or speed", "nothing", 7,
			kit + "meter: 1/60 f16\n3A: 1/30 f16\n", oneStop},
		{"time-miswritten", "a figure too many or too few, or another unit, was written for the time", "the time as written", lastOfAll,
			kit + "meter: 1/30 f16\n3A: 1/300 f16\n", timeMiswritten},
	}
}

func notCompensated(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		all = append(all, Guess{Stops: -f.Stops, Of: []Filter{f}, Evidence: c.settingsKept(), Text: fmt.Sprintf("nothing was given for %s, which asks for %s", f.Name, exposure.InStops(f.Stops))})
	}
	if sum := c.throughFilters(); len(all) > 1 {
		all = append(all, Guess{Stops: -sum, Evidence: c.settingsKept(), Text: fmt.Sprintf("nothing was given for the filters, which ask for %s", exposure.InStops(sum))})
	}
	return worth(all)
}

// settingsKept is evidence: the settings are those of a sheet before.
func (c *Case) settingsKept() float64 {
	for _, e := range c.Earlier {
		if e.SameScene && e.SameAperture && e.SameTime {
			return 0.5
		}
	}
	return 0
}

// worth leaves out guesses of next to nothing.
func worth(all []Guess) []Guess {
	var kept []Guess
	for _, g := range all {
		if math.Abs(g.Stops) > Within {
			kept = append(kept, g)
		}
	}
	return kept
}

// extension is what the extension asks for, by the names that remarks have for it.
func (c *Case) extension() []Filter {
	return []Filter{{Stops: c.Bellows, Called: []string{"bellows", "extension", "ext"}}}
}

func bellowsForgotten(c *Case) []Guess {
	return worth([]Guess{{Stops: -c.Bellows, Of: c.extension(), Text: "nothing was given for the extension, which asks for " + exposure.InStops(c.Bellows)}})
}

// asItStood is the bare reading given by the clock where more than one thing
// was owed: the extension and reciprocity, two filters and the extension.
func asItStood(c *Case) []Guess {
	owed := c.owed()
	if len(owed) < 2 || len(c.Areas) > 0 {
		return nil
	}
	// What the bare reading is worth on film at the aperture given.
	onFilm, status := c.Rule.Effective(exposure.Seconds(c.Light, c.Av))
	if status == exposure.Beyond {
		return nil
	}
	return worth([]Guess{{Stops: math.Log2(onFilm / c.needed()), Text: "the reading was given as it stood: nothing for " + strings.Join(owed, ", nothing for ")}})
}

// owed names what the sheet asked for beyond its reading.
func (c *Case) owed() []string {
	var all []string
	for _, f := range c.Filters {
		all = append(all, f.Name)
	}
	if c.Bellows > Within {
		all = append(all, "the extension")
	}
	if clock, _ := c.Rule.Corrected(c.needed()); math.Log2(clock/c.needed()) > Within {
		all = append(all, "reciprocity")
	}
	return all
}

// needed is the seconds that the film needed at the aperture given.
func (c *Case) needed() float64 { return exposure.Seconds(c.Asked, c.Av) }

// each is the seconds that the film needed in each of its exposures.
func (c *Case) each() float64 { return c.needed() / float64(c.Parts) }

// reciprocityForgotten is the metered time given as it stood: it is held against the time by the
// clock, since what a long time is worth on film lies nearer to everything.
func reciprocityForgotten(c *Case) []Guess {
	if _, status := c.Rule.Effective(c.each()); status != exposure.Corrected {
		return nil
	}
	text := fmt.Sprintf("%s is the time before reciprocity; on film it was worth %s", exposure.FormatTime(c.Clock), exposure.FormatTime(c.OnFilm))
	if c.Parts > 1 {
		text = fmt.Sprintf("%d exposures make the %s before reciprocity; on film they were worth %s", c.Parts, exposure.FormatTime(c.Clock), exposure.FormatTime(c.OnFilm))
	}
	return []Guess{{Stops: c.Difference, Text: text, Miss: math.Abs(math.Log2(c.Clock / c.needed()))}}
}

// otherValue is a filter's value for another film or light.
func otherValue(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		for _, v := range f.Values {
			which := "its plain value"
			if v.For != "" {
				which = "its value for " + v.For
			}
			all = append(all, Guess{Stops: v.Stops - f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("%s was given %s, %s; here it asks for %s", f.Name, exposure.InStops(v.Stops), which, exposure.InStops(f.Stops))})
		}
	}
	return worth(all)
}

// reciprocityTooEarly corrects the metered time first and multiplies then.
func reciprocityTooEarly(c *Case) []Guess {
	loss, needed := exposure.StopsFactor(c.throughFilters()+c.Bellows), c.needed()
	clock, early := c.Rule.Corrected(needed / loss)
	onFilm, status := c.Rule.Effective(clock * loss)
	if early == exposure.Beyond || status != exposure.Corrected {
		return nil
	}
	return worth([]Guess{{Stops: math.Log2(onFilm / needed), Text: "reciprocity was applied before the filter or the extension, not last"}})
}

// throughFilters is what the filters take together.
func (c *Case) throughFilters() (sum float64) {
	for _, f := range c.Filters {
		sum += f.Stops
	}
	return sum
}

func notPlaced(c *Case) []Guess {
	var all []Guess
	for _, a := range c.Areas {
		all = append(all, Guess{Stops: 5 - a.Zone, Text: fmt.Sprintf("%s was given as read and not placed on %s", a.name(), exposure.Roman(a.Zone))})
	}
	return worth(all)
}

func (a Area) name() string {
	if a.Name == "" {
		return "the reading"
	}
	return a.Name
}

func placedWrongWay(c *Case) []Guess {
	var all []Guess
	for _, a := range c.Areas {
		all = append(all, Guess{Stops: 2 * (5 - a.Zone), Text: fmt.Sprintf("%s was placed the wrong way, on %s for %s", a.name(), exposure.Roman(10-a.Zone), exposure.Roman(a.Zone))})
	}
	return worth(all)
}

// wrongZone is a neighbouring zone, or zone III for what was to be placed on V: the shadow's zone
// is what most readings are placed on. V for III is a reading that was not placed at all.
func wrongZone(c *Case) []Guess {
	var all []Guess
	for _, a := range c.Areas {
		offs := []float64{1, -1}
		if a.Zone == 5 {
			offs = append(offs, -2)
		}
		for _, off := range offs {
			all = append(all, Guess{Stops: off, Text: fmt.Sprintf("%s was placed on %s, not %s", a.name(), exposure.Roman(a.Zone+off), exposure.Roman(a.Zone))})
		}
	}
	return all
}

func meterAtAnother(c *Case) []Guess {
	shift, _ := exposure.SpeedShift(c.EI, c.MeterEI)
	return worth([]Guess{{Stops: shift, Evidence: 0.5, Text: fmt.Sprintf("the reading at EI %g was used as it stood, for film at EI %g", c.MeterEI, c.EI)}})
}

func wrongWay(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		all = append(all, Guess{Stops: -2 * f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("%s was compensated the wrong way: %s less instead of more", f.Name, exposure.InStops(f.Stops))})
	}
	return worth(append(all, Guess{Stops: -2 * c.Bellows, Of: c.extension(), Text: fmt.Sprintf("the extension was compensated the wrong way: %s less instead of more", exposure.InStops(c.Bellows))}))
}

// last is the sheet before in the same scene.
func (c *Case) last() (Earlier, bool) {
	if len(c.Earlier) > 0 && c.Earlier[0].SameScene {
		return c.Earlier[0], true
	}
	return Earlier{}, false
}

// before is the last sheet of the day on the same lens: what it was set to is
// what the lens is set to.
func (c *Case) before() (Earlier, bool) {
	for _, e := range c.Earlier {
		if e.SameLens {
			return e, true
		}
	}
	return Earlier{}, false
}

// settingsLeft is both settings equal to those of the sheet before, which asked
// for more.
func settingsLeft(c *Case) []Guess {
	p, ok := c.last()
	if !ok || !p.SameAperture || !p.SameTime {
		return nil
	}
	var all []Guess
	for _, f := range p.Filters {
		if !c.wears(f) {
			all = append(all, Guess{Stops: f.Stops, Of: []Filter{f}, Evidence: 1, Text: fmt.Sprintf("%s came off and the settings of %s stayed", f.Name, p.Label)})
		}
	}
	if p.Bellows > c.Bellows {
		all = append(all, Guess{Stops: p.Bellows - c.Bellows, Of: c.extension(), Evidence: 1, Text: fmt.Sprintf("the extension went back and the settings of %s stayed", p.Label)})
	}
	if p.Right {
		all = append(all, Guess{Stops: c.Asked - p.Asked, Evidence: 0.7, Text: fmt.Sprintf("the settings of %s stayed on the lens", p.Label)})
	}
	return worth(all)
}

func (c *Case) wears(f Filter) bool {
	for _, on := range c.Filters {
		if on.Name == f.Name {
			return true
		}
	}
	return false
}

// timeLeft is the time of the sheet before, where that was right. The settings are the evidence.
// Where this one asked for another exposure whatever is left over is the other setting's rounding;
// where it asked for the same it is off by what the aperture was changed by, but for the part of a
// stop that the sheet before was off by, which counts a quarter.
func timeLeft(c *Case) []Guess {
	p, ok := c.before()
	if !ok || !p.SameTime || p.SameAperture || !p.Right {
		return nil
	}
	if math.Abs(c.Asked-p.Asked) < 1./3 {
		return []Guess{{Stops: c.Difference, Miss: math.Abs(p.Av-c.Av-c.Difference) / 4, Evidence: 0.3,
			Text: fmt.Sprintf("the aperture was changed from %s and the time of %s, %s, was not changed with it", p.Aperture, p.Label, p.Time)}}
	}
	return []Guess{{Stops: c.Difference, Evidence: 0.3, Text: fmt.Sprintf("the time of %s, %s, stayed on the shutter", p.Label, p.Time), Weak: true}}
}

// apertureLeft is the aperture of the sheet before, where the time was meant for another stop or half that the lens
// has, or for a third within two stops, since thirds alone would fit everything: by what it misses that mark nobody
// meant it. What the reading was taken at nobody meant to change.
func apertureLeft(c *Case) []Guess {
	p, ok := c.before()
	if !ok || !p.SameAperture || p.SameTime || !p.Right || math.Abs(c.Difference) < 1-Within || math.Abs(c.ReadAv-c.Av) < Within {
		return nil
	}
	meant := exposure.AvFor(c.Asked, c.OnFilm)
	mark := math.Round(2*meant) / 2
	if math.Abs(meant-mark) > Within/2 && c.Rounded == 0 { // an older shutter's mark lies as far from what was meant
		mark = math.Round(3*meant) / 3
		if math.Abs(meant-c.Av) > 2+Within {
			return nil
		}
	}
	if math.Abs(meant-mark) > Within || !c.Lens.HasAperture(mark) {
		return nil
	}
	return []Guess{{Stops: c.Difference, Weak: true, Miss: math.Abs(meant-mark) / 2,
		Text: fmt.Sprintf("the aperture of %s, %s, stayed on the lens; with this time it should be %s", p.Label, p.Aperture, exposure.FormatAperture(mark))}}
}

func factorAsStops(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		factor := exposure.StopsFactor(f.Stops)
		all = append(all, Guess{Stops: factor - f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("the factor %s of %s was given as %s", exposure.FormatFactor(factor), f.Name, exposure.InStops(factor))})
	}
	if c.Bellows > Within {
		factor := exposure.StopsFactor(c.Bellows)
		all = append(all, Guess{Stops: factor - c.Bellows, Of: c.extension(), Text: fmt.Sprintf("the factor %s of the extension was given as %s", exposure.FormatFactor(factor), exposure.InStops(factor))})
	}
	return worth(all)
}

func stopsAsFactor(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		if f.Stops > 1 {
			all = append(all, Guess{Stops: math.Log2(f.Stops) - f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("the %s of %s were given as the factor %s", exposure.InStops(f.Stops), f.Name, exposure.FormatFactor(f.Stops))})
		}
	}
	return worth(all)
}

func densityAsStops(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		if f.Density > 0 {
			all = append(all, Guess{Stops: f.Density - f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("the density %g of %s was given as stops; it is %s", f.Density, f.Name, exposure.InStops(f.Stops))})
		}
	}
	return worth(all)
}

func anotherFilter(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		for _, other := range c.Kit {
			if !c.wears(other) {
				all = append(all, Guess{Stops: other.Stops - f.Stops, Of: []Filter{f, other}, Text: fmt.Sprintf("%s was compensated as if it were %s", f.Name, other.Name)})
			}
		}
	}
	return worth(all)
}

func extensionKept(c *Case) []Guess {
	p, ok := c.last()
	if !ok || p.Bellows == 0 {
		return nil
	}
	return worth([]Guess{{Stops: p.Bellows - c.Bellows, Of: c.extension(), Evidence: c.settingsKept(), Text: fmt.Sprintf("the compensation for the extension of %s was kept", p.Label)}})
}

func countedOn(c *Case) []Guess {
	p, ok := c.last()
	if !ok {
		return nil
	}
	var all []Guess
	for _, f := range p.Filters {
		if !c.wears(f) {
			all = append(all, Guess{Stops: f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("counted on from %s, whose %s is still in the settings", p.Label, f.Name)})
		}
	}
	return worth(all)
}

// fractionLost is a part of a stop that a filter, the extension, the reading or
// the aperture asked for and that was left out.
func fractionLost(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		if part := fraction(f.Stops); part != 0 {
			all = append(all, Guess{Stops: -part, Of: []Filter{f}, Text: fmt.Sprintf("the %s of %s was dropped", exposure.FormatAmount(part), f.Name)})
		}
	}
	if part := fraction(c.Bellows); part != 0 && c.Bellows > 1 {
		all = append(all, Guess{Stops: -part, Of: c.extension(), Text: fmt.Sprintf("the %s of the extension was dropped", exposure.FormatAmount(part))})
	}
	all = append(all, Guess{Stops: c.ReadPast, Text: fmt.Sprintf("the %s of the reading was dropped", exposure.FormatAmount(c.ReadPast))})
	return append(worth(all), c.apertureFraction()...)
}

// fraction is the part of an amount above its whole stops, where there is one that a mark shows.
func fraction(stops float64) float64 {
	part := stops - math.Floor(stops)
	if math.Abs(part-math.Round(part)) < Within {
		return 0
	}
	return part
}

// apertureFraction is an aperture on a whole stop where the time given asked
// for one between two.
func (c *Case) apertureFraction() []Guess {
	if math.Abs(c.Av-math.Round(c.Av)) > 1e-6 {
		return nil
	}
	meant := exposure.AvFor(c.Asked, c.OnFilm)
	for _, part := range []float64{1. / 3, 1. / 2, 2. / 3} {
		if math.Abs(meant-c.Av-part) <= 1./12 {
			return []Guess{{Stops: part, Text: fmt.Sprintf("the %s past %s was dropped", exposure.FormatAmount(part), exposure.FormatAperture(c.Av)), Weak: true}}
		}
	}
	return nil
}

// fractionWrongWay is a part of a stop opened instead of closed: of the aperture
// given, or of the reading. That a sheet before was right with the time and the part
// turned the right way is evidence.
func fractionWrongWay(c *Case) []Guess {
	var all []Guess
	for _, f := range []struct {
		past float64
		of   string
	}{{c.Past, "aperture"}, {c.ReadPast, "reading"}} {
		text := fmt.Sprintf("the %s of the %s was turned the wrong way", exposure.FormatAmount(f.past), f.of)
		for _, turned := range []float64{-2 * f.past, 2 * f.past} {
			g := Guess{Stops: turned, Text: text}
			if p, ok := c.before(); ok && p.Right && p.SameTime && math.Abs(p.Av-c.Av-turned) < exactly {
				g.Evidence = 0.7
			}
			all = append(all, g)
		}
	}
	return worth(all)
}

func meterLeft(c *Case) []Guess {
	if c.FixedMeter {
		return nil
	}
	return atOtherIndices(c, "the meter stood at EI %g, not %g")
}

// anotherIndex is the index of another film, or of another development, by which light
// values at ISO 100 were brought to the film.
func anotherIndex(c *Case) []Guess {
	if !c.FixedMeter {
		return nil
	}
	return atOtherIndices(c, "it was reckoned at EI %g, not %g")
}

func atOtherIndices(c *Case, text string) []Guess {
	if c.MeterEI != 0 {
		return nil
	}
	var all []Guess
	for _, x := range c.OtherEI {
		if shift, ok := exposure.SpeedShift(c.EI, x.EI); ok {
			all = append(all, Guess{Stops: shift, Evidence: x.speaks(), Text: fmt.Sprintf(text, x.EI, c.EI)})
		}
	}
	return worth(all)
}

// speaks is the evidence for an index: a film's own are on its line, one of a film that no sheet
// is on was on nobody's mind.
func (x Index) speaks() float64 {
	switch {
	case x.Own:
		return 0.4
	case !x.Exposed:
		return -0.5
	}
	return 0
}

// earlierReading is the base of the scene before, on the same day.
func earlierReading(c *Case) []Guess {
	for _, e := range c.Earlier {
		if !e.SameScene && e.Known && !e.SameReading {
			name := "an earlier scene"
			if e.Scene != "" {
				name = fmt.Sprintf("%q", e.Scene)
			}
			return worth([]Guess{{Stops: exposure.Difference(c.Light, e.Light), Text: "the reading of " + name + " was used"}})
		}
	}
	return nil
}

// filterNotWritten is an exposure that is right if a filter of an earlier sheet
// of the scene was on the lens still: then it is the note that is wrong.
func filterNotWritten(c *Case) []Guess {
	var all []Guess
	tried := map[string]bool{}
	for _, e := range c.Earlier {
		for _, f := range e.Filters {
			if e.SameScene && !c.wears(f) && !tried[f.Name] {
				tried[f.Name] = true
				all = append(all, Guess{Stops: f.Stops, Weak: true, Of: []Filter{f}, Text: f.Name + " stayed on the lens, was allowed for, and is not written"})
			}
		}
	}
	return worth(all)
}

// testedForgotten is settings that would be right if the shutter were.
func testedForgotten(c *Case) []Guess {
	return worth([]Guess{{Stops: math.Log2(c.Clock / c.Nominal), Evidence: 0.3, Text: "right by the mark of the shutter, whose tested speed is " + exposure.FormatTime(c.Clock)}})
}

func bracketWrongWay(c *Case) []Guess {
	return worth([]Guess{{Stops: -2 * c.Bracket, Text: "the bracket was turned the wrong way"}})
}

func bracketForgotten(c *Case) []Guess {
	return worth([]Guess{{Stops: -c.Bracket, Text: "nothing was given for the bracket"}})
}

func compensatedTwice(c *Case) []Guess {
	var all []Guess
	for _, f := range c.Filters {
		all = append(all, Guess{Stops: f.Stops, Of: []Filter{f}, Text: fmt.Sprintf("%s was compensated twice", f.Name)})
	}
	for _, f := range c.Through {
		all = append(all, Guess{Stops: f.Stops, Of: []Filter{f}, Evidence: 0.7, Text: fmt.Sprintf("%s was in the reading already and was compensated once more", f.Name)})
	}
	return worth(append(all, Guess{Stops: c.Bellows, Of: c.extension(), Text: "the extension was compensated twice"}))
}

// reciprocityTwice is a time that was corrected, taken for the metered one and
// corrected once more: on film it is worth the corrected time. Times of a minute and more are
// rounded by up to a third of a stop by the clock, which counts half. A sheet before that was
// right with the corrected time is evidence: it was there to be taken.
func reciprocityTwice(c *Case) []Guess {
	once, status := c.Rule.Corrected(c.each())
	twice, again := c.Rule.Corrected(once)
	if status != exposure.Corrected || again != exposure.Corrected {
		return nil
	}
	g := Guess{Stops: math.Log2(once / c.each()), Text: fmt.Sprintf("%s was corrected for reciprocity to %s, and that once more to %s",
		exposure.FormatTime(c.each()), exposure.FormatTime(once), exposure.FormatTime(twice))}
	g.Evidence = c.exactly(g.Stops)
	if p, ok := c.before(); ok && p.Right && p.SameAperture && math.Abs(c.Asked-p.Asked) < Within {
		g.Evidence = 0.7
	}
	if twice >= time.Minute.Seconds() && math.Abs(math.Log2(c.Clock/float64(c.Parts)/twice)) <= 1./3 {
		g.Stops, g.Miss = c.Difference, math.Abs(g.Stops-c.Difference)/2
	}
	return worth([]Guess{g})
}

// eachInFull is the whole exposure given in each of several.
func eachInFull(c *Case) []Guess {
	return worth([]Guess{{Stops: math.Log2(float64(c.Parts)), Evidence: 0.5, Text: fmt.Sprintf("each of the %d exposures was given in full", c.Parts)}})
}

// exactly is the evidence of a figure that no round number of stops comes to, where the
// difference is just that.
func (c *Case) exactly(stops float64) float64 {
	if whole := math.Abs(stops - math.Round(stops)); math.Abs(stops-c.Difference) > exactly || whole <= exactly {
		return 0
	}
	return 0.7
}

// otherRule is the metered time brought to another film's, by whose rule it is right.
func otherRule(c *Case) []Guess {
	own, _ := c.Rule.Corrected(c.each())
	var all []Guess
	for _, other := range c.Rules {
		clock, status := other.Rule.Corrected(c.each())
		onFilm, back := c.Rule.Effective(clock)
		guess := math.Log2(onFilm / c.each())
		if status != exposure.Corrected || back == exposure.Beyond || math.Abs(guess-c.Difference) > exactly { // the rules of a kit lie everywhere between two stops
			continue
		}
		all = append(all, Guess{Stops: guess, Text: fmt.Sprintf("%s was corrected for reciprocity to %s, by the rule of %s; by its own it is %s",
			exposure.FormatTime(c.each()), exposure.FormatTime(clock), other.Film, exposure.FormatTime(own))})
	}
	return worth(all)
}

// otherLens is an extension that was compensated by the focal length of another lens.
func otherLens(c *Case) []Guess {
	var all []Guess
	for _, l := range c.Lenses {
		if l.Stops > Within { // else it was not compensated at all
			all = append(all, Guess{Stops: l.Stops - c.Bellows, Of: c.extension(), Text: fmt.Sprintf("the extension was compensated by %s, as it asks of the %s; this lens asks for %s", exposure.InStops(l.Stops), l.For, exposure.InStops(c.Bellows))})
		}
	}
	return worth(all)
}

// oneStop is the neighbouring whole stop of the aperture, or the neighbouring
// speed of this shutter, which on old ones may lie further than a stop.
func oneStop(c *Case) []Guess {
	all := []Guess{
		{Stops: 1, Text: "one whole stop or speed too much"},
		{Stops: -1, Text: "one whole stop or speed too little"},
	}
	for _, step := range c.Steps {
		side := "too long"
		if step < 0 {
			side = "too short"
		}
		all = append(all, Guess{Stops: step, Text: "one speed of this shutter " + side})
	}
	return all
}

// lastOfAll is the place of what is tried only for want of better: that nothing was done wrong,
// and it is the note that is.
const lastOfAll = 9

// timeMiswritten is a time whose figures, read with another unit, as a part of a second or with
// one more or less, make the sheet right.
func timeMiswritten(c *Case) []Guess {
	var all []Guess
	for _, meant := range otherTimes(c.Num, c.Den) {
		seconds, ok := exposure.TimeSeconds(meant[0], meant[1])
		if !ok {
			continue
		}
		if onFilm, status := c.Rule.Effective(seconds); status != exposure.Beyond {
			all = append(all, Guess{Stops: math.Log2(c.OnFilm / onFilm), Weak: true, Text: "perhaps " + exposure.FormatTime(seconds) + " was meant"})
		}
	}
	return worth(all)
}

// otherTimes is what the figures of a time of num/den seconds may have been written for: 4s for
// 1/4 or 4m, 1/4 for 4s, 1/80 for 1/8. Common practice, no source.
func otherTimes(num, den float64) (all [][2]float64) {
	const minute, ten = 60, 10
	switch {
	case num == 1 && den > 1:
		all = append(all, [2]float64{den, 1}, [2]float64{1, den * ten})
		if math.Mod(den, ten) == 0 {
			all = append(all, [2]float64{1, den / ten})
		}
	case den == 1 && math.Mod(num, minute) == 0:
		all = append(all, [2]float64{num / minute, 1})
	case den == 1 && num > 1 && num == math.Round(num):
		all = append(all, [2]float64{1, num}, [2]float64{num * minute, 1})
	}
	return all
}
