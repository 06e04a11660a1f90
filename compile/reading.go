package compile

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What the meter said, brought to the film's exposure index.

// convene settles, for each notebook, what its light values mean. Spot meters
// show EV at ISO 100 or at the index set, and few people write which. Where no
// meter line says it, the sense under which clearly more of the notebook's
// sheets come out right is taken.
func (s *season) convene() {
	for _, b := range s.books {
		var first *meter
		for _, m := range b.kit.meters {
			switch {
			case !m.stated:
			case first == nil:
				first = m
				b.at100, b.ownEI, b.stated = m.at100, m.ei, true
			case m.at100 != first.at100 || m.ei != first.ei:
				b.unlike = true
			}
		}
	}
	open := func(sh *sheet) bool { return !sh.outing.book.stated && leftOpen(sh.reading) }
	fits := make([][2]bool, len(s.sheets)) // at the index, at ISO 100
	s.eachSheet(func(sh *sheet) {
		if open(sh) && s.rated(sh) != 100 { // where the two are one, nothing is learnt
			fits[sh.index] = [2]bool{s.assessed(sh, false).state == record.Right, s.assessed(sh, true).state == record.Right}
		}
	})
	right := map[*book][2]int{}
	for i, sh := range s.sheets {
		if !open(sh) {
			continue
		}
		count := right[sh.outing.book]
		for sense, fit := range fits[i] {
			if fit {
				count[sense]++
			}
		}
		right[sh.outing.book] = count
	}
	for b, count := range right {
		b.at100 = count[1] > count[0]
		b.stated = count[1] >= count[0]+2 || count[0] >= count[1]+2
		b.fits = count
	}
}

// sensesTaken says once for a notebook what its light values were taken for, where its sheets decided it.
func (s *season) sensesTaken() {
	told := map[*book]bool{}
	for _, sh := range s.sheets {
		b := sh.outing.book
		if told[b] || b.fits == [2]int{} || !b.stated || !leftOpen(sh.reading) {
			continue
		}
		told[b] = true
		index, at100 := "at the film's index", "at ISO 100"
		taken, other, fit, unfit := index, at100, b.fits[0], b.fits[1]
		if b.at100 {
			taken, other, fit, unfit = at100, index, b.fits[1], b.fits[0]
		}
		s.report("light-values-taken", sh.reading.at, "light values are taken as "+taken).
			note(fmt.Sprintf("%s right so, and %s as %s", counted(fit, "sheet comes out", "sheets come out"), trim(float64(unfit)), other)).
			note("it is said once: meter spot: EV at 100, or meter spot: EV at EI")
	}
}

// leftOpen reports whether a reading's light values could be at ISO 100 or at
// the film's index.
func leftOpen(rd *reading) bool { return rd != nil && rd.ei == 0 && hasEV(rd) }

// fixedMeter reports whether a sheet's reading is in light values of a meter that is
// declared to show them at ISO 100: no index that it stood at can be the wrong one.
func (sh *sheet) fixedMeter() bool {
	rd, b := sh.reading, sh.outing.book
	return rd != nil && rd.ei == 0 && !slices.ContainsFunc(rd.areas, func(a area) bool { return !a.asEV || a.shownAt(b, b.at100 && b.stated) != 100 })
}

func hasEV(rd *reading) bool {
	for i := range rd.areas {
		if a := &rd.areas[i]; a.asEV && (a.by == nil || !a.by.stated) {
			return true
		}
	}
	return false
}

// reading brings what the meter said to the film's index.
func (r *reckoning) reading() {
	rd := r.sh.reading
	switch {
	case rd == nil || rd.kind != "sunny 16" && len(rd.areas) == 0:
		what := "the reading"
		if r.sh.ended != 0 {
			what += fmt.Sprintf(": that above ended with the heading on line %d", r.sh.ended)
		}
		r.need(what)
		return
	case rd.doubtful:
		r.need("the reading, which the notes mark as doubtful")
		return
	case rd.kind == "sunny 16":
		r.sunny()
		return
	}
	shift, ok := r.shift(rd)
	if !ok {
		return
	}
	var few [4]area // more than four areas are rare, and go to the heap
	areas := append(few[:0], rd.areas...)
	for i := range areas {
		a := &areas[i]
		if !a.complete() {
			r.need("the other half of the reading " + a.at.Text())
			return
		}
		a.ev += shift + r.offset(a)
		if rd.ei == 0 {
			a.ev += r.shown(a)
		}
	}
	r.place(rd, areas)
}

// shift is what a meter set to another index than the film's adds.
func (r *reckoning) shift(rd *reading) (stops float64, ok bool) {
	if rd.ei == 0 {
		return 0, true
	}
	if r.ei == 0 {
		r.needIndex(", since the meter stood at EI " + trim(rd.ei))
		return 0, false
	}
	stops, ok = exposure.SpeedShift(r.ei, rd.ei)
	if !ok {
		r.need("an EI above 0")
	}
	return stops, ok
}

