package scan

import (
	"bytes"
	"image/jpeg"
	"io"
)

// tiffLines brings the pixels of a page to a reducer, piece by piece in the
// order of the image, which is as a rule that of the file.
type tiffLines struct {
	page    *page
	stream  *stream
	to      *reducer
	kernel  adder
	unpack  *unpacker
	widened []byte
	memory  int64  // the most that a piece of JPEG may take
	tables  []byte // that stand in front of each piece of JPEG, or none
	taken   int64  // bytes of all pieces so far
	ahead   *ahead // of pieces that are decompressed side by side, or nil
}

// inMemory is how many samples a pixel has when its lines are added up.
func (p *page) inMemory() int { return max(p.samples, p.channels()) }

// channels is how many of them are shown.
func (p *page) channels() int {
	switch p.photometric {
	case rgb, palette, ycbcr:
		return 3
	}
	return 1
}

// maxOpen bounds the lines that are open at once, in bytes. Of strips there are
// two; of tiles, as many as a row of tiles falls on.
const maxOpen = 96 << 20

// checkOpen tells whether the page's lines can be added up in bounded room.
func (p *page) checkOpen(to *reducer) error {
	lines := int64(2)
	if p.cols > 1 || p.planes > 1 || p.compression == jpegCoded {
		lines += int64(min(p.pieceH, p.height)) * int64(to.h) / int64(to.srcH)
	}
	if lines*int64(to.srcW)*int64(to.samples)*8 > maxOpen {
		return &Error{Kind: TooLarge, Sentence: "has pieces larger than are decoded"}
	}
	return nil
}

// pass reads the page through once.
func (p *page) pass(s *stream, to *reducer, opts Options) error {
	if err := p.checkOpen(to); err != nil {
		return err
	}
	t := &tiffLines{page: p, stream: s, to: to, memory: opts.Memory, kernel: p.adder()}
	switch p.compression {
	case none:
	case jpegCoded:
		t.tables = p.dir.field(tagJPEGTables).bytes(64 << 10)
	default:
		t.unpack = newUnpacker(p)
		t.ahead = newAhead(p, opts.Parallel)
	}
	across := p.cols * min(p.planes, to.channels) // transparency in a plane of its own is left out
	for i := range p.rows * across {
		piece, err := t.next(i, p.rows*across)
		if err == nil {
			err = t.reduce(piece)
		}
		if err != nil {
			return err
		}
		if (i+1)%across == 0 {
			to.finish(min((piece.row+1)*p.pieceH, p.height))
		}
	}
	return nil
}

// piece is a strip or tile on its way.
type piece struct {
	row, plane, col int
	off, length     int64
	lines           *unpacked // nil if they are read as they are wanted
}

// next gives the i-th piece of all, in the order of the image.
func (t *tiffLines) next(i, all int) (piece, error) {
	if t.ahead != nil {
		return t.ahead.next(t, i, all)
	}
	return t.place(i)
}

// place finds where a piece stands: rows first, then planes, then columns.
func (t *tiffLines) place(i int) (piece, error) {
	p := t.page
	planes := min(p.planes, t.to.channels)
	c := piece{row: i / p.cols / planes, plane: i / p.cols % planes, col: i % p.cols}
	var err error
	c.off, c.length, err = p.piece((int64(c.plane)*int64(p.rows)+int64(c.row))*int64(p.cols) + int64(c.col))
	if err != nil {
		return c, err
	}
	// Pieces that share their bytes would let a small file be read for ever.
	if t.taken += c.length + int64(len(t.tables)); t.taken > 2*p.dir.file.Size()+1<<20 {
		return c, damaged(TIFF, "its pieces overlap")
	}
	return c, nil
}

