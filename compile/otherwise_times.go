package compile

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"gonum.org/v1/gonum/floats"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Other ways to read what a sheet was given: the other times and apertures of its line.

// times are the other times of the line, as the exposure's own, or as parts of it: one that
// was added, or that the lens was covered for.
func (l *otherLine) times() (ways []another) {
	sh := l.sh
	if !sh.time.known || sh.time.copied || sh.time.carried != nil {
		return l.timeByRatio()
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
	if m := inTwoCells().FindStringSubmatch(sh.time.at.Text()); m != nil {
		for i, terms := 0, lang.Within(m[1], l.names); i < len(terms); i++ {
			for _, time := range timesOf(terms[i].Kind) {
				ways = append(ways, another{"whether " + quote(sh.time.at.Text()) + " is one number or two", func(at *sheet) { at.time.v = time }})
			}
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
		if m := numberByRule().FindStringSubmatch(strings.ToLower(p.said)); m != nil {
			n, _ := strconv.ParseFloat(cmp.Or(m[1], m[2]), 64)
			try(p.said, seconds(n))
		}
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

// numberByRule is a number without its unit that is said to be by the film's rule for long times: 37 w recip, corrected to 37.
var numberByRule = pattern.Lazily(`(?:^|[^0-9./:])([0-9]+(?:\.[0-9]+)?) ?(?:w|w/|with|for|incl\.?|inc\.?|including|after|mit|avec) ?(?:the |its )?(?:recip|schwarzschild|rule\b|curve\b|correction\b)|\b(?:recip\w*|schwarzschild|corrected|correction)(?: to| is| was| makes| gives| it|:| =)* ([0-9]+(?:\.[0-9]+)?)\s*(?:$|[,;.)])`)

// inTwoCells is a time with a decimal comma that parts two cells as well: EV 8,0,1s.
var inTwoCells = pattern.Lazily(`^0,([0-9]+ ?s(?:ec)?)$`)

// onceOnly are the times of one that is written as several: 2x 1/15 is also a filter's factor,
// and 23:58 + 7 min an hour of the clock.
func (l *otherLine) onceOnly(given []float64) (ways []another) {
	sh := l.sh
	said := strings.TrimSpace(sh.time.at.Text())
	if count := sh.time.v.Count; count != nil && (behindWords(sh.time.at) || factorFirst().MatchString(sh.lines[0].Body.Text())) {
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

// factorFirst is a line that begins with what may be the factor in a column of filters: 2x 1/4 f22,
// and before a part of a second, of which one seldom gives several, 2 x 1/4 f22.
var factorFirst = pattern.Lazily(`^\s*[0-9]+(?:x | x 1/)`)

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

// timeByRatio is a ratio as the time that the line lacks, typed with a slip of the finger: f16 1:4.
func (l *otherLine) timeByRatio() (ways []another) {
	m := byRatio().FindStringSubmatch(l.sh.lines[0].Body.Text())
	if m == nil || !l.sh.scale.known {
		return nil
	}
	part := lang.Seconds{Num: 1, Den: parseFloat(strings.Replace(m[1], ",", ".", 1))}
	return []another{{"whether " + quote(m[0]) + " is the time or the scale", func(at *sheet) {
		at.time.v, at.scale = lang.Time{Parts: []lang.Seconds{part}}, value[float64]{}
	}}}
}

// apertures are those of words that put the line right.
func (l *otherLine) apertures() (ways []another) {
	if sh, body := l.sh, l.sh.lines[0].Body.Text(); sh.scale.known && (sh.aperture.copied || sh.aperture.carried != nil || !sh.aperture.known) {
		if m := byRatio().FindStringSubmatch(body); m != nil { // 1:6.3, 1/100
			for _, way := range putTo(lang.Within("f"+strings.Replace(m[1], ",", ".", 1), l.names), "whether "+quote(m[0])+" is the aperture") {
				ways = append(ways, another{way.asks, func(at *sheet) {
					way.put(at)
					at.aperture.known, at.scale = true, value[float64]{}
				}})
			}
		}
	}
	for _, p := range l.prose {
		if p.put {
			ways = append(ways, putTo(p.terms, "whether "+quote(p.said)+" puts it right")...)
		}
	}
	return ways
}

// byRatio is an aperture as lenses are marked with it: 1:6.3.
var byRatio = pattern.Lazily(`\b1 ?: ?([0-9]{1,2}(?:[.,][0-9])?)\b`)

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
