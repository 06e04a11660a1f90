package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// Where a question is answered in the record: cells of the questions' README.
var (
	htmlPlace = regexp.MustCompile("^`([^`#]+)#([^`]+)` \"([^\"]+)\"$")
	bookPlace = regexp.MustCompile(`^(.+) "([^"]+)"$`)
)

// Each question has a place in HTML and in PDF that is there and says what it is
// named for.
func TestQuestionsHaveTheirPlaces(t *testing.T) {
	readme, err := os.ReadFile("../../testdata/questions/README.md")
	if err != nil {
		t.Fatal(err)
	}
	records := map[string]map[string]string{}
	books := map[string][]string{}
	looked := 0
	for line := range strings.Lines(string(readme)) {
		cells := strings.Split(line, "|")
		if len(cells) != 7 || !strings.HasPrefix(strings.TrimSpace(cells[3]), "`") {
			continue
		}
		_, season, _ := strings.Cut(cells[3], "examples/")
		season, _, _ = strings.Cut(strings.Trim(season, "` "), "/")
		if records[season] == nil {
			out := filepath.Join(t.TempDir(), "record")
			must(t, "compile", "../../examples/"+season, "-o", out)
			records[season] = tree(t, out)
			books[season] = strings.Split(ask(t, "pdftotext", "-layout", filepath.Join(out, pdfName), "-"), "\f")
		}
		number := strings.TrimSpace(cells[1])
		page := htmlPlace.FindStringSubmatch(strings.TrimSpace(cells[4]))
		part := bookPlace.FindStringSubmatch(strings.TrimSpace(cells[5]))
		if page == nil || part == nil {
			t.Errorf("question %s names no place: %q, %q", number, cells[4], cells[5])
			continue
		}
		looked++
		if text := anchored(t, records[season][page[1]], page[2]); !strings.Contains(squeezed(text), squeezed(page[3])) {
			t.Errorf("question %s: %s#%s does not say %q but %.600q", number, page[1], page[2], page[3], strings.Join(strings.Fields(text), " "))
		}
		if !pageSays(books[season], part[1], part[2]) {
			t.Errorf("question %s: no page of the book under %s says %q", number, part[1], part[2])
		}
	}
	if looked != 25 {
		t.Errorf("%d questions of 25 have places", looked)
	}
}

// pageSays reports whether a page has a head and says some words.
func pageSays(pages []string, head, words string) bool {
	for _, page := range pages[min(1, len(pages)):] { // behind the contents
		if all := squeezed(page); strings.Contains(all, squeezed(head)) && strings.Contains(all, squeezed(words)) {
			return true
		}
	}
	return false
}

// anchored is the text of what an anchor leads to: the element, or the section
// that a heading begins.
func anchored(t *testing.T, page, id string) string {
	t.Helper()
	root, err := html.Parse(bytes.NewReader([]byte(page)))
	if err != nil {
		t.Fatal(err)
	}
	for n := range root.Descendants() {
		for _, a := range n.Attr {
			if a.Key != "id" || a.Val != id {
				continue
			}
			if strings.HasPrefix(n.Data, "h") {
				n = n.Parent
			}
			var b strings.Builder
			for inner := range n.Descendants() {
				if inner.Type == html.TextNode {
					b.WriteString(inner.Data + " ")
				}
			}
			return b.String()
		}
	}
	return ""
}

// Whatever names a file names it from where the program was run, as its findings do.
func TestNamesCanBeOpened(t *testing.T) {
	up := t.TempDir()
	fill(t, up, map[string]string{"season/notes/kit.md": "film slate: ISO 400, EI 250\n", "season/notes/walk.md": "use: kit.md\nmeter: 1/60 f16\n1A: 1/30   f16, slate\n1B: 1/3O f16\n"})
	t.Chdir(up)
	const name = "season/notes/walk.md"
	var form struct {
		Findings []struct {
			File string
			Fix  *struct{ File string }
		}
	}
	if err := json.Unmarshal([]byte(notchbook(t, "check", "--format", "json", "season").out), &form); err != nil || len(form.Findings) == 0 {
		t.Fatal("nothing was found: ", err)
	}
	for _, f := range form.Findings {
		if f.File != name || f.Fix != nil && f.Fix.File != name {
			t.Errorf("%+v", f)
		}
	}
	for _, args := range [][]string{{"check", "season"}, {"check", "--format", "sarif", "season"}, {"tidy", "--diff", "season"}, {"tidy", "season", "season/notes/walk.md"}, {"check", "--fix", "season"}} {
		if s := notchbook(t, args...); !strings.Contains(s.out, name) {
			t.Errorf("%v: %s%s", args, s.out, s.err)
		}
	}
	if err := os.Chmod(name, 0o444); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"tidy", "--write", "season"}, {"fieldcard", "season", "-o", name}} {
		if s := notchbook(t, args...); s.status != failed || !strings.Contains(s.err, "notchbook: "+name+" ") {
			t.Errorf("%v: %s%s", args, s.out, s.err)
		}
	}
}
