package compile_test

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
)

// The card answers as reckon does: a lens with one aperture has it, an aperture that the
// film's table does not reach is not another one, and what light values are taken as is said.
func TestCardAnswersAsReckonDoes(t *testing.T) {
	const kit = "film noctil: EI 250, reciprocity t^1.3 over 1s\nfilm kestrel: EI 80, reciprocity 1s=1.5s 4s=8s 1m=4m 8m=1h\nlens 150: 150 mm, f5.6-f64\nlens pinhole: 75 mm, f256\n"
	world := compile.World{Read: func(name string) ([]byte, error) {
		if name != "kit.md" {
			return nil, os.ErrNotExist
		}
		return []byte(kit), nil
	}}
	for _, c := range []struct{ terms, aperture, line, why string }{
		{"metered EV 8⅓, film noctil, lens pinhole", "", "16m41s f/256", ""},
		{"metered EV -3⅓, film kestrel, lens 150", "f22", "", "1h 26m f/22 before reciprocity; at f/22 the time lies beyond the last entry of kestrel's reciprocity table, 8m = 1h; another aperture: 35m 45s f/5.6"},
		{"metered EV 3, EI 250", "f16", "", "32 s f/16 before reciprocity; at f/16 the time on film is longer"},
		{"metered EV 11⅓", "f22", "1/4 f/22⅓", ""}, // as nearly as the lens can
	} {
		got := compile.ReckonEach(world, compile.Reading{Terms: c.terms, Aperture: c.aperture}, "kit.md")[0]
		if !strings.HasPrefix(got.Why, c.why) || (c.why == "") != (got.Why == "") || !strings.HasSuffix(got.Line, c.line) || (c.line == "") != (got.Line == "") {
			t.Errorf("%s: %q, %q", c.terms, got.Line, got.Why)
		}
		if len(got.Assumed) == 0 {
			t.Errorf("%s: nothing is said of what the light value is taken as", c.terms)
		}
	}
}

// A kit is the notebooks that only declare. Notes that are their own kit give the lines that declare,
// on the lines where they stand, and nothing of a sheet; with another kit there they are none.
func TestKitOfNotes(t *testing.T) {
	const notes = "# Tarn\n\nlens 210: 210 mm\nlens: 210\n- filter R25: red, x8\nmeter: EV 12\n1A: R25, 1/8 f16\n1B: 1/8 f16 -- his gate\nfilter Y8: x2\n"
	const own = "\n\nlens 210: 210 mm\n\nfilter R25: red, x8\n\n\n\nfilter Y8: x2\n"
	for _, c := range []struct {
		files map[string]string
		want  map[string]string
	}{
		{map[string]string{"notes.md": notes}, map[string]string{"notes.md": own}},
		{map[string]string{"notes.md": notes, "kit.md": "film slate: ISO 100\n"}, map[string]string{"kit.md": "film slate: ISO 100\n"}},
		{map[string]string{"notes.md": "1A: 1/8 f16\nlens: 210\nmeter spot: EV 12\n"}, map[string]string{}},
	} {
		names, texts := compile.Check(files(c.files), slices.Sorted(maps.Keys(c.files))...).Kit()
		if !maps.Equal(texts, c.want) || !slices.Equal(names, slices.Sorted(maps.Keys(c.want))) {
			t.Errorf("%q of %q, want %q", texts, names, c.want)
		}
	}
	card, list := compile.Card(files(map[string]string{"notes.md": own}), "notes.md")
	if len(list) > 0 || len(card.Filters) != 2 || !strings.HasSuffix(card.Filters[0].Source, "notes.md:5") {
		t.Errorf("%+v, %v", card.Filters, list)
	}
}
