package lang

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Small readers of shapes. Each takes the line in lower case and an offset and
// gives the offset behind what it read; nothing read is the offset it was given.

func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= utf8.RuneSelf }
func isSpace(c byte) bool  { return c == ' ' || c == '\t' || c == '\v' || c == '\f' }

// at is the byte at i, or 0 behind the end.
func at(s string, i int) byte {
	if i < 0 || i >= len(s) {
		return 0
	}
	return s[i]
}

func skip(s string, i int) int {
	for i < len(s) && isSpace(s[i]) {
		i++
	}
	return i
}

func digits(s string, i int) int {
	for i < len(s) && isDigit(s[i]) {
		i++
	}
	return i
}

// boundary reports whether a term may end at i.
func boundary(s string, i int) bool {
	c := at(s, i)
	switch c {
	case ' ', ',', 0:
		return true
	case '.':
		for at(s, i) == '.' { // 11..13
			i++
		}
		return !isDigit(at(s, i))
	case ':': // minus R25: 1/8 s, and no gate 2: 3 cars
		from := i
		for from > 0 && (isDigit(s[from-1]) || isLetter(s[from-1])) {
			from--
		}
		return at(s, i+1) == ' ' && from < i && !isDigit(s[from])
	case '\\': // at the end of the line it is Markdown's hard break
		return skip(s, i+1) == len(s)
	}
	return !isDigit(c) && !isLetter(c) && strings.IndexByte(`/:'\_|`, c) < 0
}

// decimal reads 16, 0.72, .7 and 5,6.
func decimal(s string, i int) (end int, value string) {
	end = digits(s, i)
	switch at(s, end) {
	case '.':
		if isDigit(at(s, end+1)) {
			end = digits(s, end+1)
		}
	case ',':
		if stop := commaDecimal(s, i, end); stop > end {
			return stop, s[i:end] + "." + s[end+1:stop]
		}
	}
	return end, s[i:end]
}

// commaDecimal is the end of a number with a decimal comma at point, or point: a
// comma between figures is one before a single last figure (f12,5), and before
// two behind a single figure (0,72). A unit may follow (1,5s), but not behind an
// f-number: f8,2s is two terms.
func commaDecimal(s string, i, point int) int {
	stop := digits(s, point+1)
	single := point == i+1
	if point == i || point > i+3 || !(stop == point+2 || stop == point+3 && single) {
		return point
	}
	marked := at(s, i-1) == 'f' || at(s, i-1) == '/'
	if boundary(s, stop) || single && !marked && isLetter(at(s, stop)) || unit(s, stop, ofSizes...) > stop {
		return stop
	}
	return point
}

// apertureAt reports whether an aperture begins at i: f16, f/16, f 16.
func apertureAt(s string, i int) bool {
	return at(s, i) == 'f' && (at(s, i+1) == '/' || isDigit(at(s, skip(s, i+1))))
}

// fraction reads a/b.
func fraction(s string, i int) (end int, ok bool) {
	slash := digits(s, i)
	if slash == i || at(s, slash) != '/' {
		return i, false
	}
	end = digits(s, slash+1)
	return end, end > slash+1
}

// mixed reads a number that a fraction may follow at once: 16+1/2, 1/3.
func mixed(s string, i int) (end int, value string) {
	if end, ok := fraction(s, i); ok {
		return end, s[i:end]
	}
	end, value = decimal(s, i)
	if at(s, end) == '+' {
		if stop, ok := fraction(s, end+1); ok {
			return stop, value + s[end:stop]
		}
	}
	return end, value
}

// spoken reads a number as it is said: also 1 1/2, and 1 and a half. One blank stands within it;
// several, or a tab, part the cells of a column.
func spoken(s string, i int) (end int, value string) {
	end, value = mixed(s, i)
	if strings.Contains(value, "/") {
		return end, value
	}
	if stop, said := andA(s, end); stop > end {
		return stop, value + "+" + said
	}
	if next := end + 1; at(s, end) == ' ' {
		if stop, ok := fraction(s, next); ok && properFraction(s[next:stop]) {
			return stop, value + "+" + s[next:stop]
		}
		if stop, part := apartFraction(s, next); properFraction(part) {
			return stop, value + "+" + part
		}
	}
	return end, value
}

