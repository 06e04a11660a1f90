package compile

import (
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Settings as people tell them beside what is logged: gave eight; an eighth, no a half; lens still on eleven; f22 on closer
// look; the ring stood at 22. One piece finds all of them in a text and says how sure each is; who asks takes what is sure
// enough for him. What is sure counts alike whether the sheet comes out right or not, unless its words tell of another sheet
// or time, of metering or of prints.

// settingSure is how sure it is that a text says of a setting that it stood otherwise than it is logged.
type settingSure uint8

const (
	settingDone     settingSure = iota // no other words stand beside its number than such as tell of settings: it was eight
	settingOfThing                     // and they are of the lens, or of a slip of the shutter: lens still at 5.6
	settingSigned                      // it has an aperture's sign, among other words: f22 on closer look
	settingPutRight                    // behind words that put right what is logged, or are of what is set: the ring stood at 22
)

// setOtherwise takes back that a sheet is right where a text says, at least so surely, that something else was set. Where one
// way to take what is said makes the sheet right as well, it says nothing else. What stands in figures may have been read.
func (s *season) setOtherwise(sh *sheet, text, said string, least settingSure, read bool) bool {
	for _, ways := range s.settingsSaid(sh, text, said, least, read) {
		if s.contradicted(sh, ways) {
			sh.ask(ways[0].asks)
			return true
		}
	}
	return false
}

// putRight are the ways by what a text surely says was set.
func (s *season) putRight(sh *sheet, text string) []another {
	return slices.Concat(s.settingsSaid(sh, text, strings.TrimSpace(text), settingSigned, false)...)
}

// settingsSaid are the settings that a text says stood otherwise, at least so surely: all ways to take them, by each of its
// clauses that says so and by its sentences.
func (s *season) settingsSaid(sh *sheet, text, said string, least settingSure, read bool) (all [][]another) {
	if !strings.ContainsAny(text, "0123456789") && !mayCount.In(text) {
		return nil // as most
	}
	inWords := least == settingDone || (least == settingOfThing && maySlip.In(text) || mayDeny.In(text)) && !putBack().MatchString(strings.ToLower(text))
	among := !read && (maySet(text) || mayBePutRight.In(text))
	if !inWords && !among {
		return nil // as most
	}
	asks := "whether " + quote(said) + " says what was set"
	if inWords {
		for clause := range clauses(text) {
			if ways := s.settingTold(sh, strings.ToLower(clause), asks, least, read); len(ways) > 0 {
				all = append(all, ways)
			}
		}
	}
	if among {
		var ways []another
		for _, sentence := range lang.Sentences(text) {
			ways = append(ways, s.settingPutRight(sh, strings.ToLower(strings.Trim(sentence, " .!()[]")), asks, least)...)
		}
		all = append(all, ways)
	}
	return all
}

// settingTold are the ways by a clause in lower case that tells of a setting and of nothing else; of several numbers the last
// counts: a half, no, an eighth.
func (s *season) settingTold(sh *sheet, low, asks string, least settingSure, read bool) []another {
	told := tellsSetting(low, !read)
	if len(told.numbers) == 0 || max(told.sure(low), s.putsRight(sh, &told)) < least {
		return nil
	}
	n := told.last()
	byHand := !told.slip && !told.ofLens && !strings.Contains(n, ".")     // 5.6 is a mark
	mayBeHour := byHand && !told.ofTime && !strings.Contains(n, "/")      // stopped at eight
	if told.ofLens && sh.isFocal(n) || mayBeHour && sh.tooShortByHand() { // lens two ten
		return nil
	}
	return s.setTold(n, asks, told.ofTime || !told.ofLens, told.ofLens || !told.ofTime && !byHand)
}

// settingPutRight are the ways by a sentence in lower case that puts right what is logged, among whatever words.
func (s *season) settingPutRight(sh *sheet, low, asks string, least settingSure) (ways []another) {
	const tale = 10 // words
	low = asideSaid().ReplaceAllString(low, "")
	figures, set := inFigures(low), maySet(low)
	if !set && !mayBePutRight.In(figures) {
		return nil // as most
	}
	words := wordsIn(strings.Replace(low, "for another", "for", 1))
	if len(words) > tale || says(words, notPutRight) {
		return nil
	}
	if set {
		sure := settingSigned
		if correctsSetting().MatchString(low) || tellsOpen().MatchString(figures) {
			sure = settingPutRight
		}
		for _, t := range lang.Within(low, s.names) {
			k, is := t.Kind.(*lang.Exposure)
			if !is || k.EV != nil || k.Zone != nil || t.Struck || sure < least {
				continue
			}
			if sure == settingPutRight || slices.ContainsFunc(k.Parts, func(p lang.Setting) bool { return p.Aperture != nil }) { // times are also of what moved, and parts of all things
				ways = append(ways, putTo([]lang.Term{t}, asks)...)
			}
		}
	}
	if m := numberOfLens().FindStringSubmatch(figures); m != nil && !sh.isFocal(m[1]) {
		ways = append(ways, s.setTold(m[1], asks, false, true)...)
	}
	if m := numberPutRight().FindStringSubmatch(figures); m != nil && !sh.isFocal(m[1]+m[2]) {
		ways = append(ways, s.setTold(m[1]+m[2], asks, true, true)...)
	}
	if m := tellsOpen().FindStringSubmatch(figures); m != nil && !sh.tooShortByHand() {
		ways = append(ways, s.setTold(m[1], asks, true, false)...)
	}
	if len(ways) == 0 || hourSaid().MatchString(low) || lang.Elsewhere(low) || putBack().MatchString(low) { // dear, and most have none
		return nil
	}
	return ways
}

// isFocal reports whether a number is the focal length of a lens of the kit.
func (sh *sheet) isFocal(n string) bool {
	return slices.ContainsFunc(kitOf(sh).lenses, func(l *lens) bool { return trim(l.focalOr0()) == n })
}

// setTold are the settings that a number may tell: an aperture, or a time, which is as often a part of a second.
func (s *season) setTold(n, asks string, time, aperture bool) (ways []another) {
	whole := !strings.Contains(n, "/")
	var texts []string
	if time {
		texts = append(texts, n+"s")
	}
	if time && whole {
		texts = append(texts, "1/"+n)
	}
	if aperture && whole {
		texts = append(texts, "f"+n)
	}
	for _, text := range texts {
		ways = append(ways, putTo(lang.Within(text, s.names), asks)...)
	}
	return ways
}

// contradicted reports whether a sheet is right by none of some ways.
func (s *season) contradicted(sh *sheet, ways []another) bool {
	return len(ways) > 0 && !slices.ContainsFunc(ways, func(way another) bool {
		at := *sh
		way.put(&at)
		return s.assessed(&at, sh.outing.book.at100).state == record.Right
	})
}

// toldSetting is what a clause tells of settings, and of nothing else: its numbers, whether they are of the lens or of
// the time, and whether a word for a slip is among its words, or only one for what was done.
type toldSetting struct {
	numbers, denied      []string // denied: not 16
	ofLens, ofTime, slip bool
	done                 bool
}

// few reports whether a clause tells one number, or one and another that it takes back: not f22.
func (t *toldSetting) few() bool {
	const most = 2
	return len(t.numbers) > 0 && len(t.numbers) <= most
}

func (t *toldSetting) last() string { return t.numbers[len(t.numbers)-1] }

// putsRight is how sure it is that a clause puts right what is logged, which it does where it denies that: 22 not 16, on f/16.
func (s *season) putsRight(sh *sheet, told *toldSetting) settingSure {
	given, ok := secondsOf(sh.time.v)
	if len(told.denied) != 1 || len(told.numbers) != 1 || !ok {
		return settingDone
	}
	for _, way := range s.setTold(told.denied[0], "", true, true) {
		at := *sh
		at.aperture, at.time = setting[lang.Aperture]{}, setting[lang.Time]{}
		way.put(&at)
		if seconds, ok := secondsOf(at.time.v); at.time.known && ok && seconds == given || at.aperture.known && at.aperture.v.Mark == sh.aperture.v.Mark {
			return settingPutRight
		}
	}
	return settingDone
}

// sure is how sure a clause in lower case with numbers is of them.
func (t *toldSetting) sure(low string) settingSure {
	if t.few() && (t.ofLens || t.slip && (strings.Contains(t.last(), "/") || says(wordsIn(low), ofShutter)) || t.ofTime && (t.slip || t.done) && !says(wordsIn(low), ofRule)) {
		return settingOfThing
	}
	return settingDone
}

// tellsSetting is what a clause in lower case tells behind its last figure: lens still on eleven; no, a half; closed it
// after five seconds. All its words speak of settings, and one of them makes the number one; where another stands
// among them, they tell nothing. What stands in figures was read, but in a line that is not, and but for how long a
// shutter was open.
func tellsSetting(low string, unread bool) (told toldSetting) {
	typed, words := wordsApart(low), wordsApart(inFigures(low))
	done, broken := false, false
	for i, word := range words {
		m := numberTold().FindStringSubmatch(word)
		behind := func(set map[string]bool) bool { return i > 0 && set[words[i-1]] }
		switch {
		case m != nil && !unread && slices.Contains(typed, word) && !(done && behind(untilThen)):
			told, done, broken = toldSetting{}, false, false
		case m != nil:
			n := m[2]
			if m[3] == "th" && !strings.Contains(n, "/") {
				n = "1/" + n
			}
			told.ofLens, told.ofTime = told.ofLens || m[1] != "", told.ofTime || m[3] == "s"
			if !behind(denies) && !(i > 1 && words[i-1] == "of" && words[i-2] == "instead") {
				told.numbers = append(told.numbers, n)
			} else {
				told.denied = append(told.denied, n)
			}
		case word == "or" && i > 0 && numberTold().MatchString(words[i-1]) && (strings.Contains(words[i-1], "/") || slices.Contains(typed, words[i-1])):
			told.slip = true // an eighth or a quarter, and not two or three
		case word == "but" && (len(told.numbers) > 0 || broken) && i+1 < len(words) && !denies[words[i+1]]: // what stands before it was so said, and not so set
			told, done, broken = toldSetting{}, false, false
		case tellsLens[word]:
			told.ofLens = true
		case tellsTime[word]:
			told.ofTime = true
		case tellsSlip[word]:
			told.slip = true
		case tellsDone[word]:
			done = true
		case !joinsTelling[word] && !(word == "by" && i+1 < len(words) && words[i+1] == "mistake"), word == "up" && behind(gaveUp):
			broken = true
		}
	}
	if broken || !done && !told.slip && !told.ofLens && !told.ofTime {
		return toldSetting{}
	}
	told.done = done
	return told
}

// wordsApart are the words of a text, with the marks within its figures.
func wordsApart(text string) []string {
	text = decimalComma().ReplaceAllString(text, "$1.$2")
	words := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" \t,;:!?()\"–—-'’", c) })
	for i, word := range words {
		words[i] = strings.Trim(word, ".")
	}
	return words
}

