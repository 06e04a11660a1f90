// Package diag holds what there is to say of a notebook: diagnostics, each of a
// rule in one catalogue, and their plain text with the place marked. It knows
// stretches of source and nothing of sheets.
package diag

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/lang/source"
)

// Severity orders diagnostics, gravest first.
type Severity uint8

// The severities.
const (
	Error   Severity = iota // not understood, impossible, or off by a stop or more
	Warning                 // off beyond the tolerance, or suspicious
	Note                    // unchecked, and what would settle it
)

func (s Severity) String() string { return [...]string{"error", "warning", "note"}[s] }

// Diagnostic is one thing to say of one stretch of a notebook.
type Diagnostic struct {
	Code     string // of a Rule in the catalogue
	Severity Severity
	Span     source.Span
	Message  string // one clause, lower case, no full stop
	Notes    []Aside
	Fix      *Fix          // only where it is certain
	Many     string        // what is said of many lines like this one: "tell of sheets and are not read"; "" where that is the message
	Also     []source.Span // further lines that the message is of already
	Day      string        // of the sheet whose label the message begins with, where the notebook has that label on other days too
}

// Said is the message for who reads it apart from its day.
func (d *Diagnostic) Said() string { return strings.TrimLeft(d.Day+" "+d.Message, " ") }

// Form is what diagnostics that say one thing have in common, whatever is marked in the line
// of each, and the sentence that says it of all of them.
func (d *Diagnostic) Form() (form, message string) {
	head := d.Code + "\n" + d.Severity.String() + "\n"
	if d.Many != "" {
		return head + d.Many, "these lines " + d.Many
	}
	mark := d.marked()
	message = apart(d.Message, mark)
	form = head + message
	for _, n := range d.Notes {
		form += "\n" + strings.ReplaceAll(n.Text, cmp.Or(mark, "\n"), "…")
	}
	return form, message
}

// marked is what is marked of the line that a diagnostic points to.
func (d *Diagnostic) marked() string {
	if d.Span.File == nil {
		return ""
	}
	line := d.Span.File.Line(d.Span.Start)
	return source.Span{File: d.Span.File, Start: min(d.Span.Start, line.End), End: max(d.Span.Start, min(d.Span.End, line.End))}.Text()
}

// apart is a text with … for a word or words in it, where they stand in it whole.
func apart(text, words string) string {
	before, after, found := strings.Cut(text, words)
	last, _ := utf8.DecodeLastRuneInString(before)
	first, _ := utf8.DecodeRuneInString(after)
	if words == "" || !found || unicode.IsLetter(last) || unicode.IsNumber(last) || unicode.IsLetter(first) || unicode.IsNumber(first) {
		return text
	}
	return before + "…" + after
}

// Aside adds to a diagnostic; a Span without a file means no place.
type Aside struct {
	Span source.Span
	Text string
}

// Fix is a replacement that is certain to be what was meant.
type Fix struct {
	Span source.Span
	Text string
}

// List is a list of diagnostics.
type List []Diagnostic

// Sort puts the list into the order of the notebooks' names and lines; what
// stands at one place keeps the order in which it was found.
func (l List) Sort() { slices.SortStableFunc(l, Compare) }

// Compare orders two diagnostics by where they point to.
func Compare(a, b Diagnostic) int {
	return cmp.Or(cmp.Compare(name(a), name(b)), cmp.Compare(a.Span.Start, b.Span.Start), cmp.Compare(a.Span.End, b.Span.End))
}

func name(d Diagnostic) string {
	if d.Span.File == nil {
		return ""
	}
	return d.Span.File.Name
}

// Count is the number of diagnostics of a severity.
func (l List) Count(s Severity) int {
	n := 0
	for i := range l {
		if l[i].Severity == s {
			n++
		}
	}
	return n
}

// Rule is a row of the catalogue. Bad is a notebook that breaks it and Good its
// mended twin; both are run as tests and printed by explain.
type Rule struct {
	Code      string
	Severity  Severity // the gravest that it is reported with
	Title     string
	Text      string
	Bad, Good string
}
