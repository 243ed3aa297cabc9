package choose

import (
	"math"

	"holdover/planner/queue"
)

// hybrids goes through the grid, what looks cheapest first: a good design found early lets the bounds pass over most of the
// others. A machine stands in the queue as a whole until it comes first, and then with its rows.
func (s *search) hybrids() {
	if len(s.InvertersVA) == 0 || !s.Beside || s.PowerModules > s.mostModules() {
		return
	}
	s.needs = needsOf(s.Outages)
	s.batteryReplacements = s.Horizon.Replacements(s.Battery.LifeYears)
	if s.offerHint(); s.done() {
		return
	}
	g := s.grid()
	open := queue.New((*row).looksCheaper, s.machines(g)...)
	for open.Len() > 0 && !s.done() {
		switch r := open.First(); {
		case r.whole:
			open.Pop()
			if r.looks < s.cost {
				for _, r := range s.rows(g, r) {
					open.Push(r)
				}
			}
		case s.goOn(r):
			open.Fix()
		default:
			open.Pop()
		}
	}
}

// offerHint tries the design that was the answer to a question alike.
func (s *search) offerHint() {
	d := s.hint
	if d.Machine == nil || d.Modules < s.PowerModules || d.Modules > s.mostModules() {
		return
	}
	for i := range s.Machines {
		if s.Machines[i].same(d.Machine) {
			d.Machine = &s.Machines[i]
			s.offer(d)
			return
		}
	}
}

// A row of the grid is one machine, inverter and charger with every number of modules; whole stands for all rows of a machine.
type row struct {
	whole           bool
	machine         *Machine
	va              float64
	charger         int     // of ChargersKW
	purchase, floor float64 // to buy, and in all, with one module and without fuel and hours; of a whole machine, by itself
	known           []int   // fewest modules of this site rating and inverter, by charger; 0 while not known
	modules         int     // to be tried next
	begun           bool    // modules is no fewer than carry the house at best
	looks           float64 // what it looks to cost with so many modules: no more than it does
}

// known is the fewest modules that carry the house at best, by site rating, then by inverter and charger; 0 while not known.
type known map[float64][]int

// A grid is what battery, inverter and charger cost, with one module, by inverter and charger, and the fewest modules known.
type grid struct {
	inverters []float64
	bare      []Cost
	cheapest  float64
	known     known
}

func (s *search) grid() grid {
	g := grid{inverters: s.inverters(), cheapest: math.Inf(1), known: s.Case.known}
	if g.known == nil {
		g.known = known{}
	}
	for _, va := range g.inverters {
		for _, kw := range s.ChargersKW {
			cost := s.costOf(Design{Modules: 1, InverterVA: va, ChargerKW: kw}, 0, 0)
			g.bare, g.cheapest = append(g.bare, cost), min(g.cheapest, cost.Total())
		}
	}
	return g
}

// machines lists those that fuel does not rule out, each as a whole: it looks to cost no more than any of its rows does, with
// the fewest modules there may be and the fuel and wear of the most.
func (s *search) machines(g grid) []*row {
	all := make([]row, 0, len(s.Machines))
	least := g.cheapest + s.moreModules(s.PowerModules).Total()
	for i := range s.Machines {
		m := &s.Machines[i]
		var own Cost
		own.add(s.Horizon, s.machinePrice(m, 0))
		own.add(s.Horizon, storePrice(m, 0))
		running := s.leastRunning(m, s.mostModules(), s.ChargersKW[len(s.ChargersKW)-1])
		if r := (row{whole: true, machine: m, purchase: own.Purchase, floor: own.Total(), looks: own.Total() + least + running}); r.looks < s.cost {
			all = append(all, r)
		}
	}
	return pointers(all)
}

// rows lists the rows of a machine.
func (s *search) rows(g grid, machine *row) []*row {
	m, chargers := machine.machine, len(s.ChargersKW)
	if g.known[m.SiteKW] == nil {
		g.known[m.SiteKW] = make([]int, len(g.bare))
	}
	all := make([]row, len(g.bare))
	for k, rest := range g.bare {
		v := k / chargers
		all[k] = row{machine: m, va: g.inverters[v], charger: k % chargers, purchase: machine.purchase + rest.Purchase,
			floor: machine.floor + rest.Total(), known: g.known[m.SiteKW][v*chargers:][:chargers], modules: s.PowerModules}
		s.look(&all[k])
	}
	s.spend(len(all))
	return pointers(all)
}

