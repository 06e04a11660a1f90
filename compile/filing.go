package compile

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"notchbook/compile/record"
	"notchbook/compile/slip"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// What is written when the negatives are dry: their numbers, sleeves, densities,
// verdicts and prints. The lines are read in resolve; the numbering of the season
// is looked over in gather.

// filed is what the lines about a dry negative say of a sheet.
type filed struct {
	sleeve    string
	sleeveAt  source.Span
	prints    []*lang.Statement
	results   []*lang.Statement
	densities []density
	patches   []patch
	keeper    bool
}

// unlogged is a label of such a line that no sheet bears.
type unlogged struct {
	label string
	st    *lang.Statement
	at    source.Span
}

// dry gives a line about dry negatives to their sheets, each with its place among the
// line's labels.
func (r *resolver) dry(st *lang.Statement, do func(sh *sheet, nth int)) {
	if len(st.Labels) == 0 {
		word := strings.ToLower(st.Said.Text())
		r.report("no-sheet-named", st.Said, "which sheet this "+word+" line is about is not said").
			note("write the label or the number behind the word: " + word + " 3A: …")
		return
	}
	for i, l := range r.meant(st) {
		if sh := r.bearer(l); sh != nil {
			sh.lines = append(sh.lines, st)
			r.spoken(l, sh)
			do(sh, i)
		} else if !ranged(l) || len(r.eitherOf(l)) > 1 {
			r.unlogged = append(r.unlogged, unlogged{called(l), st, l.Span})
			f := r.report("negative-without-entry", l.Day.Cover(l.Span), "no entry above this line is "+called(l))
			if first, last, ok := endsOf(l.Text); ok {
				switch a, b := r.named(first) != nil, r.named(last) != nil; {
				case a && !b:
					f.Message = "no entry above this line is " + last + ", with which the run ends: none of it is taken"
				case b && !a:
					f.Message = "no entry above this line is " + first + ", with which the run begins: none of it is taken"
				default:
					f.Message = "no entry above this line is any of " + called(l)
				}
				f.note("sheets are named by labels or numbers under which they stand above; a run has both ends in full: " + first + " to " + last)
			} else {
				f.note("a negative is named by its sheet's label or by its number")
			}
			r.whichDay(f, l)
		}
	}
}

// endless reports whether a run of negatives' numbers has an end that no sheet bears: then
// nobody knows what is meant, and none of it is.
func (r *resolver) endless(run []lang.Label) bool {
	numbers := !slices.ContainsFunc(run, func(l lang.Label) bool { return yearly(l.Text) == "" })
	return numbers && len(run) > 1 && (r.bearer(run[0]) == nil || r.bearer(run[len(run)-1]) == nil)
}

// endsOf is the first and the last of what is written as a run.
func endsOf(text string) (first, last string, ok bool) {
	for first, last := range runsIn(text) {
		if from, to := series(first), series(last); from.ok && to.ok {
			if to.prefix == "" && from.prefix != "" {
				last = from.prefix + last
			}
			return first, last, true
		}
	}
	return "", "", false
}

// sleeve files the sheets of a line. A negative is in one sleeve: where a line above says
// another the later counts, and it is said.
func (r *resolver) sleeve(st *lang.Statement) {
	place := strings.TrimRight(evenly(st.StandingText()), ". ")
	var moved []*sheet
	var from []source.Span
	r.dry(st, func(sh *sheet, _ int) {
		if f := &sh.filed; f.sleeve != "" && sleeveKey(f.sleeve) != sleeveKey(place) && !slices.Contains(moved, sh) {
			moved, from = append(moved, sh), append(from, f.sleeveAt)
			sh.history = append(sh.history, record.Change{Was: f.sleeve, Now: place, How: "filed anew", Place: placeOf(st.TextSpan())})
		}
		sh.filed.sleeve, sh.filed.sleeveAt = place, st.TextSpan()
	})
	if len(moved) > 0 {
		r.report("filed-twice", st.TextSpan(), fmt.Sprintf("%s filed before, elsewhere: %s", areOrIs(moved), quote(from[0].Text())), moved...).
			note("filed here", from[0]).
			note("the later counts; strike out the line that does not")
	}
}

// areOrIs is the labels of sheets, and the verb.
func areOrIs(sheets []*sheet) string {
	if len(sheets) == 1 {
		return these(sheets) + " was"
	}
	return these(sheets) + " were"
}

