package bag

import (
	"cmp"
	"errors"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/encoding"
)

// Options say how a bag is checked.
type Options struct {
	// Progress, where it is not nil, is told how much of the payload was read.
	Progress func(done, all int64)
}

// Verify checks a whole bag: its form, that it is complete, and every checksum,
// by RFC 8493, or for bags that declare an earlier version by what these allowed.
// It reads each file once, whatever the number of lists, and never leaves fsys.
// The error is a fault of fsys itself; all that is wrong with the bag is in the
// report.
func Verify(fsys fs.FS, o Options) (*Report, error) {
	c := &check{fsys: fsys, options: o, report: &Report{}, files: map[string]int64{}, folders: map[string]bool{}}
	if _, err := fs.ReadDir(fsys, "."); err != nil {
		return nil, err
	}
	c.walk()
	c.declaration()
	c.required()
	c.manifests()
	c.info()
	c.fetch()
	c.complete()
	c.checksums()
	c.names()
	slices.SortStableFunc(c.report.Problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line))
	})
	return c.report, nil
}

// rank puts what is wrong before what should not be so, and the payload last.
func rank(p Problem) int {
	severity := slices.Index([]Severity{Error, Warning, Note}, p.Severity)
	return severity*10 + slices.Index([]Kind{Form, Changed, Missing, Extra, Names}, p.Kind)
}

// check is a bag being checked.
type check struct {
	fsys     fs.FS
	options  Options
	report   *Report
	encoding encoding.Encoding // of the tag files; nil is UTF-8
	old      bool              // it declares a version before 1.0

	files   map[string]int64 // every regular file of the bag, with its size
	folders map[string]bool
	spelled map[string][]string // the files by what they look like
	folded  map[string]string   // one of those whose names differ in capitals at most
	lists   []*manifest
	wanted  map[string][]wanted // what the lists say of each file
	fetched map[string]bool
	altered []altered
}

// strict tells whether the rules of 1.0 hold.
func (c *check) strict() bool { return !c.old }

func (c *check) add(p Problem) { c.report.Problems = append(c.report.Problems, p) }

// form adds an error of form.
func (c *check) form(file string, line int, section, message string) {
	c.add(Problem{Form, Error, file, line, message, section})
}

// loose adds what is an error since 1.0 and was overlooked before.
func (c *check) loose(file string, line int, section, message string) {
	severity := Error
	if c.old {
		severity = Warning
	}
	c.add(Problem{Form, severity, file, line, message, section})
}

func (c *check) unreadable(name string, err error) {
	var fault *fs.PathError
	if errors.As(err, &fault) {
		err = fault.Err
	}
	c.add(Problem{Missing, Error, name, 0, "cannot be read: " + err.Error(), "3"})
}

// quoted shows a path within a sentence; what would break the line is escaped.
func quoted(name string) string {
	if q := strconv.Quote(name); q != `"`+name+`"` {
		return q
	}
	return name
}

// walk finds every file of the bag. Links are followed to files inside it and not
// to folders.
func (c *check) walk() {
	fs.WalkDir(c.fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			c.unreadable(name, err)
		case d.IsDir():
			c.folders[name] = true
		case !fs.ValidPath(name):
			c.add(Problem{Names, Error, name, 0, "has a name that is not UTF-8 and is not checked", "6.1"})
		default:
			c.found(name, d)
		}
		return nil
	})
	c.spelled, c.folded = map[string][]string{}, map[string]string{}
	for _, name := range slices.Sorted(maps.Keys(c.files)) {
		c.spelled[spelling(name)] = append(c.spelled[spelling(name)], name)
		c.folded[foldCase(spelling(name))] = name
	}
}

func (c *check) found(name string, d fs.DirEntry) {
	size, ok := regular(c.fsys, name)
	switch link := d.Type()&fs.ModeSymlink != 0; {
	case !ok && link:
		c.add(Problem{Form, Error, name, 0, "is a link that leads to no file of the bag", "5.1"})
		return
	case !ok:
		c.add(Problem{Form, Error, name, 0, "is neither a file nor a folder", "2"})
		return
	case link:
		c.add(Problem{Names, Warning, name, 0, "is a link; what it leads to was checked, and a copy may not hold it", "2"})
	}
	c.files[name] = size
	if strings.HasPrefix(name, payload) {
		c.report.Files++
		c.report.Bytes += size
	}
}

// required wants the payload's folder.
func (c *check) required() {
	if !c.folders["data"] {
		c.add(Problem{Missing, Error, "data", 0, "is missing: the folder of the payload", "2.1.2"})
	}
}
