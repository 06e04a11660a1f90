package pdf

import (
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
)

// The field card on paper
//
// The kit's tables run in one or two columns through panels of one size, and the
// panels stand on the paper so that it reads in their order when it is folded. Of
// both ways the one is taken that lets the type be larger: as large as one sheet
// allows, and no larger than a row of a table stays on one line. Where that would be
// too small for the length of an arm, the card goes on to a second sheet: nothing is
// left out.

// Fold is how the card's paper is folded.
type Fold int

// The folds.
const (
	// ToQuarter is printed on both sides and folded twice, to eight panels of a
	// quarter of the paper: A6 of A4.
	ToQuarter Fold = iota
	// ToPocket is printed on one side, cut out, folded along its middle with the
	// type outside and then as a fan, to eight panels of a card's size: ID-1,
	// 85.6 × 54 mm (85.60 × 53.98 in ISO/IEC 7810).
	ToPocket
)

// CardOptions says what the card itself does not know.
type CardOptions struct {
	Generator string
	Paper     Paper // A4 or Letter
	Fold      Fold
	Date      time.Time // of the document; zero is 1970-01-01, because the clock must not
}

// perSheet is how many panels a sheet of paper has, folded either way.
const perSheet = 8

// panel is where a panel stands on the paper: on the front or the back, and
// upside down where folding turns it.
type panel struct {
	back   bool
	x, y   float64 // of its top left corner
	turned bool
}

// leaflet is the measures of a folded card, in points.
type leaflet struct {
	paper      form
	w, h       float64 // of a panel
	margin     float64
	between    float64 // the columns
	across     int     // columns of a panel
	size, lead float64 // of the type, and from line to line
	least      float64 // size
	most       float64 // size
	panels     [perSheet]panel
	folding    string // how it is folded, in words
}

// The pocket card's panels, and how many stand below one another.
const (
	pocketWide = 85.6 * 72 / 25.4
	pocketHigh = 54 * 72 / 25.4
	pocketRows = perSheet / 2
)

func leafletOf(o CardOptions) (leaflet, error) {
	paper, known := papers[o.Paper]
	if !known || o.Paper == A5 {
		return leaflet{}, fmt.Errorf("pdf: a card is printed on A4 or letter paper")
	}
	if o.Fold == ToPocket {
		return pocket(paper), nil
	}
	return quarter(paper), nil
}

// quarter is the classic quarto: each leaf has its pages back to back, and the
// upper half stands on its head, since it is folded over.
func quarter(paper form) leaflet {
	w, h := paper.w/2, paper.h/2
	return leaflet{
		paper: paper, w: w, h: h, margin: 17, between: 12, least: 9, most: 14,
		panels: [perSheet]panel{
			{false, w, h, false}, {true, 0, h, false}, {true, 0, 0, true}, {false, w, 0, true},
			{false, 0, 0, true}, {true, w, 0, true}, {true, w, h, false}, {false, 0, h, false},
		},
		folding: "Print this on both sides of the paper, turned over its long edge. Fold the upper half back behind the lower, then the left half back behind the right, so that 1 lies in front; cut the fold at the top.",
	}
}

// pocket is a strip two panels wide: 1 to 4 on the right half, 5 to 8 on the
// left, which is folded behind it.
func pocket(paper form) leaflet {
	l := leaflet{
		paper: paper, w: pocketWide, h: pocketHigh, margin: 9, between: 9, least: 7.5, most: 11,
		folding: "Print this at its full size and cut along the outline. Fold the left half back behind the right, then fold the strip as a fan at each mark.",
	}
	x, y := (paper.w-2*l.w)/2, (paper.h-pocketRows*l.h)/2
	for i := range pocketRows {
		l.panels[i] = panel{x: x + l.w, y: y + float64(i)*l.h}
		l.panels[pocketRows+i] = panel{x: x, y: y + float64(i)*l.h}
	}
	return l
}

// column is the width of a column of type.
func (l *leaflet) column() float64 {
	return (l.w - 2*l.margin - float64(l.across-1)*l.between) / float64(l.across)
}

// deep is the height of a column; below it stands the panel's number.
func (l *leaflet) deep() float64 { return l.h - 2*l.margin - l.lead }

