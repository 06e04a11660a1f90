package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The line that loads holder sides with a film.

// holder is the state of a holder side as far as the notes tell.
type holder struct {
	film    string
	doubt   bool           // the film is marked as doubtful
	rated   value[float64] // exposure index said of this film in this side
	wanted  value[float64] // development said of it
	load    *lang.Statement
	exposed *sheet
	unheard source.Span // the line, not read, by which it may have been loaded anew
	asks    string      // what is asked of its film, where that line was read and a remark on it names another
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
	text := st.StandingText()
	if anew := r.namedAnew(text, lang.Film); anew != "" {
		text = anew
	}
	name, _, _ := strings.Cut(text, ",")
	if name = unmarked(name); !slices.ContainsFunc(r.book.kit.films, func(f *film) bool { return f.called(name) }) {
		name, _ = r.nameAlone(name)
		name = unmarked(name)
	}
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
		if f := filmFirst(r.book.kit.films, name); f != nil {
			n := len(r.found) - 1
			r.found[n].Notes = nil
			r.found[n].note(quote(f.name) + " is declared; " + moreWords(labelText(st.Labels)+": "+f.name, strings.Trim(name[len(f.name):], " ;()")))
		}
	}
	fresh, rated, wanted, doubt := make([]holder, len(labels)), r.ratedIn(st, f), r.developmentIn(st.Body), r.nameDoubted(st)
	other := r.otherLoaded(st, f)
	for i, l := range labels {
		fresh[i] = holder{film: name, doubt: doubt, rated: rated, wanted: wanted, load: st}
		if other {
			fresh[i] = holder{unheard: st.Span}
		}
		r.loaded(st, l, &fresh[i])
	}
	r.happens(st, labels, sideEvent{kind: sideLoaded, film: name, date: r.today()})
	r.sideUnknown(st, "loaded")
	r.ground().loads, r.ground().loaded = true, r.stretch
}

// moreWords says how words behind a film are written, and the index among them.
func moreWords(line, words string) string {
	if m := saidIndex().FindStringSubmatch(words); m != nil {
		rest := strings.TrimSpace(strings.Replace(words, m[0], "", 1))
		if line += ", EI " + m[1]; rest != "" {
			line += " -- " + rest
		}
		return "its index stands behind a comma, other words behind a dash: load " + line
	}
	return "more words stand behind a dash: load " + line + " -- " + words
}

// saidIndex is an index among words: at EI 320, ASA 50.
var saidIndex = pattern.Lazily(`(?i)(?:\b(?:at|on|rated) )?\b(?:ei|iso|asa) ?([0-9]{1,5})\b`)

// otherLoaded reports a line that names another film of the kit behind the one it loads, for one of its sides:
// tern, second moth. Which side has which is open.
func (r *resolver) otherLoaded(st *lang.Statement, f *film) bool {
	name, rest, more := strings.Cut(st.Body.Text(), ",")
	if !more {
		return false
	}
	words := wordsIn(strings.ToLower(rest))
	other := r.book.kit.otherFilm(words, f)
	bare := other != nil && len(words) == len(strings.Fields(other.name))
	sided := says(words, sidesInWords) || slices.ContainsFunc(words, func(word string) bool { return r.holders[word] != nil || isSide(word) })
	if other == nil || !bare && !sided {
		return false
	}
	at := st.Body.Sub(len(name)+1, len(st.Body.Text()))
	said := strings.TrimSpace(at.Text())
	at = st.Body.Sub(len(st.Body.Text())-len(strings.TrimLeft(at.Text(), " \t")), len(st.Body.Text()))
	r.report("unknown-term", at, quote(said)+" names another film, and which side has which is open").
		note("each film has a line of its own: load " + labelText(st.Labels[:1]) + ": " + f.name)
	return true
}

// sidesInWords are words for some of the sides that a line names (common practice, no source).
var sidesInWords = lang.SetOf("a b side sides front fronts back backs first second third fourth last other others one rest even odd left right")

// otherFilm is a film of the kit, and not the one given, that words in lower case name; nil for none.
func (k *kit) otherFilm(words []string, than *film) *film {
	for _, f := range k.films {
		if f != than && f.namedIn(words) && (than == nil || !strings.Contains(strings.ToLower(than.name), strings.ToLower(f.name))) {
			return f
		}
	}
	return nil
}

// namedIn reports whether a film's name stands among words in lower case.
func (f *film) namedIn(words []string) bool {
	return strings.Contains(" "+strings.Join(words, " ")+" ", " "+strings.ToLower(f.name)+" ")
}

// filmFirst is the declared film whose name other words follow: tern in the bag.
func filmFirst(films []*film, name string) *film {
	i := slices.IndexFunc(films, func(f *film) bool {
		return len(name) > len(f.name) && strings.EqualFold(name[:len(f.name)], f.name) && strings.IndexByte(" ;(", name[len(f.name)]) >= 0
	})
	if i < 0 {
		return nil
	}
	return films[i]
}

// labelText is labels as they are typed.
func labelText(labels []lang.Label) string {
	all := make([]string, len(labels))
	for i, l := range labels {
		all[i] = l.Text
	}
	return strings.Join(all, " ")
}

// afresh is a side that was exposed before and of which the line of its next sheet says that it was loaded anew, and not on a
// line of its own: with what is not known where there are several films. Nil where it says nothing of it.
func (r *resolver) afresh(st *lang.Statement, l lang.Label) *holder {
	said, film := "", "FILM"
	for i := range st.Terms() {
		t := &st.Terms()[i]
		words := saidIn(t.Kind)
		if k, state := t.Kind.(*lang.State); state && (k.Word == "again" || k.Word == "double") {
			return nil
		}
		if f, ok := find(r.book.kit.films, strings.TrimPrefix(strings.ToLower(t.Span.Text()), "film ")); ok {
			film = f.name
		}
		if low := strings.ToLower(words); !t.Struck && loadsAnew().MatchString(low) && !notBefore().MatchString(low) {
			said = words
		}
	}
	if said == "" {
		return nil
	}
	held := &holder{unheard: st.Span}
	if films := r.book.kit.films; len(films) == 1 {
		film, held.film, held.load = films[0].name, films[0].name, st
	}
	r.report("unknown-term", l.Span, quote(said)+" is not read: it does not say on a line of its own what "+l.Text+" was loaded with").
		note("write above it: load " + l.Text + ": " + film).Severity = diag.Warning
	return held
}

// The words are those of notes read for this (common practice, no source).
var (
	loadsAnew = pattern.Lazily(`\bre-?loaded\b|\bloaded (?:again|afresh|anew)\b|\b(?:fresh|new) (?:film|sheet)\b`)
	notBefore = pattern.Lazily(`\b(?:not|never|forgot|should|un|after|afterwards|then|later|next|want|wanted|need|needed|no)\b`)
)

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
