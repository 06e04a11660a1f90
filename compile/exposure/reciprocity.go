package exposure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Film answers weak light less than its meter promises, so a long time must be made
// longer. A film's rule says how much, and it is wanted both ways: from the time
// metered to the time by the clock when settings are proposed, and from the clock
// back to what reached the film when a sheet is judged. So every rule is an
// increasing curve of which both directions are computed, in log-log, where
// published rules are straight or nearly so.
//
//	power law   clock = T (t/T)^p for t above the threshold T, else t
//	table       straight between the entries; its first entry is joined to the
//	            threshold; never carried past its last
//	over        beyond a given time a constant factor, as some notebooks have it
//
// Where makers print two columns, "open the aperture by" and "or lengthen to", only
// the time column can become a table: the other exposure is itself shorter, so +3
// stops is not 8 times the time. The rule is applied last, to the time after filter
// and bellows.

// Point is an entry of a reciprocity table, in seconds.
type Point struct {
	Metered float64 // what the light asks for, after filter and bellows
	Clock   float64 // how long to expose
}

// Status tells what became of a time under a rule.
type Status int

// What a rule may say.
const (
	Below     Status = iota // needs no correction
	Corrected               // corrected by the rule
	Beyond                  // further than the rule reaches: the time is returned as it came
)

// Rule is a film's reciprocity rule. The zero Rule is the film of which nothing is
// known: up to a second below, then beyond.
type Rule struct {
	// power is p of a power law above the threshold; 0 if the rule is none.
	power, threshold float64
	// points are a table, its first entry the threshold itself.
	points []Point
	// tail is the factor beyond the last point; 0 for a table that ends there.
	tail float64
	// limit is where a film said to need no correction stops being said so.
	limit float64
}

// defaultThreshold is the time in seconds up to which film is taken to need no
// correction where a rule does not say.
const defaultThreshold = 1

// PowerLaw returns the rule clock = T (t/T)^p above the threshold of T seconds (0
// means 1 s). p below 1 would shorten, and above 3 is no film's: an error.
func PowerLaw(p, threshold float64) (Rule, error) {
	if !(p >= 1 && p <= 3) {
		return Rule{}, fmt.Errorf("exponent %g is not between 1 and 3", p)
	}
	t, err := thresholdOf(threshold)
	return Rule{power: p, threshold: t}, err
}

// None returns the rule of a film that needs no correction up to a time in
// seconds; 0 means at no time.
func None(upTo float64) Rule {
	if !positive(upTo) {
		upTo = math.Inf(1)
	}
	return Rule{limit: upTo}
}

// Table returns the rule of a published or tested table. The points may come in
// any order; both columns must increase and no time be shortened. The threshold in
// seconds (0 means 1 s) is joined to the first entry. An entry at or below the
// threshold shows that correction starts earlier: it is then joined to half its own
// time, as makers that print "1 s: 3 times" print none for ½ s.
func Table(threshold float64, points []Point) (Rule, error) {
	start, err := thresholdOf(threshold)
	if err != nil {
		return Rule{}, err
	}
	if len(points) == 0 {
		return Rule{}, fmt.Errorf("a table without entries")
	}
	sorted := slices.Clone(points)
	slices.SortFunc(sorted, func(a, b Point) int { return cmp.Compare(a.Metered, b.Metered) })
	if err := increasing(sorted); err != nil {
		return Rule{}, err
	}
	return Rule{points: joined(start, sorted)}, nil
}

// Over returns the rule r continued by a constant factor beyond from seconds. Of a
// table, from may not lie within it; a film without a rule needs none up to from.
func (r Rule) Over(from, factor float64) (Rule, error) {
	if !positive(from) || !positive(factor) || factor < 1 {
		return Rule{}, fmt.Errorf("factor %g over %g s is no correction", factor, from)
	}
	if r.power != 0 {
		return Rule{}, fmt.Errorf("a power law goes on by itself beyond %g s", from)
	}
	if len(r.points) == 0 {
		return Rule{points: []Point{{from, from}}, tail: factor}, nil
	}
	last, end := r.points[len(r.points)-1], Point{from, float64(from * factor)}
	if end.Metered < last.Metered || end.Clock < last.Clock {
		return Rule{}, fmt.Errorf("the table goes on beyond %g s", from)
	}
	points := slices.Clone(r.points)
	if end.Metered > last.Metered && end.Clock > last.Clock {
		points = append(points, end)
	}
	return Rule{points: points, tail: factor}, nil
}

func thresholdOf(seconds float64) (float64, error) {
	if seconds == 0 {
		return defaultThreshold, nil
	}
	if !positive(seconds) {
		return 0, fmt.Errorf("threshold %g s is no time", seconds)
	}
	return seconds, nil
}

