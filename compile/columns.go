package compile

import (
	"bytes"
	"math/bits"
	"slices"
	"strings"
	"unicode"

	"notchbook/compile/handbook"
	"notchbook/lang"
	"notchbook/lang/pattern"
	"notchbook/lang/source"
)

// A row of ditto marks copies the row above, but for its other cells: what a dash stands under is
// not there, and what a word stands under that is not understood is not as above. Which column a cell
// is in is told by where it stands on the line, as a typewriter sets it.

// kind is what a cell holds that a copy has too unless its own cell is empty.
type kind uint8

const (
	ofFilter kind = 1 << iota
	ofDevelopment
	ofExtension
	ofMovement
	ofZone
	ofRest // what every sheet has: a dash in its place may say that it stayed, or that nobody wrote it down
)

// row is the cells of a sheet's line, and what parts them.
type row struct {
	cells  []cell
	parted string // a tab, blanks, a bar, a comma or a semicolon
}

// listed reports whether commas or semicolons part a row, as they do any words.
func (r *row) listed() bool { return r.parted == "," || r.parted == ";" }

// cell is one of a row, between columns of the page.
type cell struct {
	from, to int
	text     string
	holds    kind
	at       source.Span
	terms    []*lang.Term
	gives    gift
	says     bool  // a term that is no mere word
	joined   bool  // one blank sets it apart from the cell before it
	repeats  *cell // what a mark stands for, in whatever row above
}

// gift is what of a sheet a cell says, or the one above it where it is a mark, of that which every sheet has one of.
type gift uint8

const (
	aReading gift = 1 << iota
	anAperture
	aTime
	aLens
	aFilm
)

// rowOf is a sheet's row, each mark and dash in it holding what the one above it does.
func (t *reader) rowOf(sh *sheet) *row {
	if sh.row == nil {
		sh.row = t.parted(sh.lines[0])
		if sh.row.parted == "|" && t.last() != nil && t.last() != sh {
			sh.row.barsIn(t.rowOf(t.last()))
		}
		if above := sh.sameAs; above != nil && slices.ContainsFunc(sh.row.cells, cell.stands) {
			over := t.rowOf(above)
			sh.row.beginsWords(over)
			for i, up := range sh.row.under(over) {
				if c := &sh.row.cells[i]; up >= 0 && (c.stands() || over.cells[up].holds == ofZone && c.holds == 0 && c.isZone()) {
					c.holds, c.gives = over.cells[up].holds, over.cells[up].gives
					c.repeats = over.cells[up].itself()
				} else if up >= 0 && over.cells[up].holds == ofDevelopment && c.shift() != nil {
					c.holds = ofDevelopment // +1 below N
				}
			}
		}
	}
	return sh.row
}

// beginsWords takes a filter's short name for the first of the words behind it, as of what is seen, where a mark stands in
// the column of the filters: A yard   ".
func (r *row) beginsWords(above *row) {
	for i := range r.cells {
		words := r.cells[i]
		cells := slices.Clone(r.cells)
		if i+1 < len(cells) && cells[i+1].joined {
			next := &cells[i+1]
			words.to, words.at, words.terms = next.to, words.at.Cover(next.at), slices.Concat(words.terms, next.terms)
			words.text, cells = words.at.Text(), slices.Delete(cells, i+1, i+2)
		}
		if words.nameAhead() == nil {
			continue
		}
		words.holds, words.says = 0, false
		cells[i] = words
		joined := &row{cells, r.parted}
		for n, up := range joined.under(above) {
			if up >= 0 && n != i && above.cells[up].holds&ofFilter != 0 && cells[n].copies() {
				r.cells = cells
				return
			}
		}
	}
}

// nameAhead is the term with which the words of a cell begin that is as short as a filter's sign and nothing but one, nil
// for none.
func (c cell) nameAhead() *lang.Term {
	const short = 2 // letters or figures
	if c.holds != ofFilter || len(c.terms) < 2 || c.terms[0].Span.Start != c.at.Start || c.terms[0].Span.End-c.at.Start > short {
		return nil
	}
	for _, term := range c.terms[1:] {
		if _, words := term.Kind.(*lang.Loose); !words {
			return nil
		}
	}
	return c.terms[0]
}

// stands reports whether a cell is a mark or a dash.
func (c cell) stands() bool { return c.isEmpty() || lang.IsDittoMark(c.text) }

// isEmpty reports whether a cell is a dash, or another sign for nothing.
func (c cell) isEmpty() bool {
	return isDash(c.text) || forNothing[strings.ToLower(c.text)]
}

// isDash reports whether a text is a dash.
func isDash(text string) bool { return text != "" && strings.Trim(text, "-–—−") == "" }

