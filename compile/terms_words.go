package compile

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// The loose words of a line: most are a remark, and some tell of the sheet.

// byAnother takes the meter that was chosen off the line's readings, which are by another that
// is not declared: EV 3 from the phone.
func (t *reader) byAnother(words []string) {
	rd := t.sheet.reading
	if slices.ContainsFunc(words, func(word string) bool { _, ok := find(t.book.kit.meters, word); return ok }) {
		return
	}
	for i := range rd.areas {
		if rd.areas[i].by == t.now.meter {
			rd.areas[i].by = nil
		}
	}
	if rd.eiMeters {
		rd.ei, rd.eiMeters = 0, false
	}
}

// meterAlone is a meter of the kit that words name and say nothing else, but that it was read by it: spot, by the spot.
// nil for none.
func (k *kit) meterAlone(words []string) *meter {
	for len(words) > 1 && byWords[strings.ToLower(words[0])] {
		words = words[1:]
	}
	m, _ := find(k.meters, strings.Join(words, " "))
	return m
}

// readBy takes the meter that words behind a reading of the line name for the one that showed it, and reports whether they
// name one: EV 3, dslr; EV 12 (spot).
func (t *reader) readBy(words []string, at source.Span) bool {
	m := t.book.kit.meterAlone(words)
	if m == nil || !t.ownReading || len(t.sheet.reading.areas) == 0 {
		return false
	}
	rd := t.sheet.reading
	rd.areas[len(rd.areas)-1].by = m
	rd.atMeters(at)
	return true
}

