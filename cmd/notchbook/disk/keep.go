package disk

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// builtFile is one file being written. It is open while its folder says so.
//
// As long as it is what the file of that name in the record that stands there now
// is, it leans on that one and is no file of its own. If it is so to its end, it
// becomes a second name of it: that is on the disk already, and keeps its time, so
// that programs which copy folders see what has changed. Where a disk knows no
// second names it is written anew. No file of a record is ever written in place.
type builtFile struct {
	build *build
	name  string
	old   *os.File // what it leans on; nil: nothing
	info  fs.FileInfo
	same  int64    // so many bytes are the same
	file  *os.File // nil while it leans
	buf   *bufio.Writer
}

type writerFunc func(p []byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

func (f *builtFile) local() string { return filepath.FromSlash(f.name) }

// lean finds what to lean on.
func (f *builtFile) lean() bool {
	if f.build.old == nil {
		return false
	}
	var err error
	f.old, f.info, err = open(f.build.old, f.name, f.local())
	return err == nil
}

// begin makes it a file of its own, with what it has up to now.
func (f *builtFile) begin() (err error) {
	f.file, err = f.build.temp.OpenFile(f.local(), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil || f.old == nil {
		return err
	}
	_, err = io.Copy(f.file, io.NewSectionReader(f.old, 0, f.same))
	err = errors.Join(err, f.old.Close())
	f.old = nil
	return err
}

// write takes what the buffer holds.
func (f *builtFile) write(p []byte) (int, error) {
	if f.file == nil && f.old == nil {
		return 0, fs.ErrClosed
	}
	if f.file == nil {
		if f.goesOn(p) {
			f.same += int64(len(p))
			return len(p), nil
		}
		if err := f.begin(); err != nil {
			return 0, err
		}
	}
	return f.file.Write(p)
}

// goesOn tells whether what it leans on goes on with these bytes.
func (f *builtFile) goesOn(p []byte) bool {
	if f.same+int64(len(p)) > f.info.Size() {
		return false
	}
	q := blocks.Get().(*[blockSize]byte)
	defer blocks.Put(q)
	for at := f.same; len(p) > 0; {
		n := min(len(p), blockSize)
		if m, _ := f.old.ReadAt(q[:n], at); m < n || !bytes.Equal(p[:n], q[:n]) {
			return false
		}
		p, at = p[n:], at+int64(n)
	}
	return true
}

// What is written is gathered in blocks, which go from file to file.
const blockSize = 64 << 10

var (
	buffers = sync.Pool{New: func() any { return bufio.NewWriterSize(nil, blockSize) }}
	blocks  = sync.Pool{New: func() any { return new([blockSize]byte) }}
)

func (f *builtFile) Write(p []byte) (int, error) {
	if f.buf == nil {
		return 0, &Error{Name: f.name, Kind: Failed, Err: fs.ErrClosed}
	}
	n, err := f.buf.Write(p)
	return n, fault(f.name, err)
}

// Close writes out what is buffered. A second Close does nothing.
func (f *builtFile) Close() error {
	f.build.mu.Lock()
	defer f.build.mu.Unlock()
	if !f.build.open[f] {
		return nil
	}
	delete(f.build.open, f)
	err := f.buf.Flush()
	f.buf.Reset(nil)
	buffers.Put(f.buf)
	f.buf = nil
	if err == nil {
		err = f.end()
	}
	if err = errors.Join(err, f.letGo()); err != nil {
		return f.build.note(fault(f.name, err))
	}
	return nil
}

// end makes it a second name of what it leans on, or a file on the disk.
func (f *builtFile) end() error {
	if f.file == nil && f.same == f.info.Size() && f.link() {
		f.build.onDisk[f.name] = true
		return nil
	}
	if f.file == nil {
		if err := f.begin(); err != nil {
			return err
		}
	}
	f.build.sync(f.name)
	return nil
}

// link gives what it leans on its second name, if it still is what it was.
func (f *builtFile) link() bool {
	b := f.build
	fresh := filepath.Join(beside(b.name, "tmp"), f.local())
	if b.parent.Link(filepath.Join(b.name, f.local()), fresh) != nil {
		return false
	}
	if info, err := b.temp.Lstat(f.local()); err == nil && os.SameFile(info, f.info) && info.Size() == f.same {
		return true
	}
	b.temp.Remove(f.local())
	return false
}

// letGo closes what is open.
func (f *builtFile) letGo() (err error) {
	if f.old != nil {
		err = f.old.Close()
	}
	if f.file != nil {
		err = errors.Join(err, f.file.Close())
	}
	f.old, f.file = nil, nil
	return err
}
