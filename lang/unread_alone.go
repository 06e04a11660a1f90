package lang

import (
	"fmt"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What is said in a line by itself, without its word and a colon, for the sheets below: an index, what
// the meter showed, a filter that was put on or taken off.

// indexAlone is a film speed on a line by itself: EI: 64, EI 100 today. Which film's it is is not
// said.
func (l *doubtful) indexAlone() (diag.Diagnostic, bool) {
	low := l.low
	if word, rest, more := strings.Cut(low, " "); more && (word == "my" || word == "our" || l.names.Names[word] == Film) {
		low = rest // my EI: 64
	}
	m := loneIndex().FindStringSubmatch(low)
	if m == nil {
		return diag.Diagnostic{}, false
	}
	l.meant = FilmSpeed
	return diag.Diagnostic{
		Code: "unknown-term", Severity: diag.Warning, Span: l.at(0, len(l.text)), Message: "a film speed by itself is not read",
		Notes: []diag.Aside{{Text: "it is said with the film: film: NAME, EI " + m[1] + ", or with a sheet, or of the meter: at EI " + m[1]}},
	}, true
}

var loneIndex = pattern.Lazily(`^(?:e\.?i\.?|iso|asa|rated(?: at)?)[: ] ?(?:at )?([0-9]{1,5})(?: (?:today|now|here|from here|all day))?(?: \([^()]*\))?\.?$`)

// explains is a list of the writer's own short words for things of the kit, in prose: r = A25, red; Filters: r = A25, y = K2.
func (l *doubtful) explains() (diag.Diagnostic, bool) {
	pairs := Explained(l.text, l.names)
	if len(pairs) == 0 {
		return diag.Diagnostic{}, false
	}
	l.meant, l.many = Call, "say what words of your own stand for and are not read"
	said, means, _ := strings.Cut(pairs[0], "=")
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)), Message: fmt.Sprintf("this line says what %q stands for and is not read", said),
		Notes: []diag.Aside{{Text: "a word of your own for a term is written call: " + said + " = " + means}},
	}, true
}

// Explained is such words of a line in prose and what they stand for, each as said=meant.
func Explained(text string, names *Lexicon) (pairs []string) {
	if !strings.Contains(text, "=") {
		return nil // as nearly all
	}
	text = listHead().ReplaceAllString(bulleted(text), "")
	for pair := range strings.FieldsFuncSeq(text, func(c rune) bool { return c == ',' || c == ';' }) {
		said, means, ok := strings.Cut(pair, "=")
		if !ok {
			continue // red, behind its filter
		}
		said = strings.TrimSpace(said)
		means, _, _ = strings.Cut(strings.TrimSpace(means)+" ", ". ")
		s := scanFolded(said, onSheet, names)
		thing := scanFolded(means, onSheet, names)
		if _, log := names.word(said); log || !shortWord().MatchString(said) || s.count(tWord) != len(s.tokens) || len(thing.tokens) == 0 {
			return nil
		}
		name := names.longest(lower(means))
		if name == 0 && thing.count(tSame, tDrop) == 0 && !(thing.kind(0) == tFilter && thing.isFilterForSure(0)) {
			return nil
		}
		if name > 0 {
			means = means[:name]
		}
		pairs = append(pairs, said+"="+strings.TrimSpace(means))
	}
	return pairs
}

var (
	listHead  = pattern.Lazily(`^[\pL][\pL .]{2,30}: `)
	shortWord = pattern.Lazily(`^[\pL][\pL0-9.'+-]{0,5}$`)
)

