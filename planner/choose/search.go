package choose

import (
	"cmp"
	"math"
	"slices"
)

// This file searches the grid. It is exact: a design is passed over only when something proved says that it cannot be the
// answer. What is proved:
//
//   - Price: without fuel and running hours a design costs less than it does, and that price rises with modules, charger
//     and inverter. Once it reaches the best cost so far, the row is done.
//   - Energy: the engine must give at least the load less sun and a full battery, which bounds fuel and hours from below.
//   - At best: with fuel without end and an engine on whenever it may be, the charge is never lower than under any start
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
	s := c.search(kind, 0, math.Inf(1))
	if s.found && c.Budget > 0 && s.best.Cost.Purchase > c.Budget {
		if within := c.search(kind, c.Budget, math.Inf(1)); within.found {
			return within.best, true
		}
		return s.best, false
	}
	if !s.found {
		s.nearest(kind)
	}
	return s.best, s.found
}

// Choose is the kind of the cheapest design of all that carries the house within the budget, and that design.
func (c *Case) Choose() (Kind, Outcome) {
	kind, best, cost := None, Outcome{}, math.Inf(1)
	for _, k := range []Kind{Generator, Battery, Hybrid} {
		if s := c.search(k, c.Budget, cost); s.found {
			kind, best, cost = k, s.best, s.cost
		}
	}
	return kind, best
}

// ChosenKind is the kind that Choose would choose. It need not know the best hybrid, only whether one is cheaper than the
// other kinds' best, so it stops at the first that is.
func (c *Case) ChosenKind() Kind {
	kind, cost := None, math.Inf(1)
	for _, k := range []Kind{Generator, Battery} {
		if s := c.search(k, c.Budget, cost); s.found {
			kind, cost = k, s.cost
		}
	}
	s := &search{Case: c, budget: c.Budget, cost: cost, anyWillDo: true}
	if s.hybrids(); s.found {
		return Hybrid
	}
	return kind
}

// search goes through the designs of a kind that cost no more than the budget to buy (0: any) and less than cost.
func (c *Case) search(kind Kind, budget, cost float64) *search {
	s := &search{Case: c, budget: budget, cost: cost}
	switch kind {
	case Generator:
		s.generators()
	case Battery:
		s.batteries()
	case Hybrid:
		s.hybrids()
	}
	return s
}

// search keeps the best outcome so far.
type search struct {
	*Case
	budget float64
	best   Outcome
	cost   float64
	found  bool
	tries  int // designs run

	anyWillDo bool // stop at the first found

	needs               needs
	batteryReplacements float64 // over the horizon
}

