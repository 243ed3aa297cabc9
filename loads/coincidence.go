package loads

import (
	"math"

	"holdover/loads/units"
)

// This file asks how likely the certain bound is: the distribution of coincident demand, with each circuit on or off by
// its duty and independent of the rest, convolved exactly on a lattice of whole watts (a coarser one for houses beyond
// latticePoints watts, each draw rounded up to it, so that the answer is never low).

// latticePoints bounds the lattice; convolutionBudget the work over the 24 hours of a house with many circuits.
const (
	latticePoints     = 1 << 15
	convolutionBudget = 1 << 25
)

// exceeded is the demand that is exceeded at most a share p of the time, over a whole design day.
func exceeded(loads []Load, p float64) units.Watts {
	total := 0.0
	for i := range loads {
		total += math.Max(float64(loads[i].Running.W()), 0)
	}
	if total == 0 {
		return 0
	}
	points := max(256, min(latticePoints, convolutionBudget/(24*len(loads))))
	step := math.Max(1, math.Ceil(total/float64(points)))
	sum := make([]float64, int(total/step)+len(loads)+2)
	hours := distinctHours(loads)
	for _, group := range hours {
		for i, share := range hourDistribution(loads, group[0], step, len(sum)) {
			sum[i] += share * float64(len(group)) / 24
		}
	}
	tail := 0.0
	for i := len(sum) - 1; i >= 0; i-- {
		if tail += sum[i]; tail > p {
			return units.Watts(min(float64(i)*step, total))
		}
	}
	return 0
}

// distinctHours groups the clock hours in which every circuit has the same duty, so that each is convolved once.
func distinctHours(loads []Load) [][]int {
	var groups [][]int
next:
	for h := range 24 {
		for g, group := range groups {
			if sameDuties(loads, group[0], h) {
				groups[g] = append(group, h)
				continue next
			}
		}
		groups = append(groups, []int{h})
	}
	return groups
}

func sameDuties(loads []Load, a, b int) bool {
	for i := range loads {
		if loads[i].Duty[a] != loads[i].Duty[b] {
			return false
		}
	}
	return true
}

// hourDistribution convolves one clock hour. Rotated circuits take turns, so together they are one load of several
// levels, none of them with what is left of the time.
func hourDistribution(loads []Load, hour int, step float64, size int) []float64 {
	dist, next := make([]float64, size), make([]float64, size)
	dist[0] = 1
	top := 0
	var levels []level
	rotating := 0.0
	for i := range loads {
		l := &loads[i]
		at := level{int(math.Ceil(float64(l.Running.W())/step - 1e-9)), l.Duty[hour]}
		if l.Care == Rotate {
			levels = append(levels, at)
			rotating += at.share
			continue
		}
		top = convolve(next, dist, top, []level{at}, 1-at.share)
		dist, next = next, dist
	}
	if len(levels) == 0 {
		return dist
	}
	if rotating > 1 {
		for i := range levels {
			levels[i].share /= rotating
		}
		rotating = 1
	}
	convolve(next, dist, top, levels, 1-rotating)
	return next
}

// A level is one draw, in lattice steps, and the share of the time it is drawn.
type level struct {
	steps int
	share float64
}

// convolve writes into next the distribution dist (nonzero up to top) with one more load, and returns the new top.
func convolve(next, dist []float64, top int, levels []level, off float64) int {
	highest := 0
	for _, l := range levels {
		highest = max(highest, l.steps)
	}
	for i := range next[:top+highest+1] {
		next[i] = 0
	}
	for i, share := range dist[:top+1] {
		next[i] += share * off
	}
	for _, l := range levels {
		for i, share := range dist[:top+1] {
			next[i+l.steps] += share * l.share
		}
	}
	return top + highest
}
