package lang

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// The lexer knows each term by its shape and hands the grammar one token a
// term. The shapes of the notation overlap as people's writing does (1/2 is a
// time, a holder side and half a stop; B is bulb and the back of a holder), and
// they are told apart by what stands beside them: a unit, a sign, the word
// before, the log word of the line. That is a hundred small decisions about
// letters, which a hand-written scanner says plainly and makes fast, while a
// grammar over small tokens would have to try and go back. What the terms mean
// together is said in term.go.

const (
	tComma lexer.TokenType = iota + 1
	tPlus
	tArrow
	tDash
	tEquals
	tDoubt
	tStrike
	tOpen
	tClose
	tAt
	tTo
	tNo
	tNot
	tRemark
	tAperture
	tTime
	tCount
	tBulb
	tEV
	tZone
	tCue
	tEI
	tMeterEI
	tISO
	tFilter
	tDrop
	tFactor
	tStops
	tDensity
	tClass
	tN
	tHold
	tExt
	tExtFrom
	tExtTo
	tScale
	tFocus
	tBellows
	tMovement
	tBracket
	tSame
	tChoose
	tState
	tNegative
	tClock
	tDate
	tDegrees
	tSunny
	tLength
	tCircle
	tFlange
	tClicks
	tShutter
	tTested
	tWith
	tReciprocity
	tPower
	tNone
	tOver
	tFormat
	tBack
	tName
	tNumber
	tWord
)

var symbols = map[string]lexer.TokenType{
	"EOF": lexer.EOF, "Comma": tComma, "Plus": tPlus, "Arrow": tArrow, "Dash": tDash, "Equals": tEquals,
	"Doubt": tDoubt, "Strike": tStrike, "Open": tOpen, "Close": tClose, "At": tAt, "To": tTo, "No": tNo, "Not": tNot,
	"Remark": tRemark, "Aperture": tAperture, "Time": tTime, "Count": tCount, "Bulb": tBulb, "EV": tEV, "Zone": tZone,
	"Cue": tCue, "EI": tEI, "MeterEI": tMeterEI, "ISO": tISO, "Filter": tFilter, "Drop": tDrop, "Factor": tFactor,
	"Stops": tStops, "Density": tDensity, "Class": tClass, "N": tN, "Hold": tHold, "Ext": tExt, "ExtFrom": tExtFrom,
	"ExtTo": tExtTo, "Scale": tScale, "Focus": tFocus, "Bellows": tBellows, "Movement": tMovement, "Bracket": tBracket,
	"Same": tSame, "Choose": tChoose, "State": tState, "Negative": tNegative, "Clock": tClock, "Date": tDate,
	"Degrees": tDegrees, "Sunny": tSunny, "Length": tLength, "Circle": tCircle, "Flange": tFlange, "Clicks": tClicks,
	"Shutter": tShutter, "Tested": tTested, "With": tWith, "Reciprocity": tReciprocity, "Power": tPower, "None": tNone,
	"Over": tOver, "Format": tFormat, "Back": tBack, "Name": tName, "Number": tNumber, "Word": tWord,
}

// scanner reads one line. low is the line in lower case, byte for byte.
type scanner struct {
	src, low string
	pos      int
	field    field
	names    *Lexicon
	tokens   []lexer.Token
	ends     []int // end of each token in src
	open     bool  // within brackets that hold a filter's amount
}

// scan lexes a line's body into tokens and their ends.
func (s *scanner) scan() {
	for {
		s.blanks()
		if s.pos >= len(s.src) {
			return
		}
		if start := s.pos; !s.one() || s.pos == start {
			s.pos = start
			s.word()
		}
	}
}

// one reads one token at pos, or says that nothing fits.
func (s *scanner) one() bool {
	switch c := s.low[s.pos]; {
	case c == '#':
		return s.hash()
	case isDigit(c), (c == '.' || c == '+' || c == '-') && isDigit(s.byte(1)):
		return s.numeric()
	case isLetter(c):
		return s.lettered()
	default:
		return s.sign(c)
	}
}

// emit appends a token that ends at end.
func (s *scanner) emit(kind lexer.TokenType, value string, end int) bool {
	s.tokens = append(s.tokens, lexer.Token{Type: kind, Value: value, Pos: lexer.Position{Offset: s.pos}})
	s.ends = append(s.ends, end)
	s.pos = end
	return true
}

// last is the type of the token before, or 0.
func (s *scanner) last() lexer.TokenType {
	if len(s.tokens) == 0 {
		return 0
	}
	return s.tokens[len(s.tokens)-1].Type
}

func (s *scanner) blanks() {
	for s.pos < len(s.src) && isSpace(s.src[s.pos]) {
		s.pos++
	}
}

// byte is the byte n behind pos, or 0.
func (s *scanner) byte(n int) byte { return at(s.low, s.pos+n) }

// word takes everything up to the next blank or sign as a word.
func (s *scanner) word() {
	end := s.pos + 1
	for end < len(s.src) && !isSpace(s.src[end]) && !strings.ContainsRune(",;()\"~", rune(s.src[end])) {
		end++
	}
	s.emit(tWord, s.src[s.pos:end], end)
}

