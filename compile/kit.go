package compile

import (
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/sensitometry"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// kit is what the notebooks declare. Lookups fold case; each list keeps the
// order of declaration.
type kit struct {
	books []*book       // that declare for it, in the order in which they count
	near  map[*book]int // how near each lies to those that the kit is for
	own   bool          // it is one notebook's, whose lines count over those of all others

	cameras []*camera
	lenses  []*lens
	films   []*film
	filters []*filter
	meters  []*meter

	rules      []holds[exposure.Rule] // of every film without one of its own
	tolerances []holds[tolerance]
	wanted     value[float64]     // development that its notebooks ask for
	wedge      map[string]float64 // densities of its steps, by name in lower case
	target     *sensitometry.Target

	// Kept once they were asked for: what the declared filters cost, every index,
	// and what the filters' names mean.
	doubts  []doubtful // what lines of the kit mark as doubtful
	costs   []slip.Filter
	called  []calling // what its things are called by, and the same at a glance
	names   pattern.Any
	indices []slip.Index
	looked  map[string]lookup
}

// declared is what all things of the kit have.
type declared struct {
	name   string
	at     *lang.Statement
	tested []string // the tests that its figures are from, as typed
}

// tests takes a test that the figures of a line are from.
func (d *declared) tests(k *lang.Care) bool {
	text, ok := strings.CutPrefix(k.Text, "test ")
	if ok {
		d.tested = append(d.tested, text)
	}
	return ok
}

type camera struct {
	declared
	confusion float64 // diameter of the circle of confusion in millimetres; 0 unknown
	format    string
	back      string
	from, to  float64 // extension in millimetres; 0 unknown
}

type lens struct {
	declared
	focal, circle, flange float64 // millimetres; 0 unknown
	exposure.Lens
	speeds []lang.Seconds // the marked speeds as typed
	ranged bool           // only their ends are typed

	marks   []lang.Aperture // those written of its apertures, widest first
	with    []lang.Filter   // always on
	scale   bellowsScale
	timings []timing                      // of the shutter, in the order written
	timed   []holds[exposure.TestedSpeed] // those that its own line gives, and the timings
	changed bool                          // one speed was told twice
}

// timing is how long a shutter was really open at one marked speed.
type timing struct {
	marked float64   // the mark's exact value, seconds
	as     string    // the mark as typed
	real   []float64 // seconds, in the order written
	at     source.Span
}

// is reports whether a speed of the shutter is from this timing.
func (t *timing) is(speed holds[exposure.TestedSpeed]) bool {
	return liesIn(t.at, speed.at) && speed.v == t.speed()
}

// speed is what counts of a timing: the median.
func (t *timing) speed() exposure.TestedSpeed {
	return exposure.TestedSpeed{Marked: t.marked, Real: sensitometry.Median(t.real)}
}

type film struct {
	declared
	iso, ei  float64
	unsure   string // a number on its line that may be its index, where none is said
	box      boxSpeed
	doubtful string             // its index, where its line marks it so
	class    string             // "pan", "ortho", "blue"; "" unknown
	inLight  map[string]float64 // EI by light: "tungsten"
	inN      map[float64]float64
	rule     exposure.Rule
	how      string // the rule in words
	rules    []namedRule
	times    []developing
	baths    []string          // the developers, in the order declared
	care     map[string]string // "developer", "agitation", "capacity", "safelight": as typed
	shorten  []shorter         // by the metered time, shortest first
	sees     *ownCurve         // sensitivity of the writer's own, nil where none
}

// namedRule is one of several reciprocity rules of a film.
type namedRule struct {
	name string
	rule exposure.Rule
	how  string
}

// developing is a declared time for a development.
type developing struct {
	bath    string // the developer as declared, "" where none is
	n       float64
	seconds float64
	celsius float64
	stated  bool // the temperature is
	at      source.Span
}

type filter struct {
	declared
	number   string // Wratten number, "pol", "" unknown
	numbered bool   // that the line says, besides what it calls the filter
	byLetter bool   // that an old letter stands for: G
	colour   string
	stops    *cost     // declared for everything
	amounts  []amount  // declared for a film or a light, in the order of the line
	passes   *ownCurve // transmittance of the writer's own, nil where none
}

// cost is an amount in stops with where it is from.
type cost struct {
	stops  float64
	low    float64 // the least and the most that is published, where the
	high   float64 // filter was not declared; else both are stops
	detail string  // "×8", "3 stops"
	from   string  // "kit.md:12", a source of the handbook
	own    bool    // declared or written by the photographer
	at     source.Span

	doubtful bool // marked so where it is declared
}

type meter struct {
	declared
	at100  bool    // shows EV at ISO 100 whatever it is set to
	ei     float64 // the index that it always stands at, 0 where it is set to the film's
	stated bool
	offset float64
	unsure string // an amount of stops on its line that is not said to be its offset
}

// tolerance is what counts as off, in stops; own says that it was stated.
type tolerance struct {
	over, under float64
	own         bool
}

// most and least are by how many stops a sheet may be over and under.
func (t tolerance) most() float64  { return t.over + rounding(t.over) }
func (t tolerance) least() float64 { return t.under + rounding(t.under) }

// rounding is what the rounding of marks may add: a third of a stop is not within a quarter.
func rounding(tolerance float64) float64 {
	if tolerance < 1./3-margin/2 {
		return margin - 0.001
	}
	return margin
}

// find looks a thing up by its name, in any case.
func find[T interface{ called(string) bool }](all []T, name string) (found T, ok bool) {
	for _, t := range all {
		if t.called(name) {
			return t, true
		}
	}
	return found, false
}

func (d *declared) called(name string) bool {
	return strings.EqualFold(d.name, strings.TrimSpace(name))
}

// lens finds a lens by its name, or by its focal length with the unit where one only has it:
// 14in. Makers round to a hundredth (common practice, no source).
func (k *kit) lens(name string) (*lens, bool) {
	if l, ok := find(k.lenses, name); ok {
		return l, true
	}
	mm, ok := lang.LengthOf(name)
	var found *lens
	for _, l := range k.lenses {
		if ok && math.Abs(l.focal-mm) <= mm/100 {
			ok = found == nil
			found = l
		}
	}
	return found, ok && found != nil
}

// filter finds a filter as people spell it: by its declared name, by its
// Wratten number however written, by its density, or by its colour where only
// one declared filter has it. What is not declared is looked up in the handbook.
func (k *kit) filter(name string) (f *filter, entry handbook.FilterEntry, ok bool) {
	if l, known := k.looked[name]; known {
		return l.filter, l.entry, l.ok
	}
	return k.lookUp(name)
}

// keep remembers what a name means, for filter.
func (k *kit) keep(name string) {
	if _, known := k.looked[name]; known {
		return
	}
	if k.looked == nil {
		k.looked = map[string]lookup{}
	}
	f, entry, ok := k.lookUp(name)
	k.looked[name] = lookup{f, entry, ok}
}

// lookup is what a filter's name was found to be.
type lookup struct {
	filter *filter
	entry  handbook.FilterEntry
	ok     bool
}

func (k *kit) lookUp(name string) (f *filter, entry handbook.FilterEntry, ok bool) {
	if f, ok = find(k.filters, strings.TrimPrefix(name, "#")); ok {
		entry, _ = handbook.Filter(f.number)
		return f, entry, true
	}
	if number := handbook.NumberOf(name); number != "" {
		var of []*filter
		for _, f := range k.filters {
			if f.number == number {
				of = append(of, f)
			}
		}
		if len(of) > 0 && (len(of) == 1 || lang.CodeIn(of[0].name) == of[0].name) { // Y8, and not Y8 light and Y8 dark
			entry, _ = handbook.Filter(number)
			return of[0], entry, true
		}
		entry, ok = handbook.Filter(number)
		return nil, entry, ok
	}
	if f := k.coloured(name); f != nil {
		entry, _ = handbook.Filter(f.number)
		return f, entry, true
	}
	if all := k.inOtherWords(name); len(all) == 1 {
		entry, _ = handbook.Filter(all[0].number)
		return all[0], entry, true
	}
	_, _, neutral := neutralStops(name)
	return nil, entry, neutral || isGraduated(name)
}

// coloured is the only declared filter of a colour, that its line says, or its Wratten number: an
// R25 is red.
func (k *kit) coloured(name string) *filter {
	if all := k.ofColour(name); len(all) == 1 {
		return all[0]
	}
	return nil
}

// ofColour are all declared filters of a colour.
func (k *kit) ofColour(name string) (all []*filter) {
	const letter = 2 // at most: Y is a name, and no colour
	name = strings.TrimSuffix(name, " filter")
	for _, f := range k.filters {
		if f.colour != "" {
			if strings.EqualFold(f.colour, name) {
				all = append(all, f)
			}
			continue
		}
		entry, ok := handbook.Filter(f.number)
		if ok && (strings.EqualFold(entry.Colour, name) || len(name) > letter && !strings.Contains(name, " ") && entry.Called(name)) { // deep red may be another
			all = append(all, f)
		}
	}
	return all
}

// inOtherWords are the declared filters of a colour that is said in another language, Gelbfilter, or that are
// called by it themselves.
func (k *kit) inOtherWords(said string) []*filter {
	colour := colourElsewhere(strings.Fields(strings.ToLower(said)))
	if colour == "" {
		return nil
	}
	all := k.ofColour(colour)
	for _, f := range k.filters {
		for word, meant := range colourWords {
			if meant == colour && strings.HasPrefix(strings.ToLower(f.name), word) && !slices.Contains(all, f) {
				all = append(all, f)
			}
		}
	}
	return all
}

// whichOf asks which of several filters of the kit is called so, "" where they are not several.
func (k *kit) whichOf(called string, all []*filter) string {
	if len(all) < 2 {
		return ""
	}
	var names []string
	for _, f := range all {
		names = append(names, f.name)
	}
	return "which filter " + quote(called) + " is: " + strings.Join(names, " or ")
}

// neutralStops reads ND 0.9 as a density, ND8 as a factor and ND 3 stops as it says. Whole
// numbers that are no power of two (ND3) are neither for certain.
func neutralStops(name string) (stops float64, detail string, ok bool) {
	if len(name) < 3 || kindOf(name) != "nd" {
		return 0, "", false
	}
	rest := densityText.Replace(name[2:])
	figure, said := strings.CutSuffix(rest, "stops")
	v := parseFloat(figure)
	switch {
	case said && v > 0:
		return v, exposure.InStops(v), true
	case strings.Contains(rest, ".") && v > 0:
		stops, ok = exposure.DensityStops(v)
		return stops, "density " + rest, ok
	case v == 2 || v == 4 || v == 8 || v == 16 || v == 32 || v == 64 || v == 400 || v == 1000:
		stops, ok = exposure.FactorStops(v)
		return stops, exposure.FormatFactor(v), ok
	}
	return 0, "", false
}

// densityText takes the blanks and the decimal comma out of a density.
var densityText = strings.NewReplacer(" ", "", ",", ".")

// kindOf is the kind of filter that a name says, where it has no colour: nd, grad; else "".
func kindOf(name string) string {
	for _, kind := range [...]string{"nd", "grad"} {
		if len(name) >= len(kind) && strings.EqualFold(name[:len(kind)], kind) {
			return kind
		}
	}
	return ""
}

func isGraduated(name string) bool { return kindOf(name) == "grad" }

// speedsText lists a shutter's speeds as typed.
func speedsText(speeds []lang.Seconds) string {
	var all []string
	for _, s := range speeds {
		all = append(all, timeText(s))
	}
	return strings.Join(all, " ")
}
