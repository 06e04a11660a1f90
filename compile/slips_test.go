package compile_test

import (
	"bufio"
	"errors"
	"os"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/lang/diag"
)

// slipKit is what the lines of the corpus are read after: a small kit, a loaded
// holder, a reading.
const slipKit = `camera field: 4x5, ext 75-420 mm
lens 210: 210 mm, f5.6-f45
lens 300: 300 mm, f9-f64
film slate: ISO 400, EI 250, N 9m, N-1 7m, N+1 12m
film plate: ISO 25, ortho
filter Y8: yellow, Wratten 8, x2
filter R25: red, Wratten 25, x8
filter pol: 1½ stops
lens: 210
load 1A-5B: slate
meter: 1/60 f16
1A: 1/60 f16
`

// slipLine is a line with one slip in it.
type slipLine struct {
	line       string
	start, end int    // of what is wrong
	meant      string // "?" where nothing can be offered
}

// unmark takes the signs « » out of a line.
func unmark(marked, meant string) slipLine {
	before, rest, _ := strings.Cut(marked, "«")
	wrong, after, _ := strings.Cut(rest, "»")
	return slipLine{before + wrong + after, len(before), len(before) + len(wrong), meant}
}

func slipsByHand(t *testing.T) []slipLine {
	file, err := os.Open("../testdata/slips/hand.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var all []slipLine
	for in := bufio.NewScanner(file); in.Scan(); {
		if marked, meant, ok := strings.Cut(in.Text(), " => "); ok && strings.Contains(marked, "«") {
			all = append(all, unmark(marked, meant))
		}
	}
	return all
}

// rightLines are lines without a slip, from which slips are made by rule.
var rightLines = []string{
	"sheet 3A: Y8, 1/30 f16, N",
	"3A: Y8, 1/30 f16, rise 10",
	"3B: Y8, 1/30 f16, ext 210mm",
	"meter: 1/60 f16",
	"lens 120: 120 mm, f8-f64, circle 200 mm, shutter to 1/125",
	"film fen: ISO 50, EI 32, ortho, reciprocity 2s=3s, 4s=10s",
	"filter R29: Wratten 29, x16, tungsten x8",
	"develop 1A: 2026-11-09, N, 9m, 20C",
	"amend 1A: 1/60 f16",
	"load 6A 6B: slate",
}

// slipsByRule makes slips of right lines: figures typed as letters, the f, the
// colon, a letter of the word left out, two letters swapped.
func slipsByRule() []slipLine {
	var all []slipLine
	for _, line := range rightLines {
		colon := strings.IndexByte(line, ':')
		word, _, _ := strings.Cut(line[:colon], " ")
		all = append(all, unmark("«"+line[:colon]+"»"+line[colon+1:], line[:colon]+":"))
		if len(word) >= 4 {
			for i := 1; i < len(word); i++ {
				all = append(all, unmark("«"+word[:i]+word[i+1:]+"»"+line[len(word):], word))
				if word[i-1] != word[i] {
					all = append(all, unmark("«"+word[:i-1]+word[i:i+1]+word[i-1:i]+word[i+1:]+"»"+line[len(word):], word))
				}
			}
		}
		for _, right := range []string{"1/30", "f16", "1/60", "rise 10", "ext 210mm"} {
			at := strings.Index(line, right)
			if at < colon {
				continue
			}
			lead := strings.LastIndexByte(right, ' ') + 1
			for old, letter := range map[string]string{"0": "O", "1": "l"} {
				wrong := right[:lead] + strings.Replace(right[lead:], old, letter, 1)
				if wrong != right {
					all = append(all, unmark(line[:at+lead]+"«"+wrong[lead:]+"»"+line[at+len(right):], right[lead:]))
				}
			}
			if right[0] == 'f' && !strings.HasPrefix(line, "meter") {
				all = append(all, unmark(line[:at]+"«"+right[1:]+"»"+line[at+len(right):], right))
			}
		}
	}
	return all
}

// found is what is said of a line after the kit. That a sheet could then not be
// checked follows from the slip and is not counted.
func found(line string) diag.List {
	read := func(name string) ([]byte, error) {
		switch name {
		case "notes.md":
			return []byte(slipKit + line + "\n"), nil
		}
		return nil, errors.New(name + ": no such file")
	}
	_, list := compile.Compile(compile.World{Title: "Slips", Read: read}, "notes.md")
	var rest diag.List
	for _, d := range list {
		if d.Code != "unchecked" && d.Code != "kept-as-typed" {
			rest = append(rest, d)
		}
	}
	return rest
}

// offers reports whether a diagnostic names what was meant.
func offers(d diag.Diagnostic, meant string) bool {
	if d.Fix != nil && strings.Contains(strings.ToLower(d.Fix.Text), strings.ToLower(meant)) {
		return true
	}
	for _, n := range d.Notes {
		if strings.Contains(n.Text, meant) {
			return true
		}
	}
	return false
}

// One slip gives one diagnostic, at the slip, and the right reading is offered.
// The shares are the promise; the cases below them are listed, so that one can
// see which slips it does not keep.
func TestOneSlipGivesOneDiagnostic(t *testing.T) {
	all := append(slipsByHand(t), slipsByRule()...)
	if len(all) < 150 {
		t.Fatalf("%d slips are no corpus", len(all))
	}
	once, offered := 0, 0
	for _, s := range all {
		list := found(s.line)
		touches := len(list) == 1 && list[0].Span.Start < len(slipKit)+s.end && list[0].Span.End > len(slipKit)+s.start
		good := touches && s.meant != "?" && offers(list[0], s.meant)
		if touches {
			once++
		}
		if good {
			offered++
		}
		if !touches || !good && s.meant != "?" {
			t.Logf("%s\n    meant %s: %s", s.line, s.meant, said(list))
		}
	}
	t.Logf("%d slips: %.1f %% give one diagnostic at the slip, %.1f %% offer the right reading", len(all), percent(once, len(all)), percent(offered, len(all)))
	if percent(once, len(all)) < 95 || percent(offered, len(all)) < 80 {
		t.Errorf("one diagnostic at the slip: %d of %d; right reading offered: %d", once, len(all), offered)
	}
}

func percent(n, of int) float64 { return 100 * float64(n) / float64(of) }

func said(list diag.List) string {
	var b strings.Builder
	for _, d := range list {
		b.WriteString("[" + d.Code + " " + d.Span.Text() + "] ")
	}
	return b.String()
}

// The right lines of the corpus give nothing.
func TestRightLinesGiveNothing(t *testing.T) {
	for _, line := range rightLines {
		if list := found(line); len(list) > 0 {
			t.Errorf("%s: %s", line, said(list))
		}
	}
	if list := found(""); len(list) > 0 {
		t.Errorf("the kit: %s", said(list))
	}
}
