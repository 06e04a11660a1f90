// Package slip names the mistake. A sheet got another exposure than it needed;
// every mistake that people make is tried as a hypothesis with the difference
// it would have made, and those that fit are named, simplest first, at most two.
// A cause is said to fit, never to be what happened, and that nothing fits is an
// answer too.
//
// The hypotheses are rows of a table: what was done, what one must know to try
// it, what it predicts in stops, and the sentence that says it. They are common
// practice, no source, unless a row says otherwise.
package slip

import (
	"cmp"
	"math"
	"slices"

	"notchbook/compile/exposure"
)

// Case is what is known of a sheet that is off. Stops are positive for too much
// exposure; figures that are not known are zero.
type Case struct {
	Difference float64   // given - asked, on film
	Over       float64   // by how much a sheet may be over, and no slip
	Under      float64   // the same, under
	Asked      float64   // EV on film
	Av         float64   // aperture given
	Clock      float64   // seconds given, by the clock
	Nominal    float64   // the same by the shutter's marks
	Bracket    float64   // stops on purpose
	OnFilm     float64   // seconds that counted
	Num, Den   float64   // the time as written, where it is one: Num/Den seconds
	Parts      int       // exposures that they were given in
	Past       float64   // part of a stop written past the aperture's mark
	ReadPast   float64   // the same of the reading's aperture or light value
	ReadAv     float64   // the reading's aperture, where it has one
	Rounded    float64   // stops from an older shutter's mark to the one of the standard series that it is set for, 1/10 for 1/8
	Steps      []float64 // stops from the shutter's neighbouring speeds to the one given
	Lens       exposure.Lens

	EI      float64 // of the film
	MeterEI float64 // that the notes say the meter stood at
	OtherEI []Index // that the kit knows, box speeds among them

	FixedMeter bool // its light values are at ISO 100, whatever film is in use

	Filters []Filter // on the lens
	Through []Filter // on the lens, and in the reading already
	Kit     []Filter // declared
	Bellows float64  // stops for the extension
	Lenses  []Value  // stops that this extension would ask of the other lenses of the day
	Rule    exposure.Rule
	Rules   []Rule // of the kit's other films

	Areas []Area  // that were placed on a zone
	Light float64 // EV of the base reading

	Earlier []Earlier // sheets of the day, the last first
	Words   string    // the sheet's remarks, in lower case

	Measured  bool    // densities tell what the film got
	ByDensity float64 // stops by which it got more than was asked for, as they tell it
}

// Index is an exposure index that a sheet may have been exposed at.
type Index struct {
	EI      float64
	Own     bool // of its film: the box speed, in another light, for another development
	Exposed bool // of a film that a sheet of the notes is on
}

// Filter is a filter and what it costs.
type Filter struct {
	Name    string
	Stops   float64
	Called  []string // by remarks, in lower case
	Density float64  // where it is declared or named by its density
	Values  []Value  // declared for other films or another light, and for all
}

// Value is what a filter costs on a film or in a light, or an extension before a lens.
type Value struct {
	For   string // "ortho", "tungsten", the name of a lens; "" for every other
	Stops float64
}

// Rule is the rule for long times of a film by name.
type Rule struct {
	Film string
	Rule exposure.Rule
}

// Area is a metered area that was placed.
type Area struct {
	Name string
	Zone float64
}

// Earlier is a sheet logged before on the same day.
type Earlier struct {
	Label, Scene           string
	SameScene, SameReading bool
	SameLens               bool
	SameAperture, SameTime bool    // as this one
	Aperture, Time         string  // as written, where one of them is the same
	Right                  bool    // it got what it asked for
	Copied                 bool    // this one was written as the same
	Asked, Light           float64 // EV
	Av, Seconds            float64
	Known                  bool // Asked holds
	Filters                []Filter
	Bellows                float64
}

