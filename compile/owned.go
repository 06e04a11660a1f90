package compile

import (
	"slices"
	"strings"

	"notchbook/lang/pattern"
)

// Words by which a writer owns to a slip on a sheet that comes out right: the one contradicts the other.

// ownedTo is what is asked of a sheet that comes out right and whose words own to what would have made it wrong,
// with no figure to reckon with: forgot the filter factor, lens still wide open, lamp went out halfway. "" for
// nothing, and where they tell of another sheet or time, or of what was noticed before.
func (sh *sheet) ownedTo(said string) string {
	low := hasty().ReplaceAllString(strings.ToLower(said), "${1}n't")
	asks := ""
	switch {
	case filterWasOn().MatchString(low):
		if len(sh.filters) == 0 {
			asks = "which filter was on: "
		}
	case factorForgotten().MatchString(low), amountOff().MatchString(low) && ownsToSlip().MatchString(low):
		asks = "how it came out right after "
	case bellowsForgotten().MatchString(low), rackedFar().MatchString(low) && !sh.saysDrawn():
		asks = "how far the bellows were out: "
	case wideOpen().MatchString(low) && !sh.opensWidestAt():
		asks = "what aperture it had: "
	case stuckOpen().MatchString(low), lostCount().MatchString(low) && !sh.tooShortByHand(), onBulb().MatchString(low) && sh.tooShortByHand():
		asks = "how long the shutter was open: "
	case neverFired().MatchString(low):
		asks = "whether any light came to it: "
	case secondTime().MatchString(low):
		asks = "whether it was exposed twice: "
	case slideWhileOpen().MatchString(low):
		asks = "how much light it got: "
	case settingForgotten().MatchString(low):
		asks = "what was set: "
	case meterWrong().MatchString(low):
		asks = "what the meter should have shown: "
	case filmUnknown().MatchString(low):
		asks = "which film it was: "
	case leftOn().MatchString(low):
		asks = "what was left on: "
	case whileOpen().MatchString(low) && changeIn(low) != 0:
		asks = "how much of the exposure was over when the light changed: "
	}
	if asks == "" || ofOthers().MatchString(filmUnknown().ReplaceAllString(slideWhileOpen().ReplaceAllString(secondTime().ReplaceAllString(low, ""), ""), "")) {
		return ""
	}
	return asks + quote(said)
}

// notOn are the ways by words that say no more than that a filter of the sheet was not on after all, or none of them:
// forgotten, still in the bag, nicht drauf. What was forgotten is open.
func (sh *sheet) notOn(said string) (ways []another) {
	if len(sh.filters) == 0 {
		return nil // as most
	}
	for clause := range clauses(said) {
		low := strings.ToLower(clause)
		for _, u := range sh.filters {
			low = strings.Replace(low, strings.ToLower(u.name), "filter", 1)
		}
		if !wasNotOn().MatchString(low) && !keptByOthers().MatchString(low) {
			continue
		}
		asks := "whether a filter was on: " + quote(said)
		ways = append(ways, another{asks, func(at *sheet) { at.filters = nil }})
		for n := 0; n < len(sh.filters) && len(sh.filters) > 1; n++ {
			ways = append(ways, another{asks, func(at *sheet) { at.filters = slices.Delete(slices.Clone(sh.filters), n, n+1) }})
		}
	}
	return ways
}

// opensWidestAt reports whether a sheet has the widest aperture of its lens.
func (sh *sheet) opensWidestAt() bool {
	at := sh.aperture.v
	return at.Widest || sh.lens.known && sh.lens.v != nil && len(sh.lens.v.marks) > 0 && sh.lens.v.marks[0].Mark == at.Mark
}

// tooShortByHand reports whether a sheet's time is one that only a shutter gives.
func (sh *sheet) tooShortByHand() bool {
	const byHand = 1 // seconds
	given, ok := secondsOf(sh.time.v)
	return ok && given < byHand
}

