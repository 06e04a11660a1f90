package compile

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"notchbook/lang"
	"notchbook/lang/pattern"
)

// What lines of prose beside a sheet tell in words: above it what holds for what follows, now it is EV ten, read
// filter on; below it what was so all along, that was with the red filter on, both of these with the red.

// toldLine is a sentence of a line that was not read, and may tell of settings.
type toldLine struct {
	at      int // of the line in its notebook
	said    string
	tells   string   // the rest of it, in lower case, behind the words for the sheets that it is said of
	ofMeter bool     // tells at which index the meter stood, or what the reading was, for the sheets of its reading above and below
	labels  []string // of the sheets that it names
	below   int      // the last of the lines of sheets above it that it is said of, 1 for the one right above; 0 where it is said of those below
	past    int      // how many of the lines right above it are not meant: the one before that
	right   bool     // it stands right below the sheet that it is said of, and says so by nothing else
	ahead   bool     // it is said of the sheets below, and of the one right above it where its scene has none below
	added   bool     // it owns to be said afterwards: forgot to say, btw
	nth     int      // which line of its scene alone it is said of, 1 for the first; 0 for all of them
}

// lines are what is told in a notebook, looked for once.
type lines struct {
	once sync.Once
	all  []toldLine
	of   map[string][]toldLine // those that name sheets, by label in lower case
}

// toldIn are the sentences of a notebook's prose that may tell of settings: few, and short.
func (b *book) toldIn() []toldLine {
	b.told.once.Do(func() {
		b.told.of = map[string][]toldLine{}
		each := make([][]toldLine, 1+len(b.Lines)/piece)
		sideBySide(len(b.Lines), func(from, to int) {
			for i := from; i < to; i++ {
				each[from/piece] = append(each[from/piece], b.tells(&b.Lines[i])...)
			}
		})
		for _, told := range slices.Concat(each...) {
			if len(told.labels) == 0 {
				b.told.all = append(b.told.all, told)
			}
			for _, label := range told.labels {
				b.told.of[strings.ToLower(label)] = append(b.told.of[strings.ToLower(label)], told)
			}
		}
	})
	return b.told.all
}

// tells is what a line of prose tells of sheets or the meter.
func (b *book) tells(line *lang.Line) (all []toldLine) {
	const tale = 12 // words
	if line.Kind != lang.Prose && !(line.Kind == lang.Unread && (line.Meant == lang.FilterWord || line.Meant == lang.Meter || line.Meant == lang.Load || line.Meant == lang.Lens) && !line.Above) && !(line.Kind == lang.Log && b.ofHolder(line)) {
		return nil
	}
	text := string(b.File.Text[line.Body:line.BodyEnd])
	ahead := mayCount.In(text) || mayTellBeside.In(text) || b.kit.namesMeter(text) || mayNameZone(text)
	if !ahead && !strings.ContainsAny(text, "0123456789") && !mayCover.In(text) && !mayTakeBack.In(text) && !b.kit.mayName(text) {
		return nil
	}
	for _, said := range lang.Sentences(text) {
		sides := sidesSaid(said)
		low := strings.ToLower(strings.TrimRight(strings.TrimSpace(sides), ".!"))
		typed := low
		if low = asideSaid().ReplaceAllString(low, ""); wordy(low, tale) || lang.Elsewhere(nextHere().ReplaceAllString(low, "")) {
			continue
		}
		told := toldLine{at: line.Start, said: strings.TrimSpace(said), labels: lang.LabelsIn(sides, isSide), added: low != typed}
		if len(told.labels) > 0 {
			told.tells = asWas(withoutLabels(low, told.labels))
			all = append(all, told)
			continue
		}
		if told.below, told.past, told.nth, told.tells = ofAbove(low); told.below == 0 {
			told.ofMeter = b.meterStoodIn(low) || mayShowAnew.In(low) && readingWas().MatchString(inFigures(low))
		}
		if told.below == 0 && !told.ofMeter {
			told.below, told.right, told.ahead = 1, true, ahead && tellsAhead(low)
		}
		told.ahead = told.ahead || line.Kind == lang.Unread
		all = append(all, told)
	}
	return all
}

