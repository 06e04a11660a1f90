package sensitometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"

	"notchbook/compile/sensitometry"
)

// oddities counts what became of tests with one bad sheet in nine.
type oddities struct {
	n, named, among, wrong, none int
	over, told                   int // that moved by more than a sixth of a stop, and where that can be seen
	most                         float64
}

// add counts one test: named is by itself, among is with others that it may as well be.
func (o *oddities) add(odd []sensitometry.Odd, bad int, moved float64) {
	o.n++
	switch {
	case len(odd) == 0:
		o.none++
	case odd[0].Sheet == bad && len(odd[0].Or) == 0:
		o.named++
	case odd[0].Sheet == bad || slices.Contains(odd[0].Or, bad):
		o.among++
	default:
		o.wrong++
	}
	o.most = max(o.most, moved)
}

func (o *oddities) String() string {
	share := func(n int) float64 { return 100 * float64(n) / float64(max(o.n, 1)) }
	return fmt.Sprintf("of %d named %.1f %%, one of a few that it may be %.1f %%, another named %.1f %%, nothing said %.1f %%; the result moves by at most %.3f",
		o.n, share(o.named), share(o.among), share(o.wrong), share(o.none), o.most)
}

func (o *oddities) report(t *testing.T, what, unit string, most float64) {
	t.Helper()
	t.Logf("one odd sheet in nine of %s: %v %s", what, o, unit)
	if o.named*100 < 95*o.n || o.most > most {
		t.Errorf("%s: named in %d of %d, moved by %.3f %s", what, o.named, o.n, o.most, unit)
	}
}

// spoiled is the odd sheet of the k-th test: which, and by how much it is off: half
// a stop to three stops, up or down.
func spoiled(k int) (r *rand.Rand, f film, bad int, off float64) {
	r = rand.New(rand.NewPCG(14, 100+uint64(k)))
	f = someFilm(r)
	bad, off = r.IntN(9), 0.5+2.5*r.Float64()
	if r.IntN(2) == 0 {
		off = -off
	}
	return r, f, bad, off
}

// Nine sheets of a test of film speed, each behind the wedge.
func TestOddSheetOfASpeedTest(t *testing.T) {
	var o oddities
	for k := range many() {
		_, f, bad, off := spoiled(k)
		test := func(off float64) (*sensitometry.Film, float64) {
			r := rand.New(rand.NewPCG(15, uint64(k)))
			var all []sensitometry.Reading
			for i := range 9 {
				set := stop * float64(i%3)
				got := set
				if i == bad {
					got += stop * off
				}
				all = append(all, sheet(r, f, i, set, got, 21, noise)...)
			}
			found, err := sensitometry.NewFilm(all, 9, 0)
			if err != nil {
				t.Fatal(err)
			}
			ei, _, ok := sensitometry.Index(found.Curve, 100)
			if !ok {
				t.Fatal("no speed")
			}
			return found, ei
		}
		_, clean := test(0)
		found, ei := test(off)
		o.add(found.Odd, bad, math.Abs(math.Log2(ei/clean)))
	}
	o.report(t, "a speed test behind a wedge", "stop", 1./6)
}

// greyCards is a test of nine sheets, one patch of a grey card each, read three times,
// three quarters of a stop apart, the darkest five stops below the reading; one of them
// got so much more than is written. differs is by how many of its own errors the bad
// patch is another than it should be, known what one says who has the film's curve.
func greyCards(t *testing.T, k int, f film, bad int, off float64) (found *sensitometry.Film, ei, differs float64, known []sensitometry.Odd, ok bool) {
	r := rand.New(rand.NewPCG(15, uint64(k)))
	var all []sensitometry.Reading
	var errors []float64
	for i := range 9 {
		set := stop * (0.75*float64(i) - 5)
		got := set
		if i == bad {
			got += stop * off
		}
		d, sd := read(r, f.density(got), noise)
		if i == bad {
			differs = math.Abs(f.density(got)-f.density(set)) / sd
		}
		all = append(all, sensitometry.Reading{Sheet: i, LogH: set, D: d, Sd: sd})
		errors = append(errors, math.Abs(d-f.density(set))/sd)
	}
	found, err := sensitometry.NewFilm(all, 9, 0)
	if err != nil {
		t.Fatal(err)
	}
	ei, _, ok = sensitometry.Index(found.Curve, 100)
	return found, ei, differs, withTheCurve(errors), ok
}

