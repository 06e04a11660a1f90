package main

import (
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/compile/spectral"
)

// The scans are drawn in four bands, averaged from the very tables by which forecasts are
// made; so what a filter does in the pictures and what is forecast of it are one thing,
// to the third of a stop that a forecast is worth.
func TestDrawnTonesMoveAsForecast(t *testing.T) {
	drawn := []struct {
		subject spectral.Subject
		bands   Bands
	}{{spectral.Sky, clearSky}, {spectral.Foliage, leaf}, {spectral.DryGrass, dryGrass}, {spectral.Brick, brickRed}, {spectral.Wood, cedar}}
	s, _ := spectral.In(spectral.Pan, spectral.Daylight)
	bare, _ := seen("pan", nil, false)
	for name := range filters {
		c, ok := spectral.Filter(name)
		if !ok {
			t.Fatal("no curve of " + name)
		}
		f := s.Through(&c)
		through, _ := seen("pan", []string{name}, false)
		for _, d := range drawn {
			m := f.Moves[d.subject]
			got := math.Log2(through.exposure(d.bands) / bare.exposure(d.bands))
			t.Logf("No. %-3s %-14s drawn %+.2f, forecast %+.2f (%+.2f to %+.2f)", name, spectral.List()[d.subject].Name, got, m.Stops, m.Low, m.High)
			if math.Abs(got-m.Stops) > 1./3 {
				t.Errorf("No. %s moves %s by %+.2f in the drawing, and %+.2f are forecast", name, spectral.List()[d.subject].Name, got, m.Stops)
			}
		}
	}
}

// patch is the exposure of a part of a shipped scan, in stops from Zone V: the mean of its
// pixels, back through the print and the film's curve.
func patch(t *testing.T, name string, left, top, right, bottom float64) float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("../aldermoor/scans", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	pic, err := jpeg.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	b := pic.Bounds()
	at := func(part float64, from, to int) int { return from + int(part*float64(to-from)) }
	area := image.Rect(at(left, b.Min.X, b.Max.X), at(top, b.Min.Y, b.Max.Y), at(right, b.Min.X, b.Max.X), at(bottom, b.Min.Y, b.Max.Y))
	sum, n := 0., 0.
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			r, _, _, _ := pic.At(x, y).RGBA()
			sum, n = sum+float64(r)/65535, n+1
		}
	}
	level := sum / n
	low, high := -12., 12.
	for range 60 { // the curve only rises: TestZoneOneLiesAtTheSpeedPoint
		if mid := (low + high) / 2; printed(density(mid)) < level {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// The files themselves: the open sky and the dry grass of the long kiln, behind each filter
// less without one, and less what each sheet got too much or too little by its key.
func TestShippedScansMoveAsForecast(t *testing.T) {
	_, list := keyed(t)
	given := map[string]float64{}
	for _, f := range list {
		given[f.Out] = f.Stops
	}
	s, _ := spectral.In(spectral.Pan, spectral.Daylight)
	const control = "2026-10-04-1A.jpg"
	for _, at := range []struct {
		subject                  spectral.Subject
		left, top, right, bottom float64 // parts of the picture
	}{{spectral.Sky, .55, .08, .62, .14}, {spectral.DryGrass, .15, .80, .30, .90}} {
		without := patch(t, control, at.left, at.top, at.right, at.bottom) - given[control]
		for file, number := range map[string]string{"2026-10-04-1B.jpg": "8", "2026-10-04-2A.jpg": "25", "2026-10-04-3A.jpg": "11", "2026-10-04-3B.jpg": "21"} {
			c, _ := spectral.Filter(number)
			want := s.Through(&c).Moves[at.subject].Stops
			got := patch(t, file, at.left, at.top, at.right, at.bottom) - given[file] - without
			t.Logf("%s: No. %-2s %-9s moved %+.2f, forecast %+.2f", file, number, spectral.List()[at.subject].Name, got, want)
			if math.Abs(got-want) > 1./3 {
				t.Errorf("%s: behind No. %s %s moved by %+.2f, and %+.2f are forecast", file, number, spectral.List()[at.subject].Name, got, want)
			}
		}
	}
}

// The densities that the notebook tells of are those of the drawn negatives.
func TestDensitiesInTheNotesAreOfTheDrawnNegatives(t *testing.T) {
	text, err := os.ReadFile("../aldermoor/2026-10-04-brickworks.md")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for line := range strings.Lines(string(text)) {
		var label string
		var base, sky, grass float64
		if _, err := fmt.Sscanf(line, "density %2s: base+fog %f, sky %f, dry grass %f", &label, &base, &sky, &grass); err != nil {
			continue
		}
		n++
		file := "2026-10-04-" + label + ".jpg"
		for _, d := range []struct{ said, drawn float64 }{
			{base, fog}, {sky, density(patch(t, file, .55, .08, .62, .14))}, {grass, density(patch(t, file, .15, .80, .30, .90))},
		} {
			if math.Abs(d.said-d.drawn) > 0.01 {
				t.Errorf("%s: the notes say %.2f, drawn is %.3f", label, d.said, d.drawn)
			}
		}
	}
	if n != 4 {
		t.Errorf("%d sheets have densities", n)
	}
}
