package choose

import "math"

// This file searches the grid. It is exact: a design is passed over only when a bound that it cannot beat, or a condition
// that it must meet to carry the house, rules it out. The tests hold it to trying every design.

// Best is the cheapest outcome of a kind that carries the house within the budget. Where none does, ok is false and the
// outcome is the one that comes nearest: one that carries it beyond the budget, else the one with the fewest kWh short, and
// of those the cheapest. It is the zero Outcome where there is no design of the kind at all.
func (c *Case) Best(battery, engine bool) (best Outcome, ok bool) {
	s := c.search(battery, engine, 0)
	if s.carried && c.Budget > 0 && s.best.Cost.Purchase > c.Budget {
		if within := c.search(battery, engine, c.Budget); within.carried {
			return within.best, true
		}
		return s.best, false
	}
	return s.best, s.carried
}

// search goes through the designs of a kind that cost no more than the budget to buy, 0 for any.
func (c *Case) search(battery, engine bool, budget float64) *search {
	s := &search{Case: c, budget: budget, cost: math.Inf(1)}
	switch {
	case battery && engine:
		s.hybrids()
	case battery:
		s.batteries()
	case engine:
		s.generators()
	}
	return s
}

// search keeps the best outcome so far.
type search struct {
	*Case
	budget  float64
	best    Outcome
	cost    float64
	carried bool
	tried   bool
}

// offer tries a design and keeps it if it is better.
func (s *search) offer(d Design) {
	o := s.Try(d)
	if s.budget > 0 && o.Cost.Purchase > s.budget {
		return
	}
	switch {
	case o.Carried() && (!s.carried || o.Cost.Total() < s.cost):
		s.carried, s.cost = true, o.Cost.Total()
	case !o.Carried() && !s.carried && (!s.tried || nearer(o, s.best)):
	default:
		return
	}
	s.best, s.tried = o, true
}

func nearer(a, b Outcome) bool {
	if math.Abs(a.Run.ShortKWh-b.Run.ShortKWh) > 1e-9 {
		return a.Run.ShortKWh < b.Run.ShortKWh
	}
	return a.Cost.Total() < b.Cost.Total()
}

func (s *search) generators() {
	for i := range s.Generators {
		s.offer(Design{Machine: &s.Generators[i]})
	}
}

// batteries tries batteries alone from the smallest that has the power, up to the first that carries: a larger one costs
// more and gives nothing more.
func (s *search) batteries() {
	if s.InverterVA == 0 || !s.Battery.MayDischarge {
		return
	}
	for m := s.PowerModules; m <= s.mostModules() && !s.carried; m++ {
		s.offer(Design{Modules: m, InverterVA: s.InverterVA})
	}
}

// mostModules is how many the place takes.
func (s *search) mostModules() int { return len(s.Battery.UsableKWh) - 1 }

// hybrids tries every machine, charger and policy with as many modules as can still be cheaper than the best so far: the
// price without fuel or running hours rises with the modules, so the first that is too dear ends the row.
func (s *search) hybrids() {
	if s.InverterVA == 0 || !s.Battery.MayDischarge || !s.Battery.MayCharge {
		return
	}
	for i := range s.Machines {
		least := s.leastModules(&s.Machines[i])
		for _, kw := range s.ChargersKW {
			for _, policy := range s.Policies {
				for m := least; m <= s.mostModules(); m++ {
					d := Design{m, s.InverterVA, kw, &s.Machines[i], policy}
					floor := s.costOf(d, 0, 0)
					if floor.Total() >= s.cost || (s.budget > 0 && floor.Purchase > s.budget) {
						break
					}
					if s.bound(d) < s.cost {
						s.offer(d)
					}
				}
			}
		}
	}
}

// bound is less than such a design can cost: its price with the least fuel and running hours that the energy balance
// allows.
func (s *search) bound(d Design) float64 {
	fromEngine := max(0, s.Outage.LoadKWh-s.Battery.UsableKWh[d.Modules]*s.Efficiency)
	hours := fromEngine / d.Machine.SiteKW
	fuel := d.Machine.Line.IdleUnitsPerHourPerKW*d.Machine.KW*hours + d.Machine.Line.UnitsPerKWh*fromEngine
	return s.costOf(d, fuel, hours).Total()
}

// leastModules is the fewest modules with which a machine can carry the house at all: they must last through the longest
// quiet hours, and give what the engine cannot in all the hours it may run.
func (s *search) leastModules(m *Machine) int {
	quiet, longest, mayRun := 0.0, 0.0, 0.0
	for _, span := range s.Outage.Spans {
		hours := span.To - span.From
		if !span.Quiet {
			quiet = 0
			mayRun += hours
			continue
		}
		quiet += (span.DrawKW/s.Efficiency + s.IdleKW) * hours
		longest = max(longest, quiet)
	}
	short := (s.Outage.LoadKWh - m.SiteKW*mayRun) / s.Efficiency
	need := max(longest, short)
	for modules := s.PowerModules; modules <= s.mostModules(); modules++ {
		if s.Battery.UsableKWh[modules] >= need*(1-1e-9)-1e-9 {
			return modules
		}
	}
	return s.mostModules() + 1
}
