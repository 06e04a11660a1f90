package lang

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Prose that speaks of sheets which are logged: it may put right what their lines say, and what it says
// is then not known of them.

// logged reports whether a sheet's line of the same day has the label.
func (l *doubtful) logged(label string) bool {
	l.tell()
	day, _ := slices.BinarySearch(l.days, l.line)
	return l.told[dayLabel{day, label}]
}

// tell looks once through the log lines for what sheets they tell of.
func (r *reading) tell() {
	r.telling.Do(func() {
		r.told, r.exposing = map[dayLabel]bool{}, map[string][]*Statement{}
		for _, st := range r.read {
			switch st.Word {
			case Day:
				r.days = append(r.days, r.lineAt(st.Span.Start))
			case Sheet:
				for i := range st.Labels {
					label := lower(st.Labels[i].Text)
					r.told[dayLabel{len(r.days), label}] = true
					r.exposing[label] = append(r.exposing[label], st)
				}
			}
		}
	})
}

// corrects is a line of prose that puts a logged sheet right, or the one on the line above: 3A
// should say f16; no wait, the planks were EV 8.
func (l *doubtful) corrects() (diag.Diagnostic, bool) {
	label := l.speaksOf()
	if label == "" {
		if d, ok := l.correctsAbove(); ok {
			return d, ok
		}
		m := takesBackAbove().FindStringIndex(l.low)
		if m == nil {
			m = ofTheLast().FindStringIndex(l.low)
		}
		if m == nil || !l.afterLog(l.line) {
			return diag.Diagnostic{}, false
		}
		if s := scanFolded(l.text[m[1]:], onSheet, l.names); s.settings()+s.count(tZone, tFilter, tNumber) == 0 { // the planks were 8
			return diag.Diagnostic{}, false
		}
		label = "3A"
	}
	l.meant, l.hangs = Amend, true
	return diag.Diagnostic{
		Code: "correction-not-read", Severity: diag.Warning, Span: l.at(0, len(l.text)), Message: "this corrects a sheet and is not read",
		Notes: []diag.Aside{{Text: asAmendment(label)}},
	}, true
}

// speaksOf is the label of a sheet logged above of which a sentence says what no log line says of
// it, "" where there is none: re 2A: f/32, in 2A I forgot the Y8, erratum, 2A: the other lens. What
// is said of a sheet goes on to the next label.
func (l *doubtful) speaksOf() string {
	logged := func(label string) bool { return len(l.logging(label)) > 0 }
	named := LabelsIn(l.text, logged)
	if len(named) == 0 {
		return ""
	}
	l.hangs = true
	if erratum().MatchString(l.low) {
		text := plainly(l.text)
		here := LabelsIn(text, logged)
		if len(here) > 0 && l.hasValue(text) && l.saysOf(text, here) == "" {
			return "" // as it stands on their lines
		}
		return named[0]
	}
	for _, sentence := range l.sentences() {
		text := plainly(sentence)
		here := LabelsIn(text, logged)
		if !slices.ContainsFunc(here, func(label string) bool { return slices.Contains(named, label) }) || Elsewhere(text) {
			continue
		}
		if mixedUp().MatchString(lower(text)) {
			return here[0]
		}
		if label := l.saysOf(text, here); label != "" {
			return label
		}
	}
	return ""
}

// sentences are those of the line, with what stands of them on the lines above and below that one
// paragraph goes on over.
func (l *doubtful) sentences() []string {
	prose := func(i int) string {
		if i < 0 || i >= len(l.lines) || l.lines[i].Kind != Prose {
			return ""
		}
		text := source.Fold(l.src[l.lines[i].Body:l.lines[i].BodyEnd]).Text
		if isBullet(text) || strings.HasPrefix(text, "#") {
			return ""
		}
		return text
	}
	above, below := "", ""
	if !isBullet(l.text) && !strings.HasPrefix(l.text, "#") {
		above, below = prose(l.line-1), prose(l.line+1)
	}
	before, after := Sentences(above), Sentences(below)
	above, below = before[len(before)-1], after[0]
	return Sentences(strings.TrimSpace(above) + " " + l.text + " " + strings.TrimSpace(below))
}

