package compile

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang"
)

// The part of resolve that puts a later line's corrections over a sheet.

// amended is an exposure before it is read: of a line, under a label, the first there or
// the second.
type amended struct {
	st    *lang.Statement
	label string
	nth   int
}

// amendments finds, for each exposure of a notebook, the lines below it that amend it: the
// last of the label before the amendment is meant, or that of the day it names. What it
// does not foresee is amended late.
func (r *resolver) amendments(b *book) map[amended][]*lang.Statement {
	all := map[amended][]*lang.Statement{}
	if !slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool { return st.Word == lang.Amend }) {
		return all
	}
	r.register.file()
	logged := newRegister[amended]()
	logged.isos, logged.known, logged.typed = slices.Clone(r.register.isos), maps.Clone(r.register.known), maps.Clone(r.register.typed)
	last, of := map[string]amended{}, map[string]*outing{}
	o := &outing{book: b}
	for _, st := range b.Statements {
		switch st.Word {
		case lang.Day:
			d := dayOf(b, st)
			o = &outing{book: b, date: d.date, iso: d.iso}
		case lang.Sheet:
			if st.Either && len(st.Labels) > 1 {
				continue
			}
			for _, l := range st.Labels {
				key := strings.ToLower(l.Text)
				if of[key] == o && onlyRemarks(st) {
					continue
				}
				exposures := 1
				if _, again := eachExposure(st); again != nil {
					exposures = 2
				}
				for nth := range exposures {
					one := amended{st, key, nth}
					shown := logged.shown(o, l.Text)
					logged.put = append(logged.put, entered[amended]{o, shown, one})
					last[key], of[key] = one, o
					last[strings.ToLower(shown)] = one
				}
			}
		case lang.Amend:
			for _, l := range st.Labels {
				one, ok := last[strings.ToLower(l.Text)]
				if l.Day.File != nil {
					one, ok = logged.find(b, l)
				}
				if ok {
					all[one] = append(all[one], st)
				}
			}
		}
	}
	return all
}

// amend is applied when its sheets are read, so that those that copy them have it; what
// could not be foreseen then, and sheets of another notebook, are amended here.
func (r *resolver) amend(st *lang.Statement) {
	r.eachNamed(st, func(sh *sheet, _ lang.Label) {
		if !slices.Contains(sh.amends, st) {
			r.apply(sh, st)
		}
	})
}

// apply puts an amendment's terms over a sheet's own and keeps what they
// replace.
func (r *resolver) apply(sh *sheet, st *lang.Statement) {
	sh.amends = append(sh.amends, st)
	if st.Word == lang.Amend && r.contradicts(sh, st) {
		return
	}
	before := *sh
	sh.amended = append(sh.amended, &before)
	t := reader{resolver: r, sheet: sh, st: st, amending: true}
	if len(st.Labels) > 1 {
		t.nth, t.of = placeOn(st, sh), len(st.Labels)
	}
	if sh.unclearOf != "" {
		sh.unclear, sh.unclearOf = "", ""
	}
	t.read()
	if t.ownReading && before.reading != nil {
		sh.reading = amendedReading(before.reading, sh.reading, st)
	}
	if before.isUnused() && st.Word == lang.Amend && (t.gotAv.File != nil || t.gotTime.File != nil) {
		sh.states = slices.DeleteFunc(slices.Clone(sh.states), func(state string) bool { return state == "unused" }) // it was exposed
	}
	t.shutterOpen()
	if before.unclearOf != "" {
		t.mended(before.unclearOf, before.unclear)
	}
	if was := r.said(&before); was != r.said(sh) {
		sh.history = append(sh.history, record.Change{Was: was, Now: r.said(sh), How: "amended", Place: placeOf(st.Span)})
	} else if st.Word == lang.Amend && inWords(st) && sh.reading == before.reading && sh.unclear == "" {
		sh.unclear = "what the amendment in " + place(st.Span) + " changes"
		r.report("correction-not-read", st.Body, "this amends nothing of "+sh.label+" that is understood", sh).
			note("an amendment is what counts, and what does not: amend " + sh.label + ": f16 not f22; until then the sheet is not checked")
	}
}

// takenOff takes off a sheet what an amendment says it was not, or had not on: not fogged, not R25.
func (t *reader) takenOff(term *lang.Term) {
	switch k := term.Kind.(type) {
	case *lang.State:
		t.sheet.states = slices.DeleteFunc(slices.Clone(t.sheet.states), func(state string) bool { return state == k.Word })
	case *lang.Stack:
		for _, f := range k.Filters {
			t.drop(t.sheet, f.Name)
		}
	}
}

// wasAmended reports whether a line below a sheet's says otherwise what was set or read, and does not only remark on it.
func (sh *sheet) wasAmended() bool {
	return slices.ContainsFunc(sh.amends, func(st *lang.Statement) bool { return st.Word == lang.Amend || !onlyRemarks(st) })
}

