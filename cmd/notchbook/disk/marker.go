package disk

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// Marker is the file that tells a folder written by notchbook. Such a folder
// is never read as a season, and only such a folder is replaced.
//
// Its first line is "notchbook record 1", the number being the version of this
// form; then follow the names of all files written, sorted, one a line. By
// them a file that someone else put into the record is known and kept.
const Marker = ".notchbook"

const (
	recordLine = "notchbook record "
	recordForm = "1"
	maxMarker  = 64 << 20 // bytes; some hundred thousand names
)

func carriesMarker(root *os.Root, dir string) bool {
	info, err := root.Lstat(path.Join(dir, Marker))
	return err == nil && info.Mode().IsRegular()
}

// RecordMarker is what the Marker of a record of these files holds.
func RecordMarker(names []string) string { return markerText(names) }

func markerText(names []string) string {
	return recordLine + recordForm + "\n" + strings.Join(slices.Sorted(slices.Values(names)), "\n") + "\n"
}

// readRecordMarker gives the names a record's marker lists. It is not ok where
// there is no marker, or one of a folder of another sort.
func readRecordMarker(root *os.Root, dir string) (names []string, ok bool) {
	if !carriesMarker(root, dir) {
		return nil, false
	}
	data, err := readUpTo(root, dir, path.Join(dir, Marker), maxMarker)
	if err != nil || !strings.HasPrefix(string(data), recordLine) {
		return nil, false
	}
	return strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")[1:], true
}

// Wrote tells whether a record stands in a folder and was written with a file of
// this name, be that still there or not.
func Wrote(dir, name string) bool {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return false
	}
	defer root.Close()
	names, _ := readRecordMarker(root, ".")
	return slices.Contains(names, name)
}

// InBag is the bag (RFC 8493) among whose payload a folder lies or would lie, "" for none:
// what is written there is in none of the bag's lists.
func InBag(dir string) string {
	dir, err := filepath.Abs(dir)
	for err == nil {
		parent := filepath.Dir(dir)
		if _, fault := os.Lstat(filepath.Join(parent, "bagit.txt")); fault == nil && filepath.Base(dir) == "data" {
			return parent
		}
		if parent == dir {
			break
		}
		dir = parent
	}
	return ""
}

// checkReplaceable tells whether a record may stand where root and dir say:
// nothing is there, or an empty folder, or a record with no stranger in it.
// shown is the folder's name in messages.
func checkReplaceable(root *os.Root, dir, shown string) error {
	info, err := root.Lstat(dir)
	switch {
	case os.IsNotExist(err):
		return nil
	case err != nil:
		return fault(shown, err)
	case info.Mode()&fs.ModeSymlink != 0:
		return fail(shown, Link)
	case !info.IsDir():
		return fail(shown, NotFolder)
	}
	names, ok := readRecordMarker(root, dir)
	if !ok {
		return checkEmpty(root, dir, shown)
	}
	return checkNoStranger(root, dir, shown, names)
}

func checkEmpty(root *os.Root, dir, shown string) error {
	entries, err := fs.ReadDir(root.FS(), dir)
	if err != nil {
		return fault(shown, err)
	}
	for _, e := range entries {
		if !litter(e.Name()) {
			return fail(shown, NotOurs)
		}
	}
	return nil
}

func checkNoStranger(root *os.Root, dir, shown string, names []string) error {
	known := map[string]bool{Marker: true}
	for _, name := range names {
		known[name] = true
	}
	return fs.WalkDir(root.FS(), dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return fault(shown, err)
		}
		within := strings.TrimPrefix(name, dir+"/")
		if d.IsDir() || known[within] || litter(d.Name()) {
			return nil
		}
		return fail(path.Join(shown, within), Stranger)
	})
}

// litter names what file managers leave in every folder they show.
func litter(name string) bool {
	switch strings.ToLower(name) {
	case ".ds_store", "thumbs.db", "desktop.ini", ".directory":
		return true
	}
	return strings.HasPrefix(name, "._")
}
