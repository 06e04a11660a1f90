// Package chrome opens pages in a real browser. Only tests import it.
package chrome

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
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

// patience is how long one test may keep a browser.
const patience = 5 * time.Minute

// started is the one browser of a room's tests: starting it takes longer than most
// pages that are looked at in it.
var started struct {
	once    sync.Once
	browser context.Context
	err     error
	stop    []func() // the last first
}

// Open gives a window without a memory of its own in the browser of the room's tests,
// or skips the test where there is none; under CI=true there must be one. The room's
// TestMain ends with Close.
func Open(t testing.TB) context.Context {
	t.Helper()
	program, err := exec.LookPath("chromium")
	switch {
	case err != nil && os.Getenv("CI") == "true":
		t.Fatal("chromium is not installed: the pages must be seen in a browser")
	case err != nil:
		t.Skip("chromium is not installed: the pages were not seen in a browser")
	}
	started.once.Do(func() { start(program) })
	if started.err != nil {
		t.Fatal(started.err)
	}
	tab, end := chromedp.NewContext(started.browser, chromedp.WithNewBrowserContext())
	t.Cleanup(end)
	tab, late := context.WithTimeout(tab, patience)
	t.Cleanup(late)
	return tab
}

func start(program string) {
	memory, err := os.MkdirTemp("", "chromium")
	if err != nil {
		started.err = err
		return
	}
	flags := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(memory))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), flags...)
	browser, end := chromedp.NewContext(alloc)
	started.stop = []func(){end, stop, func() { os.RemoveAll(memory) }}
	started.browser = browser
	started.err = chromedp.Do(browser)
}

// Close ends the browser, if there is one.
func Close() {
	for _, stop := range started.stop {
		stop()
	}
}

// FileURL is where a browser finds a file.
func FileURL(name string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(name)}).String()
}

// Resize makes the window so many pixels wide, and as high as a phone.
func Resize(t testing.TB, tab context.Context, width int64) {
	t.Helper()
	size := emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 740, DeviceScaleFactor: 1}
	if _, err := chromedp.Call(tab, emulation.SetDeviceMetricsOverride, size); err != nil {
		t.Fatal(err)
	}
}

// Light sets the reader's wish: "light" or "dark".
func Light(t testing.TB, tab context.Context, wish string) {
	t.Helper()
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: wish}}}
	if _, err := chromedp.Call(tab, emulation.SetEmulatedMedia, media); err != nil {
		t.Fatal(err)
	}
}

// Scripts turns the pages' scripts on or off; Ask works either way.
func Scripts(t testing.TB, tab context.Context, on bool) {
	t.Helper()
	if _, err := chromedp.Call(tab, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !on}); err != nil {
		t.Fatal(err)
	}
}

// Go opens a page and waits for its load event.
func Go(t testing.TB, tab context.Context, address string) {
	t.Helper()
	if err := chromedp.Do(tab, chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", address, err)
	}
}

// Ask asks the page something, in JavaScript; a promise is waited for. What the
// coming of another page cuts off is asked of that page.
func Ask[T any](t testing.TB, tab context.Context, question string) T {
	t.Helper()
	for again := 0; ; again++ {
		got, err := chromedp.Run(tab, chromedp.Evaluate[T](question, chromedp.EvalAwaitPromise))
		if err == nil {
			return got
		}
		if again == 5 || !strings.Contains(err.Error(), "navigated") && !strings.Contains(err.Error(), "context was destroyed") {
			t.Fatal(err)
		}
	}
}

// Look opens a page in a window so many pixels wide and asks it something.
func Look[T any](t testing.TB, tab context.Context, address string, width int64, question string) T {
	t.Helper()
	Resize(t, tab, width)
	Go(t, tab, address)
	got, err := chromedp.Run(tab, chromedp.Evaluate[T](question, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", address, err)
	}
	return got
}

// Press presses keys, one after the other.
func Press(t testing.TB, tab context.Context, keys ...string) {
	t.Helper()
	for _, key := range keys {
		if err := chromedp.Do(tab, chromedp.KeyEvent(key)); err != nil {
			t.Fatal(err)
		}
	}
}

// Print gives the page as the browser prints it.
func Print(t testing.TB, tab context.Context) []byte {
	t.Helper()
	pdf, err := chromedp.Run(tab, chromedp.PrintToPDF())
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// Watch listens to what the browser says and asks for.
type Watch struct {
	mu          sync.Mutex
	said, asked []string
	requests    int
	within      string
}

// Listen watches a tab until its context ends. Requests may go to what begins
// with within.
func Listen(t testing.TB, tab context.Context, within string) *Watch {
	t.Helper()
	w := &Watch{within: within}
	if err := chromedp.Listen(tab, w.on); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(tab, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	return w
}

func (w *Watch) on(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		w.said = append(w.said, string(e.Type))
	case *runtime.EventExceptionThrown:
		w.said = append(w.said, e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		w.said = append(w.said, e.Entry.Text+" "+e.Entry.URL)
	case *network.EventRequestWillBeSent:
		w.requests++
		if !strings.HasPrefix(e.Request.URL, w.within) {
			w.asked = append(w.asked, e.Request.URL)
		}
	}
}

// Check reports what the browser had to say, what it asked for elsewhere, and
// whether it asked for so many things at least, for else nothing was watched.
func (w *Watch) Check(t testing.TB, least int) {
	t.Helper()
	w.mu.Lock()
	defer w.mu.Unlock()
	slices.Sort(w.asked)
	if len(w.said) > 0 || len(w.asked) > 0 || w.requests < least {
		t.Errorf("of %d requests (%d at least), outside of %s: %q; the browser said %q", w.requests, least, w.within, slices.Compact(w.asked), w.said)
	}
}
