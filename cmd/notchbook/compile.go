package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile/query"
	"notchbook/compile/record"
	"notchbook/lang/diag"
	"notchbook/render/html"
	"notchbook/render/pdf"
)

// compileCommand writes the record.
type compileCommand struct {
	Paths  []string `arg:"" name:"path" help:"Notebooks or folders of notebooks; - is standard input."`
	Output string   `short:"o" name:"output" placeholder:"DIR" help:"Folder for the record. Default: record, in the season's folder."`
	door
	audience

	Paper    string   `enum:"a4,letter,a5" default:"a4" help:"Paper of the book: a4, letter or a5."`
	Bind     bool     `help:"Leave a margin for binding at the inner side of each leaf."`
	Thumbs   string   `enum:"none,small,large" default:"small" help:"Pictures in the book: none, small or large."`
	Labels   string   `placeholder:"WxH" help:"Also write labels.pdf: labels for sleeves and holder sides, so many millimetres wide and high, to cut. Example: 70x37."`
	Sections []string `placeholder:"NAMES" help:"Only these sections of the book: ${sections}."`
}

// The names of the book and of the labels within the record.
const (
	pdfName    = "record.pdf"
	labelsName = "labels.pdf"
)

// Run writes the record: all of it, or nothing.
func (c *compileCommand) Run(t terminal) error {
	date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	r, err := c.read(c.Paths, t.in)
	if err != nil {
		return err
	}
	defer r.close()
	if err := c.open(r); err != nil {
		return err
	}
	dest, err := c.destination(r)
	if err != nil {
		return err
	}
	if bag := disk.InBag(dest); bag != "" {
		return fmt.Errorf("%s is in the bag %s, and would be in none of its lists; name a folder outside it with -o DIR", dest, bag)
	}
	out, err := disk.NewRecord(dest)
	if err != nil {
		return err
	}
	defer out.Abort()
	r.problems(t)
	p := newProgress(t)
	r.prepare(p)
	season, list := r.compile()
	r.sayLeft(t, season)
	if err := sayChanged(t, r, season, c.Output, ""); err != nil {
		return err
	}
	if err := sayRenumbered(t, season, dest); err != nil {
		return err
	}
	sayOdd(t, season)
	if err := c.write(out, r, season, dest, date, p); err != nil {
		return err
	}
	p.done()
	if err := c.keeps(out, r, dest); err != nil {
		return err
	}
	if err := out.Commit(); err != nil {
		return err
	}
	if err := r.findings(t, t.out, list, mostShown); err != nil {
		return err
	}
	summary(t, season.Tally.Counts, season.Cautions, list)
	fmt.Fprintln(t.out, diag.Clean(fmt.Sprintf("the record is in %s: open %s or %s", dest, filepath.Join(dest, "index.html"), filepath.Join(dest, pdfName))))
	return nil
}

// keeps refuses to replace the record of a season by that of one notebook of
// it, unless the place was named.
func (c *compileCommand) keeps(out *disk.Record, r *reading, dest string) error {
	if c.Output != "" || r.folder.File == "" {
		return nil
	}
	for _, name := range out.Dropped() {
		if strings.HasPrefix(name, "outing-") {
			return fmt.Errorf("%s holds the record of more than %s; compile the folder, or name another place with -o DIR", dest, strings.Join(r.names, ", "))
		}
	}
	return nil
}

// destination is the folder for the record. By default it lies inside the
// season's folder, so that the whole can be moved and its links still lead to
// the scans.
func (c *compileCommand) destination(r *reading) (string, error) {
	switch {
	case c.Output != "":
		return filepath.Clean(c.Output), nil
	case r.stdin != nil:
		return "", fmt.Errorf("notes from %s need a folder for the record: -o DIR", r.names[0])
	case r.folder.Together():
		return "", fmt.Errorf("several folders need a folder for the record: -o DIR")
	}
	return filepath.Join(r.folder.Path, "record"), nil
}

// write writes the record into the folder that leads to the season's.
func (c *compileCommand) write(out *disk.Record, r *reading, s *record.Season, dest string, date time.Time, p *progress) error {
	up, err := relative(dest, r.folder.Path)
	if err != nil {
		return err
	}
	book := pdf.Options{Date: date, Paper: papers[c.Paper], Bind: c.Bind, Thumbs: thumbs[c.Thumbs], Parts: c.Sections}
	if err := writeRecord(out, r, s, up, nil, p, book); err != nil {
		return err
	}
	return c.writeLabels(out, s, book)
}

