package main

import (
	"encoding/csv"
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"notchbook/compile/query"
	"notchbook/compile/record"
	"notchbook/render/html/chrome"
)

// ofHowMany is how many sheets the example has, which is not what is tested.
var ofHowMany = regexp.MustCompile(`of \d+`)

func TestFindListsSheets(t *testing.T) {
	dir := aldermoor(t)
	got := notchbook(t, "find", "R25", "october", dir)
	want := `2026-10-04 2A  Long kiln from the tramway  sedge   300  R25        1/8 f/16   right
2026-10-04 5B  The stack against cloud     sedge   150  R25 + pol  1/4 f/11½  right
2026-10-04 6A  The stack against cloud     curlew  150  R25        1/2 f/16   no image
3 sheets of N: filter R25, in October
`
	if ofHowMany.ReplaceAllString(got.out, "of N") != want || got.status != right {
		t.Errorf("status %d, said:\n%s", got.status, got.out)
	}
	if none := notchbook(t, "find", "R25", "zeppelin", dir); none.status != found || !strings.Contains(none.err, `nothing in these notes is called "zeppelin"`) {
		t.Errorf("nothing found: status %d, %s", none.status, none.err)
	}
	if no := notchbook(t, "find", "R25", filepath.Join(dir, "nowhere", "x.md")); no.status != failed {
		t.Errorf("no such place: status %d, %s%s", no.status, no.out, no.err)
	}
}

// RFC 4180, section 2: as many fields in each row as in the heading, lines ended
// by CRLF; and nothing that a spreadsheet would run.
func TestFindAsTable(t *testing.T) {
	dir := t.TempDir()
	line := "day: 2026-10-04\nscene: =HYPERLINK(\"x\"), a \"quoted\" one\nmeter: 1/60 f16\n3A: 1/30 f16 -- @run\n"
	if err := os.WriteFile(filepath.Join(dir, "a.md"), []byte(line), 0o666); err != nil {
		t.Fatal(err)
	}
	got := notchbook(t, "find", "--format", "csv", "off", dir)
	rows, err := csv.NewReader(strings.NewReader(got.out)).ReadAll()
	if err != nil || len(rows) != 2 || strings.Count(got.out, "\r\n") != 2 || strings.Count(got.out, "\n") != 2 {
		t.Fatalf("%v, %d rows: %q", err, len(rows), got.out)
	}
	cell := func(name string) string { return rows[1][slices.Index(rows[0], name)] }
	for name, want := range map[string]string{
		"scene": `'=HYPERLINK("x"), a "quoted" one`, "remarks": "'@run", "difference (stops, + is over)": "1", "time (s)": "0.031", "state": "off",
	} {
		if cell(name) != want {
			t.Errorf("%s is %q, want %q", name, cell(name), want)
		}
	}
	var out struct{ Sheets []map[string]any }
	if err := json.Unmarshal([]byte(notchbook(t, "find", "--format", "json", "off", dir).out), &out); err != nil || len(out.Sheets) != 1 {
		t.Fatal(err, out)
	}
	if s := out.Sheets[0]; s["difference (stops, + is over)"] != 1. || s["scene"] != `=HYPERLINK("x"), a "quoted" one` {
		t.Errorf("as JSON: %v", s)
	}
}

// The page finds what the program finds: the same sheets for 2 000 queries, of
// spellings, beginnings, dates, joints and mishaps.
func TestFindPageAgreesWithProgram(t *testing.T) {
	tab := chrome.Open(t)
	dir := compiledSeason(t)
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	season, _ := r.compile()
	f := query.Index(season)
	queries := []string{}
	luck := rand.New(rand.NewPCG(4, 5))
	for range 2000 {
		queries = append(queries, randomQuery(f, luck))
	}
	asked, err := json.Marshal(queries)
	if err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(tab, chromedp.Navigate(chrome.FileURL(filepath.Join(dir, "record", "find.html")))); err != nil {
		t.Fatal(err)
	}
	got, err := chromedp.Run(tab, chromedp.Evaluate[[][]int](string(asked)+".map(notchbookFind)"))
	if err != nil {
		t.Fatal(err)
	}
	book := query.Open(f)
	fitting := 0
	for i, q := range queries {
		want := book.Find(q).Sheets
		if !slices.Equal(got[i], want) {
			t.Errorf("%q: the page finds %v, the program %v", q, got[i], want)
		}
		if len(want) > 0 && len(want) < f.Sheets {
			fitting++
		}
	}
	if fitting < 500 {
		t.Errorf("only %d of %d queries tell sheets apart", fitting, len(queries))
	}
}