// sleeveKey is what one sleeve is called however it is spelled: case, blanks and commas count
// for nothing, but for those between two figures.
func sleeveKey(name string) string {
	var key []rune
	parted := false
	for _, c := range strings.ToLower(name) {
		if strings.ContainsRune(" \t\u00A0,.;", c) {
			parted = true
			continue
		}
		if parted && len(key) > 0 && unicode.IsDigit(c) && unicode.IsDigit(key[len(key)-1]) {
			key = append(key, ' ')
		}
		key, parted = append(key, c), false
	}
	return string(key)
}

func (r *resolver) print(st *lang.Statement) {
	r.dry(st, func(sh *sheet, _ int) { sh.filed.prints = append(sh.filed.prints, st) })
}

// result is a verdict; the words for what spoils a sheet are in its terms.
func (r *resolver) result(st *lang.Statement) {
	r.dry(st, func(sh *sheet, _ int) {
		sh.filed.results = append(sh.filed.results, st)
		sh.filed.keeper = sh.filed.keeper || keeps(strings.ToLower(st.StandingText()))
		for i := range st.Terms() {
			if k, ok := st.Terms()[i].Kind.(*lang.Loss); ok && (k.Word != slideLeft || slip.SlideOf(st.StandingText()) <= slip.SlideLeft) {
				sh.losses = append(sh.losses, k.Word)
			}
		}
	})
}

// keeps reports whether a verdict calls the negative a keeper: "keeper, but a light leak"
// does, "no keeper" and "not a keeper" do not.
func keeps(text string) bool {
	before, _, is := strings.Cut(text, "keeper")
	before = strings.TrimSuffix(strings.TrimRight(before, " "), " a")
	return is && !strings.HasSuffix(before, "no") && !strings.HasSuffix(before, "not") && !strings.HasSuffix(before, "n't")
}

// negatives gives numbers to sheets that were logged: one each, in order, or the
// first and the last.
func (r *resolver) negatives(st *lang.Statement) {
	if len(st.Labels) == 0 {
		r.dry(st, nil)
		return
	}
	numbers := numbersIn(strings.TrimSpace(st.StandingText()))
	if len(numbers) != len(st.Labels) {
		text := fmt.Sprintf("%s for %s", counted(len(numbers), "number", "numbers"), counted(len(st.Labels), "sheet", "sheets"))
		if numbers == nil {
			text = "the run of numbers does not lead from one to another of a series"
		}
		r.report("numbers-uneven", st.TextSpan(), text).
			note("write one for each sheet, or the first and the last: 26-041 to 26-046; a remark stands in ( ) or behind a dash")
		return
	}
	r.dry(st, func(sh *sheet, nth int) {
		if nth < len(numbers) {
			r.number(sh, numbers[nth], st.TextSpan(), false)
		}
	})
}

// numbersIn is the numbers of a line: each as written, or all of a run; nil where a run
// has no two ends of one series.
func numbersIn(text string) []string {
	text = unremarked(text)
	for first, last := range runsIn(text) {
		from, to := series(first), series(last)
		if strings.ContainsAny(first+last, " ,;") || !from.ok || !to.ok || from.prefix != to.prefix {
			continue
		}
		var run []string
		for n := from.n; n <= to.n && n-from.n < mostNumbers; n++ {
			run = append(run, from.at(n))
		}
		return run
	}
	all := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' || c == ';' })
	if slices.ContainsFunc(all, func(word string) bool {
		return slices.Contains(runSigns, " "+word+" ") || slices.Contains(runSigns, word)
	}) {
		return nil
	}
	return all
}

// unremarked is a text without what stands in ( ) or " ".
func unremarked(text string) string {
	for _, pair := range [][2]string{{"(", ")"}, {`"`, `"`}, {"“", "”"}} {
		for {
			before, rest, open := strings.Cut(text, pair[0])
			_, behind, shut := strings.Cut(rest, pair[1])
			if !open || !shut {
				break
			}
			text = before + " " + behind
		}
	}
	return strings.TrimSpace(text)
}

// runSigns stand between the first number of a run and the last. A hyphen, which
// numbers have within them too, is one only between blanks.
var runSigns = []string{" to ", " through ", "–", "—", " - "}

