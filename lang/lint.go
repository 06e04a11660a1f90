package lang

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What is wrong with a log line whatever it means. A slip is reported once, at
// the smallest stretch that is wrong, with what was probably meant; the stretch
// then stands in the tree as an unread remark, so that nothing later reports it
// again. Loose words are the writer's business and are left alone, unless they
// nearly spell a term.

// linter walks the terms of one statement.
type linter struct {
	st    *Statement
	names *Lexicon
	field field
	terms []Term
	next  bool // the next term belongs to the slip before it
	list  diag.List
}

func lint(s *Statement, names *Lexicon) diag.List {
	if s.Word == OwnWord || s.Word == Call {
		return ownWrong(s, names)
	}
	long := append(overlong(s, names), impossible(s)...)
	if s.Text != "" || len(s.terms) == 0 {
		return long
	}
	long = append(long, sheetWithin(s, names)...)
	asides(s)
	l := linter{st: s, names: names, field: words[string(s.Word)].field, list: long}
	for i := range s.terms {
		if suspicious(&s.terms[i]) {
			l.all()
			break
		}
	}
	return append(l.list, unclosed(s)...)
}

// sheetWithin reports another sheet's label with its colon in a sheet's line, and what a sheet's line has behind it: f16
// 1/2. 1B: same. Nothing from there on is read.
func sheetWithin(s *Statement, names *Lexicon) diag.List {
	body := s.Body.Text()
	if s.Word != Sheet || strings.IndexByte(body, ':') < 0 {
		return nil
	}
	m := labelWithin().FindStringIndex(body)
	if m == nil {
		return nil
	}
	label := strings.Trim(body[m[0]:m[1]], " \t,;:./|")
	if slices.ContainsFunc(s.Labels, func(l Label) bool { return strings.EqualFold(l.Text, label) }) {
		return nil
	}
	behind := scanFolded(source.Fold(body[m[1]:]).Text, onSheet, names)
	begin := m[0] + strings.Index(body[m[0]:], label)
	from := s.Body.Start + begin
	first := slices.IndexFunc(s.terms, func(t Term) bool { return t.Span.End > from })
	if behind.settings()+behind.count(tSame, tState) == 0 || !behind.terse() || first < 0 {
		return nil
	}
	if _, remark := s.terms[first].Kind.(*Remark); remark && s.terms[first].Span.Start < from {
		return nil
	}
	at, rest := s.Body.Sub(begin, begin+len(label)), s.Body.Sub(begin, len(strings.TrimRight(body, " \t")))
	if t := &s.terms[first]; t.Span.Start < from {
		rest.Start = t.Span.Start // a term goes on over it
	}
	s.terms = append(slices.Clip(s.terms[:first]), Term{Kind: &Remark{Text: rest.Text()}, Span: rest, Unread: true})
	return diag.List{{
		Code: "unknown-label", Severity: diag.Error, Span: at,
		Message: fmt.Sprintf("%s begins another sheet within this line, which is not read from there on", at.Text()),
		Notes:   []diag.Aside{{Text: "each sheet has a line of its own, with its label and a colon before it"}},
	}}
}

// labelWithin is the label of a holder's side, with its colon.
var labelWithin = pattern.Lazily(`(?:^|[ \t,;./|])\d{1,3}[ABab]:(?:[ \t]|$)`)

