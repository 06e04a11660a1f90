package disk

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
)

// keep puts the file of the folder now in place instead of a new one of the same
// bytes, as a second name of it: that is on the disk already, and keeps its time,
// so that programs which copy folders see what has changed. Where a disk knows no
// second names the new file stays. No file of a record is ever written in place.
func (b *build) keep(name string) bool {
	old, fresh := filepath.Join(b.name, name), filepath.Join(beside(b.name, "tmp"), name)
	if !sameBytes(b.parent, old, fresh) {
		return false
	}
	linked := fresh + ".same" + suffix
	if b.parent.Link(old, linked) != nil {
		return false
	}
	if b.parent.Rename(linked, fresh) != nil {
		b.parent.Remove(linked)
		return false
	}
	return true
}

// sameBytes tells whether two regular files hold the same.
func sameBytes(root *os.Root, a, b string) bool {
	one, first, err := open(root, a, a)
	if err != nil {
		return false
	}
	defer one.Close()
	two, second, err := open(root, b, b)
	if err != nil {
		return false
	}
	defer two.Close()
	if first.Size() != second.Size() {
		return false
	}
	var p, q [64 << 10]byte
	for {
		n, err := io.ReadFull(one, p[:])
		m, _ := io.ReadFull(two, q[:])
		if !bytes.Equal(p[:n], q[:m]) {
			return false
		}
		if err != nil {
			return errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
		}
	}
}
