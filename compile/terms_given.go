package compile

import (
	"fmt"
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What a line says was given: aperture, time and what was meant with them, and how the sheet
// is to be developed.

// wants is the development that is asked for. A second on the line is a slip that only
// the writer can settle, unless the line says that it is what was asked for before.
func (t *reader) wants(k *lang.N, term *lang.Term, said string) {
	if words := strings.Fields(strings.ToLower(said)); len(words) > 0 && (words[len(words)-1] == "was" || words[len(words)-1] == "were") {
		t.struck(term.Span.Text(), "", "withdrawn", term.Span)
		return
	}
	n := known(float64(k.Stops), term.Span, term.Doubtful)
	if t.gotN.File != nil && n.v != t.sheet.wanted.v {
		t.secondSetting("developments", t.gotN, term, t.gotN, term.Span)
		return
	}
	t.gotN, t.sheet.wanted = term.Span, n
}

// more is "second +1": one sheet of the line got so much more on purpose, past
// the settings that are written for all.
func (t *reader) more(k *lang.Amount, term *lang.Term) {
	if k.Stops == nil || t.of < 2 {
		t.stray(term)
		return
	}
	t.sheet.bracket = known(float64(*k.Stops), term.Span, term.Doubtful)
	t.sheet.extra = float64(*k.Stops)
}

// exposure is a reading or a setting.
func (t *reader) exposure(k *lang.Exposure, term *lang.Term, all []*lang.Term, i int) {
	isReading := t.metering || k.Zone != nil || k.EV != nil && !t.gave || meteredBehind(all, i+1)
	if t.inReading && !t.gave && !isReading {
		isReading = !t.readingDone()
	}
	if cue, ok := before(all, i).(*lang.Cue); ok && cue.Word == "metered" && !isReading && !t.metering && len(k.Parts) == 1 && k.Parts[0].Time != nil && givenBehind(all, i) {
		t.sheet.remarks = append(t.sheet.remarks, "metered "+term.Span.Text()) // the writer's own sum: EV 6, metered 8s, given 16s
		return
	}
	switch {
	case ofNextTime(strings.Join(k.Name, " ")):
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
	case isReading && t.secondTime(k):
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()) // the writer's own sum: metered 1s, 25s, gave 70s
	case isReading:
		t.metered(k, term)
	case t.beforeArrow(all, i), t.asked(k, all, i), t.becomes(all, i), lengthenedTo(all, behindCommas(all, i)) != nil, becameSaid(k, all, i) != "":
		t.keepAperture(k, term, all, i)
		t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()+" metered")
		if said := becameSaid(k, all, i); said != "" {
			t.sheet.leaveOpen("time", "the time that "+quote(said)+" comes to: it is written 8s -> 15s")
		}
	default:
		if t.besides(k, term, all, i) {
			return
		}
		_, behindN := before(all, i).(*lang.N)
		if inDeveloper(k, all, i) && (t.has(k) || behindN || bathBehind(all, i) || says(lowered(k.Name), baths) || t.otherTime(all, i)) {
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
			if !t.otherTime(all, i) {
				t.sheet.leaveOpen("time", "the time, and whether it is "+strings.TrimSpace(term.Span.Text())+" or that is of the development")
			}
			return
		}
		if len(k.Name) > 0 && countsExposures(k) && !t.gave && !only(strings.Fields(strings.ToLower(strings.Join(k.Name, " "))), connective, ofExposures) {
			t.sheet.vague = strings.Join(k.Name, " ") + " " + trim(float64(*k.Parts[partWithTime(k)].Time.Count)) + "x" // Y 2x 1/15: a factor, or two exposures
		}
		if n := beforeCommas(all, i); n >= 0 && inDeveloper(k, all, i) {
			if _, development := all[n].Kind.(*lang.N); development {
				t.sheet.maybeBath = term.Span.Text() // N, 8 min, f16
			}
		}
		k = manyOfEach(k, all, i)
		if t.of == 1 && has(t.sheet.states, "double") && !countsExposures(k) && (says(lowered(k.Name), eachOf) || eachOf[firstOf(saidBehind(all, i))]) {
			t.sheet.unclear = "how much light it got by " + quote("each")
		}
		if len(k.Name) > 0 && !t.ofFilters(k.Name, term, all, i) {
			t.sheet.remarks = append(t.sheet.remarks, strings.Join(k.Name, " "))
			if words := strings.ToLower(strings.Join(k.Name, " ")); manyTimes[words] || strings.HasSuffix(words, " times") || slices.Contains(strings.Fields(words), "exposures") {
				t.sheet.unclear = "how much light it got by " + quote(words) // two exposures of 10s
			}
		}
		if racked(k.Name) {
			t.sheet.racked = strings.Join(k.Name, " ") // dbl ext 1 sec f16
		}
		if loose, ok := before(all, i).(*lang.Loose); ok && len(loose.Words) > 1 && t.has(k) {
			t.sheet.remarks = append(t.sheet.remarks, term.Span.Text()) // someone walked through at about 20 secs
			if term.Doubtful {
				t.sheet.doubts = t.sheet.doubts[:len(t.sheet.doubts)-1]
			}
			return
		}
		t.settings(k, term)
		t.open.named = t.open.named || slices.ContainsFunc(k.Name, func(w string) bool { return !connective[strings.ToLower(w)] })
	}
}

