package compile_test

import (
	"math"
	"strings"
	"testing"

	"notchbook/compile/record"
)

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

// Hours, minutes and seconds with a part, and their units as Germans and the French write them; of 9:30 h only the
// writer knows whether it is one of the day. What a sheet got follows from EV = log₂(N²/t) (ISO 2720).
func TestHoursAsTheyAreWritten(t *testing.T) {
	const kit = "film stone: ISO 100, EI 100, reciprocity none to 48h\nlens 12in: 12 in, f6.8-f64\nday: 1984-05-07\nfilm: stone\nlens: 12in\n"
	for seconds, all := range map[float64]string{
		30:    "1/2 min|½ mn|1/2 Min.|0:30 min",
		90:    "1:30|1:30 min|1:30 mn|1 1/2 mn|1-1/2 min",
		900:   "1/4 h|1/4 Std.|1/4 Stunde|¼ heure|0:15 h",
		1800:  "1/2 h|½h|1/2 Std.|1/2 Std|½ Stunde|1/2 heure|1/2 St.|0:30 h|00:30 h|00:30h|22:10 bis 22:40 Uhr",
		2700:  "3/4 h|3/4 heure|3/4 Std.|0:45 Std",
		3600:  "1 h|1 Std.|1 Stunde|1 heure|1 St.",
		5400:  "1 1/2h|1 1/2 h|1½ h|1½h|1-1/2 h|1 1/2hrs|1 1/2hours|1 1/2 hours|1 and a half hours|1 1/2 Std.|1 1/2 heure|1:30 h|1:30h|1:30 Std|1:30 Std.|1:30 hrs|1.5 h",
		7200:  "2 heures|2 Stunden|2 Std.",
		8100:  "2:15 h|2 1/4h",
		12600: "3 1/2h|3 1/2 h|3:30 h",
	} {
		ev := 2*math.Log2(16) - math.Log2(seconds)
		for said := range strings.SplitSeq(all, "|") {
			for _, line := range []string{"1A: f16, " + said, "1A: " + said + ", f16", "1A: f16  " + said, "1A:  Altar  " + said + "  f16"} {
				season, list := compileText(kit + "meter: EV 1\n" + line + "\n")
				if sh := season.Sheets[0]; !sh.Difference.Known || math.Abs(sh.Difference.Value-(1-ev)) > 0.02 {
					t.Errorf("%s: %s, %v, want %.2f; %v", line, sh.State, sh.Difference, 1-ev, list)
				}
			}
		}
	}
	for line, want := range map[string]record.State{
		"EV 9, f16, 1/2 St. Mary's": record.Right, "EV 9, f16 1/2, 9:30 Uhr": record.Right, "9:30h, EV 9, f16 1/2": record.Right, "EV 9, 12.30 Uhr, f16 1/2": record.Right,
		"EV 9, f16, 1/2, +1/2 st.": record.Unchecked, "EV 9, f16, 9:30 h": record.Unchecked, "EV 9, f16, 14:30 Uhr": record.Unchecked, "EV 9, f16, 1:30 h": record.Unchecked, "EV -2, f16, 1:30 h": record.Off,
	} {
		season, list := compileText(kit + "1A: " + line + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, want %s; %v", line, sh.State, want, list)
		}
	}
}