// Sentences are those of a text, without the stops between them.
func Sentences(text string) (all []string) {
	from := 0
	for i := 0; i < len(text); i++ {
		next := sentenceEnd(text, i)
		if next == i {
			continue
		}
		word := lower(text[from:i])
		word = word[strings.LastIndexAny(word, " ,;:([")+1:]
		if !beforeFigures[word] || !isDigit(at(text, next)) { // Bl. 22
			all, from = append(all, text[from:i]), next
		}
		i = next - 1
	}
	return append(all, text[from:])
}

// sentenceEnd is where the next sentence begins behind the one that ends at i, with a stop that is no figure's; else i.
func sentenceEnd(text string, i int) int {
	if strings.IndexByte(".!?", text[i]) < 0 {
		return i
	}
	behind := strings.TrimLeft(text[i+1:], `"')`)
	rest := strings.TrimLeft(behind, " \t\n\f\r")
	if behind != "" && len(rest) == len(behind) {
		return i
	}
	return len(text) - len(rest)
}

// beforeFigures are words in short, of which the stop before figures ends no sentence (common practice, no source).
var beforeFigures = SetOf("bl bld diaph obt ca rd nr no pl abt approx bel env")

// Elsewhere reports whether a sentence tells of prints, plans, other years or other people, whose
// figures are of no sheet that was exposed.
func Elsewhere(sentence string) bool { return elsewhere().MatchString(lower(sentence)) }

// saysOf is the first of some labels of which a text says something new.
func (l *doubtful) saysOf(text string, named []string) string {
	for i, from := 0, 0; i < len(named); i++ {
		at := from + strings.Index(text[from:], named[i])
		behind, end := at+len(named[i]), len(text)
		if i+1 < len(named) {
			end = behind + strings.Index(text[behind:], named[i+1])
		}
		told := text[from:at] + " it " // instead of the label
		s := scanFolded(told+text[behind:end], onSheet, l.names)
		nth := 0
		for nth < len(s.tokens) && s.tokens[nth].Pos.Offset < len(told) {
			nth++
		}
		from = end
		if s.saysMore(l.saidOf(named[i]), nth) {
			return named[i]
		}
	}
	return ""
}

// hasValue reports whether a text has something that sheets are exposed with.
func (l *doubtful) hasValue(text string) bool {
	return slices.ContainsFunc(scanFolded(text, onSheet, l.names).tokens, func(t lexer.Token) bool { return isValue[t.Type] })
}

// plainly is a text without the signs of a remark and what is struck out, its labels in figures.
func plainly(text string) string {
	return SidesInFigures(bare.Replace(struckOut().ReplaceAllString(text, " ")))
}

