package choose

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"holdover/planner/effort"
)

// Replacements are what the definition sums up, life by life, and never fewer for a shorter life.
func TestReplacements_AreTheSumAndRiseAsLivesGetShorter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := NewHorizon(rapid.Float64Range(1, 40).Draw(t, "years"), rapid.SampledFrom([]float64{0, 0.001, 0.04, 0.3}).Draw(t, "discount"))
		life := math.Exp(rapid.Float64Range(math.Log(0.01), math.Log(60)).Draw(t, "ln life"))
		sum := 0.0
		for k := 1; float64(k)*life < h.Years-1e-9; k++ {
			sum += math.Pow(1+h.Discount, -float64(k)*life)
		}
		if got := h.Replacements(life); math.Abs(got-sum) > 1e-9*max(1, sum) {
			t.Fatalf("life %g of %g years at %g: %g, life by life %g", life, h.Years, h.Discount, got, sum)
		}
		if shorter := life * rapid.Float64Range(0.01, 1).Draw(t, "shorter"); h.Replacements(shorter) < h.Replacements(life)*(1-1e-12) {
			t.Fatalf("a life of %g asks %g, one of %g only %g", life, h.Replacements(life), shorter, h.Replacements(shorter))
		}
	})
}

// Wear: where hours wear an engine out before its years do, the bound has it, and is no more than what the run's hours ask.
func TestLeastWear_IsNoMoreThanTheRunsOwn(t *testing.T) {
	worn, near := 0, 0
	checkAtLeast(t, 800, func(t *rapid.T) {
		c := smallCase(t)
		c.OutagesPerYear *= rapid.SampledFrom([]float64{1, 5, 25}).Draw(t, "as often")
		s := hybridSearch(c)
		everyDesign(c, Hybrid, func(d Design) {
			o := c.Try(d)
			if !o.Carried() {
				return
			}
			wear := s.leastWear(d.Machine, o.Run.RunHours)
			own := c.machinePrice(d.Machine, o.Run.RunHours).Purchase() * (c.Horizon.Replacements(c.machinePrice(d.Machine, o.Run.RunHours).LifeYears) -
				c.Horizon.Replacements(c.machinePrice(d.Machine, 0).LifeYears))
			if wear > own*(1+1e-9)+1e-9 {
				t.Fatalf("wear of %g h: %g, the price has %g", o.Run.RunHours, wear, own)
			}
			if own > 0 {
				worn++
			}
			if bound, cost := s.leastRunning(d.Machine, d.Modules, d.ChargerKW), runCost(c, o); bound > cost*(1+1e-9)+1e-3 {
				describe(t, "carried", o, true)
				t.Fatalf("bound %g above the run's %g", bound, cost)
			} else if own > 0 && bound > 0.8*cost {
				near++
			}
		})
	})
	if !t.Failed() && (worn < 1000 || near < 100) {
		t.Errorf("%d designs worn out by their hours, the bound near for %d: too few to prove anything", worn, near)
	}
}

// A budget of work: what is called proven is the answer of a search without one, and what is found without proof is a design
// that carries the house and is no cheaper than the best.
func TestBudget_WhatIsProvenIsTheAnswer(t *testing.T) {
	proven, found, nothing := 0, 0, 0
	checkAtLeast(t, 600, func(t *rapid.T) {
		c := smallCase(t)
		steps := int(math.Exp(rapid.Float64Range(0, 12).Draw(t, "ln steps")))
		for _, kind := range []Kind{Generator, Battery, Hybrid} {
			want, wantOK := c.Best(kind)
			if !want.Proven {
				t.Fatalf("%s: a search without an end is not proven", kind)
			}
			got, ok := c.Within(effort.New(context.Background(), steps)).Best(kind)
			switch {
			case got.Proven && (ok != wantOK || (ok && !sameCost(got.Cost.Total(), want.Cost.Total()))):
				t.Fatalf("%s in %d steps: %v at %g is called proven; it is %v at %g", kind, steps, ok, got.Cost.Total(), wantOK, want.Cost.Total())
			case got.Proven:
				proven++
			case ok && (!wantOK || !c.Try(got.Design).Carried() || got.Cost.Total() < want.Cost.Total()*(1-1e-9)):
				t.Fatalf("%s in %d steps: found %+v, which is not carried or is cheaper than the best", kind, steps, got)
			case ok:
				found++
			default:
				nothing++
			}
		}
	})
	t.Logf("%d proven, %d found but not proven, %d nothing and not proven", proven, found, nothing)
	if !t.Failed() && (proven < 100 || found < 100 || nothing < 50) {
		t.Error("too few of a sort to prove anything")
	}
}

// Flips under a budget: one that is called proven is a flip of a search without one, and up to where a quantity is said to
// change nothing, it does not.
func TestBudget_FlipsAreProvenOrSaidNotToBe(t *testing.T) {
	proven, unproven, unsettled := 0, 0, 0
	checkAtLeast(t, 400, func(t *rapid.T) {
		c := caseOf(t, homeText(t))
		fewMachines(t, c)
		chosen, _ := c.Choose()
		all, _ := c.FlipPoints(chosen)
		steps := int(math.Exp(rapid.Float64Range(6, 15).Draw(t, "ln steps")))
		some, open := c.Within(effort.New(context.Background(), steps)).FlipPoints(chosen)
		at := func(quantity string, up bool) float64 {
			for _, f := range all {
				if f.Quantity == quantity && f.Up() == up {
					return f.At
				}
			}
			return map[bool]float64{true: math.Inf(1), false: 0}[up]
		}
		for _, f := range some {
			truth := at(f.Quantity, f.Up())
			switch {
			case f.Proven && math.Abs(math.Log(f.At/truth)) > 1e-9:
				t.Fatalf("in %d steps %+v; without an end it is at %g", steps, f, truth)
			case f.Proven:
				proven++
			case (f.Up() && truth > f.At*(1+1e-9)) || (!f.Up() && truth < f.At*(1-1e-9)):
				t.Fatalf("in %d steps %+v; but it is beyond, at %g", steps, f, truth)
			default:
				unproven++
			}
		}
		for _, u := range open {
			unsettled++
			if u.UpTo != u.Now && kindAt(c, dialOf(c, u.Quantity), u.UpTo) != chosen {
				t.Fatalf("in %d steps nothing is said to change up to %+v, but there it does", steps, u)
			}
		}
	})
	t.Logf("%d proven, %d not to the point, %d unsettled", proven, unproven, unsettled)
	if !t.Failed() && (proven < 10 || unproven == 0 || unsettled < 50) {
		t.Error("too few of a sort to prove anything")
	}
}
