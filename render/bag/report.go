package bag

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Severity says how much a problem matters.
type Severity string

// The severities: a bag with an error is not valid.
const (
	Error   Severity = "error"   // the bag is not as it was, or not as RFC 8493 demands
	Warning Severity = "warning" // RFC 8493 says it should not be so
	Note    Severity = "note"    // may trouble some system
)

// Kind says what sort of problem it is.
type Kind string

// The kinds of problems.
const (
	Changed Kind = "changed" // other bytes than a list says
	Missing Kind = "missing" // listed and not there
	Extra   Kind = "extra"   // there and not listed
	Form    Kind = "form"    // a list or a declaration is not as it has to be
	Names   Kind = "names"   // a name that not every system can hold or tell apart
)

// Problem is one thing amiss with a bag.
type Problem struct {
	Kind     Kind     `json:"kind"`
	Severity Severity `json:"severity"`
	File     string   `json:"file"`    // within the bag, with slashes
	Line     int      `json:"line"`    // of a tag file, from 1; 0 where it is about all of the file
	Message  string   `json:"message"` // what there is to say of the file
	Section  string   `json:"section"` // of RFC 8493
}

// String is the problem in one line: the kind, or the severity where that says
// more, the place, and what is amiss.
func (p Problem) String() string {
	head := string(p.Kind)
	switch {
	case p.Severity != Error:
		head = string(p.Severity)
	case p.Kind == Form || p.Kind == Names:
		head = string(Error)
	}
	place := quoted(p.File)
	if p.Line > 0 {
		place += fmt.Sprint(":", p.Line)
	}
	return head + ": " + place + " " + p.Message + " (RFC 8493, " + p.Section + ")"
}

// Report is what a check of a bag found.
type Report struct {
	Version    string // "1.0", as declared
	Encoding   string // as declared
	Algorithms []string
	Files      int   // of the payload that are there
	Bytes      int64 // that they hold
	Info       []Element
	Problems   []Problem
}

// Count is how many problems are of a severity.
func (r *Report) Count(s Severity) (n int) {
	for _, p := range r.Problems {
		if p.Severity == s {
			n++
		}
	}
	return n
}

// Valid tells whether the bag is complete and every checksum holds (RFC 8493,
// section 3).
func (r *Report) Valid() bool { return r.Count(Error) == 0 }

// Summary is the report in one line.
func (r *Report) Summary() string {
	kinds := map[Kind]int{}
	for _, p := range r.Problems {
		if p.Severity == Error {
			kinds[p.Kind]++
		}
	}
	files := "files"
	if r.Files == 1 {
		files = "file"
	}
	verdict := "the bag is valid"
	if !r.Valid() {
		verdict = "the bag is not valid"
	}
	return fmt.Sprintf("%d %s of payload, %s, by %s; %d changed, %d missing, %d extra, %d not in form: %s", r.Files, files, Size(r.Bytes),
		orNone(r.Algorithms), kinds[Changed], kinds[Missing], kinds[Extra], kinds[Form]+kinds[Names], verdict)
}

func orNone(names []string) string {
	if len(names) == 0 {
		return "no list"
	}
	return strings.Join(names, " and ")
}

// JSON writes the report for other programs; the form is described in
// lang/NOTATION.md.
func (r *Report) JSON(w io.Writer) error {
	type element struct {
		Label string `json:"label"`
		Value string `json:"value"`
	}
	info := []element{}
	for _, e := range r.Info {
		info = append(info, element(e))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(struct {
		Format     string    `json:"format"`
		Version    int       `json:"version"`
		Valid      bool      `json:"valid"`
		BagIt      string    `json:"bagit"`
		Encoding   string    `json:"encoding"`
		Algorithms []string  `json:"algorithms"`
		Files      int       `json:"files"`
		Bytes      int64     `json:"bytes"`
		Info       []element `json:"info"`
		Problems   []Problem `json:"problems"`
	}{"notchbook bag check", 1, r.Valid(), r.Version, r.Encoding, slices.Concat([]string{}, r.Algorithms), r.Files, r.Bytes, info,
		append([]Problem{}, r.Problems...)})
}
