// Package inverter answers: how large must the inverter be, steadily, for starts, and on each leg?
package inverter

import "holdover/loads/units"

// A Sizing is an inverter worked out, all at its nameplate, after derating.
type Sizing struct {
	Continuous units.VoltAmps // running VA with the margin
	Surge      units.VoltAmps // the worst moment
	ByLeg      units.VoltAmps // what the heavier leg asks of a split-phase inverter; 0 for one leg
}

// Size works an inverter out.
//
//	continuous = running VA · (1 + margin) / derate; surge = worst moment VA / derate
//	by leg = 2 · heavier leg VA · (1 + margin) / derate, for a split-phase inverter gives half its rating a leg
func Size(running, worst, heavierLeg units.VoltAmps, splitPhase bool, margin, derate float64) Sizing {
	s := Sizing{
		Continuous: running * units.VoltAmps((1+margin)/derate),
		Surge:      worst / units.VoltAmps(derate),
	}
	if splitPhase {
		s.ByLeg = 2 * heavierLeg * units.VoltAmps((1+margin)/derate)
	}
	return s
}
