package saying

import (
	"slices"
	"testing"

	"notchbook/compile/record"
)

// A day and a place that are an outing's title are not said beside it once more.
func TestBesideTitle(t *testing.T) {
	for title, want := range map[string]string{"14 jan, Saltings": "", "First frost": "14 jan, Saltings", "14 jan": "14 jan, Saltings"} {
		date, place := BesideTitle(&record.Outing{Title: title, Date: "14 jan", Place: "Saltings"})
		if got := Join(", ", date, place); got != want {
			t.Errorf("%s: %q, want %q", title, got, want)
		}
	}
}

// What the first sheet lacks is not denied twice.
func TestWhatTheFirstLacks(t *testing.T) {
	first, other := &record.Sheet{Label: "1A"}, &record.Sheet{Label: "1B", Development: "N−1"}
	if _, apart := Compare(first, []*record.Sheet{first, other}); !slices.Contains(apart, "development asked N−1, on 1A not stated") {
		t.Errorf("%q", apart)
	}
}
