package waiting

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/planner/effort"
)

// A plain job is one by its duty and wait alone, from which brute works all else out.
type plain struct {
	duty float64 // a whole number of sixteenths, so that sums of it are exact
	wait int     // slots
	cost float64
}

func jobsOf(plains []plain) (jobs []job) {
	for _, p := range plains {
		jobs = append(jobs, newJob(p.duty, float64(p.wait), p.cost))
	}
	return jobs
}

// keeps says whether a timetable keeps each job's limit, by the words of the rule: in no stretch is there more time off to make up
// for than the longest wait leaves, time on making up for (1 − d)/d of itself.
func keeps(plains []plain, on []int) bool {
	for i, p := range plains {
		for from := range on {
			owed := 0.0
			for _, now := range on[from:] {
				if owed += p.duty; now == i {
					owed--
				}
				if owed > p.duty*float64(p.wait)+1e-9 {
					return false
				}
			}
		}
	}
	return true
}

// brute tries every way to have one job or none on in each slot, and gives the least cost, +Inf where there is no way.
func brute(plains []plain, slots int) float64 {
	best := math.Inf(1)
	on := make([]int, slots)
	var fill func(at int, cost float64)
	fill = func(at int, cost float64) {
		if cost >= best || !keeps(plains, on[:at]) {
			return
		}
		if at == slots {
			best = cost
			return
		}
		on[at] = idle
		fill(at+1, cost)
		for i, p := range plains {
			on[at] = i
			fill(at+1, cost+p.cost)
		}
	}
	fill(0, 0)
	return best
}

func drawPlains(r *rapid.T, most, longest int) []plain {
	plains := make([]plain, rapid.IntRange(1, most).Draw(r, "jobs"))
	for i := range plains {
		plains[i] = plain{duty: float64(rapid.IntRange(1, 14).Draw(r, "sixteenths")) / 16, wait: rapid.IntRange(1, longest).Draw(r, "wait"),
			cost: float64(rapid.IntRange(1, 50).Draw(r, "cost"))}
		if i > 0 && rapid.IntRange(0, 2).Draw(r, "like another") == 0 {
			plains[i] = plains[rapid.IntRange(0, i-1).Draw(r, "which")]
		}
	}
	return plains
}

// plenty is more than any of these tests needs.
func plenty() *effort.Meter { return effort.New(context.Background(), 1<<40) }

// costOf is what a timetable costs.
func costOf(plains []plain, on []int) (cost float64) {
	for _, i := range on {
		if i != idle {
			cost += plains[i].cost
		}
	}
	return cost
}

// check holds what was found to the rule, and its claims to what brute force knows.
func check(t require.TestingT, plains []plain, slots int, f found, least float64) {
	if f.on == nil {
		return
	}
	require.Len(t, f.on, slots)
	require.True(t, keeps(plains, f.on), "%v %v", plains, f.on)
	require.InDelta(t, costOf(plains, f.on), f.cost, 1e-6)
	require.LessOrEqual(t, f.bound, least*(1+1e-9))
	if f.proven {
		require.InDelta(t, least, f.cost, 1e-6)
	}
}

// There is a timetable just where trying everything finds one, with the rules of thumb and by the search alone; what is called the
// best is.
func TestSchedule_EqualsTryingEverything(t *testing.T) {
	some, none, searched, best := 0, 0, 0, 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(1, 9).Draw(r, "slots")
		plains := drawPlains(r, 4, 5)
		jobs := jobsOf(plains)
		least := brute(plains, slots)
		for _, f := range []found{schedule(plenty(), jobs, slots, true), search(plenty(), jobs, slots)} {
			require.Equal(r, !math.IsInf(least, 1), f.on != nil)
			check(r, plains, slots, f, least)
		}
		f := byRule(plenty(), jobs, slots)
		check(r, plains, slots, f, least)
		switch {
		case math.IsInf(least, 1):
			none++
			require.True(r, schedule(plenty(), jobs, slots, true).proven)
			require.Nil(r, f.on)
		case f.on == nil:
			searched++
		case f.proven:
			best++
		default:
			some++
		}
	})
	assert.Positive(t, some, "found, and not proven the best")
	assert.Positive(t, best)
	assert.Positive(t, none)
	assert.Positive(t, searched, "the rules find none, the search does")
}

