package compile_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// threeDays are outings with sheets of the same labels. By the Gregorian calendar
// 3 October 2026 is a Saturday, 18 October a Sunday and 7 November a Saturday.
const threeDays = `day: Sat 3 Oct 2026, Moor
2A: 1/15 f16
6B: 1/60 f16
6B: 1/30 f16, again

day: 18/10/26, Nant quarry
2A: 1/8 f16
6B: 1/60 f16

day: 2026-11-07, Mill
2A: 1/60 f16
6B: 1/60 f16

`

func given(s *record.Season) map[string]string {
	all := map[string]string{}
	for _, sh := range s.Sheets {
		all[sh.Outing.ISO+" "+sh.Label] = sh.Given.Time + " " + sh.Given.Aperture
	}
	return all
}

// A day before labels means the sheets of that day, however it is written, and where it
// has none no other sheet is touched.
func TestADayBeforeLabelsMeansItsSheets(t *testing.T) {
	plain, _ := compileText(threeDays)
	was := given(plain)
	for said, want := range map[string]string{
		"2026-10-18 6B": "2026-10-18 6B", "2026-10-18 6b": "2026-10-18 6B", "18/10/26 6b": "2026-10-18 6B", "Sun 18 Oct 6B": "2026-10-18 6B",
		"18th October 2026, 6B": "2026-10-18 6B", "Oct 18 6B": "2026-10-18 6B", "18 Oct 26 6B": "2026-10-18 6B", "18.10.2026 6B": "2026-10-18 6B",
		"2026-10-03 6B": "2026-10-03 6B", "2026-10-03 6B'2": "2026-10-03 6B'2", "Sat 3 Oct 2026 6b'2": "2026-10-03 6B'2", "3 Oct 2A": "2026-10-03 2A",
		"3/10/26 2A": "2026-10-03 2A", "2026-10-18 2A-5B": "2026-10-18 2A", "6B": "2026-11-07 6B", "6B'2": "2026-10-03 6B'2", "Sat 3/10/26 2A": "2026-10-03 2A",
		"2026-10-19 6B": "", "2026-10-18 6B'2": "", "19 Oct 6B": "", "Mon 18 Oct 6B": "", "2025-10-18 6B": "", "31/12/26 6B": "", "2026-02-30 6B": "",
	} {
		s, list := compileText(threeDays + "amend " + said + ": f22\n")
		for id, now := range given(s) {
			changed := now != was[id]
			if mixed := said == "2026-10-18 2A-5B"; changed != (id == want) && !mixed || mixed && changed != strings.HasPrefix(id, "2026-10-18 2A") {
				t.Errorf("amend %s: %s is %s, was %s", said, id, now, was[id])
			}
		}
		if _, missing := codes(list)["no-such-sheet"]; missing != (want == "") {
			t.Errorf("amend %s: %v", said, list)
		}
	}
}

// Every word for sheets that were logged takes days, each up to the next.
func TestEveryWordForLoggedSheetsTakesDays(t *testing.T) {
	for word, says := range map[string]string{
		"amend": "f22", "develop": "2026-11-09, N", "developed": "24/11/26, N, 9 mins", "scan": "good.tif", "neg": "26-041", "sleeve": "binder 2", "print": "8x10, card",
		"result": "a leak", "density": "card 0.72", "patch": "card 0.5,0.5", "test": "speed",
	} {
		s, list := compileText(threeDays + word + " Sat 3 Oct 2A: " + says + "\n" + word + " 2026-10-04 2A: " + says + "\n")
		var spoken []string
		for _, sh := range s.Sheets {
			if len(sh.Lines) > 1 {
				spoken = append(spoken, sh.Outing.ISO+" "+sh.Label)
			}
		}
		if !slices.Equal(spoken, []string{"2026-10-03 2A"}) {
			t.Errorf("%s is about %v", word, spoken)
		}
		all := codes(list)
		_, none := all["no-such-sheet"]
		_, entry := all["negative-without-entry"]
		if !none && !entry {
			t.Errorf("%s of a day without sheets is not reported: %v", word, list)
		}
	}
	s, _ := compileText(threeDays + "neg 2026-10-03 2A 2026-10-05 9A 2026-10-18 2A 6B: 26-041 to 26-044\n")
	var numbers []string
	for _, sh := range s.Sheets {
		numbers = append(numbers, sh.Number)
	}
	if want := []string{"26-041", "", "", "26-043", "26-044", "", ""}; !slices.Equal(numbers, want) {
		t.Errorf("numbers are %q, want %q", numbers, want)
	}
}

