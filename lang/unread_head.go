package lang

import (
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// Lines that begin nearly as a log line does, of which the word, the labels or the colon is wrong or
// missing: mter: 1/8 f16, 1A 1/8 f16, holder 1 front: Y8, 1/60 f16.

// strange is a short head with a figure that is neither label nor word, before
// the terms of a reading: "150mm: bellows at 225, fern EV 9 on V".
func (l *doubtful) strange() (diag.Diagnostic, bool) {
	const longest = 20
	from := opening(l.text)
	colon := colonIn(l.text[from:])
	if colon < 1 || colon > longest || !isSpace(at(l.text, from+colon+1)) {
		return diag.Diagnostic{}, false
	}
	said := strings.TrimRight(l.text[from:from+colon], " ")
	body := scanFolded(l.text[from+colon+1:], onSheet, l.names)
	if !strings.ContainsAny(said, "0123456789") || body.count(tEV) == 0 || body.count(tAperture) > 0 || !body.terse() {
		return diag.Diagnostic{}, false
	}
	l.meant = Meter
	at := l.at(from, from+len(said))
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("%q is neither label nor word, and the reading behind it is not read", at.Text()),
		Notes:   []diag.Aside{{Text: "a scene's reading begins with its word and a colon: meter: EV 9 on V"}},
	}, true
}

// platesSlashed are two plates of a year with a slash between their counts: 84-017/019.
var platesSlashed = pattern.Lazily(`^(\d{2}[-/])(\d+)/(\d+)$`)

// inMarks is a sheet's line of which the label, or the whole, stands in marks of Markdown that
// are none of a log line: `3A`: Y8, 1/30 f16.
func (l *doubtful) inMarks() (diag.Diagnostic, bool) {
	from := len(l.text) - len(bulleted(l.text))
	from += opening(l.text[from:])
	stop := len(strings.TrimRight(l.text, " \t"))
	start, colon := from, from+max(0, colonIn(l.text[from:]))
	for start < stop && strings.IndexByte("`*_", l.text[start]) >= 0 {
		start++
	}
	mark := l.text[from:start]
	if mark == "" || strings.Trim(mark, mark[:1]) != "" {
		return diag.Diagnostic{}, false
	}
	for _, end := range [...]int{colon, colon + 1 + len(mark), stop} {
		inner := end - len(mark)
		if inner < start || end > stop || l.text[inner:end] != mark {
			continue
		}
		bare := l.text[start:inner] + l.text[end:stop]
		h, ok := readHead(bare, l.names)
		if !ok || h.how.word != Sheet || !h.reads(bare, l.names) || strings.Contains(bare, mark) {
			break
		}
		text := l.at(start, inner).Text()
		if end < stop {
			text += l.at(end, stop).Text()
		}
		at := l.at(from, stop)
		return diag.Diagnostic{
			Code: "log-line-in-markup", Severity: diag.Error, Span: at, Message: "a log line is not read between " + mark,
			Fix: &diag.Fix{Span: at, Text: text},
		}, true
	}
	return diag.Diagnostic{}, false
}