// sidesSaid is a text with the holder sides in it as labels, and a holder as its two sides: holder 1 had flint in.
func sidesSaid(text string) string {
	if mayHold.In(text) {
		text = holderSaid().ReplaceAllString(text, "${1}A ${1}B")
	}
	return lang.SidesInFigures(text)
}

// ofHolder reports whether a log line is one that says how a holder stands, which may tell of its sheet: holder 1A: the red
// was on.
func (b *book) ofHolder(line *lang.Line) bool {
	head := b.File.Text[line.Body:line.BodyEnd]
	return len(head) > len(lang.HolderWord) && strings.EqualFold(string(head[:len(lang.HolderWord)]), string(lang.HolderWord))
}

// ofAbove is of how many lines of sheets above it a sentence in lower case is said, past some that are not meant, and what it
// tells of them: that last one was, the one before that was, shutter on thirty for that one; a shutter that did not fire is that
// of the last. Of the first one it is the first of its scene. 0 where it is of none.
func ofAbove(low string) (lines, past, nth int, tells string) {
	tells = low
	if m := ofNthSheet().FindStringSubmatch(low); m != nil {
		lines, nth, tells = manySheets, nthSaid[m[1]+m[2]], strings.TrimSpace(strings.Replace(low, m[0], " ", 1))
	} else if m := ofSheetsAbove().FindStringSubmatch(low); m != nil {
		said, many := strings.Fields(m[1]), 0
		for _, word := range said {
			many = max(many, int(oftenCounted[word]))
		}
		lines, tells = cmp.Or(many, sheetsSaid[said[0]], sheetsSaid[said[len(said)-1]], 1), asWas(strings.TrimSpace(low[len(m[0]):]))
		if beforeLast().MatchString(m[1]) {
			lines, past = 2, 1
		}
	} else if m := forThatOne().FindStringSubmatch(low); m != nil {
		lines, tells = max(1, sheetsSaid[m[1]]), strings.Trim(strings.Replace(low, m[0], ", ", 1), ", ")
	}
	told, m := tellsSetting(tells, true), leftFilterOn().FindStringSubmatch(tells)
	switch {
	case told.few() && (told.slip || told.ofLens), slices.ContainsFunc(slipsOfThat, func(by pattern.Lazy) bool { return by().MatchString(tells) }):
		return max(lines, 1), past, nth, tells
	case m != nil:
		return max(lines, 1), past, nth, "had " + m[1] + m[2]
	}
	return lines, past, nth, tells
}

// asWas is what is told of a sheet in lower case, with what its line wants to be as what it was.
func asWas(tells string) string { return wantsToBe().ReplaceAllString(tells, "was") }

// tellsAhead reports whether a sentence in lower case tells of the sheets below it: a reading, the bellows, a filter, another film.
func tellsAhead(low string) bool {
	figures := inFigures(low)
	return meterSays().MatchString(figures) || toInfinity().MatchString(low) || strings.HasSuffix(low, "size") || drawnSaid().MatchString(figures) || onlyOn().MatchString(low) || changedFilm().MatchString(low) || strings.HasPrefix(low, "lens ")
}