// Both exposures on a sheet of film are developed with it.
func TestADevelopedFilmIsDevelopedWithAllItsExposures(t *testing.T) {
	s, _ := compileText("film slate: EI 100\n\n" + threeDays + "developed 2026-10-03 6B: N\n")
	for _, sh := range s.Sheets {
		if want := sh.Outing.ISO == "2026-10-03" && strings.HasPrefix(sh.Label, "6B"); (len(sh.Developed) > 0) != want {
			t.Errorf("%s %s developed: %v", sh.Outing.ISO, sh.Label, sh.Developed)
		}
	}
}

// A day without its year that two days fit means neither.
func TestADayThatTwoFitMeansNeither(t *testing.T) {
	text := "day: 2025-10-03\n2A: 1/15 f16\n\nday: 2026-10-03\n2A: 1/15 f16\n\namend 3 Oct 2A: f22\n"
	s, list := compileText(text)
	for id, now := range given(s) {
		if now != "1/15 f/16" {
			t.Errorf("%s became %s", id, now)
		}
	}
	d, ok := codes(list)["no-such-sheet"]
	if !ok || len(d.Notes) == 0 || !strings.Contains(d.Notes[0].Text, "2025-10-03 or 2026-10-03") {
		t.Errorf("said: %v", list)
	}
}

// What renames a sheet finds the labels of its own day only.
func TestNamesFollowTheDayBeforeALabel(t *testing.T) {
	text := threeDays + "develop 2026-10-03 2A 2026-10-18 2A: N\n"
	c := compile.Check(compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, "n.md")
	of := map[any][]int{}
	for _, n := range c.Names() {
		if n.Kind == compile.ASheet && n.Span.Text() == "2A" {
			of[n.Of] = append(of[n.Of], n.Span.Start)
		}
	}
	last := strings.LastIndex(text, "2A")
	before := strings.LastIndex(text[:last], "2A")
	want := [][]int{{strings.Index(text, "2A:"), before}, {strings.Index(text, "2A: 1/8"), last}, {strings.Index(text, "2A: 1/60")}}
	var got [][]int
	for _, places := range of {
		got = append(got, places)
	}
	slices.SortFunc(got, func(a, b []int) int { return a[0] - b[0] })
	if !slices.EqualFunc(got, want, slices.Equal[[]int]) {
		t.Errorf("named at %v, want %v", got, want)
	}
}

// An amendment that corrects what is not there changes nothing, and its sheet is not
// checked; one that corrects what is there, or was before another amendment, does.
func TestAnAmendmentMustMeetWhatIsWritten(t *testing.T) {
	for amend, want := range map[string]string{
		"1/30 not 1/60":                        "1/8 f/16 unchecked",
		"f22 not f11":                          "1/8 f/16 unchecked",
		"N-1 not N+1":                          "1/8 f/16 unchecked",
		"1/30 not 1/8":                         "1/30 f/16 off",
		"f22 not f16":                          "1/8 f/22 right",
		"1/30 not 0.125s":                      "1/30 f/16 off",
		"1/30":                                 "1/30 f/16 off",
		"N-1 not N":                            "1/8 f/16 off",
		"1/30 not 1/8\namend 2A: 1/4 not 1/8":  "1/4 f/16 off",
		"1/30 not 1/8\namend 2A: 1/4 not 1/30": "1/4 f/16 off",
	} {
		s, list := compileText("film slate: EI 100\nmeter: 1/15 f16\n2A: 1/8 f16, N\namend 2A: " + amend + "\n")
		sh := s.Sheets[0]
		got := sh.Given.Time + " " + sh.Given.Aperture + " " + string(sh.State)
		if got != want {
			t.Errorf("%q: %s, want %s", amend, got, want)
		}
		if _, told := codes(list)["amends-what-is-not-there"]; told != strings.HasSuffix(want, "unchecked") {
			t.Errorf("%q: %v", amend, list)
		}
	}
}

