package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// nightKit is a film and a reading by which 12 minutes at f/8 are right: 1 s at f/2.8 and
// ISO 6400 is 1 s × 2³ × 6400/320 = 160 s at f/8 and EI 320 (ISO 2720:1974, exposure
// equation), and by the film's rule 160^1.3 = 733 s, 12 min 13 s.
const nightKit = "film tarn: ISO 400, EI 320, pan, reciprocity t^1.3\nfilm: tarn\nmeter: 1s f2.8 at ISO 6400\n"

// Each line says by its own words that the shutter was open for 12 minutes, by what elapsed
// between two hours of the clock (ISO 8601, over midnight where need be) or less the time
// for which the lens was covered. Read with any other figure of theirs the sheet would be off.
func TestHowLongTheShutterWasOpen(t *testing.T) {
	for line := range strings.Lines(`from 23:58 to 0:10
from 0:40 to 0:52
from 9:40pm to 9:52pm
from 9:40 to 9:52pm
from 11:50pm to 12:02am
from 2340h to 2352h
from 2358h to 0010h
23h55 to 00h07
from 2355 to 0007
between 23:55 and 00:07
open 23:55, closed 00:07
opened 23:22 closed 23:34
23:55 – 00:07
23:55–00:07
23:55 - 00:07
at 23:55-00:07
from 23:55:30 to 00:07:30
from 23:48 to midnight
from 23:55 to midnight and from 00:03 to 00:10
from 23:55? to 00:07
from 00:35 to 01:00, minus 13 min for cars
from 00:35 to 01:00, less 13 min (cars)
25m - 13m
25m – 13m
25m-13m
25 min less 13 min
25m, hat over lens for 13m
25m30, dark cloth over lens 13m30
25m, 13m covered
25m, lens capped 13 min
from 00:35 to 01:00, covered from 00:40 to 00:53
from 23:55 to 00:07, torch 20s from the left
12m, torch 20s
torch 20s, 12m
12m, clouds from 2 min
12m, moon hidden 3 min
12m, dew from 8m on
12m, waited 40 min
5m+4m+3m
12m, 4 cars
12m, behind the 2 larches
12m 4 cars passed
from 23:55 to 00:07, 3 sheep
half past nine to 21:42
21:14 on, 21:26 off
21:14→21:26
21:14 to :26
23:58 to 24:10
0:12:00
21:14-21:32, lens capped 21:15-21:18 and 21:20-21:23
21:14-21:26, 12m
start 23:58 stop 0:10
23h58 to 0h10
25m sorry 12m
25m, I mean 12m
25m hmm no 12m
12m, next time 20 min
160s metered, 12m actual
160s asked, gave 12m
25m total, 12m open
160s but 12m with the long time thing
3 times 4m
21:14-21:26 = 12m
21:14-21:26 (12 min)
21:14-21:26 (12 min, owl)
21:14-21:26 -- about 12 min
21:14-21:26 -- 12 min
21:14-21:26 (20 min walk back)
21:14-21:26, N-1 (9 min)
21:14-21:32 (18 min), hat over lens 6 min
21:14-21:32, hat over lens 6 min (12 min)
12m (from 21:14 to 23:59, with two others)
12m, 01:55-01:07, clock put back an hour
21:14-21:26, watch the back gate
21:14-21:26, the church clock struck an hour
160s + reciprocity = 12m
160s with reciprocity = 12m
160s, reciprocity = 12m
160s +reciprocity → 12m
160s + rec = 12m
metered 160s + reciprocity = 12m
12m incl reciprocity
180s four times
180s 4 times
3m thrice
twice 6m
6m twice
four times 3m
four exposures of 3m each
4 exposures, 3m each
exposed four times, 3m each
4 pops of 3m
12m, walked round it four times
12m twice round the barn
12m, 2 exposures so far
12m, gate 12'
160s corrected 12m13s
160s, corrected 12m13s
metered 1s f2.8 ISO 6400, gave 12m
metered 1s f2.8 (ISO 6400), gave 12m
twelve minutes
`) {
		line = strings.TrimSpace(line)
		season, list := compileText(nightKit + "1A: 2s f8 -- only to try\n2B: f8, " + line + "\n")
		if sh := season.Sheets[1]; sh.State != "right" || len(list) > 1 || list[0].Code != "exposure-off" {
			t.Errorf("%s: %s, %v %v", line, sh.State, sh.Needs, list)
		}
	}
}

