package lang

import (
	"strconv"
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
	k, ok := keywords[s.low[s.pos:end]]
	if word := s.low[s.pos:end]; word != "ei" && word != "iso" && word != "asa" && s.ruleName(end) {
		return true
	}
	if !ok || k.field&s.field == 0 {
		return false
	}
	c, length := at(s.low, end), ofBellows[s.low[s.pos:end]]
	if (c == '.' || c == ':') && (isSpace(at(s.low, end+1)) || length && isDigit(at(s.low, end+1))) { // ext. 260 mm, ext.17in
		return k.read(s, end+1)
	}
	if length && isDigit(c) { // ext17in
		return k.read(s, end)
	}
	return (boundary(s.low, end) || abbreviated[s.low[s.pos:end]]) && k.read(s, end)
}

// ofBellows are the words that a length may stand right behind.
var ofBellows = SetOf("ext extension bel bellows draw auszug ausz balgenauszug balgen tirage")

// abbreviated are the words that a sign or a figure belongs to: w/o, U.S., do., Bl.16, o.F., US16.
var abbreviated = map[string]bool{"w": true, "o": true, "u": true, "do": true, "bl": true, "us": true}

// ruleName is the A: of "reciprocity A: 2s=3s, B: 2s=4s".
func (s *scanner) ruleName(end int) bool {
	return s.field&(onFilm|onRule) != 0 && at(s.low, end) == ':' && isSpace(at(s.low, end+1)) &&
		s.emit(tRuleName, s.src[s.pos:end], end+1)
}

// letters are the shapes that begin with a letter, tried in this order.
var letters []func(*scanner) bool

// keyword is a word that begins a term, alive in the lines of its field.
type keyword struct {
	field field
	read  func(s *scanner, end int) bool
}

const anyLine = ^field(0)

// keywords holds the words of the notation and of the trade that begin a term.
var keywords map[string]keyword