// apartFraction is a fraction as it is written from dictation, with a blank on both sides of its stroke: 1 / 15. The end is
// i where there is none.
func apartFraction(s string, i int) (end int, value string) {
	stroke := digits(s, i)
	if stroke == i || !strings.HasPrefix(s[stroke:], " / ") {
		return i, ""
	}
	from := stroke + len(" / ")
	if end = digits(s, from); end == from || number(s[from:end]) <= number(s[i:stroke]) {
		return i, ""
	}
	return end, s[i:stroke] + "/" + s[from:end]
}

// unitless is such a number where no unit says that the fraction belongs to it: an eighth behind
// a blank is a time, and so is what has blanks in it.
func unitless(s string, i int) (end int, value string) {
	end, value = spoken(s, i)
	if blank := strings.IndexByte(s[i:end], ' '); blank > 0 && (strings.HasSuffix(value, "/8") || strings.Contains(s[i:end], " / ")) {
		return mixed(s, i)
	}
	return end, value
}

// hyphened reads 1-1/2, as stops and seconds are typed.
func hyphened(s string, i int) (end int, value string) {
	dash := digits(s, i)
	if dash == i || at(s, dash) != '-' {
		return i, ""
	}
	end, ok := fraction(s, dash+1)
	if !ok || !properFraction(s[dash+1:end]) {
		return i, ""
	}
	return end, s[i:dash] + "+" + s[dash+1:end]
}

// properFraction tells the ½ of 10 ½ in from a shutter speed.
func properFraction(s string) bool {
	switch s {
	case "1/2", "1/3", "2/3", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8":
		return true
	}
	return false
}

// partOfOne reports whether a number is a fraction and nothing else: 1/60.
func partOfOne(value string) bool {
	return strings.Contains(value, "/") && !strings.ContainsAny(value, "+. ")
}

// andA reads " and a half", also as it is typed in haste, n a half; and half only where nothing goes on in words behind it.
func andA(s string, i int) (end int, value string) {
	joined := 0
	if at(s, i) == ' ' {
		for _, and := range [...]string{" and ", " n ", " 'n' ", " 'n ", " n' ", " & ", " et ", " und "} {
			if strings.HasPrefix(s[i:], and) {
				joined = i + len(and)
				break
			}
		}
	}
	if joined == 0 {
		return i, ""
	}
	for _, f := range [...][2]string{{"demie", "1/2"}, {"demi", "1/2"}, {"eine halbe", "1/2"}, {"a half", "1/2"}, {"a third", "1/3"}, {"two thirds", "2/3"}, {"a quarter", "1/4"}, {"three quarters", "3/4"}, {"one half", "1/2"}, {"one third", "1/3"}, {"one quarter", "1/4"},
		{"half", "1/2"}, {"third", "1/3"}, {"quarter", "1/4"}} {
		if end = joined + len(f[0]); !strings.HasPrefix(s[joined:], f[0]) {
			continue
		}
		if strings.Contains(f[0], " ") || s[joined] == 'd' || len(s) == end || strings.IndexByte(",;.)", s[end]) >= 0 || s[end] == ' ' && (isDigit(at(s, end+1)) || strings.HasPrefix(s[end:], " on ") && roman(s, end+len(" on ")) > end+len(" on ")) {
			return end, f[1]
		}
	}
	return i, ""
}

// unit reads one of the units, blanks before it allowed; the longest must stand
// first.
func unit(s string, i int, units ...string) int {
	next := skip(s, i)
	for _, u := range units {
		if next < len(s) && s[next] == u[0] && strings.HasPrefix(s[next:], u) && !isLetter(at(s, next+len(u))) {
			return next + len(u)
		}
	}
	return i
}

// length reads a length with its unit in millimetres. Metres are read only
// where a distance is expected, since 1m is a minute.
func length(s string, i int, metres bool) (end int, mm float64, ok bool) {
	end, value := spoken(s, i)
	inWords := end == i
	if inWords { // sixteen and a half inches
		end, value = spokenInWords(s, i)
	}
	if end == i {
		return i, 0, false
	}
	for _, u := range lengths {
		if (u.name == "m" || u.name == `'`) && !metres || inWords && (u.name == "in" || u.name == `"`) {
			continue
		}
		if behind := unit(s, end, u.name); behind != end {
			if u.name == `"` && isWide(s[end:skip(s, end)]) {
				break // a mark in the next column
			}
			if next := skip(s, behind); u.name == "in" && (inPlace[s[next:letterRun(s, next)]] || partOfOne(value) && letterRun(s, next) > next && !behindInches[s[next:letterRun(s, next)]]) {
				continue // 12 in the barn, 1/2 in fog, 1/8 in minus one
			}
			return behind, math.Round(number(value)*u.mm*1e6) / 1e6, true // 12 in are 304.8 mm, in binary too
		}
	}
	return i, 0, false
}

