package compile

import (
	"bytes"
	"math/bits"
	"slices"
	"strings"

	"notchbook/lang"
)

// A row of ditto marks copies the row above, but for its empty cells: what a dash stands under is
// not there. Which column it is in is told by where it stands on the line, as a typewriter sets it.

// kind is what a cell holds that a copy has too unless its own cell is empty.
type kind uint8

const (
	ofFilter kind = 1 << iota
	ofDevelopment
	ofExtension
	ofMovement
	ofRest // what every sheet has: a dash in its place may say that it stayed, or that nobody wrote it down
)

// row is the cells of a sheet's line, and what parts them.
type row struct {
	cells  []cell
	parted string // a tab, blanks, a bar or a comma
}

// cell is one of a row, between columns of the page.
type cell struct {
	from, to int
	text     string
	holds    kind
}

// rowOf is a sheet's row, each mark and dash in it holding what the one above it does.
func (t *reader) rowOf(sh *sheet) *row {
	if sh.row == nil {
		sh.row = t.parted(sh.lines[0])
		if above := sh.sameAs; above != nil && slices.ContainsFunc(sh.row.cells, cell.stands) {
			over := t.rowOf(above)
			for i, up := range sh.row.under(over) {
				if up >= 0 && sh.row.cells[i].stands() {
					sh.row.cells[i].holds = over.cells[up].holds
				}
			}
		}
	}
	return sh.row
}

// stands reports whether a cell is a mark or a dash.
func (c cell) stands() bool { return c.isEmpty() || isDittoMark(c.text) }

// isEmpty reports whether a cell is a dash.
func (c cell) isEmpty() bool { return c.text != "" && strings.Trim(c.text, "-–—−") == "" }

// mayBeStop reports whether a cell is f16 1/2: with a time elsewhere, a mark's too, it lies between
// two stops.
func (c cell) mayBeStop() bool {
	f, part, two := cutLast(c.text)
	return two && isPart(part) && f[0]|0x20 == 'f'
}

// isDittoMark reports whether a word that copies is a mark: same and as above speak of the sheet,
// and not of a column.
func isDittoMark(text string) bool {
	low := strings.Trim(strings.ToLower(text), "-–—−")
	return low != "" && strings.Trim(low, "\"“”„″〃«»'’,") == "" || strings.TrimRight(low, ".") == "do" || low == "dto." || low == "dgl." || low == "ditto"
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
		if strings.Contains(strings.TrimSpace(body), sign) {
			r.parted = sign
		}
	}
	for from := 0; from <= len(body); {
		to := strings.Index(body[from:], r.parted)
		if to < 0 {
			to = len(body) - from
		}
		said := strings.TrimSpace(body[from : from+to])
		start := from + strings.Index(body[from:], said)
		from += to + len(r.parted)
		if said == "" && (r.parted == "  " || len(r.cells) == 0) {
			continue
		}
		c := cell{text: said, from: column(start), to: column(start + len(said))}
		for i := range st.Terms {
			if at := st.Terms[i].Span; at.Start < st.Body.Start+start+len(said) && st.Body.Start+start < at.End && !st.Terms[i].Struck {
				c.holds |= t.held(&st.Terms[i])
			}
		}
		r.cells = append(r.cells, c)
	}
	return r
}

// held is what a term is of.
func (t *reader) held(term *lang.Term) kind {
	switch k := term.Kind.(type) {
	case *lang.Stack:
		return ofFilter
	case *lang.Drop:
		if k.What == "filter" {
			return ofFilter
		}
	case *lang.N:
		return ofDevelopment
	case *lang.Extension, *lang.Magnification, *lang.Focus, *lang.Bellows:
		return ofExtension
	case *lang.Movement:
		return ofMovement
	case *lang.Exposure, *lang.Choose, *lang.FilmEI:
		return ofRest
	case *lang.Loose:
		name := strings.Join(k.Words, " ")
		_, film := find(t.book.kit.films, name)
		if _, lens := find(t.book.kit.lenses, name); film || lens {
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
	ups := make([]int, len(r.cells))
	for i := range ups {
		ups[i] = i
	}
	if alike := r.parted == above.parted && len(r.cells) == len(above.cells); !alike || r.unlike(ups, above) {
		for i := range ups {
			ups[i] = -1
		}
	}
	return ups
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
				return nil // under two of them
			}
			ups[i] = up
		}
		if ups[i] >= 0 && ups[i] <= last {
			return nil
		}
		last = max(last, ups[i])
	}
	return ups
}

// unlike reports whether a cell would stand under one of what it is not: a time under filters.
func (r *row) unlike(ups []int, above *row) bool {
	for i, up := range ups {
		if up >= 0 && r.cells[i].holds != 0 && above.cells[up].holds != 0 && r.cells[i].holds&above.cells[up].holds == 0 {
			return true
		}
	}
	return false
}

// marked copies the title that a row's first mark stands under, takes off what the row has empty
// cells for, and leaves the sheet open where it cannot be told which they are.
func (t *reader) marked() {
	const several = 2 // marks by which every column is accounted for
	sh, marks := t.sheet, 0
	for i := range t.st.Terms {
		if _, same := t.st.Terms[i].Kind.(*lang.Same); same && isDittoMark(t.st.Terms[i].Span.Text()) {
			marks++
		}
	}
	if marks == 0 || sh.sameAs == nil || t.amending {
		return
	}
	if first := &t.st.Terms[0]; sh.title == "" && isDittoMark(first.Span.Text()) {
		sh.title = sh.sameAs.title
	}
	r, above := t.rowOf(sh), t.rowOf(sh.sameAs)
	var own, empty, covered kind // what the line says, has a dash for, and has at all
	astray, dash := false, ""
	for i := range t.st.Terms {
		own |= t.held(&t.st.Terms[i])
	}
	for i, up := range r.under(above) {
		switch c := r.cells[i]; {
		case c.text == "":
		case up < 0, c.isEmpty() && bits.OnesCount8(uint8(above.cells[up].holds)) > 1:
			if astray = true; c.isEmpty() {
				dash = c.text
			}
		case c.isEmpty():
			if empty |= above.cells[up].holds; above.cells[up].holds == ofRest {
				sh.leaveOpen("", "what the dash under "+quote(above.cells[up].text)+" says")
			}
			covered |= above.cells[up].holds
		default:
			covered |= above.cells[up].holds
		}
	}
	if at := slices.IndexFunc(r.cells, cell.mayBeStop); at >= 0 && r.parted != "," && !slices.ContainsFunc(above.cells, cell.mayBeStop) {
		sh.leaveOpen("time", "whether "+quote(r.cells[at].text)+" is an aperture and a time, or between two stops")
	}
	t.clear(empty &^ own)
	open := sh.mayLack() &^ own &^ covered
	switch {
	case open == 0:
	case dash != "":
		sh.leaveOpen("", "which column the dash is in")
	case open&(ofFilter|ofExtension) != 0 && !astray && marks >= several && (r.parted == "  " || r.parted == "\t"):
		what := "the extension"
		if open&ofFilter != 0 {
			what = stackName(sh.filters)
		}
		sh.leaveOpen("", "whether "+what+" of "+sh.sameAs.label+" stayed: the column is blank")
	default:
		sh.gaps = marks >= several
	}
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
