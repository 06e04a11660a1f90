package html

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"notchbook/compile/record"
	"notchbook/render/html/chrome"
)

// npm is where .ci/run installs what checks pages from outside: axe-core, which
// knows WCAG, and html-validate.
const npm = "../../.ci/npm/node_modules"

// fromNPM gives the path of an installed file, or skips the test.
func fromNPM(t *testing.T, name string) string {
	t.Helper()
	full, err := filepath.Abs(filepath.Join(npm, name))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(full); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("no %s; npm ci in .ci/npm installs it", full)
		}
		t.Skipf("no %s: the pages were not checked with it (npm ci in .ci/npm installs it)", name)
	}
	return full
}

// everyKind is a season of which every page and part is written: with tests, years,
// places come back to, and what filters did beside the forecast.
func everyKind() *record.Season {
	s := testedSeason()
	sc := s.Outings[0].Scenes[0]
	through := sc.Sheets[1]
	move := []record.Move{{Stops: -1, Low: -1.1, High: -.9}}
	sc.Compared = &record.Compared{
		Controls: sc.Sheets[:1], Drift: "from 1A to 2B the light stayed", How: "no characteristic curve known of slate after N",
		Sheets: []*record.Filtered{{Sheet: through, Name: "R25", Declared: record.Known(3), By: "declared", Forecast: record.Known(2.7),
			Spots: []record.SpotMove{{Spot: "sky", Measured: record.Known(-.9), Forecast: record.Known(-1)}}, Says: []string{"sky went down 0.9 stop, forecast 1"}}},
		Forecast: &record.Forecast{Film: "panchromatic film", Light: "daylight", Subjects: []record.Subject{{Name: "clear sky", Key: "sky", From: "CIE daylight"}},
			Casts: []*record.Cast{{Name: "R25", Stops: record.Known(2.7), Moves: move}}, From: []record.Fact{{Name: "film", Value: "a table"}}, Held: "it misses by 0.15 stop"},
	}
	for _, sh := range sc.Sheets {
		sh.Densities = []record.Density{{Spot: "base+fog", D: .1}, {Spot: "sky", D: 1.1}}
	}
	s.Years = []*record.Year{{Year: "2026", Films: []record.FilmUse{{Film: "slate", Sheets: 3}}, Losses: s.Losses}}
	s.Places = []*record.PlaceVisits{{Name: "Aldermoor", Visits: []record.Visit{{Date: "2026-11-07", ISO: "2026-11-07", Sheets: sc.Sheets}, {Date: "14 jan", Sheets: sc.Sheets[:1]}}}}
	return s
}

// TestAccess holds every page, by day and by night, to WCAG 2.2 AA as far as
// axe-core can tell.
func TestAccess(t *testing.T) {
	axe, err := os.ReadFile(fromNPM(t, "axe-core/axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	m := mustWrite(t, everyKind(), options())
	tab := chrome.Open(t)
	dir := written(t, m)
	const run = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}).then(r =>
		[r.passes.length, ...r.violations.map(v => v.id + ": " + v.nodes.slice(0, 2).map(n => n.html + " " + n.failureSummary).join(" | "))].map(String))`
	for _, name := range m.pagesOf() {
		chrome.Look[bool](t, tab, pageURL(dir, name), 390, string(axe)+"; true")
		for _, light := range []string{"light", "dark"} {
			chrome.Light(t, tab, light)
			got, err := chromedp.Run(tab, chromedp.Evaluate[[]string](run, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if got[0] == "0" {
				t.Errorf("%s: nothing was checked", name)
			}
			for _, fault := range got[1:] {
				t.Errorf("%s, %s: %s", name, light, fault)
			}
		}
	}
}

// TestValid holds every page to the rules of HTML as html-validate knows them.
func TestValid(t *testing.T) {
	tool := fromNPM(t, ".bin/html-validate")
	dir := written(t, mustWrite(t, everyKind(), options()))
	rules := filepath.Join(t.TempDir(), "rules.json")
	if err := os.WriteFile(rules, []byte(`{"root": true, "extends": ["html-validate:standard"]}`), 0o666); err != nil {
		t.Fatal(err)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "*.html"))
	if err != nil || len(pages) == 0 {
		t.Fatal("no pages: ", err)
	}
	out, err := exec.Command(tool, append([]string{"--config", rules, "--formatter", "text"}, pages...)...).CombinedOutput()
	if err != nil {
		t.Error(fmt.Sprint(err, "\n", strings.ReplaceAll(string(out), dir+"/", "")))
	}
}
