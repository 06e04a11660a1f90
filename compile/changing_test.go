package compile_test

import (
	"testing"

	"notchbook/compile/record"
)

// Light that changed after it was metered makes the reading hold no longer: a sheet is not
// blamed for having followed it, and is for having gone against it. With an amount it is
// reckoned with (one stop less light is twice the exposure: ISO 2720).
func TestLightThatChanged(t *testing.T) {
	for notes, want := range map[string]record.State{
		"1A: 1/8 f16":                                        record.Off,
		"1A: 1/8 f16, light dropped a stop":                  record.Right,
		"1A: 1/8 f16, light fell 1 stop during the exposure": record.Unchecked,
		"1A: 1/8 f16, light falling 1 stop while open":       record.Unchecked,
		"1A: 1/8 f16, light -1":                              record.Right,
		"1A: 1/8 f16, 1 stop less light":                     record.Right,
		"1A: 1/15 f16, light fell 1 stop":                    record.Off,
		"1A: 1/8 f16, light fading fast":                     record.Unchecked,
		"1A: 1/8 f16 (lost a stop of light)":                 record.Unchecked,
		"1A: 1/8 f16 -- sun went in":                         record.Unchecked,
		"1A: 1/30 f16 -- sun went in":                        record.Off,
		"1A: 1/30 f16, sun came out":                         record.Unchecked,
		"1A: 1/8 f16, sun behind the barn":                   record.Off,
		"1A: metered 1/15 f16, 1/8 f16, light going":         record.Unchecked,
		"1A: light going, metered 1/15 f16, 1/8 f16":         record.Off,
		"1A: metered 1/15 f16, 1/30 f16, light going":        record.Off,
		"1A: 1/8 f16, moon went in":                          record.Unchecked,
		"1A: 1/8 f16, cloud over the moon":                   record.Unchecked,
		"1A: 1/8 f16, lamps went off":                        record.Unchecked,
		"1A: 1/30 f16, lamps went on":                        record.Unchecked,
		"1A: 1/30 f16, moon came out":                        record.Unchecked,
		"1A: 1/30 f16, dawn coming":                          record.Unchecked,
		"1A: 1/30 f16, getting light":                        record.Unchecked,
		"1A: 1/8 f16, dawn coming":                           record.Off,
		"1A: 1/8 f16, moon over the mole":                    record.Off,
		"The sun went in.\n\n1A: 1/8 f16":                    record.Unchecked,
		"The sun went in.\n\nmeter: 1/15 f16\n1A: 1/8 f16":   record.Off,
		"The sun went in.\n\n1A: 1/15 f16":                   record.Right,
	} {
		season, _ := compileText("film curlew: EI 50\n\nday: 2026-11-07\nfilm: curlew\nmeter: 1/15 f16\n\n" + notes + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, want %s", notes, sh.State, want)
		}
	}
}
