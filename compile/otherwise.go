package compile

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"gonum.org/v1/gonum/floats"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/source"
)

// A sheet is called off only where it is off in every way in which its line may be read.
// Words are taken as most people mean them; where a line has figures or filters beside those
// that it was reckoned with, or such as stand in words that leave open whether they count,
// each is tried in its turn. If one of them makes the sheet right, it is asked about, and
// the sheet is not blamed.

// another is another way to read a line: what would have to be known, and what it puts in
// the place of what was understood.
type another struct {
	asks string
	put  func(*sheet)
}

// otherwise takes back the blame where another reading of a sheet's line makes it right.
func (s *season) otherwise(sh *sheet) {
	if sh.sum.state != record.Off || len(sh.amends) > 0 {
		return
	}
	if _, again := eachExposure(sh.lines[0]); again != nil {
		return // the figures are of two exposures
	}
	l := otherWords(sh, s.names)
	for _, kind := range []func() []another{
		l.times, l.apertures, l.filters, l.readings, l.bellows, l.films, l.onPurpose,
		func() []another { return l.around(s) }, func() []another { return l.spoken(s) },
	} {
		for _, way := range kind() { // looked for where those before it did not help
			at := *sh
			way.put(&at)
			if s.assessed(&at, sh.outing.book.at100).state == record.Right {
				sh.sum.state = record.Unchecked
				sh.sum.needs = append(sh.sum.needs, way.asks)
				return
			}
		}
	}
}

// otherLine is what stands on a sheet's line: its terms, and those that its words would be.
type otherLine struct {
	sh    *sheet
	terms []lang.Term
	prose []otherProse
	words []string // all of the line, in lower case
	said  []string // its words and remarks, each by itself, but for those that own to a slip
	zones []float64
}

// otherProse is a remark, or words between the terms, with the terms that it would have.
type otherProse struct {
	said  string
	terms []lang.Term

	filters []lang.Term // the terms, where what may join two filters is taken for a plus
	put     bool        // that something stands otherwise than it is written: wrong, it was 1s
	bracket bool        // a remark in brackets: 80s (4m58 with the curve)
}

// otherWords looks through a sheet's line for what else it may say.
func otherWords(sh *sheet, names *lang.Lexicon) *otherLine {
	l := &otherLine{sh: sh}
	all := sh.lines[0].Terms
	for i := range all {
		t := &all[i]
		if t.Struck || withdrawn(all, i) {
			if k, ok := t.Kind.(*lang.Exposure); ok && k.Zone != nil {
				l.zones = append(l.zones, float64(*k.Zone)) // EV 9 on II no wait EV 8
			}
			continue
		}
		l.terms = append(l.terms, *t)
		said := strings.Join(wordsOf(t.Kind), " ")
		remark, remarked := t.Kind.(*lang.Remark)
		if remarked {
			said = remark.Text
		}
		low := strings.ToLower(said)
		l.words = append(l.words, strings.FieldsFunc(low, func(c rune) bool { return !unicode.IsLetter(c) })...)
		slip := remarked && ownsToSlip().MatchString(low)
		if said != "" && !slip {
			l.said = append(l.said, said)
		}
		if !strings.ContainsAny(said, "0123456789IVXl/") { // as every figure, zone and pair of filters has
			continue
		}
		p := otherProse{said: said, put: putRight().MatchString(low), bracket: remarked && strings.ContainsAny(t.Span.Text()[:1], "([")}
		if slip && !p.put {
			continue // it says what would have been right
		}
		p.terms = lang.Within(said, names)
		if apart := betweenFilters.Replace(said); apart != said {
			p.filters = lang.Within(apart, names)
		}
		l.prose = append(l.prose, p)
	}
	return l
}

// betweenFilters are the marks and words that people put between two filters, or within the
// name of one.
var betweenFilters = strings.NewReplacer("/", " + ", "-", "", " over ", " + ", " on ", " + ")

// putRight are words by which a remark corrects what its line says, or doubts it (common
// practice, no source).
var putRight = lang.Lazily(`\b(?:it was|was it|in fact|after all|in truth|really|actually|actual|says?|reads?|recte|correct|correction|i mean|meant|rather|wrote (?:it|that)? ?(?:down )?wrong|wrong, )\b|^(?:no|not|wrong|sorry)\b`)

// withdrawn reports whether a term stands beside a word that takes it back.
func withdrawn(all []lang.Term, i int) bool {
	is := func(n int) bool {
		if n < 0 || n >= len(all) {
			return false
		}
		_, no := all[n].Kind.(*lang.Withdraw)
		return no
	}
	return is(i-1) || is(i+1)
}

