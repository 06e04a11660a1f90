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
	d := dayOf(r.book, st)
	if d.lent != nil && !d.lent.said {
		d.lent.said = true
		r.report("year-from-heading", d.lent.at, "the days below that have no year are taken to be of "+d.lent.year)
	}
	if d.ambiguous {
		r.ambiguous(d.date, st.TextSpan().Sub(0, d.length)).
			note("write it with the month's name, or year first: 2026-11-07 is the seventh of November; until then the day has no place among the others")
	}
	r.noSuchDay(st, d)
	o := &outing{date: evenly(d.date), iso: d.iso, doubted: d.doubted, place: evenly(d.place), book: r.book, at: st.TextSpan()}
	o.adrift = d.length == 0 && r.datesDays()
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

// dated is the date of a day line, as typed, with a year from above behind it, and as
// YYYY-MM-DD, and its place.
type dated struct {
	date, iso, place string
	length           int // of the date on the line, 0 where it begins with none
	ambiguous        bool
	doubted          bool // by a question mark behind it, or another date that it may be
	lent             *yearHead
}

// dayOf reads a day line. What stands in brackets between date and place is said of the day: 20
// May 1991 [Whit Monday], mill.
func dayOf(b *book, st *lang.Statement) (d dated) {
	d.iso, d.length, d.ambiguous, d.lent = dayLine(b, st)
	end := d.length
	if end > 0 {
		mark := len(doubtOfDate().FindString(st.Text[end:]))
		d.doubted = mark > 0
		end += mark
		end += len(besideDate().FindString(st.Text[end:]))
	}
	d.date, d.place = st.Text[:end], st.Text[end:]
	if d.lent != nil {
		d.date += " " + d.lent.year
	}
	if end == 0 {
		d.date, d.place, _ = strings.Cut(st.Text, ",")
	}
	d.date = strings.TrimSpace(strings.TrimRight(d.date, " \t,;:"))
	d.place = strings.TrimRight(strings.TrimLeft(d.place, " ,.;:"), " ,")
	return d
}

var (
	besideDate  = pattern.Lazily(`^\s*(?:\([^()]*\)|\[[^\[\]]*\])(?:\s*[,;:])`)
	doubtOfDate = pattern.Lazily(`^(?i:\s*(?:\?+|\(\s*\?+\s*\)|\[\s*\?+\s*\])|,?\s+(?:or|oder|ou)\s[^,;]*|[-–—/]\d{1,2}\b[./]?(?:\d[\d./]*)?|(?:\s*[-–—/]\s*|\s(?:to|bis|au)\s+)\d{1,2}(?:[./]\d[\d./]*|(?:st|nd|rd|th|er|\.)?\s+(?:jan|feb|fév|m[aä]r|apr|avr|mai|may|ju[nil]|ao[uû]t|aug|sep|o[ck]t|nov|de[cz]|déc)\pL*\.?(?:\s+\d{4})?))`)
)

// laterDate is the first date that stands further on in a text, as typed, "" where none does.
func laterDate(b *book, text string) string {
	for i := 1; i < len(text); i++ {
		if !strings.ContainsRune(" \t,;([\"", rune(text[i-1])) {
			continue
		}
		if iso, length, ambiguous := dateIn(b, text[i:]); iso != "" || ambiguous {
			return text[i : i+length]
		}
	}
	return ""
}

// noSuchDay reports a date that is none, one that is in doubt, and one that was not understood though it
// has a year or stands behind other words.
func (r *resolver) noSuchDay(st *lang.Statement, d dated) {
	date, iso, later, yearless := d.date, d.iso, "", false
	at := st.TextSpan().Sub(0, min(len(date), len(st.Text)))
	if d.length == 0 {
		later = laterDate(r.book, st.Text)
		if from, to := withoutYearIn(st.Text); to > 0 {
			date, at, yearless = st.Text[from:to], st.TextSpan().Sub(from, to), true
		}
	}
	switch {
	case d.ambiguous:
	case d.length > 0 && iso == "":
		r.report("impossible-date", at, "there is no such day as "+date)
	case iso != "" && iso < firstPhotograph:
		r.report("impossible-date", at, "nobody photographed in the year "+iso[:4])
	case d.doubted:
		r.report("date-doubtful", at, quote(date)+" is in doubt, and is taken to be "+iso).
			note("so it stands among the other days, and nothing is held against it")
	case iso != "" && lang.Weekday(date) != "" && !lang.IsOn(iso, strings.ToLower(lang.Weekday(date))):
		r.report("weekday-disagrees", at, iso+" is a "+lang.WeekdayOf(iso)+", and "+lang.Weekday(date)+" is written").note("the date counts")
	case d.length == 0 && !yearless && monthAlone(date), d.length == 0 && dateLike().MatchString(strings.ToLower(date)):
		r.report("date-not-read", at, quote(date)+" is not understood as a date").
			note("write " + cmp.Or(laterFirst(later), "the year first, 2026-11-07, or the month by its name") + "; as it stands the day has no place among the others")
	case yearless && (r.datesDays() || !r.yearless):
		r.yearless = true
		r.report("day-without-date", at, quote(date)+" has no year, and so no place among the others").
			note("write the year behind it, or above its days on a line that is a year and no more: 1983")
	case later != "":
		r.report("day-without-date", st.TextSpan(), later+" stands behind other words, and is not taken for the date of this day").
			note("write " + laterFirst(later) + "; as it stands the day has no place among the others")
	case d.length == 0 && r.datesDays():
		r.report("day-without-date", st.TextSpan(), "this day has no date, and so no place among the others").
			note("write it behind the word, as far as it is known: day: 2026-11-07, place; as it stands the day counts behind those of its notebook that stand above it, or behind all")
	}
}

// withoutYearIn is where a day and a month without a year stand on a day line: at its beginning, up to the
// comma, or by themselves between two commas.
func withoutYearIn(text string) (from, to int) {
	for n := 0; n < len(text); n++ {
		part, _, _ := strings.Cut(text[n:], ",")
		said := strings.TrimSpace(part)
		if _, length := lang.DayOfDay(said); length > 0 && (n == 0 || length == len(said)) {
			from = n + strings.Index(part, said)
			return from, from + len(said)
		}
		n += len(part)
	}
	return 0, 0
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
