package compile

import (
	"slices"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The part of resolve that sees a day begin without its word: a heading or a line of prose
// that begins with a whole date, and sheets below it.

// undated is such a line, above which the notes are of another day or of none.
type undated struct {
	at      source.Span // the date
	whole   source.Span // the line
	lead    int         // bytes of it before the date that a day line is without: Datum:, am
	inWords bool        // it is a day in words, which has no date
	fix     bool        // it stands by itself and is no sentence: "day: " before it makes a day line of it
}

// mostOfDay is how many words stand behind the date on a line that is a day's and no
// story's.
const mostOfDay = 10

// beginsDay looks for a date at the beginning of a heading or of a line of prose. The
// reading ends with it, as with a day.
func (r *resolver) beginsDay(n ast.Node) {
	var heading bool
	switch n := n.(type) {
	case *ast.Heading:
		heading = true
	case *ast.Paragraph, *ast.TextBlock:
	case *ast.List: // 16. Mai 1957, 6. 5. 57
		if item := n.FirstChild(); n.IsOrdered() && item.FirstChild() != nil {
			r.beginsDay(item.FirstChild())
		}
		return
	default:
		return
	}
	mark := r.book.File.Mark()
	for i := range n.Lines().Len() {
		segment := n.Lines().At(i)
		line := source.Span{File: r.book.File, Start: segment.Start + mark, End: segment.Stop + mark}
		ordinal := i == 0 && withOrdinal(n, &line)
		text := line.Text()
		start := len(text) - len(strings.TrimLeftFunc(text, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) }))
		end := len(strings.TrimRight(text, " \t\r\n"))
		if start >= end {
			continue
		}
		whole := line.Sub(start, end)
		if r.anotherDay(whole, heading) || !strings.ContainsAny(text, "0123456789") {
			continue
		}
		lead := len(leadsToDate().FindString(whole.Text()))
		line = whole.Sub(lead, whole.End-whole.Start)
		if !mayBeDate(line.Text()) {
			continue
		}
		iso, length, ambiguous := dateIn(r.book, line.Text())
		yearless := false
		if length == 0 {
			length = withoutYear(line.Text(), heading || n.Lines().Len() == 1)
			yearless = length > 0
		}
		words := 0
		if length > 0 {
			words = len(strings.Fields(line.Text()[length:]))
		}
		if length == 0 || iso == "" && !ambiguous && !yearless || yearless && words > mostOfDay/2 || i > 0 && words > mostOfDay {
			continue
		}
		if l := r.book.Lines[placeOf(whole).Line-1]; l.Kind == lang.Unread && l.Meant == lang.Day {
			continue // reported as a day line that is none
		}
		before := ""
		if i > 0 {
			last := n.Lines().At(i - 1)
			before = string(last.Value(r.book.File.Text[mark:]))
		}
		goesOn := len(strings.Fields(before)) > mostOfDay/2 || leadsSentence().MatchString(whole.Text()[:lead])
		story := !heading && isStory(line.Text()[length:], goesOn || n.Lines().Len() > 1 && words > mostOfDay/2)
		if lead > 0 && (story || words > mostOfDay/2) || ordinal && (story || yearless && (words > 0 || n.Parent().Parent().ChildCount() > 1)) {
			continue // On 3 May we were here again; 1. May be better
		}
		date := line.Sub(0, length)
		if o := r.outing; yearless && o != nil && len(o.iso) > 4 {
			iso, _, _ = dateIn(r.book, withYear(date.Text(), o.iso[:4]))
		}
		if o := r.outing; o != nil && o.date != "" && (o.iso == iso && iso != "" || strings.EqualFold(o.date, date.Text())) {
			r.undated = nil
			continue
		}
		_, listed := n.Parent().(*ast.ListItem)
		listed = listed && !ordinal
		fix := !yearless && !story && !heading && !strings.ContainsAny(whole.Text()[:lead], "0123456789") && !listed && start == 0 && n.Lines().Len() == 1 && words <= mostOfDay && !strings.HasSuffix(line.Text(), ".")
		r.undated = &undated{at: date, whole: whole, lead: lead, fix: fix}
		if !story {
			r.mayEndDay(placeOf(whole).Line)
		}
	}
}

// anotherDay looks for a day in words at the beginning of a line, the next or one of the week that the day above is
// not, and reports whether there is one.
func (r *resolver) anotherDay(whole source.Span, heading bool) bool {
	o, text := r.outing, whole.Text()
	if o == nil || !r.dayed {
		return false
	}
	length := len(dayInWords().FindString(text))
	if m := weekdayAlone().FindStringSubmatch(text); length == 0 && m != nil && o.iso != "" && lang.Weekday(m[1]+" ") != "" && !lang.IsOn(o.iso, strings.ToLower(m[1])) && !strings.ContainsAny(text, "0123456789") {
		length = len(m[0])
	}
	if length == 0 {
		return false
	}
	length = strings.LastIndexFunc(text[:length], func(c rune) bool { return unicode.IsLetter(c) || unicode.IsDigit(c) }) + 1
	behind := strings.TrimLeft(text[length:], " *_")
	words, told := len(strings.Fields(behind)), behind == "" || strings.ContainsAny(behind[:1], ".,;:–—-(")
	if words > mostOfDay || !told && !heading && words > mostOfDay/2 {
		return false // The next day I found that the print was too dark.
	}
	r.undated = &undated{at: whole.Sub(0, length), whole: whole, inWords: true}
	if told || heading {
		r.mayEndDay(placeOf(whole).Line)
	}
	return true
}

