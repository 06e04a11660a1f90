// Package handbook holds the published tables a photographer would look up: filter
// factors, what film cannot see, and how bright kinds of light are.
//
// The tables are CSV files beside this source, and every row names where its figure
// is from. Sources disagree, by up to two thirds of a stop for a filter, so the
// handbook keeps them all: a default to compute with, and the span of all that was
// ever printed to judge by. What is known only from use is marked "common practice,
// no source". The user's own declared value always comes before the handbook.
package handbook

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
)

//go:embed tables/*.csv
var files embed.FS

// table is a CSV file read by the names in its first line.
type table struct {
	name    string
	columns map[string]int
	rows    [][]string
}

// readTable reads one of the embedded tables. Lines that begin with # say what the
// columns mean.
func readTable(name string) (table, error) {
	f, err := files.Open("tables/" + name)
	if err != nil {
		return table{}, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil || len(records) == 0 {
		return table{}, fmt.Errorf("table %s: %w", name, err)
	}
	t := table{name, make(map[string]int), records[1:]}
	for i, column := range records[0] {
		t.columns[column] = i
	}
	return t, nil
}

// text returns a cell; a column the table lacks is empty.
func (t table) text(row []string, column string) string {
	i, ok := t.columns[column]
	if !ok {
		return ""
	}
	return row[i]
}

// number returns a cell as a number, and whether it holds one; an empty cell does
// not, and is no error.
func (t table) number(row []string, column string) (x float64, ok bool, err error) {
	s := t.text(row, column)
	if s == "" {
		return 0, false, nil
	}
	x, err = strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, false, fmt.Errorf("table %s, %s: %w", t.name, column, err)
	}
	return x, true, nil
}
