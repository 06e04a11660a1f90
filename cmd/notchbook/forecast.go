package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/compile/spectral"
	"notchbook/lang/diag"
	"notchbook/render/data"
	"notchbook/render/draw"
	"notchbook/render/html"
)

// forecastCommand says what filters will do.
type forecastCommand struct {
	Kit     string   `placeholder:"FILE" help:"Notebook that declares filters and films, with curves of your own."`
	Film    string   `default:"pan" help:"Film class (pan, ortho, blue) or a film of the kit."`
	Light   string   `choices:"daylight,tungsten" default:"daylight" help:"The light: daylight or tungsten."`
	Format  string   `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	Output  string   `short:"o" placeholder:"FILE.svg" help:"Write the drawing into a file, as SVG."`
	Filters []string `arg:"" name:"filter" help:"Filters and stacks, as on a sheet line: Y8 O21 R25+pol."`
	audience
}

// Run prints the forecast. Exit status 1 says that a curve is missing.
func (c *forecastCommand) Run(t terminal) error {
	kit, world, err := c.kit(c.Kit, t)
	if err != nil {
		return err
	}
	defer kit.close()
	out, unread, list := compile.Forecast(world, compile.Asked{Filters: c.Filters, Film: c.Film, Light: c.Light}, kit.names...)
	if err := kit.findings(t, t.err, list, 0); err != nil {
		return err
	}
	if out == nil {
		return errors.New(strings.Join(unread, "; ") + c.hint())
	}
	if c.Output != "" {
		if err := c.drawn(out); err != nil {
			return err
		}
	}
	if c.Format == "json" {
		if err := data.Forecast(t.out, out); err != nil {
			return err
		}
	} else if err := printForecast(t.out, out); err != nil {
		return err
	}
	for _, cast := range out.Casts {
		if cast.Missing != "" {
			return status(found)
		}
	}
	return nil
}

// hint says how a filter is written, or where it would be known from. No kit makes a
// light known.
func (c *forecastCommand) hint() string {
	if light := strings.ToLower(c.Light); light != spectral.Daylight && light != spectral.Tungsten {
		return ""
	}
	for _, f := range c.Filters {
		if strings.Trim(f, "0123456789") == "" {
			return "; a Wratten number by itself is written #" + f
		}
	}
	return kitHint(c.Kit)
}

// drawn writes the drawing into a file of its own.
func (c *forecastCommand) drawn(f *record.Forecast) error {
	if !strings.EqualFold(filepath.Ext(c.Output), ".svg") {
		return fmt.Errorf("%s: the drawing is written as .svg", c.Output)
	}
	d := draw.Forecast(f)
	if d == nil {
		return errors.New("there is nothing to draw")
	}
	return writeOver(c.Output, html.SVG(d), html.IsSVG)
}

func printForecast(out io.Writer, f *record.Forecast) error {
	p := &printer{out: out}
	p.line("%s in %s, in stops", f.Film, f.Light)
	p.line("")
	p.table(castRows(f))
	for _, c := range f.Casts {
		switch {
		case c.Missing != "":
			p.line("\n%s: no forecast, for %s", c.Name, c.Missing)
		case c.Dark:
			p.line("\n%s: leaves no light that this film sees, so that no factor is right", c.Name)
		default:
			p.moves(f, c)
		}
	}
	p.line("")
	p.wrapped("Once the filter's stops are given, grey stays where it was; + is lighter in the print, − darker. Quoted to a third of a stop, for the data are worth no more. Your own test is better.")
	for _, c := range f.Casts {
		for _, n := range c.Notes {
			p.wrapped(c.Name + ": " + n + ".")
		}
	}
	p.line("\nfrom")
	for _, row := range f.From {
		p.hanging(row.Name, row.Value)
	}
	for _, s := range f.Subjects {
		p.hanging(s.Name, s.From)
	}
	p.line("\nhow good it is")
	p.hanging("", f.Held)
	return p.err
}

// castRows is the table: what each filter costs, and how each subject moves, the
// control beside them.
func castRows(f *record.Forecast) [][]string {
	head, cost, own := []string{"", "none"}, []string{"costs", "0"}, []string{"your value", ""}
	stated := false
	for _, c := range f.Casts {
		head = append(head, c.Name)
		cost = append(cost, costWords(c))
		value := ""
		if c.Declared.Known {
			stated = true
			value = exposure.FormatAmount(c.Declared.Value)
		}
		own = append(own, value)
	}
	rows := [][]string{head, cost}
	if stated {
		rows = append(rows, own)
	}
	rows = append(rows, nil)
	for i, s := range f.Subjects {
		row := []string{s.Name, "0"}
		for _, c := range f.Casts {
			if c.Moves == nil {
				row = append(row, "–")
				continue
			}
			row = append(row, exposure.FormatStops(exposure.Third(c.Moves[i].Stops)))
		}
		rows = append(rows, row)
	}
	return rows
}

func costWords(c *record.Cast) string {
	switch {
	case c.Dark:
		return "no light"
	case !c.Stops.Known:
		return "–"
	}
	return exposure.FormatAmount(exposure.Third(c.Stops.Value))
}

// printer writes lines and keeps the first error.
type printer struct {
	out io.Writer
	err error
}

// line prints a line, below an empty one where the format begins with a line feed.
func (p *printer) line(format string, args ...any) {
	format, below := strings.CutPrefix(format, "\n")
	text := diag.Clean(fmt.Sprintf(format, args...)) + "\n"
	if below {
		text = "\n" + text
	}
	if p.err == nil {
		_, p.err = io.WriteString(p.out, text)
	}
}

// table sets the first column to the left and the others to the right.
func (p *printer) table(rows [][]string) {
	var width []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		line := ""
		for i, cell := range row {
			gap := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				line += cell + gap
			} else {
				line += "   " + gap + cell
			}
		}
		p.line("%s", strings.TrimRight(line, " "))
	}
}

func (p *printer) wrapped(text string) {
	for line := range strings.SplitSeq(wrap(text, 78), "\n") {
		p.line("%s", line)
	}
}

// hanging sets a name and behind it its text, which hangs below itself.
func (p *printer) hanging(name, text string) {
	const wide = 16
	for i, line := range strings.Split(wrap(text, 78-2-wide), "\n") {
		if i > 0 {
			name = ""
		}
		p.line("  %s%s%s", name, strings.Repeat(" ", max(1, wide-utf8.RuneCountInString(name))), line)
	}
}

// cell is how many signs a third of a stop is wide in the drawing.
const cell = 2

// moves draws one filter: each subject on a line, from where it stands without a filter
// to where it goes.
func (p *printer) moves(f *record.Forecast, c *record.Cast) {
	least, most := -1., 1.
	name := 0
	for i, m := range c.Moves {
		least, most = min(least, math.Floor(exposure.Third(m.Stops))), max(most, math.Ceil(exposure.Third(m.Stops)))
		name = max(name, utf8.RuneCountInString(f.Subjects[i].Name))
	}
	at := func(stops float64) int { return int(math.Round((exposure.Third(stops) - least) * 3 * cell)) }
	wide := at(most) + 1
	scale := []rune(strings.Repeat(" ", wide+2))
	for s := least; s <= most; s++ {
		text := []rune(exposure.FormatStops(s))
		copy(scale[max(0, at(s)-len(text)+1):], text)
	}
	p.line("\n%s", c.Name)
	p.line("%s  %s", strings.Repeat(" ", name), strings.TrimRight(string(scale), " "))
	for i, m := range c.Moves {
		row := []rune(strings.Repeat(" ", wide))
		for s := least; s <= most; s++ {
			row[at(s)] = '·'
		}
		from, to := at(0), at(m.Stops)
		for x := min(from, to); x <= max(from, to); x++ {
			row[x] = '─'
		}
		row[from] = '│'
		row[to] = '●'
		p.line("%s%s  %s", f.Subjects[i].Name, strings.Repeat(" ", name-utf8.RuneCountInString(f.Subjects[i].Name)), strings.TrimRight(string(row), " "))
	}
}
