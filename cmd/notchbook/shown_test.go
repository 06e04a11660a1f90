package main

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What pages and book show of a season of long times, many numbers and short notebooks.

func manySheets() map[string]string {
	var glass, numbers strings.Builder
	glass.WriteString("use: kit.md\n# Glass house\nday: 2024-12-15, Glass house\nfilm: sedge\nlens: 150\nmeter: EV 11\n")
	for i := range 13 {
		fmt.Fprintf(&glass, "78-%d: f16 1/8\n", i+1)
		fmt.Fprintf(&numbers, " 78-%d", i+1)
	}
	glass.WriteString("neg" + numbers.String() + ": 78-1 to 78-13\n")
	return map[string]string{
		"kit.md":   "# My kit\n\nWhat goes into the rucksack.\n\nlens 150: 150 mm, f5.6-f64\nfilm sedge: ISO 100, EI 64, reciprocity t^1.31 over 1s\n",
		"glass.md": glass.String(),
		"mill.md": "# Mill\n\nuse: kit.md\n\nday: 2024-11-03, Lower Mill\nload S1 S2 S10: sedge\nfilm: sedge\nlens: 150\n\n## Mill\twheel\n\nscene: Mill wheel\nmeter: EV 3\n" +
			"S1: f11, 1m23 + 1m23\nS2: f11, 1m8s\nS10: f16 30s\ndeveloped S2: N\n",
	}
}

func compiledRecord(t *testing.T, notes map[string]string, args ...string) (dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "record")
	notchbook(t, append([]string{"compile", folder(t, notes), "-o", dir}, args...)...)
	return dir
}

// No page breaks a time between its minutes and its seconds; what was typed keeps its bytes.
func TestPagesKeepTimesWhole(t *testing.T) {
	notes := manySheets()
	notes["mill.md"] += "2A: f11, 1m 23s\n"
	dir := compiledRecord(t, notes)
	code, broken := regexp.MustCompile(`(?s)<code>.*?</code>`), regexp.MustCompile(`\d[mh] \d+[ms]\b`)
	pages, whole := 0, 0
	for name, text := range tree(t, dir) {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		pages++
		said := code.ReplaceAllString(text, "")
		if at := broken.FindString(said); at != "" {
			t.Errorf("%s may break %q", name, at)
		}
		whole += strings.Count(said, "1m\u00a023s")
	}
	if pages < 10 || whole < 5 {
		t.Errorf("%d pages with %d times", pages, whole)
	}
	if page := read(t, dir, "outing-2024-11-03.html"); !strings.Contains(page, `<code>2A: f11, <span class="day">1m 23s</span></code>`) {
		t.Error("the typed line is not as typed, or may be broken")
	}
}

// Of a long line that numbers many negatives each sheet says its own number, and once.
func TestSheetsShowTheirOwnNumber(t *testing.T) {
	dir := compiledRecord(t, manySheets())
	const long = "78-1 78-2 78-3"
	for name, least := range map[string]int{"outing-2024-12-15.html": 1, "record.txt": 1} {
		text := read(t, dir, name)
		if n := strings.Count(text, "neg "+long); n != least {
			t.Errorf("%s shows the whole line %d times", name, n)
		}
		if n := strings.Count(text, "neg … 78-13 …"); n != 1 {
			t.Errorf("%s shows the short one %d times", name, n)
		}
	}
	book := ask(t, "pdftotext", "-layout", filepath.Join(dir, "record.pdf"), "-")
	if strings.Count(book, "neg "+long) != 1 || !strings.Contains(book, "neg … 78-13 …") || !strings.Contains(book, "1m 23s + ") {
		t.Errorf("the book:\n%s", book)
	}
	if regexp.MustCompile(`(?m)^ *78-7\s+right[^\n]*\n *78-7\b`).MatchString(book) {
		t.Error("the label stands twice in the book")
	}
}

// A heading stands where what it heads begins, on every paper; a kit is no outing.
func TestHeadingsStayWithWhatTheyHead(t *testing.T) {
	notes := manySheets()
	for _, paper := range []string{"a4", "a5", "letter"} {
		for pad := range 24 { // lines of prose that push the headings down the page
			if pad%6 != 0 && paper != "a5" || testing.Short() && pad > 0 {
				continue
			}
			pushed := map[string]string{"kit.md": notes["kit.md"], "glass.md": notes["glass.md"]}
			pushed["mill.md"] = strings.Replace(notes["mill.md"], "## Mill", strings.Repeat("A walk.\n\n", pad)+"## Mill", 1)
			dir := compiledRecord(t, pushed, "--paper", paper, "--sections", "outings,kit")
			pages := strings.Split(ask(t, "pdftotext", "-layout", filepath.Join(dir, "record.pdf"), "-"), "\f")
			for n, page := range pages {
				lines := strings.Split(strings.TrimSpace(page), "\n")
				for back := len(lines) - 1; back >= 0 && n > 0; back-- {
					line := strings.TrimSpace(lines[back])
					if line == "" || regexp.MustCompile(`^\d+$`).MatchString(line) {
						continue // the page's number
					}
					if line == "Mill wheel" || line == "Glass house" || line == "My kit" || strings.HasPrefix(line, "use: kit.md") {
						t.Errorf("%s, %d lines: %q ends page %d", paper, pad, line, n+1)
					}
					break
				}
			}
			contents := strings.Join(strings.Fields(pages[0]), " ")
			if outings, kit := strings.Index(contents, "Glass house"), strings.Index(contents, "My kit"); outings < 0 || kit < outings {
				t.Errorf("the contents are %s", contents)
			}
		}
	}
	// In the contents a kit stands as far out as the Outings do, and has its bookmark there.
	dir := compiledRecord(t, notes)
	for _, item := range readOutline(t, filepath.Join(dir, "record.pdf")) {
		if item == "  My kit" {
			t.Error("the kit's bookmark stands under the outings")
		}
	}
}