func init() {
	letters = []func(*scanner) bool{
		(*scanner).declared, (*scanner).regret, (*scanner).joinedIndex, (*scanner).scaleBefore, (*scanner).ratedOnSheet, (*scanner).shutterHours, (*scanner).hoursInWords, (*scanner).aperture, (*scanner).lightValue, (*scanner).development, (*scanner).developmentInWords, (*scanner).placement,
		(*scanner).factor, (*scanner).power, (*scanner).said, (*scanner).filter, (*scanner).standing,
	}
	exposed := onSheet | onMeter
	keywords = map[string]keyword{
		// readings and settings
		"metered": {exposed, (*scanner).metered}, "meter": {onSheet, (*scanner).metered}, "reads": {exposed, (*scanner).readThrough},
		"read": {exposed, (*scanner).readThrough}, "reading": {exposed, (*scanner).readThrough}, "incident": {exposed, cue("incident")},
		"average": {exposed, cue("average")}, "averaged": {exposed, cue("average")}, "avg": {exposed, cue("average")},
		"gave": {exposed, cue("gave")}, "given": {exposed, cue("gave")}, "corrected": {onSheet, cue("corrected")},
		"sunny": {exposed, (*scanner).sunny}, "wide": {exposed, (*scanner).wide}, "us": {exposed | onLens, (*scanner).uniform}, "u": {exposed | onLens, (*scanner).dottedUS}, "do": {onSheet, (*scanner).abridged}, "dto": {onSheet, (*scanner).abridged}, "id": {onSheet, (*scanner).abridged}, "dgl": {onSheet, (*scanner).abridged}, "desgl": {onSheet, (*scanner).abridged},
		"ei": {anyLine, sensitive(tEI)}, "iso": {anyLine, sensitive(tISO)}, "asa": {anyLine, sensitive(tISO)},
		"density": {onFilter, measure(tDensity)}, "exposure": {onFilm, (*scanner).exposureIndex}, "rated": {onFilm, (*scanner).ratedAt}, "shot": {onFilm, (*scanner).ratedAt}, "exposed": {onHolder | onFilm, (*scanner).exposed},
		"din": {anyLine, inDIN}, "bl": {exposed | onLens, (*scanner).stop}, "blende": {exposed | onLens, (*scanner).stop}, "blenden": {onLens, (*scanner).stop},
		"at": {anyLine, (*scanner).at}, "about": {exposed, (*scanner).about}, "approx": {exposed, (*scanner).about}, "ca": {exposed, (*scanner).about}, "etwa": {exposed, (*scanner).about}, "ungefähr": {exposed, (*scanner).about}, "ungef": {exposed, (*scanner).about}, "environ": {exposed, (*scanner).about}, "env": {exposed, (*scanner).about},
		"wohl": {exposed, (*scanner).about}, "vermutlich": {exposed, (*scanner).about}, "vermutl": {exposed, (*scanner).about}, "wahrscheinlich": {exposed, (*scanner).about}, "wahrsch": {exposed, (*scanner).about},
		"bulb": {anyLine, (*scanner).bulb}, "b": {anyLine, (*scanner).bulb}, "t": {onLens, plain(tBulb)},
		"bracket": {onSheet, (*scanner).bracketed}, "bracketed": {onSheet, (*scanner).bracketed},
		"first": {onSheet, (*scanner).nth}, "second": {onSheet, (*scanner).second}, "third": {onSheet, (*scanner).nth}, "fourth": {onSheet, (*scanner).nth}, "last": {onSheet, (*scanner).nth},
		"sbr": {exposed, (*scanner).subjectRange}, "range": {exposed, (*scanner).subjectRange}, "contrast": {exposed, (*scanner).subjectRange},
		"falls": {exposed, (*scanner).falls}, "fell": {exposed, (*scanner).falls},
		"same": {onSheet, (*scanner).same}, "ditto": {onSheet, (*scanner).same}, "dito": {onSheet, (*scanner).same}, "idem": {onSheet, (*scanner).same}, "wie": {onSheet, (*scanner).same}, "as": {onSheet, (*scanner).same},
		"no": {anyLine, (*scanner).no}, "not": {anyLine, plain(tNot)}, "without": {onSheet, (*scanner).no}, "ohne": {onSheet, (*scanner).no}, "kein": {onSheet, (*scanner).no}, "sans": {onSheet, (*scanner).no}, "o": {onSheet, (*scanner).dottedNo}, "minus": {onSheet, (*scanner).minus}, "less": {onSheet, (*scanner).minus}, "w": {onSheet, (*scanner).without},

		// the camera as it stood
		"ext": {anyLine, (*scanner).extension}, "extension": {anyLine, (*scanner).extension},
		"bellows": {anyLine, (*scanner).extension}, "draw": {anyLine, (*scanner).extension}, "bel": {onSheet, (*scanner).extension}, "racked": {onSheet, (*scanner).racked}, "extended": {onSheet, (*scanner).racked},
		"auszug": {onSheet, (*scanner).racked}, "ausz": {onSheet, (*scanner).racked}, "balgenauszug": {onSheet, (*scanner).racked}, "balgen": {onSheet, (*scanner).racked}, "tirage": {onSheet, (*scanner).racked},
		"mag": {exposed, (*scanner).magnification}, "magnification": {exposed, (*scanner).magnification}, "scale": {exposed, (*scanner).magnification},
		"between": {exposed, (*scanner).between},
		"focus":   {exposed, (*scanner).focus}, "focused": {exposed, (*scanner).focus}, "focussed": {exposed, (*scanner).focus},
		"spread": {onSheet, sized(tSpread)}, "near": {onSheet, afar(tNear)}, "far": {onSheet, afar(tFar)},
		"rise": {onSheet, (*scanner).movement}, "fall": {onSheet, (*scanner).movement},
		"shift": {onSheet, (*scanner).movement}, "tilt": {onSheet, (*scanner).movement},
		"swing": {onSheet, (*scanner).movement}, "front": {onSheet, (*scanner).movement}, "rear": {onSheet, (*scanner).movement},
		"lens": {exposed, apart("lens")}, "film": {exposed, apart("film")}, "light": {exposed, (*scanner).light},
		"camera": {onSheet, choose("camera")}, "scene": {onSheet, (*scanner).title},
		"filter": {onSheet, (*scanner).ofFilter}, "filters": {onSheet, (*scanner).ofFilter}, "filtre": {onSheet, (*scanner).ofFilter}, "factor": {onSheet | onFilter, (*scanner).saidFactor}, "zweifach": {onSheet | onFilter, (*scanner).manyfold}, "dreifach": {onSheet | onFilter, (*scanner).manyfold}, "vierfach": {onSheet | onFilter, (*scanner).manyfold}, "fünffach": {onSheet | onFilter, (*scanner).manyfold}, "sechsfach": {onSheet | onFilter, (*scanner).manyfold}, "achtfach": {onSheet | onFilter, (*scanner).manyfold}, "zehnfach": {onSheet | onFilter, (*scanner).manyfold},
		"faktor": {onSheet | onFilter, (*scanner).saidFactor}, "facteur": {onSheet | onFilter, (*scanner).saidFactor},
		"unfiltered": {onSheet, drop("filter")}, "bare": {onSheet, drop("filter")}, "none": {anyLine, (*scanner).none},

		// the sheet
		"unused": {onSheet, state("unused")}, "unexposed": {onSheet, state("unused")}, "spoiled": {onSheet | onHolder, state("spoiled")},
		"spoilt": {onSheet, state("spoiled")}, "fogged": {onSheet | onHolder, state("fogged")}, "double": {onSheet, (*scanner).double},
		"again": {onSheet, state("again")}, "hold": {onSheet | onDevelop, plain(tHold)},
		"neg": {onSheet, (*scanner).negative}, "negative": {onSheet, (*scanner).negative}, "d": {onSheet | onDensity, measure(tD)},
		"binder": {onSheet, (*scanner).filed}, "sleeve": {onSheet, (*scanner).filed}, "folder": {onSheet, (*scanner).filed},
		"added": {onSheet, (*scanner).addedLater},
		"patch": {onSheet, (*scanner).patch}, "level": {onPatch, measure(tLevel)},

		// declarations and the darkroom
		"pan": {onFilm | onFilter, plain(tClass)}, "ortho": {onFilm | onFilter, plain(tClass)},
		"panchromatic": {onFilm | onFilter, plain(tClass)}, "orthochromatic": {onFilm | onFilter, plain(tClass)},
		"blue": {onFilm, plain(tClass)}, "tungsten": {onFilm | onFilter | exposed, (*scanner).kindOfLight}, "daylight": {onFilm | onFilter | exposed, (*scanner).kindOfLight},
		"circle": {onLens | onCamera, (*scanner).circle}, "flange": {onLens, sized(tFlange)}, "clicks": {onLens, (*scanner).clicks},
		"shutter": {onLens, plain(tShutter)}, "tested": {onLens, plain(tTested)}, "with": {onLens | onSheet, (*scanner).with},
		"shorten": {onFilm, plain(tShorten)},
		"to":      {onLens | onFilm | onRule | onCamera, plain(tTo)}, "bis": {onLens, plain(tTo)}, "back": {onCamera, plain(tBack)},
		"reciprocity": {onFilm | onRule, plain(tReciprocity)}, "over": {onFilm | onRule, plain(tOver)},
		"developer": {onFilm, saying("developer")}, "agitation": {onFilm, saying("agitation")}, "agitate": {onFilm, saying("agitation")},
		"curve": {onFilter | onFilm, file("curve")}, "sensitivity": {onFilm, file("sensitivity")},
		"capacity": {onFilm, saying("capacity")}, "safelight": {onFilm, saying("safelight")},
		"test":     {onFilm | onFilter | onLens, saying("test")},
		"measured": {onShutter, plain(tMeasured)}, "notch": {onHolder, taken(tNotch)},
		"empty": {onHolder, state("empty")}, "loaded": {onHolder, state("loaded")}, "unknown": {onHolder, state("unknown")},
		"unloaded": {onHolder, state("empty")}, "doubtful": {onHolder, state("unknown")},
		"batch": {onDevelop, taken(tBatch)}, "run": {onDevelop, taken(tBatch)}, "tray": {onDevelop, taken(tBatch)},
	}
	for _, month := range months {
		keywords[month] = keyword{onDevelop, (*scanner).monthDay}
		keywords[month[:3]] = keyword{onDevelop, (*scanner).monthDay}
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

// cue is what the exposures behind it are; a colon may follow it.
func cue(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		if colon := skip(s.low, end); at(s.low, colon) == ':' {
			end = colon + 1
		}
		return s.emit(tCue, word, end)
	}
}

// state is a state of a sheet or holder.
func state(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.emit(tState, word, end) }
}

