package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// A further line of a sheet that is logged: a second exposure, a remark, or words that put it right.

// corrects reports whether a line that repeats a label corrects what was logged under it: f22 not
// f32; should say f22. A second exposure says neither.
func corrects(st *lang.Statement) bool {
	all := st.Terms()
	for i := 0; i+1 < len(all); i++ {
		if no, ok := all[i].Kind.(*lang.Withdraw); ok && no.After {
			switch all[i+1].Kind.(type) {
			case *lang.Exposure, *lang.Stack, *lang.Extension:
				return true
			}
		}
	}
	return slices.ContainsFunc(all, func(t lang.Term) bool {
		return correcting().MatchString(strings.ToLower(strings.Join(wordsOf(t.Kind), " ")))
	})
}

var correcting = pattern.Lazily(`^(?:correction|should (?:say|be|read|have been)|was really|sorry)\b|^sorry$`)

// tellsExposure reports whether a line that repeats a label tells an exposure of its own: an aperture
// and a time, a state of the sheet, or that all is the same again and nothing but terms.
func tellsExposure(st *lang.Statement, before *sheet) bool {
	var av, time, words, again bool
	for i := range st.Terms() {
		t := &st.Terms()[i]
		switch k := t.Kind.(type) {
		case *lang.Loose:
			words = true
		case *lang.Same:
			again = true
		case *lang.State:
			if k.Word != "again" {
				return true
			}
			again = true
		case *lang.Exposure:
			aperture, timed := k.Gives()
			av, time = av || aperture, time || timed
		}
	}
	if l := before.lens.v; before.lens.known && l.single() {
		av = true
	}
	return av && (time || heldOpen(st)) || again && !words
}

// saidAfter keeps what a further line says of a sheet that is logged: words without a setting are
// a remark, and what may be meant to put the sheet right leaves it unchecked.
func (r *resolver) saidAfter(sh *sheet, st *lang.Statement, o *outing) {
	all := st.Terms()
	said := strings.TrimSpace(st.Body.Text())
	remark := []lang.Term{{Kind: &lang.Remark{Text: said}, Span: st.Body}}
	for i := range all {
		switch all[i].Kind.(type) {
		case *lang.Remark, *lang.Loose, *lang.Comma:
		default:
			if addsTo(&all[i]) {
				remark = append(remark, all[i])
			}
		}
	}
	r.apply(sh, st.With(remark))
	sh.lines = append(sh.lines, st)
	o.entries = append(o.entries, st)
	numbers := slices.ContainsFunc(all, func(t lang.Term) bool { _, bare := t.Kind.(*lang.Bare); return bare })
	settings := slices.ContainsFunc(all, func(t lang.Term) bool { _, loose := t.Kind.(*lang.Loose); return loose && maySet(t.Span.Text()) })
	if !numbers && !settings && !touchesSum(st) || tellsDevelopment(st) {
		return
	}
	if sh.unclear == "" {
		sh.unclear = "what " + quote(said) + " puts right"
	}
	if !numbers { // which are reported
		r.report("correction-not-read", st.Body, "this says more of "+sh.label+", which is logged, and is not read", sh).
			note("what puts it right is written amend " + sh.label + ": f16 not f22, and a remark behind --; until then the sheet is not checked")
	}
}

// remarkedLater is the sheet of an earlier day to which a line adds, nil where there is none: the side was not loaded since, the
// line tells no exposure, and nothing was metered or exposed on the day of the line.
func (r *resolver) remarkedLater(st *lang.Statement, key string) *sheet {
	held := r.holders[key]
	if held == nil || held.exposed == nil || held.exposed.outing == r.outing || r.now.reading != nil || r.scene != nil || !onlyRemarks(st) && !tellsDevelopment(st) {
		return nil
	}
	if n := len(r.sheets); n > 0 && r.sheets[n-1].outing == r.outing {
		return nil
	}
	return held.exposed
}

// tellsDevelopment reports whether a line says for how long a sheet was developed and nothing of an exposure: N, 9 min.
func tellsDevelopment(st *lang.Statement) bool {
	all := st.Terms()
	wanted := false
	for i := range all {
		switch k := all[i].Kind.(type) {
		case *lang.N:
			wanted = true
		case *lang.Exposure:
			if aperture, timed := k.Gives(); aperture || !timed || !inMinutes().MatchString(strings.ToLower(all[i].Span.Text())) {
				return false
			}
		default:
			if !addsTo(&all[i]) {
				return false
			}
		}
	}
	return wanted
}

var inMinutes = pattern.Lazily(`^[0-9]+(?:[.,][0-9]+|½)? ?min(?:s|utes?)?\b`)

// touchesSum reports whether a line has a term that the sum of a sheet may rest on.
func touchesSum(st *lang.Statement) bool {
	return slices.ContainsFunc(st.Terms(), func(t lang.Term) bool {
		switch t.Kind.(type) {
		case *lang.Same, *lang.State, *lang.Clock, *lang.Date, *lang.Movement, *lang.Withdraw, *lang.Nth:
			return false
		}
		return !t.Struck && !addsTo(&t)
	})
}

// twice reports a side that was exposed before and not loaded since.
func (r *resolver) twice(sh *sheet, before *sheet, l lang.Label) {
	if before == nil {
		if held := r.holders[strings.ToLower(l.Text)]; (held == nil || held.load == nil) && sh.loadUnheard == "" && r.outing.loads && r.outing.loaded == sh.stretch && isSide(l.Text) {
			r.report("never-loaded", l.Span, "holder side "+l.Text+" was never loaded", sh)
		}
		return
	}
	if has(sh.states, "unused") || has(before.states, "unused") || sh.mislabelled || before.mislabelled {
		return
	}
	sh.first, before.over = before, sh
	if sh.onPurpose() {
		oneDevelopment(before, sh)
		return
	}
	f := r.report("exposed-twice", l.Span, fmt.Sprintf("%s was exposed before and not loaded since", l.Text), sh, before).
		note(before.what()+" is on the same sheet of film", before.at)
	if yearly(l.Text) != "" {
		f.note("for a double exposure on purpose write: again; where it is another sheet, one of the two numbers is mistyped")
		return
	}
	f.note("for a double exposure on purpose write: again; for a fresh sheet in the holder a line before it: load " + l.Text + ": FILM")
}

// oneDevelopment is what two exposures on one sheet of film have in common, on whichever
// line it is asked for.
func oneDevelopment(first, second *sheet) {
	switch {
	case !second.wanted.known:
		second.wanted, second.wantedSays = first.wanted, first.wantedSays
	case !first.wanted.known:
		first.wanted = second.wanted
	}
}

// onPurpose reports whether an exposure is said to be another on its sheet of film.
func (sh *sheet) onPurpose() bool {
	return has(sh.states, "again") || has(sh.states, "double") || sh.first != nil && has(sh.first.states, "double")
}

// onlyRemarks reports whether a line says nothing that a second exposure would
// be told by: words, a negative's number, what is wanted of the development,
// what spoiled the sheet.
func onlyRemarks(st *lang.Statement) bool {
	return !slices.ContainsFunc(st.Terms(), func(t lang.Term) bool { return !addsTo(&t) })
}

// addsTo reports whether a term says nothing that a second exposure would be told by.
func addsTo(t *lang.Term) bool {
	switch k := t.Kind.(type) {
	case *lang.Remark, *lang.Loose, *lang.Comma, *lang.Negative, *lang.Filed, *lang.Scanned, *lang.Densitometer, *lang.Spot, *lang.N, *lang.Hold:
		return true
	case *lang.State:
		return k.Word == "fogged" || k.Word == "spoiled"
	}
	return false
}
