package choose

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"holdover/loads/units"
)

// everyDesign calls try with each design of a kind: the whole grid, nothing passed over. What the grid is: at least the
// modules that give the running power, no battery too cold or hot to give or, in a hybrid, to take charge.
func everyDesign(c *Case, kind Kind, try func(Design)) {
	if kind == Generator {
		for i := range c.Generators {
			try(Design{Machine: &c.Generators[i]})
		}
		return
	}
	if (kind == Battery && !c.Alone) || (kind == Hybrid && !c.Beside) {
		return
	}
	for modules := c.PowerModules; modules < len(c.Battery.UsableKWh); modules++ {
		for _, va := range c.InvertersVA {
			if kind == Battery {
				try(Design{Modules: modules, InverterVA: va})
				continue
			}
			for _, kw := range c.ChargersKW {
				for i := range c.Machines {
					for _, policy := range c.Policies {
						try(Design{modules, va, kw, &c.Machines[i], policy})
					}
				}
			}
		}
	}
}

// bruteBest is the cheapest design of a kind that is carried within the budget, by trying them all.
func bruteBest(c *Case, kind Kind) (best Outcome, ok bool) {
	cost := math.Inf(1)
	everyDesign(c, kind, func(d Design) {
		o := c.Try(d)
		within := o.Cost.Purchase <= c.Budget.Most()
		if o.Carried() && within && o.Cost.Total() < cost {
			best, cost, ok = o, o.Cost.Total(), true
		}
	})
	return best, ok
}

// describe says a design for a failure's message.
func describe(t *rapid.T, what string, o Outcome, ok bool) {
	t.Logf("%s: ok %v, %d modules, %g VA, charger %g kW, %+v, cost %g, short %g kWh, fuel %g, hours %g", what, ok, o.Modules, o.InverterVA,
		o.ChargerKW, o.Policy, o.Cost.Total(), o.Run.ShortKWh, o.Run.Fuel, o.Run.RunHours)
	if m := o.Machine; m != nil {
		t.Logf("    on %s %s %g kW (%g here), store %g", m.Fuel.Name, m.Kind, m.KW, m.SiteKW, m.Store.Most())
	}
}

// sameCost allows the rounding of sums taken in another order.
func sameCost(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

// The choice is exact: the search's answer costs what the cheapest of all designs costs, for each kind and over all, and
// says there is none just where there is none.
func TestChoice_EqualsTryingEveryDesign(t *testing.T) {
	found := map[Kind]int{}
	chosen := map[Kind]int{}
	cases, designs := 0, 0
	checkAtLeast(t, 1200, func(t *rapid.T) {
		c := smallCase(t)
		cheapest, kind := math.Inf(1), None
		cases++
		for _, k := range []Kind{Generator, Battery, Hybrid} {
			want, wantOK := bruteBest(c, k)
			got, ok := c.Best(k)
			if ok != wantOK || (ok && !sameCost(got.Cost.Total(), want.Cost.Total())) {
				describe(t, "brute force", want, wantOK)
				describe(t, "search", got, ok)
				t.Fatalf("%s: the search differs from trying every design", k)
			}
			if ok && (!c.Try(got.Design).Carried() || !c.Budget.Allows(got.Cost.Purchase)) {
				t.Fatalf("%s: the best is not carried within the budget", k)
			}
			if wantOK {
				found[k]++
				if want.Cost.Total() < cheapest*(1-1e-9) {
					cheapest, kind = want.Cost.Total(), k
				}
			}
			everyDesign(c, k, func(Design) { designs++ })
		}
		got, best := c.Choose()
		chosen[got]++
		if (got == None) != (kind == None) || (kind != None && !sameCost(best.Cost.Total(), cheapest)) {
			t.Fatalf("chosen %s at %g; the cheapest of all is %s at %g", got, best.Cost.Total(), kind, cheapest)
		}
	})
	t.Logf("%d cases, %d designs tried; carried by kind %v; chosen %v", cases, designs, found, chosen)
	if !t.Failed() {
		for _, k := range []Kind{Generator, Battery, Hybrid} {
			if found[k] < cases/10 || chosen[k] < cases/50 {
				t.Errorf("%s is carried in %d and chosen in %d of %d cases: too few to prove anything", k, found[k], chosen[k], cases)
			}
		}
	}
}

// Where nothing is within the budget the outcome is the cheapest that carries the house beyond it. A place too small for the
// running power is left out: its outcome is no design of the grid.
func TestChoice_BeyondTheBudgetStillCarries(t *testing.T) {
	beyond := 0
	checkAtLeast(t, 200, func(t *rapid.T) {
		c := smallCase(t)
		c.Budget = units.AtMost(1)
		if c.PowerModules >= len(c.Battery.UsableKWh) {
			t.Skip("too small")
		}
		for _, k := range []Kind{Generator, Battery, Hybrid} {
			got, ok := c.Best(k)
			if ok {
				t.Fatalf("%s within a budget of 1: %+v", k, got)
			}
			free := *c
			free.Budget = units.Limit{}
			want, any := bruteBest(&free, k)
			if any != (got.Real() && got.Carried()) {
				t.Fatalf("%s: carried without a budget %v, but the outcome beyond it is %+v", k, any, got)
			}
			if any {
				beyond++
				if !sameCost(got.Cost.Total(), want.Cost.Total()) {
					t.Fatalf("%s beyond the budget: %g, the cheapest is %g", k, got.Cost.Total(), want.Cost.Total())
				}
			}
		}
	})
	if beyond == 0 {
		t.Error("no case was carried beyond its budget")
	}
}