// Outings that begin with a date and no day: are told of, and no sheet is held to lie on
// the film of another of them.
func TestOutingsThatBeginWithoutTheirWordAreTold(t *testing.T) {
	const sheets = "load 1A: slate\nmeter: 1/60 f16\n1A: 1/60 f16\n"
	const again = "\nmeter: 1/30 f16\n1A: 1/30 f16\n"
	for _, c := range []struct {
		line      string
		told, fix bool
	}{
		{"Sat 3/10/26 Porth Ysgo\n", true, true},
		{"Sun 18th October 2026. Nant quarry\n", true, true},
		{"18 October 2026 was the better day.\n", true, false},
		{"# Sunday 18 October 2026, Nant\n", true, false},
		{"Sunday 18 October 2026, Nant\n---\n", true, false},
		{"**18 October 2026**\n", true, false},
		{"Sun 18 Oct 2026 Nant\nwind in the east, and cold\n", true, false},
		{"wind in the east\nSun 18 Oct 2026 Nant\n", true, false},
		{"# Sunday 18 October 2026\n\nday: 2026-10-18\n", false, false},
		{"Thu 1 Oct 2026, still here\n", false, false},
		{"## 1.10.2026 later\n", false, false},
		{"On 18 October 2026 we were here again.\n", false, false},
		{"On the 18th of October 2026\n", true, true},
		{"18. Oktober 2026\n", true, true},
		{"DAY 18/10/26 Moor\n", true, true},
		{"Day 18/10/26: Moor\n", true, true},
		{"day 18 Oct 2026\n", true, true},
		{"Outing 2, 18/10/26\n", true, false},
		{"Day 14 of the strike\n", false, false},
		{"18. X. 26\n", true, true},
		{"18. 10. 26\n", true, true},
		{"18. Oktober 2026, Mühle\n", true, true},
		{"Am Sonntag, 18.10.26\n", true, true},
		{"Sonntag, den 18. Oktober 2026\n", true, true},
		{"le 18 octobre 2026\n", true, true},
		{"Den 18. Oktober\n", true, false},
		{"18. Oktober\n", true, false},
		{"Dimanche 18 octobre\n", true, false},
		{"1. May be darker\n2. Mar the print\n", false, false},
		{"1. the gate\n2. the mill\n", false, false},
		{"18 sheets in 2026\n", false, false},
		{"Next day:\n", true, false},
		{"next day: the quarry\n", true, false},
		{"The day after\n", true, false},
		{"**Tag darauf**\n", true, false},
		{"Am nächsten Morgen\n", true, false},
		{"Zwei Tage später, am Fluss\n", true, false},
		{"## Le lendemain\n", true, false},
		{"Sunday morning\n", true, false}, // 1 October 2026 is a Thursday
		{"Sonntag:\n", true, false},
		{"The next day I went back.\n", true, false},
		{"Next time with the red\n", false, false},
		{"Thursday evening\n", false, false},
		{"Sunday walkers in the way\n", false, false},
		{"The next day I went home and found the print of the gate far too dark\n", false, false},
	} {
		text := "film slate: EI 100\n\nday: 2026-10-01, Moor\n" + sheets + "\n" + c.line + again
		_, list := compileText(text)
		all := codes(list)
		d, told := all["date-without-day"]
		if told != c.told || (d.Fix != nil) != c.fix {
			t.Errorf("%q: told %v, fix %v: %v", c.line, told, d.Fix != nil, list)
		}
		_, twice := all["exposed-twice"]
		if day := strings.Contains(c.line, "day:"); twice == (c.told || day) {
			t.Errorf("%q: exposed twice is said: %v", c.line, twice)
		}
		if _, off := all["exposure-off"]; off {
			t.Errorf("%q: a right sheet is off", c.line)
		}
		if d.Fix != nil {
			mended := text[:d.Fix.Span.Start] + d.Fix.Text + text[d.Fix.Span.End:]
			s, after := compileText(mended)
			if _, still := codes(after)["date-without-day"]; still || len(s.Outings) != 2 {
				t.Errorf("%q is mended to %d outings: %v", c.line, len(s.Outings), after)
			}
		}
	}
}

