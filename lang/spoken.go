package lang

import (
	"math"
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

// ordinals are the words of parts: a third, one sixteenth, twenty-fifth. Second and first are none.
var ordinals = map[string]int{
	"third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12,
	"thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17, "eighteenth": 18, "nineteenth": 19,
	"twentieth": 20, "thirtieth": 30, "fortieth": 40, "fiftieth": 50, "sixtieth": 60, "seventieth": 70, "eightieth": 80, "ninetieth": 90,
	"hundredth": 100,
}

// numberWords are the words with which a number in words begins.
var numberWords = func() map[string]bool {
	all := SetOf("a an one hundred point")
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
		if at(s, end) == '-' && cardinals[s[end+1:letterRun(s, end+1)]] >= 10 {
			return i, 0 // soixante-dix
		}
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
	end, value = decimalInWords(s, i)
	if end == i || number(value) > float64(most) {
		return i, ""
	}
	if stop, more := andA(s, end); stop > end {
		end, value = stop, value+"+"+more
	}
	return end, value
}

// wholeInWords is such a number up to 999: a hundred and twenty, two hundred fifty.
func wholeInWords(s string, i int) (end, n int) {
	end, n = hundredsInWords(s, i)
	if end == i {
		return inWords(s, i)
	}
	next := unit(s, end, "and")
	if stop, more := inWords(s, skip(s, next)); more > 0 && skip(s, next) > end {
		return stop, n + more
	}
	return end, n
}

// decimalInWords is a whole number, or one with a decimal point that is said: two point five, point three.
func decimalInWords(s string, i int) (end int, value string) {
	end, n := wholeInWords(s, i)
	point := unit(s, end, "point")
	if end > i || point > end {
		value = strconv.Itoa(n)
	}
	from := skip(s, point)
	if stop, part := inWords(s, from); point > end && stop > from && part < 10 {
		return stop, value + "." + strconv.Itoa(part)
	}
	if end == i {
		return i, ""
	}
	return end, value
}

// hundredsInWords is hundred, a hundred, two hundred. The end is i where there is none.
func hundredsInWords(s string, i int) (end, n int) {
	end, n = unit(s, i, "a", "one"), 1
	if end == i {
		if stop, said := inWords(s, i); said > 1 && said < 10 {
			end, n = stop, said
		}
	}
	if stop := unit(s, end, "hundred"); stop > end {
		return stop, 100 * n
	}
	return i, 0
}

// figureInWords is a number as its figures are said too: one fifty, two ten, three hundred. The end is i
// where there is none.
func figureInWords(s string, i int) (end, n int) {
	end, n = wholeInWords(s, i)
	if next := skip(s, end); n > 0 && n < 10 && next > end {
		if stop, more := inWords(s, next); more >= 10 {
			return stop, 100*n + more
		}
	}
	return end, n
}

// spokenInWords is such a number with a part behind it, as spoken is in figures: sixteen and a half.
func spokenInWords(s string, i int) (end int, value string) {
	end, n := figureInWords(s, i)
	if end == i {
		return i, ""
	}
	value = strconv.Itoa(n)
	if stop, said := andA(s, end); stop > end {
		end, value = stop, value+"+"+said
	}
	return end, value
}

// Figure is a text that is a number in words and nothing else, in figures: one fifty is 150. "" for none.
func Figure(text string) string {
	s := lower(strings.TrimSpace(text))
	if end, n := figureInWords(s, 0); end > 0 && end == len(s) {
		return strconv.Itoa(n)
	}
	return ""
}

// lensInWords is a lens of the kit by its name in words, or a number in words before the word for one: with the one fifty.
// Whether it names one its line tells.
func (s *scanner) lensInWords() bool {
	end, n := figureInWords(s.low, s.pos)
	name := strconv.Itoa(n)
	if s.field != onSheet || end == s.pos || n < shortestLens || !boundary(s.low, end) {
		return false
	}
	return (s.names.Names[name] == Lens || unit(s.low, end, "lens") > end) && s.emit(tNumber, name, end)
}

// shortestLens is the focal length from which a number in words before or behind the word for a lens is one, in millimetres:
// the two lenses.
const shortestLens = 35

// part is a part of one in words, or half in figures: three tenths, a 30th, one over fifteen.
type part struct {
	of, over int
	open     bool // 1/25, and what people say for 1/125: one twenty-fifth
}

func (p part) String() string { return strconv.Itoa(p.of) + "/" + strconv.Itoa(p.over) }

// partInWords reads a part that a number of parts or an article stands before. The end is i where there
// is none.
func partInWords(s string, i int) (end int, p part) {
	from, n := unit(s, unit(s, i, "an", "a", "one"), oneAbroad...), 1
	article := !strings.HasPrefix(s[i:], "one")
	if from == i {
		if from, n = inWords(s, i); from == i {
			if from = digits(s, i); from > i && from < i+2 {
				n = int(number(s[i:from]))
			}
		}
	}
	if from == i || n < 1 || n > 9 {
		return i, part{}
	}
	next := from + 1
	if c := at(s, from); c != ' ' && c != '-' {
		return i, part{}
	}
	if behind := unit(s, from, "over", "slash"); behind > from && !article {
		start := skip(s, behind)
		stop, over := wholeOver(s, start)
		if stop > start && over > n && boundary(s, stop) {
			return stop, part{n, over, false}
		}
		return i, part{}
	}
	if stop, over := ordinalAt(s, next); stop > next && ((n > 1) == (s[stop-1] == 's') || s[stop-1] == 'l') && over > n {
		return stop, part{n, over, n == 1 && !article && over == 25}
	}
	for _, of := range [...]struct {
		word string
		over int
	}{{"half", 2}, {"quarters", 4}, {"quarter", 4}} {
		if stop := next + len(of.word); strings.HasPrefix(s[next:], of.word) && !isLetter(at(s, stop)) && (n > 1) == (of.word == "quarters") && of.over > n {
			return stop, part{n, of.over, false}
		}
	}
	return i, part{}
}

// wholeOver is the number below a fraction, in words or figures: fifteen, one twenty five, 30.
func wholeOver(s string, i int) (end, n int) {
	if end = digits(s, i); end > i && end < i+5 {
		return end, int(number(s[i:end]))
	}
	return figureInWords(s, i)
}

// ordinalAt is the longest ordinal at i, of one or of several parts, in words or figures: sixtieth, tenths,
// hundred and twenty-fifth, 30th. The end is i where there is none.
func ordinalAt(s string, i int) (end, n int) {
	if figures := digits(s, i); figures > i {
		if stop := unit(s, figures, "ths", "th"); figures < i+5 && stop > figures && !isSpace(s[figures]) {
			return stop, int(number(s[i:figures]))
		}
		return i, 0
	}
	if end, n = ordinalWord(s, i); end > i {
		return end, n
	}
	from, whole := hundredsInWords(s, i)
	if from > i {
		if from = skip(s, unit(s, from, "and")); at(s, from) == '-' {
			from++
		}
		if end, n = ordinalWord(s, from); end > from && n < 100 {
			return end, whole + n
		}
	} else if end, n = inWords(s, i); n > 0 && n < 10 {
		if stop := unit(s, end, "hundredths", "hundredth"); stop > end {
			return stop, 100 * n
		}
		return i, 0
	}
	if stop, tens := inTens(s, from); stop > from && (at(s, stop) == ' ' || at(s, stop) == '-') {
		if end, n = ordinalWord(s, stop+1); end > stop+1 && n < 10 {
			return end, whole + tens + n
		}
	}
	return i, 0
}

// inTens is twenty, thirty and so on to ninety.
func inTens(s string, i int) (end, n int) {
	end = letterRun(s, i)
	if n = cardinals[s[i:end]]; n < 20 {
		return i, 0
	}
	return end, n
}

// ordinalWord is an ordinal of one word, or several such parts: tenth, tenths.
func ordinalWord(s string, i int) (end, n int) {
	end = letterRun(s, i)
	word := s[i:end]
	if part, ok := strings.CutSuffix(strings.TrimSuffix(word, "n"), "sekunde"); ok {
		word, end = part, i+len(part) // Viertelsekunde
	}
	if hyphened := word + "-vingt-cinquième"; word == "cent" && strings.HasPrefix(s[i:], hyphened) {
		word, end = hyphened, i+len(hyphened)
	}
	if n = ordinals[strings.TrimSuffix(word, "s")]; n == 0 {
		return i, 0
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
		next = skip(s.low, unit(s.low, next, "at", "@", "bei", "à"))
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
	if stop, n := inWords(s.low, skip(s.low, end)); stop > skip(s.low, end) && n < 10 && len(mark) == 1 && s.settingFollows(stop) {
		return false // f four five may be 4.5 and 45
	}
	if stop, more := s.andPart(end); stop > end {
		end, mark = stop, mark+"+"+more
	}
	return s.emit(tAperture, mark, end)
}

// andPart is the part of a stop past an f-number, f22 and a half, where it is none of a second.
func (s *scanner) andPart(i int) (end int, value string) {
	end, value = andA(s.low, i)
	if unit(s.low, end, partUnits...) > end {
		return i, ""
	}
	return end, value
}

// timeInWords is ten seconds, two minutes, one and a half seconds, one fifteenth, three tenths of a second.
func (s *scanner) timeInWords() bool {
	if s.field&(onSheet|onMeter) == 0 {
		return false
	}
	if s.partOfSecond() || s.longInWords() {
		return true
	}
	end, value := decimalInWords(s.low, s.pos)
	if article := unit(s.low, s.pos, "a"); end == s.pos && unit(s.low, article, "full", "whole") > article {
		end, value = article, "1" // a full second
	}
	if article := unit(s.low, s.pos, oneAbroad...); end == s.pos && article > end {
		end, value = article, "1" // eine Sekunde
	}
	if end == s.pos {
		return false
	}
	total := number(value)
	if stop, said := andA(s.low, end); stop > end {
		end, total = stop, total+number(said)
	}
	full := unit(s.low, end, "full", "whole")
	stop := unit(s.low, full, secondUnits...)
	if stop == full {
		return false // a full zone
	}
	if behind, said := andA(s.low, stop); stop > end && behind > stop && total == math.Trunc(total) { // two seconds and a half
		stop, total = behind, total+number(said)
	}
	return boundary(s.low, stop) && s.emit(tTime, trimFloat(total), stop)
}

// partOfSecond is a part of a second, with its unit or where an aperture beside it or its size leaves nothing
// else: one fifteenth, 3 tenths of a second, f22 one quarter, sixtieth at f16. One that is open stays words, and
// so does one that belongs to words which are none: to and a half seconds.
func (s *scanner) partOfSecond() bool {
	if s.field&(onSheet|onMeter) == 0 {
		return false
	}
	end, p := partInWords(s.low, s.pos)
	if end == s.pos {
		stop, over := ordinalAt(s.low, s.pos)
		behind := unit(s.low, stop, partUnits...) // thirtieth of a second
		right := (s.last() == tAt || s.last() == tAperture) && boundary(s.low, stop) && unit(s.low, stop, "of") == stop
		if isDigit(s.low[s.pos]) || over < surely || s.last() == tWord || s.low[stop-1] == 's' || behind == stop && !right && !s.besideAperture(stop) {
			return false
		}
		return s.emit(tTime, part{of: 1, over: over}.String(), behind)
	}
	stop := unit(s.low, end, partUnits...)
	switch {
	case stop > end && (p.open || s.goesOn()):
		return s.emit(tWord, s.src[s.pos:stop], stop)
	case p.open:
		return false
	case stop > end:
	case unit(s.low, end, "of") > end:
		return false
	case p.of == 1 && p.over >= surely && (s.settingFollows(end) || !strings.Contains(s.low[s.pos:end], " over ")):
	case s.count(tTime) > 0 || s.last() == tAt && !s.settingFollows(end) || s.last() != tAt && (s.last() == tWord || !s.besideAperture(end)):
		return false
	}
	return boundary(s.low, stop) && s.emit(tTime, p.String(), stop)
}

// surely is from how many parts on one of them is one of a second by itself: no remark speaks of an eighth.
const surely = 8

// goesOn reports whether words that were not read stand before a part or a second, and make another number of
// it: to and a half seconds, some 30ths of a second.
func (s *scanner) goesOn() bool {
	return s.behindWord("of") || s.behindWord("and") && s.kind(len(s.tokens)-2) == tWord
}

var partUnits = append([]string{"of a second", "a second", "of a sec", "a sec", "de seconde", "de sec"}, fractionUnits...)

// longUnits are the words of minutes and hours with their seconds, the longer first.
var longUnits = [...]struct {
	seconds float64
	parts   []string // behind a part of one: half an hour, a quarter of an hour
	whole   []string
}{
	{3600, []string{"of an hour", "an hour", "stunde", "heure"}, []string{"hours", "hour", "stunden", "stunde", "heures", "heure"}},
	{60, []string{"of a minute", "a minute", "minute"}, []string{"minutes", "minute", "minuten", "mins", "min"}},
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
		} else if size == 60 && s.settingFollows(stop) { // one minute thirty four
			end, total, size = stop, total+float64(n), 1
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
	if stop := max(unit(s.low, i, "an"), unit(s.low, i, oneAbroad...)); stop > i {
		try(stop, 1)
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

// CutNumber cuts the number in words off the head of a text: one fifteen, three tenths of a second. It tells nothing of
// "a" and "an" by themselves.
func CutNumber(text string) (rest string, found bool) {
	s := lower(text)
	i := 0
	for {
		from := skip(s, i)
		end, _ := partInWords(s, from)
		if end == from {
			end, _ = ordinalAt(s, from)
		}
		if end == from {
			end, _ = figureInWords(s, from)
		}
		if end == from {
			end = unit(s, from, "half", "quarter", "full", "whole")
		}
		if article := unit(s, from, "a", "an"); end == from && !found && article > from {
			i = article
			continue
		}
		if end == from || !boundary(s, end) {
			break
		}
		i, found = end, true
	}
	if !found {
		return text, false
	}
	return text[skip(s, unit(s, i, partUnits...)):], true
}
