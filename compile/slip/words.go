package slip

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"notchbook/lang/pattern"
)

// What a remark says of a mistake is evidence for it: whoever writes "forgot the
// bellows" knows. Common practice, no source.
var says = map[string]pattern.Lazy{
	"filter-not-compensated": pattern.Lazily(`\b(?:forgot|forgotten|without|no|missed|not allowed for)\b[^.;]*\b(?:factor|filter|compensat)`),
	"bellows-forgotten":      pattern.Lazily(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\b(?:bellows|extension)`),
	"reciprocity-forgotten":  pattern.Lazily(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\breciprocity`),
	"not-placed":             pattern.Lazily(`\b(?:forgot|forgotten|not)\b[^.;]*\b(?:place|placed|zone)`),
	"meter-left-at-ei":       pattern.Lazily(`\bmeter\b[^.;]*\b(?:ei|iso|asa|set|stood|speed)\b`),
	"filter-not-written":     pattern.Lazily(`\bfilter\b[^.;]*\b(?:still|left) on\b`),
	"settings-left":          pattern.Lazily(`\b(?:same|old|last) settings\b|\bforgot to (?:change|reset)`),
	"bracket-forgotten":      pattern.Lazily(`\b(?:forgot|forgotten)\b[^.;]*\bbracket`),
	"one-stop":               pattern.Lazily(`\b(?:one|a) (?:stop|click|speed) (?:off|out|too)`),
}

// saysOfThing is the same where the remark names the filter or the extension as well.
var saysOfThing = map[string]pattern.Lazy{
	"filter-not-compensated": forgot, "bellows-forgotten": forgot,
	"compensated-twice": pattern.Lazily(`\b(?:twice|doubled?|two times)\b`),
	"wrong-way":         pattern.Lazily(`\bwrong way\b|\bclosed (?:down )?(?:for|instead)\b`),
}

var forgot = pattern.Lazily(`\b(?:forgot|forgotten|without|missed)\b`)

// saysOf is the evidence of the sheet's remarks for a mistake, named what they name of it.
func (c *Case) saysOf(slug string, named float64) float64 {
	if c.Words == "" {
		return 0
	}
	for _, re := range []pattern.Lazy{says[slug], saysOfThing[slug]} {
		if re != nil && re().MatchString(c.Words) {
			return toldOutright
		}
		if named == 0 {
			break
		}
	}
	return 0
}

// evidence is what speaks for a guess: what it is made of, or the sheet's remarks; and against it
// a sheet before that was right, where it is its reading that was mistaken.
func (c *Case) evidence(slug string, g *Guess) float64 {
	named := c.named(g)
	if said := c.saysOf(slug, named); said > 0 {
		return max(g.Evidence, said) + named
	}
	if ofReading[slug] {
		return g.Evidence - c.readRight()
	}
	return g.Evidence + named
}

// What a remark names of a guess: the filter or the extension that it is about; the other one that
// it was taken for, or the amount that was given for it; both.
const (
	thingNamed = 0.7
	givenNamed = 1.4
	bothNamed  = 2
)

// toldOutright is what a remark weighs that says what was done: more than the plainest mistake has
// before the least plain one. Whoever writes it knows.
const toldOutright = 2.1

var anyFilter = Filter{Called: []string{"filter", "filters", "factor", "factors"}}

// named is the evidence of the names and amounts in the sheet's remarks.
func (c *Case) named(g *Guess) float64 {
	if c.Words == "" || len(g.Of) == 0 {
		return 0
	}
	words := newWording(c.Words)
	of := g.Of[0]
	thing, given := words.name(of) || of.Name != "" && words.name(anyFilter) || words.tell(of.Stops), words.tell(of.Stops+g.Stops)
	for _, other := range g.Of[1:] {
		given = given || words.name(other)
	}
	switch {
	case thing && given:
		return bothNamed
	case given:
		return givenNamed
	case thing:
		return thingNamed
	}
	return 0
}

// wording is the words of a remark, a blank before and behind each.
type wording struct {
	text  string
	stops []float64 // amounts: factors, stops
}

func newWording(words string) wording {
	all := strings.FieldsFunc(strings.ReplaceAll(words, "×", "x"), func(r rune) bool {
		return r != '.' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	w := wording{text: " "}
	for i, word := range all {
		word = strings.Trim(word, ".")
		w.text += word + " "
		factor, ok := strings.CutPrefix(word, "x")
		if !ok {
			factor, ok = strings.CutSuffix(word, "x")
		}
		if v, err := strconv.ParseFloat(factor, 64); err != nil {
			continue
		} else if ok {
			w.stops = append(w.stops, math.Log2(v))
		} else if i+1 < len(all) && strings.HasPrefix(all[i+1], "stop") {
			w.stops = append(w.stops, v)
		}
	}
	return w
}

// name reports whether the words call a thing by one of its names.
func (w wording) name(f Filter) bool {
	return slices.ContainsFunc(f.Called, func(called string) bool { return strings.Contains(w.text, " "+called+" ") })
}

// tell reports whether they tell an amount.
func (w wording) tell(stops float64) bool {
	return slices.ContainsFunc(w.stops, func(told float64) bool { return math.Abs(told-stops) <= 1./12 && told != 0 })
}

// ofReading are the mistakes that are made with a reading before anything is set.
var ofReading = map[string]bool{
	"not-placed": true, "placed-wrong-way": true, "wrong-zone": true, "meter-at-another-ei": true, "meter-left-at-ei": true, "another-index": true, "earlier-reading": true,
}

// readRight is what speaks against a mistake with the reading: that the sheet before it in the
// scene was right with the same one, and more that this one was written as the same as a right one.
func (c *Case) readRight() float64 {
	for i, e := range c.Earlier {
		switch {
		case !e.SameReading || !e.Right:
		case e.Copied:
			return 1.2
		case i == 0:
			return 0.45
		}
	}
	return 0
}

// denied reports whether measured densities speak against a mistake. Where a filter
// is only not written, or the time was miswritten, the film got what was asked for; by every other mistake it
// got what the settings say. Within a third of the difference of either, a density
// speaks; between them it is silent. Common practice, no source.
func (c *Case) denied(slug string) bool {
	if !c.Measured || math.Abs(c.Difference) < 1 {
		return false
	}
	inNote := slug == "filter-not-written" || slug == "time-miswritten"
	part := c.ByDensity / c.Difference
	return math.Abs(part) < 1./3 && !inNote || math.Abs(part-1) < 1./3 && inNote
}
