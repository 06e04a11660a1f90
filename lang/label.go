package lang

import (
	"strconv"
	"strings"
)

// labelAt is a label in the folded line: a name, a sheet, or a range of them.
type labelAt struct {
	text       string
	start, end int
	day, dayTo int  // stretch of the day that stands before it; empty where none does
	one        bool // a number of a series that is known, though it reads as a run: 57-58
	open       bool // it may be one, or a run: no year is known
	told       bool // in so many words: holder 1 side B, two B
}

// labelList is the labels before a colon.
type labelList struct {
	all    []labelAt
	either bool // "1A or 2B": one of them
}

// splitLabels reads a list of labels that stands at an offset of the line; ok
// says whether every word of it can be one. Behind a log word more can be a
// label than alone: p1, T1, A; and behind one that speaks of sheets already logged a day
// may stand before them, which holds up to the next.
func splitLabels(text string, at int, behind Word, names *Lexicon) (list labelList, ok bool) {
	ranged := false // the word before joins two labels to a range
	var day labelAt
	for i := 0; i < len(text); {
		end := i
		for end < len(text) && !isSpace(text[end]) && text[end] != ',' {
			end++
		}
		if end == i {
			i++
			continue
		}
		if behind.ofSheets() && !ranged {
			if length := dayBefore(text[i:], names); length > 0 {
				day.day, day.dayTo = at+i, at+i+length
				i += length
				continue
			}
		}
		if called := callsSheet(text[i:]); behind != "" && called > 0 && i+called < len(text) {
			i += called
			continue
		}
		if side, length := holderSide(text[i:]); side != "" {
			if end = i + length; ranged {
				list.runTo(side, at+end)
			} else {
				list.all = append(list.all, labelAt{text: side, start: at + i, end: at + end, day: day.day, dayTo: day.dayTo, told: true})
			}
			i, ranged = end, false
			continue
		}
		word := lower(text[i:end])
		if sides := list.sides(text[i:end], names); len(sides) > 0 && !ranged {
			for _, side := range sides {
				side.start, side.end, side.day, side.dayTo = at+i+side.start, at+i+side.end, day.day, day.dayTo
				list.all = append(list.all, side)
			}
			i = end
			continue
		}
		switch {
		case joins(word) && len(list.all) > 0:
			list.either = list.either || word == "or"
			ranged = word == "to" || word == "-" || word == "--" || word == "through"
		case !looksLabel(word, names) && !(behind != "" && looseLabel(text[i:end])):
			return list, false
		case ranged:
			list.runTo(text[i:end], at+end)
			ranged = false
		default:
			one, open := names.plateOf(word)
			list.all = append(list.all, labelAt{list.inSeries(text[i:end], names), at + i, at + end, day.day, day.dayTo, one, open, false})
		}
		i = end
	}
	return list, len(list.all) > 0
}

// runTo makes the last label the first of a run.
func (l *labelList) runTo(label string, end int) {
	last := &l.all[len(l.all)-1]
	last.text, last.end, last.one, last.open = last.text+"-"+label, end, false, false
}

// callsSheet is how long the words are at the beginning of a text that call what is numbered behind them
// a sheet, 0 where there are none: Pl. 1, plate no. 4, Nr. 8, № 3.
func callsSheet(text string) (length int) {
	if isDigit(at(text, 0)) {
		return 0 // as most
	}
	low := lower(text)
	if end := letterRun(low, 0); plates[low[:end]] {
		if at(low, end) == '.' {
			end++
		}
		length = skip(low, end)
	}
	return length + numberSign(low[length:])
}

// callsPlate reports whether a text begins with a word for a sheet in notes of plates.
func callsPlate(text string) bool {
	low := lower(text)
	return plates[low[:letterRun(low, 0)]]
}

