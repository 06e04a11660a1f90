package lang

import (
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"
)

// What a token is once all of its line are known: a number is a thing's or a setting, a length a lens,
// and words stay words.

// settle turns back into words what is a term only in company or only alone:
// "no wind" withdraws nothing, "wind again" is no second exposure.
func (s *scanner) settle() {
	s.scaleInWords()
	s.missesTime()
	s.betweenStops()
	s.engraved()
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
			if word := s.tokens[min(i+1, len(s.tokens)-1)]; after == tWord && s.kind(i-1) == tZone && word.Value[0] < 'a' && roman(lower(word.Value), 0) == len(word.Value) {
				s.tokens[i+1].Type, s.tokens[i+1].Value = tZone, strconv.Itoa(romans[lower(word.Value)]) // on IV not V
				continue
			}
			if after == tWord || after == lexer.EOF || after == tRemark {
				t.Type = tWord
			}
		case tWord:
			word := s.low[t.Pos.Offset:s.ends[i]]
			if isDigit(word[0]) && s.field == onSheet && s.apertures > 0 && s.durations > 0 && s.namesLens(i) {
				if lens := s.names.lensIn(word); lens != "" {
					t.Type, t.Value = tChoose, "lens "+lens // with the 300er
					continue
				}
			}
			if i == 0 && s.field&onSheet != 0 && duds[word] && (after == tComma || after == tRemark || after == lexer.EOF) {
				t.Type, t.Value = tState, "spoiled"
			}
			if (word == "and" || word == "&" || word == "with") && s.kind(i-1) == tFilter && after == tFilter {
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
			if s.field&onSheet != 0 && s.kind(i-1) == tTime && s.low[t.Pos.Offset] != 'f' && digits(t.Value, 0) == len(t.Value) && wordAfter(s.low, s.ends[i], "for") == s.ends[i] && wordAfter(s.low, s.ends[i], "factor") == s.ends[i] {
				t.Type = tAgain
			}
		case tLength:
			if s.isLens(i) {
				t.Type, t.Value = tChoose, "lens "+s.low[t.Pos.Offset:digits(s.low, t.Pos.Offset)]
			} else if s.isThatLens(i) {
				t.Type, t.Value = tChoose, "lens "+s.src[t.Pos.Offset:s.ends[i]]
			}
		case tNumber:
			if i == 0 && s.dayInColumn() {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // 7 Oct   Gate   1/60
				continue
			}
			if s.isLens(i) {
				t.Type, t.Value = tChoose, "lens "+t.Value
			} else if s.saidInWords(i) || s.counts(i) || s.numbersThing(i) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]]
			}
		case tTime:
			if i == 0 && s.dayInColumn() {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // 7/10   Gate   1/60
				s.durations--
				continue
			}
			if end, clock := clockAt(s.low, t.Pos.Offset); s.field&onSheet != 0 && len(clock) == 5 && clock >= "13" && end == s.ends[i] && after == tComma && times > 1 {
				t.Type, t.Value = tClock, clock // 16:53, 4s f11
				s.durations, s.clocks = s.durations-1, s.clocks+1
				continue
			}
			if s.field&onSheet != 0 && times > 1 && s.elsewise(i) {
				if h, ok := hourAt(s.low, t.Pos.Offset); ok && h.end == s.ends[i] && !h.bare && s.kind(i-1) != tWord {
					t.Type, t.Value = tClock, clock(h.seconds)+"?" // 6h20, 4s f11
					s.clocks++
				} else {
					t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]]
				}
				s.durations--
				continue
			}
			if isLetter(s.low[t.Pos.Offset]) && s.inWholeWords(i) && s.kind(i-1) != tAt && s.passing(i, after) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]] // ten minutes later
				s.durations--
			}
		case tNth:
			if !s.leadsNth(i) {
				t.Type, t.Value = tWord, s.src[t.Pos.Offset:s.ends[i]]
			}
		}
	}
}

