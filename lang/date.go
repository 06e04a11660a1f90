package lang

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"notchbook/lang/pattern"
)

// Dates as people write them: of a day, and before the labels of that day's sheets. The
// typed text stays what it is; the date that it stands for is computed only where it
// can be read in one way.

var (
	bigEndian = pattern.Lazily(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\b`)
	dotted    = pattern.Lazily(`^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})\b`)
	slashed   = pattern.Lazily(`^(\d{1,2})[/-](\d{1,2})[/-]['’]?(\d{4}|\d{2})\b`)
	dayFirst  = pattern.Lazily(`^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s./-]{1,3}(?:of )?(\pL{1,10})[\s.,/-]{1,3}['’]?(\d{4}\b|\d{2}(?:$|,))`)
	nameFirst = pattern.Lazily(`^(\pL{3,10})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})\b`)
	weekday   = pattern.Lazily(`^(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|sonnabend|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche)\.?,?\s+(?:(?:den|the|le)\s+)?`)
	inShort   = pattern.Lazily(`^(?:mo|di|mi|do|fr|sa|so|lun|mer|jeu|ven|sam|dim)\.?,?\s+\d`)

	beforeDate = pattern.Lazily(`^(?i:on(?: the)?|the|am|den|der|vom|du|le)\s+`)
	dottedDay  = pattern.Lazily(`^(\d{1,2})\.\s?(\d{1,2})\.(?:[\s,;]|$)`)

	yearApart = pattern.Lazily(`^(\d{1,2}([/.-])\d{1,2}) ['’]?(?:\d{4}\b|\d{2}(?:$|[,;:?]|\s*[(\[]))`)

	// Without a year, and with one of two figures that more follows.
	dayOfMonth = pattern.Lazily(`^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s./-]{1,3}(?:of )?(\pL{3,10})\b`)
	monthDay   = pattern.Lazily(`^(\pL{3,10})\.?\s+(\d{1,2})(?:st|nd|rd|th)?\b`)
	shortYear  = pattern.Lazily(`^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s./-]{1,3}(\pL{3,10})[\s.,/-]{1,3}['’]?(\d{2})\b`)
)

// DateOf reads a whole date at the beginning of a text: its form YYYY-MM-DD and
// how much of the text it is. Of 3/5/2026 nobody can say which is the month, unless the
// day of the week stands before it.
func DateOf(text string) (iso string, length int, ambiguous bool) {
	if lead := article(text); lead > 0 {
		if iso, length, ambiguous = DateOf(text[lead:]); length > 0 {
			length += lead
		}
		return iso, length, ambiguous
	}
	day, low := cutWeekday(text)
	skipped := len(day)
	if m := bigEndian().FindStringSubmatch(low); m != nil {
		return calendar(m[1], m[2], m[3]), skipped + len(m[0]), false
	}
	if m := dotted().FindStringSubmatch(low); m != nil {
		return calendar(century(m[3]), m[2], m[1]), skipped + len(m[0]), false
	}
	if m := dayFirst().FindStringSubmatch(low); m != nil {
		return calendar(century(m[3]), monthOf(m[2]), m[1]), skipped + len(strings.TrimRight(m[0], ",")), false
	}
	if m := nameFirst().FindStringSubmatch(low); m != nil {
		return calendar(m[3], monthOf(m[1]), m[2]), skipped + len(m[0]), false
	}
	if m := slashed().FindStringSubmatch(low); m != nil {
		asDay, asMonth := bothWays(m)
		length = skipped + len(m[0])
		switch said := strings.ToLower(text[:skipped]); {
		case asDay == asMonth, asMonth == "":
			return asDay, length, false
		case asDay == "", said != "" && IsOn(asMonth, said) && !IsOn(asDay, said):
			return asMonth, length, false
		case said != "" && IsOn(asDay, said) && !IsOn(asMonth, said):
			return asDay, length, false
		}
		return "", length, true
	}
	return "", 0, false
}

// bothWays is the date of two figures and a year with the day first, and with the month
// first; "" where there is no such day.
func bothWays(m []string) (asDay, asMonth string) {
	year := century(m[3])
	return calendar(year, m[2], m[1]), calendar(year, m[1], m[2])
}

