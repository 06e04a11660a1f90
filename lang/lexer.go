package lang

import (
	"slices"
	"strconv"
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
	"Cue": tCue, "EI": tEI, "MeterEI": tMeterEI, "ISO": tISO, "Filter": tFilter, "Drop": tDrop, "Factor": tFactor, "Again": tAgain,
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
	back     bool  // within brackets that take back what stands before them

	apertures, durations, clocks int // how many tokens of each there are, while they are settled
}

// scan lexes a line's body into tokens and their ends.
func (s *scanner) scan() {
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
		if start := s.pos; !s.one() || s.pos == start {
			s.pos = start
			s.word()
		}
		s.partCells(before, from)
	}
}

// partCells puts the comma that parts two cells of a sheet's line between the last token and the
// one before, where several blanks or a tab stand between them and one of the two is a word:
// words of two cells belong together no more than those before and behind a comma.
func (s *scanner) partCells(i, from int) {
	if s.field != onSheet || i == 0 || i >= len(s.tokens) || s.kind(i-1) != tWord && s.kind(i) != tWord {
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
	for end < len(s.src) && !isSpace(s.src[end]) && strings.IndexByte(",;()\"~?=", s.src[end]) < 0 {
		end++
	}
	s.emit(tWord, s.src[s.pos:end], end)
}

// addedLater is an annotation of a later year behind a sheet's whole settings, a remark up to
// the end of the line: added 1997: printed on grade 3.
func (s *scanner) addedLater(end int) bool {
	from := skip(s.low, end)
	colon := digits(s.low, from)
	if strings.HasPrefix(s.low[from:], "later") {
		colon = from + len("later")
	} else if colon-from != 4 {
		return false
	}
	return at(s.low, colon) == ':' && s.count(tAperture) > 0 && s.count(tTime) > 0 && s.emit(tRemark, "added", len(strings.TrimRight(s.src, " \t")))
}

func (s *scanner) sign(c byte) bool {
	if end := s.cell(); end > s.pos {
		if strings.ContainsAny(s.src[s.pos:end], `"'`) {
			return s.emit(tSame, "", end)
		}
		return s.emit(tComma, ",", end)
	}
	switch c {
	case ',', ';':
		return s.emit(tComma, ",", s.pos+1)
	case '.', ':', '!', '*', '|':
		return s.punctuation()
	case '@', '/':
		if from := skip(s.low, s.pos+1); c == '@' {
			if stop := s.indexBehindEV(from); stop > from {
				return s.emit(tMeterEI, s.low[from:stop], stop)
			}
		}
		return s.emit(tAt, "@", s.pos+1)
	case '=':
		if s.byte(1) == '>' {
			return s.arrow()
		}
		if s.field&onSheet != 0 && s.last() == tTime { // 20s = 49s
			if end := skip(s.low, s.pos+1); isDigit(at(s.low, end)) {
				return s.emit(tArrow, "->", s.pos+1)
			}
		}
		if next := skip(s.low, s.pos+1); s.field&onSheet != 0 && s.last() == tFilter && (isDigit(at(s.low, next)) || strings.IndexByte("x+-", at(s.low, next)) >= 0 && isDigit(at(s.low, next+1))) {
			s.pos = next // Y8 = 2x
			return true
		}
		return s.emit(tEquals, "=", s.pos+1)
	case '?':
		return s.emit(tDoubt, "?", s.pos+1)
	case '+', '&':
		if c == '+' && s.densityOn() {
			return true
		}
		return s.emit(tPlus, "+", s.pos+1)
	case '(':
		if end := s.doubt(')'); end > 0 {
			return s.emit(tDoubt, "?", end)
		}
		return s.bracket()
	case ')', ']':
		switch {
		case s.open:
			s.open = false
			return s.emit(tClose, ")", s.pos+1)
		case s.back && c == ')':
			s.back = false
			return s.emit(tComma, ",", s.pos+1)
		}
	case '[':
		if strings.HasPrefix(s.low[s.pos:], "[sic]") {
			return s.emit(tSic, "[sic]", s.pos+len("[sic]"))
		}
		if end := s.doubt(']'); end > 0 {
			return s.emit(tDoubt, "?", end)
		}
		if closing := strings.IndexByte(s.src[s.pos:], ']'); closing > 0 && s.field&onSheet != 0 && s.last() == tFilter && s.amounts(s.src[s.pos+1:s.pos+closing]) {
			s.open = true
			return s.emit(tOpen, "(", s.pos+1)
		}
		if end := strings.IndexByte(s.src[s.pos:], ']'); end > 0 && s.field&onSheet != 0 && (s.pos == 0 || isSpace(s.src[s.pos-1])) && s.byte(end+1) != '(' {
			return s.emit(tRemark, "[", s.pos+end+1) // an editor's
		}
	case '"':
		return s.quote()
	case '<':
		if end := commentAt(s.low, s.pos); end > s.pos {
			return s.emit(tRemark, "<", end)
		}
	case '~':
		return s.tilde()
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

// dittos are the marks that stand for what the line above has in the same column.
var dittos = []string{`--"--`, `-"-`, `"`, "-''-", "''"}

// cell is the end of a ditto mark, or of a dash in an empty column, where a sheet's line
// begins with it; else pos. More of them may follow. A quotation has no blank behind its
// first mark, and behind the dash of a remark stand more words than terms.
func (s *scanner) cell() int {
	c := s.low[s.pos]
	if s.field&onSheet == 0 || c != '"' && c != '\'' && c != '-' || len(s.tokens) > 64 {
		return s.pos
	}
	first := len(s.tokens) == s.count(tSame, tComma)
	if !first && (c != '-' || !s.wideAround() || s.count(tAperture, tTime) > 0) {
		return s.pos
	}
	for _, mark := range dittos {
		end := s.pos + len(mark)
		if c := at(s.low, end); first && strings.HasPrefix(s.low[s.pos:], mark) && (c == 0 || c == ',' || c == ';' || isSpace(c)) {
			if quoted := strings.IndexByte(s.low[end:], '"'); mark != `"` || quoted < 0 || s.lone(end+quoted) && !s.onlyWords(s.src[end:end+quoted]) {
				return end
			}
		}
	}
	end := s.pos
	for at(s.low, end) == '-' && end < s.pos+2 {
		end++
	}
	if end == s.pos || !isSpace(at(s.low, end)) && at(s.low, end) != ',' {
		return s.pos
	}
	if s.peeks {
		return end
	}
	behind := scanner{src: s.src[end:], low: s.low[end:], field: s.field, names: s.names, peeks: true}
	if behind.scan(); behind.settings() == 0 || !behind.terse() {
		return s.pos
	}
	return end
}

// wideAround reports whether the dash at pos stands between several blanks, or tabs.
func (s *scanner) wideAround() bool {
	wide := func(gap string) bool { return len(gap) > 1 || gap == "\t" }
	before := s.low[len(strings.TrimRight(s.low[:s.pos], " \t")):s.pos]
	end := s.pos + len(s.low[s.pos:]) - len(strings.TrimLeft(s.low[s.pos:], "-"))
	return wide(before) && wide(s.low[end:skip(s.low, end)])
}

// onlyWords reports whether a text is words and no term.
func (s *scanner) onlyWords(text string) bool {
	inner := scanFolded(text, s.field, s.names)
	return inner.count(tWord) > 0 && inner.count(tWord, tComma) == len(inner.tokens)
}

// lone reports whether a quotation mark stands by itself, as a ditto mark does.
func (s *scanner) lone(i int) bool {
	before, behind := at(s.low, i-1), at(s.low, i+1)
	return (isSpace(before) || before == ',' || before == '-') && (behind == 0 || behind == ',' || behind == '-' || isSpace(behind))
}

// punctuation of a sentence, or what is left of Markdown's bold, says nothing.
func (s *scanner) punctuation() bool {
	end := s.pos + 1
	for strings.IndexByte(".:!*|", at(s.low, end)) >= 0 {
		end++
	}
	return (end == len(s.low) || isSpace(s.low[end]) || s.low[end] == ',') && s.emit(tComma, ",", end)
}

// tilde opens or ends struck text; one alone before a value says "about".
func (s *scanner) tilde() bool {
	if s.byte(1) == '~' {
		return s.emit(tStrike, "~~", s.pos+2)
	}
	next := skip(s.low, s.pos+1)
	return (isDigit(at(s.low, next)) || apertureAt(s.low, next)) && s.emit(tAbout, "~", s.pos+1)
}

// dash reads the remark's dash, the arrow, and the dash of a range.
func (s *scanner) dash() bool {
	if end := s.nothing(); end > s.pos {
		return s.emit(tComma, ",", end)
	}
	switch {
	case s.byte(1) == '>':
		return s.arrow()
	case s.byte(1) == '-' && s.remarkAt(s.pos):
		if end := s.takesBack(s.pos + 2); end > 0 {
			return s.emit(tNo, "no wait", end)
		}
		rest := s.low[skip(s.low, s.pos+2):]
		if last := s.last(); s.field&onLens != 0 && (last == tAperture || last == tTime) && (isDigit(at(rest, 0)) || at(rest, 0) == 'f') {
			return s.emit(tDash, "-", s.pos+2) // f8 – f45, as phones set it
		}
		if s.takesOff(s.pos + 2) {
			return s.emit(tWord, "-", s.pos+2)
		}
		if s.column(s.pos + 2) {
			return s.emit(tComma, ",", s.pos+2)
		}
		if strings.Trim(s.src[s.pos+2:], "? \t()[]") == "" && strings.Contains(s.src[s.pos:], "?") {
			return s.emit(tDoubt, "?", len(strings.TrimRight(s.src, " \t"))) // no remark but the doubt
		}
		return s.emit(tRemark, "--", len(strings.TrimRight(s.src, " \t")))
	case s.field&onLens != 0:
		return s.emit(tDash, "-", s.pos+1)
	case isSpace(s.byte(1)):
		if end := s.takesBack(s.pos + 1); end > 0 {
			return s.emit(tNo, "no wait", end)
		}
		if s.column(s.pos + 1) {
			return s.emit(tComma, ",", s.pos+1)
		}
	}
	return false
}

// nothing is the end of a dash that stands alone between commas or bars, or at the end of a
// sheet's line: an empty column. Else pos.
func (s *scanner) nothing() int {
	end := s.pos
	for at(s.low, end) == '-' && end < s.pos+2 {
		end++
	}
	next := skip(s.low, end)
	before := strings.TrimRight(s.low[s.begin:s.pos], " \t")
	alone := next == len(s.low) || s.low[next] == ',' || s.low[next] == '|' && (strings.TrimSpace(before) == "" || strings.HasSuffix(before, "|"))
	if s.field&onSheet == 0 || !alone || len(before) == s.pos-s.begin && before != "" && !strings.HasSuffix(before, ",") {
		return s.pos
	}
	return end
}

// column reports whether a dash at whose end i is fills an empty column of a sheet's line: what
// stands behind it, up to a remark, is terms and no word, and none of a kind that stands before
// it: Y8 – 1/15 f16 – N-1. Behind the dash of a remark there are words, or settings that would
// have been better.
func (s *scanner) column(i int) bool {
	next := skip(s.low, i)
	if s.field&onSheet == 0 || len(s.tokens) == 0 || next == len(s.low) || !s.maybeTerm(next) || s.count(tSame, tRemark) > 0 {
		return false
	}
	text, _, _ := strings.Cut(s.src[next:], " - ")
	text, _, _ = strings.Cut(text, " --") // what stands behind the next dash is looked at there
	behind := scanFolded(text, s.field, s.names)
	terms := 0
	for n := range behind.tokens {
		kind := behind.tokens[n].Type
		if kind == tRemark {
			break
		}
		switch kind {
		case tAperture, tTime, tN, tExt, tNegative, tMovement:
			if s.count(kind) > 0 && kind != tMovement {
				return false
			}
			terms++
		case tFilter, tDrop, tFactor:
			if s.count(tFilter, tDrop) > 0 || behind.settings() == 0 {
				return false
			}
		case tComma, tBulb, tAt, tDoubt:
		default:
			return false
		}
	}
	return terms > 0
}

// maybeTerm is a quick look whether a term of a sheet's settings may begin at i.
func (s *scanner) maybeTerm(i int) bool {
	rest := s.low[i:]
	switch c, next := rest[0], at(rest, 1); {
	case isDigit(c), apertureAt(rest, 0), c == 'n' && (next == 0 || next == '+' || next == '-' || next == ',' || next == '?' || isSpace(next)), c == '-':
		return true
	case isLetter(c):
		return isDigit(next) || strings.HasPrefix(rest, "no filter") || strings.HasPrefix(rest, "neg ") || strings.HasPrefix(rest, "ext ") || strings.HasPrefix(rest, "rise ") || strings.HasPrefix(rest, "fall ")
	}
	return false
}

// takesOff reports whether a dash at whose end i is stands between two times, of which
// the second is taken off the first: 15m – 3m.
func (s *scanner) takesOff(i int) bool {
	if last := s.last(); s.field&onSheet == 0 || last != tTime && last != tAperture && last != tClock || s.count(tTime, tClock) == 0 {
		return false
	}
	next := skip(s.low, i)
	if !isDigit(at(s.low, next)) {
		return false
	}
	end, _ := spoken(s.low, next)
	if !s.unitOfTime(end) {
		return false
	}
	rest := scanner{src: s.src, low: s.low, pos: next, begin: next, field: s.field, names: s.names}
	if !rest.one() || rest.last() != tTime {
		return false
	}
	behind := skip(s.low, rest.pos)
	return s.settingFollows(rest.pos) || at(s.low, behind) == '(' || unit(s.low, behind, "for") > behind
}

// regrets are the words with which people take back what they have just written; regretsInLine
// do so without a dash or brackets too.
var (
	regretsInLine = []string{"hmm no", "hmm, no", "oh no", "ah no", "er no", "no sorry", "sorry", "oops", "correction", "make that", "make it", "i mean"}
	regrets       = append([]string{"no", "actually", "rather", "meant"}, regretsInLine...)
)

// regret is such a word between two settings of one kind: 9m52 sorry 4m15, f22½, hmm no f22.
func (s *scanner) regret() bool {
	end := letterRun(s.low, s.pos)
	n := len(s.tokens) - 1
	if s.kind(n) == tComma {
		n--
	}
	if word := s.low[s.pos:end]; !slices.ContainsFunc(regretsInLine, func(said string) bool { return strings.HasPrefix(said, word) }) || s.kind(n) != tAperture && s.kind(n) != tTime && s.kind(n) != tEV {
		return false
	}
	back := s.takesBack(s.pos)
	if back == 0 {
		return false
	}
	rest := scanner{src: s.src, low: s.low, pos: skip(s.low, back), field: s.field, names: s.names}
	if rest.begin = rest.pos; rest.pos == len(s.low) || !rest.one() || rest.last() != s.kind(n) && (s.kind(n-1) == tComma || rest.last() != s.kind(n-1)) {
		return false
	}
	return s.emit(tNo, "no wait", back)
}

// takesBack is the end of such a word at i where a setting stands before it and
// another right behind, or 0: "2s -- no, 4s", "2s (sorry, 4s)". Whoever goes on in
// words has only remarked on it: "2s -- rather 4s would have done".
func (s *scanner) takesBack(i int) int {
	const near = 48 // bytes that are looked at
	i = skip(s.low, i)
	if end := i + len("no wait"); strings.HasPrefix(s.low[i:], "no wait") && !isLetter(at(s.low, end)) {
		return end
	}
	if last := s.last(); s.field&(onSheet|onMeter) == 0 || last != tAperture && last != tTime && last != tEV && last != tComma {
		return 0
	}
	for _, word := range regrets {
		if !strings.HasPrefix(s.low[i:], word) || isLetter(at(s.low, i+len(word))) {
			continue
		}
		end := i + len(word)
		for strings.IndexByte(",.:;!", at(s.low, end)) >= 0 {
			end++
		}
		next := skip(s.low, end)
		text, _, _ := strings.Cut(s.src[next:min(next+near, len(s.src))], ")")
		behind := scanFolded(text, s.field, s.names)
		n := 0
		for behind.kind(n) == tAperture || behind.kind(n) == tTime || behind.kind(n) == tEV {
			n++
		}
		if n > 0 && (behind.kind(n) != tWord || word == "no" && behind.kind(0) != tEV) { // no 2 clouds
			return end
		}
	}
	return 0
}

// remarkAt reports whether " -- " stands at i: a dash between blanks or ends.
func (s *scanner) remarkAt(i int) bool {
	return strings.HasPrefix(s.low[i:], "--") && (i == s.begin || isSpace(s.low[i-1])) &&
		(i+2 == len(s.low) || isSpace(s.low[i+2]))
}

// doubt is the end of a question mark in brackets, 0 where there is none.
func (s *scanner) doubt(closing byte) int {
	end := s.pos + 1
	for at(s.low, end) == '?' {
		end++
	}
	if end == s.pos+1 || at(s.low, end) != closing {
		return 0
	}
	return end + 1
}

// bracket is a filter's amount right behind the filter, else a remark.
func (s *scanner) bracket() bool {
	closing := strings.IndexByte(s.src[s.pos:], ')')
	if closing < 0 {
		return s.emit(tRemark, "(", len(s.src))
	}
	end := s.pos + closing + 1
	inner := s.src[s.pos+1 : end-1]
	if s.last() == tFilter && s.amounts(inner) {
		s.open = true
		return s.emit(tOpen, "(", s.pos+1)
	}
	if value := s.zoneOfReading(s.low[s.pos+1 : end-1]); value != "" {
		return s.emit(tZone, value, end)
	}
	if s.field&onFilm != 0 && s.onlyIndex(inner) || s.lessThanRead(inner) || s.indexOfReading(inner) {
		s.back = true
		return s.emit(tComma, ",", s.pos+1)
	}
	if back := s.takesBack(s.pos + 1); back > 0 {
		s.back = true
		return s.emit(tNo, "no wait", back)
	}
	return s.emit(tRemark, "(", end)
}

// zoneOfReading is the zone in brackets behind a reading: EV 10 (III), EV 10 (zone III);
// "" where they hold anything else.
func (s *scanner) zoneOfReading(text string) string {
	if last := s.last(); last != tEV && (s.field&onMeter == 0 && !s.readingOn() || last != tAperture && last != tTime) {
		return ""
	}
	text = strings.TrimSpace(text)
	if end := roman(text, 0); end == len(text) && end > 0 && s.src[s.pos+1] < 'a' {
		return strconv.Itoa(romans[text])
	}
	if end, value, ok := zone(text, 0); ok && end == len(text) {
		return value
	}
	return ""
}

// readingOn reports whether what stands last on the line is behind "metered", and what was
// given is not said yet.
func (s *scanner) readingOn() bool {
	for i := len(s.tokens) - 1; i >= 0; i-- {
		if s.tokens[i].Type == tCue {
			return strings.HasPrefix(s.tokens[i].Value, "metered")
		}
	}
	return false
}

// onlyIndex reports whether a text is a film's index and nothing else: ISO 100 (EI 50).
func (s *scanner) onlyIndex(text string) bool {
	inner := scanFolded(text, s.field, s.names)
	return len(inner.tokens) == 1 && inner.kind(0) == tEI
}

// lessThanRead reports whether brackets behind a reading or settings hold stops and nothing
// else, for which a line has no meaning: EV 10 (-2), 1/30 f16 (+1).
func (s *scanner) lessThanRead(text string) bool {
	last := s.last()
	if last == tComma {
		last = s.kind(len(s.tokens) - 2)
	}
	if s.field&(onMeter|onSheet) == 0 || last != tEV && last != tAperture && last != tTime {
		return false
	}
	inner := scanFolded(text, s.field, s.names)
	return len(inner.tokens) == 1 && inner.kind(0) == tStops
}

// indexOfReading reports whether brackets behind a reading hold the index that it was taken
// at and nothing else: metered 1s f2.8 (ISO 6400).
func (s *scanner) indexOfReading(text string) bool {
	if last := s.last(); last != tAperture && last != tTime && last != tEV && last != tZone || s.field&onMeter == 0 && s.count(tCue, tEV) == 0 {
		return false
	}
	inner := scanFolded(text, s.field, s.names)
	kind := inner.kind(0)
	return len(inner.tokens) == 1 && (kind == tISO || kind == tEI || kind == tMeterEI)
}

// amounts reports whether a text is one or more amounts of a filter and
// nothing else.
func (s *scanner) amounts(text string) bool {
	inner := scanFolded(text, s.field, s.names)
	for _, t := range inner.tokens {
		if t.Type != tFactor && t.Type != tStops && t.Type != tComma && t.Type != tDensity {
			return false
		}
	}
	return len(inner.tokens) > 0
}

// quote is a remark; before the settings and the first comma it is the title.
func (s *scanner) quote() bool {
	end := strings.IndexByte(s.src[s.pos+1:], '"')
	if end < 0 {
		return s.emit(tRemark, `"`, len(s.src))
	}
	stop := s.pos + 1 + end + 1
	if s.field&onSheet != 0 && end > 0 && s.count(tComma, tAperture, tTime, tEV, tRemark, tSame) == 0 {
		return s.emit(tChoose, "scene "+s.src[s.pos+1:stop-1], stop)
	}
	return s.emit(tRemark, `"`, stop)
}

// hash is a Wratten number with the letter that belongs to it: #25, #23A, #80A.
func (s *scanner) hash() bool {
	end := digits(s.low, s.pos+1)
	if end == s.pos+1 {
		return false
	}
	if c := at(s.low, end); c >= 'a' && c <= 'e' && filterEnd(s.low, end+1) {
		end++
	}
	return s.emit(tFilter, s.src[s.pos:end], unit(s.low, end, "filter"))
}

// settle turns back into words what is a term only in company or only alone:
// "no wind" withdraws nothing, "wind again" is no second exposure.
func (s *scanner) settle() {
	s.missesTime()
	times := s.count(tTime)
	s.apertures, s.durations, s.clocks = s.count(tAperture), times, s.count(tClock)
	for i := range s.tokens {
		t := &s.tokens[i]
		after := s.kind(i + 1)
		switch t.Type {
		case tBellows:
			if s.field&onSheet != 0 && after != tStops && after != tFactor {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // bellows out a hand
			}
		case tNo, tNot:
			if t.Value == "no wait" {
				continue
			}
			if after == tComma {
				after = s.kind(i + 2)
			}
			if after == tWord || after == lexer.EOF || after == tRemark {
				t.Type = tWord
			}
		case tWord:
			if word := s.low[t.Pos.Offset:s.ends[i]]; (word == "and" || word == "&" || word == "with") && s.kind(i-1) == tFilter && after == tFilter {
				t.Type, t.Value = tPlus, "+" // yellow and polarizer
			}
		case tState, tHold, tDrop:
			if (s.kind(i-1) == tWord || after == tWord) && (alone[s.low[t.Pos.Offset:s.ends[i]]] || s.describes(i)) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]]
			}
		case tChoose:
			if text := s.low[t.Pos.Offset:]; (strings.HasPrefix(text, "tungsten") || strings.HasPrefix(text, "daylight")) && (s.kind(i-1) == tWord || after == tWord) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // the tungsten bulb
			}
		case tFactor: // a number of exposures is whole
			if s.field&onSheet != 0 && s.kind(i-1) == tTime && digits(t.Value, 0) == len(t.Value) && wordAfter(s.low, s.ends[i], "for") == s.ends[i] && wordAfter(s.low, s.ends[i], "factor") == s.ends[i] {
				t.Type = tAgain
			}
		case tLength:
			if s.isLens(i) {
				t.Type, t.Value = tChoose, "lens "+s.low[t.Pos.Offset:digits(s.low, t.Pos.Offset)]
			} else if s.isThatLens(i) {
				t.Type, t.Value = tChoose, "lens "+s.src[t.Pos.Offset:s.ends[i]]
			}
		case tNumber:
			if s.isLens(i) {
				t.Type, t.Value = tChoose, "lens "+s.low[t.Pos.Offset:s.ends[i]]
			} else if s.counts(i) || s.numbersThing(i) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]]
			}
		case tTime:
			if end, clock := clockAt(s.low, t.Pos.Offset); s.field&onSheet != 0 && len(clock) == 5 && clock >= "13" && end == s.ends[i] && after == tComma && times > 1 {
				t.Type, t.Value = tClock, clock // 16:53, 4s f11
				s.durations, s.clocks = s.durations-1, s.clocks+1
				continue
			}
			if isLetter(s.low[t.Pos.Offset]) && s.inWholeWords(i) && s.kind(i-1) != tAt && s.passing(i, after) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // ten minutes later
				s.durations--
			}
		case tNth:
			if after != tStops && after != tN && after != tAperture && after != tTime && after != tFilter && after != tBracket {
				t.Type = tWord
			}
		}
	}
}