// The words are those of notes read for this (common practice, no source).
var (
	// ofOthers tells of another sheet, of another time, or of what was put right before the shutter.
	ofOthers    = pattern.Lazily(`\b(?:[0-9]{1,3}[a-d]|nearly|almost|(?:did not|didn't|never|not) forg[eo]t\w*|not (?:still|stuck|left)|at first|first|last (?:time|week|one)|next|before|earlier|previous\w*|yesterday|this time|again|other|noticed|remembered|(?:no|without|wish|would|could|should|might|may|if)|afterwards?|later|test|closed it|focus(?:ing|sing|ed|sed)?)\b`)
	filterWasOn = pattern.Lazily(`\b(?:forgot|forgotten|wrong|didn't (?:see|notice)|left|still)\b.*\bfilter(?: was| were| had been)?(?: still| left)? on\b|\bfilters? (?:(?:is|was|were|stayed|has been|had been) )?(?:still|left) on\b|\b\pL*-?filter (?:(?:war|ist|blieb|sass|saß) )?(?:immer )?(?:noch )?(?:drauf|dran|aufgeschraubt)\b|\bfiltre (?:\pL+ )?(?:(?:est|était|etait|a été) )?(?:encore|resté|toujours|laissé)(?: |$)|\b(?:rouge|jaune|vert|orange|rote|gelbe|grüne) (?:était|etait|est|war|ist|sass|saß) (?:encore|toujours|resté|immer noch|noch)\b|^(?:with )?(?:the |a |my )?(?:wrong )?filter(?: was)?(?: still| left)? on$|^with (?:the |a |my )filter$`)
	wasNotOn    = pattern.Lazily(`^(?:(?:but|oh|no|oops|sorry|damn|and|i|it|was|is|had|got|then|just|in the end|actually|ach|doch|mist|aber|war|wurde|zut|mais|était|the|\pL+ one|\pL+filter|filter|filtre|red|yellow|orange|green|blue),? )*` +
		`(?:forgotten|forgot(?: it| (?:to )?(?:put|putting|screw|screwing|fit|fitting|mount|mounting) (?:it|the(?: \pL+)? filter) (?:on|in)| (?:to )?(?:use|using|fit|mount) (?:it|the(?: \pL+)? filter)| (?:the |my )(?:\pL+ )?filter)?|left (?:it )?(?:off|out)|(?:never|not|wasn't|wasn’t|didn't|didn’t|did not)(?: actually| really| get| got)? (?:on|used?|fitted|fit|mounted|screwed (?:on|in)|in place|put (?:it )?(?:on|in))(?: it)?(?: the lens)?` +
		`|(?:still )?in (?:the|my|its) (?:bag|pocket|case|box|wallet|pouch|rucksack|jacket)|(?:no (?:\pL+ )?filter(?: on)?|without (?:the |a |any )?(?:\pL+ )?filter|ohne (?:den |einen |das )?\pL*filter|sans (?:le |la )?filtre(?: \pL+)?)|vergessen|(?:nicht|nie) (?:drauf|dran|aufgesetzt|aufgeschraubt|benutzt|verwendet|davor)|weggelassen|fehlte|noch in der tasche|(?:oublié|oubliée|pas mise?|pas montée?|pas utilisée?|jamais mise?)|(?:resté |encore )?dans (?:le|mon) sac|oublié (?:de le mettre|le filtre))(?: again| after all| in the end| this time| in fact| in truth| actually| really| en fait| finalement)?[.!]*$`)
	keptByOthers     = pattern.Lazily(`^\pL+ (?:kept|has|took|borrowed|needed) (?:it|(?:the |my )?(?:\pL+ )?filter|the (?:red|yellow|orange|green|blue|pol))(?: back| now| again| home)*[.!]*$`)
	factorForgotten  = pattern.Lazily(`\b(?:forgot|forgotten|omitted|missed|ignored|left out|(?:did not|didn't) (?:allow for|add|give|apply|count)|no allowance for)(?: to (?:allow for|add|give|apply|count))? (?:the |my |a |any |its |about )*(?:\w+ )?(?:factors?|compensation|reciprocity|schwarzschild)\b|\b\pL*faktor (?:vergessen|nicht (?:berücksichtigt|eingerechnet|gerechnet|gegeben))|\bschwarzschild\pL* vergessen|\b(?:facteur|coefficient)(?: du filtre)? (?:oublié|pas compté)|\boublié (?:de compter )?(?:le |du )?(?:facteur|coefficient)\b`)
	amountOff        = pattern.Lazily(amountSaid + ` (?:over|under|too much|too little|short|over-?exposed|under-?exposed)\b`)
	bellowsForgotten = pattern.Lazily(`\b(?:forgot|forgotten|omitted|ignored|(?:did not|didn't) (?:allow for|count|add))(?: to (?:allow for|count|add))? (?:the |my |about )*(?:bellows|extension|bel)(?: factor| extension)?(?: (?:for|on) (?:that|this)(?: one| sheet)?)?\s*(?:[.,;!)]|$)|\b(?:auszug\pL*|balgen\pL*)(?: (?:von )?[0-9]+(?: ?[cm]m)?)? (?:vergessen|übersehen|nicht (?:berücksichtigt|beachtet|gerechnet|eingerechnet))|\b(?:tirage|soufflet)(?: (?:de )?[0-9]+(?: ?[cm]m)?)? (?:oublié|négligé|pas compté)|\boublié (?:de compter )?le (?:tirage|soufflet)\b`)
	rackedFar        = pattern.Lazily(`\b(?:bellows|racked|rail|standard)(?: was| were| is)? (?:right|all the way|fully|full|well|far|a long way) (?:out|extended|drawn|forward)\b|\b(?:bellows|rail) (?:out|extended|drawn) (?:fully|to the (?:end|full|limit)|all the way|as far as)\b|\b(?:bellows at full|full bellows) (?:extension|draw|stretch)\b|\b(?:pulled|racked|drawn|run) out (?:fully|as far as (?:it|they) (?:goes?|will go|would go)|to the (?:end|stop|limit))|\bbellows (?:(?:was|were|very|quite|rather|pretty|really) )*long\s*(?:[.,;!)]|$)|\b(?:balgen|auszug) (?:war )?(?:ganz|voll|weit|bis zum anschlag) (?:draußen|ausgezogen|heraus|raus)\b|\bsoufflet (?:tiré )?à fond\b|\bsoufflet (?:tout|entièrement|complètement) (?:tiré|sorti)`)
	wideOpen         = pattern.Lazily(`\b(?:lens |aperture |iris )?(?:was |were )?(?:still|left|stayed) (?:wide |fully )?open(?: still)?\s*(?:[.,;!)]|$)|\b(?:lens|aperture|iris) (?:was |were )?(?:still |left )*wide open\b|\b(?:forgot|forgotten|(?:did not|didn't)(?: remember to)?)(?: to)? (?:stop|close) (?:it )?(?:down|the lens)\b|\b(?:aperture not closed|aperture not stopped|lens not closed|lens not stopped|iris not closed)(?: down)?\s*(?:[.,;!)]|$)|\b(?:objektiv|blende|optik) (?:(?:war|stand|ist|noch|immer|ganz|voll|weit) )*(?:offen|auf)\s*(?:[.,;!)]|$)|\boffenblende\b|\bnicht abgeblendet\b|\bblende vergessen\s*(?:[.,;!)]|$)|\bpas diaphragmé|\bdiaphragme oublié|\b(?:abblenden|abzublenden) vergessen|\bvergessen,? abzublenden\b|\bpleine ouverture|\boublié de (?:fermer|diaphragmer)|\b(?:objectif|diaphragme) (?:(?:était|est|resté|encore|tout|grand) )*ouvert\s*(?:[.,;!)]|$)`)
	stuckOpen        = pattern.Lazily(`\bshutter (?:\w+ )?(?:stuck|jammed|hung|stayed|remained|held) (?:wide )?open\b|\bverschlu(?:ss|ß) (?:\pL+ )?(?:hing|klemmte|hängen ?geblieben|hängengeblieben|offen geblieben|blieb offen)\b|\bobturateur (?:(?:est|était) )?(?:bloqué|coincé|resté ouvert)`)
	// hasty are words as thumbs type them: didnt fire.
	hasty            = pattern.Lazily(`\b(did|was|would|could|is|has|had|were|does|do)nt\b`)
	neverFired       = pattern.Lazily(`^(?:(?:a|another|it|probably|prob|think|was|shutter|had) )*misfire[ds]?\s*(?:[.,;!)]|$)|\bshutter (?:did not|didn't|didn’t|never|failed to|would not|wouldn't|refused to) (?:fire|fired|open|opened|trip|tripped|go off|went off|release)\b|\b(?:lens ?cap|cap) (?:was |were )?(?:still |left )?on\b|\b(?:dark ?)?slide (?:was )?(?:still|left) in\b|\bforgot(?:ten)? (?:to (?:pull|draw|remove|take out) )?(?:the |my )(?:dark ?)?slide\s*(?:[.,;!)]|$)|\bshutter (?:has |had )?(?:failed|misfired|jammed|jammed shut|stuck|stuck shut|stayed shut)\s*(?:[.,;!)]|$)|\b(?:verschlu(?:ss|ß) )?(?:hat )?nicht ausgelöst\b|\bverschlu(?:ss|ß) (?:hat )?(?:versagte?|blieb zu|ging nicht(?: auf)?|streikte)\b|\b(?:schieber|kassettenschieber) (?:(?:war|blieb|noch|nicht) )*(?:drin|gezogen|zu|geschlossen)\s*(?:[.,;!)]|$)|\b(?:schieber|kassettenschieber) (?:war )?(?:noch |nicht )(?:drin|gezogen)\b|\b(?:deckel|objektivdeckel) (?:war )?noch (?:drauf|dran)\b|\bobturateur (?:n['’]a )?pas (?:déclenché|fonctionné|ouvert)|\b(?:volet|bouchon) (?:(?:est|était|resté|encore) )*(?:en place|dedans|mis|fermé|dessus)`)
	secondTime       = pattern.Lazily(`\b(?:took|shot|exposed|fired|did|made)(?: (?:it|this|that|the sheet|the shutter))? (?:a second time|once more|one more time)\b|\b(?:took|shot) (?:it|this) twice\b|\bdouble[- ]exposed\b|^and (?:once )?again (?:because|since|to be sure|in case)\b|\b(?:zweimal|doppelt) belichtet\b|\bdoppelbelicht\pL*|\bexposée? deux fois\b|\bdouble exposition\b`)
	slideWhileOpen   = pattern.Lazily(`\b(?:(?:preview|press[- ]focus|focus(?:ing)?) )?(?:lever|preview) (?:was )?(?:still )?open\b|\b(?:pulled|drew|took|removed)(?: out)? (?:the |my )?(?:dark ?slide|slide)(?: out)? (?:with|while)(?: the)? (?:shutter|lens)(?: was| were)?(?: still)? open\b|\b(?:shutter|lens) (?:was )?(?:still )?open (?:when|while|as) (?:i )?(?:pulled|drew|took|removed)(?: out)? (?:the |my )?(?:dark ?)?slide\b`)
	settingForgotten = pattern.Lazily(`\b(?:forgot|forgotten|didn't|didn’t) (?:to )?(?:re)?(?:set|change|adjust|turn)(?: back)? (?:the |my )?(?:shutter|speed|time|aperture|lens|iris)\b|\b(?:zeit|blende|verschluss) nicht (?:umgestellt|verstellt|eingestellt|zurückgestellt)\b|\bvergessen,? (?:die |den )?(?:zeit|blende|verschluss) (?:um|ein|zurück)zustellen|\boublié de (?:changer|régler|remettre) (?:la vitesse|le diaphragme|l['’]ouverture|le temps)`)
	lostCount        = pattern.Lazily(`\b(?:lost count|miscounted|counted wrong|verzählt|perdu le compte|left (?:it|the shutter) open|forgot to close (?:it|the shutter))(?: (?:at|by|because|for|when|while)\b|\s*(?:[.,;!)]|$))|\bvergessen,? (?:zu schließen|zuzumachen)|\boublié de (?:la |le )?(?:re)?fermer\b`)
	meterWrong       = pattern.Lazily(`\b(?:meter|phone|app|spot)\b[^;.]* (?:off by|out by|(?:reads?|was|is|were|shows) (?:about |some )?` + amountSaid + ` (?:high|low|off|out|too (?:high|low|much|little)))|\bmeter (?:is|was|were) wrong\b|\bbelichtungsmesser (?:zeigt|zeigte|war|ist)[^,;.]* (?:zu hoch|zu niedrig|zu viel|zu wenig|falsch)\b|\bcellule[^,;.]* (?:de trop|trop haute?|trop basse?|fausse)\b`)
	filmUnknown      = pattern.Lazily(`\b(?:no idea|don't know|don’t know|not sure|unsure|who knows) (?:what|which|of the|of what) (?:speed|film|iso|stock|emulsion)\b|\b(?:unknown|unmarked|unlabelled|unlabeled|mystery) film\b|\bkeine ahnung,? (?:was für ein|welcher) film\b|\bfilm (?:inconnu|unbekannt)\b`)
	onBulb           = pattern.Lazily(`\bshutter(?: speed)?(?: (?:was|is|still|left|set|stood))* (?:on|at) (?:b|bulb|t)\s*(?:[.,;!)]|$)`)
	leftOn           = pattern.Lazily(`\b(?:forg[eo]t\w* to|didn't|didn’t|did not|never) t(?:ake|ook) (?:it|them|that|that one|the filter|the filters) off\s*(?:[.,;!)]|$)|\bleft (?:it|them) on\s*(?:[.,;!)]|$)|^(?:(?:it|they) (?:is|was|were) )?still on$|\bvergessen,? (?:es|ihn|sie|den filter) abzunehmen\b|\boublié de (?:l['’]enlever|le retirer|l['’]ôter)`)
)
