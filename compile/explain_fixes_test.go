package compile_test

import (
	"testing"

	"notchbook/lang/diag"
)

// Every fix that is offered for a slip of the corpus, applied, removes its
// finding and brings no new one that counts.
func TestFixesOfTheSlipsMend(t *testing.T) {
	fixes := 0
	for _, s := range append(slipsByHand(t), slipsByRule()...) {
		before := found(s.line)
		for _, d := range before {
			if d.Fix == nil {
				continue
			}
			fixes++
			at := len(slipKit)
			if d.Fix.Span.Start < at {
				t.Errorf("%s: the fix is for the kit", s.line)
				continue
			}
			mended := s.line[:d.Fix.Span.Start-at] + d.Fix.Text + s.line[d.Fix.Span.End-at:]
			was := codes(before)
			for code, after := range codes(found(mended)) {
				if _, known := was[code]; code == d.Code || !known && after.Severity != diag.Note {
					t.Errorf("%s: mended to %s: %s: %s", s.line, mended, code, after.Message)
				}
			}
		}
	}
	t.Logf("%d fixes", fixes)
	if fixes < 50 {
		t.Errorf("only %d fixes are offered", fixes)
	}
}
