package waiting

import (
	"slices"

	"holdover/planner/effort"
)

// This file finds a timetable. Time is cut into slots, and in each slot one job is on, or none: whatever carries the house is sized
// for what is kept and one circuit of those that take turns, whichever leg it is on, and for the start of that one.
//
// A job that is on a share d of the time owes d of a slot for each slot that it is off, and pays 1 − d of what it owes in each slot
// that it is on. It may never owe more than its longest wait leaves it owing, d·wait. So it is never off for longer than it can
// wait, and one that waited less may have a shorter turn. All are supplied until the outage begins, and owe nothing then. Within a
// slot a debt only rises or only falls, so what holds between slots holds at every moment.

// A job is one circuit that takes turns.
type job struct {
	wait float64 // slots that it may be off at a stretch
	owes int32   // what a slot off adds to its debt, 1 to slotDebt
	most int32   // the debt that it may have
	cost float64 // energy of one slot on
}

// slotDebt is what a slot on takes off a debt, to which the slot itself then adds. What a week in the shortest slots adds up to
// is within an int32.
const slotDebt = 1 << 20

// newJob makes a job of a circuit that has to be on a share of the time, 0 to 1, and may be off for so many slots. One that is
// hardly on at all may not be off for longer either.
func newJob(duty, wait, cost float64) job {
	owes := max(1, int32(duty*slotDebt+0.5))
	return job{wait: wait, owes: owes, most: int32(float64(owes)*wait + 1e-6), cost: cost}
}

// after is what a job owes a slot later.
func (j *job) after(debt int32, on bool) int32 {
	if on {
		return max(0, debt+j.owes-slotDebt)
	}
	return debt + j.owes
}

// slack is how many slots a job may still be off that owes no more than it may.
func (j *job) slack(debt int32) int { return int((j.most - debt) / j.owes) }

// alone is what the jobs cost over some slots had none to heed another: each is on in those alone in which it must be. To be on
// sooner saves no job a slot, so no timetable costs less. And where by some slot they had to be on in more slots than there are,
// no timetable lasts for so many: lasts is how many it may last for. debts are what they owe at first, and at the end afterwards.
func alone(jobs []job, debts []int32, slots int) (cost float64, lasts int) {
	due := 0
	for at := range slots {
		for i := range jobs {
			must := debts[i]+jobs[i].owes > jobs[i].most
			if debts[i] = jobs[i].after(debts[i], must); must {
				cost += jobs[i].cost
				due++
			}
		}
		if due > at+1 {
			return cost, at
		}
	}
	return cost, slots
}

// idle stands for no job in a timetable.
const idle = -1

// A found timetable.
type found struct {
	on     []int   // the job that is on in each slot; nil where there is no timetable
	cost   float64 // of it
	bound  float64 // no timetable costs less
	proven bool    // it is the best; where there is none, there provably is none
}

// judged is a timetable with its cost and a bound.
func judged(jobs []job, on []int) found {
	f := found{on: on}
	for _, i := range on {
		if i != idle {
			f.cost += jobs[i].cost
		}
	}
	f.bound, _ = alone(jobs, make([]int32, len(jobs)), len(on))
	f.proven = f.cost <= f.bound*(1+1e-9)
	return f
}

// schedule finds a timetable: by rule, or where whole says so, by a search of all there are. Where it says that there is none, it
// is proven only if it says so.
func schedule(m *effort.Meter, jobs []job, slots int, whole bool) found {
	if _, lasts := alone(jobs, make([]int32, len(jobs)), slots); lasts < slots {
		return found{proven: true}
	}
	if f := byRule(m, jobs, slots); f.on != nil || !whole || len(jobs) > mostJobs {
		return f
	}
	return search(m, jobs, slots)
}

// lookedAt is how many jobs are looked at in a slot for a step of the meter.
const lookedAt = 16

// leads are how early the rules of thumb start a job, as a share of its wait. At 1 they leave hardly a slot idle.
var leads = []float64{0, 0.125, 0.25, 0.5, 0.75, 1}

// byRule makes the cheapest timetable of some rules of thumb; on is nil where each of them breaks a limit.
func byRule(m *effort.Meter, jobs []job, slots int) (best found) {
	for _, lead := range leads {
		if m.Spent() || best.proven {
			break
		}
		m.Spend(1 + len(jobs)*slots/lookedAt)
		if on := withLead(jobs, slots, lead); on != nil {
			if f := judged(jobs, on); best.on == nil || f.cost < best.cost {
				best = f
			}
		}
	}
	return best
}

// A standing is how it stands with a job between two slots.
type standing struct {
	debt  int32
	slack int // slots that it may still be off
}

