package disk

import (
	"errors"
	"io/fs"
)

// How a record is put in place
//
// No system can swap two folders in one step everywhere, so there are two
// renames, and between them the destination is missing:
//
//	write marker, sync files and folders     .NAME.tmp is whole and on disk
//	rename NAME       to .NAME.old           the gap begins
//	rename .NAME.tmp  to NAME                the gap ends
//	sync the parent folder, remove .NAME.old
//
// Whoever is cut off inside the gap leaves .NAME.old and no NAME; repair, at
// the next start, renames it back. Cut off anywhere else, NAME is the old
// record or the new one, whole, and what is left beside it is removed. The
// marker lies in the temporary folder before it is renamed, so a folder at
// NAME with our marker is always a whole record.

func (r *Record) steps() []step {
	return []step{
		{"marker", r.writeMarker},
		{"sync", func() error { return r.syncAll(Marker) }},
		{"check", func() error { return checkReplaceable(r.parent, r.name, r.dest) }},
		{"set aside", r.setAside},
		{"put in place", r.putInPlace},
		{"sync parent", func() error { return syncFolder(r.parent, ".") }},
		{"clear", r.clearOld},
	}
}

// Commit puts the record in place. On an error nothing at the destination has
// changed, but for a fault after the new record is in place, when that stays.
func (r *Record) Commit() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.done {
		return &Error{Name: r.dest, Kind: Failed, Err: fs.ErrClosed}
	}
	err := r.take(r.steps())
	if err != nil { // perhaps within the gap
		err = errors.Join(err, r.temp.Close(), r.repair())
	}
	r.end()
	return fault(r.dest, err)
}

// Abort drops the record; nothing at the destination has changed. After Commit
// it does nothing, so it may be deferred.
func (r *Record) Abort() {
	r.mu.Lock()
	defer r.mu.Unlock()
	if !r.done {
		r.end()
	}
}

func (r *Record) writeMarker() error {
	return r.temp.WriteFile(Marker, []byte(markerText(r.names)), 0o644)
}

func (r *Record) setAside() error {
	r.closeOld() // Windows renames no folder that is held open
	err := r.parent.Rename(r.name, beside(r.name, "old"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil // the first record
	}
	return err
}

// clearOld removes the old record. The new one stands, so what cannot be
// removed is left to the next run.
func (r *Record) clearOld() error {
	r.parent.RemoveAll(beside(r.name, "old"))
	return nil
}

// repair ends the gap and removes what stands beside the destination. The
// lock is held, so nobody else is at work there. An old record is brought back
// only if it is whole: one whose removal was cut off has been replaced already.
func (r *Record) repair() error {
	old := beside(r.name, "old")
	_, err := r.parent.Lstat(r.name)
	if errors.Is(err, fs.ErrNotExist) && carriesMarker(r.parent, old) {
		if err := r.parent.Rename(old, r.name); err != nil {
			return err
		}
	}
	return errors.Join(r.parent.RemoveAll(old), r.parent.RemoveAll(beside(r.name, "tmp")))
}