// reduce brings a piece's lines to the reducer.
func (t *tiffLines) reduce(c piece) error {
	p := t.page
	y, end := c.row*p.pieceH, min((c.row+1)*p.pieceH, p.height)
	if p.compression == jpegCoded {
		return t.jpegPiece(y, end, c.col, c.off, c.length)
	}
	kernel := t.kernel
	if p.planes > 1 {
		kernel = &apart{samples: p.samples, channel: c.plane, kernel: t.kernel}
	}
	next, err := t.lines(c)
	if err != nil {
		return err
	}
	x := c.col * p.pieceW
	shown := p.shownBytes(min(p.pieceW, p.width-x))
	for ; y < end; y++ {
		line, err := next()
		if err != nil {
			return err
		}
		if p.bits != 8 && p.bits != 16 {
			t.widened = p.spread(t.widened, line)
			line = t.widened
		}
		t.to.line(x, y, kernel, line[:shown])
		if p.cols == 1 && p.planes == 1 {
			t.to.finish(y + 1)
		}
	}
	return nil
}

// shownBytes is what so many pixels of a line take, of 8 or 16 bits a sample.
func (p *page) shownBytes(pixels int) int {
	if p.planes == 1 {
		pixels *= p.samples
	}
	if p.bits > 8 {
		pixels *= 2
	}
	return pixels
}

// lines gives what brings a piece's lines: for uncompressed ones the bytes as
// they were read, without a copy.
func (t *tiffLines) lines(c piece) (func() ([]byte, error), error) {
	switch {
	case c.lines != nil:
		return c.lines.next, nil
	case t.unpack != nil:
		return t.unpack.next, t.unpack.open(t.stream, c.off, c.length)
	}
	n, off, end := t.page.rowBytes(), c.off, c.off+c.length
	return func() ([]byte, error) {
		if off+int64(n) > end {
			return nil, damaged(TIFF, "a piece of it is shorter than its lines")
		}
		line, err := t.stream.view(off, n)
		off += int64(n)
		return line, err
	}, nil
}

// jpegPiece decodes a piece that is a JPEG of its own (TIFF Technical Note 2,
// 1995), whose tables may stand once for all pieces.
func (t *tiffLines) jpegPiece(y, end, col int, off, length int64) error {
	p := t.page
	var head header
	if err := head.readJPEG(io.NewSectionReader(t.stream, off, length)); err != nil {
		return err
	}
	wide, high := min(p.pieceW, p.width-col*p.pieceW), end-y
	switch {
	case head.progressive: // many scans of one piece could take for ever
		return unsupported("is a TIFF of a sort that is not read: its compression")
	case head.width < wide, head.height < high, head.width > p.pieceW+16, head.height > p.pieceH+16:
		return damaged(TIFF, "a piece of it declares another size")
	case int64(head.width)*int64(head.height)*4 > t.memory:
		return &Error{Kind: TooLarge, Sentence: "has pieces larger than are decoded"}
	}
	img, err := jpeg.Decode(t.jpegReader(off, length))
	if err != nil {
		return decodeFault(TIFF, err)
	}
	lines, err := imageLines(TIFF, img)
	if err != nil {
		return err
	}
	return t.reduceImage(lines, y, end, col, wide)
}

// reduceImage takes the lines of a decoded piece.
func (t *tiffLines) reduceImage(lines *decoded, y, end, col, wide int) error {
	if lines.channels != t.to.channels {
		return damaged(TIFF, "a piece of it has other colours")
	}
	light := make(lightLine, lines.width*lines.channels)
	for ; y < end; y++ {
		lines.next(light)
		t.to.line(col*t.page.pieceW, y, light[:wide*lines.channels], nil)
	}
	return nil
}

// jpegReader reads a piece with the tables that all pieces share put in front:
// they are a JPEG too, whose end mark and the piece's start mark fall away.
func (t *tiffLines) jpegReader(off, length int64) io.Reader {
	piece := &section{t.stream, off, off + length}
	if len(t.tables) < 4 || length < 2 {
		return piece
	}
	piece.at += 2
	return io.MultiReader(bytes.NewReader(t.tables[:len(t.tables)-2]), piece)
}