// dayInColumn reports whether a row begins with a column that is a day and a month, and has its time in another, or in figures
// a mark for it: 7 Oct   Gate   1/60. Of two times in figures it is asked which was given.
func (s *scanner) dayInColumn() bool {
	if s.field&onSheet == 0 || s.count(tTime, tSame) < 1 || s.kind(0) == tTime && (s.count(tTime) > 1 || s.count(tSame) == 0) {
		return false
	}
	from := s.tokens[0].Pos.Offset
	end := from + strings.IndexAny(s.src[from:]+"\t", "\t|")
	if wide := strings.Index(s.src[from:end], "  "); wide >= 0 {
		end = from + wide
	}
	if end >= len(s.src) {
		return false
	}
	column := strings.TrimSpace(s.src[from:end])
	return !strings.HasPrefix(column, "1/") && IsDay(column)
}

// IsDay reports whether a cell is a day and a month, in words or in figures, which a time may look like: 7 Oct, 7/10.
func IsDay(column string) bool {
	if _, length := DayOfDay(column); length > 0 && length == len(column) {
		return true
	}
	day, month, cut := strings.Cut(column, "/")
	return cut && strings.Trim(day+month, "0123456789") == "" && (calendar("2024", month, day) != "" || calendar("2024", day, month) != "")
}

// leadsNth reports whether the place of a sheet on its line stands before what is said of that sheet. A state may have
// words before it: second possibly fogged.
func (s *scanner) leadsNth(i int) bool {
	switch s.kind(i + 1) {
	case tStops, tN, tAperture, tTime, tFilter, tPlus, tBracket, tState, tDrop, tNot, tHold, tExt, tScale, tNegative, tEI, tSame:
		return !s.cellEnds(i)
	case tAt:
		return s.kind(i+2) == tTime || s.kind(i+2) == tAperture
	}
	for i++; s.kind(i) == tWord; i++ {
	}
	return s.kind(i) == tState
}

// cellEnds reports whether blanks part what follows a token from it as they part two cells.
func (s *scanner) cellEnds(i int) bool {
	return i+1 < len(s.tokens) && (s.tokens[i+1].Pos.Offset > s.ends[i]+1 || at(s.src, s.ends[i]) == '\t')
}

// engraved makes parts of a second of a lens's shutter speeds that are written as they are engraved,
// T B 1 2 5 10 25 50 100: whole numbers that rise, to one that no shutter counts in seconds.
func (s *scanner) engraved() {
	if s.field&onLens == 0 {
		return
	}
	from := slices.IndexFunc(s.tokens, func(t lexer.Token) bool { return t.Type == tShutter }) + 1
	if from == 0 {
		return
	}
	const parts = 15 // of a second: the longest time that shutters have is far below so many seconds
	var speeds []int
	for i, last := from, 0.; i < len(s.tokens) && (s.kind(i) == tTime || s.kind(i) == tBulb || s.kind(i) == tComma && s.kind(i+1) == tTime); i++ {
		if s.kind(i) != tTime {
			continue
		}
		text := s.low[s.tokens[i].Pos.Offset:s.ends[i]]
		if digits(text, 0) != len(text) || number(text) <= last {
			return
		}
		last = number(text)
		speeds = append(speeds, i)
	}
	if len(speeds) < 3 || number(s.tokens[speeds[len(speeds)-1]].Value) < parts {
		return
	}
	for _, i := range speeds {
		if s.tokens[i].Value != "1" {
			s.tokens[i].Value = "1/" + s.tokens[i].Value
		}
	}
}

