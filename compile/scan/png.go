package scan

import (
	"bufio"
	"encoding/binary"
	"hash/crc32"
	"io"

	"github.com/klauspost/compress/zlib"
)

// A PNG as scanning programs write it (grey or colour, opaque, not interlaced)
// passes through line by line like a TIFF. Others are rare for scans, and small:
// those are decoded whole.

// byLine tells whether the PNG is of that sort. Its header's check sum must be
// right, else the decoder is left to say what is wrong.
func (h header) byLine(s *stream) bool {
	const chunk, crc = 12, 29 // of the header: its name, and its check sum
	if h.format != PNG || h.alpha || h.pngColour != 0 && h.pngColour != 2 || h.pngMethods != 0 || h.pngData == 0 {
		return false
	}
	first, err := s.view(0, crc+4)
	if err != nil || crc32.ChecksumIEEE(first[chunk:crc]) != binary.BigEndian.Uint32(first[crc:]) {
		return false
	}
	return h.depth == 8 || h.depth == 16 || h.pngColour == 0 && (h.depth == 1 || h.depth == 2 || h.depth == 4)
}

// pngLines unpacks a PNG's lines.
type pngLines struct {
	z        io.Reader
	line     []byte // the filter's number, then the samples
	above    []byte // of the line before, samples only
	bytes    int    // from pixel to pixel, at least one
	expanded []byte
}

func (h header) passPNG(s *stream, to *reducer) error {
	if int64(h.width)*int64(h.height)*int64(to.samples) > s.file.Size()*samplesPerByte+samplesFree {
		return h.tooLarge()
	}
	z, err := zlib.NewReader(bufio.NewReaderSize(&pngData{stream: s, at: h.pngData}, 64<<10))
	if err != nil {
		return decodeFault(PNG, err)
	}
	rowBytes := (h.width*to.samples*h.depth + 7) / 8
	p := pngLines{z: z, line: make([]byte, 1+rowBytes), above: make([]byte, rowBytes), bytes: max(1, to.samples*h.depth/8)}
	kernel := h.adder()
	for y := range h.height {
		line, err := p.next()
		if err != nil {
			return err
		}
		if h.depth < 8 {
			p.expanded = spreadBits(p.expanded, line, h.depth)
			line = p.expanded[:h.width]
		}
		to.line(0, y, kernel, line)
		to.finish(y + 1)
	}
	return p.end()
}

// adder looks samples up as PNG stores them: the heavier byte first.
func (h header) adder() adder {
	if h.depth == 16 {
		return wide{wideTable(false, true)}
	}
	return narrow{narrowTable(false, 1<<h.depth-1)}
}

// end wants the data to end with the image, its check sum right.
func (p *pngLines) end() error {
	var more [1]byte
	switch n, err := io.ReadFull(p.z, more[:]); {
	case n > 0:
		return damaged(PNG, "it has more lines than it declares")
	case err != io.EOF:
		return decodeFault(PNG, err)
	}
	return nil
}

// next gives the next line, its filter undone.
func (p *pngLines) next() ([]byte, error) {
	if _, err := io.ReadFull(p.z, p.line); err != nil {
		if err == io.EOF {
			err = io.ErrUnexpectedEOF
		}
		return nil, decodeFault(PNG, err)
	}
	line := p.line[1:]
	if !unfilter(p.line[0], line, p.above, p.bytes) {
		return nil, damaged(PNG, "a line has a filter that there is not")
	}
	copy(p.above, line)
	return line, nil
}

// unfilter undoes a line's filter in place (ISO/IEC 15948, 9.2): each byte was
// stored as its difference from the one to its left, the one above, the mean of
// the two, or the one of three that Paeth's predictor chooses.
func unfilter(kind byte, line, above []byte, bytes int) bool {
	above = above[:len(line)]
	switch kind {
	case 0:
	case 1:
		for i := bytes; i < len(line); i++ {
			line[i] += line[i-bytes]
		}
	case 2:
		for i, v := range above {
			line[i] += v
		}
	case 3:
		for i, v := range above {
			left := 0
			if i >= bytes {
				left = int(line[i-bytes])
			}
			line[i] += byte((left + int(v)) / 2)
		}
	case 4:
		for i, v := range above {
			if i < bytes {
				line[i] += v // left and upper left are 0: Paeth chooses what is above
				continue
			}
			line[i] += paeth(int(line[i-bytes]), int(v), int(above[i-bytes]))
		}
	default:
		return false
	}
	return true
}

// paeth is ISO/IEC 15948, 9.4: of left, above and upper left the one nearest to
// left + above - upper left, the first of equals.
func paeth(a, b, c int) byte {
	pa, pb, pc := b-c, a-c, a+b-2*c
	pa, pb, pc = max(pa, -pa), max(pb, -pb), max(pc, -pc)
	switch {
	case pa <= pb && pa <= pc:
		return byte(a)
	case pb <= pc:
		return byte(b)
	}
	return byte(c)
}

// pngData reads what stands in the IDAT chunks, one after the other, and checks
// each chunk's sum.
type pngData struct {
	stream *stream
	at     int64 // of a chunk's beginning, or within it
	left   int64 // of the chunk
	sum    uint32
	inside bool
}

func (d *pngData) Read(p []byte) (int, error) {
	for d.left == 0 {
		if err := d.chunk(); err != nil {
			return 0, err
		}
	}
	data, err := d.stream.view(d.at, int(min(int64(len(p)), d.left, chunkSize)))
	if err != nil {
		return 0, err
	}
	n := copy(p, data)
	d.sum = crc32.Update(d.sum, crc32.IEEETable, p[:n])
	d.at, d.left = d.at+int64(n), d.left-int64(n)
	return n, nil
}

// chunk ends the chunk at hand and begins the next.
func (d *pngData) chunk() error {
	if d.inside {
		sum, err := d.stream.view(d.at, 4)
		if err != nil {
			return err
		}
		if binary.BigEndian.Uint32(sum) != d.sum {
			return damaged(PNG, "a check sum is wrong")
		}
		d.at += 4
	}
	lead, err := d.stream.view(d.at, 8)
	if err != nil {
		return err
	}
	if string(lead[4:]) != "IDAT" {
		return io.EOF
	}
	d.left, d.sum, d.inside = int64(binary.BigEndian.Uint32(lead)), crc32.ChecksumIEEE(lead[4:]), true
	d.at += 8
	return nil
}