// withLead goes through the slots. A job has its turn when no more than a share of its wait is left to it, the most urgent first,
// and keeps it until it owes less than another slot would pay, or need not be on again, or until the rest can wait no more. The
// answer is nil as soon as one waits too long.
func withLead(jobs []job, slots int, lead float64) []int {
	stand, on, now := make([]standing, len(jobs)), make([]int, 0, slots), idle
	for i := range jobs {
		stand[i].slack = jobs[i].slack(0)
	}
	within := make([]int, len(jobs))
	for left := slots; left > 0; left-- {
		if now == idle || stand[now].debt+jobs[now].owes < slotDebt || stand[now].slack >= left || pressed(stand, now, within) {
			now = next(jobs, stand, lead, left, pressed(stand, idle, within))
		}
		for i := range jobs {
			j, s := &jobs[i], &stand[i]
			if s.debt = j.after(s.debt, i == now); i == now {
				s.slack = j.slack(s.debt)
			} else if s.slack--; s.slack < 0 {
				return nil
			}
		}
		on = append(on, now)
	}
	return on
}

// pressed says whether the jobs but for one could not each have a slot in time, were none of them on in this one. within is room
// to count in, one for each job.
func pressed(stand []standing, but int, within []int) bool {
	clear(within)
	for i, s := range stand {
		if i != but && s.slack < len(within) {
			within[s.slack]++
		}
	}
	due := 0
	for slack, n := range within {
		if due += n; due > slack {
			return true
		}
	}
	return false
}

// next is the most urgent job that has to be on in the slots left, or none. While nothing presses it is one that owes what a slot
// pays, with little of its wait left.
func next(jobs []job, stand []standing, lead float64, left int, pressed bool) int {
	first, least := idle, left
	for i, s := range stand {
		if s.slack < least && (pressed || s.debt+jobs[i].owes >= slotDebt && float64(s.slack) <= lead*jobs[i].wait) {
			first, least = i, s.slack
		}
	}
	return first
}

// mostJobs bounds what the search remembers of a state.
const mostJobs = 12

// debts are what the jobs owe; those beyond the last are zero.
type debts [mostJobs]int32

// A searcher looks for any timetable at all. Which job is on is all there is to choose: one that is on when none need be harms no
// other, so whatever can be kept up can be kept up with no slot idle. For how long a state can be kept up hangs on what is owed
// and not on when, so none is gone through twice.
type searcher struct {
	jobs  []job
	meter *effort.Meter
	lasts map[debts]int16 // no timetable from here lasts for more slots
	on    []int
}

// search goes through every timetable of up to mostJobs jobs until one is found.
func search(m *effort.Meter, jobs []job, slots int) found {
	s := searcher{jobs: jobs, meter: m, lasts: map[debts]int16{}}
	if s.keepUp(debts{}, slots) < slots {
		return found{proven: !m.Spent()}
	}
	return judged(jobs, s.on)
}

// keepUp is for how many slots a state can be kept up, or a bound of that; where it is for all of them, on has how.
func (s *searcher) keepUp(from debts, slots int) (lasts int) {
	key := s.key(from)
	if known, ok := s.lasts[key]; ok && int(known) < slots {
		return int(known)
	}
	s.meter.Spend(1 + len(s.jobs)*slots/lookedAt)
	if s.meter.Spent() {
		return 0
	}
	owed := from
	if _, lasts = alone(s.jobs, owed[:len(s.jobs)], slots); lasts == slots && slots > 0 {
		lasts = s.oneOf(from, slots)
	}
	if lasts < slots {
		s.lasts[key] = int16(lasts)
	}
	return lasts
}

// oneOf tries each job in the next slot.
func (s *searcher) oneOf(from debts, slots int) (lasts int) {
	at := len(s.on)
	for _, i := range s.order(from) {
		to, ok := s.step(from, i)
		if !ok {
			continue
		}
		s.on = append(s.on, i)
		if lasts = max(lasts, 1+s.keepUp(to, slots-1)); lasts == slots || s.meter.Spent() {
			return lasts
		}
		s.on = s.on[:at]
	}
	return lasts
}

// step goes through one slot; ok is false where a job then owes too much.
func (s *searcher) step(from debts, on int) (to debts, ok bool) {
	for i := range s.jobs {
		if to[i] = s.jobs[i].after(from[i], i == on); to[i] > s.jobs[i].most {
			return to, false
		}
	}
	return to, true
}

// order has the jobs, the most urgent first, and of those that are alike and owe the same only one.
func (s *searcher) order(from debts) []int {
	order := make([]int, 0, mostJobs)
	for i := range s.jobs {
		if !slices.ContainsFunc(order, func(k int) bool { return s.jobs[k] == s.jobs[i] && from[k] == from[i] }) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return s.jobs[a].slack(from[a]) - s.jobs[b].slack(from[b]) })
	return order
}

// key is a state in which jobs that are alike stand in the order of what they owe: which of them owes it does not matter.
func (s *searcher) key(of debts) debts {
	for i := range s.jobs { // by insertion: there are no more than mostJobs
		for k, at := i-1, i; k >= 0; k-- {
			if s.jobs[k] != s.jobs[i] {
				continue
			}
			if of[k] <= of[at] {
				break
			}
			of[k], of[at], at = of[at], of[k], k
		}
	}
	return of
}