// offset is what the meter is known to read too much or too little. Of several meters
// the one that is named counts, or what they have alike.
func (r *reckoning) offset(a *area) float64 {
	meters := kitOf(r.sh).meters
	for _, m := range meters {
		if m.unsure != "" && (a.by == nil || a.by == m) {
			r.unsureMeter = m.name + ", " + m.unsure
		}
	}
	switch {
	case a.by != nil:
		return a.by.offset
	case len(meters) == 0:
		return 0
	case slices.ContainsFunc(meters, func(m *meter) bool { return m.offset != meters[0].offset }):
		r.anyMeter = true
		return 0
	}
	return meters[0].offset
}

// shown is what turns a reading as its meter shows it into one at the film's index.
func (r *reckoning) shown(a *area) float64 {
	b := r.sh.outing.book
	if a.asEV && (a.by == nil || !a.by.stated) && b.unlike {
		var names []string
		for _, m := range kitOf(r.sh).meters {
			names = append(names, m.name)
		}
		r.need("which meter showed " + a.at.Text() + ": " + strings.Join(names, " or ") + "; a line meter: " + names[0] + " chooses it for the readings below")
		return 0
	}
	at := a.shownAt(b, r.at100)
	if at == 0 {
		return 0
	}
	if r.ei == 0 {
		r.needIndex("")
		return 0
	}
	shift, _ := exposure.SpeedShift(r.ei, at)
	return shift
}

// shownAt is the index at which a reading is that is not said to be at any: that of its
// meter, ISO 100 for light values of some, 0 for the film's.
func (a *area) shownAt(b *book, at100 bool) float64 {
	switch {
	case a.by != nil && a.by.ei != 0:
		return a.by.ei
	case !a.asEV:
		return 0
	case a.by != nil && a.by.stated:
		at100 = a.by.at100
	case b.ownEI != 0:
		return b.ownEI
	}
	if at100 {
		return 100
	}
	return 0
}

// shownAt is the index at which a sheet's light values were shown, 0 for the film's.
func (sh *sheet) shownAt() float64 {
	for i := range sh.reading.areas {
		if a := &sh.reading.areas[i]; a.asEV {
			return a.shownAt(sh.outing.book, sh.outing.book.at100)
		}
	}
	return 0
}

// sunny is the rule of thumb: f/16 at 1/EI in the sun.
func (r *reckoning) sunny() {
	if r.ei == 0 {
		r.needIndex("")
		return
	}
	steps := 0.
	if light, ok := lightState(r.sh.light); ok {
		steps = light.Steps()
	}
	sv, _ := exposure.SpeedSv(r.ei)
	r.base, r.hasBase = exposure.Sunny16(sv, steps), true
	r.leastBase, r.mostBase = r.base, r.base
	r.howBase = "f/16 at 1/EI in the sun, " + exposure.InStops(steps) + " less light"
}

// place finds the base exposure of the areas: the mean, the lowest placed zone,
// or the only reading.
func (r *reckoning) place(rd *reading, areas []area) {
	lowest := lowestPlaced(areas)
	switch {
	case rd.kind == "average":
		evs := make([]float64, len(areas))
		for i, a := range areas {
			evs[i] = a.ev
		}
		r.base, _ = exposure.Mean(evs...)
		r.howBase = "the mean of " + counted(len(evs), "reading", "readings")
	case firstAndLast(areas) && exposure.Round(areas[0].ev) != exposure.Round(areas[1].ev):
		r.need("the light for most of the exposure, or the word average: it " + wentBy(exposure.Round(areas[1].ev-areas[0].ev)) + ", from " + exposure.FormatEV(areas[0].ev) + " to " + exposure.FormatEV(areas[1].ev))
		return
	case lowest >= 0:
		a := &areas[lowest]
		r.base = exposure.Place(a.ev, a.zone)
		r.howBase = exposure.FormatEV(a.ev) + " on " + exposure.Roman(a.zone)
	case firstAndLast(areas):
		r.base = areas[0].ev // it stayed
	case len(areas) > 1:
		r.need("the zone of one of the readings, or the word average")
		return
	default:
		r.base = areas[0].ev
	}
	r.hasBase = true
	r.base = exposure.Round(r.base)
	r.leastBase, r.mostBase = r.base, r.base
	if lowest >= 0 {
		r.otherPlacements(areas, lowest)
	}
	r.sums(areas, lowest)
	r.fell(areas)
}

