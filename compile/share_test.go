package compile_test

import (
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// Two seasons in one archive, each with a kit of its own in which one filter costs
// another amount: a new sheet of gelatine was measured.
var twoSeasons = map[string]string{
	"2025/kit.md":   "film slate: ISO 100, pan, N 9m\nfilter R25: Wratten 25, x8\n",
	"2025/notes.md": "use: kit.md\nday: 2025-11-07, the mill\nload 1A-2B: slate\nmeter: 1/60 f16\n1A: R25, 1/8 f16, neg 25-001\n1B: R25, 1/4 f16\n2A: R25, 1/8 f16\n",
	"2026/kit.md":   "film slate: ISO 100, pan, N 7m\nfilter R25: Wratten 25, x16\n",
	"2026/notes.md": "use: kit.md\nday: 2026-11-07, the mill\nload 1A-2B: slate\nmeter: 1/60 f16\n1A: R25, 1/8 f16\n1B: R25, 1/4 f16, neg 25-001\n2A: R25, 1/4 f16, neg 26-001\n2B: R25, 1/4 f16\n",
}

func sheetsByID(s *record.Season) map[string]*record.Sheet {
	all := map[string]*record.Sheet{}
	for _, sh := range s.Sheets {
		all[sh.ID] = sh
	}
	return all
}

// ×8 is 3 stops and ×16 is 4: from 1/60 that is 1/8 and 1/4.
func TestEachFolderHasItsKit(t *testing.T) {
	season, list := compile.Compile(files(twoSeasons), "2025/kit.md", "2025/notes.md", "2026/kit.md", "2026/notes.md")
	want := map[string]record.State{"25-001": record.Right, "2025-11-07 1B": record.Off, "2026-11-07 1A": record.Off, "2026-11-07 1B": record.Right, "26-001": record.Right, "2025-11-07 2A": record.Right, "2026-11-07 2B": record.Right}
	got := sheetsByID(season)
	for id, state := range want {
		if sh := got[id]; sh == nil || sh.State != state {
			t.Errorf("%s is %v, want %s", id, sh, state)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d sheets have ids of their own, want %d", len(got), len(want))
	}
	codes := map[string]int{}
	for _, d := range list {
		codes[d.Code]++
	}
	if codes["declared-twice"] != 0 {
		t.Error("the two kits are taken for one: declared-twice")
	}
	if codes["number-reused"] != 1 {
		t.Errorf("a number of the year before was given again: said %d times", codes["number-reused"])
	}
	filters := 0
	for _, it := range season.Kit {
		if it.Kind == "filter" {
			filters++
		}
	}
	if filters != 2 {
		t.Errorf("the record lists %d filters, want both", filters)
	}
	// What waits goes into two baths: the films have times of their own.
	times := map[string]int{}
	for _, b := range season.ToDevelop.Batches {
		times[b.Time] += len(b.Sheets)
	}
	if len(season.ToDevelop.Batches) != 2 {
		t.Errorf("batches by time: %v, want two", times)
	}
	if n := season.Negatives.Series[0].Next; n != "26-002" {
		t.Errorf("the next free number is %s", n)
	}
}

// What a notebook knows: its folder's, what lies above, what is used; and where a
// run has one kit, that.
func TestWhichKitCounts(t *testing.T) {
	const sheet = "day: 2026-11-07\nmeter: 1/60 f16\nsheet 1A: film slate, R25, 1/8 f16\n"
	kit := func(factor string) string {
		return "film slate: ISO 100, pan\nfilter R25: Wratten 25, x" + factor + "\n"
	}
	cases := []struct {
		name  string
		files map[string]string
		want  record.State
	}{
		{"in the folder", map[string]string{"kit.md": kit("8"), "notes.md": sheet}, record.Right},
		{"above", map[string]string{"kit.md": kit("8"), "2026/may/notes.md": sheet, "2025/kit.md": kit("16")}, record.Right},
		{"used from elsewhere", map[string]string{"bag/kit.md": kit("8"), "2026/notes.md": "use: ../bag/kit.md\n" + sheet, "2025/kit.md": kit("16")}, record.Right},
		{"used by what is used", map[string]string{"bag/kit.md": kit("8"), "bag/all.md": "use: kit.md\n", "2026/notes.md": "use: ../bag/all.md\n" + sheet, "2025/kit.md": kit("16")}, record.Right},
		{"used by a notebook beside it", map[string]string{"bag/kit.md": kit("8"), "2026/first.md": "use: ../bag/kit.md\n", "2026/notes.md": sheet, "2025/kit.md": kit("16")}, record.Right},
		{"two uses of different folders", map[string]string{"bag/kit.md": kit("8"), "box/lens.md": "lens 300: 300 mm\n", "2026/notes.md": "use: ../box/lens.md\nuse: ../bag/kit.md\n" + sheet, "2025/kit.md": kit("16")}, record.Right},
		{"the only one of the run", map[string]string{"bag/kit.md": kit("8"), "2026/notes.md": sheet}, record.Right},
		{"its own over the one above", map[string]string{"kit.md": kit("16"), "2026/kit.md": "\n" + kit("8"), "2026/notes.md": sheet}, record.Right},
		{"not another season's, but the published value", map[string]string{"2024/kit.md": kit("16"), "2025/kit.md": "\n" + kit("16"), "2026/notes.md": sheet}, record.Right},
		{"its own over a later notebook's", map[string]string{"1967.md": kit("8") + sheet, "1993.md": "filter R25: x16\nday: 2026-12-01\n"}, record.Right},
		{"its own over an earlier notebook's", map[string]string{"1993.md": kit("8") + sheet, "1967.md": "filter R25: x16\nday: 2025-12-01\n"}, record.Right},
		{"a sibling's is not known", map[string]string{"2025/kit.md": kit("8"), "2026/kit.md": kit("16"), "2026/notes.md": sheet}, record.Off},
	}
	for _, c := range cases {
		var names []string
		for name := range c.files {
			names = append(names, name)
		}
		season, _ := compile.Compile(files(c.files), sorted(names)...)
		var states []string
		for _, sh := range season.Sheets {
			states = append(states, string(sh.State))
		}
		if got := strings.Join(states, ", "); got != string(c.want) {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// What is wrong with a line that two kits know is said once.
func TestWhatTwoKitsKnowIsSaidOnce(t *testing.T) {
	_, list := compile.Compile(files(map[string]string{
		"kit.md":      "filter R25: x8\nfilter R25: x9\nlens 300: 300 mm, N-1\nshutter 300: 1/60 measured 20 ms\nshutter 90: 1/60 measured 20 ms\n",
		"2025/kit.md": "film slate: ISO 100\n", "2026/kit.md": "film slate: ISO 400\n",
	}), "kit.md", "2025/kit.md", "2026/kit.md")
	said := map[string]int{}
	for _, d := range list {
		said[d.Code]++
	}
	for _, code := range []string{"declared-twice", "unknown-term", "not-declared"} {
		if said[code] != 1 {
			t.Errorf("%s is said %d times", code, said[code])
		}
	}
}

func sorted(names []string) []string {
	slices.Sort(names)
	return names
}

// Holders of notebooks with different kits are kept apart, each said whose it is; those of
// one photographer's seasons are one, by the camera or by the years of the folders.
func TestHoldersAreKeptApartByKit(t *testing.T) {
	const logs = "day: 1993-05-01\nload 1A: slate\nmeter: 1/60 f16\n1A: 1/60 f16\n"
	const loads = "day: 1994-05-01\nload 1A: ash\n"
	film := "film slate: ISO 100\n"
	for name, c := range map[string]struct {
		files map[string]string
		want  string
	}{
		"two cameras": {map[string]string{"hw/kit.md": "camera field: 4x5\n" + film, "hw/n.md": logs, "md/kit.md": "camera view: 8x10\nfilm ash: ISO 400\n", "md/n.md": loads},
			"1A (hw) exposed 1993-05-01 1A|1A (md) loaded"},
		"no cameras": {map[string]string{"hw/kit.md": film, "hw/n.md": logs, "md/kit.md": "film ash: ISO 400\n", "md/n.md": loads},
			"1A (hw) exposed 1993-05-01 1A|1A (md) loaded"},
		"one camera":          {map[string]string{"spring/kit.md": "camera field: 4x5\n" + film, "spring/n.md": logs, "summer/kit.md": "camera field: 4x5\nfilm ash: ISO 400\n", "summer/n.md": loads}, "1A loaded"},
		"years":               {map[string]string{"1993/kit.md": film, "1993/n.md": logs, "1994/kit.md": "film ash: ISO 400\n", "1994/n.md": loads}, "1A loaded"},
		"one kit":             {map[string]string{"kit.md": film + "film ash: ISO 400\n", "hw/n.md": logs, "md/n.md": loads}, "1A loaded"},
		"a filter of its own": {map[string]string{"kit.md": film + "film ash: ISO 400\nfilter R25: x8\n", "a.md": logs, "b.md": "filter R25: x16\n" + loads}, "1A loaded"},
		"both develop": {map[string]string{"hw/kit.md": "camera field: 4x5\n" + film, "hw/n.md": logs + "develop 1A: 1993-06-01, N\n", "md/kit.md": "camera view: 8x10\nfilm ash: ISO 400\n", "md/n.md": loads + "1A: 1/60 f16\n"},
			"1A (hw) developed|1A (md) exposed 1994-05-01 1A"},
	} {
		var names []string
		for n := range c.files {
			names = append(names, n)
		}
		slices.Sort(names)
		season, _ := compile.Compile(files(c.files), names...)
		var got []string
		for _, h := range season.Holders {
			text := h.Name() + " " + string(h.State)
			if h.Sheet != nil {
				text += " " + h.Sheet.ID
			}
			got = append(got, text)
		}
		if all := strings.Join(got, "|"); all != c.want {
			t.Errorf("%s: %s, want %s", name, all, c.want)
		}
	}
}
