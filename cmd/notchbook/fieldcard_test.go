package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"notchbook/render/html/chrome"
)

// cardInBrowser makes the example's card and opens it from the disk on a phone
// without a network, and waits for its checker.
func cardInBrowser(t *testing.T) (tab context.Context, card string) {
	t.Helper()
	card = filepath.Join(t.TempDir(), "card.html")
	must(t, "fieldcard", "../../examples/aldermoor", "-o", card)
	tab = chrome.Open(t)
	if _, err := chromedp.Call(tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: 360, Height: 740, DeviceScaleFactor: 2, Mobile: true}); err != nil {
		t.Fatal(err)
	}
	load(t, tab, card)
	return tab, card
}

func load(t *testing.T, tab context.Context, card string) {
	t.Helper()
	chrome.Go(t, tab, chrome.FileURL(card))
	eventually(t, "the checker of the card", func() bool {
		return chrome.Ask[bool](t, tab, `"ready" in document.documentElement.dataset`)
	})
}

func quoted(text string) string {
	b, _ := json.Marshal(text)
	return string(b)
}

// typeNote puts a text into the note as a person does, and waits for what there
// is to say.
func typeNote(t *testing.T, tab context.Context, text string) string {
	t.Helper()
	chrome.Ask[bool](t, tab, `window.notchbookSaid = null; document.getElementById("notes").value = `+quoted(text)+`; document.getElementById("notes").dispatchEvent(new Event("input")); true`)
	eventually(t, "the findings on the card", func() bool { return chrome.Ask[bool](t, tab, `window.notchbookSaid !== null`) })
	return chrome.Ask[string](t, tab, `window.notchbookSaid`)
}

// The checker on the card is the checker: of the same notes it says the same,
// byte for byte.
func TestCardSaysWhatCheckSays(t *testing.T) {
	tab, card := cardInBrowser(t)
	for _, name := range []string{brickworks, "2026-10-25-drying-shed.md", "2026-11-07-wharf.txt"} {
		text, err := os.ReadFile("../../examples/aldermoor/" + name)
		if err != nil {
			t.Fatal(err)
		}
		kit, err := os.ReadFile("../../examples/aldermoor/kit.md")
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		// The scans are at home, and so is the line that names them.
		note := withoutScans(string(text))
		fill(t, dir, map[string]string{"kit.md": string(kit), "notes.md": note})
		want := notchbook(t, "check", "--format", "json", dir).out
		if got := typeNote(t, tab, note); got != want || !strings.Contains(want, "exposure-off") {
			t.Errorf("%s: on the card\n%s\non the desk\n%s", name, got, want)
		}
	}
	if n := chrome.Ask[int](t, tab, `document.querySelectorAll("#found li").length`); n == 0 {
		t.Error("nothing is shown")
	}
	if wide := chrome.Ask[int](t, tab, `document.scrollingElement.scrollWidth`); wide > 360 {
		t.Errorf("the card is %d pixels wide", wide)
	}
	load(t, tab, card) // what was typed is there again, and is checked
	if kept := chrome.Ask[string](t, tab, `document.getElementById("notes").value`); !strings.Contains(kept, "day:") {
		t.Errorf("after the card was opened again its note is %q", kept)
	}
	eventually(t, "findings after the card was opened again", func() bool { return chrome.Ask[int](t, tab, `document.querySelectorAll("#found li").length`) > 0 })
}

