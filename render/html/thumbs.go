package html

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image/jpeg"

	"notchbook/compile/record"
)

// thumbEdge is the longest edge of a thumbnail in pixels: twice its width on the
// page, for fine screens and for paper.
const thumbEdge = 440

// thumb is a thumbnail in the folder; its size keeps the page from jumping
// while it loads.
type thumb struct {
	Name          string // "thumbs/….jpg"
	Width, Height int
}

// writeThumbs makes a thumbnail of every picture that can be shown, and keeps
// in the site which there are.
func (w *site) writeThumbs(dst Folder) error {
	if w.opt.Picture == nil {
		return nil
	}
	paths := picturePaths(w.season)
	made := func(i int) ([]byte, error) { return w.opt.Picture(paths[i], thumbEdge) }
	return inOrder(len(paths), w.opt.Parallel, made, func(i int, b []byte) error {
		if len(b) == 0 {
			return nil
		}
		t, err := sized(paths[i], thumbName(paths[i]), b)
		if err != nil {
			return err
		}
		w.thumbs[paths[i]] = t
		return writeFile(dst, t.Name, b)
	})
}

// sized reads a picture's size from its head.
func sized(path, name string, b []byte) (thumb, error) {
	head, err := jpeg.DecodeConfig(bytes.NewReader(b))
	if err != nil {
		return thumb{}, fmt.Errorf("thumbnail of %s: %w", path, err)
	}
	return thumb{name, head.Width, head.Height}, nil
}

// pathHash is a name that any disk takes, whatever the scan is called. 64 bits
// of the path's hash: with a million scans two would meet once in 37 million
// seasons.
func pathHash(path string) string {
	sum := sha256.Sum256([]byte(path))
	return hex.EncodeToString(sum[:8])
}

func thumbName(path string) string { return "thumbs/" + pathHash(path) + ".jpg" }

// picturePaths lists each picture once: the scans, then those of the prose.
func picturePaths(s *record.Season) []string {
	var paths []string
	seen := map[string]bool{}
	for _, sc := range s.Scans {
		if sc.Shown() && reachable(sc) && !seen[sc.Path] {
			paths = append(paths, sc.Path)
		}
		seen[sc.Path] = true // a scan that cannot be shown is no picture of the prose either
	}
	add := func(path string) {
		if _, ok := inSeason(path); ok && !seen[path] {
			seen[path] = true
			paths = append(paths, path)
		}
	}
	for _, o := range s.Outings {
		for _, e := range o.Entries {
			if e.Prose != nil {
				prosePictures(*e.Prose, add)
			}
		}
	}
	return paths
}

func prosePictures(b record.Block, add func(string)) {
	inlinePictures(b.Text, add)
	for _, inner := range b.Blocks {
		prosePictures(inner, add)
	}
}

func inlinePictures(text []record.Inline, add func(string)) {
	for _, in := range text {
		if in.Kind == record.Picture && in.Target.Path != "" {
			add(in.Target.Path)
		}
		inlinePictures(in.Inlines, add)
	}
}
