package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
)

// What a line of several sheets says of one of them, or some: second +1; third no filter.

// ofThisSheet is what a line says of the sheet that is read.
func (t *reader) ofThisSheet() []lang.Term {
	all, open, strange := ofOneSheet(t.book.kit, t.st, t.nth, t.of)
	switch {
	case strange != "":
		t.sheet.unclear = "what " + strange + " is"
		t.sheet.remarks = append(t.sheet.remarks, strange)
	case open != "":
		t.sheet.leaveOpen("", "which of its line's sheets "+quote(open)+" is said of")
	case t.of > 1:
		if said := t.saidByLabel(); said != "" {
			t.sheet.leaveOpen("", "what "+quote(said)+" says: on their own line sheets are called first, second, last")
		}
	}
	return all
}

// saidByLabel are words of a line of several sheets that say something of one by its label, which is read at the head of a line
// alone: 1A 1B: 1/60 f16, 1B unused.
func (t *reader) saidByLabel() string {
	all := t.st.Terms()
	for i := range all {
		words := wordsOf(all[i].Kind)
		if len(words) == 0 || all[i].Aside || !slices.ContainsFunc(t.st.Labels, func(l lang.Label) bool { return strings.EqualFold(l.Text, strings.Trim(words[0], ".,;:")) }) {
			continue
		}
		if i+1 < len(all) && !endsPhrase(&all[i+1]) {
			return all[i].Span.Cover(all[i+1].Span).Text()
		}
		if slices.ContainsFunc(lang.Within(strings.Join(words[1:], " "), t.names), func(term lang.Term) bool { return saidIn(term.Kind) == "" }) {
			return all[i].Span.Text()
		}
	}
	return ""
}

// ownTerms is what a sheet's line says of it.
func (sh *sheet) ownTerms() []lang.Term {
	st := sh.lines[0]
	all, _, _ := ofOneSheet(kitOf(sh), st, placeOn(st, sh), len(st.Labels))
	return all
}

// placeOn is a sheet's place on a line, from 1.
func placeOn(st *lang.Statement, sh *sheet) int {
	return 1 + slices.IndexFunc(st.Labels, func(l lang.Label) bool { return strings.EqualFold(l.Text, sh.label) })
}

// ofOneSheet is what a line says of one of its sheets, by its place among so many: what it says of all, but where it
// says otherwise of this one, and behind it what it says of this one. It is open by words that may be said of
// another, and strange by those that are said of one that it has not.
func ofOneSheet(kit *kit, st *lang.Statement, nth, of int) (own []lang.Term, open, strange string) {
	all := st.Terms()
	leads := func(i int) bool { // and not to the name of a thing: Second Yellow House
		_, nth := all[i].Kind.(*lang.Nth)
		return nth && !all[i].Struck && !kit.leadsThing(all[i:])
	}
	var every []lang.Term
	for n := 0; ; {
		for n < len(all) && !leads(n) {
			n++
		}
		if n == len(all) && every == nil && own == nil && open == "" && strange == "" {
			return all, "", "" // as nearly all
		}
		every, all = append(every, all[:n]...), all[n:]
		if n = 0; len(all) == 0 {
			break
		}
		end := 1
		for end < len(all) && !leads(end) && !endsPhrase(&all[end]) {
			end++
		}
		places, phrase := all[0].Kind.(*lang.Nth).Sheets, all[1:end]
		said := all[0].Span.Cover(all[end-1].Span).Text()
		switch {
		case of <= 1 && !slices.ContainsFunc(phrase, func(term lang.Term) bool { return setsOrChanges(term.Kind) }):
			every = append(every, phrase...) // the second exposure
		case of <= 1 && st.Word == lang.Sheet:
			strange = said
		case !slices.Contains(places.Of, nth) && !slices.Contains(places.Of, nth-of-1): // -1 is the last
		case places.Either, slices.ContainsFunc(phrase, func(term lang.Term) bool { k, no := term.Kind.(*lang.Withdraw); return no && k.After }):
			open = said
		default:
			own = append(append(own, lang.Term{Kind: &lang.Comma{}, Span: all[0].Span}), phrase...)
		}
		all = all[end:]
	}
	return append(overruled(every, own), own...), open, strange
}

// endsPhrase reports whether what is said of one sheet ends before a term.
func endsPhrase(term *lang.Term) bool {
	switch term.Kind.(type) {
	case *lang.Comma, *lang.Remark:
		return true
	}
	return false
}

// setsOrChanges reports whether a term sets something, or is more or less on purpose.
func setsOrChanges(kind any) bool {
	switch kind.(type) {
	case *lang.State, *lang.Loose, *lang.Comma, *lang.Hold:
		return false
	}
	return true
}

// overruled is what a line says of all its sheets without that of which it says otherwise of one: another setting,
// another filter or development, or that it was not used.
func overruled(every, own []lang.Term) []lang.Term {
	out := func(same func(*lang.Term) bool) {
		every = slices.DeleteFunc(every, func(term lang.Term) bool { return same(&term) })
	}
	for i := range own {
		switch k := own[i].Kind.(type) {
		case *lang.Stack:
			if !k.Add {
				out(func(term *lang.Term) bool { _, filters := term.Kind.(*lang.Stack); return filters })
			}
		case *lang.N:
			out(func(term *lang.Term) bool { _, n := term.Kind.(*lang.N); return n })
		case *lang.Bracket, *lang.Amount:
			out(func(term *lang.Term) bool { _, on := term.Kind.(*lang.Bracket); return on })
		case *lang.Extension, *lang.Magnification:
			out(func(term *lang.Term) bool { return isDraw(term.Kind, true) })
		case *lang.State:
			if k.Word == "unused" {
				out(func(term *lang.Term) bool { s, sets := term.Kind.(*lang.Exposure); return sets && isPlain(s) })
			}
		case *lang.Exposure:
			if !isPlain(k) {
				continue
			}
			every = withoutSettings(every, &own[i])
		}
	}
	return every
}

// isPlain reports whether an exposure is an aperture or a time and no reading by its form.
func isPlain(k *lang.Exposure) bool { return k.EV == nil && k.Zone == nil }

// withoutSettings is what a line says without the settings of which another term gives others.
func withoutSettings(every []lang.Term, now *lang.Term) []lang.Term {
	sets := now.Kind.(*lang.Exposure)
	kept := every[:0:0]
	for i := range every {
		k, exposure := every[i].Kind.(*lang.Exposure)
		cue, read := (*lang.Cue)(nil), false
		if i > 0 {
			cue, read = every[i-1].Kind.(*lang.Cue)
		}
		if !exposure || !isPlain(k) || read && cue.Word != "gave" {
			kept = append(kept, every[i])
			continue
		}
		half := *k
		half.Parts = slices.DeleteFunc(slices.Clone(k.Parts), func(part lang.Setting) bool {
			return slices.ContainsFunc(sets.Parts, func(s lang.Setting) bool { return (s.Aperture != nil) == (part.Aperture != nil) })
		})
		if len(half.Parts) > 0 {
			term := every[i]
			term.Kind = &half
			kept = append(kept, term)
		}
	}
	return kept
}
