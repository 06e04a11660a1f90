package compile

import (
	"cmp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The line that begins a day: its date, its place, and whether both can be right.

// day starts an outing; what was chosen before the first day returns.
func (r *resolver) day(st *lang.Statement) {
	_, length, ambiguous, lent := dayLine(r.book, st)
	date, iso, where := dayOf(r.book, st)
	if lent != nil && !lent.said {
		lent.said = true
		r.report("year-from-heading", lent.at, "the days below that have no year are taken to be of "+lent.year)
	}
	if ambiguous {
		r.ambiguous(date, st.TextSpan().Sub(0, length)).
			note("write it with the month's name, or year first: 2026-11-07 is the seventh of November; until then the day has no place among the others")
	}
	r.noSuchDay(st, date, iso, length, ambiguous)
	o := &outing{date: evenly(date), iso: iso, place: evenly(where), book: r.book, at: st.TextSpan()}
	o.adrift = length == 0 && r.datesDays()
	r.introduction(o)
	if !r.dayed {
		r.setDefaults()
	}
	pattern, wedge := r.now.scan, r.now.wedge
	r.dayed, r.outing, r.scene, r.now, r.wantedBefore = true, o, nil, r.defaults, nil
	r.ahead, r.bare, r.lit, r.undated, r.filterLines = ahead{}, false, lightLine{}, nil, nil
	r.now.scan, r.now.wedge = pattern, wedge
	r.outings = append(r.outings, o)
	o.entries = append(o.entries, st)
}

// setDefaults makes what holds now return at each day.
func (r *resolver) setDefaults() {
	r.defaults = r.now
	r.defaults.reading, r.defaults.ended, r.defaults.lost.meter, r.defaults.lost.scene = nil, 0, 0, 0
}

// ambiguous reports a date of which nobody can say which figure is the month.
func (r *resolver) ambiguous(date string, at source.Span) *finding {
	return r.report("date-ambiguous", at, "which of the two figures of "+date+" is the month is not clear")
}

// dayOf is the date of a day line, as typed, with a year from above behind it, and as
// YYYY-MM-DD, and its place. What stands in brackets between the two is said of the day: 20
// May 1991 [Whit Monday], mill.
func dayOf(b *book, st *lang.Statement) (date, iso, place string) {
	iso, length, _, lent := dayLine(b, st)
	if length > 0 {
		length += len(besideDate().FindString(st.Text[length:]))
	}
	date, place = st.Text[:length], st.Text[length:]
	if lent != nil {
		date += " " + lent.year
	}
	if length == 0 {
		date, place, _ = strings.Cut(st.Text, ",")
	}
	return strings.TrimSpace(strings.TrimRight(date, " \t,;:")), iso, strings.TrimRight(strings.TrimLeft(place, " ,.;:"), " ,")
}

var besideDate = pattern.Lazily(`^\s*(?:\([^()]*\)|\[[^\[\]]*\])(?:\s*[,;:])`)

// laterDate is the first date that stands further on in a text, as typed, "" where none does.
func laterDate(b *book, text string) string {
	for i := 1; i < len(text); i++ {
		if !strings.ContainsRune(" \t,;(", rune(text[i-1])) {
			continue
		}
		if iso, length, ambiguous := dateIn(b, text[i:]); iso != "" || ambiguous {
			return text[i : i+length]
		}
	}
	return ""
}

// noSuchDay reports a date that is none, and one that was not understood though it
// has a year.
func (r *resolver) noSuchDay(st *lang.Statement, date, iso string, length int, ambiguous bool) {
	at := st.TextSpan().Sub(0, min(len(date), len(st.Text)))
	later, yearless := "", 0
	if length == 0 {
		later = laterDate(r.book, st.Text)
		_, yearless = lang.DayOfDay(st.Text)
	}
	switch {
	case ambiguous:
	case length > 0 && iso == "":
		r.report("impossible-date", at, "there is no such day as "+date)
	case iso != "" && iso < firstPhotograph:
		r.report("impossible-date", at, "nobody photographed in the year "+iso[:4])
	case iso != "" && lang.Weekday(date) != "" && !lang.IsOn(iso, strings.ToLower(lang.Weekday(date))):
		r.report("weekday-disagrees", at, iso+" is a "+lang.WeekdayOf(iso)+", and "+lang.Weekday(date)+" is written").note("the date counts")
	case length == 0 && yearless == 0 && monthAlone(date), length == 0 && dateLike().MatchString(strings.ToLower(date)):
		r.report("date-not-read", at, quote(date)+" is not understood as a date").
			note("write " + cmp.Or(laterFirst(later), "the year first, 2026-11-07, or the month by its name") + "; as it stands the day has no place among the others")
	case length == 0 && yearless > 0 && (r.datesDays() || !r.yearless):
		r.yearless = true
		r.report("day-without-date", at, quote(date)+" has no year, and so no place among the others").
			note("write the year behind it, or above its days on a line that is a year and no more: 1983")
	case length == 0 && yearless == 0 && r.datesDays():
		r.report("day-without-date", st.TextSpan(), "this day has no date, and so no place among the others").
			note("write " + cmp.Or(laterFirst(later), "it behind the word, as far as it is known: day: 2026-11-07, place") + "; as it stands the day counts behind those of its notebook that stand above it, or behind all")
	}
}

// monthAlone reports whether a date is a month and a year of two figures, May 84, without the day.
func monthAlone(date string) bool {
	_, month := lang.DayOfYear("1 " + date)
	return month > 0 && yearOfTwo().MatchString(date[month-len("1 "):])
}

var yearOfTwo = pattern.Lazily(`^\.?\s+['’]?\d\d$`)

// laterFirst is how to write a date that stands further on in its line.
func laterFirst(later string) string {
	if later == "" {
		return ""
	}
	return "the date first: day: " + later + ", …"
}

// datesDays reports whether any day of the season has a whole date.
func (s *season) datesDays() bool {
	if s.dates == 0 {
		s.dates = 1
		for _, b := range s.books {
			for _, st := range b.Statements {
				if st.Word != lang.Day {
					continue
				}
				if iso, _, _, _ := dayLine(b, st); iso != "" {
					s.dates = 2
					return true
				}
			}
		}
	}
	return s.dates == 2
}

// firstPhotograph is the year of the oldest camera photograph that is kept.
const firstPhotograph = "1826"

// introduction gives an outing what stands above its day: the heading of the
// first level as its title, and the prose from there on. Above the first day of
// a notebook that is everything, as long as no sheet is among it.
func (r *resolver) introduction(o *outing) {
	before := r.outing
	title := r.heading
	r.heading = ""
	if before == nil {
		return
	}
	from := 0
	if r.dayed {
		from = r.headed
	}
	if r.dayed && title == "" || !onlyWords(before.entries[from:]) {
		return
	}
	for _, e := range before.entries[from:] {
		if h, ok := e.(*ast.Heading); ok && h.Level == 1 && o.title == "" && evenly(plainText(h, r.book)) == title {
			o.title = title
			continue
		}
		o.entries = append(o.entries, e)
	}
	before.entries = before.entries[:from]
}

// onlyWords reports whether entries are prose and lines, no scene and no sheet.
func onlyWords(entries []entry) bool {
	return !slices.ContainsFunc(entries, func(e entry) bool {
		switch e.(type) {
		case *scene, *sheet:
			return true
		}
		return false
	})
}
