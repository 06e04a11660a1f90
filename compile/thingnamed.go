package compile

import (
	"strings"

	"notchbook/lang"
)

// Another lens or film of the kit that words of a sheet's own line name and say nothing else, whatever signs stand around it:
// {210}, w/210, the plasmat, flint!, (flint). A name may be any word, and so it is asked about only where it matters.

// thingsNamed are the ways by the one thing of the kit that a text names.
func (sh *sheet) thingsNamed(said string) []another {
	const most = 6 // words
	k := kitOf(sh)
	if len(k.films) < 2 && len(k.lenses) < 2 || said == "" || strings.Count(said, " ") >= most {
		return nil
	}
	var way *another
	for word := range strings.FieldsSeq(strings.ToLower(said)) {
		name := bareName(word)
		if name == "a" || name == "an" {
			return nil // a moth on the lens
		}
		if name == "" || besideThing[name] || sayOn[name] || besideColour[name] || besideName[name] {
			continue
		}
		named := sh.otherThing(name, said)
		if named == nil || way != nil {
			return nil
		}
		way = named
	}
	if way == nil {
		return nil
	}
	return []another{*way}
}

// otherThing is the sheet on a film, or with a lens, of a name that are not its own; nil where there is none.
func (sh *sheet) otherThing(name, said string) *another {
	k := kitOf(sh)
	if f, ok := find(k.films, name); ok && sh.film.known && f != sh.film.v {
		way := wasOnFilm(f, said)
		return &way
	}
	if l, ok := k.lens(name); ok && sh.lens.known && l != sh.lens.v {
		return &another{"whether the lens was " + l.name + ": " + quote(said), func(at *sheet) { at.lens = known(l, at.at, false) }}
	}
	return nil
}

// bareName is a word without the signs around it, with at its head, and the unit of a length behind it.
func bareName(word string) string {
	if !strings.ContainsFunc(word, func(c rune) bool { return (c < 'a' || c > 'z') && (c < '0' || c > '9') }) && !strings.HasSuffix(word, "mm") {
		return word // as most
	}
	const signs = ".,;:!?'\"‘’“”…{}<>[]()*_~@#+&=/-–—|`"
	name := strings.Trim(strings.TrimPrefix(word, "w/"), signs)
	name = strings.TrimFunc(name, func(c rune) bool { return c >= firstPicture })
	name, _, _ = strings.Cut(strings.Trim(name, signs), "'")
	if mm := strings.TrimSuffix(name, "mm"); mm != "" && strings.Trim(mm, "0123456789") == "" {
		return mm
	}
	return name
}

// firstPicture is the first of the characters that are pictures (Unicode, from the arrows on).
const firstPicture = '\u2190'

// besideName are further words beside a name that say no more than that it was used (common practice, no source).
var besideName = lang.SetOf("lens lenses mm w thru using used swapped switched changed instead sorry oops too new old had has loaded loading mine me s time holder")