// withTheCurve names the odd sheet as one can who has the film's very curve and the
// densitometer's very error, and so nothing to fit: no one can do better. Of series in
// which all belong it names one in a hundred, and one sheet alone where that is twenty
// times as likely as any other.
func withTheCurve(errors []float64) []sensitometry.Odd {
	worst := floats.MaxIdx(errors)
	if errors[worst] < distuv.UnitNormal.Quantile(1-0.01/2/float64(len(errors))) {
		return nil
	}
	odd := sensitometry.Odd{Sheet: worst}
	for i, e := range errors {
		if i != worst && (errors[worst]*errors[worst]-e*e)/2 < math.Log(20) {
			odd.Or = append(odd.Or, i)
		}
	}
	return []sensitometry.Odd{odd}
}

// Of grey cards not every bad sheet can be named. A sheet of the toe has nearly the
// density of the base and fog whatever it got: even one who has the film's curve
// (withTheCurve) names but 94 of a hundred, and here it is to be found from the same nine
// patches. And at the ends of the series a bad sheet and a bend of the curve look alike,
// so that two sheets may be the one. Asserted is that of those that can be named at all
// nine in ten are, alone or among a few, that nearly all that differ by six errors are named or
// stand among those that are, that hardly ever another is blamed, in one of a hundred
// series in which all belong, and that where the speed still moves by more than a sixth
// of a stop it is by less than its reader is told, or seen to hang on a sheet (Without).
func TestOddSheetAmongGreyCards(t *testing.T) {
	var all, visible, known oddities
	bySize := map[int]*oddities{}
	blamed, unread := 0, 0
	for k := range many() {
		_, f, bad, off := spoiled(k)
		right, clean, _, _, _ := greyCards(t, k, f, bad, 0)
		found, ei, differs, could, ok := greyCards(t, k, f, bad, off)
		known.add(could, bad, 0)
		if len(right.Odd) > 0 {
			blamed++
		}
		moved := 0.
		if ok {
			moved = math.Abs(math.Log2(ei / clean))
		} else {
			unread++
		}
		size := int(2 * math.Abs(off))
		if bySize[size] == nil {
			bySize[size] = &oddities{}
		}
		for _, o := range []*oddities{&all, bySize[size]} {
			o.add(found.Odd, bad, moved)
		}
		if differs >= 6 {
			visible.add(found.Odd, bad, moved)
		}
		if ok && moved > 1./6 {
			all.over++
			_, sd, _ := sensitometry.Index(found.Curve, 100)
			told := moved < 2*sd
			for i := range 9 {
				c := found.Without(i)
				if c == nil {
					told = true
					break
				}
				other, _, reached := sensitometry.Index(c, 100)
				told = told || !reached || math.Abs(math.Log2(other/ei)) > 1./6
			}
			if told {
				all.told++
			}
		}
	}
	t.Logf("one odd sheet among nine grey cards: %v stop", &all)
	t.Logf("    who has the film's curve names %.1f %%; of as many %.1f %% are named here, alone or among a few", 100*float64(known.named)/float64(known.n), 100*float64(all.named+all.among)/float64(known.named+known.among))
	for size := range 6 {
		if o := bySize[size]; o != nil {
			t.Logf("    off by %.1f to %.1f stops: %v", float64(size)/2, float64(size+1)/2, o)
		}
	}
	t.Logf("    whose patch differs by six errors or more: %v", &visible)
	t.Logf("    the speed moves by more than a sixth of a stop in %d, in %d of these it is seen; in %d no speed is left; of the series without a bad sheet %d have one blamed", all.over, all.told, unread, blamed)
	few := 0 // of sixty, one more or less is much
	if many() < 1000 {
		few = 3
	}
	if (all.named+all.among+few)*100 < 90*(known.named+known.among) || (visible.named+visible.among+few)*100 < 95*visible.n || all.wrong*100 > all.n || (all.named+few)*100 < 78*all.n || all.over*100 > 5*all.n || all.over > 10 && all.told*100 < 75*all.over || blamed*100 > 2*all.n {
		t.Errorf("%+v, visible %+v", all, visible)
	}
}

