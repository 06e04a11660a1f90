package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// What a line comes to whose words name filters, parts of stops or slips as thumbs type them (common practice, no source). A
// stop is a factor of two (ISO 2720 has EV = log₂(N²/t)), the kit's filters cost 1, 3 and 1½.
func TestWordsOfASheetsOwnLine(t *testing.T) {
	const kit = "filter yellow: x2\nfilter red: x8\nfilter green: x4\nfilter pol: 1.5 stops\nfilter N.D. 3: x8\nmeter: 1/8 f16\n1A: red 1s f16\n1B: "
	for said, want := range map[string]record.State{
		// of two filters with words of regret between them the last is on
		"yellow wait no red, 1s f16|yellow er no red, 1s f16|yellow, wait no, red, 1s f16|yellow sorry red 1s f16|yellow make that red 1s f16|yellow no red 1s f16": record.Right,
		"red wait no yellow, 1s f16|1/8 wait no 1/15 f16": record.Off,
		// of others with words beside them each may be
		"yellow, wait, no, red 1s f16|yellow, red I mean, 1s f16|red, better than yellow, 1s f16|red cos yellow too weak, 1s f16|1/8 f16 before yellow|yellow then pol 1/8 f16|yellow then pol 1/4 f16": record.Unchecked,
		// among signs, joined, in plural, cut short
		"yellow/pol 1/8 f16|yellow-pol 1/8 f16|1/8 f16 'yellow'|1/8 f16 {yellow}|1/8 f16 yellow✅|1/8 f16 ...yellow|1/8 f16 yellows|1/8 f16 ylw|1/8 f16 grn|1/8 f16 withyellow|1/8 f16 yellowx2|1/8 f16, 2 yellows|grn 1/8 f16|1/8 f16 rd|1/8 f16 N.D.|" +
			"1/8 f16 red's on|two yellows, 1/2 f16|two yellows, 1/8 f16|w/yell, 1/8 f16|1/2 f16 two yellows": record.Unchecked,
		"1/4 f16 yellow✅|1/4✅ f16 ✅yellow|w/yellow 1/4 f16|1/4 f16 w/ yellow|w/red, 1s f16|w/o filter 1/8 f16|1/8 w/f16|stones w/moss, 1/8 f16|the yellows of the gorse, 1/8 f16|grn door of the mill, 1/8 f16": record.Right,
		"1/8 f16 w/yellow|1/8 f16 w yellow|1/8 f16 w/ pol": record.Off,
		// no filter on a copy
		"same w nowt on 1/8|same w nowt on|same plain 1/8|same plain|same w nowt on, 1/8": record.Unchecked,
		"as b4|as b4, N": record.Right,
		// parts of a stop behind an aperture
		"f16 n a half, 1/6|f16 and half, 1/6|f16 & a half 1/6|f16 and a third 1/6": record.Right,
		"f16 n a half 1/8|f16 and half, 1/8":                                       record.Off,
		"f16 plus two thirds 1/8|f16 plus two thirds, 1/5|f16 stopped down one, 1/8|f16 stopped down one 1/4|f16 down a bit, 1/8|1/8 f16, one down|f16 half, 1/8|1/8 f16 two thirds|f16 -half, 1/8|f16 point five 1/8|f16 (22), 1/8|f16 '22' 1/8|1/8 f16, 22 really": record.Unchecked,
		"1/6 f16½ bit less|1/8 f16, third|f16 not 22, 1/8|f16 (16), 1/8|1/8 f16 (2)|1/8 f16, half in shade|1/8 f16, one more swan|1/8 f16 down by the river|f16 over the bridge 1/8|f16 and half in shade 1/8":                                                       record.Right,
		// a time before a stop that is told
		"f16 1/4 a stop over|f16 1/8 a stop over": record.Unchecked,
		// no light
		"1/8 f16 shutter didnt fire|1/8 f16 shutter jammed|1/8 f16 misfire|1/8 f16, misfire|1/8 f16 -- shutter wouldnt trip": record.Unchecked,
		"1/8 f16, no misfire this time": record.Right,
	} {
		for line := range strings.SplitSeq(said, "|") {
			season, list := compileText(kit + line + "\n")
			if got := season.Sheets[1].State; got != want {
				t.Errorf("%s: %s, want %s: %v", line, got, want, list)
			}
		}
	}
}