// WriteCard writes the card to w. It returns an error only when w fails or the
// PDF library does, or where the paper is none that a card is printed on.
func WriteCard(w io.Writer, card *record.Card, o CardOptions) error {
	c, columns, err := setCard(card, o)
	if err != nil {
		return err
	}
	c.impose(columns)
	return c.output(w)
}

// setCard sets a card's columns, which are not yet on paper.
func setCard(card *record.Card, o CardOptions) (*cardBook, [][]placed, error) {
	l, err := leafletOf(o)
	if err != nil {
		return nil, nil, err
	}
	faces, err := loadFaces()
	if err != nil {
		return nil, nil, err
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: l.paper.w, Ht: l.paper.h}})
	faces.register(doc)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetTitle(surrogates("Field card – "+card.Title), true)
	doc.SetSubject(cardMark, false)
	doc.SetCreator(surrogates(cmp.Or(o.Generator, "notchbook")), true)
	doc.SetProducer("go-pdf/fpdf", false)
	date := o.Date
	if date.IsZero() {
		date = time.Unix(0, 0).UTC()
	}
	doc.SetCreationDate(date)
	doc.SetModificationDate(date)
	doc.SetLang("en")
	c := &cardBook{leaflet: l, book: book{pen: newPen(doc, faces, l.paper.h), galley: galley{faces: faces}}}
	return c, c.largest(card), nil
}

// wholeness is what may not go on from one panel to the next, where one could hold it.
type wholeness int

const (
	nothing wholeness = iota
	things            // the table of a film or a lens
	everything
)

// spared is by how much the type may be smaller than the least, in points, where a few
// lines would take a sheet of their own.
const spared = 1

// largest sets the tables in the largest type in which one sheet holds them, each whole on
// its panel, or at least those of films and lenses, and no row is broken; else parted on
// one sheet, however small; else in the least type on several.
func (c *cardBook) largest(card *record.Card) [][]placed {
	for _, c.whole = range []wholeness{everything, things} {
		if c.search(card, c.most, c.least) {
			return c.try(card)
		}
	}
	c.whole = nothing
	if !c.search(card, c.least, c.least-spared) {
		c.size, c.across, c.whole = c.least, 2, everything
	}
	return c.try(card)
}

// search looks for the largest type from a size down to another in which one sheet holds
// the tables.
func (c *cardBook) search(card *record.Card, from, to float64) bool {
	for c.size = from; c.size >= to; c.size -= .5 {
		for c.across = 2; c.across > 0; c.across-- {
			if columns := c.try(card); !c.broken && !c.torn && len(columns) <= c.across*perSheet {
				return true
			}
		}
	}
	return false
}

// try sets the tables in one size.
func (c *cardBook) try(card *record.Card) [][]placed {
	c.lead, c.form.w, c.broken = 1.25*c.size, c.column(), false
	c.pieces, c.lines, c.blocks = c.pieces[:0], c.lines[:0], c.blocks[:0]
	c.tables(card)
	return c.flow()
}

// cardMark stands in every card that is written, so that it can be told from
// any other file.
const cardMark = "notchbook field card"

// IsCard reports whether a file is a card that was written before.
func IsCard(text []byte) bool {
	return strings.HasPrefix(string(text[:min(len(text), 5)]), "%PDF-") && strings.Contains(string(text), "/Subject ("+cardMark+")")
}

// cardBook is a card in the making.
type cardBook struct {
	leaflet
	book
	blocks []block
	middle float64 // where the middle of a row ends, as a part of the column
	broken bool    // a row of a table did not stay on its line, and would in smaller type
	whole  wholeness
	torn   bool   // what should be whole went from one panel to the next
	folded [2]int // the lines that say how it is folded, where they stand beside the panels
}

// block is lines that belong together; the first of them are its head, which
// comes again where the block goes on in another column: the title, and as long
// as there are rows the names of their columns.
type block struct {
	from, title, head, rows, to int

	thing bool // of a film or a lens
}

// begin begins a block with its head.
func (c *cardBook) begin(head string) {
	from := len(c.lines)
	c.set(measure{right: c.column(), h: c.lead + 2.5}, span{text: head, style: style{face: bold, size: c.size}}) // below its rule
	c.lines[from].rule, c.lines[from].ink = from > 0, grey
	c.blocks = append(c.blocks, block{from: from, title: len(c.lines), head: len(c.lines), to: len(c.lines)})
}

