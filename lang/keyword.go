package lang

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// lettered reads what begins with a letter: first the shapes in which letters
// and figures belong together, then names, then the notation's words.
func (s *scanner) lettered() bool {
	for _, read := range letters {
		if read(s) {
			return true
		}
	}
	end := letterRun(s.low, s.pos)
	if k, ok := keywords[s.low[s.pos:end]]; ok && k.field&s.field != 0 && boundary(s.low, end) {
		return k.read(s, end)
	}
	return false
}

var letters = []func(*scanner) bool{
	(*scanner).declared, (*scanner).aperture, (*scanner).lightValue, (*scanner).development, (*scanner).placement,
	(*scanner).factor, (*scanner).power, (*scanner).filter,
}

// keyword is a word that begins a term, alive in the lines of its field.
type keyword struct {
	field field
	read  func(s *scanner, end int) bool
}

const anyLine = ^field(0)

// keywords holds the words of the notation and of the trade that begin a term.
var keywords map[string]keyword

func init() {
	exposed := onSheet | onMeter
	keywords = map[string]keyword{
		"metered": {exposed, cue("metered")}, "meter": {onSheet, cue("metered")}, "reads": {exposed, cue("metered")},
		"reading": {exposed, cue("metered")}, "incident": {exposed, cue("incident")},
		"average": {exposed, cue("average")}, "averaged": {exposed, cue("average")}, "avg": {exposed, cue("average")},
		"gave": {exposed, cue("gave")}, "given": {exposed, cue("gave")},
		"sunny": {exposed, (*scanner).sunny},
		"ei":    {anyLine, measure(tEI)}, "iso": {anyLine, measure(tISO)}, "asa": {anyLine, measure(tISO)},
		"at":  {anyLine, (*scanner).at},
		"ext": {anyLine, (*scanner).extension}, "extension": {anyLine, (*scanner).extension},
		"bellows": {anyLine, (*scanner).extension}, "draw": {anyLine, (*scanner).extension},
		"mag":   {exposed, (*scanner).magnification},
		"focus": {exposed, (*scanner).focus}, "focused": {exposed, (*scanner).focus},
		"bulb": {anyLine, plain(tBulb)}, "b": {anyLine, (*scanner).bulb}, "t": {onLens, plain(tBulb)},
		"rise": {onSheet, (*scanner).movement}, "fall": {onSheet, (*scanner).movement},
		"shift": {onSheet, (*scanner).movement}, "tilt": {onSheet, (*scanner).movement},
		"swing": {onSheet, (*scanner).movement}, "front": {onSheet, (*scanner).movement}, "rear": {onSheet, (*scanner).movement},
		"bracket": {onSheet, (*scanner).bracketed},
		"same":    {onSheet, (*scanner).same}, "ditto": {onSheet, (*scanner).same}, "as": {onSheet, (*scanner).same},
		"lens": {exposed, choose("lens")}, "film": {exposed, choose("film")}, "light": {exposed, choose("light")},
		"camera": {onSheet, choose("camera")}, "scene": {onSheet, (*scanner).title},
		"unused": {onSheet, plain(tState)}, "spoiled": {onSheet, plain(tState)}, "spoilt": {onSheet, plain(tState)},
		"fogged": {onSheet, plain(tState)}, "double": {onSheet, plain(tState)}, "again": {onSheet, plain(tState)},
		"hold": {onSheet | onDevelop, plain(tHold)},
		"neg":  {onSheet, (*scanner).negative}, "negative": {onSheet, (*scanner).negative},
		"no": {anyLine, (*scanner).no}, "not": {anyLine, plain(tNot)}, "without": {onSheet, (*scanner).no},
		"unfiltered": {onSheet, drop("filter")}, "bare": {onSheet, drop("filter")},
		"pan": {onFilm | onFilter, plain(tClass)}, "ortho": {onFilm | onFilter, plain(tClass)},
		"panchromatic": {onFilm | onFilter, plain(tClass)}, "orthochromatic": {onFilm | onFilter, plain(tClass)},
		"blue": {onFilm, plain(tClass)}, "tungsten": {onFilm | onFilter, plain(tClass)}, "daylight": {onFilm | onFilter, plain(tClass)},
		"circle": {onLens, sized(tCircle)}, "flange": {onLens, sized(tFlange)}, "clicks": {onLens, plain(tClicks)},
		"shutter": {onLens, plain(tShutter)}, "tested": {onLens, plain(tTested)}, "with": {onLens, plain(tWith)},
		"to": {onLens | onFilm | onRule | onCamera, plain(tTo)}, "back": {onCamera, plain(tBack)},
		"reciprocity": {onFilm, plain(tReciprocity)}, "over": {onFilm | onRule, plain(tOver)},
		"none": {anyLine, (*scanner).none},
	}
}

