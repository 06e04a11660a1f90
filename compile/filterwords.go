package compile

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// What loose words say of filters: that one is off, that one is on which nobody knows,
// or no more than that there is one. Where they leave open what was on the lens a sheet
// is not blamed.

// ofFilters takes words that stand loose, or before a setting, as far as they speak of
// filters. It reports whether that was all they say.
func (t *reader) ofFilters(words []string, term *lang.Term, all []*lang.Term, i int) bool {
	low := make([]string, len(words))
	for n, word := range words {
		low[n] = plain(word)
	}
	if ofNoLens(low) {
		return false
	}
	_, loose := term.Kind.(*lang.Loose)
	on, named := before(all, i).(*lang.Stack)
	_, next := after(all, i).(*lang.Stack)
	next = next && loose
	spoken := says(low, theFilter)
	off := takenOff(low) && (named || next || spoken)
	sh := t.sheet
	switch {
	case off && named && notDoneBefore(all, i-1):
		sh.vague, sh.strange = source.Span{File: term.Span.File, Start: all[i-2].Span.Start, End: term.Span.End}.Text(), true
		sh.maybeOn = sh.vague // forgot to take the yellow off
		if next && sh.unclear == "" {
			sh.unclear = "which filters were on: " + quote(sh.vague) // and put the orange on
		}
		return false
	case off && named && next && offBefore(low):
		t.takeOff(on) // the red came off and the orange went on
		return true
	case off && (says(low, notDone) || offAThing(low, spoken, named) || next && thingBehind(all, i+1)):
		sh.vague = term.Span.Text()
		return false
	case off && named && (low[0] == "off" || !next && !spoken):
		t.takeOff(on)
		return true
	case off && next:
		t.dropNext = true
		return true
	case off:
		t.drop(sh, "filter")
		return true
	case spoken && (says(low, putOn) && len(sh.filters) == 0 || says(low, notPutOn) && len(sh.filters) > 0):
		sh.vague = term.Span.Text() // which, or whether it was on after all
		return false
	}
	if len(low) == 1 && t.tradeNumber(low[0]) {
		sh.vague, sh.strange = words[0], true
		at := strings.Index(term.Span.Text(), words[0])
		t.report("not-declared", term.Span.Sub(max(0, at), max(0, at)+len(words[0])), quote(words[0])+" is not declared as a filter", t.real()...).
			note("declare it: filter " + words[0] + ": … stops; where it is written filter " + words[0] + ", it is the filter for certain")
		return false
	}
	if all := t.book.kit.inOtherWords(strings.Join(low, " ")); len(all) == 1 && len(sh.filters) == 0 {
		t.filterTerm(sh, &lang.Term{Kind: &lang.Stack{Filters: []lang.Filter{{Name: all[0].name}}}, Span: term.Span})
		return true
	}
	if said := strings.Join(words, " "); sh.vague == "" && !t.metering && !t.filteredHere() && t.numberOfFilter(said) {
		sh.vague = said // No. 25
		return false
	}
	if short := shortForFilter(words); short != "" && sh.vague == "" && !t.filteredHere() && !t.isOn(short) {
		sh.vague, sh.strange = short, sureOfFilter().MatchString(short) || spoken && only(low, theFilter, dimming, beforeFilter) // grey filter
		return false
	}
	name, certain := unknownFilter(low)
	switch {
	case name == "":
	case certain && (likeMakersNumber(name) || likeTradeNumber(name)):
		sh.filters = append(sh.filters[:len(sh.filters):len(sh.filters)], &use{name: original(words, low, name), at: term.Span})
		return loose
	default:
		sh.vague, sh.strange = strings.Join(words, " "), certain
	}
	return false
}

