package compile_test

import (
	"strings"
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
		"metered wall 13, f16 1/30 → good.tif", "1/15 f16 → 1/30 f16 → good.tif", "1/30 f16 → N-1", "1/30 f16, R25 off → good.tif", "1/30 f16, scan: good.tif", "1/30 f16 scan good.tif", "1/30 f16 → archive", "1/30 f16 -> see my notes")
	states(t, record.Off, "1/15 f16 → good.tif", "metered wall 12, f16 1/30 → good.tif", "1/30 f16 → 1/15 f16")
	states(t, record.Unchecked, "metered average of 3, f16 1/30", "metered gate 3, f16 1/30", "1/30 f16 → as the table says", "metered 16, 1/30, gave 1/8 f16")
	season, list := compileText(remarkKit + "1A 1B: 1/30 f16 → good.tif\n2A: 1/30 f16 → else/no.tif\n2B: 1/30 f16, scan: good.tif\n")
	for i, want := range []string{"good.tif", "good.tif", "else/no.tif", "good.tif"} {
		if scans := season.Sheets[i].Scans; len(scans) != 1 || scans[0].Path != want {
			t.Errorf("sheet %d has the scans %v, want %s", i, scans, want)
		}
	}
	if len(list) != 1 || list[0].Code != "scan-missing" {
		t.Errorf("said %v, want the scan that is missing", list)
	}
}

// A mark of doubt behind a comma, or alone behind the dash of a remark, is of the value
// before; it accuses nobody and acquits nobody.
func TestDoubtBehindAComma(t *testing.T) {
	for _, marked := range []string{"f16 1/8, (?)", "f16 1/8, ?", "f16, 1/8, [?]", "f16, ? 1/8", "? f16 1/8", "f16 1/8 -- ?", "f16 1/8 – (?)", "f16 1/8 , (?), gusts", "R25, ?, f16 1/8"} {
		states(t, record.Unchecked, marked)
		if season, _ := compileText(remarkKit + "1A: " + marked + "\n"); len(season.Sheets[0].Doubts) == 0 {
			t.Errorf("%q: the doubt is lost", marked)
		} else if season.Sheets[0].Doubts[0][0] == ',' {
			t.Errorf("%q: the doubt is about a comma: %q", marked, season.Sheets[0].Doubts[0])
		}
	}
	states(t, record.Right, "1/30 f16, ?", "1/30 f16 -- ?", "1/30 f16 -- the same gate?")
	states(t, record.Off, "f16 1/8 -- the same gate?", "f16 1/8, gusts")
}

// Several exposures are a whole number of them; a factor behind a time may be the filter's,
// the film's or the bellows', given already or not.
func TestFactorBehindATime(t *testing.T) {
	states(t, record.Unchecked, "f16 160s x4.5", "f16 1/60 x2.5", "1/30 x1.5 f16")
	states(t, record.Right, "f16 1/60 x2", "2 x 1/60 f16", "f16 1/60 x 2")
}

// What stands in square brackets is another's hand; it leaves open only what it contradicts.
// A line's settings may stand behind a dash.
func TestBracketsThatRepeat(t *testing.T) {
	states(t, record.Right, "f16 1/30 -- [f16 as before]", "f16 1/30 [f16 as before]", "f16 1/30 - [f/16, 1/30 as above]", "f16 1/30 – [1/30 again]",
		"-- 1/30 f16", "– f16 1/30 – gust", "- f16, 1/30", "— f16 1/30, gust")
	states(t, record.Off, "-- 1/8 f16", "f16 1/8 [f16 as before]")
	states(t, record.Unchecked, "f16 1/30 [in another hand: 1/25]", "[f16 as before] 1/30", "f16 [1/30?]")
}

// A neg line without a sheet is one where it has numbers of negatives, and prose where it
// says more.
func TestNegThatIsProse(t *testing.T) {
	for line, want := range map[string]int{
		"Neg: 1 more point": 0, "neg: 12 at the archive": 0, "Negs: 3 cracked in the sleeve": 0, "neg: 2 and a half stops thick": 0,
		"neg: 26-041": 1, "neg: 26-041 the gate": 1, "neg: 12 to 14": 1, "Neg: 41, 42": 1, "neg: 41 -- the gate": 1,
	} {
		if _, list := compileText(remarkKit + "1A: 1/30 f16\n\n" + line + "\n"); len(list) != want {
			t.Errorf("%q: %v, want %d", line, list, want)
		}
	}
}