// describes reports whether a state of a sheet stands beside words that it says how a thing is,
// old unused mill: words on both sides of which the first is no sheet, or a line with all of its
// settings that would not have been used.
func (s *scanner) describes(i int) bool {
	if s.field&onSheet == 0 || s.tokens[i].Type != tState {
		return false
	}
	if s.tokens[i].Value == "unused" && s.apertures > 0 && s.durations+s.clocks > 0 {
		return true
	}
	return s.kind(i-1) == tWord && s.kind(i+1) == tWord && !ofSheets[s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]]]
}

// ofSheets are words behind which a state is that of a sheet (common practice, no source).
var ofSheets = SetOf("sheet sheets film plate negative neg holder side slide box corner edge edges was were is are got and but then badly slightly completely partly all both this that it one maybe probably")

// missesTime makes the time of a line of a fraction that stands a blank behind a light value, or
// another number, where the line has an aperture and no other time: EV 10 1/2 f22.
func (s *scanner) missesTime() {
	if s.field&onSheet == 0 || s.count(tAperture) == 0 || s.count(tTime, tClock, tBulb, tSame) > 0 {
		return
	}
	found := -1
	for i := range s.tokens {
		t := &s.tokens[i]
		if t.Type != tEV && t.Type != tNumber || !strings.Contains(t.Value, "+") || s.kind(i+1) == tZone {
			continue
		}
		if text := s.low[t.Pos.Offset:s.ends[i]]; strings.LastIndexByte(text, ' ') == len(text)-len(" 1/2") {
			if found >= 0 {
				return
			}
			found = i
		}
	}
	if found < 0 {
		return
	}
	t, end := &s.tokens[found], s.ends[found]
	from := end - len("1/2")
	whole, part, _ := strings.Cut(t.Value, "+")
	t.Value, s.ends[found] = whole, from-1
	s.tokens = slices.Insert(s.tokens, found+1, lexer.Token{Type: tTime, Value: part, Pos: lexer.Position{Offset: from}})
	s.ends = slices.Insert(s.ends, found+1, end)
}

