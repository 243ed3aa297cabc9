package choose

import (
	"math"
	"sort"

	"holdover/loads/units"
)

// This file searches the grid. It is exact: a design is passed over only when something proved says that it cannot be the
// answer. What is proved:
//
//   - Price: without fuel and running hours a design costs less than it does, and that price rises with modules, charger
//     and inverter. Once it reaches the best cost so far, the row is done.
//   - Energy: the engine must give at least the load less sun and a full battery, which bounds fuel, hours and wear from below.
//   - At best: with fuel and starts without end and an engine on whenever it may be, the charge is never lower than under any start
//     policy. What is short even so is short under every policy. And so run, a design of more modules, a larger charger or
//     a stronger engine is never short where a lesser one is not: the depth below full, with the same draw and no less
//     charging, is never larger, and there is more battery above empty. So the fewest modules are found by halving.
//   - Same run: a charger beyond what battery and engine can pass, or an inverter beyond the largest draw, changes nothing
//     but the price.
//
// The tests hold it to trying every design.

// Best is the cheapest outcome of a kind that carries the house within the budget. Where none does, ok is false and the
// outcome is one that carries it beyond the budget, else the one of the strongest designs that is the fewest kWh short; it
// is the zero Outcome where there is no design of the kind at all.
func (c *Case) Best(kind Kind) (best Outcome, ok bool) {
	s := c.search(kind, units.Limit{}, math.Inf(1))
	best, ok = s.best, s.found
	switch {
	case s.found && !c.Budget.Allows(s.best.Cost.Purchase):
		ok = false
		if s = c.search(kind, c.Budget, math.Inf(1)); s.found {
			best, ok = s.best, true
		}
	case !s.found:
		proven := !s.gaveUp // that none carries; which is the nearest need not be
		s.nearest(kind)
		s.best.Proven = proven
		return s.best, false
	}
	best.Proven = !s.gaveUp
	return best, ok
}

// Choose is the kind of the cheapest design of all that carries the house within the budget, and that design.
func (c *Case) Choose() (Kind, Outcome) {
	kind, best := c.cheapest(Generator, Battery, Hybrid)
	return kind, best
}

// cheapest goes through some kinds, each only for what is cheaper than the last found.
func (c *Case) cheapest(kinds ...Kind) (kind Kind, best Outcome) {
	kind, cost, proven := None, math.Inf(1), true
	for _, k := range kinds {
		s := c.search(k, c.Budget, cost)
		proven = proven && !s.gaveUp
		if s.found {
			kind, best, cost = k, s.best, s.cost
		}
	}
	best.Proven = proven
	return kind, best
}

// ChosenKind is the kind that Choose would choose. It need not know the best hybrid, only whether one is cheaper than the
// other kinds' best, so it stops at the first that is: the outcome is of some design of the kind, and proven is that the kind is
// the answer. hint is a hybrid that may well be one, such as the answer to a question alike, or the zero Design.
func (c *Case) ChosenKind(hint Design) (Kind, Outcome) {
	kind, best := c.cheapest(Generator, Battery)
	s := &search{Case: c, budget: c.Budget, cost: math.Inf(1), anyWillDo: true, hint: hint}
	if kind != None {
		s.cost = best.Cost.Total()
	}
	others := best.Proven
	if s.kind(Hybrid); s.found {
		kind, best, s.gaveUp = Hybrid, s.best, false
	}
	best.Proven = others && !s.gaveUp
	return kind, best
}

// search goes through the designs of a kind that cost no more than the budget to buy and less than cost.
func (c *Case) search(kind Kind, budget units.Limit, cost float64) *search {
	s := &search{Case: c, budget: budget, cost: cost}
	s.kind(kind)
	return s
}

// kind goes through the designs of a kind. Where turns are overbooked none of them carries the house.
func (s *search) kind(kind Kind) {
	switch {
	case s.Overbooked(), s.NoTurns:
	case kind == Generator:
		s.generators()
	case kind == Battery:
		s.batteries()
	case kind == Hybrid:
		s.hybrids()
	}
}

