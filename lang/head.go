package lang

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

// head is what stands before a log line's colon, and where its body begins.
// Offsets count from the start of the folded text that was looked at.
type head struct {
	how        manner
	from       int // first byte of the word or label, behind list and bold marks
	word, said int // the word's stretch; empty where a label stands alone
	labels     []labelAt
	either     bool   // the labels are a choice: 1A or 2B
	year       string // under which it stands: see dating
	hour       hour   // that stands before a sheet's label; none where its end is 0
	body       int    // behind the colon
}

// longestHead is how far a colon is looked for.
const longestHead = 160

// hasColon is a quick look whether a line can have a head at all.
func hasColon(line string) bool {
	line = line[:min(len(line), 2*longestHead)]
	return strings.IndexByte(line, ':') >= 0 || strings.Contains(line, "：") || strings.Contains(line, "∶")
}

// readHead recognises a log line, folded, by its beginning. It must be right
// about prose with colons, so a word of the notation counts only with labels
// that can be labels, and a lone label only where it is one or the line reads
// as one.
func readHead(line string, names *Lexicon) (head, bool) {
	from := opening(line)
	if h, ok := headAt(line, from, names); ok {
		return h, true
	}
	before := lead(line, from)
	if before.end == from {
		return head{}, false
	}
	h, ok := headAt(line, before.end, names)
	switch {
	case !ok:
	case h.said > h.word:
		ok = !before.begins || h.beginsAnew(line, names)
	default:
		h.hour = before.hour
		ok = !before.begins && before.hours <= 1 && h.sheetBehind(line, names)
	}
	return h, ok
}

// sheetBehind reports whether labels alone behind an hour or a picture are a sheet's: of a holder's side, or known and no bare
// number, with terms that read like a sheet's. 14:20 4A: bus to the quarry is prose.
func (h *head) sheetBehind(line string, names *Lexicon) bool {
	if h.hour.bare && digits(line, h.hour.end-len("1420")) == h.hour.end {
		return false // a number, and perhaps a label
	}
	for _, l := range h.labels {
		low := lower(l.text)
		if !sided(low) && (!names.Labels[low] || digits(low, 0) == len(low)) {
			return false
		}
	}
	s := scanFolded(line[h.body:], onSheet, names)
	return s.count(tAperture, tEV) > 0 || h.reads(line, names)
}

// headAt is a head that begins at an offset of the line.
func headAt(line string, from int, names *Lexicon) (head, bool) {
	colon := colonIn(line[from:])
	if colon < 0 {
		return head{}, false
	}
	mark := line[len(strings.TrimRight(line[:from], "*_")):from]
	said := strings.TrimRight(line[from:from+colon], "* \t"+mark)
	h := head{from: from, body: from + colon + 1}
	if mark != "" && strings.HasPrefix(line[h.body:], mark) {
		h.body += len(mark)
	}
	if h.wordHead(said, line, names) || h.labelHead(said, line, names) || h.plateHead(said, line, names) {
		return h, true
	}
	return head{}, false
}

// boxes are what people put before a line: task boxes, and bullets that are
// not Markdown's.
var boxes = []string{"[ ] ", "[x] ", "[X] ", "• ", "◦ ", "▪ ", "· ", "‣ ", "-- "}

// opening skips a box and the mark of text that stands out.
func opening(line string) int {
	i := skip(line, 0)
	if c := at(line, i); c == '[' || c == '-' || c >= 0x80 {
		for _, box := range boxes {
			if strings.HasPrefix(line[i:], box) {
				i = skip(line, i+len(box))
				break
			}
		}
	}
	return i + outstanding(line[i:])
}

// outstanding is how long the mark is that a line begins with, where it makes its head stand out:
// of *1A*: or _1A:_ as of **1A:**, which is one too where the whole line is bold.
func outstanding(line string) int {
	c := at(line, 0)
	if c != '*' && c != '_' {
		return 0
	}
	n := len(line) - len(strings.TrimLeft(line, line[:1]))
	mark := line[:n]
	if mark == "**" {
		return n
	}
	colon := colonIn(line)
	if colon < 0 || !strings.HasSuffix(strings.TrimRight(line[n:max(n, colon)], " \t"), mark) && !strings.HasPrefix(line[colon+1:], mark) {
		return 0
	}
	return n
}

// led is what stands before a log word or a label: hours, pictures, and the words next and new.
type led struct {
	end    int
	begins bool // one of the words is among it
	hours  int
	hour   hour // the last
}

