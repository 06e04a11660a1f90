package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"notchbook/cmd/notchbook/disk"
	"notchbook/render/data"
)

func wantLines(t *testing.T, out string, lines ...string) {
	t.Helper()
	for _, line := range lines {
		if !strings.Contains("\n"+out, "\n"+line+"\n") {
			t.Errorf("nothing says\n%s\nin\n%s", line, out)
		}
	}
}

// Ten scans numbered one too high are one slip, not ten findings.
func TestSlipIsOneFindingAndIsUndone(t *testing.T) {
	dir := numberedSeason(t, 32, 41)
	before := tree(t, dir, disk.CacheFolder)
	audit := notchbook(t, "scans", dir)
	want := "slip: 10 scans look off by 1: no file is scans/neg-#31.png, and no sheet names scans/neg-#41.png\n" +
		"no record has sums of the scans: nothing could be compared with what the scans were\n" +
		"10 files, 1 name without a file; 0 missing, 0 unreadable, 0 changed, 0 gone, 0 moved, 0 claimed twice, 0 orphans, 1 slip\n"
	if audit.out != want || audit.status != found {
		t.Errorf("status %d:\n%s%swant\n%s", audit.status, audit.out, audit.err, want)
	}
	plan := must(t, "scans", "--rename-plan", dir)
	sameTree(t, "after a plan", before, tree(t, dir, disk.CacheFolder))
	must(t, "scans", "--rename-plan", "--apply", dir)
	for n := 31; n <= 40; n++ {
		text, err := os.ReadFile(filepath.Join(dir, fmt.Sprintf("scans/neg-#%d.png", n)))
		if err != nil || string(text) != tinyScan(t, n+1) {
			t.Errorf("neg-#%d.png is not what neg-#%d.png was: %v", n, n+1, err)
		}
	}
	must(t, "scans", dir)
	applied := tree(t, dir, disk.CacheFolder)
	shellIn(t, dir, "sh", "undo-renames-1.sh")
	undone := tree(t, dir, disk.CacheFolder)
	delete(undone, "undo-renames-1.sh")
	sameTree(t, "after undoing", before, undone)

	// The plan is a script that does the same.
	shellIn(t, dir, "sh", "-c", plan.out)
	sameTree(t, "after the script", applied, tree(t, dir, disk.CacheFolder))
}

// Sidecars go with their scans, under either of their names, and come back; one that
// may be another file's, or whose place is taken, stays and is named.
func TestSidecarsFollowTheirScans(t *testing.T) {
	dir := numberedSeason(t, 32, 41)
	files := map[string]string{
		"scans/neg-#32.xmp": "of 32", "scans/neg-#33.png.xmp": "of 33", "scans/neg-#34.XMP": "of 34",
		"scans/neg-#36.xmp": "of the raw file", "scans/neg-#36.dng": "raw", "scans/neg-#31.xmp.txt": "",
	}
	fill(t, dir, files)
	before := tree(t, dir, disk.CacheFolder)
	s := must(t, "scans", "--rename-plan", "--apply", dir)
	wantLines(t, s.out, "10 scans and 3 sidecars renamed; to undo it: sh "+filepath.Join(dir, "undo-renames-1.sh"))
	wantLines(t, s.err, "notchbook: scans/neg-#36.xmp keeps its name: it cannot be told which of the files called so it is the sidecar of")
	after := tree(t, dir, disk.CacheFolder)
	for name, text := range map[string]string{
		"scans/neg-#31.xmp": "of 32", "scans/neg-#32.png.xmp": "of 33", "scans/neg-#33.XMP": "of 34", "scans/neg-#36.xmp": "of the raw file", "scans/neg-#36.dng": "raw",
	} {
		if after[name] != text {
			t.Errorf("%s is %q, want %q", name, after[name], text)
		}
	}
	shellIn(t, dir, "sh", "undo-renames-1.sh")
	undone := tree(t, dir, disk.CacheFolder)
	delete(undone, "undo-renames-1.sh")
	sameTree(t, "after undoing", before, undone)

	fill(t, dir, map[string]string{"scans/neg-#31.xmp": "of nothing", "scans/neg-#33.xmp": "also of 33"})
	s = must(t, "scans", "--rename-plan", "--apply", dir)
	wantLines(t, s.err, "notchbook: scans/neg-#32.xmp keeps its name: scans/neg-#31.xmp is there already",
		"notchbook: scans/neg-#33.xmp keeps its name: scans/neg-#32.xmp is there already")
}

