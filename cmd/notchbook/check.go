package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/render/data"
	"notchbook/render/saying"
)

// checkCommand is the gate. It writes nothing but its findings, unless it is told
// to mend what is certain.
type checkCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Strict bool     `help:"Warnings count as errors for the exit status."`
	Fix    bool     `help:"Write the corrections of the notes that are certain, each notebook whole or not at all, show them, and check again."`
	Watch  bool     `help:"Check again whenever a notebook is saved, until Ctrl-C."`
	Format string   `enum:"text,json,sarif" default:"text" help:"How the answer is written: text, json or sarif."`
	door
	audience
}

// Validate refuses to mend what was read without its private remarks: the places
// of the corrections are not the notebook's.
func (c *checkCommand) Validate() error {
	if c.Fix && c.Public {
		return errors.New("--fix does not go with --public: it mends the notebooks themselves")
	}
	return nil
}

// Run checks the notes, once or until it is interrupted.
func (c *checkCommand) Run(t terminal) error {
	if c.Watch {
		return c.watch(t)
	}
	return c.once(t, &again{})
}

// watch checks again after every save, and says what that changed. The exit status is
// that of the last check.
func (c *checkCommand) watch(t terminal) error {
	if slices.ContainsFunc(c.Paths, isStream) {
		return errors.New("a stream cannot be watched: --watch needs a notebook or a folder")
	}
	if len(c.Paths) > 1 {
		for _, path := range c.Paths[1:] {
			if !sameFolder(folderOf(path), folderOf(c.Paths[0])) {
				return errors.New("--watch watches one folder: name the one that holds them all")
			}
		}
	}
	f, err := t.follow(c.Paths[0])
	if err != nil {
		return err
	}
	defer f.close()
	var last again
	err = c.once(t, &last)
	for range f.changes {
		var s status
		if err != nil && !errors.As(err, &s) {
			t.complain(err) // it may be whole again after the next save
		}
		fmt.Fprintln(t.out, "\nchecked again:")
		err = c.once(t, &last)
	}
	return err
}

func (c *checkCommand) once(t terminal, last *again) error {
	r, err := c.read(c.Paths, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	if err := c.open(r); err != nil {
		return err
	}
	r.quick = true
	if !last.checked {
		r.problems(t)
	}
	checked := r.check()
	if c.Fix {
		if err := fix(c.shown(t), r, checked.Findings()); err != nil {
			return err
		}
		checked = r.check()
	}
	if err := c.write(t, r, checked, last); err != nil {
		return err
	}
	list := checked.Findings()
	last.last, last.checked = list, true
	if list.Count(diag.Error) > 0 || c.Strict && list.Count(diag.Warning) > 0 {
		return status(found)
	}
	return nil
}

// shown is where the corrections are shown: beside the findings where these are
// for another program.
func (c *checkCommand) shown(t terminal) io.Writer {
	if c.Format == "text" {
		return t.verbatim()
	}
	return terminal{out: t.err, screen: t.progress}.verbatim()
}

// mostShown is how many findings are written out for a person to read.
const mostShown = 1000

// write writes the findings in the form asked for; as text only what is new since the
// last time. Text needs no record.
func (c *checkCommand) write(t terminal, r *reading, checked *compile.Checked, last *again) error {
	switch c.Format {
	case "json":
		return data.Findings(t.out, checked.Record(), r.where())
	case "sarif":
		return data.SARIF(t.out, checked.Record(), r.where(), number)
	}
	if last.checked {
		if err := last.changes(t, r, checked.Findings()); err != nil {
			return err
		}
		counts(t, checked.Counts(), checked.Findings())
	} else {
		if err := r.findings(t, t.out, checked.Findings(), mostShown); err != nil {
			return err
		}
		summary(t, checked.Counts(), checked.Cautions(), checked.Findings())
	}
	if !slices.ContainsFunc(checked.Notebooks(), func(n *lang.Notebook) bool { return len(n.Statements) > 0 }) {
		fmt.Fprintln(t.out, "no line was read: a sheet's line begins with its label and a colon, as in 3A: 1/30 f16; all of it: notchbook notation")
	}
	return nil
}

// summary is the last lines: what can hurt, the sheets by state, the findings by severity.
func summary(t terminal, tally record.Counts, cautions []string, list diag.List) {
	if len(list) > 0 {
		fmt.Fprintln(t.out)
	}
	for _, c := range cautions {
		if strings.HasPrefix(c, "Sun:") {
			fmt.Fprintln(t.out, c)
		}
	}
	counts(t, tally, list)
}

// counts says how many sheets and findings there are.
func counts(t terminal, tally record.Counts, list diag.List) {
	text := saying.Join(", ", plural(tally.Sheets, "sheet", "sheets"), saying.Standing(&tally))
	told := list.Told()
	for i, s := range []diag.Severity{diag.Error, diag.Warning, diag.Note} {
		all := list.Count(s)
		text += [...]string{"; ", ", ", ", "}[i] + plural(all, s.String(), s.String()+"s")
		if told[s] < all {
			text += fmt.Sprintf(" (told as %d)", told[s])
		}
	}
	fmt.Fprintln(t.out, text)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprint(n, " ", many)
}
