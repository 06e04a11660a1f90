package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// An amendment that corrects what its sheet has not is reported, and nothing of it is put over the sheet.
func TestAmendmentsOfWhatIsNotThere(t *testing.T) {
	const kit = copyingKit + "lens: 150\nmeter: EV 10 at EI 250 on III\n"
	for _, c := range []struct{ line, amended, not string }{
		{"Y8, 1/15 f16", "R25 not O21", "Y8, and not O21"},
		{"R25 + Y8, 1/15 f16", "R25 not pol", "R25 + Y8, and not pol"},
		{"R25, 1/15 f16", "no filter not Y8", "R25, and not Y8"},
		{"R25, 1/15 f16", "not Y8", "R25, and not Y8"},
		{"1/15 f16", "lens 150 not lens 210", "lens 150, and not lens 210"},
		{"1/15 f16", "film moor not film tarn", "film moor, and not film tarn"},
		{"1/15 f16", "on IV not V", "and not V"},
		{"1/15 f16", "EV 9 not EV 8", "and not EV 8"},
		{"1/15 f16", "EV 9 on III not EV 10 on IV", "and not EV 10 on IV"},
		{"1/15 f16", "at EI 200 not EI 100", "and not EI 100"},
		{"1/15 f16", "EI 200 not EI 100", "EI 250, and not EI 100"},
		{"EI 125, 1/15 f16", "EI 200 not EI 100", "EI 125, and not EI 100"},
		{"metered 1/30 f16, gave 1/8 f16", "metered 1/15 f16 not 1/8 f16", "metered 1/30 f16, and not 1/8 f16"},
		{"1:2, 1/15 f16", "1:1 not 1:3", "1:2, and not 1:3"},
		{"bracket +1, 1/15 f16", "bracket +2 not bracket -1", "bracket +1, and not bracket -1"},
		{"spoiled, 1/15 f16", "fogged not unused", "spoiled, and not unused"},
	} {
		season, list := compileText(kit + "1A: " + c.line + "\namend 1A: " + c.amended + "\n")
		d, ok := codes(list)["amends-what-is-not-there"]
		if !ok || !strings.HasSuffix(d.Message, c.not) || season.Sheets[0].State != record.Unchecked {
			t.Errorf("%s, amended %s: %s, %v", c.line, c.amended, season.Sheets[0].State, list)
		}
	}
	for line, amended := range map[string]string{
		"Y8, 1/15 f16": "R25 not Y8", "yellow 8, 1/15 f16": "R25 not Y8", "R25 + Y8, 1/15 f16": "R25 not Y8", "1/15 f16": "R25 not Y8", "1/8 f16": "lens 210 not lens 150", "1/4 f16": "film tarn not film moor",
		"1/2 f16": "on IV not III", "1s f16": "EV 9 not EV 10", "2s f16": "EI 200 not EI 250", "4s f16": "at EI 200 not EI 250", "metered 1/30 f16, gave 1/8 f16": "metered 1/15 f16 not 1/30 f16", "8s f16": "spoiled not unused",
	} {
		_, list := compileText(kit + "1A: " + line + "\namend 1A: " + amended + "\n")
		if d, ok := codes(list)["amends-what-is-not-there"]; ok {
			t.Errorf("%s, amended %s: %s", line, amended, d.Message)
		}
	}
}

// A sheet that was stated unused and is amended with a setting was exposed; what an amendment says it was not is off it.
func TestAmendedStates(t *testing.T) {
	for lines, want := range map[string]string{
		"1A: unused / amend 1A: 1/60 f16":          "right",
		"1A: unused / amend 1A: not unused":        "unchecked",
		"1A: 1/60 f16 / amend 1A: unused":          "unexposed",
		"1A: unused / amend 1A: -- film was stuck": "unexposed",
		"1A: R25, 1/60 f16 / amend 1A: not R25":    "right",
	} {
		if got := becameOf("meter: 1/60 f16 / " + lines); got != want {
			t.Errorf("%s: %s, want %s", lines, got, want)
		}
	}
	season, _ := compileText(copyingKit + "load 1A 1B: moor\nmeter: 1/60 f16\n1A: unused\namend 1A: 1/60 f16\n1B: fogged, 1/60 f16\namend 1B: not fogged\n")
	if season.Sheets[1].Lost != "" {
		t.Errorf("1B is lost: %s", season.Sheets[1].Lost)
	}
	for _, h := range season.Holders {
		if h.State != record.Exposed {
			t.Errorf("%s is %s", h.Label, h.State)
		}
	}
}

// A day before a label may be a day and a month in figures: 31.12. 1A.
func TestAmendmentsOfADayInFigures(t *testing.T) {
	for _, day := range strings.Split("31.12.|31.12|31.12.2026|31 dec|2026-12-31", "|") {
		season, list := compileText("film moor: EI 250\nday: 2026-12-31\nfilm: moor\nmeter: 1/60 f16\n1A: 1/30 f16\nday: 2027-01-02\nfilm: moor\nmeter: 1/60 f16\n1A: 1/60 f16\namend " + day + " 1A: 1/60 not 1/30\n")
		if a, b := season.Sheets[0].State, season.Sheets[1].State; a != record.Right || b != record.Right {
			t.Errorf("%s: %s, %s %v", day, a, b, list)
		}
	}
}

// A sheet that is developed before the day on which it was exposed is reported.
func TestDevelopedBeforeItWasExposed(t *testing.T) {
	for date, want := range map[string]bool{"2026-10-09": true, "2026-10-10": false, "2026-10-11": false, "9 Oct": false} {
		_, list := compileText("day: 2026-10-10\n1A: 1/60 f16\ndevelop 1A: " + date + ", N\n")
		if _, told := codes(list)["dates-out-of-order"]; told != want {
			t.Errorf("%s: %v, %v", date, told, list)
		}
	}
}
