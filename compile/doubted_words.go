package compile

import (
	"iter"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Settings and changes told in words beside a sheet that comes out right: gave eight, lens still on eleven, an
// eighth, no a half. More is asked of them than of those that take a blame back: the number stands behind words
// that make it a setting, and ends what they say.

// toldOtherwise takes back that a sheet is right where words, of its line or beside it, say that something else was set
// or seen.
func (s *season) toldOtherwise(sh *sheet, text string) bool {
	if putBack().MatchString(strings.ToLower(text)) {
		return false
	}
	for said := range clauses(text) {
		low := strings.ToLower(said)
		figures := inFigures(low)
		if says(wordsIn(maybeOther().ReplaceAllString(figures, "")), mightHave) {
			continue
		}
		if s.settingsTold(sh, said, false) {
			sh.ask("whether " + quote(said) + " says what was set")
			return true
		}
		if s.doubtedBy(sh, misheard(sh, said)) {
			return true
		}
		if figures != low && s.contradicted(sh, (&otherLine{sh: sh, names: s.names}).asIndex(figures)) {
			sh.ask("at which index it was exposed: " + quote(said))
			return true
		}
		if sh.reading != nil && s.doubtedBy(sh, sh.reading.indexTold(sh, said, indexOfMeter)) {
			return true
		}
		if sh.ownReading {
			continue
		}
		if sh.reading != nil && figures != low && s.doubtedBy(sh, sh.reading.shownTold(said, meterSays)) {
			return true
		}
		if !sh.lightBy.known && ofSun().MatchString(low) && wentByStops(said) && !lostOnTheWay().MatchString(low) {
			sh.ask("what the meter showed when it was exposed, after " + quote(said))
			return true
		}
	}
	return false
}

// settingsTold reports whether words say that something else was set. Where one way to take them makes the sheet right
// as well, they say nothing else; of several numbers the last counts.
func (s *season) settingsTold(sh *sheet, said string, unread bool) bool {
	told := tellsSetting(strings.ToLower(said), unread)
	if len(told.numbers) == 0 {
		return false
	}
	n := told.numbers[len(told.numbers)-1]                                                                                // a half, no, an eighth
	byHand := !told.slip && !told.ofLens && !strings.Contains(n, ".")                                                     // 5.6 is a mark
	mayBeHour := byHand && !told.ofTime && !strings.Contains(n, "/")                                                      // stopped at eight
	isLens := slices.ContainsFunc(kitOf(sh).lenses, func(l *lens) bool { return told.ofLens && trim(l.focalOr0()) == n }) // lens two ten
	return !isLens && !(mayBeHour && sh.tooShortByHand()) && s.contradicted(sh, s.setTold(n, told.ofTime || !told.ofLens, told.ofLens || !told.ofTime && !byHand))
}

// settingRemarked reports whether a remark says in figures, of the lens or by a word for a slip of the shutter, that something
// else was set: lens still at 5.6, Blende noch auf 22.
func (s *season) settingRemarked(sh *sheet, remark string) bool {
	if !strings.ContainsAny(remark, "0123456789") || !mayRemark.In(remark) || putBack().MatchString(strings.ToLower(remark)) {
		return false // as most
	}
	for said := range clauses(remark) {
		told := tellsSetting(strings.ToLower(said), true)
		if told.few() && (told.ofLens || told.slip && (strings.Contains(told.numbers[len(told.numbers)-1], "/") || says(wordsIn(said), ofShutter)) || told.ofTime && (told.slip || told.done) && !says(wordsIn(said), ofRule)) && s.settingsTold(sh, said, true) {
			return true
		}
	}
	return false
}

// few reports whether a clause tells one number, or one and another that it takes back: not f22.
func (t *settingTold) few() bool {
	const most = 2
	return len(t.numbers) > 0 && len(t.numbers) <= most
}

// settingTold is what a clause tells of settings, and of nothing else: its numbers, whether they are of the lens or of
// the time, and whether a word for a slip is among its words, or only one for what was done.
type settingTold struct {
	numbers              []string
	ofLens, ofTime, slip bool
	done                 bool
}

// tellsSetting is what a clause in lower case tells behind its last figure: lens still on eleven; no, a half; closed it
// after five seconds. All its words speak of settings, and one of them makes the number one; where another stands
// among them, they tell nothing. What stands in figures was read, but in a line that is not, and but for how long a
// shutter was open.
func tellsSetting(low string, unread bool) (told settingTold) {
	typed, words := wordsApart(low), wordsApart(inFigures(low))
	done, broken := false, false
	for i, word := range words {
		m := numberTold().FindStringSubmatch(word)
		behind := func(set map[string]bool) bool { return i > 0 && set[words[i-1]] }
		switch {
		case m != nil && !unread && slices.Contains(typed, word) && !(done && behind(untilThen)):
			told, done, broken = settingTold{}, false, false
		case m != nil:
			told.ofLens, told.ofTime = told.ofLens || m[1] != "", told.ofTime || m[3] == "s"
			if !behind(denies) && !(i > 1 && words[i-1] == "of" && words[i-2] == "instead") {
				told.numbers = append(told.numbers, m[2])
			}
		case word == "or" && i > 0 && numberTold().MatchString(words[i-1]) && (strings.Contains(words[i-1], "/") || slices.Contains(typed, words[i-1])):
			told.slip = true // an eighth or a quarter, and not two or three
		case word == "but" && (len(told.numbers) > 0 || broken) && i+1 < len(words) && !denies[words[i+1]]: // what stands before it was so said, and not so set
			told, done, broken = settingTold{}, false, false
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
		return settingTold{}
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

// The words are those of notes read for this (common practice, no source).
var (
	decimalComma = pattern.Lazily(`([0-9]),([0-9])`)
	numberTold   = pattern.Lazily(`^(f/?)?([0-9]+(?:[./][0-9]+)?)(s|th)?$`)
	tellsLens    = lang.SetOf("lens aperture iris diaphragm f focusing focussing blende objektiv optik diaphragme objectif ouverture")
	tellsTime    = lang.SetOf("shutter speed timer second seconds sec secs s exposure exposed verschluss zeit sekunde sekunden sek belichtet obturateur vitesse seconde secondes pose")
	putBack      = pattern.Lazily(`\b(?:put|set|turned|changed|moved|took) (?:it |that |them )?(?:back|right)\b|\b(?:noticed|saw|caught|remembered) (?:it |that )?in time\b|\bdid it in time\b`)
	ofRule       = lang.SetOf("corrected correction reciprocity schwarzschild metered")
	// mayRemark is words of which a remark has one that says in figures what was set.
	mayRemark    = pattern.AnyOf("lens aperture iris diaphragm blende objektiv optik objectif ouverture shutter timer verschluss obturateur no nein not falsch wrong sorry oops actual really instead correct mean make think prob perhaps may might could rather like sounded nearer closer still noch doch encore statt pardon oublié vergessen forgot mistake eher wohl klang fait plutôt closed shut stopped ended cut count zugemacht geschlossen abgebrochen fermé coupé")
	ofShutter    = lang.SetOf("shutter timer verschluss obturateur")
	tellsSlip    = lang.SetOf("no not sorry wrong oops actually really instead correction corrected mean meant make think probably maybe still mistake forgot gave given noch doch falsch nein statt vergessen encore non pardon oublié may might could perhaps rather like sounded nearer closer eher wohl klang fait plutôt")
	tellsDone    = lang.SetOf("counted count closed shut stopped ended released go ran went turned only got was were had another plus minus less more war stand ging était resté cut zugemacht geschlossen abgebrochen fermé coupé")
	untilThen    = lang.SetOf("after at around")
	gaveUp       = lang.SetOf("gave given")                                         // up, at three
	maybeOther   = pattern.Lazily(`\bmaybe (?:it was )?` + figureSaid + clauseEnds) // an eighth, maybe a half
	denies       = lang.SetOf("not than nicht pas")
	joinsTelling = lang.SetOf("a an the i it its it's that that's this is be been on at to for from in of and but or so then now all along just about around after too up down out set left lost let cut short off early late soon again oh wait taken shot done change changed reset said says reads showed open wide gewesen immer der die das den dem auf bei mit von ich es ist und aber l le la les un une de du à au sur est a été toujours have been sure nach glaube denke je crois que en bout après rather quite roughly")
)

// clauses are the stretches of a text between its commas, each by itself and then with the one before it.
func clauses(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		from, before := 0, 0
		for i := 0; i <= len(text); i++ {
			if i < len(text) && strings.IndexByte(",;()\"", text[i]) < 0 {
				continue
			}
			alone, both := strings.TrimSpace(text[from:i]), strings.Trim(text[before:i], " ,;()\"")
			if alone != "" && (!yield(alone) || both != alone && !yield(both)) {
				return
			}
			from, before = i+1, from
		}
	}
}

// setTold are the settings that a number may tell: an aperture, or a time, which is as often a part of a second.
func (s *season) setTold(n string, time, aperture bool) (ways []another) {
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
		ways = append(ways, putTo(lang.Within(text, s.names), "")...)
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

const (
	figureSaid = `([0-9]+(?:[./][0-9]+)?)(?:th)?(?: ?(?:s|secs?|seconds?)\b| (?:of )?a second\b)?`
	clauseEnds = `\s*(?:$|[.,;:)!?–—-]|(?:instead|not|by mistake|only|again|now|then|this time|after all|and then|for (?:that|this)|in error|all along|after focus\w*)\b)`
)

// changedFrom takes back that a sheet is right as a copy of another, where words behind the one for the same say that
// something was changed: same but at a quarter, same, twice as long.
func (s *season) changedFrom(sh *sheet) bool {
	all := sh.lines[0].Terms()
	at := slices.IndexFunc(all, func(t lang.Term) bool { _, same := t.Kind.(*lang.Same); return same && !t.Struck })
	if at < 0 || at == len(all)-1 || !sh.aperture.copied || !sh.time.copied || sh.bracket.known {
		return false
	}
	body := sh.lines[0].Body
	rest := strings.TrimSpace(sh.unstruck()[all[at].Span.End-body.Start:])
	figures := inFigures(strings.ToLower(rest))
	told := ""
	if m := sameBut().FindStringSubmatch(figures); m != nil && !strings.Contains(rest, m[1]) { // else it was read
		told = m[1]
	}
	if low := strings.ToLower(rest); !howChanged().MatchString(low) && !howChangedElse().MatchString(low) && (told == "" || !s.contradicted(sh, s.setTold(told, true, true))) && !(strings.Contains(figures, "stop") && s.contradicted(sh, (&otherLine{sh: sh}).asSteps(rest, false))) {
		return false
	}
	sh.ask("what " + quote(all[at].Span.Text()+" "+rest) + " changed")
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	sameBut = pattern.Lazily(`^[ ,]*(?:(?:as|like) \S+,? )?(?:(?:but|only|except|though|with|now|and|this time|then|settings?|exposure|time|shutter|lens|aperture|it|is|was|shot|given|gave|(?:closed|stopped|opened|shut|went)(?: right| further)?(?: up| down)?|set|down),? )*` +
		`(?:(?:at|on|to|for|f) ?(?:the )?)?` + figureSaid + clauseEnds)
	// Words of change in German and French, which stand anywhere behind the one for the same.
	howChangedElse = pattern.Lazily(`^[ ,;(–—-]*(?:(?:aber|nur|jedoch|etwas|ein wenig|dafür|diesmal|jetzt|mais|seulement|un peu|cette fois|avec|mit|zeit|temps|pose|belichtet|um|auf|de|d'|noch|encore|à|das|die|der|le|la|eine?r?|une?|[0-9][0-9./]*|½|halbe|demi|zwei|drei|deux|trois|\(|,) *)*` +
		`(?:(?:doppelt|dreimal|viermal|zweimal|achtmal|halb|dreifach|vierfach|zweifach)(?:e[nrs]?)?(?: (?:so (?:lang(?:e|es)?|viel|kurz)|zeit|belichtung|belichtet|belichtungszeit))?|halbiert|verdoppelt|(?:länger|kürzer|laenger|kuerzer)(?:e[nrs]?)?(?: (?:belichtet|zeit|belichtung|belichtungszeit))?|` +
		`(?:stufen?|blenden?|st)\.? (?:mehr|weniger|weiter|enger|kleiner|größer|groesser|auf|zu|drüber|drunter|über|unter)(?: (?:auf|zu|offen|geschlossen))?|(?:nächste|kleinere|größere|andere|weitere|engere) blende|(?:weiter )?(?:ab|auf)geblendet|` +
		`(?:(?:deux|trois|quatre|2|3|4) fois )?plus (?:long(?:ue|temps)?|court(?:e)?|ouvert|fermé)|(?:double|doublée?|moitié)(?: (?:du |de )?(?:temps|pose|la pose))?|moitié|diaph(?:ragme|\.)? (?:de )?(?:plus|moins|suivant|fermé|ouvert)|cran(?:s)? (?:de )?(?:plus|moins))` + `\s*(?:$|[.,;:)!?–—-])`)
	howChanged = pattern.Lazily(`^[ ,]*(?:(?:but|only|except|though|with|now|and|this time|then|a|an|bit|little|much|exposed|gave|given|it|shutter|time|exposure|lens|at|for|in) )*(?:(?:twice|doubled?|half|halved)(?: (?:as long|that|(?:the )?(?:time|exposure)))?|(?:longer|shorter|slower|faster)(?: time| exposure| shutter| speed)?|(?:stopped|closed) down|opened (?:up|out)|(?:less|more) (?:time|exposure))` + clauseEnds)
)

// unstruck is a sheet's line without what was struck or taken back.
func (sh *sheet) unstruck() string {
	body := sh.lines[0].Body
	text := body.Text()
	all := sh.lines[0].Terms()
	for i := range all {
		if at := all[i].Span; (all[i].Struck || withdrawn(all, i)) && liesIn(at, body) {
			text = text[:at.Start-body.Start] + strings.Repeat(" ", at.End-at.Start) + text[at.End-body.Start:]
		}
	}
	return text
}

var ofSun = pattern.Lazily(`\b(?:light|sun|licht|sonne|lumière|soleil)\b`)

// closedEarly is parts of words that tell how long a shutter was open in figures, and of how many stops the light went.
var closedEarly = pattern.AnyOf("closed shut stop ended released count")
