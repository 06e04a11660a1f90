package exposure

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// oldShutter is a lens with the speeds of an older shutter.
var oldShutter = Lens{
	Wide: 5, Small: 12, Bulb: true,
	Speeds: []float64{1, 1. / 2, 1. / 5, 1. / 10, 1. / 25, 1. / 50, 1. / 100},
}

// shown writes a choice as people read it.
func shown(c Choice) string {
	kind := [...]string{"aperture kept", "split", "time kept"}[c.Kind]
	return kind + " " + FormatAperture(c.Av) + " " + FormatTime(c.Seconds) + " " + FormatStops(c.Left)
}

func TestRightSettings(t *testing.T) {
	rule := table(t, Point{2, 3}, Point{4, 7}, Point{8, 16})
	halves := oldShutter
	halves.Clicks = 1. / 2
	whole := oldShutter
	whole.Clicks = 1
	slow := oldShutter
	slow.Tested = []TestedSpeed{{1. / 50, 1. / 40}}
	noBulb := Lens{Wide: 5, Small: 12, Speeds: []float64{1. / 2, 1. / 4, 1. / 8}}
	cases := []struct {
		name   string
		target float64
		given  Exposure
		lens   Lens
		rule   Rule
		want   []string
	}{
		{"one stop over, nothing known of the lens", 14, Exposure{8, 1. / 32}, Lens{}, Rule{},
			[]string{"aperture kept f/16 1/60 0", "time kept f/22 1/30 0"}},
		{"the shutter has no 1/30: split on the third-stop clicks", 13, Exposure{8, 1. / 10}, oldShutter, Rule{},
			[]string{"split f/16⅓ 1/25 0", "aperture kept f/16 1/25 +⅓", "time kept f/22⅔ 1/10 0"}},
		{"the same on half-stop clicks", 13, Exposure{8, 1. / 10}, halves, Rule{},
			[]string{"split f/16½ 1/25 −0.1", "aperture kept f/16 1/25 +⅓", "time kept f/22½ 1/10 +0.2"}},
		{"a third over at f/16", 13 + 1./3, Exposure{8, 1. / 32}, Lens{}, Rule{},
			[]string{"time kept f/16⅓ 1/30 0", "aperture kept f/16 1/30 +⅓"}},
		{"no stops between: the third is left", 13 + 1./3, Exposure{8, 1. / 25}, whole, Rule{},
			[]string{"aperture kept f/16 1/50 −⅓", "time kept f/22 1/25 −⅓"}},
		{"a slow 1/50 is counted as it is", 13 + 1./3, Exposure{8, 1. / 10}, slow, Rule{},
			[]string{"aperture kept f/16 1/50 0", "time kept f/32 1/10 0"}},
		{"4 s on film are 7 by the clock", 6, Exposure{8, 2}, oldShutter, rule,
			[]string{"aperture kept f/16 7 s 0", "time kept f/8⅔ 2 s 0"}},
		{"past the table's end the lens is opened", 3, Exposure{8, 32}, oldShutter, rule,
			[]string{"split f/8 16 s 0"}},
		{"a film without a rule: the time as it came", 3, Exposure{8, 64}, oldShutter, Rule{},
			[]string{"aperture kept f/16 32 s 0", "time kept f/22 1m 4s 0"}},
		{"a time between seconds is counted", 6.5, Exposure{8, 2}, oldShutter, Rule{},
			[]string{"aperture kept f/16 3 s +0.1", "time kept f/11⅔ 2 s −0.2"}},
		{"of two that fit as well the one nearer to what was set", 13.5, Exposure{8, 1. / 16}, Lens{Wide: 4, Small: 12, Speeds: []float64{1. / 16, 1. / 32, 1. / 128}, Clicks: 1. / 2}, Rule{},
			[]string{"split f/16½ 1/30 0", "time kept f/22½ 1/15 0"}},
		{"nothing on the shutter fits but the smallest opening", 15, Exposure{8, 1. / 8}, noBulb, Rule{},
			[]string{"time kept f/64 1/8 0"}},
		{"nothing fits at all: the nearest", 20, Exposure{8, 1. / 8}, noBulb, Rule{},
			[]string{"time kept f/64 1/8 +5"}},
	}
	for _, c := range cases {
		var got []string
		for _, choice := range RightSettings(c.target, c.given, c.lens, c.rule) {
			got = append(got, shown(choice))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// Whatever is asked, what is offered can be set, says truly what it leaves, and
// stands once.
func TestRightSettingsCanBeSet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rule := anyRule(t)
		lens := Lens{
			Wide:   rapid.Float64Range(4, 6).Draw(t, "wide"),
			Small:  rapid.Float64Range(10, 13).Draw(t, "small"),
			Speeds: oldShutter.Speeds,
			Bulb:   rapid.Bool().Draw(t, "bulb"),
			Clicks: rapid.SampledFrom([]float64{0, 1. / 2, 1. / 3, 1}).Draw(t, "clicks"),
		}
		given := Exposure{
			Av:      rapid.Float64Range(3, 14).Draw(t, "av"),
			Seconds: rapid.SampledFrom([]float64{0, 1. / 250, 1. / 50, 1. / 5, 1, 4}).Draw(t, "seconds"),
		}
		target := rapid.Float64Range(-2, 18).Draw(t, "target")
		choices := RightSettings(target, given, lens, rule)
		for i, c := range choices {
			if !lens.HasAperture(c.Av) || !lens.HasSpeed(c.Seconds) {
				t.Errorf("%s cannot be set", shown(c))
			}
			if c.Seconds >= 1 && c.Seconds != math.Round(c.Seconds) {
				t.Errorf("%s cannot be counted", shown(c))
			}
			if ev, _ := GivenEV(Exposure{c.Av, c.Seconds}, lens, rule); Difference(target, ev) != c.Left {
				t.Errorf("%s leaves %g", shown(c), Difference(target, ev))
			}
			for _, other := range choices[:i] {
				if other.Av == c.Av && other.Seconds == c.Seconds {
					t.Errorf("%s stands twice", shown(c))
				}
			}
		}
	})
}
