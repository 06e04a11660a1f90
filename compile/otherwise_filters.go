package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// Other ways to read which filters were on, and what they cost.

// filters are those of the line's words put on, and those that stand among words taken off.
func (l *otherLine) filters() (ways []another) {
	sh := l.sh
	const tale = 4 // words: more tell of filters, and name none that is on
	for _, p := range l.prose {
		if len(strings.Fields(p.said)) > tale {
			continue
		}
		for _, t := range slices.Concat(p.terms, p.filters) {
			if k, ok := t.Kind.(*lang.Stack); ok && !l.on(k) {
				var on []*use
				for _, f := range k.Filters {
					on = append(on, &use{name: f.Name, amounts: f.Amounts, at: sh.at})
				}
				ways = append(ways, another{"whether " + quote(p.said) + " was on", withOn(on...)})
			}
		}
	}
	for _, p := range l.prose {
		if !p.bracket || ownsToSlip().MatchString(strings.ToLower(p.said)) {
			continue
		}
		for _, t := range p.terms {
			if k, ok := t.Kind.(*lang.Amount); ok {
				for n := range sh.filters {
					ways = append(ways, another{"whether " + quote(p.said) + " is what " + sh.filters[n].name + " cost", func(at *sheet) {
						own := *sh.filters[n]
						own.amounts = []lang.Amount{*k}
						at.filters = slices.Clone(sh.filters)
						at.filters[n] = &own
					}})
				}
			}
		}
	}
	for _, u := range sh.filters {
		f, _, _ := kitOf(sh).filter(u.name)
		switch {
		case !isGraduated(u.name):
		case len(u.amounts) > 0:
			ways = append(ways, ofGraduated(u.name, newCost(&u.amounts[0], &lang.Term{Span: u.at}).stops))
		case f != nil && f.stops != nil:
			ways = append(ways, ofGraduated(u.name, f.stops.stops))
		}
	}
	for n, u := range sh.filters {
		instead := func(name string, amounts []lang.Amount) func(*sheet) {
			return func(at *sheet) {
				at.filters = slices.Clone(sh.filters)
				at.filters[n] = &use{name: name, amounts: amounts, at: u.at}
			}
		}
		if len(u.amounts) > 0 && (says(l.words, besideBefore) || len(lang.NumbersInWords(u.at.Text())) > 0 || oneSaid().MatchString(u.at.Text())) {
			ways = append(ways, another{"whether " + quote(u.at.Text()) + " is what it cost, or what was given beside the sheet before", instead(u.name, nil)})
		}
		if colour, number, ok := strings.Cut(u.name, " "); ok && number != "" && has(l.words, "times") { // red 8 times
			ways = append(ways, another{"whether " + quote(u.name) + " is " + colour, instead(colour, nil)})
		}
	}
	for _, f := range kitOf(sh).filters {
		if word := cmp.Or(l.nearly(f.name), l.initial(f.name), l.mistaken(f)); word != "" {
			ways = append(ways, another{"whether " + quote(word) + " is " + f.name + ", and was on", withOn(&use{name: f.name, at: sh.at})})
		}
	}
	if body := sh.lines[0].Body.Text(); len(sh.filters) > 0 && (noneSaid().MatchString(body) || noneMarked().MatchString(body)) {
		ways = append(ways, another{"whether a filter was on: " + quote(strings.TrimSpace(body)), func(at *sheet) { at.filters = nil }})
	}
	if len(sh.filters) > 0 && says(l.words, offLens) && !l.otherThingOff() {
		ways = append(ways, another{"whether a filter was on: " + quote(strings.Join(l.words, " ")), func(at *sheet) { at.filters = nil }})
	}
	for i := range l.terms {
		ways = append(ways, sh.notOn(saidIn(l.terms[i].Kind))...)
	}
	if sh.reading != nil {
		for _, said := range append(l.said, sh.lines[0].Body.Text()) {
			ways = append(ways, sh.reading.throughTold(sh, said)...)
		}
	}
	if says(l.words, throughFilter) && says(l.words, ofMetering) && sh.reading != nil {
		ways = append(ways, another{"whether the meter looked through the filter: metered through the filter, or metered without it", func(at *sheet) {
			own := *sh.reading
			own.through = true
			at.reading = &own
		}})
	}
	if all := kitOf(sh).filters; len(all) == 2 && len(sh.filters) == 0 && has(l.words, "both") && says(l.words, theFilter) {
		ways = append(ways, another{"whether both filters were on", withOn(&use{name: all[0].name, at: sh.at}, &use{name: all[1].name, at: sh.at})})
	}
	var stacks []*lang.Term
	for i := range l.terms {
		k, stack := l.terms[i].Kind.(*lang.Stack)
		if !stack {
			continue
		}
		if l.beforeValue(i) && !l.on(k) {
			ways = append(ways, another{"whether " + quote(l.terms[i].Span.Text()) + " is what was metered, or a filter", func(at *sheet) { l.putOn(at, &l.terms[i]) }})
		}
		stacks = append(stacks, &l.terms[i])
		if says(l.words, insteadOf) || l.wordsApart() {
			ways = append(ways, another{"whether " + quote(l.terms[i].Span.Text()) + " alone was on", func(at *sheet) { l.putOn(at, &l.terms[i]) }})
		}
		at := l.terms[i].Span
		if l.maySubject(i) {
			ways = append(ways, another{"whether " + quote(at.Text()) + " was on, or is the colour of what is seen", func(without *sheet) {
				without.filters = slices.DeleteFunc(slices.Clone(without.filters), func(u *use) bool { return liesIn(u.at, at) })
			}})
		}
		before, behind := l.wordsAt(i-1), l.wordsAt(i+1)
		words := strings.TrimSpace(before + " " + at.Text() + " " + behind)
		if only(strings.Fields(strings.ToLower(before+" "+behind)), besideColour, connective) && !notYet[strings.ToLower(lastWord(before))] {
			continue
		}
		ways = append(ways, another{"whether the filter was on: " + quote(words), func(without *sheet) {
			without.filters = slices.DeleteFunc(slices.Clone(without.filters), func(u *use) bool { return liesIn(u.at, at) })
		}})
	}
	if len(stacks) > 1 {
		said := source.Span{File: sh.at.File, Start: stacks[0].Span.Start, End: stacks[len(stacks)-1].Span.End}.Text()
		ways = append(ways, another{"whether all of " + quote(said) + " were on", func(all *sheet) {
			l.putOn(all, stacks...)
		}})
	}
	return ways
}

