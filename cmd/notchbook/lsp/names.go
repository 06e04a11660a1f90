package lsp

import (
	"cmp"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/creachadair/jrpc2"

	"notchbook/compile"
	"notchbook/compile/record"
	"notchbook/lang"
)

// What a name means, where else it stands, and how it is changed everywhere.

// naming is the name at a place of the document, the narrowest where several
// cover it.
func (v view) naming(at int) (found compile.Naming, ok bool) {
	for _, n := range v.check().Names() {
		if n.Span.File.Name != v.name || at < n.Span.Start || at > n.Span.End {
			continue
		}
		if !ok || n.Span.End-n.Span.Start < found.Span.End-found.Span.Start {
			found, ok = n, true
		}
	}
	return found, ok
}

// definition leads from a name to the line that declares it, from `use:` to the
// notebook and from a scan line to the file.
func (s *server) definition(v view, p positionParams) (any, error) {
	at := v.doc.offset(p.Position)
	if n, ok := v.naming(at); ok {
		for _, other := range v.check().Names() {
			if other.Of == n.Of && other.Declares {
				return s.location(v.season, other.Span), nil
			}
		}
		return nil, nil
	}
	for _, l := range s.paths(v) {
		if start, end := v.doc.offset(l.Range.Start), v.doc.offset(l.Range.End); at >= start && at <= end {
			return location{URI: l.Target}, nil
		}
	}
	return nil, nil
}

// links are the files that the notebook names.
func (s *server) links(v view, _ documentParams) ([]documentLink, error) { return s.paths(v), nil }

// paths are the stretches that name a file: of `use:` lines, and of scan lines
// whose file is there.
func (s *server) paths(v view) []documentLink {
	links := []documentLink{}
	tree := v.check().Notebook(v.name)
	if tree == nil || v.dir == "" {
		return links
	}
	there := map[string]bool{}
	for _, scan := range v.check().Record().Scans {
		there[scan.Path] = scan.State == record.Present
	}
	for _, st := range tree.Statements {
		at := st.TextSpan()
		file := path.Join(path.Dir(v.name), filepath.ToSlash(at.Text()))
		switch {
		case st.Word == lang.Use && st.Text != "", st.Word == lang.Scan && there[file]:
			links = append(links, documentLink{s.place(v.season, at), v.season.uri(file)})
		}
	}
	return links
}

// references is every place of a name: of a sheet its lines, amendments and
// development among them, and the files that are its scans.
func (s *server) references(v view, p referenceParams) ([]location, error) {
	all := []location{}
	n, ok := v.naming(v.doc.offset(p.Position))
	if !ok {
		return all, nil
	}
	for _, other := range v.check().Names() {
		if other.Of == n.Of && (p.Context.IncludeDeclaration || !other.Declares) {
			all = append(all, s.location(v.season, other.Span))
		}
	}
	for _, scan := range v.check().Scans(n) {
		all = append(all, location{URI: v.season.uri(scan)})
	}
	return all, nil
}

func refuse(format string, args ...any) error {
	return jrpc2.Errorf(-32803, format, args...) // RequestFailed
}

// prepareRename says whether the name at a place can be changed.
func (s *server) prepareRename(v view, p positionParams) (any, error) {
	n, ok := v.naming(v.doc.offset(p.Position))
	if !ok {
		return nil, nil
	}
	if err := v.renamable(n); err != nil {
		return nil, err
	}
	return map[string]any{"range": s.place(v.season, n.Span), "placeholder": n.Span.Text()}, nil
}

func (v view) renamable(n compile.Naming) error {
	if n.Range != nil {
		return refuse("%s stands for several sheets: rename one where it is logged", n.Span.Text())
	}
	if !n.Exact {
		return refuse("%q is another way to write the name: rename it where it is declared", n.Span.Text())
	}
	return nil
}

