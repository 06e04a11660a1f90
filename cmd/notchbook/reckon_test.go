package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Whatever is typed counts or is answered: 1/15 s at f/16 is a 60th at f/8 (ISO 516 and
// 517 marks, a stop apart each), and no time is passed over.
func TestReckonUsesATimeThatIsNamed(t *testing.T) {
	for terms, want := range map[string]string{
		"meter 1/15 f16, 1/60":     "\n  1/60  f/8  exact\n",
		"meter 1/15 f16, f8":       "\n  1/60  f/8  exact\n",
		"meter 1/15 f16, 1/60 f16": "given  EV 14  1/60 f/16; 2 stops under\n",
		"meter 1/15 f16, 5s f22":   "it would take the film, for the reciprocity of 5 s\n",
	} {
		if out := must(t, "reckon", terms).out; !strings.Contains(out, want) {
			t.Errorf("%s lacks %q:\n%s", terms, want, out)
		}
	}
	for terms, want := range map[string]string{
		"meter 1/15 f16, 4x1s":  "several exposures are not reckoned",
		"meter 1/15 f16, 5s 8s": "which of the two times counts",
	} {
		if s := notchbook(t, "reckon", terms); s.status != found || !strings.Contains(s.err, want) {
			t.Errorf("%s: status %d: %s%s", terms, s.status, s.out, s.err)
		}
	}
}

const reckonKit = `film noctil: ISO 400, EI 250, reciprocity t^1.3 over 1s
film kestrel: ISO 100, EI 80, reciprocity 1s=1.5s 4s=8s 1m=4m 8m=1h
lens 150: 150 mm, f5.6-f64
lens pinhole: 75 mm, f256
meter candela: EV at 100
`

// What cannot be given as it was asked is said, with what is known of it: EV −3⅓ is 2^(9+3⅓) s
// at f/22, which is 1h 26m; 16 less 8⅓ is 2^7⅔ s at f/256, 203 s, and 203^1.3 s are 16m 41s;
// EV 3 is 32 s at f/16, and 32^1.3 s are 91 s.
func TestReckonSaysWhatIsNotKept(t *testing.T) {
	kit := filepath.Join(t.TempDir(), "kit.md")
	if err := os.WriteFile(kit, []byte(reckonKit), 0o600); err != nil {
		t.Fatal(err)
	}
	const longer = "the time on film is longer by its reciprocity, which is not known, since no film is named"
	for _, c := range []struct {
		terms  string
		kit    bool
		status int
		want   []string
		not    string
	}{
		{"EV -5 on III, film kestrel, f22", true, found, []string{"1h 26m   f/22       before reciprocity", "f/5.6  exact; another aperture",
			"at f/22 the time lies beyond the last entry of kestrel's reciprocity table, 8m = 1h"}, "leaves"},
		{"EV -5 on III, film kestrel", true, 0, []string{"f/5.6  exact", "at f/8 and smaller the time lies beyond the last entry"}, "before"},
		{"EV 7 candela, film noctil, f22", true, 0, []string{"light values at ISO 100 for film at EI 250"}, "not understood"},
		{"EV 7 by the candela, film noctil, f22", true, 0, []string{"light values at ISO 100 for film at EI 250"}, "not understood"},
		{"EV 1 on III, film kestrel, f22", true, 0, []string{"f/22  exact"}, "beyond"},
		{"meter 1/15 f11⅓, f22", false, 0, []string{"  1/4   f/22       leaves ⅓ stop over\n  1/4  f/22⅓  exact; another aperture\n"}, "beyond"},
		{"EV 7 on V, film noctil, lens pinhole", true, 0, []string{"\n  16m 41s  f/256  exact\n"}, ""},
		{"EV 7 on V, film noctil, lens pinhole, f22", true, found, []string{"lens pinhole has no f/22", "f/256  exact; another aperture"}, ""},
		{"EV 2 on IV, EI 250, f16", false, found, []string{"32 s  f/16  before reciprocity", longer, "reciprocity t^1.3 over 1s"}, "lens"},
		{"EV 9 on IV, EI 250", false, 0, []string{"1 s   f/32               exact\n", "2 s   f/45  before reciprocity", "at f/45 and smaller " + longer}, ""},
		{"EV 2 on IV, EI 250, f16, reciprocity t^1.3 over 1s", false, 0, []string{"1m 31s  f/16  exact"}, "not understood"},
		{"EV 2 on IV, reciprocity: t^1.3 over 1s, EI 250, f16", false, 0, []string{"1m 31s  f/16  exact"}, "not understood"},
		{"EV 2 on IV, reciprocity 4s=8s, 32s=90s, EI 250, f16", false, 0, []string{"1m 30s  f/16  exact"}, "not understood"},
		{"EV 2 on IV at EI 250, film kestrel, EI 250, reciprocity t^1.3 over 1s, f16", true, 0, []string{"1m 31s  f/16  exact"}, "not understood"},
		{"EV 2 on IV, reciprocity of no film, EI 250, f16", false, found, []string{"not understood", "32 s  f/16  before reciprocity"}, ""},
		{"EV 2 on IV, reciprocity t^0.3 over 1s, EI 250, f16", false, found, []string{"cannot be an exponent of reciprocity", "32 s  f/16  before reciprocity"}, ""},
		{"meter 1/15 f16, 5s", false, found, []string{"5 s  f/64  leaves 2⅓ stops over; before reciprocity", "no film is named"}, ""},
		{"EV -1 on V, zone III, film noctil, f16", true, found, []string{"which zone counts, V or III"}, "counts for nothing"},
		{"EV -1 on V, on III, film noctil, f16", true, found, []string{"which zone counts, V or III"}, "counts for nothing"},
		{"EV -1, on III, film noctil, f16", true, 0, []string{"EV ⅓ on III"}, "counts for nothing"},
		{"EV -1 on V, now on III, film noctil, f16", true, 0, []string{"EV ⅓ on III"}, "counts for nothing"},
	} {
		args := []string{"reckon"}
		if c.kit {
			args = append(args, "--kit", kit)
		}
		s := notchbook(t, append(args, c.terms)...)
		all := s.out + s.err
		for _, want := range c.want {
			if !strings.Contains(all, want) {
				t.Errorf("%s: lacks %q:\n%s", c.terms, want, all)
			}
		}
		if s.status != c.status || c.not != "" && strings.Contains(all, c.not) {
			t.Errorf("%s: status %d, or says %q:\n%s", c.terms, s.status, c.not, all)
		}
	}
}

// At which index a light value is taken is said where nothing else says it: from ISO 100 to
// EI 250 are log2(2.5) stops, 1⅓; to EI 50 one the other way.
func TestReckonSaysWhatLightValuesAreTakenAs(t *testing.T) {
	kit := filepath.Join(t.TempDir(), "kit.md")
	if err := os.WriteFile(kit, []byte(reckonKit), 0o600); err != nil {
		t.Fatal(err)
	}
	for terms, want := range map[string]string{
		"EV 12 on V, EI 250, f16":                     "\nEV 12 is taken as at EI 250; at ISO 100 it would be 1⅓ stops less: write EV 12 at EI 100, or in the kit meter NAME: EV at 100\n",
		"EV 12 on V, EI 50, f16":                      "EV 12 is taken as at EI 50; at ISO 100 it would be 1 stop more: ",
		"EV 12 on III, wall EV 14 on VI, EI 250, f16": "the light values are taken as at EI 250; ",
		"EV 12, f16":                                     "EV 12 is taken as at the film's EI; ",
		"EV 12 on V, EI 100, f16":                        "",
		"EV 12 at EI 100 on V, EI 250, f16":              "",
		"meter 1/60 f16, EI 250":                         "",
		"--kit=" + kit + "|EV 12 on V, film noctil, f16": "",
	} {
		out := must(t, append([]string{"reckon"}, strings.Split(terms, "|")...)...).out
		if want == "" && strings.Contains(out, "taken as") || !strings.Contains(out, want) {
			t.Errorf("%s: lacks %q:\n%s", terms, want, out)
		}
	}
}

// A finding about the terms themselves is in no file of the kit's folder.
func TestReckonNamesNoFileThatIsNotThere(t *testing.T) {
	kit := filepath.Join(aldermoor(t), "kit.md")
	s := notchbook(t, "reckon", "--kit", kit, "meter 1/15 f16, X99")
	if !strings.HasPrefix(s.err, "terms:1:") {
		t.Error(s.err)
	}
}
