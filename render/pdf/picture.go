package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"fmt"
	"image/color"
	"image/jpeg"
	"math"
	"strings"

	"github.com/go-pdf/fpdf"

	"notchbook/compile/record"
)

// picture is a thumbnail, or the words that stand in its frame.
type picture struct {
	name string  // the library's, "" where there is none
	w, h float64 // points
	uri  string  // of the scan
	why  string
	// in a row of pictures, its place from the row's left and top
	shiftX, shiftY float64
}

// pictureDots is the length of a thumbnail's longer edge in pixels at 250 to
// the inch, what a fine inkjet or a press shows.
func pictureDots(edge float64) int { return int(math.Ceil(edge * 250 / 72)) }

// sheetPicture leaves room for the picture of the first scan that has one.
func (b *book) sheetPicture(g *galley, s *record.Sheet) {
	for _, scan := range s.Scans {
		if p := b.picture(scan); p != nil {
			first := len(g.lines)
			for range int(math.Ceil((p.h + 6) / grid)) {
				g.lines = append(g.lines, line{from: len(g.pieces), to: len(g.pieces), h: grid})
			}
			g.lines[first].picture = p
			return
		}
	}
}

// picture asks for the thumbnail of a scan, once.
func (b *book) picture(scan *record.Scan) *picture {
	if b.options.Picture == nil || b.options.Thumbs == NoThumbs || !scan.Shown() {
		return nil
	}
	if p, known := b.pictures[scan.Path]; known {
		return p
	}
	p := b.load(scan)
	b.pictures[scan.Path] = p
	return p
}

// load gets the picture, or the words for why there is none.
func (b *book) load(scan *record.Scan) *picture {
	data, err := b.options.Picture(scan.Path, pictureDots(b.form.edge))
	if err != nil {
		return b.noPicture(scan, err.Error())
	}
	if len(data) == 0 {
		return nil
	}
	// The library would refuse the whole book for one picture it cannot read.
	config, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return b.noPicture(scan, err.Error())
	}
	if !embeddable(config.ColorModel) || config.Width == 0 || config.Height == 0 {
		return b.noPicture(scan, "colours not supported")
	}
	sum := sha256.Sum256(data)
	p := &picture{name: hex.EncodeToString(sum[:]), uri: b.uri(scan.Path)}
	scale := b.form.edge / float64(max(config.Width, config.Height))
	p.w, p.h = float64(config.Width)*scale, float64(config.Height)*scale
	b.register(p.name, data)
	return p
}

// prosePicture is a picture of the writer's own text, larger than beside the
// entries; nil where there is none to show, and its link stands alone.
func (b *book) prosePicture(path string) *picture {
	if b.options.Picture == nil || b.options.Thumbs == NoThumbs {
		return nil
	}
	if b.unshown == nil {
		b.unshown = map[string]bool{}
		for _, s := range b.season.Scans {
			b.unshown[s.Path] = !s.Shown()
		}
	}
	p, known := b.pictures[path]
	if !known && !b.unshown[path] {
		p = b.load(&record.Scan{Path: path})
		b.pictures[path] = p
	}
	if p == nil || p.name == "" {
		return nil
	}
	large := *p
	scale := min(1.6*b.form.edge, b.width()) / max(p.w, p.h)
	large.w, large.h = p.w*scale, p.h*scale
	return &large
}

// embeddable reports whether the library takes pictures of this colour model.
func embeddable(model color.Model) bool {
	return model == color.GrayModel || model == color.YCbCrModel || model == color.CMYKModel
}

// noPicture leaves a frame with the reason in it.
func (b *book) noPicture(scan *record.Scan, why string) *picture {
	return &picture{w: b.form.edge, h: 4 * grid, uri: b.uri(scan.Path), why: why}
}

// register hands a JPEG to the library. It orders pictures by their width and
// leaves equal widths in the order of a map, that is, at random; so each gets
// a width that is longer by an own millionth of a pixel, which it cuts off
// when it writes. The way in is the encoding it offers for storing pictures.
func (b *book) register(name string, data []byte) {
	info := b.pdf.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "jpg"}, bytes.NewReader(data))
	if b.pdf.Err() || b.registered[name] {
		return
	}
	b.registered[name] = true
	if err := widen(info, float64(len(b.registered))*1e-6); err != nil {
		b.pdf.SetError(fmt.Errorf("picture: %w", err))
	}
}

// widen adds to a picture's width in pixels, the fourth value of its encoding.
func widen(info *fpdf.ImageInfoType, more float64) error {
	encoded, err := info.GobEncode()
	if err != nil {
		return err
	}
	var f struct {
		data, mask             []byte
		n, bits                int
		w, h, scale, dots      float64
		space, filter, options string
		palette                []byte
		transparent            []int
	}
	fields := []any{&f.data, &f.mask, &f.n, &f.w, &f.h, &f.space, &f.palette, &f.bits, &f.filter, &f.options,
		&f.transparent, &f.scale, &f.dots}
	in := gob.NewDecoder(bytes.NewReader(encoded))
	var out bytes.Buffer
	to := gob.NewEncoder(&out)
	for i, field := range fields {
		if err := in.Decode(field); err != nil {
			return err
		}
		if i == 3 {
			f.w += more
		}
		if err := to.Encode(field); err != nil {
			return err
		}
	}
	return info.GobDecode(out.Bytes())
}

// drawPicture draws a thumbnail below y, linked to the scan itself.
func (b *book) drawPicture(p *picture, x, y float64) {
	y += descent
	if p.name == "" {
		b.frame(x, y, p.w, p.h, 0.4, faint)
		look := style{size: smallSize, ink: grey}
		for i, said := range []string{"no picture", p.why} {
			b.say(x+5, y+float64(2+i)*grid-2*descent, b.fit(said, look, p.w-10), look)
		}
	} else {
		b.image(p.name, x, y, p.w, p.h)
	}
	if p.uri != "" {
		b.linkURI(x, y, p.w, p.h, p.uri)
	}
}

// uri is the relative URI of a file of the season, "" where it is not there.
func (b *book) uri(path string) string {
	if b.options.Here != nil && !b.options.Here(path) {
		return ""
	}
	return b.root() + escapePath(path)
}

// root is the relative URL of the season's folder, with its final slash.
func (b *book) root() string {
	root := b.options.Season
	if root == "" {
		root = "../"
	}
	if !strings.HasSuffix(root, "/") {
		root += "/"
	}
	return asciiURI(root)
}
