package compile

import (
	"fmt"
	"math"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// reader reads one line's terms into a sheet. What the exposures of a line are
// depends on the words before them: a light value or a placed reading is what
// was metered, settings are what was given, unless "metered" stands before.
type reader struct {
	*resolver
	sheet       *sheet
	st          *lang.Statement
	metering    bool // a meter line: all exposures are readings
	amending    bool
	ownReading  bool    // the line has a reading of its own
	indexed     float64 // the index that the line says the meter stood at, before its reading
	indexedAt   source.Span
	indexSaid   string // an index among words, which the meter may have stood at
	open        opening
	inReading   bool // behind "metered", "incident", "average"
	gave        bool
	gotAv       source.Span
	gotTime     source.Span
	gotN        source.Span
	hadOn       []*use         // the filters before those of the last term
	led         *lang.Exposure // the reading that a zone stood before, and the zone
	leads       float64
	things      map[*lang.Term]string // words put together with the colour of what they name, by the colour and what stands behind it
	zoned       string                // a zone before the line's readings that none of them followed at once
	zonedOn     float64
	by          *meter        // the meter that the line's readings are by, nil where none is named
	zone        *cell         // of a row in columns: the zone that is written in one of its own
	maybeZone   *cell         // what a mark repeats that may be a zone: it stands apart from its reading
	covered     kind          // what the row says or has as the row above
	inZones     bool          // the row above has a column of zones
	passed      []source.Span // cells that say what their column tells
	dropNext    bool          // the words before say that the filters of the next term are off: took off the yellow
	elsewise    bool          // what was chosen since the sheet that the line copies counts where it does not else
	copiesNamed bool          // the sheet that it copies is named
	nth, of     int           // which of the line's sheets this is, from 1, and how many there are
}

func (t *reader) read() {
	all, copied := t.standing(), false
	for i, term := range all {
		if same, ok := term.Kind.(*lang.Same); ok && !afterStop(term.Span) && !t.sameAsMetered(same, all, i) {
			t.sheet.copying = ofSomething(same, all, i)
			if same.Label != "" || !copied {
				t.same(same, term)
			}
			copied = true
		}
	}
	if copied {
		t.marked()
	} else {
		t.besideChosen()
		t.besideAbove()
	}
	for i, term := range all {
		if !slices.ContainsFunc(t.passed, func(at source.Span) bool { return liesIn(term.Span, at) }) {
			t.term(all, i, term)
		}
	}
	t.inColumns()
	t.asNothing()
	t.zoneAhead(all)
	t.indexOpen()
	if rd := t.sheet.reading; t.st.Word == lang.Meter && t.ownReading && rd.open == "" {
		if what, _ := supplied(t.st, t.names); what != "" {
			rd.open = "what " + quote(what) + " is, which was supplied later"
		}
	}
	t.subject(all)
	t.filtersNamed(all)
	t.oneAfterOther()
	t.pastAperture(all)
	if t.sheet.wanted.known {
		t.developmentSaid(all)
	}
	t.developmentOpen(all)
}

// afterStop reports whether a stretch begins a sentence of prose: "f22. Same
// boulder" copies nothing.
func afterStop(at source.Span) bool {
	before := strings.TrimRight(string(at.File.Text[max(0, at.Start-4):at.Start]), " \t")
	return strings.HasSuffix(before, ".") && at.Text() != "" && at.Text()[0] == 'S'
}

// standing is the terms that are neither struck nor withdrawn; those that are
// go into the history.
func (t *reader) standing() []*lang.Term {
	all := t.ofThisSheet()
	kept := make([]*lang.Term, 0, len(all))
	for i := 0; i < len(all); i++ {
		term := &all[i]
		if whole, took := t.colouredThing(all[i:]); took > 0 {
			kept = append(kept, whole)
			i += took - 1
			continue
		}
		withdraw, isWithdraw := term.Kind.(*lang.Withdraw)
		switch {
		case term.Unread:
			if said := term.Span.Text(); said != "N-" && said != "N+" { // how much less is to be developed, not what was given
				t.sheet.unclear = "what " + said + " is"
			}
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
		case term.Struck:
			t.struck(term.Span.Text(), "", "struck", term.Span)
		case isWithdraw && withdraw.After:
			if i+1 < len(all) {
				i++
				if t.amending {
					t.takenOff(&all[i])
				}
				t.struck(all[i].Span.Text(), "", "withdrawn", all[i].Span)
			}
		case isWithdraw && noThing(all[i:]):
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
		case isWithdraw && noReading(all[i:]):
			i++
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Cover(all[i].Span).Text())
		case isWithdraw:
			kept = t.takeBack(kept, next(all, i))
		default:
			kept = append(kept, term)
		}
	}
	return kept
}

