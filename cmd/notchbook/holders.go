package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
)

// holdersCommand says what is in each holder, and what may be loaded again.
type holdersCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Side   string   `placeholder:"7B" help:"Only this side, or both sides of this holder."`
	Format string   `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	audience
}

// Run prints the sides.
func (c *holdersCommand) Run(t terminal) error {
	season, folder, err := c.compiledAt(c.Paths, t, 0)
	if err != nil {
		return err
	}
	if c.Side != "" {
		season.Holders = only(season.Holders, c.Side)
		if len(season.Holders) == 0 {
			return fmt.Errorf("the notes name no holder side %q", c.Side)
		}
	}
	if c.Format == "json" {
		return data.Holders(t.out, season, folder)
	}
	if len(season.Holders) == 0 {
		fmt.Fprintln(t.out, "the notes name no holder")
		return nil
	}
	return printHolders(t.out, season.Holders)
}

// only is the side of a label, or the sides of a holder's number.
func only(all []*record.HolderSide, label string) []*record.HolderSide {
	var found []*record.HolderSide
	for _, h := range all {
		if strings.EqualFold(h.Label, label) || strings.EqualFold(h.Name(), label) || strings.EqualFold(strings.TrimRight(h.Label, "ABab"), label) {
			found = append(found, h)
		}
	}
	return found
}

func printHolders(out io.Writer, all []*record.HolderSide) error {
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "side\tnow\tfilm\tsheet\tload it?")
	for _, h := range all {
		id := ""
		if h.Sheet != nil {
			id = h.Sheet.ID
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\n", diag.Clean(h.Name()), h.State, dash(diag.Clean(h.Film)), dash(diag.Clean(id)), h.May)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	for _, h := range all {
		fmt.Fprintf(out, "\n%s\n", diag.Clean(h.Name()+": "+h.Reason))
		for _, e := range h.Events {
			fmt.Fprintln(out, "  "+diag.Clean(eventText(e)))
		}
		for _, f := range h.Conflicts {
			fmt.Fprintf(out, "  ! %s  [%s]\n", diag.Clean(f.Said()), diag.Clean(f.Place.String()))
		}
	}
	return nil
}

// eventText is one line of a side's history.
func eventText(e record.SideEvent) string {
	text := e.What
	if e.Sheet != nil {
		text += " " + e.Sheet.ID
		if sc := e.Sheet.Scene; sc != nil && sc.Title != "" && e.What == "exposed" {
			text += ", " + sc.Title
		}
	} else if e.Film != "" {
		text += " " + e.Film
	}
	return fmt.Sprintf("%-10s  %s  [%s]", dash(e.Date), text, e.Place)
}

func dash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}
