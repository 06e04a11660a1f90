package slip

import (
	"math"
	"regexp"
)

// What a remark says of a mistake is evidence for it: whoever writes "forgot the
// bellows" knows. Common practice, no source.
var says = map[string]*regexp.Regexp{
	"filter-not-compensated": regexp.MustCompile(`\b(?:forgot|forgotten|without|no|missed|not allowed for)\b[^.;]*\b(?:factor|filter|compensat)`),
	"compensated-twice":      regexp.MustCompile(`\btwice\b[^.;]*\b(?:factor|filter|compensat)|\b(?:factor|filter|compensat)[^.;]*\btwice\b`),
	"bellows-forgotten":      regexp.MustCompile(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\b(?:bellows|extension)`),
	"reciprocity-forgotten":  regexp.MustCompile(`\b(?:forgot|forgotten|without|no|missed)\b[^.;]*\breciprocity`),
	"not-placed":             regexp.MustCompile(`\b(?:forgot|forgotten|not)\b[^.;]*\b(?:place|placed|zone)`),
	"meter-left-at-ei":       regexp.MustCompile(`\bmeter\b[^.;]*\b(?:ei|iso|asa|set|stood|speed)\b`),
	"filter-not-written":     regexp.MustCompile(`\bfilter\b[^.;]*\b(?:still|left) on\b`),
	"settings-left":          regexp.MustCompile(`\b(?:same|old|last) settings\b|\bforgot to (?:change|reset)`),
	"bracket-forgotten":      regexp.MustCompile(`\b(?:forgot|forgotten)\b[^.;]*\bbracket`),
	"one-stop":               regexp.MustCompile(`\b(?:one|a) (?:stop|click|speed) (?:off|out|too)`),
}

// saysOf is the evidence of the sheet's remarks for a mistake.
func (c *Case) saysOf(slug string) float64 {
	if re := says[slug]; re != nil && c.Words != "" && re.MatchString(c.Words) {
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
