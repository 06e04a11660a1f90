package compile

import (
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What a remark on a sheet's line, or a short line right below it, says was otherwise: how long the lens was open, which
// thing of the kit it was, what the reading was. It counts alike whether the sheet comes out right or not.

const onTopOfIt = `\b(?:once more|again)(?: for)? the same\b|\bthe same (?:again|once more|on top)\b`

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
	partOfIt   = pattern.Lazily(`\b(?:half|(?:a )?third|(?:a )?quarter|two thirds|most|part|some) (?:of (?:it|that|them|those|the time|the exposure)|that|the time)\b|\bof (?:those|these|them|the) (?:seconds|minutes)\b|` + onTopOfIt)
	sameOnTop  = pattern.Lazily(onTopOfIt)
	partAlone  = pattern.Lazily(`\b(?:open|off|capped|covered|cap|hat|card|lid|seconds|on top|once more)\b|^(?:(?:only|and|but|gave|given|for|just|exactly),? )*(?:half|(?:a )?third|(?:a )?quarter|two thirds) (?:of )?(?:that|it|the time)$`)
)

// toldAnew is what the line's own remarks and those right below it say stood otherwise.
func (l *otherLine) toldAnew(s *season) (ways []another) {
	for _, said := range l.said {
		ways = slices.Concat(ways, s.putRight(l.sh, said), s.thingsAnew(l.sh, said, false))
	}
	for _, a := range l.beside() {
		if a.near && !a.above && !a.tale {
			_, _, _, tells := ofAbove(strings.ToLower(strings.TrimRight(a.said, ".!")))
			ways = append(ways, a.unless(slices.Concat(s.putRight(l.sh, a.said), s.thingsAnew(l.sh, a.said, false), l.sh.drawnInWords(tells, true)))...)
		}
	}
	return ways
}

// thingsAnew are the ways by a short text that says nothing but which thing of the kit it was, or what the reading was:
// the Y8 was on; that was moth; no, the red; the 9 should be 7; on III not V. What is plainly said of the sheet itself says that
// a filter was on by naming it alone: yellow, of yellow on 1A.
func (s *season) thingsAnew(sh *sheet, text string, ofSheet bool) (ways []another) {
	const most = 12 // words
	rd := sh.reading
	shown := rd != nil && len(rd.areas) > 0 && mayShowAnew.In(text)
	if !shown && !kitOf(sh).mayName(text) {
		return nil // as most
	}
	for _, said := range lang.Sentences(text) {
		low := strings.ToLower(strings.Trim(said, " .!()[]-,"))
		if len(strings.Fields(low)) > most {
			continue
		}
		if shown {
			figures := inFigures(low)
			if m := wasAnother().FindStringSubmatch(figures); m != nil && slices.ContainsFunc(rd.areas, func(a area) bool { return a.asEV && trim(a.ev) == m[1] }) {
				ways = append(ways, rd.showing(parseFloat(m[2]), said))
			}
			ways = append(ways, rd.wasTold(said)...)
			if m := zoneAnew().FindStringSubmatch(low); m != nil {
				for zone := 0.; zone <= 10; zone++ {
					if strings.EqualFold(exposure.Roman(zone), m[1]+m[2]) {
						ways = append(ways, another{"on which zone the reading stands: " + quote(said), rd.placedOn(0, zone)})
					}
				}
			}
		}
		ways = append(ways, s.thingAnew(sh, low, said, ofSheet)...)
	}
	return ways
}

// wasTold is the reading at the light value that words say it was: the reading was ten actually; meter was on 10 not 11.
func (rd *reading) wasTold(said string) []another {
	if len(rd.areas) == 0 || !mayShowAnew.In(said) {
		return nil
	}
	m := readingWas().FindStringSubmatch(inFigures(strings.ToLower(strings.Trim(said, " .!()[]-,"))))
	if m == nil || parseFloat(m[1]) > brightestEV {
		return nil
	}
	return []another{rd.showing(parseFloat(m[1]), said)}
}

// thingAnew is the thing of the kit that a text in lower case names, if it says nothing else.
func (s *season) thingAnew(sh *sheet, low, said string, ofSheet bool) []another {
	if l, ok := kitOf(sh).lens(s.names.LensAlone(low)); ok && l != sh.lens.v {
		return []another{wasLens(l, said)}
	}
	rest, ofLens := strings.CutPrefix(low, "lens ")
	all := kitOf(sh).thingsIn(rest)
	for i := range all {
		n := &all[i]
		if n.sure != thingAlone {
			continue
		}
		switch t := n.thing.(type) {
		case *filter:
			if kitOf(sh).isOn(n, sh.filters) {
				return nil
			}
			way := sh.withFilter(t, said)
			if instead := way.put; n.instead {
				way.put = func(at *sheet) { at.filters = nil; instead(at) }
			}
			if n.coded() || n.on || n.instead || ofSheet {
				return []another{way}
			}
		case *film:
			if sh.film.known && t != sh.film.v {
				return []another{wasOnFilm(t, said)}
			}
		case *lens:
			if (n.instead || ofSheet || ofLens) && t != sh.lens.v {
				return []another{wasLens(t, said)}
			}
		}
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
	readingWas  = pattern.Lazily(`\b(?:reading|meter)\b[^0-9]*\b(?:was|is|should be|should have been)(?: (?:really|actually|a|an|ev|on|at))* ([0-9]{1,2}(?:\.[0-9])?)(?:,? (?:really|actually|in fact|after all|not(?: (?:on|at|ev|an?))? [0-9.]+))*$`)
	zoneAnew    = pattern.Lazily(`^(?:(?:it|that|this|the \pL+) (?:was|is) )?(?:on )?(?:zone )?([ivx]+),? not (?:on )?(?:zone )?[ivx]+$|^(?:scrap that|scratch that|no|sorry|edit|oops|correction|amend)[,: ]+(?:it was )?(?:on )?(?:zone )?([ivx]+)$`)
	mayShowAnew = pattern.May(readingWas, zoneAnew).Or(pattern.AnyOf("was is should ought reads means"))
)
