package disk

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Bounds of a walk. A season is a few folders deep and some ten thousand
// files; more is a home folder opened by mistake.
const (
	maxDepth   = 24
	maxEntries = 200_000
)

// Listing is what a season's folder holds, sorted by name.
type Listing struct {
	Notebooks []string // .md, .markdown, .txt
	Scans     []string // .jpg, .jpeg, .png, .tif, .tiff
	Others    []string // any other files: sidecars, raw files, tables
	Links     []string // links that stay within the folder, or lead to nothing; they are not followed
	Problems  []*Error // what could not be looked at; the rest is listed
}

var kindOfExt = map[string]func(*Listing) *[]string{
	".md": notebooks, ".markdown": notebooks, ".txt": notebooks,
	".jpg": scans, ".jpeg": scans, ".png": scans, ".tif": scans, ".tiff": scans,
}

func notebooks(l *Listing) *[]string { return &l.Notebooks }
func scans(l *Listing) *[]string     { return &l.Scans }

// IsNotebook tells by its ending whether a file may be a notebook.
func IsNotebook(name string) bool {
	var l Listing
	list := kindOfExt[strings.ToLower(path.Ext(name))]
	return list != nil && list(&l) == &l.Notebooks
}

// IsScan tells by its ending whether a file may be a scan.
func IsScan(name string) bool {
	return kindOfExt[strings.ToLower(path.Ext(name))] != nil && !IsNotebook(name)
}

// IsDocument tells by its ending whether a file may be notes in the form of a word processor,
// which is not read.
func IsDocument(name string) bool {
	switch strings.ToLower(path.Ext(name)) {
	case ".rtf", ".doc", ".docx", ".odt":
		return true
	}
	return false
}

// IsTable tells by its ending whether a file is a table, which may be notes in the form of a spreadsheet and
// is read where a notebook names it alone, as a curve's figures.
func IsTable(name string) bool {
	switch strings.ToLower(path.Ext(name)) {
	case ".csv", ".tsv", ".xls", ".xlsx", ".ods", ".numbers":
		return true
	}
	return false
}

// List walks the folder. Hidden files and folders are passed over, and folders
// that carry the Marker. Links are not followed: what they point to inside is
// found under its own name, and what lies outside is a problem to report.
func (s *Season) List() Listing {
	if s.parts != nil {
		return s.listParts()
	}
	return s.list(maxDepth, maxEntries)
}

func (s *Season) list(depth, entries int) Listing {
	var l Listing
	w := walk{season: s, listing: &l, depth: depth, entries: entries}
	if err := fs.WalkDir(s.root.FS(), ".", w.visit); err != nil {
		l.report(".", err)
	}
	slices.Sort(l.Notebooks)
	slices.Sort(l.Scans)
	slices.Sort(l.Others)
	slices.Sort(l.Links)
	slices.SortFunc(l.Problems, func(a, b *Error) int { return strings.Compare(a.Name, b.Name) })
	return l
}

type walk struct {
	season         *Season
	listing        *Listing
	depth, entries int
}

func (w *walk) visit(name string, d fs.DirEntry, err error) error {
	if w.entries--; w.entries < 0 {
		w.listing.Problems = append(w.listing.Problems, fail(path.Dir(name), TooMany))
		return fs.SkipAll
	}
	if err != nil {
		w.listing.report(name, err)
		return nil
	}
	if d.IsDir() {
		return w.enter(name)
	}
	if hidden(name) {
		return nil
	}
	if d.Type()&fs.ModeSymlink != 0 {
		w.checkLink(name)
		return nil
	}
	if !d.Type().IsRegular() {
		return nil
	}
	list := kindOfExt[strings.ToLower(path.Ext(name))]
	if list == nil {
		if fs.ValidPath(name) {
			w.listing.Others = append(w.listing.Others, name)
		}
		return nil
	}
	if !fs.ValidPath(name) { // not UTF-8: no notebook could name it
		w.listing.Problems = append(w.listing.Problems, fail(name, BadName))
		return nil
	}
	*list(w.listing) = append(*list(w.listing), name)
	return nil
}

func (w *walk) enter(name string) error {
	if name == "." {
		return nil
	}
	if hidden(name) || carriesMarker(w.season.root, name) {
		return fs.SkipDir
	}
	if strings.Count(name, "/") >= w.depth {
		w.listing.Problems = append(w.listing.Problems, fail(name, TooMany))
		return fs.SkipDir
	}
	return nil
}

// checkLink reports links that lead out and could have been meant for us: to
// a folder, a notebook or a scan. A link to nothing is reported when a
// notebook names it.
func (w *walk) checkLink(name string) {
	_, err := w.season.root.Stat(name)
	switch {
	case errors.Is(err, errEscapes):
		w.listing.report(name, err)
	case fs.ValidPath(name):
		w.listing.Links = append(w.listing.Links, name)
	}
}

func (l *Listing) report(name string, err error) {
	var e *Error
	if errors.As(fault(name, err), &e) {
		l.Problems = append(l.Problems, e)
	}
}

func hidden(name string) bool { return strings.HasPrefix(path.Base(name), ".") }
