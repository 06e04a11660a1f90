package bag

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
)

// written are the digests that a bag of ours has, of the payload and of the tag
// files alike: those that every tool must know (RFC 8493, section 2.4).
var written = []string{"sha256", "sha512"}

// File is what is known of a file in the bag.
type File struct {
	Bytes          int64
	SHA256, SHA512 string // hexadecimal
}

// Writer writes a bag. Files are streamed; the lists are written by Close. What
// [Writer.Within] gives may be used by several goroutines; all else is for one.
type Writer struct {
	folder  Folder
	digests *digests

	mu       sync.Mutex
	files    map[string]File // by path within the bag
	spelled  map[string]string
	inCase   map[string]string
	warnings []string
}

// NewWriter begins a bag in a folder.
func NewWriter(folder Folder) *Writer {
	return &Writer{
		folder: folder, digests: newDigests(written...),
		files: map[string]File{}, spelled: map[string]string{}, inCase: map[string]string{},
	}
}

// Warnings are what may trouble whoever receives the bag: names that not every
// system can hold or tell apart.
func (w *Writer) Warnings() []string { return w.warnings }

// ReadError is a fault of what was to be put into the bag, and none of the bag.
type ReadError struct{ Err error }

func (e *ReadError) Error() string { return e.Err.Error() }

// Unwrap gives the fault itself.
func (e *ReadError) Unwrap() error { return e.Err }

// Payload copies r into the payload under a name relative to data/. What it
// cannot read is a [*ReadError].
func (w *Writer) Payload(name string, r io.Reader) (File, error) {
	return w.add(payload+name, r)
}

// Tag writes another file beside the format's own, listed in the tag manifests.
func (w *Writer) Tag(name, text string) error {
	if strings.HasPrefix(name, payload) {
		return fmt.Errorf("%s is no place for a tag file", name)
	}
	_, err := w.add(name, strings.NewReader(text))
	return err
}

func (w *Writer) add(name string, r io.Reader) (File, error) {
	if err := w.claim(name); err != nil {
		return File{}, err
	}
	out, err := w.folder.Create(name)
	if err != nil {
		return File{}, err
	}
	n, sums, read, wrote := w.digests.copy(out, r)
	if err := errors.Join(wrote, out.Close()); err != nil {
		return File{}, err
	}
	if read != nil {
		return File{}, &ReadError{read}
	}
	return w.count(name, n, sums), nil
}

// count takes a file that stands in the folder for one of the bag.
func (w *Writer) count(name string, bytes int64, sums []string) File {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.files[name] = File{bytes, sums[0], sums[1]}
	return w.files[name]
}

// Kept reads a file that stands in the folder already and counts it to the
// payload if it has so many bytes and this SHA-256; otherwise the bag is as if it
// had not been asked.
func (w *Writer) Kept(name string, r io.Reader, bytes int64, sha256 string) (bool, error) {
	n, sums, err, _ := w.digests.copy(io.Discard, r)
	if err != nil || n != bytes || sums[0] != sha256 {
		return false, nil // it is copied again
	}
	if err := w.claim(payload + name); err != nil {
		return false, err
	}
	w.count(payload+name, n, sums)
	return true, nil
}

// claim takes a path for a file. RFC 8493, section 6.1.1.3, discourages names that
// differ only in case, and wants those prevented that differ only in how their
// letters are composed.
func (w *Writer) claim(name string) error {
	if !fs.ValidPath(name) || name == "." {
		return fmt.Errorf("%q is no path within a bag", name)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	spelled := spelling(name)
	if other, taken := w.spelled[spelled]; taken && other != name {
		return fmt.Errorf("%s and %s differ only in how their letters are composed; not every system tells them apart", other, name)
	} else if taken {
		return fmt.Errorf("%s is twice in the bag", name)
	}
	w.spelled[spelled] = name
	folded := foldCase(spelled)
	if other, taken := w.inCase[folded]; taken {
		w.warn("%s and %s differ only in capitals; not every system tells them apart", other, name)
	}
	w.inCase[folded] = name
	if why := troublesOnWindows(name); why != "" {
		w.warn("%s %s: give it another name before it is archived where it is to be opened there", name, why)
	}
	return nil
}

func (w *Writer) warn(format string, args ...any) {
	w.warnings = append(w.warnings, fmt.Sprintf(format, args...))
}

// Within is a folder of the payload, for what is written rather than copied.
func (w *Writer) Within(dir string) Folder { return within{w, dir} }

type within struct {
	bag *Writer
	dir string
}

func (f within) Create(name string) (io.WriteCloser, error) {
	name = payload + path.Join(f.dir, name)
	if err := f.bag.claim(name); err != nil {
		return nil, err
	}
	out, err := f.bag.folder.Create(name)
	if err != nil {
		return nil, err
	}
	return &entry{bag: f.bag, name: name, out: out, digests: newSmallDigests(written...)}, nil
}

// entry is a file of the payload being written.
type entry struct {
	bag  *Writer
	name string
	out  io.WriteCloser
	*digests
	bytes int64
}

func (e *entry) Write(p []byte) (int, error) {
	n, err := e.out.Write(p)
	e.bytes += int64(n)
	for _, h := range e.hashes {
		h.Write(p[:n])
	}
	return n, err
}

// Close counts the file to the payload.
func (e *entry) Close() error {
	if err := e.out.Close(); err != nil {
		return err
	}
	e.bag.count(e.name, e.bytes, e.sums())
	return nil
}

// held is how much the payload holds so far: its octets and its files.
func (w *Writer) held() (bytes int64, files int) {
	for name, f := range w.files {
		if strings.HasPrefix(name, payload) {
			bytes += f.Bytes
			files++
		}
	}
	return bytes, files
}

// Close writes the lists: the manifests, bag-info.txt of these elements with the
// payload's size behind them, the declaration, and the tag manifests over all of
// these.
func (w *Writer) Close(info []Element) error {
	bytes, files := w.held()
	info = append(slices.Clip(info), Element{"Bag-Size", Size(bytes)}, Element{"Payload-Oxum", fmt.Sprintf("%d.%d", bytes, files)})
	for i, algorithm := range written {
		if err := w.Tag("manifest-"+algorithm+".txt", w.manifest(i, true)); err != nil {
			return err
		}
	}
	if err := w.Tag(infoName, infoText(info)); err != nil {
		return err
	}
	if err := w.Tag(declarationName, "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"); err != nil {
		return err
	}
	listed := maps.Clone(w.files) // a tag manifest lists no tag manifest
	for i, algorithm := range written {
		text := (&Writer{files: listed}).manifest(i, false)
		if err := w.Tag("tagmanifest-"+algorithm+".txt", text); err != nil {
			return err
		}
	}
	return nil
}

// manifest lists the payload, or all else, sorted by path.
func (w *Writer) manifest(algorithm int, ofPayload bool) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(w.files)) {
		f := w.files[name]
		if strings.HasPrefix(name, payload) == ofPayload {
			b.WriteString([]string{f.SHA256, f.SHA512}[algorithm] + "  " + encodePath.Replace(name) + "\n")
		}
	}
	return b.String()
}

// Size says a count of bytes as people do, in the units of RFC 8493, section
// 2.2.2: thousands of thousands.
func Size(bytes int64) string {
	size, unit := float64(bytes), "bytes"
	for _, larger := range []string{"KB", "MB", "GB", "TB"} {
		if size < 1000 {
			break
		}
		size, unit = size/1000, larger
	}
	if unit == "bytes" {
		return fmt.Sprintf("%d bytes", bytes)
	}
	return fmt.Sprintf("%.1f %s", size, unit)
}