// passing reports whether a time in words is one of a remark by the words beside it.
func (s *scanner) passing(i int, after lexer.TokenType) bool {
	if i > 0 && s.kind(i-1) == tWord {
		switch word := s.tokens[i-1]; s.low[word.Pos.Offset:s.ends[i-1]] {
		case "and":
			if i > 1 && s.low[s.tokens[i-2].Pos.Offset:s.ends[i-2]] == "hundred" {
				return true
			}
		case "for", "gave", "so", "but", "then", "open", "opened", "exposed", "shutter", "nearly", "minus", "less", "covered", "capped":
		default:
			return true
		}
	}
	if after != tWord {
		return false
	}
	next := s.tokens[i+1]
	switch s.low[next.Pos.Offset:s.ends[i+1]] {
	case "at", "with", "and", "but", "for", "less", "minus", "covered", "capped":
		return false
	}
	return true
}

// inWholeWords reports whether a time is a number in words with its unit, and not a part
// of a second, which no remark speaks of.
func (s *scanner) inWholeWords(i int) bool {
	text := s.low[s.tokens[i].Pos.Offset:s.ends[i]]
	end, _ := inWords(text, 0)
	return end > 0 || strings.Contains(text, "min") || strings.Contains(text, "hour")
}

// counts reports whether a number tells how many there are of what stands behind it, in
// words of the writer's own: 4 cars, behind the 2 larches. A setting that lacks its unit
// stands among the terms of the line, or the line lacks it.
func (s *scanner) counts(i int) bool {
	t := &s.tokens[i]
	if s.field&onSheet == 0 || digits(t.Value, 0) != len(t.Value) || s.kind(i+1) != tWord || s.kind(i-1) == tFilter {
		return false
	}
	what := strings.TrimRight(s.low[s.tokens[i+1].Pos.Offset:s.ends[i+1]], ".:;")
	if steps[what] && s.leadsOn(i+2) {
		return s.wholeBeside(i)
	}
	if _, term := keywords[what]; term || len(what) < 3 || letterRun(what, 0) != len(what) || !ofTimes[what] && slices.ContainsFunc(unitWords, func(u string) bool { return distance(what, u) <= 1 }) || !ofTimes[what] && nearest(what, termList) != "" && !ordinary()[what] {
		return false
	}
	own := true
	for n := i - 1; n >= 0 && s.kind(n) != tComma && s.kind(n) != tRemark; n-- {
		if i-n > longRemark {
			return false
		}
		own = own && (s.kind(n) == tWord || s.kind(n) == tNumber)
	}
	for n := i + 1; n < len(s.tokens) && s.kind(n) != tComma && s.kind(n) != tRemark; n++ {
		if s.kind(n) != tWord && s.kind(n) != tNumber || n-i > longRemark {
			return false
		}
	}
	whole, several := s.apertures > 0 && s.durations+s.clocks > 0, strings.HasSuffix(what, "s")
	return own && (whole || several) || whole && several
}