func pointers(rows []row) []*row {
	out := make([]*row, len(rows))
	for i := range rows {
		out[i] = &rows[i]
	}
	return out
}

// look works out what a row looks to cost with the modules to be tried next.
func (s *search) look(r *row) {
	r.looks = r.floor + s.moreModules(r.modules).Total() + s.leastRunning(r.machine, r.modules, s.ChargersKW[r.charger])
}

// goOn tries a row with the number of modules that it has come to; false where it is done with. One that is looked at for the
// first time only learns how few modules will do at best, and is put back to where that has it.
func (s *search) goOn(r *row) bool {
	s.spend(boundSteps)
	kw, most := s.ChargersKW[r.charger], s.affordable(r.purchase, r.floor)
	if !r.begun {
		r.begun, r.modules = true, s.leastModules(r.machine, r.va, r.charger, r.known)
		if r.modules > most {
			return false
		}
		s.look(r)
		return true
	}
	// However many more modules, fuel and wear are no less than with the most.
	if r.modules > most || r.floor+s.moreModules(r.modules).Total()+s.leastRunning(r.machine, most, kw) >= s.cost {
		return false
	}
	if r.looks < s.cost && !s.sameRun(r.machine, r.modules, r.charger) {
		for _, policy := range s.Policies {
			if s.offer(Design{r.modules, r.va, kw, r.machine, policy}); s.done() {
				return false
			}
		}
	}
	if r.modules++; r.modules > most {
		return false
	}
	s.look(r)
	return true
}

// looksCheaper orders rows by what they look to cost, equals by the fewer modules.
func (r *row) looksCheaper(other *row) bool {
	return r.looks < other.looks || (r.looks == other.looks && r.modules < other.modules)
}

// affordable is the most modules with which a design can still be bought within the budget and cost less than the best so
// far, given what it costs to buy, and costs in all, with one module and without fuel.
func (s *search) affordable(purchase, cost float64) int {
	one := s.moreModules(2)
	if one.Purchase <= 0 {
		return s.mostModules()
	}
	fits := func(room, each float64) int {
		return 1 + int(min(float64(MaxModules), math.Floor(room/each*(1+1e-12))))
	}
	return min(s.mostModules(), fits(s.budget.Most()-purchase, one.Purchase), fits(s.cost-cost, one.Total()))
}

// moreModules is what modules beyond the first add to the price.
func (s *search) moreModules(modules int) Cost {
	purchase := float64(modules-1) * s.Battery.ModuleKWh * s.rates.battery.PerKWh.Typical
	return Cost{Purchase: purchase, Replacement: purchase * s.batteryReplacements}
}

// sameRun says whether the next smaller charger passes as much already.
func (s *search) sameRun(m *Machine, modules, c int) bool {
	if c == 0 {
		return false
	}
	return s.ChargersKW[c-1] >= min(s.Battery.TakesKW(modules), m.SiteKW-min(m.SiteKW, s.needs.leastWantKW))
}

// leastModules is the fewest modules with which an engine that is always on carries the house; one more than the place
// takes when none does. known holds what has been found for this site rating and inverter, by charger.
func (s *search) leastModules(m *Machine, va float64, c int, known []int) int {
	if known[c] > 0 {
		return known[c]
	}
	most := s.mostModules()
	for k := c - 1; k >= 0; k-- {
		if known[k] > 0 {
			most = known[k] - 1 // a larger charger never takes more of them
			break
		}
	}
	known[c] = s.fewest(most, func(modules int) bool {
		return s.carriesAtBest(Design{Modules: modules, InverterVA: va, ChargerKW: s.ChargersKW[c], Machine: m})
	})
	return known[c]
}

// spansAStep is how many spans of an outage count as a step of the bound, which seldom follows more than a few of its days.
const spansAStep = 16

func (s *search) carriesAtBest(d Design) bool {
	plant := s.Plant(d)
	for i := range s.Outages {
		s.spend(len(s.Outages[i].Spans) / spansAStep)
		if !s.Outages[i].CarriesAtBest(&plant) {
			return false
		}
	}
	return true
}