// IsOn reports whether a date is on the day of the week that a word begins or is short for, in
// English, German or French.
func IsOn(iso, word string) bool {
	t, err := time.Parse(time.DateOnly, iso)
	word = word[:letterRun(word, 0)]
	if err != nil || word == "" {
		return false
	}
	names := strings.Fields(weekdays[t.Weekday()])
	if len(word) == 2 {
		names = names[1:2] // German alone is written so
	}
	return slices.ContainsFunc(names, func(name string) bool { return strings.HasPrefix(name, word) })
}

var weekdays = [7]string{
	"sunday sonntag dimanche", "monday montag lundi", "tuesday dienstag mardi", "wednesday mittwoch mercredi",
	"thursday donnerstag jeudi", "friday freitag vendredi", "saturday samstag samedi sonnabend",
}

// century completes a year of two figures: people keep notes of the last fifty
// years and the next, and more of those (common practice, no source).
func century(year string) string {
	switch year = strings.TrimRight(year, ","); {
	case len(year) != 2:
		return year
	case year >= "50":
		return "19" + year
	}
	return "20" + year
}

// monthOf is the number of a month by its name in English, German or French, the
// beginning of it, or a Roman figure.
func monthOf(name string) string {
	for m, names := range monthNames() {
		begins := func(full string) bool { return strings.HasPrefix(full, name) }
		if romanMonths[m] == name || len(name) >= 3 && slices.ContainsFunc(names, begins) {
			return strconv.Itoa(m + 1)
		}
	}
	return ""
}

// monthNames are the names of each month.
var monthNames = sync.OnceValue(func() (all [12][]string) {
	for m := range all {
		all[m] = append(strings.Fields(otherMonths[m]), months[m])
	}
	return all
})

var romanMonths = [12]string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}

var otherMonths = [12]string{
	"januar jänner janvier", "februar feber février fevrier", "märz maerz mrz mars", "april avril", "mai", "juni juin",
	"juli juillet", "august août aout", "september sept septembre", "oktober octobre", "november novembre", "dezember décembre decembre",
}

// calendar is a date where there is such a day.
func calendar(year, month, day string) string {
	t, err := time.Parse("2006-1-2", strings.Join([]string{year, strings.TrimLeft(month, "0"), strings.TrimLeft(day, "0")}, "-"))
	if err != nil {
		return ""
	}
	return t.Format(time.DateOnly)
}

// Slashed is the two dates that two figures and a year at the beginning of a text may
// be: with the day first, and with the month first; "" where there is no such day. ok
// says whether the text begins so.
func Slashed(text string) (asDay, asMonth string, ok bool) {
	_, low := cutWeekday(text)
	m := slashed().FindStringSubmatch(low)
	if m == nil {
		return "", "", false
	}
	asDay, asMonth = bothWays(m)
	return asDay, asMonth, true
}

// Weekday is the day of the week with which a text begins, as typed, "" where there is
// none.
func Weekday(text string) string {
	day, _ := cutWeekday(text)
	return text[:letterRun(day, 0)]
}

// WeekdayEnd is where what follows the day of the week begins in a text, 0 where it begins with
// none.
func WeekdayEnd(text string) int {
	day, _ := cutWeekday(text)
	return len(day)
}

// WeekdayOf is the day of the week of a date, by its English name.
func WeekdayOf(iso string) string {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return ""
	}
	return t.Weekday().String()
}

// cutWeekday splits a text, in lower case, behind the day of the week. What is short for it in
// German or French stands before a figure: Sa. 12. Okt. 1991.
func cutWeekday(text string) (day, rest string) {
	low := strings.ToLower(text)
	skipped := len(weekday().FindString(low))
	if skipped == 0 {
		skipped = max(0, len(inShort().FindString(low))-1)
	}
	return low[:skipped], low[skipped:]
}

// DayText is the text of a day's line, its year joined to the two figures before it where a blank sets
// them apart, 3/6 56; elsewhere another number may stand there. It is as long as it was.
func DayText(text string) string {
	day := WeekdayEnd(text)
	m := yearApart().FindStringSubmatch(text[day:])
	if m == nil {
		return text
	}
	blank := day + len(m[1])
	return text[:blank] + m[2] + text[blank+1:]
}

// article is how long what is said before a date is at the beginning of a text: le 7 mai, am 7. Mai.
func article(text string) int { return len(beforeDate().FindString(text)) }

