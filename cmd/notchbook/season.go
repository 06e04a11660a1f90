package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"notchbook/cmd/notchbook/disk"
	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang/diag"
)

// reading is a season being read: its folder, its notebooks, and what is known
// of its scans.
type reading struct {
	folder *disk.Season
	stdin  []byte // what was read from a stream; nil where files are read
	names  []string
	quick  bool // only the heads of the scans are read, no digest is made
	public bool // private remarks are left out
	some   bool // of several folders single notebooks were named
	list   disk.Listing
	former map[string]string // the digests of earlier records that the next one is to keep, by name
	scanned
}

// stdinName is what a notebook from standard input is called. One from another stream
// is called as it was named.
const stdinName = "standard input"

// isStream tells a path whose notes can be read once only, in one go: standard input,
// a pipe, a device. Nothing can be written back there.
func isStream(path string) bool {
	if path == "-" {
		return true
	}
	info, err := os.Stat(path)
	return err == nil && !info.IsDir() && !info.Mode().IsRegular()
}

// open opens what the command line names: one folder, or files of one folder.
func open(paths []string, in io.Reader) (*reading, error) {
	r := &reading{scanned: scanned{looked: map[string]compile.Scan{}, thumbs: map[string][]byte{}}}
	if len(paths) == 1 && isStream(paths[0]) {
		return r, r.stream(paths[0], in)
	}
	if err := r.openFolders(paths); err != nil {
		return nil, err
	}
	for _, path := range paths {
		if err := r.add(path); err != nil {
			r.close()
			return nil, err
		}
	}
	return r, nil
}

// openFolders opens the folder that the paths name, or lie in; several are one
// season together.
func (r *reading) openFolders(paths []string) (err error) {
	var folders []string
	for _, path := range paths {
		if isStream(path) {
			return fmt.Errorf("%s cannot be read together with other notebooks: it is no file", cmp.Or(strings.Trim(path, "-"), stdinName))
		}
		one, err := disk.Open(path)
		if err != nil {
			return err
		}
		one.Close()
		if !slices.ContainsFunc(folders, func(f string) bool { return sameFolder(f, one.Path) }) {
			folders = append(folders, one.Path)
		}
	}
	if len(folders) == 1 {
		r.folder, err = disk.Open(paths[0])
	} else {
		r.folder, err = disk.Together(folders)
	}
	if err == nil {
		r.list = r.folder.List()
	}
	return err
}

// stream reads the one notebook from a stream as if it lay in the current folder, so
// that its kit and its scans are found where the writer stands. The folder is not
// searched. A pipe is waited for, as a reader of pipes does.
func (r *reading) stream(name string, in io.Reader) (err error) {
	if name == "-" {
		name = stdinName
	} else {
		file, err := os.Open(name)
		if err != nil {
			return err
		}
		defer file.Close()
		in = file
	}
	if r.stdin, err = io.ReadAll(io.LimitReader(in, disk.MaxNotebook+1)); err != nil {
		return err
	}
	if len(r.stdin) > disk.MaxNotebook {
		return &disk.Error{Name: name, Kind: disk.TooBig}
	}
	r.names = []string{name}
	r.folder, err = disk.Open(".")
	return err
}

// add names the notebooks of a path: the one, or all of the folder.
func (r *reading) add(path string) error {
	one, err := disk.Open(path)
	if err != nil {
		return err
	}
	defer one.Close()
	names := []string{one.File}
	if one.File == "" {
		if names = one.List().Notebooks; len(names) == 0 {
			return fmt.Errorf("%s: there is no notebook in this folder (.md, .markdown or .txt)", path)
		}
	}
	for _, name := range names {
		if r.folder.Together() {
			r.some = r.some || one.File != ""
			if name, err = r.folder.Within(one.Path, name); err != nil {
				return err
			}
		}
		r.names = append(r.names, name)
	}
	return nil
}

// sameFolder tells whether two paths, however written, name one folder.
func sameFolder(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// folderOf is a folder, or the one that a file lies in.
func folderOf(path string) string {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return filepath.Dir(path)
	}
	return path
}

func (r *reading) close() {
	if r.folder != nil {
		r.folder.Close()
	}
}

// world is what the compiler may ask.
func (r *reading) world() compile.World {
	return compile.World{Title: r.title(), Read: r.notebook, Look: r.look, Scans: r.scans(), Elsewhere: r.folder.Elsewhere, Public: r.public}
}

func (r *reading) notebook(name string) ([]byte, error) {
	if r.stdin != nil && slices.Contains(r.names, name) {
		return r.stdin, nil
	}
	return r.folder.ReadFile(name)
}

