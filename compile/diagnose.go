package compile

import (
	"maps"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
)

// diagnose assumes that every sheet is assessed. For each sheet that is off it
// lays the case before slip, and leaves the causes that fit.

// nearby is how many of the sheets before are looked at: what stays on a lens
// or in the head comes from the last few.
const nearby = 8

// A sheet with a little more than it needed may turn out to be right, and what is
// right counts for the sheets after it. So these come first, in their order; the
// others change nothing but themselves and are looked at side by side.
func (s *season) diagnose() {
	exposed := map[*film]bool{}
	for _, sh := range s.sheets {
		if sh.film.known {
			exposed[sh.film.v] = true
		}
	}
	for _, k := range s.kits {
		k.indexed(exposed)
		k.costing()
	}
	for _, sh := range s.sheets {
		if sh.sum.habit && sh.sum.state == record.Off {
			s.diagnosed(sh)
		}
	}
	s.eachSheet(func(sh *sheet) {
		if !sh.sum.habit && sh.sum.state == record.Off {
			s.diagnosed(sh)
		}
	})
}

func (s *season) diagnosed(sh *sheet) {
	c := s.caseOf(sh, s.sheets[max(0, sh.index-nearby):sh.index])
	sh.sum.causes, sh.sum.stays = slip.Diagnose(c), slip.Lasting(c)
	switch from, what := sh.carriedFrom(); {
	case sh.sum.habit && !slip.IsSlip(c):
		sh.sum.state = record.Right
	case from != nil && len(sh.sum.causes) == 0: // it may have had its own, which nobody wrote down
		sh.ask("its own " + what + ", which is not written: with that of " + from.label + " no slip explains what it got")
	}
}

// carriedFrom is the sheet from which another has a setting that its line leaves out, and which that is.
func (sh *sheet) carriedFrom() (from *sheet, what string) {
	if sh.time.carried != nil {
		return sh.time.carried, "time"
	}
	return sh.aperture.carried, "aperture"
}

// caseOf is what slip may know of a sheet.
func (s *season) caseOf(sh *sheet, before []*sheet) *slip.Case {
	a := &sh.sum
	c := &slip.Case{
		Difference: a.diff, Asked: a.asked, Av: a.av, Clock: a.seconds, OnFilm: a.onFilm, Past: sh.aperture.v.Past,
		EI: a.ei, OtherEI: otherIndices(sh), Filters: filtersOf(sh, false), Through: filtersOf(sh, true), Kit: kitOf(sh).costing(), Bellows: a.bellows, Rule: a.rule, Light: a.base,
		Words: strings.ToLower(strings.Join(sh.remarks, " ")),
	}
	c.Over, c.Under = toleranceOf(sh).most(), toleranceOf(sh).least()
	c.Parts = len(a.nominal)
	for _, marked := range a.nominal {
		c.Nominal += marked
	}
	if parts := sh.time.v.Parts; len(parts) == 1 {
		c.Num, c.Den = float64(parts[0].Num), float64(parts[0].Den)
	}
	if c.Num == 1 && slices.Contains(oldSpeeds, c.Den) {
		c.Rounded = math.Round(math.Log2(c.Den)) // of 1/10 is 3, that of 1/8
		c.Rounded = exposure.Round(math.Log2(c.Den) - c.Rounded)
	}
	if sh.bracket.known {
		c.Bracket = sh.bracket.v
	}
	c.ByDensity, c.Measured = sh.byDensity()
	if sh.reading != nil {
		c.MeterEI, c.ReadPast = sh.reading.ei, pastOf(sh.reading)
		c.FixedMeter = sh.fixedMeter()
		if a := wholeReading(sh.reading); a != nil {
			c.ReadAv, _ = apertureAv(a.aperture)
		}
	}
	c.Steps, c.Lenses = steps(sh), otherLenses(sh, before)
	if sh.lens.known {
		c.Lens = sh.lens.v.Lens
	}
	if len(a.nominal) > 0 && a.nominal[0] >= 1 {
		c.Rules = rulesBeside(sh)
	}
	for _, f := range a.fells {
		if f.Meant.Known {
			c.Areas = append(c.Areas, slip.Area{Name: f.Name, Zone: f.Meant.Value})
		}
	}
	c.Earlier = make([]slip.Earlier, 0, len(before))
	for _, p := range slices.Backward(before) {
		if p.outing == sh.outing {
			c.Earlier = append(c.Earlier, earlier(sh, p))
		}
	}
	return c
}

