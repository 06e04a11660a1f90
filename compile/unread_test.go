package compile_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// A line that was not read leaves open what it would have said: the sheets that
// rest on it are neither blamed nor called right by what held before it, and only
// the line itself is reported.
func TestUnreadLinesLeaveTheirSheetsOpen(t *testing.T) {
	for _, c := range []struct{ lines, sheets string }{
		{"meter 1/8 f16\n1A: slate, 1/8 f16\n1B: same\n2A: slate, 1/60 f16", "1A 1B 2A"},
		{"metered 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"mter: 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"filter R25\n1A: slate, 1/8 f16", "1A"},
		{"film ortho\n1A: 1/60 f16", "1A"},
		{"1A: slate, 1/8 f16,\nR25", "1A"},
		{"1A: slate, 1/60 f16\nmeter 1/8 f16\n1B: slate, 1/8 f16\nmeter: 1/60 f16\n2A: slate, 1/60 f16", "1B"},
		{"meter 1/8 f16\n1A: slate, metered 1/60 f16, 1/60 f16", ""},
		{"300mm: bellows at 320. fern ev 9 on zone V\n1A: slate, 1/8 f16", "1A"},
	} {
		season, list := compileText(checksKit + "meter: 1/60 f16\n" + c.lines + "\n")
		open := []string{}
		for _, sh := range season.Sheets {
			if sh.State == record.Unchecked {
				open = append(open, sh.Label)
			} else if sh.State == record.Off {
				t.Errorf("%q: %s is blamed", c.lines, sh.Label)
			}
		}
		if got := strings.Join(open, " "); got != c.sheets {
			t.Errorf("%q: unchecked are %s, want %s", c.lines, got, c.sheets)
		}
		for _, d := range list {
			if d.Code == "unchecked" {
				t.Errorf("%q: said a second time: %s", c.lines, d.Message)
			}
		}
	}
}

// A light that was not read leaves only those sheets open that it would have changed, up to the next light
// or scene.
func TestUnreadLightLeavesOpenWhatItChanges(t *testing.T) {
	const kit = "film gull: EI 100, tungsten EI 50\nfilm slate: EI 100\nmeter spot: EV at 100\nday: 2026-11-07, mill\nfilm: gull\n"
	for _, c := range []struct{ lines, sheets string }{
		{"scene: gate\nlight tungsten\nmeter: EV 12\n1A: 1/15 f16\n1B: same\nscene: lane\nmeter: EV 12\n2A: 1/15 f16", "1A 1B"},
		{"scene: gate\nmeter: EV 12\n1A: 1/15 f16\nlight tungsten\n1B: 1/8 f16\nlight: daylight\n2A: 1/15 f16", "1B"},
		{"1A: EV 12, 1/15 f16\nlight tungsten\nscene: gate\nmeter: EV 12\n1B: 1/15 f16", "1B"},
		{"scene: gate\nlight tungsten\nmeter: EV 12\nfilm: slate\n1A: 1/15 f16\nlight daylight\nfilm: gull\n1B: 1/15 f16", ""},
	} {
		season, _ := compileText(kit + c.lines + "\n")
		open := []string{}
		for _, sh := range season.Sheets {
			if sh.State == record.Unchecked {
				open = append(open, sh.Label)
			} else if sh.State == record.Off {
				t.Errorf("%q: %s is blamed", c.lines, sh.Label)
			}
		}
		if got := strings.Join(open, " "); got != c.sheets {
			t.Errorf("%q: unchecked are %s, want %s", c.lines, got, c.sheets)
		}
	}
}

// Where a sheet has no reading, the nearest words above it that tell of one are pointed to, as far
// as its scene goes.
func TestReadingToldInProseIsPointedTo(t *testing.T) {
	for _, c := range []struct{ lines, value string }{
		{"Up the lane, EV12 in the foam on VII, EV 8 in the roots.\n\n1A: slate, 1/8 f16", "EV12"},
		{"EV 14 on the hill.\n\nIn the wood, EV 9 all round.\n\n1A: slate, 1/8 f16", "EV 9"},
		{"EV 14 on the hill.\n\nscene: the wood\n\n1A: slate, 1/8 f16", ""},
		{"Up the lane at 9, with 2 holders.\n\n1A: slate, 1/8 f16", ""},
		{"EV 14 on the hill.\n\nmeter: EV 12\n1A: slate", ""},
	} {
		_, list := compileText(checksKit + c.lines + "\n")
		pointed := ""
		for _, d := range list {
			for _, n := range d.Notes {
				if d.Code == "unchecked" && n.Span.File != nil {
					pointed = n.Span.Text()
				}
			}
		}
		if pointed != c.value {
			t.Errorf("%q: points to %q, want %q", c.lines, pointed, c.value)
		}
	}
}