// lead is where a line goes on behind an hour, a picture or the words next and new, which people
// put before a log word.
func lead(line string, from int) led {
	for l := (led{end: from}); ; {
		next := l.end
		switch c := at(line, l.end); {
		case c >= utf8.RuneSelf:
			next = picture(line, l.end)
		case isDigit(c) || c == '[' || c == '(':
			if stop, h := hourBefore(line, l.end); stop > l.end {
				next, l.hour = stop, h
				l.hours++
			}
		case c|0x20 == 'n':
			word := letterRun(lower(line), l.end)
			if said := lower(line[l.end:word]); (said == "next" || said == "new") && isSpace(at(line, word)) {
				next, l.begins = word, true
			}
		}
		if next == l.end {
			return l
		}
		l.end = skip(line, next)
	}
}

// picture is the end of the pictures that stand at i. One that crosses out or asks is none.
func picture(line string, i int) int {
	for i < len(line) {
		c, size := utf8.DecodeRuneInString(line[i:])
		if !unicode.In(c, unicode.So, unicode.Sk, unicode.Mn, unicode.Cf) || strings.ContainsRune("✗✘✕✖❌❎🚫⛔🗑🚮❓❔", c) {
			break
		}
		i += size
	}
	return i
}

// hourBefore is a time of day before other words, in brackets or not, and its end: 11:20, 2.15pm –
func hourBefore(line string, i int) (int, hour) {
	from := i
	bracketed := !isDigit(line[i])
	if bracketed {
		from++
	}
	h, ok := hourAt(lower(line), from)
	if !ok {
		return i, hour{}
	}
	end := h.end
	if bracketed {
		if c := at(line, end); c != ']' && c != ')' {
			return i, hour{}
		}
		end++
	}
	if c := at(line, end); c == ',' || c == ':' || c == ';' {
		end++
	}
	if !isSpace(at(line, end)) {
		return i, hour{}
	}
	end = skip(line, end)
	for at(line, end) == '-' {
		end++
	}
	return end, h
}

// beginsAnew reports whether a log word behind next or new is one: a scene's, or one with labels, a
// name or settings behind it. New film: arrived on Tuesday is prose.
func (h *head) beginsAnew(line string, names *Lexicon) bool {
	body := line[h.body:]
	switch {
	case h.how.word == Scene || h.how.labels < 0 && len(h.labels) > 0:
		return true
	case h.how.word == Day:
		_, iso := isoDate(body, skip(body, 0))
		return iso
	case names.Names[lower(strings.TrimSpace(body))] == h.how.word:
		return true
	}
	s := scanFolded(body, h.how.field, names)
	return h.how.field != 0 && s.settings() > 0 && s.terse()
}

// colonIn is the offset of the first colon, or -1.
func colonIn(s string) int { return strings.IndexByte(s[:min(len(s), longestHead)], ':') }

// wordHead is a log word, alone or with labels.
func (h *head) wordHead(said, line string, names *Lexicon) bool {
	end := 0
	for end < len(said) && (isLetter(said[end]) || said[end] >= 'A' && said[end] <= 'Z') {
		end++
	}
	how, ok := names.word(said[:end])
	if !ok {
		return false
	}
	rest := strings.TrimLeft(said[end:], " \t")
	start := h.from + len(said) - len(rest)
	h.how, h.word, h.said = how, h.from, h.from+end
	switch {
	case rest == "":
		return !how.needs || h.speaksOfSheet(line, names)
	case how.word == Scene && digits(rest, 0) == len(rest):
		return true // scene 2: gate
	case how.labels == 0 || rest == said[end:]:
		return false
	case how.labels == 1:
		h.labels = []labelAt{{text: rest, start: start, end: start + len(rest)}}
		return len(strings.Fields(rest)) <= 4 && h.declares(line, names)
	}
	list, all := splitLabels(rest, start, how.word, names)
	h.labels, h.either = list.all, list.either
	if film := strings.Trim(lower(line[h.body:]), " \t."); all && how.word == HolderWord && names.Names[film] == Film {
		h.how = words[string(Load)] // holders 1-4: slate
	}
	return all
}

// speaksOfSheet tells "neg: 26-041", which lacks its sheet's label, from "Load: heavy".
func (h *head) speaksOfSheet(line string, names *Lexicon) bool {
	body := skip(line, h.body)
	switch h.how.word {
	case Neg:
		return isNumbers(line[body:])
	case Density:
		s := scanFolded(line[body:], onDensity, names)
		return strings.ContainsAny(s.src, "0123456789") && 2*s.count(tWord) <= len(s.tokens)-s.count(tComma, tRemark)
	}
	return false
}

// isNumbers reports whether a text in front of any remark is the numbers of negatives: one of
// a series, 26-041, or figures and nothing but what makes a run of them.
func isNumbers(text string) bool {
	text, _, _ = strings.Cut(text, " -- ")
	text, _, _ = strings.Cut(text, "(")
	said := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == '\t' || c == ',' || c == ';' })
	if len(said) == 0 || !isDigit(said[0][0]) {
		return false
	}
	if end := digits(said[0], 0); at(said[0], end) == '-' && isDigit(at(said[0], end+1)) {
		return true
	}
	for _, one := range said {
		if !isDigit(one[0]) && one != "to" && one != "through" && one != "and" && one != "-" && one != "--" {
			return false
		}
	}
	return true
}

