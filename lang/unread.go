package lang

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/participle/v2/lexer"
	"github.com/yuin/goldmark/ast"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// unread looks through what was taken for prose for lines that look like log
// lines: nothing that was meant as a log line may pass in silence, and nothing
// that was meant as prose may be reported.
func (r *reading) unread(book *Notebook) diag.List {
	r.read = book.Statements
	fenced, list := r.fences(book.Prose)
	var prose []int // lines
	for i := range r.lines {
		if line := &r.lines[i]; line.Kind == Prose && !fenced[i] && !r.innocent(line, r.afterLog(i)) {
			prose = append(prose, i)
		}
	}
	said := make([]*suspicion, len(prose))
	r.sideBySide(len(prose), func(i int, b *bench) { said[i] = r.suspect(prose[i], r.afterLog(prose[i]), b) })
	inColumns(said, prose)
	acquit(said, prose)
	var alike run
	for i, n := range prose {
		line := &r.lines[n]
		if said[i] != nil && said[i].Code != "" {
			if said[i].Severity != diag.Note {
				line.Kind, line.Meant = Unread, said[i].meant
			}
			list = alike.add(list, said[i], n)
		} else if said[i] == nil && r.now != nil && !r.afterLog(n) {
			text := strings.Clone(r.src[line.Body:line.BodyEnd])
			r.now.prose[text] = text
		}
	}
	return list
}

// run is lines of which one thing is to be said, close to one another: the rows of a
// table, forty sheets in columns. Few are reported each where it stands, many at the
// first.
type run struct {
	many  string // what is said of many; "" where no run goes on
	last  int    // line
	lines int
	at    []int // the findings of the first few in the list
}

// near is how many lines on a run goes on: a blank one and a remark may stand between.
const near = 3

// fewest is how many lines near one another must look alike where one alone would prove
// nothing.
const fewest = 3

// acquit leaves alone the lines that are suspicious only in company and have none.
func acquit(said []*suspicion, lines []int) {
	for i := 0; i < len(said); {
		if said[i] == nil || !said[i].company {
			i++
			continue
		}
		end, rows := i+1, 1 // of the run, which lines that are suspicious alone belong to
		for last := i; end < len(said) && lines[end] <= lines[last]+near; end++ {
			if said[end] != nil && said[end].Code != "" {
				last = end
				rows++
			}
		}
		for ; i < end; i++ {
			if said[i] != nil && said[i].company && rows < fewest {
				said[i] = &suspicion{}
			}
		}
	}
}

// inColumns makes one thing of rows that stand one below the other and begin as sheets do,
// where there is not the same to say of all: none of them is read, and what would mend some
// would make the others worse.
func inColumns(said []*suspicion, lines []int) {
	for i := 0; i < len(said); {
		end := i
		for end < len(said) && said[end] != nil && said[end].row && lines[end] == lines[i]+end-i {
			end++
		}
		rows := said[i:end]
		i = max(end, i+1)
		first := slices.IndexFunc(rows, func(s *suspicion) bool { return s.Code != "" && (!s.company || len(rows) >= fewest) })
		if first < 0 || len(rows) < 2 || !slices.ContainsFunc(rows, func(s *suspicion) bool {
			return s.many != rows[first].many || s.Code != rows[first].Code
		}) {
			continue
		}
		for _, s := range rows {
			s.Diagnostic = diag.Diagnostic{
				Code: "unknown-label", Severity: diag.Error, Span: s.whole, Message: "this row is not read",
				Notes: []diag.Aside{{Text: "a sheet's line has a colon behind its label, and dashes or ditto marks only where it begins: 3A: Y8, 1/30 f16"}},
			}
			s.many, s.company, s.one = "stand in columns and are not read", false, true
		}
	}
}

// mostAlike is how many lines are reported each by itself.
const mostAlike = 3

// add puts a finding into the list, or counts it to those before that say the same.
func (r *run) add(list diag.List, s *suspicion, line int) diag.List {
	if s.many == "" || r.many != s.many || line > r.last+near {
		*r = run{many: s.many}
	}
	r.last = line
	if r.lines++; r.lines == 1 || r.lines <= mostAlike && !s.one {
		r.at = append(r.at, len(list))
		return append(list, s.Diagnostic)
	}
	for len(r.at) > 1 {
		last := len(r.at) - 1
		list, r.at = slices.Delete(list, r.at[last], r.at[last]+1), r.at[:last]
	}
	first := &list[r.at[0]]
	first.Message, first.Fix = fmt.Sprintf("%d lines from here to line %d %s", r.lines, line+1, r.many), nil
	return list
}

// afterLog reports whether the line before another is a log line.
func (r *reading) afterLog(line int) bool { return line > 0 && r.lines[line-1].Kind == Log }