// runsIn is each way to take a text for a run: what stands before a sign, and
// what behind.
func runsIn(text string, more ...string) iter.Seq2[string, string] {
	return func(yield func(first, last string) bool) {
		for _, sign := range slices.Concat(runSigns, more) {
			for at := 0; ; at += len(sign) {
				i := strings.Index(text[at:], sign)
				if i < 0 {
					break
				}
				at += i
				if !yield(strings.TrimRight(text[:at], " -"), strings.TrimLeft(text[at+len(sign):], " -")) {
					return
				}
			}
		}
	}
}

// numbersBetween is the numbers that were given from one to another of a series,
// nil where the text does not say so. Which hyphen is meant the numbers tell that
// were given.
func (r *resolver) numbersBetween(whole lang.Label) (run []lang.Label) {
	for first, last := range runsIn(whole.Text, "-") {
		from, to := series(first), series(last)
		if r.bearers[strings.ToLower(first)] == nil || r.bearers[strings.ToLower(last)] == nil || !strings.EqualFold(from.prefix, to.prefix) {
			continue
		}
		for n := from.n; n <= to.n && n-from.n < mostNumbers; n++ {
			if number := from.at(n); r.bearers[strings.ToLower(number)] != nil {
				run = append(run, lang.Label{Text: number, Span: whole.Span})
			}
		}
		return run
	}
	return nil
}

// mostNumbers bounds what a slip of the finger can make of a run of numbers.
const mostNumbers = 500

// number gives a sheet its permanent number. A number is never given twice and a
// negative never renumbered; only an amendment corrects one.
func (r *resolver) number(sh *sheet, number string, at source.Span, amending bool) {
	key := strings.ToLower(number)
	bearer := r.bearers[key]
	if sh.ownNumber && !strings.EqualFold(sh.number, number) { // no line had given it one
		delete(r.bearers, strings.ToLower(sh.number))
		sh.number = ""
	}
	sh.ownNumber = false
	switch {
	case bearer != nil && bearer != sh && bearer.first != sh && sh.first != bearer:
		r.reused = append(r.reused, reuse{sh, number, sh.number, at})
		return
	case sh.number != "" && !strings.EqualFold(sh.number, number) && !amending:
		r.report("renumbered", at, fmt.Sprintf("%s bears the number %s", sh.label, sh.number), sh).
			note("given here", sh.numberAt).note("that one stays; to correct a slip write: amend " + sh.label + ": neg " + number)
		return
	case sh.number != "" && amending && !strings.EqualFold(sh.number, number):
		was := strings.ToLower(sh.number)
		delete(r.bearers, was)
		defer r.freed(was)
		sh.history = append(sh.history, record.Change{Was: "neg " + sh.number, Now: "neg " + number, How: "amended", Place: placeOf(at)})
	}
	sh.number, sh.numberAt, sh.id = number, at, number
	r.bearers[key] = sh
	r.byLabel[key] = sh
}

// wholeNegatives gives all exposures on one sheet of film its number and its sleeve, on whichever
// the lines put them: it is one negative, and called by its number is its first exposure.
func (r *resolver) wholeNegatives() {
	for _, sh := range slices.Backward(r.sheets) {
		if first := sh.first; first != nil {
			first.share(sh)
		}
	}
	for _, sh := range r.sheets {
		if first := sh.first; first != nil {
			if sh.share(first); sh.number == first.number {
				sh.id = sh.entered()
			}
		}
	}
}

// share takes over number and sleeve from another exposure of the sheet of film, where none are known.
func (sh *sheet) share(other *sheet) {
	if sh.number == "" && other.number != "" {
		sh.number, sh.numberAt, sh.id = other.number, other.numberAt, other.number
		sh.ownNumber, sh.fieldNumber = other.ownNumber, other.fieldNumber
	}
	if sh.filed.sleeve == "" {
		sh.filed.sleeve, sh.filed.sleeveAt = other.filed.sleeve, other.filed.sleeveAt
	}
}

// reuse is a number that was given to a second negative. A later amendment of one of the
// two settles it.
type reuse struct {
	sheet       *sheet
	number, was string // what it was given, and what it bore
	at          source.Span
}

// freed gives a number that was taken from a negative to the one that was given it too.
func (r *resolver) freed(number string) {
	for _, u := range r.reused {
		if strings.EqualFold(u.number, number) && u.sheet.number == "" && u.was == "" {
			r.number(u.sheet, u.number, u.at, false)
			return
		}
	}
}

// secondGift is a number that was given to a sheet though another bears it, and that no line settles.
type secondGift struct {
	number        string
	sheet, bearer *sheet
	at            source.Span
}

