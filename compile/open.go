package compile

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	"gonum.org/v1/gonum/floats"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// How long the shutter was open, as a sheet's line tells it: a time, or the hours of a
// clock, less the time for which the lens was covered. Times that passed beside the
// exposure (waited 10 min, torch 20s) are told from it by the words around them.

// opening is what a line says of how long the shutter was open, besides a plain time.
type opening struct {
	stretches  []lang.Seconds // between hours of the clock
	began      []float64      // when each began, in minutes from midnight
	at         source.Span    // of the first hours
	unsure     string         // what is not sure of the hours
	from, to   string         // hours that stand alone, as yet
	covered    float64        // seconds for which the lens was covered
	coveredFor string         // words that say that it was covered and not surely for how long
	beside     string         // a time that passed beside the exposure
	named      bool           // the time that counts stands behind words of the writer's own
	told       *lang.Term     // words that were read with the time before them
	also       float64        // seconds that a sum or a bracket beside them gives
	alsoAt     source.Span    // as typed
	alsoHours  bool           // by hours of the clock
}

// role is what a time is by the words beside it.
type role int8

const (
	given   role = iota // nothing speaks against it
	perhaps             // it passed beside the exposure, if the line has another time
	waited              // it passed while nothing was exposed
	lit                 // it is that of a lamp, or of the sky
	covered             // the lens was covered for it
	uncover             // the lens was covered, and the time does not say how long
)

// The words are those of notes read for this (common practice, no source).
var (
	waits      = lang.SetOf("waited waiting wait waits")
	lamps      = lang.SetOf("torch torches torchlight flashlight headtorch headlamp lamp lantern flash strobe hidden")
	sky        = lang.SetOf("cloud clouds moon dew mist fog rain wind gust gusts car cars train plane planes lorry boat headlights clouded")
	beforeTime = lang.SetOf("after within every took another lost from until till since")
	agone      = lang.SetOf("later ago earlier")
	behindTime = lang.SetOf("after before wait apart between in on into")
	deducts    = lang.SetOf("minus less - – — − --")
	coverings  = lang.SetOf(lang.Covered + " covering paused pause interrupted interruption")
	notLasting = lang.SetOf("from until till to after at between since before")
	repeated   = lang.SetOf("every each per times twice")

	anyCovered  = strings.ReplaceAll(lang.Covered, " ", "|")
	lensCovered = pattern.Lazily(`\b(?:lens|shutter)\b[^.;]{0,24}\b(?:` + anyCovered + `)\b` +
		`|\b(?:` + anyCovered + `|capping|covering)\b[^.;]{0,16}\b(?:lens|shutter)\b` +
		`|\b(?:hat|cap|cloth|card|cardboard|hand|hands|glove|coat|jacket|scarf|darkslide|slide|book)\b[^.;]{0,12}\b(?:over|across|before|on|in front of) (?:the |my )?(?:lens|shutter)\b` +
		`|\blens cap on$|^cap on$`)
)

// coversLens reports whether words, in lower case, say that the lens was covered.
func coversLens(words string) bool { return lensCovered().MatchString(words) }

// interrupts reports whether words, in lower case, say that the exposure was broken off for a
// while, and not for how long: covered for cars. A covered bridge is a subject.
func interrupts(words string) bool { return whileCovered().MatchString(words) }

var whileCovered = pattern.Lazily(`^(?:covered|capped|shielded|masked|paused|interrupted)(?: (?:it )?(?:for|while|when|whenever|as|during|once|twice|each|every|until|till|a few times|several times)\b|$)`)

// roleOf is what a time is by the words before it and those behind, up to the commas.
func roleOf(before []string, behind string) role {
	low := make([]string, len(before))
	for i, word := range before {
		low[i] = strings.ToLower(strings.Trim(word, ".:"))
	}
	after := strings.Fields(strings.ToLower(behind))
	last, next := "", ""
	if len(low) > 0 {
		last = low[len(low)-1]
	}
	if len(after) > 0 {
		next = strings.Trim(after[0], ".")
	}
	switch {
	case deducts[last] && (isSign(last) && next != "" && next != "for" || ways[next]):
		return perhaps // - 3m drop: of the ground
	case deducts[last], coversLens(strings.Join(low, " ")), coversLens(strings.ToLower(behind)):
		if notLasting[last] || says(after, repeated) || says(low, repeated) {
			return uncover
		}
		return covered
	case coverings[last], coverings[next]:
		switch {
		case notLasting[last], says(after, repeated), says(low, repeated):
			return uncover
		case len(low) > 1 && coverings[last], ways[next], notLasting[next]:
			return perhaps // path covered 5m up, pause 5 min between sheets
		}
		return covered
	case says(low, coverings):
		if says(low, repeated) || says(after, repeated) {
			return uncover // capped three times 2 min
		}
		return perhaps
	case says(low, waits), agone[next]:
		return waited
	case says(low, lamps), lamps[next]:
		return lit
	case says(low, sky), beforeTime[last], behindTime[next], says(after, sky):
		return perhaps
	}
	return given
}

