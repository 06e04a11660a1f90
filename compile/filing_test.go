package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/lang/diag"
)

// A sheet of film has one number and one sleeve, however often it was exposed; a holder that was
// loaded anew has two sheets.
func TestANegativeIsNumberedOnce(t *testing.T) {
	const head = "film slate: ISO 400\nload 4A 5A: slate\nday: 2026-12-03\n"
	for text, want := range map[string]string{
		"4A: 1/60 f16\n4A: 1/60 f16\nneg 4A: 26-2\nsleeve 4A: b 1\n":                 "26-2 4A 26-2 b 1|2026-12-03 4A'2 4A'2 26-2 b 1",
		"4A: 8s f16\n4A: 9s f16, again, neg 26-2\nsleeve 26-2: b 1\n":                "26-2 4A 26-2 b 1|2026-12-03 4A'2 4A'2 26-2 b 1",
		"4A: 8s f16, again, 9s f16\nneg 4A: 26-2\n":                                  "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"4A: 8s f16, neg 26-2\n4A: 9s f16, again\n":                                  "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"4A: 8s f16, neg 26-2\n4A: 9s f16, again, neg 26-2\n":                        "26-2 4A 26-2 |2026-12-03 4A'2 4A'2 26-2 ",
		"5A: 1/60 f16\nload 5A: slate\n5A: 1/60 f16\nneg 5A: 26-3\nsleeve 5A: b 1\n": "2026-12-03 5A 5A  |26-3 5A'2 26-3 b 1",
	} {
		season, list := compileText(head + text)
		var got []string
		for _, sh := range season.Sheets {
			got = append(got, strings.Join([]string{sh.ID, sh.Label, sh.Number, sh.Sleeve}, " "))
		}
		if all := strings.Join(got, "|"); all != want {
			t.Errorf("%s: %q, want %q, %v", text, all, want, list)
		}
		if n := len(season.Negatives.Numbered); n != 1 || len(season.Negatives.Without) != 0 {
			t.Errorf("%s: %d negatives, %d without a number", text, n, len(season.Negatives.Without))
		}
		if all := compile.Explain(compile.World{Read: func(string) ([]byte, error) { return []byte(head + text), nil }}, season.Negatives.Numbered[0].Number, "a.md"); len(all) != 1 {
			t.Errorf("%s: its number is explained as %d sheets", text, len(all))
		}
	}
}

// A plate that is logged under the year of its day and a count bears that number, with a dash or a slash between, and a
// scan's name has no slash of it. A day of a month and two sides are no number.
func TestAPlateOfTheYearBearsItsNumber(t *testing.T) {
	for rows, number := range map[string]string{
		"day: 7 May 1984\n84-17: f16 1/2\n": "84-17", "day: 7 May 1984\n84/17: f16 1/2\n": "84/17", "# 1984\n\nday: 7 May\n84/17: f16 1/2\n": "84/17",
		"day: 7 May 1985\nsheet 84/17: f16 1/2\n": "", "day: 7 May 1984\nsheet 3/17: f16 1/2\n": "", "day: 7 May 1984\nload 84/17: slate\n84/17: f16 1/2\n": "",
		"day: 7 May 1984\n84/17: f16 1/2\nneg 84/17: 84-200\n": "84-200",
	} {
		season, _ := compileText("film slate: ISO 100\n" + rows)
		if sh := season.Sheets[0]; sh.Number != number {
			t.Errorf("%q: number %q", rows, sh.Number)
		}
	}
	if season, _ := compileText("film slate: ISO 100\nscan: {neg}.tif\nday: 7 May 1984\n84/17: f16 1/2\n"); len(season.Sheets[0].Scans) != 1 || season.Sheets[0].Scans[0].Path != "84-17.tif" {
		t.Errorf("%v", season.Sheets[0].Scans)
	}
	_, list := compileText("day: 7 May 1984\n84-017/019: f16 1/2\n")
	if len(list) != 1 || !strings.Contains(list[0].Notes[0].Text, "84-017 to 84-019") {
		t.Errorf("%v", list)
	}
}

// One plate of a year in two spellings is two numbers in the record, and that is said.
func TestAPlateInTwoSpellings(t *testing.T) {
	for second, told := range map[string]bool{"84/17": true, "84-017": true, "1984-17": true, "84-17": false, "84-18": false, "#84-17": false, "84/18": false} {
		_, list := compileText("day: 1984-05-07\n84-17: EV 12, 1/60 f8\n" + second + ": EV 12, 1/60 f8\n")
		d, got := codes(list)["number-reused"]
		if got != told || told && d.Severity != diag.Warning {
			t.Errorf("%s: %v", second, list)
		}
	}
}

// A pattern of scans in a kit holds for no sheet.
func TestAPatternInAKit(t *testing.T) {
	for text, told := range map[string]bool{"film slate: ISO 100\nscan: scans/{day}-{label}.tif\n": true, "scan: scans/{day}-{label}.tif\n3A: 1/30 f16\n": false, "scan: scans/{day}-{label}.tif\nday: 2026-11-07\n": false, "film slate: ISO 100\n": false} {
		_, list := compileText(text)
		if _, got := codes(list)["pattern-without-sheets"]; got != told {
			t.Errorf("%q: %v", text, list)
		}
	}
}
