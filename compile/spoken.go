package compile

import (
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Other ways to read a sheet's line, by words that name what the figures do not: numbers that
// are spoken, things of the kit, other sheets. Like all other ways they blame nobody: they ask.

// spoken are the ways by the line's own words.
func (l *otherLine) spoken(s *season) (ways []another) {
	sh := l.sh
	for _, said := range append(slices.Clip(l.said), sh.title) {
		ways = append(ways, l.asNumbers(said, s)...)
		ways = append(ways, l.asIndex(said)...)
		ways = append(ways, l.asFigure(said)...)
		ways = append(ways, l.asSteps(said, false)...)
		ways = append(ways, l.asThings(said, wordsIn(said), false)...)
		ways = append(ways, l.asSheets(said, s)...)
		ways = append(ways, l.asGlass(said)...)
	}
	ways = append(ways, l.asBefore(s)...)
	ways = append(ways, l.asLight()...)
	if has(sh.states, "double") && !strings.Contains(strings.ToLower(sh.lines[0].Body.Text()), "expos") {
		ways = append(ways, l.asSteps("double", false)...)
	}
	return ways
}

// besideReading are the numbers, zones and indices in words on the line of the reading.
func (l *otherLine) besideReading() []another {
	rd := l.sh.reading
	if rd == nil || rd.at.File == nil {
		return nil
	}
	line := rd.at.File.Line(rd.at.Start)
	said := string(rd.at.File.Text[line.Start:line.End])
	ways := l.asReading(said)
	if rd.ei == 0 {
		ways = append(ways, l.asIndex(said)...)
	}
	return ways
}

// asLight are the stops that a line of the light has, as what it went by since the reading.
func (l *otherLine) asLight() (ways []another) {
	if l.sh.light == "" || l.sh.ownReading {
		return nil
	}
	for _, t := range l.within(l.sh.light) {
		if k, ok := t.Kind.(*lang.Amount); ok && k.Stops != nil {
			for _, by := range []float64{float64(*k.Stops), -float64(*k.Stops)} {
				ways = append(ways, another{"whether the light went by " + quote(l.sh.light), func(at *sheet) { at.lightBy = known(by, at.at, false) }})
			}
		}
	}
	return ways
}

// asNumbers are the numbers that a text says in words, as times, apertures, light values and
// zones.
func (l *otherLine) asNumbers(said string, s *season) (ways []another) {
	numbers := lang.NumbersInWords(said)
	const most = 4 // in one text that speaks of settings
	if len(numbers) == 0 || len(numbers) > most {
		return nil
	}
	var terms []lang.Term
	for _, n := range numbers {
		if n.Part {
			terms = append(terms, lang.Within("1/"+trim(n.N), s.names)...)
		} else {
			terms = append(terms, lang.Within(trim(n.N)+"s", s.names)...)
			terms = append(terms, lang.Within("f"+trim(n.N), s.names)...)
		}
	}
	return append(putTo(terms, "whether "+quote(said)+" says its settings"), l.asReading(said)...)
}

// asReading are the numbers in words, and the zones counted in words, as a light value, its zone,
// or the index of the meter.
func (l *otherLine) asReading(said string) (ways []another) {
	rd := l.sh.reading
	if rd == nil || len(rd.areas) == 0 {
		return nil
	}
	open := !slices.ContainsFunc(rd.areas, func(a area) bool { return !a.asEV || a.placed })
	var zones []float64
	for _, k := range zonesIn(said) {
		if open || k.inWords {
			zones = append(zones, k.zones...)
		}
	}
	for n := range rd.areas {
		for _, zone := range zones {
			ways = append(ways, another{"the zone of the reading: " + quote(said), rd.placedOn(n, zone)})
		}
	}
	for _, n := range lang.NumbersInWords(said) {
		if n.Part || !says(wordsIn(said), ofMeters) {
			continue
		}
		if n.N <= brightestEV {
			ways = append(ways, rd.showing(n.N, said))
		} else {
			ways = append(ways, rd.atIndex(n.N, said), exposedAt(n.N, said))
		}
	}
	return ways
}

// asIndex are the film speeds that a text says, as the index of the meter or of the film: (50 ASA).
func (l *otherLine) asIndex(said string) (ways []another) {
	rd := l.sh.reading
	if rd == nil || len(rd.areas) == 0 || !strings.ContainsAny(said, "0123456789") {
		return nil
	}
	for _, t := range l.within(bracketsOpen.Replace(said)) {
		var ei float64
		switch k := t.Kind.(type) {
		case *lang.ISO:
			ei = float64(k.Speed)
		case *lang.FilmEI:
			ei = float64(k.EI)
		case *lang.MeterEI:
			ei = float64(k.EI)
		default:
			continue
		}
		if !l.sh.ei.known || l.sh.ei.v != ei {
			ways = append(ways, rd.atIndex(ei, said), exposedAt(ei, said))
		}
	}
	return ways
}

// bracketsOpen makes terms of what stands in brackets.
var bracketsOpen = strings.NewReplacer("(", ", ", ")", ", ")

// with is a sheet's reading with something put in the place of one of its areas.
func (rd *reading) with(n int, put func(*reading, *area)) func(*sheet) {
	return func(at *sheet) {
		r := *rd
		r.areas = slices.Clone(rd.areas)
		put(&r, &r.areas[n])
		at.reading = &r
	}
}

// placedOn is a sheet's reading with one of its areas on a zone.
func (rd *reading) placedOn(n int, zone float64) func(*sheet) {
	return rd.with(n, func(_ *reading, a *area) { a.placed, a.zone = true, zone })
}

// atIndex is a reading of a meter that stood at another index.
func (rd *reading) atIndex(ei float64, said string) another {
	return another{"at which index the meter stood: " + quote(said), rd.with(0, func(r *reading, _ *area) { r.ei = ei })}
}

// exposedAt is a sheet that was exposed at another index.
func exposedAt(ei float64, said string) another {
	return another{"at which index the film was exposed: " + quote(said), func(at *sheet) { at.ei = known(ei, at.at, false) }}
}

// showing is a reading as if it had shown another light value.
func (rd *reading) showing(ev float64, said string) another {
	return another{"the reading: " + quote(said), rd.with(0, func(_ *reading, a *area) {
		*a = area{asEV: true, ev: ev, by: a.by, placed: a.placed, zone: a.zone, at: a.at}
	})}
}

// asFigure are the figures beside words of one who says what a meter shows: the spot says 14 now.
func (l *otherLine) asFigure(said string) (ways []another) {
	rd := l.sh.reading
	if rd == nil || len(rd.areas) == 0 || !strings.ContainsAny(said, "0123456789") || !says(wordsIn(said), ofMeters) {
		return nil
	}
	for _, m := range figureAlone().FindAllStringSubmatch(said, -1) {
		if ev := parseFloat(strings.Replace(m[1], ",", ".", 1)); ev <= brightestEV {
			ways = append(ways, rd.showing(ev, said))
		}
	}
	if m := indexAhead().FindStringSubmatch(said); m != nil {
		ways = append(ways, rd.atIndex(parseFloat(m[1]), said))
	}
	return ways
}

var figureAlone = pattern.Lazily(`(?:^|[ (]|[^0-9]:)([0-9]{1,2}(?:[.,][0-9])?)(?:[ ,.;)]|$)`) // and no minutes of an hour

var indexAhead = pattern.Lazily(`(?i)\b(?:asa|iso|ei) ?([0-9]{1,4})\b`)

// asSteps are the stops, zones and doublings that a text counts in one direction, whichever of the
// reading, the light and what was given they are of: two zones below V, up one, twice the time. On
// the line of a time of its own, more was given and not less.
func (l *otherLine) asSteps(said string, beside bool) (ways []another) {
	low := strings.ToLower(said)
	given := !beside && l.sh.time.known && !l.sh.time.copied && l.sh.time.carried == nil
	try := func(stops float64, words []string) {
		for _, by := range []float64{stops, -stops} {
			if given && (by > 0 && says(words, stepMore) || by < 0 && says(words, stepLess)) {
				continue
			}
			ways = append(ways, another{"what " + quote(said) + " is: of the reading, of the light, or of what was given", func(at *sheet) { at.extra += by }})
		}
	}
	for _, m := range stepsSaid().FindAllStringSubmatch(low, -1) {
		try(stepsCounted[m[1]+m[2]], wordsIn(m[0]))
	}
	if twiceSaid().MatchString(low) {
		try(1, nil)
	}
	return ways
}

// The words are those of notes read for this (common practice, no source).
var (
	stepMore     = lang.SetOf("more extra longer slower over mehr plus länger reichlicher")
	stepLess     = lang.SetOf("less faster shorter under weniger kürzer knapper moins court")
	stepsCounted = map[string]float64{"a": 1, "an": 1, "one": 1, "1": 1, "ein": 1, "eine": 1, "un": 1, "une": 1, "two": 2, "2": 2, "zwei": 2, "deux": 2, "three": 3, "3": 3, "drei": 3, "trois": 3, "half a": 0.5, "½": 0.5}
	stepsSaid    = pattern.Lazily(`\b(half a|an?|one|two|three|[123]|eine?|zwei|drei|une?|deux|trois)(?: (?:full|whole))?(?: (?:stops?|zones?|steps?|(?:blenden)?stufen?|blenden?|diaph(?:ragme)?s?|crans?))? (?:up|down|less|more|extra|brighter|darker|slower|faster|shorter|longer|below|above|under|over|lower|higher|weniger|mehr|kürzer|länger|knapper|reichlicher|dunkler|heller|(?:de|en) (?:moins|plus)|plus (?:court|long)|trop)\b` +
		`|\b(?:up|down|minus|plus|less|below|above|over by|under by|by|extra|added|adding|gave|given|opened)(?: by| it| another)? (half a|an?|one|two|three|[123]|eine?|zwei|drei)\b(?: (?:stops?|zones?|stufen?)\b|[ ]*(?:[.,;)]|$))`)
	twiceSaid = pattern.Lazily(`\b(?:(?:twice|doubled?|half) (?:the time|that|as long|the exposure)|twice|doppelt|zweimal|2 ?mal)\b|\bdoubled?$`)
)

// brightestEV is the highest light value that people photograph in (common practice, no source).
const brightestEV = 20

// ofMeters are words of one who says what a meter shows (common practice, no source).
var ofMeters = lang.SetOf("ev lv lw il says said shows showed reads reading read meter metered spot wall now set rated index iso asa at it's its it down up by then jetzt gemessen zeigt messer checked")

// wordsIn are the words of a text, in lower case.
func wordsIn(text string) []string { return strings.FieldsFunc(strings.ToLower(text), partsWords) }

// anyWord reports whether one of the words of a text in lower case is one that is looked for.
func anyWord(low string, is func(word string) bool) bool {
	for word := range strings.FieldsFuncSeq(low, partsWords) {
		if is(word) {
			return true
		}
	}
	return false
}

// wordy reports whether a text has more words than so many.
func wordy(text string, most int) bool {
	n := 0
	return anyWord(text, func(string) bool { n++; return n > most })
}

func partsWords(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) }