// Filters that are on no lens, and what a lens's filters are kept in, say nothing of a sheet:
// it is right or off as without them.
func TestFilterOfNoLens(t *testing.T) {
	for _, words := range []string{"filter coffee at the car", "filter coffee", "a filter coffee first", "coffee filter in the bag", "two filter coffees in town", "paper filter", "filter papers in the bag",
		"oil filter changed in town", "filter holder slipped at the gate", "filter bag in the car", "dropped the filter case", "the water filter leaked", "lost a filter ring in the grass"} {
		states(t, record.Right, "1/30 f16, "+words, words+", 1/30 f16")
		states(t, record.Off, "1/8 f16, "+words, "1/120 f16, "+words)
	}
	states(t, record.Unchecked, "1/30 f16, filter mauve", "1/30 f16, with the mauve filter", "1/8 f16, some mauve filter from the bag", "1/8 f16, the filter that was in the coffee bag")
}

// Haze is a state of the light on a sheet's own line (14 at ISO 100 for hazy sun: ANSI
// PH2.7-1986), rain is none.
func TestLightOnTheSheetsLine(t *testing.T) {
	states(t, record.Right, "sunny 16, light haze, 1/60 f16")
	states(t, record.Off, "sunny 16, light haze, 1/60 f8", "sunny 16, light rain, 1/60 f8")
}

// Only light that changed explains that a sheet got otherwise than metered: not what is light
// of weight, things that have the word in their name, praise of it, or what one did in it.
func TestRemarksAboutLight(t *testing.T) {
	const tungstenKit = "film ash: ISO 100, pan, tungsten EI 64\nfilm: ash\nfilter R25: x8, tungsten x5\nscene: gate\nmeter: 1/30 f16\n"
	for _, words := range []string{"light rain", "light meter in the bag", "lovely light", "light rain fell", "light rain coming down", "sun hat fell off", "light wind going round", "lost the light meter",
		"light breeze dropped", "the light meter went down the bank", "lovely light going home", "good light up here", "sun down the lane", "light on the way up", "traffic light fell over", "light lunch, then back",
		"a light snow fell", "light mist rising", "light bag came open", "head light broke", "light tripod went over", "the light was lovely and the dog came back", "sunday, the dog came back", "light coming from the left", "the light came and went", "sun came through the trees", "sun low over the barn", "sun behind the barn", "shade of the oak", "a dull day", "no shadow on the wall", "bright gate", "shade falls over the wall"} {
		states(t, record.Off, "1/15 f16, "+words, "1/60 f16, "+words, "1/15 f16 -- "+words, "1/60 f16 -- "+words, "1/15 f16 ("+words+")")
		states(t, record.Right, "1/30 f16, "+words, words+", 1/30 f16")
		if season, _ := compileText(tungstenKit + "1A: R25, 1/4 f16, " + words + "\n"); season.Sheets[0].State != record.Right {
			t.Errorf("%q became the light: %s %v", words, season.Sheets[0].State, season.Sheets[0].Needs)
		}
	}
	for _, words := range []string{"light fell", "sun went in", "the light was going", "light going fast", "light's gone", "light had dropped", "clouded over", "clouded right over", "gone gloomy", "light was slowly fading", "lost the light", "half the light gone, lost the sun",
		"cloud came over before I shot", "darker than when I metered", "dull now", "gloomier", "shade had come over it", "sun behind the hill by now", "bedeckt", "trüb geworden", "Wolke", "nuage", "Sonne weg", "less light", "sun gone", "light dimmed", "the sun had gone in", "light down", "light going", "sun sinking", "light rain and the light fell", "getting dark"} {
		states(t, record.Unchecked, "1/15 f16, "+words, "1/15 f16 -- "+words)
		states(t, record.Off, "1/60 f16, "+words)
		states(t, record.Right, "1/30 f16, "+words)
	}
	for _, words := range []string{"sun came out", "light came back", "light rose", "the sun broke through", "sun up", "sun's out now", "sun out", "heller", "more light", "brighter now", "the light brightened", "sun came through"} {
		states(t, record.Unchecked, "1/60 f16, "+words, "1/60 f16 -- "+words)
		states(t, record.Off, "1/15 f16, "+words)
	}
}

