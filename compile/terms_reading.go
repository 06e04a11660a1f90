package compile

import (
	"slices"
	"strconv"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/source"
)

// What a line says that the meter showed: light values and settings, the zones that they were
// placed on, the index that the meter stood at.

// ofReading reports whether an index is that of the reading before it: right behind it, or
// for a speed that is not said to be the film's (apart) anywhere before what was given.
func (t *reader) ofReading(all []*lang.Term, i int, apart bool) bool {
	if k, ok := before(all, i).(*lang.Exposure); ok && (k.EV != nil || k.Zone != nil) {
		return true
	}
	_, behind := before(all, i).(*lang.Exposure)
	return t.ownReading && t.inReading && !t.gave && (apart || behind && t.readingDone() && t.gotAv.File == nil && t.gotTime.File == nil)
}

// place takes a zone that stands away from its reading, as in "metered 1/60 f16,
// shadow on III", or places the reading of the scene anew for this sheet, "shadow on IV".
// Of several readings it is not known which is meant.
func (t *reader) place(zone float64, term *lang.Term, words string) {
	sh := t.sheet
	sh.remarks = append(sh.remarks, term.Span.Text())
	if !t.ownReading {
		t.zoned, t.zonedOn = term.Span.Text(), zone
	}
	if sh.reading == nil || sh.reading.kind == "sunny 16" {
		return
	}
	at, sure, ok := sh.reading.meant(words)
	if ok && !sure && (sh.reading.ofLight() || fellThere(words)) {
		return
	}
	if !ok || sh.reading.kind == "average" || sh.reading.namedBefore(t.st, term, at) {
		sh.unclear = "which reading stands " + term.Span.Text()
		return
	}
	if was := &sh.reading.areas[at]; t.ownReading && !t.metering && was.placed && was.zone != zone && !says(strings.Fields(strings.ToLower(words)), anew) {
		sh.unclear = "which zone counts, " + exposure.Roman(was.zone) + " or " + exposure.Roman(zone)
		return
	}
	own := *sh.reading // the scene's is left as it is
	own.areas = slices.Clone(own.areas)
	own.areas[at].placed, own.areas[at].zone = true, zone
	sure = sure || own.areas[at].name == "" && (t.metering || t.ownReading && says(wordsIn(words), places))
	if own.maybePlaced = ""; !sure {
		own.maybePlaced = strings.TrimSpace(words + " " + term.Span.Text())
	}
	if own.kind == "plain" {
		own.kind = "spot"
	}
	if lowest := lowestPlaced(own.areas); !t.ownReading && !t.metering && lowest >= 0 && lowest != at && zone >= middleZone {
		sh.byHigh = own.placedBy(at, "which placement counts: "+strings.TrimSpace(words+" "+term.Span.Text())+", or "+own.areas[lowest].at.Text())
	}
	sh.reading = &own
}

// placedBy is a reading by one of its areas, whatever else was placed.
func (rd *reading) placedBy(at int, asks string) *another {
	own := *rd
	own.areas = slices.Clone(rd.areas)
	for i := range own.areas {
		own.areas[i].placed = i == at
	}
	return &another{asks, func(sh *sheet) { sh.reading = &own }}
}

// namedBefore reports whether the last words before a term name something that was metered and is not the
// given area: by the snow, on VIII.
func (rd *reading) namedBefore(st *lang.Statement, term *lang.Term, at int) bool {
	all := st.Terms()
	if rd.areas[at].calledIn(st.Body.Text()) {
		return false
	}
	for i := range all {
		if all[i].Span.Start >= term.Span.Start {
			break
		}
		if _, words := all[i].Kind.(*lang.Loose); words && slices.ContainsFunc(rd.areas, func(a area) bool { return a.calledIn(all[i].Span.Text()) }) {
			return true
		}
	}
	return false
}

