package main

import (
	"path/filepath"
	"strings"
	"testing"
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
