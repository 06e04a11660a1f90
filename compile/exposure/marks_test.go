package exposure

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// How the notation's traps are read: lang/NOTATION.md, "Traps, and how they are read".
func TestReadAperture(t *testing.T) {
	third := 1. / 3
	cases := []struct {
		marked, past float64
		av           float64
		how          How
		shown        string
	}{
		{16, 0, 8, OnMark, "f/16"},
		{16.0, third, 8 + third, OnMark, "f/16⅓"},
		{16.5, 0, 8.5, PastMark, "f/16½"},
		{16.3, 0, 8 + third, PastMark, "f/16⅓"},
		{16.33, 0, 8 + third, PastMark, "f/16⅓"},
		{16.7, 0, 8 + 2*third, PastMark, "f/16⅔"},
		{16.4, 0, 8.4, PastMark, "f/16+0.4"},
		{8.2, 0, 6.2, PastMark, "f/8+0.2"},
		{45.5, 0, 11.5, PastMark, "f/45½"},
		{5.6, 0.6, 5.6, OnMark, "f/5.6+0.6"},
		{22, 2 * third, 9 + 2*third, OnMark, "f/22⅔"},
		{6.3, 0, 5 + third, OnMark, "f/5.6⅓"},
		{4.5, 0, 4 + third, OnMark, "f/4⅓"},
		{9.5, 0, 6.5, OnMark, "f/8½"},
		{3.5, 0, 3 + 2*third, OnMark, "f/2.8⅔"},
		{2.5, 0, 2 + 2*third, OnMark, "f/2⅔"},
		{1.7, 0, 1.5, OnMark, "f/1.4½"},
		{13, 0, 7 + third, OnMark, "f/11⅓"}, // printed for the half stop too; the third is nearer
		{6.8, 0, 2 * math.Log2(6.8), AsWritten, "f/5.6½"},
		{7.7, 0, 2 * math.Log2(7.7), AsWritten, "f/5.6+0.9"},
		{12.5, 0, 2 * math.Log2(12.5), AsWritten, "f/11⅓"},
		{0.95, 0, 2 * math.Log2(0.95), AsWritten, "f/0.95"},
	}
	for _, c := range cases {
		got, ok := ApertureAv(c.marked, c.past)
		read, _ := ReadAperture(c.marked)
		if !ok || math.Abs(got-c.av) > exact || read.How != c.how {
			t.Errorf("f/%g past %g: Av %g read %v, want %g read %v", c.marked, c.past, got, read.How, c.av, c.how)
		}
		if shown := FormatAperture(got); shown != c.shown {
			t.Errorf("f/%g past %g: shown %q, want %q", c.marked, c.past, shown, c.shown)
		}
	}
}

func TestReadAperturePastTellsFromWhere(t *testing.T) {
	got, _ := ReadAperture(16.5)
	if want := (Aperture{Av: 8.5, How: PastMark, Mark: 16, Past: 0.5}); got != want {
		t.Errorf("f16.5 read as %+v, want %+v", got, want)
	}
}

