package compile_test

import (
	"fmt"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// The tolerance is a third of a stop, and the rounding of marks may add a
// twelfth. Around the sum, a sheet is decided by thousandths of a stop and the
// same way however the difference came together: from one figure, or from filters
// whose thirds no binary fraction holds.
func TestLimitOfToleranceIsDecidedAlike(t *testing.T) {
	const kit = "tolerance: 1/3 stop\nfilm slow: ISO 125, EI 125, pan\nmeter spot: EV at EI\nfilter a: 1/3 stop\nfilter b: 2/3 stop\n"
	const given = 12.0 // f/16 at 1/16 of a second, by the exact marks
	for milli := -5; milli <= 5; milli++ {
		limit := 1./3 + 1./12 + float64(milli)/1000
		want := record.Right
		if milli > 0 {
			want = record.Off
		}
		for _, way := range []struct{ sign, owed float64 }{{1, 0}, {-1, 0}, {1, 1}, {-1, 1}} {
			ev := given + way.owed + way.sign*limit
			line := fmt.Sprintf("1A: EV %.9f, 1/15 f16, slow", ev)
			if way.owed != 0 {
				line += ", a+b"
			}
			sh := sheetOf(t, kit, line)
			if sh.State != want {
				t.Errorf("%+d thousandths past the limit: %v, want %v (%s; %v)", milli, sh.State, want, line, sh.Difference)
			}
		}
	}
}

// The trade's cautions stand wherever their words occur in the notes: common
// practice, and ISO 12312-2 for what may filter the sun for the eye.
func TestCautionsFollowTheirWords(t *testing.T) {
	for _, c := range []struct{ notes, caution string }{
		{"1A: 1/30 f16, ND 1.8", "not solar filters"},
		{"1A: 1/30 f16, ND64", "not solar filters"},
		{"light: into the sun\n1A: 1/30 f16", "never look at the sun"},
		{"1A: 1/30 f16\ndevelop 1A: N-1 8 min", "safety data sheet"},
	} {
		world := compile.World{Read: func(string) ([]byte, error) { return []byte(c.notes + "\n"), nil }}
		season, _ := compile.Compile(world, "notes.md")
		if all := strings.Join(season.Cautions, "\n"); !strings.Contains(all, c.caution) {
			t.Errorf("%q carries %q, want %q", c.notes, all, c.caution)
		}
	}
	world := compile.World{Read: func(string) ([]byte, error) { return []byte("light: open shade\n1A: 1/30 f16, R25\n"), nil }}
	if season, _ := compile.Compile(world, "notes.md"); strings.Contains(strings.Join(season.Cautions, "\n"), "sun") {
		t.Errorf("a caution of the sun where there is none: %q", season.Cautions)
	}
}

// A third of a stop is not within a quarter, whichever way it came together.
func TestAThirdIsNotWithinAQuarter(t *testing.T) {
	const kit = "tolerance: 1/4 stop\nfilm slate: ISO 100, EI 64\nmeter spot: EV at 100\n"
	for line, want := range map[string]record.State{
		"EV 10, 1/4 f11⅔, slate": record.Off, "EV 10⅔, 1/4 f16⅓, slate": record.Off, "EV 10, 1/4 f11⅓, slate": record.Right,
	} {
		if sh := sheetOf(t, kit, "1A: "+line); sh.State != want {
			t.Errorf("%s: %s %v, want %s", line, sh.State, sh.Difference, want)
		}
	}
}
