// Command frames writes one generated scan, a TIFF of uncompressed 16-bit
// strips with a picture and grain in it, for the bench beside it:
//
//	frames FILE MEGABYTES CHANNELS
//
// The picture is the same for the same arguments. Grain matters: without it the
// compressors would do what they never can with film.
package main

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"strconv"
)

const stripRows = 64

func main() {
	if len(os.Args) != 4 {
		fmt.Fprintln(os.Stderr, "usage: frames FILE MEGABYTES CHANNELS")
		os.Exit(2)
	}
	megabytes, _ := strconv.Atoi(os.Args[2])
	channels, _ := strconv.Atoi(os.Args[3])
	if err := write(os.Args[1], megabytes, channels); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func write(name string, megabytes, channels int) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(file, 1<<20)
	height := int(math.Sqrt(float64(megabytes) * 1e6 / float64(2*channels) * 4 / 5)) // 4 x 5
	width := height * 5 / 4
	strips := (height + stripRows - 1) / stripRows
	head := header(width, height, channels, strips)
	if _, err := w.Write(head); err != nil {
		return err
	}
	grain, row := uint64(88172645463325252), make([]byte, 2*channels*width)
	for y := range height {
		for x := range width {
			light := 30000 + 20000*math.Sin(float64(x)/211)*math.Cos(float64(y)/173)
			for c := range channels {
				grain ^= grain << 13 // Marsaglia's xorshift: the same on every machine
				grain ^= grain >> 7
				grain ^= grain << 17
				v := uint16(light) + uint16(1500*c) + uint16(grain&0x7ff)
				binary.LittleEndian.PutUint16(row[2*(x*channels+c):], v)
			}
		}
		if _, err := w.Write(row); err != nil {
			return err
		}
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return file.Close()
}

// header is the directory, and behind it the strips' places and lengths.
func header(width, height, channels, strips int) []byte {
	le := binary.LittleEndian
	const entries, first = 10, 8
	tables := first + 2 + 12*entries + 4
	bits, offsets := tables, tables+8
	counts := offsets + 4*strips
	data := counts + 4*strips
	photometric := 1
	if channels > 1 {
		photometric = 2
	}
	out := append([]byte("II*\x00"), le.AppendUint32(nil, first)...)
	out = le.AppendUint16(out, entries)
	entry := func(tag, kind uint16, count, value int) {
		out = le.AppendUint16(le.AppendUint16(out, tag), kind)
		out = le.AppendUint32(le.AppendUint32(out, uint32(count)), uint32(value))
	}
	entry(256, 4, 1, width)
	entry(257, 4, 1, height)
	if channels > 2 {
		entry(258, 3, channels, bits)
	} else {
		entry(258, 3, 1, 16)
	}
	entry(259, 3, 1, 1)
	entry(262, 3, 1, photometric)
	entry(273, 4, strips, offsets)
	entry(277, 3, 1, channels)
	entry(278, 4, 1, stripRows)
	entry(279, 4, strips, counts)
	entry(284, 3, 1, 1)
	out = le.AppendUint32(out, 0)
	for range 4 {
		out = le.AppendUint16(out, 16)
	}
	rowBytes := 2 * channels * width
	for i := range strips {
		out = le.AppendUint32(out, uint32(data+i*stripRows*rowBytes))
	}
	for i := range strips {
		out = le.AppendUint32(out, uint32(min(stripRows, height-i*stripRows)*rowBytes))
	}
	return out
}
