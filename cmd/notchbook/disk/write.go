package disk

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// WriteFile replaces or creates one file of the season, whole or not at all:
// a reader, or a power cut, meets the old bytes or the new ones. Permissions
// stay; a read-only file and a link are refused. The file's folder must exist.
func (s *Season) WriteFile(name string, data []byte) error { return s.write(name, nil, data) }

// ReplaceFile is WriteFile for a file that was read before: it is left alone where
// it is not as it was then, since somebody may have it open and have saved it.
func (s *Season) ReplaceFile(name string, old, data []byte) error {
	return s.write(name, func() error {
		now, err := s.ReadFile(name)
		if err == nil && !bytes.Equal(now, old) {
			err = fail(name, Changed)
		}
		return err
	}, data)
}

// write asks, under the lock, whether the file may be written.
func (s *Season) write(name string, may func() error, data []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	perm, err := s.writable(name, local)
	if err != nil {
		return err
	}
	release, err := acquire(s.root, local, name)
	if err != nil {
		return err
	}
	defer release()
	if may != nil {
		if err := may(); err != nil {
			return err
		}
	}
	temp := beside(local, "tmp")
	err = s.replace(local, temp, data, perm)
	if err != nil {
		s.root.Remove(temp)
	}
	return fault(name, err)
}

// writable gives the permissions the file has, or is to have.
func (s *Season) writable(name, local string) (fs.FileMode, error) {
	info, err := s.root.Lstat(local)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return 0o644, nil
	case err != nil:
		return 0, fault(name, err)
	case info.IsDir():
		return 0, fail(name, Folder)
	case info.Mode()&fs.ModeSymlink != 0:
		return 0, fail(name, Link)
	case !info.Mode().IsRegular():
		return 0, fail(name, NotFile)
	case info.Mode().Perm()&0o200 == 0:
		return 0, fail(name, ReadOnly)
	}
	return info.Mode().Perm(), nil
}

func (s *Season) replace(local, temp string, data []byte, perm fs.FileMode) error {
	// What an interrupted run left may be in the way; the lock is ours.
	if err := s.root.Remove(temp); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	file, err := s.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	// The mask has been taken from perm at creation; an existing file keeps its own.
	err = errors.Join(err, file.Chmod(perm), file.Sync(), file.Close())
	if err != nil {
		return err
	}
	if err := s.root.Rename(temp, local); err != nil {
		return err
	}
	return syncFolder(s.root, filepath.Dir(local))
}

// syncFolder makes names in a folder last through a power cut. Windows has no
// such call, and some network shares refuse it; there the system's own care
// has to do.
func syncFolder(root *os.Root, dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	file, err := root.Open(dir)
	if err != nil {
		return err
	}
	err = file.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil
	}
	return errors.Join(err, file.Close())
}
