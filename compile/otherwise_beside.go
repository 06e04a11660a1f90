package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Other ways to read a sheet by the lines beside its own that were not read: by a reading
// above it and below the one that counts, by settings right below it, which may put it right,
// by numbers in words and by things of the kit. A line that owns to a slip says none of these;
// that is asked last, of the few lines that would help.

// aside is a sentence of a line beside a sheet that was not read.
type aside struct {
	said  string
	tale  bool // the line has many words, and tells of the day and of no setting by words alone
	line  int  // the first being 1
	above bool
	near  bool // within the sheet's scene, and among the nearest
	reads bool // above the sheet and below its reading
}

// asides are the lines that were not read between the beginning of a sheet's scene, or its
// reading, and its line, the nearest first, and those right below it.
func (l *otherLine) asides() (all []aside) {
	const most, far = 6, 20 // lines: of words, of figures
	sh := l.sh
	b := sh.outing.book
	own := lineIndex(b, sh.at.Start)
	lines := 0
	take := func(i int, a aside) {
		const tale = 10 // words
		line := &b.Lines[i]
		said := strings.TrimSpace(string(b.File.Text[line.Body:line.BodyEnd]))
		if said == "" || strings.HasPrefix(said, "#") {
			return
		}
		lines++
		a.line, a.tale = i+1, wordy(said, tale)
		if !a.tale {
			a.said = said
			all = append(all, a)
			return
		}
		for _, a.said = range lang.Sentences(said) {
			if a.said = strings.TrimSpace(a.said); a.said != "" {
				all = append(all, a)
			}
		}
	}
	scene, reading := sh.begins(), len(b.File.Text)
	if rd := sh.reading; rd != nil && !sh.ownReading && rd.at.File == b.File {
		reading = rd.at.Start
	}
	for i := own - 1; i >= 0 && b.Lines[i].Start > min(scene, reading) && lines < far; i-- {
		if line := &b.Lines[i]; line.Kind != lang.Log {
			take(i, aside{above: true, near: line.Start > scene && lines < most, reads: line.Start > reading})
		}
	}
	above := lines
	next := own + 1
	for ; next < len(b.Lines) && b.Lines[next].Kind != lang.Log && lines < above+most; next++ {
		take(next, aside{near: true})
	}
	for i := next; i < min(len(b.Lines), own+far); i++ { // 1A was at 1/15 too
		line := &b.Lines[i]
		if line.Kind == lang.Log || line.Kind == lang.Blank {
			continue
		}
		if words := wordsIn(string(b.File.Text[line.Body:line.BodyEnd])); slices.Contains(words, strings.ToLower(sh.label)) || countsSheets(words) {
			take(i, aside{near: true})
		}
	}
	return all
}

// countsSheets reports whether words speak of sheets by their order, and not by their labels: the first one
// had the yellow on.
func countsSheets(words []string) bool {
	for i, word := range words {
		if inOrder[word] && (word == "both" || i+1 < len(words) && ofSheets[words[i+1]]) {
			return true
		}
	}
	return false
}

// The words are those of notes read for this (common practice, no source).
var (
	inOrder  = lang.SetOf("first second third fourth last other previous earlier before both all these those two three")
	ofSheets = lang.SetOf("one ones sheet sheets plate plates holder side shot shots exposure exposures neg negs negative negatives two three before had was were with got")
)

// begins is where in its notebook the scene of a sheet begins, or its day.
func (sh *sheet) begins() int {
	if sc := sh.scene; sc != nil && sc.st.Span.File == sh.outing.book.File {
		return sc.st.Span.Start
	}
	return sh.outing.at.Start
}

// unless are the ways that a line gives, if it owns to no slip but that of the pen, and a long
// one tells of this day's sheets.
func (a *aside) unless(ways []another) []another {
	if len(ways) == 0 || ownsToSlip().MatchString(strings.ToLower(a.said)) && !forgotToWrite().MatchString(a.said) ||
		a.tale && lang.Elsewhere(a.said) {
		return nil
	}
	return ways
}

// figuresBeside are the ways by the readings and settings of the lines beside.
func (l *otherLine) figuresBeside(s *season) (all []another) {
	for _, a := range l.beside() {
		if a.above && !a.reads || !maySet(a.said) {
			continue
		}
		asks := func(what string) string {
			return "whether " + quote(a.said) + " on line " + fmt.Sprint(a.line) + " says its " + what
		}
		terms := l.within(a.said)
		if !a.above {
			all = append(all, a.unless(putTo(terms, asks("settings")))...)
			continue
		}
		var ways []another
		for _, rd := range l.readingsIn(terms, s) {
			ways = append(ways, another{asks("reading"), func(at *sheet) { at.reading = rd }})
		}
		all = append(all, a.unless(ways)...)
	}
	return all
}

