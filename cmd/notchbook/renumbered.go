package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/record"
	"notchbook/render/data"
)

// A negative keeps its number for good. Where one belongs to another sheet than in the record
// that stands in the place of the new one, compile says so: neither can know which is right.

const (
	tableName    = "sheets.csv"
	numberColumn = "negative number"
)

// entryOf is what a table of sheets says of the sheet that has a number.
type entryOf map[string]string

// is reports whether two entries are of one sheet: in a notebook that was renamed, or under
// settings that were put right.
func (e entryOf) is(other entryOf) bool {
	alike := func(columns ...string) bool {
		return !slices.ContainsFunc(columns, func(name string) bool { return e[name] != other[name] })
	}
	return alike("date", "date as typed", "sheet") && (alike("notebook") || alike("film", "aperture (as marked)", "time (as marked)"))
}

func (e entryOf) String() string {
	return strings.Join(strings.Fields(e["date as typed"]+" "+e["sheet"]), " ") + " in " + e["notebook"]
}

// sayRenumbered complains of numbers that are another sheet's than in the record in a folder.
func sayRenumbered(t terminal, season *record.Season, folder string) error {
	if !slices.ContainsFunc(season.Sheets, func(sh *record.Sheet) bool { return sh.Number != "" }) || !disk.Wrote(folder, tableName) {
		return nil
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer root.Close()
	file, err := root.Open(tableName)
	if err != nil {
		return nil // it was taken away
	}
	defer file.Close()
	was := numbers(file)
	is := map[string]entryOf{} // as in the table, of several exposures of one sheet the last
	for _, sh := range season.Sheets {
		if sh.Number != "" {
			e := entryOf(data.SheetRow(sh))
			is[e[numberColumn]] = e
		}
	}
	var all []string
	for number, now := range is {
		if before, had := was[number]; had && !before.is(now) {
			all = append(all, fmt.Sprintf("%s is %s, and was %s", number, now, before))
		}
	}
	if len(all) > 0 {
		slices.Sort(all)
		t.complain(fmt.Errorf("%s to another sheet than in the last record: %s", plural(len(all), "number belongs", "numbers belong"), strings.Join(all, "; ")))
	}
	return nil
}

// numbers is the entries of a table of sheets by their numbers. One that somebody wrote in
// holds what can be read of it.
func numbers(from io.Reader) map[string]entryOf {
	rows := csv.NewReader(from)
	rows.FieldsPerRecord = -1
	head, err := rows.Read()
	if err != nil {
		return nil
	}
	all := map[string]entryOf{}
	for {
		row, err := rows.Read()
		if err != nil {
			return all
		}
		e := entryOf{}
		for i, name := range head[:min(len(head), len(row))] {
			e[name] = row[i]
		}
		if number := e[numberColumn]; number != "" {
			all[number] = e
		}
	}
}