// innocent reports whether a line is remembered as one in which nothing looked
// like a log line. Behind a log line more is looked at.
func (r *reading) innocent(line *Line, after bool) bool {
	if r.now == nil || after {
		return false
	}
	text, ok := r.before.prose[r.src[line.Body:line.BodyEnd]]
	if ok {
		r.now.prose[text] = text
	}
	return ok
}

// doubtful is a prose line that may have been meant as a log line.
type doubtful struct {
	*reading
	bench   *bench
	line    int
	start   int // offset in the file
	folded  source.Folded
	text    string // folded
	meant   Word   // the log word that is missing or misspelled, once it is known
	hangs   bool   // what is found hangs on other lines
	many    string // what is said of many such lines
	company bool   // one such line alone is nothing
}

// at is a stretch of the line by its folded offsets.
func (l *doubtful) at(from, to int) source.Span {
	start := l.start + l.folded.At(from)
	return l.reading.span(start, max(start, l.start+l.folded.End(to)))
}

// suspicion is what is wrong with a prose line that looks like a log line, and the
// log word that it was to begin with. Without a code nothing is wrong, but that
// hangs on other lines and is not to be remembered.
type suspicion struct {
	diag.Diagnostic
	meant   Word
	many    string // what is said of many such lines, close to one another
	company bool   // only where several such lines stand close to one another
	row     bool   // in columns, with a sheet's label before them
	one     bool   // with those beside it one finding, however few
	whole   source.Span
}

// suspect is what is wrong with a prose line, or nil.
func (r *reading) suspect(i int, after bool, b *bench) *suspicion {
	line := r.lines[i]
	text := r.src[line.Body:line.BodyEnd]
	if len(text) > longestLine {
		if _, isLog := readHead(source.Fold(text[:longestHead]).Text, r.names); !isLog {
			return nil
		}
		return &suspicion{Diagnostic: diag.Diagnostic{
			Code: "line-too-long", Severity: diag.Error, Span: r.span(line.Body, line.Body+longestHead),
			Message: "a log line of more than 64 KB is not read",
		}}
	}
	l := doubtful{reading: r, bench: b, line: i, start: line.Body, folded: source.Fold(text), hangs: r.comments[i]}
	var inside string
	if l.text, inside = withoutComments(l.folded.Text, r.comments[i]); strings.TrimSpace(l.text) == "" {
		return l.inComment(inside)
	}
	d, ok := l.look(after, r.src[:line.Start])
	_, _, row := l.row()
	if !ok && !l.hangs && !row {
		return nil
	}
	return &suspicion{Diagnostic: d, meant: l.meant, many: l.many, company: l.company, one: l.text[0] == '|', row: row, whole: l.at(0, len(l.text))}
}

// look asks one after the other what could be wrong with a line.
func (l *doubtful) look(after bool, before string) (diag.Diagnostic, bool) {
	figures := strings.ContainsAny(l.text, "0123456789")
	if d, ok := l.misspelled(); ok {
		return d, ok
	}
	if after && l.goesOn(before) {
		return l.joins(Sheet), true
	}
	if !figures {
		if d, ok := l.colonless(); ok {
			return d, ok
		}
		if d, ok := l.inMarkup(); ok {
			return d, ok
		}
		return l.filterAlone()
	}
	for _, look := range [...]func(*doubtful) (diag.Diagnostic, bool){(*doubtful).unlabelled, (*doubtful).mislabelled, (*doubtful).colonless, (*doubtful).inMarkup, (*doubtful).strange} {
		if d, ok := look(l); ok {
			return d, true
		}
	}
	if d, ok := l.indexAlone(); ok {
		return d, true
	}
	if d, ok := l.corrects(); ok {
		return d, true
	}
	if d, ok := l.lost(); ok {
		return d, true // and no end of the line above
	}
	if d, ok := l.headed(); ok {
		return d, true // nor here
	}
	if d, ok := l.readingAlone(); ok {
		return d, true
	}
	if after && !isBullet(l.text) && !wordsAndColon().MatchString(l.text) {
		if d, ok := l.wrapped(before); ok {
			return d, true
		}
	}
	for _, look := range [...]func(*doubtful) (diag.Diagnostic, bool){(*doubtful).filterAlone, (*doubtful).readingBetween, (*doubtful).headless} {
		if d, ok := look(l); ok {
			return d, ok
		}
	}
	return l.listed()
}

// wordsAndColon is how a line begins that is no end of the one above: wall: EV 8 on III.
var wordsAndColon = Lazily(`^[A-Za-z][A-Za-z ]{1,30}: `)

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

