package scan

import "encoding/binary"

// The heart of a reader of scans is one loop: take a sample, look up its light,
// add. It runs a billion times for a season, so it runs over bytes as they stand
// in the file; whatever else there is to a sample (polarity, byte order) is
// worked into the table it is looked up in and costs nothing.

// wide adds samples of 16 bits.
type wide struct{ table *[1 << 16]uint16 }

func (k wide) add(sums []uint64, weight uint64, line []byte) {
	// Four at a time; by these conditions the compiler knows every bound.
	for ; len(line) >= 8 && len(sums) >= 4; line, sums = line[8:], sums[4:] {
		v := binary.LittleEndian.Uint64(line)
		sums[0] += uint64(k.table[uint16(v)]) * weight
		sums[1] += uint64(k.table[uint16(v>>16)]) * weight
		sums[2] += uint64(k.table[uint16(v>>32)]) * weight
		sums[3] += uint64(k.table[uint16(v>>48)]) * weight
	}
	for i := 0; len(line) >= 2; i, line = i+1, line[2:] {
		sums[i] += uint64(k.table[binary.LittleEndian.Uint16(line)]) * weight
	}
}

// narrow adds samples of 8 bits.
type narrow struct{ table *[1 << 8]uint16 }

func (k narrow) add(sums []uint64, weight uint64, line []byte) {
	for ; len(line) >= 4 && len(sums) >= 4; line, sums = line[4:], sums[4:] {
		v := binary.LittleEndian.Uint32(line)
		sums[0] += uint64(k.table[uint8(v)]) * weight
		sums[1] += uint64(k.table[uint8(v>>8)]) * weight
		sums[2] += uint64(k.table[uint8(v>>16)]) * weight
		sums[3] += uint64(k.table[v>>24]) * weight
	}
	for i, v := range line {
		sums[i] += uint64(k.table[v]) * weight
	}
}

// coloured adds one sample of 8 bits a pixel as three, by a palette.
type coloured struct{ tables [3][1 << 8]uint16 }

func (k *coloured) add(sums []uint64, weight uint64, line []byte) {
	for _, v := range line {
		for c := range k.tables {
			sums[c] += uint64(k.tables[c][v]) * weight
		}
		sums = sums[3:]
	}
}

// apart adds one channel of pixels whose channels stand apart.
type apart struct {
	samples, channel int
	kernel           adder
	sums             []uint64
}

func (k *apart) add(sums []uint64, weight uint64, line []byte) {
	k.sums = append(k.sums[:0], make([]uint64, len(line))...)
	k.kernel.add(k.sums, weight, line)
	for i, v := range k.sums[:min(len(k.sums), len(sums)/k.samples)] {
		sums[i*k.samples+k.channel] += v
	}
}

// adder is for lines as the page stores them, or as they are once spread has
// brought them to 8 or 16 bits.
func (p *page) adder() adder {
	inverted := p.photometric == whiteIsZero
	switch {
	case p.photometric == palette:
		return p.palette()
	case p.bits > 8:
		// A line of floating point has been brought to little-endian numbers.
		swapped := p.bits == 16 && p.dir.order == binary.ByteOrder(binary.BigEndian)
		return wide{wideTable(inverted, swapped)}
	}
	return narrow{narrowTable(inverted, 1<<min(p.bits, 8)-1)}
}

func wideTable(inverted, swapped bool) *[1 << 16]uint16 {
	light := light16()
	if !inverted && !swapped {
		return light
	}
	var t [1 << 16]uint16
	for i := range t {
		v := uint16(i)
		if swapped {
			v = v<<8 | v>>8
		}
		if inverted {
			v = ^v
		}
		t[i] = light[v]
	}
	return &t
}

// narrowTable is for values up to most: 255, or 1, 3, 15 where several samples
// stood in a byte.
func narrowTable(inverted bool, most int) *[1 << 8]uint16 {
	light := light16()
	var t [1 << 8]uint16
	for i := range most + 1 {
		v := i * 0xffff / most
		if inverted {
			v = 0xffff - v
		}
		t[i] = light[v]
	}
	return &t
}

// palette reads the colour map: all reds, all greens, all blues, of 16 bits
// (TIFF 6.0 p. 23). Some writers give 8 bits; then all of them are small.
func (p *page) palette() *coloured {
	colours, n := p.dir.field(tagColorMap), 1<<p.bits
	light, scale := light16(), uint16(0x101)
	for i := range int64(3 * n) {
		if v, _ := colours.at(i); v > 0xff {
			scale = 1
		}
	}
	var k coloured
	for c := range k.tables {
		for i := range n {
			v, _ := colours.at(int64(c*n + i))
			k.tables[c][i] = light[uint16(v)*scale]
		}
	}
	return &k
}
