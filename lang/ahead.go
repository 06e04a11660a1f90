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
	Uses []source.Span // the paths of its `use:` lines, to be followed when it is its turn
}

// Ahead reads notebooks before it is their turn, side by side. What one declares and logs
// is known in those behind it, and so they are read one after the other; but most of a
// season say nothing that the lexicon has not heard, and those read now as they will then,
// as long as it is taught nothing more. A notebook that would teach it something, or that
// uses one which was not heard yet, has to wait. The lexicon is only read, and heard must
// bear to be asked by several at once. The sheets' lines are left for later: see Begin.
func Ahead(files []*source.File, names *Lexicon, heard func(use source.Span) bool) []Early {
	early := make([]Early, len(files))
	var (
		next atomic.Int64
		all  sync.WaitGroup
	)
	for range min(runtime.GOMAXPROCS(0), len(files)) {
		own := names.listener()
		all.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(files) {
					return
				}
				var uses []source.Span
				own.puzzled, own.Follow = false, func(use source.Span) {
					uses = append(uses, use)
					own.puzzled = own.puzzled || !heard(use)
				}
				if book, list := parse(files[i], own, true); !own.puzzled {
					early[i] = Early{book, list, uses}
				}
			}
		})
	}
	all.Wait()
	return early
}

// listener is the lexicon for one who reads by himself: it has the same entries and takes no
// more.
func (x *Lexicon) listener() *Lexicon {
	own := x.lend()
	own.taught, own.listens = x.taught, true
	return own
}

// Lessons is how much a lexicon was taught so far.
func (x *Lexicon) Lessons() int { return len(x.taught) }
