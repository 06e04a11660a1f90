package compile

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What words say of a reading and was not counted: beside it on its meter line, or on a sheet's own
// line. A sheet that one of them makes right is not off, and one that it makes wrong is not right.

// besideReading are the words of a meter line that were not counted.
func besideReading(st *lang.Statement) (all []string) {
	terms := st.Terms()
	for i := range terms {
		if said := saidIn(terms[i].Kind); said != "" && !terms[i].Struck && !withdrawn(terms, i) {
			all = append(all, said)
		}
	}
	return all
}

// meterStood takes note of the index at which a line that was not read says that the meter stood: it is that
// of the readings below which have no other.
func (r *resolver) meterStood() {
	l := &r.book.Lines[r.passed]
	at := source.Span{File: r.book.File, Start: l.Body, End: l.BodyEnd}
	if l.Meant == "" && (l.Kind != lang.Prose || !r.book.meterStoodIn(at.Text())) {
		return
	}
	if indexBeside().MatchString(r.book.kit.ofMeter(at.Text())) {
		r.now.meterAt = at.Text()
	}
}

// meterStoodIn reports whether prose says at which index a meter stood, and not only where it was: phone at 40.
func (b *book) meterStoodIn(said string) bool {
	low := b.kit.ofMeter(said)
	return indexOfMeter().MatchString(low) && says(wordsIn(low), standsThere)
}

// ofMeter is what words say in lower case and in figures, with the kit's meters called by what they are.
func (k *kit) ofMeter(said string) string {
	low := meterElsewhere().ReplaceAllString(inFigures(strings.ToLower(said)), "meter was at")
	for _, m := range k.meters {
		low = calledMeter(low, strings.ToLower(m.name))
	}
	return k.setForFilm(low)
}

// setForFilm is a text in lower case with the index of a film of the kit for its name, where the meter is said to stand there: meter
// still set for moth.
func (k *kit) setForFilm(low string) string {
	at := meterForFilm().FindStringIndex(low)
	if at == nil {
		return low // as most
	}
	behind := low[at[1]:]
	for _, f := range k.films {
		name := strings.ToLower(f.name)
		if rest, ok := strings.CutPrefix(behind, name); ok && name != "" && (rest == "" || partsWords([]rune(rest)[0])) {
			if ei := cmp.Or(f.ei, f.iso); ei > 0 {
				return low[:at[0]] + "meter was set to iso " + trim(ei)
			}
		}
	}
	return low
}

// meterForFilm is the meter that is said to stand at something.
var meterForFilm = pattern.Lazily(`(?:\bmeter\b|^(?:still |was )*(?:set|left|stood))(?: (?:was|were|is|had|been|still|left|set|stood|standing|stayed|kept|all|day|index|dial))* (?:for|to|at|on) (?:the )?`)

// namesMeter reports whether a text has the name of a meter of the kit among its words.
func (k *kit) namesMeter(text string) bool {
	low := ""
	return slices.ContainsFunc(k.meters, func(m *meter) bool {
		low = cmp.Or(low, strings.ToLower(text))
		return calledMeter(low, strings.ToLower(m.name)) != low
	})
}

// calledMeter is a text in lower case with a meter's name as the word for one, where it begins a clause or is the writer's
// own: box was still set to 200, the spot at 100; not the letter box at 200, nor box speed.
func calledMeter(low, name string) string {
	for from := 0; name != ""; {
		i := strings.Index(low[from:], name)
		if i < 0 {
			break
		}
		from += i
		before, behind := strings.TrimRight(low[:from], " "), low[from+len(name):]
		words := wordsIn(before)
		if (before == "" || strings.ContainsAny(before[len(before)-1:], ",;.:()-\"") || ownMeter[words[len(words)-1]]) && strings.HasPrefix(behind, " ") && !strings.HasPrefix(behind, " speed") {
			low = low[:from] + "meter" + behind
		}
		from++
	}
	return low
}

