package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"notchbook/cmd/notchbook/disk"
)

// What stands outside the season's folder is never read, however the notes of
// somebody else lead there, and nothing in the folder holds a run up. Every way
// is common practice of hostile files, no source.

// canary stands in every file outside, and so in nothing that is written.
const canary = "Thornsecret"

// guarded is a season beside files that it must not see.
func guarded(t *testing.T, notes string) (season, outside string) {
	t.Helper()
	dir := t.TempDir()
	fill(t, dir, map[string]string{
		"out/kit.md": "film " + canary + ": ISO 100\n", "out/far.jpg": picture(900, 600) + canary, "out/SHA256SUMS": canary + "\n",
		"season/notes.md": notes, "season/near.jpg": picture(90, 60),
	})
	return filepath.Join(dir, "season"), filepath.Join(dir, "out")
}

// prompt runs the command and fails where it does not come to an end.
func prompt(t *testing.T, args ...string) said {
	t.Helper()
	done := make(chan said, 1)
	go func() { done <- notchbook(t, args...) }()
	select {
	case s := <-done:
		return s
	case <-time.After(time.Minute):
		t.Fatalf("notchbook %s does not end", strings.Join(args, " "))
		return said{}
	}
}

// nothingOutside runs every command that reads a season and looks for what lies
// outside it in all that was said and written.
func nothingOutside(t *testing.T, season, outside string) (check said) {
	t.Helper()
	before := tree(t, outside)
	for _, args := range [][]string{
		{"compile", season}, {"check", season}, {"check", "--format", "json", season}, {"check", "--format", "sarif", season}, {"scans", season},
		{"scans", "--xmp", season}, {"scans", "--rename-plan", "--apply", season}, {"tidy", season}, {"find", "1A", season}, {"holders", season},
	} {
		s := prompt(t, args...)
		withoutCanary(t, strings.Join(args, " "), s.out+s.err)
	}
	for name, text := range tree(t, filepath.Join(season, "record")) {
		withoutCanary(t, name, text)
		if strings.HasSuffix(name, ".html") && strings.Contains(text, `far.jpg"`) && strings.Contains(text, `href="`+"../../") {
			t.Errorf("%s links to what lies outside", name)
		}
	}
	sameTree(t, "outside", before, tree(t, outside))
	return prompt(t, "check", season)
}

func withoutCanary(t *testing.T, what, text string) {
	t.Helper()
	if strings.Contains(text, canary) {
		t.Errorf("%s holds what lies outside the folder", what)
	}
}

