package html

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"notchbook/render/html/chrome"
)

func TestMain(m *testing.M) {
	status := m.Run()
	chrome.Close()
	os.Exit(status)
}

// written writes a record to a folder of its own and returns the folder.
func written(t *testing.T, m *memory) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "season", "record")
	for name, b := range m.files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, b, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// pageURL is where the browser finds a page.
func pageURL(dir, name string) string { return chrome.FileURL(dir + "/" + name) }

// TestInBrowser opens every page from the disk, at the width of a small phone.
// It must not slide sideways, must have its typeface, and must want nothing; nor
// when every word of the notes is wider than the page.
func TestInBrowser(t *testing.T) {
	wide := season()
	eachField(wide, func(name string, v reflect.Value) {
		if !strings.HasSuffix(name, "Slug") && !strings.HasSuffix(name, "Anchor") && name != "Index.Kind" && name != "Target.URL" {
			v.SetString(strings.Repeat("W", 120))
		}
	})
	openAll(t, mustWrite(t, season(), options()))
	openAll(t, mustWrite(t, wide, options()))
}

func openAll(t *testing.T, m *memory) {
	t.Helper()
	tab, dir := chrome.Open(t), written(t, m)
	w := chrome.Listen(t, tab, pageURL(dir, ""))
	for _, name := range m.pagesOf() {
		measure(t, tab, dir, name)
	}
	w.Check(t, len(m.pagesOf()))
}

func measure(t *testing.T, tab context.Context, dir, name string) {
	t.Helper()
	const question = `document.fonts.ready.then(() => [document.scrollingElement.scrollWidth, innerWidth,
		[...document.fonts].filter(f => f.status == "loaded").length,
		[...document.querySelectorAll(".wide:has(> .stacked)")].filter(e => e.scrollWidth > e.clientWidth).length])`
	got := chrome.Look[[]int](t, tab, pageURL(dir, name), 360, question)
	if got[0] > got[1] || got[1] != 360 {
		t.Errorf("%s: %d px wide in a window of %d", name, got[0], got[1])
	}
	if got[3] > 0 {
		t.Errorf("%s: a table that is set for a phone is wider than it", name)
	}
	if got[2] == 0 {
		t.Errorf("%s: the typeface was not loaded", name)
	}
}

// TestPolicyHolds puts what the policy must stop into a page and sees it stopped:
// a second wall, for the day when the first has a hole.
func TestPolicyHolds(t *testing.T) {
	m := mustWrite(t, season(), options())
	tab := chrome.Open(t)
	bad := `<script>document.title = "run"</script><p style="color: rgb(1, 2, 3)">x</p></main>`
	m.files["index.html"] = []byte(strings.Replace(string(m.files["index.html"]), "</main>", bad, 1))
	dir := written(t, m)
	got := chrome.Look[[]string](t, tab, pageURL(dir, "index.html"), 360,
		`[document.title, getComputedStyle(document.querySelector("p[style]")).color]`)
	if got[0] == "run" || got[1] == "rgb(1, 2, 3)" {
		t.Errorf("the policy let a script or a style through: title %q, colour %q", got[0], got[1])
	}
}

// TestShots draws every page for people to look at, on a phone and on a desk, by
// day and by night, into the folder that SHOTS names.
func TestShots(t *testing.T) {
	out := os.Getenv("SHOTS")
	if out == "" {
		t.Skip("SHOTS names no folder: no pictures of the pages")
	}
	m := mustWrite(t, season(), options())
	tab := chrome.Open(t)
	dir := written(t, m)
	for _, light := range []string{"light", "dark"} {
		chrome.Light(t, tab, light)
		for _, name := range m.pagesOf() {
			to := filepath.Join(out, strings.TrimSuffix(name, ".html")+"-"+light)
			shot(t, tab, pageURL(dir, name), to+"-phone.png", 390)
			shot(t, tab, pageURL(dir, name), to+"-desk.png", 1100)
		}
	}
}

func shot(t *testing.T, tab context.Context, from, to string, width int64) {
	t.Helper()
	chrome.Look[bool](t, tab, from, width, `document.fonts.ready.then(() => true)`)
	b, err := chromedp.Run(tab, chromedp.FullScreenshot(100))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, b, 0o666); err != nil {
		t.Fatal(err)
	}
}

