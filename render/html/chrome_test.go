package html

import (
	"context"
	"net/url"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// chromium is where the browser test looks. Set SHOTS to a folder to have every
// page drawn there, on a phone and on a desk, by day and by night.
const chromium = "/usr/bin/chromium"

// browser starts a browser without a memory of its own, or skips the test.
func browser(t *testing.T) context.Context {
	t.Helper()
	if _, err := os.Stat(chromium); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("no browser at %s; the pages must be seen in one", chromium)
		}
		t.Skipf("no browser at %s: the pages were not looked at", chromium)
	}
	flags := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(t.TempDir()))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), flags...)
	t.Cleanup(stop)
	tab, end := chromedp.NewContext(alloc)
	t.Cleanup(end)
	tab, late := context.WithTimeout(tab, 3*time.Minute)
	t.Cleanup(late)
	return tab
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

// watch collects what the browser says and asks for.
type watch struct {
	mu       sync.Mutex
	said     []string
	asked    []string
	seen     int
	expected string // where requests may go
}

func (w *watch) on(ev any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch ev := ev.(type) {
	case *runtime.EventConsoleAPICalled:
		w.said = append(w.said, string(ev.Type))
	case *runtime.EventExceptionThrown:
		w.said = append(w.said, ev.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		w.said = append(w.said, ev.Entry.Text+" "+ev.Entry.URL)
	case *network.EventRequestWillBeSent:
		w.seen++
		if !strings.HasPrefix(ev.Request.URL, w.expected) {
			w.asked = append(w.asked, ev.Request.URL)
		}
	}
}

// pageURL is where the browser finds a page.
func pageURL(dir, name string) string {
	return (&url.URL{Scheme: "file", Path: dir + "/" + name}).String()
}

// look opens a page at a width and asks it something.
func look[T any](t *testing.T, tab context.Context, address string, width int64, question string) T {
	t.Helper()
	resize(t, tab, width)
	if err := chromedp.Do(tab, chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", address, err)
	}
	got, err := chromedp.Run(tab, chromedp.Evaluate[T](question, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", address, err)
	}
	return got
}

func resize(t *testing.T, tab context.Context, width int64) {
	t.Helper()
	size := emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 740, DeviceScaleFactor: 1}
	if _, err := chromedp.Call(tab, emulation.SetDeviceMetricsOverride, size); err != nil {
		t.Fatal(err)
	}
}

// TestInBrowser opens every page from the disk, at the width of a small phone.
// It must not slide sideways, must have its typeface, and must want nothing; nor
// when every word of the notes is wider than the page.
func TestInBrowser(t *testing.T) {
	tab := browser(t)
	if _, err := chromedp.Call(tab, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	wide := season()
	eachField(wide, func(name string, v reflect.Value) {
		if !strings.HasSuffix(name, "Slug") && !strings.HasSuffix(name, "Anchor") && name != "Index.Kind" && name != "Target.URL" {
			v.SetString(strings.Repeat("W", 120))
		}
	})
	openAll(t, tab, mustWrite(t, season(), options()))
	openAll(t, tab, mustWrite(t, wide, options()))
}

func openAll(t *testing.T, tab context.Context, m *memory) {
	t.Helper()
	dir := written(t, m)
	w := &watch{expected: pageURL(dir, "")}
	quiet, stop := context.WithCancel(tab)
	defer stop()
	if err := chromedp.Listen(quiet, w.on); err != nil {
		t.Fatal(err)
	}
	for _, name := range m.pagesOf() {
		measure(t, tab, dir, name)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.said) > 0 || len(w.asked) > 0 || w.seen == 0 {
		t.Errorf("of %d requests, outside the folder: %q; the browser said %q", w.seen, w.asked, w.said)
	}
}

func measure(t *testing.T, tab context.Context, dir, name string) {
	t.Helper()
	const question = `document.fonts.ready.then(() => [document.scrollingElement.scrollWidth, innerWidth,
		[...document.fonts].filter(f => f.status == "loaded").length])`
	got := look[[]int](t, tab, pageURL(dir, name), 360, question)
	if got[0] > got[1] || got[1] != 360 {
		t.Errorf("%s: %d px wide in a window of %d", name, got[0], got[1])
	}
	if got[2] == 0 {
		t.Errorf("%s: the typeface was not loaded", name)
	}
}

// TestPolicyHolds puts what the policy must stop into a page and sees it stopped:
// a second wall, for the day when the first has a hole.
func TestPolicyHolds(t *testing.T) {
	m := mustWrite(t, season(), options())
	tab := browser(t)
	bad := `<script>document.title = "run"</script><p style="color: rgb(1, 2, 3)">x</p></main>`
	m.files["index.html"] = []byte(strings.Replace(string(m.files["index.html"]), "</main>", bad, 1))
	dir := written(t, m)
	got := look[[]string](t, tab, pageURL(dir, "index.html"), 360,
		`[document.title, getComputedStyle(document.querySelector("p[style]")).color]`)
	if got[0] == "run" || got[1] == "rgb(1, 2, 3)" {
		t.Errorf("the policy let a script or a style through: title %q, colour %q", got[0], got[1])
	}
}

// TestShots draws the pages for people to look at.
func TestShots(t *testing.T) {
	out := os.Getenv("SHOTS")
	if out == "" {
		t.Skip("SHOTS names no folder: no pictures of the pages")
	}
	m := mustWrite(t, season(), options())
	tab := browser(t)
	dir := written(t, m)
	for _, light := range []string{"light", "dark"} {
		media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: light}}}
		if _, err := chromedp.Call(tab, emulation.SetEmulatedMedia, media); err != nil {
			t.Fatal(err)
		}
		for _, name := range m.pagesOf() {
			to := filepath.Join(out, strings.TrimSuffix(name, ".html")+"-"+light)
			shot(t, tab, pageURL(dir, name), to+"-phone.png", 390)
			shot(t, tab, pageURL(dir, name), to+"-desk.png", 1100)
		}
	}
}

func shot(t *testing.T, tab context.Context, from, to string, width int64) {
	t.Helper()
	look[bool](t, tab, from, width, `document.fonts.ready.then(() => true)`)
	b, err := chromedp.Run(tab, chromedp.FullScreenshot(100))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, b, 0o666); err != nil {
		t.Fatal(err)
	}
}
