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
	tells   string // the rest of it, in lower case, behind the words for the sheets that it is said of
	ofMeter bool   // tells at which index the meter stood, for the sheets of its reading above and below
	below   int    // how many lines of sheets it is said of that stand above it, 0 where it is said of those below
}

// lines are what is told in a notebook, looked for once.
type lines struct {
	once sync.Once
	all  []toldLine
}

// toldIn are the sentences of a notebook's prose that may tell of settings: few, and short.
func (b *book) toldIn() []toldLine {
	b.told.once.Do(func() {
		each := make([][]toldLine, 1+len(b.Lines)/piece)
		sideBySide(len(b.Lines), func(from, to int) {
			for i := from; i < to; i++ {
				each[from/piece] = append(each[from/piece], b.tells(&b.Lines[i])...)
			}
		})
		b.told.all = slices.Concat(each...)
	})
	return b.told.all
}

// tells is what a line of prose tells of sheets or the meter.
func (b *book) tells(line *lang.Line) (all []toldLine) {
	const tale = 10 // words
	if line.Kind != lang.Prose {
		return nil
	}
	text := string(b.File.Text[line.Body:line.BodyEnd])
	if !mayCount.In(text) && !mayTellBeside.In(text) && !b.kit.namesMeter(text) && !mayNameZone(text) {
		return nil
	}
	for _, said := range lang.Sentences(text) {
		low := strings.ToLower(strings.TrimRight(strings.TrimSpace(said), ".!"))
		if len(wordsIn(low)) > tale || lang.Elsewhere(low) {
			continue
		}
		told := toldLine{at: line.Start, said: strings.TrimSpace(said)}
		if told.below, told.tells = ofAbove(low); told.below == 0 && b.meterStoodIn(low) {
			told.ofMeter = true
		}
		if told.below > 0 || told.ofMeter || tellsAhead(low) {
			all = append(all, told)
		}
	}
	return all
}

// ofAbove is of how many lines of sheets above it a sentence in lower case is said, and what it tells of them: that last
// one was, shutter on thirty for that one; a shutter that did not fire is that of the last. 0 where it is of none.
func ofAbove(low string) (lines int, tells string) {
	tells = low
	if m := ofSheetsAbove().FindStringSubmatch(low); m != nil {
		said := strings.Fields(m[1])
		lines, tells = cmp.Or(int(oftenCounted[said[len(said)-1]]), sheetsSaid[said[0]]), strings.TrimSpace(low[len(m[0]):])
	} else if m := forThatOne().FindStringIndex(low); m != nil {
		lines, tells = 1, strings.TrimSpace(low[:m[0]])
	}
	const most = 2 // numbers: not f22
	told, m := tellsSetting(tells, true), leftFilterOn().FindStringSubmatch(tells)
	switch n := len(told.numbers); {
	case n > 0 && n <= most && (told.slip || told.ofLens), slices.ContainsFunc(slipsOfThat, func(by pattern.Lazy) bool { return by().MatchString(tells) }):
		return max(lines, 1), tells
	case m != nil:
		return max(lines, 1), "had " + m[1] + m[2]
	}
	return lines, tells
}

// tellsAhead reports whether a sentence in lower case tells of the sheets below it: a reading, the bellows, a filter, another film.
func tellsAhead(low string) bool {
	figures := inFigures(low)
	return figures != low && (meterSays().MatchString(figures) || drawnSaid().MatchString(figures)) || onlyOn().MatchString(low) || changedFilm().MatchString(low)
}

