package scan

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"
	"sync/atomic"
)

// A scan is hundreds of megabytes, and two things are wanted of it, each about
// as dear as the other: the digest of all bytes and the mean of all pixels. So
// the file is read once, by a goroutine that runs ahead; every chunk goes to the
// digest and to the pixels, which work side by side, and is used again when
// both are done with it:
//
//	reader --> chunk --> digest ----.
//	  ^          `-----> pixels ----+--> free
//	  `-----------------------------'
//
// The pixels ask for stretches by their place in the file. As a rule these
// follow one another; one that lies behind what was read already (strips out of
// order, planes kept apart) is read a second time, from the file itself.

const (
	chunkSize  = 256 << 10 // bytes: small enough to be still in the cache
	chunksRead = 12        // at most this many are ahead of the slower of the two
	timesAgain = 16        // as often as a file may be read again, in all
)

// chunk is a piece of the file on its way.
type chunk struct {
	off   int64
	data  []byte
	users atomic.Int32 // of digest and pixels, those who still need it
}

var chunks = sync.Pool{New: func() any { return &chunk{data: make([]byte, chunkSize)} }}

// stream is one pass over a file.
type stream struct {
	file *io.SectionReader
	free chan *chunk // empty ones; closed by nobody
	sums chan *chunk // to the digest
	pix  chan *chunk // to the pixels
	err  error       // of the reader, set before its channels are closed
	sum  chan string // the digest, once

	now     *chunk // held by the pixels, or nil
	scratch []byte // for a stretch that lies in two chunks
	again   window // for what lies behind
}

// openStream starts reading. It ends with finish, which must be called.
func openStream(file *io.SectionReader) *stream {
	s := &stream{
		file: file,
		free: make(chan *chunk, chunksRead), sums: make(chan *chunk, chunksRead), pix: make(chan *chunk, chunksRead),
		sum: make(chan string, 1), again: window{file: file},
	}
	for range min(chunksRead, 1+file.Size()/chunkSize) {
		s.free <- chunks.Get().(*chunk)
	}
	go s.read()
	go s.digest()
	return s
}

func (s *stream) read() {
	defer close(s.sums)
	defer close(s.pix)
	for off := int64(0); off < s.file.Size(); off += chunkSize {
		c := <-s.free
		c.off, c.data = off, c.data[:min(chunkSize, s.file.Size()-off)]
		n, err := s.file.ReadAt(c.data, off)
		if n < len(c.data) {
			s.err = readFault(err, off+int64(n), s.file.Size())
			return
		}
		c.users.Store(2)
		s.sums <- c
		s.pix <- c
	}
}

func readFault(err error, at, size int64) error {
	if err == nil || errors.Is(err, io.EOF) {
		return &Error{Kind: Unreadable,
			Sentence: fmt.Sprintf("ended after %d of %d bytes while it was read", at, size)}
	}
	return &Error{Kind: Unreadable, Sentence: "cannot be read", Err: err}
}

func (s *stream) digest() {
	hash := sha256.New()
	for c := range s.sums {
		hash.Write(c.data)
		s.release(c)
	}
	s.sum <- hex.EncodeToString(hash.Sum(nil))
}

func (s *stream) release(c *chunk) {
	if c.users.Add(-1) == 0 {
		c.data = c.data[:chunkSize]
		s.free <- c
	}
}

// finish reads what is left for the digest's sake and gives it, in lower-case
// hexadecimal. The stream is of no use afterwards.
func (s *stream) finish() (string, error) {
	for s.advance() {
	}
	sum := <-s.sum
	for len(s.free) > 0 {
		chunks.Put(<-s.free)
	}
	if s.err != nil {
		return "", s.err
	}
	return sum, nil
}

// advance gives back the chunk the pixels hold and takes the next.
func (s *stream) advance() bool {
	if s.now != nil {
		s.release(s.now)
	}
	s.now = <-s.pix
	return s.now != nil
}

// view gives n bytes of the file from off, to be read only, and only until the
// next call.
func (s *stream) view(off int64, n int) ([]byte, error) {
	if off < 0 || int64(n) > s.file.Size()-off {
		return nil, truncated(io.ErrUnexpectedEOF)
	}
	if s.now == nil && !s.advance() || off < s.now.off {
		return s.behind(off, n)
	}
	for off >= s.now.off+int64(len(s.now.data)) {
		if !s.advance() {
			return s.behind(off, n)
		}
	}
	at := int(off - s.now.off)
	if at+n <= len(s.now.data) {
		return s.now.data[at : at+n], nil
	}
	return s.straddling(at, n)
}

