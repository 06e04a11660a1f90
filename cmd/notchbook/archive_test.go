package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/disk"
	"notchbook/render/data"
)

// What a season's bag is held against: the RFC's form by our own check and by one
// of another hand (testdata/bags), and every digest by sha256sum and sha512sum.

// bagged is a bag of a season.
func bagged(t testing.TB, dir string, flags ...string) string {
	t.Helper()
	bag := filepath.Join(t.TempDir(), "bag")
	must(t, append([]string{"archive", dir, "-o", bag}, flags...)...)
	return bag
}

// anotherHand asks the checker in testdata/bags of a bag.
func anotherHand(t testing.TB, bag string) string {
	t.Helper()
	python := tool(t, "python3", "bags are not checked by another hand")
	out, err := exec.Command(python, "../../testdata/bags/check.py", bag).Output()
	if err != nil {
		t.Fatalf("check.py: %v", err)
	}
	return strings.TrimSpace(string(out))
}

// sums has coreutils check all lists of a bag.
func sums(t testing.TB, bag string) error {
	t.Helper()
	for _, name := range []string{"sha256", "sha512"} {
		check := exec.Command(tool(t, name+"sum", "the lists of bags are not checked"), "--strict", "--quiet", "-c", "manifest-"+name+".txt", "tagmanifest-"+name+".txt")
		check.Dir = bag
		if out, err := check.CombinedOutput(); err != nil {
			return fmt.Errorf("%ssum: %w\n%s", name, err, out)
		}
	}
	return nil
}

func TestBagOfASeason(t *testing.T) {
	dir := aldermoor(t)
	fill(t, dir, map[string]string{"scans/2026-10-04-1A.xmp": "<x:xmpmeta xmlns:x='adobe:ns:meta/'/>",
		"way there.md": "See [the map](maps/kiln%20way.pdf), [nothing](none.pdf) and [a folder](maps).\n", "maps/kiln way.pdf": "%PDF", "maps/other.pdf": "x"})
	before := tree(t, dir)
	bag := filepath.Join(t.TempDir(), "bag")
	s := must(t, "archive", dir, "-o", bag)
	wantLines(t, s.out, "the bag is in "+bag+": 6 notebooks, 35 scans of 4.8 MB, 1 other file; to check it: notchbook archive --verify "+bag)
	sameTree(t, "the season", before, tree(t, dir))

	check := must(t, "archive", "--verify", "--strict", bag)
	if !strings.HasSuffix(check.out, "0 changed, 0 missing, 0 extra, 0 not in form: the bag is valid\n") {
		t.Errorf("it is said\n%s", check.out)
	}
	if said := anotherHand(t, bag); said != "valid" {
		t.Error(said)
	}
	held := tree(t, bag)
	for name, text := range before {
		if (strings.HasPrefix(name, "scans/") || !strings.Contains(name, "/")) && held["data/season/"+name] != text {
			t.Errorf("%s is not in the bag as it was", name)
		}
	}
	if _, ok := held["data/season/scans/2026-10-04-1B.xmp"]; !ok {
		t.Error("a scan has no sidecar")
	}
	if held["data/season/maps/kiln way.pdf"] != "%PDF" || held["data/season/maps/other.pdf"] != "" {
		t.Error("not just what the notes link to went along")
	}
	readPages(t, filepath.Join(bag, "data", bagSeason), filepath.Join(bag, "data", bagRecord)).followAll(t)
	if slices.ContainsFunc(slices.Collect(maps.Keys(held)), func(name string) bool { return strings.HasSuffix(name, "fetch.txt") }) {
		t.Error("there is a fetch.txt")
	}

	// The record is what compile writes, but for where it lies.
	must(t, "compile", dir)
	for name := range recordIn(t, dir) {
		if _, ok := held["data/record/"+name]; !ok {
			t.Errorf("the record in the bag has no %s", name)
		}
	}
	// A bag is never read as a season, and what is in it can be.
	if s := notchbook(t, "check", bag); s.status != failed || !strings.Contains(s.err, "was written by notchbook") {
		t.Errorf("%d %s", s.status, s.err)
	}
	if a, b := tallyOf(t, notchbook(t, "check", dir).out), tallyOf(t, notchbook(t, "check", filepath.Join(bag, "data", bagSeason)).out); a != b {
		t.Errorf("the season has %q, that in the bag %q", a, b)
	}
}