// ledTo is the reading that a zone stands before: zone III EV 10, zone III at 1/15 f8; nil
// where none follows at once, or that has a zone of its own.
func (t *reader) ledTo(all []*lang.Term, i int) *lang.Exposure {
	for i++; i < len(all); i++ {
		switch k := all[i].Kind.(type) {
		case *lang.Loose:
			if !only(k.Words, connective) {
				return nil
			}
		case *lang.Exposure:
			if k.Zone == nil && (k.EV != nil || t.metering) {
				return k
			}
			return nil
		default:
			return nil
		}
	}
	return nil
}

// meant is the area that a zone away from its reading is said of: the one that the words
// before it name, else the only one, else the only one that is placed. It is sure but where the words
// name something that the reading does not.
func (rd *reading) meant(words string) (at int, sure, ok bool) {
	placed := -1
	for i := range rd.areas {
		a := &rd.areas[i]
		if a.calledIn(words) {
			return i, true, true
		}
		if a.placed {
			if placed >= 0 {
				return 0, false, false
			}
			placed = i
		}
	}
	bare := only(strings.Fields(strings.ToLower(words)), connective, placing)
	switch {
	case len(rd.areas) == 1:
		return 0, bare, true
	case !bare:
		return 0, false, false // an area that was not metered
	}
	return placed, true, placed >= 0
}

// calledIn reports whether words have the name of what was metered, or one of its words: shadow, the shadows.
func (a *area) calledIn(words string) bool {
	if a.name == "" {
		return false
	}
	said := wordsIn(words)
	return slices.ContainsFunc(wordsIn(a.name), func(word string) bool {
		const shortest = 3 // letters: of the
		return len(word) >= shortest && !connective[word] && slices.ContainsFunc(said, func(other string) bool {
			return strings.TrimSuffix(word, "s") == strings.TrimSuffix(other, "s")
		})
	})
}

// ofLight reports whether a reading is of the light on everything and not of one thing: what is seen then falls on
// its zones, and nothing is placed.
func (rd *reading) ofLight() bool {
	return rd.kind == "incident" || rd.kind == "average" || len(rd.areas) == 1 && says(wordsIn(rd.areas[0].name), cards)
}

// fellThere reports whether words before a zone say that something fell on it: highlights fall on VII, and not to fall
// on VI.
func fellThere(words string) bool {
	said := wordsIn(words)
	return says(said, falling) && !says(said, meantTo)
}

var (
	falling = lang.SetOf("fall falls fell falling land lands landed landing")
	meantTo = lang.SetOf("to let")
)

// cards are words for what is metered in the place of the subject, for a middle zone (common practice, no source).
var cards = lang.SetOf("card graycard greycard dome")

// places are words that say of a zone that something was placed on it.
var places = lang.SetOf("placed placing put puts putting")

// placing are words that lead to a zone and name no area.
var placing = map[string]bool{"placed": true, "place": true, "put": true, "now": true, "instead": true, "moved": true, "it": true, "them": true, "this": true, "rather": true, "again": true}

// anew are words that lead to a zone which takes the place of the one before it.
var anew = lang.SetOf("now instead moved move rather again but then")

// leadsToAs reports whether words before "metered" say that just that was given: as metered, shot
// as read.
func leadsToAs(words []string) bool {
	return strings.EqualFold(words[len(words)-1], "as") && only(words, ofShooting, asIs)
}

var (
	ofShooting = lang.SetOf("shot exposed taken made done given straight just exactly so it")
	asIs       = lang.SetOf("as that it so just the same exactly simply")
)

// sameAsMetered reports whether "the same" was given behind the line's own reading, and so what
// was metered: metered 1/15 f22, gave the same.
func (t *reader) sameAsMetered(k *lang.Same, all []*lang.Term, i int) bool {
	if loose, ok := before(all, i).(*lang.Loose); ok && only(loose.Words, asIs) {
		i--
	}
	cue, ok := before(all, i).(*lang.Cue)
	if !ok || cue.Word != "gave" || k.Label != "" {
		return false
	}
	return slices.ContainsFunc(all[:i], func(term *lang.Term) bool {
		k, ok := term.Kind.(*lang.Exposure)
		return ok && len(k.Parts) == 2
	}) && slices.ContainsFunc(all[:i-1], func(term *lang.Term) bool { k, ok := term.Kind.(*lang.Cue); return ok && k.Word != "gave" })
}

