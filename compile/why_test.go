package compile_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/compile/slip"
)

const silentKit = "film slate: ISO 400, EI 200, pan\nlens 210: 210 mm\nload 1A-9B: slate\nday: 2026-11-07\nmeter: 1/60 f16\n"

// silentOf is the causes named for each sheet that no setting shows.
func silentOf(season *record.Season) map[string][]string {
	all := map[string][]string{}
	for _, f := range season.Findings {
		if f.Code == "cause-not-in-settings" {
			for _, sh := range f.Sheets {
				all[sh.Label] = f.Causes
			}
		}
	}
	return all
}

// What the looks come from is common practice, no source.
func TestCausesThatNoSettingShows(t *testing.T) {
	for _, c := range []struct {
		text string
		want string
	}{
		{"3A: 1/60 f16 -- came out black", "lens-left-open shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: black as soot", "lens-left-open shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: fogged all over, the lens was still open", "lens-left-open"},
		{"3A: 1/60 f16\nresult 3A: completely black, forgot to cock it? no: shutter never closed", "shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: clear glass from edge to edge", "slide-not-pulled shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: blank, not cocked", "shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: clear, darkslide left in", "slide-not-pulled"},
		{"3A: 1/60 f16 -- so blank: never drew the darkslide", "slide-not-pulled"},
		{"3A: 1/60 f16 (nothing on the film)", "slide-not-pulled shutter-not-set"},
		{"3A: 1/60 f16\n3A: the negative came out blank", "slide-not-pulled shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: very dense", "developed-long"},
		{"3A: 1/60 f16 -- neg is a bit thin, printed on 4", "developed-short"},
		{"3B: 1/60 f16\n3A: 1/60 f16\nresult 3A: blank\nresult 3B: two images", "side-exposed-twice slide-not-pulled"},
		{"3A: 1/60 f16\nresult 3A: fogged", "lens-left-open shutter-not-set"},
		{"3A: 1/60 f16\nresult 3A: fogged, no leak in the holder that I can find", "lens-left-open shutter-not-set"},
		{"3A: f16\nresult 3A: blank", "slide-not-pulled shutter-not-set"}, // unchecked
	} {
		season, _ := compileText(silentKit + c.text + "\n")
		if got := strings.Join(silentOf(season)["3A"], " "); got != c.want {
			t.Errorf("%s\n got %q\nwant %q", c.text, got, c.want)
		}
		for _, f := range season.Findings {
			if f.Code == "cause-not-in-settings" && f.Severity != record.Note {
				t.Errorf("%s: it is a %s", c.text, f.Severity)
			}
			if f.Code == "cause-not-in-settings" && strings.Contains(c.text, "fogged") != strings.Contains(f.Message, "is fogged") {
				t.Errorf("%s: %s", c.text, f.Message)
			}
		}
	}
}

// Remarks and results that speak of the scene, of good negatives, of a part of
// the sheet, of sheets whose settings show why, or of what was meant so.
func TestNoCauseWhereNoneIsAskedFor(t *testing.T) {
	for _, text := range []string{
		"3A: 1/60 f16 -- black water, sky clear", "3A: 1/60 f16 (thin cloud, dense wood behind)", "3A: 1/60 f16 -- nothing on it but the hook",
		"3A: 1/60 f16 -- the sky came out black on the first one, so lighter", "3A: 1/60 f16, the plate is clear of dust", "3A: 1/60 f16 -- it was all black rock",
		"3A: 1/60 f16 -- fog, the far bank blank", "3A: 1/60 f16 -- not exposed to the wind", "3A: 1/60 f16 -- clear",
		"3A: 1/60 f16\nresult 3A: clear shadows, good", "3A: 1/60 f16\nresult 3A: black and crisp", "3A: 1/60 f16\nresult 3A: fogged along one edge",
		"3A: 1/60 f16\nresult 3A: keeper", "3A: 1/60 f16\nresult 3A: thin shadows", "3A: 1/60 f16\nresult 3A: not black", "3A: 1/60 f16\nresult 3A: black point set at 5",
		"3A: 1/4 f16\nresult 3A: black", "3A: unused\nresult 3A: blank", "3A: 1/60 f16\n3A: again, 1/60 f16\nresult 3A: two images",
		"3A: 1/60 f16\nresult 3A: fogged, holder 4 leaks", "3A: 1/60 f16\nresult 3A: black, a light leak", "3A: 1/60 f16\nresult 3A: fogged, slide pulled early",
		"3A: 1/60 f16\nresult 3A: fogged: hole in the bellows", "3A: 1/60 f16\nresult 3A: fogged (I drew the slide too soon)", "3A: 1/60 f16 -- the negative came out fogged, the bellows leak",
		"3A: 1/60 f16\n\nThe negative came out black. Nothing on the film.", "result 3A: blank\n3A: 1/60 f16",
	} {
		season, _ := compileText(silentKit + text + "\n")
		if got := silentOf(season); len(got) > 0 {
			t.Errorf("%s: %v", text, got)
		}
	}
}