// ofTimes are words behind the number of times that a sheet was exposed.
var ofTimes = SetOf("times exposures")

// longRemark is how many tokens a remark may have between two commas: a line of numbers takes no
// time squared.
const longRemark = 64

// steps are a distance on foot, and a slip for stops where nothing says from where or where to.
var steps = map[string]bool{"steps": true, "step": true, "paces": true, "pace": true, "yards": true, "yds": true}

// leadsOn reports whether the ith word says from where a way is, or where to.
func (s *scanner) leadsOn(i int) bool {
	if s.kind(i) != tWord && s.kind(i) != tTo {
		return false
	}
	switch s.low[s.tokens[i].Pos.Offset:s.ends[i]] {
	case "from", "to", "past", "along", "away", "behind", "beyond", "north", "south", "east", "west", "left", "right", "inside", "outside", "off":
		return true
	}
	return false
}

// numbersThing reports whether a number is that of the thing before it, of those that bear
// numbers, on a line that has its settings: open gate 3, bus 12 at the stop. What was metered
// there, wall 12, is none.
func (s *scanner) numbersThing(i int) bool {
	t := &s.tokens[i]
	if s.field&onSheet == 0 || digits(t.Value, 0) != len(t.Value) || s.kind(i-1) != tWord {
		return false
	}
	if s.ofSubject(i) {
		return true
	}
	return numbered[s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]]] && s.wholeBeside(i)
}

