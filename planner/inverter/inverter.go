// Package inverter answers: how large must the inverter be, steadily, for starts, and on each leg?
package inverter

import (
	"holdover/loads/units"
	"holdover/profiles"
)

// A Sizing is an inverter worked out, all at its nameplate, after derating.
type Sizing struct {
	Continuous units.VoltAmps // running VA with the margin
	Surge      units.VoltAmps // the worst moment
	ByLeg      units.VoltAmps // what the heavier leg asks of a split-phase inverter; 0 for one leg
	Made       units.VoltAmps // the next size made that gives all three; 0 when none does
}

// Size works an inverter out.
//
//	continuous = running VA · (1 + margin) / derate; surge = worst moment VA / derate
//	by leg = 2 · heavier leg VA · (1 + margin) / derate, for a split-phase inverter gives half its rating a leg
//
// surgeRatio is what an inverter gives for a start's length over what it gives steadily.
func Size(running, worst, heavierLeg units.VoltAmps, splitPhase bool, margin, derate, surgeRatio float64) Sizing {
	s := Sizing{
		Continuous: running * units.VoltAmps((1+margin)/derate),
		Surge:      worst / units.VoltAmps(derate),
	}
	if splitPhase {
		s.ByLeg = 2 * heavierLeg * units.VoltAmps((1+margin)/derate)
	}
	s.Made = NextMade(max(s.Continuous, s.ByLeg, s.Surge/units.VoltAmps(surgeRatio)))
	return s
}

// NextMade is the smallest size made that gives so many VA, or 0 when there is none.
func NextMade(va units.VoltAmps) units.VoltAmps {
	for _, size := range profiles.InverterSizesVA() {
		if size >= float64(va)*(1-1e-9) {
			return units.VoltAmps(size)
		}
	}
	return 0
}
