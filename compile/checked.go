package compile

import (
	"slices"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
)

// Checked is a season behind its last check. Whoever asks again at every
// keystroke takes the findings from it and has the record made only when he
// needs it.
type Checked struct {
	season *season
	memory *lang.Memory
	list   diag.List
	record *record.Season
	behind map[*record.Sheet]*sheet
}

// Check runs the passes up to the findings. It says what Compile says of the
// same notebooks and makes no record of them.
func Check(world World, names ...string) *Checked { return checked(world, names, nil) }

// Again checks the next edition of the notes. What was read of lines that are
// still the same is not read again. c is done with: the two may not be asked for
// a third edition both.
func (c *Checked) Again(world World, names ...string) *Checked {
	if c == nil || c.memory == nil {
		return checked(world, names, &lang.Memory{})
	}
	return checked(world, names, c.memory)
}

func checked(world World, names []string, memory *lang.Memory) *Checked {
	c := &Checked{season: recompiled(world, names, memory), memory: memory}
	ordered(c.season.found)
	c.list = make(diag.List, len(c.season.found))
	for i := range c.season.found {
		c.list[i] = c.season.found[i].Diagnostic
	}
	return c
}

// Findings is what there is to say, sorted by place.
func (c *Checked) Findings() diag.List { return c.list }

// Counts is the sheets by their states. What was developed and scanned stands in
// the record.
func (c *Checked) Counts() (all record.Counts) {
	for _, sh := range c.season.sheets {
		all.Count(sh.sum.state)
	}
	return all
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

// FreeSides is the holder sides that were loaded on the day of a sheet, or on the
// last day where none is meant, and not exposed since, in the order loaded.
func (c *Checked) FreeSides(of *record.Sheet) []string {
	var day *outing
	if of != nil {
		day = c.behind[of].outing
	} else if n := len(c.season.outings); n > 0 {
		day = c.season.outings[n-1]
	}
	if day == nil {
		return nil
	}
	var free []string
	for _, e := range day.entries {
		if e.line == nil || e.line.Word != lang.Load {
			continue
		}
		for _, l := range e.line.Labels {
			if !slices.Contains(free, l.Text) {
				free = append(free, l.Text)
			}
		}
	}
	return slices.DeleteFunc(free, func(side string) bool {
		return slices.ContainsFunc(day.sheets, func(sh *sheet) bool { return strings.EqualFold(sh.label, side) })
	})
}

// KitNames is the notebooks that declare things and log no sheet.
func (c *Checked) KitNames() []string {
	var names []string
	for _, b := range c.season.books {
		logs := slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool { return st.Word == lang.Sheet })
		kit := slices.ContainsFunc(b.Statements, func(st *lang.Statement) bool { return len(st.Labels) > 0 && declares(st.Word) })
		if kit && !logs {
			names = append(names, b.name)
		}
	}
	return names
}
