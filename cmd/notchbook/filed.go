package main

import (
	"fmt"
	"io"
	"strings"

	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/saying"
)

// negativesCommand lists the numbers of the negatives and what lacks one.
type negativesCommand struct {
	Paths []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	audience
}

// Run prints them. Exit status 1 says that a number was given to two negatives.
func (c *negativesCommand) Run(t terminal) error {
	season, _, err := c.compiledAt(c.Paths, t, 0)
	if err != nil {
		return err
	}
	printNegatives(t.out, &season.Negatives)
	if len(season.Negatives.Twice) > 0 {
		return status(found)
	}
	return nil
}

func printNegatives(out io.Writer, n *record.Negatives) {
	for _, sh := range n.Numbered {
		fmt.Fprintln(out, diag.Clean(fmt.Sprintf("%s  %s  %s", sh.Number, where(sh), dash(sh.Sleeve))))
	}
	for _, u := range n.Twice {
		fmt.Fprintln(out, diag.Clean(fmt.Sprintf("given twice: %s, to %s, and it is %s  [%s]", u.Number, where(u.Sheet), where(u.Bearer), u.Place)))
	}
	for _, s := range n.Series {
		fmt.Fprintln(out, diag.Clean("next free: "+s.Next))
	}
	if len(n.Series) == 0 && len(n.Numbered) == 0 {
		fmt.Fprintln(out, "no negative bears a number")
	}
	for _, u := range n.Unlogged {
		line := "without an entry: " + u.Number + ", " + u.Why
		if u.Place.Path != "" {
			line += fmt.Sprintf("  [%s]", u.Place)
		}
		fmt.Fprintln(out, diag.Clean(line))
	}
	listSheets(out, "without a number", n.Without)
	listSheets(out, "without a sleeve", n.Unfiled)
}

// where is the day and the side of a sheet.
func where(sh *record.Sheet) string {
	text := sh.Label
	if o := sh.Outing; o != nil && o.Date != "" {
		text = o.Day() + " " + text
	}
	return saying.Join(", ", text, saying.Subject(sh))
}

func listSheets(out io.Writer, what string, all []*record.Sheet) {
	var ids []string
	for _, sh := range all {
		ids = append(ids, sh.ID)
	}
	if len(ids) > 0 {
		fmt.Fprintln(out, diag.Clean(what+": "+strings.Join(ids, ", ")))
	}
}

// lossesCommand counts what was lost, by cause.
type lossesCommand struct {
	Paths []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	audience
}

// Run prints the causes with their sheets.
func (c *lossesCommand) Run(t terminal) error {
	season, _, err := c.compiledAt(c.Paths, t, 0)
	if err != nil {
		return err
	}
	fmt.Fprintf(t.out, "%d of %s lost\n", record.Lost(season.Losses), plural(record.Sheets(season.Sheets), "sheet", "sheets"))
	for _, l := range season.Losses {
		fmt.Fprintf(t.out, "\n%s: %d\n", l.Cause, record.Sheets(l.Sheets))
		for _, sh := range l.Sheets {
			line := "  " + named(sh)
			if sh.Difference.Known && l.Slug == "off" {
				line += ", " + exposure.OverUnder(sh.Difference.Value)
			}
			fmt.Fprintln(t.out, diag.Clean(line))
		}
	}
	var waiting []*record.Sheet
	for _, sh := range season.Sheets {
		if sh.Lost == "" && sh.State == record.Off && exposure.AStop(sh.Difference.Value) && len(sh.Developed)+len(sh.Results) == 0 && !sh.WasDeveloped() {
			waiting = append(waiting, sh)
		}
	}
	if len(waiting) > 0 {
		fmt.Fprintln(t.out)
		listSheets(t.out, "off by a stop or more, and not counted, since no line says that they were developed", waiting)
	}
	fmt.Fprintln(t.out, "\n"+saying.LostFrom)
	return nil
}