// title is the season's where the notes have none: the name of the folder, or of the one notebook that was named.
func (r *reading) title() string {
	path, err := filepath.Abs(r.folder.Path)
	if err != nil || r.stdin != nil {
		return "Notes"
	}
	if r.folder.File != "" {
		path = strings.TrimSuffix(r.folder.File, filepath.Ext(r.folder.File))
	}
	name := []rune(filepath.Base(path))
	if name[0] >= 'a' && name[0] <= 'z' {
		name[0] -= 'a' - 'A'
	}
	return string(name)
}

// scans is the files that might be orphans: all of a folder, none where single
// notebooks were named, since others may name them.
func (r *reading) scans() []string {
	if r.folder.File != "" || r.some {
		return nil
	}
	return r.list.Scans
}

func why(err error) string {
	var bad *disk.Error
	if errors.As(err, &bad) {
		return bad.Kind.Error()
	}
	return err.Error()
}

// compile runs the compiler and adds what the disk had to say.
func (r *reading) compile() (*record.Season, diag.List) {
	defer collectSeldom()()
	return compile.Compile(r.world(), r.names...)
}

// check runs the compiler up to the findings.
func (r *reading) check() *compile.Checked {
	defer collectSeldom()()
	return compile.Check(r.world(), r.names...)
}

// collectSeldom has garbage collected less often, until what it gives is called. Nearly all that a check makes stays
// to its end: so it takes no more memory, and a twentieth less time.
func collectSeldom() (asBefore func()) {
	before := debug.SetGCPercent(200)
	return func() { debug.SetGCPercent(before) }
}

// problems prints what could not be looked at in the folder.
func (r *reading) problems(t terminal) {
	for _, p := range r.list.Problems {
		if p.Kind == disk.Outside && r.folder.Reaches(p.Name) {
			continue
		}
		t.complain(r.openable(p))
	}
	if r.folder.File != "" || r.some {
		return // what else lies there is nothing to who named a notebook
	}
	r.passedOver(t, "document", disk.IsDocument)
	r.passedOver(t, "table", func(name string) bool { return disk.IsTable(name) && !r.speaksOf(path.Base(name)) })
}

// passedOver names the files of a kind that notes may be in and that are not read.
func (r *reading) passedOver(t terminal, kind string, is func(name string) bool) {
	files := slices.DeleteFunc(slices.Clone(r.list.Others), func(name string) bool { return !is(name) })
	if n := len(files); n > 0 {
		said := r.named(files[0]) + " is a " + kind + " and is"
		if n > 1 {
			said = fmt.Sprintf("%s and %d more are %ss and are", r.named(files[0]), n-1, kind)
		}
		t.complain(errors.New(said + " not read: notes are read as plain text (.txt, .md)"))
	}
}

// speaksOf reports whether a notebook has the name of a file, as one does that has a curve read.
func (r *reading) speaksOf(file string) bool {
	return slices.ContainsFunc(r.names, func(name string) bool {
		text, err := r.notebook(name)
		return err == nil && bytes.Contains(text, []byte(file))
	})
}

// where is the season's folder as whoever ran the program names it, with slashes; "" for
// the folder that he stands in.
func (r *reading) where() string {
	if r.stdin != nil {
		return ""
	}
	folder := r.folder.Path
	if r.folder.Together() { // which makes it absolute
		if here, err := filepath.Abs("."); err == nil {
			if rel, err := filepath.Rel(here, folder); err == nil && filepath.IsLocal(rel) {
				folder = rel
			}
		}
	}
	if folder = filepath.Clean(folder); folder == "." {
		return ""
	}
	return filepath.ToSlash(folder)
}

// named is a file of the season, as whoever ran the program can open it. What was read
// from a stream, or typed as terms, is no file.
func (r *reading) named(name string) string {
	if r.stdin != nil && slices.Contains(r.names, name) || name == compile.TypedTerms {
		return name
	}
	return path.Join(r.where(), name)
}

// openable is an error about a file of the season, in which it is named so.
func (r *reading) openable(err error) error { return renamed(err, r.named) }

// renamed is an error about a file that has a fuller name where it is said.
func renamed(err error, name func(string) string) error {
	var bad *disk.Error
	if !errors.As(err, &bad) {
		return err
	}
	return &disk.Error{Name: name(bad.Name), Kind: bad.Kind, Err: bad.Err}
}

// findings writes findings for a person, in files as he can open them.
func (r *reading) findings(t terminal, out io.Writer, list diag.List, most int) error {
	return diag.Writer{Out: out, Named: r.named, Colour: t.colour, Most: most}.Write(list)
}

// relative is the URL path that leads from the record to the season's folder.
func relative(from, to string) (string, error) {
	from, err := filepath.Abs(from)
	if err != nil {
		return "", err
	}
	if to, err = filepath.Abs(to); err != nil {
		return "", err
	}
	rel, err := filepath.Rel(from, to)
	if err != nil {
		return "", fmt.Errorf("%s: the record must lie on the same drive as the scans it links to", from)
	}
	return filepath.ToSlash(rel) + "/", nil
}