// clockAt is a time of day at i: 22:10.
func clockAt(s string, i int) (end int, clock string) {
	colon := digits(s, i)
	end = digits(s, min(len(s), colon+1))
	if colon == i || colon > i+2 || at(s, colon) != ':' || end != colon+3 || number(s[i:colon]) > 23 || number(s[colon+1:end]) > 59 || !boundary(s, end) {
		return i, ""
	}
	return end, s[i:end]
}

// double is a double exposure, with or without the second word.
func (s *scanner) double(end int) bool {
	return s.emit(tState, "double", wordAfter(s.low, end, "exposure"))
}

// second is a line's second sheet; a line that begins with "second exposure" is one on a
// sheet that has one already.
func (s *scanner) second(end int) bool {
	if stop := wordAfter(s.low, end, "exposure"); stop > end && len(s.tokens) == 0 {
		return s.emit(tState, "again", stop)
	}
	return s.nth(end)
}

// wordAfter is the end of a word where it follows behind a blank, else end.
func wordAfter(text string, end int, word string) int {
	next := skip(text, end)
	if next > end && strings.HasPrefix(text[next:], word) && letterRun(text, next) == next+len(word) && boundary(text, next+len(word)) {
		return next + len(word)
	}
	return end
}

// nth is one of a line's sheets, or some: second, second and third, the last two; with what they are called and
// the words that lead to what is said of them: second sheet was. Its value is their places, with / between them
// where it is one or the other.
func (s *scanner) nth(end int) bool {
	first := s.low[s.pos:end]
	places := placeSaid[first]
	if stop, n := nextIn(s.low, end, pairAndMore); n != "" && (first == "first" || first == "last") {
		places, end = n, stop
		if first == "last" {
			places = "-" + strings.Join(strings.Split(n, ","), ",-")
		}
	}
	for {
		join, sign := nextIn(s.low, end, joinsOrdinals)
		if sign == "" && at(s.low, skip(s.low, end)) == ',' {
			join, sign = skip(s.low, end)+1, ","
		}
		stop, place := nextIn(s.low, articles(s.low, skip(s.low, join)), placeSaid)
		if sign == "" || place == "" {
			break
		}
		places, end = places+sign+place, stop
	}
	end, _ = nextIn(s.low, end, calledSheets)
	for leads := true; leads; {
		end, leads = nextIn(s.low, end, leadsToTerm)
	}
	return s.emit(tNth, places, end)
}

