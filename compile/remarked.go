package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What a remark on a line that chooses, or a line of prose above its sheets, says of another thing than the one that is
// chosen: lens: 210 -- no, the 150; put the red on. It is not read, and what was chosen is open for the sheets below.

// asks leaves open for the sheets below what a line has of a log word, and what is asked about it.
func (r *resolver) asks(w lang.Word, line int, what string) {
	if r.asked == nil {
		r.asked = map[int]string{}
	}
	r.asked[line] = what
	r.leaveOpen(w, line)
}

// filterFor is a line that chooses a filter for the sheets that it names alone, and for certain.
type filterFor struct {
	line   int
	labels []string
}

// remarked leaves open what a line chose where a remark on it names another thing of its kind, or one of its sheets.
func (r *resolver) remarked(st *lang.Statement) {
	switch st.Word {
	case lang.Scene:
		r.titledWith(st)
		return
	case lang.Meter, lang.FilterWord, lang.Lens, lang.Film, lang.Load:
	default:
		return
	}
	if st.Word == lang.Lens && r.asked[r.now.lost.drawn] != "" {
		r.now.lost.drawn = 0
	}
	if labels := lang.LabelsIn(st.Body.Text(), isSide); st.Word == lang.FilterWord && len(labels) > 0 {
		line, body := placeOf(st.Span).Line, strings.TrimSpace(st.Body.Text())
		r.asks(lang.FilterWord, line, "for which sheets: "+quote(body))
		if name, rest, is := strings.Cut(withoutLabels(strings.ToLower(body), labels), " "); len(r.now.filters) == 1 && strings.EqualFold(name, r.now.filters[0].name) && (!is || only(wordsIn(rest), connective, ofThoseAlone)) {
			r.surely = filterFor{line, labels} // Y8 for 1A
		}
		return
	}
	for i := range st.Terms() {
		if k, remark := st.Terms()[i].Kind.(*lang.Remark); remark && !st.Terms()[i].Struck {
			r.remarkedOther(st, k.Text)
		}
	}
	if st.Word == lang.Lens || st.Word == lang.Load {
		if name, behind := r.nameAlone(st.Text); behind != "" && strings.HasPrefix(strings.TrimLeft(st.Text[len(name):], " "), "(") {
			r.remarkedOther(st, strings.TrimRight(behind, " )"))
		}
	}
}

// remarkedOther is what a remark on a line leaves open.
func (r *resolver) remarkedOther(st *lang.Statement, said string) {
	said = strings.Trim(said, " -–—()")
	low, line := strings.ToLower(said), placeOf(st.Span).Line
	if ofOtherTime(low) {
		return
	}
	labels := lang.LabelsIn(said, isSide)
	open := func(w lang.Word, thing bool, asks string) bool {
		if thing {
			r.asks(w, line, asks+": "+quote(said))
		}
		return thing
	}
	some := len(labels) > 0 || ofSomeSheets().MatchString(low)
	switch st.Word {
	case lang.FilterWord:
		open(st.Word, some || r.other(low, lang.FilterWord, nil, true) != nil || len(r.now.filters) > 0 && takenBack().MatchString(low), "which filter was on")
	case lang.Lens:
		if !open(st.Word, some || r.other(low, lang.Lens, r.now.lens, false) != nil, "which lens it was") && r.now.lens != nil {
			for _, m := range outTo().FindAllStringSubmatch(low, -1) {
				if mm := parseFloat(m[1]); mm > r.now.lens.focal && open(lang.Drawn, mm <= 4*r.now.lens.focal, "how far the bellows were out") {
					break
				}
			}
		}
	case lang.Film:
		open(st.Word, some || r.other(low, lang.Film, r.now.film, false) != nil, "which film it was")
	case lang.Load:
		if len(st.Labels) == 0 {
			return
		}
		held := r.holders[strings.ToLower(r.sidesOf(st.Labels)[0].Text)]
		if held == nil || held.film == "" {
			return
		}
		loaded, _ := find(r.book.kit.films, held.film)
		if loaded != nil && r.other(low, lang.Film, loaded, false) != nil {
			for _, l := range r.sidesOf(st.Labels) {
				r.holders[strings.ToLower(l.Text)] = &holder{unheard: st.Span, asks: "which film it was: " + quote(said)}
			}
		}
	case lang.Meter:
		if by := r.other(low, lang.Meter, nil, false); by != nil && r.meterChosen(st) != nil {
			r.now.meterTold = "which meter it was: " + quote(said)
			return
		} else if open(st.Word, by != nil, "which meter it was") {
			return
		}
		if rd := r.unused; rd != nil && !rd.through && !mayBeThrough.In(said) {
			open(st.Word, r.other(low, lang.FilterWord, nil, false) != nil, "whether the filter was on, or before the meter")
		}
	}
}

