package compile

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"gonum.org/v1/gonum/floats"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
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
	if sh.sum.state != record.Off || sh.wasAmended() {
		return
	}
	if _, again := eachExposure(sh.lines[0]); again != nil {
		return // the figures are of two exposures
	}
	if s.exposedAgain(sh) || s.litByLamps(sh) {
		return
	}
	l := otherWords(sh, s.names)
	for _, kind := range []struct {
		ways          func() []another
		besideReading bool
	}{
		{l.times, false}, {l.repeated, false}, {l.apertures, false}, {l.filters, false}, {l.readings, sh.ownReading}, {l.bellows, false}, {l.films, false}, {l.thingsNamed, false}, {l.onPurpose, false},
		{func() []another { return l.figuresBeside(s) }, false}, {func() []another { return l.spoken(s) }, sh.ownReading}, {l.besideReading, true},
		{func() []another { return l.wordsBeside(s) }, false}, {func() []another { return l.toldAnew(s) }, false},
	} {
		for _, way := range kind.ways() { // looked for where those before it did not help
			at := *sh
			way.put(&at)
			if s.assessed(&at, sh.outing.book.at100).state == record.Right {
				sh.ask(way.asks)
				if kind.besideReading && at.reading != sh.reading {
					sh.readingAsks = way.asks
				}
				for _, u := range sh.filters {
					if liesIn(u.at, sh.lines[0].Span) && !slices.ContainsFunc(at.filters, func(on *use) bool { return on.at == u.at }) {
						sh.filterAsks = map[source.Span]string{u.at: way.asks}
					}
				}
				return
			}
		}
	}
	if at := sh.commas; at != nil {
		at.index = sh.index
		s.assessAlone(at)
		if s.otherwise(at); at.sum.state != record.Off {
			sh.ask("what " + quote(strings.TrimSpace(sh.lines[0].Body.Text())) + " says, with commas for its colons")
		}
	}
}

// otherLine is what stands on a sheet's line: its terms, and those that its words would be.
type otherLine struct {
	sh    *sheet
	names *lang.Lexicon
	terms []lang.Term
	prose []otherProse
	read  map[string][]lang.Term // what texts are as terms, once it was asked for
	words []string               // all of the line, in lower case
	said  []string               // its words and remarks, each by itself, but for those that own to a slip
	zones []float64

	beside func() []aside // the lines beside the sheet's, looked for once
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
	l := &otherLine{sh: sh, names: names}
	l.beside = sync.OnceValue(l.asides)
	all := sh.ownTerms()
	if sh.lensSaid != "" {
		l.said = append(l.said, sh.lensSaid)
	}
	for i := range all {
		t := &all[i]
		if t.Struck || withdrawn(all, i) {
			if k, ok := t.Kind.(*lang.Exposure); ok && k.Zone != nil {
				l.zones = append(l.zones, float64(*k.Zone)) // EV 9 on II no wait EV 8
			}
			continue
		}
		l.terms = append(l.terms, *t)
		said := saidIn(t.Kind)
		_, remarked := t.Kind.(*lang.Remark)
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
		p.terms = l.within(said)
		if apart := betweenFilters.Replace(said); apart != said {
			p.filters = lang.Within(apart, names)
		}
		l.prose = append(l.prose, p)
	}
	return l
}

// within is the terms that a text of the line, or one beside it, would have.
func (l *otherLine) within(text string) []lang.Term {
	terms, ok := l.read[text]
	if !ok {
		if l.read == nil {
			l.read = map[string][]lang.Term{}
		}
		terms = lang.Within(text, l.names)
		l.read[text] = terms
	}
	return terms
}

// betweenFilters are the marks and words that people put between two filters, or within the
// name of one.
var betweenFilters = strings.NewReplacer("/", " + ", "-", "", " over ", " + ", " on ", " + ")

// putRight are words by which a remark corrects what its line says, or doubts it (common
// practice, no source).
var putRight = pattern.Lazily(`\b(?:it was|was it|in fact|after all|in truth|really|actually|actual|says?|reads?|recte|correct|correction|i mean|meant|rather|wrote (?:it|that)? ?(?:down )?wrong|wrong, )\b|^(?:no|not|wrong|sorry)\b`)

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

