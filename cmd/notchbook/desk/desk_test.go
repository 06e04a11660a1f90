package desk_test

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"notchbook/cmd/notchbook/program"
	"notchbook/render/html/chrome"
)

// The desk as the command serves it, to a client and to a browser.

func TestMain(m *testing.M) { program.Main(m, chrome.Close) }

const brickworks = "2026-10-04-brickworks.md"

// atDesk starts a desk and gives its first program.DeskAddress.
func atDesk(t *testing.T, dir string) string {
	t.Helper()
	out := program.Background(t, "desk", dir)
	program.Eventually(t, "the desk's address", func() bool { return program.DeskAddress.MatchString(out.String()) })
	return program.DeskAddress.FindString(out.String())
}

func TestDeskTurnsStrangersAway(t *testing.T) {
	first := atDesk(t, program.Aldermoor(t))
	base, _, _ := strings.Cut(first, "?")
	known := program.Visitor(t, first)
	program.Visitor(t, strings.Replace(first, "127.0.0.1", "localhost", 1))
	ask := func(c *http.Client, method, path, host string) int {
		r, err := http.NewRequest(method, strings.TrimSuffix(base, "/"), nil)
		if err != nil {
			t.Fatal(err)
		}
		r.URL.Opaque = path // as it is, without being cleaned
		if host != "" {
			r.Host = host
		}
		answer, err := c.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		return answer.StatusCode
	}
	port := base[strings.LastIndexByte(strings.TrimSuffix(base, "/"), ':'):]
	for _, c := range []struct {
		who                *http.Client
		method, path, host string
		want               int
	}{
		{known, "GET", "/record/index.html", "", 200},
		{known, "GET", "/scans/2026-10-04-1A.jpg", "", 200},
		{known, "HEAD", "/record/style.css", "", 200},
		{http.DefaultClient, "GET", "/record/index.html", "", 403},
		{http.DefaultClient, "GET", "/", "", 403},
		{http.DefaultClient, "GET", "/?key=AAAA", "", 403},
		{known, "GET", "/record/index.html", "rebound.example", 403},
		{known, "GET", "/record/index.html", "rebound.example" + strings.TrimSuffix(port, "/"), 403},
		{known, "GET", "/record/index.html", "127.0.0.1:1", 403},
		{known, "POST", "/record/index.html", "", 405},
		{known, "PUT", "/2026-10-04-brickworks.md", "", 405},
		{known, "GET", "/kit.md", "", 404},
		{known, "GET", "/../kit.md", "", 404},
		{known, "GET", "/record/../../../../etc/passwd", "", 404},
		{known, "GET", "/record/%2e%2e/kit.md", "", 404},
		{known, "GET", "/scans/..%2fkit.md", "", 404},
	} {
		if got := ask(c.who, c.method, c.path, c.host); got != c.want {
			t.Errorf("%s %s as %q: %d, want %d", c.method, c.path, c.host, got, c.want)
		}
	}
}