// readingAlone is a line by itself that says no more than what the meter showed: EV 13 now,
// meter now 1/125 f8.
func (l *doubtful) readingAlone() (diag.Diagnostic, bool) {
	text := strings.TrimRight(bulleted(l.text), " .!:")
	if text == "" || text[0] == '#' || len(text) > 48 || strings.ContainsAny(text, `"(&;`) {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(text, 0, onMeter, l.names)
	metered := false
	for i, t := range s.tokens {
		word := s.low[t.Pos.Offset:s.ends[i]]
		switch t.Type {
		case tWord:
			if !ofReadingLine[word] {
				return diag.Diagnostic{}, false
			}
			metered = metered || strings.Contains(word, "meter") || strings.Contains(word, "read")
		case tCue:
			metered = true
		case tEV:
			metered = metered || isLetter(word[0])
		case tAperture, tTime, tZone, tMeterEI, tISO, tComma, tAt, tEquals, tAbout, tDoubt, tArrow, tNo:
		default:
			return diag.Diagnostic{}, false
		}
	}
	if !metered || s.count(tEV) == 0 && (s.count(tAperture) == 0 || s.count(tTime) == 0) {
		return diag.Diagnostic{}, false
	}
	if !l.alone() {
		return diag.Diagnostic{}, false // words of a paragraph
	}
	return l.showed(), true
}

// showed is the finding of a line that says what the meter showed.
func (l *doubtful) showed() diag.Diagnostic {
	l.meant, l.many = Meter, "say what the meter showed and are not read"
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line says what the meter showed and is not read",
		Notes:   []diag.Aside{{Text: "for the sheets below, it is written meter: EV 12, or meter: 1/60 f8"}},
	}
}

// shortLine is how many words a line has that is no story.
const shortLine = 12

// saidBetween is a line of some words between log lines that says what the meter showed, or how far
// the bellows were out.
func (l *doubtful) saidBetween() (diag.Diagnostic, bool) {
	text := bulleted(l.text)
	if OnRail(text) != "" && (l.alone() || l.between()) {
		return l.drawn(), true
	}
	if !l.between() || len(strings.Fields(text)) > shortLine {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(text, 0, onSheet, l.names)
	if d, ok := l.readingBetween(s); ok {
		return d, ok
	}
	return l.bellowsBetween(s, text)
}

// readingBetween is such a line with a light value, or an aperture and a time: cloud came over, reads
// 1/15 f16 now. It may be a reading, and what it says of the sheets below is not known.
func (l *doubtful) readingBetween(s *scanner) (diag.Diagnostic, bool) {
	if s.count(tEV) == 0 && !s.tells() {
		return diag.Diagnostic{}, false
	}
	l.meant, l.many = Meter, "have settings or light values and are not read"
	what := "has an aperture and a time"
	if s.count(tEV) > 0 {
		what = "has a light value"
	}
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)), Message: "this line " + what + " and is not read",
		Notes: []diag.Aside{{Text: "for the sheets below, it is written meter: EV 12, or meter: 1/60 f8"}},
	}, true
}

// bellowsBetween is such a line with an extension: ext: 290mm, the bellows were out to 290 mm. Of which
// sheets it is said is not known.
func (l *doubtful) bellowsBetween(s *scanner, text string) (diag.Diagnostic, bool) {
	if s.count(tExt, tBellows) == 0 || Elsewhere(text) {
		return diag.Diagnostic{}, false
	}
	line := l.beside(-1) // which is a log line
	if above := l.bench.scan(source.Fold(l.src[line.Body:line.BodyEnd]).Text, 0, onSheet, l.names); above.count(tExt, tBellows, tScale, tFocus) > 0 {
		return diag.Diagnostic{}, false // of that sheet, which has it
	}
	return l.drawn(), true
}

// drawn is the finding of a line that says how far the bellows were out.
func (l *doubtful) drawn() diag.Diagnostic {
	l.meant, l.many = Drawn, "say how far the bellows were out and are not read"
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)), Message: "this line says how far the bellows were out and is not read",
		Notes: []diag.Aside{{Text: "it is said at each sheet that it holds for: 3A: ext 290mm, 1/8 f16"}},
	}
}

// between reports whether log lines stand right above and below, a blank line between or not.
func (l *doubtful) between() bool {
	l.hangs = true
	for _, step := range [...]int{-1, 1} {
		if beside := l.beside(step); beside == nil || beside.Kind != Log {
			return false
		}
	}
	return true
}

