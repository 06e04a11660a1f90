package query

import (
	"math"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// How far a sheet is off: off>2/3 finds those that are off by more than two thirds
// of a stop, over>2/3 and under>2/3 those to one side.

// cut is an amount in stops that one may ask to be passed.
type cut float64

// cuts are the amounts that one may ask for: thirds and halves of a stop, as
// shutters and diaphragms are marked.
var cuts = []cut{1. / 3, 1. / 2, 2. / 3, 1, 4. / 3, 3. / 2, 5. / 3, 2, 7. / 3, 5. / 2, 8. / 3, 3, 10. / 3, 7. / 2, 11. / 3, 4}

// sides are the words before the sign, with what must be more than the amount.
var sides = []string{"off", "over", "under"}

func (c cut) name(side string) string { return side + " by more than " + exposure.InStops(float64(c)) }

// spelled is the amount behind the sign, with and without blanks and the word.
func (c cut) spelled(side string) []string {
	folded := Fold(exposure.FormatAmount(float64(c)))
	amounts := []string{folded}
	if bare, fraction := strings.CutPrefix(folded, "+"); fraction {
		amounts = append(amounts, bare) // ⅔ as one character, and 2/3
	}
	if half := float64(c) * 2; half == math.Trunc(half) {
		amounts = append(amounts, trim(float64(c)))
	}
	var all []string
	for _, a := range amounts {
		for _, sign := range []string{">", " > ", " >", "> "} {
			all = append(all, side+sign+a, side+sign+a+" stop", side+sign+a+" stops")
		}
	}
	return all
}

// beyond gives an off sheet the cuts that its difference passes.
func (x *indexer) beyond(d record.Figure) {
	if !d.Known {
		return
	}
	for _, c := range cuts {
		shown := exposure.FormatAmount(math.Abs(d.Value))
		if exposure.Round(math.Abs(d.Value)) <= exposure.Round(float64(c)) || shown == exposure.FormatAmount(float64(c)) {
			return // the amounts rise; and what is shown as 1½ stops is not more than that
		}
		x.state(c.name("off"))
		if d.Value > 0 {
			x.state(c.name("over"))
		} else {
			x.state(c.name("under"))
		}
	}
}
