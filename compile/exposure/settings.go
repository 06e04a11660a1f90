package exposure

import (
	"cmp"
	"math"
	"slices"
)

// Going back to a subject that came out wrong, one wants settings that can be set.
// Three ways are offered, as people do it: the aperture kept, for its depth of
// field, and the time changed; a whole shutter speed next to that time and the rest
// on the aperture, in the lens's own clicks; and the time kept, the aperture
// changed. A time of a second or more is counted in whole seconds. Reciprocity
// comes last: the search is for a time on film, and only then for the clock time.

// Exposure is an aperture and a time by the clock. Seconds 0, or an Av that is not
// a number, stand for a part that is not known.
type Exposure struct {
	Av      float64 // exact aperture value
	Seconds float64 // by the clock
}

// TestedSpeed is what a shutter really gives at a marked speed, in seconds.
type TestedSpeed struct{ Marked, Real float64 }

// Lens is what a lens and its shutter can do. Zero fields are unknown and stand
// for what is usual: f/5.6 to f/64, 1 s to 1/500 and B, clicks of a third.
type Lens struct {
	Wide, Small float64       // aperture values of the widest and smallest opening
	Speeds      []float64     // exact seconds of the marked speeds, in any order
	Bulb        bool          // has B or T, so that long times can be counted
	Tested      []TestedSpeed // speeds that were measured
	Clicks      float64       // steps of the aperture in stops; 1 has no stops between
	Marks       []float64     // aperture values engraved, widest first; nil: the series of full stops
}

// usual values of a lens of which they are not known: common practice, no source.
const (
	usualWide, usualSmall = 5, 12
	usualClicks           = 1. / 3
)

// usualSpeeds is the standard series from 1 s to 1/500 (ISO 516).
var usualSpeeds = []float64{
	1, 1. / 2, 1. / 4, 1. / 8, 1. / 16, 1. / 32, 1. / 64, 1. / 128, 1. / 256, 1. / 512,
}

// Limits of an offer: within fits it is right, the aperture kept comes first while it
// leaves no more than keepsWithin, and less than worthIt is no difference.
const (
	fits        = 1./3 + 1./12
	keepsWithin = 1. / 4
	worthIt     = 1. / 12
)

// Kind tells which way a choice of settings goes.
type Kind int

// The ways to right settings.
const (
	KeptAperture Kind = iota
	Split
	KeptTime
)

// Choice is one pair of settings that would have been right.
type Choice struct {
	Kind    Kind
	Av      float64 // on the lens's clicks, or the aperture kept
	Seconds float64 // marked or counted, by the clock, reciprocity included
	Left    float64 // stops the film still gets too much (+) or too little (-)
	Status  Status  // Beyond: the film's rule does not reach so far, Seconds is uncorrected
}

// Real returns what the shutter really gives at a marked time in seconds.
func (l Lens) Real(marked float64) float64 {
	for _, t := range l.Tested {
		if sameTime(t.Marked, marked) {
			return t.Real
		}
	}
	return marked
}

// HasSpeed reports whether the shutter can give a marked time in seconds, set or
// counted.
func (l Lens) HasSpeed(seconds float64) bool {
	if seconds >= 1 && l.counts() {
		return true
	}
	return slices.ContainsFunc(l.speeds(), func(s float64) bool { return sameTime(s, seconds) })
}

// HasAperture reports whether av lies within the lens's range, a twelfth of a stop
// allowed for marks that are rounded. An end that is not known allows everything.
func (l Lens) HasAperture(av float64) bool {
	const slack = 1. / 12
	return (l.Wide == 0 || av >= l.Wide-slack) && (l.Small == 0 || av <= l.Small+slack)
}

// NearestSpeed returns the marked time in seconds the shutter can do whose real
// time is nearest to seconds; of two equally near the longer.
func (l Lens) NearestSpeed(seconds float64) float64 {
	best, least := 0.0, math.Inf(1)
	try := func(s float64) {
		off := Round(math.Abs(math.Log2(l.Real(s) / seconds)))
		if off < least || off == least && s > best {
			best, least = s, off
		}
	}
	for _, s := range l.speeds() {
		try(s)
	}
	if l.counts() {
		try(max(1, math.Floor(seconds)))
		try(max(1, math.Ceil(seconds)))
	}
	return best
}