// copiesAmended is the sheet that a sheet copies and that an amendment below the copy changed, nil where there is none.
func (sh *sheet) copiesAmended() *sheet {
	from := sh.sameAs
	for from != nil && len(from.amended) == 0 {
		from = from.sameAs
	}
	if from == nil || !slices.ContainsFunc(from.amends, func(st *lang.Statement) bool { return st.Span.File == sh.at.File && st.Span.Start > sh.at.Start }) {
		return nil
	}
	return from
}

// asLogged is a copy as it was before what it copies was amended: the writer saw that, and no other.
func (sh *sheet) asLogged() []another {
	from := sh.copiesAmended()
	if from == nil {
		return nil
	}
	was := from.amended[0]
	return []another{{fmt.Sprintf("whether it is as %s was logged, or as line %d amends it", from.label, placeOf(from.amends[0].Span).Line), func(at *sheet) {
		if at.aperture.copied {
			at.aperture = was.aperture
		}
		if at.time.copied {
			at.time = was.time
		}
		if at.reading == from.reading {
			at.reading = was.reading
		}
		if slices.Equal(at.filters, from.filters) {
			at.filters = was.filters
		}
		if at.extension == from.extension {
			at.extension = was.extension
		}
	}}}
}

// inWords reports whether a line has words that are no remark: Y8 was not on; 1/15 should be 1/8.
func inWords(st *lang.Statement) bool {
	return strings.Contains(strings.ToLower(st.Body.Text()), " should ") || slices.ContainsFunc(st.Terms(), func(t lang.Term) bool {
		_, loose := t.Kind.(*lang.Loose)
		return loose && !t.Struck
	})
}

// amendedReading is a reading with the areas that a line reads anew: what it says nothing of, the
// zone and the other areas, stays.
func amendedReading(was, now *reading, st *lang.Statement) *reading {
	merged := *now
	merged.areas = slices.Clone(was.areas)
	for _, a := range now.areas {
		at := slices.IndexFunc(was.areas, func(old area) bool { return a.name != "" && strings.EqualFold(old.name, a.name) })
		if at < 0 && a.name == "" && len(was.areas) == 1 {
			at = 0
		}
		if at < 0 && a.name == "" {
			at = slices.IndexFunc(was.areas, func(old area) bool { return old.asEV && names(st, old.ev) })
		}
		if at < 0 {
			return now // of other areas: another reading
		}
		if a.name == "" {
			a.name = was.areas[at].name
		}
		if !a.placed {
			a.placed, a.zone = was.areas[at].placed, was.areas[at].zone
		}
		merged.areas[at] = a
	}
	merged.kind, merged.through, merged.maybeThrough, merged.maybeDrawn, merged.maybePlaced = was.kind, was.through, was.maybeThrough, was.maybeDrawn, was.maybePlaced
	if merged.ei == 0 {
		merged.ei, merged.eiAt, merged.eiMeters = was.ei, was.eiAt, was.eiMeters
	}
	return &merged
}

// names reports whether a light value stands on a line: EV 8 not EV 9 names both.
func names(st *lang.Statement, ev float64) bool {
	return slices.ContainsFunc(st.Terms(), func(t lang.Term) bool {
		k, ok := t.Kind.(*lang.Exposure)
		return ok && k.EV != nil && float64(*k.EV) == ev
	})
}

// contradicts reports an amendment that corrects what its sheet's lines do not say: 1/30
// not 1/60, where the sheet had 1/8. It may be meant for another sheet, so that nothing of
// it is put over this one, and this one is not checked.
func (r *resolver) contradicts(sh *sheet, st *lang.Statement) bool {
	for i := 0; i+1 < len(st.Terms()); i++ {
		if no, ok := st.Terms()[i].Kind.(*lang.Withdraw); !ok || !no.After {
			continue
		}
		corrected := &st.Terms()[i+1]
		lacks := (*resolver).lacks
		if _, filters := corrected.Kind.(*lang.Stack); !filters && readsBefore(st.Terms()[:i]) {
			lacks = (*resolver).otherReading
		}
		was, said := lacks(r, sh, corrected)
		if !said || slices.ContainsFunc(sh.amended, func(before *sheet) bool { _, lacked := lacks(r, before, corrected); return !lacked }) {
			continue
		}
		r.report("amends-what-is-not-there", corrected.Span, sh.label+" had "+was+", and not "+corrected.Span.Text(), sh).
			note("logged here", sh.at).
			note("nothing of this line is put over the sheet, and the sheet is not checked; another sheet may be meant, whose day can stand before its label")
		if sh.unclear == "" {
			sh.unclear = "whether the amendment in " + place(st.Span) + " is about this sheet"
		}
		return true
	}
	return false
}

// readsBefore reports whether what follows terms is of the reading: the last word before it that tells read from given
// is one for reading, or the meter's index.
func readsBefore(before []lang.Term) (reading bool) {
	for i := range before {
		switch k := before[i].Kind.(type) {
		case *lang.Cue:
			reading = k.Word != "gave" && k.Word != "corrected"
		case *lang.MeterEI:
			reading = true
		}
	}
	return reading
}

