package compile

import (
	"fmt"
	"maps"
	"path"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Tidied is a notebook as it is and as it would be written.
type Tidied struct {
	Name     string
	Old, New string
}

// Tidy spells the log lines of the notebooks of the given names in one way.
// Notebooks that they use are read, since what they declare decides what a line
// means, and left alone. The list says which could not be read. What a line comes to hangs on
// its words too, and not on its terms alone: a line that, spelled anew, changes a sheet or what is
// said of one is left as it was typed. So is a line whose own words are asked about: it may mean
// something else than what it was read as, and then its spelling is of that.
func Tidy(world World, names ...string) ([]Tidied, diag.List) {
	was, leave := outcomes(world, names)
	out, list := spelledAnew(world, leave, names)
	for range mostTries {
		now, _ := outcomes(world.with(out), names)
		if maps.Equal(was, now) {
			return out, list
		}
		left := false
		for i := range out {
			left = out[i].leaveChanged(was, now, leave) || left
		}
		for i := range out {
			if !left && out[i].New != out[i].Old { // it is none of the lines that were spelled anew themselves
				leave[out[i].Name] = nil
			}
		}
		out, _ = spelledAnew(world, leave, names)
	}
	for i := range out {
		out[i].New = out[i].Old
	}
	return out, list
}

// mostTries bounds how often lines are taken back.
const mostTries = 4

// with is the world in which notebooks read as they would be written.
func (w World) with(out []Tidied) World {
	files := make(map[string]string, len(out))
	for _, one := range out {
		files[one.Name] = one.New
	}
	read := w.Read
	w.Read = func(name string) ([]byte, error) {
		if text, ok := files[path.Clean(name)]; ok {
			return []byte(text), nil
		}
		return read(name)
	}
	return w
}

// line is one of a notebook, counted from 1.
type line struct {
	notebook string
	n        int
}

// outcomes is what the lines of notebooks come to: of each that logs a sheet what the record has of
// it, of each that something is said of what that is; and the lines, counted from 0, of which it is not sure
// what they say.
func outcomes(world World, names []string) (of map[line]string, unsure map[string]map[int]bool) {
	world.Look, world.Scans = nil, nil // of scans tidying changes nothing
	season, _ := Compile(world, names...)
	of, unsure = map[line]string{}, map[string]map[int]bool{}
	for _, name := range names {
		unsure[path.Clean(name)] = map[int]bool{}
	}
	for _, s := range season.Sheets {
		ev := record.Figure{}
		if s.Reading != nil {
			ev = s.Reading.EV
		}
		for _, l := range s.Lines {
			of[line{l.Place.Path, l.Place.Line}] += fmt.Sprintln(s.ID, s.Title, s.State, ev, s.Asked.EV, s.Given.EV, s.Difference, s.Film, s.Lens, s.EI, s.Filters, s.Extension,
				s.Development, s.Sleeve, len(s.Movements), len(s.Remarks), len(s.History), len(s.Doubts), len(s.Needs), len(s.Twins))
		}
	}
	for _, f := range season.Findings {
		of[line{f.Place.Path, f.Place.Line}] += fmt.Sprintln(f.Code, f.Severity, f.Causes)
		if lines := unsure[f.Place.Path]; lines != nil && asksOfWords(f) {
			lines[f.Place.Line-1] = true
		}
	}
	return of, unsure
}

// asksOfWords reports whether a finding quotes words of the line that it stands at, or faults how it is read.
func asksOfWords(f *record.Finding) bool {
	if f.Severity == record.Error && f.Code != "exposure-off" {
		return true
	}
	typed := strings.ToLower(f.Excerpt)
	for _, note := range f.Notes {
		for i, part := range strings.Split(note, `"`) {
			if i%2 == 1 && strings.Contains(typed, strings.ToLower(part)) {
				return true
			}
		}
	}
	return false
}

// leaveChanged leaves the lines that were spelled anew and come to something else as they were typed.
func (one *Tidied) leaveChanged(was, now map[line]string, leave map[string]map[int]bool) (left bool) {
	typed, spelled := strings.SplitAfter(one.Old, "\n"), strings.SplitAfter(one.New, "\n")
	for n := range min(len(typed), len(spelled)) {
		if at := (line{one.Name, n + 1}); typed[n] == spelled[n] || was[at] == now[at] {
			continue
		}
		leave[one.Name][n], left = true, true
	}
	return left
}

// spelledAnew tidies the notebooks but for the lines that are left; of a notebook that is left as a
// whole there are none.
func spelledAnew(world World, leave map[string]map[int]bool, names []string) ([]Tidied, diag.List) {
	t := &tidying{world: world, names: lang.NewLexicon(), done: map[string]bool{}, leave: leave}
	wanted := map[string]bool{}
	for _, name := range names {
		wanted[path.Clean(name)] = true
	}
	for _, name := range names {
		t.book(path.Clean(name), wanted)
	}
	return t.out, t.list
}

type tidying struct {
	world World
	names *lang.Lexicon
	done  map[string]bool
	leave map[string]map[int]bool // lines that stay as typed; nil: all of the notebook
	out   []Tidied
	list  diag.List
}

// book tidies a notebook behind those that it uses.
func (t *tidying) book(name string, wanted map[string]bool) {
	if t.done[name] {
		return
	}
	t.done[name] = true
	text, err := t.world.Read(name)
	if err != nil {
		t.list = append(t.list, diag.Diagnostic{Code: "notebook-unreadable", Span: source.Span{File: source.New(name, nil)}, Message: err.Error()})
		return
	}
	ahead := t.known()
	ahead.Follow = func(use source.Span) { t.book(bookOf(use), wanted) }
	lang.Parse(source.New(name, text), ahead)
	before := t.known()
	tree, _ := lang.Parse(source.New(name, text), t.names)
	if !wanted[name] {
		return
	}
	one := Tidied{Name: name, Old: string(text), New: string(text)}
	if lines, some := t.leave[name]; lines != nil || !some {
		one.New = lang.Tidy(tree, before, lines)
	}
	t.out = append(t.out, one)
}

func (t *tidying) known() *lang.Lexicon {
	names := lang.NewLexicon()
	names.Add(t.names)
	return names
}
