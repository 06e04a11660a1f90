package scan

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// header is what a file says of its image before any pixel is decoded.
type header struct {
	format        Format
	width, height int // as stored, before orientation
	depth         int
	grey          bool
	alpha         bool // known for PNG only, the other formats count it as a channel
	ppi           float64
	orientation   orientation
	date          string
	pages         int
	page          *page // of a TIFF, the largest
	entropy       int64 // of a JPEG, where its entropy-coded data begins
	progressive   bool  // a JPEG of several scans
	pngColour     byte  // of a PNG, ISO/IEC 15948, 11.2.2
	pngMethods    byte  // of compression, filter and interlacing, 0 if all are
	pngData       int64 // where the first chunk of image data begins
}

const pngSignature = "\x89PNG\r\n\x1a\n"

// readHeader tells the format by the first bytes and reads that format's
// header. What was read before an error stays in the header returned.
func readHeader(file *io.SectionReader) (header, error) {
	var first [8]byte
	if _, err := file.ReadAt(first[:], 0); err != nil && !errors.Is(err, io.EOF) {
		return header{}, headerFault(err)
	}
	h := header{orientation: upright}
	var err error
	switch {
	case bytes.HasPrefix(first[:], []byte{0xff, 0xd8, 0xff}):
		h.format = JPEG
		err = h.readJPEG(file)
	case string(first[:]) == pngSignature:
		h.format = PNG
		err = h.readPNG(file)
	case tiffOrder(first[:]) != nil:
		h.format = TIFF
		err = h.readTIFF(file)
	default:
		return h, &Error{Kind: NotImage, Sentence: "is not a JPEG, PNG or TIFF image"}
	}
	if err == nil {
		err = h.checkSize()
	}
	if err == nil && h.format == TIFF {
		err = h.page.checkExtent()
	}
	return h, err
}

func (h *header) checkSize() error {
	if h.width <= 0 || h.height <= 0 {
		return damaged(h.format, "it declares no pixels")
	}
	if h.width > maxSide || h.height > maxSide {
		return h.tooLarge()
	}
	return nil
}

func (h *header) tooLarge() error {
	return &Error{Kind: TooLarge,
		Sentence: fmt.Sprintf("declares %d x %d pixels, more than are decoded", h.width, h.height)}
}

// JPEG markers, ITU-T T.81 table B.1.
const (
	markerSOF0 = 0xc0
	markerSOF2 = 0xc2
	markerDHT  = 0xc4
	markerJPG  = 0xc8
	markerDAC  = 0xcc
	markerSOFF = 0xcf
	markerSOI  = 0xd8
	markerEOI  = 0xd9
	markerSOS  = 0xda
	markerAPP0 = 0xe0
	markerAPP1 = 0xe1
)

// maxSegments bounds what may stand before the image; fill bytes count too.
const maxSegments = 50_000

// readJPEG walks the segments up to the first scan of entropy-coded data.
func (h *header) readJPEG(file *io.SectionReader) error {
	pos := int64(2)
	for range maxSegments {
		var lead [4]byte
		if _, err := file.ReadAt(lead[:], pos); err != nil {
			return headerFault(err)
		}
		if lead[0] != 0xff {
			return damaged(JPEG, "a segment does not begin with a marker")
		}
		marker, length := lead[1], int64(binary.BigEndian.Uint16(lead[2:]))
		if marker == 0xff { // a fill byte, T.81 B.1.1.2
			pos++
			continue
		}
		if length < 2 {
			return damaged(JPEG, "a segment is shorter than its own length")
		}
		if marker == markerSOS {
			h.entropy = pos + 2 + length
			return nil
		}
		if err := h.jpegSegment(file, marker, pos+4, length-2); err != nil {
			return err
		}
		pos += 2 + length
	}
	return damaged(JPEG, "it has more segments than are read")
}

// jpegSegment reads the segments that say something about the whole image.
func (h *header) jpegSegment(file *io.SectionReader, marker byte, at, length int64) error {
	frame := marker >= markerSOF0 && marker <= markerSOFF &&
		marker != markerDHT && marker != markerJPG && marker != markerDAC
	if !frame && marker != markerAPP0 && marker != markerAPP1 {
		return nil
	}
	data := make([]byte, length) // at most 64 KB, a segment's length is 16 bits
	if _, err := file.ReadAt(data, at); err != nil {
		return headerFault(err)
	}
	switch {
	case frame && len(data) < 6:
		return damaged(JPEG, "its frame header is too short")
	case frame:
		h.depth = int(data[0])
		h.height = int(binary.BigEndian.Uint16(data[1:]))
		h.width = int(binary.BigEndian.Uint16(data[3:]))
		h.grey = data[5] == 1
		h.progressive = marker == markerSOF2
	case marker == markerAPP0:
		h.readJFIF(data)
	default: // APP1 carries XMP as well
		if exif, ok := bytes.CutPrefix(data, []byte("Exif\x00\x00")); ok {
			h.readEXIF(exif)
		}
	}
	return nil
}

// readJFIF takes the density from "JFIF\0", version, unit, X and Y density
// (ITU-T T.871, 10.1). Unit 1 is per inch, 2 per centimetre, 0 an aspect only.
func (h *header) readJFIF(data []byte) {
	if len(data) < 12 || string(data[:5]) != "JFIF\x00" {
		return
	}
	perInch := map[byte]float64{1: 1, 2: 2.54}[data[7]]
	x, y := binary.BigEndian.Uint16(data[8:]), binary.BigEndian.Uint16(data[10:])
	h.statePPI(float64(x)*perInch, float64(y)*perInch)
}

