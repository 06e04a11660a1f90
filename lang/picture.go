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
// on a test line.
func trial(s *Statement) []Term {
	text := s.TextSpan()
	said := lower(text.Text())
	kind, end := "", 0
	if s.Word == Scene {
		kind, end = trialTitle(said)
	} else {
		kind, end = trialAt(said, 0)
	}
	if kind == "" {
		return nil
	}
	return []Term{{Kind: &Trial{Of: kind}, Span: text.Sub(0, end)}}
}

// trialTitle is the kind of test that a title names, in lower case, and where that ends: test
// filter R25, speed test - grey card. "test run of the new tripod" is a title.
func trialTitle(said string) (kind string, end int) {
	if rest, ok := strings.CutPrefix(said, "test"); ok {
		rest = strings.TrimPrefix(rest, ":")
		rest = strings.TrimPrefix(strings.TrimLeft(rest, " "), "of ")
		if from := len(said) - len(rest); from > len("test") {
			return trialAt(said, from)
		}
		return "", 0
	}
	for words := range trials {
		if before := words + " test"; strings.HasPrefix(said, before) && kindEnds(said[len(before):]) {
			return trials[words], len(before)
		}
	}
	return "", 0
}

// TestTitle reports whether words are the title of a test.
func TestTitle(words string) bool {
	kind, _ := trialTitle(lower(strings.Trim(words, "-+*_•. \t")))
	return kind != ""
}

// trialAt is the kind of test that stands at an offset by itself, and where it ends.
func trialAt(said string, from int) (kind string, end int) {
	for words, of := range trials {
		if stop := from + len(words); strings.HasPrefix(said[from:], words) && kindEnds(said[stop:]) {
			return of, stop
		}
	}
	return "", 0
}

// kindEnds reports whether what stands behind words for a test says more of it, and makes no other
// thing of them: nothing, a comma, a colon or a bracket, a dash between blanks, or a name with
// figures, R25.
func kindEnds(rest string) bool {
	behind := strings.TrimLeft(rest, " ")
	if behind == "" || strings.IndexByte(",;:(", behind[0]) >= 0 {
		return true
	}
	word, _, _ := strings.Cut(behind, " ")
	return len(behind) < len(rest) && (strings.Trim(word, "-–—") == "" || strings.ContainsAny(word, "0123456789"))
}
