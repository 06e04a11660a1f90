package compile

import (
	"slices"
	"strings"
	"unicode"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Filters of the kit that a sheet's own line names otherwise than the notation does: among signs, joined to another,
// in plural, cut short: {yellow}, yellow/pol, two yellows, ylw. Whether they were on is asked, since none of it is read.

// filtersNamed leaves open whether filters were on that words of the line name so.
func (t *reader) filtersNamed(all []*lang.Term) {
	sh, k := t.sheet, t.book.kit
	if t.metering || t.amending || sh.strange || len(k.filters) == 0 {
		return
	}
	for _, term := range all {
		if e, setting := term.Kind.(*lang.Exposure); term.Aside || setting && e.EV != nil {
			continue
		}
		words := wordsOf(term.Kind)
		if low := lowered(words); says(low, noneOn) && len(sh.filters) > 0 && !t.filteredHere() && only(low, noneOn, besideColour, connective) {
			sh.vague, sh.strange = strings.Join(words, " "), true
			sh.maybeOn = sh.vague
			return
		}
		named := k.filtersAmong(words)
		if len(named) == 0 || !slices.ContainsFunc(named, func(f *filter) bool { return !sh.has(f) }) {
			continue
		}
		sh.vague, sh.strange = strings.Join(words, " "), true
		sh.maybeOn = sh.vague
		return
	}
}

// has reports whether a filter of the kit is on, by whatever name.
func (sh *sheet) has(f *filter) bool {
	return slices.ContainsFunc(sh.filters, func(u *use) bool { on, _, _ := kitOf(sh).filter(u.name); return on == f })
}

// filtersAmong are the filters of the kit that words name, one of them at least otherwise than plainly, where they say
// nothing else.
func (k *kit) filtersAmong(words []string) (all []*filter) {
	const most = 4 // words: more tell of something
	if len(words) == 0 || len(words) > most {
		return nil
	}
	otherwise := false
	for _, word := range words {
		low := plain(word)
		if low == "" || word == "rd." || besideColour[low] || connective[low] || countsFilters[low] {
			continue
		}
		named := k.filtersIn(low)
		if len(named) == 0 {
			return nil
		}
		if low = strings.ToLower(strings.TrimRight(word, ".,;:!")); low != strings.ToLower(named[0].name) && low != named[0].colour {
			otherwise = true
		}
		all = append(all, named...)
	}
	if !otherwise {
		return nil // a name by itself was read
	}
	return all
}

// noneOn are words for no filter, where one that is on does not stand on the line: same w nowt on (common practice, no source).
var noneOn = lang.SetOf("nowt nothing plain naked nought nil unfiltered")

// countsFilters are words beside filters that are counted, or joined (common practice, no source).
var countsFilters = lang.SetOf("two three both all s my me 2 3 2x")

// filtersIn are the filters of the kit that are named between the signs of a word in lower case; none where it says anything else.
func (k *kit) filtersIn(word string) (all []*filter) {
	parts := strings.FieldsFunc(word, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
	if joined := strings.ReplaceAll(word, ".", ""); len(joined) == len(parts) { // n.d.
		parts = []string{joined}
	}
	for _, part := range parts {
		i := slices.IndexFunc(k.filters, func(f *filter) bool { return f.calledBy(part) })
		switch {
		case i >= 0:
			all = append(all, k.filters[i])
		case !besideColour[part] && !connective[part] && !countsFilters[part]:
			return nil
		}
	}
	return all
}

// calledBy reports whether a word in lower case is a filter's name or colour, also in plural or cut short: yellows, ylw, grn.
func (f *filter) calledBy(word string) bool {
	name := strings.ReplaceAll(strings.ToLower(f.name), ".", "")
	if strings.HasPrefix(name, "nd") && word == "nd" {
		return true
	}
	for _, whole := range [...]string{name, f.colour} {
		if whole == "" {
			continue
		}
		if word == whole || word == whole+"s" || lang.IsColour(whole) && cutShort(word, whole) {
			return true
		}
		for _, rest := range [...]string{strings.TrimPrefix(word, whole), strings.TrimSuffix(word, whole)} {
			if len(rest) < len(word) && glued().MatchString(rest) {
				return true
			}
		}
	}
	return false
}

// glued is what a thumb leaves no blank before or behind: withyellow, yellowx2, redfilter (common practice, no source).
var glued = pattern.Lazily(`^(?:with|w|on|off|the|filter|filt|x[0-9]+|[0-9]+x)$`)

// cutShort reports whether a word is the beginning of another, or its first letter and some of its consonants, in order.
func cutShort(word, whole string) bool {
	const least, begun = 2, 3 // letters
	if len(word) >= begun && strings.HasPrefix(whole, word) {
		return true
	}
	if len(word) < least || len(word) >= len(whole) || word[0] != whole[0] || strings.ContainsAny(word[1:], "aeiou") {
		return false
	}
	rest := whole
	for i := range len(word) {
		at := strings.IndexByte(rest, word[i])
		if at < 0 {
			return false
		}
		rest = rest[at+1:]
	}
	return true
}

// oneAfterOther leaves open whether the first of two filters was on with the other, where words between them say only that
// it came before it: yellow then pol.
func (t *reader) oneAfterOther() {
	if t.metering || t.amending || t.st != t.sheet.lines[0] {
		return
	}
	terms := t.st.Terms()
	for i := range terms {
		if on := besideOther(t.sheet, i); on != nil {
			t.sheet.leaveOpen("", "whether "+on.name+" was on as well: "+quote(terms[i-1].Span.Cover(terms[i+1].Span).Text()))
		}
	}
}
