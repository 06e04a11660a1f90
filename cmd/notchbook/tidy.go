package main

import (
	"fmt"
	"io"

	"notchbook/compile"
)

// tidyCommand spells log lines in one way. It shows what it would do, and does
// it only when told to.
type tidyCommand struct {
	Paths []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Write bool     `short:"w" help:"Write the notebooks back, each whole or not at all."`
	Diff  bool     `short:"d" help:"Show what changes, line by line."`
}

// Run tidies.
func (c *tidyCommand) Run(t terminal) error {
	r, err := open(c.Paths, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	r.problems(t)
	all, list := compile.Tidy(r.world(), r.names...)
	if err := r.findings(t, t.err, list, 0); err != nil {
		return err
	}
	for _, one := range all {
		if err := c.one(t.verbatim(), r, one); err != nil {
			return err
		}
	}
	if len(list) > 0 {
		return status(failed)
	}
	return nil
}

// one shows or writes one notebook. Standard input goes to standard output.
func (c *tidyCommand) one(out io.Writer, r *reading, one compile.Tidied) error {
	piped, name := r.stdin != nil, r.named(one.Name)
	switch {
	case c.Diff:
		fmt.Fprint(out, unified(name, name+" (tidy)", one.Old, one.New))
	case piped || !c.Write && len(r.names) == 1:
		fmt.Fprint(out, one.New)
	case !c.Write && one.New != one.Old:
		fmt.Fprintln(out, name)
	}
	if !c.Write || piped || one.New == one.Old {
		return nil
	}
	return r.openable(r.folder.ReplaceFile(one.Name, []byte(one.Old), []byte(one.New)))
}
