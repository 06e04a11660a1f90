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
	"sync"
)

// build is an output folder being written: the files gather in a hidden folder
// beside the destination, under a lock, and only as a whole do they get its name.
type build struct {
	dest   string   // as given, for messages
	name   string   // of the destination within parent
	parent *os.Root // holds the destination and all that stands beside it
	temp   *os.Root
	old    *os.Root // the record that stands there now; nil: none

	release func()                                     // the lock
	key     func(name string) (unique string, _ error) // what no two files may share, and which names are refused
	clear   func(name string) error                    // what may stand in a file's way; nil: nothing

	mu     sync.Mutex
	names  []string
	taken  map[string]bool // keys
	made   map[string]bool // folders
	open   map[*builtFile]bool
	onDisk map[string]bool // names of files that are, or are being brought there
	err    error           // the first fault; a folder with one is not put in place
	done   bool
	kept   bool // what is left when it ends stays for the next run

	syncing sync.WaitGroup
	turns   chan struct{} // one for each file that may be synced at a time

	// before is called before each step of Commit. Tests set it, to fail or
	// to end the process there.
	before func(step string) error
}

// start takes the lock on a destination, whose parent folder must exist.
func (b *build) start(dest string) error {
	full, err := filepath.Abs(dest)
	if err != nil {
		return fault(dest, err)
	}
	dir, name := filepath.Dir(full), filepath.Base(full)
	if dir == full { // the root of a disk
		return fail(dest, NotOurs)
	}
	b.dest, b.name, b.taken, b.open = dest, name, map[string]bool{}, map[*builtFile]bool{}
	b.made, b.onDisk, b.turns = map[string]bool{".": true}, map[string]bool{}, make(chan struct{}, syncedAtOnce)
	if b.parent, err = openParent(filepath.Dir(filepath.Clean(dest)), dir); err != nil {
		return err
	}
	if b.release, err = acquire(b.parent, name, dest); err != nil {
		return errors.Join(err, b.parent.Close())
	}
	return nil
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

// openTemp opens the hidden folder, making it if it is not there.
func (b *build) openTemp() error {
	temp := beside(b.name, "tmp")
	err := b.parent.Mkdir(temp, 0o755)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	b.temp, err = b.parent.OpenRoot(temp)
	return err
}

// Create begins a file of the folder, making its folders. The name is
// slash-separated and relative; it is refused if it leaves the folder or stands
// there already. A record also refuses names that not every system can hold or
// tell apart. A fault in writing or closing is also kept for Commit.
func (b *build) Create(name string) (io.WriteCloser, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.done {
		return nil, b.note(&Error{Name: name, Kind: Failed, Err: fs.ErrClosed})
	}
	if err := b.claim(name); err != nil {
		return nil, b.note(err)
	}
	if b.clear != nil {
		if err := b.clear(name); err != nil {
			return nil, b.note(fault(name, err))
		}
	}
	if err := b.makeFolder(path.Dir(name)); err != nil {
		return nil, b.note(fault(name, err))
	}
	f := &builtFile{build: b, name: name}
	if !f.lean() {
		if err := f.begin(); err != nil {
			return nil, b.note(fault(name, err))
		}
	}
	f.buf = buffers.Get().(*bufio.Writer)
	f.buf.Reset(writerFunc(f.write))
	b.names = append(b.names, name)
	b.open[f] = true
	return f, nil
}

// makeFolder makes a folder and those that hold it, each once. The caller holds mu.
func (b *build) makeFolder(dir string) error {
	if b.made[dir] {
		return nil
	}
	err := b.temp.MkdirAll(filepath.FromSlash(dir), 0o755)
	b.made[dir] = err == nil
	return err
}

// claim checks a name and remembers it.
func (b *build) claim(name string) error {
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return fail(name, Outside)
	}
	if !fs.ValidPath(name) || name == "." {
		return fail(name, BadName)
	}
	key, err := b.key(name)
	if err != nil {
		return err
	}
	if b.taken[key] {
		return &Error{Name: name, Kind: Failed, Err: fs.ErrExist}
	}
	b.taken[key] = true
	return nil
}

// note keeps the first fault. The caller holds mu.
func (b *build) note(err error) error {
	if b.err == nil {
		b.err = err
	}
	return err
}

// folders lists every folder in it, the deepest first.
func (b *build) folders() []string {
	found := map[string]bool{".": true}
	for _, name := range b.names {
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

// step is one step of Commit, with the name tests know it by.
type step struct {
	name string
	do   func() error
}

// take takes the steps of Commit one after the other, up to a fault.
func (b *build) take(steps []step) error {
	err := b.err
	if err == nil && len(b.open) > 0 {
		err = errors.New("a file of it was not closed")
	}
	for _, s := range steps {
		if err == nil && b.before != nil {
			err = b.before(s.name)
		}
		if err == nil {
			err = s.do()
		}
	}
	return err
}

// syncAll sees to it that every file that is new is on the disk, then every folder,
// so that no name can outlive its bytes.
func (b *build) syncAll(also ...string) error {
	for _, name := range append(also, b.names...) {
		b.sync(name)
	}
	b.mu.Unlock() // they note their faults
	b.syncing.Wait()
	b.mu.Lock()
	if b.err != nil {
		return b.err
	}
	for _, dir := range b.folders() {
		if err := syncFolder(b.temp, filepath.FromSlash(dir)); err != nil {
			return fault(dir, err)
		}
	}
	return nil
}

// syncedAtOnce is how many files are brought to the disk side by side: it can write
// down many names at once, and takes hardly longer for them than for one.
const syncedAtOnce = 16

// sync begins to bring a file to the disk, beside the writing of the others, unless
// that was begun before. The caller holds mu.
func (b *build) sync(name string) {
	if b.onDisk[name] {
		return
	}
	b.onDisk[name] = true
	temp := b.temp
	b.syncing.Go(func() {
		b.turns <- struct{}{}
		defer func() { <-b.turns }()
		file, err := temp.OpenFile(filepath.FromSlash(name), os.O_RDWR, 0)
		if err == nil {
			err = errors.Join(file.Sync(), file.Close())
		}
		if err != nil {
			b.mu.Lock()
			defer b.mu.Unlock()
			b.note(fault(name, err))
		}
	})
}

// closeOld lets go of the record that stands there.
func (b *build) closeOld() {
	if b.old != nil {
		b.old.Close()
		b.old = nil
	}
}

func (b *build) putInPlace() error {
	// Windows renames no folder that is held open.
	if err := b.temp.Close(); err != nil {
		return err
	}
	return b.parent.Rename(beside(b.name, "tmp"), b.name)
}

// end removes what is left and lets go of everything. What cannot be removed
// now is removed by the next run. The caller holds mu.
func (b *build) end() {
	b.done = true
	for f := range b.open {
		f.letGo()
	}
	clear(b.open)
	b.mu.Unlock()
	b.syncing.Wait()
	b.mu.Lock()
	b.closeOld()
	if b.temp != nil {
		b.temp.Close()
	}
	if !b.kept {
		b.parent.RemoveAll(beside(b.name, "tmp"))
	}
	b.release()
	b.parent.Close()
}
