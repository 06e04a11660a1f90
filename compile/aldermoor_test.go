package compile_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// The shipped season has a key: what every sheet is, worked out from the design
// of the arithmetic by another hand before this program could read it
// (testdata/aldermoor).

const aldermoor = "../examples/aldermoor"

func compileFolder(t testing.TB, folder string) (*record.Season, diag.List) {
	t.Helper()
	var names []string
	for _, pattern := range []string{"*.md", "*.txt"} {
		found, err := filepath.Glob(filepath.Join(folder, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range found {
			names = append(names, filepath.Base(path))
		}
	}
	world := compile.World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }}
	return compile.Compile(world, names...)
}

// keyed is a row of the key.
type keyed struct {
	id, kind string
	state    record.State
	stops    float64
	known    bool
}

func readKey(t *testing.T) []keyed {
	t.Helper()
	file, err := os.Open("../testdata/aldermoor/key.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []keyed
	for _, row := range rows[1:] {
		k := keyed{id: row[0], state: record.State(row[1]), kind: row[3]}
		if row[2] != "" {
			k.known = true
			if k.stops, err = strconv.ParseFloat(row[2], 64); err != nil {
				t.Fatal(err)
			}
		}
		all = append(all, k)
	}
	return all
}

// planted says by which finding each kind of planted mistake must be named: the
// code, and for an exposure the cause that must be among those that fit.
var planted = map[string][2]string{
	"last sheet's time left on":          {"exposure-off", "time-left-on"},
	"filter not compensated":             {"exposure-off", "filter-not-compensated"},
	"compensated the wrong way":          {"exposure-off", "wrong-way"},
	"factor used as stops":               {"exposure-off", "factor-as-stops"},
	"density used as stops":              {"exposure-off", "density-as-stops"},
	"bellows forgotten":                  {"exposure-off", "bellows-forgotten"},
	"reciprocity forgotten":              {"exposure-off", "reciprocity-forgotten"},
	"reading not placed":                 {"exposure-off", "not-placed"},
	"meter left at another EI":           {"exposure-off", "meter-at-another-ei"},
	"red filter on ortho film":           {"film-blind", ""},
	"speed the shutter lacks":            {"speed-lacking", ""},
	"film logged against film in holder": {"film-in-holder", ""},
	"sheet exposed twice":                {"exposed-twice", ""},
	"developed otherwise than asked":     {"developed-otherwise", ""},
}

func TestEverySheetOfTheExampleIsAsItsKeySays(t *testing.T) {
	season, _ := compileFolder(t, aldermoor)
	sheets := map[string]*record.Sheet{}
	for _, s := range season.Sheets {
		sheets[s.ID] = s
	}
	key := readKey(t)
	if len(key) != len(season.Sheets) {
		t.Errorf("the key has %d sheets, the record %d", len(key), len(season.Sheets))
	}
	for _, k := range key {
		s := sheets[k.id]
		if s == nil {
			t.Errorf("%s is not in the record", k.id)
			continue
		}
		if s.State != k.state {
			t.Errorf("%s is %s, the key says %s", k.id, s.State, k.state)
		}
		if k.known && (!s.Difference.Known || math.Abs(s.Difference.Value-k.stops) > 0.011) {
			t.Errorf("%s is off by %+.3f, the key says %+.2f", k.id, s.Difference.Value, k.stops)
		}
		blamed(t, k, s)
	}
}

// blamed checks that a planted mistake is found and named, and that nothing
// graver than a note is said of a sheet without one.
func blamed(t *testing.T, k keyed, s *record.Sheet) {
	t.Helper()
	want, isPlanted := planted[k.kind]
	if k.kind != "" && !isPlanted {
		t.Errorf("%s: the key's kind %q has no finding in this test", k.id, k.kind)
	}
	found := false
	for _, f := range s.Findings {
		if f.Code == want[0] && (want[1] == "" || contains(f.Causes, want[1])) {
			found = true
		} else if f.Severity != record.Note && !(isPlanted && k.kind == "sheet exposed twice") && !sharesFilm(s) {
			t.Errorf("%s: %s: %s, but the key says %q", k.id, f.Code, f.Message, k.kind)
		}
	}
	if isPlanted && !found {
		t.Errorf("%s: the planted mistake %q is not found", k.id, k.kind)
	}
}

// sharesFilm reports whether a sheet is the first of two on one film: what is
// said of the second names it too.
func sharesFilm(s *record.Sheet) bool {
	for _, f := range s.Findings {
		if f.Code == "exposed-twice" && len(f.Sheets) > 1 && f.Sheets[1] == s {
			return true
		}
	}
	return false
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}

// Every log line of the notes must be in the record: as a line, a scene, or
// among the lines of a sheet.
func TestNoLogLineOfTheExampleIsLost(t *testing.T) {
	season, _ := compileFolder(t, aldermoor)
	if season.Tally.UnreadLines != 0 {
		t.Errorf("%d lines of the example were not understood", season.Tally.UnreadLines)
	}
	type line struct {
		path string
		line int
	}
	seen := map[line]bool{}
	scenes := 0
	for _, o := range season.Outings {
		for _, e := range o.Entries {
			switch {
			case e.Line != nil:
				seen[line{e.Line.Place.Path, e.Line.Place.Line}] = true
			case e.Sheet != nil:
				for _, l := range e.Sheet.Lines {
					seen[line{l.Place.Path, l.Place.Line}] = true
				}
			case e.Scene != nil:
				scenes++
			}
		}
	}
	if len(seen)+scenes != season.Tally.LogLines {
		t.Errorf("the record shows %d of %d log lines", len(seen)+scenes, season.Tally.LogLines)
	}
}
