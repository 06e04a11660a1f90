package compile_test

import (
	"testing"

	"notchbook/compile"
)

// The kit's value beside a forecast is the one for the film that is asked for: ×2.5
// is 1.3219 stops (log2 2.5).
func TestForecastKnowsTheFilmsValue(t *testing.T) {
	kit := "film ort: ortho, EI 25\nfilter Y8: yellow, Wratten 8, x2, ort x2.5\n"
	world := compile.World{Read: func(string) ([]byte, error) { return []byte(kit), nil }}
	out, _, _ := compile.Forecast(world, compile.Asked{Filters: []string{"Y8"}, Film: "ort"}, "kit.md")
	if out == nil || len(out.Casts) != 1 || out.Casts[0].Declared.Value < 1.32 || out.Casts[0].Declared.Value > 1.33 {
		t.Errorf("%+v", out)
	}
}
