package compile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/diag"
)

// What a line declares of a filter: its colour and number, and what it costs.

func (s *season) newFilter(st *lang.Statement) *filter {
	f := &filter{declared: named(st)}
	if f.number = handbook.NumberOf(f.name); f.number == "" {
		f.number = handbook.NumberOf(lang.CodeIn(f.name)) // Y8 green
	}
	f.byLetter = handbook.IsOldLetter(f.name)
	before, behind := wordsBefore(st), wordsBehind(st)
	amiss := false
	var letter, loose *lang.Term
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Stack:
			if len(k.Filters) == 1 && k.Filters[0].Name == "X2" && len(k.Filters[0].Amounts) == 0 {
				letter = t // or a factor
				return true
			}
			s.described(f, k, t)
		case *lang.Amount:
			switch words := slices.Concat(before[t], behind[t]); {
			case f.stops != nil && betweenTwo(before[t]):
				s.forAll(f, newCost(k, t), t)
			case len(words) > 0:
				f.declareAmount(words, newCost(k, t))
			default:
				s.forAll(f, spanned(st, k, t), t)
			}
		case *lang.Care:
			return f.tests(k)
		case *lang.Class:
			switch {
			case k.Amount == nil:
			case both(k.Names):
				f.declareAmount(slices.Concat(before[t], k.Names), newCost(k.Amount, t))
			default:
				for _, name := range k.Names {
					f.declareAmount(append(slices.Clone(before[t]), name), newCost(k.Amount, t))
				}
			}
		case *lang.CurveFile:
			f.passes = s.ownCurve(t, lang.FilterWord)
		case *lang.Loose:
			loose = t
			return true
		case *lang.Millimetres:
			return false // of its thread
		default:
			amiss = amiss || strings.ContainsAny(t.Span.Text(), "0123456789")
			return false
		}
		return true
	})
	_, said := supplied(st, s.names)
	for i := range said {
		for _, k := range amountsOf(said[i].Kind) { // x[2]: it is what the filter may cost
			at := lang.Term{Span: st.Body, Doubtful: true}
			s.forAll(f, newCost(&k, &at), &at)
		}
	}
	if letter != nil {
		s.factorOrLetter(f, letter)
	}
	if loose != nil {
		s.saysNothing(f, loose)
	}
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if _, bare := t.Kind.(*lang.Bare); t.Unread && !bare {
			amiss = amiss || strings.ContainsAny(t.Span.Text(), "0123456789")
		}
	}
	if amiss && f.stops != nil {
		f.stops.doubtful = true // what could not be read may say otherwise
	}
	if misbound(st) {
		s.report("two-settings", st.Span, "which value of "+f.name+" is for what: they stand before their words, and before the next value's").
			note("what a value holds for stands before it: filter " + f.name + ": daylight x4, tungsten x2")
		f.stops, f.amounts = nil, nil
	}
	s.colourAgainstNumber(f)
	return f
}

// factorOrLetter takes X2, which is a factor before a filter that bears another number, and the old name
// of a Wratten 13 where the line has its cost besides. Else it may be either.
func (s *season) factorOrLetter(f *filter, t *lang.Term) {
	entry, _ := handbook.Filter("X2")
	switch {
	case f.stops != nil || len(f.amounts) > 0:
		s.described(f, t.Kind.(*lang.Stack), t)
	case f.number != "" && f.number != entry.Number || f.colour != "" && !entry.Called(f.colour):
		two := lang.Number(2)
		s.forAll(f, newCost(&lang.Amount{Factor: &two}, t), t)
	default:
		s.report("two-settings", t.Span, "X2 may be the factor of "+f.name+", or the old name of a Wratten "+entry.Number).
			note("the factor is written x2, the filter Wratten " + entry.Number + ", with what it costs")
	}
}

// saysNothing notes words because of which it is not known what a filter costs: they are no amount, or
// its only one is taken to hold for them alone.
func (s *season) saysNothing(f *filter, t *lang.Term) {
	words := quote(t.Span.Text())
	switch {
	case f.stops != nil || f.passes != nil:
	case len(f.amounts) == 0 && f.number == "":
		note := s.report("unknown-term", t.Span, words+" does not say what "+f.name+" costs")
		note.note("it is written x8, 3 stops or density 0.9")
		note.Severity = diag.Note
	case len(f.amounts) == 1 && f.amounts[0].light+f.amounts[0].class == "" && f.amounts[0].cost.at.End <= t.Span.Start && !namesLight(strings.Fields(f.amounts[0].words)):
		note := s.report("unknown-term", t.Span, f.amounts[0].cost.at.Text()+" is taken for what "+f.name+" costs with "+words+" alone")
		note.note("a remark stands behind -- or in ( )")
		note.Severity = diag.Note
	}
}