// Without odd names, every list is read by the tools for which its form was taken.
func TestListsByTheToolsTheyAreFor(t *testing.T) {
	bag := bagged(t, "../../examples/thornmoss")
	if err := sums(t, bag); err != nil {
		t.Error(err)
	}
}

// The same season gives the same bag, wherever it lies and whoever makes it.
func TestSameSeasonSameBag(t *testing.T) {
	want := tree(t, bagged(t, aldermoor(t)))
	for _, env := range [][]string{{"TZ=Pacific/Auckland", "LC_ALL=de_DE.UTF-8", "GOMAXPROCS=1"}, {"TZ=America/St_Johns", "HOME=/nowhere", "GOMAXPROCS=7"}} {
		bag := filepath.Join(t.TempDir(), "b a g")
		if out, err := process(env, "archive", aldermoor(t), "-o", bag).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		sameTree(t, strings.Join(env, " "), want, tree(t, bag))
	}
	t.Setenv("SOURCE_DATE_EPOCH", "1000000000")
	dated := tree(t, bagged(t, aldermoor(t)))
	if !strings.Contains(dated["bag-info.txt"], "\nBagging-Date: 2001-09-09\n") || !strings.Contains(want["bag-info.txt"], "\nBagging-Date: 2026-12-01\n") {
		t.Errorf("%s%s", dated["bag-info.txt"], want["bag-info.txt"])
	}
}

// Nothing private is in any byte of a public bag, and what was changed for it says
// so in its name.
func TestPublicBagHoldsNothingPrivate(t *testing.T) {
	dir := privateSeason(t)
	fill(t, dir, map[string]string{"scans/kiln.xmp": "<!-- private: Quillsecret -->", "letters.txt": "private: Quillsecret\n", "plain.md": "see [letters](letters.txt) and [notes](walk.md)\n"})
	bag := filepath.Join(t.TempDir(), "bag")
	s := must(t, "archive", "--public", dir, "-o", bag)
	withoutSecret(t, "what was said", s.out+s.err)
	if !strings.Contains(s.err, "scans/kiln.xmp was not written by notchbook; it is left out of what is public") {
		t.Error(s.err)
	}
	searched(t, bag)
	held := tree(t, bag)
	for name, want := range map[string]bool{
		"data/season/walk.public.md": true, "data/season/walk.md": false, "data/season/kit.public.md": true, "data/season/plain.md": true,
		"data/season/letters.public.txt": true, "data/season/scans/kiln.jpg": true,
	} {
		if _, ok := held[name]; ok != want {
			t.Errorf("%s is in the bag: %v", name, ok)
		}
	}
	must(t, "archive", "--verify", bag, "--strict")

	// Our own sidecar is written anew from the public record.
	if err := os.Remove(filepath.Join(dir, "scans/kiln.xmp")); err != nil {
		t.Fatal(err)
	}
	must(t, "scans", "--xmp", dir)
	searched(t, bagged(t, dir, "--public"))
	if all := strings.Join(bytesOf(t, bagged(t, dir)), "\n"); !strings.Contains(all, secret) {
		t.Error("the whole bag has no private remarks: the search cannot see")
	}
}

// What is handed on compiles as what it was made from: a notebook whose kit lies
// beside it as a redacted copy only knows that copy.
func TestPublicBagCompilesAgain(t *testing.T) {
	dir := t.TempDir()
	log := "day: 2026-10-04, mill\nload 1A-2B: sedge\nmeter: 1/60 f16\n1A: Y8, 1/30 f16\n1B: 1/30 f16\n"
	fill(t, dir, map[string]string{
		"gear/base.md":  "film sedge: ISO 100, EI 100, pan\nprivate: bought from the estate\n",
		"gear/kit.md":   "use: base.md\nfilter Y8: Wratten 8, x2\nprivate: lent\n",
		"walk/plain.md": "use: ../gear/kit.md\n" + log,
		"walk/shut.md":  "use: ../gear/kit.md\n" + strings.ReplaceAll(log, "10-04", "10-05") + "private: nobody's\n",
	})
	said := func(dir string) string {
		t.Helper()
		s := notchbook(t, "check", "--public", dir)
		if strings.Contains(s.out+s.err, "missing") {
			t.Errorf("%s%s", s.out, s.err)
		}
		return tallyOf(t, s.out)
	}
	bag := bagged(t, dir, "--public")
	want, held := said(dir), tree(t, bag)
	for _, name := range []string{"gear/kit.public.md", "gear/base.public.md", "walk/plain.md", "walk/shut.public.md"} {
		if held["data/"+bagSeason+"/"+name] == "" {
			t.Errorf("no %s in the bag", name)
		}
	}
	if got := said(filepath.Join(bag, "data", bagSeason)); got != want || !strings.Contains(want, "4 sheets, 2 right") {
		t.Errorf("the season has %q, that in the public bag %q", want, got)
	}
	if got := said(filepath.Join(bag, "data", bagSeason, "walk", "plain.md")); !strings.Contains(got, "2 sheets, 2 unchecked") {
		t.Errorf("one notebook of the bag: %q", got)
	}
}