// lacks reports that a sheet has another setting, or other filters, than a term says, and
// which. What it has none of, or of what it is open which one stands, it may have had
// without a word.
func (r *resolver) lacks(sh *sheet, term *lang.Term) (has string, lacks bool) {
	switch k := term.Kind.(type) {
	case *lang.Exposure:
		if k.EV != nil || k.Zone != nil {
			return r.otherReading(sh, term)
		}
		for _, part := range k.Parts {
			switch {
			case part.Aperture != nil && sh.aperture.known && sh.unclearOf != "aperture" && *part.Aperture != sh.aperture.v:
				return apertureText(sh.aperture.v), true
			case part.Time != nil && sh.time.known && sh.unclearOf != "time" && !oneTime(*part.Time, sh.time.v):
				return givenTime(sh.time.v), true
			}
		}
	case *lang.Placed, *lang.MeterEI:
		return r.otherReading(sh, term)
	case *lang.FilmEI:
		if ei := r.rated(sh); sh.film.known && ei != 0 && ei != float64(k.EI) {
			return "EI " + trim(ei), true
		}
	case *lang.Stack:
		return r.otherFilters(sh, k)
	case *lang.Choose:
		return r.otherThing(sh, k)
	case *lang.N:
		if sh.wanted.known && sh.wanted.v != float64(k.Stops) {
			return nText(sh.wanted.v), true
		}
	case *lang.Bracket:
		if sh.bracket.known && sh.bracket.v != float64(k.Stops) {
			return "bracket " + exposure.FormatStops(sh.bracket.v), true
		}
	case *lang.Extension:
		if sh.extension.known && sh.extension.v != float64(k.MM) {
			return "ext " + trim(sh.extension.v) + " mm", true
		}
	case *lang.Magnification:
		if sh.scale.known && sh.scale.v != float64(k.M) {
			return sh.scale.at.Text(), true
		}
	case *lang.State:
		if len(sh.states) > 0 && !slices.Contains(sh.states, k.Word) {
			return strings.Join(sh.states, ", "), true
		}
	}
	return "", false
}

// otherReading reports that no area of a sheet's reading is as a term says: its light value, its settings, its zone.
func (r *resolver) otherReading(sh *sheet, term *lang.Term) (has string, lacks bool) {
	rd := sh.reading
	if rd == nil || rd.open != "" || len(rd.areas) == 0 {
		return "", false
	}
	differs := func(a *area) bool { return false }
	metered := func(ei float64) { differs = func(*area) bool { return rd.ei != 0 && rd.ei != ei } }
	switch k := term.Kind.(type) {
	case *lang.MeterEI:
		metered(float64(k.EI))
	case *lang.FilmEI: // metered at EI 200 not EI 100
		metered(float64(k.EI))
	case *lang.Placed:
		differs = func(a *area) bool { return a.placed && a.zone != float64(k.Zone) }
	case *lang.Exposure:
		differs = func(a *area) bool {
			if k.Zone != nil && a.placed && a.zone != float64(*k.Zone) || k.EV != nil && a.asEV && a.ev != float64(*k.EV) {
				return true
			}
			return slices.ContainsFunc(k.Parts, func(part lang.Setting) bool {
				return part.Aperture != nil && a.hasAv && *part.Aperture != a.aperture ||
					part.Time != nil && a.hasTime && !oneTime(*part.Time, lang.Time{Parts: []lang.Seconds{a.time}})
			})
		}
	}
	for i := range rd.areas {
		if !differs(&rd.areas[i]) {
			return "", false
		}
	}
	if rd.ei != 0 && !liesIn(rd.eiAt, rd.at) {
		return rd.at.Text() + " at EI " + trim(rd.ei), true
	}
	return rd.at.Text(), true
}

// otherFilters reports that a sheet has filters, and one that is named is none of them.
func (r *resolver) otherFilters(sh *sheet, named *lang.Stack) (has string, lacks bool) {
	var on []string
	for _, u := range sh.filters {
		on = append(on, u.name)
	}
	if len(on) == 0 || sh.vague != "" {
		return "", false
	}
	kit := r.book.kit
	for _, f := range named.Filters {
		if !slices.ContainsFunc(on, func(name string) bool { return kit.oneFilter(name, f.Name) || kit.oneFilter(f.Name, name) }) {
			return strings.Join(on, " + "), true
		}
	}
	return "", false
}

// otherThing reports that a sheet has another lens or film than is named.
func (r *resolver) otherThing(sh *sheet, named *lang.Choose) (has string, lacks bool) {
	switch what, name, _ := strings.Cut(named.Text, " "); what {
	case "lens":
		if l, ok := r.book.kit.lens(name); ok && sh.lens.known && sh.lens.v != l {
			return "lens " + sh.lens.v.name, true
		}
	case "film":
		if f, ok := find(r.book.kit.films, name); ok && sh.film.known && sh.film.v != f {
			return "film " + sh.film.v.name, true
		}
	}
	return "", false
}

// oneTime reports whether two times are one, however written: ½ and 0.5s.
func oneTime(a, b lang.Time) bool {
	x, okX := exposures(a)
	y, okY := exposures(b)
	if !okX || !okY {
		return givenTime(a) == givenTime(b)
	}
	return slices.Equal(x, y)
}