// described takes a filter's colour, Wratten number and amounts.
func (s *season) described(f *filter, k *lang.Stack, t *lang.Term) {
	for _, part := range k.Filters {
		if number := handbook.NumberOf(part.Name); number != "" {
			f.number, f.numbered, f.byLetter = number, number != "pol", handbook.IsOldLetter(part.Name)
		}
		if !strings.ContainsAny(part.Name, "0123456789") && !strings.HasPrefix(strings.ToLower(part.Name), "pol") {
			f.colour = strings.ToLower(part.Name)
		}
		for i := range part.Amounts {
			s.forAll(f, newCost(&part.Amounts[i], t), t)
		}
	}
}

// spanned is what an amount costs, and with a number right before it something between the two:
// 2-3 stops.
func spanned(st *lang.Statement, k *lang.Amount, t *lang.Term) *cost {
	all := st.Terms()
	c := newCost(k, t)
	for i := range all[:len(all)-1] {
		if least, ok := all[i].Kind.(*lang.Bare); ok && &all[i+1] == t && k.Stops != nil {
			c.low = min(c.low, math.Abs(float64(least.Value)))
		}
	}
	return c
}

// forAll takes what a filter costs whatever is behind and before it. Said twice it is one
// value, x4 (2 stops); of two that differ by more than a rounding it is not known which
// counts, and nobody is blamed between them.
func (s *season) forAll(f *filter, c *cost, t *lang.Term) {
	const rounding = 1. / 6
	if f.stops != nil && math.Abs(f.stops.stops-c.stops) > rounding {
		s.report("two-settings", t.Span, fmt.Sprintf("two values of %s on one line, %s and %s", f.name, exposure.InStops(f.stops.stops), exposure.InStops(c.stops))).
			note("what a value holds for stands before it: filter " + f.name + ": x4, tungsten x2")
		c.low, c.high = min(c.low, f.stops.low), max(c.high, f.stops.high)
	}
	f.stops = c
}

// colourAgainstNumber finds "green 25". A number is what the writer says, and is used; one
// that only an old letter stands for gives way to the colour: a filter G that is green is
// none of the yellow ones that the trade called so.
func (s *season) colourAgainstNumber(f *filter) {
	entry, ok := handbook.Filter(f.number)
	if !ok || f.colour == "" || f.number == "pol" || entry.Called(f.colour) {
		return
	}
	if f.byLetter {
		f.number = ""
		s.report("colour-against-number", f.at.Labels[0].Span,
			fmt.Sprintf("%s is said to be %s, but the old letter %s is a Wratten %s, %s", f.name, f.colour, entry.Letter, entry.Number, entry.Colour)).
			note("the colour counts, and its number is not known").
			note("write the number that it has: filter " + f.name + ": " + f.colour + ", Wratten …, and what it costs")
		return
	}
	s.report("colour-against-number", f.at.Labels[0].Span,
		fmt.Sprintf("%s is said to be %s, but a Wratten %s is %s", f.name, f.colour, entry.Number, entry.Colour))
}

func shortClass(name string) string {
	return strings.TrimSuffix(name, "chromatic")
}

// amountsOf are the amounts that a term is, or gives the filters that it names.
func amountsOf(kind any) (all []lang.Amount) {
	switch k := kind.(type) {
	case *lang.Amount:
		return []lang.Amount{*k}
	case *lang.Stack:
		for _, f := range k.Filters {
			all = append(all, f.Amounts...)
		}
	}
	return all
}

// newCost is an amount as the photographer gave it.
func newCost(a *lang.Amount, t *lang.Term) *cost {
	c := &cost{own: true, at: t.Span, from: place(t.Span), doubtful: t.Doubtful}
	switch {
	case a.Factor != nil:
		c.stops, _ = exposure.FactorStops(float64(*a.Factor))
		c.detail = exposure.FormatFactor(float64(*a.Factor))
	case a.Density != nil:
		c.stops, _ = exposure.DensityStops(float64(*a.Density))
		c.detail = "density " + trim(float64(*a.Density))
	case a.Stops != nil:
		c.stops = float64(*a.Stops)
		if c.stops < 0 {
			c.stops = -c.stops // "G11 (-2)" costs two stops
		}
		c.detail = exposure.InStops(c.stops)
	}
	c.low, c.high = c.stops, c.stops
	return c
}