// beside is the next line a step up or down, a blank line between or not; nil where there is none.
func (l *doubtful) beside(step int) *Line {
	at := func(i int) *Line {
		if i < 0 || i >= len(l.lines) {
			return nil
		}
		return &l.lines[i]
	}
	if next := at(l.line + step); next == nil || next.Kind != Blank {
		return next
	}
	return at(l.line + 2*step)
}

// alone reports whether no prose is on the lines above and below.
func (l *doubtful) alone() bool {
	l.hangs = true
	for _, beside := range [...]int{l.line - 1, l.line + 1} {
		if beside >= 0 && beside < len(l.lines) && l.lines[beside].Kind != Log && l.lines[beside].Kind != Blank {
			return false
		}
	}
	return true
}

// ofReadingLine are the words of such a line.
var ofReadingLine = SetOf("now then meter metered metering reading reads read says said shows showed it is was the of and still spot incident light again here later at re remeter remetered remetering reread re-metered re-metering re-read re-reading")

// filterAlone is a line by itself that says no more than which filter is on or off: no
// filter, Y8 on, using the R25. A colour alone may be anything.
func (l *doubtful) filterAlone() (diag.Diagnostic, bool) {
	const most = 5 // words
	text := strings.TrimRight(bulleted(l.text), " .:!")
	if text == "" || text[0] == '#' && !isDigit(at(text, 1)) || len(text) > 48 || len(strings.Fields(text)) > most || strings.ContainsAny(text, `"(&;`) {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(text, 0, onSheet, l.names)
	said, named, done := false, false, false
	coloured, put := false, false // by a colour alone, which may be of anything, beside a word for putting it on or taking it off
	for i, t := range s.tokens {
		word := s.low[t.Pos.Offset:s.ends[i]]
		switch t.Type {
		case tFilter:
			coloured = coloured || !strings.ContainsAny(word, "0123456789") && l.names.Names[word] != FilterWord && !strings.Contains(word, "filter") && !strings.HasPrefix(word, "pol")
			said, named, put = true, true, put || strings.HasPrefix(word, "with ")
		case tDrop:
			said = said || strings.Contains(word, "filter")
			done = true
		case tWord:
			if said && ColoursElsewhere[word] != "" || CalledElsewhere([]string{word}) { // filtre rouge, Rotfilter
				said, named = true, true
				continue
			}
			if !ofFilterLine[word] {
				return diag.Diagnostic{}, false
			}
			said, done = said || strings.HasPrefix(word, "filter") || word == "filtre", done || ofFilterDeed[word]
			put = put || putsFilter[word]
		case tNo, tNot, tNone:
			done = true
		case tPlus, tComma, tEquals:
		default:
			return diag.Diagnostic{}, false
		}
	}
	low := strings.ToLower(text)
	if coloured && !put {
		return diag.Diagnostic{}, false
	}
	if !said || !named && (!done || strings.Count(low, "filter") > 1 || strings.Contains(low, "with and")) { // a heading: the filters, with and without filters
		return diag.Diagnostic{}, false
	}
	if !l.alone() {
		return diag.Diagnostic{}, false // words of a paragraph
	}
	l.meant = FilterWord
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line says what filter is on and is not read",
		Notes:   []diag.Aside{{Text: "for the sheets below, it is written filter: Y8, or filter: none"}},
	}, true
}

// ofFilterLine are the words of such a line.
var ofFilterLine = SetOf("on off using use used with the now my filter filters took taken removed put without added add screwed a back again and still to changed switched swapped no in from here all next jetzt nun mit dem den der drauf ab weg ohne wieder filtre avec le sans maintenant mis enlevé")

// ofFilterDeed are those of them that say what was done, where no filter is named.
var ofFilterDeed = SetOf("on off using use used took taken removed put without added add screwed changed switched swapped no drauf ab weg ohne sans mis enlevé")

// putsFilter are words by which a colour is a filter: now with the red, put the red on, red off.
var putsFilter = SetOf("on off with put took taken removed using added add screwed switched swapped mit drauf ab weg avec mis enlevé")
