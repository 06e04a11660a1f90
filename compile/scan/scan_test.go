package scan

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"golang.org/x/image/tiff"
)

func read(t testing.TB, data []byte, edges ...int) Info {
	t.Helper()
	info, err := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: edges})
	if err != nil {
		t.Fatal(err)
	}
	return info
}

func encode(t testing.TB, format Format, img image.Image) []byte {
	t.Helper()
	var buf bytes.Buffer
	var err error
	switch format {
	case JPEG:
		err = jpeg.Encode(&buf, img, &jpeg.Options{Quality: 100})
	case PNG:
		err = png.Encode(&buf, img)
	case TIFF:
		err = tiff.Encode(&buf, img, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// shown decodes a thumbnail.
func shown(t testing.TB, thumb Thumbnail) image.Image {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(thumb.JPEG))
	if err != nil {
		t.Fatal(err)
	}
	if b := img.Bounds(); b.Dx() != thumb.Width || b.Dy() != thumb.Height {
		t.Fatalf("states %d x %d, is %v", thumb.Width, thumb.Height, b)
	}
	return img
}

func greyAt(img image.Image, x, y int) int {
	return int(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)
}

func wantGrey(t *testing.T, img image.Image, x, y, want, tolerance int) {
	t.Helper()
	if got := greyAt(img, x, y); got < want-tolerance || got > want+tolerance {
		t.Errorf("at %d, %d: %d, want %d", x, y, got, want)
	}
}

// checker16 alternates two 16-bit values from pixel to pixel.
func checker16(w, h int, a, b uint16) *image.Gray16 {
	img := image.NewGray16(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := a
			if (x+y)%2 == 1 {
				v = b
			}
			img.SetGray16(x, y, color.Gray16{Y: v})
		}
	}
	return img
}

func TestHeader(t *testing.T) {
	rect := image.Rect(0, 0, 30, 20)
	cases := []struct {
		format Format
		img    image.Image
		depth  int
		grey   bool
	}{
		{PNG, image.NewGray16(rect), 16, true},
		{PNG, image.NewGray(rect), 8, true},
		{PNG, image.NewNRGBA(rect), 8, false},
		{PNG, image.NewNRGBA64(rect), 16, false},
		{PNG, image.NewPaletted(rect, color.Palette{color.Black, color.White}), 1, false},
		{TIFF, image.NewGray16(rect), 16, true},
		{TIFF, image.NewGray(rect), 8, true},
		{TIFF, image.NewNRGBA(rect), 8, false},
		{JPEG, image.NewGray(rect), 8, true},
		{JPEG, image.NewYCbCr(rect, image.YCbCrSubsampleRatio420), 8, false},
	}
	for _, c := range cases {
		data := encode(t, c.format, c.img)
		sum := sha256.Sum256(data)
		got := read(t, data)
		if got.Thumbnails != nil {
			t.Errorf("%s %T: thumbnails that nobody asked for", c.format, c.img)
		}
		if got.Format != c.format || got.Width != 30 || got.Height != 20 || got.Depth != c.depth || got.Grey != c.grey ||
			got.Bytes != int64(len(data)) || got.SHA256 != hex.EncodeToString(sum[:]) {
			t.Errorf("%s %T: %+v", c.format, c.img, got)
		}
	}
}

// FIPS 180-4 example: the digest of "abc"; known even where there is no image.
func TestFixityOfWhatIsNoImage(t *testing.T) {
	info, err := Read(strings.NewReader("abc"), 3, Options{Edges: []int{ListEdge}})
	const want = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if info.SHA256 != want || info.Bytes != 3 {
		t.Errorf("%+v", info)
	}
	wantFault(t, err, NotImage, "is not a JPEG, PNG or TIFF image")
}

func wantFault(t *testing.T, err error, kind Kind, sentence string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || e.Kind != kind {
		t.Fatalf("got %v, want kind %d: %s", err, kind, sentence)
	}
	if e.Sentence != sentence {
		t.Errorf("says %q, want %q", e.Sentence, sentence)
	}
}

// A fine checker of black and white sends back half the light. IEC 61966-2-1
// writes 0.5 as 1.055 x 0.5^(1/2.4) - 0.055 = 0.7354, or 188 of 255.
func TestCheckerAveragesInLinearLight(t *testing.T) {
	black16, white16 := uint16(0), uint16(0xffff)
	grey8 := image.NewGray(image.Rect(0, 0, 800, 640))
	colour := image.NewNRGBA(grey8.Rect)
	for y := range 640 {
		for x := range 800 {
			v := uint8(255 * ((x + y) % 2))
			grey8.SetGray(x, y, color.Gray{Y: v})
			colour.SetNRGBA(x, y, color.NRGBA{v, v, v, 255})
		}
	}
	for name, data := range map[string][]byte{
		"16-bit PNG":  encode(t, PNG, checker16(800, 640, black16, white16)),
		"16-bit TIFF": encode(t, TIFF, checker16(800, 640, black16, white16)),
		"8-bit PNG":   encode(t, PNG, grey8),
		"8-bit JPEG":  encode(t, JPEG, grey8),
		"colour PNG":  encode(t, PNG, colour),
		"colour JPEG": encode(t, JPEG, colour),
	} {
		t.Run(name, func(t *testing.T) {
			tolerance := 1
			if strings.HasSuffix(name, "colour JPEG") {
				tolerance = 3 // the source has been through YCbCr
			}
			img := shown(t, read(t, data, 400).Thumbnails[0])
			if b := img.Bounds(); b.Dx() != 400 || b.Dy() != 320 {
				t.Fatalf("bounds %v", b)
			}
			for _, p := range []image.Point{{0, 0}, {200, 160}, {399, 319}} {
				wantGrey(t, img, p.X, p.Y, 188, tolerance)
			}
		})
	}
}

// The exact mean of any block, from the curve itself and not from our tables.
func TestUnevenShrinkIsTheAreaMean(t *testing.T) {
	const srcW, srcH, edge = 7, 5, 3
	img := image.NewGray16(image.Rect(0, 0, srcW, srcH))
	for i := range srcW * srcH {
		img.SetGray16(i%srcW, i/srcW, color.Gray16{Y: uint16(i * i * 50)})
	}
	src, err := imageLines(PNG, img)
	if err != nil {
		t.Fatal(err)
	}
	w, h := fitted(srcW, srcH, edge)
	if w != 3 || h != 2 { // 5 x 3/7 = 2.14
		t.Fatalf("%d x %d", w, h)
	}
	r, shown := newReducer(1, 1, srcW, srcH, w, h), newPicture(1, w, h, false)
	r.sinks = []sink{shown}
	src.reduce(r)
	for oy := range r.h {
		for ox := range r.w {
			want := areaMean(img, float64(ox)*srcW/3, float64(ox+1)*srcW/3, float64(oy)*srcH/2, float64(oy+1)*srcH/2)
			if got := float64(shown.tones[oy*r.w+ox]); math.Abs(got-want) > 0.55 {
				t.Errorf("at %d, %d: %v, want %.2f", ox, oy, got, want)
			}
		}
	}
}

// areaMean integrates light over a rectangle by overlap, in floating point.
func areaMean(img *image.Gray16, x0, x1, y0, y1 float64) float64 {
	var sum float64
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			wide := math.Min(x1, float64(x+1)) - math.Max(x0, float64(x))
			high := math.Min(y1, float64(y+1)) - math.Max(y0, float64(y))
			if wide > 0 && high > 0 {
				sum += wide * high * srgbToLinear(float64(img.Gray16At(x, y).Y)/0xffff)
			}
		}
	}
	return 255 * linearToSRGB(sum/((x1-x0)*(y1-y0)))
}