// Without the scans their digests stand for them, to be checked where the scans
// are, with nothing of ours.
func TestBagWithoutScans(t *testing.T) {
	dir := aldermoor(t)
	bag := bagged(t, dir, "--without-scans")
	held := tree(t, bag)
	for name := range held {
		if strings.HasPrefix(name, "data/season/scans/") && !strings.HasSuffix(name, ".xmp") || strings.HasSuffix(name, "fetch.txt") {
			t.Errorf("%s is in the bag", name)
		}
	}
	check := exec.Command(tool(t, "sha256sum", "the list of scans is not checked"), "--strict", "--quiet", "-c", filepath.Join(bag, "data", bagSums))
	check.Dir = dir
	if out, err := check.CombinedOutput(); err != nil || strings.Count(held["data/"+bagSums], "\n") != 35 {
		t.Errorf("%v\n%s\n%s", err, out, held["data/"+bagSums])
	}
	must(t, "archive", "--verify", bag, "--strict")
	readPages(t, filepath.Join(bag, "data", bagSeason), filepath.Join(bag, "data", bagRecord)).followAll(t)
}

// Scans on a disk of their own keep their way there.
func TestBagOfScansElsewhere(t *testing.T) {
	season, outside := guarded(t, "day: 2026-11-07\nmeter: 1/60 f16\n1A: 1/60 f16\nscan 1A: ../out/far.jpg\n")
	bag := bagged(t, season, "--scans", outside)
	held := tree(t, bag)
	if held["data/out/far.jpg"] == "" || !strings.Contains(held["data/record/scans.html"], `href="../season/../out/far.jpg"`) {
		t.Errorf("%q", slices.Sorted(maps.Keys(held)))
	}
	must(t, "archive", "--verify", bag, "--strict")

	bag = filepath.Join(t.TempDir(), "bag")
	s := must(t, "archive", season, "-o", bag)
	if !strings.Contains(s.err, "1 scan that the notes name could not be put into the bag") || strings.Contains(strings.Join(bytesOf(t, bag), ""), canary) {
		t.Error(s.err)
	}
}

