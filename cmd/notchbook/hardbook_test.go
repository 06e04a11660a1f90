package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// The hard notebook has what a book is broken by: remarks of 3 000 characters, words
// of 60, forty filters before one lens, no date, two hundred sheets in one scene, and
// every letter of the Latin, Greek and Cyrillic scripts (Unicode, property Script).
func hardNotebook() map[string]string {
	kit := new(strings.Builder)
	kit.WriteString("camera field: 4x5, ext 75-380 mm\nlens 300: 300 mm, f9-f64\nfilm slate: ISO 400, EI 250, pan\nmeter spot: EV at 100\n")
	var stack []string
	for i := range 40 {
		name := fmt.Sprintf("Q%d", i+1)
		fmt.Fprintf(kit, "filter %s: x%d\n", name, 1+i%3)
		stack = append(stack, name)
	}
	word := "Kraftwerksmaschinenhallenfensterrahmenverglasungskittreste60"
	notes := new(strings.Builder)
	notes.WriteString("# A hard notebook\n\nuse: kit.md\n\nload 1A-99B: slate\n\n")
	notes.WriteString(everyLetter(unicode.Latin) + "\n\n" + everyLetter(unicode.Greek) + "\n\n" + everyLetter(unicode.Cyrillic) + "\n\n")
	fmt.Fprintf(notes, "## %s\n\nA paragraph with %s, 漢字 and 📷, (brackets) and \\\\ in it.\n\n", word, strings.Repeat(word, 3))
	notes.WriteString("| hour | light |\n|---|---:|\n" + strings.Repeat("| 08:10 | EV 9 and a half, "+word+" |\n", 60) + "\n")
	fmt.Fprintf(notes, "scene: Every sheet of the drawer at %s\nlens: 300\nmeter: 1/60 f16\n\n", word)
	remark := longRemark()
	for i := range 200 {
		label := fmt.Sprintf("#%d", i+1)
		line := []string{"no filter, 1/60 f16", "Q2, 1/60 f16", "Q3, f22, 1/8", "EV 9 on III, 1/8 f16, ext 360mm", "1/15 f16"}[i%5]
		switch i {
		case 7:
			line += " -- " + remark
		case 8:
			line += " -- " + word + word
		case 9:
			line = strings.Join(stack, " + ") + ", 1s f9"
		}
		fmt.Fprintf(notes, "%s: %s\n", label, line)
	}
	return map[string]string{"kit.md": kit.String(), "notes.md": notes.String()}
}

// longRemark is 3 000 characters, no two stretches of it alike.
func longRemark() string {
	var s strings.Builder
	for i := 0; s.Len() < 3000; i++ {
		fmt.Fprintf(&s, "gust%d held the bellows, ", i)
	}
	return s.String()[:3000]
}

// everyLetter is the letters of a script in words of nine.
func everyLetter(script *unicode.RangeTable) string {
	var s strings.Builder
	n := 0
	for _, r := range script.R16 {
		for c := rune(r.Lo); c <= rune(r.Hi); c += rune(r.Stride) {
			if unicode.IsLetter(c) {
				s.WriteRune(c)
				if n++; n%9 == 0 {
					s.WriteByte(' ')
				}
			}
		}
	}
	return strings.TrimSpace(s.String())
}

// wordsOfPages is every word of every page with its box, as poppler has it.
func wordsOfPages(t testing.TB, file string) (pages [][]boxedWord, wide, high float64) {
	t.Helper()
	size := regexp.MustCompile(`width="(\S+)" height="(\S+)"`)
	for _, page := range strings.Split(ask(t, "pdftotext", "-bbox", file, "-"), "<page ")[1:] {
		m := size.FindStringSubmatch(page)
		wide, _ = strconv.ParseFloat(m[1], 64)
		high, _ = strconv.ParseFloat(m[2], 64)
		var words []boxedWord
		for _, m := range boxed.FindAllStringSubmatch(page, -1) {
			w := boxedWord{text: m[5]}
			for i := range w.box {
				w.box[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			words = append(words, w)
		}
		pages = append(pages, words)
	}
	return pages, wide, high
}

type boxedWord struct {
	text string
	box  [4]float64
}

// meets reports whether two words are printed over one another: not where the
// room above a capital meets the room below a line, but in their middle.
func (w boxedWord) meets(o boxedWord) bool {
	const most = 0.7 // points that neighbours may share
	across := min(w.box[2], o.box[2]) - max(w.box[0], o.box[0])
	top, foot := w.box[1]+0.3*w.high(), w.box[3]-0.3*w.high()
	down := min(foot, o.box[3]-0.3*o.high()) - max(top, o.box[1]+0.3*o.high())
	return across > most && down > most
}

func (w boxedWord) high() float64 { return w.box[3] - w.box[1] }

func TestHardNotebookOnEveryPaper(t *testing.T) {
	for _, args := range [][]string{{"--paper", "a4"}, {"--paper", "letter", "--bind"}, {"--paper", "a5", "--thumbs", "large"}} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			t.Parallel()
			dir := compiledHard(t)
			if args[1] != "a4" { // which a book is on where nothing else is said
				dir = folder(t, hardNotebook())
				must(t, append([]string{"compile", dir}, args...)...)
			}
			file := filepath.Join(dir, "record", pdfName)
			if out := ask(t, "qpdf", "--check", file); !strings.Contains(out, "No syntax or stream encoding errors") {
				t.Error(out)
			}
			pages, wide, high := wordsOfPages(t, file)
			for n, words := range pages {
				for i, w := range words {
					if w.box[0] < 25 || w.box[2] > wide-25 || w.box[1] < 25 || w.box[3] > high-25 {
						t.Fatalf("page %d: %q at %v leaves the paper", n+1, w.text, w.box)
					}
					for _, o := range words[:i] {
						if w.meets(o) {
							t.Fatalf("page %d: %q at %v is printed over %q at %v", n+1, w.text, w.box, o.text, o.box)
						}
					}
				}
			}
		})
	}
}

