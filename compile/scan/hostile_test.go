package scan

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"image/jpeg"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
)

// tag is a field of a TIFF under construction.
type tag struct {
	tag    uint16
	values []uint32
}

// build writes a TIFF of one page: the pieces of its image, then the directory
// with the fields given and the places of the pieces. Fields given for these
// stand in their stead.
func build(order binary.AppendByteOrder, big bool, fields []tag, pieces ...[]byte) []byte {
	out := []byte("II")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		out = []byte("MM")
	}
	word := func(b []byte, v int) []byte { return order.AppendUint32(b, uint32(v)) }
	if big {
		out = order.AppendUint16(out, 43)
		out = order.AppendUint16(order.AppendUint16(out, 8), 0)
		word = func(b []byte, v int) []byte { return order.AppendUint64(b, uint64(v)) }
	} else {
		out = order.AppendUint16(out, 42)
	}
	at := len(out)
	out = word(out, 0)
	var offsets, counts []uint32
	for _, p := range pieces {
		offsets, counts = append(offsets, uint32(len(out))), append(counts, uint32(len(p)))
		out = append(out, p...)
	}
	fields = withPlaces(fields, offsets, counts)
	values := make([]int, len(fields))
	inline := len(word(nil, 0))
	for i, f := range fields {
		values[i] = len(out)
		if 4*len(f.values) > inline {
			for _, v := range f.values {
				out = order.AppendUint32(out, v)
			}
		}
	}
	copy(out[at:], word(nil, len(out)))
	if big {
		out = order.AppendUint64(out, uint64(len(fields)))
	} else {
		out = order.AppendUint16(out, uint16(len(fields)))
	}
	for i, f := range fields {
		out = order.AppendUint16(order.AppendUint16(out, f.tag), 4)
		out = word(out, len(f.values))
		if 4*len(f.values) > inline {
			out = word(out, values[i])
			continue
		}
		entry := make([]byte, 0, inline)
		for _, v := range f.values {
			entry = order.AppendUint32(entry, v)
		}
		out = append(out, entry[:inline]...)
	}
	return word(out, 0)
}

func withPlaces(fields []tag, offsets, counts []uint32) []tag {
	places, lengths := uint16(tagStripOffsets), uint16(tagStripByteCounts)
	given := map[uint16]bool{}
	for _, f := range fields {
		given[f.tag] = true
	}
	if given[tagTileWidth] {
		places, lengths = tagTileOffsets, tagTileByteCounts
	}
	if !given[places] {
		fields = append(fields, tag{places, offsets})
	}
	if !given[lengths] {
		fields = append(fields, tag{lengths, counts})
	}
	return fields
}

// image is the fields that every page has.
func page0(w, h, bits, photometric, compression uint32, more ...tag) []tag {
	return append([]tag{
		{tagWidth, []uint32{w}}, {tagLength, []uint32{h}}, {tagBitsPerSample, []uint32{bits}},
		{tagPhotometric, []uint32{photometric}}, {tagCompression, []uint32{compression}},
	}, more...)
}

func deflate(data []byte) []byte {
	var buf bytes.Buffer
	z := zlib.NewWriter(&buf)
	z.Write(data)
	z.Close()
	return buf.Bytes()
}

// lzwRising is n codes of which each stands for a string one byte longer than
// the one before, all of them zeros: the most that LZW can make of its bytes.
func lzwRising(n int) []byte {
	var out []byte
	var word, bits uint
	put := func(code, width uint) {
		word, bits = word<<width|code, bits+width
		for ; bits >= 8; bits -= 8 {
			out = append(out, byte(word>>(bits-8)))
		}
	}
	next, width := uint(4096), uint(9)
	for range n {
		switch {
		case next >= 4095:
			put(lzwClear, width)
			next, width = 257, 9
			put(0, width)
		default:
			put(next, width)
		}
		next++
		if next+1 >= 1<<width && width < 12 {
			width++
		}
	}
	put(lzwEnd, width)
	put(0, 7)
	return out
}

// counted counts what is asked of a file: the measure of a reader's work that
// is the same on a busy machine as on an idle one.
type counted struct {
	*bytes.Reader
	reads, bytes atomic.Int64
}