// word is a log word, the notation's or the writer's own.
func (x *Lexicon) word(said string) (manner, bool) {
	low := lower(said)
	if how, ok := words[low]; ok {
		return how, true
	}
	if own, ok := x.Words[low]; ok {
		how, ok := words[string(own)]
		return how, ok
	}
	return manner{}, false
}

// declares tells "film slate: ISO 400" from "film choice: I am not sure".
func (h *head) declares(line string, names *Lexicon) bool {
	body := line[skip(line, h.body):]
	label := h.labels[0].text
	if h.how.free || body == "" || strings.ContainsAny(label, "0123456789") || names.Names[lower(label)] == h.how.word {
		return true
	}
	if low := lower(body); h.how.word == Meter && (strings.HasPrefix(low, "ev at ") || strings.HasPrefix(low, "offset ")) {
		return true
	}
	s := scanFolded(body, h.how.field, names)
	const few = 8 // words
	if h.how.word == Meter && (s.settings() > 0 && s.count(tWord) <= few || s.count(tStops) > 0) {
		return true // a reading by it: meter spot: wall EV 8 on V
	}
	return len(s.tokens) > 0 && s.tokens[0].Type != tWord || s.count(tISO, tOldSpeed, tEI, tClass, tFactor, tStops, tLength, tAperture, tDensity, tFilter) > 0
}

// labelHead is one or more labels alone: a sheet line.
func (h *head) labelHead(said, line string, names *Lexicon) bool {
	list, all := splitLabels(said, h.from, "", names)
	if !all || len(list.all) > 1 && (inClock(line, h.body-1) || hourFirst(list.all, names)) {
		return false
	}
	h.labels, h.either = list.all, list.either
	h.how, h.word, h.said = sheetLine, h.from, h.from
	if slices.ContainsFunc(h.labels, func(l labelAt) bool { return l.told }) {
		s := scanFolded(line[h.body:], onSheet, names)
		return s.settings()+s.count(tSame) > 0 // Holder 1 side B: EV 12, f22 1/8
	}
	known := true
	for _, l := range h.labels {
		low := lower(l.text)
		if sided(low) {
			return true
		}
		known = known && (names.Labels[low] || names.Labels[expand(low)[0]])
	}
	// Any other label is one only where the line reads like a sheet's, and where
	// no time of day is written.
	if isDigit(at(line, h.body)) && digits(said, 0) == len(said) {
		return false
	}
	return known && (at(line, h.body) == ' ' || h.body == len(line)) || h.reads(line, names) || h.goesOn(line, names)
}

// inClock reports whether a colon is that of a time of day, and another follows: 1A 17:40: f16.
func inClock(line string, colon int) bool {
	return colon > 0 && isDigit(line[colon-1]) && digits(line, colon+1) == colon+3 && strings.IndexByte(line[colon+3:], ':') >= 0
}

// hourFirst reports whether the first of several labels is rather an hour, before a holder's side: 1420 1A.
func hourFirst(list []labelAt, names *Lexicon) bool {
	low := lower(list[0].text)
	_, hour := hourAt(low, 0)
	return len(low) == 4 && digits(low, 0) == 4 && hour && sided(lower(list[1].text)) && !names.Labels[low]
}

// goesOn reports whether a line goes on with a series of numbers that sheets were logged under,
// and has a setting or a ditto mark in it, however many words stand beside: 91-8: North rim by the road f22 1/15.
// The first of a series is a year and a count, and has an aperture and a time, or a light value and one of the two, or
// next to no words. Behind a number alone, where sheets are logged under such, it is a line of few words.
func (h *head) goesOn(line string, names *Lexicon) bool {
	label := lower(h.labels[0].text)
	if len(h.labels) == 1 && numbersAlone(label) && names.series[numbers] {
		s := scanFolded(line[h.body:], onSheet, names)
		const few = 8 // words, of a line that is no story
		words := s.count(tWord, tNo, tNot)
		return (s.tells() || s.kind(0) == tSame) && words <= few || (s.count(tAperture, tEV) > 0 || s.timed()) && words <= 1
	}
	series, ok := seriesOf(label)
	if !ok || len(h.labels) > 1 {
		return false
	}
	s := scanFolded(line[h.body:], onSheet, names)
	const fewer = 3 // words, a subject's
	kinds := min(1, s.count(tAperture)) + min(1, s.count(tTime)) + min(1, s.count(tEV))
	known := names.series[series] || names.ofThisYear(series)
	return known && (kinds > 0 || s.marks() > 0) || ofYear(series, label[len(series)+1:]) && (kinds > 1 || s.count(tEV) > 0 && s.count(tWord) <= fewer)
}

