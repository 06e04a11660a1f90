package disk

import (
	"errors"
	"io/fs"
	"path/filepath"
)

// Exists tells whether anything stands under a name in the season's folder.
func (s *Season) Exists(name string) bool {
	local, err := inside(name)
	if err != nil {
		return false
	}
	_, err = s.root.Lstat(local)
	return err == nil
}

// Rename gives a file of the season another name, making folders on the way. It
// never takes the place of a file: the new name is made as a second name of the
// file, which no system does over another, and then the old one is dropped.
func (s *Season) Rename(from, to string) error {
	old, err := inside(from)
	if err != nil {
		return err
	}
	local, err := inside(to)
	if err != nil {
		return err
	}
	if err := s.root.MkdirAll(filepath.Dir(local), 0o755); err != nil {
		return fault(to, err)
	}
	err = s.root.Link(old, local)
	switch {
	case err == nil:
		// The new name is on the disk before the old one goes.
		err = errors.Join(syncFolder(s.root, filepath.Dir(local)), s.root.Remove(old), syncFolder(s.root, filepath.Dir(old)))
		return fault(from, err)
	case errors.Is(err, fs.ErrExist):
		return &Error{Name: to, Kind: Failed, Err: err}
	}
	return s.moveUnlessThere(from, to, old, local)
}

// moveUnlessThere is for disks that know no second names (memory cards do not).
func (s *Season) moveUnlessThere(from, to, old, local string) error {
	if _, err := s.root.Lstat(local); err == nil {
		return &Error{Name: to, Kind: Failed, Err: fs.ErrExist}
	}
	return fault(from, s.root.Rename(old, local))
}
