package pdf

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// attachedSeason has more notebooks than figures,
// in a folder, with bytes of every kind.
func attachedSeason() *record.Season {
	s := fixture()
	s.Notebooks = nil
	for i := range 12 {
		text := []byte(fmt.Sprintf("day: 2026-11-%02d\r\n\xff\x00 Ω 📷 no end of line", i+1))
		s.Notebooks = append(s.Notebooks, &record.Notebook{Path: fmt.Sprintf("notes/Überland %d.md", i), Text: text})
	}
	return s
}

// poppler gives back every notebook byte for byte, qpdf finds each by its key.
func TestNotebooksAreAttached(t *testing.T) {
	s := attachedSeason()
	book := write(t, s, testOptions)
	list := run(t, "pdfdetach", "-list", book)
	if !strings.Contains(list, "12 embedded files") {
		t.Fatal(list)
	}
	for i, n := range s.Notebooks {
		if !strings.Contains(list, n.Path) {
			t.Errorf("%s is not attached", n.Path)
		}
		out := filepath.Join(t.TempDir(), "out")
		run(t, "pdfdetach", "-save", fmt.Sprint(numberOf(t, list, n.Path)), "-o", out, book)
		if got, err := os.ReadFile(out); err != nil || !bytes.Equal(got, n.Text) {
			t.Errorf("%s comes out as %q, %v", n.Path, got, err)
		}
		if got := run(t, "qpdf", book, fmt.Sprintf("--show-attachment=%06d", i+1)); got != string(n.Text) {
			t.Errorf("by its key, %s comes out as %q", n.Path, got)
		}
	}
	if out := run(t, "qpdf", "--check", book); strings.Contains(out, "WARNING") {
		t.Error(out)
	}
}

// numberOf is the number of an attachment in pdfdetach's list: "3: name".
func numberOf(t *testing.T, list, name string) (n int) {
	t.Helper()
	for line := range strings.Lines(list) {
		if strings.HasSuffix(strings.TrimSpace(line), ": "+name) {
			fmt.Sscan(strings.SplitN(line, ":", 2)[0], &n)
		}
	}
	return n
}

// What was left out is in neither the contents nor the bookmarks nor the pages,
// and no reference to a page stays without its number.
func TestPartsAreLeftOut(t *testing.T) {
	for _, name := range Parts() {
		text := run(t, "pdftotext", "-layout", write(t, fixture(), Options{Picture: testPicture, Parts: []string{name}}), "-")
		if strings.Contains(text, " p. \n") || strings.Contains(text, "p.\u00a0\n") {
			t.Errorf("%s alone: a page number is missing", name)
		}
		if name != "kit" && strings.Contains(text, "as declared and understood") {
			t.Errorf("%s alone: the kit is there", name)
		}
	}
	if err := Write(&bytes.Buffer{}, fixture(), Options{Parts: []string{"maps"}}); err == nil {
		t.Error("a part that does not exist was taken")
	}
}

// A table that goes on overleaf has its head again, on every page.
func TestTableHeadsAreRepeated(t *testing.T) {
	table := &record.Block{Kind: record.Table, Blocks: []record.Block{
		{Kind: record.Row, Head: true, Blocks: []record.Block{cellBlock("hour"), cellBlock("incident")}}}}
	for i := range 200 {
		table.Blocks = append(table.Blocks, record.Block{Kind: record.Row, Blocks: []record.Block{cellBlock(fmt.Sprint("at ", i)), cellBlock("EV 9")}})
	}
	o := &record.Outing{Title: "Fog", Entries: []record.Entry{{Prose: table}}}
	on := 0
	for i, page := range pages(t, write(t, &record.Season{Outings: []*record.Outing{o}}, testOptions)) {
		if strings.Contains(page, "EV 9") {
			on++
			if strings.Count(page, "incident") != 1 {
				t.Errorf("page %d: the head stands %d times", i, strings.Count(page, "incident"))
			}
		}
	}
	if on < 4 {
		t.Errorf("the table is on %d pages only", on)
	}
}
