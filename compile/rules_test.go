package compile_test

import (
	"errors"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// compileText compiles one notebook in a small world: a broken and a good scan,
// and no other file.
func compileText(text string, scans ...string) (*record.Season, diag.List) {
	read := func(name string) ([]byte, error) {
		if name == "notes.md" {
			return []byte(text), nil
		}
		return nil, errors.New(name + ": no such file")
	}
	look := func(path string) compile.Scan {
		switch path {
		case "good.tif":
			return compile.Scan{State: record.Present, Format: "TIFF", Width: 100, Height: 80}
		case "broken.tif":
			return compile.Scan{State: record.Unreadable, Why: "is not an image"}
		}
		return compile.Scan{State: record.Missing}
	}
	return compile.Compile(compile.World{Title: "Notes", Read: read, Look: look, Scans: scans}, "notes.md")
}

func codes(list diag.List) map[string]diag.Diagnostic {
	all := map[string]diag.Diagnostic{}
	for _, d := range list {
		all[d.Code] = d
	}
	return all
}

// Each rule's bad example must be reported by that rule, and its good twin by
// nothing of the same code.
func TestRulesAreWhatTheirExamplesShow(t *testing.T) {
	for _, rule := range diag.Rules() {
		if rule.Bad == "" {
			continue
		}
		t.Run(rule.Code, func(t *testing.T) {
			var scans []string
			if rule.Code == "scan-orphan" {
				scans = []string{"good.tif"}
			}
			_, list := compileText(rule.Bad, scans...)
			d, found := codes(list)[rule.Code]
			if !found {
				t.Errorf("the bad example is not reported; what is: %v", list)
			} else if d.Severity < rule.Severity {
				t.Errorf("it is reported as %v, graver than the catalogue's %v", d.Severity, rule.Severity)
			}
			_, list = compileText(rule.Good, scans...)
			if d, found := codes(list)[rule.Code]; found {
				t.Errorf("the good example is reported: %s", d.Message)
			}
		})
	}
}

// Messages are one clause in the writer's words: no capital, no full stop, no
// question, no apology.
func TestMessagesAreClauses(t *testing.T) {
	for _, rule := range diag.Rules() {
		_, list := compileText(rule.Bad, "good.tif")
		for _, d := range list {
			if d.Message == "" || strings.HasSuffix(d.Message, ".") || strings.HasSuffix(d.Message, "?") {
				t.Errorf("%s: %q", d.Code, d.Message)
			}
			for _, word := range []string{"please", "illegal", "sorry", "invalid"} {
				if strings.Contains(strings.ToLower(d.Message), word) {
					t.Errorf("%s: %q says %q", d.Code, d.Message, word)
				}
			}
			if diag.Lookup(d.Code).Title == "" {
				t.Errorf("%s is not in the catalogue", d.Code)
			}
		}
	}
}

// A fix, applied, removes its finding and brings no new one.
func TestFixesMend(t *testing.T) {
	fixes := 0
	for _, rule := range diag.Rules() {
		_, list := compileText(rule.Bad)
		for _, d := range list {
			if d.Fix == nil {
				continue
			}
			fixes++
			mended := rule.Bad[:d.Fix.Span.Start] + d.Fix.Text + rule.Bad[d.Fix.Span.End:]
			_, after := compileText(mended)
			before := codes(list)
			for code := range codes(after) {
				if _, was := before[code]; !was && diag.Lookup(code).Severity != diag.Note || code == d.Code {
					t.Errorf("%s: after %q: %s", d.Code, mended, code)
				}
			}
		}
	}
	if fixes < 3 {
		t.Errorf("only %d examples offer a fix", fixes)
	}
}
