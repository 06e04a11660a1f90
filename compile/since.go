package compile

import (
	"cmp"
	"slices"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/source"
)

// Long times, a tolerance and a shutter's timed speeds may be told anew in the middle of a season: a shutter was
// repaired, a film was tested. What is told holds from there on, and what was told first also before it, since a test
// tells of what was there already. Of two folders the nearer one's counts, whatever was told later in the other.

// since is where a line stands that says what holds from there on.
type since struct {
	at   source.Span
	iso  string // the day above it in its notebook, "" where none is
	turn int    // of its notebook, among all
	near int    // how near its notebook is to those that the kit is for
}

// holds is what a line says, from there on.
type holds[T any] struct {
	v T
	since
	doubt string // where it is marked so: what is
}

// since is where a line of the notebook at hand stands.
func (d *declaring) since(st *lang.Statement) since {
	var day *lang.Statement
	for _, above := range d.book.Statements {
		if above.Span.Start > st.Span.Start {
			break
		}
		if above.Word == lang.Day {
			day = above
		}
	}
	c := since{at: st.Span, turn: d.book.turn, near: d.kit.near[d.book]}
	if day != nil {
		c.iso, _, _, _ = dayLine(d.book, day)
	}
	return c
}

// before reports whether a line stands before a sheet: above it in its notebook, or in another on its day or earlier.
func (c *since) before(sh *sheet) bool {
	switch {
	case c.at.File == sh.at.File:
		return c.at.Start < sh.at.Start
	case c.iso != "" && sh.outing.iso != "":
		return c.iso <= sh.outing.iso
	}
	return c.turn <= sh.outing.book.turn
}

// follows reports whether what a line says takes the place of what another says, for a sheet, or where that is nil in the
// end. The lines are in their order.
func (c *since) follows(other *since, sh *sheet) bool {
	return c.near > other.near || c.near == other.near && (sh == nil || c.before(sh))
}

// compare orders lines as they take the place of one another; those of no day stay as they are.
func (c *since) compare(other *since) int {
	if n := cmp.Or(cmp.Compare(c.near, other.near), cmp.Compare(c.iso, other.iso)); n != 0 || c.iso == "" {
		return n
	}
	return cmp.Or(cmp.Compare(c.turn, other.turn), cmp.Compare(c.at.Start, other.at.Start))
}

// then is what holds for a sheet, or where that is nil in the end.
func then[T any](all []holds[T], sh *sheet) (v T) {
	for i, from := 0, 0; i < len(all); i++ {
		if i == 0 || all[i].follows(&all[from].since, sh) {
			v, from = all[i].v, i
		}
	}
	return v
}

// ruleFor is the rule for long times that holds for a sheet's film where it has none of its own.
func ruleFor(sh *sheet) exposure.Rule { return then(kitOf(sh).rules, sh) }

// toleranceOf is what counts as off on a sheet.
func toleranceOf(sh *sheet) tolerance {
	if all := kitOf(sh).tolerances; len(all) > 0 {
		return then(all, sh)
	}
	return usualTolerance
}

// usualTolerance is that of who states none.
var usualTolerance = tolerance{over: 1. / 3, under: 1. / 3}

// timedFor are a shutter's speeds as they were timed when a sheet was exposed, or where that is nil in the end.
func (l *lens) timedFor(sh *sheet) (all []holds[exposure.TestedSpeed]) {
	for _, t := range l.timed {
		switch i := slices.IndexFunc(all, func(was holds[exposure.TestedSpeed]) bool { return was.v.Marked == t.v.Marked }); {
		case i < 0:
			all = append(all, t)
		case t.follows(&all[i].since, sh):
			all[i] = t
		}
	}
	return all
}

// tests puts in order how the shutter was timed, and takes what holds in the end.
func (l *lens) timesTold() {
	slices.SortStableFunc(l.timed, func(a, b holds[exposure.TestedSpeed]) int { return a.compare(&b.since) })
	l.Tested = speedsOf(l.timedFor(nil))
	l.changed = len(l.Tested) < len(l.timed)
}

func speedsOf(timed []holds[exposure.TestedSpeed]) (all []exposure.TestedSpeed) {
	for _, t := range timed {
		all = append(all, t.v)
	}
	return all
}

// lensOf is a sheet's lens as it was then, one of which nothing is known where none is named.
func lensOf(sh *sheet) exposure.Lens {
	if !sh.lens.known {
		return exposure.Lens{}
	}
	l := sh.lens.v.Lens
	if sh.lens.v.changed {
		l.Tested = speedsOf(sh.lens.v.timedFor(sh))
	}
	return l
}

// timedWhere is the place of the line that tells a speed of a sheet's shutter, behind a comma, where that is not the one
// of its lens.
func (sh *sheet) timedWhere(marked float64) string {
	for _, t := range sh.lens.v.timedFor(sh) {
		if t.v.Marked == marked && t.at != sh.lens.v.at.Span {
			return ", " + place(t.at)
		}
	}
	return ""
}

// wasTimedAt reports whether a shutter was timed at one of some marked times.
func (l *lens) wasTimedAt(marks []float64) bool {
	return slices.ContainsFunc(l.Tested, func(t exposure.TestedSpeed) bool { return slices.Contains(marks, t.Marked) })
}
