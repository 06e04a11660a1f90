package compile_test

import (
	"errors"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// Counted by hand from the notes below.
const twoYears = `film marl: ISO 100, EI 100, pan
lens 210: 210 mm, f5.6-f64
lens 150: 150 mm, f5.6-f64
day: 2025-03-01, Weir
load 1A 1B 2A: marl
scene: Gate
1A: lens 210, EV 12, 1/16 f16, rise 12 mm, at 09:30
1B: lens 210, EV 12, 1/16 f16
result 1B: light leak
day: 2026-03-02, weir
load 1A 3A: marl
scene: Gate in flood
1A: lens 150, EV 12, 1/16 f16
2A: unused
day: 2026-03-03, Hill
3A: lens 150, EV 12, 1/16 f16
day: March, Weir
9A: lens 150, EV 12, 1/16 f16
`

func yearsOf(t *testing.T, text string) *record.Season {
	t.Helper()
	season, _ := compile.Compile(compile.World{Read: func(name string) ([]byte, error) {
		if name != "log.md" {
			return nil, errors.New("no such notebook")
		}
		return []byte(text), nil
	}}, "log.md")
	return season
}

func TestYearsStandBesideOneAnother(t *testing.T) {
	s := yearsOf(t, twoYears)
	if len(s.Years) != 3 || s.Years[0].Year != "2025" || s.Years[1].Year != "2026" || s.Years[2].Year != "" {
		t.Fatalf("years: %+v", s.Years)
	}
	first, second := s.Years[0], s.Years[1]
	if first.Outings != 1 || first.Sheets != 2 || len(first.Losses) != 1 || first.Losses[0].Cause != "light leak" || first.Losses[0].Sheets[0].Label != "1B" {
		t.Errorf("2025: %+v", first)
	}
	if second.Outings != 2 || second.Sheets != 3 || second.Unexposed != 1 || len(second.Losses) != 0 {
		t.Errorf("2026: %+v", second)
	}
	if len(first.Films) != 1 || first.Films[0] != (record.FilmUse{Film: "marl", Sheets: 2}) || second.Films[0].Sheets != 2 {
		t.Errorf("film used: %+v, %+v", first.Films, second.Films)
	}
	var sum record.Counts
	for _, y := range s.Years {
		sum.Outings += y.Outings
		sum.Sheets += y.Sheets
		sum.Right += y.Right
		sum.Unchecked += y.Unchecked
	}
	if sum.Outings != s.Tally.Outings || sum.Sheets != s.Tally.Sheets || sum.Right != s.Tally.Right || sum.Unchecked != s.Tally.Unchecked {
		t.Errorf("the years count %+v, the season %+v", sum, s.Tally.Counts)
	}
}

// A place is known again however it is typed; a place of one day is left out, and
// a day without a whole date stands last.
func TestPlaceLastTime(t *testing.T) {
	s := yearsOf(t, twoYears)
	if len(s.Places) != 1 {
		t.Fatalf("places: %+v", s.Places)
	}
	visits := s.Places[0].Visits
	if len(visits) != 3 || visits[0].ISO != "2026-03-02" || visits[1].ISO != "2025-03-01" || visits[2].ISO != "" {
		t.Fatalf("visits: %+v", visits)
	}
	sh := visits[1].Sheets[0]
	if sh.Lens != "210" || len(sh.Movements) != 1 || sh.Hour == "" {
		t.Errorf("last time: lens %q, movements %q, hour %q", sh.Lens, sh.Movements, sh.Hour)
	}
	if one := yearsOf(t, "day: 2026-03-02, Weir\n1A: EV 12, 1/16 f16\nday: March, Weir\n2A: EV 12, 1/16 f16\n"); len(one.Places) != 0 {
		t.Errorf("one whole date, which the other may be: %+v", one.Places)
	}
}
