package compile

import (
	"slices"

	"notchbook/compile/record"
)

// What a line chooses for the sheets below it, or says of their development, and marks as doubtful, and a lens that nobody knows:
// what another of the kit, or none, would make of a sheet decides whether it can be judged without them.

// whichThing takes back what rests on a lens, a film, an index or a development that the lines above a sheet leave open.
func (s *season) whichThing(sh *sheet) {
	k := kitOf(sh)
	if !sh.lens.known || sh.lens.doubt {
		asks := "which lens it was"
		if sh.lens.known {
			asks += ": " + sh.lens.v.name + "?"
			s.unlessAlike(sh, asks, func(at *sheet) { at.lens = value[*lens]{} })
		}
		for _, l := range k.lenses {
			if sh.lens.known && l != sh.lens.v || !sh.lens.known && l.wasTimedAt(sh.sum.nominal) { // else its length would be asked for
				s.unlessAlike(sh, asks, func(at *sheet) { at.lens = known(l, sh.lens.at, false) })
			}
		}
	}
	if sh.film.known && sh.film.doubt {
		asks := "which film it was: " + sh.film.v.name + "?"
		s.unlessAlike(sh, asks, func(at *sheet) { at.film, at.ei = value[*film]{}, value[float64]{} })
		for _, f := range k.films {
			if f != sh.film.v {
				s.unlessAlike(sh, asks, filmWas(f))
			}
		}
	}
	if above := !liesIn(sh.ei.at, sh.lines[0].Span); sh.ei.known && sh.ei.doubt && above {
		s.unlessAlike(sh, "the EI of the film: "+sh.ei.at.Text(), func(at *sheet) { at.ei = value[float64]{} })
	}
	n := sh.wanted
	if done := sh.developed; !n.known && len(done) > 0 {
		n = done[len(done)-1].n
	}
	if n.known && n.doubt && !liesIn(n.at, sh.lines[0].Span) {
		s.unlessAlike(sh, "the development: "+n.at.Text(), func(at *sheet) { at.wanted = known(0., n.at, false) })
	}
}

// unlessAlike asks about a sheet that would be another if it were changed: one that is right stays so where it would be too,
// and one that is off where it would be by as much.
func (s *season) unlessAlike(sh *sheet, asks string, change func(*sheet)) {
	switch sh.sum.state {
	case record.Right, record.Off, record.NoImage:
	default:
		return
	}
	at := *sh
	change(&at)
	other := s.assessed(&at, sh.outing.book.at100)
	if other.state == sh.sum.state && (other.state != record.Off || sh.sum.reckonedAs(&other)) {
		return
	}
	sh.sum.blind = nil
	sh.ask(asks)
}

// reckonedAs reports whether two assessments of a sheet rest on the same values.
func (a *assessment) reckonedAs(other *assessment) bool {
	return a.asked == other.asked && a.given == other.given && slices.Equal(a.steps, other.steps)
}
