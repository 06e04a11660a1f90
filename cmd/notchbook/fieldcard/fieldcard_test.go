package fieldcard_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"notchbook/cmd/notchbook/program"
	"notchbook/render/html/chrome"
)

// The card as the command writes it, in a browser and on paper.

func TestMain(m *testing.M) { program.Main(m, chrome.Close) }

// cardInBrowser makes the example's card and opens it from the disk on a phone
// without a network, and waits for its checker.
func cardInBrowser(t *testing.T) (tab context.Context, card string) {
	t.Helper()
	card = filepath.Join(t.TempDir(), "card.html")
	program.Must(t, "fieldcard", program.Example(t), "-o", card)
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
	program.Eventually(t, "the checker of the card", func() bool {
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
	program.Eventually(t, "the findings on the card", func() bool { return chrome.Ask[bool](t, tab, `window.notchbookSaid !== null`) })
	return chrome.Ask[string](t, tab, `window.notchbookSaid`)
}

// The checker on the card is the checker: of the same notes it says the same,
// byte for byte.
func TestCardSaysWhatCheckSays(t *testing.T) {
	tab, card := cardInBrowser(t)
	for _, name := range []string{"2026-10-04-brickworks.md", "2026-10-25-drying-shed.md", "2026-11-07-wharf.txt"} {
		text, err := os.ReadFile(filepath.Join(program.Example(t), name))
		if err != nil {
			t.Fatal(err)
		}
		kit, err := os.ReadFile(filepath.Join(program.Example(t), "kit.md"))
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		// The scans are at home, and so is the line that names them.
		note := withoutScans(string(text))
		program.Fill(t, dir, map[string]string{"kit.md": string(kit), "notes.md": note})
		// The card knows of no folder that the note is in.
		want := strings.ReplaceAll(program.Run(t, "check", "--format", "json", dir).Out, filepath.ToSlash(dir)+"/", "")
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
	program.Eventually(t, "findings after the card was opened again", func() bool { return chrome.Ask[int](t, tab, `document.querySelectorAll("#found li").length`) > 0 })
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

// answers asks the card about a reading and gives each row by its filter.
func answers(t *testing.T, tab context.Context, fields map[string]string) map[string]string {
	t.Helper()
	for id, value := range fields {
		chrome.Ask[bool](t, tab, `(e => { e.value = `+quoted(value)+`; e.dispatchEvent(new Event("input")); return e.value === `+quoted(value)+`; })(document.getElementById(`+quoted(id)+`))`)
	}
	return chrome.Ask[map[string]string](t, tab, `Object.fromEntries([...document.querySelectorAll("#answers tbody tr")].map(r => [r.cells[0].textContent, r.cells[1].textContent + " | " + r.cells[2].textContent]))`)
}

// A film that does not see what a filter passes gets no settings behind it: the card
// says so in the words of the command line.
func TestCardOffersNothingToAFilmThatIsBlind(t *testing.T) {
	tab, _ := cardInBrowser(t)
	rows := answers(t, tab, map[string]string{"film": "curlew", "lens": "150", "reading": "EV 12"})
	said := program.Run(t, "reckon", "--kit", filepath.Join(program.Example(t), "kit.md"), "film curlew, lens 150, metered EV 12, R25")
	const words = "ortho film does not see the light that R25 passes"
	if !strings.HasSuffix(rows["R25"], "| "+words) || !strings.Contains(said.Err, words) {
		t.Errorf("the card says %q, the command %q", rows["R25"], said.Err)
	}
	if n := chrome.Ask[int](t, tab, `[...document.querySelectorAll("#answers tbody tr")].filter(r => r.cells[0].textContent === "R25" && r.tabIndex >= 0).length`); n != 0 {
		t.Error("a line is offered for R25")
	}
	if row := rows["Y8"]; !strings.Contains(row, "1⅓ | ") || !strings.Contains(row, "f/") {
		t.Errorf("Y8 on the same film: %q", row)
	}
	if row := answers(t, tab, map[string]string{"film": "sedge"})["R25"]; !strings.Contains(row, "3 | ") || !strings.Contains(row, "f/") {
		t.Errorf("R25 on a film that sees red: %q", row)
	}
}

// The kit has values of its own by tungsten light: chosen on the card they count
// there, and the line for the note brings its light along.
func TestCardTakesTheLight(t *testing.T) {
	tab, _ := cardInBrowser(t)
	if lights := chrome.Ask[string](t, tab, `[...document.getElementById("light").options].map(o => o.text).join()`); lights != "daylight,tungsten" {
		t.Fatalf("the card has the lights %s", lights)
	}
	ask := map[string]string{"film": "curlew", "lens": "150", "reading": "EV 12", "aperture": "f8"}
	for _, light := range []string{"daylight", "tungsten"} {
		ask["light"] = light
		row := answers(t, tab, ask)["none"]
		said := strings.Fields(program.Must(t, "reckon", "--kit", filepath.Join(program.Example(t), "kit.md"), "--light", light, "film curlew, lens 150, metered EV 12, f8").Out)
		// EI 20 by daylight and 10 by tungsten; the settings stand behind the lens.
		index := map[string]string{"daylight": "20;", "tungsten": "10;"}[light]
		at := slices.Index(said, index)
		if at < 0 || !strings.Contains(row, said[at+3]+"  "+said[at+4]) {
			t.Errorf("by %s the card says %q, the command %q", light, row, said)
		}
	}
	line := chrome.Ask[string](t, tab, `(() => { document.getElementById("label").value = "3A"; document.querySelector("#answers tbody tr").click(); return document.getElementById("line").textContent })()`)
	if !strings.HasPrefix(line, "light: tungsten\n3A: ") {
		t.Errorf("the line is %q", line)
	}
	var out struct {
		Sheets []struct{ Label, State string }
	}
	if err := json.Unmarshal([]byte(typeNote(t, tab, "day: 2026-11-01\nload 3A: curlew\n"+line+"\n")), &out); err != nil || len(out.Sheets) != 1 || out.Sheets[0].State != "right" {
		t.Errorf("%v, %v of\n%s", err, out.Sheets, line)
	}
	// By daylight again, in a note that has another light.
	answers(t, tab, map[string]string{"light": "daylight"})
	if line = chrome.Ask[string](t, tab, `(() => { document.querySelector("#answers tbody tr").click(); return document.getElementById("line").textContent })()`); !strings.HasPrefix(line, "light: daylight\n3A: ") {
		t.Errorf("behind another light the line is %q", line)
	}
}

// The card is one file below 6 MB, asks nobody for anything, has the findings of the
// note that it kept when it is opened again, and does not take the place of somebody's notes.
func TestCardIsOneSmallFile(t *testing.T) {
	tab, card := cardInBrowser(t)
	info, err := os.Stat(card)
	if err != nil || info.Size() > 6_000_000 {
		t.Errorf("%v, %d bytes", err, info.Size())
	}
	text, err := os.ReadFile(filepath.Join(program.Example(t), "2026-10-04-brickworks.md"))
	if err != nil {
		t.Fatal(err)
	}
	typeNote(t, tab, string(text))
	w := chrome.Listen(t, tab, chrome.FileURL(card))
	load(t, tab, card)
	if n := chrome.Ask[int](t, tab, `document.querySelectorAll("#found > li").length`); n == 0 {
		t.Error("opened again, the card has no findings of the note that it kept")
	}
	t.Logf("the findings of a kept note stood %s ms after opening", chrome.Ask[string](t, tab, `document.documentElement.dataset.ready`))
	w.Check(t, 1)
	note := filepath.Join(t.TempDir(), "notes.md")
	if err := os.WriteFile(note, []byte("3A: f16 1/30\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if s := program.Run(t, "fieldcard", program.Example(t), "-o", note); s.Status != program.Failed || !strings.Contains(s.Err, "nothing was changed") {
		t.Errorf("said %q", s.Err)
	}
}

// Printed, the card is sound, and holds the kit's figures and no more than one
// sheet of paper.
func TestCardIsPrinted(t *testing.T) {
	dir := t.TempDir()
	for paper, pages := range map[string]string{"a6": "Pages:           2", "card": "Pages:           1"} {
		for _, on := range []string{"a4", "letter"} {
			file := filepath.Join(dir, paper+on+".pdf")
			program.Must(t, "fieldcard", program.Example(t), "--paper", paper, "--on", on, "-o", file)
			program.Must(t, "fieldcard", program.Example(t), "--paper", paper, "--on", on, "-o", file) // over itself
			program.Ask(t, "qpdf", "--check", file)
			if about := program.Ask(t, "pdfinfo", file); !strings.Contains(about, pages) {
				t.Errorf("%s on %s:\n%s", paper, on, about)
			}
			text := strings.Join(strings.Fields(program.Ask(t, "pdftotext", "-raw", file, "-")), " ")
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
	if said := program.Run(t, "fieldcard", program.Example(t), "--paper", "a6", "-o", notes); said.Status != program.Failed || !strings.Contains(said.Err, "was not written by notchbook") {
		t.Errorf("%d: %s", said.Status, said.Err)
	}
}

// What a film was tested for stands on the card to its last entry, a power law to an hour;
// and what has one opening is not said to need more light as it is drawn out.
func TestCardTellsLongTimesToTheirEnd(t *testing.T) {
	dir := t.TempDir()
	program.Fill(t, dir, map[string]string{"kit.md": `# Bag

camera field: 4x5, ext 65-400 mm
lens 150: 150 mm, f5.6-f64
lens pinhole: 75 mm, f256
lens zone: 100 mm, f64
film lune: ISO 100, reciprocity 1s=2s 4s=10s 1m=4m 8m=1h
film fern: ISO 100, reciprocity 2s=3s 15s=35s
film sedge: ISO 100, reciprocity t^1.31 over 1s
`})
	card, pdf := filepath.Join(dir, "card.html"), filepath.Join(dir, "card.pdf")
	program.Must(t, "fieldcard", dir, "-o", card)
	program.Must(t, "fieldcard", dir, "--paper", "card", "-o", pdf)
	text, err := os.ReadFile(card)
	if err != nil {
		t.Fatal(err)
	}
	part := func(head string) string {
		_, rest, _ := strings.Cut(string(text), "<h2>"+head+"</h2>")
		rest, _, _ = strings.Cut(rest, "<h2>")
		return rest
	}
	for head, want := range map[string][]string{
		"Film lune":  {">1 s<", ">1m<", ">4m<", ">8m<", ">1h<", ">15m<", "beyond the rule"},
		"Film fern":  {">15 s<", ">35 s<", ">30 s<", "beyond the rule", "~>1m<"},
		"Film sedge": {">1m<", ">30m<", ">1h<", "~beyond the rule"},
		"Lens 150":   {"Extension"}, "Lens pinhole": {"f/256", "~Extension"}, "Lens zone": {"~Extension"},
	} {
		for _, w := range want {
			if without, not := strings.CutPrefix(w, "~"); strings.Contains(part(head), without) == not {
				t.Errorf("%s: %q in\n%s", head, w, part(head))
			}
		}
	}
	if paper := strings.Join(strings.Fields(program.Ask(t, "pdftotext", "-raw", pdf, "-")), " "); !strings.Contains(paper, "8m 1h ×7.5") {
		t.Errorf("on paper:\n%s", paper)
	}
}
