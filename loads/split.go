package loads

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"holdover/loads/home"
)

// This file is the search for the assignment of circuits to legs of the least stress: depth first through the circuits that may
// lie on either leg, those that matter most first, each on the better leg first, and back where even the best use of those left
// cannot beat what is found (splitbound.go). Circuits that are alike are put on the legs by number. Of the rotated circuits,
// each alone in its turn, only the hardest are searched; every one takes its better leg at the end.

// fine is how near the least stress the search comes where it ends by itself, as a share of it.
const fine = 2e-6

// mostPairs bounds the work of the search, in moments of the one leg held against moments of the other; up to so many choices as
// wholeTrees are always searched to the end. If nothing else is found, all circuits are put down once, however many they are.
const (
	mostPairs  = 1 << 18
	wholeTrees = 14
)

// A splitter finds the assignment whose stress is least. Stresses are squared here.
type splitter struct {
	running, starting caps
	long              caps // of starts that last longer than some seconds
	limits            LegLimits
	realCounts        bool // a limit in W can be the nearer one
	startsCount       bool // a start is limited

	given   [2][]draw // on each leg, whatever is chosen
	choices []choice
	rotated []choice // rotated circuits that may lie on either leg
	mirror  bool     // no circuit is given a leg, so that one leg is as good as the other

	total   complex128 // of the kept circuits
	middle  complex128 // of it on leg A, half of what each choice moves included
	reach   []reach    // of the choices from here on
	heading complex128 // direction of total, of length 1

	legs        [2]leg    // as far as the choices have been made
	placed      []int     // of each choice, how many lie straight
	worth, keys []float64 // scratch, by choice and number: what the stress is at least, and which to try first

	root       float64 // no assignment has less
	best       float64 // what is to be bettered
	found      bool    // it is that of bestPlaced
	bestPlaced []int
	open       float64 // the least that what was left out of the search may have
	pairs      int     // held against each other so far
	most       int     // pairs at which the search leaves out the rest, until something is found
	budget     int     // and from then on
}

// A draw is what one circuit puts on its leg, or on each of its two.
type draw struct {
	on      complex128 // running
	surge   complex128 // what a start is above that
	starts  *caps      // what the leg may give then; nil for what has no start
	rotates bool
}

// kept is what is always on.
func (d *draw) kept() complex128 {
	if d.rotates {
		return 0
	}
	return d.on
}

// within says whether the turn of another rotated circuit is as hard on a leg, or there is nothing of this one.
func (d draw) within(other draw) bool {
	return d == draw{} || less(d.on, other.on) && (d.starts == nil || d.starts == other.starts && less(d.on+d.surge, other.on+other.surge))
}

// less says that a is no more than b in W and in var. Loads draw both or none, so that a sum with a in it is then no more than
// the same sum with b in it.
func less(a, b complex128) bool { return real(a) <= real(b) && imag(a) <= imag(b) }

// A choice is circuits that are alike, each with its multiwire partner if it has one. One lies straight when it is on A and its
// partner on B.
type choice struct {
	pair  [2]int     // places in Demand.Loads of circuit and partner, -1 for none
	pairs [][2]int   // all that are alike
	draws [2]draw    // of circuit and partner
	move  complex128 // half of what one of them moves from leg to leg
	plain bool       // it does no more than run all the time
	first int        // where its worth begins
}

// spokenFor says whether turns that are looked at anyhow are as hard as those of a rotated circuit and its partner, which can lie
// as they do.
func (c *choice) spokenFor(by [2][]draw) bool {
	in := func(d draw, turns []draw) bool { return d == draw{} || slices.ContainsFunc(turns, d.within) }
	return in(c.draws[0], by[0]) && in(c.draws[1], by[1]) || in(c.draws[0], by[1]) && in(c.draws[1], by[0])
}

