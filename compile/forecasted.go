package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/spectral"
	"notchbook/lang/source"
)

// The notes' own values beside the forecast. A value that was tested is better than any
// forecast: one that lies far off is worth a look and never more.

// farOff is how far a value may lie from the forecast in silence, in stops; the forecast
// itself is held to within a third.
const farOff = 2. / 3

// combination is what a forecast is made for: a filter at a cost, or a stack, on a film in
// a light. Each is looked at once.
type combination struct {
	filters string
	at      source.Span // where the cost stands
	film    *film
	light   string
}

// forecasts looks at every value that some sheet rests on, and at every stack.
func (s *season) forecasts() {
	said := map[combination][]*sheet{}
	var order []combination
	for _, sh := range s.sheets {
		if sh.sum.state == record.Unexposed || len(sh.sum.owes) == 0 {
			continue
		}
		for _, c := range combinationsOn(sh, s.filmOf(sh)) {
			if said[c] == nil {
				order = append(order, c)
			}
			said[c] = append(said[c], sh)
		}
	}
	far := map[source.Span]*farValue{}
	var values []*farValue
	for _, c := range order {
		if c.at.File == nil {
			s.stackPasses(c, said[c])
			continue
		}
		text := s.valueAgainst(c, said[c])
		if text == "" {
			continue
		}
		if far[c.at] == nil {
			far[c.at] = &farValue{at: c.at, use: usedOn(said[c][0], c.filters)}
			values = append(values, far[c.at])
		}
		v := far[c.at]
		v.forecasts, v.sheets = append(v.forecasts, text), append(v.sheets, said[c]...)
	}
	for _, v := range values {
		slices.SortFunc(v.sheets, func(a, b *sheet) int { return cmp.Compare(a.index, b.index) })
		s.report("far-from-forecast", v.at, fmt.Sprintf("%s is said to cost %s, and the forecast %s", v.use.name, exposure.InStops(v.use.cost.stops), strings.Join(v.forecasts, ", ")), v.sheets...).
			note("the sheets are checked by your value; a test of your own is better than a forecast")
	}
}

// farValue is a value of the writer's that lies far from the forecasts for some films and lights.
type farValue struct {
	at        source.Span
	use       *use
	forecasts []string
	sheets    []*sheet
}

// combinationsOn is what of a sheet a forecast can be held against: every single filter
// with a value of the writer's for the light that there was, and the stack.
func combinationsOn(sh *sheet, f *film) (all []combination) {
	light := lightClass(sh.light)
	if light == "" {
		return nil // of which there is no forecast
	}
	for _, u := range sh.sum.owes {
		if f != nil && u.cost != nil && u.cost.own && u.cost.at.File != nil && !u.inside && !u.inOtherLight(f) {
			all = append(all, combination{u.name, u.cost.at, f, light})
		}
	}
	if len(sh.sum.owes) > 1 && sh.sum.blind == nil {
		all = append(all, combination{filters: stackName(sh.sum.owes), film: f, light: light})
	}
	return all
}

func stackName(on []*use) string {
	var names []string
	for _, u := range on {
		names = append(names, u.name)
	}
	return strings.Join(names, " + ")
}

// inOtherLight reports whether a filter's cost is one declared for a light that no
// forecast is made for, such as open shade.
func (u *use) inOtherLight(on *film) bool {
	if u.found == nil {
		return false
	}
	return slices.ContainsFunc(u.found.amounts, func(a amount) bool { return a.cost == u.cost && a.ownLight(on) != "" })
}

// valueAgainst is the forecast from which a value lies far, "" where it lies near.
func (s *season) valueAgainst(c combination, sheets []*sheet) string {
	set, ok := c.film.setting(c.light)
	u := usedOn(sheets[0], c.filters)
	p := passing(u)
	if !ok || p.missing != "" || p.neutral {
		return ""
	}
	f := set.Through(&p.curve)
	if f.Dark {
		return "" // film-blind says it
	}
	forecast := exposure.Third(f.Stops)
	if math.Abs(u.cost.stops-forecast) <= farOff+1e-6 {
		return ""
	}
	return fmt.Sprintf("for %s in %s is %s", newForecast(&set, c.film).Film, c.light, exposure.InStops(forecast))
}

func usedOn(sh *sheet, name string) *use {
	for _, u := range sh.sum.owes {
		if u.name == name {
			return u
		}
	}
	return nil
}

// stackPasses warns of filters that leave next to no light together. What the film sees
// matters little for that: one that is not known is taken for panchromatic, which sees
// most.
func (s *season) stackPasses(c combination, sheets []*sheet) {
	set, ok := spectral.In(spectral.Pan, c.light)
	if c.film != nil {
		if known, fine := c.film.setting(c.light); fine {
			set = known
		}
	}
	if !ok {
		return
	}
	through := spectral.Neutral(0)
	coloured := 0
	owes := sheets[0].sum.owes
	for _, u := range owes {
		p := passing(u)
		if p.missing != "" || p.neutral {
			continue // what lets all colours through leaves what the others leave
		}
		through = through.Through(p.curve)
		coloured++
	}
	if coloured > 1 && set.Through(&through).Dark {
		s.report("no-light-left", owes[len(owes)-1].at, c.filters+" leave no light together that the film sees", sheets...).
			note("what one of them lets through, the other stops; no factor is right")
	}
}