// ofNextTime reports whether words say that what is behind them is for another sheet.
func ofNextTime(words string) bool { return strings.HasPrefix(strings.ToLower(words), "next time") }

// meteredBehind reports whether the ith term is the word for what was metered, behind a setting
// and with nothing behind it up to the comma: 80s metered, 4m58 actual.
func meteredBehind(all []*lang.Term, i int) bool {
	if i < 1 || i+1 >= len(all) {
		return false
	}
	cue, ok := all[i].Kind.(*lang.Cue)
	_, comma := all[i+1].Kind.(*lang.Comma)
	k, exposed := all[i-1].Kind.(*lang.Exposure)
	if i > 1 {
		_, led := all[i-2].Kind.(*lang.Cue)
		exposed = exposed && !led
	}
	return ok && comma && exposed && cue.Word == "metered" && partWithTime(k) >= 0
}

// countsExposures reports whether an exposure's time is given several times: 2x 1/15.
func countsExposures(k *lang.Exposure) bool {
	at := partWithTime(k)
	return at >= 0 && k.Parts[at].Time.Count != nil
}

// partWithTime is where an exposure's time stands among its parts, -1 where it has none.
func partWithTime(k *lang.Exposure) int {
	return slices.IndexFunc(k.Parts, func(p lang.Setting) bool { return p.Time != nil })
}

// eachOf are words by which a time is that of one of several exposures.
var eachOf = lang.SetOf("each every apiece")

// ofExposures are words before a number of exposures that no filter is called by.
var ofExposures = lang.SetOf("exposed exposing expose exposures exposure multiple double triple pops shots tripped fired opened in of total all")

// givenBehind reports whether a word leads to what was given, behind a term.
func givenBehind(all []*lang.Term, i int) bool {
	return slices.ContainsFunc(all[i+1:], func(t *lang.Term) bool {
		cue, ok := t.Kind.(*lang.Cue)
		return ok && cue.Word == "gave"
	})
}

// inDeveloper reports whether a second time is how long a sheet is developed: in a
// developer by its name, ash-11 9 min, or behind the development asked for, N-1 9 min.
func inDeveloper(k *lang.Exposure, all []*lang.Term, i int) bool {
	if len(k.Parts) != 1 || k.Parts[0].Time == nil {
		return false
	}
	if !bathBehind(all, i) && !strings.ContainsAny(strings.Join(k.Name, ""), "0123456789") && developmentBefore(all, i) < 0 && !says(lowered(k.Name), baths) && !says(saidBehind(all, i), baths) {
		return false
	}
	const shortest = 150 // seconds
	total := 0.
	for _, part := range k.Parts[0].Time.Parts {
		total += part.Num / part.Den
	}
	return total >= shortest
}

// baths are words beside the time for which a sheet is in one (common practice, no source).
var baths = lang.SetOf("tray tank drum bath soup dev developer developed developing development pyro")

// bathBehind reports whether a temperature stands behind a time: 9 min 20C.
func bathBehind(all []*lang.Term, i int) bool {
	loose, ok := after(all, i).(*lang.Loose)
	return ok && degrees().MatchString(loose.Words[0])
}

var degrees = pattern.Lazily(`^\d+(?:\.\d+)?°?[CF]$`)

// developmentBefore is where the development that is asked for stands before a term,
// with nothing but words between, -1 where it does not.
func developmentBefore(all []*lang.Term, i int) int {
	for i--; i >= 0; i-- {
		switch all[i].Kind.(type) {
		case *lang.N:
			return i
		case *lang.Comma, *lang.Loose, *lang.Remark, *lang.Magnification:
		default:
			return -1
		}
	}
	return -1
}

