package pdf

import (
	"strconv"
	"unicode/utf8"

	"notchbook/compile/record"
)

// The page
//
// All type stands on a grid of lines 11 points high, so that lines on both
// sides of a leaf lie on one another; what is larger takes two or three of them.
// Only the words of charts have a grid of their own. The inner margin is wide enough for
// punching or sewing where the book is to be bound; it changes sides, for the
// book is printed on both sides of the paper. Else both margins are alike, and
// the column is as wide. The outer margin carries nothing.
//
// Page numbers are needed long before they are known: in the contents, beside
// every finding. So the book is set once, from front to back; where a number
// will stand its room is left, and stampPages goes back and fills it in.

const (
	grid      = 11.0 // line height
	bodySize  = 9.0
	smallSize = 7.5
	descent   = 3.0 // from the foot of a line up to where its type stands
)

// mark is a place in the book that others point to.
type mark struct {
	page int     // 0 while not reached
	y    float64 // of its top, from the top of the paper
}

// outline is a bookmark, which viewers show beside the pages.
type outline struct {
	title string
	level int // 0 section, 1 outing or index, 2 scene
	page  int
	y     float64
}

// stamp is the room left for a page number, and where a link to a place that
// was not reached yet lies.
type stamp struct {
	page, x, y, w float64
	piece         piece
}

// book is the book in the making: the record, the pen and the current page.
type book struct {
	pen
	galley
	season    *record.Season
	options   Options
	form      form
	page      int
	left      float64 // of the column, from the paper's left
	y         float64 // of the next line's top
	head      string  // right running head: outing or section
	path      string  // of the chapter's notebook
	opener    bool    // the page opens a chapter and has no running head
	carry     string  // said at the top of a page that goes on with an entry,
	carryTo   int     // which begins at this line of the galley
	ending    bool    // what is placed ends a chapter
	marks     map[any]*mark
	stamps    []stamp
	outlines  []outline                // as the book goes
	forecasts map[string]*record.Scene // where it is said first how well one does
	compared  []*record.Scene          // with more than one sheet; nil before it is asked for
	columns   [2]galley                // working space for what stands side by side
	notes     []string                 // working space: beside the rows of a drawing
	later     []later                  // right columns that wait for the left one
	pictures  map[string]*picture
	unshown   map[string]bool // scans of which there is no picture; nil before one is asked for
	// names of the pictures that the library has, each once
	registered map[string]bool
}

// later is the right side of a line that is drawn when the left column is whole:
// whoever reads the file in its order, or copies from it, gets column by column.
type later struct {
	line *line
	x, y float64
}

// width of the column.
func (b *book) width() float64 { return b.form.w - b.form.inner - b.form.outer }

// bottom is where the last line of a page ends.
func (b *book) bottom() float64 {
	lines := int((b.form.h - b.form.top - b.form.foot) / grid)
	return b.form.top + float64(lines)*grid
}

// atTop reports whether nothing stands on the page yet.
func (b *book) atTop() bool { return b.y <= b.form.top+slack }

// markOf is the mark of a sheet, an outing or a section.
func (b *book) markOf(key any) *mark {
	m := b.marks[key]
	if m == nil {
		m = &mark{}
		b.marks[key] = m
	}
	return m
}

// openPage begins a chapter on a page of its own.
func (b *book) openPage(head string) {
	b.head, b.opener = head, true
	b.newPage()
	b.opener = false
}

// newPage turns the page and furnishes it. The column changes sides, so places
// in it are counted from its left.
func (b *book) newPage() {
	b.drawLater()
	// A page on which a number is still to be filled in waits for it.
	b.addPage(len(b.stamps) == 0 || int(b.stamps[len(b.stamps)-1].page) != b.page)
	b.page++
	b.left = b.form.inner
	if b.page%2 == 0 {
		b.left = b.form.outer
	}
	b.y = b.form.top
	if b.page > 1 {
		b.furnish()
	}
}

// overleaf opens the page on which line i goes on.
func (b *book) overleaf(i int) {
	b.newPage()
	if b.carry != "" && i > b.carryTo {
		look := style{face: italic, size: smallSize, ink: grey}
		b.say(b.left, b.y+grid-descent, b.fit(b.carry, look, b.width()), look)
		b.y += 2 * grid
	}
}

