// Package text writes the record as plain text that reads well in any editor,
// now and when nothing else of it can be opened: UTF-8, lines of at most 72
// columns that end in LF, no tabs, headings underlined.
package text

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/saying"
)

// Options say how the text is written.
type Options struct {
	Generator string // what wrote it: "notchbook 0.1"
}

// sections are the text's, in order; one that is empty is left out.
var sections = []struct {
	title string
	write func(*page, *record.Season)
}{
	{"Findings", (*page).findings},
	{"Unchecked or unread", (*page).unchecked},
	{"To develop", (*page).toDevelop},
	{"Outings", (*page).outings},
	{"Holders", (*page).holders},
	{"Negatives", (*page).negatives},
	{"Lost sheets", (*page).losses},
	{"Years and places", (*page).yearsAndPlaces},
	{"Kit", (*page).kit},
	{"Scans", (*page).scans},
	{"Notebooks", (*page).notebooks},
}

// Write writes the record of s. The same season and options give the same bytes.
// The error is w's own.
func Write(w io.Writer, s *record.Season, o Options) error {
	p := &page{}
	p.front(s, o)
	for _, part := range sections {
		inner := &page{begun: true}
		part.write(inner, s)
		if text := inner.b.String(); text != "" {
			p.heading(part.title, ofSection)
			p.gap()
			p.whole(strings.TrimLeft(text, "\n"))
		}
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}

// whole adds what was set elsewhere.
func (p *page) whole(text string) {
	if p.air {
		p.b.WriteByte('\n')
	}
	p.air = false
	p.b.WriteString(text)
}

// front says what this is, at a glance.
func (p *page) front(s *record.Season, o Options) {
	p.heading(s.Title, ofSeason)
	p.gap()
	t := &s.Tally
	p.row("last day", s.LastDay)
	p.row("outings", fmt.Sprint(t.Outings))
	p.row("sheets", saying.Sheets(&t.Counts))
	p.row("developed", fmt.Sprint(t.Developed))
	p.row("scanned", fmt.Sprint(t.Scanned))
	p.row("findings", cmp.Or(saying.Findings(t), "none"))
	p.row("lines", fmt.Sprintf("%d: %d of the log, %d of prose, %d not understood", t.AllLines, t.LogLines, t.ProseLines, t.UnreadLines))
	if s.Public {
		p.row("private", "remarks were left out")
	}
	for _, c := range s.Cautions {
		p.gap()
		p.text(c, "")
	}
	p.gap()
	p.text("Written by "+cmp.Or(o.Generator, "notchbook")+". The notebooks are the original: this is what was understood of them, with every log line as typed.", "")
}

// outings are the days with the writer's prose where it stood, and behind them
// the sheets that no day shows.
func (p *page) outings(s *record.Season) {
	shown := map[*record.Sheet]bool{}
	for _, o := range s.Outings {
		p.outing(o, shown)
	}
	headed := false
	for _, sh := range s.Sheets {
		if !shown[sh] {
			if !headed {
				p.heading("Other sheets", ofPart)
				headed = true
			}
			p.sheet(sh)
		}
	}
}

func (p *page) outing(o *record.Outing, shown map[*record.Sheet]bool) {
	p.heading(o.Title, ofSection)
	date, place, notebook := saying.BesideTitle(o)
	if below := saying.Join(" · ", date, place, notebook); below != "" {
		p.text(below, "  ")
	}
	p.gap()
	lines := false // log lines stand close to one another
	for i := range o.Entries {
		e := &o.Entries[i]
		if (e.Line != nil || e.Unread != nil) != lines {
			p.gap()
			lines = !lines
		}
		switch {
		case e.Prose != nil:
			if i > 0 || e.Prose.Kind != record.Heading || inlines(e.Prose.Text) != o.Title {
				p.block(e.Prose)
			}
		case e.Scene != nil:
			p.heading(cmp.Or(e.Scene.Title, "Scene"), ofPart)
			p.row("light", e.Scene.Light)
			p.did(e.Scene.Compared)
			p.gap()
			if e.Scene.Line.Text != "" {
				p.typed(e.Scene.Line, o.Path)
				lines = true
			}
		case e.Sheet != nil && !shown[e.Sheet]:
			shown[e.Sheet] = true
			p.sheet(e.Sheet)
			p.gap()
		case e.Line != nil:
			p.typed(*e.Line, o.Path)
		case e.Unread != nil:
			p.typed(*e.Unread, o.Path)
			p.row("", "^ not understood")
		}
	}
}
