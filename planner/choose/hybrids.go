package choose

import (
	"cmp"
	"math"
	"slices"
)

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
	most := s.mostModules()
	if c > 0 && known[c-1] > 0 {
		most = known[c-1] - 1 // a larger charger never takes more of them
	}
	known[c] = s.fewest(most, func(modules int) bool {
		return s.carriesAtBest(Design{Modules: modules, InverterVA: va, ChargerKW: s.ChargersKW[c], Machine: m})
	})
	return known[c]
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
