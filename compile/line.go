package compile

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/source"
)

// sheetLine logs one sheet for each label of the line.
func (r *resolver) sheetLine(st *lang.Statement) {
	if st.Either && len(st.Labels) > 1 {
		r.eitherExposed(st)
		return
	}
	for i, l := range st.Labels {
		r.exposed(st, l, i+1)
	}
}

// eitherExposed logs the one sheet of "1A or 2B: ...", of which only its side is
// not known.
func (r *resolver) eitherExposed(st *lang.Statement) {
	whole := lang.Label{Text: orLabels(st.Labels), Span: st.Labels[0].Span.Cover(st.Labels[len(st.Labels)-1].Span)}
	sh := r.newSheet(st, whole)
	r.inherit(sh, r.sameFilm(st.Labels))
	t := reader{resolver: r, sheet: sh, st: st, nth: 1, of: 1}
	t.read()
	r.complete(sh, &t)
	t.readElsewise(whole, r.sameFilm(st.Labels))
	r.put(sh, strings.ToLower(whole.Text), nil)
	delete(r.holders, strings.ToLower(whole.Text))
	for _, l := range st.Labels {
		r.byLabel[strings.ToLower(l.Text)] = sh
	}
	r.wasExposed(sh, st, st.Labels)
	r.sideUnknown(st, "exposed", sh)
}

// sameFilm is the load of some sides, where all hold the same film.
func (r *resolver) sameFilm(labels []lang.Label) *holder {
	var one *holder
	for _, l := range labels {
		held := r.holders[strings.ToLower(l.Text)]
		if held == nil || one != nil && !strings.EqualFold(one.film, held.film) {
			return nil
		}
		one = held
	}
	return one
}

// exposed logs a sheet. A line that repeats a label with nothing but remarks
// adds them to that sheet; any other repeats the exposure.
func (r *resolver) exposed(st *lang.Statement, l lang.Label, nth int) {
	o := r.ground()
	key := strings.ToLower(l.Text)
	if earlier := r.remarkedLater(st, key); earlier != nil {
		r.saidAfter(earlier, st, o)
		return
	}
	before, held := r.onFilm(key)
	if before != nil && before.outing == o && onlyRemarks(st) {
		r.apply(before, st)
		before.lines = append(before.lines, st)
		o.entries = append(o.entries, st)
		return
	}
	if before != nil && before.outing == o && corrects(st) {
		r.apply(before, st)
		before.lines = append(before.lines, st)
		o.entries = append(o.entries, st)
		return
	}
	if before != nil && before.outing == o && !has(before.states, "unused") && !tellsExposure(st, before) {
		r.saidAfter(before, st, o)
		return
	}
	if before != nil {
		if fresh := r.afresh(st, l); fresh != nil {
			before, held = nil, fresh
		}
	}
	nthOn := 0
	for one, again := eachExposure(st); one != nil; one, again = again, nil {
		sh := r.newSheet(st, l)
		r.inherit(sh, held)
		if lacks := r.book.lacks; lacks != "" {
			sh.unclear = "what " + lacks + " declares" + notRead
		}
		t := reader{resolver: r, sheet: sh, st: one, nth: nth, of: len(st.Labels)}
		t.read()
		r.complete(sh, &t)
		if sh.copying != "" {
			sh.plain = r.copyingNothing(one, l, held)
			if sh.aperture.copied && sh.time.copied && sh.unclear == "" {
				sh.unclear = "whether " + quote(sh.copying) + " says that it was exposed as the sheet before"
			}
		}
		if text := one.Body.Text(); again == nil && nth == 1 && strings.Contains(text, ": ") {
			apart := lang.Within(strings.ReplaceAll(text, ": ", ", "), r.names)
			sh.commas = r.asWritten(l, held, reader{st: one.With(apart), nth: 1, of: 1})
		}
		t.readElsewise(l, held)
		open := sh.unclear
		for _, a := range r.amends[amended{st, key, nthOn}] {
			r.apply(sh, a)
		}
		if open != "" {
			r.carry(sh, &t) // what was left where the line was unclear
		}
		nthOn++
		r.twice(sh, before, l)
		r.labelled(sh)
		r.put(sh, key, held)
		r.wasExposed(sh, st, []lang.Label{l})
		before, held = r.onFilm(key)
	}
}