// noReading reports whether "no meter" or "not metered" begins here: it takes
// nothing back.
func noReading(terms []lang.Term) bool {
	said := strings.ToLower(terms[0].Span.Text())
	if said != "no" && said != "not" || len(terms) < 2 {
		return false
	}
	if _, cue := terms[1].Kind.(*lang.Cue); !cue {
		return false
	}
	if len(terms) > 2 {
		_, reads := terms[2].Kind.(*lang.Exposure)
		return !reads
	}
	return true
}

// noThing reports whether "no" stands before words, and takes nothing back that stands behind a
// comma: no second sheet, no wind.
func noThing(terms []lang.Term) bool {
	if !strings.EqualFold(terms[0].Span.Text(), "no") || len(terms) < 2 {
		return false
	}
	loose, ok := terms[1].Kind.(*lang.Loose)
	at := terms[0].Span
	before := strings.TrimRight(string(at.File.Text[max(0, at.Start-4):at.Start]), " \t")
	return ok && strings.HasSuffix(before, ",") && !slices.ContainsFunc(loose.Words, func(w string) bool { return strings.ContainsAny(w, "0123456789") })
}

func next(all []lang.Term, i int) *lang.Term {
	for i++; i < len(all); i++ {
		if _, comma := all[i].Kind.(*lang.Comma); !comma {
			return &all[i]
		}
	}
	return nil
}

// takeBack withdraws what stands before "no": of a pair of settings the one
// that is written anew, else the term.
func (t *reader) takeBack(kept []*lang.Term, instead *lang.Term) []*lang.Term {
	for n := len(kept) - 1; n >= 0; n-- {
		if _, comma := kept[n].Kind.(*lang.Comma); comma {
			continue
		}
		now := ""
		if instead != nil {
			now = instead.Span.Text()
			if pair, part := halve(kept[n], instead); pair != nil {
				t.struck(part, now, "withdrawn", kept[n].Span)
				kept[n] = pair
				return kept
			}
		}
		t.struck(kept[n].Span.Text(), now, "withdrawn", kept[n].Span)
		return append(kept[:n:n], kept[n+1:]...)
	}
	return kept
}

// halve leaves of a pair of settings the part that the new term does not
// replace.
func halve(pair, instead *lang.Term) (rest *lang.Term, part string) {
	was, ok := pair.Kind.(*lang.Exposure)
	now, fine := instead.Kind.(*lang.Exposure)
	if !ok || !fine || len(was.Parts) != 2 || len(now.Parts) != 1 {
		return nil, ""
	}
	half := *was
	half.Parts = nil
	for i := range was.Parts {
		if (was.Parts[i].Aperture != nil) == (now.Parts[0].Aperture != nil) {
			part = settingText(&was.Parts[i])
		} else {
			half.Parts = append(half.Parts, was.Parts[i])
		}
	}
	term := *pair
	term.Kind = &half
	return &term, part
}

func settingText(s *lang.Setting) string {
	if s.Aperture != nil {
		return apertureText(*s.Aperture)
	}
	return givenTime(*s.Time)
}

func (t *reader) struck(was, now, how string, at source.Span) {
	if t.amending && how == "withdrawn" {
		return // the amendment says both
	}
	t.sheet.history = append(t.sheet.history, record.Change{Was: was, Now: now, How: how, Place: placeOf(at)})
}

