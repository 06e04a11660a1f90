package lang

import (
	"slices"
	"strings"

	"notchbook/lang/source"
)

// What stands on a line: what is struck out does not count, and what stands around it is read as if it were not
// there. A sheet's line keeps its struck terms, for its history; lines that declare or choose a thing are read
// through Standing and StandingText.

// Unstruck is a text with blanks for what is struck out, byte for byte.
func Unstruck(text string) string {
	if !strings.Contains(text, strike) {
		return text // as nearly all
	}
	var b strings.Builder
	for out := false; ; out = !out {
		part, rest, more := strings.Cut(text, strike)
		if out {
			part = strings.Repeat(" ", len(part))
		}
		b.WriteString(part)
		if !more {
			return b.String()
		}
		b.WriteString(strings.Repeat(" ", len(strike)))
		text = rest
	}
}

const strike = "~~"

// StandingText is the line's free text with blanks for what is struck out of it, byte for byte.
func (s *Statement) StandingText() string { return Unstruck(s.Text) }

// Standing is the line with the terms that it has without what is struck out of it. A question mark within a list, tested
// 1/60=1/45? 1/30=1/20, does not part it: all of the list is then doubtful, since it is one value.
func (s *Statement) Standing(names *Lexicon) *Statement {
	all := s.Terms()
	if !slices.ContainsFunc(all, func(t Term) bool { return t.Struck || t.Doubtful }) {
		return s // as nearly all
	}
	body := []byte(Unstruck(s.Body.Text()))
	for i := range all {
		if at := all[i].Span; all[i].Doubtful && strings.HasSuffix(at.Text(), "?") {
			body[at.End-1-s.Body.Start] = ' '
		}
	}
	folded := source.Fold(string(body))
	b := idle.Get().(*bench)
	defer idle.Put(b)
	standing := s.With(readTerms(s.Body.File, s.Body.Start, &folded, 0, words[string(s.Word)], names, b))
	lint(standing, names) // which is reported of the line as typed
	for i := range all {
		for n := range standing.terms {
			if t := &standing.terms[n]; all[i].Doubtful && !all[i].Struck && t.Span.Start <= all[i].Span.Start && all[i].Span.Start < t.Span.End {
				t.Doubtful, t.Span = true, t.Span.Cover(all[i].Span)
			}
		}
	}
	return standing
}

// StandingBody is what stands behind the colon with blanks for what is none of the line's terms, byte for byte.
func (s *Statement) StandingBody() string {
	text := Unstruck(s.Body.Text())
	body := []byte(strings.Repeat(" ", len(text)))
	for i := range s.Terms() {
		if t := &s.Terms()[i]; !t.Struck {
			from, to := t.Span.Start-s.Body.Start, t.Span.End-s.Body.Start
			copy(body[from:to], text[from:to])
		}
	}
	return string(body)
}
