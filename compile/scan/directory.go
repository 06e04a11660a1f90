package scan

import (
	"bytes"
	"encoding/binary"
	"io"
	"math"
	"strings"
)

// TIFF tags, TIFF 6.0 (1992) appendix A, and where noted elsewhere.
const (
	tagWidth           = 256
	tagLength          = 257
	tagBitsPerSample   = 258
	tagCompression     = 259
	tagPhotometric     = 262
	tagFillOrder       = 266
	tagStripOffsets    = 273
	tagOrientation     = 274
	tagSamplesPerPixel = 277
	tagRowsPerStrip    = 278
	tagStripByteCounts = 279
	tagXResolution     = 282
	tagYResolution     = 283
	tagPlanar          = 284
	tagResolutionUnit  = 296
	tagDateTime        = 306
	tagPredictor       = 317
	tagColorMap        = 320
	tagTileWidth       = 322
	tagTileLength      = 323
	tagTileOffsets     = 324
	tagTileByteCounts  = 325
	tagSampleFormat    = 339
	tagJPEGTables      = 347   // TIFF Technical Note 2 (1995)
	tagExifDirectory   = 34665 // EXIF, CIPA DC-008 4.6.3
	tagDateTaken       = 36867 // EXIF, CIPA DC-008 4.6.5
)

// typeSize gives bytes per value by TIFF field type: byte, ASCII, short, long,
// rational, undefined, IFD; 16 and 18 are BigTIFF's long8 and IFD8. Other types
// hold nothing that is asked for here.
var typeSize = map[uint16]int64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 7: 1, 13: 4, 16: 8, 18: 8}

const typeRational = 5

// Bounds of what is read of directories; a file that goes beyond them is no
// scan. Pages of a scan are few, entries of a directory some dozens.
const (
	maxPages   = 256
	maxEntries = 4096
)