// Files that differ by their ending only are of one sheet and stay together, under its new name;
// one whose place is taken stays and is named.
func TestFilesOfASheetAreRenamedTogether(t *testing.T) {
	const notes = "day: 2026-12-03, Weir\n5A: 1/60 f16\n5B: 1/60 f16\nscan: scans/{day}-{sheet}.tif\n"
	dir := folder(t, map[string]string{
		"notes.md": notes, "scans/5A.tif": "a", "scans/5A.png": "b", "scans/5B.png": "c", "scans/5B.tif": "d",
		"scans/5A.xmp": "of both", "scans/5B.png.xmp": "of the one",
	})
	want := "\nmv -n -- 'scans/5A.tif' 'scans/2026-12-03-5A.tif'\nmv -n -- 'scans/5A.png' 'scans/2026-12-03-5A.png'\nmv -n -- 'scans/5A.xmp' 'scans/2026-12-03-5A.xmp'\n" +
		"mv -n -- 'scans/5B.tif' 'scans/2026-12-03-5B.tif'\nmv -n -- 'scans/5B.png' 'scans/2026-12-03-5B.png'\nmv -n -- 'scans/5B.png.xmp' 'scans/2026-12-03-5B.png.xmp'\n"
	if plan := notchbook(t, "scans", "--rename-plan", dir); plan.err != "" || !strings.HasSuffix(plan.out, want) {
		t.Errorf("the plan is\n%s%s", plan.err, plan.out)
	}
	fill(t, dir, map[string]string{"scans/2026-12-03-5B.png": "e"})
	plan := notchbook(t, "scans", "--rename-plan", dir)
	wantLines(t, plan.err, "notchbook: scans/5B.png keeps its name: scans/2026-12-03-5B.png is there already")
	if strings.Contains(plan.out, "'scans/5B.png' ") || !strings.Contains(plan.out, "'scans/5B.tif' ") {
		t.Errorf("the plan is\n%s", plan.out)
	}
}

func shellIn(t *testing.T, dir string, args ...string) {
	t.Helper()
	if _, err := exec.LookPath("sh"); err != nil {
		t.Skip("there is no POSIX shell: no script was run")
	}
	c := exec.Command(args[0], args[1:]...)
	c.Dir = dir
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
}

