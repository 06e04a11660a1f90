package compile

import (
	"notchbook/compile/exposure"
	"notchbook/lang"
	"slices"
)

// What the film got: the marked settings as exact values, long times through the
// film's rule.

// gave is what the film got.
func (r *reckoning) gave() {
	sh := r.sh
	r.rule = r.ruleOf(sh)
	var ok bool
	switch {
	case sh.aperture.known && sh.aperture.v.Widest:
		if !sh.lens.known || sh.lens.v.Wide == 0 {
			r.need("the widest aperture of the lens")
		} else {
			r.av = sh.lens.v.Wide
		}
	case sh.aperture.known:
		if r.av, ok = apertureAv(sh.aperture.v); !ok {
			r.need("an f-number above 0")
		}
	}
	if !sh.aperture.known || !sh.time.known {
		if !sh.aperture.known && !sh.time.known {
			r.need("the aperture and the time that were given")
		} else if !sh.aperture.known && sh.unclearOf != "aperture" { // which says it better
			r.need("the aperture")
		} else if !sh.time.known && sh.unclearOf != "time" {
			r.need("the time")
		}
		return
	}
	each, ok := exposures(sh.time.v)
	if !ok {
		r.need("a time above 0")
		return
	}
	r.expose(each)
}

// expose puts the time on film: the tested speed, and each of several exposures
// by itself through the film's rule, since 4 x 1 s is not 4 s. How far the pauses help a
// film that is slow in weak light no maker says; counted over all of them together the
// rule takes more off, and nobody is blamed between the two (common practice differs, no
// source).
func (r *reckoning) expose(each []float64) {
	l := lensOf(r.sh)
	r.nominal = each
	for _, marked := range each {
		real := l.Real(marked)
		onFilm, status := r.rule.Effective(real)
		if status == exposure.Beyond {
			r.beyond(marked)
			return
		}
		r.seconds += real
		r.onFilm += onFilm
	}
	r.clock = exposure.EV(r.av, r.seconds) - r.sh.extra
	r.given = exposure.EV(r.av, r.onFilm) - r.sh.extra
	r.least = r.given
	if len(each) > 1 {
		if together, status := r.rule.Effective(r.seconds); status != exposure.Beyond {
			r.least = max(r.given, exposure.EV(r.av, together)-r.sh.extra)
		}
	}
	r.hasGave = true
}

// beyond says why a long time cannot be judged.
func (r *reckoning) beyond(seconds float64) {
	f := r.filmOf(r.sh)
	switch {
	case f == nil:
		r.need("the film, for the reciprocity of " + exposure.FormatTime(seconds))
	case r.rule.IsZero():
		r.need("a reciprocity rule for " + f.name)
	default:
		r.need("a longer reciprocity table for " + f.name + "; " + exposure.FormatTime(seconds) + " lies beyond its last entry")
	}
}

// ruleOf is the film's rule, else the season's; without a film, the rule that
// all declared films share.
func (s *season) ruleOf(sh *sheet) exposure.Rule {
	if f := s.filmOf(sh); f != nil && !f.rule.IsZero() {
		return f.rule
	}
	return ruleFor(sh)
}

// exposures is the exact seconds of every exposure that a written time stands
// for: one, several alike (4 x 1s), or several that differ (20s+17s).
func exposures(t lang.Time) (each []float64, ok bool) {
	for _, part := range t.Parts {
		exact, fine := exposure.TimeSeconds(part.Num, part.Den)
		if !fine {
			return nil, false
		}
		each = append(each, exact)
	}
	for _, n := range []*lang.Number{t.Count, t.Again} {
		if n != nil && *n >= 1 && *n < 1000 {
			each = slices.Repeat(each, int(*n))
		}
	}
	return each, len(each) > 0
}

// apertureAv is the aperture value of a marked aperture.
func apertureAv(a lang.Aperture) (av float64, ok bool) {
	if a.Upper != 0 {
		low, fine := exposure.ApertureAv(a.Mark, 0)
		high, good := exposure.ApertureAv(a.Upper, 0)
		return (low + high) / 2, fine && good
	}
	return exposure.ApertureAv(a.Mark, a.Past)
}