// asThings are the films and lenses of the kit that a text names, and the filters that a short
// one beside the sheet's line does: on the lens, alone on it, or off it.
func (l *otherLine) asThings(said string, words []string, beside bool) (ways []another) {
	const tale = 10 // words: more tell of filters, and name none that is on
	k := kitOf(l.sh)
	named := func(name string) bool {
		const stem = 4 // letters: Weit in Weitwinkel
		parts := wordsIn(name)
		return len(parts) > 0 && !slices.ContainsFunc(parts, func(part string) bool {
			return !slices.ContainsFunc(words, func(word string) bool {
				return word == part || len(part) >= stem && strings.HasPrefix(word, part)
			})
		})
	}
	for _, f := range k.filters {
		if !beside || len(f.name) < 2 || !named(f.name) && (f.colour == "" || !named(f.colour)) || len(words) > tale && !toldOn(words, f) {
			continue
		}
		asks := "whether " + f.name + " was on: " + quote(said)
		on := &use{name: f.name, at: l.sh.at}
		ways = append(ways,
			another{asks, withOn(on)},
			another{asks, func(at *sheet) { at.filters = []*use{on} }},
			another{asks, func(at *sheet) {
				at.filters = slices.DeleteFunc(slices.Clone(at.filters), func(u *use) bool { return strings.EqualFold(u.name, f.name) })
			}})
	}
	for _, f := range k.films {
		if f != l.sh.film.v && len(f.name) > 2 && named(f.name) && !slices.Contains(words, "thought") {
			ways = append(ways, wasOnFilm(f, said))
		}
	}
	for _, other := range k.lenses {
		focal := trim(other.focalOr0())
		ofFocal := slices.ContainsFunc(words, func(word string) bool { return strings.TrimRightFunc(word, unicode.IsLetter) == focal && word != focal })
		if other != l.sh.lens.v && len(other.name) > 1 && (named(other.name) || ofFocal) {
			ways = append(ways, another{"which lens it was: " + quote(said), func(at *sheet) { at.lens = value[*lens]{v: other, known: true, at: at.at} }})
		}
	}
	return ways
}

