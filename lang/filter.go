package lang

import (
	"strings"

	"notchbook/lang/pattern"
)

// filter is a filter by its shape: colour and Wratten number (R25, red 25),
// number alone (W25, Wratten 25; #25 see hash), polarizer, neutral density,
// graduated filter, or a colour alone.
func (s *scanner) filter() bool {
	if s.field&(onSheet|onFilter|onLens) == 0 {
		return false
	}
	end := letterRun(s.low, s.pos)
	for end < len(s.low) && s.low[end] == '-' && isLetter(at(s.low, end+1)) {
		end = letterRun(s.low, end+1)
	}
	word := s.low[s.pos:end]
	if s.costedElsewhere(end) || s.byNumber() {
		return true
	}
	switch {
	case word == "uv" || word == "pol" || word == "cpl" || word == "polarizer" || word == "polariser" || word == "polarising" || word == "polarizing":
		return s.emit(tFilter, s.src[s.pos:end], unit(s.low, end, "filter"))
	case word == "nd" && s.neutralInStops(end), word == "neutral" && s.neutralInStops(unit(s.low, end, "density")):
		return true
	case word == "nd" || word == "grad":
		return s.neutral(end)
	case word == "wratten" || word == "wr" || word == "w":
		return s.numberedBehind(end) || s.numbered(skip(s.low, end))
	case len(word) == 1 && strings.Contains("YORG", s.src[s.pos:end]) && at(s.low, end) == ' ':
		return s.numbered(skip(s.low, end)) // R 25
	case len(word) == 1 && strings.Contains(filterLetters, word):
		return s.numbered(end)
	}
	return s.coloured(end)
}

// costedElsewhere is a filter called so in another language, with what it costs behind it: Orangefilter x4, filtre
// jaune (x2). Without the cost it stays words, which compile looks at.
func (s *scanner) costedElsewhere(end int) bool {
	if next := skip(s.low, end); s.low[s.pos:end] == "filtre" && next > end {
		end = letterRun(s.low, next)
	}
	return strings.Contains(s.low[s.pos:end], "filt") && CalledElsewhere(strings.Fields(s.low[s.pos:end])) &&
		(s.numberedBehind(end) || costBehind().MatchString(s.low[end:]) && s.emit(tFilter, s.src[s.pos:end], end))
}

// byNumber is a filter by its number in so many words: no. 8 filter, and behind the word filter or on its line Nr. 8.
func (s *scanner) byNumber() bool {
	start, end := s.numberAt(s.pos)
	behind := unit(s.low, end, "filter", "filtre")
	return start > s.pos && (behind > end || s.named || s.field&onFilter != 0) && s.emit(tFilter, "#"+s.low[start:end], behind)
}

// numberAt is where a filter's number stands behind the sign of one at i, both i where none does. Without its full stop
// no is such a sign behind the word filter alone: yellow no 25 may take the yellow back.
func (s *scanner) numberAt(i int) (start, end int) {
	start = i + numberSign(s.low[i:])
	end = digits(s.low, start)
	if start == i || end == start || end > start+2 || strings.HasPrefix(s.low[i:], "no ") && !s.named {
		return i, i
	}
	if c := at(s.low, end); c >= 'a' && c <= 'c' {
		end++
	}
	if !filterEnd(s.low, end) || s.lasts(start, end) {
		return i, i
	}
	return start, end
}

// numberedBehind is a filter whose number stands in so many words behind its name: red no. 25, Gelbfilter Nr. 8.
func (s *scanner) numberedBehind(end int) bool {
	start, stop := s.numberAt(skip(s.low, end))
	name := strings.TrimSuffix(s.src[s.pos:end], " filter") + " " + s.low[start:stop]
	return stop > start && s.emit(tFilter, name, unit(s.low, stop, "filter"))
}

// costBehind is the cost of a filter behind its name.
var costBehind = pattern.Lazily(`^[ \t]*(?:[,(=][ \t]*)?(?:(?:x|factor|faktor|facteur)[ \t]*(?:of |von |de )?[0-9]|[0-9][0-9.,/+]*x\b|(?:[0-9][0-9./+-]*|one|two|three|half a)[ -](?:[0-9]/[0-9] )?stops?\b)`)

