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

// setTable sets a table whose rows are all at hand. Where the words of its head have no
// room side by side, the columns that are over stand below, behind the first once more.
func (g *galley) setTable(rows []tableRow, left, right float64) {
	for len(rows) > 0 {
		var rest []tableRow
		if n := g.fitHead(rows, right-left); n > 0 {
			rows, rest = parted(rows, n)
		}
		g.setRows(rows, g.edges(rows, left, right))
		g.space(grid)
		rows = rest
	}
}

// headSizes are tried for a head whose words have no room.
var headSizes = [...]float64{smallSize, 6.5}

// fullWord is what a word below the head has of a column without dispute.
const fullWord = 60.0

// fitHead sets a head in smaller type where its words have no room. Where even that does
// not help it returns how many columns fit.
func (g *galley) fitHead(rows []tableRow, room float64) int {
	for _, size := range headSizes {
		if g.columnsIn(rows, room) == 0 {
			return 0
		}
		for _, row := range rows {
			for _, c := range row.cells {
				for i := range c.spans {
					if row.head {
						c.spans[i].size = min(c.spans[i].size, size)
					}
				}
			}
		}
	}
	return g.columnsIn(rows, room)
}

// columnsIn says how many columns have room for their words, two or more, or 0 for all.
func (g *galley) columnsIn(rows []tableRow, room float64) int {
	_, least, heads := g.widths(rows)
	for i := range least {
		room -= max(heads[i], min(least[i], fullWord)) + columnGap
		if room < 0 {
			return max(i, 2) % len(least)
		}
	}
	return 0
}

// parted cuts the rows behind the n-th column.
func parted(rows []tableRow, n int) (before, behind []tableRow) {
	for _, row := range rows {
		n, first := min(n, len(row.cells)), min(1, len(row.cells))
		before = append(before, tableRow{row.head, row.cells[:n]})
		behind = append(behind, tableRow{row.head, slices.Concat(row.cells[:first], row.cells[n:])})
	}
	return before, behind
}

// setRows sets rows between edges; the last edge is the table's right. No row of several
// stands alone on a page, neither the first nor the last.
func (g *galley) setRows(rows []tableRow, edges []float64) {
	top, tall := len(g.lines), 0
	var ends []int // the last line of each row below the head
	for i := range rows {
		first := len(g.lines)
		g.setRow(&rows[i], edges)
		if rows[i].head && first == top+tall {
			tall = len(g.lines) - top
			continue
		}
		ends = append(ends, len(g.lines)-1)
		for j := first; j < len(g.lines) && tall > 0; j++ {
			g.lines[j].head, g.lines[j].headTall = j-top, tall
		}
	}
	if n := len(ends); n > 1 && ends[0] >= 0 {
		g.lines[ends[0]].keep, g.lines[ends[n-2]].keep = true, true
	}
}

// edges finds where the columns begin. Where the columns cannot all be as wide as
// their text, each is at least as wide as the longest word of its head, and as its
// longest word, if even that has room.
func (g *galley) edges(rows []tableRow, left, right float64) []float64 {
	full, least, heads := g.widths(rows)
	room := right - left - columnGap*float64(len(full))
	widths := full
	if sum(full) > room+slack {
		if sum(least) > room {
			leastWithin(room, least, heads)
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

// leastWithin cuts the widest columns down until all have room, none below its head: a
// column of one long word must not starve the others.
func leastWithin(room float64, least, heads []float64) {
	cut := func(most float64, i int) float64 { return min(least[i], max(heads[i], most)) }
	low, high := 0.0, slices.Max(least)
	for range 40 {
		most, all := (low+high)/2, 0.0
		for i := range least {
			all += cut(most, i)
		}
		if all > room {
			high = most
		} else {
			low = most
		}
	}
	for i := range least {
		least[i] = cut(low, i)
	}
}

// widths are of each column that of its longest text, of its longest word, and of the
// longest word of its head.
func (g *galley) widths(rows []tableRow) (full, least, heads []float64) {
	for _, row := range rows {
		for i := range row.cells {
			if i == len(full) {
				full, least, heads = append(full, 0), append(least, 0), append(heads, 0)
			}
			word := g.longestWord(row.cells[i].spans)
			full[i] = max(full[i], g.natural(row.cells[i].spans))
			least[i] = max(least[i], word)
			if row.head {
				heads[i] = max(heads[i], word)
			}
		}
	}
	return full, least, heads
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