// A number as the trade numbers filters, which the kit does not declare and no sheet is
// labelled with, is said, and the sheet is neither right nor off.
func TestUndeclaredFilterNumbers(t *testing.T) {
	for _, name := range []string{"81A", "80A", "81EF", "82C", "85B", "25A", "47B", "86c", "23A"} {
		for _, line := range []string{name + ", 1/30 f16", name + " 1/30 f16", "1/30 f16, " + name, "1/30 f16 " + name, "1/8 f16, " + name} {
			states(t, record.Unchecked, line)
			if _, list := compileText(remarkKit + "1A: " + line + "\n"); codes(list)["not-declared"].Code == "" {
				t.Errorf("%q: said %v", line, list)
			}
		}
	}
	states(t, record.Unchecked, "85, 1/30 f16", "29, 1/30 f16", "filter 85B, 1/30 f16", "1/30 f16, 85B filter", "+ 81A, 1/30 f16", "with the 81A filter, 1/30 f16")
	states(t, record.Right, "1/30 f16, gate 81A", "1/30 f16, house 25A on the left", "1/30 f16, 99A", "1/30 f16, 7A", "1A, 1/30 f16", "K2, 1/15 f16", "filter 25A, 1/4 f16")
	season, _ := compileText(remarkKit + "25A: 1/30 f16\n81A: 1/30 f16, 25A\n1B: same as 81A\n2A: 1/30 f16, 82A\n82A: 1/30 f16\n")
	for _, sh := range season.Sheets {
		if sh.State != record.Right {
			t.Errorf("sheets that are labelled so: %s is %s", sh.Label, sh.State)
		}
	}
}

// A number in words of the writer's own is none of the sheet's values where the words make it
// plain; any other is reported and never guessed.
func TestNumbersInRemarks(t *testing.T) {
	for _, words := range []string{"minus 3 degrees", "-3 degrees", "3 degrees below", "-3°C", "open gate 3", "gate 3", "12 steps from the gate", "40 paces along the wall", "bus 12 at the stop", "wind 4",
		"platform 2 at noon", "by milestone 7", "page 14 of the book", "4 sheep in the field", "path to platform 3"} {
		states(t, record.Right, "1/30 f16, "+words, words+", 1/30 f16", "1/30 f16, "+words+", N")
		states(t, record.Off, "1/8 f16, "+words)
		if _, list := compileText(remarkKit + "1A: 1/30 f16, " + words + "\n"); len(list) != 0 {
			t.Errorf("%q: said %v", words, list)
		}
	}
	for _, line := range []string{"1/30 f16, 11", "1/30 f16 7", "1/30, 16", "f16, 30", "1/30, gate 3", "1/30 f16, at 16", "1/30 f16, wall 12", "1/30 f16, stopped to 22", "R25 8, 1/30 f16", "1/30 f16, 2 steps", "1/30 f16, 3 step more",
		"1/30 f16, shadow 9", "1/30 f16, number 11", "1/30 f16, gate 3 aperture 11"} {
		if _, list := compileText(remarkKit + "1A: " + line + "\n"); codes(list)["bare-number"].Code == "" {
			t.Errorf("%q: the number is not reported: %v", line, list)
		}
	}
	season, _ := compileText(remarkKit + "1A: 1/30 f16, tilt 3 degrees, front swing 2°, -3 degrees\n")
	if sh := season.Sheets[0]; len(sh.Movements) != 2 || len(sh.Remarks) != 1 || sh.Remarks[0] != "-3 degrees" {
		t.Errorf("movements %q, remarks %q", sh.Movements, sh.Remarks)
	}
}

// A negative that the notes call lost is found among those that are; what is lost in the
// picture is another thing.
func TestLostNegatives(t *testing.T) {
	for said, want := range map[string]string{
		"result 1A: lost": "negative lost", "result 1A: lost in the post": "negative lost", "result 1A: the negative was lost": "negative lost", "result 1A: good, since mislaid": "negative lost",
		"result 1A: lost to a light leak": "light leak", "result 1A: destroyed by damp": "negative lost", "result 1A: lost the shadows": "", "result 1A: barn lost in mist": "", "result 1A: not lost": "",
		"result 1A: lost all detail in the sky": "", "result 1A: keeper, lost the sky": "",
	} {
		season, _ := compileText(remarkKit + "1A: 1/30 f16\n" + said + "\n")
		if got := season.Sheets[0].Lost; got != want {
			t.Errorf("%q: lost to %q, want %q", said, got, want)
		}
	}
	if season, _ := compileText(remarkKit + "1A: 1/30 f16, lost\n2A: 1/30 f16, lost my hat\n"); season.Sheets[0].Lost == "" || season.Sheets[1].Lost != "" {
		t.Errorf("on the sheets' own lines: %q, %q", season.Sheets[0].Lost, season.Sheets[1].Lost)
	}
}

