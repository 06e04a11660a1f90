package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
	"notchbook/render/saying"
)

// yearsCommand sets the years of the notes beside one another, and the days on
// which a place was come back to.
type yearsCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Format string   `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	audience
}

// Run prints them.
func (c *yearsCommand) Run(t terminal) error {
	season, _, err := c.compiledAt(c.Paths, t, 0)
	if err != nil {
		return err
	}
	if c.Format == "json" {
		return data.Years(t.out, season)
	}
	if len(season.Years) == 0 {
		fmt.Fprintln(t.out, "the notes tell of no day and no sheet")
		return nil
	}
	if err := printYears(t.out, season.Years); err != nil {
		return err
	}
	for _, p := range season.Places {
		printPlace(t, p)
	}
	return nil
}

func printYears(out io.Writer, all []*record.Year) error {
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	doubled := slices.ContainsFunc(all, func(y *record.Year) bool { return y.Doubled > 0 })
	twice := func(cell any) string {
		if !doubled {
			return ""
		}
		return fmt.Sprint("\t", cell)
	}
	fmt.Fprintf(table, "year\toutings\tsheets\texposures\tright\toff%s\tunchecked\tno image\tunexposed\tdeveloped\tscanned\tlost\n", twice("exposed twice"))
	for _, y := range all {
		fmt.Fprintf(table, "%s\t%d\t%d\t%d\t%d\t%d%s\t%d\t%d\t%d\t%d\t%d\t%d\n", yearText(y), y.Outings, y.Sheets, y.Exposures(),
			y.Right, y.Off, twice(y.Doubled), y.Unchecked, y.NoImage, y.Unexposed, y.Developed, y.Scanned, record.Lost(y.Losses))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	for _, y := range all {
		var films, losses []string
		for _, u := range y.Films {
			film := u.Film
			if film == "" {
				film = "film not known"
			}
			films = append(films, fmt.Sprintf("%s %d", film, u.Sheets))
		}
		for _, l := range y.Losses {
			losses = append(losses, fmt.Sprintf("%s %d", l.Cause, record.Sheets(l.Sheets)))
		}
		listed(out, yearText(y)+", film used: ", films)
		listed(out, yearText(y)+", lost to: ", losses)
	}
	fmt.Fprintln(out, saying.LostFrom)
	return nil
}

func listed(out io.Writer, what string, all []string) {
	if len(all) > 0 {
		fmt.Fprintln(out, diag.Clean(what+strings.Join(all, ", ")))
	}
}

func yearText(y *record.Year) string {
	if y.Year == "" {
		return "not known"
	}
	return y.Year
}

// printPlace shows a place's days, the last first, each sheet with what it was
// made with.
func printPlace(t terminal, p *record.PlaceVisits) {
	fmt.Fprintf(t.out, "\n%s\n", diag.Clean(p.Name))
	var rows [][]string
	for _, v := range p.Visits {
		date := v.Day()
		for _, s := range v.Sheets {
			rows = append(rows, visitRow(date, s))
			date = ""
		}
	}
	aligned(t, rows)
}

func visitRow(date string, s *record.Sheet) []string {
	scene := s.Title
	if scene == "" && s.Scene != nil {
		scene = s.Scene.Title
	}
	return []string{
		date, s.Hour, s.Label, scene, s.Lens, strings.Join(s.Movements, ", "), strings.Join(s.Filters, " + "),
		strings.TrimSpace(s.Given.Time + " " + s.Given.Aperture), standing(s),
	}
}
