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
	"notchbook/lang/source"
)

// What tests of reciprocity, of a shutter and of meters say.

func (m *measuring) reciprocity() {
	sheets := slices.DeleteFunc(m.measured(), func(sh *sheet) bool { return m.byClock(sh).seconds <= 0 })
	points := m.points(sheets, exposed{byClock: true})
	if len(points) == 0 {
		m.need("densities: density " + m.series.sheets[0].shown + ": base+fog 0.07, card 0.72")
		return
	}
	test := &sensitometry.LongTest{Readings: readingsOf(points)}
	for _, sh := range sheets {
		seconds := m.byClock(sh).seconds
		test.Seconds = append(test.Seconds, seconds)
		if _, status := m.ruleOf(sh).Corrected(seconds); seconds <= 1 && status == exposure.Below {
			test.Short = max(test.Short, seconds)
		}
	}
	law, err := test.Solve()
	if err != nil {
		m.failed(err)
		return
	}
	m.odd(sheets, law.Odd)
	from := m.from(sheets, law.Odd)
	res := record.TestResult{Of: "exponent", How: "a power law above a threshold, fitted to what each time loses", From: from, Error: record.Known(law.Exponent.Sd), ErrorIn: " "}
	if law.Known {
		text := fmt.Sprintf("t^%.2f, ±%.2f", law.Exponent.Value, max(law.Exponent.Sd, 0.01))
		over := 1.
		if law.Threshold > 0 {
			over = law.Threshold
			text += " over " + exposure.FormatTime(over)
			if !law.Found {
				text += " (the usual threshold; the data do not speak against it)"
			}
		} else if law.Together != nil {
			text += " over " + exposure.FormatTime(over) + " (the usual threshold, up to which the times are taken to lose nothing)"
		} else {
			text += fmt.Sprintf("; the threshold lies below %s, and the test does not show where", exposure.FormatTime(law.From))
		}
		res.Value, res.Text = record.Known(law.Exponent.Value), text
		res.Offer = m.filmLine(fmt.Sprintf("reciprocity t^%.2f over %ss", law.Exponent.Value, trim(math.Round(over*10)/10)), func(kind any) bool {
			_, is := kind.(*lang.RuleOf)
			return is
		})
		if rule, err := exposure.PowerLaw(math.Round(law.Exponent.Value*100)/100, math.Round(over*10)/10); err == nil {
			res.Moves = m.byRule(rule)
			res.Effects = effects(res.Moves, false)
		}
	} else {
		res.Why = "cannot tell: " + law.CannotTell
		short := map[float64]bool{}
		for _, pt := range points {
			if test.Seconds[pt.Sheet] <= max(test.Short, law.Losses[0].Seconds) {
				short[exposure.Round(pt.LogH)] = true
			}
		}
		if len(short) < 4 {
			m.need(shortTimes)
		}
	}
	if law.Misses { // of an exponent that is not known too: the times tell what they lose
		res.Why = fmt.Sprintf("the times lie off it by more than their errors (%.2f stop in the mean): the film follows no power law, or a sheet does not belong", law.Rms)
		res.Offer, res.Moves, res.Effects = "", nil, nil
		if rule, written, ok := tableOf(law); ok {
			res.Offer = m.filmLine("reciprocity "+written, func(kind any) bool { _, is := kind.(*lang.RuleOf); return is })
			res.Moves = m.byRule(rule)
			res.Effects = effects(res.Moves, false)
		}
	}
	m.out.Results = append(m.out.Results, res)
	m.losses(law, from)
	shortest, seconds := law.From, test.Seconds
	if n := len(law.Together); n > 0 {
		shortest = law.Together[0]
		for i := range seconds {
			seconds[i] = max(seconds[i], law.From)
		}
		m.note("the times from %s to %s are taken as one that loses nothing: the densities are too few to tell of each what it loses", exposure.FormatTime(shortest), exposure.FormatTime(law.From))
	}
	m.odditiesOfTimes(seconds)
	m.note("tested from %s to %s; beyond that nothing is known", exposure.FormatTime(shortest), exposure.FormatTime(law.To))
	m.errorNote()
}

