package compile

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// assess assumes that every fact stands at its sheet. It leaves each sheet with
// what it needed, what it got and the difference, step by step, or with the one
// fact that would settle it. It blames nobody: that is for diagnose and check.
//
// The order is the one of the trade: the reading at the film's index, less the
// filters, less the bellows, less what was intended; reciprocity comes last, on
// the time that the shutter really gave.

func (s *season) assess() {
	s.lookUpFilters()
	s.convene()
	s.eachSheet(func(sh *sheet) {
		s.assessAlone(sh)
		s.otherwise(sh)
		s.doubted(sh)
	})
	s.unsureReadings()
	s.unsureFilters()
	s.sharedReadings()
	s.togethers()
}

// assessAlone is what there is to say of a sheet without the others.
func (s *season) assessAlone(sh *sheet) {
	b := sh.outing.book
	sh.slideSaid()
	sh.sum = s.assessed(sh, b.at100)
	if sh.lightLost > 0 {
		s.inUnreadLight(sh)
	}
	if !b.stated && leftOpen(sh.reading) && sh.sum.ei != 100 { // where both senses are one
		s.bothWays(sh, !b.at100)
	}
	if sh.sum.state == record.Off && sh.sum.ei == 0 && !b.stated && leftOpen(sh.reading) {
		sh.ask(s.indexOf(sh))
	}
	if sh.former.words != "" && (sh.sum.state == record.Off || sh.sum.state == record.Right && sh.former.ofDay) {
		s.inFormerLight(sh)
	}
	if sh.sum.state == record.Off && sh.scenes != nil {
		s.byScenesReading(sh)
	}
	if sh.elsewise != nil && !sh.wasAmended() {
		s.elsewise(sh)
	}
	if sh.sum.state == record.Off && sh.mayBracket != nil {
		s.bracketed(sh)
	}
	s.doubtedInKit(sh)
	s.whichThing(sh)
	s.lightOpen(sh)
}

// elsewise takes back what rests on whether a line that chose something since the sheet that another copies counts.
func (s *season) elsewise(sh *sheet) {
	way := sh.elsewise
	other := s.assessed(way.sheet, sh.outing.book.at100).state
	if sh.sum.state == record.Off && other == record.Right || way.both && sh.sum.state == record.Right && other == record.Off {
		sh.ask(way.asks)
	}
}

// bracketed takes back the blame of a copy that is right with the bracket of what it copies, or in the light
// to which it changed there.
func (s *season) bracketed(sh *sheet) {
	ways := []*sheet{sh}
	if sh.elsewise != nil {
		ways = append(ways, sh.elsewise.sheet)
	}
	from := sh.mayBracket
	for _, way := range ways {
		at := *way
		what := "is bracketed as "
		if from.bracket.known && !at.bracket.known {
			at.bracket = from.bracket
		}
		if from.lightBy.known && !at.lightBy.known {
			at.lightBy, what = from.lightBy, "stands in other light since the reading, as "
		}
		if s.assessed(&at, sh.outing.book.at100).state == record.Right {
			sh.ask("whether it " + what + from.label + ", which it copies")
			return
		}
	}
}

// byScenesReading takes back what rests on a light value behind a sheet's whole settings, or of a place before
// them, 1/60 f8, sky EV 15, or on a time alone, 128s metered, gave 338s: it may be one more that was read, or what the
// writer reckoned, and the sheet is right by that of the scene.
func (s *season) byScenesReading(sh *sheet) {
	if ahead := sh.reading.at.End <= sh.aperture.at.Start; ahead && (len(sh.reading.areas) != 1 || sh.reading.areas[0].placed) {
		return // sky EV 15 on VII, 1/60 f8
	}
	at := *sh
	at.reading, at.scenes = sh.scenes, nil
	if other := s.assessed(&at, sh.outing.book.at100); other.state == record.Right {
		sh.ask("whether " + sh.reading.at.Text() + " is its reading: it would be right by that of line " + fmt.Sprint(placeOf(sh.scenes.at).Line))
	}
}

