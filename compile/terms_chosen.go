package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/source"
)

// What a line takes from elsewhere for its sheet: the settings of another, a lens, a film, a
// light, and the filters that come on or off.

// besideFilter reports whether nothing but commas, or words for what lies over the other, stands
// between a filter and the one named before it: then both are on the lens.
func (t *reader) besideFilter(all []*lang.Term, i int) bool {
	for i--; i >= 0; i-- {
		switch k := all[i].Kind.(type) {
		case *lang.Comma:
		case *lang.Loose:
			if t.metering || !only(lowered(k.Words), overFilter, connective) || !says(lowered(k.Words), overFilter) {
				return false
			}
		case *lang.Stack:
			return !t.amending
		default:
			return false
		}
	}
	return false
}

// overFilter are words for how one filter lies over another (common practice, no source).
var overFilter = lang.SetOf("over under behind atop")

// thing takes a declared film, lens or camera that stands by its name alone.
func (t *reader) thing(k *lang.Loose, term *lang.Term) bool {
	name := strings.Join(k.Words, " ")
	if f, ok := find(t.book.kit.films, name); ok {
		t.choose(&lang.Choose{Text: "film " + f.name}, term)
		return true
	}
	if l, ok := find(t.book.kit.lenses, name); ok {
		t.choose(&lang.Choose{Text: "lens " + l.name}, term)
		return true
	}
	return false
}

// filmAt takes the index behind a film's name for the film's: slate at EI 200.
func (t *reader) filmAt(ei float64, term *lang.Term, all []*lang.Term, i int) bool {
	ofFilm := false
	switch k := before(all, i).(type) {
	case *lang.Choose:
		ofFilm = strings.HasPrefix(k.Text, "film ")
	case *lang.Loose:
		_, ofFilm = find(t.book.kit.films, k.Words[len(k.Words)-1])
	}
	if ofFilm && !t.metering {
		t.sheet.ei = known(ei, term.Span, term.Doubtful)
	}
	return ofFilm && !t.metering
}

// same copies another sheet: what it saw and how it was set, not what happened
// to it. What was said since that sheet counts over what it is a copy of: a scene that
// began, a reading of its own, what a line chose. Where it is named it counts itself,
// but for a scene's reading.
func (t *reader) same(k *lang.Same, term *lang.Term) {
	from := t.last()
	if k.Label != "" {
		from = t.bearer(lang.Label{Text: k.Label})
	}
	if from == nil && t.sheet.copying != "" {
		return // same light, above the first sheet
	}
	if from == nil {
		t.report("no-such-sheet", term.Span, "there is no sheet before this one to copy", t.real()...)
		if k.Label != "" {
			t.sheet.unclear = "the sheet that it copies"
		}
		return
	}
	sh := t.sheet
	sh.sameAs = from
	if k.Label == "" {
		t.restsOnUnread(sh)
	}
	t.copiesNamed = k.Label != ""
	sh.mayBracket = from.mayBracket
	if from.bracket.known || from.lightBy.known {
		sh.mayBracket = from
	}
	if t.elsewise && from.elsewise != nil {
		from = from.elsewise.sheet
	}
	counts := func(w lang.Word) bool { return (k.Label == "") != t.elsewise && t.chosenSince(w, from) > 0 }
	if k.Label != "" || sh.scene == from.scene {
		sh.scene = from.scene
		if !counts(lang.LightWord) {
			sh.light, sh.former, sh.lightLost = from.light, from.former, from.lightLost
		}
	}
	switch rd := sh.reading; {
	case !readSince(rd, from):
		sh.reading, sh.instead = from.reading, from.instead
	case k.Label == "":
		sh.instead = from.reading
	default:
		sh.reading, sh.instead = from.reading, rd
	}
	sh.camera = from.camera
	if !counts(lang.Lens) {
		sh.lens, sh.lensSaid = from.lens, from.lensSaid
	}
	switch {
	case sh.loadedFilm != "":
		if sh.film.v == from.film.v && from.ei.known && from.ei.at != t.now.rated.at && !liesIn(from.ei.at, t.loadOf(from)) {
			sh.ei = from.ei // that its own line says
		}
	case !counts(lang.Film):
		sh.film, sh.ei = from.film, from.ei
	}
	sh.extension, sh.scale, sh.focus, sh.bellows = from.extension, from.scale, from.focus, from.bellows
	sh.wanted, sh.movements = from.wanted, from.movements
	sh.racked = from.racked
	sh.aperture, sh.time = from.aperture, from.time
	sh.aperture.copied, sh.time.copied = true, true
	sh.vague, sh.strange, sh.maybeOn, sh.filters = from.vague, from.strange, from.maybeOn, nil
	for _, u := range from.filters {
		if !u.always {
			sh.filters = append(sh.filters, u)
		}
	}
	if counts(lang.FilterWord) {
		t.changeSince(from)
	}
}

// chosenSince is where the last line below a sheet stands that chooses what a word is for, be it read or not;
// 0 for none.
func (r *resolver) chosenSince(w lang.Word, sh *sheet) int {
	at := *r.now.since.of(w)
	if lost := *r.now.lost.of(w); lost > 0 && lost != r.between {
		at = max(at, r.book.Lines[lost-1].Start)
	}
	if sh.at.File == r.book.File && at < sh.at.Start {
		return 0
	}
	return at
}

