package compile

import (
	"strings"

	"notchbook/lang"
)

// The line that loads holder sides with a film.

// holder is the state of a holder side as far as the notes tell.
type holder struct {
	film    string
	rated   value[float64] // exposure index said of this film in this side
	load    *lang.Statement
	exposed *sheet
}

// load puts film into holder sides; each is then a new sheet.
func (r *resolver) load(st *lang.Statement) {
	name, _, _ := strings.Cut(st.Text, ",")
	name = strings.TrimRight(name, ". ")
	if len(r.book.kit.films) == 0 && !emptied(name) {
		r.filmOf(name, st)
	}
	labels := r.sidesOf(st.Labels)
	if emptied(name) {
		for _, l := range labels {
			delete(r.holders, strings.ToLower(l.Text))
		}
		r.happens(st, labels, sideEvent{kind: sideStated, word: "empty", date: r.today()})
		return
	}
	if f, ok := find(r.book.kit.films, name); ok {
		name = f.name
	} else if name != "" && len(r.book.kit.films) > 0 {
		r.undeclared("film", name, st.TextSpan())
	}
	fresh, rated := make([]holder, len(labels)), ratedIn(st)
	for i, l := range labels {
		fresh[i] = holder{film: name, rated: rated, load: st}
		r.loaded(st, l, &fresh[i])
	}
	r.happens(st, labels, sideEvent{kind: sideLoaded, film: name, date: r.today()})
	r.sideUnknown(st, "loaded")
	r.ground().loads, r.ground().loaded = true, r.stretch
}

func (r *resolver) loaded(st *lang.Statement, l lang.Label, fresh *holder) {
	key := strings.ToLower(l.Text)
	if old := r.holders[key]; old != nil && old.exposed == nil && !st.Either && !old.load.Either {
		r.report("loaded-twice", l.Span, l.Text+" is loaded again and was never exposed").note("loaded here", old.load.Span)
	}
	r.holders[key] = fresh
}

// sideUnknown says that a line leaves open which side it means.
func (r *resolver) sideUnknown(st *lang.Statement, what string, sheets ...*sheet) {
	if st.Either && len(st.Labels) > 1 {
		r.report("side-unknown", st.Labels[0].Span.Cover(st.Labels[len(st.Labels)-1].Span), "which of "+orLabels(st.Labels)+" was "+what+" is left open", sheets...).
			note("a holder line for one of them settles it: holder " + st.Labels[0].Text + ": empty, loaded or exposed")
	}
}
