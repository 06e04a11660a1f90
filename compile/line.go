package compile

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
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
	before, held := r.onFilm(key)
	if before != nil && before.outing == o && onlyRemarks(st) {
		r.apply(before, st)
		before.lines = append(before.lines, st)
		o.entries = append(o.entries, entry{line: st})
		return
	}
	if before != nil && before.outing == o && corrects(st) {
		r.apply(before, st)
		before.lines = append(before.lines, st)
		o.entries = append(o.entries, entry{line: st})
		return
	}
	if before != nil && before.outing == o && !has(before.states, "unused") && !tellsExposure(st, before) {
		r.saidAfter(before, st, o)
		return
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
		}
		if text := one.Body.Text(); again == nil && nth == 1 && strings.Contains(text, ": ") {
			apart := *one
			apart.Terms = lang.Within(strings.ReplaceAll(text, ": ", ", "), r.names)
			sh.commas = r.asWritten(&apart, l, held)
		}
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

// corrects reports whether a line that repeats a label corrects what was logged under it: f22 not
// f32; should say f22. A second exposure says neither.
func corrects(st *lang.Statement) bool {
	for i := 0; i+1 < len(st.Terms); i++ {
		if no, ok := st.Terms[i].Kind.(*lang.Withdraw); ok && no.After {
			switch st.Terms[i+1].Kind.(type) {
			case *lang.Exposure, *lang.Stack, *lang.Extension:
				return true
			}
		}
	}
	return slices.ContainsFunc(st.Terms, func(t lang.Term) bool {
		return correcting().MatchString(strings.ToLower(strings.Join(wordsOf(t.Kind), " ")))
	})
}

var correcting = lang.Lazily(`^(?:correction|should (?:say|be|read|have been)|was really|sorry)\b|^sorry$`)