// ways are words behind metres, which are written as minutes are, and behind walks.
var ways = lang.SetOf("up down wide left right high deep long away drop walk off from to back below above")

// isSign reports a dash that stands for minus, or for none.
func isSign(word string) bool { return word != "" && strings.Trim(word, "-–—−") == "" }

// passes reports whether words speak of a time that passed beside the exposure.
func passes(words []string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		word = strings.ToLower(strings.Trim(word, ".,"))
		return waits[word] || agone[word] || lamps[word] || word == "before" || word == "after"
	})
}

// besides takes a time that is not the exposure's, by the words around it.
func (t *reader) besides(k *lang.Exposure, term *lang.Term, all []*lang.Term, i int) bool {
	if len(k.Parts) != 1 || k.Parts[0].Time == nil {
		return false
	}
	behind, words := "", (*lang.Term)(nil)
	if loose, ok := after(all, i).(*lang.Loose); ok {
		behind, words = strings.Join(loose.Words, " "), all[i+1]
	}
	name := k.Name
	if loose, ok := before(all, i).(*lang.Loose); ok && len(name) == 0 {
		name = loose.Words // lens capped about 3 min
	}
	how := roleOf(name, behind)
	if how == given && says(lowered(strings.Fields(behind)), coverings) && t.otherTime(all, i) {
		how = uncover // 6 min of it capped
	}
	if how == covered && interrupts(strings.ToLower(behind)) && !t.otherTime(all, i) {
		return false // 12m covered for cars
	}
	if how == given && inMetres().MatchString(term.Span.Text()) && (t.flashes() || ways[firstOf(lowered(strings.Fields(behind)))]) {
		how = lit // flash, 2.5 m: how far off
	}
	switch how {
	case given:
		return false
	case perhaps:
		if !t.otherTime(all, i) {
			return false
		}
	case lit:
		t.open.beside = term.Span.Text()
		if said := strings.TrimSpace(term.Span.Text() + " " + behind); unmeasured(strings.ToLower(said)) {
			t.sheet.unlit = said
		}
	case covered:
		each, ok := exposures(*k.Parts[0].Time)
		open, _ := secondsOf(lang.Time{Parts: t.open.stretches})
		if sum := floats.Sum(each); len(name) > 0 && isSign(name[len(name)-1]) && open > 0 && sum >= open/math.Exp2(asOneTime) {
			t.open.also, t.open.alsoAt = sum, term.Span // 21:14-21:18 -- 4 min: what it comes to
			break
		}
		if !ok {
			t.open.coveredFor = term.Span.Text()
		}
		for _, seconds := range each {
			if t.open.covered += seconds; seconds < 1 { // by hand it takes longer
				t.open.coveredFor = term.Span.Text()
			}
		}
		t.open.told = words
	case uncover:
		t.open.coveredFor, t.open.told = term.Span.Text(), words
	}
	t.sheet.remarks = append(t.sheet.remarks, strings.TrimLeft(term.Span.Text(), "-–—− "))
	return true
}

// inMetres are minutes that may as well be metres.
var inMetres = pattern.Lazily(`\d ?m$`)

// flashes reports whether a line has the word for a flash.
func (t *reader) flashes() bool {
	return slices.ContainsFunc(t.st.Terms(), func(term lang.Term) bool {
		words := lowered(wordsOf(term.Kind))
		return says(words, ofFlash) && unmeasured(strings.Join(words, " "))
	})
}

var ofFlash = lang.SetOf("flash strobe flashgun speedlight")

