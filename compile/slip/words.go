package slip

import "regexp"

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
