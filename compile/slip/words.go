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