// stillReused reports the numbers that stand given twice once all is read.
func (r *resolver) stillReused() {
	for _, u := range r.reused {
		if bearer := r.bearers[strings.ToLower(u.number)]; bearer != nil && bearer != u.sheet && u.sheet.number == u.was {
			r.givenTwice = append(r.givenTwice, secondGift{u.number, u.sheet, bearer, u.at})
			is := bearer.label
			if strings.EqualFold(is, u.number) {
				is = "a sheet logged above"
			}
			r.report("number-reused", u.at, fmt.Sprintf("%s is %s already", u.number, is), u.sheet, bearer).note("given here", bearer.numberAt)
		}
	}
}

// filled is the labels that a notebook loads with film or says what is in: those are
// holders, whatever they look like.
func filled(b *book) map[string]bool {
	all := map[string]bool{}
	for _, st := range b.Statements {
		if st.Word == lang.Load || st.Word == lang.HolderWord {
			for _, l := range st.Labels {
				all[strings.ToLower(l.Text)] = true
			}
		}
	}
	return all
}

// yearly is the number of a negative that a label is, a year and a count, "" where it is
// none: 86-041, 1986-041, 78-1, #83-114, 84/17.
func yearly(label string) string {
	number := strings.TrimPrefix(label, "#")
	year, count, cut := strings.Cut(strings.Replace(number, "/", "-", 1), "-")
	figures := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	if cut && (len(year) == 2 || len(year) == 4) && figures(year) && figures(count) {
		return number
	}
	return ""
}

// plate is a year and a count however they are spelled: 84-17, 84/17, 1984-017.
func plate(number string) string {
	year, count, _ := strings.Cut(strings.Replace(number, "/", "-", 1), "-")
	return year[len(year)-2:] + "-" + strings.TrimLeft(count, "0")
}

// labelled gives a sheet the number that it is logged under, a year and a count: 07-012.
// Where another bears it, as the picture of a later day under an old label would, the later
// one has none; nor has what is loaded as a holder is.
func (r *resolver) labelled(sh *sheet) {
	number := yearly(sh.label)
	if number == "" || sh.number != "" || r.filled[strings.ToLower(sh.label)] {
		return
	}
	if year, _, slashed := strings.Cut(number, "/"); slashed && (len(sh.outing.iso) < len("1984") || !strings.HasSuffix(sh.outing.iso[:len("1984")], year)) {
		return // a day of a month, or two sides
	}
	if other := r.spelled[plate(number)]; other == nil {
		if r.spelled == nil {
			r.spelled = map[string]*sheet{}
		}
		r.spelled[plate(number)] = sh
	} else if number != yearly(other.label) {
		r.report("number-reused", sh.at, fmt.Sprintf("%s and %s may be one number, and are taken for two", number, other.label), sh, other).
			note("it was logged here", other.at).note("one spelling for all of a year's tells them apart; to the same sheet a line adds by the same label").Severity = diag.Warning
	}
	const counted = 3 // figures: nobody's holders are so many
	bearer := r.bearers[strings.ToLower(number)]
	if bearer == nil {
		r.number(sh, number, sh.at, false)
		sh.ownNumber = sh.number != ""
	} else if _, count, _ := strings.Cut(strings.Replace(number, "/", "-", 1), "-"); len(count) >= counted && bearer.outing != sh.outing && bearer.ownNumber {
		f := r.report("number-reused", sh.at, fmt.Sprintf("%s was the number of a sheet of another day", number), sh, bearer)
		f.Severity = diag.Warning
		f.note("it was logged here", bearer.at).note("one of the two may be mistyped: this sheet has no number until then")
	}
}

// numbered is a negative's number in its parts: what comes before its last run
// of figures, and that run.
type numbered struct {
	prefix string
	n      int
	width  int
	ok     bool
}

func series(number string) numbered {
	start := len(number)
	for start > 0 && number[start-1] >= '0' && number[start-1] <= '9' && len(number)-start < 9 {
		start--
	}
	n, err := strconv.Atoi(number[start:])
	return numbered{number[:start], n, len(number) - start, err == nil}
}

// at is another number of the series.
func (s numbered) at(n int) string { return fmt.Sprintf("%s%0*d", s.prefix, s.width, n) }