// asMetered gives what the meter showed.
func (t *reader) asMetered(term *lang.Term) {
	if a := wholeReading(t.sheet.reading); a != nil && t.gotAv.File == nil && t.gotTime.File == nil {
		t.sheet.aperture = set(a.aperture, term.Span, false)
		t.sheet.time = set(lang.Time{Parts: []lang.Seconds{a.time}}, term.Span, false)
	}
}

// cue opens a reading or ends it.
func (t *reader) cue(k *lang.Cue, all []*lang.Term, i int) {
	switch k.Word {
	case "gave", "corrected":
		t.gave, t.inReading = true, false
		return
	case "metered":
		if loose, ok := before(all, i).(*lang.Loose); ok && leadsToAs(loose.Words) {
			return
		}
	}
	if meteredBehind(all, i) {
		return
	}
	_, sameReading := before(all, i).(*lang.Same)
	if _, same := after(all, i).(*lang.Same); k.Word == "metered" && (sameReading || same) {
		return // same reading: the scene's
	}
	t.inReading = true
	if k.Word == "average" && t.ownReading {
		t.sheet.reading.kind = k.Word // behind the readings, as it is also said
		return
	}
	if !readsOn(all, i) {
		return // "metered at EI 100": the reading stays, its index is another
	}
	t.newReading(all[i].Span)
	switch k.Word {
	case "incident", "average":
		t.sheet.reading.kind = k.Word
	case "metered through":
		t.sheet.reading.through = true
	case "metered with":
		t.sheet.reading.maybeThrough = true
	}
}

// readsOn reports whether an exposure follows a cue.
func readsOn(all []*lang.Term, i int) bool {
	for _, term := range all[i+1:] {
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			return !lasting(k)
		case *lang.Cue:
			return false
		}
	}
	return false
}

// lasting reports whether a time alone stands behind words: reading steady for 5 min.
func lasting(k *lang.Exposure) bool {
	return k.EV == nil && len(k.Parts) == 1 && k.Parts[0].Time != nil && slices.ContainsFunc(k.Name, func(w string) bool { return strings.EqualFold(w, "for") || strings.EqualFold(w, "after") })
}

// beforeSettings reports whether a light value of a place stands before a sheet's settings without a word that it was
// metered for them: sky EV 15, 1/60 f8. It is as open as one behind them.
func (t *reader) beforeSettings(k *lang.Exposure) bool {
	return !t.metering && !t.inReading && k.EV != nil && k.Zone == nil && t.led != k && len(k.Name) > 0 && len(t.sheet.reading.areas) == 0 && t.gotAv.File == nil && t.gotTime.File == nil
}

// newReading begins a reading of the line's own, once.
func (t *reader) newReading(at source.Span) {
	if t.ownReading {
		return
	}
	if !t.metering && !t.inReading && t.gotAv.File != nil && t.gotTime.File != nil {
		t.sheet.scenes = t.sheet.reading
	}
	t.ownReading, t.sheet.above = true, t.sheet.reading
	t.sheet.reading = &reading{kind: "plain", at: at, ei: t.indexed, eiAt: t.indexedAt}
}

// meterEI is the index that the meter stood at. A reading that other sheets
// share is copied first.
func (t *reader) meterEI(ei float64, term *lang.Term) {
	if t.sheet.reading == nil {
		t.sheet.reading = &reading{kind: "plain"}
	}
	own := *t.sheet.reading
	if was := own.ei; t.ownReading && was != 0 && was != ei && !own.eiMeters {
		own.open = "the EI that the meter stood at: " + trim(was) + " or " + trim(ei)
	}
	if !t.ownReading {
		own.eiBefore = own.ei
	}
	own.ei, own.eiAt, own.eiMeters = ei, term.Span, false
	t.sheet.reading = &own
	if !t.ownReading {
		t.indexed, t.indexedAt = ei, term.Span
	}
}

