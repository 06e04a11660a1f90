package compile

import (
	"strings"

	"notchbook/lang"
)

// pastAperture leaves the aperture open where words right behind it tell of parts of a stop, or of stops, and nothing else:
// f16 plus two thirds, f16 stopped down one. Which way, and whether they are on its scale, no word says for sure.
func (t *reader) pastAperture(all []*lang.Term) {
	if t.metering || t.amending {
		return
	}
	for i := 1; i < len(all); i++ {
		words := lowered(wordsOf(all[i].Kind))
		if len(words) == 0 || !only(words, pastWays, pastParts, pastBeside) || !says(words, pastWays) || !says(words, pastParts) {
			continue
		}
		k, setting := all[i-1].Kind.(*lang.Exposure)
		if !setting || len(k.Parts) == 0 || k.Parts[len(k.Parts)-1].Aperture == nil {
			continue
		}
		said := all[i-1].Span.Text() + " " + strings.Join(wordsOf(all[i].Kind), " ")
		t.sheet.leaveOpen("aperture", "what aperture "+quote(said)+" is: between two marks it is written f16½")
	}
}

// The words are those of notes read for this (common practice, no source).
var (
	pastWays   = lang.SetOf("plus + minus less down up over under past stopped closed shut opened further wider smaller")
	pastParts  = lang.SetOf("one two three half third thirds two-thirds two-third quarter quarters stop stops click clicks notch bit touch hair tad")
	pastBeside = lang.SetOf("a an by nearly almost about just another of")
)