func TestAuditAgainstTheLastRecord(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	must(t, "compile", dir)
	must(t, "scans", dir)
	at := func(name string) string { return filepath.Join(dir, "scans", name) }
	odd := "it's $(gone) -n.png"
	for _, err := range []error{
		os.Rename(at("neg-#33.png"), at(odd)),
		os.Remove(at("neg-#36.png")),
		os.WriteFile(at("neg-#38.png"), []byte(tinyScan(t, 99)), 0o644),
		os.WriteFile(at("neg-#39.png"), []byte("no image"), 0o644),
		os.WriteFile(at("holiday.png"), []byte(tinyScan(t, 98)), 0o644),
		os.WriteFile(filepath.Join(dir, "more.md"), []byte("day: 2026-10-05, Aldermoor\nsheet 1A: 1/60 f16\nscan 1A: scans/neg-#40.png\n"), 0o644),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	audit := notchbook(t, "scans", dir)
	if audit.status != found {
		t.Errorf("status %d", audit.status)
	}
	wantLines(t, audit.out,
		"gone: scans/neg-#36.png of 2026-10-04 #36 was in an earlier record, and no file has its bytes",
		"moved: scans/neg-#33.png is now scans/"+odd,
		"changed: scans/neg-#38.png has other bytes than in an earlier record",
		"unreadable: scans/neg-#39.png is not a JPEG, PNG or TIFF image",
		"changed: scans/neg-#39.png has other bytes than in an earlier record",
		"claimed twice: scans/neg-#40.png by 2026-10-05 1A, 2026-10-04 #40",
		"orphan: scans/holiday.png")
	if strings.Contains(audit.out, "gap") {
		t.Errorf("what was moved is no gap:\n%s", audit.out)
	}
	plan := must(t, "scans", "--rename-plan", dir)
	wantLines(t, plan.out, "# the same bytes as in the last record", `mv -n -- 'scans/it'\''s $(gone) -n.png' 'scans/neg-#33.png'`)

	// What is not known to be a rename stays a proposal that says so.
	wantLines(t, plan.out, "# as many files as names, in order: look whether it is so", `mv -n -- 'scans/holiday.png' 'scans/neg-#36.png'`)
	applied := must(t, "scans", "--rename-plan", "--apply", dir)
	if !strings.Contains(applied.err, "scans/holiday.png is not renamed to scans/neg-#36.png: only the number of files speaks for it") {
		t.Errorf("what was left is not said: %s", applied.err)
	}
	if _, err := os.Stat(at("holiday.png")); err != nil {
		t.Error("a scan was renamed by count alone: ", err)
	}
	if text, err := os.ReadFile(at("neg-#33.png")); err != nil || string(text) != tinyScan(t, 33) {
		t.Error("the moved scan is not back: ", err)
	}
}

func TestRenameTakesNoFilesPlace(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": "", "a.png": "a", "b.png": "b"})
	season, err := disk.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer season.Close()
	before := tree(t, dir, disk.CacheFolder)
	if err := season.Rename("a.png", "b.png"); !errors.Is(err, fs.ErrExist) {
		t.Errorf("got %v", err)
	}
	if err := season.Rename("a.png", "../b.png"); !errors.Is(err, disk.Outside) {
		t.Errorf("got %v", err)
	}
	err = carryOut(terminal{}, season, steps([]move{{"a.png", "c.png"}, {"c.png", "b.png"}}, ""))
	if err == nil || err.Error() != filepath.Join(dir, "b.png")+" exists; nothing was renamed" {
		t.Errorf("got %v", err)
	}
	sameTree(t, "after refusing", before, tree(t, dir, disk.CacheFolder))
	if notchbook(t, "scans", "--apply", dir).status != failed {
		t.Error("--apply without a plan")
	}
}

// GNU coreutils reads the record's sums.
func TestSumsByTheToolTheyAreFor(t *testing.T) {
	tool(t, "sha256sum", "the sums were not read by it")
	dir := numberedSeason(t, 31, 40)
	must(t, "compile", dir)
	shellIn(t, filepath.Join(dir, "record"), "sha256sum", "--strict", "-c", sumsName)
	text, err := disk.ReadFrom(filepath.Join(dir, "record"), sumsName)
	if err != nil {
		t.Fatal(err)
	}
	sums, err := readSums(text, filepath.Join(dir, "record"), dir)
	if err != nil || len(sums) != 10 || sums["scans/neg-#31.png"] == "" {
		t.Errorf("%v, %v", sums, err)
	}
}

func TestSidecarsByAnIndependentReader(t *testing.T) {
	tool(t, "exiftool", "the sidecars were not read by another program")
	dir := numberedSeason(t, 31, 40)
	must(t, "scans", "--xmp", dir)
	out, err := exec.Command("exiftool", "-json", "-n", "-validate", "-warning", "-FNumber", "-ExposureTime", "-PhotographicSensitivity",
		"-FocalLength", "-LensModel", "-DateTimeOriginal", "-Identifier", "-Title", "-Description", filepath.Join(dir, "scans", "neg-#31.xmp")).Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []map[string]any
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	delete(got[0], "SourceFile")
	want := map[string]any{"FNumber": 16.0, "ExposureTime": 1.0 / 60, "PhotographicSensitivity": 64.0, "FocalLength": 300.0, "LensModel": "long",
		"DateTimeOriginal": "2026:10:04", "Identifier": "2026-10-04 #31", "Title": "Mill", "Validate": "0 0 0",
		"Description": "Sheet #31; Aldermoor mill; film sedge; lens long; given f/16 1/60"}
	for name, value := range want {
		if v, ok := got[0][name].(float64); ok {
			if w, ok := value.(float64); !ok || v/w < 0.999 || v/w > 1.001 {
				t.Errorf("%s is %v, want %v", name, v, value)
			}
		} else if got[0][name] != value {
			t.Errorf("%s is %v, want %v", name, got[0][name], value)
		}
	}
	if len(got[0]) != len(want) {
		t.Errorf("reads %v", got[0])
	}
}

func TestSidecarsOfOthersStay(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	changed, other := filepath.Join(dir, "scans", "neg-#31.xmp"), filepath.Join(dir, "scans", "neg-#32.xmp")
	must(t, "scans", "--xmp", dir)
	first := tree(t, dir, disk.CacheFolder)
	must(t, "scans", "--xmp", dir)
	sameTree(t, "written again", first, tree(t, dir, disk.CacheFolder))

	own, err := os.ReadFile(changed)
	if err != nil || !data.OwnXMP(own) {
		t.Fatal("not known as our own: ", err)
	}
	edited := strings.Replace(string(own), "Mill", "The mill", 1)
	if err := errors.Join(os.WriteFile(changed, []byte(edited), 0o644), os.WriteFile(other, []byte("<x/>"), 0o644)); err != nil {
		t.Fatal(err)
	}
	before := tree(t, dir, disk.CacheFolder)
	s := notchbook(t, "scans", "--xmp", dir)
	sameTree(t, "after refusing", before, tree(t, dir, disk.CacheFolder))
	if s.status != found || strings.Count(s.err, "nothing is merged") != 2 || s.out != "8 sidecars written\n" {
		t.Errorf("status %d, %q, %q", s.status, s.out, s.err)
	}
}

// bytesRead reads all scans and says how many bytes had to be read in full; a
// scan that the cache knows counts for none.
func bytesRead(t *testing.T, dir string) int64 {
	t.Helper()
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	var fresh atomic.Int64
	r.reread = func(_ string, size int64) { fresh.Add(size) }
	r.prepare(newProgress(terminal{}))
	if len(r.thumbs) != len(r.list.Scans) {
		t.Errorf("%d thumbnails of %d scans", len(r.thumbs), len(r.list.Scans))
	}
	return fresh.Load()
}

func TestCacheIsBelievedAndDoubted(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	must(t, "compile", dir)
	want := tree(t, filepath.Join(dir, "record"))
	one := filepath.Join(dir, "scans", "neg-#34.png")
	size := int64(len(tinyScan(t, 34)))
	if n := bytesRead(t, dir); n != 0 {
		t.Errorf("%d bytes read of scans that are known", n)
	}
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(one, later, later); err != nil {
		t.Fatal(err)
	}
	if n := bytesRead(t, dir); n != size {
		t.Errorf("%d bytes read after one scan's time changed, want %d", n, size)
	}
	// The same size and time, but not the same file.
	text := []byte(tinyScan(t, 34))
	text[len(text)-30] ^= 1
	if err := errors.Join(os.WriteFile(one, text, 0o644), os.Chtimes(one, later, later)); err != nil {
		t.Fatal(err)
	}
	s := notchbook(t, "scans", dir)
	if !strings.Contains(s.out, "neg-#34.png") || s.status != found {
		t.Errorf("a changed scan is believed: %s", s.out)
	}
	if err := errors.Join(os.WriteFile(one, []byte(tinyScan(t, 34)), 0o644), os.RemoveAll(filepath.Join(dir, disk.CacheFolder))); err != nil {
		t.Fatal(err)
	}
	must(t, "compile", dir)
	sameTree(t, "without the cache", want, tree(t, filepath.Join(dir, "record")))

	// Entries that are damaged, or of scans that are no more.
	entries, err := filepath.Glob(filepath.Join(dir, disk.CacheFolder, "*.kept"))
	if err != nil || len(entries) != 10 {
		t.Fatal(entries, err)
	}
	for _, name := range entries {
		if err := os.Truncate(name, 100); err != nil {
			t.Fatal(err)
		}
	}
	must(t, "compile", dir)
	sameTree(t, "with a damaged cache", want, tree(t, filepath.Join(dir, "record")))
	if err := os.Remove(one); err != nil {
		t.Fatal(err)
	}
	bytesRead(t, dir)
	if entries, _ = filepath.Glob(filepath.Join(dir, disk.CacheFolder, "*.kept")); len(entries) != 9 {
		t.Errorf("%d entries for 9 scans", len(entries))
	}
}

// A negative is shown as a positive when its pattern, or its own line, says so.
func TestNegativesAreShownAsPositives(t *testing.T) {
	notes := strings.Replace(numberedNotes(), "{sheet}.png", "{sheet}.png, negative", 1)
	dark := image.NewGray16(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		dark.SetGray16(i%40, i/40, color.Gray16{Y: uint16(8000 + 3000*(i%40/20))})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, dark); err != nil {
		t.Fatal(err)
	}
	dir := folder(t, map[string]string{"notes.md": notes, "scans/neg-#31.png": b.String(), "scans/other.png": b.String()})
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	r.prepare(newProgress(terminal{}))
	for name, want := range map[string][2]int{"scans/neg-#31.png": {255, 0}, "scans/other.png": {31, 43}} {
		img, err := jpeg.Decode(bytes.NewReader(r.thumbs[name]))
		if err != nil {
			t.Fatal(name, err)
		}
		for i, x := range []int{5, 35} {
			if v := int(img.(*image.Gray).GrayAt(x, 15).Y); v < want[i]-3 || v > want[i]+3 {
				t.Errorf("%s shows %d at %d, want %d", name, v, x, want[i])
			}
		}
	}
}

// Fifty times the program is ended at some moment of its work. Whatever has a
// final name then is whole.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("short: nothing is killed")
	}
	t.Parallel()
	dir := numberedSeason(t, 31, 40)
	start := time.Now()
	for _, args := range [][]string{{"compile", dir}, {"scans", "--xmp", dir}} {
		if out, err := process(nil, args...).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
	}
	whole := time.Since(start) / 2
	for i := range 50 {
		args := [][]string{{"compile", dir}, {"scans", "--xmp", dir}}[i%2]
		if i%4 < 2 { // from the beginning, or from what an earlier one left
			os.RemoveAll(filepath.Join(dir, disk.CacheFolder))
		}
		p := process(nil, args...)
		if err := p.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(whole * time.Duration(i*37%50) / 50)
		p.Process.Kill()
		p.Wait()
		checkWhole(t, dir)
	}
	must(t, "compile", dir)
	must(t, "scans", "--xmp", dir)
}

