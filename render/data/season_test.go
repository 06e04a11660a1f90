package data

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// TestSeasonIsWhole: every sheet, finding and scan is there, by the names that
// link them, and no list is null.
func TestSeasonIsWhole(t *testing.T) {
	for name, s := range map[string]*record.Season{"filled": season(), "empty": {}} {
		var b bytes.Buffer
		if err := Season(&b, s); err != nil {
			t.Fatal(err)
		}
		var got struct {
			Format   string
			Version  int
			Sheets   []struct{ ID string }
			Findings []struct{ Code string }
			Scans    []struct{ Path string }
		}
		if err := json.Unmarshal(b.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if got.Format != "notchbook season" || got.Version != seasonVersion {
			t.Errorf("%s: it calls itself %q, version %d", name, got.Format, got.Version)
		}
		if len(got.Sheets) != len(s.Sheets) || len(got.Findings) != len(s.Findings) || len(got.Scans) != len(s.Scans) {
			t.Errorf("%s: %d sheets, %d findings, %d scans", name, len(got.Sheets), len(got.Findings), len(got.Scans))
		}
		for i, sh := range got.Sheets {
			if sh.ID != s.Sheets[i].ID {
				t.Errorf("%s: sheet %d is %q", name, i, sh.ID)
			}
		}
		if name == "empty" && strings.Contains(b.String(), "null") {
			t.Errorf("a list is null:\n%s", b.String())
		}
	}
}
