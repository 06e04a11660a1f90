package disk

import (
	"errors"
	"os"
	"path/filepath"
)

// suffix ends the names of the hidden files and folders that stand beside
// what is being written: ".NAME.lock-notchbook" and so on. They are fixed, so
// that the next run finds and clears what an interrupted one left.
const suffix = "-notchbook"

func beside(local, purpose string) string {
	dir, base := filepath.Split(local)
	return dir + "." + base + "." + purpose + suffix
}

// errHeld is what tryLock answers when another run holds the lock.
var errHeld = errors.New("lock held")

// acquire takes the lock on a file or folder to be written. The system frees
// it when the process ends, however it ends, so a lock file that is left over
// holds nobody up. shown names the file in messages.
func acquire(root *os.Root, local, shown string) (release func(), err error) {
	name := beside(local, "lock")
	// A lock file may be removed by its holder between our opening and our
	// locking it; then what we hold has no name, and we try again.
	for range 8 {
		file, err := root.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, fault(shown, err)
		}
		if err := tryLock(file); err != nil {
			file.Close()
			if errors.Is(err, errHeld) {
				return nil, fail(shown, Busy)
			}
			return nil, fault(shown, err)
		}
		if stillNamed(root, name, file) {
			return func() { root.Remove(name); file.Close() }, nil
		}
		file.Close()
	}
	return nil, fail(shown, Busy)
}

// Hold keeps other runs from renaming files of the season until it is released.
func (s *Season) Hold() (release func(), err error) { return acquire(s.root, "season", s.Path) }

func stillNamed(root *os.Root, name string, file *os.File) bool {
	held, err := file.Stat()
	if err != nil {
		return false
	}
	named, err := root.Lstat(name)
	return err == nil && os.SameFile(held, named)
}