// times are the other times of the line, as the exposure's own, or as parts of it: one that
// was added, or that the lens was covered for.
func (l *otherLine) times() (ways []another) {
	sh := l.sh
	if !sh.time.known || sh.time.copied || sh.time.carried != nil {
		return nil
	}
	given, ok := exposures(sh.time.v)
	if !ok {
		return nil
	}
	try := func(said string, parts ...lang.Seconds) {
		put := func(at *sheet) { at.time.v, at.covered = lang.Time{Parts: parts}, "" }
		asks := "whether " + quote(said) + " is its time, or a part of it"
		ways = append(ways, another{asks, put})
		if above := sh.above; above != nil && onlyTimes(sh.reading) {
			ways = append(ways, another{asks, func(at *sheet) { put(at); at.reading = above }})
		}
	}
	total, rest := floats.Sum(given), 0.
	if len(given) > 1 {
		ways = append(ways, l.onceOnly(given)...)
	}
	seconds := func(s float64) lang.Seconds { return lang.Seconds{Num: s, Den: 1} }
	beside := func(t *lang.Term, alone, added, taken bool) {
		for _, time := range timesOf(t.Kind) {
			each, ok := exposures(time)
			if !ok {
				continue
			}
			said, sum := strings.TrimSpace(t.Span.Text()), floats.Sum(each)
			if alone {
				try(said, time.Parts...)
			}
			if sum < 1 || total < 1 { // by hand it takes longer
				continue
			}
			if rest += sum; added {
				try(said, seconds(total+sum))
				if rest > sum {
					try(said, seconds(total+rest))
				}
			}
			if taken && total > sum {
				try(said, seconds(total-sum))
			}
		}
	}
	for i := range l.terms {
		if t := &l.terms[i]; !liesIn(sh.time.at, t.Span) && !l.settled(t.Span) {
			beside(t, true, true, true)
		}
	}
	for _, p := range l.prose {
		words := strings.Fields(strings.ToLower(p.said))
		added, taken := says(words, goesOn), says(words, coverings) || says(words, covers)
		for i := range p.terms {
			beside(&p.terms[i], p.put || p.bracket, added, taken || p.bracket)
		}
	}
	return ways
}

// The words are those of notes read for this (common practice, no source).
var (
	goesOn = lang.SetOf("another more again then plus and second extra further – - —")
	covers = lang.SetOf("card hat cap hand cloth lid dark waited wait car cars bus lorry people person next")
)

// onceOnly are the times of one that is written as several: 2x 1/15 is also a filter's factor,
// and 23:58 + 7 min an hour of the clock.
func (l *otherLine) onceOnly(given []float64) (ways []another) {
	sh := l.sh
	said := strings.TrimSpace(sh.time.at.Text())
	if count := sh.time.v.Count; count != nil && behindWords(sh.time.at) {
		asks := "whether " + quote(said) + " is exposures, or a factor and a time"
		once := func(at *sheet) { at.time.v.Count = nil }
		ways = append(ways, another{asks, once}, another{asks, func(at *sheet) {
			once(at)
			stops, _ := exposure.FactorStops(float64(*count))
			at.extra -= stops
		}})
	}
	if len(sh.time.v.Parts) > 1 && strings.Contains(said, ":") {
		for _, part := range sh.time.v.Parts {
			ways = append(ways, another{"whether " + quote(said) + " is an hour or a time", func(at *sheet) { at.time.v.Parts = []lang.Seconds{part} }})
		}
	}
	return ways
}

// behindWords reports whether a word or a filter stands right before a stretch.
func behindWords(at source.Span) bool {
	if unicode.IsLetter([]rune(at.Text())[0]) {
		return true // of the same term
	}
	before := strings.TrimRight(string(at.File.Text[at.File.Line(at.Start).Start:at.Start]), " \t")
	return before != "" && strings.IndexByte(",:;", before[len(before)-1]) < 0
}

// settled reports whether a stretch is no other way to read the sheet: it is a whole reading,
// or stands before the word that leads to what was given, by which it was the meter's.
func (l *otherLine) settled(at source.Span) bool {
	for i := range l.terms {
		t := &l.terms[i]
		cue, leads := t.Kind.(*lang.Cue)
		_, arrow := t.Kind.(*lang.Arrow)
		if (leads && cue.Word == "gave" || arrow) && at.End <= t.Span.Start && l.sh.time.at.Start >= t.Span.End {
			return true
		}
	}
	if rd := l.sh.reading; rd != nil && l.sh.ownReading {
		for i := range rd.areas {
			if a := &rd.areas[i]; liesIn(at, a.at) && a.hasAv && !a.lent {
				return true
			}
		}
	}
	return false
}

