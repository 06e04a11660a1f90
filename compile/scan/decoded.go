package scan

import (
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"sync"
)

// JPEG and PNG are decoded whole by the packages of the standard library, which
// know no other way.

// decoder is the pair every image package has.
type decoder struct {
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
}

var decoders = map[Format]decoder{
	JPEG: {jpeg.DecodeConfig, jpeg.Decode},
	PNG:  {png.DecodeConfig, png.Decode},
}

// decodeWhole decodes the image, if it fits into the memory allowed.
func decodeWhole(s *stream, h header, memory int64) (*decoded, error) {
	if int64(h.width) > memory/h.pixelBytes()/int64(h.height) {
		return nil, h.tooLarge()
	}
	d := decoders[h.format]
	config, err := d.config(io.NewSectionReader(s.file, 0, s.file.Size()))
	if err != nil {
		return nil, decodeFault(h.format, err)
	}
	// The bound above is worth nothing if the decoder reads another size.
	if config.Width != h.width || config.Height != h.height {
		return nil, damaged(h.format, "it declares two sizes")
	}
	img, err := d.decode(&section{s, 0, s.file.Size()})
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

// decoded is a whole image in memory, to be read line by line.
type decoded struct {
	width, height, channels int

	y    int // the line that comes next
	line func(y int, light []uint16)
}

// next fills in the light of the next line, channels interleaved: one for grey,
// three for colour.
func (d *decoded) next(light []uint16) {
	d.line(d.y, light)
	d.y++
}

// reduce brings all lines to a reducer. To find the light of a line takes longer
// than to add it up, so that two goroutines do it, turn by turn, beside the one
// that adds.
func (d *decoded) reduce(to *reducer) {
	const turns, ahead = 2, 16 // lines, for each of them
	var free, full [turns]chan lightLine
	for turn := range turns {
		free[turn], full[turn] = make(chan lightLine, ahead), make(chan lightLine, ahead)
		for range ahead {
			free[turn] <- make(lightLine, d.width*d.channels)
		}
		go func() {
			for y := turn; y < d.height; y += turns {
				light := <-free[turn]
				d.line(y, light)
				full[turn] <- light
			}
		}()
	}
	for y := range d.height {
		light := <-full[y%turns]
		to.line(0, y, light, nil)
		to.finish(y + 1)
		free[y%turns] <- light
	}
}

func imageLines(format Format, img image.Image) (*decoded, error) {
	d := &decoded{width: img.Bounds().Dx(), height: img.Bounds().Dy(), channels: 3}
	switch img := img.(type) {
	case *image.Gray:
		d.channels, d.line = 1, greyLine(img)
	case *image.Gray16:
		d.channels, d.line = 1, grey16Line(img)
	case *image.YCbCr:
		d.line = ycbcrLine(img)
	case *image.RGBA:
		d.line = opaqueLine(img)
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
		for x, v := range img.Pix[y*img.Stride:][:len(light)] {
			light[x] = table[v]
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

// ycbcrLine is color.YCbCrToRGB taken apart, to the same result: what the colour
// differences add is worked out once for the pixels that share them, and to keep
// within the range and to look up the light are one step.
func ycbcrLine(img *image.YCbCr) func(int, []uint16) {
	table, shift := clampedLight(), chromaShift[img.SubsampleRatio]
	return func(y int, light []uint16) {
		luma := img.Y[y*img.YStride:][:len(light)/3]
		chroma := img.COffset(img.Rect.Min.X, img.Rect.Min.Y+y)
		cb, cr := img.Cb[chroma:], img.Cr[chroma:]
		for x, v := range luma {
			u, v, w := int32(v)*0x10101, int32(cr[x>>shift])-128, int32(cb[x>>shift])-128
			rgb := light[3*x:][:3]
			rgb[0] = table[(u+91881*v)>>16+clampAt]
			rgb[1] = table[(u-22554*w-46802*v)>>16+clampAt]
			rgb[2] = table[(u+116130*w)>>16+clampAt]
		}
	}
}

// chromaShift is how many pixels of a line share their colour, as a power of two.
var chromaShift = map[image.YCbCrSubsampleRatio]int{
	image.YCbCrSubsampleRatio422: 1, image.YCbCrSubsampleRatio420: 1,
	image.YCbCrSubsampleRatio411: 2, image.YCbCrSubsampleRatio410: 2,
}

// clampAt is where the light of 0 stands in the table that holds the light of
// all that can come of YCbCr, from -227 to 481.
const clampAt = 256

var clampedLight = sync.OnceValue(func() *[1 << 10]uint16 {
	var t [1 << 10]uint16
	for i := range t {
		t[i] = light8()[max(0, min(0xff, i-clampAt))]
	}
	return &t
})

// opaqueLine reads RGBA, if the image turns out to be opaque.
func opaqueLine(img *image.RGBA) func(int, []uint16) {
	if !img.Opaque() {
		return colourLine(img)
	}
	table := light8()
	return func(y int, light []uint16) {
		pix := img.Pix[y*img.Stride:]
		for x := range len(light) / 3 {
			light[3*x], light[3*x+1], light[3*x+2] = table[pix[4*x]], table[pix[4*x+1]], table[pix[4*x+2]]
		}
	}
}

// colourLine reads every other kind of image. What is transparent shows a
// white page, as it would in the record.
func colourLine(img image.RGBA64Image) func(int, []uint16) {
	table, origin := light16(), img.Bounds().Min
	return func(y int, light []uint16) {
		for x := range len(light) / 3 {
			c := img.RGBA64At(origin.X+x, origin.Y+y)
			light[3*x] = onWhite(table, c.R, c.A)
			light[3*x+1] = onWhite(table, c.G, c.A)
			light[3*x+2] = onWhite(table, c.B, c.A)
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
