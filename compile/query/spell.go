package query

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"notchbook/compile/exposure"
	"notchbook/compile/handbook"
	"notchbook/compile/record"
)

// How people write the terms: the spellings under which each is found. Those of
// settings and developments are what the notation's own reader takes for one.

// trim writes a number with the decimals it has, at most two.
func trim(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

// parts of a unit that have a fraction of their own.
var fractionText = map[float64]string{0.5: "+1/2", 0.33: "+1/3", 0.67: "+2/3", 0.25: "+1/4", 0.75: "+3/4"}

// withFractions spells a number between two texts: 12.5 and 12+1/2.
func withFractions(before string, v float64, after string) []string {
	all := []string{before + trim(v) + after, strings.TrimSpace(before) + trim(v) + after}
	whole := math.Floor(v)
	if f := fractionText[math.Round((v-whole)*100)/100]; f != "" {
		all = append(all, before+trim(whole)+f+after, strings.TrimSpace(before)+trim(whole)+f+after)
	}
	return all
}

// lensSpelled is the lens's name and its focal length.
func (x *indexer) lensSpelled(name string) []string {
	all := []string{name, "lens " + name}
	if mm, ok := strings.CutSuffix(x.fact("lens", name, "focal length"), " mm"); ok {
		all = append(all, mm+" mm", mm+"mm")
	}
	return all
}

// polarizer is the kind of a filter that is none by a colour.
const polarizer = "polarizer"

// declared reports whether the kit has a thing.
func (x *indexer) declared(kind, name string) bool {
	return slices.ContainsFunc(x.season.Kit, func(it *record.Item) bool { return it.Kind == kind && strings.EqualFold(it.Name, name) })
}

// fact is what the kit says of a thing, "" where nothing.
func (x *indexer) fact(kind, name, fact string) string {
	for _, item := range x.season.Kit {
		if item.Kind != kind || !strings.EqualFold(item.Name, name) {
			continue
		}
		for _, f := range item.Facts {
			if f.Name == fact {
				return f.Value
			}
		}
	}
	return ""
}

// filterSpelled is every way to name a filter: as the kit calls it, by its
// Wratten number, by the old letters, by its colour.
func (x *indexer) filterSpelled(name string) []string {
	all := []string{name, "filter " + name}
	number := x.fact("filter", name, "Wratten number")
	if number == "" && (x.fact("filter", name, "kind") == polarizer || handbook.NumberOf(name) == "pol") {
		number = "pol"
	}
	if number == "" && !x.declared("filter", name) {
		number = handbook.NumberOf(name)
	}
	e, ok := handbook.Filter(number)
	if !ok {
		all = append(all, strings.ReplaceAll(name, " ", ""))
		if colour := x.fact("filter", name, "colour"); colour != "" {
			all = append(all, colour, colour+" filter")
		}
		return all
	}
	if e.Number == "pol" {
		return append(all, "pol", "polarizer", "polariser")
	}
	n := e.Number
	all = append(all, "#"+n, "w"+n, "w "+n, "wratten "+n, "filter "+n, e.Letter, e.Colour, e.Colour+" "+n)
	for _, hue := range e.Hues {
		all = append(all, hue, hue+" "+n, hue+" filter")
		if strings.Contains("yorgb", hue[:1]) {
			all = append(all, hue[:1]+n, hue[:1]+" "+n)
		}
	}
	return all
}

// bellows is an extension, a magnification or a distance, as the record has it:
// "ext 260 mm", "mag 0.5", "focus 1.2 m".
func (x *indexer) bellows(text, typed string) {
	how, amount, ok := strings.Cut(text, " ")
	if !ok {
		return
	}
	x.state("extension written")
	x.is(text, func() []string {
		all := []string{text, strings.ReplaceAll(text, " m", "m"), how + strings.ReplaceAll(amount, " ", "")}
		mm, err := strconv.ParseFloat(strings.TrimSuffix(amount, " mm"), 64)
		switch {
		case how == "ext" && err == nil:
			for _, word := range []string{"ext", "extension", "bellows", "draw"} {
				all = append(all, word+" "+trim(mm), word+" "+trim(mm)+"mm", word+" "+trim(mm)+" mm", word+" "+trim(mm/10)+"cm", word+" "+trim(mm/10)+" cm")
			}
		case how == "mag" && err == nil && mm > 0 && math.Abs(1/mm-math.Round(1/mm)) < 0.01:
			all = append(all, "1:"+trim(math.Round(1/mm)), "mag 1:"+trim(math.Round(1/mm)))
		}
		return all
	})
	x.typed(text, typed)
}

// typed has a term spelled as the notes have it. A number that nothing stands beside may be
// of anything: it is nobody's spelling.
func (x *indexer) typed(name, text string) {
	f := x.terms[name]
	text = clean(strings.TrimRight(text, "? "))
	if f == nil || !strings.ContainsFunc(text, func(r rune) bool { return r == '/' || unicode.IsLetter(r) }) {
		return
	}
	for _, spelled := range []string{text, strings.TrimRight(text, ".")} {
		if !slices.Contains(f.Spelled, spelled) {
			f.Spelled = append(f.Spelled, spelled)
		}
	}
}

// movement is a movement as typed, "front rise 12 mm", and its kind.
func (x *indexer) movement(text string) {
	words := strings.Fields(Fold(text))
	for _, w := range words {
		switch w {
		case "rise", "fall", "shift", "tilt", "swing":
			x.state(w)
			x.is(strings.Join(words, " "), func() []string {
				all := []string{text}
				for _, amount := range words {
					if v := strings.TrimRight(amount, "m°cinde"); v != "" && v[0] >= '0' && v[0] <= '9' {
						all = append(all, w+" "+v, w+" "+v+"mm", w+" "+v+" mm")
					}
				}
				return all
			})
		}
	}
}

// apertureSpelled is f/16½ without its stroke and with a blank behind the f.
func apertureSpelled(text string) []string {
	folded := Fold(text)
	number, ok := strings.CutPrefix(folded, "f/")
	if !ok {
		return []string{text}
	}
	all := []string{folded, "f" + number, "f " + number}
	if mark, half := strings.CutSuffix(number, "+1/2"); half && !strings.Contains(mark, ".") {
		all = append(all, "f"+mark+".5", "f/"+mark+".5")
	}
	return all
}

// timeSpelled is a time with and without its unit.
func timeSpelled(text string, seconds record.Figure) []string {
	folded := Fold(text)
	all := []string{folded, strings.ReplaceAll(folded, " ", "")}
	if strings.HasPrefix(folded, "1/") {
		all = append(all, folded+"s", folded+" s", folded+" sec")
	}
	if amount, ok := strings.CutSuffix(folded, " s"); ok {
		all = append(all, amount+"s", amount+" sec", amount+" secs", amount+" seconds")
	}
	if seconds.Known && seconds.Value >= 1 {
		all = append(all, trim(seconds.Value)+"s", trim(seconds.Value)+" s", trim(seconds.Value)+" sec")
	}
	return all
}

// nText writes a development as the record does.
func nText(n float64) string {
	switch {
	case n == 0:
		return "N"
	case n > 0:
		return "N+" + exposure.FormatAmount(n)
	}
	return "N−" + exposure.FormatAmount(-n)
}

// nSpelled is N-1 and N minus 1, behind a word or none.
func nSpelled(before, text string) []string {
	folded := Fold(text)
	all := []string{before + folded}
	if before == "" {
		all = append(all, folded+" asked", "asked "+folded)
	}
	switch {
	case folded == "n":
		all = append(all, before+"normal")
	case strings.HasPrefix(folded, "n-"):
		all = append(all, before+"n minus "+folded[2:])
	case strings.HasPrefix(folded, "n+"):
		all = append(all, before+"n plus "+folded[2:])
	}
	return all
}