// NearestAperture returns the aperture value the lens can be set to that is nearest
// to av: one of its clicks, or either end of its range.
func (l Lens) NearestAperture(av float64) float64 {
	click := l.Clicks
	if !positive(click) {
		click = usualClicks
	}
	steps := max(1, math.Round(1/click)) // a whole number, or thirds do not add up to stops
	if len(l.Marks) > 0 {
		return l.nearestMark(av, steps)
	}
	on := math.Round(av*steps) / steps
	wide, small := l.Ends()
	if on < wide || math.Abs(wide-av) < math.Abs(on-av) {
		on = wide
	}
	if on > small || math.Abs(small-av) < math.Abs(on-av) {
		on = small
	}
	return on
}

// nearestMark is the engraved mark, or one of so many steps to a stop past it and short of the
// next, that is nearest to av.
func (l Lens) nearestMark(av, steps float64) float64 {
	best := l.Marks[0]
	for i, mark := range l.Marks {
		for step := 0.; step == 0 || i+1 < len(l.Marks) && mark+(step+0.5)/steps < l.Marks[i+1]; step++ {
			if on := mark + step/steps; math.Abs(on-av) < math.Abs(best-av) {
				best = on
			}
		}
	}
	return best
}

func (l Lens) speeds() []float64 {
	if len(l.Speeds) == 0 {
		return usualSpeeds
	}
	return l.Speeds
}

// counts reports whether long times can be counted; a shutter of which nothing is
// known has B.
func (l Lens) counts() bool { return l.Bulb || len(l.Speeds) == 0 }

// Ends are the aperture values of the widest and the smallest opening, the usual ones where
// they are not known. One that is smaller than usual is the only one: a pinhole's f/256.
func (l Lens) Ends() (wide, small float64) {
	wide, small = l.Wide, l.Small
	if wide == 0 {
		wide = usualWide
	}
	if small == 0 {
		small = max(usualSmall, wide)
	}
	return wide, small
}

// GivenEV returns the EV that an exposure is worth on film: the real time of the
// speed, put back through the film's rule.
func GivenEV(e Exposure, lens Lens, rule Rule) (ev float64, status Status) {
	onFilm, status := rule.Effective(lens.Real(e.Seconds))
	return EV(e.Av, onFilm), status
}

// RightSettings returns settings the lens and shutter can do for a sheet that needs
// target EV on film, starting from what was given, best first and none twice. Those
// off beyond the usual tolerance are left out, unless nothing is nearer.
func RightSettings(target float64, given Exposure, lens Lens, rule Rule) []Choice {
	s := search{target, lens, rule}
	var choices []Choice
	switch {
	case math.IsNaN(given.Av):
	case lens.HasAperture(given.Av):
		choices = s.keepAperture(given.Av)
	default: // the nearest that it has
		wide, small := lens.Ends()
		choices = s.keepAperture(min(max(given.Av, wide), small))
		for i := range choices {
			choices[i].Kind = Split
		}
	}
	if positive(given.Seconds) && lens.HasSpeed(given.Seconds) && s.vouches(given.Seconds) {
		choices = append(choices, s.apertureAt(KeptTime, given.Seconds))
	}
	return possible(distinct(choices))
}

// search is what stays the same while settings are tried.
type search struct {
	target float64
	lens   Lens
	rule   Rule
}

// keepAperture returns the aperture kept and the split next to it, in the order
// they are worth looking at.
func (s search) keepAperture(av float64) []Choice {
	kept := s.choice(KeptAperture, av, s.lens.NearestSpeed(s.clockFor(Seconds(s.target, av))))
	split, ok := s.split(kept)
	switch {
	case !ok:
		return []Choice{kept}
	case math.Abs(kept.Left) > keepsWithin:
		return []Choice{split, kept}
	}
	return []Choice{kept, split}
}