// end ends the block that was begun last.
func (c *cardBook) end() { c.blocks[len(c.blocks)-1].to = len(c.lines) }

// headed takes the last row as a part of the head.
func (c *cardBook) headed() { c.blocks[len(c.blocks)-1].head = len(c.lines) }

// told says that the rows are over, of which the last does not stand alone; what follows is
// words.
func (c *cardBook) told() {
	b := &c.blocks[len(c.blocks)-1]
	if b.rows = len(c.lines); b.rows > b.head+1 {
		c.lines[b.rows-2].keep = true
	}
}

// farthest is how far a figure stands from its row's name at the most, in ems of the
// column: in a wider one the eye would lose the row.
const farthest = 15

// width is that of the rows of a table.
func (c *cardBook) width() float64 { return min(c.column(), farthest*c.size) }

// row is a name with its figure at the right edge, and what stands between.
func (c *cardBook) row(look faceID, name, middle, figure string) {
	const apart = "\u00a0" // at the least, between a name and its figure
	spans := []span{{text: name + apart, style: style{face: look, size: c.size}}}
	until := func(right float64, text string, look faceID) {
		if text != "" {
			spans = append(spans, span{text: text, style: style{face: look, size: c.size}, tab: max(right-c.faces().width(look, c.size, text), 1)})
		}
	}
	if middle != "" {
		until(c.middle*c.width(), middle, max(look, bold))
		until(c.width(), figure, look)
	} else {
		until(c.width(), figure, max(look, bold))
	}
	from := len(c.lines)
	c.set(measure{left: 8, first: -8, right: c.width(), h: c.lead}, spans...)
	if len(c.lines) > from+1 && c.wide(spans)*c.least/c.size <= c.column() {
		c.broken = true
	}
}

// wide is how wide the texts of a row are beside one another.
func (c *cardBook) wide(spans []span) (w float64) {
	for _, s := range spans {
		w += c.faces().width(s.face, s.size, s.text)
	}
	return w
}

// words is a paragraph.
func (c *cardBook) words(text string) {
	if text != "" {
		c.set(measure{right: c.column(), h: c.lead}, span{text: text, style: style{face: regular, size: c.size}})
	}
}

// others is where the middle of a row ends in most tables.
const others = .64

// tables sets all that the card holds.
func (c *cardBook) tables(card *record.Card) {
	c.middle = others
	c.set(measure{right: c.column(), h: c.lead + 3}, span{text: card.Title, style: style{face: bold, size: c.size + 3}})
	c.words("Field card")
	c.blocks = append(c.blocks, block{to: len(c.lines)})
	c.filters(card)
	c.begin("Zones, in stops")
	for _, z := range card.Zones {
		c.row(regular, z.Zone, "", z.Stops)
	}
	c.words("From the reading: what is placed on III gets two stops less.")
	c.end()
	c.lights(card.Lights)
	for _, f := range card.Films {
		c.table("Film "+f.Name, "metered", "give", "times", f.Rows, f.Facts, f.Rule)
	}
	for _, l := range card.Lenses {
		c.table("Lens "+l.Name, "ext", "stops", "scale", l.Rows, l.Facts, "")
	}
	c.begin("Care")
	c.words("Never look at the sun through a lens, a filter or a spot meter.")
	c.words("What is computed here ends at the film: for chemicals follow their safety data sheets and your local rules.")
	c.end()
	if c.oneSided() { // below the strip there is room, and once it is cut nobody needs to know
		from := len(c.lines)
		c.set(measure{right: 2 * c.leaflet.w, h: grid}, span{text: c.folding, style: style{face: regular, size: 8, ink: grey}})
		c.folded = [2]int{from, len(c.lines)}
		return
	}
	c.begin("This paper")
	c.words(c.folding)
	c.end()
}

func (c *cardBook) filters(card *record.Card) {
	if len(card.Filters) > 0 {
		c.begin("Filters, in stops")
		published := false
		for _, f := range card.Filters {
			figure := "–"
			if f.Stops.Known {
				figure = exposure.FormatAmount(f.Stops.Value)
			}
			name := f.Name
			if !f.Own && f.Stops.Known {
				published = true
				name += " *"
			}
			c.row(regular, name, "", figure)
			for _, per := range f.Per {
				c.row(italic, "   "+per.Name, "", strings.TrimSuffix(strings.TrimSuffix(per.Value, "s"), " stop"))
			}
		}
		if published {
			c.words("* published, not your own value")
		}
		c.end()
	}
	if len(card.Stacks) > 0 {
		c.begin("Two filters together")
		for _, s := range card.Stacks {
			c.row(regular, s.First+" + "+s.Second, "", exposure.FormatAmount(s.Stops))
		}
		c.end()
	}
}

