// Draw makes the scans of the invented season in examples/aldermoor: large-format photographs
// that exist nowhere, with the exposure, filter and film each sheet of the notebook had. Run it
// at the top of the module:
//
//	go run ./examples/draw
//
// The same files come out every time, byte for byte.
package main

import (
	"errors"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"golang.org/x/image/draw"
	"golang.org/x/image/tiff"
)

func main() {
	key := flag.String("key", "testdata/aldermoor/key.csv", "what each sheet got")
	out := flag.String("out", "examples/aldermoor/scans", "folder for the scans")
	only := flag.String("only", "", "draw only sheets or scenes whose name holds this")
	flag.Parse()
	if err := run(*key, *out, *only); err != nil {
		fmt.Fprintln(os.Stderr, "draw:", err)
		os.Exit(1)
	}
}

func run(key, out, only string) error {
	f, err := os.Open(key)
	if err != nil {
		return err
	}
	defer f.Close()
	list, err := frames(f)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	return drawAll(list, out, only)
}

// drawAll draws the frames in turn; developing and writing one goes on beside the tracing of
// the next.
func drawAll(list []Frame, out, only string) error {
	var scanning sync.WaitGroup
	failed := make([]error, len(list))
	for i, f := range list {
		if !strings.Contains(f.ID+" "+f.Scene, only) {
			continue
		}
		film := f.expose()
		scanning.Go(func() { failed[i] = save(filepath.Join(out, f.Out), f.scan(film)) })
	}
	scanning.Wait()
	return errors.Join(failed...)
}

// Draw makes the scan of a sheet: the scene through its filters on its film, exposed as far off
// as it was, developed, and laid on its rebate.
func Draw(f Frame) image.Image { return f.scan(f.expose()) }

func (f Frame) expose() *exposed {
	v := f.view()
	film := &exposed{w: v.W, h: v.H, light: make([]float64, v.W*v.H)}
	for e := &f; e != nil; e = e.Again {
		through, sees := seen(e.Film, e.Filters, v.scene.Tungsten)
		if sees && !math.IsNaN(e.Stops) {
			film.expose(e.view(), through, e.Stops)
		}
	}
	return film
}

func (f Frame) view() *View { return view(f.Scene, slices.Contains(f.Filters, "pol")) }

// scan develops a film and scans it.
func (f Frame) scan(film *exposed) image.Image {
	film.fall()
	if f.Shake {
		film.shake(1)
	}
	sheet := mount(film.develop(f.ID), f.Film, f.ID)
	if f.Long == 0 {
		return sheet
	}
	return smaller(sheet, f.Long)
}

// smaller brings a scan to the given long side.
func smaller(scan *image.Gray16, long int) *image.Gray16 {
	w, h := scan.Rect.Dx(), scan.Rect.Dy()
	k := float64(long) / float64(max(w, h))
	to := image.NewGray16(image.Rect(0, 0, int(float64(w)*k+.5), int(float64(h)*k+.5)))
	draw.CatmullRom.Scale(to, to.Rect, scan, scan.Rect, draw.Src, nil)
	return to
}

// save writes a scan in the format its name asks for: eight bits, but sixteen in a PNG.
func save(name string, scan image.Image) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	switch filepath.Ext(name) {
	case ".png":
		err = png.Encode(f, scan)
	case ".tif":
		err = tiff.Encode(f, eight(scan), &tiff.Options{Compression: tiff.Deflate})
	default:
		err = jpeg.Encode(f, eight(scan), &jpeg.Options{Quality: 80})
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return f.Close()
}

// eight is a picture in eight bits of grey.
func eight(pic image.Image) *image.Gray {
	g := image.NewGray(pic.Bounds())
	draw.Draw(g, g.Rect, pic, g.Rect.Min, draw.Src)
	return g
}
