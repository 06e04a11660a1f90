package lang

import (
	"maps"
	"slices"
)

// NumberWords are the words with which a number in words begins, for a quick look whether a text may say
// one: not those of one letter or two, which stand in nearly any.
func NumberWords() []string {
	const short = 2 // letters
	return slices.DeleteFunc(append(slices.Sorted(maps.Keys(numberWords)), "hundred"), func(word string) bool { return len(word) <= short })
}