// otherLenses is what the extension of a sheet, where it was reckoned by focal length,
// would ask of the other lenses that sheets were exposed with before it on that day.
func otherLenses(sh *sheet, before []*sheet) (all []slip.Value) {
	if !sh.extension.known || !sh.lens.known || sh.bellows.known || sh.scale.known || len(sh.lens.v.scale) > 0 || sh.lens.v.flange != 0 {
		return nil
	}
	var seen []*lens
	for _, p := range before {
		l := p.lens.v
		if p.outing != sh.outing || l == nil || slices.Contains(seen, l) || l.focal == 0 || l.focal == sh.lens.v.focal || len(l.scale) > 0 || l.flange != 0 {
			continue
		}
		seen = append(seen, l)
		if stops, ok := exposure.BellowsByExtension(sh.extension.v, l.focal); ok {
			all = append(all, slip.Value{For: l.name, Stops: exposure.Round(stops)})
		}
	}
	return all
}

// pastOf is the part of a stop that a reading was written with.
func pastOf(rd *reading) float64 {
	if len(rd.areas) == 0 {
		return 0
	}
	a := rd.areas[0]
	if a.asEV {
		return exposure.Round(a.ev - math.Floor(a.ev))
	}
	return a.aperture.Past
}

// steps is how far the speeds next to the one given lie from it.
func steps(sh *sheet) []float64 {
	if !sh.lens.known || len(sh.sum.nominal) != 1 {
		return nil
	}
	given, speeds := sh.sum.nominal[0], slices.Sorted(slices.Values(sh.lens.v.Speeds))
	at := slices.Index(speeds, given)
	if at < 0 {
		return nil
	}
	var all []float64
	for _, i := range []int{at - 1, at + 1} {
		if i >= 0 && i < len(speeds) {
			all = append(all, math.Log2(given/speeds[i]))
		}
	}
	return all
}

// earlier is a sheet before, as it compares to this one.
func earlier(sh, p *sheet) slip.Earlier {
	e := slip.Earlier{
		Label: p.label, SameScene: p.scene == sh.scene, SameReading: p.reading == sh.reading, SameLens: p.lens.v == sh.lens.v,
		SameAperture: sameAperture(sh, p), SameTime: sameTime(sh, p),
		Right: p.sum.state == record.Right, Copied: sh.sameAs == p, Known: p.sum.hasAsked, Asked: p.sum.asked, Light: p.sum.base, Av: p.sum.av, Seconds: p.sum.seconds,
		Filters: filtersOf(p, false), Bellows: p.sum.bellows,
	}
	if e.SameAperture || e.SameTime { // else nobody speaks of them
		e.Aperture, e.Time = apertureText(p.aperture.v), givenTime(p.time.v)
	}
	if p.scene != nil {
		e.Scene = p.scene.title
	}
	return e
}

// filtersOf is the filters of a sheet that cost something and came on for it:
// those that the reading knew nothing of, or those that were in it.
func filtersOf(sh *sheet, inside bool) []slip.Filter {
	var all []slip.Filter
	for _, u := range sh.sum.owes {
		if u.cost == nil || u.inside != inside || u.always || u.cost.stops < slip.Within {
			continue
		}
		name := u.name
		if u.found != nil {
			name = u.found.name
		}
		all = append(all, slip.Filter{Name: name, Called: calledOf(name), Stops: u.cost.stops, Density: densityOf(u.cost), Values: u.otherValues()})
	}
	return all
}

// calledOf is what remarks call a filter: its name, and the letters before its number.
func calledOf(name string) []string {
	name = strings.ToLower(name)
	all := []string{name}
	if letters := strings.TrimRight(name, "0123456789"); len(letters) > 1 || letters != "" && strings.Contains("yorgb", letters) {
		all = append(all, letters)
	}
	return all
}

