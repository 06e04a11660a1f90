package compile

import (
	"fmt"
	"math"
	"slices"
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
	say(s, s.streaks(), (*season).exposureOff)
	s.silentCauses()
}

// streak is sheets that are off by the same and for the same lasting cause, or a single
// one, and the causes that they have in common.
type streak struct {
	sheets []*sheet
	shared []slip.Cause
}

// streaks is all sheets that are off, in their order.
func (s *season) streaks() (all []streak) {
	for i := 0; i < len(s.sheets); i++ {
		if s.sheets[i].sum.state == record.Off {
			one := s.streak(i)
			all = append(all, one)
			i = one.sheets[len(one.sheets)-1].index
		}
	}
	return all
}

// streak is the one that a sheet which is off begins.
func (s *season) streak(i int) streak {
	first := s.sheets[i]
	all, shared := []*sheet{first}, first.sum.stays
	for _, sh := range s.sheets[i+1:] {
		if sh.outing != first.outing {
			break
		}
		if sh.sum.state == record.Unexposed || sh.sum.state == record.Unchecked {
			continue
		}
		if sh.sum.state != record.Off || math.Abs(exposure.Round(sh.sum.diff-first.sum.diff)) > slip.Within {
			break
		}
		both := common(shared, sh.sum.stays)
		if len(both) == 0 && !(len(shared) == 0 && len(first.sum.causes) == 0 && len(sh.sum.causes) == 0) {
			break
		}
		all, shared = append(all, sh), both
	}
	if len(all) < runFrom {
		return streak{sheets: all[:1]}
	}
	return streak{all, shared}
}

// common is the causes of both lists, in the order of the first.
func common(a, b []slip.Cause) []slip.Cause {
	var both []slip.Cause
	for _, c := range a {
		if slices.Contains(b, c) {
			both = append(both, c)
		}
	}
	return both
}

// exposureOff is the difference, and why.
func (s *season) exposureOff(of streak) {
	run, sh := of.sheets, of.sheets[0]
	a := &sh.sum
	causes := a.causes
	if len(run) > 1 && len(of.shared) > 0 {
		causes = of.shared[:min(len(of.shared), 2)]
	}
	f := s.report("exposure-off", sh.settingsSpan(), fmt.Sprintf("%s got %s", these(run), exposure.OverUnder(a.diff)), run...)
	if !exposure.AStop(a.diff) {
		f.Severity = diag.Warning
	}
	f.others(run)
	f.note(sh.sumText())
	if how := howRead(sh); how != "" {
		f.note("the reading: " + how)
	}
	if note := givenNote(sh); note != "" {
		f.note(note)
	}
	for _, one := range run {
		one.amendments(f)
	}
	for i, c := range causes {
		lead := "fits: "
		if i > 0 {
			lead = "or: "
		}
		f.note(lead + c.Text)
		f.causes = append(f.causes, c.Slug)
		if c.And != "" {
			f.causes = append(f.causes, c.And)
		}
	}
	if len(causes) == 0 {
		f.note("no single slip explains this")
	}
	choices := s.choices(sh)
	switch {
	case len(run) > 1:
	case len(choices) == 0 && beyondTable(sh):
		f.note("right: at this aperture it lies beyond the last entry of the reciprocity table")
	case len(choices) > 0:
		c := choices[0]
		f.note(fmt.Sprintf("right: %s %s (%s%s)", c.Time, c.Aperture, c.Kind, leftText(c.Left)))
	}
	if len(run) > 1 {
		for _, offer := range s.offers(run, causes) {
			f.note(offer)
		}
	}
}

// amendments says which lines changed a sheet, and what it had before them: what is off may be there.
func (sh *sheet) amendments(f *finding) {
	all := []*sheet{sh}
	if from := sh.copiesAmended(); from != nil {
		all = append(all, from)
	}
	for _, of := range all {
		for _, st := range of.amends {
			for _, change := range of.history {
				if change.How == "amended" && change.Place == placeOf(st.Span) {
					f.note(of.label+" had "+change.Was+" before it was amended", st.Body)
				}
			}
		}
	}
}

// beyondTable reports whether a film's table ends before the time that a sheet's aperture asks
// for.
func beyondTable(sh *sheet) bool {
	_, status := sh.sum.rule.Corrected(exposure.Seconds(sh.sum.asked, sh.sum.av))
	return status == exposure.Beyond
}

// labels are those of all sheets, as a line of the notation takes them.
func labels(run []*sheet) string { return strings.Join(labelled(run), " ") }

func labelled(run []*sheet) (all []string) {
	for _, sh := range run {
		all = append(all, sh.label)
	}
	return all
}

// these are labels in a sentence: of many sheets the first few, the finding holds all of them.
func these(run []*sheet) string { return diag.Few(labelled(run), " ") }

// others says where the sheets stand that a finding is about and does not point to.
func (f *finding) others(sheets []*sheet) {
	place := func(sh *sheet) string {
		text := fmt.Sprint("line ", sh.at.File.Position(sh.at.Start).Line)
		if sh.at.File != f.Span.File {
			text += " of " + sh.at.File.Name
		}
		return text
	}
	var all []string
	last := place(sheets[0])
	for _, sh := range sheets[1:] {
		if at := place(sh); at != last {
			all = append(all, sh.label+" on "+at)
			last = at
		}
	}
	if len(all) > 0 {
		f.note("also " + diag.Few(all, ", "))
	}
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
		if step.Detail == graduated {
			text += " (" + graduated + ")"
		}
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
