package disk

import (
	"bufio"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// Record is an output folder being written. Its files gather in a hidden
// folder beside the destination; Commit puts that in place of what was there,
// and until then nothing there has changed. A Record may be used by several
// goroutines at once; Commit and Abort end it.
type Record struct {
	dest   string   // as given, for messages
	name   string   // of the destination within parent
	parent *os.Root // holds the destination and all that stands beside it
	temp   *os.Root

	release func() // the lock

	mu     sync.Mutex
	names  []string
	folded map[string]bool // the names in lower case
	open   map[*recordFile]bool
	err    error // the first fault; a record with one is not committed
	done   bool

	// before is called before each step of Commit. Tests set it, to fail or
	// to end the process there.
	before func(step string) error
}

// NewRecord begins a record at dest, whose parent folder must exist. It
// refuses a destination that holds anything notchbook did not write, and one
// that another run is writing. What an interrupted run left is put right first.
func NewRecord(dest string) (*Record, error) {
	full, err := filepath.Abs(dest)
	if err != nil {
		return nil, fault(dest, err)
	}
	dir, name := filepath.Dir(full), filepath.Base(full)
	if dir == full { // the root of a disk
		return nil, fail(dest, NotOurs)
	}
	parent, err := openParent(filepath.Dir(filepath.Clean(dest)), dir)
	if err != nil {
		return nil, err
	}
	r := &Record{dest: dest, name: name, parent: parent,
		folded: map[string]bool{}, open: map[*recordFile]bool{}}
	if r.release, err = acquire(parent, name, dest); err != nil {
		return nil, errors.Join(err, parent.Close())
	}
	if err := r.begin(); err != nil {
		r.end()
		return nil, fault(dest, err)
	}
	return r, nil
}

func openParent(shown, dir string) (*os.Root, error) {
	info, err := os.Stat(dir)
	if err != nil {
		return nil, fault(shown, err)
	}
	if !info.IsDir() {
		return nil, fail(shown, NotFolder)
	}
	root, err := os.OpenRoot(dir)
	return root, fault(shown, err)
}

func (r *Record) begin() error {
	if err := r.repair(); err != nil {
		return err
	}
	if err := checkReplaceable(r.parent, r.name, r.dest); err != nil {
		return err
	}
	temp := beside(r.name, "tmp")
	if err := r.parent.Mkdir(temp, 0o755); err != nil {
		return err
	}
	var err error
	r.temp, err = r.parent.OpenRoot(temp)
	return err
}

// Create begins a file of the record, making its folders. The name is
// slash-separated and relative; it is refused if it leaves the record, stands
// there already (in whatever case: not every system tells case), or holds
// characters that not every system allows. A fault in writing or closing is
// also kept for Commit.
func (r *Record) Create(name string) (io.WriteCloser, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.done {
		return nil, r.note(&Error{Name: name, Kind: Failed, Err: fs.ErrClosed})
	}
	if err := r.claim(name); err != nil {
		return nil, r.note(err)
	}
	local := filepath.FromSlash(name)
	if err := r.temp.MkdirAll(filepath.Dir(local), 0o755); err != nil {
		return nil, r.note(fault(name, err))
	}
	file, err := r.temp.OpenFile(local, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, r.note(fault(name, err))
	}
	r.names = append(r.names, name)
	f := &recordFile{record: r, name: name, file: file, buf: bufio.NewWriterSize(file, 64<<10)}
	r.open[f] = true
	return f, nil
}

// claim checks a name and remembers it.
func (r *Record) claim(name string) error {
	switch {
	case !filepath.IsLocal(filepath.FromSlash(name)):
		return fail(name, Outside)
	case !fs.ValidPath(name), name == ".", strings.ContainsFunc(name, unportable),
		strings.HasSuffix(name, "."), strings.HasSuffix(name, " "):
		return fail(name, BadName)
	}
	fold := strings.ToLower(name)
	if r.folded[fold] || fold == Marker {
		return &Error{Name: name, Kind: Failed, Err: fs.ErrExist}
	}
	r.folded[fold] = true
	return nil
}

// unportable tells the characters that some file system refuses, or that would
// break the marker's lines.
func unportable(c rune) bool {
	return c < ' ' || c == 0x7f || strings.ContainsRune(`\:*?"<>|`, c)
}

// note keeps the first fault. The caller holds mu.
func (r *Record) note(err error) error {
	if r.err == nil {
		r.err = err
	}
	return err
}

// recordFile is one file being written. It is open while its record says so.
type recordFile struct {
	record *Record
	name   string
	file   *os.File
	buf    *bufio.Writer
}

func (f *recordFile) Write(p []byte) (int, error) {
	n, err := f.buf.Write(p)
	return n, fault(f.name, err)
}

// Close writes out what is buffered. A second Close does nothing.
func (f *recordFile) Close() error {
	f.record.mu.Lock()
	defer f.record.mu.Unlock()
	if !f.record.open[f] {
		return nil
	}
	delete(f.record.open, f)
	if err := errors.Join(f.buf.Flush(), f.file.Close()); err != nil {
		return f.record.note(fault(f.name, err))
	}
	return nil
}

// folders lists every folder of the record, the deepest first.
func (r *Record) folders() []string {
	found := map[string]bool{".": true}
	for _, name := range r.names {
		for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
			found[dir] = true
		}
	}
	var dirs []string
	for dir := range found {
		dirs = append(dirs, dir)
	}
	slices.Sort(dirs)
	slices.Reverse(dirs)
	return dirs
}

// Dropped gives the files of the record now at the destination that this one
// has not, sorted: what Commit would take away.
func (r *Record) Dropped() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	old, _ := readRecordMarker(r.parent, r.name)
	var dropped []string
	for _, name := range old {
		if name != "" && !slices.Contains(r.names, name) {
			dropped = append(dropped, name)
		}
	}
	return dropped
}