// Each fault that a bag can have is found by us, by another hand, and by coreutils
// where these can see it.
func TestFaultsOfABagAreFound(t *testing.T) {
	whole := tree(t, bagged(t, "../../examples/thornmoss"))
	const page, list = "data/record/index.html", "manifest-sha256.txt"
	cases := []struct {
		title     string
		change    func(map[string]string)
		want      string
		coreutils bool
	}{
		{"nothing", func(f map[string]string) {}, "the bag is valid\n", false},
		{"one byte flipped", func(f map[string]string) { f[page] = f[page][:99] + string(f[page][99]^1) + f[page][100:] },
			"changed: data/record/index.html has other bytes than those listed in manifest-sha256.txt and manifest-sha512.txt", true},
		{"file missing", func(f map[string]string) { delete(f, page) }, "missing: data/record/index.html is missing", true},
		{"file extra", func(f map[string]string) { f["data/more.txt"] = "x" }, "extra: data/more.txt is in no list", false},
		{"manifest line damaged", func(f map[string]string) { f[list] = "~" + f[list][1:] }, "error: manifest-sha256.txt:1 has no checksum of sha256", true},
		{"path escaping", func(f map[string]string) { f[list] += strings.Repeat("0", 64) + "  data/../../bag/bagit.txt\n" },
			"names data/../../bag/bagit.txt, which climbs out of its folder with ..", true},
		{"name with newline", func(f map[string]string) { f[list] = strings.Replace(f[list], "index.html", "in\ndex.html", 1) },
			"is no checksum with a path behind it", true},
		{"duplicate by case", func(f map[string]string) {
			f["data/record/Index.html"] = f[page]
			for line := range strings.Lines(f[list]) {
				if strings.HasSuffix(line, page+"\n") {
					f[list] += strings.Replace(line, "index", "Index", 1)
				}
			}
		}, "warning: data/record/index.html differs from data/record/Index.html only in capitals", true},
	}
	for _, c := range cases {
		t.Run(c.title, func(t *testing.T) {
			bag := filepath.Join(t.TempDir(), "bag")
			changed := maps.Clone(whole)
			c.change(changed)
			fill(t, bag, changed)
			s := notchbook(t, "archive", "--verify", bag)
			if !strings.Contains(s.out, c.want) || (s.status == right) != (c.title == "nothing") {
				t.Errorf("status %d\n%s", s.status, s.out)
			}
			if said := anotherHand(t, bag); (said == "valid") != (c.title == "nothing") {
				t.Errorf("the other says %s", said)
			}
			if err := sums(t, bag); (err != nil) != c.coreutils {
				t.Errorf("coreutils say %v", err)
			}
			var form struct {
				Valid    bool
				Problems []struct{ Kind, Severity, File, Message, Section string }
			}
			if err := json.Unmarshal([]byte(notchbook(t, "archive", "--verify", bag, "--format", "json").out), &form); err != nil || form.Valid != (s.status == right) {
				t.Errorf("%v %+v", err, form)
			}
		})
	}
}

func TestArchiveRefuses(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": goodNotes, "full/x": "x", "file": "x", "empty/": ""})
	at := func(name string) string { return filepath.Join(dir, name) }
	before := tree(t, dir)
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{dir}, "archive needs a season and -o BAG, or --verify BAG"},
		{[]string{"-o", at("bag")}, "archive needs a season and -o BAG, or --verify BAG"},
		{[]string{"--verify", dir, at("bag")}, "--verify BAG goes with one bag, without a season and without -o"},
		{[]string{dir, "-o", at("bag"), "--format", "json"}, "--strict and --format go with --verify BAG"},
		{[]string{"-", "-o", at("bag")}, "a bag holds files; a stream is none"},
		{[]string{dir, "-o", at("full")}, at("full") + " exists, and a bag takes no other's place; nothing was changed"},
		{[]string{dir, "-o", at("file")}, at("file") + " is a file, not a folder"},
		{[]string{dir, "-o", at("none/bag")}, at("none") + " is missing"},
		{[]string{"--verify", at("bag")}, at("bag") + " is missing"},
		{[]string{"--verify", at("file")}, at("file") + " is a file, not a folder"},
	} {
		s := notchbook(t, append([]string{"archive"}, c.args...)...)
		if s.status != failed || s.out != "" || !strings.Contains(s.err, "notchbook: "+c.want+"\n") && !strings.Contains(s.err, c.want+"\n") {
			t.Errorf("%q: status %d\n%s%s", c.args, s.status, s.out, s.err)
		}
	}
	sameTree(t, "after refusing", before, tree(t, dir))
	must(t, "archive", dir, "-o", at("empty"))
	must(t, "archive", "--verify", at("empty"))
	if s := notchbook(t, "archive", "--verify", at("full")); s.status != found || !strings.Contains(s.out, "without its declaration this is no bag") {
		t.Errorf("%d %s", s.status, s.out)
	}
}

