package saying

import (
	"fmt"
	"slices"
	"testing"

	"notchbook/compile/record"
)

// What differs in nothing but what is marked is told once, where the first stood; another
// rule, another note or a word that only holds the mark within it is told apart.
func TestFold(t *testing.T) {
	of := func(message, excerpt string, from, to int, notes ...string) *record.Finding {
		return &record.Finding{Code: "negative-without-entry", Severity: record.Warning, Message: message, Excerpt: excerpt, Mark: [2]int{from, to}, Notes: notes}
	}
	const none = "no entry above this line is "
	for _, c := range []struct {
		all  []*record.Finding
		want []string
	}{
		{nil, nil},
		{[]*record.Finding{of(none+"HW-1", "neg HW-1: 3", 4, 8)}, []string{"1 " + none + "HW-1"}},
		{[]*record.Finding{of(none+"HW-1", "neg HW-1: 3", 4, 8), of("blurred", "1A: x", 0, 2), of(none+"HW-2", "sleeve HW-2: 3", 7, 11)},
			[]string{"2 " + none + "…", "1 blurred"}},
		{[]*record.Finding{of("blurred", "1A: x", 0, 2), of("blurred", "1B: x", 0, 2)}, []string{"2 blurred"}},
		{[]*record.Finding{of(none+"HW-1", "neg HW-1: 3", 4, 8, "one"), of(none+"HW-2", "neg HW-2: 3", 4, 8, "other")}, []string{"1 " + none + "HW-1", "1 " + none + "HW-2"}},
		{[]*record.Finding{of("11A lacks a reading", "1A", 0, 2), of("12A lacks a reading", "2A", 0, 2)}, []string{"1 11A lacks a reading", "1 12A lacks a reading"}},
		{[]*record.Finding{of("a", "x", 3, 1), of("a", "x", -1, 9)}, []string{"2 a"}},
	} {
		var got []string
		for _, told := range Fold(c.all) {
			got = append(got, fmt.Sprint(len(told.Of), " ", told.Message))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