// IEC 61966-2-1: the curve's ends, its threshold and its middle.
func TestCurve(t *testing.T) {
	for _, c := range []struct{ v, light float64 }{
		{0, 0}, {1, 1}, {0.04045, 0.0031308}, {0.5, 0.21404},
	} {
		if got := srgbToLinear(c.v); math.Abs(got-c.light) > 1e-5 {
			t.Errorf("light of %v is %v, want %v", c.v, got, c.light)
		}
		if got := linearToSRGB(c.light); math.Abs(got-c.v) > 1e-4 {
			t.Errorf("value of %v is %v, want %v", c.light, got, c.v)
		}
	}
	for v, light := range light8() {
		if got := value8()[light]; int(got) != v {
			t.Errorf("%d comes back as %d", v, got)
		}
	}
}

// Of every luma and a raster of colour differences, in each subsampling.
func TestYCbCrAsTheStandardLibraryHasIt(t *testing.T) {
	for ratio := image.YCbCrSubsampleRatio444; ratio <= image.YCbCrSubsampleRatio410; ratio++ {
		img := image.NewYCbCr(image.Rect(0, 0, 256, 64), ratio)
		for i := range img.Y {
			img.Y[i] = uint8(i)
		}
		for i := range img.Cb {
			img.Cb[i], img.Cr[i] = uint8(i*5), uint8(255-i*3)
		}
		line, light := ycbcrLine(img), make([]uint16, 3*256)
		for y := range 64 {
			line(y, light)
			for x := range 256 {
				c := img.YCbCrAt(x, y)
				r, g, b := color.YCbCrToRGB(c.Y, c.Cb, c.Cr)
				if got, want := [3]uint16(light[3*x:]), [3]uint16{light8()[r], light8()[g], light8()[b]}; got != want {
					t.Fatalf("%v at %d, %d: %v, want %v", ratio, x, y, got, want)
				}
			}
		}
	}
}

