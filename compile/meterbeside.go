package compile

import (
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
	for i := range st.Terms {
		said := strings.Join(wordsOf(st.Terms[i].Kind), " ")
		if k, remark := st.Terms[i].Kind.(*lang.Remark); remark {
			said = k.Text
		}
		if said != "" && !st.Terms[i].Struck && !withdrawn(st.Terms, i) {
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
	if indexBeside().MatchString(strings.ToLower(at.Text())) {
		r.now.meterAt = at.Text()
	}
}

// told are the ways in which the words beside a sheet's reading change it.
func (rd *reading) told(sh *sheet) (ways []another) {
	for _, said := range rd.beside {
		ways = append(append(append(ways, rd.indexTold(sh, said, indexBeside)...), rd.zoneTold(said)...), rd.throughTold(sh, said)...)
	}
	return ways
}

// indexTold is the reading at the index at which words say that the meter stood: phone at ISO 400, at box
// speed. An index that was counted leaves nothing to ask.
func (rd *reading) indexTold(sh *sheet, said string, by pattern.Lazy) (ways []another) {
	if rd.ei != 0 || len(rd.areas) == 0 || sh.fixedMeter() {
		return nil
	}
	low := strings.ToLower(said)
	if f := sh.film.v; f != nil && f.iso != 0 && atBoxSpeed().MatchString(low) {
		ways = append(ways, rd.atIndex(f.iso, said))
	}
	if m := by().FindStringSubmatch(low); m != nil {
		for _, figures := range m[1:] {
			if ei := parseFloat(figures); figures != "" && ei > 0 && exposure.NearestIndex(ei) == ei {
				ways = append(ways, rd.atIndex(ei, said))
			}
		}
	}
	return ways
}

// zoneTold is the reading on a zone that stands among words: white wall, zone 7. One that has a placed
// area has its zone, and where another falls is no placement.
func (rd *reading) zoneTold(said string) (ways []another) {
	low := strings.ToLower(said)
	if !strings.Contains(low, "zone") || says(wordsIn(low), fallsThere) || slices.ContainsFunc(rd.areas, func(a area) bool { return a.placed }) {
		return nil
	}
	for _, zone := range zonesNamed(said) {
		for n := range rd.areas {
			ways = append(ways, another{"whether " + quote(said) + " is a zone that the reading stands on", rd.placedOn(n, zone)})
		}
	}
	return ways
}

// zonesNamed are the zones behind the word, or counted before it: zone 7, zone VII, the third zone.
func zonesNamed(said string) (zones []float64) {
	words := wordsIn(said)
	for i, word := range words {
		if word != "zone" {
			continue
		}
		if i > 0 && zoneCounted[words[i-1]] != 0 {
			zones = append(zones, zoneCounted[words[i-1]])
		}
		for zone := 0.; i+1 < len(words) && zone <= 10; zone++ {
			if words[i+1] == trim(zone) || words[i+1] == strings.ToLower(exposure.Roman(zone)) {
				zones = append(zones, zone)
			}
		}
	}
	return zones
}

// throughTold is the reading taken through the filters, where words say so: through the red, the factor
// is already in.
func (rd *reading) throughTold(sh *sheet, said string) []another {
	if len(sh.filters) == 0 || rd.through {
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
	fallsThere = lang.SetOf("falls fell falling fall lands landed would should could might want wants wanted not no without system")
	atBoxSpeed = pattern.Lazily(`\b(?:at|on|for|set to) (?:the )?box ?speed\b|^box ?speed$`)
	// indexBeside is an index beside a reading on its meter line, and indexOfMeter one that is said of the meter.
	indexBeside     = pattern.Lazily(`^(?:.*\b(?:at|on|to|@|for|phone|meter|app|was|set|,) ?)?(?:ei|iso|asa) ?([0-9]{1,5})\b|^(?:set )?(?:at|@|on|to) ?([0-9]{2,5})$|` + meterAt)
	indexOfMeter    = pattern.Lazily(meterAt)
	filterInReading = pattern.Lazily(`(?:^|\b(?:not )?(?:metered|meter|read|reading|measured)\b[^,;.]*\b)(?:through|thru|behind) (?:it|them|both|(?:the |my |a )?([\pL0-9]+)(?: filters?)?)(?:$|[.,;)])` +
		`|\b(?:filters?|factors?)\b[^,;.]*\b(?:in|part of) (?:the |that |this )?(?:reading|metering)\b|\bfactors? (?:(?:is|was|were|are|already|not) )+(?:in|included|counted|allowed for|metered)(?:$|[.,;)])|\b(?:filters?|factors?) included\b`)
	notIn = lang.SetOf("not no without never")
)

const meterAt = `\b(?:meter|phone|app|metered|read|reading)\b(?: (?:was|is|had been|stood|set|still|left|it|all|this))* ?(?:at|on|to|@|for) (?:ei |iso |asa |ei|iso|asa)?([0-9]{2,5})(?:$|[.,;!)]| by mistake| still| again)`