// tellsExposure reports whether a line that repeats a label tells an exposure of its own: an aperture
// and a time, a state of the sheet, or that all is the same again and nothing but terms.
func tellsExposure(st *lang.Statement, before *sheet) bool {
	var av, time, words, again bool
	for i := range st.Terms {
		t := &st.Terms[i]
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
			for _, part := range k.Parts {
				av, time = av || part.Aperture != nil, time || part.Time != nil
			}
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
	said := strings.TrimSpace(st.Body.Text())
	remark := *st
	remark.Terms = []lang.Term{{Kind: &lang.Remark{Text: said}, Span: st.Body}}
	for i := range st.Terms {
		switch st.Terms[i].Kind.(type) {
		case *lang.Remark, *lang.Loose, *lang.Comma:
		default:
			if addsTo(&st.Terms[i]) {
				remark.Terms = append(remark.Terms, st.Terms[i])
			}
		}
	}
	r.apply(sh, &remark)
	sh.lines = append(sh.lines, st)
	o.entries = append(o.entries, entry{line: st})
	numbers := slices.ContainsFunc(st.Terms, func(t lang.Term) bool { _, bare := t.Kind.(*lang.Bare); return bare })
	if !numbers && !touchesSum(st) {
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

// touchesSum reports whether a line has a term that the sum of a sheet may rest on.
func touchesSum(st *lang.Statement) bool {
	return slices.ContainsFunc(st.Terms, func(t lang.Term) bool {
		switch t.Kind.(type) {
		case *lang.Same, *lang.State, *lang.Clock, *lang.Date, *lang.Movement, *lang.Withdraw, *lang.Nth:
			return false
		}
		return !t.Struck && !addsTo(&t)
	})
}

// copyingNothing is a sheet by its line alone, where its words may copy the one before or not:
// same wall. Nothing else is to know of it.
func (r *resolver) copyingNothing(st *lang.Statement, l lang.Label, held *holder) *sheet {
	bare := *st
	bare.Terms = slices.DeleteFunc(slices.Clone(st.Terms), func(t lang.Term) bool {
		switch t.Kind.(type) {
		case *lang.Same, *lang.Negative, *lang.Scanned, *lang.Filed, *lang.Loose, *lang.Remark, *lang.Spot, *lang.Densitometer:
			return true
		}
		return false
	})
	return r.asWritten(&bare, l, held)
}

// asWritten is a sheet as it would be if its line were another, of which nothing is said.
func (r *resolver) asWritten(st *lang.Statement, l lang.Label, held *holder) *sheet {
	sh := &sheet{}
	r.begin(sh, st, l)
	r.inherit(sh, held)
	said := len(r.found)
	t := reader{resolver: r, sheet: sh, st: st, nth: 1, of: 1}
	t.read()
	r.complete(sh, &t)
	r.found = r.found[:said]
	return sh
}

// eachExposure is the one or two that a line logs on each of its sheets: what stands
// before the word that says again, and behind it, where there are settings on both
// sides.
func eachExposure(st *lang.Statement) (one, again *lang.Statement) {
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
	at := slices.IndexFunc(st.Terms, func(t lang.Term) bool {
		k, ok := t.Kind.(*lang.State)
		return ok && k.Word == "again" && !t.Struck
	})
	if at < 0 || !settings(st.Terms[:at]) || !settings(st.Terms[at:]) {
		return st, nil
	}
	first, second := *st, *st
	first.Terms, second.Terms = st.Terms[:at:at], st.Terms[at:]
	return &first, &second
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
	if held.exposed.outing != r.outing && (!r.outing.loads || held.load == nil) {
		return nil, nil
	}
	if held.exposed.isDeveloped() {
		delete(r.holders, key) // out of it, and nothing loaded since
		return nil, nil
	}
	return held.exposed, held
}

// inherit gives a sheet what holds at this point.
func (r *resolver) inherit(sh *sheet, held *holder) {
	sh.reading, sh.filters, sh.light, sh.former, sh.wanted = r.now.reading, r.now.filters, r.now.light, r.now.former, r.now.wanted
	sh.ended = r.now.ended
	r.ahead, r.bare, r.unused = ahead{}, false, nil
	if r.scene != nil && sh.light != "" {
		r.scene.light = sh.light
	}
	if r.now.film != nil {
		sh.film, sh.ei = value[*film]{v: r.now.film, known: true}, r.now.rated
	}
	if r.now.lens != nil {
		sh.lens = value[*lens]{v: r.now.lens, known: true}
	}
	if r.now.camera != nil {
		sh.camera = value[*camera]{v: r.now.camera, known: true}
	}
	if line := r.unheardLoad(held); line != "" {
		sh.film, sh.ei, sh.loadUnheard = value[*film]{}, value[float64]{}, line
	}
	if held != nil && held.film != "" {
		sh.loadedFilm, sh.ei = held.film, held.rated
		f, ok := find(r.book.kit.films, held.film)
		if !ok {
			f = r.unknownFilm(held.film) // and no other that is in use elsewhere
		}
		sh.film = value[*film]{v: f, known: true, at: held.load.Span}
		switch chosen := r.now.film; {
		case chosen == f && !held.rated.known:
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
	if sh.isUnused() && t.gotAv.File != nil && t.gotTime.File != nil && !t.amending {
		sh.states = slices.DeleteFunc(sh.states, func(state string) bool { return state == "unused" })
		sh.leaveOpen("", "whether it was exposed: its line says that it was not, and has settings")
	}
	if what := illegible(t.st, sh.aperture.known != sh.time.known); what != "" && sh.unclear == "" {
		sh.unclear = "what " + quote(what) + " is"
		r.report("unchecked", t.st.Body, sh.label+" could not be checked", t.real()...).note(quote(what) + " cannot be read, and nothing is put in its place")
	}
	r.editors(sh, t)
	r.carry(sh, t)
	if sh.sameAs != nil {
		sh.doubtAlso(sh.sameAs, sh.restsOn()...)
	}
	r.leftOpen(sh, t)
	if l := sh.lens.v; sh.extension.known && sh.lens.known && l.flange == 0 && sh.extension.v < l.focal/2 && sh.unclear == "" {
		sh.unclear = "the extension: " + trim(math.Round(sh.extension.v)) + " mm is less than half of the focal length" // perhaps in inches
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

// leftOpen makes a sheet unclear that takes from its scene what an unread line
// was to say; that line is reported where it stands.
func (r *resolver) leftOpen(sh *sheet, t *reader) {
	open := func(what string, line int) {
		if line > 0 && sh.unclear == "" {
			sh.unclear = fmt.Sprintf("the %s on line %d", what, line) + notRead
		}
	}
	switch like := sh.sameAs; {
	case t.ownReading:
	case like == nil:
		if r.now.lost.meter > 0 && r.now.lost.meter == r.now.lost.scene && sh.unclear == "" {
			sh.unclear = fmt.Sprintf("the reading: that above may be of another %s, line %d", r.book.Lines[r.now.lost.scene-1].Meant, r.now.lost.scene) + notRead
		}
		open("reading", r.now.lost.meter)
		sh.unread = sh.unclear != ""
	case like.unread && sh.unclear == "":
		sh.unclear, sh.unread = like.unclear, true
	case strings.HasSuffix(like.unclear, notRead) && (sh.aperture.copied || sh.time.copied) && sh.unclear == "":
		sh.unclear = like.unclear
	}
	added := slices.ContainsFunc(t.st.Terms, func(term lang.Term) bool { k, is := term.Kind.(*lang.Stack); return is && k.Add })
	if (slices.Equal(sh.filters, r.now.filters) || added) && !slices.ContainsFunc(t.st.Terms, func(term lang.Term) bool { _, off := term.Kind.(*lang.Drop); return off }) {
		open("filter", r.now.lost.filter)
	}
	if sh.lens.v == r.now.lens {
		open("lens", r.now.lost.lens)
	}
	if sh.film.v == r.now.film {
		open("film", r.now.lost.film)
	}
	if sh.loadUnheard != "" && !sh.film.known && sh.unclear == "" {
		sh.unclear = "the film: it may have been loaded on " + sh.loadUnheard + notRead
	}
	if !sh.ei.known {
		open("film speed", r.now.lost.speed)
	}
}

// readAtGiven completes "f22, metered 1s": a time that was metered without an
// aperture was metered at the one that was given.
func readAtGiven(sh *sheet) {
	rd := sh.reading
	if len(rd.areas) != 1 || rd.areas[0].asEV || rd.areas[0].hasAv || !rd.areas[0].hasTime || !sh.aperture.known {
		return
	}
	a := rd.areas[0]
	a.aperture, a.lent = sh.aperture.v, true
	if a.av, a.hasAv = apertureAv(a.aperture); a.hasAv {
		a.ev = exposure.EV(a.av, a.seconds)
	}
	own := *rd
	own.areas = []area{a}
	sh.reading = &own
}

// carry takes a missing setting from the sheet before in this scene, or, behind
// a reading of the sheet's own, from that reading. What is doubtful or could not be
// read there is so here, and what could not be read on this line may be the setting.
func (r *resolver) carry(sh *sheet, t *reader) {
	if partOfValue(sh) >= 0 && t.ownReading {
		sh.mayCarry = r.before(sh)
	}
	if sh.aperture.known == sh.time.known || sh.unclear != "" || !sh.time.known && heldOpen(t.st) {
		return
	}
	lost := timeLost(t.st)
	if a := wholeReading(sh.reading); t.ownReading && a != nil && (sh.time.known || lost == "") {
		if !sh.aperture.known {
			sh.aperture = set(a.aperture, a.at, false)
		} else {
			sh.time = set(lang.Time{Parts: []lang.Seconds{a.time}}, a.at, false)
		}
		return
	}
	if words := settingLost(t.st); words != "" {
		sh.unclear = "the setting that is not written: " + quote(words)
		return
	}
	if lost != "" && !sh.time.known {
		sh.leaveOpen("time", "the time: "+quote(lost))
		r.report("nearly-a-term", t.st.Body, quote(lost)+" is not understood as a time", t.real()...).
			note("a time is written 1/15, 10s, 2m30s, ten seconds; until then the sheet is not checked")
		sh.slip = len(r.found)
		return
	}
	if l := sh.lens.v; sh.lens.known && !sh.aperture.known && l.single() {
		sh.aperture.value = known(l.only, l.at.Span, false)
		return
	}
	prior := r.before(sh)
	if prior == nil {
		return
	}
	if prior.unclear != "" {
		sh.unclear = prior.unclear
		return
	}
	if !sh.aperture.known && prior.aperture.known && couldHave(sh, prior) {
		sh.aperture = prior.aperture
		sh.aperture.carried = prior
		sh.doubtAlso(prior, prior.aperture.at)
	}
	if !sh.time.known && prior.time.known {
		sh.time = prior.time
		sh.time.carried = prior
		sh.doubtAlso(prior, prior.time.at)
	}
}

// partOfValue is the light value that a sheet's time may be a part of, by where it stands in its
// reading, -1 for none: EV 10 1/2 f22.
func partOfValue(sh *sheet) int {
	if sh.reading == nil || !sh.time.known || !isPart(sh.time.at.Text()) {
		return -1
	}
	return slices.IndexFunc(sh.reading.areas, func(a area) bool {
		return a.asEV && a.at.File == sh.time.at.File && a.at.End+1 == sh.time.at.Start
	})
}

// couldHave reports whether a sheet's lens has the aperture of the sheet before it: else it is
// not known what was set on it.
func couldHave(sh, prior *sheet) bool {
	av, ok := apertureAv(prior.aperture.v)
	return !ok || !sh.lens.known || sh.lens.v == prior.lens.v || prior.aperture.v.Widest || sh.lens.v.HasAperture(av)
}

// heldOpen reports the sign of a shutter held open, B or T, among a line's words:
// such a sheet has a time of its own, whatever it was.
func heldOpen(st *lang.Statement) bool {
	for i := range st.Terms {
		words, loose := st.Terms[i].Kind.(*lang.Loose)
		if !loose {
			continue
		}
		for _, w := range words.Words {
			sign := strings.TrimLeft(w, "BT")
			if rest := strings.TrimLeft(sign, "("); len(w)-len(sign) == 1 && (rest == "" || rest[0] >= '0' && rest[0] <= '9') {
				return true
			}
		}
	}
	return false
}

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
	r.sheets = append(r.sheets, sh)
	r.byLabel[key] = sh
	if sh.shown != sh.label {
		r.byLabel[strings.ToLower(sh.shown)] = sh
	}
	o.sheets = append(o.sheets, sh)
	sh.entry = len(o.entries)
	o.entries = append(o.entries, entry{sheet: sh})
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

// onlyRemarks reports whether a line says nothing that a second exposure would
// be told by: words, a negative's number, what is wanted of the development,
// what spoiled the sheet.
func onlyRemarks(st *lang.Statement) bool {
	return !slices.ContainsFunc(st.Terms, func(t lang.Term) bool { return !addsTo(&t) })
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