// TestWithoutScript opens every page in a browser that runs no script: all is
// there but finding, wiping and turning, and the page that cannot do without says
// what can.
func TestWithoutScript(t *testing.T) {
	m := mustWrite(t, season(), options())
	tab := chrome.Open(t)
	dir := written(t, m)
	chrome.Scripts(t, tab, false)
	w := chrome.Listen(t, tab, pageURL(dir, ""))
	const seen = `[String(document.querySelector("main").innerText.trim().length), document.querySelector("main").innerText,
		String([...document.querySelectorAll("main figure, main article, main table, main li")].filter(e => !e.closest("details, [id='find.list']") && e.getClientRects().length == 0).length)]`
	for _, name := range m.pagesOf() {
		got := chrome.Look[[]string](t, tab, pageURL(dir, name), 360, seen)
		if got[0] == "0" || got[2] != "0" {
			t.Errorf("%s: %s characters are shown, %s parts are not", name, got[0], got[2])
		}
		if name == "find.html" && !strings.Contains(got[1], "Finding needs a script") {
			t.Errorf("%s says %q", name, got[1])
		}
	}
	w.Check(t, len(m.pagesOf()))
}

// TestDark: by night every page is light on dark, drawings too, by the reader's
// wish alone. That the pairs of colours can be read is TestContrast's and axe's.
func TestDark(t *testing.T) {
	m := mustWrite(t, season(), options())
	tab := chrome.Open(t)
	dir := written(t, m)
	const tones = `["body", "h1", ".drawing .t"].map(q => {
		const e = document.querySelector(q);
		if (!e) return -1;
		const s = getComputedStyle(e), c = q == "body" ? s.backgroundColor : q == "h1" ? s.color : s.fill;
		return c.match(/\d+/g).slice(0, 3).reduce((a, b) => a + Number(b), 0) / 3;
	})`
	for wish, dark := range map[string]bool{"light": false, "dark": true} {
		chrome.Light(t, tab, wish)
		drawn := 0
		for _, name := range m.pagesOf() {
			got := chrome.Look[[]float64](t, tab, pageURL(dir, name), 390, tones)
			for i, tone := range got {
				if light := dark == (i > 0); tone >= 0 && (light && tone < 150 || !light && tone > 105) {
					t.Errorf("%s, %s: of ground, heading and drawing number %d has the tone %.0f of 255", name, wish, i, tone)
				}
			}
			if got[2] >= 0 {
				drawn++
			}
		}
		if drawn == 0 {
			t.Error("no drawing was seen")
		}
	}
}

// TestLinksLead clicks, as a reader does: from the season to the sheet furthest
// off, whose entry is then what the window shows, and on from there.
func TestLinksLead(t *testing.T) {
	tab := chrome.Open(t)
	dir := written(t, mustWrite(t, season(), options()))
	const here = `new Promise((said) => {
		const look = (left) => {
			const at = document.querySelector(":target"), top = at?.getBoundingClientRect().top;
			if (left > 0 && at && !(top < innerHeight)) setTimeout(look, 50, left - 1); // not yet scrolled there
			else said([location.href.split("/").pop(), at?.id ?? "", String(top < innerHeight)]);
		};
		look(60);
	})`
	chrome.Look[bool](t, tab, pageURL(dir, "index.html"), 390, "true")
	for _, step := range []struct{ click, page, at string }{
		{`.wrong .ledger a`, "outing-2026-11-07-brickworks.html#2026-11-07-2b", "2026-11-07-2b"},
		{`a[href="scene-drying-shed.html"]`, "scene-drying-shed.html", ""},
		{`.beside a[href]`, "outing-2026-11-07-brickworks.html#2026-11-07-2a", "2026-11-07-2a"},
		{`a[href="findings.html"]`, "findings.html", ""},
		{`.finding a[href]`, "outing-2026-11-07-brickworks.html#2026-11-07-1b", "2026-11-07-1b"},
		{`[id="2026-11-07-1b"] .picture a`, "pictures-2026-11-07-brickworks.html#", ""},
	} {
		if err := chromedp.Do(tab, chromedp.Click(step.click), chromedp.WaitReady("footer")); err != nil {
			t.Fatalf("%s: %v", step.click, err)
		}
		got := chrome.Ask[[]string](t, tab, here)
		if !strings.HasPrefix(got[0], step.page) || step.at != "" && (got[1] != step.at || got[2] != "true") {
			t.Errorf("%s led to %q, want %s", step.click, got, step.page)
		}
	}
}