// loose words are a remark; "as metered" and "gave that" take the reading.
func (t *reader) loose(k *lang.Loose, term *lang.Term, all []*lang.Term, i int) {
	words := strings.ToLower(strings.Join(k.Words, " "))
	if term.Aside {
		t.sheet.aside = term.Span.Text()
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
		return
	}
	if lengthenedTo(all, i) != nil || numberOfEach(all, i) > 0 {
		t.sheet.remarks = append(t.sheet.remarks, undashed(term.Span.Text()))
		return // it is in the time
	}
	if k, ok := before(all, i).(*lang.Exposure); ok && len(timesOf(k)) > 0 && (strings.HasPrefix(words, "+") || strings.HasPrefix(words, "plus ")) && lengthens().MatchString(words) && t.sheet.unclear == "" && !t.metering {
		t.sheet.remarks = append(t.sheet.remarks, undashed(term.Span.Text()))
		t.sheet.leaveOpen("time", "the time that "+quote(all[i-1].Span.Cover(term.Span).Text())+" comes to: it is written 60s + reciprocity = 4m")
		return
	}
	if ratioAlone().MatchString(words) { // ash 1:31 may be minutes and seconds as well
		t.sheet.aside = term.Span.Text()
	}
	t.relabelled(words, term.Span)
	if unitAlone[words] && i > 0 && t.sheet.unclear == "" {
		switch all[i-1].Kind.(type) {
		case *lang.Exposure, *lang.Amount, *lang.Stack, *lang.N, *lang.FilmEI, *lang.Placed, *lang.Extension:
			t.sheet.unclear = "what " + quote(all[i-1].Span.Cover(term.Span).Text()) + " is" // EV 8.2 s
		}
	}
	if n := beforeCommas(all, i); n >= 0 && n < i-1 && len(k.Words) == 1 && lang.UnitOfTime(k.Words[0]) && len(timesOf(all[n].Kind)) > 0 {
		t.sheet.aside = evenly(all[n].Span.Cover(term.Span).Text()) // 1/2   Std.
	}
	if ext := lang.OnRail(k.Words[0]); ext != "" && len(k.Words) == 1 {
		t.sheet.leaveOpen("", "whether "+quote(k.Words[0])+" says how far the bellows were out, which is written "+ext)
	}
	if t.thing(k, term) || t.ofFilters(k.Words, term, all, i) {
		return
	}
	if t.readBy(k.Words, term.Span) {
	} else if words := lowered(k.Words); t.ownReading && t.now.meter != nil && t.by == nil && says(words, byWords) && says(words, things) {
		t.byAnother(words)
	}
	if _, same := after(all, i).(*lang.Same); t.gave && !same && only(k.Words, asIs) {
		t.asMetered(term)
		return
	}
	if cue, ok := after(all, i).(*lang.Cue); ok && leadsToAs(k.Words) && cue.Word == "metered" {
		t.asMetered(term)
		return
	}
	if term.Sic && strings.ContainsAny(words, "0123456789") && t.sheet.unclear == "" {
		t.sheet.unclear = "what " + quote(words) + " stands for, copied as it was written" // and no setting of another sheet is put there
	}
	if namesScan(k.Words) && !t.metering {
		t.scanned(k.Words[1], term.Span)
		return
	}
	if rd := t.sheet.reading; rd != nil && t.ownReading && rd.open == "" {
		switch {
		case rd.kind == "sunny 16" && shadedSun().MatchString(words):
			rd.open = "what sunny 16 comes to in " + quote(words)
		case zoneUnheard(strings.Join(k.Words, " ")):
			rd.open, rd.half = "which zone "+quote(strings.Join(k.Words, " "))+" is", true
		case t.metering && (shifted().MatchString(words) || endsOnZone(k.Words)):
			rd.open = "whether the reading stands where it is, or " + quote(strings.Join(k.Words, " "))
		}
	}
	if t.metering || t.inReading && !t.gave {
		t.mayStandAt(k.Words)
	}
	if t.metering && len(k.Words) == 1 && illuminances[words] {
		t.luminous(term)
	}
	if addsToTime(all, i, k.Words) && t.sheet.unclear == "" {
		t.sheet.leaveOpen("time", "what "+quote(strings.Join(k.Words, " "))+" adds to the time")
	}
	if _, meter := after(all, i).(*lang.Cue); unmeasured(words) || meter && unmeasured(words+" meter") {
		t.sheet.unlit = term.Span.Text() // no flash meter
	}
	if term != t.open.told && t.open.coveredFor == "" && (coversLens(words) || interrupts(words)) && !timeFollows(all, i) {
		t.open.coveredFor = words
	}
	if often := strings.TrimPrefix(words, "exposed "); manyTimes[often] || numberOfTimes().MatchString(often) {
		t.sheet.unclear = "how much light it got by " + quote(words)
	}
	if k, ok := before(all, i).(*lang.Exposure); ok && words == "exposures" && len(k.Name) > 0 && len(timesOf(k)) > 0 && t.sheet.unclear == "" {
		t.sheet.leaveOpen("time", "how much light it got by "+quote(all[i-1].Span.Cover(term.Span).Text())+": it is written 4 x 10s")
	}
	if several[lastWord(words)] || len(k.Words) > 1 && several[strings.ToLower(k.Words[0])] || strings.Contains(words, "exposures") {
		t.sheet.vague = term.Span.Text()
	}
	if racked(k.Words) {
		t.sheet.racked = term.Span.Text()
	}
	if connective[words] {
		return
	}
	if words == "lost" || words == "sheet lost" || words == "negative lost" {
		t.sheet.losses = append(t.sheet.losses, "gone")
	}
	if sentence, _, _ := strings.Cut(words, ". "); unexposed[strings.TrimRight(sentence, ".")] && (t.gotAv.File == nil || t.gotTime.File == nil) {
		t.sheet.states = append(t.sheet.states, "unused")
	}
	whole := term.Span
	if beforeThing(before(all, i), k) != "" {
		whole = all[i-1].Span.Cover(whole) // Red door, where a filter red is declared
	}
	t.sheet.remarks = append(t.sheet.remarks, undashed(whole.Text()))
}

// zoneUnheard reports whether words place something on a zone and no number that a zone has follows: on zone for.
func zoneUnheard(said string) bool {
	return slices.ContainsFunc(zonesIn(said), func(k zoneNamed) bool { return len(k.zones) == 0 })
}

