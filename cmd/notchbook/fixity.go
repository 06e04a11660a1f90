package main

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"notchbook/compile/record"
)

// fixity is what became of the bytes that earlier records knew, by the digests alone.
// All lists are in the order of the record, or of names.
type fixity struct {
	changed []alteration
	gone    []loss
	moved   []move            // from a name that a sheet asks for to the only file that no sheet names and that has the bytes
	renamed []move            // to a name that a sheet asks for: as it should be
	carried []move            // from one name that no sheet asks for to another
	former  map[string]string // the digests to keep until the bytes are back, by name
}

// alteration is a scan that has other bytes under its name than an earlier record knew.
type alteration struct {
	*record.Scan
	was  string   // the digest that it had
	had  string   // the name under which an earlier record knew its bytes, "" where none did
	same []string // files that have now the bytes that it had
}

func (c alteration) text() string {
	text := c.Path + " has other bytes than in an earlier record"
	if c.had != "" {
		text += ": it has the bytes that " + c.had + " had"
	}
	if len(c.same) > 0 {
		text += "; those that it had are in " + strings.Join(c.same, ", ")
	}
	return text
}

// loss is a file of an earlier record that is in the folder no more.
type loss struct {
	path, was string
	same      []string        // files that have the bytes that it had
	sheets    []*record.Sheet // that ask for it still
}

func (l loss) text() string {
	if len(l.sheets) > 0 {
		l.path += " of " + labels(l.sheets)
	}
	if len(l.same) > 0 {
		return l.path + " was in an earlier record; " + strings.Join(l.same, ", ") + map[bool]string{true: " has", false: " have"}[len(l.same) == 1] + " the same bytes"
	}
	return l.path + " was in an earlier record, and no file has its bytes"
}

// lost is the files that are gone with their bytes, and those that sheets ask for.
func (f fixity) lost() (lost []loss) {
	for _, g := range f.gone {
		if len(g.same) == 0 || len(g.sheets) > 0 {
			lost = append(lost, g)
		}
	}
	return lost
}

// bytesKnown is what the records and the folder know of the bytes under each name.
type bytesKnown struct {
	was    map[string]string       // what earlier records knew, by name
	now    map[string]*record.Scan // the season's scans, by name
	files  map[string][]string     // names of files, by the digest that they have
	names  map[string][]string     // names in earlier records, by the digest that they had
	last   map[string]string
	former map[string]string
	there  func(string) bool
}

func newFixity(season *record.Season, last, former map[string]string, there func(string) bool) fixity {
	k := bytesKnown{was: maps.Clone(last), now: map[string]*record.Scan{}, files: map[string][]string{}, names: map[string][]string{}, last: last, former: former, there: there}
	if k.was == nil {
		k.was = map[string]string{}
	}
	maps.Copy(k.was, former)
	for _, s := range season.Scans {
		k.now[s.Path] = s
		if s.SHA256 != "" {
			k.files[s.SHA256] = append(k.files[s.SHA256], s.Path)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(k.was)) {
		k.names[k.was[name]] = append(k.names[k.was[name]], name)
	}
	f := fixity{former: map[string]string{}}
	f.sort(&k, k.renames(), season)
	f.findMoved(&k, season)
	f.findGone(&k)
	return f
}

// digest is what a file has now, "" where there is none or it cannot be read.
func (k *bytesKnown) digest(name string) string {
	if s := k.now[name]; s != nil {
		return s.SHA256
	}
	return ""
}

// away tells a name under which there is surely no file any more.
func (k *bytesKnown) away(name string) bool {
	if s := k.now[name]; s != nil {
		return s.State == record.Missing
	}
	return k.there != nil && !leadsOut(name) && !k.there(name)
}

// follow is where the bytes of a name have gone: to the one file that has come to
// have them, if the name is the one that has them no more. Of several it cannot be
// told which is which.
func (k *bytesKnown) follow(name string) (to string, ok bool) {
	digest := k.was[name]
	for _, other := range k.names[digest] {
		if other != name && k.digest(other) != digest {
			return "", false
		}
	}
	for _, file := range k.files[digest] {
		if k.was[file] == digest {
			continue
		}
		if to != "" {
			return "", false
		}
		to = file
	}
	return to, to != ""
}

// renames gives, by its name now, the name that each renamed file had. A chain of
// renames begins at a name that is free now. A file that came to stand where another
// stood was renamed only if the other went on, and so forth up to a new name: else
// bytes were written over, and that is no rename. Files that took each other's places
// are no chain.
func (k *bytesKnown) renames() map[string]string {
	from := map[string]string{}
	for name := range k.was {
		if !k.away(name) {
			continue
		}
		for {
			to, ok := k.follow(name)
			if !ok {
				delete(from, name) // it has a former digest, and those bytes went nowhere
				break
			}
			from[to] = name
			if k.was[to] == "" {
				break
			}
			name = to
		}
	}
	return from
}

// sort puts the files that are there into lists, and keeps of those that cannot be
// read what they were.
func (f *fixity) sort(k *bytesKnown, from map[string]string, season *record.Season) {
	for _, s := range season.Scans {
		was := k.was[s.Path]
		old, renamed := from[s.Path]
		switch {
		case s.SHA256 == "":
			if was != "" {
				f.former[s.Path] = was
			}
		case renamed && len(s.Sheets) > 0:
			f.renamed = append(f.renamed, move{old, s.Path})
		case renamed && (k.now[old] == nil || k.now[old].State != record.Missing):
			f.carried = append(f.carried, move{old, s.Path})
		case renamed || was == "" || was == s.SHA256:
		default:
			c := alteration{Scan: s, was: was, same: k.files[was]}
			for _, name := range k.names[s.SHA256] {
				c.had = cmp.Or(c.had, name)
			}
			f.changed = append(f.changed, c)
			f.former[s.Path] = was
		}
	}
}

// findMoved looks for the bytes of what is missing under names that no sheet
// asks for. Of bytes that several are missing or have, it cannot be told which it is.
func (f *fixity) findMoved(k *bytesKnown, season *record.Season) {
	wanted := map[string]int{}
	for _, s := range season.Scans {
		if s.State == record.Missing {
			wanted[k.was[s.Path]]++
		}
	}
	for _, s := range season.Scans {
		if s.State != record.Missing {
			continue
		}
		for _, was := range []string{k.was[s.Path], k.last[s.Path]} { // the latter: it had changed before
			now := slices.DeleteFunc(slices.Clone(k.files[was]), func(name string) bool { return k.now[name].State != record.Orphan })
			if was != "" && wanted[was] <= 1 && len(now) == 1 {
				f.moved = append(f.moved, move{s.Path, now[0]})
				break
			}
		}
	}
}

// findGone looks for files of earlier records that are there no more. Of what was not
// looked at, nothing is said and nothing forgotten.
func (f *fixity) findGone(k *bytesKnown) {
	followed := map[string]bool{}
	for _, m := range slices.Concat(f.renamed, f.carried, f.moved) {
		followed[m.from] = true
	}
	for _, name := range slices.Sorted(maps.Keys(k.was)) {
		was := k.was[name]
		switch {
		case followed[name]:
		case k.now[name] != nil:
			if s := k.now[name]; s.State == record.Missing {
				f.gone = append(f.gone, loss{name, was, k.files[was], s.Sheets}) // sort has kept what it was
			}
		case !k.away(name):
			if k.former[name] != "" {
				f.former[name] = was
			}
		default:
			g := loss{name, was, k.files[was], nil}
			f.gone = append(f.gone, g)
			if len(g.same) == 0 {
				f.former[name] = was
			}
		}
	}
}
