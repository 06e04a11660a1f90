package compile_test

import (
	"errors"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/lang/diag"
)

// slipGround is the kit with all that a line of the corpus, once it is mended,
// speaks of: the holder loaded, and the sheet logged that it amends, develops or
// copies.
func slipGround(line string) string {
	ground := slipKit + "load 1A 10A: slate\n"
	for _, word := range []string{"dev", "am", "sc", "result", "3B same", "3B: same"} {
		if strings.HasPrefix(line, word) && !strings.HasPrefix(line, "scene") {
			return ground + "3A: Y8, 1/30 f16\n"
		}
	}
	return ground
}

func foundOn(ground, line string) diag.List {
	read := func(name string) ([]byte, error) {
		switch name {
		case "notes.md":
			return []byte(ground + line + "\n"), nil
		case "kti.md":
			return []byte("film sedge: ISO 100\n"), nil
		}
		return nil, errors.New(name + ": no such file")
	}
	_, list := compile.Compile(compile.World{Title: "Slips", Read: read}, "notes.md")
	return list
}

// Every fix that is offered for a slip of the corpus, applied, removes its
// finding and brings no new one that counts. A sheet whose settings could not be
// read before may be found off once they can: that is no fault of the fix.
func TestFixesOfTheSlipsMend(t *testing.T) {
	fixes, judged := 0, 0
	for _, s := range append(slipsByHand(t), slipsByRule()...) {
		ground := slipGround(s.line)
		before := foundOn(ground, s.line)
		was := codes(before)
		for _, d := range before {
			at := len(ground)
			if d.Fix == nil || d.Fix.Span.Start < at {
				continue
			}
			fixes++
			mended := s.line[:d.Fix.Span.Start-at] + d.Fix.Text + s.line[d.Fix.Span.End-at:]
			for code, after := range codes(foundOn(ground, mended)) {
				if _, known := was[code]; code == "exposure-off" {
					judged++
				} else if code == d.Code || !known && after.Severity != diag.Note {
					t.Errorf("%s: mended to %s: %s: %s", s.line, mended, code, after.Message)
				}
			}
		}
	}
	t.Logf("%d fixes; %d sheets can be judged once they are read, and are off", fixes, judged)
	if fixes < 150 {
		t.Errorf("only %d fixes are offered", fixes)
	}
}
