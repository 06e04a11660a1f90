package record_test

import (
	"testing"

	"notchbook/compile/record"
)

// A test that its day names says its sheets by their labels; one whose sheets are of several days, and a shutter's, which
// is named by its lens, say the days too.
func TestLabelsOfATest(t *testing.T) {
	first, second := &record.Outing{Date: "2026-11-14"}, &record.Outing{Date: "2026-11-15"}
	a, b, c := &record.Sheet{Label: "1A", Outing: first}, &record.Sheet{Label: "1B", Outing: first}, &record.Sheet{Label: "1A", Outing: second}
	for _, test := range []struct {
		of   record.Test
		want string
	}{
		{record.Test{Kind: "speed", Sheets: []*record.Sheet{a, b}}, "1A 1B"},
		{record.Test{Kind: "speed", Sheets: []*record.Sheet{a, b, c}}, "2026-11-14 1A 1B; 2026-11-15 1A"},
		{record.Test{Kind: "shutter", Sheets: []*record.Sheet{a, b}}, "2026-11-14 1A 1B"},
	} {
		if got := test.of.Labels(test.of.Sheets); got != test.want {
			t.Errorf("%s: %q, want %q", test.of.Kind, got, test.want)
		}
	}
}