// secondTime reports whether a reading that has a time and no aperture is
// followed by another time: that is no part of it.
func (t *reader) secondTime(k *lang.Exposure) bool {
	rd := t.sheet.reading
	if t.metering || rd == nil || !t.ownReading || len(rd.areas) == 0 || len(k.Parts) != 1 || k.Parts[0].Time == nil {
		return false
	}
	last := rd.areas[len(rd.areas)-1]
	return !last.asEV && last.hasTime && !last.hasAv
}

// readingDone reports whether the reading that was begun needs no more.
func (t *reader) readingDone() bool {
	rd := t.sheet.reading
	if rd == nil || len(rd.areas) == 0 || rd.kind == "average" && !t.gave && t.metering {
		return false
	}
	return rd.areas[len(rd.areas)-1].complete()
}

// metered adds an area to the line's reading.
func (t *reader) metered(k *lang.Exposure, term *lang.Term) {
	t.newReading(term.Span)
	rd := t.sheet.reading
	if t.beforeSettings(k) || !t.metering && k.EV == nil && len(k.Parts) == 1 && k.Parts[0].Time != nil {
		t.sheet.scenes = t.sheet.above // 128s metered, gave 338s: the writer's own sum, or a reading
	}
	rd.at = rd.at.Cover(term.Span)
	rd.doubtful = rd.doubtful || term.Doubtful
	if rd.kind == "sunny 16" {
		rd.open = "whether " + term.Span.Text() + " or sunny 16 was followed"
	}
	t.mayStandAt(k.Name)
	if len(k.Name) > 0 && strings.EqualFold(k.Name[0], "or") && len(rd.areas) > 0 {
		rd.open = "which of " + rd.at.Text() + " was the reading"
	}
	if n := len(k.Name); n > 0 && strings.EqualFold(k.Name[n-1], "between") && k.EV == nil {
		rd.open = "where " + term.Span.Text() + " and what follows it the reading was"
	}
	name, by := t.byMeter(k.Name)
	a := area{name: name, by: by, at: term.Span}
	if n := len(rd.areas); n > 0 && !rd.areas[n-1].complete() && k.EV == nil {
		a = rd.areas[n-1] // the other half of a pair, behind a comma
		rd.areas = rd.areas[:n-1]
		a.at = a.at.Cover(term.Span)
	}
	if k.EV != nil {
		a.asEV, a.ev = true, float64(*k.EV)
		if a.ev > 2*brightestEV { // on the line of a meter, which may have its index: spot: dial at 200
			rd.open = "what " + quote(term.Span.Text()) + " says of the meter, since no light value is so high"
		}
	}
	for i := range k.Parts {
		t.part(&a, &k.Parts[i])
		if time := k.Parts[i].Time; time != nil && (time.Count != nil || time.Again != nil) {
			rd.open = "what " + term.Span.Text() + " is" // a meter shows one time
		}
	}
	if k.Zone != nil {
		a.placed, a.zone = true, float64(*k.Zone)
		rd.kind = "spot"
	} else if t.led == k {
		a.placed, a.zone = true, t.leads
	}
	if t.zoned != "" && !(a.placed && a.zone == t.zonedOn) {
		rd.open, rd.half = "which reading stands "+t.zoned, true
	}
	t.zoned = ""
	if a.name != "" && inSigns(a.name) {
		rd.open = "whether " + a.name + " is the zone of " + term.Span.Text() // III EV 10
	}
	rd.areas = append(rd.areas, a)
	rd.atMeters(term.Span)
	if rd.kind == "plain" && (a.placed || len(rd.areas) > 1) {
		rd.kind = "spot"
	}
}

