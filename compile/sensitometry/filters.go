package sensitometry

import (
	"errors"

	"gonum.org/v1/gonum/floats"
)

// ErrNoControl says that nothing was exposed without a filter.
var ErrNoControl = errors.New("there is no control without a filter")

// FilterTest is sheets through filters and controls without.
type FilterTest struct {
	Readings []Reading
	Filter   []int     // by sheet: the filter, from 0; -1 a control
	When     []float64 // by sheet: hours, or the order in which they were exposed
	Filters  int
	Declared []float64 // stops, where the search begins
}

// FilterResult is what a filter costs.
type FilterResult struct {
	Stops Figure
	All   Figure // with the odd sheets
	Known bool
}

// FilterResults is what a test of filters says.
type FilterResults struct {
	Filters []FilterResult
	Drift   Figure // stops that the light grew from the first sheet to the last
	Drifts  bool   // there are controls at more than one time, so that it is known
	Odd     []Odd
	Curve   *Curve
}

// Solve finds the stops of each filter. The light between the controls is taken
// to change evenly with time.
func (t *FilterTest) Solve() (*FilterResults, error) {
	n := len(t.Filter)
	out := &FilterResults{}
	first, last := floats.Min(t.When), floats.Max(t.When)
	var early, late, controls float64
	for i, f := range t.Filter {
		if f >= 0 {
			continue
		}
		if controls == 0 {
			early, late = t.When[i], t.When[i]
		}
		early, late = min(early, t.When[i]), max(late, t.When[i])
		controls++
	}
	if controls == 0 {
		return nil, ErrNoControl
	}
	out.Drifts = late > early
	p := &problem{readings: t.Readings, sheets: n}
	columns := t.Filters
	if out.Drifts {
		columns++
	}
	for i, f := range t.Filter {
		row := make([]float64, columns)
		if f >= 0 {
			row[f] = -Stop
		}
		if out.Drifts {
			row[t.Filters] = Stop * (t.When[i] - first) / (last - first)
		}
		p.effects = append(p.effects, row)
	}
	p.start = make([]float64, columns)
	copy(p.start, t.Declared)
	with, without, odd, err := p.robust()
	if err != nil {
		return nil, err
	}
	out.Odd = odd
	for k := range t.Filters {
		unit := make([]float64, columns)
		unit[k] = 1
		out.Filters = append(out.Filters, FilterResult{
			Stops: Figure{without.theta[k], without.sd(unit)}, All: Figure{with.theta[k], with.sd(unit)}, Known: t.exposed(k),
		})
	}
	if out.Drifts {
		unit := make([]float64, columns)
		unit[t.Filters] = 1
		out.Drift = Figure{without.theta[t.Filters], without.sd(unit)}
	}
	out.Curve, err = without.curve()
	return out, err
}

func (t *FilterTest) exposed(filter int) bool {
	for _, f := range t.Filter {
		if f == filter {
			return true
		}
	}
	return false
}