// nextIn is the end of the word behind i, and what it stands for in a list; else i, and nothing.
func nextIn[V comparable](low string, i int, list map[string]V) (end int, value V) {
	var none V
	start := skip(low, i)
	stop := letterRun(low, start)
	if stop == start && at(low, start) == '&' {
		stop++
	}
	if value = list[low[start:stop]]; value == none || start == i && i > 0 && isLetter(low[i-1]) {
		return i, none
	}
	return stop, value
}

// The words are those of lines of several sheets (common practice, no source).
var (
	placeSaid     = map[string]string{"first": "1", "second": "2", "third": "3", "fourth": "4", "last": "-1"}
	pairAndMore   = map[string]string{"two": "1,2", "three": "1,2,3", "pair": "1,2"}
	joinsOrdinals = map[string]string{"and": ",", "&": ",", "or": "/"}
	calledSheets  = SetOf("one ones sheet sheets shot plate plates frame side")
	leadsToTerm   = SetOf("was were is are had has got only also being")
)

// taken is a word and the next, which is its name: notch III, batch 2.
func taken(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		stop := start
		for stop < len(s.low) && !isSpace(s.low[stop]) && strings.IndexByte(",;()", s.low[stop]) < 0 {
			stop++
		}
		return stop > start && stop <= start+8 && s.emit(kind, s.src[start:stop], stop)
	}
}

func drop(what string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.emit(tDrop, what, end) }
}

// measure is a word with a number: EI 64.
func measure(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		end, value := mixed(s.low, start)
		return end > start && boundary(s.low, end) && s.emit(kind, value, end)
	}
}

