package main

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// numberedScan is where a scan of a numbered season lies.
func numberedScan(dir, name string) string { return filepath.Join(dir, "scans", "neg-#"+name+".png") }

func copyOf(t *testing.T, from, to string) {
	t.Helper()
	text, err := os.ReadFile(from)
	if err := errors.Join(err, os.WriteFile(to, text, 0o644)); err != nil {
		t.Fatal(err)
	}
}

// shifted renames scans one by one.
func shifted(t *testing.T, dir string, names ...string) {
	t.Helper()
	for i := 1; i < len(names); i++ {
		if err := os.Rename(numberedScan(dir, names[i-1]), numberedScan(dir, names[i])); err != nil {
			t.Fatal(err)
		}
	}
}

// What the bytes of a season's scans did since the record, and what is said of it: bytes
// that are written over are a change, whatever name they had; where each file went on
// to a name that was free, and none was lost, it is a rename.
func TestChangesAndRenamesAreToldApart(t *testing.T) {
	for name, c := range map[string]struct {
		do    func(t *testing.T, dir string)
		says  []string
		sum   string
		fails bool
	}{
		"copied over": {
			func(t *testing.T, dir string) { copyOf(t, numberedScan(dir, "31"), numberedScan(dir, "33")) },
			[]string{"changed: scans/neg-#33.png has other bytes than in an earlier record: it has the bytes that scans/neg-#31.png had"},
			"0 missing, 0 unreadable, 1 changed, 0 gone, 0 moved", true},
		"moved over": {
			func(t *testing.T, dir string) { shifted(t, dir, "31", "33") },
			[]string{"gone: scans/neg-#31.png of 2026-10-04 #31 was in an earlier record; scans/neg-#33.png has the same bytes",
				"changed: scans/neg-#33.png has other bytes than in an earlier record: it has the bytes that scans/neg-#31.png had"},
			"0 missing, 0 unreadable, 1 changed, 1 gone, 0 moved", true},
		"swapped": {
			func(t *testing.T, dir string) {
				shifted(t, dir, "31", "x")
				shifted(t, dir, "33", "31")
				shifted(t, dir, "x", "33")
			},
			[]string{
				"changed: scans/neg-#31.png has other bytes than in an earlier record: it has the bytes that scans/neg-#33.png had; those that it had are in scans/neg-#33.png",
				"changed: scans/neg-#33.png has other bytes than in an earlier record: it has the bytes that scans/neg-#31.png had; those that it had are in scans/neg-#31.png"},
			"0 missing, 0 unreadable, 2 changed, 0 gone, 0 moved", true},
		"shifted up": {
			func(t *testing.T, dir string) { // 41 to 43 have no sheet
				shifted(t, dir, "40", "41")
				shifted(t, dir, "39", "40")
			},
			[]string{"missing: scans/neg-#39.png", "renamed: scans/neg-#40.png was scans/neg-#39.png in the last record"},
			"1 missing, 0 unreadable, 0 changed, 0 gone, 1 moved", true},
		"one put in between": {
			func(t *testing.T, dir string) {
				shifted(t, dir, "39", "41")
				copyOf(t, numberedScan(dir, "31"), numberedScan(dir, "39"))
			},
			[]string{"changed: scans/neg-#39.png has other bytes than in an earlier record: it has the bytes that scans/neg-#31.png had; those that it had are in scans/neg-#41.png"},
			"0 missing, 0 unreadable, 1 changed, 0 gone, 0 moved", true},
		"a copy beside it": {
			func(t *testing.T, dir string) { copyOf(t, numberedScan(dir, "31"), numberedScan(dir, "50")) },
			[]string{"copy: scans/neg-#50.png has the same bytes as scans/neg-#31.png, and no sheet names it"},
			"0 missing, 0 unreadable, 0 changed, 0 gone, 0 moved", false},
		"a sheet's deleted": {
			func(t *testing.T, dir string) { _ = os.Remove(numberedScan(dir, "34")) },
			[]string{"gone: scans/neg-#34.png of 2026-10-04 #34 was in an earlier record, and no file has its bytes"},
			"0 missing, 0 unreadable, 0 changed, 1 gone, 0 moved", true},
		"an orphan deleted": {
			func(t *testing.T, dir string) { _ = os.Remove(numberedScan(dir, "60")) },
			[]string{"gone: scans/neg-#60.png was in an earlier record, and no file has its bytes"},
			"0 missing, 0 unreadable, 0 changed, 1 gone, 0 moved", true},
		"an orphan moved": {
			func(t *testing.T, dir string) { shifted(t, dir, "60", "61") },
			[]string{"moved: scans/neg-#60.png is now scans/neg-#61.png, and no sheet names it"},
			"0 missing, 0 unreadable, 0 changed, 0 gone, 1 moved", false},
		"emptied": {
			func(t *testing.T, dir string) { _ = os.Truncate(numberedScan(dir, "35"), 0) },
			[]string{"unreadable: scans/neg-#35.png is empty", "changed: scans/neg-#35.png has other bytes than in an earlier record"},
			"0 missing, 1 unreadable, 1 changed, 0 gone, 0 moved", true},
	} {
		t.Run(name, func(t *testing.T) {
			dir := numberedSeason(t, 31, 40)
			if err := os.WriteFile(numberedScan(dir, "60"), []byte(tinyScan(t, 60)), 0o644); err != nil {
				t.Fatal(err)
			}
			must(t, "compile", dir)
			c.do(t, dir)
			s := notchbook(t, "scans", dir)
			wantLines(t, s.out, c.says...)
			if !strings.Contains(s.out, " without a file; "+c.sum) || (s.status == found) != c.fails {
				t.Errorf("status %d\n%s", s.status, s.out)
			}
		})
	}
}

