package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
)

// The line that puts filters on for the sheets below it, or takes them off. What it does not
// say leaves open what is on: the filters before it are not carried on in silence.

// chooseFilters reads a filter line.
func (r *resolver) chooseFilters(st *lang.Statement) {
	sh := &sheet{filters: r.now.filters}
	t := reader{resolver: r, sheet: sh, st: st}
	var named []string
	var words []string
	dropped := false
	for _, term := range t.standing() {
		switch k := term.Kind.(type) {
		case *lang.Stack:
			t.filterTerm(sh, term)
			for _, f := range k.Filters {
				named = append(named, f.Name)
			}
		case *lang.Drop:
			t.filterTerm(sh, term)
			dropped = true
		case *lang.Loose:
			for _, w := range k.Words {
				words = append(words, strings.ToLower(strings.Trim(w, ".,;:!")))
			}
		case *lang.Comma, *lang.Remark:
		default:
			t.stray(term)
		}
	}
	says := func(set map[string]bool) bool {
		return slices.ContainsFunc(words, func(w string) bool { return set[w] })
	}
	body := strings.Trim(st.Body.Text(), " \t.")
	switch {
	case len(named) > 0 && says(filterOff): // Y8 off
		sh.filters = r.now.filters
		for _, name := range named {
			t.drop(sh, name)
		}
	case len(named) > 0, dropped, says(filterKept):
	case says(filterOff), body == "-", body == "–", body == "—", body == "0", body == "/":
		sh.filters = nil
	default:
		r.now.lost.filter = placeOf(st.Span).Line
		at, message := st.Body, quote(body)+" is no filter that is known, and what is on from here is open"
		if body == "" {
			at, message = st.Span, "no filter is named, and what is on from here is open"
		}
		f := r.report("not-declared", at, message).note("without one it is written filter: none")
		if body != "" {
			f.note("declare it: filter " + strings.Join(strings.Fields(body), "-") + ": … stops")
		}
	}
	r.now.filters, r.ahead.filters = sh.filters, !r.bare
}

// The words are those of notes read for this (common practice, no source).
var (
	filterOff  = setOf("off no none removed remove without bare nothing clear out away taken took nil unfiltered")
	filterKept = setOf("same before still unchanged ditto above continued again kept stays")
)
