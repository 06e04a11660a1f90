package lang

import (
	"slices"
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
	tOldSpeed
	tFilter
	tDrop
	tFactor
	tAgain
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
	tFiled
	tScanned
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
	tNumber
	tWord
	tSic
	tAbout
	tNth
	tFalls
	tD
	tDay
	tDilution
	tBatch
	tNotch
	tMeasured
	tMilli
	tRuleName
	tCare
	tSpread
	tNear
	tFar
	tConfusion
	tShorten
	tPercent
	tPatch
	tAcross
	tDown
	tLevel
	tCurve
	tLux
)

var symbols = map[string]lexer.TokenType{
	"EOF": lexer.EOF, "Comma": tComma, "Plus": tPlus, "Arrow": tArrow, "Dash": tDash, "Equals": tEquals,
	"Doubt": tDoubt, "Strike": tStrike, "Open": tOpen, "Close": tClose, "At": tAt, "To": tTo, "No": tNo, "Not": tNot,
	"Remark": tRemark, "Aperture": tAperture, "Time": tTime, "Count": tCount, "Bulb": tBulb, "EV": tEV, "Zone": tZone,
	"Cue": tCue, "EI": tEI, "MeterEI": tMeterEI, "ISO": tISO, "OldSpeed": tOldSpeed, "Filter": tFilter, "Drop": tDrop, "Factor": tFactor, "Again": tAgain,
	"Stops": tStops, "Density": tDensity, "Class": tClass, "N": tN, "Hold": tHold, "Ext": tExt, "ExtFrom": tExtFrom,
	"ExtTo": tExtTo, "Scale": tScale, "Focus": tFocus, "Bellows": tBellows, "Movement": tMovement, "Bracket": tBracket,
	"Same": tSame, "Choose": tChoose, "State": tState, "Negative": tNegative, "Filed": tFiled, "Scanned": tScanned, "Clock": tClock, "Date": tDate,
	"Degrees": tDegrees, "Sunny": tSunny, "Length": tLength, "Circle": tCircle, "Flange": tFlange, "Clicks": tClicks,
	"Shutter": tShutter, "Tested": tTested, "With": tWith, "Reciprocity": tReciprocity, "Power": tPower, "None": tNone,
	"Over": tOver, "Format": tFormat, "Back": tBack, "Number": tNumber, "Word": tWord,
	"Sic": tSic, "About": tAbout, "Nth": tNth, "Falls": tFalls, "D": tD, "Day": tDay, "Dilution": tDilution, "Batch": tBatch,
	"Notch": tNotch, "Measured": tMeasured, "Milli": tMilli, "RuleName": tRuleName, "Care": tCare,
	"Spread": tSpread, "Near": tNear, "Far": tFar, "Confusion": tConfusion, "Shorten": tShorten, "Percent": tPercent, "Curve": tCurve,
	"Patch": tPatch, "Across": tAcross, "Down": tDown, "Level": tLevel, "Lux": tLux,
}

// scanner reads one line. low is the line in lower case, byte for byte.
type scanner struct {
	src, low string
	pos      int
	begin    int // where the terms begin
	field    field
	names    *Lexicon
	tokens   []lexer.Token
	ends     []int // end of each token in src
	open     bool  // within brackets that hold a filter's amount
	peeks    bool  // at what stands behind an empty cell
	named    bool  // what comes stands behind the word for a filter
	back     bool  // within brackets that take back what stands before them

	apertures, durations, clocks int // how many tokens of each there are, while they are settled
}

// scan lexes a line's body into tokens and their ends.
func (s *scanner) scan() {
	s.partFigures()
	s.openCells()
	for {
		from := s.pos
		s.blanks()
		if s.pos >= len(s.src) {
			return
		}
		before := len(s.tokens)
		if s.last() == tEV && s.field&(onSheet|onMeter) != 0 {
			if end, value, ok := s.zoneBehind(s.pos); ok {
				s.emit(tZone, value, end)
				continue
			}
		}
		if s.zoneInCell() || s.wordInCell() {
			continue
		}
		if start := s.pos; !s.one() || s.pos == start {
			s.pos = start
			s.word()
		} else if end := s.completed(s.pos); end > s.pos {
			s.tokens, s.ends, s.pos = s.tokens[:before], s.ends[:before], start
			s.emit(tWord, s.src[start:end], end)
		}
		s.partCells(before, from)
	}
}

// partCells puts the comma that parts two cells of a sheet's line between the last token and the
// one before, where several blanks or a tab stand between them and one of the two is a word, or the
// first a number: words of two cells belong together no more than those before and behind a comma.
func (s *scanner) partCells(i, from int) {
	if s.field != onSheet || i == 0 || i >= len(s.tokens) || s.kind(i-1) != tWord && s.kind(i-1) != tNumber && s.kind(i) != tWord {
		return
	}
	begin := s.tokens[i].Pos.Offset
	if from != s.ends[i-1] || begin < from+2 && at(s.src, from) != '\t' || s.kind(i-1) == tComma || s.kind(i) == tComma {
		return
	}
	s.tokens = slices.Insert(s.tokens, i, lexer.Token{Type: tComma, Value: ",", Pos: lexer.Position{Offset: from}})
	s.ends = slices.Insert(s.ends, i, begin)
}

// one reads one token at pos, or says that nothing fits.
func (s *scanner) one() bool {
	switch c := s.low[s.pos]; {
	case c == '#':
		return s.hash()
	case isDigit(c) && s.noteMark():
		return true
	case (isDigit(c) || c == '+' && isDigit(s.byte(1))) && s.figured():
		return true
	case isDigit(c), (c == '.' || c == '+' || c == '-') && isDigit(s.byte(1)):
		return s.numeric()
	case isLetter(c):
		return s.lettered()
	default:
		return s.sign(c)
	}
}

// noteMark is a figure with a bracket behind a value, that refers to a note below: Y8 1).
func (s *scanner) noteMark() bool {
	if s.byte(1) != ')' || len(s.tokens) == 0 || s.last() == tWord || s.last() == tComma || !boundary(s.low, s.pos+2) || strings.Count(s.low[:s.pos], "(") > strings.Count(s.low[:s.pos], ")") {
		return false
	}
	return s.emit(tComma, ",", s.pos+2)
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

// word takes everything up to the next blank or sign as a word, and pictures by themselves.
func (s *scanner) word() {
	end := s.pos + 1
	if pictures := pictureEnd(s.low, s.pos); pictures > s.pos {
		s.emit(tWord, s.src[s.pos:pictures], pictures)
		return
	}
	for end < len(s.src) && s.low[end] != inPicture && !isSpace(s.src[end]) && strings.IndexByte(",;()\"~?=", s.src[end]) < 0 {
		end++
	}
	s.emit(tWord, s.src[s.pos:end], end)
}

// kind is the type of a token, the end where there is none.
func (s *scanner) kind(i int) lexer.TokenType {
	if i < 0 || i >= len(s.tokens) {
		return lexer.EOF
	}
	return s.tokens[i].Type
}
