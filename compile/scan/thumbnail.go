package scan

import (
	"bytes"
	"image/jpeg"
	"slices"
)

// quality of the thumbnails' JPEG, 1 to 100: grain stays visible, a viewer
// picture takes some hundred kilobytes.
const quality = 90

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

// thumbnails makes all pictures asked for in one pass over the pixels.
func thumbnails(s *stream, h header, opts Options) ([]Thumbnail, error) {
	edges := wantedEdges(opts.Edges)
	if len(edges) == 0 {
		return nil, h.checkEnd(s.file)
	}
	pictures, err := h.reduced(s, edges, opts)
	if err != nil {
		return nil, err
	}
	if opts.Negative {
		levels := findLevels(pictures[slices.Max(edges)])
		for _, p := range pictures {
			p.invert(levels)
		}
	}
	thumbs := make([]Thumbnail, len(edges))
	for i, edge := range edges {
		if thumbs[i], err = pictures[edge].thumbnail(edge, h.orientation); err != nil {
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

// reduced gives the picture of each edge. The largest is made of the image,
// each other of the next larger.
func (h header) reduced(s *stream, edges []int, opts Options) (map[int]*picture, error) {
	src, err := h.pixels(s, opts)
	if err != nil {
		return nil, err
	}
	sorted := slices.Compact(slices.SortedFunc(slices.Values(edges), func(a, b int) int { return b - a }))
	pictures := map[int]*picture{}
	var first, last *reducer
	for _, edge := range sorted {
		w, ht := fitted(h.width, h.height, edge)
		p := newPicture(src.channels, w, ht, opts.Negative)
		pictures[edge] = p
		if last == nil {
			first = newReducer(src.samples, src.channels, h.width, h.height, w, ht)
			last = first
		} else {
			next := &chained{reducer: newReducer(src.channels, src.channels, last.w, last.h, w, ht)}
			last.sinks = append(last.sinks, next)
			last = next.reducer
		}
		last.sinks = append(last.sinks, p)
	}
	return pictures, src.pass(first)
}

// pixels is what brings an image to a reducer, once.
type pixels struct {
	samples, channels int // of a pixel: added up, and shown
	pass              func(*reducer) error
}

func (h header) pixels(s *stream, opts Options) (pixels, error) {
	if opts.Memory <= 0 {
		opts.Memory = DefaultMemory
	}
	if h.format == TIFF {
		pass := func(to *reducer) error { return h.page.pass(s, to, opts) }
		return pixels{h.page.inMemory(), h.page.channels(), pass}, h.page.check()
	}
	if h.byLine(s) {
		samples := 3
		if h.grey {
			samples = 1
		}
		return pixels{samples, samples, func(to *reducer) error { return h.passPNG(s, to) }}, nil
	}
	img, err := decodeWhole(s, h, opts.Memory)
	if err != nil {
		return pixels{}, err
	}
	return pixels{img.channels, img.channels, func(to *reducer) error { img.reduce(to); return nil }}, nil
}

// thumbnail turns the picture upright, which is cheap only now that it is
// small, and writes it.
func (p *picture) thumbnail(edge int, o orientation) (Thumbnail, error) {
	t := Thumbnail{Edge: edge, Width: p.w, Height: p.h}
	if o.swaps() {
		t.Width, t.Height = p.h, p.w
	}
	var buf bytes.Buffer
	err := jpeg.Encode(&buf, p.turned(o, t.Width, t.Height), &jpeg.Options{Quality: quality})
	t.JPEG = buf.Bytes()
	return t, err
}
