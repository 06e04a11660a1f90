package compile

import (
	"slices"
	"strings"

	"notchbook/compile/handbook"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// A sheet that comes out right is called so only where nothing on its own line most likely says
// what would make it wrong and was not counted: a zone behind its reading, a filter of the kit, a
// setting that a remark puts right. More is asked of such words than of those that take a blame
// back, since most words that stand beside right settings tell of the subject.

// doubted takes back that a sheet is right where a word of its line that was not counted would make
// it wrong.
func (s *season) doubted(sh *sheet) {
	if sh.sum.state != record.Right || sh.wasAmended() {
		return
	}
	body := sh.lines[0].Body.Text()
	if s.exposedAgain(sh) || s.litByLamps(sh) {
		return
	}
	if sh.byHigh != nil && sh.wanted.v*sh.sum.asksN <= 0 && s.doubtedBy(sh, []another{*sh.byHigh}) { // else its development brings it there
		return
	}
	if rd := sh.reading; rd != nil && s.doubtedBy(sh, append(rd.told(sh, zonePlaced), rd.throughTold(sh, body)...)) {
		return
	}
	if !sh.ownReading && !sh.lightBy.known {
		if words := sh.toldOfLight(ofStops.In, lightTold); words != "" {
			shown := sh.reading.shownTold(words, meterSays)
			if len(shown) == 0 {
				sh.ask("what the meter showed when it was exposed, after " + quote(words))
				return
			}
			if s.doubtedBy(sh, shown) {
				return
			}
		}
	}
	all := sh.lines[0].Terms()
	told := mayTellOfSlip.In(body) || kitOf(sh).namesMeter(body)
	if told && !sh.time.copied && sameOnTop().MatchString(strings.ToLower(body)) {
		sh.ask("whether it was exposed twice: " + quote(strings.TrimSpace(body)))
		return
	}
	if (told || mayCount.In(body)) && s.toldOtherwise(sh, sh.unstruck()) || s.changedFrom(sh) || s.toldBeside(sh) {
		return
	}
	for i := range all {
		said := saidIn(all[i].Kind) // EV 9 auf III f16
		if _, loose := all[i].Kind.(*lang.Loose); loose && i > 0 {
			if _, filter := all[i-1].Kind.(*lang.Stack); filter { // yellow still on
				said = all[i-1].Span.Cover(all[i].Span).Text()
			}
		}
		if said == "" || all[i].Struck || withdrawn(all, i) {
			continue
		}
		if said == sh.vague && (!strings.ContainsAny(said, " 0123456789") || numberSaid().MatchString(strings.ToLower(said)) || sh.strange && says(wordsIn(strings.ToLower(said)), theFilter)) {
			sh.ask(sh.asksOf(said))
			return
		}
		if told {
			if asks := sh.ownedTo(said); asks != "" {
				sh.ask(asks)
				return
			}
		}
		_, remark := all[i].Kind.(*lang.Remark)
		if remark && litByFlash(said) {
			sh.ask("whether a flash lit it: " + quote(said))
			return
		}
		if remark && s.setOtherwise(sh, said, said, settingOfThing, false) {
			return
		}
		if _, loose := all[i].Kind.(*lang.Loose); remark || loose {
			if told := sh.coveredIn(said); told != "" {
				sh.ask("how long the lens was covered: " + quote(told))
				return
			}
			if loose && s.setOtherwise(sh, said, said, settingPutRight, false) || remark && s.doubtedBy(sh, s.thingsAnew(sh, said, false)) {
				return
			}
		}
		ways := append(s.named(sh, i, said), sh.thingsNamed(said)...)
		if told {
			ways = append(ways, s.against(sh, i, said)...)
		}
		if s.doubtedBy(sh, ways) {
			return
		}
	}
}

// doubtedBy takes back that a sheet is right where one of some ways to read it makes it wrong.
func (s *season) doubtedBy(sh *sheet, ways []another) bool {
	for _, way := range ways {
		at := *sh
		way.put(&at)
		if s.assessed(&at, sh.outing.book.at100).state != record.Right {
			sh.ask(way.asks)
			return true
		}
	}
	return false
}

// named is what the words of a line's ith term most likely name that was not counted: a filter or a film of the
// kit.
func (s *season) named(sh *sheet, i int, said string) (ways []another) {
	all := sh.lines[0].Terms()
	low := strings.ToLower(said)
	if f := s.filterTold(sh, all[i].Kind, low); f != nil {
		ways = append(ways, sh.withFilter(f, said))
	}
	ways = append(ways, sh.notOn(said)...)
	if sh.reading != nil {
		ways = append(ways, sh.reading.throughTold(sh, said)...)
	}
	if on := besideOther(sh, i); on != nil {
		ways = append(ways, another{"whether " + on.name + " was on as well: " + quote(all[i-1].Span.Cover(all[i+1].Span).Text()), withOn(on)})
	}
	if !sh.film.known || len(kitOf(sh).films) < 2 || !mayNameFilm.In(low) && kitOf(sh).otherFilm(wordsIn(low), sh.film.v) == nil {
		return ways // as most
	}
	for clause := range clauses(low) {
		if other := s.filmTold(sh, clause); other != nil {
			ways = append(ways, wasOnFilm(other, said))
		}
	}
	return ways
}

// mayNameFilm is the words that name a film by its kind.
var mayNameFilm = pattern.AnyOf("pan ortho blue plate platte plaque")

// withFilter is a sheet with a filter on that words say was on.
func (sh *sheet) withFilter(f *filter, said string) another {
	return another{"whether " + f.name + " was on: " + quote(said), withOn(&use{name: f.name, at: sh.at})}
}

// against is what else the words of a line's ith term most likely say that was not counted.
func (s *season) against(sh *sheet, i int, said string) []another {
	if says(strings.Fields(strings.ToLower(said)), mightHave) {
		return nil
	}
	set := append(append(s.againstBellows(sh, i, said), sh.asRepeated(said)...), sh.asBoth(said)...)
	if rd := sh.reading; rd != nil {
		set = append(set, rd.indexTold(sh, said, indexOfMeter)...)
		if _, remark := sh.lines[0].Terms()[i].Kind.(*lang.Remark); remark {
			set = append(set, rd.shownTold(said, meterShowed)...)
		}
	}
	if m := wasSet().FindStringSubmatch(said); m != nil {
		asks := "whether " + quote(said) + " says what was set"
		for _, t := range lang.Within(m[1], s.names) {
			if k, ok := t.Kind.(*lang.Exposure); ok && k.EV == nil && k.Zone == nil {
				set = append(set, another{asks, func(at *sheet) { at.setTo(k) }})
			}
		}
	}
	return set
}

// mayTellOfSlip is words of which a line has one that owns to a slip, or has what was not counted in words.
var mayTellOfSlip = pattern.May(filterWasOn, factorForgotten, amountOff, bellowsForgotten, rackedFar, wideOpen, stuckOpen, whileOpen,
	mayTellOfBellows, oneMore, atBoxSpeed, indexOfMeter, wasSet, neverFired, secondTime, sameOnTop, slideWhileOpen, onBulb, leftOn, onlyOn, settingForgotten, lostCount, meterElsewhere).Or(mayBeUnknown).Or(ofOften).Or(closedEarly)

// mayBeUnknown is words without which no film is said to be unknown, and nothing of a meter.
var mayBeUnknown = pattern.AnyOf("unknown unmarked unlabel mystery inconnu unbekannt ahnung idea unsure meter needle")

// setTo gives a sheet the aperture and the time of a term, as far as it has them.
func (sh *sheet) setTo(k *lang.Exposure) {
	for _, part := range k.Parts {
		if part.Aperture != nil {
			sh.aperture = set(*part.Aperture, sh.at, false)
		}
		if part.Time != nil {
			sh.time = set(*part.Time, sh.at, false)
		}
	}
}

func isComma(t *lang.Term) bool {
	_, comma := t.Kind.(*lang.Comma)
	return comma
}

// filterTold is a filter of the kit that words say was on, and that is not counted: by its name with a
// figure, or by another or its colour with a word for that; nil for none. Words that deny it, or tell of another
// time or sheet, say nothing.
func (s *season) filterTold(sh *sheet, kind any, low string) *filter {
	all := kitOf(sh).thingsIn(low)
	if len(all) == 0 {
		return nil // as most
	}
	low = onAndForgotten().ReplaceAllString(filtersElsewhere(low), "on")
	if says(wordsIn(low), tellsOtherwise) || ownsToSlip().MatchString(low) {
		return nil
	}
	_, loose := kind.(*lang.Loose)
	for i := range all {
		f, is := all[i].thing.(*filter)
		if is && (all[i].coded() && !loose || stayedOn().MatchString(low)) && !kitOf(sh).isOn(&all[i], sh.filters) { // a name that stands by itself was read
			return f
		}
	}
	return nil
}

// besideOther is a filter that the line's ith term, words between two, says to have gone before the other or to have been
// on with it, nil where it is counted: yellow and then orange.
func besideOther(sh *sheet, i int) *use {
	all := sh.lines[0].Terms()
	words, loose := all[i].Kind.(*lang.Loose)
	if !loose || i == 0 || i+1 == len(all) || !only(lowered(words.Words), oneThenOther) {
		return nil
	}
	first, is := all[i-1].Kind.(*lang.Stack)
	if _, other := all[i+1].Kind.(*lang.Stack); !is || !other || all[i-1].Struck || withdrawn(all, i-1) {
		return nil
	}
	on := &use{name: first.Filters[len(first.Filters)-1].Name, at: all[i-1].Span}
	if slices.ContainsFunc(sh.filters, func(u *use) bool { return u.name == on.name }) {
		return nil
	}
	return on
}

// misheard is a filter of the kit on a sheet that has none, where a phone may have put another word for it, among words
// that say nothing but that it was on: read filter, with the pole on.
func misheard(sh *sheet, said string) []another {
	m := onlyOn().FindStringSubmatch(strings.ToLower(said))
	if m == nil || len(sh.filters) > 0 {
		return nil
	}
	word := strings.Join(m[1:], "")
	all := kitOf(sh).filters
	if len(kitOf(sh).thingsIn(word)) > 0 {
		return nil // is named
	}
	i := slices.IndexFunc(all, func(f *filter) bool {
		return lang.Mistaken(word, strings.ToLower(f.name)) || lang.Mistaken(word, f.colour)
	})
	if i < 0 {
		return nil
	}
	return []another{{"whether " + quote(said) + " is " + all[i].name + ", and was on", withOn(&use{name: all[i].name, at: sh.at})}}
}

// filmTold is a film of the kit that words say the sheet had, and not the one it is logged with: loaded with
// moth by mistake, ortho this time. A film's name may be any word, and must stand beside one for that.
func (s *season) filmTold(sh *sheet, low string) *film {
	if !sh.film.known || len(kitOf(sh).films) < 2 {
		return nil
	}
	words := wordsIn(low)
	if says(words, tellsNoFilm) {
		return nil
	}
	if other := kitOf(sh).otherFilm(words, sh.film.v); other != nil && saysFilm(low, strings.ToLower(other.name)) {
		return other
	}
	loading := ofLoading().MatchString(low)
	if slices.ContainsFunc(words, func(word string) bool {
		return !loading && !besideKind[word] && kindOfFilm(word) == "" && !strings.Contains(low, word+"'s ") && !strings.Contains(low, word+"’s ") && word != "s"
	}) {
		return nil
	}
	var ofKind *film
	for _, f := range kitOf(sh).films {
		if f == sh.film.v || !f.ofKind(words) || sh.film.v.ofKind(words) {
			continue
		}
		if ofKind != nil {
			return nil
		}
		ofKind = f
	}
	return ofKind
}

// ofKind reports whether words in lower case name a film by its kind: on the ortho, orthochromatic, and the plates
// of a film that is called plate.
func (f *film) ofKind(words []string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		kind := kindOfFilm(word)
		return kind != "" && (kind == f.class || kind == kindOfFilm(strings.ToLower(f.name)))
	})
}