func TestHardNotebookIsWhole(t *testing.T) {
	readersOfBooks(t)
	dir := compiledHard(t)
	file := filepath.Join(dir, "record", pdfName)
	b := readBook(t, file)
	for line := range strings.Lines(ask(t, "pdffonts", file)) {
		if strings.Contains(line, "Type") && !strings.Contains(line, " yes ") {
			t.Error("a face is not embedded: ", line)
		}
	}
	season := recordOf(t, dir)
	if len(season.Sheets) != 200 || len(season.Outings) == 0 || season.Outings[0].ISO != "" {
		t.Fatalf("%d sheets: the notebook is not as hard as it is meant to be", len(season.Sheets))
	}
	pages := b.entryPages(t, season)
	b.indexesAreWhole(t, season, pages)
	b.linksAreTrue(t, pages)
	b.bookmarksAreTrue(t)
	b.notebooksComeOut(t, dir)
	raw := strings.Join(strings.Fields(ask(t, "pdftotext", "-raw", file, "-")), " ")
	for _, s := range season.Sheets {
		var found string
		for _, f := range s.Findings {
			found = f.Message
		}
		// the label and the identity, then what was set, then what was found
		rest, ok := raw, false
		if _, rest, ok = strings.Cut(raw, " "+s.Label+" "+s.ID+" · field"); !ok {
			t.Errorf("%s: no entry in reading order", s.ID)
			continue
		}
		for _, want := range append(strings.Fields(strings.TrimSpace(s.Given.Time+", "+s.Given.Aperture)), found) {
			if _, rest, ok = strings.Cut(rest, want); !ok {
				t.Errorf("%s: %q does not follow", s.ID, want)
				break
			}
		}
	}
}

// bookmarksAreTrue: each leads to a page on which its title stands.
func (b book) bookmarksAreTrue(t *testing.T) {
	t.Helper()
	type mark struct {
		Title string
		Page  int `json:"destpageposfrom1"`
		Kids  []mark
	}
	var doc struct{ Outlines []mark }
	if err := json.Unmarshal([]byte(ask(t, "qpdf", "--json=2", "--json-key=outlines", b.file)), &doc); err != nil {
		t.Fatal(err)
	}
	n := 0
	var look func(marks []mark)
	look = func(marks []mark) {
		for _, m := range marks {
			n++
			page := ""
			if m.Page > 0 && m.Page < len(b.text) {
				page = strings.Join(strings.Fields(b.text[m.Page]), "")
			}
			if title := strings.Join(strings.Fields(m.Title), ""); m.Title != "Outings" && !strings.Contains(page, title) {
				t.Errorf("bookmark %q leads to page %d, where that does not stand", m.Title, m.Page)
			}
			look(m.Kids)
		}
	}
	look(doc.Outlines)
	if n < 8 {
		t.Errorf("only %d bookmarks", n)
	}
}

// notebooksComeOut: what is attached is what lies in the folder, byte for byte.
func (b book) notebooksComeOut(t *testing.T, dir string) {
	t.Helper()
	to := t.TempDir()
	ask(t, "pdfdetach", "-saveall", "-o", to, b.file)
	for name := range hardNotebook() {
		kept, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if out, err := os.ReadFile(filepath.Join(to, name)); err != nil || !bytes.Equal(out, kept) {
			t.Errorf("%s comes out otherwise, %v", name, err)
		}
	}
}
