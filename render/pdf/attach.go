package pdf

import (
	"bytes"
	"slices"

	"github.com/go-pdf/fpdf"

	"notchbook/compile/record"
)

// attachments are the notebooks and the curves that the kit names, each under its path in the season's folder, so
// that the book can be written again from itself alone. Of a book without
// private remarks these are the copies without them.
func attachments(s *record.Season) []fpdf.Attachment {
	var list []fpdf.Attachment
	for i, n := range s.Files() {
		what := "notebook"
		if i >= len(s.Notebooks) {
			what = "curve"
		}
		if len(n.Text) > 0 {
			list = append(list, fpdf.Attachment{Content: n.Text, Filename: surrogates(n.CopyName()), Description: what})
		}
	}
	return list
}

// bookmark remembers a bookmark that leads to y on this page.
func (b *book) bookmark(o outline, y float64) {
	o.page, o.y = b.page, y
	b.outlines = append(b.outlines, o)
}

// finish hands the bookmarks and attachments to the library. It writes two
// objects for each attachment before the pages, and yet reckons where links
// lead as if the pages came first; so all of them are said to lead as many
// pages further as there are attachments. Bookmarks lead to the current page
// only; the pages that are lacking for that are added, and are not written: the
// library takes the current page for the last one when it closes.
func (b *book) finish() {
	last, shift := b.page, len(b.attached)
	if shift > 0 {
		b.pdf.SetAttachments(b.attached)
		b.pdf.SetPage(last)
		for range shift {
			b.pdf.AddPage()
		}
	}
	for _, o := range b.outlines {
		b.pdf.SetPage(o.page + shift)
		b.pdf.Bookmark(surrogates(o.title), o.level, o.y)
	}
	b.pdf.SetPage(last)
}

// attachedWords says where the notebooks are.
func (b *book) attachedWords() string {
	if b.season.Public {
		return "Private remarks were left out. The notebooks without them are attached to this file; this book can be written from them again."
	}
	return "The notebooks are attached to this file as they were read, byte for byte; this book can be written from them again."
}

// sortAttachments puts the attachments' keys of the library's file in order. The
// library numbers them and leaves 10 behind 9, where a reader that halves the list
// (PDF 32000-1, 7.9.6) expects it behind 1. Each key has its line, so the file keeps
// its length and no object moves.
func sortAttachments(file []byte) {
	from := bytes.LastIndex(file, keysBegin)
	if from < 0 {
		return
	}
	from += len(keysBegin) - 1
	if length := bytes.Index(file[from:], keysEnd); length >= 0 {
		copy(file[from:], sortedKeys(file[from:from+length]))
	}
}

var (
	keysBegin = []byte("<< /Names [\n ")
	keysEnd   = []byte("\n]")
)

// sortedKeys sorts lines of a key and its object by the key.
func sortedKeys(list []byte) []byte {
	lines := bytes.Split(list, []byte("\n"))
	for i := range lines {
		lines[i] = bytes.Trim(lines[i], " ")
	}
	slices.SortFunc(lines, bytes.Compare)
	out := bytes.Join(lines, []byte("\n"))
	return append(out, bytes.Repeat([]byte(" "), len(list)-len(out))...)
}
