package compile

import (
	"math"
	"slices"
	"strings"

	"notchbook/compile/handbook"
	"notchbook/lang"
)

// What a filter costs by the film behind it and the light before it: "tungsten x5",
// "ortho x3", "plate tungsten x2½", "open shade x10".

// amount is one value of a filter and what it holds for. A part that is empty holds
// for all.
type amount struct {
	*cost
	as    string // the words before it, in lower case: "plate tungsten"
	class string // of the film
	light string // handbook.Daylight or handbook.Tungsten
	words string // the rest of the words: a film by its name, or a light as the writer calls it
}

// declareAmount keeps a value for what the words before it say; of two for the same
// the later counts.
func (f *filter) declareAmount(words []string, c *cost) {
	a := amount{cost: c, as: strings.ToLower(strings.Join(words, " "))}
	var rest []string
	for _, w := range strings.Fields(a.as) {
		switch name := shortClass(w); name {
		case handbook.Daylight, handbook.Tungsten:
			a.light = name
		case "pan", "ortho", "blue":
			a.class = name
		default:
			rest = append(rest, w)
		}
	}
	a.words = strings.Join(rest, " ")
	for i, old := range f.amounts {
		if old.class == a.class && old.light == a.light && old.words == a.words {
			f.amounts[i] = a
			return
		}
	}
	f.amounts = append(f.amounts, a)
}

// wordsBehind is the words right behind each amount of a filter's line, where what it
// holds for is said behind it: x4 daylight, x2 tungsten. The words end at a comma, and none
// stand before the first. Empty where words stand before their amounts.
func wordsBehind(st *lang.Statement) map[*lang.Term][]string {
	all := st.Terms()
	behind := map[*lang.Term][]string{}
	for i := range all {
		var words []string
		switch k := all[i].Kind.(type) {
		case *lang.Loose:
			words = k.Words
			if lang.LeadsToLight[strings.ToLower(words[0])] {
				words = words[1:]
			}
		case *lang.Class:
			words = k.Names
			if k.Amount != nil {
				return nil
			}
		}
		if len(words) == 0 || i == 0 {
			continue
		}
		from := i - 1
		if k, ok := all[from].Kind.(*lang.Loose); ok && from > 0 && len(k.Words) == 1 && lang.LeadsToLight[strings.ToLower(k.Words[0])] {
			from-- // x4 in daylight
		}
		if _, amount := all[from].Kind.(*lang.Amount); amount && endsAt(st, i) {
			behind[&all[from]] = words
		} else if !endsAt(st, i) {
			return nil
		}
	}
	return behind
}

// betweenTwo reports whether an amount is the further end of a span, x4 to x8, or the other
// of two between which the line does not decide.
func betweenTwo(words []string) bool {
	if len(words) != 1 {
		return false
	}
	switch strings.ToLower(words[0]) {
	case "or", "to", "and", "until", "-", "–":
		return true
	}
	return false
}

// misbound reports whether, in a stretch without commas, words stand behind their amounts and look
// as if they stood before the next: x4 daylight x2 tungsten. Which holds for what is not read.
func misbound(st *lang.Statement) bool {
	begins, between := false, false
	for i := range st.Terms() {
		switch k := st.Terms()[i].Kind.(type) {
		case *lang.Comma:
			begins, between = false, false
		case *lang.Amount:
			begins = i == 0 || endsAt(st, i-2) || between
		case *lang.Class:
			if begins && k.Amount != nil {
				between = true
			} else if between && k.Amount == nil && endsAt(st, i) {
				return true
			}
		}
	}
	return false
}

// endsAt reports whether a comma, or the line's end, is behind a term.
func endsAt(st *lang.Statement, i int) bool {
	if i+1 == len(st.Terms()) {
		return true
	}
	_, comma := st.Terms()[i+1].Kind.(*lang.Comma)
	return comma
}

// wordsBefore is the loose words of a filter's line right before each of its terms.
func wordsBefore(st *lang.Statement) map[*lang.Term][]string {
	all := st.Terms()
	before := map[*lang.Term][]string{}
	for i := 1; i < len(all); i++ {
		if words, ok := all[i-1].Kind.(*lang.Loose); ok {
			before[&all[i]] = words.Words
		}
	}
	return before
}

// both reports whether names are of a film's class and of a light, and so hold
// together.
func both(names []string) bool {
	isLight := func(n string) bool { return n == handbook.Daylight || n == handbook.Tungsten }
	return slices.ContainsFunc(names, isLight) && slices.ContainsFunc(names, func(n string) bool { return !isLight(n) })
}

// betweenWords makes blanks of what may stand between the words of a light.
var betweenWords = strings.NewReplacer(",", " ", ".", " ")

// costOn is what the filter costs on a film, nil where it is not known, in a light as
// the writer calls it. The value that says most about them counts: a film's name before
// a light in the writer's own words, that before the film's class, and that before the
// kind of light. Where one value holds for the film in any light and another for the
// light on any film, and none for both, it costs something between the two. It is nil
// where no value holds but the one for all.
func (f *filter) costOn(film *film, light string) *cost {
	var best, lit *amount
	most, mostLit := 0, 0
	for i := range f.amounts {
		a := &f.amounts[i]
		n := a.fits(film, light)
		if n > most {
			best, most = a, n
		}
		if n > mostLit && !a.ofFilm(film) {
			lit, mostLit = a, n
		}
	}
	switch {
	case best == nil:
		return nil
	case lit == nil || best == lit || best.ofLight(film):
		return best.cost
	}
	c := *best.cost
	c.low, c.high = min(c.low, lit.low), max(c.high, lit.high)
	c.detail += "; for " + lit.as + " " + lit.detail
	return &c
}

// alike reports whether a filter costs the same in every light it is declared for.
func (f *filter) alike(on *film) bool {
	return !slices.ContainsFunc(f.amounts, func(a amount) bool { return a.ofLight(on) && math.Abs(a.stops-f.stops.stops) > margin })
}

// fits is how much of a film and a light a value speaks of, 0 where it does not hold.
func (a *amount) fits(on *film, light string) (n int) {
	const class, kind, name = 2, 1, 1 << 16 // a light's own words count by their length, in between
	if a.class != "" {
		if on == nil || on.class != a.class {
			return 0
		}
		n += class
	}
	if a.light != "" {
		if lightClass(light) != a.light {
			return 0
		}
		n += kind
	}
	rest := a.ownLight(on)
	if rest != a.words {
		n += name
	}
	if rest != "" {
		if _, ok := cutWords(strings.ToLower(betweenWords.Replace(holdingLight(light))), rest); !ok {
			return 0
		}
		n += 4 * len(rest)
	}
	return n
}

// ofFilm reports whether a value that fits a film is one for it or its class.
func (a *amount) ofFilm(on *film) bool {
	return a.class != "" || a.ownLight(on) != a.words
}

// ofLight reports whether a value that fits a film is one for a light.
func (a *amount) ofLight(on *film) bool { return a.light != "" || a.ownLight(on) != "" }

// ownLight is the light that a value holds in as the writer calls it.
func (a *amount) ownLight(on *film) string {
	if on == nil {
		return a.words
	}
	rest, _ := cutWords(a.words, strings.ToLower(on.name))
	return rest
}

// cutWords takes whole words out of others.
func cutWords(text, words string) (rest string, ok bool) {
	before, after, ok := strings.Cut(" "+text+" ", " "+words+" ")
	if !ok || words == "" {
		return text, false
	}
	return strings.Join(strings.Fields(before+" "+after), " "), true
}
