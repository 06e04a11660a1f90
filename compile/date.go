package compile

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"time"

	"notchbook/lang"
)

// Dates as people write them. The typed text stays what it is and is what a
// sheet is known by; the date that it stands for is computed only where it is
// whole and can be read in one way.

var (
	bigEndian = lazily(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\b`)
	dotted    = lazily(`^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})\b`)
	slashed   = lazily(`^(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})\b`)
	dayFirst  = lazily(`^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s./-]{1,3}(\pL{1,10})[\s.,/-]{1,3}['’]?(\d{4}\b|\d{2}(?:$|,))`)
	nameFirst = lazily(`^(\pL{3,10})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})\b`)
	dateLike  = lazily(`\b(?:18|19|20)\d\d\b|['’]\d\d\b|^\d{1,2}[./-]\d{1,4}$|^\pL{3,10}[./-]\d{1,2}$|^(?:do\.?|ditto|"|'')$`)
	weekday   = lazily(`^(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\.?,?\s+`)
)

// lazily compiles an expression when it is first asked for: a short note needs few,
// and would wait longer for all of them than for its findings.
func lazily(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// dateOf reads a whole date at the beginning of a text: its form YYYY-MM-DD and
// how much of the text it is. Of 3/5/2026 nobody can say which is the month, unless the
// day of the week stands before it.
func dateOf(text string) (iso string, length int, ambiguous bool) {
	low := strings.ToLower(text)
	skipped := len(weekday().FindString(low))
	low = low[skipped:]
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
		case asDay == "", said != "" && isOn(asMonth, said) && !isOn(asDay, said):
			return asMonth, length, false
		case said != "" && isOn(asDay, said) && !isOn(asMonth, said):
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

// isOn reports whether a date is on the day of the week that a word begins.
func isOn(iso, word string) bool {
	t, err := time.Parse(time.DateOnly, iso)
	return err == nil && strings.HasPrefix(word, strings.ToLower(t.Weekday().String()[:3]))
}

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
		low := strings.ToLower(st.Text)
		m := slashed().FindStringSubmatch(low[len(weekday().FindString(low)):])
		if m == nil {
			continue
		}
		asDay, asMonth := bothWays(m)
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

// dateIn is dateOf in a notebook, whose other dates may say which figure is the month.
func dateIn(b *book, text string) (iso string, length int, ambiguous bool) {
	if iso, length, ambiguous = dateOf(text); !ambiguous {
		return iso, length, false
	}
	if b.figures == 0 {
		b.figures = orderOf(b)
	}
	low := strings.ToLower(text)
	asDay, asMonth := bothWays(slashed().FindStringSubmatch(low[len(weekday().FindString(low)):]))
	switch b.figures {
	case dayBefore:
		return asDay, length, false
	case monthBefore:
		return asMonth, length, false
	}
	return "", length, true
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
	for m := time.January; m <= time.December; m++ {
		if romanMonths[m-1] == name {
			return fmt.Sprint(int(m))
		}
		for _, full := range strings.Fields(strings.ToLower(m.String()) + " " + otherMonths[m-1]) {
			if len(name) >= 3 && strings.HasPrefix(full, name) {
				return fmt.Sprint(int(m))
			}
		}
	}
	return ""
}

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