// elsewise is a copy as it would be if what lines chose since the sheet that it copies counted where it does not, and
// did not where it does.
type elsewise struct {
	sheet *sheet
	asks  string
	both  bool // it names the sheet, and such a line stands right above it, which so was for it
}

// readElsewise reads a copy in this way too, where there is such a line.
func (t *reader) readElsewise(l lang.Label, held *holder) {
	sh, from := t.sheet, t.sheet.sameAs
	if from == nil || sh.copying != "" {
		return
	}
	last := 0
	for _, w := range [...]lang.Word{lang.FilterWord, lang.Lens, lang.Film, lang.LightWord} {
		last = max(last, t.chosenSince(w, from))
	}
	way := elsewise{}
	switch {
	case last > 0:
		used := slices.ContainsFunc(t.outing.sheets, func(before *sheet) bool { return before.at.Start > last && before.lines[0] != t.st })
		line := placeOf(source.Span{File: t.book.File, Start: last, End: last}).Line
		way.asks, way.both = fmt.Sprintf("whether it is as %s was, or with what line %d chooses", from.label, line), t.copiesNamed && !used
	case from.elsewise != nil:
		way = *from.elsewise
	default:
		return
	}
	way.sheet = t.asWritten(l, held, reader{st: t.st, nth: t.nth, of: t.of, elsewise: true})
	sh.elsewise = &way
}

// asNothing leaves a copy open whose sheet before was not exposed and has nothing to copy: which one it
// is as, that or the one above it, is not known.
func (t *reader) asNothing() {
	sh, from := t.sheet, t.sheet.sameAs
	if from == nil || len(from.states) == 0 || from.aperture.known || from.time.known || t.amending || sh.isUnused() {
		return
	}
	lacks := sh.reading == nil || !sh.aperture.known || !sh.time.known
	for i := len(t.sheets) - 1; i >= 0 && t.sheets[i].outing == sh.outing && !lacks; i-- {
		if above := t.sheets[i]; above.aperture.known {
			lacks = above.mayLack()&(ofFilter|ofExtension) != 0 && len(sh.filters) == 0 && !sh.saysDrawn()
			break
		}
	}
	if lacks {
		sh.leaveOpen("", "which sheet it is as: "+from.label+", the one before, is "+from.states[0]+" and has no settings")
	}
}

// readSince reports whether a reading stands below a sheet.
func readSince(rd *reading, sh *sheet) bool {
	return rd != nil && rd.at.File == sh.at.File && rd.at.Start > sh.at.Start
}

// ofSomething are the words beside "same", or "as before", that say what is the same and not
// that the sheet before is copied: same light, wall as before. What goes on about the sheet
// itself is none: same but, same settings.
func ofSomething(k *lang.Same, all []*lang.Term, i int) string {
	text := strings.ToLower(all[i].Span.Text())
	var words []string
	switch {
	case k.Label != "":
	case strings.HasPrefix(text, "same"):
		words = strings.Fields(looseText(after(all, i)))
	case strings.HasPrefix(text, "as "), strings.HasPrefix(text, "wie "):
		words = strings.Fields(looseText(before(all, i)))
	}
	if len(words) == 0 || aboutSheets[plain(words[0])] || !strings.HasPrefix(text, "same") && aboutSheets[plain(words[len(words)-1])] {
		return ""
	}
	if said := strings.Join(words, " "); strings.HasPrefix(text, "same") {
		return all[i].Span.Text() + " " + said
	} else {
		return said + " " + all[i].Span.Text()
	}
}

// aboutSheets are words that speak of a sheet, or go on about one (common practice, no source).
var aboutSheets = lang.SetOf("again but with w w/ n plain without and for except only settings setting exposure exposures everything all else shot frame sheet negative values as at plus minus now time aperture speed stop from other one reading filter filters lens")

// last is the sheet logged before on the same outing.
func (t *reader) last() *sheet {
	if n := len(t.sheets); n > 0 && t.sheets[n-1].outing == t.sheet.outing {
		return t.sheets[n-1]
	}
	return nil
}