// filedOf writes what is known of a dry negative.
func (g *gatherer) filedOf(sh *sheet, rs *record.Sheet) {
	rs.Sleeve = g.sleeveOf(sh)
	g.measuredOn(sh, rs)
	for _, st := range sh.filed.prints {
		rs.Prints = append(rs.Prints, lineOf(st))
	}
	for _, st := range sh.filed.results {
		rs.Results = append(rs.Results, lineOf(st))
	}
}

// sleeveOf is where a negative lies, as that sleeve was spelled first.
func (g *gatherer) sleeveOf(sh *sheet) string {
	name := evenly(sh.filed.sleeve)
	if name == "" {
		return ""
	}
	key := sleeveKey(name)
	if first, known := g.sleeves[key]; known {
		return first
	}
	g.sleeves[key] = name
	return name
}

// numbering looks the season's numbers over.
func (g *gatherer) numbering() {
	out := &g.out.Negatives
	filed := false
	for _, sh := range g.season.sheets {
		filed = filed || sh.filed.sleeve != ""
		if sh.number == "" || sh.first != nil && sh.first.number == sh.number {
			continue
		}
		out.Numbered = append(out.Numbered, g.sheet[sh])
	}
	order := byNumber(out.Numbered)
	slices.SortStableFunc(out.Numbered, func(a, b *record.Sheet) int { return order(a.Number, b.Number) })
	for _, u := range g.givenTwice {
		out.Twice = append(out.Twice, record.TwiceNote{Number: u.number, Sheet: g.sheet[u.sheet], Bearer: g.sheet[u.bearer], Place: placeOf(u.at)})
	}
	g.nextFree()
	g.leftOut()
	for _, u := range g.unlogged {
		out.Unlogged = append(out.Unlogged, record.UnloggedNote{Number: u.label, Why: "a " + string(u.st.Word) + " line names it", Place: placeOf(u.at)})
	}
	for _, sh := range g.season.sheets {
		if !sh.wasDeveloped() || sh.isUnused() {
			continue
		}
		if sh.number == "" && len(out.Numbered) > 0 {
			out.Without = append(out.Without, g.sheet[sh])
		}
		if sh.filed.sleeve == "" && filed {
			out.Unfiled = append(out.Unfiled, g.sheet[sh])
		}
	}
}

// byNumber orders numbers: their series by the day on which the first of each was
// exposed, since the prefix is often the year and 86 was before 03, and those without
// a day last; in a series by the count.
func byNumber(sheets []*record.Sheet) func(a, b string) int {
	const never = "~" // behind every date
	began := map[string]string{}
	for _, sh := range sheets {
		if sh.Number == "" {
			continue
		}
		prefix := strings.ToLower(series(sh.Number).prefix)
		day := never
		if sh.Outing != nil && sh.Outing.ISO != "" {
			day = sh.Outing.ISO
		}
		if first, ok := began[prefix]; !ok || day < first {
			began[prefix] = day
		}
	}
	return func(a, b string) int {
		x, y := series(a), series(b)
		return cmp.Or(cmp.Compare(began[strings.ToLower(x.prefix)], began[strings.ToLower(y.prefix)]), naturally(x.prefix, y.prefix), cmp.Compare(x.n, y.n), plainly(a, b))
	}
}

// ending is the end of a series: its highest number, whatever names it, and when the
// series was last used.
type ending struct {
	top  numbered
	last string // the latest day of a sheet that bears one of its numbers, "" not known
	nth  int    // of all sheets, the last that bears one
}

// nextFree is the number behind the highest of each series in use. The one that was used
// on the latest day is first; of those of one day or of none the one whose prefix is the
// later year, else the one that is met last.
func (g *gatherer) nextFree() {
	of := map[string]*ending{}
	for i, sh := range g.season.sheets {
		s := series(sh.number)
		if sh.number == "" || !s.ok {
			continue
		}
		key := strings.ToLower(s.prefix)
		if of[key] == nil {
			of[key] = &ending{top: s}
		}
		e := of[key]
		e.nth, e.last = i, max(e.last, sh.outing.iso)
		if s.n > e.top.n {
			e.top = s
		}
	}
	for _, u := range g.unlogged {
		s := series(u.label)
		if e := of[strings.ToLower(s.prefix)]; e != nil && s.ok && s.n > e.top.n {
			e.top = s
		}
	}
	out := &g.out.Negatives
	for _, e := range slices.SortedFunc(maps.Values(of), func(a, b *ending) int {
		return cmp.Or(cmp.Compare(b.last, a.last), cmp.Compare(yearOf(b.top.prefix), yearOf(a.top.prefix)), cmp.Compare(b.nth, a.nth))
	}) {
		out.Series = append(out.Series, record.NumberSeries{Next: e.top.at(e.top.n + 1), After: e.top.at(e.top.n)})
	}
}