func withoutScans(text string) string {
	var kept []string
	for line := range strings.SplitSeq(text, "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), "scan") {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}

// Every line that the card offers for a reading is right when it is logged.
func TestCardOffersRightLines(t *testing.T) {
	tab, _ := cardInBrowser(t)
	rows := 0
	for _, reading := range []string{"1/60 f16", "EV 5 on III", "incident EV 8", "EV 2"} {
		chrome.Ask[bool](t, tab, `document.getElementById("reading").value = `+quoted(reading)+`; document.getElementById("aperture").value = "f22"; document.getElementById("reading").dispatchEvent(new Event("input")); true`)
		n := chrome.Ask[int](t, tab, `document.querySelectorAll("#answers tbody tr").length`)
		if n != 7 { // none, and the kit's six
			t.Fatalf("%s: %d rows", reading, n)
		}
		note := "day: 2026-11-01\nload 1A-9B: sedge\n"
		for i := range n {
			line := chrome.Ask[string](t, tab, `(() => { const r = document.querySelectorAll("#answers tbody tr")[`+string(rune('0'+i))+`]; document.getElementById("label").value = "`+string(rune('1'+i))+`A"; r.click(); return document.getElementById("line").textContent })()`)
			if strings.HasPrefix(line, "…") || line == "" {
				continue
			}
			note += line + "\n"
			rows++
		}
		var out struct {
			Sheets []struct{ Label, State string }
		}
		if err := json.Unmarshal([]byte(typeNote(t, tab, note)), &out); err != nil {
			t.Fatal(err)
		}
		for _, s := range out.Sheets {
			if s.State != "right" {
				t.Errorf("%s: %s is %s in\n%s", reading, s.Label, s.State, note)
			}
		}
	}
	if rows < 20 {
		t.Errorf("only %d lines were offered", rows)
	}
}

// The card is one file below 6 MB, asks nobody for anything, says something
// within two seconds here, and does not take the place of somebody's notes.
func TestCardIsOneSmallFile(t *testing.T) {
	tab, card := cardInBrowser(t)
	info, err := os.Stat(card)
	if err != nil || info.Size() > 6_000_000 {
		t.Errorf("%v, %d bytes", err, info.Size())
	}
	w := chrome.Listen(t, tab, chrome.FileURL(card))
	began := time.Now()
	load(t, tab, card)
	t.Logf("opened and ready after %v", time.Since(began).Round(10*time.Millisecond))
	w.Check(t, 1)
	note := filepath.Join(t.TempDir(), "notes.md")
	if err := os.WriteFile(note, []byte("3A: f16 1/30\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if s := notchbook(t, "fieldcard", "../../examples/aldermoor", "-o", note); s.status != failed || !strings.Contains(s.err, "nothing was changed") {
		t.Errorf("said %q", s.err)
	}
}

// Printed, the card is sound, and holds the kit's figures and no more than one
// sheet of paper.
func TestCardIsPrinted(t *testing.T) {
	dir := t.TempDir()
	for paper, pages := range map[string]string{"a6": "Pages:           2", "card": "Pages:           1"} {
		for _, on := range []string{"a4", "letter"} {
			file := filepath.Join(dir, paper+on+".pdf")
			must(t, "fieldcard", "../../examples/aldermoor", "--paper", paper, "--on", on, "-o", file)
			must(t, "fieldcard", "../../examples/aldermoor", "--paper", paper, "--on", on, "-o", file) // over itself
			ask(t, "qpdf", "--check", file)
			if about := ask(t, "pdfinfo", file); !strings.Contains(about, pages) {
				t.Errorf("%s on %s:\n%s", paper, on, about)
			}
			text := strings.Join(strings.Fields(ask(t, "pdftotext", "-raw", file, "-")), " ")
			for _, words := range []string{"Y8 1 ", "O21 2 ", "R25 3 ", "pol 1½", "grey 6", "R25 + pol", "Film sedge", "Lens 300", "full sun f/16 15"} {
				if !strings.Contains(text, words) {
					t.Errorf("%s on %s: %q is not on it", paper, on, words)
				}
			}
		}
	}
	notes := filepath.Join(dir, "mine.pdf")
	if err := os.WriteFile(notes, []byte("%PDF-1.7 a scan of my own"), 0o644); err != nil {
		t.Fatal(err)
	}
	if said := notchbook(t, "fieldcard", "../../examples/aldermoor", "--paper", "a6", "-o", notes); said.status != failed || !strings.Contains(said.err, "was not written by notchbook") {
		t.Errorf("%d: %s", said.status, said.err)
	}
}
