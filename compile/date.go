package compile

import (
	"notchbook/lang"
)

// The dates of a notebook. The typed text stays what it is and is what a sheet is known
// by; the date that it stands for is computed only where it is whole and can be read in
// one way.

var dateLike = lang.Lazily(`\b(?:18|19|20)\d\d\b|['’]\d\d\b|^\d{1,2}[./-]\d{1,4}$|^\pL{3,10}[./-]\d{1,2}$|^(?:do\.?|ditto|"|'')$`)

// figures is which figure of a date comes first.
type figures uint8

const (
	unknownOrder figures = iota + 1 // 0: not looked at yet
	dayBefore
	monthBefore
)

// orderOf is how the dates of a notebook are written, by those that can be read in one
// way only; unknown where there are none, or of both kinds.
func orderOf(b *book) figures {
	found := unknownOrder
	for _, st := range b.Statements {
		if st.Word != lang.Day {
			continue
		}
		asDay, asMonth, ok := lang.Slashed(st.Text)
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
			return unknownOrder
		}
		found = its
	}
	return found
}

// dateIn is lang.DateOf in a notebook, whose other dates may say which figure is the month.
func dateIn(b *book, text string) (iso string, length int, ambiguous bool) {
	if iso, length, ambiguous = lang.DateOf(text); !ambiguous {
		return iso, length, false
	}
	if b.figures == 0 {
		b.figures = orderOf(b)
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
