package handbook

import (
	"math"
	"testing"
)

func TestTablesAreRead(t *testing.T) {
	if _, err := filterTable(); err != nil {
		t.Error(err)
	}
	if _, err := statePhrases(); err != nil {
		t.Error(err)
	}
	if _, err := directionPhrases(); err != nil {
		t.Error(err)
	}
	values, err := readValues()
	if err != nil {
		t.Fatal(err)
	}
	for number := range values {
		if e, ok := Filter(number); !ok || e.Number != number {
			t.Errorf("values are printed for %s, which is no filter", number)
		}
	}
}

// Every way to write a number finds the same filter.
func TestFilterSpellings(t *testing.T) {
	for want, spellings := range map[string][]string{
		"25":  {"25", "#25", "W25", "w25", "Wratten 25", "No. 25", "no 25", "A", "25A", "25a"},
		"8":   {"8", "K2", "k2", "# 8"},
		"15":  {"15", "G"},
		"11":  {"11", "X1"},
		"58":  {"58", "B"},
		"47":  {"47", "C5"},
		"23A": {"23A", "23a", "W23A"},
		"47B": {"47B"},
		"pol": {"pol", "POL", "polarizer", "Polariser"},
	} {
		for _, s := range spellings {
			if e, ok := Filter(s); !ok || e.Number != want {
				t.Errorf("%q is %q, want %q", s, e.Number, want)
			}
		}
	}
	for _, s := range []string{"", "#", "W", "999", "no filter", "25B", "x8", "AA"} {
		if e, ok := Filter(s); ok {
			t.Errorf("%q is %q, want none", s, e.Number)
		}
	}
}

// "green 25" is a colour against its number, which the compiler reports.
func TestCalled(t *testing.T) {
	cases := []struct {
		number, word string
		want         bool
	}{
		{"25", "red", true}, {"25", "R", true}, {"25", "deep red", true}, {"25", "green", false}, {"25", "G", false},
		{"8", "Y", true}, {"8", "yellow", true}, {"8", "orange", false}, {"15", "G", true}, {"15", "green", false},
		{"11", "green", true}, {"11", "yellow-green", true}, {"11", "YG", true}, {"11", "yellow", true}, {"11", "blue", false},
		{"22", "deep orange", true}, {"58", "B", true}, {"58", "blue", false}, {"8", "deep", false}, {"8", "", false},
		{"pol", "polarizer", true},
	}
	for _, c := range cases {
		e, ok := Filter(c.number)
		if got := e.Called(c.word); !ok || got != c.want {
			t.Errorf("%s called %q: %v, want %v", c.number, c.word, got, c.want)
		}
	}
}

// What film of a class cannot see: ortho no red, and no orange from 22 on, 21 hardly;
// blue-sensitive film nothing from yellow to red (common practice, no source).
func TestBlindOn(t *testing.T) {
	cases := []struct {
		number, class string
		blind, long   bool
	}{
		{"25", Ortho, true, false}, {"29", Ortho, true, false}, {"23A", Ortho, true, false}, {"22", Ortho, true, false},
		{"21", Ortho, false, true}, {"15", Ortho, false, false}, {"8", Ortho, false, false}, {"58", Ortho, false, false},
		{"8", Blue, true, false}, {"15", Blue, true, false}, {"21", Blue, true, false}, {"25", Blue, true, false},
		{"47", Blue, false, false}, {"25", Pan, false, false}, {"25", "", false, false}, {"pol", Blue, false, false},
	}
	for _, c := range cases {
		e, _ := Filter(c.number)
		if blind, long := e.BlindOn(c.class); blind != c.blind || long != c.long {
			t.Errorf("%s on %s: blind %v, very long %v", c.number, c.class, blind, long)
		}
	}
}

func TestSpanAndDefault(t *testing.T) {
	yellow, _ := Filter("8")
	lo, hi, ok := yellow.Span(Daylight, Pan)
	if !ok || lo != math.Log2(1.5) || hi != 1 { // No. 8 is 1.5 or 2
		t.Errorf("No. 8 spans %g to %g", lo, hi)
	}
	if lo, _, _ := yellow.Span("", ""); lo != math.Log2(1.2) {
		t.Errorf("No. 8 in any light starts at %g", lo)
	}
	deep, _ := Filter("15")
	if p, ok := deep.Default(Daylight, Ortho); !ok || p.Factor != 5 {
		t.Errorf("No. 15 on ortho is x%g, want x5", p.Factor)
	}
	if p, ok := deep.Default("", ""); !ok || p.Factor != 2 || p.Light != Daylight {
		t.Errorf("No. 15 unsaid is x%g in %s", p.Factor, p.Light)
	}
	red, _ := Filter("25")
	if p, ok := red.Default(Daylight, Ortho); ok {
		t.Errorf("red on ortho has a default, x%g", p.Factor)
	}
	if _, _, ok := (FilterEntry{}).Span("", ""); ok {
		t.Error("no filter has a span")
	}
}

func TestLightInFreeText(t *testing.T) {
	cases := []struct {
		words, name string
		ev          float64
	}{
		{"Long kiln from the tramway, hazy sun from the left", "hazy sun", 13},
		{"Full Sun", "full sun", 15}, {"bright sun, back-lit", "full sun", 13}, {"into the sun", "full sun", 13},
		{"open shade, backlit", "open shade", 12}, {"heavy overcast, drizzle", "heavy overcast", 12},
		{"full moon over the quarry", "full-moon landscape", -2.5}, {"sun in frame", "full sun", 13},
		{"no sun, open shade", "open shade", 12}, {"sun on snow", "sand or snow in sun", 16},
	}
	for _, c := range cases {
		if got, ok := Light(c.words); !ok || got.Name != c.name || got.EV100 != c.ev {
			t.Errorf("%q: %s EV %g, want %s EV %g", c.words, got.Name, got.EV100, c.name, c.ev)
		}
	}
	for _, words := range []string{"", "sunset", "no sun", "Sunday morning", "tungsten", "interior", "the sunken lane"} {
		if got, ok := Light(words); ok {
			t.Errorf("%q: %s, want none", words, got.Name)
		}
	}
}

func TestLightIsDeterministic(t *testing.T) {
	first, _ := Light("open shade then cloudy bright then hazy sun")
	for range 20 {
		if again, _ := Light("open shade then cloudy bright then hazy sun"); again != first {
			t.Fatalf("%s, then %s", first.Name, again.Name)
		}
	}
}

func BenchmarkFilter(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		e, _ := Filter("25")
		e.Span(Daylight, Pan)
	}
}
