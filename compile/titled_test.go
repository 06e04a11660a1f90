package compile_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// The words at the head of a line are what one looks the picture up by, whole and as typed; what
// tells of the exposure, and what stands further on, stays a remark.
func TestWordsAtTheHeadOfALineAreItsTitle(t *testing.T) {
	const kit = "film slate: EI 64\nfilm: slate\nfilter R25: red, x8\nmeter box: EV at EI\nday: 1979-10-07\n"
	for line, want := range map[string][2]string{
		"Gatepost at Rushford, EV 12, 1/8 f22":          {"Gatepost at Rushford", ""},
		"Second Yellow House, EV 12, 1/8 f22":           {"Second Yellow House", ""},
		"Red door, EV 12, 1/8 f22, gusts":               {"Red door", "gusts"},
		"Barn, the lane, EV 12, 1/8 f22":                {"Barn, the lane", ""},
		"Das Wrack, näher, EV 12, 1/8 f22":              {"Das Wrack, näher", ""},
		"Das Wrack, im Regen, R25, EV 12, 1/8 f22":      {"Das Wrack, im Regen", ""},
		"Das Wrack, EV 12, näher, 1/8 f22":              {"Das Wrack", "näher"},
		"Das Wrack, näher, von hinten, 1/8 f22":         {"Das Wrack, näher, von hinten", ""},
		"Das Wrack, näher EV 12, 1/8 f22":               {"Das Wrack", ""},
		"Barn, sun went in, EV 12, 1/8 f22":             {"Barn", "sun went in"},
		"\"Mill\", long grass, EV 12, 1/8 f22":          {"Mill", "long grass"},
		"EV 12, second yellow house, 1/8 f22":           {"", "second yellow house"},
		"EV 12, red brick 1/8 f22":                      {"", "red brick"},
		"EV 12, 1/8 f22, Gatepost":                      {"", "Gatepost"},
		"overexposed for the shadows, EV 12, 1/4 f22":   {"", "overexposed for the shadows"},
		"sun went in, EV 12, 1/8 f22":                   {"", "sun went in"},
		"not sure about the time, EV 12, 1/8 f22":       {"", "not sure about the time"},
		"at it, EV 12, 1/8 f22":                         {"", "at it"},
		"Kiln 4, EV 12, 1/8 f22":                        {"Kiln 4", ""},
		"Gatepost at Rushford by the old road, 1/8 f22": {"Gatepost at Rushford by the old road", ""},
		"forgot the filter, EV 12, 1/8 f22":             {"", "forgot the filter"},
		"Yellow gate behind, no filter, EV 12, 1/8 f22": {"Yellow gate behind", ""},
		"the second, EV 12, 1/8 f22":                    {"", "the second"},
	} {
		season, _ := compileText(kit + "79-014: " + line + "\n")
		if len(season.Sheets) != 1 {
			t.Errorf("%q is no sheet", line)
		} else if sh := season.Sheets[0]; sh.Title != want[0] || strings.Join(sh.Remarks, "; ") != want[1] {
			t.Errorf("%q has the title %q and the remarks %q", line, sh.Title, sh.Remarks)
		}
	}
	for _, line := range []string{"Red door, 1/8 f22", "1/8 f22, Red door"} {
		season, _ := compileText(kit + "filter red: x8\nmeter: EV 12\n1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked || !slices.Equal(sh.Remarks, []string{"Red door"}) {
			t.Errorf("%q with a filter of that name: %s, %q", line, sh.State, sh.Remarks)
		}
	}
	season, _ := compileText(kit + "scene: the café wall\n1A: closer, EV 12, 1/8 f22\n")
	if sh := season.Sheets[0]; sh.Title != "" {
		t.Errorf("%q stands for the title of the scene", sh.Title)
	}
}

// A colour beside a thing is the thing's and blames nobody; a word for a sheet that the line has
// not leaves open what it says of it; a sheet that is unused has no settings.
func TestWordsThatLeaveASheetOpen(t *testing.T) {
	const kit = "film slate: EI 64\nfilm: slate\nmeter box: EV at EI\nday: 1979-10-07\nmeter: EV 12\n"
	for line, want := range map[string]record.State{
		"1A: Red door, 1/8 f22": record.Right, "1A: Red door, 1s f22": record.Unchecked, "1A: red brick 1s f22": record.Unchecked,
		"1A: 1/8 f22, second 1/4 f22": record.Unchecked, "1A: Mill, unused, 1/8 f22": record.Unchecked, "1A: unused": record.Unexposed,
	} {
		season, list := compileText(kit + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
}

// What counts pictures or says where they are from is no setting, N behind a part of a building is its north
// one, and a plate with its number is a sheet.
func TestCountsPlacesAndPlates(t *testing.T) {
	const kit = "film stone: ISO 100\nlens 210: 210 mm\nday: 2026-11-07\nfilm: stone\nlens: 210\nmeter: EV 12\n"
	for line := range strings.SplitSeq("1A: 2 of 3 in the nave, 1/8 s f22|1A: 1/8 s f22, 2 of 3 in the nave|1A: 2 of 3, 1/8 s f22|1A: 1/8 s f22, first of 2 in the porch|1A: 1/8 s f22, 4 in the boat|"+
		"1A: Porch N, 1/8 s f22|1A: north aisle N 1/8 s f22|Pl. 1: 1/8 s f22|Pl 1: 1/8 s f22|Platte 2: 1/8 s f22|plate 2: 1/8 s f22|Plate 2A: f22 1/8|plates 1-2: 1/8 s f22", "|") {
		season, list := compileText(kit + line + "\n")
		if len(season.Sheets) == 0 || season.Sheets[0].State != record.Right || len(list) > 0 || season.Sheets[0].Development != "" {
			t.Errorf("%s: %d sheets, %v", line, len(season.Sheets), list)
		}
	}
	for line, development := range map[string]string{"1A: Porch N-1, 1/8 s f22": "N−1", "1A: porch, N, 1/8 s f22": "N", "1A: mill N, 1/8 s f22": "N"} {
		season, _ := compileText(kit + line + "\n")
		if got := season.Sheets[0].Development; got != development {
			t.Errorf("%s: %q, want %q", line, got, development)
		}
	}
	for _, line := range []string{"Pl. 1: broken in the post", "plate 3: the gate", "load 2A-2B: stone\nplate 2: 1/8 s f22"} {
		if season, _ := compileText(kit + line + "\n"); len(season.Sheets) > 0 {
			t.Errorf("%s: taken for a sheet", line)
		}
	}
	if season, _ := compileText(kit + "1A: 1/8 s f22, ext 12 in the barn\n1B: 1/8 s f22, ext 12 in\n"); season.Sheets[0].State == record.Off || season.Sheets[1].State != record.Off {
		t.Errorf("ext 12 in the barn: %s; ext 12 in: %s", season.Sheets[0].State, season.Sheets[1].State)
	}
}

// A record is called as its notebook is, where that has one heading for all its days.
func TestRecordIsCalledAsItsNotebook(t *testing.T) {
	const days = "day: 2026-10-03, Mill lane\n1A: EV 12, f16, 1/15\n%sday: 2026-10-05, Harbour\n1B: EV 12, f16, 1/15\n"
	for above, want := range map[string]string{"": "Autumn", "# Winter\n": "Notes"} {
		if season, _ := compileText("# Autumn\n" + fmt.Sprintf(days, above)); season.Title != want {
			t.Errorf("with %q: %q, want %q", above, season.Title, want)
		}
	}
}
