package compile

import (
	"strings"
	"unicode"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What is said in words is asked about as it would be in figures: the words are put into figures, and the
// same pieces look through them.

// inFigures is a text with the numbers that it says in words as figures: gave eight, gave 8; no, an eighth,
// no, 1/8; EI two fifty, EI 250.
func inFigures(text string) string {
	if !mayCount.In(text) {
		return text
	}
	words := wordsAt(text)
	var out strings.Builder
	done := 0
	for i := 0; i < len(words); {
		n, figures := numberFrom(text, words[i:])
		if n > 0 {
			out.WriteString(text[done:words[i].from])
			out.WriteString(figures)
			done = words[i+n-1].to
		}
		i += max(n, 1)
	}
	return out.String() + text[done:]
}

// wordAt is where a word of a text stands.
type wordAt struct{ from, to int }

func wordsAt(text string) (all []wordAt) {
	from := -1
	for i, c := range text + " " {
		switch letter := i < len(text) && (unicode.IsLetter(c) || unicode.IsDigit(c)); {
		case letter && from < 0:
			from = i
		case !letter && from >= 0:
			all, from = append(all, wordAt{from, i}), -1
		}
	}
	return all
}

// numberFrom is how many of some words say a number from the first on, 0 where they say none, and its figures.
func numberFrom(text string, words []wordAt) (n int, figures string) {
	var last lang.Spoken
	for i, w := range words {
		if i > 0 && strings.Trim(text[words[i-1].to:w.from], " -") != "" {
			break
		}
		word := strings.ToLower(text[w.from:w.to])
		if !joinsNumber[word] && len(lang.NumbersInWords(word)) == 0 || i == 0 && word == "and" || i == 2 && n == 0 && word != "a" { // one-and-twenty
			break
		}
		said, ok := oneNumber(lang.NumbersInWords(text[words[0].from:w.to]))
		if !ok {
			break
		}
		if said != last {
			n, last = i+1, said
		}
	}
	switch {
	case n == 0:
		return 0, ""
	case last.Part:
		return n, "1/" + trim(last.N)
	}
	return n, trim(last.N)
}

// oneNumber is what numbers side by side say as one: two fifty is 250, a hundred twenty five 125.
func oneNumber(all []lang.Spoken) (one lang.Spoken, ok bool) {
	for i, next := range all {
		switch {
		case i == 0:
			one = next
		case one.Part || next.Part:
			return one, false
		case one.N < 10 && next.N >= 10 && next.N < 100:
			one.N = 100*one.N + next.N
		case int(one.N)%100 == 0 && next.N < 100:
			one.N += next.N
		default:
			return one, false
		}
	}
	return one, true
}

var (
	joinsNumber = lang.SetOf("a an one and hundred")
	mayCount    = pattern.AnyOf(strings.Join(lang.NumberWords(), " "))
)