// newSplitter sorts the loads into what lies fixed, which it writes to of, and what may lie either way. It goes through them by
// size, so that their order in the file matters to nothing.
func newSplitter(loads []Load, given []place, limits LegLimits, of []string) *splitter {
	s := &splitter{startsCount: limits.limitsStarts(), mirror: true}
	s.running, s.starting = capsOf(float64(limits.Running), float64(limits.RunningVA)), capsOf(float64(limits.Starting), float64(limits.StartingVA))
	s.long, s.limits = capsOf(float64(limits.Long), float64(limits.LongVA)), limits
	s.realCounts = s.running.w < s.running.va || s.starting.w < s.starting.va || (limits.Seconds > 0 && s.long.w < s.long.va)
	s.choices = make([]choice, 0, len(loads))
	done := make([]bool, len(loads))
	for _, i := range bySize(loads) {
		l, partner := &loads[i], given[i].partner
		switch {
		case done[i]:
		case both(l.Circuit):
			of[i] = "both"
			half := s.drawOf(l, 0.5)
			s.given[0], s.given[1] = append(s.given[0], half), append(s.given[1], half)
		default:
			c := choice{pair: [2]int{i, partner}, draws: [2]draw{s.drawOf(l, 1)}}
			if partner >= 0 {
				done[partner] = true
				c.draws[1] = s.drawOf(&loads[partner], 1)
			}
			s.add(c, given[i].leg, of)
		}
	}
	return s
}

// bySize puts loads in an order that only what they draw decides.
func bySize(loads []Load) []int {
	order := make([]int, len(loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := &loads[i], &loads[j]
		return cmp.Or(cmp.Compare(real(b.Running), real(a.Running)), cmp.Compare(imag(b.Running), imag(a.Running)),
			cmp.Compare(real(b.Starting), real(a.Starting)), cmp.Compare(imag(b.Starting), imag(a.Starting)),
			cmp.Compare(a.StartTime, b.StartTime), cmp.Compare(a.Count, b.Count), cmp.Compare(a.Care, b.Care))
	})
	return order
}

// drawOf is what a part of a load, a half or all of it, puts on a leg.
func (s *splitter) drawOf(l *Load, part Power) draw {
	d := draw{on: complex128(part * l.Running), rotates: l.Care == home.Rotate}
	if l.Starts && s.startsCount {
		d.starts, d.surge = &s.starting, complex128(part*(l.Starting-l.unit()))
		if s.limits.isLong(l) {
			d.starts = &s.long
		}
	}
	return d
}

// add takes up a circuit and its partner, on a leg or to be chosen.
func (s *splitter) add(c choice, leg string, of []string) {
	switch {
	case isLeg(leg):
		s.mirror = false
		lay(of, c.pair, leg == "A")
		for side, d := range c.draws {
			if leg == "B" {
				side = 1 - side
			}
			s.given[side] = append(s.given[side], d)
		}
	case c.draws[0].rotates && (c.draws[1].rotates || c.draws[1] == draw{}):
		s.rotated = append(s.rotated, c)
	default:
		s.choices = append(s.choices, c)
	}
}

// lay writes the legs of a circuit and its partner.
func lay(of []string, pair [2]int, straight bool) {
	for side, i := range pair {
		if i >= 0 {
			of[i] = legNames[side]
			if !straight {
				of[i] = opposite(of[i])
			}
		}
	}
}

// solve writes the legs that are chosen, and says whether the search came to its end and what the stress is at least.
func (s *splitter) solve(of []string) (proven bool, bound float64) {
	s.prepare()
	kept := s.here()
	s.layGiven(true)
	s.order()
	s.root = s.rootBound()
	s.widen()
	s.back(kept)
	s.settle(of)
	proven = math.IsInf(s.open, 1)
	return proven, math.Sqrt(max(s.root, min(s.open, s.enough())))
}

// prepare adds up the kept circuits, and lays those that are given a leg.
func (s *splitter) prepare() {
	for side, draws := range s.given {
		for i := range draws {
			s.total += draws[i].kept()
			if side == 0 {
				s.middle += draws[i].kept()
			}
		}
		s.legs[side].moments = append(s.legs[side].moments, moment{0, &s.running})
	}
	for i := range s.choices {
		sum := s.choices[i].draws[0].kept() + s.choices[i].draws[1].kept()
		s.total += sum
		s.middle += sum / 2
	}
	s.realCounts = s.realCounts || imag(s.total) == 0 // then VA are W
	s.heading = 1
	if length := cmplx.Abs(s.total); length > 0 {
		s.heading = s.total / complex(length, 0)
	}
	s.layGiven(false)
}

