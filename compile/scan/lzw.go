package scan

import (
	"encoding/binary"
	"errors"
	"io"
)

// LZW as TIFF 6.0 p. 57 has it: codes of 9 to 12 bits, the heaviest bit first,
// each standing for a string seen before. A new string is the one before and the
// first byte of the one after; a code grows by a bit one code earlier than the
// table asks for, as every TIFF has it since the first writer erred.
//
// Grain makes strings short, so what counts is the work for a code and not for a
// byte: codes are taken from a word of 64 bits, and of every string the length
// is known, so that it is written once and in its place, from behind.
type lzwReader struct {
	src  *section
	in   []byte // what is left of a view of src
	word uint64 // bits not used yet, at the lower end
	bits uint   // how many

	table [1 << lzwWidest]lzwString
	next  uint // code that the next new string gets
	last  uint // code before, lzwNone behind a clear
	width uint

	out  [lzwRoom + 1<<lzwWidest]byte // room for one string more
	left []byte                       // of out, not read yet
	err  error
}

// lzwString is the string of another code and a byte behind it. The first of
// all its bytes is kept too.
type lzwString struct {
	prefix, length uint16
	suffix, first  byte
}

const (
	lzwWidest = 12
	lzwMask   = 1<<lzwWidest - 1
	lzwRoom   = 32 << 10
	lzwClear  = 256
	lzwEnd    = 257
	lzwNone   = 1 << 16
)

var errLZW = errors.New("a code stands for nothing")

func newLZWReader() *lzwReader {
	r := new(lzwReader)
	for i := range lzwClear {
		r.table[i] = lzwString{length: 1, suffix: byte(i), first: byte(i)}
	}
	return r
}

// reset begins another strip.
func (r *lzwReader) reset(src *section) {
	r.src, r.in, r.word, r.bits, r.left, r.err = src, nil, 0, 0, nil, nil
	r.next, r.last, r.width = lzwEnd+1, lzwNone, 9
}

func (r *lzwReader) Read(p []byte) (int, error) {
	for len(r.left) == 0 {
		if r.err != nil {
			return 0, r.err
		}
		r.left = r.out[:r.decode()]
	}
	n := copy(p, r.left)
	r.left = r.left[n:]
	return n, nil
}

// refill brings more bits into the word.
func (r *lzwReader) refill() bool {
	if len(r.in) >= 4 {
		r.word = r.word<<32 | uint64(binary.BigEndian.Uint32(r.in))
		r.in, r.bits = r.in[4:], r.bits+32
		return true
	}
	for r.bits < r.width {
		if len(r.in) == 0 {
			if r.in, r.err = r.src.more(); r.err != nil {
				return false
			}
		}
		r.word = r.word<<8 | uint64(r.in[0])
		r.in, r.bits = r.in[1:], r.bits+8
	}
	return true
}

// decode fills out, until it is full, the strip ends or an error comes, and
// says how far. What changes with every code is held in variables of its own,
// which is half of its speed.
func (r *lzwReader) decode() (o int) {
	next, last, width, bits := r.next, r.last, r.width, r.bits
	for o < lzwRoom {
		if bits < width {
			r.bits, r.width = bits, width
			if !r.refill() {
				break
			}
			bits = r.bits
		}
		bits -= width
		code := uint(r.word>>bits) & (1<<width - 1)
		if code == lzwClear {
			next, last, width = lzwEnd+1, lzwNone, 9
			continue
		}
		if code == lzwEnd || code > next || code == next && last == lzwNone {
			r.err = lzwFault(code)
			break
		}
		if last != lzwNone && next <= lzwMask {
			before := r.table[last&lzwMask]
			first := before.first // if code is the string that is just being entered
			if code != next {
				first = r.table[code&lzwMask].first
			}
			r.table[next] = lzwString{uint16(last), before.length + 1, first, before.first}
			if next++; next+1 >= 1<<width && width < lzwWidest {
				width++
			}
		}
		last = code
		if code < lzwClear {
			r.out[o] = byte(code)
			o++
			continue
		}
		o = r.write(code, o)
	}
	r.next, r.last, r.width, r.bits = next, last, width, bits
	return o
}

func lzwFault(code uint) error {
	if code == lzwEnd {
		return io.EOF
	}
	return errLZW
}

// write puts the string of a code to its place in out, from behind.
func (r *lzwReader) write(code uint, o int) int {
	s := r.table[code&lzwMask]
	end := o + int(s.length)
	out := r.out[o:end]
	for at := len(out) - 1; at > 0; at-- {
		out[at] = s.suffix
		s = r.table[s.prefix&lzwMask]
	}
	out[0] = s.first
	return end
}