// increasing checks that sorted entries are times, lengthen, and increase.
func increasing(points []Point) error {
	for i, p := range points {
		if !positive(p.Metered) || !positive(p.Clock) {
			return fmt.Errorf("%g s=%g s is no entry", p.Metered, p.Clock)
		}
		if p.Clock < p.Metered {
			return fmt.Errorf("%g s=%g s would shorten the time", p.Metered, p.Clock)
		}
		if i > 0 && p.Metered == points[i-1].Metered {
			return fmt.Errorf("%g s stands twice", p.Metered)
		}
		if i > 0 && p.Clock <= points[i-1].Clock {
			return fmt.Errorf("%g s=%g s is no longer than the entry before it", p.Metered, p.Clock)
		}
	}
	return nil
}

// joined puts the start of correction before the first entry that corrects.
func joined(start float64, points []Point) []Point {
	first := 0
	for first < len(points) && points[first].Clock == points[first].Metered {
		first++
	}
	switch {
	case first > 0: // the table says itself where correction starts
		return points[first-1:]
	case points[0].Metered <= start:
		start = points[0].Metered / 2
	}
	return append([]Point{{start, start}}, points...)
}

// IsZero reports whether nothing is known.
func (r Rule) IsZero() bool { return r.power == 0 && len(r.points) == 0 && r.limit == 0 }

// Reach returns the longest metered time in seconds the rule speaks of, +Inf for
// rules without an end.
func (r Rule) Reach() float64 {
	switch {
	case r.power != 0 || r.tail != 0:
		return math.Inf(1)
	case len(r.points) > 0:
		return r.points[len(r.points)-1].Metered
	case r.limit != 0:
		return r.limit
	}
	return defaultThreshold
}

// Last returns the entry with which a table ends; ok is false of other rules, and of a
// table that goes on by a factor.
func (r Rule) Last() (p Point, ok bool) {
	if len(r.points) == 0 || r.tail != 0 {
		return Point{}, false
	}
	return r.points[len(r.points)-1], true
}

// Declared returns the metered times in seconds of a table's own entries, but for the one
// from which it corrects; nil for other rules.
func (r Rule) Declared() (all []float64) {
	for i, p := range r.points {
		if i > 0 {
			all = append(all, p.Metered)
		}
	}
	return all
}

// Corrected returns the seconds to expose by the clock for a metered time in
// seconds. Beyond the rule's reach, and of no time, it is the time as it came.
func (r Rule) Corrected(metered float64) (clock float64, status Status) {
	switch {
	case !positive(metered):
		return metered, Below
	case r.power != 0 && metered > r.threshold:
		return r.threshold * math.Pow(metered/r.threshold, r.power), Corrected
	case r.power == 0 && metered > r.Reach():
		return metered, Beyond
	case len(r.points) == 0 || metered <= r.points[0].Metered:
		return metered, Below
	}
	i := slices.IndexFunc(r.points, func(p Point) bool { return metered <= p.Metered })
	if i < 0 {
		return metered * r.tail, Corrected
	}
	a, b := r.points[i-1], r.points[i]
	return onLine(metered, a.Metered, b.Metered, a.Clock, b.Clock), Corrected
}

// Effective returns what a time by the clock was worth on film: the metered time
// in seconds that Corrected would turn into it. A clock time that falls into the
// jump at the start of a constant factor is worth the time of the jump.
func (r Rule) Effective(clock float64) (metered float64, status Status) {
	switch {
	case !positive(clock):
		return clock, Below
	case r.power != 0 && clock > r.threshold:
		return r.threshold * math.Pow(clock/r.threshold, 1/r.power), Corrected
	case len(r.points) > 0 && clock > r.points[0].Clock:
		return r.backwards(clock)
	case r.power == 0 && clock > r.Reach():
		return clock, Beyond
	}
	return clock, Below
}

// backwards reads a table from its second column to its first.
func (r Rule) backwards(clock float64) (metered float64, status Status) {
	i := slices.IndexFunc(r.points, func(p Point) bool { return clock <= p.Clock })
	if i >= 0 {
		a, b := r.points[i-1], r.points[i]
		return onLine(clock, a.Clock, b.Clock, a.Metered, b.Metered), Corrected
	}
	if r.tail == 0 {
		return clock, Beyond
	}
	return max(clock/r.tail, r.points[len(r.points)-1].Metered), Corrected
}

// onLine returns y at x on the straight line in log-log from (x0,y0) to (x1,y1).
func onLine(x, x0, x1, y0, y1 float64) float64 {
	return y0 * math.Pow(x/x0, math.Log(y1/y0)/math.Log(x1/x0))
}

// EffectiveEach returns what n exposures of clock seconds each were worth on film
// together: each is corrected by itself, as 4 x 1 s is not 4 s.
func (r Rule) EffectiveEach(n int, clock float64) (metered float64, status Status) {
	one, status := r.Effective(clock)
	return float64(n) * one, status
}
