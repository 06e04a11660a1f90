package lang

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// Signs and punctuation: dashes, ditto marks, empty cells, quotes and what stands for nothing.

func (s *scanner) sign(c byte) bool {
	if end := s.cell(); end > s.pos {
		if strings.Trim(s.src[s.pos:end], "-") == "" {
			return s.emit(tComma, ",", end)
		}
		return s.emit(tSame, "", end)
	}
	switch c {
	case ',', ';':
		return s.emit(tComma, ",", s.pos+1)
	case '.', ':', '!', '*', '|':
		if s.factor() {
			return true
		}
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
		if c == '+' && (s.densityOn() || s.orMore()) {
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
		if end := s.completed(s.pos); isDigit(at(s.src, end-1)) {
			return s.emit(tWord, s.src[s.pos:end], end)
		}
		if closing := strings.IndexByte(s.src[s.pos:], ']'); closing > 0 && s.field&onSheet != 0 && s.last() == tFilter && s.amounts(s.src[s.pos+1:s.pos+closing]) {
			s.open = true
			return s.emit(tOpen, "(", s.pos+1)
		}
		if end := strings.IndexByte(s.src[s.pos:], ']'); end > 0 && s.field&onSheet != 0 && (s.pos == 0 || isSpace(s.src[s.pos-1])) && s.byte(end+1) != '(' {
			return s.emit(tRemark, "[", s.pos+end+1) // an editor's
		}
		if end := s.editorsProse(); end > 0 {
			return s.emit(tRemark, "[", end)
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

// orMore is a plus or a minus behind a value with nothing that it joins: EV 11+, f16-, 1/10 +. It says
// a little more or less than that, and nobody knows by how much.
func (s *scanner) orMore() bool {
	end := s.pos
	for at(s.low, end) == s.low[s.pos] {
		end++
	}
	next, behind := skip(s.low, end), s.endOfLast()
	alone := next == len(s.low) || strings.IndexByte(",;|)", s.low[next]) >= 0 || isWide(s.low[end:next])
	switch s.last() {
	case tEV, tAperture:
		alone = alone || s.low[s.pos] == '+' && s.pos == behind && next > end && (isDigit(s.low[next]) || apertureAt(s.low, next))
	case tTime:
	default:
		return false
	}
	return s.field&(onSheet|onMeter) != 0 && alone && s.pos <= behind+1 && s.emit(tDoubt, "?", end)
}

// endOfLast is where the token before ends, -1 for none.
func (s *scanner) endOfLast() int {
	if len(s.ends) == 0 {
		return -1
	}
	return s.ends[len(s.ends)-1]
}

// dittos are the marks that stand for what the line above has in the same column.
var dittos = []string{`--"--`, `-"-`, `"`, "-''-", "''", ",,"}

// cell is the end of a ditto mark, or of a dash in an empty column of a sheet's line; else pos. At
// the beginning of the line marks may follow one another; further on each stands for itself between
// blanks. A quotation has no blank behind its first mark, and behind the dash of a remark stand
// more words than terms.
func (s *scanner) cell() int {
	c := s.low[s.pos]
	if s.field&onSheet == 0 || strings.IndexByte("\"',-", c) < 0 || len(s.tokens) > 64 {
		return s.pos
	}
	for _, mark := range dittos {
		if strings.HasPrefix(s.low[s.pos:], mark) && s.isDitto(mark, s.pos+len(mark)) {
			return s.pos + len(mark)
		}
	}
	if c != '-' {
		return s.pos
	}
	first, marked, wide := len(s.tokens) == s.count(tSame, tComma), s.count(tSame) > 0, s.wideAround()
	end := s.pos
	for at(s.low, end) == '-' && end < s.pos+2 {
		end++
	}
	switch next := at(s.low, end); {
	case end == s.pos || !isSpace(next) && next != ',':
		return s.pos
	case marked && s.lone(skip(s.low, end), skip(s.low, end)+1):
		return end // before another mark
	case !first && !wide, !first && !marked && s.count(tAperture, tTime) > 0:
		return s.pos
	case s.peeks:
		return end
	}
	behind := scanner{src: s.src[end:], low: s.low[end:], field: s.field, names: s.names, peeks: true}
	if behind.scan(); !marked && behind.settings()+behind.count(tSame) == 0 || !behind.terse() {
		return s.pos
	}
	return end
}

// wordInCell is a ditto mark in letters that fills a cell of a sheet's line, where it is no word of a sentence.
func (s *scanner) wordInCell() bool {
	if c := s.low[s.pos]; c != 'd' && c != '-' || s.field != onSheet || s.last() != tComma && !s.wideBefore() {
		return false
	}
	for _, mark := range [...]string{"-do-", "d°", "do"} {
		if !strings.HasPrefix(s.low[s.pos:], mark) {
			continue
		}
		end := s.pos + len(mark)
		if next := skip(s.low, end); next == len(s.low) || strings.IndexByte(",;|", s.low[next]) >= 0 || isWide(s.low[end:next]) {
			return s.emit(tSame, "", end)
		}
	}
	return false
}

// IsDittoMark reports whether a word that copies is a mark: same and as above speak of the sheet,
// and not of a column.
func IsDittoMark(text string) bool {
	low := strings.Trim(strings.TrimRight(strings.ToLower(text), "? "), "-–—−")
	return low != "" && strings.Trim(low, "\"“”„″〃«»'’,") == "" || strings.TrimRight(low, ".") == "do" || dittoWords[low]
}

// dittoWords are such marks in words, as registers have them (common practice, no source).
var dittoWords = SetOf("ditto dito idem dto. dgl. id. d°")

// isDitto reports whether a mark that ends at end is one that stands for what is above it, and
// neither opens a quotation nor is a unit.
func (s *scanner) isDitto(mark string, end int) bool {
	next, first := at(s.low, end), len(s.tokens) == s.count(tSame, tComma)
	marked, apart := s.count(tSame) > 0, skip(s.low, end) == len(s.low) || isWide(s.low[end:skip(s.low, end)])
	if !s.lone(s.pos, end) || !first && s.last() == tNumber && !(apart && (marked || s.wideBefore())) {
		return false
	}
	switch {
	case apart && s.wideBefore(), s.barred(end), mark != ",," && (next == ',' || next == ';'):
		return true
	case !first && (mark == ",," || s.last() == tTime && !marked):
		return false // 1/4 ", of a second
	case mark != `"`:
		return true
	}
	quoted := strings.IndexByte(s.low[end:], '"')
	if quoted < 0 {
		return first || next == 0 || marked || apart
	}
	return s.lone(end+quoted, end+quoted+1) && !s.onlyWords(s.src[end:end+quoted])
}

// barred reports whether what stands from pos to end fills what is between two bars.
func (s *scanner) barred(end int) bool {
	return at(s.low, skip(s.low, end)) == '|' && strings.HasSuffix(strings.TrimRight(s.low[s.begin:s.pos], " \t"), "|")
}

// wideAround reports whether the sign at pos stands between several blanks, or tabs, or what ends
// the line.
func (s *scanner) wideAround() bool {
	end := s.pos
	for c := at(s.low, s.pos); at(s.low, end) == c; {
		end++
	}
	next := skip(s.low, end)
	return s.wideBefore() && (next == len(s.low) || s.low[next] == '|' || isWide(s.low[end:next]))
}

// wideBefore reports whether pos is behind several blanks, a tab or a bar, or begins the line.
func (s *scanner) wideBefore() bool {
	text := strings.TrimRight(s.low[s.begin:s.pos], " \t")
	return text == "" || strings.HasSuffix(text, "|") || isWide(s.low[s.begin+len(text):s.pos])
}

func isWide(gap string) bool { return len(gap) > 1 || gap == "\t" }

// onlyWords reports whether a text is words and no term.
func (s *scanner) onlyWords(text string) bool {
	inner := scanFolded(text, s.field, s.names)
	return inner.count(tWord) > 0 && inner.count(tWord, tComma) == len(inner.tokens)
}

// lone reports whether what stands from i to end is by itself, as a ditto mark is.
func (s *scanner) lone(i, end int) bool {
	before, behind := byte(0), at(s.low, end)
	if i > s.begin {
		before = s.low[i-1]
	}
	return (before == 0 || isSpace(before) || strings.IndexByte(",;-|:", before) >= 0) && (behind == 0 || isSpace(behind) || strings.IndexByte(",;-|", behind) >= 0)
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
	case s.pos == s.endOfLast() && s.orMore():
		return true
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
	alone := next == len(s.low) || s.low[next] == ',' || s.low[next] == ';' || s.low[next] == '|' && (strings.TrimSpace(before) == "" || strings.HasSuffix(before, "|"))
	if s.field&onSheet == 0 || !alone || len(before) == s.pos-s.begin && before != "" && !strings.HasSuffix(before, ",") && !strings.HasSuffix(before, ";") {
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
	if s.field&onSheet == 0 || len(s.tokens) == 0 || next == len(s.low) || s.count(tSame, tRemark) > 0 {
		return false
	}
	if s.wideAround() {
		text, _, _ := strings.Cut(strings.TrimLeft(s.src[next:], "- \t"), " --") // behind empty columns that follow
		behind := scanFolded(text, s.field, s.names)
		again := func(kind lexer.TokenType) bool { return s.count(kind) > 0 && behind.count(kind) > 0 }
		if (behind.settings() > 0 && behind.terse() || behind.count(tWord, tRemark) == 0) && !again(tAperture) && !again(tTime) && !again(tEV) {
			return true
		}
	}
	if !s.maybeTerm(next) {
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

// quote is a remark; before the settings and the first comma it is the title, unless it holds a term or one letter.
func (s *scanner) quote() bool {
	end := strings.IndexByte(s.src[s.pos+1:], '"')
	if end < 0 {
		return s.emit(tRemark, `"`, len(s.src))
	}
	stop := s.pos + 1 + end + 1
	if s.field&onSheet != 0 && end > 1 && s.count(tComma, tAperture, tTime, tEV, tRemark, tSame) == 0 && scanFolded(s.src[s.pos+1:stop-1], s.field, s.names).count(tWord) > 0 {
		return s.emit(tChoose, "scene "+s.src[s.pos+1:stop-1], stop)
	}
	return s.emit(tRemark, `"`, stop)
}

// openCells takes the quotation marks off the cells of a sheet's line that hold nothing but terms, as a
// spreadsheet has put them there: Gate,"EV 10","f16","1/4". They begin and end their cells, between which no
// blanks are, or all cells have them. Words in them are the title or a remark.
func (s *scanner) openCells() {
	if s.field != onSheet || strings.Count(s.src[s.pos:], `"`) < 2 {
		return
	}
	var tight, loose [][2]int
	all, inside, from := true, false, s.pos
	for i := s.pos; i <= len(s.src); i++ {
		c := at(s.src, i)
		if c == '"' {
			inside = !inside
		}
		if i < len(s.src) && (inside || strings.IndexByte(",;\t", c) < 0) {
			continue
		}
		text := s.src[from:i]
		said := strings.Trim(text, " ")
		begin := from + strings.Index(text, said)
		n := len(said)
		switch {
		case n < 2 || said[0] != '"' || said[n-1] != '"' || strings.Count(said, `"`) > 2:
			all = all && said == ""
		case begin+n == i && (begin == from || from == s.pos):
			tight = append(tight, [2]int{begin, i - 1})
		default:
			loose = append(loose, [2]int{begin, begin + n - 1})
		}
		from = i + 1
	}
	if all {
		tight = append(tight, loose...)
	}
	text, opened := []byte(s.src), false
	isDash := func(text string) bool { return strings.Trim(text, "-") == "" }
	for _, dashes := range [...]bool{false, true} { // which may be ditto marks where no other cell is opened
		for _, marks := range tight {
			inner := s.src[marks[0]+1 : marks[1]]
			if inner == "" || strings.Trim(inner, " ,;\t") != inner || isDash(inner) != dashes || dashes && !opened {
				continue // or ditto marks with commas between them
			}
			if own := scanFolded(inner, s.field, s.names); dashes || own.count(tWord, tComma) == 0 {
				text[marks[0]], text[marks[1]], opened = ' ', ' ', true
			}
		}
	}
	if opened {
		s.src = string(text)
		s.low = lower(s.src)
	}
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
