package compile

import (
	"fmt"
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/slip"
	"notchbook/lang"
)

// What can be written where one mistake was made on a run of sheets: the one line
// that says what happened. Only a line is offered that, written, makes these
// sheets right by what it says; a test writes each and compiles again. Whether it
// is so the writer must know: the line is never written unasked.

// offers are the lines for the causes that fit a run, each with what it says.
func (s *season) offers(run []*sheet, causes []slip.Cause) []string {
	var all []string
	for _, c := range causes {
		switch c.Slug {
		case "filter-not-written":
			name, _, _ := strings.Cut(c.Text, " stayed")
			if !anyFilter(run) {
				all = append(all, fmt.Sprintf("if it is so, write: amend %s: %s", labels(run), name))
			}
		case "meter-left-at-ei", "another-index":
			if line := s.ratedAt(run, c); line != "" {
				all = append(all, line)
			}
		}
	}
	if line := s.shutterOff(run); line != "" {
		all = append(all, line)
	}
	return all
}

func anyFilter(run []*sheet) bool {
	for _, sh := range run {
		if len(sh.filters) > 0 {
			return true
		}
	}
	return false
}

// ratedAt says the index at which a run was in effect exposed. The reading as
// written holds for the film's index, and an amendment must go on saying so:
// `at EI` is the index of the reading, `EI` that of the exposure.
func (s *season) ratedAt(run []*sheet, c slip.Cause) string {
	var stood, rated float64
	_, words, _ := strings.Cut(c.Text, " EI ")
	if _, err := fmt.Sscanf(words, "%g, not %g", &stood, &rated); err != nil || rated == 0 {
		return ""
	}
	terms := "EI " + trim(stood)
	for _, sh := range run {
		if sh.sum.ei != rated || sh.reading == nil || sh.reading.ei != 0 {
			return ""
		}
		if sh.shownAt() == 0 {
			terms = "EI " + trim(stood) + ", at EI " + trim(rated)
		}
	}
	for _, sh := range run { // one line holds for sheets of one kind of reading
		if sh.outing.book.at100 && (sh.shownAt() != 0) == strings.Contains(terms, "at EI") {
			return ""
		}
	}
	return fmt.Sprintf("if it is so, they were all exposed at EI %s; write: amend %s: %s", trim(stood), labels(run), terms)
}

// shutterOff is a run that was given one marked speed of one lens, and is off by
// as much as that speed may be slow or fast.
func (s *season) shutterOff(run []*sheet) string {
	first := run[0]
	if !first.lens.known || first.lens.v.at == nil || len(first.sum.nominal) != 1 || first.sum.seconds >= 1 || len(first.time.v.Parts) != 1 {
		return ""
	}
	mean := 0.
	for _, sh := range run {
		if sh.lens.v != first.lens.v || len(sh.sum.nominal) != 1 || sh.sum.nominal[0] != first.sum.nominal[0] {
			return ""
		}
		mean += sh.sum.diff / float64(len(run))
	}
	// The notes say too much: then the shutter gave less than its mark.
	real := first.sum.seconds * exposure.StopsFactor(-mean)
	return fmt.Sprintf("or the shutter's %s is not what it says: test it; the difference would go with shutter %s: %s measured %s ms",
		givenTime(first.time.v), first.lens.v.name, speedOf(first.time.v.Parts[0]), trim(math.Round(real*10000)/10))
}

func speedOf(s lang.Seconds) string { return trim(s.Num) + "/" + trim(s.Den) }
