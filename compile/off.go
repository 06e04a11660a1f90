package compile

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// What there is to say of sheets that are off. One mistake is one finding, also
// where it was made on a run of sheets: a meter left at another index is on
// every sheet until somebody looks at it.

// runFrom is how many sheets in a row make a run.
const runFrom = 3

// exposures reports every sheet that is off, runs as one, and then those whose
// fault is on the film and not in their figures.
func (s *season) exposures() {
	for i := 0; i < len(s.sheets); {
		run := s.run(i)
		if len(run) == 0 {
			i++
			continue
		}
		s.exposureOff(run)
		i = run[len(run)-1].index + 1
	}
	s.silentCauses()
}

// run is the sheets from i on that are off by the same and for the same cause,
// or the one sheet there, or none where it is not off.
func (s *season) run(i int) []*sheet {
	first := s.sheets[i]
	if first.sum.state != record.Off {
		return nil
	}
	run := []*sheet{first}
	for _, sh := range s.sheets[i+1:] {
		if sh.outing != first.outing {
			break
		}
		if sh.sum.state == record.Unexposed || sh.sum.state == record.Unchecked {
			continue
		}
		if sh.sum.state != record.Off || math.Abs(exposure.Round(sh.sum.diff-first.sum.diff)) > slip.Within || !shares(first, sh) {
			break
		}
		run = append(run, sh)
	}
	if len(run) < runFrom {
		return run[:1]
	}
	return run
}

// shares reports whether two sheets have a cause in common that can stay for a
// while.
func shares(a, b *sheet) bool {
	for _, c := range a.sum.causes {
		for _, d := range b.sum.causes {
			if c == d && lasting[c.Slug] {
				return true
			}
		}
	}
	return len(a.sum.causes) == 0 && len(b.sum.causes) == 0
}

// lasting are the mistakes that are made once and stay.
var lasting = map[string]bool{"meter-left-at-ei": true, "meter-at-another-ei": true, "earlier-reading": true, "one-stop": true}

// exposureOff is the difference, and why.
func (s *season) exposureOff(run []*sheet) {
	sh := run[0]
	a := &sh.sum
	f := s.report("exposure-off", sh.settingsSpan(), fmt.Sprintf("%s got %s", labels(run), exposure.OverUnder(a.diff)), run...)
	if !exposure.AStop(a.diff) {
		f.Severity = diag.Warning
	}
	f.note(sh.sumText())
	if how := howRead(sh); how != "" {
		f.note("the reading: " + how)
	}
	if note := givenNote(sh); note != "" {
		f.note(note)
	}
	for i, c := range a.causes {
		lead := "fits: "
		if i > 0 {
			lead = "or: "
		}
		f.note(lead + c.Text)
		f.causes = append(f.causes, c.Slug)
	}
	if len(a.causes) == 0 {
		f.note("no single slip explains this")
	}
	if choices := s.choices(sh); len(run) == 1 && len(choices) > 0 {
		c := choices[0]
		f.note(fmt.Sprintf("right: %s %s (%s%s)", c.Time, c.Aperture, c.Kind, leftText(c.Left)))
	}
	if ei, ok := s.stoodAt(a); ok && len(run) > 1 {
		f.note(fmt.Sprintf("if it is so, they were all exposed at EI %s", trim(ei)))
	}
}

// stoodAt is the index at which the meter would have stood.
func (s *season) stoodAt(a *assessment) (ei float64, ok bool) {
	if len(a.causes) == 0 || a.causes[0].Slug != "meter-left-at-ei" {
		return 0, false
	}
	for _, ei := range s.indices() {
		shift, fine := exposure.SpeedShift(a.ei, ei)
		if fine && math.Abs(shift-a.diff) <= slip.Within && strings.Contains(a.causes[0].Text, " "+trim(ei)+",") {
			return ei, true
		}
	}
	return 0, false
}

func labels(run []*sheet) string {
	var all []string
	for _, sh := range run {
		all = append(all, sh.label)
	}
	return strings.Join(all, " ")
}

func leftText(left float64) string {
	if math.Abs(left) < 1./24 {
		return ""
	}
	return ", leaves " + exposure.FormatStops(left)
}

// sumText is the whole sum in a line: read, less what, asked, given.
func (sh *sheet) sumText() string {
	a := &sh.sum
	text := "read " + exposure.FormatEV(a.base)
	for _, step := range a.steps {
		text += fmt.Sprintf(", %s %s", step.Name, exposure.FormatStops(-step.Stops))
	}
	return text + fmt.Sprintf("; asked %s, given %s", exposure.FormatEV(a.asked), exposure.FormatEV(a.given))
}

// settingsSpan is the smallest stretch that holds what was given.
func (sh *sheet) settingsSpan() source.Span {
	var at source.Span
	for _, span := range []source.Span{sh.aperture.at, sh.time.at} {
		if span.File == sh.at.File && span.Start >= sh.at.Start && span.End <= sh.lines[0].Span.End {
			at = at.Cover(span)
		}
	}
	if at.File == nil {
		return sh.at
	}
	return at
}
