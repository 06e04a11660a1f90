package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// asDeclared checks the state of the last sheet of notes that declare things, behind a meter line of EV 14.
func asDeclared(t *testing.T, notes map[string]record.State) {
	t.Helper()
	for lines, want := range notes {
		season, list := compileText("day: 2026-11-07\nfilm moor: EI 250, pan\nfilm: moor\nmeter: 1/60 f16\n" + lines + "\n")
		if sh := season.Sheets[len(season.Sheets)-1]; sh.State != want {
			t.Errorf("%q: %s %v %v, want %s", lines, sh.State, sh.Needs, list, want)
		}
	}
}

// A value that the kit marks as doubtful makes no sheet off and none right, whatever it is a value of; where it decides
// nothing the sheet is judged.
func TestDoubtfulValuesOfTheKit(t *testing.T) {
	const spot = "meter spot: EV at 100\nfilm slate: ISO 100, EI 100, N-1 EI 50?, tungsten EI 25?, 4s=16s?\nfilm: slate\n"
	asDeclared(t, map[string]record.State{
		"lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\n1A: 1/60 f16":                                record.Unchecked,
		"lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\n1A: 1/60 f22":                                record.Unchecked,
		"lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\n1A: 1/60 f64":                                record.Unchecked,
		"lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\n1A: 1/30 f22":                                record.Right,
		"lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\n1A: 1/30 f16":                                record.Off,
		"lens 210: 210 mm, tested 1/60=1/30? 1/15=1/10\nlens: 210\n1A: 1/60 f16":                      record.Unchecked,
		"lens 210: 210 mm\nlens: 210\nshutter 210: 1/60 measured 33 ms?\n1A: 1/60 f16":                record.Unchecked,
		"lens 210: 210 mm, bellows 360mm +1?\nlens: 210\n1A: ext 360mm, 1/60 f16":                     record.Unchecked,
		"lens 210: 210 mm, bellows 297mm +2?\nlens: 210\n1A: ext 297mm, 1/15 f16":                     record.Unchecked,
		"lens 210: 210 mm, bellows 297mm +2?\nlens: 210\n1A: 1/60 f16":                                record.Right,
		"filter O21: orange, 3 stops?\n1A: O21, 1/8 f16":                                              record.Unchecked,
		"filter O21: orange, 3 stops?\n1A: O21, 1/60 f16":                                             record.Unchecked,
		"filter O21: orange, x4, tungsten x2?\nlight: tungsten\n1A: O21, 1/30 f16":                    record.Unchecked,
		"filter O21: orange, x4, tungsten x2?\nlight: sun\n1A: O21, 1/15 f16":                         record.Right,
		spot + "meter: EV 12\n1A: N-1, 1/8 f16":                                                       record.Unchecked,
		spot + "meter: EV 12\n1A: N-1, 1/15 f16":                                                      record.Unchecked,
		spot + "meter: EV 12\n1A: 1/15 f16":                                                           record.Right,
		spot + "meter: EV 12\nlight: tungsten\n1A: 1/15 f16":                                          record.Unchecked,
		spot + "meter: 4s f16\n1A: 16s f16":                                                           record.Unchecked,
		spot + "meter: 4s f16\n1A: 4s f16":                                                            record.Unchecked,
		"reciprocity: 2s=3s 4s=8s? 8s=20s\nmeter: 4s f16\n1A: 8s f16":                                 record.Unchecked,
		"meter spot: EV at 100?\nmeter: EV 12\n1A: 1/15 f16":                                          record.Unchecked,
		"meter spot: EV at EI, offset -1?\nmeter: EV 12\n1A: 1/30 f16":                                record.Unchecked,
		"tolerance: 1 stop?\n1A: 1/30 f16":                                                            record.Unchecked,
		"tolerance: 1 stop?\n1A: 1/60 f16":                                                            record.Right,
		"lens 210: 210 mm, f9?\nlens: 210\n1A: 1/60 f16":                                              record.Right,
		"camera field: 4x5, ext 75-380 mm?\ncamera: field\nlens 210: 210 mm\nlens: 210\n1A: 1/60 f16": record.Right,
	})
	season, _ := compileText("lens 210: 210 mm, tested 1/60=1/30?\nlens: 210\nmeter: 1/60 f16\n1A: 1/60 f16\n")
	if needs := season.Sheets[0].Needs; len(needs) != 1 || !strings.HasSuffix(needs[0], "tested 1/60=1/30?") {
		t.Error(needs)
	}
}

