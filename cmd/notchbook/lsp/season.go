package lsp

import (
	"encoding/json"
	"net/url"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"

	"notchbook/compile"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Folder is a season's folder on the disk, as the server may ask for it.
type Folder interface {
	Notebooks() []string // relative to the folder, with slashes
	World() compile.World
	Close()
}

// season is a folder of notebooks of which at least one is open. What is open
// counts as it stands in the editor, saved or not.
type season struct {
	dir    string // absolute; "" for a document that lies in no folder
	folder Folder // nil where there is none
	open   map[string]*opened

	edition int              // counts the changes
	busy    time.Time        // when the last one, or the check behind it, was done with
	checked *compile.Checked // of the edition `of`
	of      int
	texts   map[string]*text // of what was checked, by the notebook's name
	said    map[string]string
	timer   *time.Timer
}

// opened is a document in the editor.
type opened struct {
	uri     string
	version int
	*text
}

// seasonOf is the season of a document: the workspace's folder where notebooks
// lie in it, or where those beside the document use others up there, else the
// document's own.
func (s *server) seasonOf(uri string) (*season, string) {
	file, ok := filePath(uri)
	if !ok {
		return s.season("", uri), uri
	}
	dir := filepath.Dir(file)
	for _, root := range s.roots {
		if rel, err := filepath.Rel(root, file); err == nil && filepath.IsLocal(rel) && (s.holdsNotebooks(root) || s.usesAbove(filepath.Dir(file))) {
			dir = root
		}
	}
	name, err := filepath.Rel(dir, file)
	if err != nil {
		name = filepath.Base(file)
	}
	return s.season(dir, uri), filepath.ToSlash(name)
}

// holdsNotebooks asks a workspace's folder once whether a notebook lies in it
// itself.
func (s *server) holdsNotebooks(root string) bool {
	return s.asked(s.holds, root, func(f Folder) bool { return slices.ContainsFunc(f.Notebooks(), lieThere) })
}

// usesAbove asks a folder once whether a notebook that lies in it itself uses one
// outside of it.
func (s *server) usesAbove(dir string) bool {
	return s.asked(s.leads, dir, func(f Folder) bool {
		read := f.World().Read
		return slices.ContainsFunc(f.Notebooks(), func(name string) bool {
			text, err := read(name)
			return err == nil && lieThere(name) && upward.Match(text)
		})
	})
}

// upward is a line that uses a notebook outside of its folder.
var upward = regexp.MustCompile(`(?mi)^[\t >*-]*use[\t ]*:[\t ]*\.\./`)

// lieThere reports whether a notebook lies in its season's folder itself.
func lieThere(name string) bool { return !strings.Contains(name, "/") }

// asked is what a folder answers, asked once.
func (s *server) asked(answers map[string]bool, dir string, question func(Folder) bool) bool {
	answer, asked := answers[dir]
	if asked {
		return answer
	}
	if f, err := s.options.Open(dir); err == nil {
		answer = question(f)
		f.Close()
	}
	answers[dir] = answer
	return answer
}

// season opens the season at a folder, or finds it open.
func (s *server) season(dir, uri string) *season {
	key := dir
	if dir == "" {
		key = uri
	}
	if sn := s.seasons[key]; sn != nil {
		return sn
	}
	sn := &season{dir: dir, open: map[string]*opened{}, said: map[string]string{}, of: -1}
	if dir != "" {
		sn.folder, _ = s.options.Open(dir) // a folder that cannot be read has open documents only
	}
	s.seasons[key] = sn
	return sn
}

// world is the disk with what is open laid over it.
func (sn *season) world() compile.World {
	var w compile.World
	if sn.folder != nil {
		w = sn.folder.World()
	}
	onDisk := w.Read
	w.Read = func(name string) ([]byte, error) {
		if d := sn.open[name]; d != nil {
			return []byte(d.src), nil
		}
		if onDisk == nil {
			return nil, &notOpen{name}
		}
		return onDisk(name)
	}
	return w
}

type notOpen struct{ name string }

func (e *notOpen) Error() string { return e.name + " is not open, and there is no folder to look in" }

// names are the notebooks of the folder and those open that lie in it unsaved.
func (sn *season) names() []string {
	var all []string
	if sn.folder != nil {
		all = slices.Clone(sn.folder.Notebooks())
	}
	for name := range sn.open {
		if !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// check brings the season's findings up to its last change.
func (sn *season) check() *compile.Checked {
	if sn.of == sn.edition {
		return sn.checked
	}
	sn.checked, sn.of = sn.checked.Again(sn.world(), sn.names()...), sn.edition
	sn.texts = map[string]*text{}
	return sn.checked
}

// changed notes a change. What comes behind a pause, as a key does, is checked at
// once: a check costs less than the pause between two keys. What comes in one go is
// checked when it has all come.
func (s *server) changed(sn *season) {
	sn.edition++
	edition, wait := sn.edition, s.options.Pause
	if time.Since(sn.busy) > wait {
		wait = 0
	}
	sn.busy = time.Now()
	if sn.timer != nil {
		sn.timer.Stop()
	}
	sn.timer = time.AfterFunc(wait, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		if sn.edition == edition && len(sn.open) > 0 { // else a later change has its own timer
			s.publish(sn)
			sn.busy = time.Now()
		}
	})
}

// publish tells the editor what there is to say of each notebook, where that
// has changed.
func (s *server) publish(sn *season) {
	by := map[string][]diagnostic{}
	for name := range sn.open {
		by[name] = []diagnostic{}
	}
	for _, d := range sn.check().Findings() {
		if d.Span.File != nil {
			by[d.Span.File.Name] = append(by[d.Span.File.Name], s.diagnostic(sn, d))
		}
	}
	for name := range sn.said {
		if by[name] == nil {
			by[name] = []diagnostic{}
		}
	}
	for name, list := range by {
		p := publishParams{URI: sn.uri(name), Diagnostics: list}
		if d := sn.open[name]; d != nil {
			p.Version = &d.version
		}
		said, _ := json.Marshal(p)
		if sn.said[name] == string(said) {
			continue
		}
		sn.said[name] = string(said)
		s.notify("textDocument/publishDiagnostics", json.RawMessage(said))
	}
}

func (s *server) diagnostic(sn *season, d diag.Diagnostic) diagnostic {
	out := diagnostic{
		Range: s.place(sn, d.Span), Severity: int(d.Severity) + 1, Code: d.Code, Source: "notchbook", Message: d.Message,
	}
	for _, n := range d.Notes {
		out.Message += "\n" + n.Text
		if n.Span.File != nil {
			out.Related = append(out.Related, related{s.location(sn, n.Span), n.Text})
		}
	}
	return out
}

// textOf is the lines of a notebook as it was checked.
func (s *server) textOf(sn *season, file *source.File) *text {
	if d := sn.open[file.Name]; d != nil && len(d.src) == len(file.Text) {
		return d.text
	}
	t := sn.texts[file.Name]
	if t == nil {
		t = newText(string(file.Text), s.bytes)
		sn.texts[file.Name] = t
	}
	return t
}

func (s *server) place(sn *season, at source.Span) span {
	return s.textOf(sn, at.File).span(at.Start, at.End)
}

func (s *server) location(sn *season, at source.Span) location {
	return location{sn.uri(at.File.Name), s.place(sn, at)}
}

// uri is what the editor calls a notebook of the season.
func (sn *season) uri(name string) string {
	if d := sn.open[name]; d != nil {
		return d.uri
	}
	return fileURI(filepath.Join(sn.dir, filepath.FromSlash(name)))
}

// filePath is the path of a file: URI.
func filePath(uri string) (string, bool) {
	u, err := url.Parse(uri)
	if err != nil || u.Scheme != "file" || u.Host != "" && u.Host != "localhost" {
		return "", false
	}
	p := u.Path
	if runtime.GOOS == "windows" {
		p = strings.TrimPrefix(p, "/")
	}
	return filepath.Clean(filepath.FromSlash(p)), true
}

func fileURI(file string) string {
	p := filepath.ToSlash(file)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p
	}
	return (&url.URL{Scheme: "file", Path: path.Clean(p)}).String()
}
