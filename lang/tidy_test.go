package lang

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"notchbook/lang/source"
)

func tidied(t rapid.TB, text string) (string, *Notebook) {
	t.Helper()
	book, _ := Parse(source.New("notes.md", []byte(text)), NewLexicon())
	return Tidy(book, NewLexicon(), nil), book
}

func TestTidySpells(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"Sheet  3A :  Y8 ,1/30s   F/16.5\n", "sheet 3A: Y8, 1/30 f16.5\n"},
		{"3A: f 16 ½\n10B: 1/60 f22\n", "3A:  f16 1/2\n10B: 1/60 f22\n"},
		{"3A: ~~1/60~~ 1/30 f/16 — gust\n", "3A: ~~1/60~~ 1/30 f16 — gust\n"},
		{"film x: 24 DIN , rated  21 DIN\nfilm y: 100 ASA\n", "film x: 24 DIN, rated 21 DIN\nfilm y: ISO 100\n"},
		{"3A: f16 1/2 Std., 1 1/2 hrs?\n", "3A: f16 30m, 1h30m?\n"},
		{"3A: 90 sec f22? N minus 1\n", "3A: 1m30s f22? N-1\n"},
		{"meter:  shadow EV11 1/2 on zone 3 , wall 12\n", "meter: shadow EV 11½ on III, wall EV 12\n"},
		{"meter spot:  EV at 100\nmeter: 13\n", "meter spot: EV at 100\nmeter: EV 13\n"},
		{"3A: bellows 17 1/2in, f 16\n", "3A: bellows 17 1/2in, f16\n"},
		{"3A: bellows 10¼ in f 16\n", "3A: bellows 10¼ in f16\n"},
		{"3A: bellows 444.5 mm, f 16\n", "3A: ext 444.5mm, f16\n"},
		{"3A: racked out to 30 cm\n", "3A: racked out to 30 cm\n"},
		{"3A: Y8    1/30s  f/16\n3B: none  1/8s   f/22\n", "3A: Y8    1/30s  f/16\n3B: none  1/8s   f/22\n"},
		{"3A:\tY8\t1/30s\tf/16\n10B:\tO21\t1/8s\tf/22\n", "3A:\tY8\t1/30s\tf/16\n10B:\tO21\t1/8s\tf/22\n"},
		{"3A:  Y8   1/30s f/16\n10B: O21 1/8s f/22\n", "3A:  Y8 1/30 f16\n10B: O21 1/8 f22\n"},
		{"3A: Y8    1/30s  f/16\n\n3B: none  1/8s   f/22\n", "3A: Y8 1/30 f16\n\n3B: none 1/8 f22\n"},
		{"1A:  Gate  EV11  Y8  f/16  1/4s\n1B:  \"   \"  -  f/16  1/8\n", "1A:  Gate  EV11  Y8  f/16  1/4s\n1B:  \"   \"  -  f/16  1/8\n"},
		{"1A: | Gate | EV11 | 1/4s |\n\n1B: | \" | \" | 1/8s |\n", "1A: | Gate | EV11 | 1/4s |\n\n1B: | \" | \" | 1/8s |\n"},
		{"1A: Gate,  EV11,  f/16\n1B: do.  EV12  do.\n2A: ditto, f/16\n", "1A: Gate,  EV11,  f/16\n1B: do.  EV12  do.\n2A: same, f16\n"},
		{"Prose  stays : as   it is.\n", "Prose  stays : as   it is.\n"},
	} {
		if got, _ := tidied(t, c.typed); got != c.want {
			t.Errorf("%q\nbecomes %q\nnot     %q", c.typed, got, c.want)
		}
	}
}

// The laws: tidying twice is tidying once, means the same, keeps all prose and all words
// and remarks byte for byte, and keeps what is struck or doubtful so.
func TestTidysLaws(t *testing.T) {
	var files []string
	for _, pattern := range []string{"../examples/*/*.md", "../examples/*/*.txt", "../testdata/fieldlogs/*/*.md", "../testdata/fieldlogs/*/*.txt", "../testdata/independent/*.md"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, found...)
	}
	if len(files) < 30 {
		t.Fatalf("only %d notebooks", len(files))
	}
	lines, left := 0, 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		a, b := laws(t, name, string(text))
		lines, left = lines+a, left+b
	}
	t.Logf("%d log lines, of which %d were spelled anew", lines, left)
}

func laws(t rapid.TB, name, text string) (lines, respelled int) {
	t.Helper()
	once, book := tidied(t, text)
	twice, again := tidied(t, once)
	if once != twice {
		t.Errorf("%s: tidying twice differs: %s", name, firstDifference(once, twice))
	}
	if len(book.Statements) != len(again.Statements) {
		t.Fatalf("%s: %d statements became %d", name, len(book.Statements), len(again.Statements))
	}
	for i, st := range book.Statements {
		if st.String() != again.Statements[i].String() {
			t.Errorf("%s: %q\nmeant %s\nnow   %s", name, st.Span.Text(), st, again.Statements[i])
		}
		if a, b := kept(st), kept(again.Statements[i]); a != b {
			t.Errorf("%s: %q\nhad the words %s\nnow           %s", name, st.Span.Text(), a, b)
		}
		if st.Span.Text() != again.Statements[i].Span.Text() {
			respelled++
		}
	}
	if prose(book) != prose(again) {
		t.Errorf("%s: prose changed: %s", name, firstDifference(prose(book), prose(again)))
	}
	return len(book.Statements), respelled
}

