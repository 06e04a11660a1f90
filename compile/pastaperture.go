package compile

import (
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// pastAperture leaves the aperture open where words behind it tell of parts of a stop, or of steps, and nothing else: f16 plus
// two thirds, f16 stopped down one, f16 half; or a bare number among signs that is another mark: f16 (22). Which way, and
// whether they are on its scale, no word says for sure.
func (t *reader) pastAperture(all []*lang.Term) {
	if t.metering || t.amending {
		return
	}
	for i := 1; i < len(all); i++ {
		said := saidIn(all[i].Kind)
		if said == "" || all[i].Aside {
			continue
		}
		n := beforeCommas(all, i)
		if n < 0 || n < i-1 && maybeN().MatchString(strings.ToLower(said)) {
			continue // f16, plus one, which is how it is to be developed, and f16, third no filter
		}
		k, setting := all[n].Kind.(*lang.Exposure)
		if !setting || len(k.Parts) == 0 {
			continue
		}
		set := k.Parts[len(k.Parts)-1].Aperture
		between := set != nil && (set.Past != 0 || set.Upper != 0) // and what more is told is a remark: f16½ bit less
		if set == nil || set.Widest || (between || !tellsPast(wordsOf(all[i].Kind))) && !t.otherMark(said, set) {
			continue
		}
		t.sheet.leaveOpen("aperture", "what aperture "+quote(all[n].Span.Text()+" "+said)+" is: between two marks it is written f16½")
	}
}

// tellsPast reports whether words tell parts of a stop, or steps and which way they go, and nothing else.
func tellsPast(words []string) bool {
	const most = 5
	if len(words) == 0 || len(words) > most {
		return false
	}
	low := make([]string, len(words))
	for i, word := range words {
		low[i] = strings.Trim(strings.ToLower(word), "-–−.,;:!")
	}
	return only(low, pastWays, pastParts, pastSteps, pastBeside) && (says(low, pastParts) || says(low, pastSteps) && says(low, pastWays))
}

// otherMark reports whether a text is a number by itself that is another mark of a lens than the one set.
func (t *reader) otherMark(said string, set *lang.Aperture) bool {
	const least = 11 // below it a number in brackets is as often that of a note
	m := markAlone().FindStringSubmatch(strings.ToLower(said))
	if m == nil {
		return false
	}
	for _, term := range lang.Within("f"+m[1], t.names) {
		if k, ok := term.Kind.(*lang.Exposure); ok && len(k.Parts) == 1 && k.Parts[0].Aperture != nil {
			mark := k.Parts[0].Aperture.Mark
			return (mark >= least || strings.Contains(m[1], ".")) && mark != set.Mark && fullStops[m[1]]
		}
	}
	return false
}

// The words are those of notes read for this (common practice, no source).
var (
	pastWays   = lang.SetOf("plus + minus less down up over under past stopped closed shut opened further wider smaller")
	pastParts  = lang.SetOf("half third thirds two-thirds two-third quarters click clicks notch notches bit hair tad five")
	pastSteps  = lang.SetOf("one two three stop stops")
	pastBeside = lang.SetOf("a an and n 'n nd na anna by nearly almost about just another of & point dot")

	// markAlone is a number among signs, or with no more than a word by which it is meant.
	markAlone = pattern.Lazily(`^(?:was |er |sorry |oops )*['‘’"{\[(<]*f?([0-9]+(?:\.[0-9])?)[]'’"})>?!]*(?: (?:really|actually|i think|instead|i mean))?$`)
	// maybeN is words behind a comma that may be how the sheet is to be developed, which of the line's sheets is meant, or what was given more.
	maybeN = pattern.Lazily(`^(?:and )?(?:plus|minus) (?:one|two|three|a half|half|one and a half)$|^third$|^(?:one|two|three) (?:stops? )?(?:over|under)$`)
	// fullStops are the marks of full stops that lenses have (ISO 517).
	fullStops = lang.SetOf("5.6 11 16 22 32 45 64 90")
)
