package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"notchbook/compile"
	"notchbook/compile/exposure"
	"notchbook/compile/record"
	"notchbook/render/saying"
)

// reckonCommand is the field calculation, in the notation itself.
type reckonCommand struct {
	Kit   string   `placeholder:"FILE" help:"Notebook that declares lenses, films and filters."`
	Light string   `placeholder:"WORDS" help:"The light, as on a light line: film and filters may have values of their own in it, tungsten say."`
	Terms []string `arg:"" help:"Reading, filters, extension, film and lens, as on a sheet line: 'meter 1/60 f16 on III, R25, ext 260mm, lens 210'."`
	audience
}

// Run prints each step with its stops, and the settings that the lens can do.
func (c *reckonCommand) Run(t terminal) error {
	kit, world, err := c.kit(c.Kit, t)
	if err != nil {
		return err
	}
	defer kit.close()
	out, list := compile.Reckon(world, c.Light, strings.Join(c.Terms, " "), kit.names...)
	if err := kit.findings(t, t.err, list, 0); err != nil {
		return err
	}
	for _, words := range out.Unread {
		t.complain(fmt.Errorf("%q was not understood and counts for nothing", words))
	}
	switch {
	case len(out.Needs) > 0:
		t.complain(fmt.Errorf("to reckon, it would take %s%s", strings.Join(out.Needs, "; and "), kitHint(c.Kit)))
		return status(found)
	case len(out.Settings)+len(out.Others)+len(out.Metered)+len(out.Lacks) == 0:
		t.complain(errors.New(noSettings(out.Sheet)))
		return status(found)
	}
	if err := printReckoned(t.out, out); err != nil {
		return err
	}
	if len(out.Settings) == 0 {
		return status(found)
	}
	return nil
}

// noSettings says why nothing can be set.
func noSettings(s *record.Sheet) string {
	if !s.Asked.EV.Known {
		return "there are no settings for this"
	}
	return exposure.FormatEV(s.Asked.EV.Value) + " is asked, and nothing that the lens can do gives it so"
}

// kitHint says where lenses, films and filters would be known from.
func kitHint(kit string) string {
	if kit == "" {
		return " (lenses, films and filters are declared in a notebook: --kit FILE)"
	}
	return ""
}

func printReckoned(out io.Writer, r compile.Reckoned) error {
	s := r.Sheet
	w := tabwriter.NewWriter(out, 0, 8, 2, ' ', 0)
	fmt.Fprintf(w, "read\t%s\t%s\n", exposure.FormatEV(s.Reading.EV.Value), joined(s.Reading.Text, unless(s.Reading.Text, s.Reading.How)))
	for _, step := range s.Steps {
		fmt.Fprintf(w, "%s\t%s\t%s\n", step.Name, exposure.FormatStops(-step.Stops), joined(step.Detail, step.From))
	}
	for _, f := range s.Sharpness {
		fmt.Fprintf(w, "%s\t\t%s\n", f.Name, f.Value)
	}
	fmt.Fprintf(w, "asked\t%s\t%s\n", exposure.FormatEV(s.Asked.EV.Value), what(s))
	if r.Held && s.Difference.Known {
		fmt.Fprintf(w, "given\t%s\t%s %s; %s\n", exposure.FormatEV(s.Given.EV.Value), s.Given.Time, s.Given.Aperture, saying.Gap(s))
	} else if r.Held {
		fmt.Fprintf(w, "given\t–\t%s %s; to hold it against that, it would take %s\n", s.Given.Time, s.Given.Aperture, strings.Join(s.Needs, "; and "))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(out)
	w = tabwriter.NewWriter(out, 0, 8, 2, ' ', tabwriter.AlignRight)
	for _, c := range rows(r) {
		fmt.Fprintf(w, "%s\t%s\t%s\t\n", c.Time, c.Aperture, c.says)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, text := range slices.Concat(r.Lacks, r.Assumed) {
		fmt.Fprintf(out, "\n%s\n", text)
	}
	for _, c := range r.Cautions {
		fmt.Fprintf(out, "\n%s\n", c)
	}
	return nil
}

// row is a pair of settings, and what there is to say of it.
type row struct {
	record.Choice
	says string
}

// rows are the settings: those that keep the aperture that was named, then those of others,
// called so, then those that are known before reciprocity only.
func rows(r compile.Reckoned) []row {
	var kept, others, metered []row
	for _, c := range r.Settings {
		if r.Aperture == "" || c.Aperture == r.Aperture {
			kept = append(kept, row{c, leaves(c.Left)})
		} else {
			others = append(others, row{c, joined(leaves(c.Left), "another aperture")})
		}
	}
	for _, c := range r.Others {
		others = append(others, row{c, joined(leaves(c.Left), "another aperture")})
	}
	for _, c := range r.Metered {
		says := "before reciprocity"
		if c.Left != 0 {
			says = joined(leaves(c.Left), says)
		}
		metered = append(metered, row{c, says})
	}
	if len(kept) == 0 && r.Aperture != "" {
		return slices.Concat(metered, others)
	}
	return slices.Concat(kept, others, metered)
}

// what names film and lens.
func what(s *record.Sheet) string {
	text := ""
	if s.EI.Known {
		text = strings.TrimSpace(fmt.Sprintf("%s at EI %g", s.Film, s.EI.Value))
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
	return "leaves " + exposure.OverUnder(stops)
}

// unless leaves out what would only say the same again.
func unless(said, text string) string {
	if said == text {
		return ""
	}
	return text
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