// saidBelow takes a short line of prose with a zone or a value that puts it right, between a reading and its first sheet, for
// words beside it.
func (r *resolver) saidBelow() {
	const tale = 10 // words
	l := &r.book.Lines[r.passed]
	if r.unused == nil || l.Kind == lang.Log {
		return
	}
	said := strings.TrimSpace(string(r.book.File.Text[l.Body:l.BodyEnd]))
	if wordy(said, tale) {
		return
	}
	low := strings.ToLower(said)
	if readAgain().MatchString(inFigures(low)) || zoneAgain().MatchString(low) || slices.ContainsFunc(zonesIn(said), func(k zoneNamed) bool { return k.sure >= zoneSaid }) {
		r.unused.beside = append(r.unused.beside, said)
	}
}

// told are the ways in which the words beside a sheet's reading change it, by zones that are at least as sure as is asked.
func (rd *reading) told(sh *sheet, sure zoneSure) (ways []another) {
	for _, said := range rd.beside {
		ways = slices.Concat(ways, rd.indexTold(sh, said, indexBeside), rd.zoneTold(sh, said, sure), rd.throughTold(sh, said), rd.shownTold(said, readAgain), rd.placedAgain(said))
		if mayCount.In(said) { // in figures it was read
			ways = append(ways, rd.shownTold(said, meterSays)...)
		}
	}
	if all := sh.lines[0].Terms(); rd.maybePlaced == "" {
		for i := range all {
			said, sure := saidIn(all[i].Kind), sure
			k, setting := all[i].Kind.(*lang.Exposure)
			_, loose := all[i].Kind.(*lang.Loose)
			switch {
			case loose:
				said = all[i].Span.Text()
			case setting && len(k.Name) == 1 && sure >= zonePlaced:
				continue // III 1/30 f16 may be the third of its subject
			}
			if sure < zonePlaced && (sh.ownReading || !loose && !setting) { // bark III in a remark is no title
				sure = zoneSigned
			}
			if said != "" && !all[i].Struck && !withdrawn(all, i) {
				ways = append(ways, rd.zoneTold(sh, said, sure)...)
			}
		}
	}
	return ways
}

// indexTold is the reading at the index at which words say that the meter stood: phone at ISO 400, at box
// speed. One that was counted is put in question only by words for the meter itself.
func (rd *reading) indexTold(sh *sheet, said string, by pattern.Lazy) (ways []another) {
	if len(rd.areas) == 0 || sh.fixedMeter() {
		return nil
	}
	if rd.ei != 0 {
		by = indexOfMeter
	}
	low := kitOf(sh).ofMeter(said)
	if f := sh.film.v; f != nil && f.iso != 0 && rd.ei == 0 && atBoxSpeed().MatchString(low) {
		ways = append(ways, rd.atIndex(f.iso, said))
	}
	if m := by().FindStringSubmatch(low); m != nil {
		for _, figures := range m[1:] {
			if ei := parseFloat(figures); figures != "" && ei > 0 && exposure.NearestIndex(ei) == ei && !(strings.Contains(m[0], "dial") && sh.hadTime(figures)) {
				ways = append(ways, rd.atIndex(ei, said))
			}
		}
	}
	return ways
}

// hadTime reports whether a sheet had the time that is engraved so on a shutter: 125 for 1/125.
func (sh *sheet) hadTime(engraved string) bool {
	const near = 0.05
	given, ok := secondsOf(sh.time.v)
	return sh.time.known && ok && math.Abs(given*parseFloat(engraved)-1) < near
}

// zoneTold is the reading on a zone that stands among words: white wall, zone 7; face on VI. One that has a placed
// area has its zone, but where that is named.
func (rd *reading) zoneTold(sh *sheet, said string, sure zoneSure) (ways []another) {
	all := zonesIn(said)
	if len(all) == 0 || len(rd.areas) == 0 {
		return nil
	}
	if rd.ofLight() && sure == zonePlaced { // on which what is seen falls on its zones
		sure = zoneAlone
	}
	placed := slices.ContainsFunc(rd.areas, func(a area) bool { return a.placed })
	named := slices.IndexFunc(rd.areas, func(a area) bool { return a.calledIn(said) })
	for _, k := range all {
		if k.sure < sure {
			continue
		}
		for _, zone := range k.zones {
			for n := range rd.areas {
				a := &rd.areas[n]
				stands := float64(middleZone)
				if a.placed {
					stands = a.zone
				}
				if named >= 0 && n != named || named < 0 && placed && (sure >= zonePlaced || !sh.ownReading && sh.sameAs == nil) || zone == stands+sh.bracket.v {
					continue
				}
				ways = append(ways, another{"whether the reading was placed: " + quote(said), rd.placedOn(n, zone)})
			}
		}
	}
	return ways
}

