package slip

import (
	"math"
	"regexp"
	"sync"
)

// pattern is compiled when it is first asked for: few notes need any, and all of
// them together take longer than a short note takes to check.
type pattern func() *regexp.Regexp

func lazily(expression string) pattern {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// What a remark says of a mistake is evidence for it: whoever writes "forgot the
// bellows" knows. Common practice, no source.
var says = map[string]pattern{
	"filter-not-compensated": lazily(`\b(?:forgot|forgotten|without|no|missed|not allowed for)\b[^.;]*\b(?:factor|filter|compensat)`),
	"compensated-twice":      lazily(`\btwice\b[^.;]*\b(?:factor|filter|compensat)|\b(?:factor|filter|compensat)[^.;]*\btwice\b`),
	"bellows-forgotten":      lazily(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\b(?:bellows|extension)`),
	"reciprocity-forgotten":  lazily(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\breciprocity`),
	"not-placed":             lazily(`\b(?:forgot|forgotten|not)\b[^.;]*\b(?:place|placed|zone)`),
	"meter-left-at-ei":       lazily(`\bmeter\b[^.;]*\b(?:ei|iso|asa|set|stood|speed)\b`),
	"filter-not-written":     lazily(`\bfilter\b[^.;]*\b(?:still|left) on\b`),
	"settings-left":          lazily(`\b(?:same|old|last) settings\b|\bforgot to (?:change|reset)`),
	"bracket-forgotten":      lazily(`\b(?:forgot|forgotten)\b[^.;]*\bbracket`),
	"one-stop":               lazily(`\b(?:one|a) (?:stop|click|speed) (?:off|out|too)`),
}

// saysOf is the evidence of the sheet's remarks for a mistake.
func (c *Case) saysOf(slug string) float64 {
	if re := says[slug]; re != nil && c.Words != "" && re().MatchString(c.Words) {
		return 1
	}
	return 0
}

// evidence is what speaks for a guess: what it is made of, or the sheet's remarks; and against it
// a sheet before that was right, where it is its reading that was mistaken.
func (c *Case) evidence(slug string, g *Guess) float64 {
	if said := c.saysOf(slug); said > 0 {
		return max(g.Evidence, said)
	}
	if ofReading[slug] {
		return g.Evidence - c.readRight()
	}
	return g.Evidence
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
		case !e.SameScene || !e.SameReading || !e.Right:
		case e.Copied:
			return 1.2
		case i == 0:
			return 0.45
		}
	}
	return 0
}

// denied reports whether measured densities speak against a mistake. Where a filter
// is only not written the film got what was asked for; by every other mistake it
// got what the settings say. Within a third of the difference of either, a density
// speaks; between them it is silent. Common practice, no source.
func (c *Case) denied(slug string) bool {
	if !c.Measured || math.Abs(c.Difference) < 1 {
		return false
	}
	part := c.ByDensity / c.Difference
	switch {
	case part < 1./3 && part > -1./3:
		return slug != "filter-not-written"
	case part > 2./3 && part < 4./3:
		return slug == "filter-not-written"
	}
	return false
}
