package main

import (
	"context"
	"path/filepath"
	"testing"

	"notchbook/render/html/chrome"
)

// The compiled record is opened in a browser, from the disk, as its reader will:
// on a small phone and on a desk, with scripts and without.

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

func TestRecordInBrowser(t *testing.T) {
	tab := chrome.Open(t)
	record := filepath.Join(compiledSeason(t), "record")
	w := chrome.Listen(t, tab, chrome.FileURL(record)+"/")
	names, _ := filepath.Glob(filepath.Join(record, "*.html"))
	pictures := 0
	for _, name := range names {
		chrome.Resize(t, tab, 360)
		chrome.Go(t, tab, chrome.FileURL(name))
		for _, width := range []int64{360, 1100} {
			pictures += view(t, tab, name, width)
		}
	}
	if len(names) < 12 || pictures < 12 {
		t.Errorf("%d pages with %d pictures in two widths", len(names), pictures)
	}
	w.Check(t, len(names))
}

// view looks at the page that is open in a window so wide, and counts its pictures.
func view(t *testing.T, tab context.Context, name string, width int64) int {
	t.Helper()
	chrome.Resize(t, tab, width)
	s := chrome.Ask[seen](t, tab, look)
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
