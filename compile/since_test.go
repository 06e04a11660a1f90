package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// A rule for long times, a tolerance and a timed shutter hold from where they stand; the first holds before it too.
func TestWhatIsToldAnewHoldsFromThere(t *testing.T) {
	const lens = "lens 210: 210 mm, tested 1/60=1/30\nlens: 210\nday: 2026-10-10\nmeter: 1/60 f16\n"
	const repaired = "day: 2026-12-01\nshutter 210: 1/60 measured 16 16 16 ms -- repaired\nmeter: 1/60 f16\n"
	for lines, want := range map[string][]record.State{
		lens + "1A: 1/60 f22\n" + repaired + "1A: 1/60 f16\n":                                                   {record.Right, record.Right},
		lens + "1A: 1/60 f16\n" + repaired + "1A: 1/60 f22\n":                                                   {record.Off, record.Off},
		"lens 210: 210 mm\nlens: 210\nmeter: 1/60 f16\n1A: 1/60 f22\nshutter 210: 1/60 measured 33 ms\n":        {record.Right},
		"meter: 4s f16\nreciprocity: 4s=8s\n1A: 8s f16\nreciprocity: 4s=16s\n1B: 16s f16\n2A: 8s f16\n":         {record.Right, record.Right, record.Off},
		"meter: 4s f16\n1A: 8s f16\nreciprocity: 4s=8s\n":                                                       {record.Right},
		"meter: 1/60 f16\ntolerance: 1/3 stop\n1A: 1/30 f16\ntolerance: 1 stop\n1B: 1/30 f16\n":                 {record.Off, record.Right},
		"meter: 1/60 f16\ntolerance: 1 stop\n1A: 1/30 f16\ntolerance: +1/3 stop\n1B: 1/30 f16\n2A: 1/120 f16\n": {record.Right, record.Off, record.Right},
		"meter: 1/60 f16\n1A: 1/30 f16\ntolerance: 1 stop\n":                                                    {record.Right},
	} {
		season, list := compileText("film ash: EI 100\nfilm: ash\n" + lines)
		for i, sh := range season.Sheets {
			if sh.State != want[i] {
				t.Errorf("%q: %s %s %v %v, want %s", lines, sh.Label, sh.State, sh.Needs, list, want[i])
			}
		}
	}
}

// Another notebook's test holds from its day on, and the kit of a nearer folder counts over it.
func TestWhatHoldsInOtherNotebooks(t *testing.T) {
	const (
		film     = "film ash: EI 100\n"
		kit      = "lens 210: 210 mm, tested 1/60=1/30\n"
		october  = "day: 2026-10-10\nfilm: ash\nlens: 210\nmeter: 1/60 f16\n1A: 1/60 f22\n"
		december = "day: 2026-12-02\nfilm: ash\nlens: 210\nmeter: 1/60 f16\n1A: 1/60 f16\n"
		repair   = "day: 2026-12-01\n\nshutter 210: 1/60 measured 16 16 ms\n"
	)
	for _, files := range []map[string]string{
		{"things.md": film + kit, "a.md": october, "b.md": december, "repair.md": repair},
		{"film.md": film, "lens.md": "lens 210: 210 mm\n", "a/things.md": kit, "a/a.md": october, "old.md": "shutter 210: 1/60 measured 16 ms\n"},
		{"film.md": film, "tolerance.md": "tolerance: 1 stop\n", "a/things.md": "lens 210: 210 mm\ntolerance: 1 1/3 stop\n", "a/a.md": october},
	} {
		season := seasonOf(files)
		if len(season.Sheets) == 0 {
			t.Errorf("%v: no sheets", files)
		}
		for _, sh := range season.Sheets {
			if sh.State != record.Right {
				t.Errorf("%v: %s is %s %v", files, sh.ID, sh.State, sh.Needs)
			}
		}
	}
}