func TestNeverEnlarged(t *testing.T) {
	img := checker16(60, 45, 0x2000, 0x2000)
	info := read(t, encode(t, PNG, img), ListEdge, ViewerEdge, 0)
	if len(info.Thumbnails) != 2 {
		t.Fatalf("%d thumbnails", len(info.Thumbnails))
	}
	for _, thumb := range info.Thumbnails {
		wantGrey(t, shown(t, thumb), 30, 20, 0x20, 1)
		if thumb.Width != 60 || thumb.Height != 45 {
			t.Errorf("%d x %d", thumb.Width, thumb.Height)
		}
	}
}

func TestThinImageKeepsAPixel(t *testing.T) {
	thumb := read(t, encode(t, PNG, checker16(4800, 3, 0, 0xffff)), 400).Thumbnails[0]
	if thumb.Width != 400 || thumb.Height != 1 {
		t.Fatalf("%d x %d", thumb.Width, thumb.Height)
	}
	wantGrey(t, shown(t, thumb), 200, 0, 188, 1)
}

func TestSameBytesEveryTime(t *testing.T) {
	data := encode(t, TIFF, checker16(500, 300, 1000, 40000))
	first := read(t, data, 400, 100)
	again := read(t, data, 100, 400)
	for i, thumb := range first.Thumbnails {
		if !bytes.Equal(thumb.JPEG, again.Thumbnails[1-i].JPEG) {
			t.Errorf("edge %d differs", thumb.Edge)
		}
	}
}

// What is transparent shows the white page.
func TestTransparentShowsWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 32, 32))
	for i := range img.Pix {
		if i%4 == 3 && i >= len(img.Pix)/2 {
			img.Pix[i] = 128
		}
	}
	thumb := shown(t, read(t, encode(t, PNG, img), 400).Thumbnails[0])
	wantGrey(t, thumb, 16, 4, 255, 2)
	wantGrey(t, thumb, 16, 28, 188, 2) // black covering half: half the light
}

// tiffFile builds a one-strip little-endian TIFF with extra short tags, as
// TIFF 6.0 lays it out.
func tiffFile(w, h, bits int, photometric uint32, pixels []byte, extra map[uint16]uint32, ratios map[uint16][2]uint32) []byte {
	le := binary.LittleEndian
	const strip = 8
	at := strip + len(pixels)
	ratioData := []byte{}
	type entry struct {
		tag, kind uint16
		value     uint32
	}
	entries := []entry{
		{256, 4, uint32(w)}, {257, 4, uint32(h)}, {258, 3, uint32(bits)}, {259, 3, 1}, {262, 3, photometric},
		{273, 4, strip}, {274, 3, extra[274]}, {277, 3, 1}, {278, 4, uint32(h)}, {279, 4, uint32(len(pixels))},
	}
	for _, tag := range []uint16{282, 283} {
		if r, ok := ratios[tag]; ok {
			entries = append(entries, entry{tag, 5, uint32(at + len(ratioData))})
			ratioData = le.AppendUint32(le.AppendUint32(ratioData, r[0]), r[1])
		}
	}
	if unit, ok := extra[296]; ok {
		entries = append(entries, entry{296, 3, unit})
	}
	out := append([]byte("II*\x00"), le.AppendUint32(nil, uint32(at+len(ratioData)))...)
	out = append(append(out, pixels...), ratioData...)
	out = le.AppendUint16(out, uint16(len(entries)))
	for _, e := range entries {
		out = le.AppendUint16(le.AppendUint16(out, e.tag), e.kind)
		out = le.AppendUint32(le.AppendUint32(out, 1), e.value)
	}
	return append(out, 0, 0, 0, 0)
}