// inUnreadLight leaves a sheet open that would need something else in the light of a line which could
// not be read.
func (s *season) inUnreadLight(sh *sheet) {
	b := sh.outing.book
	line := &b.Lines[sh.lightLost-1]
	at := *sh
	at.light = string(b.File.Text[line.Body:line.BodyEnd])
	if s.assessed(&at, b.at100).asked != sh.sum.asked {
		sh.unclear = fmt.Sprintf("the light on line %d", sh.lightLost) + notRead
		sh.sum = s.assessed(sh, b.at100)
	}
}

// inFormerLight takes back what rests on a scene's having ended the light before
// it: a sheet that is right in that light is not off for certain, and one that is off in
// that of the day is not right for certain.
func (s *season) inFormerLight(sh *sheet) {
	at := *sh
	at.light = sh.former.words
	other := s.assessed(&at, sh.outing.book.at100)
	if other.state != record.Right && other.state != record.Off || other.state == sh.sum.state {
		return
	}
	word := "right"
	if other.state == record.Off {
		word = "off"
	}
	sh.ask(fmt.Sprintf("the light: it would be %s in that of line %d, %s, which ended with its scene", word, placeOf(sh.former.at).Line, sh.former.words))
}

// sharedReadings takes back what rests on the index of a meter that stood
// before films of several: a reading is taken as at the index of each sheet's
// own film, but the meter has only one, most likely that of the first. A sheet on
// another film that is right at one of them is not off for certain, and one that is off at
// that of the first is not right.
func (s *season) sharedReadings() {
	shared := map[*reading][]float64{}
	for _, sh := range s.sheets {
		if sh.reading != nil && sh.reading.ei == 0 && sh.sum.ei != 0 && !slices.Contains(shared[sh.reading], sh.sum.ei) {
			shared[sh.reading] = append(shared[sh.reading], sh.sum.ei)
		}
	}
	for _, sh := range s.sheets {
		indices := shared[sh.reading]
		if len(indices) < 2 || indices[0] == sh.sum.ei || sh.fixedMeter() {
			continue
		}
		for n, ei := range indices {
			if ei == sh.sum.ei {
				continue
			}
			off, first := sh.sum.state == record.Off, sh.sum.state == record.Right && n == 0
			if right := (off || first) && s.rightAt(sh, ei); off && right || first && !right {
				sh.ask("the EI that the meter stood at: " + trim(sh.sum.ei) + " or " + trim(ei))
			}
		}
	}
}

// unsureReadings takes back the blame of sheets whose reading is that of another sheet, or of a line above
// both, which the words beside it leave open: what rests on it is as open.
func (s *season) unsureReadings() {
	unsure := map[source.Span]*sheet{}
	for _, sh := range s.sheets {
		if sh.readingAsks != "" {
			unsure[sh.reading.at] = sh
		}
	}
	for _, sh := range s.sheets {
		if sh.sum.state != record.Off || sh.reading == nil {
			continue
		}
		from := unsure[sh.reading.at]
		if from != nil && slices.EqualFunc(sh.reading.areas, from.reading.areas, func(a, b area) bool { return a.placed == b.placed && a.zone == b.zone }) {
			sh.ask(from.readingAsks)
		}
	}
}

// unsureFilters does the same for sheets that copy a filter of which it is asked whether it was on, and are right
// without it.
func (s *season) unsureFilters() {
	unsure := map[source.Span]string{}
	for _, sh := range s.sheets {
		maps.Copy(unsure, sh.filterAsks)
	}
	if len(unsure) == 0 {
		return
	}
	for _, sh := range s.sheets {
		for _, u := range sh.filters {
			asks := unsure[u.at]
			if asks == "" || sh.sum.state != record.Off {
				continue
			}
			without := *sh
			without.filters = slices.DeleteFunc(slices.Clone(sh.filters), func(other *use) bool { return other.at == u.at })
			if s.assessed(&without, sh.outing.book.at100).state == record.Right {
				sh.ask(asks)
			}
		}
	}
}