// Guess is what a hypothesis says of a case.
type Guess struct {
	Stops    float64 // predicted difference
	Evidence float64 // what speaks for it beyond the figure: 0 nothing, 1 a lot, below 0 what speaks against it
	Text     string
	Of       []Filter // what was compensated wrongly, and what it was taken for
	Weak     bool     // it would fit much that is no slip
	Miss     float64  // stops by which a guess that is made of the difference itself misses what it rests on
}

// Cause is a hypothesis that fits.
type Cause struct {
	Slug string
	Text string
	Weak bool   // fits, but would fit much that is no slip: it does not make a habit a slip
	And  string // slug of a second slip, where the two fit only together
}

// Hypothesis is a row of the table.
type Hypothesis struct {
	Slug    string
	Title   string // what was done, in a clause
	Needs   string // what one must know to try it
	Plain   int    // how simple a mistake it is, 1 the simplest
	Example string // a notebook in which it fits; run as a test and printed by explain
	tries   func(*Case) []Guess
}

// Within is how near a prediction must come to the difference, in stops.
const Within = 1. / 6

// near is the same of figures that are rounded to a millionth of a stop.
const near = Within + 1e-6

// most is how many causes are named.
const most = 2

// fit is a guess that came near enough.
type fit struct {
	Cause
	cost  float64
	exact bool // within what two slips together must come to
}

// Diagnose gives the causes that fit, simplest first; last, where there is room for it, that the
// note is wrong.
func Diagnose(c *Case) []Cause {
	causes := done(c)
	for i := range table {
		if table[i].Plain != lastOfAll || len(causes) == most || c.denied(table[i].Slug) {
			continue
		}
		if f, ok := table[i].fit(c); ok {
			causes = append(causes, f.Cause)
		}
	}
	return causes
}

// done is the mistakes in what was done that fit.
func done(c *Case) []Cause {
	fits := fitting(c)
	if len(fits) == 0 {
		return together(c)
	}
	var causes []Cause
	for _, f := range fits {
		// Beside what is plainer and fits exactly a setting that stayed is a chance.
		if (f.Slug == "aperture-left-on" || f.Slug == "time-left-on") && len(causes) > 0 && fits[0].exact && !fits[0].Weak {
			continue
		}
		if len(causes) == most || len(causes) > 0 && f.cost > fits[0].cost+farBehind {
			break
		}
		causes = append(causes, f.Cause)
	}
	return causes
}

// fitting is every hypothesis of what was done that fits, the one that costs least first.
func fitting(c *Case) []fit {
	var fits []fit
	for i := range table {
		if table[i].Plain == lastOfAll {
			continue
		}
		if f, ok := table[i].fit(c); ok {
			fits = append(fits, f)
		}
	}
	slices.SortStableFunc(fits, func(a, b fit) int { return cmp.Compare(a.cost, b.cost) })
	return fits
}

// IsSlip reports whether one of the two causes that fit best would not fit much that is no
// slip, worth saying or not.
func IsSlip(c *Case) bool {
	fits := fitting(c)
	return slices.ContainsFunc(fits[:min(most, len(fits))], func(f fit) bool { return !f.Weak })
}

// What a cause costs: its place in the table, less the evidence for it, and
// something for every hundredth of a stop that it misses by. A cause that lies far
// behind the first is not worth saying.
const (
	evidenceWeighs = 3.
	densityWeighs  = 9.  // against a cause that measured densities deny: more than all that can speak for it
	missWeighs     = 24. // a step of the table for a twenty-fourth of a stop: settings are rounded, but seldom to another mistake
	roundedWeighs  = 8.  // against a cause that fits only by the mark of the standard series beside the one given
	farBehind      = 4
)

