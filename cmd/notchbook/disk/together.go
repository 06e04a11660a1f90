package disk

import (
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// Together opens folders that lie apart as one season, at the folder that holds
// them all. Only what lies in them is listed and read.
func Together(folders []string) (*Season, error) {
	var all []string
	for _, f := range folders {
		full, err := filepath.Abs(f)
		if err != nil {
			return nil, fault(f, err)
		}
		all = append(all, full)
	}
	common := all[0]
	for _, f := range all[1:] {
		for !holds(common, f) {
			up := filepath.Dir(common)
			if up == common {
				return nil, fail(f, Apart)
			}
			common = up
		}
	}
	s, err := Open(common)
	if err != nil {
		return nil, err
	}
	for _, f := range all {
		rel, err := filepath.Rel(common, f)
		if err != nil {
			return nil, fault(f, err)
		}
		one, err := Open(f)
		if err != nil {
			s.Close()
			return nil, err
		}
		s.parts = append(s.parts, part{filepath.ToSlash(rel), one})
	}
	return s, nil
}

// part is one of several folders that are a season together. Each is held by a
// root of its own, so that no link leads from one into what lies between them.
type part struct {
	name   string // within the season
	folder *Season
}

// holds reports whether a folder is another's, or one above it.
func holds(folder, other string) bool {
	rel, err := filepath.Rel(folder, other)
	return err == nil && filepath.IsLocal(rel)
}

// Within is the name of a file in a folder that was opened together with others,
// as the season names it.
func (s *Season) Within(folder, name string) (string, error) {
	full, err := filepath.Abs(filepath.Join(folder, filepath.FromSlash(name)))
	if err != nil {
		return "", fault(name, err)
	}
	base, err := filepath.Abs(s.Path)
	if err != nil {
		return "", fault(name, err)
	}
	rel, err := filepath.Rel(base, full)
	return filepath.ToSlash(rel), err
}

// Together reports whether the season is several folders.
func (s *Season) Together() bool { return s.parts != nil }

// at is the folder in which a name lies, and its name there.
func (s *Season) at(name string) (*Season, string, error) {
	if s.parts == nil {
		return s, name, nil
	}
	name = path.Clean(name)
	for _, p := range s.parts {
		if p.name == "." {
			return p.folder, name, nil
		}
		if rest, ok := strings.CutPrefix(name, p.name+"/"); ok {
			return p.folder, rest, nil
		}
	}
	return nil, "", fail(name, Outside)
}

// listParts lists each folder as it is by itself.
func (s *Season) listParts() Listing {
	var all Listing
	for _, p := range s.parts {
		l := p.folder.List()
		addTo(&all.Notebooks, p.name, l.Notebooks)
		addTo(&all.Scans, p.name, l.Scans)
		addTo(&all.Others, p.name, l.Others)
		addTo(&all.Links, p.name, l.Links)
		for _, fault := range l.Problems {
			all.Problems = append(all.Problems, &Error{Name: path.Join(p.name, fault.Name), Kind: fault.Kind, Err: fault.Err})
		}
	}
	return all
}

// addTo adds the names of a folder; one that was named twice, or with the folder
// it lies in, is listed once.
func addTo(list *[]string, folder string, names []string) {
	for _, name := range names {
		if name = path.Join(folder, name); !slices.Contains(*list, name) {
			*list = append(*list, name)
		}
	}
}
