package query

import (
	"strings"
	"testing"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/source"
)

// What a time, an aperture and a development are found by is what the notation
// reads as one.
func TestSpellingsAreTheNotations(t *testing.T) {
	second := func(v float64) record.Figure { return record.Figure{Value: v, Known: true} }
	var all []string
	for _, aperture := range []string{"f/5.6", "f/16", "f/16½", "f/22⅓", "f/64"} {
		all = append(all, apertureSpelled(aperture)...)
	}
	for text, v := range map[string]float64{"1/30": 1. / 30, "1/2": 0.5, "1 s": 1, "1.5 s": 1.5, "35 s": 35, "2 min": 120} {
		all = append(all, timeSpelled(text, second(v))...)
	}
	for _, spelling := range all {
		if terms := readAs(spelling); len(terms) != 1 || !is[*lang.Exposure](terms) {
			t.Errorf("%q is no setting to the notation: %d terms", spelling, len(terms))
		}
	}
	for _, n := range []string{"N", "N−1", "N+1", "N+½", "N−1½"} {
		for _, spelling := range nSpelled("", n) {
			if strings.Contains(spelling, "asked") || spelling == "normal" {
				continue // the query's own words
			}
			if terms := readAs(strings.ToUpper(spelling)); len(terms) != 1 || !is[*lang.N](terms) {
				t.Errorf("%q is no development to the notation", spelling)
			}
		}
	}
}

func is[T any](terms []lang.Term) bool {
	_, ok := any(terms[0].Kind).(T)
	return ok
}

func readAs(spelling string) []lang.Term {
	tree, _ := lang.Parse(source.New("", []byte("1A: "+spelling+"\n")), lang.NewLexicon())
	if len(tree.Statements) != 1 {
		return nil
	}
	return tree.Statements[0].Terms()
}
