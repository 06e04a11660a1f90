package main

import (
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"notchbook/render/html/chrome"
)

// A sheet is a piece of film: exposed twice it is one sheet and two exposures, in every
// count and every output. The key is counted by hand.
func TestASheetExposedTwiceIsOneSheet(t *testing.T) {
	season := folder(t, map[string]string{"notes.md": `film slate: ISO 400, EI 250, reciprocity none to 100s
day: 2026-11-07, Mill
load 1A-2B: slate
meter: 1/60 f16
1A: 1/60 f16
1A: again, 1/60 f16
1B: 1/8 f16, again, 1/8 f16
2A: unused
2B: 1/60 f16
develop 1A 1B: 2026-11-09, N
`})
	const standing = "4 sheets, 5 exposures: 3 right, 1 off, 1 unchecked; 1 unexposed"
	dir, bag := filepath.Join(t.TempDir(), "record"), filepath.Join(t.TempDir(), "bag")
	check := notchbook(t, "check", season)
	compiled := must(t, "compile", season, "-o", dir)
	must(t, "archive", season, "-o", bag)
	years := must(t, "years", season)
	for what, c := range map[string]struct{ text, want string }{
		"check":    {check.out, "\n" + standing + ";"},
		"compile":  {compiled.out, "\n" + standing + ";"},
		"text":     {contents(t, filepath.Join(dir, "record.txt")), "\nsheets          4, 5 exposures: 3 right, 1 off, 1 unchecked; 1 unexposed\ndeveloped       2\n"},
		"page":     {contents(t, filepath.Join(dir, "index.html")), "<dt>sheets</dt><dd>4</dd></div>\n<div><dt>exposures</dt><dd>5</dd>"},
		"outing":   {contents(t, filepath.Join(dir, "index.html")), `<td class="fig">4</td>`},
		"archive":  {contents(t, filepath.Join(bag, "bag-info.txt")), "Season-Sheets: 4\nSeason-Exposures: 5\n"},
		"years":    {strings.Join(strings.Fields(years.out), " "), "lost 2026 1 4 5 3 1 1 0 1 2 0 1 2026,"},
		"film":     {years.out, "film used: slate 3\n"},
		"losses":   {must(t, "losses", season).out, "1 of 4 sheets lost\n\noff exposure: 1\n"},
		"found":    {must(t, "find", "1A", season).out, "1 sheet of 4, 2 exposures: "},
		"one each": {must(t, "find", "2B", season).out, "1 sheet of 4: "},
	} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("%s lacks %q:\n%s", what, c.want, c.text)
		}
	}
}

// One record says the same number of the same thing wherever it stands: on its first page,
// where sheets are found, over each list and in the book's index. The shipped season has a
// sheet that was exposed twice and one that never was.
func TestCountsOfOneRecordAgree(t *testing.T) {
	season := compiledSeason(t)
	page := func(name string) string { return contents(t, filepath.Join(season, "record", name)) }
	index := page("index.html")
	tally := func(name string) (n int) {
		for _, m := range regexp.MustCompile("<dt>"+name+`</dt><dd>(\d+)</dd>`).FindAllStringSubmatch(index, -1) {
			n, _ = strconv.Atoi(m[1])
		}
		return n
	}
	sheets, exposures, unexposed := tally("sheets"), tally("exposures"), tally("unexposed")
	if sum := tally("right") + tally("off") + tally("exposed twice") + tally("no image") + tally("unchecked"); sum != exposures || unexposed == 0 {
		t.Errorf("%d exposures, by their states %d; %d unexposed", exposures, sum, unexposed)
	}
	for _, name := range []string{"off", "exposed twice", "no image", "unchecked"} {
		sum := 0
		for _, m := range regexp.MustCompile(`>(\d+) `+name+"<").FindAllStringSubmatch(index[strings.Index(index, "ledger outings"):], -1) {
			n, _ := strconv.Atoi(m[1])
			sum += n
		}
		if sum != tally(name) {
			t.Errorf("%d %s, of the outings together %d", tally(name), name, sum)
		}
	}
	all := strconv.Itoa(sheets) + " sheets of " + strconv.Itoa(sheets) + ", " + strconv.Itoa(exposures) + " exposures"
	for _, name := range []string{"by-film.html", "by-side.html", "by-date.html"} {
		text := page(name)
		sum := [2]int{}
		for _, m := range regexp.MustCompile(`<span class="n">(\d+) sheets?(?:, (\d+) exposures)?</span>`).FindAllStringSubmatch(text, -1) {
			n, _ := strconv.Atoi(m[1])
			sum[0] += n
			if m[2] != "" {
				n, _ = strconv.Atoi(m[2])
			}
			sum[1] += n
		}
		// A heading that says no exposures has one for each sheet but those that have none.
		if listed := regexp.MustCompile(`<p class="quiet">(\d+) sheets of (\d+)`).FindStringSubmatch(text); listed == nil ||
			listed[1] != strconv.Itoa(sum[0]) || listed[2] != strconv.Itoa(sheets) || sum[1]-sum[0] != exposures+unexposed-sheets {
			t.Errorf("%s: %v sheets and exposures, %q", name, sum, listed)
		}
	}
	found := must(t, "find", "unexposed or not unexposed", season).out
	if !strings.Contains(found, all+": ") {
		t.Errorf("the program finds other than %s:\n%s", all, found)
	}
	if book := readBook(t, filepath.Join(season, "record", "record.pdf")); !strings.Contains(strings.Join(book.text, "\n"), "27 sheets, 28") {
		t.Error("the book's index has not the film's sheets")
	}
	address := chrome.FileURL(filepath.Join(season, "record", "find.html"))
	if said := chrome.Look[string](t, chrome.Open(t), address, 390, `document.getElementById("find.said").textContent`); said != all {
		t.Errorf("the page finds %q, want %q", said, all)
	}
}
