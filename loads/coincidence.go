package loads

import (
	"math"
	"slices"

	"holdover/loads/home"
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

// Exceeded is the demand that is exceeded at most a share of the time, 0 to 1, over a whole design day. It takes longer than all
// else of a demand.
func (d *Demand) Exceeded(p float64) units.Watts {
	loads, total := d.Loads, 0.0
	for i := range loads {
		total += math.Max(float64(loads[i].Running.W()), 0)
	}
	if total == 0 {
		return 0
	}
	points := max(256, min(latticePoints, convolutionBudget/(24*len(loads))))
	step := math.Max(1, math.Ceil(total/float64(points)))
	sum := make([]float64, int(total/step)+len(loads)+2)
	steady := newSpread(len(sum))
	for i := range loads {
		if l := &loads[i]; l.Care != home.Rotate && isSteady(l) {
			steady.add([]level{l.level(0, step)})
		}
	}
	for _, group := range distinctHours(loads) {
		hour := steady.clone()
		hour.addHour(loads, group[0], step)
		for i, share := range hour.share[:hour.top+1] {
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

// A spread is how likely each sum of draws is, by lattice steps; it is zero above top.
type spread struct {
	share, spare []float64
	top          int
}

func newSpread(size int) *spread {
	s := &spread{share: make([]float64, size), spare: make([]float64, size)}
	s.share[0] = 1
	return s
}

func (s *spread) clone() *spread {
	return &spread{share: slices.Clone(s.share), spare: s.spare, top: s.top}
}

// A level is one draw, in lattice steps, and the share of the time it is drawn.
type level struct {
	steps int
	share float64
}

// level is a load's draw in a clock hour, rounded up to the lattice.
func (l *Load) level(hour int, step float64) level {
	return level{int(math.Ceil(float64(l.Running.W())/step - 1e-9)), l.Duty[hour]}
}

func isSteady(l *Load) bool {
	for _, duty := range l.Duty {
		if duty != l.Duty[0] {
			return false
		}
	}
	return true
}

// addHour adds what differs from hour to hour: loads of changing duty, and the rotated ones. Those take turns, so together
// they are one load of several levels, and none of them for what is left of the time.
func (s *spread) addHour(loads []Load, hour int, step float64) {
	var turns []level
	rotating := 0.0
	for i := range loads {
		switch l := &loads[i]; {
		case l.Care == home.Rotate:
			turns = append(turns, l.level(hour, step))
			rotating += l.Duty[hour]
		case !isSteady(l):
			s.add([]level{l.level(hour, step)})
		}
	}
	if rotating > 1 {
		for i := range turns {
			turns[i].share /= rotating
		}
	}
	if len(turns) > 0 {
		s.add(turns)
	}
}

// add convolves with one more load of so many levels, of which one at a time is drawn.
func (s *spread) add(levels []level) {
	highest, off := 0, 1.0
	for _, l := range levels {
		highest = max(highest, l.steps)
		off -= l.share
	}
	next := s.spare[:s.top+highest+1]
	clear(next)
	for i, share := range s.share[:s.top+1] {
		next[i] += share * max(0, off)
	}
	for _, l := range levels {
		for i, share := range s.share[:s.top+1] {
			next[i+l.steps] += share * l.share
		}
	}
	s.share, s.spare = s.spare, s.share
	s.top += highest
}