// rename changes a name wherever it is written as it is called. It is refused
// where any sheet would come out otherwise than before.
func (s *server) rename(v view, p renameParams) (any, error) {
	n, ok := v.naming(v.doc.offset(p.Position))
	if !ok {
		return nil, refuse("there is no name here")
	}
	if err := v.renamable(n); err != nil {
		return nil, err
	}
	name := strings.TrimSpace(p.NewName)
	if name == "" || strings.ContainsAny(name, "\n\r:,") {
		return nil, refuse("%q cannot be a name", p.NewName)
	}
	edits := map[string][]compile.Naming{}
	for _, other := range v.check().Names() {
		if other.Of == n.Of && (other.Exact || other.Range != nil) {
			edits[other.Span.File.Name] = append(edits[other.Span.File.Name], other)
		}
	}
	if err := v.changesOnlyNames(n, name, edits); err != nil {
		return nil, err
	}
	out := workspaceEdit{Changes: map[string][]textEdit{}}
	for file, places := range edits {
		uri := v.season.uri(file)
		for _, o := range places {
			out.Changes[uri] = append(out.Changes[uri], textEdit{s.place(v.season, o.Span), o.Renamed(name)})
		}
	}
	return out, nil
}

// changesOnlyNames compiles the notes with the new name and compares: every
// sheet must stand as it did, with the same things.
func (v view) changesOnlyNames(n compile.Naming, name string, edits map[string][]compile.Naming) error {
	before := v.check()
	world := v.world()
	read := world.Read
	world.Read = func(file string) ([]byte, error) {
		if places, ok := edits[file]; ok {
			return renamed(places, name), nil
		}
		return read(file)
	}
	after := compile.Check(world, v.names()...)
	old, now := before.Record().Sheets, after.Record().Sheets
	if len(old) != len(now) || count(before, n.Kind) != count(after, n.Kind) {
		return refuse("with the name %q the notes would mean something else", name)
	}
	for i := range old {
		if a, b := scanOf(old[i]), scanOf(now[i]); a != b {
			return refuse("with the name %q the scan of %s would be %s: first write where it is, scan %s: %s", name, old[i].Label, cmp.Or(b, "none"), old[i].Label, a)
		}
	}
	if len(before.Findings()) != len(after.Findings()) {
		return refuse("with the name %q there would be other findings", name)
	}
	for i := range old {
		if !sameBut(old[i], now[i]) {
			return refuse("with the name %q sheet %s would mean something else", name, old[i].Label)
		}
	}
	return nil
}

func scanOf(sh *record.Sheet) string {
	var all []string
	for _, scan := range sh.Scans {
		all = append(all, scan.Path)
	}
	return strings.Join(all, ", ")
}

// sameBut says whether two sheets are the same but for the name of something.
func sameBut(a, b *record.Sheet) bool {
	return a.State == b.State && a.Difference == b.Difference && (a.Film == "") == (b.Film == "") && (a.Lens == "") == (b.Lens == "") &&
		len(a.Filters) == len(b.Filters) && len(a.Developed) == len(b.Developed) && len(a.Lines) == len(b.Lines)
}

// count is how many things of a kind have a name in the notes: two that come to
// be called the same would be one.
func count(c *compile.Checked, kind compile.Kind) int {
	of := map[any]bool{}
	for _, n := range c.Names() {
		if n.Kind == kind {
			of[n.Of] = true
		}
	}
	return len(of)
}

// renamed is the text of a notebook with its places exchanged.
func renamed(places []compile.Naming, name string) []byte {
	places = slices.Clone(places)
	slices.SortFunc(places, func(a, b compile.Naming) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	text := slices.Clone(places[0].Span.File.Text)
	for _, p := range slices.Backward(places) {
		text = slices.Replace(text, p.Span.Start, p.Span.End, []byte(p.Renamed(name))...)
	}
	return text
}

// thing is the declaration of a name, for hover.
func (v view) thing(n compile.Naming) string {
	for _, other := range v.check().Names() {
		if other.Of != n.Of || !other.Declares {
			continue
		}
		for _, item := range v.check().Record().Kit {
			if item.Place.Path == other.Span.File.Name && strings.EqualFold(item.Name, other.Span.Text()) && item.Kind == string(n.Kind) {
				return itemText(item)
			}
		}
	}
	return ""
}

func itemText(item *record.Item) string {
	lines := []string{item.Kind + " " + item.Name}
	for _, f := range item.Facts {
		lines = append(lines, f.Name+": "+f.Value)
	}
	return strings.Join(append(lines, item.Place.String()), "\n")
}
