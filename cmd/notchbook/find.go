package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/exposure"
	"notchbook/compile/query"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/lang/ruler"
	"notchbook/render/data"
	"notchbook/render/saying"
)

// findCommand lists the sheets that fit.
type findCommand struct {
	Terms  []string `arg:"" name:"terms and path" help:"What the sheets must fit, in the notation's terms and in words, then the notebook or folder: R25 N-1 brickworks undeveloped season/. Default: the current folder. What stands in quotation marks is words: '\"flash\"'. All of it: notchbook notation finding"`
	Format string   `enum:"text,json,csv" default:"text" help:"How the answer is written: text, json or csv."`
	audience
}

// Run finds sheets. Exit status 1 says that none fits.
func (c *findCommand) Run(t terminal) error {
	terms, path := c.split()
	r, err := c.quickly([]string{path}, t)
	if err != nil {
		return err
	}
	defer r.close()
	season, _ := r.compile()
	answer := query.Open(query.Index(season)).Find(terms)
	sheets := make([]*record.Sheet, 0, len(answer.Sheets))
	for _, i := range answer.Sheets {
		sheets = append(sheets, season.Sheets[i])
	}
	for _, lost := range answer.Lost {
		fmt.Fprintf(t.err, "notchbook: %s\n", diag.Clean(fmt.Sprintf("nothing in these notes is called %q", lost)))
	}
	if err := c.write(t, season, sheets, answer); err != nil {
		return err
	}
	if len(sheets) == 0 {
		return status(found)
	}
	return nil
}

// split tells the path, if the last argument is one, from the terms.
func (c *findCommand) split() (terms, path string) {
	last := len(c.Terms) - 1
	if isPath(c.Terms[last]) {
		return strings.Join(c.Terms[:last], " "), c.Terms[last]
	}
	return strings.Join(c.Terms, " "), "."
}

// isPath reports what is there, or is certainly meant to be: f/16 and 1/30 are
// terms, since there is no folder f or 1 in which they could lie; a misspelled
// name in a folder that is there is a path.
func isPath(text string) bool {
	if text == "-" || there(text) || disk.IsNotebook(text) {
		return true
	}
	folder, name := filepath.Split(text)
	return folder != "" && (name == "" || there(folder))
}

func there(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func (c *findCommand) write(t terminal, season *record.Season, sheets []*record.Sheet, a query.Answer) error {
	switch c.Format {
	case "json":
		return data.SheetsJSON(t.out, sheets)
	case "csv":
		return data.SheetsCSV(t.verbatim(), sheets)
	}
	var rows [][]string
	for _, s := range sheets {
		rows = append(rows, sheetRow(s))
	}
	aligned(t, rows)
	if len(a.Read) > 0 {
		fmt.Fprintln(t.out, diag.Clean(saying.FilmOf(sheets, season.Sheets)+": "+strings.Join(a.Read, ", ")))
	}
	if len(sheets) == 0 && len(a.Read) > 1 {
		var alone []string
		for i, condition := range a.Read {
			alone = append(alone, fmt.Sprintf("%s %d", condition, a.Each[i]))
		}
		fmt.Fprintln(t.out, diag.Clean("each alone: "+strings.Join(alone, ", ")))
	}
	return nil
}

// sheetRow is a sheet in one line: which, of what, with what, how it was given,
// the development asked for, how it stands, and the rule that a long time was
// corrected by.
func sheetRow(s *record.Sheet) []string {
	what := s.Title
	if what == "" && s.Scene != nil {
		what = s.Scene.Title
	}
	if what == "" && s.Outing != nil {
		what = s.Outing.Title
	}
	return []string{
		s.ID, what, s.Film, s.Lens, strings.Join(s.Filters, " + "), strings.TrimSpace(s.Given.Time + " " + s.Given.Aperture), s.Development, standing(s), s.Rule,
	}
}

// standing is a sheet's state, or its difference where it is off.
func standing(s *record.Sheet) string {
	if s.State == record.Off && s.Difference.Known {
		return exposure.OverUnder(s.Difference.Value)
	}
	return stateWords[s.Standing()]
}

// widest is how much of a text a column shows.
const widest = 40

// aligned prints rows in columns; a column without any text is left out. On a terminal that is too
// narrow titles are shortened, and where that is not enough the rest stands on the next line.
func aligned(t terminal, rows [][]string) {
	var width []int
	for _, row := range rows {
		for i, cell := range row {
			for len(width) <= i {
				width = append(width, 0)
			}
			row[i] = shortened(diag.Clean(cell), widest)
			width[i] = max(width[i], ruler.Width(row[i]))
		}
	}
	if t.columns > 0 {
		narrow(width, t.columns)
	}
	for _, row := range rows {
		line, at := "", 0
		for i, cell := range row {
			if width[i] == 0 {
				continue
			}
			if t.columns > 0 && at > 0 && at+width[i] > t.columns {
				line, at = strings.TrimRight(line, " \n")+"\n"+strings.Repeat(" ", inset), inset
			}
			cell = shortened(cell, width[i])
			line += cell + strings.Repeat(" ", width[i]-ruler.Width(cell)+gap)
			at += width[i] + gap
		}
		fmt.Fprintln(t.out, strings.TrimRight(line, " \n"))
	}
}

// gap is between columns, inset before what is left of a row. A column wider than ofTitles is of titles,
// and may be cut to least; figures, names and what a row is called by stand whole.
const gap, inset, ofTitles, least = 2, 4, 18, 12

// narrow takes from the titles as much as all columns together are too wide, where they can give so much;
// else none is cut but to the terminal's width.
func narrow(width []int, columns int) {
	over, give := -gap-columns, 0
	for i, w := range width {
		if w > 0 {
			over += w + gap
		}
		if i > 0 && w > ofTitles {
			give += w - least
		}
	}
	for i := range width {
		switch {
		case i == 0 || width[i] <= ofTitles:
		case over > give:
			width[i] = min(width[i], max(columns-inset, least))
		case over > 0:
			cut := min(over, width[i]-least)
			width[i] -= cut
			over -= cut
			give -= cut
		}
	}
}

func shortened(text string, most int) string {
	if ruler.Width(text) > most {
		return strings.TrimSpace(ruler.Cut(text, most-1)) + "…"
	}
	return text
}