// onlyFilter reports whether a remark is a filter's name or colour and nothing else.
func onlyFilter(text string, names *lang.Lexicon) bool {
	const name = 2 // words at most
	n := 0
	for range strings.FieldsSeq(text) {
		if n++; n > name {
			return false // as most remarks
		}
	}
	if n == 0 {
		return false
	}
	if colourElsewhere(strings.Fields(strings.ToLower(text))) != "" {
		return true
	}
	terms := lang.Within(text, names)
	if len(terms) != 1 {
		return false
	}
	_, filter := terms[0].Kind.(*lang.Stack)
	return filter
}

// notDoneBefore reports whether the words before a filter say that what is said of it was not done.
func notDoneBefore(all []*lang.Term, i int) bool {
	loose, ok := before(all, i).(*lang.Loose)
	return ok && says(lowered(loose.Words), notDone)
}

// inProse takes a filter among words which say that it was thought of or left at home: the
// sheet is not checked.
func (t *reader) inProse(k *lang.Stack, term *lang.Term, all []*lang.Term, i int) bool {
	if t.metering || len(k.Filters) != 1 || len(k.Filters[0].Amounts) > 0 {
		return false
	}
	words := slices.Concat(wordsOf(before(all, i)), wordsOf(after(all, i)))
	for n := range words {
		words[n] = plain(words[n])
	}
	if !says(words, notOnLens) && !(says(words, denied) && slices.Contains(words, "on")) {
		return false
	}
	t.sheet.vague, t.sheet.strange = strings.TrimSpace(term.Span.Text()+" "+strings.Join(words, " ")), true
	t.sheet.maybeOn = t.sheet.vague
	t.sheet.remarks = append(t.sheet.remarks, term.Span.Text())
	return true
}

// supplanted reports whether words beside the ith term, a filter, say that another of the line is on in
// its place: Y8 instead of R25, Y8 since R25 was too much; and whether it is sure: of Y8 since R25 is better either may be.
func supplanted(all []*lang.Term, i int) (out, sure bool) {
	if !slices.ContainsFunc(all, func(term *lang.Term) bool { _, filter := term.Kind.(*lang.Stack); return filter && term != all[i] }) {
		return false, false
	}
	said := func(words []string) string { return " " + strings.Join(lowered(words), " ") + " " }
	ahead, behind := said(wordsOf(before(all, i))), said(wordsOf(after(all, i)))
	text := " " + strings.ToLower(all[i].Span.Text()) // the R25
	ahead = strings.TrimRight(ahead, " ") + text
	sure = inPlaceOf().MatchString(ahead) || reasoned().MatchString(ahead) && whyNot().MatchString(behind)
	return sure || because().MatchString(ahead), sure
}

// ofPlace reports whether the ith term, a filter that neither the kit nor the trade knows, is the number of a place
// that stands right before it: post O7, bay B1.
func (t *reader) ofPlace(k *lang.Stack, all []*lang.Term, i int) bool {
	if k.Add || len(k.Filters) != 1 || len(k.Filters[0].Amounts) > 0 || !haveNumbers[plain(lastWord(looseText(before(all, i))))] {
		return false
	}
	_, _, known := t.book.kit.filter(k.Filters[0].Name)
	return !known
}

// haveNumbers are places that have numbers (common practice, no source).
var haveNumbers = lang.SetOf("post bay pier gate bridge stall house shed row plot platform track window pillar door room hall block lock berth quay section tower column arch milestone pole mast pylon buoy jetty " +
	"groyne grave tomb stop exit entrance unit hut hangar dock wharf shaft pit stack silo tank kiln barn panel marker point site station field lot stand stairs floor staircase " +
	"pfosten tor halle gleis haus zimmer raum block turm schacht feld punkt poteau porte quai salle tour puits point")

