package compile

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// piece is how many things one core takes at a time.
const piece = 64

// sideBySide shares n things out among all cores: each takes those of a piece, and
// then the next.
func sideBySide(n int, do func(from, to int)) {
	if n <= piece {
		do(0, n)
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
				if from >= n {
					return
				}
				do(from, min(from+piece, n))
			}
		})
	}
	all.Wait()
}

// eachSheet does a piece of work for every sheet on all cores. The work may write
// to its own sheet only; what all share is looked up before and only read.
func (s *season) eachSheet(do func(*sheet)) {
	sideBySide(len(s.sheets), func(from, to int) {
		for _, sh := range s.sheets[from:to] {
			do(sh)
		}
	})
}

// say has each of many things looked at on all cores by what only reads and reports.
// Every piece reports to a season of its own, and what was said then stands in the order
// of the things.
func say[T any](s *season, all []T, of func(*season, T)) {
	said := make([][]finding, 2+len(all)/piece)
	said[0] = s.found
	sideBySide(len(all), func(from, to int) {
		own := *s
		own.found = nil
		for _, one := range all[from:to] {
			of(&own, one)
		}
		said[1+from/piece] = own.found
	})
	s.found = slices.Concat(said...)
}

// lookUpFilters finds out what the name of every filter that was on means, so that it is
// only read while sheets are looked at side by side.
func (s *season) lookUpFilters() {
	for _, sh := range s.sheets {
		for _, u := range sh.filters {
			kitOf(sh).keep(u.name)
		}
	}
}