// asWritten is a sheet as it would be if its line were another, or read otherwise, of which nothing is said.
func (r *resolver) asWritten(l lang.Label, held *holder, t reader) *sheet {
	sh := &sheet{}
	r.begin(sh, t.st, l)
	r.inherit(sh, held)
	said := len(r.found)
	t.resolver, t.sheet = r, sh
	t.read()
	r.complete(sh, &t)
	r.found = r.found[:said]
	return sh
}

// eachExposure is the one or two that a line logs on each of its sheets: what stands
// before the word that says again, and behind it, where there are settings on both
// sides.
func eachExposure(st *lang.Statement) (one, again *lang.Statement) {
	all := st.Terms()
	settings := func(terms []lang.Term) bool {
		reading := false
		return slices.ContainsFunc(terms, func(t lang.Term) bool {
			if cue, ok := t.Kind.(*lang.Cue); ok {
				reading = cue.Word != "gave" && cue.Word != "corrected"
			}
			k, ok := t.Kind.(*lang.Exposure)
			return ok && k.EV == nil && k.Zone == nil && !t.Struck && !reading
		})
	}
	at := slices.IndexFunc(all, func(t lang.Term) bool {
		k, ok := t.Kind.(*lang.State)
		return ok && k.Word == "again" && !t.Struck
	})
	if at < 0 || !settings(all[:at]) || !settings(all[at:]) {
		return st, nil
	}
	return st.With(all[:at:at]), st.With(all[at:])
}

// newSheet is the sheet that a line logs under a label.
func (r *resolver) newSheet(st *lang.Statement, l lang.Label) *sheet {
	sh := r.room.sheet()
	r.begin(sh, st, l)
	return sh
}

// begin gives a sheet its label and its place.
func (r *resolver) begin(sh *sheet, st *lang.Statement, l lang.Label) {
	sh.label, sh.outing, sh.scene, sh.at, sh.lines = l.Text, r.ground(), r.scene, l.Span, []*lang.Statement{st}
	sh.stretch, sh.wedge = r.stretch, r.now.wedge
}

// onFilm is the exposure that is already on the film in a side, and the side's
// load. Without any load line on a day its sides count as loaded afresh.
func (r *resolver) onFilm(key string) (*sheet, *holder) {
	held := r.holders[key]
	if held == nil || held.exposed == nil {
		return nil, held
	}
	if held.exposed.stretch != r.stretch {
		return nil, nil // perhaps of another day
	}
	if held.exposed.isDeveloped() {
		delete(r.holders, key) // out of it, and nothing loaded since
		return nil, nil
	}
	if held.exposed.outing != r.outing && (!r.outing.loads || held.load == nil) {
		if held.load != nil && !has(held.exposed.states, "unused") {
			r.outing.afresh = append(r.outing.afresh, held.exposed)
		}
		delete(r.holders, key)
		return nil, nil
	}
	return held.exposed, held
}

// inherit gives a sheet what holds at this point.
func (r *resolver) inherit(sh *sheet, held *holder) {
	sh.reading, sh.filters, sh.light, sh.former, sh.wanted = r.now.reading, r.now.filters, r.now.light, r.now.former, r.now.wanted
	sh.ended, sh.lightLost, sh.sole = r.now.ended, r.now.lost.light, r.now.sole
	r.ahead, r.bare, r.unused = ahead{}, false, nil
	r.underTitle()
	if r.scene != nil && sh.light != "" {
		r.scene.light = sh.light
	}
	if r.now.film != nil {
		sh.film, sh.ei = value[*film]{v: r.now.film, known: true, doubt: r.now.filmDoubt}, r.now.rated
	}
	if r.now.lens != nil {
		sh.lens, sh.lensSaid = value[*lens]{v: r.now.lens, known: true, doubt: r.now.lensDoubt}, r.now.lensSaid
	}
	if r.now.camera != nil {
		sh.camera = value[*camera]{v: r.now.camera, known: true}
	}
	if line := r.unheardLoad(held); line != "" {
		sh.film, sh.ei, sh.loadUnheard = value[*film]{}, value[float64]{}, line
		if held != nil && held.asks != "" {
			sh.leaveOpen("", held.asks)
		}
	}
	if held != nil && held.film != "" {
		sh.loadedFilm, sh.ei = held.film, held.rated
		if held.wanted.known {
			sh.wanted = held.wanted
		}
		f, ok := find(r.book.kit.films, held.film)
		if !ok {
			f = r.unknownFilm(held.film) // and no other that is in use elsewhere
		}
		sh.film = value[*film]{v: f, known: true, at: held.load.Span, doubt: held.doubt}
		switch chosen := r.now.film; {
		case chosen == f && !held.rated.known && held.rated.v == 0:
			sh.ei = r.now.rated
		case chosen != nil && chosen != f && len(r.book.kit.films) > 1:
			sh.chosenFilm = chosen
		}
	}
}

