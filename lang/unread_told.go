package lang

import (
	"fmt"
	"strings"

	"notchbook/lang/diag"
	"notchbook/lang/pattern"
)

// Sheets that are told without a head: in a sentence, in columns, or as settings alone.

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

// ofPrints is of the enlarger, whose lens has apertures and times of its own.
var ofPrints = pattern.Lazily(`\b(?:printed|printing|enlarg\w+|grade [0-9])\b`)

// tellsBriefly reports whether a line tells so among few words, as no story does.
func (s *scanner) tellsBriefly() bool {
	const few = 10 // words
	return s.tells() && s.count(tWord) <= few
}

// headless is a line that holds an aperture and a time, and next to no words,
// behind something that is no label: "A2: f16 1/4", "2A) f16 1/4".
func (l *doubtful) headless() (diag.Diagnostic, bool) {
	if !l.mayHaveAperture() || ofPrints().MatchString(l.low) {
		return diag.Diagnostic{}, false
	}
	s := l.bench.scan(l.text, 0, onSheet, l.names)
	times := s.count(tTime)
	for _, t := range s.tokens {
		if _, clock := clockAt(s.low, t.Pos.Offset); t.Type == tTime && clock != "" {
			times-- // 14:20 left at f8
		}
	}
	words := 4
	if l.speaksOfHolder() && s.tells() {
		words = 12
	}
	if s.count(tAperture) == 0 || times <= 0 || s.count(tRemark) > 1 || s.count(tWord, tNo, tNot, tTo, tAt) > words && !l.columned() {
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
	if word := l.low[:letterRun(l.text, 0)]; word == "metered" || word == "metering" || word == "reading" || nearest(word, nil) == "meter" {
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

// settingAlone is an aperture or a shutter's time behind its own word and a colon, as a form has
// them: Aperture: 16, Shutter: 1/30.
func (l *doubtful) settingAlone() (diag.Diagnostic, bool) {
	if !settingOfForm().MatchString(l.low) {
		return diag.Diagnostic{}, false
	}
	l.many = "are settings on lines of their own and are not read"
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this is a setting on a line of its own and is not read",
		Notes:   []diag.Aside{{Text: "all that is said of a sheet stands on one line, with its label and a colon before it: 3A: Y8, 1/30 f16"}},
	}, true
}

// settingOfForm is such a line, and nothing more on it than a word or two.
var settingOfForm = pattern.Lazily(`^(?:[-*+] )?\**(?:(?:aperture|f-?stop|f-?number|blende|diaphragm)\**[ \t]*[:=]\**[ \t]*f?/?[0-9]|(?:shutter(?: speed)?|exposure(?: time)?|time|speed|zeit|belichtung)\**[ \t]*[:=]\**[ \t]*(?:1/[0-9]|[0-9]+(?:[.,][0-9]+)? ?(?:s|secs?|seconds?)\b))[^ ]*(?: [^ ]+){0,2}[ \t]*$`)

// listed is a line of a list of sheets: a number of a series, a side, or a figure of a
// column, and behind it a shutter speed or whole seconds. One alone is prose.
func (l *doubtful) listed() (diag.Diagnostic, bool) {
	label, end, ok := l.row()
	colon := label != "" && at(l.text, end-1) == ':'
	number := colon && numbersAlone(label)
	first, count, ranged := cutDash(label)
	year := ranged && ofYear(first, count)
	if !ok && !number && !year && (label == "" || !sided(label)) {
		return l.numbered()
	}
	dashless := strings.ReplaceAll(l.text, "--", "  ") // in columns nothing stands there, and no remark begins
	s := l.bench.scan(dashless, end, onSheet, l.names)
	if l.ofSeries(label, end) && (s.count(tTime, tAperture, tEV, tZone, tN, tFactor, tStops, tFilter) > 1 || settingLike().MatchString(l.low[end:]) && !(number && partOfThing().MatchString(l.low[end:]))) {
		return diag.Diagnostic{
			Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
			Message: "this goes on with the numbers above and is not read",
			Notes:   []diag.Aside{{Text: "a sheet's line has a colon behind its label, an f before the aperture, and words behind a dash: " + l.ownLabel() + ": f16 1/30 -- the old mill"}},
		}, true
	}
	told := ((number || ok && year) && s.tellsBriefly() || colon && year && (s.settings() > 0 || settingLike().MatchString(l.low[end:]))) && !ofPrints().MatchString(l.low)
	if !s.timed() && !told {
		return l.numbered()
	}
	holds := "a time"
	if l.company, l.many = !told, "begin as sheets do, hold times and are not read"; !s.timed() {
		holds = "a setting"
	}
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line begins as a sheet does, holds " + holds + " and is not read",
		Notes:   []diag.Aside{{Text: "a sheet's line has a colon behind its label, and an f before the aperture: " + l.ownLabel() + ": 1/30 f16"}},
	}, true
}

// numbered is a line of few words with a light value and a setting, or with both settings, behind words and a number
// with a colon that are no sheet's label: Bild 3: EV 10, 1/4; 84/103: EV 10, f16.
func (l *doubtful) numbered() (diag.Diagnostic, bool) {
	head := numberedHead().FindString(l.text)
	if head == "" || ofPrints().MatchString(l.low) || !l.bench.scan(l.text, len(head), onSheet, l.names).tellsBriefly() {
		return diag.Diagnostic{}, false
	}
	l.many = "begin with a number, have settings and are not read"
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Error, Span: l.at(0, len(l.text)),
		Message: "this line begins with a number, has settings and is not read",
		Notes:   []diag.Aside{{Text: "a sheet's line begins with its label and a colon, a side of a holder, a number or a year and a number: 3A: 1/30 f16, 84-103: 1/30 f16"}},
	}, true
}