// endsOnZone reports whether words behind a reading are a zone, or end on one: III, shadow III, = III, zone for, on a seven.
func endsOnZone(words []string) bool {
	const most = 3
	if len(words) == 1 && inSigns(words[0]) {
		return true
	}
	said := strings.Join(words, " ")
	all := zonesIn(said)
	if len(all) == 0 {
		return false
	}
	last := all[len(all)-1]
	before := wordsIn(said[:last.from])
	return last.to == len(strings.TrimRight(said, `.,;:!*")' `)) && (last.sure >= zonePlaced ||
		len(words) <= most && (len(before) == 0 || strings.IndexFunc(lastWord(strings.TrimSpace(said[:last.from])), unicode.IsUpper) < 0)) // Henry VIII
}

// relabelled leaves a sheet open whose line says that another label was meant: oops that was 3B.
func (t *reader) relabelled(words string, at source.Span) {
	if t.metering || t.amending || t.sheet.unclear != "" || !maySide(words) {
		return
	}
	label, _ := lang.Corrects(words, t.names)
	if label == "" || strings.EqualFold(label, t.sheet.label) {
		return
	}
	label = strings.ToUpper(label)
	t.sheet.mislabelled = true
	t.sheet.unclear = "which sheet this is, " + t.sheet.label + " or " + label
	t.report("correction-not-read", at, "this puts another label in the place of "+t.sheet.label+" and is not read", t.real()...).
		note("a label is put right where it stands: " + label + " before the colon")
}

// maySide reports at a glance whether words may name a side of a holder: 3B, #3, 3'.
func maySide(words string) bool {
	for i := range len(words) {
		if c := words[i]; c == '#' || i > 0 && '0' <= words[i-1] && words[i-1] <= '9' && (c|0x20 == 'a' || c|0x20 == 'b' || c == '\'' || c >= utf8.RuneSelf) {
			return true
		}
	}
	return false
}

// illuminances are units of what falls on a thing, which no light value is.
var illuminances = lang.SetOf("lux lx fc footcandle footcandles foot-candle foot-candles ft-candles")

// luminous leaves a reading open that is in lux or footcandles, and says how it is written.
func (t *reader) luminous(term *lang.Term) {
	if rd := t.sheet.reading; rd != nil && rd.open == "" && t.ownReading {
		rd.open = "what light value " + rd.at.Cover(term.Span).Text() + " comes to"
		t.report("unknown-term", term.Span, quote(term.Span.Text())+" is no light value").
			note("a reading is written as EV or as settings: EV 5, 8s f5.6")
	}
}

// addsToTime reports a number in words behind a time and an "and": an hour and forty.
func addsToTime(all []*lang.Term, i int, words []string) bool {
	k, ok := before(all, i).(*lang.Exposure)
	return ok && len(timesOf(k)) > 0 && len(words) > 1 && strings.EqualFold(words[0], "and") && numberInWords[strings.ToLower(words[1])]
}

var numberInWords = lang.SetOf("a half quarter five ten fifteen twenty thirty forty fifty")

// unsure is what a sheet's words say of a value that may be another, "" for nothing: probably
// 1/30, not sure about the time, (1/15?).
func (sh *sheet) unsure() string {
	for _, remark := range sh.remarks {
		if notSure().MatchString(strings.ToLower(remark)) {
			return remark
		}
	}
	return ""
}

// notSure are words of doubt about a value, and a figure with the mark of one (common practice,
// no source).
var notSure = pattern.Lazily(`^(?:probably|maybe|perhaps|possibly|presumably|roughly|i think|i guess)$|\b(?:not|isn't|isn’t|am not|wasn't) (?:quite |really |so )?sure\b|\bunsure\b|\b(?:can't|can’t|cannot|don't|don’t|do not) (?:quite )?(?:remember|recall)\b|\b(?:probably|maybe|perhaps|possibly|i think|i guess) (?:f/?\d|1/\d|\d+ ?s\b|ev \d)|\d ?\?`)

