package compile

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/source"
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
		"until upon very was were what when where which while who with within without yet " +
		"mrs miss messrs mme mlle rev revd prof capt esq") { // how people are addressed
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
// scene has one: 79-014: Gatepost at Rushford, from the lane, EV 12. A comma between two such words
// is the title's own; what tells of anything else ends it, and stays a remark, as words do that say
// nothing of what is seen.
func (t *reader) subject(all []*lang.Term) {
	sh := t.sheet
	if len(all) > 0 && all[0].Span.Text() == "|" {
		all = all[1:]
	}
	if t.st.Word != lang.Sheet || t.amending || sh.title != "" || sh.scene != nil && sh.scene.title != "" || len(all) == 0 || len(sh.remarks) == 0 {
		return
	}
	if loose, ok := all[0].Kind.(*lang.Loose); !ok || len(subjectWords(strings.Join(loose.Words, " "))) == 0 || strings.Contains(sh.unclear, all[0].Span.Text()) || len(sh.losses) > 0 {
		return
	}
	title := source.Span{}
	for i := 0; i < len(all) && t.pictures(all, i, sh.headed); i += 2 {
		title = all[0].Span.Cover(all[i].Span)
		sh.headed++
	}
	if sh.headed > 0 {
		sh.title = evenly(title.Text())
	}
}

// pictures reports whether a term is words that stand between commas, the next of the sheet's remarks,
// and that tell of nothing but what is seen.
func (t *reader) pictures(all []*lang.Term, i, remark int) bool {
	sh, text := t.sheet, all[i].Span.Text()
	if _, ok := all[i].Kind.(*lang.Loose); !ok || remark >= len(sh.remarks) || sh.remarks[remark] != text {
		return false
	}
	if i+1 < len(all) {
		if _, bounded := all[i+1].Kind.(*lang.Comma); !bounded {
			return false
		}
	}
	low := strings.ToLower(text)
	told := []string{sh.aside, sh.unlit, sh.racked, sh.covered, t.open.coveredFor, sh.copying}
	if t.things[all[i]] == "" {
		told = append(told, sh.vague)
	}
	return !slices.Contains(told, text) && !slices.Contains(told, low) && !understood(low)
}

// understood reports whether a remark in lower case tells of the exposure, the light or the
// negative, and not of what is seen.
func understood(low string) bool {
	_, looks := slip.LookOf(low, false)
	_, other := slip.OtherSide(low)
	return looks || other || slip.SlideOf(low) != slip.SlideUnsaid || manyTimes[low] || several[lastWord(low)] || changeIn(low) != 0 || movedBy(low) != 0 ||
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
