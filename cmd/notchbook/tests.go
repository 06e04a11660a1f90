package main

import (
	"fmt"
	"io"
	"slices"

	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/data"
)

// testsCommand says what the photographer's own tests give.
type testsCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Format string   `enum:"text,json" default:"text" help:"How the answer is written: text or json."`
	Kind   string   `enum:"all,speed,development,filter,reciprocity,shutter,meter" default:"all" help:"Only tests of this kind: speed, development, filter, reciprocity, shutter or meter."`
	audience
}

// Run prints them.
func (c *testsCommand) Run(t terminal) error {
	season, folder, err := c.compiledAt(c.Paths, t, 0)
	if err != nil {
		return err
	}
	if c.Kind != "all" {
		var kept []*record.Test
		for _, test := range season.Tests {
			if test.Kind == c.Kind {
				kept = append(kept, test)
			}
		}
		season.Tests = kept
	}
	if c.Format == "json" {
		return data.Tests(t.out, season, folder)
	}
	if len(season.Tests) == 0 {
		fmt.Fprintln(t.out, "the notes hold no test; a scene is one where it is named so: scene: test speed, grey card")
		return nil
	}
	for i, test := range season.Tests {
		if i > 0 {
			fmt.Fprintln(t.out)
		}
		printTest(t.out, test)
	}
	return nil
}

// printTest is one test: its figures, each with where it is from, the sheets that
// do not belong, and what the kit could say.
func printTest(out io.Writer, test *record.Test) {
	say := func(format string, args ...any) { fmt.Fprintln(out, diag.Clean(fmt.Sprintf(format, args...))) }
	say("%s (%s, %s)", test.Title, test.Name, test.Place)
	for _, r := range test.Results {
		switch {
		case r.Text != "":
			say("  %s: %s", r.Of, r.Text)
		default:
			say("  %s: not known; %s", r.Of, r.Why)
		}
		if r.Text != "" && r.Why != "" {
			say("    but %s", r.Why)
		}
		if names := test.Labels(r.From); test.Kind == "shutter" && names != "" && len(r.Effects) == 0 {
			say("    used for %s", names)
		}
		if r.WithOdd != "" {
			say("    with the sheets that do not belong: %s", r.WithOdd)
		}
		if r.Declared != "" {
			say("    the kit: %s", r.Declared)
		}
		for i, effect := range r.Effects {
			if i == 0 {
				say("    for the sheets already logged:")
			}
			say("      %s", effect)
		}
	}
	for _, o := range test.Odd {
		say("  does not belong: %s; %s", test.Labels([]*record.Sheet{o.Sheet}), o.Off)
		for _, known := range o.Known {
			say("    %s", known)
		}
	}
	printHow(say, test)
	for _, need := range test.Needs {
		say("  it would take %s", need)
	}
	printOffers(say, test)
}

// printHow says each method once.
func printHow(say func(string, ...any), test *record.Test) {
	var said []string
	for _, r := range test.Results {
		if !slices.Contains(said, r.How) {
			said = append(said, r.How)
			say("  = %s", r.How)
		}
	}
	for _, n := range test.Notes {
		say("  = %s", n)
	}
}

// printOffers is the lines that a kit could have, each with the sheets that it is
// from.
func printOffers(say func(string, ...any), test *record.Test) {
	first := true
	for _, r := range test.Results {
		if r.Offer == "" {
			continue
		}
		if first {
			say("  for the kit, where you want it so:")
			first = false
		}
		say("    %s", r.Offer)
		if names := test.Labels(r.From); names != "" {
			say("      from %s", names)
		}
	}
}
