// Package scan reads what can be known of one scan file: its format and size
// in pixels, its depth, the resolution it states, its fixity (SHA-256), and
// small pictures of it. It reads JPEG, PNG and TIFF by content, never by the
// file's name, and never opens a file itself.
//
// A file is read once, from its beginning to its end ("stream.go"). The pixels
// of a TIFF pass through line by line ("pieces.go") and are averaged as they
// pass ("reduce.go"), so that a scan of a gigabyte takes a few megabytes; a JPEG
// or PNG is decoded whole.
package scan

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
)

// Longest edges, in pixels, of the two small pictures a record shows.
const (
	ListEdge   = 400
	ViewerEdge = 1600
)

// DefaultMemory is the room, in bytes, one decoded JPEG or PNG may take when
// [Options] names none: enough for 8x10 inches at 2400 ppi in 16-bit grey. The
// decoders may take several times as much in passing. TIFFs take no more than
// some lines and the pictures made of them.
const DefaultMemory = 1 << 30

// maxSide bounds a declared width or height in pixels. A sheet of 20x24 inches
// at 12 000 ppi stays below it, and the sums of the reducer stay within 64 bits.
const maxSide = 1 << 20

// Format is the file format found in the content.
type Format string

// The formats that are read.
const (
	JPEG Format = "JPEG"
	PNG  Format = "PNG"
	TIFF Format = "TIFF"
)

// Options says what is wanted beyond the header and the fixity.
type Options struct {
	// Edges asks for one thumbnail each, of this longest edge in pixels.
	// An image that is smaller is not enlarged. Edges below 1 are passed over.
	Edges []int
	// Memory bounds a decoded image, in bytes; 0 stands for DefaultMemory.
	Memory int64
	// Parallel is how many strips or tiles of a compressed TIFF may be
	// decompressed at once; below 2 it is one after the other. Each may take
	// 8 MB.
	Parallel int
	// Negative says that the scan shows a negative: its thumbnails are
	// positives, brought to the full range of tones.
	Negative bool
	// HeadOnly leaves out the fixity and the thumbnails: of a file of some
	// hundred megabytes a few kilobytes are read.
	HeadOnly bool
}

// Info is what is known of a scan. A zero field is unknown.
type Info struct {
	Format Format
	Width  int     // pixels, as shown: after the stated orientation
	Height int     // pixels, as shown
	Depth  int     // bits per channel
	Pages  int     // images in the file; the largest is the one told of
	Date   string  // as stated in the file, "2026-11-07 16:20:05" in whatever zone, or ""
	Grey   bool    // one channel of tone, with or without transparency
	PPI    float64 // pixels per inch as stated; 0 if none or not the same both ways
	SHA256 string  // of the whole file, lower-case hexadecimal
	Bytes  int64

	Thumbnails []Thumbnail // in the order of Options.Edges
}

// Thumbnail is a small picture, averaged in linear light and turned upright.
type Thumbnail struct {
	Edge          int // as asked for
	Width, Height int // pixels
	JPEG          []byte
}

// Read reads the scan in the first size bytes of r. Pixels are decoded only
// when a thumbnail is asked for; that an image is whole is checked as far as
// its structure shows it.
//
// A bad scan gives an [*Error], and Info still holds everything that could be
// known, as a rule at least Bytes and SHA256.
func Read(r io.ReaderAt, size int64, opts Options) (Info, error) {
	info := Info{Bytes: size}
	if size <= 0 {
		if !opts.HeadOnly {
			none := sha256.Sum256(nil)
			info.SHA256 = hex.EncodeToString(none[:])
		}
		return info, &Error{Kind: NotImage, Sentence: "is empty"}
	}
	file := io.NewSectionReader(r, 0, size)
	if opts.HeadOnly {
		head, err := readHeader(file)
		info.fill(head)
		return info, err
	}
	s := openStream(file)
	head, err := readHeader(file)
	if err == nil {
		info.Thumbnails, err = thumbnails(s, head, opts)
	}
	// That the file cannot be read explains every other fault.
	sum, fault := s.finish()
	if fault != nil {
		return Info{Bytes: size}, fault
	}
	info.SHA256 = sum
	info.fill(head)
	return info, err
}

func (info *Info) fill(h header) {
	info.Format, info.Depth, info.Grey, info.PPI = h.format, h.depth, h.grey, h.ppi
	info.Width, info.Height, info.Pages, info.Date = h.width, h.height, h.pages, h.date
	if h.orientation.swaps() {
		info.Width, info.Height = h.height, h.width
	}
}
