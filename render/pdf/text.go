package pdf

import (
	"strings"
	"unicode/utf8"

	"notchbook/lang/ruler"
	"notchbook/render/saying"
)

// How a paragraph becomes lines
//
// The PDF library can break lines, but it knows one face at a time; here a
// word may change face in its middle (a third in a line of Go Regular). So
// lines are set by hand, as a compositor does: characters are gathered into a
// word, each with the face that has it; the word goes on the line if it and
// the spaces before it fit, else it opens the next; a word wider than the
// measure is cut where it must be, after a mark such as "/" if one is near.
// Fragments that touch in the source and share a face are joined again, so a
// plain line costs one piece however many words it has.
//
// Where no face has what was typed, one mark stands for as many characters as touch,
// and the colophon names them: nothing the writer typed may vanish unsaid, and a row
// of frames with numbers in them is not read by anybody.

// style is how a span of text looks.
type style struct {
	face   faceID
	size   float64 // points
	ink    ink
	struck bool
	under  bool
}

// span is text of one style. Exactly one of text and page is set.
type span struct {
	text string
	style
	tab  float64 // > 0: go to this distance from the left of the column first
	to   target
	page *mark // shown as the number of the page where the mark comes to stand
}

// target is where a piece leads: a place in the book or a URI.
type target struct {
	mark *mark
	uri  string
}

// piece is a stretch of one line in one face, placed from the column's left.
type piece struct {
	text string
	style
	x, w  float64
	to    target
	page  *mark
	right bool // a page number that stands at the right of its room
}

// line is a set line. Its pieces are a range of the galley's.
type line struct {
	from, to int
	h        float64    // height in points
	keep     bool       // the next line stays on the same page
	loose    bool       // it need not, where much of the page would be left empty
	gap      bool       // white space, left out at the head of a page
	rule     bool       // a hairline above
	reach    [2]float64 // from where to where it goes; none is the whole column
	bars     []float64  // where upright lines stand beside it: quotes, text not read
	ink      ink        // of bars and rule
	mark     *mark
	outline  *outline
	picture  *picture
	figure   *figure
	apart    int       // > 0: the right column of an entry begins with the piece before this one
	row      []picture // pictures side by side
	head     int       // > 0: a row of a table whose head begins this many lines before
	headTall int       // how many lines the head has
}

// galley is type that is set and not yet on a page.
type galley struct {
	faces  *faces
	room   float64 // ems to leave for a page number, as a width per point of size
	pieces []piece
	lines  []line
	white  float64 // above the first line, left by what was placed before
	// working space of the setter, kept to spare allocations
	gap, word []fragment
}

// measure says where lines run, in points from the column's left.
type measure struct {
	left  float64 // of every line after the first
	first float64 // of the first line, beyond left; may be negative
	right float64
	h     float64 // line height; 0 is one grid line
	page  *mark   // its number stands at the right of the last line
}

// fragment is part of a word in one face.
type fragment struct {
	span, from, to int
	face           faceID
	w              float64
	lacked         bool // a mark stands for it
}

// setter sets one paragraph into a galley. A word waits, with the spaces before
// it, until it is known whether it still fits.
type setter struct {
	*galley
	spans      []span
	m          measure
	x          float64
	start      int // first piece of the line being set
	gapW       float64
	wordW      float64
	last       fragment // what the newest piece of the line came from
	afterBreak bool     // the line was opened by wrapping: spaces do not open it
}

// reset empties the galley and keeps its room.
func (g *galley) reset() {
	if n := len(g.lines); n > 0 {
		g.white = 0
		if g.lines[n-1].gap {
			g.white = g.lines[n-1].h
		}
	}
	g.pieces, g.lines = g.pieces[:0], g.lines[:0]
}

// unparted is how many lines a paragraph may have to be read without turning the page.
const unparted = 5

// set sets one paragraph. A short one is kept whole; of a longer one the first and
// last lines never stand alone on a page: they are kept with their neighbours.
func (g *galley) set(m measure, spans ...span) {
	first := len(g.lines)
	page := m.page
	if page != nil {
		m.right -= g.numberRoom(spans[0].size) + 2*spans[0].size
	}
	s := setter{galley: g, spans: spans, m: m, x: m.left + m.first, start: len(g.pieces)}
	s.last.span = -1
	for i := range spans {
		s.setSpan(i)
	}
	s.endWord()
	s.endLine()
	if page != nil {
		s.addNumber(page)
	}
	set := g.lines[first:]
	for i := range set {
		set[i].keep = i < len(set)-1 && (len(set) <= unparted || i == 0 || i == len(set)-2)
	}
}

