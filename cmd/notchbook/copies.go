package main

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"path"
	"regexp"
	"strings"
	"unicode/utf8"

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
	{Name: tableName, What: "A table of the sheets, as CSV"},
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
	if err := writing(out, tableName, func(w io.Writer) error { return data.SheetsCSV(w, s.Sheets) }); err != nil {
		return err
	}
	for name, n := range copyNames(s) {
		copied := func(w io.Writer) error { _, err := io.Copy(w, bytes.NewReader(n.Text)); return err }
		if err := writing(out, notesFolder+name, copied); err != nil {
			return err
		}
	}
	return nil
}

// copyNames are the files that were read, each with the name of its copy, which every
// system can hold. What lies outside the season's folder has no copy.
func copyNames(s *record.Season) iter.Seq2[string, *record.Notebook] {
	return func(yield func(string, *record.Notebook) bool) {
		taken := map[string]bool{}
		for _, n := range s.Files() {
			if name := n.CopyName(); portable(name) == name {
				taken[strings.ToLower(name)] = true
			}
		}
		for _, n := range s.Files() {
			name := n.CopyName()
			if !fs.ValidPath(name) {
				continue
			}
			if safe := portable(name); safe != name {
				ending := path.Ext(safe)
				name = safe
				for i := 2; taken[strings.ToLower(name)]; i++ {
					name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(safe, ending), i, ending)
				}
				taken[strings.ToLower(name)] = true
			}
			if !yield(name, n) {
				return
			}
		}
	}
}

// oddCharacters are those that some system holds in no name.
const oddCharacters = `\:*?"<>|`

// devices are the names that Windows keeps for itself, with any ending.
var devices = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[1-9]|lpt[1-9])(\.|$)`)

// portable is a path that every system can hold: itself, or one near it.
func portable(name string) string {
	parts := strings.Split(name, "/")
	for i, part := range parts {
		part = strings.Map(func(c rune) rune {
			if c < ' ' || c == 0x7f || strings.ContainsRune(oddCharacters, c) {
				return '_'
			}
			return c
		}, part)
		if bare := strings.TrimRight(part, ". "); bare != part && part != "." && part != ".." {
			part = bare + strings.Repeat("_", len(part)-len(bare))
		}
		if devices.MatchString(part) {
			part = "_" + part
		}
		parts[i] = part
	}
	return strings.Join(parts, "/")
}

// sayOdd names the notebooks that not every system can hold under their names, with what is
// odd about each, and what their copies are called.
func sayOdd(t terminal, s *record.Season) {
	for name, n := range copyNames(s) {
		if was := n.CopyName(); was != name {
			t.complain(fmt.Errorf("%s %s; its copy in the record is called %s: give it another name where others are to open it", was, oddity(was), notesFolder+name))
		}
	}
}

// oddity is what not every system can hold in a name.
func oddity(name string) string {
	if i := strings.IndexFunc(name, func(c rune) bool { return c < ' ' || c == 0x7f || strings.ContainsRune(oddCharacters, c) }); i >= 0 {
		c, _ := utf8.DecodeRuneInString(name[i:])
		if c < ' ' || c == 0x7f {
			return "has a control character in its name, which not every system can hold"
		}
		return "has " + string(c) + " in its name, which not every system can hold"
	}
	for part := range strings.SplitSeq(name, "/") {
		if devices.MatchString(part) {
			return "has a name that Windows keeps for a device"
		}
	}
	return "has a name that ends in a dot or blank, which Windows drops"
}

// writing writes one file of the record.
func writing(out html.Folder, name string, write func(io.Writer) error) error {
	file, err := out.Create(name)
	if err != nil {
		return err
	}
	return closing(file, write(file))
}