// films are those that the line's words name, by their names or kinds, and the one that a line above chose for all.
func (l *otherLine) films() (ways []another) {
	if has(l.words, "thought") {
		return nil // what it was taken for
	}
	var words []string
	for i := range l.terms {
		words = append(words, wordsIn(saidIn(l.terms[i].Kind))...)
	}
	for _, f := range kitOf(l.sh).films {
		if f != l.sh.film.v && (f == l.sh.chosenFilm || f.namedIn(words) || f.ofKind(words)) {
			ways = append(ways, another{"whether the film was " + f.name, filmWas(f)})
		}
	}
	return ways
}

// thingsNamed are the lenses and films that words of the line name and say nothing else.
func (l *otherLine) thingsNamed() (ways []another) {
	for _, said := range l.said {
		ways = append(ways, l.sh.thingsNamed(said)...)
	}
	return ways
}

// shownElsewhere reports whether a reading's light values are by a meter that shows them at an index of its
// own, whatever is said beside them: EV 13, 18 DIN, by a meter with EV at 100.
func shownElsewhere(sh *sheet, rd *reading) bool {
	if word, _, _ := strings.Cut(strings.ToLower(rd.eiAt.Text()), " "); word == "at" {
		return false // is the meter's, and nothing else
	}
	b := sh.outing.book
	return slices.ContainsFunc(rd.areas, func(a area) bool { return a.shownAt(b, b.at100 && b.stated) != 0 })
}

// wasOnFilm is a sheet on another film, which words say that it had.
func wasOnFilm(f *film, said string) another {
	return another{"whether the film was " + f.name + ": " + quote(said), filmWas(f)}
}

// filmWas is a sheet on another film, at that film's index.
func filmWas(f *film) func(*sheet) {
	return func(at *sheet) { at.film, at.ei = known(f, at.at, false), value[float64]{} }
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
	ways = append(ways, l.sh.asLogged()...)
	rd := l.sh.reading
	if rd == nil {
		return ways
	}
	if l.sh.byHigh != nil {
		ways = append(ways, *l.sh.byHigh)
	}
	if line := l.sh.lines[0].Span; rd.ei != 0 && (liesIn(rd.eiAt, line) && !slices.ContainsFunc(rd.areas, func(a area) bool { return liesIn(a.at, line) }) ||
		!rd.eiMeters && shownElsewhere(l.sh, rd)) {
		ways = append(ways, another{"whose index " + rd.eiAt.Text() + " is: the film's, or the meter's", func(at *sheet) {
			own := *rd
			own.ei = own.eiBefore
			at.reading, at.ei = &own, known(rd.ei, rd.eiAt, false)
		}})
	}
	if rd.former != nil && !l.sh.ownReading {
		ways = append(ways, another{"which reading counts, " + rd.former.at.Text() + " or " + rd.at.Text(), func(at *sheet) { at.reading = rd.former }})
	}
	if other := l.sh.instead; other != nil && !l.sh.ownReading {
		ways = append(ways, another{"which reading counts, " + rd.at.Text() + " or " + other.at.Text(), func(at *sheet) { at.reading = other }})
	}
	for i := range l.terms {
		if k, ok := l.terms[i].Kind.(*lang.Exposure); ok && k.EV != nil && len(rd.areas) > 0 && !liesIn(l.terms[i].Span, rd.at) {
			ways = append(ways, rd.showing(float64(*k.EV), l.terms[i].Span.Text()))
		}
	}
	ways = append(ways, rd.told(l.sh, zoneSaid)...)
	for _, said := range l.said {
		ways = append(ways, rd.indexTold(l.sh, said, indexOfMeter)...)
	}
	if !l.sh.ownReading {
		return ways
	}
	if n, prior := partOfValue(l.sh), l.sh.mayCarry; n >= 0 && prior != nil && prior.time.known {
		part := l.sh.time.at
		ways = append(ways, another{"whether " + part.Text() + " is its time, or a part of " + rd.areas[n].at.Text(), func(at *sheet) {
			rd.with(n, func(_ *reading, a *area) {
				if stops, ok := exposures(at.time.v); ok {
					a.ev += floats.Sum(stops)
				}
			})(at)
			at.time = prior.time
		}})
	}
	for _, zone := range l.zones {
		for n := range rd.areas {
			ways = append(ways, another{"whether the reading stands on " + exposure.Roman(zone) + ", as the one that was taken back", rd.placedOn(n, zone)})
		}
	}
	return ways
}
