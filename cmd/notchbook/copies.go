package main

import (
	"bytes"
	"io"
	"io/fs"
	"strings"

	"notchbook/compile/record"
	"notchbook/render/data"
	"notchbook/render/html"
	"notchbook/render/text"
)

// The record carries what other programs and any editor read, and the notebooks
// as they were read, so that it is whole by itself.

// textName is the plain text's name within the record.
const textName = "record.txt"

// notesFolder is where the notebooks' copies lie within the record.
const notesFolder = "notes/"

// copies are the files in other forms, as the pages name them.
var copies = []html.Datum{
	{Name: textName, What: "The record as plain text"},
	{Name: "season.json", What: "The whole season, as JSON"},
	{Name: "sheets.csv", What: "A table of the sheets, as CSV"},
}

// writeCopies writes them.
func writeCopies(out html.Folder, s *record.Season) error {
	err := writing(out, textName, func(w io.Writer) error { return text.Write(w, s, text.Options{Generator: "notchbook " + number}) })
	if err != nil {
		return err
	}
	err = writing(out, "season.json", func(w io.Writer) error { return data.Season(w, s) })
	if err != nil {
		return err
	}
	if err := writing(out, "sheets.csv", func(w io.Writer) error { return data.SheetsCSV(w, s.Sheets) }); err != nil {
		return err
	}
	for _, n := range s.Files() {
		name := n.CopyName()
		if !fs.ValidPath(name) || strings.ContainsAny(name, `\:`) {
			continue // standard input, or a name that another system would misread
		}
		copied := func(w io.Writer) error { _, err := io.Copy(w, bytes.NewReader(n.Text)); return err }
		if err := writing(out, notesFolder+name, copied); err != nil {
			return err
		}
	}
	return nil
}

// writing writes one file of the record.
func writing(out html.Folder, name string, write func(io.Writer) error) error {
	file, err := out.Create(name)
	if err != nil {
		return err
	}
	return closing(file, write(file))
}
