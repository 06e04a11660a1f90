package lang

import (
	"slices"
	"strings"
)

// A comma between two figures is a decimal one or parts two cells: f5,6 and f8,2s, EV 12,5 and
// Gate,EV 8,f16,1 s. In the scanner's copy of a line in lower case the sign of a cell's end is a semicolon.

// partFigures makes semicolons of the commas between figures that part two terms: before the unit of
// a time behind the sign of something else (EV 8,2 s), and on a line whose cells have commas without
// blanks between them. Where a lens has no such mark (f8,60) it cannot be told, and the figure behind
// the comma stands for itself, to be asked about.
func (s *scanner) partFigures() {
	if s.field&(onSheet|onMeter) == 0 || strings.IndexByte(s.low[s.pos:], ',') < 0 {
		return
	}
	body, _, _ := strings.Cut(s.low[s.pos:], " -- ")
	between, tight := 0, 0 // commas without blanks: between figures, and all
	for i := 1; i+1 < len(body); i++ {
		if body[i] != ',' || isSpace(body[i-1]) || isSpace(body[i+1]) || body[i-1] == ',' || body[i+1] == ',' {
			continue
		}
		tight++
		if isDigit(body[i-1]) && isDigit(body[i+1]) {
			between++
		}
	}
	if between == 0 {
		return
	}
	cells, low := tight > between && tight > 1, []byte(nil)
	for i, n := s.pos+1, 0; n < between; i++ {
		if s.low[i] != ',' || !isDigit(s.low[i-1]) || !isDigit(at(s.low, i+1)) {
			continue
		}
		if n++; s.parts(i, cells) {
			if low == nil {
				low = []byte(s.low)
			}
			low[i] = ';'
		}
	}
	if low != nil {
		s.low = string(low)
	}
}

// parts reports whether the comma at i, between two figures, parts two terms.
func (s *scanner) parts(i int, cells bool) bool {
	from, end := i, digits(s.low, i+1)
	for from > s.pos && isDigit(s.low[from-1]) {
		from--
	}
	whole, fraction := s.low[from:i], s.low[i+1:end]
	if at(s.low, from-1) == '.' && isDigit(at(s.low, from-2)) { // 0.30,0.12 has its point
		return false
	}
	sign := s.signBefore(from)
	row := at(s.low, from-1) == ',' && isDigit(at(s.low, from-2)) || at(s.low, end) == ',' && isDigit(at(s.low, end+1)) // EV 7,8,9
	switch mark := whole + "." + fraction; {
	case whole == "0", unit(s.low, end, ofSizes...) > end: // 0,7 s and bellows 29,7cm
		return false
	case sign != "" && s.unitOfTime(end):
		return true
	case sign == "f" && isMark(mark) && !slices.Contains(fullStops, whole): // f5,6
		return false
	case sign == "f" && !isMark(mark):
		return true
	}
	return cells || row && !s.unitOfTime(end)
}

// signBefore is the sign of a value, in front of a number at i, that is no time; else "".
func (s *scanner) signBefore(i int) string {
	for i > s.pos && (isSpace(s.low[i-1]) || strings.IndexByte("/.:=+-", s.low[i-1]) >= 0) {
		i--
	}
	from := i
	for from > s.pos && isLetter(s.low[from-1]) {
		from--
	}
	if word := s.low[from:i]; ofValues[word] {
		return word
	}
	return ""
}

// ofValues are the signs of values that are no times.
var ofValues = SetOf("f ev lv x n ei iso asa zone z on ext extension bellows draw factor nd")