// writeRecord writes all that a record is. up leads from its folder to the
// season's; here tells which files of the season are there, nil: all; book is how
// the book is to look.
func writeRecord(out html.Folder, r *reading, s *record.Season, up string, here func(string) bool, p *progress, book pdf.Options) error {
	book.Generator, book.Season, book.Here, book.Picture = "notchbook "+number, urlPath(up), here, r.picture
	made := meanwhile(func(w io.Writer) error { return pdf.Write(w, s, book) })
	defer made.Close()
	// Beside the book comes first what one processor makes alone; the pages take all.
	p.say("writing the copies")
	if err := writeCopies(out, s); err != nil {
		return err
	}
	s.Find = query.Index(s) // which the book does not read
	p.say("writing the pages")
	defer r.withCache()()
	err := html.Write(out, s, html.Options{
		Generator: "notchbook " + number, Season: urlPath(up), Here: here, Picture: r.picture, View: r.view, Turned: r.turned, Parallel: runtime.GOMAXPROCS(0),
		Book: pdfName, Notes: notesFolder, Data: copies,
	})
	if err != nil {
		return err
	}
	if err := writeSums(out, s, up); err != nil {
		return err
	}
	if err := writeFormer(out, s, r.former, up); err != nil {
		return err
	}
	p.say("writing the book")
	return writing(out, pdfName, func(w io.Writer) error { _, err := io.Copy(w, made); return err })
}

// meanwhile lets a file be made beside other work. What it writes waits until it is
// read: the book is all made before its first byte is written, and takes as long as
// everything else.
func meanwhile(make func(io.Writer) error) io.ReadCloser {
	read, write := io.Pipe()
	go func() { write.CloseWithError(make(write)) }()
	return read
}

// The words on the command line for the book's options.
var (
	papers = map[string]pdf.Paper{"a4": pdf.A4, "letter": pdf.Letter, "a5": pdf.A5}
	thumbs = map[string]pdf.Thumbs{"none": pdf.NoThumbs, "small": pdf.SmallThumbs, "large": pdf.LargeThumbs}
)

// labelSize reads "70x37" as millimetres; nothing where no labels are asked for.
func (c *compileCommand) labelSize() (size pdf.LabelSize, err error) {
	wide, high, found := strings.Cut(strings.ReplaceAll(c.Labels, "×", "x"), "x")
	if size.Width, err = strconv.ParseFloat(wide, 64); err == nil {
		size.Height, err = strconv.ParseFloat(high, 64)
	}
	if err != nil || !found {
		return size, fmt.Errorf("a size of labels is written as 70x37, in millimetres, not %q", c.Labels)
	}
	return size, size.Fits(papers[c.Paper])
}

// writeLabels writes the labels beside the book, where they are asked for.
func (c *compileCommand) writeLabels(out *disk.Record, s *record.Season, o pdf.Options) error {
	if c.Labels == "" {
		return nil
	}
	size, err := c.labelSize()
	if err != nil {
		return err
	}
	o.Generator = "notchbook " + number
	return writing(out, labelsName, func(w io.Writer) error { return pdf.WriteLabels(w, s, size, o) })
}

// Validate refuses sections that the book does not have and labels that no sheet
// of paper holds, before anything is read.
func (c *compileCommand) Validate() error {
	if c.Labels != "" {
		if _, err := c.labelSize(); err != nil {
			return err
		}
	}
	for _, name := range c.Sections {
		if !slices.Contains(pdf.Parts(), name) {
			return fmt.Errorf("the book has no section %q; it has %s", name, strings.Join(pdf.Parts(), ", "))
		}
	}
	return nil
}

// closing closes a file that was written and keeps the first error.
func closing(file io.Closer, err error) error {
	if fault := file.Close(); err == nil {
		return fault
	}
	return err
}

// sourceDate reads SOURCE_DATE_EPOCH, seconds since 1970 as the standard of
// reproducible builds has it; without it the notes' last day stands.
func sourceDate(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is not a number of seconds: %q", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}
