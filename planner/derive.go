package planner

import (
	"holdover/loads/units"
	"holdover/planner/generator"
	"holdover/planner/inverter"
	"holdover/profiles"
)

// derive has the figures of all that is worked out put down, by the packages that do.
func (r *Result) derive() {
	s, d := r.Sheet, r.duty
	d.Derive(s)
	d.DeriveCoincidence(s)
	if !r.Has.Choice {
		return
	}
	inverterVA := units.VoltAmps(0)
	if made := r.c.InvertersVA; len(made) > 0 {
		inverterVA = units.VoltAmps(made[0])
	}
	inverter.Size(s, d.SplitPhase(), inverterVA)
	d.SizeBattery(s, s.Term("assume.inverter_efficiency"), s.Term("assume.inverter_idle"))
	generator.Size(s, d.LeastGeneratorKW())
	fuel, _ := profiles.FindFuel(r.Home.Limits.Fuels[0])
	generator.Burn(s, &fuel)
	for i := range r.Options {
		if o := &r.Options[i]; o.Outcome.Real() {
			r.both(o, func() { r.c.Derive(s, o.Kind, o.Outcome) })
		}
	}
	if r.Has.Chance {
		r.deriveChance()
	}
	r.addFlips()
}
