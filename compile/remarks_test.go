package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// What people put on a sheet's line beside its settings, behind a meter that asks for 1/30 at
// f/16. What the words mean is common practice, no source; that a sheet is right or off is the
// stop between 1/30 and 1/15 (ISO 516).
const remarkKit = "film ash: ISO 100, pan\nfilter Y8: yellow, x2\nfilter R25: red, x8\nlens 150: 150 mm, f5.6\nfilm: ash\nlens: 150\nscene: gate\nmeter: 1/30 f16\n"

// states tells how the sheet 1A of each line stands.
func states(t *testing.T, want record.State, lines ...string) {
	t.Helper()
	for _, line := range lines {
		season, list := compileText(remarkKit + "1A: " + line + "\n")
		if len(season.Sheets) != 1 || season.Sheets[0].State != want {
			t.Errorf("%q: %v, want %s (%v)", line, season.Sheets[0].State, want, list)
		}
	}
}

// An arrow behind the settings may lead to the sheet's scan, to where it is filed or to a
// file of notes; before a setting it says that the first was metered.
func TestArrowLeadsAway(t *testing.T) {
	states(t, record.Right, "1/30 f16 → good.tif", "1/30 f16 -> good.tif -- gust", "f16 1/30 => file good.tif", "f16 1/30 → binder 3 p 2", "1/30 f16 -> notes/gate.md",
		"metered wall 13, f16 1/30 → good.tif", "1/15 f16 → 1/30 f16 → good.tif", "1/30 f16 → N-1", "1/30 f16, R25 off → good.tif")
	states(t, record.Off, "1/15 f16 → good.tif", "metered wall 12, f16 1/30 → good.tif", "1/30 f16 → 1/15 f16")
	states(t, record.Unchecked, "1/30 f16 → as the table says", "metered 16, 1/30, gave 1/8 f16")
	season, list := compileText(remarkKit + "1A 1B: 1/30 f16 → good.tif\n2A: 1/30 f16 → else/no.tif\n")
	for i, want := range []string{"good.tif", "good.tif", "else/no.tif"} {
		if scans := season.Sheets[i].Scans; len(scans) != 1 || scans[0].Path != want {
			t.Errorf("sheet %d has the scans %v, want %s", i, scans, want)
		}
	}
	if len(list) != 1 || list[0].Code != "scan-missing" {
		t.Errorf("said %v, want the scan that is missing", list)
	}
}