// headed is a line that begins as a sheet's does, with words and a colon, but the words are no
// label: holder 1 front: Y8, 1/60 f16. Behind words for a holder or its side one setting is enough.
func (l *doubtful) headed() (diag.Diagnostic, bool) {
	if ofPrints().MatchString(l.low) {
		return diag.Diagnostic{}, false
	}
	const longest, few = 32, 10 // bytes of the head, and words behind it
	from := len(l.text) - len(bulleted(l.text))
	from += opening(l.text[from:])
	colon := colonIn(l.text[from:])
	if colon < 1 || colon > longest || !isSpace(at(l.text, from+colon+1)) || strings.ContainsAny(l.text[from:from+colon], "|#>.,;") {
		return diag.Diagnostic{}, false
	}
	said := strings.TrimRight(l.text[from:from+colon], "* \t")
	body := scanFolded(l.text[from+colon+1:], onSheet, l.names)
	if ofSomeMeter().MatchString(lower(said)) && (body.count(tAperture) > 0 && body.count(tTime) > 0 || body.count(tEV) > 0) {
		return l.showed(), true
	}
	number, side := sideInWords(said)
	switch {
	case side && (body.count(tAperture) > 0 || body.timed()) && body.count(tWord) <= few:
	case body.count(tAperture) == 0 || body.count(tTime) == 0 || !body.terse():
		return diag.Diagnostic{}, false
	}
	at := l.at(from, from+len(said))
	d := diag.Diagnostic{Code: "unknown-label", Severity: diag.Error, Span: at, Message: fmt.Sprintf("%q is no label of a sheet, and the line is not read", at.Text())}
	label, more, _ := strings.Cut(said, " ")
	switch word := lower(said[:letterRun(lower(said), 0)]); {
	case anew[lower(more)] && l.names.namesSheet(lower(label)):
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("another exposure on the sheet is written %s: again, 1/30 f16; one on another sheet has that sheet's label", label)}}
	case word == "metered" || word == "metering" || word == "reading" || nearest(word, nil) == "meter":
		return diag.Diagnostic{}, false
	case side:
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("write %sA for the front of holder %s, %sB for its back: %sA: Y8, 1/30 f16", number, number, number, number)}}
	case strings.ContainsAny(said, "`*_"):
		d.Notes = []diag.Aside{{Text: "a sheet's line begins with its label, without marks of Markdown: 3A: Y8, 1/30 f16"}}
	case looseLabel(said) && !strings.Contains(said, " ") && digits(said, 0) < len(said):
		d.Message = fmt.Sprintf("%q alone is no label, and the line is not read", said)
		if m := platesSlashed().FindStringSubmatch(said); m != nil {
			d.Notes = []diag.Aside{{Text: fmt.Sprintf("plates of a year are written %[1]s%[2]s to %[1]s%[3]s where those between are meant too, else %[1]s%[2]s, %[1]s%[3]s", m[1], m[2], m[3])}}
			break
		}
		if strings.ContainsAny(said, "/+&") { // of several sheets, perhaps
			d.Notes = []diag.Aside{{Text: "where these are several sheets, each has its label and blanks stand between: 1A 1B: …; one label of your own has the word before it: sheet " + said + ": …"}}
			break
		}
		d.Notes = []diag.Aside{{Text: "a label of your own has the word before it: sheet " + said + ": …"}} // if it is one, and no slip for another
	default:
		l.many = "have an aperture and a time and are not read"
		d.Notes = []diag.Aside{{Text: "a sheet's line has a colon behind its label, and words behind a dash: 3A: Y8, 1/30 f16 -- the mill race"}}
	}
	return d, true
}

// ofSomeMeter is the head of a reading that begins with another word than meter: Light meter, phone meter
// (common practice, no source).
var ofSomeMeter = pattern.Lazily(`^[a-z]+(?:[ -][a-z]+)?[ -]?meter(?:ed| reading)?$`)

// anew are words behind a label for another exposure (common practice, no source).
var anew = SetOf("bis ter encore repeat second 2nd")

// sideInWords reports whether a head says in words which sheet it is, front or back, by its
// holder, and the number of the holder, where it has one.
func sideInWords(head string) (number string, ok bool) {
	number = "1"
	for word := range strings.FieldsSeq(lower(head)) {
		switch word {
		case "front", "back", "holder", "darkslide", "slide", "side", "sheet", "plate":
			ok = true
		case "last", "next", "other", "the", "dark", "new", "same", "of", "a", "b", "no", "-":
		default:
			end, n := inWords(word, 0)
			if nth := 1 + slices.Index([]string{"first", "second", "third", "fourth"}, word); nth > 0 {
				end, n = len(word), nth
			}
			switch {
			case digits(word, 0) == len(word):
				number = word
			case end == len(word) && n > 0:
				number = fmt.Sprint(n)
			default:
				return "", false
			}
		}
	}
	return number, ok
}

