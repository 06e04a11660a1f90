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
	"notchbook/lang/source"
)

// What a test of filters says.

func (m *measuring) filters() {
	sheets := m.measured()
	points := m.points(sheets, exposed{filtered: true})
	if len(points) == 0 {
		m.need("densities: density " + m.series.sheets[0].shown + ": base+fog 0.07, card 0.72")
		return
	}
	test := &sensitometry.FilterTest{Readings: readingsOf(points), When: whenOf(sheets)}
	var names []string
	var costs []*sheet
	for _, sh := range sheets {
		name := filterNamesOf(sh)
		i := slices.Index(names, name)
		if i < 0 && name != "" {
			i = len(names)
			names, costs = append(names, name), append(costs, sh)
			test.Declared = append(test.Declared, owed(sh))
		}
		test.Filter = append(test.Filter, i)
	}
	test.Filters = len(names)
	if len(names) == 0 {
		m.need("sheets through a filter")
		return
	}
	found, err := test.Solve()
	if err != nil {
		m.failed(err)
		return
	}
	m.odd(sheets, found.Odd)
	m.keep(sheets, found.Curve)
	for k, name := range names {
		m.filterResult(name, costs[k], found.Filters[k], m.through(sheets, test, k, found.Odd), len(found.Odd) > 0)
	}
	m.drift(found)
	m.out.Plots = append(m.out.Plots, *m.filterSteps(names, costs, found))
	m.errorNote()
}

// through is the sheets that a filter's figure is from: its own and the controls.
func (m *measuring) through(sheets []*sheet, test *sensitometry.FilterTest, filter int, odd []sensitometry.Odd) []*record.Sheet {
	var all []*record.Sheet
	for i, sh := range sheets {
		out := slices.Contains(sensitometry.OutOf(odd), i)
		if f := test.Filter[i]; (f == filter || f < 0) && !out {
			all = append(all, m.sheet[sh])
		}
	}
	return all
}

// whenOf is the hour of each sheet where all have one, else their order.
func whenOf(sheets []*sheet) []float64 {
	var all []float64
	for _, sh := range sheets {
		minutes, ok := minutesOf(sh.clock)
		if !ok {
			break
		}
		all = append(all, minutes/60)
	}
	if len(all) == len(sheets) && slices.Max(all) > slices.Min(all) {
		return all
	}
	all = nil
	for i := range sheets {
		all = append(all, float64(i))
	}
	return all
}

// filterNamesOf is the filters of a sheet that are not always on its lens.
func filterNamesOf(sh *sheet) string {
	var all []string
	for _, u := range sh.filters {
		if !u.always {
			name := u.name
			if u.found != nil {
				name = u.found.name
			}
			all = append(all, name)
		}
	}
	return strings.Join(all, " + ")
}

// owed is what the filters of a sheet cost by the kit, or the handbook.
func owed(sh *sheet) (stops float64) {
	for _, u := range sh.sum.owes {
		if u.cost != nil && !u.always {
			stops += u.cost.stops
		}
	}
	return stops
}

func (m *measuring) filterResult(name string, sh *sheet, found sensitometry.FilterResult, from []*record.Sheet, odd bool) {
	stops := found.Stops.Value
	res := record.TestResult{
		Of: name, How: "densities against the controls, the drift of the light between them taken out", Unit: "stops", From: from,
		Value: record.Known(stops), Error: record.Known(found.Stops.Sd), Text: fmt.Sprintf("%s (%.2f reckoned%s)", exposure.InStops(stops), stops, withinStops(found.Stops.Sd)),
	}
	if odd {
		res.WithOdd = fmt.Sprintf("%s (%.2f)", exposure.InStops(found.All.Value), found.All.Value)
	}
	if text := costsOf(sh); text != "" {
		res.Declared = fmt.Sprintf("%s; the test finds %s", text, moreOrLess(stops-owed(sh)))
	}
	if !strings.Contains(name, " + ") {
		res.Offer = m.filterLine(name, sh, stops)
	}
	if found.Stops.Sd > toldTo {
		res = record.TestResult{Of: res.Of, How: res.How, Unit: res.Unit, From: from,
			Why: "the densities do not tell it to half a stop: the curve is too flat where they lie, or too short; a control exposed a stop more or less would show it"}
	}
	if res.Offer != "" {
		res.Moves = m.byFilter(name, sh.light, asRead(spokenStops(stops)))
		res.Effects = effects(res.Moves, true)
	}
	m.out.Results = append(m.out.Results, res)
}

// toldTo is the standard error, in stops, past which a figure is not told.
const toldTo = 0.5

func moreOrLess(stops float64) string {
	switch {
	case math.Abs(stops) < 1./12:
		return "the same"
	case stops > 0:
		return exposure.InStops(stops) + " more"
	}
	return exposure.InStops(stops) + " less"
}

// costsOf is what is said of the filters of a sheet, with where.
func costsOf(sh *sheet) string {
	var all []string
	for _, u := range sh.sum.owes {
		if u.cost != nil && !u.always {
			all = append(all, exposure.InStops(u.cost.stops)+" ("+cmp.Or(u.cost.detail, "handbook")+"), "+u.cost.from)
		}
	}
	return strings.Join(all, " + ")
}