func (c *cardBook) lights(all []record.CardLight) {
	c.begin("Sunny 16")
	c.middle = .84
	c.row(italic, "at 1/EI", "", "EV")
	c.headed()
	var sources []string
	for _, l := range all {
		c.row(regular, l.Name, l.Aperture, strings.TrimPrefix(l.EV100, "EV "))
		if l.Source != "" && !strings.Contains(strings.Join(sources, "; "), l.Source) {
			sources = append(sources, l.Source)
		}
	}
	c.middle = others
	c.told()
	c.words("Light values at ISO 100. " + strings.Join(sources, "; "))
	c.end()
}

// table is the small table of a film or a lens, and what else is known of it.
func (c *cardBook) table(head, what, costs, more string, rows []record.CardRow, facts []record.Fact, rule string) {
	c.begin(head)
	c.blocks[len(c.blocks)-1].thing = true
	if len(rows) > 0 {
		c.row(italic, what, costs, more)
		c.headed()
	}
	for _, r := range rows {
		if r.More == "" {
			c.row(regular, r.What, "", r.Costs)
			continue
		}
		c.row(regular, r.What, r.Costs, r.More)
	}
	c.told()
	for _, f := range facts {
		c.words(f.Name + ": " + f.Value)
	}
	if rule != "" {
		c.words("long times: " + rule)
	}
	c.end()
}

// placed is a line of a column, and where in it.
type placed struct {
	line int
	y    float64
}

// flow parts the blocks into columns. A block that has no room begins a column, or where
// it takes several a panel; on paper whose tables may be torn only where much of a column
// would not stay empty. Of a block that goes on in the next column no less than two lines
// stand behind its head.
func (c *cardBook) flow() (columns [][]placed) {
	var column []placed
	y, deep := 0.0, c.deep()
	c.torn = false
	next := func() {
		columns, column, y = append(columns, column), nil, 0
	}
	put := func(i int) {
		column = append(column, placed{i, y})
		y += c.lines[i].h
	}
	for _, b := range c.blocks {
		if y > 0 {
			y += c.lead / 2
		}
		whole, least := c.tall(b.from, b.to), c.tall(b.from, min(max(b.head, b.from)+2, b.to))
		switch {
		case y == 0 || y+whole <= deep:
		case whole <= deep && (c.keeps(&b) || y > deep/2), y+least > deep:
			next()
		}
		if c.keeps(&b) && whole > deep {
			for len(columns)%c.across > 0 && c.over(&b, y) > c.across-len(columns)%c.across {
				next()
			}
			if y > 0 && len(columns)%c.across == 0 && c.over(&b, y) > c.across {
				for next(); len(columns)%c.across > 0; {
					next()
				}
			}
		}
		panel := len(columns) / c.across
		for i := b.from; i < b.to; i++ {
			row := i // the last line that must stay with this one
			for row+1 < b.to && c.lines[row].keep {
				row++
			}
			if h := c.tall(i, row+1); len(column) > 0 && (y+h > deep && h <= deep/2 || y+c.lines[i].h > deep) {
				next()
				for k := b.from; k < c.again(&b, i); k++ {
					put(k)
				}
			}
			put(i)
		}
		c.torn = c.torn || c.keeps(&b) && len(columns)/c.across != panel
	}
	return append(columns, column)
}

// keeps reports whether a block is to be whole.
func (c *cardBook) keeps(b *block) bool { return c.whole == everything || c.whole == things && b.thing }

// tall is how high some lines are.
func (c *cardBook) tall(from, to int) (h float64) {
	for _, l := range c.lines[from:to] {
		h += l.h
	}
	return h
}

// again is up to which line the head of a block comes again where it goes on with line i.
func (c *cardBook) again(b *block, i int) int {
	head := b.head
	if i >= b.rows && b.rows > b.head {
		head = b.title
	}
	if i < head || c.tall(b.from, head) >= c.deep()/2 {
		return b.from
	}
	return head
}

