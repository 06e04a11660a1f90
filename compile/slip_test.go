package compile_test

import (
	"slices"
	"testing"

	"notchbook/compile/slip"
)

// Each hypothesis carries a notebook in which it is what happened. It must be
// named there, and for the last sheet only.
func TestHypothesesFitTheirExamples(t *testing.T) {
	for _, h := range slip.Table() {
		t.Run(h.Slug, func(t *testing.T) {
			season, list := compileText(h.Example)
			last := season.Sheets[len(season.Sheets)-1]
			named := false
			for _, f := range season.Findings {
				if f.Code != "exposure-off" {
					continue
				}
				if len(f.Sheets) != 1 || f.Sheets[0] != last {
					t.Errorf("another sheet is blamed: %s", f.Message)
				}
				named = named || slices.Contains(f.Causes, h.Slug)
				if !named {
					t.Errorf("named are %v; off by %.2f", f.Causes, last.Difference.Value)
				}
			}
			if !named {
				t.Errorf("not found; what is: %v", list)
			}
		})
	}
}
