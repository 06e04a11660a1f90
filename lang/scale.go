package lang

import (
	"slices"
	"strings"

	"notchbook/lang/pattern"

	"github.com/alecthomas/participle/v2/lexer"
)

// The picture's scale in words: life size, two thirds life size, one to one.

// scaleInWords makes one token of the words that say how large a thing is on the film, where they are
// a term of their own: a life-size bronze is a subject, and so is the statue, larger than life.
func (s *scanner) scaleInWords() {
	if s.field&onSheet == 0 || !sizeWords.In(s.low) {
		return
	}
	for i := 0; i < len(s.tokens); i++ {
		from := s.tokens[i].Pos.Offset
		if last := s.kind(i - 1); last == tWord || last == tChoose || last == tLength || last == tAt {
			continue
		}
		m := scaleWords().FindStringSubmatch(s.low[from:])
		if m == nil || !s.termEnds(from+len(m[0])) {
			continue
		}
		end, value := from+len(m[0]), "1/1"
		switch {
		case m[3] != "": // one to two
			_, of := inWords(m[3], 0)
			_, over := inWords(m[4], 0)
			value = trimFloat(float64(of)) + "/" + trimFloat(float64(over))
		case m[1]+m[2] != "":
			value = partsOfSize[strings.Join(strings.FieldsFunc(m[1]+m[2], func(c rune) bool { return c == ' ' || c == '-' || c == '+' }), " ")]
		}
		n := i
		for n < len(s.tokens) && s.tokens[n].Pos.Offset < end {
			n++
		}
		if value == "" || s.ends[n-1] > end {
			continue
		}
		s.tokens = slices.Replace(s.tokens, i, n, lexer.Token{Type: tScale, Value: value, Pos: lexer.Position{Offset: from}})
		s.ends = slices.Replace(s.ends, i, n, end)
	}
}

// termEnds reports whether nothing that goes on with the words before it stands at i.
func (s *scanner) termEnds(i int) bool {
	next := skip(s.low, i)
	if next == len(s.low) {
		return true
	}
	if strings.IndexByte(",;.(-\"", s.low[next]) >= 0 {
		return true
	}
	next = skip(s.low, unit(s.low, next, "at", "@"))
	return next > i && (isDigit(at(s.low, next)) || apertureAt(s.low, next))
}

// The words are those of notes read for this (common practice, no source).
var (
	sizeWords  = pattern.AnyOf("size größe grösse lebensgroß grandeur taille one -to- gr. ")
	scaleWords = pattern.Lazily(`^(?:(?:at|about|in|now|roughly|nearly|almost|taken|exactly|it is|it's|is|its|the) )*(?:(?:` +
		`(half|a half|third|a third|one third|quarter|a quarter|one quarter|two[- ]thirds|three[- ]quarters|twice|double|two times|2x|\+?[12]/[23]|\+?[13]/4|halbe[rn]?|demi|(?:ein |1 )?drittel|(?:ein )?viertel|doppelte[rn]?)[- ]?(?:of )?(?:the |der |la )?)?` +
		`(?:(?:life|natural|actual|real|true|own|full|same)[- ]?sized?(?: as (?:in )?(?:life|the real thing|nature))?|(?:lebens|original)gr(?:öße|össe|oß)|(?:natürliche[rn]?|nat\.) ?gr(?:öße|össe|\.)|grandeur (?:nature|réelle|naturelle)|taille réelle)|(half)[- ]size` +
		`|(one|two|three)[- ]to[- ](one|two|three|four|five|six))(?:,? (?:on (?:the |my )?(?:ground ?)?(?:glass|screen|film|plate|negative|neg)|auf der (?:mattscheibe|scheibe)|sur le (?:dépoli|verre)))?`)
	partsOfSize = map[string]string{
		"half": "1/2", "a half": "1/2", "third": "1/3", "a third": "1/3", "one third": "1/3", "quarter": "1/4", "a quarter": "1/4", "one quarter": "1/4",
		"two thirds": "2/3", "three quarters": "3/4", "twice": "2/1",
		"halbe": "1/2", "halber": "1/2", "halben": "1/2", "demi": "1/2", "drittel": "1/3", "1 drittel": "1/3", "ein drittel": "1/3", "viertel": "1/4", "ein viertel": "1/4", "doppelte": "2/1", "doppelter": "2/1", "doppelten": "2/1",
		"double": "2/1", "two times": "2/1", "2x": "2/1",
		"1/2": "1/2", "1/3": "1/3", "2/3": "2/3", "1/4": "1/4", "3/4": "3/4",
	}
)
