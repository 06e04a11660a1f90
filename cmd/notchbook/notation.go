package main

import (
	"fmt"
	"strings"

	"notchbook/lang"
)

// notationCommand prints how notes are read.
type notationCommand struct {
	Words []string `arg:"" optional:"" help:"Words of a heading, as in: notation filters. Without any, the whole is printed."`
}

// Run prints the manual of the notation, or the chapters of which the heading has
// the words.
func (c *notationCommand) Run(t terminal) error {
	if len(c.Words) == 0 {
		_, err := fmt.Fprint(t.out, lang.Manual)
		return err
	}
	wanted := strings.ToLower(strings.Join(c.Words, " "))
	heads, found := []string{}, false
	for _, chapter := range strings.Split("\n"+lang.Manual, "\n## ")[1:] {
		head, _, _ := strings.Cut(chapter, "\n")
		heads = append(heads, head)
		if strings.Contains(strings.ToLower(head), wanted) {
			found = true
			fmt.Fprintf(t.out, "## %s\n", strings.TrimRight(chapter, "\n"))
		}
	}
	if !found {
		return fmt.Errorf("no chapter is headed %q; there are: %s", wanted, strings.Join(heads, "; "))
	}
	return nil
}