// TIFF 6.0 p. 37: photometric 0 is WhiteIsZero, 1 is BlackIsZero.
func TestBothPolarities(t *testing.T) {
	const w, h = 16, 16
	for _, bits := range []int{8, 16} {
		dark := bytes.Repeat([]byte{0x30}, w*h*bits/8)
		for photometric, want := range map[uint32]int{0: 0xcf, 1: 0x30} {
			info := read(t, tiffFile(w, h, bits, photometric, dark, nil, nil), 400)
			if !info.Grey || info.Depth != bits {
				t.Errorf("%d bits, photometric %d: %+v", bits, photometric, info)
			}
			wantGrey(t, shown(t, info.Thumbnails[0]), 8, 8, want, 1)
		}
	}
}

// corners is 64 x 48 with one value in each quarter: stored top left, top
// right, bottom left, bottom right.
var corners = [4]int{20, 90, 160, 230}

func quarters() *image.Gray {
	img := image.NewGray(image.Rect(0, 0, 64, 48))
	for y := range 48 {
		for x := range 64 {
			img.SetGray(x, y, color.Gray{Y: uint8(corners[2*(y/24)+x/32])})
		}
	}
	return img
}

// turned says for each orientation which stored quarter is shown top left, top
// right, bottom left, bottom right (TIFF 6.0 p. 36, CIPA DC-008 4.6.4).
var turnedQuarters = [9][4]int{
	1: {0, 1, 2, 3}, 2: {1, 0, 3, 2}, 3: {3, 2, 1, 0}, 4: {2, 3, 0, 1},
	5: {0, 2, 1, 3}, 6: {2, 0, 3, 1}, 7: {3, 1, 2, 0}, 8: {1, 3, 0, 2},
}

func checkTurned(t *testing.T, data []byte, o int) {
	t.Helper()
	info := read(t, data, 400)
	w, h := 64, 48
	if o >= 5 {
		w, h = h, w
	}
	if info.Width != w || info.Height != h {
		t.Errorf("orientation %d: %d x %d", o, info.Width, info.Height)
	}
	img := shown(t, info.Thumbnails[0])
	for q, from := range turnedQuarters[o] {
		wantGrey(t, img, w/4+(q%2)*w/2, h/4+(q/2)*h/2, corners[from], 2)
	}
}

func TestOrientationOfTIFF(t *testing.T) {
	for o := 1; o <= 8; o++ {
		checkTurned(t, tiffFile(64, 48, 8, 1, quarters().Pix, map[uint16]uint32{274: uint32(o)}, nil), o)
	}
}

// withEXIF puts an APP1 segment with an orientation tag behind a JPEG's SOI.
func withEXIF(data []byte, o int) []byte {
	tags := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00")
	tags = append(tags, byte(o), 0, 0, 0, 0, 0, 0)
	return withSegment(data, 0xe1, append([]byte("Exif\x00\x00"), tags...))
}

func withSegment(data []byte, marker byte, body []byte) []byte {
	out := append([]byte{0xff, 0xd8, 0xff, marker}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)
	return append(append(out, body...), data[2:]...)
}