// offer tries a design and keeps it if it carries the house, fits the budget and is cheaper. More start hours only add to
// fuel, running hours and so to the price: it stops where that is too high already.
func (s *search) offer(d Design) {
	s.tries++
	plant := s.Plant(d)
	o := Outcome{Design: d}
	fuel, hours := 0.0, 0.0
	for i := range s.Outages {
		run, carried := s.Outages[i].Carry(&plant)
		if !carried {
			return
		}
		if i == 0 || harder(run, o.Run) {
			o.Run, o.Start = run, float64(s.Outages[i].Start)
		}
		if i == 0 || run.Fuel > fuel || run.RunHours > hours {
			fuel, hours = max(fuel, run.Fuel), max(hours, run.RunHours)
			o.Cost = s.costOf(d, fuel, hours)
			if o.Cost.Total() >= s.cost || (s.budget > 0 && o.Cost.Purchase > s.budget) {
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
	if len(s.InvertersVA) == 0 || !s.Battery.MayDischarge {
		return
	}
	for _, va := range s.inverters() {
		low, high := s.PowerModules, s.mostModules()+1
		for low < high {
			middle := (low + high) / 2
			if s.carries(Design{Modules: middle, InverterVA: va}) {
				high = middle
			} else {
				low = middle + 1
			}
		}
		if low <= s.mostModules() {
			s.offer(Design{Modules: low, InverterVA: va})
		}
	}
}

func (s *search) carries(d Design) bool {
	plant := s.Plant(d)
	for i := range s.Outages {
		if _, carried := s.Outages[i].Carry(&plant); !carried {
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

// hybrids goes through machines, cheapest first, then inverters, chargers, modules and policies.
func (s *search) hybrids() {
	if len(s.InvertersVA) == 0 || !s.Battery.MayDischarge || !s.Battery.MayCharge {
		return
	}
	s.needs = needsOf(s.Outages)
	s.batteryReplacements = s.Horizon.Replacements(s.Battery.LifeYears)
	inverters := s.inverters()
	known := map[float64][][]int{} // fewest modules at best by site rating, inverter and charger
	least := s.costOf(Design{Modules: s.PowerModules, InverterVA: s.InvertersVA[0], ChargerKW: s.ChargersKW[0]}, 0, 0).Total()
	for _, m := range s.machinesByPrice() {
		if least+m.cost >= s.cost {
			return
		}
		if math.IsInf(s.leastFuel(m.Machine, s.mostModules(), s.ChargersKW[len(s.ChargersKW)-1]), 1) {
			continue
		}
		if known[m.SiteKW] == nil {
			known[m.SiteKW] = make([][]int, len(inverters))
			for v := range inverters {
				known[m.SiteKW][v] = make([]int, len(s.ChargersKW))
			}
		}
		for v, va := range inverters {
			for c := range s.ChargersKW {
				if s.row(m, va, c, known[m.SiteKW][v]); s.anyWillDo && s.found {
					return
				}
			}
		}
	}
}

// A priced machine is one with its cost without fuel and hours.
type priced struct {
	*Machine
	cost, purchase float64
}

func (s *search) machinesByPrice() []priced {
	out := make([]priced, len(s.Machines))
	for i := range s.Machines {
		m := &s.Machines[i]
		var cost Cost
		cost.add(s.Horizon, s.machinePrice(m, 0))
		cost.add(s.Horizon, storePrice(m, 0))
		out[i] = priced{m, cost.Total(), cost.Purchase}
	}
	slices.SortStableFunc(out, func(a, b priced) int { return cmp.Compare(a.cost, b.cost) })
	return out
}

// row tries one machine, inverter and charger with every number of modules that can carry the house and still be cheaper.
func (s *search) row(m priced, va float64, c int, known []int) {
	kw := s.ChargersKW[c]
	rest := s.costOf(Design{Modules: 1, InverterVA: va, ChargerKW: kw}, 0, 0)
	floor := m.cost + rest.Total()
	most := s.affordable(m.purchase+rest.Purchase, floor)
	if most < s.PowerModules || floor+s.leastFuel(m.Machine, most, kw) >= s.cost {
		return
	}
	for modules := s.leastModules(m.Machine, va, c, known); modules <= most; modules++ {
		more := s.moreModules(modules).Total()
		if s.sameRun(m.Machine, modules, c) || floor+more+s.leastFuel(m.Machine, modules, kw) >= s.cost {
			continue
		}
		for _, policy := range s.Policies {
			if s.offer(Design{modules, va, kw, m.Machine, policy}); s.anyWillDo && s.found {
				return
			}
		}
	}
}

// affordable is the most modules with which a design can still be bought within the budget and cost less than the best so
// far, given what it costs to buy, and costs in all, with one module and without fuel.
func (s *search) affordable(purchase, cost float64) int {
	most := s.mostModules()
	one := s.moreModules(2)
	if one.Purchase <= 0 {
		return most
	}
	fits := func(room, each float64) int {
		return 1 + int(min(float64(MaxModules), math.Floor(room/each*(1+1e-12))))
	}
	if s.budget > 0 {
		most = min(most, fits(s.budget-purchase, one.Purchase))
	}
	if !math.IsInf(s.cost, 1) {
		most = min(most, fits(s.cost-cost, one.Total()))
	}
	return most
}

// moreModules is what modules beyond the first add to the price.
func (s *search) moreModules(modules int) Cost {
	purchase := float64(modules-1) * s.Battery.ModuleKWh * s.rates.batteryPerKWh
	return Cost{Purchase: purchase, Replacement: purchase * s.batteryReplacements}
}

// sameRun says whether the next smaller charger passes as much already.
func (s *search) sameRun(m *Machine, modules, c int) bool {
	if c == 0 {
		return false
	}
	return s.ChargersKW[c-1] >= min(s.batteryTakesKW(modules), m.SiteKW-min(m.SiteKW, s.needs.leastWantKW))
}

// leastModules is the fewest modules with which an engine that is always on carries the house; one more than the place
// takes when none does. known holds what has been found for this site rating and inverter, by charger.
func (s *search) leastModules(m *Machine, va float64, c int, known []int) int {
	if known[c] > 0 {
		return known[c]
	}
	low, high := s.PowerModules, s.mostModules()+1
	if c > 0 && known[c-1] > 0 {
		high = known[c-1]
	}
	for low < high {
		middle := (low + high) / 2
		if s.carriesAtBest(Design{Modules: middle, InverterVA: va, ChargerKW: s.ChargersKW[c], Machine: m}) {
			high = middle
		} else {
			low = middle + 1
		}
	}
	known[c] = low
	return low
}

func (s *search) carriesAtBest(d Design) bool {
	plant := s.Plant(d)
	for i := range s.Outages {
		if !s.Outages[i].CarriesAtBest(&plant) {
			return false
		}
	}
	return true
}