// DayOfDay is DayOfYear of a day's line, on which 7.5. is one too. Elsewhere it is the number of a chapter.
func DayOfDay(text string) (day string, length int) {
	if day, length = DayOfYear(text); length > 0 {
		return day, length
	}
	m := dottedDay().FindStringSubmatch(text)
	if m == nil {
		return "", 0
	}
	const leap = "2024"
	if whole := calendar(leap, m[2], m[1]); whole != "" {
		return whole[len("2024-"):], len(strings.TrimRight(m[0], " \t,;"))
	}
	return "", 0
}

// DayOfYear reads a day and a month without a year at the beginning of a text, "3 Oct",
// "Sat Oct 3rd": its form MM-DD and how much of the text it is.
func DayOfYear(text string) (day string, length int) {
	if lead := article(text); lead > 0 {
		if day, length = DayOfYear(text[lead:]); length > 0 {
			length += lead
		}
		return day, length
	}
	said, low := cutWeekday(text)
	month, figure := "", ""
	if m := dayOfMonth().FindStringSubmatch(low); m != nil {
		month, figure, length = m[2], m[1], len(m[0])
	} else if m := monthDay().FindStringSubmatch(low); m != nil {
		month, figure, length = m[1], m[2], len(m[0])
	}
	const leap = "2024" // has every day
	whole := calendar(leap, monthOf(month), figure)
	if whole == "" || slices.Contains(romanMonths[:], month) { // 10 III is a zone
		return "", 0
	}
	return whole[len("2024-"):], len(said) + length
}

// dayBefore is how much of a text is a day that stands before labels, 0 where it begins
// with none: "2026-10-18 6B", "Sat 3 Oct 2a", "18/10/26, 1A-2B". A day that is in no
// calendar is one too: the labels behind it are of no other.
func dayBefore(text string, names *Lexicon) int {
	if !mayBeDay(text) {
		return 0
	}
	said, low := cutWeekday(text)
	if m := shortYear().FindStringSubmatch(low); m != nil && monthOf(m[2]) != "" {
		if next := nextLabel(text, len(said)+len(m[0])); next != "" && sided(next) && looksLabel(next, names) {
			return len(said) + len(m[0])
		}
	}
	if _, length := DayInFigures(text); length > 0 && !names.Labels[text[:length]] {
		if next := nextLabel(text, length); next != "" && sided(next) && looksLabel(next, names) {
			return length
		}
	}
	iso, length, ambiguous := DateOf(text)
	if length == 0 || iso == "" && !ambiguous && !strings.ContainsAny(text[:length], "/-.") {
		_, length = DayOfYear(text)
	}
	if length == 0 || names.Labels[lower(text[:length])] {
		return 0
	}
	if next := nextLabel(text, length); next == "" || joins(next) || !looksLabel(next, names) && !looseLabel(next) {
		return 0
	}
	return length
}

// DayInFigures reads a day and a month in figures without a year at the beginning of a text, 31.12.: its form MM-DD and how
// much of the text it is.
func DayInFigures(text string) (day string, length int) {
	m := dayMonthOnly().FindStringSubmatch(text)
	if m == nil {
		return "", 0
	}
	d, month := number(m[1]), number(m[2])
	if d < 1 || d > 31 || month < 1 || month > 12 {
		return "", 0
	}
	return fmt.Sprintf("%02.0f-%02.0f", month, d), len(m[0])
}

var dayMonthOnly = pattern.Lazily(`^([0-9]{1,2})\.([0-9]{1,2})(?:\.|\b)`)

// mayBeDay is a quick look whether a text can begin with a date, as most labels cannot.
func mayBeDay(text string) bool {
	low := lower(text[:min(len(text), 16)])
	end := digits(low, 0)
	if end == 0 {
		return letterRun(low, 0) >= 2
	}
	switch at(low, end) {
	case '-', '/', '.', ' ', '\t':
		return true
	}
	return letterRun(low, end) == end+2 // 3rd
}

// nextLabel is the word behind an offset, in lower case, "" where none stands apart
// from what is before it.
func nextLabel(text string, at int) string {
	rest := strings.TrimLeft(text[at:], " \t,")
	if len(rest) == len(text)-at {
		return ""
	}
	if end := strings.IndexAny(rest, " \t,"); end >= 0 {
		rest = rest[:end]
	}
	return lower(rest)
}
