package main

import (
	"strings"
	"testing"

	"notchbook/lang"
)

// Every log word is answered, though no chapter is headed so; what stands between
// fences is no heading.
func TestNotationIsFoundByItsWords(t *testing.T) {
	for _, w := range lang.Words() {
		out := must(t, "notation", string(w)).out
		if !strings.Contains(strings.ToLower(out), string(w)) {
			t.Errorf("notation %s: %s", w, out)
		}
	}
	for words, want := range map[string]string{
		"private":       "| `private` | | a remark for no one else",
		"reciprocity":   "\n    = film pan100: ISO 100 | film EI 64 | pan | reciprocity t^1.31 over 1s",
		"filters":       "## Filters\n",
		"finding":       "## Finding sheets\n",
		"typo":          "## Typography\n",
		"brackets":      "Square brackets `[ ]` are an editor's.",
		"flash":         "No reading knows the light of a `flash`",
		"Declarations,": "## Declarations\n",
	} {
		if out := must(t, "notation", words).out; !strings.Contains(out, want) {
			t.Errorf("notation %s lacks %q:\n%s", words, want, out)
		}
	}
	if out := must(t, "notation", "3A: 1/33").out; strings.Contains(out, "## 3A") || !strings.Contains(out, "\n3A: 1/33 [sic] f16\n    = sheet 3A: 1/33 (sic) | f/16") {
		t.Error("an example is taken for a chapter:\n", out)
	}
	none := notchbook(t, "notation", "xylophone")
	if none.status != found || !strings.Contains(none.err, "\n  Readings\n") || strings.Contains(none.err, "3A:") {
		t.Errorf("status %d: %s", none.status, none.err)
	}
}