// furnish sets the running heads and the page number, all at the outer edge
// or across from it.
func (b *book) furnish() {
	look := style{face: regular, size: smallSize, ink: grey}
	folio := strconv.Itoa(b.page)
	foot := b.bottom() + b.form.folio*grid - descent
	x := b.left
	if b.page%2 == 1 {
		x += b.width() - b.faces().width(regular, bodySize, folio)
	}
	b.text(x, foot, folio, style{face: regular, size: bodySize})
	if b.opener {
		return
	}
	half := b.width()/2 - 10
	inner, outer := b.season.Title, b.head
	if b.page%2 == 0 {
		inner, outer = outer, inner
	}
	top := b.form.top - grid - descent
	b.say(b.left, top, b.fit(inner, look, half), look)
	outer = b.fit(outer, look, half)
	b.say(b.left+b.width()-b.faces().width(regular, smallSize, outer), top, outer, look)
}

// faces resolves the two embedded ones, which are the same.
func (b *book) faces() *faces { return b.pen.faces }

// fit shortens text for a running head, where one line is all there is; it
// stands in full elsewhere. Pictures that no face has are left out as from any heading, and one
// mark stands for other characters that touch.
func (b *book) fit(text string, look style, width float64) string {
	if spared := b.faces().without(span{text: text, style: look}); spared != "" {
		text = spared
	}
	var out []rune
	_, dots := b.faces().find(look.face, '…')
	w, mark := 0.0, []rune(lackedMark)[0]
	for _, r := range text {
		_, advance := b.faces().find(look.face, r)
		if advance == missing {
			if n := len(out); n > 0 && out[n-1] == mark {
				continue
			}
			r = mark
			_, advance = b.faces().find(look.face, r)
		}
		step := float64(advance) * look.size / 1000
		if w+step+float64(dots)*look.size/1000 > width {
			return string(out) + "…"
		}
		w += step
		out = append(out, r)
	}
	return string(out)
}

// say sets one line of the book's own, face by face.
func (b *book) say(x, y float64, text string, look style) {
	want := look.face
	for from := 0; from < len(text); {
		to, w := from, 0.0
		for at, r := range text[from:] {
			id, advance := b.faces().find(want, r)
			if at == 0 {
				look.face = id
			}
			if id != look.face {
				break
			}
			to, w = from+at+utf8.RuneLen(r), w+float64(advance)*look.size/1000
		}
		b.text(x, y, text[from:to], look)
		x, from = x+w, to
	}
}

// place puts the galley on pages and empties it. Lines that are kept together
// move to the next page together, unless a page cannot hold them.
func (b *book) place() {
	for i := 0; i < len(b.lines); {
		end, h := b.block(i)
		if b.lines[i].gap && end == i+1 && b.y+h > b.bottom()+slack {
			i++ // white at the foot of a page does not turn it
			continue
		}
		// What no page can hold goes on overleaf, but no heading is left behind by it.
		if h > b.bottom()-b.form.top {
			h = tallStart
		}
		if (b.y+h > b.bottom()+slack || b.orphans(end, h)) && !b.atTop() {
			for cut := b.looseBreak(i, end); i < cut; i++ {
				b.placeLine(i)
			}
			b.overleaf(i)
		}
		for ; i < end; i++ {
			b.placeLine(i)
		}
	}
	b.drawLater()
	b.reset()
}

// looseBreak is where lines that are kept together may be parted, so that as much of them as there is
// room for stands on a page of which else a third would be empty; the first of them where nowhere.
func (b *book) looseBreak(first, end int) int {
	const much = 3
	room, h, at := b.bottom()-b.y, 0.0, first
	if room < (b.bottom()-b.form.top)/much {
		return first
	}
	for i := first; i < end; i++ {
		if h += b.lines[i].h; h > room+slack {
			break
		}
		if b.lines[i].loose {
			at = i + 1
		}
	}
	return at
}

// tallStart is how much of what no page can hold is to stand where it begins.
const tallStart = 12 * grid

// placeEnd is place for the last lines of a chapter: a page is not turned for one
// or two of them alone.
func (b *book) placeEnd() {
	b.ending = true
	b.place()
	b.ending = false
}

// orphans reports whether a block of this height on this page, and the next one for
// the few lines that are left of the chapter, is better put over with them.
func (b *book) orphans(end int, h float64) bool {
	const few, most = 6 * grid, 14 * grid
	if !b.ending {
		return false
	}
	rest, below := 0.0, 0.0
	for i := end; i < len(b.lines) && below < few; i++ {
		rest += b.lines[i].h
		if !b.lines[i].gap {
			below = rest // white at the end turns no page
		}
	}
	return below > 0 && below < few && h+below <= most && b.y+h+below > b.bottom()+slack
}

// block finds the lines that are kept together from line i on, and their
// height. White below a line that is kept parts nothing.
func (b *book) block(i int) (end int, h float64) {
	for end = i; end < len(b.lines); end++ {
		h += b.lines[end].h
		if l := &b.lines[end]; !l.keep && !(l.gap && end > i && b.lines[end-1].keep) {
			return end + 1, h
		}
	}
	return end, h
}

