package lang

import (
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// Terms of what the meter showed and what was set.

// aperture is f16, f/16, F 16, f16+1/2, f/5.6.6, f22/32.
func (s *scanner) aperture() bool {
	if s.low[s.pos] != 'f' {
		return false
	}
	i := s.pos + 1
	if c := at(s.low, i); c == '/' || c == '.' || c == ':' { // f:16 is how it was once printed
		i++
	}
	return s.fNumber(i) || s.apertureInWords()
}

// fNumber is the number of an aperture behind its sign.
func (s *scanner) fNumber(i int) bool {
	start := skip(s.low, i)
	end, value := decimal(s.low, start)
	if _, part, _ := strings.Cut(value, "."); end == start || len(part) > 1 { // f16.22 is two marks, or none
		return false
	}
	if stop, mark := s.inUniform(end, value); stop > end {
		return s.emit(tAperture, mark, stop)
	}
	stop, more := s.past(end, value)
	if more == "+1/2" && !isMark(value) && isMark(value+".5") { // f12½ is the mark f/12.5
		value, more = value+".5", ""
	}
	if at(s.low, stop) == ':' && isSpace(at(s.low, stop+1)) && s.field&(onSheet|onMeter) != 0 { // f16: 4s
		return s.emit(tAperture, value+more, stop) && s.emit(tComma, ",", stop+1)
	}
	if speed, behind := s.speedBehind(stop); more == "" && behind > stop {
		return s.emit(tAperture, value, stop) && s.emit(tTime, "1/"+speed, behind)
	}
	return boundary(s.low, stop) && s.emit(tAperture, value+more, stop)
}

// speedBehind is the 125 of f16/125 and f16 / 125, a marked speed in parts of a second, where no
// time stands before the aperture; else behind is from.
func (s *scanner) speedBehind(from int) (speed string, behind int) {
	slash := skip(s.low, from)
	if at(s.low, slash) != '/' || s.field&(onSheet|onMeter) == 0 || s.last() == tTime {
		return "", from
	}
	start := skip(s.low, slash+1)
	end := digits(s.low, start)
	if !markedSpeeds[s.low[start:end]] || !boundary(s.low, end) || unit(s.low, end, secondUnits...) != end {
		return "", from
	}
	return s.low[start:end], end
}

// markedSpeeds are the parts of a second that shutters are marked with: ISO 516, and the older
// series (common practice, no source).
var markedSpeeds = SetOf("2 4 5 8 10 15 25 30 50 60 75 100 125 150 200 250 300 400 500 1000")

// stop is an aperture behind a word of its own: Bl. 16, Blende 16.
func (s *scanner) stop(end int) bool {
	if c := at(s.low, end); c == '.' || c == ':' {
		end++
	}
	if stop, mark := markInWords(s.low, skip(s.low, end)); mark != "" { // Blende sechzehn
		return s.emit(tAperture, mark, stop)
	}
	return s.fNumber(end)
}

// past is what stands behind an f-number: another, for halfway between the two
// marks, tenths, or a fraction.
func (s *scanner) past(end int, mark string) (stop int, more string) {
	if stop, upper := s.upper(end, mark); stop > end {
		return stop, "/" + upper
	}
	if at(s.low, end) == '.' && digits(s.low, end+1) == end+2 { // tenths: f16.22 has none
		return end + 2, s.low[end : end+2]
	}
	if stop, said := s.andPart(end); stop > end {
		return stop, "+" + said
	}
	next := skip(s.low, end)
	if at(s.low, next) == '+' {
		from := skip(s.low, next+1)
		if stop, ok := fraction(s.low, from); ok && (from == next+1 || s.partOfStop(from, stop)) {
			return stop, "+" + s.low[from:stop]
		}
	}
	// Behind a time, a third is one of a stop: f22 1/3, f22 and 2/3. A half may be a time.
	from := skip(s.low, unit(s.low, next, "and", "&"))
	if stop, ok := fraction(s.low, from); ok && s.timeBefore() && (s.low[from:stop] == "1/3" || s.low[from:stop] == "2/3") && s.partOfStop(from, stop) {
		return stop, "+" + s.low[from:stop]
	}
	return end, ""
}

// timeBefore reports whether a time stands before that is nothing else: no hour, no count of sheets, and
// not how long a sheet is developed.
func (s *scanner) timeBefore() bool {
	for i := range s.tokens {
		_, none := s.mayBeNone(i)
		behindN := s.kind(i-1) == tN || s.kind(i-1) == tComma && s.kind(i-2) == tN
		if s.tokens[i].Type == tTime && !none && !behindN {
			return true
		}
	}
	return false
}

// partOfStop reports whether a fraction behind an f-number and a blank is a half or a third
// of a stop past it: not a second exposure of the line's time, a time with its unit, so many
// stops more, nor a part of what the words behind it name, f8 2/3 sky.
func (s *scanner) partOfStop(from, stop int) bool {
	said := s.low[from:stop]
	if said != "1/2" && said != "1/3" && said != "2/3" || unit(s.low, stop, secondUnits...) != stop || at(s.low, stop) == '"' {
		return false
	}
	for i := range s.tokens {
		if s.tokens[i].Type == tTime && s.tokens[i].Value == said {
			return false
		}
	}
	next := skip(s.low, stop)
	if !isLetter(at(s.low, next)) {
		return true
	}
	const enough = 24 // bytes: of a term no more than its beginning is looked at
	inner := scanFolded(s.src[next:min(len(s.src), next+enough)], s.field, s.names)
	return len(inner.tokens) > 0 && inner.kind(0) != tWord && inner.kind(0) != tStops
}

// upper is the 22 of f16/22, f16-22 and f16-f22. In a lens's line the dash is
// that of its range.
func (s *scanner) upper(i int, mark string) (end int, value string) {
	c := at(s.low, i)
	if c != '/' && (c != '-' || s.field&(onSheet|onMeter) == 0) {
		return i, ""
	}
	start := i + 1
	if c == '-' {
		start = fSign(s.low, start)
	}
	end, value = decimal(s.low, start)
	const least, most = 1.3, 1.5 // times the mark, about a stop: f22/25 is a speed of the shutter
	if end == start || number(value) < least*number(mark) || number(value) > most*number(mark) || c == '-' && at(s.low, end) == '/' {
		return i, ""
	}
	return end, value
}

// between is an aperture halfway between two marks that lie side by side: between f16
// and f22, between 16 and 22.
func (s *scanner) between(end int) bool {
	start := fSign(s.low, skip(s.low, end))
	behind, lower := decimal(s.low, start)
	and := unit(s.low, behind, "and", "&")
	next := fSign(s.low, skip(s.low, and))
	stop, upper := decimal(s.low, next)
	i := slices.Index(fullStops, lower)
	if behind == start || and == behind || stop == next || i < 0 || fullStops[i+1] != upper || !boundary(s.low, stop) {
		return false
	}
	return s.emit(tAperture, lower+"/"+upper, stop)
}

// fSign is where the number of an aperture stands, behind its sign or without one.
func fSign(s string, i int) int {
	if at(s, i) == 'f' {
		if i++; at(s, i) == '/' {
			i++
		}
	}
	return i
}

// fullStops are the full stops that lenses are marked with (ISO 517), and an end.
var fullStops = append(strings.Fields("1 1.4 2 2.8 4 5.6 8 11 16 22 32 45 64 90 128"), "")

// wideOpen is the value of an aperture that is the lens's widest.
const wideOpen = "open"

func (s *scanner) wide(end int) bool {
	stop := unit(s.low, end, "open")
	return stop != end && boundary(s.low, stop) && s.emit(tAperture, wideOpen, stop)
}

// uniform is a mark of the Uniform System (Photographic Society of Great
// Britain, 1881), in which each mark halves the light: us 16 is f/16, us 32 is
// f/22; so are US16 and U.S. No. 32.
func (s *scanner) uniform(end int) bool {
	start := skip(s.low, end)
	if at(s.low, start) == '.' {
		start = skip(s.low, start+1)
	}
	start += numberSign(s.low[start:])
	start = skip(s.low, fSign(s.low, start)) // US f/32
	stop := digits(s.low, start)
	mark, ok := uniformMarks[s.low[start:stop]]
	return ok && boundary(s.low, stop) && s.emit(tAperture, mark, stop)
}

// inUniform is the end of the sign of the Uniform System behind an aperture's number, f32 US, f/32 (U.S.), and the
// f-number of the mark; else end.
func (s *scanner) inUniform(end int, value string) (stop int, mark string) {
	next := skip(s.low, end)
	for _, sign := range [...]string{"(U.S.)", "(US)", "U.S.", "US"} {
		stop = next + len(sign)
		if next > end && strings.HasPrefix(s.src[next:], sign) && boundary(s.low, stop) && uniformMarks[value] != "" {
			return stop, uniformMarks[value]
		}
	}
	return end, ""
}

// dottedUS is U.S. 32.
func (s *scanner) dottedUS(end int) bool {
	end, ok := end+len(".s"), strings.HasPrefix(s.low[end:], ".s")
	return ok && s.uniform(end)
}

var uniformMarks = map[string]string{"1": "4", "2": "5.6", "4": "8", "8": "11", "16": "16", "32": "22", "64": "32", "128": "45", "256": "64"}

// ofLightValue are the signs of one: exposure value, light value and Lichtwert; the indice de lumination of French meters
// is written IL.
var ofLightValue = SetOf("ev lv lw")

// lightValue is EV 11, EV11+1/2, EV -2, EV minus 2, Ev. 9, LV 9, LW 9, IL 9.
func (s *scanner) lightValue() bool {
	end := s.pos + 2
	if sign := s.src[s.pos:min(end, len(s.src))]; !ofLightValue[s.low[s.pos:s.pos+len(sign)]] && sign != "IL" { // il is an article
		return false
	}
	if c := at(s.low, end); c == '.' || c == ':' {
		end++
	}
	start := skip(s.low, end)
	i, below := start, at(s.low, start) == '-'
	if at(s.low, i) == '-' || at(s.low, i) == '+' {
		i++
	} else if said := unit(s.low, i, "minus", "plus"); said > i {
		i, below = skip(s.low, said), s.low[i] == 'm'
	}
	end, value := unitless(s.low, i)
	if end == i && i > s.pos+2 { // EV eleven
		end, value = mixedInWords(s.low, i, brightestRead)
	}
	if end == i {
		return false
	}
	if _, _, placed := s.zoneBehind(end); !boundary(s.low, end) && !placed { // EV 8/III
		return false
	}
	if from, to, two := strings.Cut(value, "/"); two && !strings.Contains(from, "+") && number(from) >= 2 && !properFraction(value) { // EV 12/13
		switch number(to) - number(from) {
		case 1:
			value = from + "+1/2"
		case -1: // EV 13/12
			value = to + "+1/2"
		default: // no fraction: EV 10/15
			return s.field&(onMeter|onSheet) != 0 && s.emit(tWord, s.src[s.pos:end], end)
		}
	}
	if stop := unit(s.low, end, "below zero", "below 0"); stop > end {
		end, below = stop, true
	}
	if below {
		value = "-" + value
	}
	return s.emit(tEV, value, end)
}

// development is N, N+1, N-1+1/2, N minus 1.
func (s *scanner) development() bool {
	if s.low[s.pos] != 'n' {
		return false
	}
	if end := s.compass(); end > s.pos {
		return s.emit(tWord, s.src[s.pos:end], end)
	}
	if s.byte(1) == '.' && isLetter(s.byte(2)) {
		return false // N.D., the neutral density
	}
	i := skip(s.low, s.pos+1)
	closes := ""
	if c := at(s.low, i); c != 0 && strings.IndexByte("./:=(", c) >= 0 { // N.-1, N (-1)
		if sign := skip(s.low, i+1); at(s.low, sign) == '-' || at(s.low, sign) == '+' {
			i = sign
			if c == '(' {
				closes = ")"
			}
		}
	}
	for _, said := range [...][2]string{{"+", ""}, {"-", "-"}, {"plus ", ""}, {"minus ", "-"}} {
		if strings.HasPrefix(s.low[i:], said[0]) {
			start := skip(s.low, i+len(said[0]))
			if end, value := mixedInWords(s.low, start, 5); end > start {
				return boundary(s.low, end) && s.emit(tN, said[1]+value, end)
			}
			if end, value := mixed(s.low, start); end > start && boundary(s.low, end) && strings.HasPrefix(s.low[end:], closes) && !isSpeed(value, start > i+len(said[0])) {
				return s.emit(tN, said[1]+value, end+len(closes))
			}
		}
	}
	return s.src[s.pos] == 'N' && boundary(s.low, s.pos+1) && at(s.low, s.pos+1) != '-' && s.emit(tN, "0", s.pos+1)
}

// developmentInWords is how a sheet is to be developed without the sign for it: normal minus one, minus one development,
// development plus one.
func (s *scanner) developmentInWords() bool {
	led := unit(s.low, s.pos, "normal development", "normal", "development", "develop", "developing")
	next := skip(s.low, led)
	from, sign := unit(s.low, next, "plus", "+"), ""
	if from == next {
		from, sign = unit(s.low, next, "minus", "-"), "-"
	}
	if s.field&(onSheet|onDevelop) == 0 || from == next {
		return false
	}
	start := skip(s.low, from)
	end, value := mixedInWords(s.low, start, 5)
	if end == start {
		end, value = mixed(s.low, start)
	}
	behind := unit(s.low, end, "development", "developing", "in development")
	if end == start || led == s.pos && behind == end || !boundary(s.low, behind) || number(value) > 5 || inStopsBehind(s.low, behind) {
		return false
	}
	return s.emit(tN, sign+value, behind)
}

// isSpeed reports whether a number behind a dash is the shutter speed behind an empty column, and no
// part of a stop: N - 1/15 f16. Of an eighth a blank tells.
func isSpeed(value string, apart bool) bool {
	return strings.HasPrefix(value, "1/") && (!properFraction(value) || apart && strings.HasSuffix(value, "/8"))
}

// compass is the end of an N that is the north, else pos: one of two points, N.E., with a full stop
// before a word or behind one that no setting stands before, N. gate, gate N., and in a run of words
// that lead to where one looks, from the N. What stands behind the settings with a capital after it
// is the end of a sentence.
func (s *scanner) compass() int {
	end := s.pos + 1
	points := s.pos
	for strings.IndexByte("NESW", at(s.src, points)) >= 0 && at(s.src, points+1) == '.' {
		points += 2
	}
	if c := at(s.src, points); points > s.pos && strings.IndexByte("NESW", c) >= 0 && boundary(s.low, points+1) {
		points++ // N.E
	}
	if s.field&onSheet != 0 && points > s.pos+2 && (boundary(s.low, points) || strings.IndexByte(");/'-", at(s.low, points)) >= 0) {
		return points
	}
	dotted := at(s.src, end) == '.'
	if c := at(s.low, end+1); s.src[s.pos] != 'N' || s.field&onSheet == 0 || !boundary(s.low, end) || dotted && (!boundary(s.low, end+1) || c == '-' || c == '+') {
		return s.pos
	}
	if dotted {
		end++
	}
	if n := len(s.tokens) - 1; s.last() == tWord && s.ends[n]+1 == s.pos && (dotted && s.count(tAperture, tTime) == 0 || leadsNorth[s.low[s.tokens[n].Pos.Offset:s.ends[n]]]) {
		return end
	}
	next := skip(s.low, end)
	word := s.low[next:letterRun(s.low, next)]
	if !dotted || word == "" || next > end+1 || isDigit(at(s.low, next+len(word))) || s.count(tAperture, tTime) > 0 && (s.src[next] < 'a' || ofDevelopment[word]) {
		return s.pos
	}
	return end
}

var (
	leadsNorth    = SetOf("the from to looking looks look facing faces due towards toward of wind face side")
	ofDevelopment = SetOf("dev develop developed development normal standard as in at for with to and but or if when no not see")
)

func (s *scanner) placement() bool {
	end, value, ok := zone(s.low, s.pos)
	counts := isDigit(at(s.low, end-1)) && s.countEnd(end) > end // in 3 parts of 100 s
	return ok && !counts && s.emit(tZone, value, end)
}

// zoneBehind reads the zone behind a light value that on does not lead to: EV 9 -> III, EV 9 auf III,
// 9/III, 9 = III, EV 9 III. It is in capitals, as no word of a note is.
func (s *scanner) zoneBehind(i int) (end int, value string, ok bool) {
	next, led := skip(s.low, i), false
	for _, lead := range [...]string{"->", "=>", "=", "/", "to ", "auf ", "@ "} {
		if strings.HasPrefix(s.low[next:], lead) {
			next, led = skip(s.low, next+len(lead)), true
			break
		}
	}
	end = roman(s.low, next)
	if end > next && !led && s.zoneBefore() {
		return i, "", false // III  EV 9   VII  EV 13
	}
	if end == next || s.src[next] < 'A' || s.src[next:end] != strings.ToUpper(s.src[next:end]) {
		return i, "", false
	}
	to := led && strings.HasPrefix(s.low[skip(s.low, i):], "to ")
	apart := isWide(s.low[len(strings.TrimRight(s.low[:next], " \t")):next]) && isWide(s.low[end:skip(s.low, end)]) && s.low[next] != 'x' // in its own column; X is a cross too
	if c := at(s.low, skip(s.low, end)); (!led || to) && !apart && end == next+1 && c != ',' && c != 0 {                                  // EV 9 I gave
		return i, "", false
	}
	if !led && !apart && s.namesThing(end) {
		return i, "", false
	}
	value = strconv.Itoa(romans[s.low[next:end]])
	if at(s.low, end) == '+' {
		if stop, fine := fraction(s.low, end+1); fine {
			value, end = value+s.low[end:stop], stop
		}
	}
	return end, value, boundary(s.low, end)
}

// namesThing reports whether one blank and a word with a capital follow a numeral, and no number up to the comma: III Corps.
func (s *scanner) namesThing(end int) bool {
	stretch, _, _ := strings.Cut(s.src[end:], ",")
	return len(stretch) > 2 && stretch[0] == ' ' && stretch[1] >= 'A' && stretch[1] <= 'Z' && isLetter(s.low[end+2]) && !strings.ContainsAny(stretch, "0123456789")
}

// zoneBefore reports whether a zone stands alone before the light value that was read last.
func (s *scanner) zoneBefore() bool {
	n := len(s.tokens) - 2
	if s.kind(n) == tComma {
		n--
	}
	if s.last() != tEV || s.kind(n) != tWord || n > 0 && s.kind(n-1) == tWord {
		return false
	}
	word := s.src[s.tokens[n].Pos.Offset:s.ends[n]]
	return strings.Trim(word, "IVX") == "" && roman(strings.ToLower(word), 0) == len(word)
}

// zoneInCell is the zone that fills the cell behind a light value's: EV 10,III,f16.
func (s *scanner) zoneInCell() bool {
	last := len(s.tokens) - 1
	if s.last() != tComma || s.kind(last-1) != tEV || s.field&(onSheet|onMeter) == 0 || s.low[s.tokens[last].Pos.Offset] == '.' {
		return false
	}
	end, value, ok := s.zoneBehind(s.pos)
	if next := skip(s.low, end); !ok || !isLetter(s.low[s.pos]) || next < len(s.low) && strings.IndexByte(",;", s.low[next]) < 0 {
		return false
	}
	s.tokens, s.ends = s.tokens[:last], s.ends[:last]
	return s.emit(tZone, value, end)
}

// factor is x8, x2½, and behind a sheet's filter *4.
func (s *scanner) factor() bool {
	starred := s.low[s.pos] == '*' && s.last() == tFilter && s.field&onSheet != 0
	if s.low[s.pos] != 'x' && !starred {
		return false
	}
	start := skip(s.low, s.pos+1)
	end, value := mixed(s.low, start)
	if starred && at(s.low, end) == '*' {
		return false // *4*, in italics
	}
	if s.src[s.pos] == 'X' && start == s.pos+1 && (value == "1" || value == "2") && !s.mayCost() {
		return false // X1 and X2 are old names of filters
	}
	if end == start || !boundary(s.low, end) {
		return false
	}
	if inStopsBehind(s.low, end) {
		return s.emit(tNumber, value, end)
	}
	s.ofFilterBefore()
	return s.emit(tFactor, value, end)
}

// mayCost reports whether a factor may stand behind what was read last: a filter or a time, and on a
// filter's own line a filter anywhere before.
func (s *scanner) mayCost() bool {
	last := s.last()
	return last == tFilter || last == tTime ||
		s.field&onFilter != 0 && slices.ContainsFunc(s.tokens, func(t lexer.Token) bool { return t.Type == tFilter })
}

// inStopsBehind reports whether the word for stops stands at i. Nobody knows what x2 stops is.
func inStopsBehind(s string, i int) bool { return unit(s, i, "stops", "stop") > i }

// saidFactor is factor 2, a factor of 2½, factor 2x and factor x2; factor 2 stops is an amount
// in stops.
func (s *scanner) saidFactor(end int) bool {
	end = unit(s.low, end, "of")
	start := skip(s.low, end)
	if stop, value := spoken(s.low, start); stop > start && inStopsBehind(s.low, stop) {
		s.ofFilterBefore()
		return s.emit(tStops, value, unit(s.low, stop, "stops", "stop"))
	}
	if at(s.low, start) == 'x' {
		start = skip(s.low, start+1)
	}
	end, value := mixed(s.low, start)
	if end == start {
		end, value = mixedInWords(s.low, start, 16) // factor four, Faktor vier
	}
	if end > start && at(s.low, end) == 'x' {
		end++
	}
	if end <= start || !boundary(s.low, end) || inStopsBehind(s.low, end) {
		return false
	}
	s.ofFilterBefore()
	return s.emit(tFactor, value, end)
}

// manyfold is a factor in one German word: vierfach.
func (s *scanner) manyfold(end int) bool {
	if !s.termEnds(end) {
		return false // dreifach verglast
	}
	s.ofFilterBefore()
	return s.emit(tFactor, strconv.Itoa(cardinals[strings.TrimSuffix(s.low[s.pos:end], "fach")]), end)
}

// power is t^1.31.
func (s *scanner) power() bool {
	if !strings.HasPrefix(s.low[s.pos:], "t^") {
		return false
	}
	end, value := decimal(s.low, s.pos+2)
	return end > s.pos+2 && s.emit(tPower, value, end)
}

// falls is "falls VII", "falls on zone 7".
func (s *scanner) falls(end int) bool {
	start := skip(s.low, end)
	if stop, value, ok := zone(s.low, start); ok {
		return s.emit(tFalls, value, stop)
	}
	stop := roman(s.low, start)
	return stop > start && s.emit(tFalls, strconv.Itoa(romans[s.low[start:stop]]), stop)
}

// metered is the cue, also behind the filter: metered through the yellow filter,
// metered with the Y8 on. Without a word that it was on the lens, "with the yellow"
// leaves open whether the meter looked through it.
func (s *scanner) metered(end int) bool {
	if next := s.low[skip(s.low, end):]; s.behindWord("light") && s.low[s.pos:end] == "meter" && !(isDigit(at(next, 0)) || apertureIn(next[:min(len(next), 3)]) || strings.HasPrefix(next, "ev")) {
		return false // the light meter in the bag
	}
	if stop := unit(s.low, end, "through the lens", "ttl"); stop != end {
		return s.emit(tCue, "metered through", stop)
	}
	through := unit(s.low, end, "through", "thru", "thro", "behind")
	with := through
	if through == end {
		with = unit(s.low, end, "with")
	}
	if with == end {
		return cue("metered")(s, end)
	}
	noun := articles(s.low, skip(s.low, with))
	if stop := unit(s.low, noun, "filters", "filter"); stop > noun {
		return s.emit(tCue, s.looking(through > end, stop), s.onLens(stop))
	}
	at, from := len(s.tokens), s.pos
	s.emit(tCue, "", with)
	s.pos = noun
	if noun == len(s.low) || !s.filterHere() || s.tokens[at+1].Type != tFilter {
		s.tokens, s.ends = s.tokens[:at], s.ends[:at]
		s.pos = from
		if through > end {
			return s.emit(tCue, "metered through", through)
		}
		return cue("metered")(s, end)
	}
	last := len(s.ends) - 1
	s.tokens[at].Value = s.looking(through > end, s.ends[last])
	s.ends[last] = s.onLens(s.ends[last])
	s.pos = s.ends[last]
	return true
}

// readThrough is read, and read through it or through a filter: as metered through it.
func (s *scanner) readThrough(end int) bool {
	through := unit(s.low, end, "through", "thru", "thro")
	if through == end {
		return cue("metered")(s, end)
	}
	if stop := unit(s.low, through, "it", "that", "them", "both"); stop > through {
		return s.emit(tCue, "metered through", s.onLens(stop))
	}
	rest := scanner{src: s.src, low: s.low, pos: articles(s.low, skip(s.low, through)), field: s.field, names: s.names}
	if rest.begin = rest.pos; rest.pos < len(s.low) && rest.filterHere() && rest.tokens[0].Type == tFilter {
		return s.metered(end)
	}
	return cue("metered")(s, end)
}

// looking is the cue of a meter that looked through a filter, or may have.
func (s *scanner) looking(through bool, end int) string {
	if through || s.onLens(end) > end {
		return "metered through"
	}
	return "metered with"
}

// onLens is behind the words for a filter's being on the lens; "on III" is a zone.
func (s *scanner) onLens(end int) int {
	if _, _, ok := zone(s.low, skip(s.low, end)); ok {
		return end
	}
	return unit(s.low, end, "on the lens", "in place", "in front", "on", "fitted", "attached", "mounted")
}

// subjectRange is how many stops the subject spans, in the writer's count: SBR 5, range of
// 6 stops, contrast 4. It is a remark, where the same number behind a place's name is an EV.
func (s *scanner) subjectRange(end int) bool {
	start := skip(s.low, unit(s.low, end, "is", "of", "about", "="))
	if at(s.low, start) == '=' || at(s.low, start) == ':' {
		start = skip(s.low, start+1)
	}
	stop, _ := spoken(s.low, start)
	if stop == start {
		return false
	}
	from := skip(s.low, unit(s.low, stop, "to", "-")) // range 9 to 15
	if upper, _ := spoken(s.low, from); upper > from {
		stop = upper
	}
	stop = unit(s.low, stop, "stops", "stop", "zones", "ev", "lv", "lw")
	if _, _, placed := zone(s.low, skip(s.low, stop)); placed || !boundary(s.low, stop) {
		return false
	}
	if s.last() == tWord && s.low[s.pos:end] != "sbr" && !s.brightness() {
		return false // the mountain range 12
	}
	return s.emit(tRemark, s.src[s.pos:stop], stop)
}

// brightness reports whether the word before says that a range is one of brightness.
func (s *scanner) brightness() bool {
	last := len(s.tokens) - 1
	switch s.low[s.tokens[last].Pos.Offset:s.ends[last]] {
	case "subject", "brightness", "luminance", "scene", "stop", "total", "its", "the":
		return true
	}
	return false
}

func (s *scanner) sunny(end int) bool {
	stop := skip(s.low, end)
	if next := digits(s.low, stop); s.low[stop:next] == "16" {
		return s.emit(tSunny, "sunny 16", next)
	}
	switch end, value := decimal(s.low, stop); value {
	case "5.6", "8", "11", "22": // the rule for another sky, or what was metered there
		return s.emit(tNumber, value, end)
	}
	return false
}

// at is the meter's index (at EI 100), a time of day (at 14:30), or the word
// between time and aperture.
func (s *scanner) at(end int) bool {
	next := skip(s.low, end)
	if stop := s.indexBehindEV(next); stop > next {
		return s.emit(tMeterEI, s.low[next:stop], stop)
	}
	if s.last() == tEV && s.field&(onMeter|onSheet) != 0 && isLetter(at(s.low, next)) { // EV 12 at two hundred fifty
		if stop, value, _ := s.speed(next); value != "" && number(value) >= brightestAt && s.settingFollows(stop) {
			hour := !strings.Contains(s.low[next:stop], "hundred") // at two fifty may be one
			return s.emit(tMeterEI, value, stop) && (!hour || s.emit(tDoubt, "?", stop))
		}
	}
	if after := unit(s.low, next, "ei", "iso", "asa"); after != next {
		start := skip(s.low, after)
		if stop, value, _ := s.speed(start); value != "" {
			return s.emit(tMeterEI, value, stop)
		}
		if stop, value := decimal(s.low, start); stop > start { // same, at EI 25: f32
			return s.emit(tMeterEI, value, stop)
		}
	}
	if stop, value, signed := s.speed(next); signed { // at 125 ASA
		return s.emit(tMeterEI, value, stop)
	}
	if h, ok := hourAt(s.low, next); ok && !h.bare {
		if last, ok := s.closing(h.end, false); ok && s.field&onSheet != 0 {
			return s.emit(tClock, stretch(h, last), last.end)
		}
		if end, typed := clockAt(s.low, next); end == h.end {
			return s.emit(tClock, typed, end)
		}
		return s.emit(tClock, clock(h.seconds), h.end)
	}
	if s.atMark(next, end) {
		return true
	}
	if isDigit(at(s.low, next)) || apertureAt(s.low, next) {
		return s.emit(tAt, "at", end)
	}
	if stop, p := partInWords(s.low, next); stop > next { // at an eighth
		whole := s.count(tAperture, tSame) > 0 && s.settingFollows(stop) && p.over != 3
		return (p.over >= surely || whole || unit(s.low, stop, partUnits...) > stop) && s.emit(tAt, "at", end)
	}
	if stop, over := ordinalAt(s.low, next); over >= surely && isLetter(s.low[next]) && boundary(s.low, stop) {
		return s.emit(tAt, "at", end)
	}
	return false
}

// indexBehindEV is the end of an index behind a light value and a sign, EV 12 @ 100, where it
// is a speed of the series and too large for another light value; else i.
func (s *scanner) indexBehindEV(i int) int {
	stop := digits(s.low, i)
	if s.last() != tEV || s.field&(onMeter|onSheet) == 0 || !boundary(s.low, stop) || !slices.Contains(atDegrees, s.low[i:stop]) || number(s.low[i:stop]) < brightestAt {
		return i
	}
	next := skip(s.low, stop)
	if unit(s.low, stop, notOfIndex...) > stop || strings.IndexByte("%°'\"", at(s.low, next)) >= 0 || apertureIn(s.low[next:min(next+3, len(s.low))]) {
		return i
	}
	return stop
}

// brightestAt is from which number on an index behind a light value is no other light value.
const brightestAt = 25

// notOfIndex are units that make a distance or a time of a number behind a light value: EV 12
// at 100 yards.
var notOfIndex = strings.Fields("m metres meters metre meter km ft feet foot yards yard yds yd paces steps miles mile mm cm in ins inch inches s sec secs second seconds min minutes hours percent degrees")

// about before a value makes it doubtful.
func (s *scanner) about(end int) bool {
	next := skip(s.low, end)
	return (isDigit(at(s.low, next)) || apertureAt(s.low, next)) && s.emit(tAbout, "about", end)
}

// bulb is B before a time; alone it is a word.
func (s *scanner) bulb(end int) bool {
	next := skip(s.low, end)
	return (s.field&onLens != 0 || isDigit(at(s.low, next))) && s.emit(tBulb, "B", end)
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
	stop = unit(s.low, stop, "stops", "stop")
	return boundary(s.low, stop) && s.emit(tBracket, sign+value, stop)
}

// said is an amount in words: half a stop, a third of a stop, quarter second.
func (s *scanner) said() bool {
	if word := s.low[s.pos:letterRun(s.low, s.pos)]; !numberWords[word] && word != "twice" && word != "thrice" {
		return false
	}
	if s.timeInWords() || s.timesInWords() {
		return true
	}
	for _, f := range fractionsInWords {
		if !strings.HasPrefix(s.low[s.pos:], f[0]) {
			continue
		}
		end := s.pos + len(f[0])
		if stop := unitOfStops(s.low, end); stop != end {
			return s.neutralBehind(f[1], stop) || s.emit(tStops, f[1], stop)
		}
		stop := unit(s.low, end, partUnits...)
		if stop != end && s.field&(onSheet|onMeter) != 0 {
			if s.goesOn() || unit(s.low, stop, "or") > stop { // a second or two
				return s.emit(tWord, s.src[s.pos:stop], stop)
			}
			value := f[1]
			if strings.Contains(value, "+") {
				value = trimFloat(number(value))
			}
			return s.emit(tTime, value, stop)
		}
	}
	return s.lensInWords()
}

// fractionsInWords are numbers as they are said.
var fractionsInWords = [...][2]string{
	{"eine halbe", "1/2"}, {"halbe", "1/2"}, {"une demi-", "1/2"}, {"une demi", "1/2"}, {"demi-", "1/2"}, {"demi", "1/2"}, {"anderthalb", "1+1/2"}, {"eineinhalb", "1+1/2"}, {"zweieinhalb", "2+1/2"},
	{"one and a half", "1+1/2"}, {"one and a third", "1+1/3"}, {"one and two thirds", "1+2/3"}, {"two and a half", "2+1/2"},
	{"half", "1/2"}, {"a half", "1/2"}, {"one half", "1/2"}, {"third", "1/3"}, {"a third", "1/3"}, {"one third", "1/3"},
	{"two thirds", "2/3"}, {"two-thirds", "2/3"}, {"quarter", "1/4"}, {"a quarter", "1/4"}, {"three quarters", "3/4"},
	{"one", "1"}, {"two", "2"}, {"three", "3"}, {"four", "4"}, {"a", "1"},
	{"eine", "1"}, {"une", "1"}, {"un", "1"}, {"zwei", "2"}, {"deux", "2"}, {"drei", "3"}, {"trois", "3"},
}