func letterRun(s string, i int) int {
	for i < len(s) && isLetter(s[i]) {
		i++
	}
	return i
}

func plain(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.emit(kind, s.low[s.pos:end], end) }
}

func cue(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		if colon := skip(s.low, end); at(s.low, colon) == ':' {
			end = colon + 1
		}
		return s.emit(tCue, word, end)
	}
}

func drop(what string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.emit(tDrop, what, end) }
}

// measure is a word with a number: EI 64.
func measure(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		end, value := decimal(s.low, start)
		return end > start && boundary(s.low, end) && s.emit(kind, value, end)
	}
}

// sized is a word with a length: circle 300 mm.
func sized(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		end, mm, ok := length(s.low, skip(s.low, end), false)
		return ok && s.emit(kind, trimFloat(mm), end)
	}
}

// choose is a thing named for this sheet only: lens 300, up to the comma.
func choose(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		stop := start
		if name := s.names.longest(s.low[start:]); name > 0 {
			stop = start + name
		} else {
			for stop < len(s.low) && !isSpace(s.low[stop]) && s.low[stop] != ',' {
				stop++
			}
		}
		return stop > start && s.emit(tChoose, word+" "+s.src[start:stop], stop)
	}
}

// title is everything up to the comma.
func (s *scanner) title(end int) bool {
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && s.low[stop] != ',' && !s.remarkAt(stop) {
		stop++
	}
	text := strings.TrimRight(s.src[start:stop], " \t")
	return text != "" && s.emit(tChoose, "scene "+text, start+len(text))
}

// declared is a name from the kit; only filters stand in a line as they are.
func (s *scanner) declared() bool {
	n := s.names.longest(s.low[s.pos:])
	if n == 0 || s.names.Names[s.low[s.pos:s.pos+n]] != FilterWord || s.field&(onSheet|onLens|onFilter) == 0 {
		return false
	}
	return boundary(s.low, s.pos+n) && s.emit(tFilter, s.src[s.pos:s.pos+n], s.pos+n)
}

// longest is the length of the longest declared name that the text begins
// with, in lower case, or 0.
func (x *Lexicon) longest(text string) int {
	best := 0
	for end, words := 0, 0; words < 4 && end < len(text); words++ {
		for end < len(text) && !isSpace(text[end]) && strings.IndexByte(",;()+~?", text[end]) < 0 {
			end++
		}
		if _, ok := x.Names[text[:end]]; ok {
			best = end
		}
		if !isSpace(at(text, end)) {
			break
		}
		end = skip(text, end)
	}
	return best
}

// aperture is f16, f/16, F 16, f16+1/2, f/5.6.6, f22/32.
func (s *scanner) aperture() bool {
	if s.low[s.pos] != 'f' {
		return false
	}
	i := s.pos + 1
	if c := at(s.low, i); c == '/' || c == '.' {
		i++
	}
	i = skip(s.low, i)
	end, value := decimal(s.low, i)
	if end == i {
		return false
	}
	switch {
	case at(s.low, end) == '/' && isDigit(at(s.low, end+1)):
		stop, upper := decimal(s.low, end+1)
		value, end = value+"/"+upper, stop
	case at(s.low, end) == '.' && isDigit(at(s.low, end+1)):
		stop := digits(s.low, end+1)
		value, end = value+s.low[end:stop], stop
	default:
		if stop, said := andA(s.low, end); stop > end {
			value, end = value+"+"+said, stop
		} else if plus := skip(s.low, end); at(s.low, plus) == '+' {
			if stop, ok := fraction(s.low, plus+1); ok {
				value, end = value+"+"+s.low[plus+1:stop], stop
			}
		}
	}
	return boundary(s.low, end) && s.emit(tAperture, value, end)
}

