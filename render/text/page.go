package text

import (
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/ruler"
)

// page is the text in the making. Whatever is added ends its own line; gap asks
// for one empty line before the next thing, however often it is asked.
type page struct {
	b      strings.Builder
	indent string // before every line: of quotes and lists
	before string // before the next line instead: the marks of what begins with it
	air    bool
	begun  bool
	held   map[string]bool // how well a forecast does, where it was said
	tight  bool            // a list whose items stand close: no gaps
}

func (p *page) gap() { p.air = p.air || !p.tight }

// line adds a line as it is.
func (p *page) line(s string) {
	if p.before == "" {
		p.breathe()
	}
	p.air, p.begun = false, true
	lead := p.indent
	if p.before != "" {
		lead, p.before = p.before, ""
	}
	p.b.WriteString(strings.TrimRight(lead+s, " ") + "\n")
}

// breathe adds the empty line that was asked for.
func (p *page) breathe() {
	if p.air && p.begun {
		p.b.WriteString(strings.TrimRight(p.indent, " ") + "\n")
	}
	p.air = false
}

// room is the columns that are left for text.
func (p *page) room() int { return max(Width-ruler.Width(p.indent), 20) }

// text adds a paragraph, its further lines moved right.
func (p *page) text(s, further string) {
	for i, line := range wrapped(cleaned(s), p.room(), p.room()-ruler.Width(further)) {
		if i > 0 {
			line = further + line
		}
		p.line(line)
	}
}

// heading adds a heading with a line below it.
func (p *page) heading(s, below string) {
	p.gap()
	widest := 0
	for _, line := range wrapped(cleaned(s), p.room(), p.room()) {
		p.line(line)
		widest = max(widest, ruler.Width(line))
	}
	p.line(strings.Repeat(below, max(widest, 1)))
}

// The lines below headings, from the highest.
const (
	ofSeason  = "="
	ofSection = "="
	ofPart    = "-"
	ofSheet   = "~"
)

// valueAt is the column in which values stand behind their names.
const valueAt = 16

// row adds a name and, in their column, its values, each beginning a line and
// going on further in. Where there is no value there is no row.
func (p *page) row(name string, values ...string) {
	for _, v := range values {
		if v == "" {
			continue
		}
		room := p.room() - max(valueAt, ruler.Width(name)+1)
		for i, line := range wrapped(cleaned(v), room, p.room()-valueAt-2) {
			if i > 0 {
				line = "  " + line
			}
			p.line(spread(name, valueAt, line))
			name = ""
		}
	}
}

// spread puts a text behind a name, in a column or right behind it.
func spread(name string, column int, s string) string {
	return name + strings.Repeat(" ", max(column-ruler.Width(name), 1)) + s
}

// typed adds a line as it was typed, behind its number. What stands in another
// notebook than expected has its name with it.
func (p *page) typed(l record.Line, notebook string) {
	if l.Place.Path != notebook && l.Place.Path != "" {
		p.text(l.Place.String()+":", "")
		p.row("", ruler.Untab(l.Text, 0))
		return
	}
	p.row(lineNumber(l.Place), ruler.Untab(l.Text, 0))
}
