package lang

import (
	"slices"
	"strconv"
	"strings"
)

// Numbers in words, as people dictate them: ten seconds, one fifteenth, zone three, N
// minus one and a half.

var cardinals = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
	"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

var ordinals = map[string]int{
	"eighth": 8, "tenth": 10, "fifteenth": 15, "twentieth": 20, "twenty-fifth": 25, "twenty fifth": 25, "thirtieth": 30, "fiftieth": 50, "sixtieth": 60,
	"hundredth": 100, "hundred and twenty-fifth": 125, "hundred and twenty fifth": 125,
}

// numberWords are the words with which a number in words begins.
var numberWords = func() map[string]bool {
	all := SetOf("a an one")
	for word := range cardinals {
		all[word] = true
	}
	for word := range ordinals {
		all[word[:letterRun(word, 0)]] = true
	}
	for _, f := range fractionsInWords {
		all[f[0][:letterRun(f[0], 0)]] = true
	}
	return all
}()

// inWords reads a whole number in words up to 99: ten, twenty-five. The end is i where
// there is none.
func inWords(s string, i int) (end, n int) {
	end = letterRun(s, i)
	n, ok := cardinals[s[i:end]]
	if !ok {
		return i, 0
	}
	if n >= 20 {
		next := end
		if c := at(s, end); c == '-' || c == ' ' {
			next = end + 1
		}
		if stop := letterRun(s, next); next > end {
			if unit, ok := cardinals[s[next:stop]]; ok && unit < 10 {
				return stop, n + unit
			}
		}
	}
	return end, n
}

// mixedInWords reads a number up to a most that a part may follow, as mixed does in
// figures: one and a half. The end is i where there is none.
func mixedInWords(s string, i, most int) (end int, value string) {
	end, n := inWords(s, i)
	if end == i || n > most {
		return i, ""
	}
	value = strconv.Itoa(n)
	if stop, more := andA(s, end); stop > end {
		end, value = stop, value+"+"+more
	}
	return end, value
}

// partInWords reads one part in words, of at most a second: an eighth, one fifteenth. One
// twenty-fifth is none: it is 1/25, and what people say for 1/125.
func partInWords(s string, i int) (end int, value string) {
	for _, one := range [...]string{"one ", "an ", "a "} {
		rest, ok := strings.CutPrefix(s[i:], one)
		if !ok {
			continue
		}
		if end, n := ordinalAt(rest, 0); end > 0 && (one != "one " || n != 25) {
			return i + len(one) + end, "1/" + strconv.Itoa(n)
		}
	}
	return i, ""
}

// ordinalAt is the longest ordinal at i: sixtieth, hundred and twenty-fifth. The end is i where
// there is none.
func ordinalAt(s string, i int) (end, n int) {
	end = i
	for said, value := range ordinals {
		if stop := i + len(said); stop > end && strings.HasPrefix(s[i:], said) && !isLetter(at(s, stop)) {
			end, n = stop, value
		}
	}
	return end, n
}

// besideAperture reports whether a stretch up to end stands beside an aperture: sixtieth at f16,
// f22 fifteenth.
func (s *scanner) besideAperture(end int) bool {
	next := skip(s.low, end)
	if at(s.low, next) == ',' {
		next = skip(s.low, next+1)
	} else {
		next = skip(s.low, unit(s.low, next, "at", "@"))
	}
	last := s.last()
	if last == tComma {
		last = s.kind(len(s.tokens) - 2)
	}
	_, mark := markInWords(s.low, next)
	return apertureAt(s.low, next) || mark != "" && next > end+1 || last == tAperture && s.settingFollows(end)
}

// markInWords is the mark of an aperture as it is said behind a time: at eleven, at five six.
// The end is i where there is none.
func markInWords(s string, i int) (end int, mark string) {
	for _, said := range [...][2]string{{"two eight", "2.8"}, {"two point eight", "2.8"}, {"five six", "5.6"}, {"five point six", "5.6"}, {"six three", "6.3"}, {"six point three", "6.3"}} {
		if end = i + len(said[0]); strings.HasPrefix(s[i:], said[0]) && boundary(s, end) {
			return end, said[1]
		}
	}
	end, n := inWords(s, i)
	if mark = strconv.Itoa(n); end > i && n > 2 && slices.Contains(fullStops, mark) && boundary(s, end) {
		return end, mark
	}
	return i, ""
}

// atMark is an aperture in words behind "at" and a time, on a line that has no other. Up to
// twelve it may be an hour, and is not sure.
func (s *scanner) atMark(next, end int) bool {
	stop, mark := markInWords(s.low, next)
	if mark == "" || s.field&(onSheet|onMeter) == 0 || s.last() != tTime || s.count(tAperture) > 0 || !s.settingFollows(stop) || apertureIn(s.low[stop:]) {
		return false
	}
	s.emit(tAt, "at", end)
	s.pos = next
	s.emit(tAperture, mark, stop)
	const hours = 12
	return number(mark) > hours || strings.Contains(mark, ".") || s.emit(tDoubt, "?", stop)
}

// apertureInWords is f twenty two, f five six.
func (s *scanner) apertureInWords() bool {
	if s.field&(onSheet|onMeter) == 0 || s.low[s.pos] != 'f' {
		return false
	}
	from := s.pos + 1
	for at(s.low, from) == ' ' || at(s.low, from) == '/' {
		from++
	}
	end, mark := markInWords(s.low, from)
	if mark == "" || from == s.pos+1 {
		return false
	}
	if stop, more := andA(s.low, end); stop > end {
		end, mark = stop, mark+"+"+more
	}
	return s.emit(tAperture, mark, end)
}