func (t *reader) term(all []*lang.Term, i int, term *lang.Term) {
	sh := t.sheet
	if thing := t.things[term]; thing != "" {
		sh.vague = thing
	}
	if term.Doubtful {
		sh.doubts = append(sh.doubts, term.Span)
	}
	if term.Unread && sh.unclear == "" {
		sh.unclear = "what " + term.Span.Text() + " is"
	}
	switch k := term.Kind.(type) {
	case *lang.Cue:
		t.cue(k, all, i)
	case *lang.Exposure:
		t.exposure(k, term, all, i)
	case *lang.Sunny16:
		var also string
		if t.ownReading && len(sh.reading.areas) > 0 {
			also = "whether " + sh.reading.at.Text() + " or sunny 16 was followed"
		}
		t.ownReading = true
		sh.reading = &reading{kind: "sunny 16", at: term.Span, doubtful: term.Doubtful, open: also}
	case *lang.MeterEI:
		if !t.filmAt(float64(k.EI), term, all, i) {
			t.meterEI(float64(k.EI), term)
		}
	case *lang.ISO:
		switch speed := float64(k.Speed); {
		case t.metering || t.ofReading(all, i, true):
		case t.saidAnyhow(speed):
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		default:
			t.stray(term)
			return
		}
		t.meterEI(float64(k.Speed), term)
	case *lang.OldSpeed:
		t.stray(term)
	case *lang.FilmEI:
		if t.metering || t.ofReading(all, i, false) {
			t.meterEI(float64(k.EI), term)
			return
		}
		if ofAnother(before(all, i)) {
			sh.aside = term.Span.Text()
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		}
		sh.ei = known(float64(k.EI), term.Span, term.Doubtful)
	case *lang.Stack:
		if t.dropNext {
			t.dropNext = false
			for _, f := range k.Filters {
				t.drop(sh, f.Name)
			}
			return
		}
		if t.inProse(k, term, all, i) {
			return
		}
		if out, sure := supplanted(all, i); out {
			if !sure {
				sh.leaveOpen("", "which filter was on: "+quote(all[0].Span.Cover(all[len(all)-1].Span).Text()))
			}
			for _, f := range k.Filters {
				t.drop(sh, f.Name)
			}
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		}
		if t.ofPlace(k, all, i) {
			sh.vague = all[i-1].Span.Cover(term.Span).Text()
			sh.maybeOn = sh.vague
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		}
		if namesMetered(all, i) {
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		}
		if t.besideFilter(all, i) && !k.Add {
			if t.alreadyOn(sh, k) {
				return
			}
			both := *k
			both.Add = true
			t.filterTerm(sh, &lang.Term{Kind: &both, Span: term.Span})
			return
		}
		t.filterTerm(sh, term)
	case *lang.Drop:
		if thingBehind(all, i) && k.What != "filter" && len(sh.filters) > 0 {
			sh.vague = term.Span.Text() + " …" // no yellow leaves left
			return
		}
		if isNone(term) && slices.ContainsFunc(all, func(other *lang.Term) bool { _, filter := other.Kind.(*lang.Stack); return filter }) {
			sh.remarks = append(sh.remarks, term.Span.Text()) // of another column: Y8   none
			switch before(all, i).(type) {
			case *lang.Arrow, *lang.Stack:
				if term.Span.Start-all[i-1].Span.End == 1 && term.Span.File.Text[term.Span.Start-1] == ' ' {
					sh.leaveOpen("", "whether a filter was on: "+quote(all[max(0, i-2)].Span.Cover(term.Span).Text()))
				}
			}
			return
		}
		t.filterTerm(sh, term)
	case *lang.Extension:
		sh.drawn()
		sh.extension = known(float64(k.MM), term.Span, term.Doubtful)
	case *lang.Magnification:
		if n := behindCommas(all, i); developmentBefore(all, i) >= 0 && t.gotTime.File != nil && n < len(all) && len(timesOf(all[n].Kind)) > 0 {
			sh.remarks = append(sh.remarks, term.Span.Text()) // N, 1:3, 9 min: how the developer is thinned
			return
		}
		sh.drawn()
		switch said := term.Span.Text(); t.maybeSetting(float64(k.M), term, all, i) {
		case "aperture":
			sh.leaveOpen("aperture", "whether "+quote(said)+" is the aperture or the scale: an aperture is written f"+strings.TrimPrefix(said, "1:"))
			return
		case "time":
			sh.leaveOpen("time", "whether "+quote(said)+" is the time or the scale: a time is written as 1/15 is, the scale mag "+said)
			return
		}
		sh.scale = known(float64(k.M), term.Span, term.Doubtful)
		if maybeNoScale(term, all, i) && !term.Doubtful {
			sh.doubts, sh.mayScale = append(sh.doubts, term.Span), term.Span
		}
	case *lang.Focus:
		sh.drawn()
		sh.focus = known(float64(k.MM), term.Span, term.Doubtful)
	case *lang.FocusSpread:
		sh.spread = float64(k.MM)
	case *lang.Near:
		sh.near = float64(k.MM)
	case *lang.Far:
		sh.far = float64(k.MM)
	case *lang.Bellows:
		sh.bellows = known(k.Amount, term.Span, term.Doubtful)
	case *lang.Movement:
		sh.movements = append(sh.movements[:len(sh.movements):len(sh.movements)], k.Text)
	case *lang.Bracket:
		sh.bracket = known(float64(k.Stops), term.Span, term.Doubtful)
	case *lang.N:
		if loose, ok := after(all, i).(*lang.Loose); ok && ofNorth[plain(loose.Words[0])] || k.Stops == 0 && inBuilding(before(all, i)) {
			sh.remarks = append(sh.remarks, term.Span.Text())
			return
		}
		t.wants(k, term, looseText(before(all, i)))
	case *lang.Hold:
		sh.hold = true
	case *lang.State:
		if !term.Doubtful { // "unused?" is no state
			sh.states = append(sh.states, k.Word)
		}
	case *lang.Amount:
		switch {
		case ofNextTime(looseText(before(all, i))):
			sh.remarks = append(sh.remarks, term.Span.Text())
		case k.Stops != nil && lang.Pushes(lastWord(looseText(before(all, i)))) && !t.metering:
			sh.remarks = append(sh.remarks, term.Span.Text())
			sh.stopsBeside = append(sh.stopsBeside, stopsBeside{float64(*k.Stops), all[i-1].Span.Cover(term.Span), true})
		case !t.lightChanged(k, term, all, i):
			t.more(k, term)
		}
	case *lang.Placed:
		if led := t.ledTo(all, i); led != nil {
			t.led, t.leads = led, float64(k.Zone)
			return
		}
		words := looseText(before(all, i))
		if t.st.Word == lang.Sheet {
			words = strings.TrimSpace(words + " " + looseText(after(all, i))) // zone III shadow
		}
		t.place(float64(k.Zone), term, words)
	case *lang.Falls:
		sh.remarks = append(sh.remarks, term.Span.Text())
		if rd := sh.reading; rd != nil && len(rd.areas) > 0 && (t.metering || t.ownReading) && !term.Doubtful {
			rd.areas[len(rd.areas)-1].falls = known(float64(k.Zone), term.Span, false)
		}
	case *lang.Loss:
		sh.losses = append(sh.losses, k.Word)
	case *lang.Filed:
		sh.filed.sleeve, sh.filed.sleeveAt = k.Place, term.Span
	case *lang.Scanned:
		t.scanned(k.Path, term.Span)
	case *lang.Negative:
		if !t.metering {
			t.resolver.number(sh, k.Number, term.Span, t.st.Word == lang.Amend)
			sh.fieldNumber = sh.fieldNumber || t.st.Word == lang.Sheet
		}
	case *lang.Densitometer:
		if loose, ok := after(all, i).(*lang.Loose); ok && strings.HasPrefix(loose.Words[0], "+") {
			sh.remarks = append(sh.remarks, term.Span.Text()) // D 1+1, a developer
			return
		}
		t.densityOf(sh, k, term)
	case *lang.LuxSeconds:
		sh.lux = known(float64(k.H), term.Span, term.Doubtful)
	case *lang.Spot:
		t.patchOf(sh, k, term)
	case *lang.Clock:
		t.hours(k, term, all, i)
	case *lang.Sum:
		if then := lengthenedTo(all, i-1); then != nil {
			t.settings(then, term)
			return
		}
		t.alsoSays(all, i)
	case *lang.Remark:
		if n := t.developmentIn(term.Span); n.known && !t.metering && len(strings.Fields(k.Text)) == 1 { // (N-1)
			t.wants(&lang.N{Stops: lang.Number(n.v)}, term, "")
			return
		}
		t.alsoSays(all, i)
		t.remarkedWhileOpen(k.Text)
		if sh.sameAs != nil && term.Unclosed() && slices.ContainsFunc(lang.Within(k.Text, t.names), func(term lang.Term) bool { return t.held(&term) != 0 }) {
			sh.leaveOpen("", "what "+quote(k.Text)+" says") // and not the same as the sheet above
		}
		if _, meters := before(all, i).(*lang.Cue); meters {
			t.mayStandAt(strings.Fields(k.Text))
		}
		sh.remarks = append(sh.remarks, k.Text)
		t.relabelled(k.Text, term.Span)
		if _, reading := before(all, i).(*lang.Exposure); reading {
			t.readBy(strings.Fields(k.Text), term.Span)
		}
		if _, filter := before(all, i).(*lang.Stack); filter && sh.vague == "" && (leftOff().MatchString(strings.ToLower(k.Text)) || wasNotOn().MatchString(strings.ToLower(k.Text))) {
			sh.vague = all[i-1].Span.Cover(term.Span).Text() // R25 (forgotten)
			sh.maybeOn = sh.vague
		}
		if sh.vague == "" && onlyFilter(k.Text, t.names) {
			sh.vague = k.Text // (orange)
		}
		if coversLens(strings.ToLower(k.Text)) {
			sh.covered = k.Text
		}
	case *lang.Loose:
		t.loose(k, term, all, i)
	case *lang.Choose:
		t.choose(k, term)
	case *lang.Bare:
		sh.unclear = "what " + term.Span.Text() + " is"
	case *lang.Same:
		if t.sameAsMetered(k, all, i) {
			t.asMetered(term)
		}
	case *lang.Comma, *lang.Arrow:
	default:
		t.stray(term)
	}
}