// duds are words by which a sheet was spoiled, at the head of its line and by themselves.
var duds = SetOf("dud wasted ruined botched")

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
// another number, or before a stop that is told, where the line has an aperture and no other time: EV 10 1/2 f22, f16 1/4 a stop over.
func (s *scanner) missesTime() {
	if s.field&onSheet == 0 || s.count(tAperture) == 0 || s.count(tTime, tClock, tBulb, tSame) > 0 {
		return
	}
	found := -1
	for i := range s.tokens {
		t := &s.tokens[i]
		if end, part := fraction(s.low, t.Pos.Offset); t.Type == tStops && part && strings.HasPrefix(s.low[end:], " a stop") {
			s.tokens = slices.Insert(s.tokens, i, lexer.Token{Type: tTime, Value: t.Value, Pos: t.Pos})
			s.ends = slices.Insert(s.ends, i, end)
			s.tokens[i+1].Value, s.tokens[i+1].Pos.Offset = "1", end+1
			return
		}
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

// betweenStops makes the fraction in a column with an aperture and nothing else a part of a stop,
// where another column of the row has the time: f16 1/2   1/15. Else it is asked about.
func (s *scanner) betweenStops() {
	if s.field&onSheet == 0 || s.count(tTime) != 2 || s.count(tAperture) != 1 || s.count(tDoubt, tNo, tNot, tArrow, tStrike, tCue) > 0 {
		return
	}
	for i := 1; i < len(s.tokens); i++ {
		f, part := &s.tokens[i-1], &s.tokens[i]
		if f.Type != tAperture || part.Type != tTime || !partsOfStop[part.Value] || strings.Contains(f.Value, "+") || s.src[s.ends[i-1]:part.Pos.Offset] != " " {
			continue
		}
		before, next := strings.TrimRight(s.src[s.begin:f.Pos.Offset], " \t"), skip(s.src, s.ends[i])
		if before != "" && !isWide(s.src[s.begin+len(before):f.Pos.Offset]) || next < len(s.src) && !isWide(s.src[s.ends[i]:next]) {
			return
		}
		f.Value += "+" + part.Value
		s.tokens, s.ends = slices.Delete(s.tokens, i, i+1), slices.Delete(s.ends, i-1, i)
		return
	}
}

var partsOfStop = map[string]bool{"1/2": true, "1/3": true, "2/3": true}

// mayBeNone reports whether a time by its shape may be none: an hour of the day, 6h20, a ratio or a
// count behind the word for what it is of, ash 1:31, sheet 2/4. It is none where it is so many times
// as long as another time of its line.
func (s *scanner) mayBeNone(i int) (times float64, ok bool) {
	text, word := s.low[s.tokens[i].Pos.Offset:s.ends[i]], ""
	if s.kind(i-1) == tWord {
		word = strings.TrimRight(s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]], ".:")
	}
	first := digits(text, 0)
	switch at(text, first) {
	case '/':
		return 0, numbered[word]
	case ':':
		hours := isLetter(text[len(text)-1]) && unit(text, digits(text, first+1), hourUnits...) == len(text) // 9:30 h
		return mostLonger, hours || text[:first] == "1" && word != "" && !ofTime[word]
	case 'h':
		return mostLonger, first > 0 && digits(text, first+1) == first+3 && first+3 == len(text)
	}
	return 0, false
}

// mostLonger is how many times its time no film's rule, filter and bellows make of an exposure.
const mostLonger = 100

// elsewise reports whether such a time is none.
func (s *scanner) elsewise(i int) bool {
	times, ok := s.mayBeNone(i)
	return ok && slices.ContainsFunc(s.tokens, func(t lexer.Token) bool {
		return t.Type == tTime && t.Pos != s.tokens[i].Pos && number(s.tokens[i].Value) >= times*number(t.Value)
	})
}

// ofTime are words before a time that say that it is one (common practice, no source).
var ofTime = SetOf("for at about time exposure exposed gave given then total open so now becomes became is was of to reciprocity recip schwarzschild with corrected correction actual actually long lengthened extended plus and again another more shutter bulb")

// passing reports whether a time in words is one of a remark by the words beside it.
func (s *scanner) passing(i int, after lexer.TokenType) bool {
	if i > 0 && s.kind(i-1) == tWord {
		switch word := s.tokens[i-1]; s.low[word.Pos.Offset:s.ends[i-1]] {
		case "to":
			return s.kind(i-2) != tCue // corrected to two minutes
		case "and", "for", "just", "only", "gave", "so", "but", "then", "open", "opened", "exposed", "shutter", "nearly", "minus", "less", "covered", "capped", "becomes", "became", "becoming", "makes", "gives":
		default:
			if !s.wordIn(i-1, ofRule) {
				return true
			}
		}
	}
	if after != tWord {
		return false
	}
	next := s.tokens[i+1]
	switch s.low[next.Pos.Offset:s.ends[i+1]] {
	case "at", "with", "and", "but", "for", "less", "minus", "covered", "capped", "or", "long", "open", "exposure",
		"becomes", "became", "becoming", "including", "incl", "incl.":
		return false
	case "after", "plus": // two minutes after the rain
		return !s.wordIn(i+2, ofRule)
	}
	end, _ := inWords(s.low, next.Pos.Offset) // eight seconds fifteen with reciprocity
	return !s.ruleBehind(end)
}

