package scan

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
)

// TIFF tags, TIFF 6.0 (1992) appendix A.
const (
	tagWidth           = 256
	tagLength          = 257
	tagBitsPerSample   = 258
	tagPhotometric     = 262
	tagStripOffsets    = 273
	tagOrientation     = 274
	tagStripByteCounts = 279
	tagXResolution     = 282
	tagYResolution     = 283
	tagResolutionUnit  = 296
	tagTileOffsets     = 324
	tagTileByteCounts  = 325
)

// typeSize gives bytes per value by TIFF field type: byte, short, long,
// rational. Other types hold nothing that is asked for here.
var typeSize = map[uint16]int64{1: 1, 3: 2, 4: 4, 5: 8}

// directory is the first image file directory of a TIFF, which is also the
// form of EXIF.
type directory struct {
	file    *io.SectionReader
	order   binary.ByteOrder
	entries []byte // 12 bytes each: tag, type, count, value or offset
}

// tiffOrder gives the byte order a TIFF or BigTIFF begins with, nil if none.
func tiffOrder(first []byte) binary.ByteOrder {
	switch string(first[:4]) {
	case "II\x2a\x00", "II\x2b\x00":
		return binary.LittleEndian
	case "MM\x00\x2a", "MM\x00\x2b":
		return binary.BigEndian
	}
	return nil
}

func readDirectory(file *io.SectionReader) (*directory, error) {
	var first [8]byte
	if _, err := file.ReadAt(first[:], 0); err != nil {
		return nil, headerFault(err)
	}
	order := tiffOrder(first[:])
	switch {
	case order == nil:
		return nil, damaged(TIFF, "it has no byte order")
	case order.Uint16(first[2:]) == 0x2b:
		return nil, unsupported("is a BigTIFF, which is not read")
	}
	at := int64(order.Uint32(first[4:]))
	var count [2]byte
	if _, err := file.ReadAt(count[:], at); err != nil {
		return nil, headerFault(err)
	}
	entries := make([]byte, 12*int(order.Uint16(count[:]))) // at most 768 KB
	if _, err := file.ReadAt(entries, at+2); err != nil && len(entries) > 0 {
		return nil, headerFault(err)
	}
	return &directory{file, order, entries}, nil
}

// field finds a tag and opens its values, whether they stand in the entry or
// elsewhere in the file. A field that is absent or of another type is nil.
func (d *directory) field(tag uint16) (values *io.SectionReader, width int64) {
	for e := d.entries; len(e) >= 12; e = e[12:] {
		if d.order.Uint16(e) != tag {
			continue
		}
		width := typeSize[d.order.Uint16(e[2:])]
		length := width * int64(d.order.Uint32(e[4:]))
		if length == 0 {
			return nil, 0
		}
		if length > 4 {
			return io.NewSectionReader(d.file, int64(d.order.Uint32(e[8:])), length), width
		}
		return io.NewSectionReader(bytes.NewReader(e[8:12]), 0, length), width
	}
	return nil, 0
}

// number gives the first value of a whole-number field.
func (d *directory) number(tag uint16) (int64, bool) {
	values, width := d.field(tag)
	if values == nil {
		return 0, false
	}
	return d.nth(values, width, 0)
}

func (d *directory) nth(values *io.SectionReader, width, i int64) (int64, bool) {
	var buf [4]byte
	if width > 4 {
		return 0, false
	}
	if _, err := values.ReadAt(buf[:width], i*width); err != nil {
		return 0, false
	}
	switch width {
	case 1:
		return int64(buf[0]), true
	case 2:
		return int64(d.order.Uint16(buf[:])), true
	}
	return int64(d.order.Uint32(buf[:])), true
}

// ratio gives a rational field, NaN if there is none.
func (d *directory) ratio(tag uint16) float64 {
	var buf [8]byte
	values, width := d.field(tag)
	if width != 8 {
		return math.NaN()
	}
	if _, err := values.ReadAt(buf[:], 0); err != nil {
		return math.NaN()
	}
	return float64(d.order.Uint32(buf[:])) / float64(d.order.Uint32(buf[4:]))
}

// readTIFF reads the first image of a TIFF and checks that its data lies
// within the file.
func (h *header) readTIFF(file *io.SectionReader) error {
	dir, err := readDirectory(file)
	if err != nil {
		return err
	}
	width, _ := dir.number(tagWidth)
	height, _ := dir.number(tagLength)
	h.width = int(min(width, math.MaxInt32))
	h.height = int(min(height, math.MaxInt32))
	h.depth = 1 // the default, TIFF 6.0 p. 29
	if bits, ok := dir.number(tagBitsPerSample); ok {
		h.depth = int(bits)
	}
	// 0 is WhiteIsZero, 1 BlackIsZero (TIFF 6.0 p. 37); the decoder inverts.
	photometric, ok := dir.number(tagPhotometric)
	h.grey = ok && photometric <= 1
	h.readPlacing(dir)
	if err := dir.checkExtent(tagStripOffsets, tagStripByteCounts); err != nil {
		return err
	}
	return dir.checkExtent(tagTileOffsets, tagTileByteCounts)
}

// readPlacing reads orientation and resolution. Unit 2 is the inch and the
// default, 3 the centimetre, 1 states an aspect only (TIFF 6.0 p. 38).
func (h *header) readPlacing(dir *directory) {
	if o, ok := dir.number(tagOrientation); ok && o >= 1 && o <= 8 {
		h.orientation = orientation(o)
	}
	unit, ok := dir.number(tagResolutionUnit)
	if !ok {
		unit = 2
	}
	perInch := map[int64]float64{2: 1, 3: 2.54}[unit]
	h.statePPI(dir.ratio(tagXResolution)*perInch, dir.ratio(tagYResolution)*perInch)
}

// checkExtent tells a cut TIFF: some strip or tile then ends beyond the file.
func (d *directory) checkExtent(offsets, counts uint16) error {
	at, atWidth := d.field(offsets)
	lengths, lengthWidth := d.field(counts)
	if at == nil || lengths == nil {
		return nil
	}
	n := min(at.Size()/atWidth, lengths.Size()/lengthWidth, maxSide)
	for i := range n {
		start, ok := d.nth(at, atWidth, i)
		length, also := d.nth(lengths, lengthWidth, i)
		if !ok || !also || start+length > d.file.Size() {
			return truncated(io.ErrUnexpectedEOF)
		}
	}
	return nil
}