// firstAndLast reports whether two readings are of one place, at the beginning and at the end of an exposure, by
// the words that stand before the first, between them and behind the second.
func firstAndLast(areas []area) bool {
	if len(areas) != 2 {
		return false
	}
	one, two := areas[0].at, areas[1].at
	if one.File == nil || one.File != two.File || one.End > two.Start {
		return false
	}
	line := one.File.Line(one.Start)
	if two.End > line.End {
		return false
	}
	if rest := one.File.Text[one.End:line.End]; !slices.ContainsFunc(tellsOfTwo, func(word string) bool { return bytes.Contains(rest, []byte(word)) }) {
		return false // as nearly all
	}
	words := func(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }
	before := string(one.File.Text[line.Start:one.Start])
	before = before[strings.LastIndexAny(before, ",;:")+1:]
	said := strings.FieldsFunc(words(withoutZones(string(one.File.Text[one.End:two.Start]))), func(c rune) bool { return strings.ContainsRune(" ,;", c) })
	between := strings.Join(slices.DeleteFunc(said, func(word string) bool { return settingBeside().MatchString(word) }), " ")
	name := words(areas[1].name)
	last, _, _ := strings.Cut(string(one.File.Text[two.End:line.End]), ",")
	if i := strings.IndexAny(last, ";()"); i >= 0 {
		last = last[:i]
	}
	if becomesEV().MatchString(strings.TrimSpace(between + " " + name)) {
		return true
	}
	return endsAs().MatchString(words(last)) && (name == "" || name == "and" || beginsAs().MatchString(name)) && (between == "" || between == "and" || beginsAs().MatchString(words(before+" "+between)))
}

// The words are those of notes read for this (common practice, no source).
var (
	// tellsOfTwo are parts of all words that make two readings the first and the last, which are quicker to look for.
	tellsOfTwo = []string{"the ", "after", "when", "last", "then", "->", "→", "=>", " to ", "becoming"}

	settingBeside = pattern.Lazily(`^(?:f/?)?\d\S*$`)

	beginsAs  = pattern.Lazily(`^(?:metered |reading |read )?(?:at first|first|before|at the (?:start|beginning|outset)|to begin with|to start with|when i (?:opened|began|started)(?: (?:it|the shutter))?)(?:,? (?:and|but|then))?$`)
	becomesEV = pattern.Lazily(`^(?:->|→|=>|falling to|fell to|dropping to|dropped to|down to|sinking to|fading to|rising to|rose to|going to|went to|becoming)$`)
	endsAs    = pattern.Lazily(`^(?:at|by|towards) the (?:end|close|finish)(?: of (?:it|the exposure))?$|^(?:after|afterwards|after it|when (?:done|finished|closed|i closed(?: (?:it|the shutter))?|it was (?:over|done))|at last|by then)$`)
)

// sums holds the writer's own against the placement. Half a zone is within what one
// rounds in the head.
func (r *reckoning) sums(areas []area, lowest int) {
	if lowest < 0 {
		return
	}
	for i := range areas {
		a := &areas[i]
		if fell := exposure.Falls(a.ev, r.base); a.falls.known && math.Abs(fell-a.falls.v) > 0.5+margin {
			r.misfelt = &misfelt{at: a.falls.at, name: a.name, zone: fell, said: a.falls.v, placed: r.howBase}
			return
		}
	}
}

// misfelt is a zone that the writer's sum of a reading has wrong.
type misfelt struct {
	at         source.Span
	name       string
	zone, said float64
	placed     string
}

// fallsElsewhere tells a reading's wrong sum, once for all sheets that rest on it.
func (s *season) fallsElsewhere() {
	told := map[source.Span]bool{}
	for _, sh := range s.sheets {
		m := sh.sum.misfelt
		if m == nil || told[m.at] {
			continue
		}
		told[m.at] = true
		s.report("falls-elsewhere", m.at, strings.TrimSpace(m.name+" falls on "+exposure.Roman(exposure.Round(m.zone)))+", not on "+exposure.Roman(m.said), sh).
			note("with " + m.placed + "; one zone is one stop")
	}
}

// lowestPlaced is the area that rules the exposure: shadows are placed, and
// everything else falls.
func lowestPlaced(areas []area) int {
	lowest := -1
	for i := range areas {
		if a := &areas[i]; a.placed && (lowest < 0 || a.zone < areas[lowest].zone) {
			lowest = i
		}
	}
	return lowest
}

// otherPlacements takes what else was placed: a second low placement that asks
// for another exposure makes a range, a high one asks for a development that
// brings it where it was meant.
func (r *reckoning) otherPlacements(areas []area, lowest int) {
	for i := range areas {
		a := &areas[i]
		if !a.placed || i == lowest {
			continue
		}
		if a.zone < 5 {
			base := exposure.Round(exposure.Place(a.ev, a.zone))
			r.leastBase, r.mostBase = min(r.leastBase, base), max(r.mostBase, base)
			continue
		}
		fell := exposure.Falls(a.ev, r.base)
		if asks := math.Round((a.zone-fell)*2) / 2; asks != 0 {
			r.asksN, r.asksFor = asks, a.name
		}
	}
}

// fell keeps the areas for the record; where they fell is known only when the
// sheet's exposure is.
func (r *reckoning) fell(areas []area) {
	if len(areas) == 1 && areas[0].name == "" && !areas[0].placed {
		return // the reading itself says it all
	}
	r.fells = make([]record.Area, 0, len(areas))
	for i := range areas {
		a := &areas[i]
		fell := record.Area{Name: a.name, EV: exposure.Round(a.ev)}
		if a.placed {
			fell.Meant = record.Known(a.zone)
		}
		r.fells = append(r.fells, fell)
	}
}
