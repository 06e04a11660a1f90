// Package disk is the one room through which notchbook reads and writes files.
//
// A [Season] is the folder of a season's notebooks and scans; every name in it
// is slash-separated and relative, and os.Root holds every access inside it,
// links included. A [Record] is the folder written from it, all or nothing.
package disk

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"time"
)

// MaxNotebook is the most a notebook file may hold, in bytes: a lifetime of
// sheets stays far below, and a scan named .txt by mistake is not swallowed.
const MaxNotebook = 256 << 20

// Season is an opened season's folder.
type Season struct {
	Path string // of the folder, as given
	File string // the one notebook that was named, "" if a folder was

	root *os.Root
}

// Open opens the season at a path: its folder, or one notebook in it.
func Open(name string) (*Season, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, fault(name, err)
	}
	s := &Season{Path: name}
	if !info.IsDir() {
		s.Path, s.File = filepath.Dir(name), filepath.Base(name)
	}
	if s.root, err = os.OpenRoot(s.Path); err != nil {
		return nil, fault(s.Path, err)
	}
	if carriesMarker(s.root, ".") {
		s.Close()
		return nil, fail(s.Path, Written)
	}
	return s, nil
}

// Close lets go of the folder.
func (s *Season) Close() error { return s.root.Close() }

// inside turns a name, as a notebook may write it, into one to hand to the
// root: clean, in the system's form and certain not to climb out.
func inside(name string) (string, error) {
	local := filepath.FromSlash(path.Clean(name))
	if name == "" {
		return "", fail(`""`, Missing)
	}
	if !filepath.IsLocal(local) {
		return "", fail(name, Outside)
	}
	return local, nil
}

// regular finds a regular file, following links that stay inside. It asks
// before opening: to open a pipe would wait for its other end.
func (s *Season) regular(name string) (local string, info fs.FileInfo, err error) {
	if local, err = inside(name); err != nil {
		return "", nil, err
	}
	if info, err = s.root.Stat(local); err != nil {
		return "", nil, fault(name, err)
	}
	switch {
	case info.IsDir():
		return "", nil, fail(name, Folder)
	case !info.Mode().IsRegular():
		return "", nil, fail(name, NotFile)
	}
	return local, info, nil
}

// ReadFile reads a notebook of at most MaxNotebook bytes.
func (s *Season) ReadFile(name string) ([]byte, error) {
	return s.readUpTo(name, MaxNotebook)
}

func (s *Season) readUpTo(name string, most int64) ([]byte, error) {
	local, info, err := s.regular(name)
	if err != nil {
		return nil, err
	}
	if info.Size() > most {
		return nil, fail(name, TooBig)
	}
	file, err := s.root.Open(local)
	if err != nil {
		return nil, fault(name, err)
	}
	defer file.Close()
	// Bounded again while reading: the file may grow, or state no size.
	data, err := io.ReadAll(io.LimitReader(file, most+1))
	if err != nil {
		return nil, fault(name, err)
	}
	if int64(len(data)) > most {
		return nil, fail(name, TooBig)
	}
	return data, nil
}

// Scan is an opened scan file, to be closed after use.
type Scan struct {
	io.ReaderAt
	Size    int64 // bytes
	ModTime time.Time

	file *os.File
}

// Close closes the file.
func (s *Scan) Close() error { return s.file.Close() }

// OpenScan opens a scan to be read where it lies.
func (s *Season) OpenScan(name string) (*Scan, error) {
	local, _, err := s.regular(name)
	if err != nil {
		return nil, err
	}
	file, err := s.root.Open(local)
	if err != nil {
		return nil, fault(name, err)
	}
	// Size and time are those of the file held open, whatever its name has
	// come to mean since.
	info, err := file.Stat()
	if err != nil {
		return nil, errors.Join(fault(name, err), file.Close())
	}
	return &Scan{ReaderAt: file, Size: info.Size(), ModTime: info.ModTime(), file: file}, nil
}
