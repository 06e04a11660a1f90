package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
)

// What a test of meters says: each meter line of its scene reads the same light
// with two meters, by their names, or with one and by sunny 16.

// twice is one light as two meters show it.
type twice struct {
	first, second string
	a, b          float64 // EV
	st            *lang.Statement
}

func (m *measuring) meters() {
	var pairs []twice
	for _, st := range m.series.scene.meterLines {
		if p, ok := m.pairOf(st); ok {
			pairs = append(pairs, p)
		}
	}
	if len(pairs) == 0 {
		m.need("lines with two readings of one light: meter: spot EV 11.3, incident EV 11")
		return
	}
	for len(pairs) > 0 {
		first, second := pairs[0].first, pairs[0].second
		var a, b []float64
		var lines []twice
		pairs = slices.DeleteFunc(pairs, func(p twice) bool {
			if !strings.EqualFold(p.first, first) || !strings.EqualFold(p.second, second) {
				return false
			}
			a, b, lines = append(a, p.a), append(b, p.b), append(lines, p)
			return true
		})
		m.offset(first, second, a, b, lines)
	}
}

// pairOf is the two readings of a line.
func (m *measuring) pairOf(st *lang.Statement) (p twice, ok bool) {
	p.st = st
	var names []string
	var evs []float64
	cue := ""
	for i := range st.Terms {
		t := &st.Terms[i]
		if t.Struck || t.Doubtful || t.Unread {
			continue
		}
		switch k := t.Kind.(type) {
		case *lang.Cue:
			cue = k.Word
		case *lang.Exposure:
			if ev, fine := evOf(k); fine {
				names, evs = append(names, cmp.Or(strings.Join(k.Name, " "), cue)), append(evs, ev)
			}
			cue = ""
		case *lang.Sunny16:
			light, fine := handbook.Light(m.series.light)
			if !fine {
				m.need("the light, for sunny 16: light: sun")
				continue
			}
			names, evs = append(names, "sunny 16 ("+light.Name+")"), append(evs, light.EV100)
		}
	}
	if len(names) != 2 || names[0] == "" || names[1] == "" {
		return p, false
	}
	p.first, p.second, p.a, p.b = names[0], names[1], evs[0], evs[1]
	return p, true
}

// evOf is a reading as a light value.
func evOf(k *lang.Exposure) (float64, bool) {
	if k.EV != nil {
		return float64(*k.EV), true
	}
	var av, seconds float64
	for i := range k.Parts {
		if a := k.Parts[i].Aperture; a != nil {
			av, _ = apertureAv(*a)
		} else if each, ok := exposures(*k.Parts[i].Time); ok {
			seconds = each[0]
		}
	}
	return exposure.EV(av, seconds), len(k.Parts) == 2 && seconds > 0
}

func (m *measuring) offset(first, second string, a, b []float64, lines []twice) {
	o := sensitometry.Meters(a, b)
	res := record.TestResult{
		Of: first + " against " + second, How: "median of " + countOf(o.Count, "pair") + " (" + placesOf(lines) + ")", Unit: "EV", Value: record.Known(o.Median.Value), ErrorIn: "EV",
		Text: fmt.Sprintf("%s shows %.2f EV %s, spread %.1f", first, math.Abs(o.Median.Value), map[bool]string{true: "less", false: "more"}[o.Median.Value < 0], o.Spread),
	}
	if o.Median.Sd > 0 {
		res.Error = record.Known(o.Median.Sd)
		res.Text += fmt.Sprintf(", ±%.2f", o.Median.Sd)
	}
	if math.Abs(o.Median.Value) >= 1./6 {
		res.Offer = m.meterLine(first, "offset "+offsetWritten(-o.Median.Value))
	}
	for _, i := range o.Odd {
		m.note("%s does not belong to the others (%s)", quote(lines[i].st.Body.Text()), place(lines[i].st.Span))
	}
	plot := record.TestPlot{Title: first + " less " + second, Kind: record.Steps, Y: "EV"}
	line := record.PlotLine{Name: first}
	for i := range a {
		line.Points = append(line.Points, [2]float64{float64(i + 1), a[i] - b[i]})
		plot.Marks = append(plot.Marks, record.PlotMark{At: [2]float64{float64(i + 1), 0}, Text: fmt.Sprint(i + 1)})
	}
	plot.Lines = append(plot.Lines, line)
	m.out.Results, m.out.Plots = append(m.out.Results, res), append(m.out.Plots, plot)
}

