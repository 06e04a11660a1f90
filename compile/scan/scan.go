// Package scan reads what can be known of one scan file: its format and size
// in pixels, its depth, the resolution it states, its fixity (SHA-256), and
// small pictures of it. It reads JPEG, PNG and TIFF by content, never by the
// file's name, and never opens a file itself.
//
// The pixels pass through line by line ("lines.go" makes the lines, "reduce.go"
// averages them), so that a reader which never holds the whole image can stand
// where the whole-image decoders stand now.
package scan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
)

// Longest edges, in pixels, of the two small pictures a record shows.
const (
	ListEdge   = 400
	ViewerEdge = 1600
)

// DefaultMemory is the room, in bytes, one decoded image may take when
// [Options] names none: enough for 8x10 inches at 2400 ppi in 16-bit grey. The
// decoders may take several times as much in passing, most of all for a TIFF
// written as a single strip.
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
	// HeadOnly leaves out the fixity: of a file of some hundred megabytes a
	// few kilobytes are read.
	HeadOnly bool
}

// Info is what is known of a scan. A zero field is unknown.
type Info struct {
	Format Format
	Width  int     // pixels, as shown: after the stated orientation
	Height int     // pixels, as shown
	Depth  int     // bits per channel
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
	file := io.NewSectionReader(r, 0, size)
	if size <= 0 {
		return info, &Error{Kind: NotImage, Sentence: "is empty"}
	}
	if !opts.HeadOnly {
		sum, err := fixity(file, size)
		if err != nil {
			return info, err
		}
		info.SHA256 = sum
	}
	head, err := readHeader(file)
	info.fill(head)
	if err != nil {
		return info, err
	}
	info.Thumbnails, err = thumbnails(file, head, opts)
	return info, err
}

// fixity reads the whole file once. It comes first because it tells a file
// that cannot be read from one whose content is bad.
func fixity(file *io.SectionReader, size int64) (string, error) {
	hash := sha256.New()
	n, err := io.Copy(hash, file)
	if err != nil {
		return "", &Error{Kind: Unreadable, Sentence: "cannot be read", Err: err}
	}
	if n != size {
		return "", &Error{Kind: Unreadable,
			Sentence: fmt.Sprintf("ended after %d of %d bytes while it was read", n, size)}
	}
	return hex.EncodeToString(hash.Sum(nil)), nil
}

func (info *Info) fill(h header) {
	info.Format, info.Depth, info.Grey, info.PPI = h.format, h.depth, h.grey, h.ppi
	info.Width, info.Height = h.width, h.height
	if h.orientation.swaps() {
		info.Width, info.Height = h.height, h.width
	}
}