// toldBeside takes back that a sheet is right where a line of prose near it tells what would make it wrong.
func (s *season) toldBeside(sh *sheet) bool {
	const near, most = 6, 24 // lines that tell something of the sheets below them, above a sheet, and all that are looked at
	b := sh.outing.book
	all := b.toldIn()
	if len(all) == 0 && len(b.told.of) == 0 && len(sh.lines) == 1 || sh.at.File != b.File {
		return false // as nearly everywhere
	}
	place := func(told toldLine, at int) int { return told.at - at }
	own, _ := slices.BinarySearchFunc(all, sh.at.Start, place)
	for i, from, left := own-1, sh.begins(), near; i >= max(0, own-most) && left > 0 && all[i].at > from; i-- {
		if all[i].below > 0 && !all[i].ahead {
			continue
		}
		left--
		if s.toldAbove(sh, &all[i]) {
			return true
		}
	}
	for i := own; i < len(all); i++ {
		between, near := s.sheetsTo(sh, all[i].at)
		if !near {
			break
		}
		told := &all[i]
		if (!told.right || s.rightBelow(sh, told.at)) && between >= told.past && between < told.below && (told.nth == 0 || told.nth == s.nthOfScene(sh)) && !(told.ahead && s.hasBelow(sh, told.at)) && s.toldBelow(sh, told) {
			return true
		}
		if rd := sh.reading; told.ofMeter && rd != nil && s.doubtedBy(sh, rd.indexTold(sh, told.said, indexOfMeter)) || told.ofMeter && rd != nil && s.lastOfReading(sh, told.at) && s.doubtedBy(sh, rd.wasTold(told.said)) {
			return true
		}
	}
	for _, st := range sh.lines[1:] {
		if st.Word == lang.Sheet || st.Word == lang.Result {
			low := strings.ToLower(strings.Trim(st.Body.Text(), " .!"))
			if said := strings.TrimSpace(st.Body.Text()); !lang.Elsewhere(low) && s.toldBelow(sh, &toldLine{said: said, tells: low}) {
				return true
			}
		}
	}
	if len(b.told.of) == 0 {
		return false
	}
	of := b.told.of[strings.ToLower(sh.label)]
	for i, _ := slices.BinarySearchFunc(of, sh.at.Start, place); i < len(of) && s.lastBefore(sh, of[i].at); i++ {
		if s.toldBelow(sh, &of[i]) {
			return true
		}
	}
	return false
}

// withoutLabels is a sentence in lower case without the labels of the sheets that it is said of, and a word that leads to
// one: filter was not on, of filter was not on for 1a.
func withoutLabels(low string, labels []string) string {
	var rest []string
	for word := range strings.FieldsSeq(low) {
		if bare := strings.Trim(word, ".,:;()[]"); !slices.ContainsFunc(labels, func(label string) bool { return strings.EqualFold(label, bare) }) {
			rest = append(rest, word)
		} else if n := len(rest); n > 0 && leadsToSheet[rest[n-1]] {
			rest = rest[:n-1]
		}
	}
	return strings.Join(rest, " ")
}

// rightBelow reports whether a place stands right below a sheet's line, and no line but empty ones between.
func (s *season) rightBelow(sh *sheet, at int) bool {
	b := sh.outing.book
	for i := lineIndex(b, sh.at.Start) + 1; i < len(b.Lines) && b.Lines[i].Start < at; i++ {
		if b.Lines[i].Kind != lang.Blank {
			return false
		}
	}
	return true
}

// lastBefore reports whether a sheet is the last one of its day under its label above a place in its notebook.
func (s *season) lastBefore(sh *sheet, at int) bool {
	for _, next := range s.sheets[sh.index+1:] {
		if next.at.File != sh.at.File || next.at.Start > at {
			break
		}
		if next.outing != sh.outing || strings.EqualFold(next.label, sh.label) {
			return false
		}
	}
	return true
}

// sheetsTo is how many lines of sheets stand between a sheet and a place below it; near is false where another scene
// begins there, or more of them than a line is said of.
func (s *season) sheetsTo(sh *sheet, at int) (between int, near bool) {
	line := sh.lines[0]
	for _, next := range s.sheets[sh.index+1:] {
		if next.at.File != sh.at.File || next.at.Start > at {
			break
		}
		if next.begins() != sh.begins() || between == manySheets {
			return between, false
		}
		if next.lines[0] != line {
			between, line = between+1, next.lines[0]
		}
	}
	return between, true
}

// hasBelow reports whether a sheet's scene has another below a place.
func (s *season) hasBelow(sh *sheet, at int) bool {
	for _, next := range s.sheets[sh.index+1:] {
		if next.at.File != sh.at.File || next.begins() != sh.begins() || next.at.Start > at {
			return next.at.File == sh.at.File && next.begins() == sh.begins()
		}
	}
	return false
}

// lastOfReading reports whether no sheet between one and a place below it has another reading.
func (s *season) lastOfReading(sh *sheet, at int) bool {
	for _, next := range s.sheets[sh.index+1:] {
		if next.at.File != sh.at.File || next.at.Start > at {
			break
		}
		if next.reading == nil || next.reading.at != sh.reading.at {
			return false
		}
	}
	return true
}