func (c *counted) ReadAt(p []byte, off int64) (int, error) {
	n, err := c.Reader.ReadAt(p, off)
	c.reads.Add(1)
	c.bytes.Add(int64(n))
	return n, err
}

// attempt reads what may be anything, and holds the reader to its bounds.
func attempt(t *testing.T, data []byte) (Info, error) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	file := &counted{Reader: bytes.NewReader(data)}
	info, err := Read(file, int64(len(data)), Options{Edges: []int{40, 160}, Memory: 8 << 20, Parallel: 1 + len(data)%3})
	runtime.ReadMemStats(&after)
	var e *Error
	if err != nil && (!errors.As(err, &e) || e.Sentence == "" || kindless(e.Kind)) {
		t.Errorf("an error of no kind: %v", err)
	}
	if err == nil && (info.Width <= 0 || info.Height <= 0 || len(info.Thumbnails) != 2) {
		t.Errorf("no error, and %+v", info)
	}
	if grown := after.TotalAlloc - before.TotalAlloc; grown > maxOpen+64<<20 {
		t.Errorf("%d MB for %d bytes", grown>>20, len(data))
	}
	// The digest passes over the file once, the directories and the tables of JPEG
	// once at most, the places and lengths of the pieces, and pixels that lie behind,
	// twice. A piece or segment has an entry of some bytes.
	size := int64(len(data))
	if n := file.bytes.Load(); n > 9*size+1024 {
		t.Errorf("%d bytes read of a file of %d", n, size)
	}
	if n := file.reads.Load(); n > size/2+64 {
		t.Errorf("read %d times from a file of %d bytes", n, size)
	}
	return info, err
}

