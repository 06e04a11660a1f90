package pdf

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"unicode/utf16"

	"notchbook/compile/record"
)

// The files in the book
//
// The library would pack one attachment after the other, with a packer of more than a
// megabyte made for each, and would reckon where links lead as if none stood before
// the pages. So it is told of none: they are packed as pages are, and bind puts them
// behind the library's objects.

// attachment is a file that lies in the book.
type attachment struct {
	leaf
	name, what string
	size       int
	sum        [md5.Size]byte // of the whole, as PDF 32000-1, table 46 has it
}

// attach puts a file into the book.
func (d *pen) attach(name, what string, content []byte) {
	a := &attachment{leaf{drawn: content}, name, what, len(content), md5.Sum(content)}
	d.sheaf.attached = append(d.sheaf.attached, a)
	d.sheaf.packBeside(&a.leaf)
}

// attachNotes attaches the notebooks and the curves that the kit names, each under its path in the season's folder, so
// that the book can be written again from itself alone. Of a book without
// private remarks these are the copies without them.
func (d *pen) attachNotes(s *record.Season) {
	for i, n := range s.Files() {
		what := "notebook"
		if i >= len(s.Notebooks) {
			what = "curve"
		}
		if len(n.Text) > 0 {
			d.attach(n.CopyName(), what, n.Text)
		}
	}
}

// writeObjects writes the objects of an attachment, the file's stream and what
// names it, of which the first has this number.
func (a *attachment) writeObjects(out *counting, number int) (at [2]int) {
	at[0] = out.n
	fmt.Fprintf(out, "%d 0 obj\n<</Type /EmbeddedFile /Filter /FlateDecode /Length %d /Params <</CheckSum <%x> /Size %d>>>>\nstream\n", number, len(a.packed), a.sum, a.size)
	out.write(a.packed)
	out.write([]byte("\nendstream\nendobj\n"))
	at[1] = out.n
	fmt.Fprintf(out, "%d 0 obj\n<</Type /Filespec /F () /UF %s /EF <</F %d 0 R>> /Desc %s>>\nendobj\n", number+1, textString(a.name), number, textString(a.what))
	return at
}

// textString is a text in UTF-16 (PDF 32000-1, 7.9.2.2), in hexadecimal digits.
func textString(s string) string {
	out := []byte("<FEFF")
	for _, unit := range utf16.Encode([]rune(s)) {
		out = fmt.Appendf(out, "%04X", unit)
	}
	return string(append(out, '>'))
}

// The names of attachments in the library's catalog, where there are none.
var noNames = []byte("/EmbeddedFiles << /Names [\n  \n] >>")

// named gives the catalog the names of attachments: of so many, whose objects begin
// with this number. Readers halve the list (7.9.6), so its keys are as long as one another.
func named(catalog []byte, count, first int) ([]byte, error) {
	if !bytes.Contains(catalog, noNames) {
		return nil, fmt.Errorf("the library's file has no place for attachments")
	}
	var names bytes.Buffer
	names.WriteString("/EmbeddedFiles <</Names [")
	for i := range count {
		fmt.Fprintf(&names, "\n(%06d) %d 0 R", i+1, first+2*i+1)
	}
	names.WriteString("\n]>>")
	return bytes.Replace(catalog, noNames, names.Bytes(), 1), nil
}

// bookmark remembers a bookmark that leads to y on this page.
func (b *book) bookmark(o outline, y float64) {
	o.page, o.y = b.page, y
	b.outlines = append(b.outlines, o)
}

// finish hands the bookmarks to the library: each leads to its current page, and that
// is the last one again when it closes.
func (b *book) finish() {
	for _, o := range b.outlines {
		b.pdf.SetPage(o.page)
		b.pdf.Bookmark(surrogates(o.title), o.level, o.y)
	}
	b.pdf.SetPage(b.page)
}

// attachedWords says where the notebooks are.
func (b *book) attachedWords() string {
	if b.season.Public {
		return "Private remarks were left out. The notebooks without them are attached to this file; this book can be written from them again."
	}
	return "The notebooks are attached to this file as they were read, byte for byte; this book can be written from them again."
}