// atMeters takes the index of the meter that all areas are by, where it has one of its
// own and the line says no other.
func (rd *reading) atMeters(at source.Span) {
	by := rd.areas[0].by
	alike := !slices.ContainsFunc(rd.areas, func(a area) bool { return a.by != by })
	switch {
	case alike && by != nil && by.ei != 0 && rd.ei == 0:
		rd.ei, rd.eiAt, rd.eiMeters = by.ei, at, true
	case !alike && rd.eiMeters:
		rd.ei, rd.eiMeters = 0, false
	}
}

// byMeter is a reading's name without the meter that it is by, and that meter: dslr EV 3, shadow by the
// dslr EV 3. A bright spot is what was metered.
func (t *reader) byMeter(words []string) (name string, by *meter) {
	for i, word := range words {
		m, ok := find(t.book.kit.meters, word)
		if !ok {
			continue
		}
		from := i
		for from > 0 && byWords[strings.ToLower(words[from-1])] {
			from--
		}
		if i > 0 && from == i {
			if t.by == nil && t.now.meter == nil {
				return strings.Join(words, " "), nil // it may be the meter
			}
			continue
		}
		return strings.Join(append(slices.Clone(words[:from]), words[i+1:]...), " "), m
	}
	by = t.by
	if m, ok := find(t.book.kit.meters, t.sheet.reading.kind); ok && by == nil {
		by = m // incident EV 12, where a meter is called so
	}
	if by == nil && !says(lowered(words), things) && !bySomething(words) {
		by = t.now.meter
	}
	return strings.Join(words, " "), by
}

// bySomething reports whether words end as a reading by another meter than those of the kit does: shadow by the
// dslr, and not hole under the root.
func bySomething(words []string) bool {
	i := len(words) - 2
	if i > 0 && articled[strings.ToLower(words[i])] {
		i--
	}
	return i >= 0 && instruments[strings.ToLower(words[i])]
}

// byWords stand before the meter that a reading is by.
var (
	byWords  = lang.SetOf("by off with from on via using the my mit vom am dem avec par le la")
	articled = lang.SetOf("the my")

	instruments = lang.SetOf("by with via using")
)

// part takes one half of a metered pair of settings.
func (t *reader) part(a *area, s *lang.Setting) {
	if s.Aperture != nil {
		a.aperture = *s.Aperture
		a.av, a.hasAv = apertureAv(*s.Aperture)
	} else if len(s.Time.Parts) > 0 {
		a.time = s.Time.Parts[0]
		a.seconds, a.hasTime = exposure.TimeSeconds(a.time.Num, a.time.Den)
	}
	if a.hasAv && a.hasTime {
		a.ev = exposure.EV(a.av, a.seconds)
	}
}

// mayStandAt takes note of an index among words that the meter may have stood at, which no
// term of the line says.
func (t *reader) mayStandAt(words []string) {
	if n := indexAmong(words); n != "" && t.indexSaid == "" {
		t.indexSaid = n
	}
}

// indexOpen leaves a reading open whose meter may have stood at an index.
func (t *reader) indexOpen() {
	if rd := t.sheet.reading; t.indexSaid != "" && t.ownReading && rd.ei == 0 && rd.open == "" {
		rd.open = "whether the meter stood at " + t.indexSaid
	}
}

// indexAmong is a film speed among words, as of a meter that stood at it: EI 6400, at 6400.
func indexAmong(words []string) string {
	for i, word := range words {
		n, err := strconv.ParseFloat(strings.Trim(word, ".:,()"), 64)
		if err != nil || exposure.NearestIndex(n) != n || i == 0 {
			continue
		}
		if before := strings.ToLower(words[i-1]); ofIndex(before) || before == "iso" || before == "asa" || before == "at" && n >= 25 {
			return strings.Trim(word, ".:,()")
		}
	}
	return ""
}
