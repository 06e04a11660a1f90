package compile

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"notchbook/lang"
)

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
		{"Sa. 12. Okt. 1991", "1991-10-12", false},
		{"Do 3.10.1991", "1991-10-03", false},
		{"Mittwoch, 2. Oktober 1991", "1991-10-02", false},
		{"ven. 4 octobre 1991", "1991-10-04", false},
		{"Mi 2/10/1991", "1991-10-02", false},
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
		iso, _, ambiguous := lang.DateOf(c.typed)
		if iso != c.iso || ambiguous != c.ambiguous {
			t.Errorf("%q is read as %q, ambiguous %v", c.typed, iso, ambiguous)
		}
	}
}

// One date that can be read in one way only says how the others of its notebook are
// written; where two say otherwise, or none does, the day is left open. A day of the week
// settles its own date (3 October 2026 is a Saturday, 10 March a Tuesday, by the Gregorian
// calendar's rules).
func TestOtherDatesSettleWhichFigureIsTheMonth(t *testing.T) {
	for text, want := range map[string]string{
		"day: 3/10/2026\n\nday: 25/10/2026\n":                        "2026-10-03 2026-10-25",
		"day: 3/10/2026\n\nday: 10/25/2026\n":                        "2026-03-10 2026-10-25",
		"day: 3/10/2026\n\nday: 10/25/2026\n\nday: 26/10/2026\n":     " 2026-10-25 2026-10-26",
		"day: 3/10/2026\n\nday: 4/10/2026\n":                         " ",
		"day: Sat 3/10/2026\n\nday: Tue 3/10/2026\nday: 4/10/2026\n": "2026-10-03 2026-03-10 ",
		"day: 3/10 26\n\nday: 25/10 26, Moor\n\nday: 4/10 '26\n":     "2026-10-03 2026-10-04 2026-10-25",
		"day: 3/10 26\n": "",
		"day: 3.10 26, Moor\n\nday: 3/10 12 sheets\n": "2026-10-03 ",
	} {
		season, _ := Compile(World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, "n.md")
		var got []string
		for _, o := range season.Outings {
			got = append(got, o.ISO)
		}
		slices.Sort(got)
		wanted := strings.Split(want, " ")
		slices.Sort(wanted)
		if !slices.Equal(got, wanted) {
			t.Errorf("%q: %q, want %q", text, got, wanted)
		}
	}
}

// What the dates of one notebook do not say, those of the others do, where all agree.
func TestOtherNotebooksSettleWhichFigureIsTheMonth(t *testing.T) {
	for text, want := range map[string]string{
		"14/11/2026":                       "2026-12-03",
		"11/14/2026":                       "2026-03-12",
		"14/11/2026|11/15/2026":            "",
		"14/11/2026\nday: 11/15/2026":      "",
		"14/11/2026|15/11/2026|2026-11-16": "2026-12-03",
		"4/11/2026":                        "",
	} {
		books := map[string]string{"n.md": "day: 3/12/2026, moor\n"}
		names := []string{"n.md"}
		for i, other := range strings.Split(text, "|") {
			names = append(names, fmt.Sprintf("o%d.md", i))
			books[names[i+1]] = "day: " + other + ", mill\n"
		}
		season, _ := Compile(World{Read: func(name string) ([]byte, error) { return []byte(books[name]), nil }}, names...)
		for _, o := range season.Outings {
			if o.Place == "moor" && o.ISO != want {
				t.Errorf("beside %q: %q, want %q", text, o.ISO, want)
			}
		}
	}
}