// What cannot be read for sure of how long a shutter was open is no time of the sheet
// before, and no figure that may be another: the sheet is unchecked and says what is missing.
func TestUnsureHoursAreUnchecked(t *testing.T) {
	for _, c := range [][2]string{
		{"from 23:55", "closed"}, {"closed 00:07", "opened"}, {"0:40 - 0:52", "minutes and seconds"},
		{"from 11:55 to 0:07", "am, pm"}, {"from 23:55 to 23:55", "am, pm"}, {"torch 20s", "torch"},
		{"40m, hat over lens now and then", "covered"}, {"40m -- hat over the lens for cars", "covered"},
		{"40m, hat over lens from 2m to 5m", "covered"}, {"3m - 12m", "taken off"}, {"a few minutes", "minutes"}, {"most of an hour", "hour"},
		{"12m, covered for cars", "covered"}, {"12m covered for cars", "covered"}, {"80s/12m", "80s/12m"}, {"1m20s/12m", "1m20s/12m"}, {"metered 160s f8, 80s/12m", "80s/12m"},
		{"21:14-21:32, capped three times 2 min", "covered"}, {"21:14-21:32, closed 21:16, opened 21:22", "covered"}, {"from 21:14 to 21:32, 6 min of it capped", "covered"},
		{"21:14-21:32, 3 cars, 2 min each capped", "covered"}, {"21:14-21:32, capped 4 times, 6 min together", "6 min"}, {"12m, 21:14-21:32", "which time"},
		{"half past nine to 9:42", "minutes and seconds"},
		{"12m, ISO 6400", "index"},
		{"12m + reciprocity", "comes to"}, {"160s, reciprocity 12m", "two times"}, {"four 3m exposures", "how much light"}, {"3m, 4 exposures", "how much light"}, {"3m, four times", "how much light"},
		{"12'", "minutes or feet"}, {"12′", "minutes or feet"}, {"1'30", "minutes or feet"},
		{"21:14-21:26 = 18m", "which time"}, {"21:14-21:26 (18 min)", "which time"}, {"21:14-21:26 (6m total)", "which time"}, {"21:14-21:26 (six minutes)", "which time"},
		{"12m (21:14-21:32)", "which time"}, {"12m -- 21:14-21:18", "which time"}, {"21:14-21:26 -- 18 min", "which time"}, {"open 21:14, closed 21:26 (6 min by my watch)", "which time"},
		{"21:14-21:26, clock put back an hour", "clock put back"}, {"from 01:50 to 01:02 (clocks went back)", "clocks went back"}, {"23:58-0:10, clocks changed at one", "clocks changed"},
		{"01:55-02:07\nClocks put back an hour at two.", "Clocks put back"},
	} {
		season, _ := compileText(nightKit + "1A: 12m f8\n2B: f8, " + c[0] + "\n")
		if sh := season.Sheets[1]; sh.State != "unchecked" || len(sh.Needs) != 1 || !strings.Contains(sh.Needs[0], c[1]) {
			t.Errorf("%s: %s, %q", c[0], sh.State, sh.Needs)
		}
	}
}

// An amendment settles what the sheet's own line left open, and the slip is no error any more.
func TestAmendmentsSettleTheTime(t *testing.T) {
	for _, c := range [][2]string{
		{"25m 12m f8", "12m not 25m"}, {"12m 25m f8", "12m not 25m"}, {"f8, 25m, 24m", "from 23:20 to 23:32"}, {"f8, open 23:20", "from 23:20 to 23:32"}, {"f8 a few minutes", "12m"},
		{"f8 12'", "12m"}, {"f8, 21:14-21:26 = 18m", "12m"}, {"f8, 01:55-02:07\nClocks put back at two.\n", "12m"}, {"12m f8, f16", "f8 not f16"}, {"f8 25m", "minus 13 min"},
	} {
		season, list := compileText(nightKit + "1A: " + c[0] + "\namend 1A: " + c[1] + "\n")
		if sh := season.Sheets[0]; sh.State != "right" || list.Count(diag.Error)+list.Count(diag.Warning) > 0 {
			t.Errorf("%s, %s: %s, %v %v", c[0], c[1], sh.State, sh.Needs, list)
		}
	}
}

// What is not what the reading asked for is said to be so, with what was given by the words of its line: 60 s four times are
// 240 s at most of the 733 s.
func TestTimesOfSeveralExposuresAreBlamed(t *testing.T) {
	for line, text := range map[string]string{"60s + reciprocity = 4m": "4m", "60s four times": "4 × 1m", "four exposures of 1m each": "4 × 1m", "4 exposures, 1m each": "4 × 1m"} {
		season, list := compileText(nightKit + "1A: f8, " + line + "\n")
		if sh := season.Sheets[0]; sh.State != record.Off || sh.Given.Time != text {
			t.Errorf("%s: %s, %q, %v", line, sh.State, sh.Given.Time, list)
		}
	}
}

// A table ends at its last entry: what lies beyond is not reckoned, and the settings that
// are blamed are no answer. 60 s metered at f/5.6 asks for 240 s at f/11 (two stops), beyond
// a table that ends at 100 s.
func TestRightSettingsBeyondTheTable(t *testing.T) {
	_, list := compileText("film tarn: ISO 400, reciprocity 10s=30s 100s=10m\nfilm: tarn\nlens 300: 300 mm, f11-f64\nlens: 300\nmeter: 60s f5.6\n1A: 10m f11\n")
	for _, d := range list {
		for _, note := range d.Notes {
			if strings.Contains(note.Text, "beyond the last entry") {
				return
			}
		}
	}
	t.Errorf("it is not said that the answer lies beyond the table: %v", list)
}

// A shutter that was held open has a time of its own: none is carried to it.
func TestNoTimeIsCarriedToAShutterHeldOpen(t *testing.T) {
	for _, given := range []string{"f16 B", "f16, T, four minutes", "f16 B4m", "f16 T(4 min)"} {
		season, _ := compileText(checksKit + "meter: 1/60 f16\n1A: slate, 1/60 f16\n1B: slate, " + given + "\n2A: slate, metered 1/8 f16, " + given + "\n")
		for _, sh := range season.Sheets[1:] {
			if sh.State != record.Unchecked {
				t.Errorf("%s: %s is %s", given, sh.Label, sh.State)
			}
		}
	}
}