// Each of these is a megabyte at most and would be the ruin of a reader that
// believed it.
func TestHostile(t *testing.T) {
	le := binary.AppendByteOrder(binary.LittleEndian)
	const mega = 1 << 20
	zeros := make([]byte, 150*mega)
	looped := build(le, false, page0(4, 4, 8, 1, 1), make([]byte, 16))
	copy(looped[len(looped)-4:], looped[4:8]) // the next directory is this one
	many := func(n int) []uint32 {
		all := make([]uint32, n)
		for i := range all {
			all[i] = 8
		}
		return all
	}
	cases := []struct {
		name string
		data []byte
		want string // of the error's sentence; "" if the image is read
	}{
		{"a loop of directories", looped, ""},
		{"a size that lies", build(le, false, page0(1<<19, 1<<19, 16, 1, 1), make([]byte, 100)), "declares more pixels than its bytes can hold"},
		{"a long line", build(le, false, page0(1<<20, 20, 8, 1, deflated), deflate(make([]byte, 20*mega))), ""},
		{"a longer line", build(le, false, page0(1<<20, 1, 8, 2, deflated, tag{tagSamplesPerPixel, []uint32{16}}), deflate(make([]byte, 16*mega))),
			"has pieces larger than are decoded"},
		{"a high column", build(le, false, page0(20, 1<<20, 8, 1, deflated), deflate(make([]byte, 20*mega))), ""},
		{"a bomb of deflate", build(le, false, page0(16384, 10000, 8, 1, deflated), append(deflate(zeros), make([]byte, mega-200_000)...)),
			"ends before its image does"},
		{"a bomb of LZW", build(le, false, page0(16384, 9000, 8, 1, lzwCoded), lzwRising(600_000)), ""},
		{"a bomb of a palette", build(le, false, page0(16384, 8000, 8, 3, deflated), append(deflate(zeros), make([]byte, mega-200_000)...)), ""},
		{"a bomb of bits", build(le, false, page0(32768, 5000, 1, 1, deflated), append(deflate(zeros), make([]byte, mega-200_000)...)), ""},
		{"a strip outside the file", build(le, false, page0(10, 10, 8, 1, 1, tag{tagStripOffsets, []uint32{1 << 31}}), make([]byte, 100)), "ends before its image does"},
		{"a strip that wraps", build(le, true, page0(10, 10, 8, 1, 1, tag{tagStripByteCounts, []uint32{1<<32 - 1}}), make([]byte, 100)), "ends before its image does"},
		{"one place for all strips", build(le, false, page0(16384, 16384, 8, 1, 1, tag{tagRowsPerStrip, []uint32{1}}, tag{tagStripOffsets, many(16384)},
			tag{tagStripByteCounts, many(16384)}), make([]byte, 100)), "declares more pixels than its bytes can hold"},
		{"many small strips", build(le, false, page0(1, 120_000, 8, 1, deflated, tag{tagRowsPerStrip, []uint32{1}}, tag{tagStripOffsets, many(120_000)},
			tag{tagStripByteCounts, many(120_000)}), deflate(zeros[:1])), "declares more pixels than its bytes can hold"},
		{"a tile without end", build(le, false, page0(10, 10, 8, 1, deflated, tag{tagTileWidth, []uint32{1 << 30}}, tag{tagTileLength, []uint32{1 << 30}}), deflate(zeros)),
			"is a damaged TIFF: its tiles are of no likely size"},
		{"a tile of nothing", build(le, false, page0(10, 10, 8, 1, 1, tag{tagTileWidth, []uint32{0}}, tag{tagTileLength, []uint32{0}}), zeros[:100]),
			"is a damaged TIFF: it does not say where its pixels are"},
		{"no strips", build(le, false, page0(10, 10, 8, 1, 1)), "is a damaged TIFF: it does not say where its pixels are"},
		{"a short strip", build(le, false, page0(10, 10, 8, 1, 1), zeros[:99]), "is a damaged TIFF: a piece of it is shorter than its lines"},
		{"LZW of nothing", build(le, false, page0(10, 10, 8, 1, lzwCoded), []byte{0xff, 0xff, 0xff}), "is a damaged TIFF"},
		{"deflate of nothing", build(le, false, page0(10, 10, 8, 1, deflated), []byte{0xff, 0xff, 0xff}), "is a damaged TIFF"},
		{"a fax", build(le, false, page0(10, 10, 1, 0, 4), []byte{0xff, 0xff, 0xff}), "is a TIFF of a sort that is not read: its compression"},
		{"CMYK", build(le, false, page0(10, 10, 8, 5, 1, tag{tagSamplesPerPixel, []uint32{4}}), zeros[:400]), "is a TIFF of a sort that is not read: its colours"},
		{"more entries than can be", []byte("II*\x00\x08\x00\x00\x00\xff\xff"), "is a damaged TIFF: a directory has more entries than are read"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			info, err := attempt(t, c.data)
			if samples, size := int64(info.Width)*int64(info.Height), int64(len(c.data)); err == nil && samples > size*samplesPerByte+samplesFree {
				t.Errorf("%d pixels decoded of %d bytes", samples, size)
			}
			switch {
			case err == nil && c.want != "":
				t.Errorf("read, as %d x %d; want %q", info.Width, info.Height, c.want)
			case err != nil && err.Error() != c.want:
				t.Errorf("says %q, want %q", err, c.want)
			}
		})
	}
}

// The strings that rise one byte at a time, against what they must come to.
func TestLZWRising(t *testing.T) {
	data := build(binary.LittleEndian, true, page0(1000, 1000, 8, 1, lzwCoded), lzwRising(2000))
	info, err := attempt(t, data)
	if err != nil || info.Width != 1000 {
		t.Error(info, err)
	}
	// 2000 codes: 1 + 2 + ... + 2000 bytes.
	data = build(binary.LittleEndian, true, page0(1000, 2001, 8, 1, lzwCoded), lzwRising(2000))
	if _, err := attempt(t, data); err != nil {
		t.Error(err)
	}
	data = build(binary.LittleEndian, true, page0(1000, 2002, 8, 1, lzwCoded), lzwRising(2000))
	_, err = attempt(t, data)
	wantFault(t, err, Truncated, "ends before its image does")
}