// toldBeside takes back that a sheet is right where a line of prose near it tells what would make it wrong.
func (s *season) toldBeside(sh *sheet) bool {
	const near = 6 // lines that tell something, above a sheet
	b := sh.outing.book
	all := b.toldIn()
	if len(all) == 0 || sh.at.File != b.File {
		return false // as nearly everywhere
	}
	own, _ := slices.BinarySearchFunc(all, sh.at.Start, func(told toldLine, at int) int { return told.at - at })
	for i, from := own-1, sh.begins(); i >= max(0, own-near) && all[i].at > from; i-- {
		if all[i].below == 0 && s.toldAbove(sh, &all[i]) {
			return true
		}
	}
	for i := own; i < len(all); i++ {
		between, near := s.sheetsTo(sh, all[i].at)
		if !near {
			break
		}
		if between < all[i].below && s.toldBelow(sh, &all[i]) || all[i].ofMeter && sh.reading != nil && s.doubtedBy(sh, sh.reading.indexTold(sh, all[i].said, indexOfMeter)) {
			return true
		}
	}
	return false
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

// toldAbove is what a line says of what follows it: another reading, a filter.
func (s *season) toldAbove(sh *sheet, told *toldLine) bool {
	if s.doubtedBy(sh, misheard(sh, told.said)) {
		return true
	}
	if s.doubtedBy(sh, sh.drawnInWords(told.said)) {
		return true
	}
	if low := strings.ToLower(told.said); changedFilm().MatchString(low) {
		if other := s.filmTold(sh, low); other != nil && s.doubtedBy(sh, []another{wasOnFilm(other, told.said)}) {
			return true
		}
	}
	rd := sh.reading
	return rd != nil && !sh.ownReading && rd.at.Start < told.at && s.doubtedBy(sh, append(rd.shownTold(told.said, meterSays), rd.indexTold(sh, told.said, indexOfMeter)...))
}

// toldBelow is what a line says of the sheets above it.
func (s *season) toldBelow(sh *sheet, told *toldLine) bool {
	if s.settingsTold(sh, told.tells, true) {
		sh.ask("whether " + quote(told.said) + " says what was set")
		return true
	}
	if asks := sh.ownedTo(told.tells); asks != "" {
		sh.ask(asks)
		return true
	}
	if s.doubtedBy(sh, sh.drawnInWords(told.tells)) || sh.reading != nil && s.doubtedBy(sh, sh.reading.zoneTold(sh, told.said, zonePlaced)) {
		return true
	}
	if f := s.filterTold(sh, &lang.Remark{}, told.tells); f != nil {
		return s.doubtedBy(sh, []another{sh.withFilter(f, told.said)})
	}
	return false
}

// manySheets is of how many lines of sheets a sentence on many is said at most.
const manySheets = 6

// The words are those of notes read for this (common practice, no source).
var (
	ofSheetsAbove = pattern.Lazily(`^(?:(?:oh|no|oops|sorry|damn|and|but|note|actually|wait|well|hm+),? )*(that (?:last )?(?:one|sheet|shot)|that|(?:the )?last (?:one|sheet|shot|two|three)|this (?:last )?(?:one|sheet|shot)|both(?: of (?:these|those|them)| sheets)?|(?:these|those) (?:two|three)|these|those|all (?:of )?(?:these|those|them|three))\b`)
	leftFilterOn  = pattern.Lazily(`^(?:(?:oh|no|oops|sorry|damn|i),? )*(?:left|had|forgot) ((?:the )?\w+ (?:filter )?)(?:was |were )?(?:still )?(on)$`)
	changedFilm   = pattern.Lazily(`^(?:(?:now|then|i|have) )*(?:changed|switched|swapped|went|moved)(?: over)? to (?:the |my )?\S+ film\b`)
	forThatOne    = pattern.Lazily(` (?:for|on|with) (?:that|this)(?: (?:last )?(?:one|sheet|shot))?$`)
	sheetsSaid    = map[string]int{"that": 1, "the": 1, "last": 1, "this": 1, "both": 2, "these": manySheets, "those": manySheets, "all": manySheets}
	mayTellBeside = pattern.AnyOf("filter both that this these those last all shutter slide forgot left had lens bellows meter dial index phone app film")
	slipsOfThat   = []pattern.Lazy{filterWasOn, factorForgotten, bellowsForgotten, wideOpen, stuckOpen, neverFired, secondTime, slideWhileOpen, leftOn} // of the last sheet, where no other is named
)
