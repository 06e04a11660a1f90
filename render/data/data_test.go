package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

func season() *record.Season {
	sh := &record.Sheet{ID: "2026-11-07 5A", Label: "5A", State: record.Off, Difference: record.Known(2)}
	unchecked := &record.Sheet{ID: "2026-11-07 5B", Label: "5B", State: record.Unchecked, Needs: []string{"the reading"}}
	return &record.Season{
		Sheets: []*record.Sheet{sh, unchecked},
		Findings: []*record.Finding{{
			Code: "exposure-off", Severity: record.Error, Title: "A sheet got too much or too little", Message: `5A got 2 stops "over" <b>`,
			Notes: []string{"fits: O21 came off"}, Place: record.Place{Path: "a log/notes 1.md", Line: 12, Column: 3, EndLine: 12, EndColumn: 20},
			Sheets: []*record.Sheet{sh}, Causes: []string{"settings-left"},
		}, {
			Code: "two-settings", Severity: record.Error, Title: "Two times", Message: "two times on one line",
			Place: record.Place{Path: "a.md", Line: 1, Column: 1, EndLine: 1, EndColumn: 4},
			Fix:   &record.Fix{Place: record.Place{Path: "a.md", Line: 1, Column: 1, EndLine: 1, EndColumn: 6}, Text: "f16½"},
		}, {Code: "scan-orphan", Severity: record.Note, Title: "A scan belongs to no sheet", Message: "no sheet names x.tif"}},
	}
}

func TestFindingsKeepTheirForm(t *testing.T) {
	var b bytes.Buffer
	if err := Findings(&b, season(), ""); err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got["format"] != "notchbook findings" || got["version"] != 1.0 {
		t.Errorf("format %v, version %v", got["format"], got["version"])
	}
	first := got["findings"].([]any)[0].(map[string]any)
	for key, want := range map[string]any{
		"code": "exposure-off", "severity": "error", "file": "a log/notes 1.md", "line": 12.0, "column": 3.0, "endLine": 12.0, "endColumn": 20.0,
		"stops": 2.0, "stopsByClock": nil, "fix": nil, "message": `5A got 2 stops "over" <b>`,
	} {
		if value, there := first[key]; !there || value != want {
			t.Errorf("%s is %v, want %v", key, value, want)
		}
	}
	sheets := got["sheets"].([]any)
	if needs := sheets[1].(map[string]any)["needs"].([]any); len(needs) != 1 || needs[0] != "the reading" {
		t.Errorf("needs are %v", needs)
	}
	if needs, ok := sheets[0].(map[string]any)["needs"].([]any); !ok || len(needs) != 0 {
		t.Errorf("no needs are %v, want an empty list", needs)
	}
}

// A path becomes a URI reference, or a file URI where it is absolute (RFC 3986,
// section 4.2; RFC 8089, section 2 and appendix E.2).
func TestSARIFNamesFilesByURI(t *testing.T) {
	for folder, want := range map[string]string{
		"": "log%20book.md", "my season/2026": "my%20season/2026/log%20book.md", "/home/x": "file:///home/x/log%20book.md", "C:/x": "file:///C:/x/log%20book.md",
	} {
		if got := artifact(path.Join(folder, "log book.md")).URI; got != want {
			t.Errorf("%q: %s, want %s", folder, got, want)
		}
	}
}

// What SARIF 2.1.0 demands of a log (sections 3.13 to 3.30 of the standard).
func TestSARIFHoldsWhatTheStandardDemands(t *testing.T) {
	var b bytes.Buffer
	if err := SARIF(&b, season(), "", "0.1"); err != nil {
		t.Fatal(err)
	}
	var log struct {
		Version string
		Runs    []struct {
			Tool struct {
				Driver struct {
					Name  string
					Rules []struct{ ID string }
				}
			}
			Results []struct {
				RuleID    string
				RuleIndex int
				Level     string
				Message   struct{ Text string }
				Locations []struct {
					PhysicalLocation struct {
						ArtifactLocation struct{ URI string }
						Region           struct{ StartLine, StartColumn, EndLine, EndColumn int }
					}
				}
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &log); err != nil {
		t.Fatal(err)
	}
	run := log.Runs[0]
	if log.Version != "2.1.0" || run.Tool.Driver.Name == "" || len(run.Results) != 3 {
		t.Fatalf("version %q, driver %q, %d results", log.Version, run.Tool.Driver.Name, len(run.Results))
	}
	for _, r := range run.Results {
		if run.Tool.Driver.Rules[r.RuleIndex].ID != r.RuleID {
			t.Errorf("%s points to rule %d", r.RuleID, r.RuleIndex)
		}
		if r.Level != "error" && r.Level != "warning" && r.Level != "note" || r.Message.Text == "" {
			t.Errorf("%s: level %q, message %q", r.RuleID, r.Level, r.Message.Text)
		}
	}
	place := run.Results[0].Locations[0].PhysicalLocation
	if place.ArtifactLocation.URI != "a%20log/notes%201.md" || place.Region.StartLine != 12 || place.Region.EndColumn != 20 {
		t.Errorf("the place is %+v", place)
	}
	if len(run.Results[2].Locations) != 0 {
		t.Error("a finding without a place has a location")
	}
}

// The manual shows the form as it is: the same fields, no more and no fewer.
func TestTheManualShowsTheForm(t *testing.T) {
	text, err := os.ReadFile("../../lang/NOTATION.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "```json\n")
	example, _, ended := strings.Cut(rest, "```")
	if !found || !ended {
		t.Fatal("the manual shows no form")
	}
	var b bytes.Buffer
	if err := Findings(&b, season(), ""); err != nil {
		t.Fatal(err)
	}
	var shown, written map[string]any
	if err := json.Unmarshal([]byte(example), &shown); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b.Bytes(), &written); err != nil {
		t.Fatal(err)
	}
	fields := func(of map[string]any, list string) []string {
		if list == "" {
			return slices.Sorted(maps.Keys(of))
		}
		return slices.Sorted(maps.Keys(of[list].([]any)[0].(map[string]any)))
	}
	for _, list := range []string{"", "findings", "sheets"} {
		if a, b := fields(shown, list), fields(written, list); !slices.Equal(a, b) {
			t.Errorf("%q: the manual shows %v, written is %v", list, a, b)
		}
	}
}

// Whether a sheet was developed is a word of its own: no date and no way of development need
// be known for it.
func TestTableSaysWhetherASheetWasDeveloped(t *testing.T) {
	for want, sh := range map[string]*record.Sheet{
		"yes":      {State: record.Right, ShownDeveloped: "is filed"},
		"perhaps":  {State: record.Off, Developed: []record.Development{{Text: "N", Maybe: true}}},
		"not said": {State: record.Unchecked},
		"":         {State: record.Unexposed},
	} {
		var b bytes.Buffer
		if err := SheetsCSV(&b, []*record.Sheet{sh}); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if at := slices.Index(rows[0], "was developed"); at < 0 || rows[1][at] != want {
			t.Errorf("%v: want %q", rows, want)
		}
	}
}
