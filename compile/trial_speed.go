package compile

import (
	"fmt"
	"math"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
)

// What a test of film speed says.

func (m *measuring) speed() {
	points := m.points(m.series.sheets, exposed{})
	if len(points) == 0 {
		m.need("densities: density " + m.series.sheets[0].shown + ": base+fog 0.07, card 0.10")
		return
	}
	film, err := m.film(points, len(m.series.sheets))
	if err != nil {
		m.failed(err)
		return
	}
	m.odd(m.series.sheets, film.Odd)
	m.keep(m.series.sheets, film.Curve)
	from := m.from(m.series.sheets, film.Odd)
	plot := m.curvePlot("characteristic curve of "+m.series.film, []namedCurve{{m.series.film, film.Curve}}, points, film.Odd)
	m.index(film, from)
	m.criterion(film, from, plot)
	m.out.Plots = append(m.out.Plots, *plot, *m.leftOver(film.Curve, points))
	m.lightNote()
	m.errorNote()
}

// index is the exposure index by the density at Zone I.
func (m *measuring) index(film *sensitometry.Film, from []*record.Sheet) {
	rated, ok := m.ratedAlike()
	res := record.TestResult{
		Of: "exposure index", How: "the density 0.10 over base and fog at Zone I, four stops below the reading, interpolated on the curve",
		Unit: "EI", From: from, Declared: m.declaredEI(),
	}
	switch {
	case m.lux:
		return
	case !m.based:
		res.Why = "some sheets have no reading of the light"
	case !ok:
		res.Why = "the sheets are not rated at one index"
	default:
		ei, sd, reached := sensitometry.Index(film.Curve, rated)
		if !reached {
			res.Why = "no exposure that was tested comes to 0.10 over base and fog, or all lie above it"
			break
		}
		res.Value, res.Error = record.Known(ei), record.Known(sd)
		res.Text = eiWithin(ei, sd)
		res.Offer = m.filmLine("EI "+trim(exposure.NearestIndex(ei)), func(kind any) bool { _, is := kind.(*lang.FilmEI); return is })
		m.fogWanted(film, sd)
		m.hangsOn(film, rated, ei)
		res.Moves = m.byIndex(exposure.NearestIndex(ei))
		res.Effects = effects(res.Moves, true)
		if len(film.Odd) > 0 {
			if all, sd, reached := sensitometry.Index(film.With, rated); reached {
				res.WithOdd = eiWithin(all, sd)
			}
		}
	}
	m.out.Results = append(m.out.Results, res)
}

// sure is the standard error, in stops, of a speed that lies within a tenth of a
// stop in 995 of 1000 tests.
const sure = 0.1 / 2.81

// fogWanted says how many readings of the base and fog would bring the index within
// a tenth of a stop, where they are what it lacks. sd is in stops.
func (m *measuring) fogWanted(film *sensitometry.Film, sd float64) {
	fog := film.Curve.ByFog(sensitometry.SpeedPoint) / sensitometry.Stop
	rest := math.Sqrt(max(sd*sd-fog*fog, 0))
	if sd <= sure || rest >= sure || fog < sd/2 {
		return
	}
	had := m.sd * m.sd / (film.Fog.Sd * film.Fog.Sd)
	wanted := fog * fog / (sure*sure - rest*rest)
	m.note("±%.2f stop of the index is the error of the base and fog: %s more of it, or of a step four stops and more below the speed point, would bring the index within a tenth of a stop for all but certain", fog, countOf(int(math.Ceil(had*(wanted-1))), "reading"))
}

// hangsOn names the sheet without which the index would be another by more than a
// sixth of a stop.
func (m *measuring) hangsOn(film *sensitometry.Film, rated, ei float64) {
	var most float64
	said := ""
	for i, sh := range m.series.sheets {
		if slices.Contains(sensitometry.OutOf(film.Odd), i) {
			continue
		}
		c := film.Without(i)
		if c == nil {
			continue
		}
		other, _, ok := sensitometry.Index(c, rated)
		if moved := math.Abs(math.Log2(other / ei)); ok && moved > max(most, 1./6) {
			most, said = moved, fmt.Sprintf("the index hangs on %s: without it, it would be EI %s (%s off); more sheets near Zone I, or a step tablet, would hold it", sh.shown, trim(exposure.NearestIndex(other)), exposure.InStops(moved))
		}
	}
	if said != "" {
		m.note("%s", said)
	}
}

