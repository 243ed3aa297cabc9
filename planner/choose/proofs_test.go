package choose

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// hybridSearch makes the state that the bounds work from, without searching.
func hybridSearch(c *Case) *search {
	return &search{Case: c, needs: needsOf(c.Outages), batteryReplacements: c.Horizon.Replacements(c.Battery.LifeYears)}
}

// runCost is what fuel and running hours cost a design: with them less without.
func runCost(c *Case, o Outcome) float64 {
	return o.Cost.Total() - c.costOf(o.Design, 0, 0).Total()
}

// Energy: no carried run costs less than the bound; where the store is said not to be enough, nothing is carried. A shortfall
// that still counts as rounding may save a millionth of a kWh.
func TestLeastRunning_IsNeverAboveTheRun(t *testing.T) {
	carried, near := 0, 0
	checkAtLeast(t, 1000, func(t *rapid.T) {
		c := smallCase(t)
		s := hybridSearch(c)
		everyDesign(c, Hybrid, func(d Design) {
			o := c.Try(d)
			if !o.Carried() {
				return
			}
			carried++
			bound, cost := s.leastRunning(d.Machine, d.Modules, d.ChargerKW), runCost(c, o)
			if bound > cost*(1+1e-9)+1e-3 {
				describe(t, "carried", o, true)
				t.Fatalf("bound %g above the run's %g", bound, cost)
			}
			if bound > 0.8*cost && bound > 0 {
				near++
			}
		})
	})
	t.Logf("%d carried designs; the bound within a fifth of the cost in %d", carried, near)
	if !t.Failed() && near < 300 {
		t.Error("the bound is hardly ever near: it proves nothing")
	}
}

// Energy: the bound falls with modules and charger, so the largest of both speak for a machine.
func TestLeastRunning_FallsWithModulesAndCharger(t *testing.T) {
	endless := 0
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := smallCase(t)
		s := hybridSearch(c)
		for i := range c.Machines {
			m := &c.Machines[i]
			for modules := c.PowerModules; modules < len(c.Battery.UsableKWh); modules++ {
				for k, kw := range c.ChargersKW {
					bound := s.leastRunning(m, modules, kw)
					if math.IsInf(bound, 1) {
						endless++
					}
					if modules > c.PowerModules && s.leastRunning(m, modules-1, kw) < bound*(1-1e-9) {
						t.Fatalf("%d modules: bound %g; one fewer: %g", modules, bound, s.leastRunning(m, modules-1, kw))
					}
					if k > 0 && s.leastRunning(m, modules, c.ChargersKW[k-1]) < bound*(1-1e-9) {
						t.Fatalf("charger %g kW: bound %g; %g kW: %g", kw, bound, c.ChargersKW[k-1], s.leastRunning(m, modules, c.ChargersKW[k-1]))
					}
				}
			}
		}
	})
	if !t.Failed() && endless == 0 {
		t.Error("no store was ever too small")
	}
}

// Same run: a charger passed over gives the very run of the next smaller one, under every policy.
func TestSameRun_IsTheSameRun(t *testing.T) {
	same, different := 0, 0
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := smallCase(t)
		s := hybridSearch(c)
		everyDesign(c, Hybrid, func(d Design) {
			k := 0
			for c.ChargersKW[k] != d.ChargerKW {
				k++
			}
			if !s.sameRun(d.Machine, d.Modules, k) {
				different++
				return
			}
			same++
			smaller := d
			smaller.ChargerKW = c.ChargersKW[k-1]
			if a, b := c.Try(d), c.Try(smaller); a.Run != b.Run || a.Cost.Total() < b.Cost.Total() {
				describe(t, "charger", a, true)
				describe(t, "smaller", b, true)
				t.Fatal("not the same run, or not dearer")
			}
		})
	})
	if !t.Failed() && (same < 1000 || different < 1000) {
		t.Errorf("%d the same, %d not: too few", same, different)
	}
}

// Same run: an inverter beyond the first that is not below the largest draw changes nothing but the price.
func TestInverters_BeyondTheLargestDrawChangeNothing(t *testing.T) {
	left := 0
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := smallCase(t)
		kept := hybridSearch(c).inverters()
		last := kept[len(kept)-1]
		try := func(d Design) {
			if d.InverterVA <= last {
				return
			}
			left++
			smaller := d
			smaller.InverterVA = last
			if a, b := c.Try(d), c.Try(smaller); a.Run != b.Run || a.Cost.Total() < b.Cost.Total() {
				describe(t, "inverter", a, true)
				describe(t, "smaller", b, true)
				t.Fatal("not the same run, or not dearer")
			}
		}
		everyDesign(c, Battery, try)
		everyDesign(c, Hybrid, try)
	})
	if !t.Failed() && left < 1000 {
		t.Errorf("%d inverters left out: too few", left)
	}
}

// At best: no design with fewer modules than the least is carried under any policy, and halving finds what trying each
// number finds.
func TestLeastModules_NothingBelowIsCarried(t *testing.T) {
	below, carried := 0, 0
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := smallCase(t)
		s := hybridSearch(c)
		everyDesign(c, Hybrid, func(d Design) {
			atBest := s.carriesAtBest(d)
			k := 0
			for c.ChargersKW[k] != d.ChargerKW {
				k++
			}
			least := s.leastModules(d.Machine, d.InverterVA, k, make([]int, len(c.ChargersKW)))
			if atBest != (d.Modules >= least) {
				t.Fatalf("at best with %d modules: %v; the least is said to be %d", d.Modules, atBest, least)
			}
			if s.carries(d) {
				carried++
				if !atBest {
					describe(t, "carried", c.Try(d), true)
					t.Fatal("carried under a policy, but not at best")
				}
			}
			if !atBest {
				below++
			}
		})
	})
	if !t.Failed() && (below < 1000 || carried < 1000) {
		t.Errorf("%d below, %d carried: too few", below, carried)
	}
}

// Price: with neither fuel nor hours a design costs no more than as it ran, and the price rises with modules, inverter and
// charger.
func TestPrice_RisesWithTheMachines(t *testing.T) {
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := smallCase(t)
		everyDesign(c, Hybrid, func(d Design) {
			o, bare := c.Try(d), c.costOf(d, 0, 0)
			if bare.Total() > o.Cost.Total()*(1+1e-12) || bare.Purchase > o.Cost.Purchase*(1+1e-12) {
				t.Fatalf("bare %+v, as it ran %+v", bare, o.Cost)
			}
			for what, change := range map[string]func(*Design){
				"modules":  func(d *Design) { d.Modules++ },
				"inverter": func(d *Design) { d.InverterVA *= 1.5 },
				"charger":  func(d *Design) { d.ChargerKW *= 1.5 },
			} {
				more := d
				change(&more)
				if dearer := c.costOf(more, 0, 0); dearer.Total() < bare.Total() || dearer.Purchase < bare.Purchase {
					t.Fatalf("more %s: %+v, before %+v", what, dearer, bare)
				}
			}
		})
	})
}
