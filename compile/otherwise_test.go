package compile_test

import (
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Right sheets in words that may be read in more than one way: each is right in the way that
// its writer meant (common practice, no source), and so none may be called off. The stops
// beside them follow from EV = log₂(N²/t) (ISO 2720) and t^1.3.
func TestNoSheetIsBlamedThatAnotherReadingMakesRight(t *testing.T) {
	night := "film dusk: ISO 400, EI 250, reciprocity t^1.3 over 1s\nlens 150: 150 mm, f5.6-f64\nlens plate: 75 mm, f64\nmeter spot: EV at 100\nday: 2026-12-05\nfilm: dusk\nlens: 150\nscene: a\n"
	wall := "meter: wall EV -2 on III\n" // 25.6 s at f/8, on film 68 s
	long := "meter: wall EV -3 on III\n" // 102 s at f/11, on film 6m46s
	day := "film stone: ISO 100, EI 100\nfilter Y8: yellow, x2\nfilter R25: red, x8\nfilter pol: 1½ stops\nlens 150: 150 mm\nday: 2026-12-06\nload 1A-9B: stone\n"
	typed := "day: 12 Oct 2003\nfilm stone: ISO 200, EI 100\nfilm: stone\nmeter: 1/30 f22\n"
	phone := "film dusk: ISO 400, EI 200\nfilm noon: ISO 100, EI 50\nfilter red: x8\nfilter yellow: x2\nfilter pola: x4\nlens 150: 150 mm, f5.6-f64\nmeter spot: EV at 100\nday: 4 May 2024 quarry\nload 1A-9B: dusk\n"
	for _, c := range []struct{ notes, lines string }{
		// What the meter showed, and what the film got.
		{night + wall, "f8, 26s metered, 68s given|f8, 26s by the meter, 68s on film|f8, metered 26s, exposed 68s|f8, meter says 26s, so 68s|f8, 26s^1.3 = 68s"},
		// In parts, and with the lens covered meanwhile.
		{night + wall, "f8, 30s, car, another 38s|f8, 30s – car – 38s|f8, two times 34s|f8, from 23:10 to 23:11, 8s more"},
		{night + long, "f11, 3m, then at 22:10 another 3m46|f11, 16m46, covered for 10 min|f11, 16m46, paused for 10 min|f11, 16m46 (card 10 min)|f11, from 23:10 to 23:17 -- 3 min for the next|f11, 23:58 + 7 min|f11, started 23:50 ended 23:57|f11, 7m, started 23:50"},
		{night + "meter: wall EV -4 on III\n", "f11, 10 min, then 7 min after the car|f22, an hour and forty"},
		{night + "meter: EV 3 on IV\n", "f22, 14s, minus one by time|f22, 14s twice|f22, EV 3 on IV, 28s, app set to EI 6400 for the view|f22, EV 3 on IV, 28s, guide number for EI 100 was twenty"},
		// At another index than the film's: 8 s at f/5.6 and 6400 are 205 s at 250, on film 16m50s.
		{night, "metered at 6400: 8s f5.6, gave 16m50 f5.6|metered EI 6400: 8s f5.6, gave 16m50 f5.6|metered (EI 6400) 8s f5.6, gave 16m50 f5.6|metered 8s f5.6 ISO 6400 = 3m25 at EI 250, gave 16m50 f5.6"},
		{night + "meter: phone at 6400: 8s f5.6\n", "f5.6, 16m50"},
		{night + "meter: 10 lux\n", "f16, 67s"},
		// A hole has one aperture; no other lens's is on it.
		{night + "meter: EV 3 on IV\n9A: f22, 28s\n", "lens plate, EV 7 on V, 45s"},
		// A time in the darkroom.
		{night + wall, "f8 N 9½ min|f8, 9 min 20C N"},

		// What stands in brackets behind a setting, or on a line that was not read.
		{night + wall, "f8, 26s (68s with the curve)|f8, 26s (gave 68s)|f8, 26s (corrected: 68s)|f8, 98s (68s net)|f8, 98s (-30s cars)"},
		{night + wall, "f16 26s\nand it was at f8 and 68s|f16, 68s\n\nf8, really|f8, 26s\nso 68s on the film"},
		{night + wall + "9A: f8, 68s\n- cloud, the wall now EV -3\n", "f8, 168s"},
		{day + "meter: 1/60 f16\n9A: 1/60 f16\n- cloud came over, reads 1/15 f16 now\n", "1/15 f16"},
		{day + "meter: 1/60 f16\n9A: 1/60 f16\nnow 1/15 f16\n", "1/15 f16"},
		{"filter didy: 1 stop\n" + day + "meter: EV 12\n", "didymium, f16 1/8|1:1; pol (¾ turn, 2 stops); 1s f16"},
		{day + "meter: EV 12\n9A: lens 150, 1:2, 1/4 f16½\n", "lens 150, same size, 1/4 f16"},
		// Numbers in words.
		{day + "meter: EV 12\n9A: f16 1/15\n", "f twenty two 1/8|twenty two at an eighth|f22 one over eight|f22 and one click slower|f22 a quarter, EV 11"},
		{day, "EV 10 on three, f16 1/15|EV 10 on the third zone, f16 1/15|EV 14 on seven, f16 1/15"},
		{day + "meter: shadow 10 on three\n", "f16 1/15|f22 1/8"},
		{night + wall, "f8, metered 26 s, gave sixty eight|f8 26s, counted to sixty eight"},
		// Words and signs for what stands above, in more than one language; an index behind its reading.
		{"filter Gelb: x2\n" + typed + "9A: Gelb 1/15 f22\n", "dto. 1/30 f16|id. 1/30 f16|,, 1/30 f16|ut supra, 1/30 f16|wie oben, 1/30 f16"},
		{"filter Gelb: x2\n" + typed + "filter: Gelb\n", "ohne, f22, 1/30|sans filtre, f22, 1/30"},
		{"film stone: ISO 200, EI 100\nfilm: stone\nmeter: 1/15 f22 (50 ASA)\n", "1/30 f22"},
		{"lens Ortar: 210 mm\nlens Weit: 135 mm\n" + typed + "lens: Ortar\n", "m. Weitwinkel, ext 19 cm, 1/15 f22"},
		{"film Ortho: ISO 100, EI 25\nmeter spot: EV at 100\n" + typed + "meter: EV 14\n", "Orthoplatte, 1/8 f22"},
		{typed, "through the ruby glass, 1s f22|a minus-blue, 1/4 f22"},
		{typed + "filter R25: x8\nfilter Y8: x2\n9A: R25, f22 1/4\n", "same, Y8 as well, 1/2|same, Y8 too, 1/2"},
		{"filter red: x8\nfilter yellow: x2\n" + typed + "9A: yellow f22 1/15\n", "red two stops longer f22 1/4|red two stops slower, f22 1/4|f22 1/4 red 8 times"},
		{"filter Gelb: x2\n" + typed + "9A: Gelb 1/15 f22\n", "gleich, 1/30 f16|dasselbe, 1/30 f16|comme ci-dessus, 1/30 f16"},
		// Things of the kit on a line beside the sheet's.
		{day + "meter: EV 12\n9A: f16 1/15\nY8 on from here\n", "f22 1/4"},
		{day + "meter: EV 12\n9A: f16 1/15\n", "f22 1/4\nforgot to say the Y8 was on"},

		// What was said since the sheet that is copied.
		{day + "scene: gate\nmeter: 1/30 f22\n9A: 1/30 f22\nscene: lane\nmeter: 1/60 f22\n", "same, 1/60|same|1/60, same stop"},
		{day + "scene: gate\nmeter: 1/30 f22\n9A: 1/30 f22\nmeter: 1/60 f22\n9B: same\nscene: lane\n", "same|same, 1/60"},

		// What is the same is the light, or the wall.
		{day + "9A: Y8, EV 10 on V, f16 1/2\n", "EV 10 on V, f16 1/4, same light|EV 10 on V, f16 1/4, same tree|EV 10 on V, f16 1/4, wall as before"},
		{day + "9A: lens 150, ext 212mm, EV 10 on V, f16 1/2\n", "EV 10 on V, f16 1/4, same wall"},
		{day, "EV 10 on V, f16 1/4, same light"},
		// Readings line by line, and a zone in words that are not read.
		{day + "meter: shadow EV 8 on III\nmeter: sky EV 13\n", "f22 1/2"},
		{day, "shadow EV 8 at III, f22 1/2|zone III: shadow EV 8, f22 1/2|shadow (III) EV 8, f22 1/2|shadow EV 8 on Z. III, f22 1/2|shadow EV 8 between II and III, f22 1/2|shadow EV 8 on II-III, f22⅓ 1/2|" +
			"shadow EV 8 or 9 on III, f22 1/2|EV 8 auf III, f22 1/2|ombre EV 8 sur III, f22 1/2|shadow EV 8 @ III, f22 1/2"},
		// Filters as they are spelled, and such as were not on.
		{day, "R-25, EV 10 on V, f8 1/2|Y8 over pol, EV 10 on V, f8 1/3|Y8 on pol, EV 10 on V, f8 1/3|EV 10 on V, Y, f16 1/2"},
		{day, "EV 10 on V, f16 1/4, cleaned the R25|EV 10 on V, f16 1/4, dropped the R25 in the mud|EV 10 on V, f16 1/4, R25 broken|EV 10 on V, f16 1/4, Ines used the R25|EV 10 on V, f16 1/4, before I put the Y8 on|" +
			"EV 10 on V, f16 1/4, barn red|EV 10 on V, f16 1/4, sky red"},
		{typed, "2 x 1/15 f22|Y 2x 1/15 f22|O 4x 1/8 f22|yel 2x 1/15 f22|yell. 2x 1/15 f22|lt. yel. 2x 1/15 f22|gelb 2x 1/15 f22|ND 3x 1/10 f22|Y (2x) 1/15 f22|f22 1/15 Y (2x)|Y 1/15 f22|ND (8x) 1/4 f22|gelatin 8x 1/4 f22|" +
			"filter 8x 1/4 f22|grey 8x 1/4 f22|mit Gelbfilter, f22 1/15|filtre jaune, f22 1/15"},
		// A remark that puts right what stands before it, or doubts it.
		{day, "EV 10 on V, f32 1/2s -- wrong, it was 1s|EV 10 on V, f32 1/2s (wrong, it was 1s)|EV 10 on V, f32 1/2s -- no, wrote that wrong: f/32 at 1 s|EV 10 on V, f32 1/2s; gave 1s after all|EV 10 on V, f32 1/2s (1s in fact)|EV 10 on V, f32 1/2s -- or was it 1s?"},
		{typed, "f22 1/4 (archivist: read 1/30)|1/2 at f22 (M.D. says 1/30)"},
		// What is not known any more is not that of the sheet before.
		{typed + "9A: f22 1/30\n", "f32, illegible time|f32, time forgotten|f32, Zeit vergessen|f32, une petite seconde"},
		// A fraction that is a part of the light value, and the time that of the sheet before.
		{day + "9A: EV 12 on V, f22 1/8\n", "EV 12 1/2, f22½"},
		// The light went by a stop.
		{day + "meter: EV 10 on V\n", "f16 1/2 -- light a stop down by now|f16 1/2 (a stop down since the reading)"},
		{day + "meter: EV 10 on V\nlight: dropped a stop\n", "f16 1/2"},
		{day, "EV 6 on V, f22, metered 8 s, given 16 s"},
		{phone, "EV 10 on III, cloud came, f22 1/8|EV 10 on III, f22 1/8, double time for the shadows"},
		// A thing has a colour; the filter of that name is another.
		{phone, "red brick wall, EV 10 on III, f22 1/15|red roof EV 10 on III, f22 1/15|the orange tree, EV 10 on III, f22 1/15|EV 10 on III, f22 1/15, yellow leaves everywhere|EV 10 on III, f22 1/15, the boat is red"},
		// Filters taken off or changed, and looked through, in other words.
		{phone + "9A: EV 10 on III, red, f22 1/2\n", "same, red gone, 1/15|same, no more red, 1/15|same, filter away, 1/15|same, bare lens, 1/15|same, nothing on, 1/15|same, yellow instead of red, 1/8"},
		{phone, "EV 10 on III, yellow plus pola, f22 1/2|EV 10 on III, yellow/pola, f22 1/2|red, read through filter EV 7 on III, f22 1/2|red, EV 7 on III through filter, f22 1/2|red (in the reading already), EV 7 on III, f22 1/2|red held in front of the meter, EV 7 on III, f22 1/2"},
		// The bellows in again, or out to twice the focal length.
		{phone + "9A: lens 150, ext 300mm, EV 10 on III, f22 1/4\n", "same, ext back to 150, f22 1/15|same, bellows back in, f22 1/15|same, infinity, f22 1/15"},
		{phone, "lens 150, bellows double, EV 10 on III, f22 1/4"},
		// Doubt, and another film.
		{phone, "EV 10 on III (or 11?? can't remember), 1/30 f22|EV 10 on III, f22 1/30 (1/15?)|EV 10 on III, f22 1/30, not sure about the time|EV 10 on III, f22, probably 1/30|EV 10 on III, f22 1/30 maybe|EV 10 on III or IV, f22 1/8|EV 10 on III, f22 1/4, this one was noon"},
		{phone, "zone 3: EV 10, f22 1/15|Z III: EV 10, f22 1/15|EV 10 on Ill, f22 1/15|EV 10 on lll, f22 1/15|planks EV 9 on II no wait EV 8, 1/8 at f22"},
		{phone + "9A: EV 10 on III, f22 1/15\n", "same reading as before, red, f22 1/2|same reading, f32 1/8|meter same, f32 1/8"},
		// Colons for commas; steps, indices and values that words tell; short for no filter, and for a filter; an aperture as lenses have it.
		{day + "meter: EV 12\n9A: R25, f22 1s\n", "same, EI 50: 2s|same, EV 11: 2s|same as 9A; light now EV 11: 2s|same, Y8 in addition, 2s|same as 9A, and the yellow on top of it: 2s|same as 9A, but Y8 in place of R25: 1/4|same, at EI 50, 2s|as 9A but Y8 besides, 2s"},
		{day, "EV 10, two zones below V, f22 1/8|EV 10, minus two, f22 1/8|EV 14 two above V, f22 1/8|EV 10 as the third step, f22 1/8|EV 9 on III/IV, f22½ 1/2|EV 9 between III and IV, f22½ 1/2|EV 9 on III.5, f22½ 1/2|EV 9 on \"3\", f22 1/4|EV 10 wants three, f22 1/8"},
		{day + "meter: EV 12\n9A: f16 1/15\n", "f16 1/8, down to twelve, EV 11 by then|f16 1/8 (EV 11 by then)|same but f22 and twice the time|same but f22 so one slower"},
		{day + "meter: EV 12\n9A: f16 1/15\nread it again and it is up one\n", "f22 1/15"},
		{day + "meter: EV 12\n9A: f16 1/15\nthe spot says 13 on the wall\n", "f22 1/15"},
		{day + "meter: EV 12\n9A: f16 1/15\nbellows: 212 mm\n", "f16 1/8"},
		{"filter Gelb: x2\n" + typed + "filter: Gelb\n", "f22, 1/30, o.F.|do. w/o, f22, 1/30|do. no y., f22, 1/30|– , f22, 1/30"},
		{"filter Gelb: x2\n" + typed, "GF 1/15 f22|1:9 1/180"},
		// What a line chooses beside the thing that it names, and what the light went by.
		{"lens Lang: 300 mm\n" + typed + "lens: the Lang; ext 424 mm\n", "1/15 f22"},
		{"lens Lang: 300 mm\n" + typed + "lens: Lang, out to 424 mm\n", "1/15 f22"},
		{typed + "light: −1 stop\n", "1/15 f22"},
		// Short words: less than its focal length is of another lens.
		{"lens Ortar: 210 mm\nlens Weit: 135 mm\n" + typed + "lens: Ortar\n", "W.A., ext 19 cm, 1/15 f22"},
		{"filter Gelb: x2\n" + typed, "G2x 1/15 f22|j. 1/15 f22|2x 1/15 f22|1/15 f22, reichlich|1/15 f22 double"},
		{"filter red: x8\n" + typed, "red one stop, f22 1/4"},
		{day + "meter: EV 12\n9A: f22 1/8\n", "Y8, f22, viertel"},
		{day + "meter: EV 12\n", "no filter, f22 1/4, reading corrected to EV 11"},
		{"film heath: ISO 200, EI 50\nfilm: heath\nmeter: 1/30 f16 at a hundred\n", "1/15 f16"},
	} {
		for _, said := range strings.Split(c.lines, "|") {
			season, list := compileText(c.notes + "1A: " + said + "\n")
			sh := season.Sheets[len(season.Sheets)-1]
			if sh.State == record.Off || sh.Label != "1A" {
				t.Errorf("1A: %s: %v", said, list)
			}
			if sh.State == record.Unchecked && len(list) == 0 {
				t.Errorf("1A: %s: not checked, and nothing is said of it", said)
			}
		}
	}
}

// The same sheets without the words, or with such as leave nothing open, are off.
func TestNothingElseIsReadIntoALineThatIsClear(t *testing.T) {
	day := "film stone: ISO 100, EI 100\nfilter Y8: yellow, x2\nfilter R25: red, x8\nlens 150: 150 mm\nday: 2026-12-06\nload 1A-9B: stone\n"
	for _, said := range strings.Split("EV 10 on V, f32 1/2s|EV 10 on V, f32 1/2s -- should have been 1s|EV 10 on V, R25, f16 1/4|EV 10 on V, with the R25, f16 1/4|EV 10 on V, R25 on, f16 1/4|EV 8 on III, f22 1/15 -- waited 2 min|"+
		"metered 1/4 f16, Y8, gave 1/8 f16|EV 10 on V, 1/15 f16 -- 1/4 of a mile from the road|EV 10 on V, f32 1/2s -- forgot to open up to 1s|EV 10 on V, f32 1/2s\nshould have been 1s, forgot to open up|EV 10 on V, f32 1/2s\na mile on, 1/4 of an hour|"+
		"EV 10 on V, f32 1/2s, two fields up|EV 10 on V, f32 1/2s, third swan on the left|EV 10 on V, f32 1/2s, double gate|EV 10 on V: f32 1/2s|EV 10 on V, f22 1/15 -- one stop more for the shadows|EV 10 on V, f22 1s -- one stop less|"+
		"EV 10 on V, R25, f16 1/4, no wind|EV 10 on V, R25, f16 1/4 -- w. of the gate|EV 10 on V, f32 1/2s\n1B was at 1/4 s, walked two miles up|EV 10 on V, f32 1/2s -- met 9 walkers at the wall|EV 10 on V, f32 1/2s\nchecked 14 sheets by the wall|EV 10 on V, f32 1/2s\n18:11 the sea now, spot|EV 10 on V, f32 1/2s\nthe spot says 11 now", "|") {
		season, list := compileText(day + "1A: " + said + "\n")
		if sh := season.Sheets[0]; sh.State != record.Off {
			t.Errorf("1A: %s: %s, %v", said, sh.State, list)
		}
	}
}

// A third of a stop between two marks of the shutter, as meters show it.
func TestTimesBetweenTheMarks(t *testing.T) {
	season, list := compileText("film stone: ISO 100, EI 100\nday: 2026-12-06\nload 1A-9B: stone\n1A: EV 9⅓ on V, f16 1/2.5\n1B: EV 8⅔ on V, 1/1.6 f16\n2A: EV 10 on V, f16 1/4, no second sheet\n")
	for _, sh := range season.Sheets {
		if sh.State != record.Right {
			t.Errorf("%s: %s, %v", sh.Label, sh.State, list)
		}
	}
}

// Minutes and seconds by their signs, with a blank between.
func TestMinutesAndSecondsBySign(t *testing.T) {
	for _, said := range strings.Split(`1'15"|1' 15"|1’ 15”|1m15`, "|") {
		season, _ := compileText("1A: f22, " + said + "\n")
		if got := season.Sheets[0].Given.Time; got != "1m 15s" {
			t.Errorf("%s: %s", said, got)
		}
	}
}

// lastStands compiles notes and asks how their last sheet stands, and what is said first; ""
// where nothing is.
func lastStands(t *testing.T, notes, state, code string) *record.Season {
	t.Helper()
	season, list := compileText(notes)
	said := ""
	if len(list) > 0 {
		said = list[0].Code
	}
	if sh := season.Sheets[len(season.Sheets)-1]; string(sh.State) != state || said != code {
		t.Errorf("%s: %s, %v", notes, sh.State, list)
	}
	return season
}

// What puts a sheet right behind its line: an amendment of its reading keeps the zone and the
// other areas; a line that repeats the label and corrects is one; in prose it is reported.
func TestCorrectionsOfASheet(t *testing.T) {
	notes := "film dusk: ISO 400, EI 200\nmeter spot: EV at 100\nday: 2024-05-04\nload 1A-9B: dusk\n"
	for _, c := range []struct{ lines, state, code string }{
		{"1A: planks EV 9 on II, 1/8 at f22\namend 1A: planks EV 8", "right", ""},
		{"1A: planks EV 9 on II, 1/8 at f22\namend 1A: EV 8 not EV 9", "right", ""},
		{"1A: door EV 10 on III, gable EV 14 on VII, 1/15 f22\namend 1A: gable EV 13", "right", ""},
		{"1A: EV 10 on III, f32 1/15\n1A: f22 not f32", "right", ""},
		{"1A: EV 10 on III, f32 1/15\n1A: should say f22", "right", ""},
		{"1A: EV 10 on III, f32 1/15\n1A: f22 sorry", "right", ""},
		{"1A: EV 10 on III, f32 1/15\namend 1A: 1/15 should be 1/8", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\namend 1A: it was dawn, not dusk", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\namend 1A: -- it was dawn", "right", ""},
		{"1A: planks EV 9 on II, 1/8 at f22\nno wait the planks were 8", "unchecked", "correction-not-read"},
		{"1A: planks EV 9 on II, 1/8 at f22\nscratch that, planks EV 8", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f32 1/15\n\n1A should say f22", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f32 1/15\n\nPS: 1A should say f22", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f32 1/15\n\n1A → f22", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\noops that was 1B", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\nsorry, that was 1B not 1A", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\n\nno that one is 1B", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\ncorrection: 1B", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\nand it was at f32 actually", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15, oops that was 1B", "unchecked", "correction-not-read"},
		{"meter: EV 10 on III\nsorry, it was EV 9\n1A: f22 1/15", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\nit was cold at 3 in the end", "right", ""},
		{"1A: EV 10 on III, f22 1/15\n1A was lovely, 12 ducks", "right", ""},
		{"1A: EV 10 on III, f22 1/15\n1A: same place as ever", "right", ""},
		{"1A: EV 10 on III, f22 1/15\n1A: again the moon", "right", ""},
		{"1A: EV 10 on III, f22 1/15\n1A: it was 1/4.", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\n1A: my favourite, at f64 it would be better.", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\n1A: a good 20 minutes of waiting.", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f22 1/15\n1A: f64", "unchecked", "correction-not-read"},
		{"1A: EV 10 on III, f32 1/15\n1A: on zone IV, perhaps", "unchecked", "correction-not-read"},
	} {
		if season := lastStands(t, notes+c.lines+"\n", c.state, c.code); len(season.Sheets) != 1 {
			t.Errorf("%s: %d sheets", c.lines, len(season.Sheets))
		}
	}
}

// A word that a phone may have put in the place of a filter's name is asked about, where the
// filter would make the sheet right, and only there.
func TestFiltersThatAPhonePutRight(t *testing.T) {
	kit := "film ash: ISO 100\nfilter orange: x4\nfilter R25: red, x8\nfilter yellow: x2\nmeter: 1/30 f16\n1A: "
	for line, want := range map[string]string{
		"organ 1/8 f16": "unchecked", "Fred, 1/4 f16": "unchecked", "mellow 1/15 f16": "unchecked", "yells 1/15 f16": "unchecked",
		"Fred 1/8 f16": "off", "mellow 1/8 f16": "off", "heron 1/8 f16": "off", "organ 1/30 f16": "right", "barn 1/4 f16": "off",
	} {
		lastStands(t, kit+line+"\n", want, map[string]string{"off": "exposure-off", "unchecked": "unchecked"}[want])
	}
}

// A whole exposure on a label that is logged is a second one, and so is one that says that it is
// the same or again, with nothing but terms.
func TestSecondExposures(t *testing.T) {
	for _, line := range []string{"1/15 f22", "same", "same, f32", "again", "again 1/8 f22", "again 1/8", "same -- the wind had dropped"} {
		if season, _ := compileText("meter: 1/15 f22\n1A: 1/15 f22\n1A: " + line + "\n"); len(season.Sheets) != 2 {
			t.Errorf("%s: %d exposures", line, len(season.Sheets))
		}
	}
	season, _ := compileText("meter: 1/15 f22\n1A: 1/15 f22\n1A: lovely wind, neg 26-041\n")
	if len(season.Sheets) != 1 || season.Sheets[0].Number != "26-041" {
		t.Errorf("a remark: %+v", season.Sheets)
	}
}

// A date without its year above sheets begins no day, and is said; a part of a whole is none.
func TestDatesWithoutTheirYear(t *testing.T) {
	for said, want := range map[string]bool{"12.4. Birkensee": true, "4 May quarry": true, "# 4 May quarry": true, "Sat 4 May quarry": true, "15/6 coast": true, "📷 12.4.2024 Birkensee": true,
		"12 Mai Birkensee": true, "4 juin carrière": true, "Sat 15/6 – coast": true, "Sun 1/6 garden, teasels": true, "Sat 15/6": true, "Sonntag, den 16.6. Ufer": true, "Sa 15/6 Ufer": true, "15/6, coast": true,
		"Sat 15/60 coast": false, "15/60 coast": false, "Sat 2 sheets": false, "15/6, f16": false, "3 marks": false, "10 III": false,
		"1/2 of the film is left": false, "4 holders, 2 boxes": false, "March wind": false} {
		_, list := compileText("film stone: ISO 100, EI 100\n\n" + said + "\n\n1A: EV 10 on V, f22 1/2\n")
		if got := len(list) > 0 && list[0].Code == "date-without-day"; got != want {
			t.Errorf("%s: %v", said, list)
		}
	}
	if _, list := compileText("film stone: ISO 100, EI 100\nday: 2024-05-04, quarry\n\n## 4 May quarry\n\n1A: EV 10 on V, f22 1/2\n"); len(list) > 0 {
		t.Errorf("the day's own date: %v", list)
	}
}

// What was passed over in silence is said where it stands, or read as it was meant.
func TestNothingOfThisIsPassedOver(t *testing.T) {
	notes := "film stone: ISO 100, EI 100\nfilm moss: ISO 100, EI 50\nlens 150: 150 mm\nmeter spot: EV at 100\nday: 2026-12-06\nload 1A-9B: stone\n"
	for _, c := range []struct{ lines, code, state string }{
		{"- 1A: EV 8 on III, f22 1/2\n- 1B crane jib, shadow EV 8 on III, f22 1/15", "unknown-label", "right"},
		{"- 1A: EV 8 on III, f22 1/2\n- **1B** crane jib, shadow EV 8 on III. f/22, 1/15.", "unknown-label", "right"},
		{"1A: EV 8 on III, f22 1/2\n\n1B 17:40: EV 8 on III, f22 1/2", "unknown-label", "right"},
		{"- holder 1 front: gate, meter 1/60 f16, 1/60 f16\n- 1B: EV 8 on III, f22 1/2", "unknown-label", "right"},
		{"1B: EV 8 on III, f22 1/2\n- second holder: Y8, 1/15 f16", "unknown-label", "right"},
		{"1B: EV 8 on III, f22 1/2\n- 3 back: Y8, 1/15 f16", "unknown-label", "right"},
		{"front: 1/15 f16\n1B: EV 8 on III, f22 1/2", "unknown-label", "right"},
		{"load 8 front: stone\n1B: EV 8 on III, f22 1/2", "unknown-label", "right"},
		{"back door: waited 20 min\nother side: 2h walk\n1B: EV 8 on III, f22 1/2", "", "right"},
		{"meter: 1/2 f22\n1A: 1/2 f22\n- cloud came over, reads 1/15 f16 now\n1B: 1/15 f16", "missing-colon", "unchecked"},
		{"meter: 1/2 f22\n1A: 1/2 f22\nsun went in, meter now 1/15 f16\n1B: 1/2 f22", "missing-colon", "unchecked"},
		{"meter: 1/2 f22\n1A: 1/2 f22\nwall: EV 8 on III\n1B: 1/2 f22", "missing-colon", "unchecked"},
		{"EI: 64\n1A: EV 8 on III, f22 1/2", "unknown-term", "unchecked"},
		{"EI 64 today\n1A: EV 8 on III, f22 1/2", "unknown-term", "unchecked"},
		{"film: stone, EI 50\n1A: EV 8 on III, f22 1s", "", "right"},
		{"film: moss\n1A: EV 8 on III, f22 1s", "unchecked", "unchecked"},
		{"1A: EV 8 on III, f22 1/2, N wind", "", "right"},
		{"1A: not exposed. Slide pulled in daylight", "", "unexposed"},
		{"1A: lens 150, EV 8 on III, f22 1/2, ext 14", "unchecked", "unchecked"},
		{"meter: EV 12 on V\n\nmeter spot: wall EV 8 on V\n\n1A: f16 1s", "", "right"},
		{"meter: EV 12 on V\n\nmeter spot: the far wall by the door EV 8 on V\n\n1A: f16 1s", "", "right"},
		{"meter: EV 8 on III\n1A: f22 1/2\nmeter spot: lamp -1\n1B: f22 1/2", "unknown-term", "unchecked"},
		{"1A: EV 8 on III, f22 1/8 asked, 1/2 given", "", "right"},
		{"1A: EV 8 on III, f22, indicated 1/8, actual 1/2", "", "right"},
		{"1A: EV 8 on III, should be 1/8 so gave 1/2 f22", "", "right"},
		{"1A: EV 8 on III, f22, 1/8 becomes 1/2", "", "right"},
		{"1A: EV 8 on III, f22, 1/2 instead of 1/8", "", "right"},
		{"1A: EV 8 on III, f22, 1/8 total, 1/2 open", "", "right"},
		{"1A: EV 8 on III, f22: 1/2", "", "right"},
		{"1A: metered 1/15 f22, f16: 1/30 f16", "two-settings", "unchecked"},
		{"1A: flash, 2.5 m, f22", "unchecked", "unchecked"},
		{"1A: EV 8 on III, double exposure, each 1/4 at f22", "unchecked", "unchecked"},
		{"1A: EV 8 on III, double exposure, 1/4 f22 each", "unchecked", "unchecked"},
		{"filter Y8: yellow, x2\n1A: Y8, EV 8 on III, f22 1/2\namend 1A: the yellow was not on", "correction-not-read", "unchecked"},
		{"1A: lens 150, EV 8 on III, f22 1s, film plane to lens 212 mm", "", "right"},
		{"1A: f8 4s\n1B: metered 1/15 f22, gave the same", "unchecked", "right"},
		{"1A: metered 1/15 f22, gave it just so", "", "right"},
		{"1A: EV 8 on III, f22 1/2, next time f16", "", "right"},
		{"1A: EV 8 on III, f22 1/2, next time 1 stop more", "", "right"},
		{"1A: metered 1/15 f22, shot as read", "", "right"},
		{"1A: EV 8 on III, f22 1/2\n1B: same lens, 1/4 f16", "", "right"},
		{"1A: EV 8 on III, f22 1/2\n1A and 1B: same place, an hour apart.", "unchecked", "unchecked"},
		{"1A: EV 8 on III, f22 1/2\n1A: same, at f64 it would be better", "correction-not-read", "unchecked"},
		{"filter Y8: x2\n1A: EV 8 on III, Y8, f8 1/8\n1B: dto. 1/2 f16", "", "right"},
		{"filter Y8: x2\n1A: EV 8 on III, Y8, f8 1/8\n1B: dgl., 1/2 f16", "", "right"},
		{"1A: EV 8 on III, f22 1/2\n1A: same place as last year", "", "right"},
		{"filter R25: x8\n1A: EV 8 on III, f22 1/2, R25 stayed in the pocket", "unchecked", "unchecked"},
		{"filter yellow: x2\n1A: EV 8 on III, f22 1/2, forgot to take the yellow off", "unchecked", "unchecked"},
		{"filter yellow: x2\n1A: EV 8 on III, f22 1/2, took the yellow off", "", "right"},
		{"lens 300: 300 mm\nlens: 150\n1A: EV 8 on III, bellows out to 300, f11 1/2", "", "right"},
		{"1A: EV 8 on III, 1/8 asked at f22, gave 1/2", "", "right"},
		{"1A: EV 8 on III, f22 1/2\n1B: f22, 3 times", "unchecked", "unchecked"},
		{"filter grad: 2 stops\n1A: EV 8 on III, grad, f22 2s", "unchecked", "unchecked"},
		{"filter grad: 2 stops\n1A: EV 8 on III, grad, f22 1/2", "", "right"},
		{"filter R25: red, x8\nfilter Y8: yellow, x2\n1A: EV 8 on III, Y8 over the red, f5.6 1/2", "", "right"},
		{"filter R25: red, x8\nfilter Y8: yellow, x2\n1A: EV 8 on III, Y8 over the red, f5.6 1/4", "unchecked", "unchecked"},
		{"filter Gelb: x2\n1A: EV 8 on III, Gelb nicht benutzt, f22 1s", "unchecked", "unchecked"},
		{"filter pol: 1 stop\n1A: pol, read through it at 1/8 f22, gave 1/4 f22", "exposure-off", "off"},
		{"1A: lens 150, EV 2 on III, f22 30s, hat over lens twice", "unchecked", "unchecked"},
		{"1A: lens 150, EV 2 on III, f22 30s, car passed, lens covered", "unchecked", "unchecked"},
		{"meter odd: EV at 100, reads 2/3 stop high\n1A: odd EV 8 on III, f22 1/4", "unknown-term", "unchecked"},
		{"film fern: ISO 100, reciprocity 2s=3s, 4s is 7s\n1A: EV 8 on III, f22 1/2", "reciprocity-unclear", "right"},
		{"lens 90: 90 mm, f5.6-f45, shutter T B 1s to 1/125\n1A: lens 90, EV 8 on III, f22 1/2", "unknown-term", "right"},
		{"Filters: Y8 2x, O21 4x, R25 8x\n1A: EV 8 on III, f22 1/2", "unknown-term", "unchecked"},
		{"1A: EV 8 on III, f22 1/2, N, 1:3, 9 min", "", "right"},
		{"filter: UV\n1A: EV 8 on III, f22 1/2", "", "right"},
		{"film: stone\n91-1: EV 8 on III, f22 1/2\n91-2: North rim at dawn by the road EV 8 on III f22 1/2", "", "right"},
		{"film: stone\n91-1: EV 8 on III, f22 1/2\n91-2: Mill wheel 210 - 9 III - 22 1/2 N 1/1", "unknown-label", "right"},
	} {
		lastStands(t, notes+c.lines+"\n", c.state, c.code)
	}
}

// A figure without its unit is told how it would be written as what it may be where it stands.
func TestAFigureIsToldItsUnit(t *testing.T) {
	for said, want := range map[string]string{
		"z3 10, f22 1/15": "a light value on its zone is written EV 10 on III",
		"22 1/4":          "an aperture and a time are written f22 1/4",
		"0.25 f16":        "a time is written 0.25s",
		"16.20":           "the hour is written at 16:20",
		"2.50":            "the hour is written at 2:50, an aperture is written f2.5, a time 2.5s",
		"1/4 f16, 20/12":  "what is no setting stands behind --",
	} {
		if _, list := compileText("1A: " + said + "\n"); len(list) == 0 || list[0].Code != "bare-number" || list[0].Notes[0].Text != want {
			t.Errorf("1A: %s: %v", said, list)
		}
	}
	for line, said := range map[string]string{
		"dev: 1 and 2": "the sheets stand before the colon", "develop: holders 3 and 4": "the sheets stand before the colon", "develop: N, 9": "a developing time is written 9m", "develop 1A: 9": "a developing time is written 9m",
	} {
		if _, list := compileText("1A: f16\n" + line + "\n"); !strings.HasPrefix(codes(list)["bare-number"].Notes[0].Text, said) {
			t.Errorf("%s: %v", line, list)
		}
	}
}

// One note asks of several sheets only where they lack the very same, however many notes there are.
func TestANoteAsksOfSheetsThatLackTheSame(t *testing.T) {
	season, _ := compileText("film stone: ISO 100, EI 100\nfilm: stone\nmeter: 8s f8\n1A: f8\n1B: f8, flash\n2A: f8, from 23:55\n2B: f8, from 23:56\n3A: f8, torch 4s\n" +
		"scene: gate\n4A: 4s f8\nscene: weir\n4B: 4s f8\n")
	notes := 0
	for _, f := range season.Findings {
		if f.Code != "unchecked" {
			continue
		}
		notes++
		for _, sh := range f.Sheets {
			if !slices.Equal(sh.Needs, f.Sheets[0].Needs) {
				t.Errorf("%s: %q, and %q is asked", sh.Label, sh.Needs, f.Notes)
			}
		}
	}
	if notes != 6 {
		t.Errorf("%d notes", notes)
	}
}

// A sheet in words for one more like the sheet before may have that sheet's filters and its reading: 3 stops
// are 8 times the exposure.
func TestOneMoreMayBeAsTheSheetBefore(t *testing.T) {
	for word := range strings.SplitSeq("again|one more|another one|backup|identical|spare|2nd|retake|didn't change anything|repeat", "|") {
		for _, first := range []string{"red, 1/2 f16", "rock EV 9 on V, 1/2 f16"} {
			season, list := compileText("filter red: 3 stops\nday: 2026-06-01\nmeter: 1/15 f16\n1A: " + first + "\n1B: " + word + ", 1/2 f16\n2A: one more, 1/2 f16\n2B: 1/2 f16\n")
			if sh := season.Sheets; sh[1].State == record.Off || sh[2].State == record.Off || sh[3].State != record.Off {
				t.Errorf("%s after %s: %s, %s, %s; %v", word, first, sh[1].State, sh[2].State, sh[3].State, list)
			}
		}
	}
}

// Both filters are the two of the kit: 1 and 3 stops are 16 times the exposure.
func TestBothFiltersAreAskedAbout(t *testing.T) {
	for sheet, want := range map[string]record.State{"both filters, 1s f16": record.Unchecked, "both filters, 1/4 f16": record.Off, "both gates, 1s f16": record.Off} {
		season, list := compileText("film tern: EI 80, reciprocity none to 100s\nfilter yellow: 1 stop\nfilter red: 3 stops\nday: 2026-06-01\nfilm: tern\nmeter: 1/15 f16\n1A: " + sheet + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, want %s; %v", sheet, sh.State, want, list)
		}
	}
}