// misspelled is a word nearly of the notation before a label and a colon, or
// before a colon and terms.
func (l *doubtful) misspelled() (diag.Diagnostic, bool) {
	from := opening(l.text)
	colon := colonIn(l.text[from:])
	if colon < 0 {
		return diag.Diagnostic{}, false
	}
	low := strings.TrimRight(l.low[from:from+colon], "* \t")
	end := letterRun(low, 0)
	near := meantWords(low[:end])
	if len(near) == 0 && end > 0 && l.loads(low[end:], l.text[from+colon+1:]) {
		near = []string{string(Load)}
	}
	if other, ok := wordsElsewhere[low[:end]]; ok && len(near) == 0 {
		near = []string{string(other)}
	}
	behind := l.text[from+colon+1:]
	if suiting := slices.DeleteFunc(slices.Clone(near), func(word string) bool { return !l.suits(behind, words[word].word) }); len(suiting) > 0 {
		near = suiting
	}
	fits := slices.IndexFunc(near, func(word string) bool { return l.meansWord(low, end, words[word], behind) })
	if fits < 0 {
		return diag.Diagnostic{}, false
	}
	said := l.at(from, from+end)
	d := diag.Diagnostic{
		Code: "unknown-word", Severity: diag.Error, Span: said,
		Message: fmt.Sprintf("%q is no word of the notation", said.Text()),
	}
	if other := slices.IndexFunc(near, func(word string) bool { return words[word].word != words[near[0]].word }); other > 0 {
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("%q is as near as %q; the line is kept as typed and not read", near[0], near[other])}}
		return d, true
	}
	l.meant = words[near[fits]].word
	d.Notes = []diag.Aside{{Text: fmt.Sprintf("%q is near; the line is kept as typed and not read", near[fits])}}
	if !l.ofOther(behind, l.meant) {
		d.Fix = &diag.Fix{Span: said, Text: near[fits]}
	}
	return d, true
}

// ofOther reports whether a text begins with the name of a thing that another word declares or chooses: a filter is no
// film, whatever its line's word is near.
func (l *doubtful) ofOther(text string, w Word) bool {
	switch w {
	case Lens, Film, Camera, FilterWord, Load:
	default:
		return false
	}
	if slices.ContainsFunc([]Word{Lens, Film, Camera, FilterWord}, func(other Word) bool { return l.suits(text, other) }) {
		return !l.suits(text, w)
	}
	body := scanFolded(text, onSheet, l.names)
	return w != FilterWord && body.kind(0) == tFilter
}

// wordsElsewhere are log words as they are called in other languages (common practice, no source).
var wordsElsewhere = map[string]Word{
	"objektiv": Lens, "objectif": Lens, "obiettivo": Lens, "optik": Lens, "filtre": FilterWord, "filtro": FilterWord, "pellicule": Film, "pellicola": Film, "kamera": Camera, "chambre": Camera,
}

// unlabelled is a log word that takes the labels of sheets, behind it what is none, and
// what such a line says: "amend note 2A: 1/30 f16", "sleeve of 3B: binder 2".
func (l *doubtful) unlabelled() (diag.Diagnostic, bool) {
	from := opening(l.text)
	colon := colonIn(l.text[from:])
	if colon < 0 {
		return diag.Diagnostic{}, false
	}
	head := strings.TrimRight(l.text[from:from+colon], "* \t")
	end := letterRun(lower(head), 0)
	how, ok := l.names.word(head[:end])
	if !ok || how.labels >= 0 || end == len(head) || !isSpace(head[end]) {
		return diag.Diagnostic{}, false
	}
	said := strings.TrimLeft(head[end:], " \t")
	words := strings.FieldsFunc(said, func(c rune) bool { return c == ' ' || c == '\t' || c == ',' })
	if len(words) == 0 {
		return diag.Diagnostic{}, false
	}
	last := lower(words[len(words)-1])
	behind := l.text[from+colon+1:]
	body := scanFolded(behind, how.field|onSheet, l.names)
	_, inWords := sideInWords(said)
	sheet := looksLabel(last, l.names) && sided(last) || inWords && how.word != HolderWord && strings.ContainsAny(said, "0123456789")
	const few = 4 // words that stand for labels, where none ends them
	switch {
	case strings.TrimSpace(behind) == "" || len(words) > 2*few:
		return diag.Diagnostic{}, false
	case how.free && !sheet, !sheet && !body.saysTerms(len(words) <= few):
		return diag.Diagnostic{}, false
	}
	l.meant = how.word
	at := l.at(from+len(head)-len(said), from+len(head))
	word := lower(head[:end])
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("%q does not say which sheets, and the line is not read", at.Text()),
		Notes:   []diag.Aside{{Text: fmt.Sprintf("behind %s stand labels, which a day may come before: %s 2026-10-18 2A 3B: …", word, word)}},
	}, true
}

