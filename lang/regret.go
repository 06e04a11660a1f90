package lang

import (
	"slices"
	"strings"
)

// Second thoughts: words that take back what stands before them, take a filter off, or were added later.

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
	regretsInLine = []string{"wait no", "wait, no", "oh wait no", "er wait no", "hmm no", "hmm, no", "oh no", "ah no", "er no", "er, no", "erm no", "um no", "no sorry", "no actually", "no i mean", "no make that", "no rather", "sorry", "oops", "correction", "make that", "make it", "i mean"}
	regrets       = append([]string{"no", "actually", "rather", "meant"}, regretsInLine...)
)

// regretsOfThings take back a thing that was named, as all of regrets do (common practice, no source).
var regretsOfThings = append([]string{"no wait", "no, wait", "wait", "scratch that", "scrap that", "strike that", "nein", "falsch", "pardon", "non"}, regrets...)

// Anew is what stands behind the last words of a text that take back what stands before them, without the brackets
// that both stand in: tarn of "moor (sorry, tarn)". It is "" where there are none.
func Anew(text string) string {
	low, last := lower(text), 0
	for _, word := range regretsOfThings {
		for from := 0; ; {
			i := strings.Index(low[from:], word)
			if i < 0 {
				break
			}
			start, end := from+i, from+i+len(word)
			if from = end; start > 0 && strings.IndexByte(" \t,;([-", low[start-1]) >= 0 && strings.Trim(low[:start], " \t,;([-") != "" && !isLetter(at(low, end)) && !isDigit(at(low, end)) {
				last = max(last, end)
			}
		}
	}
	if last == 0 {
		return ""
	}
	return strings.Trim(text[last:], " \t,.:;!-)]")
}

// regret is such a word between two settings of one kind, or two filters: 9m52 sorry 4m15, f22½, hmm no f22, yellow er no red.
func (s *scanner) regret() bool {
	end := letterRun(s.low, s.pos)
	n := len(s.tokens) - 1
	if s.kind(n) == tComma {
		n--
	}
	if last := s.kind(n); last != tAperture && last != tTime && last != tEV && last != tFilter {
		return false
	}
	if word := s.low[s.pos:end]; !slices.ContainsFunc(regretsInLine, func(said string) bool { return strings.HasPrefix(said, word) }) {
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
	last := s.last()
	if s.field&(onSheet|onMeter) == 0 || last != tAperture && last != tTime && last != tEV && last != tComma && last != tFilter {
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
		if behind.kind(0) == tFilter && slices.Contains(regretsInLine, word) && (last == tFilter || last == tComma && s.kind(len(s.tokens)-2) == tFilter) { // yellow no orange is read as it stands
			return end
		}
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