// Other days in words, in English, German or French (common practice, no source).
var (
	dayInWords = pattern.Lazily(`^(?i:(?:(?:on|in) )?(?:the )?(?:next|following|second|third|fourth|last) (?:day|morning|afternoon)|(?:the )?(?:day|morning) after|(?:a|one|two|three|some|\d) days? later|day (?:two|three|four|[2-9])` +
		`|(?:am|der|den) (?:nächste|folgende|andere|zweite|dritte|vierte|letzte)[nrm]? (?:tage?s?|morgen|vormittag|nachmittag)|(?:ein|zwei|drei|einige|\d) tage? (?:später|darauf|danach)|(?:nächster|folgender|zweiter|dritter|vierter|letzter|anderer) (?:tag|morgen)|tags? (?:darauf|danach)|anderntags|tag (?:zwei|drei|[2-9])` +
		`|(?:le )?(?:sur)?lendemain(?: matin| après-midi)?|(?:le )?(?:deuxième|troisième|dernier) jour|(?:le )?jour (?:suivant|d'après|[2-9])|(?:un|deux|trois|quelques|\d) jours? (?:plus tard|après))(?:[^\pL\pN]|$)`)
	weekdayAlone = pattern.Lazily(`^(\pL{3,})\.?(?: (?i:morning|noon|afternoon|evening|morgen|früh|vormittag|mittag|nachmittag|abend|matin|midi|après-midi|soir))?(?:[:.,]|$)`)
)

// mayEndDay ends the reading at a date that no day line says, and leaves open what else would
// have ended with the day above: what was chosen since it began may be on still.
func (r *resolver) mayEndDay(line int) {
	now := &r.now
	now.reading = nil
	if !r.dayed && (r.outing == nil || onlyWords(r.outing.entries)) {
		r.setDefaults() // a notebook whose days have no word
		return
	}
	r.between = line
	if !slices.Equal(now.filters, r.defaults.filters) {
		now.filters, now.lost.filter = r.defaults.filters, line
	}
	if now.lens != r.defaults.lens {
		now.lens, now.lensSaid, now.lost.lens = r.defaults.lens, r.defaults.lensSaid, line
	}
	if now.film != r.defaults.film {
		now.film, now.rated, now.lost.film = r.defaults.film, r.defaults.rated, line
	}
	if now.light != r.defaults.light {
		now.light, now.former = r.defaults.light, r.lit
	}
	r.ahead = ahead{}
}

// leadsToDate is what may stand before a date, in English, German or French (common practice, no source).
var leadsToDate = pattern.Lazily(`^(?i:(?:(?:date|datum|day|tag|jour)\s*:?|(?:outing|trip)(?:\s+[0-9]{1,3})?\s*[:,]?|on(?: the)?|the|am|den|der|vom|du|le)\s+)+`)

// withOrdinal takes the day into a line that Markdown reads as the item of a numbered list: 16. Mai
// 1957. It reports whether it did.
func withOrdinal(n ast.Node, line *source.Span) bool {
	if item, ok := n.Parent().(*ast.ListItem); !ok || item.FirstChild() != n {
		return false
	}
	text := line.File.Text
	start := line.Start
	for start > 0 && text[start-1] != '\n' && text[start-1] != '\r' {
		start--
	}
	if !ordinalOfDay().MatchString(string(text[start:line.Start])) {
		return false
	}
	line.Start = start
	return true
}

var ordinalOfDay = pattern.Lazily(`^[ \t]*(?:[0-9]{1,2}\.[ \t]+){1,2}$`)

// mayBeDate is a quick look whether a text can begin with a date, with a year or without:
// no more stands before its first figure than a day of the week and a month.
func mayBeDate(text string) bool {
	words := 0
	for word := range strings.FieldsSeq(text) {
		if word[0] >= '0' && word[0] <= '9' {
			return true
		}
		if words++; words > 2 {
			return false
		}
	}
	return false
}