// saysTerms reports whether a text is terms: of a short head's line more of them than
// words, else nothing but terms. Of the development one is said: several are a table.
func (s *scanner) saysTerms(short bool) bool {
	telling := s.settings()+s.count(tN, tDate, tDegrees, tD, tFilter, tSame, tState) > 0
	return telling && s.count(tN) <= 1 && (s.onlyTerms() || short && s.terse())
}

// loads reports whether labels and the name of a film stand where they do on a line that
// loads it, whatever its word.
func (l *doubtful) loads(labels, text string) bool {
	_, labelled := splitLabels(strings.TrimSpace(labels), 0, "", l.names)
	return labelled && l.suits(text, Load)
}

// meansWord weighs whether a line with a misspelled word is a log line: an
// ordinary word of English must have more behind it than one that is no word.
func (l *doubtful) meansWord(head string, end int, how manner, text string) bool {
	body := scanFolded(text, how.field|onSheet, l.names)
	reads := body.settings() > 0 && body.terse()
	rest := strings.TrimSpace(head[end:])
	_, labelled := splitLabels(rest, 0, "", l.names)
	common := ordinary()[head[:end]]
	switch {
	case l.suits(text, how.word) && (rest == "" || labelled):
		return true
	case labelled && how.labels != 0:
		return !common || reads || body.onlyTerms()
	case rest == "" && common:
		return reads && how.field != 0
	case rest == "":
		return reads || how.field != 0 && body.onlyTerms() || how.free && end >= 4
	case how.labels == 1 && len(strings.Fields(rest)) <= 3:
		return !common && (body.onlyTerms() || body.terse())
	}
	return false
}

// suits reports whether a text is just what a word takes: the name of a thing that
// is declared, a date, a file.
func (l *doubtful) suits(text string, w Word) bool {
	text = strings.TrimSpace(text)
	first, more, _ := strings.Cut(strings.TrimRight(text, "."), " ")
	first = lower(strings.TrimRight(first, ",;."))
	switch w {
	case Lens, Film, Camera, FilterWord, Load:
		if w == Load {
			w = Film
		}
		return first != "" && (l.names.Names[first] == w || w == Lens && digits(first, 0) == len(first) && (more == "" || more == "mm"))
	case Day:
		_, iso := isoDate(text, 0)
		return iso
	case Use:
		return more == "" && (strings.HasSuffix(first, ".md") || strings.HasSuffix(first, ".txt"))
	}
	return false
}

// onlyTerms reports whether a text is terms and no loose word.
func (s *scanner) onlyTerms() bool { return len(s.tokens) > 0 && s.count(tWord, tNumber) == 0 }

// mislabelled is a label with a letter in a figure's place before a colon and
// the terms of a sheet.
func (l *doubtful) mislabelled() (diag.Diagnostic, bool) {
	from := opening(l.text)
	colon := colonIn(l.text[from:])
	if colon < 0 {
		return diag.Diagnostic{}, false
	}
	said := strings.TrimRight(l.text[from:from+colon], " ")
	if len(said) < 2 {
		return diag.Diagnostic{}, false
	}
	side := len(said) - 1
	meant := asFigures(said[:side]) + said[side:]
	body := scanFolded(l.text[from+colon+1:], onSheet, l.names)
	if meant == said {
		meant = strings.ReplaceAll(said, " ", "")
	}
	if meant == said || len(meant) > 4 || !looksLabel(lower(meant), l.names) || !sided(lower(meant)) || !body.terse() {
		return diag.Diagnostic{}, false
	}
	at := l.at(from, from+len(said))
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("%q is no label of a sheet", at.Text()),
		Notes:   []diag.Aside{{Text: fmt.Sprintf("%s is near; the line is kept as typed and not read", meant)}},
		Fix:     &diag.Fix{Span: at, Text: meant},
	}, true
}