// plateAlone is a plate's word, its number and a colon, and behind them no setting that makes a sheet's line of it:
// Platte 1: vergessen. Of one that is logged it is what is said of it.
func (l *doubtful) plateAlone() (diag.Diagnostic, bool) {
	from := l.begins()
	colon := colonIn(l.text[from:])
	if colon < 0 || !callsPlate(l.text[from:]) {
		return diag.Diagnostic{}, false
	}
	list, all := splitLabels(l.text[from:from+colon], from, Sheet, l.names)
	if !all || ofPrints().MatchString(l.low) {
		return diag.Diagnostic{}, false
	}
	l.hangs = true
	for _, label := range list.all {
		if low := lower(label.text); l.logged(low) || l.logged(low+"a") || l.logged(low+"b") {
			return diag.Diagnostic{}, false
		}
	}
	l.many = "begin as sheets do and are not read"
	label := list.all[0].text
	return diag.Diagnostic{
		Code: "unknown-label", Severity: diag.Warning, Span: l.at(0, len(l.text)),
		Message: fmt.Sprintf("this line begins as that of %s and is not read", label),
		Notes:   []diag.Aside{{Text: fmt.Sprintf("a sheet's line has its settings behind the colon, or says that they were not written down: sheet %s: no record", label)}},
	}, true
}

// numberedHead is such a beginning.
var numberedHead = pattern.Lazily(`^[-*+"• ]*(?:[\pL0-9°№]+[.,]?[ -]?){0,3}[0-9]{1,4}(?:[-/.][0-9]{1,4})?[a-zA-Z]?"?[ \t]?:[", \t]`)

// settingLike is what looks like a part of a second or an f-number.
var settingLike = pattern.Lazily(`\b1/[0-9]|\bff?[-/. ]?[0-9]`)

// partOfThing is a part of a thing that is bought, cooked or walked, in a list by numbers.
var partOfThing = pattern.Lazily(`\b[1-3]/[2-8] (?:of|an?|the way|cups?|lbs?|pounds?|oz|ounces?|tsp|tbsp|teaspoons?|pints?|quarts?|gallons?|kg|kilos?|g|ml|litres?|liters?|hours?|days?|miles?|km|inch(?:es)?|price|full|empty|done)\b`)

// ofSeries reports whether a line begins with a number of a series that sheets were logged
// under, or a number alone where such are, and a colon.
func (l *doubtful) ofSeries(label string, end int) bool {
	series, ok := seriesOf(label)
	if label != "" && numbersAlone(label) {
		series, ok = numbers, true
	}
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
	words := strings.Fields(l.low)
	switch {
	case len(words) < 3:
		return false
	case words[0] == "holder" || words[0] == "side" || words[0] == "slide" || words[0] == "sheet" || callsPlate(words[0]):
		return strings.ContainsAny(words[1], "0123456789") || len(words[1]) == 1
	}
	return false
}

// mayHaveAperture reports whether the line has what an aperture needs, at a glance: most prose
// has not.
func (l *doubtful) mayHaveAperture() bool {
	low := l.low
	if strings.IndexByte(low, '@') >= 0 || len(l.names.Calls) > 0 {
		return true
	}
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
