package compile

import (
	"notchbook/compile/exposure"
	"notchbook/lang"
)

// What the film got: the marked settings as exact values, long times through the
// film's rule.

// gave is what the film got.
func (r *reckoning) gave() {
	sh := r.sh
	r.rule = r.ruleOf(sh)
	var ok bool
	if sh.aperture.known {
		if r.av, ok = apertureAv(sh.aperture.v); !ok {
			r.need("an f-number above 0")
		}
	}
	if !sh.aperture.known || !sh.time.known {
		if !sh.aperture.known && !sh.time.known {
			r.need("the aperture and the time that were given")
		} else if !sh.aperture.known {
			r.need("the aperture")
		} else {
			r.need("the time")
		}
		return
	}
	each, times, ok := clockTime(sh.time.v)
	if !ok {
		r.need("a time above 0")
		return
	}
	r.expose(each, times)
}

// expose puts the time on film: the tested speed, each of several exposures
// through the film's rule.
func (r *reckoning) expose(each float64, times int) {
	var l exposure.Lens
	if r.sh.lens.known {
		l = r.sh.lens.v.Lens
	}
	real := l.Real(each)
	r.seconds = real * float64(times)
	r.onFilm, r.status = r.rule.EffectiveEach(times, real)
	if r.status == exposure.Beyond {
		r.beyond(each)
		return
	}
	r.clock = exposure.EV(r.av, r.seconds)
	r.given = exposure.EV(r.av, r.onFilm)
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
	return s.kit.rule
}

// clockTime is one exposure's time and how many there were.
func clockTime(t lang.Time) (each float64, times int, ok bool) {
	times = 1
	for _, n := range []*lang.Number{t.Count, t.Again} {
		if n != nil && *n >= 1 && *n < 1000 {
			times = int(*n)
		}
	}
	for _, part := range t.Parts {
		exact, fine := exposure.TimeSeconds(part.Num, part.Den)
		if !fine {
			return 0, 0, false
		}
		each += exact
	}
	if len(t.Parts) > 1 { // 20s+17s: parts of one exposure
		return each, times, each > 0
	}
	return each, times, each > 0
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
