package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/cmd/notchbook/program"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// background runs a command until the test is over, and holds it to end well.
func background(t *testing.T, args ...string) *program.Words {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, ended := &program.Words{}, make(chan int, 1)
	go func() { ended <- run(args, terminal{in: strings.NewReader(""), out: out, err: out, until: ctx}) }()
	t.Cleanup(func() {
		stop()
		if code := <-ended; code == failed {
			t.Errorf("ended with %d: %s", code, out)
		}
	})
	return out
}

func TestCheckWatches(t *testing.T) {
	dir := aldermoor(t)
	out := background(t, "check", "--watch", dir)
	eventually(t, "the first check", func() bool { return strings.Contains(out.String(), "35 sheets") })
	name := filepath.Join(dir, brickworks)
	text := contents(t, name)
	// save writes the notebook and gives what is said of it, up to the last line.
	save := func(text, sheets string) string {
		t.Helper()
		before := len(out.String())
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		eventually(t, "a check of what was saved", func() bool {
			said := out.String()[before:]
			return strings.Contains(said, "checked again:") && strings.Contains(said, sheets)
		})
		return out.String()[before:]
	}
	all := strings.Count(out.String(), "[")
	said := save(text+"\n9A: f16 1/30\n", "36 sheets")
	for _, want := range []string{"\nnew:\n", "note: 9A could not be checked", " findings stay\n"} {
		if !strings.Contains(said, want) {
			t.Errorf("after a line was written it does not say %q:\n%s", want, said)
		}
	}
	if n := strings.Count(said, "["); n >= all || strings.Contains(said, "3B got") || strings.Contains(said, "Sun:") || strings.Contains(said, "gone:") {
		t.Errorf("it says again what it has said:\n%s", said)
	}
	said = save("A word.\n\n"+text+"\n9A: f16 1/30\n", "36 sheets")
	if !strings.Contains(said, "nothing is new and nothing is gone; ") || strings.Contains(said, "[") {
		t.Errorf("after all lines were moved:\n%s", said)
	}
	said = save("A word.\n\n"+text, "35 sheets")
	if !strings.Contains(said, "gone: "+filepath.ToSlash(name)+": note: 9A could not") || strings.Contains(said, "new:") {
		t.Errorf("after the line was taken away:\n%s", said)
	}
}

// Findings are told apart by what they say, and counted.
func TestFindingsAreSetAgainstThoseBefore(t *testing.T) {
	notes := func(text string) *source.File { return source.New("notes.md", []byte(text)) }
	before, after := notes("3B\n"), notes("words\n3B\n")
	finding := func(file *source.File, message string, why ...string) diag.Diagnostic {
		d := diag.Diagnostic{Code: "exposure-off", Span: source.Span{File: file, Start: 0, End: len(file.Text)}, Message: message}
		for _, w := range why {
			d.Notes = append(d.Notes, diag.Aside{Text: w})
		}
		return d
	}
	d := compared(
		diag.List{finding(before, "one"), finding(before, "one"), finding(before, "two", "read EV 14; kit.md:4"), finding(before, "three", "the light of line 3"), finding(before, "four")},
		diag.List{finding(after, "five"), finding(after, "one"), finding(after, "two", "read EV 13; kit.md:4"), finding(after, "three", "the light of line 4")})
	said := func(list diag.List) (all string) {
		for _, d := range list {
			all += d.Message + " "
		}
		return all
	}
	if said(d.fresh) != "five " || said(d.altered) != "two " || said(d.gone) != "one four " || d.stay != 2 {
		t.Errorf("new %s, altered %s, gone %s, %d stay", said(d.fresh), said(d.altered), said(d.gone), d.stay)
	}
}