// In the field logs, of which none was written for this, one sheet is so, and
// its key says which it was.
func TestSilentCausesInTheFieldLogs(t *testing.T) {
	folders, err := filepath.Glob("../testdata/fieldlogs/*/key.csv")
	if err != nil || len(folders) == 0 {
		t.Fatal("no field logs", err)
	}
	for _, key := range folders {
		season, _ := compileFolder(t, filepath.Dir(key))
		got := silentOf(season)
		if name := filepath.Base(filepath.Dir(key)); name == "04-ortho-plates" {
			if len(got) != 1 || !slices.Equal(got["16"], []string{"slide-not-pulled"}) {
				t.Errorf("%s: %v", name, got)
			}
		} else if len(got) > 0 {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestSilentSlugsAreTheirOwn(t *testing.T) {
	for _, s := range slip.SilentTable() {
		if _, taken := slip.Lookup(s.Slug); taken || s.Title == "" || len(s.Shows) == 0 {
			t.Errorf("%s", s.Slug)
		}
	}
}

// Whatever a note lacks, the reasoning about each of its sheets can be told, and
// capitals tell two sheets apart that are else called alike.
func TestEverySheetIsExplained(t *testing.T) {
	notes := "lens: 210\nfilter: Y8\n1a: f22 1s EV 9\n1A: 1/2 f22\n2A: ext 300mm, 2m, film moor\n2B: a EV 5, b EV 9\n"
	world := compile.World{Read: func(string) ([]byte, error) { return []byte(notes), nil }}
	for name, want := range map[string]string{"1a": "n.md 1a", "1A": "n.md 1A", "n.md 1A": "n.md 1A", "2A": "n.md 2A", "2b": "n.md 2B"} {
		all := compile.Explain(world, name, "n.md")
		if len(all) != 1 || all[0].Sheet.ID != want || len(all[0].Parts) == 0 {
			t.Errorf("%s: %d sheets are explained, want %s", name, len(all), want)
		}
	}
}

// What the writer says of a slide that stayed in, or of another that was drawn, is what is said of
// the sheets: nothing is on the one, and two pictures are on the other.
func TestSlidesThatTheWriterTellsOf(t *testing.T) {
	season, _ := compileText("day: 3 Oct 2026\nload 1A-4B: ash\n1A: EV 12, 1/15 f16, dark slide left in\n1B: slide was still in!! nothing on it\n2A: EV 12, 1/15 f16 -- slide never came out\n2B: EV 12, 1/15 f16 -- slide never came out, I think\n" +
		"3A: EV 12, 1/15 f16\n3B: EV 12, 1/15 f16 -- drew the slide of 3A by mistake\n4A: EV 12, 1/15 f16 -- slide pulled early\n")
	lost := map[string]bool{}
	for _, l := range season.Losses {
		for _, sh := range l.Sheets {
			lost[sh.Label] = true
		}
	}
	for _, label := range []string{"1A", "1B", "2A", "2B", "3A", "3B", "4A"} {
		if want := label <= "2A"; lost[label] != want {
			t.Errorf("%s is lost: %t, want %t", label, lost[label], want)
		}
	}
	said := map[string]string{}
	for _, f := range season.Findings {
		if f.Code == "cause-not-in-settings" && len(f.Causes) > 0 {
			said[f.Sheets[0].Label] = f.Causes[0]
		}
	}
	if said["1A"] != "slide-not-pulled" || said["2A"] != "slide-not-pulled" || said["3A"] != "side-exposed-twice" || said["3B"] != "side-exposed-twice" || said["4A"] != "" {
		t.Errorf("causes: %v", said)
	}
}

// A slide that was nearly left in, or was seen in time, loses no sheet; where the words leave it
// open, it is asked and nothing is held back.
func TestSlidesThatWereSeenInTime(t *testing.T) {
	const lost, asked, well = "lost", "asked", "well"
	for words, want := range map[string]string{
		" – nearly left the slide in":                                  well,
		", almost forgot to pull the slide":                            well,
		" – forgot to pull the slide 1st, then ok":                     well,
		" – slide was still in, pulled it, took it again":              well,
		", slide was still in, pulled it, took it again":               well,
		" – slide still in, noticed before I fired":                    well,
		" – forgot to draw the slide, remembered just in time":         well,
		" – put the slide in the bag":                                  well,
		"\nresult 1A: nearly left the slide in":                        well,
		"\nresult 1A: slide was still in, pulled it and took it again": well,
		" – forgot to pull the slide, took it again":                   asked,
		" – slide was still in, pulled it":                             asked,
		" – slide still in?":                                           asked,
		" – maybe the slide was left in":                               asked,
		" – did not leave the slide in this time":                      asked,
		"\nresult 1A: slide left in, I think":                          asked,
		" – slide was left in":                                         lost,
		", nearly dark, slide was left in":                             lost,
		" – forgot to pull the slide, noticed too late":                lost,
		" – slide was still in, took it again on 1B":                   lost,
		" – left the slide in, again on the next":                      lost,
		"\nresult 1A: blank, never drew the slide":                     lost,
		"\nresult 1A: slide was left in":                               lost,
	} {
		season, _ := compileText("film tern: ISO 100\nday: 2026-10-17\nload 1A 1B: tern\nmeter: 1/60 f16\n1A: 1/60 f16" + words + "\n")
		got := well
		for _, f := range season.Findings {
			if f.Code == "cause-not-in-settings" && strings.Contains(f.Message, "left open") {
				got = asked
			}
		}
		if len(season.Losses) > 0 {
			got = lost
		}
		if held := len(season.ToDevelop.Held) > 0; got != want || held != (want == lost) {
			t.Errorf("%q: %s, held %t; want %s", words, got, held, want)
		}
	}
}

// What is explained of a sheet of film is all of its exposures; a later one by its own name is that alone.
func TestExplainTellsAllExposures(t *testing.T) {
	const notes = "day: 2026-11-14\nmeter: 1/60 f16\n6A: 1/60 f16\n6B: 1/60 f16\n6A: again, 1/30 f16\n6A: again, 1/15 f16\n"
	for name, want := range map[string]int{"6A": 2, "2026-11-14 6A": 2, "2026-11-14 6A'3": 0, "6B": 0} {
		all := compile.Explain(files(map[string]string{"n.md": notes}), name, "n.md")
		if len(all) != 1 || len(all[0].Again) != want {
			t.Errorf("%s: %+v", name, all)
		}
	}
}

// A film or a lens that no line names is taken as the only one declared, and that is told.
func TestWhatNoLineNamesIsTold(t *testing.T) {
	const film, lens = "no line names a film, and tern is the only one declared: it was taken", "no line names a lens, and 210 is the only one declared: it was taken"
	for notes, want := range map[string][2]bool{
		"1A: 1/15 f16": {true, true}, "film: tern\n1A: 1/15 f16": {false, true}, "lens: 210\n1A: 1/15 f16": {true, false}, "load 1A: tern\n1A: 1/15 f16": {false, true},
		"1A: 1/15 f16, film tern, lens 210": {false, false}, "meter: 1/15 f16, lens 210\n1A: 1/15 f16": {true, false},
	} {
		notes = "film tern: ISO 100\nlens 210: 210 mm\nday: 2026-11-07\nmeter: 1/15 f16\n" + notes + "\n"
		var said []string
		for _, part := range compile.Explain(files(map[string]string{"n.md": notes}), "1A", "n.md")[0].Parts {
			for _, row := range part.Rows {
				said = append(said, row.Text)
			}
		}
		if got := [2]bool{slices.Contains(said, film), slices.Contains(said, lens)}; got != want {
			t.Errorf("%s: told of film and lens: %v, want %v", notes, got, want)
		}
	}
}
