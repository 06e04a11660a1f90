package compile

import (
	"fmt"
	"strings"

	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Causes that no setting shows. Where the figures of a sheet are right, or cannot
// be checked, and the notes say that the film is black, fogged, clear, thin or dense,
// the mistake is one that leaves no figures.

// seen is what the notes say that a sheet looks like.
type seen struct {
	look  slip.Look // "" where it is left open whether its slide was in
	words string
	at    source.Span
}

// silentCauses notes them, once for a sheet.
func (s *season) silentCauses() {
	looks := s.looks()
	doubled := map[*outing]*sheet{}
	for _, sh := range s.sheets {
		if looks[sh].look == slip.Double {
			doubled[sh.outing] = sh
		}
	}
	for _, sh := range s.sheets {
		l, ok := looks[sh]
		if !ok || sh.sum.state != record.Right && sh.sum.state != record.Unchecked {
			continue
		}
		s.reportSilent(sh, l, doubled[sh.outing] != nil)
	}
}

func (s *season) reportSilent(sh *sheet, l seen, twin bool) {
	if l.look == "" {
		s.slideUnsure(sh, l)
		return
	}
	causes := slip.DiagnoseSilent(l.look, l.words, twin)
	if len(causes) == 0 {
		return // the writer says why
	}
	why := "no setting says why"
	if _, other := slip.OtherSide(l.words); other || slip.SlideOf(l.words) == slip.SlideLeft {
		why = "the notes say why"
	}
	f := s.report("cause-not-in-settings", l.at, fmt.Sprintf("%s is %s, and %s", sh.label, l.look, why), sh)
	f.Severity = diag.Note
	for i, c := range causes {
		lead := "fits: "
		if i > 0 {
			lead = "or: "
		}
		f.note(lead + c.Text)
		f.causes = append(f.causes, c.Slug)
	}
}

// slideUnsure asks whether the slide was in, where what is said of it leaves that open.
func (s *season) slideUnsure(sh *sheet, l seen) {
	f := s.report("cause-not-in-settings", l.at, "whether the slide was in when "+sh.label+" was exposed is left open", sh)
	f.Severity = diag.Note
	f.note("it counts as exposed; if nothing is on it, write slide left in; if it was drawn in time, slide nearly left in")
}

// looks is what every sheet is said to look like: by its remarks, and before
// them by a line on its result, which is written with the film in hand.
func (s *season) looks() map[*sheet]seen {
	all := map[*sheet]seen{}
	last := map[string]*sheet{}
	for _, o := range s.outings {
		for _, e := range o.entries {
			switch e := e.(type) {
			case *sheet:
				last[strings.ToLower(e.label)] = e
				if e.number != "" {
					last[strings.ToLower(e.number)] = e
				}
				if look, at := e.lookByDensity(); look != "" {
					all[e] = seen{look, "", at}
				}
				remarked(all, e, last)
			case *lang.Statement:
				if e.Word != lang.Result {
					continue
				}
				for _, label := range e.Labels {
					told(all, last[strings.ToLower(label.Text)], e.Text, e.TextSpan(), true)
				}
			}
		}
	}
	return all
}

// remarked is what a sheet's own line says of it, and of another whose slide was drawn in the
// place of its own.
func remarked(all map[*sheet]seen, sh *sheet, last map[string]*sheet) {
	switch slip.SlideOf(sh.remarks...) {
	case slip.SlideLeft:
		all[sh] = seen{slip.Clear, strings.Join(sh.remarks, ", "), sh.at}
	case slip.SlideUnsure:
		all[sh] = seen{"", "", sh.at}
	}
	for _, remark := range sh.remarks {
		told(all, sh, remark, sh.at, false)
		if side, ok := slip.OtherSide(remark); ok && last[side] != nil && last[side] != sh {
			all[sh], all[last[side]] = seen{slip.Clear, remark, sh.at}, seen{slip.Double, remark, last[side].at}
		}
	}
}

// told keeps what is said of a sheet, if it tells anything. What was exposed
// twice on purpose, or is reported for it, is doubly exposed for no new reason.
func told(all map[*sheet]seen, sh *sheet, words string, at source.Span, result bool) {
	look, ok := slip.LookOf(words, result)
	ok = ok || result && slip.SlideOf(words) == slip.SlideUnsure
	if sh == nil || !ok || look == slip.Double && (sh.first != nil || sh.onPurpose()) {
		return
	}
	all[sh] = seen{look, words, at}
}
