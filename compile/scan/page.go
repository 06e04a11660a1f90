package scan

import (
	"io"
	"math"
)

// Compressions that are read: TIFF 6.0 p. 30 and 57, Technical Note 2 (1995)
// for JPEG, Adobe Photoshop TIFF Technical Notes (2002) for deflate, whose old
// number means the same.
const (
	none       = 1
	lzwCoded   = 5
	jpegCoded  = 7
	deflated   = 8
	deflateOld = 32946
	packBits   = 32773
)

// Photometric interpretations that are read, TIFF 6.0 p. 37.
const (
	whiteIsZero = 0
	blackIsZero = 1
	rgb         = 2
	palette     = 3
	ycbcr       = 6
)

// Sample formats and predictors, TIFF 6.0 p. 80 and 64; 3 is floating point in
// both.
const (
	unsigned   = 1
	float      = 3
	horizontal = 2
)

// page is one image of a TIFF: its size, the form of its samples, and where
// its pieces stand. A piece is a strip, as wide as the image, or a tile.
type page struct {
	dir           *directory
	width, height int

	bits, samples     int // per sample, per pixel
	format            int64
	photometric       int64
	compression       int64
	predictor         int64
	planes            int // 1: all samples of a pixel stand together; else one plane each
	pieceW, pieceH    int
	cols, rows        int // of pieces
	offsets, counts   *values
	uneven, backwards bool // samples of several depths; bits stored from the right
}

// largestPage goes from directory to directory and gives the one with the most
// pixels, the first of equals; and how many there are. What follows a directory
// that cannot be read, or leads back to one already seen, is left out, and so is
// what follows when they are longer together than the file, and so must overlap.
func largestPage(file *io.SectionReader) (*page, int, error) {
	dir, err := firstDirectory(file)
	if err != nil {
		return nil, 0, err
	}
	best, pages, seen, taken := readPage(dir), 1, map[int64]bool{}, dir.length()
	for pages < maxPages && dir.next != 0 && !seen[dir.next] && taken < file.Size() {
		seen[dir.next] = true
		if dir, err = readDirectory(file, dir.order, dir.big, dir.next); err != nil {
			break
		}
		pages++
		taken += dir.length()
		if p := readPage(dir); p.pixels() > best.pixels() {
			best = p
		}
	}
	return best, pages, nil
}

func (p *page) pixels() int64 {
	if p.width > maxSide || p.height > maxSide {
		return 0
	}
	return int64(p.width) * int64(p.height)
}

// mostSamples bounds the samples of a pixel: colours, and what was added to them.
const mostSamples = 16

// small is a whole number of a field that can only mean something when small.
func small(n int64) int { return int(min(n, math.MaxInt32)) }

// readPage takes the fields with the defaults of TIFF 6.0; whether they make
// an image that can be read is asked by check.
func readPage(d *directory) *page {
	p := &page{
		dir: d, width: small(d.number(tagWidth, 0)), height: small(d.number(tagLength, 0)),
		bits: small(d.number(tagBitsPerSample, 1)), samples: small(d.number(tagSamplesPerPixel, 1)),
		format: d.number(tagSampleFormat, unsigned), photometric: d.number(tagPhotometric, -1),
		compression: d.number(tagCompression, none), predictor: d.number(tagPredictor, 1), planes: 1,
		backwards: d.number(tagFillOrder, 1) == 2,
	}
	if d.number(tagPlanar, 1) == 2 {
		p.planes = max(1, p.samples)
	}
	for i, bits := int64(1), d.field(tagBitsPerSample).first(mostSamples); bits != nil && i < min(bits.count, int64(p.samples), mostSamples); i++ {
		if n, ok := bits.at(i); ok && n != int64(p.bits) {
			p.uneven = true
		}
	}
	p.readPieces()
	return p
}

func (p *page) readPieces() {
	d := p.dir
	p.pieceW, p.pieceH = p.width, small(d.number(tagRowsPerStrip, math.MaxUint32))
	p.offsets, p.counts = d.field(tagStripOffsets), d.field(tagStripByteCounts)
	if tiles := d.field(tagTileOffsets); tiles != nil {
		p.pieceW, p.pieceH = small(d.number(tagTileWidth, 0)), small(d.number(tagTileLength, 0))
		p.offsets, p.counts = tiles, d.field(tagTileByteCounts)
	} else {
		p.pieceH = min(p.pieceH, p.height)
	}
	if p.pieceW > 0 && p.pieceH > 0 {
		p.cols, p.rows = (p.width-1)/p.pieceW+1, (p.height-1)/p.pieceH+1
	}
}

