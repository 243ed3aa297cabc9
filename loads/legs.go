package loads

import (
	"math/cmplx"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A LegSplit says how the running total lies on the two legs of a split-phase service, and how the circuits should be
// split. On a service of one leg everything lies on A.
type LegSplit struct {
	A, B     Power          // running total on each leg
	Heaviest units.VoltAmps // the heavier leg over every turn of the rotated circuits
	Neutral  units.Amps     // in the neutral, when everything of the running total is on
	Of       []string       // leg of each load, in the order of Demand.Loads: "A", "B" or "both"
	Moves    []string       // circuits to move to the other leg, when the legs given are poor
	Better   units.VoltAmps // what the heavier leg would be after the moves
	Proven   bool           // the split is proven the best, not only within Gap of it
	Gap      units.VoltAmps // at most so far from the best
}

// Heavier is the larger of the two legs of the running total.
func (s LegSplit) Heavier() units.VoltAmps { return max(s.A.VA(), s.B.VA()) }

// poorLegs is how much heavier than the best split the given legs must be before moves are proposed (common practice, no
// source).
const poorLegs = 1.10

// splitLegs splits the loads of the largest turn exactly, then sets each other rotated circuit where it hurts least.
func splitLegs(house *home.Home, loads []Load) LegSplit {
	if house.House.Service != home.SplitPhase {
		return oneLeg(house, loads)
	}
	largest := largestTurn(loads)
	set := make([]*Load, 0, len(loads))
	for i := range loads {
		if loads[i].Care == home.Keep || &loads[i] == largest {
			set = append(set, &loads[i])
		}
	}
	split, legs := bestSplit(set, loads, false)
	for i := range loads {
		if l := &loads[i]; legs[l.Name] == "" {
			legs[l.Name] = lighterPlace(l, loads, legs, split, largest)
		}
	}
	split.Of = make([]string, len(loads))
	for i := range loads {
		split.Of[i] = legs[loads[i].Name]
	}
	split.Heaviest = heaviestTurn(loads, split.Of)
	split.Neutral = units.Amps(cmplx.Abs(complex128(split.A-split.B)) / 120)
	split.proposeMoves(set, loads, legs)
	return split
}

func oneLeg(house *home.Home, loads []Load) LegSplit {
	sum := kept(loads)
	if turn := largestTurn(loads); turn != nil {
		sum += turn.Running
	}
	split := LegSplit{A: sum, Heaviest: sum.VA(), Proven: true, Of: make([]string, len(loads))}
	split.Neutral = units.Amps(float64(sum.VA()) / float64(house.House.Service.LegVolts()))
	for i := range split.Of {
		split.Of[i] = "A"
	}
	return split
}

// largestTurn is the rotated circuit that makes the running total largest, or nil.
func largestTurn(loads []Load) *Load {
	base := kept(loads)
	var largest *Load
	for _, turn := range turns(loads)[1:] {
		if largest == nil || (base+turn.Running).VA() > (base+largest.Running).VA() {
			largest = turn
		}
	}
	return largest
}

// both says whether the circuit lies across the two legs.
func both(c *home.Circuit) bool { return c.Volts > 130 }

// bestSplit puts the circuits of a set, one turn of all the loads, on legs. free ignores the legs the file gives.
func bestSplit(set []*Load, all []Load, free bool) (LegSplit, map[string]string) {
	var s splitter
	legs := map[string]string{}
	var movable [][2]*Load // a circuit and its multiwire partner, if that is in the set
	done := map[string]bool{}
	for _, l := range set {
		s.total += complex128(l.Running)
		if both(l.Circuit) {
			legs[l.Name] = "both"
			continue
		}
		if done[l.Name] {
			continue
		}
		partner := partnerOf(l, set)
		done[l.Name] = true
		difference := complex128(l.Running)
		if partner != nil {
			done[partner.Name] = true
			difference -= complex128(partner.Running)
		}
		leg := givenLeg(l, all)
		if leg == "auto" || free {
			movable = append(movable, [2]*Load{l, partner})
			s.items = append(s.items, difference/2)
			continue
		}
		if leg == "B" {
			difference = -difference
		}
		s.fixed += difference / 2
		place(legs, l, partner, leg)
	}
	signs := s.solve()
	for i, pair := range movable {
		place(legs, pair[0], pair[1], map[bool]string{true: "A", false: "B"}[signs[i]])
	}
	half := s.total / 2
	return LegSplit{A: Power(half + s.best), B: Power(half - s.best), Proven: s.proven(), Gap: units.VoltAmps(s.gap())}, legs
}

// partnerOf finds the multiwire partner of a load in the set, whichever of the two names the other.
func partnerOf(l *Load, set []*Load) *Load {
	for _, other := range set {
		if other.partners(l) {
			return other
		}
	}
	return nil
}

// partners says whether two circuits are a multiwire pair, whichever of them names the other.
func (l *Load) partners(other *Load) bool {
	return l != other && (l.SharesWith == other.Name || other.SharesWith == l.Name)
}

// givenLeg is the leg that the file gives a load, or the one opposite to its multiwire partner's.
func givenLeg(l *Load, all []Load) string {
	if l.Leg != "auto" {
		return l.Leg
	}
	for i := range all {
		if other := &all[i]; other.partners(l) && !both(other.Circuit) {
			return opposite(other.Leg)
		}
	}
	return l.Leg
}

func opposite(leg string) string {
	switch leg {
	case "A":
		return "B"
	case "B":
		return "A"
	}
	return leg
}

func place(legs map[string]string, l, partner *Load, leg string) {
	legs[l.Name] = leg
	if partner != nil {
		legs[partner.Name] = opposite(leg)
	}
}

// lighterPlace is the leg for a rotated circuit outside the largest turn.
func lighterPlace(l *Load, all []Load, legs map[string]string, split LegSplit, largest *Load) string {
	if both(l.Circuit) {
		return "both"
	}
	if leg := givenLeg(l, all); leg != "auto" {
		return leg
	}
	for i := range all {
		if other := &all[i]; other.partners(l) && legs[other.Name] != "" {
			return opposite(legs[other.Name])
		}
	}
	a, b := split.A, split.B
	switch legs[largest.Name] {
	case "A":
		a -= largest.Running
	case "B":
		b -= largest.Running
	}
	if (a + l.Running).VA() <= (b + l.Running).VA() {
		return "A"
	}
	return "B"
}

// heaviestTurn is the heavier leg over every turn.
func heaviestTurn(loads []Load, of []string) units.VoltAmps {
	var heaviest units.VoltAmps
	var a, b Power
	add := func(i int, sign Power) {
		switch of[i] {
		case "A":
			a += sign * loads[i].Running
		case "B":
			b += sign * loads[i].Running
		default:
			a += sign * loads[i].Running / 2
			b += sign * loads[i].Running / 2
		}
	}
	for i := range loads {
		if loads[i].Care == home.Keep {
			add(i, 1)
		}
	}
	heaviest = max(a.VA(), b.VA())
	for i := range loads {
		if loads[i].Care == home.Rotate {
			add(i, 1)
			heaviest = max(heaviest, a.VA(), b.VA())
			add(i, -1)
		}
	}
	return heaviest
}

// proposeMoves compares the given legs with the best split of all and lists the fewest circuits to move.
func (s *LegSplit) proposeMoves(set []*Load, all []Load, legs map[string]string) {
	given := slices.ContainsFunc(set, func(l *Load) bool { return l.Leg != "auto" })
	if !given {
		return
	}
	best, bestLegs := bestSplit(set, all, true)
	if s.Heavier() <= units.VoltAmps(poorLegs)*best.Heavier() {
		return
	}
	var straight, mirrored []string
	for _, l := range set {
		if l.Leg == "auto" {
			continue
		}
		if bestLegs[l.Name] != legs[l.Name] {
			straight = append(straight, l.Name)
		} else {
			mirrored = append(mirrored, l.Name)
		}
	}
	s.Moves, s.Better = straight, best.Heavier()
	if len(mirrored) < len(straight) {
		s.Moves = mirrored
	}
}
