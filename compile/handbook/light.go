package handbook

import (
	"cmp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"notchbook/compile/exposure"
)

// LightState is a kind of light and how bright it is at ISO 100.
type LightState struct {
	Name      string  // "hazy sun"
	EV100     float64 // the middle of Low and High, less what the direction takes
	Low, High float64 // as published; equal where one figure is
	Direction string  // "side light", "back light", or empty
	Less      float64 // stops the direction takes off sunny light
	Source    string
}

// Steps returns how many stops the light is below full sun, as Sunny16 takes it.
func (s LightState) Steps() float64 { return exposure.Round(fullSun - s.EV100) }

// fullSun and sunny are the EVs at ISO 100 of full sun and of the weakest light that
// still has a direction (ANSI PH2.7-1986, at second hand).
const fullSun, sunny = 15, 14

// phrase is a row of a light table under one of its wordings.
type phrase struct {
	words string // padded with blanks on both sides
	state LightState
	void  bool // the words say nothing about the light
}

var (
	statePhrases     = sync.OnceValues(func() ([]phrase, error) { return readPhrases("light.csv") })
	directionPhrases = sync.OnceValues(func() ([]phrase, error) { return readPhrases("direction.csv") })
)

// Light finds the kind of light that free text speaks of: "hazy sun from the left".
// The longest wording wins, whole words only. ok is false where none is known.
func Light(words string) (LightState, bool) {
	states, err := statePhrases()
	if err != nil {
		return LightState{}, false
	}
	directions, err := directionPhrases()
	if err != nil {
		return LightState{}, false
	}
	text := plain(words)
	state, ok := find(states, text)
	if !ok {
		return LightState{}, false
	}
	if d, ok := find(directions, text); ok && state.Low >= sunny {
		state.Direction, state.Less = d.Name, d.Less
		state.EV100 -= d.Less
	}
	return state, true
}

// find returns the state of the first phrase in text, taking void ones out as it
// meets them.
func find(phrases []phrase, text string) (LightState, bool) {
	for _, p := range phrases {
		if !strings.Contains(text, p.words) {
			continue
		}
		if !p.void {
			return p.state, true
		}
		text = strings.ReplaceAll(text, p.words, " ")
	}
	return LightState{}, false
}

// plain writes text in small letters, its words between single blanks.
func plain(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	return " " + strings.Join(words, " ") + " "
}

// readPhrases reads a light table, longest wording first.
func readPhrases(name string) ([]phrase, error) {
	t, err := readTable(name)
	if err != nil {
		return nil, err
	}
	var phrases []phrase
	for _, row := range t.rows {
		state, void, err := stateIn(t, row)
		if err != nil {
			return nil, err
		}
		for words := range strings.SplitSeq(t.text(row, "words"), "|") {
			phrases = append(phrases, phrase{plain(words), state, void})
		}
	}
	slices.SortStableFunc(phrases, func(a, b phrase) int { return cmp.Compare(len(b.words), len(a.words)) })
	return phrases, nil
}

func stateIn(t table, row []string) (state LightState, void bool, err error) {
	low, hasLow, err := t.number(row, "low")
	if err != nil {
		return state, false, err
	}
	high, _, err := t.number(row, "high")
	if err != nil {
		return state, false, err
	}
	less, hasLess, err := t.number(row, "stops")
	state = LightState{
		Name: t.text(row, "name"), Source: t.text(row, "source"),
		EV100: (low + high) / 2, Low: low, High: high, Less: less,
	}
	return state, !hasLow && !hasLess, err
}
