package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What a sheet's line leaves out and has from the sheet before: an aperture, a time, or all of it.

// copyingNothing is a sheet by its line alone, where its words may copy the one before or not:
// same wall. Nothing else is to know of it.
func (r *resolver) copyingNothing(st *lang.Statement, l lang.Label, held *holder) *sheet {
	bare := st.With(slices.DeleteFunc(slices.Clone(st.Terms()), func(t lang.Term) bool {
		switch t.Kind.(type) {
		case *lang.Same, *lang.Negative, *lang.Scanned, *lang.Filed, *lang.Loose, *lang.Remark, *lang.Spot, *lang.Densitometer:
			return true
		}
		return false
	}))
	return r.asWritten(l, held, reader{st: bare, nth: 1, of: 1})
}

// leftOpen makes a sheet unclear that takes from its scene what an unread line
// was to say; that line is reported where it stands.
func (r *resolver) leftOpen(sh *sheet, t *reader) {
	r.saysOwnWord(sh, t.st)
	open := func(what string, line int) {
		switch {
		case line == 0 || sh.unclear != "":
		case r.asked[line] != "":
			sh.unclear = r.asked[line]
		case line == r.between:
			sh.unclear = fmt.Sprintf("the %s: that above may be of another day, line %d", what, line)
		default:
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
	}
	added := slices.ContainsFunc(t.st.Terms(), func(term lang.Term) bool { k, is := term.Kind.(*lang.Stack); return is && k.Add })
	from := sh.sameAs // whose filters may have come off below it
	copied := from != nil && from.at.File == sh.at.File && r.now.lost.filter > placeOf(from.at).Line && !t.filteredHere()
	if (slices.Equal(sh.filters, r.now.filters) || added || copied) && !slices.ContainsFunc(t.st.Terms(), func(term lang.Term) bool { _, off := term.Kind.(*lang.Drop); return off }) {
		if r.surely.line != r.now.lost.filter || !slices.ContainsFunc(r.surely.labels, func(label string) bool { return strings.EqualFold(label, sh.label) }) {
			open("filter", r.now.lost.filter)
		}
	}
	open("test", r.now.lost.test)
	if sh.lens.v == r.now.lens && sh.lens.at.File == nil {
		open("lens", r.now.lost.lens)
	}
	if !sh.saysDrawn() {
		open("extension", r.now.lost.drawn)
	}
	if sh.film.v == r.now.film && sh.film.at.File == nil {
		open("film", r.now.lost.film)
	}
	if sh.loadUnheard != "" && !sh.film.known && sh.unclear == "" {
		sh.unclear = "the film: it may have been loaded on " + sh.loadUnheard + notRead
	}
	if !sh.ei.known {
		open("film speed", r.now.lost.speed)
	}
}

// explained takes note of the words that a line which was not read says what they stand for.
func (r *resolver) explained(at source.Span) (pairs []string) {
	pairs = lang.Explained(source.Fold(at.Text()).Text, r.names)
	for _, pair := range pairs {
		said, _, _ := strings.Cut(pair, "=")
		r.ownWords = append(r.ownWords, ownWord{said, placeOf(at).Line})
	}
	return pairs
}

// ownWord is a word of the writer's own, and the line that says what it stands for and was not read.
type ownWord struct {
	word string
	line int
}

// saysOwnWord leaves a sheet open on whose line such a word stands.
func (r *resolver) saysOwnWord(sh *sheet, st *lang.Statement) {
	for _, u := range r.ownWords {
		for i := range st.Terms() {
			if slices.Contains(wordsOf(st.Terms()[i].Kind), u.word) && !st.Terms()[i].Struck {
				sh.leaveOpen("", fmt.Sprintf("what %s is, by line %d", quote(u.word), u.line)+notRead)
			}
		}
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

// minutesOrFeet is a figure with a stroke, which stands for either: 4', 1'30.
var minutesOrFeet = pattern.Lazily(`\b(\d+) ?['’′](\d*)$`)

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
		asks, note := "the time: "+quote(lost), "a time is written 1/15, 10s, 2m30s, ten seconds; until then the sheet is not checked"
		if m := minutesOrFeet().FindStringSubmatch(lost); m != nil {
			asks = "whether " + m[0] + " is minutes or feet"
			note = "minutes are written " + m[1] + "m" + m[2] + ", and how far off the subject is focus " + m[1] + " ft; until then the sheet is not checked"
		}
		sh.leaveOpen("time", asks)
		r.report("nearly-a-term", t.st.Body, quote(lost)+" is not understood as a time", t.real()...).note(note)
		sh.slip = len(r.found)
		return
	}
	if said := numberLost(t.st); said != "" && !sh.aperture.known { // sixteen one fifteenth
		sh.leaveOpen("aperture", "the aperture: "+quote(said))
		r.report("nearly-a-term", t.st.Body, quote(said)+" is not understood as an aperture", t.real()...).note("an aperture is written f16, f sixteen; until then the sheet is not checked")
		sh.slip = len(r.found)
		return
	}
	if l := sh.lens.v; sh.lens.known && !sh.aperture.known && l.single() {
		sh.aperture.value = known(l.marks[0], l.at.Span, false)
		return
	}
	if said := t.inItsPlace(); said != "" {
		sh.unclear = "the setting that is not written: " + quote(said)
		return
	}
	prior := r.before(sh)
	if prior == nil {
		return
	}
	r.restsOnUnread(sh)
	if sh.restsOnOpen(prior); sh.unclear != "" {
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

// restsOnUnread leaves a sheet open that is as the last one, where a line in between may have
// logged another and was not read.
func (r *resolver) restsOnUnread(sh *sheet) {
	if r.missed > 0 {
		sh.leaveOpen("", fmt.Sprintf("what stands on line %d", r.missed)+notRead)
	}
}

// restsOnOpen takes over what is open on a sheet that another is as, but for a setting that its own
// line gives.
func (sh *sheet) restsOnOpen(from *sheet) {
	own := from.unclearOf == "time" && sh.time.known && !sh.time.copied || from.unclearOf == "aperture" && sh.aperture.known && !sh.aperture.copied
	if from.unclear != "" && !own {
		sh.leaveOpen(from.unclearOf, from.unclear)
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
	for i := range st.Terms() {
		for _, w := range wordsOf(st.Terms()[i].Kind) {
			if strings.EqualFold(w, "bulb") {
				return true
			}
			sign := strings.TrimLeft(w, "BT")
			if rest := strings.TrimLeft(sign, "("); len(w)-len(sign) == 1 && (rest == "" || rest[0] >= '0' && rest[0] <= '9') {
				return true
			}
		}
	}
	return false
}