// overlong reports a range of labels that goes on for longer than anybody has
// holders or exposes alike, or from one series of numbers to another: only its two ends
// are taken, or it is one label.
func overlong(s *Statement, names *Lexicon) diag.List {
	for i := range s.Labels {
		text := source.Fold(s.Labels[i].Span.Text()).Text
		from, to, ranged := cutDash(text)
		a, _, okA := counted(strings.TrimLeft(from, "#"))
		b, _, okB := counted(strings.TrimLeft(to, "#"))
		if s.Word == Sheet && ranged && okA && okB && b-a > mostOnSheetLine && !ofYear(from, to) && len(strings.TrimLeft(from, "#")) != 2 {
			return diag.List{{
				Code: "unknown-label", Severity: diag.Error, Span: s.Labels[i].Span,
				Message: fmt.Sprintf("this is one sheet called %s, not a run of %d", text, b-a+1),
				Notes:   []diag.Aside{{Text: fmt.Sprintf("a line of one setting logs %d sheets at most", mostOnSheetLine)}},
			}}
		}
		if year := strings.TrimLeft(from, "#"); s.Word == Sheet && ranged && okA && okB && len(year) == 2 && text[len(text)-1] <= '9' && s.Labels[i].Text != text &&
			(s.open == s.Labels[i].Span || names.series[fmt.Sprintf("%02d", a-1)] || names.series[fmt.Sprintf("%02d", a+1)]) {
			return diag.List{{
				Code: "unknown-label", Severity: diag.Warning, Span: s.Labels[i].Span,
				Message: fmt.Sprintf("this is read as the %d sheets from %d to %d, and may be number %d of a year", b-a+1, a, b, b),
				Notes:   []diag.Aside{{Text: fmt.Sprintf("a year and a count are written %s-%03d, and several sheets %d to %d", year, b, a, b)}},
			}}
		}
		if l := &s.Labels[i]; l.Span.End-l.Span.Start == len(l.Text) {
			continue // a label by itself
		}
		if first, last, ok := s.apart(i); ok {
			return diag.List{{
				Code: "unknown-label", Severity: diag.Error, Span: s.Labels[i].Span,
				Message: "this range does not lead from one number to another of a series", Notes: []diag.Aside{{Text: "only its two ends are taken, " + first + " and " + last}},
			}}
		}
		if s.Word != Sheet && ranged && okA && okB && b-a > mostInRange && !ofYear(from, to) {
			return diag.List{{
				Code: "unknown-label", Severity: diag.Error, Span: s.Labels[i].Span,
				Message: fmt.Sprintf("this range is longer than %d", mostInRange), Notes: []diag.Aside{{Text: "only its two ends are taken"}},
			}}
		}
	}
	return nil
}

// apart is the two ends of what is written as a run of numbers, at the label of an index
// and the next, where it is none.
func (s *Statement) apart(i int) (first, last string, ok bool) {
	if i+1 >= len(s.Labels) || s.Labels[i+1].Span != s.Labels[i].Span || i > 0 && s.Labels[i-1].Span == s.Labels[i].Span {
		return "", "", false
	}
	first, last = s.Labels[i].Text, s.Labels[i+1].Text
	prefix, a, okA := cutDash(first)
	other, b, okB := cutDash(last)
	three := i+2 < len(s.Labels) && s.Labels[i+2].Span == s.Labels[i].Span
	_, errA := strconv.Atoi(a)
	_, errB := strconv.Atoi(b)
	return first, last, okA && okB && !three && errA == nil && errB == nil && (prefix != other || number(a) >= number(b))
}

// suspicious reports whether a term can hold a slip at all.
func suspicious(t *Term) bool {
	switch k := t.Kind.(type) {
	case *Bare, *Loose:
		return true
	case *Remark:
		first, _ := utf8.DecodeRuneInString(t.Span.Text())
		return first != '-' && !unicode.Is(unicode.Dash, first) // behind a dash there is nothing to close
	case *Exposure:
		return len(k.Name) > 0
	}
	return false
}

// all goes through the terms and puts them together anew, slips apart.
func (l *linter) all() {
	s := l.st
	l.terms = make([]Term, 0, len(s.terms)+2)
	for i := range s.terms {
		t := s.terms[i]
		if t.Struck || t.Sic {
			l.terms = append(l.terms, t)
			continue
		}
		switch k := t.Kind.(type) {
		case *Loose:
			l.words(t, k.Words, i, nil)
		case *Exposure:
			l.words(t, k.Name, i, k)
		case *Bare:
			l.bare(t, k, i)
		case *Remark:
			l.remark(t)
		default:
			l.other(t)
		}
	}
	s.terms = l.terms
}