// A reading does not go across such a date, however its place is written: what was metered on
// another day blames no sheet. In a sentence the date ends nothing.
func TestNoReadingGoesAcrossADateOfNoDay(t *testing.T) {
	for line, want := range map[string]string{
		"Sun 18 Oct 2026 Nant": "unchecked", "31/10/2026, mill": "unchecked", "2026-10-31 mill": "unchecked", "31.10.2026 mill": "unchecked", "Sat 31/10/2026 mill again": "unchecked",
		"31/10 mill": "unchecked", "Sat 31/10 – mill again": "unchecked", "Sun 1/11 garden, teasels": "unchecked", "Sun 1/11": "unchecked", "# 2026-10-31 mill": "unchecked",
		"one box left\n2026-10-31 mill": "unchecked", "2026-10-31 mill\nwind in the east": "unchecked",
		"2026-10-31 was too cold for the dog": "off", "On 31/10 we went home": "off", "On 31/10/2026 drove home": "off", "31.10.2026 is carved on the stone.": "off", "31.10.2026 we were here again": "off",
		"The gate has stood here with all of its irons since\n31/10/2026 mill and weir were let": "off", "the 31.10.2026 mill photo is the one to beat": "off",
	} {
		s, list := compileText("film slate: EI 100\nday: 2026-10-17\nmeter: 1/60 f16\n1A: 1/60 f16\n\n" + line + "\n\n2A: 1/4 f16\n")
		if got := string(s.Sheets[1].State); got != want {
			t.Errorf("%q: 2A is %s, want %s: %v", line, got, want, list)
		}
		if _, told := codes(list)["date-without-day"]; !told && want == "unchecked" {
			t.Errorf("%q is not told", line)
		}
	}
}

// The advice is the line's own words, with the year of the last day where it has none.
func TestADateOfNoDayIsShownAsItsDayLine(t *testing.T) {
	const missing = "the year is missing; if it was 2026: day: "
	for line, want := range map[string]string{
		"# 2026-10-31, mill again": "day: 2026-10-31, mill again", "31/10 mill": missing + "2026-10-31, mill", "Sat 31/10 – mill again": missing + "2026-10-31, mill again",
		"Sun 1/11 garden, teasels": missing + "Sun 1/11/2026, garden, teasels", "31.10. Mühle": missing + "2026-10-31, Mühle", "Sun 31 oct": missing + "2026-10-31", "**4 Nov, mill**": missing + "2026-11-04, mill",
		"4/11 mill": missing + "4/11/2026, mill",
	} {
		_, list := compileText("film slate: EI 100\nday: 2026-10-17\n\n" + line + "\n\n2A: 1/4 f16\n")
		var said []string
		for _, note := range codes(list)["date-without-day"].Notes {
			said = append(said, note.Text)
		}
		if got := strings.Join(said, "; "); !strings.HasSuffix(got, want) {
			t.Errorf("%q: %s, want %s", line, got, want)
		}
	}
}

// What else ends with a day is open behind such a date, unless the sheet or a line below the date
// says it; what was chosen before the first day holds on.
func TestWhatEndsWithADayIsOpenBehindADateOfNoDay(t *testing.T) {
	const kit = "film slate: ISO 100\nfilm moss: ISO 25\nfilter red: 3 stops\nlens wide: 90 mm\nlens long: 300 mm\n"
	const date = "\n2026-10-31, mill again\n"
	for _, c := range []struct{ above, day, sheet, want, asked string }{
		{"film: slate", "filter: red", "1A: 1/15 f16", "unchecked", "the filter: that above may be of another day, line 11"},
		{"film: slate", "filter: red", "1A: 1/2 f16", "unchecked", "the filter"},
		{"film: slate", "filter: red", "1A: red, 1/2 f16", "right", ""},
		{"film: slate", "filter: red", "1A: no filter, 1/15 f16", "right", ""},
		{"film: slate", "filter: red", "filter: none\n1A: 1/15 f16", "right", ""},
		{"film: slate", "filter: red", "filter: red\n1A: 1/2 f16", "right", ""},
		{"film: slate", "filter: red", "day: 2026-11-01\nmeter: 1/15 f16\n1A: 1/15 f16", "right", ""},
		{"film: slate", "scene: the wheel", "1A: 1/15 f16", "right", ""},
		{"film: slate\nfilter: red", "scene: the wheel", "1A: red, 1/2 f16", "right", ""},
		{"film: slate", "film: moss", "1A: 1/15 f16", "unchecked", "the film"},
		{"film: slate", "film: moss", "film: slate\n1A: 1/15 f16", "right", ""},
		{"lens: wide\nfilm: slate", "lens: long", "1A: 1/15 f16", "unchecked", "the lens"},
		{"lens: wide\nfilm: slate", "lens: long", "1A: wide, 1/15 f16", "right", ""},
		{"film: slate\nload 1A: slate", "film: moss", "1A: 1/15 f16", "right", ""},
		{"lens: wide\nfilm: slate", "light: sun", "1A: 1/15 f16", "right", ""},
	} {
		s, list := compileText(kit + c.above + "\nday: 2026-10-17, Harrow mill\n" + c.day + "\n3A: 1/8 f16\n" + date + "meter: 1/15 f16\n" + c.sheet + "\n")
		sh := s.Sheets[1]
		if string(sh.State) != c.want || !strings.Contains(strings.Join(sh.Needs, "; "), c.asked) {
			t.Errorf("%s, %s, %s: %s, %q: %v", c.above, c.day, c.sheet, sh.State, sh.Needs, list)
		}
	}
	// Of a notebook whose days have no word at all, too.
	s, list := compileText(kit + "film: slate\nlens: wide\n\nSat 17/10/2026 Moor\nfilter: red\nmeter: 1/15 f16\n1A: 1/2 f16\n\nSat 31/10/2026 mill\nmeter: 1/15 f16\n2A: 1/15 f16\n2B: red 1/2 f16\n")
	for i, want := range []string{"right", "unchecked", "right"} {
		if got := string(s.Sheets[i].State); got != want {
			t.Errorf("sheet %d is %s, want %s: %v", i, got, want, list)
		}
	}
}

