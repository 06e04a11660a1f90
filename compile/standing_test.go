package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// What prose says in a few words of several sheets leaves them open, above it and below; most prose tells
// of subjects, or says what the log lines say.
func TestProseThatHoldsForSheets(t *testing.T) {
	const kit = "film tern: EI 80, pan\nlens 210: 210 mm\nfilter Y8: yellow, x2\nfilter R25: red, x8\nload 1A-9B: tern\nday: 2026-06-01\nlens: 210\nscene: one\nmeter: EV 9\n"
	check := func(above, prose, below string) (string, any) {
		season, list := compileText(kit + above + "1A: " + "f16 1/2\n" + prose + "\n1B: " + below + "f16 1/2\n")
		return string(season.Sheets[0].State) + ", " + string(season.Sheets[1].State), list
	}
	for want, all := range map[string]string{
		"unchecked, unchecked": "Filter Y8 throughout|All through the yellow filter.|Forgot to say: Y8 was on.|The meter had been at ISO 320 all morning.|Bellows for these: 297|ext 297 throughout|" +
			"Objektiv: 150   Filter Y8|All of these with the R25.|I forgot to mention that the Y8 was on.|NB: meter was set to EI 320 all day|R25 on all of them",
		"right, unchecked": "Y8 on for the rest|From here on Y8|Rest of the day Y8|bellows out to 29 for the next|With Y8:|through the R25 filter:",
		"unchecked, right": "1A amended: f22|Last one: should read f22.|The last one was really 1 s.",
		"right, right": "Bellows packed for the next|With luck:|Rest of the day red with cold|Yellow leaves all through the wood.|The R25 stayed in the bag all day.|Should have used the Y8 throughout.|Carried the R25 all day for nothing.|Would have liked the Y8 for the rest.|" +
			"The meter was at EI 80 all day.|Everything on the yellow side is in shade.|The last one should be better.|Last one: the gate was shut.|The bellows leaked all morning.|Mist all morning, Y8 no use.|1A amended: f16",
	} {
		for prose := range strings.SplitSeq(all, "|") {
			if got, list := check("", prose, ""); got != want {
				t.Errorf("%s: %s, want %s; %v", prose, got, want, list)
			}
		}
	}
	for prose, want := range map[string]string{
		"Lens 300 for all of these": "unchecked, unchecked", "Lens 300 for the rest": "right, unchecked", "Film moth throughout": "right, right", // which their sides were not loaded with

		"Lens 210 for all of these": "right, right", "Film tern throughout": "right, right", "Lens 300 for the portrait": "right, right", "EI 25 (artificial light 10)": "right, unchecked",
	} {
		season, list := compileText("film moth: EI 80\nlens 300: 300 mm\n" + strings.Replace(kit, "lens: 210\n", "lens: 210\nfilm: tern\n", 1) + "1A: f16 1/2\n\n" + prose + "\n\n1B: f16 1/2\n")
		if got := string(season.Sheets[0].State) + ", " + string(season.Sheets[1].State); got != want {
			t.Errorf("%s: %s, want %s; %v", prose, got, want, list)
		}
	}
	colour := strings.Replace(kit, "filter R25: red", "filter red: red", 1)
	for _, prose := range []string{"rest of the day red", "with red:", "Red for the rest"} {
		if season, list := compileText(colour + prose + "\n1A: f16 1/2\n"); season.Sheets[0].State != record.Unchecked {
			t.Errorf("%s: %s; %v", prose, season.Sheets[0].State, list)
		}
	}
	if got, list := check("filter: none\n", "Y8 for the rest", "EV 10, Y8, "); got != string(record.Right+", "+record.Right) {
		t.Errorf("a sheet whose line has the filter: %s; %v", got, list)
	}
}
