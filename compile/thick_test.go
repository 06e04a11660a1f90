package compile_test

import (
	"slices"
	"testing"
)

// Three stops over by the settings: where the film came out three stops denser the
// settings stayed; where it came out as asked, the red filter stayed on and is not
// written. The densities are those that N usually gives on V and VIII.
func TestDensitiesAreEvidence(t *testing.T) {
	const notes = `film slate: ISO 100, EI 100
filter R25: x8
day: 2026-11-07
scene: wall
meter: stone EV 11
1A: R25, 1/4 f8
1B: no filter, 1/4 f8
`
	first := func(more string) string {
		for _, f := range yearsOf(t, notes+more).Findings {
			if f.Code == "exposure-off" && len(f.Causes) > 0 {
				return f.Causes[0]
			}
		}
		return ""
	}
	plain := first("")
	dense := first("develop 1B: 2026-11-08, N\ndensity 1B: base+fog 0.07, stone 1.37\n")
	normal := first("develop 1B: 2026-11-08, N\ndensity 1B: base+fog 0.07, stone 0.77\n")
	if plain != "settings-left" || dense != "settings-left" {
		t.Errorf("without densities %q, with a dense negative %q; want settings-left", plain, dense)
	}
	if normal != "filter-not-written" {
		t.Errorf("with a negative as it should be: %q, want filter-not-written", normal)
	}
}

// A film that shows nothing though its settings are right is clear by its densities
// as by a remark; one that is as it should be is not spoken of.
func TestClearFilmIsSeenByDensity(t *testing.T) {
	for density, want := range map[string]bool{"0.08": true, "0.77": false} {
		s := yearsOf(t, "film slate: ISO 100, EI 100\nday: 2026-11-07\nscene: wall\nmeter: stone EV 12\n1A: 1/60 f8\ndensity 1A: base+fog 0.07, stone "+density+"\n")
		if got := slices.Contains(codesOf(s), "cause-not-in-settings"); got != want {
			t.Errorf("stone %s: reported %v, want %v", density, got, want)
		}
	}
}