// directory is one image file directory of a TIFF, which is also the form of
// EXIF.
type directory struct {
	file    *io.SectionReader
	order   binary.ByteOrder
	big     bool   // BigTIFF: counts and offsets are 8 bytes
	entries []byte // tag, type, count, value or offset
	next    int64  // where the next directory stands, 0 if there is none
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

// firstDirectory reads the head of a TIFF and its first directory. BigTIFF
// (AWare Systems, "BigTIFF file format proposal") has its offset 8 bytes later.
func firstDirectory(file *io.SectionReader) (*directory, error) {
	var head [16]byte
	n, err := file.ReadAt(head[:], 0)
	if n < 8 {
		return nil, headerFault(err)
	}
	order := tiffOrder(head[:])
	if order == nil {
		return nil, damaged(TIFF, "it has no byte order")
	}
	if order.Uint16(head[2:]) != 0x2b {
		return readDirectory(file, order, false, int64(order.Uint32(head[4:])))
	}
	if n < 16 {
		return nil, headerFault(io.ErrUnexpectedEOF)
	}
	if order.Uint16(head[4:]) != 8 {
		return nil, damaged(TIFF, "its offsets are not of 8 bytes")
	}
	return readDirectory(file, order, true, clamp(order.Uint64(head[8:])))
}

// clamp keeps an offset or count of 64 bits a number that can be compared: what
// does not fit lies outside every file.
func clamp(v uint64) int64 { return int64(min(v, math.MaxInt64/16)) }

func readDirectory(file *io.SectionReader, order binary.ByteOrder, big bool, at int64) (*directory, error) {
	d := &directory{file: file, order: order, big: big}
	lead := int64(2)
	if big {
		lead = 8
	}
	count, err := d.uint(at, lead)
	if err != nil {
		return nil, err
	}
	if count > maxEntries {
		return nil, damaged(TIFF, "a directory has more entries than are read")
	}
	// A file may well end with its last directory's entries.
	size, next := count*int64(d.entrySize()), d.offsetSize()
	body := make([]byte, size+next)
	n, err := file.ReadAt(body, at+lead)
	if int64(n) < size {
		return nil, headerFault(err)
	}
	d.entries = body[:size:size]
	if n == len(body) {
		d.next = d.decode(body[size:])
	}
	return d, nil
}

// length is what the directory takes in its file, in bytes.
func (d *directory) length() int64 { return int64(len(d.entries)) + 2*d.offsetSize() }

func (d *directory) entrySize() int {
	if d.big {
		return 20
	}
	return 12
}

func (d *directory) offsetSize() int64 {
	if d.big {
		return 8
	}
	return 4
}

// uint reads a number of 2, 4 or 8 bytes in the file.
func (d *directory) uint(at, width int64) (int64, error) {
	var buf [8]byte
	if n, err := d.file.ReadAt(buf[:width], at); int64(n) < width {
		return 0, headerFault(err)
	}
	return d.decode(buf[:width]), nil
}

func (d *directory) decode(b []byte) int64 {
	switch len(b) {
	case 1:
		return int64(b[0])
	case 2:
		return int64(d.order.Uint16(b))
	case 4:
		return int64(d.order.Uint32(b))
	}
	return clamp(d.order.Uint64(b))
}

// values is what a field holds, read some way at a time: an offset table may
// have a million entries, and lie about them.
type values struct {
	dir   *directory
	kind  uint16
	width int64
	count int64
	data  window
}

// field finds a tag, nil if it is absent, empty or of a type not known here.
func (d *directory) field(tag uint16) *values {
	size, inline := d.entrySize(), d.offsetSize()
	for e := d.entries; len(e) >= size; e = e[size:] {
		if d.order.Uint16(e) != tag {
			continue
		}
		v := &values{dir: d, kind: d.order.Uint16(e[2:])}
		v.width, v.count = typeSize[v.kind], d.decode(e[4:4+inline])
		value := e[4+inline : size]
		switch {
		case v.width == 0 || v.count == 0:
			return nil
		case v.count > inline/v.width:
			at := d.decode(value)
			v.data.file = io.NewSectionReader(d.file, at, min(v.count*v.width, max(0, d.file.Size()-at)))
		default:
			v.data.file = io.NewSectionReader(bytes.NewReader(value), 0, inline)
		}
		return v
	}
	return nil
}

// at gives the i-th value of a field of whole numbers; a nil field has none.
func (v *values) at(i int64) (int64, bool) {
	b := v.raw(i)
	if b == nil || v.kind == typeRational {
		return 0, false
	}
	return v.dir.decode(b), true
}

func (v *values) raw(i int64) []byte {
	if v == nil || i < 0 || i >= v.count || (i+1)*v.width > v.data.file.Size() {
		return nil
	}
	b, err := v.data.view(i*v.width, int(v.width))
	if err != nil {
		return nil
	}
	return b
}

// bytes gives the whole of a field of at most that many bytes.
func (v *values) bytes(most int64) []byte {
	if v == nil || v.count*v.width > min(most, v.data.file.Size()) {
		return nil
	}
	out := make([]byte, v.count*v.width)
	if n, _ := v.data.file.ReadAt(out, 0); n < len(out) {
		return nil
	}
	return out
}

// first keeps no more than that many values of a field: what a count says beyond
// them is not read.
func (v *values) first(n int64) *values {
	if v != nil && v.count > n {
		v.count = n
		v.data.file = io.NewSectionReader(v.data.file, 0, min(n*v.width, v.data.file.Size()))
	}
	return v
}

// number gives the first value of a whole-number field, or what stands for it
// where the field is absent.
func (d *directory) number(tag uint16, absent int64) int64 {
	if n, ok := d.field(tag).first(1).at(0); ok {
		return n
	}
	return absent
}

// ratio gives a rational field, NaN if there is none.
func (d *directory) ratio(tag uint16) float64 {
	v := d.field(tag).first(1)
	b := v.raw(0)
	if b == nil || v.kind != typeRational {
		return math.NaN()
	}
	return float64(d.order.Uint32(b)) / float64(d.order.Uint32(b[4:]))
}

// date gives a date field, "YYYY:MM:DD HH:MM:SS" (TIFF 6.0 p. 31), with the
// day's hyphens in place; "" if it is absent or blank.
func (d *directory) date(tag uint16) string {
	const form = "0000:00:00 00:00:00"
	text := strings.TrimRight(string(d.field(tag).bytes(64)), "\x00 ")
	if len(text) != len(form) {
		return ""
	}
	for i, c := range []byte(form) {
		digit := text[i] >= '0' && text[i] <= '9'
		if digit != (c == '0') || !digit && text[i] != c {
			return ""
		}
	}
	if text[:4] == "0000" {
		return ""
	}
	return text[:4] + "-" + text[5:7] + "-" + text[8:]
}
