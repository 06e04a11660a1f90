package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// reckonCommand is the field calculation, in the notation itself.
type reckonCommand struct {
	Kit   string   `placeholder:"FILE" help:"Notebook that declares lenses, films and filters."`
	Terms []string `arg:"" help:"Reading, filters, extension, film and lens, as on a sheet line: 'meter 1/60 f16 on III, R25, ext 260mm, slate'."`
}

// Run prints each step with its stops, and the settings that the lens can do.
func (c *reckonCommand) Run(t terminal) error {
	var world compile.World
	var names []string
	if c.Kit != "" {
		r, err := open([]string{c.Kit}, t.in)
		if err != nil {
			return err
		}
		defer r.close()
		world.Read, names = r.world().Read, r.names
	}
	out, list := compile.Reckon(world, strings.Join(c.Terms, " "), names...)
	if err := (diag.Writer{Out: t.err, Colour: t.colour}).Write(spoken(list)); err != nil {
		return err
	}
	if !out.Sheet.Asked.EV.Known {
		return status(found)
	}
	return printReckoned(t.out, out)
}

// spoken leaves out what a calculation for a sheet that is not yet exposed
// cannot have.
func spoken(list diag.List) diag.List {
	var kept diag.List
	for _, d := range list {
		if d.Code == "unchecked" && strings.HasSuffix(lastNote(d), "the aperture and the time that were given") && !strings.Contains(lastNote(d), "; and") {
			continue
		}
		kept = append(kept, d)
	}
	return kept
}

func lastNote(d diag.Diagnostic) string {
	if len(d.Notes) == 0 {
		return ""
	}
	return d.Notes[len(d.Notes)-1].Text
}

func printReckoned(out io.Writer, r compile.Reckoned) error {
	s := r.Sheet
	w := tabwriter.NewWriter(out, 0, 8, 2, ' ', 0)
	fmt.Fprintf(w, "read\t%s\t%s\n", exposure.FormatEV(s.Reading.EV), joined(s.Reading.Text, s.Reading.How))
	for _, step := range s.Steps {
		fmt.Fprintf(w, "%s\t%s\t%s\n", step.Name, exposure.FormatStops(-step.Stops), joined(step.Detail, step.From))
	}
	fmt.Fprintf(w, "asked\t%s\t%s\n", exposure.FormatEV(s.Asked.EV.Value), what(s))
	if err := w.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(out)
	w = tabwriter.NewWriter(out, 0, 8, 2, ' ', tabwriter.AlignRight)
	for _, c := range r.Settings {
		fmt.Fprintf(w, "%s\t%s\t%s\t\n", c.Time, c.Aperture, leaves(c.Left))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, c := range r.Cautions {
		fmt.Fprintf(out, "\n%s\n", c)
	}
	return nil
}

// what names film and lens.
func what(s *record.Sheet) string {
	text := ""
	if s.EI.Known {
		text = fmt.Sprintf("%s at EI %g", s.Film, s.EI.Value)
	}
	if s.Lens != "" {
		text = joined(text, "lens "+s.Lens)
	}
	return text
}

func leaves(stops float64) string {
	if exposure.FormatAmount(stops) == "0" {
		return "exact"
	}
	return "leaves " + exposure.FormatStops(stops)
}

func joined(parts ...string) string {
	var all []string
	for _, p := range parts {
		if p != "" {
			all = append(all, p)
		}
	}
	return strings.Join(all, "; ")
}
