package lang

import "strings"

// Terms of what is measured on a negative or its scan: where a patch lies, and
// what a test is of.

// onPicture is the place of a patch, 0.30,0.12; any other number is part of its
// name (step 1) or nothing that can be read.
func (s *scanner) onPicture() bool {
	if comma, across, end, down, ok := pair(s.low, s.pos); ok {
		s.emit(tAcross, across, comma)
		return s.emit(tDown, down, end)
	}
	end, value := signedDecimal(s.low, s.pos)
	if !boundary(s.low, end) {
		return false
	}
	if next := skip(s.low, end); s.last() == tWord && (isDigit(at(s.low, next)) || strings.HasPrefix(s.low[next:], "level")) {
		return s.emit(tWord, value, end) // step 1
	}
	return s.emit(tNumber, value, end)
}

// pair reads two numbers with a comma between, or with a blank where both have a
// decimal comma.
func pair(s string, i int) (comma int, across string, end int, down string, ok bool) {
	comma, across = signedDecimal(s, i)
	if strings.IndexByte(s[i:comma], ',') >= 0 {
		if start := skip(s, comma); start > comma {
			if end, down = signedDecimal(s, start); strings.IndexByte(s[start:end], ',') >= 0 && boundary(s, end) {
				return comma, across, end, down, true
			}
		}
		comma = digits(s, i) // 0,1 is a corner
		across = s[i:comma]
	}
	sign := skip(s, comma)
	if comma == i || at(s, sign) != ',' {
		return i, "", i, "", false
	}
	start := skip(s, sign+1)
	end, down = signedDecimal(s, start)
	return comma, across, end, down, end > start && boundary(s, end)
}

// signedDecimal is a decimal that a sign may stand before.
func signedDecimal(s string, i int) (end int, value string) {
	start := i
	if c := at(s, i); c == '-' || c == '+' {
		start++
	}
	end, value = decimal(s, start)
	if end == start {
		return i, ""
	}
	return end, strings.TrimPrefix(s[i:start], "+") + value
}

// patch is a patch on a sheet's line: its name, and the place that ends it.
func (s *scanner) patch(end int) bool {
	start := skip(s.low, end)
	for i := start; i < len(s.low); {
		if comma, across, stop, down, ok := pair(s.low, i); ok && i > start {
			s.emit(tPatch, strings.TrimRight(s.src[start:i], " \t"), i)
			s.emit(tAcross, across, comma)
			return s.emit(tDown, down, stop)
		}
		for i < len(s.low) && !isSpace(s.low[i]) && s.low[i] != ',' {
			i++
		}
		if at(s.low, i) == ',' {
			return false
		}
		i = skip(s.low, i)
	}
	return false
}

// trials are the kinds of test, by the words people have for them.
var trials = map[string]string{
	"speed": "speed", "film speed": "speed", "ei": "speed", "development": "development", "developing": "development",
	"developing times": "development", "contrast": "development", "filter": "filter", "filters": "filter", "filter factors": "filter",
	"reciprocity": "reciprocity", "shutter": "shutter", "shutters": "shutter", "shutter speeds": "shutter", "meter": "meter", "meters": "meter",
}

// Trials is the kinds of test in the order in which they are named.
var Trials = []string{"speed", "development", "filter", "reciprocity", "shutter", "meter"}

// trial finds what a test is of: behind or before the word in a scene's title, and first
// on a test line. Only the whole of what stands before the first comma counts:
// "test run of the new tripod" is a title.
func trial(s *Statement) []Term {
	text := s.TextSpan()
	said, _, _ := strings.Cut(text.Text(), ",")
	what := lower(strings.TrimSpace(said))
	if s.Word == Scene {
		before, isTest := strings.CutSuffix(what, " test") // speed test
		if !isTest {
			if before, isTest = strings.CutPrefix(what, "test:"); !isTest {
				before, isTest = strings.CutPrefix(what, "test ")
			}
		}
		if !isTest {
			return nil
		}
		what = strings.TrimSpace(before)
	}
	kind, ok := trials[what]
	if !ok {
		return nil
	}
	return []Term{{Kind: &Trial{Of: kind}, Span: text.Sub(0, len(said))}}
}