// readOutline are a PDF's bookmarks, each with two blanks for every level it is in.
func readOutline(t *testing.T, file string) (all []string) {
	t.Helper()
	var walk func(items []any, level int)
	walk = func(items []any, level int) {
		for _, item := range items {
			if m, ok := item.(map[string]any); ok {
				all = append(all, strings.Repeat("  ", level)+fmt.Sprint(m["title"]))
				kids, _ := m["kids"].([]any)
				walk(kids, level+1)
			}
		}
	}
	var doc struct{ Outlines []any }
	if err := json.Unmarshal([]byte(ask(t, "qpdf", "--json", "--json-key=outlines", file)), &doc); err != nil {
		t.Fatal(err)
	}
	walk(doc.Outlines, 0)
	if len(all) < 3 {
		t.Fatalf("the bookmarks are %q", all)
	}
	return all
}

// From where on a sheet is lost to its exposure is said wherever such sheets are counted.
func TestLossesSayFromWhere(t *testing.T) {
	const from = "off by a stop or more and was developed"
	notes := manySheets()
	notes["mill.md"] = strings.Replace(notes["mill.md"], "f11, 1m8s", "f11, 9m", 1)
	dir := folder(t, notes)
	says(t, []string{"losses", dir}, from)
	says(t, []string{"years", dir}, from)
	out := compiledRecord(t, notes)
	for _, name := range []string{"losses.html", "years.html", "record.txt"} {
		if !strings.Contains(strings.Join(strings.Fields(read(t, out, name)), " "), from) {
			t.Errorf("%s does not say from where on a sheet is lost", name)
		}
	}
	if book := strings.Join(strings.Fields(ask(t, "pdftotext", filepath.Join(out, "record.pdf"), "-")), " "); !strings.Contains(book, from) {
		t.Error("the book does not say from where on a sheet is lost")
	}
}

// Two exposures on one sheet by mistake are right nowhere: not in heads, not in counts.
func TestExposedTwiceIsNotRight(t *testing.T) {
	notes := map[string]string{"n.md": "day: 2026-10-04, Mill\nload 1A-3A: sedge\nfilm sedge: ISO 100\nscene: one\nmeter: EV 11\n1A: f16 1/8\n2A: f16 1/8\nscene: two\nmeter: EV 11\n2A: f16 1/8\n3A: f16 1/8\n3A: f16 1/8, again\n"}
	dir := folder(t, notes)
	check := notchbook(t, "check", dir).out
	says(t, []string{"check", dir}, "2 exposed twice", "~6 right")
	says(t, []string{"find", "2A", dir}, "exposed twice", "~right")
	says(t, []string{"explain", "2026-10-04 2A", dir}, "2026-10-04 2A, one: exposed twice")
	says(t, []string{"years", dir}, "exposed twice  unchecked")
	says(t, []string{"years", "--format", "json", dir}, `"exposedTwice": 2`)
	if !strings.Contains(check, ", 5 exposures: ") {
		t.Errorf("check says\n%s", check)
	}
	out := compiledRecord(t, notes)
	text := strings.Join(strings.Fields(read(t, out, "record.txt")), " ")
	if !strings.Contains(text, "2A exposed twice") || !strings.Contains(text, "2 exposed twice") || !strings.Contains(text, "1A right") {
		t.Errorf("record.txt:\n%s", text)
	}
	if index := read(t, out, "index.html"); !strings.Contains(index, "<strong>2 exposed twice</strong>") || !strings.Contains(index, "<dt>exposed twice</dt><dd>2</dd>") {
		t.Error("the first page counts otherwise")
	}
	book := ask(t, "pdftotext", "-layout", filepath.Join(out, "record.pdf"), "-")
	if !regexp.MustCompile(`(?m)^ *2A +exposed twice`).MatchString(book) || !regexp.MustCompile(`sheets +right +exposed twice`).MatchString(book) {
		t.Errorf("the book:\n%s", book)
	}
}