// developmentSaid keeps what a line says of how a sheet is to be developed, beyond the
// amount: it goes on the list for the darkroom as it was typed.
func (t *reader) developmentSaid(all []*lang.Term) {
	for i, term := range all {
		at := developmentBefore(all, i)
		if at < 0 {
			continue
		}
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			if !inDeveloper(k, all, i) {
				continue
			}
		case *lang.Loose:
			changed := i == at+1 && offN[strings.ToLower(k.Words[0])] // N plus a half
			if changed {
				t.sheet.wanted = value[float64]{}
			}
			if !changed && !strings.ContainsAny(term.Span.Text(), "0123456789") {
				continue
			}
		default:
			continue
		}
		t.sheet.wantedSays = strings.TrimLeft(source.Span{File: term.Span.File, Start: all[at].Span.End, End: term.Span.End}.Text(), ", ")
	}
}

// developmentOpen leaves open how a sheet is to be developed where words may say it that are no sign for it: end minus one,
// push one. What holds for others is then not asked for.
func (t *reader) developmentOpen(all []*lang.Term) {
	if t.metering || t.st.Word != lang.Sheet || t.gotN.File != nil {
		return
	}
	for _, term := range all {
		loose, ok := term.Kind.(*lang.Loose)
		if !ok || !nearlyN().MatchString(strings.ToLower(strings.Join(loose.Words, " "))) {
			continue
		}
		t.sheet.wanted, t.sheet.wantedSays = value[float64]{}, term.Span.Text()
		t.report("nearly-a-term", term.Span, quote(term.Span.Text())+" may be how the sheet is to be developed", t.real()...).
			note("a development is written N-1 or N+1; until then none is asked for here")
		return
	}
}

// nearlyN are words that may stand for N and a number: a phone hears the letter as a word, and leaves it out (common
// practice, no source).
var nearlyN = pattern.Lazily(`^(?:(?:and|end|an|in|then|so) )?(?:plus|minus) (?:one|two|three)(?: and a half)?\.?$|^(?:to )?(?:be )?(?:push|pushed|pull|pulled)(?: it)?(?: by)? (?:one|two|three)(?: and a half)?\.?$`)

// offN are words that change the development which they stand behind.
var offN = lang.SetOf("plus minus less more")

// beforeArrow reports whether an arrow, or "corrected", follows: what stands before it is the
// time that the reading asked for, what stands behind it was given.
func (t *reader) beforeArrow(all []*lang.Term, i int) bool {
	n := behindCommas(all, i)
	if n == len(all) {
		return false
	}
	switch k := all[n].Kind.(type) {
	case *lang.Arrow:
		return !leadsAway(all, n)
	case *lang.Cue:
		then := givenThen(all, i)
		return k.Word == "corrected" && then != nil && slices.ContainsFunc(then.Parts, func(p lang.Setting) bool { return p.Time != nil })
	}
	return false
}

// behindCommas is where the term stands that follows the ith, commas aside.
func behindCommas(all []*lang.Term, i int) int {
	for i++; i < len(all); i++ {
		if !isComma(all[i]) {
			break
		}
	}
	return i
}

// beforeCommas is where the term stands that the ith follows, commas aside, -1 where there is none.
func beforeCommas(all []*lang.Term, i int) int {
	for i--; i >= 0; i-- {
		if !isComma(all[i]) {
			break
		}
	}
	return i
}

// givenThen is what stands behind the arrow, or "corrected", that follows the ith term.
func givenThen(all []*lang.Term, i int) *lang.Exposure {
	for i = behindCommas(all, i); i < len(all); i = behindCommas(all, i) {
		switch k := all[i].Kind.(type) {
		case *lang.Exposure:
			return k
		case *lang.Arrow, *lang.Cue:
		default:
			return nil
		}
	}
	return nil
}

// asked reports whether the words around a time say that it is what was asked for and not what
// was given, on a line that has another: 16s asked, 37s given; indicated 80s, actual 4m15.
func (t *reader) asked(k *lang.Exposure, all []*lang.Term, i int) bool {
	if t.metering || k.EV != nil || partWithTime(k) < 0 {
		return false
	}
	before, behind := saidBefore(all, i), saidBehind(all, i)
	open := firstOf(behind) == "total" && t.openBehind(all, i) // 6m30 total, 4m15 open
	if !open && !says(before, ofAsked) && !ofAsked[firstOf(behind)] && !strings.HasSuffix(strings.Join(before, " "), "should be") && !strings.HasSuffix(strings.Join(before, " "), "instead of") {
		return false
	}
	return !says(before, ofGiven) && t.givenElsewhere(all, i)
}