// layGiven lays the kept or the rotated circuits that are given a leg.
func (s *splitter) layGiven(rotated bool) {
	for side, draws := range s.given {
		for i := range draws {
			if draws[i].rotates == rotated {
				s.lay(side, &draws[i])
			}
		}
	}
}

// order puts the choices in order: first the rotated circuits that no other turn speaks for, which only put moments on legs, then
// the kept ones by size, those alike together.
func (s *splitter) order() {
	heft := func(c *choice) float64 {
		return cmplx.Abs(c.draws[0].on-c.draws[1].on) + min(1, s.running.va/s.starting.va)*(cmplx.Abs(c.draws[0].surge)+cmplx.Abs(c.draws[1].surge))
	}
	slices.SortStableFunc(s.choices, func(a, b choice) int { return cmp.Compare(heft(&b), heft(&a)) })
	s.choices = append(s.hardest(), s.choices...)
	pairs := make([][2]int, len(s.choices))
	grouped := s.choices[:0]
	for i, c := range s.choices {
		pairs[i] = c.pair
		if last := len(grouped) - 1; last >= 0 && grouped[last].draws == c.draws {
			start := i - len(grouped[last].pairs)
			grouped[last].pairs = pairs[start : i+1]
		} else {
			c.pairs = pairs[i : i+1]
			grouped = append(grouped, c)
		}
	}
	s.choices = grouped
	n, sides := len(grouped), 0
	s.reach = make([]reach, n+1)
	for k := n - 1; k >= 0; k-- {
		c := &grouped[k]
		c.move = (c.draws[0].kept() - c.draws[1].kept()) / 2
		c.plain = !(c.draws[0].starts != nil || c.draws[0].rotates || c.draws[1].starts != nil || c.draws[1].rotates)
		s.reach[k] = s.reach[k+1].with(len(c.pairs), c.move, s.heading)
		c.first = sides
		sides += len(c.pairs) + 1
	}
	s.placed, s.bestPlaced = make([]int, n), make([]int, n)
	s.worth, s.keys = make([]float64, sides), make([]float64, sides)
}

// hardest lists the rotated circuits that neither the given turns nor larger ones speak for.
func (s *splitter) hardest() (out []choice) {
	var given [2][]draw
	for side, draws := range s.given {
		for _, d := range draws {
			if d.rotates {
				given[side] = append(given[side], d)
			}
		}
	}
	for _, c := range s.rotated {
		if !c.spokenFor(given) && !slices.ContainsFunc(out, func(o choice) bool { return c.spokenFor([2][]draw{o.draws[:1], o.draws[1:]}) }) {
			out = append(out, c)
		}
	}
	return out
}

// rootBound is a stress that no assignment is below: that of legs that share all evenly, and for each circuit that starts or
// takes turns, the lesser of those with it on the one leg or on the other.
func (s *splitter) rootBound() float64 {
	bound := s.least(0, s.middle)
	for k := range s.choices {
		lesser := math.Inf(1)
		for _, straight := range []bool{true, false} {
			undo := s.here()
			s.layOne(&s.choices[k], straight)
			lesser = min(lesser, s.least(0, s.middle))
			s.back(undo)
		}
		bound = max(bound, lesser)
	}
	return bound
}

// widen searches what is near the least that may be, and wider until something is found: else a poor choice among the first
// would hold the search until its budget ends.
func (s *splitter) widen() {
	s.budget = mostPairs
	if len(s.choices) <= wholeTrees {
		s.budget = math.MaxInt
	}
	for wider := 1e-3; !s.found; wider *= 64 {
		s.best, s.open, s.most = s.root*(1+wider), math.Inf(1), min(s.pairs+s.budget/4, s.budget)
		if wider > 1 {
			s.best, s.most = math.Inf(1), math.MaxInt
		}
		s.search(0, s.middle, s.root)
		if !s.found && math.IsInf(s.open, 1) {
			s.root = max(s.root, s.enough())
		}
	}
}