// onlyTimes reports whether a reading shows times and nothing beside them.
func onlyTimes(rd *reading) bool {
	return rd != nil && !slices.ContainsFunc(rd.areas, func(a area) bool { return a.asEV || a.hasAv && !a.lent })
}

// timesOf are the times of a term.
func timesOf(kind any) (all []lang.Time) {
	var k *lang.Exposure
	switch kind := kind.(type) {
	case *lang.Exposure:
		k = kind
	case *lang.Sum:
		k = kind.Exposure
	case *lang.Clock:
		if from, to, ok := strings.Cut(kind.Time, "-"); ok && from != "" && to != "" {
			return []lang.Time{{Parts: []lang.Seconds{{Num: openFor(from, to), Den: 1}}}}
		}
	}
	if k == nil || k.EV != nil || k.Zone != nil {
		return nil
	}
	for _, part := range k.Parts {
		if part.Time != nil {
			all = append(all, *part.Time)
		}
	}
	return all
}

// apertures are those of words that put the line right.
func (l *otherLine) apertures() (ways []another) {
	for _, p := range l.prose {
		if p.put {
			ways = append(ways, putTo(p.terms, "whether "+quote(p.said)+" puts it right")...)
		}
	}
	return ways
}

// putTo are the settings among some terms, put in the place of a sheet's own: each aperture,
// each time, and both.
func putTo(terms []lang.Term, asks string) (ways []another) {
	var times []lang.Time
	for i := range terms {
		times = append(times, timesOf(terms[i].Kind)...)
	}
	for _, time := range times {
		ways = append(ways, another{asks, func(at *sheet) { at.time.v = time }})
	}
	for i := range terms {
		k, ok := terms[i].Kind.(*lang.Exposure)
		if !ok || k.EV != nil {
			continue
		}
		for _, part := range k.Parts {
			if part.Aperture == nil {
				continue
			}
			ways = append(ways, another{asks, func(at *sheet) { at.aperture.v = *part.Aperture }})
			for _, time := range times {
				ways = append(ways, another{asks, func(at *sheet) { at.aperture.v, at.time.v = *part.Aperture, time }})
			}
		}
	}
	return ways
}

// around is what stands in the lines that were not read: a reading above the sheet and below
// the one that counts, and settings right below its line, which may put it right.
func (l *otherLine) around(s *season) (ways []another) {
	sh := l.sh
	b := sh.outing.book
	own := lineIndex(b, sh.at.Start)
	within := func(i int) (said string, terms []lang.Term) {
		line := &b.Lines[i]
		if said = strings.TrimSpace(string(b.File.Text[line.Body:line.BodyEnd])); line.Kind == lang.Log || !settingLike().MatchString(said) || ownsToSlip().MatchString(strings.ToLower(said)) {
			return said, nil
		}
		return said, lang.Within(said, s.names)
	}
	asks := func(i int, said, what string) string {
		return "whether " + quote(said) + " on line " + fmt.Sprint(i+1) + " says its " + what
	}
	for i := own - 1; i >= 0 && sh.reading != nil && !sh.ownReading && sh.reading.at.File == b.File && b.Lines[i].Start > sh.reading.at.Start; i-- {
		said, terms := within(i)
		for _, rd := range l.readingsIn(terms, s) {
			ways = append(ways, another{asks(i, said, "reading"), func(at *sheet) { at.reading = rd }})
		}
	}
	for i := own + 1; i < len(b.Lines) && b.Lines[i].Kind != lang.Log; i++ {
		said, terms := within(i)
		ways = append(ways, putTo(terms, asks(i, said, "settings"))...)
	}
	return ways
}

// settingLike is what an aperture, a time or a light value has.
var settingLike = lang.Lazily(`[fF@/][ .]?[0-9]|[0-9][ ]?(?:[/"'′″smhSMH]|mins?|min|sec)|(?i:\bEV\b)`)