// otherTime reports whether a line has another time than that of one of its terms.
func (t *reader) otherTime(all []*lang.Term, i int) bool {
	if t.gotTime.File != nil || len(t.open.stretches) > 0 {
		return true
	}
	for n, term := range all {
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			if n != i && slices.ContainsFunc(k.Parts, func(p lang.Setting) bool { return p.Time != nil }) {
				return true
			}
		case *lang.Clock:
			if strings.Contains(k.Time, "-") {
				return true
			}
		}
	}
	return false
}

// hours takes hours of the clock: when a sheet was exposed, and how long.
func (t *reader) hours(k *lang.Clock, term *lang.Term, all []*lang.Term, i int) {
	text, unsure := strings.CutSuffix(k.Time, "?")
	from, to, stretch := strings.Cut(text, "-")
	if !stretch {
		t.sheet.clock = from
		if unsure { // 6h20 may be how long as well
			t.sheet.aside = term.Span.Text()
		}
		return
	}
	how := given
	if loose, ok := before(all, i).(*lang.Loose); ok {
		how = roleOf(loose.Words, "")
	}
	seconds := 0.
	switch {
	case unsure:
		t.open.unsure = "whether " + quote(term.Span.Text()) + " is hours of the clock, or minutes and seconds"
		if seconds := openFor(from, to); seconds == 0 || seconds >= 12*60*60 {
			t.open.unsure = "the halves of the day (am, pm) of " + quote(term.Span.Text())
		}
		return
	case from != "" && to != "":
		seconds = openFor(from, to)
	case len(t.open.stretches) > 0 && t.open.from == "": // 21:14-21:24, closed 21:16, opened 21:22
		t.open.coveredFor = term.Span.Text()
	case from != "":
		t.open.from = from
	case t.open.from != "":
		seconds = openFor(t.open.from, to)
		from, t.open.from = t.open.from, ""
	default:
		t.open.to = to
	}
	switch {
	case how == covered || how == uncover:
		t.open.covered, t.open.told = t.open.covered+seconds, all[i-1]
		if seconds == 0 {
			t.open.coveredFor = term.Span.Text()
		}
	case how != given && (how != perhaps || t.otherTime(all[:i], -1)):
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
	case seconds > 0 && t.open.during(from, seconds):
		if t.open.covered == 0 {
			t.open.coveredFor = term.Span.Text()
		}
		t.open.covered += seconds // capped 21:15-21:18 and 21:20-21:23
	case seconds > 0:
		began, _ := minutesOf(from)
		t.open.began = append(t.open.began, began)
		t.open.stretches = append(t.open.stretches, lang.Seconds{Num: seconds, Den: 1})
		t.open.at = t.open.at.Cover(term.Span)
	}
	if t.sheet.clock == "" && how == given {
		t.sheet.clock = from
	}
}

// during reports whether some seconds from an hour on lie within a stretch for which the shutter was open.
func (o *opening) during(from string, seconds float64) bool {
	at, _ := minutesOf(from)
	for i, began := range o.began {
		if later := secondsBetween(began, at); later+seconds <= o.stretches[i].Num {
			return true
		}
	}
	return false
}

// shutterOpen settles how long the shutter was open, once the line is read.
func (t *reader) shutterOpen() {
	sh, o := t.sheet, &t.open
	written := t.gotTime.File != nil || sh.time.known && !sh.time.copied && !t.amending
	switch {
	case written:
		sh.byClock = sh.byClock && t.gotTime.File == nil
		if len(o.stretches) > 0 && (o.named || t.clockDiffers()) {
			sh.leaveOpen("time", "which time counts, "+t.gotTime.Text()+" or "+o.at.Text())
		}
		if t.alsoDiffers() {
			sh.leaveOpen("time", "which time counts, "+sh.time.at.Text()+" or "+bare(o.alsoAt))
		}
	case (o.unsure != "" || len(o.stretches) > 0) && clockSet(t.st) != "":
		sh.leaveOpen("time", "how long the shutter was open: "+quote(clockSet(t.st)))
	case o.unsure != "":
		sh.leaveOpen("time", o.unsure)
	case len(o.stretches) > 0:
		sh.time, sh.byClock, sh.opened = set(lang.Time{Parts: o.stretches}, o.at, false), true, o.began[0]
		if t.alsoDiffers() {
			sh.leaveOpen("time", "which time counts, "+bare(o.alsoAt)+" or "+o.at.Text())
		}
	case sh.time.known:
	case o.from != "":
		sh.leaveOpen("time", "when the shutter was closed that was opened at "+o.from)
	case o.to != "":
		sh.leaveOpen("time", "when the shutter was opened that was closed at "+o.to)
	case o.beside != "":
		sh.leaveOpen("time", "the time, and whether it is that of "+quote(o.beside))
	}
	switch {
	case o.coveredFor != "":
		if each, ok := exposures(sh.time.v); o.covered > 0 || !ok || each[0] >= 1 {
			sh.leaveOpen("time", "how long the lens was covered: "+quote(o.coveredFor))
		}
	case o.covered > 0:
		t.takeCovered()
	}
}