// numberRoom is the width that the longest page number may take.
func (g *galley) numberRoom(size float64) float64 { return g.room * size }

// addNumber puts a page number at the right of the line set last.
func (s *setter) addNumber(page *mark) {
	look := s.spans[0].style
	look.face, look.ink = regular, black
	w := s.numberRoom(look.size)
	x := s.m.right + 2*look.size
	s.pieces = append(s.pieces, piece{style: look, x: x, w: w, page: page, right: true})
	s.lines[len(s.lines)-1].to++
}

// setSpan gathers the characters of one span.
func (s *setter) setSpan(i int) {
	sp := &s.spans[i]
	if sp.tab > 0 {
		s.goTo(sp.tab)
	}
	if sp.page != nil {
		s.gather(fragment{span: i, w: s.numberRoom(sp.size)})
		return
	}
	if strings.ContainsAny(sp.text, "\t\r") {
		if sp.text = oneEnd.Replace(sp.text); sp.face == mono {
			sp.text = ruler.Untab(sp.text, s.column(i))
		}
		sp.text = strings.ReplaceAll(sp.text, "\t", " ")
	}
	if !utf8.ValidString(sp.text) {
		sp.text = strings.ToValidUTF8(sp.text, "\uFFFD")
	}
	for at := 0; at < len(sp.text); {
		r, n := rune(sp.text[at]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRuneInString(sp.text[at:])
		}
		s.char(i, at, n, r)
		at += n
	}
}

// column is at which column of a line as typed a span begins, which the spans before it in its
// face began.
func (s *setter) column(i int) int {
	at := 0
	for j := i; j > 0 && s.spans[j].tab == 0 && s.spans[j-1].face == s.spans[i].face; j-- {
		before := s.spans[j-1].text
		at += ruler.Width(before[strings.LastIndexByte(before, '\n')+1:])
	}
	return at
}

// oneEnd has lines end in one way.
var oneEnd = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// char parts words: only the space and line ends do, and no space between a figure and
// its unit.
func (s *setter) char(i, at, n int, r rune) {
	switch r {
	case '\n', '\u2028', '\u2029', '\u0085':
		s.endWord()
		s.endLine()
		s.afterBreak = false
	case ' ':
		if text := s.spans[i].text; saying.Bound(text[:at], text[at+n:]) {
			s.gather(s.glyph(i, at, n, r))
			return
		}
		s.endWord()
		sp := &s.spans[i]
		id, w := s.faces.find(sp.face, r)
		f := fragment{span: i, from: at, to: at + n, face: id, w: float64(w) * sp.size / 1000}
		s.gapW += f.w
		s.gap = appendFragment(s.gap, f)
	default:
		s.gather(s.glyph(i, at, n, r))
	}
}

// glyph chooses how a character is shown.
func (s *setter) glyph(i, at, n int, r rune) fragment {
	sp := &s.spans[i]
	id, w := s.faces.find(sp.face, r)
	if w == missing {
		s.faces.lack(r)
		return fragment{span: i, from: at, to: at + n, face: second, lacked: true, w: s.faces.width(second, sp.size, lackedMark)}
	}
	return fragment{span: i, from: at, to: at + n, face: id, w: float64(w) * sp.size / 1000}
}

// lackedMark stands for what no face has.
const lackedMark = "▯"

// joins reports whether a character only changes the one before it or ties it to the
// next: selectors of a form, the joiner (Unicode 16, 23.4 and 23.2).
func joins(r rune) bool { return r == '\u200d' || r >= '\ufe00' && r <= '\ufe0f' }

// gather adds to the word, which is set when it is whole. One mark stands for all that
// touches.
func (s *setter) gather(f fragment) {
	if n := len(s.word); n > 0 && f.to > f.from {
		last := &s.word[n-1]
		r, _ := utf8.DecodeRuneInString(s.spans[f.span].text[f.from:])
		if last.lacked && (f.lacked || joins(r)) && last.span == f.span && last.to == f.from {
			last.to = f.to
			return
		}
	}
	s.wordW += f.w
	s.word = appendFragment(s.word, f)
}

// appendFragment joins f to the fragment before it where both are one stretch
// of the source in one face.
func appendFragment(list []fragment, f fragment) []fragment {
	if n := len(list); n > 0 && list[n-1].touches(f) {
		list[n-1].to, list[n-1].w = f.to, list[n-1].w+f.w
		return list
	}
	return append(list, f)
}

// touches reports whether next goes on where f ends.
func (f fragment) touches(next fragment) bool {
	return f.span == next.span && f.face == next.face && f.to == next.from &&
		!f.lacked && !next.lacked && next.to > next.from
}

