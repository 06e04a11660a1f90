// Package html writes the record of a season as one folder of pages that is
// read from a disk, years from now, without a network and without a script:
// what the notes say, the check of every sheet, and links to the scans, which
// stay where they are.
//
// Every text of the record is a stranger's. It reaches a page through the
// contextual escaping of html/template or through the one escaping function of
// markup, no text becomes markup, a script or a style, and a policy in every page
// forbids it to load anything from outside the folder.
package html

import (
	"fmt"
	"io"

	"notchbook/compile/record"
)

// Folder is where the record is written. Names are relative, with slashes
// ("thumbs/3f….jpg"), and each is created once. Create is called from one
// goroutine at a time.
type Folder interface {
	Create(name string) (io.WriteCloser, error)
}

// Options say how the record is written.
type Options struct {
	// Generator names the program in the colophon: "notchbook 0.1".
	Generator string

	// Season is the relative URL, already percent-encoded, that leads from the
	// record's folder to the season's. It ends in a slash; "" means "../".
	Season string

	// Here tells whether a file of the season's folder lies where Season leads,
	// and is linked; nil: each does.
	Here func(path string) bool

	// Picture returns a JPEG of the picture at the path (relative to the season's
	// folder) whose longest edge is at most so many pixels. No bytes and no
	// error mean that there is no picture to show; an error ends Write. It is
	// called from Parallel goroutines at once. Nil shows no pictures.
	Picture func(path string, edge int) ([]byte, error)

	// View returns a JPEG of a scan large enough to be looked at, about 1600
	// pixels; otherwise it is as Picture. Nil makes no pages of large pictures.
	View func(path string) ([]byte, error)

	// Turned reports whether the picture of a scan is a positive made of a negative,
	// so that no level can be read off it. Nil: none is.
	Turned func(path string) bool

	// Book is the relative URL of the same record as a book, linked from the
	// season's page; "" means there is none.
	Book string

	// Notes is the relative URL of the folder that holds the notebooks as they
	// were read, ending in a slash; "" leads to the originals instead.
	Notes string

	// Data are copies in other forms that lie beside the pages.
	Data []Datum

	// Live is the relative URL of a script that keeps an open page up to date;
	// "" leaves pages as they are, which is the record to keep.
	Live string

	// Parallel is the number of pictures and pages made at once; below 1 is 1.
	// It changes no byte of the record.
	Parallel int
}

// Datum is a copy of the record in another form.
type Datum struct{ Name, What string }

// Write writes the record of s into dst: index.html leads to everything else.
// The same season and options give the same files, byte for byte, in the same
// order. The error is dst's or Picture's own, with the name of the file.
func Write(dst Folder, s *record.Season, o Options) error {
	w := newSite(s, o)
	if err := writeAssets(dst); err != nil {
		return err
	}
	if err := w.writeFinder(dst); err != nil {
		return err
	}
	if err := w.writeThumbs(dst); err != nil {
		return err
	}
	if err := w.writeViews(dst); err != nil {
		return err
	}
	w.planViews()
	pages := w.pages()
	draw := func(i int) (*markup, error) { return w.draw(pages[i]) }
	keep := func(i int, m *markup) error {
		defer m.spare()
		return writeFile(dst, pages[i].Name, m.out)
	}
	return inOrder(len(pages), o.Parallel, draw, keep)
}

// writeFile creates one file; a failed Close is a failed write, because a full
// disk often says so only then.
func writeFile(dst Folder, name string, b []byte) error {
	f, err := dst.Create(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	_, err = f.Write(b)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