// complete settles what the line left open: settings carried from the sheet
// before in the scene, filters that are always on the lens, the title.
func (r *resolver) complete(sh *sheet, t *reader) {
	sh.ownReading = t.ownReading
	if t.ownReading {
		readAtGiven(sh)
	}
	t.shutterOpen()
	sh.clock = cmp.Or(sh.clock, t.st.Hour)
	if sh.isUnused() && t.gotAv.File != nil && t.gotTime.File != nil && !t.amending {
		sh.states = slices.DeleteFunc(sh.states, func(state string) bool { return state == "unused" })
		sh.leaveOpen("", "whether it was exposed: its line says that it was not, and has settings")
	}
	if mayBeMarked(t.st.Body.Text()) {
		if what := illegible(t.st, sh.aperture.known != sh.time.known); what != "" && sh.unclear == "" {
			sh.unclear = "what " + quote(what) + " is"
			r.report("unchecked", t.st.Body, sh.label+" could not be checked", t.real()...).note(quote(what) + " cannot be read, and nothing is put in its place")
		}
		r.editors(sh, t)
	}
	r.carry(sh, t)
	if sh.sameAs != nil {
		sh.doubtAlso(sh.sameAs, sh.restsOn()...)
		sh.restsOnOpen(sh.sameAs)
	}
	r.leftOpen(sh, t)
	if l := sh.lens.v; sh.extension.known && sh.lens.known && l.flange == 0 && sh.extension.v < l.focal/2 && sh.unclear == "" {
		sh.unclear = "the extension: " + trim(math.Round(sh.extension.v)) + " mm is less than half of the focal length" // perhaps in inches
		if said := sh.extension.at.Text(); strings.LastIndexAny(said, "0123456789") == len(said)-1 {
			sh.unclear += "; no unit is written, and millimetres were taken"
		}
	}
	if beyondBellows(sh) {
		sh.unclear = "an extension that the camera has"
	}
	if l := sh.lens.v; sh.lens.known {
		for _, f := range l.with {
			sh.filters = append(sh.filters[:len(sh.filters):len(sh.filters)], &use{name: f.Name, amounts: f.Amounts, at: l.at.Span, always: true})
		}
	}
}

// editors takes what an editor has supplied, or marked as lost: it is kept, and neither blames
// nor acquits, or where it may be a mere remark blames nobody.
func (r *resolver) editors(sh *sheet, t *reader) {
	what, terms := supplied(t.st, r.names)
	lost := lostWords(t.st)
	switch {
	case sh.unclear != "":
	case what != "":
		sh.unclear = "what " + quote(what) + " is"
		if slices.ContainsFunc(terms, func(term lang.Term) bool { _, n := term.Kind.(*lang.N); return n }) {
			sh.wanted = value[float64]{}
		}
		r.report("unchecked", t.st.Body, sh.label+" could not be checked", t.real()...).note(quote(what) + " was supplied later and does not count; where it is certain, write it without [ ]")
	case strings.Contains(strings.ToLower(lost), "filter"):
		sh.vague, sh.strange = lost, true
	case lost != "" && sh.aside == "":
		sh.aside = lost
	}
}

// notRead ends what is asked where a line or a notebook with it could not be read: it is
// reported there.
const notRead = ", which could not be read"

// doubted reports whether what stands in a place is marked as doubtful.
func (sh *sheet) doubted(at source.Span) bool {
	return slices.ContainsFunc(sh.doubts, func(doubt source.Span) bool { return liesIn(at, doubt) })
}

// liesIn reports whether a stretch lies in another.
func liesIn(at, whole source.Span) bool {
	return at.File != nil && whole.File == at.File && whole.Start <= at.Start && at.End <= whole.End
}

// doubtMark is the question mark that a value keeps wherever it is shown.
func (sh *sheet) doubtMark(at source.Span) string {
	if sh.doubted(at) {
		return "?"
	}
	return ""
}

