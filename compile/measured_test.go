package compile_test

import (
	"slices"
	"testing"

	"notchbook/compile/record"
)

func codesOf(s *record.Season) []string {
	var all []string
	for _, f := range s.Findings {
		all = append(all, f.Code)
	}
	return all
}

func labelled(t *testing.T, s *record.Season, label string) *record.Sheet {
	t.Helper()
	for _, sh := range s.Sheets {
		if sh.Label == label {
			return sh
		}
	}
	t.Fatalf("no sheet %s", label)
	return nil
}

// What the lines say is what the record holds; worked out by hand.
func TestWhatIsMeasuredStandsAtItsSheet(t *testing.T) {
	s := yearsOf(t, `lens 210: 210 mm
day: 2026-11-07
load T1-T3: slate
scene: test speed, grey card
patch: card 0.5,0.5, sky 0.30,0.12
meter: EV 11
T1: 1/30 f8, patch sky 0.4,0.2
T2: 1/60 f8
scene: gate
T3: 1/30 f8
test T3: filters, noon
density T1: base+fog 0.07, card 0.72 0.76 0.71
density T2: card 0.5
density T2: Card 0.6
density T9: card 0.6
patch T2: card level 18450
scan T1: t1.tif, linear, same settings
scan T2: t2.tif, settings as T1
scan T3: t3.tif, auto
shutter 210: 1/60 measured 17.1 17.4 16.9 18.0 ms
`)
	t1, t2, t3 := labelled(t, s, "T1"), labelled(t, s, "T2"), labelled(t, s, "T3")
	if d := t1.Densities; len(d) != 2 || d[1].D != 0.73 || len(d[1].Readings) != 3 || d[1].Spot != "card" {
		t.Errorf("densities of T1: %+v", d)
	}
	if d := t2.Densities; len(d) != 1 || d[0].D != 0.6 {
		t.Errorf("densities of T2: %+v", d)
	}
	if p := t1.Patches; len(p) != 2 || p[0].Name != "sky" || p[0].Across != 0.4 || p[1].Name != "card" {
		t.Errorf("patches of T1: %+v", p)
	}
	if p := t2.Patches; len(p) != 2 || p[0].Level.Value != 18450 || p[0].Placed || p[1].Name != "sky" || p[1].Down != 0.12 {
		t.Errorf("patches of T2: %+v", p)
	}
	if t1.Test != "speed" || t1.Scene.Test != "speed" || t3.Test != "filter" || t3.Scene.Test != "" {
		t.Errorf("tests: %q %q %q", t1.Test, t3.Test, t3.Scene.Test)
	}
	if a, b, c := t1.Scans[0], t2.Scans[0], t3.Scans[0]; !a.Linear || a.Settings == "" || a.Settings != b.Settings || b.Linear || !c.Auto || c.Settings != "" {
		t.Errorf("scans: %+v %+v %+v", a, b, c)
	}
	codes := codesOf(s)
	for _, want := range []string{"patch-twice", "negative-without-entry"} {
		if !slices.Contains(codes, want) {
			t.Errorf("%s is not reported: %v", want, codes)
		}
	}
	if given := t2.Given.EV; !given.Known || given.Value < 11.855 || given.Value > 11.865 { // 6 + log2(1000/17.25), the two in the middle
		t.Errorf("T2 was given EV %v", given)
	}
}
