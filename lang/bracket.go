package lang

import (
	"strconv"
	"strings"
)

// Brackets: a remark, a filter's amount, a doubt, or what belongs to the reading before them.

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

// completed is the end of a word whose figures stand in part in square brackets at i, where an
// editor has put them: 1/2[5], f1[2.5], [1/]25. It is 0 where there are none: what stands before
// the bracket alone was never written as a value.
func (s *scanner) completed(i int) int {
	if at(s.src, i) != '[' {
		return 0
	}
	end := i + 1
	for end < len(s.src) && (isDigit(s.src[end]) || strings.IndexByte("./?", s.src[end]) >= 0) {
		end++
	}
	if at(s.src, end) != ']' || strings.Trim(s.src[i+1:end], "?") == "" {
		return 0
	}
	for end++; end < len(s.src) && !isSpace(s.src[end]) && strings.IndexByte(",;()[", s.src[end]) < 0; {
		end++
	}
	return end
}

// editorsProse is the end of square brackets with words in them that are no link, on a line that is not a
// sheet's: EV 13 [in pencil, 1971]; else 0. What has figures alone in them is a value that was completed.
func (s *scanner) editorsProse() int {
	end := strings.IndexByte(s.src[s.pos:], ']')
	if end < 0 || s.field&(onMeter|onFilm|onLens|onFilter) == 0 || s.pos > 0 && !isSpace(s.src[s.pos-1]) || s.byte(end+1) == '(' {
		return 0
	}
	inner := scanFolded(s.src[s.pos+1:s.pos+end], s.field, s.names)
	if inner.count(tWord) == 0 || inner.count(tAperture, tTime, tISO, tEI, tMeterEI, tFactor, tStops, tExt, tZone) > 0 {
		return 0
	}
	for i, t := range inner.tokens {
		bare := isDigit(inner.low[t.Pos.Offset]) // a number alone is one on a meter's line, if it is no year and counts nothing
		if t.Type == tEV && (!bare || number(t.Value) <= brightestRead && inner.kind(i+1) != tWord) {
			return 0
		}
	}
	return s.pos + end + 1
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

// onlyIndex reports whether a text is a film's speed and nothing else: ISO 100 (EI 50), (50 ASA).
func (s *scanner) onlyIndex(text string) bool {
	inner := scanFolded(text, s.field, s.names)
	kind := inner.kind(0)
	return len(inner.tokens) == 1 && (kind == tEI || kind == tISO || kind == tMeterEI || kind == tOldSpeed)
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
	return s.onlyIndex(text)
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