// search keeps the best outcome so far.
type search struct {
	*Case
	budget units.Limit
	best   Outcome
	cost   float64
	found  bool
	tries  int // designs run

	anyWillDo bool   // stop at the first found
	gaveUp    bool   // the budget of work ended before the search did
	hint      Design // a hybrid to try first

	needs               needs
	batteryReplacements float64 // over the horizon
}

// spend takes work off the meter. Where nothing is left of it, the search gives up.
func (s *search) spend(steps int) {
	s.meter.Spend(steps)
	s.gaveUp = s.gaveUp || s.meter.Spent()
}

// done says whether to look no further.
func (s *search) done() bool { return s.gaveUp || (s.anyWillDo && s.found) }

// A step of the meter is one stretch of a run between two events. What else takes time counts as so many.
const (
	offerSteps = 20 // making a plant of a design and pricing it
	boundSteps = 4  // a bound that rules a design out
)

// offer tries a design and keeps it if it carries the house, fits the budget and is cheaper. More start hours only add to
// fuel, running hours and so to the price: it stops where that is too high already.
func (s *search) offer(d Design) {
	s.tries++
	s.spend(offerSteps)
	plant := s.Plant(d)
	o := Outcome{Design: d}
	for i := range s.Outages {
		run, carried := s.Outages[i].Carry(&plant)
		s.spend(run.Steps)
		if !carried {
			return
		}
		if i == 0 || harder(run, o.Run) {
			o.Run, o.Start = run, float64(s.Outages[i].Start)
		}
		if i == 0 || run.Fuel > o.Fuel || run.RunHours > o.Hours {
			o.Fuel, o.Hours = max(o.Fuel, run.Fuel), max(o.Hours, run.RunHours)
			o.Cost = s.costOf(d, o.Fuel, o.Hours)
			if o.Cost.Total() >= s.cost || !s.budget.Allows(o.Cost.Purchase) {
				return
			}
		}
	}
	s.best, s.cost, s.found = o, o.Cost.Total(), true
}

func (s *search) generators() {
	for i := range s.Generators {
		d := Design{Machine: &s.Generators[i]}
		if s.costOf(d, 0, 0).Total() < s.cost {
			s.offer(d)
		}
	}
}

// batteries finds the fewest modules that carry the house: a larger battery costs more and is never short where a smaller
// one is not.
func (s *search) batteries() {
	if len(s.InvertersVA) == 0 || !s.Alone {
		return
	}
	for _, va := range s.inverters() {
		fewest := s.fewest(s.mostModules(), func(modules int) bool {
			return s.carries(Design{Modules: modules, InverterVA: va})
		})
		if fewest <= s.mostModules() {
			s.offer(Design{Modules: fewest, InverterVA: va})
		}
	}
}

// fewest is the least number of modules up to most that carries, from where on every number does; most + 1 where none does.
func (s *search) fewest(most int, carries func(modules int) bool) int {
	return s.PowerModules + sort.Search(max(0, most+1-s.PowerModules), func(i int) bool { return carries(s.PowerModules + i) })
}

func (s *search) carries(d Design) bool {
	plant := s.Plant(d)
	for i := range s.Outages {
		run, carried := s.Outages[i].Carry(&plant)
		s.spend(run.Steps)
		if !carried {
			return false
		}
	}
	return true
}

// mostModules is how many the place takes.
func (s *search) mostModules() int { return len(s.Battery.UsableKWh) - 1 }

// inverters lists the sizes that may matter: up to the first that is not below the largest draw.
func (s *search) inverters() []float64 {
	most := needsOf(s.Outages).mostWantKW
	for i, va := range s.InvertersVA {
		if va/1000*s.InverterDerate*s.PowerFactor >= most {
			return s.InvertersVA[:i+1]
		}
	}
	return s.InvertersVA
}
