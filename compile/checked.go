package compile

import (
	"cmp"
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Checked is a season behind its last check. Whoever asks again at every
// keystroke takes the findings from it and has the record made only when he
// needs it.
type Checked struct {
	season *season
	memory *memory
	list   diag.List
	record *record.Season
	behind map[*record.Sheet]*sheet
}

// Check runs the passes up to the findings. It says what Compile says of the
// same notebooks and makes no record of them.
func Check(world World, names ...string) *Checked { return checked(world, names, nil) }

// Again checks the next edition of the notes. What was read of lines that are
// still the same is not read again, and its sheets stand where those of c stood: c
// is done with, and may be asked nothing more.
func (c *Checked) Again(world World, names ...string) *Checked {
	if c == nil || c.memory == nil {
		return checked(world, names, &memory{})
	}
	return checked(world, names, c.memory)
}

func checked(world World, names []string, memory *memory) *Checked {
	c := &Checked{season: recompiled(world, names, memory), memory: memory}
	c.season.ordered()
	c.list = make(diag.List, len(c.season.found))
	for i := range c.season.found {
		c.list[i] = c.season.found[i].Diagnostic
	}
	return c
}

// Findings is what there is to say, sorted by place.
func (c *Checked) Findings() diag.List { return c.list }

// Counts is the sheets, and their exposures by their states. What was developed and scanned stands in
// the record.
func (c *Checked) Counts() (all record.Counts) {
	first := func(sh *sheet) *sheet {
		for sh.first != nil {
			sh = sh.first
		}
		return sh
	}
	record.Count(&all, c.season.sheets, (*sheet).standing, first)
	return all
}

// standing is how a sheet counts, as record.Sheet.Standing.
func (sh *sheet) standing() record.State {
	if sh.sum.state == record.Right && sh.mistaken() {
		return record.Doubled
	}
	return sh.sum.state
}

// Cautions are the sentences that the trade puts beside what can hurt.
func (c *Checked) Cautions() []string { return c.season.cautions() }

// Record is the finished model, made when it is first asked for.
func (c *Checked) Record() *record.Season {
	if c.record == nil {
		c.record, c.list = c.season.gather()
		c.behind = make(map[*record.Sheet]*sheet, len(c.record.Sheets))
		for i, sh := range c.record.Sheets {
			c.behind[sh] = c.season.sheets[i]
		}
	}
	return c.record
}

// Notebooks are the trees of every notebook read, in the order in which they
// count.
func (c *Checked) Notebooks() []*lang.Notebook {
	trees := make([]*lang.Notebook, len(c.season.books))
	for i, b := range c.season.books {
		trees[i] = b.Notebook
	}
	return trees
}

// Notebook is the tree of the notebook with a name, nil where it was not read.
func (c *Checked) Notebook(name string) *lang.Notebook {
	i := slices.IndexFunc(c.season.books, func(b *book) bool { return b.name == name })
	if i < 0 {
		return nil
	}
	return c.season.books[i].Notebook
}

// SheetsAt is the sheets that the line at an offset of a notebook speaks of.
func (c *Checked) SheetsAt(name string, offset int) []*record.Sheet {
	var all []*record.Sheet
	for i, sh := range c.season.sheets {
		if slices.ContainsFunc(sh.lines, func(st *lang.Statement) bool {
			return st.Span.File.Name == name && offset >= st.Span.File.Line(st.Span.Start).Start && offset <= st.Span.End
		}) {
			all = append(all, c.Record().Sheets[i])
		}
	}
	return all
}

// LineEnd is the offset in its notebook at which the line ends that logs a
// sheet.
func (c *Checked) LineEnd(sh *record.Sheet) int {
	return c.behind[sh].lines[0].Span.End
}

// FreeSide is a holder side with film in it that was not exposed, and the line
// that loaded it.
type FreeSide struct {
	Label  string
	Loaded source.Span
}

// FreeSides is the holder sides that are loaded at a place of a notebook and in
// which no sheet was exposed since, here or further down, in the order loaded.
func (c *Checked) FreeSides(name string, offset int) []FreeSide {
	order := map[string]int{}
	for i, b := range c.season.books {
		order[b.name] = i
	}
	before := func(at source.Span) bool {
		return cmp.Or(cmp.Compare(order[at.File.Name], order[name]), cmp.Compare(at.Start, offset)) < 0
	}
	type place struct {
		FreeSide
		at    source.Span
		index int // among the labels of its line
	}
	var free []place
	for _, side := range c.season.sides {
		var load *place
		for _, e := range side.events {
			switch {
			case e.kind == sideLoaded && !before(e.at):
			case e.kind == sideLoaded && e.open == nil:
				i := slices.IndexFunc(e.st.Labels, func(l lang.Label) bool { return strings.EqualFold(l.Text, side.label) })
				load = &place{FreeSide{e.st.Labels[i].Text, e.st.Span}, e.at, i}
			case e.kind != sideLoaded && load != nil && !(e.kind == sideStated && e.word == "loaded"):
				load = nil
			}
		}
		if load != nil {
			free = append(free, *load)
		}
	}
	slices.SortFunc(free, func(a, b place) int {
		return cmp.Or(cmp.Compare(order[a.at.File.Name], order[b.at.File.Name]), cmp.Compare(a.at.Start, b.at.Start), cmp.Compare(a.index, b.index))
	})
	sides := make([]FreeSide, len(free))
	for i, p := range free {
		sides[i] = p.FreeSide
	}
	return sides
}

// LogsLoads reports whether the notes say anywhere which film is in which side.
func (c *Checked) LogsLoads() bool {
	for _, side := range c.season.sides {
		if slices.ContainsFunc(side.events, func(e *sideEvent) bool { return e.kind == sideLoaded }) {
			return true
		}
	}
	return false
}

// DayEnd is the offset in its notebook at which the outing of a sheet ends.
func (c *Checked) DayEnd(sh *record.Sheet) int {
	day := c.behind[sh].outing
	end := len(day.book.File.Text)
	for _, o := range c.season.outings {
		if o.book == day.book && o.at.File != nil && o.at.Start > day.at.Start {
			end = min(end, o.at.Start)
		}
	}
	return end
}

// Kit is the notebooks that declare things and log no sheet, with their texts. Where none does,
// notes are their own kit: of those that declare things, the lines that do, each on the line where
// it stands.
func (c *Checked) Kit() (names []string, texts map[string]string) {
	texts = map[string]string{}
	var own []*book
	for _, b := range c.season.books {
		switch {
		case !slices.ContainsFunc(b.Statements, declaration):
		case slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool { return st.Word == lang.Sheet }):
			own = append(own, b)
		default:
			names = append(names, b.name)
			texts[b.name] = string(b.File.Text)
		}
	}
	if len(names) > 0 {
		return names, texts
	}
	for _, b := range own {
		names = append(names, b.name)
		texts[b.name] = kitLines(b)
	}
	return names, texts
}

// kitLines is what a notebook says for all sheets, and nothing of any.
func kitLines(b *book) string {
	lines := make([]string, len(b.Lines))
	last := 0
	for _, st := range b.Statements {
		switch st.Word {
		case lang.Use, lang.OwnWord, lang.Call, lang.Tolerance, lang.Reciprocity, lang.ShutterWord:
		default:
			if !declaration(st) {
				continue
			}
		}
		last = lineIndex(b, st.Span.Start)
		lines[last] = st.Span.Text()
	}
	return strings.Join(lines[:last+1], "\n") + "\n"
}
