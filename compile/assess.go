package compile

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
)

// assess assumes that every fact stands at its sheet. It leaves each sheet with
// what it needed, what it got and the difference, step by step, or with the one
// fact that would settle it. It blames nobody: that is for diagnose and check.
//
// The order is the one of the trade: the reading at the film's index, less the
// filters, less the bellows, less what was intended; reciprocity comes last, on
// the time that the shutter really gave.

func (s *season) assess() {
	s.convene()
	for _, sh := range s.sheets {
		sh.sum = s.assessed(sh, sh.outing.book.at100)
	}
}

// convene settles, for each notebook, what its light values mean. Spot meters
// show EV at ISO 100 or at the index set, and few people write which. Where no
// meter line says it, the sense under which clearly more of the notebook's
// sheets come out right is taken.
func (s *season) convene() {
	stated := false
	for _, m := range s.kit.meters {
		stated = stated || m.stated
	}
	for _, b := range s.books {
		if stated {
			b.at100 = s.kit.meters[len(s.kit.meters)-1].at100
			b.stated = true
		}
	}
	if stated {
		return
	}
	right := map[*book][2]int{}
	for _, sh := range s.sheets {
		if sh.reading == nil || !hasEV(sh.reading) {
			continue
		}
		count := right[sh.outing.book]
		for i, at100 := range []bool{false, true} {
			if s.assessed(sh, at100).state == record.Right {
				count[i]++
			}
		}
		right[sh.outing.book] = count
	}
	for b, count := range right {
		b.at100 = count[1] > count[0]
		b.stated = count[1] >= count[0]+2 || count[0] >= count[1]+2
	}
}

func hasEV(rd *reading) bool {
	for i := range rd.areas {
		if rd.areas[i].asEV {
			return true
		}
	}
	return false
}

// reckoning is one sheet's assessment in the making.
type reckoning struct {
	*season
	*assessment
	sh    *sheet
	at100 bool
}

// assessed computes a sheet, with light values read at ISO 100 or at the index.
func (s *season) assessed(sh *sheet, at100 bool) assessment {
	r := reckoning{season: s, assessment: &assessment{}, sh: sh, at100: at100}
	switch {
	case has(sh.states, "unused"):
		r.state = record.Unexposed
		return *r.assessment
	}
	r.ei = s.rated(sh)
	r.gave()
	r.reading()
	r.filters()
	r.extension()
	r.intended()
	r.difference()
	return *r.assessment
}

// rated is the exposure index of a sheet: written with it, declared for the
// development wanted or the light, declared, else the box speed.
func (s *season) rated(sh *sheet) float64 {
	if sh.ei.known {
		return sh.ei.v
	}
	f := s.filmOf(sh)
	if f == nil {
		return 0
	}
	if ei := f.inN[sh.wanted.v]; ei != 0 && sh.wanted.known {
		return ei
	}
	if ei := f.inLight[lightClass(sh.light)]; ei != 0 {
		return ei
	}
	if f.ei != 0 {
		return f.ei
	}
	return f.iso
}

func (s *season) filmOf(sh *sheet) *film {
	if sh.film.known {
		return sh.film.v
	}
	return nil
}

// lightClass is the light by which filters are chosen: the writer's word where
// the light names one of the table's.
func lightClass(light string) string {
	low := strings.ToLower(light)
	for _, word := range []string{"tungsten", "lamp", "bulb light", "halogen"} {
		if strings.Contains(low, word) {
			return handbook.Tungsten
		}
	}
	return handbook.Daylight
}

// gave is what the film got.
func (r *reckoning) gave() {
	sh := r.sh
	r.rule = r.ruleOf(sh)
	var ok bool
	if sh.aperture.known {
		if r.av, ok = apertureAv(sh.aperture.v); !ok {
			r.need("an f-number above 0")
		}
	}
	if !sh.aperture.known || !sh.time.known {
		if !sh.aperture.known && !sh.time.known {
			r.need("the aperture and the time that were given")
		} else if !sh.aperture.known {
			r.need("the aperture")
		} else {
			r.need("the time")
		}
		return
	}
	each, times, ok := clockTime(sh.time.v)
	if !ok {
		r.need("a time above 0")
		return
	}
	r.expose(each, times)
}