// readingsIn are the whole readings among some terms, each by itself; one that is not placed
// stands on the zone of the reading that it takes the place of.
func (l *otherLine) readingsIn(terms []lang.Term, s *season) (all []*reading) {
	if !slices.ContainsFunc(terms, func(t lang.Term) bool { _, ok := t.Kind.(*lang.Exposure); return ok }) {
		return nil
	}
	t := reader{resolver: &resolver{season: s, book: l.sh.outing.book}, st: l.sh.lines[0], sheet: &sheet{}, metering: true}
	for i := range terms {
		if k, ok := terms[i].Kind.(*lang.Exposure); ok {
			t.metered(k, &terms[i])
		}
	}
	if t.sheet.reading == nil {
		return nil
	}
	was := l.sh.reading
	for _, a := range t.sheet.reading.areas {
		if !a.complete() {
			continue
		}
		rd := &reading{kind: "plain", at: a.at, areas: []area{a}}
		all = append(all, rd)
		if !a.placed && was != nil && len(was.areas) == 1 && was.areas[0].placed {
			on := a
			on.placed, on.zone = true, was.areas[0].zone
			all = append(all, &reading{kind: "spot", at: a.at, areas: []area{on}})
		}
		if a.placed {
			rd.kind = "spot"
		}
	}
	return all
}

// filters are those of the line's words put on, and those that stand among words taken off.
func (l *otherLine) filters() (ways []another) {
	sh := l.sh
	const tale = 4 // words: more tell of filters, and name none that is on
	for _, p := range l.prose {
		if len(strings.Fields(p.said)) > tale {
			continue
		}
		for _, t := range slices.Concat(p.terms, p.filters) {
			if k, ok := t.Kind.(*lang.Stack); ok && !l.on(k) {
				ways = append(ways, another{"whether " + quote(p.said) + " was on", func(at *sheet) {
					for _, f := range k.Filters {
						at.filters = append(at.filters[:len(at.filters):len(at.filters)], &use{name: f.Name, amounts: f.Amounts, at: sh.at})
					}
				}})
			}
		}
	}
	for _, p := range l.prose {
		if !p.bracket || ownsToSlip().MatchString(strings.ToLower(p.said)) {
			continue
		}
		for _, t := range p.terms {
			if k, ok := t.Kind.(*lang.Amount); ok {
				for n := range sh.filters {
					ways = append(ways, another{"whether " + quote(p.said) + " is what " + sh.filters[n].name + " cost", func(at *sheet) {
						own := *sh.filters[n]
						own.amounts = []lang.Amount{*k}
						at.filters = slices.Clone(sh.filters)
						at.filters[n] = &own
					}})
				}
			}
		}
	}
	for _, u := range sh.filters {
		f, _, _ := kitOf(sh).filter(u.name)
		switch {
		case !isGraduated(u.name):
		case len(u.amounts) > 0:
			ways = append(ways, ofGraduated(u.name, newCost(&u.amounts[0], &lang.Term{Span: u.at}).stops))
		case f != nil && f.stops != nil:
			ways = append(ways, ofGraduated(u.name, f.stops.stops))
		}
	}
	for n, u := range sh.filters {
		instead := func(name string, amounts []lang.Amount) func(*sheet) {
			return func(at *sheet) {
				at.filters = slices.Clone(sh.filters)
				at.filters[n] = &use{name: name, amounts: amounts, at: u.at}
			}
		}
		if len(u.amounts) > 0 && says(l.words, besideBefore) {
			ways = append(ways, another{"whether " + quote(u.at.Text()) + " is what it cost, or what was given beside the sheet before", instead(u.name, nil)})
		}
		if colour, number, ok := strings.Cut(u.name, " "); ok && number != "" && has(l.words, "times") { // red 8 times
			ways = append(ways, another{"whether " + quote(u.name) + " is " + colour, instead(colour, nil)})
		}
	}
	for _, f := range kitOf(sh).filters {
		if word := l.nearly(f.name); word != "" {
			ways = append(ways, another{"whether " + quote(word) + " is " + f.name + ", and was on", func(at *sheet) {
				at.filters = append(at.filters[:len(at.filters):len(at.filters)], &use{name: f.name, at: sh.at})
			}})
		}
	}
	if len(sh.filters) > 0 && says(l.words, offLens) {
		ways = append(ways, another{"whether a filter was on: " + quote(strings.Join(l.words, " ")), func(at *sheet) { at.filters = nil }})
	}
	if says(l.words, throughFilter) && says(l.words, ofMetering) && sh.reading != nil {
		ways = append(ways, another{"whether the meter looked through the filter: metered through the filter, or metered without it", func(at *sheet) {
			own := *sh.reading
			own.through = true
			at.reading = &own
		}})
	}
	var stacks []*lang.Term
	for i := range l.terms {
		if _, stack := l.terms[i].Kind.(*lang.Stack); !stack {
			continue
		}
		stacks = append(stacks, &l.terms[i])
		if says(l.words, insteadOf) {
			ways = append(ways, another{"whether " + quote(l.terms[i].Span.Text()) + " alone was on", func(at *sheet) { l.putOn(at, &l.terms[i]) }})
		}
		at := l.terms[i].Span
		before, behind := l.wordsAt(i-1), l.wordsAt(i+1)
		words := strings.TrimSpace(before + " " + at.Text() + " " + behind)
		if only(strings.Fields(strings.ToLower(before+" "+behind)), besideColour, connective) {
			continue
		}
		ways = append(ways, another{"whether the filter was on: " + quote(words), func(without *sheet) {
			without.filters = slices.DeleteFunc(slices.Clone(without.filters), func(u *use) bool { return liesIn(u.at, at) })
		}})
	}
	if len(stacks) > 1 {
		said := source.Span{File: sh.at.File, Start: stacks[0].Span.Start, End: stacks[len(stacks)-1].Span.End}.Text()
		ways = append(ways, another{"whether all of " + quote(said) + " were on", func(all *sheet) {
			l.putOn(all, stacks...)
		}})
	}
	return ways
}