// A plan that was carried out leaves no changes behind.
func TestRenamesByThePlanAreNoChanges(t *testing.T) {
	dir := numberedSeason(t, 32, 41)
	must(t, "compile", dir)
	must(t, "scans", "--rename-plan", "--apply", dir)
	s := must(t, "scans", dir)
	wantLines(t, s.out, "renamed: scans/neg-#31.png was scans/neg-#32.png in the last record", "renamed: scans/neg-#40.png was scans/neg-#41.png in the last record")
	if strings.Count(s.out, "renamed: ") != 10 || strings.Contains(s.out, "changed: ") {
		t.Errorf("it says\n%s", s.out)
	}
}

// The sums of a record that lies beside the season, or anywhere, lead to the same files
// for the audit as for sha256sum.
func TestSumsOfARecordElsewhere(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	record := filepath.Join(t.TempDir(), "far", "record")
	if err := os.MkdirAll(filepath.Dir(record), 0o755); err != nil {
		t.Fatal(err)
	}
	if s := must(t, "compile", dir, "-o", record); s.err != "" {
		t.Errorf("of the first record it says %s", s.err)
	}
	if s := must(t, "scans", dir, "--record", record); strings.Contains(s.out, "renamed") || strings.Contains(s.out, "compared") {
		t.Errorf("it says\n%s", s.out)
	}
	if err := os.WriteFile(numberedScan(dir, "32"), []byte(tinyScan(t, 99)), 0o644); err != nil {
		t.Fatal(err)
	}
	wantLines(t, notchbook(t, "scans", dir, "--record", record).out, "changed: scans/neg-#32.png has other bytes than in an earlier record")
	for range 2 {
		if s := must(t, "compile", dir, "-o", record); !strings.Contains(s.err, "1 scan has other bytes than in an earlier record: scans/neg-#32.png") || strings.Contains(s.err, "another name") {
			t.Errorf("it says %s", s.err)
		}
	}
	bag := filepath.Join(t.TempDir(), "bag")
	if s := must(t, "archive", dir, "-o", bag, "--record", record); !strings.Contains(s.err, "scans/neg-#32.png") {
		t.Errorf("the bag is made without a word: %s", s.err)
	}
	// The record in a bag is one of the season in it.
	wantLines(t, notchbook(t, "scans", filepath.Join(bag, "data", bagSeason), "--record", filepath.Join(bag, "data", bagRecord)).out,
		"changed: scans/neg-#32.png has other bytes than in an earlier record")
	checkSums(t, record, sumsName, true)
	checkSums(t, record, formerName, false)
	if s := notchbook(t, "scans", dir, "--record", filepath.Join(dir, "nowhere")); s.status != failed || !strings.Contains(s.err, "no scan can be compared") {
		t.Errorf("status %d: %s", s.status, s.err)
	}
}