// placedAgain is the reading on the zone that words put in the place of its own: no, III; III I mean.
func (rd *reading) placedAgain(said string) (ways []another) {
	m := zoneAgain().FindStringSubmatch(strings.ToLower(said))
	if m == nil {
		return nil
	}
	for _, k := range zonesIn("on " + strings.ToUpper(m[1]+m[2])) {
		for _, zone := range k.zones {
			for n := range rd.areas {
				if a := &rd.areas[n]; (a.placed || len(rd.areas) == 1) && !(a.placed && a.zone == zone) {
					ways = append(ways, another{"whether the reading was placed: " + quote(said), rd.placedOn(n, zone)})
				}
			}
		}
	}
	return ways
}

// shownTold is the reading at the light value that words say the meter showed: meter now says ten; EV 12 no ten.
func (rd *reading) shownTold(said string, by pattern.Lazy) (ways []another) {
	if len(rd.areas) == 0 {
		return nil
	}
	for _, m := range by().FindAllStringSubmatch(inFigures(strings.ToLower(said)), -1) {
		for _, figures := range m[1:] {
			if ev := parseFloat(figures); figures != "" && ev <= brightestEV {
				ways = append(ways, rd.showing(ev, said))
			}
		}
	}
	return ways
}

// throughTold is the reading taken through the filters, where words say so: through the red, the factor
// is already in.
func (rd *reading) throughTold(sh *sheet, said string) []another {
	if len(sh.filters) == 0 || rd.through || !mayBeThrough.In(said) {
		return nil
	}
	m := filterInReading().FindStringSubmatch(strings.ToLower(said))
	if m == nil || says(wordsIn(m[0]), notIn) || m[1] != "" && kitOf(sh).filterIn([]string{m[1]}, true) == "" {
		return nil
	}
	return []another{{"whether the meter looked through the filter: " + quote(said), func(at *sheet) {
		own := *rd
		own.through = true
		at.reading = &own
	}}}
}

