package compile_test

import (
	"math"
	"strings"
	"testing"

	"notchbook/compile"
	"notchbook/compile/record"
)

const scaleKit = `camera field: 4x5, circle of confusion 0.1 mm
lens 210: 210 mm, f5.6-f64, bellows 250mm +½, 300mm +1, 420mm x4
film tri: ISO 320, EI 320, pan, reciprocity 1s=2s 10s=50s 100s=1200s, shorten 10 % at 1s, 20 % at 10s, 30 % at 100s
filter R25: x8, open shade x10, candle light 2 stops, tungsten x5
meter spot: EV at EI
`

func sheetOf(t *testing.T, kit, line string) *record.Sheet {
	t.Helper()
	world := compile.World{Read: func(string) ([]byte, error) { return []byte(kit + line + "\n"), nil }}
	season, _ := compile.Compile(world, "notes.md")
	if len(season.Sheets) != 1 {
		t.Fatalf("%d sheets in %q", len(season.Sheets), line)
	}
	return season.Sheets[0]
}

// A scale on the bed is believed between its marks and nowhere else; between
// two it goes with the logarithm of the extension.
func TestBellowsScale(t *testing.T) {
	for _, c := range []struct {
		ext  string
		want float64
		by   string
	}{
		{"250 mm", 0.5, "scale"}, {"300 mm", 1, "scale"}, {"420 mm", 2, "scale"},
		{"275 mm", 0.5 + 0.5*math.Log(275./250)/math.Log(300./250), "scale"},
		{"240 mm", 2 * math.Log2(240./210), "beyond the scale"},
		{"500 mm", 2 * math.Log2(500./210), "beyond the scale"},
	} {
		sh := sheetOf(t, scaleKit, "3A: EV 12, ext "+c.ext+", 1/8 f22")
		if len(sh.Steps) != 1 || math.Abs(sh.Steps[0].Stops-c.want) > 1e-5 || !strings.Contains(sh.Steps[0].Detail, c.by) {
			t.Errorf("%s: %+v, want %.4f by the %s", c.ext, sh.Steps, c.want, c.by)
		}
	}
}

// A filter's value for a light that the writer names holds in that light; the
// longest name counts, and elsewhere the plain value does.
func TestFilterInNamedLight(t *testing.T) {
	for light, want := range map[string]float64{
		"open shade by the wall": math.Log2(10), "candle light": 2, "halogen lamps": math.Log2(5), "hazy sun": 3, "": 3, "shade": 3,
	} {
		line := "light: " + light + "\n3A: EV 12, R25, 1/8 f22"
		if light == "" {
			line = "3A: EV 12, R25, 1/8 f22"
		}
		sh := sheetOf(t, scaleKit, line)
		if len(sh.Steps) != 1 || math.Abs(sh.Steps[0].Stops-want) > 1e-5 {
			t.Errorf("in %q R25 costs %+v, want %.4f", light, sh.Steps, want)
		}
	}
}

// The film is told of development at long times as its maker's table has it
// (Kodak F-4017 as quoted by its readers: 20 % less at 10 s, 30 % at 100 s).
func TestDevelopmentAtLongTimes(t *testing.T) {
	for line, want := range map[string]string{
		"3A: metered 10s f16, 50s f16": "20 % less", "3A: metered 30s f16, 4m f16": "20 % less", "3A: metered 100s f16, 20m f16": "30 % less",
		"3A: metered 1/2 f16, 1/2 f16": "",
	} {
		sh := sheetOf(t, scaleKit, line)
		said := ""
		for _, f := range sh.Findings {
			if f.Code == "long-development" {
				said = f.Message
			}
		}
		if want == "" && said != "" || !strings.Contains(said, want) {
			t.Errorf("%s: %q, want %q", line, said, want)
		}
	}
}

// Apertures for a focus spread are those of the table of Q. T. Luong, How to
// select the f-stop (stop and tenths: 1 mm 16.6, 2 mm 22.6, 3 mm 32.2, 5 mm 32.9,
// 7 mm 45.4), to the third of a stop that a lens has. Near and far are 2/H = 1/near
// - 1/far by the definition of the hyperfocal distance.
func TestSharpness(t *testing.T) {
	for spread, want := range map[string]string{"1": "f/16⅔", "2": "f/22⅔", "3": "f/32", "5": "f/45", "7": "f/45⅓"} {
		sh := sheetOf(t, scaleKit, "3A: EV 12, focus spread "+spread+" mm, 1/8 f22")
		if len(sh.Sharpness) == 0 || sh.Sharpness[0].Value != "asks for "+want {
			t.Errorf("%s mm: %+v, want %s", spread, sh.Sharpness, want)
		}
	}
	// 1.6 m to 8 m wants H = 2/(1/1.6 - 1/8) = 4 m, and H = 210²/(0.1 N) mm gives
	// N = 110: f/90 and six tenths of a stop more.
	sh := sheetOf(t, scaleKit, "lens: 210\ncamera: field\n3A: EV 12, near 1.6 m, far 8 m, 1/8 f22")
	if len(sh.Sharpness) != 2 || !strings.Contains(sh.Sharpness[0].Value, "f/90⅔") && !strings.Contains(sh.Sharpness[0].Value, "f/90⅓") || !strings.Contains(sh.Sharpness[0].Value, "focused at 2.67 m") {
		t.Errorf("%+v", sh.Sharpness)
	}
	if sh := sheetOf(t, scaleKit, "3A: EV 12, near the gate, 1/8 f22"); len(sh.Sharpness) != 0 || sh.State != record.Right {
		t.Errorf("words about the gate are taken for an optic: %+v", sh)
	}
}
