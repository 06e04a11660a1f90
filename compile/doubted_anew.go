package compile

import (
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What a remark on a sheet's line, or a short line right below it, says stood otherwise: a signed setting that differs
// from what is logged, f22 on closer look, or a number behind words of the lens or such as correct, the ring stood at 22.
// It counts alike whether the sheet comes out right or not, unless its words tell of another sheet or time, of metering
// or of prints.

// settingsAnew are the settings that a short text says stood otherwise.
func (s *season) settingsAnew(sh *sheet, text string, loose bool) (ways []another) {
	if !strings.ContainsAny(text, "0123456789") && !mayCount.In(text) {
		return nil // as most
	}
	for _, said := range lang.Sentences(text) {
		ways = append(ways, s.sentenceAnew(sh, strings.ToLower(strings.Trim(said, " .!()[]")), "whether "+quote(strings.TrimSpace(said))+" says what was set", loose)...)
	}
	return ways
}

func (s *season) sentenceAnew(sh *sheet, low, asks string, loose bool) (ways []another) {
	const tale = 10 // words
	figures, set := inFigures(low), maySet(low)
	if !set && !mayBeAnew.In(figures) {
		return nil // as most
	}
	words := wordsIn(strings.Replace(low, "for another", "for", 1))
	if len(words) > tale || says(words, notAnew) {
		return nil
	}
	if set {
		sure := correctsSetting().MatchString(low) || tellsOpen().MatchString(figures)
		for _, t := range lang.Within(low, s.names) {
			k, is := t.Kind.(*lang.Exposure)
			if !is || k.EV != nil || k.Zone != nil || t.Struck {
				continue
			}
			signed := slices.ContainsFunc(k.Parts, func(p lang.Setting) bool { return p.Aperture != nil }) // times are also of what moved, and parts of all things
			if signed && !loose || sure {
				ways = append(ways, putTo([]lang.Term{t}, asks)...)
			}
		}
	}
	put := func(n string, time, aperture bool) {
		for _, way := range s.setTold(n, time, aperture) {
			ways = append(ways, another{asks, way.put})
		}
	}
	if m := numberOfLens().FindStringSubmatch(figures); m != nil && !slices.ContainsFunc(kitOf(sh).lenses, func(l *lens) bool { return trim(l.focalOr0()) == m[1] }) {
		put(m[1], false, true)
	}
	if m := numberAnew().FindStringSubmatch(figures); m != nil && !slices.ContainsFunc(kitOf(sh).lenses, func(l *lens) bool { return trim(l.focalOr0()) == m[1]+m[2] }) {
		put(m[1]+m[2], true, true)
	}
	if m := tellsOpen().FindStringSubmatch(figures); m != nil && !sh.tooShortByHand() {
		put(m[1], true, false)
	}
	if len(ways) == 0 || hourSaid().MatchString(low) || lang.Elsewhere(low) || putBack().MatchString(low) { // dear, and most have none
		return nil
	}
	return ways
}

// anew takes back that a sheet is right where a text says that something was set otherwise.
func (s *season) anew(sh *sheet, text string, loose bool) bool {
	ways := s.settingsAnew(sh, text, loose)
	if !s.contradicted(sh, ways) {
		return false
	}
	sh.ask(ways[0].asks)
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	notAnew = lang.SetOf("would could might may maybe perhaps wish wanted thought try next tomorrow compare compared than like meter metered metering measured asked asks wants base recip reciprocity schwarzschild uncorrected corrected factor filter filters wind gust gusts wave waves water leaves train scale grid intended planned focus focused focusing other another first too also limit max widest sync flash over times viewed beyond below diffraction sharp sharper sharpest best soft softer should every each until till wait waited ago print prints print: dev fix soak agitate")
	// correctsSetting is words by which a time in seconds is one that was given.
	correctsSetting = pattern.Lazily(`\b(?:scrap|scratch|edit|edited|corr|corrected|correction|corrects|amend|amended|erratum|really|actually|in fact|in truth|later|sorry|oops|no|rather|i guess|forgot|forgotten|meant|i mean|closer look|second look|after all)\b`)
	numberOfLens    = pattern.Lazily(`\b(?:ring|lens|aperture|iris|diaphragm|stop|blende|objektiv|diaphragme)\b(?: \pL+){0,5} ([0-9]+(?:[.,][0-9])?)(?:$|[,;)]| (?:after|all|in|the whole|instead|really|actually|not|by))`)
	numberAnew      = pattern.Lazily(`(?:^|[ ,;(])(?:(?:scrap(?: that| it)?|scratch(?: that| it)?|edit(?:ed)?|corr|correction|amend(?:ed)?|really|actually|later|only|stood|slipped)[:,. ]+|no[:, ]+)(?:(?:to|at|on|it|was|a|just|more|like) )*([0-9]+(?:[./][0-9]+)?) ?(?:$|[,;)]|s\b|(?:in fact\b|of (?:it|them|that|those)(?: open)?$|after all|in truth|open\b))|(?:^|[ ,;(])([0-9]+(?:[./][0-9]+)?) (?:in fact|after all|in truth|on (?:a )?(?:closer|second) look)$`)
	mayBeAnew       = pattern.May(numberOfLens, numberAnew, tellsOpen)
	hourSaid        = pattern.Lazily(`\b[0-9]{1,2}:[0-9]{2}\b`)
	tellsOpen       = pattern.Lazily(`\b(?:open|opened|release|released|shutter|cable|cap off|let go)\b[^0-9.;]{0,40}?[ ,(]([0-9]+(?:[./][0-9]+)?) ?(?:$|[,;)]|s\b|secs?\b|seconds?\b|(?:of (?:it|them|that|those)|or so)\b)`)
)

// coveredIn is a text that says, of a sheet that was exposed by hand, that something was before the lens for a part of its time,
// or that it was given a part of it, or it once more: hat for the cars, capped half of it, once more the same. "" for none.
func (sh *sheet) coveredIn(said string) string {
	low := strings.ToLower(said)
	if !mayCover.In(low) || (lang.Elsewhere(low) || ofOthers().MatchString(low)) && !partOfIt().MatchString(low) {
		return "" // as most
	}
	if before := heldBefore().MatchString(low); before && !sh.tooShortByHand() || partOfIt().MatchString(low) && (before || partAlone().MatchString(low)) {
		return said
	}
	return ""
}

// The words are those of notes read for this (common practice, no source).
var (
	mayCover   = pattern.AnyOf("hat cap card hand cloth lid slide cover black lens half third quarter those same light lamp torch flash paint film filter yellow red")
	heldBefore = pattern.Lazily(`\b(?:hat|(?:lens ?)?cap|card|hand|cloth|lid|(?:dark ?)?slide|board|capped|covered(?: up)?|blacked out|blocked)\b(?: (?:was|were|held|put|on|in front|up|over|off|the|lens|it|of|again|back|out))* (?:for |during |while |each time|every time|at |when |as |[0-9]|(?:one|two|three|four|five|six|some|several|a few|passing) )?(?:(?:the|a|an|all|one|two|three|four|five|six|some|several|few|passing|each|every) )*(?:cars?|bus|buses|tram|trams|lorry|lorries|van|vans|truck|trucks|headlights?|headlamps?|traffic|people|walkers?|cyclists?|bikes?|time\b|half|most|part|a third|[0-9]+ ?s\b)`)
	partOfIt   = pattern.Lazily(`\b(?:half|(?:a )?third|(?:a )?quarter|two thirds|most|part|some) (?:of (?:it|that|them|those|the time|the exposure)|that|the time)\b|\bof (?:those|these|them|the) (?:seconds|minutes)\b|\b(?:once more|again)(?: for)? the same\b|\bthe same (?:again|once more|on top)\b`)
	partAlone  = pattern.Lazily(`\b(?:open|off|capped|covered|cap|hat|card|lid|seconds|on top|once more)\b|^(?:(?:only|and|but|gave|given|for|just|exactly),? )*(?:half|(?:a )?third|(?:a )?quarter|two thirds) (?:of )?(?:that|it|the time)$`)
)

// toldAnew is what the line's own remarks and those right below it say stood otherwise.
func (l *otherLine) toldAnew(s *season) (ways []another) {
	for _, said := range l.said {
		ways = append(ways, s.settingsAnew(l.sh, said, false)...)
		ways = append(ways, s.thingsAnew(l.sh, said)...)
	}
	for _, a := range l.beside() {
		if a.near && !a.above && !a.tale {
			_, _, tells := ofAbove(strings.ToLower(strings.TrimRight(a.said, ".!")))
			ways = append(ways, a.unless(slices.Concat(s.settingsAnew(l.sh, a.said, false), s.thingsAnew(l.sh, a.said), l.sh.drawnInWords(tells, true)))...)
		}
	}
	return ways
}

// thingsAnew are the ways by a short text that says nothing but which thing of the kit it was, or what the reading was:
// the Y8 was on; that was moth; no, the red; the 9 should be 7; on III not V.
func (s *season) thingsAnew(sh *sheet, text string) (ways []another) {
	const most = 12 // words
	for _, said := range lang.Sentences(text) {
		low := strings.ToLower(strings.Trim(said, " .!()[]-,"))
		if len(strings.Fields(low)) > most {
			continue
		}
		if rd := sh.reading; rd != nil && len(rd.areas) > 0 {
			figures := inFigures(low)
			if m := wasAnother().FindStringSubmatch(figures); m != nil && slices.ContainsFunc(rd.areas, func(a area) bool { return a.asEV && trim(a.ev) == m[1] }) {
				ways = append(ways, rd.showing(parseFloat(m[2]), said))
			}
			if m := readingWas().FindStringSubmatch(figures); m != nil && parseFloat(m[1]) <= brightestEV {
				ways = append(ways, rd.showing(parseFloat(m[1]), said))
			}
			if m := zoneAnew().FindStringSubmatch(low); m != nil {
				for zone := 0.; zone <= 10; zone++ {
					if strings.EqualFold(exposure.Roman(zone), m[1]+m[2]) {
						ways = append(ways, another{"on which zone the reading stands: " + quote(said), rd.placedOn(0, zone)})
					}
				}
			}
		}
		ways = append(ways, s.thingAnew(sh, low, said)...)
	}
	return ways
}

// thingAnew is the thing of the kit that a text in lower case names, if it says nothing else.
func (s *season) thingAnew(sh *sheet, low, said string) []another {
	if l, ok := kitOf(sh).lens(s.names.LensAlone(low)); ok && l != sh.lens.v {
		return []another{wasLens(l, said)}
	}
	rest := takesBack().ReplaceAllString(low, "")
	instead := rest != low
	rest, _, denied := strings.Cut(rest, " not the ")
	name, on, off, forgot := "", false, false, false
	for word := range strings.FieldsSeq(rest) {
		word = strings.Trim(word, ".,;:!()")
		switch {
		case strings.HasSuffix(word, "'s"), strings.HasSuffix(word, "’s"), besideThing[word]:
		case sayOn[word]:
			on = true
		case word == "off":
			off = true
		case word == "forgot" || word == "forgotten":
			on, forgot = true, true
		case name != "":
			return nil
		default:
			name = word
		}
	}
	if name == "" || off != forgot { // forgot to take it off
		return nil
	}
	k := kitOf(sh)
	for _, f := range k.filters {
		if named := strings.EqualFold(f.name, name); !named && f.colour != name || !(named && strings.ContainsAny(name, "0123456789")) && !on && !instead {
			continue
		}
		if slices.ContainsFunc(sh.filters, func(u *use) bool { other, _, _ := k.filter(u.name); return other == f }) {
			return nil
		}
		way := sh.withFilter(f, said)
		if instead {
			put := way.put
			way.put = func(at *sheet) { at.filters = nil; put(at) }
		}
		return []another{way}
	}
	for _, f := range k.films {
		if strings.EqualFold(f.name, name) && sh.film.known && f != sh.film.v {
			return []another{wasOnFilm(f, said)}
		}
	}
	if l, ok := k.lens(name); ok && (instead || denied) && l != sh.lens.v {
		return []another{wasLens(l, said)}
	}
	return nil
}

// wasLens is a sheet that was taken with another lens, as words say.
func wasLens(l *lens, said string) another {
	return another{"whether the lens was " + l.name + ": " + quote(said), func(at *sheet) { at.lens = known(l, at.at, false) }}
}

// The words are those of notes read for this (common practice, no source).
var (
	wasAnother  = pattern.Lazily(`^(?:that|the|this) ([0-9]+(?:\.[0-9])?) (?:was|is|should (?:be|read|have been)|ought to be|reads|means) (?:really |actually )?(?:a |an )?([0-9]+(?:\.[0-9])?)$`)
	readingWas  = pattern.Lazily(`\b(?:reading|meter)\b[^0-9]*\b(?:was|is|should be)(?: (?:really|actually|a|an|ev))* ([0-9]+(?:\.[0-9])?)$`)
	zoneAnew    = pattern.Lazily(`^(?:(?:it|that|this|the \pL+) (?:was|is) )?(?:on )?(?:zone )?([ivx]+),? not (?:on )?(?:zone )?[ivx]+$|^(?:scrap that|scratch that|no|sorry|edit|oops|correction|amend)[,: ]+(?:it was )?(?:on )?(?:zone )?([ivx]+)$`)
	takesBack   = pattern.Lazily(`^(?:no,|(?:scrap|scratch) (?:that|it)|sorry|oops|edit|correction|amend|wait,)[,:. ]*`)
	besideThing = lang.SetOf("that this one it was were is both of these those the a my still and actually really in fact after all i see now damn to take taken shot left for oh only film sheet filter done")
	sayOn       = lang.SetOf("on with w/ through had")
)