// lightValue is EV 11, EV11+1/2, EV -2, LV 9.
func (s *scanner) lightValue() bool {
	if !strings.HasPrefix(s.low[s.pos:], "ev") && !strings.HasPrefix(s.low[s.pos:], "lv") {
		return false
	}
	start := skip(s.low, s.pos+2)
	i := start
	if at(s.low, i) == '-' || at(s.low, i) == '+' {
		i++
	}
	end, value := spoken(s.low, i)
	if end == i || !boundary(s.low, end) {
		return false
	}
	if at(s.low, start) == '-' {
		value = "-" + value
	}
	return s.emit(tEV, value, end)
}

// development is N, N+1, N-1+1/2, N minus 1.
func (s *scanner) development() bool {
	if s.low[s.pos] != 'n' {
		return false
	}
	i := skip(s.low, s.pos+1)
	sign := ""
	for _, said := range [...][2]string{{"+", ""}, {"-", "-"}, {"plus ", ""}, {"minus ", "-"}} {
		if strings.HasPrefix(s.low[i:], said[0]) {
			start := skip(s.low, i+len(said[0]))
			if end, value := mixed(s.low, start); end > start && boundary(s.low, end) {
				sign = said[1]
				return s.emit(tN, sign+value, end)
			}
		}
	}
	return s.src[s.pos] == 'N' && boundary(s.low, s.pos+1) && at(s.low, s.pos+1) != '-' && s.emit(tN, "0", s.pos+1)
}

func (s *scanner) placement() bool {
	end, value, ok := zone(s.low, s.pos)
	return ok && s.emit(tZone, value, end)
}

// factor is x8.
func (s *scanner) factor() bool {
	if s.low[s.pos] != 'x' {
		return false
	}
	start := skip(s.low, s.pos+1)
	end, value := decimal(s.low, start)
	return end > start && boundary(s.low, end) && s.emit(tFactor, value, end)
}

// power is t^1.31.
func (s *scanner) power() bool {
	if !strings.HasPrefix(s.low[s.pos:], "t^") {
		return false
	}
	end, value := decimal(s.low, s.pos+2)
	return end > s.pos+2 && s.emit(tPower, value, end)
}

func (s *scanner) sunny(end int) bool {
	stop := skip(s.low, end)
	if next := digits(s.low, stop); s.low[stop:next] == "16" {
		return s.emit(tSunny, "sunny 16", next)
	}
	return false
}

// at is the meter's index (at EI 100), a time of day (at 14:30), or the word
// between time and aperture.
func (s *scanner) at(end int) bool {
	next := skip(s.low, end)
	if after := unit(s.low, next, "ei", "iso", "asa"); after != next {
		start := skip(s.low, after)
		if stop, value := decimal(s.low, start); stop > start {
			return s.emit(tMeterEI, value, stop)
		}
	}
	if colon := digits(s.low, next); at(s.low, colon) == ':' && digits(s.low, colon+1) == colon+3 {
		return s.emit(tClock, s.low[next:colon+3], colon+3)
	}
	if c := at(s.low, next); c == 'f' || isDigit(c) {
		return s.emit(tAt, "at", end)
	}
	return false
}

// extension is ext 260mm, and ext 75-380 mm of a camera; bellows +1½ and
// bellows x2.25 are amounts.
func (s *scanner) extension(end int) bool {
	start := skip(s.low, end)
	if stop, mm, ok := length(s.low, start, false); ok {
		return s.emit(tExt, trimFloat(mm), stop)
	}
	if s.field&onCamera != 0 {
		return s.extensionRange(start)
	}
	if stop, value := decimal(s.low, start); stop > start && boundary(s.low, stop) && unit(s.low, stop, "stops", "stop") == stop {
		return s.emit(tExt, value, stop) // millimetres by default
	}
	return s.low[s.pos:end] == "bellows" && s.emit(tBellows, "bellows", end)
}

func (s *scanner) extensionRange(start int) bool {
	dash, from := decimal(s.low, start)
	if dash == start || at(s.low, dash) != '-' {
		return false
	}
	stop, mm, ok := length(s.low, dash+1, false)
	if !ok {
		return false
	}
	factor := mm / max(number(s.low[dash+1:digits(s.low, dash+1)]), 1)
	s.emit(tExtFrom, trimFloat(number(from)*factor), dash)
	return s.emit(tExtTo, trimFloat(mm), stop)
}

