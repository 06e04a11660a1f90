package saying

import (
	"slices"
	"testing"

	"notchbook/compile/record"
)

// What an outing's title says of its day, place and notebook is not said beside it once more.
func TestBesideTitle(t *testing.T) {
	for title, want := range map[string]string{
		"14 jan, Saltings": "log.md", "First frost": "14 jan, Saltings, log.md", "14 jan": "14 jan, Saltings, log.md", "log.md": "14 jan, Saltings",
	} {
		date, place, notebook := BesideTitle(&record.Outing{Title: title, Date: "14 jan", Place: "Saltings", Path: "log.md"})
		if got := Join(", ", date, place, notebook); got != want {
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
