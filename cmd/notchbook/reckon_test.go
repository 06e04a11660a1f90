package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// Whatever is typed counts or is answered: 1/15 s at f/16 is a 60th at f/8 (ISO 516 and
// 517 marks, a stop apart each), and no time is passed over.
func TestReckonUsesATimeThatIsNamed(t *testing.T) {
	for terms, want := range map[string]string{
		"meter 1/15 f16, 1/60":     "\n  1/60  f/8  exact\n",
		"meter 1/15 f16, f8":       "\n  1/60  f/8  exact\n",
		"meter 1/15 f16, 1/60 f16": "given  EV 14  1/60 f/16; 2 stops under\n",
		"meter 1/15 f16, 5s f22":   "it would take the film, for the reciprocity of 5 s\n",
	} {
		if out := must(t, "reckon", terms).out; !strings.Contains(out, want) {
			t.Errorf("%s lacks %q:\n%s", terms, want, out)
		}
	}
	for terms, want := range map[string]string{
		"meter 1/15 f16, 5s":    "no film is named",
		"meter 1/15 f16, 4x1s":  "several exposures are not reckoned",
		"meter 1/15 f16, 5s 8s": "which of the two times stands",
	} {
		if s := notchbook(t, "reckon", terms); s.status != found || !strings.Contains(s.err, want) {
			t.Errorf("%s: status %d: %s%s", terms, s.status, s.out, s.err)
		}
	}
}

// A finding about the terms themselves is in no file of the kit's folder.
func TestReckonNamesNoFileThatIsNotThere(t *testing.T) {
	kit := filepath.Join(aldermoor(t), "kit.md")
	s := notchbook(t, "reckon", "--kit", kit, "meter 1/15 f16, X99")
	if !strings.HasPrefix(s.err, "terms:1:") {
		t.Error(s.err)
	}
}