// The words are those of notes read for this (common practice, no source).
var (
	inPlaceOf = pattern.Lazily(` (?:instead of|rather than|in place of|in lieu of|replaces|replacing|for want of|and not|statt|anstatt|anstelle|anstelle von|an stelle|an stelle von|à la place de|au lieu de) (?:the |my |a |an |des |der |du )?\S+$`)
	leftOff   = pattern.Lazily(`^(?:off|missing|lost|dropped|fehlt|perdu)[.!]?$`) // right behind it
	because   = pattern.Lazily(` (?:since|because) (?:the |my |a )?\S+$`)
	reasoned  = pattern.Lazily(` (?:where|since|as|because|for) (?:the |my |a )?\S+$`)
	whyNot    = pattern.Lazily(`^ (?:had been|(?:is|was|were|got|has been) (?:too|lost|missing|gone|broken|cracked|dirty|scratched|left|at home|in the|not|forgotten|much)|isn't|wasn't|would (?:be|have been) too)\b`)
)

// colouredThing puts words together that stand side by side and have the colour of a thing among
// them, Second Yellow House: one piece of a remark, or one name of what was metered. It is how
// many terms they are, 0 for none. Whether the colour was a filter after all is left open: the
// sheet is held to what it asks for without it, and not blamed.
func (t *reader) colouredThing(terms []lang.Term) (whole *lang.Term, took int) {
	n := 0
	if t.metering || !t.book.kit.leadsThing(terms) {
		return nil, 0
	}
	var words, thing []string
	merged := terms[0]
	for n = range terms {
		term := &terms[n]
		if colour := t.book.kit.colourOf(terms[n:]); colour != "" {
			thing = append([]string{colour}, wordsOf(terms[n+1].Kind)...)
			words = append(words, term.Span.Text())
		} else if k, named := term.Kind.(*lang.Exposure); named && len(k.Name) > 0 && !term.Struck { // red brick 1/60 f8
			whole := *k
			whole.Name = append(words, k.Name...)
			words, merged.Kind, merged.Doubtful, merged.Second = whole.Name, &whole, term.Doubtful, term.Second+term.Span.Start-merged.Span.Start
		} else if !ofWords(term) {
			break
		} else if k, loose := term.Kind.(*lang.Loose); loose {
			words = append(words, k.Words...)
		} else {
			words = append(words, term.Span.Text())
		}
		merged.Span, took = merged.Span.Cover(term.Span), n+1
		if _, named := merged.Kind.(*lang.Exposure); named {
			break
		}
	}
	low := make([]string, len(words))
	for n, word := range words {
		low[n] = plain(word)
	}
	if says(low, theFilter) || takenOff(low) || says(low, notOnLens) {
		return nil, 0
	}
	if _, named := merged.Kind.(*lang.Exposure); !named {
		merged.Kind = &lang.Loose{Words: words}
	}
	if t.things == nil {
		t.things = map[*lang.Term]string{}
	}
	t.things[&merged] = strings.Join(thing, " ")
	return &merged, took
}

// ofWords reports whether a term is words, or a word that counts sheets.
func ofWords(term *lang.Term) bool {
	switch term.Kind.(type) {
	case *lang.Loose, *lang.Nth:
		return !term.Struck && !term.Unread && !term.Doubtful && !term.Aside && !term.Sic
	}
	return false
}

// leadsThing reports whether terms begin with words before the colour of a thing, or with that.
func (k *kit) leadsThing(terms []lang.Term) bool {
	n := 0
	for n < len(terms) && ofWords(&terms[n]) {
		n++
	}
	return k.colourOf(terms[n:]) != ""
}

// colourOf is the colour with which terms begin where it is that of a thing behind it, and no
// filter by that name is declared; else "".
func (k *kit) colourOf(terms []lang.Term) string {
	if len(terms) < 2 || terms[0].Struck || terms[0].Doubtful {
		return ""
	}
	name := beforeThing(terms[0].Kind, terms[1].Kind)
	if _, declared := find(k.filters, name); declared {
		return ""
	}
	return name
}

