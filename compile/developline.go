package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/lang"
)

// The line that says how sheets were developed, or are to be.

func (r *resolver) develop(st *lang.Statement) {
	d := done{st: st}
	for i := range st.Terms {
		switch k := st.Terms[i].Kind.(type) {
		case *lang.Date:
			d.typed = cmp.Or(k.ISO, k.Text)
			var ambiguous bool
			if d.iso, _, ambiguous = dateIn(r.book, d.typed); ambiguous {
				r.ambiguous(d.typed, st.Terms[i].Span).note("write it with the month's name, or year first: 2026-11-07 is the seventh of November")
			}
		case *lang.N:
			d.n = known(float64(k.Stops), st.Terms[i].Span, st.Terms[i].Doubtful)
		case *lang.Amount: // N, -1
			if k.Stops != nil && !st.Terms[i].Struck {
				d.n.doubt = true
				r.report("unknown-term", st.Terms[i].Span, quote(st.Terms[i].Span.Text())+" has no meaning in a develop line").
					note("the development is written N-1 or N+1, a temperature 20C")
			}
		}
	}
	if len(st.Labels) == 0 {
		if r.labelsBehind(st) {
			return
		}
		// Wanted from here on: in the kit for all, above the first day for this
		// notebook, below it for the day.
		r.now.wanted = d.n
		if firstDay(r.book) == "" {
			for _, k := range r.kits {
				if slices.Contains(k.books, r.book) {
					k.wanted = d.n
				}
			}
		}
		return
	}
	d.maybe = st.Either && len(st.Labels) > 1
	of := map[lang.Label]*sheet{}
	var meant []*sheet // in the order of the line
	r.eachNamed(st, func(sh *sheet, l lang.Label) {
		if sh.isUnused() && ranged(l) {
			return // a run of sides is developed without those that were not used
		}
		if l.Day.File != nil {
			sh = r.wholeFilm(sh)
		}
		of[l], meant = sh, append(meant, sh)
		for ; sh != nil; sh = sh.first { // one sheet of film, exposed twice
			sh.developed = append(sh.developed, d)
		}
	})
	r.wasDeveloped(st, d, of)
	r.sideUnknown(st, "developed", meant...)
}

// labelsBehind reports a line that has the labels of logged sheets first behind its colon, where none is read: dev: 1A and 1B,
// 6 min. Of numbers alone it cannot be told whether they are minutes.
func (r *resolver) labelsBehind(st *lang.Statement) bool {
	rest := strings.TrimSpace(st.Body.Text())
	var labels []string
	for more := rest; more != ""; {
		word, behind, _ := strings.Cut(more, " ")
		behind = strings.TrimLeft(behind, " ")
		said := strings.Trim(word, ",;:.")
		known := !isNumber(said)
		for _, label := range lang.Expand(said) {
			known = known && r.named(label) != nil
		}
		switch {
		case known:
			labels, rest = append(labels, said), behind
		case len(labels) == 0 && strings.EqualFold(word, "for"):
		case len(labels) > 0 && lang.Joins(word):
			if word == "to" || word == "through" || word == "-" {
				labels = append(labels, word)
			}
		default:
			behind = ""
		}
		more = behind
	}
	if len(labels) == 0 {
		return false
	}
	all := strings.Join(labels, " ")
	r.report("unknown-term", st.Body, "the labels stand behind the colon, and none of these sheets is developed by this line").
		note("write: develop " + strings.TrimRight(all+": "+strings.TrimLeft(rest, ",;:.- "), ": "))
	return true
}

// meant is the labels of a line that speaks of sheets. What reads as a run of
// numbers (26-101) is one negative where that is a number that was given, and
// where no sheet of the run was ever logged; from one number that was given to
// another (26-101 to 26-106) is a run of negatives.
func (r *resolver) meant(st *lang.Statement) []lang.Label {
	var all []lang.Label
	for i := 0; i < len(st.Labels); {
		next := i + 1
		for next < len(st.Labels) && st.Labels[next].Span == st.Labels[i].Span {
			next++
		}
		run := st.Labels[i:next]
		whole := lang.Label{Text: run[0].Span.Text(), Span: run[0].Span, Day: run[0].Day}
		known := slices.ContainsFunc(run, func(l lang.Label) bool { return r.bearer(l) != nil || len(r.eitherOf(l)) > 1 })
		given := r.bearers[strings.ToLower(whole.Text)] != nil
		if between := r.numbersBetween(whole); !given && between != nil {
			run = between
		} else if ranged(run[0]) && (given || !known || r.endless(run)) {
			run = []lang.Label{whole}
		}
		all = append(all, run...)
		i = next
	}
	return all
}

// ranged reports whether a label is one of a range that is written: 1A-5B.
func ranged(l lang.Label) bool { return l.Span.End-l.Span.Start != len(l.Text) }
