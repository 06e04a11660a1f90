package ruler_test

import (
	"testing"

	"notchbook/lang/ruler"
)

// What is typed in columns stands in them, whatever the width of a cell's characters; a line
// that goes on from another text keeps its stops.
func TestUntab(t *testing.T) {
	for _, c := range []struct {
		text string
		at   int
		want string
	}{
		{"1A\tY8\t1/30", 0, "1A      Y8      1/30"},
		{"84-020-a\tY8", 0, "84-020-a        Y8"},
		{"\tf16\n1a\tf16", 0, "        f16\n1a      f16"},
		{"\tf16", 3, "     f16"},
		{"a\u0301🌷\tf16", 0, "a\u0301🌷     f16"}, // 1 and 2 columns (Unicode Standard Annex 11)
		{"家\tf16", 0, "家      f16"},
		{"no tab", 5, "no tab"},
	} {
		if got := ruler.Untab(c.text, c.at); got != c.want {
			t.Errorf("%q from %d: %q, want %q", c.text, c.at, got, c.want)
		}
	}
}

// What is cut keeps its characters whole, whatever they are made of.
func TestCut(t *testing.T) {
	for _, c := range []struct {
		text    string
		columns int
		want    string
	}{
		{"Mill", 9, "Mill"}, {"Mill wheel", 6, "Mill w"}, {"家家家", 5, "家家"}, {"a\u0301b", 1, "a\u0301"}, {"👩\u200d👩\u200d👧!", 2, "👩\u200d👩\u200d👧"}, {"👍🏽", 1, ""},
	} {
		if got := ruler.Cut(c.text, c.columns); got != c.want {
			t.Errorf("%d of %q: %q, want %q", c.columns, c.text, got, c.want)
		}
	}
}