// CalledElsewhere reports whether words in lower case are what a filter is called in another language, its shade or not,
// and nothing else: Orangefilter, Dunkelrot-Filter, filtre gris.
func CalledElsewhere(words []string) bool {
	kind, is := "", false
	switch {
	case len(words) == 1:
		if kind, is = CutFilter(words[0]); !is {
			return false
		}
		kind = Shadeless(kind)
	case len(words) == 2 && words[0] == "filtre":
		kind = words[1]
	}
	return ColoursElsewhere[kind] != "" || kindsElsewhere[kind]
}

// CutFilter is a word in lower case without the noun for a filter that it ends with: Gelbfilter, Gelb-Fltr., and the glass
// that one was, Gelbscheibe, Gelbglas (common practice, no source).
func CutFilter(word string) (kind string, is bool) {
	word = strings.TrimRight(word, ".,;:!")
	for _, noun := range [...]string{"filter", "fltr", "filt", "scheibe", "glas"} {
		if kind, is = strings.CutSuffix(word, noun); is {
			return strings.TrimRight(kind, "-"), true
		}
	}
	return word, false
}

// Shadeless is a colour in lower case without the word for its shade before it: hellgelb.
func Shadeless(colour string) string {
	for _, shade := range [...]string{"hell", "mittel", "dunkel", "tief"} {
		if bare, ok := strings.CutPrefix(colour, shade); ok {
			return bare
		}
	}
	return colour
}

// ColoursElsewhere are the colours of filters as they are called in other languages, by what they are called here, and
// kindsElsewhere the filters that have none of them (common practice, no source).
var (
	ColoursElsewhere = map[string]string{"gelb": "yellow", "jaune": "yellow", "rot": "red", "rouge": "red",
		"grün": "green", "gruen": "green", "vert": "green", "orange": "orange", "blau": "blue", "bleu": "blue"}
	kindsElsewhere = SetOf("pol polarisations zirkularpol grau nd uv verlauf polarisant gris gelbgrün gelbgruen gelborange orangerot")
)

// figured is a declared filter whose name begins with a figure and has a letter in it
// (80A), also behind a plus; in itself it would look like a holder side.
func (s *scanner) figured() bool {
	start := s.pos
	if s.low[start] == '+' {
		start++
	}
	n := s.names.longest(s.low[start:])
	name := s.low[start : start+n]
	if n == 0 || s.field&(onSheet|onLens|onFilter) == 0 || s.names.Names[name] != FilterWord || digits(name, 0) == n || !boundary(s.low, start+n) {
		return false
	}
	if start > s.pos {
		s.emit(tPlus, "+", start)
	}
	return s.emit(tFilter, s.src[start:start+n], unit(s.low, start+n, "filter"))
}

// filterHere is a filter at pos, in any of the ways to name one.
func (s *scanner) filterHere() bool {
	switch c := s.byte(0); {
	case c == '#':
		return s.hash()
	case isDigit(c):
		return s.figured()
	}
	return isLetter(s.byte(0)) && (s.declared() || s.filter())
}

// filterLetters begin the short names of filters: yellow, orange, red, green,
// blue, magenta, cyan, and the letters of the old names K and X.
const filterLetters = "yorgbmckx"

// IsColour reports whether a word in lower case is one with which a filter's colour is said.
func IsColour(word string) bool { return colours[word] }

// colours are the words with which a filter's colour is said.
var colours = map[string]bool{
	"yellow": true, "orange": true, "red": true, "green": true, "blue": true, "cyan": true, "magenta": true,
	"yellow-green": true, "light": true, "deep": true, "dark": true, "medium": true, "pale": true,
}

// numbered is letters right before a Wratten number of at most two figures and
// a letter (23A, 47B).
func (s *scanner) numbered(start int) bool {
	end := digits(s.low, start)
	if end == start || end > start+3 || s.lasts(start, end) {
		return false
	}
	if c := at(s.low, end); c == 'a' || c == 'b' {
		end++
	}
	return filterEnd(s.low, end) && s.emit(tFilter, s.src[s.pos:end], end)
}

// lasts reports whether a number behind a blank has a unit of time, and so is none of a filter's:
// through the yellow 8 secs f32.
func (s *scanner) lasts(start, end int) bool {
	return start > 0 && isSpace(s.low[start-1]) && s.unitOfTime(end)
}