// begins is where the line's first word does, behind its bullet and its marks.
func (l *doubtful) begins() int {
	text := bulleted(l.text)
	return len(l.text) - len(text) + opening(text)
}

// colonless is a log word or a label with terms behind it and no colon.
func (l *doubtful) colonless() (diag.Diagnostic, bool) {
	from := l.begins()
	first := from
	for first < len(l.text) && !isSpace(l.text[first]) {
		first++
	}
	said := strings.TrimRight(l.text[from:first], ";.,=-")
	how, isWord := l.names.word(said)
	if !isWord && !isDigit(at(said, strings.IndexAny(said, "0123456789"))) && !l.names.Labels[lower(said)] {
		return diag.Diagnostic{}, false
	}
	end := from + len(said)
	switch {
	case said == "" || strings.HasSuffix(said, ":"):
		return diag.Diagnostic{}, false
	case isWord:
		var ok bool
		if end, ok = l.wordWithout(how, end); !ok {
			return diag.Diagnostic{}, false
		}
		l.meant = how.word
		if s := l.bench.scan(l.text[first:], 0, onSheet, l.names); how.word == Camera && s.count(tExt, tBellows) > 0 {
			l.meant = Drawn
		}
	case !l.labelWithout(lower(said), strings.TrimLeft(l.text[end:], ";.,=- \t")):
		return diag.Diagnostic{}, false
	}
	instead := end
	for instead < len(l.text) && strings.IndexByte(";.,=-", l.text[instead]) >= 0 {
		instead++
	}
	if sign := skip(l.text, instead); at(l.text, sign) == '=' || at(l.text, sign) == '-' && !isDigit(at(l.text, sign+1)) { // 3A - f16, 3A = f16
		instead = len(l.text) - len(strings.TrimLeft(l.text[sign:], "-="))
	}
	at, head := l.at(from, instead), l.at(from, end).Text()
	d := diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("a colon is missing behind %q", head),
	}
	if inner, rest, ok := l.enclosedAt(instead); ok { // behind a colon it would be a remark, which changes what the line says
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("behind a colon %q would be a remark; where it counts, write %s: %s, %s", inner, head, inner, rest)}}
		if !isWord && l.names.Names[lower(inner)] == Film {
			d.Notes = []diag.Aside{{Text: fmt.Sprintf("a film stands on a line of its own: load %s: %s", head, inner)}}
		}
		return d, true
	}
	rest := l.text[instead:]
	next := lower(strings.TrimLeft(rest, " \t"))
	if next = next[:letterRun(next, 0)]; !isWord && (next == "again" || anew[next]) { // 1A again: f22, and what was on 1A before may be put right
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("a second exposure is written %s: again, and its settings; what puts the line right: amend %s:", head, head)}}
	} else if l.sameWithout(rest) {
		d.Fix = &diag.Fix{Span: at, Text: head + ":"}
	} else {
		d.Notes = []diag.Aside{{Text: "one colon stands behind the label, and commas between the terms: 3A: Y8, 1/30 f16"}}
	}
	return d, true
}

// enclosedAt is what stands in brackets or quotes at i, and what is said behind them, as typed.
func (l *doubtful) enclosedAt(i int) (inner, rest string, ok bool) {
	i = skip(l.text, i)
	closing, ok := map[byte]byte{'(': ')', '[': ']', '"': '"'}[at(l.text, i)]
	if !ok {
		return "", "", false
	}
	end := strings.IndexByte(l.text[i+1:], closing)
	if end < 0 {
		return "", "", false
	}
	end += i + 1
	behind := end + 1
	for behind < len(l.text) && strings.IndexByte(":,; \t", l.text[behind]) >= 0 {
		behind++
	}
	return strings.TrimSpace(l.at(i+1, end).Text()), l.at(behind, len(l.text)).Text(), true
}

// sameWithout reports whether a text has the same terms with a comma for the colon that stands in it:
// a sheet's line has one colon, and where another would take something away it is not behind the label.
func (l *doubtful) sameWithout(text string) bool {
	colon := colonIn(text)
	if colon < 0 || !isSpace(at(text, colon+1)) {
		return true
	}
	with := scanFolded(text, onSheet, l.names)
	without := scanFolded(text[:colon]+","+text[colon+1:], onSheet, l.names)
	return slices.EqualFunc(with.terms(), without.terms(), func(a, b lexer.Token) bool { return a.Type == b.Type && a.Value == b.Value })
}

