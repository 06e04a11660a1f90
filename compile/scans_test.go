package compile_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

// A pattern at the end of the notes, where the scans came last, is for all of them; one
// that would give sheets of two days the same file is not.
func TestPatternAtTheEnd(t *testing.T) {
	days := "day: 2026-11-07\n1A: 1/30 f16\n\nday: 2026-11-08\n1A: 1/30 f16\n"
	for pattern, want := range map[string]string{
		"{day}-{label}.tif": "2026-11-07-1A.tif 2026-11-08-1A.tif",
		"{label}.tif":       " 1A.tif",
	} {
		season, _ := compileText(days + "scan: " + pattern + "\n")
		var got []string
		for _, sh := range season.Sheets {
			name := ""
			for _, s := range sh.Scans {
				name += s.Path
			}
			got = append(got, name)
		}
		if all := strings.Join(got, " "); all != want {
			t.Errorf("%s: %q, want %q", pattern, all, want)
		}
	}
}

// A scan's name may have a comma in it: in quotation marks it is one name, and so it is where
// there is such a file exactly.
func TestNamesOfScansWithCommas(t *testing.T) {
	there := []string{"scans/a, b.tif", "scans/c.1 d.tif", "scans/e.tif", "scans/f -- g.tif", "scans/linear, x.tif"}
	for line, want := range map[string]string{
		`"scans/a, b.tif"`:                    "scans/a, b.tif",
		`scans/a, b.tif`:                      "scans/a, b.tif",
		`“scans/a, b.tif”, linear`:            "scans/a, b.tif",
		`scans/a, b.tif, scans/e.tif, linear`: "scans/a, b.tif|scans/e.tif",
		`scans/a, scans/e.tif`:                "scans/e.tif",
		`scans/c.1 d.tif`:                     "scans/c.1 d.tif",
		`scans/e.tif scans/x.tif`:             "scans/e.tif|scans/x.tif",
		`"scans/f -- g.tif" -- of both`:       "scans/f -- g.tif",
		`"scans/e.tif", "scans/no, such.tif"`: "scans/e.tif|scans/no, such.tif",
		`scans/linear, x.tif`:                 "scans/linear, x.tif",
		`scans/a.tif, b.tif`:                  "b.tif|scans/a.tif",
	} {
		text := "day: 2026-11-07\n1A: 1/30 f16\nscan 1A: " + line + "\n"
		world := compile.World{Scans: there, Read: func(string) ([]byte, error) { return []byte(text), nil }, Look: func(path string) compile.Scan {
			if slices.Contains(there, path) {
				return compile.Scan{State: record.Present}
			}
			return compile.Scan{State: record.Missing}
		}}
		season, _ := compile.Compile(world, "notes.md")
		var got []string
		for _, s := range season.Sheets[0].Scans {
			got = append(got, s.Path)
		}
		slices.Sort(got)
		if all := strings.Join(got, "|"); all != want {
			t.Errorf("%s: %q, want %q", line, all, want)
		}
	}
	// One that is private is nowhere in what is public, whatever its name.
	text := "day: 2026-11-07\nscan: {label}, x.tif\n1A: 1/30 f16\nscan 1A: \"1A, x.tif\", private\n"
	world := compile.World{Public: true, Scans: []string{"1A, x.tif"}, Read: func(string) ([]byte, error) { return []byte(text), nil }, Look: func(string) compile.Scan { return compile.Scan{State: record.Present} }}
	season, _ := compile.Compile(world, "notes.md")
	if len(season.Scans) != 0 {
		t.Errorf("a private scan is shown: %s", season.Scans[0].Path)
	}
}

// Of what has no picture, or is gone, nobody misses the scan that a pattern would name; where
// there is one it counts, and a file that a line names is missed.
func TestNoScanIsMissedOfWhatHasNoPicture(t *testing.T) {
	text := "day: 2026-11-07\n1A: 1/30 f16\n1B: 1/30 f16, fogged\n2A: spoiled\n2B: 1/30 f16\nresult 2B: lost in the post\n" +
		"3A: 1/30 f16\nresult 3A: fogged at the edge, a keeper\n3B: 1/30 f16, fogged\n4A: 1/30 f16, fogged\nscan 4A: x.tif\n4B: 1/30 f16\nresult 4B: dust\nscan: {label}.tif\n"
	there := []string{"3B.tif"}
	season, _ := compile.Compile(compile.World{Scans: there, Read: func(string) ([]byte, error) { return []byte(text), nil }, Look: func(path string) compile.Scan {
		if slices.Contains(there, path) {
			return compile.Scan{State: record.Present}
		}
		return compile.Scan{State: record.Missing}
	}}, "notes.md")
	var got []string
	for _, s := range season.Scans {
		got = append(got, string(s.State)+" "+s.Path)
	}
	slices.Sort(got)
	if all := strings.Join(got, "|"); all != "missing 1A.tif|missing 3A.tif|missing 4B.tif|missing x.tif|present 3B.tif" {
		t.Errorf("scans: %s", all)
	}
}