// kept is the words and remarks of a log line, and every sign beside terms that is none of
// those that only part them.
func kept(st *Statement) string {
	var text strings.Builder
	signs := func(typed string) {
		for _, c := range typed {
			if !unicode.IsSpace(c) && strings.Trim(source.Fold(string(c)).Text, ",;") != "" {
				text.WriteRune(c)
			}
		}
	}
	at := st.Body.Start
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if isComma(*t) {
			continue
		}
		signs(st.typed(at, t.Span.Start))
		switch k := t.Kind.(type) {
		case *Loose, *Remark:
			text.WriteString(t.Span.Text())
		case *Exposure:
			text.WriteString(strings.Join(k.Name, ""))
		}
		text.WriteByte('|')
		at = max(at, t.Span.End)
	}
	signs(st.typed(at, st.Body.End))
	return text.String()
}

// prose is every byte that is not of a log line's text.
func prose(b *Notebook) string {
	var text strings.Builder
	for _, l := range b.Lines {
		if l.Kind == Log {
			text.Write(b.File.Text[l.Start:l.Body])
			text.Write(b.File.Text[l.BodyEnd:l.Close])
			continue
		}
		text.Write(b.File.Text[l.Start:l.Close])
	}
	return text.String()
}

func firstDifference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return s[max(0, i-40):min(len(s), i+60)] }
	return cut(a) + "\n  against\n" + cut(b)
}

// FuzzTidy holds the laws over anything.
func FuzzTidy(f *testing.F) {
	for _, seed := range []string{"3A: ~~1/60~~ f16½?\n", "Sheet 3A 3B : same , R25 + pol -- x\r\n", "meter: a EV 9 on III½, b 12\n", "1A: 1/15 no wait 1/8 [sic]\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) < 4096 {
			laws(t, "fuzz", text)
		}
	})
}

// The laws hold over lines of terms, words and signs in any order.
func TestTidysLawsOverAnyLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := []string{"the gate", "Pell &amp; Sons", "Müller&#39;s", "a  b", "…", "!!", "????", "::", ";", ",", "|", "{del:", "}", "=", "+1.5", "-½", "☺️", "shadow:", "…then", "f16??", "<b>", "&"}
		line := "3A:"
		for range rapid.IntRange(1, 12).Draw(t, "pieces") {
			line += rapid.SampledFrom([]string{"", " ", " ", ", ", "  "}).Draw(t, "gap") + rapid.SampledFrom(append(words, pieces...)).Draw(t, "piece")
		}
		laws(t, line, line+"\n")
	})
}

// Words stay as they were typed: a sign with its look, the colon between two of them, and what
// stands beside them.
func TestTidyKeepsWords(t *testing.T) {
	for _, line := range []string{"1A: nice \u263a\ufe0f, f22 1/8", "1A: shed in sun: door EV 10 on III, f22 1/8", "1A: \U0001f32b\ufe0f thick, f22 1/8",
		"1A: 1/8 f22, Pell &amp; Sons", "1A: 1/8 f22, Müller&#39;s yard, a :: b; c", "1A: 1/8 f22, +1.5", "1A: 1/8 f22, forgot the yellow!!", "1A: 1/8 f22, wind … then calm",
		"1A: 1/8 f22? which one????", "1A: 1/8 f22????", "1A: 1/8 {del: f22}", "1A: 1/8 f22 -- two  blanks", "1A: 1/8 f22, 1,000 men", "1A: ~1/8 f22, about f22", "1A: shed: EV 10 on III, 1/8 f22!"} {
		if got, _ := tidied(t, line+"\n"); got != line+"\n" {
			t.Errorf("%q became %q", line, got)
		}
	}
}

// Pictures among the words are words by themselves: a term ends before one and begins behind it, and tidy loses no byte of them.
func TestPicturesStandByThemselves(t *testing.T) {
	for line, want := range map[string]string{
		"1A: 1/8✅ f16✅":              "sheet 1A: 1/8 | [✅] f/16 | words ✅",
		"1A: f16 1/8 ⛅yellow✅":       "sheet 1A: f/16 1/8 | words ⛅ | filter yellow | words ✅",
		"1A: f16 1/8, bellows 300✅":  "sheet 1A: f/16 1/8 | extension 300 mm | words ✅",
		"1A: ☀️ 1/8 sec f/16":        "sheet 1A: [☀] 1/8 f/16",
		"1A: swans🦢 café 1/8 f16 👍🏽": "sheet 1A: [swans 🦢 café] 1/8 f/16 | words 👍🏽",
	} {
		file := source.New("notes.md", []byte(line+"\n"))
		book, _ := Parse(file, NewLexicon())
		if got := book.Statements[0].String(); got != want {
			t.Errorf("%s: %s, want %s", line, got, want)
		}
		tidied := Tidy(book, NewLexicon(), nil)
		for _, picture := range []string{"✅", "⛅", "☀️", "🦢", "👍🏽"} {
			if strings.Count(line, picture) != strings.Count(tidied, picture) {
				t.Errorf("%s became %s", line, tidied)
			}
		}
	}
}