// The words are those of notes read for this (common practice, no source).
var (
	standsThere = lang.SetOf("was were is stood set still left all index ei iso asa dial")
	ownMeter    = lang.SetOf("the my our meter")
	atBoxSpeed  = pattern.Lazily(`\b(?:at|on|for|set to) (?:the )?box ?speed\b|^box ?speed$`)
	// indexBeside is an index beside a reading on its meter line, and indexOfMeter one that is said of the meter.
	indexBeside  = pattern.Lazily(`^(?:.*\b(?:at|on|to|@|for|phone|meter|app|was|set|,) ?)?(?:ei|iso|asa) ?([0-9]{1,5})\b|^(?:(?:it|was|still|left|stood|set) )*(?:at|@|on|to) ?([0-9]{2,5})$|` + meterAt)
	indexOfMeter = pattern.Lazily(meterAt)
	// meterSays is a light value that words say a meter shows, readAgain one beside a reading that puts it right, and zoneAgain
	// a zone that does.
	// meterElsewhere is a meter that stands at an index, in other languages.
	meterElsewhere = pattern.Lazily(`\b(?:(?:hand)?belichtungsmesser|(?:hand)?beli|cellule|posemètre|spotmètre)(?: (?:war|stand|ist|noch|immer|était|est|encore|réglée?|toujours|restée?))* (?:auf|bei|sur|à)\b`)
	// meterShowed has the word for the meter.
	meterShowed     = pattern.Lazily(showedSaid)
	meterSays       = pattern.Lazily(showedSaid + `|\b(?:ev|e\.? ?v|lv|light value|lichtwert|lw|il)(?: (?:is|was|now|ist|war|jetzt|nun|noch|nur))* ?` + valueSaid + `\b|\bmeter\b.*\bit (?:now )?(?:says|reads|shows|showed)(?: (?:now|only|just|about|ev))* ` + valueSaid + clauseEnds + `|^(?:the )?(?:meter|reading|light)(?: (?:is|was))? (?:now|then)(?: (?:at|only|just|about|down to|up to))* ` + valueSaid + clauseEnds)
	readAgain       = pattern.Lazily(`^(?:` + putsRight + `)+` + valueSaid + clauseEnds + `|^(?:ev )?` + valueSaid + ` ` + rightBehind)
	zoneAgain       = pattern.Lazily(`^(?:` + putsRight + `)+(?:on )?(?:zone )?` + zoneSign + `[.!]*$|^(?:on )?(?:zone )?` + zoneSign + `,? ` + rightBehind)
	filterInReading = pattern.Lazily(`(?:^|\b(?:not )?(?:metered|meter|read|reading|measured)\b[^,;.]*\b)(?:through|thru|behind) (?:it|them|both|(?:the |my |a )?([\pL0-9]+)(?: filters?)?)(?:$|[.,;)])` +
		`|\b(?:filters?|factors?)\b[^,;.]*\b(?:in|part of) (?:the |that |this )?(?:reading|metering)\b|\bfactors? (?:(?:is|was|were|are|already|not) )+(?:in|included|counted|allowed for|metered)(?:$|[.,;)])|\b(?:filters?|factors?) included\b` +
		`|^(?:already |schon |bereits |déjà )*(?:included|eingerechnet|berücksichtigt|inbegriffen|einbezogen|inclus|compris|(?:after|through|thru|behind|durch|durchs|hinter|mit|nach|à travers|derrière) (?:(?:the|das|den|dem|le|la) )?(?:filter|filtre))$` +
		`|\b(?:gemessen|messung|mesurée?|mesure|lu)\b[^,;.]* (?:durch|hinter|à travers|derrière) (?:(?:das|den|dem|le|la) )?(?:([\pL0-9]+[- ]?)?filter|filtre)(?:$|[.,;)])|\b(?:durch|hinter) (?:das |den |dem )?filter gemessen\b|\b(?:filter|faktor)[^,;.]* (?:eingerechnet|berücksichtigt|inbegriffen|einbezogen)|\b(?:filtre|facteur)[^,;.]* (?:inclus|compris)\b`)
	notIn        = lang.SetOf("not no without never nicht ohne noch pas non")
	mayBeThrough = pattern.May(filterInReading)
)

const (
	// putsRight are words before what stands in the place of another, and rightBehind those behind it.
	putsRight   = `(?:at first|first|to begin with|(?:scrap|scratch|strike|forget) (?:that|it|this)|make (?:that|it)|on (?:a )?(?:second|closer) look|(?:measured|metered|read|looked)(?: (?:it|that))?(?: (?:once more|again|anew|afresh))?|once more|no|no wait|oh no|oh|hm+|wait|sorry|wrong|oops|actually|rather|i mean|edit|corrected|correction|corr|or was it|or|but|and|then|now|later|again|it|that|this|light|is|has|fell|dropped|fallen|gone|sank|sunk|went|rose|risen|came|down|up|to|only|just|ev)[,:.;]* `
	rightBehind = `(?:on (?:a )?(?:second|closer|another) look|i mean|i meant|in fact|after all|rather|really|actually|when i (?:looked|measured|metered) again)\b`
	zoneSign    = `(viii|vii|vi|iv|v|iii|ii|ix)`
	valueSaid   = `([0-9]{1,2}(?:\.[0-9])?)`
	showedSaid  = `\b(?:meter|spot ?meter|spot|reading|needle)(?:,? (?:now|then|still|again|it|and))*,? (?:says|said|reads|shows|showed|gives|gave)(?: (?:now|only|just|about|ev))* ` + valueSaid + clauseEnds
)

// stoodAt are words between one for a meter and the index that it stood at.
const stoodAt = `(?: (?:was|is|had been|stood|set|still|left|it|all|this|dial|index))*`

const meterAt = `\b(?:(?:meter|phone|app|metered|read|reading|dial)\b` + stoodAt + ` ?(?:at|on|to|@|for)|index` + stoodAt + `(?: (?:at|on|to|of))?) (?:ei |iso |asa |ei|iso|asa)?([0-9]{2,5})(?:$|[.,;!)]| by mistake| still| again)`
