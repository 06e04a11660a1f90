package lang

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"notchbook/lang/source"
)

// Lines that look like something that they are not: each holds what is behind it, and
// nothing is lost in silence.
func TestWhatOnlyLooksAlike(t *testing.T) {
	for line, want := range map[string]string{
		"1A: 2:00+30s f22":                        "120s + 30s",
		"1A: 1:30 → 4:00 f22":                     "90s|→|240s",
		"1A: mill race 1:30 f22":                  "90s",
		"1A: macro 1:1 f22 4s":                    "magnification 1",
		"1A: f22 1s, nothing I could do.":         "words",
		"1A: wall light tungsten f22":             "light tungsten",
		"1A: pond 2 lens 300 f22":                 "lens 300",
		"1A: f22, corrected from 1:30 to 4:00":    "90s",
		`1A: " gate post " 1/8 f16`:               "gate post|1/8 f/16",
		`1A: " K2, 1/8 f16 "`:                     "same|filter K2|1/8 f/16|same",
		"1A: – a hare, 1/8 f16 was too long":      `"a hare, 1/8 f16 was too long"`,
		"load 11-24: slate":                       "11, 12, 13",
		"1A: f22, at an eighth":                   "1/8",
		"1A: f16 1/2 in the rain":                 "f/16 1/2|words in the rain",
		"1A: f16 1/2, bellows 10 in a bit":        "extension 254 mm",
		"1A: cf. 86-12a, f16 1/2":                 "words cf. 86-12a|f/16 1/2",
		"1A: one hundred and twenty seconds, f22": "120s",
	} {
		book, _ := Parse(source.New("n.md", []byte("lens 300: 300 mm\n"+line+"\n")), NewLexicon())
		shown := ""
		for _, st := range book.Statements {
			if strings.Contains(line, st.Span.Text()) {
				shown = st.String()
			}
		}
		for _, part := range strings.Split(want, "|") {
			if !strings.Contains(shown, part) {
				t.Errorf("%s is read as %s, without %s", line, shown, part)
			}
		}
	}
}

// What goes on behind a sheet's line is said, and no remark that stands below it is.
func TestEndsOfSheetLinesAreSaid(t *testing.T) {
	for below, want := range map[string]bool{
		"        water high, N-1": true, "        high, bellows 28in": true, "        water high, N−1, old gate": true,
		"        the weather was fine, we waited 4 min": false, "        Water high, later": false,
	} {
		for comma, want := range map[string]bool{"": want, ",": true} {
			_, list := Parse(source.New("n.md", []byte("83-110: Weir, EV 12, 1/8 f22"+comma+"\n"+below+"\n")), NewLexicon())
			said := false
			for _, d := range list {
				said = said || d.Code == "wrapped-line"
			}
			if said != want {
				t.Errorf("%q behind %q: %v", below, comma, list)
			}
		}
	}
}

// A misspelled log word has a fix where one word alone is nearest, or lacks no more than its
// end; of two that are as near both are named.
func TestAFixIsOfTheOnlyWordThatIsNear(t *testing.T) {
	for line, want := range map[string]string{
		"scen: Mill":     "scene",
		"shet 3A: f16":   "sheet",
		"sheett 3A: f16": "sheet",
		"flim: slate":    "film",
		"nev 3A: N-1":    "dev|neg",
		"scens: Mill":    "scans|scene",
		"filt: Y8":       "filter",
		"filt: yellow":   "filter",
		"fil: slate":     "film",
		"fil: red":       "film|filter",
	} {
		_, list := parseAfterKit(t, line)
		if len(list) != 1 || list[0].Code != "unknown-word" {
			t.Errorf("%s: %v", line, list)
			continue
		}
		words := strings.Split(want, "|")
		if fix := list[0].Fix; len(words) == 1 && (fix == nil || fix.Text != want) || len(words) > 1 && fix != nil {
			t.Errorf("%s: the fix is %v", line, fix)
		}
		for _, word := range words {
			if !strings.Contains(list[0].Notes[0].Text, `"`+word+`"`) {
				t.Errorf("%s: %q does not name %s", line, list[0].Notes[0].Text, word)
			}
		}
	}
}

// A word that is near a log word is not mended into it where what is named behind it is another thing.
func TestAFixIsNotOfAnotherThing(t *testing.T) {
	for _, line := range []string{"filn: yellow", "flim: Y8", "flim: Wratten 25"} {
		_, list := parseAfterKit(t, line)
		if len(list) != 1 || list[0].Code != "unknown-word" || list[0].Fix != nil {
			t.Errorf("%s: %v", line, list)
		}
	}
}

