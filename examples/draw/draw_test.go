package main

import (
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
)

// A filter's factor gives back what it takes from a grey card, so a card never moves.
func TestGreyStaysGreyBehindAnyFilter(t *testing.T) {
	for film := range response {
		for name := range filters {
			for _, tungsten := range []bool{false, true} {
				e, sees := seen(film, []string{name}, tungsten)
				if sees && math.Abs(e.exposure(grey(1))-1) > 1e-12 {
					t.Errorf("%s, filter %s: grey card at %g", film, name, e.exposure(grey(1)))
				}
			}
		}
	}
}

// Order of the sky behind yellow, orange and red, and of green leaves behind the green filter:
// common practice, as every filter handbook shows it.
func TestFiltersMoveTonesTheKnownWay(t *testing.T) {
	sky := 10.0
	for _, names := range [][]string{nil, {"8"}, {"21"}, {"25"}} {
		e, _ := seen("pan", names, false)
		if got := e.exposure(clearSky); got >= sky {
			t.Errorf("sky behind %v is %.2f, not darker than %.2f", names, got, sky)
		} else {
			sky = got
		}
	}
	bare, _ := seen("pan", nil, false)
	green, _ := seen("pan", []string{"11"}, false)
	red, _ := seen("pan", []string{"25"}, false)
	if !(green.exposure(leaf) > bare.exposure(leaf)) {
		t.Error("leaves are no lighter behind the green filter")
	}
	if !(red.exposure(brickRed) > 1.5*bare.exposure(brickRed)) {
		t.Error("brick is no lighter behind the red filter")
	}
	ortho, _ := seen("ortho", nil, false)
	if !(ortho.exposure(brickRed) < bare.exposure(brickRed)) {
		t.Error("brick is no darker on orthochromatic film")
	}
}

func TestOrthochromaticFilmIsBlindToRed(t *testing.T) {
	if _, sees := seen("ortho", []string{"25"}, false); sees {
		t.Error("orthochromatic film sees through a Wratten 25")
	}
}

// ISO 6 sets the speed point at .10 over fog, which the trade takes for Zone I, four stops
// under the middle.
func TestZoneOneLiesAtTheSpeedPoint(t *testing.T) {
	if over := density(-4) - density(-30); math.Abs(over-.10) > .03 {
		t.Errorf("Zone I is %.2f over fog", over)
	}
	last := 0.0
	for s := -12.0; s < 12; s += .25 {
		v := printed(density(s))
		if v < last {
			t.Fatalf("the print gets darker at %+.2f stops", s)
		}
		last = v
	}
}

func TestThreeStopsTooLittleLosesTheShadows(t *testing.T) {
	separation := func(stops float64) float64 { return printed(density(stops)) - printed(density(stops-1)) }
	if !(separation(-2-3) < separation(-2)/5) {
		t.Errorf("Zone III keeps %.3f of its %.3f", separation(-5), separation(-2))
	}
}

// However the rows are shared out among processors, the view is the same.
func TestLookingTwiceSeesTheSame(t *testing.T) {
	a, b := look(wharf(), 60, 47), look(wharf(), 60, 47)
	if !reflect.DeepEqual(a.Light, b.Light) {
		t.Error("two looks at one scene differ")
	}
}

// keyed is the key of the shipped season and what is drawn by it.
func keyed(t *testing.T) (*os.File, []Frame) {
	t.Helper()
	key, err := os.Open("../../testdata/aldermoor/key.csv")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { key.Close() })
	list, err := frames(key)
	if err != nil {
		t.Fatal(err)
	}
	return key, list
}

// Every sheet of the key is drawn or knowingly left out, and every scene named exists.
func TestFramesCoverTheKey(t *testing.T) {
	key, list := keyed(t)
	files := map[string]string{}
	for _, f := range list {
		if other := files[f.Out]; other != "" {
			t.Errorf("%s and %s share the file %s", other, f.ID, f.Out)
		}
		files[f.Out] = f.ID
		if scenes[f.Scene] == nil {
			t.Errorf("%s: no scene %q", f.ID, f.Scene)
		}
	}
	if err := keyWithoutSubject(key); err != "" {
		t.Error(err)
	}
}

func keyWithoutSubject(key *os.File) string {
	text, err := os.ReadFile(key.Name())
	if err != nil {
		return err.Error()
	}
	known := map[string]bool{}
	for _, s := range subjects {
		known[s.id] = true
	}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
		if id, _, _ := strings.Cut(line, ","); !known[id] {
			return "no subject for sheet " + id
		}
	}
	return ""
}
