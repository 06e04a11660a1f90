package compile

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"time"
)

// Dates as people write them. The typed text stays what it is and is what a
// sheet is known by; the date that it stands for is computed only where it is
// whole and can be read in one way.

var (
	bigEndian = lazily(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\b`)
	dotted    = lazily(`^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})\b`)
	slashed   = lazily(`^(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})\b`)
	dayFirst  = lazily(`^(\d{1,2})(?:st|nd|rd|th|\.)?\s+([a-z]{3,9})\.?,?\s+(\d{4})\b`)
	nameFirst = lazily(`^([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})\b`)
	weekday   = lazily(`^(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?\.?,?\s+`)
)

// lazily compiles an expression when it is first asked for: a short note needs few,
// and would wait longer for all of them than for its findings.
func lazily(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// dateOf reads a whole date at the beginning of a text: its form YYYY-MM-DD and
// how much of the text it is. Of 3/5/2026 nobody can say which is the month.
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
		return calendar(m[3], monthOf(m[2]), m[1]), skipped + len(m[0]), false
	}
	if m := nameFirst().FindStringSubmatch(low); m != nil {
		return calendar(m[3], monthOf(m[1]), m[2]), skipped + len(m[0]), false
	}
	if m := slashed().FindStringSubmatch(low); m != nil {
		asDay, asMonth := calendar(century(m[3]), m[2], m[1]), calendar(century(m[3]), m[1], m[2])
		switch {
		case asDay == asMonth, asMonth == "":
			return asDay, skipped + len(m[0]), false
		case asDay == "":
			return asMonth, skipped + len(m[0]), false
		}
		return "", skipped + len(m[0]), true
	}
	return "", 0, false
}

// century completes a year of two figures.
func century(year string) string {
	if len(year) == 2 {
		return "20" + year
	}
	return year
}

// monthOf is the number of a month by its English name or the beginning of it.
func monthOf(name string) string {
	for m := time.January; m <= time.December; m++ {
		if full := strings.ToLower(m.String()); strings.HasPrefix(full, name) || name == "sept" && m == time.September {
			return fmt.Sprint(int(m))
		}
	}
	return ""
}

// calendar is a date where there is such a day.
func calendar(year, month, day string) string {
	t, err := time.Parse("2006-1-2", strings.Join([]string{year, strings.TrimLeft(month, "0"), strings.TrimLeft(day, "0")}, "-"))
	if err != nil {
		return ""
	}
	return t.Format(time.DateOnly)
}
