package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

const seasonOfAldermoor = "../../examples/aldermoor"

// The figures are those of testdata/aldermoor, which another program computed.
func TestExplainASheet(t *testing.T) {
	for _, c := range []struct {
		sheet string
		says  []string
	}{
		{"2026-10-25 1B", []string{
			"2026-10-25 1B, Inside the drying shed: off\n",
			"1B: same, f32, 8s – sharper racks in front  [2026-10-25-drying-shed.md:23]",
			"doorway boards EV 5, placed on III, with the settings given on II⅓",
			"at f/32 that is 15 s by the clock, for 8 s on film (reciprocity t^1.31 over 1s)  [kit.md:29]",
			"8 s by the clock is worth 4.9 s on film", "by the clock EV 7\n", "on film EV 7⅔\n",
			"⅔ stop under; the tolerance is ±⅓ stop, as declared", "by the clock, without reciprocity: no difference",
			"fits: 8 s is the time before reciprocity", "[notchbook explain reciprocity-forgotten]",
			"15 s f/32 (aperture kept)", "asked: N−1  [2026-10-25-drying-shed.md:22]", "done: N-1, 6:30, 20C  [2026-10-25-drying-shed.md:74]",
		}},
		{"2026-10-04 3a", []string{"G11 −1.6: ", "[handbook: Kodak F-4016"}},
		{"2026-11-07 5B", []string{"the meter at EI 20 for film at EI 64, +1⅔  [2026-11-07-wharf.txt:58]", "1⅔ stops over"}},
		{"2026-10-25 4A", []string{": unchecked\n", "exposed at EI 10  [kit.md:30]", "it would take a longer reciprocity table for curlew; 40 s lies beyond its last entry"}},
		{"2026-10-04 6A", []string{": no image\n", "R25 −3: ×8  [kit.md:41]", "there is next to nothing on this sheet"}},
	} {
		s := must(t, "explain", c.sheet, seasonOfAldermoor)
		for _, want := range c.says {
			if !strings.Contains(s.out, want) {
				t.Errorf("%s lacks %q:\n%s", c.sheet, want, s.out)
			}
		}
		if strings.Contains(s.out, "can still be chosen") {
			t.Errorf("%s is developed:\n%s", c.sheet, s.out)
		}
	}
}

func TestExplainAsksWhichSheet(t *testing.T) {
	s := notchbook(t, "explain", "2b", seasonOfAldermoor)
	if s.status != failed || !strings.Contains(s.err, `"2026-10-04 2B", "2026-10-25 2B", "2026-11-07 2B"`) {
		t.Errorf("%d: %s", s.status, s.err)
	}
	if s := notchbook(t, "explain", "9Z", seasonOfAldermoor); s.status != failed || !strings.Contains(s.err, `no sheet and no scene "9Z"`) {
		t.Errorf("%d: %s", s.status, s.err)
	}
}

// A numbered sheet is found by what it was called before, and the number is said.
func TestExplainASheetByItsFormerName(t *testing.T) {
	dir := folder(t, map[string]string{
		"notes.md": "day: 2026-10-04, Mill\nmeter: 1/60 f16\n3A: 1/60 f16\n3B: 1/60 f16\nneg 3A: 2026-31\n\nday: 2026-10-05\nmeter: 1/60 f16\n3A: 1/60 f16\nsheet #32: 1/60 f16, neg 32\n",
	})
	want := must(t, "explain", "2026-31", dir).out
	if !strings.HasPrefix(want, "negative 2026-31, 2026-10-04 3A: right\n") {
		t.Errorf("it does not say what it is called:\n%s", want)
	}
	for _, name := range []string{"2026-10-04 3A", "2026-10-04 3a", "#2026-31", "Neg. 2026-31", "neg 2026-31"} {
		if got := must(t, "explain", name, dir).out; got != want {
			t.Errorf("%s is\n%s", name, got)
		}
	}
	if s := notchbook(t, "explain", "3A", dir); s.status != failed || !strings.Contains(s.err, `"2026-31", "2026-10-05 3A"`) {
		t.Errorf("3A of two days: %d: %s%s", s.status, s.out, s.err)
	}
	if s := must(t, "explain", "32", dir); !strings.HasPrefix(s.out, "32: ") {
		t.Errorf("a sheet that was always called by its number:\n%s", s.out)
	}
}