func randomQuery(f *record.Finder, luck *rand.Rand) string {
	var all []string
	for range 1 + luck.IntN(4) {
		all = append(all, randomItem(f, luck))
	}
	return strings.Join(all, []string{" ", ", ", "  ", "\u00a0", ";"}[luck.IntN(5)])
}

func randomItem(f *record.Finder, luck *rand.Rand) string {
	term := f.Terms[luck.IntN(len(f.Terms))]
	word := f.Words[luck.IntN(len(f.Words))].Name
	date := f.Dates[luck.IntN(len(f.Dates))].Name
	switch luck.IntN(12) {
	case 0, 1, 2:
		return term.Spelled[luck.IntN(len(term.Spelled))]
	case 3:
		return strings.ToUpper(term.Spelled[luck.IntN(len(term.Spelled))])
	case 4:
		return "not " + term.Spelled[luck.IntN(len(term.Spelled))]
	case 5:
		return word
	case 6:
		return word[:1+luck.IntN(len(word))]
	case 7:
		return `"` + word + `"`
	case 8:
		return date[:[]int{4, 7, 10}[luck.IntN(3)]] + []string{"", "..", "…"}[luck.IntN(3)]
	case 9:
		return ".." + date[:[]int{4, 7, 10}[luck.IntN(3)]]
	case 10:
		return []string{"or", "and", "not", "no", "no filter", `"`, "½", "N−1", "f16½", "ＹＥＬＬＯＷ ８", "Ⅲ", "é", "İ", "ΣΑΣ", "kiln’s", "16", "a/b-c", "¹⁄₃₀"}[luck.IntN(18)]
	}
	var b strings.Builder
	for range 1 + luck.IntN(6) {
		r := rune(luck.IntN(0x3000))
		if luck.IntN(2) == 0 {
			r = rune(luck.IntN(0x80))
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Typing narrows the list, the address keeps the query, and the keyboard leads
// to the sheet.
func TestFindPageAsTyped(t *testing.T) {
	tab := chrome.Open(t)
	dir := compiledSeason(t)
	page := chrome.FileURL(filepath.Join(dir, "record", "find.html"))
	if err := chromedp.Do(tab, chromedp.Navigate(page), chromedp.SendKeys(`[id="find.query"]`, "R25 not pol")); err != nil {
		t.Fatal(err)
	}
	const state = `[document.getElementById("find.said").textContent, location.hash, [...document.querySelectorAll("#find\\.list tbody a")].map(a => a.textContent + " " + a.getAttribute("href")).join(";")]`
	got, err := chromedp.Run(tab, chromedp.Evaluate[[]string](state))
	want := []string{"2 sheets of N: filter R25, not filter pol", "#q=R25%20not%20pol", "2A outing-2026-10-04.html#2026-10-04-2a;6A outing-2026-10-04.html#2026-10-04-6a"}
	if err == nil {
		got[0] = ofHowMany.ReplaceAllString(got[0], "of N")
	}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, got %q", err, got)
	}
	if err := chromedp.Do(tab, chromedp.Navigate("about:blank"), chromedp.Navigate(page+"#q=N-1")); err != nil {
		t.Fatal(err)
	}
	if got, err = chromedp.Run(tab, chromedp.Evaluate[[]string](state)); err != nil || ofHowMany.ReplaceAllString(got[0], "of N") != "4 sheets of N: N−1 asked" {
		t.Errorf("%v, from the address: %q", err, got)
	}
}

// The last argument is a path where it is there or certainly meant to be one.
func TestPathOfFind(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.MkdirAll("season", 0o755); err != nil {
		t.Fatal(err)
	}
	for last, path := range map[string]bool{
		"season": true, "season/": true, "season/nowhere": true, "-": true, "lost.md": true, "nowhere/": true, "../x": true,
		"f/16": false, "1/30": false, "slate/flint": false, "R25": false, "2026-10..": false, "f/16½": false,
	} {
		c := findCommand{Terms: []string{"off", last}}
		terms, in := c.split()
		if got := terms == "off" && in == last; got != path || !path && (in != "." || terms != "off "+last) {
			t.Errorf("%s: searched for %q in %q", last, terms, in)
		}
	}
}

// A code that no sheet has is answered as such, and which condition fits nothing is said.
func TestFindSaysWhatFitsNothing(t *testing.T) {
	season := folder(t, map[string]string{"notes.md": "day: 2026-10-04\nmeter: 1/60 f16\n1A: 1/60 f16 -- the settings left by the door\n"})
	for query, want := range map[string]string{
		"settings-left":       "0 sheets of 1: fits settings-left\n",
		"cause:settings-left": "0 sheets of 1: fits settings-left\n",
		"1A finding:fogged-x": "each alone: holder side 1A or sheet 1A 1, finding… fogged… x… 0\n",
		"1A exposure-off":     "each alone: holder side 1A or sheet 1A 1, found exposure-off 0\n",
		"right undeveloped":   "1 sheet of 1: right, undeveloped\n",
	} {
		s := notchbook(t, "find", query, season)
		if !strings.HasSuffix(s.out, want) {
			t.Errorf("%s: %s%s", query, s.out, s.err)
		}
	}
	s := notchbook(t, "find", "1A settings", season) // the word of the remark, though a code begins so
	if s.status != right {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
	if s := notchbook(t, "find", "1A wedge", season); !strings.Contains(s.err, `nothing in these notes is called "wedge"`) {
		t.Errorf("status %d: %s%s", s.status, s.out, s.err)
	}
}

// On a narrow terminal a table's titles are cut where that is enough, else the rest stands below; no figure is cut.
// Where the width is not known nothing is.
func TestTablesFitTheTerminal(t *testing.T) {
	for columns, want := range map[int]string{
		0:  "2026-10-04 1A  Long kiln from the tramway  sedge  1/60 f/16½  right\n2026-10-04 2A                              slate  16m 41s     off\n",
		80: "2026-10-04 1A  Long kiln from the tramway  sedge  1/60 f/16½  right\n2026-10-04 2A                              slate  16m 41s     off\n",
		60: "2026-10-04 1A  Long kiln from the…  sedge  1/60 f/16½  right\n2026-10-04 2A                       slate  16m 41s     off\n",
		50: "2026-10-04 1A  Long kiln from the tramway  sedge\n    1/60 f/16½  right\n2026-10-04 2A                              slate\n    16m 41s     off\n",
		24: "2026-10-04 1A\n    Long kiln from the…\n    sedge  1/60 f/16½\n    right\n2026-10-04 2A\n    slate  16m 41s\n    off\n",
		10: "2026-10-04 1A\n    Long kiln f…\n    sedge\n    1/60 f/16½\n    right\n2026-10-04 2A\n    slate\n    16m 41s\n    off\n",
	} {
		var out strings.Builder
		aligned(terminal{out: &out, columns: columns}, [][]string{
			{"2026-10-04 1A", "Long kiln from the tramway", "", "sedge", "1/60 f/16½", "right"}, {"2026-10-04 2A", "", "", "slate", "16m 41s", "off"},
		})
		if out.String() != want {
			t.Errorf("%d columns:\n%s%q\n%q", columns, out.String(), out.String(), want)
		}
	}
}
