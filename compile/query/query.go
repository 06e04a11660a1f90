// Package query finds sheets by the notation's own terms and by words. Index
// gives every sheet of a finished record its terms, each with the ways to write
// it; a query then only looks spellings up and joins sets, so that a page with
// the same table finds the same sheets.
//
// A query is terms and words between blanks or commas, all of which a sheet must
// fit: R25 N-1 brickworks undeveloped. The rules, which the page of the record
// follows to the letter:
//
//  1. Text is folded (see Fold) and split at blanks, commas and semicolons. What
//     stands in "quotation marks" is words, each to be met exactly.
//  2. From left to right, the longest run of up to eight items that spells a term
//     is that term.
//  3. not and no turn what follows; or joins it with what stands before it, or
//     being closer than and; and says nothing.
//     A folder on the way to a sheet's notebook is a word of it, and "in" or "folder"
//     before its name is a term.
//  4. A date is a year, a month or a day (2026, 2026-10, 2026-10-04), a range has
//     two dots (2026-10..2026-11, ..2026-10-15). A sheet without a whole date has
//     none.
//     A run of negatives' numbers has two dots or "to" between the first and the last.
//  5. Any other item is the beginning of a word or of a spelling. An item with a
//     figure in it is not: f8 is no beginning of f8½. It must be whole. A full stop
//     at its end may also be missing: fol. is fol, too.
//  6. An item that begins nothing is split where it is neither letter nor figure,
//     and its parts are looked up as 5 has it, all to be met. What is still
//     unknown fits no sheet.
package query

import (
	"strconv"
	"strings"
	"unicode"

	"notchbook/compile/record"
	"notchbook/lang/pattern"
)

// Book is a season's index made ready to be asked.
type Book struct {
	finder  *record.Finder
	spelled map[string][]int // spelling of a term: indices into finder.Terms
	all     []spelling
}

// spelling is a way to write a term or a word.
type spelling struct {
	text string
	of   *record.Findable
}

// Open makes an index ready.
func Open(f *record.Finder) *Book {
	b := &Book{finder: f, spelled: map[string][]int{}}
	for i := range f.Terms {
		for _, s := range f.Terms[i].Spelled {
			b.spelled[s] = append(b.spelled[s], i)
			b.all = append(b.all, spelling{s, &f.Terms[i]})
		}
	}
	for i := range f.Words {
		b.all = append(b.all, spelling{f.Words[i].Name, &f.Words[i]})
	}
	return b
}

// Answer is the sheets that a query fits and how it was read.
type Answer struct {
	Sheets []int    // indices into Season.Sheets, in order
	Read   []string // what the query asks for, one text a condition
	Each   []int    // of each of these, how many sheets fit it alone
	Lost   []string // items of which the season knows nothing
}

// longest is how many items a spelling may have.
const longest = 8

// Find reads a query and gives the sheets that fit. An empty query fits all.
func (b *Book) Find(text string) Answer {
	r := reader{Book: b, items: split(text)}
	fits := newSet(b.finder.Sheets)
	fits.fill()
	for len(r.items) > 0 {
		conditions := len(r.answer.Read)
		one := r.alternatives()
		if len(r.answer.Read) > conditions {
			r.answer.Each = append(r.answer.Each, len(one.members()))
		}
		fits.and(one)
	}
	r.answer.Sheets = fits.members()
	return r.answer
}

// item is a word of the query.
type item struct {
	text   string
	quoted bool
}

var items = pattern.Lazily(`"[^"]*"?|[^` + blanks + `,;"]+`)

// blanks are the characters that count as blanks.
const blanks = `\x{0}-\x{20}\x{85}\x{a0}\x{1680}\x{2000}-\x{200f}\x{2028}-\x{202f}\x{205f}\x{2060}\x{3000}\x{feff}`