// words looks at words that stand loose or name a reading.
func (l *linter) words(t Term, said []string, i int, named *Exposure) {
	spans := wordSpans(t.Span, said)
	for n := range spans {
		meant, code := l.meant(spans, n, i, named != nil)
		if code == "" {
			continue
		}
		l.report(code, spans[n], meant)
		l.part(said[:n], spans[:n])
		l.unread(spans[n])
		l.next = takesValue[meant] || needsValue[meant]
		if named == nil {
			l.part(said[n+1:], spans[n+1:])
			return
		}
		rest := *named
		rest.Name = said[n+1:]
		t.Kind = &rest
		t.Span.Start = spans[n].End
		for t.Span.Start < t.Span.End && unicode.IsSpace(l.runeAt(t.Span.Start)) {
			t.Span.Start += utf8.RuneLen(l.runeAt(t.Span.Start))
		}
		break
	}
	l.other(t)
}

// unread keeps a stretch that was reported, or hangs on one that was.
func (l *linter) unread(at source.Span) {
	l.terms = append(l.terms, Term{Kind: &Remark{Text: at.Text()}, Span: at, Unread: true})
}

// other is a term that is none of words, unless it is the value of a slip.
func (l *linter) other(t Term) {
	if l.next {
		l.next = false
		switch k := t.Kind.(type) {
		case *Amount, *Millimetres, *Densitometer, *RuleOf, *N:
			l.unread(t.Span)
			return
		case *Exposure:
			if len(k.Name) == 0 {
				l.unread(t.Span)
				return
			}
		}
	}
	l.terms = append(l.terms, t)
}

func (l *linter) runeAt(offset int) rune {
	r, _ := utf8.DecodeRune(l.st.Body.File.Text[offset:])
	return r
}

// part keeps words that stood around a slip.
func (l *linter) part(said []string, spans []source.Span) {
	if len(said) > 0 {
		l.terms = append(l.terms, Term{Kind: &Loose{Words: said}, Span: spans[0].Cover(spans[len(spans)-1])})
	}
}

// wordSpans are the stretches of a term's words, which stand in it in order.
func wordSpans(term source.Span, said []string) []source.Span {
	all := make([]source.Span, len(said))
	text, from := term.Text(), 0
	for i, word := range said {
		start := from + max(0, strings.Index(text[from:], word))
		from = min(start+len(word), len(text))
		all[i] = term.Sub(start, from)
	}
	return all
}

// meant is what the nth word was probably meant for, and the rule; no rule
// where nothing is wrong with it.
func (l *linter) meant(spans []source.Span, n, i int, named bool) (meant, code string) {
	word := source.Fold(spans[n].Text()).Text
	low := lower(word)
	if low == "n-" || low == "n+" {
		return word + "1", "nearly-a-term"
	}
	if end := digits(low, 0); end > 0 && unit(low, end, "st", "nd", "rd", "th") == len(low) {
		return "", "" // a number in a row
	}
	if _, lost, open := strings.Cut(word, "["); open && l.field&onSheet != 0 && strings.HasPrefix(lost, "...]") {
		return "", "" // what a transcriber could not read: f1[...]
	}
	if filter := l.meantFilter(word, spans, n); filter != "" {
		return filter, "nearly-a-term"
	}
	if strings.ContainsAny(word, "0123456789") || strings.HasPrefix(low, "n-") || strings.HasPrefix(low, "n+") {
		return l.meantFigures(word, spans, n)
	}
	if meant := meantFilters[strings.TrimRight(strings.TrimSuffix(low, variation), ".:,;")]; meant != "" && l.field&onSheet != 0 {
		return meant, "nearly-a-term"
	}
	list := aloneList
	if !named && n == len(spans)-1 && l.valueFollows(i) {
		list = termList
	}
	near := nearest(strings.TrimRight(low, ".:"), list)
	if k, is := keywords[low]; is && near != low && k.field&l.field != 0 {
		return "", "" // same lens: spelled as it is meant
	}
	if near == "" || keywords[near].field != 0 && keywords[near].field&l.field == 0 {
		return "", ""
	}
	if named && (len(low) < 5 || len(low) < 6 && !colours[near]) {
		return "", "" // of the place that was metered: nave, grave
	}
	alone := len(spans) == 1 || len(low) >= 6 || n+1 < len(spans) && lower(spans[n+1].Text()) == "filter"
	low = strings.TrimRight(low, ".:,;")
	if (needsValue[near] || alone && len(low) >= 4) && !ordinary()[low] {
		return near, "nearly-a-term"
	}
	return "", ""
}