// timeInWords is ten seconds, two minutes, one and a half seconds, one fifteenth.
func (s *scanner) timeInWords() bool {
	if s.field&(onSheet|onMeter) == 0 {
		return false
	}
	if end, value := partInWords(s.low, s.pos); value != "" {
		stop := unit(s.low, end, "of a second", "second", "seconds", "sec")
		return (stop > end || unit(s.low, end, "of") == end) && s.emit(tTime, value, stop)
	}
	if end, n := ordinalAt(s.low, s.pos); end > s.pos && s.last() != tWord && s.besideAperture(end) {
		return s.emit(tTime, "1/"+strconv.Itoa(n), end)
	}
	if s.longInWords() {
		return true
	}
	end, n := inWords(s.low, s.pos)
	if end == s.pos {
		return false
	}
	more := 0.
	if stop, said := andA(s.low, end); stop > end {
		end, more = stop, number(said)
	}
	stop := unit(s.low, end, secondUnits...)
	return stop > end && s.emit(tTime, trimFloat(float64(n)+more), stop)
}

// longUnits are the words of minutes and hours with their seconds, the longer first.
var longUnits = [...]struct {
	seconds float64
	parts   []string // behind a part of one: half an hour, a quarter of an hour
	whole   []string
}{
	{3600, []string{"of an hour", "an hour"}, []string{"hours", "hour"}},
	{60, []string{"of a minute", "a minute"}, []string{"minutes", "minute", "mins", "min"}},
}

// longInWords is minutes and hours: two minutes and thirty seconds, half a minute, three
// quarters of an hour, an hour and a half.
func (s *scanner) longInWords() bool {
	end, total, size := s.longPart(s.pos)
	if end == s.pos {
		return false
	}
	if stop, said := andA(s.low, end); stop > end {
		return s.emit(tTime, trimFloat(total+size*number(said)), stop)
	}
	for size > 1 {
		next := skip(s.low, end)
		if strings.HasPrefix(s.low[next:], "and ") {
			next = skip(s.low, next+len("and "))
		}
		stop, n := inWords(s.low, next)
		if stop == next {
			if stop = digits(s.low, next); stop > next {
				n = int(number(s.low[next:stop]))
			}
		}
		if stop == next || n > 59 || next == end {
			break
		}
		if behind := unit(s.low, stop, longUnits[1].whole...); size == 3600 && behind > stop {
			end, total, size = behind, total+60*float64(n), 60
		} else if behind = unit(s.low, stop, secondUnits...); behind > stop {
			end, total, size = behind, total+float64(n), 1
		} else {
			break
		}
	}
	return boundary(s.low, end) && s.emit(tTime, trimFloat(total), end)
}

// longPart is a number of minutes or hours with its unit, and the seconds of the unit.
func (s *scanner) longPart(i int) (end int, seconds, size float64) {
	end = i
	try := func(stop int, n float64) {
		for _, u := range longUnits {
			behind := unit(s.low, stop, u.whole...)
			if n < 1 {
				behind = max(behind, unit(s.low, stop, u.parts...))
			}
			if behind > max(stop, end) {
				end, seconds, size = behind, n*u.seconds, u.seconds
			}
		}
	}
	if stop, n := inWords(s.low, i); stop > i {
		more := 0.
		if behind, said := andA(s.low, stop); behind > stop {
			stop, more = behind, number(said)
		}
		try(stop, float64(n)+more)
	}
	if strings.HasPrefix(s.low[i:], "an ") {
		try(i+len("an"), 1)
	}
	for _, f := range fractionsInWords {
		if strings.HasPrefix(s.low[i:], f[0]+" ") {
			try(i+len(f[0]), number(f[1]))
		}
	}
	return end, seconds, size
}

// Spoken is a number in words.
type Spoken struct {
	N    float64 // 22
	Part bool    // as the part of one: a fifteenth
}

// NumbersInWords are the numbers that a text says in words, twenty two, fifteenth, three and a
// half: for who asks what words that were kept as they are may have meant. A text says none in
// "a" and "an", and "one" by itself.
func NumbersInWords(text string) (all []Spoken) {
	s := lower(text)
	for i := 0; i < len(s); {
		if i > 0 && isLetter(s[i-1]) || !isLetter(s[i]) {
			i++
			continue
		}
		if end, n := ordinalAt(s, i); end > i {
			all, i = append(all, Spoken{float64(n), true}), end
			continue
		}
		if end := letterRun(s, i); s[i:end] == "half" || s[i:end] == "quarter" || s[i:end] == "viertel" {
			all, i = append(all, Spoken{map[string]float64{"half": 2, "quarter": 4, "viertel": 4}[s[i:end]], true}), end
			continue
		} else if s[i:end] == "hundred" { // a hundred
			all, i = append(all, Spoken{100, false}), end
			continue
		}
		end, n := inWords(s, i)
		if end == i {
			i = max(i+1, letterRun(s, i))
			continue
		}
		if stop := skip(s, end); n < 10 && strings.HasPrefix(s[stop:], "hundred") {
			end, n = stop+len("hundred"), 100*n
		}
		value := float64(n)
		if stop, more := andA(s, end); stop > end {
			end, value = stop, value+number(more)
		}
		if n != 1 || value != 1 {
			all = append(all, Spoken{value, false})
		}
		i = end
	}
	return all
}
