package lang

import (
	"strconv"
	"strings"

	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Plates that are numbered by the year and a count, 84-17 and 84/17: under a day of 1984 two numbers with
// a sign between are one of that year, however large the second is.

// underYear takes the year of the days above from a day's line: its own, or that of the heading or the
// line above that is a year. Where a day has none, or none that is understood, no year is known.
func (r *reading) underYear(l *logLine) {
	text := DayText(strings.TrimSpace(l.folded.Text[l.head.body:]))
	iso, length, ambiguous := DateOf(text)
	if ambiguous {
		asDay, asMonth, _ := Slashed(text)
		iso = asDay + asMonth // of one year
	}
	year := ""
	if iso != "" {
		year = iso[:len("1984")]
	}
	lent := r.yearAbove(l.at)
	if _, day := DayOfDay(text); length == 0 && day > 0 {
		year = lent
	} else {
		if length == 0 {
			year = yearWithin().FindString(text) // May 1984, of no day
		}
		if year != lent {
			r.lent = ""
		}
	}
	r.names.year, r.names.dayed = year, true
}

// dating is the year that a line stands under, as far as it makes a difference to its labels.
func (x *Lexicon) dating() string {
	if x.dayed && x.year == "" {
		return "unknown"
	}
	return x.year
}

// yearAbove is the year of the last heading or line above an offset that is one, "" where there is none, or
// a heading of its level ended it. Each line is looked at once.
func (r *reading) yearAbove(offset int) string {
	for ; r.dated < len(r.lines) && r.lines[r.dated].Start < offset; r.dated++ {
		line := &r.lines[r.dated]
		text := r.src[line.Body:line.BodyEnd]
		level := len(text) - len(strings.TrimLeft(text, "#"))
		if line.Kind == Log || level == 0 && len(text) > longestYear {
			continue
		}
		if year, ok := YearAlone(strings.Trim(text, "#*_ \t")); ok {
			r.lent, r.level = year, level
		} else if level > 0 && level <= r.level {
			r.lent = ""
		}
	}
	return r.lent
}

var yearWithin = pattern.Lazily(`\b(?:18|19|20)\d\d\b`)

const longestYear = len("** 1984 (continued): **")

// YearAlone is the year that a heading or a line is, and no more.
func YearAlone(text string) (year string, ok bool) {
	m := onlyYear().FindStringSubmatch(lower(source.Fold(text).Text))
	if m == nil {
		return "", false
	}
	return m[1], true
}

var onlyYear = pattern.Lazily(`^((?:18|19|20)\d\d)(?:,? \(?(?:cont(?:inued|'?d)?|ctd)\.?\)?)?[.:]?$`)

// ofThisYear reports whether a series is that of the year that the line stands under: 84 of 1984.
func (x *Lexicon) ofThisYear(series string) bool {
	return x.year != "" && (series == x.year || series == x.year[len("19"):])
}

// plateOf is a label as a plate of a year: the year, its count, and whether it is one. Of 84-99 only the notes
// know it: by the year of the day, unless both ends stand for holder sides, or by others of the series. It may
// be either where they do not, and where sheets are counted up to it.
func (x *Lexicon) plateOf(label string) (one, open bool) {
	series, ok := seriesOf(label)
	if !ok || len(series) != 2 {
		return false, false
	}
	if x.series[series] {
		return true, false
	}
	from, to, dashed := cutDash(label)
	if !dashed || ofYear(from, to) || x.Labels[from] && x.Labels[to] {
		return false, false
	}
	a, _ := strconv.Atoi(from)
	b, err := strconv.Atoi(to)
	counted := x.Labels[from] || x.Labels[strconv.Itoa(a-1)] // 25, then 26-27
	one = x.ofThisYear(series) && !counted
	unknown := x.year == "" && (x.dayed || b-a > mostInRow)
	return one, !one && (unknown || counted && x.ofThisYear(series)) && err == nil && b-a <= mostOnSheetLine
}

// plateSlashed reports whether a word is a plate of the year of the day with a slash in it, or a run of such:
// 84/17, 84/17-19. In the first years of a century it may be a day of a month as well.
func (x *Lexicon) plateSlashed(word string) bool {
	series, count, ok := strings.Cut(word, "/")
	if !ok || !x.ofThisYear(series) {
		return false
	}
	if _, _, run := seriesEnds(word); run {
		return true
	}
	const months, days = 12, 31
	return count != "" && digits(count, 0) == len(count) && (number(series) > days || number(count) > months || x.series[series])
}