// numberSign is how long the sign before a number is that a text in lower case begins with, 0 where there is
// none. Without its full stop no is one before figures alone: not in develop no 3A.
func numberSign(low string) int {
	end := letterRun(low, 0)
	said := low[:end]
	if !numberSigns[said] {
		return 0
	}
	if at(low, end) == '.' {
		return skip(low, end+1)
	}
	next := skip(low, end)
	if figures := digits(low, next); said == "no" && (figures == next || isLetter(at(low, figures))) {
		return 0
	}
	return next
}

// plates are words for a sheet in notes of plates, numberSigns those before a number that say it is one
// (common practice, no source).
var (
	plates      = SetOf("plate plates pl platte platten plaque plaques")
	numberSigns = SetOf("no nos nr nrn num number nummer numéro numero n° №")
)

// sides are the sides of holders that a word names with a sign between them, 1A/1B, 2A/B, 1A+B, and
// the one that a letter names behind a sign and another of its holder, 1A + B; none where it names
// no two, or is a label that is known as it stands.
func (l *labelList) sides(word string, names *Lexicon) (all []labelAt) {
	holder := ""
	if n := len(l.all); n > 0 && len(word) == 1 {
		holder = holderOf(l.all[n-1].text)
	}
	if from, to, ok := cutDash(word); ok && len(to) == 1 && len(from)+len("-B") == len(word) && !isDigit(to[0]) {
		word = from + "/" + to // 1A-B
	}
	if holder == "" && !strings.ContainsAny(word, "/+&") || names.Labels[lower(word)] {
		return nil
	}
	for from := 0; from <= len(word); {
		end := from
		for end < len(word) && strings.IndexByte("/+&", word[end]) < 0 {
			end++
		}
		side := word[from:end]
		if digits(side, 0) == 0 {
			side = holder + side
		}
		if holder = holderOf(side); holder == "" {
			return nil
		}
		all = append(all, labelAt{text: side, start: from, end: end})
		from = end + 1
	}
	return all
}

// holderOf is the number of the holder of which a label is a side, "" where it is none: 3 of 3A.
func holderOf(label string) string {
	end := digits(label, 0)
	if c := at(label, end) | 0x20; end == 0 || end > 4 || end+1 != len(label) || c != 'a' && c != 'b' {
		return ""
	}
	return label[:end]
}

// inSeries is a label that says no more than its count behind a number that says the
// series, in full: 132 behind 83-131 is 83-132, and 2 behind 84/1 is 84/2, unless it is known by itself.
func (l *labelList) inSeries(label string, names *Lexicon) string {
	first, to, run := cutDash(label) // 3-5
	if len(l.all) == 0 || digits(label, 0) != len(label) && !(run && digits(first, 0) == len(first) && digits(to, 0) == len(to)) {
		return label
	}
	if !run {
		first = label
	}
	before := &l.all[len(l.all)-1]
	last := before.text
	sign := strings.LastIndexAny(last, "-/")
	if sign < 0 || digits(last, sign+1) != len(last) {
		return label
	}
	count := last[sign+1:]
	series, numbered := seriesOf(last)
	switch {
	case run && (numbered && first == series || number(first) > number(to)): // 78-1 78-2
		return label
	case names.Labels[first] || number(first) <= number(count):
		return label
	case !before.one && len(expand(last)) > 1 && !numberRun(last):
		return label // of holder sides, 12-14
	case (run || len(count) != len(first)) && (len(count) > len(first) && count[0] != '0' || !numbered && !numberRun(last)):
		return label
	}
	full := last[:strings.IndexAny(last, "-/")+1] + padded(first, count)
	if run {
		full += "-" + to
	}
	return full
}

// padded is a count with as many figures as another: 002 behind 001.
func padded(count, as string) string {
	if as[0] != '0' {
		return count
	}
	return strings.Repeat("0", max(0, len(as)-len(count))) + count
}

// joins are the words and signs between labels.
func joins(word string) bool {
	switch word {
	case "and", "or", "&", "+", "/", "to", "through", "-", "--":
		return true
	}
	return false
}

