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

// What a test of meters says: each meter line of its scene reads the same light
// with two meters, by their names, or with one and by sunny 16.

// twice is one light as two meters show it.
type twice struct {
	first, second shownLight
	st            *lang.Statement
}

// shownLight is a light as a meter shows it, or as sunny 16 has it.
type shownLight struct {
	name  string
	ev    float64
	at    float64 // the index that the light value is for, 0 for the film's
	known bool    // the kit says so
	rule  bool    // by sunny 16
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
		first, second := pairs[0].first.name, pairs[0].second.name
		var lines []twice
		pairs = slices.DeleteFunc(pairs, func(p twice) bool {
			if !strings.EqualFold(p.first.name, first) || !strings.EqualFold(p.second.name, second) {
				return false
			}
			lines = append(lines, p)
			return true
		})
		m.offset(lines)
	}
}

// alike brings two readings of one light to one index. Where the kit does not say what a
// meter shows, it is taken to show what the other does.
func (m *measuring) alike(p *twice) bool {
	a, b := &p.first, &p.second
	if !a.known || !b.known || a.at == b.at {
		return true
	}
	if a.at == 0 || b.at == 0 {
		m.need(fmt.Sprintf("the EI that was set: of %s and %s one shows light values at it, the other at ISO 100 (%s)", a.name, b.name, place(p.st.Span)))
		return false
	}
	shift, ok := exposure.SpeedShift(a.at, b.at)
	b.ev += shift
	return ok
}

// pairOf is the two readings of a line.
func (m *measuring) pairOf(st *lang.Statement) (p twice, ok bool) {
	var all []shownLight
	cue := ""
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if t.Struck || t.Doubtful || t.Unread {
			continue
		}
		switch k := t.Kind.(type) {
		case *lang.Cue:
			cue = k.Word
		case *lang.Exposure:
			if ev, fine := evOf(k); fine {
				all = append(all, m.shown(cmp.Or(strings.Join(k.Name, " "), cue), ev, k.EV != nil))
			}
			cue = ""
		case *lang.Sunny16:
			light, fine := lightState(m.series.light)
			if !fine {
				m.need("the light, for sunny 16: light: sun")
				continue
			}
			all = append(all, shownLight{name: "sunny 16 (" + light.Name + ")", ev: light.EV100, at: 100, known: true, rule: true})
		}
	}
	if len(all) != 2 || all[0].name == "" || all[1].name == "" {
		return p, false
	}
	p = twice{first: all[0], second: all[1], st: st}
	return p, m.alike(&p)
}

// shown is a reading with what the kit knows of its meter.
func (m *measuring) shown(name string, ev float64, asEV bool) shownLight {
	s := shownLight{name: name, ev: ev}
	if by, ok := find(m.kit().meters, name); ok && (by.stated || !asEV) {
		s.at, s.known = by.ei, true
		if asEV && by.at100 {
			s.at = 100
		}
	}
	return s
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

// offset says how two meters stand to one another: as they show, and with what the kit
// adds to each. Two readings of one light do not tell which is wrong: the one that was
// named first is the one under test, and the other line is said beside.
func (m *measuring) offset(lines []twice) {
	first, second := lines[0].first, lines[0].second
	var a, b []float64
	for _, p := range lines {
		a, b = append(a, p.first.ev), append(b, p.second.ev)
	}
	o := sensitometry.Meters(a, b)
	res := record.TestResult{
		Of: first.name + " against " + second.name, How: "median of " + countOf(o.Count, "pair") + " (" + placesOf(lines) + ")", Unit: "EV", Value: record.Known(o.Median.Value), ErrorIn: "EV",
		Text: fmt.Sprintf("%s shows %s, spread %.1f", first.name, differs(o.Median.Value), o.Spread),
	}
	if o.Median.Sd > 0 {
		res.Error = record.Known(o.Median.Sd)
		res.Text += fmt.Sprintf(", ±%.2f", o.Median.Sd)
	}
	left := o.Median.Value + m.offsetOf(first.name) - m.offsetOf(second.name)
	res.Declared = m.declaredOffsets(first.name, second.name)
	if res.Declared != "" {
		res.Declared += fmt.Sprintf("; so corrected, %s shows %s", first.name, differs(left))
	}
	if math.Abs(left) >= 1./6 {
		of := func(name string, stops float64) string { return "offset " + offsetWritten(m.offsetOf(name)+stops) }
		switch {
		case first.rule:
			res.Offer = m.meterLine(second.name, of(second.name, left))
		case second.rule:
			res.Offer = m.meterLine(first.name, of(first.name, -left))
		default:
			res.Offer = m.meterLine(first.name, of(first.name, -left))
			m.note("the readings do not tell which of the two is wrong; if it is %s, its line says %s", second.name, of(second.name, left))
		}
	}
	for _, i := range o.Odd {
		m.note("%s does not belong to the others (%s)", quote(lines[i].st.Body.Text()), place(lines[i].st.Span))
	}
	plot := record.TestPlot{Title: first.name + " less " + second.name, Kind: record.Steps, Y: "EV"}
	line := record.PlotLine{Name: first.name}
	for i := range a {
		line.Points = append(line.Points, [2]float64{float64(i + 1), a[i] - b[i]})
		plot.Marks = append(plot.Marks, record.PlotMark{At: [2]float64{float64(i + 1), 0}, Text: fmt.Sprint(i + 1)})
	}
	plot.Lines = append(plot.Lines, line)
	m.out.Results, m.out.Plots = append(m.out.Results, res), append(m.out.Plots, plot)
}

// differs is a difference of light values in words.
func differs(ev float64) string {
	switch text := fmt.Sprintf("%.2f EV", math.Abs(ev)); {
	case text == "0.00 EV":
		return "the same"
	case ev < 0:
		return text + " less"
	default:
		return text + " more"
	}
}

// offsetOf is what the kit adds to a meter's readings, in stops.
func (m *measuring) offsetOf(name string) float64 {
	if by, ok := find(m.kit().meters, name); ok {
		return by.offset
	}
	return 0
}

// declaredOffsets is what the kit adds to the readings of meters, with where it says so; ""
// where it adds nothing.
func (m *measuring) declaredOffsets(names ...string) string {
	var all []string
	for _, name := range names {
		if by, ok := find(m.kit().meters, name); ok && by.offset != 0 {
			all = append(all, fmt.Sprintf("%s offset %s (%s)", by.name, offsetWritten(by.offset), place(by.at.Span)))
		}
	}
	return strings.Join(all, ", ")
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

// offsetWritten is an offset as a kit writes it: in thirds or halves of a stop where it is
// one to a twentieth, else in tenths, as meters show them.
func offsetWritten(ev float64) string {
	for _, under := range []float64{1, 2, 3} {
		if over := math.Round(math.Abs(ev) * under); math.Abs(math.Abs(ev)-over/under) < 0.05 {
			sign := map[bool]string{true: "-", false: "+"}[ev < 0 && over > 0]
			if under == 1 {
				return sign + trim(over)
			}
			return sign + trim(over) + "/" + trim(under)
		}
	}
	return fmt.Sprintf("%+.1f", ev)
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
	for i := range st.Terms() {
		t := &st.Terms()[i]
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