// What no timetable can do within some slots it cannot do in more; [alone] is the reason where it says so.
func TestAlone_IsABound(t *testing.T) {
	short := 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(1, 8).Draw(r, "slots")
		plains := drawPlains(r, 3, 5)
		jobs := jobsOf(plains)
		cost, lasts := alone(jobs, make([]int32, len(jobs)), slots)
		if lasts < slots {
			short++
			require.Equal(r, math.Inf(1), brute(plains, lasts+1))
			return
		}
		sum := 0.0
		for _, p := range plains {
			sum += brute([]plain{p}, slots)
		}
		require.InDelta(r, sum, cost, 1e-6)
	})
	assert.Positive(t, short)
}

// By hand: a quarter of the time and off for 2 at most, so never more than a half of a slot is owed: on in the 3rd slot, which pays
// it all, and in the 6th. Of two such jobs one begins a slot sooner and needs a third slot of eight, and of seven it does not.
func TestSchedule_ByHand(t *testing.T) {
	one := plain{duty: 0.25, wait: 2, cost: 10}
	f := schedule(plenty(), jobsOf([]plain{one}), 8, true)
	assert.Equal(t, []int{-1, -1, 0, -1, -1, 0, -1, -1}, f.on)
	assert.True(t, f.proven)
	assert.Equal(t, 50.0, schedule(plenty(), jobsOf([]plain{one, one}), 8, true).cost)
	assert.Equal(t, 40.0, schedule(plenty(), jobsOf([]plain{one, one}), 7, true).cost)
	half := plain{duty: 0.5, wait: 1, cost: 1}
	assert.NotNil(t, schedule(plenty(), jobsOf([]plain{half, half}), 8, true).on)
	assert.Nil(t, schedule(plenty(), jobsOf([]plain{half, half, one}), 8, true).on)
}

// By hand: three that can be off for one slot at a stretch do not all get one of the first two.
func TestAlone_SaysForHowLong(t *testing.T) {
	one := newJob(0.25, 1, 1)
	for n, want := range map[int]int{1: 9, 2: 9, 3: 1} {
		_, lasts := alone(slices.Repeat([]job{one}, n), make([]int32, n), 9)
		assert.Equal(t, want, lasts, n)
	}
}

// No job may owe too much even for a slot, also where the rest of the search depends on it.
func TestSearch_KeepsEveryLimit(t *testing.T) {
	plains := []plain{{duty: 0.6875, wait: 5}, {duty: 0.0625, wait: 1}, {duty: 0.0625, wait: 4}}
	check(t, plains, 9, search(plenty(), jobsOf(plains), 9), 0)
}

// While nothing presses, a job that owes little is not on: of slots of 5 min in three days, two that may be off for 20 min and for
// 2 h and hardly draw anything leave enough for two that want five sixths of the time.
func TestByRule_WastesNoSlot(t *testing.T) {
	jobs := []job{newJob(0.0001, 24, 1), newJob(1.0/3, 96, 1), newJob(0.5, 144, 1), newJob(0.0002, 4, 1)}
	assert.NotNil(t, byRule(plenty(), jobs, 864).on)
}

// Two circuits that can wait a while, and together leave a tenth of the time, always have a timetable, however their waits differ:
// the one that can wait longer need not, and then has shorter turns.
func TestSchedule_TwoThatLeaveTimeAlwaysHaveOne(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		a := rapid.Float64Range(0.01, 0.89).Draw(r, "one")
		b := rapid.Float64Range(0.01, 0.9-a).Draw(r, "other")
		wait := rapid.IntRange(20, 300)
		jobs := []job{newJob(a, float64(wait.Draw(r, "wait of one")), 1), newJob(b, float64(wait.Draw(r, "wait of other")), 1)}
		require.NotNil(r, schedule(effort.New(context.Background(), Looks), jobs, rapid.IntRange(300, 900).Draw(r, "slots"), true).on)
	})
}

