package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"notchbook/compile/record"
)

// sheetOf draws a sheet as the compiler leaves one.
func sheetOf(t *rapid.T) *record.Sheet {
	stops := rapid.Float64Range(-4, 9)
	s := &record.Sheet{Reading: &record.Reading{EV: record.Known(rapid.Float64Range(-3, 18).Draw(t, "read"))}, State: record.Off}
	at := s.Reading.EV.Value
	for i := range rapid.IntRange(0, 4).Draw(t, "steps") {
		n := stops.Draw(t, "stops")
		s.Steps = append(s.Steps, record.Step{Kind: "filter", Name: rapid.StringN(0, 30, -1).Draw(t, fmt.Sprint("filter", i)), Stops: n})
		at -= n
	}
	settings := func(name string, ev float64) record.Settings {
		x := record.Settings{Aperture: "f/22⅔", Time: "1h 12m", EV: record.Known(ev)}
		if rapid.Bool().Draw(t, name+" long") {
			x.OnFilm, x.Seconds = record.Known(10), record.Known(10*rapid.Float64Range(1, 9).Draw(t, name))
		}
		return x
	}
	s.Asked = settings("asked", at)
	s.Given = settings("given", at+stops.Draw(t, "off"))
	s.Difference = record.Known(s.Asked.EV.Value - s.Given.EV.Value)
	for i := range rapid.IntRange(0, 5).Draw(t, "areas") {
		s.Reading.Areas = append(s.Reading.Areas, record.Area{
			Name: rapid.StringN(0, 40, -1).Draw(t, fmt.Sprint("area", i)), Meant: record.Known(rapid.Float64Range(0, 10).Draw(t, "meant")), Fell: record.Known(stops.Draw(t, "fell")),
		})
	}
	return s
}

// meet finds two words of a drawing that cover one another, and words that run
// out of it.
func meet(d *Drawing) string {
	var all []Words
	for _, m := range d.Marks {
		if w, ok := m.(Words); ok && w.Text != "" {
			b := w.bounds()
			if b.left < -2 || b.right > d.Width+2 || b.top < -2 || b.bottom > d.Height+3 {
				return fmt.Sprintf("%q runs out of the drawing: %v in %v × %v", w.Text, b, d.Width, d.Height)
			}
			for _, o := range all {
				if b.shared(o.bounds()) > 4 {
					return fmt.Sprintf("%q meets %q", w.Text, o.Text)
				}
			}
			all = append(all, w)
		}
	}
	return ""
}

func TestWordsOfLadderAndStripNeverMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheetOf(t)
		for _, d := range []*Drawing{Ladder(s), Zones(s)} {
			if d == nil {
				continue
			}
			if fault := meet(d); fault != "" {
				t.Fatal(fault)
			}
			inside(t, d)
		}
	})
}

func inside(t *rapid.T, d *Drawing) {
	check := func(p Point) {
		if p.X < -1 || p.X > d.Width+1 || p.Y < -1 || p.Y > d.Height+1 || math.IsNaN(p.X+p.Y) {
			t.Fatalf("a mark at %v in %v × %v", p, d.Width, d.Height)
		}
	}
	for _, m := range d.Marks {
		switch m := m.(type) {
		case Line:
			for _, p := range m.Points {
				check(p)
			}
		case Dot:
			check(m.At)
		}
	}
}

// red25 is read at EV 14, behind a filter of 3 stops, and given 2 stops less than
// it asks for.
func red25() *record.Sheet {
	return &record.Sheet{
		State: record.Off, Reading: &record.Reading{EV: record.Known(14)}, Steps: []record.Step{{Kind: "filter", Name: "R25", Stops: 3}},
		Asked: record.Settings{EV: record.Known(11), Time: "1/8", Aperture: "f/16"}, Given: record.Settings{EV: record.Known(13), Time: "1/30", Aperture: "f/16"},
		Difference: record.Known(-2),
	}
}

func TestLadderIsToScale(t *testing.T) {
	d := Ladder(red25())
	scale := scaleOf(ladderRungs(red25()))
	var gap, step float64
	for _, m := range d.Marks {
		l, ok := m.(Line)
		if !ok || len(l.Points) != 2 || l.Points[0].Y != l.Points[1].Y {
			continue
		}
		long := l.Points[1].X - l.Points[0].X
		if l.Ink == Under {
			gap = long
		} else {
			step = max(step, long)
		}
	}
	const head = 4 // the arrow's head ends the stride
	if math.Abs(step+head-3*scale.stride) > .1 || math.Abs(gap-head+2*scale.stride) > .1 {
		t.Errorf("3 stops are %.1f, 2 stops under %.1f, with %.1f a stop", step+head, gap-head, scale.stride)
	}
	if want := "Read EV 14, R25 +3; asked 1/8, f/16; given 1/30, f/16; difference 2 stops under."; d.Text != want {
		t.Errorf("the ladder says %q, not %q", d.Text, want)
	}
}

func TestNoDrawingWithoutAWay(t *testing.T) {
	for name, s := range map[string]*record.Sheet{"nothing read": {}, "only read": {Reading: &record.Reading{EV: record.Known(9)}},
		"one of two areas": {Reading: &record.Reading{Text: "EV 7, EV 13"}, Given: record.Settings{EV: record.Known(9)}}} {
		if Ladder(s) != nil || Zones(s) != nil {
			t.Errorf("%s: there is a drawing", name)
		}
	}
}

