package compile_test

import (
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Light that changed after it was metered makes the reading hold no longer: a sheet is not
// blamed for having followed it, and is for having gone against it. With an amount it is
// reckoned with (one stop less light is twice the exposure: ISO 2720).
func TestLightThatChanged(t *testing.T) {
	for notes, want := range map[string]record.State{
		"1A: 1/8 f16":                                                record.Off,
		"1A: 1/8 f16, light dropped a stop":                          record.Right,
		"1A: 1/8 f16, light fell 1 stop during the exposure":         record.Unchecked,
		"1A: 1/8 f16, light falling 1 stop while open":               record.Unchecked,
		"1A: 1/8 f16, light -1":                                      record.Right,
		"1A: 1/8 f16, 1 stop less light":                             record.Right,
		"1A: 1/8 f16, gave one stop more light":                      record.Unchecked,
		"1A: 1/30 f16, gave one stop more light":                     record.Unchecked,
		"1A: 1/8 f16, one stop more light given":                     record.Unchecked,
		"1A: 1/8 f16, one stop extra light":                          record.Unchecked,
		"1A: 1/15 f16, one stop less light in the corners":           record.Unchecked,
		"lens: 210 mm\n1A: ext 297mm, 1/8 f16, lost a stop of light": record.Right,
		"1A: 1/8 f16, lost a stop of light":                          record.Right,
		"1A: 1/15 f16, light fell 1 stop":                            record.Off,
		"1A: 1/8 f16, light fading fast":                             record.Unchecked,
		"1A: 1/8 f16 (lost a stop of light)":                         record.Unchecked,
		"1A: 1/8 f16 -- sun went in":                                 record.Unchecked,
		"1A: 1/30 f16 -- sun went in":                                record.Off,
		"1A: 1/30 f16, sun came out":                                 record.Unchecked,
		"1A: 1/8 f16, sun behind the barn":                           record.Off,
		"1A: metered 1/15 f16, 1/8 f16, light going":                 record.Unchecked,
		"1A: light going, metered 1/15 f16, 1/8 f16":                 record.Off,
		"1A: metered 1/15 f16, 1/30 f16, light going":                record.Off,
		"1A: 1/8 f16, moon went in":                                  record.Unchecked,
		"1A: 1/8 f16, cloud over the moon":                           record.Unchecked,
		"1A: 1/8 f16, lamps went off":                                record.Unchecked,
		"1A: 1/30 f16, lamps went on":                                record.Unchecked,
		"1A: 1/30 f16, moon came out":                                record.Unchecked,
		"1A: 1/30 f16, dawn coming":                                  record.Unchecked,
		"1A: 1/30 f16, getting light":                                record.Unchecked,
		"1A: 1/8 f16, dawn coming":                                   record.Off,
		"1A: 1/8 f16, moon over the mole":                            record.Off,
		"1A: 1/8 f16, one lamp off":                                  record.Unchecked,
		"1A: 1/8 f16, only one lamp":                                 record.Unchecked,
		"1A: 1/8 f16, lamps moved back a metre":                      record.Unchecked,
		"1A: 1/8 f16, diffuser over the lamp":                        record.Unchecked,
		"1A: 1/8 f16 -- dimmer down":                                 record.Unchecked,
		"1A: 1/8 f16, cloud over":                                    record.Unchecked,
		"1A: 1/8 f16, blind down":                                    record.Unchecked,
		"1A: 1/8 f16, blinds half closed":                            record.Unchecked,
		"1A: 1/8 f16, key light off":                                 record.Unchecked,
		"1A: 1/30 f16, second lamp on":                               record.Unchecked,
		"1A: 1/30 f16, lamp nearer":                                  record.Unchecked,
		"1A: 1/30 f16, one lamp off":                                 record.Off,
		"1A: 1/8 f16, blind up":                                      record.Off,
		"1A: 1/15 f16, one lamp off":                                 record.Right,
		"1A: 1/8 f16, lamp off centre":                               record.Off,
		"1A: 1/30 f16, lamp in the window":                           record.Off,
		"1A: 1/30 f16, lamps on both sides":                          record.Off,
		"1A: 1/8 f16, cloud over the hill":                           record.Off,
		"The sun went in.\n\n1A: 1/8 f16":                            record.Unchecked,
		"The sun went in.\n\nmeter: 1/15 f16\n1A: 1/8 f16":           record.Off,
		"light: 2 stops less\n1A: 1/15 f16":                          record.Unchecked,
		"light: 2 stops less\n1A: 1/4 f16":                           record.Unchecked,
		"light down 1 stop\n1A: 1/15 f16":                            record.Unchecked,
		"light down 1 stop\nmeter: 1/15 f16\n1A: 1/15 f16":           record.Right,
		"clouds gone, up 2 stops\n1A: 1/15 f16":                      record.Unchecked,
		"then cloudy again, about 2 stops less\n1A: 1/15 f16":        record.Unchecked,
		"The sky is 2 stops brighter than the ground.\n1A: 1/15 f16": record.Right,
		"Shadows 2 stops down, light lovely.\n1A: 1/15 f16":          record.Right,
		"light: open shade\n1A: 1/15 f16":                            record.Right,
		"The sun went in.\n\n1A: 1/15 f16":                           record.Right,
	} {
		season, _ := compileText("film curlew: EI 50\n\nday: 2026-11-07\nfilm: curlew\nmeter: 1/15 f16\n\n" + notes + "\n")
		if sh := season.Sheets[0]; sh.State != want {
			t.Errorf("%s: %s, want %s", notes, sh.State, want)
		}
	}
}

// Light that went while the shutter was open leaves a sheet unchecked, with what it went by: the film saw a part of it.
func TestLightThatWentWhileTheShutterWasOpen(t *testing.T) {
	const kit = "film curlew: EI 100, reciprocity none to 10m\nfilm: curlew\nmeter: EV 3\n"
	for notes, by := range map[string]string{
		"1A: EV 3 at first, EV 2 at the end, 8s f8": "fell 1 stop", "1A: metered EV 3 at first, EV 2 at the end, gave 8s f8": "fell 1 stop", "1A: 8s f8, EV 3 before and EV 2 after": "fell 1 stop",
		"meter: EV 3 falling to EV 2\n1A: 8s f8": "fell 1 stop", "meter: EV 3 → EV 2\n1A: 8s f8": "fell 1 stop", "meter: EV 3 on V at first, EV 2 at the end\n1A: 8s f8": "fell 1 stop", "1A: EV 3, 8s f8, EV 2 afterwards": "fell 1 stop",
		"1A: EV 3 when I opened, EV 4½ when I closed, 8s f8": "rose 1½ stops", "meter: 8s f8 at first, 16s f8 at the end\n1A: 8s f8": "fell 1 stop", "1A: 8s f8, lost a stop during exposure": "fell 1 stop", "1A: 8s f8, gained a stop during the exposure": "rose 1 stop",
		"1A: 8s f8 -- lost a stop during exposure": "fell 1 stop", "1A: 8s f8 (light fell 2 stops while open)": "fell 2 stops", "1A: 8s f8, a stop darker by the end": "fell 1 stop",
	} {
		season, list := compileText(kit + notes + "\n")
		if sh := season.Sheets[0]; sh.State != record.Unchecked || len(sh.Needs) != 1 || !strings.Contains(sh.Needs[0], "light") || !strings.Contains(sh.Needs[0], by) {
			t.Errorf("%s: %s, %q, %v", notes, sh.State, sh.Needs, list)
		}
	}
	for _, notes := range []string{
		"meter: EV 3, EV 3 at the end\n1A: 8s f8", "1A: EV 3 at first, EV 2 at the end, average, 12s f8", "meter: shadow EV 1 on III, wall EV 5 at the end\n1A: 8s f8", "meter: shadow EV 1 on III, wall at the end EV 5\n1A: 8s f8",
		"1A: shadow EV 1 -> III, wall EV 5, 8s f8", "1A: 8s f8, one stop from the wall at the end",
	} {
		season, list := compileText(kit + notes + "\n")
		if sh := season.Sheets[0]; sh.State != record.Right && !strings.Contains(notes, "one stop") || strings.Contains(strings.Join(sh.Needs, " "), "light") {
			t.Errorf("%s: %s, %q, %v", notes, sh.State, sh.Needs, list)
		}
	}
	season, _ := compileText(kit + "meter: EV 3 at the far end, EV 2 at the near end\n1A: 8s f8\n") // two places
	if sh := season.Sheets[0]; !strings.Contains(strings.Join(sh.Needs, " "), "zone") {
		t.Errorf("two ends: %q", sh.Needs)
	}
}

// By how much it is less by now is of the light, with the word for stops and without, in a line between and in a remark. What
// is said of other things is not.
func TestByHowMuchItIsLessByNow(t *testing.T) {
	const kit = "meter spot: EV at 100\nfilm tern: ISO 100\nfilm: tern\nscene: wall\nmeter: EV 12\n"
	for _, said := range strings.Split("Two less by now|Two stops less by now.|zwei weniger inzwischen|Zwei Blenden weniger inzwischen|2 lower by now", "|") {
		stand(t, kit, map[string]record.State{
			"\n" + said + "\n\n1A: 1/60 f8": record.Unchecked, "\n" + said + "\n\n1A: 1/15 f8": record.Unchecked, "1A: 1/15 f8 -- " + said: record.Unchecked,
		})
	}
	for _, said := range strings.Split("Two sheep less by now|Cold by now|Two bridges up by now", "|") {
		stand(t, kit, map[string]record.State{"\n" + said + "\n\n1A: 1/60 f8": record.Right, "\n" + said + "\n\n1A: 1/15 f8": record.Off})
	}
	// Stops that were given on purpose, in German and French.
	for said, states := range map[string][2]record.State{
		"zwei Blenden kürzer": {record.Unchecked, record.Off}, "zwei Stufen weniger": {record.Unchecked, record.Off}, "deux diaphragmes de moins": {record.Unchecked, record.Off}, "two stops shorter": {record.Unchecked, record.Off},
		"zwei Blenden länger": {record.Off, record.Unchecked}, "deux diaphs de plus": {record.Off, record.Unchecked}, "zwei Kühe mehr": {record.Off, record.Off},
	} {
		stand(t, kit, map[string]record.State{"1A: 1/250 f8 -- " + said: states[0], "1A: 1/15 f8 -- " + said: states[1]})
	}
}
