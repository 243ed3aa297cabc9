package waiting

import (
	"container/heap"
	"encoding/binary"
	"math"
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

// bears says whether some jobs may be on together: their VA, their watts, and the hardest of their starts beside the rest.
func (most power) bears(jobs []job, on func(i int) bool) bool {
	sum, extra := power{}, 0.0
	for i, j := range jobs {
		if on(i) {
			sum.load, sum.watts = sum.load+j.load, sum.watts+j.watts
			extra = max(extra, j.start-j.load)
		}
	}
	const hair = 1 + 1e-9
	return sum.load <= most.load*hair && sum.watts <= most.watts*hair && sum.load+extra <= most.start*hair
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
	at     int
	phase  []int
	spent  float64
	whole  float64 // spent and the least still to come
	before *state
	on     uint64 // jobs that are on in the slot before
	serial int
}

// A found timetable: which jobs are on in each slot.
type found struct {
	slots  [][]bool
	cost   float64
	bound  float64 // no timetable costs less
	ok     bool    // there is a timetable
	proven bool    // it is the best, or there is provably none
}

// mostJobs bounds the choices of one slot; searchStates the states looked at.
const (
	mostJobs     = 12
	searchStates = 60_000
)

// schedule finds the best timetable over some slots.
func schedule(jobs []job, slots int, allowed power) found {
	for _, j := range jobs {
		if j.wait < slots && !allowed.bears([]job{j}, func(int) bool { return true }) {
			return found{bound: math.Inf(1), proven: true} // it must be on some time, and never may
		}
	}
	if len(jobs) > mostJobs {
		return orTry(jobs, slots, allowed, alone(jobs, slots))
	}
	s := &searcher{jobs: jobs, slots: slots, allowed: allowed, best: map[string]float64{}}
	first := &state{phase: make([]int, len(jobs))}
	s.push(first)
	for s.open.Len() > 0 {
		next := heap.Pop(&s.open).(*state)
		if next.at == slots {
			return found{slots: next.path(), cost: next.spent, bound: next.spent, ok: true, proven: true}
		}
		if s.looked++; s.looked > searchStates {
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
	slots   int
	allowed power
	open    queue
	best    map[string]float64 // least spent to reach a state
	looked  int
	serial  int
}

// push offers a state, unless it was reached as cheaply before.
func (s *searcher) push(n *state) {
	key := n.key()
	if known, ok := s.best[key]; ok && known <= n.spent {
		return
	}
	s.best[key] = n.spent
	n.whole = n.spent
	for i, phase := range n.phase {
		left := s.slots - n.at
		if phase < 0 {
			still := min(-phase, left)
			n.whole += float64(still+s.jobs[i].least(left-still, 0)) * s.jobs[i].cost
		} else {
			n.whole += float64(s.jobs[i].least(left, phase)) * s.jobs[i].cost
		}
	}
	s.serial++
	n.serial = s.serial
	heap.Push(&s.open, n)
}

// expand offers every way to go through the next slot. Those that start no more than they must come last, so that of equals they
// are looked at first.
func (s *searcher) expand(n *state) {
	var on, must, may uint64
	for i, phase := range n.phase {
		switch {
		case phase < 0:
			on |= 1 << i
		case phase == s.jobs[i].wait:
			must |= 1 << i
		default:
			may |= 1 << i
		}
	}
	for extra := may; ; extra = (extra - 1) & may {
		if running := on | must | extra; s.allowed.bears(s.jobs, func(i int) bool { return running&(1<<i) != 0 }) {
			s.push(s.step(n, running))
		}
		if extra == 0 {
			return
		}
	}
}

// step goes through one slot with some jobs on.
func (s *searcher) step(n *state, running uint64) *state {
	next := &state{at: n.at + 1, phase: make([]int, len(n.phase)), spent: n.spent, before: n, on: running}
	for i, phase := range n.phase {
		j := s.jobs[i]
		switch {
		case running&(1<<i) == 0:
			next.phase[i] = phase + 1
			continue
		case phase < 0:
			next.phase[i] = phase + 1
		default:
			next.phase[i] = 1 - j.turn
		}
		next.spent += j.cost
	}
	return next
}

func (n *state) key() string {
	text := binary.AppendVarint(nil, int64(n.at))
	for _, phase := range n.phase {
		text = binary.AppendVarint(text, int64(phase))
	}
	return string(text)
}

func (n *state) path() [][]bool {
	slots := make([][]bool, n.at)
	for ; n.before != nil; n = n.before {
		on := make([]bool, len(n.phase))
		for i := range on {
			on[i] = n.on&(1<<i) != 0
		}
		slots[n.at-1] = on
	}
	return slots
}

// A queue gives the state of least whole cost, of equals the furthest on, of those the newest.
type queue []*state

// Len, Less, Swap, Push and Pop are those of a heap.
func (q queue) Len() int { return len(q) }
func (q queue) Less(a, b int) bool {
	x, y := q[a], q[b]
	switch {
	case math.Abs(x.whole-y.whole) > 1e-9*(1+x.whole):
		return x.whole < y.whole
	case x.at != y.at:
		return x.at > y.at
	}
	return x.serial > y.serial
}
func (q queue) Swap(a, b int) { q[a], q[b] = q[b], q[a] }

// Push adds a state.
func (q *queue) Push(n any) { *q = append(*q, n.(*state)) }

// Pop takes the last.
func (q *queue) Pop() any {
	last := len(*q) - 1
	n := (*q)[last]
	*q = (*q)[:last]
	return n
}
