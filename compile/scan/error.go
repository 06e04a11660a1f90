package scan

import (
	"errors"
	"image/jpeg"
	"image/png"
	"io"
)

// Kind says in which way a scan is bad.
type Kind int

// The ways in which a scan can be bad.
const (
	Unreadable  Kind = iota + 1 // the bytes could not be read
	NotImage                    // not a JPEG, PNG or TIFF
	Truncated                   // ends before its image does
	Damaged                     // contradicts its own format
	TooLarge                    // declares more pixels than are decoded
	Unsupported                 // sound, but of a sort that is not read
)

// Error is a scan that could not be read. Sentence is one clause without
// subject, capital or full stop, to stand after the file's name.
type Error struct {
	Kind     Kind
	Sentence string
	Err      error // what lies beneath, or nil
}

func (e *Error) Error() string { return e.Sentence }
func (e *Error) Unwrap() error { return e.Err }

func truncated(err error) error {
	return &Error{Kind: Truncated, Sentence: "ends before its image does", Err: err}
}

func damaged(format Format, what string) error {
	return &Error{Kind: Damaged, Sentence: "is a damaged " + string(format) + ": " + what}
}

func unsupported(what string) error {
	return &Error{Kind: Unsupported, Sentence: what}
}

// headerFault sorts an error met while reading a header: an end of file there
// is a cut file, since fixity has already read every byte once.
func headerFault(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return truncated(err)
	}
	return &Error{Kind: Unreadable, Sentence: "cannot be read", Err: err}
}

// decodeFault sorts an error of one of the decoders.
func decodeFault(format Format, err error) error {
	var (
		j jpeg.UnsupportedError
		p png.UnsupportedError
		e *Error
	)
	switch {
	case errors.As(err, &e): // of the file beneath
		return e
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return truncated(err)
	case errors.As(err, &j), errors.As(err, &p):
		return &Error{Kind: Unsupported, Err: err,
			Sentence: "is a " + string(format) + " of a sort that is not read"}
	}
	return &Error{Kind: Damaged, Err: err, Sentence: "is a damaged " + string(format)}
}
