package compile

import (
	"slices"
	"testing"
)

// A run of numbers is written alike where numbers are given and where they are
// named again.
func TestRunsOfNumbers(t *testing.T) {
	for text, want := range map[string][]string{
		"26-041 to 26-043":      {"26-041", "26-042", "26-043"},
		"26-041 through 26-043": {"26-041", "26-042", "26-043"},
		"26-041 – 26-043":       {"26-041", "26-042", "26-043"},
		"26-041–26-043":         {"26-041", "26-042", "26-043"},
		"26-041—26-043":         {"26-041", "26-042", "26-043"},
		"26-041 - 26-043":       {"26-041", "26-042", "26-043"},
		"098 to 100":            {"098", "099", "100"},
		"26-041, 26-050 26-043": {"26-041", "26-050", "26-043"},
		"26-041":                {"26-041"}, // no run from 26 to 41
		"26-041 to 26-044":      {"26-041", "26-042", "26-043", "26-044"},
		"26-041 to 27-043":      nil, // of two series
		"26-041 to":             nil,
	} {
		if got := numbersIn(text); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