// height of lines one below the other.
func height(lines []line) (h float64) {
	for i := range lines {
		h += lines[i].h
	}
	return h
}

// placeLine sets one line on the page, or on the next.
func (b *book) placeLine(i int) {
	l := &b.lines[i]
	if b.y+l.h > b.bottom()+slack && !b.atTop() {
		b.overleaf(i)
	}
	if l.gap && b.atTop() {
		return
	}
	if l.head > 0 && b.atTop() {
		b.repeatHead(i-l.head, l.headTall)
	}
	b.drawLine(l, b.left, b.y)
	b.y += l.h
}

// repeatHead sets the head of a table again on the page on which it goes on.
func (b *book) repeatHead(first, lines int) {
	for i := first; i < first+lines; i++ {
		b.drawLine(&b.lines[i], b.left, b.y)
		b.y += b.lines[i].h
	}
}

// drawLine draws a line and what belongs to it. Here marks learn their page.
func (b *book) drawLine(l *line, x, y float64) {
	if l.mark != nil && l.mark.page == 0 {
		l.mark.page, l.mark.y = b.page, y
	}
	if l.outline != nil {
		b.bookmark(*l.outline, y)
	}
	if l.rule {
		from, to := l.reach[0], l.reach[1]
		if to == 0 {
			to = b.width()
		}
		b.stroke(x+from, y, x+to, y, 0.4, l.ink)
	}
	for _, at := range l.bars {
		b.stroke(x+at, y+1, x+at, y+l.h+1, 0.8, l.ink)
	}
	if l.picture != nil {
		b.drawPicture(l.picture, x, y)
	}
	for i := range l.row {
		b.drawPicture(&l.row[i], x+l.row[i].shiftX, y+l.row[i].shiftY)
	}
	if l.apart > 0 {
		b.drawPieces(l.from, l.apart-1, x, y, l.h)
		b.later = append(b.later, later{l, x, y})
		return
	}
	b.drawPieces(l.from, l.to, x, y, l.h)
	if l.figure != nil {
		b.drawFigure(l.figure, x, y)
	}
}

// drawLater draws the right columns that wait.
func (b *book) drawLater() {
	for _, w := range b.later {
		b.drawPieces(w.line.apart-1, w.line.to, w.x, w.y, w.line.h)
		if w.line.figure != nil {
			b.drawFigure(w.line.figure, w.x, w.y)
		}
	}
	b.later = b.later[:0]
}

func (b *book) drawPieces(from, to int, x, y, h float64) {
	for i := from; i < to; i++ {
		b.drawPiece(&b.pieces[i], x, y, h)
	}
}

// drawPiece draws type with its link and what strikes it out.
func (b *book) drawPiece(p *piece, x, y, h float64) {
	base := y + h - descent
	x += p.x
	if p.page != nil || p.to.mark != nil {
		b.point(stamp{float64(b.page), x, base, p.w, *p})
	} else if p.to.uri != "" {
		b.linkURI(x, base-p.size, p.w, p.size*1.25, p.to.uri)
	}
	b.text(x, base, p.text, p.style)
	if p.struck {
		b.stroke(x, base-p.size*0.3, x+p.w, base-p.size*0.3, 0.5, p.ink)
	}
	if p.under {
		b.stroke(x, base+1.6, x+p.w, base+1.6, 0.6, p.ink)
	}
}

// point makes a link now if its mark is reached, and remembers it if not.
func (b *book) point(s stamp) {
	m := s.piece.page
	if m == nil {
		m = s.piece.to.mark
	}
	if m.page == 0 {
		b.stamps = append(b.stamps, s)
		return
	}
	b.stampOne(s, m)
}

// stampPages fills in the page numbers and links that pointed forward. The
// stamps are in the order of the pages, so each page is opened once.
func (b *book) stampPages() {
	last := b.page
	for _, s := range b.stamps {
		m := s.piece.page
		if m == nil {
			m = s.piece.to.mark
		}
		if m.page == 0 {
			continue // what it points to is nowhere in the record
		}
		if int(s.page) != b.page {
			b.page = int(s.page)
			b.turnTo(b.page)
		}
		b.stampOne(s, m)
	}
	b.page = last
}

// stampOne makes the link, and writes the number where there is one.
func (b *book) stampOne(s stamp, m *mark) {
	p := s.piece
	b.link(s.x, s.y-p.size, s.w, p.size*1.25, m.page, m.y)
	if p.page == nil {
		return
	}
	number := strconv.Itoa(m.page)
	w := b.faces().width(p.face, p.size, number)
	if p.right {
		s.x += s.w - w
	}
	b.text(s.x, s.y, number, p.style)
}
