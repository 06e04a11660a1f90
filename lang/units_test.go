package lang

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/alecthomas/participle/v2/lexer"
)

// Units and scales by their definitions, not by what the lexer holds of them.

// 1 in is 25.4 mm, 1 ft 12 in (ISO 80000-3:2019, annex B).
func TestLengthsByDefinition(t *testing.T) {
	for text, mm := range map[string]float64{
		"1 in": 25.4, `6"`: 6 * 25.4, "12 inches": 304.8, "1 inch": 25.4, "12ins": 304.8, "28 ins": 28 * 25.4, "1 ft": 12 * 25.4, "3 feet": 36 * 25.4, "1 1/2 ft": 18 * 25.4,
		"2.5 m": 2500, "1 metre": 0, "3 metres": 3000, "3 meters": 3000, "18 cm": 180, "210mm": 210, "0.5 ft": 6 * 25.4,
	} {
		end, got, ok := length(text, 0, true)
		if want := mm != 0; ok != want || ok && (math.Abs(got-mm) > 1e-9 || end != len(text)) {
			t.Errorf("%q is %g mm, %t, up to %d of %d", text, got, ok, end, len(text))
		}
	}
	// Where no distance is expected 1m is a minute.
	for _, text := range []string{"1 m", "2m"} {
		if _, mm, ok := length(text, 0, false); ok {
			t.Errorf("%q is a length of %g mm", text, mm)
		}
	}
}

// A speed of n degrees is S = 10^((n-1)/10), named by the nearest mark (ISO 6:1993;
// ISO 5800:1987 prints 100/21° and 400/27°).
func TestDegreesByDefinition(t *testing.T) {
	for n := 0; n <= 39; n++ {
		s, err := strconv.ParseFloat(fromDegrees(strconv.Itoa(n)), 64)
		if err != nil || math.Abs(1+10*math.Log10(s)-float64(n)) > 0.5 {
			t.Errorf("%d degrees are ISO %g, which is %.2f degrees, %v", n, s, 1+10*math.Log10(s), err)
		}
	}
	for text, want := range map[string]string{"21": "100", "27": "400", "18": "50", "15": "25", "24": "200", "0": "0.8", "39": "6400", "40": "", "-1": "", "": "", "x": ""} {
		if got := fromDegrees(text); got != want {
			t.Errorf("%q degrees are ISO %q, want %q", text, got, want)
		}
	}
}

// tokensIn writes the tokens of a text by their names in the grammar.
func tokensIn(text string, f field) string {
	names := map[lexer.TokenType]string{}
	for name, kind := range symbols {
		names[kind] = name
	}
	var all []string
	for _, token := range scanFolded(text, f, NewLexicon()).tokens {
		if token.Type != lexer.EOF {
			all = append(all, fmt.Sprintf("%s %s", names[token.Type], token.Value))
		}
	}
	return strings.Join(all, "; ")
}

