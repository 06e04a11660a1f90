package pdf

import (
	"cmp"
	"slices"
	"strings"
)

// Tables: the writer's own, and those that the book makes. Columns are as wide as
// their text, and narrowed where they do not fit; the head is repeated on every
// page on which the table goes on.

// tableRow is a row of a table.
type tableRow struct {
	head  bool
	cells []cell
}

// cell is one text of a row; how it is aligned: "", "left", "center", "right".
type cell struct {
	spans []span
	align string
}

// words is a cell of plain text, figures one whose text stands at the right.
func words(text string) cell { return cell{spans: []span{{text: text, style: plain}}} }
func figures(text string) cell {
	return cell{spans: []span{{text: text, style: plain}}, align: "right"}
}

// headRow is the head of a table whose rows are aligned like like.
func headRow(like tableRow, names ...string) tableRow {
	r := tableRow{head: true}
	for i, name := range names {
		c := cell{spans: []span{{text: name, style: strong}}}
		if i < len(like.cells) {
			c.align = like.cells[i].align
		}
		r.cells = append(r.cells, c)
	}
	return r
}

// filledColumns leaves out the columns in which nothing stands below the head.
func filledColumns(rows []tableRow) []tableRow {
	for i := len(rows[0].cells) - 1; i >= 0; i-- {
		filled := false
		for _, r := range rows[1:] {
			for _, sp := range r.cells[i].spans {
				filled = filled || sp.page != nil || sp.text != "" && sp.text != none
			}
		}
		if !filled && len(rows[0].cells) > 1 {
			for j := range rows {
				rows[j].cells = slices.Delete(rows[j].cells, i, i+1)
			}
		}
	}
	return rows
}

// none is what a table says instead of nought.
const none = "–"

// cellStyle is bold in the head of a table.
func cellStyle(head bool) style {
	if head {
		return strong
	}
	return plain
}

// columnGap parts the columns of a table.
const columnGap = 10.0

// setTable sets a table whose rows are all at hand.
func (g *galley) setTable(rows []tableRow, left, right float64) {
	if len(rows) > 0 {
		g.setRows(rows, g.edges(rows, left, right))
		g.space(grid)
	}
}

// setRows sets rows between edges; the last edge is the table's right.
func (g *galley) setRows(rows []tableRow, edges []float64) {
	top, tall := len(g.lines), 0
	for i := range rows {
		first := len(g.lines)
		g.setRow(&rows[i], edges)
		if rows[i].head && first == top+tall {
			tall = len(g.lines) - top
			continue
		}
		for j := first; j < len(g.lines) && tall > 0; j++ {
			g.lines[j].head, g.lines[j].headTall = j-top, tall
		}
	}
}

// edges finds where the columns begin. Where the columns cannot all be as wide as
// their text, each is at least as wide as its longest word, if even that has room.
func (g *galley) edges(rows []tableRow, left, right float64) []float64 {
	var full, least []float64
	for _, row := range rows {
		for i := range row.cells {
			if i == len(full) {
				full, least = append(full, 0), append(least, 0)
			}
			full[i] = max(full[i], g.natural(row.cells[i].spans))
			least[i] = max(least[i], g.longestWord(row.cells[i].spans))
		}
	}
	room := right - left - columnGap*float64(len(full))
	widths := full
	if sum(full) > room+slack {
		if sum(least) > room {
			// A column of one long word must not starve the others.
			for i := range least {
				least[i] = min(least[i], room/float64(len(full)))
			}
		}
		spare := (room - sum(least)) / (sum(full) - sum(least))
		for i := range widths {
			widths[i] = least[i] + spare*(full[i]-least[i])
		}
	}
	edges := []float64{left}
	for i, w := range widths {
		edges = append(edges, edges[i]+w+columnGap)
	}
	return edges
}

func sum(list []float64) (total float64) {
	for _, v := range list {
		total += v
	}
	return total
}

// longestWord is the width of the longest word of a text.
func (g *galley) longestWord(spans []span) float64 {
	longest := 0.0
	for _, sp := range spans {
		if sp.page != nil {
			longest = max(longest, g.numberRoom(sp.size))
		}
		for word := range strings.FieldsSeq(sp.text) {
			longest = max(longest, g.faces.width(sp.face, sp.size, word))
		}
	}
	return longest + 1
}

// natural is the width of text on one line.
func (g *galley) natural(spans []span) float64 {
	alone := galley{faces: g.faces, room: g.room}
	g.faces.trying = true // this text is set again
	alone.set(measure{right: 1e9}, spans...)
	g.faces.trying = false
	w := 0.0
	for _, q := range alone.pieces {
		w = max(w, q.x+q.w)
	}
	return w + 1
}

// setRow sets the cells side by side, line by line.
func (g *galley) setRow(r *tableRow, edges []float64) {
	cells := make([]*galley, len(r.cells))
	for i, c := range r.cells {
		cells[i] = &galley{faces: g.faces, room: g.room}
		m := measure{left: edges[i], right: edges[i+1] - columnGap + 1}
		cells[i].set(m, c.spans...)
		cells[i].align(c.align, m)
	}
	first := len(g.lines)
	g.beside(cells...)
	g.keepFrom(first)
	if n := len(g.lines); n > first {
		g.lines[n-1].keep = r.head
		g.lines[first].rule, g.lines[first].ink = !r.head, faint
		g.lines[first].reach = [2]float64{edges[0], edges[len(r.cells)] - columnGap}
	}
}

// align moves each line to the right or the middle of its measure.
func (g *galley) align(how string, m measure) {
	for _, l := range g.lines {
		if l.to == l.from || how == "" || how == "left" {
			continue
		}
		last := g.pieces[l.to-1]
		free := m.right - last.x - last.w
		if how == "center" {
			free /= 2
		}
		for i := l.from; i < l.to; i++ {
			g.pieces[i].x += free
			g.pieces[i].right = how == "right"
		}
	}
}

// beside sets galleys next to one another: their first lines make one line,
// and so on. Heights, pictures and marks are those of the first that has them,
// drawings those of any.
func (g *galley) beside(columns ...*galley) {
	for i := 0; ; i++ {
		out := line{from: len(g.pieces)}
		some := false
		for _, c := range columns {
			if i >= len(c.lines) {
				continue
			}
			l := c.lines[i]
			g.pieces = append(g.pieces, c.pieces[l.from:l.to]...)
			l.from, l.keep = out.from, l.keep || out.keep
			if some {
				out.h, out.keep, out.figure = max(out.h, l.h), l.keep, cmp.Or(out.figure, l.figure)
			} else {
				out, some = l, true
			}
		}
		if !some {
			return
		}
		out.to = len(g.pieces)
		g.lines = append(g.lines, out)
	}
}