// What an interrupted run has copied is taken over if it is whole; what is damaged
// is copied again; what belongs to nothing goes.
func TestArchiveTakesOver(t *testing.T) {
	dir := heavySeason(t, 4)
	want := tree(t, bagged(t, dir))
	place := t.TempDir()
	bag := filepath.Join(place, "bag")
	scan := func(n int) string { return fmt.Sprintf("data/season/scans/neg-#%d.png", n) }
	fill(t, place, map[string]string{
		".bag.tmp-notchbook/" + scan(31): want[scan(31)], ".bag.tmp-notchbook/" + scan(32): want[scan(32)][:600_000],
		".bag.tmp-notchbook/" + scan(33):                   want[scan(33)][:600_000] + strings.Repeat("x", len(want[scan(33)])-600_000),
		".bag.tmp-notchbook/data/season/scans/neg-#99.png": "x", ".bag.tmp-notchbook/data/old/x": "x", ".bag.tmp-notchbook/bagit.txt/x": "x",
		".bag.tmp-notchbook/data/record": "a file in the way", ".bag.tmp-notchbook/bag-info.txt": "old",
	})
	s := must(t, "archive", dir, "-o", bag)
	wantLines(t, s.out, "taken over from the run that was interrupted: 1 scan of 700.3 KB")
	sameTree(t, "the bag", want, tree(t, bag))
	if got := entries(t, place); !slices.Equal(got, []string{"bag"}) {
		t.Errorf("beside the bag is left %q", got)
	}
}

// A scan that is not what it was when it was read is not put into a bag whose
// record says otherwise; what was copied before it is not copied again.
func TestScanThatChangedBehindTheRecord(t *testing.T) {
	dir := heavySeason(t, 4)
	must(t, "compile", dir)
	name := filepath.Join(dir, "scans/neg-#33.png")
	info, err := os.Stat(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	file.WriteAt([]byte("rot"), 300_000) // neither size, time, head nor tail
	file.Close()
	if err := os.Chtimes(name, info.ModTime(), info.ModTime()); err != nil {
		t.Fatal(err)
	}
	place := t.TempDir()
	bag := filepath.Join(place, "bag")
	s := notchbook(t, "archive", dir, "-o", bag)
	want := "notchbook: scans/neg-#33.png has other bytes than when it was read for the record; notchbook scans --full reads every scan anew; what was copied is in " +
		filepath.Join(place, ".bag.tmp-notchbook") + ", and the next run takes it over\n"
	if s.status != failed || s.err != want {
		t.Errorf("status %d\n%s", s.status, s.err)
	}
	notchbook(t, "scans", "--full", dir)
	s = must(t, "archive", dir, "-o", bag)
	wantLines(t, s.out, "taken over from the run that was interrupted: 3 scans of 2.1 MB") // the rotten one too, now that it is known
	must(t, "archive", "--verify", bag, "--strict")
}

// Two runs at once: the second says so and touches nothing.
func TestArchiveIsForOneRun(t *testing.T) {
	dir := heavySeason(t, 2)
	bag := filepath.Join(t.TempDir(), "bag")
	first, err := disk.NewBag(bag)
	if err != nil {
		t.Fatal(err)
	}
	s := notchbook(t, "archive", dir, "-o", bag)
	if s.status != failed || s.err != "notchbook: "+bag+" is being written by another run of notchbook\n" {
		t.Errorf("status %d\n%s", s.status, s.err)
	}
	first.Abort(false)
	must(t, "archive", dir, "-o", bag)
}

// A full disk is said, and leaves everything as it was.
func TestArchiveOnAFullDisk(t *testing.T) {
	if os.Geteuid() != 0 || runtime.GOOS != "linux" {
		t.Skip("only the superuser of Linux can make a small disk")
	}
	dir := heavySeason(t, 6)
	small := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", small).CombinedOutput(); err != nil {
		t.Skipf("no small disk can be made here: %v %s", err, out)
	}
	t.Cleanup(func() { exec.Command("umount", small).Run() })
	fill(t, small, map[string]string{"mine.txt": "mine"})
	before := tree(t, dir)
	s := notchbook(t, "archive", dir, "-o", filepath.Join(small, "bag"))
	if s.status != failed || s.out != "" || !strings.HasSuffix(s.err, "could not be read or written: no space left on device\n") {
		t.Errorf("status %d\n%s%s", s.status, s.out, s.err)
	}
	if got := entries(t, small); !slices.Equal(got, []string{"mine.txt"}) {
		t.Errorf("left is %q", got)
	}
	sameTree(t, "the season", before, tree(t, dir))
}

