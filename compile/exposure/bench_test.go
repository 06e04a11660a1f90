package exposure

import "testing"

// BenchmarkSheet is what judging one sheet costs: marks, filter, bellows and a long
// time put back through the film's table.
func BenchmarkSheet(b *testing.B) {
	rule, err := Table(0, []Point{{2, 3}, {4, 7}, {8, 16}})
	if err != nil {
		b.Fatal(err)
	}
	lens := Lens{Tested: []TestedSpeed{{1. / 64, 1. / 50}}}
	b.ReportAllocs()
	for b.Loop() {
		if off := judge(lens, rule); off < -10 {
			b.Fatal(off)
		}
	}
}

func judge(lens Lens, rule Rule) float64 {
	given, _ := ApertureAv(22, 1./3)
	seconds, _ := TimeSeconds(6, 1)
	filter, _ := FactorStops(8)
	bellows, _ := BellowsByExtension(260, 210)
	needed := Place(9, 3) - filter - bellows
	ev, _ := GivenEV(Exposure{given, seconds}, lens, rule)
	return Difference(needed, ev)
}

func BenchmarkEV(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		av, _ := ApertureAv(22, 0)
		t, _ := TimeSeconds(1, 60)
		_ = EV(av, t)
	}
}

func BenchmarkRightSettings(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		RightSettings(13, Exposure{8, 0.1}, oldShutter, Rule{})
	}
}

// EV arithmetic runs for every reading of every sheet and must not feed the
// collector.
func TestNoAllocation(t *testing.T) {
	rule := table(t, Point{2, 3}, Point{4, 7}, Point{8, 16})
	lens := Lens{Tested: []TestedSpeed{{1. / 64, 1. / 50}}}
	sink := 0.0
	if n := testing.AllocsPerRun(100, func() { sink += judge(lens, rule) }); n != 0 {
		t.Errorf("judging a sheet allocates %g times (%g)", n, sink)
	}
}
