package loads

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"
)

// A splitter chooses signs for items so that the heavier leg is as light as can be. With T the total, D = fixed + Σ±item
// is half the difference of the legs, which are T/2 ± D, and the heavier one squared is |T|²/4 + |D|² + |T·D|, T·D being
// the dot product. In a frame turned so that T is real that is |T|²/4 + score, with score = p² + q² + |T|·|p| for D = p + jq.
type splitter struct {
	total, fixed complex128
	items        []complex128

	length       float64      // |T|
	turned       []complex128 // items in the turned frame, the largest first
	order        []int        // which item each of them is
	along, aside []float64    // what the items from here on can still move D, along T and across it
	enough       float64      // score with which the search is content
	signs        []bool
	best         complex128 // D of the best so far
	bestScore    float64
	bestSigns    []bool
	nodes, most  int // looked at, and to be looked at at most
}

// wholeTrees bounds the search: a tree of so many circuits is always searched to the end, and of a larger one as much of it as of
// moreNodes circuits; they usually come within enough of |T|/2, the least there can be, long before. With a great many circuits
// less is enough, as the last watt has as many places.
const (
	wholeTrees   = 20
	moreNodes    = 17
	enough       = 1e-6 // of |T|²: a heavier leg within two millionths of |T|/2
	manyCircuits = 60
	enoughOfMany = 2e-5
)

// proven says whether the split is the best there is, up to what is enough.
func (s *splitter) proven() bool { return s.nodes <= s.most }

// gap bounds how far the answer may be above the best, VA.
func (s *splitter) gap() float64 {
	if s.proven() {
		return 0
	}
	return math.Sqrt(s.length*s.length/4+s.bestScore) - s.length/2
}

// solve returns true for items on leg A. Where nothing is fixed, A is made the heavier leg.
func (s *splitter) solve() []bool {
	s.prepare()
	turn := s.turn()
	s.search(0, s.fixed*cmplx.Conj(turn))
	s.best *= turn
	signs := make([]bool, len(s.items))
	mirror := s.fixed == 0 && cmplx.Abs(s.total/2+s.best) < cmplx.Abs(s.total/2-s.best)
	if mirror {
		s.best = -s.best
	}
	for k, i := range s.order {
		signs[i] = s.bestSigns[k] != mirror
	}
	return signs
}

// turn is the direction of T.
func (s *splitter) turn() complex128 {
	if s.length == 0 {
		return 1
	}
	return s.total / complex(s.length, 0)
}

func (s *splitter) prepare() {
	n := len(s.items)
	s.length = cmplx.Abs(s.total)
	s.order = make([]int, n)
	for i := range s.order {
		s.order[i] = i
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		return cmp.Compare(cmplx.Abs(s.items[b]), cmplx.Abs(s.items[a]))
	})
	s.turned = make([]complex128, n)
	s.along, s.aside = make([]float64, n+1), make([]float64, n+1)
	for k := n - 1; k >= 0; k-- {
		s.turned[k] = s.items[s.order[k]] * cmplx.Conj(s.turn())
		s.along[k] = s.along[k+1] + math.Abs(real(s.turned[k]))
		s.aside[k] = s.aside[k+1] + math.Abs(imag(s.turned[k]))
	}
	s.signs, s.bestSigns = make([]bool, n), make([]bool, n)
	s.bestScore = math.Inf(1)
	s.most = 1 << (wholeTrees + 1)
	if n > wholeTrees {
		s.most = 1 << (moreNodes + 1)
	}
	s.enough = enough * s.length * s.length
	if n > manyCircuits {
		s.enough = enoughOfMany * s.length * s.length
	}
}

// score is what is to be made small.
func (s *splitter) score(p, q float64) float64 { return p*p + q*q + s.length*math.Abs(p) }

// search goes depth first through the items, the better side first, and turns back where even the best use of the items
// left cannot beat what it has.
func (s *splitter) search(k int, d complex128) {
	if s.nodes++; s.nodes > s.most {
		return
	}
	if k == len(s.turned) {
		if score := s.score(real(d), imag(d)); score < s.bestScore {
			s.bestScore, s.best = score, d
			copy(s.bestSigns, s.signs)
		}
		return
	}
	least := s.score(max(0, math.Abs(real(d))-s.along[k]), max(0, math.Abs(imag(d))-s.aside[k]))
	if least >= s.bestScore*(1-1e-12) || s.bestScore <= s.enough {
		return
	}
	plus, minus := d+s.turned[k], d-s.turned[k]
	first := s.score(real(plus), imag(plus)) <= s.score(real(minus), imag(minus))
	for _, sign := range [2]bool{first, !first} {
		s.signs[k] = sign
		if sign {
			s.search(k+1, plus)
		} else {
			s.search(k+1, minus)
		}
	}
}