func (s *scanner) sign(c byte) bool {
	switch c {
	case ',', ';':
		return s.emit(tComma, ",", s.pos+1)
	case '@':
		return s.emit(tAt, "@", s.pos+1)
	case '=':
		return s.emit(tEquals, "=", s.pos+1)
	case '?':
		return s.emit(tDoubt, "?", s.pos+1)
	case '+':
		return s.emit(tPlus, "+", s.pos+1)
	case '(':
		return s.bracket()
	case ')':
		if s.open {
			s.open = false
			return s.emit(tClose, ")", s.pos+1)
		}
	case '"':
		return s.quote()
	case '~':
		if s.byte(1) == '~' {
			return s.emit(tStrike, "~~", s.pos+2)
		}
	case '\\':
		if strings.TrimSpace(s.src[s.pos+1:]) == "" { // a hard line break of Markdown
			s.pos = len(s.src)
			return true
		}
	case '-':
		return s.dash()
	}
	return false
}

// dash reads the remark's dash, the arrow, and the dash of a range.
func (s *scanner) dash() bool {
	switch {
	case s.byte(1) == '>':
		return s.emit(tArrow, "->", s.pos+2)
	case s.byte(1) == '-' && s.remarkAt(s.pos):
		if rest := strings.TrimLeft(s.low[s.pos+2:], " \t"); strings.HasPrefix(rest, "no wait") {
			return s.emit(tComma, ",", s.pos+2)
		}
		return s.emit(tRemark, "--", len(strings.TrimRight(s.src, " \t")))
	case s.field&onLens != 0:
		return s.emit(tDash, "-", s.pos+1)
	}
	return false
}

// remarkAt reports whether " -- " stands at i: a dash between blanks or ends.
func (s *scanner) remarkAt(i int) bool {
	return strings.HasPrefix(s.low[i:], "--") && (i == 0 || isSpace(s.low[i-1])) &&
		(i+2 == len(s.low) || isSpace(s.low[i+2]))
}

// bracket is a filter's amount right behind the filter, else a remark.
func (s *scanner) bracket() bool {
	closing := strings.IndexByte(s.src[s.pos:], ')')
	end := len(s.src)
	if closing >= 0 {
		end = s.pos + closing + 1
	}
	if closing >= 0 && s.last() == tFilter && s.amounts(s.src[s.pos+1:end-1]) {
		s.open = true
		return s.emit(tOpen, "(", s.pos+1)
	}
	return s.emit(tRemark, "(", end)
}

// amounts reports whether a text is one or more amounts of a filter and
// nothing else.
func (s *scanner) amounts(text string) bool {
	inner := scanner{src: text, low: strings.ToLower(text), field: s.field, names: s.names}
	inner.scan()
	for _, t := range inner.tokens {
		if t.Type != tFactor && t.Type != tStops && t.Type != tComma && t.Type != tDensity {
			return false
		}
	}
	return len(inner.tokens) > 0
}

func (s *scanner) quote() bool {
	end := strings.IndexByte(s.src[s.pos+1:], '"')
	if end < 0 {
		return s.emit(tRemark, `"`, len(s.src))
	}
	return s.emit(tRemark, `"`, s.pos+1+end+1)
}

// hash is a Wratten number, or the number of a sheet behind "same as".
func (s *scanner) hash() bool {
	end := digits(s.low, s.pos+1)
	if end == s.pos+1 {
		return false
	}
	return s.emit(tFilter, s.src[s.pos:end], end)
}

// numeric reads what begins with a digit, by what stands behind the number.
func (s *scanner) numeric() bool {
	if s.field&onDevelop != 0 {
		if end, ok := isoDate(s.low, s.pos); ok {
			return s.emit(tDate, s.low[s.pos:end], end)
		}
	}
	if c := s.low[s.pos]; c == '+' || c == '-' {
		return s.signed()
	}
	for _, read := range numerics {
		if read(s) {
			return true
		}
	}
	return false
}

// numerics are the shapes that begin with a digit, tried in this order.
var numerics = []func(*scanner) bool{
	(*scanner).format, (*scanner).clockTime, (*scanner).minutes, (*scanner).amount, (*scanner).length,
	(*scanner).fractionTime, (*scanner).seconds, (*scanner).degrees, (*scanner).times, (*scanner).bare,
}

// signed is stops: +1, -2/3, -1 stop.
func (s *scanner) signed() bool {
	end, value := mixed(s.low, s.pos+1)
	sign := ""
	if s.low[s.pos] == '-' {
		sign = "-"
	}
	end = unit(s.low, end, "stops", "stop")
	return boundary(s.low, end) && s.emit(tStops, sign+value, end)
}

// format is 4x5 or 9x12cm, where a size can be meant.
func (s *scanner) format() bool {
	if s.field&onCamera == 0 {
		return false
	}
	end, _ := decimal(s.low, s.pos)
	cross := skip(s.low, end)
	if at(s.low, cross) != 'x' || !isDigit(at(s.low, skip(s.low, cross+1))) {
		return false
	}
	end, _ = decimal(s.low, skip(s.low, cross+1))
	end = unit(s.low, end, "mm", "cm", "in", "inches")
	return boundary(s.low, end) && s.emit(tFormat, s.low[s.pos:end], end)
}

