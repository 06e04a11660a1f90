package disk

import (
	"context"
	"io/fs"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Changes tells of changes to the season's notebooks and scans, each burst of
// them once, when it has been quiet for a while: an editor saves in several
// steps, and a copy of scans comes in many. The channel is closed when the
// context ends.
func (s *Season) Changes(ctx context.Context, quiet time.Duration) (<-chan struct{}, error) {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fault(s.Path, err)
	}
	if err := s.watchFolders(w); err != nil {
		w.Close()
		return nil, fault(s.Path, err)
	}
	changes := make(chan struct{})
	go func() {
		defer close(changes)
		defer w.Close()
		s.settle(ctx, w, quiet, changes)
	}()
	return changes, nil
}

// watchFolders watches every folder that List would look into.
func (s *Season) watchFolders(w *fsnotify.Watcher) error {
	return fs.WalkDir(s.root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil || !d.IsDir():
			return nil
		case name != "." && (path.Base(name)[0] == '.' || carriesMarker(s.root, name)):
			return fs.SkipDir
		}
		return w.Add(filepath.Join(s.Path, filepath.FromSlash(name)))
	})
}

// settle hands on one change for each burst.
func (s *Season) settle(ctx context.Context, w *fsnotify.Watcher, quiet time.Duration, changes chan<- struct{}) {
	calm := time.NewTimer(quiet)
	calm.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case e, ok := <-w.Events:
			if !ok {
				return
			}
			if s.concerns(e) {
				calm.Reset(quiet)
			}
		case _, ok := <-w.Errors:
			if !ok {
				return
			}
			calm.Reset(quiet) // events were lost: whatever it was, look again
		case <-calm.C:
			// New folders are watched from now on; one that vanished meanwhile is none.
			_ = s.watchFolders(w)
			select {
			case changes <- struct{}{}:
			case <-ctx.Done():
				return
			}
		}
	}
}

// concerns reports whether an event is about a notebook, a scan or a folder; an
// editor's own backup files are none, and to be read changes nothing.
func (s *Season) concerns(e fsnotify.Event) bool {
	if e.Op == fsnotify.Chmod {
		return false
	}
	name := filepath.Base(e.Name)
	if name[0] == '.' {
		return false
	}
	ext := filepath.Ext(name)
	return ext == "" || kindOfExt[strings.ToLower(ext)] != nil
}
