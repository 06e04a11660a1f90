package scan

// Decompressing takes longer than all else that is done to a scan, and pieces do
// not depend on one another: while one is reduced, those that follow are
// decompressed beside it. Each is held in memory, packed and unpacked, so that
// this is for pieces of some megabytes; longer ones are read line by line.

// maxPiece is the most that a piece held in memory may take, unpacked, in bytes.
const maxPiece = 4 << 20

// ahead is the pieces that are being decompressed, the next first.
type ahead struct {
	most  int
	queue []piece
	begun int // pieces of the page
	spare []*unpacked
}

// unpacked is a piece in memory.
type unpacked struct {
	unpacker *unpacker
	packed   []byte
	lines    []byte
	err      error
	done     chan struct{} // closed when lines and err are there
	at       int
}

// newAhead is nil where pieces are to be read one after the other.
func newAhead(p *page, parallel int) *ahead {
	if parallel < 2 || p.counts == nil || p.rows*p.cols < 2 || int64(p.rowBytes())*int64(p.pieceH) > maxPiece {
		return nil
	}
	return &ahead{most: parallel}
}

// next gives the i-th piece, and begins with those behind it.
func (a *ahead) next(t *tiffLines, i, all int) (piece, error) {
	if i > 0 { // the one before has been reduced
		a.spare = append(a.spare, a.queue[0].lines)
		a.queue = a.queue[:copy(a.queue, a.queue[1:])]
	}
	for a.begun < all && len(a.queue) < a.most {
		c, err := t.place(a.begun)
		if err == nil {
			err = a.begin(t, &c)
		}
		if err != nil {
			return c, err
		}
		a.queue = append(a.queue, c)
		a.begun++
	}
	first := a.queue[0]
	<-first.lines.done
	return first, first.lines.err
}

// begin reads a piece and has it decompressed.
func (a *ahead) begin(t *tiffLines, c *piece) error {
	p := t.page
	u := a.blank(p)
	c.lines = u
	if c.length > maxPiece+maxPiece/2 { // no compressor makes its input that much longer
		return damaged(TIFF, "a piece of it is longer than its lines")
	}
	u.packed = sized(u.packed, int(c.length))
	for n := 0; n < len(u.packed); {
		part, err := t.stream.view(c.off+int64(n), min(chunkSize, len(u.packed)-n))
		if err != nil {
			return err
		}
		n += copy(u.packed[n:], part)
	}
	rows := min(p.pieceH, p.height-c.row*p.pieceH)
	u.lines = sized(u.lines, rows*p.rowBytes())
	u.done, u.at = make(chan struct{}), 0
	go u.unpack()
	return nil
}

func (a *ahead) blank(p *page) *unpacked {
	if n := len(a.spare); n > 0 {
		u := a.spare[n-1]
		a.spare = a.spare[:n-1]
		return u
	}
	return &unpacked{unpacker: newUnpacker(p)}
}

func (u *unpacked) unpack() {
	defer close(u.done)
	u.err = u.unpacker.open(inMemory(u.packed), 0, int64(len(u.packed)))
	for n := 0; n < len(u.lines) && u.err == nil; {
		var line []byte
		line, u.err = u.unpacker.next()
		n += copy(u.lines[n:], line)
	}
}

// next gives the lines, one after the other.
func (u *unpacked) next() ([]byte, error) {
	n := len(u.unpacker.line)
	u.at += n
	return u.lines[u.at-n : u.at], nil
}
