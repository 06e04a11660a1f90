package html

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"notchbook/render/html/chrome"
)

// program finds one of poppler's, or skips the test.
func program(t *testing.T, name string) string {
	t.Helper()
	full, err := exec.LookPath(name)
	switch {
	case err != nil && os.Getenv("CI") == "true":
		t.Fatalf("%s is not installed: what is printed must be seen", name)
	case err != nil:
		t.Skipf("%s is not installed: what is printed was not seen", name)
	}
	return full
}

// TestPrint prints every page as the browser does, with the reader's wish for the
// dark, and reads the paper: everything that the page says is on it, also what
// the screen has folded away, it is dark ink on white, and there is little ink.
func TestPrint(t *testing.T) {
	text, picture := program(t, "pdftotext"), program(t, "pdftoppm")
	s := season()
	m := mustWrite(t, s, Options{Generator: "notchbook 0.1"})
	tab := chrome.Open(t)
	chrome.Light(t, tab, "dark")
	dir, out := written(t, m), t.TempDir()
	const main = `(() => { const m = document.querySelector("main").cloneNode(true); m.querySelectorAll("nav, .turn, .more, .wipe, .heard, noscript, [hidden]").forEach(e => e.remove());
		const all = [], walk = document.createTreeWalker(m, NodeFilter.SHOW_TEXT);
		while (walk.nextNode()) all.push(walk.currentNode.data);
		return all.join(" "); })()`
	for _, name := range m.pagesOf() {
		said := chrome.Look[string](t, tab, pageURL(dir, name), 1000, main)
		pdf := filepath.Join(out, name+".pdf")
		if err := os.WriteFile(pdf, chrome.Print(t, tab), 0o666); err != nil {
			t.Fatal(err)
		}
		read, err := exec.Command(text, pdf, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range plainWords(said) {
			if !strings.Contains(string(read), word) {
				t.Errorf("%s: %q is not printed", name, word)
				break
			}
		}
		drawn, err := exec.Command(picture, "-png", "-r", "30", "-f", "1", "-l", "1", pdf).Output()
		if err != nil {
			t.Fatal(err)
		}
		page, err := png.Decode(bytes.NewReader(drawn))
		if err != nil {
			t.Fatal(err)
		}
		if ink := inked(page); ink > .1 || ink < .001 {
			t.Errorf("%s: %.1f %% of the paper is ink", name, 100*ink)
		}
	}
}

// plainWords are the words that a line's end does not cut in two.
func plainWords(s string) []string {
	return regexp.MustCompile(`\b[A-Za-z]{3,14}\b`).FindAllString(s, -1)
}

// inked is how much of a page is covered: 0 is white, 1 black.
func inked(page image.Image) float64 {
	sum, b := 0., page.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			sum += 255 - float64(color.GrayModel.Convert(page.At(x, y)).(color.Gray).Y)
		}
	}
	return sum / 255 / float64(b.Dx()*b.Dy())
}

// TestPrintPictures: where the screen shows one picture at a time, paper shows
// them all.
func TestPrintPictures(t *testing.T) {
	info := program(t, "pdfimages")
	m := mustWrite(t, wallOf(), options())
	tab := chrome.Open(t)
	address := pageURL(written(t, m), "pictures-2026-11-07-brickworks.html")
	const hidden = `(async () => { for (const i of document.images) i.loading = "eager"; await Promise.all([...document.images].map(i => i.decode())); return document.querySelectorAll("figure[hidden]").length; })()`
	if n := chrome.Look[int](t, tab, address, 1000, hidden); n == 0 {
		t.Fatal("the screen shows all pictures at once")
	}
	pdf := filepath.Join(t.TempDir(), "x.pdf")
	if err := os.WriteFile(pdf, chrome.Print(t, tab), 0o666); err != nil {
		t.Fatal(err)
	}
	list, err := exec.Command(info, "-list", pdf).Output()
	if n := strings.Count(string(list), " image "); err != nil || n != 2 {
		t.Errorf("%v, %d pictures are printed:\n%s", err, n, list)
	}
}