// rightAt reports whether a sheet is right if the meter stood at an index.
func (s *season) rightAt(sh *sheet, ei float64) bool {
	at, rd := *sh, *sh.reading
	rd.ei = ei
	at.reading = &rd
	sum := s.assessed(&at, false)
	return sum.state == record.Right
}

// togethers judges exposures on one sheet of film that were meant so as one: each may
// be half of what the reading asks for. Those that have no reading of their own, and do
// not come to what it asks for in all, are not judged: a light may have been meant for
// each.
func (s *season) togethers() {
	followed := map[*sheet]bool{}
	for _, sh := range s.sheets {
		if sh.first != nil && sh.onPurpose() {
			followed[sh.first] = true
		}
	}
	for i := len(s.sheets) - 1; i >= 0; i-- {
		if sh := s.sheets[i]; sh.first != nil && !followed[sh] && sh.onPurpose() {
			s.together(sh)
		}
	}
}

// together judges all exposures on a sheet of film, given the last.
func (s *season) together(last *sheet) {
	var all []*sheet
	light, complete := 0., true
	for one := last; one != nil; one = one.first {
		all = append(all, one)
		light += exposure.StopsFactor(-one.sum.given)
		complete = complete && one.sum.hasGave
	}
	first := all[len(all)-1]
	diff := exposure.Difference(first.sum.asked, -math.Log2(light))
	fits := complete && first.sum.hasAsked && math.Abs(diff) <= toleranceOf(first).most()
	for _, one := range all {
		own := one != first && one.ownReading
		switch {
		case own:
		case fits && (one.reading == first.reading || first.ownReading) && (one.sum.state == record.Off || one.sum.state == record.Unchecked && onlyReading(one.sum.needs)):
			one.sum.state, one.sum.diff, one.sum.known, one.sum.needs = record.Right, diff, true, nil
		case one.sum.state == record.Off && (one != first || one.sum.diff < 0):
			one.sum.state = record.Unchecked
			one.sum.needs = append(one.sum.needs, "what each of the exposures on this sheet of film was for: metered 4s f16, gave 4s f16")
		}
	}
}

func onlyReading(needs []string) bool {
	return len(needs) == 1 && (needs[0] == "the reading" || strings.HasPrefix(needs[0], "the reading: "))
}

// bothWays takes back what rests on a sense of light values that nothing decides: a sheet is off only where both
// senses say so, and right where both do, or where they lie no further apart than settings are rounded.
func (s *season) bothWays(sh *sheet, at100 bool) {
	other := s.assessed(sh, at100)
	apart := math.Abs(exposure.Difference(sh.sum.asked, other.asked)) > toleranceOf(sh).most()
	if sh.sum.state == record.Off && other.state == record.Right || apart && sh.sum.state == record.Right && other.state == record.Off {
		sh.ask("what the meter shows: meter spot: EV at 100, or EV at EI")
	}
}

// reckoning is one sheet's assessment in the making.
type reckoning struct {
	*season
	*assessment
	sh          *sheet
	at100       bool
	total       float64 // of the steps
	unsureMeter string  // a meter of which it is not clear how much it reads too much
	anyMeter    bool    // it is not said which of several meters, with different offsets, was read
	low, high   float64 // the least and the most that published filter values allow
}

// assessed computes a sheet, with light values read at ISO 100 or at the index.
func (s *season) assessed(sh *sheet, at100 bool) (sum assessment) {
	r := reckoning{season: s, assessment: &sum, sh: sh, at100: at100}
	switch {
	case has(sh.states, "unused"), lost(sh):
		r.state = record.Unexposed
		return sum
	}
	r.ei = s.rated(sh)
	if sh.unclear != "" {
		r.need(sh.unclear)
	}
	if words := sh.acrossChange(); words != "" {
		r.need("how long the shutter was open: " + quote(words))
	}
	if sh.unlit != "" {
		r.need("what light came by " + quote(sh.unlit))
	}
	r.reading()
	r.filters()
	r.extension()
	r.intended()
	r.changed()
	r.said()
	r.ask()
	r.gave()
	r.difference()
	return sum
}