const (
	lensWords = "lens aperture iris diaphragm focusing focussing blende objektiv optik diaphragme objectif ouverture"
	slipWords = "no not sorry wrong oops actually really instead correction corrected mean meant make think probably maybe still mistake forgot gave given noch doch falsch nein statt vergessen encore non pardon oublié may might could perhaps rather like sounded nearer closer eher wohl klang fait plutôt"
	exclaims  = `oops|whoops|damn|blast|drat|bother|argh|doh|bugger|crap`
	doneWords = "counted count closed shut stopped ended released go ran went turned only got was were had another plus minus less more war stand ging était resté cut zugemacht geschlossen abgebrochen fermé coupé"
)

// The words are those of notes read for this (common practice, no source).
var (
	decimalComma = pattern.Lazily(`([0-9]),([0-9])`)
	numberTold   = pattern.Lazily(`^(f/?)?([0-9]+(?:[./][0-9]+)?)(s|th)?$`)
	tellsLens    = lang.SetOf("f " + lensWords)
	tellsTime    = lang.SetOf("shutter speed timer second seconds sec secs s exposure exposed verschluss zeit sekunde sekunden sek belichtet obturateur vitesse seconde secondes pose")
	putBack      = pattern.Lazily(`\b(?:put|set|turned|changed|moved|took) (?:it |that |them )?(?:back|right)\b|\b(?:noticed|saw|caught|remembered) (?:it |that )?in time\b|\bdid it in time\b`)
	ofRule       = lang.SetOf("corrected correction reciprocity schwarzschild metered")
	ofShutter    = lang.SetOf("shutter timer verschluss obturateur")
	tellsSlip    = lang.SetOf(slipWords)
	tellsDone    = lang.SetOf(doneWords)
	maySlip      = pattern.AnyOf(lensWords + " " + slipWords + " " + doneWords)
	mayDeny      = pattern.AnyOf("not than instead nicht pas")
	untilThen    = lang.SetOf("after at around")
	gaveUp       = lang.SetOf("gave given")                                         // up, at three
	maybeOther   = pattern.Lazily(`\bmaybe (?:it was )?` + figureSaid + clauseEnds) // an eighth, maybe a half
	denies       = lang.SetOf("not than nicht pas")
	joinsTelling = lang.SetOf("a an the i it its it's that that's this is be been on at to for from in of and but or so then now all along just about around after too up down out set left lost let cut short off early late soon again oh wait taken shot done change changed reset said says reads showed open wide gewesen immer der die das den dem auf bei mit von ich es ist und aber l le la les un une de du à au sur est a été toujours have been sure nach glaube denke je crois que en bout après rather quite roughly")
	notPutRight  = lang.SetOf("would could might may maybe perhaps wish wanted thought try next tomorrow compare compared than like meter metered metering measured asked asks wants base recip reciprocity schwarzschild uncorrected corrected factor filter filters wind gust gusts wave waves water leaves train scale grid intended planned focus focused focusing other another first too also limit max widest sync flash over times viewed beyond below diffraction sharp sharper sharpest best soft softer should every each until till wait waited ago print prints print: dev fix soak agitate")
	// correctsSetting is words by which a time in seconds is one that was given.
	correctsSetting = pattern.Lazily(`\b(?:scrap|scratch|edit|edited|corr|corrected|correction|corrects|amend|amended|erratum|really|actually|in fact|in truth|later|sorry|oops|no|rather|that was$|(?:` + exclaims + `)(?: it)?[,:]|i guess|forgot|forgotten|meant|i mean|closer look|second look|after all)\b`)
	numberOfLens    = pattern.Lazily(`\b(?:ring|lens|aperture|iris|diaphragm|stop|blende|objektiv|diaphragme)\b(?: \pL+){0,5} ([0-9]+(?:[.,][0-9])?)(?:$|[,;)]| (?:after|all|in|the whole|instead|really|actually|not|by))`)
	numberPutRight  = pattern.Lazily(`(?:^|[ ,;(])(?:(?:scrap(?: that| it)?|scratch(?: that| it)?|edit(?:ed)?|corr|correction|amend(?:ed)?|really|actually|later|only|stood|slipped)[:,. ]+|no[:, ]+)(?:(?:to|at|on|it|was|a|just|more|like) )*([0-9]+(?:[./][0-9]+)?) ?(?:$|[,;)]|s\b|(?:in fact\b|of (?:it|them|that|those)(?: open)?$|after all|in truth|open\b))|(?:^|[ ,;(])([0-9]+(?:[./][0-9]+)?) (?:in fact|after all|in truth|on (?:a )?(?:closer|second) look)$`)
	mayBePutRight   = pattern.May(numberOfLens, numberPutRight, tellsOpen)
	hourSaid        = pattern.Lazily(`\b[0-9]{1,2}:[0-9]{2}\b`)
	tellsOpen       = pattern.Lazily(`\b(?:open|opened|release|released|shutter|cable|cap off|let go)\b[^0-9.;]{0,40}?[ ,(]([0-9]+(?:[./][0-9]+)?) ?(?:$|[,;)]|s\b|secs?\b|seconds?\b|(?:of (?:it|them|that|those)|or so)\b)`)
)