// beforeThing is the colour that a term is before the words for a thing, "" where it is none.
func beforeThing(colour, thing any) string {
	k, ok := colour.(*lang.Stack)
	behind := wordsOf(thing)
	if !ok || k.Add || len(k.Filters) != 1 || len(k.Filters[0].Amounts) > 0 || len(behind) == 0 || besideColour[plain(behind[0])] {
		return ""
	}
	if name := k.Filters[0].Name; !strings.ContainsAny(name, "0123456789") && handbook.NumberOf(name) != "pol" {
		return name
	}
	return ""
}

// namesMetered reports whether a colour is the name of what was metered, and no filter: right before a
// light value on a zone, or beside another that has its name too: yellow EV 11 on VII, petals EV 11,
// blue EV 7. A column of filters is a cell of its own.
func namesMetered(all []*lang.Term, i int) bool {
	ev := func(n int) *lang.Exposure {
		if n < len(all) {
			if k, ok := all[n].Kind.(*lang.Exposure); ok && k.EV != nil {
				return k
			}
		}
		return nil
	}
	k := ev(i + 1)
	if k == nil || len(k.Name) > 0 || plainColour(all[i]) == "" || all[i+1].Span.Start-all[i].Span.End != 1 {
		return false
	}
	if k.Zone != nil {
		return true
	}
	if _, placed := after(all, i+1).(*lang.Placed); placed {
		return true
	}
	for n := range all {
		if other := ev(n); other != nil && n != i+1 && (len(other.Name) > 0 || n > 0 && (plainColour(all[n-1]) != "" || len(wordsOf(all[n-1].Kind)) > 0)) {
			return true
		}
	}
	return false
}

// plainColour is the colour that a term is and nothing else, "" for none.
func plainColour(term *lang.Term) string {
	if all := plainColours(term); len(all) == 1 && strings.EqualFold(strings.TrimSpace(term.Span.Text()), all[0]) {
		return all[0]
	}
	return ""
}

// plainColours are the colours that a term is and nothing else, one or several with words between: red, red and yellow.
func plainColours(term *lang.Term) (all []string) {
	k, ok := term.Kind.(*lang.Stack)
	if !ok || k.Add || term.Struck || strings.Contains(term.Span.Text(), "+") {
		return nil
	}
	left := strings.ToLower(term.Span.Text())
	for _, f := range k.Filters {
		name := strings.ToLower(f.Name)
		if !lang.IsColour(name) || len(f.Amounts) > 0 {
			return nil
		}
		left = strings.Replace(left, name, "", 1)
		all = append(all, name)
	}
	if !only(wordsIn(left), connective) {
		return nil
	}
	return all
}

// The words are those of notes read for this (common practice, no source).
var (
	besideColour = lang.SetOf("mit dem der den einem avec le un au du et und on off and with over plus for in at to from filter filters screwed added held under behind before the this then again as is was stays stayed used through by of or but so same glass gel gels gelatine gelatin one too only left taken removed came comes went goes gone")
	denied       = lang.SetOf("not never wasn't wasn’t wasnt weren't")
	notOnLens    = lang.SetOf("home bag car pocket tried thought think considered consider maybe perhaps might could would should wish want wanted missing unused lent other next later nicht pas")
)

// ofNoLens reports whether all filters of words in lower case are of no lens, or only what
// belongs to one is spoken of: filter coffee at the car, the oil filter, the filter case.
func ofNoLens(low []string) bool {
	spoken := false
	for i, word := range low {
		if !theFilter[word] {
			continue
		}
		spoken = true
		behind := i+1 < len(low) && besideFilter[low[i+1]]
		before := i+1 < len(low) && madeWithFilter[low[i+1]] || i > 0 && (otherFilters[low[i-1]] || i > 1 && otherFilters[low[i-2]] && low[i-1] == "machine")
		if !behind && !before {
			return false
		}
		if i > 0 && !before && !beforeFilter[low[i-1]] && !plainWords[low[i-1]] {
			return false // with the mauve filter case on
		}
	}
	return spoken
}