// lost reports a sheet that was spoiled before anything was set, or that no light reached.
func lost(sh *sheet) bool {
	return (has(sh.states, "spoiled") || has(sh.states, "spoilt") || has(sh.states, "fogged") || has(sh.losses, slideLeft)) && !sh.aperture.known && !sh.time.known
}

// slideLeft is the loss to a dark slide that stayed in its holder.
const slideLeft = "slide"

// slideSaid takes it from what the sheet's own line says.
func (sh *sheet) slideSaid() {
	if !has(sh.losses, slideLeft) && slip.SlideOf(sh.remarks...) == slip.SlideLeft {
		sh.losses = append(sh.losses, slideLeft)
	}
}

// rated is the exposure index of a sheet: written with it, declared for the
// development wanted or the light, declared, else the box speed.
func (s *season) rated(sh *sheet) float64 {
	if sh.ei.known {
		return sh.ei.v
	}
	if sh.ei.v != 0 {
		return 0 // what may be it
	}
	f := s.filmOf(sh)
	if f == nil {
		return 0
	}
	n := sh.wanted
	if done := sh.developed; !n.known && len(done) > 0 && !done[len(done)-1].maybe {
		n = done[len(done)-1].n // nothing else was asked for
	}
	if ei := f.inN[n.v]; ei != 0 && n.known {
		return ei
	}
	return f.indexIn(sh.light)
}

// underLamps is a film's index by the light of lamps, whatever they are called where it is declared; 0 where
// there is none, or another for others.
func (f *film) underLamps(class string) (ei float64) {
	if class != handbook.Tungsten {
		return 0
	}
	for light, one := range f.inLight {
		if lightClass(light) != class {
			continue
		}
		if ei != 0 && ei != one {
			return 0
		}
		ei = one
	}
	return ei
}

// indexIn is a film's index in a light as the writer calls it: the one declared in those
// words, of several the longest, that of the light's class, or the one for all. It is 0
// where the light is of no class and the film's index differs by light.
func (f *film) indexIn(light string) float64 {
	words, longest, own := strings.ToLower(betweenWords.Replace(holdingLight(light))), 0, 0.
	for name, ei := range f.inLight {
		if _, ok := cutWords(words, name); ok && len(name) > longest {
			longest, own = len(name), ei
		}
	}
	class := lightClass(light)
	all := cmp.Or(f.ei, f.iso)
	if f.ei == 0 && f.unsure != "" {
		all = 0
	}
	switch {
	case longest > 0:
		return own
	case class != "":
		return cmp.Or(f.inLight[class], f.underLamps(class), all)
	}
	for _, ei := range f.inLight {
		if ei != all {
			return 0
		}
	}
	return all
}

func (s *season) filmOf(sh *sheet) *film {
	if sh.film.known {
		return sh.film.v
	}
	return nil
}

// needIndex asks for the film's index, for a reason where there is one.
func (r *reckoning) needIndex(why string) { r.need(r.indexOf(r.sh) + why) }

// indexOf is the index that a sheet lacks, in words.
func (s *season) indexOf(sh *sheet) string {
	switch f := s.filmOf(sh); {
	case f != nil && inLightOf(sh) != "" && len(f.inLight) > 0:
		return "the EI of " + f.name + inLightOf(sh)
	case sh.ei.v != 0 && !sh.ei.known:
		return "the EI of the film, which " + sh.ei.at.Text() + " may be"
	case f != nil && f.ei == 0 && f.unsure != "":
		return "the EI of " + f.name + ", which " + f.unsure + " may be or change"
	}
	return "the film and its EI"
}