func FuzzTIFF(f *testing.F) {
	noise := make([]byte, 24*16*6)
	for i := range noise {
		noise[i] = byte(i * i >> 3)
	}
	var coded bytes.Buffer
	if err := jpeg.Encode(&coded, quarters(), nil); err != nil {
		f.Fatal(err)
	}
	samples := func(n uint32) tag { return tag{tagSamplesPerPixel, []uint32{n}} }
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for _, big := range []bool{false, true} {
			f.Add(build(order, big, page0(24, 16, 16, 0, none, tag{tagRowsPerStrip, []uint32{8}}), noise[:384], noise[:384]))
			f.Add(build(order, big, page0(24, 16, 8, 2, deflated, samples(3), tag{tagPredictor, []uint32{2}}), deflate(noise)))
			f.Add(build(order, big, page0(24, 16, 16, 2, deflated, samples(4), tag{tagPredictor, []uint32{2}}), deflate(append(noise, noise...))))
			f.Add(build(order, big, page0(24, 16, 8, 1, lzwCoded), lzwRising(40)))
			f.Add(build(order, big, page0(24, 16, 8, 1, packBits), bytes.Repeat([]byte{0x81, 7}, 4)))
			f.Add(build(order, big, page0(24, 16, 4, 3, none, tag{tagColorMap, make([]uint32, 48)}), noise[:192]))
			f.Add(build(order, big, page0(24, 16, 32, 1, deflated, tag{tagSampleFormat, []uint32{3}}, tag{tagPredictor, []uint32{3}}), deflate(noise[:1536])))
			f.Add(build(order, big, page0(24, 16, 8, 2, none, samples(3), tag{tagPlanar, []uint32{2}}), noise[:384], noise[:384], noise[:384]))
			f.Add(build(order, big, page0(24, 16, 8, 1, none, tag{tagTileWidth, []uint32{16}}, tag{tagTileLength, []uint32{16}}), noise[:256], noise[:256]))
			f.Add(build(order, big, page0(64, 48, 8, 1, jpegCoded), coded.Bytes()))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) < 8 || tiffOrder(data) == nil || len(data) > 1<<20 {
			return
		}
		attempt(t, data)
	})
}

// Seeds that are not read would fuzz nothing.
func TestBuiltFilesAreRead(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for _, big := range []bool{false, true} {
			data := build(order, big, page0(24, 16, 16, 0, none, tag{tagRowsPerStrip, []uint32{8}}), make([]byte, 384), make([]byte, 384))
			info := read(t, data, 400)
			wantGrey(t, shown(t, info.Thumbnails[0]), 12, 8, 255, 0)
		}
	}
	if strings.Count(string(lzwRising(3)), "\x00") == 0 {
		t.Error("no zeros in the codes")
	}
}

// However the pieces lie about a file, the bytes asked of it keep in proportion
// to its own: strips from the bottom up, and planes one after the other, are read
// three times at most; what would take more than seventeen times is refused.
func TestPiecesOutOfOrder(t *testing.T) {
	le := binary.AppendByteOrder(binary.LittleEndian)
	strips := func(w, h int, place func(i int) int, more ...tag) []byte {
		var offsets, counts []uint32
		for i := range h {
			offsets, counts = append(offsets, uint32(8+place(i)*w)), append(counts, uint32(w))
		}
		fields := append(more, tag{tagRowsPerStrip, []uint32{1}}, tag{tagStripOffsets, offsets}, tag{tagStripByteCounts, counts})
		return build(le, false, page0(uint32(w), uint32(h), 8, 1, none, fields...), make([]byte, w*h))
	}
	planes := build(le, false, page0(2048, 2000, 8, 2, none, tag{tagRowsPerStrip, []uint32{2000}},
		tag{tagSamplesPerPixel, []uint32{3}}, tag{tagPlanar, []uint32{2}}),
		make([]byte, 2048*2000), make([]byte, 2048*2000), make([]byte, 2048*2000))
	for _, c := range []struct {
		name string
		data []byte
		most float64 // times the file
		want string
	}{
		{"in order", strips(4096, 2000, func(i int) int { return i }), 1.2, ""},
		{"from the bottom", strips(4096, 2000, func(i int) int { return 1999 - i }), 3.1, ""},
		{"planes", planes, 2.2, ""},
		{"strewn", strips(256, 32_000, func(i int) int { return i * 7919 % 32_000 }), 17.5, "is a damaged TIFF: its pieces are strewn about it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := &counted{Reader: bytes.NewReader(c.data)}
			_, err := Read(file, int64(len(c.data)), Options{Edges: []int{160}})
			if got := float64(file.bytes.Load()) / float64(len(c.data)); got > c.most {
				t.Errorf("%.1f times the file was read", got)
			}
			if err == nil && c.want != "" || err != nil && err.Error() != c.want {
				t.Errorf("says %v, want %q", err, c.want)
			}
		})
	}
}
