package waiting

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/planner/effort"
)

// brute tries every way to be on or off in every slot that keeps to whole turns, and gives the least cost; +Inf when there is none.
// It shares nothing with the search: each job's own patterns are listed first, then combined.
func brute(jobs []job, slots int, allowed power) float64 {
	var patterns [][]uint
	for _, j := range jobs {
		var ways []uint
		for way := range uint(1) << slots {
			if keeps(j, way, slots) {
				ways = append(ways, way)
			}
		}
		patterns = append(patterns, ways)
	}
	best := math.Inf(1)
	var combine func(i int, chosen []uint, cost float64)
	combine = func(i int, chosen []uint, cost float64) {
		if cost >= best {
			return
		}
		if i == len(jobs) {
			for slot := range slots {
				on := make([]bool, len(jobs))
				for k, way := range chosen {
					on[k] = way>>slot&1 == 1
				}
				if !borne(jobs, on, allowed, 1e-9) {
					return
				}
			}
			best = cost
			return
		}
		for _, way := range patterns[i] {
			on := 0
			for slot := range slots {
				on += int(way >> slot & 1)
			}
			combine(i+1, append(chosen, way), cost+float64(on)*jobs[i].cost)
		}
	}
	combine(0, nil, 0)
	return best
}

// borne says by itself whether what is on keeps to what is allowed: the sums, and each start beside the rest.
func borne(jobs []job, on []bool, allowed power, hair float64) bool {
	load, watts := 0.0, 0.0
	for i, j := range jobs {
		if on[i] {
			load, watts = load+j.load, watts+j.watts
		}
	}
	for i, j := range jobs {
		if on[i] && j.start > 0 && load-j.load+j.start > allowed.start*(1+hair) {
			return false
		}
	}
	return load <= allowed.load*(1+hair) && watts <= allowed.watts*(1+hair)
}

// keeps says whether a pattern is of whole turns, but for one that the end cuts short, and never off too long.
func keeps(j job, way uint, slots int) bool {
	off := 0
	for slot := 0; slot < slots; {
		if way>>slot&1 == 0 {
			if off++; off > j.wait {
				return false
			}
			slot++
			continue
		}
		off = 0
		run := 0
		for slot < slots && way>>slot&1 == 1 {
			run, slot = run+1, slot+1
		}
		if run%j.turn != 0 && slot < slots {
			return false
		}
	}
	return true
}

func drawJobs(r *rapid.T, most, slots int) []job {
	jobs := make([]job, rapid.IntRange(1, most).Draw(r, "jobs"))
	for i := range jobs {
		jobs[i] = job{wait: rapid.IntRange(1, slots).Draw(r, "wait"), turn: rapid.IntRange(1, 3).Draw(r, "turn"),
			cost: rapid.Float64Range(1, 50).Draw(r, "cost"), power: power{load: float64(rapid.IntRange(1, 5).Draw(r, "load"))}}
		jobs[i].watts = jobs[i].load * rapid.SampledFrom([]float64{0.5, 1}).Draw(r, "power factor")
		if rapid.Bool().Draw(r, "starts") {
			jobs[i].start = jobs[i].load * float64(rapid.IntRange(1, 4).Draw(r, "times"))
		}
		if i > 0 && rapid.IntRange(0, 2).Draw(r, "like another") == 0 {
			jobs[i] = jobs[rapid.IntRange(0, i-1).Draw(r, "which")]
		}
	}
	return jobs
}

// drawAllowed draws what may be on at a time; a start may always be as large as what runs.
func drawAllowed(r *rapid.T, least, most int) power {
	load := float64(rapid.IntRange(least, most).Draw(r, "allowed"))
	return power{load: load, watts: load * rapid.SampledFrom([]float64{0.6, 1}).Draw(r, "watts"), start: load * rapid.SampledFrom([]float64{1, 1.5, 4}).Draw(r, "start")}
}

// only bounds the VA alone.
func only(va float64) power { return power{load: va, watts: math.Inf(1), start: math.Inf(1)} }

// The search equals trying everything, on random small sets: the same cost, or none for both.
func TestSchedule_EqualsTryingEverything(t *testing.T) {
	feasible, none := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(1, 9).Draw(r, "slots")
		jobs := drawJobs(r, 3, 5)
		allowed := drawAllowed(r, 3, 9)
		want := brute(jobs, slots, allowed)
		got := schedule(effort.New(context.Background(), Looks), jobs, slots, allowed)
		require.True(r, got.proven)
		require.Equal(r, !math.IsInf(want, 1), got.ok)
		if !got.ok {
			none++
			return
		}
		feasible++
		assert.InDelta(r, want, got.cost, 1e-6)
		check(r, jobs, got, slots, allowed)
	})
	assert.Positive(t, feasible)
	assert.Positive(t, none, "some sets have no timetable")
}

// Two states have the same place just where the jobs that are the same can be told apart by nothing but their order.
func TestPlace_IsBlindToTheOrderOfTheSame(t *testing.T) {
	a, b := job{wait: 5, turn: 1, cost: 1}, job{wait: 5, turn: 2, cost: 1}
	s := newSearcher(nil, []job{a, b, a, b, a}, 9, only(5))
	place := func(phases ...int16) place {
		n := state{at: 3}
		copy(n.phases[:], phases)
		return s.place(&n)
	}
	assert.Equal(t, place(1, 7, 2, 8, 3), place(3, 8, 1, 7, 2))
	assert.Equal(t, place(1, 7, 1, 8, 3), place(3, 8, 1, 7, 1))
	assert.NotEqual(t, place(1, 7, 2, 8, 3), place(7, 1, 2, 8, 3))
	assert.NotEqual(t, place(1, 7, 2, 8, 3), place(1, 7, 2, 8, 2))
}