// Three baths of three sheets each behind the wedge: two agree, and the third is named
// by the two. Of two in a bath no one can say which, but that they disagree: both are
// given, the gradient stands between them and is hardly moved, since a sheet that got
// more light is the same curve further on.
func TestOddSheetOfABath(t *testing.T) {
	for _, sheets := range []int{3, 2} {
		var o oddities
		gradient := 0.
		for k := range many() {
			_, f, bad, off := spoiled(k)
			bad %= sheets
			test := func(off float64) (*sensitometry.Film, float64) {
				r := rand.New(rand.NewPCG(17, uint64(k)))
				var all []sensitometry.Reading
				for i := range sheets {
					set := 3 * stop
					got := set
					if i == bad {
						got += stop * off
					}
					all = append(all, sheet(r, f, i, set, got, 21, noise)...)
				}
				found, err := sensitometry.NewFilm(all, sheets, 0)
				if err != nil {
					t.Fatal(err)
				}
				g, ok := sensitometry.AverageGradient(found.Curve, 1.3)
				if !ok {
					t.Fatal("no gradient")
				}
				return found, g.Value
			}
			_, clean := test(0)
			found, g := test(off)
			o.add(found.Odd, bad, math.Abs(g-clean))
			gradient = max(gradient, math.Abs(g-clean)/clean)
		}
		t.Logf("one odd sheet of %d in a bath: %v in gradient, %.0f %% of it", sheets, &o, 100*gradient)
		if sheets == 3 && (o.named*100 < 95*o.n || gradient > 0.1) || sheets == 2 && (o.among*100 < 95*o.n || o.wrong > 0 || gradient > 0.1) {
			t.Errorf("%+v", o)
		}
	}
}

// Three times of three sheets each, each behind the wedge: what the longest loses may
// move by a sixth of a stop. Of two sheets of one time that disagree no one can say
// which is odd, since what the time loses is what is sought: both are given.
func TestOddSheetOfAReciprocityTest(t *testing.T) {
	var o oddities
	seconds := []float64{1, 1, 1, 20, 20, 20, 400, 400, 400}
	for k := range many() {
		r, f, bad, off := spoiled(k)
		p := 1.1 + 0.4*r.Float64()
		test := func(off float64) *sensitometry.Law {
			test := longTest(rand.New(rand.NewPCG(15, uint64(k))), f, p, seconds)
			again := rand.New(rand.NewPCG(16, uint64(k)))
			for i := range test.Readings {
				reading := &test.Readings[i]
				if reading.Sheet == bad {
					counts := math.Pow(max(seconds[bad], 1), 1/p)
					reading.D, _ = read(again, f.density(reading.LogH-math.Log10(seconds[bad]/counts)+stop*off), 0.03)
				}
			}
			law, err := test.Solve()
			if err != nil {
				t.Fatal(err)
			}
			return law
		}
		clean, found := test(0), test(off)
		loss := func(l *sensitometry.Law) float64 { return l.Losses[len(l.Losses)-1].Stops.Value }
		o.add(found.Odd, bad, math.Abs(loss(found)-loss(clean)))
	}
	o.report(t, "a test of reciprocity", "stop", 1./6)
}

// Nine sheets at four times, of which one has three sheets and the others two: an odd one
// of two is one of the two that are given.
func TestOddSheetOfTwoAtOneTime(t *testing.T) {
	var o oddities
	seconds := []float64{1, 1, 1, 10, 10, 80, 80, 500, 500}
	for k := range many() / 4 {
		r, f, bad, off := spoiled(k)
		bad = 3 + bad%6
		p := 1.1 + 0.4*r.Float64()
		test := longTest(rand.New(rand.NewPCG(15, uint64(k))), f, p, seconds)
		again := rand.New(rand.NewPCG(16, uint64(k)))
		for i := range test.Readings {
			if reading := &test.Readings[i]; reading.Sheet == bad {
				counts := math.Pow(seconds[bad], 1/p)
				reading.D, _ = read(again, f.density(reading.LogH-math.Log10(seconds[bad]/counts)+stop*off), 0.03)
			}
		}
		law, err := test.Solve()
		if err != nil {
			t.Fatal(err)
		}
		o.add(law.Odd, bad, 0)
		if len(law.Odd) > 0 && !law.Odd[0].Held {
			t.Errorf("%v: left out, with its time", law.Odd[0])
		}
	}
	t.Logf("one odd sheet of two at one time: %v", &o)
	if o.among*100 < 95*o.n || o.wrong > 0 {
		t.Errorf("%+v", o)
	}
}