// lost is a sheet told in a sentence: it begins with a holder side of which no
// line tells that day, and has two settings, or one beside few words, or says that it is
// the same as before. Behind a word or two, or a message's hour and sender, it has both.
func (l *doubtful) lost() (diag.Diagnostic, bool) {
	from := opening(l.text)
	if from == 0 && isBullet(l.text) {
		from = 2 + opening(l.text[2:])
	}
	label, end := holderSide(l.text[from:])
	end += from
	within := false // the words
	if label == "" {
		for end < len(l.text) && !isSpace(l.text[end]) {
			end++
		}
		label = strings.TrimRight(l.text[from:end], ".,;:*")
		low := lower(label)
		if len(low) < 2 || !isDigit(low[0]) || !sided(low) && !(l.names.Labels[low] && isLetter(low[len(low)-1])) || !looksLabel(low, l.names) {
			from, end = l.sideBehindWords(from)
			label, within = l.text[from:end], true
		}
	}
	if label == "" {
		return diag.Diagnostic{}, false
	}
	s := scanFolded(l.text[end:], onSheet, l.names)
	const few = 10 // words, of a line that is no story
	if within && (!s.tells() || s.count(tWord) > few) {
		return diag.Diagnostic{}, false
	}
	if !s.tells() && !(len(s.tokens) > 0 && s.tokens[0].Type == tSame || s.count(tTime, tEV) > 0) || !s.tells() && s.count(tWord) > few {
		return diag.Diagnostic{}, false
	}
	if l.logged(lower(label)) {
		l.hangs = true
		return diag.Diagnostic{}, false
	}
	l.many = "tell of sheets and are not read"
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(from, len(l.text)),
		Message: fmt.Sprintf("this tells of %s and is not read", label),
		Notes:   []diag.Aside{{Text: fmt.Sprintf("a sheet's line has a colon behind its label, and words behind a dash: %s: f22 1/8 -- first of two", label)}},
	}, true
}

// sideBehindWords is where a holder side stands behind the first words of a line: then 1B with
// the red, [14/11/2026, 12:09] Me: 1A. Words that compare tell of a sheet elsewhere.
func (l *doubtful) sideBehindWords(from int) (start, end int) {
	const few = 3 // words
	for range few + 1 {
		start = skip(l.text, from)
		for end = start; end < len(l.text) && !isSpace(l.text[end]); end++ {
		}
		from = end
		word := lower(strings.Trim(l.text[start:end], ".,;:()*"))
		if compares[word] {
			break
		}
		if n := digits(word, 0); n > 0 && n+1 == len(word) && sided(word) {
			start += strings.Index(lower(l.text[start:end]), word)
			return start, start + len(word)
		}
	}
	return 0, 0
}

// compares are words of one who sets a sheet beside another (common practice, no source).
var compares = SetOf("like as than unlike beside compared versus vs cf see")

// indexAlone is a film speed on a line by itself: EI: 64, EI 100 today. Which film's it is is not
// said.
func (l *doubtful) indexAlone() (diag.Diagnostic, bool) {
	m := loneIndex().FindStringSubmatch(lower(l.text))
	if m == nil {
		return diag.Diagnostic{}, false
	}
	l.meant = FilmSpeed
	return diag.Diagnostic{
		Code: "unknown-term", Severity: diag.Warning, Span: l.at(0, len(l.text)), Message: "a film speed by itself is not read",
		Notes: []diag.Aside{{Text: "it is said with the film: film: NAME, EI " + m[1] + ", or with a sheet, or of the meter: at EI " + m[1]}},
	}, true
}

var loneIndex = Lazily(`^(?:e\.?i\.?|iso|asa|rated(?: at)?)[: ] ?(?:at )?([0-9]{1,5})(?: (?:today|now|here|from here|all day))?\.?$`)

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

// tells reports whether a line has an aperture beside a time, or a light value and one of
// the two.
func (s *scanner) tells() bool {
	for i := range s.tokens {
		a, b := s.kind(i), s.kind(i+1)
		if b == tAt {
			b = s.kind(i + 2) // 1/8 at f22
		}
		if a == tAperture && b == tTime || a == tTime && b == tAperture {
			return true
		}
	}
	return s.count(tEV) > 0 && s.count(tAperture, tTime) > 0
}