// Times in the series are powers of two; old speeds and long times are what they say.
func TestTimeSeconds(t *testing.T) {
	cases := []struct{ num, den, want float64 }{
		{1, 2, 1. / 2}, {1, 4, 1. / 4}, {1, 8, 1. / 8}, {1, 15, 1. / 16}, {1, 30, 1. / 32}, {1, 60, 1. / 64},
		{1, 125, 1. / 128}, {1, 250, 1. / 256}, {1, 500, 1. / 512}, {1, 1000, 1. / 1024}, {1, 2000, 1. / 2048},
		{1, 40, math.Exp2(-16. / 3)}, {1, 80, math.Exp2(-19. / 3)}, {1, 160, math.Exp2(-22. / 3)},
		{1, 320, math.Exp2(-25. / 3)}, {1, 13, math.Exp2(-11. / 3)}, {1, 3, math.Exp2(-5. / 3)},
		{1, 5, 0.2}, {1, 10, 0.1}, {1, 25, 0.04}, {1, 50, 0.02}, {1, 100, 0.01}, {1, 150, 1. / 150},
		{1, 200, 0.005}, {1, 300, 1. / 300}, {1, 400, 0.0025}, {1, 64, 1. / 64}, {3, 4, 0.75},
		{0.5, 1, 0.5}, {0.7, 1, math.Sqrt2 / 2}, {0.3, 1, math.Exp2(-5. / 3)},
		{1, 1, 1}, {2, 1, 2}, {2.5, 1, 2.5}, {90, 1, 90}, {20, 1, 20}, {125, 1, 125},
	}
	for _, c := range cases {
		if got, ok := TimeSeconds(c.num, c.den); !ok || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%g/%g is %g s, want %g", c.num, c.den, got, c.want)
		}
	}
}

// Marks the notation leaves as written, or figures that are none, are refused.
func TestNotAMark(t *testing.T) {
	for _, x := range []float64{0, -16, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, ok := ApertureAv(x, 0); ok {
			t.Errorf("f/%g was taken", x)
		}
		if _, ok := TimeSeconds(1, x); ok {
			t.Errorf("1/%g was taken", x)
		}
		if _, ok := TimeSeconds(x, 1); ok {
			t.Errorf("%g s was taken", x)
		}
		if _, ok := SpeedSv(x); ok {
			t.Errorf("ISO %g was taken", x)
		}
		if _, ok := SpeedShift(100, x); ok {
			t.Errorf("meter at ISO %g was taken", x)
		}
	}
	if _, ok := ApertureAv(16, math.NaN()); ok {
		t.Error("a part that is no number was taken")
	}
}

// A series is a table typed by hand: in order, and each mark near what it prints.
func TestSeriesAreSound(t *testing.T) {
	exactOf := map[string]func(sixths float64) float64{
		"aperture": func(s float64) float64 { return math.Exp2(s / 12) },
		"time":     func(s float64) float64 { return math.Exp2(s / 6) },
		"decimal":  func(s float64) float64 { return math.Exp2(-s / 6) },
		"speed":    func(s float64) float64 { return 3.125 * math.Exp2(s/6) },
	}
	for name, series := range map[string][]mark{
		"aperture": apertureMarks, "time": timeMarks, "decimal": decimalMarks, "speed": speedMarks,
	} {
		for i, m := range series {
			if i > 0 && m.printed <= series[i-1].printed {
				t.Errorf("%s %g is out of order", name, m.printed)
			}
			value := exactOf[name](float64(m.sixths))
			if math.Abs(math.Log2(value/m.printed)) > 0.125 {
				t.Errorf("%s %g names %g", name, m.printed, value)
			}
		}
	}
}

// Every mark comes back as itself when written for people and read again.
func TestMarkRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(apertureMarks).Draw(t, "aperture")
		want, _ := ApertureAv(m.printed, 0)
		if got := readShownAperture(t, FormatAperture(want)); math.Abs(got-want) > exact {
			t.Errorf("f/%g is shown as %s, which is Av %g, not %g", m.printed, FormatAperture(want), got, want)
		}
		d := rapid.SampledFrom(timeMarks).Draw(t, "time")
		seconds, _ := TimeSeconds(1, d.printed)
		if got := readShownTime(t, FormatTime(seconds)); math.Abs(Tv(got)-Tv(seconds)) > exact {
			t.Errorf("1/%g is shown as %s", d.printed, FormatTime(seconds))
		}
	})
}

// Old speeds are shown as engraved, not as the mark of the series beside them.
func TestOldSpeedRoundTrip(t *testing.T) {
	for _, d := range oldSpeeds {
		if got, want := FormatTime(1/d), "1/"+strconv.FormatFloat(d, 'f', -1, 64); got != want {
			t.Errorf("%s is shown as %s", want, got)
		}
	}
}