// search makes choice k and those after it; a is the middle of what leg A can come to, and least what the stress is at least,
// exactly so once every choice is made.
func (s *splitter) search(k int, a complex128, least float64) {
	if k == len(s.choices) {
		s.best, s.found, s.most = least, true, s.budget
		copy(s.bestPlaced, s.placed)
		return
	}
	c := &s.choices[k]
	worth, keys, most := s.worth[c.first:], s.keys[c.first:], len(c.pairs)
	low := 0
	if k == 0 && s.mirror {
		low = (most + 1) / 2
	}
	first := s.weigh(k, low, a)
	for below, above := first, first+1; below >= low || above <= most; {
		j := below
		if below < low || above <= most && keys[above] < keys[below] {
			j, above = above, above+1
		} else {
			below--
		}
		switch {
		case worth[j] >= s.enough() || s.enough() <= s.root:
		case s.pairs > s.most:
			s.open = min(s.open, worth[j])
		default:
			undo := s.here()
			s.placed[k] = j
			s.search(k+1, a+s.put(k, j), worth[j])
			s.back(undo)
		}
	}
}

// weigh works out what the stress is at least with each number of choice k lying straight, and the keys by which they are tried:
// by that, and of equal ones by the stress if the choices left come to nothing. It returns the first.
func (s *splitter) weigh(k, low int, a complex128) int {
	c := &s.choices[k]
	worth, keys, most := s.worth[c.first:], s.keys[c.first:], len(c.pairs)
	lowest := math.Inf(1)
	for j := low; j <= most; j++ {
		worth[j] = s.with(k, j, k+1, a)
		lowest = min(lowest, worth[j])
	}
	first := low
	for j := low; j <= most; j++ {
		keys[j] = 1e6 * worth[j]
		if k+1 < len(s.choices) && worth[j] < min(s.enough(), lowest*(1+1e-5)) {
			keys[j] += s.with(k, j, len(s.choices), a)
		}
		if keys[j] < keys[first] {
			first = j
		}
	}
	return first
}

// with is least with j of choice k lying straight, when the choices from then on are still open.
func (s *splitter) with(k, j, then int, a complex128) float64 {
	if s.choices[k].plain {
		return s.least(then, a+s.put(k, j))
	}
	undo := s.here()
	least := s.least(then, a+s.put(k, j))
	s.back(undo)
	return least
}

// enough is what the stress must be below to be better than the best by more than is fine.
func (s *splitter) enough() float64 { return s.best * (1 - 2*fine) }

// put lays j of choice k straight and the others mirrored, and says what that moves to leg A.
func (s *splitter) put(k, j int) complex128 {
	c := &s.choices[k]
	if !c.plain {
		if j > 0 {
			s.layOne(c, true)
		}
		if j < len(c.pairs) {
			s.layOne(c, false)
		}
	}
	return scaled(c.move, float64(2*j-len(c.pairs)))
}

// layOne lays one of a choice, for its starts and turns.
func (s *splitter) layOne(c *choice, straight bool) {
	for side := range c.draws {
		leg := side
		if !straight {
			leg = 1 - side
		}
		s.lay(leg, &c.draws[side])
	}
}

// settle writes the legs that were found best. What is rotated is alone in its turn, and takes its better leg.
func (s *splitter) settle(of []string) {
	a := s.middle
	for k, j := range s.bestPlaced {
		c := &s.choices[k]
		a += scaled(c.move, float64(2*j-len(c.pairs)))
		for i, pair := range c.pairs {
			straight := i < j
			lay(of, pair, straight)
			for side := range c.draws {
				if leg := side; !c.draws[side].rotates {
					if !straight {
						leg = 1 - side
					}
					s.lay(leg, &c.draws[side])
				}
			}
		}
	}
	for i := range s.rotated {
		var stress [2]float64
		for way := range stress {
			undo := s.here()
			s.layOne(&s.rotated[i], way == 0)
			stress[way] = s.least(len(s.choices), a)
			s.back(undo)
		}
		lay(of, s.rotated[i].pair, stress[0] <= stress[1])
	}
}