// The notation says of each of these what it is; beside it stand those that look
// like it and are something else.
func TestTermsAreCutWhereTheyEnd(t *testing.T) {
	for _, c := range []struct {
		field      field
		text, want string
	}{
		{onSheet, "f12,5", "Aperture 12.5"}, // a decimal comma, and one between two terms
		{onSheet, "f8,2s", "Aperture 8; Comma ,; Time 2"},
		{onSheet, "1,5s", "Time 1.5"},
		{onSheet, "1:2.5", "Scale 1/2.5"}, // a ratio has one figure behind the colon, a time two
		{onSheet, "1:2,5", "Scale 1/2.5"},
		{onSheet, "1:3", "Scale 1/3"},
		{onSheet, "1:30", "Time 90"},
		{onSheet, "0:45", "Time 45"},
		{onSheet, "-2/3 stop", "Stops -2/3"},
		{onSheet, "+1", "Stops 1"},
		{onSheet, "2/3 of a stop", "Stops 2/3"},
		{onSheet, "8x", "Factor 8"},
		{onSheet, "R25x8", "Filter R25; Factor 8"},
		{onSheet, "R25 x2+1/2", "Filter R25; Factor 2+1/2"}, {onSheet, "R25 1+1/2x", "Filter R25; Factor 1+1/2"}, // as folded
		{onSheet, "R25 = 8x", "Filter R25; Factor 8"}, {onSheet, "R25 = +3", "Filter R25; Stops 3"}, {onSheet, "R25, x8", "Filter R25; Factor 8"}, {onSheet, "R25, X8", "Filter R25; Factor 8"},
		{onFilter, "Wratten 8, X2", "Filter Wratten 8; Comma ,; Factor 2"}, {onSheet, "X1, X2", "Filter X1; Comma ,; Filter X2"},
		{onSheet, "R25, factor of 8, 1/8 f16", "Filter R25; Factor 8; Comma ,; Time 1/8; Aperture 16"}, {onSheet, "R25 factor 8x", "Filter R25; Factor 8"},
		{onSheet, "R25 8x 1/8 f16", "Filter R25; Factor 8; Time 1/8; Aperture 16"}, {onSheet, "8x 1s f16", "Count 8; Time 1; Aperture 16"},
		{onSheet, "R25 [+3]", "Filter R25; Open (; Stops 3; Close )"}, {onSheet, "R25 1-1/2 stops", "Filter R25; Stops 1+1/2"}, {onSheet, "1-1/2 sec", "Time 1.5"},
		{onSheet, "1/8 f22 1/3", "Time 1/8; Aperture 22+1/3"}, {onSheet, "f22 1/3 s", "Aperture 22; Time 1/3"}, {onSheet, "f22 + 2/3", "Aperture 22+2/3"},
		{onSheet, "1/8 f16 1/2", "Time 1/8; Aperture 16; Time 1/2"}, {onSheet, "between f16 and f22", "Aperture 16/22"}, {onSheet, "between 16 & 22", "Aperture 16/22"},
		{onSheet, "between 11 and 22", "Word between; Number 11; Word and; Number 22"},
		{onSheet, "bellows factor x2", "Bellows bellows; Factor 2"}, {onSheet, "extension factor 2", "Bellows bellows; Factor 2"}, {onSheet, "Auszug 300 mm", "Ext 300"}, {onSheet, "300 mm Auszug", "Ext 300"}, {onSheet, "tirage 30 cm", "Ext 300"}, {onSheet, "bellows out to 300 mm", "Ext 300"},
		{onSheet, "racked out to 30cm", "Ext 300"}, {onSheet, "1.5:1, f16", "Scale 1.5/1; Comma ,; Aperture 16"},
		{onSheet, "300 on the rail", "Ext 300"}, {onSheet, "standard at 300", "Ext 300"}, {onSheet, "extended to 300 f16", "Ext 300; Aperture 16"}, {onSheet, "standard 300 lens", "Word standard; Choose lens 300"}, {onSheet, "pulled out to 300", "Ext 300"}, {onSheet, "pulled to 200", "Word pulled; Word to; Number 200"},
		{onSheet, "bellows scale 300", "Ext 300"}, {onSheet, "ext about 300", "Ext 300"}, {onSheet, "drawn to twelve inches", "Ext 304.8"},
		{onSheet, "a life-size bronze, f16", "Word a; Word life-size; Word bronze; Comma ,; Aperture 16"},
		{onSheet, "R25 factor 1+1/2", "Filter R25; Factor 1+1/2"}, {onFilter, "tungsten x2+1/2", "Class tungsten; Factor 2+1/2"},
		{onSheet, "15th", "Time 1/15"},
		{onSheet, "4th try", "Word 4th; Word try"},
		{onSheet, "20s+17s", "Time 20; Plus +; Time 17"},
		{onSheet, "2\"", "Time 2"},
		{onSheet, "~f11", "About ~; Aperture 11"},
		{onSheet, "~ 1/30", "About ~; Time 1/30"},
		{onSheet, "~f/11", "About ~; Aperture 11"},
		{onSheet, "~~f8~~", "Strike ~~; Aperture 8; Strike ~~"},
		{onSheet, "2s -- no, 4s", "Time 2; No no wait; Time 4"},
		{onSheet, "2s (sorry, 4s)", "Time 2; No no wait; Time 4; Comma ,"},
		{onSheet, "2s -- rather 4s would do", "Time 2; Remark --"},
		{onSheet, "f16.", "Aperture 16; Comma ,"},
		{onSheet, "f16!", "Aperture 16; Comma ,"},
		{onSheet, "12.5 lux s", "Lux 12.5"},
		{onSheet, "on III", "Zone 3"},
		{onSheet, "z3", "Zone 3"},
		{onSheet, "zone III+1/2", "Zone 3+1/2"},
		{onSheet, "12 EV", "EV 12"},
		{onSheet, "12 on V", "EV 12; Zone 5"},
		{onSheet, "ND 0.9", "Filter ND 0.9"},
		{onSheet, "ND 0.3+0.6", "Filter ND 0.3; Plus +; Filter ND 0.6"}, {onSheet, "ND .3 + .6, 1s@22", "Filter ND .3; Plus +; Filter ND .6; Comma ,; Time 1; At @; Aperture 22"},
		{onSheet, "ND 0.9+0.3 stop", "Filter ND 0.9; Stops 0.3"}, {onSheet, "ND 0.9 +1", "Filter ND 0.9; Stops 1"},
		{onSheet, "yellow 8 secs f32", "Filter yellow; Time 8; Aperture 32"}, {onSheet, "yellow 8 f32", "Filter yellow 8; Aperture 32"}, {onSheet, "grad 2 min", "Filter grad; Time 120"},
		{onSheet, "EV 2 below zero", "EV -2"}, {onSheet, "EV 2 below the wall", "EV 2; Word below; Word the; Word wall"},
		{onSheet, "f16: 4s", "Aperture 16; Comma ,; Time 4"}, {onSheet, "1m20s/4m15s", "Word 1m20s/4m15s"},
		{onSheet, "4 times 64s", "Count 4; Time 64"}, {onSheet, "3 exp of 1m25", "Count 3; Time 85"},
		{onSheet, "bellows out to 300, 1/4 f16", "Ext 300; Comma ,; Time 1/4; Aperture 16"}, {onSheet, "racked out to 300", "Ext 300"},
		{onSheet, "half past nine to 21:35", "Clock 21:30-21:35"}, {onSheet, "half past nine to 9:40", "Clock 09:30-09:40?"}, {onSheet, "quarter to twelve to 0:05", "Clock 23:45-00:05"}, {onSheet, "start 23:58 stop 0:02", "Clock 23:58-00:02"},
		{onSheet, "22:30 - 0:58, f8", "Clock 22:30-00:58; Comma ,; Aperture 8"}, {onSheet, "2:30 - 0:58, f8", "Clock 02:30-00:58?; Comma ,; Aperture 8"},
		{onSheet, "9m52 sorry 4m15", "Time 592; No no wait; Time 255"}, {onSheet, "f22+1/2, hmm no f22", "Aperture 22+1/2; Comma ,; No no wait; Aperture 22"},
		{onSheet, "f8, sorry 4m15", "Aperture 8; Comma ,; Word sorry; Time 255"}, {onSheet, "4s, oops 2 clouds", "Time 4; Comma ,; Word oops; Number 2; Word clouds"},
		{onSheet, "read through it 1/8 f22", "Cue metered through; Time 1/8; Aperture 22"}, {onSheet, "reading through the Y8 1/8", "Cue metered through; Filter Y8; Time 1/8"},
		{onSheet, "read through the gap 1/8", "Cue metered; Word through; Word the; Word gap; Time 1/8"},
		{onSheet, "grad .6", "Filter grad .6"},
		{onDevelop, "20C", "Degrees 20"},
		{onDevelop, "68F", "Degrees 20"}, // 68 °F are 20 °C by definition
		{onDevelop, "50 °F", "Degrees 10"},
		{onDevelop, "1+31", "Dilution 1+31"},
		{onDevelop, "1:31", "Dilution 1+31"},
		{onDevelop, "1+1+100", "Dilution 1+1+100"},
		{onDevelop, "2:31", "Time 151"},
		{onDevelop, "2026-11-09", "Date 2026-11-09"}, {onDevelop, "2026-11-9", "Day 2026-11-9"},
		{onDevelop, "9 Nov", "Day 9 Nov"},
		{onDevelop, "9th November 2026", "Day 9th November 2026"},
		{onDevelop, "9 sept", "Day 9 sept"},
		{onDevelop, "9 may 1", "Day 9 may; Number 1"},
		{onDevelop, "7/11", "Day 7/11"},
		{onDevelop, "7.11.26", "Day 7.11.26"},
		{onDevelop, "7.11", "Number 7.11"}, // may be a number
		{onDevelop, "111/11", "Number 111/11"},
		{onFilm, "21 DIN", "ISO 100"},
		{onFilm, "DIN 21", "ISO 100"},
		{onFilm, "21° DIN", "ISO 100"},
		{onFilm, "DIN 21/10", "ISO 100"},
		{onFilm, "ISO 100/21", "ISO 100"},
		{onFilm, "20 %", "Percent 20"},
		{onFilm, "20 percent", "Percent 20"},
		{onLens, "f8-f45", "Aperture 8; Dash -; Aperture 45"},
		{onLens, "f8 - 45", "Aperture 8; Dash -; Aperture 45"},
		{onLens, "1s-1/500", "Time 1; Dash -; Time 1/500"},
		{onLens, "f8 -- f45", "Aperture 8; Dash -; Aperture 45"},
		{onShutter, "17.1 17.4 ms", "Milli 17.1/1000; Milli 17.4/1000"},
		{onShutter, "1/2 = 0.52 0.53 s", "Time 1/2; Equals =; Milli 0.52; Milli 0.53"},
		{onShutter, "1/2 measured 0.5 s, 1/4 measured 0.26 s", "Time 1/2; Measured measured; Milli 0.5; Comma ,; Time 1/4; Measured measured; Milli 0.26"},
	} {
		if got := tokensIn(c.text, c.field); got != c.want {
			t.Errorf("%q is %q, want %q", c.text, got, c.want)
		}
	}
}