// offBefore reports whether words between two filters say of the first that it is off, and lead on to the
// other: came off and the.
func offBefore(low []string) bool {
	for i, word := range low {
		switch {
		case joins[word]:
			return takenOff(low[:i]) && !says(low[:i], notDone)
		case !besideOff[word] && !takenOff(low[:i+1]):
			return false
		}
	}
	return false
}

// joins are words that lead on to another filter.
var joins = lang.SetOf("and then but so")

// offAThing reports whether what is off, or what something is off, is no filter: the
// filter cap, yellow off the white wall.
func offAThing(low []string, spoken, named bool) bool {
	if at := slices.IndexFunc(low, func(w string) bool { return theFilter[w] }); spoken && at+1 < len(low) && !besideOff[low[at+1]] {
		return true
	}
	return named && low[0] == "off" && len(low) > 1 && !besideOff[low[1]]
}

// thingBehind reports whether words follow a term: the red off the wall.
func thingBehind(all []*lang.Term, i int) bool {
	if i+1 >= len(all) {
		return false
	}
	loose, ok := all[i+1].Kind.(*lang.Loose)
	return ok && !besideOff[strings.ToLower(loose.Words[0])]
}

// besideOff are the words beside "off" that name no thing.
var besideOff = lang.SetOf("off out away again now then and but so for this here stayed stays kept goes went being left filter filters one took taken removed came is was of at lens")

// original is a word as it was typed.
func original(words, low []string, word string) string {
	return strings.Trim(words[slices.Index(low, word)], ".,;:!")
}

// takenOff reports words for taking something off, in lower case.
func takenOff(words []string) bool {
	took, away := false, false
	for _, word := range words {
		switch word {
		case "off", "removed", "remove", "removing", "unscrewed":
			return true
		case "took", "taken", "take", "taking":
			took = true
		case "out", "away":
			away = true
		}
	}
	return took && away
}

// takeOff is "pol off": the filters named come off those that the sheet copied
// or the scene has on.
func (t *reader) takeOff(stack *lang.Stack) {
	t.sheet.filters = t.hadOn
	for _, f := range stack.Filters {
		t.drop(t.sheet, f.Name)
	}
}

// unknownFilter finds a filter that nothing knows in words in lower case. It is certain
// where they say no more than that there is one: "filter z99", "with the mauve filter".
// Any other word beside the word filter may name one, and so may what looks like a
// maker's number alone.
func unknownFilter(words []string) (name string, certain bool) {
	n := len(words)
	named := func(word string) bool {
		return word != "" && !notFilter[word] && !beforeFilter[word] && !theFilter[word] && (word[0] < '0' || word[0] > '9' || likeTradeNumber(word))
	}
	at := slices.IndexFunc(words, func(word string) bool { return theFilter[word] })
	switch {
	case n == 2 && (words[0] == "+" || at == 0) && named(words[1]):
		return words[1], true
	case n == 1 && likeMakersNumber(words[0]):
		return words[0], false
	case at < 0:
		return "", false
	case at == n-1 && n >= 2 && n <= 6 && named(words[n-2]):
		return words[n-2], true
	}
	if first := slices.IndexFunc(words, named); first >= 0 {
		return words[first], false
	}
	return "", false
}

// shortForFilter is a word that may be short for a filter, or be one's name in another
// language: a capital that stands for a colour and stands alone, yel., Gelbfilter, filtre jaune.
func shortForFilter(words []string) string {
	for _, word := range words {
		bare := strings.Trim(word, ".,;:()")
		low := strings.ToLower(bare)
		switch {
		case len(words) == 1 && (len(bare) == 1 && strings.Contains("YORGK", bare) || cutToLetter().MatchString(word) || cutColour().MatchString(word) || sureOfFilter().MatchString(bare)), colourWords[lang.Shadeless(low)] != "" && colourWords[low] != low, dimming[low],
			strings.HasSuffix(low, "filter") && low != "filter", lang.CalledElsewhere([]string{low}), strings.HasPrefix(low, "filtre"):
			return strings.Join(words, " ")
		}
	}
	return ""
}

