// Package inverter answers: how large must the inverter be, steadily, for starts, and on each leg?
package inverter

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/derive"
)

// Size works an inverter out from the figures of a load and a site, all at its nameplate, and puts it down: for the running draw, for
// the worst moment and, split-phase, for the heavier leg. made is the smallest size that does the part; 0 where none does.
func Size(f *derive.Figures, splitPhase bool, made units.VoltAmps) {
	margin, derate := f.Term("assume.power_margin"), f.Term("site.inverter_derate")
	f.Put("inverter.continuous_va", "VA", Continuous(f.Term("load.running_va"), margin, derate), "")
	start := fmt.Sprintf("held for %.3g s", f.Value("load.start_seconds"))
	f.Put("inverter.surge_va", "VA", f.Term("load.worst_moment_va").Over(derate).With(start, "load.start_seconds"), "")
	from := []string{"inverter.continuous_va", "inverter.surge_va", "assume.inverter_surge"}
	if splitPhase {
		byLeg := Continuous(derive.Number(2).Times(f.Term("load.heavier_leg_va")), margin, derate)
		f.Put("inverter.by_leg_va", "VA", byLeg.With("for a 120/240 V inverter gives half its rating on each leg"), "")
		from = append(from, "inverter.by_leg_va")
	}
	f.Note("inverter.size_va", float64(made), "VA", "the smallest size made on which every check of power, starts and legs holds; 0 where none is made",
		"sizes commonly sold, common practice, no source", from...)
}

// Continuous is the nameplate, VA, that gives a running draw with its margin here.
func Continuous(running, margin, derate derive.Term) derive.Term {
	return running.Times(derive.One.Plus(margin)).Over(derate)
}
