package compile

import (
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/sensitometry"
	"notchbook/lang"
)

// What a line declares of a lens and its shutter: focal length, marks, speeds, and how long
// they were when they were timed.

func (s *season) newLens(st *lang.Statement) *lens {
	l := &lens{declared: named(st)}
	said := len(s.found)
	s.each(st, func(t *lang.Term) bool {
		switch k := t.Kind.(type) {
		case *lang.Millimetres:
			l.focal = float64(k.MM)
		case *lang.FNumbers:
			l.Wide, _ = exposure.ApertureAv(k.From.Mark, k.From.Past)
			l.widest, l.only = apertureText(k.From), k.From
			if k.To != nil {
				l.Small, _ = exposure.ApertureAv(k.To.Mark, k.To.Past)
				l.smallest = apertureText(*k.To)
			} else if l.Wide >= pinhole || says(strings.Fields(strings.ToLower(l.name)), holes) {
				l.Small, l.smallest = l.Wide, l.widest
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
			l.tested(k)
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
	if len(s.found) > said { // of a list that is read by half nobody is told what it lacks
		l.speeds, l.Speeds, l.ranged = nil, nil, false
	}
	return l
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

// measured is a shutter's speeds as they were timed; the median counts, and of
// what was timed twice what was written last.
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
	s.each(st, func(t *lang.Term) bool {
		k, isTime := t.Kind.(*lang.Measured)
		if !isTime {
			_, words := t.Kind.(*lang.Loose)
			return words
		}
		if marked, ok := exposure.TimeSeconds(k.Marked.Num, k.Marked.Den); ok && !t.Doubtful {
			timed := timing{marked: marked, as: timeText(k.Marked), at: t.Span}
			for _, real := range k.Real {
				timed.real = append(timed.real, real.Num/real.Den)
			}
			l.timings = append(l.timings, timed)
			l.Tested = append([]exposure.TestedSpeed{{Marked: marked, Real: sensitometry.Median(timed.real)}}, l.Tested...)
		}
		return true
	})
}

func (l *lens) tested(k *lang.Tested) {
	for _, pair := range k.Pairs {
		marked, ok := exposure.TimeSeconds(pair.From.Num, pair.From.Den)
		if ok && pair.To.Num > 0 && pair.To.Den > 0 {
			l.Tested = append(l.Tested, exposure.TestedSpeed{Marked: marked, Real: pair.To.Num / pair.To.Den})
		}
	}
}