// A number that a remark says is by the film's rule may be what was given.
func TestANumberByTheRuleIsAskedAbout(t *testing.T) {
	for line := range strings.SplitSeq("f16 16s (37 w recip)|f16 16s -- 37 w/ recip|f16 16s (recip 37)|f16 16s (corrected to 37)|f16 16s (37 with the reciprocity)", "|") {
		season, list := compileText("film dun: ISO 100, reciprocity t^1.3 over 1s\nload 1A: dun\nmeter: 16s f16\n1A: " + line + "\n")
		if got := season.Sheets[0].State; got != record.Unchecked {
			t.Errorf("%s: %s: %v", line, got, list)
		}
	}
}

// A zone and a light value with the half of one, as it is typed in haste: EV 9½ on III asks for 3½ stops less than EV 9½ on V.
func TestHalvesOfReadingsInHaste(t *testing.T) {
	for line, want := range map[string]float64{"door 9 n a half on III": 0.5, "door 9 and half on III": 0.5, "door 9 on 3 n a half": -0.5, "door 9 on III and a half": -0.5} {
		season, list := compileText("film dun: ISO 100\nmeter spot: EV at 100\nload 1A: dun\nmeter: " + line + "\n1A: f16 1/8\n")
		if got := season.Sheets[0].Difference.Value; got < want-0.02 || got > want+0.02 {
			t.Errorf("%s: %v, want %v: %v", line, got, want, list)
		}
	}
}

// A line that names another lens or film than its sheet's and says nothing else is asked about where it matters, whatever signs
// stand around the name. With 300 mm of bellows the lenses differ by a stop (2 log₂ 210/150 = 0.97), the films by two.
func TestThingsNamedOnASheetsOwnLine(t *testing.T) {
	for _, c := range []struct {
		kit, settings, said string
		want                record.State
	}{
		{"lens 150: 150 mm\nlens 210: 210 mm\nlens plasmat: 210 mm\nlens: 150\nmeter: 1/8 f16\n", "1/2 f16 bellows 300",
			"{210}|'210'|w/210|210✅|(210)|(lens 210)|{plasmat}|the plasmat|plasmat!|w/plasmat|...plasmat|with the plasmat|swapped to plasmat|-- plasmat", record.Unchecked},
		{"lens 150: 150 mm\nlens 210: 210 mm\nlens plasmat: 210 mm\nlens: 150\nmeter: 1/8 f16\n", "1/2 f16 bellows 300",
			"not the plasmat|the plasmat stayed at home|{150}|w/150|a plasmat would do", record.Right},
		{"lens 150: 150 mm\nlens plasmat: 210 mm\nlens: 150\nmeter: 1/8 f16\n", "1/4 f16 bellows 300", "w/plasmat|plasmat!|the plasmat now", record.Unchecked},
		{"film dun: ISO 100\nfilm flint: ISO 400\nmeter spot: EV at 100\nload 1A: dun\nmeter: ev 11\n", "1/8 f16",
			"{flint}|flint!|w/flint|the flint|flint this time|still flint|flint sheet|Flint…", record.Unchecked},
		{"film dun: ISO 100\nfilm flint: ISO 400\nmeter spot: EV at 100\nload 1A: dun\nmeter: ev 11\n", "1/8 f16", "not flint|the flint wall|a dun cow|flint next time", record.Right},
	} {
		for said := range strings.SplitSeq(c.said, "|") {
			season, list := compileText(c.kit + "1A: " + c.settings + " " + said + "\n")
			if got := season.Sheets[0].State; got != c.want {
				t.Errorf("%s: %s, want %s: %v", said, got, c.want, list)
			}
		}
	}
}
