package lang

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// broken says which promise of a parse a text breaks, or nothing: the lines tile
// the file, statements and terms lie in their lines and not over one another,
// diagnostics point into the file.
func broken(book *Notebook, list diag.List) string {
	text := book.File.Text
	at := 0
	for _, l := range book.Lines {
		if l.Start != at || l.Body < l.Start || l.BodyEnd < l.Body || l.Close < l.BodyEnd {
			return "the lines do not tile the file"
		}
		at = l.Close
	}
	if at != len(text) && len(text) > 0 {
		return "the lines do not reach the end"
	}
	for _, s := range book.Statements {
		if why := brokenStatement(book, s); why != "" {
			return why + ": " + s.Span.Text()
		}
	}
	for _, d := range list {
		if d.Span.File != book.File || d.Span.Start < 0 || d.Span.End > len(text) || d.Span.Start > d.Span.End {
			return "a diagnostic points nowhere: " + d.Message
		}
		if diag.Lookup(d.Code).Title == "" {
			return "no rule of the catalogue: " + d.Code
		}
	}
	return ""
}

func brokenStatement(book *Notebook, s *Statement) string {
	line := book.File.Line(s.Span.Start)
	within := func(at source.Span) bool {
		return at.File == book.File && line.Start <= at.Start && at.Start <= at.End && at.End <= line.End
	}
	if !within(s.Span) || !within(s.Said) || !within(s.Body) || !within(s.TextSpan()) {
		return "a statement leaves its line"
	}
	for _, l := range s.Labels {
		if !within(l.Span) || l.Text == "" {
			return "a label leaves its line"
		}
	}
	end := s.Body.Start
	for i := range s.Terms() {
		t := &s.Terms()[i]
		if !within(t.Span) || t.Span.Start < end {
			return "a term lies over another or leaves its line"
		}
		if utf8.Valid(book.File.Text) && !utf8.ValidString(t.Span.Text()) {
			return "a term cuts a character in two"
		}
		end = t.Span.End
		_ = t.String()
	}
	return ""
}

// pieces are what the generated lines are made of: the notation as typed, a
// phone's typography, and what should never stand there.
var pieces = []string{
	"3A", "sheet", "sheets", "meter", "lens", "film", "filter", "density", "develop", "shutter", "holder", "word", "call", "reciprocity", ":", "：", ": ",
	" ", "\u00a0", "\u2009", "\t", ",", ", ", "f16", "F/16", "ƒ22", "½", "⅓", "1⁄15", "⅟15", "1/30", "２ｓ", "f16½", "2:30", "4\"", "”", "“", "’", "–", "—", " – ", " -- ", "->", "→",
	"EV 11", "on III", "Ⅲ", "Y8", "R25", "+", "pol 1½ stops", "(x2)", "(", ")", "N-1", "N−1", "no wait", "no", "not", "~~", "~", "?", "[sic]", "same as 3A", "ext 260mm",
	"rise 12", "tilt 4°", "bracket -½", "second +1", "wide open", "us 32", "metered", "gave", "at EI 100", "falls VII", "D 0,72", "orange", "ND 0.9", "x4", "= 2s",
	"\r", "\n", "\r\n", "\u2028", "\u0085", "\x00", "\ufeff", "\xff", "\xe2\x80", "- ", "> ", "# ", "| ", "```", "~~~", "<!--", "\\", "*", "**", "20s+17s", "4 x 1s", "1:2", "·", "5·6", "¹⁄₃₀", "\u200b",
	"one", "a", "and", "of a second", "second", "thirty", "fifteenth", "30th", "tenths", "hundred", "over", "half", "to", "minutes", "EV eleven", "zone four", "1 / 15", "bellows", "three hundred", "millimetres", "minus one", "lens", "point five",
}

// Any text, of bytes or of pieces of the notation, keeps the promises.
func TestParseKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(
			rapid.SliceOfN(rapid.Byte(), 0, 200),
			rapid.Map(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 40), func(all []string) []byte { return []byte(strings.Join(all, "")) }),
			rapid.Map(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 20), func(all []string) []byte { return []byte("3A: " + strings.Join(all, " ")) }),
		).Draw(t, "text")
		before := bytes.Clone(text)
		book, list := Parse(source.New("notes.md", text), NewLexicon())
		if why := broken(book, list); why != "" {
			t.Fatal(why)
		}
		if !bytes.Equal(before, text) {
			t.Fatal("the text was changed")
		}
	})
}

// Parsing side by side gives what parsing one by one gives.
func TestParseIsDeterministic(t *testing.T) {
	text := sheets(2000, "")
	first, _ := Parse(source.New("notes.md", text), NewLexicon())
	for range 3 {
		again, _ := Parse(source.New("notes.md", text), NewLexicon())
		for i := range first.Statements {
			if a, b := first.Statements[i].String(), again.Statements[i].String(); a != b {
				t.Fatalf("%s and then %s", a, b)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, name := range seeds(f) {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for scene := range bytes.SplitSeq(text, []byte("\n\n")) { // whole, they are tried so seldom that little of them changes
			f.Add(scene)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		book, list := Parse(source.New("notes.md", text), NewLexicon())
		if why := broken(book, list); why != "" {
			t.Fatal(why)
		}
	})
}

func seeds(t testing.TB) []string {
	var all []string
	for _, pattern := range []string{"../examples/aldermoor/*.md", "../examples/aldermoor/*.txt"} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, found...)
	}
	if len(all) == 0 {
		t.Fatal("no example")
	}
	return all
}

// FuzzLine reads one line behind a kit, so that names and labels are known.
func FuzzLine(f *testing.F) {
	for _, p := range pieces {
		f.Add("3A: " + p + " 1/30 f16")
		f.Add("film slate: " + p)
		f.Add(p + " 3A: 2s")
	}
	f.Fuzz(func(t *testing.T, line string) {
		book, list := parseAfterKit(t, line)
		if why := broken(book, list); why != "" {
			t.Fatal(why)
		}
	})
}

// FuzzFold checks that every folded byte knows its way back, in order.
func FuzzFold(f *testing.F) {
	for _, p := range pieces {
		f.Add(p + "½" + p)
	}
	f.Fuzz(func(t *testing.T, line string) {
		folded := source.Fold(line)
		last := 0
		for i := range len(folded.Text) + 1 {
			at, end := folded.At(i), folded.End(i)
			if at < last || at > len(line) || end > len(line) {
				t.Fatalf("byte %d of %q is %d of %q", i, folded.Text, at, line)
			}
			last = at
		}
		if again := source.Fold(folded.Text).Text; again != folded.Text && !strings.Contains(line, "·") && utf8.ValidString(line) {
			t.Fatalf("%q folds to %q", folded.Text, again)
		}
	})
}
