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
	for said := range clauses(text) {
		low := strings.ToLower(said)
		if says(wordsIn(low), mightHave) {
			continue
		}
		if s.settingsTold(sh, said, false) {
			sh.ask("whether " + quote(said) + " says what was set")
			return true
		}
		if s.doubtedBy(sh, misheard(sh, said)) {
			return true
		}
		figures := inFigures(low)
		if figures != low && s.contradicted(sh, (&otherLine{sh: sh, names: s.names}).asIndex(figures), false) {
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
// as well, they say nothing else, and what stands in figures was read, but in a line that is not, or where it is how
// long a shutter was open.
func (s *season) settingsTold(sh *sheet, said string, unread bool) bool {
	figures := inFigures(strings.ToLower(said))
	for _, told := range toldSettings {
		for _, m := range told.by().FindAllStringSubmatch(figures, -1) {
			spoken := func(n string) bool { return n != "" && !strings.Contains(said, n) }
			if (unread || told.long || slices.ContainsFunc(m[1:], spoken)) && s.contradicted(sh, s.setTold(m[1:], told.time, told.aperture), told.long) {
				return true
			}
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

// setTold are the settings that the figures of a telling may be: of a lens an aperture, of a shutter a time, which is
// as often a part of a second.
func (s *season) setTold(figures []string, time, aperture bool) (ways []another) {
	for _, n := range figures {
		if n == "" {
			continue
		}
		var texts []string
		if time {
			texts = append(texts, n+"s")
			if !strings.Contains(n, "/") {
				texts = append(texts, "1/"+n)
			}
		}
		if aperture && !strings.Contains(n, "/") {
			texts = append(texts, "f"+n)
		}
		for _, text := range texts {
			ways = append(ways, putTo(lang.Within(text, s.names), "")...)
		}
	}
	return ways
}

// contradicted reports whether a sheet is right by none of some ways; of those of a long exposure, only where it is one.
func (s *season) contradicted(sh *sheet, ways []another, long bool) bool {
	return len(ways) > 0 && !(long && sh.tooShortByHand()) && !slices.ContainsFunc(ways, func(way another) bool {
		at := *sh
		way.put(&at)
		return s.assessed(&at, sh.outing.book.at100).state == record.Right
	})
}

// telling is a way in which people say what was set: a time, an aperture, either, or how long a long one was.
type telling struct {
	by                   pattern.Lazy
	time, aperture, long bool
}

// toldSettings are the ways in which people say what was set in fact. The words are those of notes read for this
// (common practice, no source).
var toldSettings = []telling{
	{pattern.Lazily(`\b(?:lens|aperture|iris|diaphragm)` + stoodAt + figureSaid + clauseEnds), false, true, false},
	{pattern.Lazily(`\bf ?/?([0-9]+(?:\.[0-9])?),? (?:and )?(?:not|instead of|rather than) (?:at |on )?(?:f ?/?)?[0-9]`), false, true, false},
	{pattern.Lazily(`\b(?:was|were|taken|shot|done|made)` + stoodAt + `f ?/?` + figureSaid + clauseEnds), false, true, false},
	{pattern.Lazily(`\b(?:aperture|iris|diaphragm) ` + figureSaid + clauseEnds), false, true, false},
	{pattern.Lazily(`^(?:was|were|got|had)(?: (?:really|actually|at|on|only|done|shot|taken|given))* ` + figureSaid + `(?:,? (?:and )?not (?:at |on )?[0-9]|` + clauseEnds + `)`), true, true, false},
	{pattern.Lazily(`\bshutter(?: speed)?` + stoodAt + figureSaid + clauseEnds), true, false, false},
	{pattern.Lazily(`\b(?:gave|given|counted|exposed for)(?: (?:it|only|just|about|up|to))* ` + figureSaid + clauseEnds), true, true, false},
	{pattern.Lazily(`(?:^|[,;] |` + figureAhead + `|\b(?:i|we|but|and|had|was|only|shutter|lens) )(?:closed|shut|stopped|ended|released|let go|cut short|cut off|lost count)(?: (?:it|the shutter|the lens|early|too early|too soon|short))* (?:after|at|around)(?: (?:only|just|about))* ` + figureSaid + clauseEnds), true, false, true},
	{pattern.Lazily(`(?:^|[,;.(–—-] ?|` + figureAhead + `)(?:no|no wait|oh no|sorry|wrong|oops|i mean|i meant|make (?:that|it)|corrected|correction|or was it|was it)[,:]?(?: (?:to|it was|that was|it's|only|at|on))* ` + figureSaid + clauseEnds), true, true, false},
	{pattern.Lazily(`(?:^|[,;.(–—-] ?|` + figureAhead + `)(?:(?:it|that) was |was )?(?:still|really|actually|set) (?:at|on|to) ` + figureSaid + clauseEnds + `|\bleft at ` + figureSaid + ` after focus`), true, true, false},
}

const (
	stoodAt     = `(?: (?:was|is|were|still|left|set|stayed|had been|really|actually|in fact|now|again|only|just|accidentally|taken|shot))* (?:at|on|to) (?:the )?`
	figureSaid  = `([0-9]+(?:[./][0-9]+)?)(?:th)?(?: ?(?:s|secs?|seconds?)\b| (?:of )?a second\b)?`
	figureAhead = `[0-9](?: ?s| ?secs?| ?seconds?| ?minutes?)? `
	clauseEnds  = `\s*(?:$|[.,;:)!?–—-]|(?:instead|not|by mistake|only|again|now|then|this time|after all|and then|for (?:that|this)|in error|all along|after focus\w*)\b)`
)

// changedFrom takes back that a sheet is right as a copy of another, where words behind the one for the same say that
// something was changed: same but at a quarter, same, twice as long.
func (s *season) changedFrom(sh *sheet) bool {
	all := sh.lines[0].Terms
	at := slices.IndexFunc(all, func(t lang.Term) bool { _, same := t.Kind.(*lang.Same); return same && !t.Struck })
	if at < 0 || at == len(all)-1 || !sh.aperture.copied || !sh.time.copied || sh.bracket.known {
		return false
	}
	body := sh.lines[0].Body
	rest := strings.TrimSpace(sh.unstruck()[all[at].Span.End-body.Start:])
	figures := inFigures(strings.ToLower(rest))
	var told []string
	if m := sameBut().FindStringSubmatch(figures); m != nil && !strings.Contains(rest, m[1]) { // else it was read
		told = m[1:]
	}
	if !howChanged().MatchString(strings.ToLower(rest)) && !s.contradicted(sh, s.setTold(told, true, true), false) && !(strings.Contains(figures, "stop") && s.contradicted(sh, (&otherLine{sh: sh}).asSteps(rest, false), false)) {
		return false
	}
	sh.ask("what " + quote(all[at].Span.Text()+" "+rest) + " changed")
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	sameBut = pattern.Lazily(`^[ ,]*(?:(?:as|like) \S+,? )?(?:(?:but|only|except|though|with|now|and|this time|then|settings?|exposure|time|shutter|lens|aperture|it|is|was|shot|given|gave|(?:closed|stopped|opened|shut|went)(?: right| further)?(?: up| down)?|set|down),? )*` +
		`(?:(?:at|on|to|for|f) ?)?` + figureSaid + clauseEnds)
	howChanged = pattern.Lazily(`^[ ,]*(?:(?:but|only|except|though|with|now|and|this time|then|a|an|bit|little|much|exposed|gave|given|it|shutter|time|exposure|lens) )*(?:(?:twice|doubled?|half|halved)(?: (?:as long|that|(?:the )?(?:time|exposure)))?|(?:longer|shorter|slower|faster)(?: time| exposure| shutter| speed)?|(?:stopped|closed) down|opened (?:up|out)|(?:less|more) (?:time|exposure))` + clauseEnds)
)

// unstruck is a sheet's line without what was struck or taken back.
func (sh *sheet) unstruck() string {
	body := sh.lines[0].Body
	text := body.Text()
	all := sh.lines[0].Terms
	for i := range all {
		if at := all[i].Span; (all[i].Struck || withdrawn(all, i)) && liesIn(at, body) {
			text = text[:at.Start-body.Start] + strings.Repeat(" ", at.End-at.Start) + text[at.End-body.Start:]
		}
	}
	return text
}

var ofSun = pattern.Lazily(`\b(?:light|sun)\b`)

// closedEarly is parts of words that tell how long a shutter was open in figures, and of how many stops the light went.
var closedEarly = pattern.AnyOf("closed shut stop ended released count")