// What is struck out of a line of the kit does not count, and what stands around it is read as if it were not there.
func TestStruckValuesOfTheKit(t *testing.T) {
	asDeclared(t, map[string]record.State{
		"meter spot: ~~EV at 100~~ EV at EI\nmeter spot: EV 12\n1A: 1/15 f16":                record.Right,
		"meter spot: EV at ~~100~~ EI\nmeter spot: EV 12\n1A: 1/15 f16":                      record.Right,
		"meter spot: EV at EI, ~~offset -1~~\nmeter spot: EV 12\n1A: 1/15 f16":               record.Right,
		"filter O21: orange, ~~2~~ 3 stops\n1A: O21, 1/8 f16":                                record.Right,
		"filter O21: orange, ~~2~~ 3 stops\n1A: O21, 1/15 f16":                               record.Off,
		"filter O21: orange, ~~tungsten~~ x8\nlight: sun\n1A: O21, 1/8 f16":                  record.Right,
		"lens 210: 210 mm, tested 1/30=1/22 ~~1/60=1/30~~ 1/15=1/8\nlens: 210\n1A: 1/60 f16": record.Right,
		"lens 210: 210 mm, tested 1/30=1/22 ~~1/60=1/30~~ 1/15=1/8\nlens: 210\n1A: 1/15 f45": record.Right,
		"reciprocity: 2s=3s ~~4s=8s~~ 4s=16s 8s=40s\nmeter: 4s f16\n1A: 16s f16":             record.Right,
		"lens 210: ~~150~~ 210 mm\nlens: 210\n1A: ext 297mm, 1/30 f16":                       record.Right,
		"tolerance: ~~1~~ 1/3 stop\n1A: 1/30 f16":                                            record.Off,
	})
}

// A line that chooses a thing is read without what is struck out of it, and a thing that it marks as doubtful decides
// nothing: another of the kit would make the sheet another.
func TestStruckAndDoubtfulChoices(t *testing.T) {
	const kit = "lens 210: 210 mm, tested 1/30=1/15\nlens 150: 150 mm\nfilm slate: EI 64\nmeter spot: EV at 100\n"
	const soft = "film slate: EI 100, N-1 EI 50\nmeter spot: EV at 100\n"
	const spot = "meter: EV 12\n1A: "
	asDeclared(t, map[string]record.State{
		kit + "lens: ~~150~~ 210\n1A: ext 297mm, 1/60 f11":                    record.Right,
		kit + "lens: 150 ~~f5.6~~\n1A: ext 297mm, 1/15 f16":                   record.Right,
		kit + "lens: 210?\n1A: ext 297mm, 1/60 f11":                           record.Unchecked,
		kit + "lens: 210?\n1A: 1/30 f22½":                                     record.Unchecked,
		kit + "lens: 210?\n1A: 1/60 f16":                                      record.Right,
		kit + "lens: 210?\n1A: 1/8 f16":                                       record.Off,
		kit + "lens: 210?\n1A: lens 210, 1/30 f32":                            record.Right,
		kit + "lens: forgot which\n1A: 1/30 f22":                              record.Unchecked,
		kit + "lens: forgot which\n1A: 1/60 f16":                              record.Right,
		kit + "film: ~~moor~~ slate\n" + spot + "1/10 f16":                    record.Right,
		kit + "film: ~~slate~~ moor, EI 64\n" + spot + "1/10 f16":             record.Right,
		kit + "film: slate?\n" + spot + "1/10 f16":                            record.Unchecked,
		kit + "film: slate?, EI 64\n" + spot + "1/3 f16":                      record.Unchecked,
		kit + "film: slate?\n1A: 1/60 f16":                                    record.Right,
		kit + "film: slate, EI 32?\n" + spot + "1/5 f16":                      record.Unchecked,
		kit + "film: slate, ~~EI 50~~ EI 25\n" + spot + "1/4 f16":             record.Right,
		soft + "load 1A: slate, N-1?\n" + spot + "1/15 f16":                   record.Unchecked,
		soft + "film: slate\ndevelop: N-1?\n" + spot + "1/8 f16":              record.Unchecked,
		soft + "film: slate\n" + spot + "1/15 f16\ndevelop 1A: N-1?":          record.Unchecked,
		soft + "film: slate\n" + spot + "1/15 f16\ndevelop 1A: N ~~N-1~~":     record.Right,
		soft + "film: slate\nmeter: 1/60 f16\n1A: 1/60 f16\ndevelop 1A: N-1?": record.Right,
		kit + "load 1A: ~~moor~~ slate\n" + spot + "1/10 f16":                 record.Right,
		kit + "load 1A: slate?\n" + spot + "1/10 f16":                         record.Unchecked,
	})
	season, _ := compileText("meter: 1/60 f16\n1A 1B 2A 2B: 1/60 f16\nresult 1A: ~~scratched~~ clean\nresult 1B: fogged?\nresult 2A: perhaps a light leak\nresult 2B: dust, a leak?\n" +
		"neg 1A: ~~26-101~~ 26-102\nsleeve 1A: ~~binder 2~~ binder 3\n")
	if lost := season.Losses; len(lost) != 1 || lost[0].Cause != "dust" || len(lost[0].Sheets) != 1 {
		t.Error(lost)
	}
	if sh := season.Sheets[0]; sh.Number != "26-102" || sh.Sleeve != "binder 3" {
		t.Errorf("number %q, sleeve %q", sh.Number, sh.Sleeve)
	}
}

// A name that a line chooses is found, and nothing else of the line, beside what is struck out and before a question mark.
func TestNamesBesideStruckOnes(t *testing.T) {
	const text = "lens 210: 210 mm\nlens 150: 150 mm\nlens: ~~150~~ 210?, the new one\n"
	checked := compile.Check(compile.World{Read: func(string) ([]byte, error) { return []byte(text), nil }}, "notes.md")
	found := false
	for _, n := range checked.Names() {
		if n.Span.Start > strings.LastIndex(text, "lens:") {
			found = n.Kind == compile.ALens && n.Span.Text() == "210" && n.Exact
		}
	}
	if !found {
		t.Error(checked.Names())
	}
}
