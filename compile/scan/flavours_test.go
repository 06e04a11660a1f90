package scan

import (
	"bytes"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Every flavour of scan is written and shrunk by an independent program
// (ImageMagick, where its writer lacks the flavour libvips), and what it shows
// is compared with what we show. Nothing of it is committed.

// The image is shrunk by exactly three, where averaging over areas leaves
// nothing to choose.
const flavourW, flavourH, flavourEdge = 300, 210, 100

// flavours gives the arguments between the source and the file written. "vips"
// leads those of libvips' tiffsave; grey says that the source has no colour.
var flavours = []struct {
	name string
	grey bool
	args string
}{
	{"grey 8 strips.tif", true, "-depth 8 -compress None -define tiff:rows-per-strip=7"},
	{"grey 16 strips.tif", true, "-depth 16 -compress None -define tiff:rows-per-strip=16"},
	{"grey 16 one strip.tif", true, "-depth 16 -compress None -define tiff:rows-per-strip=210"},
	{"grey 16 white is zero.tif", true, "-depth 16 -compress None -define quantum:polarity=min-is-white"},
	{"grey 8 white is zero.tif", true, "-depth 8 -compress LZW -define quantum:polarity=min-is-white"},
	{"grey 16 big-endian.tif", true, "-depth 16 -compress None -endian MSB"},
	{"grey 16 big-endian lzw.tif", true, "-depth 16 -compress LZW -endian MSB -define tiff:predictor=2"},
	{"grey float.tif", true, "-depth 32 -compress LZW -define tiff:predictor=1 -define quantum:format=floating-point"},
	{"grey float big-endian.tif", true, "-depth 32 -compress Zip -endian MSB -define quantum:format=floating-point -define tiff:predictor=1"},
	{"grey float predicted.tif", true, "-depth 32 -compress Zip -define quantum:format=floating-point -define tiff:predictor=3"},
	{"grey 4.tif", true, "vips --bitdepth 4"},
	{"grey 2.tif", true, "vips --bitdepth 2"},
	{"grey 1.tif", true, "vips --bitdepth 1"},
	{"grey 1 white is zero.tif", true, "vips --bitdepth 1 --miniswhite"},
	{"grey alpha.tif", true, "-depth 16 -alpha set -compress None"},
	{"rgb 8 strips.tif", false, "-depth 8 -compress None -define tiff:rows-per-strip=7"},
	{"rgb 16 strips.tif", false, "-depth 16 -compress None"},
	{"rgb 16 big-endian.tif", false, "-depth 16 -compress None -endian MSB"},
	{"rgb 16 planes.tif", false, "-depth 16 -compress None -interlace plane"},
	{"rgb 8 planes lzw.tif", false, "-depth 8 -compress LZW -interlace plane"},
	{"rgb alpha 8.tif", false, "-depth 8 -alpha set -compress None"},
	{"rgb alpha 16 deflate.tif", false, "-depth 16 -alpha set -compress Zip"},
	{"palette.tif", false, "-type Palette -compress None"},
	{"palette lzw.tif", false, "-type Palette -compress LZW"},
	{"rgb 8 lzw.tif", false, "-depth 8 -compress LZW -define tiff:predictor=1"},
	{"rgb 8 lzw predicted.tif", false, "-depth 8 -compress LZW -define tiff:predictor=2"},
	{"rgb 16 lzw predicted.tif", false, "-depth 16 -compress LZW -define tiff:predictor=2"},
	{"rgb 8 deflate.tif", false, "-depth 8 -compress Zip -define tiff:predictor=1"},
	{"rgb 16 deflate predicted.tif", false, "-depth 16 -compress Zip -define tiff:predictor=2"},
	{"grey 8 packbits.tif", true, "vips --compression packbits"},
	{"rgb 8 packbits.tif", false, "vips --compression packbits"},
	{"rgb 8 jpeg.tif", false, "vips --compression jpeg --Q 98"},
	{"grey 8 jpeg.tif", true, "vips --compression jpeg --Q 98"},
	{"rgb 8 jpeg tiles.tif", false, "vips --compression jpeg --Q 98 --tile --tile-width 64 --tile-height 64"},
	{"grey 8 tiles.tif", true, "vips --tile --tile-width 64 --tile-height 48"},
	{"rgb 8 tiles lzw.tif", false, "vips --tile --tile-width 128 --tile-height 128 --compression lzw --predictor horizontal"},
	{"rgb 16 tiles.tif", false, "-depth 16 -compress None -define tiff:tile-geometry=64x32"},
	{"grey 16 tiles deflate.tif", true, "-depth 16 -compress Zip -define tiff:tile-geometry=64x32"},
	{"rgb bigtiff.tif", false, "vips --bigtiff"},
	{"rgb bigtiff tiles deflate.tif", false, "vips --bigtiff --tile --tile-width 64 --tile-height 64 --compression deflate"},
	{"pyramid of pages.tif", false, "vips --pyramid --tile --tile-width 64 --tile-height 64"},
	{"small page first.tif", true, "( -clone 0 -resize 20% ) -swap 0,1 -depth 16 -compress None"},
	{"turned 3.tif", true, "-depth 8 -compress None -orient bottom-right"},
	{"turned 6.tif", true, "-depth 16 -compress LZW -orient right-top"},
	{"turned 8.tif", false, "-depth 8 -compress None -orient left-bottom"},
	{"grey 8.jpg", true, "-quality 98"},
	{"rgb 4:4:4.jpg", false, "-quality 98 -sampling-factor 1x1"},
	{"rgb 4:2:0.jpg", false, "-quality 98 -sampling-factor 2x2"},
	{"progressive.jpg", false, "-quality 98 -interlace JPEG"},
	{"grey 8.png", true, "-depth 8"},
	{"grey 16.png", true, "-depth 16"},
	{"grey 16 interlaced.png", true, "-depth 16 -interlace PNG"},
	{"rgb 8.png", false, "-depth 8 -define png:color-type=2"},
	{"rgb 16.png", false, "-depth 16 -define png:color-type=2"},
	{"rgb 16 interlaced.png", false, "-depth 16 -interlace PNG"},
	{"palette.png", false, "-colors 200 -type Palette"},
}

// imageMagick is its command by the name of its version 7, of Debian's version
// 6, or the plain old one, under which other programs go too.
var imageMagick = func() string {
	for _, name := range []string{"magick", "convert-im6.q16"} {
		if _, err := exec.LookPath(name); err == nil {
			return name
		}
	}
	return "convert"
}()

// outside runs one of the independent programs.
func outside(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	command := exec.Command(name, args...)
	var said bytes.Buffer
	command.Stderr = &said
	out, err := command.Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, &said)
	}
	return out
}

