package compile

import (
	"iter"
	"slices"
	"strings"

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
		if s.setOtherwise(sh, said, said, settingDone, true) {
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
	if low := strings.ToLower(rest); !howChanged().MatchString(low) && !howChangedElse().MatchString(low) && (told == "" || !s.contradicted(sh, s.setTold(told, "", true, true))) && !(strings.Contains(figures, "stop") && s.contradicted(sh, (&otherLine{sh: sh}).asSteps(rest, false))) {
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
