package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// A line that was not read leaves open what it would have said: the sheets that
// rest on it are neither blamed nor called right by what held before it, and only
// the line itself is reported.
func TestUnreadLinesLeaveTheirSheetsOpen(t *testing.T) {
	for _, c := range []struct{ lines, sheets string }{
		{"meter 1/8 f16\n1A: slate, 1/8 f16\n1B: same\n2A: slate, 1/60 f16", "1A 1B 2A"},
		{"metered 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"mter: 1/8 f16\n1A: slate, 1/8 f16", "1A"},
		{"filter R25\n1A: slate, 1/8 f16", "1A"},
		{"film ortho\n1A: 1/60 f16", "1A"},
		{"1A: slate, 1/8 f16,\nR25", "1A"},
		{"1A: slate, 1/60 f16\nmeter 1/8 f16\n1B: slate, 1/8 f16\nmeter: 1/60 f16\n2A: slate, 1/60 f16", "1B"},
		{"meter 1/8 f16\n1A: slate, metered 1/60 f16, 1/60 f16", ""},
		{"300mm: bellows at 320. fern ev 9 on zone V\n1A: slate, 1/8 f16", "1A"},
	} {
		season, list := compileText(checksKit + "meter: 1/60 f16\n" + c.lines + "\n")
		open := []string{}
		for _, sh := range season.Sheets {
			if sh.State == record.Unchecked {
				open = append(open, sh.Label)
			} else if sh.State == record.Off {
				t.Errorf("%q: %s is blamed", c.lines, sh.Label)
			}
		}
		if got := strings.Join(open, " "); got != c.sheets {
			t.Errorf("%q: unchecked are %s, want %s", c.lines, got, c.sheets)
		}
		for _, d := range list {
			if d.Code == "unchecked" {
				t.Errorf("%q: said a second time: %s", c.lines, d.Message)
			}
		}
	}
}

// Where a sheet has no reading, the nearest words above it that tell of one are pointed to, as far
// as its scene goes.
func TestReadingToldInProseIsPointedTo(t *testing.T) {
	for _, c := range []struct{ lines, value string }{
		{"Up the lane, EV12 in the foam on VII, EV 8 in the roots.\n\n1A: slate, 1/8 f16", "EV12"},
		{"EV 14 on the hill.\n\nIn the wood, EV 9 all round.\n\n1A: slate, 1/8 f16", "EV 9"},
		{"EV 14 on the hill.\n\nscene: the wood\n\n1A: slate, 1/8 f16", ""},
		{"Up the lane at 9, with 2 holders.\n\n1A: slate, 1/8 f16", ""},
		{"EV 14 on the hill.\n\nmeter: EV 12\n1A: slate", ""},
	} {
		_, list := compileText(checksKit + c.lines + "\n")
		pointed := ""
		for _, d := range list {
			for _, n := range d.Notes {
				if d.Code == "unchecked" && n.Span.File != nil {
					pointed = n.Span.Text()
				}
			}
		}
		if pointed != c.value {
			t.Errorf("%q: points to %q, want %q", c.lines, pointed, c.value)
		}
	}
}
