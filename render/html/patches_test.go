package html

import (
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// patched are sheets with a sky and a wall, the first and the second on linear
// scans of the same settings.
func patched(change func(all []*record.Sheet)) sceneBody {
	place := func(level float64) []record.Patch {
		return []record.Patch{{Name: "sky", Placed: true, Across: .3, Down: .12, Level: record.Known(level)}}
	}
	sc := &record.Scene{Title: "Kiln"}
	for i, level := range []float64{50000, 25000, 100} {
		x := &record.Scan{Path: string(rune('a' + i)), State: record.Present, Width: 10, Linear: true, Settings: "first"}
		sc.Sheets = append(sc.Sheets, &record.Sheet{Label: string(rune('1'+i)) + "A", Scene: sc, Scans: []*record.Scan{x}, Patches: place(level)})
	}
	sc.Sheets[2].Scans[0].Settings = "second"
	if change != nil {
		change(sc.Sheets)
	}
	w := newSite(&record.Season{Sheets: sc.Sheets}, Options{})
	return w.sceneBody(sc, sc.Sheets)
}

// A density is the negative of the common logarithm of the transmittance (ISO
// 5-2), so that half the light is 0.30 more of it.
func TestPatches(t *testing.T) {
	cases := []struct {
		name     string
		change   func([]*record.Sheet)
		row      []string
		settings []string
	}{
		{"two alike, one with other settings", nil,
			[]string{"level 50000", "level 25000, 0.30 denser", "level 100"},
			[]string{"linear", "linear, same settings", "linear, other settings: not comparable"}},
		{"nothing is stated of the settings", func(all []*record.Sheet) { all[0].Scans[0].Settings = "" },
			[]string{"level 50000", "level 25000", "level 100"},
			[]string{"linear", "linear; whether its settings were the same is not stated", "linear; whether its settings were the same is not stated"}},
		{"one not linear, one of its own settings", func(all []*record.Sheet) { all[1].Scans[0].Linear, all[2].Scans[0].Auto = false, true },
			[]string{"level 50000", "level 25000", "level 100"},
			[]string{"linear", "not stated to be linear: not comparable", "settings of its own: not comparable"}},
		{"densities need no scan", func(all []*record.Sheet) {
			for i, d := range []float64{.62, .92} {
				all[i].Patches, all[i].Scans = nil, nil
				all[i].Densities = []record.Density{{Spot: "Sky", D: d}}
			}
			all[2].Patches, all[2].Scans = nil, nil
		},
			[]string{"0.62", "0.92, 0.30 denser", "not measured"},
			nil},
	}
	for _, c := range cases {
		got := patched(c.change).Patches
		if len(got.Rows) != 1 || !slices.Equal(got.Rows[0].Values, c.row) || !slices.Equal(got.Settings, c.settings) {
			t.Errorf("%s: %q, scans %q", c.name, got.Rows, got.Settings)
		}
	}
}

// Stops stand only beside sheets of which one test knows the curve, and the note says of
// the others that none is known.
func TestPatchesInStops(t *testing.T) {
	one, other := &record.Test{Name: "2026-11-07 T1-T9"}, &record.Test{Name: "2027-01-02 T1-T9"}
	by := func(sh *record.Sheet, test *record.Test, stops float64) {
		sh.Patches, sh.Scans = nil, nil
		sh.Densities = []record.Density{{Spot: "sky", D: 1}}
		if test != nil {
			sh.Curve = &record.Curve{Of: "slate after 9m", Test: test}
			sh.OnFilm = []record.OnFilm{{Spot: "sky", Stops: stops}}
		}
	}
	got := patched(func(all []*record.Sheet) { by(all[0], one, 3); by(all[1], one, 1.19); by(all[2], other, 2) }).Patches
	if want := []string{"1.00", "1.00, as dense, 1.8 stops less light", "1.00, as dense"}; !slices.Equal(got.Rows[0].Values, want) {
		t.Errorf("%q", got.Rows[0].Values)
	}
	if strings.Contains(got.Stops, "none is known") || !strings.Contains(got.Stops, "slate after 9m, by the test 2026-11-07 T1-T9") {
		t.Error(got.Stops)
	}
	got = patched(func(all []*record.Sheet) { by(all[0], one, 3); by(all[1], one, 3); by(all[2], nil, 0) }).Patches
	if !strings.Contains(got.Stops, "Of sheets without stops no characteristic curve is known") || !strings.HasSuffix(got.Rows[0].Values[1], "the same light") {
		t.Errorf("%q, %s", got.Rows[0].Values, got.Stops)
	}
	got = patched(func(all []*record.Sheet) { by(all[0], one, 3); all[0].OnFilm = nil }).Patches
	if !strings.Contains(got.Stops, "takes the base and fog") {
		t.Error(got.Stops)
	}
}

// TestPatchOnPicture measures a place on a picture whose tones are known: the sky
// of gradient is 225 − 90·y of 255.
func TestPatchOnPicture(t *testing.T) {
	s := season()
	kiln := s.Outings[0].Scenes[0]
	for i, sh := range kiln.Sheets {
		sh.Patches = []record.Patch{{Name: "sky", Placed: true, Across: .5, Down: .2}}
		sh.Scans[0].Linear, sh.Scans[0].Settings = true, "first"
		sh.Scans[0].Sheets = kiln.Sheets[i : i+1]
	}
	o := options()
	page := string(mustWrite(t, s, o).files["scene-long-kiln.html"])
	const want = "about 81 % of white" // (225 − 90·0.2) / 255
	if n := strings.Count(page, want); n != 2 || !strings.Contains(page, "as dense") {
		t.Errorf("%d times %q in %s", n, want, page)
	}
	o.Turned = func(string) bool { return true }
	if page := string(mustWrite(t, s, o).files["scene-long-kiln.html"]); strings.Contains(page, want) || !strings.Contains(page, "not measured") {
		t.Error("the positive made of a negative was measured")
	}
}