// plateHead is a sheet called a plate, or by its number in so many words, before what was set there: Pl. 1: f22 1/8,
// Plate II: f22 1/8, No. 1: f22 1/8. Where holder sides are logged under that number, it may be either side. A plate's
// own word says so much that one setting is enough, whatever words stand beside it, unless they are of its print.
func (h *head) plateHead(said, line string, names *Lexicon) bool {
	called := callsSheet(said)
	plate := called > 0 && callsPlate(said)
	if called == 0 || !plate && !isDigit(at(said, called)) {
		return false
	}
	list, all := splitLabels(said, h.from, Sheet, names)
	if !all || slices.ContainsFunc(list.all, func(l labelAt) bool { return names.Labels[lower(l.text)+"a"] || names.Labels[lower(l.text)+"b"] }) {
		return false
	}
	h.labels, h.either = list.all, list.either
	h.how, h.word, h.said = sheetLine, h.from, h.from
	s := scanFolded(line[h.body:], onSheet, names)
	return s.reads() || s.tellsBriefly() || plate && s.settings() > 0 && !ofPrints().MatchString(s.low)
}

// holderSide is the label of a side in so many words at the beginning of a text, "" where
// there is none: holder 1 side B, holder two B, and two B, whose letter is a capital.
func holderSide(text string) (label string, end int) {
	low := lower(text)
	called, i := false, 0
	for _, word := range [...]string{"holder ", "dark slide ", "darkslide "} {
		if strings.HasPrefix(low, word) {
			called, i = true, skip(low, len(word))
		}
	}
	number, spelled := inWords(low, i)
	n := strconv.Itoa(spelled)
	if number == i && called {
		number = digits(low, i)
		n = low[i:number]
	}
	if number == i {
		return "", 0
	}
	side, said := skip(low, number), called && strings.Contains(low[number:min(len(low), number+8)], "side")
	for _, filler := range [...]string{"-", ",", "side "} {
		if rest, ok := strings.CutPrefix(low[side:], filler); ok && (called || filler == "-" && side == number) {
			side = skip(low, len(low)-len(rest))
		}
	}
	if c := at(low, side); side > number && (c == 'a' || c == 'b') && (said || text[side] < 'a') && !isLetter(at(low, side+1)) && !isDigit(at(low, side+1)) {
		return n + text[side:side+1], side + 1
	}
	return "", 0
}

// SidesInFigures is a text with the sides in it that it has in words put as labels: the red was on for one A.
func SidesInFigures(text string) string {
	for i := len("on"); i+1 < len(text); i++ {
		if c := text[i]; c != ' ' && c != '-' || text[i+1] != 'A' && text[i+1] != 'B' {
			continue
		}
		near := strings.LastIndexAny(text[:i], " -") + 1 // where the word before it begins, and the one before that: twenty two B
		for _, from := range [...]int{strings.LastIndexAny(strings.TrimRight(text[:near], " -"), " -") + 1, near} {
			if label, end := holderSide(text[from:min(len(text), i+3)]); label != "" && from+end == i+2 {
				text = text[:from] + label + text[i+2:]
				i = from + len(label)
				break
			}
		}
	}
	return text
}

// reads reports whether what follows the colon reads as terms of a sheet.
func (h *head) reads(line string, names *Lexicon) bool {
	return scanFolded(line[h.body:], onSheet, names).reads()
}

// reads reports whether a text reads as terms of a sheet, or is a row of marks in columns, however many words stand beside.
func (s *scanner) reads() bool {
	return s.marks() > 1 || s.settings()+s.count(tSame, tNegative, tState) > 0 && s.terse()
}

// scanFolded lexes a folded text for a look at what is in it.
func scanFolded(text string, f field, names *Lexicon) *scanner {
	s := &scanner{src: text, low: unpictured(lower(text)), field: f, names: names}
	room := 4 + len(text)/4 // for as many tokens as there mostly are
	s.tokens, s.ends = make([]lexer.Token, 0, room), make([]int, 0, room)
	s.scan()
	return s
}

// count is how many tokens are of one of the kinds.
func (s *scanner) count(kinds ...lexer.TokenType) int {
	n := 0
	for _, t := range s.tokens {
		for _, k := range kinds {
			if t.Type == k {
				n++
			}
		}
	}
	return n
}

// settings is how many apertures, times and light values there are.
func (s *scanner) settings() int { return s.count(tAperture, tTime, tEV) }

// terse reports whether terms outnumber words, as they do in a log line and do
// not in prose.
func (s *scanner) terse() bool {
	words := s.count(tWord, tNo, tNot, tAt, tTo)
	remark := s.count(tRemark, tComma, tDoubt, tStrike)
	return len(s.tokens)-words-remark > words
}