// clockFor returns the clock time for a time on film. Where a table ends it is the
// last time the table vouches for, so that the aperture is opened instead; a film
// without a table keeps the time as it came, and the choice says so.
func (s search) clockFor(onFilm float64) float64 {
	clock, status := s.rule.Corrected(onFilm)
	if status == Beyond && len(s.rule.points) > 0 {
		last, _ := s.rule.Corrected(s.rule.Reach())
		return max(1, math.Floor(last))
	}
	return clock
}

// vouches reports whether the film's table, if it has one, reaches a clock time.
func (s search) vouches(seconds float64) bool {
	_, status := s.rule.Effective(s.lens.Real(seconds))
	return status != Beyond || len(s.rule.points) == 0
}

// split takes a whole speed, at or next to the one that keeps the aperture, and puts
// the rest on the aperture. Of those about equally right the least change of
// aperture wins; ok is false where none is worth it.
func (s search) split(kept Choice) (best Choice, ok bool) {
	var right []Choice
	for _, seconds := range s.around(kept.Seconds) {
		c := s.apertureAt(Split, seconds)
		if math.Abs(c.Left) < math.Abs(kept.Left)-worthIt {
			right = append(right, c)
		}
	}
	if len(right) == 0 {
		return Choice{}, false
	}
	least := math.Abs(slices.MinFunc(right, byLeft).Left)
	right = slices.DeleteFunc(right, func(c Choice) bool { return math.Abs(c.Left) > least+worthIt })
	return slices.MinFunc(right, func(a, b Choice) int {
		return cmp.Compare(math.Abs(a.Av-kept.Av), math.Abs(b.Av-kept.Av))
	}), true
}

// byLeft orders choices by how far off they are.
func byLeft(a, b Choice) int { return cmp.Compare(math.Abs(a.Left), math.Abs(b.Left)) }

// around returns a marked time and its neighbours on the shutter.
func (s search) around(seconds float64) []float64 {
	speeds := slices.Clone(s.lens.speeds())
	slices.Sort(speeds)
	times := []float64{seconds}
	i, _ := slices.BinarySearch(speeds, seconds*(1-1e-9))
	if i > 0 {
		times = append(times, speeds[i-1])
	}
	if i < len(speeds) && sameTime(speeds[i], seconds) {
		i++
	}
	if i < len(speeds) {
		times = append(times, speeds[i])
	}
	return times
}

// apertureAt puts everything but a marked time on the aperture.
func (s search) apertureAt(kind Kind, seconds float64) Choice {
	onFilm, _ := s.rule.Effective(s.lens.Real(seconds))
	return s.choice(kind, s.lens.NearestAperture(AvFor(s.target, onFilm)), seconds)
}

// choice works out what settings leave.
func (s search) choice(kind Kind, av, seconds float64) Choice {
	ev, status := GivenEV(Exposure{av, seconds}, s.lens, s.rule)
	return Choice{kind, av, seconds, Difference(s.target, ev), status}
}

// possible leaves out what does not fit, keeping the nearest if nothing does.
func possible(choices []Choice) []Choice {
	off := func(c Choice) bool { return Round(math.Abs(c.Left)-fits) > 0 }
	right := slices.DeleteFunc(slices.Clone(choices), off)
	if len(right) > 0 || len(choices) == 0 {
		return right
	}
	return []Choice{slices.MinFunc(choices, byLeft)}
}

// distinct drops a choice that an earlier one already makes. A split that happens to
// keep the time is called that: it is what the reader will notice.
func distinct(choices []Choice) []Choice {
	var kept []Choice
	for _, c := range choices {
		i := slices.IndexFunc(kept, func(k Choice) bool {
			return math.Abs(k.Av-c.Av) < 1e-6 && sameTime(k.Seconds, c.Seconds)
		})
		switch {
		case i < 0:
			kept = append(kept, c)
		case kept[i].Kind == Split:
			kept[i].Kind = c.Kind
		}
	}
	return kept
}

// sameTime reports whether two times are one mark.
func sameTime(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Abs(b) }