// meantFilter is the filter that a word most likely names where one stands: between marks that make it stand
// out, *red*, or one slip away from the name of one in the kit. Beside other words it is of what they tell.
func (l *linter) meantFilter(word string, spans []source.Span, n int) string {
	called := n+1 < len(spans) && strings.HasPrefix(strings.Trim(lower(spans[n+1].Text()), emphasis), "filter")
	if l.field&onSheet == 0 || len(spans) > 1 && !called {
		return ""
	}
	word = strings.TrimRight(word, ".:,;")
	bare := strings.Trim(word, emphasis)
	if bare != word {
		if s := scanFolded(bare, l.field, l.names); len(s.tokens) == 1 && s.tokens[0].Type == tFilter {
			return bare
		}
	}
	bare = lower(bare)
	if _, known := keywords[bare]; known || len(bare) < 3 || l.names.owns(bare) || ordinary()[bare] {
		return ""
	}
	best := ""
	for name, of := range l.names.Names {
		if of == FilterWord && len(name) >= 3 && name[0] == bare[0] && distance(bare, name) == 1 && (best == "" || name < best) {
			best = name
		}
	}
	return best
}

// meantFilters are signs and short words that most likely mean a filter or none, and may mean
// other things: a mark in the margin, an instant print, a near focus.
var meantFilters = map[string]string{
	"🟡": "yellow", "🟠": "orange", "🔴": "red", "🟢": "green", "🔵": "blue", "🟨": "yellow", "🟧": "orange", "🟥": "red", "🟩": "green", "🟦": "blue",
	"pola": "pol", "nf": "no filter", "n/f": "no filter",
}

// variation is the selector that makes a sign a picture (Unicode, UTS #51).
const variation = "\uFE0F"

// meantFigures tries what a word with figures may have been meant for, alone and
// with the word before or behind it.
func (l *linter) meantFigures(word string, spans []source.Span, n int) (meant, code string) {
	if upper := strings.ReplaceAll(word, "1", "I"); upper != word && strings.ContainsAny(word, "IVX") {
		if _, zone := romans[strings.ToLower(upper)]; zone {
			return upper, "nearly-a-term" // 1II
		}
	}
	for k, c := range candidates(word) {
		if c == word || !l.reads(c) && (n == 0 || !l.reads(spans[n-1].Text()+" "+c)) && (n+1 == len(spans) || !l.reads(c+" "+spans[n+1].Text())) {
			continue
		}
		if c[0] == 't' && l.field&(onFilm|onRule) == 0 {
			continue // t^1.3 is a film's
		}
		if _, zone, _ := strings.Cut(word, "/"); k == 0 && strings.Trim(zone, "IVX") != "" || k == 0 && zone == "" { // 8/III is no 8/111
			return c, "letter-for-figure"
		}
		return c, "nearly-a-term"
	}
	return "", ""
}