// A line of prose that says of a sheet above what no log line says of it is reported, wherever its
// label stands, and the sheet is neither right nor off. What says the same again is prose, and so is
// what is told of its print.
func TestProseThatSaysMoreOfASheet(t *testing.T) {
	const notes = "film slate: EI 100\nfilm moss: EI 50\nfilter Y8: x2\nlens 300: 300 mm, f9-f64\nload 1A-5B: slate\nday: 2026-11-07, mill\nmeter: 1/60 f16\n1A: 1/60 f16\n26-017: 1/60 f16, slate\n2A: 1/60 f16\n2B: 1/60 f16\n\n"
	for line, open := range map[string]string{
		"corrigendum 2A: f/32":                    "2A",
		"note to 2A: the film was moss":           "2A",
		"note to 2A: it was on moss":              "2A",
		"re 2A: f/32":                             "2A",
		"Zu Platte 2A: es war Bl. 32.":            "2A",
		"Nachtrag 2A: Bl. 32":                     "2A",
		"[2A: aperture probably f/32]":            "2A",
		"Nachtrag 2A: der Hund war da.":           "",
		"re 2a: f/32":                             "2A",
		"errata: 2A was f/32":                     "2A",
		"erratum, 2A: the other lens":             "2A",
		"For 2A read f/32":                        "2A",
		"> about 2A: zone III":                    "2A",
		"(2A: f32)":                               "2A",
		"* ps: 2A had the yellow filter":          "2A",
		"in 2A I forgot the Y8":                   "2A",
		"Correction: 2A was metered EV 9":         "2A",
		"## Note to 2A: f/32":                     "2A",
		"re 26-017: f/32":                         "26-017",
		"1A and 2A were at 1/125, I think":        "1A 2A",
		"re 2A: f/32\namend 2A: f32 not f16":      "",
		"2A at f16 is the better one":             "",
		"2A, 1/60 at f16, has the better sky":     "",
		"2A is a nice one, 12 ducks":              "",
		"waited 20 min after 2A":                  "",
		"2A printed on grade 2 at f8":             "",
		"the yellow house of 2A is for sale":      "",
		"I was none the worse for 2A, in the end": "",
		"Next time 2A at f22":                     "",
		"~~re 2A: f/32~~":                         "",
		"2A was at f32 like 1A":                   "1A 2A",
		"4A: I would take f32":                    "",
		"between 2A and 2B half an hour passed":   "",
	} {
		season, list := compileText(notes + line + "\n")
		var got []string
		for _, sh := range season.Sheets {
			if sh.State == record.Unchecked {
				got = append(got, sh.Label)
			}
		}
		_, said := codes(list)["correction-not-read"]
		if label := strings.Join(got, " "); label != open && line != "4A: I would take f32" || said != (open != "") {
			t.Errorf("%s: open is %q, want %q: %v", line, label, open, list)
		}
	}
}