// eiWithin is an index at its nearest mark, and what was reckoned.
func eiWithin(ei, sd float64) string {
	return fmt.Sprintf("EI %s (%.0f reckoned%s)", trim(exposure.NearestIndex(ei)), ei, withinStops(sd))
}

// lightNote says what is known of a drift of the light.
func (m *measuring) lightNote() {
	if !m.based {
		return
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, sh := range m.series.sheets {
		least, most = min(least, sh.sum.base), max(most, sh.sum.base)
	}
	switch {
	case len(m.series.sheets) < 2:
	case most-least < 1e-6:
		m.note("one reading stands for all sheets: whether the light drifted between them is not known")
	default:
		m.note("the light was read for the sheets, and what it drifted, %s from the least to the most, is in their exposures", exposure.InStops(most-least))
	}
}

// ratedAlike is the index of all sheets.
func (m *measuring) ratedAlike() (ei float64, ok bool) {
	for _, sh := range m.series.sheets {
		if sh.sum.ei == 0 || ei != 0 && sh.sum.ei != ei {
			return 0, false
		}
		ei = sh.sum.ei
	}
	return ei, true
}

func (m *measuring) declaredEI() string {
	f := m.filmOf(m.series.sheets[0])
	if f == nil || f.at == nil {
		return ""
	}
	if text := eiText(f); text != "" {
		return text + ", " + place(f.at.Span)
	}
	if f.iso != 0 {
		return iso(f.iso) + ", " + place(f.at.Span)
	}
	return ""
}

// criterion is what ISO 6 says, as far as the curve reaches.
func (m *measuring) criterion(film *sensitometry.Film, from []*record.Sheet, plot *record.TestPlot) {
	res := record.TestResult{
		Of: "ISO speed", How: "ISO 6:1993: the density rises by 0.80 over the 1.30 of log₁₀ exposure behind the point 0.10 over base and fog; S = 0.8/Hm, Hm in lux seconds",
		From: from,
	}
	iso, ok := sensitometry.Criterion(film.Curve)
	switch {
	case !ok:
		res.Why = "the curve does not reach from 0.10 over base and fog to 1.30 of log₁₀ exposure further"
	case !iso.Meets:
		res.Why = fmt.Sprintf("the density rises by %.2f over that stretch, not by 0.80: the criterion takes another development", iso.Rise)
	case !m.lux:
		res.Why = fmt.Sprintf("the curve meets the criterion (a rise of %.2f), but its exposures are not in lux seconds", iso.Rise)
	default:
		sd := iso.Hm.Sd / sensitometry.Stop
		res.Value, res.Error = record.Known(iso.Speed), record.Known(sd)
		res.Text = fmt.Sprintf("ISO %s (%.0f reckoned%s)", trim(exposure.NearestIndex(iso.Speed)), iso.Speed, withinStops(sd))
	}
	m.out.Results = append(m.out.Results, res)
	if ok {
		at := iso.Hm.Value
		plot.Marks = append(plot.Marks, record.PlotMark{At: [2]float64{at, 0.1}, Text: "0.10"},
			record.PlotMark{At: [2]float64{at + 1.3, 0.1 + iso.Rise}, Text: fmt.Sprintf("+1.30: %.2f", 0.1+iso.Rise)})
	}
	for _, span := range []struct {
		logH float64
		how  string
	}{{1.3, "from 0.10 over base and fog to 1.30 of log₁₀ exposure further (ISO 6:1993)"}} {
		if g, ok := sensitometry.AverageGradient(film.Curve, span.logH); ok {
			m.out.Results = append(m.out.Results, record.TestResult{Of: "average gradient", How: span.how, Value: record.Known(g.Value), Error: record.Known(g.Sd), ErrorIn: " ", Text: withinFigure(g), From: from})
		}
	}
}

// leftOver is what the curve leaves of each density.
func (m *measuring) leftOver(c *sensitometry.Curve, points []point) *record.TestPlot {
	p := &record.TestPlot{Title: "what the curve leaves", Kind: record.Residuals, X: "log₁₀ of the exposure", Y: "density, measured less curve"}
	line := record.PlotLine{}
	for _, pt := range points {
		d, ok := c.Density(pt.LogH)
		if !ok {
			continue
		}
		line.Points = append(line.Points, [2]float64{pt.LogH, pt.D - d})
		if math.Abs(pt.D-d) > 5*pt.Sd {
			p.Marks = append(p.Marks, record.PlotMark{At: [2]float64{pt.LogH, pt.D - d}, Text: pt.sheet.shown, Odd: true})
		}
	}
	p.Lines = append(p.Lines, line)
	return p
}