// nthOfScene is which line of a sheet its scene has on a sheet's line, 1 being the first.
func (s *season) nthOfScene(sh *sheet) int {
	nth, line := 1, sh.lines[0]
	for i := sh.index - 1; i >= 0 && s.sheets[i].at.File == sh.at.File && s.sheets[i].begins() == sh.begins(); i-- {
		if s.sheets[i].lines[0] != line {
			nth, line = nth+1, s.sheets[i].lines[0]
		}
	}
	return nth
}

// toldAbove is what a line says of what follows it: another reading, a filter.
func (s *season) toldAbove(sh *sheet, told *toldLine) bool {
	if s.doubtedBy(sh, misheard(sh, told.said)) {
		return true
	}
	if sh.drawnAt().Start < told.at && s.doubtedBy(sh, sh.drawnInWords(told.said, true)) {
		return true
	}
	if low := strings.ToLower(told.said); changedFilm().MatchString(low) {
		if other := s.filmTold(sh, low); other != nil && s.doubtedBy(sh, []another{wasOnFilm(other, told.said)}) {
			return true
		}
	}
	rd := sh.reading
	return rd != nil && !sh.ownReading && rd.at.Start < told.at && s.doubtedBy(sh, slices.Concat(rd.shownTold(told.said, meterSays), rd.wasTold(told.said), rd.indexTold(sh, told.said, indexOfMeter)))
}

// toldBelow is what a line says of the sheets above it.
func (s *season) toldBelow(sh *sheet, told *toldLine) bool {
	least := settingDone
	if told.right {
		least = settingSigned
	}
	if s.setOtherwise(sh, told.tells, told.said, least, false) {
		return true
	}
	if said := sh.coveredIn(told.said); said != "" {
		sh.ask("how long the lens was covered: " + quote(said))
		return true
	}
	anew := told.said
	ofSheet := len(told.labels) > 0 || told.added || !told.right && strings.HasPrefix(told.tells, "had ")
	if ofSheet {
		anew = told.tells
	}
	if s.doubtedBy(sh, s.thingsAnew(sh, anew, ofSheet)) {
		return true
	}
	if told.right && (litByFlash(told.said) || unmeasured(strings.ToLower(told.said))) {
		sh.ask("how much light was added: " + quote(told.said))
		return true
	}
	if asks := sh.ownedTo(told.tells); asks != "" {
		sh.ask(asks)
		return true
	}
	if s.doubtedBy(sh, append(sh.drawnInWords(told.tells, true), sh.notOn(told.tells)...)) || !told.right && len(told.labels) == 0 && sh.reading != nil && s.doubtedBy(sh, sh.reading.zoneTold(sh, told.said, zonePlaced)) {
		return true
	}
	if f := s.filterTold(sh, &lang.Remark{}, told.tells); f != nil && (!told.right || saysOn().MatchString(strings.ReplaceAll(told.tells, strings.ToLower(f.name), "filter"))) {
		return s.doubtedBy(sh, []another{sh.withFilter(f, told.said)})
	}
	return false
}

// manySheets is of how many lines of sheets a sentence on many is said at most.
const manySheets = 6