// yearOf is the year that a prefix is, 0 where it is none: 95-, 1995-, 03-. There were no
// years of two figures before 1940 that anybody numbers now.
func yearOf(prefix string) int {
	year, sign := strings.CutSuffix(prefix, "-")
	n, err := strconv.Atoi(year)
	switch {
	case !sign || err != nil || len(year) != 2 && len(year) != 4:
		return 0
	case len(year) == 4:
		return n
	case n < 40:
		return 2000 + n
	}
	return 1900 + n
}

// mostListed is how many numbers on end that are left out are listed one by one.
const mostListed = 5

// leftOut is the numbers between two of a series that no entry bears.
func (g *gatherer) leftOut() {
	out := &g.out.Negatives
	for i := 1; i < len(out.Numbered); i++ {
		a, b := series(out.Numbered[i-1].Number), series(out.Numbered[i].Number)
		if !a.ok || !b.ok || !strings.EqualFold(a.prefix, b.prefix) || b.n-a.n < 2 || b.n-a.n > 100 {
			continue
		}
		var left []int
		for n := a.n + 1; n < b.n; n++ {
			if number := a.at(n); !slices.ContainsFunc(g.unlogged, func(u unlogged) bool { return strings.EqualFold(u.label, number) }) {
				left = append(left, n)
			}
		}
		why := "left out between " + out.Numbered[i-1].Number + " and " + out.Numbered[i].Number
		for len(left) > 0 {
			n := 1
			for n < len(left) && left[n] == left[n-1]+1 {
				n++
			}
			if n > mostListed {
				out.Unlogged = append(out.Unlogged, record.UnloggedNote{Number: a.at(left[0]) + " to " + a.at(left[n-1]), Why: why})
				left = left[n:]
				continue
			}
			for _, number := range left[:n] {
				out.Unlogged = append(out.Unlogged, record.UnloggedNote{Number: a.at(number), Why: why})
			}
			left = left[n:]
		}
	}
}

// twins finds the duplicates, which show the same alike: the same scene, film, lens,
// filters, extension, reading and settings.
func (g *gatherer) twins() {
	type alike struct {
		scene *scene
		set   string
	}
	groups := map[alike][]*sheet{}
	for _, sh := range g.season.sheets {
		if sh.scene != nil && !sh.isUnused() && sh.aperture.known && sh.time.known {
			key := alike{sh.scene, setUp(sh)}
			groups[key] = append(groups[key], sh)
		}
	}
	for _, group := range groups {
		for _, sh := range group {
			for _, other := range group {
				if other != sh && other.first != sh && sh.first != other && takenAlike(sh, other) {
					g.sheet[sh].Twins = append(g.sheet[sh].Twins, g.sheet[other])
				}
			}
		}
	}
}

// setUp is everything in which duplicates agree.
func setUp(sh *sheet) string {
	all := []string{filmName(sh), givenTime(sh.time.v), apertureText(sh.aperture.v), trim(sh.extra)}
	for _, u := range sh.filters {
		all = append(all, u.name)
	}
	return strings.ToLower(strings.Join(all, "|"))
}

// takenAlike reports whether nothing is known by which two sheets differ in lens, extension or
// reading.
func takenAlike(a, b *sheet) bool {
	if a.lens.known && b.lens.known && a.lens.v != b.lens.v {
		return false
	}
	if a.extension.v != b.extension.v || a.scale.v != b.scale.v || a.focus.v != b.focus.v {
		return false
	}
	if a.reading == nil || b.reading == nil || a.reading == b.reading {
		return true
	}
	return a.reading.kind == b.reading.kind && slices.EqualFunc(a.reading.areas, b.reading.areas, func(x, y area) bool {
		return x.asEV == y.asEV && x.ev == y.ev && x.av == y.av && x.seconds == y.seconds && x.placed == y.placed && x.zone == y.zone
	})
}

func sameFilters(a, b *sheet) bool {
	return slices.EqualFunc(a.filters, b.filters, func(x, y *use) bool { return strings.EqualFold(x.name, y.name) })
}