// colourElsewhere is the colour of the filter that words in lower case are in another language, and that alone:
// Gelbfilter, mit dem Gelb-Filter, filtre jaune; else "".
func colourElsewhere(low []string) string {
	for len(low) > 0 && leadsElsewhere[low[0]] {
		low = low[1:]
	}
	switch {
	case len(low) == 1:
		if word, filter := lang.CutFilter(low[0]); filter {
			return colourWords[word]
		}
	case len(low) == 2 && low[0] == "filtre":
		return colourWords[plain(low[1])]
	}
	return ""
}

// filtersElsewhere is a text in lower case with the filters in it that are called otherwise called as here: mit dem
// red filter, of mit dem Rotfilter; the red filter, of the red glass.
func filtersElsewhere(low string) string {
	if !mayBeFilter.In(low) {
		return low // as most
	}
	words := strings.Fields(low)
	for i, word := range words {
		if colour := colourElsewhere(words[i : i+1]); colour != "" {
			words[i] = colour + " filter"
		} else if colour := colourElsewhere(words[i:min(len(words), i+2)]); colour != "" && word == "filtre" {
			words[i], words[i+1] = colour, "filter"
		} else if (word == "glass" || word == "gel") && i > 0 && lang.IsColour(words[i-1]) {
			words[i] = "filter"
		}
	}
	return strings.Join(words, " ")
}

// mayBeFilter is words of which one is in every name of a filter that is none of the kit.
var mayBeFilter = pattern.AnyOf(filterNouns)

const filterNouns = "filter filtre fltr filt. scheibe glas gel"

var leadsElsewhere = lang.SetOf("mit durch dem der die das den einem einer avec le un au du with the")

// filteredHere reports whether a filter that is on stands on the sheet's own line.
func (t *reader) filteredHere() bool {
	return slices.ContainsFunc(t.sheet.filters, func(u *use) bool { return liesIn(u.at, t.st.Span) })
}

// isOn reports whether a colour in another language, Gelbfilter, is that of the one filter that stayed on.
func (t *reader) isOn(short string) bool {
	if len(t.sheet.filters) != 1 {
		return false
	}
	f, _, _ := t.book.kit.filter(t.sheet.filters[0].name)
	low := strings.ToLower(short)
	for word, colour := range colourWords {
		if f != nil && f.colour == colour && strings.Contains(low, word) {
			return true
		}
	}
	return false
}

// colourWords are colours as they are cut short in columns, or called in other languages, by what they
// are called here; dimming are words for what dims all colours (common practice, no source).
var (
	colourWords = func() map[string]string {
		all := map[string]string{"yel": "yellow", "yell": "yellow", "yello": "yellow", "yllw": "yellow", "orng": "orange"}
		maps.Copy(all, lang.ColoursElsewhere)
		return all
	}()
	dimming = lang.SetOf("nd grey gray gelatin gelatine")
)

// sureOfFilter is such a word that can be nothing but a filter, of which it is not known what it costs:
// GF is short for Gelbfilter, and RF, OF, GrF and BF for the others (common practice, no source).
var sureOfFilter = pattern.Lazily(`^(?:(?i:\pL+filter|filtre \pL+)|GF|RF|OF|GrF|BF|[YORG][0-9]x)\.?$`)

// cutColour is a colour cut to two letters or three, Or, Org., Rt, with a capital or a full stop: or is a word.
var cutColour = pattern.Lazily(`^(?:Or|Org|Orng|Gr|Grn|Gn|Ge|Gb|Ye|Yl|Rt|Rd|Bl)\.?$|^(?:or|org|gr|grn|ge|ye|rt|rd|bl)\.$`)

