package compile_test

import "testing"

// How a long time is written by head torch. By t^1.3 over 1 s, 20 s become 49.1 s
// (20^1.3); common practice in the words, no source.
func TestLongTimesAsTheyAreWritten(t *testing.T) {
	const kit = "film night: ISO 100, pan, reciprocity t^1.3 over 1s\nfilm table: ISO 100, reciprocity 60s=3m 120s=7m\nfilm: night\nmeter: 20s f16\n"
	for _, line := range []string{
		"f16, metered 20s, corrected 49s", "f16, 20s => 49s", "f16, 20s = 49s", "20s -> corrected 49s f16", "f16, 49s, from 22:10", "16:53, 20s -> 49s f16",
		"metered 60s f16, 60s -> 3m f16, film table", "metered 20m f16, f16 from 22:10 to 00:58", "f16 49s, waited 10 min", "f16, forty nine seconds",
		"f16 4 x 12s", "f16 20s+29s",
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != "right" || len(list) > 0 {
			t.Errorf("%s: %s, %v %v", line, sh.State, sh.Needs, list)
		}
	}
}
