package compile

import (
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Other ways to read how often a sheet was exposed.

// repeated are the ways by words of the line that say that it was exposed more than once.
func (l *otherLine) repeated() (ways []another) {
	for _, said := range l.said {
		ways = append(ways, l.sh.asRepeated(said)...)
	}
	if has(l.sh.states, "double") && l.sh.over == nil { // the other has no line of its own
		ways = append(ways, l.sh.asRepeated("double exposure")...)
	}
	return append(ways, l.sh.asBoth(strings.Join(l.words, " "))...)
}

// asRepeated is a time that was given as often as a text says, which says nothing else: (4x), repeated
// once, three times over.
func (sh *sheet) asRepeated(said string) []another {
	said = strings.TrimRight(said, ".!")
	low := strings.ToLower(said)
	if !ofOften.In(low) {
		return nil
	}
	n := howOften(low)
	if n < 2 || !sh.time.known || sh.time.v.Count != nil || strings.HasSuffix(said, "them") && !slices.Contains(wordsIn(sh.lines[0].Body.Text()), "each") {
		return nil
	}
	if sh.sum.state == record.Right && strings.ContainsAny(said, "x×") && (len(sh.filters) > 0 || sh.saysDrawn()) {
		return nil // is the factor that it was given for
	}
	count := lang.Number(n)
	return []another{{"whether " + quote(said) + " is how often it was exposed: it is written " + trim(n) + " x " + givenTime(sh.time.v), func(at *sheet) { at.time.v.Count = &count }}}
}

// howOften is how many exposures a text says, 0 where it says none or more than that.
func howOften(low string) float64 {
	m := oftenSaid().FindStringSubmatch(low)
	if m == nil {
		return 0
	}
	again := strings.HasPrefix(m[1], "repeat")
	word, _, _ := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(m[1], "repeated"), " "), " ")
	word = strings.Trim(word, "x× ")
	n := oftenCounted[word]
	if n == 0 && word != "" {
		n = parseFloat(word)
	}
	if again {
		n = max(n, 1) + 1
	}
	return n
}

// asBoth are the two times of a line that has a word for one more between them: 1/4 and another 1/4.
func (sh *sheet) asBoth(said string) []another {
	if !sh.time.known || !oneMore().MatchString(strings.ToLower(said)) {
		return nil
	}
	var parts []lang.Seconds
	all := sh.lines[0].Terms()
	for i := range all {
		if !all[i].Struck {
			for _, time := range timesOf(all[i].Kind) {
				parts = append(parts, time.Parts...)
			}
		}
	}
	if len(parts) != 2 {
		return nil
	}
	return []another{{"whether it was exposed for both of its times: they are written 1/4 + 1/4", func(at *sheet) { at.time.v = lang.Time{Parts: parts} }}}
}

// exposedAgain leaves a sheet unchecked that a line below exposes once more, and that was not read.
func (s *season) exposedAgain(sh *sheet) bool {
	said := sh.againBelow()
	if said != "" {
		sh.ask("whether " + quote(said) + " is a second exposure of it: it is written " + sh.label + ": again, and its settings")
	}
	return said != ""
}

// againBelow is a line right below a sheet's that was not read, and most likely says that the sheet was
// exposed once more: 1A again: 1/4 f16.
func (sh *sheet) againBelow() string {
	b := sh.outing.book
	if sh.at.File != b.File {
		return ""
	}
	i := lineIndex(b, sh.at.Start) + 1
	if i >= len(b.Lines) || b.Lines[i].Kind == lang.Log {
		return ""
	}
	text := strings.TrimSpace(string(b.File.Text[b.Lines[i].Body:b.Lines[i].BodyEnd]))
	if n := len(sh.label); len(text) <= n || !strings.EqualFold(text[:n], sh.label) || !exposedAgain().MatchString(strings.ToLower(text[n:])) {
		return ""
	}
	return text
}

// The words are those of notes read for this (common practice, no source).
var (
	oftenCounted = map[string]float64{"once": 1, "twice": 2, "thrice": 3, "double": 2, "doppelbelichtung": 2, "surimpression": 2, "triple": 3, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
	ofOften      = pattern.AnyOf("twice thrice times them expos repeat x × doppelbel surimp") // of which all of these have one
	oftenSaid    = pattern.Lazily(`^(?:(?:exposed|given|fired|tripped|released|each|shot|done|all|it|shutter|was|went off) )*(twice|thrice|(?:two|three|four|five|six|seven|eight|nine|ten|[0-9]+) (?:times|of them|exposures)` +
		`|[x×] ?[0-9]+|[0-9]+ ?[x×]|repeated(?: (?:once|twice|thrice|(?:two|three|four|five) times))?|(?:double|triple) exposure|doppelbelichtung|surimpression)(?: over| each| in all)?(?: by (?:accident|mistake)| accidentally| in error)?$`)
	oneMore      = pattern.Lazily(`\b(?:and|plus|then) (?:another|one more|once more)\b|^another$`)
	exposedAgain = pattern.Lazily(`^ (?:again|once more|second exposure|a second time|exposed again|second time)\b.*(?:[0-9]s\b|1/[0-9]|f/?[0-9])`)
)