// readEXIF takes orientation and resolution from the TIFF directory that EXIF
// is. Bad EXIF says nothing about the image, so it is passed over in silence.
func (h *header) readEXIF(data []byte) {
	dir, err := firstDirectory(io.NewSectionReader(bytes.NewReader(data), 0, int64(len(data))))
	if err != nil {
		return
	}
	h.readPlacing(dir)
	if at := dir.number(tagExifDirectory, 0); at > 0 {
		if exif, err := readDirectory(dir.file, dir.order, dir.big, at); err == nil {
			h.date = cmp.Or(exif.date(tagDateTaken), h.date)
		}
	}
}

// readTIFF reads the largest image of a TIFF.
func (h *header) readTIFF(file *io.SectionReader) (err error) {
	if h.page, h.pages, err = largestPage(file); err != nil {
		return err
	}
	h.width, h.height, h.depth = h.page.width, h.page.height, h.page.bits
	h.grey = h.page.photometric >= 0 && h.page.channels() == 1
	h.readPlacing(h.page.dir)
	return nil
}

// readPlacing reads orientation, resolution and date. Unit 2 is the inch and
// the default, 3 the centimetre, 1 states an aspect only (TIFF 6.0 p. 38).
func (h *header) readPlacing(dir *directory) {
	if o := dir.number(tagOrientation, 0); o >= 1 && o <= 8 {
		h.orientation = orientation(o)
	}
	perInch := map[int64]float64{2: 1, 3: 2.54}[dir.number(tagResolutionUnit, 2)]
	h.statePPI(dir.ratio(tagXResolution)*perInch, dir.ratio(tagYResolution)*perInch)
	h.date = dir.date(tagDateTime)
}

// checkEnd tells a cut JPEG where its pixels are not decoded; the other formats
// tell by their headers.
func (h header) checkEnd(file *io.SectionReader) error {
	if h.format != JPEG {
		return nil
	}
	return findEOI(file, h.entropy)
}

// findEOI tells a whole JPEG from a cut one. Entropy-coded data stuffs every
// 0xff, so that the end marker cannot occur within it (T.81 F.1.2.3).
func findEOI(file *io.SectionReader, from int64) error {
	buf := bufio.NewReaderSize(io.NewSectionReader(file, from, math.MaxInt64-from), 64<<10)
	for {
		if _, err := buf.ReadSlice(0xff); errors.Is(err, bufio.ErrBufferFull) {
			continue
		} else if err != nil {
			return headerFault(err)
		}
		if next, err := buf.Peek(1); err == nil && next[0] == markerEOI {
			return nil
		}
	}
}

// readPNG walks all chunks, so that a cut file is known without decoding it
// (ISO/IEC 15948, 5.3 and 11).
func (h *header) readPNG(file *io.SectionReader) error {
	pos := int64(len(pngSignature))
	for {
		var lead [8]byte
		if _, err := file.ReadAt(lead[:], pos); err != nil {
			return headerFault(err)
		}
		length, name := int64(binary.BigEndian.Uint32(lead[:])), string(lead[4:])
		if h.depth == 0 && name != "IHDR" {
			return damaged(PNG, "it does not begin with its header")
		}
		if name == "IEND" {
			return nil
		}
		if name == "IDAT" && h.pngData == 0 {
			h.pngData = pos
		}
		if err := h.pngChunk(file, name, pos+8, length); err != nil {
			return err
		}
		pos += 12 + length // length, name, data and check sum
	}
}

// maxChunk bounds the chunks read into memory here; EXIF in a JPEG is held to
// the same 64 KB by its format.
const maxChunk = 64 << 10

func (h *header) pngChunk(file *io.SectionReader, name string, at, length int64) error {
	least := map[string]int64{"IHDR": 13, "tRNS": 1, "pHYs": 9, "eXIf": 8}[name]
	if least == 0 || length > maxChunk {
		return nil
	}
	if length < least {
		return damaged(PNG, "its "+name+" chunk is too short")
	}
	data := make([]byte, length)
	if _, err := file.ReadAt(data, at); err != nil {
		return headerFault(err)
	}
	switch name {
	case "IHDR":
		h.width = int(binary.BigEndian.Uint32(data) & math.MaxInt32)
		h.height = int(binary.BigEndian.Uint32(data[4:]) & math.MaxInt32)
		h.depth = int(data[8])
		h.grey = data[9] == 0 || data[9] == 4 // grey, grey with alpha
		h.alpha = data[9] >= 4
		h.pngColour, h.pngMethods = data[9], data[10]|data[11]|data[12]
	case "tRNS":
		h.alpha = true
	case "pHYs":
		if data[8] == 1 { // per metre; 0 states an aspect only
			x, y := binary.BigEndian.Uint32(data), binary.BigEndian.Uint32(data[4:])
			h.statePPI(float64(x)*0.0254, float64(y)*0.0254)
		}
	case "eXIf":
		h.readEXIF(data)
	}
	return nil
}

// statePPI keeps the first resolution stated, if it is one figure and likely.
// PNG states whole pixels per metre, so that 2400 ppi comes as 2399.995: a
// tenth of a pixel per inch is as fine as any format really tells.
func (h *header) statePPI(x, y float64) {
	const most = 100_000 // beyond any scanner; also keeps out NaN and infinity
	if h.ppi != 0 || !(x > 0 && y > 0 && x < most && y < most) {
		return
	}
	if math.Abs(x-y) > 0.01*x {
		return
	}
	h.ppi = math.Round(x*10) / 10
}
