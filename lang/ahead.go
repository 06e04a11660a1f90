package lang

import (
	"runtime"
	"sync"
	"sync/atomic"

	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// Early is a notebook as it was read before its turn: nil where it has to wait.
type Early struct {
	*Notebook
	List diag.List
}

// Ahead reads notebooks before it is their turn, side by side. What one declares and logs
// is known in those behind it, and so they are read one after the other; but most of a
// season say nothing that the lexicon has not heard, and those read now as they will then,
// as long as it is taught nothing more. A notebook that would teach it something, or that
// uses another, has to wait. The lexicon is only read.
func Ahead(files []*source.File, names *Lexicon) []Early {
	early := make([]Early, len(files))
	var (
		next atomic.Int64
		all  sync.WaitGroup
	)
	for core := range min(runtime.GOMAXPROCS(0), len(files)) {
		own := names.listener(core)
		all.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(files) {
					return
				}
				own.puzzled = false
				if book, list := Parse(files[i], own); !own.puzzled {
					early[i] = Early{book, list}
				}
			}
		})
	}
	all.Wait()
	return early
}

// listener is the lexicon for the nth core, which reads by itself: it has the same entries
// and takes no more.
func (x *Lexicon) listener(core int) *Lexicon {
	own := &Lexicon{Names: x.Names, Labels: x.Labels, Words: x.Words, Calls: x.Calls, series: x.series, taught: x.taught, listens: true}
	own.benches = []*bench{x.bench(core)}
	own.Follow = func(source.Span) { own.puzzled = true }
	return own
}

// Lessons is how much a lexicon was taught so far.
func (x *Lexicon) Lessons() int { return len(x.taught) }