// Two states have the same key just where the jobs that are alike can be told apart by nothing but their order.
func TestKey_IsBlindToTheOrderOfTheSame(t *testing.T) {
	a, b := newJob(0.2, 5, 1), newJob(0.4, 5, 1)
	s := searcher{jobs: []job{a, b, a, b, a}}
	key := func(owed ...int32) (k debts) {
		copy(k[:], owed)
		return s.key(k)
	}
	assert.Equal(t, key(1, 7, 2, 8, 3), key(3, 8, 1, 7, 2))
	assert.Equal(t, key(1, 7, 1, 8, 3), key(3, 8, 1, 7, 1))
	assert.NotEqual(t, key(1, 7, 2, 8, 3), key(7, 1, 2, 8, 3))
	assert.NotEqual(t, key(1, 7, 2, 8, 3), key(1, 7, 2, 8, 2))
}

// A search that is given up, for want of work or of anybody who waits, claims nothing that it has not proven.
func TestSchedule_GivenUpClaimsNothing(t *testing.T) {
	settled, open := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		slots := rapid.IntRange(4, 16).Draw(r, "slots")
		plains := drawPlains(r, 4, 8)
		jobs := jobsOf(plains)
		want := schedule(plenty(), jobs, slots, true)
		got := schedule(effort.New(context.Background(), rapid.IntRange(0, 60).Draw(r, "looks")), jobs, slots, true)
		switch {
		case got.on != nil:
			require.True(r, keeps(plains, got.on))
			require.NotNil(r, want.on)
		case got.proven:
			settled++
			require.Nil(r, want.on)
		default:
			open++
		}
	})
	assert.Positive(t, settled)
	assert.Positive(t, open)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	f := schedule(effort.New(ctx, Looks), jobsOf([]plain{{duty: 0.25, wait: 2, cost: 10}}), 90, true)
	assert.False(t, f.on != nil || f.proven)
}

// For more jobs than the search can see through there is a timetable or none is found, and of the latter only what [alone] shows is
// proven.
func TestSchedule_OfMany(t *testing.T) {
	found := 0
	rapid.Check(t, func(r *rapid.T) {
		plains := make([]plain, rapid.IntRange(mostJobs+1, 40).Draw(r, "jobs"))
		for i := range plains {
			plains[i] = plain{duty: 1.0 / 64, wait: rapid.IntRange(20, 90).Draw(r, "wait"), cost: 1}
		}
		jobs := jobsOf(plains)
		f := schedule(plenty(), jobs, 120, true)
		if f.on == nil {
			_, lasts := alone(jobs, make([]int32, len(jobs)), 120)
			require.Equal(r, lasts < 120, f.proven)
			return
		}
		found++
		require.True(r, keeps(plains, f.on))
	})
	assert.Positive(t, found)
}

// many are jobs of all waits that want so much of the time between them.
func many(n int, share float64) (jobs []job) {
	for i := range n {
		jobs = append(jobs, newJob(share/float64(n), float64(2*n+37*i%(3*n)), 1))
	}
	return jobs
}

func benchmarkSchedule(b *testing.B, jobs []job, slots int, want bool) {
	b.ReportAllocs()
	for b.Loop() {
		if f := schedule(effort.New(context.Background(), Looks), slices.Clone(jobs), slots, true); (f.on != nil) != want {
			b.Fatal("the other answer was looked for")
		}
	}
}

func BenchmarkSchedule100(b *testing.B)        { benchmarkSchedule(b, many(100, 0.4), 864, true) }
func BenchmarkSchedule300(b *testing.B)        { benchmarkSchedule(b, many(300, 0.4), 2016, true) }
func BenchmarkSchedule300TooMany(b *testing.B) { benchmarkSchedule(b, many(300, 3), 2016, false) }

// Nothing shows at once that there is none of these, and the search comes to the end of its budget.
func BenchmarkScheduleGivenUp(b *testing.B) {
	benchmarkSchedule(b, []job{newJob(0.021, 72, 1), newJob(0.021, 6, 1), newJob(0.583, 48, 1), newJob(0.042, 4, 1), newJob(0.25, 12, 1), newJob(0.007, 96, 1)}, 144, false)
}
