package pdf

import (
	"bytes"
	"testing"

	"notchbook/compile/record"
)

// A season with a test has a section of tests; the parts can be chosen.
func TestTestsAreASection(t *testing.T) {
	s := season(3)
	s.Tests = []*record.Test{{
		Kind: "speed", Name: "2026-11-07 1A-1B", Title: "Film speed, slate", Slug: "test", Film: "slate", Sheets: s.Sheets[:2],
		Results: []record.TestResult{{Of: "exposure index", How: "density 0.10 at Zone I", Text: "EI 64", Value: record.Known(64), Offer: "film slate: EI 64", From: s.Sheets[:2]}},
		Plots: []record.TestPlot{{Title: "curve", Kind: record.Characteristic, X: "log", Y: "density", Lines: []record.PlotLine{
			{Name: "slate", Joined: true, Points: [][2]float64{{-1.5, 0.02}, {-1, 0.1}, {-0.5, 0.35}, {0, 0.7}}}}}},
		Odd: []record.OddSheet{{Sheet: s.Sheets[0], Off: "it got 1 stop less"}},
	}}
	var with, without bytes.Buffer
	if err := Write(&with, s, Options{Parts: []string{"tests"}}); err != nil {
		t.Fatal(err)
	}
	s.Tests = nil
	if err := Write(&without, s, Options{Parts: []string{"tests"}}); err != nil {
		t.Fatal(err)
	}
	if with.Len() < without.Len()+1000 {
		t.Errorf("the section adds %d bytes", with.Len()-without.Len())
	}
}
