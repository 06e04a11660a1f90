package scan

import (
	"bufio"
	"encoding/binary"
	"io"
	"math"

	"github.com/klauspost/compress/zlib"
)

// unpacker gives the lines of one compressed piece after the other. Each piece
// is decompressed as it is read, so that a strip may be as long as the image.
type unpacker struct {
	page    *page
	packed  *bufio.Reader
	zlib    io.ReadCloser // used again, nil before the first piece
	lzw     *lzwReader
	current io.Reader
	line    []byte
}

func newUnpacker(p *page) *unpacker {
	return &unpacker{page: p, packed: bufio.NewReaderSize(nil, 64<<10), line: make([]byte, p.rowBytes())}
}

// open begins a piece.
func (u *unpacker) open(from viewer, off, length int64) error {
	piece := &section{from, off, off + length}
	u.packed.Reset(piece)
	switch u.page.compression {
	case lzwCoded:
		if u.lzw == nil {
			u.lzw = newLZWReader()
		}
		u.lzw.reset(piece)
		u.current = u.lzw
	case packBits:
		u.current = &unpackBits{r: u.packed}
	default:
		return u.inflate()
	}
	return nil
}

func (u *unpacker) inflate() (err error) {
	if u.zlib == nil {
		u.zlib, err = zlib.NewReader(u.packed)
	} else {
		err = u.zlib.(zlib.Resetter).Reset(u.packed, nil)
	}
	if err != nil {
		return decodeFault(TIFF, err)
	}
	u.current = u.zlib
	return nil
}

// next gives the next line of the piece, its predictor undone.
func (u *unpacker) next() ([]byte, error) {
	if _, err := io.ReadFull(u.current, u.line); err != nil {
		return nil, decodeFault(TIFF, err)
	}
	u.page.unpredict(u.line)
	return u.line, nil
}

// unpackBits reads runs of bytes (TIFF 6.0 p. 42): a count n from 0 to 127 is
// followed by n+1 bytes, one from -1 to -127 by a byte that stands 1-n times.
type unpackBits struct {
	r     *bufio.Reader
	left  int
	same  bool
	value byte
}

func (u *unpackBits) Read(p []byte) (int, error) {
	for u.left == 0 {
		n, err := u.r.ReadByte()
		if err != nil {
			return 0, err
		}
		switch n := int(int8(n)); {
		case n >= 0:
			u.left, u.same = n+1, false
		case n > -128:
			u.left, u.same = 1-n, true
			if u.value, err = u.r.ReadByte(); err != nil {
				return 0, err
			}
		}
	}
	n := min(u.left, len(p))
	if !u.same {
		n, err := u.r.Read(p[:n])
		u.left -= n
		return n, err
	}
	for i := range p[:n] {
		p[i] = u.value
	}
	u.left -= n
	return n, nil
}

// unpredict undoes the predictor of a line: each sample was stored as its
// difference from the one to its left (TIFF 6.0 p. 64).
func (p *page) unpredict(line []byte) {
	samples := p.samples
	if p.planes > 1 {
		samples = 1
	}
	switch {
	case p.predictor == horizontal && p.bits == 8:
		for i := samples; i < len(line); i++ {
			line[i] += line[i-samples]
		}
	case p.predictor == horizontal && p.bits == 16:
		p.unpredict16(line, 2*samples)
	case p.predictor == float && p.format == float:
		p.unpredictFloat(line, samples)
	}
}

func (p *page) unpredict16(line []byte, step int) {
	if p.dir.order == binary.ByteOrder(binary.BigEndian) {
		for i := step; i+1 < len(line); i += 2 {
			v := binary.BigEndian.Uint16(line[i:]) + binary.BigEndian.Uint16(line[i-step:])
			binary.BigEndian.PutUint16(line[i:], v)
		}
		return
	}
	for c := 0; c < step; c += 2 {
		var v uint16
		for i := c; i+1 < len(line); i += step {
			v += binary.LittleEndian.Uint16(line[i:])
			binary.LittleEndian.PutUint16(line[i:], v)
		}
	}
}

// unpredictFloat undoes the predictor of Adobe Photoshop TIFF Technical Note 3
// (2005): the bytes of a line are sorted by weight, the heaviest first whatever
// the byte order, then stored as differences.
func (p *page) unpredictFloat(line []byte, samples int) {
	for i := samples; i < len(line); i++ {
		line[i] += line[i-samples]
	}
	n := len(line) / 4
	sorted := append([]byte(nil), line...)
	for i := range n {
		v := uint32(sorted[i])<<24 | uint32(sorted[n+i])<<16 | uint32(sorted[2*n+i])<<8 | uint32(sorted[3*n+i])
		p.dir.order.PutUint32(line[4*i:], v)
	}
}

// spread brings a line of samples that are not of 8 or 16 bits to these: those
// below a byte to one each, floating point from 0 to 1 to 16 bits.
func (p *page) spread(dst, line []byte) []byte {
	if p.bits == 32 {
		dst = sized(dst, len(line)/2)
		for i := range len(line) / 4 {
			v := float64(math.Float32frombits(p.dir.order.Uint32(line[4*i:])))
			binary.LittleEndian.PutUint16(dst[2*i:], uint16(max(0, min(1, v))*0xffff+0.5))
		}
		return dst
	}
	return spreadBits(dst, line, p.bits)
}

// spreadBits brings samples of 1, 2 or 4 bits to a byte each.
func spreadBits(dst, line []byte, bits int) []byte {
	dst = sized(dst, len(line)*8/bits)
	mask, at := byte(1<<bits-1), 0
	for _, b := range line {
		for shift := 8 - bits; shift >= 0; shift -= bits {
			dst[at] = b >> shift & mask
			at++
		}
	}
	return dst
}
