package compile

import (
	"fmt"
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// The line that loads holder sides with a film.

// holder is the state of a holder side as far as the notes tell.
type holder struct {
	film    string
	rated   value[float64] // exposure index said of this film in this side
	load    *lang.Statement
	exposed *sheet
	unheard source.Span // the line, not read, by which it may have been loaded anew
}

// unheardLoad is the line, not read, that may have loaded a side, "" where there is none.
func (r *resolver) unheardLoad(held *holder) string {
	switch line := r.now.lost.load; {
	case held == nil && line > 0 && len(r.book.kit.films) > 1:
		return fmt.Sprintf("line %d", line)
	case held == nil || held.unheard.File == nil:
		return ""
	case held.unheard.File == r.book.File:
		return fmt.Sprintf("line %d", placeOf(held.unheard).Line)
	default:
		return place(held.unheard)
	}
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
	f, ok := find(r.book.kit.films, name)
	if ok {
		name = f.name
	} else if f = r.unknownFilm(name); name != "" && len(r.book.kit.films) > 0 {
		r.undeclared("film", name, st.TextSpan())
	}
	fresh, rated := make([]holder, len(labels)), ratedIn(st, f)
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
	if old := r.holders[key]; old != nil && old.exposed == nil && old.load != nil && !st.Either && !old.load.Either {
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