// needs skips a test where a program is not there, but in CI, where it must be.
func needs(t *testing.T, programs ...string) {
	t.Helper()
	for _, name := range programs {
		if _, err := exec.LookPath(name); err == nil {
			continue
		}
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not there", name)
		}
		t.Skipf("%s is not there: nothing was compared with an independent reader", name)
	}
}

func TestFlavoursAgainstAnIndependentReader(t *testing.T) {
	needs(t, imageMagick, "vips")
	dir := t.TempDir()
	sources := map[bool]string{false: filepath.Join(dir, "colour.png"), true: filepath.Join(dir, "grey.png")}
	outside(t, imageMagick, "-size", "300x210", "-seed", "4", "plasma:tan-steelblue", "-blur", "0x3", "-modulate", "100,30", "-depth", "16", sources[false])
	outside(t, imageMagick, sources[false], "-colorspace", "Gray", "-depth", "16", sources[true])
	for _, f := range flavours {
		t.Run(f.name, func(t *testing.T) {
			file := filepath.Join(dir, f.name)
			writeFlavour(t, sources[f.grey], file, strings.Fields(f.args))
			compareFlavour(t, file)
		})
	}
}

func writeFlavour(t *testing.T, source, file string, args []string) {
	t.Helper()
	if args[0] != "vips" {
		outside(t, imageMagick, append(append([]string{source}, args...), file)...)
		return
	}
	eight := file + ".8.png"
	outside(t, imageMagick, source, "-depth", "8", eight)
	outside(t, "vips", append([]string{"tiffsave", eight, file}, args[1:]...)...)
}

func compareFlavour(t *testing.T, file string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	info := read(t, data, flavourEdge)
	ours := info.Thumbnails[0]
	side, err := Read(bytes.NewReader(data), int64(len(data)), Options{Edges: []int{flavourEdge}, Parallel: 3})
	if err != nil || !bytes.Equal(side.Thumbnails[0].JPEG, ours.JPEG) {
		t.Errorf("side by side it comes out otherwise: %v", err)
	}
	page := "[0]"
	if strings.HasSuffix(file, "small page first.tif") {
		page = "[1]"
	}
	size := "100x70!"
	if info.Height > info.Width {
		size = "70x100!"
	}
	theirs := outside(t, imageMagick, file+page, "-alpha", "off", "-auto-orient", "-colorspace", "RGB", "-filter", "Box",
		"-resize", size, "-colorspace", "sRGB", "-depth", "8", "rgb:-")
	if info.Width*info.Height != flavourW*flavourH || len(theirs) != 3*ours.Width*ours.Height {
		t.Fatalf("%d x %d, thumbnail %d x %d, %d bytes to compare with", info.Width, info.Height, ours.Width, ours.Height, len(theirs))
	}
	if rms := difference(shown(t, ours), theirs); rms >= 0.01 {
		t.Errorf("differs by %.2f %% root mean square", 100*rms)
	} else {
		t.Logf("%.2f %%", 100*rms)
	}
}

// difference is the root of the mean square, 1 being the whole range.
func difference(img image.Image, pix []byte) float64 {
	var sum float64
	b := img.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			r, g, bl, _ := img.At(x, y).RGBA()
			for c, v := range []uint32{r, g, bl} {
				d := float64(v)/0xffff - float64(pix[3*(y*b.Dx()+x)+c])/0xff
				sum += d * d
			}
		}
	}
	return math.Sqrt(sum / float64(len(pix)))
}
