package lang

import (
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Tidy writes a notebook with one spelling for each term and the bodies of
// sheet lines that follow one another in one column. Prose stays byte for byte,
// and so do rows whose terms the writer has set in columns, and every line whose meaning
// another spelling would change: what was written is read again, and a line that does not
// come out as it went in is left as it was. The lexicon is what was known before the notebook was parsed;
// leave are lines, counted from 0, that stay as typed.
func Tidy(book *Notebook, before *Lexicon, leave map[int]bool) string {
	t := newTidier(book)
	maps.Copy(t.leave, leave)
	for range mostTries {
		text := t.text()
		if !t.changed(text, before) {
			return text
		}
	}
	return t.src
}

// mostTries bounds how often lines are taken back: a line that stays as typed
// can move its neighbours' column, and so bring out another.
const mostTries = 12

// tidier tidies one notebook.
type tidier struct {
	book  *Notebook
	src   string
	of    map[int]*Statement // by the index of its line
	order []int              // the lines of the statements, in order
	leave map[int]bool       // lines that stay as typed

	columns map[int]int // of each line: how wide the heads around it are
}

func newTidier(book *Notebook) *tidier {
	t := &tidier{book: book, src: string(book.File.Text), leave: map[int]bool{}}
	t.of = make(map[int]*Statement, len(t.book.Statements))
	line := 0
	for _, st := range t.book.Statements {
		for t.book.Lines[line].Close <= st.Span.Start {
			line++
		}
		t.of[line] = st
		t.order = append(t.order, line)
		if !t.plain(line, st) {
			t.leave[line] = true
		}
	}
	var rows []int // the sheets' lines so far
	for _, line := range t.order {
		if t.of[line].Word != Sheet {
			continue
		}
		if rows = append(rows, line); t.marked(line) {
			for _, row := range rows[max(0, len(rows)-2):] {
				t.leave[row] = true
			}
		}
	}
	for i := 1; i < len(t.order); i++ {
		a, b := t.order[i-1], t.order[i]
		if b == a+1 && meet(t.typedColumns(a), t.typedColumns(b)) {
			t.leave[a], t.leave[b] = true, true
		}
	}
	return t
}

// marked reports whether a line is a row of ditto marks. What they stand under is told by the columns
// of the line above, so that both stay.
func (t *tidier) marked(line int) bool {
	st := t.of[line]
	body := strings.TrimSpace(st.Body.Text())
	inColumns := strings.ContainsAny(body, "\t|") || strings.Contains(body, "  ")
	return slices.ContainsFunc(st.Terms(), func(term Term) bool {
		_, same := term.Kind.(*Same)
		typed := term.Span.Text()
		return same && IsDittoMark(typed) && (inColumns || !strings.ContainsFunc(typed, unicode.IsLetter))
	})
}

// typedColumns are the places, counted from the beginning of a line, at which something behind its
// first term stands apart by more than one blank.
func (t *tidier) typedColumns(line int) (all []int) {
	const tab = 8
	st, start := t.of[line], t.book.Lines[line].Start
	at, blanks, begun := 0, 0, false
	for i, c := range t.src[start:st.Body.End] {
		switch {
		case c == '\t':
			at, blanks = at+tab-at%tab, blanks+tab
			continue
		case c == ' ' || c == '\u00a0':
			at, blanks = at+1, blanks+1
			continue
		case start+i >= st.Body.Start:
			if begun && blanks > 1 {
				all = append(all, at)
			}
			begun = true
		}
		at, blanks = at+1, 0
	}
	return all
}

func meet(a, b []int) bool {
	return slices.ContainsFunc(a, func(at int) bool { return slices.Contains(b, at) })
}

// plain reports whether a line can be spelled anew at all: nothing of Markdown
// around its head, nothing in it that was not understood.
func (t *tidier) plain(line int, st *Statement) bool {
	l := t.book.Lines[line]
	if st.Span.Start != l.Body || strings.HasSuffix(t.src[l.Body:l.BodyEnd], `\`) || strings.Count(t.src[l.Body:l.BodyEnd], "~~")%2 != 0 {
		return false
	}
	for i := range st.Terms() {
		if st.Terms()[i].Unread {
			return false
		}
	}
	return true
}

// text is the notebook as it would be written.
func (t *tidier) text() string {
	t.measure()
	var b strings.Builder
	for i := range t.book.Lines {
		b.WriteString(t.line(i))
	}
	return b.String()
}

// line is one line as it would be written.
func (t *tidier) line(i int) string {
	l := t.book.Lines[i]
	st := t.of[i]
	if st == nil || t.leave[i] {
		return t.src[l.Start:l.Close]
	}
	head, body := t.head(st), st.tidyBody()
	if body != "" {
		head += strings.Repeat(" ", 1+t.columns[i]-utf8.RuneCountInString(head)) + body
	}
	return t.src[l.Start:l.Body] + head + t.src[l.BodyEnd:l.Close]
}

// changed looks whether the new text means the same and is tidy itself, and
// leaves the lines of which that is not so as they were typed.
func (t *tidier) changed(text string, before *Lexicon) bool {
	known := NewLexicon()
	known.Add(before)
	book, _ := Parse(source.New(t.book.File.Name, []byte(text)), known)
	again := newTidier(book)
	if len(again.order) != len(t.order) || len(book.Lines) != len(t.book.Lines) {
		for _, line := range t.order {
			t.leave[line] = true
		}
		return true
	}
	maps.Copy(again.leave, t.leave)
	again.measure()
	changed := false
	for i, line := range t.order {
		same := again.order[i] == line && book.Statements[i].String() == t.book.Statements[i].String() && book.Statements[i].wordsTyped() == t.book.Statements[i].wordsTyped()
		if !t.leave[line] && (!same || again.line(line) != t.line(line)) {
			t.leave[line], changed = true, true
		}
	}
	return changed
}

// head is the word, small, and the labels, one blank between.
func (t *tidier) head(st *Statement) string {
	word := lower(source.Fold(st.Said.Text()).Text)
	if len(st.Labels) == 0 {
		return word + ":"
	}
	labels := st.typed(st.Said.End, st.Labels[len(st.Labels)-1].Span.End) // with the day before them, or what calls them plates
	if words[string(st.Word)].labels != 1 {                               // a thing keeps the name that other lines call it by
		labels = source.Fold(labels).Text
	}
	return strings.TrimSpace(word+" "+strings.Join(strings.Fields(labels), " ")) + ":"
}

// measure finds the width of the widest head of each run of sheet lines that
// stand together without a gap.
func (t *tidier) measure() {
	t.columns = make(map[int]int, len(t.order))
	for i := 0; i < len(t.order); {
		end, widest := i, 0
		for end < len(t.order) && t.order[end] == t.order[i]+end-i && (end == i || t.joins(t.order[end]) && t.joins(t.order[i])) {
			widest = max(widest, utf8.RuneCountInString(t.head(t.of[t.order[end]])))
			end++
		}
		for ; i < end; i++ {
			t.columns[t.order[i]] = widest
		}
	}
}

// joins reports whether a line stands in one column with its neighbours: a
// sheet's line that begins with its label.
func (t *tidier) joins(line int) bool {
	l := t.book.Lines[line]
	st := t.of[line]
	return st.Word == Sheet && st.Said.Start == st.Said.End && l.Start == l.Body && !t.leave[line]
}

// tidyBody is what stands behind the colon: terms in their spelling, and whatever is
// beside them as it was typed.
func (st *Statement) tidyBody() string {
	var b strings.Builder
	at, words := st.Body.Start, true // how far it is written, and whether words end there
	if st.Text != "" {
		b.WriteString(st.Text)
		at = st.TextSpan().End
	}
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if isComma(*t) || t.Span.Start < at { // of signs the gaps are made; what was found within the text stands in it
			continue
		}
		b.WriteString(gap(st.typed(at, t.Span.Start), words || t.isWords()))
		b.WriteString(t.tidy(st.Word))
		at, words = t.Span.End, t.isWords()
	}
	b.WriteString(gap(st.typed(at, st.Body.End), true))
	return strings.TrimSpace(b.String())
}

// typed is a stretch of the file as it was typed.
func (st *Statement) typed(from, to int) string {
	return source.Span{File: st.Body.File, Start: from, End: max(from, to)}.Text()
}

// wordsTyped is the writer's own words on a line as they were typed, of which no byte may be lost.
func (st *Statement) wordsTyped() string {
	var b strings.Builder
	for i := range st.Terms() {
		if t := &st.Terms()[i]; t.isWords() {
			b.WriteString(t.Span.Text() + "\n")
		} else {
			b.WriteString(strings.TrimSpace(t.name()) + "\n")
		}
	}
	return b.String()
}

// isWords reports whether a term is the writer's own words, of which every sign is theirs.
func (t *Term) isWords() bool {
	switch t.Kind.(type) {
	case *Loose, *Remark:
		return true
	}
	return false
}

// gap is what stands between two terms: blanks are one, and so is what parts them. Whatever
// else is there stays, and beside words every sign.
func gap(typed string, words bool) string {
	sign := strings.Join(strings.Fields(typed), "")
	blank := sign != typed
	if sign == "" && blank {
		return " "
	}
	if folded := source.Fold(sign).Text; utf8.RuneCountInString(sign) == 1 && (folded == "," && (blank || !words) || folded == ";" && !words) {
		return ", "
	}
	return typed
}

// tidy is a term in its one spelling, with its marks. Developing times stay as
// they are written, 8:30.
func (t *Term) tidy(word Word) string {
	typed := t.Span.Text()
	if t.isWords() {
		return typed
	}
	end := len(typed)
	if t.Doubtful || t.Sic {
		folded := source.Fold(typed)
		end = folded.At(termMarks().FindStringIndex(folded.Text)[0])
	}
	name := t.name()
	text := ""
	k, reading := t.Kind.(*Exposure)
	apart := reading && k.EV != nil && evApart().MatchString(source.Fold(typed).Text) // what a meter shows: EV at 100
	passing := reading && len(k.Name) > 0 && k.tellsTime()
	if word != Develop && !apart && !passing && !strings.HasPrefix(typed, "+") { // more of what is not said
		text = spelled(t.Kind)
	}
	if k, ok := t.Kind.(*Extension); ok && inMM().MatchString(source.Fold(typed[:end]).Text) { // in inches it stays in inches
		text = "ext " + trimFloat(float64(k.MM)) + "mm"
	}
	switch folded := source.Fold(typed[:end]).Text; t.Kind.(type) {
	case *ISO, *FilmEI, *MeterEI:
		if inDegrees().MatchString(folded) { // and degrees stay degrees
			text = ""
		}
	case *Clock:
		if !ofClock().MatchString(folded) { // 5 Uhr may be that of the afternoon
			text = ""
		}
	case *Amount:
		if at(folded, 0) == 'a' { // a stop over
			text = ""
		}
	}
	if text == "" {
		name, text = "", strings.Join(strings.Fields(typed[:end]), " ")
	}
	marks := typed[end:]
	if strings.TrimSpace(marks) == "?" {
		marks = "?"
	}
	return name + text + marks
}

// tellsTime reports whether nothing but whole minutes or hours stand behind words, which may tell how long somebody waited.
func (k *Exposure) tellsTime() bool {
	if k.EV != nil || k.Zone != nil || len(k.Parts) != 1 || k.Parts[0].Time == nil || len(k.Parts[0].Time.Parts) == 0 {
		return false
	}
	const minute = 60
	return k.Parts[0].Time.Parts[0].Num >= minute
}

// inMM is a measure in millimetres.
var inMM = pattern.Lazily(`(?i)\d[ \t]*mm$`)

// inDegrees is a film's speed in degrees.
var inDegrees = pattern.Lazily(`(?i)\bdin\b|°`)

// ofClock is an hour of the day that is one for sure: one with its minutes, or with the half of the day.
var ofClock = pattern.Lazily(`(?i)\d[.:h ]*\d\d|[ap]\.?m\b|midnight|noon|half past|quarter`)

// evApart is EV with a word between it and its number.
var evApart = pattern.Lazily(`(?i)\bEV[ \t]+[a-z]`)

// termMarks are the marks of doubt, and [sic], behind a term.
var termMarks = pattern.Lazily(`([ \t,]*(\?|\(\?+\)|\[\?+\]|\[sic\]|[+-]+))*$`)

// name is the words before a reading as they were typed, with the blank behind them.
func (t *Term) name() string {
	k, ok := t.Kind.(*Exposure)
	if !ok || len(k.Name) == 0 {
		return ""
	}
	typed := t.Span.Text()
	end := wordSpans(t.Span, k.Name)[len(k.Name)-1].End - t.Span.Start
	for end < len(typed) { // what shows nothing by itself belongs to the picture before it
		_, size := utf8.DecodeRuneInString(typed[end:])
		if source.Fold(typed[end:end+size]).Text != "" {
			break
		}
		end += size
	}
	if rest := typed[end:]; strings.HasPrefix(source.Fold(rest).Text, ":") {
		_, size := utf8.DecodeRuneInString(rest)
		end += size
	}
	if strings.TrimLeft(typed[end:], " \t\u00a0") != typed[end:] {
		return typed[:end] + " "
	}
	return typed[:end]
}

// spelled is the one spelling of a term, or nothing where it stays as typed.
func spelled(kind any) string {
	switch k := kind.(type) {
	case *Exposure:
		return k.spelled()
	case *N:
		return spellN(k.Stops)
	case *FilmEI:
		return "EI " + spellNumber(k.EI)
	case *MeterEI:
		return "at EI " + spellNumber(k.EI)
	case *ISO:
		return "ISO " + spellNumber(k.Speed)
	case *Bracket:
		return "bracket " + spellSigned(k.Stops)
	case *Same:
		return strings.TrimSpace(strings.TrimSuffix("same as "+k.Label, " as "))
	case *Hold:
		return "hold"
	case *Sunny16:
		return "sunny 16"
	case *Clock:
		return "at " + k.Time
	case *Negative:
		return "neg " + k.Number
	case *Amount:
		return k.spelled()
	}
	return ""
}

func (k *Exposure) spelled() string {
	var all []string
	if k.EV != nil {
		all = append(all, "EV "+spellNumber(*k.EV))
	}
	for i := range k.Parts {
		var text string
		if a := k.Parts[i].Aperture; a != nil {
			text = a.spelled()
		} else {
			text = k.Parts[i].Time.spelled()
		}
		if text == "" {
			return ""
		}
		all = append(all, text)
	}
	if k.Zone != nil {
		zone := spellZone(*k.Zone)
		if zone == "" {
			return ""
		}
		all = append(all, "on "+zone)
	}
	return strings.Join(all, " ")
}

func (a *Aperture) spelled() string {
	switch {
	case a.Widest:
		return "wide open"
	case a.Upper != 0:
		return "f" + trimFloat(a.Mark) + "/" + trimFloat(a.Upper)
	case a.Past == 0:
		return "f" + trimFloat(a.Mark)
	}
	if part := fractionSign(a.Past); part != "" {
		return "f" + trimFloat(a.Mark) + part
	}
	return ""
}

func (t *Time) spelled() string {
	if len(t.Parts) != 1 || t.Count != nil || t.Again != nil {
		return ""
	}
	text := t.Parts[0].spelled()
	if t.Bulb {
		text = "B " + text
	}
	return text
}

// spelled is 1/60, 2s, 1m30s and 2h26m.
func (s Seconds) spelled() string {
	if s.Den != 1 {
		return trimFloat(s.Num) + "/" + trimFloat(s.Den)
	}
	if s.Num >= 3600 && math.Mod(s.Num, 60) == 0 {
		hours, minutes := math.Trunc(s.Num/3600), math.Mod(s.Num, 3600)/60
		if minutes == 0 {
			return spellNumber(Number(hours)) + "h"
		}
		return spellNumber(Number(hours)) + "h" + spellNumber(Number(minutes)) + "m"
	}
	if s.Num >= 60 && s.Num < 3600 && s.Num == math.Trunc(s.Num) {
		minutes, seconds := math.Trunc(s.Num/60), math.Mod(s.Num, 60)
		if seconds == 0 {
			return spellNumber(Number(minutes)) + "m"
		}
		return spellNumber(Number(minutes)) + "m" + spellNumber(Number(seconds)) + "s"
	}
	return spellNumber(Number(s.Num)) + "s"
}

func (a *Amount) spelled() string {
	switch {
	case a.Factor != nil:
		return "x" + spellNumber(*a.Factor)
	case a.Stops != nil && *a.Stops > 1:
		return spellNumber(*a.Stops) + " stops"
	case a.Stops != nil && *a.Stops > 0:
		return spellNumber(*a.Stops) + " stop"
	}
	return ""
}

func spellN(n Number) string {
	if n == 0 {
		return "N"
	}
	return "N" + spellSigned(n)
}

func spellSigned(n Number) string {
	if n < 0 {
		return "-" + spellNumber(-n)
	}
	return "+" + spellNumber(n)
}

// spellNumber writes halves, thirds and quarters as one sign.
func spellNumber(n Number) string {
	v := float64(n)
	whole := math.Floor(v)
	if part := fractionSign(v - whole); part != "" && v >= 0 {
		if whole == 0 {
			return part
		}
		return trimFloat(whole) + part
	}
	return trimFloat(v)
}

// fractionSign is the sign of a fraction that stops are counted in.
func fractionSign(v float64) string {
	for _, f := range [...]struct {
		v    float64
		sign string
	}{{1. / 2, "½"}, {1. / 3, "⅓"}, {2. / 3, "⅔"}, {1. / 4, "¼"}, {3. / 4, "¾"}} {
		if math.Abs(v-f.v) < 1e-9 {
			return f.sign
		}
	}
	return ""
}

// spellZone writes a zone in roman figures.
func spellZone(n Number) string {
	whole := math.Floor(float64(n))
	for figure, v := range romans {
		if float64(v) == whole && v > 0 {
			return strings.ToUpper(figure) + fractionSign(float64(n)-whole)
		}
	}
	return ""
}
