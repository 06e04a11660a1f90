package html

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"notchbook/compile/record"
	"notchbook/render/html/chrome"
)

// wallOf is the fixture's page of large pictures, with two on it.
func wallOf() *record.Season {
	s := season()
	o := s.Outings[0]
	kiln := o.Scenes[0]
	kiln.Sheets[1].Scans[0].Sheets = kiln.Sheets[1:2]
	return s
}

// TestPictureKeys turns the pictures with the arrow keys and goes to the entry.
func TestPictureKeys(t *testing.T) {
	m := mustWrite(t, wallOf(), options())
	tab := chrome.Open(t)
	address := pageURL(written(t, m), "pictures-2026-11-07-brickworks.html")
	const shown = `[...document.querySelectorAll("figure.view")].map(f => f.hidden ? "-" : f.id).join(" ")`
	first := chrome.Look[string](t, tab, address, 1100, shown)
	press := func(key string) string {
		t.Helper()
		chrome.Press(t, tab, key)
		return chrome.Ask[string](t, tab, shown)
	}
	second := press(kb.ArrowRight)
	if first == second || press(kb.ArrowRight) != second || press(kb.ArrowLeft) != first {
		t.Errorf("the keys led from %q to %q", first, second)
	}
	if err := chromedp.Do(tab, chromedp.KeyEvent(kb.Escape), chromedp.WaitReady(".notes")); err != nil {
		t.Fatal("Escape does not lead to the entry: ", err)
	}
}

// TestWipe moves the edge by keyboard and chooses another scan.
func TestWipe(t *testing.T) {
	m := mustWrite(t, wallOf(), options())
	tab := chrome.Open(t)
	address := pageURL(written(t, m), "scene-long-kiln.html")
	const state = `[document.querySelector("#wipe").hidden, ...[...document.querySelectorAll(".pair img")].flatMap(i => [i.getAttribute("src"), i.style.clipPath])].join("|")`
	before := chrome.Look[string](t, tab, address, 390, state)
	if err := chromedp.Do(tab, chromedp.Focus("[id='wipe.at']"), chromedp.KeyEvent(kb.ArrowRight)); err != nil {
		t.Fatal(err)
	}
	after := chrome.Ask[string](t, tab, state)
	if before == after || before[:5] != "false" {
		t.Errorf("the wipe was %q and is %q", before, after)
	}
}