// clockDiffers reports whether the hours of a line that has a time as well say another, which may be the
// one that counts.
func (t *reader) clockDiffers() bool {
	given, ok := secondsOf(t.sheet.time.v)
	open, _ := secondsOf(lang.Time{Parts: t.open.stretches})
	return ok && timesDiffer(given, open-t.open.covered)
}

// timesDiffer reports whether a time is another than that between two hours: within three stops of it,
// else the hours are how long somebody stood there.
func timesDiffer(given, open float64) bool {
	by := math.Abs(math.Log2(open / given))
	return given >= 1 && by > asOneTime && by < 3
}

// asOneTime is how far apart two times may be that are meant to be one, in stops: hours are written in minutes.
const asOneTime = 1. / 3

// alsoDiffers reports whether a sum or a bracket beside the time, or the hours, says another. It may
// be that with the lens covered, or without.
func (t *reader) alsoDiffers() bool {
	o := &t.open
	open, ok := secondsOf(t.sheet.time.v)
	if !ok || o.also == 0 || o.alsoHours != (len(o.stretches) == 0) {
		return false
	}
	if o.alsoHours {
		return timesDiffer(open, o.also) && timesDiffer(open-o.covered, o.also)
	}
	return math.Abs(math.Log2(o.also/open)) > asOneTime && !(math.Abs(math.Log2(o.also/(open-o.covered))) <= asOneTime)
}

// alsoSays keeps how long the shutter was open by a sum or a remark right behind the time, the hours or the
// aperture, which says nothing else: = 6m, (about 6 min), (21:14-21:18).
func (t *reader) alsoSays(all []*lang.Term, i int) {
	n := beforeCommas(all, i)
	if t.metering || n < 0 || t.open.also != 0 {
		return
	}
	switch k := all[n].Kind.(type) {
	case *lang.Clock:
	case *lang.Exposure:
		if k.EV != nil || k.Zone != nil {
			return
		}
	default:
		return
	}
	said := all[i].Kind
	if remark, ok := said.(*lang.Remark); ok {
		if !strings.ContainsAny(remark.Text, "0123456789") && !strings.Contains(remark.Text, "minute") {
			return // as nearly all
		}
		terms := lang.Within(remark.Text, t.names)
		if len(terms) == 0 || !only(lowered(wordsOf(terms[0].Kind)), nearlyAll) {
			return
		}
		said = terms[0].Kind
		if len(terms) > 1 {
			_, comma := terms[1].Kind.(*lang.Comma)
			if loose, ok := terms[1].Kind.(*lang.Loose); !comma && !(ok && only(lowered(loose.Words), nearlyAll)) {
				return // 12 min of rain
			}
		}
	}
	if k, ok := said.(*lang.Exposure); ok && len(k.Parts) != 1 {
		return
	}
	for _, time := range timesOf(said) {
		if seconds, ok := secondsOf(time); ok {
			_, t.open.alsoHours = said.(*lang.Clock)
			t.open.also, t.open.alsoAt = seconds, all[i].Span
		}
	}
}

// bare is a stretch without the sign or the brackets that it stands behind.
func bare(at source.Span) string { return strings.Trim(at.Text(), "=()[] -–—") }

// nearlyAll are words beside a time that is that of the whole exposure (common practice, no source).
var nearlyAll = lang.SetOf("about around approx approximately ca circa roughly nearly almost just over under some total in all altogether open exposure exposed long or so by the my watch clock timer timed counted is was i.e ie makes that's thats that")