// on reports whether all filters of a stack are on already, by whatever name.
func (l *otherLine) on(stack *lang.Stack) bool {
	k := kitOf(l.sh)
	return !slices.ContainsFunc(stack.Filters, func(said lang.Filter) bool {
		f, _, _ := k.filter(said.Name)
		return !slices.ContainsFunc(l.sh.filters, func(u *use) bool {
			other, _, _ := k.filter(u.name)
			return f != nil && f == other || strings.EqualFold(said.Name, u.name)
		})
	})
}

// ofGraduated is a graduated filter that cost its stops: it lay over what was metered.
func ofGraduated(name string, stops float64) another {
	return another{"whether " + name + " was allowed for: " + graduated + ", and it got " + exposure.InStops(stops) + " more", func(at *sheet) { at.extra -= stops }}
}

// nearly is a word of the line that begins as a filter's name does, or the other way round:
// didymium for didy.
func (l *otherLine) nearly(name string) string {
	const least = 3 // letters
	low := strings.ToLower(name)
	for _, word := range l.words {
		if word != low && min(len(word), len(low)) >= least && (strings.HasPrefix(word, low) || strings.HasPrefix(low, word)) && !slices.ContainsFunc(l.sh.filters, func(u *use) bool { return strings.EqualFold(u.name, name) }) {
			return word
		}
	}
	return ""
}

// putOn puts the filters of some terms on a sheet, and no others.
func (l *otherLine) putOn(at *sheet, stacks ...*lang.Term) {
	at.filters = nil
	for _, t := range stacks {
		for _, f := range t.Kind.(*lang.Stack).Filters {
			at.filters = append(at.filters, &use{name: f.Name, amounts: f.Amounts, at: t.Span})
		}
	}
}

// The words are those of notes read for this (common practice, no source).
var (
	offLens       = lang.SetOf("gone away off bare naked clear nothing without none out removed more ohne kein sans")
	throughFilter = lang.SetOf("through front already included behind")
	ofMetering    = lang.SetOf("read reading metered meter measured spot ev filter red orange yellow green blue pol polariser polarizer")
	besideBefore  = lang.SetOf("longer slower less more faster shorter down up")
	insteadOf     = lang.SetOf("instead not rather for swapped changed")
)

// bellows are the bellows as they may have stood by the line's words: in again, or out to
// twice the focal length.
func (l *otherLine) bellows() (ways []another) {
	sh := l.sh
	said := strings.Join(l.words, " ")
	if says(l.words, lifeSize) {
		ways = append(ways, another{"the magnification: " + quote(said), func(at *sheet) {
			at.drawn()
			at.scale = known(1., sh.at, false)
		}})
	}
	if !says(l.words, ofBellows) && sh.racked == "" {
		return ways
	}
	ways = append(ways, another{"how far the bellows were out: " + quote(said), func(at *sheet) { at.drawn() }})
	if focal := sh.lens.v.focalOr0(); sh.lens.known && focal > 0 && (says(l.words, twofold) || has(sh.states, "double")) {
		ways = append(ways, another{"how far the bellows were out: " + quote(said), func(at *sheet) {
			at.drawn()
			at.extension = known(2*focal, sh.at, false)
		}})
	}
	return ways
}