// behind gives a stretch that the stream has passed. Pieces strewn over a file so
// that it would be read over and over come from no scanner.
func (s *stream) behind(off int64, n int) ([]byte, error) {
	if s.again.taken > timesAgain*s.file.Size() {
		return nil, damaged(TIFF, "its pieces are strewn about it")
	}
	return s.again.view(off, n)
}

// straddling copies a stretch that begins in the chunk at hand and ends in a
// later one.
func (s *stream) straddling(at, n int) ([]byte, error) {
	s.scratch = sized(s.scratch, n)
	for filled := copy(s.scratch, s.now.data[at:]); filled < n; {
		if !s.advance() {
			return nil, s.err
		}
		filled += copy(s.scratch[filled:], s.now.data)
	}
	return s.scratch, nil
}

// sized gives a slice of n bytes, the old one if it is large enough.
func sized(b []byte, n int) []byte {
	if cap(b) < n {
		return make([]byte, n)
	}
	return b[:n]
}

// blockSize and blocksKept are how a window reads: large enough for a line of
// most scans, and enough of them for three planes that are read in turn.
const (
	blockSize  = 64 << 10 // bytes
	blocksKept = 8
)

// window reads a file at places in no order, a block at a time, and keeps the
// blocks used last. Blocks begin at multiples of their size, so that what is read
// from behind forwards costs no more than what is read forwards.
type window struct {
	file   *io.SectionReader
	blocks []block // the one used last first
	taken  int64   // bytes read so far
}

type block struct {
	off  int64
	data []byte
}

func (b block) holds(off int64, n int) bool {
	return off >= b.off && off+int64(n) <= b.off+int64(len(b.data))
}

// view gives n bytes from off, which must lie in the file.
func (w *window) view(off int64, n int) ([]byte, error) {
	i := slices.IndexFunc(w.blocks, func(b block) bool { return b.holds(off, n) })
	if i < 0 {
		if i = len(w.blocks); i == blocksKept {
			i--
		} else {
			w.blocks = append(w.blocks, block{})
		}
		if err := w.fill(&w.blocks[i], off, n); err != nil {
			return nil, err
		}
	}
	used := w.blocks[i]
	copy(w.blocks[1:i+1], w.blocks[:i])
	w.blocks[0] = used
	return used.data[off-used.off:][:n], nil
}

func (w *window) fill(b *block, off int64, n int) error {
	b.off = off - off%blockSize
	end := min(w.file.Size(), (off+int64(n)+blockSize-1)/blockSize*blockSize)
	b.data = sized(b.data, int(end-b.off))
	w.taken += int64(len(b.data))
	got, err := w.file.ReadAt(b.data, b.off)
	if got < len(b.data) {
		b.data = b.data[:0]
		return readFault(err, b.off+int64(got), w.file.Size())
	}
	return nil
}

// viewer is what stretches of a file can be had from: a stream, or memory.
type viewer interface {
	view(off int64, n int) ([]byte, error)
}

// ReadAt makes what is read of a piece's head come the way of its pixels.
func (s *stream) ReadAt(p []byte, off int64) (int, error) {
	for n := 0; n < len(p); {
		part, err := s.view(off+int64(n), int(min(int64(len(p)-n), blockSize, max(0, s.file.Size()-off-int64(n)))))
		if err != nil {
			return n, err
		}
		if len(part) == 0 {
			return n, io.EOF
		}
		n += copy(p[n:], part)
	}
	return len(p), nil
}

// inMemory is a stretch that was copied.
type inMemory []byte

func (m inMemory) view(off int64, n int) ([]byte, error) { return m[off:][:n], nil }

// section is a stretch of a file as a reader, for the decoders.
type section struct {
	from    viewer
	at, end int64
}

func (r *section) Read(p []byte) (int, error) {
	n := int(min(int64(len(p)), r.end-r.at))
	if n <= 0 {
		return 0, io.EOF
	}
	data, err := r.from.view(r.at, n)
	r.at += int64(copy(p, data))
	return len(data), err
}

// more gives some of what is left, until the next call.
func (r *section) more() ([]byte, error) {
	n := int(min(chunkSize/4, r.end-r.at))
	if n <= 0 {
		return nil, io.ErrUnexpectedEOF
	}
	data, err := r.from.view(r.at, n)
	r.at += int64(len(data))
	return data, err
}
