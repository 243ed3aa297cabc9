package waiting

import "slices"

// leadsTried bounds the rules of thumb, and leadLooks what all of them look at: a job in a slot is one.
const (
	leadsTried = 24
	leadLooks  = 4_000_000
)

// orTry is for more than the search can see through: rules of thumb that start each job some slots before it must, the most
// urgent first, and of all of them the cheapest that breaks no limit. bound is what is proven of the best.
func orTry(jobs []job, slots int, allowed power, bound float64) found {
	most := 0
	for _, j := range jobs {
		most = max(most, j.wait)
	}
	best := found{bound: bound}
	tried := max(1, min(leadsTried, leadLooks/(len(jobs)*slots)))
	for lead := 0; lead <= most; lead += 1 + most/tried {
		if f, ok := withLead(jobs, slots, allowed, lead); ok && (!best.ok || f.cost < best.cost) {
			best.slots, best.cost, best.ok = f.slots, f.cost, true
		}
	}
	best.proven = best.ok && best.cost <= bound*(1+1e-9)
	return best
}

// withLead goes through the slots and starts a job when it has no more than lead slots left to wait and the power is free; ok is
// false as soon as one waits too long.
func withLead(jobs []job, slots int, allowed power, lead int) (f found, ok bool) {
	phase := make([]int, len(jobs))
	order := make([]int, len(jobs))
	for i := range order {
		order[i] = i
	}
	on := make([]bool, len(jobs))
	for range slots {
		var sum together
		for i := range jobs {
			if on[i] = phase[i] < 0; on[i] {
				sum.add(jobs[i])
			}
		}
		slack := func(i int) int { return jobs[i].wait - phase[i] }
		slices.SortStableFunc(order, func(a, b int) int { return slack(a) - slack(b) })
		for _, i := range order {
			if on[i] || slack(i) > lead {
				continue
			}
			with := sum
			with.add(jobs[i])
			switch on[i] = allowed.bear(with); {
			case on[i]:
				sum = with
			case slack(i) == 0:
				return found{}, false
			}
		}
		f.cost += advance(jobs, phase, on)
		f.slots = append(f.slots, slices.Clone(on))
	}
	return f, true
}

// advance lets one slot pass and gives its cost.
func advance(jobs []job, phase []int, on []bool) (cost float64) {
	for i, j := range jobs {
		switch {
		case !on[i]:
			phase[i]++
			continue
		case phase[i] < 0:
			phase[i]++
		default:
			phase[i] = 1 - j.turn
		}
		cost += j.cost
	}
	return cost
}
