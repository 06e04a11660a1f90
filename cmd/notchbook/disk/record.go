package disk

import (
	"io/fs"
	"slices"
	"strings"
)

// Record is a record's folder being written. Its files gather in a hidden
// folder beside the destination; Commit puts that in place of what was there,
// and until then nothing there has changed. A Record may be used by several
// goroutines at once; Commit and Abort end it.
type Record struct{ build }

// NewRecord begins a record at dest, whose parent folder must exist. It
// refuses a destination that holds anything notchbook did not write, and one
// that another run is writing. What an interrupted run left is put right first.
func NewRecord(dest string) (*Record, error) {
	r := &Record{}
	r.key = recordKey
	if err := r.start(dest); err != nil {
		return nil, err
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if err := r.begin(); err != nil {
		r.end()
		return nil, fault(dest, err)
	}
	return r, nil
}

func (r *Record) begin() error {
	if err := r.repair(); err != nil {
		return err
	}
	if err := checkReplaceable(r.parent, r.name, r.dest); err != nil {
		return err
	}
	if _, ok := readRecordMarker(r.parent, r.name); ok {
		r.old, _ = r.parent.OpenRoot(r.name) // without it all is written anew
	}
	return r.openTemp()
}

// recordKey refuses names that not every system can hold, and makes one of those
// that differ in case: not every system tells case.
func recordKey(name string) (string, error) {
	if strings.ContainsFunc(name, unportable) || strings.HasSuffix(name, ".") || strings.HasSuffix(name, " ") {
		return "", fail(name, BadName)
	}
	key := strings.ToLower(name)
	if key == Marker {
		return "", &Error{Name: name, Kind: Failed, Err: fs.ErrExist}
	}
	return key, nil
}

// unportable tells the characters that some file system refuses, or that would
// break the marker's lines.
func unportable(c rune) bool {
	return c < ' ' || c == 0x7f || strings.ContainsRune(`\:*?"<>|`, c)
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
