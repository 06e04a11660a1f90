package compile

import (
	"slices"
	"strings"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// Values that were written and cannot be read: f[illegible], 1/?, f__. Nothing is put in
// their place, and nothing carried there from the sheet before.

var (
	// The marks are those of transcribers (common practice, no source): square brackets,
	// a question mark or strokes where a figure belongs.
	illegibleValue = pattern.Lazily(`(?i)(?:\bf/?|\b1/)\s?(?:\[[^\]]*\]|\?+|_+(?:[\s,]|$)|…|\.{2,})|(?:\bf/?|\b1/)?[0-9]+\[(?:\?+|…|\.{2,})\]` +
		`|\[[^\]]*(?:\bf/?[0-9]|\b1/[0-9])[^\]]*\]`) // [in another hand: 1/25]
	markedValue    = pattern.Lazily(`(?i)\bf/?\s?[0-9][0-9.]*|\b1/[0-9]+`)
	illegibleAlone = pattern.Lazily(`(?i)(?:^\s*|[,;:]\s*)(?:\[\W*\]|\?+|_{2,}|…|\.{3})(?:\s*(?:,|$))|\((?:illegible|unreadable)\)|\[(?:` + notLegible + `)[^\]]*\]|\s(?:_{2,}|…|\.{3}|\[\?+\])\s*$`)
)

// notLegible are the words of a transcriber where nothing can be read.
const notLegible = `illegible|unreadable|torn|faded|smudged|stained|missing`

// illegible is what a line has in the place of a setting that cannot be read, or "". Where
// a setting is missing, so may stand a mark alone.
func illegible(st *lang.Statement, missing bool) string {
	text := withoutRemarks(st)
	if !mayBeMarked(text) {
		return ""
	}
	for _, at := range illegibleValue().FindAllStringIndex(text, -1) {
		if found := text[at[0]:at[1]]; !repeats(found, text[:at[0]]+" "+text[at[1]:]) {
			return found
		}
	}
	if !missing {
		return ""
	}
	return strings.Trim(illegibleAlone().FindString(text), " ,;:")
}

// What an editor supplies stands in square brackets, within a word or by itself.
var (
	inBrackets     = pattern.Lazily(`\[[^\[\]]+\]`)
	amountSupplied = pattern.Lazily(`(?i)^(?:[x×*]|.*\bstops?\b|[+-])`)
	figureSupplied = pattern.Lazily(`^[0-9½¼¾⅓⅔./]+$|^[IVX]+$`)
)

// supplied is what an editor has put on a line that would be a term of it without the brackets,
// or a part of one, and does not stand there already: O[21], N[-1], EI 1[00], ext [200] mm, [O21]; and
// those terms. An amount in the brackets is that of the filter before them.
func supplied(st *lang.Statement, names *lang.Lexicon) (what string, terms []lang.Term) {
	if !strings.Contains(st.Body.Text(), "[") {
		return "", nil
	}
	text := withoutRemarks(st)
	for _, at := range inBrackets().FindAllStringIndex(text, -1) {
		from, to := at[0], at[1]
		for from > 0 && strings.IndexByte(" \t,;[]", text[from-1]) < 0 {
			from--
		}
		for to < len(text) && strings.IndexByte(" \t,;[]", text[to]) < 0 {
			to++
		}
		found, around, inner := text[from:to], text[:from]+" "+text[to:], strings.Trim(text[at[0]+1:at[1]-1], "? .…")
		alone := from == at[0] && to == at[1]
		switch {
		case inner == "", strings.HasPrefix(text[at[1]:], "("), repeats(found, around), alone && amountSupplied().MatchString(inner),
			alone && !figureSupplied().MatchString(inner) && standsIn(around, inner):
			continue
		}
		if alone {
			if said := lang.Within(inner, names); slices.ContainsFunc(said, func(t lang.Term) bool { return isSetting(&t) }) && !inProseOf(said, names) {
				return found, said
			}
			if !figureSupplied().MatchString(inner) {
				continue
			}
		}
		begin, end := at[0], at[0]+len(inner)
		said := lang.Within(text[:begin]+inner+text[at[1]:], names)
		for i := range said {
			_, pair := said[i].Kind.(*lang.Exposure) // the name of what was metered is none of its figures
			if span := said[i].Span; span.Start < end && span.End > begin && (span.Start < begin || span.End > end) && isSetting(&said[i]) && (!pair || strings.ContainsAny(inner, "0123456789/½¼¾⅓⅔") || figureSupplied().MatchString(inner)) {
				return found, said[i : i+1]
			}
		}
	}
	return "", nil
}

// standsIn reports whether words stand in a text by themselves.
func standsIn(text, words string) bool {
	apart := strings.NewReplacer(",", " ", ";", " ")
	_, found := cutWords(strings.ToLower(apart.Replace(text)), strings.ToLower(words))
	return found
}

// isSetting reports whether a term says of a sheet what its exposure depends on.
func isSetting(t *lang.Term) bool {
	switch k := t.Kind.(type) {
	case *lang.Exposure:
		return len(k.Parts) > 0 || k.EV != nil
	case *lang.Stack, *lang.N, *lang.Extension, *lang.Magnification, *lang.Focus, *lang.Bellows, *lang.FilmEI, *lang.MeterEI, *lang.ISO, *lang.OldSpeed, *lang.Placed,
		*lang.Choose, *lang.Amount, *lang.Bracket, *lang.State, *lang.Same:
		return true
	}
	return false
}

// inProseOf reports whether the settings among what an editor says are words of his prose, as a colour
// before its thing, or a word without figures beside other words: red ink, 1971; same hand; N is faint.
func inProseOf(said []lang.Term, names *lang.Lexicon) bool {
	words := func(i int) []string {
		if i < 0 || i >= len(said) {
			return nil
		}
		return wordsOf(said[i].Kind)
	}
	for i := range said {
		t := &said[i]
		switch k := t.Kind.(type) {
		case *lang.Stack:
			if i+1 == len(said) || beforeThing(k, said[i+1].Kind) == "" {
				return false
			}
		case *lang.N, *lang.State, *lang.Same:
			beside := append(slices.Clone(words(i-1)), words(i+1)...)
			if len(beside) == 0 || says(lowered(beside), theFilter) || strings.ContainsAny(t.Span.Text(), "0123456789") {
				return false
			}
		case *lang.Choose:
			_, name, _ := strings.Cut(strings.ToLower(k.Text), " ")
			if _, known := names.Names[name]; known || strings.ContainsAny(name, "0123456789") {
				return false // and not lens unknown
			}
		default:
			if isSetting(t) {
				return false
			}
		}
	}
	return true
}

var (
	lostInBrackets = pattern.Lazily(`(?i)\[[^\]]*\b(?:` + notLegible + `|lost)\b[^\]]*\]|\((?:illegible|unreadable)\)`)
	lostAlone      = pattern.Lazily(`(?:^|[\s,;:])(…|\.{3})(?:[,;]|\s*$|\s.*[0-9])`) // before words alone it is a pause
)

// lostWords is a mark on a line for words that cannot be read any more, "" for none.
func lostWords(st *lang.Statement) string {
	if lost := lostInBrackets().FindString(st.Body.Text()); lost != "" {
		return lost
	}
	if alone := lostAlone().FindStringSubmatch(withoutRemarks(st)); alone != nil {
		return alone[1]
	}
	return ""
}

// mayBeMarked is a quick look for a mark of transcribers, or of editors.
func mayBeMarked(text string) bool {
	return strings.ContainsAny(text, "[?_") || strings.Contains(text, "…") || strings.Contains(text, "..") || strings.Contains(text, "(ill") || strings.Contains(text, "(unr")
}

// repeats reports whether square brackets say no setting but those that stand on the line
// around them: f16 1/30 [f16 as before].
func repeats(found, around string) bool {
	if !strings.HasPrefix(found, "[") {
		return false
	}
	all := markedValue().FindAllString(found, -1)
	stands := markedValue().FindAllString(around, -1)
	for _, value := range all {
		if !slices.ContainsFunc(stands, func(other string) bool { return plainValue(value) == plainValue(other) }) {
			return false
		}
	}
	return len(all) > 0
}

// plainValue is an aperture or a part of a second without what may be left out of it.
func plainValue(value string) string {
	return strings.Replace(strings.ToLower(strings.ReplaceAll(value, " ", "")), "f/", "f", 1)
}

// withoutRemarks is a line's text with blanks for its remarks, but for those in square
// brackets, which are a transcriber's.
func withoutRemarks(st *lang.Statement) string {
	text := []byte(st.Body.Text())
	for i := range st.Terms() {
		t := &st.Terms()[i]
		if _, remark := t.Kind.(*lang.Remark); !remark || strings.HasPrefix(t.Span.Text(), "[") {
			continue
		}
		for at := max(0, t.Span.Start-st.Body.Start); at < min(len(text), t.Span.End-st.Body.Start); at++ {
			text[at] = ' '
		}
	}
	return string(text)
}

// settingLost is the words of a line that say that a setting of it is not known any more.
func settingLost(st *lang.Statement) string {
	all := st.Terms()
	for i := range all {
		said := saidIn(all[i].Kind)
		if said == "" || all[i].Struck {
			continue
		}
		_, remark := all[i].Kind.(*lang.Remark)
		_, loose := all[i].Kind.(*lang.Loose)
		if low := strings.ToLower(said); notKnown().MatchString(low) || notNoted().MatchString(low) || !remark && settingSpoken().MatchString(low) || !loose && onlyValue().MatchString(low) {
			return said
		}
	}
	return ""
}

// inItsPlace is what a line that lacks a setting has in its place and nobody can read, "" for nothing: a cell that is no
// more than a sign, or a word like a value.
func (t *reader) inItsPlace() string {
	row := t.rowOf(t.sheet)
	for i, c := range row.cells {
		if _, last, two := cutLast(c.text); two && isDash(last) && c.gives&(anAperture|aTime) != 0 {
			return last // f16 -
		}
		if !c.isSign() {
			continue
		}
		if over := t.columnOf(row, i); over == nil || over.gives&(anAperture|aTime) != 0 {
			return c.text
		}
	}
	for i := range t.st.Terms() {
		if k, ok := t.st.Terms()[i].Kind.(*lang.Loose); ok && !t.st.Terms()[i].Struck {
			if said := strings.Join(k.Words, " "); likeValue().MatchString(strings.ToLower(said)) {
				return said
			}
		}
	}
	return ""
}

// settingSpoken are words for an aperture or a time that were not read as one: f six team, one over eight,
// one click slower (common practice, no source).
var settingSpoken = pattern.Lazily(`(?:^|\s)f[ /]+[a-z]|^(?:fate|eff)\b|\bone over \w|\b(?:click|notch|stop|speed) (?:slower|faster|longer|shorter|wider|smaller)\b|` +
	`\b(?:twice|half|double) (?:the |that )?time\b|\b(?:eleven|sixteen|twenty[- ]two|thirty[- ]two|forty[- ]five|sixty[- ]four)(?: (?:at|and)\b|$)|^(?:a|an|un|ein|eine) (?:quarter|half|third|quart|viertel|viertelsekunde)$|\b[a-zäöü]*dreissig\b`)

var (
	// notNoted is all that stands where a value was to be written and was not (common practice, no source).
	notNoted = pattern.Lazily(`^(?:n/?k|n\. ?k\.?|unk(?:nown|\.)?|illeg\.?|illegible|unreadable|unleserlich|illisible|not (?:noted|known|recorded|written)(?: down)?|unrecorded|lost|forgot(?:ten)?|vergessen|oublié|missing|fehlt|see (?:back|over|overleaf|reverse|verso)|s\. ?(?:u|o|rücks(?:eite|\.)?)\.?|verso|tbc|tbd)[.!]*$`)

	// likeValue is a word by itself that may be what became of a value in a spreadsheet, or was written for one: a date
	// made of a fraction, Apr-04 of 1/4, an error's sign, a column too narrow, a cross.
	likeValue = pattern.Lazily(`^(?:[0-9][^\s,]*|#[^\s,]*|x|[0-9]{1,2}[-. ]+` + monthSaid + `|` + monthSaid + `[-. ]+[0-9]+)$`)
)

// monthSaid is the name of a month as spreadsheets shorten it.
const monthSaid = `(?:jan|feb|mar|mär|mrz|apr|avr|may|mai|jun|juin|jul|juil|aug|août|sep|sept|oct|okt|nov|dec|dez|déc)[a-zé]*\.?`

// onlyValue is a remark that is an aperture or a time and nothing else: "1/4", (f16).
var onlyValue = pattern.Lazily(`^(?:f/?\s?[0-9][0-9.]*|1/[0-9]+ ?s?|[0-9.]+ ?s)$`)

// notKnown are words by which a setting is owned to be lost (common practice, no source).
var notKnown = pattern.Lazily(`\b(?:il)?legible\b|\b(?:time|speed|shutter|aperture|stop|f-?stop|setting|settings|rest|zeit|blende)\b.*\b(?:forgotten|forgot|lost|unknown|unsure|missing|not noted|not written|vergessen|fehlt|unleserlich|oublié)|\b(?:forgot|can't|cannot|can’t|don't|don’t|not) (?:to )?(?:note|write|remember|read|recall|sure of)\b.*\b(?:time|speed|shutter|aperture|stop|setting|settings)`)