func split(text string) []item {
	var all []item
	for _, m := range items().FindAllString(Fold(text), -1) {
		if m[0] != '"' {
			all = append(all, item{text: m})
			continue
		}
		for _, w := range parts(m) {
			all = append(all, item{w, true})
		}
	}
	return all
}

// parts are the runs of letters and figures of a text.
func parts(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
}

// reader reads one query.
type reader struct {
	*Book
	items  []item
	answer Answer
}

func (r *reader) is(word ...string) bool {
	for _, w := range word {
		if len(r.items) > 0 && !r.items[0].quoted && r.items[0].text == w {
			return true
		}
	}
	return false
}

// alternatives reads one condition and those that "or" joins to it.
func (r *reader) alternatives() *set {
	fits, read := r.condition()
	for r.is("or") {
		r.items = r.items[1:]
		other, more := r.condition()
		if more == "" {
			continue
		}
		if read == "" {
			fits, read = other, more
			continue
		}
		fits.or(other)
		read += " or " + more
	}
	if read != "" {
		r.answer.Read = append(r.answer.Read, read)
	}
	return fits
}

// joining are the words that say how conditions belong together.
var joining = []string{"and", "or", "not", "no"}

// condition reads one condition with what turns it. Where nothing is left to be
// turned, it asks for nothing.
func (r *reader) condition() (fits *set, read string) {
	turned := false
	for r.is("and", "not", "no") && r.phrase() == 0 {
		turned = turned != !r.is("and")
		r.items = r.items[1:]
	}
	if len(r.items) == 0 || r.is("or") {
		fits = newSet(r.finder.Sheets)
		fits.fill()
		return fits, ""
	}
	fits, read = r.one()
	if turned {
		fits.turn()
		read = "not " + read
	}
	return fits, read
}

// phrase is how many of the next items spell a term; 0 none.
func (r *reader) phrase() int {
	for n := min(longest, len(r.items)); n > 0; n-- {
		if r.spelled[r.joined(n)] != nil {
			return n
		}
	}
	return 0
}

// joined is the next n items as one text, "" where one of them is quoted.
func (r *reader) joined(n int) string {
	var all []string
	for _, it := range r.items[:n] {
		if it.quoted {
			return ""
		}
		all = append(all, it.text)
	}
	return strings.Join(all, " ")
}

// one reads a term, a date or a word.
func (r *reader) one() (*set, string) {
	fits := newSet(r.finder.Sheets)
	if run, read, n := r.run(); n > 1 {
		r.items = r.items[n:]
		return run, read
	}
	if n := r.phrase(); n > 0 {
		var names []string
		for _, i := range r.spelled[r.joined(n)] {
			fits.add(r.finder.Terms[i].Sheets)
			names = append(names, r.finder.Terms[i].Name)
		}
		r.items = r.items[n:]
		return fits, strings.Join(names, " or ")
	}
	if run, read, n := r.run(); n > 0 {
		r.items = r.items[n:]
		return run, read
	}
	next := r.items[0]
	r.items = r.items[1:]
	if next.quoted {
		return r.exactly(next.text)
	}
	if from, to, ok := dates(next.text); ok {
		return r.between(from, to), next.text
	}
	known := r.begin(fits, next.text)
	if short, ok := strings.CutSuffix(next.text, "."); ok && short != "" && r.begin(fits, short) || known {
		return fits, begun(next.text)
	}
	return r.pieces(next.text)
}