func TestZoneTonesGrowLighter(t *testing.T) {
	last := -1.
	for z := range zoneCount {
		grey, ok := (Zone0 + Ink(z)).Grey()
		if !ok || grey <= last || grey > 1 {
			t.Errorf("zone %d has the tone %v after %v", z, grey, last)
		}
		last = grey
	}
	if _, ok := Strong.Grey(); ok {
		t.Error("an ink has a tone of its own")
	}
}

func TestNamesOfSeriesNeverMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Chart{Width: 320, Height: 240, X: Axis{Label: "log H", To: 3, Ticks: Steps(0, 3, .1, 5)}, Y: Axis{Label: "density", To: 2.4, Ticks: Steps(0, 2.4, .1, 5)}, Even: rapid.Bool().Draw(t, "even")}
		for i := range rapid.IntRange(1, 9).Draw(t, "series") {
			y := rapid.Float64Range(-1, 4).Draw(t, "y")
			c.Series = append(c.Series, Series{Name: fmt.Sprintf("series %d", i), Points: []Point{{0, 0}, {3, y}}, Look: i})
		}
		d := c.Draw()
		if fault := meet(d); fault != "" {
			t.Fatal(fault)
		}
		inside(t, d)
	})
}

func TestTicks(t *testing.T) {
	words := func(ticks []Tick) string {
		var all []string
		for _, tick := range ticks {
			all = append(all, tick.Text)
		}
		return strings.Join(all, " ")
	}
	for _, c := range []struct{ got, want string }{
		{words(Steps(0, 1, .1, 5)), "0.0     0.5     1.0"},
		{words(Steps(-1, 1, 1, 1)), "−1 0 1"},
		{words(Even(0, 7, 4)), "0 2 4 6"},
		{words(Even(380, 720, 5)), "400 500 600 700"},
		{words(Decades(0, 1, []float64{1, 5}, nil)), "1    5     10"},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
}

// Words of an axis never meet, and those that are left stand evenly.
func TestWordsOfAnAxisStandApart(t *testing.T) {
	for _, kind := range []record.PlotKind{record.Characteristic, "", record.Residuals} {
		for _, width := range []float64{LadderWidth, PlotWidth} {
			for reach := .3; reach < 9; reach += .3 {
				d := Plot(&record.TestPlot{Kind: kind, X: "log", Y: "density", Lines: []record.PlotLine{{Name: "slate", Joined: true, Points: [][2]float64{{-reach, .1}, {.3, reach / 2}}}}}, width)
				if fault := meet(d); fault != "" {
					t.Errorf("%s %v wide, to %.1f: %s", kind, width, -reach, fault)
				}
			}
		}
	}
	got := apart(Steps(-1.8, 0.6, .3, 1), func(a, b Tick) bool { return b.At-a.At < .5 })
	want := []string{"−1.8", "", "−1.2", "", "−0.6", "", "0.0", "", "0.6"}
	if !slices.EqualFunc(got, want, func(t Tick, text string) bool { return t.Text == text }) {
		t.Errorf("%v, want %q", got, want)
	}
}

func TestLinesEndAtTheFrame(t *testing.T) {
	frame := rect{0, 0, 10, 10}
	got := clip([]Point{{-5, 5}, {5, 5}, {5, 20}, {8, 20}, {8, 5}}, frame)
	want := [][]Point{{{0, 5}, {5, 5}, {5, 10}}, {{8, 10}, {8, 5}}}
	if !slices.EqualFunc(got, want, slices.Equal[[]Point]) {
		t.Errorf("%v, not %v", got, want)
	}
}

func TestCut(t *testing.T) {
	for _, text := range []string{"extension 260 mm on 210 mm", "half a stop past f/16", "⅓⅔⅓⅔⅓⅔⅓⅔⅓⅔"} {
		if got := Cut(text, 9, false, 40); Width(got, 9, false) > 40 || !strings.HasSuffix(got, "…") {
			t.Errorf("%q became %q", text, got)
		}
	}
}

// The figures of a ladder are never shortened: several times stand below one another,
// and what has no room even so is smaller.
func TestLadderShortensNoFigure(t *testing.T) {
	for _, given := range []string{"1m 23s + 1m 23s", "12 × 1m 23s", "20 s + 17 s + 1m 5s + 1m 10s", "100000000000000000000000 × 1m 23s"} {
		s := red25()
		s.Given.Time = given
		d := Ladder(s)
		said, rows := "", 0
		for _, m := range d.Marks {
			w, ok := m.(Words)
			if ok && w.Anchor == End && w.At.X == valueRight {
				said += w.Text + " "
				rows++
				if wide := Width(w.Text, w.Size, w.Bold); wide > valueRoom+.01 {
					t.Errorf("%q is %.0f points wide", w.Text, wide)
				}
			}
		}
		if !strings.Contains(said, given+", f/16 ") || rows != len(d.Rows) {
			t.Errorf("%s: the figures are %q in %d rows of %d", given, said, rows, len(d.Rows))
		}
	}
}