// A pattern that names no days holds from its own day on; of files that would be those of the days
// before it, it is said. Below all sheets of a notebook, of which no two days have one name, it is for
// all of them that are scanned.
func TestAPatternBelowItsDaysIsPointedAt(t *testing.T) {
	const days = "day: 2026-11-07\n1A: 1/30 f16\n1B: 1/30 f16\n\nday: 2026-11-08\n2A: 1/30 f16\n\nday: 2026-11-09\n3A: 1/30 f16\n"
	there := []string{"1A.tif", "2A.tif", "3A.tif", "x.tif"}
	for text, want := range map[string]string{
		days + "scan: {label}.tif\n":                                                              "",
		days + "scan: {label}.tif\n\nday: 2026-11-10\n4A: 1/30 f16\n":                             "2026-11-07, 2026-11-08",
		days + "scan: {label}.tif\n4A: 1/30 f16\n":                                                "2026-11-07, 2026-11-08",
		days + "4A: 1/30 f16\n4B: 1/30 f16\n\nday: 2026-11-10\n1B: 1/30 f16\nscan: {label}.tif\n": "2026-11-07, 2026-11-08, 2026-11-09",
		days + "scan 1A: 1A.tif\nscan: {label}.tif\n":                                             "",
		"scan: {label}.tif\n" + days:                                                              "",
		days + "scan: {day}-{label}.tif\n":                                                        "",
		days + "scan 1A: 1A.tif\nscan 2A: 2A.tif\nscan: {label}.tif\n":                            "",
		days: "",
	} {
		_, list := compile.Compile(compile.World{Scans: there, Read: func(string) ([]byte, error) { return []byte(text), nil }, Look: func(path string) compile.Scan {
			if slices.Contains(there, path) {
				return compile.Scan{State: record.Present}
			}
			return compile.Scan{State: record.Missing}
		}}, "notes.md")
		if _, ok := codes(list)["scan-orphan"]; !ok {
			t.Fatalf("%s: x.tif is named by none: %v", text, list)
		}
		got := ""
		for _, n := range codes(list)["scan-orphan"].Notes {
			got += n.Text
		}
		if want != "" && !strings.HasPrefix(got, "there are sheets of "+want+" without a scan") || want == "" && got != "" {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// Files of one pattern that cannot be read for one reason are one finding with a count, and what is wrong with a
// sheet's file stands with the file and not as a finding at each sheet; of an earlier day none is missed.
func TestManyScansAreOneFinding(t *testing.T) {
	const notes = "day: 2026-11-07\n1A: 1/30 f16\n1B: 1/30 f16\n\nday: 2026-11-08\n2A: 1/30 f16\n2B: 1/30 f16\n3A: 1/30 f16\n4A: 1/30 f16\nscan 4A: x.tif\nscan: {sheet}.tif\n"
	there := map[string]string{"1A.tif": "is no picture", "2A.tif": "is no picture", "2B.tif": "is cut off", "x.tif": "is no picture"}
	season, list := compile.Compile(compile.World{Scans: slices.Sorted(maps.Keys(there)), Read: func(string) ([]byte, error) { return []byte(notes), nil }, Look: func(path string) compile.Scan {
		if there[path] != "" {
			return compile.Scan{State: record.Unreadable, Why: there[path]}
		}
		return compile.Scan{State: record.Missing}
	}}, "notes.md")
	var got []string
	for _, d := range list {
		if strings.HasPrefix(d.Code, "scan-") {
			got = append(got, d.Message)
		}
	}
	slices.Sort(got)
	if all := strings.Join(got, "|"); all != "2 scans cannot be read: 1A.tif, 2A.tif|2B.tif is cut off|there is no scan 3A.tif|x.tif is no picture" {
		t.Errorf("%s", all)
	}
	for _, sh := range season.Sheets {
		if len(sh.Findings) > 0 {
			t.Errorf("%s: %s", sh.Label, sh.Findings[0].Message)
		}
	}
}
