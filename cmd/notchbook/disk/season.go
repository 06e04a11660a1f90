// Package disk is the one room through which notchbook reads and writes files.
//
// A [Season] is the folder of a season's notebooks and scans; every name in it
// is slash-separated and relative, and os.Root holds every access inside it,
// links included. A [Record] is the folder written from it, all or nothing.
package disk

import (
	"bytes"
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

	root  *os.Root
	door  *elsewhere // nil: nothing outside is read
	parts []part     // of a season that is several folders
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
func (s *Season) Close() error {
	if s.door != nil {
		s.door.root.Close()
	}
	for _, p := range s.parts {
		p.folder.Close()
	}
	return s.root.Close()
}

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

// open opens a regular file within a root, following links that stay inside. It
// asks before opening: to open a pipe would wait for its other end, and to open
// a device may do something. It asks again afterwards, of the file held open,
// whatever its name has come to mean since.
func open(root *os.Root, name, local string) (*os.File, fs.FileInfo, error) {
	info, err := root.Stat(local)
	if err == nil {
		err = regular(name, info)
	}
	if err != nil {
		return nil, nil, fault(name, err)
	}
	file, err := root.OpenFile(local, os.O_RDONLY|withoutWaiting, 0)
	if err != nil {
		return nil, nil, fault(name, err)
	}
	if info, err = file.Stat(); err == nil {
		err = regular(name, info)
	}
	if err != nil {
		return nil, nil, errors.Join(fault(name, err), file.Close())
	}
	return file, info, nil
}

func regular(name string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return fail(name, Folder)
	case !info.Mode().IsRegular():
		return fail(name, NotFile)
	}
	return nil
}

// ReadFile reads a notebook of at most MaxNotebook bytes.
func (s *Season) ReadFile(name string) ([]byte, error) {
	return s.readUpTo(name, MaxNotebook)
}

func (s *Season) readUpTo(name string, most int64) ([]byte, error) {
	in, there, err := s.at(name)
	if err != nil {
		return nil, err
	}
	local, err := inside(there)
	if err != nil {
		return nil, err
	}
	return readUpTo(in.root, name, local, most)
}

func readUpTo(root *os.Root, name, local string, most int64) ([]byte, error) {
	file, info, err := open(root, name, local)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if info.Size() > most {
		return nil, fail(name, TooBig)
	}
	// Bounded again while reading: the file may grow, or state no size.
	var data bytes.Buffer
	data.Grow(int(info.Size()) + bytes.MinRead)
	if _, err := data.ReadFrom(io.LimitReader(file, most+1)); err != nil {
		return nil, fault(name, err)
	}
	if int64(data.Len()) > most {
		return nil, fail(name, TooBig)
	}
	return data.Bytes(), nil
}

// ReadFrom reads a file of a folder that the writer named, as [Season.ReadFile]
// reads one of the season's.
func ReadFrom(dir, name string) ([]byte, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fault(dir, err)
	}
	defer root.Close()
	return readUpTo(root, filepath.Join(dir, name), name, MaxNotebook)
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

// OpenScan opens a scan to be read where it lies: within the season's folder, or
// where Allow has opened a door.
func (s *Season) OpenScan(name string) (*Scan, error) {
	var file *os.File
	var info fs.FileInfo
	in, local, err := s.at(name)
	if err == nil {
		local, err = inside(local)
	}
	if err == nil {
		file, info, err = open(in.root, name, local)
	}
	if errors.Is(err, Outside) && s.door != nil {
		if local, ok := s.door.find(name); ok {
			file, info, err = open(s.door.root, name, local)
		}
	}
	if err != nil {
		return nil, err
	}
	return &Scan{ReaderAt: file, Size: info.Size(), ModTime: info.ModTime(), file: file}, nil
}