var (
	ofBellows = lang.SetOf("ext extension bellows infinity racked extended auszug tirage")
	lifeSize  = lang.SetOf("size grösse größe naturelle")
	twofold   = lang.SetOf("double doubled twice doppelter doppelt")
)

// films are those that the line's words name, and the one that a line above chose for all.
func (l *otherLine) films() (ways []another) {
	if has(l.words, "thought") {
		return nil // what it was taken for
	}
	for _, f := range kitOf(l.sh).films {
		if f != l.sh.film.v && (f == l.sh.chosenFilm || slices.Contains(l.words, strings.ToLower(f.name))) {
			ways = append(ways, another{"whether the film was " + f.name, func(at *sheet) {
				at.film, at.ei = value[*film]{v: f, known: true, at: l.sh.at}, value[float64]{}
			}})
		}
	}
	return ways
}

// onPurpose are the amounts of stops on the line as what was given more or less on purpose.
func (l *otherLine) onPurpose() (ways []another) {
	for _, s := range l.sh.stopsBeside {
		for _, stops := range []float64{s.stops, -s.stops} {
			ways = append(ways, another{"whether " + quote(s.at.Text()) + " was on purpose: it is written bracket " + spokenBracket(stops), func(at *sheet) {
				at.bracket = known(stops, s.at, false)
			}})
		}
	}
	return ways
}

// wordsAt are the words that the ith term is, "" where it is none.
func (l *otherLine) wordsAt(i int) string {
	if i < 0 || i >= len(l.terms) {
		return ""
	}
	return strings.Join(wordsOf(l.terms[i].Kind), " ")
}

// readings are the reading placed on a zone of the line's words, the one that stands above
// another of the same scene with no sheet between them, and the sheet as it would be if it
// copied nothing.
func (l *otherLine) readings() (ways []another) {
	if plain := l.sh.plain; plain != nil {
		ways = append(ways, another{"whether " + quote(l.sh.copying) + " copies the sheet before", func(at *sheet) { *at = *plain }})
	}
	rd := l.sh.reading
	if rd == nil {
		return ways
	}
	if rd.former != nil && !l.sh.ownReading {
		ways = append(ways, another{"which reading counts, " + rd.former.at.Text() + " or " + rd.at.Text(), func(at *sheet) { at.reading = rd.former }})
	}
	if other := l.sh.instead; other != nil && !l.sh.ownReading {
		ways = append(ways, another{"which reading counts, " + rd.at.Text() + " or " + other.at.Text(), func(at *sheet) { at.reading = other }})
	}
	if !l.sh.ownReading {
		return ways
	}
	if n, prior := partOfValue(l.sh), l.sh.mayCarry; n >= 0 && prior != nil && prior.time.known {
		part := l.sh.time.at
		ways = append(ways, another{"whether " + part.Text() + " is its time, or a part of " + rd.areas[n].at.Text(), func(at *sheet) {
			own := *rd
			own.areas = slices.Clone(rd.areas)
			if stops, ok := exposures(at.time.v); ok {
				own.areas[n].ev += floats.Sum(stops)
			}
			at.reading, at.time = &own, prior.time
		}})
	}
	place := func(zone float64, asks string) {
		for n := range rd.areas {
			ways = append(ways, another{asks, func(at *sheet) {
				own := *rd
				own.areas = slices.Clone(rd.areas)
				own.areas[n].placed, own.areas[n].zone = true, zone
				at.reading = &own
			}})
		}
	}
	for _, zone := range l.zones {
		place(zone, "whether the reading stands on "+exposure.Roman(zone)+", as the one that was taken back")
	}
	for _, p := range l.prose {
		for _, zone := range zonesIn(p.said) {
			place(zone, "whether "+quote(p.said)+" is a zone that the reading stands on")
		}
	}
	return ways
}

// zonesIn are the Roman numerals among words, as zones, also where a phone took their strokes
// for letters (Ill), and the figures behind the word zone.
func zonesIn(words string) (zones []float64) {
	if m := zoneSaid().FindStringSubmatch(words); m != nil {
		zones = append(zones, parseFloat(m[1]))
	}
	for _, word := range strings.FieldsFunc(words, func(c rune) bool { return !unicode.IsLetter(c) }) {
		word = strings.ReplaceAll(word, "l", "I")
		for zone := 0.; zone <= 10; zone++ {
			if exposure.Roman(zone) == word {
				zones = append(zones, zone)
			}
		}
	}
	return zones
}

var zoneSaid = lang.Lazily(`(?i)\bz(?:one)?\.? ?([0-9]|10)\b`)