// needsValue are the words of terms that are ordinary words without a value.
var needsValue = map[string]bool{
	"rise": true, "fall": true, "shift": true, "tilt": true, "swing": true, "front": true, "rear": true, "draw": true, "ext": true, "mag": true,
	"lens": true, "film": true, "light": true, "scene": true, "camera": true, "zone": true, "scale": true, "focus": true, "first": true,
	"second": true, "third": true, "fourth": true, "last": true, "batch": true, "tray": true, "back": true, "over": true, "with": true,
	"read": true, "reads": true, "meter": true, "wide": true, "about": true, "bare": true, "none": true, "hold": true, "fell": true,
	"falls": true, "bulb": true, "ei": true, "iso": true, "mm": true, "deep": true, "dark": true, "pale": true, "stops": true, "factor": true, "filter": true, "filters": true,
	"curve": true, "sensitivity": true, "gave": true, "life": true, "patch": true, "sans": true,
}

// takesValue are the words that have a value behind them, though they can also
// stand alone.
var takesValue = map[string]bool{
	"metered": true, "incident": true, "average": true, "averaged": true, "gave": true, "given": true, "bracket": true, "bracketed": true,
	"extension": true, "bellows": true, "focused": true, "magnification": true, "circle": true, "flange": true, "clicks": true,
	"shutter": true, "tested": true, "reciprocity": true, "tungsten": true, "daylight": true, "notch": true, "reading": true, "measured": true,
}

// valueFollows reports whether a number stands right behind the ith term.
func (l *linter) valueFollows(i int) bool {
	if i+1 >= len(l.st.terms) {
		return false
	}
	switch l.st.terms[i+1].Kind.(type) {
	case *Bare, *Millimetres, *Densitometer, *Amount:
		return true
	}
	return false
}

// reads reports whether a text is one whole term of the line.
func (l *linter) reads(text string) bool {
	s := scanFolded(text, l.field, l.names)
	if len(s.tokens) != 1 {
		return false
	}
	switch s.tokens[0].Type {
	case tWord, tNumber, tComma, tRemark, tAt, tTo, tFilter, lexer.EOF:
		return false
	}
	return true
}

// asFigures writes the figures that letters were typed for.
var asFigures = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1", "|", "1", "i", "1").Replace

// candidates are what a word with figures may have been meant for: without
// signs that do not belong there, with a fraction's stroke, with its unit put
// right.
func candidates(word string) []string {
	trimmed := strings.Trim(word, ".'`*_-!:{}[]<>^|")
	all := append(make([]string, 0, 12), asFigures(word), doubled(word))
	if trimmed != word {
		all = append(all, trimmed)
	}
	low := lower(word)
	if f := strings.TrimLeft(low, "f-=_'/.;"); low[0] == 'f' && f != "" && isDigit(f[0]) {
		all = append(all, "f"+f)
		if mark, _, more := strings.Cut(f, "/"); more { // f8/III
			all = append(all, "f"+mark)
		}
	}
	if power := strings.TrimLeft(low, "t*x=_'"); low[0] == 't' && strings.Contains(power, ".") && isDigit(power[0]) { // t1.3
		all = append(all, "t^"+power)
	}
	if last := len(low) - 1; low[last] == 'f' {
		all = append(all, "f"+low[:last])
	}
	end := 0
	for end < len(low) && (isDigit(low[end]) || strings.IndexByte("./+,", low[end]) >= 0) {
		end++
	}
	if tail := low[end:]; end > 0 && len(tail) > 0 && len(tail) < 8 && (len(tail) > 1 || strings.Contains("dwze", tail)) {
		for _, unit := range [...]string{"s", "sec", "secs", "min", "mm", "cm", "stops", "stop", "inches"} {
			if distance(tail, unit) == 1 {
				all = append(all, low[:end]+unit)
			}
		}
	}
	return all
}

// doubled takes out what was typed twice, or with the wrong stroke.
var doubled = strings.NewReplacer("\\", "/", "//", "/", "..", ".", "--", "-", "++", "+", "-+", "-", "+-", "+").Replace

