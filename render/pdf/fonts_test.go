package pdf

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// The stream of a font is no more than a third of its file, also before it is
// compressed: only the characters of the book are in it.
func TestFontsAreSubsets(t *testing.T) {
	book := write(t, fixture(), testOptions)
	var doc struct {
		Qpdf []json.RawMessage
	}
	if err := json.Unmarshal([]byte(run(t, "qpdf", "--json=2", book)), &doc); err != nil {
		t.Fatal(err)
	}
	var objects map[string]struct {
		Value  json.RawMessage
		Stream struct{ Dict map[string]any }
	}
	if err := json.Unmarshal(doc.Qpdf[1], &objects); err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, o := range objects {
		var d struct {
			Name string `json:"/FontName"`
			File string `json:"/FontFile2"`
		}
		if json.Unmarshal(o.Value, &d) != nil || d.File == "" {
			continue
		}
		stream := objects["obj:"+d.File].Stream.Dict
		for _, source := range sources {
			if d.Name != "/utf8"+source.family {
				continue
			}
			seen++
			packed, plain := stream["/Length"].(float64), stream["/Length1"].(float64)
			if third := float64(len(source.ttf)) / 3; packed > third || plain > third || packed < 100 {
				t.Errorf("%s: %.0f bytes, %.0f unpacked, of a font of %d", source.family, packed, plain, len(source.ttf))
			}
		}
	}
	if seen != int(faceCount) {
		t.Errorf("%d fonts were looked at, want %d", seen, faceCount)
	}
}

// One mark stands for what touches and no face has, and the colophon names each
// character with how often it was typed.
func TestCharactersThatNoFontHasAreCounted(t *testing.T) {
	s := &record.Season{Title: "Characters", Outings: []*record.Outing{{Title: "One day", Entries: []record.Entry{
		{Prose: para(inWords("漢字 in the cloud 📷, again 漢, the family 👨\u200d👩\u200d👧; ⅓ and ☑ are in the second face, é Ω ж in the first")...)}}}}}
	text := run(t, "pdftotext", "-layout", write(t, s, testOptions), "-")
	if got := strings.Count(text, lackedMark); got != 4+1 {
		t.Errorf("%d marks stand in the book, want 4 and the one that is explained:\n%s", got, text)
	}
	plain := strings.Join(strings.Fields(text), " ")
	if want := "lack what was typed, and headings leave out what is no letter or figure: U+6F22 2 times, U+5B57, U+1F4F7, U+1F468, U+1F469, U+1F467."; !strings.Contains(plain, want) {
		t.Errorf("the colophon does not say %q", want)
	}
	for _, c := range "⅓☑éΩж" {
		if !strings.ContainsRune(text, c) {
			t.Errorf("%c is missing", c)
		}
	}
}

// The title and the heads of pages leave out the pictures that no face has, as headings do; one
// mark stands for letters.
func TestHeadsLeaveOutPictures(t *testing.T) {
	long := para(inWords(strings.Repeat("frost on the reeds ", 1000))...)
	s := &record.Season{Title: "Tulips 🌷 and snow", Outings: []*record.Outing{{Title: "Mill 👨\u200d👩\u200d👧 漢字 wheel", Entries: []record.Entry{{Prose: long}}}}}
	text := run(t, "pdftotext", "-layout", write(t, s, testOptions), "-")
	if got := strings.Count(text, "Tulips and snow"); got < 3 || strings.Contains(text, "Tulips "+lackedMark) {
		t.Errorf("the title is in %d places:\n%.400s", got, text)
	}
	if got := strings.Count(text, "Mill "+lackedMark+" wheel"); got < 3 {
		t.Errorf("the day is in %d places", got)
	}
}

// Sentences that keep from harm stand at the head of the book, where the kit
// declares filters and developers, and on what is taken into the darkroom; a book
// without reason for them has none.
func TestCautionsStandWhereTheyAreNeeded(t *testing.T) {
	sun, bath := "Never look at the sun through a neutral density filter.", "Wear gloves and ventilate."
	s := fixture()
	s.Cautions = []string{sun, bath}
	s.ToDevelop.Cautions = []string{bath}
	s.ToDevelop.Batches = []*record.Batch{{Film: "pan100", Sheets: []record.BatchSheet{{Sheet: s.Sheets[0]}}}}
	text := pages(t, write(t, s, testOptions))
	on := func(title string) string {
		for _, page := range text[3:] {
			if strings.HasPrefix(strings.TrimSpace(page), title) || strings.Contains(page, "\n"+title+"\n") {
				return page
			}
		}
		t.Fatalf("no page begins with %s", title)
		return ""
	}
	for where, page := range map[string]string{"title page": text[1], "kit": on(kitTitle)} {
		for _, want := range s.Cautions {
			if !strings.Contains(page, want) {
				t.Errorf("%s: no %q", where, want)
			}
		}
	}
	if !strings.Contains(on(developTitle), bath) {
		t.Error("the list for the darkroom carries no caution")
	}
	// whatever parts are chosen, the head of the book is there
	for _, part := range Parts() {
		o := testOptions
		o.Parts = []string{part}
		if first := pages(t, write(t, s, o))[1]; !strings.Contains(first, sun) || !strings.Contains(first, bath) {
			t.Errorf("a book of %s alone has no caution", part)
		}
	}
	s.Cautions, s.ToDevelop.Cautions = nil, nil
	if all := fmt.Sprint(pages(t, write(t, s, testOptions))); strings.Contains(all, sun) || strings.Contains(all, bath) {
		t.Error("cautions come from nowhere")
	}
}