func TestOrientationOfJPEG(t *testing.T) {
	data := encode(t, JPEG, quarters())
	for o := 1; o <= 8; o++ {
		checkTurned(t, withEXIF(data, o), o)
	}
	checkTurned(t, withEXIF(data, 9), 1) // no such orientation: as stored
	checkTurned(t, withSegment(data, 0xe1, []byte("Exif\x00\x00II*\x00\xff\xff\xff\xff")), 1)
	checkTurned(t, withSegment(data, 0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00<x/>")), 1)
}

// withChunk puts a chunk behind a PNG's header, which is 33 bytes in all.
func withChunk(data []byte, name string, body []byte) []byte {
	chunk := append([]byte(name), body...)
	out := append([]byte{}, data[:33]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(body)))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, data[33:]...)
}

func TestPPI(t *testing.T) {
	jfif := func(unit, x, y byte) []byte {
		return withSegment(encode(t, JPEG, quarters()), 0xe0, []byte{'J', 'F', 'I', 'F', 0, 1, 2, unit, 1, x, 1, y, 0, 0})
	}
	phys := func(unit byte, x, y uint32) []byte {
		body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, x), y)
		return withChunk(encode(t, PNG, quarters()), "pHYs", append(body, unit))
	}
	ratio := func(unit, x, y, of uint32) []byte {
		return tiffFile(64, 48, 8, 1, quarters().Pix, map[uint16]uint32{296: unit},
			map[uint16][2]uint32{282: {x, of}, 283: {y, of}})
	}
	cases := []struct {
		title string
		data  []byte
		want  float64
	}{
		{"TIFF per inch", ratio(2, 24000, 24000, 10), 2400},
		{"TIFF per centimetre", ratio(3, 1000, 1000, 1), 2540},
		{"TIFF aspect only", ratio(1, 1, 1, 1), 0},
		{"TIFF uneven", ratio(2, 2400, 1200, 1), 0},
		{"TIFF over nothing", ratio(2, 2400, 2400, 0), 0},
		{"TIFF silent", tiffFile(64, 48, 8, 1, quarters().Pix, nil, nil), 0},
		{"PNG per metre", phys(1, 94488, 94488), 2400}, // 2400 / 0.0254 = 94488.2
		{"PNG aspect only", phys(0, 1, 1), 0},
		{"JFIF per inch", jfif(1, 44, 44), 300},
		{"JFIF per centimetre", jfif(2, 44, 44), 762},
		{"JFIF aspect only", jfif(0, 1, 1), 0},
		{"JPEG silent", encode(t, JPEG, quarters()), 0},
	}
	for _, c := range cases {
		if got := read(t, c.data).PPI; got != c.want {
			t.Errorf("%s: %v, want %v", c.title, got, c.want)
		}
	}
}

func TestTruncated(t *testing.T) {
	noise := image.NewGray(image.Rect(0, 0, 100, 80))
	for i := range noise.Pix {
		noise.Pix[i] = uint8(i * i >> 3)
	}
	whole := map[string][]byte{
		"PNG": encode(t, PNG, noise), "JPEG": encode(t, JPEG, noise), "TIFF": encode(t, TIFF, noise),
		"TIFF, directory first": directoryFirst(noise),
	}
	for name, data := range whole {
		last := len(data) - 13
		if name == "TIFF" { // written with its resolution last, which may go
			last -= 16
		}
		for _, keep := range []int{len(data) / 2, len(data) * 9 / 10, last} {
			info, err := Read(bytes.NewReader(data[:keep]), int64(keep), Options{})
			wantFault(t, err, Truncated, "ends before its image does")
			if info.Bytes != int64(keep) || info.SHA256 == "" || info.Format == "" {
				t.Errorf("%s cut at %d: %+v", name, keep, info)
			}
			if strings.HasSuffix(name, "first") && info.Width != 100 {
				t.Errorf("%s cut at %d loses its size: %+v", name, keep, info)
			}
		}
	}
}

// directoryFirst is a TIFF whose pixels stand behind its directory, as many
// scanning programs write it.
func directoryFirst(img *image.Gray) []byte {
	le := binary.LittleEndian
	out := append([]byte("II*\x00\x08\x00\x00\x00"), 6, 0)
	for _, e := range [][2]uint32{{256, 100}, {257, 80}, {258, 8}, {262, 1}, {273, 86}, {279, 8000}} {
		out = le.AppendUint16(le.AppendUint16(out, uint16(e[0])), 4)
		out = le.AppendUint32(le.AppendUint32(out, 1), e[1])
	}
	return append(append(out, 0, 0, 0, 0), img.Pix...)
}