// wordsApart reports whether a line of several filters has words beside one of them that tell more of it than that it was on,
// and do not say for sure that it was not: red, better than yellow; yellow, red I mean.
func (l *otherLine) wordsApart() bool {
	all := make([]*lang.Term, len(l.terms))
	for i := range l.terms {
		all[i] = &l.terms[i]
	}
	stacks, told := 0, false
	for i, term := range all {
		if _, stack := term.Kind.(*lang.Stack); !stack {
			continue
		}
		if _, sure := supplanted(all, i); sure {
			return false
		}
		stacks++
		told = told || !only(strings.Fields(strings.ToLower(l.wordsAt(i-1)+" "+l.wordsAt(i+1))), besideColour, connective)
	}
	return told && stacks > 1
}

// maySubject reports whether the ith term is a colour that may be the subject's: before a light value or right
// behind one, behind "on" alone, at the head of a line before words, or behind those of its subject where none
// of the notebook's lines has a filter there: red EV 9, on yellow, orange, sliced, tulips, red.
func (l *otherLine) maySubject(i int) bool {
	if owns(l.terms, i) && !l.inFiltersPlace(i) {
		return true
	}
	if plainColour(&l.terms[i]) == "" {
		return false
	}
	comma := func(n int) bool { return n >= 0 && n < len(l.terms) && isComma(&l.terms[n]) }
	end := l.terms[i].Span.End
	text := l.terms[i].Span.File.Text
	return l.beforeValue(i) || strings.EqualFold(l.wordsAt(i-1), "on") && (i == 1 || comma(i-2)) ||
		i == 0 && comma(1) && l.wordsAt(2) != "" ||
		comma(i-1) && l.wordsAt(i-2) != "" && end < len(text) && text[end] == '.'
}