// openBehind reports whether a time is followed by the one for which the shutter was open.
func (t *reader) openBehind(all []*lang.Term, i int) bool {
	for n := i + 1; n < len(all); n++ {
		if k, ok := all[n].Kind.(*lang.Exposure); ok && partWithTime(k) >= 0 {
			return firstOf(saidBehind(all, n)) == "open"
		}
	}
	return false
}

// becomes reports whether the time behind a term is what it becomes: 8 secs becomes 15 secs.
func (t *reader) becomes(all []*lang.Term, i int) bool {
	n := behindCommas(all, i)
	k, ok := all[i].Kind.(*lang.Exposure)
	if !ok || k.EV != nil || partWithTime(k) < 0 || n == len(all) || len(timesOf(all[n].Kind)) == 0 {
		return false
	}
	words := strings.ToLower(strings.Join(wordsOf(all[n].Kind), " "))
	if words == "but" { // 1 sec but 2 secs with the long time
		return withRule().MatchString(strings.Join(saidBehind(all, n), " "))
	}
	if byRule[firstOf(wordsIn(words))] { // 160s, reciprocity 12m
		return false
	}
	verb := comesTo().FindString(words)
	if words = thenSaid().ReplaceAllString(strings.TrimSuffix(words, verb), ""); words == "" && becomes[strings.TrimSpace(verb)] {
		return true
	}
	from, ok := secondsOf(timesOf(k)[0])
	to, fine := secondsOf(timesOf(all[n].Kind)[0])
	return lengthens().MatchString(words) && ok && fine && to >= from
}

// thenSaid are words that lead on to what something comes to, and comesTo those behind them: so with reciprocity that is
// (common practice, no source).
var (
	thenSaid = pattern.Lazily(`^(?:(?:so|and|then|which)(?: |$))+`)
	comesTo  = pattern.Lazily(`(?:^| )(?:(?:that|it|this) )?(?:becomes|became|makes|gives|comes to|is)$`)
	becomes  = lang.SetOf("becomes became makes")
)

// becameSaid are the words behind a time by which it becomes another that they count: half a second became one, 15s
// corrected twenty, 8s fifteen with reciprocity. "" for none.
func becameSaid(k *lang.Exposure, all []*lang.Term, i int) string {
	n := behindCommas(all, i)
	if k.EV != nil || partWithTime(k) < 0 || n == len(all) {
		return ""
	}
	cue, led := all[n].Kind.(*lang.Cue)
	if led = led && (cue.Word == "corrected" || cue.Word == "gave"); led && n+1 < len(all) {
		n++
	}
	loose, ok := all[n].Kind.(*lang.Loose)
	if !ok {
		return ""
	}
	words, said := lowered(loose.Words), strings.Join(loose.Words, " ")
	numbers := lang.NumbersInWords(said)
	if !slices.Contains(words, "one") && len(numbers) == 0 {
		return ""
	}
	if seconds, ok := exposures(*k.Parts[partWithTime(k)].Time); led && ok && len(numbers) == 1 && len(seconds) == 1 && !numbers[0].Part && numbers[0].N == seconds[0] {
		return "" // 15s, gave fifteen
	}
	const number = 4 // words: and those that go on tell of something else
	switch {
	case led && len(words) <= number:
		return cue.Word + " " + said
	case becomesThat[words[0]], says(words, byRule):
		return said
	}
	return ""
}

var (
	becomesThat = lang.SetOf("becomes became becoming")
	byRule      = lang.SetOf("reciprocity recip schwarzschild")
)

// lengthenedTo is the time behind an equals sign that the ith term, words for a film's rule, leads to from the time
// before it: 60s + reciprocity = 4m. Nil where it is none, or not longer.
func lengthenedTo(all []*lang.Term, i int) *lang.Exposure {
	if i >= len(all) || beforeCommas(all, i) < 0 {
		return nil
	}
	words, loose := all[i].Kind.(*lang.Loose)
	if !loose || !lengthens().MatchString(strings.ToLower(strings.Join(words.Words, " "))) {
		return nil
	}
	asked, given := timesOf(all[beforeCommas(all, i)].Kind), any(nil)
	if sum, ok := after(all, i).(*lang.Sum); ok && sum.Exposure != nil {
		given = sum.Exposure
	} else if _, arrow := after(all, i).(*lang.Arrow); arrow {
		given = after(all, i+1)
	}
	then := timesOf(given)
	if len(asked) != 1 || len(then) != 1 {
		return nil
	}
	from, ok := secondsOf(asked[0])
	if to, fine := secondsOf(then[0]); !ok || !fine || to < from {
		return nil
	}
	k, _ := given.(*lang.Exposure)
	return k
}