// expose puts the time on film: the tested speed, each of several exposures
// through the film's rule.
func (r *reckoning) expose(each float64, times int) {
	var l exposure.Lens
	if r.sh.lens.known {
		l = r.sh.lens.v.Lens
	}
	real := l.Real(each)
	r.seconds = real * float64(times)
	r.onFilm, r.status = r.rule.EffectiveEach(times, real)
	if r.status == exposure.Beyond {
		r.beyond(each)
		return
	}
	r.clock = exposure.EV(r.av, r.seconds)
	r.given = exposure.EV(r.av, r.onFilm)
	r.hasGave = true
}

// beyond says why a long time cannot be judged.
func (r *reckoning) beyond(seconds float64) {
	f := r.filmOf(r.sh)
	switch {
	case f == nil:
		r.need("the film, for the reciprocity of " + exposure.FormatTime(seconds))
	case r.rule.IsZero():
		r.need("a reciprocity rule for " + f.name)
	default:
		r.need("a longer reciprocity table for " + f.name + "; " + exposure.FormatTime(seconds) + " lies beyond its last entry")
	}
}

// ruleOf is the film's rule, else the season's; without a film, the rule that
// all declared films share.
func (s *season) ruleOf(sh *sheet) exposure.Rule {
	if f := s.filmOf(sh); f != nil && !f.rule.IsZero() {
		return f.rule
	}
	return s.kit.rule
}

func (r *reckoning) need(fact string) {
	for _, n := range r.needs {
		if n == fact {
			return
		}
	}
	r.needs = append(r.needs, fact)
}

// clockTime is one exposure's time and how many there were.
func clockTime(t lang.Time) (each float64, times int, ok bool) {
	times = 1
	for _, n := range []*lang.Number{t.Count, t.Again} {
		if n != nil && *n >= 1 && *n < 1000 {
			times = int(*n)
		}
	}
	for _, part := range t.Parts {
		exact, fine := exposure.TimeSeconds(part.Num, part.Den)
		if !fine {
			return 0, 0, false
		}
		each += exact
	}
	if len(t.Parts) > 1 { // 20s+17s: parts of one exposure
		return each, times, each > 0
	}
	return each, times, each > 0
}

// apertureAv is the aperture value of a marked aperture.
func apertureAv(a lang.Aperture) (av float64, ok bool) {
	if a.Upper != 0 {
		low, fine := exposure.ApertureAv(a.Mark, 0)
		high, good := exposure.ApertureAv(a.Upper, 0)
		return (low + high) / 2, fine && good
	}
	return exposure.ApertureAv(a.Mark, a.Past)
}

// reading brings what the meter said to the film's index.
func (r *reckoning) reading() {
	rd := r.sh.reading
	switch {
	case rd == nil || rd.kind != "sunny 16" && len(rd.areas) == 0:
		r.need("the reading")
		return
	case rd.doubtful:
		r.need("the reading, written with a question mark")
		return
	case rd.kind == "sunny 16":
		r.sunny()
		return
	}
	shift, ok := r.shift(rd)
	if !ok {
		return
	}
	areas := make([]area, len(rd.areas))
	for i, a := range rd.areas {
		if !a.complete() {
			r.need("the other half of the reading " + a.at.Text())
			return
		}
		a.ev += shift
		if a.asEV && r.at100 && rd.ei == 0 {
			a.ev += r.from100()
		}
		areas[i] = a
	}
	r.place(rd, areas)
}

// shift is what a meter set to another index than the film's adds.
func (r *reckoning) shift(rd *reading) (stops float64, ok bool) {
	if rd.ei == 0 {
		return r.offset(rd), true
	}
	if r.ei == 0 {
		r.need("the film and its EI, since the meter stood at EI " + trim(rd.ei))
		return 0, false
	}
	stops, ok = exposure.SpeedShift(r.ei, rd.ei)
	if !ok {
		r.need("an EI above 0")
	}
	return stops + r.offset(rd), ok
}

// offset is what the meter is known to read too much or too little.
func (r *reckoning) offset(rd *reading) float64 {
	if rd.kind == "sunny 16" || len(r.kit.meters) != 1 {
		return 0
	}
	return r.kit.meters[0].offset
}

// from100 is what turns EV at ISO 100 into EV at the film's index.
func (r *reckoning) from100() float64 {
	if r.ei == 0 {
		r.need("the film and its EI")
		return 0
	}
	shift, _ := exposure.SpeedShift(r.ei, 100)
	return shift
}

// sunny is the rule of thumb: f/16 at 1/EI in the sun.
func (r *reckoning) sunny() {
	if r.ei == 0 {
		r.need("the film and its EI")
		return
	}
	steps := 0.
	if light, ok := handbook.Light(r.sh.light); ok {
		steps = light.Steps()
	}
	sv, _ := exposure.SpeedSv(r.ei)
	r.base, r.hasBase = exposure.Sunny16(sv, steps), true
	r.howBase = "f/16 at 1/EI in the sun, " + exposure.InStops(steps) + " less light"
}

