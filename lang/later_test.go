package lang_test

import (
	"encoding/json"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// What is left for later reads as it does at once, whoever asks first and however many cores there are: all logs
// and examples in one long notebook, behind another that it uses.
func TestLinesLeftForLaterReadAsAtOnce(t *testing.T) {
	var all strings.Builder
	for _, file := range lang.NotesIn(t, "../testdata/fieldlogs/*/*.md", "../examples/*/*.md", "../testdata/wordings/*.md") {
		all.WriteString(strings.NewReplacer("use:", "used", "```", "").Replace(file.Whole()) + "\n\n")
	}
	text := all.String()
	used := strings.ReplaceAll(text, "f16", "f22")

	// read gives the terms and findings of both notebooks, asking for the lines of the second in an order.
	read := func(parse func(*source.File, *lang.Lexicon) (*lang.Notebook, diag.List), order func(n int) []int) (terms []string, sheets int) {
		names := lang.NewLexicon()
		var first *lang.Notebook
		var list diag.List
		names.Follow = func(source.Span) {
			names.Follow = nil
			first, list = parse(source.New("used.md", []byte(used)), names)
		}
		book, more := parse(source.New("notes.md", []byte("use: used.md\n\n"+text)), names)
		for _, i := range order(len(book.Statements)) {
			book.Statements[i].Terms()
		}
		for _, b := range []*lang.Notebook{first, book} {
			for _, st := range b.Statements {
				if st.Word == lang.Sheet {
					sheets++
				}
				terms = append(terms, fmt.Sprint(st.Span.Text(), ": ", termsOf(st)))
			}
		}
		for _, b := range []*lang.Notebook{first, book} {
			more = append(more, b.Late()...)
		}
		list = append(list, more...)
		slices.SortStableFunc(list, func(a, b diag.Diagnostic) int {
			if n := strings.Compare(a.Span.File.Name, b.Span.File.Name); n != 0 {
				return n
			}
			return diag.Compare(a, b)
		})
		return append(terms, said(list)), sheets
	}
	forwards := func(n int) (all []int) {
		for i := range n {
			all = append(all, i)
		}
		return all
	}
	backwards := func(n int) []int { all := forwards(n); slices.Reverse(all); return all }
	never := func(int) []int { return nil }

	want, sheets := read(lang.Parse, never)
	if sheets < 4096 {
		t.Fatalf("only %d sheets are read, too few to be left", sheets)
	}
	for _, cores := range []int{1, 7} {
		before := runtime.GOMAXPROCS(cores)
		for name, order := range map[string]func(int) []int{"forwards": forwards, "backwards": backwards, "last": never} {
			got, _ := read(lang.Begin, order)
			for i := range want {
				if got[i] != want[i] {
					t.Fatalf("asked for %s on %d cores, there is\n%s\nand at once\n%s", name, cores, got[i], want[i])
				}
			}
		}
		runtime.GOMAXPROCS(before)
	}
}

func termsOf(st *lang.Statement) string {
	var b strings.Builder
	for _, term := range st.Terms() {
		kind, err := json.Marshal(term.Kind)
		if err != nil {
			panic(err)
		}
		fmt.Fprintf(&b, "%T%s %d-%d %v %v; ", term.Kind, kind, term.Span.Start, term.Span.End, term.Struck, term.Doubtful)
	}
	return b.String()
}