// lengthens are words for a film's rule, and nothing else, between a time and what it becomes (common practice,
// no source).
var lengthens = pattern.Lazily(`^(?:\+|x|×|plus|with|and|for|after|incl\.?|including|w/)? ?(?:the )?(?:reciprocity|recip\.?|rec\.?|schwarzschild|rez\.?)(?: (?:correction|corr\.?|failure|factor|effect))?$`)

// manyOfEach is a time with the number of exposures that stands before it, where it is that of each: 4 exposures, 3m
// each.
func manyOfEach(k *lang.Exposure, all []*lang.Term, i int) *lang.Exposure {
	at := partWithTime(k)
	if i = beforeCommas(all, i); i < 0 || at < 0 || k.Parts[at].Time.Count != nil || k.Parts[at].Time.Again != nil {
		return k
	}
	n := numberOfEach(all, i)
	if n == 0 {
		return k
	}
	many, time, count := *k, *k.Parts[at].Time, lang.Number(n)
	time.Count = &count
	many.Parts = slices.Clone(k.Parts)
	many.Parts[at].Time = &time
	return &many
}

// numberOfEach is how many exposures the ith term is words for, where the time of each follows; 0 for none.
func numberOfEach(all []*lang.Term, i int) float64 {
	loose, ok := all[i].Kind.(*lang.Loose)
	n := behindCommas(all, i)
	if !ok || n == len(all) || len(timesOf(all[n].Kind)) == 0 || firstOf(saidBehind(all, n)) != "each" {
		return 0
	}
	words := strings.TrimPrefix(strings.ToLower(strings.Join(loose.Words, " ")), "exposed ")
	if m := numberOfTimes().FindString(words); m != "" {
		return parseFloat(m[:strings.IndexByte(m, ' ')])
	}
	if spoken := lang.NumbersInWords(words); manyTimes[words] && len(spoken) == 1 && !spoken[0].Part {
		return spoken[0].N
	}
	return 0
}

// withRule are words behind a time by which it was lengthened for the film's sake (common
// practice, no source).
var withRule = pattern.Lazily(`^(?:with|for|after|by) .*\b(?:reciprocity|schwarzschild|correction|curve|chart|table|rule|long)\b`)

// givenElsewhere reports whether a line has just one other time.
func (t *reader) givenElsewhere(all []*lang.Term, i int) bool {
	others := 0
	for n := range all {
		if k, ok := all[n].Kind.(*lang.Exposure); ok && n != i && k.EV == nil && partWithTime(k) >= 0 {
			others++
		}
	}
	return others == 1
}

// saidBefore and saidBehind are the words around a term, up to the commas, in lower case.
func saidBefore(all []*lang.Term, i int) []string {
	var words []string
	if i > 0 {
		switch k := all[i-1].Kind.(type) {
		case *lang.Loose:
			words = append(words, k.Words...)
		case *lang.Cue:
			words = append(words, k.Word)
		}
	}
	return lowered(append(words, wordsOf(all[i].Kind)...))
}

func saidBehind(all []*lang.Term, i int) []string {
	switch k := after(all, i).(type) {
	case *lang.Loose:
		return lowered(k.Words)
	case *lang.Exposure:
		if partWithTime(k) < 0 { // 80s asked at f8
			return lowered(k.Name)
		}
	}
	return nil
}

func lowered(words []string) []string {
	low := make([]string, len(words))
	for i, word := range words {
		low[i] = plain(word)
	}
	return low
}