// placesOf is where lines stand: the first and the last of each notebook.
func placesOf(lines []twice) string {
	first, last := placeOf(lines[0].st.Span), placeOf(lines[len(lines)-1].st.Span)
	switch {
	case len(lines) == 1:
		return first.String()
	case first.Path != last.Path:
		return first.String() + " to " + last.String()
	}
	return fmt.Sprintf("%s to %d", first, last.Line)
}

// meterLine is the meter's line of the kit as it could be.
func (m *measuring) meterLine(name, offset string) string {
	var parts []string
	if found, ok := find(m.kit().meters, name); ok {
		for part := range strings.SplitSeq(found.at.Body.Text(), ",") {
			if part = strings.TrimSpace(part); part != "" && !strings.HasPrefix(strings.ToLower(part), "offset") {
				if strings.HasPrefix(part, "test ") {
					break // its name may have commas
				}
				parts = append(parts, part)
			}
		}
	}
	return "meter " + name + ": " + strings.Join(append(parts, offset, m.kitTest()), ", ")
}

// offsetWritten is an offset in sixths of a stop as a kit writes it, from the
// nearest third.
func offsetWritten(ev float64) string {
	thirds := math.Round(ev * 3)
	whole, part := math.Trunc(math.Abs(thirds)/3), math.Mod(math.Abs(thirds), 3)
	sign := "+"
	if thirds < 0 {
		sign = "-"
	}
	switch {
	case part == 0:
		return sign + trim(whole)
	case whole == 0:
		return sign + trim(part) + "/3"
	}
	return sign + trim(3*whole+part) + "/3"
}

// wedge is the densities of the step wedge.
func (s *declaring) wedge(st *lang.Statement) {
	s.kit.wedge = wedgeOf(st)
	s.each(st, func(t *lang.Term) bool {
		_, ok := t.Kind.(*lang.Densitometer)
		return ok
	})
}

// wedgeOf is the densities that a line gives the steps of a wedge, by their names in lower
// case.
func wedgeOf(st *lang.Statement) map[string]float64 {
	steps := map[string]float64{}
	for i := range st.Terms {
		t := &st.Terms[i]
		if k, ok := t.Kind.(*lang.Densitometer); ok && !t.Doubtful && !t.Struck && !t.Unread {
			steps[strings.ToLower(strings.Join(k.Place, " "))] = float64(k.D[0])
		}
	}
	return steps
}

// wedgeBehind takes the wedge for the sheets below its line, up to the next: a later test may
// be made through another.
func (r *resolver) wedgeBehind(st *lang.Statement) { r.now.wedge = wedgeOf(st) }

// wedge is that behind which a sheet was exposed: the last above it in its notebook, else the
// kit's.
func (m *measuring) wedge(sh *sheet) map[string]float64 {
	if sh.wedge != nil {
		return sh.wedge
	}
	return m.kit().wedge
}

// target is what a negative is to have on two zones.
func (s *declaring) target(st *lang.Statement) {
	var zones, densities []float64
	s.each(st, func(t *lang.Term) bool {
		k, ok := t.Kind.(*lang.Densitometer)
		if !ok || k.Zone == nil || t.Doubtful {
			return false
		}
		zones, densities = append(zones, float64(*k.Zone)), append(densities, float64(k.D[0]))
		return true
	})
	if len(zones) != 2 || zones[0] >= zones[1] || densities[0] >= densities[1] {
		s.report("test-unclear", st.Span, "a target is two densities on two zones, the lower first").note("as in target: 0.10 on I, 1.30 on VIII")
		return
	}
	s.kit.target = &sensitometry.Target{LowZone: zones[0], Low: densities[0], HighZone: zones[1], High: densities[1]}
}