// Joins reports whether a word or sign stands between labels: and, &, to.
func Joins(word string) bool { return joins(lower(word)) }

// looseLabel is a label of the writer's own kind, where a log word before it
// says that it is one: p1, T1, neg-12, A.
func looseLabel(word string) bool {
	if word == "" || len(word) > 24 || strings.ContainsAny(word, `"()[]{}<>*=:;!?`) {
		return false
	}
	if strings.ContainsAny(word, "0123456789") {
		return true
	}
	if from, to, ok := cutDash(word); ok && romanRange(from, to) != nil {
		return true
	}
	return len(word) <= 2 && word[0] >= 'A' && word[0] <= 'Z' || romanNumber(word) > 0
}

// romanNumber is what a label in roman figures counts, all of them capitals, 0 where it is none: XIV.
func romanNumber(label string) int {
	const most = 3 // tens
	units := strings.TrimLeft(label, "X")
	tens := len(label) - len(units)
	n := romans[lower(units)]
	if tens > most || units != strings.ToUpper(units) || units != "" && n == 0 {
		return 0
	}
	return 10*tens + n
}

// romanRange is every number from one to another, in roman figures; nil where the two are no range of them.
func romanRange(from, to string) (all []string) {
	last := romanNumber(to)
	for n := romanNumber(from); n > 0 && n <= last; n++ {
		units := ""
		for figures, value := range romans {
			if value == n%10 && value > 0 {
				units = strings.ToUpper(figures)
			}
		}
		all = append(all, strings.Repeat("X", n/10)+units)
	}
	return all
}

// looksLabel reports whether a word, in lower case, can be the label of a sheet
// or a range of them: 3A, 12b, #31, 31, 3AB, 1A-3B, or any that is known.
func looksLabel(word string, names *Lexicon) bool {
	if word == "" || len(word) > 24 {
		return false
	}
	if names.Labels[word] {
		return true
	}
	if len(new(labelList).sides(word, names)) > 0 {
		return true
	}
	if names.plateSlashed(word) {
		return true
	}
	if from, to, ranged := cutDash(word); ranged {
		return looksLabel(from, names) && looksLabel(to, names)
	}
	word = strings.TrimPrefix(word, "#")
	end := digits(word, 0)
	if end == 0 || end > 4 {
		return false
	}
	side := word[end:]
	if tick := strings.IndexByte(side, '\''); tick >= 0 && digits(side, tick+1) == len(side) {
		side = side[:tick]
	}
	return side == "" || len(side) == 1 && side[0] >= 'a' && side[0] <= 'z' || side == "ab"
}

// sided reports whether a label, in lower case, names a side of a holder or a
// negative's number, and so can hardly be anything but a label.
func sided(word string) bool {
	if word[0] == '#' {
		return true
	}
	if from, to, ranged := cutDash(word); ranged {
		return sided(from) && sided(to)
	}
	last := word[len(word)-1]
	return digits(word, 0) > 0 && (last == 'a' || last == 'b' || strings.IndexByte(word, '\'') > 0)
}

// ofYear reports whether two figures with a dash between are one negative's number,
// a year and a count: 26-041, 26-105, 86-41, 03-11, and with a letter 86-12a. 98-102 is five sheets, and 26-31 six.
func ofYear(from, to string) bool {
	to = withoutLetter(to)
	if to[0] == '0' {
		return true
	}
	from = strings.TrimPrefix(from, "#")
	if digits(from, 0) != len(from) || digits(to, 0) != len(to) {
		return false
	}
	if len(from) == 4 {
		return number(from) > number(to) // 1983-114
	}
	if len(from) != 2 {
		return false
	}
	return from[0] == '0' || number(from) > number(to) || len(to) == 3 && number(to)-number(from) > mostInRow
}

// mostInRow is how many sheets one line logs at most that counts them by numbers alone, of which more are hardly meant.
const mostInRow = 12