// report adds the diagnostic for a slip.
func (l *linter) report(code string, at source.Span, meant string) {
	d := diag.Diagnostic{Code: code, Severity: diag.Lookup(code).Severity, Span: at}
	switch code {
	case "letter-for-figure":
		d.Message = fmt.Sprintf("%q has a letter where a figure belongs", at.Text())
		d.Fix = &diag.Fix{Span: at, Text: meant}
	default:
		d.Message = fmt.Sprintf("%q is no term, but nearly one", at.Text())
		d.Notes = []diag.Aside{{Text: fmt.Sprintf("%s is near; as it stands it is kept as a remark", meant)}}
	}
	l.list = append(l.list, d)
}

// bare is a number without a unit, unless the word before it was the slip.
func (l *linter) bare(t Term, k *Bare, i int) {
	if n := len(l.terms); n > 0 && l.terms[n-1].Unread {
		t.Unread = true
		l.terms = append(l.terms, t)
		return
	}
	if l.st.Word == Tolerance && k.Value > 0 && k.Value <= 3 { // in stops, as nothing else
		t.Kind = &Amount{Stops: &k.Value}
		l.terms = append(l.terms, t)
		return
	}
	d := diag.Diagnostic{
		Code: "bare-number", Severity: diag.Error, Span: t.Span, Message: fmt.Sprintf("%s has no unit", t.Span.Text()),
		Notes: []diag.Aside{{Text: l.units(k.Value.text(), i)}},
	}
	if v := float64(k.Value); math.IsNaN(v) || math.IsInf(v, 0) {
		d.Code, d.Message, d.Notes = "impossible-number", fmt.Sprintf("%q cannot be a number", t.Span.Text()), nil
	}
	t.Unread = true
	l.terms, l.list = append(l.terms, t), append(l.list, d)
}

// sheetsBehind reports whether a number on a line that names no sheets may be one of theirs: nothing that tells how they were
// developed stands before it.
func (l *linter) sheetsBehind(i int) bool {
	return len(l.st.Labels) == 0 && !slices.ContainsFunc(l.st.terms[:i], func(t Term) bool {
		switch t.Kind.(type) {
		case *Bare, *Loose, *Comma:
			return false
		}
		return true
	})
}

// dottedClock is an hour as some write it: 16.20.
func dottedClock(n string) (clock string, ok bool) {
	hour, minute, _ := strings.Cut(n, ".")
	if len(minute) != 2 || minute > "59" || len(hour) > 2 || number(hour) > 23 {
		return "", false
	}
	return hour + ":" + minute, true
}

// The light values between which people photograph, in whole numbers (ISO 2720 has a wider
// range; common practice, no source).
const (
	darkest   = -6
	brightest = 17
)

// settled reports whether the line has an aperture and a time already: a number more is none
// of the two.
func (l *linter) settled() bool {
	aperture, time := false, false
	for i := range l.st.terms {
		if k, ok := l.st.terms[i].Kind.(*Exposure); ok && k.EV == nil && !l.st.terms[i].Struck {
			av, tv := k.Gives()
			aperture, time = aperture || av, time || tv
		}
	}
	return aperture && time
}

