package loads

import (
	"math"
	"math/cmplx"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A LegSplit says on which leg of a split-phase service each circuit lies, and what that asks of the legs. On a service of one
// leg everything lies on A.
type LegSplit struct {
	A, B     Power          // running total on each leg, in the turn in which it is largest; A is the heavier where no leg is given
	Heaviest units.VoltAmps // the heavier leg over every turn of the rotated circuits
	Neutral  units.Amps     // in the neutral, when everything of the running total is on
	Of       []string       // leg of each load, in the order of Demand.Loads: "A", "B" or "both"
	Moves    []string       // circuits to move to the other leg, when the legs given are poor
	Better   units.VoltAmps // what the heavier leg would be after the moves
	Stress   float64        // largest share of a limit, over legs, turns and starts; above 1 is too much
	Bound    float64        // no assignment has less stress
	Proven   bool           // the stress is the least there is, to two millionths of it; if not, the search came to the end of its budget
	Binds    LegMoment      // where the stress is
}

// poorLegs is how much heavier than the best split the given legs must be before moves are proposed (common practice, no
// source).
const poorLegs = 1.10

// Assign puts the circuits on legs such that the stress is least: the largest share of a limit that running or a start takes
// on either leg in any turn, in which nothing or one rotated circuit is on beside all that is kept. All units of a circuit lie on
// one leg; a circuit of 240 V lies half on each, and so does its start. A circuit that the file gives a leg stays there, and the
// halves of a shared neutral lie on opposite legs. home is the one that the demand was worked out from.
//
// Under the limits of a source of 1 VA the stress is the least rating, in VA, that serves of all sources with their ratios.
func (d *Demand) Assign(house *home.Home, limits LegLimits) LegSplit {
	return d.assign(house, limits, d.givenLegs(house))
}

// assign puts the circuits on legs, those of a split-phase service as far as they are not given one.
func (d *Demand) assign(house *home.Home, limits LegLimits, given []place) LegSplit {
	split := LegSplit{Of: make([]string, len(d.Loads)), Proven: true}
	if house.House.Service == home.SplitPhase {
		s := newSplitter(d.Loads, given, limits, split.Of)
		split.Proven, split.Bound = s.solve(split.Of)
		if split.sum(d); s.mirror && split.B.VA() > split.A.VA() {
			split.swap()
		}
	} else {
		for i := range split.Of {
			split.Of[i] = "A"
		}
		split.Bound = math.Inf(1)
		split.sum(d)
	}
	split.Neutral = units.Amps(cmplx.Abs(complex128(split.A-split.B)) / float64(house.House.Service.LegVolts()))
	split.Binds = d.Hardest(split.Of, limits)
	split.Stress = split.Binds.Stress
	split.Bound = min(split.Bound, split.Stress) // sums in another order may differ in the last place
	split.Heaviest = units.VoltAmps(split.Stress)
	if limits != heavierLeg() {
		split.Heaviest = units.VoltAmps(d.Hardest(split.Of, heavierLeg()).Stress)
	}
	return split
}

// sum works out what lies on the legs in the largest turn.
func (s *LegSplit) sum(d *Demand) {
	largest := largestTurn(d.Loads)
	for i := range d.Loads {
		if l := &d.Loads[i]; l.Care == home.Keep || l == largest {
			s.A += partOn(s.Of[i], "A") * l.Running
			s.B += partOn(s.Of[i], "B") * l.Running
		}
	}
}

// swap takes the one leg for the other.
func (s *LegSplit) swap() {
	s.A, s.B = s.B, s.A
	for i := range s.Of {
		s.Of[i] = opposite(s.Of[i])
	}
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

// A place is what is settled about where a load lies.
type place struct {
	leg     string // "A", "B", or something else for either
	partner int    // place in Demand.Loads of the load that it shares a neutral with, -1 for none
}

// givenLegs finds partners, and the legs that the file gives: to the load itself, or to the circuit that it shares a neutral
// with, left off or not, to which it then lies opposite.
func (d *Demand) givenLegs(house *home.Home) []place {
	given := make([]place, len(d.Loads))
	for i := range d.Loads {
		given[i] = place{d.Loads[i].Leg, -1}
	}
	partners := house.Partners()
	if len(partners) == 0 {
		return given
	}
	circuits, loads := map[string]*home.Circuit{}, map[string]int{}
	for i := range house.Circuits {
		circuits[house.Circuits[i].Name] = &house.Circuits[i]
	}
	for i := range d.Loads {
		loads[d.Loads[i].Name] = i
	}
	for i := range d.Loads {
		l := &d.Loads[i]
		other := circuits[partners[l.Name]]
		if other == nil || both(l.Circuit) || both(other) {
			continue
		}
		if !isLeg(l.Leg) {
			given[i].leg = opposite(other.Leg)
		}
		if j, carried := loads[other.Name]; carried {
			given[i].partner = j
		}
	}
	return given
}

func isLeg(leg string) bool { return leg == "A" || leg == "B" }

func opposite(leg string) string {
	switch leg {
	case "A":
		return "B"
	case "B":
		return "A"
	}
	return leg
}

// proposeMoves compares the given legs with the best of all, and where they are poor lists circuits to move. Of the best legs and
// their mirror image those are taken that want fewer moves.
func (s *LegSplit) proposeMoves(d *Demand, house *home.Home, given []place) {
	free := make([]place, len(given))
	for i := range free {
		free[i] = place{"auto", given[i].partner}
	}
	if slices.Equal(free, given) {
		return
	}
	best := d.assign(house, heavierLeg(), free)
	if s.Heaviest <= poorLegs*best.Heaviest {
		return
	}
	s.Better, s.Moves = best.Heaviest, d.moves(best.Of, given)
	best.swap()
	if mirrored := d.moves(best.Of, given); len(mirrored) < len(s.Moves) {
		s.Moves = mirrored
	}
}

// moves lists the circuits that do not lie as better has them. What may as well stay where it is does.
func (d *Demand) moves(better []string, given []place) (names []string) {
	of := slices.Clone(better)
	enough := d.Hardest(of, heavierLeg()).Stress * (1 + 1e-9)
	flip := func(i int) {
		of[i] = opposite(of[i])
		if j := given[i].partner; j >= 0 {
			of[j] = opposite(of[j])
		}
	}
	astray := func(i int) bool { return isLeg(d.Loads[i].Leg) && of[i] != d.Loads[i].Leg }
	for i := range of {
		if astray(i) {
			if flip(i); d.Hardest(of, heavierLeg()).Stress > enough {
				flip(i)
			}
		}
	}
	for i := range of {
		if astray(i) {
			names = append(names, d.Loads[i].Name)
		}
	}
	return names
}
