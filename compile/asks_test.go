package compile_test

import (
	"strings"
	"testing"

	"notchbook/lang/diag"
)

// What an unchecked sheet would take is said in the writer's own words, each fact once, and no other.
func TestWhatASheetWouldTake(t *testing.T) {
	for notes, facts := range map[string]string{
		"1A: 2s f16\n": "the reading; and the film, for the reciprocity of 2 s",
		"film: moor\nfilm moor: 200\nmeter spot: EV at 100\nmeter: EV 12\n1A: 1/30 f16\n":                                                  "the EI of moor, which 200 may be or change",
		"film: moor\nfilm moor: ISO 100, reciprocity none\nmeter: 1s f16\n1A: 1s f16, hat over the lens for cars\n":                        `how long the lens was covered: "hat over the lens for cars"`,
		"film: moor\nfilm moor: ISO 100, reciprocity none\nmeter: 1/2 f16\n1A: 1s f16, hat over the lens for cars\n":                       `how long the lens was covered: "hat over the lens for cars"`,
		"meter: 1/30 f16\n1A: 1/15 f16 -- a bit more to be safe\n":                                                                         `how much was meant by "a bit more to be safe": it is written bracket +1`,
		"meter: 1/30 f16\n1A: 1/12 f16 -- a bit more to be safe\n":                                                                         `how much was meant by "a bit more to be safe": it is written bracket +1⅓`,
		"meter: 1/30 f16\n1A: 1/15 f16 -- erred on the generous side\n":                                                                    `how much was meant by "erred on the generous side": it is written bracket +1`,
		"film moor: EI 100\nfilm tarn: EI 400\nload 1A: moor\nload 1B: tarn\nmeter: 1/30 f16\n1A: 1/30 f16\n1B: 1/125 f16\n":               "the EI that the meter stood at: 400 or 100",
		"film moor: EI 100\nfilm tarn: EI 400\nload 1A: moor\nload 1B: tarn\nmeter: 1/30 f16\n1A: 1/30 f16\n1B: 1/30 f16\n":                "the EI that the meter stood at: 400 or 100",
		"film: moor\nfilm moor: ISO 100, reciprocity none\nlens: 150\nlens 150: 150 mm\nmeter: 1/30 f16\n1A: ext near the end, 1/15 f16\n": `what "ext near the end" is, and what it costs`,
	} {
		_, list := compileText(notes)
		if said := wouldTake(list); said != facts {
			t.Errorf("%s\nsaid:   %s\nshould: %s", notes, said, facts)
		}
	}
}

// wouldTake is what the sheets of a list would take to be checked, sheet by sheet.
func wouldTake(list diag.List) string {
	var all []string
	for _, f := range list {
		for _, n := range f.Notes {
			if facts, ok := strings.CutPrefix(n.Text, "it would take "); ok && f.Code == "unchecked" {
				all = append(all, facts)
			}
		}
	}
	return strings.Join(all, " | ")
}