// isNone reports whether a term is the word none by itself, which may be of whatever its column has.
func isNone(term *lang.Term) bool {
	_, drop := term.Kind.(*lang.Drop)
	return drop && strings.EqualFold(term.Span.Text(), "none")
}

// maybeNoScale reports whether a magnification may be another thing's: the size of the statue, a slope of
// 1:4, or a size of which nobody says that it is life's.
func maybeNoScale(term *lang.Term, all []*lang.Term, i int) bool {
	text, loose := strings.ToLower(term.Span.Text()), looseText(before(all, i))
	switch {
	case strings.HasPrefix(text, "mag"), strings.HasPrefix(text, "scale"):
		return false
	case strings.Contains(text, ":"):
		return loose != "" && !ofScale[strings.ToLower(lastWord(loose))]
	case strings.Contains(text, "life"), strings.Contains(text, "leben"):
		return besideWords(all, i)
	}
	return true // natural size, one to one
}

// maybeSetting is what a ratio may be beside the picture's scale: a lens's opening as it was once marked,
// 1:6.3, where the line has a time and neither an aperture nor a sheet that it copies, or a time with a slip
// of the finger, 1:12.5, where the line has none and the sheet before had another scale; else "".
func (t *reader) maybeSetting(m float64, ratio *lang.Term, all []*lang.Term, i int) string {
	const whole = 8 // marks below it are in tenths, and scales are not: 1:4.5, 1:6.3
	mark, ok := strings.CutPrefix(strings.ReplaceAll(ratio.Span.Text(), ",", "."), "1:")
	if v, err := strconv.ParseFloat(mark, 64); !ok || err != nil || v < whole && v == math.Trunc(v) || t.metering {
		return ""
	}
	aperture, timed, same := false, false, false
	for n, term := range all {
		switch k := term.Kind.(type) {
		case *lang.Cue:
			if k.Word == "gave" && n < i {
				aperture, timed = false, false // what stands before it was metered
			}
		case *lang.Same:
			same = true
		case *lang.Clock:
			timed = timed || strings.Contains(k.Time, "-")
		case *lang.Exposure:
			if k.EV == nil && k.Zone == nil {
				av, tv := k.Gives()
				aperture, timed = aperture || av, timed || tv
			}
		}
	}
	switch words := strings.Fields(strings.ToLower(looseText(before(all, i)))); {
	case timed && !aperture && !same:
		return "aperture"
	case timed || !aperture || says(words, namesScale) || strings.HasSuffix(strings.Join(words, " "), "close up"):
	default:
		if prior := t.before(t.sheet); prior == nil || !prior.scale.known || prior.scale.v != m {
			return "time"
		}
	}
	return ""
}