// slack forgives sums of rounded widths.
const slack = 1e-6

// endWord puts the gathered word on this line or the next.
func (s *setter) endWord() {
	if len(s.word) == 0 {
		return
	}
	if s.x+s.gapW+s.wordW <= s.m.right+slack {
		if !s.afterBreak {
			s.commit(s.gap)
		}
		s.commit(s.word)
	} else {
		if len(s.pieces) > s.start && s.x > s.m.left+slack {
			s.endLine()
		}
		if s.x+s.wordW <= s.m.right+slack {
			s.commit(s.word)
		} else {
			s.cutWord()
		}
	}
	s.gap, s.word, s.gapW, s.wordW, s.afterBreak = s.gap[:0], s.word[:0], 0, 0, false
}

// commit puts fragments on the line; here their places are settled.
func (s *setter) commit(list []fragment) {
	for _, f := range list {
		s.put(f)
	}
}

// put adds a fragment to the line, joined to the piece before it if it can be.
func (s *setter) put(f fragment) {
	sp := &s.spans[f.span]
	if len(s.pieces) > s.start && s.last.touches(f) {
		p := &s.pieces[len(s.pieces)-1]
		s.last.to = f.to
		p.text = sp.text[s.last.from:f.to]
		p.w += f.w
		s.x += f.w
		return
	}
	p := piece{text: sp.text[f.from:f.to], style: sp.style, x: s.x, w: f.w, to: sp.to, page: sp.page}
	p.face = f.face
	if f.lacked {
		p.text = lackedMark
	}
	s.pieces = append(s.pieces, p)
	s.last = f
	s.x += f.w
}

// cutWord sets a word that is wider than the measure.
func (s *setter) cutWord() {
	for _, f := range s.word {
		for s.x+f.w > s.m.right+slack {
			head, tail := s.cut(f)
			if head.to == head.from {
				if len(s.pieces) == s.start {
					break // not even one character fits: let it stand
				}
				s.endLine()
				continue
			}
			s.put(head)
			s.endLine()
			f = tail
		}
		if f.to > f.from || s.spans[f.span].page != nil {
			s.put(f)
		}
	}
}

// cut parts a fragment at the end of the line: after a mark that parts words
// if one stands in the second half of what fits, else after the last
// character that fits.
func (s *setter) cut(f fragment) (head, tail fragment) {
	if f.lacked || f.to == f.from {
		return fragment{}, f
	}
	sp := &s.spans[f.span]
	fits, good := f.from, f.from
	w, goodW := 0.0, 0.0
	for at, r := range sp.text[f.from:f.to] {
		step := float64(s.faces.advance(f.face, r)) * sp.size / 1000
		if s.x+w+step > s.m.right+slack {
			break
		}
		w += step
		fits = f.from + at + utf8.RuneLen(r)
		if strings.ContainsRune("/-_.,;:=", r) {
			good, goodW = fits, w
		}
	}
	if good-f.from > (fits-f.from)/2 {
		fits, w = good, goodW
	}
	head, tail = f, f
	head.to, head.w = fits, w
	tail.from, tail.w = fits, f.w-w
	return head, tail
}

// goTo moves to a tab stop, on a new line if the text has passed it.
func (s *setter) goTo(x float64) {
	s.endWord()
	s.gap, s.gapW = s.gap[:0], 0
	if s.x > x-slack && len(s.pieces) > s.start {
		s.endLine()
	}
	s.x, s.last.span, s.afterBreak = x, -1, false
}

// endLine closes the line, also an empty one: a blank line that was written.
func (s *setter) endLine() {
	h := s.m.h
	if h == 0 {
		h = grid
	}
	s.lines = append(s.lines, line{from: s.start, to: len(s.pieces), h: h})
	s.start = len(s.pieces)
	s.x = s.m.left
	s.gap, s.gapW = s.gap[:0], 0
	s.last.span, s.afterBreak = -1, true
}

// space leaves at least so much white, whole lines of the grid: what is there
// already counts. It vanishes at the head of a page.
func (g *galley) space(h float64) {
	if n := len(g.lines); n > 0 && g.lines[n-1].gap {
		g.lines[n-1].h = max(g.lines[n-1].h, h)
		return
	} else if n == 0 {
		h -= g.white
	}
	if h <= 0 {
		return
	}
	n := len(g.pieces)
	g.lines = append(g.lines, line{from: n, to: n, h: h, gap: true})
}

// keepFrom binds the lines from first on to one another and to what follows.
func (g *galley) keepFrom(first int) {
	for i := first; i < len(g.lines); i++ {
		g.lines[i].keep = true
	}
}