// mayOwn reports whether a filter is a colour on a sheet's line that its subject may own.
func (sh *sheet) mayOwn(u *use) bool {
	l := &otherLine{sh: sh, terms: sh.lines[0].Terms()}
	i := slices.IndexFunc(l.terms, func(t lang.Term) bool { return t.Span == u.at })
	return i >= 0 && l.maySubject(i)
}

// owns reports whether what stands before the ith term, words and a comma or a light value, may own it as its
// colours: tulips, red; boats, red and yellow; EV 9 red.
func owns(terms []lang.Term, i int) bool {
	if len(plainColours(&terms[i])) == 0 {
		return false
	}
	switch {
	case i > 1 && isComma(&terms[i-1]):
		_, words := terms[i-2].Kind.(*lang.Loose)
		return words
	case i > 0 && terms[i].Span.Start == terms[i-1].Span.End+1:
		k, value := terms[i-1].Kind.(*lang.Exposure)
		return value && k.EV != nil
	}
	return false
}

// inFiltersPlace reports whether colours call filters where the ith term stands: the kit has the only one by that name, or another
// line of the notebook has a filter in that place that no subject owns, or another colour of the same subject.
func (l *otherLine) inFiltersPlace(i int) bool {
	colours := plainColours(&l.terms[i])
	if _, named := find(kitOf(l.sh).filters, colours[0]); named && len(colours) == 1 {
		return true
	}
	for _, st := range l.sh.outing.book.Statements {
		if st.Word != lang.Sheet || st == l.sh.lines[0] {
			continue
		}
		for n := 1; n < len(st.Terms()); n++ {
			other := plainColours(&st.Terms()[n])
			switch st.Terms()[n].Kind.(type) {
			case *lang.Stack, *lang.Drop:
			default:
				continue
			}
			if isComma(&st.Terms()[n-1]) != isComma(&l.terms[i-1]) {
				continue
			}
			if len(other) == 0 || owns(st.Terms(), n) && !slices.Equal(other, colours) && n > 1 && strings.EqualFold(strings.Join(wordsOf(st.Terms()[n-2].Kind), " "), l.wordsAt(i-2)) {
				return true
			}
		}
	}
	return false
}

// beforeValue reports whether the ith term is a colour a blank before a light value.
func (l *otherLine) beforeValue(i int) bool {
	if i+1 >= len(l.terms) || plainColour(&l.terms[i]) == "" {
		return false
	}
	k, reading := l.terms[i+1].Kind.(*lang.Exposure)
	return reading && k.EV != nil && l.terms[i+1].Span.Start == l.terms[i].Span.End+1
}

// on reports whether all filters of a stack are on already, by whatever name.
func (l *otherLine) on(stack *lang.Stack) bool {
	k := kitOf(l.sh)
	return !slices.ContainsFunc(stack.Filters, func(said lang.Filter) bool {
		f, _, _ := k.filter(said.Name)
		return !slices.ContainsFunc(l.sh.filters, func(u *use) bool {
			other, _, _ := k.filter(u.name)
			return f != nil && f == other || strings.EqualFold(said.Name, u.name)
		})
	})
}

// ofGraduated is a graduated filter that cost its stops: it lay over what was metered.
func ofGraduated(name string, stops float64) another {
	return another{"whether " + name + " was allowed for: " + graduated + ", and it got " + exposure.InStops(stops) + " more", func(at *sheet) { at.extra -= stops }}
}

// nearly is a word of the line that begins as a filter's name does, or the other way round,
// didymium for didy; or one that a phone may have put in its place, organ for orange.
func (l *otherLine) nearly(name string) string {
	const least = 3 // letters
	low := strings.ToLower(name)
	if l.named(name) {
		return ""
	}
	for _, word := range l.words {
		if word != low && min(len(word), len(low)) >= least && (strings.HasPrefix(word, low) || strings.HasPrefix(low, word) || lang.Mistaken(word, low)) {
			return word
		}
	}
	return ""
}