// over is how many columns a block takes that begins in one at y.
func (c *cardBook) over(b *block, y float64) int {
	n, deep := 1, c.deep()
	for i := b.from; i < b.to; i++ {
		if y+c.lines[i].h > deep && y > 0 {
			n++
			y = c.tall(b.from, c.again(b, i))
		}
		y += c.lines[i].h
	}
	return n
}

// impose sets the columns on their panels, and the panels on paper.
func (c *cardBook) impose(columns [][]placed) {
	panels := (len(columns) + c.across - 1) / c.across
	for first := 0; first < panels; first += perSheet {
		for _, back := range []bool{false, true} {
			if back && c.oneSided() {
				continue
			}
			c.addPage(true)
			c.marksOfSheet()
			for i := c.folded[0]; i < c.folded[1]; i++ {
				c.drawLine(&c.lines[i], c.panels[perSheet/2].x, c.panels[perSheet/2-1].y+c.leaflet.h+2*grid+float64(i-c.folded[0])*grid)
			}
			for i, p := range c.panels {
				if n := first + i; p.back == back && n < panels {
					c.drawPanel(p, n, columns[c.across*n:min(c.across*(n+1), len(columns))])
				}
			}
		}
	}
}

// oneSided reports whether all panels stand on the front.
func (c *cardBook) oneSided() bool { return c.w == pocketWide }

func (c *cardBook) drawPanel(p panel, n int, columns [][]placed) {
	c.turn(p)
	for i, column := range columns {
		x := p.x + c.margin + float64(i)*(c.column()+c.between)
		for _, at := range column {
			c.drawLine(&c.lines[at.line], x, p.y+c.margin+at.y)
		}
	}
	number := strconv.Itoa(n + 1)
	look := style{face: regular, size: 7, ink: grey}
	c.text(p.x+c.leaflet.w-c.margin-c.faces().width(regular, 7, number), p.y+c.leaflet.h-c.margin, number, look)
	c.turn(p)
}

// turn stands what follows on its head about the middle of a panel that is
// turned. Doing it twice undoes it.
func (c *cardBook) turn(p panel) {
	if p.turned {
		c.out = append(c.out, "-1 0 0 -1 "...)
		c.number(2*p.x + c.leaflet.w)
		c.number(2*(c.pen.height-p.y) - c.leaflet.h)
		c.out = append(c.out, "cm\n"...)
	}
}

// marksOfSheet draws where to fold and where to cut: dashes for a fold, a whole
// line for a cut.
func (c *cardBook) marksOfSheet() {
	look := style{face: italic, size: 7, ink: grey}
	w, h := c.paper.w, c.paper.h
	if !c.oneSided() {
		c.dashes(w/2, 0, w/2, 18)
		c.dashes(w/2, h-18, w/2, h)
		c.dashes(0, h/2, w, h/2)
		c.text(w/2+4, 16, "fold", look)
		c.text(18, h/2-3, "fold, then cut", look)
		return
	}
	x, y := c.panels[pocketRows].x, c.panels[0].y
	right, foot := x+2*c.leaflet.w, y+pocketRows*c.leaflet.h
	c.frame(x, y, right-x, foot-y, .4, grey)
	c.text(x, y-5, "cut", look)
	middle := x + c.leaflet.w
	c.dashes(middle, y-16, middle, y-2)
	c.dashes(middle, foot+2, middle, foot+16)
	c.text(middle+4, y-8, "fold first", look)
	for i := 1; i < pocketRows; i++ {
		at := y + float64(i)*c.leaflet.h
		c.dashes(x-16, at, x-2, at)
		c.dashes(right+2, at, right+16, at)
		c.text(right+3, at-3, "fold", look)
	}
}

// dashes draws a broken line, upright or level.
func (c *cardBook) dashes(x1, y1, x2, y2 float64) {
	const on, off = 4, 3
	for at := 0.0; at < x2-x1+y2-y1; at += on + off {
		if x1 == x2 {
			c.stroke(x1, y1+at, x1, min(y1+at+on, y2), .4, grey)
		} else {
			c.stroke(x1+at, y1, min(x1+at+on, x2), y1, .4, grey)
		}
	}
}