// declares builds a PNG header that states a size and nothing more.
func declares(w, h uint32) []byte {
	body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h)
	body = append(body, 16, 0, 0, 0, 0)
	out := append([]byte(pngSignature), 0, 0, 0, 13)
	out = binary.BigEndian.AppendUint32(append(out, body...), crc32.ChecksumIEEE(body))
	return append(out, "\x00\x00\x00\x00IEND\xae\x42\x60\x82"...)
}

func TestTooLarge(t *testing.T) {
	r := bytes.NewReader(declares(40000, 30000))
	info, err := Read(r, r.Size(), Options{Edges: []int{400}})
	wantFault(t, err, TooLarge, "declares 40000 x 30000 pixels, more than are decoded")
	if info.Width != 40000 || info.Height != 30000 || info.Depth != 16 || !info.Grey {
		t.Errorf("%+v", info)
	}
	if info, err = Read(r, r.Size(), Options{}); err != nil || info.Width != 40000 {
		t.Errorf("without a thumbnail: %+v, %v", info, err)
	}
	r = bytes.NewReader(declares(1<<30, 10))
	_, err = Read(r, r.Size(), Options{})
	wantFault(t, err, TooLarge, "declares 1073741824 x 10 pixels, more than are decoded")
	// Transparency is not read line by line.
	r = bytes.NewReader(encode(t, PNG, image.NewNRGBA64(image.Rect(0, 0, 100, 100))))
	_, err = Read(r, r.Size(), Options{Edges: []int{10}, Memory: 100*100*8 - 1})
	wantFault(t, err, TooLarge, "declares 100 x 100 pixels, more than are decoded")
	if _, err = Read(r, r.Size(), Options{Edges: []int{10}, Memory: 100 * 100 * 8}); err != nil {
		t.Error(err)
	}
}

func TestOtherFaults(t *testing.T) {
	badSum := encode(t, PNG, quarters())
	badSum[29] ^= 1 // of the header chunk
	cases := []struct {
		title string
		data  string
		kind  Kind
		want  string
	}{
		{"empty", "", NotImage, "is empty"},
		{"text", "feb 3, cold, no wind", NotImage, "is not a JPEG, PNG or TIFF image"},
		{"cut BigTIFF", "II+\x00\x08\x00\x00\x00\x10\x00\x00\x00", Truncated, "ends before its image does"},
		{"whole numbers of 32 bits", string(tiffFile(2, 2, 32, 1, make([]byte, 16), nil, nil)), Unsupported,
			"is a TIFF of a sort that is not read: its depth"},
		{"no pixels", string(declares(0, 5)), Damaged, "is a damaged PNG: it declares no pixels"},
		{"no data", string(declares(5, 5)), Damaged, "is a damaged PNG"},
		{"wrong sum", string(badSum), Damaged, "is a damaged PNG"},
		{"no header", pngSignature + "\x00\x00\x00\x00IEND\xae\x42\x60\x82", Damaged, "is a damaged PNG: it does not begin with its header"},
		{"no marker", "\xff\xd8\xff\xe0\x00\x04abc012", Damaged, "is a damaged JPEG: a segment does not begin with a marker"},
		{"short segment", "\xff\xd8\xff\xe0\x00\x01abc", Damaged, "is a damaged JPEG: a segment is shorter than its own length"},
	}
	for _, c := range cases {
		t.Run(c.title, func(t *testing.T) {
			_, err := Read(strings.NewReader(c.data), int64(len(c.data)), Options{Edges: []int{400}})
			wantFault(t, err, c.kind, c.want)
		})
	}
}

type brokenDisk struct{}

func (brokenDisk) ReadAt([]byte, int64) (int, error) { return 0, io.ErrNoProgress }

func TestUnreadable(t *testing.T) {
	_, err := Read(brokenDisk{}, 100, Options{})
	wantFault(t, err, Unreadable, "cannot be read")
	if !errors.Is(err, io.ErrNoProgress) {
		t.Error("the cause is lost")
	}
	_, err = Read(strings.NewReader("short"), 100, Options{})
	wantFault(t, err, Unreadable, "ended after 5 of 100 bytes while it was read")
}