// ruleBehind reports whether words for a film's rule stand behind i, with no more than one other before them.
func (s *scanner) ruleBehind(i int) bool {
	next := skip(s.low, unit(s.low, i, "with", "for", "after", "including"))
	return ofRule[s.low[next:letterRun(s.low, next)]]
}

// ofRule are words for a film's rule.
var ofRule = SetOf("reciprocity recip schwarzschild")

// inWholeWords reports whether a time is a number in words with its unit, and not a part
// of a second, which no remark speaks of.
func (s *scanner) inWholeWords(i int) bool {
	text := s.low[s.tokens[i].Pos.Offset:s.ends[i]]
	if end, _ := partInWords(text, 0); end > 0 && s.durations == 1 { // f16 one fifteenth in the wind
		return false
	}
	end, _ := wholeInWords(text, 0)
	return end > 0 || text == "a second" && s.kind(i+1) == tWord || strings.Contains(text, "min") || strings.Contains(text, "hour")
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
// numbers, on a line that has its settings: open gate 3, bus 12 at the stop, 4 of 9. What was metered
// there, wall 12, is none.
func (s *scanner) numbersThing(i int) bool {
	t := &s.tokens[i]
	if s.field&onSheet == 0 || digits(t.Value, 0) != len(t.Value) {
		return false
	}
	if s.kind(i+1) == tWord && s.low[s.tokens[i+1].Pos.Offset:s.ends[i+1]] == "of" && s.kind(i+2) == tNumber {
		return s.wholeBeside(i) // 2 of 3
	}
	if s.kind(i-1) != tWord {
		return false
	}
	if s.ofSubject(i) {
		return true
	}
	before := s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]]
	return (numbered[before] || before == "of" && i > 1 && isDigit(s.src[s.tokens[i-2].Pos.Offset])) && s.wholeBeside(i)
}

// ofSubject reports whether a number is a part of the words at the head of a line that lacks
// nothing: No. 2 shed, Post 5. Where no reading stands on the line it may be one, unless No.
// stands before it.
func (s *scanner) ofSubject(i int) bool {
	t := &s.tokens[i]
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
	case ofReadings[word] || ofSettings[word] || !isLetter(word[0]) || OnRail(word+" "+t.Value) != "":
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
	if s.saidInWords(i) {
		return s.field == onSheet && s.names.Names[s.tokens[i].Value] == Lens && s.apertures > 0 && s.durations > 0 && s.namesLens(i)
	}
	end := digits(s.low, from)
	if i > 0 && s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]] == "=" {
		return false // e = 300
	}
	if s.field != onSheet || s.names.Names[s.low[from:end]] != Lens || end != s.ends[i] && unit(s.low, end, "mm") != s.ends[i] {
		return false
	}
	return s.apertures > 0 && s.durations > 0 && s.namesLens(i) || s.inMarks(i)
}

// inMarks reports whether a token fills a cell of a row of ditto marks, in which a setting may be a mark. Which column
// it is in is told by the row above.
func (s *scanner) inMarks(i int) bool {
	if !s.fillsCell(i) {
		return false
	}
	for n := range s.tokens {
		if s.isMark(n) {
			return true
		}
	}
	return false
}