// magnification is mag 0.5 and mag 1:12.
func (s *scanner) magnification(end int) bool {
	start := skip(s.low, end)
	stop, value := mixed(s.low, start)
	if at(s.low, stop) == ':' && digits(s.low, stop+1) > stop+1 {
		close := digits(s.low, stop+1)
		return s.emit(tScale, value+"/"+s.low[stop+1:close], close)
	}
	return stop > start && s.emit(tScale, value, stop)
}

func (s *scanner) focus(end int) bool {
	start := skip(s.low, end)
	if after := unit(s.low, start, "at"); after != start {
		start = skip(s.low, after)
	}
	stop, mm, ok := length(s.low, start, true)
	return ok && s.emit(tFocus, trimFloat(mm), stop)
}

// bulb is B before a time; alone it is a word.
func (s *scanner) bulb(end int) bool {
	next := skip(s.low, end)
	return (s.field&onLens != 0 || isDigit(at(s.low, next))) && s.emit(tBulb, "B", end)
}

// movement is "front rise 12 mm", "tilt 4": words and an amount as typed.
func (s *scanner) movement(end int) bool {
	next := skip(s.low, end)
	if first := s.low[s.pos:end]; first == "front" || first == "rear" {
		end = letterRun(s.low, next)
		if !isMovement(s.low[next:end]) {
			return false
		}
		next = skip(s.low, end)
	}
	stop, _ := spoken(s.low, next)
	if stop == next {
		return false
	}
	stop = unit(s.low, stop, "mm", "cm", "inches", "in", "degrees", "deg", "°")
	stop = unit(s.low, stop, "front", "rear")
	return s.emit(tMovement, s.src[s.pos:stop], stop)
}

func isMovement(word string) bool {
	switch word {
	case "rise", "fall", "shift", "tilt", "swing":
		return true
	}
	return false
}

func (s *scanner) bracketed(end int) bool {
	start := skip(s.low, end)
	i := start
	sign := ""
	if c := at(s.low, i); c == '+' || c == '-' {
		i++
		sign = strings.Trim(string(c), "+")
	}
	stop, value := spoken(s.low, i)
	if stop == i {
		return false
	}
	return s.emit(tBracket, sign+value, unit(s.low, stop, "stops", "stop"))
}

// same is same, same as 3A, ditto, as 3A.
func (s *scanner) same(end int) bool {
	if s.low[s.pos:end] == "same" {
		if after := unit(s.low, end, "as"); after != end {
			end = after
		} else {
			return s.emit(tSame, "", end)
		}
	} else if s.low[s.pos:end] == "ditto" {
		return s.emit(tSame, "", end)
	}
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && !isSpace(s.low[stop]) && strings.IndexByte(",;()\"?~", s.low[stop]) < 0 {
		stop++
	}
	return looksLabel(s.low[start:stop], s.names) && s.emit(tSame, s.src[start:stop], stop)
}

func (s *scanner) negative(end int) bool {
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && !isSpace(s.low[stop]) && s.low[stop] != ',' {
		stop++
	}
	return strings.ContainsAny(s.low[start:stop], "0123456789") && s.emit(tNegative, s.src[start:stop], stop)
}

// no drops what follows (no filter, no pol, no rise), or takes back what
// precedes (no, no wait).
func (s *scanner) no(end int) bool {
	next := skip(s.low, end)
	stop := letterRun(s.low, next)
	switch what := s.low[next:stop]; {
	case what == "filter" || what == "filters":
		return s.emit(tDrop, "filter", stop)
	case what == "pol" || what == "polarizer" || what == "polariser" || what == "ext" || what == "bellows" || isMovement(what):
		return s.emit(tDrop, what, stop)
	case s.names.Names[what] == FilterWord && what != "":
		return s.emit(tDrop, what, stop)
	case what == "wait":
		if at(s.low, stop) == ',' {
			stop++
		}
		return s.emit(tNo, "no wait", stop)
	}
	if s.low[s.pos:end] == "without" {
		return false
	}
	return s.emit(tNo, "no", end)
}

// none is the word of a filter line; elsewhere the rule without correction.
func (s *scanner) none(end int) bool {
	if s.field&(onFilm|onRule) != 0 {
		return s.emit(tNone, "none", end)
	}
	return s.field&(onFilter|onSheet) != 0 && s.emit(tDrop, "filter", end)
}