func FuzzRead(f *testing.F) {
	img := checker16(9, 7, 0, 0xffff)
	for _, format := range []Format{JPEG, PNG, TIFF} {
		f.Add(encode(f, format, img))
	}
	f.Add(withEXIF(encode(f, JPEG, quarters()), 6))
	f.Add(tiffFile(64, 48, 8, 0, quarters().Pix, map[uint16]uint32{274: 8, 296: 3}, map[uint16][2]uint32{282: {1, 0}}))
	f.Add(declares(1<<31-1, 1<<31-1))
	f.Fuzz(func(t *testing.T, data []byte) {
		info, err := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: []int{5, 50}, Memory: 1 << 20})
		var e *Error
		if err != nil && (!errors.As(err, &e) || e.Sentence == "" || kindless(e.Kind)) {
			t.Errorf("an error of no kind: %v", err)
		}
		if err == nil && (info.Width <= 0 || info.Height <= 0 || len(info.Thumbnails) != 2) {
			t.Errorf("no error, and %+v", info)
		}
		if info.Bytes != int64(len(data)) {
			t.Errorf("%d bytes", info.Bytes)
		}
	})
}

func kindless(k Kind) bool { return k < Unreadable || k > Unsupported }

func BenchmarkRead(b *testing.B) {
	grey := checker16(4800, 6000, 1000, 50000) // 4x5 inches at 1200 ppi
	colour := textured(4800, 6000)
	coded := encode(b, JPEG, colour)
	b.Run("JPEG/image-jpeg-alone", func(b *testing.B) { // what JPEG/both is held against
		for b.Loop() {
			if _, err := jpeg.Decode(bytes.NewReader(coded)); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/(4800*6000), "ns/px")
	})
	for _, c := range []struct {
		title string
		data  []byte
		edges []int
	}{
		{"TIFF16/header", encode(b, TIFF, grey), nil},
		{"TIFF16/both", encode(b, TIFF, grey), []int{ListEdge, ViewerEdge}},
		{"PNG16/both", encode(b, PNG, grey), []int{ListEdge, ViewerEdge}},
		{"JPEG/both", coded, []int{ListEdge, ViewerEdge}},
	} {
		b.Run(c.title, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				read(b, c.data, c.edges...)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/(4800*6000), "ns/px")
		})
	}
}

// textured is a picture with as much detail as a photograph: slow changes of
// tone under fine grain.
func textured(w, h int) *image.YCbCr {
	img := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	seed := uint32(1)
	for i := range img.Y {
		seed = seed*1664525 + 1013904223
		img.Y[i] = uint8(60 + (i%w)*120/w + int(seed>>28))
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = uint8(110+i%37), uint8(120+i%23)
	}
	return img
}

// Every filter of a PNG and every depth that is read line by line, against the
// standard library's decoder.
func TestPNGByLine(t *testing.T) {
	for filter := byte(0); filter <= 5; filter++ {
		for _, form := range [][2]byte{{1, 0}, {2, 0}, {4, 0}, {8, 0}, {16, 0}, {8, 2}, {16, 2}} {
			data := filtered(61, 40, filter, form[0], form[1])
			img, err := png.Decode(bytes.NewReader(data))
			info, ours := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: []int{61}})
			if (err == nil) != (ours == nil) {
				t.Fatalf("filter %d, %d bits: %v, the standard library %v", filter, form[0], ours, err)
			}
			if err != nil {
				wantFault(t, ours, Damaged, "is a damaged PNG: a line has a filter that there is not")
				continue
			}
			whole, _ := imageLines(PNG, img)
			to, shown := newReducer(whole.channels, whole.channels, 61, 40, 61, 40), newPicture(whole.channels, 61, 40, false)
			to.sinks = []sink{shown}
			whole.reduce(to)
			if want, _ := shown.thumbnail(61, upright); !bytes.Equal(want.JPEG, info.Thumbnails[0].JPEG) {
				t.Errorf("filter %d, %d bits, colour %d: not the same picture", filter, form[0], form[1])
			}
		}
	}
}