// TestPermission… are run again by .ci/run as an ordinary user.
func TestPermissionToArchive(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("the superuser is denied nothing, nor does Windows know these bits")
	}
	dir := folder(t, map[string]string{"a.md": goodNotes, "scans/1.jpg": picture(30, 20), "shut/": "", "open/": ""})
	shut, scan := filepath.Join(dir, "shut"), filepath.Join(dir, "scans/1.jpg")
	for _, name := range []string{shut, scan} {
		if err := os.Chmod(name, map[string]os.FileMode{shut: 0o555, scan: 0}[name]); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.Chmod(name, 0o755) })
	}
	s := notchbook(t, "archive", dir, "-o", filepath.Join(shut, "bag"))
	if s.status != failed || s.err != "notchbook: "+filepath.Join(shut, "bag")+" cannot be opened: permission denied\n" {
		t.Errorf("status %d\n%s", s.status, s.err)
	}
	s = notchbook(t, "archive", dir, "-o", filepath.Join(dir, "open/bag"))
	if s.status != failed || !strings.Contains(s.err, "scans/1.jpg cannot be opened: permission denied") {
		t.Errorf("status %d\n%s", s.status, s.err)
	}
}

// A sidecar of ours that lies beside a scan goes into the bag as it is.
func TestSidecarsGoAlong(t *testing.T) {
	dir := numberedSeason(t, 31, 33)
	must(t, "scans", "--xmp", dir)
	held := tree(t, bagged(t, dir))
	for name, text := range tree(t, dir) {
		if strings.HasSuffix(name, ".xmp") && (held["data/season/"+name] != text || !data.OwnXMP([]byte(text))) {
			t.Errorf("%s is not in the bag as it was", name)
		}
	}
}

// What nothing in the notes leads to is not in the bag, and is named.
func TestBagNamesWhatStaysBehind(t *testing.T) {
	season := folder(t, map[string]string{"notes.md": "1A: 1/30 f16\n[the map](map.pdf), [no map](docs/gone.pdf)\n", "map.pdf": "%PDF", "scans/a.dng": "raw", "scans/densities.csv": "", "z1": "", "z2": "", "scans/x.png": tinyScan(t, 1), "scans/y.png": tinyScan(t, 2)})
	if err := errors.Join(os.Symlink("scans/a.dng", filepath.Join(season, "raw")), os.Symlink("nothing", filepath.Join(season, "scans", "none.tif"))); err != nil {
		t.Skip("no links can be made here: ", err)
	}
	s := must(t, "archive", season, "-o", filepath.Join(t.TempDir(), "bag"))
	wantLines(t, s.out, "left out, since nothing in the notes leads to them: 4 files: scans/a.dng, scans/densities.csv, z1, z2")
	if !strings.Contains(s.out, ": 1 notebook, 2 scans of ") || !strings.Contains(s.out, ", 1 other file; to check it") {
		t.Error(s.out)
	}
	wantLines(t, s.out, "left out, since links are not followed: 2 links: raw, scans/none.tif")
	// Why it is not there is said alike in what is public.
	missing := "notchbook: " + filepath.ToSlash(filepath.Join(season, "docs/gone.pdf")) + " is missing; the notes lead to it, and it is not in the bag"
	wantLines(t, s.err, missing)
	s = must(t, "archive", season, "--public", "-o", filepath.Join(t.TempDir(), "bag"))
	wantLines(t, s.err, missing, "notchbook: map.pdf: nobody has looked into it for what is private; it is left out of what is public")
	wantLines(t, s.out, "left out of what is public: 2 scans that no sheet names or a line calls private")
}

// What a received bag holds is compiled into a folder outside it: the bag stays what its lists say.
func TestNothingIsWrittenIntoABag(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": "day: 2026-10-04\nscan: {label}.png\n1A: 1/60 f16\n", "1A.png": tinyScan(t, 1)})
	bag := filepath.Join(t.TempDir(), "bag")
	must(t, "archive", dir, "-o", bag)
	season := filepath.Join(bag, "data", "season")
	for _, args := range [][]string{{"compile", season}, {"compile", dir, "-o", filepath.Join(season, "out")}} {
		if s := notchbook(t, args...); s.status != failed || !strings.Contains(s.err, "is in the bag "+bag+", and would be in none of its lists") {
			t.Errorf("%v: status %d: %s", args, s.status, s.err)
		}
	}
	must(t, "compile", season, "-o", filepath.Join(t.TempDir(), "record"))
	notchbook(t, "scans", season)
	must(t, "archive", "--verify", "--strict", bag)
}