// tableOf is the losses as a table of a kit, from the shortest time to the longest that
// was tested; ok is false where the shortest is no time that loses nothing, or the
// figures make no rule.
func tableOf(law *sensitometry.Law) (rule exposure.Rule, written string, ok bool) {
	var points []exposure.Point
	var pairs []string
	for _, l := range law.Losses {
		metered := round2(l.Seconds * math.Exp2(-l.Stops.Value))
		if l.Seconds <= 1 || l.Stops.Sd > 0.5 {
			continue
		}
		clock := max(l.Seconds, metered)
		points = append(points, exposure.Point{Metered: metered, Clock: clock})
		pairs = append(pairs, trim(metered)+"s="+trim(clock)+"s")
	}
	if law.From > 1 || len(points) < 2 {
		return rule, "", false
	}
	rule, err := exposure.Table(0, points)
	return rule, strings.Join(pairs, " "), err == nil
}

// round2 is a time to two figures.
func round2(seconds float64) float64 {
	step := math.Pow(10, math.Floor(math.Log10(seconds))-1)
	return exposure.Round(math.Round(seconds/step) * step)
}

// odditiesOfTimes says at which times a sheet that does not belong would not be seen, or not be known.
func (m *measuring) odditiesOfTimes(seconds []float64) {
	of := map[float64]int{}
	for _, s := range seconds {
		of[s]++
	}
	var one, two []string
	for _, s := range sortedKeys(of) {
		switch of[s] {
		case 1:
			one = append(one, exposure.FormatTime(s))
		case 2:
			two = append(two, exposure.FormatTime(s))
		}
	}
	if len(one) > 0 {
		m.note("a sheet that does not belong shows only beside another of its time, not at %s", strings.Join(one, ", "))
	}
	if len(two) > 0 {
		m.note("of two sheets of one time that disagree nothing tells which does not belong: so at %s", strings.Join(two, ", "))
	}
}

// losses is each time with what it loses, what the law leaves of it, and what the
// declared rule says.
func (m *measuring) losses(law *sensitometry.Law, from []*record.Sheet) {
	rules := []namedRule{{"the film's declared rule", m.ruleOf(m.series.sheets[0]), ""}}
	if f := m.filmOf(m.series.sheets[0]); f != nil && len(f.rules) > 1 {
		rules = nil
		for _, r := range f.rules {
			rules = append(rules, namedRule{"the film's rule " + strings.TrimSpace(r.name+" "+r.how), r.rule, ""})
		}
	}
	plot := record.TestPlot{Title: "what long times lose", Kind: record.Against, X: "log₁₀ of seconds by the clock", Y: "stops lost"}
	measured, declared := record.PlotLine{Name: "tested"}, make([]record.PlotLine, len(rules))
	for k, r := range rules {
		declared[k] = record.PlotLine{Name: "declared", Joined: true}
		if len(rules) > 1 {
			declared[k].Name = strings.TrimPrefix(r.name, "the film's rule ")
		}
	}
	left := record.TestPlot{Title: "what the law leaves", Kind: record.Residuals, X: "log₁₀ of seconds by the clock", Y: "stops"}
	rest := record.PlotLine{}
	for _, l := range law.Losses {
		x := math.Log10(l.Seconds)
		res := record.TestResult{
			Of: exposure.FormatTime(l.Seconds), How: "against the shortest time of the test", Unit: "stops", From: from,
			Value: record.Known(l.Stops.Value), Error: record.Known(l.Stops.Sd), Text: fmt.Sprintf("loses %.2f stop%s", l.Stops.Value, withinStops(l.Stops.Sd)),
		}
		if l.Stops.Sd > 2 { // nothing was read of it
			m.out.Results = append(m.out.Results, record.TestResult{Of: res.Of, How: res.How, Unit: res.Unit, From: from, Why: "the densities do not tell it"})
			continue
		}
		if law.Known {
			res.Text += fmt.Sprintf("; %.2f of it left by the law", l.Residue)
			rest.Points = append(rest.Points, [2]float64{x, l.Residue})
		}
		var said []string
		for k, r := range rules {
			if effective, status := r.rule.Effective(l.Seconds); !r.rule.IsZero() && status != exposure.Beyond {
				loss := math.Log2(l.Seconds / effective)
				said = append(said, fmt.Sprintf("%.2f stop by %s", loss, r.name))
				declared[k].Points = append(declared[k].Points, [2]float64{x, loss})
			}
		}
		res.Declared = strings.Join(said, ", ")
		measured.Points = append(measured.Points, [2]float64{x, l.Stops.Value})
		m.out.Results = append(m.out.Results, res)
	}
	plot.Lines = append(append(plot.Lines, measured), declared...)
	m.out.Plots = append(m.out.Plots, plot)
	if left.Lines = append(left.Lines, rest); law.Known {
		m.out.Plots = append(m.out.Plots, left)
	}
}