// The words are those of notes read for this (common practice, no source).
var (
	ofSheetsAbove = pattern.Lazily(`^(?:(?:oh|no|sorry|` + exclaims + `|and|but|note|actually|wait|well|hm+|ach|nein|mist|zut|non),? )*(beide|die beiden|les deux|(?:das|die|der|la|le) (?:letzte|letzten|dernière|dernier)|das|dies|ça|that (?:last )?(?:one|sheet|shot)|that|(?:the )?last (?:one|sheet|shot|two|three)|this (?:last )?(?:one|sheet|shot)|both(?: of (?:these|those|them)| sheets)?|(?:these|those) (?:two|three)|these|those|all (?:of )?(?:these|those|them|three)|both above|the above|(?:the )?(?:one|two|three|four|last|sheets?|shots?) above|(?:the )?(?:one|sheet|shot) before(?: (?:that|it|this|the last)(?: one| sheet| shot)?)?|(?:the )?(?:last but one|(?:second|next) (?:to )?last)(?: one| sheet| shot)?|(?:the )?(?:last|previous(?: one| sheet| shot)?)|all(?: (?:sheets|shots|taken|shot|done))?)\b`)
	beforeLast    = pattern.Lazily(`\b(?:before|but one|(?:second|next) (?:to )?last)\b`)
	wantsToBe     = pattern.Lazily(`^(?:wants|needs|ought|want|need|is supposed) to (?:be|read|say)\b|^should (?:be|read|say)\b`)
	leftFilterOn  = pattern.Lazily(`^(?:(?:oh|no|oops|sorry|damn|i),? )*(?:left|had|forgot) ((?:the )?\w+ (?:filter )?)(?:was |were )?(?:still )?(on)$`)
	nextHere      = pattern.Lazily(`^(?:(?:and|then|now),? )?next(?:[,:]| up\b| (?:the|a|an|my|one|sheet|scene)\b)|^(?:the )?\pL+ next,`)                                                                                                                                                                                                                                             // and not next time
	asideSaid     = pattern.Lazily(`[,;(–-]? ?\b(?:(?:i )?forgot(?:ten)? to (?:say|note|write|mention|log)(?: (?:it|that|so|this))?(?: down)?|btw|by the way|(?:i )?should have (?:said|noted|written|mentioned)(?: (?:it|that|so))?)[,:)]?|,? ?\b(?:see|as on|by|going by|judging by|to judge by) (?:the |its )?(?:contact |work )?(?:prints?|contacts?|negatives?|negs?|scans?)\b`) // tells of the sheet
	changedFilm   = pattern.Lazily(`^(?:(?:now|then|i|have) )*(?:changed|switched|swapped|went|moved)(?: over)? to (?:the |my )?\S+ film\b`)
	saysOn        = pattern.Lazily(`\bfilter\b(?: \pL+){0,3} on\b|^\W*(?:(?:that|it|was|this|shot|taken|all|with|w/|through|on|the|my|and|plus|a|\pL+['’]s) ?)*filter[.!) ]*$`)
	holderSaid    = pattern.Lazily(`(?i)\b(?:dark ?slide|(?:film ?)?holder|kassette|châssis)s? (?:no\.? ?|#|number )?([0-9]{1,3})\b`)
	mayHold       = pattern.AnyOf("slide holder kassette châssis")
	mayTakeBack   = pattern.AnyOf("scrap scratch sorry oops edit correct amend not no, torch")
	leadsToSheet  = lang.SetOf("on for with in at of re sheet plate holder and both bei auf an für mit pour sur à avec")
	forThatOne    = pattern.Lazily(` (?:for|on|with) (?:(?:that|this)(?: (?:last )?(?:one|sheet|shot))?|(both)(?: of (?:them|these|those)| sheets)?)(?:$|,? (?:it|they) (?:was|were|had|stood)\b)| (?:war|était) (?:das|ça)$`) // for that one, it was at 300
	ofNthSheet    = pattern.Lazily(`^(?:(?:for|on|with|in) )?(?:the )?(first|second|third|fourth)(?: (?:one|sheet|shot|plate))?(?: of (?:these|those|them))?\b|(?:,? (?:for|on|with|in))? the (first|second|third|fourth) (?:one|sheet|shot|plate)$`)
	nthSaid       = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4}
	sheetsSaid    = map[string]int{"that": 1, "the": 1, "last": 1, "this": 1, "both": 2, "beide": 2, "beiden": 2, "deux": 2, "these": manySheets, "those": manySheets, "all": manySheets}
	mayTellBeside = pattern.AnyOf("filter filtre both that this these those last all first second third fourth shutter slide forgot left had lens bellows meter dial index phone app film bag pocket vergessen oublié infinity unendlich infini size noch encore balgen auszug soufflet tirage lichtwert lw blende objektiv verschluss objectif diaphragme obturateur resté pleine doppelt zweimal")
	slipsOfThat   = []pattern.Lazy{filterWasOn, wasNotOn, factorForgotten, bellowsForgotten, wideOpen, stuckOpen, neverFired, secondTime, slideWhileOpen, leftOn} // of the last sheet, where no other is named
)