// units says how the number would be written as what it may be.
func (l *linter) units(n string, i int) string {
	if at := l.st.terms[i].Span; at.Start > 1 && at.File.Text[at.Start-1] == ',' && isDigit(at.File.Text[at.Start-2]) && l.field&(onSheet|onMeter) != 0 {
		return fmt.Sprintf("a comma stands before it: in one number a point stands there, as in 5.6; of two each has its sign or unit, f8, %ss", n)
	}
	if mark, part, ok := strings.Cut(l.st.terms[i].Span.Text(), "-"); ok && mark != "" && l.field&onSheet != 0 && number(part) > 0 {
		return "an aperture between two stops is written f" + mark + cmp.Or(fractionSign(number(part)), part)
	}
	if mark, part, ok := strings.Cut(l.st.terms[i].Span.Text(), " "); ok && l.field&(onSheet|onMeter) != 0 && strings.Contains(part, "/") {
		return "an aperture and a time are written f" + mark + " " + strings.TrimSpace(part)
	}
	if i > 0 && l.field&(onSheet|onMeter) != 0 {
		if placed, ok := l.st.terms[i-1].Kind.(*Placed); ok {
			return "a light value on its zone is written EV " + n + " on " + spellZone(placed.Zone)
		}
	}
	if i > 0 && l.field&onSheet != 0 {
		if loose, ok := l.st.terms[i-1].Kind.(*Loose); ok {
			switch word := lower(strings.TrimRight(loose.Words[len(loose.Words)-1], ".:=")); {
			case ofRail[word] && len(n) >= 2:
				return "how far the bellows were out is written ext " + n + "mm"
			case Pushes(word):
				return "a longer development is written N+" + n + ", a shorter one N-" + n
			}
		}
	}
	if v := number(n); l.field&onSheet != 0 && l.settled() && v >= darkest && v <= brightest && v == math.Trunc(v) {
		return "a light value is written EV " + n
	}
	if l.field&onSheet != 0 && strings.Contains(l.st.terms[i].Span.Text(), "/") {
		return "what is no setting stands behind --" // 20/12
	}
	if clock, ok := dottedClock(l.st.terms[i].Span.Text()); ok && l.field&onSheet != 0 && number(n) >= 1 {
		if number(n) >= 10 {
			return "the hour is written at " + clock // no aperture and no time is so exact
		}
		return fmt.Sprintf("the hour is written at %s, %s", clock, asSetting(n))
	}
	if l.field&onSheet != 0 {
		switch word := l.names.Names[n]; word {
		case FilterWord:
			return fmt.Sprintf("the filter %s is written #%s", n, n)
		case Lens, Film, Camera:
			return fmt.Sprintf("the %s %s is written %s %s", word, n, word, n)
		}
	}
	if i > 0 {
		switch l.st.terms[i-1].Kind.(type) {
		case *Stack:
			if l.field&onSheet != 0 && number(n) >= 4 {
				return fmt.Sprintf("an aperture is written f%s, a time %ss, what a filter costs x%s", n, n, n)
			}
			return fmt.Sprintf("what a filter costs is written %s stops or x%s", n, n)
		case *Exposure, *N:
			if l.field&onSheet != 0 && strings.Contains(n, ".") {
				return asSetting(n) + ", stops " + n + " stops"
			}
		}
	}
	switch l.st.Word {
	case Lens, Camera:
		return fmt.Sprintf("a length is written %s mm, an aperture f%s", n, n)
	case Film:
		return fmt.Sprintf("a speed is written ISO %s or EI %s, a developing time %sm", n, n, n)
	case FilterWord:
		return fmt.Sprintf("what a filter costs is written x%s or %s stops", n, n)
	case Develop:
		if l.sheetsBehind(i) {
			return fmt.Sprintf("the sheets stand before the colon: develop %s: N; a developing time is written %sm, a temperature %sC", n, n, n)
		}
		return fmt.Sprintf("a developing time is written %sm, a temperature %sC", n, n)
	case Density:
		return fmt.Sprintf("a density has a decimal point: 0.%s", strings.TrimLeft(strings.ReplaceAll(n, ".", ""), "0"))
	case Patch:
		return "a place on the picture is written 0.30,0.12, a level of a linear scan level " + n
	case Tolerance:
		return fmt.Sprintf("a tolerance is written in stops: %s stop", n)
	case ShutterWord:
		return fmt.Sprintf("what a shutter does is written in milliseconds: %s ms", n)
	}
	if strings.Contains(n, "Inf") || strings.Contains(n, "NaN") {
		return "a time is written 1/60 or 2s"
	}
	switch n {
	case "16", "22", "32", "45", "64", "90", "128": // marks of apertures that are not said as times without 1/
		return fmt.Sprintf("an aperture is written f%s, a time 1/%s or %ss", n, n, n)
	}
	if v := number(n); v >= 15 && v == float64(int(v)) {
		return fmt.Sprintf("a time is written 1/%s or %ss", n, n)
	}
	return asSetting(n)
}