// piece gives where a piece stands. Some old writers leave the lengths of
// uncompressed pieces out, which then follow from the size.
func (p *page) piece(i int64) (off, length int64, err error) {
	off, ok := p.offsets.at(i)
	if !ok {
		return 0, 0, damaged(TIFF, "a piece of it has no place")
	}
	length, ok = p.counts.at(i)
	if !ok || length == 0 {
		length = min(int64(p.rowBytes())*int64(p.pieceH), p.dir.file.Size()-off)
		if p.compression != none {
			length = p.dir.file.Size() - off
		}
	}
	if off <= 0 || length <= 0 || off > p.dir.file.Size()-length {
		return 0, 0, truncated(io.ErrUnexpectedEOF)
	}
	return off, length, nil
}

// rowBytes is a line of a piece, uncompressed.
func (p *page) rowBytes() int {
	samples := p.samples
	if p.planes > 1 {
		samples = 1
	}
	return (p.pieceW*samples*p.bits + 7) / 8
}

// checkExtent tells a cut TIFF: some piece then ends beyond the file.
func (p *page) checkExtent() error {
	if p.offsets == nil || p.counts == nil {
		return nil
	}
	n := min(p.offsets.count, p.counts.count, maxSide)
	for i := range n {
		start, ok := p.offsets.at(i)
		length, also := p.counts.at(i)
		if !ok || !also || start > p.dir.file.Size()-length {
			return truncated(io.ErrUnexpectedEOF)
		}
	}
	return nil
}

// Room that a piece of a file can fill: samples for each byte of it, beyond a
// first allowance. Grain lets no compressor come near; a file that promises
// more was made to keep its reader busy.
const (
	samplesPerByte = 150
	samplesFree    = 24 << 20
	piecesCost     = 4096 // samples: what beginning a piece is worth
)

// check tells whether the pixels can be read.
func (p *page) check() error {
	if sort := p.unread(); sort != "" {
		return unsupported("is a TIFF of a sort that is not read: " + sort)
	}
	if p.pieceW <= 0 || p.pieceH <= 0 || p.offsets == nil {
		return damaged(TIFF, "it does not say where its pixels are")
	}
	if p.pieceW > maxSide || p.pieceH > maxSide*16 {
		return damaged(TIFF, "its tiles are of no likely size")
	}
	pieces := int64(p.cols) * int64(p.rows) * int64(p.planes)
	// Each factor is below 2^21, and of the samples there are few.
	work := int64(p.cols) * int64(p.pieceW) * int64(p.height) * int64(p.samples)
	room := p.dir.file.Size()*samplesPerByte + samplesFree
	if work > room || pieces*piecesCost > room {
		return &Error{Kind: TooLarge, Sentence: "declares more pixels than its bytes can hold"}
	}
	if p.offsets.count < pieces {
		return damaged(TIFF, "some of its pixels have no place in it")
	}
	return nil
}

// unread names what about the page is not read, "" if all of it is.
func (p *page) unread() string {
	switch p.compression {
	case none, lzwCoded, deflated, deflateOld, packBits:
	case jpegCoded:
		return p.unreadJPEG()
	default:
		return "its compression"
	}
	switch {
	case p.predictor != 1 && p.compression != none && !p.predicted():
		return "its predictor"
	case p.uneven, p.samples < 1, p.samples > mostSamples:
		return "its samples"
	case p.backwards:
		return "the order of its bits"
	case !p.knownDepth():
		return "its depth"
	}
	return p.unreadColour()
}

func (p *page) predicted() bool {
	return p.predictor == horizontal && (p.bits == 8 || p.bits == 16) || p.predictor == float && p.format == float
}

func (p *page) knownDepth() bool {
	switch p.bits {
	case 1, 2, 4:
		return p.samples == 1 && p.format == unsigned
	case 8, 16:
		return p.format == unsigned
	}
	return p.bits == 32 && p.format == float
}

func (p *page) unreadColour() string {
	switch p.photometric {
	case whiteIsZero, blackIsZero, -1:
		return ""
	case rgb:
		if p.samples >= 3 {
			return ""
		}
	case palette:
		if p.samples == 1 && p.bits <= 8 {
			return ""
		}
	}
	return "its colours"
}

func (p *page) unreadJPEG() string {
	switch {
	case p.bits != 8 || p.planes > 1 || p.samples != 1 && p.samples != 3:
		return "its samples"
	case p.photometric != blackIsZero && p.photometric != rgb && p.photometric != ycbcr:
		return "its colours"
	}
	return ""
}