// withoutYear is the length of a day and month at the beginning of a line, 0 where there is none:
// 4 May, Sat 4 May, May 4th, 12.4., Sat 15/6, and 15/6 on a line by itself.
func withoutYear(line string, alone bool) int {
	if _, end := lang.DayOfYear(line); end > 0 && (end >= len(line) || strings.IndexByte(".,;: ", line[end]) >= 0) {
		return len(strings.TrimRight(line[:min(end+1, len(line))], " "))
	}
	said := lang.WeekdayEnd(line)
	m := figuresOfDay().FindStringSubmatch(line[said:])
	if m == nil || !alone && said == 0 {
		return 0
	}
	const leap = "2024" // has every day
	if iso, _, ambiguous := lang.DateOf(withYear(m[1], leap)); iso == "" && !ambiguous {
		return 0 // 1/60 was too long
	}
	next, _, _ := strings.Cut(strings.TrimLeft(line[said+len(m[1]):], ",;: "), " ")
	if said == 0 && (figuresOfPart[plain(next)] || apertureNext().MatchString(next)) {
		return 0 // 1/2 of the film is left
	}
	return said + len(m[1])
}

// withYear is a day and month with a year behind them.
func withYear(day, year string) string {
	switch last := day[len(day)-1]; {
	case last == '.':
		return day + year
	case last >= '0' && last <= '9' && strings.Contains(day, "/"):
		return day + "/" + year
	}
	return day + " " + year
}

var (
	figuresOfDay  = pattern.Lazily(`^(\d{1,2}\.\s?\d{1,2}\.|\d{1,2}/\d{1,2})(?:$|[,;:]?\s+(?:[^\s0-9]|$)|[,;:]$)`)
	figuresOfPart = lang.SetOf("of a an the stop stops second seconds sec s left full over under more less hour hours")
	apertureNext  = pattern.Lazily(`^[fF]/?[0-9]`)
)

// isStory reports whether what stands behind a date reads as a sentence about it, or as
// another thing that begins with figures: a verb or a small word follows. A place may be in
// small letters too, mill again, but not at the end of a sentence nor where more of one stands
// around it.
func isStory(behind string, amid bool) bool {
	behind = strings.TrimSpace(behind)
	next, more, _ := strings.Cut(behind, " ")
	if next == "" || strings.ContainsAny(next[:1], ",;:-–—.(") {
		return false
	}
	if next == "I" || next[0] >= '0' && next[0] <= '9' {
		return true
	}
	if next[0] >= 'a' && next[0] <= 'z' {
		return amid || verbsOfStory[plain(next)] || leadsStory[plain(next)] || strings.HasSuffix(behind, ".") || strings.HasSuffix(behind, "!") || len(strings.Fields(behind)) > mostOfDay
	}
	verb, _, _ := strings.Cut(more, " ")
	return verbsOfStory[verb] // 3 May 2025 Tom was born near here
}

// Words behind a date that make a sentence of it, in English, German or French; the verbs also behind a
// name (common practice, no source).
var (
	verbsOfStory = lang.SetOf("was is were had has went came said made took")
	leadsStory   = lang.SetOf("are have will saw found left we i it they he she you there when because that which " +
		"war waren ist sind hatte hatten ging kam wir ich es était étaient nous je il elle")
	leadsSentence = pattern.Lazily(`^(?i:on|the|am|den|der|vom|du|le)\b`)
)

// sheetsOfNoDay reports the date above a sheet's line that no day line says. What is
// logged from there on may be of another day than what stands above, and no side is held
// to have been exposed twice across it.
func (r *resolver) sheetsOfNoDay() {
	u := r.undated
	if u == nil {
		return
	}
	r.undated = nil
	r.stretch++
	f := r.report("date-without-day", u.at, "the sheets below do not count to "+u.at.Text()+": no day: stands before it")
	if o := r.outing; o != nil && o.date != "" {
		f.note("as it stands they count to "+o.date, o.at)
	} else {
		f.note("as it stands they count to no day")
	}
	if u.inWords {
		f.note("a day begins with a line of its own and has its date: day: 2026-05-04, the place")
		return
	}
	if iso, length, _ := dateIn(r.book, u.at.Text()); iso == "" && length == 0 {
		f.note(r.yearMissing(u))
		return
	}
	if u.fix {
		f.Fix = &diag.Fix{Span: u.whole.Sub(0, u.lead), Text: string(lang.Day) + ": "}
		return
	}
	line := u.whole.Text()[u.lead:]
	if len(strings.Fields(line)) > 2*mostOfDay {
		line = u.at.Text() + ", …"
	}
	f.note("a day begins with a line of its own: day: " + line)
}

// yearMissing is how to write a day whose year is missing, with that of the last day.
func (r *resolver) yearMissing(u *undated) string {
	if r.outing == nil || len(r.outing.iso) <= 4 {
		return "a day begins with a line of its own and has its year: day: 2026-05-04, the place"
	}
	year := r.outing.iso[:4]
	day := withYear(strings.TrimRight(u.at.Text(), " ,;:"), year)
	if iso, _, _ := dateIn(r.book, day); iso != "" {
		day = iso
	}
	place := strings.Trim(u.whole.Text()[u.at.End-u.whole.Start:], " \t.,;:–—-*_#")
	if len(strings.Fields(place)) > mostOfDay {
		place = "…"
	}
	if place != "" {
		day += ", " + place
	}
	return "the year is missing; if it was " + year + ": day: " + day
}