// shutterTest is a lens's shutter as it was timed, and the sheets that it was
// used for.
func (g *gatherer) shutterTest(l *lens) *record.Test {
	t := &record.Test{Kind: "shutter", Name: "shutter " + l.name, Title: "Shutter of " + l.name, Place: placeOf(l.timings[0].at), Slug: g.slugs.unique("test shutter "+l.name, "test")}
	plot := record.TestPlot{Title: "how far the speeds are off", Kind: record.Steps, Y: "stops, + gives more"}
	line := record.PlotLine{Name: l.name}
	var seen []*record.Sheet
	for i, timed := range l.timings {
		s := sensitometry.Shutter(timed.marked, timed.real)
		var used []*record.Sheet
		for _, sh := range g.season.sheets {
			if sh.lens.v == l && slices.Contains(sh.sum.nominal, timed.marked) && slices.ContainsFunc(l.timedFor(sh), timed.is) {
				used = append(used, g.sheet[sh])
			}
		}
		for _, sh := range used {
			if !slices.Contains(seen, sh) {
				seen = append(seen, sh)
			}
		}
		res := record.TestResult{
			Of: timed.as, How: "median of " + countOf(s.Count, "reading"), Unit: "ms", Value: record.Known(1000 * s.Median), From: used,
			Text: fmt.Sprintf("%s ms, spread %s ms, %s", trim(math.Round(s.Median*1e4)/10), trim(math.Round(s.Spread*1e4)/10), gives(s.Off)),
		}
		for _, again := range l.timings[i+1:] {
			if again.marked == timed.marked {
				res.Why = fmt.Sprintf("timed again (%s ms, %s), which counts from there on; this was %s", trim(math.Round(sensitometry.Median(again.real)*1e4)/10), g.dayOf(again.at), g.dayOf(timed.at))
			}
		}
		res.Moves = g.byShutter(l, timed)
		res.Effects = effects(res.Moves, false)
		if s.Sd > 0 {
			res.Error, res.ErrorIn = record.Known(s.Sd), "stop, of one opening"
		}
		t.Results = append(t.Results, res)
		line.Points = append(line.Points, [2]float64{float64(i + 1), s.Off})
		plot.Marks = append(plot.Marks, record.PlotMark{At: [2]float64{float64(i + 1), 0}, Text: timed.as})
	}
	plot.Lines = append(plot.Lines, line)
	t.Plots, t.Sheets = append(t.Plots, plot), seen
	if len(seen) > 0 {
		t.Notes = append(t.Notes, "the sheets that used these speeds are checked with the medians: what they got is given by them, what was asked is not")
	}
	return t
}

// dayOf is the day of the outing that a line stands in, with its place.
func (g *gatherer) dayOf(at source.Span) string {
	day := ""
	for _, o := range g.season.outings {
		if o.at.File == at.File && o.at.Start <= at.Start {
			day = cmp.Or(o.iso, o.date)
		}
	}
	return strings.TrimSpace(day + " " + placeOf(at).String())
}

func gives(stops float64) string {
	switch {
	case math.Abs(stops) < 1./12:
		return "as marked"
	case stops > 0:
		return "gives " + exposure.InStops(stops) + " more than marked"
	}
	return "gives " + exposure.InStops(stops) + " less than marked"
}

func countOf(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
