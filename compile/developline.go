package compile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The line that says how sheets were developed, or are to be.

// developmentIn is a development other than N that a line of another matter says for the sheets of a side, a film
// or a scene: load 1A: slate, N-1.
func (r *resolver) developmentIn(at source.Span) (n value[float64]) {
	text := at.Text()
	if !strings.ContainsAny(text, "Nn") || !strings.ContainsAny(text, "+-−–0123456789½") {
		return n // as most
	}
	for _, t := range lang.Within(bracketsAsCommas.Replace(text), r.names) {
		if k, ok := t.Kind.(*lang.N); ok && !t.Struck && k.Stops != 0 {
			n = known(float64(k.Stops), at.Sub(t.Span.Start, t.Span.End), t.Doubtful)
		}
	}
	return n
}

// bracketsAsCommas opens brackets, byte for byte.
var bracketsAsCommas = strings.NewReplacer("(", ",", ")", ",")

// wantsHere takes a development that a scene's title or reading says, for the sheets of that scene.
func (r *resolver) wantsHere(n value[float64]) {
	if !n.known {
		return
	}
	if r.wantedBefore == nil {
		before := r.now.wanted
		r.wantedBefore = &before
	}
	r.now.wanted = n
}

// wantsAsBefore ends what a scene's title or reading said of the development.
func (r *resolver) wantsAsBefore() {
	if r.wantedBefore != nil {
		r.now.wanted, r.wantedBefore = *r.wantedBefore, nil
	}
}

func (r *resolver) develop(st *lang.Statement) {
	all := st.Standing(r.names).Terms()
	d := done{st: st}
	for i := range all {
		switch k := all[i].Kind.(type) {
		case *lang.Date:
			d.typed = cmp.Or(k.ISO, k.Text)
			var ambiguous bool
			if d.iso, _, ambiguous = dateIn(r.book, d.typed); ambiguous {
				r.ambiguous(d.typed, all[i].Span).note("write it with the month's name, or year first: 2026-11-07 is the seventh of November")
			}
		case *lang.N:
			d.n = known(float64(k.Stops), all[i].Span, all[i].Doubtful)
		case *lang.Amount: // N, -1
			if k.Stops != nil {
				d.n.doubt = true
				r.report("unknown-term", all[i].Span, quote(all[i].Span.Text())+" has no meaning in a develop line").
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
		r.now.wanted, r.wantedBefore = d.n, nil
		if firstDay(r.book) == "" {
			for _, k := range r.kits {
				if slices.Contains(k.books, r.book) {
					k.wanted = d.n
				}
			}
		}
		return
	}
	r.labelsBehind(st)
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
		if on := sh.outing.iso; d.iso != "" && d.iso < on && !sh.outing.adrift {
			r.report("dates-out-of-order", l.Span, fmt.Sprintf("%s was exposed on %s, and developed before, on %s", sh.label, on, d.iso), sh).note("logged here", sh.at)
		}
		of[l], meant = sh, append(meant, sh)
		for ; sh != nil; sh = sh.first { // one sheet of film, exposed twice
			sh.developed = append(sh.developed, d)
		}
	})
	r.wasDeveloped(st, d, of)
	r.sideUnknown(st, "developed", meant...)
}

// labelsBehind reports a line that has the labels of logged sheets behind its colon, first or last, where none is read: dev: 1A and
// 1B, 6 min; dev: 6 min, 1B. Of numbers alone it cannot be told whether they are minutes.
func (r *resolver) labelsBehind(st *lang.Statement) bool {
	body, _, _ := strings.Cut(st.Body.Text(), " --")
	words := strings.Fields(body)
	from, to := 0, 0
	if len(st.Labels) == 0 {
		if len(words) > 0 && strings.EqualFold(words[0], "for") {
			from++
		}
		to = r.labelsFrom(words, from)
	}
	if to == from {
		for from = len(words); from > 0 && (r.isLogged(words[from-1]) || from < len(words) && lang.Joins(words[from-1])); from-- {
		}
		for to = len(words); from < to && !r.isLogged(words[from]); from++ {
		}
		if from == 0 || !strings.HasSuffix(words[from-1], ",") && !endsTime().MatchString(words[from-1]) {
			return false // in tray 1A
		}
	}
	if to == from {
		return false
	}
	var labels []string
	for _, word := range words[from:to] {
		if said := strings.Trim(word, ",;:."); r.isLogged(word) || said == "to" || said == "through" || word == "-" {
			labels = append(labels, cmp.Or(said, word))
		}
	}
	rest := words[to:]
	if len(rest) == 0 {
		rest = words[:from]
	}
	what := "the labels stand behind the colon, and none of these sheets is developed by this line"
	if len(st.Labels) > 0 {
		if !slices.ContainsFunc(labels, func(said string) bool {
			return !slices.ContainsFunc(st.Labels, func(l lang.Label) bool { return strings.EqualFold(l.Text, said) })
		}) {
			return false // said again
		}
		what = "the labels behind the colon are not read, and none of these sheets is developed by this line"
	}
	r.report("unknown-term", st.Body, what).
		note("write: develop " + strings.TrimRight(strings.Join(labels, " ")+": "+strings.Trim(strings.Join(rest, " "), ",;:.- "), ": "))
	return true
}

// labelsFrom is where a run of logged labels ends that begins at a word, with what joins them.
func (r *resolver) labelsFrom(words []string, from int) int {
	to := from
	for n := from; n < len(words) && (r.isLogged(words[n]) || n > from && lang.Joins(words[n])); n++ {
		if r.isLogged(words[n]) {
			to = n + 1
		}
	}
	return to
}

// isLogged reports whether a word is the label of a logged sheet, or a run of them, and no number.
func (r *resolver) isLogged(word string) bool {
	said := strings.Trim(word, ",;:.")
	all := lang.Expand(said)
	return !isNumber(said) && len(all) > 0 && !slices.ContainsFunc(all, func(label string) bool { return r.named(label) == nil })
}

// endsTime is a word that ends a time or a temperature.
var endsTime = pattern.Lazily(`(?i)(?:^|[0-9])(?:m|min|mins|minutes|s|sec|secs|°?[cf])$`)

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