// toldOn reports whether words, however many, call something of a filter's name or colour a filter, or say of it
// right there that it is on or off: the yellow filter stays on for the rest of the holder.
func toldOn(words []string, f *filter) bool {
	const reach = 3 // words behind it
	for i, word := range words {
		if word != strings.ToLower(f.name) && (f.colour == "" || word != f.colour) {
			continue
		}
		behind := words[i+1 : min(len(words), i+1+reach)]
		if says(behind, theFilter) || says(behind, onOrOff) && besideColour[behind[0]] {
			return true
		}
	}
	return false
}

var onOrOff = lang.SetOf("on off in out")

// asBefore are the filters of the sheet before, where a text has a word or a sign for the same
// that is not read as such, and those beside the line's own where it says that they were added.
func (l *otherLine) asBefore(s *season) (ways []another) {
	sh := l.sh
	if sh.index == 0 || s.sheets[sh.index-1].outing != sh.outing {
		return nil
	}
	from := s.sheets[sh.index-1]
	if sh.sameAs != nil {
		from = sh.sameAs
	}
	body := sh.lines[0].Body.Text()
	words := wordsIn(body)
	if like := sh.likeBefore(); sh.sameAs == nil && (like || l.opensStrangely(from)) {
		for like && len(from.filters) == 0 && from.likeBefore() && from.index > 0 && s.sheets[from.index-1].outing == sh.outing {
			from = s.sheets[from.index-1] // which is like another
		}
		asks := "what is as on " + from.label + ": " + quote(strings.TrimSpace(body))
		ways = append(ways, another{asks, func(at *sheet) { at.filters = from.filters }})
		if like && from.ownReading && !sh.ownReading {
			ways = append(ways, another{asks, func(at *sheet) { at.filters, at.reading = from.filters, from.reading }})
		}
	}
	if sh.gaps {
		ways = append(ways, another{"whether the filters of " + from.label + " stayed on: " + quote(strings.TrimSpace(body)), func(at *sheet) { at.filters = nil }})
	}
	if says(words, addedOn) && len(sh.filters) > 0 {
		ways = append(ways, another{"whether the filters of " + from.label + " stayed on: " + quote(strings.TrimSpace(body)), func(at *sheet) {
			at.filters = slices.Concat(from.filters, at.filters)
		}})
	}
	return ways
}