// choose takes another lens, film, camera or light for this sheet only.
func (t *reader) choose(k *lang.Choose, term *lang.Term) {
	what, name, _ := strings.Cut(k.Text, " ")
	ok := true
	sh := t.sheet
	switch what {
	case "lens":
		if said := sh.lens; t.st.Word == lang.Sheet && liesIn(said.at, t.st.Span) && said.known {
			defer func() {
				if sh.lens.known && sh.lens.v != said.v {
					sh.leaveOpen("", "which lens was on: "+said.v.name+" or "+sh.lens.v.name)
				}
			}()
		}
		if sh.lens.v, ok = t.book.kit.lens(name); !ok && len(t.book.kit.lenses) == 0 {
			sh.lens.v, ok = t.unknownLens(name), true
		}
		sh.lens.known, sh.lens.at, sh.lens.doubt = ok, term.Span, false
		if l := t.lensByLength(name); !ok && l != nil {
			sh.lens.v, sh.lens.known = l, true
		}
	case "film":
		if sh.film.v, ok = find(t.book.kit.films, name); !ok && len(t.book.kit.films) == 0 {
			sh.film.v, ok = t.unknownFilm(name), true
		}
		sh.film.known, sh.film.at, sh.film.doubt = ok, term.Span, false
		if t.st.Span.Cover(sh.ei.at) != t.st.Span {
			sh.ei = value[float64]{} // was said with the film that it is not
		}
		if ok && sh.loadedFilm != "" && !strings.EqualFold(sh.loadedFilm, sh.film.v.name) {
			t.report("film-in-holder", term.Span, fmt.Sprintf("%s is logged with %s, but %s was loaded", sh.label, name, sh.loadedFilm), t.real()...).
				note("the sheet is checked as "+name, term.Span).
				note("loaded here", t.loadOf(sh))
		}
	case "camera":
		sh.camera.v, ok = find(t.book.kit.cameras, name)
		sh.camera.known, sh.camera.at = ok, term.Span
	case "light":
		if changeIn(k.Text) != 0 {
			sh.remarks = append(sh.remarks, term.Span.Text()) // light going: the one that was metered
			return
		}
		if t.st.Word == lang.Sheet && unmeasured("light "+strings.ToLower(k.Text)) {
			sh.unlit = term.Span.Text() // light painting
			sh.remarks = append(sh.remarks, sh.unlit)
			return
		}
		sh.light, sh.former, sh.lightLost = name, lightLine{}, 0
	case "scene":
		sh.title = evenly(name)
	}
	if !ok {
		t.undeclared(what, name, term.Span)
	}
}

// filterTerm puts filters on or takes them off. A filter named alone replaces
// all; with a plus it comes on top.
func (t *reader) filterTerm(sh *sheet, term *lang.Term) {
	switch k := term.Kind.(type) {
	case *lang.Drop:
		t.drop(sh, k.What)
	case *lang.Stack:
		t.hadOn = sh.filters
		sh.vague, sh.strange = "", false
		var on []*use
		if k.Add {
			on = append(on, sh.filters...)
		}
		for _, f := range k.Filters {
			on = append(on, &use{name: f.Name, amounts: f.Amounts, at: term.Span})
		}
		sh.filters = on
	}
}

// drawn drops what was known of the bellows: each way to say it replaces the
// others.
func (sh *sheet) drawn() {
	sh.extension, sh.scale, sh.focus, sh.bellows = value[float64]{}, value[float64]{}, value[float64]{}, value[lang.Amount]{}
}

func (t *reader) drop(sh *sheet, what string) {
	switch what {
	case "filter":
		sh.filters, sh.vague, sh.strange = nil, "", false
	case "ext", "bellows":
		sh.drawn()
		sh.racked = ""
	case "rise", "fall", "shift", "tilt", "swing":
		var kept []string
		for _, m := range sh.movements {
			if !strings.Contains(strings.ToLower(m), what) {
				kept = append(kept, m)
			}
		}
		sh.movements = kept
	default:
		var kept []*use
		for _, u := range sh.filters {
			if !t.book.kit.oneFilter(u.name, what) {
				kept = append(kept, u)
			}
		}
		sh.filters = kept
	}
}

// oneFilter reports whether a filter that is on may be called so: by its name, its
// number or its colour.
func (k *kit) oneFilter(on, called string) bool {
	f, entry, ok := k.filter(on)
	other, _, _ := k.filter(called)
	switch {
	case strings.EqualFold(on, called), f != nil && f == other:
		return true
	case handbook.NumberOf(on) != "" && handbook.NumberOf(on) == handbook.NumberOf(called):
		return true
	case f != nil && f.colour != "" && f.colour == strings.ToLower(called):
		return true
	case strings.EqualFold(kindOf(called), called):
		return kindOf(on) == kindOf(called)
	}
	return ok && entry.Number != "" && !strings.ContainsAny(called, "0123456789") && entry.Called(called)
}

// said is a sheet's settings and reading in a few words, for its history.
func (r *resolver) said(sh *sheet) string {
	var all []string
	for _, u := range sh.filters {
		all = append(all, u.name)
	}
	if sh.time.known {
		all = append(all, givenTime(sh.time.v))
	}
	if sh.aperture.known {
		all = append(all, apertureText(sh.aperture.v))
	}
	if sh.extension.known {
		all = append(all, "ext "+trim(exposure.Round(sh.extension.v))+" mm")
	}
	if sh.wanted.known {
		all = append(all, nText(sh.wanted.v))
	}
	if sh.reading != nil && sh.reading.ei != 0 {
		all = append(all, "metered at EI "+trim(sh.reading.ei))
	}
	return strings.Join(all, " ")
}

// loadOf is where the film was loaded that a sheet has from its side.
func (t *reader) loadOf(sh *sheet) source.Span {
	if held := t.holders[strings.ToLower(sh.label)]; held != nil && held.load != nil {
		return held.load.Span
	}
	return source.Span{}
}
