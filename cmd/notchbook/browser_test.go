package main

import (
	"context"
	"net/url"
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

// The compiled record is opened in a browser, from the disk, as its reader will:
// on a small phone and on a desk.

// browser starts a browser without a memory of its own.
func browser(t *testing.T) context.Context {
	t.Helper()
	flags := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(tool(t, "chromium", "the record was not seen in a browser")), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(t.TempDir()))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), flags...)
	t.Cleanup(stop)
	tab, end := chromedp.NewContext(alloc)
	t.Cleanup(end)
	tab, late := context.WithTimeout(tab, 3*time.Minute)
	t.Cleanup(late)
	return tab
}

// seen is what a page turned out to be.
type seen struct {
	Title         string
	Wide, Window  int      // pixels
	Pictures      int      // with pixels of their own
	Empty         []string // pictures without
	Faces, Styled int      // typefaces and style rules that were loaded
}

// look measures a page once everything on it has come, also what a browser
// loads only when it is scrolled to.
const look = `(async () => {
	const pictures = [...document.images];
	for (const p of pictures) p.loading = "eager";
	await Promise.all(pictures.map(p => p.decode().catch(() => 0)));
	await document.fonts.ready;
	return {
		Title: document.title,
		Wide: document.scrollingElement.scrollWidth, Window: innerWidth,
		Pictures: pictures.filter(p => p.naturalWidth > 0).length,
		Empty: pictures.filter(p => p.naturalWidth == 0).map(p => p.src),
		Faces: [...document.fonts].filter(f => f.status == "loaded").length,
		Styled: [...document.styleSheets].length,
	};
})()`

// witness listens to what the browser says and asks for.
type witness struct {
	mu          sync.Mutex
	said, asked []string
	requests    int
	within      string // where requests may go
}

func (w *witness) on(event any) {
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

func TestRecordInBrowser(t *testing.T) {
	tab := browser(t)
	dir := aldermoor(t)
	must(t, "compile", dir)
	record := filepath.Join(dir, "record")
	w := &witness{within: fileURL(record) + "/"}
	if err := chromedp.Listen(tab, w.on); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(tab, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	names, _ := filepath.Glob(filepath.Join(record, "*.html"))
	pictures := 0
	for _, name := range names {
		for _, width := range []int64{360, 1100} {
			pictures += view(t, tab, name, width)
		}
	}
	if len(names) < 12 || pictures < 12 {
		t.Errorf("%d pages with %d pictures in two widths", len(names), pictures)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	slices.Sort(w.asked)
	if len(w.said) > 0 || len(w.asked) > 0 || w.requests < len(names) {
		t.Errorf("of %d requests, outside the record: %q; the browser said %q", w.requests, slices.Compact(w.asked), w.said)
	}
}

func fileURL(name string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(name)}).String()
}

// view opens one page and counts its pictures.
func view(t *testing.T, tab context.Context, name string, width int64) int {
	t.Helper()
	size := emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 740, DeviceScaleFactor: 1}
	if _, err := chromedp.Call(tab, emulation.SetDeviceMetricsOverride, size); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(tab, chromedp.Navigate(fileURL(name))); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	s, err := chromedp.Run(tab, chromedp.Evaluate[seen](look, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	page := filepath.Base(name)
	if s.Title == "" || s.Faces == 0 || s.Styled == 0 {
		t.Errorf("%s: title %q, %d faces, %d style sheets", page, s.Title, s.Faces, s.Styled)
	}
	if s.Wide > s.Window || int64(s.Window) != width {
		t.Errorf("%s is %d px wide in a window of %d", page, s.Wide, s.Window)
	}
	if len(s.Empty) > 0 {
		t.Errorf("%s: pictures without pixels: %q", page, s.Empty)
	}
	return s.Pictures
}
