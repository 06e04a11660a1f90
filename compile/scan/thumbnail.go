package scan

import (
	"bytes"
	"image"
	"image/jpeg"
	"io"
)

// quality of the thumbnails' JPEG, 1 to 100: grain stays visible, a viewer
// picture takes some hundred kilobytes.
const quality = 85

// maxJPEGSide is the most a JPEG can state: its sides are 16-bit numbers.
const maxJPEGSide = 1<<16 - 1

// orientation is the tag of TIFF 6.0 p. 36 and EXIF: which edges of the shown
// image the stored first line and first column are, 1 to 8.
type orientation int

const upright orientation = 1

// swaps tells whether width and height change places.
func (o orientation) swaps() bool { return o >= 5 }

// source gives the stored pixel that is shown at x, y of a stored image of
// w x h pixels.
func (o orientation) source(x, y, w, h int) (int, int) {
	if o.swaps() {
		x, y = y, x
	}
	switch o {
	case 2, 7, 3, 8: // the first column is right, or at the bottom
		x = w - 1 - x
	}
	switch o {
	case 3, 4, 6, 7: // the first line is at the bottom, or right
		y = h - 1 - y
	}
	return x, y
}

// thumbnails makes all pictures asked for in one pass over the lines.
func thumbnails(file *io.SectionReader, h header, opts Options) ([]Thumbnail, error) {
	edges := wantedEdges(opts.Edges)
	if len(edges) == 0 {
		return nil, nil
	}
	memory := opts.Memory
	if memory <= 0 {
		memory = DefaultMemory
	}
	src, err := openLines(file, h, memory)
	if err != nil {
		return nil, err
	}
	reducers, err := reduce(src, edges)
	if err != nil {
		return nil, err
	}
	thumbs := make([]Thumbnail, len(edges))
	for i, r := range reducers {
		if thumbs[i], err = r.thumbnail(edges[i], h.orientation); err != nil {
			return nil, err
		}
	}
	return thumbs, nil
}

func wantedEdges(edges []int) (wanted []int) {
	for _, e := range edges {
		if e >= 1 {
			wanted = append(wanted, min(e, maxJPEGSide))
		}
	}
	return wanted
}

func reduce(src lines, edges []int) ([]*reducer, error) {
	width, height, channels := src.size()
	reducers := make([]*reducer, len(edges))
	for i, edge := range edges {
		reducers[i] = newReducer(channels, width, height, edge)
	}
	light := make([]uint16, width*channels)
	for range height {
		if err := src.next(light); err != nil {
			return nil, err
		}
		for _, r := range reducers {
			r.add(light)
		}
	}
	return reducers, nil
}

// thumbnail turns the reduced image upright, which is cheap only now that it
// is small, and writes it.
func (r *reducer) thumbnail(edge int, o orientation) (Thumbnail, error) {
	t := Thumbnail{Edge: edge, Width: r.w, Height: r.h}
	if o.swaps() {
		t.Width, t.Height = r.h, r.w
	}
	var buf bytes.Buffer
	err := jpeg.Encode(&buf, r.turned(o, t.Width, t.Height), &jpeg.Options{Quality: quality})
	t.JPEG = buf.Bytes()
	return t, err
}

func (r *reducer) turned(o orientation, width, height int) image.Image {
	pix := make([]uint8, 0, len(r.pix))
	for y := range height {
		for x := range width {
			sx, sy := o.source(x, y, r.w, r.h)
			at := (sy*r.w + sx) * r.channels
			pix = append(pix, r.pix[at:at+r.channels]...)
		}
	}
	rect := image.Rect(0, 0, width, height)
	if r.channels == 1 {
		return &image.Gray{Pix: pix, Stride: width, Rect: rect}
	}
	img := image.NewRGBA(rect)
	for i := range width * height {
		copy(img.Pix[4*i:], pix[3*i:3*i+3])
		img.Pix[4*i+3] = 0xff
	}
	return img
}
