package pdf

import (
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// Side by side: the sheets of one scene next to one another, their pictures above
// the facts in which they differ.

const factColumn = 84.0 // where the names of the facts stand

// besideScenes are the scenes that have something to compare.
func (b *book) besideScenes() []*record.Scene {
	if b.compared != nil {
		return b.compared
	}
	b.compared = []*record.Scene{}
	for _, o := range b.season.Outings {
		for _, sc := range o.Scenes {
			if len(sc.Sheets) > 1 {
				b.compared = append(b.compared, sc)
			}
		}
	}
	return b.compared
}

// scenes sets every scene with more than one sheet.
func (b *book) scenes() {
	b.beginBelow(scenesTitle, "the sheets of a scene, and in what they differ")
	for _, sc := range b.besideScenes() {
		b.sceneBeside(sc)
		b.place()
		b.carry = ""
	}
}

// sceneBeside sets one scene, as many sheets in a row as the page has room for.
func (b *book) sceneBeside(sc *record.Scene) {
	b.space(grid)
	first := len(b.lines)
	below := ""
	if sc.Outing != nil {
		below = headOf(sc.Outing)
	}
	m := measure{right: b.width()}
	if b.has("outings") {
		m.page = b.markOf(sc)
	}
	title := orWords(sc.Title, "A scene without a name")
	b.carry, b.carryTo = title+", continued", first
	b.set(m, b.faces().spare(span{text: title, style: style{face: bold, size: 10.5}},
		span{text: lead(saying.Given(below)), style: aside})...)
	b.keepFrom(first)
	facts, _ := saying.Compare(sc.Sheets[0], sc.Sheets)
	columns := max(2, int((b.width()-factColumn)/80))
	for at := 0; at < len(sc.Sheets); at += columns {
		b.besideRow(sc.Sheets[at:min(at+columns, len(sc.Sheets))], facts, at, columns)
	}
	if len(facts) == 0 {
		b.set(measure{right: b.width()}, span{text: "Entered alike.", style: aside})
	}
	b.space(grid)
}

// besideRow sets some sheets of a scene, from the at-th on.
func (b *book) besideRow(sheets []*record.Sheet, facts []saying.Difference, at, columns int) {
	step := (b.width() - factColumn) / float64(columns)
	edges := []float64{0, factColumn}
	row := tableRow{cells: []cell{words("")}}
	shown := make([]*picture, len(sheets))
	for i, s := range sheets {
		edges = append(edges, factColumn+step*float64(i+1))
		shown[i] = b.firstPicture(s)
		row.cells = append(row.cells, cell{spans: b.sheetRef(s, s.Label)})
	}
	row.head = true
	first := len(b.lines)
	b.pictureRow(shown, factColumn, step-columnGap, step)
	rows := []tableRow{row}
	for _, f := range facts {
		r := tableRow{cells: []cell{{spans: []span{{text: f.Name, style: label}}}}}
		for i := range sheets {
			r.cells = append(r.cells, cell{spans: []span{{text: f.Values[at+i], style: style{size: smallSize}}}})
		}
		rows = append(rows, r)
	}
	head := len(b.lines)
	b.setRows(rows, edges)
	together := len(b.lines) - 1
	if tall := float64(together-head)*grid + b.lines[first].h; tall > b.wholeEntry() {
		together = min(head+3, together)
	}
	for i := first; i < together; i++ {
		b.lines[i].keep = true
	}
	b.space(grid)
}
