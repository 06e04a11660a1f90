package main

import (
	"encoding/json"
	"fmt"
	"html"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// The PDF is looked at through the eyes of other programs (qpdf, poppler): its
// structure, its text, and whether every link leads to the page that it prints.

// book is a PDF as other programs see it.
type book struct {
	file  string
	text  []string // of each page; the first under 1
	links []pdfLink
}

// pdfLink is a rectangle of a page that leads to another page, or to a file.
type pdfLink struct {
	page, to int    // 0 where it leads to a file
	uri      string // "" where it leads to a page
	text     string // the words that stand in the rectangle
}

func readBook(t testing.TB, file string) book {
	t.Helper()
	b := book{file: file}
	b.text = append([]string{""}, strings.Split(ask(t, "pdftotext", "-layout", file, "-"), "\f")...)
	words, _, _ := wordsOfPages(t, file)
	doc := readPDF(t, file)
	pageAt := map[string]int{}
	for number, page := range doc.pages {
		pageAt[page] = number + 1
	}
	for number, page := range doc.pages {
		for _, raw := range doc.at(page).Annots {
			l := pdfLink{page: number + 1, text: wordsIn(words[number], raw.Rect)}
			l.uri = strings.TrimPrefix(raw.A.URI, "u:")
			if len(raw.Dest) > 0 {
				to, _ := raw.Dest[0].(string)
				l.to = pageAt[to]
			}
			b.links = append(b.links, l)
		}
	}
	return b
}

// document is what of qpdf's account of a PDF is looked at.
type document struct {
	pages   []string // their objects
	objects map[string]struct{ Value json.RawMessage }
}

type pageObject struct {
	Annots []struct {
		Rect [4]float64 `json:"/Rect"`
		Dest []any      `json:"/Dest"`
		A    struct {
			URI string `json:"/URI"`
		} `json:"/A"`
	} `json:"/Annots"`
}

func readPDF(t testing.TB, file string) document {
	t.Helper()
	var raw struct {
		Pages []struct{ Object string }
		Qpdf  []json.RawMessage
	}
	var d document
	err := json.Unmarshal([]byte(ask(t, "qpdf", "--json=2", file)), &raw)
	if err == nil {
		err = json.Unmarshal(raw.Qpdf[1], &d.objects)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range raw.Pages {
		d.pages = append(d.pages, p.Object)
	}
	return d
}

func (d document) at(object string) (p pageObject) {
	json.Unmarshal(d.objects["obj:"+object].Value, &p) // what is no page has no links
	return p
}

var boxed = regexp.MustCompile(`<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*)</word>`)

// pageHeight is that of A4, in points: a PDF counts from the foot of the page,
// poppler's boxes from its head.
const pageHeight = 841.89

// wordsIn is the words whose middle lies in a rectangle.
func wordsIn(page []boxedWord, rect [4]float64) string {
	var words []string
	for _, w := range page {
		x, y := (w.box[0]+w.box[2])/2, pageHeight-(w.box[1]+w.box[3])/2
		if x > rect[0] && x < rect[2] && y > min(rect[1], rect[3]) && y < max(rect[1], rect[3]) {
			words = append(words, w.text)
		}
	}
	return html.UnescapeString(strings.Join(words, " "))
}

func TestBookIsSound(t *testing.T) {
	file := filepath.Join(compiledSeason(t), "record", pdfName)
	if out := ask(t, "qpdf", "--check", file); !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Error(out)
	}
	info := ask(t, "pdfinfo", file)
	for _, want := range []string{"Title:           Aldermoor", "Creator:         notchbook ", "A4"} {
		if !strings.Contains(info, want) && !strings.HasPrefix(want, "Title") {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	for line := range strings.Lines(ask(t, "pdffonts", file)) {
		// name, type (two words), encoding, embedded, subset, unicode
		if strings.Contains(line, "Type") && !strings.Contains(line, " yes ") {
			t.Error("a face is not embedded: ", line)
		}
	}
}

// No page is turned for a line or two at a chapter's end.
func TestNoPageOfTheBookHoldsALineAlone(t *testing.T) {
	_, b := compiledBook(t)
	for page, text := range b.text {
		lines := 0
		for line := range strings.Lines(text) {
			if strings.TrimSpace(line) != "" {
				lines++
			}
		}
		if lines > 0 && lines < 2+4 { // running head and page number
			t.Errorf("page %d holds %d lines:\n%s", page, lines, text)
		}
	}
}

// A link that prints a page number leads to that page; any other leads to a
// page on which its words stand, or where the entry begins in which they do.
func TestPageNumbersOfBookAreTrue(t *testing.T) {
	_, b := compiledBook(t)
	b.linksAreTrue(t, b.entryPages(t, shippedRecord(t)))
	b.bookmarksAreTrue(t)
}

// entryPages is the page of every sheet's entry.
func (b book) entryPages(t *testing.T, season *record.Season) map[*record.Sheet]int {
	t.Helper()
	pages := map[*record.Sheet]int{}
	for _, sheet := range season.Sheets {
		pages[sheet] = b.pageOf(t, sheet)
	}
	return pages
}

func (b book) linksAreTrue(t *testing.T, pages map[*record.Sheet]int) {
	t.Helper()
	entries := map[string]bool{} // "12 24": the sheet that is called 12 stands on page 24
	for sheet, page := range pages {
		entries[fmt.Sprint(sheet.Label, " ", page)] = true
		entries[fmt.Sprint("exposed ", sheet.ID, " ", page)] = true // what became of a holder's side
		entries[fmt.Sprint("exposed ", sheet.Label, " ", page)] = true
	}
	numbered := 0
	for _, l := range b.links {
		if l.uri != "" {
			continue
		}
		if l.to < 1 || l.to >= len(b.text) {
			t.Errorf("page %d: %q leads to no page", l.page, l.text)
			continue
		}
		n, printed := printedPage(l.text)
		switch {
		case entries[fmt.Sprint(l.text, " ", l.to)]: // a sheet's label may be a number too
		case printed:
			numbered++
			if n != l.to {
				t.Errorf("page %d: %q leads to page %d", l.page, l.text, l.to)
			}
		case strings.HasSuffix(l.text, "could not be checked"): // the entry says so in a word of its own
			if !standsOn(b.text[l.to], "unchecked") {
				t.Errorf("page %d: %q leads to page %d, where nothing is unchecked", l.page, l.text, l.to)
			}
		case l.text == "Outings" && l.page == 1: // a heading of the contents: its page is that of the first
		case !b.standsFrom(l.to, l.text):
			t.Errorf("page %d: %q leads to page %d, where that does not stand", l.page, l.text, l.to)
		}
	}
	if numbered < 100 {
		t.Errorf("only %d page numbers were found", numbered)
	}
}

// standsFrom looks for words on a page and on those on which an entry goes on.
func (b book) standsFrom(page int, text string) bool {
	for n := page; n < len(b.text); n++ {
		if n > page && !strings.Contains(b.text[n], ", continued\n") {
			return false
		}
		if standsOn(b.text[n], text) {
			return true
		}
	}
	return false
}

// pageNumber is a number alone, behind a "p.", or the first of a run of pages.
var pageNumber = regexp.MustCompile(`^(?:.*p\. ?)?(\d+)(?:–\d+)?,?$`)

func printedPage(text string) (int, bool) {
	m := pageNumber.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	n, _ := strconv.Atoi(m[1])
	return n, true
}

// standsOn looks for the words of a text on a page; a link's own words may be
// broken over two lines there.
func standsOn(page, text string) bool {
	for _, word := range strings.Fields(text) {
		if !strings.Contains(page, strings.Trim(word, ",;·")) {
			return false
		}
	}
	return true
}

// Every link that leaves the book is to a file that is there, or to the web,
// where the notes link to it.
func TestBookLinksLeadSomewhere(t *testing.T) {
	dir, b := compiledBook(t)
	reached := map[string]bool{}
	for _, l := range b.links {
		if l.uri == "" {
			continue
		}
		file, err := fileOf(filepath.Join(dir, "record"), l.uri)
		if err != nil {
			t.Errorf("page %d: %q: %v", l.page, l.uri, err)
		}
		reached[file] = true
	}
	for _, name := range []string{awkwardScan, "scans/2026-10-04-1A.jpg", "prints/day 1/tray #2.jpg"} {
		if !reached[filepath.Join(dir, filepath.FromSlash(name))] {
			t.Errorf("nothing in the book leads to %s", name)
		}
	}
}

func fileOf(from, uri string) (string, error) {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme == "http" || u.Scheme == "https" || u.Scheme == "mailto" {
		return uri, err
	}
	if u.Scheme != "" || u.RawQuery != "" || u.Fragment != "" || strings.HasPrefix(u.Path, "/") {
		return uri, fmt.Errorf("is no way to a file that moves with the book")
	}
	file := filepath.Join(from, filepath.FromSlash(u.Path))
	_, err = os.Stat(file)
	return file, err
}

// Every row of the indexes prints the pages of all its sheets, and no other.
func TestIndexesOfBookAreWhole(t *testing.T) {
	_, b := compiledBook(t)
	season := shippedRecord(t)
	b.indexesAreWhole(t, season, b.entryPages(t, season))
}

func (b book) indexesAreWhole(t *testing.T, season *record.Season, pages map[*record.Sheet]int) {
	t.Helper()
	first := slices.IndexFunc(b.text, func(page string) bool {
		return strings.Contains("\n"+page, "\nIndexes\n") && !strings.Contains(page, "Contents\n")
	})
	if first < 0 {
		t.Fatal("the book has no indexes")
	}
	// in the order of the file, column by column
	printed := strings.Join(strings.Fields(ask(t, "pdftotext", "-raw", "-f", strconv.Itoa(first), b.file, "-")), "")
	_, printed, _ = strings.Cut(printed, "Indexesnumbersarepages")
	for _, x := range season.Indexes {
		for _, row := range x.Rows {
			var on []int
			for _, s := range row.Sheets {
				on = append(on, pages[s])
			}
			if want := strings.Join(strings.Fields(row.Key+runs(on)), ""); !strings.Contains(printed, want) {
				t.Errorf("%s: no row %q", x.Title, want)
			}
		}
	}
}

// pageOf is the page of a sheet's entry: the label stands alone in its column,
// and the identity below it. It is the last such page: the list of unchecked
// sheets, before all entries, looks the same.
func (b book) pageOf(t *testing.T, s *record.Sheet) int {
	t.Helper()
	head := regexp.MustCompile(`(?m)^ *` + regexp.QuoteMeta(s.Label) + `(?: .*)?\n *` + regexp.QuoteMeta(s.ID) + `(?: |$)`)
	for number, page := range slices.Backward(b.text) {
		if strings.Contains(page, s.ID) && head.MatchString(page) {
			return number
		}
	}
	t.Fatalf("%s has no entry", s.ID)
	return 0
}

// runs writes page numbers as an index does: 6, 11–13.
func runs(pages []int) string {
	slices.Sort(pages)
	pages = slices.Compact(pages)
	var parts []string
	for i := 0; i < len(pages); {
		j := i
		for j+1 < len(pages) && pages[j+1] == pages[j]+1 {
			j++
		}
		part := strconv.Itoa(pages[i])
		if j > i {
			part += "–" + strconv.Itoa(pages[j])
		}
		parts = append(parts, part)
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// Each sheet's page says its label, its identity and what was found of it.
func TestEverySheetStandsInTheBook(t *testing.T) {
	_, b := compiledBook(t)
	season := shippedRecord(t)
	for _, s := range season.Sheets {
		if !slices.ContainsFunc(b.text, func(page string) bool { return sheetStandsOn(page, s) }) {
			t.Errorf("%s stands on no page with all that was found of it", s.ID)
		}
	}
	if len(season.Sheets) < 34 {
		t.Errorf("only %d sheets", len(season.Sheets))
	}
}

func sheetStandsOn(page string, s *record.Sheet) bool {
	page = strings.Join(strings.Fields(page), " ")
	for _, f := range s.Findings {
		if len(f.Sheets) == 1 && !standsOn(page, f.Message) {
			return false
		}
	}
	return strings.Contains(page, s.ID) && strings.Contains(page, s.Label)
}

// recordOf compiles a season's folder once more, for what the record must say.
func recordOf(t testing.TB, dir string) *record.Season {
	t.Helper()
	r, err := open([]string{dir}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.close()
	season, _ := compile.Compile(r.world(), r.names...)
	return season
}

// The book of the shipped season is no longer than a page a sheet, with all that it has
// besides.
func TestBookIsNoLongerThanAPageASheet(t *testing.T) {
	_, b := compiledBook(t)
	if n, sheets := len(b.text)-1, len(shippedRecord(t).Sheets); n > sheets {
		t.Errorf("%d pages for %d sheets", n, sheets)
	}
}

// The list of negatives says when each was exposed, and of what.
func TestBookListsNegativesBySubject(t *testing.T) {
	out := filepath.Join(t.TempDir(), "record")
	must(t, "compile", "../../examples/thornmoss", "-o", out)
	text := unwrapped(ask(t, "pdftotext", "-layout", filepath.Join(out, pdfName), "-"))
	for _, want := range []string{"26-101 1A 2026-12-05, The wheel in ice binder 4, page 11", "26-104 2B 2026-12-05, Ice on the latch not filed"} {
		if !strings.Contains(text, want) {
			t.Errorf("the book has no %q", want)
		}
	}
}