// check wants every waiting limit kept, whole turns, the power held, and the cost that is claimed.
func check(t require.TestingT, jobs []job, f found, slots int, allowed power) {
	require.Len(t, f.slots, slots)
	cost := 0.0
	for i, j := range jobs {
		off, run := 0, 0
		for slot, on := range f.slots {
			if on[i] {
				off, run = 0, run+1
				cost += j.cost
				continue
			}
			require.Zero(t, run%j.turn, "job %d: a turn is cut at slot %d", i, slot)
			off, run = off+1, 0
			require.LessOrEqual(t, off, j.wait, "job %d waits too long at slot %d", i, slot)
		}
	}
	for slot, on := range f.slots {
		require.True(t, borne(jobs, on, allowed, 1e-6), "slot %d", slot)
	}
	require.InDelta(t, cost, f.cost, 1e-6*(1+cost))
	require.LessOrEqual(t, f.bound, f.cost*(1+1e-9))
}

// Large sets: whatever is found breaks no limit, and costs no less than its bound.
func TestSchedule_LargeSetsBreakNoLimit(t *testing.T) {
	found := 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(20, 96).Draw(r, "slots")
		jobs := drawJobs(r, 5, 24)
		allowed := drawAllowed(r, 4, 15)
		if got := schedule(effort.New(context.Background(), Looks), jobs, slots, allowed); got.ok {
			found++
			check(r, jobs, got, slots, allowed)
			require.GreaterOrEqual(r, got.cost*(1+1e-9), alone(jobs, slots))
		}
	})
	assert.Positive(t, found)
}

// The rules of thumb, by themselves, break no limit either, and are never below the bound.
func TestOrTry_BreaksNoLimit(t *testing.T) {
	found := 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(5, 60).Draw(r, "slots")
		jobs := drawJobs(r, 20, 20)
		allowed := drawAllowed(r, 5, 40)
		if got := orTry(jobs, slots, allowed, alone(jobs, slots)); got.ok {
			found++
			check(r, jobs, got, slots, allowed)
		}
	})
	assert.Positive(t, found)
}

// By hand: off for 2 at most, turns of 1, 8 slots: on in the 3rd and the 6th, and nowhere else will two turns do. So of two such
// jobs that may not be on together one needs a third turn; over 7 slots there is a slot to spare, and it does not.
func TestSchedule_ByHand(t *testing.T) {
	one := job{wait: 2, turn: 1, cost: 10, power: power{load: 5}}
	f := schedule(effort.New(context.Background(), Looks), []job{one}, 8, only(5))
	require.True(t, f.ok)
	assert.Equal(t, 20.0, f.cost)
	assert.Equal(t, [][]bool{{false}, {false}, {true}, {false}, {false}, {true}, {false}, {false}}, f.slots)
	assert.Equal(t, 50.0, schedule(effort.New(context.Background(), Looks), []job{one, one}, 8, only(5)).cost)
	assert.Equal(t, 40.0, schedule(effort.New(context.Background(), Looks), []job{one, one}, 7, only(5)).cost)
	assert.False(t, schedule(effort.New(context.Background(), Looks), []job{{wait: 1, turn: 1, cost: 1, power: power{load: 5}}, {wait: 1, turn: 2, cost: 1, power: power{load: 5}}}, 8, only(5)).ok)
}

// By hand: a small motor of 2 VA that starts with 9, and a lamp of 3 VA. Both run within 5 VA, but the start beside the lamp is
// 12: within 12 two slots of eight are enough for both at once, within 9 they may not meet, as by TestSchedule_ByHand one gets a third.
func TestSchedule_CountsAStartBesideTheRest(t *testing.T) {
	motor := job{wait: 2, turn: 1, cost: 10, power: power{load: 2, watts: 1, start: 9}}
	lamp := job{wait: 2, turn: 1, cost: 10, power: power{load: 3, watts: 3}}
	assert.Equal(t, 40.0, schedule(effort.New(context.Background(), Looks), []job{motor, lamp}, 8, power{load: 5, watts: 5, start: 12}).cost)
	assert.Equal(t, 50.0, schedule(effort.New(context.Background(), Looks), []job{motor, lamp}, 8, power{load: 5, watts: 5, start: 9}).cost)
	assert.Equal(t, 50.0, schedule(effort.New(context.Background(), Looks), []job{motor, lamp}, 8, power{load: 5, watts: 3, start: 12}).cost, "together they want 4 W")
}

// A search that is given up, for want of work or of anybody who waits, claims nothing that it has not proven.
func TestSchedule_GivenUpClaimsNothing(t *testing.T) {
	proven, open := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(4, 30).Draw(r, "slots")
		jobs := drawJobs(r, 4, 12)
		allowed := drawAllowed(r, 3, 12)
		want := schedule(nil, jobs, slots, allowed)
		got := schedule(effort.New(context.Background(), rapid.IntRange(0, 300).Draw(r, "looks")), jobs, slots, allowed)
		if want.ok {
			require.LessOrEqual(r, got.bound, want.cost*(1+1e-9))
		}
		if got.ok {
			check(r, jobs, got, slots, allowed)
		}
		if !got.proven {
			open++
			return
		}
		proven++
		require.Equal(r, want.ok, got.ok)
		if got.ok {
			assert.InDelta(r, want.cost, got.cost, 1e-6)
		}
	})
	assert.Positive(t, proven)
	assert.Positive(t, open)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	one := job{wait: 2, turn: 1, cost: 10, power: power{load: 5}}
	assert.False(t, schedule(effort.New(ctx, Looks), []job{one, {wait: 1, turn: 1, cost: 3, power: power{load: 2}}}, 90, only(5)).proven)
}