// readShownAperture reads what FormatAperture writes, as the notation would.
func readShownAperture(t *rapid.T, shown string) float64 {
	text := strings.TrimPrefix(shown, "f/")
	past := 0.0
	for glyph, part := range map[string]float64{"¼": .25, "⅓": 1. / 3, "½": .5, "⅔": 2. / 3, "¾": .75} {
		if rest, ok := strings.CutSuffix(text, glyph); ok {
			text, past = rest, part
		}
	}
	av, ok := ApertureAv(number(t, text), past)
	if !ok {
		t.Fatalf("%s cannot be read", shown)
	}
	return av
}

// readShownTime reads the parts of a second FormatTime writes.
func readShownTime(t *rapid.T, shown string) float64 {
	num, den := shown, "1"
	if d, ok := strings.CutPrefix(shown, "1/"); ok {
		num, den = "1", d
	}
	s, ok := TimeSeconds(number(t, strings.TrimSuffix(num, " s")), number(t, den))
	if !ok {
		t.Fatalf("%s cannot be read", shown)
	}
	return s
}

func number(t *rapid.T, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The exact value of a speed's mark is nearest to that mark of all, so that the
// mark comes back: ISO 6 prints thirds of a stop, some makers sixths between.
func TestSpeedMarksComeBack(t *testing.T) {
	for _, m := range speedMarks {
		sv, ok := SpeedSv(m.printed)
		if !ok {
			t.Fatalf("ISO %g is no speed", m.printed)
		}
		nearest := speedMarks[0]
		for _, other := range speedMarks {
			if math.Abs(float64(other.sixths)/6-sv) < math.Abs(float64(nearest.sixths)/6-sv) {
				nearest = other
			}
		}
		if nearest.printed != m.printed {
			t.Errorf("ISO %g comes back as ISO %g", m.printed, nearest.printed)
		}
	}
}

// U.S. = N²/16 (Kodakery 1913, in sizes.com "Uniform System"), there and back.
func TestUniformSystemComesBack(t *testing.T) {
	for us := 0.5; us <= 1024; us *= 2 {
		av, ok := UniformSystemAv(us)
		if n := FNumber(av); !ok || math.Abs(n*n/16-us) > exact*us {
			t.Errorf("U.S. %g comes back as %g", us, n*n/16)
		}
	}
}

// Whole seconds, marks below a second and minutes come back as they are said.
func TestTimesSaidComeBack(t *testing.T) {
	for whole := 1; whole < 60; whole++ {
		seconds, _ := TimeSeconds(float64(whole), 1)
		said, _, _ := strings.Cut(FormatTime(seconds), " s")
		if again, err := strconv.ParseFloat(said, 64); err != nil || again != float64(whole) {
			t.Errorf("%d s is said %q", whole, FormatTime(seconds))
		}
	}
	for _, m := range decimalMarks {
		seconds, _ := TimeSeconds(m.printed, 1)
		said := FormatTime(seconds)
		num, den, ok := strings.Cut(strings.TrimSuffix(said, " s"), "/")
		if !ok {
			den = "1"
		}
		n, err := strconv.ParseFloat(num, 64)
		d, errDen := strconv.ParseFloat(den, 64)
		if again, _ := TimeSeconds(n, d); err != nil || errDen != nil || math.Abs(Tv(again)-Tv(seconds)) > exact {
			t.Errorf("%g s is said %q, which is %g s, not %g", m.printed, said, again, seconds)
		}
	}
	for minutes := 1; minutes < 60; minutes++ {
		for _, rest := range []int{0, 15, 30} {
			said := FormatTime(float64(60*minutes + rest))
			d, err := time.ParseDuration(strings.ReplaceAll(said, " ", ""))
			if err != nil || d != time.Duration(60*minutes+rest)*time.Second {
				t.Errorf("%dm %ds is said %q", minutes, rest, said)
			}
		}
	}
}
