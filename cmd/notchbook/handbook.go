package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"notchbook/compile/handbook"
)

// handbookCommand prints the published tables.
type handbookCommand struct {
	Table string `arg:"" optional:"" help:"Name of a table. Without one, the tables are listed."`
}

// Run prints a table, every row with its source.
func (c *handbookCommand) Run(t terminal) error {
	if c.Table == "" {
		for _, name := range handbook.Tables() {
			table, _ := handbook.Lookup(name)
			fmt.Fprintf(t.out, "%-10s %s\n", name, table.Title)
		}
		return nil
	}
	table, ok := handbook.Lookup(strings.ToLower(c.Table))
	if !ok {
		return fmt.Errorf("there is no table %q; there are %s", c.Table, strings.Join(handbook.Tables(), ", "))
	}
	return printTable(t.out, table)
}

func printTable(out io.Writer, table handbook.Table) error {
	fmt.Fprintf(out, "%s\n\n", table.Title)
	w := tabwriter.NewWriter(out, 0, 8, 2, ' ', 0)
	fmt.Fprintln(w, strings.Join(table.Columns, "\t"))
	for _, row := range table.Rows {
		fmt.Fprintln(w, strings.Join(row, "\t"))
	}
	return w.Flush()
}
