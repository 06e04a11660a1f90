package compile_test

import (
	"fmt"
	"strings"
	"testing"
)

// What the messages about some lines say, and what they must not say: what is advised can be
// written so, and means what the writer meant.
func TestAdviceCanBeFollowed(t *testing.T) {
	const kit = "film stone: ISO 100\nfilter Y8: x2\nlens 210: 210 mm\nday: 2026-11-02\nload 1A-4B: stone\nlens: 210\nscene: wall\nmeter: EV 12\n"
	for _, c := range []struct{ notes, says, not string }{
		{kit + "1A: f22 1/8 1/8\n", "in ~~1/8~~; until", "~~1/8~~ or ~~1/8~~"},
		{kit + "1A: f22 1/8, 1/8 f16\n", "~~f22 1/8~~ or ~~1/8 f16~~", ""},
		{kit + "1A: f22 1/8, 1/15\n", "~~1/8~~ or ~~1/15~~", "~~f22"},
		{kit + "1A: f22 1/8, f22\n", "in ~~f22~~; until", " or "},
		{"scene: wall\nmeter: EV 12\nlens: 150\n1A: f22 1/8\n1B: f22 1/8, ext 212 mm\n", "the focal length of the lens, with its unit: lens 150: … mm", "though what is before the film changed"},
		{"scene: wall\nmeter: EV 12\nlens 150 mm\n1A: f22 1/8, ext 212 mm\n", `fix "lens" to "lens:"`, ""},
		{kit + "1A: f16 1/15\namend 1A: f22 not f16\n", "1A had 1/15 f/16 before it was amended", ""},
		{kit + "18:20 scene now very flat\n1A: f22 1/8\n18:20 light now very flat\n1B: f22 1/8\n", "", "fix"},
		{kit + "18:20 scene mill wall\nmeter: EV 12\n1A: f22 1/8\n", "a colon is missing", "fix"},
		{kit + "18:20 scene the mill wall\nmeter: EV 12\n1A: f22 1/8\n", `to "scene: "`, ""},
		{"filter Y8: X2\n" + kit[len("film stone: ISO 100\nfilter Y8: x2\n"):] + "1A: Y8, f22 1/4\n", "", "got"},
		{"filter moss: X2\n" + kit + "1A: moss, f22 1/4\n", "X2 may be the factor of moss, or the old name of a Wratten 13", "got"},
		{"filter R24: x8 bought new\n", "x8 is taken for what R24 costs with \"bought new\" alone", ""},
		{"filter R27: eight times\n", "does not say what R27 costs", ""},
		{"filter moss: x8, bought new\nfilter fern: x2 daylight, x4 lamps\nfilter heath: x4 open shade\n", "", "moss"},
	} {
		_, list := compileText(c.notes)
		said := ""
		for _, d := range list {
			said += d.Message + "\n"
			for _, note := range d.Notes {
				said += note.Text + "\n"
			}
			if d.Fix != nil {
				said += fmt.Sprintf("fix %q to %q\n", d.Fix.Span.Text(), d.Fix.Text)
			}
		}
		if !strings.Contains(said, c.says) || c.not != "" && strings.Contains(said, c.not) {
			t.Errorf("%s: want %q, not %q; said:\n%s", c.notes, c.says, c.not, said)
		}
	}
}

// A lens that is declared nowhere has the focal length that stands in its name, with the unit.
func TestALensIsAsLongAsItsNameSays(t *testing.T) {
	for _, said := range []string{"lens: 150mm", "lens: 150 mm", "lens: 15 cm", "lens: the 150 mm", "lens: 150 mm lens", "lens: 150 mm f5.6", "lens: 150 mm Tele"} {
		lastStands(t, "scene: wall\nmeter: 1/8 f22\n"+said+"\n1A: f22 1/4, ext 212 mm\n", "right", "")
		lastStands(t, "scene: wall\nmeter: 1/8 f22\n"+said+"\n1A: f22 1/8, ext 212 mm\n", "off", "exposure-off")
	}
	for _, said := range []string{"lens: 150", "lens: long", "lens: 75-150 mm", "lens: 90mm and 150mm"} {
		lastStands(t, "scene: wall\nmeter: 1/8 f22\n"+said+"\n1A: f22 1/4, ext 212 mm\n", "unchecked", "unchecked")
	}
}