// place finds the base exposure of the areas: the mean, the lowest placed zone,
// or the only reading.
func (r *reckoning) place(rd *reading, areas []area) {
	lowest := -1
	for i, a := range areas {
		if a.placed && (lowest < 0 || a.zone < areas[lowest].zone) {
			lowest = i
		}
	}
	switch {
	case rd.kind == "average":
		evs := make([]float64, len(areas))
		for i, a := range areas {
			evs[i] = a.ev
		}
		r.base, _ = exposure.Mean(evs...)
		r.howBase = "the mean of " + counted(len(evs), "reading", "readings")
	case lowest >= 0:
		a := areas[lowest]
		r.base = exposure.Place(a.ev, a.zone)
		r.howBase = fmt.Sprintf("%s on %s", exposure.FormatEV(a.ev), exposure.Roman(a.zone))
	case len(areas) > 1:
		r.need("the zone of one of the readings, or the word average")
		return
	default:
		r.base = areas[0].ev
	}
	r.hasBase = true
	r.base = exposure.Round(r.base)
	r.fell(areas)
}

// fell keeps the areas for the record; where they fell is known only when the
// sheet's exposure is.
func (r *reckoning) fell(areas []area) {
	if len(areas) == 1 && areas[0].name == "" && !areas[0].placed {
		return // the reading itself says it all
	}
	for _, a := range areas {
		fell := record.Area{Name: a.name, EV: exposure.Round(a.ev)}
		if a.placed {
			fell.Meant = record.Known(a.zone)
		}
		r.fells = append(r.fells, fell)
	}
}

// filters adds up what is on the lens.
func (r *reckoning) filters() {
	class := ""
	if f := r.filmOf(r.sh); f != nil {
		class = f.class
	}
	for _, u := range r.sh.filters {
		on := *u
		r.filter(&on, class)
		r.owes = append(r.owes, &on)
	}
}

func (r *reckoning) filter(u *use, class string) {
	f, entry, ok := r.kit.filter(u.name)
	u.found, u.number = f, entry.Number
	if blind, long := entry.BlindOn(class); ok && entry.Number != "" && blind {
		r.blind = u
	} else if long {
		r.long = u
	}
	if isGraduated(u.name) {
		u.cost = &cost{detail: "a graduated filter owes nothing", own: true}
	} else {
		u.cost = r.costOf(u, f, entry, class)
	}
	if u.cost == nil {
		r.need("what the filter " + u.name + " costs")
		return
	}
	if !u.cost.own && u.cost.low != u.cost.high {
		r.undecl = u
	}
	r.low += u.cost.low
	r.high += u.cost.high
	r.step("filter", u.name, u.cost)
}

// costOf is what a filter costs: as written with the sheet, as declared for the
// film or the light, as declared, as published.
func (r *reckoning) costOf(u *use, f *filter, entry handbook.FilterEntry, class string) *cost {
	light := lightClass(r.sh.light)
	if len(u.amounts) > 0 {
		c := newCost(&u.amounts[0], &lang.Term{Span: u.at})
		for i := range u.amounts[1:] {
			other := newCost(&u.amounts[i+1], &lang.Term{Span: u.at})
			c.low, c.high = min(c.low, other.stops), max(c.high, other.stops)
		}
		return c
	}
	if f != nil {
		for _, key := range []string{class, light} {
			if c := f.per[key]; c != nil && key != "" {
				return c
			}
		}
		if f.stops != nil {
			return f.stops
		}
	}
	if v, detail, ok := neutralStops(u.name); ok {
		return &cost{stops: v, low: v, high: v, detail: detail, from: "the filter's own density or factor", own: true}
	}
	return published(entry, light, class)
}

// published is the handbook's value with the span of all that was printed.
func published(entry handbook.FilterEntry, light, class string) *cost {
	p, ok := entry.Default(light, class)
	if !ok {
		return nil
	}
	c := &cost{stops: p.Stops, low: p.Stops, high: p.Stops, from: "handbook: " + p.Source}
	if p.Factor != 0 {
		c.detail = exposure.FormatFactor(p.Factor) + ", not declared"
	} else {
		c.detail = exposure.InStops(p.Stops) + ", not declared"
	}
	if lo, hi, ok := entry.Span(light, class); ok {
		c.low, c.high = min(lo, c.stops), max(hi, c.stops)
	}
	return c
}