// namesScale are words before a ratio that make it the picture's and nothing else.
var namesScale = lang.SetOf("close-up closeup macro ratio repro reproduction copy copied scale magnification magnified")

// ofAnother reports whether words before an index say that it is that of something else than
// the film: guide number for EI 100, app set to EI 6400.
func ofAnother(kind any) bool {
	loose, ok := kind.(*lang.Loose)
	return ok && len(loose.Words) > 1 && indexOfAnother[plain(loose.Words[len(loose.Words)-1])] && says(loose.Words, things)
}

var (
	indexOfAnother = lang.SetOf("to for from at of on by")
	things         = lang.SetOf("meter app phone guide number flash camera viewer dslr preview")
)

// inBuilding reports whether words end with a part of a building, of which N is the north one: porch N.
func inBuilding(words any) bool {
	loose, ok := words.(*lang.Loose)
	return ok && ofBuilding[plain(loose.Words[len(loose.Words)-1])]
}

var ofBuilding = lang.SetOf("porch aisle nave transept chapel choir cloister tower door doorway facade front gable arcade portal wing elevation")

// ofNorth are words behind N that make it the north: N wind, N face.
var ofNorth = lang.SetOf("wind side face facing wall slope bank end gate edge shore aspect window light corner")

// stray is a term that means nothing on this line; it is kept and said. What a
// figure on a sheet's line was meant for may be all that explains the sheet.
func (t *reader) stray(term *lang.Term) {
	text := term.Span.Text()
	t.sheet.remarks = append(t.sheet.remarks, text)
	if k, ok := term.Kind.(*lang.Amount); ok && k.Stops != nil {
		switch stops := float64(*k.Stops); {
		case t.metering && t.ofZone(stops):
			return // EV 12 on VI, so one stop more
		case t.st.Word == lang.Sheet && !t.metering:
			t.sheet.stopsBeside = append(t.sheet.stopsBeside, stopsBeside{stops, term.Span, false})
			return
		}
	}
	if k, ok := term.Kind.(*lang.OldSpeed); ok {
		t.sheet.unclear = "which EI " + k.Text + " is"
		t.oldSpeed(term, k, t.real()...)
		return
	}
	f := t.report("unknown-term", term.Span, fmt.Sprintf("%s has no meaning in a %s line", quote(text), t.st.Word), t.real()...)
	switch k := term.Kind.(type) {
	case *lang.Millimetres:
		f.note("the bellows are written ext " + strings.TrimSpace(text) + ", a lens is written lens " + strings.TrimSpace(text) + ", and a distance belongs behind --")
		t.sheet.unclear = "what " + text + " is"
	case *lang.Amount:
		if k.Factor != nil {
			f.note("several exposures are a whole number, 4 x 1s; a time that was lengthened is written 10s -> 45s")
		}
		switch {
		case k.Stops != nil && t.metering:
			f.note("a reading is placed with its zone: EV 10 on III")
		case k.Stops != nil:
			f.note("more or less on purpose is written at the sheet: bracket " + spokenBracket(float64(*k.Stops)))
		}
		t.sheet.unclear = "what " + text + " is"
	case *lang.ISO:
		t.sheet.unclear = "whose index " + text + " is: the film's EI " + trim(float64(k.Speed)) + ", or the meter's at EI " + trim(float64(k.Speed))
		f.note("the film's index is written EI " + trim(float64(k.Speed)) + ", the meter's at EI " + trim(float64(k.Speed)))
	}
}