// sensitive is a word with a film's speed: EI 64, ISO 100/21°, EI 19 DIN.
func sensitive(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		if at(s.low, start) == '=' {
			start = skip(s.low, start+1)
		}
		end, value, _ := s.speed(start)
		return value != "" && s.emit(kind, value, end)
	}
}

// joinedIndex is an index in one word with its sign, or behind a sign with points: EI50,
// ISO100, EI:50, E.I. 50.
func (s *scanner) joinedIndex() bool {
	for _, sign := range [...]string{"ei", "iso", "asa", "e.i."} {
		end := s.pos + len(sign)
		if !strings.HasPrefix(s.low[s.pos:], sign) {
			continue
		}
		if sign == "e.i." {
			end = skip(s.low, end)
		} else if c := at(s.low, end); c == ':' || c == '=' {
			end++
		}
		kind := tISO
		if sign[0] == 'e' {
			kind = tEI
		}
		stop, value, _ := s.speed(end)
		return value != "" && s.emit(kind, value, stop)
	}
	return false
}

// exposureIndex is exposure index 50, of a film.
func (s *scanner) exposureIndex(end int) bool {
	stop := unit(s.low, end, "index")
	return stop != end && sensitive(tEI)(s, stop)
}

// ratedAt is rated 50, rated at EI 50, shot at 50, exposed at EI 50. Behind shot and exposed a
// number without its sign may be an hour, and before a word it counts that: shot 50 sheets.
func (s *scanner) ratedAt(end int) bool {
	const hours = 24
	behind, sign := s.ratedWith(end)
	if sign == behind {
		stop, value, _ := s.speed(skip(s.low, sign))
		rated := s.low[s.pos:end] == "rated"
		if value == "" || !rated && (behind == end || number(value) <= hours) {
			return false
		}
		next := skip(s.low, stop)
		if word := s.low[next:letterRun(s.low, next)]; word != "" && !LeadsToLight[word] && keywords[word].field&onFilm == 0 {
			return false
		}
	}
	return sensitive(tEI)(s, sign)
}

// ratedOnSheet is the film's index with its sign on a sheet's line: rated at EI 50. Without the
// word before it, at EI 50 is the meter's.
func (s *scanner) ratedOnSheet() bool {
	end := letterRun(s.low, s.pos)
	switch s.low[s.pos:end] {
	case "rated", "shot", "exposed":
		behind, sign := s.ratedWith(end)
		if s.field&onSheet == 0 {
			return false
		}
		if stop, value, signed := s.speed(skip(s.low, behind)); signed { // rated at 50 ASA
			return s.emit(tEI, value, stop)
		}
		return sign > behind && sensitive(tEI)(s, sign)
	}
	return false
}

// ratedWith is where the word between rated and its index ends, and the sign behind that.
func (s *scanner) ratedWith(end int) (behind, sign int) {
	behind = unit(s.low, end, "at", "as", "@")
	return behind, unit(s.low, behind, "ei", "iso", "asa")
}

// LeadsToLight are words between a value and the light that it holds in.
var LeadsToLight = SetOf("in by under for with")

// exposed is the state of a holder's side, and of a film its index: exposed at 50.
func (s *scanner) exposed(end int) bool {
	if s.field&onHolder != 0 {
		return state("exposed")(s, end)
	}
	return s.ratedAt(end)
}

// inDIN is a film's speed in degrees: DIN 21.
func inDIN(s *scanner, end int) bool {
	start := skip(s.low, end)
	stop := digits(s.low, start)
	value := fromDegrees(s.low[start:stop])
	if strings.HasPrefix(s.low[stop:], "/10") { // the old 21/10° DIN
		stop += len("/10")
	}
	stop = degree(s.low, stop)
	return value != "" && boundary(s.low, stop) && s.emit(tISO, value, stop)
}

// sized is a word with a length: circle 300 mm.
func sized(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		end, mm, ok := length(s.low, skip(s.low, end), false)
		return ok && s.emit(kind, trimFloat(mm), end)
	}
}

// afar is a keyword with a length behind it that may be in metres.
func afar(kind lexer.TokenType) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		end, mm, ok := length(s.low, skip(s.low, end), true)
		return ok && s.emit(kind, trimFloat(mm), end)
	}
}

