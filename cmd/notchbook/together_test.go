package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// seasonsApart is an archive of two seasons, each with its kit, and a notebook that
// is of neither.
func seasonsApart(t *testing.T) string {
	return folder(t, map[string]string{
		"2025/kit.md":         "film slate: ISO 100, pan\nfilter R25: Wratten 25, x8\n",
		"2025/notes.md":       "use: kit.md\nday: 2025-11-07, the mill\nmeter: 1/60 f16\nsheet 1A: film slate, R25, 1/8 f16\nscan 1A: scans/mill.jpg\n",
		"2025/scans/mill.jpg": picture(60, 40),
		"2026/kit.md":         "film slate: ISO 100, pan\nfilter R25: Wratten 25, x16\n",
		"2026/notes.md":       "use: kit.md\nday: 2026-11-07, the mill\nmeter: 1/60 f16\nsheet 1A: film slate, R25, 1/8 f16\n",
		"letters/private.md":  "day: 2026-01-01\nQuillsecret\n",
	})
}

// The seasons of an archive keep their kits apart, whether the folder of both is
// named or each by itself: ×8 is 3 stops, from 1/60 to 1/8, and ×16 is 4.
func TestSeasonsOfOneRunKeepTheirKits(t *testing.T) {
	dir := seasonsApart(t)
	for _, paths := range [][]string{{dir}, {filepath.Join(dir, "2025"), filepath.Join(dir, "2026")}, {filepath.Join(dir, "2026", "notes.md"), filepath.Join(dir, "2025")}} {
		s := notchbook(t, append([]string{"check"}, paths...)...)
		if s.status != found || !strings.Contains(s.out, "2026/notes.md:4:28: error: 1A got 1 stop under") || !strings.Contains(s.out, "2 sheets, 1 right, 1 off") {
			t.Errorf("check %s: status %d\n%s%s", strings.Join(paths, " "), s.status, s.out, s.err)
		}
	}
	s := must(t, "years", filepath.Join(dir, "2025"), filepath.Join(dir, "2026"))
	if !strings.Contains(s.out, "the mill\n  2026-11-07") && !strings.Contains(s.out, "the mill\n2026-11-07") {
		t.Errorf("the years do not say that the mill was come back to:\n%s", s.out)
	}
}

// The record of two folders names each file by its folder and leads to the scans.
func TestRecordOfSeveralFolders(t *testing.T) {
	dir := seasonsApart(t)
	out := filepath.Join(dir, "both")
	s := must(t, "compile", filepath.Join(dir, "2025"), filepath.Join(dir, "2026"), "-o", out)
	withoutSecret(t, "what was said", s.out+s.err)
	for name, text := range tree(t, out) {
		withoutSecret(t, name, text)
	}
	if text, err := os.ReadFile(filepath.Join(out, "notes/2026/kit.md")); err != nil || !strings.Contains(string(text), "x16") {
		t.Errorf("the kit of 2026: %v %q", err, text)
	}
	readPages(t, dir, out).followAll(t)
	if _, err := os.Stat(filepath.Join(dir, ".notchbook-cache")); err == nil {
		t.Error("a cache was left in the folder that holds the seasons")
	}
}

// Between the folders that were named nothing is read: not by use, not as a scan,
// not through a link.
func TestNothingBetweenSeveralFoldersIsRead(t *testing.T) {
	dir := seasonsApart(t)
	fill(t, dir, map[string]string{"2026/more.md": "use: ../letters/private.md\nuse: link.md\nday: 2026-12-01\nscan 1A: ../letters/x.jpg\n", "letters/x.jpg": picture(60, 40)})
	if err := os.Symlink(filepath.Join("..", "letters", "private.md"), filepath.Join(dir, "2026", "link.md")); err != nil {
		t.Skip("no link can be made: ", err)
	}
	s := notchbook(t, "check", filepath.Join(dir, "2025"), filepath.Join(dir, "2026"))
	withoutSecret(t, "what was said", s.out+s.err)
	if n := strings.Count(s.out, "outside the season's folder"); n < 2 {
		t.Errorf("that two names lead outside is said %d times:\n%s%s", n, s.out, s.err)
	}
}