// neutral is ND 0.9, ND8, nd .3, grad .6: the number is part of the name.
func (s *scanner) neutral(end int) bool {
	start := skip(s.low, end)
	stop, value := decimal(s.low, start)
	if stop == start || s.lasts(start, stop) {
		return s.low[s.pos:end] == "grad" && s.emit(tFilter, s.src[s.pos:end], end)
	}
	if s.declares() && s.low[s.pos:end] == "nd" && strings.Contains(value, ".") {
		return s.emit(tDensity, value, stop)
	}
	return filterEnd(s.low, stop) && s.emit(tFilter, s.src[s.pos:stop], stop)
}

// neutralInStops is a neutral-density filter by the stops behind its name: ND 6 stops, nd filter (3 stops).
func (s *scanner) neutralInStops(end int) bool {
	start, closes := skip(s.low, unit(s.low, end, "filter")), ""
	switch at(s.low, start) {
	case '(':
		start, closes = start+1, ")"
	case '=':
		start = skip(s.low, start+1)
	}
	stop, value := stopsAt(s.low, start)
	return value != "" && strings.HasPrefix(s.low[stop:], closes) && s.ofNeutral(value, stop+len(closes))
}

// neutralBehind is one by the stops before its name: 3 stop ND, 6-stop nd. Right behind another filter
// the stops may be that one's.
func (s *scanner) neutralBehind(value string, end int) bool {
	stop := unit(s.low, end, "of nd", "nd", "of neutral density", "neutral density")
	if stop == end || s.last() == tFilter || s.field&(onSheet|onLens|onFilter) == 0 {
		return false
	}
	stop = unit(s.low, stop, "filter")
	figure := skip(s.low, stop)
	if end, _ := decimal(s.low, figure); end > figure && !s.lasts(figure, end) && filterEnd(s.low, end) {
		return false // 1 stop, ND 0.9
	}
	return s.ofNeutral(value, stop)
}

// ofNeutral is what a neutral-density filter costs on the line that declares it, else the filter.
func (s *scanner) ofNeutral(value string, end int) bool {
	if s.declares() {
		return boundary(s.low, end) && s.emit(tStops, value, end)
	}
	return boundary(s.low, end) && s.emit(tFilter, "ND "+trimFloat(number(value))+" stops", end)
}

// declares reports whether the line says what a filter is and costs.
func (s *scanner) declares() bool { return s.field&(onFilter|onChosen) == onFilter }

// coloured is "red", "red 25", "deep yellow 15", "light green".
func (s *scanner) coloured(end int) bool {
	start, named := s.pos, false
	for colours[s.low[start:end]] {
		named = named || !isShade(s.low[start:end])
		next := skip(s.low, end)
		if stop := digits(s.low, next); stop > next && stop <= next+2 && named && unit(s.low, stop, "stops", "stop") == stop && !s.lasts(next, stop) {
			if c := at(s.low, stop); c == 'a' || c == 'b' {
				stop++
			}
			if filterEnd(s.low, stop) {
				return s.emit(tFilter, s.src[s.pos:stop], unit(s.low, stop, "filter"))
			}
		}
		stop := letterRun(s.low, next)
		if !colours[s.low[next:stop]] {
			break
		}
		start, end = next, stop
	}
	if !named || !boundary(s.low, end) {
		return false
	}
	behind := unit(s.low, end, "filter")
	return s.numberedBehind(behind) || s.emit(tFilter, s.src[s.pos:end], behind)
}

func isShade(word string) bool {
	switch word {
	case "light", "deep", "dark", "medium", "pale":
		return true
	}
	return false
}

// filterEnd reports whether a filter's name may end at i, where its factor, its
// brackets or another filter may follow at once.
func filterEnd(s string, i int) bool {
	c := at(s, i)
	return boundary(s, i) || c == 'x' && isDigit(at(s, i+1))
}

// CodeIn is the word of a filter's name that is its letters and number, beside its colour: X8 of X8 (green), "" for none.
func CodeIn(name string) string {
	for word := range strings.FieldsFuncSeq(name, func(c rune) bool { return c == ' ' || c == '(' || c == ')' || c == ',' }) {
		letters := letterRun(lower(word), 0)
		if letters > 0 && letters < 3 && letters < len(word) && digits(word, letters) == len(word) {
			return word
		}
	}
	return ""
}

// isFactor reports whether a filter's name may be a factor as well, x2.
func isFactor(name string) bool {
	return len(name) > 1 && name[0] == 'x' && digits(name, 1) == len(name)
}
