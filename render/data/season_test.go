package data

import (
	"bytes"
	"encoding/json"
	"errors"
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

// What a scene's filters did stands in the season in rounded stops: measured to a
// hundredth, forecast to a third, null where it is not known.
func TestSeasonTellsWhatTheFiltersDid(t *testing.T) {
	s := season()
	sc := &record.Scene{Title: "Kiln"}
	s.Outings = []*record.Outing{{Scenes: []*record.Scene{sc}}}
	control, through := s.Sheets[0], s.Sheets[1]
	sc.Compared = &record.Compared{
		Controls: []*record.Sheet{control}, How: "by curve",
		Sheets: []*record.Filtered{{
			Sheet: through, Name: "R25", Declared: record.Known(3), By: "declared", Forecast: record.Known(2.7),
			Spots: []record.SpotMove{{Spot: "sky", Measured: record.Known(-0.8765), Forecast: record.Known(-1.1), Subject: "clear sky"}, {Spot: "gable"}},
		}},
	}
	var b bytes.Buffer
	if err := Season(&b, s); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Outings []struct {
			Scenes []struct{ Compared json.RawMessage }
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	var plain bytes.Buffer
	if err := json.Compact(&plain, got.Outings[0].Scenes[0].Compared); err != nil {
		t.Fatal(err)
	}
	want := `{"controls":["` + control.ID + `"],"drift":null,"how":"by curve","sheets":[{"sheet":"` + through.ID + `","filters":"R25","declaredStops":3,"by":"declared","forecastStops":2.67,"measuredStops":null,` +
		`"spots":[{"spot":"sky","measuredStops":-0.88,"forecastStops":-1,"subject":"clear sky"},{"spot":"gable","measuredStops":null,"forecastStops":null,"subject":null}]}]}`
	if plain.String() != want {
		t.Errorf("got  %s\nwant %s", plain.String(), want)
	}
}

// Densities with their readings, and what the photographer's own tests say and move,
// stand in the season as in the output of its own.
func TestSeasonCarriesDensitiesAndTests(t *testing.T) {
	s := season()
	sheet := s.Sheets[0]
	sheet.Densities = []record.Density{{Spot: "base+fog", D: 0.075, Readings: []float64{0.07, 0.08}}}
	s.Tests = []*record.Test{{
		Kind: "shutter", Name: "shutter 210", Title: "Shutter of 210", Sheets: []*record.Sheet{sheet},
		Results: []record.TestResult{{
			Of: "1/60", Unit: "ms", Text: "22 ms", Value: record.Known(22), From: []*record.Sheet{sheet},
			Moves: []record.Moved{{Sheet: sheet, By: 0.4, Stands: record.Known(0.4), Was: record.Right, Now: record.Off}},
		}},
	}}
	var b, alone bytes.Buffer
	if err := Season(&b, s); err != nil {
		t.Fatal(err)
	}
	if err := Tests(&alone, s, ""); err != nil {
		t.Fatal(err)
	}
	var got, own struct {
		Sheets []struct{ Densities json.RawMessage }
		Tests  json.RawMessage
	}
	if err := errors.Join(json.Unmarshal(b.Bytes(), &got), json.Unmarshal(alone.Bytes(), &own)); err != nil {
		t.Fatal(err)
	}
	compact := func(text []byte) string {
		var plain bytes.Buffer
		if err := json.Compact(&plain, text); err != nil {
			t.Fatal(err)
		}
		return plain.String()
	}
	if text := compact(got.Sheets[0].Densities); text != `[{"spot":"base+fog","density":0.075,"readings":[0.07,0.08]}]` {
		t.Errorf("densities %s", text)
	}
	if text := compact(got.Tests); text != compact(own.Tests) || !strings.Contains(text, `"moves":[{"sheet":"`+sheet.ID+`","byStops":0.4,"standsStops":0.4,"was":"right","now":"off"}]`) {
		t.Errorf("tests %s", text)
	}
}