// texts are stretches as typed.
func texts(spans []source.Span) []string {
	var all []string
	for _, at := range spans {
		all = append(all, at.Text())
	}
	return all
}

// doubtAlso takes over the doubt about what stands in these places on another
// sheet's line.
func (sh *sheet) doubtAlso(other *sheet, places ...source.Span) {
	for _, doubt := range other.doubts {
		if slices.ContainsFunc(places, func(at source.Span) bool { return liesIn(at, doubt) }) {
			sh.doubts = append(sh.doubts, doubt)
		}
	}
}

// restsOn is where the things are written that a sheet's sum is made of.
func (sh *sheet) restsOn() []source.Span {
	all := []source.Span{sh.aperture.at, sh.time.at, sh.extension.at, sh.scale.at, sh.focus.at, sh.film.at, sh.lens.at, sh.ei.at}
	for _, u := range sh.filters {
		all = append(all, u.at)
	}
	return all
}

// wholeReading is a reading's one area, where it is marked settings.
func wholeReading(rd *reading) *area {
	if rd == nil || len(rd.areas) != 1 || rd.areas[0].asEV || !rd.areas[0].complete() {
		return nil
	}
	return &rd.areas[0]
}

// before is the sheet logged before in the same scene.
func (r *resolver) before(sh *sheet) *sheet {
	if n := len(r.sheets); n > 0 && r.sheets[n-1].outing == sh.outing && r.sheets[n-1].scene == sh.scene && r.sheets[n-1].stretch == sh.stretch {
		return r.sheets[n-1]
	}
	return nil
}

func has(all []string, word string) bool {
	for _, s := range all {
		if s == word {
			return true
		}
	}
	return false
}

// what names a sheet by its scene.
func (sh *sheet) what() string {
	if sh.title != "" {
		return quote(sh.title)
	}
	if sh.scene != nil && sh.scene.title != "" {
		return quote(sh.scene.title)
	}
	return sh.label
}

// isSide reports whether a label is a side of a numbered holder: 3A, 12b.
func isSide(label string) bool {
	n := len(label)
	if n < 2 {
		return false
	}
	last := label[n-1] | 0x20
	return (last == 'a' || last == 'b') && strings.Trim(label[:n-1], "0123456789") == ""
}

// entered is a sheet by its day and label, as it is known before it has a number, and by
// its notebook where others have the label on that day too.
func (sh *sheet) entered() string { return sh.dayLabel() + sh.apart }

func (sh *sheet) dayLabel() string { return sh.outing.day() + " " + sh.shown }

// tellApart names the notebook of each sheet whose day and label those of another notebook
// have too: none of them is the one that is meant without it.
func (r *resolver) tellApart() {
	first := map[string]*book{} // that has a day
	together := false
	for _, o := range r.outings {
		day := o.on()
		first[day] = cmp.Or(first[day], o.book)
		together = together || first[day] != o.book
	}
	if !together {
		return
	}
	r.register.file()
	for _, sh := range r.sheets {
		if r.register.several[dayLabel{bookDay{nil, sh.outing.on()}, strings.ToLower(sh.shown)}] {
			sh.apart = " (" + sh.outing.book.name + ")"
			if sh.number == "" {
				sh.id = sh.entered()
			}
		}
	}
}

// put files a sheet under its outing and scene and gives it its identity.
func (r *resolver) put(sh *sheet, key string, held *holder) {
	o := sh.outing
	sh.shown = r.register.shown(o, sh.label)
	r.register.put = append(r.register.put, entered[*sheet]{o, sh.shown, sh})
	sh.id = sh.entered()
	if sh.number != "" {
		sh.id = sh.number
	}
	r.sheets, r.missed = append(r.sheets, sh), 0
	r.byLabel[key] = sh
	if sh.shown != sh.label {
		r.byLabel[strings.ToLower(sh.shown)] = sh
	}
	o.sheets = append(o.sheets, sh)
	sh.entry = len(o.entries)
	o.entries = append(o.entries, sh)
	if sh.scene != nil {
		sh.scene.sheets = append(sh.scene.sheets, sh)
	}
	if held == nil {
		held = &holder{}
		r.holders[key] = held
	}
	held.exposed = sh
}

// isDeveloped reports whether a line says for certain that a sheet was developed.
func (sh *sheet) isDeveloped() bool {
	return slices.ContainsFunc(sh.developed, func(d done) bool { return !d.maybe })
}