// filtered is a PNG whose lines all claim one filter, over bytes that are smooth
// enough to stay a picture.
func filtered(w, h int, filter, depth, colour byte) []byte {
	samples := 1
	if colour == 2 {
		samples = 3
	}
	var lines []byte
	for y := range h {
		lines = append(lines, filter)
		for i := range (w*samples*int(depth) + 7) / 8 {
			lines = append(lines, byte(y*i/7))
		}
	}
	body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(h))
	out := []byte(pngSignature)
	for _, chunk := range []struct {
		name string
		body []byte
	}{{"IHDR", append(body, depth, colour, 0, 0, 0)}, {"IDAT", nil}, {"IDAT", deflate(lines)}, {"IEND", nil}} {
		out = binary.BigEndian.AppendUint32(out, uint32(len(chunk.body)))
		named := append([]byte(chunk.name), chunk.body...)
		out = binary.BigEndian.AppendUint32(append(out, named...), crc32.ChecksumIEEE(named))
	}
	return out
}

// A negative in a narrow range comes out as a positive from black to white: the
// lightest of it is black, the darkest white, and what is half way between the
// two, by value, is middle grey.
func TestNegative(t *testing.T) {
	img := image.NewGray16(image.Rect(0, 0, 300, 200))
	colour := image.NewNRGBA64(img.Rect)
	for i := range 300 * 200 {
		v := [3]uint16{6000, 8000, 10000}[i%300/100]
		img.SetGray16(i%300, i/300, color.Gray16{Y: v})
		// An orange base: each channel has a range of its own.
		colour.SetNRGBA64(i%300, i/300, color.NRGBA64{v + 30000, v/2 + 9000, v / 4, 0xffff})
	}
	for name, data := range map[string][]byte{"grey": encode(t, TIFF, img), "colour": encode(t, TIFF, colour)} {
		info, err := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: []int{ListEdge, 150}, Negative: true})
		if err != nil {
			t.Fatal(err)
		}
		for _, thumb := range info.Thumbnails {
			got := shown(t, thumb)
			for i, want := range []int{255, 128, 0} {
				x := thumb.Width/6 + i*thumb.Width/3
				r, g, b, _ := got.At(x, 50).RGBA()
				for _, v := range []uint32{r, g, b} {
					if d := int(v>>8) - want; d < -4 || d > 4 {
						t.Errorf("%s, %d pixels, at %d: %d, want %d", name, thumb.Edge, x, v>>8, want)
					}
				}
			}
		}
	}
	flat := encode(t, TIFF, checker16(60, 60, 0x4000, 0x4000))
	info, err := Read(bytes.NewReader(flat), int64(len(flat)), Options{Edges: []int{40}, Negative: true})
	if err != nil {
		t.Fatal(err)
	}
	wantGrey(t, shown(t, info.Thumbnails[0]), 20, 20, 0xbf, 1)
}

// TIFF 6.0 p. 31 and CIPA DC-008: the form of a date, and no other.
func TestDate(t *testing.T) {
	for text, want := range map[string]string{
		"2026:11:07 16:20:05\x00": "2026-11-07 16:20:05", "0000:00:00 00:00:00\x00": "", "    :  :     :  :  \x00": "",
		"2026-11-07 16:20:05\x00": "", "yesterday": "",
	} {
		// An ASCII field of EXIF, its text behind the directory.
		exif := []byte("II*\x00\x08\x00\x00\x00\x01\x00\x32\x01\x02\x00")
		exif = binary.LittleEndian.AppendUint32(exif, uint32(len(text)))
		exif = append(binary.LittleEndian.AppendUint32(exif, 26), 0, 0, 0, 0)
		exif = append(exif, text...)
		data := withSegment(encode(t, JPEG, quarters()), 0xe1, append([]byte("Exif\x00\x00"), exif...))
		if got := read(t, data).Date; got != want {
			t.Errorf("%q gives %q, want %q", text, got, want)
		}
	}
}

// The head alone: nothing of the pixels, and no fixity.
func TestHeadOnly(t *testing.T) {
	data := encode(t, TIFF, checker16(500, 300, 1000, 40000))
	info, err := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: []int{40}, HeadOnly: true})
	if err != nil || info.Width != 500 || info.Pages != 1 || info.SHA256 != "" || info.Thumbnails != nil {
		t.Errorf("%+v, %v", info, err)
	}
}