// cutDash splits a range at its dash.
func cutDash(s string) (from, to string, ok bool) {
	from, to, ok = strings.Cut(s, "-")
	to = strings.TrimPrefix(to, "-")
	return from, to, ok && from != "" && to != ""
}

// Expand writes out a label that may be a range: 1A-3B, T1-T9, 3AB.
func Expand(label string) []string { return expand(label) }

// expand writes out 3AB and the ranges of holder sides and numbers; what
// cannot be counted through stays as its two ends.
func expand(label string) []string {
	if from, to, ok := seriesEnds(label); ok {
		return expandSeries(from, to)
	}
	if from, to, ok := cutDash(label); ok && !ofYear(from, to) {
		return expandRange(from, to)
	}
	if n := digits(label, 0); n > 0 && lower(label[n:]) == "ab" {
		return []string{label[:n+1], label[:n] + label[n+1:]}
	}
	return []string{label}
}

// single reports at one look whether a label is no range: 1A, #31.
func single(label string) bool {
	last := label[len(label)-1] | 0x20
	return strings.IndexByte(label, '-') < 0 && (last != 'b' || len(label) < 2 || label[len(label)-2]|0x20 != 'a')
}

// labelled reports whether a label is known.
func (x *Lexicon) labelled(label string) bool {
	var room [16]byte // for small letters, which no new string is made of
	if len(label) > len(room) {
		return x.Labels[lower(label)]
	}
	for i := range len(label) {
		room[i] = label[i]
		if c := label[i]; c >= 'A' && c <= 'Z' {
			room[i] |= 0x20
		}
	}
	return x.Labels[string(room[:len(label)])]
}

func (x *Lexicon) learnLabel(label string) {
	if x.labelled(label) {
		return // as most are
	}
	low := lower(label)
	learn(x, aLabel, &x.Labels, low, true)
	if series, ok := seriesOf(low); ok && !x.listens {
		x.series[series] = true
	}
}

// seriesOf is what the numbers of a season's negatives begin with: 91 of 91-8, and of 91/8.
func seriesOf(label string) (series string, ok bool) {
	from, to, ok := cutDash(label)
	if year, count, slash := strings.Cut(label, "/"); slash && len(year) == 2 {
		from, to, ok = year, count, count != ""
	}
	to = withoutLetter(to)
	return from, ok && digits(from, 0) == len(from) && digits(to, 0) == len(to) && from != "" && to != ""
}

// numbers is the series of labels that are numbers and nothing else.
const numbers = ""

// numbersAlone reports whether a label, in lower case, is a number and nothing else, or a run of such. Longer ones may be hours.
func numbersAlone(label string) bool {
	const longest = 3
	end := digits(label, 0)
	if from, to, ranged := cutDash(label); ranged && end == len(from) && !ofYear(from, to) {
		label, end = to, digits(to, 0)
	}
	return end > 0 && end <= longest && end == len(label)
}

// withoutLetter is the count of a negative's number without the letter of a variant: 12 of 12a.
func withoutLetter(count string) string {
	if end := digits(count, 0); end > 0 && end+1 == len(count) && isLetter(count[end]|0x20) {
		return count[:end]
	}
	return count
}

// seriesEnds splits a run of numbers that have a dash or a slash within them: 83-101-83-103 and
// 83-101-103, as 83-101 to 83-103 and 83-101 to 103 are joined, and 84/17-84/19 and 84/17-19.
func seriesEnds(label string) (from, to string, ok bool) {
	dashes := strings.Count(label, "-")
	sign := "-"
	if strings.Contains(label, "/") {
		sign = "/"
	} else if dashes < 2 {
		return "", "", false // as nearly all
	}
	parts := strings.FieldsFunc(label, func(c rune) bool { return c == '-' || c == '/' })
	for _, p := range parts {
		if digits(p, 0) != len(p) && digits(strings.TrimPrefix(p, "#"), 0) != len(p)-1 {
			return "", "", false
		}
	}
	if len(parts) != 3 && len(parts) != 4 {
		return "", "", false
	}
	from, to = parts[0]+sign+parts[1], parts[0]+sign+parts[2]
	if len(parts) == 4 {
		to = parts[2] + sign + parts[3]
		return from, to, label == from+"-"+to
	}
	return from, to, label == from+"-"+parts[2]
}