// secondsOf is the whole of a time.
func secondsOf(time lang.Time) (seconds float64, ok bool) {
	if time.Count == nil && time.Again == nil && len(time.Parts) == 1 {
		return exposure.TimeSeconds(time.Parts[0].Num, time.Parts[0].Den)
	}
	each, ok := exposures(time)
	return floats.Sum(each), ok
}

// clockSet is the words of a line that say that the clock was set to another hour, "" for none.
func clockSet(st *lang.Statement) string {
	for i := range st.Terms() {
		if st.Terms()[i].Struck {
			continue
		}
		said := saidIn(st.Terms()[i].Kind)
		if clockWasSet().MatchString(strings.ToLower(said)) {
			return said
		}
	}
	return ""
}

// The words by which clocks are set are those of notes read for this; by law they are set between
// one and three in the morning: Directive 2000/84/EC (01:00 UTC), 15 U.S.C. 260a (02:00).
var clockWasSet = pattern.Lazily(`\b(?:clocks?|watch(?:es)?)(?: (?:is|was|are|were|had|been|then|now|just|got|all|be|put|set|went|go|goes|going|gone|turned|moved|jumped|wound|by|an|one|1|hour))* (?:back|forwards?|ahead|on an hour|to (?:summer|winter) ?time)\b` +
	`|\bclocks (?:have |had |were |just )?chang(?:e|ed|ing)\b|\b(?:clocks?|watch) (?:was |were )?changed\b|\bhour (?:was )?(?:put|set|turned|went) (?:back|forwards?|on)\b` +
	`|\b(?:dst|daylight[- ]saving(?: time)?|summer ?time|winter ?time) (?:began|begins?|ended|ends?|starts?|started|over)\b|\b(?:change|changed|changeover|switch|switched|back) to (?:dst|(?:summer|winter) ?time)\b|\bzeitumstellung\b|\bauf (?:sommer|winter)zeit\b`)

// acrossChange is the words of prose beside a sheet that say that the clock was set, where the hours between which
// its shutter was open may lie on both sides of it; "" for none.
func (sh *sheet) acrossChange() string {
	const first, last = 1 * 60, 3 * 60 // of the hours at which clocks are set, in minutes
	open, _ := secondsOf(sh.time.v)
	if !sh.byClock || secondsBetween(sh.opened, first) > open && (sh.opened < first || sh.opened > last) {
		return ""
	}
	o := sh.outing
	for _, step := range [...]int{-1, 1} {
		for i := sh.entry + step; i >= 0 && i < len(o.entries); i += step {
			prose, ok := o.entries[i].(ast.Node)
			if !ok {
				break
			}
			for _, words := range sentences(plainText(prose, o.book)) {
				if clockWasSet().MatchString(strings.ToLower(words)) {
					return words
				}
			}
		}
	}
	return ""
}

// takeCovered takes the time for which the lens was covered off the time given.
func (t *reader) takeCovered() {
	sh := t.sheet
	given, ok := secondsOf(sh.time.v)
	left := given - t.open.covered
	if !ok || !sh.time.known || left <= 0 {
		sh.leaveOpen("time", "the time of which "+exposure.FormatTime(t.open.covered)+" is taken off")
		return
	}
	sh.time.v = lang.Time{Bulb: sh.time.v.Bulb, Parts: []lang.Seconds{{Num: left, Den: 1}}}
	sh.covered = "" // it is reckoned with
}

// leaveOpen makes a sheet unclear until an amendment says what was set: "time" or
// "aperture".
func (sh *sheet) leaveOpen(what, needs string) {
	if sh.unclear == "" {
		sh.unclear, sh.unclearOf = needs, what
	}
}

// openFor is the seconds from one hour of the clock to another, over midnight where need
// be.
func openFor(from, to string) float64 {
	first, _ := minutesOf(from)
	last, _ := minutesOf(to)
	return secondsBetween(first, last)
}

// secondsBetween is the same of hours in minutes from midnight.
func secondsBetween(first, last float64) float64 {
	const day = 24 * 60
	return math.Mod(last-first+day, day) * 60
}

// minutesOf is a time of day in minutes from midnight: 14:30, 14:30:20.
func minutesOf(clock string) (minutes float64, ok bool) {
	hour, rest, ok := strings.Cut(clock, ":")
	minute, second, _ := strings.Cut(rest, ":")
	h, bad := strconv.Atoi(hour)
	m, worse := strconv.Atoi(minute)
	s, _ := strconv.Atoi(second)
	return float64(60*h+m) + float64(s)/60, ok && bad == nil && worse == nil
}