func TestNothingOutsideIsRead(t *testing.T) {
	_, outside := guarded(t, "")
	abs := filepath.ToSlash(outside)
	ways := []string{"../out/", "a/../../out/", "./../out/", abs + "/", "//server/share/", `\\server\share\`, `..\out\`, "file://" + abs + "/", "file:../out/",
		`C:\out\`, "C:/out/", "~/", "$HOME/", "%2e%2e/out/", "..%2fout/", "http://example.org/", "/dev/fd/", "/proc/self/root" + abs + "/"}
	for _, way := range ways {
		t.Run(way, func(t *testing.T) {
			season, outside := guarded(t, "use: "+way+"kit.md\nday: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: "+way+"far.jpg\n"+
				"1B: 1/60 f16\n\nA [link]("+way+"far.jpg) and ![a picture]("+way+"far.jpg) and <"+way+"far.jpg>.\n")
			check := nothingOutside(t, season, outside)
			if check.status != found || !strings.Contains(check.out, "[notebook-unreadable]") {
				t.Errorf("nothing is said of it\n%s%s", check.out, check.err)
			}
			if !strings.Contains(check.out, "[scan-outside]") && !strings.Contains(check.out, "[scan-missing]") {
				t.Errorf("nothing is said of the scan\n%s%s", check.out, check.err)
			}
		})
	}
}

// A link in the folder is a way out like any other.
func TestLinksLeadNowhereOutside(t *testing.T) {
	notes := "use: kit.md\nday: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: far.jpg\n1B: 1/60 f16\nscan 1B: deep/far.jpg\n\n![p](far.jpg) ![p](deep/far.jpg)\n"
	season, outside := guarded(t, notes)
	for name, to := range map[string]string{
		"kit.md": "../out/kit.md", "far.jpg": filepath.Join(outside, "far.jpg"), "deep": "../out", "hop": "deep", "loop": "loop", "again": ".",
	} {
		if err := os.Symlink(to, filepath.Join(season, name)); err != nil {
			t.Skip("this system makes no links: ", err)
		}
	}
	check := nothingOutside(t, season, outside)
	if !strings.Contains(check.out, "kit.md lies outside the season's folder [notebook-unreadable]") {
		t.Errorf("nothing is said of the kit\n%s", check.out)
	}
	// A whole record, and a cache, that lead out.
	for _, name := range []string{"record", disk.CacheFolder} {
		if err := os.RemoveAll(filepath.Join(season, name)); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(outside, filepath.Join(season, name)); err != nil {
			t.Fatal(err)
		}
	}
	before := tree(t, outside)
	for _, args := range [][]string{{"compile", season}, {"scans", season}} {
		if s := prompt(t, args...); s.status != failed || strings.Contains(s.out+s.err, canary) {
			t.Errorf("%v: status %d\n%s%s", args, s.status, s.out, s.err)
		}
	}
	sameTree(t, "outside", before, tree(t, outside))
}

// A link of the cache's name must not have anything swept out of the folder that
// it leads to.
func TestCacheThatIsALinkSweepsNothing(t *testing.T) {
	season := folder(t, map[string]string{"a.md": goodNotes, "near.jpg": picture(90, 60), "mine/letters.json": "{}", "mine/x.part": ""})
	if err := os.Symlink("mine", filepath.Join(season, disk.CacheFolder)); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	before := tree(t, filepath.Join(season, "mine"))
	must(t, "compile", season)
	sameTree(t, "after compile", before, tree(t, filepath.Join(season, "mine")))
}

// --scans is the only door: what lies behind it is read and linked, and nothing
// is written there or read beside it.
func TestScansBehindTheDoor(t *testing.T) {
	season, outside := guarded(t, "day: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: ../out/far.jpg\n1B: 1/60 f16\nscan 1B: ../beside.jpg\n2A: 1/60 f16\nscan 2A: linked/far.jpg\n")
	fill(t, filepath.Dir(season), map[string]string{"beside.jpg": picture(30, 20)})
	if err := os.Symlink("../out", filepath.Join(season, "linked")); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	if err := os.Symlink("../beside.jpg", filepath.Join(outside, "on.jpg")); err != nil {
		t.Fatal(err)
	}
	before := tree(t, outside)
	s := must(t, "compile", "--scans", outside, season)
	if strings.Contains(s.out, "far.jpg") || !strings.Contains(s.out, "../beside.jpg is not within the season's folder [scan-outside]") || s.err != "" {
		t.Errorf("it is said\n%s%s", s.out, s.err)
	}
	record := recordIn(t, season)
	if n := strings.Count(record["scans.html"], "900\u00a0×\u00a0600 pixels"); n != 2 {
		t.Errorf("%d scans were read", n)
	}
	if !strings.Contains(record["scans.html"], `href="../../out/far.jpg"`) || strings.Contains(record["scans.html"], `href="../../beside.jpg"`) {
		t.Error("the links are not those that were allowed")
	}
	if !strings.Contains(record[pdfName], "/URI (../../out/far.jpg)") || strings.Contains(record[pdfName], "/URI (../../beside.jpg)") {
		t.Error("the book's links are not those that were allowed")
	}
	if !strings.Contains(record[sumsName], "  ../../out/far.jpg\n") {
		t.Errorf("the sums are\n%s", record[sumsName])
	}
	audit := notchbook(t, "scans", "--scans", outside, season)
	if audit.status != right || !strings.Contains(audit.out, "0 missing, 0 unreadable, 0 changed") {
		t.Errorf("the audit says\n%s%s", audit.out, audit.err)
	}
	sidecars := must(t, "scans", "--scans", outside, "--xmp", season)
	if !strings.Contains(sidecars.out, "none for 2 scans outside the season's folder") {
		t.Errorf("of sidecars it is said\n%s", sidecars.out)
	}
	sameTree(t, "behind the door", before, tree(t, outside))

	// A link behind the door that leads on is not followed.
	fill(t, season, map[string]string{"notes.md": "day: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: ../out/on.jpg\n"})
	s = must(t, "compile", "--scans", outside, season)
	if !strings.Contains(recordIn(t, season)["scans.html"], "utside the season") {
		t.Errorf("a link behind the door was followed\n%s", s.out)
	}
	for _, bad := range []string{"nowhere", filepath.Join(outside, "far.jpg")} {
		if s := notchbook(t, "check", "--scans", bad, season); s.status != failed {
			t.Errorf("--scans %s: status %d", bad, s.status)
		}
	}
}