// filterLine is the line that a kit could have: what else it says of the filter
// stays, nothing is added that the writer has not said, and a value of another light or film class is written beside.
func (m *measuring) filterLine(name string, sh *sheet, stops float64) string {
	var parts []string
	f, _, _ := m.kit().filter(name)
	if f != nil && f.colour != "" {
		parts = append(parts, f.colour)
	}
	if f != nil && f.numbered {
		parts = append(parts, "Wratten "+f.number)
	}
	if f != nil && f.passes != nil {
		parts = append(parts, f.passes.at.Text())
	}
	as := m.holdsFor(f, sh)
	said := false
	value := func(words, amount string) {
		if words == as {
			amount, said = spokenStops(stops), true
		}
		parts = append(parts, strings.TrimSpace(words+" "+amount))
	}
	if f != nil && f.stops != nil {
		value("", f.stops.written())
	}
	if f != nil {
		for _, a := range f.amounts {
			value(a.as, a.written())
		}
	}
	if !said {
		value(as, "")
	}
	return "filter " + name + ": " + strings.Join(append(parts, m.kitTest()), ", ")
}

// holdsFor is the words before the value that a test of a filter replaces or adds:
// those by which a kit with it reckons the sheets of the test, and that speak of no
// more than was tested. Pan film in daylight is what a value without words holds for.
func (m *measuring) holdsFor(f *filter, sh *sheet) string {
	film, light := m.filmOf(sh), kindOfLight(sh.light)
	if light == handbook.Daylight {
		light = ""
	}
	class := ""
	if film != nil && film.class != "pan" {
		class = film.class
	}
	plain := strings.TrimSpace(class + " " + light)
	if f == nil || film == nil {
		return plain
	}
	counts := func(words string) bool {
		with := filter{amounts: slices.Clone(f.amounts)}
		tested := &cost{}
		if words != "" {
			with.declareAmount(strings.Fields(words), tested)
		}
		by := with.costOn(film, sh.light)
		return by == tested || by == nil && words == ""
	}
	for _, words := range []string{plain, strings.TrimSpace(film.class + " " + light), f.wordsFor(film, sh.light), strings.TrimSpace(film.name + " " + light)} {
		if (words != "" || plain == "") && counts(words) {
			return strings.ToLower(words)
		}
	}
	return strings.ToLower(film.name + " " + sh.light)
}

// wordsFor is the words of the value that says most about a film in a light, of those
// that hold for both alone; in daylight, of the film in any light. "" where there is
// none.
func (f *filter) wordsFor(film *film, light string) (words string) {
	most := 0
	for i := range f.amounts {
		a := &f.amounts[i]
		if n := a.fits(film, light); n > most && (a.ofFilm(film) || film.class == "pan") && (a.ofLight(film) || kindOfLight(light) == handbook.Daylight) {
			words, most = a.as, n
		}
	}
	return words
}

// written is an amount that stays as the writer has it: a factor as a factor.
func (c *cost) written() string {
	if factor, ok := strings.CutPrefix(c.detail, "×"); ok {
		return "x" + factor
	}
	if text := spokenStops(c.stops); math.Abs(asRead(text)-c.stops) < 0.005 {
		return text
	}
	return strings.TrimSuffix(fmt.Sprintf("%.2f", c.stops), "0") + " stops"
}

// spokenStops is an amount as a kit writes it.
func spokenStops(stops float64) string {
	if stops < 1./24 {
		return "0 stops"
	}
	return exposure.InStops(stops)
}

// asRead is an amount as a kit that has it is read.
func asRead(amount string) (stops float64) {
	book, _ := lang.Parse(source.New("", []byte("filter tested: "+amount)), lang.NewLexicon())
	for _, st := range book.Statements {
		for i := range st.Terms() {
			if k, ok := st.Terms()[i].Kind.(*lang.Amount); ok {
				stops = newCost(k, &st.Terms()[i]).stops
			}
		}
	}
	return stops
}

func (m *measuring) drift(found *sensitometry.FilterResults) {
	if !found.Drifts {
		m.note("there is one control, or all at one time: whether the light drifted is not known")
		return
	}
	d, sd := found.Drift.Value, found.Drift.Sd
	res := record.TestResult{
		Of: "drift of the light", How: "from the first sheet to the last, even in time; the controls tell it", Unit: "stops",
		Value: record.Known(d), Error: record.Known(sd), From: m.out.Sheets,
	}
	switch {
	case sd > toldTo:
		res.Value, res.Error = record.Figure{}, record.Figure{}
		res.Why = "the densities do not tell it to half a stop"
	case math.Abs(d) < 2*sd:
		res.Text = fmt.Sprintf("none that the densities show (%+.2f%s)", d, withinStops(sd))
	case d > 0:
		res.Text = fmt.Sprintf("the light grew by %s (%.2f reckoned%s)", exposure.InStops(d), d, withinStops(sd))
	default:
		res.Text = fmt.Sprintf("the light faded by %s (%.2f reckoned%s)", exposure.InStops(d), -d, withinStops(sd))
	}
	m.out.Results = append(m.out.Results, res)
}

// filterSteps is the filters beside one another: declared, and found.
func (m *measuring) filterSteps(names []string, costs []*sheet, found *sensitometry.FilterResults) *record.TestPlot {
	p := &record.TestPlot{Title: "what the filters cost", Kind: record.Steps, X: "", Y: "stops"}
	tested, declared := record.PlotLine{Name: "tested"}, record.PlotLine{Name: "declared"}
	for k, name := range names {
		x := float64(k + 1)
		tested.Points = append(tested.Points, [2]float64{x, found.Filters[k].Stops.Value})
		if o := owed(costs[k]); o > 0 {
			declared.Points = append(declared.Points, [2]float64{x, o})
		}
		p.Marks = append(p.Marks, record.PlotMark{At: [2]float64{x, 0}, Text: name})
	}
	p.Lines = append(p.Lines, tested, declared)
	return p
}
