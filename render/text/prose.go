package text

import (
	"cmp"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/ruler"
)

// block sets one block of the writer's own text.
func (p *page) block(k *record.Block) {
	p.gap()
	switch k.Kind {
	case record.Heading:
		p.heading(inlines(k.Text), [...]string{ofSection, ofPart, ofSheet}[min(max(k.Level-1, 0), 2)])
		p.gap()
	case record.List:
		p.list(k)
	case record.Quote:
		p.within("> ", "> ", func() { p.blocks(k.Blocks) })
	case record.Code:
		p.within("    ", "    ", func() {
			for line := range strings.Lines(strings.TrimRight(k.Code, "\r\n")) {
				p.text(strings.TrimRight(line, "\r\n"), "  ")
			}
		})
	case record.Rule:
		p.line("- - -")
	case record.Table:
		p.table(k)
	default: // also of a kind not known here, so that none is lost
		p.paragraph(k.Text)
		p.blocks(k.Blocks)
	}
	p.gap()
}

func (p *page) blocks(all []record.Block) {
	for i := range all {
		p.block(&all[i])
	}
}

// paragraph keeps the breaks that were meant.
func (p *page) paragraph(text []record.Inline) {
	for line := range strings.Lines(inlines(text)) {
		p.text(strings.TrimRight(line, "\n"), "")
	}
}

// within sets something indented, with a mark at its first line. The mark of
// what is around it may stand on the same line.
func (p *page) within(first, others string, set func()) {
	if p.before == "" {
		p.breathe()
	}
	outer := p.indent
	p.before = cmp.Or(p.before, outer) + first
	p.indent = outer + others
	set()
	p.indent, p.before = outer, ""
}

func (p *page) list(k *record.Block) {
	around := p.tight
	for i := range k.Blocks {
		p.tight = k.Tight
		item, mark := &k.Blocks[i], bullet(k, i)
		p.within(mark, strings.Repeat(" ", ruler.Width(mark)), func() {
			p.paragraph(item.Text)
			p.blocks(item.Blocks)
			if p.before != "" {
				p.line("") // an empty item
			}
		})
		p.gap()
	}
	p.tight = around
}

// bullet is a number, a box or a dash.
func bullet(k *record.Block, i int) string {
	switch k.Blocks[i].Task {
	case "x":
		return "[x] "
	case " ":
		return "[ ] "
	}
	if k.Ordered {
		return strconv.Itoa(k.Start+i) + ". "
	}
	return "- "
}

// table sets columns where they fit, and else each cell as a row under its
// column's name.
func (p *page) table(k *record.Block) {
	var cells [][]string
	for i := range k.Blocks {
		var row []string
		for j := range k.Blocks[i].Blocks {
			row = append(row, cleaned(strings.ReplaceAll(inlines(k.Blocks[i].Blocks[j].Text), "\n", " ")))
		}
		cells = append(cells, row)
	}
	if len(cells) == 0 {
		return
	}
	p.columns(cells, len(k.Blocks) > 0 && k.Blocks[0].Head)
}

// columnGap is the blanks between two columns.
const columnGap = 2

// columns sets rows in columns, the first being their heads; where they are too
// wide, each row stands as a paragraph of its own, every cell with its head.
func (p *page) columns(rows [][]string, headed bool) {
	widths := columnWidths(rows)
	total := -columnGap
	for _, w := range widths {
		total += w + columnGap
	}
	if total > p.room() {
		p.cells(rows, headed)
		return
	}
	for i, row := range rows {
		p.line(aligned(row, widths))
		if i == 0 && headed {
			var rule []string
			for _, w := range widths {
				rule = append(rule, strings.Repeat("-", w))
			}
			p.line(strings.Join(rule, strings.Repeat(" ", columnGap)))
		}
	}
}

func columnWidths(rows [][]string) []int {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], ruler.Width(cell))
		}
	}
	return widths
}

func aligned(row []string, widths []int) string {
	line := ""
	for i, cell := range row {
		line += cell + strings.Repeat(" ", widths[i]-ruler.Width(cell)+columnGap)
	}
	return line
}

func (p *page) cells(rows [][]string, headed bool) {
	for i, row := range rows {
		if headed && i == 0 {
			continue
		}
		p.gap()
		for j, cell := range row {
			name := ""
			if headed && j < len(rows[0]) {
				name = rows[0][j]
			}
			p.row(name, cell)
		}
	}
}

// inlines is text with the marks that are usual in plain text; a hard break is a
// line end.
func inlines(list []record.Inline) string {
	var b strings.Builder
	for i := range list {
		switch k := &list[i]; k.Kind {
		case record.Emphasis:
			b.WriteString("*" + inlines(k.Inlines) + "*")
		case record.Strong:
			b.WriteString("**" + inlines(k.Inlines) + "**")
		case record.Struck:
			b.WriteString("~~" + inlines(k.Inlines) + "~~")
		case record.CodeSpan:
			b.WriteString("`" + k.Text + "`")
		case record.Link:
			b.WriteString(leading(inlines(k.Inlines), k.Target))
		case record.Picture:
			b.WriteString("[picture: " + leading(k.Text, k.Target) + "]")
		case record.SoftBreak:
			b.WriteByte(' ')
		case record.HardBreak:
			b.WriteByte('\n')
		default:
			b.WriteString(k.Text)
		}
	}
	return b.String()
}

// leading is text with where it leads.
func leading(text string, t record.Target) string {
	to := t.URL + t.Path
	if to == "" || to == text {
		return text
	}
	return strings.TrimSpace(text + " <" + to + ">")
}
