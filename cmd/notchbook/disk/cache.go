package disk

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strconv"
	"strings"
)

// CacheFolder holds, within a season's folder, what was found out about its
// scans. Its name is hidden, so that no listing finds it; it moves with the
// season, and may be deleted at any time: then the scans are read again.
const CacheFolder = ".notchbook-cache"

// leftOut tells programs that make backups to leave the folder out (Cache
// Directory Tagging Specification 0.6), and git to leave out all in it.
var leftOut = map[string]string{
	"CACHEDIR.TAG": "Signature: 8a477f597d28d172789f06886806bc55\n" +
		"# What notchbook found out about the scans beside it. It may be deleted: the scans are read again.\n",
	".gitignore": "*\n",
}

// maxKept is the most one entry may hold, in bytes.
const maxKept = 64 << 20

// Cache keeps small files under keys, which are letters and digits. None of
// its faults matters: what is not kept is found out again.
type Cache struct{ root *os.Root }

// Cache opens the season's cache, making it if need be.
func (s *Season) Cache() (*Cache, error) {
	if s.parts != nil || InBag(s.Path) != "" {
		return nil, fail(CacheFolder, Outside) // nothing is left in the folder that holds them, nor in a bag
	}
	err := s.root.Mkdir(CacheFolder, 0o755)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, fault(CacheFolder, err)
	}
	// A link of this name would have files swept out of the folder it leads to.
	if info, err := s.root.Lstat(CacheFolder); err != nil || !info.IsDir() {
		return nil, fail(CacheFolder, NotFolder)
	}
	root, err := s.root.OpenRoot(CacheFolder)
	if err != nil {
		return nil, fault(CacheFolder, err)
	}
	c := &Cache{root}
	for name, text := range leftOut {
		if _, err := root.Lstat(name); err != nil {
			c.write(name, []byte(text))
		}
	}
	return c, nil
}

// Close lets go of the folder.
func (c *Cache) Close() error { return c.root.Close() }

const (
	keptSuffix  = ".kept"
	olderSuffix = ".json" // of what versions before this one kept
)

// Get gives what is kept under a key, nil if nothing is.
func (c *Cache) Get(key string) []byte {
	data, err := readUpTo(c.root, key, key+keptSuffix, maxKept)
	if err != nil {
		return nil
	}
	return data
}

// Put keeps data under a key: all of it, or what was kept before.
func (c *Cache) Put(key string, data []byte) error { return c.write(key+keptSuffix, data) }

// write does not wait for the disk: an entry lost with the power is one to be
// found out again, and one that is damaged is not understood.
func (c *Cache) write(name string, data []byte) error {
	part := name + "." + strconv.Itoa(os.Getpid()) + ".part"
	err := c.root.WriteFile(part, data, 0o644)
	if err == nil {
		err = c.root.Rename(part, name)
	}
	if err != nil {
		c.root.Remove(part)
	}
	return fault(path.Join(CacheFolder, name), err)
}

// Sweep removes what is kept under other keys than these, and what interrupted
// runs left.
func (c *Cache) Sweep(keys map[string]bool) {
	entries, err := fs.ReadDir(c.root.FS(), ".")
	if err != nil {
		return
	}
	for _, e := range entries {
		key, kept := strings.CutSuffix(e.Name(), keptSuffix)
		if kept && !keys[key] || strings.HasSuffix(e.Name(), ".part") || strings.HasSuffix(e.Name(), olderSuffix) {
			c.root.Remove(e.Name())
		}
	}
}
