package html

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

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

// TestAccess holds every page, by day and by night, to WCAG 2.2 AA as far as
// axe-core can tell.
func TestAccess(t *testing.T) {
	axe, err := os.ReadFile(fromNPM(t, "axe-core/axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	m := mustWrite(t, season(), options())
	tab := chrome.Open(t)
	dir := written(t, m)
	const run = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}).then(r =>
		[r.passes.length, ...r.violations.map(v => v.id + ": " + v.nodes.slice(0, 2).map(n => n.html + " " + n.failureSummary).join(" | "))].map(String))`
	for _, light := range []string{"light", "dark"} {
		chrome.Light(t, tab, light)
		for _, name := range m.pagesOf() {
			chrome.Look[bool](t, tab, pageURL(dir, name), 390, string(axe)+"; true")
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
	dir := written(t, mustWrite(t, season(), options()))
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