func (r *reckoning) need(fact string) {
	for _, n := range r.needs {
		if n == fact {
			return
		}
	}
	r.needs = append(r.needs, fact)
}

// ask adds up what the film needed.
func (r *reckoning) ask() {
	if r.owing = slices.Clone(r.needs); !r.hasBase || len(r.needs) > 0 {
		return
	}
	for _, step := range r.steps {
		r.total += step.Stops
	}
	r.asked, r.hasAsked = exposure.Round(r.base-r.total), true
}

// difference compares what was asked for with what was given.
func (r *reckoning) difference() {
	r.state = record.Unchecked
	if r.hasAsked && r.hasGave && len(r.needs) == 0 {
		r.diff, r.known = exposure.Difference(r.asked, r.given), true
		for i := range r.fells {
			settings := r.given + r.total - r.intent()
			r.fells[i].Fell = record.Known(exposure.Round(exposure.Falls(r.fells[i].EV, settings)))
		}
		r.state = r.judge()
	}
	if r.state == record.Off && r.sh.tests() != "" {
		r.state = record.Right // a test is exposed otherwise than asked on purpose
	}
	if r.blind != nil {
		r.state = record.NoImage
	}
}

// judge is right or off. An undeclared filter is off only outside the span of
// all that was published, and a doubtful setting never accuses. Up to two thirds
// of a stop too much is habit on negative film: whether it counts is left to
// diagnose, unless the writer has stated a tolerance.
func (r *reckoning) judge() record.State {
	tol := toleranceOf(r.sh)
	over := exposure.Difference(r.leastBase-r.high, r.least) // at least so much too much
	under := exposure.Difference(r.mostBase-r.low, r.given)  // at least so much too little, negative
	unknown := r.acquitsNobody()
	switch {
	case unknown != "":
	case over <= exposure.Round(tol.most()) && under >= -exposure.Round(tol.least()): // the limit itself is within
		return record.Right
	default:
		unknown = r.blamesNobody(over > 0)
	}
	if unknown != "" {
		r.need(unknown)
		return record.Unchecked
	}
	r.habit = !tol.own && over > 0 && over <= habitual+margin
	return record.Off
}

// asOne is the difference of a sheet with its several exposures counted as one long one, and
// whether it is right only so.
func (sh *sheet) asOne() (stops float64, only bool) {
	a := &sh.sum
	stops = exposure.Difference(a.asked, a.least)
	return stops, a.state == record.Right && a.least > a.given && a.diff > toleranceOf(sh).over+pastTolerance
}

// pastTolerance is how far past the tolerance a difference is to be before why it is right
// is said, in stops.
const pastTolerance = 1. / 100

// asksOf is what is asked about words that may name a filter, or say whether one was on.
func (sh *sheet) asksOf(words string) string {
	if words == sh.maybeOn {
		return "whether the filter was on: " + quote(words)
	}
	k := kitOf(sh)
	return cmp.Or(k.whichOf(words, k.inOtherWords(words)), "what "+quote(words)+" is, and what it costs")
}

// drawnInReading asks of a sheet with an extension whether it is in the reading already, "" where that is
// clear.
func (sh *sheet) drawnInReading() string {
	if sh.reading == nil || sh.reading.maybeDrawn == "" || !sh.saysDrawn() {
		return ""
	}
	return "whether the extension is in the reading: " + quote(sh.reading.maybeDrawn)
}

// acquitsNobody is what must be known before a sheet can be called right, "" for nothing.
func (r *reckoning) acquitsNobody() string {
	switch sh := r.sh; {
	case sh.strange:
		return sh.asksOf(sh.vague)
	case sh.reading != nil && sh.reading.half && sh.reading.open != "":
		return sh.reading.open + ", in the reading"
	case sh.drawnInReading() != "":
		return sh.drawnInReading()
	case r.unsureMeter != "":
		return "how much is added to the readings of the meter " + r.unsureMeter
	}
	return ""
}

