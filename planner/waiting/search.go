package waiting

import (
	"math"
	"math/bits"
	"slices"

	"holdover/planner/effort"
	"holdover/planner/queue"
)

// This file finds the timetable of least energy. Time is cut into slots. A job is on for turns of a fixed number of slots, may be
// off for at most so many slots between them (and before the first, all being supplied until the outage begins, and after the
// last), and no more than the allowed power may be on in any slot, a start included. A turn that the end of the outage cuts short is enough.
//
// The search goes slot by slot, least cost first (A*), and of equals the furthest on first. What lies ahead of each job by
// itself, [job.least], is never more than what it will cost, so the first end that is reached is the best there is; and where the
// search is given up, the least estimate still open is a bound that no timetable can be below.

// A job is one circuit that takes turns.
type job struct {
	wait int     // slots it may be off at a stretch, ≥ 1
	turn int     // slots of one turn, ≥ 1
	cost float64 // energy of one slot on
	power
}

// A power is what jobs that are on together draw, or may draw. A job may start at any time of its turn, as a thermostat has it.
type power struct {
	load  float64 // VA
	watts float64
	start float64 // VA with one of them starting in place of running; 0 for what has no start
}

// A together is what some jobs that are on together draw, and by how much the hardest of their starts is above its own draw.
type together struct{ load, watts, extra float64 }

func (t *together) add(j job) {
	t.load, t.watts, t.extra = t.load+j.load, t.watts+j.watts, max(t.extra, j.start-j.load)
}

// bear says whether some jobs may be on together: their VA, their watts, and the hardest of their starts beside the rest. Those
// that may not may not with more of them.
func (most power) bear(t together) bool {
	const hair = 1 + 1e-9
	return t.load <= most.load*hair && t.watts <= most.watts*hair && t.load+t.extra <= most.start*hair
}

// least is the fewest slots on that a job needs in the slots left, having been off for some: it starts each turn as late as it may.
func (j job) least(left, off int) int {
	left -= j.wait - off
	if left <= 0 {
		return 0
	}
	round := j.turn + j.wait
	return left/round*j.turn + min(j.turn, left%round)
}

// A state is where the search stands: for each job, the slots it has been off, or below zero the slots its turn has to go.
type state struct {
	phases
	at     int16  // slots gone by; a table has no more than longestTable / the shortest slot
	on     uint16 // jobs that are on in the slot before
	serial int32
	spent  float64
	whole  float64 // spent and the least still to come
	before *state
}

// phases are the jobs' in a state; those beyond the last are zero.
type phases [mostJobs]int16

// A found timetable: which jobs are on in each slot.
type found struct {
	slots  [][]bool
	cost   float64
	bound  float64 // no timetable costs less
	ok     bool    // there is a timetable
	proven bool    // it is the best, or there is provably none
}

// mostJobs bounds the choices of one slot; statesKept the memory of the search, to some 20 MB; Looks its time: the sets of jobs
// looked at.
const (
	mostJobs   = 12
	statesKept = 120_000
	Looks      = 4_000_000
)

// schedule finds the best timetable over some slots, as far as the meter lets it look.
func schedule(m *effort.Meter, jobs []job, slots int, allowed power) found {
	for _, j := range jobs {
		var by together
		by.add(j)
		if j.wait < slots && !allowed.bear(by) {
			return found{bound: math.Inf(1), proven: true} // it must be on some time, and never may
		}
	}
	if len(jobs) > mostJobs {
		return orTry(jobs, slots, allowed, alone(jobs, slots))
	}
	s := newSearcher(m, jobs, slots, allowed)
	s.push(state{})
	for s.open.Len() > 0 {
		next := s.open.Pop()
		if int(next.at) == slots {
			return found{slots: next.path(len(jobs)), cost: next.spent, bound: next.spent, ok: true, proven: true}
		}
		if s.meter.Spent() || s.kept > statesKept {
			return orTry(jobs, slots, allowed, next.whole)
		}
		s.expand(next)
	}
	return found{bound: math.Inf(1), proven: true}
}

// alone is what the jobs cost when none has to heed another.
func alone(jobs []job, slots int) (cost float64) {
	for _, j := range jobs {
		cost += float64(j.least(slots, 0)) * j.cost
	}
	return cost
}

type searcher struct {
	jobs    []job
	like    []int // for each job, the first that is the same
	slots   int
	allowed power
	open    *queue.Queue[*state]
	best    map[place]float64 // least spent to reach a place
	spare   []state           // room for states, made by the thousand
	meter   *effort.Meter
	kept    int
}

