package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// secret stands in every private remark of the test's notebooks and nowhere
// else.
const secret = "Quillsecret"

const privateNotes = `# A walk

use: kit.md

day: 2026-12-05, The kiln (private: Quillsecret's field)
private: the key of Quillsecret lies
under Quillsecret's stone

scene: Kiln mouth -- private: Quillsecret
meter: 1/8 f16
1A: f16, 1/8 -- private: Quillsecret held the cloth
1B: f16, 1/2 “private: Quillsecret walked in”
1B: shet f22 (private: Quillsecret
2A: f16, 1/8 -- the wind dropped
print 1A: grade 3 -- private: for Quillsecret
amend 1A: f22 not f16 (private: Quillsecret)
holder 3A: empty (private: Quillsecret has it)
neg 1A: 26-001
sleeve 26-001: binder 1 -- private: on Quillsecret's shelf
result 1A: a light leak (private: Quillsecret's fault)
scene: test speed, grey card -- private: Quillsecret's card
meter: 1/8 f16
2B: f16, 1/8 (private: Quillsecret held the card)
density 2B: base+fog 0.10, card 0.75 -- private: on Quillsecret's densitometer
scan 1A: scans/kiln.jpg (private: Quillsecret)

We met at the gate (private: with Quillsecret) and walked on.

- private: Quillsecret
  - and Quillsecret's wife
- a public word: Kestrelword

We had tea[^1]. private: with Quillsecret
and Quillsecret's wife

[^1]: private: Quillsecret
    of Quillsecret's garden

| who | where |
|---|---|
| private: | Quillsecret |

private:

~~~
Quillsecret
~~~

<!--
private: Quillsecret

Quillsecret
-->

## Private – family

- Quillsecret

Quillsecret
`

// privateSeason is a season with a private remark in every place that one can
// stand in.
func privateSeason(t testing.TB) string {
	dir := filepath.Join(t.TempDir(), "season")
	fill(t, dir, map[string]string{
		"walk.md":        privateNotes,
		"kit.md":         "film slate: ISO 100 -- private: a gift of Quillsecret\nlens 210: 210 mm\nfilter R25: x8, shet (private: bought of Quillsecret\n",
		"scans/kiln.jpg": picture(300, 200),
	})
	return dir
}

// No private text is left in any byte of what is for others: neither as it was
// typed, nor in a stream of the book, nor in what the book shows.
func TestPublicRecordHoldsNothingPrivate(t *testing.T) {
	dir := privateSeason(t)
	out := filepath.Join(t.TempDir(), "record")
	said := must(t, "compile", "--public", dir, "-o", out)
	withoutSecret(t, "what was said", said.out+said.err)
	searched(t, out)

	// The same search finds it in the whole record, so the search can see.
	whole := filepath.Join(t.TempDir(), "record")
	must(t, "compile", dir, "-o", whole)
	all := strings.Join(bytesOf(t, whole), "\n")
	if !strings.Contains(all, secret) {
		t.Error("the whole record does not show private remarks")
	}
}

func withoutSecret(t testing.TB, what, text string) {
	t.Helper()
	if at := strings.Index(strings.ToLower(text), strings.ToLower(secret)); at >= 0 {
		t.Errorf("%s holds private text: %q", what, text[max(0, at-60):min(len(text), at+60)])
	}
}

// searched looks through every byte of a folder, and through the streams and
// the words of its books.
func searched(t testing.TB, dir string) {
	t.Helper()
	for _, text := range bytesOf(t, dir) {
		withoutSecret(t, dir, text)
	}
	public := false
	for _, text := range bytesOf(t, dir) {
		public = public || strings.Contains(text, "Kestrelword")
	}
	if !public {
		t.Error("public words are missing")
	}
}

// bytesOf gives every file of a folder, and of a PDF its streams unpacked and
// its words.
func bytesOf(t testing.TB, dir string) []string {
	t.Helper()
	var all []string
	for name, text := range tree(t, dir) {
		all = append(all, name, text)
		if filepath.Ext(name) == ".pdf" {
			full := filepath.Join(dir, filepath.FromSlash(name))
			all = append(all, unpacked(t, full), ask(t, "pdftotext", full, "-"))
		}
	}
	return all
}

