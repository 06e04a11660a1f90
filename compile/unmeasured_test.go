package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Light that was added by hand is in no reading: a sheet is neither blamed nor called right for
// it, in whatever words; where they say that there was none, it is checked. At ISO 100 EV 0 asks
// for 128 s at f/11, 2^0 = 11.3²/128 (ISO 2720:1974), and 30 s are two stops too little.
func TestLightAddedByHand(t *testing.T) {
	for words, want := range map[string]record.State{
		", flash by hand":                             record.Unchecked,
		", 3 flashes by hand on the gable":            record.Unchecked,
		", three flashes":                             record.Unchecked,
		", some flashes":                              record.Unchecked,
		", flash 2s":                                  record.Unchecked,
		", painted with light":                        record.Unchecked,
		", light painting":                            record.Unchecked,
		", lit with a torch for 20 s":                 record.Unchecked,
		", torch 20s":                                 record.Unchecked,
		", magnesium":                                 record.Unchecked,
		", 3 Blitze":                                  record.Unchecked,
		", deux éclairs":                              record.Unchecked,
		" (3 flashes)":                                record.Unchecked,
		" -- two flashes from the left":               record.Unchecked,
		", no second flash":                           record.Unchecked,
		", no flash at first, then two flashes":       record.Unchecked,
		", no flash meter":                            record.Unchecked,
		", flash failed once":                         record.Unchecked,
		", studio heads":                              record.Unchecked,
		", monobloc at half power":                    record.Unchecked,
		", ringflash":                                 record.Unchecked,
		", ring flash":                                record.Unchecked,
		", speedlight left":                           record.Unchecked,
		", one pop":                                   record.Unchecked,
		", Studioblitz":                               record.Unchecked,
		" -- with flash":                              record.Unchecked,
		" -- a touch of flash from the left":          record.Unchecked,
		" -- mit Blitz von links":                     record.Unchecked,
		", a flash of sun":                            record.Off,
		" -- a flash of lightning":                    record.Off,
		" -- the water flashing":                      record.Off,
		" -- Blitz am Horizont":                       record.Off,
		" -- flash flood on the road":                 record.Off,
		", no flash":                                  record.Off,
		", without flash":                             record.Off,
		", flash failed":                              record.Off,
		", flash did not fire":                        record.Off,
		", ohne Blitz":                                record.Off,
		", torch left at home":                        record.Off,
		", hut éclairée":                              record.Off,
		", painted gate lit by the lamp":              record.Off,
		", tried for the light on the painted boards": record.Off,
	} {
		season, _ := compileText("film dull: ISO 100, reciprocity none to 1h\nmeter spot: EV at 100\nload 1A-1B: dull\n1A: EV 0, f11, 30s" + words + "\n1B: EV 0, f11, 128s" + words + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s %v, want %s", words, sh.State, sh.Needs, want)
		}
		if sh := season.Sheets[1]; (want == record.Off) != (sh.State == record.Right) && strings.Contains(words, " -- ") || want == record.Off && (sh.State != record.Right || sh.Flash) {
			t.Errorf("%s, rightly exposed: %s %v", words, sh.State, sh.Needs)
		}
	}
}

// A softbox and a power are those of a flash or of lamps that burn: who is wrong by the reading is asked
// whether a flash lit the sheet, and who is right is right.
func TestWhatMayBeAFlash(t *testing.T) {
	for words, want := range map[string]record.State{
		", softbox": record.Unchecked, ", two softboxes, full power": record.Unchecked, " -- full power": record.Unchecked, ", softbox left": record.Unchecked,
		", no softbox": record.Off, ", full power station": record.Off, ", box of softwood": record.Off, ", full of power lines": record.Off,
	} {
		season, _ := compileText("film dull: ISO 100, reciprocity none to 1h\nmeter spot: EV at 100\nload 1A-1B: dull\n1A: EV 0, f32, 30s" + words + "\n1B: EV 0, f11, 128s" + words + "\n")
		if a, b := season.Sheets[0], season.Sheets[1]; a.State != want || b.State != record.Right {
			t.Errorf("%s: %s %v and %s %v, want %s", words, a.State, a.Needs, b.State, b.Needs, want)
		}
	}
}
