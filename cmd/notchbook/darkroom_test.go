package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// What is taken into the darkroom says the same on the terminal, on the page, in the
// book and in the plain text: what to do and in which order, with what, in which
// light, what to look at first, and the cautions.
func TestToDevelopIsWholeInEveryForm(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": `film slate: ISO 400, pan, developer ash 1+31, N 6:15 at 20C, N 5:00 at 24C, agitation 5 s every 30 s, capacity 2 sheets
film plate: ISO 25, ortho, safelight deep red, N 4m at 20C
develop: N
day: 2026-03-01, the mill
load 1A-2B: slate
load 3A: plate
meter: 1/30 f16
1A: 1/30 f16
1B: 1/30 f16
2A: 1/30 f16
2B: 1/4 f16
3A: meter 1/2 f16, 1/2 f16
`})
	out := filepath.Join(t.TempDir(), "record")
	must(t, "compile", dir, "-o", out)
	files := tree(t, out)
	forms := map[string]string{
		"develop":      must(t, "develop", dir).out,
		"develop.html": anchored(t, files["develop.html"], "page.content"),
		"the book":     ask(t, "pdftotext", "-layout", filepath.Join(out, pdfName), "-"),
		textName:       files[textName],
	}
	for form, text := range forms {
		all := squeezed(text)
		for _, want := range []string{
			"ash", "1+31", "6 min 15 s", "20 °C", "5 s every 30 s", "2 sheets", "total darkness", "deep red", "2B", "3 stops over",
			"safety data sheet", "entilate", "gloves", "eye protection", "local rules", "under five minutes",
		} {
			if !strings.Contains(all, squeezed(want)) {
				t.Errorf("%s does not say %q", form, want)
			}
		}
		first, second := strings.Index(text, "ash"), 0
		for _, label := range []string{"1A", "1B", "2A"} {
			at := strings.Index(text[first:], label)
			if at < second {
				t.Errorf("%s: %s is not in its place", form, label)
			}
			second = at
		}
	}
	// Of two at once the third is the second filling's first; what is held back has a
	// box to tick only where it is a list to work through.
	for form, want := range map[string]struct {
		box, filling string
		boxes        int
	}{"develop": {"[ ]", "2.1", 4}, textName: {"[ ]", "filling 2", 5}, "the book": {"☐", "filling 2", 5}} {
		if n := strings.Count(forms[form], want.box); n < want.boxes {
			t.Errorf("%s has %d boxes to tick", form, n)
		}
		if !strings.Contains(forms[form], want.filling) {
			t.Errorf("%s does not say that the third sheet is the second filling", form)
		}
	}
	if n := strings.Count(files["develop.html"], `class="box"`); n < 5 || !strings.Contains(strings.ToLower(forms["develop.html"]), "filling 2") {
		t.Errorf("develop.html has %d boxes to tick, or does not say what the second filling is", n)
	}
}