// clockTime is 2:30 (minutes and seconds), or a ratio 1:3.
func (s *scanner) clockTime() bool {
	colon := digits(s.low, s.pos)
	end := digits(s.low, colon+1)
	if at(s.low, colon) != ':' || !boundary(s.low, end) {
		return false
	}
	left, right := s.low[s.pos:colon], s.low[colon+1:end]
	switch len(right) {
	case 1:
		return right != "0" && s.emit(tScale, left+"/"+right, end)
	case 2:
		return s.emit(tTime, trimFloat(60*number(left)+number(right)), end)
	}
	return false
}

// minutes is 1m30s, 2 min, 1 min 30 s, 1m 30.
func (s *scanner) minutes() bool {
	end, value := mixed(s.low, s.pos)
	behind := unit(s.low, end, "minutes", "minute", "mins", "min", "m")
	if behind == end || !(boundary(s.low, behind) || isDigit(at(s.low, behind))) || s.field&(onLens|onCamera) != 0 {
		return false
	}
	total := 60 * number(value)
	if next := skip(s.low, behind); isDigit(at(s.low, next)) {
		if stop, more := mixed(s.low, next); unit(s.low, stop, secondUnits...) != stop || next == behind {
			stop = unit(s.low, stop, secondUnits...)
			if boundary(s.low, stop) {
				return s.emit(tTime, trimFloat(total+number(more)), stop)
			}
		}
	}
	return s.emit(tTime, trimFloat(total), behind)
}

var secondUnits = []string{"seconds", "second", "secs", "sec", "s"}

// amount is 3 stops, 1 1/2 stop, 2/3 of a stop, 8x.
func (s *scanner) amount() bool {
	end, value := spoken(s.low, s.pos)
	behind := unit(s.low, end, "of a stop", "a stop", "stops", "stop")
	if behind != end && boundary(s.low, behind) {
		return s.emit(tStops, value, behind)
	}
	end, value = decimal(s.low, s.pos)
	if at(s.low, end) == 'x' && boundary(s.low, end+1) && !isDigit(at(s.low, skip(s.low, end+1))) {
		return s.emit(tFactor, value, end+1)
	}
	return false
}

// length is a length with its unit, in millimetres.
func (s *scanner) length() bool {
	end, mm, ok := length(s.low, s.pos, false)
	return ok && s.field&onDevelop == 0 && s.emit(tLength, trimFloat(mm), end)
}

// fractionTime is 1/60, 1/15th, 1/2s: a fraction below one.
func (s *scanner) fractionTime() bool {
	slash := digits(s.low, s.pos)
	end := digits(s.low, slash+1)
	if at(s.low, slash) != '/' || end == slash+1 {
		return false
	}
	left, right := s.low[s.pos:slash], s.low[slash+1:end]
	end = unit(s.low, end, append(secondUnits, "th", "rd", "nd", "st")...)
	return number(left) < number(right) && boundary(s.low, end) && s.emit(tTime, left+"/"+right, end)
}

// seconds is 2s, 0.7 sec, 1 1/2 s, and the 20s of 20s+17s.
func (s *scanner) seconds() bool {
	end, value := spoken(s.low, s.pos)
	behind := unit(s.low, end, secondUnits...)
	if behind == end && at(s.low, end) == '"' && s.field&(onSheet|onMeter) != 0 {
		behind = end + 1
	}
	ok := behind != end && (boundary(s.low, behind) || at(s.low, behind) == '+')
	return ok && s.emit(tTime, trimFloat(number(value)), behind)
}

// degrees is a temperature, in Celsius: 20C, 68F, 20 °C.
func (s *scanner) degrees() bool {
	if s.field&onDevelop == 0 {
		return false
	}
	end, value := decimal(s.low, s.pos)
	end = unit(s.low, end, "°", "deg", "degrees")
	switch behind := unit(s.low, end, "c", "f"); {
	case behind == end || !boundary(s.low, behind):
		return false
	case s.low[behind-1] == 'f':
		return s.emit(tDegrees, trimFloat((number(value)-32)/1.8), behind)
	default:
		return s.emit(tDegrees, value, behind)
	}
}

// times is the 4 x of 4 x 1s.
func (s *scanner) times() bool {
	end := digits(s.low, s.pos)
	cross := skip(s.low, end)
	if at(s.low, cross) != 'x' || !isDigit(at(s.low, skip(s.low, cross+1))) {
		return false
	}
	return s.emit(tCount, s.low[s.pos:end], cross+1)
}

// bare is a number without a unit: a light value where the line or a zone
// behind it says so, else a number that nothing explains.
func (s *scanner) bare() bool {
	end, value := spoken(s.low, s.pos)
	if !boundary(s.low, end) {
		return false
	}
	if _, _, zone := zone(s.low, skip(s.low, end)); zone || s.field&onMeter != 0 {
		return s.emit(tEV, value, end)
	}
	return s.emit(tNumber, value, end)
}