// An old mark, a filter by its German name and stops beside a development are asked about.
func TestWhatIsReadInOneWayOnlyWhereOneIsMeant(t *testing.T) {
	const notes = "film slate: EI 100\nmeter spot: EV at 100\nload 1A-5B: slate\nmeter: 1/60 f16\n1A: 1/60 f16\n"
	for line, want := range map[string]record.State{
		"2A: 1:6.3 1/100": record.Unchecked, "2A: 1:8 1/60": record.Unchecked, "2A: 1:12.5 1/60": record.Unchecked, "2A: 1/60, 1:6,3": record.Unchecked, "2A: 1/60 f16, GF": record.Unchecked, "2A: 1/60 f16 Gelbfilter": record.Unchecked,
		"2A: 1/60 f16, ohne Filter": record.Right, "2A: 1/60 f16, o.F.": record.Right, "2A: f22 2mal 1/60": record.Right, "2A: EV 10, f16 1/2 EI:50": record.Right,
		"2A: EV 10, f16 1/2 EI: 50": record.Right, "2A: 1:4.5 1/15": record.Unchecked, "2A: 1:8 1/60, f16": record.Right, "2A: same, 1:2 1/60": record.Off, "2A: 1/60 f16, light got in": record.Right,
	} {
		season, list := compileText(notes + line + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
	// Beside an aperture a ratio may be the time, and the one above is none of the sheet's; 1:2 is a scale, and blames nobody
	// who may have meant 1/2 s.
	for line, asks := range map[string]string{
		"2A: f16 1:12.5": "1:12.5", "2A: f16, 1:12,5, N-1": "1:12,5", "2A: same, f11 1:12.5": "1:12.5", "2A: metered 1/60 f16, gave f16 1:12.5": "1:12.5", "2A: f16 at 1:8": "1:8", "2A: f16 1:500": "1:500",
		"2A: f16, close-up 1:12.5": "", "2A: f16 mag 1:12.5": "", "2A: f16, scale 1:12,5": "", "2A: 1/60 f16 1:12.5\n2B: f16 1:12.5": "", "2A: same, 1:12.5": "",
	} {
		season, list := compileText(notes + line + "\n")
		sh := season.Sheets[len(season.Sheets)-1]
		if open := strings.Join(sh.Needs, " "); strings.Contains(open, "time") != (asks != "") || !strings.Contains(open, asks) || asks != "" && sh.Difference.Known {
			t.Errorf("%s: %s, %q, %v", line, sh.State, sh.Needs, list)
		}
	}
	if season, _ := compileText("film slate: EI 100\nload 1A-5B: slate\nmeter: 1/4 f64\n1A: 1/4 f64\n2A: 1/8 f45\n2B: f64 1:4\n"); season.Sheets[2].State != record.Unchecked {
		t.Errorf("f64 1:4 where 1/4 f64 is right: %s", season.Sheets[2].State)
	}
	_, list := compileText(notes + "develop 1A: 2026-11-09, N, -1, 9m\n")
	if _, said := codes(list)["unknown-term"]; !said {
		t.Errorf("stops beside N: %v", list)
	}
}

// What a diary says of its sheets is told, and no correction, where it is of other years, other
// people, prints and plans, or of another sentence; and what it puts right is asked about, in
// whatever words. Invented, as are the diaries that they are from.
func TestDiariesSpeakOfSheets(t *testing.T) {
	const notes = "lens 210: 210 mm\nlens 150: 150 mm\nfilm heron: ISO 100, EI 100, pan\nfilter Y8: yellow, x2\nfilter O21: orange, x4\nfilter R25: red, x8\nfilter pol: 1½ stops\n" +
		"meter spot: EV at EI\nload 1A-6B: heron\nday: 2026-11-14, Lenn\nlens: 210\nmeter: EV 12\n" +
		"1A: no filter, 1/15 f16\n1B: no filter, 1/8 f22\n2A: Y8, 1/8 f16\n2B: O21, 1/4 f16\n3A: R25, 1/2 f16\n\n"
	open := func(line string) (all []string) {
		season, list := compileText(notes + line + "\n")
		for _, sh := range season.Sheets {
			if sh.State != record.Right {
				all = append(all, sh.Label)
			}
		}
		for _, d := range list {
			all = append(all, d.Code)
		}
		return all
	}
	for _, line := range []string{
		"I like 1B. The red filter stayed in the bag.",
		"2A is for the boy. The O21 went back into its felt.",
		"I like 1B for what it leaves out. In 1998 I gave eight seconds at f45.",
		"1A is a keeper. You had EV 16 on the lantern.",
		"2A is better than the one I made here in 2012 at f32.",
		"3A in 2024 was f22 and a second, and too thin.",
		"I prefer 2A. Yesterday it was EV 15 here.",
		"If I were to do 2A again then at f22, for the stalk.",
		"2A should be made again with the 150 at f22, for more foreground.",
		"In 2A I expect two thirds. His own example is \"1/10 at f25 through a K3\".",
		"Between 1A and 1B I waited 5 s for a car.",
		"The slide of 2A stuck for 10 s.",
		"1A leaks no longer. A release with a lock, for times over 2 s.",
		"In 1B the cat's tail is on VII.",
		"In 1A I forgot the dog, in 1B the cat.",
		"Focused 2A wide open, at f5.6.",
		"I printed 1A at f8, 20 s.",
		"Enlarger for 1A: f8, 20 s, grade 2.",
		"2A at f16 is the better one",
		"2A, 1/8 at f16, has the better sky",
		"the yellow house of 2A is for sale",
		"1A at f16 and 1B at f22 were both fine.",
		"1B has the wind in it, and half the sky.",
		"2A with the Y8 is darker than 1A without it.",
		"When I made 1B he told of a lady who put the yellow and the red together, for more.",
		"I thought of the R25 for 1A and did not.",
		"The lens for 2A is the one that my uncle used wide open, says her letter.",
		"R25 for the sky, Y8 for the faces, as the book says; 1A has neither.",
		"EV 13 on the wall by the time I had packed 3A away.",
	} {
		if got := open(line); got != nil {
			t.Errorf("%s: %v", line, got)
		}
	}
	for _, line := range []string{
		"1A was really with the yellow on the lens, I saw it when I packed up.",
		"By the way, 1A got the yellow too, I must have left it on from 2A.",
		"Oh, and 1A: it was 1/2, I miscounted.",
		"And 1B was on the 150, not the 210 as I wrote.",
		"For 1A, I had 1/4 on the shutter, not 1/15.",
		"1A was 1/4 s.",
		"1A had half a second.",
		"1A got the yellow too",
		"1A got the Y8 too",
		"2A was with the pol.",
		"1A was on lens 150.",
		"For 1A the bellows was out to 300 mm.",
		"3A was on ISO 400 film.",
		"1A and 1B are swapped, I held the holder the wrong way.",
		"1A I exposed twice, by mistake.",
		"The reading for 1A was 13, not 12.",
		"With 2A the yellow was in my pocket the whole time.",
		"In 2A I forgot the Y8.",
		"1A was f32.",
		"1A was at 1/30.",
		"1B was at f16 rather than f22.",
		"1A and 2A were at 1/125, I think",
		"I left the yellow on for 1A.",
		"2A had no filter after all.",
		"1A I had the O21 left on, as I noticed at home.",
		"I must say that with 2A the lens\nwas at f8 and not f16.",
	} {
		if got := open(line); !slices.Contains(got, "correction-not-read") || len(got) < 2 {
			t.Errorf("%s: passed, %v", line, got)
		}
	}
}

// A scene, a day or a load that was not read ends what it would have ended: the sheets below are neither
// right nor off by what held before it, and the line itself is reported once.
func TestWhatBeginsUnreadEndsWhatWas(t *testing.T) {
	const kit = "film slate: ISO 100, EI 100\nfilm plate: ISO 25, EI 25, ortho\nfilter R25: x8\nday: 3 Dec 2026\nload 1A-4B: slate\nscene: the sea\nmeter: 1/60 f16\n1A: 1/60 f16\n\n"
	for _, c := range []struct {
		lines, code string
		open        string // sheets
	}{
		{"scene - gate\n1B: 1/8 f16", "missing-colon", "1B"},
		{"scene fallen branch\n1B: 1/8 f16\n2A: 1/60 f16", "missing-colon", "1B 2A"},
		{"subject gate\n1B: 1/8 f16", "missing-colon", "1B"},
		{"scenes: gate\n1B: 1/8 f16", "unknown-word", "1B"},
		{"seen: gate\n1B: 1/8 f16", "unknown-word", "1B"},
		{"Next: the gate\n\n1B: 1/8 f16", "unknown-word", "1B"},
		{"Next: the gate\nmeter: 1/8 f16\n1B: 1/8 f16", "unknown-word", ""},
		{"scene gate\n1B: metered 1/8 f16, gave 1/8 f16", "missing-colon", ""},
		{"# scene: gate\n1B: 1/8 f16", "log-line-in-markup", "1B"},
		{"day 2026-12-14\n1A: 1/8 f16", "missing-colon", "1A'2"},
		{"loaded: 1A-2B plate\n2A: R25, 1/8 f16\n3A: 1/60 f16", "unknown-label", "2A"},
		{"loaded: plate in 1A-4B\n3A: 1/60 f16", "unknown-label", "3A"},
		{"load 1A to 4B plate\n3A: 1/60 f16", "unknown-label", "3A"},
		{"load 1A to 4B with plate\n1A: 1/60 f16", "unknown-label", "1A'2"},
		{"load 3A-4B plate\n1B: 1/60 f16\n3A: 1/60 f16", "missing-colon", "3A"},
		{"all loaded w plate\n3A: 1/60 f16\n3B: slate, 1/60 f16", "unknown-label", "3A"},
		{"loaded: 1A-4B moss\n3A: 1/60 f16", "unknown-label", "3A"},
		{"all loaded w plate\nload 3A: slate\n3A: 1/60 f16", "unknown-label", ""},
	} {
		season, list := compileText(kit + c.lines + "\n")
		var open []string
		for _, sh := range season.Sheets {
			switch sh.State {
			case record.Unchecked:
				open = append(open, sh.Label)
			case record.Off, record.NoImage:
				t.Errorf("%q: %s is blamed", c.lines, sh.Label)
			}
		}
		if got := strings.Join(open, " "); got != c.open {
			t.Errorf("%q: unchecked are %s, want %s", c.lines, got, c.open)
		}
		if len(list) != 1 || list[0].Code != c.code {
			t.Errorf("%q: %v, want %s alone", c.lines, list, c.code)
		}
	}
}

// Behind an hour, a picture or next stands a log word as at the beginning of a line; what it chooses is chosen.
func TestLogWordsBehindAnHour(t *testing.T) {
	const kit = "film slate: ISO 100, EI 100\nfilm plate: ISO 25, EI 25, ortho\nfilter R25: x8\nday: 3 Dec 2026\nload 1A-2B: slate\nscene: the sea\nmeter: 1/60 f16\n1A: 1/60 f16\n"
	for line, want := range map[string]record.State{
		"2.15pm scene: gate": record.Unchecked, "📷 scene: gate": record.Unchecked, "next scene: gate": record.Unchecked, "scene 2: gate": record.Unchecked,
		"[11:20] meter: 1/8 f16": record.Right, "new meter: 1/8 f16": record.Right, "11:50 load 3A: plate": record.NoImage, "holders 3-4: plate": record.NoImage,
	} {
		season, list := compileText(kit + line + "\n3A: slate, 1/8 f16\n")
		if want == record.NoImage {
			season, list = compileText(kit + line + "\n3A: R25, 1/8 f16\n")
		}
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
}

// Behind an hour or a picture a label alone is a sheet's where terms follow; the hour is the sheet's.
func TestSheetsBehindAnHour(t *testing.T) {
	const kit = "film slate: ISO 100, EI 100\nday: 3 Dec 2026\nfilm: slate\nmeter: 1/60 f16\n9A: 1/60 f16\n"
	for line, want := range map[string]string{
		"14:20 1A: 1/60 f16": "1A 14:20", "14:20 - 1A: 1/60 f16": "1A 14:20", "[14:20] 1A: the gate, 1/60 f16": "1A 14:20", "2.15pm 1A: 1/60 f16": "1A 14:15", "**14:20 1A:** 1/60 f16": "1A 14:20", "- 14:20 #12: 1/60 f16": "#12 14:20",
		"📷 1A: 1/60 f16": "1A ", "📷1A: 1/60 f16": "1A ", "14:20 📷 1A: same": "1A 14:20", "14:20 1A: 1/60 f16, at 14:25": "1A 14:25", "14:20 Holder 1 side A: 1/60 f16": "1A 14:20",
		"2:30 1A: 1/60 f16":        "1A ", // of the morning or the afternoon
		"14:20 1A: the fog lifted": "", "14:20 4A: bus to the quarry, 12 min": "", "10:15 2B: platform 4, 1/2 hour late": "", "❌ 1A: 1/60 f16": "", "❓ 1A: 1/60 f16": "", "next 1A: 1/60 f16": "", "14:20 2:30 1A: 1/60 f16": "", "1420 1A: 1/60 f16": "",
	} {
		season, list := compileText(kit + line + "\n")
		got := ""
		for _, sh := range season.Sheets[1:] {
			got += sh.Label + " " + sh.Hour
			if sh.State != record.Right {
				t.Errorf("%s: %s is %s, %v", line, sh.Label, sh.State, list)
			}
		}
		if got != want || want == "" && strings.Contains(line, "f16") && len(list) == 0 {
			t.Errorf("%s: %q, want %q: %v", line, got, want, list)
		}
	}
}

// A botched sheet is not acquitted by what the diary beside it tells of other people, books and plans,
// with figures of their own; what it says of the sheet in a sentence among others still asks.
func TestDiariesAcquitNobodyByOthersFigures(t *testing.T) {
	const notes = "film heron: ISO 100, EI 100, pan\nfilter G11: green, x4\nmeter spot: EV at EI\nload 1A-6B: heron\nday: 2026-11-14, Lenn\nmeter: EV 12\n2B: G11, 1/15 f16\n\n"
	for line, want := range map[string]record.State{
		"The wall is old. My uncle says that his was at 1/4 f16, on a film of 25, and the sky was made of chalk.":                record.Off,
		"Plans for the stair. The railing wants to be out of focus at the top, so f8 and not f16. The ladder stays in the shed.": record.Off,
		"The wall is old and the gate is new, and a heron stood on it. It got 1/4 f16 in the end, and then the rain came.":       record.Unchecked,
	} {
		season, list := compileText(notes + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
}

// Rows that are one finding have all their lines in it, whether few were reported before or not;
// of many sheets a sentence names the first few, and the finding has all.
func TestNoLineOfManyIsLost(t *testing.T) {
	const rows = 24
	var prose, sheets strings.Builder
	for i := range rows {
		fmt.Fprintf(&prose, "Shot %d - f16 - 1/30 - old gate\n", i+1)
		fmt.Fprintf(&sheets, "%dA: f16 1/30\n", i+1)
	}
	season, list := compileText(prose.String())
	if len(list) != 1 || len(season.Findings) != 1 || len(season.Findings[0].Also) != rows-1 {
		t.Fatalf("%d findings: %+v", len(list), season.Findings)
	}
	for i, at := range season.Findings[0].Also {
		if at.Line != i+2 {
			t.Errorf("line %d stands for %d", at.Line, i+2)
		}
	}
	season, _ = compileText(sheets.String())
	found := season.Findings[len(season.Findings)-1]
	if !strings.Contains(found.Message, "12A and 12 more") || strings.Contains(found.Message, "13A") || len(found.Sheets) < 20 {
		t.Errorf("%q of %d sheets", found.Message, len(found.Sheets))
	}
}

// Settings in the manner of a form, or behind a sheet in so many words, are never passed over; what is no
// setting of a shutter is.
func TestFormsAndSheetsInWordsAreReported(t *testing.T) {
	for lines, want := range map[string]int{
		"Side: A\nAperture: 16\nShutter: 1/30": 2, "- Aperture: f/16\n- Exposure time: 2s": 2, "**Shutter:** 1/60": 1, "Blende: 16\nZeit: 1/30": 2,
		"sheet 1, Y8, f/16 at 1/30 of the weir\n\nsheet 2, f/16 at 1/60 of the weir": 2,
		"Time: 14:30": 0, "Time: 10 min up the hill": 0, "Speed: 30 miles an hour": 0, "Exposure: none today": 0, "Aperture: a word of my father's": 0,
		"Sheet 3 of the set was the best of the lot, I would hang it.": 0,
	} {
		_, list := compileText("film tern: ISO 100\n\n" + lines + "\n")
		if got := len(slices.DeleteFunc(list, func(d diag.Diagnostic) bool { return d.Code != "unknown-label" })); got != want {
			t.Errorf("%q: %d lines are reported, want %d: %v", lines, got, want, list)
		}
	}
}

// Two films on one line without the word's colon, each with its sides, are told and leave their sheets open.
func TestSeveralFilmsOnOneLine(t *testing.T) {
	for line, reported := range map[string]bool{
		"load 1A tern 1B moth": true, "load: 1A tern, 1B moth": true, "1A = tern, 1B = moth": true, "1A tern, 1B moth": true,
		"Tern and moth are the two films I have.": false, "The moth in 1A was the best of the terns.": false,
	} {
		season, list := compileText("film tern: ISO 100\nfilm moth: ISO 25\n" + line + "\nmeter: EV 12\n1A: f16 1/15\n")
		got := slices.ContainsFunc(list, func(d diag.Diagnostic) bool { return d.Code == "unknown-label" })
		if got != reported || reported && season.Sheets[0].State != record.Unchecked {
			t.Errorf("%q: reported %v, %s; %v", line, got, season.Sheets[0].State, list)
		}
	}
}

// Where sheets are logged under numbers alone, a line of another such number that has a setting in it is a sheet or
// is reported; a list by numbers of other things stays prose.
func TestNumbersAloneGoOn(t *testing.T) {
	const notes = "meter: 1/15 f16\n1: 1/15 f16\n"
	for _, line := range strings.Split(`2: the old bridge at dawn f16 1/2|3: f16 l/2|4: 1/2 f-16|5: bridge (1/2 f16)|6: bulb f16|2: f16 1/3O|2: ff16 1/8|2: 1/8sec. f-16|4: sixteen, 1/8|10: f-16|11: f16 at the bridge by the water with a tall tree|2-3: the bridge f16 1/2`, "|") {
		season, list := compileText(notes + line + "\n")
		if len(list) == 0 || season.Sheets[0].State != record.Right {
			t.Errorf("%s: nothing is said, of %d sheets", line, len(season.Sheets))
		}
	}
	for _, line := range strings.Split(`2: buy film|2: 3 eggs|3: 1/2 cup of milk|4: 2 lb flour at 1/2 price|5: read page 16|6: call at 8|7: 5 minutes of rest|2: 10 min walk`, "|") {
		if season, list := compileText(notes + line + "\n"); len(list) > 0 || len(season.Sheets) != 1 {
			t.Errorf("%s: %d sheets, %v", line, len(season.Sheets), list)
		}
	}
	if _, list := compileText("meter: 1/15 f16\n1: the old bridge at dawn f16 1/2\n"); len(list) == 0 {
		t.Error("the first of the numbers is passed over")
	}
}

// A filter between marks that make it stand out, and a word one slip away from the name of one in the kit, are
// asked about where a filter stands; beside other words, and where the word is one of its own, they are not.
func TestFiltersThatStandOutOrNearlyAre(t *testing.T) {
	const kit = "filter red: 3 stops\nfilter R25: 3 stops\nmeter: 1/15 f16\n"
	for _, line := range strings.Split("*red* 1/15 f16|**red** 1/2 f16|_red_ 1/15 f16|`red`, 1/15 f16|1/15 f16, *red*|rock, *red filter*, 1/2 f16|*R25* 1/15 f16|redd 1/15 f16|rde, 1/2 f16|redd filter 1/2 f16", "|") {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked || codes(list)["nearly-a-term"].Code == "" {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
	for _, line := range strings.Split("the *red* door, 1/15 f16|the redd of a trout, 1/15 f16|*gate*, 1/15 f16|bed, 1/15 f16|reed, 1/15 f16|road, 1/15 f16|1/15 f16 -- *red*", "|") {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != record.Right || len(list) > 0 {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
}

// Sheets that a line says were developed are not lost where their labels stand behind its colon, or it has none.
func TestLabelsOfADevelopLineAreNotLost(t *testing.T) {
	const notes = "meter: 1/15 f16\n1b: 1/15 f16\n2a: 1/15 f16\n\n"
	for line, want := range map[string]string{
		"dev: 1b and 2a, 6 min": "develop 1b 2a: 6 min", "dev: 1b & 2a N 6 mins": "develop 1b 2a: N 6 mins", "develop: for 1b, 9 min": "develop 1b: 9 min",
		"Developed 1b and 2a, 9 min 20 degrees": "write: Developed 1b and 2a: 9 min 20 degrees", "Developed 1b, 2a, 9 min": "write: Developed 1b, 2a: 9 min",
		"dev: 6 min, 1b": "develop 1b: 6 min", "dev: N 6 min 1b 2a": "develop 1b 2a: N 6 min", "dev: N, 9 min at 20C, 1b and 2a": "develop 1b 2a: N, 9 min at 20C", "develop 1b: 6 min, 2a": "develop 2a: 6 min",
		"dev: N-1": "", "dev: 6 min, as 1b was": "", "dev: 6 min, tray 1b was dirty": "", "develop 1b: 6 min in tray 2a": "", "develop 1b: 6 min -- as 2a, 2a": "", "develop 1b 2a: 6 min, 1b": "", "Developed 1b and 2a, and it rained.": "",
	} {
		_, list := compileText(notes + line + "\n")
		said := ""
		for _, d := range list {
			for _, n := range d.Notes {
				said += n.Text
			}
			if d.Fix != nil {
				said += "write: " + d.Fix.Text + strings.TrimPrefix(line, d.Fix.Span.Text())
			}
		}
		if want == "" && len(list) > 0 || !strings.Contains(said, want) || want != "" && len(list) == 0 {
			t.Errorf("%s: %q, want %q: %v", line, said, want, list)
		}
	}
}

// A remark of a later day, on which nothing was metered or exposed, adds to the sheet in the side and exposes nothing;
// where the side was loaded again, and where the line has settings, it is another sheet.
func TestLaterRemarksMakeNoSheet(t *testing.T) {
	const notes = "film tern: ISO 100\nday: 2026-07-05\nload 1b: tern\nmeter: 1/15 f16\n1b: 1/15 f16\nday: 2026-07-08 home\n"
	for lines, want := range map[string]int{
		"1b: scratched": 1, "1b: N, 9 min": 1, "1b: N-1": 1, "1b: came out well": 1,
		"1b: 1/15 f16": 2, "load 1b: tern\n1b: scratched": 2, "meter: EV 12\n1b: the mill": 2,
	} {
		season, list := compileText(notes + lines + "\n")
		if len(season.Sheets) != want || want == 1 && season.Sheets[0].State != record.Right {
			t.Errorf("%s: %d sheets, the first %s: %v", lines, len(season.Sheets), season.Sheets[0].State, list)
		}
	}
}

// A line that a year and a number with a colon begins is a sheet's, or reported, where it has a light value or a
// setting anywhere; so is one that words and a number begin and that has two of them. EV 10 at f/16 asks for 1/4.
func TestNumberedLinesAreNotLost(t *testing.T) {
	const notes = "film heath: ISO 100, reciprocity none\nfilm: heath\nday: 1984-05-07\n"
	for line, want := range map[string]record.State{
		`84-101: "Gate","EV 10","f16","1/4"`: record.Right, `84-101: "Gate", "EV 10", "f16", "1/4"`: record.Right, `84-101: Gate,"EV 10",f16,"1s"`: record.Off, `84-101: "Gate";"EV 10";"f16";"1s"`: record.Off,
		"84-101: Barn, EV 10, US16, 1/4": record.Right, "84-101: Barn, EV 10, us32, 1/2": record.Right, "84-101: Barn, EV 10, U.S. No. 16, 1s": record.Off,
		"84-101: Nave, EV 10, f16, 1/25e": record.Unchecked, "84-101: Nave, EV 10, offen, 1/4": record.Unchecked, "84-101: Nave, EV 1, f16, 20''": record.Unchecked, "84-101: Nave, EV 1, f16, halbe Stunde": record.Off, "84-101: Nave, EV 1, f16, kleine Stunde": record.Unchecked, "84-101: Nave, EV -4½, f16, 1 heure et demie": record.Right, // 5400 s at f/16 is EV −4.4
		"84/103: EV 10, f16": record.Unchecked, "84-103: Nave, at dusk, from the lane by the old mill at Rushford in the rain, f16": record.Unchecked,
		"84-101: Nave, EV 10": record.Unchecked, "84-101: Nave, at dusk, from the lane by the mill, EV 10, open, 1/4": record.Unchecked, "Pl. 1: Nave, EV 10, f16, 1/25e": record.Unchecked,
	} {
		season, list := compileText(notes + line + "\n")
		if len(season.Sheets) != 1 || season.Sheets[0].State != want {
			t.Errorf("%s: %v %v", line, season.Sheets, list)
		}
	}
	for _, line := range strings.Split("Bild 3: Nave, EV 10, offen, 1/4|1984 no. 3: Nave, EV 10, open, 1/4|84-103; Nave; EV 10; open; 1/4|A12: Nave, EV 10, open, 1/4|"+
		`"84-101:","Gate","EV 10","f16","1/4"`, "|") {
		if season, list := compileText(notes + line + "\n"); len(season.Sheets) > 0 || len(list) != 1 || list[0].Code != "unknown-label" {
			t.Errorf("%s: %d sheets, %v", line, len(season.Sheets), list)
		}
	}
	for _, line := range strings.Split("84-103: the gate at Rushford|12-13: in 2012 we came again|84-86: years of drought|Day 3: two sheets at the gate|9-12: breakfast, f16 at the gate|1984 no. 3: the gate", "|") {
		if season, list := compileText(notes + line + "\n"); len(season.Sheets) > 0 || len(list) > 0 {
			t.Errorf("%s: %d sheets, %v", line, len(season.Sheets), list)
		}
	}
}

// Quotation marks that a spreadsheet puts around a cell are taken off its terms; a title, a remark, ditto marks and a
// dash between them stay what they are.
func TestQuotedCells(t *testing.T) {
	const above = "1A: Gate,EV 9,Y8,f16,1s\n"
	for row, want := range map[string]record.State{
		`1B: Weir,EV 9,Y8,f16,"1/2"`: record.Off, `1B: Weir,EV 9,"Y8",f16,1s`: record.Right, `1B: "Weir","EV 9","-","f16","1/2"`: record.Right, `1B: "Weir","EV 9","","f16","1s"`: record.Off,
		`1B: Weir, EV 9, Y8, f16, 1s, "1/2"`: record.Right, `1B: Weir, EV 9, Y8, f16, 1s, "1/2 f22 next time"`: record.Right, `1B: "Weir" EV 9, Y8, f16, 1s`: record.Right, `1B: ",",",",1/2`: record.Off,
		`1B: "Weir","EV 9","r","f16","1/2"`: record.Unchecked,
	} {
		lastIs(t, want, above+row)
	}
}

// A setting is carried from the sheet before only where nothing on the line may stand in its place: what a spreadsheet
// made of a fraction, its error signs, words by which it was not noted, a sign in a cell, a value in brackets.
func TestNothingIsCarriedIntoACellThatIsNotRead(t *testing.T) {
	const above = "84-1: Gate, EV 9, f16 1/2\n"
	words := strings.Split("01/04/2024|1/4/2024|01.04.2024|4/1/24|Apr-04|1. Apr|Jan-30|30-Jan|2:00:00|00:00:02|45383|#REF!|#DIV/0!|########|n/k|N.K.|unk.|illeg.|unleserlich|not noted|lost|forgot|see back|s. Rückseite|...|__|[?]|x|-|--|/|?|\"1/4\"|(1/4)|quart d'heure", "|")
	for _, word := range words {
		for _, row := range []string{"84-2: Weir, EV 9, f16, " + word, "84-2: EV 9, f16, " + word, "84-2: Weir, EV 9, " + word + ", f16"} {
			lastIs(t, record.Unchecked, above+row)
		}
		for _, sep := range []string{"   ", "\t", ","} {
			for _, row := range []string{"84-1: Gate; EV 9; f16; 1/2@84-2: Weir; EV 9; f16; " + word, "84-1: Gate; EV 9; f16; 1/2@84-2: Weir; EV 9; " + word + "; 1/2"} {
				if word != `"1/4"` { // which is read
					lastIs(t, record.Unchecked, strings.ReplaceAll(strings.ReplaceAll(row, "; ", sep), "@", "\n"))
				}
			}
		}
	}
	for _, row := range strings.Split("84-2: Weir, EV 9, f16|84-2: EV 9, f16, closer|84-2: EV 9, f16, gate at the mill|84-2: EV 9, f16 -- from the bank|84-2: EV 9, f16, N|84-2: EV 9, f16 (windy)|84-2: Weir, the old one, EV 9, f16", "|") {
		lastIs(t, record.Right, above+row)
	}
	lastIs(t, record.Right, "84-1: Gate   EV 9   Y8   f16   1s\n84-2: Weir   EV 8   -    f16")
}

// A list of the writer's own words in prose, or on a filter line, is reported, and where one of them stands on a sheet's
// line it is asked; other signs of equality in prose are left alone.
func TestOwnWordsThatProseExplains(t *testing.T) {
	for _, head := range strings.Split("r = R25, red|r=R25|- r = R25 (red)|Abbreviations: r = R25; y = Y8|r = R25. All else is bare.|Filters: r = R25, y = Y8|r = no filter", "|") {
		season, list := compileText(columnsKit + "\n" + head + "\n\n1A:  Weir  EV 9  r  1/2  f16\n1B: Weir, EV 9, r, 1/2, f16\n")
		for _, sh := range season.Sheets {
			if sh.State != record.Unchecked || len(list) == 0 || !strings.Contains(list[0].Notes[0].Text, "call: r = ") {
				t.Errorf("%s: %s, %v", head, sh.State, list)
			}
		}
	}
	for _, prose := range strings.Split("N = normal|x = 4|the shed = R25 land|A = B + C|1 in = 25 mm|east = left", "|") {
		season, list := compileText(columnsKit + "\n" + prose + "\n\n1A: Weir, EV 9, 1/2, f16\n")
		if season.Sheets[0].State != record.Right || len(list) > 0 {
			t.Errorf("%s: %v", prose, list)
		}
	}
	lastIs(t, record.Right, "r = R25\n\n1A: Weir, EV 9, 1/2, f16")
}

// A plate's own word with its number is that of a sheet where one setting stands behind it, whatever words beside it; what
// says no setting is reported, unless the plate is logged or the words are of its print.
func TestPlatesAmongWords(t *testing.T) {
	for _, line := range strings.Split("Platte 1: Weir von Süden, EV 9, Bl. 16, 1/30 Sek.|Platte 1: EV 9, Bl. 16, 1/30 Sek., abends: Hund im Bild|1A: EV 9, 1/2, f16\nPlatte 1: EV 9, Bl. 16, 1/30 Sek., Wolke vor der Sonne", "|") {
		season, list := compileText(columnsKit + "\n" + line + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != record.Off && len(list) == 0 {
			t.Errorf("%s: %s, %v", line, sh.State, list)
		}
	}
	for _, line := range strings.Split("Platte 1: vergessen|Plaque 1: oubliée|Platte 29: der Zaun, 1/1[5] Sek.|Plaque 1: f/16, une demi-seconde|Platte 1: Bl. 1[6], 1/30 Sek.|Platte 12  Tor von Westen   Bl. 16   1/30 Sek.", "|") {
		season, list := compileText(columnsKit + "\n" + line + "\n")
		if len(list) == 0 || len(season.Sheets) > 0 && season.Sheets[0].State != record.Unchecked {
			t.Errorf("%s: %v", line, list)
		}
	}
	for _, prose := range strings.Split("Platte 1: der Hund war da|Plate 2: printed on grade 3|Plate tectonics: a book", "|") {
		if _, list := compileText(columnsKit + "\nPlatte 1: EV 9, 1/2, f16\n\n" + prose + "\n"); len(list) > 0 {
			t.Errorf("%s: %v", prose, list)
		}
	}
	if season, _ := compileText(columnsKit + "\n1: EV 9, 1/2, f16\n2: dto., doppelt so lang\n"); len(season.Sheets) != 2 || season.Sheets[1].State != record.Unchecked {
		t.Errorf("2: dto., doppelt so lang: %d sheets", len(season.Sheets))
	}
}