// blamesNobody is what must be known before a sheet that looks wrong, with too much or too
// little, can be called so, "" for nothing.
func (r *reckoning) blamesNobody(over bool) string {
	sh := r.sh
	if words := sh.open(); words != "" {
		return sh.asksOf(words)
	}
	if sh.aside != "" {
		return "whether " + quote(sh.aside) + " is a setting of it"
	}
	if sh.maybeBath != "" && math.Abs(r.diff) > noSlip {
		return "the time, and whether " + sh.maybeBath + " is it or that of the development"
	}
	if sh.time.known && r.diff > noSlip && sh.maybeHour() {
		return "whether " + quote(sh.time.at.Text()) + " is the hour or how long it was exposed"
	}
	if sh.reading != nil && sh.reading.open != "" {
		return sh.reading.open + ", in the reading"
	}
	if sh.reading != nil && sh.reading.maybePlaced != "" {
		return "whether the reading was placed: " + quote(sh.reading.maybePlaced)
	}
	if r.anyMeter {
		return "which meter was read, since not all read alike"
	}
	if words := sh.drawnInReading(); words != "" {
		return words
	}
	if sh.reading != nil && sh.reading.maybeThrough {
		return "whether the meter looked through the filter: metered through the filter, or metered without it"
	}
	if sh.covered != "" && over && r.seconds >= 1 {
		return "how long the lens was covered: " + quote(sh.covered)
	}
	if words := sh.meantSo(r.diff); words != "" && !sh.bracket.known {
		return "how much was meant by " + quote(words) + ": it is written bracket " + exposure.FormatStops(math.Round(3*r.diff)/3)
	}
	if words := sh.mayFlash(); words != "" {
		return "whether a flash lit it: " + quote(words)
	}
	if words := sh.lamp(); words != "" && !over {
		return "what light came by " + quote(words)
	}
	if words := r.changing(over); words != "" {
		return "what the meter showed when it was exposed, after " + quote(words)
	}
	if len(sh.doubts) > 0 && sh.doubts[0] == sh.mayScale {
		return "whether " + quote(sh.mayScale.Text()) + " is the scale of the picture: it is written mag 1:1"
	}
	if len(sh.doubts) > 0 {
		return "the value that the notes mark as doubtful: " + sh.doubts[0].Text()
	}
	if words := sh.unsure(); words != "" {
		return "the value that the notes mark as doubtful: " + quote(words)
	}
	if said := r.doubtfulInKit(); said != "" {
		return "the value that the kit marks as doubtful: " + said
	}
	return ""
}

// doubtfulInKit is what a sheet was reckoned with and the kit marks as doubtful, "" for none.
func (r *reckoning) doubtfulInKit() string {
	for _, u := range r.owes {
		if u.cost != nil && u.cost.doubtful {
			return u.name + " " + u.cost.detail
		}
	}
	if r.sh.ei.doubt {
		return r.sh.ei.at.Text()
	}
	if f := r.filmOf(r.sh); f != nil && !r.sh.ei.known {
		return f.doubtful
	}
	return ""
}

// noSlip is a difference in stops that hardly any slip makes, so that a time that makes it may be no exposure's
// (common practice, no source).
const noSlip = 6

// maybeHour reports whether a sheet's time may be the hour as well: 6h20, 9:30 h, and 9:30 at the head of its line.
func (sh *sheet) maybeHour() bool {
	said := strings.ToLower(sh.time.at.Text())
	if strings.HasPrefix(strings.TrimSpace(sh.lines[0].Body.Text()), said) {
		said += "h"
	}
	return likeHour().MatchString(said)
}

var likeHour = pattern.Lazily(`^(?:[01]?[0-9]|2[0-3]) ?(?:h ?[0-5][0-9]h?|:[0-5][0-9] ?h)$`)

// margin is what the rounding of marks may add to a tolerance; habitual is what
// many give more than they need (common practice, no source).
const (
	margin   = 1. / 12
	habitual = 2. / 3
)