// A place is what of a state decides how it goes on. Which of the jobs that are the same has which phase does not matter, so
// theirs are in order.
type place struct {
	at int16
	phases
}

func newSearcher(m *effort.Meter, jobs []job, slots int, allowed power) *searcher {
	s := &searcher{meter: m, jobs: jobs, slots: slots, allowed: allowed, open: queue.New((*state).first), best: map[place]float64{}}
	for _, j := range jobs {
		s.like = append(s.like, slices.Index(jobs, j))
	}
	return s
}

// place finds the place of a state.
func (s *searcher) place(n *state) place {
	p := place{n.at, n.phases}
	for i, first := range s.like { // by insertion: there are no more than mostJobs
		for k, at := i-1, i; k >= first; k-- {
			if s.like[k] != first {
				continue
			}
			if p.phases[k] <= p.phases[at] {
				break
			}
			p.phases[k], p.phases[at], at = p.phases[at], p.phases[k], k
		}
	}
	return p
}

// push offers a state, unless its place was reached as cheaply before.
func (s *searcher) push(n state) {
	at := s.place(&n)
	if known, ok := s.best[at]; ok && known <= n.spent {
		return
	}
	s.best[at] = n.spent
	n.whole = n.spent
	for i, j := range s.jobs {
		left, phase := s.slots-int(n.at), int(n.phases[i])
		if phase < 0 {
			still := min(-phase, left)
			n.whole += float64(still+j.least(left-still, 0)) * j.cost
		} else {
			n.whole += float64(j.least(left, phase)) * j.cost
		}
	}
	n.serial = int32(s.kept)
	s.open.Push(s.keep(n))
}

// keep gives a state a place of its own in memory.
func (s *searcher) keep(n state) *state {
	if len(s.spare) == 0 {
		s.spare = make([]state, 1000)
	}
	kept := &s.spare[0]
	s.spare = s.spare[1:]
	*kept = n
	s.kept++
	return kept
}

// expand offers every way to go through the next slot.
func (s *searcher) expand(n *state) {
	var on, may uint16
	for i, j := range s.jobs {
		switch phase := int(n.phases[i]); {
		case phase < 0, phase == j.wait:
			on |= 1 << i
		default:
			may |= 1 << i
		}
	}
	s.with(n, on, may, s.sum(on))
}

// sum adds up the jobs of a set.
func (s *searcher) sum(set uint16) (t together) {
	for i, j := range s.jobs {
		if set&(1<<i) != 0 {
			t.add(j)
		}
	}
	return t
}

// with offers the jobs that are on with every set of those that may be, each job with the rest before without: so those that
// start no more than they must come last, and of equals are looked at first. A set that draws too much draws too much with more.
func (s *searcher) with(n *state, on, may uint16, sum together) {
	s.meter.Spend(1)
	if !s.allowed.bear(sum) {
		return
	}
	if may == 0 {
		s.push(s.step(n, on))
		return
	}
	i := bits.Len16(may) - 1
	rest := may &^ (1 << i)
	more := sum
	more.add(s.jobs[i])
	s.with(n, on|1<<i, rest, more)
	s.with(n, on, rest, sum)
}

// step goes through one slot with some jobs on.
func (s *searcher) step(n *state, running uint16) state {
	next := state{at: n.at + 1, spent: n.spent, before: n, on: running}
	for i, j := range s.jobs {
		phase := n.phases[i]
		switch {
		case running&(1<<i) == 0:
			next.phases[i] = phase + 1
			continue
		case phase < 0:
			next.phases[i] = phase + 1
		default:
			next.phases[i] = int16(1 - j.turn)
		}
		next.spent += j.cost
	}
	return next
}

// path is which of so many jobs are on in each slot up to a state.
func (n *state) path(jobs int) [][]bool {
	slots := make([][]bool, n.at)
	for ; n.before != nil; n = n.before {
		on := make([]bool, jobs)
		for i := range on {
			on[i] = n.on&(1<<i) != 0
		}
		slots[n.at-1] = on
	}
	return slots
}

// first orders states by least whole cost, equals by the furthest on, and those by the newest.
func (n *state) first(other *state) bool {
	switch {
	case math.Abs(n.whole-other.whole) > 1e-9*(1+n.whole):
		return n.whole < other.whole
	case n.at != other.at:
		return n.at > other.at
	}
	return n.serial > other.serial
}
