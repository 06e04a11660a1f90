package compile

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
)

// Subject words are what one looks a picture up by years later: the words of the
// titles of scenes and sheets, without those that only join others.

// joining are words of English that say nothing of what a picture shows; words
// of other languages all stand in the index.
var joining = func() map[string]bool {
	words := map[string]bool{}
	for word := range strings.FieldsSeq("about above across after again against all along and another any are around away " +
		"back before behind below beneath beside between beyond both but close down each for from half has have her his how into " +
		"its last left less like more most near new next not now off old one onto other our out over past right same second " +
		"some still than that the their them then there these they third this those three through toward towards two under " +
		"until upon very was were what when where which while who with within without yet") {
		words[word] = true
	}
	return words
}()

// subjectWords parts a title into words of three letters and more.
func subjectWords(title string) []string {
	var words []string
	for _, word := range strings.FieldsFunc(title, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && r != '’' && r != '\'' && r != '-'
	}) {
		word = strings.Trim(word, "’'-")
		if utf8.RuneCountInString(word) > 2 && !joining[strings.ToLower(word)] {
			words = append(words, word)
		}
	}
	return words
}

// subjects gives the words of a sheet, each in one spelling throughout: as it
// stands within a title, for at its head every word has a capital.
func subjects(sheets []*record.Sheet) func(*record.Sheet) []string {
	within := map[string]string{}
	for _, s := range sheets {
		for _, title := range titlesOf(s) {
			for _, word := range subjectWords(title) {
				if low := strings.ToLower(word); within[low] == "" && !strings.HasPrefix(title, word) {
					within[low] = word
				}
			}
		}
	}
	return func(s *record.Sheet) []string {
		var keys []string
		for _, title := range titlesOf(s) {
			for _, word := range subjectWords(title) {
				word = strings.ToLower(word)
				if typed := within[word]; typed != "" {
					word = typed
				}
				keys = append(keys, word)
			}
		}
		return keys
	}
}

// subject makes the words at the head of a sheet's line its title, where neither the sheet nor its
// scene has one: 79-014: Gatepost at Rushford, EV 12. Words that tell of anything else, or that
// say nothing of what is seen, stay a remark.
func (t *reader) subject(all []*lang.Term) {
	sh := t.sheet
	if t.st.Word != lang.Sheet || t.amending || sh.title != "" || sh.scene != nil && sh.scene.title != "" || len(all) == 0 || len(sh.remarks) == 0 {
		return
	}
	loose, ok := all[0].Kind.(*lang.Loose)
	text := all[0].Span.Text()
	if _, bounded := after(all, 0).(*lang.Comma); !ok || len(all) > 1 && !bounded || sh.remarks[0] != text {
		return
	}
	low := strings.ToLower(text)
	told := []string{sh.aside, sh.unlit, sh.racked, sh.covered, t.open.coveredFor, sh.copying}
	if t.things[all[0]] == "" {
		told = append(told, sh.vague)
	}
	if slices.Contains(told, text) || slices.Contains(told, low) || sh.unclear != "" || len(sh.losses) > 0 || understood(low) {
		return
	}
	if len(subjectWords(strings.Join(loose.Words, " "))) > 0 {
		sh.title, sh.headed = evenly(text), true
	}
}

// understood reports whether a remark in lower case tells of the exposure, the light or the
// negative, and not of what is seen.
func understood(low string) bool {
	_, looks := slip.LookOf(low, false)
	_, other := slip.OtherSide(low)
	return looks || other || slip.SlideLeft(low) || manyTimes[low] || several[lastWord(low)] || changeIn(low) != 0 || movedBy(low) != 0 ||
		notSure().MatchString(low) || correcting().MatchString(low) || ownsToSlip().MatchString(low) ||
		morePurpose().MatchString(low) || lessPurpose().MatchString(low) || anyPurpose().MatchString(low)
}

// titlesOf are what says what a sheet shows.
func titlesOf(s *record.Sheet) []string {
	titles := one(s.Title)
	if s.Scene != nil {
		titles = append(titles, s.Scene.Title)
	}
	return titles
}