func unpacked(t testing.TB, pdf string) string {
	t.Helper()
	tool(t, "qpdf", "the streams of the book are not unpacked")
	plain := filepath.Join(t.TempDir(), "plain.pdf")
	if out, err := exec.Command("qpdf", "--qdf", "--object-streams=disable", "--stream-data=uncompress", pdf, plain).CombinedOutput(); err != nil {
		t.Fatalf("qpdf: %v\n%s", err, out)
	}
	text, err := os.ReadFile(plain)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A scan whose line says private is in no public output: neither its name nor its bytes'
// digest, also where a pattern would find it; the sheet stays. In the writer's own record
// all is as without the word.
func TestPrivateScansAreHeldBack(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "season")
	fill(t, dir, map[string]string{
		"walk.md": "day: 2026-12-05, Kestrelword\nscan: scans/{day}-{sheet}.jpg\nmeter: 1/8 f16\n1A: f16, 1/8\n1B: f16, 1/8\n2A: f16, 1/8\n" +
			"scan 1A: scans/2026-12-05-1A.jpg, private -- on the old machine\nscan 1B: scans/Quillsecret.jpg, PRIVATE\n",
		"scans/2026-12-05-1A.jpg": picture(300, 200), "scans/Quillsecret.jpg": picture(200, 300), "scans/2026-12-05-2A.jpg": picture(320, 200),
		"scans/2026-12-05-1B.jpg": picture(310, 200),
	})
	out := t.TempDir()
	digest := digestOf(t, filepath.Join(dir, "scans", "2026-12-05-1A.jpg"))
	must(t, "compile", "--public", dir, "-o", filepath.Join(out, "record"))
	must(t, "archive", "--public", dir, "-o", filepath.Join(out, "bag"))
	searched(t, out)
	text := strings.Join(bytesOf(t, out), "\n") + must(t, "find", "--public", "kestrelword", dir, "--format", "json").out + must(t, "scans", "--public", dir).out
	for _, hidden := range []string{"2026-12-05-1A.jpg", "2026-12-05-1B.jpg", "Quillsecret", digest, digestOf(t, filepath.Join(dir, "scans", "Quillsecret.jpg"))} {
		if strings.Contains(text, hidden) {
			t.Errorf("%s is handed on", hidden)
		}
	}
	for _, name := range []string{"bag/data/season/scans/2026-12-05-2A.jpg", "record/outing-2026-12-05.html"} {
		if _, err := os.Stat(filepath.Join(out, filepath.FromSlash(name))); err != nil {
			t.Error(err)
		}
	}
	must(t, "compile", dir, "-o", filepath.Join(out, "whole"))
	if sums := contents(t, filepath.Join(out, "whole", sumsName)); strings.Count(sums, "\n") != 4 || !strings.Contains(sums, digest) {
		t.Errorf("the whole record's sums are\n%s", sums)
	}
}

// What stays though it may be private is named, line by line and each for its own reason; so
// is a file that is published as a notebook though nothing in it is one.
func TestPublicNamesWhatIsWritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "season")
	gates := strings.Repeat("The gate is private: no entry\n\n", 14)
	fill(t, dir, map[string]string{
		"walk.md":                  "day: 2026-12-05, Kestrelword\nmeter: 1/8 f16\n1A: f16, 1/8\n\n" + gates + "private: Quillsecret\n1B: f16, 1/8 -- Ida\n\n## Private\n\n2A: f16, 1/8 -- Quillsecret\n2B: f16, 1/8\n",
		"documents/Kästen (Ü).txt": "Box 1, Kestrelword\n",
	})
	out := t.TempDir()
	said := must(t, "compile", "--public", dir, "-o", filepath.Join(out, "record")).err
	searched(t, filepath.Join(out, "record"))
	var lines []string
	for n := 5; n < 5+28; n += 2 {
		lines = append(lines, fmt.Sprintf("walk.md:%d", n))
	}
	wantLines(t, said,
		"notchbook: the word private, or the name of a private scan, stands in what is written, and is not marked to be left out: "+strings.Join(lines, ", "),
		"notchbook: what stands beside a private remark may belong to it, and is written: walk.md:34",
		"notchbook: log lines below a private heading are written, without their remarks: walk.md:38, walk.md:39",
		"notchbook: documents/Kästen (Ü).txt has no log line; it is published as a notebook")
	if said := must(t, "compile", dir, "-o", filepath.Join(out, "whole")).err; strings.Contains(said, "private") || strings.Contains(said, "published") {
		t.Error(said)
	}
}

// The sidecar of a private scan is left out with it, and not named.
func TestSidecarsOfPrivateScans(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "season")
	fill(t, dir, map[string]string{
		"walk.md":               "day: 2026-12-05, Kestrelword\n1A: f16, 1/8\nscan 1A: scans/Quillsecret.jpg, private\n",
		"scans/Quillsecret.jpg": picture(200, 300), "scans/Quillsecret.xmp": "<x/>", "plan.dwg": "plan",
	})
	said := must(t, "archive", "--public", dir, "-o", filepath.Join(t.TempDir(), "bag"))
	withoutSecret(t, "what was said", said.out+said.err)
	wantLines(t, said.out, "left out, since nothing in the notes leads to them: 1 file: plan.dwg",
		"left out of what is public: 1 scan that no sheet names or a line calls private, with 1 sidecar")
}

// A pattern whose line says private gives no sheet a scan in a public output; in the writer's
// own record it does.
func TestPrivatePatternIsHeldBack(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "season")
	fill(t, dir, map[string]string{
		"walk.md":                 "day: 2026-12-05, Kestrelword\nscan: scans/{day}-{sheet}.jpg, private\nmeter: 1/8 f16\n1A: f16, 1/8\n",
		"scans/2026-12-05-1A.jpg": picture(300, 200),
	})
	out := t.TempDir()
	must(t, "compile", "--public", dir, "-o", filepath.Join(out, "record"))
	must(t, "archive", "--public", dir, "-o", filepath.Join(out, "bag"))
	text := strings.Join(bytesOf(t, out), "\n")
	for _, hidden := range []string{"2026-12-05-1A.jpg", digestOf(t, filepath.Join(dir, "scans", "2026-12-05-1A.jpg"))} {
		if strings.Contains(text, hidden) {
			t.Errorf("%s is handed on", hidden)
		}
	}
	must(t, "compile", dir, "-o", filepath.Join(out, "whole"))
	if sums := contents(t, filepath.Join(out, "whole", sumsName)); !strings.Contains(sums, "2026-12-05-1A.jpg") && !strings.Contains(sums, digestOf(t, filepath.Join(dir, "scans", "2026-12-05-1A.jpg"))) {
		t.Errorf("the whole record's sums are\n%s", sums)
	}
}