// numberOfFilter reports whether words are the number of a filter of the kit and say that it is a number:
// No. 25. Plates and houses have numbers too.
func (t *reader) numberOfFilter(said string) bool {
	m := numberSaid().FindStringSubmatch(strings.ToLower(said))
	return m != nil && slices.ContainsFunc(t.book.kit.filters, func(f *filter) bool {
		return strings.EqualFold(f.number, m[1]) || f.name != "" && strings.EqualFold(f.name[1:], m[1])
	})
}

var numberSaid = pattern.Lazily(`^(?:no|nr|nos|n°|#)\.? ?([0-9]{1,2}[abc]?)$`)

// cutToLetter is a colour cut to its letter, with a full stop: j. for jaune.
var cutToLetter = pattern.Lazily(`^[yorgj]\.$`)

// likeMakersNumber is a letter or three, then a figure or two: Z99, ND2x.
func likeMakersNumber(word string) bool {
	letters := strings.TrimRight(word, "0123456789")
	return len(letters) >= 1 && len(letters) <= 3 && len(word) > len(letters) && len(word) <= len(letters)+2 &&
		strings.IndexFunc(letters, func(c rune) bool { return !unicode.IsLetter(c) }) < 0
}

// tradeNumber reports whether a word that stands alone has a filter's number and is the label
// of no sheet or side.
func (t *reader) tradeNumber(word string) bool {
	if !likeTradeNumber(word) {
		return false
	}
	if t.logged == nil {
		t.logged = t.sheetLabels()
	}
	return !t.logged[word] && t.byLabel[word] == nil && t.holders[word] == nil
}

// likeTradeNumber reports whether a word is a filter's number with the letter that belongs to
// it, as the trade numbers them: one of the handbook's, 25A, 47B, or of the series that fit
// film to light (80A to 86C; common practice, no source).
func likeTradeNumber(word string) bool {
	number := strings.TrimRight(word, "abcdefABCDEF")
	if n := len(word) - len(number); n == 0 || n > 2 || strings.Trim(number, "0123456789") != "" {
		return false
	}
	switch number {
	case "80", "81", "82", "85", "86":
		return true
	}
	_, known := handbook.Filter(word)
	return known && len(number) >= 2 && len(word) == len(number)+1
}

// theFilter is the word for a filter; beforeFilter may stand before a filter's name;
// notFilter beside the word filter name none; notPutOn say that it was not on the lens,
// notDone that it was not taken off, or when; madeWithFilter stand behind the word and besideFilter too, but those name
// what belongs to a lens's; otherFilters stand before it (common practice, no source).
var (
	theFilter    = lang.SetOf("filter filters")
	beforeFilter = lang.SetOf("with w/ through using used plus and + on in a an the my our old new same but so then for")
	notFilter    = lang.SetOf("a an the my no not any without w/o same other this that which what some each every one another only " +
		"forgot forgotten missed left lost dropped removed missing absent dirty dusty clean on off in out gone back again away first later before after " +
		"holder ring case thread bag box factor needed want wants need next change changed wrong right was is fell slipped still both it to of i wiped cleaned")
	madeWithFilter = lang.SetOf("coffee coffees tea paper papers tip tips lane bed beds")
	besideFilter   = lang.SetOf("holder ring rings case cases thread threads bag bags box boxes pouch wallet tin kit slot slots drawer " +
		"adapter adapters wrench spanner cloth")
	otherFilters = lang.SetOf("coffee tea water oil air fuel petrol diesel pump pond cigarette dust paper traffic spam noise")
	plainWords   = lang.SetOf("more another good bad cold hot dropped lost found left forgot bought had drank wiped cleaned opened closed empty spare whole and or")
	putOn        = lang.SetOf("on back")
	notPutOn     = lang.SetOf("forgot forgotten left lost missing missed absent without dropped gone")
	notDone      = lang.SetOf("forgot forgotten forget not never didn't didnt didn’t don't wasn't wasn’t should before after until when later afterwards afterward next then")
)
