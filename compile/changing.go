package compile

import (
	"math"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Light that changed between the reading and the shutter. The reading then no longer
// holds: with an amount in stops it is brought to the light that there was, without one
// nobody can say what was right.

// lightChange is the way in which words say that the light changed since it was metered.
type lightChange int8

const (
	lightFell lightChange = -1
	lightRose lightChange = 1
)

// The words are those of notes read for this (common practice, no source). A state is no
// change: sun behind the barn was there when the meter was.
var (
	fallingLight = pattern.Lazily(`\b(?:light|sun|moon)\b(?:[’']s)?` + becoming + ` (?:dropp\w*|drops|fell|falls|falling|fallen|fad\w+|failing|failed|fails|dying|died|going|gone|went|goes|sank|sinking|dimm\w+|down|lower|weaker|weakening)\b` +
		`|` + burning + ` (?:off|out)\b|\bclouds? (?:over|across|before|in front of) the (?:moon|sun)\b|\bclouded(?: right| all| completely)? over\b|\bclouds? (?:came|coming|moved|rolled|drifted|blew)\b|\b(?:less|lost|losing)\b(?: (?:a|an|the|some|of|half|third|much|all|more|\d+|stop|stops|good|[½⅓⅔¼¾]))*(?: light| sun)\b` +
		`|\b(?:darker|dimmer|gloomier|duller|greyer|cloudier|dunkler|trüber|düsterer)(?:` + sinceThen + `|\s*$)|\b(?:dark|dim|dull|gloomy|grey|overcast|cloudy|in the shade|sun (?:behind|below|under)(?: \w+){1,3}?)` + sinceThen +
		`|\b(?:darkening|darkened)\b|\b(?:getting|got|grew) dark\b|\b(?:gone|gets|getting|got|went|turned|come over|came over)(?: all| very| rather| quite| really| so)* (?:dark|dim|dull|gloomy|grey|gray|murky|overcast)(?: now| again| here| all of a sudden| suddenly)?\s*(?:[.,;!]|$)|` + veil + ` (?:had |has |have )?(?:come|came|coming|moved|crept|crossed|drifted)\b` +
		`|` + lampsSet + ` (?:(?:off|out|down)` + andEnds + `|dimmed|lowered|turned down|(?:moved |pulled |set )?(?:back|away|further (?:off|away|back)|farther (?:off|away|back))\b)|\b(?:only|just) (?:the )?(?:one|two|a single) (?:lamps?|bulbs?|floods?|lights?)\b|\b(?:lampe?n?|licht) aus\b` +
		`|\b(?:diffus(?:er|ion)|scrim|gauze|silk|tracing paper|net curtain) (?:was |now )?(?:over|before|in front of|on|across) (?:the |one |both |a |my |it)|\bdimmers? (?:was |turned |now )*(?:down|lower)\b` +
		`|\bclouds? (?:now )?over(?: it| us)?\s*(?:[.,;]|$)|` + blinds + ` (?:down|closed|drawn|shut|lowered|half (?:down|closed|drawn|shut))\b` +
		`|^(?:bedeckt|bewölkt|trüb|wolken?|nuages?|couvert|overcast|cloud|cloudy)$|\b(?:trüb|dunkel|bedeckt) geworden\b|\b(?:licht|sonne)\b.*\b(?:weg|fort|fiel|gefallen|schwächer|weniger|nahm ab|nimmt ab)\b|\b(?:sonne|mond)\b.*\b(?:hinter (?:\pL+ )?wolken?|verschw(?:and|unden)|verdeckt|ging unter|untergegangen)\b|\bwolken? (?:\pL+ )?(?:zog(?:en)? (?:vor|auf|davor)|kam(?:en)?|schob(?:en)? sich|vor (?:der|die) (?:sonne|mond))\b|\b(?:soleil|lune)(?: (?:est|était|a|s['’]est|se))* (?:parti|caché|disparu|disparaît|couché|voilé|derrière (?:les |un |des )?nuages?)(?:$|[^\pL])|\bnuages? (?:devant|passe|passent|arrive|sur) |\bmoins de (?:lumière|soleil)\b`)
	risingLight = pattern.Lazily(`\b(?:light|sun|moon)\b(?:[’']s)?` + becoming + ` (?:(?:came|coming|comes|broke|breaking) through(?: again| now)?\s*(?:[.,;]|$)|came|coming|comes|rose|rising|risen|broke|breaking|brighten\w*|brighter|back|up)\b` +
		`|` + burning + ` on\b|` + lampsSet + ` (?:(?:on|up)` + andEnds + `|turned up|(?:moved |pulled |set )?(?:closer|nearer|forward)\b)|` + blinds + ` (?:up|open|opened|raised|back)\b|\bdimmers? (?:was |turned |now )*(?:up|higher)\b|\b(?:dawn|day) (?:is |was )?(?:coming|came|breaking|broke)\b|\b(?:getting|got|grew|growing) (?:light|lighter)\b|\bclouds? (?:cleared|parted|went|gone|broke|lifted)\b|\b(?:brighter|heller)(?:` + sinceThen + `|\s*$)|\bsun(?:[’']s| is| was)? out(?: now)?\s*$|\bbright(?:ened|ening)\b|\bmore light\b`)
)

// sinceThen are the words that make a state of the light a change of it, burning is lamps of which off or on
// is said, lampsSet one of them and blinds what is before a window, of which the same is said where no more
// follows; veil is what comes over the sun.
const (
	sinceThen = ` (?:now|by now|by then|already|since|than (?:when|before|the (?:reading|meter))\b.*)`
	burning   = `\b(?:lights|(?:street ?|flood)?lamps?|floodlights|lanterns?) (?:went|gone|going|came|switched|turned)`
	lampsSet  = `\b(?:lamps?|bulbs?|floods?|floodlights?|spotlights?|(?:key|fill|main|back|left|right|second|other|one|both) lights?)(?: (?:was|were|is|now|had|been|then|set|switched|turned))*`
	blinds    = `\b(?:blinds?|curtains?)(?: (?:was|were|is|now|then|pulled))*`
	andEnds   = `(?: now| too| again| then)*\s*(?:[.,;]|$)`
	veil      = `\b(?:clouds?|shades?|shadows?)`
)

// byStops is an amount in stops by which the light went: a stop down by now, dropped a stop.
var byStops = pattern.Lazily(`\b(?:a|one|two|half a|a half|[0-9½⅓⅔¼¾]+) (?:full |whole |good )?stops? (down|lower|less|darker|dimmer|up|higher|more|brighter)(?: by now| now| since\b| than (?:when|before|metered)|\s*$)|^light (dropp\w*|fell|lost|down|up|rose|gained) (?:by )?(?:a|one|two|half)\b`)

// movedBy is the change that an amount in stops is said of, where it is no more than a wish:
// more given, for the shadows, is none.
func movedBy(words string) lightChange {
	low := strings.ToLower(words)
	if m := sinceMetered(low); m != "" {
		return movedTo(m)
	}
	m := byStops().FindStringSubmatch(low)
	if m == nil || m[1] != "" && !strings.Contains(low, "light") && !strings.Contains(low, "since") && !strings.Contains(low, "now") {
		return 0
	}
	return movedTo(m[1] + m[2])
}

// movedTo is the change of the light that a word is for.
func movedTo(word string) lightChange {
	switch word {
	case "up", "higher", "more", "brighter", "rose", "gained":
		return lightRose
	}
	return lightFell
}

// sinceMetered is the word for the way that the light went since it was metered, in a text in lower case that says by how
// much, "" for none.
func sinceMetered(low string) string {
	if !meanwhile.In(low) {
		return "" // as most
	}
	if m := byNow().FindStringSubmatch(stopsElsewhere(low)); m != nil && !ofAPart().MatchString(low) {
		return m[1]
	}
	return ""
}

// becoming is the words that may stand between the light and what became of it; with any others
// another thing may be what fell.
const becoming = `(?: (?:is|was|has|had|have|been|keeps|kept|now|just|already|then|slowly|quickly|fast|suddenly|quite|all|almost|nearly|really|started|starts|began|beginning|starting|to|by|a|bit|little|about|again|gradually|steadily|much|soon|came and|comes and|coming and|went and|goes and))*`

// ofThings are light and sun as parts of other words, with the thing behind them or before:
// light rain fell, the sun hat came off, the head light went; and light that leaked.
var ofThings = pattern.Lazily(`\b(?:light|sun) (?:` + strings.Join(lang.LightThings(), "|") + `|mist|fog|haze|cloud|clouds)\b|` + lang.LightGotIn + `|\b(?:traffic|head|tail|brake|car|bike|flash|porch|landing|street|warning|pilot|night|safe|red|green|indicator|meter) light\b`)

// changeIn is what words say of the light, 0 where they say nothing of a change or both.
func changeIn(words string) lightChange {
	low := strings.ToLower(words)
	if !tellsOfLight.In(low) {
		return 0
	}
	low = ofThings().ReplaceAllString(low, "…")
	switch fell, rose := changes(fallingLight(), low), changes(risingLight(), low); {
	case fell && !rose:
		return lightFell
	case rose && !fell:
		return lightRose
	}
	return 0
}

// changes reports whether an expression fits, and what follows does not say where the light
// lies, or where one went in it: it fell on the gate, it went on for ever, lovely light going home.
func changes(e *pattern.Pattern, low string) bool {
	at := e.FindStringIndex(low)
	if at == nil {
		return false
	}
	next, _, _ := strings.Cut(strings.TrimLeft(low[at[1]:], " "), " ")
	switch strings.Trim(next, ".,;") {
	case "across", "over":
		return veils().MatchString(low[at[0]:at[1]])
	case "on", "onto", "nicely", "through", "well", "beautifully", "along", "upon":
		return false
	case "home", "to", "into", "round", "from", "at", "near", "here", "there", "the", "this", "that", "these", "my", "our", "his", "her", "between", "under", "against", "among", "where", "off", "towards", "toward":
		moved := strings.HasSuffix(low[:at[1]], " going") || strings.HasSuffix(low[:at[1]], " coming") || strings.HasSuffix(low[:at[1]], " up") ||
			strings.HasSuffix(low[:at[1]], " down") || strings.HasSuffix(low[:at[1]], " back") || strings.HasSuffix(low[:at[1]], " lower") || strings.HasSuffix(low[:at[1]], " falling")
		return !moved || next == "to" && strings.Contains(low[at[1]:], " to ev")
	}
	return true
}

var veils = pattern.Lazily(`^` + veil)

// tellsOfLight has a part of every word without which no change of the light is told.
var tellsOfLight = pattern.AnyOf("light sun moon lamp lantern bulb flood blind curtain diffus scrim gauze silk tracing dawn day cloud dark dim bright dull gloom grey gray murky overcast shad licht sonne trüb bedeckt bewölkt dunk düster heller wolke nuage couvert soleil lumi")

// lightChanged takes an amount that words beside it make a change of the light: light
// fell 1 stop, a stop less light, light -1.
func (t *reader) lightChanged(k *lang.Amount, term *lang.Term, all []*lang.Term, i int) bool {
	if k.Stops == nil || t.metering {
		return false
	}
	stops := float64(*k.Stops)
	lead, behind := strings.ToLower(looseText(before(all, i))), strings.ToLower(looseText(after(all, i)))
	if how := wentWhileOpen(lead, behind); how != 0 {
		t.wentWhile(float64(how)*math.Abs(stops), strings.TrimSpace(lead+" "+term.Span.Text()+" "+behind))
		return true
	}
	words := strings.Fields(lead + " " + behind)
	ofLight := slices.ContainsFunc(words, func(w string) bool { return w == "light" || w == "sun" })
	elsewhere := slices.ContainsFunc(words, func(w string) bool {
		return w == "than" || w == "after" || w == "later" || w == "next" || w == "afterwards"
	})
	said := lead + " " + term.Span.Text() + " " + behind
	switch change := changeIn(said); {
	case !ofLight || elsewhere || notTheScenes().MatchString(strings.ToLower(clauseOf(all, i))) || lostOnTheWay().MatchString(lead) && lessensLight(all):
		return false // is asked about, where nothing else of the sheet comes to so much
	case change != 0:
		stops = float64(change) * math.Abs(stops)
	case strings.HasSuffix(lead, "light") && behind == "" && strings.ContainsAny(term.Span.Text()[:1], "+-−–"):
	default:
		return false
	}
	if whileOpen().MatchString(behind) {
		t.wentWhile(stops, strings.TrimSpace(lead+" "+term.Span.Text()+" "+behind))
		return true
	}
	t.sheet.lightBy = known(stops, term.Span, term.Doubtful)
	return true
}

// clauseOf is a term with the words around it, up to the next setting or comma.
func clauseOf(all []*lang.Term, i int) string {
	words := func(term *lang.Term) bool {
		_, cue := term.Kind.(*lang.Cue)
		return cue || looseText(term.Kind) != ""
	}
	from, to := i, i
	for from > 0 && words(all[from-1]) {
		from--
	}
	for to+1 < len(all) && words(all[to+1]) {
		to++
	}
	return all[from].Span.Cover(all[to].Span).Text()
}

// lessensLight reports whether a line has a filter on it or says how far the bellows were out, for which light
// is lost too.
func lessensLight(all []*lang.Term) bool {
	return slices.ContainsFunc(all, func(term *lang.Term) bool {
		switch term.Kind.(type) {
		case *lang.Stack, *lang.Extension, *lang.Bellows, *lang.Magnification:
			return !term.Struck
		}
		return false
	})
}

// notTheScenes are words by which an amount of light is what the film was given, or that of a part of the
// picture; lostOnTheWay is light that a filter or the bellows may have taken (common practice, no source).
var (
	notTheScenes = pattern.Lazily(`\b(?:gave|give|giving|gives|given|extra|allowed|let in|in (?:the |both |all |one )?(?:\w+ )?(?:corners?|edges?|foreground|background|shadows?|highlights?|middle|centre))\b|\b(?:for|at|towards|on) the (?:\w+ )?(?:corners?|edges?|sides?|foreground|background|shadows?|highlights?|clouds?|sky)\b`)
	lostOnTheWay = pattern.Lazily(`\b(?:lost|lose|loses|losing|costs?)\b`)
)

// whileOpen are words by which the light changed during the exposure: the film saw a part of it.
var whileOpen = pattern.Lazily(`\b(?:during|while|through(?:out)?|half ?way|in the middle|in mid|as i exposed|as it ran|(?:by|at|towards) the end)\b`)

// wentWhile leaves a sheet open whose light went by some stops before the shutter was closed.
func (t *reader) wentWhile(stops float64, said string) {
	t.sheet.leaveOpen("", whenLightWent+wentBy(stops)+": "+quote(said))
}

const whenLightWent = "how much of the exposure was over when the light "

// lightWent is what a sheet's own line says of the light that changed and that it was not reckoned with, "" for nothing.
func (sh *sheet) lightWent() string {
	switch {
	case sh.lightBy.doubt:
		return sh.lightBy.at.Text()
	case sh.lightBy.known:
		return ""
	case strings.HasPrefix(sh.unclear, whenLightWent):
		_, said, _ := strings.Cut(sh.unclear, ": ")
		return strings.Trim(said, `"`)
	}
	if i := slices.IndexFunc(sh.remarks, func(words string) bool { return changeIn(words) != 0 }); i >= 0 {
		return sh.remarks[i]
	}
	return ""
}

// wentBy is by how much the light rose, or below 0 fell.
func wentBy(stops float64) string {
	how := "fell"
	if stops > 0 {
		how = "rose"
	}
	return how + " " + exposure.InStops(math.Abs(stops))
}

// wentWhileOpen is the change that words before and behind an amount in stops tell of while the shutter was open: lost
// a stop during exposure, a stop darker by the end. Of the aperture they would say otherwise.
func wentWhileOpen(lead, behind string) lightChange {
	switch {
	case !whileOpen().MatchString(behind):
	case fellBefore().MatchString(lead), lead == "" && strings.HasPrefix(behind, "darker"), lead == "" && strings.HasPrefix(behind, "dimmer"):
		return lightFell
	case roseBefore().MatchString(lead), lead == "" && strings.HasPrefix(behind, "brighter"):
		return lightRose
	}
	return 0
}

// remarkedWhileOpen takes the same from a remark.
func (t *reader) remarkedWhileOpen(remark string) {
	if low := strings.ToLower(remark); !strings.Contains(low, "stop") || !whileOpen().MatchString(low) {
		return // as nearly all
	}
	terms := lang.Within(remark, t.names)
	all := make([]*lang.Term, len(terms))
	for i := range terms {
		all[i] = &terms[i]
	}
	for i, term := range all {
		k, ok := term.Kind.(*lang.Amount)
		if !ok || k.Stops == nil {
			continue
		}
		lead, behind := strings.ToLower(looseText(before(all, i))), strings.ToLower(looseText(after(all, i)))
		change := wentWhileOpen(lead, behind)
		if change == 0 && whileOpen().MatchString(behind) {
			change = changeIn(lead + " " + term.Span.Text() + " " + behind)
		}
		if change != 0 {
			t.wentWhile(float64(change)*math.Abs(float64(*k.Stops)), remark)
		}
	}
}

var (
	fellBefore = pattern.Lazily(`^(?:(?:i |we |it )?(?:had )?(?:lost|losing|loses)|(?:it )?(?:got|was) darker by)(?: about| nearly| almost| some| over)?$`)
	roseBefore = pattern.Lazily(`^(?:(?:i |we |it )?(?:had )?(?:gained|gaining)|(?:it )?(?:got|was) brighter by)(?: about| nearly| almost| some| over)?$`)
)

// looseText is the words beside a term; "light fell" is read as a light of that name.
func looseText(kind any) string {
	switch k := kind.(type) {
	case *lang.Loose:
		return strings.Join(k.Words, " ")
	case *lang.Choose:
		return k.Text
	}
	return ""
}

// changed is what the film needs more since the light fell, or less since it rose.
func (r *reckoning) changed() {
	by := r.sh.lightBy
	if !by.known {
		return
	}
	r.low -= by.v
	r.high -= by.v
	r.step("light", "light "+wentBy(by.v), &cost{stops: -by.v, detail: "since the reading", from: place(by.at)})
}

// changing is the words by which a sheet's lines say that the light changed in the way
// that its difference went: more was given when it fell.
func (r *reckoning) changing(over bool) string {
	if r.sh.lightBy.known {
		return ""
	}
	want := lightRose
	if over {
		want = lightFell
	}
	went := func(words string) bool { return changeIn(words) == want || movedBy(words) == want }
	remarks := r.sh.remarks
	if r.sh.ownReading {
		remarks = r.sh.sinceRead()
	}
	if i := slices.IndexFunc(remarks, went); i >= 0 {
		return remarks[i]
	}
	if r.sh.light != "" && went("light "+r.sh.light) {
		return r.sh.light
	}
	if r.sh.ownReading {
		return "" // it was taken after what was told above
	}
	return r.sh.toldOfLight(nil, went)
}

// sinceRead is the words that stand on a sheet's line behind its reading, and remarks that speak
// of the reading.
func (sh *sheet) sinceRead() (words []string) {
	for i := range sh.lines[0].Terms() {
		t := &sh.lines[0].Terms()[i]
		behind := t.Span.Start >= sh.reading.at.End
		switch k := t.Kind.(type) {
		case *lang.Loose:
			if behind {
				words = append(words, strings.Join(k.Words, " "))
			}
		case *lang.Choose:
			if behind {
				words = append(words, t.Span.Text()) // light fading
			}
		case *lang.Remark:
			if behind || strings.Contains(strings.ToLower(k.Text), "since") {
				words = append(words, k.Text)
			}
		}
	}
	return words
}

// toldOfLight looks at what was told last between the reading and the sheet, by a line light or in prose that
// may be it.
func (sh *sheet) toldOfLight(may func(text string) bool, is func(words string) bool) string {
	const nearest = 12 // entries that are looked at
	o := sh.outing
	for i := sh.entry - 1; i >= max(0, sh.entry-nearest) && i < len(o.entries); i-- {
		switch e := o.entries[i].(type) {
		case *scene:
			return ""
		case *lang.Statement:
			switch words := strings.TrimSpace(e.Body.Text()); {
			case e.Word == lang.Meter || e.Word == lang.Day:
				return ""
			case e.Word == lang.LightWord && is("light "+words):
				return words
			}
		case ast.Node:
			if !o.mayTellOfLight(i) || may != nil && !may(typed(e, o.book)) {
				return ""
			}
			for _, words := range sentences(plainText(e, o.book)) {
				if is(words) {
					return words
				}
			}
			return ""
		}
	}
	return ""
}

// mayTellOfLight reports whether an entry is prose that has a word of the light.
func (o *outing) mayTellOfLight(entry int) bool {
	o.lookForLight.Do(func() {
		o.ofLight = make([]bool, len(o.entries))
		for i := range o.entries {
			if prose, ok := o.entries[i].(ast.Node); ok {
				text := typed(prose, o.book)
				o.ofLight[i] = tellsOfLight.In(text) || meanwhile.In(text) && wentByStops(strings.TrimSpace(text))
			}
		}
	})
	return o.ofLight[entry]
}

// wentByStops reports whether a few words tell by how many stops the light of the scene went: light down 1 stop;
// clouds gone, up 2 stops. How two parts of it differ, and what was given for one, are no change.
func wentByStops(words string) bool {
	const few = 10 // words
	if !ofStops.In(words) {
		return false // as most
	}
	if sinceMetered(strings.ToLower(words)) != "" {
		return true
	}
	low := stopsElsewhere(strings.ToLower(words))
	return strings.Contains(low, "stop") && len(strings.Fields(low)) <= few && ofTheLight().MatchString(low) && !ofAPart().MatchString(low) && !notTheScenes().MatchString(low) && stopsWent().MatchString(low)
}

// stopsElsewhere is a text in lower case with the words by which the light goes by stops in another language as they are
// here: Licht zwei Stufen weg; la lumière a baissé de deux diaphs.
func stopsElsewhere(low string) string {
	if strings.Contains(low, "stop") || strings.Contains(low, "by now") {
		return low // as most
	}
	words := strings.FieldsFunc(low, func(c rune) bool { return strings.ContainsRune(" ,.!'’", c) })
	for i, word := range words {
		if said, ok := stepsElsewhere[word]; ok {
			words[i] = said
		}
	}
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}

// The words are those of notes read for this (common practice, no source).
var (
	ofStops        = pattern.AnyOf("stop stufe blende diaph cran").Or(meanwhile)
	stepsElsewhere = map[string]string{"stufe": "stop", "stufen": "stops", "blende": "stop", "blenden": "stops", "blendenstufe": "stop", "blendenstufen": "stops", "diaph": "stop", "diaphs": "stops", "diaphragme": "stop", "diaphragmes": "stops", "cran": "stop", "crans": "stops",
		"licht": "light", "lumière": "light", "sonne": "sun", "soleil": "sun", "wolke": "cloud", "wolken": "clouds", "nuage": "cloud", "nuages": "clouds", "eine": "a", "ein": "a", "un": "a", "une": "a", "zwei": "two", "deux": "two", "drei": "three", "trois": "three",
		"weniger": "less", "moins": "less", "weg": "down", "runter": "down", "gefallen": "down", "gesunken": "down", "baissé": "down", "perdu": "lost", "verloren": "lost", "fiel": "fell", "mehr": "more", "plus": "more", "gestiegen": "up", "monté": "up", "dunkler": "darker", "heller": "brighter", "um": "by", "de": ""}
)

// lightTold reports whether a few words tell by how many stops the light went, or a line of the light what a meter showed.
func lightTold(words string) bool {
	return wentByStops(words) || strings.HasPrefix(words, "light ") && (valueInLight.In(words) && meterSays().MatchString(inFigures(strings.ToLower(words))) || mayCount.In(words) && valueOfLight().MatchString(inFigures(strings.ToLower(words))))
}

// valueOfLight is a line of the light that has nothing but a value: light: ten.
var valueOfLight = pattern.Lazily(`^light (?:(?:is|was|now|then|only|just|about|down to|up to) )*` + valueSaid + `[.!]?$`)

var valueInLight = pattern.AnyOf("ev lv value meter spot reading")

// The words are those of notes read for this (common practice, no source).
var (
	ofTheLight = pattern.Lazily(`\b(?:light|sun|sunny|clouds?|cloudy|overcast|shade|dusk|dawn|brighter|darker|dimmer)\b`)
	ofAPart    = pattern.Lazily(`\b(?:than|between|shadows?|highlights?|side|wall|sky|face|filter|bellows|pol|print|bracket|ratio|contrast|range|over|under|would|could|should|may|might|if|no|not|never|wait|until)\b`)
	stopsWent  = pattern.Lazily(`\b(?:less|down|lost|losing|fell|fallen|dropped|drops|darker|dimmer|lower|more|up|gained|rose|risen|brighter|higher|went|gone)(?: (?:by|about|some|nearly|almost|another|a good))* ` + stopsSaid + `|` + stopsSaid + ` (?:less|down|lost|darker|dimmer|lower|more|up|brighter|higher)\b`)
)

// meanwhile is a part of every word for the time since something was metered.
var meanwhile = pattern.AnyOf("now inzwisch mittlerw")

// byNow is by how many stops or values it is less or more than when it was metered, which is the light: two less by now.
var byNow = pattern.Lazily(`^(?:(?:it is|it's|that is|light|perhaps|about|now) )*(?:` + stopsSaid + `|(?:a|one|two|three|half a|[0-9½⅓⅔¼¾./]+)) (less|down|darker|dimmer|lower|more|up|brighter|higher)(?: (?:light|stops?))? (?:by now|inzwischen|mittlerweile)\b`)

// stopsSaid is an amount in stops.
const stopsSaid = `(?:a|one|two|three|half a|a half|[0-9½⅓⅔¼¾./]+) (?:full |whole |good )?stops?\b`

// sentences are those of a text, each no longer than a message should quote.
func sentences(text string) []string {
	const most = 80
	all := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(".!?\n", c) })
	for i, words := range all {
		if runes := []rune(strings.TrimSpace(words)); len(runes) > most {
			words = string(runes[:most]) + "…"
		}
		all[i] = strings.TrimSpace(words)
	}
	return all
}
