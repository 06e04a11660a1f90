package compile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
)

// What a line declares of a lens and its shutter: focal length, marks, speeds, and how long
// they were when they were timed.

func (s *declaring) newLens(st *lang.Statement) *lens {
	l := &lens{declared: named(st)}
	said := len(s.found)
	var focal []float64
	ranged := false
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Millimetres:
			focal = append(focal, float64(k.MM))
			if l.focal = focal[0]; focal[len(focal)-1] != l.focal {
				l.focal = 0
				s.report("two-settings", t.Span, fmt.Sprintf("two focal lengths of %s on one line, %s mm and %s mm", l.name, trim(focal[0]), trim(float64(k.MM)))).
					note("neither is taken: a lens of several has a line for each")
			}
		case *lang.FNumbers:
			l.marks = append(append(l.marks, k.From), k.More...)
			if k.To != nil {
				l.marks, ranged = append(l.marks, *k.To), true
			}
		case *lang.Circle:
			l.circle = float64(k.MM)
		case *lang.Flange:
			l.flange = float64(k.MM)
		case *lang.Clicks:
			l.clicks(k)
		case *lang.Shutter:
			l.shutter(k, t.Span.Text())
		case *lang.Tested:
			l.tested(k, s.since(st))
		case *lang.BellowsScale:
			l.scale = s.scaleFrom(k, t)
		case *lang.With:
			l.with = append(l.with, k.Filter)
		case *lang.Care:
			return l.tests(k)
		case *lang.Loose:
			return true
		default:
			return false
		}
		return true
	})
	l.opens(ranged)
	if len(s.found) > said { // of a list that is read by half nobody is told what it lacks
		l.speeds, l.Speeds, l.ranged = nil, nil, false
	}
	return l
}

// opens is the lens's range from its marks, of which some are the ends of a range or none is. A
// widest and no other leaves the smallest unknown; three and more are its series.
func (l *lens) opens(ranged bool) {
	if len(l.marks) == 0 {
		return
	}
	slices.SortStableFunc(l.marks, func(a, b lang.Aperture) int { return cmp.Compare(markAv(a), markAv(b)) })
	l.Wide = markAv(l.marks[0])
	if last := l.marks[len(l.marks)-1]; len(l.marks) > 1 || l.Wide >= pinhole || says(strings.Fields(strings.ToLower(l.name)), holes) {
		l.Small = markAv(last)
	}
	if !ranged && len(l.marks) > 2 {
		for _, m := range l.marks {
			l.Marks = append(l.Marks, markAv(m))
		}
	}
}

// markAv is the aperture value of an engraved mark.
func markAv(a lang.Aperture) float64 {
	av, _ := exposure.ApertureAv(a.Mark, a.Past)
	return av
}

// pinhole is the aperture value, f/64, at which no lens opens widest: a hole or a zone plate
// has this aperture and no other. So have those that are called so (common practice, no source).
const pinhole = 12

var holes = lang.SetOf("pinhole zoneplate zone-plate plate hole")

func (l *lens) clicks(k *lang.Clicks) {
	l.Clicks = 1
	if k.Stops != nil && k.Stops.Stops != nil {
		l.Clicks = float64(*k.Stops.Stops)
	}
}

// The series of marked speeds, as parts of a second: that of ISO 516, and the one
// that older shutters have (common practice, no source).
var (
	newSpeeds = []float64{1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000}
	oldSpeeds = []float64{1, 2, 5, 10, 25, 50, 100, 200, 400}
)

// shutter takes the speeds listed, or the series up to the fastest: the standard
// one where that is a speed of it, else the older one and the fastest itself.
func (l *lens) shutter(k *lang.Shutter, text string) {
	if k.Fastest != nil {
		l.Bulb, l.ranged = true, true
		l.speeds = nil
		fastest, slowest := k.Fastest.Den/k.Fastest.Num, secondsOr(k.Slowest, 1)
		series := newSpeeds
		if !slices.Contains(newSpeeds, fastest) {
			series = oldSpeeds
		}
		for _, den := range series {
			if den < fastest && 1/den <= slowest {
				l.speeds = append(l.speeds, lang.Seconds{Num: 1, Den: den})
			}
		}
		l.speeds = append(l.speeds, *k.Fastest)
	} else {
		l.speeds = k.Speeds
		l.Bulb = strings.ContainsAny(text, "TB")
	}
	l.Speeds = nil
	for _, s := range l.speeds {
		if exact, ok := exposure.TimeSeconds(s.Num, s.Den); ok {
			l.Speeds = append(l.Speeds, exact)
		}
	}
}

// measure takes a shutter's speeds as they were timed, of which the median counts.
func (s *declaring) measure(st *lang.Statement) {
	l, ok := find(s.kit.lenses, st.Labels[0].Text)
	if !ok {
		s.report("not-declared", st.Labels[0].Span, quote(st.Labels[0].Text)+" is not declared as a lens").note("declare it: lens " + st.Labels[0].Text + ": …")
		return
	}
	if s.measured[st] == l {
		return // by another kit that knows the line
	}
	s.measured[st] = l
	from := s.since(st)
	s.each(st.Standing(s.names), func(t *lang.Term) bool {
		k, isTime := t.Kind.(*lang.Measured)
		if !isTime {
			_, words := t.Kind.(*lang.Loose)
			return words
		}
		if marked, ok := exposure.TimeSeconds(k.Marked.Num, k.Marked.Den); ok {
			timed := timing{marked: marked, as: timeText(k.Marked), at: t.Span}
			for _, real := range k.Real {
				timed.real = append(timed.real, real.Num/real.Den)
			}
			l.timings = append(l.timings, timed)
			l.timed = append(l.timed, holds[exposure.TestedSpeed]{timed.speed(), from, doubtSaid(t)})
		}
		return true
	})
}

func (l *lens) tested(k *lang.Tested, from since) {
	for _, pair := range k.Pairs {
		marked, ok := exposure.TimeSeconds(pair.From.Num, pair.From.Den)
		if ok && pair.To.Num > 0 && pair.To.Den > 0 {
			l.timed = append(l.timed, holds[exposure.TestedSpeed]{v: exposure.TestedSpeed{Marked: marked, Real: pair.To.Num / pair.To.Den}, since: from})
		}
	}
}

// timedElsewhere are the speeds that lines of their own tell.
func (l *lens) timedElsewhere() []holds[exposure.TestedSpeed] {
	return slices.DeleteFunc(slices.Clone(l.timed), func(t holds[exposure.TestedSpeed]) bool { return t.at == l.at.Span })
}