// A heading that is a year and no more gives it to the days below it that have none, and says so;
// a day that is left without one is reported, once where no day of the season has a date.
func TestYearsOfHeadings(t *testing.T) {
	for text, want := range map[string]string{
		"# 1983\n\nday: 7 May, Moor\n\n# 1983 cont’d\n\nday: Mon 9 May\n": "1983-05-07 1983-05-09, year-from-heading year-from-heading",
		"# 1983\n\n## Moor\n\nday: 7 May\n\n# 1984:\n\nday: 29 Feb\n":     "1983-05-07 1984-02-29, year-from-heading year-from-heading",
		"## 1983 (continued)\n\nday: 7 May\n\nday: 9 May\n":               "1983-05-07 1983-05-09, year-from-heading",
		"# 1983\n\nday: 29 Feb\n":                                         ", year-from-heading impossible-date",
		"# 1983\n\nday: 7 May\n\n# Moor\n\nday: 9 May\n":                  "1983-05-07 , year-from-heading day-without-date",
		"# 1983\n\nday: 7 May 1983\n\nday: 2 Jan 1984\n\nday: 9 Jan\n":    "1983-05-07 1984-01-02 , day-without-date",
		"# Moor in 1983\n\nday: 7 May\n\nday: 9 May\n":                    " , day-without-date",
		"1983\n\nday: 7 May, Moor\n\n## Mill\n\nday: 9 May\n":             "1983-05-07 1983-05-09, year-from-heading",
		"film: slate\n\n**1983**\nday: 7 May\n\n1984:\nday: 2 Jan\n":      "1983-05-07 1984-01-02, year-from-heading year-from-heading",
		"# Moor\n\n1983\n\nday: 7 May\n\n# Mill\n\nday: 9 May\n":          "1983-05-07 , year-from-heading day-without-date",
		"1983\n\nday: 7 May\n1A: unused\n\n1984\n\nday: 2 Jan\n":          "1983-05-07 1984-01-02, year-from-heading year-from-heading",
		"day: 7 May 1991\n\n1783\n\n1A: unused\n\nday: 9 May\n":           "1991-05-07 , day-without-date",
		"We were here first in\n1983\n\nday: 7 May\n":                     ", day-without-date",
		"day: 7 May\n": ", day-without-date",
		"day: le 7 mai 1984, Moor\n\nday: am 9. Mai 1984\n\nday: the 11th of May 1984\n\nday: le lundi 14 mai 1984\n": "1984-05-07 1984-05-09 1984-05-11 1984-05-14, ",
		"# 1984\n\nday: 7.5.\n\nday: 9. 5., Moor\n\nday: le 11 mai\n":                                                 "1984-05-07 1984-05-09 1984-05-11, year-from-heading",
		"day: 7.5.\n":          ", day-without-date",
		"day: May 84\n":        ", date-not-read",
		"day: Mai '84, Moor\n": ", date-not-read",
		"day: Moor 84\n":       ", ",
	} {
		season, list := compileText(text)
		var isos, said []string
		for _, o := range season.Outings {
			isos = append(isos, o.ISO)
		}
		for _, d := range list {
			said = append(said, d.Code)
		}
		if got := strings.Join(isos, " ") + ", " + strings.Join(said, " "); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// 7 November 2026 is a Saturday by the Gregorian calendar.
func TestDayOfTheWeekIsHeldAgainstTheDate(t *testing.T) {
	for day, wrong := range map[string]bool{"Fri 7.11.26": true, "Sat 7.11.26": false, "Sunday, 7 Nov 2026, Moor": true, "7 Nov 2026": false, "Sa. 7. Nov. 2026": false, "Do. 7.11.2026": true, "dimanche 7 nov 2026": true, "sam. 7 nov 2026": false, "Saturday 7th November 2026": false} {
		s, list := compileText("day: " + day + "\n3A: 1/30 f16\n")
		d, told := codes(list)["weekday-disagrees"]
		if told != wrong || told && d.Severity != diag.Warning || s.Outings[0].ISO != "2026-11-07" {
			t.Errorf("%s: %v, %s", day, list, s.Outings[0].ISO)
		}
	}
}

// The stop behind a date is no part of the place.
func TestPlaceBehindADate(t *testing.T) {
	for day, want := range map[string]string{
		"Sun 18th October 2026. Nant quarry w Gareth": "Nant quarry w Gareth", "2026-10-18; Nant": "Nant", "2026-10-18: Nant": "Nant", "2026-10-18, Nant, Pt. 2": "Nant, Pt. 2", "2026-10-18": "",
		"18 October 2026 [St Luke], Nant quarry": "Nant quarry", "Sun 18 October 2026 (St Luke), Nant": "Nant", "2026-10-18 (Nant)": "(Nant)", "2026-10-18, (old) quarry": "(old) quarry",
	} {
		if s, _ := compileText("day: " + day + "\n3A: 1/30 f16\n"); s.Outings[0].Place != want {
			t.Errorf("%s: the place is %q", day, s.Outings[0].Place)
		}
	}
}

// A date that is marked as doubtful, or may be another, has its place among the days; nothing is held against it. 7 November
// 2026 is a Saturday.
func TestADateInDoubtIsToldAndAccusesNobody(t *testing.T) {
	for day, want := range map[string]string{
		"7. Nov. 2026 [?]": "", "7 Nov 2026?, Moor": "Moor", "Fri 7.11.26 (?), Moor": "Moor", "7.11.2026 oder 8.11.2026": "", "7 Nov 2026 or the 8th, Moor": "Moor", "7.11.26-8.11.26": "", "2026-11-07/08, Moor": "Moor",
	} {
		s, list := compileText("day: 2026-11-08, barn\n2A: 1/30 f16\nday: " + day + "\n3A: 1/30 f16\n")
		all := codes(list)
		if d, told := all["date-doubtful"]; !told || d.Severity != diag.Note || len(all) != 2 || s.Outings[1].ISO != "2026-11-07" || s.Outings[1].Place != want {
			t.Errorf("%s: %v, %q", day, list, s.Outings[1].Place)
		}
	}
	for _, day := range []string{"2026-11-07, mill or barn", "2026-11-07 - 3 mills", "2026-11-07 to the mill", "2026-11-07 (is this it?)"} {
		if _, list := compileText("day: " + day + "\n3A: 1/30 f16\n"); len(codes(list)) != 1 {
			t.Errorf("%s: %v", day, list)
		}
	}
}

// Notes of the darkroom in a notebook of their own speak of all days, whatever they are
// called. A label that several days have is not guessed: its day is asked for.
func TestDarkroomNotesWithoutADayComeLast(t *testing.T) {
	book := func(name, darkroom string) (*record.Season, diag.List) {
		files := map[string]string{
			"b.md": "day: 2026-10-04, Mill\nmeter: 1/60 f16\n3A: 1/60 f16\n3B: 1/60 f16\n",
			"c.md": "day: 2026-11-07, Weir\nmeter: 1/60 f16\n3A: 1/60 f16\n",
			name:   darkroom,
		}
		names := []string{"b.md", "c.md", name}
		slices.Sort(names)
		return compile.Compile(compile.World{Read: func(n string) ([]byte, error) { return []byte(files[n]), nil }}, names...)
	}
	for _, name := range []string{"a.md", "d.md"} {
		s, list := book(name, "develop 3B, 2026-10-04 3A: 2026-10-06, N, 8m\nneg 3B: 26-002\nneg 2026-10-04 3A: 26-001\nprint 26-001: grade 3\n")
		if list.Count(diag.Error)+list.Count(diag.Warning) > 0 {
			t.Errorf("%s: %v", name, list)
		}
		for _, sh := range s.Sheets {
			was, of := len(sh.Developed) == 1 && sh.Number != "", sh.Outing.ISO == "2026-10-04"
			if was != of || (len(sh.Prints) == 1) != (sh.Number == "26-001") {
				t.Errorf("%s: %s %s has the number %q, %d developments, %d prints", name, sh.Outing.ISO, sh.Label, sh.Number, len(sh.Developed), len(sh.Prints))
			}
		}
		for _, line := range []string{"develop 3A: N", "develop 3A-3B: N", "neg 3A: 26-001"} {
			s, list := book(name, line+"\n")
			d, ok := codes(list)["no-such-sheet"]
			if !ok {
				d, ok = codes(list)["negative-without-entry"]
			}
			if !ok || d.Message != "3A is a sheet of 2 days" {
				t.Errorf("%s: %s: %v", name, line, list)
			}
			for _, sh := range s.Sheets {
				if sh.Label == "3A" && (len(sh.Developed) > 0 || sh.Number != "") {
					t.Errorf("%s: %s is taken to mean that of %s", name, line, sh.Outing.ISO)
				}
			}
		}
	}
	// What a kit says is wanted, and what declares anything, counts before all days.
	s, _ := book("d.md", "film slate: ISO 400, EI 250\ndevelop: N-1\ndevelop 3B: N\n")
	for _, sh := range s.Sheets {
		if len(sh.Developed) > 0 {
			t.Errorf("%s was developed by the kit", sh.ID)
		}
	}
}

// A label that sheets of two notebooks bear on a day is not guessed, whichever of them is
// read first and however each has typed the day; in the notebook of one it is that one's.
func TestALabelThatTwoNotebooksHaveOnADay(t *testing.T) {
	season := func(files map[string]string) (*record.Season, diag.List) {
		return compile.Compile(compile.World{Read: func(n string) ([]byte, error) { return []byte(files[n]), nil }}, slices.Sorted(maps.Keys(files))...)
	}
	const moor = "scan: {day}-{label}.tif\n1A: 1/8 f16\n1B: 1/8 f16\n"
	for _, days := range [][2]string{{"1985-10-12", "1985-10-12"}, {"Sat 12 Oct 1985", "12.10.85"}, {"12.10.85", "Sat 12 Oct 1985"}} {
		for _, other := range []string{"a.md", "n.md"} {
			for word, says := range map[string]string{
				"amend": "f22", "develop": "N", "scan": "good.tif", "neg": "85-041", "sleeve": "binder 2", "print": "8x10",
				"result": "a leak", "density": "card 0.72", "patch": "card 0.5,0.5", "test": "speed",
			} {
				line := word + " 12 Oct 1985 1A: " + says + "\n"
				files := map[string]string{"moor.md": "day: " + days[0] + ", Moor\n" + moor, "z.md": line}
				alone, list := season(files)
				if len(alone.Sheets[0].Lines) != 2 || list.Count(diag.Warning)+list.Count(diag.Error) > 0 {
					t.Fatalf("%s of the only 1A: %v", line, list)
				}
				files[other] = "day: " + days[1] + ", Weir\n1A: 1/2 f8\n"
				s, list := season(files)
				all := codes(list)
				d, ok := all["no-such-sheet"]
				if !ok {
					d = all["negative-without-entry"]
				}
				if d.Message != "12 Oct 1985 1A is a sheet of 2 notebooks" {
					t.Errorf("%s: %v", line, list)
				}
				for _, sh := range s.Sheets {
					if len(sh.Lines) > 1 {
						t.Errorf("%s is taken to mean %s", line, sh.ID)
					}
					if told := strings.HasSuffix(sh.ID, " ("+sh.Outing.Path+")"); told != (sh.Label == "1A") {
						t.Errorf("%s is the id of %s in %s", sh.ID, sh.Label, sh.Outing.Path)
					}
					if sh.Outing.Path == "moor.md" && word != "scan" && sh.Scans[0].Path != "1985-10-12-"+sh.Label+".tif" {
						t.Errorf("the scan of %s is %s", sh.ID, sh.Scans[0].Path)
					}
				}
				files["moor.md"] += strings.Replace(line, " 12 Oct 1985", "", 1) + line
				s, _ = season(files)
				for _, sh := range s.Sheets {
					if own := sh.Outing.Path == "moor.md" && sh.Label == "1A"; len(sh.Lines) > 1 != own {
						t.Errorf("%s in moor.md: %s has %d lines", line, sh.ID, len(sh.Lines))
					}
				}
			}
		}
	}
	files := map[string]string{"a.md": "day: 1985-10-12\n1A: 1/8 f16\n", "b.md": "day: 12.10.85\n1A: 1/2 f8\n", "c.md": "day: 1985-10-13\n2A: same as 1A\n1B: 1/8 f16\ndevelop 1A-1B: N\n", "z.md": "neg 1A: 85-1\n"}
	s, list := season(files)
	if d := codes(list)["no-such-sheet"]; d.Message != "1A is a sheet of 2 notebooks" || s.Sheets[2].Given.Time != "" {
		t.Errorf("a label without a day: %v", list)
	}
	read := compile.World{Read: func(n string) ([]byte, error) { return []byte(files[n]), nil }}
	for name, want := range map[string]int{"1985-10-12 1A": 2, "12.10.85 1A": 2, "1985-10-12 1A (a.md)": 1, "12.10.85 1A (b.md)": 1, "1A": 2, "1985-10-13 1B": 1} {
		if all := compile.Explain(read, name, "a.md", "b.md", "c.md"); len(all) != want {
			t.Errorf("%s is explained as %d sheets, want %d", name, len(all), want)
		}
	}
}

// A date that stands behind other words is not taken for the day's, and is pointed at.
func TestADateFurtherOnIsPointedAt(t *testing.T) {
	for day, want := range map[string]string{
		"Whit Monday, 20.5.91, mill": "20.5.91, …", "mill, 20 May 1991": "day: 20 May 1991, …", "Whit Monday 20 May 1991, mill": "day: Monday 20 May 1991, …", "Whit Monday, mill": "day: 2026-11-07, place",
	} {
		s, list := compileText("day: " + day + "\n3A: 1/30 f16\n\nday: 1991-06-01\n3B: 1/30 f16\n")
		all := codes(list)
		d, told := all["day-without-date"]
		if !told {
			d, told = all["date-not-read"]
		}
		if !told || !strings.Contains(d.Notes[0].Text, want) || s.Outings[0].ISO != "" {
			t.Errorf("%s: %v", day, list)
		}
	}
	// So it is where no other day has one, with a year and without.
	for day, want := range map[string]string{
		"mill, 20. Mai 1991": "20. Mai 1991 stands behind other words", "mill (20.5.91)": "20.5.91 stands behind", "[20.5.91]": "20.5.91 stands", "mill, 20 May": "\"20 May\" has no year", "20.5.[?]91": "not understood", "20 5 91": "not understood", "20.5.9?": "not understood",
	} {
		if s, list := compileText("day: " + day + "\n3A: 1/30 f16\n"); len(list) == 0 || !strings.Contains(list[0].Message, want) || s.Outings[0].ISO != "" {
			t.Errorf("%s: %v", day, list)
		}
	}
	if _, list := compileText("day: 1/2 day at the mill, by the weir\n3A: 1/30 f16\n"); len(codes(list)) != 1 {
		t.Errorf("a place is told to be a date: %v", list)
	}
	s, _ := compileText("day: 20 May 1991 [Whit Monday], mill\n3A: 1/30 f16\namend 20 May 1991 3A: f22\n")
	if o := s.Outings[0]; o.Date != "20 May 1991 [Whit Monday]" || o.ISO != "1991-05-20" || s.Sheets[0].Given.Aperture != "f/22" {
		t.Errorf("%q, %q, %s", o.Date, o.ISO, s.Sheets[0].Given.Aperture)
	}
}

// A label that a notebook has on several days is said with the day, as an amend line names it;
// one that it has once is not, nor one that another notebook has too, whose name says which.
func TestLabelsOfSeveralDaysAreSaidWithTheirDay(t *testing.T) {
	log := func(days string) string { return strings.ReplaceAll(days, ";", ": slate, EV 12, 1/4 f16\n") }
	texts := map[string]string{
		"kit.md":   "film slate: ISO 100, EI 100\n",
		"log.md":   log("use: kit.md\nday: 2026-10-03\n1a;2a;day: 2026-10-10\n1A;3a;"),
		"other.md": log("use: kit.md\nday: 2026-10-17\n3a;1b;day: the next one\n1b;"),
	}
	_, list := compile.Compile(files(texts), slices.Sorted(maps.Keys(texts))...)
	var said []string
	for i := range list {
		if list[i].Code == "exposure-off" {
			said = append(said, strings.TrimSuffix(list[i].Said(), " got 2 stops over"))
		}
	}
	want := []string{"2026-10-03 1a", "2a", "2026-10-10 1A", "3a", "3a", "2026-10-17 1b", "the next one 1b"}
	if !slices.Equal(said, want) {
		t.Errorf("said of %q, want %q: %v", said, want, list)
	}
}