// run reads a run of negatives' numbers, 86-041..86-044 or 86-041 to 86-044, and says how
// many items it is; 0 where there is none.
func (r *reader) run() (*set, string, int) {
	if _, _, days := dates(r.items[0].text); days {
		return nil, "", 0
	}
	first, last, ok := strings.Cut(r.items[0].text, "..")
	n := 1
	if !ok && len(r.items) > 2 && r.items[1].text == "to" {
		first, last, n = r.items[0].text, r.items[2].text, 3
	}
	for _, it := range r.items[:min(n, len(r.items))] {
		if it.quoted {
			return nil, "", 0
		}
	}
	prefix, from := numberOf(first)
	other, to := numberOf(strings.TrimPrefix(last, "."))
	if prefix == "" || prefix != other || from > to {
		return nil, "", 0
	}
	fits := newSet(r.finder.Sheets)
	for i := range r.finder.Terms {
		if number, is := strings.CutPrefix(r.finder.Terms[i].Name, "negative "); is {
			if p, at := numberOf(Fold(number)); p == prefix && from <= at && at <= to {
				fits.add(r.finder.Terms[i].Sheets)
			}
		}
	}
	return fits, first + " to " + strings.TrimPrefix(last, "."), n
}

// numberOf is what comes before the last figures of a negative's number, at most nine, and
// these; "" where either is missing.
func numberOf(text string) (prefix string, n int) {
	m := series().FindStringSubmatch(text)
	if m == nil {
		return "", 0
	}
	n, _ = strconv.Atoi(m[2])
	return m[1], n
}

var series = pattern.Lazily(`^(.*[^0-9])([0-9]{1,9})$`)

// begun marks a beginning as one.
func begun(text string) string {
	if strings.ContainsAny(text, "0123456789") {
		return text
	}
	return text + "…"
}

// exactly is the sheets near one word.
func (r *reader) exactly(word string) (*set, string) {
	fits := newSet(r.finder.Sheets)
	known := false
	for i := range r.finder.Words {
		if w := &r.finder.Words[i]; w.Name == word {
			fits.add(w.Sheets)
			known = true
		}
	}
	if !known {
		r.answer.Lost = append(r.answer.Lost, word)
	}
	return fits, `"` + word + `"`
}

// begin adds the sheets of everything that is spelled with a beginning, and
// reports whether there is any.
func (r *reader) begin(fits *set, beginning string) bool {
	known := false
	whole := strings.ContainsAny(beginning, "0123456789")
	for _, s := range r.all {
		if s.text == beginning || !whole && strings.HasPrefix(s.text, beginning) {
			fits.add(s.of.Sheets)
			known = known || len(s.of.Sheets) > 0
		}
	}
	return known
}

// pieces is the sheets near all parts of an item that is no word as it stands.
func (r *reader) pieces(text string) (*set, string) {
	fits := newSet(r.finder.Sheets)
	all := parts(text)
	if len(all) < 2 {
		r.answer.Lost = append(r.answer.Lost, text)
		return fits, text
	}
	fits.fill()
	var read []string
	for _, part := range all {
		read = append(read, begun(part))
		one := newSet(r.finder.Sheets)
		if !r.begin(one, part) {
			r.answer.Lost = append(r.answer.Lost, part)
		}
		fits.and(one)
	}
	return fits, strings.Join(read, " ")
}

// date is a year, a month or a day, or two of them as a range.
var (
	date   = pattern.Lazily(`^\d{4}(-\d\d(-\d\d)?)?$`)
	ranged = pattern.Lazily(`^(\d{4}(?:-\d\d(?:-\d\d)?)?)?\.\.\.?(\d{4}(?:-\d\d(?:-\d\d)?)?)?$`)
)

// dates is the first and the last of a date's or a range's days, each as far as
// it is said.
func dates(text string) (from, to string, ok bool) {
	if date().MatchString(text) {
		return text, text, true
	}
	m := ranged().FindStringSubmatch(text)
	if m == nil || m[1] == "" && m[2] == "" {
		return "", "", false
	}
	return m[1], m[2], true
}

// between is the sheets of the days from one to another, both included; "" is
// open.
func (r *reader) between(from, to string) *set {
	fits := newSet(r.finder.Sheets)
	for _, d := range r.finder.Dates {
		if d.Name >= from && (to == "" || d.Name[:min(len(to), len(d.Name))] <= to) {
			fits.add(d.Sheets)
		}
	}
	return fits
}