// terms are the tokens that say something.
func (s *scanner) terms() []lexer.Token {
	return slices.DeleteFunc(slices.Clone(s.tokens), func(t lexer.Token) bool { return t.Type == tComma })
}

// bulleted is a line behind the sign of a list.
func bulleted(text string) string {
	for _, sign := range []string{"- ", "* ", "+ "} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			return strings.TrimLeft(rest, " \t")
		}
	}
	return text
}

// labelWithout reports whether a first word is a label that terms follow.
func (l *doubtful) labelWithout(label, rest string) bool {
	if !looksLabel(label, l.names) || !l.names.Labels[label] && !sided(label) {
		return false
	}
	s := scanFolded(rest, onSheet, l.names)
	if len(s.tokens) == 0 || s.tokens[0].Type == tWord {
		return false
	}
	return (s.settings() > 0 || s.count(tSame) > 1) && s.terse() && len(s.tokens) > 1 || s.onlyTerms() && s.count(tSame, tState, tFilter, tN, tDrop) > 0
}

// wordWithout reports whether a log word is followed by what makes a log line of
// it, and where the colon should stand.
func (l *doubtful) wordWithout(how manner, end int) (colon int, ok bool) {
	rest := strings.TrimSpace(l.text[end:])
	labels := l.labelsEnd(end)
	behind := l.text[labels:]
	low := lower(strings.TrimSpace(behind))
	terms := scanFolded(behind, how.field|onSheet, l.names)
	switch how.word {
	case Use:
		return end, !strings.Contains(rest, " ") && (strings.HasSuffix(rest, ".md") || strings.HasSuffix(rest, ".txt"))
	case Day:
		_, iso := isoDate(rest, 0)
		return end, iso || len(rest) > 10 && rest[10] == ',' && isDigit(rest[0])
	case Load:
		return labels, labels > end && l.names.Names[low] == Film
	case Scan:
		return labels, strings.Contains(low, ".tif") || strings.Contains(low, ".jpg") || strings.Contains(low, ".png")
	case Camera, Lens, Film, FilterWord:
		if _, length := LengthOf(rest); l.names.Names[lower(rest)] == how.word || how.word == Lens && length {
			return end, true
		}
		next := skip(l.text, end)
		stop := next
		for stop < len(l.text) && !isSpace(l.text[stop]) {
			stop++
		}
		terms = scanFolded(l.text[stop:], how.field|onSheet, l.names)
		return stop, stop > next && terms.onlyTerms() && len(terms.tokens) > 1-terms.count(tFactor, tStops, tLength, tISO)
	case Develop:
		const few = 3 // words beside a time: 9 min 20 degrees
		return labels, labels > end && (terms.terse() && terms.count(tN, tDate, tDay, tTime, tDegrees) > 0 || terms.count(tTime) > 0 && terms.count(tWord) <= few)
	case Tolerance:
		return end, terms.onlyTerms() && terms.count(tStops) > 0
	}
	if how.free || how.needs && labels == end {
		return end, false
	}
	return labels, terms.settings()+terms.count(tD) > 0 && terms.terse() && len(terms.tokens) > 1 && terms.tokens[0].Type != tWord
}

// labelsEnd is the end of the labels behind a word, with what joins them: 1A, 1B and 2A.
func (l *doubtful) labelsEnd(i int) int {
	first, last := i, i
	for {
		start := skip(l.text, i)
		comma := at(l.text, start) == ',' && last > first
		if comma {
			start = skip(l.text, start+1)
		}
		end := start
		for end < len(l.text) && !isSpace(l.text[end]) && l.text[end] != ',' {
			end++
		}
		bare := strings.TrimRight(l.text[start:end], ";.=-")
		low := lower(bare)
		switch {
		case last > first && (low == "and" || low == "&"):
			i = end
			continue
		case bare == "" || !looksLabel(low, l.names) || !sided(low) && (comma || !l.names.Labels[low]):
			return last
		}
		i = start + len(bare)
		last = i
	}
}
