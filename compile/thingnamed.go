package compile

import "strings"

// Another lens or film of the kit that words of a sheet's own line name and say nothing else, whatever signs stand around it:
// {210}, w/210, the plasmat, flint!, (flint). A name may be any word, and so it is asked about only where it matters.

// thingsNamed are the ways by the one thing of the kit that a text names.
func (sh *sheet) thingsNamed(said string) (ways []another) {
	const most = 6 // words
	k := kitOf(sh)
	if len(k.films) < 2 && len(k.lenses) < 2 || said == "" || strings.Count(said, " ") >= most || !k.mayName(said) {
		return nil
	}
	low := strings.Map(unsigned, strings.ToLower(said))
	for _, n := range k.thingsIn(low) {
		if n.sure != thingAlone {
			continue
		}
		switch t := n.thing.(type) {
		case *film:
			if sh.film.known && t != sh.film.v {
				ways = append(ways, wasOnFilm(t, said))
			}
		case *lens:
			if sh.lens.known && t != sh.lens.v {
				ways = append(ways, wasLens(t, said))
			}
		}
	}
	if len(ways) != 1 {
		return nil
	}
	return ways
}

// unsigned makes blanks of the signs and pictures that stand around a name.
func unsigned(c rune) rune {
	const firstPicture = '\u2190' // of Unicode, from the arrows on
	if c >= firstPicture || strings.ContainsRune(".,;:!?'\"‘’“”…{}<>[]()*_~@#+&=/-–—|`", c) {
		return ' '
	}
	return c
}
