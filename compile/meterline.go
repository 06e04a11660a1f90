package compile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// The line of a reading for the sheets below it, and what it chooses beside the reading.

// meter holds for its scene, until the next.
func (r *resolver) meter(st *lang.Statement) {
	if r.scene != nil {
		r.scene.meterLines = append(r.scene.meterLines, st)
	}
	if m := r.meterChosen(st); m != nil {
		r.now.meter, r.now.meterTold = m, ""
		for _, said := range besideReading(st) {
			if indexBeside().MatchString(r.book.kit.ofMeter(said)) {
				r.now.meterAt = said // meter: box -- set at EI 200
			}
		}
		if above := r.now.reading; above != nil && above.open == "" && slices.ContainsFunc(above.areas, func(a area) bool { return a.by != m }) {
			own := *above
			own.open = fmt.Sprintf("whether the reading above still holds: line %d takes up the meter %s", placeOf(st.Span).Line, m.name)
			own.half = true
			r.now.reading, r.unused = &own, nil
		}
		return
	}
	line := &r.line
	*line = sheet{}
	t := reader{resolver: r, sheet: line, st: st, metering: true}
	if len(st.Labels) > 0 {
		named := false
		t.by, named = find(r.book.kit.meters, st.Labels[0].Text)
		if m := indexNamed().FindStringSubmatch(strings.ToLower(st.Labels[0].Text)); m != nil && !named {
			if ei := parseFloat(m[1]); exposure.NearestIndex(ei) == ei {
				t.indexed, t.indexedAt = ei, st.Labels[0].Span // meter at 160: EV 9
			}
		}
	}
	t.read()
	if line.reading == nil && t.zoned != "" {
		line.unclear = cmp.Or(line.unclear, "whether the reading above stands "+t.zoned)
	}
	r.chosenWith(line, st)
	if line.wanted.v != 0 {
		r.wantsHere(line.wanted)
	}
	r.filterMetered(line, st)
	if line.light != "" {
		r.lightIs(line.light, st)
	}
	if line.reading == nil {
		r.withoutReading(line, st)
	}
	if line.reading != nil {
		line.reading.open = cmp.Or(line.unclear, line.reading.open)
		line.reading.half = line.reading.open != ""
		line.reading.beside = besideReading(st)
		switch rd := line.reading; {
		case rd.ei != 0 && len(rd.areas) == 0:
			r.now.meterAt = rd.eiAt.Text() // meter: at ISO 400
		case rd.ei != 0:
			r.now.meterAt = ""
		case r.now.meterAt != "":
			rd.beside = append(rd.beside, r.now.meterAt)
		}
		if former := r.now.reading; former != nil && r.unused == former {
			line.reading.former = former
		}
		r.unused = line.reading
		r.now.reading, r.now.ended, r.now.lost.meter = line.reading, 0, 0
		if asks := r.now.meterTold; asks != "" && !slices.ContainsFunc(line.reading.areas, func(a area) bool { return a.by != r.now.meter }) {
			r.asks(lang.Meter, placeOf(st.Span).Line, asks)
		}
		if r.scene != nil {
			r.scene.reading = line.reading
		}
	}
}

// meterChosen is the declared meter that a line names and says nothing else of but remarks,
// nil where it does: meter: spot, meter: the spot meter.
func (r *resolver) meterChosen(st *lang.Statement) *meter {
	if len(st.Labels) > 0 {
		return nil
	}
	name := ""
	for i := range st.Terms() {
		switch t := &st.Terms()[i]; t.Kind.(type) {
		case *lang.Remark:
		case *lang.Loose, *lang.Cue:
			if t.Struck || t.Doubtful {
				return nil
			}
			name = strings.TrimSpace(name + " " + t.Span.Text())
		default:
			return nil
		}
	}
	name = strings.TrimRight(name, ". ")
	for _, said := range append(spellings(name, "meter"), name) {
		if m, ok := find(r.book.kit.meters, said); ok {
			return m
		}
	}
	return nil
}

// withoutReading is a meter line that gives none: the reading before it is kept where the
// line says so or speaks of something else, and else open.
func (r *resolver) withoutReading(line *sheet, st *lang.Statement) {
	if keepsReading(st.Body.Text()) || line.lens.at.File != nil || line.film.at.File != nil || line.light != "" || len(line.filters) > 0 {
		return
	}
	r.now.lost.meter = placeOf(st.Span).Line
	if len(st.Labels) > 0 && line.unclear != "" {
		return // what stands there was reported
	}
	at := st.Body
	if strings.TrimSpace(at.Text()) == "" {
		at = st.Span
	}
	r.report("no-reading", at, "no reading is understood on this line, and none from before holds below it")
}

