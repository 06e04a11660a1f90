package lang

import (
	"maps"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Nine lines of ten in a season are sheets', and what one of them says hangs on no other. Begin and Ahead leave
// them for later: who asks for the terms of a line that is not read yet goes on with it, or with others while it is
// being read, and has the other cores read those behind it meanwhile. So the walk through a notebook, which must be done
// line by line, has not to wait until all of it is read.

// later is some sheets' lines that are read together.
type later struct {
	names *Lexicon // as it was when they were left
	lines []*logLine
	said  []diag.List

	crew  *crew
	state atomic.Uint32  // untouched, inHand, allRead
	ready sync.WaitGroup // until allRead
}

const (
	untouched = iota
	inHand
	allRead
)

func newLater(names *Lexicon, c *crew, most int) *later {
	p := &later{names: names, crew: c, lines: make([]*logLine, 0, most)}
	p.ready.Add(1)
	return p
}

// take is for who means to read the lines, and nobody else does.
func (p *later) take() bool { return p.state.CompareAndSwap(untouched, inHand) }

func (p *later) read(b *bench) {
	p.said = make([]diag.List, len(p.lines))
	for i, l := range p.lines {
		s := l.node.Statement
		s.terms = readTerms(l.file, l.at, &l.folded, l.head.body, l.head.how, p.names, b)
		p.said[i] = lint(s, p.names)
	}
	p.lines, p.names = nil, nil
	p.state.Store(allRead)
	p.ready.Done()
}

// must reads the lines, or waits for who is reading them and reads others meanwhile.
func (p *later) must() {
	p.crew.begin()
	b := p.crew.bench()
	defer p.crew.back(b)
	for p.state.Load() != allRead {
		other := p
		if !p.take() {
			other = p.crew.next()
		}
		if other == nil {
			p.ready.Wait()
			return
		}
		other.read(b)
	}
}

// Terms is what the line says, in the order typed, none over another.
func (s *Statement) Terms() []Term {
	if s.later != nil && s.later.state.Load() != allRead {
		s.later.must()
	}
	return s.terms
}

// With is the line with other terms.
func (s *Statement) With(terms []Term) *Statement {
	other := *s
	other.terms, other.later = terms, nil
	return &other
}

// Begin reads a notebook as Parse does, and leaves the sheets' lines of a long one for later, as Ahead does. What is
// wrong with these is not in the list: Late has it.
func Begin(file *source.File, names *Lexicon) (*Notebook, diag.List) {
	return parse(file, names, true)
}

// Late is what is wrong with the lines that were left for later, which are read by then.
func (b *Notebook) Late() (list diag.List) {
	for _, p := range b.later {
		p.must()
		list = append(list, slices.Concat(p.said...)...)
		p.said = nil
	}
	b.later = nil
	return list
}

// leave says which lines are left for later: the sheets' of a notebook that has many, or that is one of many.
func (r *reading) leave() {
	const piece, few = 64, 1024 // lines
	if r.names.Memory != nil || len(r.found) < few && !r.names.listens {
		return
	}
	names := r.names.lend()
	for _, l := range r.found {
		if l.head.how.word != Sheet {
			continue
		}
		if n := len(r.left); n == 0 || len(r.left[n-1].lines) == piece {
			r.left = append(r.left, newLater(names, names.crew, piece))
		}
		l.piece = r.left[len(r.left)-1]
		l.piece.lines = append(l.piece.lines, l)
	}
}

// crew is who reads the lines of many notebooks, and what they have left for later.
type crew struct {
	mu      sync.Mutex
	pieces  []*later
	at      int // the first of the pieces that may be free
	working int
	benches []*bench // at which nobody works
}

// bench is one for who reads; back returns it, with the terms that it knows by then.
func (c *crew) bench() *bench {
	c.mu.Lock()
	defer c.mu.Unlock()
	n := len(c.benches)
	if n == 0 {
		return newBench()
	}
	b := c.benches[n-1]
	c.benches = c.benches[:n-1]
	return b
}

func (c *crew) back(b *bench) {
	c.mu.Lock()
	c.benches = append(c.benches, b)
	c.mu.Unlock()
}

// add leaves pieces to the crew.
func (c *crew) add(pieces []*later) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.pieces = append(c.pieces, pieces...)
}

// begin has what was left read by the cores that have nothing else to do: once somebody asks for the first of it, he
// goes through the notes by himself. Before, all cores may be at other notebooks.
func (c *crew) begin() {
	c.mu.Lock()
	defer c.mu.Unlock()
	for ; c.working < runtime.GOMAXPROCS(0)-1 && c.at < len(c.pieces); c.working++ {
		go c.work()
	}
}

// next is a piece for who asks, nil where none is free.
func (c *crew) next() *later {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.free()
}

func (c *crew) free() *later {
	for ; c.at < len(c.pieces); c.at++ {
		if p := c.pieces[c.at]; p.take() {
			c.at++
			return p
		}
	}
	return nil
}

func (c *crew) work() {
	b := c.bench()
	defer c.back(b)
	for {
		c.mu.Lock()
		p := c.free()
		if p == nil {
			c.working--
		}
		c.mu.Unlock()
		if p == nil {
			return
		}
		p.read(b)
	}
}

// done waits until all is read.
func (c *crew) done() {
	b := c.bench()
	defer c.back(b)
	for p := c.next(); p != nil; p = c.next() {
		p.read(b)
	}
	c.mu.Lock()
	pieces := c.pieces
	c.pieces, c.at = nil, 0
	c.mu.Unlock()
	for _, p := range pieces {
		p.ready.Wait()
	}
}

// lend is the lexicon for lines that are read later: it stays as it is now, whatever x is taught.
func (x *Lexicon) lend() *Lexicon {
	x.lent = true
	return &Lexicon{Names: x.Names, Labels: x.Labels, Words: x.Words, Calls: x.Calls, series: x.series, crew: x.crew}
}

// ownAgain gives a lexicon that was lent and is about to be taught more entries of its own. A large one waits until
// what it was lent for is done: else a season of many notebooks that each teach something would copy it for each.
func (x *Lexicon) ownAgain() {
	const large = 1024 // lessons
	if len(x.taught) > large {
		x.crew.done()
	} else {
		x.Names, x.Labels, x.Words, x.Calls, x.series = maps.Clone(x.Names), maps.Clone(x.Labels), maps.Clone(x.Words), maps.Clone(x.Calls), maps.Clone(x.series)
	}
	x.lent = false
}
