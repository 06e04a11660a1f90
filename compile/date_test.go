package compile

import "testing"

// The days of the week were read off a printed calendar: 12 April 2025 was a
// Saturday. What each form means is common practice, no source.
func TestDatesAsTheyAreTyped(t *testing.T) {
	for _, c := range []struct {
		typed, iso string
		ambiguous  bool
	}{
		{"2026-11-07", "2026-11-07", false},
		{"2025/04/12", "2025-04-12", false},
		{"Sat 12 April 2025", "2025-04-12", false},
		{"Saturday, 12th Apr 2025", "2025-04-12", false},
		{"April 12, 2025", "2025-04-12", false},
		{"9 Sept 2025", "2025-09-09", false},
		{"12.4.2025", "2025-04-12", false},
		{"Sat 7.11.26", "2026-11-07", false},
		{"25/12/2025", "2025-12-25", false},
		{"12/25/2025", "2025-12-25", false},
		{"5/5/2025", "2025-05-05", false},
		{"3/5/2025", "", true},
		{"31 June 2025", "", false},
		{"7.XI.84", "1984-11-07", false},
		{"7. XI. 1984", "1984-11-07", false},
		{"3. März 1967", "1967-03-03", false},
		{"1er mars 1984", "1984-03-01", false},
		{"8 novembre 1984, Colmar", "1984-11-08", false},
		{"7 Nov 84, Mill", "1984-11-07", false},
		{"3/Mar/91", "1991-03-03", false},
		{"14/6/79", "1979-06-14", false},
		{"7.11.26", "2026-11-07", false},
		{"12 Apr 35 mm", "", false},
		{"3 rolls 2025", "", false},
		{"2026-02-30", "", false},
		{"14 jan", "", false},
		{"June ?", "", false},
		{"2nd day", "", false},
	} {
		iso, _, ambiguous := dateOf(c.typed)
		if iso != c.iso || ambiguous != c.ambiguous {
			t.Errorf("%q is read as %q, ambiguous %v", c.typed, iso, ambiguous)
		}
	}
}