// headed is a line that begins as a sheet's does, with words and a colon, but the words are no
// label: holder 1 front: Y8, 1/60 f16. Behind words for a holder or its side one setting is enough.
func (l *doubtful) headed() (diag.Diagnostic, bool) {
	const longest, few = 32, 10 // bytes of the head, and words behind it
	from := len(l.text) - len(bulleted(l.text))
	from += opening(l.text[from:])
	colon := colonIn(l.text[from:])
	if colon < 1 || colon > longest || !isSpace(at(l.text, from+colon+1)) || strings.ContainsAny(l.text[from:from+colon], "|#>.,;") {
		return diag.Diagnostic{}, false
	}
	said := strings.TrimRight(l.text[from:from+colon], "* \t")
	body := scanFolded(l.text[from+colon+1:], onSheet, l.names)
	number, side := sideInWords(said)
	switch {
	case side && (body.count(tAperture) > 0 || body.timed()) && body.count(tWord) <= few:
	case body.count(tAperture) == 0 || body.count(tTime) == 0 || !body.terse():
		return diag.Diagnostic{}, false
	}
	at := l.at(from, from+len(said))
	d := diag.Diagnostic{Code: "unknown-label", Severity: diag.Error, Span: at, Message: fmt.Sprintf("%q is no label of a sheet, and the line is not read", at.Text())}
	switch word := lower(said[:letterRun(lower(said), 0)]); {
	case word == "metered" || word == "metering" || word == "reading" || nearest(word, nil) == "meter":
		return diag.Diagnostic{}, false
	case side:
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("write %sA for the front of holder %s, %sB for its back: %sA: Y8, 1/30 f16", number, number, number, number)}}
	case looseLabel(said) && !strings.Contains(said, " ") && digits(said, 0) < len(said):
		d.Message = fmt.Sprintf("%q alone is no label, and the line is not read", said)
		d.Notes = []diag.Aside{{Text: "a label of your own has the word before it: sheet " + said + ": …"}}
		d.Fix = &diag.Fix{Span: at, Text: "sheet " + said}
	default:
		l.many = "have an aperture and a time and are not read"
		d.Notes = []diag.Aside{{Text: "a sheet's line has a colon behind its label, and words behind a dash: 3A: Y8, 1/30 f16 -- the mill race"}}
	}
	return d, true
}

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

// headless is a line that holds an aperture and a time, and next to no words,
// behind something that is no label: "A2: f16 1/4", "2A) f16 1/4".
func (l *doubtful) headless() (diag.Diagnostic, bool) {
	if !l.mayHaveAperture() {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(l.text, 0, onSheet, l.names)
	times := s.count(tTime)
	for _, t := range s.tokens {
		if _, clock := clockAt(s.low, t.Pos.Offset); t.Type == tTime && clock != "" {
			times-- // 14:20 left at f8
		}
	}
	if s.count(tAperture) == 0 || times <= 0 || s.count(tRemark) > 1 || s.count(tWord, tNo, tNot, tTo, tAt) > 4 && !l.columned() {
		return diag.Diagnostic{}, false
	}
	first := s.firstSetting()
	most := 4
	switch {
	case l.columned():
		most = 24
	case l.speaksOfHolder():
		most = 8
	}
	if len(strings.Fields(l.text[:first])) > most {
		return diag.Diagnostic{}, false
	}
	note := "a sheet's line has a colon behind its label, and words behind a dash: " + l.ownLabel() + ": Y8, 1/30 f16 -- the mill race"
	if word := lower(l.text[:letterRun(l.text, 0)]); word == "metered" || word == "metering" || word == "reading" || nearest(word, nil) == "meter" {
		l.meant = Meter
		note = "a scene's reading begins with its word and a colon: meter: " + strings.Join(strings.Fields(l.text[first:]), " ")
	}
	l.many = "have an aperture and a time and are not read"
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line has an aperture and a time and is not read",
		Notes:   []diag.Aside{{Text: note}},
	}, true
}

// readingAlone is a line by itself that says no more than what the meter showed: EV 13 now,
// meter now 1/125 f8.
func (l *doubtful) readingAlone() (diag.Diagnostic, bool) {
	text := strings.TrimRight(bulleted(l.text), " .!")
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
			metered = metered || strings.HasPrefix(word, "meter") || strings.HasPrefix(word, "read")
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
	l.meant, l.many = Meter, "say what the meter showed and are not read"
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line says what the meter showed and is not read",
		Notes:   []diag.Aside{{Text: "for the sheets below, it is written meter: EV 12, or meter: 1/60 f8"}},
	}, true
}

