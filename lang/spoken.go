package lang

import (
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

// partInWords reads one part in words, of at most a second: an eighth, one fifteenth.
func partInWords(s string, i int) (end int, value string) {
	for _, one := range [...]string{"one ", "an ", "a "} {
		rest, ok := strings.CutPrefix(s[i:], one)
		if !ok {
			continue
		}
		longest := 0
		for said, n := range ordinals {
			if len(said) > longest && strings.HasPrefix(rest, said) && !isLetter(at(rest, len(said))) {
				longest, value = len(said), "1/"+strconv.Itoa(n)
			}
		}
		if longest > 0 {
			return i + len(one) + longest, value
		}
	}
	return i, ""
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
	end, n := inWords(s.low, s.pos)
	if end == s.pos {
		return false
	}
	more := 0.
	if stop, said := andA(s.low, end); stop > end {
		end, more = stop, number(said)
	}
	if stop := unit(s.low, end, secondUnits...); stop > end {
		return s.emit(tTime, trimFloat(float64(n)+more), stop)
	}
	stop := unit(s.low, end, minuteUnits...)
	if stop == end {
		return false
	}
	total := 60 * (float64(n) + more)
	next := skip(s.low, stop)
	if strings.HasPrefix(s.low[next:], "and ") {
		next = skip(s.low, next+len("and "))
	}
	if behind, seconds := inWords(s.low, next); behind > next && next > stop {
		if last := unit(s.low, behind, secondUnits...); last > behind {
			total, stop = total+float64(seconds), last
		}
	}
	return s.emit(tTime, trimFloat(total), stop)
}