func firstOf(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// The words are those of notes read for this (common practice, no source).
var (
	ofAsked = lang.SetOf("asked indicated calculated wanted")
	ofGiven = lang.SetOf("gave given actual actually becomes became so then total open")
)

// keepAperture keeps the aperture of "f22 8s -> 15s", which is given for both.
func (t *reader) keepAperture(k *lang.Exposure, term *lang.Term, all []*lang.Term, i int) {
	if then := givenThen(all, i); then != nil && len(then.Parts) != 1 {
		return
	}
	for n := range k.Parts {
		if a := k.Parts[n].Aperture; a != nil && t.gotAv.File == nil {
			t.gotAv = term.Span
			t.sheet.aperture = set(*a, term.Setting(n), term.Doubtful)
		}
	}
}

// settings takes what was given. A second aperture or time on one line is a
// slip that only the writer can settle, and the first stands.
func (t *reader) settings(k *lang.Exposure, term *lang.Term) {
	for i := range k.Parts {
		part := &k.Parts[i]
		if part.Aperture != nil {
			if t.gotAv.File != nil {
				t.secondSetting("apertures", t.gotAv, term, t.sheet.aperture.at, term.Setting(i))
				continue
			}
			t.gotAv = term.Span
			t.sheet.aperture = set(*part.Aperture, term.Setting(i), term.Doubtful)
			continue
		}
		if t.gotTime.File != nil {
			t.secondSetting("times", t.gotTime, term, t.sheet.time.at, term.Setting(i))
			continue
		}
		t.gotTime = term.Span
		t.sheet.time = set(*part.Time, term.Setting(i), term.Doubtful)
	}
	t.dayForTime()
}

// dayForTime leaves the time open that is a day and a month in figures, and a fraction that no shutter has and nobody counts: 5/12.
func (t *reader) dayForTime() {
	time := &t.sheet.time
	if t.gotTime.File == nil || len(time.v.Parts) != 1 {
		return
	}
	const counted = 10 // parts of a second
	if s := time.v.Parts[0]; s.Num > 1 && s.Den > 5 && s.Den != 8 && s.Den != counted && lang.IsDay(strings.TrimSpace(time.at.Text())) {
		t.sheet.leaveOpen("time", "whether "+quote(time.at.Text())+" is its time, or a day")
	}
}

// has reports whether the line has all settings already that an exposure names.
func (t *reader) has(k *lang.Exposure) bool {
	for i := range k.Parts {
		if k.Parts[i].Aperture != nil && t.gotAv.File == nil || k.Parts[i].Time != nil && t.gotTime.File == nil && len(t.open.stretches) == 0 {
			return false
		}
	}
	return len(k.Parts) > 0
}

// secondSetting reports a second setting, by the terms of the two and by their own stretches in
// these.
func (t *reader) secondSetting(what string, first source.Span, second *lang.Term, one, other source.Span) {
	if t.sheet.unclear != "" || t.open.coveredFor != "" {
		return // one slip, one finding
	}
	t.sheet.leaveOpen(strings.TrimSuffix(what, "s"), "which of the two "+what+" counts")
	f := t.report("two-settings", second.Span, "two "+what+" on one line", t.real()...)
	t.sheet.slip = len(t.found)
	if stop, at := betweenStops(first, second.Span); what == "times" && stop != "" { // which was meant the writer alone knows
		f.note(fmt.Sprintf("%s with a blank is an aperture and a time; %s is an aperture between two stops", at.Text(), stop), at)
	}
	if one.Text() == other.Text() && other.Text() != second.Span.Text() {
		one, other = first, second.Span
	}
	offer := "strike out the one that was not given, as in ~~" + one.Text() + "~~ or ~~" + other.Text() + "~~"
	if one.Text() == other.Text() {
		offer = "where it was given once, strike out the other, as in ~~" + other.Text() + "~~"
	}
	f.note(offer+"; until then the sheet is not checked", first)
}

// betweenStops is the aperture that stands in two terms with a blank before its fraction, without
// the blank, and where it stands: f16 ½ ... 1/30 is half a stop past f/16.
func betweenStops(first, second source.Span) (stop string, at source.Span) {
	for _, at := range [...]source.Span{first, second, first.Cover(second)} {
		before, part, _ := cutLast(at.Text())
		mark := before[strings.LastIndexByte(before, ' ')+1:]
		if isPart(part) && part != "" && strings.HasPrefix(strings.ToLower(mark), "f") && !strings.HasSuffix(mark, ",") {
			return mark + partSign(part), at.Sub(strings.LastIndex(at.Text(), mark), len(at.Text()))
		}
	}
	return "", source.Span{}
}

// cutLast cuts a text at its last blank.
func cutLast(text string) (before, after string, ok bool) {
	i := strings.LastIndexByte(strings.TrimSpace(text), ' ')
	if i < 0 {
		return text, "", false
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:]), true
}

// parts are the fractions of a stop, as they are typed.
var parts = map[string]string{"1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾"}

func isPart(text string) bool { return parts[text] != "" || strings.Trim(text, "½⅓⅔¼¾") == "" }

func partSign(text string) string {
	if sign := parts[text]; sign != "" {
		return sign
	}
	return text
}
