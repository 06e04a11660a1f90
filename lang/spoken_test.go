package lang

import (
	"slices"
	"testing"
)

func TestNumbersInWords(t *testing.T) {
	for text, want := range map[string][]Spoken{
		"twenty two at an eighth":          {{22, false}, {8, true}},
		"f sixteen, one fifteenth":         {{16, false}, {15, true}},
		"three and a half":                 {{3.5, false}},
		"one hundred and five":             {{100, false}, {5, false}},
		"half a second":                    {{2, true}},
		"a quarter of an hour":             {{4, true}},
		"one tree, tension, often, attend": nil,
		"":                                 nil,
	} {
		if got := NumbersInWords(text); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