// fit is the best of a hypothesis's guesses, where one fits.
func (h *Hypothesis) fit(c *Case) (best fit, ok bool) {
	for _, g := range h.tries(c) {
		miss := math.Abs(exposure.Round(g.Stops-c.Difference)) + g.Miss
		cost := float64(h.Plain) - evidenceWeighs*c.evidence(h.Slug, &g)
		exact := miss <= exactly
		if miss > near { // perhaps what was meant had no mark on this shutter
			miss = math.Abs(exposure.Round(g.Stops-c.Difference-c.Rounded)) + g.Miss
			cost += roundedWeighs
		}
		if miss > near {
			continue
		}
		cost += missWeighs * miss
		if c.denied(h.Slug) {
			cost += densityWeighs
		}
		if !ok || cost < best.cost {
			best, ok = fit{Cause{Slug: h.Slug, Text: g.Text, Weak: g.Weak}, cost, exact}, true
		}
	}
	return best, ok
}

// Lasting gives every mistake that fits and that, once made, stays until somebody
// looks: on a run of sheets that share one, it is one mistake.
func Lasting(c *Case) []Cause {
	var causes []Cause
	for i := range table {
		if !lasting[table[i].Slug] {
			continue
		}
		if f, ok := table[i].fit(c); ok {
			causes = append(causes, f.Cause)
		}
	}
	return causes
}

var lasting = map[string]bool{
	"meter-left-at-ei": true, "another-index": true, "meter-at-another-ei": true, "earlier-reading": true, "filter-not-written": true, "one-stop": true,
}

// exactly is how near two slips together must come: nearer than one, since two
// numbers hit much.
const exactly = 1. / 24

// simple are the slips that happen beside another. Each has a subject of its
// own, so that two of them never explain the same stop twice.
var simple = map[string]string{
	"filter-not-compensated": "filter", "wrong-way": "filter", "factor-as-stops": "filter", "density-as-stops": "filter",
	"bellows-forgotten": "bellows", "not-placed": "zone", "placed-wrong-way": "zone", "bracket-forgotten": "bracket",
	"bracket-wrong-way": "bracket", "meter-at-another-ei": "meter", "fraction-lost": "fraction", "tested-speed-forgotten": "speed",
}

// guess is one of such a pair.
type guess struct {
	slug, subject string
	Guess
}

// pair is two slips as one cause. A tested speed by itself no further off than a sheet may be is no slip: it is
// only what the other one leaves.
func pair(c *Case, a, b guess) Cause {
	for _, of := range [...][2]guess{{a, b}, {b, a}} {
		if slip, rest := of[0], of[1]; rest.slug == "tested-speed-forgotten" && rest.Stops <= c.Over && -rest.Stops <= c.Under {
			return Cause{Slug: slip.slug, Text: slip.Text + "; the rest is within the tolerance: " + rest.Text}
		}
	}
	return Cause{Slug: a.slug, And: b.slug, Text: "two slips together: " + a.Text + "; and " + b.Text}
}

// together tries two simple slips at once, where none fits alone and the two fit
// exactly. Where several pairs do, their number says that none is known, and
// nothing is named.
func together(c *Case) []Cause {
	var guesses []guess
	for i := range table {
		if subject := simple[table[i].Slug]; subject != "" {
			for _, g := range table[i].tries(c) {
				if !g.Weak {
					guesses = append(guesses, guess{table[i].Slug, subject, g})
				}
			}
		}
	}
	var pairs []Cause
	for i, a := range guesses {
		for _, b := range guesses[i+1:] {
			if a.subject != b.subject && math.Abs(exposure.Round(a.Stops+b.Stops-c.Difference)) <= exactly {
				pairs = append(pairs, pair(c, a, b))
			}
		}
	}
	if len(pairs) > most {
		return nil
	}
	return pairs
}

// Table gives the hypotheses in their order.
func Table() []Hypothesis { return slices.Clone(table) }

// Lookup finds a hypothesis by its slug.
func Lookup(slug string) (Hypothesis, bool) {
	i := slices.IndexFunc(table, func(h Hypothesis) bool { return h.Slug == slug })
	if i < 0 {
		return Hypothesis{}, false
	}
	return table[i], true
}