// wordsBeside are the ways by the words of the lines beside.
func (l *otherLine) wordsBeside(s *season) (all []another) {
	for _, a := range l.beside() {
		if !a.near {
			continue
		}
		words := wordsIn(a.said)
		ways := l.asThings(a.said, words, true)
		if !a.tale {
			ways = slices.Concat(l.asNumbers(a.said, s), ways, l.sh.asLengths(a.said))
			if l.sh.reading != nil {
				ways = append(ways, l.sh.reading.zoneTold(l.sh, a.said, zoneSaid)...)
			}
			if a.above || slices.Contains(words, strings.ToLower(l.sh.label)) { // what is read below a sheet is for the next
				ways = append(ways, l.asFigure(a.said)...)
			}
			if says(words, ofSteps) {
				ways = append(ways, l.asSteps(a.said, true)...)
			}
			if says(words, offLens) && says(words, ofFilters) && len(l.sh.filters) > 0 {
				ways = append(ways, another{"whether a filter was on: " + quote(a.said), func(at *sheet) { at.filters = nil }})
			}
		}
		all = append(all, a.unless(ways)...)
		if !a.above {
			_, _, _, tells := ofAbove(strings.ToLower(strings.TrimRight(a.said, ".!")))
			all = append(all, l.sh.notOn(withoutLabels(tells, []string{l.sh.label}))...)
		}
		if l.sh.reading != nil && l.sh.outing.book.meterStoodIn(a.said) { // owns to no slip but one of the reading
			all = append(all, l.sh.reading.indexTold(l.sh, a.said, indexOfMeter)...)
		}
	}
	return all
}

// The words are those of notes read for this (common practice, no source).
var (
	ofSteps   = lang.SetOf("stop stops zone zones light licht stufe stufen blende meter metered spot read reading wall checked brighter darker")
	ofFilters = lang.SetOf("filter filters glass gel")
)

// maySet reports whether a text has what an aperture, a time or a light value has.
func maySet(said string) bool {
	for i := range len(said) {
		if said[i] < '0' || said[i] > '9' {
			continue
		}
		before, behind := said[:i], said[i+1:]
		if n := len(before); n > 1 && (before[n-1] == ' ' || before[n-1] == '.') {
			before = before[:n-1]
		}
		behind = strings.TrimPrefix(behind, " ")
		if n := len(before); n > 0 && strings.IndexByte("fF@/", before[n-1]) >= 0 || behind != "" && strings.IndexByte(`/"'smhSMH`, behind[0]) >= 0 ||
			strings.HasPrefix(behind, "′") || strings.HasPrefix(behind, "″") {
			return true
		}
	}
	return lightValueSaid().MatchString(said)
}

var lightValueSaid = pattern.Lazily(`(?i)\b(?:EV|LV|LW|IL)\b`)

// readingsIn are the whole readings among some terms, each by itself; one that is not placed
// stands on the zone of the reading that it takes the place of.
func (l *otherLine) readingsIn(terms []lang.Term, s *season) (all []*reading) {
	if !slices.ContainsFunc(terms, func(t lang.Term) bool { _, ok := t.Kind.(*lang.Exposure); return ok }) {
		return nil
	}
	t := reader{resolver: &resolver{season: s, book: l.sh.outing.book}, st: l.sh.lines[0], sheet: &sheet{}, metering: true}
	was := l.sh.reading
	if was != nil && len(was.areas) > 0 {
		t.now.meter = was.areas[0].by
	}
	for i := range terms {
		if k, ok := terms[i].Kind.(*lang.Exposure); ok {
			t.metered(k, &terms[i])
		}
	}
	if t.sheet.reading == nil {
		return nil
	}
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

// forgotToWrite owns to no slip but that of the pen.
var forgotToWrite = pattern.Lazily(`(?i)\bforgot(?:ten)? to (?:say|note|write|mention|log)\b`)

// lineIndex is the line of a notebook on which an offset stands.
func lineIndex(b *book, at int) int {
	i, _ := slices.BinarySearchFunc(b.Lines, at, func(line lang.Line, at int) int {
		if line.Close <= at {
			return -1
		}
		return 1
	})
	return i
}