// numberRun reports whether a label is a run of numbers of one series.
func numberRun(label string) bool {
	from, to, ok := seriesEnds(label)
	return ok && len(expandSeries(from, to)) > 2
}

// expandSeries is every number from one to another of its series; of two series, and where
// it leads back, the two.
func expandSeries(from, to string) []string {
	sign := strings.IndexAny(from, "-/")
	prefix, first := from[:sign+1], from[sign+1:]
	sign = strings.IndexAny(to, "-/")
	other, last := to[:sign+1], to[sign+1:]
	a, errA := strconv.Atoi(first)
	b, errB := strconv.Atoi(last)
	if errA != nil || errB != nil || strings.TrimPrefix(prefix, "#") != strings.TrimPrefix(other, "#") || b <= a || b-a > mostInRange {
		return []string{from, to}
	}
	all := make([]string, 0, b-a+1)
	for n := a; n <= b; n++ {
		all = append(all, prefix+padded(strconv.Itoa(n), first))
	}
	return all
}

// mostOnSheetLine is the longest run of numbers alone that a sheet line logs: more are
// never exposed alike, and it is one number with a dash within it.
const mostOnSheetLine = 20

// written is the labels that one of a line with a log word comes to.
func (l *labelAt) written(word Word) []string {
	label := l.text
	if l.one && word == Sheet {
		return []string{label}
	}
	if from, to, ok := cutDash(label); ok && word != Load && (len(from) == 2 || len(from) == 4) && digits(from, 0) == len(from) && withoutLetter(to) != to {
		return []string{label} // 26-31a: no run leads from a number to one with a letter
	}
	if from, to, ok := cutDash(label); ok && word == Sheet {
		a, sideA, okA := counted(strings.TrimPrefix(from, "#"))
		b, sideB, okB := counted(strings.TrimPrefix(to, "#"))
		if okA && okB && sideA+sideB == "" && (b-a > mostOnSheetLine || b < a) {
			return []string{label}
		}
	}
	return expand(label)
}

// mostInRange bounds what a slip of the finger can make of a range.
const mostInRange = 500

func expandRange(from, to string) []string {
	if all := romanRange(from, to); all != nil {
		return all
	}
	start := len(from) - len(strings.TrimLeft(from, "#abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	prefix := from[:start]
	a, sideA, okA := counted(from[start:])
	b, sideB, okB := counted(strings.TrimPrefix(to, prefix))
	if !okA || !okB || b < a || b-a > mostInRange || (sideA == "") != (sideB == "") {
		return []string{from, to}
	}
	sides := []string{"A", "B"}
	if strings.HasSuffix(from, sideA) { // counted makes it small: it is so typed
		sides = []string{"a", "b"}
	}
	all := make([]string, 0, 2*(b-a+1))
	for n := a; n <= b; n++ {
		if sideA == "" {
			all = append(all, prefix+strconv.Itoa(n))
			continue
		}
		for i, side := range sides {
			if low := [...]string{"a", "b"}[i]; (n > a || low >= sideA) && (n < b || low <= sideB) {
				all = append(all, prefix+strconv.Itoa(n)+side)
			}
		}
	}
	return all
}

// counted splits a label into its number and its side.
func counted(label string) (n int, side string, ok bool) {
	end := digits(label, 0)
	if end == 0 {
		return 0, "", false
	}
	n, err := strconv.Atoi(label[:end])
	switch side = label[end:]; side {
	case "A":
		side = "a"
	case "B":
		side = "b"
	}
	return n, side, err == nil && (side == "" || side == "a" || side == "b")
}