// saidAnyhow reports whether a speed is the index of the sheet's film, and the one that its meter stood at:
// whichever of the two was meant, nothing is new.
func (t *reader) saidAnyhow(speed float64) bool {
	sh, b := t.sheet, t.book
	if t.rated(sh) != speed {
		return false
	}
	rd := sh.reading
	if rd == nil || rd.ei != 0 {
		return rd == nil || rd.ei == speed
	}
	return !slices.ContainsFunc(rd.areas, func(a area) bool {
		at := a.shownAt(b, b.at100)
		return at != 0 && at != speed
	})
}

// oldSpeed says of a speed that no conversion is known of it.
func (s *season) oldSpeed(term *lang.Term, k *lang.OldSpeed, sheets ...*sheet) {
	s.report("unknown-term", term.Span, quote(k.Text)+" is not turned into an exposure index", sheets...).
		note("its scale has no one conversion; the index that you worked with is written EI 25")
}

// ofZone reports whether so many stops are what the zone of the last reading comes to.
func (t *reader) ofZone(stops float64) bool {
	rd := t.sheet.reading
	if rd == nil || len(rd.areas) == 0 {
		return false
	}
	a := &rd.areas[len(rd.areas)-1]
	return a.placed && math.Abs(middleZone-a.zone) == math.Abs(stops)
}

