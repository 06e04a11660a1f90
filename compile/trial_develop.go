package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
)

// What a test of development says.

// bath is the sheets that were developed for one time.
type bath struct {
	seconds float64
	text    string
	sheets  []*sheet
}

// baths are the developing times of the test, the shortest first.
func (m *measuring) baths() []*bath {
	var all []*bath
	for _, sh := range m.series.sheets {
		seconds, ok := developedFor(sh)
		if !ok {
			m.need("the developing time of " + sh.shown + ": develop " + sh.shown + ": N, 9m, 20C")
			continue
		}
		i := slices.IndexFunc(all, func(b *bath) bool { return b.seconds == seconds })
		if i < 0 {
			all = append(all, &bath{seconds: seconds, text: exposure.FormatTime(seconds)})
			i = len(all) - 1
		}
		all[i].sheets = append(all[i].sheets, sh)
	}
	slices.SortFunc(all, func(a, b *bath) int { return cmp.Compare(a.seconds, b.seconds) })
	return all
}

// developedFor is the time that a sheet was last developed for.
func developedFor(sh *sheet) (seconds float64, ok bool) {
	for _, d := range slices.Backward(sh.developed) {
		if seconds, ok = timeIn(d.st); ok && !d.maybe {
			return seconds, true
		}
	}
	return 0, false
}

// timeIn is the developing time on a line.
func timeIn(st *lang.Statement) (seconds float64, ok bool) {
	all := st.Terms()
	for i := range all {
		k, isExposure := all[i].Kind.(*lang.Exposure)
		if !isExposure || len(k.Parts) != 1 || k.Parts[0].Time == nil || all[i].Struck || all[i].Doubtful {
			continue
		}
		if each, fine := exposures(*k.Parts[0].Time); fine {
			return each[0], true
		}
	}
	return 0, false
}

func (m *measuring) development() {
	baths := m.baths()
	var curves []sensitometry.Developed
	var named []namedCurve
	var all []point
	var odd []sensitometry.Odd
	var used []*record.Sheet
	for _, b := range baths {
		m.fogs(b.sheets)
		points := m.points(b.sheets, exposed{})
		film, err := m.film(points, len(b.sheets))
		if err != nil {
			m.need("more densities of the sheets that had " + b.text)
			continue
		}
		m.odd(b.sheets, film.Odd)
		for _, i := range sensitometry.OutOf(film.Odd) {
			odd = append(odd, sensitometry.Odd{Sheet: slices.Index(m.series.sheets, b.sheets[i])})
		}
		for _, p := range points {
			p.Sheet = slices.Index(m.series.sheets, p.sheet)
			all = append(all, p)
		}
		curves = append(curves, sensitometry.Developed{Seconds: b.seconds, Curve: film.Curve})
		named = append(named, namedCurve{b.text, film.Curve})
		m.keep(b.sheets, film.Curve)
		m.gradients(b, film)
		used = append(used, m.from(b.sheets, film.Odd)...)
	}
	if len(named) > 0 {
		m.out.Plots = append(m.out.Plots, *m.curvePlot("characteristic curves of "+m.series.film, named, all, odd))
	}
	if len(curves) > 0 {
		m.errorNote()
	}
	if len(curves) < 2 {
		m.need("sheets developed for at least two times")
		return
	}
	m.times(curves, baths, used)
}

// gradients are the slopes of one time's curve.
func (m *measuring) gradients(b *bath, film *sensitometry.Film) {
	from := m.from(b.sheets, film.Odd)
	add := func(of, how string, v sensitometry.Figure, ok bool) {
		r := record.TestResult{Of: of + " at " + b.text, How: how, From: from}
		if ok {
			r.Value, r.Text = record.Known(v.Value), withinFigure(v)
			r.Error, r.ErrorIn = record.Known(v.Sd), " "
		} else {
			r.Why = "the curve does not reach so far"
		}
		m.out.Results = append(m.out.Results, r)
	}
	g, ok := sensitometry.AverageGradient(film.Curve, 1.3)
	add("average gradient", "from 0.10 over base and fog to 1.30 of log₁₀ exposure further (ISO 6:1993)", g, ok)
	ci, ok := sensitometry.ContrastIndex(film.Curve)
	add("contrast index", "the line from base and fog that meets the curve at 0.2 and 2.2 (Niederpruem, Nelson and Yule 1966)", ci, ok)
}

// within is the error of a time.
func within(n sensitometry.Needed) string {
	if n.Sd == 0 {
		return ""
	}
	return ", ±" + exposure.FormatTime(max(roundTo(n.Sd, 5), 5))
}

