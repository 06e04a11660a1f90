package compile

import (
	"math"
	"slices"
	"strings"

	"notchbook/lang"
)

// More or less that a sheet got on purpose, as its remarks say it in words of the
// writer's own: "one stop more for the shadows", "to be safe". What is meant and how much
// is for the writer to say (bracket +1), so such a sheet is neither right nor a mistake. A
// remark that owns to a slip is none of these, and words that name an amount speak only
// for about so much.

// The words are those of notes read for this (common practice, no source).
var (
	morePurpose = lang.Lazily(`\b(?:stops?|half|third) (?:more|extra|over|above|up)\b|\b(?:extra|additional) (?:half |third of a )?stop|\bplus (?:one|a (?:half|third|stop))\b|` +
		`\bopen(?:ed)? up (?:a|one|half|for the shadows?)\b|\bover-?expos|\bto be (?:safe|sure)\b|\bfor safety\b|\bsafe side\b|\binsurance\b|\bgenerous`)
	lessPurpose = lang.Lazily(`\b(?:stops?|half|third) (?:less|under|below|down)\b|\bminus (?:one|a (?:half|third|stop))\b|\bunder-?expos`)
	anyPurpose  = lang.Lazily(`\b(?:on purpose|purposely|deliberate(?:ly)?|intentional(?:ly)?|intended|bracket(?:ed|ing)?)\b`)
	ownsToSlip  = lang.Lazily(`\b(?:forgot|forgotten|mistake|oops|should have|wrong|wrongly|accident|accidentally|by error|in error|meant to|misread|botched|damn|blast|stupid|thought)\b|n't\b|\?`)
	saidStops   = lang.Lazily(`\b(one and a half|one|a|two|half a|half|a third|two thirds|[123])(?: of a)?(?: extra| additional)? stops?\b`)
	// purposeful has a part of each of the above, for a quick look.
	purposeful  = strings.Fields("more extra additional over above up plus expos safe sure safety insurance generous less under below down minus purpose deliberate intention intended bracket")
	stopsInWord = map[string]float64{"one": 1, "a": 1, "1": 1, "two": 2, "2": 2, "3": 3, "half": 0.5, "half a": 0.5, "a third": 1. / 3, "two thirds": 2. / 3, "one and a half": 1.5}
)

// meantSo is the remark that says that so much more (positive) or less was given on
// purpose, in stops, "" where none does.
func (sh *sheet) meantSo(off float64) string {
	const unsaid = 1.5 // the most that words which name no amount speak for, in stops
	for _, remark := range sh.remarks {
		low := strings.ToLower(remark)
		way := morePurpose
		if off < 0 {
			way = lessPurpose
		}
		if !slices.ContainsFunc(purposeful, func(part string) bool { return strings.Contains(low, part) }) {
			continue
		}
		any := anyPurpose().MatchString(low)
		if !any && !way().MatchString(low) || ownsToSlip().MatchString(low) {
			continue
		}
		most := unsaid
		if m := saidStops().FindStringSubmatch(low); m != nil {
			if math.Abs(math.Abs(off)-stopsInWord[m[1]]) > 0.5 {
				continue
			}
		} else if any {
			most = math.Inf(1)
		}
		if math.Abs(off) <= most {
			return remark
		}
	}
	return ""
}