// A sheet that has not been in the tray, by its label in the folder where the
// writer stands, and by the negative's number.
func TestExplainAnUndevelopedSheet(t *testing.T) {
	t.Chdir(folder(t, map[string]string{
		"notes.md": "day: 2026-11-07\nfilter R25: x8\nmeter: 1/60 f16\n3A: R25, 1/60 f16, neg 114\n3B: 1/4 f16\n",
	}))
	byLabel, byNumber := must(t, "explain", "3A"), must(t, "explain", "#114")
	if byLabel.out != byNumber.out {
		t.Errorf("%s\nand by its number\n%s", byLabel.out, byNumber.out)
	}
	if !strings.Contains(byLabel.out, "3 stops under, and its development can still be chosen; longer development raises the high values and does little for the shadows") {
		t.Error(byLabel.out)
	}
	if over := must(t, "explain", "3B"); !strings.Contains(over.out, "4 stops over, and its development can still be chosen; shorter") {
		t.Error(over.out)
	}
}

// A code stays a code wherever one stands.
func TestExplainACodeAsBefore(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, code := range []string{"exposure-off", "[settings-left]"} {
		if s := must(t, "explain", code); !strings.HasPrefix(s.out, strings.Trim(code, "[]")+": ") {
			t.Errorf("%s: %s", code, s.out)
		}
	}
}

// A right sheet that is off by more than the tolerance is told why it is right.
func TestExplainSaysWhatIsAllowed(t *testing.T) {
	const head = "film slate: ISO 100, EI 100, pan\nfilter B6: x6\nday: 2026-11-07\nmeter: 1/60 f16\n"
	for line, want := range map[string]string{
		"1A: 1/60 f16":      "",
		"1A: 1/40 f16":      "so much more is often given to negative film, and no mistake fits it",
		"1A: B6, 1/8 f16":   "the rounding of marks may add a twelfth of a stop",            // log2 6 is 2.585, given 3
		"1A: #25, 1/8 f16½": "the published values of what is before the lens reach so far", // 2½ stops to 3
	} {
		dir := folder(t, map[string]string{"a.md": head + line + "\n"})
		out := notchbook(t, "explain", "1A", dir).out
		all := []string{"so much more is often", "the rounding of marks may", "the published values of what"}
		for _, said := range all {
			if got := strings.Contains(out, said); got != (want != "" && strings.HasPrefix(want, said)) {
				t.Errorf("%s: %q is said: %v\n%s", line, said, got, out)
			}
		}
	}
}

// A metered area stands everywhere as the meter showed it. At the film's index it is
// said beside that, and only where it is another figure: ISO 100 and EI 64 are log₂(100/64)
// = 0.64 stop apart.
func TestAreasStandAsTheyWereRead(t *testing.T) {
	dir := folder(t, map[string]string{
		"notes.md": "film slate: ISO 400, EI 64\nfilm ash: ISO 100, EI 100\nmeter spot: EV at 100\n\nday: 2026-10-04, Mill\nfilm: slate\n" +
			"meter: doorway EV 11 on III, wall 1/60 f16\n3A: 1/15 f16\nfilm: ash\nmeter: doorway EV 11 on III, gate EV 9\n3B: 1/15 f16\n",
	})
	wantLines(t, must(t, "explain", "3A", dir).out, "  doorway EV 11 (EV 10⅓ at EI 64), placed on III, with the settings given on III⅓", "  wall 1/60 f/16 (EV 14 at EI 64), with the settings given on VII")
	wantLines(t, must(t, "explain", "3B", dir).out, "  doorway EV 11, placed on III, with the settings given on IV", "  gate EV 9, with the settings given on II")
	must(t, "compile", dir)
	record := filepath.Join(dir, "record")
	page := contents(t, filepath.Join(record, "outing-2026-10-04.html"))
	for _, want := range []string{
		`<th scope="row">doorway</th><td>EV 11 <span class="quiet">EV 10⅓ at EI 64</span></td><td>III</td>`,
		`<th scope="row">doorway</th><td>EV 11</td><td>III</td>`,
	} {
		if !strings.Contains(strings.ReplaceAll(page, "\u00a0", " "), want) {
			t.Errorf("the page has no %s", want)
		}
	}
	text := unwrapped(contents(t, filepath.Join(record, "record.txt")))
	book, err := exec.Command(tool(t, "pdftotext", "the book was not read"), "-layout", filepath.Join(record, pdfName), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"the text": text, "the book": unwrapped(string(book))} {
		if strings.Count(text, "EV 11 (EV 10⅓ at EI 64)") != 1 {
			t.Errorf("%s does not say how the doorway was read", name)
		}
	}
}
