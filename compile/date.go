package compile

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The dates of a notebook. The typed text stays what it is and is what a sheet is known
// by; the date that it stands for is computed only where it is whole and can be read in
// one way.

var dateLike = pattern.Lazily(`\b(?:18|19|20)\d\d\b|['’]\d\d\b|^\d{1,2}[./-]\d{1,4}$|^\d{1,2}[./-]\s?\d{1,2}[./-]\S|^\d{1,2} \d{1,2} \d{2}$|^\pL{3,10}[./-]\d{1,2}$|^(?:do\.?|ditto|"|'')$`)

// figures is which figure of a date comes first.
type figures uint8

const (
	unknownOrder figures = iota
	dayBefore
	monthBefore
	bothOrders
)

// orders finds how the dates of each notebook are written: by its own, and where those do not
// say, by those of all other notebooks, if they agree.
func (s *season) orders() {
	all := unknownOrder
	for _, b := range s.books {
		if b.figures = orderOf(b); b.figures != unknownOrder && b.figures != all {
			if all != unknownOrder {
				all = bothOrders
				continue
			}
			all = b.figures
		}
	}
	for _, b := range s.books {
		if b.figures == unknownOrder {
			b.figures = all
		}
	}
}

// orderOf is how the dates of a notebook are written, by those that can be read in one
// way only.
func orderOf(b *book) figures {
	found := unknownOrder
	for _, st := range b.Statements {
		if st.Word != lang.Day {
			continue
		}
		asDay, asMonth, ok := lang.Slashed(lang.DayText(st.Text))
		if !ok {
			continue
		}
		its := dayBefore
		if asDay == "" {
			its = monthBefore
		}
		if (asDay == "") == (asMonth == "") {
			continue
		}
		if found != unknownOrder && found != its {
			return bothOrders
		}
		found = its
	}
	return found
}

// dateIn is lang.DateOf in a notebook, whose other dates, or those of its season, may say which
// figure is the month.
func dateIn(b *book, text string) (iso string, length int, ambiguous bool) {
	if iso, length, ambiguous = lang.DateOf(text); !ambiguous {
		return iso, length, false
	}
	asDay, asMonth, _ := lang.Slashed(text)
	switch b.figures {
	case dayBefore:
		return asDay, length, false
	case monthBefore:
		return asMonth, length, false
	}
	return "", length, true
}

// dayLine is dateIn of a day line, to which a year above it may be lent.
func dayLine(b *book, st *lang.Statement) (iso string, length int, ambiguous bool, lent *yearHead) {
	if iso, length, ambiguous = dateIn(b, lang.DayText(st.Text)); length > 0 {
		return iso, length, ambiguous, nil
	}
	if lent = b.yearAbove(st); lent == nil {
		return "", 0, false, nil
	}
	_, length = lang.DayOfDay(st.Text)
	iso, _, _ = lang.DateOf(st.Text[:length] + " " + lent.year)
	return iso, length, false, lent
}

// yearHead is a heading or a line that is a year and no more, or a heading that ends what such a one
// says.
type yearHead struct {
	year string
	at   source.Span
	said bool
}

// yearAbove is what gives a day its year: the last heading or line that is a year, with no heading
// between that ends it, where the day line has a day and a month alone and no day between is of
// another year.
func (b *book) yearAbove(st *lang.Statement) *yearHead {
	if _, length := lang.DayOfDay(st.Text); length == 0 {
		return nil
	}
	if b.years == nil {
		b.years = yearsOf(b)
	}
	var above *yearHead
	for _, y := range b.years {
		if y.at.Start < st.Span.Start {
			above = y
		}
	}
	if above == nil || above.year == "" {
		return nil
	}
	for _, day := range b.Statements {
		if day.Word == lang.Day && day.Span.Start > above.at.Start && day.Span.Start < st.Span.Start {
			if iso, _, _ := dateIn(b, lang.DayText(day.Text)); iso != "" && iso[:4] != above.year {
				return nil
			}
		}
	}
	return above
}

// yearsOf are the years that stand above the days of a notebook, and the headings that end them, in
// order. A heading ends one of its own level, or one on a line below a heading of that level.
func yearsOf(b *book) []*yearHead {
	all, mark, section, level := []*yearHead{}, b.File.Mark(), 0, 0
	for n := b.Prose.FirstChild(); n != nil; n = n.NextSibling() {
		h, heading := n.(*ast.Heading)
		if _, words := n.(*ast.Paragraph); !heading && (!words || n.Lines().Len() > 1) || n.Lines().Len() == 0 {
			continue
		}
		line := n.Lines().At(0)
		at := source.Span{File: b.File, Start: line.Start + mark, End: line.Stop + mark}
		at = at.Sub(0, len(strings.TrimRight(at.Text(), " \t\r\n")))
		year, ok := lang.YearAlone(evenly(plainText(n, b)))
		if heading {
			section = h.Level
		}
		switch {
		case ok && (heading || b.dayFollows(at)):
			all, level = append(all, &yearHead{year: year, at: at}), section
		case heading && level > 0 && h.Level <= level:
			all, level = append(all, &yearHead{at: at}), 0
		}
	}
	return all
}

// dayFollows reports whether the next day begins below a line before any sheet does. A year on a
// gatepost is none of the notes.
func (b *book) dayFollows(line source.Span) bool {
	for _, st := range b.Statements {
		if st.Span.Start > line.Start && (st.Word == lang.Day || st.Word == lang.Sheet) {
			return st.Word == lang.Day
		}
	}
	return false
}
