package lang

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Nine lines of ten in a long notebook are sheets', and what one of them says hangs on no other. Begin leaves
// them for later: while whoever called it goes on with what it has, the other cores read them in their order, and
// who asks for the terms of a line that is not read yet reads it himself. So the walk through a notebook, which
// must be done line by line, has not to wait until all of it is read.

// later is some sheets' lines that are read together.
type later struct {
	names *Lexicon
	lines []*logLine
	said  []diag.List

	once sync.Once
	done atomic.Bool
}

// read reads the lines, or waits for who is reading them.
func (p *later) read(b *bench) {
	p.once.Do(func() {
		p.said = make([]diag.List, len(p.lines))
		for i, l := range p.lines {
			s := l.node.Statement
			s.terms = readTerms(l.file, l.at, &l.folded, l.head.body, l.head.how, p.names, b)
			p.said[i] = lint(s, p.names)
		}
		p.lines, p.names = nil, nil
		p.done.Store(true)
	})
}

// Terms is what the line says, in the order typed, none over another.
func (s *Statement) Terms() []Term {
	if s.later != nil && !s.later.done.Load() {
		b := idle.Get().(*bench)
		s.later.read(b)
		idle.Put(b)
	}
	return s.terms
}

// With is the line with other terms.
func (s *Statement) With(terms []Term) *Statement {
	other := *s
	other.terms, other.later = terms, nil
	return &other
}

// Begin reads a notebook as Parse does, and leaves the sheets' lines of a long one for later. What is wrong with
// these is not in the list: Late has it.
func Begin(file *source.File, names *Lexicon) (*Notebook, diag.List) {
	return parse(file, names, true)
}

// Late is what is wrong with the lines that were left for later, which are read by then.
func (b *Notebook) Late() (list diag.List) {
	for _, p := range b.later {
		p.read(newBench())
		list = append(list, slices.Concat(p.said...)...)
	}
	b.later = nil
	return list
}

// leave says which lines are left for later: the sheets' of a notebook that has many.
func (r *reading) leave() {
	const piece, few = 64, 1024 // lines
	if r.names.Memory != nil || r.names.listens || len(r.found) < few {
		return
	}
	for _, l := range r.found {
		if l.head.how.word != Sheet {
			continue
		}
		if n := len(r.left); n == 0 || len(r.left[n-1].lines) == piece {
			r.left = append(r.left, &later{names: r.names, lines: make([]*logLine, 0, piece)})
		}
		l.piece = r.left[len(r.left)-1]
		l.piece.lines = append(l.piece.lines, l)
	}
}

// readLater has the other cores read what was left. By then the lexicon is complete, and is only read until that is done.
func (r *reading) readLater(book *Notebook) {
	book.later, r.names.later = r.left, r.left
	if len(r.left) == 0 {
		return
	}
	pieces := r.left
	var next atomic.Int64
	for core := range runtime.GOMAXPROCS(0) - 1 {
		b := r.names.bench(core)
		go func() {
			for i := int(next.Add(1)) - 1; i < len(pieces); i = int(next.Add(1)) - 1 {
				pieces[i].read(b)
			}
		}()
	}
}

// settled waits for the lines that were left for later, since the lexicon may be taught more from now on.
func (x *Lexicon) settled() {
	for _, p := range x.later {
		p.read(newBench())
	}
	x.later = nil
}