// titledWith leaves open what a part of a scene's title says was on: barn, yellow filter; fern (210 lens); barn with the yellow.
func (r *resolver) titledWith(st *lang.Statement) {
	if !mayTitle.In(st.Text) || !r.book.kit.mayName(st.Text) {
		return // as most
	}
	low := strings.ToLower(st.Text)
	for _, at := range titledOn().FindAllStringIndex(low, -1) {
		if ofOtherTime(low) {
			return
		}
		part := strings.Trim(low[at[0]:at[1]], " ,;:()")
		asks, line := ": "+quote(strings.TrimSpace(st.Text)), placeOf(st.Span).Line
		if f := r.other(part, lang.FilterWord, nil, true); f != nil && !strings.Contains(part, "lens") {
			r.asks(lang.FilterWord, line, "which filter was on"+asks)
		} else if l := r.other(part, lang.Lens, r.now.lens, false); l != nil && !strings.Contains(part, "filter") {
			r.asks(lang.Lens, line, "which lens it was"+asks)
		}
	}
}

// proseAhead leaves open what a line of prose that stands above its sheets says of the meter, the filter or the lens; between two
// of them it is of the one below where it says what was done before it.
func (r *resolver) proseAhead() {
	const tale = 12 // words
	l := &r.book.Lines[r.passed]
	if l.Kind != lang.Prose || r.last == "" || len(r.book.kit.meters) < 2 && len(r.book.kit.filters) == 0 && len(r.book.kit.lenses) < 2 && len(r.book.kit.films) < 2 {
		return
	}
	text := source.Span{File: r.book.File, Start: l.Body, End: l.BodyEnd}.Text()
	if !r.book.kit.mayName(text) && !(len(r.now.filters) > 0 && maySayOff.In(text)) {
		return // as most
	}
	for _, said := range lang.Sentences(text) {
		if wordy(said, tale) {
			continue
		}
		said = strings.Trim(said, " .!")
		low := strings.ToLower(said)
		line := r.passed + 1
		r.loadTold(said, source.Span{File: r.book.File, Start: l.Body, End: l.BodyEnd})
		if r.last == lang.Sheet && !putsOn().MatchString(low) {
			continue // of the sheets above
		}
		other := r.now.meter != nil && r.meterGone(low)
		for clause := range clauses(low) {
			other = other || !ofOtherTime(clause) && r.other(clause, lang.Meter, nil, false) != nil
		}
		if other {
			asks := "which meter it was: " + quote(said)
			if r.unused != nil {
				r.asks(lang.Meter, line, asks)
			}
			r.now.meterTold = asks
		}
		if ofOtherTime(low) {
			continue
		}
		changed := changesThing().MatchString(low)
		if changed && r.other(low, lang.Lens, r.now.lens, false) != nil {
			r.asks(lang.Lens, line, "which lens it was: "+quote(said))
		}
		if changed && r.other(low, lang.FilterWord, nil, true) != nil || len(r.now.filters) > 0 && saidOff().MatchString(low) {
			r.asks(lang.FilterWord, line, "which filter was on: "+quote(said))
		}
	}
}

// loadTold leaves open which film is in the sides that words name with another film of the kit and nothing else, and that were not
// exposed since they were loaded: oh, 1A is flint.
func (r *resolver) loadTold(said string, at source.Span) {
	if len(r.book.kit.films) < 2 || !strings.ContainsAny(said, "0123456789") && !mayCount.In(said) {
		return // as most
	}
	sides := sidesSaid(said)
	labels := lang.LabelsIn(sides, isSide)
	if len(labels) == 0 || ofOtherTime(strings.ToLower(said)) {
		return
	}
	for _, n := range r.book.kit.thingsIn(withoutLabels(strings.ToLower(sides), labels)) {
		f, is := n.thing.(*film)
		if !is || n.sure != thingAlone {
			continue
		}
		for _, label := range labels {
			key := strings.ToLower(label)
			held := r.holders[key]
			if held == nil && r.named(label) == nil && r.now.film != f || held != nil && held.exposed == nil && held.film != f.name {
				r.holders[key] = &holder{unheard: at, asks: "which film it was: " + quote(said)}
			}
		}
	}
}

// ofOtherTime reports whether words in lower case plainly tell of another time, or of what was not done.
func ofOtherTime(low string) bool { return lang.Elsewhere(low) || says(wordsIn(low), otherTime) }