// ofRail are words before a length that the bellows may have been out to (common practice, no source).
var ofRail = SetOf("scale rail bed e ausz t ext b bal bell draw")

// OnRail is the length that a text says the bellows were out to, as it is read off a rail, where it says no more, and how
// that is written, "" for none: scale 300, e300, bell.17in. It has three figures or its unit.
func OnRail(text string) (ext string) {
	const longest = 20
	if len(text) > longest || strings.IndexAny(text, "0123456789") < 1 {
		return ""
	}
	m := onRail().FindStringSubmatch(lower(strings.TrimSpace(text)))
	switch {
	case m == nil || !ofRail[m[1]]:
		return ""
	case isDigit(m[2][len(m[2])-1]):
		return "ext " + m[2] + "mm"
	}
	return "ext " + m[2]
}

var onRail = pattern.Lazily(`^([a-z]+)[.:=]? ?([1-9][0-9]{2}(?: ?mm)?|[0-9]{1,3}(?:[.,][0-9]+)? ?(?:mm|cm|ins?|inch(?:es)?|"))$`)

// Pushes reports whether a word says that a film was developed longer or shorter than it should be (common practice, no
// source).
func Pushes(word string) bool { return pushing[lower(word)] }

var pushing = SetOf("push pushed pushing pull pulled pulling gepusht gepullt gepuscht poussé poussée retenu retenue")

// asSetting is how a number is written as an aperture, where there is one of it, and as a time.
func asSetting(n string) string {
	if ofLens(n) {
		return fmt.Sprintf("an aperture is written f%s, a time %ss", n, n)
	}
	return "a time is written " + n + "s"
}

// ofLens reports whether a number is as apertures are marked: from f1 on, with one decimal at most.
func ofLens(n string) bool {
	_, part, _ := strings.Cut(n, ".")
	return number(n) >= 1 && len(part) <= 1
}

// closing is the sign with which a remark should end that does not, so that the rest of its line is
// in it; "" where it does.
func (t *Term) closing() string {
	text := source.Fold(t.Span.Text()).Text
	closes := map[string]string{"(": ")", `"`: `"`}[text[:min(1, len(text))]]
	if len(text) > 1 && strings.HasSuffix(text, closes) {
		return ""
	}
	return closes
}

// Unclosed reports whether a remark opens with a sign that does not close on its line.
func (t *Term) Unclosed() bool { return t.closing() != "" }

// remark is left alone, unless it begins in a bracket or quotation mark that
// never closes and swallows settings.
func (l *linter) remark(t Term) {
	l.terms = append(l.terms, t)
	closes := t.closing()
	if closes == "" || scanFolded(source.Fold(t.Span.Text()).Text[1:], l.field, l.names).settings() == 0 {
		return
	}
	_, width := utf8.DecodeRuneInString(t.Span.Text())
	l.list = append(l.list, diag.Diagnostic{
		Code: "unclosed-remark", Severity: diag.Warning, Span: t.Span.Sub(0, width),
		Message: "a remark opens here and does not close on this line",
		Notes:   []diag.Aside{{Text: fmt.Sprintf("all that follows is read as the remark; close it with %s", closes)}},
	})
}

// unclosed reports a ~~ without its twin.
func unclosed(s *Statement) diag.List {
	body := s.Body.Text()
	if strings.Count(body, "~~")%2 == 0 {
		return nil
	}
	at := strings.LastIndex(body, "~~")
	return diag.List{{
		Code: "unclosed-strike", Severity: diag.Warning, Span: s.Body.Sub(at, at+2),
		Message: "~~ opens here and does not close on this line", Notes: []diag.Aside{{Text: "all that follows is read as struck; close it with ~~"}},
	}}
}
