package compile

import (
	"slices"
	"strings"
	"unicode"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Other ways to read how far the bellows were out.

// bellows are the bellows as they may have stood by the line's words: in again, or out to as far as
// they say.
func (l *otherLine) bellows() (ways []another) {
	sh := l.sh
	said := strings.Join(l.words, " ")
	if says(l.words, lifeSize) {
		ways = append(ways, another{"the magnification: " + quote(said), drawnTo(1)})
	}
	for _, said := range l.said {
		ways = append(ways, sh.asLengths(said)...)
		if lensByKind().MatchString(strings.ToLower(said)) {
			for _, other := range kitOf(sh).lenses {
				ways = append(ways, another{"which lens it was: " + quote(said), func(at *sheet) { at.lens = known(other, sh.at, false) }})
			}
		}
	}
	ofThem := says(l.words, ofBellows) || sh.racked != ""
	for i := range l.terms {
		switch k := l.terms[i].Kind.(type) {
		case *lang.Magnification:
			switch asks := "whether " + quote(l.terms[i].Span.Text()) + " is the magnification"; {
			case !sh.saysDrawn():
				ways = append(ways, another{asks, drawnTo(float64(k.M))})
			case behindDevelopment(l.terms, i) && (!isComma(&l.terms[i-1]) || !l.scaledElsewhere()): // N 1:3, as the developer may be thinned
				ways = append(ways, another{asks, func(at *sheet) { at.drawn() }})
			case l.besideDevelopment(i): // 1:1 N, and below N
				ways = append(ways, another{asks, func(at *sheet) { at.drawn() }})
			}
		case *lang.Millimetres:
			if ofThem {
				ways = append(ways, sh.asLengths(l.terms[i].Span.Text())...)
			}
		}
	}
	if focal := sh.lens.v.focalOr0(); sh.lens.known && sh.extension.known && sh.extension.v < focal {
		for _, other := range kitOf(sh).lenses {
			if other.focalOr0() > 0 && other.focalOr0() <= sh.extension.v {
				ways = append(ways, another{"which lens it was: the bellows were out less than its focal length", func(at *sheet) { at.lens = known(other, sh.at, false) }})
			}
		}
	}
	if !ofThem {
		return ways
	}
	ways = append(ways, another{"how far the bellows were out: " + quote(said), func(at *sheet) { at.drawn() }})
	if has(sh.states, "double") {
		said += " double"
	}
	return append(ways, sh.asTwofold(said)...)
}

// lensByKind is a lens by what it is among others: the wide lens (common practice, no source).
var lensByKind = pattern.Lazily(`\b(?:wide|wider|wide[- ]?angle|short|shorter|long|longer|tele|other) lens\b|\bwide[- ]?angle\b`)

// behindDevelopment reports whether the ith term stands right behind a development, with no more than commas between.
func behindDevelopment(terms []lang.Term, i int) bool {
	for i--; i >= 0 && isComma(&terms[i]); i-- {
	}
	if i < 0 {
		return false
	}
	_, development := terms[i].Kind.(*lang.N)
	return development
}

// besideDevelopment reports whether the ith term stands right before a development, or in its column: where another
// sheet's line of the notebook has one, which begins as far from the margin, and no ratio of a scale has such a place.
func (l *otherLine) besideDevelopment(i int) bool {
	if i+1 < len(l.terms) {
		if _, development := l.terms[i+1].Kind.(*lang.N); development {
			return true
		}
	}
	column := func(t *lang.Term) int { return t.Span.Start - t.Span.File.Line(t.Span.Start).Start }
	text := l.terms[i].Span.File.Text
	at := l.terms[i].Span.Start
	if at < 2 || text[at-1] != '\t' && (text[at-1] != ' ' || text[at-2] != ' ') {
		return false // no cell
	}
	const near = 2 // columns
	for _, st := range l.sh.outing.book.Statements {
		if st.Word != lang.Sheet || st == l.sh.lines[0] {
			continue
		}
		for n := range st.Terms() {
			if _, development := st.Terms()[n].Kind.(*lang.N); development && max(column(&st.Terms()[n])-column(&l.terms[i]), column(&l.terms[i])-column(&st.Terms()[n])) < near {
				return true
			}
		}
	}
	return false
}

// scaledElsewhere reports whether another sheet's line of the notebook has a ratio that is a scale for certain: what
// stands behind a comma here is then most likely one too.
func (l *otherLine) scaledElsewhere() bool {
	for _, st := range l.sh.outing.book.Statements {
		if st.Word != lang.Sheet || st == l.sh.lines[0] {
			continue
		}
		for i := range st.Terms() {
			if _, scale := st.Terms()[i].Kind.(*lang.Magnification); scale && strings.Contains(st.Terms()[i].Span.Text(), ":") && !behindDevelopment(st.Terms(), i) {
				return true
			}
		}
	}
	return false
}

// drawnTo is a sheet at a magnification.
func drawnTo(m float64) func(*sheet) {
	return func(at *sheet) {
		at.drawn()
		at.scale = known(m, at.at, false)
	}
}

// outTo is a sheet whose bellows were out to some length.
func (sh *sheet) outTo(mm float64, said string) another {
	return another{"how far the bellows were out: " + quote(said), func(at *sheet) {
		at.drawn()
		at.extension = known(mm, at.at, false)
	}}
}

// asTwofold is twice the focal length, where words say so: doppelter Auszug.
func (sh *sheet) asTwofold(said string) []another {
	if focal := sh.lens.v.focalOr0(); sh.lens.known && focal > 0 && says(wordsIn(said), twofold) {
		return []another{sh.outTo(2*focal, said)}
	}
	return nil
}

// asLengths are the lengths that a text names, beyond the focal length, as how far the bellows were
// out.
func (sh *sheet) asLengths(said string) (ways []another) {
	focal := sh.lens.v.focalOr0()
	known := sh.lens.known && focal > 0
	for _, m := range lengthSaid().FindAllStringSubmatch(inFigures(said), -1) {
		mm := parseFloat(strings.Replace(m[1], ",", ".", 1)) * map[byte]float64{'m': 1, 'c': 10, 'i': 25.4}[m[2][0]] // an inch is 25.4 mm (ISO 80000-3)
		beyond := m[0][0] == '+' || says(wordsIn(said), extraDraw)
		if beyond { // infinity
			mm += focal
		}
		if mm > focal && (known || beyond) {
			ways = append(ways, sh.outTo(mm, said))
		}
	}
	return ways
}

// drawnAt is where stands how far a sheet's bellows were out, on its own line or one that it copies.
func (sh *sheet) drawnAt() source.Span {
	for _, at := range [...]source.Span{sh.extension.at, sh.scale.at, sh.focus.at, sh.bellows.at} {
		if at.File != nil {
			return at
		}
	}
	return source.Span{}
}

// drawnInWords is how far the bellows were out, or how large a thing was, in words without a unit, bellows three hundred, and in
// figures on a line that was not read, Balgen auf 30 cm.
func (sh *sheet) drawnInWords(said string, unread bool) (ways []another) {
	low := strings.ToLower(said)
	figures := inFigures(low)
	if figures == low && !unread || liesIn(sh.drawnAt(), sh.lines[0].Span) {
		return nil // was read
	}
	if sh.saysDrawn() {
		if toInfinity().MatchString(low) {
			ways = append(ways, another{"how far the bellows were out: " + quote(said), func(at *sheet) { at.drawn() }})
		}
		return ways
	}
	if m := sizeSaid().FindStringSubmatch(low); m != nil {
		if terms := lang.Within(m[1], &lang.Lexicon{}); len(terms) == 1 {
			if k, is := terms[0].Kind.(*lang.Magnification); is {
				ways = append(ways, another{"whether " + quote(said) + " is the magnification", drawnTo(float64(k.M))})
			}
		}
	}
	if m := drawnSaid().FindStringSubmatch(figures); m != nil {
		mm := parseFloat(m[1] + m[2])
		if mm < sh.lens.v.focalOr0()/2 {
			mm *= 10 // in centimetres
		}
		ways = append(ways, sh.outTo(mm, said))
	}
	if m := scaleSaid().FindStringSubmatch(figures); m != nil {
		ways = append(ways, another{"whether " + quote(said) + " is the magnification", drawnTo(1 / parseFloat(m[1]))})
	}
	return ways
}

// againstBellows is what words of a line most likely say of the bellows where nothing of them was
// counted: (bellows 420), forgot the bellows, 420 mm, doppelter Auszug.
func (s *season) againstBellows(sh *sheet, i int, said string) (ways []another) {
	low := strings.ToLower(said)
	words := wordsIn(low)
	if sh.saysDrawn() || !mayTellOfBellows().MatchString(low) || says(words, bellowsIn) && !(says(words, twofold) && slices.Contains(words, "normal")) {
		return nil
	}
	all := sh.lines[0].Terms()
	if _, remark := all[i].Kind.(*lang.Remark); remark {
		terms := lang.Within(said, s.names)
		for n := range terms {
			switch k := terms[n].Kind.(type) {
			case *lang.Extension:
				ways = append(ways, sh.outTo(float64(k.MM), said))
			case *lang.Magnification:
				if (len(terms) == 1 || only(strings.FieldsFunc(low, func(c rune) bool { return !unicode.IsLetter(c) }), besideScale)) && !sh.wanted.known { // else it may be how the developer is thinned
					ways = append(ways, another{"whether " + quote(said) + " is the magnification", drawnTo(float64(k.M))})
				}
			case *lang.Bellows:
				ways = append(ways, another{"whether " + quote(said) + " was to be given", func(at *sheet) { at.bellows = known(k.Amount, at.at, false) }})
			}
		}
	}
	ways = append(ways, sh.drawnInWords(said, false)...)
	if !says(wordsIn(low), ofBellows) {
		return ways
	}
	for i++; i < len(all) && isComma(&all[i]); i++ {
	}
	if i < len(all) {
		if _, length := all[i].Kind.(*lang.Millimetres); length {
			ways = append(ways, sh.asLengths(all[i].Span.Text())...)
		}
	}
	return append(append(ways, sh.asLengths(said)...), sh.asTwofold(said)...)
}

// The words are those of notes read for this (common practice, no source).
var (
	mayTellOfBellows = pattern.Lazily(`\b(?:bel|draw|soufflet|bellows|ext|extension|extended|racked|drawn|auszug|balgen|balgenauszug|doppelauszug|brennweite|focale|tirage|mag|magnification|reproduction|scale|standard|size|lifesize|rail)\b|größe|grösse|one to one|[0-9] ?: ?[0-9]`)
	lengthSaid       = pattern.Lazily(`(?:\+ ?|\b)([0-9]{1,3}(?:[.,][0-9])?) ?(mm|cm|millimet(?:re|er)s?|centimet(?:re|er)s?|inch(?:es)?|ins)\b`)
	// drawnSaid is how far the bellows were out in words without a unit, and scaleSaid how large a thing was.
	drawnSaid = pattern.Lazily(`\b(?:bellows|extension|ext|racked|drawn|rail|standard|balgen|auszug|balgenauszug|soufflet|tirage)(?: (?:is|was|were|now|at|to|out|on|set|about|the|draw|extended|jetzt|auf|war|ist|bei|maintenant|de|à|est))* ([0-9]{2,3})(?: ?[cm]m)?` + clauseEnds + `|\b([0-9]{2,3}) on the (?:rail|bellows|scale)\b`)
	// sizeSaid is how large a thing was at the end of what is said, and toInfinity that the bellows were in again.
	sizeSaid   = pattern.Lazily(`^(?:.*\b(?:till|until|to|at|about|nearly|almost|roughly|was|is|now|at) )?([^,;]*\bsize)[.! ]*$`)
	toInfinity = pattern.Lazily(`\b(?:back (?:to|at|on)|(?:re)?focus(?:ed|sed)? (?:to|at|on)|set to) infinity[.! ]*$|\b(?:auf|wieder) unendlich[.! ]*$|\b(?:à|sur) l['’]infini[.! ]*$|\bbellows (?:all the way |right )?(?:back )?in again\b`)
	scaleSaid  = pattern.Lazily(`\b(?:scale|mag|magnification|reproduction)(?: (?:is|was|of|about|at))* one to ([0-9]{1,2})` + clauseEnds)

	ofBellows = lang.SetOf("ext extension bel bellows infinity racked extended draw auszug balgen balgenauszug doppelauszug brennweite focale tirage soufflet")
	lifeSize  = lang.SetOf("size grösse größe naturelle")
	twofold   = lang.SetOf("double doubled dbl twice doppelter doppelten doppelte doppelt verdoppelt doppelauszug doublé doublée")
	extraDraw = lang.SetOf("extra additional zusätzlich mehr supplémentaire")
	// besideScale are words beside a scale in a remark.
	besideScale = lang.SetOf("macro makro close up closeup at about nearly roughly etwa ca environ scale mag magnification reproduction abbildung abbildungsmaßstab maßstab massstab rapport grandissement échelle")
	bellowsIn   = lang.SetOf("no not without none never normal infinity ohne kein sans tube hole pinhole leak leaking creased folding sagged sagging patched bag")
)
