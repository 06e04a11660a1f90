package html

import (
	"reflect"
	"strings"
	"testing"

	"notchbook/compile/record"
	"notchbook/render/html/chrome"
)

// testedSeason is the fixture with a test of filters in it, which the kit names.
func testedSeason() *record.Season {
	s := season()
	sheets := s.Outings[0].Sheets[:3]
	t := &record.Test{
		Kind: "filter", Name: "2026-11-07 1A-2A", Title: "Filters, slate: <b>wall</b>", Slug: "test-filters", Film: "slate", Light: "hazy sun", Sheets: sheets,
		Place: record.Place{Path: "aldermoor/brick works.md", Line: 12, Column: 1, EndLine: 12, EndColumn: 9},
		Results: []record.TestResult{
			{Of: "R25", How: "densities against the controls", Text: "2.7 stops (2.72 reckoned, ±0.04 stop)", Value: record.Known(2.72), Unit: "stops", Error: record.Known(0.04),
				WithOdd: "3.1 stops (3.06)", Declared: "3 stops (×8), kit.md:10; the test finds 0.3 stop less", Offer: "filter R25: Wratten 25, 2.7 stops, test 2026-11-07 1A-2A", From: sheets[:2]},
			{Of: "exponent", How: "a power law", Why: "cannot tell: two times tell a loss and no law"},
		},
		Plots: []record.TestPlot{
			{Title: "characteristic curve of slate", Kind: record.Characteristic, X: "log₁₀ of the exposure", Y: "density over base and fog", Lines: []record.PlotLine{
				{Name: "slate", Joined: true, Points: curvePoints()}, {Points: [][2]float64{{-1, 0.12}, {-0.4, 0.42}, {0.2, 0.9}}},
			}, Marks: []record.PlotMark{{At: [2]float64{-0.4, 0.42}, Text: "2A", Odd: true}}},
			{Title: "what the filters cost", Kind: record.Steps, Y: "stops", Lines: []record.PlotLine{{Name: "tested", Points: [][2]float64{{1, 2.7}, {2, -0.8}}}},
				Marks: []record.PlotMark{{At: [2]float64{1, 0}, Text: "R25"}, {At: [2]float64{2, 0}, Text: "Y8"}}},
			{Title: "what the law leaves", Kind: record.Residuals, X: "log₁₀ of seconds", Y: "stops", Lines: []record.PlotLine{{Points: [][2]float64{{0, 0.02}, {1, -0.03}}}}},
		},
		Odd:   []record.OddSheet{{Sheet: sheets[2], Off: "it got 1 stop less than the others make it", Known: []string{"gust during exposure"}}},
		Needs: []string{"the base and fog"}, Notes: []string{"errors are one standard error"},
	}
	s.Tests = []*record.Test{t}
	if len(s.Kit) > 0 {
		s.Kit[0].Tested, s.Kit[0].Tests = []string{t.Name}, []*record.Test{t}
	}
	return s
}

func curvePoints() [][2]float64 {
	var all [][2]float64
	for x := -1.6; x < 0.6; x += 0.05 {
		all = append(all, [2]float64{x, 0.25 * (x + 1.7) * (x + 1.7)})
	}
	return all
}

func TestTestsHaveAPage(t *testing.T) {
	m := mustWrite(t, testedSeason(), options())
	page := string(m.files["tests.html"])
	for _, want := range []string{"2.7 stops", "with the sheets that do not belong", "it got 1 stop less", "filter R25: Wratten 25", "cannot tell", "&lt;b&gt;wall", "<svg"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %s", want)
		}
	}
	if !strings.Contains(string(m.files["kit.html"]), `href="tests.html#test-filters"`) {
		t.Error("the kit does not lead to the test")
	}
	if _, there := mustWrite(t, season(), options()).files["tests.html"]; there {
		t.Error("a record without a test has a page of tests")
	}
}

// No sideways scrolling on a phone, nor when every word is wider than the page.
func TestTestsFitAPhone(t *testing.T) {
	tab := chrome.Open(t)
	wide := testedSeason()
	eachField(wide, func(name string, v reflect.Value) {
		if !strings.HasSuffix(name, "Slug") && !strings.HasSuffix(name, "Anchor") && name != "Index.Kind" && name != "Target.URL" && name != "TestPlot.Kind" {
			v.SetString(strings.Repeat("W", 120))
		}
	})
	for _, s := range []*record.Season{testedSeason(), wide} {
		m := mustWrite(t, s, options())
		if width := chrome.Look[float64](t, tab, pageURL(written(t, m), "tests.html"), 360, `document.scrollingElement.scrollWidth`); width > 360 {
			t.Errorf("the page is %.0f pixels wide on a phone of 360", width)
		}
	}
}

// The words of every drawing can be read on a phone.
func TestWordsOfDrawingsOnAPhone(t *testing.T) {
	tab := chrome.Open(t)
	dir := written(t, mustWrite(t, testedSeason(), options()))
	const smallest = `Math.min(...[...document.querySelectorAll("svg.drawing text")].map(t => parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a))`
	for _, page := range []string{"tests.html", "index.html", "outing-2026-11-07-brickworks.html"} {
		if px := chrome.Look[float64](t, tab, pageURL(dir, page), 390, smallest); px < 10 {
			t.Errorf("%s: words of %.1f px", page, px)
		}
	}
}