// likeBefore reports whether a sheet's line has a word or a sign by which it is like the one before.
func (sh *sheet) likeBefore() bool {
	body := sh.lines[0].Body.Text()
	return says(wordsIn(body), likeBefore) || dittoSign().MatchString(body) || oneMoreOf().MatchString(strings.ToLower(body))
}

// opensStrangely reports whether a line begins with a word or two that are none of its terms: in
// some tongue or other they may say the same. A title that the sheet before has as well does not.
func (l *otherLine) opensStrangely(from *sheet) bool {
	const few = 2 // words
	if len(l.terms) == 0 {
		return false
	}
	k, loose := l.terms[0].Kind.(*lang.Loose)
	if !loose || len(k.Words) > few {
		return false
	}
	if first := from.lines[0].Terms(); len(first) > 0 {
		if before, title := first[0].Kind.(*lang.Loose); title && slices.EqualFunc(k.Words, before.Words, strings.EqualFold) {
			return false
		}
	}
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	likeBefore = lang.SetOf("again spare backup identical retake unchanged do dto dito id idem ibid dgl desgl ds ebenso oben vorige même supra like repeat repeated nochmals")
	dittoSign  = pattern.Lazily(`(?:^|[ \t-])(?:["„»″]|,,|d[°º])(?:[ \t-]|$)`)
	oneMoreOf  = pattern.Lazily(`^\s*(?:one more|once more|another(?: one)?|2nd|second(?: one)?|as before)\s*(?:[,;]|$)|\b(?:(?:did not|didn't|didn’t) change|nothing changed|no changes?|all as before)\b`)
	addedOn    = lang.SetOf("well too also added addition besides together top plus add dazu auch aussi")
)

// asGlass is a filter that nobody knows: through the ruby glass.
func (l *otherLine) asGlass(said string) []another {
	if len(l.sh.filters) > 0 || !throughGlass().MatchString(strings.ToLower(said)) {
		return nil
	}
	off := l.sh.sum.diff
	return []another{{"what " + quote(said) + " was, and what it costs", func(at *sheet) { at.lightBy = known(exposure.Round(-off), at.at, false) }}}
}

var throughGlass = pattern.Lazily(`\b(?:through|with|behind) (?:the |a |an |my )?(?:\w+[ -])?(?:glass|gel|gelatine|filter)\b|\bminus[ -]blue\b`)

// asSheets are the sheets of the day that a text names, as what this one is like.
func (l *otherLine) asSheets(said string, s *season) (ways []another) {
	sh := l.sh
	for _, word := range strings.FieldsFunc(said, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '-' }) {
		for i := sh.index - 1; i >= 0 && s.sheets[i].outing == sh.outing; i-- {
			from := s.sheets[i]
			if !strings.EqualFold(from.label, word) {
				continue
			}
			ways = append(ways, another{"whether the filters of " + from.label + " stayed on: " + quote(said), func(at *sheet) {
				at.filters = slices.Concat(from.filters, at.filters)
			}}, another{"what is as on " + from.label + ": " + quote(said), func(at *sheet) {
				at.filters, at.film, at.ei, at.lens, at.extension, at.scale = from.filters, from.film, from.ei, from.lens, from.extension, from.scale
				if !at.ownReading {
					at.reading = from.reading
				}
				if at.aperture.carried != nil || !at.aperture.known {
					at.aperture = from.aperture
				}
				if at.time.carried != nil || !at.time.known {
					at.time = from.time
				}
			}})
			break
		}
	}
	return ways
}