// otherValues is what the kit declares of a filter besides what it cost here;
// nothing where the sheet itself says what it costs.
func (u *use) otherValues() []slip.Value {
	if u.found == nil || len(u.amounts) > 0 || len(u.found.amounts) == 0 {
		return nil
	}
	var all []slip.Value
	add := func(name string, c *cost) {
		if c != nil && c != u.cost {
			all = append(all, slip.Value{For: name, Stops: c.stops})
		}
	}
	add("", u.found.stops)
	for _, a := range u.found.amounts {
		add(a.as, a.cost)
	}
	return all
}

func densityOf(c *cost) float64 {
	rest, ok := strings.CutPrefix(c.detail, "density ")
	if !ok {
		return 0
	}
	return parseFloat(rest)
}

// costing is the declared filters with what they cost.
func (k *kit) costing() []slip.Filter {
	if k.costs == nil {
		k.costs = []slip.Filter{}
		for _, f := range k.filters {
			if f.stops != nil {
				k.costs = append(k.costs, slip.Filter{Name: f.name, Called: calledOf(f.name), Stops: f.stops.stops})
			}
		}
	}
	return k.costs
}

// rulesBeside is the reciprocity rules that a time may have been corrected by by mistake: of the
// kit's other films, and the further ones of its own.
func rulesBeside(sh *sheet) (all []slip.Rule) {
	for _, f := range kitOf(sh).films {
		own := sh.film.known && sh.film.v == f
		if !own && !f.rule.IsZero() {
			all = append(all, slip.Rule{Film: f.name, Rule: f.rule})
		}
		for i, r := range f.rules {
			if i > 0 {
				all = append(all, slip.Rule{Film: f.name + " " + r.name, Rule: r.rule})
			}
		}
	}
	return all
}

// otherIndices is what a sheet may have been exposed at by mistake: every index of the kit,
// and those of its film for other developments.
func otherIndices(sh *sheet) []slip.Index {
	all := slices.Clone(kitOf(sh).indices)
	if !sh.film.known {
		return all
	}
	f := sh.film.v
	own := append(f.indices(), slices.Collect(maps.Values(f.inN))...)
	all = slices.DeleteFunc(all, func(x slip.Index) bool { return slices.Contains(own, x.EI) })
	slices.Sort(own)
	for _, ei := range slices.Compact(own) {
		if ei != 0 {
			all = append(all, slip.Index{EI: ei, Own: true, Exposed: true})
		}
	}
	return all
}

// indices is a film's index, its box speed and what it is rated at in each light, 0 among them
// where one is not known.
func (f *film) indices() []float64 {
	return append([]float64{f.ei, f.iso}, slices.Collect(maps.Values(f.inLight))...)
}

// indexed leaves every exposure index that the kit knows, box speeds included. exposed is the
// films that sheets are on.
func (k *kit) indexed(exposed map[*film]bool) {
	at := map[float64]bool{}
	for _, f := range k.films {
		for _, ei := range f.indices() {
			at[ei] = at[ei] || exposed[f]
		}
	}
	delete(at, 0)
	for _, ei := range slices.Sorted(maps.Keys(at)) {
		k.indices = append(k.indices, slip.Index{EI: ei, Exposed: at[ei]})
	}
}

// sameAperture and sameTime compare marked settings.
func sameAperture(a, b *sheet) bool {
	return a.aperture.known && b.aperture.known && a.aperture.v == b.aperture.v
}

func sameTime(a, b *sheet) bool {
	if !a.time.known || !b.time.known {
		return false
	}
	x, ok := exposures(a.time.v)
	y, fine := exposures(b.time.v)
	return ok && fine && slices.Equal(x, y)
}

func sameSettings(a, b *sheet) bool { return sameAperture(a, b) && sameTime(a, b) }

// givenTime is a sheet's time as people write it.
func givenTime(t lang.Time) string {
	var parts []string
	for _, part := range t.Parts {
		parts = append(parts, timeText(part))
	}
	text := strings.Join(parts, " + ")
	for _, n := range []*lang.Number{t.Count, t.Again} {
		if n != nil {
			text = trim(float64(*n)) + " × " + text
		}
	}
	if t.Bulb {
		text = "B " + text
	}
	return text
}