// ofSubject reports whether a number is a part of the words at the head of a line that lacks
// nothing: No. 2 shed, Post 5. Where no reading stands on the line it may be one, unless No.
// stands before it.
func (s *scanner) ofSubject(i int) bool {
	if s.apertures == 0 || s.durations+s.clocks == 0 || i > longRemark {
		return false
	}
	for n := range i {
		if s.kind(n) != tWord {
			return false
		}
	}
	switch word := s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]]; {
	case word == "no." || word == "nr.":
		return true
	case ofReadings[word] || ofSettings[word] || !isLetter(word[0]):
		return false
	}
	return s.count(tEV) > 0 && (s.kind(i+1) == tComma || s.kind(i+1) == tWord || s.kind(i+1) == tEV)
}

// ofReadings are words behind which a number is more likely what was metered (common practice, no
// source).
var ofReadings = SetOf("shadow shadows highlight highlights high highs low lows sky wall palm card at zone about of in on and is")

// wholeBeside reports whether a line has an aperture and a time, and the stretch between the
// commas around its ith term nothing but words and numbers, none of them of a setting.
func (s *scanner) wholeBeside(i int) bool {
	if s.apertures == 0 || s.durations+s.clocks == 0 {
		return false
	}
	apart := func(n int) bool { return n < 0 || n >= len(s.tokens) || s.kind(n) == tComma || s.kind(n) == tRemark }
	inWords := func(n int) bool {
		return s.kind(n) == tNumber || s.kind(n) == tClock || (s.kind(n) == tWord || s.kind(n) == tAt || s.kind(n) == tTo) && !ofSettings[s.low[s.tokens[n].Pos.Offset:s.ends[n]]]
	}
	for n := i - 1; !apart(n); n-- {
		if !inWords(n) || i-n > longRemark {
			return false
		}
	}
	for n := i + 1; !apart(n); n++ {
		if !inWords(n) || n-i > longRemark {
			return false
		}
	}
	return true
}