// bare is a line without the signs of a remark.
var bare = strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ", `"`, " ", "--", "  ")

var struckOut = pattern.Lazily(`~~.*?~~`)

// LabelsIn are the words of a text that are labels of sheets as logged tells; a number alone may
// be anything.
func LabelsIn(text string, logged func(string) bool) (all []string) {
	for word := range strings.FieldsFuncSeq(SidesInFigures(text), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '-' && c != '#' }) {
		if low := strings.ToLower(strings.Trim(word, "-")); strings.ContainsAny(low, "0123456789") && digits(low, 0) < len(low) && logged(low) {
			all = append(all, strings.Trim(word, "-"))
		}
	}
	return all
}

// logging are the log lines above that expose sheets under a label.
func (l *doubtful) logging(label string) []*Statement {
	l.tell()
	all := l.exposing[lower(label)]
	above, _ := slices.BinarySearchFunc(all, l.start, func(st *Statement, at int) int { return st.Span.Start - at })
	return all[:above]
}

// saidOf is what the log lines say of the sheet that was logged last under a label above: its own,
// those that amend it, those that it copies, and those that choose for it.
func (l *doubtful) saidOf(label string) map[string]bool {
	own := l.logging(label)
	last := own[len(own)-1]
	said, copies := map[string]bool{}, false
	at := slices.Index(l.read, last)
	for i := at; i >= 0; i-- {
		st := l.read[i]
		switch st.Word {
		case Sheet:
			if i < at && !copies {
				continue
			}
			copies = l.keep(said, st)
		case Meter, FilterWord, Lens, Film, LightWord:
			l.keep(said, st)
		case Day:
			i = 0
		}
	}
	for _, st := range l.read[at+1:] {
		if (st.Word == Amend || st.Word == Result) && slices.ContainsFunc(st.Labels, func(other Label) bool { return strings.EqualFold(other.Text, label) }) {
			l.keep(said, st)
		}
	}
	return said
}

// keep adds what the terms of a log line say, and reports whether it copies another.
func (l *doubtful) keep(said map[string]bool, st *Statement) (copies bool) {
	s := scanFolded(source.Fold(st.Body.Text()).Text, onSheet, l.names)
	for i := range s.tokens {
		said[s.says(i)] = true
		if t := s.tokens[i]; t.Type == tFilter {
			said[sayOf(t.Type, lower(t.Value[:1]))] = true // Y8 is yellow
		}
		copies = copies || s.kind(i) == tSame
	}
	if name, _, _ := strings.Cut(lower(st.Text), ","); st.Word == Film {
		said[sayOf(tChoose, "film "+name)] = true
	}
	if st.Word == Lens {
		said[sayOf(tChoose, "lens "+lower(st.Text))], said[sayOf(tLength, lower(st.Text))] = true, true
	}
	return copies
}

// says is what a token says, whatever its spelling; a colour is its first letter.
func (s *scanner) says(i int) string {
	t := s.tokens[i]
	value := lower(t.Value)
	if t.Type == tFilter && colours[strings.TrimSuffix(value, " filter")] {
		value = value[:1]
	}
	return sayOf(t.Type, value)
}

func sayOf(kind lexer.TokenType, value string) string { return fmt.Sprint(kind, " ", value) }

// isValue are the tokens of what a sheet is exposed with.
var isValue = map[lexer.TokenType]bool{tAperture: true, tEV: true, tZone: true, tExt: true, tEI: true, tMeterEI: true, tISO: true, tTime: true, tFilter: true, tDrop: true}

// saysMore reports whether a part of a sentence says for certain of its sheet, whose label stands
// right before the nth token, what is not among the things that are known.
func (s *scanner) saysMore(known map[string]bool, nth int) bool {
	if !s.asserts(nth) {
		return false
	}
	for i := range s.tokens {
		if s.isNews(i, known) {
			return true
		}
	}
	return false
}

// isNews reports whether the ith token is something that a sheet was exposed with, and is not known.
func (s *scanner) isNews(i int, known map[string]bool) bool {
	word, before, new := s.wordAt(i), s.wordAt(i-1), !known[s.says(i)]
	switch t := s.tokens[i]; t.Type {
	case tAperture, tEV, tExt, tEI, tMeterEI, tISO, tChoose:
		return new
	case tZone: // the cat's tail is on VII
		return new && before != "is" && s.wordAt(i-2) != "is" && s.wordAt(i-2) != "are"
	case tTime: // halves are also of other things
		return new && s.wordAt(i+1) != "ago" && (givenTime[before] || s.timedAt(i) && !besideGiven[before])
	case tFilter, tDrop:
		return s.isFilter(i) && (new || s.leftOff(i) || forgets[before] || forgets[s.wordAt(i-2)])
	case tLength, tNumber:
		if givenTime[before] && s.speaks("reading", "meter", "metered") || t.Type == tLength && s.speaks("bellows", "extension") {
			return true
		}
	case tWord:
		if word == "was" && before == "film" {
			return true
		}
	default:
		return false
	}
	return s.names.Names[word] == Film && beforeFilm[before] ||
		s.names.Names[word] == Lens && beforeLens[before] && !known[sayOf(tLength, word)]
}

// wordAt is the ith token as typed, in lower case and without the stop behind it.
func (s *scanner) wordAt(i int) string {
	if i < 0 || i >= len(s.tokens) {
		return ""
	}
	return strings.Trim(s.low[s.tokens[i].Pos.Offset:s.ends[i]], ".,;:()!")
}

// speaks reports whether one of some words is among the tokens.
func (s *scanner) speaks(words ...string) bool {
	for i := range s.tokens {
		if slices.Contains(words, s.wordAt(i)) {
			return true
		}
	}
	return false
}

// asserts reports whether a part of a sentence says how something was: by a verb, or by a value right
// behind the label, which stands before the nth token.
func (s *scanner) asserts(nth int) bool {
	for i := range s.tokens {
		if asserting[s.wordAt(i)] {
			return true
		}
	}
	for ; nth < len(s.tokens); nth++ {
		switch t := s.tokens[nth]; {
		case isValue[t.Type] || s.names.Names[s.wordAt(nth)] == Film:
			return true
		case t.Type == tComma || t.Type == tAt || t.Type == tEquals || t.Type == tArrow || t.Type == tDash || s.wordAt(nth) == "" || besideLabel[s.wordAt(nth)]:
		default:
			return false
		}
	}
	return false
}

// isFilter reports whether a token of a sentence is a filter, and not the colour of a thing.
func (s *scanner) isFilter(i int) bool {
	said, word, before, behind := s.wordAt(i), lower(s.tokens[i].Value), s.wordAt(i-1), s.wordAt(i+1)
	if strings.ContainsAny(said, "0123456789") || strings.Contains(said, "filter") || s.names.Names[word] == FilterWord && !colours[word] {
		return true
	}
	if said != word {
		before, _, _ = strings.Cut(said, " ") // with the yellow
	}
	return (colours[word] || strings.HasPrefix(word, "pol")) && beforeColour[before] && (behind == "" || behindColour[behind])
}

// leftOff reports whether a sentence says of the filter that is its ith token that it was not on.
func (s *scanner) leftOff(i int) bool {
	for n := range s.tokens {
		if n != i && offLens[s.wordAt(n)] {
			return true
		}
	}
	return s.tokens[i].Type == tDrop
}

// The words are those of diaries read for this (common practice, no source).
var (
	asserting    = SetOf("was were had got gave forgot forgotten left used really actually read reads say says said meant put exposed took taken should not wrong instead mistake forgetting amended war hatte doch statt falsch vergessen était avait oublié")
	besideLabel  = SetOf("at on with the is in it and mit auf bei dem avec à le aperture time probably perhaps maybe rather possibly likely blende zeit wohl vielleicht wahrscheinlich vermutlich eher diaphragme ouverture temps peut-être plutôt probablement")
	givenTime    = SetOf("was were had got gave at read is not really actually say says said exposed war hatte doch était avait")
	besideGiven  = SetOf("for waited after before another until every of by in within")
	beforeLens   = SetOf("the lens my")
	forgets      = SetOf("forgot forgotten forgetting")
	offLens      = SetOf("pocket bag off without missing never no")
	beforeColour = SetOf("the a my with got had was forgot w/ no")
	behindColour = SetOf("on off too in was were still instead filter over and as not there from by for at until")
	beforeFilm   = SetOf("on was were is film with holds held had in not")

	// erratum is a line that says of itself that it corrects, whatever it says; elsewhere a sentence
	// tells of what was done with a negative, with times and apertures of its own, of other years and
	// other people, of the glass, or of what might have been done.
	erratum   = pattern.Lazily(`^[^a-z0-9]*(?:corrigend|errat|correction|berichtigung|korrektur|rectificati)|\b(?:typo|mislabell?ed|amended|miswrote|mistyped|misnoted)\b`)
	elsewhere = pattern.Lazily(`\b(?:print(?:s|ed|ing)?|enlarg\w+|grade|contacts?|paper|dodged?|burn(?:ed|t)?|scan(?:s|ned)?|dev(?:eloped|eloper|elop)?|tank|tray|soup|densit\w+|negatives?|negs?` +
		`|next|tomorrow|yesterday|would|wish|might|expect|hope|plan|focus\w*|composed?|waited|stuck(?: (?:in|at|for|behind|under|by|here|there|again|until|because|fast)\b|[.,;]|$)|example|book|he|she|they|who|his|her|their|you|your)\b` +
		`|^if\b|\bif i (?:were|had|go|do|come)\b|\b(?:better|worse|thinner|denser|darker|lighter|sharper|nicer) than\b|\b(?:do|make|made|try|take|shoot|go)\b.{0,40}\bagain\b` +
		`|\bthought of\b|\bhad packed\b|\blast \w+day\b|\b(?:in|of|from|since) (?:1[89]|20)[0-9]{2}\b|\bago\b|\blast (?:year|week|time|month|spring|summer|autumn|winter)\b`)
	mixedUp = pattern.Lazily(`\b(?:are|were|got|have|i) (?:\w+ )?(?:swapped|exchanged|interchanged|mixed up)\b|\bexposed (?:it )?twice\b|\bthe other way round\b`)
)

// correctsAbove is a line of prose below a sheet's or a reading's that says nothing but what
// should stand there: oops that was 3B, and it was at f22 actually.
func (l *doubtful) correctsAbove() (diag.Diagnostic, bool) {
	above := l.line - 1
	if above > 0 && l.lines[above].Kind == Blank {
		above--
	}
	if above < 0 || l.lines[above].Kind != Log {
		return diag.Diagnostic{}, false
	}
	l.hangs = true
	label, corrects := Corrects(bulleted(l.text), l.names)
	if !corrects {
		return diag.Diagnostic{}, false
	}
	h, ok := readHead(source.Fold(l.src[l.lines[above].Body:l.lines[above].BodyEnd]).Text, l.names)
	if !ok || h.how.word != Sheet && h.how.word != Meter || label != "" && h.how.word == Meter {
		return diag.Diagnostic{}, false
	}
	d := diag.Diagnostic{
		Code: "correction-not-read", Severity: diag.Warning, Span: l.at(0, len(l.text)), Message: "this corrects the line above and is not read",
	}
	switch {
	case label != "":
		d.Notes = []diag.Aside{{Text: "a label is put right where it stands: " + label + " before the colon"}}
	case h.how.word == Meter:
		d.Notes = []diag.Aside{{Text: "a reading is put right where it stands, or by another line meter: above the sheets that it is for"}}
	case len(h.labels) > 0:
		d.Notes = []diag.Aside{{Text: asAmendment(h.labels[0].text)}}
	default:
		d.Notes = []diag.Aside{{Text: asAmendment("3A")}}
	}
	l.meant = h.how.word
	if l.meant == Sheet {
		l.meant = Amend
	}
	return d, true
}

// asAmendment is how a sheet's line is put right.
func asAmendment(label string) string {
	return "a correction is written amend " + label + ": f16 not f22"
}

// Corrects reports whether a text of few words, all of which point back or take back, says what
// should stand before it, and the label that it puts in the place of another: sorry, that was 3B
// not 3A.
func Corrects(text string, names *Lexicon) (label string, ok bool) {
	const most = 9 // words
	if !corrective(text) {
		return "", false // as nearly all
	}
	s := scanFolded(strings.TrimRight(source.Fold(text).Text, " .!"), onSheet, names)
	if len(s.tokens) > 2*most {
		return "", false
	}
	sorry, points, says, figures, words := false, false, false, 0, 0
	for i, t := range s.tokens {
		word := strings.TrimRight(s.low[t.Pos.Offset:s.ends[i]], ".:;!")
		switch {
		case t.Type == tAperture || t.Type == tEV || t.Type == tZone || t.Type == tFilter || t.Type == tTime && s.timed():
			figures++
		case t.Type == tComma || t.Type == tAt:
		case looksLabel(word, names) && sided(word):
			if label == "" {
				label = s.src[t.Pos.Offset : t.Pos.Offset+len(word)]
			}
		case takesBackInWords[word]:
			sorry = true
			words++
		case pointsBack[word], saysOfBack[word], besideBack[word]:
			points, says = points || pointsBack[word], says || saysOfBack[word]
			words++
		default:
			return "", false
		}
	}
	ok = words <= most && (label != "" || figures > 0) && (sorry || points && says)
	if figures > 0 || !ok {
		label = "" // of the sheet that is put right
	}
	return label, ok
}

// corrective reports whether a text has a word that takes something back, or one that points to
// it beside one that says of it.
func corrective(text string) bool {
	points, says := false, false
	for word := range strings.FieldsFuncSeq(text, func(c rune) bool { return !unicode.IsLetter(c) }) {
		word = strings.ToLower(word)
		points, says = points || pointsBack[word], says || saysOfBack[word]
		if takesBackInWords[word] || points && says {
			return true
		}
	}
	return false
}

// The words of such a line: those that take something back, those that point to what stands
// before, what is said of it, and those between (common practice, no source).
var (
	takesBackInWords = SetOf("oops sorry no nope not correction corrected actually meant mean should wrong wait rather scratch typo mistake")
	pointsBack       = SetOf("that this it one these those")
	saysOfBack       = SetOf("was were is be been")
	besideBack       = SetOf("and so ps nb i have of course the a really in on at say read to label side holder sheet slide hang its it's that's all but my instead")
)

// ofTheLast is how a line begins that says how the sheet above it was (common practice, no source).
var ofTheLast = pattern.Lazily(`^(?:the )?(?:last|previous) (?:one|sheet|frame|exposure|shot)[:,]? (?:was |really |actually |in fact )*(?:should|was|is|had|at|read|not|got|given)\b`)

// takesBackAbove is how a line begins that takes back what stands above (common practice, no
// source).
var takesBackAbove = pattern.Lazily(`^(?:ps[:,.]? )?(?:no,? wait|scratch that|sorry|correction|oops)\b[:,.]?`)