// kindOfFilm is the kind of film that a word names: its class, or plate. "" for none.
func kindOfFilm(word string) string {
	for _, kind := range [...]string{handbook.Pan, handbook.Ortho, handbook.Blue} {
		if word == kind || strings.HasPrefix(word, kind+"chrom") {
			return kind
		}
	}
	if ofPlates[word] {
		return "plate"
	}
	return ""
}

// saysFilm reports whether words in lower case that have a film's name say that it was in the holder.
func saysFilm(low, name string) bool {
	before, behind, _ := strings.Cut(low, name)
	before, behind = itIs().ReplaceAllString(strings.TrimSpace(before), ""), strings.TrimSpace(strings.Trim(behind, ".!,; "))
	return ofLoading().MatchString(low) || strings.HasPrefix(behind, "film") || strings.HasPrefix(behind, "this time") || strings.HasSuffix(before, "film") ||
		behind == "" && standsOn[before]
}

// unreal are words that tell of what was wished or weighed, or of another day.
const unreal = "would could should might may maybe perhaps wish wanted thought try next tomorrow compare compared than like"

// The words are those of notes read for this (common practice, no source).
var (
	oneThenOther   = lang.SetOf("and then or oder ou")
	tellsNoFilm    = lang.SetOf(unreal + " not never no as also")
	besideKind     = lang.SetOf("the this these that a an one my time on film sheet stock emulsion dry glass sensitive was it now used again in really actually only with of last auf der dem den die das mit war sur la le les avec pellicule c'était")
	itIs           = pattern.Lazily(`^(?:it|this|that|das|es|dies) `)
	standsOn       = lang.SetOf("on was actually really auf war sur c'était")
	ofPlates       = lang.SetOf("plate plates platte platten plaque plaques")
	ofLoading      = pattern.Lazily(`\b(?:mistake|in error|versehentlich|aus versehen|irrtümlich|par erreur|par mégarde|loaded|mis-?loaded|in (?:it|the holder|this holder))\b|\b(?:this|that|the) holder (?:has|had|holds|held) (?:the |my )?\S+(?: film)?(?: in)?[.!]?$|\binstead\b|\b(?:sheets?|box|end|rest) of (?:\pL+['’]s |the |my )?\S+(?: film)?$`)
	tellsOtherwise = lang.SetOf(unreal + " no not without off none never kein keine ohne sans instead as vs versus control test left home bag forgot forgotten took taken removed came out away lost other another before after again first second third fourth last also too and or if when see shows metered read through factor because")
	mightHave      = lang.SetOf(unreal + " again intended planned first before")
	onAndForgotten = pattern.Lazily(`\bon,? (?:(?:and|but|i|had|just) )*forgot(?:ten)?(?: (?:about )?(?:it|that|this|the factor))?$`) // its factor, and not the filter
	stayedOn       = pattern.Lazily(`\b(?:still|was|were|left|stayed|is|remained) (?:still )?on\b|\bwith (?:the )?\w+ filter\b|^(?:(?:with|through) )?(?:\pL+['’]s |my |the )?\w+ filter$|^(?:(?:was|were|is|are|taken|shot|done|made) )*with (?:the )?\w+(?: on)?$|^had (?:the )?\w+(?: filter)? on$|\b(?:yellow|orange|red|green|blue) filter on\b|^(?:(?:war|waren|était|étaient|c'était) )*(?:avec|mit) (?:\w+ )?\w+ filter$|\b(?:noch|encore|toujours) (?:der |das |ein |le |un )?\w+ filter$|\b\w+ filter (?:war|ist|blieb|était) (?:noch|immer noch|encore|toujours|drauf|dran)\b`)
	onlyOn         = pattern.Lazily(`(?:^|[0-9]s? )(?:with |put )?(?:(?:the|a|my) )?(\pL+) filter(?: (?:is|was|still|on))*$|(?:^|[0-9]s? )(?:with )?(?:(?:the|a|my) )?filter (\pL+)(?: on)?$|(?:^|[0-9]s? )with (?:(?:the|a|my) )?(\pL+) on$`)
	wasSet         = pattern.Lazily(`(?i)\b(?:it was|(?:oops|sorry|no),? (?:that|this) was|was still|still|was really|was actually|really|actually|in fact|left|left it|stayed|(?:das|es|zeit|blende) war|war noch|hatte|noch auf|c['’]était|était (?:encore )?|resté) (?:at |on |auf |bei |noch |à )*((?:f/?[0-9]|1/[0-9])[^ ]*)`)
)