// A list of sums that is gone from a record is missed, and one that cannot be read is
// not written over: both knew what the scans were. Of a first record nothing is said.
func TestLostSumsAreMissed(t *testing.T) {
	for _, named := range []bool{false, true} {
		dir := numberedSeason(t, 31, 40)
		record, args := filepath.Join(dir, "record"), []string{"compile", dir}
		if named {
			record = filepath.Join(t.TempDir(), "record")
			args = append(args, "-o", record)
		}
		if s := must(t, args...); s.err != "" {
			t.Errorf("of the first record it says %s", s.err)
		}
		sums := filepath.Join(record, sumsName)
		if err := os.WriteFile(numberedScan(dir, "31"), []byte(tinyScan(t, 99)), 0o644); err != nil {
			t.Fatal(err)
		}
		must(t, args...)
		whole := map[string]string{sumsName: contents(t, sums), formerName: contents(t, filepath.Join(record, formerName))}
		damage := func(list, text string) {
			name := filepath.Join(record, list)
			if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			s := notchbook(t, args...)
			if s.status != failed || !strings.Contains(s.err, name+" is damaged: line ") || !strings.Contains(s.err, "nothing was written") {
				t.Errorf("%q: status %d: %s", text, s.status, s.err)
			}
			if contents(t, name) != text {
				t.Errorf("%q is written over", text)
			}
			if s := notchbook(t, "archive", dir, "-o", filepath.Join(t.TempDir(), "bag"), "--record", record); s.status != failed || !strings.Contains(s.err, name) {
				t.Errorf("%q: the bag is made: status %d: %s", text, s.status, s.err)
			}
			if err := os.WriteFile(name, []byte(whole[list]), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for list, text := range whole {
			damage(list, "no sums\n")
			damage(list, "zz"+text[2:])
			damage(list, text[:len(text)-5])
			damage(list, strings.Repeat("\x00", len(text)))
		}
		if err := os.Remove(sums); err != nil {
			t.Fatal(err)
		}
		if s := must(t, args...); !strings.Contains(s.err, sums+" is missing: no scan can be compared with what it was") {
			t.Errorf("it is not said that the sums are gone: %s", s.err)
		}
		if contents(t, filepath.Join(record, formerName)) != whole[formerName] {
			t.Error("what was known of earlier is gone with them")
		}
		if s := must(t, args...); strings.Contains(s.err, "missing") || contents(t, sums) != whole[sumsName] {
			t.Errorf("once they are back it says %s", s.err)
		}
	}
}

// checkSums has GNU coreutils hold a list against the files.
func checkSums(t *testing.T, folder, list string, right bool) {
	t.Helper()
	c := exec.Command(tool(t, "sha256sum", "the sums were not read by it"), "--strict", "-c", list)
	c.Dir = folder
	if out, err := c.CombinedOutput(); (err == nil) != right {
		t.Errorf("sha256sum -c %s: %v\n%s", list, err, out)
	}
}

// What a missing scan was is kept until it is back with those bytes: a later file of
// its name is held against it, and so is one that moved.
func TestMissingScanKeepsItsDigest(t *testing.T) {
	dir := numberedSeason(t, 31, 33)
	record := filepath.Join(dir, "record")
	must(t, "compile", dir)
	shifted(t, dir, "32", "stray")
	for range 2 {
		notchbook(t, "compile", dir)
		wantLines(t, notchbook(t, "scans", dir).out, "moved: scans/neg-#32.png is now scans/neg-#stray.png")
	}
	wantLines(t, must(t, "scans", "--rename-plan", dir).out, "mv -n -- 'scans/neg-#stray.png' 'scans/neg-#32.png'")
	if err := os.Remove(numberedScan(dir, "stray")); err != nil {
		t.Fatal(err)
	}
	notchbook(t, "compile", dir)
	if err := os.WriteFile(numberedScan(dir, "32"), []byte(tinyScan(t, 99)), 0o644); err != nil {
		t.Fatal(err)
	}
	if s := must(t, "compile", dir); !strings.Contains(s.err, "1 scan has other bytes than in an earlier record: scans/neg-#32.png") {
		t.Errorf("another file is accepted: %s", s.err)
	}
	checkSums(t, record, formerName, false)
	if err := os.WriteFile(numberedScan(dir, "32"), []byte(tinyScan(t, 32)), 0o644); err != nil {
		t.Fatal(err)
	}
	// The stray file is gone, but its bytes are back.
	checkSums(t, record, sumsName, false)
	if s := must(t, "compile", dir); s.err != "" {
		t.Errorf("it says %s", s.err)
	}
	checkSums(t, record, sumsName, true)
	if _, err := os.Stat(filepath.Join(record, formerName)); err == nil {
		t.Error("the list of what scans were is left")
	}
}

// What changed is said wherever the scan stands in the record, with the digest that it
// had, and so in a bag.
func TestChangesReachTheRecord(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	was := digestOf(t, numberedScan(dir, "32"))
	gone := digestOf(t, numberedScan(dir, "33"))
	must(t, "compile", dir)
	if err := errors.Join(os.WriteFile(numberedScan(dir, "32"), []byte(tinyScan(t, 99)), 0o644), os.Remove(numberedScan(dir, "33"))); err != nil {
		t.Fatal(err)
	}
	bag := filepath.Join(t.TempDir(), "bag")
	notchbook(t, "archive", dir, "-o", bag)
	notchbook(t, "compile", dir)
	now := digestOf(t, numberedScan(dir, "32"))
	for _, record := range []string{filepath.Join(dir, "record"), filepath.Join(bag, "data", bagRecord)} {
		checkSums(t, record, sumsName, true)
		checkSums(t, record, formerName, false)
		if former := contents(t, filepath.Join(record, formerName)); strings.Count(former, "\n") != 2 || !strings.Contains(former, was) || !strings.Contains(former, gone) {
			t.Errorf("%s:\n%s", formerName, former)
		}
		text := unwrapped(contents(t, filepath.Join(record, "record.txt")))
		for _, want := range []string{"has other bytes than in an earlier record", "SHA-256 in an earlier record " + was, "SHA-256 in an earlier record " + gone} {
			if !strings.Contains(text, want) {
				t.Errorf("record.txt has no %q", want)
			}
		}
		page := contents(t, filepath.Join(record, "scans.html"))
		for _, want := range []string{"has other bytes than in an earlier record", now, was, gone} {
			if !strings.Contains(page, want) {
				t.Errorf("scans.html has no %q", want)
			}
		}
		var season struct {
			Scans []struct{ Path, SHA256, Was string }
		}
		if err := json.Unmarshal([]byte(contents(t, filepath.Join(record, "season.json"))), &season); err != nil {
			t.Fatal(err)
		}
		for _, s := range season.Scans {
			want := map[string][2]string{"scans/neg-#32.png": {now, was}, "scans/neg-#33.png": {"", gone}}[s.Path]
			if s.Was != want[1] || want[1] != "" && s.SHA256 != want[0] {
				t.Errorf("season.json: %v", s)
			}
		}
		book, err := exec.Command(tool(t, "pdftotext", "the book was not read"), "-layout", filepath.Join(record, pdfName), "-").Output()
		for _, want := range []string{"has other bytes than in an earlier record", "SHA-256 in an earlier record " + was, "SHA-256 in an earlier record " + gone} {
			if !strings.Contains(string(book), want) {
				t.Errorf("the book has no %q (%v)", want, err)
			}
		}
	}
	if info := contents(t, filepath.Join(bag, "bag-info.txt")); !strings.Contains(unwrapped(info), " Season-Scans-Changed: 1; data/record/SHA256SUMS.former has the digests of before ") {
		t.Errorf("bag-info.txt:\n%s", info)
	}
	if s := must(t, "archive", "--verify", bag); !strings.Contains(s.out, "the bag is valid") {
		t.Error(s.out)
	}
}

// unwrapped is a text in one line.
func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

// digestOf is the digest of a file by GNU coreutils.
func digestOf(t *testing.T, name string) string {
	t.Helper()
	out, err := exec.Command(tool(t, "sha256sum", "no digest was made by it"), name).Output()
	digest, _, _ := strings.Cut(strings.TrimPrefix(string(out), `\`), " ")
	if err != nil || len(digest) != 64 {
		t.Fatalf("%s: %q, %v", name, out, err)
	}
	return digest
}

// The audit as JSON holds every name; copies of one file under several sheets are named.
func TestAuditAsJSON(t *testing.T) {
	dir := numberedSeason(t, 31, 40)
	copyOf(t, numberedScan(dir, "31"), numberedScan(dir, "32"))
	copyOf(t, numberedScan(dir, "31"), numberedScan(dir, "33"))
	must(t, "compile", dir)
	wantLines(t, must(t, "scans", dir).out, "copy: scans/neg-#32.png has the same bytes as scans/neg-#31.png", "copy: scans/neg-#33.png has the same bytes as scans/neg-#31.png")
	was, gone := digestOf(t, numberedScan(dir, "35")), digestOf(t, numberedScan(dir, "36"))
	if err := errors.Join(os.WriteFile(numberedScan(dir, "35"), []byte(tinyScan(t, 99)), 0o644), os.Rename(numberedScan(dir, "36"), numberedScan(dir, "stray"))); err != nil {
		t.Fatal(err)
	}
	s := notchbook(t, "scans", dir, "--format", "json")
	var got struct {
		Format   string
		Compared bool
		Missing  []string
		Changed  []struct{ Path, SHA256, Was string }
		Moved    []struct{ From, To string }
		Copies   []struct{ Path, Of string }
	}
	if err := json.Unmarshal([]byte(s.out), &got); err != nil || s.status != found {
		t.Fatal(s.status, err, s.out)
	}
	if got.Format != "notchbook scans" || !got.Compared || len(got.Missing) != 0 || len(got.Copies) != 2 || got.Copies[1].Path != "scans/neg-#33.png" {
		t.Errorf("%+v", got)
	}
	if len(got.Changed) != 1 || got.Changed[0].Was != was || got.Changed[0].SHA256 != digestOf(t, numberedScan(dir, "35")) {
		t.Errorf("changed: %+v", got.Changed)
	}
	if len(got.Moved) != 1 || got.Moved[0].To != "scans/neg-#stray.png" || digestOf(t, filepath.Join(dir, got.Moved[0].To)) != gone {
		t.Errorf("moved: %+v", got.Moved)
	}
	if strings.Contains(s.out, "null") {
		t.Errorf("a list is null:\n%s", s.out)
	}
	if s := notchbook(t, "scans", dir, "--format", "json", "--xmp"); s.status != failed {
		t.Errorf("status %d: %s", s.status, s.err)
	}
}

// A name that differs in the case of letters only is the one that is asked for, whatever
// else is amiss in the folder.
func TestPlanPairsNamesThatDifferInCase(t *testing.T) {
	dir := folder(t, map[string]string{"notes.md": "day: 2026-10-03, Mill\nscan: scans/{day}-{sheet}.png\nsheet 4a: 1/60 f16\nsheet 4b: 1/60 f16\nsheet 5a: 1/60 f16\n",
		"scans/other.png": tinyScan(t, 7)})
	plan := must(t, "scans", "--rename-plan", dir)
	if strings.Contains(plan.out, "mv ") {
		t.Errorf("the plan guesses:\n%s", plan.out)
	}
	missing := notchbook(t, "scans", dir)
	_, name, _ := strings.Cut(missing.out, "missing: ")
	name, _, _ = strings.Cut(name, " to ")
	name, _, _ = strings.Cut(name, "\n")
	base := filepath.Base(name)
	odd := swapCase(strings.TrimSuffix(base, ".png")) + ".PNG"
	if err := os.WriteFile(filepath.Join(dir, "scans", odd), []byte(tinyScan(t, 8)), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "scans", base)); err == nil {
		t.Skip("this disk does not tell letters by their case")
	}
	plan = must(t, "scans", "--rename-plan", dir)
	wantLines(t, plan.out, "# the same name but for the case of letters", "mv -n -- 'scans/"+odd+"' '"+name+"'")
	if strings.Count(plan.out, "mv ") != 1 {
		t.Errorf("the plan guesses:\n%s", plan.out)
	}
}

func swapCase(text string) string {
	if upper := strings.ToUpper(text); upper != text {
		return upper
	}
	return strings.ToLower(text)
}

// Many missing scans are listed once; a sheet names its own.
func TestSheetsNameTheirOwnMissingScans(t *testing.T) {
	dir := numberedSeason(t, 31, 33)
	notchbook(t, "compile", dir)
	record := filepath.Join(dir, "record")
	book, err := exec.Command(tool(t, "pdftotext", "the book was not read"), "-layout", filepath.Join(record, pdfName), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := ""
	files, err := filepath.Glob(filepath.Join(record, "outing-*.html"))
	for _, name := range files {
		pages += contents(t, name)
	}
	if err != nil || pages == "" {
		t.Fatal("no outing has a page: ", err)
	}
	for name, text := range map[string]string{"the text": contents(t, filepath.Join(record, "record.txt")), "the book": string(book), "the outings": pages} {
		text = unwrapped(text)
		if n := strings.Count(text, "7 scans are missing"); n != map[string]int{"the text": 1, "the book": 1}[name] {
			t.Errorf("%s lists all %d times", name, n)
		}
		for _, scan := range []string{"34", "40"} {
			own := regexp.MustCompile(`scans/neg-#` + scan + `\.png(?:<[^>]*>|[ ,\n])*missing`)
			if n := len(own.FindAllString(text, -1)); n != 1 || strings.Contains(text, "there is no scan") {
				t.Errorf("%s says %d times that %s is not there", name, n, scan)
			}
		}
	}
}
