package bag

import (
	"encoding/hex"
	"hash"
	"io"
	"sync"
)

// blockSize is what is read at a time, in bytes: large enough that nothing waits
// for the hand-over, small enough for the processor's cache.
const blockSize = 512 << 10

// digests are several digests of one stream, made side by side: while a block is
// hashed by all of them, it is written and the next one is read.
type digests struct {
	hashes []hash.Hash
	blocks [2][]byte
}

func newDigests(names ...string) *digests {
	d := newSmallDigests(names...)
	for i := range d.blocks {
		d.blocks[i] = make([]byte, blockSize)
	}
	return d
}

// newSmallDigests are for what is written piece by piece; there are no blocks.
func newSmallDigests(names ...string) *digests {
	d := &digests{}
	for _, name := range names {
		d.hashes = append(d.hashes, algorithms[name]())
	}
	return d
}

// sums are the digests of what was hashed, in hexadecimal.
func (d *digests) sums() (sums []string) {
	for _, h := range d.hashes {
		sums = append(sums, hex.EncodeToString(h.Sum(nil)))
	}
	return sums
}

// copy reads all of r into w and gives how much that was, and the digests in the
// order of their names. What failed, reading or writing, is said apart.
func (d *digests) copy(w io.Writer, r io.Reader) (n int64, sums []string, read, written error) {
	for _, h := range d.hashes {
		h.Reset()
	}
	block, read := fill(d.blocks[0], r)
	for i := 1; len(block) > 0 && written == nil; i++ {
		wait := d.hash(block)
		_, written = w.Write(block)
		n += int64(len(block))
		var next []byte
		if read == nil && written == nil {
			next, read = fill(d.blocks[i%2], r)
		}
		wait()
		block = next
	}
	if read == io.EOF {
		read = nil
	}
	return n, d.sums(), read, written
}

// hash hands a block to every hash; what it returns waits for the last.
func (d *digests) hash(block []byte) (wait func()) {
	if len(block) < blockSize/16 { // not worth a goroutine
		for _, h := range d.hashes {
			h.Write(block)
		}
		return func() {}
	}
	var all sync.WaitGroup
	for _, h := range d.hashes {
		all.Go(func() { h.Write(block) })
	}
	return all.Wait
}

// fill reads a block in full, or the rest; then it says io.EOF or what failed.
func fill(block []byte, r io.Reader) ([]byte, error) {
	n, err := io.ReadFull(r, block)
	if err == io.ErrUnexpectedEOF {
		err = io.EOF
	}
	return block[:n], err
}
