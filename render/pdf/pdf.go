// Package pdf writes the season's record as a book: a title page, what was
// found, a chapter for every outing with every sheet in it, the kit, the
// scans, and indexes with page numbers. It reads compile/record and nothing
// else, and the same record always gives the same bytes.
package pdf

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"
	"unicode/utf16"

	"github.com/go-pdf/fpdf"

	"notchbook/compile/record"
)

// Options says what the record itself does not know. The zero value writes an
// A4 book without pictures that lies in a folder beside the scans' folders.
type Options struct {
	Generator string // name and version of the program, for the colophon
	// Season is the relative URL from the folder of the PDF to the season's
	// folder; "" means "../". A final slash is added where it is missing.
	Season string
	// Here tells whether a file of the season's folder lies where Season leads,
	// and is linked; nil: each does.
	Here func(path string) bool
	// Picture gives a JPEG of a scan, about edge pixels along its longer
	// side, by the scan's path. Nil bytes mean that there is none; an error
	// is shown in the picture's place, for the record is always written.
	Picture func(path string, edge int) ([]byte, error)
	// Date goes into the document's information; where it is zero the
	// season's last day does, and 1970-01-01 where there is none, because
	// the clock must not.
	Date   time.Time
	Paper  Paper
	Bind   bool     // a wide margin at the inner side of each leaf
	Thumbs Thumbs   // size of the pictures
	Parts  []string // names from Parts; nil is all
}

// Write writes the book to w. It returns an error only when w fails or the
// PDF library does; mistakes in the notes are what the book is about.
func Write(w io.Writer, s *record.Season, o Options) error {
	b, err := newBook(s, o)
	if err != nil {
		return err
	}
	b.write()
	return b.output(w)
}

// write sets all pages, in order.
func (b *book) write() {
	b.titlePage()
	b.contents()
	for _, p := range parts {
		if b.has(p.name) {
			p.write(b)
		}
	}
	b.colophon()
	b.stampPages()
	b.finish()
}

// newBook opens an empty book: paper, faces, and the document's information.
func newBook(s *record.Season, o Options) (*book, error) {
	faces, err := loadFaces()
	if err != nil {
		return nil, err
	}
	sheet, err := formOf(o)
	if err != nil {
		return nil, err
	}
	if err := known(o.Parts); err != nil {
		return nil, err
	}
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: sheet.w, Ht: sheet.h}})
	faces.register(doc)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetTitle(surrogates(s.Title), true)
	doc.SetCreator(surrogates(cmp.Or(o.Generator, "notchbook")), true)
	doc.SetProducer("go-pdf/fpdf", false)
	date := documentDate(s, o)
	doc.SetCreationDate(date)
	doc.SetModificationDate(date)
	doc.SetLang("en") // of the book's own words
	if err := doc.Error(); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	digits := float64(len(strconv.Itoa(estimatedPages(s))))
	b := &book{
		season: s, options: o, form: sheet,
		pen:    newPen(doc, faces, sheet.h),
		galley: galley{faces: faces, room: digits * faces.width(regular, 1, "0")},
		marks:  map[any]*mark{}, forecasts: map[string]*record.Scene{},
		pictures: map[string]*picture{}, registered: map[string]bool{},
	}
	b.attachNotes(s)
	return b, nil
}

// documentDate is the date in the document's information: given, or the
// season's own, never today's.
func documentDate(s *record.Season, o Options) time.Time {
	if !o.Date.IsZero() {
		return o.Date
	}
	if day, err := time.Parse(time.DateOnly, s.LastDay); err == nil {
		return day
	}
	// The library asks the clock when it is given no date.
	return time.Unix(0, 0).UTC()
}

// estimatedPages is an upper guess; only its number of digits matters, to
// leave room for page numbers that are not known yet.
func estimatedPages(s *record.Season) int {
	return 20 + len(s.Sheets) + 2*len(s.Outings) + (len(s.Findings)+len(s.Scans))/4
}

// surrogates rewrites characters beyond the basic plane as pairs of surrogates
// in three bytes each (CESU-8): the library turns titles and bookmarks into
// UTF-16 without knowing of such characters, and comes out right this way.
func surrogates(s string) string {
	if !slices.ContainsFunc([]rune(s), func(r rune) bool { return r > 0xFFFF || r == 0xFFFD }) {
		return s
	}
	var out []byte
	for _, r := range s {
		if hi, lo := utf16.EncodeRune(r); hi != 0xFFFD {
			out = append(out, 0xED, byte(0x80|hi>>6&0x3F), byte(0x80|hi&0x3F))
			out = append(out, 0xED, byte(0x80|lo>>6&0x3F), byte(0x80|lo&0x3F))
			continue
		}
		out = append(out, string(r)...)
	}
	return string(out)
}
