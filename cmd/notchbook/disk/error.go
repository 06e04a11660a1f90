package disk

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// Kind says why a file or folder was not read or written. Each is an error,
// for errors.Is.
type Kind int

// The reasons. The text of each stands after the name in a message.
const (
	Missing   Kind = iota + 1
	Folder         // where a file is wanted
	NotFolder      // where a folder is wanted
	NotFile        // a pipe, a device
	Link           // a link, which would be replaced by what is written
	Outside        // outside the season's folder
	TooBig         // beyond MaxNotebook
	ReadOnly       // not to be changed
	Changed        // other than it was read
	Denied         // the system does not permit it
	Written        // written by notchbook, so not a season
	NotOurs        // exists and was not written by notchbook
	Stranger       // a file that notchbook did not write, within a record
	Taken          // exists where a bag was to be
	Busy           // being written by another run
	BadName        // a name that not every system can hold
	TooMany        // more than is walked
	Apart          // on another drive than the other folders
	Failed         // any other fault of the system, given with it
)

var kindText = map[Kind]string{
	Missing:   "is missing",
	Folder:    "is a folder, not a file",
	NotFolder: "is a file, not a folder",
	NotFile:   "is not a regular file",
	Link:      "is a link; nothing was changed",
	Outside:   "lies outside the season's folder",
	TooBig:    "is larger than 256 MB",
	ReadOnly:  "is read-only; nothing was changed",
	Changed:   "has changed since it was read and was left alone",
	Denied:    "cannot be opened: permission denied",
	Written:   "was written by notchbook and is not a season's folder",
	NotOurs:   "exists and was not written by notchbook; nothing was changed",
	Stranger:  "stands in the record and was not written by notchbook; nothing was changed",
	Taken:     "exists, and a bag takes no other's place; nothing was changed",
	Busy:      "is being written by another run of notchbook",
	BadName:   "is a name that not every system can hold",
	TooMany:   "holds more than is looked through; the rest was left out",
	Apart:     "has no folder in common with the others",
	Failed:    "could not be read or written",
}

func (k Kind) Error() string { return kindText[k] }

// Error is one file or folder that was not read or written. Its message is
// one clause, the name first.
type Error struct {
	Name string // as given, or slash-separated within the season's folder
	Kind Kind
	Err  error // the system's own, or nil
}

func (e *Error) Error() string {
	text := e.Name + " " + e.Kind.Error()
	if e.Kind == Failed && e.Err != nil {
		text += ": " + innermost(e.Err).Error()
	}
	return text
}

// Unwrap lets errors.Is find both the Kind and the system's error.
func (e *Error) Unwrap() []error {
	if e.Err == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Err}
}

func fail(name string, kind Kind) *Error { return &Error{Name: name, Kind: kind} }

// innermost drops the operation and path that the system's errors carry: the
// message has named the file already, in the writer's words.
func innermost(err error) error {
	for {
		inner := errors.Unwrap(err)
		if joined, ok := err.(interface{ Unwrap() []error }); ok {
			inner = joined.Unwrap()[0] // of several faults the first led to the others
		}
		if inner == nil {
			return err
		}
		err = inner
	}
}

// fault names an error of the system. An error of ours passes as it is.
func fault(name string, err error) error {
	var ours *Error
	switch {
	case err == nil:
		return nil
	case errors.As(err, &ours):
		return err
	case errors.Is(err, errEscapes):
		return &Error{Name: name, Kind: Outside, Err: err}
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return &Error{Name: name, Kind: Missing, Err: err}
	case errors.Is(err, fs.ErrPermission):
		return &Error{Name: name, Kind: Denied, Err: err}
	}
	return &Error{Name: name, Kind: Failed, Err: err}
}

// errEscapes is what os.Root answers to a path that leads out of it. Package
// os does not export it, so it is asked for once with a path that must escape;
// where even that fails (no current folder), no error is taken for it.
var errEscapes = func() error {
	none := errors.New("unknown")
	root, err := os.OpenRoot(".")
	if err != nil {
		return none
	}
	defer root.Close()
	if _, err = root.Lstat("../.."); err == nil {
		return none
	}
	return innermost(err)
}()