// One sleeve is one however it is spelled, and a negative that is filed anew is said to be.
func TestSleeves(t *testing.T) {
	const logged = remarkKit + "1A: 1/30 f16\n1B: 1/30 f16\n2A: 1/30 f16, binder 1 p 2\n"
	for filed, want := range map[string]int{
		"sleeve 1A: A1\nsleeve 1B: a 1\nsleeve 1A: a1": 0, "sleeve 1A: A1\nsleeve 1A: A2": 1, "sleeve 1A 1B: A1\nsleeve 1A 1B: A2": 1, "sleeve 1A: binder 2, page 3\nsleeve 1A: Binder 2 Page 3.": 0,
		"sleeve 1A: binder 1 2\nsleeve 1A: binder 12": 1, "sleeve 2A: binder 1 p 2": 0, "sleeve 2A: binder 1 p 3": 1,
	} {
		season, list := compileText(logged + filed + "\n")
		if len(list) != want || want == 1 && (list[0].Code != "filed-twice" || len(season.Sheets[0].History)+len(season.Sheets[2].History) == 0) {
			t.Errorf("%q: said %v, want %d", filed, list, want)
		}
	}
	season, _ := compileText(logged + "sleeve 1A: A1\nsleeve 1B: a 1\nsleeve 2A: a  1\n")
	for _, index := range season.Indexes {
		if index.Kind == "sleeve" && (len(index.Rows) != 1 || index.Rows[0].Key != "A1" || len(index.Rows[0].Sheets) != 3) {
			t.Errorf("one sleeve is indexed as %+v", index.Rows)
		}
	}
}

// A dash in a column is nothing there, in any column; behind the dash of a remark there are
// words, or what would have been better.
func TestDashInAColumn(t *testing.T) {
	states(t, record.Right, "1/30 f16 – N", "1/30, f16, -, N", "Y8 – 1/15 f16", "Y8 - 1/15 f16", "Y8 -- 1/15 f16", "R25, –, 1/4, f16, –", "R25 – 1/4 f16 – N-1", "1/30 – f16", "1/30 - f16", "Y8, --, 1/15 f16, N",
		"-\t1/30\tf16\t-\tN", "Y8\t–\t1/15\tf16\t–\tgust", "1/30 f16 -- 1/60 would have been better", "1/30 f16 – 1/8 f22 next time", "1/30 f16 -- 1/60 f16")
	states(t, record.Off, "Y8 – 1/30 f16", "R25, –, 1/30, f16, –", "1/8 f16 – 1/30 next time")
	for line, want := range map[string]string{"1/30 f16 – N-1": "N−1", "1/30 f16 – N-1 next time": "", "Y8, –, 1/15 f16, –, N-1": "N−1"} {
		season, _ := compileText(remarkKit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; strings.ReplaceAll(sh.Development, "-", "−") != want || want != "" && len(sh.Remarks) != 0 {
			t.Errorf("%q: development %q, remarks %q", line, sh.Development, sh.Remarks)
		}
	}
}

// Innocent words behind a right sheet blame nobody (invented remarks; the sheet is right
// without them).
func TestInnocentRemarks(t *testing.T) {
	for sheet, remarks := range map[string]string{
		"meter: 1/30 f16\n1A: f16 1/30": "the shadow 2 stops darker than the wall|brighter sky 2 stops over|light fell 1 stop after this|light up 2 miles off|light -2 C|" +
			"chapter 3/IV|bus 9/V|EV 13 to I think|changed holder|circular window|cap on afterwards|-- [f16 as before]|path goes off to the left|half an hour's walk|covered bridge",
		"filter: Y8\nmeter: 1/30 f16\n1A: f16 1/15": "took the filter off afterwards|filter off next time|took the filter cap off|dog ran off with the filter case|yellow off white wall|off yellow lichen|no yellow leaves left",
		"meter: 8m f16\n1A: f16 8m":                 "path covered 5m up|gate shut 5 min walk|pause 5 min between sheets|the covered wagon 3m left|closed road 2m wide|- 3m drop|hat on, gloves on",
	} {
		for remark := range strings.SplitSeq(remarks, "|") {
			season, _ := compileText("filter Y8: yellow, x2\nfilm slate: EI 400, reciprocity t^1.0 over 1s\n\nday: 2026-11-07\nfilm: slate\n" + sheet + ", " + remark + "\n")
			if sh := season.Sheets[0]; sh.State == record.Off {
				t.Errorf("%s, %s: %v", sheet, remark, sh.Difference)
			}
		}
	}
}
