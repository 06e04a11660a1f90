package compile

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// eachSheet does a piece of work for every sheet on all cores. The work may write
// to its own sheet only; what all share is looked up before and only read.
func (s *season) eachSheet(do func(*sheet)) {
	const piece = 64 // sheets that one core takes at a time
	if len(s.sheets) <= piece {
		for _, sh := range s.sheets {
			do(sh)
		}
		return
	}
	var (
		next atomic.Int64
		all  sync.WaitGroup
	)
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for {
				from := int(next.Add(piece)) - piece
				if from >= len(s.sheets) {
					return
				}
				for _, sh := range s.sheets[from:min(from+piece, len(s.sheets))] {
					do(sh)
				}
			}
		})
	}
	all.Wait()
}

// lookUpFilters finds out what every filter's name means, so that nothing is
// looked up while sheets are assessed side by side.
func (s *season) lookUpFilters() {
	for _, sh := range s.sheets {
		for _, u := range sh.filters {
			kitOf(sh).filter(u.name)
		}
	}
}