// timeLost is the words of a line that speak of a time and were not read as one.
func timeLost(st *lang.Statement) string {
	for i := range st.Terms() {
		if st.Terms()[i].Struck {
			continue
		}
		words := strings.Fields(strings.Join(wordsOf(st.Terms()[i].Kind), " ")) // a number in words is one of them with its unit
		for n, w := range words {
			switch strings.ToLower(strings.Trim(w, ".,;")) {
			case "second":
				if n == 0 || !partOfTime[strings.ToLower(words[n-1])] {
					continue // the second larch
				}
			case "fifth", "fifteenth", "thirtieth", "sixtieth", "hundredth":
				if n+1 < len(words) || n > 0 && strings.EqualFold(words[n-1], "the") {
					continue // the fifteenth of May
				}
			case "twenty-fifth": // 1/25, and what people say for 1/125
				if n > 0 && strings.EqualFold(words[n-1], "the") {
					continue
				}
			case "sec", "secs", "seconds", "minute", "minutes", "mins", "min", "hour", "hours", "hrs":
			case "seconde", "secondes", "demi-seconde", "sekunde", "sekunden", "sek", "minuten", "stunde", "stunden", "heure", "heures", "d'heure", "d’heure": // common practice, no source
			default:
				if !figuresOfTime().MatchString(strings.ToLower(w)) {
					continue
				}
			}
			if passes(words) {
				return ""
			}
			from := max(0, n-2)
			for from > 0 && partOfNumber(words[from-1]) {
				from--
			}
			return strings.Join(words[from:n+1], " ")
		}
	}
	return numberLost(st)
}

// numberLost is a number in words that stands on a line by itself, or right behind its aperture or before it, and that is
// no term: f16 one fifteen; f16, fifteen; for tenths. One that counts things is none: three cows on the left.
func numberLost(st *lang.Statement) string {
	for i := range st.Terms() {
		words := wordsOf(st.Terms()[i].Kind)
		for len(words) > 0 && !st.Terms()[i].Struck {
			said := strings.Join(words, " ")
			rest, number := lang.CutNumber(said)
			if next := firstOf(wordsIn(rest)); number && (next == "" || connective[next] && next != "the" && next != "a") { // half the bridge
				return strings.TrimSpace(said[:len(said)-len(rest)])
			} else if number || !connective[strings.ToLower(words[0])] && !homophone[strings.ToLower(words[0])] {
				break
			}
			words = words[1:]
		}
	}
	return ""
}

// homophone are words that a phone writes for numbers.
var homophone = lang.SetOf("to too for fore won ate")

// partOfNumber reports whether a word may be one of a number in words: twenty, of, and, a.
func partOfNumber(word string) bool {
	_, number := lang.CutNumber(word)
	word = strings.ToLower(word)
	return number || homophone[word] || word == "a" || word == "an" || word == "of" || word == "and" || word == "over"
}

// figuresOfTime are figures with a unit of time, or a fraction, within a word that was not read
// as a time: 80s/12m, asked and given, 1/x, 1:500.
var figuresOfTime = pattern.Lazily(`^1/.|^1:\d{3}|\d(?:s|sec|secs|m|min|mins|h|hr|hrs|["'′])(?:[^a-z]|$)`)

// partOfTime are the words before "second" that make it one of time.
var partOfTime = lang.SetOf("a half quarter third one few some")

// mended takes back what a line left open of a setting that an amendment gives, and the
// finding about it becomes a note.
func (t *reader) mended(of, needs string) {
	sh := t.sheet
	gave := of == "time" && (t.gotTime.File != nil || len(t.open.stretches) > 0) || of == "aperture" && t.gotAv.File != nil
	switch {
	case !gave && sh.unclear == "":
		sh.unclear, sh.unclearOf = needs, of
	case gave && sh.slip > 0 && sh.slip <= len(t.found) && slices.Contains(t.found[sh.slip-1].sheets, sh):
		f := &t.found[sh.slip-1]
		f.Severity, f.Fix = diag.Note, nil
		f.note("amended, and checked as it was amended", t.st.Body)
		sh.slip = 0
	}
}