// keepsReading reports whether a meter line without a reading says that the one before it still
// holds: same, as before, no change; not: not the same, read again before 1A.
func keepsReading(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !unicode.IsLetter(c) })
	if len(words) == 2 && noChange[words[0]] && filterChange[words[1]] {
		return true
	}
	return !says(words, readingGone) && (says(words, readingKept) || says(words, readingAgain) && only(words, readingAgain, readingFrom))
}

// The words are those of meter lines that keep the reading before them, and those that take it
// away whatever else is said (common practice, no source).
var (
	readingKept  = lang.SetOf("same still unchanged ditto steady constant")
	readingAgain = lang.SetOf("before above continued again")
	readingFrom  = lang.SetOf("as reading like it is was the from use used using light one all")
	readingGone  = lang.SetOf("not no never nothing longer changed changes changing different forgot forgotten didn didnt don wasn isn doesn hardly nearly almost lost broke broken dead off out")
)

// chosenWith takes a lens or a film that a meter line names: it holds for what follows,
// as one of a line of its own does.
func (r *resolver) chosenWith(line *sheet, st *lang.Statement) {
	if line.lens.at.File != nil {
		r.now.lens = nil
		r.chosen(lang.Lens, st)
		if line.lens.known {
			r.now.lens = line.lens.v
		}
	}
	if line.film.at.File != nil {
		r.now.film, r.now.rated = nil, value[float64]{}
		r.chosen(lang.Film, st)
		if line.film.known {
			r.now.film = line.film.v
		}
	}
}

// filterMetered reports a filter that a meter line names: whether it is in the reading or
// on for the sheets that follow is not said, and none of them is blamed.
func (r *resolver) filterMetered(line *sheet, st *lang.Statement) {
	if line.reading == nil || line.reading.through {
		return
	}
	for i := range st.Terms() {
		said := ""
		switch k := st.Terms()[i].Kind.(type) {
		case *lang.Loose:
			said = r.book.kit.filterIn(lookedThrough(k.Words), true)
			if words := strings.Join(k.Words, " "); drawnIn().MatchString(strings.ToLower(words)) {
				line.reading.maybeDrawn = words
				line.reading.maybeThrough = line.reading.maybeThrough || !strings.Contains(strings.ToLower(words), "included")
			}
		case *lang.Exposure:
			said = r.book.kit.filterIn(k.Name, false)
		}
		if said != "" {
			line.reading.maybeThrough = true
			r.leaveOpen(lang.FilterWord, placeOf(st.Span).Line)
			r.report("unknown-term", st.Terms()[i].Span, quote(said)+" has no meaning in a meter line").
				note("for the sheets that follow it has a line of its own, filter: " + said + "; where it is in the reading, write metered through " + said + " with the sheet")
			return
		}
	}
}

// lookedThrough are words without those for what the meter looked through: through the yellow.
func lookedThrough(words []string) []string {
	if len(words) < 2 || !throughIt[strings.ToLower(words[0])] {
		return words
	}
	for words = words[1:]; len(words) > 1 && leadsElsewhere[strings.ToLower(words[0])]; {
		words = words[1:]
	}
	return words
}

// The words are those of meter lines read for this (common practice, no source).
var (
	indexNamed = pattern.Lazily(`^(?:set )?(?:at|@|on|to) ?(?:ei|iso|asa)? ?([0-9]{1,5})$`)
	throughIt  = lang.SetOf("through behind thru durch")
	drawnIn    = pattern.Lazily(`\b(?:bellows|extension|ext|draw) (?:(?:is|are|was|were|already) )*(?:included|allowed for|counted|compensated|in it|in)\b|\bincluding (?:the )?(?:bellows|extension)\b|\b(?:at|on|off|from) (?:the )?(?:ground ?glass|gg|focusing screen|film plane)\b|\bttl\b|\bthrough the (?:taking )?lens\b`)
)

// filterIn is the declared filter that words name, or the word filter. A colour names one
// only where it stands by itself: before a reading it is a place's.
func (k *kit) filterIn(words []string, byColour bool) (said string) {
	for _, word := range words {
		if _, ok := find(k.filters, word); ok || byColour && len(words) == 1 && k.coloured(word) != nil {
			return word
		}
		if strings.EqualFold(word, "filter") {
			said = word
		}
	}
	return said
}
