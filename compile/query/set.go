package query

import (
	"math/bits"

	"notchbook/compile/record"
)

// set is a set of sheets, one bit a sheet.
type set struct {
	bits []uint64
	n    int
}

func newSet(n int) *set { return &set{make([]uint64, (n+63)/64), n} }

func (s *set) add(runs []record.Run) {
	for _, r := range runs {
		for i := r.First; i < r.First+r.Count; i++ {
			s.bits[i/64] |= 1 << (i % 64)
		}
	}
}

func (s *set) fill() { s.add([]record.Run{{First: 0, Count: s.n}}) }

func (s *set) and(o *set) {
	for i := range s.bits {
		s.bits[i] &= o.bits[i]
	}
}

func (s *set) or(o *set) {
	for i := range s.bits {
		s.bits[i] |= o.bits[i]
	}
}

// turn makes it the set of all others.
func (s *set) turn() {
	for i := range s.bits {
		s.bits[i] = ^s.bits[i]
	}
	if rest := s.n % 64; rest > 0 {
		s.bits[len(s.bits)-1] &= 1<<rest - 1
	}
}

func (s *set) members() []int {
	var all []int
	for i, word := range s.bits {
		for ; word != 0; word &= word - 1 {
			all = append(all, 64*i+bits.TrailingZeros64(word))
		}
	}
	return all
}