// mistaken is a word of the line that may stand in the place of a filter's colour.
func (l *otherLine) mistaken(f *filter) string {
	if l.named(f.name) {
		return ""
	}
	for _, word := range l.words {
		if word != f.colour && lang.Mistaken(word, f.colour) {
			return word
		}
	}
	return ""
}

// named reports whether a filter is on by this very name.
func (l *otherLine) named(name string) bool {
	return slices.ContainsFunc(l.sh.filters, func(u *use) bool { return strings.EqualFold(u.name, name) })
}

// withOn puts filters on a sheet, beside those that are.
func withOn(more ...*use) func(*sheet) {
	return func(at *sheet) { at.filters = slices.Concat(at.filters, more) }
}

// initial is a word of the line that is a filter's first letter with one for filter: GF, and not of.
func (l *otherLine) initial(name string) string {
	if short := strings.ToLower(name)[:1] + "f"; short != "of" && short != "if" && slices.Contains(l.words, short) {
		return short
	}
	return ""
}

// putOn puts the filters of some terms on a sheet, and no others.
func (l *otherLine) putOn(at *sheet, stacks ...*lang.Term) {
	at.filters = nil
	for _, t := range stacks {
		for _, f := range t.Kind.(*lang.Stack).Filters {
			at.filters = append(at.filters, &use{name: f.Name, amounts: f.Amounts, at: t.Span})
		}
	}
}

// noneSaid are the short ways to say that there was no filter, o.F., w/o, no y., and noneMarked is
// a dash where it would stand.
var (
	noneSaid   = pattern.Lazily(`(?i)(?:^|[ ,;])(?:o\. ?F\b|w/o\b|no [a-z]\.)`)
	noneMarked = pattern.Lazily(`^\s*(?:do\.?,? +)?[–—-] *,? *[fF/0-9]`)
)

// oneSaid is an amount of one in words: red one stop.
var oneSaid = pattern.Lazily(`(?i)\b(?:one|a) stop\b`)

// The words are those of notes read for this (common practice, no source).
var (
	notYet        = lang.SetOf("before for until till than like sans minus") // right before a filter
	offLens       = lang.SetOf("gone away off bare naked clear nothing without none out removed more plain nowt nought owt zilch ohne kein sans ab weg")
	throughFilter = lang.SetOf("through front already included behind")
	ofMetering    = lang.SetOf("read reading metered meter measured spot ev filter red orange yellow green blue pol polariser polarizer")
	besideBefore  = lang.SetOf("longer slower less more faster shorter down up")
	insteadOf     = lang.SetOf("instead over not rather for swapped changed place exchanged or oder ou")
)

// otherThingOff reports whether all that is said to be off, out or gone is some other thing by its name, and no filter: the
// sun still out, an owl came out.
func (l *otherLine) otherThingOff() bool {
	for i := range l.terms {
		for _, clause := range strings.FieldsFunc(strings.ToLower(saidIn(l.terms[i].Kind)), func(c rune) bool { return strings.ContainsRune(",.;", c) }) {
			if !says(wordsIn(clause), offLens) {
				continue
			}
			m := thingWentOff().FindStringSubmatch(strings.TrimSpace(clause))
			if m == nil || mayMeanFilter[m[1]] || lang.IsColour(m[1]) || says(wordsIn(clause), ofFilters) || kitOf(l.sh).filterIn([]string{m[1]}, false) != "" {
				return false
			}
		}
	}
	return true
}

// The words are those of notes read for this (common practice, no source).
var (
	thingWentOff  = pattern.Lazily(`^(?:(?:and|but|the|a|an|my|our|one|two|some|an old|a big) )*(\pL+) (?:(?:is|was|are|were|had|has|still|now|just|then|already|all|suddenly|came|comes|coming|went|goes|flew|ran|walked|drove|sailed|moved|swam) ?)+ (?:out|off|away|gone)\b[^0-9]*$`)
	mayMeanFilter = lang.SetOf("it that this these those which they both one all everything nothing none still now was is had then just glass gelatine gel screen pol polariser polarizer grad graduated nd kept left put took taken stayed yet filter filters")
)