// real is the sheet for a finding, where the line is a sheet's.
func (t *reader) real() []*sheet {
	if t.sheet.label == "" {
		return nil
	}
	return []*sheet{t.sheet}
}

// What is said beside a reading of stops from it, and beside sunny 16 of less sun, changes what
// was followed (common practice, no source).
var (
	shadedSun = pattern.Lazily(`\b(?:shade|shaded|shadow|overcast|cloud\w*|haz[ey]|hazy|mist|backlit|dusk|snow|beach)\b`)
	shifted   = pattern.Lazily(`\b(?:one|two|three|four|half|a|\d) (?:stops?|zones?)? ?(?:down|below|under|less|lower|up|above|over|more|higher)\b|` +
		`\b(?:down|up|opened|closed|minus|plus|less|compensated)(?: by)? (?:a|one|two|three|four|half)\b|^(?:(?:so|then|and) )?(?:open|close|stop down|opening|closing) (?:one|two|three|four|half)(?: (?:stops?|more))?$`)
)

// manyTimes are words that say so and nothing else.
var manyTimes = map[string]bool{"twice": true, "thrice": true, "doubled": true, "tripled": true, "halved": true, "two exposures": true, "three exposures": true, "four exposures": true, "two times": true, "three times": true, "four times": true}

// numberOfTimes are a figure and the word for how often.
var numberOfTimes = pattern.Lazily(`^\d+ (?:times|exposures|exp)$`)

// besideWords reports whether a term stands beside words, a comma between them or not.
func besideWords(all []*lang.Term, i int) bool {
	is := func(n int) (words, comma bool) {
		if n < 0 || n >= len(all) {
			return false, false
		}
		_, words = all[n].Kind.(*lang.Loose)
		_, comma = all[n].Kind.(*lang.Comma)
		return words, comma
	}
	for _, step := range [...]int{-1, 1} {
		words, comma := is(i + step)
		if comma {
			words, _ = is(i + 2*step)
		}
		if words {
			return true
		}
	}
	return false
}

// ofScale are words before a ratio that is the picture's.
var ofScale = lang.SetOf("at about close-up closeup up macro ratio scale maßstab massstab abbildungsmaßstab échelle rapport repro reproduction copy copied now then to and")

// scanned gives the sheet the file of its scan.
func (t *reader) scanned(name string, at source.Span) {
	ref := t.scanRef(name, at)
	ref.sheets = append(ref.sheets, t.sheet)
	t.sheet.scans = append(t.sheet.scans, ref)
}

// namesScan reports whether words are no more than the word for a scan and the file of a
// picture: scan: scans/3a.tif.
func namesScan(words []string) bool {
	return len(words) == 2 && (strings.EqualFold(words[0], "scan") || strings.EqualFold(words[0], "scans")) && lang.IsPicture(words[1])
}

func after(all []*lang.Term, i int) any {
	if i+1 < len(all) {
		return all[i+1].Kind
	}
	return nil
}

func before(all []*lang.Term, i int) any {
	if i > 0 {
		return all[i-1].Kind
	}
	return nil
}

// leadsAway reports whether an arrow leads to no setting, but to where the negative went, or
// what became of it: → binder 3 p 2, → N-1, → notes/gate.md.
func leadsAway(all []*lang.Term, i int) bool {
	switch k := after(all, i).(type) {
	case *lang.Filed, *lang.Scanned, *lang.N, *lang.Hold, *lang.Negative, *lang.State, *lang.Densitometer:
		return true
	case *lang.Loose:
		return slices.ContainsFunc(k.Words, func(word string) bool { return isPath(word) || kept[strings.ToLower(word)] })
	}
	return false
}

// kept are words for where a negative goes, or for what is said of it elsewhere (common
// practice, no source).
var kept = lang.SetOf("see file filed archive archived scan scanned scans binder box page drawer tray sleeve lab print printed notes")

// isPath reports whether a word is a file's: folders, or an ending of letters.
func isPath(word string) bool {
	ending := strings.TrimPrefix(path.Ext(word), ".")
	stem := strings.TrimSuffix(word, path.Ext(word))
	letters := func(s string) bool {
		return strings.ContainsFunc(s, unicode.IsLetter)
	}
	folder, name, within := strings.Cut(word, "/")
	return len(ending) >= 2 && stem != "" && letters(ending) || within && letters(folder) && letters(name)
}
