package compile

import (
	"path"

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
// means, and left alone. The list says which could not be read.
func Tidy(world World, names ...string) ([]Tidied, diag.List) {
	t := &tidying{world: world, names: lang.NewLexicon(), done: map[string]bool{}}
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
	if wanted[name] {
		t.out = append(t.out, Tidied{Name: name, Old: string(text), New: lang.Tidy(tree, before)})
	}
}

func (t *tidying) known() *lang.Lexicon {
	names := lang.NewLexicon()
	names.Add(t.names)
	return names
}
