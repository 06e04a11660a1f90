package compile

import (
	"slices"
	"strings"

	"notchbook/lang/pattern"
)

// Light that was added by hand: a flash, a torch that painted, a film that was flashed. No
// reading of the scene speaks of it, so nobody can say what was right.

// The words are those of notes read for this (common practice, no source).
const (
	flashes = `(?:(?:pre-?|ring[- ]?)?(?:flash(?:es|ed|ing|guns?|bulbs?|light)?)|strobes?|speed ?li(?:gh)?te?s?|studio heads?|mono(?:blocs?|blocks?|lights?)|(?:ring|studio|system|stab|elektronen|röhren|vakuum|kolben|birnen|computer)?blitz\w*|geblitzt|[ée]clairs?` +
		`|(?:one|two|three|four|five|six|seven|eight|nine|ten|[0-9]+) pops?)`
	torches = `(?:(?:head|pocket )?torch(?:es|light)?|flashlights?|headlamps?|taschenlampen?|lampes? (?:torche|de poche))`
)

var (
	addedByHand = pattern.Lazily(`(?:^|[^\pL])(?:` + flashes + `|pre-?exposed|vorbelicht(?:et|ung)|diffus vorbelichtet|prélumination|préexposée?|magnesium|light[- ]?painting|light[- ]painted` +
		`|paint(?:ed|ing)(?: (?:it|in|over|up|round|all|(?:the|a|from|for) \w+))* (?:with|by) (?:the |a |my )?(?:\w+ )?(?:light|` + torches + `)|(?:lit|lighted|lighting|filled|filling|angeleuchtet|ausgeleuchtet|éclairée?)\b.*` + torches + `|(?:` + torches + `),? (?:and|to) (?:i )?paint(?:ed|ing)?)(?:$|[^\pL])`)

	// noneAdded are words that say that there was none; the flash meter that was missing says nothing of
	// the flash.
	noneAdded = pattern.Lazily(`(?:^|[^\pL])(?:(?:no|without|ohne) (?:the |a )?soft ?box(?:es)?|(?:no|without|forgot|ohne|kein|keine|sans|pas de) (?:the |any |a |my )?` + flashes + `(?:[.,;]|\s*$| [^m])` +
		`|` + flashes + ` (?:(?:has |had |was |were |is |did )?(?:not|never) |(?:didn|wasn|hasn|doesn|don)['’]t )(?:fired?|go(?:ne)? off|used?|working|work|lit?|on)?\s*(?:[.,;]|$)` +
		`|` + flashes + ` (?:has |had |was |is )?(?:failed|forgotten|misfired|broken|dead|switched off|off|left at home)(?: to (?:fire|go off))?(?: again)?\s*(?:[.,;]|$)` +
		`|(?:flash(?:es)? of|flash flood|in a flash|news ?flash|(?:sun|light|windows?|water|signal|lamp|lighthouse) (?:was |were )?flash\w*|blitz (?:und donner|am|über|in der ferne)|[ée]clairs? (?:au loin|de chaleur|dans le|sur l))` + // nor of the weather's
		`)`)
)

// addedLight is words, in lower case, less those that say of light by hand that there was none.
func addedLight(words string) string { return noneAdded().ReplaceAllString(words, " ") }

// unmeasured reports words, in lower case, of light that no reading of the scene speaks of.
func unmeasured(words string) bool { return addedByHand().MatchString(addedLight(words)) }

// mayFlash is a remark by which a flash may have lit a sheet that is wrong, "" for none: lamps that burn
// have softboxes and powers too.
func (sh *sheet) mayFlash() string {
	i := slices.IndexFunc(sh.remarks, func(remark string) bool { return likeFlash().MatchString(addedLight(strings.ToLower(remark))) })
	if i < 0 {
		return ""
	}
	return sh.remarks[i]
}

var likeFlash = pattern.Lazily(`\b(?:soft ?box(?:es)?|octabox|beauty dish|flash ?heads?|(?:full|half|quarter|third|low|1/[0-9]+) power|power (?:full|half|1/[0-9]+))(?:$|[^\pL ]| (?:on|at|from|and|with|left|right|above|behind|to)\b| [^\pL])`)

// litByFlash reports whether a remark says in so many words that a flash lit the sheet: with flash, flash from the left. One
// that filled the shadows leaves the rest as it was metered.
func litByFlash(remark string) bool {
	if !flash().MatchString(strings.ToLower(remark)) {
		return false // as nearly all
	}
	for clause := range clauses(addedLight(strings.ToLower(remark))) {
		if usedFlash().MatchString(clause) {
			return true
		}
	}
	return false
}

var usedFlash = pattern.Lazily(`^(?:(?:with|by|plus|and|used|lit|one|two|a|the|my|some|bit|touch|of|on-camera|bounced|direct|off-camera|mit|avec|au) )*` + flashes + `(?:$|[^\pL ]| (?:on|at|from|with|left|right|above|below|behind|bounced|used|fired|half|full|quarter|low|von|links|rechts)\b)`)

// flashed reports whether the words of a sheet, or of its light, say that a flash lit it.
func (sh *sheet) flashed() bool {
	return sh.unlit != "" && flash().MatchString(strings.ToLower(sh.unlit)) ||
		slices.ContainsFunc(append(sh.remarks[:len(sh.remarks):len(sh.remarks)], sh.light), func(words string) bool {
			return flash().MatchString(addedLight(strings.ToLower(words)))
		})
}

var flash = pattern.Lazily(`(?:^|[^\pL])` + flashes + `(?:$|[^\pL])`)

// lamp is a remark by which light may have been added to a sheet that got too little, "" for none.
func (sh *sheet) lamp() string {
	i := slices.IndexFunc(sh.remarks, func(remark string) bool {
		low := strings.ToLower(remark)
		return unmeasured(low) || torchFor().MatchString(low)
	})
	if i < 0 {
		return ""
	}
	return sh.remarks[i]
}

// torchFor is a torch with the time for which it was lit.
var torchFor = pattern.Lazily(`\b` + torches + `\b.*\d`)