var sumForm = regexp.MustCompile(`^([0-9a-f]{64}  \S.*\n)*$`)

func checkWhole(t *testing.T, dir string) {
	t.Helper()
	files := tree(t, dir, disk.CacheFolder)
	for name, text := range files {
		switch {
		case strings.Contains(name, ".lock-notchbook") || strings.Contains(name, ".tmp-notchbook") || strings.Contains(name, ".old-notchbook"):
		case strings.HasSuffix(name, ".xmp") && !data.OwnXMP([]byte(text)):
			t.Errorf("%s is not whole", name)
		case strings.HasSuffix(name, sumsName) && (text == "" || !sumForm.MatchString(text)):
			t.Errorf("%s is not whole: %q", name, text)
		case strings.HasSuffix(name, ".jpg"):
			if _, err := jpeg.Decode(strings.NewReader(text)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	entries, _ := filepath.Glob(filepath.Join(dir, disk.CacheFolder, "*.kept"))
	for _, name := range entries {
		text, err := os.ReadFile(name)
		if k, ok := decodeKept(text); err != nil || !ok || len(k.List) == 0 {
			t.Errorf("%s is not whole: %v", name, err)
		}
	}
}

// A scan that has changed is told of by every record that follows, until somebody has
// taken its line out of the list of what scans were, or the bytes are back.
func TestChangedScanIsNotForgotten(t *testing.T) {
	dir := numberedSeason(t, 31, 33)
	must(t, "compile", dir)
	scan := filepath.Join(dir, "scans", "neg-#32.png")
	former := filepath.Join(dir, "record", formerName)
	if err := os.WriteFile(scan, []byte(tinyScan(t, 99)), 0o644); err != nil {
		t.Fatal(err)
	}
	said := "1 scan has other bytes than in an earlier record: scans/neg-#32.png; when that is as you meant, take its line out of " + former
	for range 3 {
		if out := must(t, "compile", dir).err; !strings.Contains(out, said) {
			t.Errorf("not said: %s", out)
		}
	}
	if audit := notchbook(t, "scans", dir); audit.status != found || !strings.Contains(audit.out, "changed: scans/neg-#32.png") {
		t.Errorf("the audit says %s", audit.out)
	}
	text, err := os.ReadFile(former)
	if want := fmt.Sprintf("%x  ../scans/neg-#32.png\n", sha256.Sum256([]byte(tinyScan(t, 32)))); err != nil || string(text) != want {
		t.Errorf("%q (%v), want %q", text, err, want)
	}
	// A bag tells where the list lies that will have it; taken out is one line, and the others stay.
	bag := must(t, "archive", dir, "-o", filepath.Join(t.TempDir(), "bag"))
	if want := "when that is as you meant, compile the record anew and take its line out of " + former; !strings.Contains(bag.err, want) {
		t.Errorf("the bag says %s", bag.err)
	}
	gone := filepath.Join(dir, "scans", "neg-#33.png")
	if err := os.Remove(gone); err != nil {
		t.Fatal(err)
	}
	must(t, "compile", dir)
	both, err := os.ReadFile(former)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(former, bytes.TrimPrefix(both, text), 0o644); err != nil {
		t.Fatal(err)
	}
	if out := must(t, "compile", dir).err; strings.Contains(out, "other bytes") || !strings.Contains(out, "neg-#33.png") {
		t.Errorf("of the line that was left: %s", out)
	}
	if err := os.WriteFile(gone, []byte(tinyScan(t, 33)), 0o644); err != nil {
		t.Fatal(err)
	}
	if out := must(t, "compile", dir).err; strings.Contains(out, "other bytes") {
		t.Errorf("said again: %s", out)
	}
	// The first bytes are back: that is a change too, and then none.
	if err := os.WriteFile(scan, []byte(tinyScan(t, 32)), 0o644); err != nil {
		t.Fatal(err)
	}
	must(t, "compile", dir)
	if err := os.WriteFile(scan, []byte(tinyScan(t, 99)), 0o644); err != nil {
		t.Fatal(err)
	}
	if out := must(t, "compile", dir).err; strings.Contains(out, "other bytes") {
		t.Errorf("said of bytes that are what they were: %s", out)
	}
	if _, err := os.Stat(former); err == nil {
		t.Error("the list of what they were is left")
	}
}

// The page of the scans begins with what is on it, by state and by day, and each day
// has as many scans as is said there.
func TestScansPageHasContents(t *testing.T) {
	page := contents(t, filepath.Join(compiledSeason(t), "record", "scans.html"))
	list, rest, ok := strings.Cut(page, "<h2>")
	days := regexp.MustCompile(`<span class="n">(\d+)</span> <a href="scans\.html#(day-\d+)">`).FindAllStringSubmatch(list, -1)
	if !ok || len(days) < 4 {
		t.Fatalf("%d days in the contents", len(days))
	}
	for _, d := range days {
		_, of, ok := strings.Cut(rest, `id="`+d[2]+`"`)
		of, _, _ = strings.Cut(of, "</ul>")
		if n := strings.Count(of, "<li>"); !ok || strconv.Itoa(n) != d[1] {
			t.Errorf("%s has %d scans, not %s", d[2], n, d[1])
		}
	}
}
