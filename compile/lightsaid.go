package compile

import (
	"slices"
	"strings"

	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What the words for a light say of it: a lamp that is struck out, denied, off, or of another time is none, and one that is
// doubted, or that an editor supplied, leaves open which light it was.

// lightsIn is the light that words say, as words, and what there is of it without what they leave open: the same where that
// is nothing.
func lightsIn(said string) (holds, instead string) {
	if said == "" || !mayQualify.In(said) {
		return said, said // as nearly all
	}
	text := lang.Unstruck(said)
	if strings.Contains(strings.ToLower(text), " no wait") {
		text = lastSaid(text)
	}
	type clause struct {
		text       string
		gone, open bool
	}
	var all []clause
	unsure := false // of all of it
	for _, part := range lightClauses(text) {
		c := clause{text: part.text, open: part.open || strings.Contains(part.text, "?")}
		words := wordsIn(strings.ToLower(part.text))
		lamp := classOf(part.text) != handbook.Daylight
		denied := says(words, lampGone)
		switch {
		case len(words) == 0:
			continue
		case lamp:
			c.gone = denied
			c.open = c.open || says(words, lampDoubted)
		case denied && only(words, lampGone, lampState) && len(all) > 0: // tungsten, off
			all[len(all)-1].gone = true
			continue
		}
		unsure = unsure || says(words, lampUnsure)
		if words[0] == "or" && len(all) > 0 {
			all[len(all)-1].open, c.open = true, true
		}
		all = append(all, c)
	}
	all = slices.DeleteFunc(all, func(c clause) bool { return c.gone })
	var held, sure []string
	for _, c := range all {
		held = append(held, strings.Trim(c.text, " ?"))
		if !c.open && !unsure {
			sure = append(sure, held[len(held)-1])
		}
	}
	return strings.Join(held, ", "), strings.Join(sure, ", ")
}

// lightClause is a part of such words; an editor's is open.
type lightClause struct {
	text string
	open bool
}

// lightClauses parts words at their marks, and before those that begin another thought.
func lightClauses(text string) (all []lightClause) {
	from, open := 0, false
	part := func(to int) {
		all = append(all, lightClause{strings.TrimSpace(text[from:to]), open})
		from = to
	}
	for i := range len(text) {
		switch c := text[i]; {
		case strings.IndexByte(",;.()[]", c) >= 0:
			part(i)
			from, open = i+1, c == '['
		case c == ' ':
			word, _, _ := strings.Cut(strings.ToLower(text[i+1:]), " ")
			if beginsLight[word] {
				part(i)
			}
		}
	}
	part(len(text))
	return all
}

// holdingLight is the light that words say, as words.
func holdingLight(said string) string {
	holds, _ := lightsIn(said)
	return holds
}

// lightState is the kind of light that words say.
func lightState(said string) (handbook.LightState, bool) { return handbook.Light(holdingLight(said)) }

// lightOpen takes back what rests on a light that its words leave open.
func (s *season) lightOpen(sh *sheet) {
	if holds, instead := lightsIn(sh.light); holds != instead {
		s.unlessAlike(sh, "what the light was: "+quote(sh.light), func(at *sheet) { at.light = instead })
	}
}

// keepsLight reports whether a line says of the light no more than that it is as before.
func keepsLight(text string) bool {
	words := wordsIn(strings.ToLower(text))
	if len(words) == 2 && noChange[words[0]] && filterChange[words[1]] {
		return true
	}
	return (says(words, readingKept) || says(words, readingAgain)) && only(words, readingKept, readingAgain, readingFrom)
}

// The words are those of notes read for this (common practice, no source).
var (
	mayQualify  = pattern.AnyOf("~~ ? [ no without never n't n’t off out unlit gone instead earlier yesterday later then until before or maybe perhaps prob poss sure think guess forg")
	beginsLight = lang.SetOf("not no without instead but then now or never")
	lampGone    = lang.SetOf("not no without never isn't wasn't aren't weren't isn’t wasn’t off out unlit gone instead earlier yesterday")
	lampState   = lang.SetOf("on used lit yet longer anymore any more switched turned is was are were been now they it all both had by again went the")
	lampDoubted = lang.SetOf("maybe perhaps probably possibly before later then until think guess")
	lampUnsure  = lang.SetOf("unsure sure forgot forget forgotten")
)
