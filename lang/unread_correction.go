package lang

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/diag"
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
		m := takesBackAbove().FindStringIndex(lower(l.text))
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

// speaksOf is the label of a sheet logged above of which a line of prose says what no log line
// says of it, wherever on the line it stands, "" where there is none: re 2A: f/32, in 2A I forgot
// the Y8, erratum, 2A: the other lens. What is said of a sheet goes on to the next label.
func (l *doubtful) speaksOf() string {
	logged := func(label string) bool { return len(l.logging(label)) > 0 }
	if len(LabelsIn(l.text, logged)) == 0 {
		return ""
	}
	l.hangs = true
	text := bare.Replace(struckOut().ReplaceAllString(l.text, " ")) // all in brackets it is no remark
	named := LabelsIn(text, logged)
	own := erratum().MatchString(lower(text))
	if !own && ofOther().MatchString(lower(text)) {
		return ""
	}
	says := false
	for i, from := 0, 0; i < len(named); i++ {
		at := from + strings.Index(text[from:], named[i])
		behind, end := at+len(named[i]), len(text)
		if i+1 < len(named) {
			end = behind + strings.Index(text[behind:], named[i+1])
		}
		s := scanFolded(text[from:at]+" "+text[behind:end], onSheet, l.names)
		from = end
		some, more := s.saysMore(l.saidOf(named[i]))
		if more || saysFilm(s.low, l.names) {
			return named[i]
		}
		says = says || some
	}
	if own && !says && len(named) > 0 {
		return named[0]
	}
	return ""
}

// bare is a line without the signs of a remark.
var bare = strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ", `"`, " ", "--", "  ")

var struckOut = Lazily(`~~.*?~~`)

// LabelsIn are the words of a text that are labels of sheets as logged tells; a number alone may
// be anything.
func LabelsIn(text string, logged func(string) bool) (all []string) {
	for word := range strings.FieldsFuncSeq(text, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '-' && c != '#' }) {
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

// saysMore reports whether a line of prose has a setting, a reading, a zone or a filter, and one that
// is not among those that are known. Halves and minutes are also of other things, and a colour is.
func (s *scanner) saysMore(known map[string]bool) (says, more bool) {
	for i, t := range s.tokens {
		text := s.low[t.Pos.Offset:s.ends[i]]
		switch t.Type {
		case tAperture, tEV, tZone, tExt, tEI, tMeterEI:
		case tTime:
			if !s.timedAt(i) {
				continue
			}
		case tFilter, tDrop: // none the worse
			if !strings.ContainsAny(text, "0123456789") && !strings.Contains(text, "filter") && !strings.HasPrefix(text, "pol") && s.names.Names[text] != FilterWord {
				continue
			}
		default:
			continue
		}
		says, more = true, more || !known[s.says(i)]
	}
	return says, more
}

// saysFilm reports whether words in lower case say on what film a sheet was: the film was ash, on ash.
func saysFilm(low string, names *Lexicon) bool {
	before := ""
	for word := range strings.FieldsSeq(low) {
		word = strings.Trim(word, ".,;:()!")
		if names.Names[word] == Film && beforeFilm[before] || before == "film" && (word == "was" || word == "is") {
			return true
		}
		before = word
	}
	return false
}

var (
	beforeFilm = SetOf("on was were is film with holds held had in not")
	// erratum is a line that says of itself that it corrects, whatever it says; ofOther is one that
	// speaks of what was done with a negative, with times and apertures of its own, or of what might
	// have been done (common practice, no source).
	erratum = Lazily(`^[^a-z0-9]*(?:corrigend|errat|correction|berichtigung|korrektur)|\b(?:typo|mislabell?ed|miswrote|mistyped|misnoted)\b`)
	ofOther = Lazily(`\b(?:print(?:s|ed|ing)?|enlarg\w+|grade|contacts?|paper|dodged?|burn(?:ed|t)?|scan(?:s|ned)?|dev(?:eloped|eloper|elop)?|tank|tray|soup|densit\w+|negatives?|negs?` +
		`|next time|tomorrow|would|wish|might)\b`)
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

// takesBackAbove is how a line begins that takes back what stands above (common practice, no
// source).
var takesBackAbove = Lazily(`^(?:ps[:,.]? )?(?:no,? wait|scratch that|sorry|correction|oops)\b[:,.]?`)