// readingBetween is a line of some words between log lines, with a light value, or an aperture
// and a time: cloud came over, reads 1/15 f16 now. It may be a reading, and what it says of the
// sheets below is not known.
func (l *doubtful) readingBetween() (diag.Diagnostic, bool) {
	const most = 12 // words, of a line that is no story
	text := bulleted(l.text)
	if !l.between() || len(strings.Fields(text)) > most {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(text, 0, onSheet, l.names)
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

// between reports whether log lines stand right above and below, a blank line between or not.
func (l *doubtful) between() bool {
	l.hangs = true
	for _, step := range [...]int{-1, 1} {
		beside := l.line + step
		if beside >= 0 && beside < len(l.lines) && l.lines[beside].Kind == Blank {
			beside += step
		}
		if beside < 0 || beside >= len(l.lines) || l.lines[beside].Kind != Log {
			return false
		}
	}
	return true
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
var ofReadingLine = SetOf("now then meter metered metering reading reads read says said shows showed it is was the of and still spot incident light again here later at")

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
	for i, t := range s.tokens {
		word := s.low[t.Pos.Offset:s.ends[i]]
		switch t.Type {
		case tFilter:
			if !strings.ContainsAny(word, "0123456789") && l.names.Names[word] != FilterWord && !strings.Contains(word, "filter") && !strings.HasPrefix(word, "pol") {
				return diag.Diagnostic{}, false
			}
			said, named = true, true
		case tDrop:
			said = said || strings.Contains(word, "filter")
			done = true
		case tWord:
			if !ofFilterLine[word] {
				return diag.Diagnostic{}, false
			}
			said, done = said || strings.HasPrefix(word, "filter"), done || ofFilterDeed[word]
		case tNo, tNot, tNone:
			done = true
		case tPlus, tComma, tEquals:
		default:
			return diag.Diagnostic{}, false
		}
	}
	low := strings.ToLower(text)
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
var ofFilterLine = SetOf("on off using use used with the now my filter filters took taken removed put without added add screwed a back again and still to changed switched swapped no in from here all next")

// ofFilterDeed are those of them that say what was done, where no filter is named.
var ofFilterDeed = SetOf("on off using use used took taken removed put without added add screwed changed switched swapped no")

// listed is a line of a list of sheets: a number of a series, a side, or a figure of a
// column, and behind it a shutter speed or whole seconds. One alone is prose.
func (l *doubtful) listed() (diag.Diagnostic, bool) {
	label, end, ok := l.row()
	if first, count, ranged := cutDash(label); !ok && !(ranged && ofYear(first, count)) && (label == "" || !sided(label)) {
		return diag.Diagnostic{}, false
	}
	dashless := strings.ReplaceAll(l.text, "--", "  ") // in columns nothing stands there, and no remark begins
	s := l.bench.scan(dashless, end, onSheet, l.names)
	if l.ofSeries(label, end) && (s.count(tTime, tAperture, tEV, tZone, tN, tFactor, tStops, tFilter) > 1 || settingLike().MatchString(lower(l.text[end:]))) {
		return diag.Diagnostic{
			Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
			Message: "this goes on with the numbers above and is not read",
			Notes:   []diag.Aside{{Text: "a sheet's line has a colon behind its label, an f before the aperture, and words behind a dash: " + l.ownLabel() + ": f16 1/30 -- the old mill"}},
		}, true
	}
	if !s.timed() {
		return diag.Diagnostic{}, false
	}
	l.company, l.many = true, "begin as sheets do, hold times and are not read"
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line begins as a sheet does, holds a time and is not read",
		Notes:   []diag.Aside{{Text: "a sheet's line has a colon behind its label, and an f before the aperture: " + l.ownLabel() + ": 1/30 f16"}},
	}, true
}

// settingLike is what looks like a part of a second or an f-number.
var settingLike = Lazily(`\b1/[0-9]|\bf/?[0-9]`)

// ofSeries reports whether a line begins with a number of a series that sheets were logged
// under, and a colon.
func (l *doubtful) ofSeries(label string, end int) bool {
	series, ok := seriesOf(label)
	return ok && l.names.series[series] && at(l.text, end-1) == ':'
}

// row is the label that a line begins with, in lower case, "" where it is none, the end of
// it, and whether the line goes on in columns.
func (l *doubtful) row() (label string, end int, ok bool) {
	if c := at(l.text, 0); !isDigit(c) && c != '|' && c != '#' && c != '[' {
		return "", 0, false
	}
	from := opening(l.text)
	from += len(l.text[from:]) - len(strings.TrimLeft(l.text[from:], "|# \t"))
	end = from
	for end < len(l.text) && !isSpace(l.text[end]) && strings.IndexByte("|,;", l.text[end]) < 0 {
		end++
	}
	label = lower(strings.TrimRight(l.text[from:end], ".:)"))
	if label == "" || !looksLabel(label, l.names) {
		return "", end, false
	}
	first, count, ranged := cutDash(label)
	numbered := sided(label) || ranged && ofYear(first, count)
	return label, end, l.columned() || numbered && (strings.Contains(l.text[end:], "  ") || strings.ContainsAny(l.text[end:], "\t|"))
}

// timed reports whether a shutter speed of a fifth of a second or less, or seconds with
// their unit, are among the terms: halves and quarters are also of other things.
func (s *scanner) timed() bool {
	for i := range s.tokens {
		if s.timedAt(i) {
			return true
		}
	}
	return false
}

// timedAt reports whether the ith term is such a time.
func (s *scanner) timedAt(i int) bool {
	t := s.tokens[i]
	if t.Type != tTime {
		return false
	}
	part, fraction := strings.CutPrefix(t.Value, "1/")
	end, _ := decimal(s.low, t.Pos.Offset)
	return fraction && number(part) >= 5 || unit(s.low, end, "sec", "s") == s.ends[i] && end < s.ends[i]
}

// ownLabel is the label that a line begins with, else one for an example.
func (l *doubtful) ownLabel() string {
	first, _, _ := strings.Cut(strings.TrimLeft(l.text, " \t|*-"), " ")
	first, _, _ = strings.Cut(first, "\t")
	if first = strings.TrimRight(first, ".,;:)|"); looksLabel(lower(first), l.names) {
		return first
	}
	return "3A"
}

// columned reports whether a line stands in columns and begins with a figure, as
// typed lists do: "12   Mill race   K2   1/25   f/16", "No. 12, Mill race, K2, 1/25, f/16".
func (l *doubtful) columned() bool {
	text := strings.TrimLeft(l.text, "|# \t")
	if rest, ok := strings.CutPrefix(lower(text[:min(len(text), 4)]), "no"); ok && strings.TrimLeft(rest, ". ") != rest {
		text = strings.TrimLeft(text[2:], ". ")
	}
	many := func(sign string, n int) bool { return strings.Count(text, sign) >= n }
	return text != "" && isDigit(text[0]) && (many("  ", 2) || many("\t", 2) || many(";", 2) || many("|", 2) || many(",", 3))
}

// speaksOfHolder reports whether a line begins with a sheet's place in so many
// words: "holder 4 side A - 90mm f16 1/125".
func (l *doubtful) speaksOfHolder() bool {
	words := strings.Fields(lower(l.text))
	switch {
	case len(words) < 3:
		return false
	case words[0] == "holder" || words[0] == "side" || words[0] == "slide" || words[0] == "sheet" || words[0] == "plate":
		return strings.ContainsAny(words[1], "0123456789") || len(words[1]) == 1
	}
	return false
}

// mayHaveAperture reports whether the line has what an aperture needs, at a glance: most prose
// has not.
func (l *doubtful) mayHaveAperture() bool {
	text := l.text
	if strings.IndexByte(text, '@') >= 0 || len(l.names.Calls) > 0 {
		return true
	}
	low := lower(text)
	for i := 0; i < len(low); i++ {
		if !isLetter(low[i]) {
			continue
		}
		end := letterRun(low, i)
		switch low[i:end] {
		case "us", "u", "bl", "blende", "wide", "between":
			return true
		}
		if next := skip(low, end); low[end-1] == 'f' && next < len(low) && (isDigit(low[next]) || strings.IndexByte("/.:=", low[next]) >= 0) {
			return true
		}
		i = end
	}
	return false
}

// firstSetting is where the first aperture or time stands.
func (s *scanner) firstSetting() int {
	for _, t := range s.tokens {
		if t.Type == tAperture || t.Type == tTime || t.Type == tEV || t.Type == tCue {
			return t.Pos.Offset
		}
	}
	return 0
}

// misspelled is a word nearly of the notation before a label and a colon, or
// before a colon and terms.
func (l *doubtful) misspelled() (diag.Diagnostic, bool) {
	from := opening(l.text)
	colon := colonIn(l.text[from:])
	if colon < 0 {
		return diag.Diagnostic{}, false
	}
	low := lower(strings.TrimRight(l.text[from:from+colon], "* \t"))
	end := letterRun(low, 0)
	near := allNearest(low[:end], nil)
	if len(near) == 0 && end > 0 && l.loads(low[end:], l.text[from+colon+1:]) {
		near = []string{string(Load)}
	}
	fits := slices.IndexFunc(near, func(word string) bool { return l.meansWord(low, end, words[word], l.text[from+colon+1:]) })
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
	d.Fix = &diag.Fix{Span: said, Text: near[fits]}
	return d, true
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

// colonless is a log word or a label with terms behind it and no colon.
func (l *doubtful) colonless() (diag.Diagnostic, bool) {
	from := opening(bulleted(l.text))
	from += len(l.text) - len(bulleted(l.text))
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
	case !l.labelWithout(lower(said), strings.TrimLeft(l.text[end:], ";.,=- \t")):
		return diag.Diagnostic{}, false
	}
	instead := end
	for instead < len(l.text) && strings.IndexByte(";.,=-", l.text[instead]) >= 0 {
		instead++
	}
	if dash := skip(l.text, instead); at(l.text, dash) == '-' && !isDigit(at(l.text, dash+1)) { // 3A - f16
		instead = len(l.text) - len(strings.TrimLeft(l.text[dash:], "-"))
	}
	at := l.at(from, instead)
	return diag.Diagnostic{
		Code: "missing-colon", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("a colon is missing behind %q", l.at(from, end).Text()),
		Fix:     &diag.Fix{Span: at, Text: l.at(from, end).Text() + ":"},
	}, true
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
	return s.settings() > 0 && s.terse() && len(s.tokens) > 1 || s.onlyTerms() && s.count(tSame, tState, tFilter, tN, tDrop) > 0
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
		if l.names.Names[lower(rest)] == how.word {
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
		return labels, labels > end && terms.terse() && terms.count(tN, tDate, tDay, tTime, tDegrees) > 0
	case Tolerance:
		return end, terms.onlyTerms() && terms.count(tStops) > 0
	}
	if how.free || how.needs && labels == end {
		return end, false
	}
	return labels, terms.settings()+terms.count(tD) > 0 && terms.terse() && len(terms.tokens) > 1 && terms.tokens[0].Type != tWord
}

// labelsEnd is the end of the labels behind a word.
func (l *doubtful) labelsEnd(i int) int {
	for {
		start := skip(l.text, i)
		end := start
		for end < len(l.text) && !isSpace(l.text[end]) && l.text[end] != ',' {
			end++
		}
		bare := strings.TrimRight(l.text[start:end], ";.=-")
		end = start + len(bare)
		low := lower(bare)
		if start == end || !looksLabel(low, l.names) || !l.names.Labels[low] && !sided(low) {
			return i
		}
		i = end
	}
}

// inComment is a log line in a comment, where none is read and none was meant to be.
func (l *doubtful) inComment(text string) *suspicion {
	if !l.holdsLog(text) {
		if l.hangs {
			return &suspicion{}
		}
		return nil
	}
	return &suspicion{one: true, many: "are log lines in comments, where none is read", Diagnostic: diag.Diagnostic{
		Code: "log-line-in-markup", Severity: diag.Note, Span: l.at(0, len(l.folded.Text)), Message: "a log line is not read in a comment",
	}}
}

// inMarkup is a log line in a heading, a numbered list or a table, where it is
// never read.
func (l *doubtful) inMarkup() (diag.Diagnostic, bool) {
	what, body := markup(l.text)
	if what == "" {
		return diag.Diagnostic{}, false
	}
	note := "write it on a line of its own that begins with the sheet's label and a colon"
	h, headed := readHead(body, l.names)
	terms := body
	if headed {
		terms = body[h.body:]
	}
	s := scanFolded(terms, onSheet, l.names)
	settings := s.settings() > 0 && s.terse()
	switch what {
	case "a heading":
		if headed && h.said > h.word && h.how.word != Sheet && h.how.word != Private { // a sheet's label may be a title
			settings, l.meant = true, h.how.word
			note = "write it on a line of its own, without the signs of the heading: " + body
		}
		settings = settings && headed
	case "a table":
		settings = settings && len(s.tokens) > 1 || l.tabled()
	}
	if !settings {
		return diag.Diagnostic{}, false
	}
	l.many = "are log lines in " + what + ", where none is read"
	return diag.Diagnostic{
		Code: "log-line-in-markup", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "a log line is not read in " + what,
		Notes:   []diag.Aside{{Text: note}},
	}, true
}

// tabled reports whether a row of a table begins with a sheet's label and has two cells more
// that are figures or terms and nothing else: | 4A | R25 | 22 | 1 |.
func (l *doubtful) tabled() bool {
	cells := strings.Split(strings.Trim(l.text, "| \t"), "|")
	label := lower(strings.TrimSpace(cells[0]))
	if !looksLabel(label, l.names) || !sided(label) && !l.names.Labels[label] {
		return false
	}
	said := 0
	for _, cell := range cells[1:] {
		if s := scanFolded(cell, onSheet, l.names); len(s.tokens) > 0 && s.count(tWord, tComma, tSame) == 0 {
			said++
		}
	}
	return said > 1
}

// markup is what a line stands in by its first sign, and what stands in it.
func markup(text string) (what, body string) {
	switch {
	case text[0] == '#' && strings.HasPrefix(strings.TrimLeft(text, "#"), " "):
		return "a heading", strings.TrimLeft(text, "# \t")
	case text[0] == '|':
		return "a table", strings.ReplaceAll(strings.Trim(text, "| \t"), "|", " ")
	case isDigit(text[0]):
		end := digits(text, 0)
		if c := at(text, end); (c == '.' || c == ')') && isSpace(at(text, end+1)) {
			return "a numbered list", text[skip(text, end+1):]
		}
	}
	return "", ""
}

// wrapped is the second half of a log line that was broken by hand.
func (l *doubtful) wrapped(before string) (diag.Diagnostic, bool) {
	s := scanFolded(l.text, onSheet, l.names)
	if l.text[0] == '"' || s.count(tAperture, tEV) == 0 && s.count(tWord, tAbout) > 0 && !strings.Contains(l.text, "/") {
		return diag.Diagnostic{}, false // the weather: "waited about 4 min"
	}
	open := strings.HasSuffix(strings.TrimRight(before, " \t\r\n"), ",")
	if !(s.settings() > 0 && s.terse()) && !(s.onlyTerms() && (open || s.count(tComma) > 0 && len(s.tokens) > 2)) {
		return diag.Diagnostic{}, false
	}
	above := before[strings.LastIndexByte(strings.TrimRight(before, "\r\n"), '\n')+1:]
	h, ok := readHead(source.Fold(above).Text, l.names)
	if !ok || h.how.free {
		return diag.Diagnostic{}, false // no setting belongs to a scene's or a day's words
	}
	return l.joins(h.how.word), true
}

// goesOn reports whether a line goes on with the sheet's above: that ends with a comma, or this
// is indented and has a term of its own between commas: water high, N-1.
func (l *doubtful) goesOn(before string) bool {
	before = strings.TrimRight(before, " \t\r\n")
	h, ok := readHead(source.Fold(before[strings.LastIndexByte(before, '\n')+1:]).Text, l.names)
	if !ok || h.how.word != Sheet || isBullet(l.text) || strings.IndexByte("#>|`", l.text[0]) >= 0 {
		return false
	}
	if strings.HasSuffix(before, ",") {
		return true
	}
	if line := l.lines[l.line]; line.Start == line.Body && !isSpace(l.text[0]) {
		return false
	}
	s := l.bench.scan(l.text, 0, onSheet, l.names)
	s.settle()
	for i := range s.tokens {
		before, behind := s.kind(i-1), s.kind(i+1)
		if (before == tComma || i == 0) && (behind == tComma || i == len(s.tokens)-1) && s.count(tComma) > 0 {
			switch s.kind(i) {
			case tN, tExt, tBracket, tMovement, tNegative, tAperture, tEV:
				return true
			}
		}
	}
	return false
}

// joins is what is said of the end of a log line.
func (l *doubtful) joins(above Word) diag.Diagnostic {
	l.meant = above
	return diag.Diagnostic{
		Code: "wrapped-line", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this looks like the end of the log line above and is not read",
		Notes:   []diag.Aside{{Text: "a log line is one line, however long; join the two"}},
	}
}

// fences reports the lines within fenced blocks, and blocks that hide log lines: one without
// an end was hardly meant to.
func (r *reading) fences(doc ast.Node) (map[int]bool, diag.List) {
	inside := map[int]bool{}
	var list diag.List
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*ast.FencedCodeBlock)
		if !entering || !ok || block.Lines().Len() == 0 {
			return ast.WalkContinue, nil
		}
		first := r.lineAt(block.Lines().At(0).Start + r.base)
		last := r.lineAt(block.Lines().At(block.Lines().Len()-1).Start + r.base)
		hidden := 0
		for i := first; i <= last; i++ {
			inside[i] = true
			if r.holdsLog(source.Fold(r.src[r.lines[i].Body:r.lines[i].BodyEnd]).Text) {
				hidden++
			}
		}
		if hidden == 0 {
			return ast.WalkSkipChildren, nil
		}
		opener := r.lines[max(first-1, 0)]
		d := diag.Diagnostic{
			Code: "hidden-by-fence", Severity: diag.Note, Span: r.span(opener.Body, opener.BodyEnd),
			Message: fmt.Sprintf("the block that opens here holds %s, and none is read", plural(hidden, "log line", "log lines")),
		}
		switch {
		case last == len(r.lines)-1:
			d.Severity = diag.Error
			d.Message = fmt.Sprintf("the block that opens here hides %s", plural(hidden, "log line", "log lines"))
			d.Notes = []diag.Aside{{Text: "take the opening line out, or close the block where it should end"}}
		case first == 1 && r.front > 0:
			d.Notes = []diag.Aside{{Text: "what stands between --- and --- at the top of a notebook is for other programs; a log line stands below it"}}
		}
		list = append(list, d)
		return ast.WalkSkipChildren, nil
	})
	return inside, list
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}
