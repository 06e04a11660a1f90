package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"
)

// manCommand prints the manual page, made of the same descriptions as the help.
type manCommand struct{}

// Run writes notchbook(1) as man reads it.
func (c *manCommand) Run(app *kong.Kong, t terminal) error {
	manual(t.out, describe(app))
	return nil
}

// manual writes a page in the macros of man(7). It bears no date: the program has
// none but its version's.
func manual(w io.Writer, all []described) {
	fmt.Fprintf(w, ".TH NOTCHBOOK 1 \"\" \"notchbook %s\" \"User commands\"\n", number)
	fmt.Fprint(w, ".SH NAME\nnotchbook \\- the field-notebook compiler for people who photograph on sheet film\n")
	fmt.Fprint(w, ".SH SYNOPSIS\n.B notchbook\n.I command\n[\\fIflags\\fR] [\\fIpath\\fR ...]\n")
	fmt.Fprintf(w, ".SH DESCRIPTION\n%s\n", roff(description))
	fmt.Fprint(w, ".SH COMMANDS\n")
	for _, d := range all {
		fmt.Fprintf(w, ".SS %s\n%s\n", roff(d.usage), roff(d.help))
		for _, a := range d.arguments {
			if a.help != "" {
				fmt.Fprintf(w, ".TP\n.I %s\n%s\n", roff(a.name), roff(a.help))
			}
		}
		for _, f := range d.flags {
			fmt.Fprintf(w, ".TP\n%s\n%s\n", flagName(f), roff(f.help))
		}
	}
	fmt.Fprint(w, ".SH EXIT STATUS\n.TP\n.B 0\nNothing worse than a warning was found, or the command did what it was asked.\n")
	fmt.Fprint(w, ".TP\n.B 1\nErrors were found, or with \\fB\\-\\-strict\\fR warnings, or nothing fits.\n.TP\n.B 2\nIt could not run.\n")
	fmt.Fprint(w, ".SH ENVIRONMENT\n.TP\n.B SOURCE_DATE_EPOCH\nDates the book and the printed card, in seconds since 1970; otherwise the book bears the last day of the notes.\n.TP\n.B NO_COLOR\nNo colour on the terminal.\n")
	fmt.Fprint(w, ".SH CAUTIONS\nFollow the safety data sheet of each chemical and your local rules. Never look at the sun through a lens, a filter or a spot meter.\n")
}

func flagName(f describedFlag) string {
	name := "\\fB\\-\\-" + roff(f.name) + "\\fR"
	if f.short != "" {
		name = "\\fB\\-" + f.short + "\\fR, " + name
	}
	if f.value != "" {
		name += "=\\fI" + roff(f.value) + "\\fR"
	}
	return name
}

// roff is text in which nothing is a request or an escape.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "\n", " ").Replace(text)
	if strings.HasPrefix(text, ".") || strings.HasPrefix(text, "'") {
		text = `\&` + text
	}
	return text
}