// withinFigure is a ratio with its error.
func withinFigure(f sensitometry.Figure) string {
	return fmt.Sprintf("%.2f, ±%.2f", f.Value, max(f.Sd, 0.01))
}

// times are those for N−2 to N+2.
func (m *measuring) times(curves []sensitometry.Developed, baths []*bath, used []*record.Sheet) {
	target, how := sensitometry.Usual, "0.10 on I and 1.30 on VIII (common practice, no source)"
	if t := m.kit().target; t != nil {
		target = *t
		how = fmt.Sprintf("%s on %s and %s on %s, as the notes aim", trim(t.Low), exposure.Roman(t.LowZone), trim(t.High), exposure.Roman(t.HighZone))
	}
	var from []*record.Sheet
	for _, sh := range m.out.Sheets {
		if slices.Contains(used, sh) {
			from = append(from, sh)
		}
	}
	plot := record.TestPlot{Title: "developing times", Kind: record.Against, X: "N", Y: "minutes"}
	line := record.PlotLine{Name: m.series.film, Joined: true}
	var offered []sensitometry.Needed
	first := 0 // the result that the line for the kit stands at
	for _, n := range sensitometry.Times(curves, target) {
		res := record.TestResult{Of: nText(n.N), How: how, Unit: "s", From: from, Why: n.Why, Declared: m.declaredTime(n.N)}
		if n.Known {
			res.Value, res.Text = record.Known(n.Seconds), exposure.FormatTime(roundTo(n.Seconds, 5))+within(n)
			res.Error, res.ErrorIn = record.Known(n.Sd), "s"
			if offered = append(offered, n); len(offered) == 1 {
				first = len(m.out.Results)
			}
			line.Points = append(line.Points, [2]float64{n.N, n.Seconds / 60})
		}
		m.out.Results = append(m.out.Results, res)
	}
	if len(offered) > 0 {
		m.out.Results[first].Offer = m.timesLine(offered, baths)
	}
	if plot.Lines = append(plot.Lines, line); len(line.Points) > 1 {
		m.out.Plots = append(m.out.Plots, plot)
	}
	m.note("times lie only between those that were tested, with the logarithm of the time on a monotone curve (Fritsch and Butland 1984)")
}

// timesLine is the film's line with all times that were found, at the temperature
// of the test where all its baths had one.
func (m *measuring) timesLine(offered []sensitometry.Needed, baths []*bath) string {
	celsius, at := 0., ""
	for _, b := range baths {
		for _, sh := range b.sheets {
			if c := degreesOf(sh); celsius == 0 || c == celsius {
				celsius = c
			} else {
				celsius = math.NaN()
			}
		}
	}
	if celsius > 0 { // one and known
		at = " at " + trim(celsius) + "C"
	}
	var figures []string
	for _, n := range offered {
		figures = append(figures, asciiN(n.N)+" "+clockTime(roundTo(n.Seconds, 5))+at)
	}
	return m.filmLine(strings.Join(figures, ", "), func(kind any) bool {
		k, is := kind.(*lang.TimeFor)
		return is && (k.Time != nil) && (k.At == nil || at == "" || exposure.Round(float64(*k.At)) == celsius) &&
			slices.ContainsFunc(offered, func(n sensitometry.Needed) bool { return float64(k.N) == n.N })
	})
}

// degreesOf is the temperature that a sheet was last developed at, 0 where it is
// not written.
func degreesOf(sh *sheet) float64 {
	for _, d := range slices.Backward(sh.developed) {
		if _, ok := timeIn(d.st); !ok || d.maybe {
			continue
		}
		for i := range d.st.Terms() {
			if k, ok := d.st.Terms()[i].Kind.(*lang.Temperature); ok && !d.st.Terms()[i].Struck && !d.st.Terms()[i].Doubtful {
				return exposure.Round(float64(k.C))
			}
		}
		return 0
	}
	return 0
}

func (m *measuring) declaredTime(n float64) string {
	f := m.filmOf(m.series.sheets[0])
	if f == nil {
		return ""
	}
	for _, d := range f.times {
		if d.n == n {
			return exposure.FormatTime(d.seconds) + ", " + place(d.at)
		}
	}
	return ""
}

func roundTo(v, step float64) float64 { return step * float64(int(v/step+0.5)) }

// clockTime is minutes and seconds as a kit writes them: 6:30.
func clockTime(seconds float64) string {
	return fmt.Sprintf("%d:%02d", int(seconds)/60, int(seconds)%60)
}

// asciiN is N-1 as a kit writes it.
func asciiN(n float64) string {
	switch {
	case n == 0:
		return "N"
	case n < 0:
		return "N-" + trim(-n)
	}
	return "N+" + trim(n)
}