// numbered are things that bear numbers and are not metered, or whose number is never a light
// value; ofSettings are words beside which a number may be a setting (common practice, no source).
var (
	numbered = SetOf("gate platform pier bus tram train route berth track room flat milestone marker junction lock channel pitch plot bay page chapter take try attempt plate frame exit mile " +
		"wind force beaufort day week section dock wharf unit block level floor lane stall row site station stand bench picture visit version map grid " +
		"box batch emulsion lot roll holder grade pano print sheet")
	ofSettings = SetOf("stopped aperture speed shutter exposed exposure factor filter filters developed seconds time iso asa din instead not")
)

// isLens reports whether a number, or a length in millimetres, is the name of a declared
// lens, on a sheet's line that has its settings: 210mm, 1/60 f8; with the 210, 1/60 f8.
func (s *scanner) isLens(i int) bool {
	from := s.tokens[i].Pos.Offset
	end := digits(s.low, from)
	if s.field != onSheet || s.names.Names[s.low[from:end]] != Lens || s.apertures == 0 || s.durations == 0 || s.ofBellows(i) {
		return false
	}
	return end == s.ends[i] || unit(s.low, end, "mm") == s.ends[i]
}

// ofBellows reports whether the words before a number speak of the bellows: bellows out by 300.
func (s *scanner) ofBellows(i int) bool {
	for n := i - 1; s.kind(n) == tWord && i-n <= longRemark; n-- {
		switch s.low[s.tokens[n].Pos.Offset:s.ends[n]] {
		case "bellows", "bel", "ext", "extension", "extended", "racked", "draw":
			return true
		}
	}
	return false
}

// isThatLens reports whether a length, on such a line, is the whole name of a declared lens, or
// stands behind "the" and before no word: 14in, with the 14 inch.
func (s *scanner) isThatLens(i int) bool {
	from := s.tokens[i].Pos.Offset
	if s.field != onSheet || s.apertures == 0 || s.durations == 0 {
		return false
	}
	if s.names.Names[s.low[from:s.ends[i]]] == Lens {
		return true
	}
	return s.kind(i-1) == tWord && s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]] == "the" && s.kind(i+1) != tWord
}

// unitWords are the words that make a number before them a term.
var unitWords = []string{"stops", "stop", "seconds", "second", "secs", "minutes", "minute", "mins", "hours", "hour", "hrs", "inches", "feet", "metres", "degrees", "percent", "times"}

// alone holds the terms that are ordinary words beside other words.
var alone = map[string]bool{"again": true, "double": true, "hold": true, "bare": true, "none": true}

// kind is the type of a token, the end where there is none.
func (s *scanner) kind(i int) lexer.TokenType {
	if i < 0 || i >= len(s.tokens) {
		return lexer.EOF
	}
	return s.tokens[i].Type
}