// other is a thing of the kit that words in lower case name for itself, where it is for a log word and not the one given, or
// not on; a filter by its colour alone only where asked for.
func (r *resolver) other(low string, of lang.Word, than thing, byColour bool) thing {
	all := r.book.kit.thingsIn(low)
	for i := range all {
		n, is := &all[i], false
		switch t := n.thing.(type) {
		case *filter:
			is = of == lang.FilterWord && (byColour || !n.byColour) && !r.book.kit.isOn(n, r.now.filters)
		case *lens:
			is = of == lang.Lens && n.thing != than
		case *film:
			is = of == lang.Film && n.thing != than
		case *meter:
			is = of == lang.Meter && r.showsOther(t)
		}
		if is && n.sure >= thingItself {
			return n.thing
		}
	}
	return nil
}

// showsOther reports whether a meter shows another value than the one of the reading.
func (r *resolver) showsOther(m *meter) bool {
	by := r.now.meter
	if r.unused != nil && len(r.unused.areas) > 0 {
		by = r.unused.areas[0].by
	}
	return by != nil && m != by && (m.at100 != by.at100 || m.ei != by.ei || m.offset != by.offset)
}

// meterGone reports whether words in lower case say that the meter in use is there no more.
func (r *resolver) meterGone(low string) bool {
	return len(r.book.kit.meters) > 1 && gone().MatchString(low) && slices.ContainsFunc(r.book.kit.thingsIn(low), func(n thingNamed) bool { return n.thing == r.now.meter && n.sure >= thingItself })
}

// The words are those of notes read for this (common practice, no source).
var (
	otherTime    = lang.SetOf(unreal + " home bag case pouch rucksack away car earlier later tried compared besides too also never usually")
	ofThoseAlone = lang.SetOf("only alone just für nur pour seulement und et")
	ofSomeSheets = pattern.Lazily(`\bfor (?:the )?(?:first|second|third|fourth|last|next|one|two)(?: (?:one|two|sheets?|shots?|plates?))?(?: only)?$|\bexcept\b|\bbut for\b`)
	takenBack    = pattern.Lazily(`^(?:no,? )?` + scrapIt + `\b|` + offAgain)
	saidOff      = pattern.Lazily(offAgain)
	maySayOff    = pattern.May(saidOff)
	changesThing = pattern.Lazily(`\b(?:` + puttingOn + `|lent|lends|borrowed|took|used|using|with|through|scrap|scratch|make|on)\b|^\S+ (?:for|on)\b|^(?:no|now|then),? |` + sinceNow + `|^lens\b`)
	putsOn       = pattern.Lazily(`^(?:(?:then|now|next|so|and|i|we|have|for the next(?: one| two)?),? )*(?:` + puttingOn + `) |^(?:now|then),? (?:the )?\S+(?: filter| lens| one)?(?: on)?$|` + sinceNow + `|^lens\b`)
	mayTitle     = pattern.AnyOf("filter lens with through")
	titledOn     = pattern.Lazily(`(?:[,;:(]|\b(?:with|through|on)\b) ?(?:(?:with|through|on|the|my|a) )*\S+ (?:filter|lens)[,;:) ]*$|[,;:(] ?(?:with|through) (?:the |my )?\S+[) ]*$|\b(?:with|through) (?:the|my) \S+$`)
	outTo        = pattern.Lazily(`\b(?:out|bellows|extension|ext|rail|drawn|racked|at|to)(?: (?:out|to|at|is|was|drawn|racked|about))* ([0-9]{2,4})(?: ?mm)?(?:$|[,;.) ])`)
	gone         = pattern.Lazily(`\b(?:took|gone|home|broken|dead|died|empty|back to|away|lost)\b`)
)

const (
	// puttingOn are words for what is done to have a thing on, and sinceNow how a line ends that says what is from now on.
	puttingOn = `put(?:s|ting)?|screw(?:s|ed|ing)|add(?:s|ed|ing)|swap(?:s|ped|ping)|switch(?:es|ed|ing)|chang(?:es|ed|ing)|fit(?:s|ted|ting)?|mount(?:s|ed|ing)|stuck|stick(?:ing)?|pop(?:s|ped|ping)|slap(?:s|ped|ping)|(?:went|going|go) (?:over )?(?:to|with|for)`
	sinceNow  = `^(?:the )?\S+(?: filter| lens| one)? this time$`
)

const offAgain = `\b(?:no|without(?: a| the| any)?) filters?\b|\boff it (?:comes|came|goes|went)\b|\b(?:took|taken|take|takes|taking) (?:it|them|that|the filter|the \w+) off\b|\b(?:took|taken|take) off\b|\bit (?:is|was|comes|came) off\b`
