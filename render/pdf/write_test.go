package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// tool names a program that reads PDFs, independent of what wrote them. In
// continuous integration it must be there.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed; CI needs poppler-utils and qpdf", name)
	}
	if err != nil {
		t.Skipf("%s is not installed (poppler-utils, qpdf): the PDF is not checked from outside", name)
	}
	return path
}

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

func write(t *testing.T, s *record.Season, o Options) string {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, s, o); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "book.pdf")
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// pages is the text of every page, the first under 1.
func pages(t *testing.T, path string) []string {
	t.Helper()
	text := run(t, "pdftotext", "-layout", path, "-")
	return append([]string{""}, strings.Split(text, "\f")...)
}

var testOptions = Options{Generator: "notchbook test", Picture: testPicture}

func TestReadersAccept(t *testing.T) {
	for name, s := range map[string]*record.Season{
		"fixture": fixture(), "empty": {}, "bare": bare(),
	} {
		t.Run(name, func(t *testing.T) {
			path := write(t, s, testOptions)
			if out := run(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") ||
				strings.Contains(out, "WARNING") {
				t.Error(out)
			}
			if out := run(t, "pdfinfo", path); !strings.Contains(out, "A4") {
				t.Error(out)
			}
		})
	}
}

// bare has one of everything, with nothing in it.
func bare() *record.Season {
	x, f := &record.Sheet{}, &record.Finding{Mark: [2]int{9, -4}, Sheets: []*record.Sheet{{Label: "nowhere"}}}
	o := &record.Outing{Entries: []record.Entry{{}, {Sheet: x}, {Sheet: x}, {Scene: &record.Scene{}}, {Line: &record.Line{}},
		{Prose: &record.Block{}}, {Prose: &record.Block{Kind: record.Table}}, {Prose: &record.Block{Kind: record.List,
			Blocks: []record.Block{{}}}}, {Unread: &record.Line{}}}}
	return &record.Season{Notebooks: []*record.Notebook{{}}, Kit: []*record.Item{{}}, Outings: []*record.Outing{o},
		Sheets: []*record.Sheet{x, {Label: "loose"}}, Findings: []*record.Finding{f}, Scans: []*record.Scan{{}},
		Indexes: []*record.Index{{Rows: []record.IndexRow{{}}}}}
}

func TestDocumentInformation(t *testing.T) {
	out := run(t, "pdfinfo", write(t, fixture(), testOptions))
	for _, want := range []string{"Title:           Brickworks & Überlandwerk – τούβλα, кирпич, cegła 📷",
		"Creator:         notchbook test", "CreationDate:    Sat Nov 21 00:00:00 2026"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestFontsAreEmbedded(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(run(t, "pdffonts", write(t, fixture(), testOptions))), "\n")[2:]
	if len(lines) != int(faceCount) {
		t.Errorf("%d fonts, want %d", len(lines), faceCount)
	}
	for _, l := range lines {
		if f := strings.Fields(l); f[len(f)-5] != "yes" || !strings.Contains(l, "TrueType") {
			t.Error("not embedded:", l)
		}
	}
}

// shown is text as the book shows it: one mark for what touches and no face has.
func shown(text string) string {
	f, _ := loadFaces()
	var out strings.Builder
	lacked := false
	for _, r := range text {
		if _, w := f.find(regular, r); w == missing && !unicode.IsSpace(r) {
			if !lacked {
				out.WriteString(lackedMark)
			}
			lacked = true
			continue
		}
		if lacked && joins(r) {
			continue
		}
		lacked = false
		out.WriteRune(r)
	}
	return out.String()
}

// recordText gathers what people wrote and what was found about it.
func recordText(s *record.Season) (all []string) {
	var blocks func(b *record.Block)
	var inlines func(in []record.Inline)
	inlines = func(in []record.Inline) {
		for _, k := range in {
			all = append(all, k.Text)
			inlines(k.Inlines)
		}
	}
	blocks = func(b *record.Block) {
		all = append(all, b.Code)
		inlines(b.Text)
		for i := range b.Blocks {
			blocks(&b.Blocks[i])
		}
	}
	all = append(all, s.Title)
	all = append(all, s.Cautions...)
	for _, n := range s.Notebooks {
		all = append(all, n.Path, n.SHA256)
	}
	for _, k := range s.Kit {
		all = append(all, k.Name, k.Source)
	}
	for _, o := range s.Outings {
		all = append(all, o.Title, o.Day(), o.Place)
		for _, e := range o.Entries {
			switch {
			case e.Prose != nil:
				blocks(e.Prose)
			case e.Scene != nil:
				all = append(all, e.Scene.Title, e.Scene.Light)
			case e.Line != nil:
				all = append(all, e.Line.Text)
			case e.Unread != nil:
				all = append(all, e.Unread.Text)
			}
		}
	}
	for _, x := range s.Sheets {
		all = append(all, sheetText(x)...)
	}
	for _, f := range s.Findings {
		all = append(append(all, f.Message, f.Code, f.Title, f.Excerpt), f.Notes...)
	}
	for _, x := range s.Scans {
		all = append(all, x.Path, x.Why, x.SHA256)
	}
	return all
}

func sheetText(x *record.Sheet) []string {
	all := []string{x.Label, x.ID, x.Title, x.Film, x.Lens, x.Camera, x.Extension, x.Development, x.Asked.Aperture, x.Asked.Time,
		x.Given.Aperture, x.Given.Time, x.Given.Note}
	for _, list := range [][]string{x.Filters, x.Movements, x.Needs, x.Remarks} {
		all = append(all, list...)
	}
	for _, st := range x.Steps {
		all = append(all, st.Name, st.Detail, st.From)
	}
	if r := x.Reading; r != nil {
		all = append(all, r.Text, r.Kind, r.How)
	}
	for _, c := range x.Choices {
		all = append(all, c.Kind, c.Aperture, c.Time)
	}
	for _, d := range x.Developed {
		all = append(all, d.Text, d.Day())
	}
	for _, c := range x.History {
		all = append(all, c.Was, c.Now, c.How)
	}
	for _, l := range x.Lines {
		all = append(all, l.Text)
	}
	return all
}

// Every word of the record is in the PDF as a reader other than ours finds it.
// Words of more than 34 characters may be cut by a line's end, so theirs are
// looked for in stretches.
func TestNothingIsDropped(t *testing.T) {
	s := fixture()
	text := strings.Join(strings.Fields(run(t, "pdftotext", "-raw", write(t, s, testOptions), "-")), " ")
	for _, want := range recordText(s) {
		for _, word := range strings.Fields(shown(want)) {
			for r := []rune(word); len(r) > 0; {
				n := min(len(r), 34)
				if part := string(r[:n]); !strings.Contains(text, part) && !cutAtLineEnd(text, part) {
					t.Errorf("%q of %q is nowhere in the text", part, want)
				}
				r = r[n:]
			}
		}
	}
}

// cutAtLineEnd looks for a stretch whose parts stand on two lines.
func cutAtLineEnd(text, part string) bool {
	for i := range part {
		if strings.Contains(text, part[:i]+" "+part[i:]) {
			return true
		}
	}
	return false
}

// The entry of each sheet is on one page with its settings, verdict, finding
// and the name under its picture.
func TestEntryStandsTogether(t *testing.T) {
	s := fixture()
	text := pages(t, write(t, s, testOptions))
	for _, x := range s.Sheets {
		page := text[pageOf(t, text, x)]
		want := []string{saying.Verdict(x), x.Given.Aperture, x.Asked.Time}
		for _, f := range x.Findings {
			want = append(want, f.Message)
		}
		for _, scan := range x.Scans {
			want = append(want, scan.Path)
		}
		for _, w := range want {
			if !strings.Contains(page, w) {
				t.Errorf("%s: no %q on its page", x.Label, w)
			}
		}
	}
}

// pageOf finds the page of a sheet's entry: the one with its identity at the
// left, below its label.
func pageOf(t *testing.T, text []string, x *record.Sheet) int {
	t.Helper()
	head := regexp.MustCompile(`(?m)^ *` + regexp.QuoteMeta(x.Label) + ` +` + regexp.QuoteMeta(saying.Verdict(x)))
	for i, page := range text {
		if head.MatchString(page) && strings.Contains(page, strings.TrimSpace(x.ID)) {
			return i
		}
	}
	t.Fatalf("%s has no entry", x.Label)
	return 0
}

func TestPageNumbersAreTrue(t *testing.T) {
	s := fixture()
	text := pages(t, write(t, s, testOptions))
	row := regexp.MustCompile(`(?m)^ *(\d+) +(\S.*?)(?:   .*)?$`)
	listed := 0
	_, contents, _ := strings.Cut(text[1], "Contents\n")
	for _, m := range row.FindAllStringSubmatch(contents, -1) {
		n, _ := strconv.Atoi(m[1])
		title := strings.TrimSpace(regexp.MustCompile(`  .*| (\d+ |Sat|2026).*`).ReplaceAllString(m[2], ""))
		if title != outingsTitle && !strings.Contains(text[n], title) {
			t.Errorf("contents: %q is not on page %d", title, n)
		}
		listed++
	}
	if want := len((&book{season: s, marks: map[any]*mark{}}).listSections()); listed < want {
		t.Errorf("%d lines in the contents, want %d", listed, want)
	}
	index := text[len(text)-3]
	for _, x := range s.Sheets {
		n := pageOf(t, text, x)
		if !regexp.MustCompile(`(^|\s)` + x.Label + ` +` + strconv.Itoa(n) + `\b`).MatchString(index) {
			t.Errorf("index: %s is not given page %d", x.Label, n)
		}
		found := strings.Join(text[2:pageOf(t, text, s.Sheets[0])], "")
		if !regexp.MustCompile(x.Label + ` p\. *` + strconv.Itoa(n) + `\b`).MatchString(found) {
			t.Errorf("findings: %s is not given page %d", x.Label, n)
		}
	}
}

// Links are written outside of the compressed streams, so they can be read
// from the bytes.
func TestLinks(t *testing.T) {
	path := write(t, fixture(), testOptions)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, uri := range []string{"../scans/gate%203a%20%28%CE%B2%29%20100%25.tif", "../scans/t3.jpg", "../phone/door.jpg",
		"https://maps.example/tram?q=%C3%9Cberland%20%281%29"} {
		if !bytes.Contains(data, []byte("/URI ("+uri+")")) {
			t.Errorf("no link to %s", uri)
		}
	}
	last := len(pages(t, path)) - 2
	dests := regexp.MustCompile(`/Dest \[(\d+) 0 R`).FindAllSubmatch(data, -1)
	for _, m := range dests {
		if n, _ := strconv.Atoi(string(m[1])); n < 3 || n%2 == 0 || (n-1)/2 > last {
			t.Errorf("link to object %d, which is no page", n)
		}
	}
	if len(dests) < 3*len(fixture().Sheets) {
		t.Errorf("only %d links within the book", len(dests))
	}
}

var bboxWord = regexp.MustCompile(`<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*)</word>`)

func TestNothingOutsideTheMargins(t *testing.T) {
	for name, s := range map[string]*record.Season{"fixture": fixture(), "extreme": extreme()} {
		for paper, size := range papers {
			path := write(t, s, Options{Paper: paper, Bind: true, Picture: testPicture})
			for i, page := range strings.Split(run(t, "pdftotext", "-bbox", path, "-"), "<page ")[1:] {
				checkMargins(t, fmt.Sprint(name, " page ", i+1), page, size, i%2 == 0)
			}
		}
	}
}

func checkMargins(t *testing.T, where, page string, size form, recto bool) {
	t.Helper()
	left, right := size.inner, size.w-size.outer
	if !recto {
		left, right = size.outer, size.w-size.inner
	}
	for _, m := range bboxWord.FindAllStringSubmatch(page, -1) {
		var box [4]float64
		for j := range box {
			box[j], _ = strconv.ParseFloat(m[j+1], 64)
		}
		if box[0] < left-0.5 || box[2] > right+0.5 || box[1] < size.top/2 || box[3] > size.h-28 {
			t.Errorf("%s: %q stands at %v", where, m[5], box)
		}
	}
}

// extreme is what nobody writes on purpose: everything long, wide and deep.
func extreme() *record.Season {
	long := strings.Repeat(longWord, 9)
	deep := para(inWords(long)...)
	for i := range 60 {
		kind := record.Quote
		if i%2 == 0 {
			kind = record.List
		}
		deep = &record.Block{Kind: kind, Blocks: []record.Block{{Kind: record.ListItem, Blocks: []record.Block{*deep}}}}
	}
	s := &record.Season{Title: long, LastDay: long, Cautions: []string{long}}
	o := &record.Outing{Title: long, Date: long, Place: long, Path: long}
	s.Outings = []*record.Outing{o}
	o.Entries = []record.Entry{{Prose: deep}}
	for _, columns := range []int{1, widestTable, widestTable + 1, 256} {
		row := record.Block{Kind: record.Row}
		for range columns {
			row.Blocks = append(row.Blocks, cellBlock(longWord))
		}
		o.Entries = append(o.Entries, record.Entry{Prose: &record.Block{Kind: record.Table, Blocks: []record.Block{row, row}}})
	}
	x := sheet(s, o, nil, long, record.Off)
	x.Title, x.Film, x.Given.Aperture, x.Given.Note, x.Tolerance = long, long, long, long, long
	x.Steps = []record.Step{{Kind: long, Name: long, Stops: -1e9, Detail: long, From: long}}
	x.Difference, x.Needs = record.Known(1e5), []string{long}
	x.History = []record.Change{{Was: long, Now: long, How: long}}
	s.Findings = []*record.Finding{{Severity: record.Severity(long), Message: long, Excerpt: long, Notes: []string{long}, Sheets: s.Sheets}}
	s.Kit = []*record.Item{{Kind: long, Name: long, Facts: []record.Fact{{Name: long, Value: long}}, Source: long}}
	s.Scans = []*record.Scan{{Path: long, State: record.Orphan, Why: long, SHA256: long}}
	s.Indexes = []*record.Index{{Title: long, Rows: []record.IndexRow{{Key: long, Sheets: s.Sheets}}}}
	return s
}

// Sheets of a scene that go on overleaf, side by side, are said to be of it.
func TestScenesGoOnOverleaf(t *testing.T) {
	s := &record.Season{Title: "Long"}
	o := &record.Outing{Title: "A day", Slug: "day"}
	sc := &record.Scene{Title: "The weir", Outing: o}
	o.Scenes, s.Outings = []*record.Scene{sc}, []*record.Outing{o}
	for i := range 90 {
		sheet(s, o, sc, fmt.Sprintf("%dA", i+1), record.Right).Given.Time = fmt.Sprint(i+1, " s")
	}
	options := testOptions
	options.Parts = []string{"scenes"}
	if text := strings.Join(pages(t, write(t, s, options)), ""); !strings.Contains(text, "The weir, continued") {
		t.Errorf("no page says that it goes on:\n%s", text)
	}
}

// A scene's heading may come to stand anywhere on a page; it is never parted
// from the sheet below it, nor a picture or the last line from its entry.
func TestHeadingsAreNotWidowed(t *testing.T) {
	s := &record.Season{Title: "Fillers"}
	for i := range 60 {
		o := &record.Outing{Title: fmt.Sprintf("Outing %d.", i), Slug: fmt.Sprint(i)}
		s.Outings = append(s.Outings, o)
		for j := range i {
			line := &record.Line{Text: fmt.Sprintf("load %dA: pan100", j+1), Place: at(j)}
			o.Entries = append(o.Entries, record.Entry{Line: line})
		}
		sc := &record.Scene{Title: fmt.Sprintf("Scene %d.", i), Outing: o}
		if i%2 == 1 {
			sc.Compared = &record.Compared{How: "nothing was measured"}
		}
		o.Entries = append(o.Entries, record.Entry{Scene: sc})
		x := sheet(s, o, sc, fmt.Sprintf("%dA", i+100), record.Right)
		x.Remarks = strings.SplitAfter(strings.Repeat("wind\n", 16), "\n")[:16]
		x.Scans = []*record.Scan{{Path: fmt.Sprintf("s%d.jpg", i), State: record.Present, Width: 4, Height: 3}}
	}
	text := pages(t, write(t, s, testOptions))
	parted := 0
	for i, x := range s.Sheets {
		n := pageOf(t, text, x)
		page, last := text[n], text[n]
		if strings.Contains(text[n+1], x.Label+", continued") {
			last = text[n+1]
			parted++
		}
		for want, page := range map[string]string{x.Scene.Title: page, x.Scans[0].Path: page, x.Lines[0].Text[:12]: last} {
			if !strings.Contains(page, want) {
				t.Errorf("%d lines before: %q is not on the page of %s", i, want, x.Label)
			}
		}
	}
	if parted == 0 || parted > len(s.Sheets)/4 {
		t.Errorf("%d of %d entries go on overleaf", parted, len(s.Sheets))
	}
}

// The same record gives the same bytes, also in another process: nothing of
// the order of maps, the clock or chance comes through.
func TestSameBytes(t *testing.T) {
	var first bytes.Buffer
	if err := Write(&first, fixture(), testOptions); err != nil {
		t.Fatal(err)
	}
	if path := os.Getenv("NOTCHBOOK_PDF_CHILD"); path != "" {
		if err := os.WriteFile(path, first.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		return
	}
	var together sync.WaitGroup
	for range 3 {
		together.Go(func() {
			var again bytes.Buffer
			if err := Write(&again, fixture(), testOptions); err != nil {
				t.Error(err)
			}
			if !bytes.Equal(first.Bytes(), again.Bytes()) {
				t.Error("two books of one record differ")
			}
		})
	}
	together.Wait()
	path := filepath.Join(t.TempDir(), "child.pdf")
	child := exec.Command(os.Args[0], "-test.run=^TestSameBytes$")
	child.Env = append(os.Environ(), "NOTCHBOOK_PDF_CHILD="+path)
	if out, err := child.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if other, err := os.ReadFile(path); err != nil || !bytes.Equal(first.Bytes(), other) {
		t.Fatal("another process writes another book", err)
	}
}

// A picture that cannot be had is said in its place; the book is written.
func TestPicturesThatFail(t *testing.T) {
	for want, give := range map[string]func(string, int) ([]byte, error){
		"disk is gone": func(string, int) ([]byte, error) { return nil, errors.New("disk is gone") },
		"invalid JPEG": func(string, int) ([]byte, error) { return []byte("no picture at all"), nil },
		"tolerance ±⅓": func(string, int) ([]byte, error) { return nil, nil },
	} {
		path := write(t, fixture(), Options{Picture: give})
		if text := run(t, "pdftotext", "-layout", path, "-"); !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWriterFails(t *testing.T) {
	if err := Write(broken{}, fixture(), Options{}); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("got %v", err)
	}
}