// several are words that make more of a time, or say that it was given more than once.
var several = lang.SetOf("twice thrice doubled tripled quadrupled halved")

// lastWord is the last of a text's words.
func lastWord(words string) string {
	return words[strings.LastIndexByte(words, ' ')+1:]
}

// wordsOf are the words that a term is, or that stand before its setting; nil where there are none.
func wordsOf(kind any) []string {
	switch k := kind.(type) {
	case *lang.Loose:
		return k.Words
	case *lang.Exposure:
		return k.Name
	}
	return nil
}

// saidIn is what a term says in words: those that it is, or that stand before its setting, or a remark; "" for none.
func saidIn(kind any) string {
	if k, remark := kind.(*lang.Remark); remark {
		return k.Text
	}
	return strings.Join(wordsOf(kind), " ")
}

// undashed is a remark without the dash before it; a minus right before a figure is its own.
func undashed(text string) string {
	trimmed := strings.TrimLeft(text, "-–—− ")
	if sign := text[:len(text)-len(trimmed)]; trimmed != "" && trimmed[0] >= '0' && trimmed[0] <= '9' && sign != "" && !strings.HasSuffix(sign, " ") {
		return sign[strings.LastIndex(sign, " ")+1:] + trimmed
	}
	return trimmed
}

// timeFollows reports whether a time stands right behind a term.
func timeFollows(all []*lang.Term, i int) bool {
	if _, hours := after(all, i).(*lang.Clock); hours {
		return true
	}
	k, ok := after(all, i).(*lang.Exposure)
	return ok && len(k.Name) == 0 && len(k.Parts) == 1 && k.Parts[0].Time != nil
}

// connective are words between terms that say nothing by themselves.
var connective = map[string]bool{
	"but": true, "and": true, "with": true, "so": true, "then": true, "at": true, "for": true, "on": true, "the": true, "a": true, "-": true, ".": true,
	"w": true, "w/": true, "n": true,
}

// unexposed are words that say that no light came to the film.
var unexposed = map[string]bool{
	"not exposed": true, "unexposed": true, "never exposed": true, "not used": true, "blank": true, "void": true, "no exposure": true,
}

// racked reports words that speak of the bellows and do not say that nothing
// was done about them: "double extension", "bellows out a hand's width".
func racked(words []string) bool {
	speaks := false
	for _, word := range words {
		switch word = plain(word); word {
		case "bellows", "bel", "extension", "ext", "extended", "racked", "auszug", "balgenauszug", "tirage":
			speaks = true
		case "forgot", "forgotten", "forget", "no", "not", "without", "never", "none", "missed", "ignored", "normal", "infinity", "checked",
			"tube", "hole", "pinhole", "leak", "leaking", "creased", "sagged", "sagging":
			return false
		}
		if onScale().MatchString(word) {
			return true
		}
	}
	return speaks && len(words) > 1
}

// onScale is a length behind the letter for the extension: e300.
var onScale = pattern.Lazily(`^e=?[1-9][0-9]{2}$`)

// plain is a word in lower case, without the marks around it.
func plain(word string) string { return strings.ToLower(strings.Trim(word, ".,;:!")) }

// ratioAlone is a ratio at the end of words that has the shape of a time too.
var ratioAlone = pattern.Lazily(`(?:^| )1:[0-5][0-9]$`)

// unitAlone are the units of a time, by themselves behind a value that is none.
var unitAlone = lang.SetOf("s sec secs min mins")

// says reports whether one of some words is in a set.
func says(words []string, set map[string]bool) bool {
	return slices.ContainsFunc(words, func(w string) bool { return set[w] })
}

// only reports whether each of some words is in one of some sets.
func only(words []string, sets ...map[string]bool) bool {
	return !slices.ContainsFunc(words, func(w string) bool {
		return !slices.ContainsFunc(sets, func(set map[string]bool) bool { return set[w] })
	})
}