// choose is a thing named for this sheet only: lens 300. A name that is not declared
// has a figure, or nothing behind it up to the comma, and no words before it but those by which a thing is taken. A lens is also chosen by its length
// before the word: 210 lens, 14in lens.
func choose(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool {
		start := skip(s.low, end)
		stop := start
		if word == "lens" && s.lengthBefore(start) {
			last := len(s.tokens) - 1
			from := s.tokens[last].Pos.Offset
			s.tokens[last].Type, s.tokens[last].Value, s.ends[last] = tChoose, "lens "+s.src[from:s.ends[last]], end
			s.pos = end
			return true
		}
		if name := s.names.longest(s.low[start:]); name > 0 && s.names.Names[s.low[start:start+name]] == Word(word) {
			stop = start + name
		} else if end, n := figureInWords(s.low, start); word == "lens" && end > start && (s.names.Names[strconv.Itoa(n)] == Lens || n >= shortestLens && s.settingFollows(end)) {
			return s.emit(tChoose, "lens "+strconv.Itoa(n), end) // lens one fifty
		} else if s.timeAt(start) { // dark cloth over lens 3m30
			return false
		} else if end, _, ok := length(s.low, start, false); ok && word == "lens" && boundary(s.low, end) && !isLetter(at(s.low, skip(s.low, end))) {
			stop = end // lens 14 in
		} else {
			for stop < len(s.low) && !isSpace(s.low[stop]) && s.low[stop] != ',' {
				stop++
			}
			stop = start + len(strings.TrimRight(s.low[start:stop], ".")) // Lens 300.
			next := skip(s.low, stop)
			goesOn := next < len(s.low) && s.low[next] != ',' && !s.remarkAt(next)
			if (goesOn || !s.takenBefore(len(s.tokens))) && !strings.ContainsAny(s.low[start:stop], "0123456789") {
				stop = start // film holder by the gate, no film left
			}
		}
		if word == "lens" && ofCovering[s.low[start:stop]] {
			return false // hat over lens twice
		}
		if last := len(s.tokens) - 1; word == "lens" && s.last() == tNumber && stop == start {
			s.tokens[last].Type, s.tokens[last].Value, s.ends[last] = tChoose, "lens "+s.tokens[last].Value, end
			s.pos = end
			return true
		}
		return stop > start && s.emit(tChoose, word+" "+s.src[start:stop], stop)
	}
}

// lengthBefore reports whether a length with its unit stands last, before the word lens: 14in,
// 355 mm. 14" is a time as well, and a lens where what stands at i goes on with another term.
func (s *scanner) lengthBefore(i int) bool {
	switch s.last() {
	case tLength:
		return s.field == onSheet
	case tTime:
		c := at(s.low, i)
		return s.field == onSheet && s.src[s.ends[len(s.ends)-1]-1] == '"' && (c == 0 || c == ',' || isDigit(c) || apertureAt(s.low, i))
	}
	return false
}

// ofCovering are words behind the lens that tell of its having been covered, and name none
// (common practice, no source).
var ofCovering = SetOf("twice thrice " + Covered)

// Covered are the words for a lens that was covered, with blanks between.
const Covered = "covered capped blocked masked shielded closed shut"

// timeAt reports whether a time stands at i.
func (s *scanner) timeAt(i int) bool {
	if !isDigit(at(s.low, i)) {
		return false
	}
	rest := scanner{src: s.src, low: s.low, pos: i, begin: i, field: s.field, names: s.names}
	return rest.one() && rest.last() == tTime
}

// title is everything up to the comma.
func (s *scanner) title(end int) bool { return s.rest(tChoose, "scene", end) }

// saying is a word that says how film is developed, with everything up to the
// comma: agitation 5 s every 30 s.
func saying(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.rest(tCare, word, end) }
}

// file is a word and the path of a file, up to the comma: curve filters/gg1.csv.
func file(word string) func(*scanner, int) bool {
	return func(s *scanner, end int) bool { return s.rest(tCurve, word, end) }
}

func (s *scanner) rest(kind lexer.TokenType, word string, end int) bool {
	start := skip(s.low, end)
	stop := start
	for stop < len(s.low) && s.low[stop] != ',' && !s.remarkAt(stop) {
		stop++
	}
	text := strings.TrimRight(s.src[start:stop], " \t")
	return text != "" && s.emit(kind, word+" "+text, start+len(text))
}