func (r *reckoning) step(kind, name string, c *cost) {
	r.steps = append(r.steps, record.Step{Kind: kind, Name: name, Stops: exposure.Round(c.stops), Detail: c.detail, From: c.from})
}

// extension is what the bellows cost. No extension written is far away, in
// silence.
func (r *reckoning) extension() {
	sh := r.sh
	focal, flange := 0., 0.
	if sh.lens.known {
		focal, flange = sh.lens.v.focal, sh.lens.v.flange
	}
	var c cost
	var name string
	ok := true
	switch {
	case sh.bellows.known:
		c = *newCost(&sh.bellows.v, &lang.Term{Span: sh.bellows.at})
		name = "bellows"
	case sh.scale.known:
		c.stops, ok = exposure.BellowsByMagnification(sh.scale.v)
		name = "magnification " + trim(exposure.Round(sh.scale.v))
		c.detail = "2 log₂(1 + m)"
	case !sh.extension.known && !sh.focus.known:
		return
	case focal == 0:
		r.need("the lens, for its focal length")
		return
	case sh.extension.known && flange != 0:
		c.stops, ok = exposure.BellowsByFlange(sh.extension.v, flange, focal)
		name = fmt.Sprintf("extension %s mm", trim(math.Round(sh.extension.v)))
		c.detail = fmt.Sprintf("telephoto, %s mm at infinity", trim(flange))
	case sh.extension.known:
		c.stops, ok = exposure.BellowsByExtension(sh.extension.v, focal)
		name = fmt.Sprintf("extension %s mm", trim(math.Round(sh.extension.v)))
		c.detail = fmt.Sprintf("2 log₂(%s/%s)", trim(math.Round(sh.extension.v)), trim(focal))
	default:
		c.stops, ok = exposure.BellowsByFocusDistance(sh.focus.v, focal)
		name = fmt.Sprintf("focus at %s m", trim(math.Round(sh.focus.v/10)/100))
		c.detail = "m = f/(u − f)"
	}
	if !ok {
		r.need("an extension or distance that the lens can have")
		return
	}
	r.bellows = exposure.Round(c.stops)
	r.low += r.bellows
	r.high += r.bellows
	r.step("bellows", name, &c)
}

// intended is what was asked for on purpose.
func (r *reckoning) intended() {
	if !r.sh.bracket.known {
		return
	}
	b := r.sh.bracket.v
	r.low += b
	r.high += b
	r.step("bracket", "bracket "+exposure.FormatStops(b), &cost{stops: b, detail: "on purpose", from: place(r.sh.bracket.at)})
}

// difference compares what was asked for with what was given.
func (r *reckoning) difference() {
	if r.blind != nil {
		r.state = record.NoImage
	} else {
		r.state = record.Unchecked
	}
	if !r.hasBase || len(r.needs) > 0 {
		return
	}
	total := 0.
	for _, step := range r.steps {
		total += step.Stops
	}
	r.asked = exposure.Round(r.base - total)
	if !r.hasGave {
		return
	}
	r.diff = exposure.Difference(r.asked, r.given)
	r.known = true
	for i := range r.fells {
		r.fells[i].Fell = record.Known(exposure.Round(exposure.Falls(r.fells[i].EV, r.given+total-r.intent())))
	}
	if r.blind == nil {
		r.state = r.judge()
	}
}

// intent is the bracket, which moves the areas too.
func (r *reckoning) intent() float64 {
	if r.sh.bracket.known {
		return r.sh.bracket.v
	}
	return 0
}

// judge is right or off. An undeclared filter is off only outside the span of
// all that was published, and a doubtful setting never accuses. Up to two thirds
// of a stop too much is habit on negative film: whether it counts is left to
// diagnose, unless the writer has stated a tolerance.
func (r *reckoning) judge() record.State {
	tol := r.kit.tolerance
	over := exposure.Difference(r.base-r.high, r.given) // at least so much too much
	under := exposure.Difference(r.base-r.low, r.given) // at least so much too little, negative
	if over <= tol.over+margin && under >= -tol.under-margin {
		return record.Right
	}
	if len(r.sh.doubts) > 0 {
		r.need("the value written with a question mark: " + r.sh.doubts[0].Text())
		return record.Unchecked
	}
	r.habit = !tol.own && over > 0 && over <= habitual+margin
	return record.Off
}

// margin is what the rounding of marks may add to a tolerance; habitual is what
// many give more than they need (common practice, no source).
const (
	margin   = 1. / 12
	habitual = 2. / 3
)