// fillsCell reports whether a token is all that stands in a cell of a row.
func (s *scanner) fillsCell(i int) bool {
	before := strings.TrimRight(s.low[s.begin:s.tokens[i].Pos.Offset], " \t")
	next := skip(s.low, s.ends[i])
	begins := before == "" || strings.ContainsAny(before[len(before)-1:], ",;|") || isWide(s.low[s.begin+len(before):s.tokens[i].Pos.Offset])
	ends := next == len(s.low) || strings.IndexByte(",;|", s.low[next]) >= 0 || isWide(s.low[s.ends[i]:next])
	return begins && ends
}

// isMark reports whether a token is a ditto mark.
func (s *scanner) isMark(i int) bool {
	return s.kind(i) == tSame && IsDittoMark(s.src[s.tokens[i].Pos.Offset:s.ends[i]])
}

// marks is how many ditto marks there are: one in letters is one in its own cell only, as it may be a word.
func (s *scanner) marks() (n int) {
	for i := range s.tokens {
		if s.isMark(i) && (!isLetter(s.low[s.tokens[i].Pos.Offset]) || s.fillsCell(i)) {
			n++
		}
	}
	return n
}

// saidInWords reports whether a token is a number in words.
func (s *scanner) saidInWords(i int) bool {
	return Figure(s.low[s.tokens[i].Pos.Offset:s.ends[i]]) != ""
}

// namesLens reports whether a number stands by itself, or among words by which a lens is put on: with
// the 150, 210 on. What another word measures is not known: a pace, a bellows, a rail.
func (s *scanner) namesLens(i int) bool {
	if s.kind(i+1) == tWord && !s.wordIn(i+1, behindLens) {
		return false
	}
	return s.takenBefore(i)
}

// takenBefore reports whether no words stand before token i, or such by which a thing is taken: with the long one.
func (s *scanner) takenBefore(i int) bool {
	before := i - 1
	for (s.wordIn(before, kindOfLens) || s.kind(before) == tAt) && i-before <= longRemark {
		before--
	}
	return s.kind(before) != tWord || s.wordIn(before, toLens)
}

// wordIn reports whether token i is a word of a set.
func (s *scanner) wordIn(i int, set map[string]bool) bool {
	return s.kind(i) == tWord && set[strings.TrimRight(s.low[s.tokens[i].Pos.Offset:s.ends[i]], ".:")]
}

// What stands beside the name of a lens (common practice, no source): before it as of its kind, before
// that as what is done with it, and behind it.
var (
	kindOfLens = SetOf("a an the de du vom my our his her this that same other old new long longer wide wider short shorter normal standard tele big small little heavy good der die das den dem ein einem einer mein meinem le la les un une mon ma il lo una mio")
	toLens     = SetOf("lens objektiv obj optik linse objectif obiettivo with on using used use through now and but then or again only changed switched swapped to for taken shot made mounted fitted in mit am auf durch jetzt und aber wieder avec sur au maintenant et con sul col")
	behindLens = SetOf("lens on now again instead here too at and but in for mounted fitted still only this because as focal was is rather objektiv optik linse drauf jetzt wieder statt objectif maintenant obiettivo")
)

// isThatLens reports whether a length, on such a line, is the whole name of a declared lens, or
// stands behind "the" and before no word: 14in, with the 14 inch.
func (s *scanner) isThatLens(i int) bool {
	from := s.tokens[i].Pos.Offset
	if s.field != onSheet || s.apertures == 0 || s.durations == 0 {
		return false
	}
	if s.names.Names[s.low[from:s.ends[i]]] == Lens {
		return s.namesLens(i)
	}
	return s.kind(i-1) == tWord && s.low[s.tokens[i-1].Pos.Offset:s.ends[i-1]] == "the" && s.kind(i+1) != tWord
}

// longRemark is how many tokens a remark may have between two commas: a line of numbers takes no
// time squared.
const longRemark = 64

// unitWords are the words that make a number before them a term.
var unitWords = []string{"stops", "stop", "seconds", "second", "secs", "minutes", "minute", "mins", "hours", "hour", "hrs", "inches", "inch", "ins", "feet", "metres", "degrees", "percent", "times"}

// alone holds the terms that are ordinary words beside other words.
var alone = map[string]bool{"again": true, "double": true, "hold": true, "bare": true, "none": true}