// inPlace are words behind "in" by which it is no inches (common practice, no source).
var inPlace = SetOf("the my our this that all each one practice use minus plus")

// behindInches are words behind a part of an inch (common practice, no source).
var behindInches = SetOf("of rise fall shift tilt swing front rear back up down left right forward out in off from ext extension bellows draw lens rack racked at f")

// LengthOf is a text that is a length with its unit, 14in, in millimetres.
func LengthOf(text string) (mm float64, ok bool) {
	low := lower(strings.TrimSpace(text))
	end, mm, ok := length(low, 0, false)
	return mm, ok && end == len(low)
}

// lengths holds the units of length; 1 in is 25.4 mm exactly (ISO 80000-3).
var lengths = []struct {
	name string
	mm   float64
}{
	{"mm", 1}, {"millimetres", 1}, {"millimeters", 1}, {"millimetre", 1}, {"millimeter", 1},
	{"cm", 10}, {"centimetres", 10}, {"centimeters", 10}, {"centimetre", 10}, {"centimeter", 10}, {"inches", 25.4}, {"inch", 25.4}, {"ins", 25.4}, {"in", 25.4}, {`"`, 25.4},
	{"feet", 304.8}, {"ft", 304.8}, {"metres", 1000}, {"meters", 1000}, {"m", 1000},
}

// ofSizes are those of them in which things are measured that are no distance.
var ofSizes = func() (names []string) {
	for _, u := range lengths {
		if u.mm < 300 && u.name != `"` {
			names = append(names, u.name)
		}
	}
	return names
}()

// zone reads "on III", "on zone 3", "z3" and "zone III½".
func zone(s string, i int) (end int, value string, ok bool) {
	end = unit(s, i, "placed on", "placed in", "placed", "on", "in")
	named := end != i
	next := skip(s, end)
	for _, word := range []string{"zone", "z"} {
		if rest := strings.TrimPrefix(s[next:], word); len(rest) < len(s[next:]) && (rest == "" || !isLetter(rest[0]) || roman(s, skip(s, next+len(word))) > skip(s, next+len(word))) {
			next, named = skip(s, fullStop(s, next+len(word))), true // z.3
			break
		}
	}
	if !named {
		return i, "", false
	}
	if end = roman(s, next); end > next {
		value = strconv.Itoa(romans[s[next:end]])
	} else if stop, said := mixedInWords(s, next, 10); stop > next && s[max(0, next-5):next] == "zone " {
		end, value = stop, said
	} else if end, value = decimal(s, next); digits(s, next) == next {
		return i, "", false
	}
	if at(s, end) == '+' {
		if stop, fine := fraction(s, end+1); fine {
			value, end = value+s[end:stop], stop
		}
	} else if stop, said := andA(s, end); stop > end && !strings.ContainsAny(value, "+.") {
		value, end = value+"+"+said, stop
	}
	return end, value, boundary(s, end) && number(value) <= 10.5
}

var romans = map[string]int{"0": 0, "i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10}

// roman reads a zone in roman figures.
func roman(s string, i int) int {
	end := i
	for end < len(s) && strings.IndexByte("ivx", s[end]) >= 0 {
		end++
	}
	if _, ok := romans[s[i:end]]; !ok || isLetter(at(s, end)) || isDigit(at(s, end)) {
		return i
	}
	return end
}

// isoDate reads 2026-11-09.
func isoDate(s string, i int) (end int, ok bool) {
	end = i + len("2006-01-02")
	if end > len(s) || !boundary(s, end) {
		return i, false
	}
	for k, c := range []byte(s[i:end]) {
		if (k == 4 || k == 7) != (c == '-') || k != 4 && k != 7 && !isDigit(c) {
			return i, false
		}
	}
	return end, true
}

// trimFloat writes a number shortest.
func trimFloat(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