// A colon is put behind a label where that alone is missing. Brackets behind it would turn into a
// remark: what stands in them is asked about.
func TestABracketBehindALabelIsNotMended(t *testing.T) {
	for line, want := range map[string]string{
		"1A Y8, 1/30 f16": "1A:", "1A Y8: f16 1/2": "1A:", "1A, Y8: f16 1/2": "1A:", "1A 1/30 f16 (gust)": "1A:", "1A - f16 2:30": "1A:", "1A = f16 2:30": "1A:",
		"1A (Y8): f16 1/2": "1A: Y8, f16 1/2", "1A (Y8) f16 1/2": "1A: Y8, f16 1/2", "1A (Y8), f16 1/2": "1A: Y8, f16 1/2", "1A [Y8]: f16 1/2": "1A: Y8, f16 1/2",
		"1A (ext 420): f16 1/2": "1A: ext 420, f16 1/2", "1A (N-1): f16 1/2": "1A: N-1, f16 1/2", "1A \"Y8\": f16 1/2": "1A: Y8, f16 1/2",
		"1A (EV 10): f16 1/2": "1A: EV 10, f16 1/2", "1A (again): f16 1/2": "1A: again, f16 1/2", "1A (210): f16 1/2": "1A: 210, f16 1/2", "1A (slate): f16 1/2": "load 1A: slate",
	} {
		_, list := parseAfterKit(t, line)
		if len(list) != 1 || list[0].Code != "missing-colon" {
			t.Errorf("%s: %v", line, list)
			continue
		}
		if fix := list[0].Fix; strings.HasSuffix(want, ":") != (fix != nil) || fix != nil && fix.Text != want || fix == nil && !strings.HasSuffix(list[0].Notes[0].Text, want) {
			t.Errorf("%s: fix %v, %v", line, fix, list[0].Notes)
		}
	}
}

// A fix is certain: the line is read then, and what stands behind a colon that was put in as it would be
// read by itself, with nothing in brackets that became a remark.
func TestAFixChangesNothingElse(t *testing.T) {
	shown := func(terms []Term) (all []string) {
		for i := range terms {
			if text := terms[i].String(); text != "" {
				all = append(all, text)
			}
		}
		return all
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(from ...string) string { return rapid.SampledFrom(from).Draw(t, "piece") }
		text := draw("1A", "1A:", "2B", "1A/1B", "1A/B:", "1A+B", "sheet 3A", "86-12a:", "T1:", "1A-B", "101/102:", "`1A`:", "shet 1A:", "lA:")
		for range rapid.IntRange(1, 5).Draw(t, "terms") {
			text += draw(" ", " ", ", ", ": ", " - ") + draw("f16", "1/2", "f16 1/2", "(Y8)", "(ext 420)", "[N-1]", "\"Y8\"", "Y8", "EV 9", "N-1", "f16 l/8", "fl6", "sheet 2/4", "8 min", "(gust)", "f8,60", "EV 8,2 s")
		}
		_, list := Parse(source.New("n.md", []byte(text+"\n")), NewLexicon())
		for _, d := range list {
			if d.Fix == nil {
				continue
			}
			from, to := d.Fix.Span.Start, d.Fix.Span.End
			mended := text[:from] + d.Fix.Text + text[to:]
			again, _ := Parse(source.New("n.md", []byte(mended+"\n")), NewLexicon())
			if len(again.Statements) != 1 {
				t.Fatalf("%q: mended to %q, which is not read", text, mended)
			}
			if d.Code == "missing-colon" {
				rest := strings.TrimLeft(text[to:], " ,:-")
				if strings.HasPrefix(rest, "(") || strings.HasPrefix(rest, "[") || strings.HasPrefix(rest, `"`) {
					t.Fatalf("%q: mended to %q", text, mended)
				}
				alone, _ := Parse(source.New("n.md", []byte("9B: "+rest+"\n")), NewLexicon())
				if want, got := shown(alone.Statements[0].Terms()), shown(again.Statements[0].Terms()); strings.Join(want, "|") != strings.Join(got, "|") {
					t.Fatalf("%q: mended to %q: %q, not %q", text, mended, got, want)
				}
			}
		}
	})
}
