package lang_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// TestRememberedLinesAreReadAsIfNew edits the shipped notebooks at random, also
// what they declare, and holds each edition that was read with a memory against
// the same read without one.
func TestRememberedLinesAreReadAsIfNew(t *testing.T) {
	files, _ := filepath.Glob("../examples/aldermoor/*.*")
	random := rand.New(rand.NewPCG(3, 5))
	pieces := []string{"", "", "x", "½", "\n", "\r\n", "f22", " no wait ", "\n3A: f11, 1/30\n", "~~", "```\n", "- ", "(", "filter Y8: x2\n", "call: orange = O21\n", "load 1A-2B: sedge\n", "lens 99: 99 mm\n", ": ", "4b f16 1/8"}
	var memory lang.Memory
	edits := 0
	for _, name := range files {
		raw, err := os.ReadFile(name)
		if err != nil || filepath.Ext(name) != ".md" && filepath.Ext(name) != ".txt" {
			continue
		}
		text := string(raw)
		for range 60 {
			from := random.IntN(len(text) + 1)
			text = strings.ToValidUTF8(text[:from]+pieces[random.IntN(len(pieces))]+text[min(len(text), from+random.IntN(9)):], "")
			remembering, fresh := lang.NewLexicon(), lang.NewLexicon()
			remembering.Memory = &memory
			got, gotSaid := lang.Parse(source.New(name, []byte(text)), remembering)
			want, wantSaid := lang.Parse(source.New(name, []byte(text)), fresh)
			if a, b := said(gotSaid), said(wantSaid); a != b {
				t.Fatalf("%s: said\n%s\nand without a memory\n%s", name, a, b)
			}
			if !reflect.DeepEqual(got.Lines, want.Lines) || len(got.Statements) != len(want.Statements) {
				t.Fatalf("%s: the lines differ in\n%s", name, text)
			}
			for i := range got.Statements {
				sameStatement(t, got.Statements[i], want.Statements[i])
			}
			edits++
		}
	}
	if edits < 120 {
		t.Errorf("only %d edits", edits)
	}
}

// said is a list of findings as text, with where they stand.
func said(list diag.List) string {
	var b strings.Builder
	for _, d := range list {
		fmt.Fprintln(&b, d.Code, d.Severity, d.Span.Start, d.Span.End, d.Message)
		for _, n := range d.Notes {
			fmt.Fprintln(&b, "  ", n.Text, n.Span.Start, n.Span.End)
		}
		if d.Fix != nil {
			fmt.Fprintln(&b, "  write", d.Fix.Text, d.Fix.Span.Start, d.Fix.Span.End)
		}
	}
	return b.String()
}

func sameStatement(t *testing.T, got, want *lang.Statement) {
	t.Helper()
	place := func(s source.Span) [2]int { return [2]int{s.Start, s.End} }
	same := got.Word == want.Word && got.Either == want.Either && got.Text == want.Text && got.TextSpan().Start-got.Span.Start == want.TextSpan().Start-want.Span.Start &&
		place(got.Span) == place(want.Span) && place(got.Said) == place(want.Said) && place(got.Body) == place(want.Body) &&
		len(got.Labels) == len(want.Labels) && len(got.Terms()) == len(want.Terms())
	for i := 0; same && i < len(got.Labels); i++ {
		same = got.Labels[i].Text == want.Labels[i].Text && place(got.Labels[i].Span) == place(want.Labels[i].Span)
	}
	for i := 0; same && i < len(got.Terms()); i++ {
		a, b := got.Terms()[i], want.Terms()[i]
		same = place(a.Span) == place(b.Span) && a.Span.File == got.Span.File && reflect.DeepEqual(a.Kind, b.Kind)
		a.Kind, b.Kind, a.Span, b.Span = nil, nil, source.Span{}, source.Span{}
		same = same && a == b
	}
	if !same {
		t.Fatalf("%q is read as\n%+v\nand without a memory as\n%+v", want.Span.Text(), got, want)
	}
}
