package scan

import (
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/tiff"
)

// lines gives an image line by line, top to bottom as stored, in linear light
// with its channels interleaved: one for grey, three for colour. A reader that
// never holds the whole image is another implementation of it.
type lines interface {
	size() (width, height, channels int)
	next(light []uint16) error // fills width x channels values
}

// decoder is the pair every image package has.
type decoder struct {
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
}

var decoders = map[Format]decoder{
	JPEG: {jpeg.DecodeConfig, jpeg.Decode},
	PNG:  {png.DecodeConfig, png.Decode},
	TIFF: {tiff.DecodeConfig, tiff.Decode},
}

// openLines decodes the whole image, if it fits into the memory allowed.
func openLines(file *io.SectionReader, h header, memory int64) (lines, error) {
	if int64(h.width) > memory/h.pixelBytes()/int64(h.height) {
		return nil, h.tooLarge()
	}
	d := decoders[h.format]
	config, err := d.config(io.NewSectionReader(file, 0, file.Size()))
	if err != nil {
		return nil, decodeFault(h.format, err)
	}
	// The bound above is worth nothing if the decoder reads another size.
	if config.Width != h.width || config.Height != h.height {
		return nil, damaged(h.format, "it declares two sizes")
	}
	img, err := d.decode(io.NewSectionReader(file, 0, file.Size()))
	if err != nil {
		return nil, decodeFault(h.format, err)
	}
	return imageLines(h.format, img)
}

// pixelBytes is what one decoded pixel takes: grey as it is, all else as four
// channels.
func (h header) pixelBytes() int64 {
	n := int64(1)
	if h.depth > 8 {
		n = 2
	}
	if !h.grey || h.alpha {
		n *= 4
	}
	return n
}

// decoded is a whole image in memory, read line by line.
type decoded struct {
	width, height, channels int

	y    int // the line that comes next
	line func(y int, light []uint16)
}

func (d *decoded) size() (width, height, channels int) { return d.width, d.height, d.channels }

func (d *decoded) next(light []uint16) error {
	d.line(d.y, light)
	d.y++
	return nil
}

func imageLines(format Format, img image.Image) (lines, error) {
	d := &decoded{width: img.Bounds().Dx(), height: img.Bounds().Dy(), channels: 3}
	switch img := img.(type) {
	case *image.Gray:
		d.channels, d.line = 1, greyLine(img)
	case *image.Gray16:
		d.channels, d.line = 1, grey16Line(img)
	case *image.YCbCr:
		d.line = ycbcrLine(img)
	case image.RGBA64Image:
		d.line = colourLine(img)
	default:
		return nil, unsupported("is a " + string(format) + " of a sort that is not read")
	}
	return d, nil
}

func greyLine(img *image.Gray) func(int, []uint16) {
	table := light8()
	return func(y int, light []uint16) {
		pix := img.Pix[y*img.Stride:]
		for x := range light {
			light[x] = table[pix[x]]
		}
	}
}

func grey16Line(img *image.Gray16) func(int, []uint16) {
	table := light16()
	return func(y int, light []uint16) {
		pix := img.Pix[y*img.Stride:]
		for x := range light {
			light[x] = table[uint16(pix[2*x])<<8|uint16(pix[2*x+1])]
		}
	}
}

func ycbcrLine(img *image.YCbCr) func(int, []uint16) {
	table, origin := light8(), img.Rect.Min
	return func(y int, light []uint16) {
		for i := 0; i < len(light); i += 3 {
			x, y := origin.X+i/3, origin.Y+y
			c := img.COffset(x, y)
			r, g, b := color.YCbCrToRGB(img.Y[img.YOffset(x, y)], img.Cb[c], img.Cr[c])
			light[i], light[i+1], light[i+2] = table[r], table[g], table[b]
		}
	}
}

// colourLine reads every other kind of image. What is transparent shows a
// white page, as it would in the record.
func colourLine(img image.RGBA64Image) func(int, []uint16) {
	table, origin := light16(), img.Bounds().Min
	return func(y int, light []uint16) {
		for i := 0; i < len(light); i += 3 {
			c := img.RGBA64At(origin.X+i/3, origin.Y+y)
			light[i] = onWhite(table, c.R, c.A)
			light[i+1] = onWhite(table, c.G, c.A)
			light[i+2] = onWhite(table, c.B, c.A)
		}
	}
}

// onWhite lays a premultiplied value over white, in linear light.
func onWhite(table *[1 << 16]uint16, v, alpha uint16) uint16 {
	switch alpha {
	case 0xffff:
		return table[v]
	case 0:
		return 0xffff
	}
	a := uint64(alpha)
	own := table[min(uint64(v)*0xffff/a, 0xffff)]
	return uint16((uint64(own)*a + 0xffff*(0xffff-a)) / 0xffff)
}