// isSign reports whether a cell is nothing but a sign, which is no mark: in a row that lacks a setting it may stand
// for that.
func (c cell) isSign() bool {
	return c.text != "" && !c.says && !lang.IsDittoMark(c.text) && !strings.ContainsFunc(c.text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
}

// maybeEmpty reports whether a cell may be a sign for nothing, in whatever tongue.
func (c cell) maybeEmpty() bool {
	return c.text != "" && (c.isEmpty() || c.isDrawnIn() || !strings.ContainsFunc(c.text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) && !lang.IsDittoMark(c.text) ||
		perhapsNothing[strings.ToLower(strings.TrimRight(c.text, "."))])
}

// named is a cell as a message calls it.
func (c cell) named() string {
	if isDash(c.text) {
		return "the dash"
	}
	return quote(c.text)
}

// copies reports whether a mark begins in a cell.
func (c cell) copies() bool {
	return slices.ContainsFunc(c.terms, func(term *lang.Term) bool {
		_, same := term.Kind.(*lang.Same)
		return same && term.Span.Start >= c.at.Start
	})
}

// drops reports whether a cell says by a word of its own what is off.
func (c cell) drops() bool {
	return slices.ContainsFunc(c.terms, func(term *lang.Term) bool { _, drop := term.Kind.(*lang.Drop); return drop })
}

// shift is a cell's stops with their sign and nothing else, nil where it is no such.
func (c cell) shift() *lang.Number {
	if len(c.terms) != 1 || strings.IndexAny(c.text, "+-−") != 0 {
		return nil
	}
	k, ok := c.terms[0].Kind.(*lang.Amount)
	if !ok {
		return nil
	}
	return k.Stops
}

// isDrawnIn reports whether a cell says that the bellows are in.
func (c cell) isDrawnIn() bool { return forInfinity[strings.ToLower(c.text)] }

// isZone reports whether a cell is a zone by itself, as one is written in its own column. X may be
// a cross.
func (c cell) isZone() bool {
	_, ok := c.zone()
	return ok && c.text != "X"
}

// needed is how many cells of a row say something, with the first one.
func (r *row) needed() (n int) {
	for i := range r.cells {
		if c := &r.cells[i]; i == r.first() || c.holds != 0 {
			n++
		}
	}
	return n
}

// itself is the cell that a mark repeats, or the cell where it is none.
func (c *cell) itself() *cell {
	if c.repeats != nil && !c.isEmpty() {
		return c.repeats
	}
	return c
}

// maybeZone reports whether a cell may be a zone, or repeats one, that is not read as that of a reading.
func (c cell) maybeZone() bool { return c.itself().holds == 0 && c.itself().isZone() }

// zone is the zone that a cell is and nothing else, in capitals or by its word.
func (c cell) zone() (zone float64, ok bool) {
	if c.text == "" || strings.IndexByte("ivx0123456789", c.text[0]) >= 0 {
		return 0, false
	}
	all := zonesIn(c.text)
	if len(all) != 1 || len(all[0].zones) != 1 || all[0].sure < zoneSaid {
		return 0, false
	}
	return all[0].zones[0], strings.Trim(c.text[:all[0].from]+c.text[all[0].to:], ".()[]") == ""
}

// Signs for nothing in a column, and in that of the bellows for far away (common practice, no source).
var (
	forNothing     = lang.SetOf("none nil n/a n.a. ./. ∅ ø")
	perhapsNothing = lang.SetOf("x no without w/o null zero off out entf entfällt leer kein keine keiner keines ohne aus ab weg nix aucun aucune sans néant nessuno niente")
	forInfinity    = lang.SetOf("∞ inf inf. infinity")
)

// mayBeStop reports whether a cell is f16 1/2: with a time elsewhere, a mark's too, it lies between
// two stops.
func (c cell) mayBeStop() bool {
	f, part, two := cutLast(c.text)
	return two && isPart(part) && f[0]|0x20 == 'f'
}

// parted parts a sheet's line at its tabs, at several blanks, at bars or at commas.
func (t *reader) parted(st *lang.Statement) *row {
	body, text := st.Body.Text(), st.Body.File.Text
	begin := 1 + bytes.LastIndexByte(text[:st.Body.Start], '\n')
	begin += 1 + bytes.LastIndexByte(text[begin:st.Body.Start], '\r')
	column := func(offset int) (n int) {
		for _, c := range string(text[begin : st.Body.Start+offset]) {
			if n++; c == '\t' {
				n += -n & 7
			}
		}
		return n
	}
	r := &row{parted: ","}
	for _, sign := range [...]string{"  ", "\t", "|"} {
		if strings.Contains(strings.TrimSpace(body), sign) && (sign != "|" || barsPart(body)) {
			r.parted = sign
		}
	}
	all := t.together(st.Terms())
	if r.parted == "," && strings.Count(body, ";") > 1 {
		r.parted = ";"
	}
	for from := 0; from <= len(body); {
		to := strings.Index(body[from:], r.parted)
		if to < 0 {
			to = len(body) - from
		}
		said := strings.TrimSpace(body[from : from+to])
		if bare := strings.TrimRight(said, ","); bare != "" {
			said = bare // columns with commas as well
		}
		start := from + strings.Index(body[from:], said)
		from += to + len(r.parted)
		if said == "" && r.parted == "  " {
			continue
		}
		whole := []source.Span{st.Body.Sub(start, start+len(said))}
		if r.parted == "  " {
			whole = pieces(all, whole[0])
		}
		for n, at := range whole {
			c := cell{text: at.Text(), from: column(at.Start - st.Body.Start), to: column(at.End - st.Body.Start), at: at, joined: n > 0}
			for _, term := range all {
				if term.Span.Start < at.End && at.Start < term.Span.End && !term.Struck {
					c.terms = append(c.terms, term)
				}
			}
			if n := len(c.text) - 1; n > 0 && c.text[0] == '"' && strings.IndexByte(c.text[1:], '"') == n-1 && !c.copies() {
				c.text = c.text[1:n] // as a spreadsheet has it
			}
			if bare := noteMark().ReplaceAllString(c.text, ""); bare != "" {
				c.text = bare
			}
			t.fill(&c)
			r.cells = append(r.cells, c)
		}
	}
	return r
}

// noteMark is what behind a cell refers to a note below: -*, xx 1).
var noteMark = pattern.Lazily(`[*†‡§]+$| [0-9]\)$`)

// together is the terms of a line, each colour with its thing: Red gate.
func (t *reader) together(terms []lang.Term) []*lang.Term {
	all := make([]*lang.Term, 0, len(terms))
	for i := 0; i < len(terms); i++ {
		term, took := &terms[i], 1
		if whole, n := t.colouredThing(terms[i:]); n > 0 {
			term, took = whole, n
		}
		all = append(all, term)
		i += took - 1
	}
	return all
}

// pieces parts a cell where one blank alone sets words and signs apart from what it says beside them, as where a column is
// full: EV 10½ xx, f16 -, Mill ". A dash that words follow leads to a remark.
func pieces(all []*lang.Term, whole source.Span) []source.Span {
	text, cuts := whole.File.Text, []int{whole.Start}
	for i, term := range all {
		at := term.Span
		if at.Start < whole.Start || at.Start >= whole.End || at.Start > whole.Start && text[at.Start-1] != ' ' || term.Struck {
			continue
		}
		switch k := term.Kind.(type) {
		case *lang.Loose:
			if _, behind := before(all, i).(*lang.Comma); behind && liesIn(all[i-1].Span, whole) || isWeather(at.Text()) {
				continue
			}
		case *lang.Exposure:
			if at.End = behindName(k.Name, at); at.End == at.Start {
				continue
			}
		case *lang.Comma:
			if _, words := after(all, i).(*lang.Loose); words && liesIn(all[i+1].Span, whole) || len(strings.TrimSpace(at.Text())) != 1 || strings.ContainsAny(at.Text(), ",;+*") {
				continue
			}
		case *lang.Same:
			if ahead := text[cuts[len(cuts)-1]:at.Start]; !lang.IsDittoMark(at.Text()) || len(bytes.Trim(ahead, "0123456789./ ")) == 0 {
				continue // the mark of an inch
			}
		default:
			continue
		}
		cuts = append(cuts, at.Start, min(at.End, whole.End))
	}
	var parts []source.Span
	for i, from := range cuts {
		to := whole.End
		if i+1 < len(cuts) {
			to = cuts[i+1]
		}
		from += len(text[from:to]) - len(bytes.TrimLeft(text[from:to], " "))
		if said := bytes.TrimSpace(text[from:to]); len(said) > 0 {
			parts = append(parts, source.Span{File: whole.File, Start: from, End: from + len(said)})
		}
	}
	return parts
}

// behindName is where the name ends with which a term begins, its beginning where it has none: Gate EV 9.
func behindName(name []string, at source.Span) int {
	text, end := at.Text(), 0
	for _, word := range name {
		rest := strings.TrimLeft(text[end:], " ")
		if !strings.HasPrefix(rest, word) {
			return at.Start
		}
		end = len(text) - len(rest) + len(word)
	}
	return at.Start + end
}

// barsIn takes a bar between two blanks for a cell where only so a row is in the columns of the one above it: | | |.
func (r *row) barsIn(above *row) {
	for i := 0; i+1 < len(r.cells) && above.parted == r.parted && !r.fits(above); i++ {
		if c, next := r.cells[i], r.cells[i+1]; c.text == "" && next.text == "" {
			c.text, c.to, c.at = r.parted, next.to, c.at.Cover(next.at)
			r.cells = slices.Replace(slices.Clone(r.cells), i, i+2, c)
		}
	}
}

// barsPart reports whether bars stand between all that blanks set apart: else one is a mark in a cell.
func barsPart(body string) bool {
	if strings.Contains(body, "|\t|\t") || markBetween().MatchString(body) {
		return false // marks between tabs
	}
	before := true
	for said := range strings.FieldsFuncSeq(strings.ReplaceAll(body, "  ", "\t"), func(c rune) bool { return c == '\t' }) {
		barred := strings.Contains(said, "|")
		if !barred && !before {
			return false
		}
		before = barred
	}
	return true
}

// markBetween is a bar alone in a cell that semicolons part, or single commas.
var markBetween = pattern.Lazily(`(?:^|;)[ \t]*\|[ \t]*(?:;|$)|[^,],[ \t]*\|[ \t]*(?:,[^,]|$)`)

// fill gives a cell what its terms hold, and a zone of its own behind the reading nothing of that.
func (t *reader) fill(c *cell) {
	if c.isEmpty() {
		return
	}
	for _, term := range c.terms {
		switch k := term.Kind.(type) {
		case *lang.Exposure:
			if k.Zone != nil {
				if _, zone := c.zone(); zone {
					c.holds, c.says = c.holds|ofZone, true
					continue
				}
			}
			if !liesIn(term.Span, c.at) { // of several cells, of which this one says its own part
				own := lang.Within(c.text, t.names)
				for i := range own {
					t.takes(c, &own[i])
				}
				continue
			}
			if k.Zone != nil {
				c.holds |= ofZone
			}
		}
		t.takes(c, term)
	}
}

// eachSays reports at a glance whether a row that commas part says something in each of its cells, as most do.
func (t *reader) eachSays(body string) bool {
	if strings.Contains(strings.TrimSpace(body), "  ") || strings.ContainsAny(body, "\t|") {
		return false
	}
	said, dashed := false, strings.Contains(body, "--")
	for i := range t.st.Terms() {
		switch t.st.Terms()[i].Kind.(type) {
		case *lang.Comma:
			if !said {
				return false
			}
			said = false
		case *lang.Loose, *lang.Withdraw, *lang.Same:
			return false
		case *lang.Remark:
			if !said || !dashed {
				return false
			}
		default:
			said = said || !t.st.Terms()[i].Struck
		}
	}
	return said
}

// takes adds to a cell what a term of it says.
func (t *reader) takes(c *cell, term *lang.Term) {
	c.holds, c.gives = c.holds|t.held(term), c.gives|t.given(term)
	switch term.Kind.(type) {
	case *lang.Loose, *lang.Remark, *lang.Comma, *lang.Withdraw, *lang.Same:
	default:
		c.says = c.says || !isTitle(term)
	}
}

// isTitle reports whether a term is the sheet's title in quotation marks.
func isTitle(term *lang.Term) bool {
	k, ok := term.Kind.(*lang.Choose)
	return ok && strings.HasPrefix(k.Text, "scene ")
}

// given is what a term says of that which every sheet has.
func (t *reader) given(term *lang.Term) (all gift) {
	switch k := term.Kind.(type) {
	case *lang.Exposure:
		if k.EV != nil {
			all |= aReading
		}
		for _, part := range k.Parts {
			if part.Aperture != nil {
				all |= anAperture
			}
			if part.Time != nil {
				all |= aTime
			}
		}
	case *lang.Choose:
		switch what, _, _ := strings.Cut(k.Text, " "); what {
		case "lens":
			return aLens
		case "film":
			return aFilm
		}
	case *lang.FilmEI:
		return aFilm
	case *lang.Loose:
		name := strings.Join(k.Words, " ")
		if _, film := find(t.book.kit.films, name); film {
			all |= aFilm
		}
		if _, lens := find(t.book.kit.lenses, name); lens {
			all |= aLens
		}
	}
	return all
}

// held is what a term is of.
func (t *reader) held(term *lang.Term) kind {
	switch k := term.Kind.(type) {
	case *lang.Stack:
		return ofFilter
	case *lang.Drop:
		switch k.What {
		case "filter":
			return ofFilter
		case "ext", "bellows":
			return ofExtension
		case "rise", "fall", "shift", "tilt", "swing":
			return ofMovement
		}
	case *lang.N:
		return ofDevelopment
	case *lang.Extension, *lang.Magnification, *lang.Focus, *lang.Bellows:
		return ofExtension
	case *lang.Movement:
		return ofMovement
	case *lang.Placed:
		return ofZone
	case *lang.Choose:
		if !isTitle(term) {
			return ofRest
		}
	case *lang.Exposure, *lang.FilmEI:
		return ofRest
	case *lang.Loose:
		if lang.CalledElsewhere(lowered(k.Words)) {
			return ofFilter
		}
		if t.given(term) != 0 {
			return ofRest
		}
	}
	return 0
}

// under is, for each cell of a row, which one of the row above it stands under, -1 where that is
// open: by its place on the page, or its number where the rows are of as many.
func (r *row) under(above *row) []int {
	if ups := r.byPlace(above); ups != nil && !r.unlike(ups, above) {
		return ups
	}
	fits := r.fits(above)
	ups := make([]int, len(r.cells))
	for i := range ups {
		if ups[i] = -1; fits && i < len(above.cells) {
			ups[i] = i
		}
	}
	return ups
}

// fits reports whether a row is in the columns of another by their numbers, perhaps without its last ones.
func (r *row) fits(above *row) bool {
	if r.parted != above.parted || len(r.cells) != len(above.cells) && r.parted != "\t" && (r.parted != "|" || len(r.cells) > len(above.cells)) {
		return false
	}
	for i := range min(len(r.cells), len(above.cells)) {
		if r.cells[i].isUnlike(&above.cells[i]) {
			return false
		}
	}
	return true
}

// byPlace is what the cells of a row stand under on the page, nil where it is not set in the
// columns of the row above.
func (r *row) byPlace(above *row) []int {
	const near = 2 // columns
	if r.parted != above.parted || r.parted != "  " && (r.parted != "\t" || len(r.cells) == len(above.cells)) {
		return nil
	}
	ups, last := make([]int, len(r.cells)), -1
	for i, c := range r.cells {
		ups[i] = -1
		for up, over := range above.cells {
			gap := max(over.from-c.to, c.from-over.to)
			if c.text == "" || gap >= near || gap >= 0 && ups[i] >= 0 {
				continue
			}
			if ups[i] >= 0 && above.cells[ups[i]].to > c.from {
				if over.joined || c.joined {
					continue
				}
				return nil // under two of them
			}
			ups[i] = up
		}
		if ups[i] >= 0 && (ups[i] < last || ups[i] == last && !c.joined) {
			return nil
		}
		last = max(last, ups[i])
	}
	return ups
}

// unlike reports whether a cell would stand under one of what it is not.
func (r *row) unlike(ups []int, above *row) bool {
	for i, up := range ups {
		if up >= 0 && r.cells[i].isUnlike(&above.cells[up]) {
			return true
		}
	}
	return false
}

// isUnlike reports whether two cells hold other things, a time and a filter, or give other things of each sheet.
func (c *cell) isUnlike(over *cell) bool {
	return !c.mayBeNone(over) && (c.holds != 0 && over.holds != 0 && c.holds&over.holds == 0 || c.gives != 0 && over.gives != 0 && c.gives&over.gives == 0 && c.says && over.says)
}

// mayBeNone reports whether a cell is N where the one above it is a filter: the development, or short for none.
func (c *cell) mayBeNone(over *cell) bool { return c.text == "N" && over.holds == ofFilter }

// marked copies the title that a row's first mark stands under, takes off what the row has empty
// cells for, and leaves the sheet open where it cannot be told which they are, or what stands there.
func (t *reader) marked() {
	all := t.st.Terms()
	const several = 2 // marks, or cells and one more, by which every column is accounted for
	sh, marks := t.sheet, 0
	for i := range all {
		if isMark(&all[i]) {
			marks++
		}
	}
	if sh.sameAs == nil || t.amending {
		return
	}
	if marks == 0 {
		t.besideSame()
		return
	}
	if first := &all[0]; sh.title == "" && lang.IsDittoMark(first.Span.Text()) {
		sh.title = sh.sameAs.title
	}
	r, above := t.rowOf(sh), t.rowOf(sh.sameAs)
	ups := r.under(above)
	t.besideMarkedTime(r, above, ups)
	var own, empty, covered kind // what the line says, has a dash for, and has at all
	astray, dash, blank := false, "", false
	var none []cell // that say none, in a column of which nothing is known
	zoneAt := slices.IndexFunc(above.cells, cell.maybeZone)
	placed := slices.ContainsFunc(ups, func(up int) bool { return up >= 0 })
	for i, up := range ups {
		c, over := &r.cells[i], cell{}
		if up >= 0 {
			over = above.cells[up]
		}
		if len(c.terms) > 0 && c.holds == 0 && t.held(c.terms[0]) == ofFilter {
			t.passed = append(t.passed, c.terms[0].Span) // the first of words
		}
		if low := strings.ToLower(c.text); marks >= several && i < len(ups)-1 && (unexposed[low] || low == "unused") {
			t.passed = append(t.passed, c.at) // of a sheet that was set as the one above
			sh.leaveOpen("", "what "+c.named()+" says: that the sheet was not exposed, or a thing not used")
		}
		if !c.stands() {
			own |= c.holds
		} else if c.drops() && over.holds == 0 {
			none = append(none, *c)
		}
		if zoneAt >= 0 && (up == zoneAt || up < 0) && c.copies() {
			t.maybeZone = above.cells[zoneAt].itself()
		}
		needed := over.holds & (ofFilter | ofExtension | ofZone | ofRest)
		switch {
		case c.text == "":
			blank = blank || needed&(ofFilter|ofExtension) != 0
		case up < 0 && !c.says, c.isEmpty() && needed&ofRest == 0 && bits.OnesCount8(uint8(over.holds)) > 1:
			if astray = astray || up >= 0 || !placed || c.copies() || c.maybeEmpty(); (c.isEmpty() || c.maybeEmpty()) && !c.drops() {
				dash = c.named()
			}
		case c.copies():
			covered |= over.holds
		case c.mayBeNone(&over):
			sh.leaveOpen("", "whether "+quote(c.text)+" under "+quote(over.text)+" says that none was on")
		case over.holds == ofDevelopment && c.shift() != nil:
			t.wants(&lang.N{Stops: *c.shift()}, c.terms[0], "")
			covered |= ofDevelopment
			t.passed = append(t.passed, c.at)
		case c.gives&aLens != 0 && strings.Trim(c.text, "0123456789") == "" && over.gives&aLens == 0:
			sh.leaveOpen("", "what "+c.text+" under "+quote(over.text)+" is")
		case !c.stands() && c.holds&over.holds != 0:
			if covered |= over.holds&^ofZone | c.holds; c.holds == ofZone && !c.says {
				t.zone = c
			}
		case c.says, over.holds == 0:
		case needed == 0, c.isEmpty() && needed&(ofZone|ofRest) == 0, c.isDrawnIn() && needed == ofExtension:
			empty, covered = empty|over.holds, covered|over.holds // a remark is no development and no movement
			t.passed = append(t.passed, c.at)
		default:
			covered |= over.holds
			sh.leaveOpen("", "what "+c.named()+" under "+quote(over.text)+" says")
		}
	}
	if len(r.cells) == 1 && marks >= several && slices.ContainsFunc(strings.Fields(r.cells[0].text), isDash) { // Gate " " - f16
		dash = "the dash"
	}
	switch {
	case len(none) == 0:
	case (own|covered)&ofFilter != 0:
		for _, c := range none {
			t.passed = append(t.passed, c.at) // the filter has a column of its own
		}
	default:
		own |= ofFilter
	}
	t.covered = covered
	t.inZones = slices.ContainsFunc(above.cells, func(c cell) bool { return c.holds&ofZone != 0 })
	if at := slices.IndexFunc(r.cells, cell.mayBeStop); at >= 0 && !r.listed() && !slices.ContainsFunc(above.cells, cell.mayBeStop) {
		sh.leaveOpen("time", "whether "+quote(r.cells[at].text)+" is an aperture and a time, or between two stops")
	}
	t.clear(empty &^ own)
	open := sh.mayLack() &^ own &^ covered
	switch {
	case open == 0:
	case dash != "":
		sh.leaveOpen("", "which column "+dash+" is in")
	case open&(ofFilter|ofExtension) != 0 && (!astray || !placed && len(r.cells) < above.needed()) && (blank || (marks >= several || len(r.cells) > several) && (r.parted == "  " || r.parted == "\t")):
		what := "the extension"
		if open&ofFilter != 0 {
			what = stackName(sh.filters)
		}
		sh.leaveOpen("", "whether "+what+" of "+sh.sameAs.label+" stayed: the column is blank")
	default:
		first := strings.ToLower(all[0].Span.Text())
		sh.gaps = marks >= several || first == "idem" || first == "id." // what is seen may be as above, and no more
	}
}

// isMark reports whether a term is a ditto mark.
func isMark(term *lang.Term) bool {
	_, same := term.Kind.(*lang.Same)
	return same && lang.IsDittoMark(term.Span.Text())
}

// besideMarkedTime takes what may be a time, in a row with a mark in the column of the times, for words where the row above has
// a day in its place: 1/5 below 12/5. Elsewhere it leaves open whether it is the sheet's. One with its aperture is: 1s f22.
func (t *reader) besideMarkedTime(r, above *row, ups []int) {
	over := func(i int) (over cell) {
		if ups[i] >= 0 {
			over = above.cells[ups[i]]
		}
		return over
	}
	var marked gift // what the column of times gives in which a mark stands, of several the least
	placed := false
	for i := range r.cells {
		if r.cells[i].copies() && ups[i] >= 0 && len(r.cells) > 1 {
			placed = true
			if gives := over(i).gives; gives&aTime != 0 && (marked == 0 || gives < marked) {
				marked = gives
			}
		}
	}
	if !placed && r.accountsFor(above) {
		marked = aTime
	}
	for i := range r.cells {
		c := &r.cells[i]
		if marked == 0 || c.gives&(aTime|anAperture) != aTime || !c.says || c.copies() && len(r.cells) > 1 || over(i).gives&aTime != 0 && marked != aTime {
			continue
		}
		c.gives &^= aTime // none that a mark below repeats
		if lang.IsDay(c.text) && over(i).gives == 0 && lang.IsDay(over(i).text) {
			c.says = false
			t.passed = append(t.passed, c.at)
			t.sheet.remarks = append(t.sheet.remarks, c.text)
			continue
		}
		if slices.ContainsFunc(above.cells, func(a cell) bool { return a.gives&aTime != 0 && a.text == c.text }) {
			continue // either way
		}
		said := "the time that is written"
		if len(r.cells) > 1 {
			said = quote(c.text)
		}
		t.sheet.leaveOpen("time", "whether "+said+" is its time, or the mark in the column of the times says it")
	}
}

// accountsFor reports whether a row that is not in the columns of the one above has a mark for each thing that one gives and the
// row itself does not, and for the time. A first mark is that of what is seen, and one alone speaks of the sheet.
func (r *row) accountsFor(above *row) bool {
	const several = 2
	_, needed := above.said()
	_, own := r.said()
	marks := 0
	for i, c := range r.cells {
		for n, term := range c.terms {
			if i+n > 0 && isMark(term) {
				marks++
			}
		}
	}
	return marks >= several && needed&aTime != 0 && marks >= bits.OnesCount8(uint8(needed&^(own&^aTime)))
}

// besideSame leaves a copy open of which a cell has a sign for nothing, and no column says of what;
// a zone by itself is that of the reading.
func (t *reader) besideSame() {
	sh := t.sheet
	for i := range t.st.Terms() {
		if term := &t.st.Terms()[i]; strings.HasPrefix(strings.ToLower(term.Span.Text()), "wie ") {
			_, same := term.Kind.(*lang.Same)
			sh.gaps = sh.gaps || same // what is seen may be as above, and no more
		}
	}
	row, own := t.rowOf(sh), kind(0)
	for _, c := range row.cells {
		own |= c.holds
	}
	for i := range row.cells {
		c := &row.cells[i]
		_, zone := c.zone()
		switch {
		case c.says || c.drops():
		case c.maybeEmpty() && sh.mayLack()&^own&(ofFilter|ofExtension) != 0:
			sh.leaveOpen("", "what "+c.named()+" says")
		case zone && sh.reading != nil && slices.ContainsFunc(sh.reading.areas, func(a area) bool { return a.placed }):
			if !c.isZone() {
				sh.leaveOpen("", "whether "+quote(c.text)+" is a zone")
			} else if t.zone == nil {
				t.zone = c
				t.passed = append(t.passed, c.at)
			}
		}
	}
}

// besideChosen leaves a sheet open on whose row stands a sign for nothing that may be of the filter
// chosen above it, or in the column of the filters what is none.
func (t *reader) besideChosen() {
	sh := t.sheet
	if len(sh.filters) == 0 || t.amending || t.metering {
		return
	}
	row, above := t.rowOf(sh), &row{}
	if last := t.last(); last != nil {
		above = t.rowOf(last)
	}
	if slices.ContainsFunc(row.cells, func(c cell) bool { return c.holds&ofFilter != 0 || c.drops() }) {
		return
	}
	for i, up := range row.under(above) {
		c, over := row.cells[i], ofFilter
		if strings.EqualFold(c.text, "x") { // a zone, or a cross
			sh.leaveOpen("", "whether "+stackName(sh.filters)+" was on: "+c.named()+" stands on the line")
		}
		if up >= 0 {
			over = above.cells[up].holds
		} else if !c.isEmpty() {
			continue
		}
		if c.text != "" && !c.says && c.holds == 0 && over&ofFilter != 0 {
			sh.leaveOpen("", "whether "+stackName(sh.filters)+" was on: "+c.named()+" stands on the line")
		}
	}
}

// besideAbove leaves a sheet open that copies nothing and on whose row a cell is not understood, in a column in
// which a row above says what this one then does not: it is neither as above nor empty. Where no row above tells,
// it is open between two cells that say something.
func (t *reader) besideAbove() {
	sh := t.sheet
	if body := t.st.Body.Text(); t.amending || t.metering || !strings.Contains(body, "  ") && !strings.ContainsAny(body, "\t|,;") || t.eachSays(body) {
		return
	}
	r := t.rowOf(sh)
	said, own := r.said()
	for i := range r.cells {
		c := &r.cells[i]
		if c.text == "" || c.says || c.holds != 0 || c.gives != 0 || sh.unclear != "" {
			continue
		}
		over := t.columnOf(r, i)
		if over == nil && !c.isEmpty() && r.repeats(i) {
			sh.leaveOpen("", "what "+c.named()+" says in several columns")
			continue
		}
		if over == nil {
			if !c.isEmpty() && c.isCode() && i == len(r.cells)-1 && i > 2 && sh.aside == "" && strings.Trim(c.text, "HVLPQ") != "" { // upright or not
				sh.aside = c.text // perhaps of a filter
			}
			if from, to := r.amid(i); from != nil && !c.isEmpty() {
				sh.leaveOpen("", "what "+c.named()+" between "+quote(from.text)+" and "+quote(to.text)+" says")
			}
			continue
		}
		lacks, without := over.gives&^own, over.holds&(ofFilter|ofExtension|ofZone)&^said
		if c.isEmpty() {
			lacks, without = lacks&(anAperture|aTime), 0 // there is none of the rest
		}
		if of := map[gift]string{aTime: "time", anAperture: "aperture"}[lacks]; lacks != 0 || without != 0 {
			sh.leaveOpen(of, "what "+c.named()+" under "+quote(over.text)+" says")
		}
	}
}

// amid is the cells on both sides of a row's ith, where that one most likely is a value too: a word or two that tell of
// no weather between two that say what was metered, set or on the lens. What is seen are the first words of a row,
// and behind them, or where commas part it as they do any words, none but a code is a value.
func (r *row) amid(i int) (from, to *cell) {
	const enough = 4 // cells
	c, words := &r.cells[i], false
	code := c.isCode()
	if len(r.cells) < enough || strings.Count(c.text, " ") > 1 || (c.joined || r.listed()) && !code || isWeather(c.text) {
		return nil, nil
	}
	for n := range r.cells {
		switch over := &r.cells[n]; {
		case n == i:
			if from == nil || !code && (!words || !r.cells[i-1].isOfExposure()) {
				return nil, nil
			}
		case n > i && over.isOfExposure():
			return from, over
		case n > i || over.text == "" || over.stands():
		case over.isOfExposure(), !r.listed() && code && !over.says && !over.isCode():
			from = over
			words = words || !over.says
		default:
			words = words || !over.says
		}
	}
	return nil, nil
}

// isOfExposure reports whether a cell says what was metered or set, or was on the lens.
func (c cell) isOfExposure() bool {
	return c.says && (c.gives != 0 || c.holds&(ofFilter|ofExtension|ofZone|ofRest) != 0)
}

// isCode reports whether a cell is a sign of its writer's, and no word, no point of the compass and no side: r, K-2, w.o., XI.
func (c cell) isCode() bool {
	const short = 3 // letters
	bare := strings.Trim(c.text, ".")
	switch {
	case bare == "" || isDash(bare) || strings.Contains(bare, " ") || isSide(bare) || strings.Trim(bare, "NESW.") == "" || strings.Trim(bare, "0123456789.,:/-h") == "":
		return false
	case strings.ContainsAny(bare, "0123456789."):
		return true
	}
	return len(bare) < short || len(bare) <= short+1 && bare == strings.ToUpper(bare)
}

// isWeather reports whether a cell tells of the light or the weather.
func isWeather(text string) bool {
	_, light := handbook.Light(text)
	return light || says(strings.Fields(strings.ToLower(text)), ofWeather)
}

// ofWeather are words for the weather in a column of their own (common practice, no source).
var ofWeather = lang.SetOf("sun sunny bright cloud clouds cloudy dull hazy haze mist misty fog foggy rain rainy drizzle wind windy gusty breeze breezy calm still clear fair snow frost dusk dawn shade shadow wet dry cold warm hot " +
	"sonne sonnig wolken wolkig bewölkt bedeckt trüb trübe heiter nebel dunst dunstig regen schnee windig windstill schatten soleil nuages nuageux couvert brume pluie neige vent clair ombre")

// repeats reports whether another cell of a row is the same as its ith: a mark of whatever kind.
func (r *row) repeats(i int) bool {
	return slices.ContainsFunc(r.cells[i+1:], func(c cell) bool { return strings.EqualFold(c.text, r.cells[i].text) })
}

// columnOf is the nearest cell above a row's ith that says something by itself, in the columns of the row, nil
// for none, and where in the first column words stand: it has what is seen.
func (t *reader) columnOf(r *row, i int) (nearest *cell) {
	const far = 12 // rows
	for n := len(t.sheets) - 1; n >= max(0, len(t.sheets)-far) && t.sheets[n].outing == t.sheet.outing; n-- {
		above := t.rowOf(t.sheets[n])
		if r.parted != above.parted {
			continue
		}
		ups := r.under(above)
		up := ups[i]
		if up < 0 || !r.ofTable(i, ups, above) {
			continue
		}
		over, first := above.cells[up], up == above.first()
		switch {
		case first && over.holds == 0 && !over.stands():
			return nil
		case !first && over.holds == 0 && over.isZone():
			over.holds = ofZone
		}
		if nearest == nil && over.holds != 0 {
			nearest = &over
		}
		if nearest != nil && !first {
			break
		}
	}
	return nearest
}

// said is all that the cells of a row hold and say.
func (r *row) said() (holds kind, gives gift) {
	for i := range r.cells {
		holds, gives = holds|r.cells[i].holds, gives|r.cells[i].gives
	}
	return holds, gives
}

// first is the first cell of a row that is not blank.
func (r *row) first() int {
	return slices.IndexFunc(r.cells, func(c cell) bool { return c.text != "" })
}

// ofTable reports whether a row and one above it are of one table, whatever the row's ith cell says: in two cells at
// least they say the same kind of thing. Where commas part them, as they do any words, they are as many and no other
// differs, and the first is what is seen.
func (r *row) ofTable(i int, ups []int, above *row) bool {
	const enough = 2 // cells
	alike, listed := 0, r.listed()
	if listed && (len(r.cells) < enough+2 || i == r.first() && len(r.cells[i].text) > enough) {
		return false
	}
	for n, up := range ups {
		if up < 0 || n == i {
			continue
		}
		switch c, over := r.cells[n], above.cells[up]; {
		case c.holds&over.holds != 0 && c.gives&over.gives == c.gives&^over.gives|over.gives:
			alike++
		case listed && n != r.first() && c.holds != over.holds && !c.stands() && !over.stands() && !c.isWord() && !over.isWord():
			return false
		}
	}
	return alike >= enough || alike > 0 && !listed && r.parted != "  " && len(r.cells) == len(above.cells)
}

// isWord reports whether a cell is a word by itself that says nothing that is understood, as a mark in another language.
func (c cell) isWord() bool { return !c.says && c.holds == 0 && !strings.Contains(c.text, " ") }

// zoneAhead leaves the line's reading open before which a zone stands by itself: III   EV 9.
func (t *reader) zoneAhead(all []*lang.Term) {
	for i := range all {
		loose, ok := all[i].Kind.(*lang.Loose)
		if !ok || len(loose.Words) != 1 || !inSigns(loose.Words[0]) || i > 0 && t.ownReading && liesIn(all[i-1].Span, t.sheet.reading.at) {
			continue
		}
		if n := behindCommas(all, i); n < len(all) && t.ownReading && t.sheet.reading.open == "" {
			if k, ok := all[n].Kind.(*lang.Exposure); ok && k.EV != nil {
				t.sheet.reading.half = true
				t.sheet.reading.open = "whether " + loose.Words[0] + " is the zone of " + all[n].Span.Text()
			}
		}
	}
}

// inColumns places the line's reading on the zone that its row says, or that it has as the row above.
func (t *reader) inColumns() {
	sh := t.sheet
	if t.zone != nil {
		zone, _ := t.zone.zone()
		t.place(zone, &lang.Term{Span: t.zone.at}, "")
		return
	}
	placed := func(a area) bool { return a.placed }
	if t.maybeZone != nil && t.ownReading && !slices.ContainsFunc(sh.reading.areas, placed) {
		sh.leaveOpen("", "whether "+quote(t.maybeZone.text)+" above is the zone of "+quote(sh.reading.at.Text()))
	}
	if !t.inZones || !t.ownReading || sh.above == nil || slices.ContainsFunc(sh.reading.areas, placed) || !slices.ContainsFunc(sh.above.areas, placed) {
		return
	}
	own, above := sh.reading.areas, sh.above.areas
	if t.covered&ofZone != 0 && len(own) == 1 && len(above) == 1 {
		own[0].placed, own[0].zone, sh.reading.kind = true, above[0].zone, "spot"
		return
	}
	sh.leaveOpen("", "whether "+sh.reading.at.Text()+" stands on the zone of "+sh.sameAs.label)
}

// mayLack is what a copy has that it would be as well a sheet without.
func (sh *sheet) mayLack() (all kind) {
	if len(sh.filters) > 0 {
		all |= ofFilter
	}
	if sh.wanted.known {
		all |= ofDevelopment
	}
	if sh.saysDrawn() {
		all |= ofExtension
	}
	if len(sh.movements) > 0 {
		all |= ofMovement
	}
	return all
}

// clear takes off what cells are empty for.
func (t *reader) clear(what kind) {
	sh := t.sheet
	if what&ofFilter != 0 {
		t.drop(sh, "filter")
	}
	if what&ofExtension != 0 {
		sh.drawn()
	}
	if what&ofDevelopment != 0 {
		sh.wanted = t.now.wanted
	}
	if what&ofMovement != 0 {
		sh.movements = nil
	}
}
