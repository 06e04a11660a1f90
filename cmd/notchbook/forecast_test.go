package main

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The forecast for the shipped kit, as it is said. The figures are held against the
// makers' in compile/spectral; here it is that all parts are there.
func TestForecastIsSaid(t *testing.T) {
	said := must(t, "forecast", "--kit", filepath.Join(aldermoor(t), "kit.md"), "Y8", "R25+pol").out
	for _, line := range []string{
		"panchromatic film in daylight, in stops",
		"                 none   Y8   R25 + pol",
		"costs               0    ⅔          4⅓",
		"your value               1          4½",
		"clear sky           0   −⅔          −1",
		"foliage             0    0           0",
		"clear sky       ●─────│     ·     ·",
		"red brick       ·     │─────●     ·",
		"Quoted to a third of a stop",
		"how good it is",
		"(root mean square)",
	} {
		if !strings.Contains(said, line) {
			t.Errorf("it does not say %q:\n%s", line, said)
			break
		}
	}
	for line := range strings.Lines(said) {
		if len([]rune(line)) > 80 {
			t.Errorf("a line of more than 79 signs: %s", line)
		}
	}
}

func TestForecastSaysPlainlyWhatIsMissing(t *testing.T) {
	r := notchbook(t, "forecast", "W87", "R25")
	if r.status != found || !strings.Contains(r.out, "W87: no forecast, for there is no curve of W87") || !strings.Contains(r.out, "red brick") {
		t.Errorf("%d\n%s", r.status, r.out)
	}
	r = notchbook(t, "forecast", "R25+B47B")
	if r.status != right || !strings.Contains(r.out, "leaves no light that this film sees") {
		t.Errorf("%d\n%s", r.status, r.out)
	}
	if r := notchbook(t, "forecast", "47"); r.status != failed || !strings.Contains(r.err, "#47") {
		t.Errorf("%d %s", r.status, r.err)
	}
}

func TestForecastAsData(t *testing.T) {
	var got struct {
		Format  string
		Version int
		Filters []struct {
			Name  string
			Stops *float64
			Moves []struct{ Subject string }
		}
	}
	if err := json.Unmarshal([]byte(must(t, "forecast", "--format", "json", "--light", "tungsten", "R25", "R25+B47B").out), &got); err != nil {
		t.Fatal(err)
	}
	if got.Format != "notchbook forecast" || got.Version != 1 || len(got.Filters) != 2 || len(got.Filters[0].Moves) < 8 || got.Filters[1].Stops != nil {
		t.Errorf("%+v", got)
	}
	if s := got.Filters[0].Stops; s == nil || *s != 2 { // printed: 2 stops, Kodak F-4016 and F-4043
		t.Errorf("red by lamps costs %v", s)
	}
}

// The drawing is a file of XML that nothing of the writer's makes way for.
func TestForecastIsDrawn(t *testing.T) {
	file := filepath.Join(t.TempDir(), "red.svg")
	for range 2 { // a drawing may be drawn anew
		must(t, "forecast", "R25", "-o", file)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	root, words := xml.NewDecoder(strings.NewReader(string(text))), 0
	for {
		token, err := root.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if el, ok := token.(xml.StartElement); ok && el.Name.Local == "text" {
			words++
		}
	}
	if words < 24 || !strings.Contains(string(text), "aria-label") || !strings.Contains(string(text), "--pencil: #5d574b") {
		t.Errorf("%d words\n%s", words, text)
	}
	if err := os.WriteFile(file, []byte("<svg>mine</svg>"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r := notchbook(t, "forecast", "R25", "-o", file); r.status != failed {
		t.Error("a drawing of the writer's own was written over")
	}
	if r := notchbook(t, "forecast", "R25", "-o", filepath.Join(t.TempDir(), "red.png")); r.status != failed {
		t.Error("a drawing in PNG was written")
	}
}

// Of a light without a curve it is said which there are, and what the kit has for it.
func TestForecastNamesItsLights(t *testing.T) {
	kit := filepath.Join(folder(t, map[string]string{
		"kit.md": "film ash: ISO 100, EI 100, pan, tungsten EI 50, sodium EI 25\nfilter O21: x4, tungsten x2, sodium x1, ash open shade x5\n",
	}), "kit.md")
	for light, wants := range map[string][]string{
		"sodium lamps": {"daylight or tungsten", "for this light the kit has ash sodium EI 25, O21 sodium ×1\n"},
		"open shade":   {"daylight or tungsten", "for this light the kit has O21 ash open shade ×5\n"},
		"candle":       {"daylight or tungsten", "the kit has values, but no curve, for sodium, open shade\n"},
	} {
		s := notchbook(t, "forecast", "--kit", kit, "--light", light, "O21")
		for _, want := range append(wants, fmt.Sprintf("%q is no light", light)) {
			if s.status != failed || !strings.Contains(s.err, want) {
				t.Errorf("%s: status %d, no %q: %s", light, s.status, want, s.err)
			}
		}
	}
	if s := notchbook(t, "forecast", "--light", "sodium", "R25"); s.status != failed || strings.Contains(s.err, "kit") {
		t.Errorf("without a kit: status %d: %s", s.status, s.err)
	}
	if s := must(t, "forecast", "--light", "Tungsten", "R25"); !strings.HasPrefix(s.out, "panchromatic film in tungsten") {
		t.Errorf("a capital: %s", s.out)
	}
}