// A hundred saves one after the other are one edition, which holds the last.
func TestDeskMakesOneEditionOfManySaves(t *testing.T) {
	dir := program.Aldermoor(t)
	first := atDesk(t, dir)
	c := program.Visitor(t, first)
	base, _, _ := strings.Cut(first, "?")
	answer, err := c.Get(base + "desk/editions")
	if err != nil {
		t.Fatal(err)
	}
	editions := make(chan string, 100)
	go func() {
		defer answer.Body.Close()
		for lines := bufio.NewScanner(answer.Body); lines.Scan(); {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				editions <- data
			}
		}
	}()
	defer answer.Body.Close()
	name := filepath.Join(dir, brickworks)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i <= 100; i++ {
		if err := os.WriteFile(name, fmt.Appendf(text, "\nSaved %d times.\n", i), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	changed := <-editions
	if !strings.Contains(changed, "outing-2026-10-04") || strings.Contains(changed, "outing-2026-11-07") {
		t.Errorf("changed: %s", changed)
	}
	page, err := c.Get(base + "record/outing-2026-10-04.html")
	if err != nil {
		t.Fatal(err)
	}
	defer page.Body.Close()
	if body, _ := io.ReadAll(page.Body); !strings.Contains(string(body), "Saved 100 times.") {
		t.Error("the edition does not hold the last save")
	}
	select {
	case more := <-editions:
		t.Errorf("another edition: %s", more)
	case <-time.After(600 * time.Millisecond):
	}
}

// The page that lies open changes when the notebook is saved, and what was at
// the top of the window stays there.
func TestDeskInBrowser(t *testing.T) {
	tab := chrome.Open(t)
	dir := program.Aldermoor(t)
	first := atDesk(t, dir)
	base, _, _ := strings.Cut(first, "?")
	const sheet = `document.querySelectorAll("main article[id]")[4]`
	for _, page := range []string{first, base + "record/outing-2026-10-04.html"} {
		chrome.Go(t, tab, page)
	}
	before := chrome.Ask[float64](t, tab, sheet+`.scrollIntoView({behavior: "instant"}); document.querySelector("details").open = true; `+sheet+`.getBoundingClientRect().top`)
	name := filepath.Join(dir, brickworks)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	longer := strings.Replace(string(text), "Up at five", "This was written later, and it is some lines long.\n\nIt pushes the rest of the page down.\n\nUp at five", 1)
	if err := os.WriteFile(name, []byte(longer), 0o644); err != nil {
		t.Fatal(err)
	}
	program.Eventually(t, "the page with what was saved", func() bool {
		return chrome.Ask[bool](t, tab, `document.body.textContent.includes("It pushes the rest of the page down.")`)
	})
	after, unfolded := chrome.Ask[float64](t, tab, sheet+`.getBoundingClientRect().top`), chrome.Ask[bool](t, tab, `document.querySelector("details").open`)
	if diff := after - before; diff > 2 || diff < -2 || !unfolded {
		t.Errorf("the sheet stood at %.0f and stands at %.0f; unfolded: %v", before, after, unfolded)
	}
}

// Pages with scripts of their own go on working when a notebook is saved: what was
// asked is asked of the new notes, and the large picture that was looked at is
// turned on from where it was.
func TestDeskKeepsScriptsAlive(t *testing.T) {
	tab := chrome.Open(t)
	dir := program.Aldermoor(t)
	first := atDesk(t, dir)
	base, _, _ := strings.Cut(first, "?")
	visit := func(page string) { chrome.Go(t, tab, page) }
	name := filepath.Join(dir, brickworks)
	save := func(line string) {
		t.Helper()
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, append(text, line...), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	visit(first)
	visit(base + "record/find.html")
	const found = `document.querySelectorAll("main tbody tr").length`
	program.Eventually(t, "the find page's script", func() bool {
		return chrome.Ask[bool](t, tab, `!document.getElementById("find.query").closest("[hidden]")`)
	})
	before := chrome.Ask[float64](t, tab, `(() => { const q = document.getElementById("find.query"); q.value = "R25"; q.dispatchEvent(new Event("input")); return `+found+`; })()`)
	save("\n9A: R25, f16 1/8\n")
	program.Eventually(t, "what was saved among what is found", func() bool {
		return chrome.Ask[float64](t, tab, found) == before+1 && chrome.Ask[string](t, tab, `document.getElementById("find.query").value`) == "R25"
	})

	visit(base + "record/pictures-2026-10-04.html")
	const shown = `[...document.querySelectorAll("figure.view")].filter(f => !f.hidden).map(f => f.id).join()`
	const turn = `document.dispatchEvent(new KeyboardEvent("keydown", {key: "ArrowRight"})); `
	start := chrome.Ask[string](t, tab, shown)
	second := chrome.Ask[string](t, tab, turn+shown)
	program.Eventually(t, "the large picture", func() bool {
		return chrome.Ask[bool](t, tab, `(i => Math.max(i.naturalWidth, i.naturalHeight) > 400)(document.querySelector("figure.view:not([hidden]) img"))`)
	})
	chrome.Ask[bool](t, tab, `window.before = true`)
	save("\nscan 9A: scans/2026-10-04-1A.jpg\n")
	program.Eventually(t, "the page of pictures, loaded again", func() bool {
		return chrome.Ask[bool](t, tab, `window.before === undefined && document.readyState === "complete"`)
	})
	if got := chrome.Ask[string](t, tab, shown); got != second || second == start {
		t.Errorf("%s was looked at behind %s, and now %s", second, start, got)
	}
	if third := chrome.Ask[string](t, tab, turn+shown); third == second || third == "" || strings.Contains(third, ",") {
		t.Errorf("the key turns from %s to %q", second, third)
	}
}

// The wipe between two scans goes on when a notebook is saved: with the scans that
// were chosen and the edge where it was, and its controls still move it.
func TestDeskKeepsTheWipe(t *testing.T) {
	tab := chrome.Open(t)
	dir := program.Aldermoor(t)
	first := atDesk(t, dir)
	base, _, _ := strings.Cut(first, "?")
	chrome.Go(t, tab, first)
	chrome.Go(t, tab, base+"record/"+chrome.Ask[string](t, tab, `fetch("outing-2026-10-04.html").then(a => a.text()).then(text => text.match(/scene-[^"#]*kiln-from[^"#]*\.html/)[0])`))
	// The scans by their names, and where the upper one is cut off.
	const state = `["left", "right"].map(n => (s => s.options[s.value].text)(document.getElementById("wipe." + n))).join() + " " + [...document.querySelectorAll("[id='wipe.pair'] img")].map(i => i.alt.split(",")[0] + " " + i.style.clipPath).join("; ")`
	move := func(left, right, edge string) string {
		t.Helper()
		return chrome.Ask[string](t, tab, `(() => { for (const [name, value] of [["left", "`+left+`"], ["right", "`+right+`"], ["at", "`+edge+`"]]) { const e = document.getElementById("wipe." + name); e.value = value; e.dispatchEvent(new Event("input")); } return `+state+`; })()`)
	}
	chosen := move("1", "2", "30")
	if !strings.Contains(chosen, "70%") {
		t.Fatalf("the wipe stands at %q", chosen)
	}
	chrome.Ask[bool](t, tab, `window.before = true`)
	name := filepath.Join(dir, brickworks)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), "light: hazy sun from the left", "light: hazy sun from the right", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	program.Eventually(t, "the scene with what was saved", func() bool {
		return chrome.Ask[bool](t, tab, `window.before === undefined && document.readyState === "complete" && document.body.textContent.includes("from the right")`)
	})
	if got := chrome.Ask[string](t, tab, state); got != chosen {
		t.Errorf("the wipe stood at %q and stands at %q", chosen, got)
	}
	if got := move("2", "0", "80"); got == chosen || !strings.Contains(got, "20%") {
		t.Errorf("moved, the wipe stands at %q", got)
	}
}
