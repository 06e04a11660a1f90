package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// BagMarker is what the Marker of a bag holds: by it the bag is never read as a
// season, nor replaced.
const BagMarker = "notchbook bag 1\n"

// Bag is a bag's folder being written. As a record it gathers in a hidden folder
// and gets its name as a whole; but it never takes the place of anything, and
// what an interrupted run has copied is still there for the next one, which can
// ask for it.
//
// Its names may be whatever the season's are.
type Bag struct {
	build
	resumed bool
	inCase  map[string]string // its names, by what they are in lower case
}

// NewBag begins a bag at dest, whose parent folder must exist. It refuses a
// destination where anything is, and one that another run is writing.
func NewBag(dest string) (*Bag, error) {
	b := &Bag{}
	b.inCase = map[string]string{}
	b.key = b.exact
	b.build.clear = b.clear
	if err := b.start(dest); err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if err := b.begin(); err != nil {
		b.end()
		return nil, fault(dest, err)
	}
	return b, nil
}

func (b *Bag) begin() error {
	b.kept = true // nothing is removed before it is known to be ours
	if err := b.checkFree(); err != nil {
		return err
	}
	info, err := b.parent.Lstat(beside(b.name, "tmp"))
	b.resumed = err == nil
	if b.resumed && !info.IsDir() {
		return fail(filepath.Join(filepath.Dir(b.dest), beside(b.name, "tmp")), NotFolder)
	}
	return b.openTemp()
}

// exact lets names differ in case only; the disk may not.
func (b *Bag) exact(name string) (string, error) {
	if b.inCase[strings.ToLower(name)] == "" {
		b.inCase[strings.ToLower(name)] = name
	}
	return name, nil
}

// checkFree makes sure that nothing stands at the destination, or an empty folder.
func (b *Bag) checkFree() error {
	info, err := b.parent.Lstat(b.name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.Mode()&fs.ModeSymlink != 0:
		return fail(b.dest, Link)
	case !info.IsDir():
		return fail(b.dest, NotFolder)
	}
	entries, err := fs.ReadDir(b.parent.FS(), b.name)
	if err != nil {
		return err
	}
	if len(entries) > 0 {
		return fail(b.dest, Taken)
	}
	return nil
}

// Left opens what an interrupted run left under a name. It is to be closed.
func (b *Bag) Left(name string) (*Scan, bool) {
	local := filepath.FromSlash(name)
	if !filepath.IsLocal(local) || !b.resumed {
		return nil, false
	}
	info, err := b.temp.Lstat(local)
	if err != nil || !info.Mode().IsRegular() {
		return nil, false
	}
	file, err := b.temp.Open(local)
	if err != nil {
		return nil, false
	}
	return &Scan{ReaderAt: file, Size: info.Size(), ModTime: info.ModTime(), file: file}, true
}

// Keep takes over what an interrupted run left under a name.
func (b *Bag) Keep(name string) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if err := b.claim(name); err != nil {
		return b.note(err)
	}
	b.names = append(b.names, name)
	return nil
}

// clear removes what an interrupted run left in the way of a file: one of its
// name, or one where it needs a folder. What this run has written stays.
func (b *Bag) clear(name string) error {
	if !b.resumed {
		return nil
	}
	for i := range name {
		if name[i] == '/' && !b.taken[name[:i]] {
			if err := b.clearFile(name[:i]); err != nil {
				return err
			}
		}
	}
	local := filepath.FromSlash(name)
	info, err := b.temp.Lstat(local)
	switch {
	case err != nil:
		return nil // MkdirAll or OpenFile says what is wrong
	case !info.IsDir() && b.inCase[strings.ToLower(name)] != name:
		return nil // on a disk that does not tell case it is the other file
	}
	for other := range b.taken {
		if info.IsDir() && strings.HasPrefix(other, name+"/") {
			return nil
		}
	}
	return b.temp.RemoveAll(local)
}

// clearFile removes whatever has this name and is no folder.
func (b *Bag) clearFile(name string) error {
	local := filepath.FromSlash(name)
	info, err := b.temp.Lstat(local)
	if err != nil || info.IsDir() {
		return nil // MkdirAll says what else is wrong
	}
	return b.temp.Remove(local)
}

// steps are those of Commit. Once the folder has its name, all of it is on the
// disk.
func (b *Bag) steps() []step {
	return []step{
		{"sweep", b.sweep},
		{"sync", func() error { return b.syncAll() }},
		{"check", b.checkFree},
		{"put in place", b.place},
		{"sync parent", func() error { return syncFolder(b.parent, ".") }},
	}
}

// Commit gives the bag its name. On an error there is nothing under it, but for a
// fault after it is in place, when it stays; Abort is then still to be called.
func (b *Bag) Commit() error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.done {
		return &Error{Name: b.dest, Kind: Failed, Err: fs.ErrClosed}
	}
	if err := b.take(b.steps()); err != nil {
		return fault(b.dest, err)
	}
	b.end()
	return nil
}

// place renames the folder; an empty one may be in its place.
func (b *Bag) place() error {
	if err := b.parent.Remove(b.name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return b.putInPlace()
}

// sweep removes what an interrupted run left and this one has no use for.
func (b *Bag) sweep() error {
	if !b.resumed {
		return nil
	}
	wanted := map[string]bool{".": true}
	for _, dir := range b.folders() {
		wanted[dir] = true
	}
	for _, name := range b.names {
		wanted[name] = true
	}
	return fs.WalkDir(b.temp.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || wanted[name] {
			return err
		}
		if err := b.temp.RemoveAll(filepath.FromSlash(name)); err != nil {
			return err
		}
		if d.IsDir() {
			return fs.SkipDir
		}
		return nil
	})
}

// Abort drops the bag. What an interrupted run left is left once more, and so is
// what was copied where that is wanted: then it gives the folder in which that is
// for the next run. After Commit it does nothing, so it may be deferred.
func (b *Bag) Abort(keep bool) (left string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.done {
		return ""
	}
	b.kept = keep || b.resumed
	b.end()
	if !b.kept {
		return ""
	}
	return filepath.Join(filepath.Dir(filepath.Clean(b.dest)), beside(b.name, "tmp"))
}

// Tree is an opened folder of any kind that is only looked at.
type Tree struct{ root *os.Root }

// OpenTree opens any folder to be read.
func OpenTree(name string) (*Tree, error) {
	root, err := openParent(name, name)
	if err != nil {
		return nil, err
	}
	return &Tree{root}, nil
}

// FS is what the folder holds. Links are followed only inside it.
func (t *Tree) FS() fs.FS { return t.root.FS() }

// Close lets go of the folder.
func (t *Tree) Close() error { return t.root.Close() }
