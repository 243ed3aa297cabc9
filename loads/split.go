package loads

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
)

// A splitter chooses signs for items so that the heavier leg is as light as can be. With T the total, D = fixed + Σ±item
// is half the difference of the legs, which are T/2 ± D, and the heavier one squared is |T|²/4 + |D|² + |T·D|: so it
// minimises g(D) = |D|² + |T·D|, T·D being the dot product.
type splitter struct {
	total, fixed complex128
	items        []complex128
	order        []int
	along, aside []float64 // sums of what the items from here on can still move D, along T and across it
	along0       complex128
	best         complex128
	bestScore    float64
	signs        []bool
	bestSigns    []bool
	nodes        int
	stopped      bool
}

// splitNodes bounds the search. Twenty circuits are always searched to the end; sixty usually meet the bound |T|/2 to
// within enough first.
const (
	splitNodes = 1 << 21
	enoughVA   = 1e-6 // share of the total: 10 mVA in 10 kVA
)

func (s *splitter) score(d complex128) float64 {
	return real(d)*real(d) + imag(d)*imag(d) + math.Abs(real(s.total)*real(d)+imag(s.total)*imag(d))
}

// heavier turns a score into the heavier leg's VA.
func (s *splitter) heavier(score float64) float64 {
	t := cmplx.Abs(s.total)
	return math.Sqrt(t*t/4 + score)
}

func (s *splitter) proven() bool { return !s.stopped }

// gap bounds how far the answer may be above the best: no split can be below |T|/2.
func (s *splitter) gap() float64 {
	if s.proven() {
		return 0
	}
	return s.heavier(s.bestScore) - cmplx.Abs(s.total)/2
}

// solve returns true for items on leg A. Where nothing is fixed, A is made the heavier leg.
func (s *splitter) solve() []bool {
	n := len(s.items)
	s.order = make([]int, n)
	for i := range s.order {
		s.order[i] = i
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		return cmp.Compare(cmplx.Abs(s.items[b]), cmplx.Abs(s.items[a]))
	})
	s.along0 = 1
	if s.total != 0 {
		s.along0 = s.total / complex(cmplx.Abs(s.total), 0)
	}
	s.along, s.aside = make([]float64, n+1), make([]float64, n+1)
	for k := n - 1; k >= 0; k-- {
		turned := s.items[s.order[k]] * cmplx.Conj(s.along0)
		s.along[k] = s.along[k+1] + math.Abs(real(turned))
		s.aside[k] = s.aside[k+1] + math.Abs(imag(turned))
	}
	s.signs, s.bestSigns = make([]bool, n), make([]bool, n)
	s.bestScore = math.Inf(1)
	s.search(0, s.fixed)
	if s.fixed == 0 && cmplx.Abs(s.total/2+s.best) < cmplx.Abs(s.total/2-s.best) {
		s.best = -s.best
		for i := range s.bestSigns {
			s.bestSigns[i] = !s.bestSigns[i]
		}
	}
	return s.bestSigns
}

// search goes depth first through the items, largest first, the better side first, and turns back where even the best
// use of the items left cannot beat what it has.
func (s *splitter) search(k int, d complex128) {
	if s.nodes++; s.nodes > splitNodes {
		s.stopped = true
		return
	}
	if k == len(s.items) {
		if score := s.score(d); score < s.bestScore {
			s.bestScore, s.best = score, d
			copy(s.bestSigns, s.signs)
		}
		return
	}
	turned := d * cmplx.Conj(s.along0)
	p := math.Max(0, math.Abs(real(turned))-s.along[k])
	q := math.Max(0, math.Abs(imag(turned))-s.aside[k])
	if p*p+q*q+cmplx.Abs(s.total)*p >= s.bestScore*(1-1e-12) || s.bestScore <= s.enough() {
		return
	}
	item := s.items[s.order[k]]
	first := s.score(d+item) <= s.score(d-item)
	for _, sign := range [2]bool{first, !first} {
		s.signs[s.order[k]] = sign
		if sign {
			s.search(k+1, d+item)
		} else {
			s.search(k+1, d-item)
		}
	}
}

// enough is the score at which the heavier leg is within enoughVA of |T|/2, the least there can be.
func (s *splitter) enough() float64 {
	t := cmplx.Abs(s.total)
	return t * t * enoughVA
}
