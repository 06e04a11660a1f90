package disk

import (
	"os"
	"path/filepath"
)

// elsewhere is the one place outside of the season's folder where scans may be
// read: scans often lie on a disk of their own.
type elsewhere struct {
	root   *os.Root
	at     string // absolute, as the writer named it
	real   string // the same without links
	season string // the season's folder, absolute
}

// Allow lets scans be read below dir, too. Nothing is listed or written there.
func (s *Season) Allow(dir string) error {
	var e elsewhere
	info, err := os.Stat(dir)
	if err != nil {
		return fault(dir, err)
	}
	if !info.IsDir() {
		return fail(dir, NotFolder)
	}
	if e.at, err = filepath.Abs(dir); err != nil {
		return fault(dir, err)
	}
	if e.season, err = filepath.Abs(s.Path); err != nil {
		return fault(s.Path, err)
	}
	if e.real, err = filepath.EvalSymlinks(e.at); err != nil {
		return fault(dir, err)
	}
	if e.root, err = os.OpenRoot(e.real); err != nil {
		return fault(dir, err)
	}
	s.door = &e
	return nil
}

// Elsewhere tells whether a path that leads out of the season's folder leads to
// the place that Allow named, and writes it from the season's folder on.
func (s *Season) Elsewhere(name string) (string, bool) {
	if s.door == nil {
		return "", false
	}
	full := s.door.absolute(name)
	if _, ok := within(s.door.at, full); !ok {
		return "", false
	}
	rel, err := filepath.Rel(s.door.season, full)
	if err != nil { // on another drive: no path leads from here to there
		return "", false
	}
	return filepath.ToSlash(rel), true
}

// Reaches tells whether a name leads through the door, also by a link.
func (s *Season) Reaches(name string) bool {
	if s.door == nil {
		return false
	}
	_, ok := s.door.find(name)
	return ok
}

// Allowed tells whether scans outside of the season's folder may be read.
func (s *Season) Allowed() bool { return s.door != nil }

func (e *elsewhere) absolute(name string) string {
	local := filepath.FromSlash(name)
	if filepath.IsAbs(local) {
		return filepath.Clean(local)
	}
	return filepath.Join(e.season, local)
}

// find gives a name's place below the door: of a path that leads there by its
// words, or by a link within the season's folder.
func (e *elsewhere) find(name string) (string, bool) {
	full := e.absolute(name)
	if local, ok := within(e.at, full); ok {
		return local, true
	}
	if real, err := filepath.EvalSymlinks(full); err == nil {
		return within(e.real, real)
	}
	return "", false
}

func within(dir, full string) (string, bool) {
	rel, err := filepath.Rel(dir, full)
	return rel, err == nil && filepath.IsLocal(rel)
}
